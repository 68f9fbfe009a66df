/* test-arrange.c: several marks selected, copied, mirrored, turned, spread, repeated and lined up; and when each action
 * of the table can be used, as a table.
 *
 * The table is written from the meaning of the words (there is nothing to copy where no mark is selected, two marks are
 * too few to spread), not from the code.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "table-test.h"

static const CwTableState states[] = {
  { .ready = FALSE, .can_paste = TRUE },
  { .ready = TRUE },
  { .ready = TRUE, .can_paste = TRUE, .offer = TRUE, .n_marks = 1, .n_here = 1, .n_forms = 2 },
  { .ready = TRUE, .n_marks = 3, .n_scores = 1, .n_here = 3 },
  { .ready = TRUE, .n_marks = 2, .n_scores = 2, .n_here = 0 },
  { .ready = TRUE, .n_zones = 1, .glue_meant = TRUE, .glued = TRUE },
  { .ready = TRUE, .n_art = 1 },
  { .ready = TRUE, .panel = TRUE, .glue_meant = TRUE },
  { .ready = TRUE,
    .panel = TRUE,
    .layer = TRUE,
    .removable = TRUE,
    .glue_meant = TRUE,
    .glued = TRUE,
    .glue_tool = TRUE,
    .n_forms = 3 },
};

/* Columns: nothing on the table; nothing selected; a cut just drawn that offers a flip, text on the clipboard; three
 * marks of this piece, one of them a score; two scores of another piece; glue; a picture; a panel of the base without
 * glue; a panel of a layer, glued, with the glue tool at hand. */
static const struct
{
  const char *name, *enabled;
} table[] = {
  { "other-edge", "- + + + + + + + +" },   { "next-form", "- - + - - - - - +" },
  { "tool", "- + + + + + + + +" },         { "form", "- - + - - - - - +" },
  { "bigger", "- + + + + + + + +" },       { "share", "- + + + + + + + +" },
  { "turn", "- + + + + + + + +" },         { "turn-back", "- + + + + + + + +" },
  { "flip", "- + + + + + + + +" },         { "look", "- + + + + + + + +" },
  { "zoom-in", "- + + + + + + + +" },      { "zoom-out", "- + + + + + + + +" },
  { "zoom-fit", "- + + + + + + + +" },     { "piece", "- + + + + + + + +" },
  { "select-all", "- + + + + + + + +" },   { "select-none", "- + + + + + + + +" },
  { "finish", "- + + + + + + + +" },       { "cancel", "- + + + + + + + +" },
  { "menu", "- + + + + + + + +" },         { "nudge", "- + + + + + + + +" },
  { "delete", "- - + + + + + - -" },       { "swap-way", "- - - + + - - - -" },
  { "way", "- - - + + - - - -" },          { "made", "- - - + + - - - -" },
  { "copy", "- - + + - - - - -" },         { "cut", "- - + + - - - - -" },
  { "paste", "- - + - - - - - -" },        { "mirror", "- - + + - - - - -" },
  { "mirror-copy", "- - + + - - - - -" },  { "turn-marks", "- - + + - - - - -" },
  { "spread", "- - - + - - - - -" },       { "align", "- - + + - - - - -" },
  { "align-to", "- - - + - - - - -" },     { "repeat", "- - + + - - - - -" },
  { "hold", "- - - - - - - + +" },         { "rename", "- - - - - - - + +" },
  { "lay-piece", "- - - - - - - + +" },    { "divide", "- - - - - - - + +" },
  { "set-rim", "- - - - - - - - +" },      { "remove-piece", "- - - - - - - - +" },
  { "words", "- - - - - - + - -" },        { "turn-art", "- - - - - - + - -" },
  { "glue-kind", "- - - - - + - - +" },    { "accept-offer", "- - + - - - - - -" },
  { "refuse-offer", "- - + - - - - - -" }, { "glue", "- - - - - + - + +" },
  { "glue-lay", "- - - - - + - + +" },     { "glue-off", "- - - - - + - - +" },
  { "glue-map", "- + + + + + + + +" },
};

static void
when_each_can_be_used (Fixture *f, gconstpointer data)
{
  g_auto (GStrv) names = g_action_group_list_actions (cw_table_get_actions (f->table));

  for (guint i = 0; i < G_N_ELEMENTS (table); i++)
    {
      g_autoptr (GString) got = g_string_new (NULL);

      for (guint j = 0; j < G_N_ELEMENTS (states); j++)
        g_string_append_printf (got, "%s%c", j > 0 ? " " : "",
                                cw_table_action_is_enabled (table[i].name, &states[j]) ? '+' : '-');
      g_test_message ("%s", table[i].name);
      g_assert_cmpstr (got->str, ==, table[i].enabled);
      g_assert_true (g_strv_contains ((const char *const *) names, table[i].name));
    }
  /* None is forgotten. */
  for (guint i = 0; names[i] != NULL; i++)
    {
      guint k = 0;

      while (k < G_N_ELEMENTS (table) && !g_str_equal (table[k].name, names[i]))
        k++;
      g_test_message ("%s", names[i]);
      g_assert_cmpuint (k, <, G_N_ELEMENTS (table));
    }
}

