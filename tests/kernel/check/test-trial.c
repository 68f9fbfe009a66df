/* test-trial.c: what becomes of a card when a careful hand misses.
 *
 * Margins and levers are worked out from the measures drawn, by reflection: a point at x folded shut over a line at s
 * comes to 2 s - x, so a line scored d beside its place brings it 2 d beside its own. The rule that a verdict which a
 * miss of `hand` turns is `tight-margin` is the agreed design's ("The careful hand").
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "card-fixture.h"

#include "check/cw-trial.h"
#include "geometry/cw-tolerance.h"

#include <math.h>

#define HAND "'measure': { 'unit': 'in', 'snap': '1/16 in', 'hand': '1/32 in', 'give': '1/32 in' }, "
#define MISS (CW_TICKS_PER_INCH / 32.0)

static CwAnalysis *
try_text (const char *text)
{
  g_autoptr (CwDesign) design = card_design (text);
  g_autoptr (CwAnalysis) analysis = cw_analysis_new (design);

  return cw_analysis_try_hand (analysis, NULL);
}

static const CwFinding *
find_tight (const CwAnalysis *analysis, CwFindingCode would_be)
{
  for (guint i = 0; i < analysis->findings->len; i++)
    {
      const CwFinding *finding = analysis->findings->pdata[i];

      if (finding->code == CW_FINDING_TIGHT_MARGIN && finding->has_would_be && finding->would_be == would_be)
        return finding;
    }
  return NULL;
}

static guint
count_tight (const CwAnalysis *analysis)
{
  guint n = 0;

  for (guint i = 0; i < analysis->findings->len; i++)
    n += ((const CwFinding *) analysis->findings->pdata[i])->code == CW_FINDING_TIGHT_MARGIN;
  return n;
}

/* Two doors of 3 inches on a middle of 6; the sheet is so wide that the right one ends where it is said. */
static char *
gate_text (const char *measure, const char *width)
{
  return g_strdup_printf (CARD_HEAD
                          "%s 'pieces': [ { 'id': 'base', 'outline': [['0','0'],['%s','0'],['%s','6'],['0','6']],"
                          " 'hold': ['6','3'], 'marks': ["
                          " { 'id': 'left', 'kind': 'score', 'fold': 'toward', 'line': [['3','0'],['3','6']] },"
                          " { 'id': 'right', 'kind': 'score', 'fold': 'toward', 'line': [['9','0'],['9','6']] } ] } ],"
                          "'steps': [ { 'id': 'close', 'do': 'fold', 'rest': 'closed', 'folds': ["
                          " { 'score': 'base/left', 'to': 180 }, { 'score': 'base/right', 'to': 180 } ] } ] }",
                          measure, width, width);
}

