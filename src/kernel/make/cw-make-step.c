/* cw-make-step.c: steps added, changed and told more about by hand.
 *
 * What a new step is about is guessed from the design: the piece laid last is the one to take away, the glue no step
 * has put on yet is put on. A score that is taken into a step folds shut there, or flat again where a step before it
 * has shut it. A step stops earlier by stopping all of its folds at the same part of their way, since they go on
 * straight ramps together (model: "Steps"); angles are whole degrees then.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "make/cw-make-private.h"
#include "make/cw-make-step.h"

#include <glib/gi18n-lib.h>
#include <math.h>
#include <string.h>

#define SHUT_DEG 180.0
#define OPEN_DEG 90.0 /* a fold opened further than this is folded shut when it is taken into a step */

static const CwStep *
nth_step (const CwDesign *design, guint index)
{
  return design->steps->pdata[index];
}

/* A whole edit of one step, if the design still holds together. */
static CwEdit *
replace_step (const CwDesign *design, guint index, CwStep *copy, GError **error)
{
  CwMakeWork work = cw_make_work_begin (design);

  cw_make_work_do (&work, cw_edit_new_replace (design, CW_LIST_STEPS, NULL, index, copy));
  return cw_make_work_finish (&work, error);
}

/* ---- Adding ---- */

/* The piece laid last before a step and not taken away again; guides, laid without glue, first. */
static const char *
find_laid (const CwDesign *design, guint before)
{
  const char *laid = NULL, *guide = NULL;

  for (guint i = 0; i < before; i++)
    {
      const CwStep *step = nth_step (design, i);

      if (step->what == CW_DO_STICK)
        {
          laid = step->piece;
          if (step->tucked)
            guide = step->piece;
        }
      else if (step->what == CW_DO_TAKE_AWAY)
        {
          laid = g_strcmp0 (laid, step->piece) == 0 ? NULL : laid;
          guide = g_strcmp0 (guide, step->piece) == 0 ? NULL : guide;
        }
    }
  return guide ? guide : laid;
}

static gboolean
put_on_by_step (const CwDesign *design, const char *zone)
{
  for (guint i = 0; i < design->steps->len; i++)
    {
      const CwStep *step = nth_step (design, i);

      for (guint k = 0; k < step->zones->len; k++)
        if (g_str_equal (step->zones->pdata[k], zone))
          return TRUE;
    }
  return FALSE;
}

static gboolean
fill_step (const CwDesign *design, CwStep *step, guint at, GError **error)
{
  switch (step->what)
    {
    case CW_DO_STICK:
      return cw_make_fail (error, "%s", _ ("A piece is stuck on by laying it on a panel."));
    case CW_DO_TAKE_AWAY:
      step->piece = g_strdup (find_laid (design, at));
      return step->piece
             || cw_make_fail (error, "%s", _ ("No piece lies on the card there that could be taken away again."));
    case CW_DO_GLUE:
      for (guint i = 0; i < design->glue->len; i++)
        if (!put_on_by_step (design, ((const CwGlue *) design->glue->pdata[i])->id))
          g_ptr_array_add (step->zones, g_strdup (((const CwGlue *) design->glue->pdata[i])->id));
      return design->glue->len > 0 || cw_make_fail (error, "%s", _ ("There is no glue on any piece yet."));
    case CW_DO_CUT:
    case CW_DO_SCORE:
    case CW_DO_FOLD:
    case CW_DO_RUB:
    case CW_DO_TURN_OVER:
    case CW_DO_DECORATE:
    default:
      return TRUE;
    }
}

/**
 * cw_make_add_step:
 * @what: what is done in it; a piece is stuck on by cw_make_stick_piece() instead
 * @at: its index afterwards
 *
 * Adds a step of the phase that the steps around it are in.
 *
 * Returns: (transfer full): the edit, or NULL with CW_MAKE_ERROR when there is nothing it could be about
 */
CwEdit *
cw_make_add_step (const CwDesign *design, CwDo what, guint at, GError **error)
{
  g_return_val_if_fail (design && at <= design->steps->len, NULL);

  g_autoptr (CwStep) step = cw_step_new ();
  CwMakeWork work;

  step->what = what;
  step->phase = at > 0 && nth_step (design, at - 1)->phase == CW_PHASE_USING ? CW_PHASE_USING : CW_PHASE_MAKING;
  step->id = cw_design_dup_free_id (design, cw_do_get_key (what));
  if (!fill_step (design, step, at, error))
    return NULL;
  work = cw_make_work_begin (design);
  cw_make_work_do (&work, cw_edit_new_insert (design, CW_LIST_STEPS, NULL, at, cw_step_ref (step)));
  return cw_make_work_finish (&work, error);
}

