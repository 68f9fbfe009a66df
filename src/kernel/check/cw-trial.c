/* cw-trial.c: every verdict tried at the worst case of the design's `hand`.
 *
 * Each thing that a hand puts in its place is put beside it by `hand`, in each of its ways (cw-miss.c), and the design
 * that comes out is analysed. What is then wrong and was not is `tight-margin`, with the largest miss at which it is
 * not yet wrong, found by halving. One fault is told once, for the measure that leaves the least. Envelope and hidden
 * layers have a worst case that needs no trial and are told where they are judged.
 *
 * Paper gives where a loop does not close, so lines and layers that are part of a loop are only asked what shows and
 * what glue strays to, with give enough for the miss; they are never asked whether they move. Faults of the drawing,
 * sizes and what stands over are not asked either: every card that is cut to its size would be tight.
 *
 * How far a miss shows is read from the same trials (cw-lever.c).
 *
 * A card at which something is wrong is not tried. The number of trials is counted, not timed.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "check/cw-trial.h"

#include "design/cw-edit.h"
#include "geometry/cw-tolerance.h"
#include "units/cw-about.h"

#include <glib/gi18n-lib.h>

/* So many panels are analysed in all, and so much work done on loops (cw-effort.h): some hundred times what a card with
 * a few layers costs. Lines that are part of a loop come last. */
#define PANELS_MOST 4000
#define EFFORT_MOST G_GINT64_CONSTANT (500000000)
/* A margin is found to this many ticks; up to so many there is none: what passes or not within the hair by which panels
 * are made smaller against noise (CW_COLLISION_HAIR_TICKS) on either side, or a half of it more, is no margin. */
#define MARGIN_TICKS 8
#define NO_MARGIN_TICKS (3 * CW_COLLISION_HAIR_TICKS)
/* In a loop a line that misses by one makes the paper give by up to so many. */
#define GIVE_SHARE 4

typedef struct
{
  CwAnalysis *analysis;
  GCancellable *cancellable;
  gint32 hand;
  GPtrArray *misses;   /* of CwMiss */
  GPtrArray *findings; /* of CwFinding: tight margins found so far */
  GPtrArray *levers;   /* of CwLever */
  guint n_tried, n_ways;
  gint64 n_left;      /* panels that may still be analysed */
  gint64 effort_left; /* work on loops that may still be done */
} Trial;

/* --- What turns --------------------------------------------------------------------------------------------------- */

static gboolean
is_asked (const CwMiss *miss, gboolean loop, const CwFinding *finding)
{
  CwFindingCode code = finding->code;

  if (finding->severity == CW_SEVERITY_NOTE)
    return FALSE;
  if (code == CW_FINDING_GLUE_STRAYS)
    return TRUE;
  if (code == CW_FINDING_LAYER_SHOWS || code == CW_FINDING_LAYER_HIDDEN)
    return miss->kind != CW_MISS_GLUE;
  if (code == CW_FINDING_GLUED_SHUT || code == CW_FINDING_LAYER_OVER_SCORE || code == CW_FINDING_LAYER_OVER_CUT)
    return !loop;
  return (code == CW_FINDING_PANELS_COLLIDE || code == CW_FINDING_LAYERS_BLOCK) && !loop && miss->kind != CW_MISS_GLUE;
}

static gboolean
same_pieces (const CwFinding *a, const CwFinding *b)
{
  if (a->pieces->len != b->pieces->len)
    return FALSE;
  for (guint i = 0; i < a->pieces->len; i++)
    if (!g_str_equal (a->pieces->pdata[i], b->pieces->pdata[i]))
      return FALSE;
  return TRUE;
}

/* Whether the card says so as drawn, or is said to be tight there already. */
static gboolean
is_known (const CwAnalysis *analysis, const CwFinding *finding)
{
  for (guint i = 0; i < analysis->findings->len; i++)
    {
      const CwFinding *known = analysis->findings->pdata[i];

      if ((known->code == finding->code || (known->has_would_be && known->would_be == finding->code))
          && same_pieces (known, finding))
        return TRUE;
    }
  return FALSE;
}