/* A mat inside the card that ends so far from the spine: one that is stuck over it stands in the way of the cover. */
static void
test_mat_at_the_spine (void)
{
  static const struct
  {
    const char *at;
    double margin; /* of an inch; -1: a hand does not miss so far */
  } mats[] = { { "5", 0 }, { "5 1/64", 1 / 64.0 }, { "5 3/128", 3 / 128.0 }, { "5 1/32", -1 }, { "5 1/8", -1 } };

  for (guint i = 0; i < G_N_ELEMENTS (mats); i++)
    {
      g_autofree char *text = g_strdup_printf (
        CARD_HEAD HAND
        "'pieces': [ { 'id': 'base', 'outline': [['0','0'],['10','0'],['10','7'],['0','7']], 'hold': ['7','1/4'],"
        "  'marks': [ { 'id': 's', 'kind': 'score', 'fold': 'toward', 'line': [['5','0'],['5','7']] } ] },"
        " { 'id': 'mat', 'outline': [['0','0'],['4','0'],['4','6'],['0','6']], 'marks': [] } ],"
        "'glue': [ { 'id': 'g', 'piece': 'mat', 'face': 'back', 'kind': 'tape', 'holds': 'base',"
        "  'area': [['1','1'],['3','1'],['3','5'],['1','5']] } ],"
        "'steps': [ { 'id': 'stick', 'do': 'stick', 'piece': 'mat', 'on': { 'piece': 'base', 'panel': ['7','3'],"
        "  'face': 'front' }, 'facing': 'back', 'at': ['%s','1/2'] },"
        " { 'id': 'close', 'do': 'fold', 'rest': 'closed', 'folds': [ { 'score': 'base/s', 'to': 180 } ] } ] }",
        mats[i].at);
      g_autoptr (CwAnalysis) analysis = try_text (text);
      const CwFinding *tight = find_tight (analysis, CW_FINDING_PANELS_COLLIDE);

      /* Over the spine by little it only has no place among the layers. */
      if (tight == NULL)
        tight = find_tight (analysis, CW_FINDING_LAYERS_BLOCK);

      g_assert_cmpint (cw_analysis_get_verdict (analysis), <, CW_VERDICT_ERRORS);
      g_assert_cmpuint (count_tight (analysis), ==, mats[i].margin >= 0 ? 1u : 0u);
      if (mats[i].margin < 0)
        continue;
      g_assert_nonnull (tight);
      g_assert_cmpstr (tight->step, ==, "close");
      g_assert_cmpint (tight->amount_unit, ==, CW_AMOUNT_TICKS);
      /* To the hair that either panel is made smaller by when they pass, 0.1 mm (cw-tolerance.h), and half of it. */
      g_assert_cmpfloat_with_epsilon (tight->amount, mats[i].margin * CW_TICKS_PER_INCH, 3 * CW_COLLISION_HAIR_TICKS);
    }
}

/* Doors that just meet: where one score misses towards the middle by m, its door is longer and the middle shorter by
 * that, so both doors reach m / 2 beyond the half of it and run into one another (plane geometry). How little is seen
 * is a matter of the hairs (cw-tolerance.h); with a gap of 1/8 inch no hand brings them together. */
static void
test_doors (void)
{
  g_autofree char *meet = gate_text (HAND, "12"), *gap = gate_text (HAND, "11 7/8");
  g_autoptr (CwAnalysis) tight = try_text (meet), loose = try_text (gap);
  const CwFinding *finding = find_tight (tight, CW_FINDING_PANELS_COLLIDE);

  g_assert_cmpuint (count_tight (tight), ==, 1);
  g_assert_nonnull (finding);
  g_assert_cmpstr (finding->step, ==, "close");
  g_assert_cmpfloat (finding->amount, <, MISS);
  g_assert_cmpuint (count_tight (loose), ==, 0);
}

/* A hand that is absent, or says 0, does not miss; and nothing is tried twice. */
static void
test_no_hand (void)
{
  g_autofree char *none = gate_text (CARD_INCH, "12");
  g_autofree char *zero = gate_text ("'measure': { 'unit': 'in', 'hand': '0 in' },", "12");
  const char *const texts[] = { none, zero };

  for (guint i = 0; i < G_N_ELEMENTS (texts); i++)
    {
      g_autoptr (CwDesign) design = card_design (texts[i]);
      g_autoptr (CwAnalysis) analysis = cw_analysis_new (design);
      g_autoptr (CwAnalysis) tried = cw_analysis_try_hand (analysis, NULL);

      g_assert_true (tried == analysis);
      g_assert_null (tried->levers);
      g_assert_cmpuint (count_tight (tried), ==, 0);
    }
}

static void
test_once_and_cancelled (void)
{
  g_autofree char *text = gate_text (HAND, "12");
  g_autoptr (CwDesign) design = card_design (text);
  g_autoptr (CwAnalysis) analysis = cw_analysis_new (design);
  g_autoptr (CwAnalysis) tried = cw_analysis_try_hand (analysis, NULL);
  g_autoptr (CwAnalysis) again = cw_analysis_try_hand (tried, NULL);
  g_autoptr (GCancellable) cancelled = g_cancellable_new ();

  g_assert_true (tried != analysis && again == tried);
  g_assert_cmpuint (tried->n_tried, ==, 4); /* two lines, to either side */
  g_assert_cmpuint (tried->n_ways, ==, 4);
  g_assert_cmpuint (count_tight (analysis), ==, 0);
  g_cancellable_cancel (cancelled);
  g_assert_null (cw_analysis_try_hand (analysis, cancelled));
}

