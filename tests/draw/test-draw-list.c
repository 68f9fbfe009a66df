/* The draw list: what is picked, what it spans, what its text says.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-draw-list.h"

#define ALL 0xffffffffu

static CwId
mark (guint index)
{
  return (CwId){ CW_ID_MARK, 0, index, 0 };
}

static void
square (CwDrawList *list, CwPen pen, CwId id, double x, double y, double size)
{
  cw_draw_list_begin (list, pen, id);
  cw_draw_list_move (list, x, y);
  cw_draw_list_line (list, x + size, y);
  cw_draw_list_line (list, x + size, y + size);
  cw_draw_list_line (list, x, y + size);
  cw_draw_list_close (list);
  cw_draw_list_end (list);
}

static void
line (CwDrawList *list, CwPen pen, CwId id, double x0, double y0, double x1, double y1)
{
  cw_draw_list_begin (list, pen, id);
  cw_draw_list_move (list, x0, y0);
  cw_draw_list_line (list, x1, y1);
  cw_draw_list_end (list);
}

static void
test_pick_topmost (void)
{
  g_autoptr (CwDrawList) list = cw_draw_list_new ();
  CwId id;

  square (list, CW_PEN_PAPER, (CwId){ CW_ID_PANEL, 0, 0, 0 }, 0, 0, 100);
  square (list, CW_PEN_PAPER, (CwId){ CW_ID_PANEL, 0, 1, 0 }, 50, 50, 100);
  g_assert_true (cw_draw_list_pick (list, 75, 75, 5, ALL, &id));
  g_assert_cmpuint (id.index, ==, 1);
  g_assert_true (cw_draw_list_pick (list, 25, 25, 5, ALL, &id));
  g_assert_cmpuint (id.index, ==, 0);
  g_assert_false (cw_draw_list_pick (list, 25, 125, 5, ALL, &id));
  g_assert_false (cw_draw_list_pick (list, 75, 75, 5, 1u << CW_ID_MARK, &id));
}

static void
test_pick_nearest_line (void)
{
  g_autoptr (CwDrawList) list = cw_draw_list_new ();
  CwId id;

  square (list, CW_PEN_PAPER, (CwId){ CW_ID_PANEL, 0, 0, 0 }, 0, 0, 100);
  line (list, CW_PEN_CUT, mark (0), 40, 0, 40, 100);
  line (list, CW_PEN_SCORE_AWAY, mark (1), 46, 0, 46, 100);
  g_assert_true (cw_draw_list_pick (list, 42, 50, 8, ALL, &id));
  g_assert_cmpint (id.kind, ==, CW_ID_MARK);
  g_assert_cmpuint (id.index, ==, 0);
  g_assert_true (cw_draw_list_pick (list, 45, 50, 8, ALL, &id));
  g_assert_cmpuint (id.index, ==, 1);
  g_assert_true (cw_draw_list_pick (list, 60, 50, 8, ALL, &id));
  g_assert_cmpint (id.kind, ==, CW_ID_PANEL);
  /* Beyond the line's end its distance counts to the end. */
  g_assert_false (cw_draw_list_pick (list, 40, 109, 8, ALL, &id));
  g_assert_true (cw_draw_list_pick (list, 40, 107, 8, ALL, &id));
}

static void
test_pick_handle_first (void)
{
  g_autoptr (CwDrawList) list = cw_draw_list_new ();
  CwId id;

  line (list, CW_PEN_CUT, mark (0), 0, 50, 100, 50);
  cw_draw_list_begin (list, CW_PEN_HANDLE, (CwId){ CW_ID_MARK_END, 0, 0, 1 });
  cw_draw_list_arc (list, 100, 50, 4);
  cw_draw_list_end (list);
  g_assert_true (cw_draw_list_pick (list, 94, 50, 5, ALL, &id));
  g_assert_cmpint (id.kind, ==, CW_ID_MARK_END);
  g_assert_cmpuint (id.part, ==, 1);
  g_assert_true (cw_draw_list_pick (list, 80, 50, 5, ALL, &id));
  g_assert_cmpint (id.kind, ==, CW_ID_MARK);
}

/* A hole is no part of an area (even-odd), and a covered line is not reached through the area on top. */
static void
test_pick_holes_and_cover (void)
{
  g_autoptr (CwDrawList) list = cw_draw_list_new ();
  CwId id;

  line (list, CW_PEN_CUT, mark (0), 0, 50, 100, 50);
  cw_draw_list_begin (list, CW_PEN_PAPER, (CwId){ CW_ID_PANEL, 0, 0, 0 });
  cw_draw_list_move (list, 0, 0);
  cw_draw_list_line (list, 100, 0);
  cw_draw_list_line (list, 100, 100);
  cw_draw_list_line (list, 0, 100);
  cw_draw_list_close (list);
  cw_draw_list_arc (list, 50, 50, 20);
  cw_draw_list_end (list);
  g_assert_true (cw_draw_list_pick (list, 50, 52, 5, ALL, &id));
  g_assert_cmpint (id.kind, ==, CW_ID_MARK);
  g_assert_true (cw_draw_list_pick (list, 10, 50, 5, ALL, &id));
  g_assert_cmpint (id.kind, ==, CW_ID_PANEL);
}

