/* test-make-arrange.c: marks mirrored, turned, spread, repeated, lined up, copied; a panel divided.
 *
 * Outside sources: that a reflection is its own inverse and a quarter turn has order four (elementary geometry), and
 * arithmetic of equal parts. That these leave the same bytes is a law of our own.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "make-test.h"
#include "make/cw-make-arrange.h"

#include <string.h>

static const char *const all_ids[] = { "s1", "s2", "s3", "c1", "c2", "w1", "w2", "w3", NULL };

static char *
marks_text (const CwDesign *design)
{
  return cw_make_copy_text (design, "base", all_ids);
}

static const char *const mixed[]
  = { "cut from 1, 1 to 2 1/2, 1 to 2 1/2, 3", "window round 3/4 at 4, 2", "window 1/2 by 1 at 5, 3", NULL };

static void
test_mirror (void)
{
  g_autoptr (GError) error = NULL;

  for (guint left_right = 0; left_right < 2; left_right++)
    {
      g_autoptr (CwDesign) design = sheet (8, 6, mixed);
      g_autofree char *before = marks_text (design);

      do_edit (&design, cw_make_mirror_marks (design, "base", all_ids, left_right, &error));
      g_assert_no_error (error);
      g_autofree char *once = marks_text (design);
      g_assert_cmpstr (once, !=, before);
      /* The box of all marks is 1 to 5 1/2 across and 1 to 4 down. */
      assert_point (vertex_of (mark_at (design, 0), 0), left_right ? IN (5.5) : IN (1), left_right ? IN (1) : IN (4));
      do_edit (&design, cw_make_mirror_marks (design, "base", all_ids, left_right, &error));
      g_autofree char *twice = marks_text (design);
      g_assert_cmpstr (twice, ==, before);
    }
}

static void
test_mirror_copy (void)
{
  static const char *const lines[] = { "cut from 1, 1 to 2 1/2, 1 to 2 1/2, 3", NULL };
  static const char *const ids[] = { "c1", NULL };
  g_autoptr (CwDesign) design = sheet (8, 6, lines);
  g_autoptr (GError) error = NULL;

  do_edit (&design, cw_make_mirror_copy (design, "base", ids, TRUE, &error));
  g_assert_cmpuint (cw_design_get_piece (design, "base")->marks->len, ==, 2);
  assert_point (vertex_of (mark_at (design, 1), 0), IN (7), IN (1));
  assert_point (vertex_of (mark_at (design, 1), 2), IN (5.5), IN (3));
}

static void
test_turn (void)
{
  g_autoptr (GError) error = NULL;

  /* Marks a tick off as well, so that the middle is no whole tick. */
  for (gint32 off = 0; off < 2; off++)
    {
      g_autoptr (CwDesign) design = sheet (8, 6, mixed);

      if (off)
        {
          CwMark *copy = cw_mark_copy (mark_at (design, 0));
          copy->line.vertices[0].at.x = cw_length_from_ticks (IN (1) + 1, CW_UNIT_INCH);
          do_edit (&design, cw_make_replace_mark (design, "base", copy, &error));
        }
      g_autofree char *before = marks_text (design);
      do_edit (&design, cw_make_turn_marks (design, "base", all_ids, 1, &error));
      g_assert_no_error (error);
      CwPoint after = vertex_of (mark_at (design, 0), 0);
      if (!off) /* box 1..5 1/2 by 1..4, middle (3 1/4, 2 1/2): (1, 1) goes to (4 3/4, 1/4) */
        assert_point (after, IN (4.75), IN (0.25));
      for (guint i = 0; i < 3; i++)
        do_edit (&design, cw_make_turn_marks (design, "base", all_ids, 1, &error));
      g_autofree char *four = marks_text (design);
      g_assert_cmpstr (four, ==, before);
      do_edit (&design, cw_make_turn_marks (design, "base", all_ids, 1, &error));
      do_edit (&design, cw_make_turn_marks (design, "base", all_ids, 3, &error));
      g_autofree char *back = marks_text (design);
      g_assert_cmpstr (back, ==, before);
    }
}

/* Middles at 1, 2 and 6 inch: the one between goes half way, whatever the order they were drawn in. */
static void
test_spread (void)
{
  static const char *const lines[] = { "cut 6 from 1 to 2", "cut 1 from 1 to 2", "cut 2 from 1 to 3", NULL };
  static const char *const ids[] = { "c1", "c2", "c3", NULL };
  static const char *const two[] = { "c1", "c2", NULL };
  g_autoptr (CwDesign) design = sheet (8, 6, lines);
  g_autoptr (GError) error = NULL;

  do_edit (&design, cw_make_spread_marks (design, "base", ids, &error));
  assert_point (vertex_of (mark_at (design, 0), 0), IN (6), IN (1));
  assert_point (vertex_of (mark_at (design, 1), 0), IN (1), IN (1));
  assert_point (vertex_of (mark_at (design, 2), 0), IN (3.5), IN (1));
  assert_refused (cw_make_spread_marks (design, "base", ids, &error), &error); /* they lie so already */
  assert_refused (cw_make_spread_marks (design, "base", two, &error), &error);
}

static void
test_repeat (void)
{
  static const char *const lines[] = { "cut 1 from 1 to 2", NULL };
  static const char *const ids[] = { "c1", NULL };
  g_autoptr (CwDesign) design = sheet (8, 6, lines);
  g_autoptr (GError) error = NULL;

  g_assert_null (cw_make_repeat_marks (design, "base", ids, cw_point (IN (3), 0), 4, &error));
  g_assert_error (error, CW_MAKE_ERROR, CW_MAKE_ERROR_IMPOSSIBLE);
  g_assert_nonnull (strchr (error->message, '2')); /* at 4 and 7 inch; the sheet ends at 8 */
  g_clear_error (&error);
  do_edit (&design, cw_make_repeat_marks (design, "base", ids, cw_point (IN (3), 0), 2, &error));
  g_assert_cmpuint (cw_design_get_piece (design, "base")->marks->len, ==, 3);
  assert_point (vertex_of (mark_at (design, 2), 1), IN (7), IN (2));
  assert_refused (cw_make_repeat_marks (design, "base", ids, cw_point (0, 0), 2, &error), &error);
}

