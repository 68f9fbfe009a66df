/* cw-cards-sheet.c: one printed page on the screen.
 *
 * The page is drawn once, on a worker thread, into an image of the size it is shown at; a frame only paints that image.
 * While a new one is under way the old one stays, stretched if need be. Pages out of sight keep no image. Over the
 * image lie the spots of its words.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "cw-cards-sheet.h"

#include <glib/gi18n-lib.h>
#include <math.h>

/* Zooms are equal within this. */
#define SAME_ZOOM 1e-6

struct _CwCardsSheet
{
  GtkWidget parent_instance;

  CwPages *pages;
  guint page;
  double zoom;
  gboolean is_near;
  GPtrArray *spots; /* of CwCardsSpot, borrowed */

  cairo_surface_t *image;
  CwPages *image_pages;
  guint image_page;
  double image_zoom;
  int image_scale;
  gboolean drawing; /* a worker is under way */
};

G_DEFINE_FINAL_TYPE (CwCardsSheet, cw_cards_sheet, GTK_TYPE_WIDGET)

enum
{
  PICKED,
  MOVED,
  N_SIGNALS
};
static guint signals[N_SIGNALS];

typedef struct
{
  CwPages *pages;
  guint page;
  double zoom;
  int scale;
} Job;

static void draw_page (CwCardsSheet *self);

static void
job_free (gpointer data)
{
  cw_pages_unref (((Job *) data)->pages);
  g_free (data);
}

static void
work (GTask *task, gpointer source, gpointer data, GCancellable *cancellable)
{
  const Job *job = data;
  cairo_surface_t *image = NULL;
  cairo_t *cr = NULL;
  double width, height;

  cw_pages_get_size (job->pages, job->page, &width, &height);
  image = cairo_image_surface_create (CAIRO_FORMAT_RGB24, (int) ceil (width * job->zoom) * job->scale,
                                      (int) ceil (height * job->zoom) * job->scale);
  cr = cairo_create (image);
  cairo_scale (cr, job->zoom * job->scale, job->zoom * job->scale);
  cw_pages_draw_as_read (job->pages, job->page, cr);
  cairo_destroy (cr);
  cairo_surface_set_device_scale (image, job->scale, job->scale);
  g_task_return_pointer (task, image, (GDestroyNotify) cairo_surface_destroy);
}

static void
drop_image (CwCardsSheet *self)
{
  g_clear_pointer (&self->image, cairo_surface_destroy);
  g_clear_pointer (&self->image_pages, cw_pages_unref);
}

static void
work_done (GObject *source, GAsyncResult *result, gpointer data)
{
  CwCardsSheet *self = CW_CARDS_SHEET (source);
  const Job *job = g_task_get_task_data (G_TASK (result));
  cairo_surface_t *image = g_task_propagate_pointer (G_TASK (result), NULL);

  self->drawing = FALSE;
  if (!self->is_near || job->pages != self->pages || job->page != self->page)
    cairo_surface_destroy (image);
  else
    {
      drop_image (self);
      self->image = image;
      self->image_pages = cw_pages_ref (job->pages);
      self->image_page = job->page;
      self->image_zoom = job->zoom;
      self->image_scale = job->scale;
      gtk_widget_queue_draw (GTK_WIDGET (self));
    }
  draw_page (self);
}

/**
 * cw_cards_sheet_is_drawn:
 * @self: the sheet
 *
 * Returns: whether what is seen is the page as it is, at the size it is shown at
 */
gboolean
cw_cards_sheet_is_drawn (CwCardsSheet *self)
{
  g_return_val_if_fail (CW_IS_CARDS_SHEET (self), FALSE);
  return self->image != NULL && self->image_pages == self->pages && self->image_page == self->page
         && fabs (self->image_zoom - self->zoom) < SAME_ZOOM
         && self->image_scale == gtk_widget_get_scale_factor (GTK_WIDGET (self));
}

/* Begins a picture if one is wanted and nobody is at it. */
static void
draw_page (CwCardsSheet *self)
{
  g_autoptr (GTask) task = NULL;
  Job *job = NULL;

  if (self->drawing || !self->is_near || self->pages == NULL || !(self->zoom > 0) || cw_cards_sheet_is_drawn (self))
    return;
  self->drawing = TRUE;
  job = g_new0 (Job, 1);
  job->pages = cw_pages_ref (self->pages);
  job->page = self->page;
  job->zoom = self->zoom;
  job->scale = gtk_widget_get_scale_factor (GTK_WIDGET (self));
  task = g_task_new (self, NULL, work_done, NULL);
  g_task_set_source_tag (task, draw_page);
  g_task_set_task_data (task, job, job_free);
  g_task_run_in_thread (task, work);
}

