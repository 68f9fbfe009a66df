/* test-table.c: the table driven as a hand would: gestures, keys' actions and items, on a shown window.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "table-test.h"

/* ---- Drawing ---- */

static void
drag_draws_a_score (Fixture *f, gconstpointer data)
{
  const CwMark *mark;

  act (f, "tool::score");
  drag (f, 5.01, 0.02, 5.04, 5.97);
  g_assert_cmpuint (marks (f)->len, ==, 1);
  mark = g_ptr_array_index (marks (f), 0);
  g_assert_cmpint (mark->kind, ==, CW_MARK_SCORE);
  assert_vertex (mark, 0, 5, 0);
  assert_vertex (mark, 1, 5, 6);
  settle (f);
  g_assert_cmpuint (f->table->analysis->panels->maps[0].panels->len, ==, 2);
  g_assert_cmpuint (f->table->moving->len, ==, 0);
  g_assert_true (cw_document_undo (f->document));
  g_assert_cmpuint (marks (f)->len, ==, 0);
  g_assert_null (cw_document_get_undo_name (f->document));
}

/* Drawing alone makes a card: the score has brought the step that folds it, and pulling the panel moves it. */
static void
a_drawn_score_folds (Fixture *f, gconstpointer data)
{
  double box[4], x, y;

  act (f, "tool::score");
  drag (f, 5, 0, 5, 6);
  settle (f);
  g_assert_cmpuint (cw_document_get_design (f->document)->steps->len, >, 0);
  cw_document_set_moment (f->document, -1, 0);
  settle (f);
  /* One of the two panels stays still, the other can be pulled. */
  for (guint i = 0; i < 2; i++)
    if (i != cw_motion_get_held (f->table->analysis->motion))
      {
        g_assert_true (cw_draw_list_get_box (f->table->card_list, (CwId){ CW_ID_PANEL, 0, i, 0 }, box)
                       || cw_draw_list_get_box (f->table->card_list, (CwId){ CW_ID_PANEL, 0, i, 1 }, box));
        x = (box[0] + box[2]) / 2;
        y = (box[1] + box[3]) / 2;
        drag_pixels (f, x, y, x + 5, y - 120);
      }
  g_assert_cmpint (cw_document_get_step (f->document), >=, 0);
  g_assert_cmpfloat (cw_document_get_fraction (f->document), >, 0.05);
}

static void
clicks_draw_a_cornered_cut (Fixture *f, gconstpointer data)
{
  const CwMark *mark;

  act (f, "tool::cut");
  click (f, 6, 2);
  click (f, 8, 2.02);
  click (f, 8.03, 4);
  g_assert_cmpuint (marks (f)->len, ==, 0);
  act (f, "finish");
  g_assert_cmpuint (marks (f)->len, ==, 1);
  mark = g_ptr_array_index (marks (f), 0);
  g_assert_cmpint (mark->kind, ==, CW_MARK_CUT);
  g_assert_cmpuint (mark->line.n_vertices, ==, 3);
  assert_vertex (mark, 0, 6, 2);
  assert_vertex (mark, 1, 8, 2);
  assert_vertex (mark, 2, 8, 4);
}

static void
a_cut_back_to_its_start_is_a_window (Fixture *f, gconstpointer data)
{
  const CwMark *mark;

  act (f, "tool::cut");
  click (f, 2, 2);
  click (f, 4, 2);
  click (f, 3, 4);
  click (f, 2, 2);
  g_assert_cmpuint (marks (f)->len, ==, 1);
  mark = g_ptr_array_index (marks (f), 0);
  g_assert_cmpint (mark->kind, ==, CW_MARK_WINDOW);
  g_assert_cmpuint (mark->line.n_vertices, ==, 3);
}

static void
a_window_without_area_is_not_made (Fixture *f, gconstpointer data)
{
  act (f, "tool::window");
  click (f, 2, 2);
  click (f, 2, 4); /* straight down: no area yet */
  act (f, "finish");
  g_assert_cmpuint (marks (f)->len, ==, 0);
  click (f, 2, 2);
  act (f, "tool::score");
  g_assert_cmpuint (marks (f)->len, ==, 0);
  g_assert_null (f->said);
}

