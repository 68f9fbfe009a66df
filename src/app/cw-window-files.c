/* cw-window-files.c: opening, saving, and never losing anything.
 *
 * Files are read and written on a worker thread; a design is immutable, so it can be written while the maker goes on.
 * What has to be asked is in cw-window-question.c.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "cw-window-private.h"

#include <glib/gi18n-lib.h>

#include "design/cw-design-json.h"
#include "design/cw-file.h"

#define MEDIA_TYPE "application/vnd.creasewright.creasecard+json"
#define SUFFIX ".creasecard"

static void
remember (GFile *file)
{
  g_autofree char *uri = g_file_get_uri (file), *name = g_file_get_basename (file);
  g_autofree char *shown = NULL, *exec = NULL;
  GtkRecentData data = { 0 };

  if (g_str_has_suffix (name, SUFFIX))
    name[strlen (name) - strlen (SUFFIX)] = '\0';
  shown = g_filename_display_name (name);
  exec = g_strdup_printf ("%s %%u", "creasewright");
  data.display_name = shown;
  data.mime_type = (char *) MEDIA_TYPE;
  data.app_name = (char *) "Creasewright";
  data.app_exec = exec;
  gtk_recent_manager_add_full (gtk_recent_manager_get_default (), uri, &data);
}

/* --- opening ----------------------------------------------------------------------------------------------------- */

typedef struct
{
  GFile *file;
  char *tag; /* before it was read, so that what comes later is noticed */
  gboolean as_sample;
} Reading;

static void
reading_free (gpointer data)
{
  Reading *reading = data;

  g_object_unref (reading->file);
  g_free (reading->tag);
  g_free (reading);
}

static void
read_file (GTask *task, gpointer source, gpointer data, GCancellable *cancellable)
{
  Reading *reading = data;
  g_autoptr (GError) error = NULL;
  CwDesign *design = NULL;

  reading->tag = cw_file_dup_tag (reading->file);
  design = cw_design_load (reading->file, &error);
  if (design == NULL)
    g_task_return_error (task, g_steal_pointer (&error));
  else
    g_task_return_pointer (task, design, (GDestroyNotify) cw_design_unref);
}

static void
file_read (GObject *source, GAsyncResult *result, gpointer data)
{
  CwWindow *self = CW_WINDOW (source);
  g_autoptr (GError) error = NULL;
  g_autoptr (CwDesign) design = g_task_propagate_pointer (G_TASK (result), &error);
  Reading *reading = g_task_get_task_data (G_TASK (result));
  g_autoptr (CwDocument) document = NULL;
  int step = -1;
  double fraction = 1;

  self->busy = FALSE;
  cw_window_update_actions (self);
  if (gtk_widget_in_destruction (GTK_WIDGET (self)))
    return;
  if (design == NULL)
    {
      g_autofree char *name = g_file_get_basename (reading->file), *shown = g_filename_display_name (name);
      g_autofree char *sentence = g_strdup_printf (_ ("“%s” could not be opened. %s"), shown, error->message);

      cw_window_say (self, sentence);
      return;
    }
  document = cw_document_new (design, reading->as_sample ? NULL : reading->file);
  if (!reading->as_sample)
    {
      cw_document_set_tag (document, reading->tag);
      remember (reading->file);
    }
  cw_document_choose_moment (design, &step, &fraction);
  cw_document_set_moment (document, step, fraction);
  cw_window_set_document (self, document);
}

static void
start_reading (CwWindow *self, GFile *file, gboolean as_sample)
{
  g_autoptr (GTask) task = NULL;
  Reading *reading = NULL;

  if (self->busy)
    return;
  self->busy = TRUE;
  cw_window_update_actions (self);
  reading = g_new0 (Reading, 1);
  reading->file = g_object_ref (file);
  reading->as_sample = as_sample;
  task = g_task_new (self, NULL, file_read, NULL);
  g_task_set_task_data (task, reading, reading_free);
  g_task_run_in_thread (task, read_file);
}

/* Opens a file in place of what is on the table, unasked. */
void
cw_window_read (CwWindow *self, GFile *file)
{
  start_reading (self, file, FALSE);
}

/* Reads the document's own file once more, in place of what is on the table. */
void
cw_window_open_again (CwWindow *self)
{
  start_reading (self, cw_document_get_file (self->document), FALSE);
}

/**
 * cw_window_open:
 * @self: the window
 * @file: a design file
 *
 * Opens the file in place of the open design; asks first when that has changes that are not saved. A file that cannot
 * be read is told in the message line and changes nothing.
 */
void
cw_window_open (CwWindow *self, GFile *file)
{
  g_return_if_fail (CW_IS_WINDOW (self));
  g_return_if_fail (G_IS_FILE (file));

  cw_window_guard (self, CW_PENDING_OPEN, file);
}

/**
 * cw_window_open_sample:
 * @self: the window
 * @file: a sample
 *
 * Opens a sample as a new card: saving it asks where to.
 */
void
cw_window_open_sample (CwWindow *self, GFile *file)
{
  g_return_if_fail (CW_IS_WINDOW (self));

  start_reading (self, file, TRUE);
}

static void
add_filter (GtkFileChooser *chooser)
{
  g_autoptr (GtkFileFilter) ours = gtk_file_filter_new (), all = gtk_file_filter_new ();

  gtk_file_filter_set_name (ours, _ ("Creasewright cards"));
  gtk_file_filter_add_suffix (ours, &SUFFIX[1]);
  gtk_file_filter_set_name (all, _ ("All files"));
  gtk_file_filter_add_pattern (all, "*");
  gtk_file_chooser_add_filter (chooser, ours);
  gtk_file_chooser_add_filter (chooser, all);
}

