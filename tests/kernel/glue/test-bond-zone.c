/* test-bond-zone.c: when a zone sticks, what it is meant to hold in every form of `holds`, and careless glue: too near
 * to an edge, heated, holding less than it should. Areas by hand; rules from the model and tool pages.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "glue-fixture.h"

#include "geometry/cw-house.h"

/* A sheet 6 by 4 with a score at 3, a mat 4 by 2 over both sides of it from 1, 1 on, and a second sheet to close on it:
 * the score at 6 folds the leaf of 6 to 12 onto both. */
static CwAnalysis *
mat (const char *kind, const char *area, const char *holds, const char *more, const char *steps)
{
  g_autofree char *text = g_strdup_printf (
    CARD_HEAD CARD_INCH
    "'pieces': [ { 'id': 'base', 'ground': true, 'outline': [['0','0'],['12','0'],['12','4'],['0','4']],"
    " 'hold': ['1/2','1/2'], 'marks': ["
    " { 'id': 'half', 'kind': 'score', 'fold': 'toward', 'line': [['3','0'],['3','4']] },"
    " { 'id': 'spine', 'kind': 'score', 'fold': 'toward', 'line': [['6','0'],['6','4']] } ] },"
    " { 'id': 'mat', 'outline': [['0','0'],['4','0'],['4','2'],['0','2']] } ],"
    "'glue': [ { 'id': 'g', 'piece': 'mat', 'face': 'back', 'kind': '%s', 'area': %s %s %s } ],"
    "'steps': [ { 'id': 'stick', 'do': 'stick', 'piece': 'mat', 'on': { 'piece': 'base', 'panel': ['1/2','1/2'],"
    "   'face': 'front' }, 'facing': 'back', 'at': ['1','1'] } %s ] }",
    kind, area, holds, more, steps);

  return glue_analysis (text);
}

#define WHOLE "[['0','0'],['4','0'],['4','2'],['0','2']]"
#define SPAN "[['1','1/2'],['3','1/2'],['3','1 1/2'],['1','1 1/2']]"

/* The zone lies 1 sq in on either side of the score. */
static void
test_holds (void)
{
  static const struct
  {
    const char *holds;
    double left, right;
  } cases[] = {
    { ", 'holds': 'base'", 1, 1 },
    { ", 'holds': { 'piece': 'base' }", 1, 1 },
    { ", 'holds': { 'piece': 'base', 'panel': ['1','1/2'] }", 1, -1 },
    { ", 'holds': { 'piece': 'base', 'panel': ['5','1/2'] }", -1, 1 },
    { ", 'holds': [ 'base' ]", 1, 1 },
    { ", 'holds': [ { 'piece': 'base', 'panel': ['1','1/2'] }, { 'piece': 'base', 'panel': ['5','1/2'] } ]", 1, 1 },
    { ", 'holds': [ 'mat', { 'piece': 'base', 'panel': ['1','1/2'] } ]", 1, -1 },
    { ", 'holds': 'mat'", -1, -1 },
    /* Nothing said: the piece it is stuck on. */
    { "", 1, 1 },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (CwAnalysis) analysis = mat ("tape", SPAN, cases[i].holds, "", "");
      double strays = (cases[i].left < 0 ? 1 : 0) + (cases[i].right < 0 ? 1 : 0);

      glue_assert_area (glue_row (analysis, "stick", "g", "base", 1, 0.5), cases[i].left);
      glue_assert_area (glue_row (analysis, "stick", "g", "base", 5, 0.5), cases[i].right);
      glue_assert_area (glue_area (analysis, "g", TRUE), 2 - strays);
      glue_assert_area (glue_area (analysis, "g", FALSE), strays);
      g_assert_true ((glue_finding (analysis, CW_FINDING_GLUE_STRAYS) != NULL) == (strays > 0));
    }
}