/* --- Levers ------------------------------------------------------------------------------------------------------- */

static const CwLever *
find_lever (const CwAnalysis *analysis, const char *item)
{
  for (guint i = 0; i < analysis->levers->len; i++)
    if (g_str_equal (((const CwLever *) analysis->levers->pdata[i])->miss->item, item))
      return analysis->levers->pdata[i];
  return NULL;
}

static void
assert_lever (const CwAnalysis *analysis, const char *item, double times, double within)
{
  const CwLever *lever = find_lever (analysis, item);

  g_assert_nonnull (lever);
  g_assert_cmpfloat_with_epsilon (lever->shows / MISS, times, within);
}

/* A door reflects in its line: twice. */
static void
test_lever_gate (void)
{
  g_autofree char *text = gate_text (HAND, "11 7/8"), *words = NULL;
  g_autoptr (CwAnalysis) analysis = try_text (text);

  g_assert_cmpuint (analysis->levers->len, ==, 2);
  assert_lever (analysis, "left", 2, 1e-9);
  assert_lever (analysis, "right", 2, 1e-9);
  words = cw_lever_dup_text (analysis->levers->pdata[0], analysis, FALSE);
  g_assert_true (g_str_has_prefix (words, "The score “left”: 1/32 in off shows as 1/16 in on "));
}

/* A layer lies as far off as it is stuck; its host's far line twice, and so does what lies on the host. */
static void
test_lever_layer (void)
{
  g_autoptr (CwAnalysis) analysis = try_text (
    CARD_HEAD HAND
    "'pieces': [ { 'id': 'base', 'outline': [['0','0'],['10','0'],['10','7'],['0','7']], 'hold': ['7','3'], 'marks': ["
    " { 'id': 'spine', 'kind': 'score', 'fold': 'toward', 'line': [['5','0'],['5','7']] } ] },"
    " { 'id': 'mat', 'outline': [['0','0'],['4','0'],['4','6'],['0','6']], 'marks': [] } ],"
    "'glue': [ { 'id': 'g', 'piece': 'mat', 'face': 'back', 'kind': 'tape', 'holds': 'base',"
    "  'area': [['1','1'],['3','1'],['3','5'],['1','5']] } ],"
    "'steps': [ { 'id': 'stick', 'do': 'stick', 'piece': 'mat', 'on': { 'piece': 'base', 'panel': ['2','3'],"
    "  'face': 'front' }, 'facing': 'back', 'at': ['1/2','1/2'] },"
    " { 'id': 'close', 'do': 'fold', 'rest': 'closed', 'folds': [ { 'score': 'base/spine', 'to': 180 } ] } ] }");

  g_assert_cmpuint (count_tight (analysis), ==, 0);
  assert_lever (analysis, "spine", 2, 1e-9);
  assert_lever (analysis, "stick", 1, 1e-9);
  g_assert_cmpstr (((const CwLever *) analysis->levers->pdata[0])->miss->item, ==, "spine");
}

/* A corner turned in on a slanted line: the line is scored beside itself, and the tip goes twice as far across it. */
static void
test_lever_corner (void)
{
  g_autoptr (CwAnalysis) analysis
    = try_text (CARD_HEAD HAND
                "'pieces': [ { 'id': 'base', 'outline': [['0','0'],['6','0'],['6','6'],['0','6']], 'hold': ['1','1'],"
                " 'marks': [ { 'id': 'slant', 'kind': 'score', 'fold': 'toward', 'line': [['3','6'],['6','3']] } ] } ],"
                "'steps': [ { 'id': 'turn-in', 'do': 'fold', 'folds': [ { 'score': 'base/slant', 'to': 180 } ] } ] }");

  /* Slanted points come to lie on ticks. */
  assert_lever (analysis, "slant", 2, 0.02);
}

