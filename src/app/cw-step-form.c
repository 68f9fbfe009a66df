/* cw-step-form.c: the slip on which a step is changed.
 *
 * It shows the step of the moment. What it folds, cuts or scores is chosen by clicking marks on the sheet or the card:
 * while that is on, the marks of the step are the selection, and a click on any mark takes it in or out. A fold's end
 * is set by pulling a panel as far as it should go and ending the step there, or by its angle.
 *
 * Over 500 lines because it has a field for everything that can be said of a step, each with what it does.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "cw-step-form.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#include "cw-slip.h"
#include "design/cw-step-words.h"
#include "make/cw-make-step.h"

#define N_DETAILS 5

struct _CwStepForm
{
  GtkBox parent_instance;

  GtkWidget *heading, *nothing, *form;
  GtkWidget *name, *making, *using, *rest;
  GtkWidget *marks_part, *marks_heading, *marks, *choose, *stop, *stop_hint;
  GtkWidget *piece_row, *piece, *tucked, *zones_part, *zones;
  GtkWidget *caption, *details[N_DETAILS];

  CwDocument *document;
  char *step_id;   /* the step shown; NULL: none */
  char *shape;     /* of the list of marks or zones that is shown */
  gboolean inward; /* fields are being set, not used */
};

G_DEFINE_FINAL_TYPE (CwStepForm, cw_step_form, GTK_TYPE_BOX)

static const struct
{
  const char *key, *words;
} details[N_DETAILS] = {
  { "caution", N_ ("Take care") }, { "minutes", N_ ("Minutes") }, { "who", N_ ("Who does it") },
  { "tools", N_ ("Tools") },       { "wait", N_ ("Waiting") },
};

/* How the card can lie at a step's end; the file's own words. */
static const struct
{
  const char *key, *words;
} rests[] = {
  { NULL, N_ ("As it comes") }, { "flat", N_ ("Flat") },         { "closed", N_ ("Closed") },
  { "open", N_ ("Open") },      { "standing", N_ ("Standing") },
};

static const char *const kinds[] = {
  [CW_DO_CUT] = N_ ("Cut"),
  [CW_DO_SCORE] = N_ ("Score"),
  [CW_DO_FOLD] = N_ ("Fold"),
  [CW_DO_STICK] = N_ ("Lay a piece on"),
  [CW_DO_TAKE_AWAY] = N_ ("Take a piece away"),
  [CW_DO_GLUE] = N_ ("Put on glue"),
  [CW_DO_RUB] = N_ ("Rub flat"),
  [CW_DO_TURN_OVER] = N_ ("Turn over"),
  [CW_DO_DECORATE] = N_ ("Decorate"),
};

static CwDesign *
get_design (CwStepForm *self)
{
  return cw_document_get_design (self->document);
}

static const CwStep *
get_step (CwStepForm *self)
{
  return self->document != NULL && self->step_id != NULL ? cw_design_get_step (get_design (self), self->step_id) : NULL;
}

/* Does the edit, or tells why it cannot be. */
static gboolean
do_edit (CwStepForm *self, const char *name, CwEdit *edit, GError *error)
{
  g_autoptr (GError) why = error;

  if (edit == NULL)
    {
      if (why != NULL)
        cw_document_say (self->document, why->message);
      return FALSE;
    }
  cw_document_do (self->document, name, edit);
  return TRUE;
}

/* --- fields ------------------------------------------------------------------------------------------------------ */

static void
name_taken (GtkWidget *entry, const char *text, gpointer data)
{
  CwStepForm *self = data;
  const CwStep *step = get_step (self);

  if (step != NULL)
    do_edit (self, _ ("rename step"), cw_make_rename_step (get_design (self), step->id, text), NULL);
}

static void
caption_taken (GtkWidget *entry, const char *text, gpointer data)
{
  CwStepForm *self = data;
  const CwStep *step = get_step (self);
  CwStep *copy = NULL;
  GError *error = NULL;

  if (step == NULL)
    return;
  copy = cw_step_copy (step);
  g_free (copy->caption);
  copy->caption = *text != '\0' ? g_strdup (text) : NULL;
  do_edit (self, _ ("change caption"), cw_make_change_step (get_design (self), copy, &error), error);
}

