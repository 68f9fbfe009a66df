/* cw-start-page.c: starting sizes, samples as pictures, recent files.
 *
 * Sizes are sheets that half fold to a usual card: half of US Letter, 10 x 7 inch, Letter itself, and A5 and A4 of ISO
 * 216 (A4 is 210 x 297 mm, A5 148 x 210 mm). Samples are read and analysed on a worker thread, one task each; their
 * pictures are made by the drawing room like every other.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "cw-start-page.h"

#include <glib/gi18n-lib.h>

#include "check/cw-analysis.h"
#include "cw-document.h"
#include "cw-picture.h"
#include "design/cw-design-json.h"
#include "make/cw-make.h"
#include "units/cw-size.h"

#define MEDIA_TYPE "application/vnd.creasewright.creasecard+json"
#define RECENT_MOST 6

struct _CwStartPage
{
  GtkBox parent_instance;

  /* Template */
  GtkWidget *sizes, *size_entry, *size_hint, *samples, *samples_box, *recent, *recent_box;

  GCancellable *cancellable;
  guint n_frames; /* counted until the samples are filled in */
  gboolean metric;
};

G_DEFINE_FINAL_TYPE (CwStartPage, cw_start_page, GTK_TYPE_BOX)

enum
{
  MAKE,
  OPEN,
  OPEN_SAMPLE,
  N_SIGNALS
};
static guint signals[N_SIGNALS];

static const struct
{
  const char *size, *words;
  CwUnit unit;
} starts[] = {
  { "8 1/2 x 5 1/2 in", N_ ("Half a Letter sheet: folds to 4 1/4 x 5 1/2 in"), CW_UNIT_INCH },
  { "10 x 7 in", N_ ("Folds to 5 x 7 in"), CW_UNIT_INCH },
  { "11 x 8 1/2 in", N_ ("A Letter sheet: folds to 5 1/2 x 8 1/2 in"), CW_UNIT_INCH },
  { "210 x 148 mm", N_ ("A5: folds to A6"), CW_UNIT_MM },
  { "297 x 210 mm", N_ ("A4: folds to A5"), CW_UNIT_MM },
};

/* A button with a picture above its words. */
static GtkWidget *
picture_button (GtkWidget *picture, const char *title, const char *words)
{
  GtkWidget *button = gtk_button_new (), *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 4);
  GtkWidget *head = gtk_label_new (title);
  g_autofree char *name = words != NULL ? g_strdup_printf ("%s. %s", title, words) : g_strdup (title);

  gtk_widget_add_css_class (button, "start-card");
  gtk_widget_add_css_class (head, "heading");
  gtk_label_set_wrap (GTK_LABEL (head), TRUE);
  gtk_label_set_max_width_chars (GTK_LABEL (head), 20);
  gtk_label_set_justify (GTK_LABEL (head), GTK_JUSTIFY_CENTER);
  gtk_box_append (GTK_BOX (box), picture);
  gtk_box_append (GTK_BOX (box), head);
  if (words != NULL)
    {
      GtkWidget *label = gtk_label_new (words);

      gtk_label_set_wrap (GTK_LABEL (label), TRUE);
      gtk_label_set_max_width_chars (GTK_LABEL (label), 22);
      gtk_label_set_justify (GTK_LABEL (label), GTK_JUSTIFY_CENTER);
      gtk_widget_add_css_class (label, "hint");
      gtk_box_append (GTK_BOX (box), label);
    }
  gtk_button_set_child (GTK_BUTTON (button), box);
  gtk_accessible_update_property (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
  return button;
}

/* --- a new card -------------------------------------------------------------------------------------------------- */

static gboolean
make_size (CwStartPage *self, const char *text, CwUnit unit, GError **error)
{
  CwLength width, height;
  g_autoptr (CwDesign) design = NULL;

  if (!cw_size_parse (text, unit, &width, &height, error))
    return FALSE;
  if (width.ticks <= 0 || height.ticks <= 0 || width.ticks > CW_COORDINATE_MAX || height.ticks > CW_COORDINATE_MAX)
    {
      g_set_error (error, CW_LENGTH_ERROR, CW_LENGTH_ERROR_TOO_LARGE,
                   _ ("A card is more than 0 and at most 60 in wide and high."));
      return FALSE;
    }
  design = cw_make_design (width.unit, width.ticks, height.ticks);
  g_signal_emit (self, signals[MAKE], 0, design);
  return TRUE;
}

