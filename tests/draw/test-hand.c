/* test-hand.c: what a hand does on the table, against plane geometry done by hand beside each check.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-hand.h"
#include "design/cw-design-json.h"

#define IN CW_TICKS_PER_INCH
#define STEP (IN / 16)

/* A sheet whose width is no whole number of sixteenths (297 mm) with a spine and a cornered slit. */
static const char *const text
  = "{\"format\":\"creasewright design\",\"version\":1,"
    "\"measure\":{\"unit\":\"in\",\"snap\":\"1/16 in\"},\"papers\":[],"
    "\"pieces\":[{\"id\":\"base\",\"ground\":true,"
    "\"outline\":[[\"0 in\",\"0 in\"],[\"297 mm\",\"0 in\"],[\"297 mm\",\"6 in\"],[\"0 in\",\"6 in\"]],"
    "\"marks\":[{\"id\":\"spine\",\"kind\":\"score\",\"fold\":\"toward\",\"line\":[[\"5 in\",\"0 in\"],[\"5 in\",\"6 "
    "in\"]]},"
    "{\"id\":\"slit\",\"kind\":\"cut\",\"line\":[[\"7 in\",\"2 in\"],[\"9 in\",\"2 in\"],[\"9 in\",\"4 in\"]]}]}]}";

typedef struct
{
  CwPanelSet *set;
  const CwPanelMap *map;
  CwSheetView view;
} Fixture;

static void
set_up (Fixture *f, gconstpointer data)
{
  GError *error = NULL;
  g_autoptr (CwDesign) design = cw_design_from_text (text, -1, "test", &error);

  g_assert_no_error (error);
  f->set = cw_panel_set_new (design);
  f->map = &f->set->maps[0];
  f->view = (CwSheetView){ .lie = { 0, FALSE }, .scale = 60.0 / IN, .left = 100, .top = 50 };
}

static void
tear_down (Fixture *f, gconstpointer data)
{
  cw_panel_set_unref (f->set);
}

static CwAim
aim_in (Fixture *f, double x_in, double y_in, const CwPoint *from, gboolean slant)
{
  double ox, oy;

  cw_sheet_view_to_output (&f->view, f->map, x_in * IN, y_in * IN, &ox, &oy);
  return cw_hand_aim (&f->view, f->map, STEP, ox, oy, 9, from, slant);
}

/* With nothing near, the place is the nearest sixteenth: 2.03 in = 32.48/16 goes to 2, 3.41 in = 54.56/16 to 3 7/16. */
static void
aim_keeps_to_the_snap_step (Fixture *f, gconstpointer data)
{
  CwAim aim = aim_in (f, 2.03, 3.41, NULL, FALSE);

  g_assert_cmpint (aim.at.x, ==, 2 * IN);
  g_assert_cmpint (aim.at.y, ==, 55 * STEP);
  g_assert_null (aim.word);
}

/* 3 pixels beside the upright through (2, 1) is meant to be upright; it ends on the sheet's lower edge 2 pixels away.
 */
static void
aim_straightens_and_ends_at_the_edge (Fixture *f, gconstpointer data)
{
  CwPoint from = cw_point (2 * IN, 1 * IN);
  CwAim aim = aim_in (f, 2 + 3 / 60.0, 6 - 2 / 60.0, &from, FALSE);

  g_assert_true (aim.upright);
  g_assert_false (aim.level);
  g_assert_cmpint (aim.at.x, ==, 2 * IN);
  g_assert_cmpint (aim.at.y, ==, 6 * IN);
  g_assert_nonnull (aim.word);

  /* The right edge is at 297 mm, which is no sixteenth: a level line reaches it all the same. */
  aim = aim_in (f, 297 / 25.4 - 3 / 60.0, 1 + 2 / 60.0, &from, FALSE);
  g_assert_true (aim.level);
  g_assert_cmpint (aim.at.x, ==, 297 * CW_TICKS_PER_MM);
  g_assert_cmpint (aim.at.y, ==, 1 * IN);
}

