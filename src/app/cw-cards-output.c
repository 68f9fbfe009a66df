/* cw-cards-output.c: step cards and templates to paper and to files.
 *
 * What is to be printed or saved while the design is still being analysed waits for that: what comes out is always the
 * design as it is. Pages and files are made on a worker thread, whatever is shown meanwhile.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "cw-cards-page-private.h"

#include <glib/gi18n-lib.h>

#include "cw-cards-print.h"
#include "cw-page-html.h"
#include "cw-template.h"

static const struct
{
  const char *title, *ending, *kind;
  gboolean template;
} outputs[] = {
  [CW_CARDS_SAVE] = { N_ ("Save the step cards"), ".pdf", N_ ("PDF pages"), FALSE },
  [CW_CARDS_SAVE_WEB] = { N_ ("Save the step cards for the web"), ".html", N_ ("Pages for the web"), FALSE },
  [CW_CARDS_SAVE_TEMPLATES] = { N_ ("Save the templates"), ".pdf", N_ ("PDF pages"), TRUE },
  [CW_CARDS_SAVE_SVG] = { N_ ("Save the templates"), ".svg", N_ ("SVG drawings"), TRUE },
};

/* --- made on a worker -------------------------------------------------------------------------------------------- */

typedef struct
{
  CwCardsWait what;
  CwPages *pages; /* made on the way; NULL where none are */
  CwAnalysis *analysis;
  CwPageStyle style;
  gboolean sixteenths;
  GFile *folder; /* where the photographs of a card for the web are */
  GFile *file;   /* NULL: to be printed */
} Job;

static void
job_free (gpointer data)
{
  Job *job = data;

  cw_pages_unref (job->pages);
  cw_analysis_unref (job->analysis);
  g_clear_object (&job->folder);
  g_clear_object (&job->file);
  g_free (job);
}

static gboolean
write_web (const Job *job, GError **error)
{
  g_autoptr (CwStepCard) card = cw_cards_maker_new_card (job->analysis, job->sixteenths);

  return cw_step_card_write_html (card, job->folder, job->file, error);
}

static void
work (GTask *task, gpointer source, gpointer data, GCancellable *cancellable)
{
  Job *job = data;
  g_autoptr (GError) error = NULL;
  gboolean written = TRUE;

  if (job->what == CW_CARDS_SAVE_TEMPLATES || job->what == CW_CARDS_PRINT_TEMPLATES)
    job->pages = cw_pages_new_template (job->analysis, job->style.format);
  else if (job->what == CW_CARDS_SAVE || job->what == CW_CARDS_PRINT)
    {
      g_autoptr (CwStepCard) card = cw_cards_maker_new_card (job->analysis, job->sixteenths);

      job->pages = cw_pages_new_step_card (card, &job->style);
    }
  if (job->what == CW_CARDS_SAVE_WEB)
    written = write_web (job, &error);
  else if (job->what == CW_CARDS_SAVE_SVG)
    written = cw_template_write_svg (job->analysis, job->file, &error);
  else if (job->file != NULL)
    written = cw_pages_write_pdf (job->pages, job->file, &error);
  if (written)
    g_task_return_boolean (task, TRUE);
  else
    g_task_return_error (task, g_steal_pointer (&error));
}

/* --- files ------------------------------------------------------------------------------------------------------- */

static void
file_written (GObject *source, GAsyncResult *result, gpointer data)
{
  CwCardsPage *self = CW_CARDS_PAGE (source);
  const Job *job = g_task_get_task_data (G_TASK (result));
  g_autofree char *name = g_file_get_basename (job->file), *shown = g_filename_display_name (name), *sentence = NULL;
  g_autoptr (GError) error = NULL;

  if (!g_task_propagate_boolean (G_TASK (result), &error))
    sentence = g_strdup_printf (_ ("“%s” could not be written. %s"), shown, error->message);
  else if (job->pages == NULL)
    sentence = g_strdup_printf (_ ("“%s” is written."), shown);
  else
    sentence = g_strdup_printf (_ ("“%s” is written. Print it at 100 %%, not fitted to the page."), shown);
  if (self->document != NULL)
    cw_document_say (self->document, sentence);
}

/* A name without an ending gets the one of its kind. */
static GFile *
with_ending (GFile *file, const char *ending)
{
  g_autofree char *name = g_file_get_basename (file), *whole = NULL;
  g_autoptr (GFile) folder = NULL;

  if (strchr (name, '.') != NULL)
    return g_object_ref (file);
  folder = g_file_get_parent (file);
  whole = g_strconcat (name, ending, NULL);
  return g_file_get_child (folder, whole);
}

static void
answered (GtkNativeDialog *dialog, int response, CwCardsPage *self)
{
  g_autoptr (GFile) chosen
    = response == GTK_RESPONSE_ACCEPT ? gtk_file_chooser_get_file (GTK_FILE_CHOOSER (dialog)) : NULL;
  g_autoptr (GFile) file = chosen != NULL ? with_ending (chosen, outputs[self->choosing].ending) : NULL;

  if (file != NULL && self->document != NULL)
    cw_cards_page_wait (self, self->choosing, file);
  g_clear_object (&self->chooser);
}

