/* cw-remedy.c: remedies for findings: candidates from the families, each tried by analysing the design it makes.
 *
 * No candidate is believed. It is offered to the maker only when the design it makes no longer has the finding, and has
 * no other that it did not have: no error or warning at all, and no note where it was a note that was to be mended.
 * Findings are the same when they say the same code of the same pieces and marks in the same steps; panels and places
 * do not count, as an edit may number and move them. One exception: where the card stopped on its way, what comes after
 * was not judged, so a lesser finding of a later step is not raised by the remedy but was there to be seen.
 *
 * A step that came to its end, or so far, has to come as far afterwards: what stops earlier meets no later fault.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "check/cw-remedy-private.h"
#include "check/cw-trial.h"

#include "geometry/cw-tolerance.h"

#include <string.h>

/* A finding is tried to be mended by so many candidates at most: each costs an analysis. */
#define TRIES_MOST 48
/* Where a miss of the hand has to be tried again each time. */
#define TRIES_MOST_TIGHT 12
/* Ranks what gives something up behind any number of findings left. */
#define GIVES_UP 100000

/**
 * cw_remedy_free:
 * @remedy: (nullable) (transfer full): a remedy
 */
void
cw_remedy_free (CwRemedy *remedy)
{
  if (remedy == NULL)
    return;
  g_ptr_array_unref (remedy->args);
  cw_edit_unref (remedy->edit);
  g_free (remedy);
}

/**
 * cw_remedy_dup_text:
 * @remedy: a remedy
 * @translated: %FALSE for English whatever the locale
 *
 * Returns: (transfer full): what it does, a sentence such as "Make the score “spine” longer by 1/4 in."
 */
char *
cw_remedy_dup_text (const CwRemedy *remedy, gboolean translated)
{
  g_return_val_if_fail (remedy != NULL, NULL);
  return cw_words_fill (remedy->words, remedy->args, translated);
}

/**
 * cw_remedy_dup_name:
 * @remedy: a remedy
 * @translated: %FALSE for English whatever the locale
 *
 * Returns: (transfer full): a phrase that can follow "Undo", such as "make score longer"
 */
char *
cw_remedy_dup_name (const CwRemedy *remedy, gboolean translated)
{
  g_return_val_if_fail (remedy != NULL, NULL);
  return cw_words_fill (remedy->name, remedy->args, translated);
}

/* What stops on its way may lie there in the way of other paper, or stand: what has to move is known from the stop. */
static void
mend_cause (CwMending *mending)
{
  const CwFinding *own = mending->finding;
  guint step = own->step != NULL ? cw_design_find_step (mending->design, own->step) : G_MAXUINT;

  for (guint i = 0; i < mending->analysis->findings->len; i++)
    {
      const CwFinding *cause = mending->analysis->findings->pdata[i];

      if (cause->code != CW_FINDING_CANNOT_MOVE || cause->mend_mark == NULL || cause->step == NULL
          || cw_design_find_step (mending->design, cause->step) > step)
        continue;
      mending->finding = cause;
      cw_mend_motion (mending);
      mending->finding = own;
    }
}

/**
 * cw_remedies_new:
 * @analysis: an analysis
 * @finding: one of its findings
 *
 * Returns: (transfer full) (element-type CwRemedy): what might help, best first, not tried yet
 */
