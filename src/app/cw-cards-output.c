/* cw-cards-output.c: step cards and templates to paper and to files.
 *
 * Files are written on a worker thread. What is to be printed or saved while new pages are still being made waits for
 * them: what comes out is always the design as it is.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "cw-cards-page-private.h"

#include <glib/gi18n-lib.h>

#include "cw-cards-print.h"
#include "cw-template.h"

/* --- files ------------------------------------------------------------------------------------------------------- */

typedef struct
{
  CwPages *pages;       /* NULL: a template is made */
  CwAnalysis *analysis; /* of the template */
  CwPageFormat format;
  gboolean svg;
  GFile *file; /* NULL: to be printed */
} Job;

static void
job_free (gpointer data)
{
  Job *job = data;

  cw_pages_unref (job->pages);
  g_clear_pointer (&job->analysis, cw_analysis_unref);
  g_clear_object (&job->file);
  g_free (job);
}

static void
work (GTask *task, gpointer source, gpointer data, GCancellable *cancellable)
{
  Job *job = data;
  g_autoptr (GError) error = NULL;
  gboolean written = TRUE;

  if (job->pages == NULL && !job->svg)
    job->pages = cw_pages_new_template (job->analysis, job->format);
  if (job->file != NULL)
    written = job->svg ? cw_template_write_svg (job->analysis, job->file, &error)
                       : cw_pages_write_pdf (job->pages, job->file, &error);
  if (written)
    g_task_return_boolean (task, TRUE);
  else
    g_task_return_error (task, g_steal_pointer (&error));
}

static void
file_written (GObject *source, GAsyncResult *result, gpointer data)
{
  CwCardsPage *self = CW_CARDS_PAGE (source);
  const Job *job = g_task_get_task_data (G_TASK (result));
  g_autofree char *name = g_file_get_basename (job->file), *shown = g_filename_display_name (name), *sentence = NULL;
  g_autoptr (GError) error = NULL;

  if (g_task_propagate_boolean (G_TASK (result), &error))
    sentence = job->svg ? g_strdup_printf (_ ("“%s” is written."), shown)
                        : g_strdup_printf (_ ("“%s” is written. Print it at 100 %%, not fitted to the page."), shown);
  else
    sentence = g_strdup_printf (_ ("“%s” could not be written. %s"), shown, error->message);
  if (self->document != NULL)
    cw_document_say (self->document, sentence);
}

static void
start (CwCardsPage *self, Job *job, GAsyncReadyCallback done)
{
  g_autoptr (GTask) task = g_task_new (self, NULL, done, NULL);

  g_task_set_source_tag (task, start);
  g_task_set_task_data (task, job, job_free);
  g_task_run_in_thread (task, work);
}

static void
save_pages (CwCardsPage *self, GFile *file)
{
  Job *job = g_new0 (Job, 1);

  job->pages = cw_pages_ref (cw_cards_maker_get_pages (self->maker));
  job->file = g_object_ref (file);
  start (self, job, file_written);
}

static Job *
new_template_job (CwCardsPage *self, gboolean svg)
{
  Job *job = g_new0 (Job, 1);

  job->analysis = cw_analysis_ref (cw_document_get_analysis (self->document));
  job->format = cw_cards_page_get_format (self);
  job->svg = svg;
  return job;
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
  const char *ending = g_object_get_data (G_OBJECT (dialog), "ending");
  gboolean template = GPOINTER_TO_INT (g_object_get_data (G_OBJECT (dialog), "template"));
  g_autoptr (GFile) chosen
    = response == GTK_RESPONSE_ACCEPT ? gtk_file_chooser_get_file (GTK_FILE_CHOOSER (dialog)) : NULL;
  g_autoptr (GFile) file = chosen != NULL ? with_ending (chosen, ending) : NULL;

  if (file != NULL && self->document != NULL)
    {
      if (!template)
        {
          self->waiting = CW_CARDS_SAVE;
          g_set_object (&self->wanted, file);
          cw_cards_page_go_on (self);
        }
      else if (cw_document_is_analysed (self->document))
        {
          Job *job = new_template_job (self, g_str_equal (ending, ".svg"));

          job->file = g_object_ref (file);
          start (self, job, file_written);
        }
    }
  g_clear_object (&self->chooser);
}