/* A step standing in a card open at a right angle is a rectangle: with its edge scored d beside its place one of its
 * sides is d longer, the other d shorter, and they stand at right angles, so the edge moves by d times the root of 2;
 * to second order a little more. */
static void
test_lever_step (void)
{
  g_autoptr (CwAnalysis) analysis = try_text (
    CARD_HEAD HAND
    "'pieces': [ { 'id': 'base', 'outline': [['0','0'],['10','0'],['10','7'],['0','7']], 'hold': ['8','6'], 'marks': ["
    " { 'id': 'c1', 'kind': 'cut', 'line': [['3','2'],['6','2']] },"
    " { 'id': 'c2', 'kind': 'cut', 'line': [['3','5'],['6','5']] },"
    " { 'id': 's1', 'kind': 'score', 'fold': 'toward', 'line': [['5','0'],['5','2']] },"
    " { 'id': 's2', 'kind': 'score', 'fold': 'toward', 'line': [['5','5'],['5','7']] },"
    " { 'id': 'u', 'kind': 'score', 'fold': 'toward', 'line': [['3','2'],['3','5']] },"
    " { 'id': 'r', 'kind': 'score', 'fold': 'away', 'line': [['4','2'],['4','5']] },"
    " { 'id': 'v', 'kind': 'score', 'fold': 'toward', 'line': [['6','2'],['6','5']] } ] } ],"
    "'steps': [ { 'id': 'stand', 'do': 'fold', 'rest': 'standing', 'folds': [ { 'score': 'base/s1', 'to': 90 } ] } ] "
    "}");
  const CwLever *lever = find_lever (analysis, "r");

  g_assert_cmpuint (count_tight (analysis), ==, 0);
  g_assert_nonnull (lever);
  g_assert_cmpfloat_with_epsilon (lever->shows / MISS, G_SQRT2, 0.05);
}

/* --- Glue, windows, envelopes ------------------------------------------------------------------------------------- */

/* A mat on the front over a window of it: glue that ends so far from the window's edge. Through the window it would
 * meet the other leaf. */
static char *
window_text (const char *edge)
{
  return g_strdup_printf (
    CARD_HEAD HAND
    "'pieces': [ { 'id': 'base', 'outline': [['0','0'],['10','0'],['10','7'],['0','7']], 'hold': ['7','1'], 'marks': ["
    "  { 'id': 'spine', 'kind': 'score', 'fold': 'toward', 'line': [['5','0'],['5','7']] },"
    "  { 'id': 'window', 'kind': 'window', 'rect': [['2','2'],['4','5']] } ] },"
    " { 'id': 'mat', 'outline': [['0','0'],['4','0'],['4','6'],['0','6']], 'marks': [] } ],"
    "'glue': [ { 'id': 'g', 'piece': 'mat', 'face': 'front', 'kind': 'tape', 'holds': 'base',"
    "  'area': [['1/4','1/4'],['3 3/4','1/4'],['3 3/4','%s'],['1/4','%s']] } ],"
    "'steps': [ { 'id': 'stick', 'do': 'stick', 'piece': 'mat', 'on': { 'piece': 'base', 'panel': ['1','1'],"
    "  'face': 'back' }, 'facing': 'front', 'at': ['1/2','1/2'] },"
    " { 'id': 'close', 'do': 'fold', 'rest': 'closed', 'folds': [ { 'score': 'base/spine', 'to': 180 } ] },"
    " { 'id': 'open', 'do': 'fold', 'phase': 'using', 'folds': [ { 'score': 'base/spine', 'to': 0 } ] } ] }",
    edge, edge);
}