static void
test_pick_clip (void)
{
  g_autoptr (CwDrawList) list = cw_draw_list_new ();
  CwId id;

  square (list, CW_PEN_PAPER, (CwId){ CW_ID_PANEL, 0, 0, 0 }, 0, 0, 100);
  square (list, CW_PEN_CLIP, (CwId){ CW_ID_NONE, 0, 0, 0 }, 0, 0, 50);
  square (list, CW_PEN_PAPER, (CwId){ CW_ID_PANEL, 0, 1, 0 }, 0, 0, 100);
  cw_draw_list_unclip (list);
  g_assert_true (cw_draw_list_pick (list, 25, 25, 5, ALL, &id));
  g_assert_cmpuint (id.index, ==, 1);
  g_assert_true (cw_draw_list_pick (list, 75, 75, 5, ALL, &id));
  g_assert_cmpuint (id.index, ==, 0);
}

/* Thales: the arc from (-1, 0) through (0, 1) to (1, 0) is the half circle about the origin; it dips to y = 1 and never
 * above 0. */
static void
test_arc (void)
{
  g_autoptr (CwDrawList) list = cw_draw_list_new ();
  double box[4];
  CwId id;

  cw_draw_list_begin (list, CW_PEN_CUT, mark (0));
  cw_draw_list_move (list, -100, 0);
  cw_draw_list_arc_to (list, 0, 100, 100, 0);
  cw_draw_list_end (list);
  cw_draw_list_get_extents (list, box);
  g_assert_cmpfloat_with_epsilon (box[0], -100, 0.01);
  g_assert_cmpfloat_with_epsilon (box[1], 0, 0.01);
  g_assert_cmpfloat_with_epsilon (box[2], 100, 0.01);
  g_assert_cmpfloat_with_epsilon (box[3], 100, 0.3);
  g_assert_true (cw_draw_list_pick (list, 100 * 0.6, 100 * 0.8, 1, ALL, &id));
  g_assert_false (cw_draw_list_pick (list, 0, -100, 5, ALL, &id));

  /* The other way round, through the upper half. */
  cw_draw_list_clear (list);
  cw_draw_list_begin (list, CW_PEN_CUT, mark (0));
  cw_draw_list_move (list, -100, 0);
  cw_draw_list_arc_to (list, 0, -100, 100, 0);
  cw_draw_list_end (list);
  g_assert_true (cw_draw_list_pick (list, 100 * 0.6, -100 * 0.8, 1, ALL, &id));
  g_assert_false (cw_draw_list_pick (list, 0, 100, 5, ALL, &id));
}

static void
test_words (void)
{
  g_autoptr (CwDrawList) list = cw_draw_list_new ();
  CwId id;

  cw_draw_list_text (list, CW_PEN_FIGURE, (CwId){ CW_ID_MEASURE, 0, 3, 1 }, 100, 100, 10, CW_ANCHOR_END, 0, "3 1/2 in");
  g_assert_true (cw_draw_list_pick (list, 95, 97, 0, ALL, &id));
  g_assert_cmpuint (id.index, ==, 3);
  g_assert_false (cw_draw_list_pick (list, 105, 97, 0, ALL, &id));
  /* A quarter turn counterclockwise: the words run upwards, to the left of the place. */
  cw_draw_list_clear (list);
  cw_draw_list_text (list, CW_PEN_TEXT, (CwId){ CW_ID_NAME, 0, 0, 0 }, 100, 100, 10, CW_ANCHOR_START, 270, "riser");
  g_assert_true (cw_draw_list_pick (list, 97, 90, 0, ALL, &id));
  g_assert_false (cw_draw_list_pick (list, 110, 97, 0, ALL, &id));
}

static void
test_text_form (void)
{
  g_autoptr (CwDrawList) list = cw_draw_list_new ();

  cw_draw_list_set_ground (list, 0xefe6d0);
  cw_draw_list_begin (list, CW_PEN_SCORE_TOWARD, mark (4));
  cw_draw_list_move (list, 1, -0.001);
  cw_draw_list_line (list, 2.5, 3);
  cw_draw_list_end (list);
  cw_draw_list_text (list, CW_PEN_TEXT, (CwId){ CW_ID_ZONE, G_MAXUINT, 2, 0 }, 1, 2, 10, CW_ANCHOR_MIDDLE, 0, "glue");
  g_autofree char *text = cw_draw_list_to_text (list);
  g_assert_cmpstr (text, ==,
                   "score-toward mark 0/4/0 on #efe6d0: M 1.00 0.00 L 2.50 3.00\n"
                   "text zone -/2/0 on #efe6d0: 1.00 2.00 10.00 0.00 middle \"glue\"\n");
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/draw/list/pick-topmost", test_pick_topmost);
  g_test_add_func ("/draw/list/pick-nearest-line", test_pick_nearest_line);
  g_test_add_func ("/draw/list/pick-handle-first", test_pick_handle_first);
  g_test_add_func ("/draw/list/pick-holes-and-cover", test_pick_holes_and_cover);
  g_test_add_func ("/draw/list/pick-clip", test_pick_clip);
  g_test_add_func ("/draw/list/arc", test_arc);
  g_test_add_func ("/draw/list/words", test_words);
  g_test_add_func ("/draw/list/text-form", test_text_form);
  return g_test_run ();
}