/**
 * cw_make_guide:
 * @piece_id: a piece that a step lays on the card
 *
 * Makes it a guide: it lies there without glue, and is taken away again before the card is closed or used.
 *
 * Returns: (transfer full): the edit, or NULL with CW_MAKE_ERROR when it does not lie on the card or goes already
 */
CwEdit *
cw_make_guide (const CwDesign *design, const char *piece_id, GError **error)
{
  guint stick = G_MAXUINT, at = 0;
  g_return_val_if_fail (design && cw_design_get_piece (design, piece_id), NULL);

  for (guint i = 0; i < design->steps->len; i++)
    {
      const CwStep *step = nth_step (design, i);

      if (step->what == CW_DO_STICK && g_strcmp0 (step->piece, piece_id) == 0)
        stick = i;
      else if (step->what == CW_DO_TAKE_AWAY && g_strcmp0 (step->piece, piece_id) == 0)
        stick = G_MAXUINT;
    }
  if (stick == G_MAXUINT)
    {
      cw_make_fail (error, "%s", _ ("No piece lies on the card there that could be taken away again."));
      return NULL;
    }
  for (at = stick + 1; at < design->steps->len; at++)
    if (nth_step (design, at)->phase == CW_PHASE_USING || g_strcmp0 (nth_step (design, at)->rest, "closed") == 0)
      break;

  CwMakeWork work = cw_make_work_begin (design);
  CwStep *laid = cw_step_copy (nth_step (design, stick)), *away = cw_step_new ();

  laid->tucked = TRUE;
  cw_make_work_do (&work, cw_edit_new_replace (work.design, CW_LIST_STEPS, NULL, stick, laid));
  away->id = cw_design_dup_free_id (work.design, cw_do_get_key (CW_DO_TAKE_AWAY));
  away->what = CW_DO_TAKE_AWAY;
  away->phase = CW_PHASE_MAKING;
  away->piece = g_strdup (piece_id);
  cw_make_work_do (&work, cw_edit_new_insert (work.design, CW_LIST_STEPS, NULL, at, away));
  for (guint i = work.design->glue->len; i-- > 0;)
    if (g_strcmp0 (((const CwGlue *) work.design->glue->pdata[i])->piece, piece_id) == 0)
      cw_make_work_do (&work, cw_edit_new_erase (work.design, CW_LIST_GLUE, NULL, i));
  return cw_make_work_finish (&work, error);
}

/**
 * cw_make_change_step:
 * @step: (transfer full): a changed step with the id of an old one
 *
 * Returns: (transfer full): the edit, or NULL with CW_MAKE_ERROR when it cannot be
 */
CwEdit *
cw_make_change_step (const CwDesign *design, CwStep *step, GError **error)
{
  guint index = design && step ? cw_design_find_step (design, step->id) : G_MAXUINT;
  g_return_val_if_fail (index != G_MAXUINT, NULL);

  return replace_step (design, index, step, error);
}

/**
 * cw_make_remove_step:
 * @step_id: an existing step
 *
 * Takes a step out and nothing else. What is stuck on by it lies beside the card then, with its glue.
 *
 * Returns: (transfer full): the edit, or NULL with CW_MAKE_ERROR when something else needs it
 */
CwEdit *
cw_make_remove_step (const CwDesign *design, const char *step_id, GError **error)
{
  guint index = design ? cw_design_find_step (design, step_id) : G_MAXUINT;
  g_return_val_if_fail (index != G_MAXUINT, NULL);

  g_autoptr (CwEdit) edit = cw_edit_new_remove (design, CW_LIST_STEPS, NULL, index);
  g_autoptr (CwDesign) after = cw_edit_apply (edit, design);

  if (cw_design_validate (after, NULL))
    return g_steal_pointer (&edit);
  cw_make_fail (error, "%s", _ ("This step cannot be taken away: something else in the design needs it."));
  return NULL;
}

