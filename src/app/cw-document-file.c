/* cw-document-file.c: the document and its file: read, written, and watched for what other programs do to it.
 *
 * A file is told apart from what it was by its tag (cw-file.h). A saving names the tag it means to replace, so what
 * somebody else has written meanwhile is never written over unasked. What the watch reports is looked at a little
 * later, when a burst of events is over, and read on a worker: the same design in other bytes is no change.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "cw-document-private.h"

#include <glib/gi18n-lib.h>
#include <string.h>

#include "design/cw-design-json.h"
#include "design/cw-file.h"

#define LOOK_AFTER_MS 300 /* a program that writes a file does so in many small events */

/* --- what other programs do ------------------------------------------------------------------------------------- */

static void
set_disk (CwDocument *self, CwDiskState disk)
{
  if (disk == self->disk)
    return;
  self->disk = disk;
  if (disk != CW_DISK_SAME)
    cw_history_forget_saved (self->history);
  cw_document_tell (self, CW_DOCUMENT_DISK);
  cw_document_tell (self, CW_DOCUMENT_FILE);
}

typedef struct
{
  GFile *file;
  CwDesign *written;
  char *tag;
} Look;

static void
look_free (gpointer data)
{
  Look *look = data;

  g_object_unref (look->file);
  cw_design_unref (look->written);
  g_free (look->tag);
  g_free (look);
}

/* TRUE if the file holds what was written. */
static void
compare (GTask *task, gpointer source, gpointer data, GCancellable *cancellable)
{
  Look *look = data;
  g_autoptr (CwDesign) now = cw_design_load (look->file, NULL);
  g_autofree char *was = cw_design_to_text (look->written, NULL);
  g_autofree char *is = now != NULL ? cw_design_to_text (now, NULL) : NULL;

  g_task_return_boolean (task, g_strcmp0 (was, is) == 0);
}

static void
compared (GObject *source, GAsyncResult *result, gpointer data)
{
  CwDocument *self = CW_DOCUMENT (source);
  Look *look = g_task_get_task_data (G_TASK (result));
  gboolean same = g_task_propagate_boolean (G_TASK (result), NULL);

  if (self->saving || self->file == NULL || !g_file_equal (self->file, look->file) || look->written != self->written)
    return; /* the file is ours again */
  if (same)
    {
      g_free (self->tag);
      self->tag = g_strdup (look->tag);
    }
  set_disk (self, same ? CW_DISK_SAME : CW_DISK_CHANGED);
}

static gboolean
look_at_file (gpointer data)
{
  CwDocument *self = data;
  g_autofree char *tag = NULL;
  g_autoptr (GTask) task = NULL;
  Look *look = NULL;

  self->look = 0;
  if (self->saving || self->file == NULL)
    return G_SOURCE_REMOVE;
  tag = cw_file_dup_tag (self->file);
  if (tag == NULL)
    set_disk (self, CW_DISK_GONE);
  else if (g_strcmp0 (tag, self->tag) == 0)
    set_disk (self, CW_DISK_SAME);
  else
    {
      look = g_new (Look, 1);
      *look = (Look){ g_object_ref (self->file), cw_design_ref (self->written), g_steal_pointer (&tag) };
      task = g_task_new (self, NULL, compared, NULL);
      g_task_set_task_data (task, look, look_free);
      g_task_run_in_thread (task, compare);
    }
  return G_SOURCE_REMOVE;
}

static void
file_stirred (CwDocument *self)
{
  if (self->look == 0)
    self->look = g_timeout_add (LOOK_AFTER_MS, look_at_file, self);
}

/* Takes a file as the document's own, with what stands in it, and watches it. The tag is the caller's. */
void
cw_document_set_file (CwDocument *self, GFile *file, CwDesign *written)
{
  g_clear_handle_id (&self->look, g_source_remove);
  if (written != NULL)
    cw_design_ref (written);
  g_clear_pointer (&self->written, cw_design_unref);
  self->written = written;
  g_clear_pointer (&self->tag, g_free);
  if (file != NULL && self->file != NULL && g_file_equal (file, self->file))
    return;
  if (self->watch != NULL)
    {
      g_signal_handlers_disconnect_by_data (self->watch, self);
      g_file_monitor_cancel (self->watch);
    }
  g_clear_object (&self->watch);
  g_set_object (&self->file, file);
  if (file == NULL)
    return;
  self->watch = g_file_monitor_file (file, G_FILE_MONITOR_NONE, NULL, NULL);
  if (self->watch != NULL)
    g_signal_connect_swapped (self->watch, "changed", G_CALLBACK (file_stirred), self);
}

