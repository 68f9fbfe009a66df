/* Where the sheet lies, what it snaps to, and its measures.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-draw-sheet.h"
#include "drawn-card.h"
#include "text/cw-lie.h"

#define IN CW_TICKS_PER_INCH
#define MM CW_TICKS_PER_MM

/* The view against the kernel's own turning of measures (text/cw-lie.h), all eight ways a sheet can lie. */
static void
test_lies_as_measured (void)
{
  g_autoptr (CwAnalysis) card = drawn_card (DRAWN_HALF ("toward", "front", "back"));
  const CwPanelMap *map = &card->panels->maps[0];

  for (guint turns = 0; turns < 4; turns++)
    for (gboolean flipped = FALSE; flipped <= TRUE; flipped++)
      {
        CwSheetView view = { { turns, flipped }, 0.01, 7, 11 };
        CwLying lying = cw_lying_new (map->piece, view.lie);
        gint32 width, height;
        cw_sheet_view_size (&view, map, &width, &height);
        g_assert_cmpint (width, ==, lying.width);
        g_assert_cmpint (height, ==, lying.height);
        for (gint32 x = 0; x <= 10 * IN; x += 3 * IN + 17)
          for (gint32 y = 0; y <= 7 * IN; y += 2 * IN + 5)
            {
              double ox, oy, px, py;
              CwPoint lies = cw_lying_from_piece (&lying, cw_point (x, y));
              cw_sheet_view_to_output (&view, map, x, y, &ox, &oy);
              g_assert_cmpfloat_with_epsilon (ox, 7 + 0.01 * lies.x, 1e-9);
              g_assert_cmpfloat_with_epsilon (oy, 11 + 0.01 * lies.y, 1e-9);
              cw_sheet_view_to_piece (&view, map, ox, oy, &px, &py);
              g_assert_cmpfloat_with_epsilon (px, x, 1e-6);
              g_assert_cmpfloat_with_epsilon (py, y, 1e-6);
            }
      }
}

static void
test_fit (void)
{
  g_autoptr (CwAnalysis) card = drawn_card (DRAWN_HALF ("toward", "front", "back"));
  const CwPanelMap *map = &card->panels->maps[0];
  CwSheetView view = { { 1, FALSE }, 0, 0, 0 };
  gint32 width, height;

  cw_sheet_view_fit (&view, map, 10, 20, 800, 600);
  cw_sheet_view_size (&view, map, &width, &height);
  g_assert_cmpint (width, ==, 7 * IN);
  g_assert_cmpint (height, ==, 10 * IN);
  g_assert_cmpfloat (view.left, >, 10);
  g_assert_cmpfloat (view.top, >, 20);
  g_assert_cmpfloat (view.left + width * view.scale, <, 810);
  g_assert_cmpfloat (view.top + height * view.scale, <, 620);
  /* It fills the height but for the rulers. */
  g_assert_cmpfloat (height * view.scale, >, 500);
}

static CwPoint
snap (const CwAnalysis *card, CwLie lie, gint32 step, double x_in, double y_in, const char **what)
{
  CwSheetView view = { lie, 100.0 / IN, 0, 0 };

  return cw_sheet_view_snap (&view, &card->panels->maps[0], step, 100 * x_in, 100 * y_in, 8, what);
}

/* 1/16 inch is 508 ticks (1 in = 25.4 mm exactly). */
static void
test_snaps_to_marks (void)
{
  g_autoptr (CwAnalysis) card = drawn_card (DRAWN_HALF ("toward", "front", "back"));
  const CwLie plain = { 0, FALSE };
  const char *what;

  CwPoint p = snap (card, plain, 508, 2.27, 3.52, &what);
  g_assert_cmpint (p.x, ==, 36 * 508); /* 2 1/4 in is nearest to 2.27 */
  g_assert_cmpint (p.y, ==, 56 * 508); /* 3 1/2 in */
  g_assert_cmpstr (what, ==, "your marks");
  /* The spine's end lies at (5, 0); within reach it wins over the step. */
  p = snap (card, plain, 508, 5.05, 0.03, &what);
  g_assert_true (cw_point_equal (p, cw_point (5 * IN, 0)));
  g_assert_cmpstr (what, ==, "end of a line");
  p = snap (card, plain, 508, 9.96, 6.97, &what);
  g_assert_true (cw_point_equal (p, cw_point (10 * IN, 7 * IN)));
  g_assert_cmpstr (what, ==, "corner");
  /* Off: every tick. */
  p = snap (card, plain, 0, 2.27, 3.52, NULL);
  g_assert_cmpint (p.x, ==, 18451); /* 2.27 x 8128 = 18450.56 */
}

