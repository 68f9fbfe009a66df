/* test-tools.c: what each tool draws, in each of its forms, and what is done with areas once they are there.
 *
 * Expected places are where the hand goes, brought to the sixteenths of the sheet's marks.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "table-test.h"

static const CwMark *
last_mark (Fixture *f)
{
  g_assert_cmpuint (marks (f)->len, >, 0);
  return g_ptr_array_index (marks (f), marks (f)->len - 1);
}

static CwDesign *
design_of (Fixture *f)
{
  return cw_document_get_design (f->document);
}

static void
tool (Fixture *f, const char *name, const char *form)
{
  g_action_group_change_action_state (cw_table_get_actions (f->table), "tool", g_variant_new_string (name));
  g_action_group_change_action_state (cw_table_get_actions (f->table), "form", g_variant_new_string (form));
}

static void
answer (Fixture *f, const char *text)
{
  GtkWidget *entry = gtk_popover_get_child (GTK_POPOVER (f->table->entry_popover));

  gtk_editable_set_text (GTK_EDITABLE (entry), text);
  g_signal_emit_by_name (entry, "activate");
  settle (f);
}

static void
assert_selected (Fixture *f, CwIdKind kind, guint index)
{
  guint n;
  const CwId *ids = cw_document_get_selection (f->document, &n);

  g_assert_cmpuint (n, ==, 1);
  g_assert_cmpint (ids[0].kind, ==, kind);
  g_assert_cmpuint (ids[0].index, ==, index);
}

/* Ends at (2, 3) and (4, 3); the hand at 2 3/4 is 1/4 above the chord. */
static void
an_arc_rises_to_the_hand (Fixture *f, gconstpointer data)
{
  const CwMark *mark;

  tool (f, "cut", "arc");
  drag (f, 2, 3, 4, 3.02);
  g_assert_cmpuint (marks (f)->len, ==, 0);
  click (f, 3.3, 2.76);
  mark = last_mark (f);
  g_assert_cmpint (mark->kind, ==, CW_MARK_CUT);
  g_assert_cmpuint (mark->line.n_vertices, ==, 3);
  assert_vertex (mark, 0, 2, 3);
  assert_vertex (mark, 1, 3, 2.75);
  assert_vertex (mark, 2, 4, 3);
  g_assert_true (mark->line.vertices[1].through);
  g_assert_cmpint (cw_hand_arc_depth (mark), ==, IN / 4);
}

/* A rise of half the chord is a half circle (Euclid, Elements III, definition of the diameter). */
static void
near_half_the_chord_it_is_half_round (Fixture *f, gconstpointer data)
{
  tool (f, "score", "arc");
  click (f, 2, 3);
  click (f, 4, 3);
  click (f, 3, 4.03);
  g_assert_cmpint (last_mark (f)->kind, ==, CW_MARK_SCORE);
  assert_vertex (last_mark (f), 1, 3, 4);
}

static void
an_arc_that_does_not_rise_is_straight (Fixture *f, gconstpointer data)
{
  tool (f, "cut", "arc");
  drag (f, 2, 3, 4, 3);
  click (f, 3, 3.005);
  g_assert_cmpuint (last_mark (f)->line.n_vertices, ==, 2);
}

static void
a_round_window_grows_from_its_middle (Fixture *f, gconstpointer data)
{
  const CwMark *mark;

  tool (f, "window", "round");
  drag (f, 3, 2, 3.76, 2);
  mark = last_mark (f);
  g_assert_cmpint (mark->shape, ==, CW_SHAPE_CIRCLE);
  g_assert_cmpint (mark->centre.x.ticks, ==, 3 * IN);
  g_assert_cmpint (mark->centre.y.ticks, ==, 2 * IN);
  g_assert_cmpint (mark->radius.ticks, ==, 3 * IN / 4);
}

static void
a_window_of_any_shape (Fixture *f, gconstpointer data)
{
  tool (f, "window", "corners");
  click (f, 2, 2);
  click (f, 4, 2);
  act (f, "finish");
  g_assert_cmpuint (marks (f)->len, ==, 0); /* two corners are no shape, and that is said */
  g_assert_nonnull (f->said);
  click (f, 2, 2);
  click (f, 4, 2);
  click (f, 4.5, 3.5);
  click (f, 2, 4);
  click (f, 2, 2);
  g_assert_cmpint (last_mark (f)->kind, ==, CW_MARK_WINDOW);
  g_assert_cmpuint (last_mark (f)->line.n_vertices, ==, 4);
  assert_vertex (last_mark (f), 2, 4.5, 3.5);
}

