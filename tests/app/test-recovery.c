/* test-recovery.c: nothing that was drawn is lost: the copy of what is not saved, and files that others write.
 *
 * Checked against the promises of cw-recovery.h and cw-document.h by a second way: the bytes on the disk. A program
 * that has ended is played by copying what a living one keeps, without its lock.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-recovery.h"
#include "window-test.h"

#include <glib/gstdio.h>

static char *kept_folder; /* where copies are kept */

/* The only file there with this ending; NULL when there is none. */
static char *
dup_kept (const char *ending)
{
  g_autoptr (GDir) dir = g_dir_open (kept_folder, 0, NULL);
  const char *name = NULL;
  char *found = NULL;

  while (dir != NULL && (name = g_dir_read_name (dir)) != NULL)
    if (g_str_has_suffix (name, ending))
      {
        g_assert_null (found);
        found = g_build_filename (kept_folder, name, NULL);
      }
  return found;
}

static gboolean
has_copy (gpointer nothing)
{
  g_autofree char *path = dup_kept (".creasecard");

  return path != NULL;
}

static gboolean
has_no_copy (gpointer nothing)
{
  return !has_copy (nothing);
}

static void
assert_copy_is (CwDocument *document)
{
  g_autofree char *path = dup_kept (".creasecard"), *kept = NULL;
  g_autofree char *text = cw_design_to_text (cw_document_get_design (document), NULL);

  g_assert_true (g_file_get_contents (path, &kept, NULL, NULL));
  g_assert_cmpstr (kept, ==, text);
}

static void
test_copy (void)
{
  g_autoptr (CwDocument) document = blank_document ();
  g_autoptr (CwRecovery) recovery = cw_recovery_new (document, NULL);
  g_autofree char *path = g_build_filename (kept_folder, "..", "boat.creasecard", NULL);
  g_autoptr (GFile) file = g_file_new_for_path (path);

  g_assert_true (has_no_copy (NULL)); /* nothing to lose yet */
  type_measure (document, "score 4 1/4");
  iterate_until (has_copy, NULL, 20);
  assert_copy_is (document);
  g_assert_null (cw_leftover_find ()); /* somebody looks after it */
  g_assert_true (cw_document_save (document, file, NULL));
  iterate_until (has_no_copy, NULL, 20);
  type_measure (document, "score 2");
  iterate_until (has_copy, NULL, 20);
  assert_copy_is (document);
  cw_document_undo (document); /* as it stands in the file */
  iterate_until (has_no_copy, NULL, 20);
  cw_document_redo (document);
  iterate_until (has_copy, NULL, 20);
  cw_recovery_end (recovery);
  iterate_until (has_no_copy, NULL, 20);
  {
    g_autofree char *about = dup_kept (".about");

    g_assert_null (about);
  }
  g_unlink (path);
}

static void
copy_file (const char *from, const char *to)
{
  g_autofree char *text = NULL;
  gsize n = 0;

  g_assert_true (g_file_get_contents (from, &text, &n, NULL));
  g_assert_true (g_file_set_contents (to, text, (gssize) n, NULL));
}

static void
test_leftover (void)
{
  g_autoptr (CwDocument) document = blank_document (), back = NULL;
  g_autoptr (CwRecovery) recovery = cw_recovery_new (document, NULL), goes_on = NULL;
  g_autofree char *path = g_build_filename (kept_folder, "..", "gull.creasecard", NULL);
  g_autofree char *copy = NULL, *about = NULL, *text = NULL, *same = NULL;
  g_autofree char *dead_copy = g_build_filename (kept_folder, "0-dead.creasecard", NULL);
  g_autofree char *dead_about = g_build_filename (kept_folder, "0-dead.about", NULL);
  g_autoptr (GFile) file = g_file_new_for_path (path);
  CwLeftover *leftover = NULL;

  g_assert_true (cw_document_save (document, file, NULL));
  type_measure (document, "score 4 1/4");
  iterate_until (has_copy, NULL, 20);
  g_assert_nonnull (recovery); /* keeps copies for as long as it lives */
  copy = dup_kept (".creasecard");
  about = dup_kept (".about");
  copy_file (copy, dead_copy);
  copy_file (about, dead_about);

  leftover = cw_leftover_find ();
  g_assert_nonnull (leftover);
  g_assert_cmpstr (leftover->title, ==, "gull");
  g_assert_true (g_file_equal (leftover->file, file));
  g_assert_null (cw_leftover_find ()); /* claimed */
  cw_leftover_free (leftover);
  leftover = cw_leftover_find (); /* and free again */
  g_assert_nonnull (leftover);

  back = cw_leftover_open (leftover);
  goes_on = cw_recovery_new (back, leftover);
  text = cw_design_to_text (cw_document_get_design (document), NULL);
  same = cw_design_to_text (cw_document_get_design (back), NULL);
  g_assert_cmpstr (text, ==, same);
  g_assert_false (cw_document_is_saved (back));
  g_assert_true (g_file_equal (cw_document_get_file (back), file));
  g_assert_true (g_file_test (dead_copy, G_FILE_TEST_EXISTS)); /* until it is saved */
  g_assert_true (cw_document_save (back, NULL, NULL));
  g_assert_false (g_file_test (dead_copy, G_FILE_TEST_EXISTS));
  g_assert_false (g_file_test (dead_about, G_FILE_TEST_EXISTS));
  g_unlink (path);
}

