/* test-make-glue.c: glue put on as people do: areas against closed forms, and every edit undone to the same bytes.
 *
 * Outside source: elementary geometry (areas of rectangles, rings, sectors of a circle and polygons). What a plan means
 * (squares in corners, strips of tape round an opening) is common practice, no source.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "geometry/cw-region.h"
#include "geometry/cw-tolerance.h"
#include "make/cw-make-glue.h"
#include "panel/cw-panel-map.h"
#include "panel/cw-path-flatten.h"

#include "card-fixture.h"

#include <math.h>
#include <string.h>

#define IN(n) ((gint32) ((n) *64) * 127) /* n in whole 64ths of an inch */
#define SQ_IN (2.0 * CW_TICKS_PER_INCH * CW_TICKS_PER_INCH)
/* What rounding to ticks may do to an outline 20 in round: 20 x 8128 ticks x 1 tick. Square inches. */
#define ROUNDED (20.0 / CW_TICKS_PER_INCH)
/* Flattened arcs keep their area (design rules of the file: within 0.0005 sq in each). */
#define ARC 0.0005

/* One layer "mat" stuck on the cover of a half-fold by its back; glue as handed in. */
static CwDesign *
new_card (const char *outline, const char *marks, const char *glue)
{
  g_autofree char *text = g_strdup_printf (
    CARD_HEAD CARD_INCH
    "'papers': [], 'pieces': [ { 'id': 'base', 'ground': true, 'hold': ['9 in', '1 in'],"
    " 'outline': [['0 in','0 in'],['20 in','0 in'],['20 in','10 in'],['0 in','10 in']], 'marks': ["
    " { 'id': 'spine', 'kind': 'score', 'fold': 'toward', 'line': [['10 in','0 in'],['10 in','10 in']] } ] },"
    " { 'id': 'mat', 'outline': %s, 'marks': [%s] } ],"
    " 'glue': [%s],"
    " 'steps': [ { 'id': 'stick', 'do': 'stick', 'piece': 'mat', 'on': { 'piece': 'base', 'panel': ['1 in','1 in'],"
    "   'face': 'front' }, 'facing': 'back', 'at': ['1/2 in','1/2 in'] },"
    " { 'id': 'later', 'do': 'glue', 'zones': [%s] } ] }",
    outline, marks, glue, glue[0] ? "'g'" : "");

  return card_design (text);
}

static CwRegion
zone_region (const CwGlue *zone)
{
  g_autoptr (GArray) points = cw_path_flatten (&zone->area, TRUE);
  CwPolygon polygon = cw_polygon_from_points (points);
  CwRegion raw = { 1, &polygon }, none = { 0 };
  CwRegion region = cw_region_overlay (&raw, &none, CW_OVERLAY_UNION);

  /* One outline that does not cross itself: mending it changes nothing but which way round it runs. */
  g_assert_cmpuint (region.n_polygons, ==, 1);
  g_assert_cmpuint (region.polygons[0].n_rings, ==, 1);
  g_assert_cmpint (ABS (cw_polygon_area2 (&polygon)), ==, cw_region_area2 (&region));
  cw_polygon_clear (&polygon);
  return region;
}

/* The area of all zones of the mat in square inches. They must lie within its paper and nowhere on one another. */
static double
total_area (CwDesign *design)
{
  g_autoptr (CwPanelSet) set = cw_panel_set_new (design);
  CwRegion paper = cw_region_from_polygon (&g_array_index (set->maps[1].panels, CwPanel, 0).outline);
  CwRegion all = { 0 }, outside;
  gint64 sum = 0;

  for (guint i = 0; i < design->glue->len; i++)
    {
      CwRegion zone = zone_region (g_ptr_array_index (design->glue, i));
      CwRegion more = cw_region_overlay (&all, &zone, CW_OVERLAY_UNION);

      sum += cw_region_area2 (&zone);
      cw_region_clear (&all);
      cw_region_clear (&zone);
      all = more;
    }
  outside = cw_region_overlay (&all, &paper, CW_OVERLAY_DIFFERENCE);
  g_assert_cmpfloat_with_epsilon ((double) cw_region_area2 (&all) / SQ_IN, (double) sum / SQ_IN, ROUNDED);
  g_assert_cmpfloat_with_epsilon ((double) cw_region_area2 (&outside) / SQ_IN, 0, ROUNDED);
  cw_region_clear (&outside);
  cw_region_clear (&all);
  cw_region_clear (&paper);
  return (double) sum / SQ_IN;
}

