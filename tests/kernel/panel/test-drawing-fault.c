/* test-drawing-fault.c: what is said of a drawing, how often, and with which amounts.
 *
 * Codes are those of the tool's agreed design; amounts follow from the measures drawn. Kawasaki-Justin and
 * Maekawa-Justin (J. Justin 1986, T. Kawasaki 1989) decide which points fold flat.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "sheet-fixture.h"

#include <math.h>

#define SHEET "0,0 160,0 160,112 0,112" /* 10 x 7 inch */

typedef struct
{
  const char *name, *text;
  CwFindingCode code; /* the only one that may be told; CW_FINDING_N_CODES: nothing may */
  guint count;
  double amount; /* of the first, sixteenths of an inch or square sixteenths; 0 is not looked at */
} Case;

static const Case cases[] = {
  /* One short score silences a spine; its other half is not to blame. */
  { "half-spine-short", SHEET "; rect w 70,40 90,60; score a toward 80,0 80,40; score b toward 80,60 80,108",
    CW_FINDING_SCORE_STOPS_SHORT, 1, 4 },
  /* Two scores that stop short of one another leave one gap. */
  { "gap-in-spine", SHEET "; score a toward 80,0 80,50; score b toward 80,60 80,112", CW_FINDING_SCORE_STOPS_SHORT, 1,
    10 },
  { "floating-score", SHEET "; score a toward 30,50 60,50", CW_FINDING_SCORE_STOPS_SHORT, 1, 100 },
  { "score-over-slit",
    SHEET "; cut c 40,50 120,50; score a toward 60,0 60,56; score b away 40,0 40,50;"
          "score d away 120,0 120,50",
    CW_FINDING_SCORE_STOPS_SHORT, 1, 6 },
  /* Ends beside a slit's end, an eighth of an inch off: named after the slit, not after the far edge. */
  { "beside-a-slit", SHEET "; cut c 80,0 80,50; score a toward 82,112 82,50", CW_FINDING_SCORE_STOPS_SHORT, 1, 2 },
  /* Ends properly on a slit round whose end the paper runs on. */
  { "idle-score", SHEET "; cut c 40,50 120,50; score a toward 80,0 80,50", CW_FINDING_SCORE_STOPS_SHORT, 1, 0 },
  { "no-fold-may-end", SHEET "; score a none 80,0 80,50", CW_FINDING_N_CODES, 0, 0 },
  { "chain-of-scores", SHEET "; score a toward 0,50 60,50; score b away 60,50 160,80; score c toward 60,0 60,50",
    CW_FINDING_N_CODES, 0, 0 },
  { "off-sheet-score", SHEET "; score a toward 80,-3 80,112", CW_FINDING_OFF_SHEET, 1, 3 },
  { "off-sheet-cut", SHEET "; cut a 150,50 170,50", CW_FINDING_OFF_SHEET, 1, 10 },
  { "off-sheet-wholly", SHEET "; rect a 170,0 180,10; cut b 20,120 40,120", CW_FINDING_OFF_SHEET, 2, 0 },
  { "no-inside", "0,0 100,0 50,0", CW_FINDING_OFF_SHEET, 1, 0 },
  { "all-window", SHEET "; rect w -4,-4 200,200", CW_FINDING_OFF_SHEET, 1, 0 },
  { "overlap-scores", SHEET "; score a toward 80,0 80,112; score b toward 80,20 80,50", CW_FINDING_MARKS_OVERLAP, 1,
    30 },
  { "overlap-cuts", SHEET "; cut a 20,50 80,50; cut b 100,50 60,50", CW_FINDING_MARKS_OVERLAP, 1, 20 },
  { "cut-over-score", SHEET "; score a toward 80,0 80,112; cut b 80,20 80,50", CW_FINDING_N_CODES, 0, 0 },
  { "crossing-is-no-overlap", SHEET "; score a toward 0,0 160,112; cut b 30,20 36,26", CW_FINDING_N_CODES, 0, 0 },
  { "disagree-on-one-line",
    SHEET "; cut w 64,40 96,40; cut v 64,70 96,70; score a toward 80,0 80,40;"
          "score b away 80,70 80,112; score c toward 64,40 64,70; score d away 80,40 80,70;"
          "score e toward 96,40 96,70",
    CW_FINDING_MARKS_DISAGREE, 1, 0 },
  { "closed-cut-falls-out", SHEET "; cut a 40,40 60,40 60,60 40,60 40,40", CW_FINDING_PIECE_FALLS_OUT, 1, 400 },
  { "window-is-thrown-away", SHEET "; window a 40,40 60,40 60,60 40,60", CW_FINDING_N_CODES, 0, 0 },
  { "cut-across-drops-the-smaller", SHEET "; cut a 40,0 40,112", CW_FINDING_PIECE_FALLS_OUT, 1, 40 * 112 },
  { "held-by-a-score", SHEET "; cut a 40,40 60,40 60,60 40,60; score b away 40,40 40,60", CW_FINDING_N_CODES, 0, 0 },
  { "bow-tie-outline", "0,0 100,100 100,0 0,120", CW_FINDING_PIECE_FALLS_OUT, 1, 0 },
  { "curled-outline", "0,0 160,0 160,112 80,112 80,60 120,60 120,90 40,90 40,112 0,112", CW_FINDING_OFF_SHEET, 1, 0 },
  { "thin-panel", SHEET "; score a toward 80,0 80,112; score b away 83,0 83,112", CW_FINDING_THIN_STRIP, 1, 3 },
  { "quarter-inch-is-meant",
    SHEET "; score a toward 80,0 80,112; score b away 84,0 84,112; cut c 20,20 40,20;"
          "cut d 20,24 40,24; cut e 120,4 120,60",
    CW_FINDING_N_CODES, 0, 0 },
  { "thin-slanted-strip", SHEET "; score a toward 20,0 80,112; score b away 24,0 84,112", CW_FINDING_THIN_STRIP, 1,
    4 * 112 / 127.0590 },
  { "thin-between-cuts", SHEET "; cut a 20,20 60,20; cut b 20,22 60,22", CW_FINDING_THIN_STRIP, 1, 2 },
  { "slit-near-edge", SHEET "; cut a 60,3 60,60", CW_FINDING_THIN_STRIP, 1, 3 },
  { "windows-near", SHEET "; circle a 60,60 20; circle b 103,60 20", CW_FINDING_THIN_STRIP, 1, 3 },
  { "corners-are-no-strips", SHEET "; cut a 40,40 80,40 44,56; score b away 40,40 44,56; window c 100,40 140,40 104,48",
    CW_FINDING_N_CODES, 0, 0 },
  { "off-snap", SHEET "; score a toward 80.5,0 80.5,112", CW_FINDING_OFF_SNAP, 1, 0.5 },
};