static void
test_align (void)
{
  static const char *const lines[] = { "window 1 by 2 at 2, 1", "window 2 by 1 at 5, 4", NULL };
  static const char *const ids[] = { "w1", NULL };
  static const struct
  {
    CwMakeAlign where;
    const char *to;
    double x, y; /* of the first corner afterwards */
  } cases[] = {
    { CW_ALIGN_LEFT, NULL, 0, 1 },   { CW_ALIGN_RIGHT, NULL, 7, 1 },           { CW_ALIGN_TOP, NULL, 2, 0 },
    { CW_ALIGN_BOTTOM, NULL, 2, 4 }, { CW_ALIGN_MIDDLE_ACROSS, NULL, 3.5, 1 }, { CW_ALIGN_LEFT, "w2", 5, 1 },
    { CW_ALIGN_RIGHT, "w2", 6, 1 },  { CW_ALIGN_BOTTOM, "w2", 2, 3 },          { CW_ALIGN_MIDDLE_DOWN, "w2", 2, 3.5 },
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (CwDesign) design = sheet (8, 6, lines);
      g_autoptr (GError) error = NULL;

      do_edit (&design, cw_make_align_marks (design, "base", ids, cases[i].where, cases[i].to, &error));
      assert_point (vertex_of (mark_at (design, 0), 0), IN (cases[i].x), IN (cases[i].y));
      assert_point (vertex_of (mark_at (design, 1), 0), IN (5), IN (4));
    }
}

static void
test_shift_stays_on_sheet (void)
{
  static const char *const lines[] = { "window 1 by 2 at 2, 1", NULL };
  static const char *const ids[] = { "w1", NULL };
  g_autoptr (CwDesign) design = sheet (8, 6, lines);
  g_autoptr (GError) error = NULL;

  do_edit (&design, cw_make_shift_marks (design, "base", ids, cw_point (IN (5), IN (3)), &error));
  assert_point (vertex_of (mark_at (design, 0), 1), IN (8), IN (6));
  assert_refused (cw_make_shift_marks (design, "base", ids, cw_point (1, 0), &error), &error);
}

/* Seven parts of 8 inches: each score at 8 k / 7 to the tick, and no part differs from another by more than a tick. */
static void
test_divide (void)
{
  for (guint parts = 2; parts <= 7; parts++)
    {
      g_autoptr (CwDesign) design = sheet (8, 6, NULL);
      g_autoptr (GError) error = NULL;
      gint32 last = 0, least = G_MAXINT32, most = 0;

      do_edit (&design, cw_make_divide_panel (design, "base", 0, parts, TRUE, &error));
      g_assert_cmpuint (cw_design_get_piece (design, "base")->marks->len, ==, parts - 1);
      for (guint k = 1; k <= parts; k++)
        {
          gint32 x = k < parts ? vertex_of (mark_at (design, k - 1), 0).x : IN (8);

          g_assert_cmpint (ABS (2 * (gint64) x * parts - 2 * (gint64) IN (8) * k), <=, parts);
          least = MIN (least, x - last);
          most = MAX (most, x - last);
          last = x;
        }
      g_assert_cmpint (most - least, <=, 1);
    }
}

static void
test_copy_and_paste (void)
{
  g_autoptr (CwDesign) design = sheet (8, 6, mixed);
  g_autoptr (CwDesign) other = sheet (8, 6, NULL);
  g_autoptr (CwDesign) small = sheet (2, 2, NULL);
  g_autofree char *text = marks_text (design);
  g_autoptr (GError) error = NULL;

  /* On a bare sheet they lie where they were, to the byte. */
  do_edit (&other, cw_make_paste_text (other, "base", text, &error));
  g_autofree char *pasted = marks_text (other);
  g_assert_cmpstr (pasted, ==, text);
  /* Where they lie already, beside it by a quarter inch, with names of their own. */
  do_edit (&design, cw_make_paste_text (design, "base", text, &error));
  g_assert_cmpuint (cw_design_get_piece (design, "base")->marks->len, ==, 6);
  assert_point (vertex_of (mark_at (design, 3), 0), IN (1.25), IN (1.25));
  g_assert_cmpstr (mark_at (design, 3)->id, ==, "c2");

  assert_refused (cw_make_paste_text (small, "base", text, &error), &error);
  assert_refused (cw_make_paste_text (small, "base", "a shopping list", &error), &error);
  assert_refused (cw_make_paste_text (small, "base", "", &error), &error);
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/make/make-arrange/mirrored-twice-is-as-before", test_mirror);
  g_test_add_func ("/make/make-arrange/mirrored-copy", test_mirror_copy);
  g_test_add_func ("/make/make-arrange/four-quarter-turns-are-none", test_turn);
  g_test_add_func ("/make/make-arrange/spread-evenly", test_spread);
  g_test_add_func ("/make/make-arrange/repeated-at-a-distance", test_repeat);
  g_test_add_func ("/make/make-arrange/lined-up", test_align);
  g_test_add_func ("/make/make-arrange/stays-on-the-sheet", test_shift_stays_on_sheet);
  g_test_add_func ("/make/make-arrange/divided-into-equal-parts", test_divide);
  g_test_add_func ("/make/make-arrange/copied-and-put-down", test_copy_and_paste);
  return g_test_run ();
}