static gboolean
type (Fixture *f, guint key)
{
  gboolean taken = FALSE;

  g_signal_emit_by_name (controller (f, "typing"), "key-pressed", key, 0, 0, &taken);
  return taken;
}

static void
took (CwTable *table, const char *text, GString *all)
{
  g_string_append_printf (all, "%s;", text);
}

/* What a maker types for the measure line does not turn or change anything on the table. */
static void
typing_goes_to_the_measure_line (Fixture *f, gconstpointer data)
{
  g_autoptr (GString) all = g_string_new (NULL);

  g_signal_connect (f->table, "typed", G_CALLBACK (took), all);
  gtk_widget_grab_focus (GTK_WIDGET (f->table));
  g_assert_false (type (f, GDK_KEY_r)); /* a key of the table */
  g_assert_false (type (f, GDK_KEY_s)); /* the score tool, or the first letter of a word */
  act (f, "tool::score");
  g_assert_true (type (f, GDK_KEY_c));
  g_assert_cmpstr (all->str, ==, "sc;");
  g_assert_cmpint (f->table->tool, ==, CW_TOOL_SELECT);
  g_assert_true (type (f, GDK_KEY_4));
  g_assert_cmpstr (all->str, ==, "sc;4;");
}

static void
a_double_click_ends_a_cut (Fixture *f, gconstpointer data)
{
  double x, y;

  act (f, "tool::cut");
  click (f, 2, 2);
  click (f, 4, 2);
  click (f, 4, 3);
  place (f, 4, 3, &x, &y);
  /* The second press of the pair: as GTK tells it, the click gesture before or after the drag gesture. */
  g_signal_emit_by_name (controller (f, "hand"), "drag-begin", x, y);
  cw_table_finish_line (f->table);
  g_signal_emit_by_name (controller (f, "hand"), "drag-end", 0.0, 0.0);
  g_assert_cmpuint (marks (f)->len, ==, 1);
  g_assert_cmpuint (((CwMark *) g_ptr_array_index (marks (f), 0))->line.n_vertices, ==, 3);
  g_assert_cmpuint (f->table->n_points, ==, 0);
}

static void
drag_draws_a_window (Fixture *f, gconstpointer data)
{
  const CwMark *mark;

  act (f, "tool::window");
  drag (f, 2, 1, 3.5, 3.25);
  g_assert_cmpuint (marks (f)->len, ==, 1);
  mark = g_ptr_array_index (marks (f), 0);
  g_assert_cmpint (mark->shape, ==, CW_SHAPE_RECT);
  assert_vertex (mark, 0, 2, 1);
  assert_vertex (mark, 1, 3.5, 3.25);
}

static void
escape_leaves_the_line_then_the_tool (Fixture *f, gconstpointer data)
{
  act (f, "tool::cut");
  click (f, 6, 2);
  click (f, 8, 2);
  act (f, "cancel");
  g_assert_cmpuint (marks (f)->len, ==, 0);
  g_assert_cmpint (f->table->tool, ==, CW_TOOL_CUT);
  act (f, "cancel");
  g_assert_cmpint (f->table->tool, ==, CW_TOOL_SELECT);
}

/* ---- Selecting and moving ---- */

static void
click_selects (Fixture *f, gconstpointer data)
{
  guint n;
  const CwId *ids;

  click (f, 7.5, 2.03);
  ids = cw_document_get_selection (f->document, &n);
  g_assert_cmpuint (n, ==, 1);
  g_assert_cmpint (ids[0].kind, ==, CW_ID_MARK);
  g_assert_cmpuint (ids[0].index, ==, 1);
  click (f, 2, 3);
  ids = cw_document_get_selection (f->document, &n);
  g_assert_cmpuint (n, ==, 1);
  g_assert_cmpint (ids[0].kind, ==, CW_ID_PANEL);
  act (f, "cancel");
  cw_document_get_selection (f->document, &n);
  g_assert_cmpuint (n, ==, 0);
}

/* Moved by 0.49 in along and a little askew: by 1/2 in and level, as one edit. */
static void
drag_moves_a_mark (Fixture *f, gconstpointer data)
{
  drag (f, 7.5, 2, 7.99, 2.03);
  assert_vertex (g_ptr_array_index (marks (f), 1), 0, 7.5, 2);
  assert_vertex (g_ptr_array_index (marks (f), 1), 1, 8.5, 2);
  g_assert_true (cw_document_undo (f->document));
  assert_vertex (g_ptr_array_index (marks (f), 1), 0, 7, 2);
  g_assert_null (cw_document_get_undo_name (f->document));
}