/**
 * cw_make_set_phase:
 * @phase: whether the maker or the reader does it
 *
 * The step moves over the border between making and using where it has to.
 *
 * Returns: (transfer full): the edit, or NULL with CW_MAKE_ERROR
 */
CwEdit *
cw_make_set_phase (const CwDesign *design, const char *step_id, CwPhase phase, GError **error)
{
  guint index = design ? cw_design_find_step (design, step_id) : G_MAXUINT, to = 0;
  g_return_val_if_fail (index != G_MAXUINT, NULL);

  CwMakeWork work = cw_make_work_begin (design);
  CwStep *copy = cw_step_copy (nth_step (design, index));
  gboolean using = phase == CW_PHASE_USING;

  /* The border: the number of the other making steps. */
  for (guint i = 0; i < design->steps->len; i++)
    to += i != index && nth_step (design, i)->phase != CW_PHASE_USING;
  copy->phase = phase;
  cw_make_work_do (&work, cw_edit_new_replace (work.design, CW_LIST_STEPS, NULL, index, copy));
  if (using ? index < to : index > to)
    cw_make_work_do (&work, cw_edit_new_move (CW_LIST_STEPS, NULL, index, to));
  return cw_make_work_finish (&work, error);
}

/* ---- What a step folds, cuts, scores ---- */

static guint
find_fold (const CwStep *step, const char *address)
{
  guint i = 0;

  while (i < step->folds->len && strcmp (((const CwStepFold *) step->folds->pdata[i])->score, address) != 0)
    i++;
  return i;
}

static guint
find_text (const GPtrArray *texts, const char *text)
{
  guint i = 0;

  while (i < texts->len && strcmp (texts->pdata[i], text) != 0)
    i++;
  return i;
}

/**
 * cw_make_angle_before:
 * @step: index of a step
 * @address: of a score, "piece/mark"
 *
 * Returns: how far the steps before that one have folded it, degrees in its own direction
 */
double
cw_make_angle_before (const CwDesign *design, guint step, const char *address)
{
  g_return_val_if_fail (design && step <= design->steps->len && address, 0);

  for (guint i = step; i-- > 0;)
    {
      const CwStep *earlier = nth_step (design, i);
      guint fold = find_fold (earlier, address);

      if (fold < earlier->folds->len)
        return ((const CwStepFold *) earlier->folds->pdata[fold])->to;
    }
  return 0;
}

/**
 * cw_make_step_has_mark:
 * @address: "piece/mark"
 *
 * Returns: whether the step folds that score, or lists that mark to be cut or scored
 */
gboolean
cw_make_step_has_mark (const CwStep *step, const char *address)
{
  g_return_val_if_fail (step && address, FALSE);

  return find_fold (step, address) < step->folds->len || find_text (step->marks, address) < step->marks->len;
}

/**
 * cw_make_toggle_mark:
 * @address: of a mark, "piece/mark"
 *
 * Takes a mark into a step that folds, cuts or scores, or out of it again.
 *
 * Returns: (transfer full): the edit, or NULL with CW_MAKE_ERROR when that step has no use for that mark
 */
CwEdit *
cw_make_toggle_mark (const CwDesign *design, const char *step_id, const char *address, GError **error)
{
  guint index = design ? cw_design_find_step (design, step_id) : G_MAXUINT, at = 0;
  CwMark *mark = NULL;
  CwPiece *piece = NULL;
  g_return_val_if_fail (index != G_MAXUINT && address, NULL);

  const CwStep *step = nth_step (design, index);
  gboolean folds = step->what == CW_DO_FOLD;
  g_autoptr (CwStep) copy = cw_step_copy (step);

  if (!cw_design_split_address (design, address, &piece, &mark) || !mark)
    {
      cw_make_fail (error, "%s", _ ("There is no such mark."));
      return NULL;
    }
  if ((folds || step->what == CW_DO_SCORE) && mark->kind != CW_MARK_SCORE)
    {
      cw_make_fail (error, "%s", folds ? _ ("Only scores are folded.") : _ ("Only scores are scored."));
      return NULL;
    }
  if (step->what == CW_DO_CUT && mark->kind == CW_MARK_SCORE)
    {
      cw_make_fail (error, "%s", _ ("A score is not cut."));
      return NULL;
    }
  if (!folds && step->what != CW_DO_SCORE && step->what != CW_DO_CUT)
    {
      cw_make_fail (error, "%s", _ ("Nothing is folded, cut or scored in this step."));
      return NULL;
    }
  if (folds)
    {
      at = find_fold (copy, address);
      if (at < copy->folds->len)
        g_ptr_array_remove_index (copy->folds, at);
      else
        {
          CwStepFold *fold = cw_step_fold_new ();

          fold->score = g_strdup (address);
          fold->to = fabs (cw_make_angle_before (design, index, address)) > OPEN_DEG ? 0 : SHUT_DEG;
          g_ptr_array_add (copy->folds, fold);
        }
    }
  else
    {
      at = find_text (copy->marks, address);
      if (at < copy->marks->len)
        g_ptr_array_remove_index (copy->marks, at);
      else
        g_ptr_array_add (copy->marks, g_strdup (address));
    }
  return replace_step (design, index, g_steal_pointer (&copy), error);
}