static void
test_case (gconstpointer data)
{
  const Case *c = data;
  g_autoptr (CwPanelSet) set = fixture_set (c->text);

  for (guint i = 0; i < set->findings->len; i++)
    {
      const CwFinding *finding = set->findings->pdata[i];

      g_test_message ("%s: %s, %f", c->name, cw_finding_code_get_key (finding->code), finding->amount / 508);
      g_assert_cmpint (finding->code, ==, c->code);
    }
  g_assert_cmpuint (set->findings->len, ==, c->count);
  if (c->count > 0 && c->amount > 0)
    {
      const CwFinding *finding = set->findings->pdata[0];
      double unit = finding->amount_unit == CW_AMOUNT_SQ_TICKS ? 508.0 * 508.0 : 508.0;

      g_assert_cmpfloat_with_epsilon (finding->amount / unit, c->amount, 0.005);
    }
}

static void
add_fold (CwDesign *design, const char *score, double to)
{
  CwStep *step = design->steps->pdata[design->steps->len - 1];
  CwStepFold *fold = cw_step_fold_new ();

  fold->score = g_strdup (score);
  fold->to = to;
  g_ptr_array_add (step->folds, fold);
}

static void
add_fold_step (CwDesign *design, const char *id, const char *score, double to)
{
  CwStep *step = cw_step_new ();

  step->id = g_strdup (id);
  step->what = CW_DO_FOLD;
  g_ptr_array_add (design->steps, step);
  add_fold (design, score, to);
}