static void
open_answered (GtkNativeDialog *dialog, int response, CwWindow *self)
{
  g_autoptr (GFile) file = NULL;

  if (response == GTK_RESPONSE_ACCEPT)
    file = gtk_file_chooser_get_file (GTK_FILE_CHOOSER (dialog));
  g_clear_object (&self->chooser);
  if (file != NULL)
    cw_window_open (self, file);
}

/* Asks which file to open. */
void
cw_window_choose_open (CwWindow *self)
{
  if (self->chooser != NULL)
    return;
  self->chooser = gtk_file_chooser_native_new (_ ("Open a card"), GTK_WINDOW (self), GTK_FILE_CHOOSER_ACTION_OPEN,
                                               _ ("_Open"), _ ("_Cancel"));
  gtk_native_dialog_set_modal (GTK_NATIVE_DIALOG (self->chooser), TRUE);
  add_filter (GTK_FILE_CHOOSER (self->chooser));
  g_signal_connect (self->chooser, "response", G_CALLBACK (open_answered), self);
  gtk_native_dialog_show (GTK_NATIVE_DIALOG (self->chooser));
}

/* --- saving ------------------------------------------------------------------------------------------------------ */

static void
file_written (GObject *source, GAsyncResult *result, gpointer data)
{
  g_autoptr (CwWindow) self = data;
  CwDocument *document = CW_DOCUMENT (source);
  g_autoptr (GError) error = NULL;
  g_autofree char *sentence = NULL;
  GFile *file = NULL;
  gboolean done = cw_document_save_finish (document, result, &file, &error);
  g_autofree char *name = g_file_get_basename (file), *shown = g_filename_display_name (name);

  self->busy = FALSE;
  if (gtk_widget_in_destruction (GTK_WIDGET (self)))
    return;
  cw_window_update_actions (self);
  if (done)
    {
      remember (file);
      cw_window_say (self, NULL);
      if (self->document == document && cw_document_is_saved (document))
        cw_window_do_pending (self);
      return;
    }
  self->pending = CW_PENDING_NOTHING;
  if (self->document != document)
    {
      sentence = g_strdup_printf (_ ("“%s” could not be saved. %s"), shown, error->message);
      cw_window_say (self, sentence);
    }
  else if (g_error_matches (error, G_IO_ERROR, G_IO_ERROR_WRONG_ETAG))
    {
      sentence = g_strdup_printf (_ ("Another program has changed “%s” since you opened it here."), shown);
      cw_window_ask (self, CW_ASK_OVER, sentence);
    }
  else
    {
      sentence = g_strdup_printf (_ ("“%s” could not be saved. %s"), shown, error->message);
      cw_window_ask (self, CW_ASK_FAILED, sentence);
    }
}

static void
start_writing (CwWindow *self, GFile *file, gboolean over)
{
  self->busy = TRUE;
  cw_window_update_actions (self);
  cw_document_save_async (self->document, file, over, file_written, g_object_ref (self));
}

/* Saves to the document's own file. */
void
cw_window_save_over (CwWindow *self, gboolean over)
{
  start_writing (self, NULL, over);
}

static void
save_answered (GtkNativeDialog *dialog, int response, CwWindow *self)
{
  g_autoptr (GFile) file = NULL;

  if (response == GTK_RESPONSE_ACCEPT)
    file = gtk_file_chooser_get_file (GTK_FILE_CHOOSER (dialog));
  else
    self->pending = CW_PENDING_NOTHING;
  g_clear_object (&self->chooser);
  if (file == NULL || self->document == NULL)
    return;
  {
    g_autofree char *name = g_file_get_basename (file);

    /* Without an ending the file would not be known again. */
    if (strchr (name, '.') == NULL)
      {
        g_autoptr (GFile) folder = g_file_get_parent (file);
        g_autofree char *whole = g_strconcat (name, SUFFIX, NULL);

        g_object_unref (file);
        file = g_file_get_child (folder, whole);
      }
  }
  start_writing (self, file, TRUE); /* the chooser has asked */
}

/* A file name from the title: what no file system takes is left out. */
static char *
dup_file_name (CwDocument *document)
{
  g_autofree char *title = cw_document_dup_title (document);

  g_strdelimit (title, "/\\:*?\"<>|\n\t", ' ');
  g_strstrip (title);
  return g_strconcat (*title != '\0' ? title : _ ("New card"), SUFFIX, NULL);
}

/**
 * cw_window_save:
 * @self: the window
 * @ask: ask where to even when the design has a file
 *
 * Saves the open design.
 */
void
cw_window_save (CwWindow *self, gboolean ask)
{
  GFile *file = NULL;
  g_autofree char *name = NULL;

  g_return_if_fail (CW_IS_WINDOW (self));

  if (self->document == NULL || self->busy || self->chooser != NULL)
    return;
  file = cw_document_get_file (self->document);
  if (file != NULL && !ask)
    {
      start_writing (self, file, FALSE);
      return;
    }
  self->chooser = gtk_file_chooser_native_new (_ ("Save the card"), GTK_WINDOW (self), GTK_FILE_CHOOSER_ACTION_SAVE,
                                               _ ("_Save"), _ ("_Cancel"));
  gtk_native_dialog_set_modal (GTK_NATIVE_DIALOG (self->chooser), TRUE);
  add_filter (GTK_FILE_CHOOSER (self->chooser));
  if (file != NULL)
    gtk_file_chooser_set_file (GTK_FILE_CHOOSER (self->chooser), file, NULL);
  else
    {
      name = dup_file_name (self->document);
      gtk_file_chooser_set_current_name (GTK_FILE_CHOOSER (self->chooser), name);
    }
  g_signal_connect (self->chooser, "response", G_CALLBACK (save_answered), self);
  gtk_native_dialog_show (GTK_NATIVE_DIALOG (self->chooser));
}