static void
detail_taken (GtkWidget *entry, const char *text, gpointer data)
{
  CwStepForm *self = data;
  const CwStep *step = get_step (self);
  CwStep *copy = NULL;
  CwEdit *edit = NULL;
  GError *error = NULL;

  if (step == NULL)
    return;
  copy = cw_step_copy (step);
  for (guint i = 0; i < N_DETAILS; i++)
    if (self->details[i] == entry)
      cw_step_set_detail (copy, details[i].key, text);
  edit = cw_make_change_step (get_design (self), copy, &error);
  do_edit (self, _ ("change step"), edit, error);
}

static void
phase_chosen (GtkCheckButton *button, CwStepForm *self)
{
  const CwStep *step = get_step (self);
  CwPhase phase = GTK_WIDGET (button) == self->using ? CW_PHASE_USING : CW_PHASE_MAKING;
  CwEdit *edit = NULL;
  GError *error = NULL;

  if (self->inward || step == NULL || !gtk_check_button_get_active (button)
      || (step->phase == CW_PHASE_USING) == (phase == CW_PHASE_USING))
    return;
  edit = cw_make_set_phase (get_design (self), step->id, phase, &error);
  do_edit (self, _ ("change who does the step"), edit, error);
}

static void
rest_chosen (GtkDropDown *choice, GParamSpec *spec, CwStepForm *self)
{
  const CwStep *step = get_step (self);
  guint selected = gtk_drop_down_get_selected (choice);
  CwStep *copy = NULL;
  CwEdit *edit = NULL;
  GError *error = NULL;

  if (step == NULL || selected >= G_N_ELEMENTS (rests) || g_strcmp0 (rests[selected].key, step->rest) == 0)
    return;
  copy = cw_step_copy (step);
  g_free (copy->rest);
  copy->rest = g_strdup (rests[selected].key);
  edit = cw_make_change_step (get_design (self), copy, &error);
  do_edit (self, _ ("change how the card lies"), edit, error);
}

static void
tucked_chosen (GtkCheckButton *button, CwStepForm *self)
{
  const CwStep *step = get_step (self);
  gboolean tucked = gtk_check_button_get_active (button);
  CwStep *copy = NULL;
  CwEdit *edit = NULL;
  GError *error = NULL;

  if (self->inward || step == NULL || step->what != CW_DO_STICK || (step->tucked != FALSE) == (tucked != FALSE))
    return;
  copy = cw_step_copy (step);
  copy->tucked = tucked;
  edit = cw_make_change_step (get_design (self), copy, &error);
  do_edit (self, _ ("change how the piece is laid on"), edit, error);
}

/* Pieces that lie on the card before the step: those a take-away step can mean. */
static GPtrArray *
list_laid (CwStepForm *self)
{
  CwDesign *design = get_design (self);
  GPtrArray *laid = g_ptr_array_new ();
  guint index = cw_design_find_step (design, self->step_id);

  for (guint i = 0; i < index; i++)
    {
      const CwStep *step = g_ptr_array_index (design->steps, i);

      if (step->what == CW_DO_STICK && step->piece != NULL)
        g_ptr_array_add (laid, cw_design_get_piece (design, step->piece));
    }
  return laid;
}

static void
piece_chosen (GtkDropDown *choice, GParamSpec *spec, CwStepForm *self)
{
  const CwStep *step = get_step (self);
  g_autoptr (GPtrArray) laid = NULL;
  guint selected = gtk_drop_down_get_selected (choice);
  CwStep *copy = NULL;
  CwEdit *edit = NULL;
  GError *error = NULL;

  if (step == NULL || step->what != CW_DO_TAKE_AWAY)
    return;
  laid = list_laid (self);
  if (selected >= laid->len)
    return;
  copy = cw_step_copy (step);
  g_free (copy->piece);
  copy->piece = g_strdup (((CwPiece *) g_ptr_array_index (laid, selected))->id);
  edit = cw_make_change_step (get_design (self), copy, &error);
  do_edit (self, _ ("change the piece taken away"), edit, error);
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
  CwStepForm *self = data;
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
  if (!do_edit (self, _ ("change how far it folds"), edit, error))
    cw_slip_entry_refuse (entry);
}

