/* test-analysis.c: the order in which findings are told, one fault told once, and a finding's words.
 *
 * What is checked is the project's own page on the report ("Finding codes"); no outside source.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "card-fixture.h"

#include "check/cw-analysis.h"

#include <math.h>
#include <string.h>

/* A score that stops short (error of the drawing), two angles asked of one line in two steps (error of the steps). */
static const char *spoilt = CARD_HEAD CARD_INCH
  "'pieces': [ { 'id': 'base', 'outline': [['0','0'],['8','0'],['8','6'],['0','6']], 'hold': ['6','3'], 'marks': ["
  " { 'id': 'cut', 'kind': 'cut', 'line': [['4','2'],['4','4']] },"
  " { 'id': 'up', 'kind': 'score', 'fold': 'toward', 'line': [['4','0'],['4','2']] },"
  " { 'id': 'down', 'kind': 'score', 'fold': 'toward', 'line': [['4','4'],['4','6']] },"
  " { 'id': 'short', 'kind': 'score', 'fold': 'toward', 'line': [['6','0'],['6','5']] } ] } ],"
  "'steps': [ { 'id': 'one', 'do': 'fold', 'folds': [ { 'score': 'base/up', 'to': 90 }, { 'score': 'base/down', 'to': "
  "80 } ] },"
  " { 'id': 'two', 'do': 'fold', 'folds': [ { 'score': 'base/up', 'to': 100 }, { 'score': 'base/down', 'to': 0 } ] } ] "
  "}";

static void
test_worst_first_and_once (void)
{
  g_autoptr (CwDesign) design = card_design (spoilt);
  g_autoptr (CwAnalysis) analysis = cw_analysis_new (design);
  const CwFinding *last = NULL;
  guint n_moves = 0;

  for (guint i = 0; i < analysis->findings->len; i++)
    {
      const CwFinding *finding = g_ptr_array_index (analysis->findings, i);

      if (last)
        {
          g_assert_cmpint (last->severity, <=, finding->severity);
          if (last->severity == finding->severity)
            g_assert_cmpint (last->code, <=, finding->code);
        }
      last = finding;
      if (finding->code != CW_FINDING_CANNOT_MOVE)
        continue;
      n_moves++;
      g_assert_cmpstr (finding->step, ==, "one");
      g_assert_cmpuint (finding->steps->len, ==, 2);
      g_assert_cmpstr (g_ptr_array_index (finding->steps, 1), ==, "two");
    }
  g_assert_cmpuint (n_moves, ==, 1);
  g_assert_cmpint (((const CwFinding *) g_ptr_array_index (analysis->findings, 0))->code, ==,
                   CW_FINDING_SCORE_STOPS_SHORT);
  g_assert_cmpint (cw_analysis_get_verdict (analysis), ==, CW_VERDICT_ERRORS);
}

/* Four creases at one point with 120, 90, 90 and 60 degrees between them do not fold flat together (120 + 90 is not
 * 180, Kawasaki-Justin). But with the one between 120 and 60 shut, the other three stand on a triangle of 60, 90 and 90
 * degrees: as long as a step asks only the one, nobody asks for flat; a step that lists all four does. */