static void
an_end_can_be_pulled (Fixture *f, gconstpointer data)
{
  click (f, 7.5, 2);
  settle (f);
  drag (f, 8, 2, 9.01, 2.02);
  assert_vertex (g_ptr_array_index (marks (f), 1), 0, 7, 2);
  assert_vertex (g_ptr_array_index (marks (f), 1), 1, 9, 2);
}

static void
escape_puts_a_moving_mark_back (Fixture *f, gconstpointer data)
{
  GtkEventController *hand = controller (f, "hand");
  double x, y;

  place (f, 7.5, 2, &x, &y);
  g_signal_emit_by_name (hand, "drag-begin", x, y);
  g_signal_emit_by_name (hand, "drag-update", 60.0, 0.0);
  g_assert_cmpuint (f->table->moving->len, ==, 1);
  act (f, "cancel");
  g_signal_emit_by_name (hand, "drag-end", 60.0, 0.0);
  assert_vertex (g_ptr_array_index (marks (f), 1), 0, 7, 2);
  g_assert_null (cw_document_get_undo_name (f->document));
}

/* Arrow keys go where they are seen: on a sheet turned a quarter clockwise, right is what was up. */
static void
arrows_move_by_the_step_as_seen (Fixture *f, gconstpointer data)
{
  click (f, 7.5, 2);
  act (f, "nudge((1,0))");
  assert_vertex (g_ptr_array_index (marks (f), 1), 0, 7 + 1 / 16.0, 2);
  act (f, "turn");
  settle (f);
  act (f, "nudge((1,0))");
  assert_vertex (g_ptr_array_index (marks (f), 1), 0, 7 + 1 / 16.0, 2 - 1 / 16.0);
}

static void
marks_turn_and_go (Fixture *f, gconstpointer data)
{
  click (f, 5, 4);
  g_assert_true (g_action_group_get_action_enabled (cw_table_get_actions (f->table), "swap-way"));
  act (f, "swap-way");
  g_assert_cmpint (((CwMark *) g_ptr_array_index (marks (f), 0))->fold, ==, CW_FOLD_AWAY);
  act (f, "way::none");
  g_assert_cmpint (((CwMark *) g_ptr_array_index (marks (f), 0))->fold, ==, CW_FOLD_NONE);
  act (f, "made::press");
  g_assert_cmpint (((CwMark *) g_ptr_array_index (marks (f), 0))->made, ==, CW_MADE_PRESS);
  act (f, "delete");
  g_assert_cmpuint (marks (f)->len, ==, 1);
  g_assert_true (cw_document_undo (f->document));
  g_assert_cmpuint (marks (f)->len, ==, 2);
}

static void
select_all_then_delete_is_one_edit (Fixture *f, gconstpointer data)
{
  act (f, "select-all");
  act (f, "delete");
  g_assert_cmpuint (marks (f)->len, ==, 0);
  g_assert_true (cw_document_undo (f->document));
  g_assert_cmpuint (marks (f)->len, ==, 2);
  g_assert_null (cw_document_get_undo_name (f->document));
}

static void
a_panel_can_be_held_and_named (Fixture *f, gconstpointer data)
{
  const CwPiece *piece;

  click (f, 8, 5);
  act (f, "hold");
  settle (f);
  piece = cw_table_get_piece (f->table);
  g_assert_true (piece->has_hold);
  g_assert_cmpint (piece->hold.x.ticks, >, 5 * IN);
  g_assert_nonnull (f->said);
  act (f, "rename");
  gtk_editable_set_text (GTK_EDITABLE (gtk_popover_get_child (GTK_POPOVER (f->table->entry_popover))), " back ");
  g_signal_emit_by_name (gtk_popover_get_child (GTK_POPOVER (f->table->entry_popover)), "activate");
  settle (f);
  piece = cw_table_get_piece (f->table);
  g_assert_cmpuint (piece->names->len, ==, 1);
  g_assert_cmpstr (((CwName *) g_ptr_array_index (piece->names, 0))->name, ==, "back");
}