/**
 * cw_document_get_disk:
 * @self: the document
 *
 * Returns: what other programs have done to the file since it was read or written
 */
CwDiskState
cw_document_get_disk (CwDocument *self)
{
  g_return_val_if_fail (CW_IS_DOCUMENT (self), CW_DISK_SAME);
  return self->disk;
}

/**
 * cw_document_keep_mine:
 * @self: the document
 *
 * The maker has seen that the file is another and keeps to the design on the table: it counts as not saved, and the
 * next saving replaces the file as it is now.
 */
void
cw_document_keep_mine (CwDocument *self)
{
  g_return_if_fail (CW_IS_DOCUMENT (self));

  if (self->file == NULL)
    return;
  g_free (self->tag);
  self->tag = cw_file_dup_tag (self->file);
  cw_history_forget_saved (self->history);
  self->disk = CW_DISK_SAME;
  cw_document_tell (self, CW_DOCUMENT_FILE);
}

/* --- name and state --------------------------------------------------------------------------------------------- */

/**
 * cw_document_get_file:
 * @self: the document
 *
 * Returns: (transfer none) (nullable): where the design is kept
 */
GFile *
cw_document_get_file (CwDocument *self)
{
  g_return_val_if_fail (CW_IS_DOCUMENT (self), NULL);
  return self->file;
}

/**
 * cw_document_dup_title:
 * @self: the document
 *
 * Returns: (transfer full): the design's own title, else the file's name without its ending, else "New card"
 */
char *
cw_document_dup_title (CwDocument *self)
{
  const char *title = NULL;

  g_return_val_if_fail (CW_IS_DOCUMENT (self), NULL);

  title = cw_document_get_design (self)->head->title;
  if (title != NULL && *title != '\0')
    return g_strdup (title);
  if (self->file != NULL)
    {
      g_autofree char *name = g_file_get_basename (self->file);
      char *shown = NULL;

      if (g_str_has_suffix (name, ".creasecard"))
        name[strlen (name) - strlen (".creasecard")] = '\0';
      shown = g_filename_display_name (name);
      return shown;
    }
  return g_strdup (_ ("New card"));
}

/**
 * cw_document_is_saved:
 * @self: the document
 *
 * Returns: TRUE if the file holds the design as it now is, or if nothing was done to a new one yet
 */
gboolean
cw_document_is_saved (CwDocument *self)
{
  g_return_val_if_fail (CW_IS_DOCUMENT (self), TRUE);
  return cw_history_is_saved (self->history);
}

/**
 * cw_document_get_tag:
 * @self: the document
 *
 * Returns: (transfer none) (nullable): the tag of its file (cw_file_dup_tag()) as it was last read or written
 */
const char *
cw_document_get_tag (CwDocument *self)
{
  g_return_val_if_fail (CW_IS_DOCUMENT (self), NULL);
  return self->tag;
}

/**
 * cw_document_set_tag:
 * @self: the document
 * @tag: (nullable): of its file, taken before it was read
 */
void
cw_document_set_tag (CwDocument *self, const char *tag)
{
  g_return_if_fail (CW_IS_DOCUMENT (self));

  g_free (self->tag);
  self->tag = g_strdup (tag);
}

/**
 * cw_document_forget_saved:
 * @self: the document
 *
 * Says that no file holds this design, whatever was done to it.
 */
void
cw_document_forget_saved (CwDocument *self)
{
  g_return_if_fail (CW_IS_DOCUMENT (self));

  cw_history_forget_saved (self->history);
  cw_document_tell (self, CW_DOCUMENT_FILE);
}

/* --- reading and writing ---------------------------------------------------------------------------------------- */

/**
 * cw_document_load:
 * @file: a design file
 * @error: the reason when it cannot be read
 *
 * Returns: (transfer full) (nullable): a document of the design in the file
 */
CwDocument *
cw_document_load (GFile *file, GError **error)
{
  g_autoptr (CwDesign) design = NULL;
  g_autofree char *tag = NULL;
  CwDocument *self = NULL;

  g_return_val_if_fail (G_IS_FILE (file), NULL);

  tag = cw_file_dup_tag (file);
  design = cw_design_load (file, error);
  if (design == NULL)
    return NULL;
  self = cw_document_new (design, file);
  cw_document_set_tag (self, tag);
  return self;
}

