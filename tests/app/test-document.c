/* test-document.c: the open design without any window.
 *
 * Checked against the document's own promises (cw-document.h), each by a second way: file bytes against what was
 * written, moments and selections against the ids they stood for.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "window-test.h"

#include <glib/gstdio.h>

static void
count (guint *n)
{
  (*n)++;
}

static void
test_undo (void)
{
  g_autoptr (CwDocument) document = blank_document ();
  CwPiece *piece = NULL;
  guint changed = 0;

  g_signal_connect_swapped (document, "changed", G_CALLBACK (count), &changed);
  g_assert_true (cw_document_is_saved (document));
  g_assert_null (cw_document_get_undo_name (document));
  g_assert_false (cw_document_undo (document));
  type_measure (document, "score 4 1/4");
  g_assert_cmpstr (cw_document_get_undo_name (document), ==, "add marks");
  g_assert_false (cw_document_is_saved (document));
  g_assert_true (cw_document_undo (document));
  g_assert_cmpstr (cw_document_get_redo_name (document), ==, "add marks");
  g_assert_true (cw_document_is_saved (document));
  piece = g_ptr_array_index (cw_document_get_design (document)->pieces, 0);
  g_assert_cmpuint (piece->marks->len, ==, 0);
  g_assert_true (cw_document_redo (document));
  piece = g_ptr_array_index (cw_document_get_design (document)->pieces, 0);
  g_assert_cmpuint (piece->marks->len, ==, 1);
  g_assert_cmpuint (changed, ==, 3);
}

static const char *
selected_mark_id (CwDocument *document)
{
  guint n = 0;
  const CwId *ids = cw_document_get_selection (document, &n);
  CwPiece *piece = NULL;

  if (n == 0)
    return NULL;
  piece = g_ptr_array_index (cw_document_get_design (document)->pieces, ids[0].piece);
  return ((CwMark *) g_ptr_array_index (piece->marks, ids[0].index))->id;
}

static void
test_selection (void)
{
  g_autoptr (CwDocument) document = blank_document ();
  CwPiece *piece = NULL;
  CwId id = { CW_ID_MARK, 0, 1, 0 };
  g_autofree char *second = NULL;
  guint n = 0;

  type_measure (document, "score 4 1/4");
  type_measure (document, "cut 2 from 1 to 3");
  cw_document_select (document, &id, 1);
  second = g_strdup (selected_mark_id (document));
  piece = g_ptr_array_index (cw_document_get_design (document)->pieces, 0);
  /* the mark before it goes: the selection stays on the same mark, at another index */
  cw_document_do (document, "take away",
                  cw_edit_new_erase (cw_document_get_design (document), CW_LIST_MARKS, piece->id, 0));
  g_assert_cmpstr (selected_mark_id (document), ==, second);
  g_assert_cmpuint (cw_document_get_selection (document, &n)[0].index, ==, 0);
  cw_document_undo (document);
  g_assert_cmpstr (selected_mark_id (document), ==, second);
  g_assert_cmpuint (cw_document_get_selection (document, &n)[0].index, ==, 1);
  /* the mark itself goes: let go of */
  cw_document_undo (document);
  cw_document_get_selection (document, &n);
  g_assert_cmpuint (n, ==, 0);
}

static void
test_panel_selection (void)
{
  g_autoptr (CwDocument) document = blank_document ();
  CwId id = { CW_ID_PANEL, 0, 0, 0 };
  CwPoint inside;
  CwAnalysis *analysis = NULL;
  guint n = 0;

  type_measure (document, "score 4 1/4");
  cw_document_analyse_now (document);
  analysis = cw_document_get_analysis (document);
  inside = g_array_index (analysis->panels->maps[0].panels, CwPanel, 0).inside;
  cw_document_select (document, &id, 1);
  type_measure (document, "score 1, 2");
  cw_document_analyse_now (document);
  analysis = cw_document_get_analysis (document);
  g_assert_cmpuint (cw_document_get_selection (document, &n)[0].index, ==,
                    cw_panel_map_find (&analysis->panels->maps[0], inside));
  g_assert_cmpuint (n, ==, 1);
}