static void
toggle (CwStepForm *self, const char *address)
{
  const CwStep *step = get_step (self);
  gboolean had = FALSE;
  CwEdit *edit = NULL;
  GError *error = NULL;

  if (step == NULL)
    return;
  had = cw_make_step_has_mark (step, address);
  edit = cw_make_toggle_mark (get_design (self), step->id, address, &error);
  do_edit (self, had ? _ ("take a mark out of the step") : _ ("take a mark into the step"), edit, error);
}

static void
remove_clicked (GtkButton *button, CwStepForm *self)
{
  g_autofree char *address = g_strdup (get_address (button));

  toggle (self, address);
}

static void
zone_toggled (GtkCheckButton *button, CwStepForm *self)
{
  const CwStep *step = get_step (self);
  CwEdit *edit = NULL;
  GError *error = NULL;

  if (self->inward || step == NULL)
    return;
  edit = cw_make_toggle_zone (get_design (self), step->id, get_address (button), &error);
  do_edit (self, _ ("change what glue is put on"), edit, error);
}

static void
stop_clicked (GtkButton *button, CwStepForm *self)
{
  const CwStep *step = get_step (self);
  CwEdit *edit = NULL;
  GError *error = NULL;
  int index = cw_document_get_step (self->document);

  if (step == NULL)
    return;
  edit = cw_make_stop_step (get_design (self), step->id, cw_document_get_fraction (self->document), &error);
  if (do_edit (self, _ ("end the step earlier"), edit, error))
    cw_document_set_moment (self->document, index, 1);
}

/* "spine", with its piece where that is not the base. */
static char *
dup_mark_name (CwStepForm *self, const char *address)
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
add_mark_row (CwStepForm *self, const char *address, gboolean folded)
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
show_marks (CwStepForm *self, const CwStep *step, gboolean anew)
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
show_zones (CwStepForm *self, const CwStep *step, gboolean anew)
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
light_marks (CwStepForm *self)
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
selection_changed (CwStepForm *self)
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
choose_toggled (GtkToggleButton *button, CwStepForm *self)
{
  if (!self->inward)
    light_marks (self);
}

/* --- what is shown ----------------------------------------------------------------------------------------------- */

static char *
dup_shape (CwStepForm *self, const CwStep *step)
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
show_rest (CwStepForm *self, const CwStep *step)
{
  const char *words[G_N_ELEMENTS (rests) + 2] = { NULL };
  guint selected = G_N_ELEMENTS (rests);

  for (guint i = 0; i < G_N_ELEMENTS (rests); i++)
    {
      words[i] = _ (rests[i].words);
      if (g_strcmp0 (rests[i].key, step->rest) == 0)
        selected = i;
    }
  if (selected == G_N_ELEMENTS (rests))
    words[selected] = step->rest; /* a label of the maker's own */
  cw_slip_choice_show (self->rest, words, selected);
}

static void
show_piece (CwStepForm *self, const CwStep *step)
{
  g_autoptr (GPtrArray) laid = list_laid (self), words = g_ptr_array_new ();
  guint selected = GTK_INVALID_LIST_POSITION;

  for (guint i = 0; i < laid->len; i++)
    {
      const CwPiece *piece = g_ptr_array_index (laid, i);

      g_ptr_array_add (words, piece->name != NULL ? piece->name : piece->id);
      if (g_strcmp0 (piece->id, step->piece) == 0)
        selected = i;
    }
  g_ptr_array_add (words, NULL);
  cw_slip_choice_show (self->piece, (const char *const *) words->pdata, selected);
}

static void
show_moment (CwStepForm *self)
{
  const CwStep *step = get_step (self);
  double fraction = self->document != NULL ? cw_document_get_fraction (self->document) : 0;

  gtk_widget_set_sensitive (self->stop, step != NULL && step->folds->len > 0 && fraction > 0 && fraction < 1);
}

