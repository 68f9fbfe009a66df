/* test-remedy.c: remedies for drawings and cards with one fault each, and for every card of the golden cases.
 *
 * What a remedy has to do is in the agreed design: clear its finding and raise no other, be one edit, undone to the
 * same bytes. That is checked here by counting findings, and every number said is worked out from the measures drawn.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "../panel/sheet-fixture.h"
#include "card-fixture.h"
#include "remedy-fixture.h"

#define SHEET "0,0 160,0 160,112 0,112" /* 10 x 7 inch, in sixteenths */

typedef struct
{
  const char *name, *text;
  CwFindingCode code;
  const char *first; /* what the best remedy says; NULL: not looked at */
} Case;

static const Case drawings[] = {
  { "half-spine-short", SHEET "; rect w 70,40 90,60; score a toward 80,0 80,40; score b toward 80,60 80,108",
    CW_FINDING_SCORE_STOPS_SHORT, "Make the score “b” longer by 1/4 in." },
  { "gap-in-spine", SHEET "; score a toward 80,0 80,50; score b toward 80,60 80,112", CW_FINDING_SCORE_STOPS_SHORT,
    "Make the score “a” longer by 5/8 in." },
  { "floating-score", SHEET "; score a toward 30,50 60,50", CW_FINDING_SCORE_STOPS_SHORT,
    "Make the score “a” longer by 1 7/8 in at one end and 6 1/4 in at the other." },
  { "score-over-slit",
    SHEET "; cut c 40,50 120,50; score a toward 60,0 60,56; score b away 40,0 40,50; score d away 120,0 120,50",
    CW_FINDING_SCORE_STOPS_SHORT, "Make the score “a” shorter by 3/8 in." },
  { "beside-a-slit", SHEET "; cut c 80,0 80,50; score a toward 82,112 82,50", CW_FINDING_SCORE_STOPS_SHORT,
    "Move the end of the score “a” by 1/8 in, onto the line beside it." },
  { "idle-score", SHEET "; cut c 40,50 120,50; score a toward 80,0 80,50", CW_FINDING_SCORE_STOPS_SHORT, NULL },
  { "off-sheet-score", SHEET "; score a toward 80,-3 80,112", CW_FINDING_OFF_SHEET,
    "Let “a” end on the edge, 3/16 in shorter." },
  { "off-sheet-cut", SHEET "; cut a 150,50 170,50", CW_FINDING_OFF_SHEET, "Let “a” end on the edge, 5/8 in shorter." },
  { "off-sheet-wholly", SHEET "; rect a 170,0 180,10", CW_FINDING_OFF_SHEET,
    "Move “a” onto the paper, 1/4 in from the edge." },
  { "off-sheet-slit", SHEET "; cut b 20,120 40,120", CW_FINDING_OFF_SHEET,
    "Move “b” onto the paper, 1/4 in from the edge." },
  { "all-window", SHEET "; rect w -4,-4 200,200", CW_FINDING_OFF_SHEET, "Take “w” away." },
  { "overlap-scores", SHEET "; score a toward 80,0 80,112; score b toward 80,20 80,50", CW_FINDING_MARKS_OVERLAP,
    "Take “b” away: “a” lies there already." },
  { "overlap-cuts", SHEET "; cut a 20,50 80,50; cut b 100,50 60,50", CW_FINDING_MARKS_OVERLAP,
    "Let “b” end where “a” begins, 1 1/4 in shorter." },
  { "disagree-on-one-line",
    SHEET "; cut w 64,40 96,40; cut v 64,70 96,70; score a toward 80,0 80,40; score b away 80,70 80,112;"
          "score c toward 64,40 64,70; score d away 80,40 80,70; score e toward 96,40 96,70",
    CW_FINDING_MARKS_DISAGREE, "Let “b” fold the same way as “a”." },
  { "closed-cut-falls-out", SHEET "; cut a 40,40 60,40 60,60 40,60 40,40", CW_FINDING_PIECE_FALLS_OUT,
    "Make “a” a window: what it cuts out is thrown away." },
  { "cut-across", SHEET "; cut a 40,0 40,112", CW_FINDING_PIECE_FALLS_OUT,
    "Make the cut “a” shorter by 1/4 in: a bridge of paper holds the part." },
  { "bow-tie-outline", "0,0 100,100 100,0 0,120", CW_FINDING_PIECE_FALLS_OUT,
    "Run the outline of “base” once round the paper, without crossing itself." },
  { "curled-outline", "0,0 160,0 160,112 80,112 80,60 120,60 120,90 40,90 40,112 0,112", CW_FINDING_OFF_SHEET,
    "Run the outline of “base” once round the paper, without crossing itself." },
  { "thin-panel", SHEET "; score a toward 80,0 80,112; score b away 83,0 83,112", CW_FINDING_THIN_STRIP,
    "Move “b” by 1/16 in to the right." },
  { "thin-between-cuts", SHEET "; cut a 20,20 60,20; cut b 20,22 60,22", CW_FINDING_THIN_STRIP,
    "Move “b” by 1/8 in down." },
  { "slit-near-edge", SHEET "; cut a 60,3 60,60", CW_FINDING_THIN_STRIP, "Make the cut “a” shorter by 1/16 in." },
  { "windows-near", SHEET "; circle a 60,60 20; circle b 103,60 20", CW_FINDING_THIN_STRIP,
    "Make the window “b” smaller by 1/16 in all round." },
  { "rect-near-edge", SHEET "; rect w 150,40 158,60", CW_FINDING_THIN_STRIP, NULL },
  { "off-snap", SHEET "; score a toward 80.5,0 80.5,112", CW_FINDING_OFF_SNAP,
    "Move “a” to the nearest of your marks." },
  { "outline-off-snap", "0,0 160.5,0 160.5,112 0,112; score a toward 80,0 80,112", CW_FINDING_OFF_SNAP,
    "Move the corners of “base” to the nearest of your marks." },
};