static CwDesign *
make_trial (const Trial *trial, const CwMiss *miss, guint way, gint32 by, gboolean loop)
{
  g_autoptr (CwDesign) made = cw_miss_apply (miss, trial->analysis->design, way, by), eased = NULL;
  g_autoptr (CwEdit) edit = NULL;
  CwHead *head;

  if (made == NULL || !loop)
    return g_steal_pointer (&made);
  head = cw_head_copy (made->head);
  head->has_measure = head->has_give = TRUE;
  head->give = cw_length_from_ticks (head->give.ticks + GIVE_SHARE * by, head->unit);
  edit = cw_edit_new_head (made, head);
  eased = cw_edit_apply (edit, made);
  return g_steal_pointer (&eased);
}

/* Faults that make another card of it: what is off the marks or does not fold quite flat only comes of the miss. */
static guint
count_faults (const CwAnalysis *analysis)
{
  guint n = 0;

  for (guint i = 0; i < analysis->panels->findings->len; i++)
    {
      CwFindingCode code = ((const CwFinding *) analysis->panels->findings->pdata[i])->code;

      n += code == CW_FINDING_OFF_SHEET || code == CW_FINDING_PIECE_FALLS_OUT || code == CW_FINDING_SCORE_STOPS_SHORT
           || code == CW_FINDING_MARKS_DISAGREE;
    }
  return n;
}

/* The analysis of a design in which the hand has missed; NULL where it comes out as another card, is stopped, or moves
 * less far. */
static CwAnalysis *
try_one (Trial *trial, const CwMiss *miss, guint way, gint32 by, gboolean loop)
{
  g_autoptr (CwDesign) design = make_trial (trial, miss, way, by, loop);
  const CwAnalysis *own = trial->analysis;
  g_autoptr (CwAnalysis) after = NULL;

  if (design == NULL)
    return NULL;
  trial->n_left -= cw_panel_set_n_panels (own->panels);
  after = cw_analysis_new_cancellable (design, trial->cancellable);
  if (after != NULL)
    trial->effort_left -= cw_motion_get_effort (after->motion);
  if (after == NULL || count_faults (after) > count_faults (own))
    return NULL;
  for (guint i = 0; i < own->panels->n_pieces; i++)
    if (after->panels->maps[i].panels->len != own->panels->maps[i].panels->len
        || after->panels->maps[i].hinges->len != own->panels->maps[i].hinges->len)
      return NULL;
  for (guint i = 0; loop && i < cw_motion_get_n_steps (own->motion); i++)
    if (cw_motion_get_state (after->motion, i)->reached
        < cw_motion_get_state (own->motion, i)->reached - CW_TOL_REACHED)
      return NULL;
  return g_steal_pointer (&after);
}

/* What a collision ends in is the same fault, and what stray glue does. */
static guint
kind_of_fault (CwFindingCode code)
{
  if (code == CW_FINDING_LAYERS_BLOCK)
    return CW_FINDING_PANELS_COLLIDE;
  if (code == CW_FINDING_GLUED_SHUT || code == CW_FINDING_LAYER_OVER_SCORE || code == CW_FINDING_LAYER_OVER_CUT)
    return CW_FINDING_GLUE_STRAYS;
  return code;
}

static gboolean
says (const CwAnalysis *analysis, const CwFinding *finding)
{
  for (guint i = 0; i < analysis->findings->len; i++)
    {
      const CwFinding *now = analysis->findings->pdata[i];

      if (kind_of_fault (now->code) == kind_of_fault (finding->code) && now->severity == finding->severity
          && same_pieces (now, finding))
        return TRUE;
    }
  return FALSE;
}

/* The largest miss at which it is not yet said. */
static gint32
find_margin (Trial *trial, const CwMiss *miss, guint way, gboolean loop, const CwFinding *finding)
{
  gint32 fine = 0, wrong = trial->hand;

  while (wrong - fine > MARGIN_TICKS && !g_cancellable_is_cancelled (trial->cancellable))
    {
      gint32 by = (fine + wrong) / 2;
      g_autoptr (CwAnalysis) after = NULL;

      after = try_one (trial, miss, way, by, loop);
      if (after != NULL && says (after, finding))
        wrong = by;
      else
        fine = by;
    }
  return fine <= NO_MARGIN_TICKS ? 0 : fine;
}