static void
size_chosen (GtkButton *button, CwStartPage *self)
{
  guint i = GPOINTER_TO_UINT (g_object_get_data (G_OBJECT (button), "start"));

  make_size (self, starts[i].size, starts[i].unit, NULL);
}

static void
say (CwStartPage *self, const char *sentence, gboolean wrong)
{
  gtk_label_set_text (GTK_LABEL (self->size_hint), sentence);
  if (wrong)
    gtk_widget_add_css_class (self->size_hint, "wrong");
  else
    gtk_widget_remove_css_class (self->size_hint, "wrong");
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->size_entry), GTK_ACCESSIBLE_PROPERTY_DESCRIPTION, sentence, -1);
}

static void
size_changed (CwStartPage *self)
{
  const char *text = gtk_editable_get_text (GTK_EDITABLE (self->size_entry));
  g_autoptr (GError) error = NULL;
  CwLength width, height;

  if (*text == '\0')
    say (self, _ ("The whole sheet, unfolded, width first"), FALSE);
  else if (!cw_size_parse (text, self->metric ? CW_UNIT_MM : CW_UNIT_INCH, &width, &height, &error))
    say (self, error->message, TRUE);
  else
    {
      g_autofree char *size = cw_size_format (width, height);
      g_autofree char *sentence = g_strdup_printf (_ ("Enter makes a card of %s"), size);

      say (self, sentence, FALSE);
    }
}

static void
size_entered (CwStartPage *self)
{
  g_autoptr (GError) error = NULL;

  if (!make_size (self, gtk_editable_get_text (GTK_EDITABLE (self->size_entry)),
                  self->metric ? CW_UNIT_MM : CW_UNIT_INCH, &error))
    say (self, error->message, TRUE);
  else
    gtk_editable_set_text (GTK_EDITABLE (self->size_entry), "");
}

static void
fill_sizes (CwStartPage *self)
{
  GtkWidget *child = NULL;

  while ((child = gtk_widget_get_first_child (self->sizes)) != NULL)
    gtk_flow_box_remove (GTK_FLOW_BOX (self->sizes), child);
  for (guint pass = 0; pass < 2; pass++) /* sizes in the maker's own unit first */
    for (guint i = 0; i < G_N_ELEMENTS (starts); i++)
      if ((pass == 0) == ((starts[i].unit == CW_UNIT_MM) == (self->metric != FALSE)))
        {
          GtkWidget *picture = cw_picture_new (120, 84), *button = NULL;
          CwLength width, height;

          if (!cw_size_parse (starts[i].size, starts[i].unit, &width, &height, NULL))
            g_assert_not_reached ();
          cw_picture_set_blank (CW_PICTURE (picture), width.ticks, height.ticks);
          button = picture_button (picture, starts[i].size, _ (starts[i].words));
          g_object_set_data (G_OBJECT (button), "start", GUINT_TO_POINTER (i));
          g_signal_connect (button, "clicked", G_CALLBACK (size_chosen), self);
          gtk_flow_box_append (GTK_FLOW_BOX (self->sizes), button);
          gtk_widget_set_focusable (gtk_widget_get_parent (button), FALSE);
        }
}

/* --- samples ----------------------------------------------------------------------------------------------------- */

/**
 * cw_start_page_dup_samples_folder:
 *
 * Returns: (transfer full): where the samples are: below CREASEWRIGHT_DATA if that is set, else where they are
 * installed
 */
char *
cw_start_page_dup_samples_folder (void)
{
  const char *data = g_getenv ("CREASEWRIGHT_DATA");

  return g_build_filename (data != NULL ? data : CW_DATA_DIR, "samples", NULL);
}

static void
read_sample (GTask *task, gpointer source, gpointer data, GCancellable *cancellable)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (CwDesign) design = cw_design_load (data, &error);
  CwAnalysis *analysis = NULL;

  if (design == NULL)
    {
      g_task_return_error (task, g_steal_pointer (&error));
      return;
    }
  analysis = cw_analysis_new_cancellable (design, cancellable);
  /* A task stopped meanwhile gives up what it holds and tells that it was stopped. */
  g_task_return_pointer (task, analysis, (GDestroyNotify) cw_analysis_unref);
}

static void
sample_chosen (GtkButton *button, CwStartPage *self)
{
  g_signal_emit (self, signals[OPEN_SAMPLE], 0, g_object_get_data (G_OBJECT (button), "file"));
}

