/* cw-step-about.c: the part of a step's slip that says what the step is done to: marks it folds, cuts or scores, or
 * glue.
 *
 * Marks are chosen by clicking them on the sheet or the card: while that is on, the marks of the step are the
 * selection, and a click on any mark takes it in or out. A fold's end is set by pulling a panel as far as it should go
 * and ending the step there, or by its angle. The rows are made anew only when there are others, so that keys stay in
 * an entry.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "cw-step-about.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#include "cw-slip.h"
#include "make/cw-make-step.h"

struct _CwStepAbout
{
  GtkBox parent_instance;

  GtkWidget *marks_part, *marks_heading, *marks, *choose, *stop, *stop_hint;
  GtkWidget *zones_part, *zones;

  CwDocument *document;
  char *step_id;   /* the step shown; NULL: none */
  char *shape;     /* of the list of marks or zones that is shown */
  gboolean inward; /* things are being set, not used */
};

G_DEFINE_FINAL_TYPE (CwStepAbout, cw_step_about, GTK_TYPE_BOX)

static CwDesign *
get_design (CwStepAbout *self)
{
  return cw_document_get_design (self->document);
}

static const CwStep *
get_step (CwStepAbout *self)
{
  return self->document != NULL && self->step_id != NULL ? cw_design_get_step (get_design (self), self->step_id) : NULL;
}

/* --- marks ------------------------------------------------------------------------------------------------------- */

static const char *
get_address (gpointer widget)
{
  return g_object_get_data (G_OBJECT (widget), "cw-address");
}

static void
angle_taken (GtkWidget *entry, const char *text, gpointer data)
{
  CwStepAbout *self = data;
  const CwStep *step = get_step (self);
  g_autofree char *plain = g_strdup (text);
  char *end = NULL, *degree = strstr (plain, "°");
  double to = 0;
  CwEdit *edit = NULL;
  GError *error = NULL;

  if (step == NULL)
    return;
  if (degree != NULL)
    *degree = '\0';
  g_strstrip (g_strdelimit (plain, ",", '.'));
  to = g_ascii_strtod (plain, &end);
  if (end == plain || *end != '\0')
    to = NAN;
  edit = cw_make_set_angle (get_design (self), step->id, get_address (entry), to, &error);
  if (!cw_document_try (self->document, _ ("change how far it folds"), edit, error))
    cw_slip_entry_refuse (entry);
}

static void
toggle (CwStepAbout *self, const char *address)
{
  const CwStep *step = get_step (self);
  gboolean had = FALSE;
  CwEdit *edit = NULL;
  GError *error = NULL;

  if (step == NULL)
    return;
  had = cw_make_step_has_mark (step, address);
  edit = cw_make_toggle_mark (get_design (self), step->id, address, &error);
  cw_document_try (self->document, had ? _ ("take a mark out of the step") : _ ("take a mark into the step"), edit,
                   error);
}

static void
remove_clicked (GtkButton *button, CwStepAbout *self)
{
  g_autofree char *address = g_strdup (get_address (button));

  toggle (self, address);
}

static void
zone_toggled (GtkCheckButton *button, CwStepAbout *self)
{
  const CwStep *step = get_step (self);
  CwEdit *edit = NULL;
  GError *error = NULL;

  if (self->inward || step == NULL)
    return;
  edit = cw_make_toggle_zone (get_design (self), step->id, get_address (button), &error);
  cw_document_try (self->document, _ ("change what glue is put on"), edit, error);
}

static void
stop_clicked (GtkButton *button, CwStepAbout *self)
{
  const CwStep *step = get_step (self);
  CwEdit *edit = NULL;
  GError *error = NULL;
  int index = cw_document_get_step (self->document);

  if (step == NULL)
    return;
  edit = cw_make_stop_step (get_design (self), step->id, cw_document_get_fraction (self->document), &error);
  if (cw_document_try (self->document, _ ("end the step earlier"), edit, error))
    cw_document_set_moment (self->document, index, 1);
}

/* "spine", with its piece where that is not the base. */
static char *
dup_mark_name (CwStepAbout *self, const char *address)
{
  CwPiece *piece = NULL;
  CwMark *mark = NULL;

  if (!cw_design_split_address (get_design (self), address, &piece, &mark) || mark == NULL)
    return g_strdup (address);
  if (piece == cw_design_get_ground (get_design (self)))
    return g_strdup (mark->id);
  /* Translators: a mark and the piece it is on, such as "spine of Left mat". */
  return g_strdup_printf (_ ("%s of %s"), mark->id, piece->name != NULL ? piece->name : piece->id);
}

