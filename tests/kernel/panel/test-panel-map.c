/* test-panel-map.c: panels and hinges of drawings whose answers follow from their measures.
 *
 * Areas and lengths are worked out beside each check from the measures drawn; rules are those of the model ("Marks and
 * outlines") and of the kernel's agreed design, section 2.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "sheet-fixture.h"

#include <math.h>

#define SHEET "0,0 160,0 160,112 0,112" /* 10 x 7 inch */

static const CwHinge *
hinge_at (const CwPanelSet *set, guint i)
{
  return cw_panel_set_get_hinge (set, i, NULL);
}

static void
assert_counts (const CwPanelSet *set, guint panels, guint hinges)
{
  g_assert_cmpuint (cw_panel_set_n_panels (set), ==, panels);
  g_assert_cmpuint (cw_panel_set_n_hinges (set), ==, hinges);
}

/* The lantern window card of the model: 5 x 7 twice, a corner of 2 x 2 / 2, a port of 3/4 radius. */
static void
test_corner (void)
{
  g_autoptr (CwPanelSet) set = fixture_set (SHEET "; score spine toward 80,0 80,112; cut slit 96,32 128,32 128,64;"
                                                  "score diagonal away 96,32 128,64; circle port 32,32 12");

  assert_counts (set, 3, 2);
  g_assert_cmpfloat_with_epsilon (fixture_area (set, 144, 96), 33, 1e-9);
  g_assert_cmpfloat_with_epsilon (fixture_area (set, 120, 40), 2, 1e-9);
  g_assert_cmpfloat_with_epsilon (fixture_area (set, 4, 4), 35 - G_PI * 0.5625, 0.0005);
  g_assert_cmpint (hinge_at (set, 0)->fold, ==, CW_FOLD_TOWARD);
  g_assert_cmpint (hinge_at (set, 1)->fold, ==, CW_FOLD_AWAY);
  g_assert_cmpfloat_with_epsilon (hinge_at (set, 1)->length / CW_TICKS_PER_INCH, 2 * G_SQRT2, 1e-3);
  g_assert_cmpuint (set->findings->len, ==, 0);
}

/* Left and right as seen with the front up, walking from p to q: down along the spine, left is the right half. */
static void
test_left_right (void)
{
  g_autoptr (CwPanelSet) set = fixture_set (SHEET "; score spine toward 80,112 80,0");
  const CwHinge *hinge = hinge_at (set, 0);

  assert_counts (set, 2, 1);
  g_assert_cmpint (hinge->p.y, ==, 0);
  g_assert_cmpint (hinge->q.y, ==, 7 * CW_TICKS_PER_INCH);
  g_assert_cmpuint (hinge->left, ==, cw_panel_map_find (&set->maps[0], cw_point (120 * 508, 50 * 508)));
  g_assert_cmpuint (hinge->right, ==, cw_panel_map_find (&set->maps[0], cw_point (40 * 508, 50 * 508)));
  g_assert_cmpuint (hinge->right, ==, 0);
}

/* A step cut across the spine: the two ends of the spine are one hinge of 1 + 1 inch, named after both scores. */
static void
test_interrupted_spine (void)
{
  g_autoptr (CwPanelSet) set
    = fixture_set (SHEET "; score top toward 80,0 80,16; score bottom toward 80,96 80,112; cut a 40,16 120,16;"
                         "cut b 40,96 120,96; score l toward 40,16 40,96; score m away 90,16 90,96;"
                         "score r toward 120,16 120,96");
  const CwHinge *spine;

  assert_counts (set, 4, 4);
  spine = hinge_at (set, 0);
  g_assert_cmpuint (spine->stretches->len, ==, 2);
  g_assert_cmpuint (spine->scores->len, ==, 2);
  g_assert_cmpfloat_with_epsilon (spine->length, 2 * CW_TICKS_PER_INCH, 1e-9);
  g_assert_cmpint (spine->q.y - spine->p.y, ==, 7 * CW_TICKS_PER_INCH);
  g_assert_cmpuint (fixture_count (set, CW_FINDING_SCORE_STOPS_SHORT), ==, 0);
}