/* Does the edit; it can be undone to the same bytes, and what it makes can be read again. */
static void
do_edit (CwDesign **design, CwEdit *edit)
{
  g_autoptr (CwEdit) owned = edit;
  g_autoptr (GError) error = NULL;
  g_assert_nonnull (owned);
  g_autofree char *before = cw_design_to_text (*design, NULL);
  g_autoptr (CwDesign) after = cw_edit_apply (owned, *design);
  g_autoptr (CwEdit) inverse = cw_edit_invert (owned);
  g_autoptr (CwDesign) back = cw_edit_apply (inverse, after);
  g_autofree char *undone = cw_design_to_text (back, NULL);
  g_autofree char *text = cw_design_to_text (after, NULL);
  g_autoptr (CwDesign) read = cw_design_from_text (text, -1, "test", &error);
  g_autofree char *again = NULL;

  g_assert_cmpstr (undone, ==, before);
  g_assert_no_error (error);
  again = cw_design_to_text (read, NULL);
  g_assert_cmpstr (again, ==, text);
  cw_design_unref (*design);
  *design = g_steal_pointer (&after);
}

/* Puts glue on the mat's back and tells its area; `n_zones` are made. */
static double
glued (const char *outline, const char *marks, const CwGluePlan *plan, guint n_zones)
{
  g_autoptr (CwDesign) design = new_card (outline, marks, "");
  g_autoptr (GError) error = NULL;
  CwEdit *edit = cw_make_add_glue (design, "mat", 0, CW_FACE_BACK, CW_GLUE_TAPE, plan, &error);

  g_assert_no_error (error);
  do_edit (&design, edit);
  g_assert_cmpuint (design->glue->len, ==, n_zones);
  for (guint i = 0; i < n_zones; i++)
    {
      const CwGlue *zone = g_ptr_array_index (design->glue, i);
      const CwTarget *holds = g_ptr_array_index (zone->holds, 0);

      g_assert_cmpint (zone->face, ==, CW_FACE_BACK);
      g_assert_cmpint (zone->kind, ==, CW_GLUE_TAPE);
      /* What the step that sticks it down names. */
      g_assert_cmpuint (zone->holds->len, ==, 1);
      g_assert_cmpstr (holds->piece, ==, "base");
      g_assert_true (holds->has_panel);
    }
  return total_area (design);
}

#define OBLONG "[['0 in','0 in'],['6 in','0 in'],['6 in','4 in'],['0 in','4 in']]"
#define PORT "{ 'id': 'w', 'kind': 'window', 'rect': [['2 in','1 in'],['4 in','3 in']] }"
#define SMALL_PORT "{ 'id': 'w', 'kind': 'window', 'rect': [['2 1/4 in','1 1/4 in'],['3 3/4 in','2 3/4 in']] }"
#define PORTHOLE "{ 'id': 'w', 'kind': 'window', 'circle': { 'centre': ['3 in','2 in'], 'radius': '1 in' } }"
#define LETTER_L "[['0 in','0 in'],['2 in','0 in'],['2 in','3 in'],['5 in','3 in'],['5 in','5 in'],['0 in','5 in']]"
#define DISC "[['0 in','3 in'],{'through':['3 in','0 in']},['6 in','3 in'],{'through':['3 in','6 in']}]"
#define ARCH "[['0 in','3 in'],{'through':['3 in','0 in']},['6 in','3 in'],['6 in','5 in'],['0 in','5 in']]"
/* A tab: 6 along the top, ends slanted by 45 degrees outward. */
#define TAB "[['0 in','0 in'],['6 in','0 in'],['7 in','1 in'],['7 in','2 in'],['0 in','2 in']]"