/* With Shift held nothing is straightened: the same pointer gives the sixteenth beside the upright. */
static void
aim_leaves_slants_alone (Fixture *f, gconstpointer data)
{
  CwPoint from = cw_point (2 * IN, 1 * IN);
  CwAim aim = aim_in (f, 2 + 1 / 16.0, 4, &from, TRUE);

  g_assert_cmpint (aim.at.x, ==, 2 * IN + STEP);
  g_assert_false (aim.upright);
}

/* The end of the slit holds the pointer from 5 pixels away, and joins a slanted line to it without Shift. */
static void
aim_is_held_by_ends (Fixture *f, gconstpointer data)
{
  CwPoint from = cw_point (7 * IN, 2 * IN);
  CwAim aim = aim_in (f, 9 + 3 / 60.0, 4 + 4 / 60.0, &from, FALSE);

  g_assert_cmpint (aim.at.x, ==, 9 * IN);
  g_assert_cmpint (aim.at.y, ==, 4 * IN);
  g_assert_nonnull (aim.word);
  g_assert_false (aim.upright || aim.level);
}

/* A sheet W x H turned a quarter clockwise: its left edge is the old lower edge, so what was at (x, y) lies at
 * (H - y, x). Turned over like a page: at (W - x, y). */
static void
measures_follow_the_lie (Fixture *f, gconstpointer data)
{
  const gint32 w = 297 * CW_TICKS_PER_MM, h = 6 * IN;
  CwPoint p = cw_point (3 * IN, 1 * IN);
  gint32 across, down;

  cw_hand_measure (&f->view, f->map, p, &across, &down);
  g_assert_cmpint (across, ==, p.x);
  g_assert_cmpint (down, ==, p.y);
  f->view.lie.quarter_turns = 1;
  cw_hand_measure (&f->view, f->map, p, &across, &down);
  g_assert_cmpint (across, ==, h - p.y);
  g_assert_cmpint (down, ==, p.x);
  f->view.lie = (CwLie){ 0, TRUE };
  cw_hand_measure (&f->view, f->map, p, &across, &down);
  g_assert_cmpint (across, ==, w - p.x);
  g_assert_cmpint (down, ==, p.y);
}

/* Whatever the lie: a step to the right lengthens the measure from the left by one and leaves the other. */
static void
steps_go_where_they_are_seen (Fixture *f, gconstpointer data)
{
  for (guint turns = 0; turns < 4; turns++)
    for (int flipped = 0; flipped < 2; flipped++)
      {
        CwPoint p = cw_point (2 * IN, 3 * IN), right, down;
        gint32 a0, d0, a1, d1;

        f->view.lie = (CwLie){ turns, flipped };
        right = cw_hand_lying_step (f->view.lie, 1, 0);
        down = cw_hand_lying_step (f->view.lie, 0, 1);
        cw_hand_measure (&f->view, f->map, p, &a0, &d0);
        cw_hand_measure (&f->view, f->map, cw_point (p.x + right.x * IN, p.y + right.y * IN), &a1, &d1);
        g_assert_cmpint (a1 - a0, ==, IN);
        g_assert_cmpint (d1, ==, d0);
        cw_hand_measure (&f->view, f->map, cw_point (p.x + down.x * IN, p.y + down.y * IN), &a1, &d1);
        g_assert_cmpint (a1, ==, a0);
        g_assert_cmpint (d1 - d0, ==, IN);
      }
}

static void
marks_slide_whole (Fixture *f, gconstpointer data)
{
  const CwMark *slit = g_ptr_array_index (f->map->piece->marks, 1);
  g_autoptr (CwMark) copy = cw_mark_copy (slit);

  cw_hand_slide_mark (copy, slit, cw_point (STEP, -2 * STEP));
  for (guint i = 0; i < 3; i++)
    {
      CwPoint a = cw_place_get_point (&slit->line.vertices[i].at), b = cw_place_get_point (&copy->line.vertices[i].at);

      g_assert_cmpint (b.x - a.x, ==, STEP);
      g_assert_cmpint (b.y - a.y, ==, -2 * STEP);
    }
  cw_hand_stretch_mark (copy, 0, cw_point (6 * IN, 2 * IN), CW_UNIT_INCH);
  g_assert_cmpint (copy->line.vertices[0].at.x.ticks, ==, 6 * IN);
  g_assert_cmpint (copy->line.vertices[2].at.x.ticks, ==, 9 * IN + STEP);
}