/* Asks where to write it. */
void
cw_cards_page_choose (CwCardsPage *self, CwCardsWait what)
{
  g_autofree char *title = NULL, *name = NULL;
  g_autoptr (GtkFileFilter) filter = gtk_file_filter_new ();
  GFile *file = NULL;

  g_return_if_fail (what >= CW_CARDS_SAVE && what < G_N_ELEMENTS (outputs));

  if (self->chooser != NULL || self->document == NULL)
    return;
  title = cw_document_dup_title (self->document);
  g_strdelimit (title, "/\\:*?\"<>|\n\t", ' ');
  g_strstrip (title);
  /* Translators: a file's name: title and ending. */
  name = outputs[what].template ? g_strdup_printf (_ ("%s, templates%s"), title, outputs[what].ending)
                                : g_strconcat (title, outputs[what].ending, NULL);
  self->choosing = what;
  self->chooser
    = gtk_file_chooser_native_new (_ (outputs[what].title), GTK_WINDOW (gtk_widget_get_root (GTK_WIDGET (self))),
                                   GTK_FILE_CHOOSER_ACTION_SAVE, _ ("_Save"), _ ("_Cancel"));
  gtk_native_dialog_set_modal (GTK_NATIVE_DIALOG (self->chooser), TRUE);
  gtk_file_filter_set_name (filter, _ (outputs[what].kind));
  gtk_file_filter_add_suffix (filter, outputs[what].ending + 1);
  gtk_file_chooser_add_filter (GTK_FILE_CHOOSER (self->chooser), filter);
  gtk_file_chooser_set_current_name (GTK_FILE_CHOOSER (self->chooser), name);
  file = cw_document_get_file (self->document);
  if (file != NULL)
    {
      g_autoptr (GFile) folder = g_file_get_parent (file);

      gtk_file_chooser_set_current_folder (GTK_FILE_CHOOSER (self->chooser), folder, NULL);
    }
  g_signal_connect (self->chooser, "response", G_CALLBACK (answered), self);
  gtk_native_dialog_show (GTK_NATIVE_DIALOG (self->chooser));
}

/* --- paper ------------------------------------------------------------------------------------------------------- */

static void
say_not_printed (CwCardsPage *self, const GError *error)
{
  g_autofree char *sentence = g_strdup_printf (_ ("The pages could not be printed. %s"), error->message);

  if (self->document != NULL)
    cw_document_say (self->document, sentence);
}

static void
printed (GtkPrintOperation *operation, GtkPrintOperationResult result, CwCardsPage *self)
{
  g_autoptr (GError) error = NULL;

  if (result == GTK_PRINT_OPERATION_RESULT_ERROR)
    gtk_print_operation_get_error (operation, &error);
  if (error != NULL)
    say_not_printed (self, error);
}

static void
print (CwCardsPage *self, CwPages *pages)
{
  GFile *file = self->document != NULL ? cw_document_get_file (self->document) : NULL;
  g_autoptr (GFile) folder = file != NULL ? g_file_get_parent (file) : g_file_new_for_path (g_get_home_dir ());
  g_autoptr (GtkPrintOperation) operation = cw_cards_print_new (pages, folder);
  GtkRoot *root = gtk_widget_get_root (GTK_WIDGET (self));
  g_autoptr (GError) error = NULL;

  g_signal_connect_object (operation, "done", G_CALLBACK (printed), self, 0);
  gtk_print_operation_run (operation, GTK_PRINT_OPERATION_ACTION_PRINT_DIALOG,
                           GTK_IS_WINDOW (root) ? GTK_WINDOW (root) : NULL, &error);
  if (error != NULL)
    say_not_printed (self, error);
}

static void
pages_made (GObject *source, GAsyncResult *result, gpointer data)
{
  const Job *job = g_task_get_task_data (G_TASK (result));

  if (g_task_propagate_boolean (G_TASK (result), NULL) && job->pages->lists->len > 0)
    print (CW_CARDS_PAGE (source), job->pages);
}

/* --- both -------------------------------------------------------------------------------------------------------- */

/* There may be a new analysis: does what waits for it. */
void
cw_cards_page_go_on (CwCardsPage *self)
{
  g_autoptr (GTask) task = NULL;
  GFile *own = NULL;
  Job *job = NULL;

  if (self->waiting == CW_CARDS_NOTHING || self->document == NULL || !cw_document_is_analysed (self->document))
    return;
  job = g_new0 (Job, 1);
  job->what = self->waiting;
  self->waiting = CW_CARDS_NOTHING;
  job->analysis = cw_analysis_ref (cw_document_get_analysis (self->document));
  job->style.format = cw_cards_page_get_format (self);
  job->style.large = gtk_check_button_get_active (GTK_CHECK_BUTTON (self->large));
  job->sixteenths = gtk_check_button_get_active (GTK_CHECK_BUTTON (self->sixteenths));
  job->file = g_steal_pointer (&self->wanted);
  own = cw_document_get_file (self->document);
  if (own != NULL || job->file != NULL)
    job->folder = g_file_get_parent (own != NULL ? own : job->file);
  task = g_task_new (self, NULL, job->file != NULL ? file_written : pages_made, NULL);
  g_task_set_source_tag (task, cw_cards_page_go_on);
  g_task_set_task_data (task, job, job_free);
  g_task_run_in_thread (task, work);
}

/* Does it as soon as the design is analysed as it is. */
void
cw_cards_page_wait (CwCardsPage *self, CwCardsWait what, GFile *file)
{
  self->waiting = what;
  g_set_object (&self->wanted, file);
  cw_cards_page_go_on (self);
}

/**
 * cw_cards_page_print:
 * @self: the page
 *
 * Asks how to print the step cards.
 */
void
cw_cards_page_print (CwCardsPage *self)
{
  g_return_if_fail (CW_IS_CARDS_PAGE (self));

  cw_cards_page_wait (self, CW_CARDS_PRINT, NULL);
}