static void
show_step (CwStepForm *self)
{
  int index = self->document != NULL ? cw_document_get_step (self->document) : -1;
  const CwStep *step = NULL;
  g_autofree char *heading = NULL, *title = NULL, *shape = NULL;
  gboolean marks = FALSE, anew = FALSE;

  if (index >= 0 && (guint) index < get_design (self)->steps->len)
    step = g_ptr_array_index (get_design (self)->steps, (guint) index);
  if (step != NULL && g_strcmp0 (self->step_id, step->id) != 0)
    {
      cw_slip_take (GTK_WIDGET (self)); /* what is typed belongs to the step shown so far */
      step = g_ptr_array_index (get_design (self)->steps, (guint) index);
    }
  gtk_widget_set_visible (self->nothing, step == NULL);
  gtk_widget_set_visible (self->form, step != NULL);
  g_free (self->step_id);
  self->step_id = step != NULL ? g_strdup (step->id) : NULL;
  if (step == NULL)
    {
      gtk_label_set_text (GTK_LABEL (self->heading), _ ("This step"));
      return;
    }
  self->inward = TRUE;
  /* Translators: the number of a step and what is done in it, such as "Step 3: Put on glue". */
  heading = g_strdup_printf (_ ("Step %d: %s"), index + 1, _ (kinds[step->what]));
  gtk_label_set_text (GTK_LABEL (self->heading), heading);
  title = cw_step_dup_title (get_design (self), step);
  cw_slip_entry_show (self->name, title);
  gtk_check_button_set_active (GTK_CHECK_BUTTON (step->phase == CW_PHASE_USING ? self->using : self->making), TRUE);
  show_rest (self, step);
  shape = dup_shape (self, step);
  anew = g_strcmp0 (shape, self->shape) != 0;
  g_free (self->shape);
  self->shape = g_steal_pointer (&shape);
  marks = step->what == CW_DO_FOLD || step->what == CW_DO_CUT || step->what == CW_DO_SCORE;
  gtk_widget_set_visible (self->marks_part, marks);
  if (marks)
    show_marks (self, step, anew);
  else
    gtk_toggle_button_set_active (GTK_TOGGLE_BUTTON (self->choose), FALSE);
  gtk_widget_set_visible (self->stop, step->what == CW_DO_FOLD);
  gtk_widget_set_visible (self->stop_hint, step->what == CW_DO_FOLD);
  gtk_widget_set_visible (self->piece_row, step->what == CW_DO_TAKE_AWAY);
  if (step->what == CW_DO_TAKE_AWAY)
    show_piece (self, step);
  gtk_widget_set_visible (self->tucked, step->what == CW_DO_STICK);
  gtk_check_button_set_active (GTK_CHECK_BUTTON (self->tucked), step->tucked);
  gtk_widget_set_visible (self->zones_part, step->what == CW_DO_GLUE);
  if (step->what == CW_DO_GLUE)
    show_zones (self, step, anew);
  cw_slip_entry_show (self->caption, step->caption != NULL ? step->caption : "");
  for (guint i = 0; i < N_DETAILS; i++)
    {
      g_autofree char *text = cw_step_dup_detail (step, details[i].key);

      cw_slip_entry_show (self->details[i], text);
    }
  self->inward = FALSE;
  show_moment (self);
}

/**
 * cw_step_form_set_choosing:
 * @self: the slip
 * @choosing: whether clicked marks go into the step
 */
void
cw_step_form_set_choosing (CwStepForm *self, gboolean choosing)
{
  g_return_if_fail (CW_IS_STEP_FORM (self));

  if (!choosing || gtk_widget_get_visible (self->marks_part))
    gtk_toggle_button_set_active (GTK_TOGGLE_BUTTON (self->choose), choosing);
}

/**
 * cw_step_form_rename:
 * @self: the slip
 *
 * Puts the keys into the step's name.
 */
void
cw_step_form_rename (CwStepForm *self)
{
  g_return_if_fail (CW_IS_STEP_FORM (self));

  gtk_widget_grab_focus (self->name);
}

/**
 * cw_step_form_set_document:
 * @self: the slip
 * @document: (nullable): whose steps to show
 */
void
cw_step_form_set_document (CwStepForm *self, CwDocument *document)
{
  g_return_if_fail (CW_IS_STEP_FORM (self));

  if (document == self->document)
    return;
  if (self->document != NULL)
    g_signal_handlers_disconnect_by_data (self->document, self);
  g_clear_pointer (&self->step_id, g_free);
  g_set_object (&self->document, document);
  cw_step_form_set_choosing (self, FALSE);
  if (document != NULL)
    {
      g_signal_connect_object (document, "changed", G_CALLBACK (show_step), self, G_CONNECT_SWAPPED);
      g_signal_connect_object (document, "moment", G_CALLBACK (show_step), self, G_CONNECT_SWAPPED);
      g_signal_connect_object (document, "selection", G_CALLBACK (selection_changed), self, G_CONNECT_SWAPPED);
    }
  show_step (self);
}