/* One fault, one finding: the measure that leaves the least tells it. */
static gboolean
is_worse_than_told (Trial *trial, const CwFinding *finding, double margin)
{
  for (guint i = 0; i < trial->findings->len; i++)
    {
      const CwFinding *told = trial->findings->pdata[i];

      if (kind_of_fault (told->would_be) != kind_of_fault (finding->code) || !same_pieces (told, finding))
        continue;
      if (told->amount <= margin)
        return FALSE;
      g_ptr_array_remove_index (trial->findings, i);
      return TRUE;
    }
  return TRUE;
}

static void
tell (Trial *trial, const CwMiss *miss, const CwFinding *wrong, gint32 margin)
{
  const CwDesign *design = trial->analysis->design;
  CwUnit unit = design->head->unit;
  CwFinding *finding = cw_finding_new (CW_FINDING_TIGHT_MARGIN);
  g_autofree char *english = cw_miss_dup_name (miss, design, FALSE), *own = cw_miss_dup_name (miss, design, TRUE);
  g_autofree char *subject = cw_finding_dup_both (english, own);
  g_autofree char *wrong_english = cw_finding_dup_text (wrong, FALSE), *wrong_own = cw_finding_dup_text (wrong, TRUE);
  g_autofree char *then = cw_finding_dup_both (wrong_english, wrong_own);
  g_autofree char *hand = cw_about_length (trial->hand, unit), *left = cw_about_length (margin, unit);

  finding->has_would_be = TRUE;
  finding->would_be = wrong->code;
  finding->step = g_strdup (wrong->step);
  finding->fraction = wrong->fraction;
  finding->known = CW_KNOWN_NUMERIC;
  for (guint i = 0; i < wrong->pieces->len; i++)
    cw_finding_add_piece (finding, wrong->pieces->pdata[i]);
  for (guint i = 0; i < wrong->panels->len; i++)
    {
      const CwPanelRef *ref = &g_array_index (wrong->panels, CwPanelRef, i);

      cw_finding_add_panel (finding, ref->piece, ref->panel);
    }
  /* Not cw_finding_add_mark(): the pieces are those of the fault, by which it is known. */
  for (guint i = 0; i < miss->marks->len; i++)
    g_ptr_array_add (finding->marks, g_strconcat (miss->piece, "/", cw_miss_get_mark (miss, design, i)->id, NULL));
  for (guint i = 0; i < wrong->steps->len; i++)
    g_ptr_array_add (finding->steps, g_strdup (wrong->steps->pdata[i]));
  finding->has_at = wrong->has_at;
  finding->at_piece = g_strdup (wrong->at_piece);
  finding->at = wrong->at;
  cw_finding_set_amount (finding, CW_AMOUNT_TICKS, margin);
  cw_finding_set_words (finding,
                        margin > 0 ? N_ ("{0} may be only {1} out of its place. A hand may miss by {2}, and then: {3}")
                                   : N_ ("{0} has to be just in its place. A hand may miss by {2}, and then: {3}"),
                        N_ ("Leave room there for a miss of {2}."), subject, left, hand, then, NULL);
  g_ptr_array_add (trial->findings, finding);
}

/* The worst that comes of it: what comes after follows from it. */
static void
look_at_findings (Trial *trial, const CwMiss *miss, guint way, gboolean loop, const CwAnalysis *after)
{
  for (guint i = 0; i < after->findings->len; i++)
    {
      const CwFinding *wrong = after->findings->pdata[i];
      gint32 margin;

      if (!is_asked (miss, loop, wrong) || is_known (trial->analysis, wrong))
        continue;
      margin = find_margin (trial, miss, way, loop, wrong);
      /* It bears the whole miss, as near as can be told. */
      if (margin > trial->hand - CW_COLLISION_HAIR_TICKS)
        return;
      if (is_worse_than_told (trial, wrong, margin))
        tell (trial, miss, wrong, margin);
      return;
    }
}

/* Those that show most, what shows alike in the order of the file. */
static void
keep_lever (Trial *trial, CwLever *lever)
{
  guint place = trial->levers->len;

  while (place > 0 && ((const CwLever *) trial->levers->pdata[place - 1])->shows < lever->shows - CW_TOL_EXACT_TICKS)
    place--;
  g_ptr_array_insert (trial->levers, (gint) place, lever);
  if (trial->levers->len > CW_TRIAL_LEVERS)
    g_ptr_array_remove_index (trial->levers, CW_TRIAL_LEVERS);
}