/* A piece named alone means the panels met in the first state in which any is met, however late that is. */
static void
test_first_met (void)
{
  g_autoptr (CwAnalysis) analysis = glue_analysis (
    CARD_HEAD CARD_INCH
    "'pieces': [ { 'id': 'base', 'ground': true, 'outline': [['0','0'],['12','0'],['12','4'],['0','4']],"
    " 'hold': ['6','1'], 'marks': ["
    " { 'id': 'west', 'kind': 'score', 'fold': 'toward', 'line': [['4','0'],['4','4']] },"
    " { 'id': 'east', 'kind': 'score', 'fold': 'toward', 'line': [['8','0'],['8','4']] } ] },"
    " { 'id': 'mat', 'outline': [['0','0'],['2','0'],['2','2'],['0','2']] } ],"
    "'glue': [ { 'id': 'back', 'piece': 'mat', 'face': 'back', 'kind': 'tape', 'area': "
    "   [['0','0'],['2','0'],['2','2'],['0','2']], 'holds': 'base' },"
    " { 'id': 'front', 'piece': 'mat', 'face': 'front', 'kind': 'tape', 'area': "
    "   [['0','0'],['1','0'],['1','2'],['0','2']], 'holds': 'base' } ],"
    "'steps': [ { 'id': 'stick', 'do': 'stick', 'piece': 'mat', 'on': { 'piece': 'base', 'panel': ['1','1'],"
    "   'face': 'front' }, 'facing': 'back', 'at': ['1','1'] },"
    " { 'id': 'east', 'do': 'fold', 'folds': [ { 'score': 'base/east', 'to': 180 } ] },"
    " { 'id': 'west', 'do': 'fold', 'folds': [ { 'score': 'base/west', 'to': 180 } ] } ] }");

  /* East closes first and lies on the middle: the mat, carried over by the west leaf, meets its outside. */
  glue_assert_area (glue_row (analysis, "stick", "back", "base", 1, 1), 4);
  glue_assert_area (glue_row (analysis, "west", "front", "base", 11, 1), 2);
  glue_assert_codes (analysis, "");
}

/* Not before its time: the mat hangs over paper that it meets only when a step has applied the glue. */
static void
test_time (void)
{
  static const struct
  {
    const char *more, *steps, *bonded;
  } cases[] = {
    { "", "", "stick" },
    { ", 'apply': 'late'", "", "late" },
    { ", 'apply': 'raise'", "", "raise" },
    { "", ", { 'id': 'glue', 'do': 'glue', 'zones': ['g'] }", "glue" },
    /* `apply` says more than a glue step. */
    { ", 'apply': 'late'", ", { 'id': 'glue', 'do': 'glue', 'zones': ['g'] }", "late" },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autofree char *steps
        = g_strdup_printf (", { 'id': 'raise', 'do': 'fold', 'folds': [ { 'score': 'base/spine', 'to': 90 } ] } %s,"
                           " { 'id': 'late', 'do': 'fold', 'folds': [ { 'score': 'base/spine', 'to': 0 } ] }",
                           cases[i].steps);
      g_autoptr (CwAnalysis) analysis
        = mat ("tape", "[['0','0'],['1','0'],['1','1'],['0','1']]", ", 'holds': 'base'", cases[i].more, steps);

      glue_assert_area (glue_row (analysis, cases[i].bonded, "g", "base", 1, 0.5), 1);
      g_assert_cmpuint (cw_bonds_get_rows (analysis->bonds)->len, ==, 1);
      g_assert_null (glue_finding (analysis, CW_FINDING_GLUE_MISSING));
    }
}

/* What is narrower than a hair, or less than a hand can lay, does not stick. */
static void
test_slivers (void)
{
  static const struct
  {
    const char *area;
    double strays;
  } cases[] = {
    { "[['1','1/2'],['2','1/2'],['2','1 1/2'],['1','1 1/2']]", 0 },
    { "[['1','1/2'],['2.001','1/2'],['2.001','1 1/2'],['1','1 1/2']]", 0 },
    { "[['1','1/2'],['2 1/64','1/2'],['2 1/64','1 1/2'],['1','1 1/2']]", 1.0 / 64 },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (CwAnalysis) analysis
        = mat ("tape", cases[i].area, ", 'holds': { 'piece': 'base', 'panel': ['1','1/2'] }", "", "");

      glue_assert_area (glue_area (analysis, "g", FALSE), cases[i].strays);
    }
}