static void
a_piece_can_be_laid_on_a_panel (Fixture *f, gconstpointer data)
{
  click (f, 2, 3);
  act (f, "lay-piece::1/8 in");
  settle (f);
  g_assert_cmpuint (cw_document_get_design (f->document)->pieces->len, ==, 2);
  /* The panel is 5 x 6 in, so with a rim of 1/8 in all round the piece is 4 3/4 x 5 3/4 in. */
  g_assert_cmpint (f->table->analysis->panels->maps[1].box_max.x, ==, 19 * IN / 4);
  g_assert_cmpint (f->table->analysis->panels->maps[1].box_max.y, ==, 23 * IN / 4);
  g_assert_true (gtk_widget_get_visible (f->table->piece_window));
}

/* ---- The table ---- */

static void
pulling_a_panel_folds_it (Fixture *f, gconstpointer data)
{
  double box[4], x, y, fraction;
  guint moving = cw_motion_get_held (f->table->analysis->motion) == 0 ? 1 : 0;

  cw_document_set_moment (f->document, 0, 0);
  settle (f);
  g_assert_true (cw_draw_list_get_box (f->table->card_list, (CwId){ CW_ID_PANEL, 0, moving, 0 }, box));
  x = (box[0] + box[2]) / 2;
  y = (box[1] + box[3]) / 2;
  drag_pixels (f, x, y, x + 5, y - 110);
  fraction = cw_document_get_fraction (f->document);
  g_assert_cmpint (cw_document_get_step (f->document), ==, 0);
  g_assert_cmpfloat (fraction, >, 0.05);
  g_assert_cmpuint (marks (f)->len, ==, 2);
  g_assert_null (cw_document_get_undo_name (f->document));
}

static void
the_bare_table_turns_the_card (Fixture *f, gconstpointer data)
{
  double yaw = f->table->camera.yaw, x = f->table->card_area.x + 8, y = f->table->card_area.y + 8;

  drag_pixels (f, x, y, x + 100, y);
  g_assert_cmpfloat (fabs (f->table->camera.yaw - yaw), >, 0.1);
}

static void
looks_show_the_finished_card (Fixture *f, gconstpointer data)
{
  g_object_set (gtk_settings_get_default (), "gtk-enable-animations", FALSE, NULL);
  act (f, "look::front");
  g_assert_cmpint (cw_document_get_step (f->document), ==, 0);
  g_assert_cmpfloat_with_epsilon (cw_document_get_fraction (f->document), 1, 1e-9);
  g_assert_cmpfloat_with_epsilon (f->table->camera.yaw, 0, 1e-9);
  act (f, "look::inside");
  g_assert_cmpint (cw_document_get_step (f->document), ==, 1);
  act (f, "look::back");
  g_assert_cmpint (cw_document_get_step (f->document), ==, 0);
  g_assert_cmpfloat_with_epsilon (fabs (f->table->camera.yaw), G_PI, 1e-9);
}

static void
both_are_always_in_view (Fixture *f, gconstpointer data)
{
  static const char *const shares[] = { "share::both", "share::sheet", "share::card" };

  for (guint i = 0; i < G_N_ELEMENTS (shares); i++)
    {
      double box[4];

      g_action_group_change_action_state (cw_table_get_actions (f->table), "share",
                                          g_variant_new_string (shares[i] + strlen ("share::")));
      settle (f);
      cw_hand_panel_box (&f->table->view, cw_table_get_map (f->table), G_MAXUINT, box);
      g_assert_cmpfloat (box[2] - box[0], >, 150);
      g_assert_cmpfloat (box[2], <=, f->table->sheet_area.x + f->table->sheet_area.width);
      cw_draw_list_get_extents (f->table->card_list, box);
      g_assert_cmpfloat (box[2] - box[0], >, 100);
      g_assert_cmpfloat (box[2], <=, gtk_widget_get_width (GTK_WIDGET (f->table)));
    }
}