static void
sample_read (GObject *source, GAsyncResult *result, gpointer data)
{
  g_autoptr (GtkWidget) place = data; /* the flow box child kept for it, so that the order is always the same */
  g_autoptr (GError) error = NULL;
  g_autoptr (CwAnalysis) analysis = g_task_propagate_pointer (G_TASK (result), &error);
  CwStartPage *self = NULL;
  GFile *file = g_task_get_task_data (G_TASK (result));
  GtkWidget *picture = NULL, *button = NULL;
  int step = -1;
  double fraction = 1;

  if (g_error_matches (error, G_IO_ERROR, G_IO_ERROR_CANCELLED) || gtk_widget_get_parent (place) == NULL)
    return;
  self = CW_START_PAGE (source);
  if (analysis == NULL)
    {
      g_warning ("%s", error->message);
      return;
    }
  picture = cw_picture_new (158, 112);
  cw_document_choose_moment (analysis->design, &step, &fraction);
  cw_picture_set_moment (CW_PICTURE (picture), analysis, step, fraction);
  button = picture_button (picture,
                           analysis->design->head->title != NULL ? analysis->design->head->title : _ ("A card"), NULL);
  if (analysis->design->head->notes != NULL)
    gtk_widget_set_tooltip_text (button, analysis->design->head->notes);
  g_object_set_data_full (G_OBJECT (button), "file", g_object_ref (file), g_object_unref);
  g_signal_connect (button, "clicked", G_CALLBACK (sample_chosen), self);
  gtk_flow_box_child_set_child (GTK_FLOW_BOX_CHILD (place), button);
  gtk_widget_show (place);
  gtk_widget_show (self->samples_box);
}

static int
by_name (gconstpointer a, gconstpointer b)
{
  return g_strcmp0 (*(char *const *) a, *(char *const *) b);
}

static void
fill_samples (CwStartPage *self)
{
  g_autofree char *folder = cw_start_page_dup_samples_folder ();
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  g_autoptr (GPtrArray) names = g_ptr_array_new_with_free_func (g_free);
  const char *name = NULL;

  while (dir != NULL && (name = g_dir_read_name (dir)) != NULL)
    if (g_str_has_suffix (name, ".creasecard"))
      g_ptr_array_add (names, g_strdup (name));
  g_ptr_array_sort (names, by_name);
  for (guint i = 0; i < names->len; i++)
    {
      g_autofree char *path = g_build_filename (folder, g_ptr_array_index (names, i), NULL);
      GtkWidget *place = gtk_flow_box_child_new ();
      g_autoptr (GTask) task = NULL;

      gtk_widget_set_visible (place, FALSE);
      gtk_widget_set_focusable (place, FALSE);
      gtk_flow_box_append (GTK_FLOW_BOX (self->samples), place);
      task = g_task_new (self, self->cancellable, sample_read, g_object_ref (place));
      g_task_set_task_data (task, g_file_new_for_path (path), g_object_unref);
      g_task_run_in_thread (task, read_sample);
    }
}

/* --- recent files ------------------------------------------------------------------------------------------------ */

static void
recent_chosen (GtkButton *button, CwStartPage *self)
{
  g_signal_emit (self, signals[OPEN], 0, g_object_get_data (G_OBJECT (button), "file"));
}

static int
newest_first (gconstpointer a, gconstpointer b)
{
  return g_date_time_compare (gtk_recent_info_get_modified ((GtkRecentInfo *) b),
                              gtk_recent_info_get_modified ((GtkRecentInfo *) a));
}

static void
add_recent (CwStartPage *self, GtkRecentInfo *info)
{
  g_autoptr (GFile) file = g_file_new_for_uri (gtk_recent_info_get_uri (info));
  g_autoptr (GFile) folder = g_file_get_parent (file);
  g_autofree char *where = folder != NULL ? g_file_get_parse_name (folder) : NULL;
  GtkWidget *button = gtk_button_new (), *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);
  GtkWidget *title = gtk_label_new (gtk_recent_info_get_display_name (info)), *place = gtk_label_new (where);
  g_autofree char *name = g_strdup_printf (_ ("Open %s"), gtk_recent_info_get_display_name (info));

  gtk_label_set_xalign (GTK_LABEL (title), 0);
  gtk_label_set_xalign (GTK_LABEL (place), 0);
  gtk_label_set_ellipsize (GTK_LABEL (title), PANGO_ELLIPSIZE_END);
  gtk_label_set_ellipsize (GTK_LABEL (place), PANGO_ELLIPSIZE_START);
  gtk_widget_add_css_class (place, "hint");
  gtk_widget_add_css_class (button, "flat");
  gtk_box_append (GTK_BOX (box), title);
  gtk_box_append (GTK_BOX (box), place);
  gtk_button_set_child (GTK_BUTTON (button), box);
  gtk_accessible_update_property (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
  g_object_set_data_full (G_OBJECT (button), "file", g_steal_pointer (&file), g_object_unref);
  g_signal_connect (button, "clicked", G_CALLBACK (recent_chosen), self);
  gtk_box_append (GTK_BOX (self->recent), button);
}

