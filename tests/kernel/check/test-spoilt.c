/* test-spoilt.c: cards that are right, spoilt on purpose in one way after the other, and mended again.
 *
 * Every golden card and sample at which nothing is wrong is spoilt once in each way (spoil-fixture.h). Where that
 * raises the finding it is meant to, remedies are asked for, of the first card a way, and held to what they
 * promise: the finding goes, none comes, undone it is the same file (remedy-fixture.h).
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "remedy-fixture.h"
#include "spoil-fixture.h"

/* So many cards a way are mended: more take too long under a sanitizer. */
#define CARDS_MOST 1

typedef struct
{
  const char *name;
  CwFindingCode code, other; /* what it is: either */
  Spoil spoil;
  guint least;    /* at least so many cards are spoilt so that it is told */
  gboolean mends; /* every one of them gets a remedy; else at least one */
} Way;

static const Way ways[] = {
  { "score-stops-short", CW_FINDING_SCORE_STOPS_SHORT, CW_FINDING_SCORE_STOPS_SHORT, spoil_short, 1, TRUE },
  { "off-sheet", CW_FINDING_OFF_SHEET, CW_FINDING_OFF_SHEET, spoil_beyond, 1, TRUE },
  { "piece-falls-out", CW_FINDING_PIECE_FALLS_OUT, CW_FINDING_PIECE_FALLS_OUT, spoil_cut_out, 1, TRUE },
  { "marks-overlap", CW_FINDING_MARKS_OVERLAP, CW_FINDING_MARKS_OVERLAP, spoil_overlap, 1, TRUE },
  { "marks-disagree", CW_FINDING_MARKS_DISAGREE, CW_FINDING_MARKS_DISAGREE, spoil_disagree, 1, TRUE },
  { "thin-strip", CW_FINDING_THIN_STRIP, CW_FINDING_THIN_STRIP, spoil_strip, 1, TRUE },
  { "off-snap", CW_FINDING_OFF_SNAP, CW_FINDING_OFF_SNAP, spoil_off_marks, 1, TRUE },
  { "cannot-move", CW_FINDING_CANNOT_MOVE, CW_FINDING_CANNOT_MOVE, spoil_ridge, 1, TRUE },
  { "needs-give", CW_FINDING_NEEDS_GIVE, CW_FINDING_NEEDS_GIVE, spoil_ridge_little, 1, TRUE },
  { "collide-or-block", CW_FINDING_PANELS_COLLIDE, CW_FINDING_LAYERS_BLOCK, spoil_way, 1, TRUE },
  { "too-long", CW_FINDING_PANELS_COLLIDE, CW_FINDING_LAYERS_BLOCK, spoil_long, 1, TRUE },
  { "tuck-too-wide", CW_FINDING_TUCK_TOO_WIDE, CW_FINDING_TUCK_TOO_WIDE, spoil_fill, 1, TRUE },
  { "not-flat", CW_FINDING_NOT_FLAT, CW_FINDING_NOT_FLAT, spoil_not_flat, 1, TRUE },
  { "sticks-out", CW_FINDING_STICKS_OUT, CW_FINDING_STICKS_OUT, spoil_size, 1, TRUE },
  { "too-big-for-envelope", CW_FINDING_TOO_BIG_FOR_ENVELOPE, CW_FINDING_TOO_BIG_FOR_ENVELOPE, spoil_envelope, 1, TRUE },
  { "tight-envelope", CW_FINDING_TIGHT_MARGIN, CW_FINDING_TIGHT_MARGIN, spoil_tight_envelope, 1, TRUE },
  { "layer-shows", CW_FINDING_LAYER_SHOWS, CW_FINDING_LAYER_SHOWS, spoil_hidden, 1, TRUE },
  { "layer-hidden", CW_FINDING_LAYER_HIDDEN, CW_FINDING_LAYER_HIDDEN, spoil_shown, 1, TRUE },
  { "layer-overhangs", CW_FINDING_LAYER_OVERHANGS, CW_FINDING_LAYER_OVERHANGS, spoil_overhang, 1, TRUE },
  { "glue-goes-wrong", CW_FINDING_GLUED_SHUT, CW_FINDING_GLUE_STRAYS, spoil_wide, 1, FALSE },
  { "layer-over", CW_FINDING_LAYER_OVER_SCORE, CW_FINDING_LAYER_OVER_CUT, spoil_wide, 1, FALSE },
  { "too-thick", CW_FINDING_TOO_THICK, CW_FINDING_TOO_THICK, spoil_foam, 1, TRUE },
  { "glue-near-edge", CW_FINDING_GLUE_NEAR_EDGE, CW_FINDING_GLUE_NEAR_EDGE, spoil_wet, 1, TRUE },
  { "glue-missing", CW_FINDING_GLUE_MISSING, CW_FINDING_GLUE_MISSING, spoil_no_glue, 1, TRUE },
  { "heat-after-glue", CW_FINDING_HEAT_AFTER_GLUE, CW_FINDING_HEAT_AFTER_GLUE, spoil_heat, 1, TRUE },
  { "art-turned", CW_FINDING_ART_TURNED, CW_FINDING_ART_TURNED, spoil_art, 1, TRUE },
  { "wrong-face", CW_FINDING_WRONG_FACE, CW_FINDING_WRONG_FACE, spoil_face, 1, TRUE },
  { "two-places", CW_FINDING_CANNOT_MOVE, CW_FINDING_CANNOT_MOVE, spoil_two_places, 1, TRUE },
};