static void
test_all_over (void)
{
  static const CwGluePlan whole = { .shape = CW_GLUE_SHAPE_ALL_OVER };
  static const CwGluePlan inside = { .shape = CW_GLUE_SHAPE_ALL_OVER, .inset = IN (0.25) };

  g_assert_cmpfloat_with_epsilon (glued (OBLONG, "", &whole, 1), 24, 1e-9);
  g_assert_cmpfloat_with_epsilon (glued (OBLONG, "", &inside, 1), 5.5 * 3.5, 1e-9);
  /* Round a window: a strip above, one below, one on either side. */
  g_assert_cmpfloat_with_epsilon (glued (OBLONG, PORT, &whole, 4), 24 - 4, 1e-9);
  g_assert_cmpfloat_with_epsilon (glued (OBLONG, PORT, &inside, 4), 5.5 * 3.5 - 2.5 * 2.5, 1e-9);
  g_assert_cmpfloat_with_epsilon (glued (OBLONG, PORTHOLE, &whole, 2), 24 - G_PI, ARC);
}

static void
test_rim (void)
{
  static const CwGluePlan rim = { .shape = CW_GLUE_SHAPE_RIM, .size = IN (0.5) };
  static const CwGluePlan inner = { .shape = CW_GLUE_SHAPE_RIM, .size = IN (0.25), .inset = IN (0.125) };
  static const CwGluePlan wide = { .shape = CW_GLUE_SHAPE_RIM, .size = IN (3) };

  g_assert_cmpfloat_with_epsilon (glued (OBLONG, "", &rim, 4), 6 * 4 - 5 * 3, 1e-9);
  g_assert_cmpfloat_with_epsilon (glued (OBLONG, "", &inner, 4), 5.75 * 3.75 - 5.25 * 3.25, 1e-9);
  /* A rim round the window as well: they touch above and below it. */
  g_assert_cmpfloat_with_epsilon (glued (OBLONG, PORT, &rim, 8), 9 + 3 * 3 - 2 * 2, 1e-9);
  /* Wider than half the piece: all over. */
  g_assert_cmpfloat_with_epsilon (glued (OBLONG, "", &wide, 1), 24, 1e-9);
  g_assert_cmpfloat_with_epsilon (glued (DISC, "", &rim, 2), G_PI * (9 - 2.5 * 2.5), 2 * ARC);
  /* A letter L: its perimeter times the width, less one square a corner of paper, plus one in the notch. */
  g_assert_cmpfloat_with_epsilon (glued (LETTER_L, "", &rim, 2), 20 * 0.5 - 5 * 0.25 + 0.25, 1e-9);
}

static void
test_corners (void)
{
  static const CwGluePlan corners = { .shape = CW_GLUE_SHAPE_CORNERS, .size = IN (0.75) };
  static const CwGluePlan inside = { .shape = CW_GLUE_SHAPE_CORNERS, .size = IN (0.75), .inset = IN (0.25) };
  double half_turn = sqrt (0.5);

  g_assert_cmpfloat_with_epsilon (glued (OBLONG, "", &corners, 4), 4 * 0.5625, 1e-9);
  g_assert_cmpfloat_with_epsilon (glued (OBLONG, PORT, &inside, 4), 4 * 0.5625, 1e-9);
  /* The notch of an L is no corner of paper. */
  g_assert_cmpfloat_with_epsilon (glued (LETTER_L, "", &corners, 5), 5 * 0.5625, 1e-9);
  /* An arch: two corners at its foot; at the springing the edge runs on. */
  g_assert_cmpfloat_with_epsilon (glued (ARCH, "", &corners, 2), 2 * 0.5625, 1e-9);
  /* The tab's corners: three of 90 degrees and two of 135, whose rhombs have the area s s sin 135. */
  g_assert_cmpfloat_with_epsilon (glued (TAB, "", &(CwGluePlan){ .shape = CW_GLUE_SHAPE_CORNERS, .size = IN (0.5) }, 5),
                                  3 * 0.25 + 2 * 0.25 * half_turn, ROUNDED);
}

