/* test-bond.c: where the trade says adhesive may lie and where it may not (common practice, no source), on cards whose
 * areas are worked out by hand.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "glue-fixture.h"

/* --- A corner that flips: a square laid over it ------------------------------------------------------------------- */

/* The right leaf has a corner that folds back; a square tile over corner and opening, glued over `area`. */
static CwAnalysis *
flipped_corner (const char *area, const char *holds)
{
  g_autofree char *text = g_strdup_printf (
    CARD_HEAD CARD_INCH
    "'pieces': [ { 'id': 'base', 'ground': true, 'outline': [['0','0'],['10','0'],['10','7'],['0','7']],"
    " 'hold': ['2','6'], 'marks': ["
    " { 'id': 'spine', 'kind': 'score', 'fold': 'toward', 'line': [['5','0'],['5','7']] },"
    " { 'id': 'slit', 'kind': 'cut', 'line': [['6','2'],['8','2'],['8','4']] },"
    " { 'id': 'diagonal', 'kind': 'score', 'fold': 'away', 'line': [['6','2'],['8','4']] } ] },"
    " { 'id': 'tile', 'outline': [['0','0'],['2','0'],['2','2'],['0','2']] } ],"
    "'glue': [ { 'id': 'g', 'piece': 'tile', 'face': 'back', 'kind': 'tape', 'area': %s, 'holds': %s } ],"
    "'steps': [ { 'id': 'flip', 'do': 'fold', 'folds': [ { 'score': 'base/diagonal', 'to': 180 } ] },"
    " { 'id': 'stick', 'do': 'stick', 'piece': 'tile', 'on': { 'piece': 'base', 'panel': ['7 1/2','2 1/2'],"
    "   'face': 'front' }, 'facing': 'back', 'at': ['6','4'], 'turn': 270 },"
    " { 'id': 'close', 'do': 'fold', 'rest': 'closed', 'folds': [ { 'score': 'base/spine', 'to': 180 } ] },"
    " { 'id': 'open', 'do': 'fold', 'phase': 'using', 'folds': [ { 'score': 'base/spine', 'to': 0 } ] } ] }",
    area, holds);

  return glue_analysis (text);
}

/* Adhesive may lie only where the square rests on the flipped corner; the other half looks through the opening. */
static void
test_flipped_corner (void)
{
  static const char corner[] = "{ 'piece': 'base', 'panel': ['7 1/2','2 1/2'] }";
  g_autoptr (CwAnalysis) right = flipped_corner ("[['1 3/4','1/2'],['1 3/4','1 3/4'],['1/2','1 3/4']]", corner);
  g_autoptr (CwAnalysis) wrong = flipped_corner ("[['0','0'],['2','0'],['2','2'],['0','2']]", corner);
  const CwFinding *shut;

  glue_assert_codes (right, "");
  glue_assert_area (glue_area (right, "g", TRUE), 1.25 * 1.25 / 2);
  glue_assert_area (glue_area (right, "g", FALSE), 0);
  glue_assert_area (glue_row (right, "stick", "g", "base", 7.5, 2.5), 1.25 * 1.25 / 2);
  glue_assert_reached (card_state (right->motion, "open")->reached, 1);

  glue_assert_codes (wrong, "glued-shut");
  glue_assert_area (glue_row (wrong, "stick", "g", "base", 7.5, 2.5), 2);
  glue_assert_area (glue_row (wrong, "close", "g", "base", 2, 6), -2);
  shut = glue_finding (wrong, CW_FINDING_GLUED_SHUT);
  g_assert_cmpstr (shut->step, ==, "open");
  g_assert_cmpfloat_with_epsilon (shut->amount, 2 * SQ_INCH, 1);
  glue_assert_reached (card_state (wrong->motion, "open")->reached, 0);
  g_assert_true (card_state (wrong->motion, "open")->flat);
}

/* --- A never-ending card: four strips in a ring ------------------------------------------------------------------- */