static void
clear_box (GtkWidget *box)
{
  GtkWidget *child = NULL;

  while ((child = gtk_widget_get_first_child (box)) != NULL)
    gtk_box_remove (GTK_BOX (box), child);
}

/* One row a mark: its name, its angle where it is folded, and out with it. */
static void
add_mark_row (CwStepAbout *self, const char *address, gboolean folded)
{
  GtkWidget *row = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 6), *button = NULL, *label = NULL;
  g_autofree char *name = dup_mark_name (self, address), *words = NULL, *out = NULL;

  label = gtk_label_new (name);
  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_ellipsize (GTK_LABEL (label), PANGO_ELLIPSIZE_MIDDLE);
  gtk_widget_set_hexpand (label, TRUE);
  gtk_box_append (GTK_BOX (row), label);
  if (folded)
    {
      GtkWidget *entry = cw_slip_entry_new (angle_taken, self);

      words = g_strdup_printf (_ ("How far %s is folded, in degrees"), name);
      gtk_accessible_update_property (GTK_ACCESSIBLE (entry), GTK_ACCESSIBLE_PROPERTY_LABEL, words, -1);
      gtk_widget_set_tooltip_text (entry, words);
      gtk_editable_set_width_chars (GTK_EDITABLE (entry), 6);
      gtk_editable_set_max_width_chars (GTK_EDITABLE (entry), 6);
      g_object_set_data_full (G_OBJECT (entry), "cw-address", g_strdup (address), g_free);
      g_object_set_data (G_OBJECT (row), "cw-angle", entry);
      gtk_box_append (GTK_BOX (row), entry);
    }
  out = g_strdup_printf (_ ("Take %s out of this step"), name);
  button = gtk_button_new_from_icon_name ("list-remove-symbolic");
  gtk_widget_add_css_class (button, "flat");
  gtk_widget_set_tooltip_text (button, out);
  gtk_accessible_update_property (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_PROPERTY_LABEL, out, -1);
  g_object_set_data_full (G_OBJECT (button), "cw-address", g_strdup (address), g_free);
  g_signal_connect (button, "clicked", G_CALLBACK (remove_clicked), self);
  gtk_box_append (GTK_BOX (row), button);
  gtk_box_append (GTK_BOX (self->marks), row);
}

static void
show_marks (CwStepAbout *self, const CwStep *step, gboolean anew)
{
  gboolean folds = step->what == CW_DO_FOLD;
  GtkWidget *row = NULL;

  if (anew)
    {
      clear_box (self->marks);
      for (guint i = 0; folds && i < step->folds->len; i++)
        add_mark_row (self, ((CwStepFold *) g_ptr_array_index (step->folds, i))->score, TRUE);
      for (guint i = 0; !folds && i < step->marks->len; i++)
        add_mark_row (self, g_ptr_array_index (step->marks, i), FALSE);
    }
  row = gtk_widget_get_first_child (self->marks);
  for (guint i = 0; folds && i < step->folds->len && row != NULL; i++, row = gtk_widget_get_next_sibling (row))
    {
      g_autofree char *text = g_strdup_printf ("%g°", ((CwStepFold *) g_ptr_array_index (step->folds, i))->to);

      cw_slip_entry_show (g_object_get_data (G_OBJECT (row), "cw-angle"), text);
    }
  gtk_label_set_text (GTK_LABEL (self->marks_heading), folds                       ? _ ("What is folded, and how far")
                                                       : step->what == CW_DO_SCORE ? _ ("What is scored")
                                                                                   : _ ("What is cut"));
}

static void
show_zones (CwStepAbout *self, const CwStep *step, gboolean anew)
{
  CwDesign *design = get_design (self);
  GtkWidget *button = NULL;

  if (anew)
    {
      clear_box (self->zones);
      for (guint i = 0; i < design->glue->len; i++)
        {
          const CwGlue *glue = g_ptr_array_index (design->glue, i);
          const CwPiece *piece = cw_design_get_piece (design, glue->piece);
          /* Translators: a glue zone by its id and the piece it is on, such as "g1 on Greeting tile". */
          g_autofree char *words
            = g_strdup_printf (_ ("%s on %s"), glue->id, piece->name != NULL ? piece->name : piece->id);

          button = gtk_check_button_new_with_label (words);
          g_object_set_data_full (G_OBJECT (button), "cw-address", g_strdup (glue->id), g_free);
          g_signal_connect (button, "toggled", G_CALLBACK (zone_toggled), self);
          gtk_box_append (GTK_BOX (self->zones), button);
        }
    }
  for (button = gtk_widget_get_first_child (self->zones); button != NULL; button = gtk_widget_get_next_sibling (button))
    {
      gboolean on = FALSE;

      for (guint i = 0; i < step->zones->len; i++)
        on = on || g_str_equal (g_ptr_array_index (step->zones, i), get_address (button));
      gtk_check_button_set_active (GTK_CHECK_BUTTON (button), on);
    }
}