static void
cw_step_form_unmap (GtkWidget *widget)
{
  cw_step_form_set_choosing (CW_STEP_FORM (widget), FALSE);
  GTK_WIDGET_CLASS (cw_step_form_parent_class)->unmap (widget);
}

static void
cw_step_form_dispose (GObject *object)
{
  CwStepForm *self = CW_STEP_FORM (object);

  if (self->document != NULL)
    g_signal_handlers_disconnect_by_data (self->document, self);
  g_clear_object (&self->document);
  g_clear_pointer (&self->step_id, g_free);
  g_clear_pointer (&self->shape, g_free);
  G_OBJECT_CLASS (cw_step_form_parent_class)->dispose (object);
}

static void
cw_step_form_class_init (CwStepFormClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = cw_step_form_dispose;
  GTK_WIDGET_CLASS (klass)->unmap = cw_step_form_unmap;
}

static void
add_phase (CwStepForm *self)
{
  GtkWidget *row = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 12);

  self->making = gtk_check_button_new_with_label (_ ("Making the card"));
  self->using = gtk_check_button_new_with_label (_ ("Using it"));
  gtk_check_button_set_group (GTK_CHECK_BUTTON (self->using), GTK_CHECK_BUTTON (self->making));
  g_signal_connect (self->making, "toggled", G_CALLBACK (phase_chosen), self);
  g_signal_connect (self->using, "toggled", G_CALLBACK (phase_chosen), self);
  gtk_box_append (GTK_BOX (row), self->making);
  gtk_box_append (GTK_BOX (row), self->using);
  gtk_box_append (GTK_BOX (self->form), row);
}

static void
add_marks_part (CwStepForm *self)
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
  gtk_box_append (GTK_BOX (self->form), self->marks_part);
}

static void
cw_step_form_init (CwStepForm *self)
{
  GtkWidget *body = cw_slip_fill (GTK_BOX (self), _ ("This step"), &self->heading);

  self->nothing = cw_slip_add_hint (body, _ ("This is the flat sheet, before the first step. Pick a step up to change "
                                             "it, or add one."));
  self->form = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6);
  gtk_box_append (GTK_BOX (body), self->form);
  self->name = cw_slip_entry_new (name_taken, self);
  cw_slip_add_row (self->form, _ ("Name of this step"), self->name, TRUE);
  add_marks_part (self);
  self->piece = cw_slip_choice_new (G_CALLBACK (piece_chosen), self);
  self->piece_row = cw_slip_add_row (self->form, _ ("Which piece"), self->piece, FALSE);
  self->tucked = gtk_check_button_new_with_label (_ ("Laid on without glue, as a guide or tucked in"));
  gtk_label_set_wrap (GTK_LABEL (gtk_widget_get_last_child (self->tucked)), TRUE);
  g_signal_connect (self->tucked, "toggled", G_CALLBACK (tucked_chosen), self);
  gtk_box_append (GTK_BOX (self->form), self->tucked);
  self->zones_part = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6);
  cw_slip_add_heading (self->zones_part, _ ("Which glue"));
  self->zones = gtk_box_new (GTK_ORIENTATION_VERTICAL, 4);
  gtk_box_append (GTK_BOX (self->zones_part), self->zones);
  gtk_box_append (GTK_BOX (self->form), self->zones_part);
  add_phase (self);
  self->rest = cw_slip_choice_new (G_CALLBACK (rest_chosen), self);
  cw_slip_add_row (self->form, _ ("How the card lies then"), self->rest, FALSE);
  cw_slip_add_heading (self->form, _ ("For the step card"));
  self->caption = cw_slip_entry_new (caption_taken, self);
  cw_slip_add_row (self->form, _ ("Caption"), self->caption, TRUE);
  for (guint i = 0; i < N_DETAILS; i++)
    {
      self->details[i] = cw_slip_entry_new (detail_taken, self);
      cw_slip_add_row (self->form, _ (details[i].words), self->details[i], i == 0);
    }
  show_step (self);
}
