/* cw-make-work.c: an edit put together piece by piece, each part made on what the parts before it left.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "make/cw-make-private.h"

#include <glib/gi18n-lib.h>
#include <string.h>

/**
 * cw_make_work_begin:
 *
 * Returns: an edit under way on @design that does nothing yet; ended by cw_make_work_end()
 */
CwMakeWork
cw_make_work_begin (const CwDesign *design)
{
  return (CwMakeWork){ cw_design_ref ((CwDesign *) design), cw_edit_new_group () };
}

/**
 * cw_make_work_do:
 * @edit: (transfer full): the next part, made for @work's design as it now is
 *
 * Adds a part.
 */
void
cw_make_work_do (CwMakeWork *work, CwEdit *edit)
{
  g_return_if_fail (edit);

  CwDesign *next = cw_edit_apply (edit, work->design);
  cw_design_unref (work->design);
  work->design = next;
  cw_edit_group_add (work->group, edit);
}

/**
 * cw_make_work_end:
 *
 * Returns: (transfer full): the whole edit
 */
CwEdit *
cw_make_work_end (CwMakeWork *work)
{
  g_clear_pointer (&work->design, cw_design_unref);
  return g_steal_pointer (&work->group);
}

/**
 * cw_make_fail:
 * @format: why it cannot be done, in words for the maker
 *
 * Returns: FALSE, with CW_MAKE_ERROR
 */
gboolean
cw_make_fail (GError **error, const char *format, ...)
{
  va_list args;

  va_start (args, format);
  if (error)
    *error = g_error_new_valist (CW_MAKE_ERROR, CW_MAKE_ERROR_IMPOSSIBLE, format, args);
  va_end (args);
  return FALSE;
}

/**
 * cw_make_work_finish:
 *
 * Returns: (transfer full): the whole edit if the design it makes holds together (cw_design_validate()), else NULL with
 * CW_MAKE_ERROR
 */
CwEdit *
cw_make_work_finish (CwMakeWork *work, GError **error)
{
  g_autoptr (GError) why = NULL;
  gboolean sound = cw_design_validate (work->design, &why);
  g_autoptr (CwEdit) edit = cw_make_work_end (work);

  if (sound)
    return g_steal_pointer (&edit);
  cw_make_fail (error, "%s", _ ("That cannot be made: it has no size, or it lies too far off the sheet."));
  return NULL;
}

/**
 * cw_make_find_rest:
 * @rest: "closed" or "open"
 *
 * Returns: the index of the first fold step with that label, G_MAXUINT if there is none
 */
guint
cw_make_find_rest (const CwDesign *design, const char *rest)
{
  for (guint i = 0; i < design->steps->len; i++)
    {
      const CwStep *step = design->steps->pdata[i];

      if (step->what == CW_DO_FOLD && g_strcmp0 (step->rest, rest) == 0)
        return i;
    }
  return G_MAXUINT;
}

/**
 * cw_make_step_is_own:
 *
 * Returns: whether this is a making fold that the program made and nobody has named: it may be taken away again
 */
gboolean
cw_make_step_is_own (const CwStep *step)
{
  return step->what == CW_DO_FOLD && step->phase != CW_PHASE_USING && !step->title && !step->caption && !step->rest;
}

static guint
find_fold (const CwStep *step, const char *address)
{
  for (guint i = 0; i < step->folds->len; i++)
    if (strcmp (((const CwStepFold *) step->folds->pdata[i])->score, address) == 0)
      return i;
  return G_MAXUINT;
}

/**
 * cw_make_step_has_fold:
 * @address: "piece/mark"
 *
 * Returns: whether the step folds that score
 */
gboolean
cw_make_step_has_fold (const CwStep *step, const char *address)
{
  return find_fold (step, address) != G_MAXUINT;
}

/**
 * cw_make_add_fold:
 * @step: index
 * @address: "piece/mark"
 * @to: degrees in the score's own direction
 *
 * Lets the step fold that score, too.
 */
void
cw_make_add_fold (CwMakeWork *work, guint step, const char *address, double to)
{
  CwStep *copy = cw_step_copy (work->design->steps->pdata[step]);
  CwStepFold *fold = cw_step_fold_new ();

  fold->score = g_strdup (address);
  fold->to = to;
  g_ptr_array_add (copy->folds, fold);
  cw_make_work_do (work, cw_edit_new_replace (work->design, CW_LIST_STEPS, NULL, step, copy));
}

/**
 * cw_make_drop_fold:
 *
 * Takes a score out of a step, if it is in it. A step with a label stays even when it folds nothing any more, so that
 * every card keeps a close and an open; any other goes then.
 */
void
cw_make_drop_fold (CwMakeWork *work, guint step, const char *address)
{
  const CwStep *old = work->design->steps->pdata[step];
  guint i = find_fold (old, address);

  if (i == G_MAXUINT)
    return;
  if (old->folds->len == 1 && !old->rest)
    {
      cw_make_work_do (work, cw_edit_new_erase (work->design, CW_LIST_STEPS, NULL, step));
      return;
    }
  CwStep *copy = cw_step_copy (old);
  g_ptr_array_remove_index (copy->folds, i);
  cw_make_work_do (work, cw_edit_new_replace (work->design, CW_LIST_STEPS, NULL, step, copy));
}

/**
 * cw_make_insert_step:
 * @piece_id: the piece the step is about
 * @step: (transfer full): a making step
 *
 * Puts the step where the maker would do it: before the piece is stuck on, else before the card is closed, else before
 * the reader begins.
 *
 * Returns: its index
 */
guint
cw_make_insert_step (CwMakeWork *work, const char *piece_id, CwStep *step)
{
  GPtrArray *steps = work->design->steps;
  guint at = 0;

  while (at < steps->len)
    {
      const CwStep *next = steps->pdata[at];

      if (next->phase == CW_PHASE_USING || g_strcmp0 (next->rest, "closed") == 0
          || (next->what == CW_DO_STICK && g_strcmp0 (next->piece, piece_id) == 0))
        break;
      at++;
    }
  cw_make_work_do (work, cw_edit_new_insert (work->design, CW_LIST_STEPS, NULL, at, step));
  return at;
}

/**
 * cw_make_replace_piece:
 * @piece: (transfer full): a changed piece with the id of an old one
 */
void
cw_make_replace_piece (CwMakeWork *work, CwPiece *piece)
{
  guint index = cw_design_find_piece (work->design, piece->id);

  cw_make_work_do (work, cw_edit_new_replace (work->design, CW_LIST_PIECES, NULL, index, piece));
}