/* One score crossed by slits: the same as drawn in pieces; a cut laid over part of it wins there and is no fault. */
static void
test_cut_wins (void)
{
  g_autoptr (CwPanelSet) set = fixture_set (SHEET "; score spine toward 80,0 80,112; cut over 80,48 80,64;"
                                                  "cut across 64,80 96,80");

  assert_counts (set, 2, 1);
  g_assert_cmpfloat_with_epsilon (hinge_at (set, 0)->length, 6 * CW_TICKS_PER_INCH, 1e-9);
  g_assert_cmpuint (set->findings->len, ==, 0);
}

/* Stretches of one slanted line are one hinge though the crossings with slits round to ticks; two lines a sixteenth
 * apart are two. */
static void
test_slanted_line (void)
{
  g_autoptr (CwPanelSet) one
    = fixture_set (SHEET "; score s toward 0,0 160,111; cut a 30,10 31,60; cut b 77,30 77.1,90; cut c 100,50 101,100");
  g_autoptr (CwPanelSet) two = fixture_set (SHEET "; score s toward 0,0 80,56; score t toward 80,56 160,111");
  const CwHinge *hinge;

  assert_counts (one, 2, 1);
  hinge = hinge_at (one, 0);
  /* The axis is the line as drawn: through (0,0) with slope 111/160. */
  for (int i = 0; i < 2; i++)
    g_assert_cmpfloat_with_epsilon (hinge->axis[i].x * 111 / 160, hinge->axis[i].y, 1e-6);
  assert_counts (two, 2, 2);
}

/* A mark that ends within one tick of a slanted edge ends on it (model). */
static void
test_within_a_tick (void)
{
  /* The score to the slanted right edge x = 160 - y / 3: at y = 50 that is 143 1/3 sixteenths, no whole tick. */
  g_autoptr (CwPanelSet) on = fixture_set ("0,0 160,0 120,120 0,120; score s toward 0,50 #72813,#25400");
  g_autoptr (CwPanelSet) off = fixture_set ("0,0 160,0 120,120 0,120; score s toward 0,50 #72809,#25400");

  assert_counts (on, 2, 1);
  g_assert_cmpuint (fixture_count (on, CW_FINDING_SCORE_STOPS_SHORT), ==, 0);
  g_assert_cmpuint (fixture_count (on, CW_FINDING_OFF_SHEET), ==, 0);
  assert_counts (off, 1, 0);
  g_assert_cmpuint (fixture_count (off, CW_FINDING_SCORE_STOPS_SHORT), ==, 1);
}

/* A window in a window is thrown away with it; one over the edge bites it (2 x 1 inch of 4 x 1); a score runs through
 * both as two stretches. */
static void
test_windows (void)
{
  g_autoptr (CwPanelSet) set
    = fixture_set (SHEET "; rect w 64,32 96,64; rect inner 72,40 88,56; rect bite 128,48 192,64;"
                         "score s toward 80,0 80,112");

  assert_counts (set, 2, 1);
  g_assert_cmpfloat_with_epsilon ((double) set->maps[0].area2 / 2 / CW_TICKS_PER_INCH / CW_TICKS_PER_INCH, 70 - 4 - 2,
                                  1e-9);
  g_assert_cmpuint (hinge_at (set, 0)->stretches->len, ==, 2);
  g_assert_cmpuint (set->findings->len, ==, 0);
}

/* Slits that end inside divide nothing; a curved score leaves the panel whole and is told as a note. */
static void
test_leaves_whole (void)
{
  g_autoptr (CwPanelSet) slit = fixture_set (SHEET "; cut a 20,20 60,20; cut b 0,60 100,60; cut c 30,90 60,90 60,75");
  g_autoptr (CwPanelSet) curved = fixture_set (SHEET "; score c toward 80,0 ~90,56 80,112; score s toward 0,56 90,56");

  assert_counts (slit, 1, 0);
  g_assert_cmpint (slit->maps[0].area2, ==, (gint64) 2 * 70 * CW_TICKS_PER_INCH * CW_TICKS_PER_INCH);
  g_assert_cmpuint (slit->findings->len, ==, 0);
  assert_counts (curved, 1, 0);
  g_assert_cmpuint (curved->findings->len, ==, 1);
  g_assert_cmpuint (fixture_count (curved, CW_FINDING_NOT_SIMULATED), ==, 1);
}

