/* cw-recovery.c: a copy of what is not saved yet, for the day the program ends in the middle of it.
 *
 * Every document with changes that are not saved has two files in the user's state folder (XDG Base Directory
 * Specification 0.8): NAME.creasecard, the design, written whole a few seconds after a change and then as often; and
 * NAME.about, which says where the card was kept and is locked (flock) as long as its program lives. The system lets go
 * of the lock however the program ends, so a copy without a lock is a leftover. Both files go when the design is saved
 * or let go of. A copy that cannot be written is told once.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#define _DEFAULT_SOURCE /* flock, ftruncate, pwrite: beyond C17 */

#include "cw-config.h"

#include "cw-recovery.h"

#include <errno.h>
#include <fcntl.h>
#include <glib/gi18n-lib.h>
#include <glib/gstdio.h>
#include <string.h>
#include <sys/file.h>
#include <unistd.h>

#include "design/cw-design-json.h"

#define KEEP_AFTER_S 2 /* what may be lost at most */
#define ABOUT ".about"
#define COPY ".creasecard"
#define GROUP "Card"
#define FOLDER_MODE 0700
#define FILE_MODE 0600

static char *
dup_folder (void)
{
  return g_build_filename (g_get_user_state_dir (), "creasewright", "unsaved", NULL);
}

static char *
dup_path (const char *base, const char *ending)
{
  return g_strconcat (base, ending, NULL);
}

/* Opens and locks; -1 when somebody holds it or it cannot be opened. */
static int
claim (const char *base, int flags)
{
  g_autofree char *path = dup_path (base, ABOUT);
  int file = g_open (path, flags | O_RDWR | O_CLOEXEC, FILE_MODE);

  if (file >= 0 && flock (file, LOCK_EX | LOCK_NB) != 0)
    {
      close (file);
      return -1;
    }
  return file;
}

static void
remove_copy (const char *base)
{
  g_autofree char *about = dup_path (base, ABOUT), *copy = dup_path (base, COPY);

  g_unlink (copy); /* first: without its copy the other is nothing */
  g_unlink (about);
}

/* --- what was left over ------------------------------------------------------------------------------------------ */

static CwLeftover *
leftover_new (const char *base)
{
  CwLeftover *self = NULL;
  g_autofree char *about = dup_path (base, ABOUT), *copy = dup_path (base, COPY), *uri = NULL;
  g_autoptr (GKeyFile) keys = g_key_file_new ();
  g_autoptr (GFile) file = g_file_new_for_path (copy);
  g_autoptr (CwDesign) design = NULL;
  int held = claim (base, 0);

  if (held < 0)
    return NULL;
  if (!g_file_test (copy, G_FILE_TEST_EXISTS))
    {
      g_unlink (about); /* ended before the first copy */
      close (held);
      return NULL;
    }
  design = cw_design_load (file, NULL);
  if (design == NULL)
    {
      close (held); /* of a newer program, maybe: left for that */
      return NULL;
    }
  self = g_new0 (CwLeftover, 1);
  self->base = g_strdup (base);
  self->claim = held;
  self->design = g_steal_pointer (&design);
  if (g_key_file_load_from_file (keys, about, G_KEY_FILE_NONE, NULL))
    {
      uri = g_key_file_get_string (keys, GROUP, "file", NULL);
      self->title = g_key_file_get_string (keys, GROUP, "title", NULL);
      self->tag = g_key_file_get_string (keys, GROUP, "tag", NULL);
    }
  if (uri != NULL)
    self->file = g_file_new_for_uri (uri);
  if (self->title == NULL)
    self->title = g_strdup (_ ("New card"));
  return self;
}

static int
compare_names (gconstpointer a, gconstpointer b)
{
  return g_strcmp0 (*(char *const *) a, *(char *const *) b);
}

/**
 * cw_leftover_find:
 *
 * Returns: (transfer full) (nullable): a copy that a program which is no longer there has left, claimed; NULL when
 *   there is none that is not claimed yet
 */
CwLeftover *
cw_leftover_find (void)
{
  g_autofree char *folder = dup_folder ();
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  g_autoptr (GPtrArray) bases = g_ptr_array_new_with_free_func (g_free);
  const char *name = NULL;

  while (dir != NULL && (name = g_dir_read_name (dir)) != NULL)
    if (g_str_has_suffix (name, ABOUT))
      {
        g_autofree char *path = g_build_filename (folder, name, NULL);

        path[strlen (path) - strlen (ABOUT)] = '\0';
        g_ptr_array_add (bases, g_steal_pointer (&path));
      }
  g_ptr_array_sort (bases, compare_names); /* their names begin with the time */
  for (guint i = 0; i < bases->len; i++)
    {
      CwLeftover *found = leftover_new (g_ptr_array_index (bases, i));

      if (found != NULL)
        return found;
    }
  return NULL;
}