/* A point with four creases at 0, 90, 180 + miss and 270 degrees: sectors 90, 90 + miss, 90 - miss, 90. */
static CwPanelSet *
fold_four (double miss_deg, const char *ways, double first_to)
{
  double x = 80 - 80, y = 56 - 80 * tan (miss_deg * G_PI / 180);
  g_autofree char *text = NULL;
  g_autoptr (CwDesign) design = NULL;
  const char *way[4];

  for (int i = 0; i < 4; i++)
    way[i] = ways[i] == 't' ? "toward" : ways[i] == 'a' ? "away" : "none";
  text = g_strdup_printf (SHEET "; score a %s 80,56 160,56; score b %s 80,56 80,112; score c %s 80,56 %.3f,%.3f;"
                                "score d %s 80,56 80,0",
                          way[0], way[1], way[2], x, y, way[3]);
  design = fixture_design (text);
  design->head->snap_ticks = 0;
  add_fold_step (design, "one", "base/a", first_to);
  add_fold_step (design, "all", "base/a", first_to);
  add_fold (design, "base/b", 180);
  add_fold (design, "base/c", 180);
  add_fold (design, "base/d", 180);
  return cw_panel_set_new (design);
}

static void
test_flat_points (void)
{
  g_autoptr (CwPanelSet) good = fold_four (0, "ttat", 180);
  g_autoptr (CwPanelSet) four_alike = fold_four (0, "tttt", 180);
  g_autoptr (CwPanelSet) turned_back = fold_four (0, "tttt", -180);
  g_autoptr (CwPanelSet) askew = fold_four (3, "ttat", 180);
  g_autoptr (CwPanelSet) part_way = fold_four (3, "ttat", 90);
  const CwFinding *finding;

  g_assert_cmpuint (fixture_count (good, CW_FINDING_WILL_NOT_FOLD_FLAT), ==, 0);
  g_assert_cmpuint (fixture_count (turned_back, CW_FINDING_WILL_NOT_FOLD_FLAT), ==, 0);
  g_assert_cmpuint (fixture_count (part_way, CW_FINDING_WILL_NOT_FOLD_FLAT), ==, 0);
  g_assert_cmpuint (fixture_count (four_alike, CW_FINDING_WILL_NOT_FOLD_FLAT), ==, 1);
  g_assert_cmpuint (fixture_count (askew, CW_FINDING_WILL_NOT_FOLD_FLAT), ==, 1);
  finding = fixture_find (askew, CW_FINDING_WILL_NOT_FOLD_FLAT);
  g_assert_cmpint (finding->amount_unit, ==, CW_AMOUNT_DEGREES);
  g_assert_cmpfloat_with_epsilon (finding->amount, 3, 0.01);
  /* Shutting a alone already needs another crease in line with it, and there is none. */
  g_assert_cmpstr (finding->step, ==, "one");
}

/* Steps that never shut any of the creases ask nothing, whatever the angles. */
static void
test_not_asked (void)
{
  g_autoptr (CwDesign) design
    = fixture_design (SHEET "; score a toward 80,56 160,56; score b away 80,56 0,20; score c toward 80,56 60,112");
  g_autoptr (CwPanelSet) set = NULL;

  add_fold_step (design, "lift", "base/a", 40);
  set = cw_panel_set_new (design);
  g_assert_cmpuint (fixture_count (set, CW_FINDING_WILL_NOT_FOLD_FLAT), ==, 0);
}

