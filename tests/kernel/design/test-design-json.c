/* test-design-json.c: the file format, both ways.
 *
 * golden/versions/v1.creasecard holds every key of the agreed model and unknown keys in every object that can have
 * them, laid out by an independent program in Python from the rules of the layout (tests/lint/schema.py does that again
 * and validates it). Hostile files are in tests/fuzz/design.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "design/cw-design-json.h"
#include "design/cw-json.h"

#include <glib/gstdio.h>
#include <string.h>

static const char smallest[]
  = "{\"format\":\"creasewright design\",\"version\":1,\"pieces\":[{\"id\":\"a\",\"outline\":"
    "[[\"0\",\"0\"],[\"1\",\"0\"],[\"0\",\"1\"]]}]";

static char *
get_golden (gsize *length)
{
  g_autofree char *path = g_test_build_filename (G_TEST_DIST, "golden", "versions", "v1.creasecard", NULL);
  g_autoptr (GError) error = NULL;
  char *text;

  g_file_get_contents (path, &text, length, &error);
  g_assert_no_error (error);
  return text;
}

static CwDesign *
read_design (const char *text, gssize length)
{
  g_autoptr (GError) error = NULL;
  CwDesign *design = cw_design_from_text (text, length, "card", &error);

  g_assert_no_error (error);
  return design;
}

static void
test_same_bytes (void)
{
  gsize length, length_again;
  g_autofree char *text = get_golden (&length);
  g_autoptr (CwDesign) design = read_design (text, (gssize) length);
  g_autofree char *again = cw_design_to_text (design, &length_again);

  g_assert_cmpstr (again, ==, text);
  g_assert_cmpuint (length_again, ==, length);
}

/* A design under version control: the order in which a program wrote the known keys does not matter. */
static JsonNode *
reversed (JsonNode *node)
{
  if (JSON_NODE_HOLDS_ARRAY (node))
    {
      g_autoptr (JsonArray) list = json_array_new ();
      for (guint i = 0; i < json_array_get_length (json_node_get_array (node)); i++)
        json_array_add_element (list, reversed (json_array_get_element (json_node_get_array (node), i)));
      return json_node_init_array (json_node_alloc (), list);
    }
  if (!JSON_NODE_HOLDS_OBJECT (node))
    return json_node_copy (node);
  g_autoptr (JsonObject) object = json_object_new ();
  g_autoptr (GList) keys = g_list_reverse (json_object_get_members (json_node_get_object (node)));
  for (GList *key = keys; key; key = key->next)
    json_object_set_member (object, key->data,
                            reversed (json_object_get_member (json_node_get_object (node), key->data)));
  return json_node_init_object (json_node_alloc (), object);
}

static void
test_key_order (void)
{
  gsize length;
  g_autofree char *text = get_golden (&length);
  g_autoptr (JsonNode) node = cw_json_parse (text, length, CW_DESIGN_NESTING_MAX, NULL);
  g_autoptr (JsonNode) back = reversed (node);
  g_autoptr (GString) mixed = g_string_new (NULL);
  g_autoptr (CwDesign) design = NULL;

  cw_json_append (mixed, back, NULL);
  design = read_design (mixed->str, (gssize) mixed->len);
  g_autofree char *again = cw_design_to_text (design, NULL);

  /* Known keys are in their places: the lines up to the first unknown key are those of the golden file. */
  gsize same = 0;
  while (again[same] && again[same] == text[same])
    same++;
  g_assert_cmpuint (same, >=, (gsize) (strstr (text, "\"author\"") - text) / 20);
  g_autoptr (JsonNode) tree = cw_json_parse (again, strlen (again), CW_DESIGN_NESTING_MAX, NULL);
  g_assert_true (json_node_equal (node, tree)); /* nothing lost: members are compared without regard to order */

  /* And once written, it stays. */
  g_autoptr (CwDesign) second = read_design (again, -1);
  g_autofree char *third = cw_design_to_text (second, NULL);
  g_assert_cmpstr (third, ==, again);
}

