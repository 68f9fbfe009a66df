/* test-file.c: files written whole or not at all.
 *
 * Outside sources: POSIX.1-2017, rename() ("if the link named by the new argument exists, it shall be removed and old
 * renamed to new", atomically) and setrlimit() (a write beyond RLIMIT_FSIZE fails with EFBIG when SIGXFSZ is ignored),
 * by which a disk is made full here. What was there before is compared byte by byte.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#define _DEFAULT_SOURCE /* seteuid, setrlimit: beyond C17 */

#include "design/cw-file.h"

#include <glib/gstdio.h>
#include <signal.h>
#include <string.h>
#include <sys/resource.h>
#include <unistd.h>

#define OLD "old, and still good"
#define NOBODY 65534 /* any user but root will do */

typedef struct
{
  char *folder, *path;
  GFile *file;
} Place;

static void
set_up (Place *place, gconstpointer nothing)
{
  place->folder = g_dir_make_tmp ("creasewright-XXXXXX", NULL);
  place->path = g_build_filename (place->folder, "card.creasecard", NULL);
  place->file = g_file_new_for_path (place->path);
  g_assert_true (g_file_set_contents (place->path, OLD, -1, NULL));
}

static guint
count_files (const char *folder)
{
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  guint n = 0;

  while (g_dir_read_name (dir) != NULL)
    n++;
  return n;
}

static void
tear_down (Place *place, gconstpointer nothing)
{
  g_autoptr (GDir) dir = g_dir_open (place->folder, 0, NULL);
  const char *name = NULL;

  while ((name = g_dir_read_name (dir)) != NULL)
    {
      g_autofree char *path = g_build_filename (place->folder, name, NULL);

      g_unlink (path);
    }
  g_rmdir (place->folder);
  g_object_unref (place->file);
  g_free (place->path);
  g_free (place->folder);
}

static void
assert_holds (const char *path, const char *text)
{
  g_autofree char *is = NULL;

  g_assert_true (g_file_get_contents (path, &is, NULL, NULL));
  g_assert_cmpstr (is, ==, text);
}

/* One sentence, without the names of temporary files. */
static void
assert_sentence (const GError *error)
{
  g_assert_true (g_str_has_suffix (error->message, "."));
  g_assert_null (strchr (error->message, '/'));
}

static void
test_writes (Place *place, gconstpointer nothing)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *before = cw_file_dup_tag (place->file), *after = NULL;

  g_assert_true (cw_file_write (place->file, "new", 3, before, &error));
  g_assert_no_error (error);
  assert_holds (place->path, "new");
  after = cw_file_dup_tag (place->file);
  g_assert_cmpstr (before, !=, after);
  g_assert_cmpuint (count_files (place->folder), ==, 1);
  g_assert_true (cw_file_write (place->file, NULL, 0, NULL, &error));
  assert_holds (place->path, "");
}

/* A link to a file that is not there yet: the file comes to be, the link stays. */
static void
test_link_to_nothing (Place *place, gconstpointer nothing)
{
  g_autofree char *link = g_build_filename (place->folder, "link", NULL);
  g_autofree char *target = g_build_filename (place->folder, "later.creasecard", NULL);
  g_autoptr (GFile) file = g_file_new_for_path (link);

  g_assert_cmpint (symlink ("later.creasecard", link), ==, 0);
  g_assert_true (cw_file_write (file, "new", 3, NULL, NULL));
  g_assert_true (g_file_test (link, G_FILE_TEST_IS_SYMLINK));
  assert_holds (target, "new");
}

static void
test_disk_full (Place *place, gconstpointer nothing)
{
  const gsize n = 100000;
  g_autofree char *much = g_strnfill (n, 'x');
  g_autofree char *link = g_build_filename (place->folder, "link", NULL);
  g_autoptr (GFile) link_file = g_file_new_for_path (link);
  g_autoptr (GError) error = NULL;
  struct rlimit limit, small;

  g_assert_cmpint (symlink ("card.creasecard", link), ==, 0);
  signal (SIGXFSZ, SIG_IGN);
  g_assert_cmpint (getrlimit (RLIMIT_FSIZE, &limit), ==, 0);
  small = limit;
  small.rlim_cur = 4096;
  g_assert_cmpint (setrlimit (RLIMIT_FSIZE, &small), ==, 0);
  g_assert_false (cw_file_write (place->file, much, n, NULL, &error));
  g_assert_nonnull (error);
  g_clear_error (&error);
  g_assert_false (cw_file_write (link_file, much, n, NULL, &error));
  g_assert_cmpint (setrlimit (RLIMIT_FSIZE, &limit), ==, 0);
  g_assert_nonnull (error);
  assert_sentence (error);
  assert_holds (place->path, OLD);
  g_assert_cmpuint (count_files (place->folder), ==, 2);
}

static void
test_read_only (Place *place, gconstpointer nothing)
{
  g_autoptr (GError) error = NULL;

  g_assert_cmpint (g_chmod (place->path, 0444), ==, 0);
  g_assert_false (cw_file_write (place->file, "new", 3, NULL, &error));
  g_assert_error (error, G_IO_ERROR, G_IO_ERROR_PERMISSION_DENIED);
  assert_sentence (error);
  assert_holds (place->path, OLD);
}

/* In a folder that takes no new files the old one could only be written into, and lost half way: refused. */
static void
test_read_only_folder (Place *place, gconstpointer nothing)
{
  g_autoptr (GError) error = NULL;
  const gboolean root = geteuid () == 0;

  g_assert_cmpint (g_chmod (place->path, 0666), ==, 0);
  g_assert_cmpint (g_chmod (place->folder, 0555), ==, 0);
  if (root)
    g_assert_cmpint (seteuid (NOBODY), ==, 0);
  g_assert_false (cw_file_write (place->file, "new", 3, NULL, &error));
  if (root)
    g_assert_cmpint (seteuid (0), ==, 0);
  g_assert_cmpint (g_chmod (place->folder, 0755), ==, 0);
  g_assert_error (error, G_IO_ERROR, G_IO_ERROR_PERMISSION_DENIED);
  assert_sentence (error);
  assert_holds (place->path, OLD);
  g_assert_cmpuint (count_files (place->folder), ==, 1);
}

static void
test_changed_by_another (Place *place, gconstpointer nothing)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *tag = cw_file_dup_tag (place->file);

  g_assert_true (g_file_set_contents (place->path, "another's", -1, NULL));
  g_assert_false (cw_file_write (place->file, "new", 3, tag, &error));
  g_assert_error (error, G_IO_ERROR, G_IO_ERROR_WRONG_ETAG);
  assert_holds (place->path, "another's");
  g_clear_error (&error);
  g_assert_true (cw_file_write (place->file, "new", 3, NULL, &error));
  g_assert_no_error (error);
  /* gone altogether: there is nothing to lose */
  g_unlink (place->path);
  g_assert_null (cw_file_dup_tag (place->file));
  g_assert_true (cw_file_write (place->file, "new", 3, tag, &error));
  assert_holds (place->path, "new");
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
#define ADD(name, test) g_test_add ("/design/file/" name, Place, NULL, set_up, test, tear_down)
  ADD ("writes-and-gets-another-tag", test_writes);
  ADD ("a-link-to-nothing-stays-a-link", test_link_to_nothing);
  ADD ("a-full-disk-leaves-the-old", test_disk_full);
  ADD ("read-only-is-left-alone", test_read_only);
  ADD ("a-folder-that-takes-nothing-new", test_read_only_folder);
  ADD ("changed-by-another-program", test_changed_by_another);
  return g_test_run ();
}