static void
test_only_asked_points (void)
{
  static const char *asked[]
    = { "{ 'score': 'base/a', 'to': 180 }", "{ 'score': 'base/a', 'to': 180 }, { 'score': 'base/b', 'to': 180 },"
                                            "{ 'score': 'base/c', 'to': 180 }, { 'score': 'base/d', 'to': 180 }" };

  for (guint all = 0; all < 2; all++)
    {
      g_autofree char *text = g_strdup_printf (
        CARD_HEAD CARD_INCH
        "'pieces': [ { 'id': 'base', 'outline': [['0','0'],['8','0'],['8','8'],['0','8']], 'hold': ['6','3'], 'marks': "
        "["
        " { 'id': 'a', 'kind': 'score', 'fold': 'toward', 'line': [['4','4'],['8','4']] },"
        " { 'id': 'b', 'kind': 'score', 'fold': 'toward', 'line': [['4','4'],['1.690599','8']] },"
        " { 'id': 'c', 'kind': 'score', 'fold': 'toward', 'line': [['4','4'],['0','1.690599']] },"
        " { 'id': 'd', 'kind': 'score', 'fold': 'away', 'line': [['4','4'],['6.309401','0']] } ] } ],"
        "'steps': [ { 'id': 'one', 'do': 'fold', 'folds': [ %s ] } ] }",
        asked[all]);
      g_autoptr (CwDesign) design = card_design (text);
      g_autoptr (CwAnalysis) analysis = cw_analysis_new (design);
      guint n = 0;

      for (guint i = 0; i < analysis->findings->len; i++)
        {
          const CwFinding *finding = g_ptr_array_index (analysis->findings, i);

          g_test_message ("%s", cw_finding_code_get_key (finding->code));
          if (finding->code == CW_FINDING_WILL_NOT_FOLD_FLAT)
            n++;
          /* Where it stops is told by what stops it. */
          g_assert_cmpint (finding->code, !=, CW_FINDING_CANNOT_MOVE);
        }
      if (all == 0)
        g_assert_cmpfloat_with_epsilon (cw_motion_get_state (analysis->motion, 0)->reached, 1, 1e-9);
      g_assert_cmpuint (n, ==, all);
    }
}

/* A step across the spine whose ridge ends a quarter inch short of the slit: told once, as the score that stops short,
 * not again as a step that cannot be closed. With the ridge half an inch out of place instead, the step is what fails:
 * the panels round it are 2 + 1/2 and 1 + 2 1/2 inches, which differ. Before it jams its ridge goes through the leaf:
 * the panel of 1/2 in lies flat on the leaf when 1 and 2 + 1/2 in span 2 1/2 in, so at an opening with the cosine 1/5.
 * The same with 2 and 2 in beside the spine. The opening step that follows brings no news. */
static void
test_cause_once (void)
{
  static const struct
  {
    const char *upper, *ridge;
    CwFindingCode code;
    guint n_steps; /* in which sheets go through one another */
  } cases[] = { { "4", "['6','2 1/4'],['6','5']", CW_FINDING_SCORE_STOPS_SHORT, 0 },
                { "4", "['6 1/2','2'],['6 1/2','5']", CW_FINDING_CANNOT_MOVE, 2 },
                { "3", "['5 1/2','2'],['5 1/2','5']", CW_FINDING_CANNOT_MOVE, 2 } };

  for (gsize c = 0; c < G_N_ELEMENTS (cases); c++)
    {
      g_autofree char *text = g_strdup_printf (
        CARD_HEAD
        "'measure': { 'unit': 'in', 'give': '1/32 in' }, "
        "'pieces': [ { 'id': 'base', 'outline': [['0','0'],['10','0'],['10','7'],['0','7']], 'hold': ['8','6'], "
        "'marks': ["
        " { 'id': 'c1', 'kind': 'cut', 'line': [['%s','2'],['7','2']] },"
        " { 'id': 'c2', 'kind': 'cut', 'line': [['%s','5'],['7','5']] },"
        " { 'id': 's1', 'kind': 'score', 'fold': 'toward', 'line': [['5','0'],['5','2']] },"
        " { 'id': 's2', 'kind': 'score', 'fold': 'toward', 'line': [['5','5'],['5','7']] },"
        " { 'id': 'u', 'kind': 'score', 'fold': 'toward', 'line': [['%s','2'],['%s','5']] },"
        " { 'id': 'r', 'kind': 'score', 'fold': 'away', 'line': [%s] },"
        " { 'id': 'v', 'kind': 'score', 'fold': 'toward', 'line': [['7','2'],['7','5']] } ] } ],"
        "'steps': [ { 'id': 'close', 'do': 'fold', 'folds': [ { 'score': 'base/s1', 'to': 180 } ] },"
        " { 'id': 'open', 'do': 'fold', 'folds': [ { 'score': 'base/s1', 'to': 0 } ] } ] }",
        cases[c].upper, cases[c].upper, cases[c].upper, cases[c].upper, cases[c].ridge);
      g_autoptr (CwDesign) design = card_design (text);
      g_autoptr (CwAnalysis) analysis = cw_analysis_new (design);
      guint n = 0, n_through = 0;

      for (guint i = 0; i < analysis->findings->len; i++)
        {
          const CwFinding *finding = g_ptr_array_index (analysis->findings, i);

          g_test_message ("%s", cw_finding_code_get_key (finding->code));
          g_assert_cmpint (finding->code, !=, CW_FINDING_NEEDS_GIVE); /* it does not go to its end at all */
          if (finding->code == CW_FINDING_PANELS_COLLIDE)
            {
              /* Told once, where it is met first, whether or not it is met again on the way back. */
              g_assert_cmpstr (finding->step, ==, "close");
              if (c == 1)
                g_assert_cmpfloat_with_epsilon (finding->amount, 180 - acos (0.2) * 180 / G_PI, 0.1);
              n_through += MAX (finding->steps->len, 1);
            }
          if (finding->code == CW_FINDING_SCORE_STOPS_SHORT || finding->code == CW_FINDING_CANNOT_MOVE)
            {
              g_assert_cmpint (finding->code, ==, cases[c].code);
              g_autofree char *remedy = cw_finding_dup_remedy (finding, FALSE);

              /* 1/4 in too short; 1/2 in out of place as measured on the flat sheet, whatever the paper gives. */
              g_assert_nonnull (strstr (remedy, c == 0 ? " 1/4 in" : " 1/2 in"));
              n++;
            }
        }
      g_assert_cmpuint (n, ==, 1);
      g_assert_cmpuint (n_through, ==, cases[c].n_steps);
    }
}