#define STRIP_UPRIGHT(id)                                                                                              \
  "{ 'id': '" id "', 'outline': [['0','0'],['4','0'],['4','8'],['0','8']], 'hold': ['1','1'], 'marks': ["              \
  " { 'id': 'y2', 'kind': 'score', 'fold': 'toward', 'line': [['0','2'],['4','2']] },"                                 \
  " { 'id': 'y6', 'kind': 'score', 'fold': 'toward', 'line': [['0','6'],['4','6']] } ] }"
#define STRIP_LYING(id)                                                                                                \
  "{ 'id': '" id "', 'outline': [['0','0'],['8','0'],['8','4'],['0','4']], 'hold': ['4','1'], 'marks': ["              \
  " { 'id': 'x2', 'kind': 'score', 'fold': 'away', 'line': [['2','0'],['2','4']] },"                                   \
  " { 'id': 'x6', 'kind': 'score', 'fold': 'away', 'line': [['6','0'],['6','4']] } ] }"

/* Two upright strips lie side by side on two lying ones; zones on the backs of the upright ones, the first as told. */
static CwAnalysis *
never_ending (const char *area)
{
  g_autofree char *text = g_strdup_printf (
    CARD_HEAD CARD_INCH
    "'pieces': [ " STRIP_LYING ("top") ", " STRIP_LYING ("bottom") ", " STRIP_UPRIGHT ("left") ", " STRIP_UPRIGHT (
      "right") " ],"
               "'glue': [ { 'id': 'lt', 'piece': 'left', 'face': 'back', 'kind': 'tape', 'area': %s,"
               "   'holds': { 'piece': 'top', 'panel': ['1','1'] } },"
               " { 'id': 'rt', 'piece': 'right', 'face': 'back', 'kind': 'tape', 'area': "
               "   [['2','0'],['4','0'],['4','2'],['2','2']], 'holds': { 'piece': 'top', 'panel': ['7','1'] } },"
               " { 'id': 'lb', 'piece': 'left', 'face': 'back', 'kind': 'tape', 'area': "
               "   [['0','6'],['2','6'],['2','8'],['0','8']], 'holds': { 'piece': 'bottom', 'panel': ['1','3'] } },"
               " { 'id': 'rb', 'piece': 'right', 'face': 'back', 'kind': 'tape', 'area': "
               "   [['2','6'],['4','6'],['4','8'],['2','8']], 'holds': { 'piece': 'bottom', 'panel': ['7','3'] } } ],"
               "'steps': [ { 'id': 'left', 'do': 'stick', 'piece': 'left', 'on': { 'piece': 'top', 'panel': ['1','1'],"
               "   'face': 'front' }, 'facing': 'back', 'at': ['0','0'] },"
               " { 'id': 'right', 'do': 'stick', 'piece': 'right', 'on': { 'piece': 'top', 'panel': ['7','1'],"
               "   'face': 'front' }, 'facing': 'back', 'at': ['4','0'] },"
               " { 'id': 'turn', 'do': 'turn-over' },"
               " { 'id': 'bottom', 'do': 'stick', 'piece': 'bottom', 'on': { 'piece': 'left', 'panel': ['1','7'],"
               "   'face': 'back' }, 'facing': 'front', 'at': ['0','4'] },"
               " { 'id': 'part', 'do': 'fold', 'folds': [ { 'score': 'top/x2', 'to': 180 },"
               "   { 'score': 'bottom/x2', 'to': 180 }, { 'score': 'top/x6', 'to': 180 }, { 'score': 'bottom/x6', "
               "'to': 180 } ] },"
               " { 'id': 'on', 'do': 'fold', 'folds': [ { 'score': 'left/y2', 'to': 180 },"
               "   { 'score': 'right/y2', 'to': 180 }, { 'score': 'left/y6', 'to': 180 },"
               "   { 'score': 'right/y6', 'to': 180 } ] } ] }",
    area);

  return glue_analysis (text);
}

/* Square inches of a face where glue may lie. */
static double
safe_area (const CwAnalysis *card, const char *piece, double x, double y, CwFace face)
{
  CwSafeArea area = cw_bonds_find_safe_area (card->bonds, card_panel (card->motion, piece, x, y), face);
  double sq_in = (double) cw_region_area2 (&area.safe) / 2 / SQ_INCH;

  cw_safe_area_clear (&area);
  return sq_in;
}