static void
test_fields (void)
{
  gsize length;
  g_autofree char *text = get_golden (&length);
  g_autoptr (CwDesign) design = read_design (text, (gssize) length);
  const CwPiece *base = cw_design_get_piece (design, "base");
  const CwMark *moon = cw_piece_get_mark (base, "moon");
  const CwStep *hang = cw_design_get_step (design, "hang");
  const CwStep *put = cw_design_get_step (design, "put");
  const CwGlue *foam = cw_design_get_glue (design, "g3");
  const CwTarget *held = g_ptr_array_index (foam->holds, 2);

  g_assert_cmpint (design->head->unit, ==, CW_UNIT_MM);
  g_assert_cmpint (design->head->snap_ticks, ==, 160); /* 0.5 mm at 320 ticks a mm */
  g_assert_cmpint (design->head->hand.ticks, ==, 254); /* 1/32 in at 8128 ticks an inch */
  g_assert_cmpint (design->head->wants.size[0].ticks, ==, 5 * 8128);
  g_assert_cmpint (design->head->wants.envelope[1].ticks, ==, 58912); /* 184.1 mm */
  g_assert_true (base->ground);
  g_assert_cmpint (base->shows, ==, CW_SHOWS_BOTH);
  g_assert_cmpuint (base->outline.n_vertices, ==, 6);
  g_assert_true (base->outline.vertices[5].through);
  g_assert_cmpint (base->outline.vertices[5].at.x.ticks, ==, -4064);
  g_assert_cmpint (moon->shape, ==, CW_SHAPE_CIRCLE);
  g_assert_cmpint (moon->radius.ticks, ==, 1173); /* 11/3 mm = 1173.33 ticks */
  g_assert_cmpstr (moon->radius.text, ==, "11/3 mm");
  g_assert_cmpint (cw_piece_get_mark (base, "flap")->made, ==, CW_MADE_PRESS);
  g_assert_cmpint (cw_piece_get_mark (base, "eave")->fold, ==, CW_FOLD_NONE);
  g_assert_cmpint (cw_piece_get_mark (base, "door")->kind, ==, CW_MARK_WINDOW);
  g_assert_true (hang->overhang_meant);
  g_assert_true (hang->has_on && hang->on.has_panel);
  g_assert_cmpint ((gint) hang->turn, ==, 270);
  g_assert_cmpint (hang->at.x.ticks, ==, -2032);
  g_assert_false (put->has_on);
  g_assert_true (cw_design_get_step (design, "lay")->tucked);
  g_assert_cmpint (cw_design_get_step (design, "lay")->on_face, ==, CW_FACE_BACK);
  g_assert_cmpint (cw_design_get_step (design, "score")->phase, ==, CW_PHASE_UNSAID);
  g_assert_true (foam->has_height);
  g_assert_cmpuint (foam->holds->len, ==, 3);
  g_assert_true (held->has_panel);
  g_assert_true (json_object_has_member (hang->on.extra, "edge"));
  g_assert_true (json_object_has_member (cw_design_get_step (design, "cut")->extra, "minutes"));
  g_assert_true (json_object_has_member (design->head->extra, "trims"));
}

static void
test_defaults (void)
{
  g_autofree char *text = g_strconcat (smallest, "}", NULL);
  g_autoptr (CwDesign) design = read_design (text, -1);
  const CwHead *head = design->head;

  /* Model: snap 1/16 inch unless the design says otherwise; hand and give absent mean 0. */
  g_assert_cmpint (head->unit, ==, CW_UNIT_INCH);
  g_assert_cmpint (head->snap_ticks, ==, 508);
  g_assert_cmpint (head->hand.ticks, ==, 0);
  g_assert_cmpint (head->give.ticks, ==, 0);
  g_assert_false (head->has_measure || head->has_wants);

  g_autofree char *off = g_strconcat (smallest, ",\"measure\":{\"snap\":\"off\"}}", NULL);
  g_autoptr (CwDesign) loose = read_design (off, -1);
  g_autofree char *written = cw_design_to_text (loose, NULL);
  g_assert_cmpint (loose->head->snap_ticks, ==, 0);
  g_assert_nonnull (strstr (written, "\"measure\": { \"unit\": \"in\", \"snap\": \"off\" }"));
}