static void
test_verdict_clear (void)
{
  g_autoptr (CwDesign) design = card_design (
    CARD_HEAD CARD_INCH "'pieces': [ { 'id': 'base', 'outline': [['0','0'],['8','0'],['8','6'],['0','6']],"
                        " 'marks': [] } ], 'steps': [] }");
  g_autoptr (CwAnalysis) analysis = cw_analysis_new (design);
  g_autoptr (CwAnalysis) same = cw_analysis_ref (analysis);

  g_assert_cmpint (cw_analysis_get_verdict (same), ==, CW_VERDICT_CLEAR);
}

static void
test_words (void)
{
  static const struct
  {
    const char *words, *text;
  } cases[] = {
    { "{1} before {0}, {0} again", "B before A, A again" },
    { "{10} of {2}", "K of C" },
    { "{11} and {} and {x} and {0", "{11} and {} and {x} and {0" },
    { "{2}{1}{0}", "CBA" },
    { "no measure: {", "no measure: {" },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (CwFinding) finding = cw_finding_new (CW_FINDING_SWAYS);
      g_autofree char *text = NULL, *remedy = NULL;

      cw_finding_set_words (finding, cases[i].words, NULL, "A", "B", "C", "D", "E", "F", "G", "H", "I", "J", "K", NULL);
      text = cw_finding_dup_text (finding, FALSE);
      remedy = cw_finding_dup_remedy (finding, FALSE);
      g_assert_cmpstr (text, ==, cases[i].text);
      g_assert_null (remedy);
    }
}

/* An argument is text: what looks like a place for another one in a maker's title stays as it is. */
static void
test_words_are_filled_once (void)
{
  g_autoptr (CwFinding) finding = cw_finding_new (CW_FINDING_SWAYS);
  g_autofree char *text = NULL, *remedy = NULL;

  cw_finding_set_words (finding, "{0} and {1}", "so {1}", "{1}", "%s{0}", NULL);
  text = cw_finding_dup_text (finding, TRUE);
  remedy = cw_finding_dup_remedy (finding, TRUE);
  g_assert_cmpstr (text, ==, "{1} and %s{0}");
  g_assert_cmpstr (remedy, ==, "so %s{0}");
}