/* Two scores on one line, cut by a spine: closed together, opened by naming one of them. The other follows, so what it
 * was at the end of an earlier step says nothing (model, "What follows"). */
static void
test_follower_opens (void)
{
  g_autoptr (CwDesign) design = fixture_design (SHEET "; score s1 toward 80,0 80,56; score s2 away 80,56 80,112;"
                                                      "score p1 toward 0,56 80,56; score p2 toward 80,56 160,56");
  g_autoptr (CwPanelSet) set = NULL;

  add_fold_step (design, "close", "base/p1", 180);
  add_fold_step (design, "close-too", "base/p2", 180);
  add_fold_step (design, "open", "base/p1", 0);
  add_fold_step (design, "half", "base/s1", 180);
  set = cw_panel_set_new (design);
  g_assert_cmpuint (fixture_count (set, CW_FINDING_WILL_NOT_FOLD_FLAT), ==, 0);
}

/* A metric design with no step of its own is held to whole millimetres; a length that is no whole tick is told even
 * with the snap off (model, "Marks and outlines"). */
static void
test_snap_units (void)
{
  g_autoptr (CwDesign) metric
    = fixture_design ("0,0 #32000,0 #32000,#22400 0,#22400; score a toward #16000,0 #16000,#22400");
  g_autoptr (CwDesign) odd = fixture_design (SHEET "; cut a 20,20 40,20");
  g_autoptr (CwPanelSet) millimetres = NULL;
  g_autoptr (CwPanelSet) sixteenths = NULL;
  g_autoptr (CwPanelSet) off = NULL;
  CwMark *mark = ((CwPiece *) odd->pieces->pdata[0])->marks->pdata[0];

  sixteenths = cw_panel_set_new (metric);
  g_assert_cmpuint (fixture_count (sixteenths, CW_FINDING_OFF_SNAP), ==, 2);
  metric->head->unit = CW_UNIT_MM;
  metric->head->has_snap = FALSE;
  millimetres = cw_panel_set_new (metric);
  g_assert_cmpuint (millimetres->findings->len, ==, 0);

  odd->head->snap_ticks = 0;
  g_assert_true (cw_length_parse ("11/3 in", CW_UNIT_INCH, &mark->line.vertices[1].at.x, NULL));
  off = cw_panel_set_new (odd);
  g_assert_cmpuint (fixture_count (off, CW_FINDING_OFF_SNAP), ==, 1);
}

/* What is said of the first design's fold lines if its paper is so heavy and its grain runs so; words may be asked for.
 */
static guint
count_across (const char *text, const char *weight, const char *grain, double *length)
{
  g_autoptr (CwDesign) design = fixture_design (text);
  g_autoptr (CwPanelSet) set = NULL;
  CwPaper *paper = cw_paper_new ();
  CwPiece *piece = design->pieces->pdata[0];
  const CwFinding *finding;

  paper->id = g_strdup ("paper");
  paper->weight = g_strdup (weight);
  paper->grain = g_strdup (grain);
  g_ptr_array_add (design->papers, paper);
  g_free (piece->paper);
  piece->paper = g_strdup ("paper");
  set = cw_panel_set_new (design);
  finding = fixture_find (set, CW_FINDING_AGAINST_GRAIN);
  *length = finding != NULL ? finding->amount / CW_TICKS_PER_INCH : 0;
  return fixture_count (set, CW_FINDING_AGAINST_GRAIN);
}

/* The house's values (tool page): from 200 g/m2 and 4 inches on. Pounds: 74 lb cover are 200.1 g/m2, 73 lb are 197.4
 * (basis weight, test-grammage.c). */