static void
test_empty_lists (void)
{
  /* As written: a list that is there and empty stays, one that is not there does not come. */
  g_autofree char *text = g_strconcat (smallest, ",\"wants\":{\"flat\":[],\"shown\":[]}}", NULL);
  g_autoptr (CwDesign) design = read_design (text, -1);
  g_autofree char *written = cw_design_to_text (design, NULL);

  g_assert_nonnull (strstr (written, "\"flat\": [],\n    \"shown\": []\n"));
  g_assert_null (strstr (written, "\"hidden\""));
  g_assert_null (strstr (written, "\"names\""));
}

static void
test_off_tick_text (void)
{
  /* 8.6 in = 69900.8 ticks, 11/3 in = 29802.67 ticks: kept as typed, with their unit even if it was only understood. */
  g_autofree char *whole
    = g_strconcat (smallest, ",\"measure\":{\"unit\":\"in\",\"hand\":\"8.6\",\"give\":\"11/3\"}}", NULL);
  g_autoptr (CwDesign) design = read_design (whole, -1);
  g_autofree char *written = cw_design_to_text (design, NULL);

  g_assert_cmpint (design->head->hand.ticks, ==, 69901);
  g_assert_cmpint (design->head->give.ticks, ==, 29803);
  g_assert_nonnull (strstr (written, "\"hand\": \"8.6 in\", \"give\": \"11/3 in\""));
}

static void
test_golden_is_whole (void)
{
  gsize length;
  g_autofree char *text = get_golden (&length);
  const char *last_brace = strrchr (text, '}');

  /* Cut off at every byte: never a crash, always one sentence that names the source. */
  for (gsize n = 0; n <= (gsize) (last_brace - text); n++)
    {
      g_autofree char *part = g_memdup2 (text, n); /* exactly n bytes, so that a sanitizer sees reading past them */
      g_autoptr (GError) error = NULL;
      g_autoptr (CwDesign) design = cw_design_from_text (part ? part : "", (gssize) n, "lantern.creasecard", &error);

      g_assert_null (design);
      g_assert_error (error, CW_DESIGN_ERROR, CW_DESIGN_ERROR_SYNTAX);
      g_assert_true (g_str_has_prefix (error->message, "lantern.creasecard: line "));
      g_assert_null (strchr (error->message, '\n'));
    }
}

static void
test_random_bytes (void)
{
  gsize length;
  g_autofree char *text = get_golden (&length);
  static const char bytes[] = "\"{}[],:0129-+.eE/\\ntrue x\xff\xc3";

  /* The seed is that of the test run (--seed); what is still read must write itself steadily. */
  for (guint round = 0; round < 1500; round++)
    {
      g_autofree char *worse = g_memdup2 (text, length);
      g_autoptr (GError) error = NULL;
      for (gint n = g_test_rand_int_range (1, 4); n > 0; n--)
        worse[g_test_rand_int_range (0, (gint32) length)] = bytes[g_test_rand_int_range (0, sizeof bytes - 1)];
      g_autoptr (CwDesign) design = cw_design_from_text (worse, (gssize) length, "worse", &error);
      if (!design)
        {
          g_assert_true (error->domain == CW_DESIGN_ERROR);
          g_assert_null (strchr (error->message, '\n'));
          continue;
        }
      g_autofree char *once = cw_design_to_text (design, NULL);
      g_autoptr (CwDesign) second = read_design (once, -1);
      g_autofree char *twice = cw_design_to_text (second, NULL);
      g_assert_cmpstr (once, ==, twice);
    }
}

static void
check_error (const char *rest, CwDesignError code, const char *message)
{
  g_autofree char *text = g_strconcat (smallest, rest, NULL);
  g_autoptr (GError) error = NULL;

  g_assert_null (cw_design_from_text (text, -1, "lantern.creasecard", &error));
  g_assert_error (error, CW_DESIGN_ERROR, (gint) code);
  g_assert_cmpstr (error->message, ==, message);
}