static void
spot_picked (CwCardsSpot *spot, CwCardsSheet *self)
{
  g_signal_emit (self, signals[PICKED], 0, spot);
}

static void
spot_moved (CwCardsSpot *spot, int by, CwCardsSheet *self)
{
  g_signal_emit (self, signals[MOVED], 0, spot, by);
}

static void
drop_spots (CwCardsSheet *self)
{
  for (guint i = 0; i < self->spots->len; i++)
    gtk_widget_unparent (g_ptr_array_index (self->spots, i));
  g_ptr_array_set_size (self->spots, 0);
}

/* Most edits leave most words where they were: spots are kept as far as they fit. */
static void
show_words (CwCardsSheet *self)
{
  const GPtrArray *words = self->pages->words;
  guint n = 0, kept = 0;

  for (guint i = 0; words != NULL && i < words->len; i++)
    {
      const CwPageWords *one = g_ptr_array_index (words, i);
      GtkWidget *spot = NULL;

      if (one->page != self->page)
        continue;
      if (n == kept && n < self->spots->len && cw_cards_spot_follow (g_ptr_array_index (self->spots, n), one))
        {
          kept = ++n;
          continue;
        }
      while (self->spots->len > n)
        gtk_widget_unparent (g_ptr_array_steal_index (self->spots, n));
      spot = cw_cards_spot_new (one);
      g_signal_connect (spot, "picked", G_CALLBACK (spot_picked), self);
      g_signal_connect (spot, "moved", G_CALLBACK (spot_moved), self);
      gtk_widget_set_parent (spot, GTK_WIDGET (self));
      g_ptr_array_add (self->spots, spot);
      n++;
    }
  while (self->spots->len > n)
    gtk_widget_unparent (g_ptr_array_steal_index (self->spots, n));
  gtk_widget_queue_allocate (GTK_WIDGET (self));
}

/**
 * cw_cards_sheet_set_page:
 * @self: the sheet
 * @pages: pages
 * @page: which of them
 */
void
cw_cards_sheet_set_page (CwCardsSheet *self, CwPages *pages, guint page)
{
  g_autofree char *name = NULL;

  g_return_if_fail (CW_IS_CARDS_SHEET (self) && pages != NULL && page < pages->lists->len);

  if (self->pages != pages)
    {
      cw_pages_ref (pages);
      g_clear_pointer (&self->pages, cw_pages_unref);
      self->pages = pages;
    }
  self->page = page;
  name = g_strdup_printf (_ ("Page %u of %u"), page + 1, pages->lists->len);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
  show_words (self);
  gtk_widget_queue_resize (GTK_WIDGET (self));
  draw_page (self);
}

/**
 * cw_cards_sheet_set_zoom:
 * @self: the sheet
 * @zoom: logical pixels to a point
 */
void
cw_cards_sheet_set_zoom (CwCardsSheet *self, double zoom)
{
  g_return_if_fail (CW_IS_CARDS_SHEET (self) && zoom > 0);

  if (fabs (self->zoom - zoom) < SAME_ZOOM)
    return;
  self->zoom = zoom;
  gtk_widget_queue_resize (GTK_WIDGET (self));
  draw_page (self);
}

/**
 * cw_cards_sheet_set_near:
 * @self: the sheet
 * @is_near: it is in sight, or soon will be; else it keeps no image
 */
void
cw_cards_sheet_set_near (CwCardsSheet *self, gboolean is_near)
{
  g_return_if_fail (CW_IS_CARDS_SHEET (self));

  self->is_near = is_near;
  if (!is_near)
    drop_image (self);
  draw_page (self);
}

/**
 * cw_cards_sheet_find:
 * @self: the sheet
 * @what: a kind of words
 * @step: of which step; %G_MAXUINT: of none
 *
 * Returns: (transfer none) (nullable): where they stand
 */
CwCardsSpot *
cw_cards_sheet_find (CwCardsSheet *self, CwPageWordsKind what, guint step)
{
  g_return_val_if_fail (CW_IS_CARDS_SHEET (self), NULL);

  for (guint i = 0; i < self->spots->len; i++)
    {
      const CwPageWords *words = cw_cards_spot_get_words (g_ptr_array_index (self->spots, i));

      if (words->what == what && words->step == step)
        return g_ptr_array_index (self->spots, i);
    }
  return NULL;
}

