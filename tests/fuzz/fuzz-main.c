/* fuzz-main.c: runs every file of a corpus through a fuzz target, as a plain test.
 *
 * Files are named by fate: y_ must be accepted, n_ refused, i_ only survived. In tests/fuzz/design a second word says
 * who refuses: n_text_ the JSON reader, n_schema_ also the published schema, n_whole_ only the check of a design as a
 * whole.
 *
 * With -DCW_LIBFUZZER the same target is driven by libFuzzer:
 *   CC=clang meson setup BUILD -Db_sanitize=address,undefined -Db_lundef=false -Dc_args=-fsanitize=fuzzer-no-link
 *   ninja -C BUILD tests/fuzz/fuzz-design-long, then run it on a copy of the corpus.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "fuzz.h"

#ifdef CW_LIBFUZZER

int LLVMFuzzerTestOneInput (const guint8 *data, gsize size);

int
LLVMFuzzerTestOneInput (const guint8 *data, gsize size)
{
  cw_fuzz_one (data, size);
  return 0;
}

#else

static void
run_file (gconstpointer path)
{
  g_autofree char *name = g_path_get_basename (path);
  g_autofree char *text = NULL;
  gsize size;
  g_autoptr (GError) error = NULL;

  g_file_get_contents (path, &text, &size, &error);
  g_assert_no_error (error);
  g_autofree guint8 *exact = g_memdup2 (text, size); /* without the zero that GLib adds, so that a sanitizer sees it */
  gboolean accepted = cw_fuzz_one (exact ? exact : (const guint8 *) "", size);
  if (name[0] == 'y')
    g_assert_true (accepted);
  else if (name[0] == 'n')
    g_assert_false (accepted);
  else
    g_assert_cmpint (name[0], ==, 'i');
}

static int
compare_paths (gconstpointer a, gconstpointer b)
{
  return g_strcmp0 (*(char *const *) a, *(char *const *) b);
}

int
main (int argc, char **argv)
{
  g_autoptr (GPtrArray) paths = g_ptr_array_new_with_free_func (g_free);

  g_test_init (&argc, &argv, NULL);
  for (int i = 1; i < argc; i++)
    {
      g_autoptr (GDir) dir = g_dir_open (argv[i], 0, NULL);
      const char *name;

      g_assert_nonnull (dir);
      while ((name = g_dir_read_name (dir)))
        g_ptr_array_add (paths, g_build_filename (argv[i], name, NULL));
    }
  g_ptr_array_sort (paths, compare_paths);
  g_assert_cmpuint (paths->len, >, 0);
  for (guint i = 0; i < paths->len; i++)
    {
      g_autofree char *name = g_path_get_basename (g_ptr_array_index (paths, i));
      g_autofree char *test = g_strconcat ("/fuzz/", name, NULL);
      g_test_add_data_func (test, g_ptr_array_index (paths, i), run_file);
    }
  return g_test_run ();
}

#endif