static void
test_errors (void)
{
  g_autoptr (GError) error = NULL;

  /* File, JSON path and what was expected (the agreed design of the tool, "Exit status"). */
  check_error (",\"title\":7}", CW_DESIGN_ERROR_CONTENT, "lantern.creasecard: title: expected a text in quotes, not 7");
  check_error (",\"steps\":[{\"id\":\"s\",\"do\":\"fold\",\"folds\":[{\"score\":\"a/b\",\"to\":\"x\\ny\"}]}]}",
               CW_DESIGN_ERROR_CONTENT,
               "lantern.creasecard: steps[0].folds[0].to: expected an angle in degrees, a number, not \"x\\ny\"");
  check_error (",\"steps\":[{\"id\":\"s\",\"do\":\"fold\",\"folds\":[{\"score\":\"a/b\\nc\",\"to\":1}]}]}",
               CW_DESIGN_ERROR_CONTENT,
               "lantern.creasecard: steps[0].folds[0].score: there is no score “a/b c” (written as piece/score)");
  check_error (
    ",\"glue\":[{\"id\":\"g\",\"piece\":\"a\",\"face\":\"back\",\"kind\":\"wet\",\"area\":[[\"0\",\"0\"],[\"1\",\"0\"],"
    "[\"0\",5]]}]}",
    CW_DESIGN_ERROR_CONTENT,
    "lantern.creasecard: glue[0].area[2][1]: expected a length in quotes such as \"4 1/4 in\", not 5");
  check_error (",\"measure\":{\"unit\":\"in\",}}", CW_DESIGN_ERROR_SYNTAX,
               "lantern.creasecard: line 1, column 132: expected a key in double quotes");

  g_assert_null (
    cw_design_from_text ("{\"format\":\"creasewright design\",\"version\":99}", -1, "lantern.creasecard", &error));
  g_assert_error (error, CW_DESIGN_ERROR, CW_DESIGN_ERROR_VERSION);
  g_assert_nonnull (strstr (error->message, "newer"));
}

static void
test_limits (void)
{
  g_autoptr (GString) text = g_string_new (smallest);
  g_autoptr (GError) error = NULL;

  /* An endless id does not make an endless error. */
  g_string_append (text, ",\"steps\":[{\"id\":\"s\",\"do\":\"rub\",\"heat\":[\"");
  for (guint i = 0; i < 5000; i++)
    g_string_append (text, "é");
  g_string_append (text, "\"]}]}");
  g_assert_null (cw_design_from_text (text->str, (gssize) text->len, "card", &error));
  g_assert_error (error, CW_DESIGN_ERROR, CW_DESIGN_ERROR_CONTENT);
  g_assert_cmpint (g_utf8_strlen (error->message, -1), <, 500);
  g_clear_error (&error);

  g_string_assign (text, smallest);
  g_string_append (text, ",\"notes\":\"");
  while (text->len < CW_DESIGN_BYTES_MAX - 2)
    g_string_append_c (text, 'n');
  g_string_append (text, "\"}");
  g_autoptr (CwDesign) largest = cw_design_from_text (text->str, CW_DESIGN_BYTES_MAX, "card", &error);
  g_assert_no_error (error);
  g_assert_nonnull (largest);
  g_string_append_c (text, '\n');
  g_assert_null (cw_design_from_text (text->str, (gssize) text->len, "card", &error));
  g_assert_error (error, CW_DESIGN_ERROR, CW_DESIGN_ERROR_SYNTAX);
}

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
}

static void
tear_down (Place *place, gconstpointer nothing)
{
  g_autoptr (GDir) dir = g_dir_open (place->folder, 0, NULL);
  const char *name;

  g_chmod (place->folder, 0700);
  while ((name = g_dir_read_name (dir)))
    {
      g_autofree char *path = g_build_filename (place->folder, name, NULL);
      g_unlink (path);
    }
  g_rmdir (place->folder);
  g_object_unref (place->file);
  g_free (place->path);
  g_free (place->folder);
}

static guint
count_files (const Place *place)
{
  g_autoptr (GDir) dir = g_dir_open (place->folder, 0, NULL);
  guint n = 0;

  while (g_dir_read_name (dir))
    n++;
  return n;
}