/* Wet glue creeps 1/8 inch (tool page, "Safe areas"): of the mat's own edge, of the host's, and of no edge. */
static void
test_near_edge (void)
{
  static const struct
  {
    const char *kind, *area;
    double gap; /* inches; negative: not told */
  } cases[] = {
    { "wet", "[['1/8','1/8'],['3 7/8','1/8'],['3 7/8','1 7/8'],['1/8','1 7/8']]", -1 },
    { "wet", "[['1/16','1/8'],['3 7/8','1/8'],['3 7/8','1 7/8'],['1/16','1 7/8']]", 0.0625 },
    { "tape", "[['1/16','1/8'],['3 7/8','1/8'],['3 7/8','1 7/8'],['1/16','1 7/8']]", -1 },
    { "wet", WHOLE, 0 },
    { "dots", WHOLE, -1 },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (CwAnalysis) analysis = mat (cases[i].kind, cases[i].area, ", 'holds': 'base'", "", "");
      const CwFinding *near = glue_finding (analysis, CW_FINDING_GLUE_NEAR_EDGE);

      g_assert_true ((near != NULL) == (cases[i].gap >= 0));
      if (near == NULL)
        continue;
      g_assert_cmpfloat_with_epsilon (near->amount, cases[i].gap * CW_TICKS_PER_INCH, 1);
      g_assert_cmpstr (near->step, ==, "stick");
    }
  g_assert_cmpint (cw_glue_kind_get_creep (CW_GLUE_WET), ==, CW_TICKS_PER_INCH / 8);
}

/* Heat comes before glue, not after it. */
static void
test_heat (void)
{
  g_autoptr (CwAnalysis) after
    = mat ("tape", SPAN, ", 'holds': 'base'", "", ", { 'id': 'emboss', 'do': 'decorate', 'heat': ['mat','base'] }");
  g_autoptr (CwAnalysis) before
    = mat ("tape", SPAN, ", 'holds': 'base'", ", 'apply': 'late'",
           ", { 'id': 'emboss', 'do': 'decorate', 'heat': ['mat','base'] }, { 'id': 'late', 'do': 'rub' }");
  g_autoptr (CwAnalysis) foam
    = mat ("foam", SPAN, ", 'holds': 'base'", "", ", { 'id': 'emboss', 'do': 'decorate', 'heat': ['mat'] }");

  glue_assert_codes (after, "heat-after-glue heat-after-glue");
  g_assert_cmpstr (glue_finding (after, CW_FINDING_HEAT_AFTER_GLUE)->step, ==, "emboss");
  glue_assert_codes (before, "");
  glue_assert_codes (foam, "heat-after-glue");
  g_assert_nonnull (strstr (glue_finding (foam, CW_FINDING_HEAT_AFTER_GLUE)->words, "foam"));
}

/* One zone that should hold both leaves but can only ever lie on one. */
static void
test_not_met (void)
{
  g_autoptr (CwAnalysis) analysis
    = mat ("tape", "[['0','0'],['1','0'],['1','1'],['0','1']]",
           ", 'holds': [ { 'piece': 'base', 'panel': ['1','1/2'] }, { 'piece': 'base', 'panel': ['8','1/2'] } ]", "",
           "");
  const CwFinding *missing = glue_finding (analysis, CW_FINDING_GLUE_MISSING);

  glue_assert_codes (analysis, "glue-missing");
  g_assert_cmpuint (missing->panels->len, ==, 3);
}

/* Two strays of one layer are one finding: the worse is named. */
static void
test_one_finding (void)
{
  g_autoptr (CwAnalysis) analysis
    = mat ("tape", "[['1','1/2'],['3','1/2'],['3','1 1/2'],['1','1 1/2']]", ", 'holds': 'mat'", "", "");
  const CwFinding *stray;

  glue_assert_codes (analysis, "glue-strays");
  stray = glue_finding (analysis, CW_FINDING_GLUE_STRAYS);
  g_assert_cmpfloat_with_epsilon (stray->amount, SQ_INCH, 1);
  g_assert_cmpstr (stray->step, ==, "stick");
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/glue/bond-zone/holds", test_holds);
  g_test_add_func ("/glue/bond-zone/first-met", test_first_met);
  g_test_add_func ("/glue/bond-zone/time", test_time);
  g_test_add_func ("/glue/bond-zone/slivers", test_slivers);
  g_test_add_func ("/glue/bond-zone/near-edge", test_near_edge);
  g_test_add_func ("/glue/bond-zone/heat", test_heat);
  g_test_add_func ("/glue/bond-zone/not-met", test_not_met);
  g_test_add_func ("/glue/bond-zone/one-finding", test_one_finding);
  return g_test_run ();
}