/* The left panel is 5 x 6 in; less 1/8 in all round it is 4 3/4 x 5 3/4. */
static void
assert_layer_of_panel (Fixture *f)
{
  const CwPanelMap *map;

  settle (f);
  g_assert_cmpuint (design_of (f)->pieces->len, ==, 2);
  map = &f->table->analysis->panels->maps[1];
  g_assert_cmpint (map->box_max.x - map->box_min.x, ==, 19 * IN / 4);
  g_assert_cmpint (map->box_max.y - map->box_min.y, ==, 23 * IN / 4);
  assert_selected (f, CW_ID_PANEL, 0);
}

static void
a_layer_is_laid_on_a_panel_of_the_sheet (Fixture *f, gconstpointer data)
{
  tool (f, "layer", "panel");
  click (f, 2, 3);
  assert_layer_of_panel (f);
  act (f, "set-rim::1/4 in");
  settle (f);
  g_assert_cmpint (f->table->analysis->panels->maps[1].box_max.x, ==, 9 * IN / 2);
}

static void
a_layer_is_laid_on_a_panel_of_the_card (Fixture *f, gconstpointer data)
{
  double box[4];
  const CwStep *stick = NULL;

  cw_document_set_moment (f->document, 1, 1);
  act (f, "look::inside");
  settle (f);
  g_assert_true (cw_draw_list_get_box (f->table->card_list, (CwId){ CW_ID_PANEL, 0, 0, 0 }, box));
  tool (f, "layer", "panel");
  drag_pixels (f, (box[0] + box[2]) / 2, (box[1] + box[3]) / 2, (box[0] + box[2]) / 2, (box[1] + box[3]) / 2);
  assert_layer_of_panel (f);
  for (guint i = 0; i < design_of (f)->steps->len; i++)
    if (((CwStep *) g_ptr_array_index (design_of (f)->steps, i))->what == CW_DO_STICK)
      stick = g_ptr_array_index (design_of (f)->steps, i);
  g_assert_nonnull (stick);
  g_assert_cmpint (stick->on_face, ==, CW_FACE_FRONT);
}

static void
a_layer_of_any_size_needs_paper_under_it (Fixture *f, gconstpointer data)
{
  tool (f, "window", "box");
  drag (f, 1, 1, 4, 4);
  settle (f);
  tool (f, "layer", "box");
  drag (f, 2, 2, 3, 3);
  g_assert_cmpuint (design_of (f)->pieces->len, ==, 1);
  g_assert_nonnull (f->said);
  drag (f, 6, 3, 8, 5.5);
  settle (f);
  g_assert_cmpuint (design_of (f)->pieces->len, ==, 2);
  g_assert_cmpint (f->table->analysis->panels->maps[1].box_max.x, ==, 2 * IN);
  g_assert_cmpint (f->table->analysis->panels->maps[1].box_max.y, ==, 5 * IN / 2);
}

static void
glue_is_drawn_on_the_side_that_is_up (Fixture *f, gconstpointer data)
{
  const CwGlue *glue;

  tool (f, "glue", "box");
  drag (f, 1, 1, 3, 2);
  glue = g_ptr_array_index (design_of (f)->glue, 0);
  g_assert_cmpint (glue->face, ==, CW_FACE_FRONT);
  g_assert_cmpuint (glue->area.n_vertices, ==, 4);
  assert_selected (f, CW_ID_ZONE, 0);
  act (f, "flip");
  settle (f);
  drag (f, 6, 1, 8, 2);
  glue = g_ptr_array_index (design_of (f)->glue, 1);
  g_assert_cmpint (glue->face, ==, CW_FACE_BACK);
  act (f, "glue-kind::foam");
  glue = g_ptr_array_index (design_of (f)->glue, 1);
  g_assert_cmpint (glue->kind, ==, CW_GLUE_FOAM);
  g_assert_true (glue->has_height);
}

static GPtrArray *
art (Fixture *f)
{
  return ((CwPiece *) g_ptr_array_index (design_of (f)->pieces, 0))->art;
}

static void
a_picture_area_asks_for_its_words (Fixture *f, gconstpointer data)
{
  const CwArt *one;

  tool (f, "picture", "box");
  drag (f, 1, 1, 3, 2.5);
  g_assert_cmpuint (art (f)->len, ==, 1);
  answer (f, "  Well done ");
  one = g_ptr_array_index (art (f), 0);
  g_assert_cmpstr (one->label, ==, "Well done");
  g_assert_cmpint (one->box[1].y.ticks, ==, 5 * IN / 2);
  act (f, "turn-art");
  one = g_ptr_array_index (art (f), 0);
  g_assert_cmpfloat_with_epsilon (one->up, 90, 1e-9);
}