/* The window begins 1 1/2 inch down the mat. */
static void
test_glue_at_window (void)
{
  static const struct
  {
    const char *edge;
    double margin;
  } zones[] = { { "1 1/2", 0 }, { "1 31/64", 1 / 64.0 }, { "1 15/32", -1 }, { "1 1/4", -1 } };

  for (guint i = 0; i < G_N_ELEMENTS (zones); i++)
    {
      g_autofree char *text = window_text (zones[i].edge);
      g_autoptr (CwAnalysis) analysis = try_text (text);
      const CwFinding *tight = find_tight (analysis, CW_FINDING_GLUED_SHUT);

      g_assert_cmpint (cw_analysis_get_verdict (analysis), <, CW_VERDICT_ERRORS);
      g_assert_cmpuint (count_tight (analysis), ==, zones[i].margin >= 0 ? 1u : 0u);
      if (zones[i].margin < 0)
        continue;
      g_assert_nonnull (tight);
      /* Less than 0.05 mm is no contact (cw-tolerance.h). */
      g_assert_cmpfloat_with_epsilon (tight->amount, zones[i].margin * CW_TICKS_PER_INCH, 2 * CW_COLLISION_HAIR_TICKS);
    }
}

/* A card of 5 x 7 in an envelope, either way round: the room that is there is the margin. */
static void
test_envelope (void)
{
  static const struct
  {
    const char *envelope;
    double room;
  } envelopes[] = { { "5 x 7", 0 },           { "7 1/64 x 5 1/4", 1 / 64.0 }, { "5 1/64 x 7 1/32", 1 / 64.0 },
                    { "5 1/32 x 7 1/4", -1 }, { "7 1/4 x 5 1/4", -1 },        { "4 63/64 x 8", -2 } };

  for (guint i = 0; i < G_N_ELEMENTS (envelopes); i++)
    {
      g_autofree char *text = g_strdup_printf (
        CARD_HEAD HAND
        "'pieces': [ { 'id': 'base', 'outline': [['0','0'],['10','0'],['10','7'],['0','7']], 'hold': ['7','3'],"
        " 'marks': [ { 'id': 's', 'kind': 'score', 'fold': 'toward', 'line': [['5','0'],['5','7']] } ] } ],"
        "'steps': [ { 'id': 'close', 'do': 'fold', 'rest': 'closed', 'folds': [ { 'score': 'base/s', 'to': 180 } ] } ],"
        "'wants': { 'size': '5 in x 7 in', 'envelope': '%s' } }",
        envelopes[i].envelope);
      g_autoptr (CwAnalysis) analysis = try_text (text);
      const CwFinding *tight = find_tight (analysis, CW_FINDING_TOO_BIG_FOR_ENVELOPE);

      g_assert_cmpuint (count_tight (analysis), ==, envelopes[i].room >= 0 ? 1u : 0u);
      if (envelopes[i].room >= 0)
        g_assert_cmpfloat_with_epsilon (tight->amount, envelopes[i].room * CW_TICKS_PER_INCH, 1e-9);
    }
}

/* What lies behind a front that folds over it with 1/32 inch to spare: a miss of the fold line counts twice, so
 * 1/64 inch of it is borne; that of the layer itself 1/32, which a hand may miss by. */