/* --- choosing marks by clicking them ----------------------------------------------------------------------------- */

/* While marks are chosen by clicking, those of the step are the selection. */
static void
light_marks (CwStepAbout *self)
{
  const CwStep *step = get_step (self);
  CwDesign *design = NULL;
  g_autoptr (GArray) ids = g_array_new (FALSE, FALSE, sizeof (CwId));

  if (step == NULL || !gtk_toggle_button_get_active (GTK_TOGGLE_BUTTON (self->choose)))
    return;
  design = get_design (self);
  for (guint i = 0; i < design->pieces->len; i++)
    {
      const CwPiece *piece = g_ptr_array_index (design->pieces, i);

      for (guint k = 0; k < piece->marks->len; k++)
        {
          g_autofree char *address
            = g_strdup_printf ("%s/%s", piece->id, ((CwMark *) g_ptr_array_index (piece->marks, k))->id);
          const CwId id = { CW_ID_MARK, i, k, 0 };

          if (cw_make_step_has_mark (step, address))
            g_array_append_val (ids, id);
        }
    }
  self->inward = TRUE;
  cw_document_select (self->document, (const CwId *) (gpointer) ids->data, ids->len);
  self->inward = FALSE;
}

static void
selection_changed (CwStepAbout *self)
{
  guint n = 0;
  const CwId *ids = cw_document_get_selection (self->document, &n);
  CwDesign *design = get_design (self);
  g_autofree char *address = NULL;
  const CwPiece *piece = NULL;

  if (self->inward || n != 1 || (ids[0].kind != CW_ID_MARK && ids[0].kind != CW_ID_MARK_END)
      || !gtk_widget_get_mapped (self->choose) || !gtk_toggle_button_get_active (GTK_TOGGLE_BUTTON (self->choose))
      || ids[0].piece >= design->pieces->len)
    return;
  piece = g_ptr_array_index (design->pieces, ids[0].piece);
  if (ids[0].index >= piece->marks->len)
    return;
  address = g_strdup_printf ("%s/%s", piece->id, ((CwMark *) g_ptr_array_index (piece->marks, ids[0].index))->id);
  toggle (self, address);
  light_marks (self);
}

static void
choose_toggled (GtkToggleButton *button, CwStepAbout *self)
{
  if (!self->inward)
    light_marks (self);
}

/* --- what is shown ----------------------------------------------------------------------------------------------- */

static char *
dup_shape (CwStepAbout *self, const CwStep *step)
{
  GString *shape = g_string_new (step->id);

  for (guint i = 0; i < step->folds->len; i++)
    g_string_append_printf (shape, "\n%s", ((CwStepFold *) g_ptr_array_index (step->folds, i))->score);
  for (guint i = 0; i < step->marks->len; i++)
    g_string_append_printf (shape, "\n%s", (char *) g_ptr_array_index (step->marks, i));
  for (guint i = 0; step->what == CW_DO_GLUE && i < get_design (self)->glue->len; i++)
    g_string_append_printf (shape, "\n%s", ((CwGlue *) g_ptr_array_index (get_design (self)->glue, i))->id);
  return g_string_free (shape, FALSE);
}

static void
show_moment (CwStepAbout *self)
{
  const CwStep *step = get_step (self);
  double fraction = self->document != NULL ? cw_document_get_fraction (self->document) : 0;

  gtk_widget_set_sensitive (self->stop, step != NULL && step->folds->len > 0 && fraction > 0 && fraction < 1);
}

/**
 * cw_step_about_set_choosing:
 * @self: the part
 * @choosing: whether clicked marks go into the step
 */
void
cw_step_about_set_choosing (CwStepAbout *self, gboolean choosing)
{
  g_return_if_fail (CW_IS_STEP_ABOUT (self));

  if (!choosing || gtk_widget_get_visible (self->marks_part))
    gtk_toggle_button_set_active (GTK_TOGGLE_BUTTON (self->choose), choosing);
}