static void
test_strip (void)
{
  static const CwGluePlan left = { .shape = CW_GLUE_SHAPE_STRIP, .size = IN (0.5), .along = { 0, IN (2) } };
  static const CwGluePlan inside
    = { .shape = CW_GLUE_SHAPE_STRIP, .size = IN (0.5), .inset = IN (0.25), .along = { IN (3), IN (4) } };
  static const CwGluePlan port = { .shape = CW_GLUE_SHAPE_STRIP, .size = IN (0.5), .along = { IN (2.25), IN (2) } };
  static const CwGluePlan slant = { .shape = CW_GLUE_SHAPE_STRIP, .size = IN (0.25), .along = { IN (6.5), IN (0.5) } };
  static const CwGluePlan top = { .shape = CW_GLUE_SHAPE_STRIP, .size = IN (0.5), .along = { IN (3), IN (0.25) } };

  g_assert_cmpfloat_with_epsilon (glued (OBLONG, "", &left, 1), 4 * 0.5, 1e-9);
  g_assert_cmpfloat_with_epsilon (glued (OBLONG, "", &inside, 1), 5.5 * 0.5, 1e-9);
  /* Along one side of a window, on the paper. */
  g_assert_cmpfloat_with_epsilon (glued (OBLONG, PORT, &port, 1), 2 * 0.5, 1e-9);
  /* Along a slanted edge both of whose corners are blunt the whole band is there: length times width. */
  g_assert_cmpfloat_with_epsilon (glued (TAB, "", &slant, 1), sqrt (2) * 0.25, ROUNDED);
  /* Along an arch the strip follows it from foot to foot: half a ring and two straight legs. */
  g_assert_cmpfloat_with_epsilon (glued (ARCH, "", &top, 1), G_PI / 2 * (9 - 2.5 * 2.5) + 2 * 2 * 0.5, 2 * ARC);
  /* All round a disc. */
  g_assert_cmpfloat_with_epsilon (glued (DISC, "", &top, 2), G_PI * (9 - 2.5 * 2.5), 2 * ARC);
}

static void
test_dots (void)
{
  static const CwGluePlan dots
    = { .shape = CW_GLUE_SHAPE_DOTS, .size = IN (0.5), .spacing = IN (1), .inset = IN (0.25) };
  double dot = G_PI / 16;

  /* Middles may stand in 5 x 3 in: six by four, an inch apart. */
  g_assert_cmpfloat_with_epsilon (glued (OBLONG, "", &dots, 24), 24 * dot, 24 * ARC);
  /* A window 1 1/2 x 1 1/2 in the middle keeps them half an inch away: of columns at x = 1/2 .. 5 1/2 and rows at
   * y = 1/2 .. 3 1/2 it takes those inside 1 3/4 .. 4 1/4 by 3/4 .. 3 1/4: two by two. */
  g_assert_cmpfloat_with_epsilon (glued (OBLONG, SMALL_PORT, &dots, 20), 20 * dot, 20 * ARC);
}