static void
a_panel_is_named_by_pointing_at_it (Fixture *f, gconstpointer data)
{
  const CwPiece *piece;

  tool (f, "name", "panel");
  click (f, 2, 3);
  answer (f, "cover");
  piece = cw_table_get_piece (f->table);
  g_assert_cmpuint (piece->names->len, ==, 1);
  g_assert_cmpstr (((CwName *) g_ptr_array_index (piece->names, 0))->name, ==, "cover");
  g_assert_cmpint (cw_place_get_point (&((CwName *) g_ptr_array_index (piece->names, 0))->at).x, <, 5 * IN);
}

static void
a_key_goes_to_the_next_form (Fixture *f, gconstpointer data)
{
  g_action_group_change_action_state (cw_table_get_actions (f->table), "tool", g_variant_new_string ("window"));
  g_assert_cmpint (cw_table_get_form (f->table), ==, CW_FORM_BOX);
  act (f, "next-form");
  g_assert_cmpint (cw_table_get_form (f->table), ==, CW_FORM_ROUND);
  act (f, "next-form");
  g_assert_cmpint (cw_table_get_form (f->table), ==, CW_FORM_CORNERS);
  act (f, "next-form");
  g_assert_cmpint (cw_table_get_form (f->table), ==, CW_FORM_BOX);
  g_action_group_change_action_state (cw_table_get_actions (f->table), "tool", g_variant_new_string ("score"));
  g_assert_cmpint (cw_table_get_form (f->table), ==, CW_FORM_STRAIGHT);
  g_assert_false (gtk_widget_get_visible (f->table->forms_buttons[CW_FORM_ROUND]));
  g_assert_true (gtk_widget_get_visible (f->table->forms_buttons[CW_FORM_ARC]));
}

/* Over the closed card as seen from the front lies the leaf that has been folded over: its other side. */
static void
a_picture_over_the_card_lands_on_the_faces_seen (Fixture *f, gconstpointer data)
{
  double box[4], x, y;
  const CwArt *one;

  act (f, "look::inside");
  settle (f);
  /* Open, across the spine in the middle of the card: a place on either side of it. */
  cw_draw_list_get_extents (f->table->card_list, box);
  x = f->table->camera.x;
  y = f->table->camera.y;
  tool (f, "picture", "box");
  g_assert_true (cw_draw_list_get_box (f->table->card_list, (CwId){ CW_ID_PANEL, 0, 0, 0 }, box));
  x = box[2];
  y = (box[1] + box[3]) / 2;
  drag_pixels (f, x - 40, y - 30, x + 40, y + 30);
  g_assert_cmpuint (art (f)->len, ==, 2);
  answer (f, "Kite");
  one = g_ptr_array_index (art (f), 0);
  g_assert_cmpstr (one->label, ==, "Kite (1 of 2)");
  g_assert_cmpint (one->face, ==, CW_FACE_FRONT);
  g_assert_cmpint (one->box[1].x.ticks, ==, 5 * IN);
  one = g_ptr_array_index (art (f), 1);
  g_assert_cmpint (one->box[0].x.ticks, ==, 5 * IN);
  g_assert_cmpfloat_with_epsilon (one->up, 0, 1e-9);
  /* Beside the card there is nothing to lie on, and that is said. */
  drag_pixels (f, f->table->card_area.x + 4, f->table->card_area.y + 4, f->table->card_area.x + 24,
               f->table->card_area.y + 24);
  g_assert_cmpuint (art (f)->len, ==, 2);
  g_assert_cmpstr (f->said, ==, "There is no face of the card under it.");
}

/* ---- Areas once they are there ---- */

static void
areas_are_selected_moved_and_pulled (Fixture *f, gconstpointer data)
{
  const CwGlue *glue;
  const CwArt *one;

  tool (f, "glue", "box");
  drag (f, 1, 1, 3, 2);
  tool (f, "picture", "box");
  drag (f, 6, 1, 8, 2);
  answer (f, "Kite");
  act (f, "tool::select");
  act (f, "select-none");
  /* Inside an area a pull draws a box round it; what is selected is moved. */
  click (f, 2, 1.5);
  settle (f);
  assert_selected (f, CW_ID_ZONE, 0);
  drag (f, 2, 1.5, 2.51, 3.52);
  settle (f);
  glue = g_ptr_array_index (design_of (f)->glue, 0);
  g_assert_cmpint (glue->area.vertices[0].at.x.ticks, ==, 3 * IN / 2);
  g_assert_cmpint (glue->area.vertices[0].at.y.ticks, ==, 3 * IN);
  /* Its lower right corner. */
  drag (f, 3.5, 4, 4, 5);
  settle (f);
  glue = g_ptr_array_index (design_of (f)->glue, 0);
  g_assert_cmpuint (glue->area.n_vertices, ==, 4);
  g_assert_cmpint (glue->area.vertices[2].at.x.ticks, ==, 4 * IN);
  g_assert_cmpint (glue->area.vertices[2].at.y.ticks, ==, 5 * IN);
  /* Once more the panel under it is meant. */
  click (f, 2, 3.5);
  assert_selected (f, CW_ID_PANEL, 0);
  click (f, 7, 1.5);
  settle (f);
  assert_selected (f, CW_ID_ART, 0);
  drag (f, 6.5, 1.5, 6.5, 2.5);
  settle (f);
  one = g_ptr_array_index (art (f), 0);
  g_assert_cmpint (one->box[0].y.ticks, ==, 2 * IN);
  g_assert_cmpstr (one->label, ==, "Kite");
  act (f, "select-all");
  act (f, "delete");
  g_assert_cmpuint (art (f)->len, ==, 0);
  g_assert_cmpuint (design_of (f)->glue->len, ==, 0);
  g_assert_cmpuint (marks (f)->len, ==, 0);
  g_assert_true (cw_document_undo (f->document));
  g_assert_cmpuint (art (f)->len, ==, 1);
  g_assert_cmpuint (design_of (f)->glue->len, ==, 1);
  g_assert_cmpuint (marks (f)->len, ==, 2);
}