static void
test_hidden_by_a_fold (void)
{
  g_autoptr (CwAnalysis) analysis = try_text (
    CARD_HEAD HAND
    "'pieces': [ { 'id': 'base', 'outline': [['0','0'],['8','0'],['8','6'],['0','6']], 'hold': ['7','3'], 'marks': ["
    "  { 'id': 'fold', 'kind': 'score', 'fold': 'toward', 'line': [['3','0'],['3','6']] } ] },"
    " { 'id': 'note', 'outline': [['0','0'],['2','0'],['2','4'],['0','4']], 'marks': [] } ],"
    "'glue': [ { 'id': 'g', 'piece': 'note', 'face': 'back', 'kind': 'tape', 'holds': 'base',"
    "  'area': [['1/2','1/2'],['1 1/2','1/2'],['1 1/2','3 1/2'],['1/2','3 1/2']] } ],"
    "'steps': [ { 'id': 'stick', 'do': 'stick', 'piece': 'note', 'on': { 'piece': 'base', 'panel': ['7','3'],"
    "  'face': 'front' }, 'facing': 'back', 'at': ['3 31/32','1'] },"
    " { 'id': 'close', 'do': 'fold', 'rest': 'closed', 'folds': [ { 'score': 'base/fold', 'to': 180 } ] } ],"
    "'wants': { 'size': '5 in x 6 in', 'hidden': [ { 'piece': 'note', 'state': 'close', 'from': 'front' } ] } }");
  const CwFinding *tight = find_tight (analysis, CW_FINDING_LAYER_SHOWS);

  g_assert_cmpuint (count_tight (analysis), ==, 1);
  g_assert_nonnull (tight);
  g_assert_cmpuint (tight->marks->len, ==, 1);
  g_assert_cmpstr (tight->marks->pdata[0], ==, "base/fold");
  g_assert_cmpfloat_with_epsilon (tight->amount, CW_TICKS_PER_INCH / 64.0, CW_TOL_SHOWS_TICKS);
}

/* --- No false alarms ---------------------------------------------------------------------------------------------- */

static void
hold_quiet (const char *folder)
{
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  guint n = 0;

  g_assert_nonnull (dir);
  for (const char *name = g_dir_read_name (dir); name != NULL; name = g_dir_read_name (dir))
    {
      g_autofree char *path = g_build_filename (folder, name, NULL);
      g_autoptr (GFile) file = g_file_new_for_path (path);
      g_autoptr (CwDesign) design = NULL;
      g_autoptr (CwAnalysis) analysis = NULL, tried = NULL;

      if (!g_str_has_suffix (name, ".creasecard") || g_str_has_prefix (name, "tight-"))
        continue;
      design = cw_design_load (file, NULL);
      g_assert_nonnull (design);
      analysis = cw_analysis_new (design);
      tried = cw_analysis_try_hand (analysis, NULL);
      for (guint i = 0; i < tried->findings->len; i++)
        if (((const CwFinding *) tried->findings->pdata[i])->code == CW_FINDING_TIGHT_MARGIN)
          {
            g_autofree char *words = cw_finding_dup_text (tried->findings->pdata[i], FALSE);

            g_error ("%s: %s", name, words);
          }
      n += tried->levers != NULL;
    }
  g_assert_cmpuint (n, >, 4);
}

/* Sound cards as people make them: V folds, boxes, gates and layers with the usual room. */
static void
test_quiet (void)
{
  g_autofree char *cards = g_test_build_filename (G_TEST_DIST, "golden", "cards", NULL);
  g_autofree char *samples = g_build_filename (g_getenv ("CREASEWRIGHT_DATA"), "samples", NULL);

  hold_quiet (cards);
  hold_quiet (samples);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/check/trial/mat-at-the-spine", test_mat_at_the_spine);
  g_test_add_func ("/check/trial/doors-that-meet", test_doors);
  g_test_add_func ("/check/trial/no-hand-no-miss", test_no_hand);
  g_test_add_func ("/check/trial/once-and-cancelled", test_once_and_cancelled);
  g_test_add_func ("/check/trial/lever-of-a-gate", test_lever_gate);
  g_test_add_func ("/check/trial/lever-of-a-layer", test_lever_layer);
  g_test_add_func ("/check/trial/lever-of-a-corner", test_lever_corner);
  g_test_add_func ("/check/trial/lever-of-a-step", test_lever_step);
  g_test_add_func ("/check/trial/glue-at-a-window", test_glue_at_window);
  g_test_add_func ("/check/trial/envelope", test_envelope);
  g_test_add_func ("/check/trial/hidden-by-a-fold", test_hidden_by_a_fold);
  g_test_add_func ("/check/trial/sound-cards-are-quiet", test_quiet);
  return g_test_run ();
}
