/* cw-picture.c: small pictures made by the drawing room.
 *
 * A picture is played once into an image of its own size and then only painted. The drawing itself is done when the
 * program is idle, one picture at a time, so that a long row of steps never holds up a frame.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-picture.h"

#include "cw-draw-card.h"
#include "cw-draw-play.h"
#include "cw-look.h"

#define MARGIN 4

struct _CwPicture
{
  GtkWidget parent_instance;

  int width, height;
  CwAnalysis *analysis;
  int step;
  double fraction;
  double blank[2]; /* 0: no blank sheet */
  cairo_surface_t *image;
  int image_scale;
  guint idle;
};

G_DEFINE_FINAL_TYPE (CwPicture, cw_picture, GTK_TYPE_WIDGET)

static void
draw_moment (CwPicture *self, CwDrawList *list)
{
  const CwCardLook look = { .lit_panel = G_MAXUINT, .hinge_at = G_MAXUINT, .shadow = TRUE };
  g_autoptr (CwCardScene) scene = cw_card_scene_new (self->analysis);
  CwCamera camera = { 0 };

  cw_camera_look_into (&camera, self->analysis->motion);
  cw_camera_fit (&camera, self->analysis->motion, MARGIN, MARGIN, self->width - 2 * MARGIN, self->height - 2 * MARGIN);
  cw_draw_card (list, scene, self->step < 0 ? G_MAXUINT : (guint) self->step, self->fraction, &camera, &look);
}

static void
draw_blank (CwPicture *self, CwDrawList *list)
{
  const CwId none = { CW_ID_NONE, 0, 0, 0 };
  double w = self->width - 2 * MARGIN, h = self->height - 2 * MARGIN;
  double scale = MIN (w / self->blank[0], h / self->blank[1]);
  double pw = self->blank[0] * scale, ph = self->blank[1] * scale;
  double x = MARGIN + (w - pw) / 2, y = MARGIN + (h - ph) / 2;

  for (int i = 0; i < 2; i++)
    {
      cw_draw_list_begin (list, i == 0 ? CW_PEN_PAPER : CW_PEN_OUTLINE, none);
      if (i == 0)
        cw_draw_list_set_colour (list, 0xfaf7f0);
      cw_draw_list_move (list, x, y);
      cw_draw_list_line (list, x + pw, y);
      cw_draw_list_line (list, x + pw, y + ph);
      cw_draw_list_line (list, x, y + ph);
      cw_draw_list_close (list);
      cw_draw_list_end (list);
    }
}

static gboolean
render (gpointer data)
{
  CwPicture *self = data;
  g_autoptr (CwDrawList) list = cw_draw_list_new ();
  int scale = gtk_widget_get_scale_factor (GTK_WIDGET (self));
  cairo_t *cr = NULL;

  self->idle = 0;
  if (self->analysis != NULL)
    draw_moment (self, list);
  else if (self->blank[0] > 0)
    draw_blank (self, list);
  g_clear_pointer (&self->image, cairo_surface_destroy);
  self->image = cairo_image_surface_create (CAIRO_FORMAT_ARGB32, self->width * scale, self->height * scale);
  cairo_surface_set_device_scale (self->image, scale, scale);
  self->image_scale = scale;
  cr = cairo_create (self->image);
  cw_draw_play (list, cw_look_get_palette (), cr);
  cairo_destroy (cr);
  gtk_widget_queue_draw (GTK_WIDGET (self));
  return G_SOURCE_REMOVE;
}

static void
renew (CwPicture *self)
{
  /* The old image stays up until the new one is there. */
  if (self->idle == 0)
    self->idle = g_idle_add_full (G_PRIORITY_LOW, render, self, NULL);
}

static void
cw_picture_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  CwPicture *self = CW_PICTURE (widget);
  graphene_rect_t box;
  cairo_t *cr = NULL;
  double x = (gtk_widget_get_width (widget) - self->width) / 2.0;
  double y = (gtk_widget_get_height (widget) - self->height) / 2.0;

  if (self->image == NULL || self->image_scale != gtk_widget_get_scale_factor (widget))
    renew (self);
  if (self->image == NULL)
    return;
  graphene_rect_init (&box, (float) x, (float) y, (float) self->width, (float) self->height);
  cr = gtk_snapshot_append_cairo (snapshot, &box);
  cairo_set_source_surface (cr, self->image, x, y);
  cairo_paint (cr);
  cairo_destroy (cr);
}

static void
cw_picture_measure (GtkWidget *widget, GtkOrientation orientation, int for_size, int *minimum, int *natural,
                    int *minimum_baseline, int *natural_baseline)
{
  CwPicture *self = CW_PICTURE (widget);

  *minimum = *natural = orientation == GTK_ORIENTATION_HORIZONTAL ? self->width : self->height;
}

/**
 * cw_picture_set_moment:
 * @self: the picture
 * @analysis: (nullable): of which design; NULL shows nothing
 * @step: which step; -1 is before the first
 * @fraction: how much of it is done
 */
void
cw_picture_set_moment (CwPicture *self, CwAnalysis *analysis, int step, double fraction)
{
  g_return_if_fail (CW_IS_PICTURE (self));

  if (analysis != NULL)
    cw_analysis_ref (analysis);
  g_clear_pointer (&self->analysis, cw_analysis_unref);
  self->analysis = analysis;
  self->step = step;
  self->fraction = fraction;
  renew (self);
}

/**
 * cw_picture_set_blank:
 * @self: the picture
 * @width: of the sheet, in any unit
 * @height: of the sheet, in the same unit
 */
void
cw_picture_set_blank (CwPicture *self, double width, double height)
{
  g_return_if_fail (CW_IS_PICTURE (self));
  g_return_if_fail (width > 0 && height > 0);

  cw_picture_set_moment (self, NULL, -1, 1);
  self->blank[0] = width;
  self->blank[1] = height;
}

static void
cw_picture_dispose (GObject *object)
{
  CwPicture *self = CW_PICTURE (object);

  g_clear_handle_id (&self->idle, g_source_remove);
  g_clear_pointer (&self->analysis, cw_analysis_unref);
  g_clear_pointer (&self->image, cairo_surface_destroy);
  G_OBJECT_CLASS (cw_picture_parent_class)->dispose (object);
}

static void
cw_picture_class_init (CwPictureClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = cw_picture_dispose;
  widget_class->snapshot = cw_picture_snapshot;
  widget_class->measure = cw_picture_measure;
  gtk_widget_class_set_css_name (widget_class, "cardpicture");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_PRESENTATION);
}

static void
cw_picture_init (CwPicture *self)
{
  gtk_widget_set_can_target (GTK_WIDGET (self), FALSE);
  cw_look_watch (G_OBJECT (self), G_CALLBACK (renew));
}

/**
 * cw_picture_new:
 * @width: in logical pixels
 * @height: in logical pixels
 *
 * Returns: (transfer floating): a picture of nothing yet
 */
GtkWidget *
cw_picture_new (int width, int height)
{
  CwPicture *self = g_object_new (CW_TYPE_PICTURE, NULL);

  self->width = width;
  self->height = height;
  return GTK_WIDGET (self);
}