/* Only the four corner squares may be glued: what reaches past one onto the next panel holds the fold between. */
static void
test_never_ending (void)
{
  g_autoptr (CwAnalysis) right = never_ending ("[['0','0'],['2','0'],['2','2'],['0','2']]");
  g_autoptr (CwAnalysis) wide = never_ending ("[['0','0'],['2 1/4','0'],['2 1/4','2'],['0','2']]");

  glue_assert_area (glue_row (right, "left", "lt", "top", 1, 1), 4);
  glue_assert_area (glue_row (right, "right", "rt", "top", 7, 1), 4);
  glue_assert_area (glue_row (right, "bottom", "lb", "bottom", 1, 3), 4);
  glue_assert_area (glue_row (right, "bottom", "rb", "bottom", 7, 3), 4);
  glue_assert_reached (card_state (right->motion, "part")->reached, 1);
  g_assert_null (glue_finding (right, CW_FINDING_GLUE_STRAYS));
  g_assert_null (glue_finding (right, CW_FINDING_GLUED_SHUT));
  g_assert_null (glue_finding (right, CW_FINDING_LAYER_OVER_SCORE));
  g_assert_null (glue_finding (right, CW_FINDING_GLUE_MISSING));
  glue_assert_reached (card_state (right->motion, "on")->reached, 1);
  /* Opened both ways, nothing else of two strips that lie on one another stays together. */
  for (guint i = 0; i < 2; i++)
    {
      const char *upright = i == 0 ? "left" : "right", *lying = i == 0 ? "top" : "bottom";

      glue_assert_area (safe_area (right, upright, 1, 1, CW_FACE_BACK), 4);
      glue_assert_area (safe_area (right, upright, 1, 4, CW_FACE_BACK), 0);
      glue_assert_area (safe_area (right, upright, 1, 7, CW_FACE_BACK), 4);
      glue_assert_area (safe_area (right, lying, 1, 1, CW_FACE_FRONT), 4);
      glue_assert_area (safe_area (right, lying, 4, 1, CW_FACE_FRONT), 0);
      glue_assert_area (safe_area (right, lying, 7, 1, CW_FACE_FRONT), 4);
    }

  glue_assert_area (glue_row (wide, "left", "lt", "top", 4, 1), -0.5);
  glue_assert_reached (card_state (wide->motion, "part")->reached, 0);
  g_assert_nonnull (glue_finding (wide, CW_FINDING_GLUED_SHUT));
  g_assert_cmpstr (glue_finding (wide, CW_FINDING_GLUED_SHUT)->step, ==, "part");
}

/* --- An easel: the front stands on the bent leaf -------------------------------------------------------------------
 */

static CwAnalysis *
easel (const char *area, const char *holds)
{
  g_autofree char *text = g_strdup_printf (
    CARD_HEAD CARD_INCH
    "'pieces': [ { 'id': 'base', 'ground': true, 'outline': [['0','0'],['4','0'],['4','8'],['0','8']],"
    " 'hold': ['2','7'], 'marks': ["
    " { 'id': 'spine', 'kind': 'score', 'fold': 'toward', 'line': [['0','4'],['4','4']] },"
    " { 'id': 'bend', 'kind': 'score', 'fold': 'away', 'line': [['0','2'],['4','2']] } ],"
    " 'names': [ { 'name': 'lower half', 'at': ['2','1'] } ] },"
    " { 'id': 'front', 'outline': [['0','0'],['4','0'],['4','4'],['0','4']] } ],"
    "'glue': [ { 'id': 'g', 'piece': 'front', 'face': 'back', 'kind': 'tape', 'area': %s, 'holds': %s } ],"
    "'steps': [ { 'id': 'fold', 'do': 'fold', 'folds': [ { 'score': 'base/spine', 'to': 180 },"
    "   { 'score': 'base/bend', 'to': 180 } ] },"
    " { 'id': 'stick', 'do': 'stick', 'piece': 'front', 'on': { 'piece': 'base', 'panel': ['2','1'], 'face': 'front' },"
    "   'facing': 'back', 'at': ['0','0'] },"
    " { 'id': 'stand', 'do': 'fold', 'phase': 'using', 'folds': [ { 'score': 'base/spine', 'to': 120 },"
    "   { 'score': 'base/bend', 'to': 120 } ] } ] }",
    area, holds);

  return glue_analysis (text);
}