static void
everything_has_an_item (Fixture *f, gconstpointer data)
{
  /* Two marks and two panels; the slit inside the right panel parts nothing. */
  g_assert_cmpuint (f->table->items->len, ==, 4);
  for (guint i = 0; i < f->table->items->len; i++)
    {
      GtkWidget *item = g_ptr_array_index (f->table->items, i);

      gtk_test_accessible_assert_role (item, GTK_ACCESSIBLE_ROLE_LIST_ITEM);
      g_assert_true (gtk_widget_get_focusable (item));
      g_assert_false (gtk_widget_get_can_target (item));
    }
  gtk_test_accessible_assert_property (g_ptr_array_index (f->table->items, 0), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                       "Score spine, 5 in from the left, from 0 to 6 in, folds toward you");
  click (f, 7.5, 2);
  gtk_test_accessible_assert_state (g_ptr_array_index (f->table->items, 1), GTK_ACCESSIBLE_STATE_SELECTED, TRUE);
  gtk_test_accessible_assert_state (g_ptr_array_index (f->table->items, 0), GTK_ACCESSIBLE_STATE_SELECTED, FALSE);
  gtk_widget_activate_action (g_ptr_array_index (f->table->items, 0), "item.swap-way", NULL);
  g_assert_cmpint (((CwMark *) g_ptr_array_index (marks (f), 0))->fold, ==, CW_FOLD_AWAY);
  gtk_widget_activate_action (g_ptr_array_index (f->table->items, 1), "item.delete", NULL);
  settle (f);
  g_assert_cmpuint (f->table->items->len, ==, 3);
}

static void
an_empty_table_does_nothing_wrong (Fixture *f, gconstpointer data)
{
  GActionGroup *actions = cw_table_get_actions (f->table);
  g_auto (GStrv) names = g_action_group_list_actions (actions);

  cw_table_set_document (f->table, NULL);
  for (guint i = 0; names[i] != NULL; i++)
    if (g_action_group_get_action_parameter_type (actions, names[i]) == NULL)
      g_action_group_activate_action (actions, names[i], NULL);
  drag_pixels (f, 200, 200, 300, 300);
  g_signal_emit_by_name (controller (f, "hover"), "motion", 300.0, 300.0);
  gtk_test_widget_wait_for_draw (GTK_WIDGET (f->table));
  cw_table_set_document (f->table, f->document);
  settle (f);
  g_assert_cmpuint (f->table->items->len, ==, 4);
}

/* Whatever the hand does, and whether or not the program has caught up, undoing it all gives back the same bytes, and
 * redoing it all the design as it was. Three hands, by fixed seeds. */
static void
a_wild_hand_can_be_undone (Fixture *f, gconstpointer data)
{
  static const char *const things[]
    = { "tool::select", "tool::score", "tool::cut",     "tool::window", "finish",   "cancel",   "turn",
        "flip",         "swap-way",    "nudge((1,0))",  "delete",       "zoom-in",  "zoom-fit", "hold",
        "select-all",   "look::table", "nudge((0,-1))", "share::sheet", "way::away" };
  g_autofree char *start = cw_design_to_text (cw_document_get_design (f->document), NULL);
  int width = gtk_widget_get_width (GTK_WIDGET (f->table)), height = gtk_widget_get_height (GTK_WIDGET (f->table));

  g_object_set (gtk_settings_get_default (), "gtk-enable-animations", FALSE, NULL);
  for (guint32 seed = 1; seed <= 3; seed++)
    {
      g_autoptr (GRand) rand = g_rand_new_with_seed (seed);
      g_autofree char *end = NULL, *back = NULL, *again = NULL;
      guint before;

      for (int i = 0; i < 70; i++)
        {
          if (g_rand_boolean (rand))
            act_now (f, things[g_rand_int_range (rand, 0, G_N_ELEMENTS (things))]);
          else
            {
              double x0 = g_rand_double_range (rand, 0, width), y0 = g_rand_double_range (rand, 0, height);
              double x1 = g_rand_double_range (rand, 0, width), y1 = g_rand_double_range (rand, 0, height);

              g_signal_emit_by_name (controller (f, "hover"), "motion", x1, y0);
              drag_now (f, x0, y0, x1, y1);
            }
          while (g_main_context_iteration (NULL, FALSE))
            ;
        }
      act_now (f, "cancel");
      end = cw_design_to_text (cw_document_get_design (f->document), NULL);
      before = marks (f)->len;
      while (cw_document_undo (f->document))
        ;
      back = cw_design_to_text (cw_document_get_design (f->document), NULL);
      g_assert_cmpstr (back, ==, start);
      while (cw_document_redo (f->document))
        ;
      again = cw_design_to_text (cw_document_get_design (f->document), NULL);
      g_assert_cmpstr (again, ==, end);
      g_test_message ("seed %u leaves %u marks", seed, before);
      while (cw_document_undo (f->document))
        ;
      settle (f);
    }
}