/**
 * cw_start_page_refresh:
 * @self: the start page
 *
 * Shows the newest recent files.
 */
void
cw_start_page_refresh (CwStartPage *self)
{
  GtkWidget *child = NULL;
  GList *items = gtk_recent_manager_get_items (gtk_recent_manager_get_default ());
  guint n = 0;

  g_return_if_fail (CW_IS_START_PAGE (self));

  while ((child = gtk_widget_get_first_child (self->recent)) != NULL)
    gtk_box_remove (GTK_BOX (self->recent), child);
  items = g_list_sort (items, newest_first);
  for (GList *l = items; l != NULL && n < RECENT_MOST; l = l->next)
    if (g_strcmp0 (gtk_recent_info_get_mime_type (l->data), MEDIA_TYPE) == 0 && gtk_recent_info_exists (l->data))
      {
        add_recent (self, l->data);
        n++;
      }
  g_list_free_full (items, (GDestroyNotify) gtk_recent_info_unref);
  gtk_widget_set_visible (self->recent_box, n > 0);
}

/**
 * cw_start_page_set_metric:
 * @self: the start page
 * @metric: bare numbers are millimetres, metric sizes come first
 */
void
cw_start_page_set_metric (CwStartPage *self, gboolean metric)
{
  g_return_if_fail (CW_IS_START_PAGE (self));

  self->metric = metric;
  gtk_entry_set_placeholder_text (GTK_ENTRY (self->size_entry), metric ? _ ("210 x 148 mm") : _ ("8 1/2 x 5 1/2 in"));
  fill_sizes (self);
  size_changed (self);
}

/* Samples are looked at once the page is there to be used. */
static gboolean
frame_begins (GtkWidget *widget, GdkFrameClock *clock, gpointer data)
{
  CwStartPage *self = CW_START_PAGE (widget);

  if (self->n_frames++ == 0)
    return G_SOURCE_CONTINUE;
  fill_samples (self);
  return G_SOURCE_REMOVE;
}

static void
cw_start_page_map (GtkWidget *widget)
{
  GTK_WIDGET_CLASS (cw_start_page_parent_class)->map (widget);
  if (CW_START_PAGE (widget)->n_frames == 0)
    gtk_widget_add_tick_callback (widget, frame_begins, NULL, NULL);
}

static void
cw_start_page_dispose (GObject *object)
{
  CwStartPage *self = CW_START_PAGE (object);

  if (self->cancellable != NULL)
    g_cancellable_cancel (self->cancellable);
  g_clear_object (&self->cancellable);
  G_OBJECT_CLASS (cw_start_page_parent_class)->dispose (object);
}

static void
cw_start_page_class_init (CwStartPageClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  GType type = G_TYPE_FROM_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = cw_start_page_dispose;
  widget_class->map = cw_start_page_map;
  signals[MAKE] = g_signal_new ("make", type, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 1, G_TYPE_POINTER);
  signals[OPEN] = g_signal_new ("open", type, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 1, G_TYPE_FILE);
  signals[OPEN_SAMPLE]
    = g_signal_new ("open-sample", type, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 1, G_TYPE_FILE);
  gtk_widget_class_set_template_from_resource (widget_class, "/org/creasewright/Creasewright/start-page.ui");
  gtk_widget_class_bind_template_child (widget_class, CwStartPage, sizes);
  gtk_widget_class_bind_template_child (widget_class, CwStartPage, size_entry);
  gtk_widget_class_bind_template_child (widget_class, CwStartPage, size_hint);
  gtk_widget_class_bind_template_child (widget_class, CwStartPage, samples);
  gtk_widget_class_bind_template_child (widget_class, CwStartPage, samples_box);
  gtk_widget_class_bind_template_child (widget_class, CwStartPage, recent);
  gtk_widget_class_bind_template_child (widget_class, CwStartPage, recent_box);
  gtk_widget_class_bind_template_callback (widget_class, size_changed);
  gtk_widget_class_bind_template_callback (widget_class, size_entered);
}

static void
cw_start_page_init (CwStartPage *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  self->cancellable = g_cancellable_new ();
  cw_start_page_set_metric (self, FALSE);
}