GPtrArray *
cw_remedies_new (const CwAnalysis *analysis, const CwFinding *finding)
{
  CwMending mending = { .analysis = analysis,
                        .finding = finding,
                        .remedies = g_ptr_array_new_with_free_func ((GDestroyNotify) cw_remedy_free) };

  g_return_val_if_fail (analysis != NULL && finding != NULL, mending.remedies);

  mending.design = analysis->design;
  switch (finding->code)
    {
    case CW_FINDING_OFF_SHEET:
    case CW_FINDING_PIECE_FALLS_OUT:
    case CW_FINDING_SCORE_STOPS_SHORT:
    case CW_FINDING_MARKS_DISAGREE:
    case CW_FINDING_MARKS_OVERLAP:
    case CW_FINDING_THIN_STRIP:
    case CW_FINDING_OFF_SNAP:
    case CW_FINDING_AGAINST_GRAIN:
      cw_mend_drawing (&mending);
      break;
    case CW_FINDING_WILL_NOT_FOLD_FLAT:
      cw_mend_points (&mending);
      break;
    case CW_FINDING_CANNOT_MOVE:
    case CW_FINDING_SWAYS:
    case CW_FINDING_TWO_WAYS:
    case CW_FINDING_NEEDS_GIVE:
      cw_mend_motion (&mending);
      break;
    case CW_FINDING_PANELS_COLLIDE:
    case CW_FINDING_LAYERS_BLOCK:
    case CW_FINDING_NOT_FLAT:
    case CW_FINDING_HEAT_AFTER_GLUE:
      mend_cause (&mending);
      cw_mend_order (&mending);
      break;
    case CW_FINDING_STICKS_OUT:
    case CW_FINDING_TOO_BIG_FOR_ENVELOPE:
    case CW_FINDING_TOO_THICK:
    case CW_FINDING_TUCK_TOO_WIDE:
    case CW_FINDING_LAYER_OVERHANGS:
    case CW_FINDING_MAIL_SURCHARGE:
      cw_mend_size (&mending);
      break;
    case CW_FINDING_LAYER_SHOWS:
    case CW_FINDING_LAYER_HIDDEN:
    case CW_FINDING_WRONG_FACE:
    case CW_FINDING_ART_TURNED:
      cw_mend_sight (&mending);
      break;
    case CW_FINDING_GLUED_SHUT:
    case CW_FINDING_GLUE_STRAYS:
    case CW_FINDING_GLUE_NEAR_EDGE:
    case CW_FINDING_GLUE_MISSING:
    case CW_FINDING_LAYER_OVER_SCORE:
    case CW_FINDING_LAYER_OVER_CUT:
      cw_mend_glue (&mending);
      break;
    case CW_FINDING_TIGHT_MARGIN:
      if (finding->has_would_be && finding->would_be == CW_FINDING_LAYER_SHOWS)
        cw_mend_sight (&mending);
      else if (finding->has_would_be
               && (finding->would_be == CW_FINDING_GLUE_STRAYS || finding->would_be == CW_FINDING_GLUED_SHUT))
        cw_mend_glue (&mending);
      else
        cw_mend_size (&mending);
      break;
    /* Nothing is wrong with the card: they say what was not worked out, or what to look out for. */
    case CW_FINDING_NOT_SIMULATED:
    case CW_FINDING_NOT_DECIDED:
    case CW_FINDING_NOT_CHECKED:
    case CW_FINDING_LOOK_ALIKE_NUMBERS:
    case CW_FINDING_N_CODES:
    default:
      break;
    }
  return mending.remedies;
}

/* --- Does it help? ------------------------------------------------------------------------------------------------ */

static gboolean
same_texts (const GPtrArray *a, const GPtrArray *b)
{
  if (a->len != b->len)
    return FALSE;
  for (guint i = 0; i < a->len; i++)
    if (!g_str_equal (a->pdata[i], b->pdata[i]))
      return FALSE;
  return TRUE;
}

static gboolean
has_step (const CwFinding *finding, const char *step)
{
  return g_strcmp0 (finding->step, step) == 0
         || g_ptr_array_find_with_equal_func (finding->steps, step, g_str_equal, NULL);
}

static gboolean
shares_step (const CwFinding *a, const CwFinding *b)
{
  if (a->step == NULL || b->step == NULL)
    return a->step == b->step;
  if (has_step (b, a->step))
    return TRUE;
  for (guint i = 0; i < a->steps->len; i++)
    if (has_step (b, a->steps->pdata[i]))
      return TRUE;
  return FALSE;
}

/* The same code about the same things in the same steps. */
static gboolean
is_same (const CwFinding *a, const CwFinding *b)
{
  return a->code == b->code && a->has_would_be == b->has_would_be && (!a->has_would_be || a->would_be == b->would_be)
         && same_texts (a->pieces, b->pieces) && same_texts (a->marks, b->marks) && shares_step (a, b);
}

/* The first step whose end was not judged; the number of steps when all were. */
static guint
find_unjudged (const CwAnalysis *analysis)
{
  guint n = analysis->design->steps->len;

  for (guint i = 0; i < analysis->findings->len; i++)
    if (((const CwFinding *) analysis->findings->pdata[i])->code == CW_FINDING_SCORE_STOPS_SHORT)
      return 0;
  for (guint i = 0; i < n; i++)
    if (cw_motion_get_state (analysis->motion, i)->reached < 1 - CW_TOL_REACHED)
      return i;
  return n;
}

static gboolean
is_raised (const CwAnalysis *before, const CwFinding *finding, const CwFinding *other)
{
  guint step = other->step != NULL ? cw_design_find_step (before->design, other->step) : G_MAXUINT;

  if (other->severity == CW_SEVERITY_NOTE)
    return finding->severity == CW_SEVERITY_NOTE;
  if (other->severity <= finding->severity || step == G_MAXUINT)
    return TRUE;
  return step < find_unjudged (before);
}

/* Steps keep their ids; they may change their order. */
static gboolean
comes_as_far (const CwAnalysis *before, const CwAnalysis *after)
{
  for (guint i = 0; i < before->design->steps->len; i++)
    {
      guint now = cw_design_find_step (after->design, ((const CwStep *) before->design->steps->pdata[i])->id);

      if (now != G_MAXUINT
          && cw_motion_get_state (after->motion, now)->reached
               < cw_motion_get_state (before->motion, i)->reached - CW_TOL_REACHED)
        return FALSE;
    }
  return TRUE;
}

/**
 * cw_remedy_helps:
 * @before: an analysis
 * @finding: one of its findings
 * @after: the analysis of the design after an edit
 *
 * Returns: whether the finding is gone and no other has come
 */