typedef struct
{
  CwDesign *design;
  GFile *file;
  char *over, *tag; /* the tag it may replace, the tag it gets */
} Writing;

static void
writing_free (gpointer data)
{
  Writing *writing = data;

  cw_design_unref (writing->design);
  g_object_unref (writing->file);
  g_free (writing->over);
  g_free (writing->tag);
  g_free (writing);
}

static Writing *
writing_new (CwDocument *self, GFile *file, gboolean over)
{
  Writing *writing = g_new0 (Writing, 1);

  if (file == NULL)
    file = self->file;
  writing->design = cw_design_ref (cw_document_get_design (self));
  writing->file = g_object_ref (file);
  if (!over && self->file != NULL && g_file_equal (file, self->file))
    writing->over = g_strdup (self->tag);
  return writing;
}

static gboolean
writing_run (Writing *writing, GError **error)
{
  if (!cw_design_save_over (writing->design, writing->file, writing->over, error))
    return FALSE;
  writing->tag = cw_file_dup_tag (writing->file);
  return TRUE;
}

/* The file is the document's own now. It counts as saved only if nothing was done to it meanwhile. */
static void
written (CwDocument *self, Writing *writing)
{
  cw_document_set_file (self, writing->file, writing->design);
  self->tag = g_steal_pointer (&writing->tag);
  self->disk = CW_DISK_SAME;
  if (writing->design == cw_document_get_design (self))
    cw_history_set_saved (self->history);
  cw_document_tell (self, CW_DOCUMENT_FILE);
}

/**
 * cw_document_save:
 * @self: the document
 * @file: (nullable): where to; NULL: where it came from
 * @error: the reason when it cannot be written
 *
 * Returns: FALSE when it could not be written; the design and its saved state are then as before
 */
gboolean
cw_document_save (CwDocument *self, GFile *file, GError **error)
{
  Writing *writing = NULL;
  gboolean done = FALSE;

  g_return_val_if_fail (CW_IS_DOCUMENT (self), FALSE);
  g_return_val_if_fail (file != NULL || self->file != NULL, FALSE);

  writing = writing_new (self, file, FALSE);
  done = writing_run (writing, error);
  if (done)
    written (self, writing);
  writing_free (writing);
  return done;
}

static void
write_file (GTask *task, gpointer source, gpointer data, GCancellable *cancellable)
{
  g_autoptr (GError) error = NULL;

  if (writing_run (data, &error))
    g_task_return_boolean (task, TRUE);
  else
    g_task_return_error (task, g_steal_pointer (&error));
}

/**
 * cw_document_save_async:
 * @self: the document
 * @file: (nullable): where to; NULL: where it came from
 * @over: TRUE to replace the file even when somebody else has written it
 * @done: called when it is through; asks cw_document_save_finish()
 * @data: for @done
 *
 * Writes the design as it now is on a worker thread.
 */
void
cw_document_save_async (CwDocument *self, GFile *file, gboolean over, GAsyncReadyCallback done, gpointer data)
{
  g_autoptr (GTask) task = NULL;

  g_return_if_fail (CW_IS_DOCUMENT (self));
  g_return_if_fail (file != NULL || self->file != NULL);

  self->saving = TRUE;
  task = g_task_new (self, NULL, done, data);
  g_task_set_task_data (task, writing_new (self, file, over), writing_free);
  g_task_run_in_thread (task, write_file);
}

/**
 * cw_document_save_finish:
 * @self: the document
 * @result: of cw_document_save_async()
 * @file: (out) (transfer none): where to
 * @error: the reason; G_IO_ERROR_WRONG_ETAG when somebody else has written the file
 *
 * Returns: FALSE when it could not be written; the design and its saved state are then as before
 */
gboolean
cw_document_save_finish (CwDocument *self, GAsyncResult *result, GFile **file, GError **error)
{
  Writing *writing = NULL;
  gboolean done = FALSE;

  g_return_val_if_fail (g_task_is_valid (result, self), FALSE);

  writing = g_task_get_task_data (G_TASK (result));
  *file = writing->file;
  self->saving = FALSE;
  done = g_task_propagate_boolean (G_TASK (result), error);
  if (done)
    written (self, writing);
  file_stirred (self); /* what happened meanwhile */
  return done;
}