static void
test_save (Place *place, gconstpointer nothing)
{
  gsize length;
  g_autofree char *text = get_golden (&length);
  g_autoptr (CwDesign) design = read_design (text, (gssize) length);
  g_autoptr (GError) error = NULL;
  g_autofree char *saved = NULL;
  g_autofree char *link = g_build_filename (place->folder, "link.creasecard", NULL);
  g_autoptr (GFile) link_file = g_file_new_for_path (link);
  GStatBuf info;

  g_assert_true (cw_design_save (design, place->file, &error));
  g_assert_no_error (error);
  g_assert_true (g_file_get_contents (place->path, &saved, NULL, NULL));
  g_assert_cmpstr (saved, ==, text);

  /* Over an existing file: its permissions stay, a link stays a link, nothing is left lying about. */
  g_assert_cmpint (g_chmod (place->path, 0640), ==, 0);
  g_assert_true (g_file_make_symbolic_link (link_file, "card.creasecard", NULL, NULL));
  g_assert_true (g_file_set_contents (place->path, "old", -1, NULL));
  g_assert_cmpint (g_chmod (place->path, 0640), ==, 0);
  g_assert_true (cw_design_save (design, link_file, &error));
  g_assert_no_error (error);
  g_assert_true (g_file_test (link, G_FILE_TEST_IS_SYMLINK));
  g_clear_pointer (&saved, g_free);
  g_assert_true (g_file_get_contents (place->path, &saved, NULL, NULL));
  g_assert_cmpstr (saved, ==, text);
  g_assert_cmpint (g_stat (place->path, &info), ==, 0);
  g_assert_cmpint (info.st_mode & 0777, ==, 0640);
  g_assert_cmpuint (count_files (place), ==, 2);

  g_autoptr (CwDesign) back = cw_design_load (place->file, &error);
  g_assert_no_error (error);
  g_autofree char *again = cw_design_to_text (back, NULL);
  g_assert_cmpstr (again, ==, text);
}

static void
test_save_fails (Place *place, gconstpointer nothing)
{
  g_autofree char *text = g_strconcat (smallest, "}", NULL);
  g_autoptr (CwDesign) design = read_design (text, -1);
  g_autofree char *nowhere = g_build_filename (place->folder, "missing", "card.creasecard", NULL);
  g_autoptr (GFile) file = g_file_new_for_path (nowhere);
  g_autoptr (GFile) folder = g_file_new_for_path (place->folder);
  g_autoptr (GError) error = NULL;

  g_assert_false (cw_design_save (design, file, &error));
  g_assert_nonnull (error);
  g_clear_error (&error);
  g_assert_false (cw_design_save (design, folder, &error));
  g_assert_nonnull (error);
  g_assert_cmpuint (count_files (place), ==, 0);
}

static void
test_load_fails (Place *place, gconstpointer nothing)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GFile) folder = g_file_new_for_path (place->folder);

  g_assert_null (cw_design_load (place->file, &error));
  g_assert_error (error, G_IO_ERROR, G_IO_ERROR_NOT_FOUND);
  g_assert_nonnull (strstr (error->message, place->path));
  g_clear_error (&error);
  g_assert_null (cw_design_load (folder, &error));
  g_assert_error (error, G_IO_ERROR, G_IO_ERROR_IS_DIRECTORY);
  g_clear_error (&error);

  g_assert_true (g_file_set_contents (place->path, "", 0, NULL));
  g_assert_null (cw_design_load (place->file, &error));
  g_assert_error (error, CW_DESIGN_ERROR, CW_DESIGN_ERROR_SYNTAX);
  g_assert_true (g_str_has_prefix (error->message, place->path));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/design/json/every-key-same-bytes", test_same_bytes);
  g_test_add_func ("/design/json/keys-in-any-order", test_key_order);
  g_test_add_func ("/design/json/fields-read", test_fields);
  g_test_add_func ("/design/json/defaults", test_defaults);
  g_test_add_func ("/design/json/empty-lists-kept", test_empty_lists);
  g_test_add_func ("/design/json/off-tick-text-kept", test_off_tick_text);
  g_test_add_func ("/design/json/cut-off-at-every-byte", test_golden_is_whole);
  g_test_add_func ("/design/json/random-bytes", test_random_bytes);
  g_test_add_func ("/design/json/errors-name-source-path-expected", test_errors);
  g_test_add_func ("/design/json/limits", test_limits);
  g_test_add ("/design/file/save-replaces-whole", Place, NULL, set_up, test_save, tear_down);
  g_test_add ("/design/file/save-fails-cleanly", Place, NULL, set_up, test_save_fails, tear_down);
  g_test_add ("/design/file/load-fails-with-name", Place, NULL, set_up, test_load_fails, tear_down);
  return g_test_run ();
}