static void
test_reshape (void)
{
  static const CwGluePlan rim = { .shape = CW_GLUE_SHAPE_RIM, .size = IN (0.5) };
  static const CwGluePlan whole = { .shape = CW_GLUE_SHAPE_ALL_OVER, .inset = IN (0.125) };
  g_autoptr (CwDesign) design
    = new_card (OBLONG, "",
                "{ 'id': 'g', 'piece': 'mat', 'face': 'back', 'kind': 'foam', 'height': '3 mm', 'apply': 'later',"
                " 'area': [['1 in','1 in'],['2 in','1 in'],['2 in','2 in']], 'holds': 'base' },"
                " { 'id': 'h', 'piece': 'mat', 'face': 'front', 'kind': 'wet',"
                " 'area': [['1 in','1 in'],['2 in','1 in'],['2 in','2 in']], 'holds': 'base' }");
  g_autoptr (GError) error = NULL;
  const CwStep *step;
  CwPoint corners[3] = { { IN (1), IN (1) }, { IN (5), IN (1) }, { IN (1), IN (3) } };
  CwRing ring = { 3, corners };
  CwPolygon triangle = { 1, &ring };
  CwRegion region = { 1, &triangle };

  do_edit (&design, cw_make_reshape_glue (design, "g", &rim, &error));
  g_assert_cmpuint (design->glue->len, ==, 5);
  step = cw_design_get_step (design, "later");
  g_assert_cmpuint (step->zones->len, ==, 4);
  for (guint i = 0; i < 4; i++)
    {
      const CwGlue *zone = g_ptr_array_index (design->glue, i);

      g_assert_cmpstr (zone->id, ==, g_ptr_array_index (step->zones, i));
      g_assert_cmpint (zone->kind, ==, CW_GLUE_FOAM);
      g_assert_cmpint (zone->height.ticks, ==, 3 * CW_TICKS_PER_MM);
      g_assert_cmpstr (zone->apply, ==, "later");
    }
  g_assert_cmpstr (((CwGlue *) g_ptr_array_index (design->glue, 0))->id, ==, "g");
  g_assert_cmpstr (((CwGlue *) g_ptr_array_index (design->glue, 4))->id, ==, "h");

  do_edit (&design, cw_make_reshape_glue (design, "g", &whole, &error));
  g_assert_cmpuint (design->glue->len, ==, 5);
  do_edit (&design, cw_make_reshape_glue_to (design, "h", &region, &error));
  {
    CwRegion zone = zone_region (g_ptr_array_index (design->glue, 4));

    g_assert_cmpfloat_with_epsilon ((double) cw_region_area2 (&zone) / SQ_IN, 4, 1e-9);
    cw_region_clear (&zone);
  }
  /* A further zone of the face holds what the others hold, in the same step; foam has a height. */
  do_edit (&design, cw_make_add_glue_on (design, "mat", CW_FACE_BACK, CW_GLUE_FOAM, &region, &error));
  {
    const CwGlue *zone = g_ptr_array_index (design->glue, 5);

    g_assert_cmpstr (zone->apply, ==, "later");
    g_assert_true (zone->has_height);
    g_assert_cmpuint (zone->holds->len, ==, 1);
    g_assert_false (((CwTarget *) g_ptr_array_index (zone->holds, 0))->has_panel);
  }
}

/* Glue laid instead of what is there: one face is cleared but for what its first zone says, other faces are left alone.
 */