static void
test_moment (void)
{
  g_autoptr (CwDocument) document = blank_document ();
  CwDesign *design = NULL;
  g_autofree char *id = NULL;
  guint last = 0;

  type_measure (document, "score 4 1/4");
  design = cw_document_get_design (document);
  g_assert_cmpuint (design->steps->len, >=, 2);
  last = design->steps->len - 1;
  cw_document_set_moment (document, (int) last, 0.25);
  id = g_strdup (((CwStep *) g_ptr_array_index (design->steps, last))->id);
  cw_document_do (document, "take step away", cw_edit_new_erase (design, CW_LIST_STEPS, NULL, 0));
  g_assert_cmpint (cw_document_get_step (document), ==,
                   (int) cw_design_find_step (cw_document_get_design (document), id));
  g_assert_cmpfloat_with_epsilon (cw_document_get_fraction (document), 0.25, 1e-12);
  cw_document_set_moment (document, 99, 7);
  g_assert_cmpint (cw_document_get_step (document), ==, (int) cw_document_get_design (document)->steps->len - 1);
  g_assert_cmpfloat_with_epsilon (cw_document_get_fraction (document), 1, 1e-12);
  cw_document_set_moment (document, -5, 0.5);
  g_assert_cmpint (cw_document_get_step (document), ==, -1);
}

static gboolean
is_analysed (gpointer document)
{
  return cw_document_is_analysed (document);
}

static void
assert_current (CwDocument *document, guint *n)
{
  g_assert_true (cw_document_is_analysed (document));
  (*n)++;
}

/* Edits come faster than answers: only answers about the design as it is are told. */
static void
test_stale_analysis (void)
{
  g_autoptr (CwDocument) document = blank_document ();
  guint n = 0;

  g_signal_connect (document, "analysed", G_CALLBACK (assert_current), &n);
  for (guint i = 1; i < 8; i++)
    {
      g_autofree char *line = g_strdup_printf ("score %u", i);

      type_measure (document, line);
      if (i == 4)
        g_main_context_iteration (NULL, FALSE);
    }
  iterate_until (is_analysed, document, 20);
  g_assert_cmpuint (n, >=, 1);
  g_assert_cmpuint (cw_document_get_analysis (document)->panels->maps[0].panels->len, ==, 8);
}

static void
test_file (void)
{
  g_autofree char *folder = g_dir_make_tmp ("creasewright-XXXXXX", NULL), *path = NULL, *first = NULL, *again = NULL;
  g_autoptr (CwDocument) document = blank_document (), reopened = NULL;
  g_autoptr (GFile) file = NULL, nowhere = NULL;
  g_autoptr (GError) error = NULL;
  gsize n = 0, m = 0;

  path = g_build_filename (folder, "harbour.creasecard", NULL);
  file = g_file_new_for_path (path);
  type_measure (document, "score 4 1/4");
  g_assert_true (cw_document_save (document, file, &error));
  g_assert_no_error (error);
  g_assert_true (cw_document_is_saved (document));
  g_assert_true (g_file_get_contents (path, &first, &n, NULL));
  reopened = cw_document_load (file, &error);
  g_assert_no_error (error);
  g_assert_true (cw_document_save (reopened, NULL, &error));
  g_assert_true (g_file_get_contents (path, &again, &m, NULL));
  g_assert_cmpuint (n, ==, m);
  g_assert_cmpstr (first, ==, again);

  /* a place that cannot be written to: told, and nothing else changes */
  type_measure (document, "score 2");
  nowhere = g_file_new_build_filename (folder, "no", "such", "folder.creasecard", NULL);
  g_assert_false (cw_document_save (document, nowhere, &error));
  g_assert_nonnull (error);
  g_assert_false (cw_document_is_saved (document));
  g_assert_true (cw_document_get_file (document) == file);
  g_clear_error (&error);
  g_assert_null (cw_document_load (nowhere, &error));
  g_assert_nonnull (error);

  g_unlink (path);
  g_rmdir (folder);
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/app/document/undo-redo-and-saved-state", test_undo);
  g_test_add_func ("/app/document/selection-follows-its-mark", test_selection);
  g_test_add_func ("/app/document/selection-follows-its-panel", test_panel_selection);
  g_test_add_func ("/app/document/moment-follows-its-step", test_moment);
  g_test_add_func ("/app/document/stale-answers-are-dropped", test_stale_analysis);
  g_test_add_func ("/app/document/saves-reopens-and-saves-the-same-bytes", test_file);
  return g_test_run ();
}