/* One way to miss; what shows is kept in the measure. */
static void
try_way (Trial *trial, const CwMiss *miss, guint way, gboolean loop, CwLever *lever)
{
  g_autoptr (CwAnalysis) after = NULL;

  trial->n_ways++;
  if (trial->n_left <= 0 || trial->effort_left <= 0)
    return;
  trial->n_tried++;
  after = try_one (trial, miss, way, trial->hand, loop);
  if (after == NULL)
    return;
  look_at_findings (trial, miss, way, loop, after);
  if (miss->kind != CW_MISS_GLUE)
    cw_lever_look (lever, trial->analysis, after, trial->hand);
}

/* All ways of all that hangs freely, then one side of every line in a loop, then the other, as far as the work goes. */
static void
try_all (Trial *trial)
{
  g_autoptr (GPtrArray) levers = g_ptr_array_new_with_free_func ((GDestroyNotify) cw_lever_free);
  g_autofree gboolean *loops = g_new0 (gboolean, trial->misses->len + 1);
  guint most = 1;

  for (guint i = 0; i < trial->misses->len; i++)
    {
      loops[i] = cw_miss_is_in_loop (trial->misses->pdata[i], trial->analysis);
      g_ptr_array_add (levers, g_new0 (CwLever, 1));
    }
  for (guint round = 0; round <= most; round++)
    for (guint i = 0; i < trial->misses->len && !g_cancellable_is_cancelled (trial->cancellable); i++)
      {
        const CwMiss *miss = trial->misses->pdata[i];

        for (guint way = 0; round == 0 && !loops[i] && way < miss->n_ways; way++)
          try_way (trial, miss, way, FALSE, levers->pdata[i]);
        if (loops[i])
          most = MAX (most, miss->n_ways);
        if (round > 0 && loops[i] && round <= miss->n_ways)
          try_way (trial, miss, round - 1, TRUE, levers->pdata[i]);
      }
  for (guint i = 0; i < trial->misses->len; i++)
    {
      CwLever *lever = levers->pdata[i];

      lever->miss = g_steal_pointer (&trial->misses->pdata[i]);
      if (lever->shows <= 0)
        continue;
      levers->pdata[i] = NULL;
      keep_lever (trial, lever);
    }
}

/**
 * cw_analysis_try_hand:
 * @analysis: an analysis
 * @cancellable: (nullable): asked between units of work
 *
 * Returns: (transfer full) (nullable): @analysis with the tight margins of @analysis's design among its findings and
 *   the levers that show most; @analysis itself if its design names no hand, or it is wrong, or was tried before;
 *   %NULL when cancelled
 */
CwAnalysis *
cw_analysis_try_hand (CwAnalysis *analysis, GCancellable *cancellable)
{
  Trial trial = { .analysis = analysis, .cancellable = cancellable };
  CwAnalysis *tried = NULL;

  g_return_val_if_fail (analysis != NULL, NULL);

  trial.hand = analysis->design->head != NULL && analysis->design->head->has_hand
                 ? (gint32) analysis->design->head->hand.ticks
                 : 0;
  if (trial.hand <= CW_TOL_EXACT_TICKS || analysis->levers != NULL
      || cw_analysis_get_verdict (analysis) == CW_VERDICT_ERRORS)
    return cw_analysis_ref (analysis);

  trial.n_left = PANELS_MOST;
  trial.effort_left = EFFORT_MOST;
  trial.misses = cw_misses_new (analysis->design);
  trial.findings = g_ptr_array_new_with_free_func ((GDestroyNotify) cw_finding_free);
  trial.levers = g_ptr_array_new_with_free_func ((GDestroyNotify) cw_lever_free);
  try_all (&trial);
  if (!g_cancellable_is_cancelled (cancellable))
    tried = cw_analysis_new_tried (analysis, trial.findings, trial.levers, trial.n_tried, trial.n_ways);
  g_ptr_array_unref (trial.levers);
  g_ptr_array_unref (trial.findings);
  g_ptr_array_unref (trial.misses);
  return tried;
}
