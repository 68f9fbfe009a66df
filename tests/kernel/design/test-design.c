/* test-design.c: items, look-ups and ids.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "design/cw-design-json.h"

/* A kite with a tail: the smallest design with something of everything. */
static const char kite[]
  = "{\"format\":\"creasewright "
    "design\",\"version\":1,\"title\":\"Kite\",\"papers\":[{\"id\":\"tan\",\"name\":\"Tan\"}],"
    "\"pieces\":[{\"id\":\"tail\",\"outline\":[[\"0\",\"0\"],[\"2\",\"0\"],[\"0\",\"1\"]]},"
    "{\"id\":\"base\",\"paper\":\"tan\",\"ground\":true,\"x\":{\"y\":[1]},"
    "\"outline\":[[\"0\",\"0\"],[\"6\",\"0\"],{\"through\":[\"7\",\"2\"],\"z\":1},[\"6\",\"4\"],[\"0\",\"4\"]],"
    "\"marks\":[{\"id\":\"spine\",\"kind\":\"score\",\"fold\":\"toward\",\"line\":[[\"3\",\"0\"],[\"3\",\"4\"]]}],"
    "\"art\":[{\"id\":\"wish\",\"box\":[[\"4\",\"1\"],[\"5\",\"2\"]]}]}],"
    "\"glue\":[{\"id\":\"g\",\"piece\":\"tail\",\"face\":\"back\",\"kind\":\"tape\","
    "\"area\":[[\"0\",\"0\"],[\"1\",\"0\"],[\"0\",\"1/2\"]],\"holds\":\"base\"}],"
    "\"steps\":[{\"id\":\"hang\",\"do\":\"stick\",\"piece\":\"tail\",\"on\":{\"piece\":\"base\",\"panel\":[\"4\",\"3\"]"
    "},"
    "\"at\":[\"4\",\"2\"]},{\"id\":\"shut\",\"do\":\"fold\",\"folds\":[{\"score\":\"base/spine\",\"to\":180}]}],"
    "\"wants\":{\"flat\":[\"shut\"],\"shown\":[{\"piece\":\"tail\",\"state\":\"shut\"}]}}";

static CwDesign *
read_kite (void)
{
  g_autoptr (GError) error = NULL;
  CwDesign *design = cw_design_from_text (kite, -1, "kite", &error);

  g_assert_no_error (error);
  return design;
}

static void
test_look_up (void)
{
  g_autoptr (CwDesign) design = read_kite ();
  CwPiece *piece;
  CwMark *mark;

  g_assert_cmpstr (cw_design_get_paper (design, "tan")->name, ==, "Tan");
  g_assert_null (cw_design_get_paper (design, "base"));
  g_assert_null (cw_design_get_paper (design, NULL));
  g_assert_cmpuint (cw_design_find_piece (design, "base"), ==, 1);
  g_assert_cmpuint (cw_design_find_piece (design, "wing"), ==, G_MAXUINT);
  g_assert_cmpuint (cw_design_find_step (design, "shut"), ==, 1);
  g_assert_nonnull (cw_design_get_glue (design, "g"));
  g_assert_nonnull (cw_design_get_step (design, "hang"));
  g_assert_cmpuint (cw_piece_find_mark (cw_design_get_piece (design, "base"), "spine"), ==, 0);

  g_assert_true (cw_design_split_address (design, "base/spine", &piece, &mark));
  g_assert_true (piece == cw_design_get_piece (design, "base"));
  g_assert_true (mark == cw_piece_get_mark (piece, "spine"));
  g_assert_false (cw_design_split_address (design, "base/ridge", &piece, &mark));
  g_assert_null (piece);
  g_assert_null (mark);
  g_assert_false (cw_design_split_address (design, "tail/spine", NULL, NULL));
  g_assert_false (cw_design_split_address (design, "spine", NULL, NULL));
  g_assert_false (cw_design_split_address (design, NULL, NULL, NULL));
}

static void
test_ground (void)
{
  g_autoptr (CwDesign) design = read_kite ();
  g_autoptr (CwDesign) empty = cw_design_new ();

  /* The one marked, else the first (model, "Steps"). */
  g_assert_cmpstr (cw_design_get_ground (design)->id, ==, "base");
  cw_design_get_piece (design, "base")->ground = FALSE;
  g_assert_cmpstr (cw_design_get_ground (design)->id, ==, "tail");
  g_assert_null (cw_design_get_ground (empty));
}