static void
test_snaps_to_crossings (void)
{
  g_autoptr (CwAnalysis) card = drawn_card (DRAWN_BOX);
  const char *what;

  /* The ridge at 4 in meets the slit at 2 in; both have no end there but the ridge's own. */
  CwPoint p = snap (card, (CwLie){ 0, FALSE }, 508, 4.03, 2.04, &what);
  g_assert_true (cw_point_equal (p, cw_point (4 * IN, 2 * IN)));
  /* 5 in: the spine's stretch ends on the slit. */
  p = snap (card, (CwLie){ 0, FALSE }, 508, 4.97, 3.96, &what);
  g_assert_true (cw_point_equal (p, cw_point (5 * IN, 4 * IN)));
}

/* A 200 mm sheet has no whole number of sixteenths (3200 ticks / 508): turned half round, sixteenths are counted from
 * the other end, as on a trimmer. */
static void
test_snaps_from_the_guide (void)
{
  g_autoptr (CwAnalysis) card = drawn_card (DRAWN_MARKS);
  const char *what;

  CwPoint p = snap (card, (CwLie){ 2, FALSE }, 508, 1.0, 1.5, &what);
  g_assert_cmpint (p.x, ==, 200 * MM - IN);
  g_assert_cmpint (p.y, ==, 100 * MM - 3 * IN / 2);
  p = snap (card, (CwLie){ 0, TRUE }, 508, 1.0, 1.5, &what);
  g_assert_cmpint (p.x, ==, 200 * MM - IN);
  g_assert_cmpint (p.y, ==, 3 * IN / 2);
}

static const CwMark *
mark (const CwAnalysis *card, const char *id)
{
  return cw_piece_get_mark (card->panels->maps[0].piece, id);
}

static void
test_measures (void)
{
  g_autoptr (CwAnalysis) card = drawn_card (DRAWN_MARKS);
  const CwPanelMap *map = &card->panels->maps[0];
  CwSheetView view = { { 0, FALSE }, 0.01, 0, 0 };
  CwSheetMeasure m[16];

  /* From edge to edge: only how far from the guide. */
  g_assert_cmpuint (cw_sheet_view_measures (&view, map, mark (card, "in"), m, 16), ==, 1);
  g_assert_cmpuint (m[0].axis, ==, 0);
  g_assert_cmpint (m[0].ticks, ==, 60 * MM);
  /* Lying turned by a quarter, the same line is measured from the ruler edge. */
  view.lie.quarter_turns = 1;
  g_assert_cmpuint (cw_sheet_view_measures (&view, map, mark (card, "in"), m, 16), ==, 1);
  g_assert_cmpuint (m[0].axis, ==, 1);
  g_assert_cmpint (m[0].ticks, ==, 60 * MM);
  /* Other side up, from the other end: 200 - 60. */
  view.lie = (CwLie){ 0, TRUE };
  g_assert_cmpuint (cw_sheet_view_measures (&view, map, mark (card, "in"), m, 16), ==, 1);
  g_assert_cmpint (m[0].ticks, ==, 140 * MM);
  view.lie = (CwLie){ 0, FALSE };
  /* A cornered slit: 80 and 110 across, 20 and 50 down, each once. */
  g_assert_cmpuint (cw_sheet_view_measures (&view, map, mark (card, "slit"), m, 16), ==, 4);
  g_assert_cmpint (m[0].ticks, ==, 80 * MM);
  g_assert_cmpint (m[1].ticks, ==, 110 * MM);
  g_assert_cmpint (m[2].ticks, ==, 20 * MM);
  g_assert_cmpint (m[3].ticks, ==, 50 * MM);
  /* A circle: its centre and its radius. */
  g_assert_cmpuint (cw_sheet_view_measures (&view, map, mark (card, "port"), m, 16), ==, 3);
  g_assert_cmpuint (m[2].axis, ==, 2);
  g_assert_cmpint (m[2].ticks, ==, 15 * MM);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/draw/sheet-view/lies-as-measured", test_lies_as_measured);
  g_test_add_func ("/draw/sheet-view/fit", test_fit);
  g_test_add_func ("/draw/sheet-view/snaps-to-marks", test_snaps_to_marks);
  g_test_add_func ("/draw/sheet-view/snaps-to-crossings", test_snaps_to_crossings);
  g_test_add_func ("/draw/sheet-view/snaps-from-the-guide", test_snaps_from_the_guide);
  g_test_add_func ("/draw/sheet-view/measures", test_measures);
  return g_test_run ();
}