static void
everything_drawn_can_be_reached (Fixture *f, gconstpointer data)
{
  guint zones = 0, areas = 0, layers = 0;

  tool (f, "glue", "round");
  drag (f, 2, 2, 3, 2);
  tool (f, "picture", "box");
  drag (f, 6, 4, 8, 5);
  answer (f, "Kite");
  tool (f, "layer", "panel");
  click (f, 2, 5);
  settle (f);
  for (guint i = 0; i < f->table->items->len; i++)
    {
      GtkWidget *item = g_ptr_array_index (f->table->items, i);
      CwId id = cw_table_item_get_id (CW_TABLE_ITEM (item));
      g_autofree char *words = cw_table_dup_words (f->table, id);

      gtk_test_accessible_assert_property (item, GTK_ACCESSIBLE_PROPERTY_LABEL, words);
      if (id.kind == CW_ID_ZONE)
        {
          zones++;
          g_assert_true (g_str_has_prefix (words, "Glue "));
        }
      if (id.kind == CW_ID_ART)
        {
          areas++;
          g_assert_cmpstr (words, ==,
                           "Picture “Kite”, drawn side, 2 in wide, 1 in high, 6 in from the left, 4 in from the top");
          gtk_widget_activate_action (item, "item.select", NULL);
          assert_selected (f, CW_ID_ART, 0);
        }
      layers += id.kind == CW_ID_PANEL && id.piece == 1;
    }
  /* The layer's own glue lies on the layer, not on this piece. */
  g_assert_cmpuint (zones, ==, 1);
  g_assert_cmpuint (areas, ==, 1);
  g_assert_cmpuint (layers, ==, 1);
}

#define ADD(path, test, marks) TABLE_TEST ("tools/" path, test, marks)

int
main (int argc, char **argv)
{
  const int with = 1;

  if (!table_test_init (&argc, &argv))
    return 0;
  g_object_set (gtk_settings_get_default (), "gtk-enable-animations", FALSE, NULL);
  ADD ("an-arc-rises-to-the-hand", an_arc_rises_to_the_hand, NULL);
  ADD ("near-half-the-chord-it-is-half-round", near_half_the_chord_it_is_half_round, NULL);
  ADD ("an-arc-that-does-not-rise-is-straight", an_arc_that_does_not_rise_is_straight, NULL);
  ADD ("a-round-window-grows-from-its-middle", a_round_window_grows_from_its_middle, NULL);
  ADD ("a-window-of-any-shape", a_window_of_any_shape, NULL);
  ADD ("a-layer-is-laid-on-a-panel-of-the-sheet", a_layer_is_laid_on_a_panel_of_the_sheet, &with);
  ADD ("a-layer-is-laid-on-a-panel-of-the-card", a_layer_is_laid_on_a_panel_of_the_card, &with);
  ADD ("a-layer-of-any-size-needs-paper-under-it", a_layer_of_any_size_needs_paper_under_it, NULL);
  ADD ("glue-is-drawn-on-the-side-that-is-up", glue_is_drawn_on_the_side_that_is_up, NULL);
  ADD ("a-picture-area-asks-for-its-words", a_picture_area_asks_for_its_words, NULL);
  ADD ("a-picture-over-the-card-lands-on-the-faces-seen", a_picture_over_the_card_lands_on_the_faces_seen, &with);
  ADD ("a-panel-is-named-by-pointing-at-it", a_panel_is_named_by_pointing_at_it, &with);
  ADD ("a-key-goes-to-the-next-form", a_key_goes_to_the_next_form, NULL);
  ADD ("areas-are-selected-moved-and-pulled", areas_are_selected_moved_and_pulled, &with);
  ADD ("everything-drawn-can-be-reached", everything_drawn_can_be_reached, &with);
  return g_test_run ();
}
