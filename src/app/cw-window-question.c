/* cw-window-question.c: questions that the window asks on the table itself, never in a dialog: what to do with unsaved
 * changes, with a file that could not be written or that another program has written, with a card left over.
 *
 * One question at a time. One that answers something the maker has just done takes the place of any other and gets the
 * keys; one that comes by itself waits for its turn and leaves the keys where they are. Escape is the answer that
 * changes nothing.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "cw-window-private.h"

#include <glib/gi18n-lib.h>

#define ANSWERS_MAX 3

typedef struct
{
  const char *name, *words;
} Answer;

/* The first is the one that most will want; the last is what Escape means. */
static const struct
{
  gboolean takes_keys;
  Answer answers[ANSWERS_MAX];
} questions[CW_N_ASKS] = {
  [CW_ASK_UNSAVED]
  = { TRUE,
      { { "save", N_ ("Save first") }, { "discard", N_ ("Throw changes away") }, { "cancel", N_ ("Keep working") } } },
  [CW_ASK_FAILED] = { TRUE, { { "save-as", N_ ("Save somewhere else…") }, { "cancel", N_ ("Keep working") } } },
  [CW_ASK_OVER] = { TRUE,
                    { { "save-as", N_ ("Save as another file…") },
                      { "over", N_ ("Write over it") },
                      { "cancel", N_ ("Keep working") } } },
  [CW_ASK_CHANGED]
  = { FALSE, { { "again", N_ ("Open the changed file") }, { "mine", N_ ("Keep what is on the table") } } },
  [CW_ASK_LEFTOVER]
  = { FALSE,
      { { "bring", N_ ("Bring it back") }, { "forget", N_ ("Throw it away") }, { "later", N_ ("Ask me next time") } } },
};

static void next_question (CwWindow *self);

static void
hide (CwWindow *self)
{
  self->ask = CW_ASK_NOTHING;
  gtk_revealer_set_reveal_child (GTK_REVEALER (self->question_revealer), FALSE);
  cw_window_update_actions (self);
}

/* Out of sight the words go, so that nothing reads them any more. */
static void
question_hidden (CwWindow *self)
{
  if (!gtk_revealer_get_child_revealed (GTK_REVEALER (self->question_revealer)) && self->ask == CW_ASK_NOTHING)
    gtk_label_set_text (GTK_LABEL (self->question), "");
}

void
cw_window_add_questions (CwWindow *self)
{
  g_signal_connect_swapped (self->question_revealer, "notify::child-revealed", G_CALLBACK (question_hidden), self);
}

/**
 * cw_window_ask:
 * @self: the window
 * @ask: which question
 * @sentence: what is the matter, a whole translated sentence
 *
 * Asks, in place of any other question that is up.
 */
void
cw_window_ask (CwWindow *self, CwAsk ask, const char *sentence)
{
  GtkWidget *child = NULL;

  g_return_if_fail (ask > CW_ASK_NOTHING && ask < CW_N_ASKS);

  if (self->ask == CW_ASK_LEFTOVER && ask != CW_ASK_LEFTOVER)
    g_clear_pointer (&self->leftover, cw_leftover_free); /* offered again when this is answered */
  self->ask = ask;
  cw_window_say (self, NULL);
  gtk_label_set_text (GTK_LABEL (self->question), sentence);
  while ((child = gtk_widget_get_first_child (self->answers)) != NULL)
    gtk_box_remove (GTK_BOX (self->answers), child);
  for (guint i = 0; i < ANSWERS_MAX && questions[ask].answers[i].name != NULL; i++)
    {
      GtkWidget *button = gtk_button_new_with_label (_ (questions[ask].answers[i].words));

      gtk_actionable_set_action_name (GTK_ACTIONABLE (button), "win.answer");
      gtk_actionable_set_action_target (GTK_ACTIONABLE (button), "s", questions[ask].answers[i].name);
      if (i == 0)
        gtk_widget_add_css_class (button, "suggested-action");
      gtk_box_append (GTK_BOX (self->answers), button);
    }
  gtk_revealer_set_reveal_child (GTK_REVEALER (self->question_revealer), TRUE);
  cw_window_update_actions (self);
  if (questions[ask].takes_keys)
    gtk_widget_grab_focus (gtk_widget_get_first_child (self->answers));
}

/* --- unsaved changes --------------------------------------------------------------------------------------------- */

/* Does what waits. */
void
cw_window_do_pending (CwWindow *self)
{
  CwPending pending = self->pending;
  g_autoptr (GFile) file = g_steal_pointer (&self->pending_file);

  switch (pending)
    {
    case CW_PENDING_CLOSE: /* stays pending, so that closing asks no more */
      gtk_window_destroy (GTK_WINDOW (self));
      return;
    case CW_PENDING_START:
      self->pending = CW_PENDING_NOTHING;
      cw_window_set_document (self, NULL);
      break;
    case CW_PENDING_OPEN:
      self->pending = CW_PENDING_NOTHING;
      cw_window_read (self, file);
      break;
    case CW_PENDING_NOTHING:
    default:
      break;
    }
  cw_window_update_actions (self);
}