/**
 * cw_leftover_open:
 * @leftover: a copy
 *
 * Returns: (transfer full): a document of it that is not saved and belongs to the file it came from; hand the copy on
 *   to cw_recovery_new(), which goes on with it
 */
CwDocument *
cw_leftover_open (CwLeftover *leftover)
{
  CwDocument *document = NULL;

  g_return_val_if_fail (leftover != NULL, NULL);

  document = cw_document_new (leftover->design, leftover->file);
  cw_document_set_tag (document, leftover->tag);
  cw_document_forget_saved (document);
  return document;
}

/**
 * cw_leftover_remove:
 * @leftover: (transfer full): a copy that is no longer needed
 */
void
cw_leftover_remove (CwLeftover *leftover)
{
  g_return_if_fail (leftover != NULL);

  remove_copy (leftover->base);
  cw_leftover_free (leftover);
}

/**
 * cw_leftover_free:
 * @leftover: (transfer full) (nullable): a copy; its files stay, and whoever looks next may have them
 */
void
cw_leftover_free (CwLeftover *leftover)
{
  if (leftover == NULL)
    return;
  if (leftover->claim >= 0)
    close (leftover->claim);
  g_free (leftover->base);
  g_free (leftover->title);
  g_free (leftover->tag);
  g_clear_object (&leftover->file);
  cw_design_unref (leftover->design);
  g_free (leftover);
}

/* --- the copy of an open design ---------------------------------------------------------------------------------- */

struct _CwRecovery
{
  GObject parent_instance;

  CwDocument *document; /* NULL once it has ended */
  char *base;           /* NULL while there is no copy */
  int claim;
  CwDesign *kept; /* what the copy holds */
  guint timer;
  gboolean writing, told;
};

G_DEFINE_FINAL_TYPE (CwRecovery, cw_recovery, G_TYPE_OBJECT)

static void look (CwRecovery *self);

static void
drop_copy (CwRecovery *self)
{
  if (self->base == NULL)
    return;
  remove_copy (self->base);
  close (self->claim);
  self->claim = -1;
  g_clear_pointer (&self->base, g_free);
  g_clear_pointer (&self->kept, cw_design_unref);
}

/* A place of its own in the folder, claimed. */
static gboolean
take_place (CwRecovery *self, GError **error)
{
  g_autofree char *folder = dup_folder ();

  if (self->base != NULL)
    return TRUE;
  if (g_mkdir_with_parents (folder, FOLDER_MODE) == 0)
    for (guint i = 0; i < 1000; i++)
      {
        g_autofree char *name = g_strdup_printf ("%" G_GINT64_FORMAT "-%d-%u", g_get_real_time (), (int) getpid (), i);
        g_autofree char *base = g_build_filename (folder, name, NULL);

        self->claim = claim (base, O_CREAT | O_EXCL);
        if (self->claim >= 0)
          {
            self->base = g_steal_pointer (&base);
            return TRUE;
          }
        if (errno != EEXIST && errno != EWOULDBLOCK)
          break;
      }
  g_set_error (error, G_IO_ERROR, (int) g_io_error_from_errno (errno), "%s.", g_strerror (errno));
  return FALSE;
}

/* Where the card is kept: into the locked file itself, which is small. */
static void
write_about (CwRecovery *self)
{
  GFile *file = cw_document_get_file (self->document);
  g_autoptr (GKeyFile) keys = g_key_file_new ();
  g_autofree char *title = cw_document_dup_title (self->document), *text = NULL;
  gsize length = 0;

  g_key_file_set_string (keys, GROUP, "title", title);
  if (file != NULL)
    {
      g_autofree char *uri = g_file_get_uri (file);

      g_key_file_set_string (keys, GROUP, "file", uri);
      if (cw_document_get_tag (self->document) != NULL)
        g_key_file_set_string (keys, GROUP, "tag", cw_document_get_tag (self->document));
    }
  text = g_key_file_to_data (keys, &length, NULL);
  /* Without it the copy is as good, only its file is not known any more. */
  if (ftruncate (self->claim, 0) != 0 || pwrite (self->claim, text, length, 0) < 0)
    g_debug ("no room for what the copy is of");
}

typedef struct
{
  CwDesign *design;
  GFile *file;
} Copying;

static void
copying_free (gpointer data)
{
  Copying *copying = data;

  cw_design_unref (copying->design);
  g_object_unref (copying->file);
  g_free (copying);
}