/* While the kernel is still at work nothing waits for it: a mark just drawn can be moved at once, a panel says so. */
static void
nothing_waits_for_the_kernel (Fixture *f, gconstpointer data)
{
  double x, y;

  act (f, "tool::cut");
  drag (f, 1, 3, 4, 3);
  g_assert_false (cw_document_is_analysed (f->document));
  act_now (f, "nudge((0,1))");
  act_now (f, "tool::select");
  assert_vertex (g_ptr_array_index (marks (f), 2), 0, 1, 3 + 1 / 16.0);
  place (f, 7.5, 2, &x, &y);
  drag_now (f, x, y, x, y);
  g_assert_true (cw_table_is_selected (f->table, (CwId){ CW_ID_MARK, 0, 1, 0 }));
  g_assert_false (cw_document_is_analysed (f->document));
  place (f, 2, 5, &x, &y);
  drag_now (f, x, y, x, y);
  g_assert_nonnull (f->said);
  settle (f);
  click (f, 2, 5);
  g_assert_true (cw_table_is_selected (f->table, (CwId){ CW_ID_PANEL, 0, 0, 0 }));
}

#define ADD(path, test, marks) TABLE_TEST ("table/" path, test, marks)

int
main (int argc, char **argv)
{
  const int with = 1;

  if (!table_test_init (&argc, &argv))
    return 0;
  ADD ("drag-draws-a-score", drag_draws_a_score, NULL);
  ADD ("a-drawn-score-folds", a_drawn_score_folds, NULL);
  ADD ("clicks-draw-a-cornered-cut", clicks_draw_a_cornered_cut, NULL);
  ADD ("a-cut-back-to-its-start-is-a-window", a_cut_back_to_its_start_is_a_window, NULL);
  ADD ("a-window-without-area-is-not-made", a_window_without_area_is_not_made, NULL);
  ADD ("typing-goes-to-the-measure-line", typing_goes_to_the_measure_line, NULL);
  ADD ("a-double-click-ends-a-cut", a_double_click_ends_a_cut, NULL);
  ADD ("drag-draws-a-window", drag_draws_a_window, NULL);
  ADD ("escape-leaves-the-line-then-the-tool", escape_leaves_the_line_then_the_tool, NULL);
  ADD ("click-selects", click_selects, &with);
  ADD ("drag-moves-a-mark", drag_moves_a_mark, &with);
  ADD ("an-end-can-be-pulled", an_end_can_be_pulled, &with);
  ADD ("escape-puts-a-moving-mark-back", escape_puts_a_moving_mark_back, &with);
  ADD ("arrows-move-by-the-step-as-seen", arrows_move_by_the_step_as_seen, &with);
  ADD ("marks-turn-and-go", marks_turn_and_go, &with);
  ADD ("select-all-then-delete-is-one-edit", select_all_then_delete_is_one_edit, &with);
  ADD ("a-panel-can-be-held-and-named", a_panel_can_be_held_and_named, &with);
  ADD ("a-piece-can-be-laid-on-a-panel", a_piece_can_be_laid_on_a_panel, &with);
  ADD ("pulling-a-panel-folds-it", pulling_a_panel_folds_it, &with);
  ADD ("the-bare-table-turns-the-card", the_bare_table_turns_the_card, &with);
  ADD ("looks-show-the-finished-card", looks_show_the_finished_card, &with);
  ADD ("both-are-always-in-view", both_are_always_in_view, &with);
  ADD ("everything-has-an-item", everything_has_an_item, &with);
  ADD ("an-empty-table-does-nothing-wrong", an_empty_table_does_nothing_wrong, &with);
  ADD ("nothing-waits-for-the-kernel", nothing_waits_for_the_kernel, &with);
  ADD ("a-wild-hand-can-be-undone", a_wild_hand_can_be_undone, &with);
  return g_test_run ();
}