/* A window of 1,1 to 4,3 whose corner between them at 4,1 goes to 5,2 becomes 1,2 to 5,3; the other at 1,2 to 0,6 makes
 * it 0,2 to 5,6. A circle's middle leaves its radius, its rim its middle: 3-4-5. */
static void
corners_and_rims_stretch (Fixture *f, gconstpointer data)
{
  g_autoptr (CwMark) window = cw_mark_new (), ring = cw_mark_new ();

  window->kind = ring->kind = CW_MARK_WINDOW;
  window->shape = CW_SHAPE_RECT;
  cw_path_append (&window->line, cw_place_from_point (cw_point (1 * IN, 1 * IN), CW_UNIT_INCH), FALSE);
  cw_path_append (&window->line, cw_place_from_point (cw_point (4 * IN, 3 * IN), CW_UNIT_INCH), FALSE);
  cw_hand_stretch_mark (window, 2, cw_point (5 * IN, 2 * IN), CW_UNIT_INCH);
  cw_hand_stretch_mark (window, 3, cw_point (0, 6 * IN), CW_UNIT_INCH);
  g_assert_cmpint (window->line.vertices[0].at.x.ticks, ==, 0);
  g_assert_cmpint (window->line.vertices[0].at.y.ticks, ==, 2 * IN);
  g_assert_cmpint (window->line.vertices[1].at.x.ticks, ==, 5 * IN);
  g_assert_cmpint (window->line.vertices[1].at.y.ticks, ==, 6 * IN);

  ring->shape = CW_SHAPE_CIRCLE;
  ring->radius = cw_length_from_ticks (IN, CW_UNIT_INCH);
  cw_hand_stretch_mark (ring, 0, cw_point (2 * IN, 2 * IN), CW_UNIT_INCH);
  g_assert_cmpint (ring->radius.ticks, ==, IN);
  cw_hand_stretch_mark (ring, 1, cw_point (5 * IN, 6 * IN), CW_UNIT_INCH);
  g_assert_cmpint (ring->radius.ticks, ==, 5 * IN);
  g_assert_cmpint (ring->centre.x.ticks, ==, 2 * IN);
}

/* The end taken hold of lands on the step: from 5 in, a hand that has moved by 0.49 in brings it to 5 1/2. */
static void
shifts_land_on_the_step (Fixture *f, gconstpointer data)
{
  const CwMark *spine = g_ptr_array_index (f->map->piece->marks, 0);
  CwPoint by = cw_hand_shift (spine, cw_point (5 * IN + 40, 1 * IN),
                              cw_point (5 * IN + 40 + (gint32) (0.49 * IN), IN + 60), STEP);

  g_assert_cmpint (by.x, ==, IN / 2);
  g_assert_cmpint (by.y, ==, 0);
}

/* The slit reaches from 7 to 9 and 2 to 4 in on a sheet of 297 mm x 6 in: to the left it may go 7 in, down 2 in. A
 * pointer beside the sheet means its edge. */
static void
hands_stay_on_the_sheet (Fixture *f, gconstpointer data)
{
  const CwMark *slit = g_ptr_array_index (f->map->piece->marks, 1);
  CwPoint by = cw_hand_keep_on_sheet (f->map, slit, cw_point (-8 * IN, 5 * IN));
  CwAim aim = aim_in (f, 2, -1.3, NULL, FALSE);

  g_assert_cmpint (by.x, ==, -7 * IN);
  g_assert_cmpint (by.y, ==, 2 * IN);
  by = cw_hand_keep_on_sheet (f->map, slit, cw_point (IN, -IN));
  g_assert_cmpint (by.x, ==, IN);
  g_assert_cmpint (by.y, ==, -IN);
  g_assert_cmpint (aim.at.x, ==, 2 * IN);
  g_assert_cmpint (aim.at.y, ==, 0);
}