static void
test_drawing (gconstpointer data)
{
  const Case *c = data;
  g_autoptr (CwDesign) design = fixture_design (c->text);
  g_autoptr (CwAnalysis) analysis = cw_analysis_new (design);
  g_autoptr (GPtrArray) remedies = NULL;
  const CwFinding *finding = remedy_find (analysis, c->code);

  g_assert_nonnull (finding);
  g_assert_cmpuint (remedy_hold (analysis, finding), >, 0);
  remedies = cw_remedies_try (analysis, finding, 1, NULL);
  if (c->first != NULL)
    {
      g_autofree char *words = cw_remedy_dup_text (remedies->pdata[0], FALSE);

      g_assert_cmpstr (words, ==, c->first);
    }
}

/* A spine across the grain: the base is cut from the sheet turned, its mat of the same paper as before. Two folds
 * square to one another: one of them lies across whichever way, so nothing is offered. */
static void
test_grain (void)
{
  static const struct
  {
    const char *marks;
    gboolean mat; /* of the same paper, with a fold along the grain */
    guint n_offered, n_papers;
  } bases[] = {
    { "; score a toward 80,0 80,112", FALSE, 1, 1 },
    { "; score a toward 80,0 80,112", TRUE, 1, 2 },
    { "; score a toward 80,0 80,112; rect w 60,40 159,50; score b away 0,30 80,30; score c toward 80,30 160,30", FALSE,
      0, 1 },
  };

  for (guint i = 0; i < G_N_ELEMENTS (bases); i++)
    {
      g_autofree char *text = g_strconcat (SHEET, bases[i].marks, NULL);
      g_autoptr (CwDesign) design = fixture_design (text);
      g_autoptr (CwAnalysis) analysis = NULL;
      g_autoptr (GPtrArray) remedies = NULL;
      CwPaper *paper = cw_paper_new ();

      paper->id = g_strdup ("kraft");
      paper->weight = g_strdup ("216 g/m2");
      paper->grain = g_strdup ("x");
      g_ptr_array_add (design->papers, paper);
      if (bases[i].mat)
        g_ptr_array_add (design->pieces, fixture_piece ("mat", "0,0 100,0 100,40 0,40; score m away 0,20 100,20"));
      for (guint k = 0; k < design->pieces->len; k++)
        {
          CwPiece *piece = design->pieces->pdata[k];

          g_free (piece->paper);
          piece->paper = g_strdup ("kraft");
        }
      analysis = cw_analysis_new (design);
      g_assert_nonnull (remedy_find (analysis, CW_FINDING_AGAINST_GRAIN));
      g_assert_cmpuint (remedy_hold (analysis, remedy_find (analysis, CW_FINDING_AGAINST_GRAIN)), ==,
                        bases[i].n_offered);
      remedies = cw_remedies_try (analysis, remedy_find (analysis, CW_FINDING_AGAINST_GRAIN), 1, NULL);
      if (remedies->len > 0)
        {
          const CwRemedy *remedy = remedies->pdata[0];
          g_autoptr (CwDesign) mended = cw_edit_apply (remedy->edit, design);

          g_assert_cmpuint (mended->papers->len, ==, bases[i].n_papers);
        }
    }
}