static void
copy (GTask *task, gpointer source, gpointer data, GCancellable *cancellable)
{
  Copying *copying = data;
  g_autoptr (GError) error = NULL;

  if (cw_design_save (copying->design, copying->file, &error))
    g_task_return_boolean (task, TRUE);
  else
    g_task_return_error (task, g_steal_pointer (&error));
}

static void
tell (CwRecovery *self, const GError *error)
{
  g_autofree char *sentence = NULL;

  if (self->told)
    return;
  self->told = TRUE;
  sentence = g_strdup_printf (_ ("Your changes cannot be kept safe until you save. %s"), error->message);
  cw_document_say (self->document, sentence);
}

static void
copied (GObject *source, GAsyncResult *result, gpointer data)
{
  CwRecovery *self = CW_RECOVERY (source);
  Copying *copying = g_task_get_task_data (G_TASK (result));
  g_autoptr (GError) error = NULL;
  gboolean done = g_task_propagate_boolean (G_TASK (result), &error);

  self->writing = FALSE;
  if (self->document == NULL)
    {
      drop_copy (self);
      return;
    }
  g_clear_pointer (&self->kept, cw_design_unref);
  self->kept = cw_design_ref (copying->design); /* also when it failed: not again before the next change */
  if (done)
    self->told = FALSE;
  else
    tell (self, error);
  look (self);
}

static gboolean
keep (gpointer data)
{
  CwRecovery *self = data;
  g_autoptr (GError) error = NULL;
  g_autoptr (GTask) task = NULL;
  g_autofree char *path = NULL;
  Copying *copying = NULL;

  self->timer = 0;
  if (!take_place (self, &error))
    {
      tell (self, error);
      return G_SOURCE_REMOVE;
    }
  write_about (self);
  path = dup_path (self->base, COPY);
  copying = g_new (Copying, 1);
  *copying = (Copying){ cw_design_ref (cw_document_get_design (self->document)), g_file_new_for_path (path) };
  self->writing = TRUE;
  task = g_task_new (self, NULL, copied, NULL);
  g_task_set_task_data (task, copying, copying_free);
  g_task_run_in_thread (task, copy);
  return G_SOURCE_REMOVE;
}

/* Brings the copy up to the document: soon, or away with it when there is nothing to lose. */
static void
look (CwRecovery *self)
{
  if (self->writing)
    return;
  if (cw_document_is_saved (self->document))
    {
      g_clear_handle_id (&self->timer, g_source_remove);
      drop_copy (self);
    }
  else if (self->kept != cw_document_get_design (self->document) && self->timer == 0)
    self->timer = g_timeout_add_seconds (KEEP_AFTER_S, keep, self);
}

/**
 * cw_recovery_end:
 * @self: the copy of a document
 *
 * Takes the copy away: the maker has saved the design or let go of it.
 */
void
cw_recovery_end (CwRecovery *self)
{
  g_return_if_fail (CW_IS_RECOVERY (self));

  if (self->document == NULL)
    return;
  g_clear_handle_id (&self->timer, g_source_remove);
  g_signal_handlers_disconnect_by_data (self->document, self);
  g_clear_object (&self->document);
  if (!self->writing)
    drop_copy (self);
}

static void
cw_recovery_finalize (GObject *object)
{
  CwRecovery *self = CW_RECOVERY (object);

  cw_recovery_end (self);
  G_OBJECT_CLASS (cw_recovery_parent_class)->finalize (object);
}

static void
cw_recovery_class_init (CwRecoveryClass *klass)
{
  G_OBJECT_CLASS (klass)->finalize = cw_recovery_finalize;
}

static void
cw_recovery_init (CwRecovery *self)
{
  self->claim = -1;
}

/**
 * cw_recovery_new:
 * @document: an open design
 * @leftover: (nullable) (transfer full): a copy it was brought back from
 *
 * Keeps a copy of it as long as it has changes that are not saved, in the place of @leftover if there is one.
 *
 * Returns: (transfer full): what does it; ended by cw_recovery_end() or with its last reference
 */
CwRecovery *
cw_recovery_new (CwDocument *document, CwLeftover *leftover)
{
  CwRecovery *self = NULL;

  g_return_val_if_fail (CW_IS_DOCUMENT (document), NULL);

  self = g_object_new (CW_TYPE_RECOVERY, NULL);
  self->document = g_object_ref (document);
  if (leftover != NULL)
    {
      self->base = g_steal_pointer (&leftover->base);
      self->kept = cw_design_ref (leftover->design);
      self->claim = leftover->claim;
      leftover->claim = -1;
      cw_leftover_free (leftover);
    }
  g_signal_connect_swapped (document, "file", G_CALLBACK (look), self);
  look (self);
  return self;
}