static void
test_grain (void)
{
  static const struct
  {
    const char *text, *weight, *grain;
    double inches; /* of the fold line told; 0: none */
  } papers[] = {
    { SHEET "; score a toward 80,0 80,112", "216 g/m2", "x", 7 },
    { SHEET "; score a toward 80,0 80,112", "216 g/m2", "y", 0 },
    { SHEET "; score a away 0,60 160,60", "216 g/m2", "y", 10 },
    { SHEET "; score a away 0,60 160,60", "216 g/m2", "x", 0 },
    /* Not known, not heavy. */
    { SHEET "; score a toward 80,0 80,112", "216 g/m2", NULL, 0 },
    { SHEET "; score a toward 80,0 80,112", NULL, "x", 0 },
    { SHEET "; score a toward 80,0 80,112", "110 lb", "x", 0 },
    { SHEET "; score a toward 80,0 80,112", "199 g/m2", "x", 0 },
    { SHEET "; score a toward 80,0 80,112", "200 g/m2", "x", 7 },
    { SHEET "; score a toward 80,0 80,112", "73 lb cover", "x", 0 },
    { SHEET "; score a toward 80,0 80,112", "74 lb cover", "x", 7 },
    /* Length: what is folded of the line, without what a window takes of it. */
    { "0,0 160,0 160,63 0,63; score a toward 80,0 80,63", "216 g/m2", "x", 0 },
    { "0,0 160,0 160,64 0,64; score a toward 80,0 80,64", "216 g/m2", "x", 4 },
    { SHEET "; rect w 70,20 90,69; score a toward 80,0 80,112", "216 g/m2", "x", 0 },
    /* Scored, not folded; halfway between both. */
    { SHEET "; score a none 80,0 80,112", "216 g/m2", "x", 0 },
    { SHEET "; score a toward 20,0 132,112", "216 g/m2", "x", 0 },
    /* The longest of several, once. */
    { "0,0 160,0 160,112 100,112 100,80 0,80; score a toward 60,0 60,80; score b away 130,0 130,112", "216 g/m2", "x",
      7 },
  };

  for (guint i = 0; i < G_N_ELEMENTS (papers); i++)
    {
      double inches;

      g_test_message ("%u: %s, %s, grain %s", i, papers[i].text, papers[i].weight, papers[i].grain);
      g_assert_cmpuint (count_across (papers[i].text, papers[i].weight, papers[i].grain, &inches), ==,
                        papers[i].inches > 0 ? 1u : 0u);
      g_assert_cmpfloat_with_epsilon (inches, papers[i].inches, 1e-9);
    }
}

/* Words name the marks and print measures as a maker would read them. */
static void
test_words (void)
{
  g_autoptr (CwPanelSet) set = fixture_set (SHEET "; score gutter toward 80,0 80,108");
  const CwFinding *finding = fixture_find (set, CW_FINDING_SCORE_STOPS_SHORT);

  g_assert_nonnull (finding);
  g_assert_cmpstr (finding->args->pdata[0], ==, "gutter");
  g_assert_cmpstr (finding->args->pdata[1], ==, "1/4 in");
  g_assert_nonnull (finding->remedy);
  g_assert_cmpstr (finding->marks->pdata[0], ==, "base/gutter");
  g_assert_cmpfloat_with_epsilon (finding->at.y, 108 * 508, 1e-9);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autofree char *path = g_strconcat ("/panel/drawing-fault/", cases[i].name, NULL);

      g_test_add_data_func (path, &cases[i], test_case);
    }
  g_test_add_func ("/panel/drawing-fault/points-that-fold-flat", test_flat_points);
  g_test_add_func ("/panel/drawing-fault/points-not-asked", test_not_asked);
  g_test_add_func ("/panel/drawing-fault/points-that-follow", test_follower_opens);
  g_test_add_func ("/panel/drawing-fault/snap-and-units", test_snap_units);
  g_test_add_func ("/panel/drawing-fault/across-the-grain", test_grain);
  g_test_add_func ("/panel/drawing-fault/words", test_words);
  return g_test_run ();
}
