/* cw-step-form.c: the slip on which a step is changed.
 *
 * It shows the step of the moment. What the step folds, cuts, scores or glues is in cw-step-about.c.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "cw-step-form.h"

#include <glib/gi18n-lib.h>

#include "cw-slip.h"
#include "cw-step-about.h"
#include "design/cw-step-words.h"
#include "make/cw-make-step.h"

#define N_DETAILS 5

struct _CwStepForm
{
  GtkBox parent_instance;

  GtkWidget *heading, *nothing, *form;
  GtkWidget *name, *making, *using, *rest;
  GtkWidget *piece_row, *piece, *tucked;
  CwStepAbout *about;
  GtkWidget *caption, *details[N_DETAILS];

  CwDocument *document;
  char *step_id;   /* the step shown; NULL: none */
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

/* --- fields ------------------------------------------------------------------------------------------------------ */

static void
name_taken (GtkWidget *entry, const char *text, gpointer data)
{
  CwStepForm *self = data;
  const CwStep *step = get_step (self);

  if (step != NULL)
    cw_document_try (self->document, _ ("rename step"), cw_make_rename_step (get_design (self), step->id, text), NULL);
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
  cw_document_try (self->document, _ ("change caption"), cw_make_change_step (get_design (self), copy, &error), error);
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
  cw_document_try (self->document, _ ("change step"), edit, error);
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
  cw_document_try (self->document, _ ("change who does the step"), edit, error);
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
  cw_document_try (self->document, _ ("change how the card lies"), edit, error);
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
  cw_document_try (self->document, _ ("change how the piece is laid on"), edit, error);
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
  cw_document_try (self->document, _ ("change the piece taken away"), edit, error);
}

/* --- what is shown ----------------------------------------------------------------------------------------------- */

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
show_step (CwStepForm *self)
{
  int index = self->document != NULL ? cw_document_get_step (self->document) : -1;
  const CwStep *step = NULL;
  g_autofree char *heading = NULL, *title = NULL;

  if (index >= 0 && (guint) index < get_design (self)->steps->len)
    step = g_ptr_array_index (get_design (self)->steps, (guint) index);
  if (step != NULL && g_strcmp0 (self->step_id, step->id) != 0)
    {
      cw_slip_take (GTK_WIDGET (self)); /* what is typed belongs to the step shown so far */
      step = g_ptr_array_index (get_design (self)->steps, (guint) index);
    }
  cw_step_about_show (self->about, self->document, step);
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
  gtk_widget_set_visible (self->piece_row, step->what == CW_DO_TAKE_AWAY);
  if (step->what == CW_DO_TAKE_AWAY)
    show_piece (self, step);
  gtk_widget_set_visible (self->tucked, step->what == CW_DO_STICK);
  gtk_check_button_set_active (GTK_CHECK_BUTTON (self->tucked), step->tucked);
  cw_slip_entry_show (self->caption, step->caption != NULL ? step->caption : "");
  for (guint i = 0; i < N_DETAILS; i++)
    {
      g_autofree char *text = cw_step_dup_detail (step, details[i].key);

      cw_slip_entry_show (self->details[i], text);
    }
  self->inward = FALSE;
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

  cw_step_about_set_choosing (self->about, choosing);
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

  if (!cw_document_follow (&self->document, document, self))
    return;
  g_clear_pointer (&self->step_id, g_free);
  if (document != NULL)
    {
      g_signal_connect_object (document, "changed", G_CALLBACK (show_step), self, G_CONNECT_SWAPPED);
      g_signal_connect_object (document, "moment", G_CALLBACK (show_step), self, G_CONNECT_SWAPPED);
    }
  show_step (self);
}

static void
cw_step_form_dispose (GObject *object)
{
  CwStepForm *self = CW_STEP_FORM (object);

  cw_document_follow (&self->document, NULL, self);
  g_clear_pointer (&self->step_id, g_free);
  G_OBJECT_CLASS (cw_step_form_parent_class)->dispose (object);
}

static void
cw_step_form_class_init (CwStepFormClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = cw_step_form_dispose;
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
cw_step_form_init (CwStepForm *self)
{
  GtkWidget *body = cw_slip_fill (GTK_BOX (self), _ ("This step"), &self->heading);

  self->nothing = cw_slip_add_hint (body, _ ("This is the flat sheet, before the first step. Pick a step up to change "
                                             "it, or add one."));
  self->form = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6);
  gtk_box_append (GTK_BOX (body), self->form);
  self->name = cw_slip_entry_new (name_taken, self);
  cw_slip_add_row (self->form, _ ("Name of this step"), self->name, TRUE);
  self->about = CW_STEP_ABOUT (g_object_new (CW_TYPE_STEP_ABOUT, NULL));
  gtk_box_append (GTK_BOX (self->form), GTK_WIDGET (self->about));
  self->piece = cw_slip_choice_new (G_CALLBACK (piece_chosen), self);
  self->piece_row = cw_slip_add_row (self->form, _ ("Which piece"), self->piece, FALSE);
  self->tucked = gtk_check_button_new_with_label (_ ("Laid on without glue, as a guide or tucked in"));
  gtk_label_set_wrap (GTK_LABEL (gtk_widget_get_last_child (self->tucked)), TRUE);
  g_signal_connect (self->tucked, "toggled", G_CALLBACK (tucked_chosen), self);
  gtk_box_append (GTK_BOX (self->form), self->tucked);
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