/* Cards at which nothing is wrong, by name; filled once. */
static GPtrArray *sound;       /* of CwAnalysis */
static GPtrArray *sound_names; /* of strings */

static int
compare_names (gconstpointer a, gconstpointer b)
{
  return strcmp (*(char *const *) a, *(char *const *) b);
}

static void
add_sound (const char *folder)
{
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  g_autoptr (GPtrArray) names = g_ptr_array_new_with_free_func (g_free);

  g_assert_nonnull (dir);
  for (const char *name = g_dir_read_name (dir); name != NULL; name = g_dir_read_name (dir))
    if (g_str_has_suffix (name, ".creasecard") && strstr (name, "broken") == NULL)
      g_ptr_array_add (names, g_strdup (name));
  g_ptr_array_sort (names, compare_names);
  for (guint i = 0; i < names->len; i++)
    {
      g_autofree char *path = g_build_filename (folder, names->pdata[i], NULL);
      g_autoptr (GFile) file = g_file_new_for_path (path);
      g_autoptr (GError) error = NULL;
      g_autoptr (CwDesign) design = cw_design_load (file, &error);
      g_autoptr (CwAnalysis) analysis = NULL;

      g_assert_no_error (error);
      analysis = cw_analysis_new (design);
      if (cw_analysis_get_verdict (analysis) >= CW_VERDICT_WARNINGS)
        continue;
      g_ptr_array_add (sound, g_steal_pointer (&analysis));
      g_ptr_array_add (sound_names, g_strdup (names->pdata[i]));
    }
}

static guint
count (const CwAnalysis *analysis, const Way *way)
{
  guint n = 0;

  for (guint i = 0; i < analysis->findings->len; i++)
    {
      CwFindingCode code = ((const CwFinding *) analysis->findings->pdata[i])->code;

      n += code == way->code || code == way->other;
    }
  return n;
}

static const CwFinding *
find_raised (const CwAnalysis *analysis, const Way *way)
{
  for (guint i = 0; i < analysis->findings->len; i++)
    {
      const CwFinding *finding = analysis->findings->pdata[i];

      if (finding->code == way->code || finding->code == way->other)
        return finding;
    }
  return NULL;
}

static void
test_way (gconstpointer data)
{
  const Way *way = data;
  guint n_spoilt = 0, n_mended = 0;

  for (guint i = 0; i < sound->len && n_spoilt < CARDS_MOST; i++)
    {
      const CwAnalysis *before = sound->pdata[i];
      g_autoptr (CwDraft) draft = cw_draft_new (before->design);
      g_autoptr (CwAnalysis) spoilt = NULL;
      g_autoptr (GPtrArray) remedies = NULL;
      const CwFinding *finding;
      g_autofree char *words = NULL;

      if (!way->spoil (draft, before) || !cw_design_validate (draft->design, NULL))
        continue;
      spoilt = cw_analysis_new (draft->design);
      if (count (spoilt, way) <= count (before, way))
        continue;
      finding = find_raised (spoilt, way);
      n_spoilt++;
      words = cw_finding_dup_text (finding, FALSE);
      remedies = cw_remedies_try (spoilt, finding, 1, NULL);
      for (guint k = 0; k < remedies->len; k++)
        remedy_hold_one (spoilt, finding, remedies->pdata[k]);
      n_mended += remedies->len > 0;
      g_test_message ("%s %s: %u remedies for: %s", way->name, (char *) sound_names->pdata[i], remedies->len, words);
    }
  g_test_message ("%s: %u of %u mended", way->name, n_mended, n_spoilt);
  g_assert_cmpuint (n_spoilt, >=, way->least);
  g_assert_cmpuint (n_mended, >=, way->mends ? n_spoilt : 1);
}

int
main (int argc, char **argv)
{
  g_autofree char *cards = NULL, *samples = NULL;
  int status;

  g_test_init (&argc, &argv, NULL);
  sound = g_ptr_array_new_with_free_func ((GDestroyNotify) cw_analysis_unref);
  sound_names = g_ptr_array_new_with_free_func (g_free);
  cards = g_test_build_filename (G_TEST_DIST, "golden", "cards", NULL);
  samples = g_build_filename (g_getenv ("CREASEWRIGHT_DATA"), "samples", NULL);
  add_sound (samples);
  add_sound (cards);
  for (guint i = 0; i < G_N_ELEMENTS (ways); i++)
    {
      g_autofree char *path = g_strconcat ("/check/spoilt/", ways[i].name, NULL);

      g_test_add_data_func (path, &ways[i], test_way);
    }
  status = g_test_run ();
  g_ptr_array_unref (sound);
  g_ptr_array_unref (sound_names);
  return status;
}