/* The facts are read from what is selected. */
static void
the_facts_follow_the_selection (Fixture *f, gconstpointer data)
{
  GActionGroup *actions = cw_table_get_actions (f->table);

  g_assert_false (g_action_group_get_action_enabled (actions, "copy"));
  g_assert_false (g_action_group_get_action_enabled (actions, "hold"));
  click (f, 7.5, 2);
  g_assert_true (g_action_group_get_action_enabled (actions, "copy"));
  g_assert_false (g_action_group_get_action_enabled (actions, "swap-way")); /* a cut does not fold */
  g_assert_false (g_action_group_get_action_enabled (actions, "spread"));
  act (f, "select-all");
  g_assert_true (g_action_group_get_action_enabled (actions, "swap-way"));
  g_assert_true (g_action_group_get_action_enabled (actions, "align-to"));
  g_assert_false (g_action_group_get_action_enabled (actions, "spread"));
  click (f, 2, 3);
  g_assert_false (g_action_group_get_action_enabled (actions, "copy"));
  g_assert_true (g_action_group_get_action_enabled (actions, "hold"));
  g_assert_false (g_action_group_get_action_enabled (actions, "remove-piece")); /* the card needs its base */
}

static guint
n_selected (Fixture *f)
{
  guint n;

  cw_document_get_selection (f->document, &n);
  return n;
}

static void
click_with (Fixture *f, double x_in, double y_in, GdkModifierType state)
{
  GtkEventController *hand = controller (f, "hand");
  double x, y;

  place (f, x_in, y_in, &x, &y);
  cw_document_analyse_now (f->document);
  g_signal_emit_by_name (hand, "drag-begin", x, y);
  f->table->state = state;
  g_signal_emit_by_name (hand, "drag-end", 0.0, 0.0);
}

static void
several_by_shift_or_ctrl_or_a_box (Fixture *f, gconstpointer data)
{
  click (f, 7.5, 2);
  click_with (f, 5, 4, GDK_CONTROL_MASK);
  g_assert_cmpuint (n_selected (f), ==, 2);
  click_with (f, 5, 4, GDK_SHIFT_MASK);
  g_assert_cmpuint (n_selected (f), ==, 1);
  /* A box over the slit touches it alone; one over both takes both; one over bare paper none. */
  drag (f, 6, 1, 7.5, 3);
  g_assert_cmpuint (n_selected (f), ==, 1);
  g_assert_true (cw_table_is_selected (f->table, (CwId){ CW_ID_MARK, 0, 1, 0 }));
  drag (f, 4, 1, 7.5, 3);
  g_assert_cmpuint (n_selected (f), ==, 2);
  drag (f, 1, 1, 2, 2);
  g_assert_cmpuint (n_selected (f), ==, 0);
  g_assert_null (cw_document_get_undo_name (f->document));
}

static const CwMark *
slit (Fixture *f)
{
  return g_ptr_array_index (marks (f), 1);
}

/* The slit runs from (7, 2) to (8, 2): across the upright middle it comes to lie the other way round in its own place,
 * a quarter turn stands it up about (7 1/2, 2). */
static void
mirrored_and_turned (Fixture *f, gconstpointer data)
{
  click (f, 7.5, 2);
  act (f, "mirror::across");
  assert_vertex (slit (f), 0, 8, 2);
  assert_vertex (slit (f), 1, 7, 2);
  act (f, "mirror::down");
  g_assert_nonnull (f->said); /* a level line is its own mirror image */
  act (f, "turn-marks(1)");
  assert_vertex (slit (f), 0, 7.5, 2.5);
  assert_vertex (slit (f), 1, 7.5, 1.5);
  act (f, "turn-marks(3)");
  assert_vertex (slit (f), 0, 8, 2);
  act (f, "mirror-copy::across");
  g_assert_cmpuint (marks (f)->len, ==, 3);
  assert_vertex (g_ptr_array_index (marks (f), 2), 0, 2, 2);
  assert_vertex (g_ptr_array_index (marks (f), 2), 1, 3, 2);
  g_assert_cmpuint (n_selected (f), ==, 1);
}

/* On a sheet turned a quarter clockwise its left edge lies at the top. */
static void
lined_up_as_it_lies (Fixture *f, gconstpointer data)
{
  click (f, 7.5, 2);
  act (f, "align::left");
  assert_vertex (slit (f), 0, 0, 2);
  act (f, "align::middle-across");
  assert_vertex (slit (f), 0, 4.5, 2);
  act (f, "turn");
  settle (f);
  act (f, "align::top");
  assert_vertex (slit (f), 0, 0, 2);
  act (f, "align::right");
  assert_vertex (slit (f), 0, 0, 0);
  act (f, "turn-back");
  settle (f);
  click (f, 5, 3); /* the spine first: it is what the others are lined up with */
  click_with (f, 0.5, 0, GDK_SHIFT_MASK);
  act (f, "align-to::left");
  assert_vertex (slit (f), 0, 5, 0);
  assert_vertex (g_ptr_array_index (marks (f), 0), 0, 5, 0);
}