static void
cw_cards_sheet_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  CwCardsSheet *self = CW_CARDS_SHEET (widget);
  float width = (float) gtk_widget_get_width (widget), height = (float) gtk_widget_get_height (widget);
  graphene_rect_t box = GRAPHENE_RECT_INIT (0, 0, width, height);

  gtk_snapshot_append_color (snapshot, &(GdkRGBA){ 1, 1, 1, 1 }, &box);
  if (self->image != NULL)
    {
      cairo_t *cr = gtk_snapshot_append_cairo (snapshot, &box);
      double stretch = self->zoom / self->image_zoom;

      cairo_scale (cr, stretch, stretch);
      cairo_set_source_surface (cr, self->image, 0, 0);
      cairo_paint (cr);
      cairo_destroy (cr);
    }
  for (guint i = 0; i < self->spots->len; i++)
    gtk_widget_snapshot_child (widget, g_ptr_array_index (self->spots, i), snapshot);
}

static void
cw_cards_sheet_measure (GtkWidget *widget, GtkOrientation orientation, int for_size, int *minimum, int *natural,
                        int *minimum_baseline, int *natural_baseline)
{
  CwCardsSheet *self = CW_CARDS_SHEET (widget);
  double width = 0, height = 0;

  if (self->pages != NULL)
    cw_pages_get_size (self->pages, self->page, &width, &height);
  *minimum = *natural = (int) lround ((orientation == GTK_ORIENTATION_HORIZONTAL ? width : height) * self->zoom);
}

static void
cw_cards_sheet_size_allocate (GtkWidget *widget, int width, int height, int baseline)
{
  CwCardsSheet *self = CW_CARDS_SHEET (widget);

  for (guint i = 0; i < self->spots->len; i++)
    {
      GtkWidget *spot = g_ptr_array_index (self->spots, i);
      const double *box = cw_cards_spot_get_words (CW_CARDS_SPOT (spot))->box;
      GtkAllocation place
        = { (int) floor (box[0] * self->zoom) - 2, (int) floor (box[1] * self->zoom) - 2,
            (int) ceil ((box[2] - box[0]) * self->zoom) + 4, (int) ceil ((box[3] - box[1]) * self->zoom) + 4 };

      gtk_widget_measure (spot, GTK_ORIENTATION_HORIZONTAL, -1, NULL, NULL, NULL, NULL);
      gtk_widget_size_allocate (spot, &place, -1);
    }
}

static void
scale_changed (CwCardsSheet *self)
{
  draw_page (self);
}

static void
cw_cards_sheet_dispose (GObject *object)
{
  CwCardsSheet *self = CW_CARDS_SHEET (object);

  if (self->spots != NULL)
    drop_spots (self);
  g_clear_pointer (&self->spots, g_ptr_array_unref);
  drop_image (self);
  self->is_near = FALSE;
  g_clear_pointer (&self->pages, cw_pages_unref);
  G_OBJECT_CLASS (cw_cards_sheet_parent_class)->dispose (object);
}

static void
cw_cards_sheet_class_init (CwCardsSheetClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = cw_cards_sheet_dispose;
  widget_class->snapshot = cw_cards_sheet_snapshot;
  widget_class->measure = cw_cards_sheet_measure;
  widget_class->size_allocate = cw_cards_sheet_size_allocate;
  signals[PICKED] = g_signal_new ("picked", CW_TYPE_CARDS_SHEET, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 1,
                                  CW_TYPE_CARDS_SPOT);
  signals[MOVED] = g_signal_new ("moved", CW_TYPE_CARDS_SHEET, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 2,
                                 CW_TYPE_CARDS_SPOT, G_TYPE_INT);
  gtk_widget_class_set_css_name (widget_class, "cardsheet");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_GROUP);
}

static void
cw_cards_sheet_init (CwCardsSheet *self)
{
  self->spots = g_ptr_array_new ();
  gtk_widget_set_overflow (GTK_WIDGET (self), GTK_OVERFLOW_HIDDEN);
  g_signal_connect (self, "notify::scale-factor", G_CALLBACK (scale_changed), NULL);
}

/**
 * cw_cards_sheet_new:
 *
 * Returns: (transfer floating): an empty sheet
 */
GtkWidget *
cw_cards_sheet_new (void)
{
  return g_object_new (CW_TYPE_CARDS_SHEET, NULL);
}