static void
test_easel (void)
{
  g_autoptr (CwAnalysis) half = easel ("[['0','0'],['4','0'],['4','2'],['0','2']]", "'base'");
  g_autoptr (CwAnalysis) named
    = easel ("[['0','0'],['4','0'],['4','4'],['0','4']]", "{ 'piece': 'base', 'panel': ['2','1'] }");
  g_autoptr (CwAnalysis) all = easel ("[['0','0'],['4','0'],['4','4'],['0','4']]", "'base'");

  glue_assert_codes (half, "");
  glue_assert_area (glue_row (half, "stick", "g", "base", 2, 1), 8);
  glue_assert_codes (named, "glued-shut");
  glue_assert_area (glue_row (named, "stick", "g", "base", 2, 1), 8);
  glue_assert_area (glue_row (named, "stick", "g", "base", 2, 7), -8);
  glue_assert_codes (all, "glued-shut layer-over-cut");
  glue_assert_area (glue_row (all, "stick", "g", "base", 2, 7), 8);
  g_assert_cmpstr (glue_finding (all, CW_FINDING_GLUED_SHUT)->step, ==, "stand");
}

/* --- A mat over the corner of a page that flips ------------------------------------------------------------------- */

/* Glue on the page alone, on both, on both with no flip, and on both with the page named. */
static void
test_bridge (void)
{
  static const struct
  {
    const char *area, *holds, *flip, *codes;
  } cases[] = {
    { "[['0','0'],['1','0'],['1','4'],['0','4']]", "'base'", "180", "" },
    { "[['0','0'],['4','0'],['4','4'],['0','4']]", "'base'", "180", "glued-shut layer-over-score" },
    { "[['0','0'],['4','0'],['4','4'],['0','4']]", "'base'", "0", "" },
    { "[['0','0'],['4','0'],['4','4'],['0','4']]", "{ 'piece': 'base', 'panel': ['1','1'] }", "180", "glued-shut" },
    { "[['0','0'],['4','0'],['4','4'],['0','4']]", "{ 'piece': 'base', 'panel': ['1','1'] }", "0", "glue-strays" },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autofree char *text = g_strdup_printf (
        CARD_HEAD CARD_INCH
        "'pieces': [ { 'id': 'base', 'outline': [['0','0'],['6','0'],['6','6'],['0','6']], 'hold': ['1','1'],"
        " 'marks': [ { 'id': 'l', 'kind': 'cut', 'line': [['3','2'],['4','2'],['4','4'],['3','4']] },"
        "            { 'id': 'd', 'kind': 'score', 'fold': 'toward', 'line': [['3','2'],['3','4']] } ] },"
        " { 'id': 'mat', 'outline': [['0','0'],['4','0'],['4','4'],['0','4']] } ],"
        " 'glue': [ { 'id': 'g', 'piece': 'mat', 'face': 'front', 'kind': 'tape', 'area': %s, 'holds': %s } ],"
        " 'steps': [ { 'id': 'stick', 'do': 'stick', 'piece': 'mat', 'on': { 'piece': 'base', 'panel': ['1','1'],"
        "   'face': 'back' }, 'facing': 'front', 'at': ['1','1'] },"
        "   { 'id': 'flip', 'do': 'fold', 'folds': [ { 'score': 'base/d', 'to': %s } ] } ] }",
        cases[i].area, cases[i].holds, cases[i].flip);
      g_autoptr (CwAnalysis) analysis = glue_analysis (text);
      const CwFinding *bridge = glue_finding (analysis, CW_FINDING_LAYER_OVER_SCORE);
      const CwFinding *shut = glue_finding (analysis, CW_FINDING_GLUED_SHUT);

      glue_assert_codes (analysis, cases[i].codes);
      if (bridge != NULL)
        {
          g_assert_cmpstr (bridge->step, ==, "stick");
          g_assert_cmpstr (g_ptr_array_index (bridge->marks, 0), ==, "base/d");
        }
      if (shut != NULL)
        g_assert_cmpstr (shut->step, ==, "flip");
    }
}