/* Where nothing is offered yet. The liner's paper itself bars the fold, whatever its glue: it wants a score, or to be
 * two. The other two were looked for and not found. */
static const struct
{
  const char *card;
  CwFindingCode code;
} unmended[] = {
  { "own-liner-over-spine.creasecard", CW_FINDING_GLUED_SHUT },
  { "own-liner-over-spine.creasecard", CW_FINDING_LAYER_OVER_SCORE },
  { "own-bridge.creasecard", CW_FINDING_GLUE_MISSING },
  { "own-point-askew.creasecard", CW_FINDING_WILL_NOT_FOLD_FLAT },
  /* Three steps the wrong way round: no one of them helps. */
  { "own-waterfall-wrong.creasecard", CW_FINDING_PANELS_COLLIDE },
  { "own-waterfall-wrong.creasecard", CW_FINDING_LAYERS_BLOCK },
};

static gboolean
is_unmended (const char *card, CwFindingCode code)
{
  for (guint i = 0; i < G_N_ELEMENTS (unmended); i++)
    if (g_str_equal (unmended[i].card, card) && unmended[i].code == code)
      return TRUE;
  return FALSE;
}

/* Cards of the golden cases: whatever is offered holds; where something is wrong with one, something is offered. */
static void
test_golden (void)
{
  g_autofree char *folder = g_test_build_filename (G_TEST_DIST, "golden", "cards", NULL);
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  g_autoptr (GPtrArray) names = g_ptr_array_new_with_free_func (g_free);
  guint n_wrong = 0, n_mended = 0;

  for (const char *name = g_dir_read_name (dir); name != NULL; name = g_dir_read_name (dir))
    if (g_str_has_suffix (name, ".creasecard"))
      g_ptr_array_add (names, g_strdup (name));
  for (guint i = 0; i < names->len; i++)
    {
      g_autofree char *path = g_build_filename (folder, names->pdata[i], NULL);
      g_autoptr (GFile) file = g_file_new_for_path (path);
      g_autoptr (GError) error = NULL;
      g_autoptr (CwDesign) design = cw_design_load (file, &error);
      g_autoptr (CwAnalysis) analysis = NULL;

      g_assert_no_error (error);
      analysis = cw_analysis_new (design);
      for (guint k = 0; k < analysis->findings->len; k++)
        {
          const CwFinding *finding = analysis->findings->pdata[k];
          guint n;

          if (finding->severity == CW_SEVERITY_NOTE)
            continue;
          n = remedy_hold (analysis, finding);
          if (n == 0)
            g_test_message ("%s: none for %s", (char *) names->pdata[i], cw_finding_code_get_key (finding->code));
          if (is_unmended (names->pdata[i], finding->code))
            continue;
          n_wrong++;
          n_mended += n > 0;
        }
    }
  g_test_message ("golden cards: %u of %u findings mended", n_mended, n_wrong);
  g_assert_cmpuint (n_wrong, >=, 8);
  g_assert_cmpuint (n_mended, ==, n_wrong);
}

/* The same answer every time, and nothing when cancelled before it begins. */
static void
test_steady (void)
{
  g_autoptr (CwDesign) design = fixture_design (drawings[0].text);
  g_autoptr (CwAnalysis) analysis = cw_analysis_new (design);
  g_autoptr (GCancellable) cancelled = g_cancellable_new ();
  const CwFinding *finding = remedy_find (analysis, drawings[0].code);
  g_autoptr (GPtrArray) once = cw_remedies_try (analysis, finding, 3, NULL);
  g_autoptr (GPtrArray) twice = cw_remedies_try (analysis, finding, 3, NULL);
  g_autoptr (GPtrArray) never = NULL;

  g_assert_cmpuint (once->len, ==, twice->len);
  for (guint i = 0; i < once->len; i++)
    {
      g_autofree char *a = cw_remedy_dup_text (once->pdata[i], FALSE);
      g_autofree char *b = cw_remedy_dup_text (twice->pdata[i], FALSE);

      g_assert_cmpstr (a, ==, b);
    }
  g_cancellable_cancel (cancelled);
  never = cw_remedies_try (analysis, finding, 3, cancelled);
  g_assert_cmpuint (never->len, ==, 0);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (drawings); i++)
    {
      g_autofree char *path = g_strconcat ("/check/remedy/drawing/", drawings[i].name, NULL);

      g_test_add_data_func (path, &drawings[i], test_drawing);
    }
  g_test_add_func ("/check/remedy/grain", test_grain);
  g_test_add_func ("/check/remedy/golden", test_golden);
  g_test_add_func ("/check/remedy/steady", test_steady);
  return g_test_run ();
}