/* Named by points; on an edge the nearest panel; without `hold` the panel nearest the origin. */
static void
test_names (void)
{
  g_autoptr (CwDesign) design = fixture_design (SHEET "; score a toward 40,0 40,112; score b away 120,0 120,112");
  CwPiece *piece = design->pieces->pdata[0];
  CwName *name = cw_name_new ();
  g_autoptr (CwPanelSet) set = NULL;
  const CwPanelMap *map;

  name->name = g_strdup ("middle");
  name->at = cw_place_from_point (cw_point (100 * 508, 100 * 508), CW_UNIT_INCH);
  g_ptr_array_add (piece->names, name);
  set = cw_panel_set_new (design);
  map = &set->maps[0];
  g_assert_cmpstr (g_array_index (map->panels, CwPanel, 1).name, ==, "middle");
  g_assert_cmpint (g_array_index (map->panels, CwPanel, 1).inside.x, ==, 100 * 508);
  g_assert_null (g_array_index (map->panels, CwPanel, 0).name);
  g_assert_cmpuint (cw_panel_map_find (map, cw_point (160 * 508, 5)), ==, 2);
  g_assert_cmpuint (cw_panel_map_find (map, cw_point (161 * 508, 5)), ==, 2);
  g_assert_cmpuint (cw_panel_map_find_hold (map), ==, 0);
  g_assert_cmpuint (cw_panel_set_find_laid (set, 0), ==, 0);
  piece->has_hold = TRUE;
  piece->hold = name->at;
  g_assert_cmpuint (cw_panel_map_find_hold (map), ==, 1);
}

/* The panel a `stick` step lays down is the one that carries its first live zone (model, "Steps"). */
static void
test_laid (void)
{
  g_autoptr (CwDesign) design = fixture_design (SHEET);
  g_autoptr (CwPanelSet) set = NULL;
  CwStep *stick = cw_step_new (), *glue = cw_step_new ();

  g_ptr_array_add (design->pieces, fixture_piece ("tag", "0,0 60,0 60,20 0,20; score a toward 20,0 20,20;"
                                                         "score b toward 40,0 40,20"));
  stick->id = g_strdup ("stick");
  stick->what = CW_DO_STICK;
  stick->piece = g_strdup ("tag");
  glue->id = g_strdup ("glue");
  glue->what = CW_DO_GLUE;
  g_ptr_array_add (glue->zones, g_strdup ("late"));
  g_ptr_array_add (design->steps, stick);
  g_ptr_array_add (design->steps, glue);
  for (int i = 0; i < 2; i++)
    {
      CwGlue *zone = cw_glue_new ();

      zone->id = g_strdup (i == 0 ? "late" : "early");
      zone->piece = g_strdup ("tag");
      fixture_path (i == 0 ? "22,2 38,2 38,18 22,18" : "39,2 58,2 58,18 39,18", &zone->area);
      g_ptr_array_add (design->glue, zone);
    }
  set = cw_panel_set_new (design);
  g_assert_cmpuint (cw_panel_set_find_laid (set, 1), ==, 2);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/panel/panel-map/corner-with-slit", test_corner);
  g_test_add_func ("/panel/panel-map/left-and-right", test_left_right);
  g_test_add_func ("/panel/panel-map/interrupted-spine-is-one-hinge", test_interrupted_spine);
  g_test_add_func ("/panel/panel-map/cut-wins-over-score", test_cut_wins);
  g_test_add_func ("/panel/panel-map/slanted-line-is-one-hinge", test_slanted_line);
  g_test_add_func ("/panel/panel-map/ends-within-a-tick", test_within_a_tick);
  g_test_add_func ("/panel/panel-map/windows", test_windows);
  g_test_add_func ("/panel/panel-map/slits-and-curves-leave-whole", test_leaves_whole);
  g_test_add_func ("/panel/panel-map/names-and-points", test_names);
  g_test_add_func ("/panel/panel-map/laid-panel", test_laid);
  return g_test_run ();
}