/**
 * cw_window_guard:
 * @self: the window
 * @pending: what is to be done
 * @file: (nullable): which file to open
 *
 * Does it, or asks first when there are changes that are not saved.
 *
 * Returns: TRUE when it was done at once
 */
gboolean
cw_window_guard (CwWindow *self, CwPending pending, GFile *file)
{
  g_autofree char *title = NULL, *sentence = NULL;

  self->pending = pending;
  g_set_object (&self->pending_file, file);
  if (self->document == NULL || cw_document_is_saved (self->document))
    {
      cw_window_do_pending (self);
      return TRUE;
    }
  title = cw_document_dup_title (self->document);
  sentence = g_strdup_printf (_ ("“%s” has changes that are not saved."), title);
  cw_window_ask (self, CW_ASK_UNSAVED, sentence);
  return FALSE;
}

/* --- what comes by itself ---------------------------------------------------------------------------------------- */

static void
ask_about_disk (CwWindow *self)
{
  g_autofree char *title = cw_document_dup_title (self->document), *sentence = NULL;

  sentence = g_strdup_printf (cw_document_get_undo_name (self->document) != NULL
                                ? _ ("Another program has changed the file of “%s”. Your own changes are not in it.")
                                : _ ("Another program has changed the file of “%s”."),
                              title);
  cw_window_ask (self, CW_ASK_CHANGED, sentence);
}

static void
ask_about_leftover (CwWindow *self)
{
  g_autofree char *sentence = NULL;

  sentence
    = g_strdup_printf (_ ("“%s” was not saved when the program ended. It is still here."), self->leftover->title);
  cw_window_ask (self, CW_ASK_LEFTOVER, sentence);
}

/* What else is waiting to be asked. */
static void
next_question (CwWindow *self)
{
  if (self->ask != CW_ASK_NOTHING)
    return;
  if (self->document != NULL && cw_document_get_disk (self->document) == CW_DISK_CHANGED)
    ask_about_disk (self);
  else if (self->offers_leftovers && (self->leftover = cw_leftover_find ()) != NULL)
    ask_about_leftover (self);
}

/* The document's file is another than it was. */
void
cw_window_disk_changed (CwWindow *self)
{
  g_autofree char *title = NULL, *sentence = NULL;

  if (cw_document_get_disk (self->document) == CW_DISK_GONE)
    {
      title = cw_document_dup_title (self->document);
      sentence = g_strdup_printf (_ ("The file of “%s” is no longer there. Save puts it there again."), title);
      cw_window_say (self, sentence);
    }
  if (self->ask == CW_ASK_CHANGED && cw_document_get_disk (self->document) != CW_DISK_CHANGED)
    hide (self);
  next_question (self);
}

/**
 * cw_window_offer_leftovers:
 * @self: the window
 *
 * Offers to bring back what a program that is no longer there has left unsaved, one card after the other.
 */
void
cw_window_offer_leftovers (CwWindow *self)
{
  g_return_if_fail (CW_IS_WINDOW (self));

  self->offers_leftovers = TRUE;
  next_question (self);
}

/* Into this window while it is empty, else into one of its own. */
static void
bring_back (CwWindow *self)
{
  g_autoptr (CwDocument) document = cw_leftover_open (self->leftover);
  CwWindow *window = self;

  if (self->document != NULL)
    window = CW_WINDOW (cw_window_new (gtk_window_get_application (GTK_WINDOW (self))));
  cw_window_take_document (window, document, g_steal_pointer (&self->leftover));
  gtk_window_present (GTK_WINDOW (window));
}

/* --- answers ----------------------------------------------------------------------------------------------------- */

/**
 * cw_window_answer:
 * @self: the window
 * @answer: an answer of the question that is up; "" for the one that changes nothing
 */
void
cw_window_answer (CwWindow *self, const char *answer)
{
  CwAsk ask = self->ask;

  if (ask == CW_ASK_NOTHING)
    return;
  for (guint i = 0; i < ANSWERS_MAX && *answer == '\0'; i++)
    if (i + 1 == ANSWERS_MAX || questions[ask].answers[i + 1].name == NULL)
      answer = questions[ask].answers[i].name;
  hide (self);
  if (g_str_equal (answer, "discard"))
    {
      cw_window_do_pending (self);
      return; /* the window may be gone */
    }
  if (g_str_equal (answer, "cancel"))
    {
      self->pending = CW_PENDING_NOTHING;
      g_clear_object (&self->pending_file);
    }
  else if (g_str_equal (answer, "save"))
    cw_window_save (self, FALSE);
  else if (g_str_equal (answer, "save-as"))
    cw_window_save (self, TRUE);
  else if (g_str_equal (answer, "over"))
    cw_window_save_over (self, TRUE);
  else if (g_str_equal (answer, "again"))
    cw_window_open_again (self);
  else if (g_str_equal (answer, "mine"))
    cw_document_keep_mine (self->document);
  else if (g_str_equal (answer, "bring"))
    bring_back (self);
  else if (g_str_equal (answer, "forget"))
    g_clear_pointer (&self->leftover, cw_leftover_remove);
  else if (g_str_equal (answer, "later"))
    self->later = g_list_prepend (self->later, g_steal_pointer (&self->leftover)); /* claimed: not offered again */
  cw_window_update_actions (self);
  next_question (self);
}