static void
repeated_at_a_distance (Fixture *f, gconstpointer data)
{
  click (f, 7.5, 2);
  act (f, "repeat");
  gtk_editable_set_text (GTK_EDITABLE (f->table->repeat_distance), "3/4 in");
  gtk_drop_down_set_selected (GTK_DROP_DOWN (f->table->repeat_way), 2);
  gtk_spin_button_set_value (GTK_SPIN_BUTTON (f->table->repeat_times), 3);
  g_signal_emit_by_name (f->table->repeat_distance, "activate");
  g_assert_cmpuint (marks (f)->len, ==, 5);
  assert_vertex (g_ptr_array_index (marks (f), 4), 0, 7, 4.25);
  g_assert_cmpuint (n_selected (f), ==, 3);
  /* From 2 3/4 to 4 1/4 in, the middle one brought out of step and spread again to 3 1/2. */
  click (f, 7.5, 3.5);
  act (f, "nudge((0,1))");
  assert_vertex (g_ptr_array_index (marks (f), 3), 0, 7, 3.5 + 1 / 16.0);
  drag (f, 6, 2.5, 9, 4.5);
  g_assert_cmpuint (n_selected (f), ==, 3);
  act (f, "spread");
  assert_vertex (g_ptr_array_index (marks (f), 3), 0, 7, 3.5);
  for (int i = 0; i < 3; i++)
    g_assert_true (cw_document_undo (f->document));
  click (f, 7.5, 2);
  act (f, "repeat");
  gtk_spin_button_set_value (GTK_SPIN_BUTTON (f->table->repeat_times), 40);
  g_signal_emit_by_name (f->table->repeat_distance, "activate");
  g_assert_cmpuint (marks (f)->len, ==, 2);
  g_assert_nonnull (f->said);
}

static void
a_panel_is_divided_evenly (Fixture *f, gconstpointer data)
{
  click (f, 2, 3);
  act (f, "divide((4,true))");
  g_assert_cmpuint (marks (f)->len, ==, 5);
  for (guint i = 0; i < 3; i++)
    assert_vertex (g_ptr_array_index (marks (f), 2 + i), 0, 1.25 * (i + 1), 0);
}

static gboolean
has_three (gpointer data)
{
  return marks (data)->len == 3;
}

static gboolean
second_has_one (gpointer data)
{
  Fixture *f = data;

  return ((CwPiece *) g_ptr_array_index (cw_document_get_design (f->document)->pieces, 1))->marks->len == 1;
}

static void
wait_for (Fixture *f, gboolean (*done) (gpointer data))
{
  gint64 end = g_get_monotonic_time () + 5 * G_USEC_PER_SEC;

  while (!done (f) && g_get_monotonic_time () < end)
    g_main_context_iteration (NULL, FALSE);
  g_assert_true (done (f));
}

static void
copied_from_piece_to_piece (Fixture *f, gconstpointer data)
{
  const CwPiece *layer;

  click (f, 2, 3);
  act (f, "lay-piece::1/8 in");
  settle (f);
  click (f, 7.5, 2);
  act (f, "copy");
  g_assert_true (g_action_group_get_action_enabled (cw_table_get_actions (f->table), "paste"));
  act (f, "paste");
  wait_for (f, has_three);
  /* Not on top of the first: four sixteenths to the right and down, and selected. */
  assert_vertex (g_ptr_array_index (marks (f), 2), 0, 7.25, 2.25);
  g_assert_true (cw_table_is_selected (f->table, (CwId){ CW_ID_MARK, 0, 2, 0 }));
  act (f, "cut");
  g_assert_cmpuint (marks (f)->len, ==, 2);
  cw_document_set_piece (f->document, 1);
  settle (f);
  act (f, "paste");
  wait_for (f, second_has_one);
  /* As far right as the layer, 4 3/4 in wide, lets a line of 1 in lie. */
  layer = g_ptr_array_index (cw_document_get_design (f->document)->pieces, 1);
  g_assert_cmpint (cw_place_get_point (&((CwMark *) g_ptr_array_index (layer->marks, 0))->line.vertices[1].at).x, ==,
                   19 * IN / 4);
  settle (f);
}

#define ADD(path, test, marks) TABLE_TEST ("arrange/" path, test, marks)

int
main (int argc, char **argv)
{
  const int with = 1;

  if (!table_test_init (&argc, &argv))
    return 0;
  ADD ("when-each-can-be-used", when_each_can_be_used, NULL);
  ADD ("the-facts-follow-the-selection", the_facts_follow_the_selection, &with);
  ADD ("several-by-shift-or-ctrl-or-a-box", several_by_shift_or_ctrl_or_a_box, &with);
  ADD ("mirrored-and-turned", mirrored_and_turned, &with);
  ADD ("lined-up-as-it-lies", lined_up_as_it_lies, &with);
  ADD ("repeated-at-a-distance", repeated_at_a_distance, &with);
  ADD ("a-panel-is-divided-evenly", a_panel_is_divided_evenly, &with);
  ADD ("copied-from-piece-to-piece", copied_from_piece_to_piece, &with);
  return g_test_run ();
}