/* Words name the piece as its maker does; a mark is told by its id, as it is shown on the sheet. */
static void
test_pieces_by_name (void)
{
  g_autoptr (CwDesign) design
    = card_design (CARD_HEAD CARD_INCH
                   "'pieces': [ { 'id': 'base', 'name': 'Harbour card', 'outline': [['0','0'],['8','0'],['8','6'],"
                   "['0','6']], 'marks': [ { 'id': 'slit', 'kind': 'cut', 'line': [['7','2'],['9','2']] } ] } ] }");
  g_autoptr (CwAnalysis) analysis = cw_analysis_new (design);
  g_autofree char *text = NULL;

  g_assert_cmpuint (analysis->findings->len, >, 0);
  text = cw_finding_dup_text (g_ptr_array_index (analysis->findings, 0), FALSE);
  g_assert_nonnull (strstr (text, "“slit”"));
  g_assert_nonnull (strstr (text, "“Harbour card”"));
}

/* A step without a title is told as the window tells it, also when a panel or a piece goes by its id; a title stays,
 * also when it is a piece's id. Names stand in quotes, once. */
static void
test_steps_by_name (void)
{
  static const struct
  {
    const char *id, *more, *told;
  } cases[] = { { "close", "'rest': 'closed',", "After “Fold the card shut”, “Slip” should be hidden" },
                { "close", "", "After “Fold s toward you”, “Slip” should be hidden" },
                { "close", "'title': 'Shut it',", "After “Shut it”, “Slip” should be hidden" },
                { "lid", "'rest': 'closed',", "After “Fold the card shut”, “Slip” should be hidden" },
                { "slip", "'rest': 'closed',", "After “Fold the card shut”, “Slip” should be hidden" },
                { "close", "'title': 'slip',", "After “slip”, “Slip” should be hidden" } };

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autofree char *text = g_strdup_printf (
        CARD_HEAD CARD_INCH
        "'pieces': [ { 'id': 'base', 'outline': [['0','0'],['6','0'],['6','6'],['0','6']], 'hold': ['5','3'],"
        "  'names': [ { 'name': 'lid', 'at': ['1','1'] } ],"
        "  'marks': [ { 'id': 's', 'kind': 'score', 'fold': 'toward', 'line': [['2','0'],['2','6']] } ] },"
        " { 'id': 'slip', 'name': 'Slip', 'outline': [['0','0'],['1','0'],['1','1'],['0','1']] } ],"
        "'glue': [ { 'id': 'g', 'piece': 'slip', 'face': 'back', 'kind': 'tape', 'area': "
        "[['0','0'],['1','0'],['1','1'],"
        "  ['0','1']], 'holds': 'base' } ],"
        "'steps': [ { 'id': 'lay', 'do': 'stick', 'piece': 'slip', 'on': { 'piece': 'base', 'panel': ['5','3'],"
        "  'face': 'front' }, 'facing': 'back', 'at': ['4 1/2','2'] },"
        " { 'id': '%s', 'do': 'fold', %s 'folds': [ { 'score': 'base/s', 'to': 180 } ] } ],"
        "'wants': { 'hidden': [ { 'piece': 'slip', 'state': '%s', 'from': 'front' } ] } }",
        cases[i].id, cases[i].more, cases[i].id);
      g_autoptr (CwDesign) design = card_design (text);
      g_autoptr (CwAnalysis) analysis = cw_analysis_new (design);
      gboolean told = FALSE;

      for (guint k = 0; k < analysis->findings->len; k++)
        {
          const CwFinding *finding = g_ptr_array_index (analysis->findings, k);
          g_autofree char *words = cw_finding_dup_text (finding, FALSE);

          if (finding->code == CW_FINDING_LAYER_SHOWS)
            {
              g_assert_true (g_str_has_prefix (words, cases[i].told));
              told = TRUE;
            }
        }
      g_assert_true (told);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/check/analysis/worst-first-and-once", test_worst_first_and_once);
  g_test_add_func ("/check/analysis/only-asked-points", test_only_asked_points);
  g_test_add_func ("/check/analysis/a-cause-is-told-once", test_cause_once);
  g_test_add_func ("/check/analysis/nothing-to-say-is-clear", test_verdict_clear);
  g_test_add_func ("/check/analysis/words-are-filled-in", test_words);
  g_test_add_func ("/check/analysis/pieces-are-told-by-name", test_pieces_by_name);
  g_test_add_func ("/check/analysis/words-are-filled-once", test_words_are_filled_once);
  g_test_add_func ("/check/analysis/steps-are-told-by-name", test_steps_by_name);
  return g_test_run ();
}
