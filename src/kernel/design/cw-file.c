/* cw-file.c: files written whole or not at all.
 *
 * What is new goes into a file beside the old one, is brought to the disk (fsync) and then takes the old one's name in
 * one move (rename, POSIX.1-2017), so that a full disk or a crash at any moment leaves either the old file or the new
 * one. GIO's own way writes into the old file where it is a link, so links are followed here first. A file without any
 * permission to write is left alone, also for those whom the system would let write it: its owner meant it so. What is
 * no ordinary file on a local disk (a pipe, a share that only GIO knows) is left to GIO. Errors are one sentence.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#define _DEFAULT_SOURCE /* realpath: beyond C17 */

#include "cw-config.h"

#include "design/cw-file.h"

#include <errno.h>
#include <glib/gi18n-lib.h>
#include <glib/gstdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#define ANYBODY_WRITES (S_IWUSR | S_IWGRP | S_IWOTH)
#define PERMISSIONS 07777
#define NEW_PERMISSIONS 0666 /* less the user's mask */

/**
 * cw_file_dup_tag:
 * @file: a file
 *
 * Returns: (transfer full) (nullable): a text that changes whenever somebody writes the file; NULL when there is none
 */
char *
cw_file_dup_tag (GFile *file)
{
  g_autoptr (GFileInfo) info = NULL;

  g_return_val_if_fail (G_IS_FILE (file), NULL);

  /* The system's clock of files ticks a few times in a hundredth of a second, so the time alone is not enough. */
  info
    = g_file_query_info (file,
                         G_FILE_ATTRIBUTE_ETAG_VALUE "," G_FILE_ATTRIBUTE_STANDARD_SIZE "," G_FILE_ATTRIBUTE_UNIX_INODE,
                         G_FILE_QUERY_INFO_NONE, NULL, NULL);
  if (info == NULL)
    return NULL;
  return g_strdup_printf ("%s %" G_GOFFSET_FORMAT " %" G_GUINT64_FORMAT, g_file_info_get_etag (info),
                          g_file_info_get_size (info),
                          g_file_info_get_attribute_uint64 (info, G_FILE_ATTRIBUTE_UNIX_INODE));
}

/* The system's reasons as sentences; what is rare is told in the system's words. */
static gboolean
fail (int code, GError **error)
{
  const char *why = NULL;

  switch (code)
    {
    case ENOSPC:
    case EDQUOT:
      why = _ ("There is no room left on the disk.");
      break;
    case EFBIG:
      why = _ ("A file may not be that large there.");
      break;
    case EROFS:
      why = _ ("The disk can be read but not written.");
      break;
    case EACCES:
    case EPERM:
      why = _ ("The folder does not let you write there.");
      break;
    case ENOENT:
    case ENOTDIR:
      why = _ ("The folder is not there.");
      break;
    case EISDIR:
      why = _ ("There is a folder of that name.");
      break;
    default:
      g_set_error (error, G_IO_ERROR, (int) g_io_error_from_errno (code), "%s.", g_strerror (code));
      return FALSE;
    }
  g_set_error_literal (error, G_IO_ERROR, (int) g_io_error_from_errno (code), why);
  return FALSE;
}

/* GLib tells which of its own codes; only those that have a sentence are told apart. */
static int
errno_of (const GError *error)
{
  static const struct
  {
    int code, number;
  } known[] = {
    { G_FILE_ERROR_NOSPC, ENOSPC }, { G_FILE_ERROR_ROFS, EROFS },   { G_FILE_ERROR_ACCES, EACCES },
    { G_FILE_ERROR_PERM, EPERM },   { G_FILE_ERROR_NOENT, ENOENT }, { G_FILE_ERROR_NOTDIR, ENOTDIR },
    { G_FILE_ERROR_ISDIR, EISDIR },
  };

  if (error->domain == G_FILE_ERROR)
    for (guint i = 0; i < G_N_ELEMENTS (known); i++)
      if (error->code == known[i].code)
        return known[i].number;
  return 0;
}

/* Where a link leads in the end; the path itself where it is none. A link to nothing leads to where its file would be.
 */
static char *
follow (const char *path)
{
  char *real = realpath (path, NULL);
  g_autofree char *target = NULL, *folder = NULL;

  if (real != NULL)
    {
      char *copy = g_strdup (real);

      free (real); /* not GLib's */
      return copy;
    }
  target = g_file_read_link (path, NULL);
  if (target == NULL)
    return g_strdup (path);
  folder = g_path_get_dirname (path);
  return g_path_is_absolute (target) ? g_steal_pointer (&target) : g_build_filename (folder, target, NULL);
}

/**
 * cw_file_write:
 * @file: where to; an existing file keeps its permissions, a link stays a link
 * @bytes: what is to stand there
 * @length: how many bytes
 * @tag: (nullable): of the file that is meant to be replaced, see cw_file_dup_tag(); NULL: whatever is there
 * @error: where to put an error of G_IO_ERROR, its message a sentence for the user; G_IO_ERROR_WRONG_ETAG when somebody
 *   else has written the file
 *
 * Returns: FALSE with @error set when it could not be written; what was there is then as it was
 */
gboolean
cw_file_write (GFile *file, gconstpointer bytes, gsize length, const char *tag, GError **error)
{
  g_autoptr (GError) why = NULL;
  g_autofree char *path = NULL;
  const char *named = NULL;
  struct stat old;
  gboolean there = FALSE;

  g_return_val_if_fail (G_IS_FILE (file) && (bytes != NULL || length == 0), FALSE);

  named = g_file_peek_path (file);
  path = named != NULL ? follow (named) : NULL;
  there = path != NULL && stat (path, &old) == 0;
  if (path == NULL || (there && !S_ISREG (old.st_mode) && !S_ISDIR (old.st_mode)))
    {
      g_autofree char *etag = tag != NULL ? g_strndup (tag, strcspn (tag, " ")) : NULL;

      return g_file_replace_contents (file, bytes, length, etag, FALSE, G_FILE_CREATE_NONE, NULL, NULL, error);
    }
  if (there && S_ISDIR (old.st_mode))
    return fail (EISDIR, error);
  if (there && ((old.st_mode & ANYBODY_WRITES) == 0 || access (path, W_OK) != 0))
    {
      if (errno == EROFS && (old.st_mode & ANYBODY_WRITES) != 0)
        return fail (EROFS, error);
      g_set_error_literal (error, G_IO_ERROR, G_IO_ERROR_PERMISSION_DENIED,
                           _ ("The file can be read but not changed."));
      return FALSE;
    }
  if (there && tag != NULL)
    {
      g_autofree char *now = cw_file_dup_tag (file);

      if (g_strcmp0 (now, tag) != 0)
        {
          g_set_error_literal (error, G_IO_ERROR, G_IO_ERROR_WRONG_ETAG, _ ("Somebody else has changed the file."));
          return FALSE;
        }
    }
  if (!g_file_set_contents_full (path, length > 0 ? bytes : "", (gssize) length,
                                 G_FILE_SET_CONTENTS_CONSISTENT | G_FILE_SET_CONTENTS_DURABLE, NEW_PERMISSIONS, &why))
    {
      int code = errno_of (why);
      const char *reason = strrchr (why->message, ':'); /* what comes before names the file that is only for now */

      if (code != 0)
        return fail (code, error);
      g_set_error (error, G_IO_ERROR, G_IO_ERROR_FAILED, "%s.", reason != NULL ? reason + 2 : why->message);
      return FALSE;
    }
  if (there)
    (void) !g_chmod (path, (int) (old.st_mode & PERMISSIONS)); /* as well as it can */
  return TRUE;
}