static void
test_free_id (void)
{
  static const struct
  {
    const char *wish, *id;
  } cases[] = {
    { "ridge", "ridge" },     { "spine", "spine-2" }, { "base", "base-2" }, { "wish", "wish-2" },
    { "tan", "tan-2" },       { "g", "g-2" },         { "shut", "shut-2" }, { "a/b", "a-b" },
    { "spine-2", "spine-2" }, { NULL, "item" },       { "", "item" },
  };
  g_autoptr (CwDesign) design = read_kite ();

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autofree char *id = cw_design_dup_free_id (design, cases[i].wish);
      g_assert_cmpstr (id, ==, cases[i].id);
    }
  CwMark *mark = cw_mark_new ();
  mark->id = g_strdup ("spine-2");
  g_ptr_array_add (cw_design_get_piece (design, "base")->marks, mark);
  g_autofree char *next = cw_design_dup_free_id (design, "spine-2");
  g_assert_cmpstr (next, ==, "spine-3");
}

static void
test_copy (void)
{
  g_autoptr (CwDesign) design = read_kite ();
  g_autofree char *before = cw_design_to_text (design, NULL);
  g_autoptr (CwDesign) copy = cw_design_copy (design);
  g_autofree char *same = cw_design_to_text (copy, NULL);

  g_assert_cmpstr (same, ==, before);

  /* Change everything a copy could still share. */
  CwPiece *base = cw_design_get_piece (copy, "base");
  CwMark *spine = cw_piece_get_mark (base, "spine");
  spine->fold = CW_FOLD_AWAY;
  spine->line.vertices[0].at = cw_place_from_point (cw_point (1, 2), CW_UNIT_MM);
  json_object_set_int_member (base->extra, "more", 1);
  json_array_add_int_element (json_object_get_array_member (json_object_get_object_member (base->extra, "x"), "y"), 2);
  json_object_set_int_member (base->outline.vertices[2].extra, "z", 2);
  g_ptr_array_set_size (copy->steps, 1);
  cw_design_get_step (copy, "hang")->on.piece[0] = 'B';
  g_ptr_array_set_size (copy->head->wants.flat, 0);
  ((CwTarget *) g_ptr_array_index (cw_design_get_glue (copy, "g")->holds, 0))->piece[0] = 'B';
  copy->head->title[0] = 'B';
  cw_design_get_paper (copy, "tan")->name[0] = 'B';

  g_autofree char *after = cw_design_to_text (design, NULL);
  g_assert_cmpstr (after, ==, before);
}

static void
test_path (void)
{
  CwPath path = { 0 };

  for (gint32 i = 0; i < 9; i++)
    cw_path_append (&path, cw_place_from_point (cw_point (i, -i), CW_UNIT_CM), i % 2 == 1);
  CwPath copy = cw_path_copy (&path);
  cw_path_append (&copy, cw_place_from_point (cw_point (9, -9), CW_UNIT_CM), FALSE);
  cw_path_clear (&path);
  g_assert_cmpuint (path.n_vertices, ==, 0);
  g_assert_null (path.vertices);
  g_assert_cmpuint (copy.n_vertices, ==, 10);
  for (gint32 i = 0; i < 10; i++)
    {
      g_assert_true (cw_point_equal (cw_place_get_point (&copy.vertices[i].at), cw_point (i, -i)));
      g_assert_cmpint (copy.vertices[i].at.x.unit, ==, CW_UNIT_CM);
      g_assert_cmpint (copy.vertices[i].through, ==, i % 2 == 1 && i < 9);
    }
  cw_path_clear (&copy);
}

static gpointer
ref_often (gpointer data)
{
  for (guint i = 0; i < 20000; i++)
    cw_design_unref (cw_design_ref (data));
  return NULL;
}

static void
test_threads (void)
{
  g_autoptr (CwDesign) design = read_kite ();
  GThread *threads[4];

  for (guint i = 0; i < G_N_ELEMENTS (threads); i++)
    threads[i] = g_thread_new (NULL, ref_often, design);
  for (guint i = 0; i < G_N_ELEMENTS (threads); i++)
    g_thread_join (threads[i]);
  g_assert_cmpstr (design->head->title, ==, "Kite");
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/design/look-up/by-id-and-address", test_look_up);
  g_test_add_func ("/design/look-up/ground", test_ground);
  g_test_add_func ("/design/id/free", test_free_id);
  g_test_add_func ("/design/copy/shares-nothing", test_copy);
  g_test_add_func ("/design/path/append-and-copy", test_path);
  g_test_add_func ("/design/ref/from-several-threads", test_threads);
  return g_test_run ();
}