gboolean
cw_remedy_helps (const CwAnalysis *before, const CwFinding *finding, const CwAnalysis *after)
{
  g_autofree gboolean *met = NULL;

  g_return_val_if_fail (before != NULL && finding != NULL && after != NULL, FALSE);

  if (!comes_as_far (before, after))
    return FALSE;
  met = g_new0 (gboolean, before->findings->len + 1);
  for (guint i = 0; i < after->findings->len; i++)
    {
      const CwFinding *now = after->findings->pdata[i];
      gboolean known = FALSE;

      for (guint k = 0; k < before->findings->len && !known; k++)
        if (!met[k] && before->findings->pdata[k] != finding && is_same (before->findings->pdata[k], now))
          known = met[k] = TRUE;
      if (!known && (is_same (finding, now) || is_raised (before, finding, now)))
        return FALSE;
    }
  return TRUE;
}

/* Faults of the drawing are seen without working out how it moves: a candidate that leaves one is not worth more. */
static gboolean
leaves_drawing_fault (const CwFinding *finding, CwDesign *design)
{
  g_autoptr (CwPanelSet) panels = NULL;

  if (finding->step != NULL || finding->marks->len == 0)
    return FALSE;
  panels = cw_panel_set_new (design);
  for (guint i = 0; i < panels->findings->len; i++)
    {
      const CwFinding *now = panels->findings->pdata[i];

      if (is_same (finding, now) && fabs (now->amount) >= fabs (finding->amount))
        return TRUE;
    }
  return FALSE;
}

/* Whether the candidate helps, and how many findings it leaves. FALSE also when cancelled. */
static gboolean
helps (const CwAnalysis *before, const CwFinding *finding, const CwRemedy *remedy, GCancellable *cancellable,
       guint *left_over)
{
  g_autoptr (CwDesign) design = cw_edit_apply (remedy->edit, before->design);
  g_autoptr (CwAnalysis) after = NULL;

  if (design == NULL || leaves_drawing_fault (finding, design))
    return FALSE;
  after = cw_analysis_new_for_tools (design, &before->tools, cancellable);
  if (after == NULL || !cw_remedy_helps (before, finding, after))
    return FALSE;
  /* What a miss of the hand would turn must not be raised either, nor be left where that was to be mended. */
  if (before->levers != NULL)
    {
      g_autoptr (CwAnalysis) tried = cw_analysis_try_hand (after, cancellable);

      if (tried == NULL || !cw_remedy_helps (before, finding, tried))
        return FALSE;
    }
  *left_over = after->findings->len;
  return TRUE;
}

/* What the maker could not tell from one that is offered already. */
static gboolean
is_said (const GPtrArray *kept, const CwRemedy *remedy)
{
  for (guint i = 0; i < kept->len; i++)
    {
      const CwRemedy *other = kept->pdata[i];

      if (other->words == remedy->words && same_texts (other->args, remedy->args))
        return TRUE;
    }
  return FALSE;
}

static guint
n_tries (const CwAnalysis *analysis, const CwFinding *finding)
{
  return analysis->levers != NULL && finding->code == CW_FINDING_TIGHT_MARGIN ? TRIES_MOST_TIGHT : TRIES_MOST;
}

/**
 * cw_remedies_try:
 * @analysis: an analysis
 * @finding: one of its findings
 * @most: how many remedies are enough
 * @cancellable: (nullable): asked between units of work
 *
 * Returns: (transfer full) (element-type CwRemedy): those that clear the finding and raise no other, best first; what
 *   was found so far when cancelled
 */
GPtrArray *
cw_remedies_try (const CwAnalysis *analysis, const CwFinding *finding, guint most, GCancellable *cancellable)
{
  GPtrArray *kept = g_ptr_array_new_with_free_func ((GDestroyNotify) cw_remedy_free);
  g_autoptr (GPtrArray) candidates = NULL;
  guint family = G_MAXUINT, n_tried = 0;
  g_autofree guint *left = NULL;

  g_return_val_if_fail (analysis != NULL && finding != NULL, kept);

  candidates = cw_remedies_new (analysis, finding);
  left = g_new (guint, candidates->len + 1);
  for (guint i = 0; i < candidates->len && kept->len < most; i++)
    {
      CwRemedy *remedy = candidates->pdata[i];
      guint left_over = 0, place;

      if (remedy->family == family || g_cancellable_is_cancelled (cancellable) || is_said (kept, remedy))
        continue;
      /* What gives something up comes last, and is tried however many there were before. */
      if (n_tried >= n_tries (analysis, finding) && !remedy->gives_up)
        continue;
      n_tried++;
      if (!helps (analysis, finding, remedy, cancellable, &left_over))
        continue;
      /* What gives nothing up comes first, then what leaves the least to be said; else they stay as offered. */
      left_over += remedy->gives_up ? GIVES_UP : 0;
      for (place = kept->len; place > 0 && left[place - 1] > left_over; place--)
        left[place] = left[place - 1];
      left[place] = left_over;
      family = remedy->family;
      g_ptr_array_insert (kept, (gint) place, remedy);
      candidates->pdata[i] = NULL;
    }
  return kept;
}
