/* cw-window-files.c: opening, saving, and never losing anything.
 *
 * Files are read and written on a worker thread; a design is immutable, so it can be written while the maker goes on.
 * Whatever would let go of unsaved changes asks first, in the window, and is done when the question is answered.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "cw-window-private.h"

#include <glib/gi18n-lib.h>

#include "design/cw-design-json.h"

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

static void
read_file (GTask *task, gpointer source, gpointer data, GCancellable *cancellable)
{
  g_autoptr (GError) error = NULL;
  CwDesign *design = cw_design_load (data, &error);

  if (design == NULL)
    g_task_return_error (task, g_steal_pointer (&error));
  else
    g_task_return_pointer (task, design, (GDestroyNotify) cw_design_unref);
}

static void
file_read (GObject *source, GAsyncResult *result, gpointer as_sample)
{
  CwWindow *self = CW_WINDOW (source);
  g_autoptr (GError) error = NULL;
  g_autoptr (CwDesign) design = g_task_propagate_pointer (G_TASK (result), &error);
  GFile *file = g_task_get_task_data (G_TASK (result));

  self->busy = FALSE;
  cw_window_update_actions (self);
  if (gtk_widget_in_destruction (GTK_WIDGET (self)))
    return;
  if (design == NULL)
    {
      g_autofree char *name = g_file_get_basename (file), *shown = g_filename_display_name (name);
      g_autofree char *sentence = g_strdup_printf (_ ("“%s” could not be opened. %s"), shown, error->message);

      cw_window_say (self, sentence);
      return;
    }
  {
    g_autoptr (CwDocument) document = cw_document_new (design, as_sample != NULL ? NULL : file);

    int step = -1;
    double fraction = 1;

    cw_document_choose_moment (design, &step, &fraction);
    cw_document_set_moment (document, step, fraction);
    if (as_sample == NULL)
      remember (file);
    cw_window_set_document (self, document);
  }
}

static void
start_reading (CwWindow *self, GFile *file, gboolean as_sample)
{
  g_autoptr (GTask) task = NULL;

  if (self->busy)
    return;
  self->busy = TRUE;
  cw_window_update_actions (self);
  task = g_task_new (self, NULL, file_read, GINT_TO_POINTER (as_sample));
  g_task_set_task_data (task, g_object_ref (file), g_object_unref);
  g_task_run_in_thread (task, read_file);
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

typedef struct
{
  CwDocument *document;
  CwDesign *design;
  GFile *file;
} Writing;

static void
writing_free (gpointer data)
{
  Writing *writing = data;

  g_object_unref (writing->document);
  cw_design_unref (writing->design);
  g_object_unref (writing->file);
  g_free (writing);
}

static void
write_file (GTask *task, gpointer source, gpointer data, GCancellable *cancellable)
{
  Writing *writing = data;
  g_autoptr (GError) error = NULL;

  if (cw_design_save (writing->design, writing->file, &error))
    g_task_return_boolean (task, TRUE);
  else
    g_task_return_error (task, g_steal_pointer (&error));
}

static void
file_written (GObject *source, GAsyncResult *result, gpointer data)
{
  CwWindow *self = CW_WINDOW (source);
  Writing *writing = g_task_get_task_data (G_TASK (result));
  g_autoptr (GError) error = NULL;

  self->busy = FALSE;
  if (g_task_propagate_boolean (G_TASK (result), &error))
    {
      cw_document_set_saved (writing->document, writing->design, writing->file);
      remember (writing->file);
      cw_window_say (self, NULL);
      cw_window_update_actions (self);
      if (self->document == writing->document && cw_document_is_saved (self->document))
        cw_window_do_pending (self);
    }
  else
    {
      g_autofree char *name = g_file_get_basename (writing->file), *shown = g_filename_display_name (name);
      g_autofree char *sentence = g_strdup_printf (_ ("“%s” could not be saved. %s"), shown, error->message);

      self->pending = CW_PENDING_NOTHING;
      cw_window_say (self, sentence);
      cw_window_update_actions (self);
    }
}

static void
start_writing (CwWindow *self, GFile *file)
{
  Writing *writing = g_new (Writing, 1);
  g_autoptr (GTask) task = NULL;

  self->busy = TRUE;
  cw_window_update_actions (self);
  writing->document = g_object_ref (self->document);
  writing->design = cw_design_ref (cw_document_get_design (self->document));
  writing->file = g_object_ref (file);
  task = g_task_new (self, NULL, file_written, NULL);
  g_task_set_task_data (task, writing, writing_free);
  g_task_run_in_thread (task, write_file);
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
  start_writing (self, file);
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
      start_writing (self, file);
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

/* --- unsaved changes --------------------------------------------------------------------------------------------- */

/* Does what waits. */
void
cw_window_do_pending (CwWindow *self)
{
  CwPending pending = self->pending;
  g_autoptr (GFile) file = g_steal_pointer (&self->pending_file);

  gtk_revealer_set_reveal_child (GTK_REVEALER (self->guard_revealer), FALSE);
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
      start_reading (self, file, FALSE);
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
  g_autofree char *title = NULL, *question = NULL;

  self->pending = pending;
  g_set_object (&self->pending_file, file);
  if (self->document == NULL || cw_document_is_saved (self->document))
    {
      cw_window_do_pending (self);
      return TRUE;
    }
  title = cw_document_dup_title (self->document);
  question = g_strdup_printf (_ ("“%s” has changes that are not saved."), title);
  gtk_label_set_text (GTK_LABEL (self->guard), question);
  cw_window_say (self, NULL);
  gtk_revealer_set_reveal_child (GTK_REVEALER (self->guard_revealer), TRUE);
  cw_window_update_actions (self);
  gtk_widget_child_focus (self->guard_revealer, GTK_DIR_TAB_FORWARD);
  return FALSE;
}

/**
 * cw_window_guard_answer:
 * @self: the window
 * @answer: "save", "discard" or "cancel"
 */
void
cw_window_guard_answer (CwWindow *self, const char *answer)
{
  gtk_revealer_set_reveal_child (GTK_REVEALER (self->guard_revealer), FALSE);
  if (g_str_equal (answer, "discard"))
    cw_window_do_pending (self);
  else if (g_str_equal (answer, "save"))
    cw_window_save (self, FALSE);
  else
    {
      self->pending = CW_PENDING_NOTHING;
      g_clear_object (&self->pending_file);
    }
  if (self->pending != CW_PENDING_CLOSE)
    cw_window_update_actions (self);
}