/* A mat glued all over, laid on the cover after its flap is folded: closed, the glue sees the inside through the
 * opening. */
static void
test_flap_window (void)
{
  g_autoptr (CwAnalysis) analysis = glue_analysis (
    CARD_HEAD CARD_INCH
    "'pieces': [ { 'id': 'base', 'ground': true, 'outline': [['0','0'],['8','0'],['8','6'],['0','6']],"
    " 'hold': ['6','5'], 'marks': ["
    " { 'id': 'spine', 'kind': 'score', 'fold': 'toward', 'line': [['4','0'],['4','6']] },"
    " { 'id': 'flap', 'kind': 'score', 'fold': 'toward', 'line': [['1','2'],['1','4']] },"
    " { 'id': 'cut', 'kind': 'cut', 'line': [['1','2'],['2','2'],['2','4'],['1','4']] } ] },"
    " { 'id': 'note', 'outline': [['0','0'],['3','0'],['3','5'],['0','5']] },"
    " { 'id': 'mat', 'outline': [['0','0'],['3','0'],['3','5'],['0','5']] } ],"
    "'glue': [ { 'id': 'n', 'piece': 'note', 'face': 'back', 'kind': 'tape',"
    "   'area': [['0','0'],['3','0'],['3','5'],['0','5']], 'holds': 'base' },"
    " { 'id': 'm', 'piece': 'mat', 'face': 'front', 'kind': 'tape',"
    "   'area': [['0','0'],['3','0'],['3','5'],['0','5']], 'holds': 'base' } ],"
    "'steps': [ { 'id': 'note', 'do': 'stick', 'piece': 'note', 'on': { 'piece': 'base', 'panel': ['6','5'],"
    "   'face': 'front' }, 'facing': 'back', 'at': ['4 1/2','1/2'] },"
    " { 'id': 'flap', 'do': 'fold', 'folds': [ { 'score': 'base/flap', 'to': 180 } ] },"
    " { 'id': 'mat', 'do': 'stick', 'piece': 'mat', 'on': { 'piece': 'base', 'panel': ['3','5'], 'face': 'back' },"
    "   'facing': 'front', 'at': ['1/2','1/2'] },"
    " { 'id': 'close', 'do': 'fold', 'rest': 'closed', 'folds': [ { 'score': 'base/spine', 'to': 180 } ] },"
    " { 'id': 'open', 'do': 'fold', 'phase': 'using', 'folds': [ { 'score': 'base/spine', 'to': 0 } ] } ] }");
  const CwFinding *shut = glue_finding (analysis, CW_FINDING_GLUED_SHUT);

  /* 3 by 5 less the opening of 1 by 2; the note lies behind all of the opening. */
  glue_assert_area (glue_row (analysis, "mat", "m", "base", 3, 5), 13);
  glue_assert_area (glue_row (analysis, "close", "m", "note", 1, 1), -2);
  glue_assert_area (glue_area (analysis, "n", TRUE), 15);
  g_assert_nonnull (shut);
  g_assert_cmpstr (shut->step, ==, "open");
  g_assert_null (glue_finding (analysis, CW_FINDING_CANNOT_MOVE));
  g_assert_null (glue_finding (analysis, CW_FINDING_GLUE_STRAYS));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/glue/bond/flipped-corner", test_flipped_corner);
  g_test_add_func ("/glue/bond/never-ending", test_never_ending);
  g_test_add_func ("/glue/bond/easel", test_easel);
  g_test_add_func ("/glue/bond/glue-across-a-fold", test_bridge);
  g_test_add_func ("/glue/bond/flap-window", test_flap_window);
  return g_test_run ();
}