/**
 * cw_step_about_show:
 * @self: the part
 * @document: (nullable): the design the step is in
 * @step: (nullable): the step
 */
void
cw_step_about_show (CwStepAbout *self, CwDocument *document, const CwStep *step)
{
  gboolean has_marks = FALSE, has_glue = FALSE, anew = FALSE;
  g_autofree char *shape = NULL;

  g_return_if_fail (CW_IS_STEP_ABOUT (self));

  if (cw_document_follow (&self->document, document, self))
    {
      cw_step_about_set_choosing (self, FALSE);
      if (document != NULL)
        g_signal_connect_object (document, "selection", G_CALLBACK (selection_changed), self, G_CONNECT_SWAPPED);
    }
  g_free (self->step_id);
  self->step_id = step != NULL ? g_strdup (step->id) : NULL;
  if (step == NULL)
    return;
  self->inward = TRUE;
  shape = dup_shape (self, step);
  anew = g_strcmp0 (shape, self->shape) != 0;
  g_free (self->shape);
  self->shape = g_steal_pointer (&shape);
  has_marks = step->what == CW_DO_FOLD || step->what == CW_DO_CUT || step->what == CW_DO_SCORE;
  has_glue = step->what == CW_DO_GLUE;
  gtk_widget_set_visible (GTK_WIDGET (self), has_marks || has_glue);
  gtk_widget_set_visible (self->marks_part, has_marks);
  gtk_widget_set_visible (self->zones_part, has_glue);
  gtk_widget_set_visible (self->stop, step->what == CW_DO_FOLD);
  gtk_widget_set_visible (self->stop_hint, step->what == CW_DO_FOLD);
  if (has_marks)
    show_marks (self, step, anew);
  else
    cw_step_about_set_choosing (self, FALSE);
  if (has_glue)
    show_zones (self, step, anew);
  self->inward = FALSE;
  show_moment (self);
}

static void
cw_step_about_unmap (GtkWidget *widget)
{
  cw_step_about_set_choosing (CW_STEP_ABOUT (widget), FALSE);
  GTK_WIDGET_CLASS (cw_step_about_parent_class)->unmap (widget);
}

static void
cw_step_about_dispose (GObject *object)
{
  CwStepAbout *self = CW_STEP_ABOUT (object);

  cw_document_follow (&self->document, NULL, self);
  g_clear_pointer (&self->step_id, g_free);
  g_clear_pointer (&self->shape, g_free);
  G_OBJECT_CLASS (cw_step_about_parent_class)->dispose (object);
}

static void
cw_step_about_class_init (CwStepAboutClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = cw_step_about_dispose;
  GTK_WIDGET_CLASS (klass)->unmap = cw_step_about_unmap;
}

static void
add_marks_part (CwStepAbout *self)
{
  self->marks_part = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6);
  self->marks_heading = cw_slip_add_heading (self->marks_part, "");
  self->marks = gtk_box_new (GTK_ORIENTATION_VERTICAL, 4);
  gtk_box_append (GTK_BOX (self->marks_part), self->marks);
  self->choose = gtk_toggle_button_new_with_label (_ ("Choose by clicking marks"));
  gtk_widget_set_tooltip_text (self->choose, _ ("Click marks on the sheet or the card to take them in or out"));
  g_signal_connect (self->choose, "toggled", G_CALLBACK (choose_toggled), self);
  gtk_box_append (GTK_BOX (self->marks_part), self->choose);
  self->stop_hint = cw_slip_add_hint (self->marks_part, _ ("Pull a panel of the card as far as it should go, then:"));
  self->stop = gtk_button_new_with_label (_ ("End this step here"));
  g_signal_connect (self->stop, "clicked", G_CALLBACK (stop_clicked), self);
  gtk_box_append (GTK_BOX (self->marks_part), self->stop);
  gtk_box_append (GTK_BOX (self), self->marks_part);
}

static void
cw_step_about_init (CwStepAbout *self)
{
  gtk_orientable_set_orientation (GTK_ORIENTABLE (self), GTK_ORIENTATION_VERTICAL);
  add_marks_part (self);
  self->zones_part = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6);
  cw_slip_add_heading (self->zones_part, _ ("Which glue"));
  self->zones = gtk_box_new (GTK_ORIENTATION_VERTICAL, 4);
  gtk_box_append (GTK_BOX (self->zones_part), self->zones);
  gtk_box_append (GTK_BOX (self), self->zones_part);
}