/* The program ended before its first copy, or another's copy cannot be read: nothing is offered. */
static void
test_nothing_left (void)
{
  g_autofree char *empty = g_build_filename (kept_folder, "1-empty.about", NULL);
  g_autofree char *odd = g_build_filename (kept_folder, "2-odd.about", NULL);
  g_autofree char *odd_copy = g_build_filename (kept_folder, "2-odd.creasecard", NULL);

  g_assert_true (g_file_set_contents (empty, "", 0, NULL));
  g_assert_true (g_file_set_contents (odd, "", 0, NULL));
  g_assert_true (g_file_set_contents (odd_copy, "{ \"format\": \"shopping list\" }", -1, NULL));
  g_assert_null (cw_leftover_find ());
  g_assert_false (g_file_test (empty, G_FILE_TEST_EXISTS));
  g_assert_true (g_file_test (odd_copy, G_FILE_TEST_EXISTS)); /* not ours to throw away */
  g_unlink (odd);
  g_unlink (odd_copy);
}

static gboolean
is_changed (gpointer document)
{
  return cw_document_get_disk (document) == CW_DISK_CHANGED;
}

static gboolean
is_gone (gpointer document)
{
  return cw_document_get_disk (document) == CW_DISK_GONE;
}

/* Long enough for the watch to have looked. */
static void
wait_a_while (void)
{
  for (guint i = 0; i < 800; i++)
    {
      g_main_context_iteration (NULL, FALSE);
      g_usleep (1000);
    }
}

static void
test_changed_on_disk (void)
{
  g_autofree char *folder = g_dir_make_tmp ("creasewright-XXXXXX", NULL);
  g_autofree char *path = g_build_filename (folder, "buoy.creasecard", NULL), *text = NULL, *loose = NULL;
  g_autoptr (GFile) file = g_file_new_for_path (path);
  g_autoptr (CwDocument) document = blank_document (), other = NULL;
  g_autoptr (GError) error = NULL;

  type_measure (document, "score 4 1/4");
  g_assert_true (cw_document_save (document, file, NULL));
  /* the same design in other bytes is no change */
  text = cw_design_to_text (cw_document_get_design (document), NULL);
  loose = g_strconcat ("\n\n", text, NULL);
  g_assert_true (g_file_set_contents (path, loose, -1, NULL));
  wait_a_while ();
  g_assert_cmpint (cw_document_get_disk (document), ==, CW_DISK_SAME);
  g_assert_true (cw_document_is_saved (document));

  other = cw_document_load (file, NULL);
  type_measure (other, "score 2");
  g_assert_true (cw_document_save (other, NULL, NULL));
  iterate_until (is_changed, document, 20);
  g_assert_false (cw_document_is_saved (document)); /* the file no longer holds it */
  g_assert_false (cw_document_save (document, NULL, &error));
  g_assert_error (error, G_IO_ERROR, G_IO_ERROR_WRONG_ETAG);
  g_clear_error (&error);
  cw_document_keep_mine (document);
  g_assert_cmpint (cw_document_get_disk (document), ==, CW_DISK_SAME);
  g_assert_true (cw_document_save (document, NULL, &error));
  g_assert_no_error (error);

  g_unlink (path);
  iterate_until (is_gone, document, 20);
  g_assert_false (cw_document_is_saved (document));
  g_assert_true (cw_document_save (document, NULL, &error));
  g_assert_true (g_file_test (path, G_FILE_TEST_EXISTS));
  g_assert_true (cw_document_is_saved (document));
  /* its own writing is no change */
  wait_a_while ();
  g_assert_cmpint (cw_document_get_disk (document), ==, CW_DISK_SAME);
  g_unlink (path);
  g_rmdir (folder);
}

int
main (int argc, char *argv[])
{
  g_autofree char *state = g_dir_make_tmp ("creasewright-XXXXXX", NULL), *ours = NULL;
  int status = 0;

  g_setenv ("XDG_STATE_HOME", state, TRUE);
  ours = g_build_filename (state, "creasewright", NULL);
  kept_folder = g_build_filename (ours, "unsaved", NULL);
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/app/recovery/copy-while-there-is-something-to-lose", test_copy);
  g_test_add_func ("/app/recovery/leftover-is-offered-once-and-brought-back", test_leftover);
  g_test_add_func ("/app/recovery/nothing-to-offer", test_nothing_left);
  g_test_add_func ("/app/recovery/what-other-programs-do-to-the-file", test_changed_on_disk);
  status = g_test_run ();
  g_rmdir (kept_folder);
  g_rmdir (ours);
  g_rmdir (state);
  g_free (kept_folder);
  return status;
}