static void
choose (CwCardsPage *self, const char *title, const char *ending, gboolean template)
{
  g_autofree char *words = NULL, *name = NULL;
  GFile *file = NULL;
  g_autoptr (GtkFileFilter) filter = gtk_file_filter_new ();

  if (self->chooser != NULL || self->document == NULL)
    return;
  words = cw_document_dup_title (self->document);
  g_strdelimit (words, "/\\:*?\"<>|\n\t", ' ');
  g_strstrip (words);
  name = template ? g_strdup_printf (_ ("%s, templates"), words) : g_strdup (words);
  self->chooser = gtk_file_chooser_native_new (title, GTK_WINDOW (gtk_widget_get_root (GTK_WIDGET (self))),
                                               GTK_FILE_CHOOSER_ACTION_SAVE, _ ("_Save"), _ ("_Cancel"));
  gtk_native_dialog_set_modal (GTK_NATIVE_DIALOG (self->chooser), TRUE);
  gtk_file_filter_set_name (filter, g_str_equal (ending, ".pdf") ? _ ("PDF pages") : _ ("SVG drawings"));
  gtk_file_filter_add_suffix (filter, ending + 1);
  gtk_file_chooser_add_filter (GTK_FILE_CHOOSER (self->chooser), filter);
  g_free (words);
  words = g_strconcat (name, ending, NULL);
  gtk_file_chooser_set_current_name (GTK_FILE_CHOOSER (self->chooser), words);
  file = cw_document_get_file (self->document);
  if (file != NULL)
    {
      g_autoptr (GFile) folder = g_file_get_parent (file);

      gtk_file_chooser_set_current_folder (GTK_FILE_CHOOSER (self->chooser), folder, NULL);
    }
  g_object_set_data (G_OBJECT (self->chooser), "ending", (gpointer) ending);
  g_object_set_data (G_OBJECT (self->chooser), "template", GINT_TO_POINTER (template));
  g_signal_connect (self->chooser, "response", G_CALLBACK (answered), self);
  gtk_native_dialog_show (GTK_NATIVE_DIALOG (self->chooser));
}

/* Asks where to write the step cards. */
void
cw_cards_page_choose_pages (CwCardsPage *self)
{
  choose (self, _ ("Save the step cards"), ".pdf", FALSE);
}

/* Asks where to write the templates. */
void
cw_cards_page_choose_template (CwCardsPage *self, gboolean svg)
{
  choose (self, _ ("Save the templates"), svg ? ".svg" : ".pdf", TRUE);
}

/* --- paper ------------------------------------------------------------------------------------------------------- */

static void
printed (GtkPrintOperation *operation, GtkPrintOperationResult result, CwCardsPage *self)
{
  g_autoptr (GError) error = NULL;

  if (result != GTK_PRINT_OPERATION_RESULT_ERROR || self->document == NULL)
    return;
  gtk_print_operation_get_error (operation, &error);
  if (error != NULL)
    {
      g_autofree char *sentence = g_strdup_printf (_ ("The pages could not be printed. %s"), error->message);

      cw_document_say (self->document, sentence);
    }
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
  if (error != NULL && self->document != NULL)
    {
      g_autofree char *sentence = g_strdup_printf (_ ("The pages could not be printed. %s"), error->message);

      cw_document_say (self->document, sentence);
    }
}

static void
template_made (GObject *source, GAsyncResult *result, gpointer data)
{
  const Job *job = g_task_get_task_data (G_TASK (result));

  if (g_task_propagate_boolean (G_TASK (result), NULL) && job->pages->lists->len > 0)
    print (CW_CARDS_PAGE (source), job->pages);
}

/* Asks how to print the templates. */
void
cw_cards_page_print_templates (CwCardsPage *self)
{
  if (self->document != NULL && cw_document_is_analysed (self->document))
    start (self, new_template_job (self, FALSE), template_made);
}

/**
 * cw_cards_page_print:
 * @self: the page
 *
 * Asks how to print the step cards, as soon as they are made.
 */
void
cw_cards_page_print (CwCardsPage *self)
{
  g_return_if_fail (CW_IS_CARDS_PAGE (self));

  self->waiting = CW_CARDS_PRINT;
  cw_cards_page_go_on (self);
}

/* There may be new pages: does what waits for them. */
void
cw_cards_page_go_on (CwCardsPage *self)
{
  CwCardsWait waiting = self->waiting;
  g_autoptr (GFile) file = NULL;

  if (waiting == CW_CARDS_NOTHING || !cw_cards_maker_is_current (self->maker))
    return;
  self->waiting = CW_CARDS_NOTHING;
  file = g_steal_pointer (&self->wanted);
  if (waiting == CW_CARDS_PRINT)
    print (self, cw_cards_maker_get_pages (self->maker));
  else
    save_pages (self, file);
}