static void
test_lay (void)
{
  static const CwGluePlan rim = { .shape = CW_GLUE_SHAPE_RIM, .size = IN (0.5) };
  static const CwGluePlan corners = { .shape = CW_GLUE_SHAPE_CORNERS, .size = IN (1) };
  g_autoptr (CwDesign) design
    = new_card (OBLONG, "",
                "{ 'id': 'g', 'piece': 'mat', 'face': 'back', 'kind': 'foam', 'height': '3 mm', 'apply': 'later',"
                " 'area': [['1 in','1 in'],['2 in','1 in'],['2 in','2 in']], 'holds': 'base' },"
                " { 'id': 'h', 'piece': 'mat', 'face': 'front', 'kind': 'wet',"
                " 'area': [['1 in','1 in'],['2 in','1 in'],['2 in','2 in']], 'holds': 'base' }");
  g_autoptr (GError) error = NULL;
  CwPoint places[4] = { { IN (1), IN (1) }, { IN (4), IN (1) }, { IN (4), IN (3) }, { IN (1), IN (3) } };
  CwRing ring = { 4, places };
  CwPolygon box = { 1, &ring };
  CwRegion region = { 1, &box };
  const CwGlue *first;
  CwRegion zone;

  do_edit (&design, cw_make_lay_glue (design, "mat", 0, CW_FACE_BACK, CW_GLUE_TAPE, &rim, &error));
  g_assert_cmpuint (design->glue->len, ==, 5);
  do_edit (&design, cw_make_lay_glue (design, "mat", 0, CW_FACE_BACK, CW_GLUE_FOAM, &corners, &error));
  g_assert_cmpuint (design->glue->len, ==, 5);
  g_assert_cmpuint (cw_design_get_step (design, "later")->zones->len, ==, 4);
  do_edit (&design, cw_make_lay_glue_on (design, "mat", 0, CW_FACE_BACK, CW_GLUE_WET, &region, &error));
  g_assert_cmpuint (design->glue->len, ==, 2);
  g_assert_cmpuint (cw_design_get_step (design, "later")->zones->len, ==, 1);
  first = g_ptr_array_index (design->glue, 0);
  g_assert_cmpstr (first->id, ==, "g");
  g_assert_cmpstr (first->apply, ==, "later");
  g_assert_cmpint (first->kind, ==, CW_GLUE_WET);
  g_assert_false (first->has_height);
  g_assert_cmpuint (first->holds->len, ==, 1);
  zone = zone_region (first);
  g_assert_cmpfloat_with_epsilon ((double) cw_region_area2 (&zone) / SQ_IN, 3 * 2, 1e-9);
  cw_region_clear (&zone);
  g_assert_cmpstr (((CwGlue *) g_ptr_array_index (design->glue, 1))->id, ==, "h");
  do_edit (&design, cw_make_strip_glue (design, "mat", 0, CW_FACE_BACK));
  g_assert_cmpuint (design->glue->len, ==, 1);
  do_edit (&design, cw_make_lay_glue (design, "mat", 0, CW_FACE_BACK, CW_GLUE_FOAM, &corners, &error));
  g_assert_cmpuint (design->glue->len, ==, 5);
  first = g_ptr_array_index (design->glue, 1);
  g_assert_cmpstr (((CwTarget *) g_ptr_array_index (first->holds, 0))->piece, ==, "base");
  g_assert_true (first->has_height);
}

static void
assert_refused (CwDesign *design, const CwGluePlan *plan)
{
  g_autoptr (GError) error = NULL;

  g_assert_null (cw_make_add_glue (design, "mat", 0, CW_FACE_BACK, CW_GLUE_DOTS, plan, &error));
  g_assert_error (error, CW_MAKE_ERROR, CW_MAKE_ERROR_IMPOSSIBLE);
}

static void
test_refused (void)
{
  g_autoptr (CwDesign) oblong = new_card (OBLONG, "", ""), disc = new_card (DISC, "", "");
  CwRegion none = { 0 };
  g_autoptr (GError) error = NULL;

  /* A disc has no corners; a rim 3 in inside an edge 4 in apart has no room; a dot every 1/8 in is too many. */
  assert_refused (disc, &(CwGluePlan){ .shape = CW_GLUE_SHAPE_CORNERS, .size = IN (0.5) });
  assert_refused (oblong, &(CwGluePlan){ .shape = CW_GLUE_SHAPE_RIM, .size = IN (0.5), .inset = IN (3) });
  assert_refused (oblong, &(CwGluePlan){ .shape = CW_GLUE_SHAPE_DOTS, .size = IN (5), .spacing = IN (1) });
  assert_refused (oblong, &(CwGluePlan){ .shape = CW_GLUE_SHAPE_DOTS, .size = IN (0.125), .spacing = IN (0.125) });
  g_assert_null (cw_make_add_glue_on (oblong, "mat", CW_FACE_BACK, CW_GLUE_WET, &none, &error));
  g_assert_error (error, CW_MAKE_ERROR, CW_MAKE_ERROR_IMPOSSIBLE);
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/make/make-glue/all-over", test_all_over);
  g_test_add_func ("/make/make-glue/rim", test_rim);
  g_test_add_func ("/make/make-glue/corners", test_corners);
  g_test_add_func ("/make/make-glue/strip", test_strip);
  g_test_add_func ("/make/make-glue/dots", test_dots);
  g_test_add_func ("/make/make-glue/reshape", test_reshape);
  g_test_add_func ("/make/make-glue/lay", test_lay);
  g_test_add_func ("/make/make-glue/refused", test_refused);
  return g_test_run ();
}