/* What lies under the pointer stays under it. */
static void
zoom_keeps_the_place (Fixture *f, gconstpointer data)
{
  double x0, y0, x1, y1;
  CwCamera camera = { 0.3, 0.2, 0.01, 400, 300, { 0, 0, 0 } };
  CwVec3 before, after, there = cw_vec3 (4 * IN, 2 * IN, 500);

  cw_sheet_view_to_piece (&f->view, f->map, 333, 222, &x0, &y0);
  cw_hand_zoom_sheet (&f->view, 1.7, 333, 222);
  cw_sheet_view_to_piece (&f->view, f->map, 333, 222, &x1, &y1);
  g_assert_cmpfloat_with_epsilon (x0, x1, 1e-6);
  g_assert_cmpfloat_with_epsilon (y0, y1, 1e-6);

  before = cw_camera_project (&camera, there);
  cw_hand_zoom_card (&camera, 2, before.x, before.y);
  after = cw_camera_project (&camera, there);
  g_assert_cmpfloat_with_epsilon (before.x, after.x, 1e-6);
  g_assert_cmpfloat_with_epsilon (before.y, after.y, 1e-6);
}

/* The short way round: from 170 to -170 degrees is 20 degrees, so half way lies at 180 and not at 0. */
static void
looks_go_the_short_way (void)
{
  CwCamera from = { .yaw = 170 * G_PI / 180, .scale = 1 }, to = { .yaw = -170 * G_PI / 180, .scale = 1 }, half;

  cw_hand_between (&half, &from, &to, 0.5);
  g_assert_cmpfloat_with_epsilon (cos (half.yaw), -1, 1e-9);
  cw_hand_between (&half, &from, &to, 1);
  g_assert_cmpfloat_with_epsilon (half.yaw, to.yaw, 1e-12);
}

/* The slit's box is its corners: 7 to 9 in across, 2 to 4 in down, at 60 pixels an inch from (100, 50). */
static void
boxes_hold_their_marks (Fixture *f, gconstpointer data)
{
  double box[4];

  cw_hand_mark_box (&f->view, f->map, g_ptr_array_index (f->map->piece->marks, 1), box);
  g_assert_cmpfloat_with_epsilon (box[0], 100 + 7 * 60, 1e-6);
  g_assert_cmpfloat_with_epsilon (box[1], 50 + 2 * 60, 1e-6);
  g_assert_cmpfloat_with_epsilon (box[2], 100 + 9 * 60, 1e-6);
  g_assert_cmpfloat_with_epsilon (box[3], 50 + 4 * 60, 1e-6);
}

#define ADD(path, test) g_test_add ("/draw/hand/" path, Fixture, NULL, set_up, test, tear_down)

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  ADD ("aim-keeps-to-the-snap-step", aim_keeps_to_the_snap_step);
  ADD ("aim-straightens-and-ends-at-the-edge", aim_straightens_and_ends_at_the_edge);
  ADD ("aim-leaves-slants-alone", aim_leaves_slants_alone);
  ADD ("aim-is-held-by-ends", aim_is_held_by_ends);
  ADD ("measures-follow-the-lie", measures_follow_the_lie);
  ADD ("steps-go-where-they-are-seen", steps_go_where_they_are_seen);
  ADD ("marks-slide-whole", marks_slide_whole);
  ADD ("corners-and-rims-stretch", corners_and_rims_stretch);
  ADD ("shifts-land-on-the-step", shifts_land_on_the_step);
  ADD ("hands-stay-on-the-sheet", hands_stay_on_the_sheet);
  ADD ("zoom-keeps-the-place", zoom_keeps_the_place);
  ADD ("boxes-hold-their-marks", boxes_hold_their_marks);
  g_test_add_func ("/draw/hand/looks-go-the-short-way", looks_go_the_short_way);
  return g_test_run ();
}