static void
set_fold (CwStep *copy, guint at, double to)
{
  CwStepFold *fold = cw_step_fold_copy (copy->folds->pdata[at]);

  fold->to = to;
  cw_step_fold_unref (copy->folds->pdata[at]);
  copy->folds->pdata[at] = fold;
}

/**
 * cw_make_set_angle:
 * @address: of a score that the step folds
 * @to: degrees at the step's end, in the score's own direction
 *
 * Returns: (transfer full): the edit, or NULL with CW_MAKE_ERROR
 */
CwEdit *
cw_make_set_angle (const CwDesign *design, const char *step_id, const char *address, double to, GError **error)
{
  guint index = design ? cw_design_find_step (design, step_id) : G_MAXUINT;
  g_return_val_if_fail (index != G_MAXUINT && address, NULL);

  CwStep *copy = cw_step_copy (nth_step (design, index));
  guint at = find_fold (copy, address);

  if (at == copy->folds->len || !(fabs (to) <= SHUT_DEG))
    {
      cw_make_fail (error, "%s", _ ("A fold goes from 0 (flat) to 180 (folded shut)."));
      cw_step_unref (copy);
      return NULL;
    }
  set_fold (copy, at, to);
  return replace_step (design, index, copy, error);
}

/**
 * cw_make_stop_step:
 * @fraction: of the step, 0 to 1
 *
 * Lets the step end where it is at that part of it.
 *
 * Returns: (transfer full): the edit, or NULL with CW_MAKE_ERROR when it folds nothing
 */
CwEdit *
cw_make_stop_step (const CwDesign *design, const char *step_id, double fraction, GError **error)
{
  guint index = design ? cw_design_find_step (design, step_id) : G_MAXUINT;
  g_return_val_if_fail (index != G_MAXUINT && fraction >= 0 && fraction <= 1, NULL);

  CwStep *copy = cw_step_copy (nth_step (design, index));

  if (copy->folds->len == 0)
    {
      cw_make_fail (error, "%s", _ ("Nothing is folded in this step."));
      cw_step_unref (copy);
      return NULL;
    }
  for (guint i = 0; i < copy->folds->len; i++)
    {
      const CwStepFold *fold = copy->folds->pdata[i];
      double from = cw_make_angle_before (design, index, fold->score);

      set_fold (copy, i, round (from + fraction * (fold->to - from)) + 0.0); /* + 0.0: no -0 */
    }
  return replace_step (design, index, copy, error);
}

/**
 * cw_make_toggle_zone:
 * @zone_id: a glue zone
 *
 * Takes a zone into a step that puts glue on, or out of it again.
 *
 * Returns: (transfer full): the edit, or NULL with CW_MAKE_ERROR
 */
CwEdit *
cw_make_toggle_zone (const CwDesign *design, const char *step_id, const char *zone_id, GError **error)
{
  guint index = design ? cw_design_find_step (design, step_id) : G_MAXUINT;
  g_return_val_if_fail (index != G_MAXUINT && cw_design_get_glue (design, zone_id), NULL);

  CwStep *copy = cw_step_copy (nth_step (design, index));
  guint at = find_text (copy->zones, zone_id);

  if (at < copy->zones->len)
    g_ptr_array_remove_index (copy->zones, at);
  else
    g_ptr_array_add (copy->zones, g_strdup (zone_id));
  return replace_step (design, index, copy, error);
}
