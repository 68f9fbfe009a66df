/* cw-make-marks.c: marks put in, taken out, moved and turned, with all that hangs on them.
 *
 * Every edit is made on a design of its own, part by part, and looked at as a whole before it is handed out: what does
 * not hold together (cw_design_validate()) is refused.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "make/cw-make-private.h"

#include "panel/cw-path-flatten.h"

#include <glib/gi18n-lib.h>
#include <string.h>

/**
 * cw_make_dup_mark_id:
 *
 * Returns: (transfer full): a short id that no mark of @piece has: "s1", "c1", "w1"...
 */
char *
cw_make_dup_mark_id (const CwPiece *piece, CwMarkKind kind)
{
  char letter = kind == CW_MARK_SCORE ? 's' : kind == CW_MARK_CUT ? 'c' : 'w';

  for (guint n = 1;; n++)
    {
      g_autofree char *id = g_strdup_printf ("%c%u", letter, n);
      if (!cw_piece_get_mark (piece, id))
        return g_steal_pointer (&id);
    }
}

static gboolean
same_shape (const CwMark *a, const CwMark *b)
{
  g_autoptr (GArray) p = cw_mark_flatten (a);
  g_autoptr (GArray) q = cw_mark_flatten (b);

  if ((a->kind == CW_MARK_SCORE) != (b->kind == CW_MARK_SCORE) || p->len != q->len)
    return FALSE;
  for (guint turn = 0; turn < 2; turn++)
    {
      guint i = 0;
      while (i < p->len
             && cw_point_equal (g_array_index (p, CwPoint, i), g_array_index (q, CwPoint, turn ? q->len - 1 - i : i)))
        i++;
      if (i == p->len)
        return TRUE;
    }
  return FALSE;
}

/* Scores that folded nothing until now get their way once they do, if it still is the one everything starts with. */
static void
guess_idle (CwMakeWork *work, const char *piece_id, const CwMakeGraph *before)
{
  g_autoptr (CwMakeGraph) graph = cw_make_graph_new (work->design, piece_id);

  for (guint i = 0; i < before->map->piece->marks->len; i++)
    {
      const CwMark *mark = before->map->piece->marks->pdata[i];

      if (mark->kind != CW_MARK_SCORE || mark->fold != CW_FOLD_TOWARD
          || cw_make_graph_find_hinge (before, mark->id) != G_MAXUINT
          || cw_make_graph_find_hinge (graph, mark->id) == G_MAXUINT)
        continue;
      g_autoptr (CwPiece) piece = cw_piece_copy (cw_design_get_piece (work->design, piece_id));
      guint index = cw_piece_find_mark (piece, mark->id);
      CwMark *copy = piece->marks->pdata[index];
      cw_make_guess_way (piece, copy);
      if (copy->fold != mark->fold)
        cw_make_work_do (work, cw_edit_new_replace (work->design, CW_LIST_MARKS, piece_id, index, cw_mark_ref (copy)));
    }
}

/**
 * cw_make_add_marks:
 * @design: the design
 * @piece_id: an existing piece
 * @marks: (transfer full) (element-type CwMark): new marks, not yet shared; those without id get one
 * @guess_ways: whether which way the scores fold is to be guessed (cw_measure_line_says_way() says when it is not)
 *
 * Adds marks and what they bring with them: the steps that fold new fold lines, the panel that stays still, spines
 * lifted where a step is cut across them.
 *
 * Returns: (transfer full): the edit, or NULL with CW_MAKE_ERROR
 */
CwEdit *
cw_make_add_marks (const CwDesign *design, const char *piece_id, GPtrArray *marks, gboolean guess_ways, GError **error)
{
  g_autoptr (GPtrArray) taken = marks;
  const CwPiece *old = design ? cw_design_get_piece (design, piece_id) : NULL;
  g_return_val_if_fail (old && marks && marks->len > 0, NULL);

  g_autoptr (CwPiece) piece = cw_piece_copy (old);
  for (guint i = 0; i < taken->len; i++)
    {
      CwMark *mark = taken->pdata[i];

      for (guint k = 0; k < piece->marks->len; k++)
        if (same_shape (mark, piece->marks->pdata[k]))
          {
            g_set_error (error, CW_MAKE_ERROR, CW_MAKE_ERROR_IMPOSSIBLE, _ ("there is a mark on that line already: %s"),
                         ((const CwMark *) piece->marks->pdata[k])->id);
            return NULL;
          }
      if (!mark->id || cw_piece_get_mark (piece, mark->id))
        {
          g_free (mark->id);
          mark->id = cw_make_dup_mark_id (piece, mark->kind);
        }
      g_ptr_array_add (piece->marks, cw_mark_ref (mark));
    }
  for (guint i = 0; guess_ways && i < taken->len; i++)
    if (((CwMark *) taken->pdata[i])->kind == CW_MARK_SCORE)
      cw_make_guess_way (piece, taken->pdata[i]);

  g_autoptr (GPtrArray) split = cw_make_split_crossing (piece, old->marks->len);
  g_autoptr (CwMakeGraph) before = cw_make_graph_new (design, piece_id);
  CwMakeWork work = cw_make_work_begin (design);
  for (guint i = old->marks->len; i < piece->marks->len; i++)
    cw_make_work_do (&work, cw_edit_new_insert (work.design, CW_LIST_MARKS, piece_id, i,
                                                cw_mark_ref (piece->marks->pdata[i])));
  if (guess_ways)
    guess_idle (&work, piece_id, before);
  cw_make_lift_spines (&work, piece_id, old);
  cw_make_fold_again (&work, piece_id, split);
  cw_make_settle (&work, piece_id, before);
  cw_make_hold_anew (&work, piece_id, before);
  cw_make_reflow (&work, piece_id, before);
  return cw_make_work_finish (&work, error);
}

/**
 * cw_make_remove_marks:
 * @mark_ids: (array zero-terminated=1): existing marks of the piece
 *
 * Takes marks out with the folds that name them. The close and the open stay, even when they fold nothing any more.
 *
 * Returns: (transfer full): the edit, or NULL with CW_MAKE_ERROR
 */
CwEdit *
cw_make_remove_marks (const CwDesign *design, const char *piece_id, const char *const *mark_ids, GError **error)
{
  g_return_val_if_fail (design && cw_design_get_piece (design, piece_id) && mark_ids, NULL);

  g_autoptr (CwMakeGraph) before = cw_make_graph_new (design, piece_id);
  CwMakeWork work = cw_make_work_begin (design);
  for (guint i = 0; mark_ids[i]; i++)
    {
      guint index = cw_piece_find_mark (cw_design_get_piece (work.design, piece_id), mark_ids[i]);
      g_autofree char *address = g_strdup_printf ("%s/%s", piece_id, mark_ids[i]);

      if (index == G_MAXUINT)
        continue;
      for (guint s = work.design->steps->len; s > 0; s--)
        cw_make_drop_fold (&work, s - 1, address);
      cw_make_work_do (&work, cw_edit_new_erase (work.design, CW_LIST_MARKS, piece_id, index));
    }
  cw_make_settle (&work, piece_id, before);
  cw_make_hold_anew (&work, piece_id, before);
  cw_make_reflow (&work, piece_id, before);
  return cw_make_work_finish (&work, error);
}

/* Lets all scores of the fold lines that `mark_id` makes fold that way; those not folded are in no step either. */
static void
spread_way (CwMakeWork *work, const CwMakeGraph *before, const char *mark_id, CwFoldWay way)
{
  const CwPiece *piece = before->map->piece;

  for (guint i = 0; i < piece->marks->len; i++)
    {
      const char *id = ((const CwMark *) piece->marks->pdata[i])->id;
      const CwMark *now = cw_piece_get_mark (cw_design_get_piece (work->design, piece->id), id);
      gboolean turns = strcmp (id, mark_id) == 0;

      for (guint h = 0; h < cw_make_graph_n_hinges (before) && !turns; h++)
        {
          const CwHinge *hinge = cw_make_graph_get_hinge (before, h);
          turns = cw_make_hinge_has_score (hinge, mark_id) && cw_make_hinge_has_score (hinge, id);
        }
      if (!turns)
        continue;
      if (now->fold != way)
        {
          CwMark *copy = cw_mark_copy (now);
          copy->fold = way;
          cw_make_work_do (work, cw_edit_new_replace (work->design, CW_LIST_MARKS, piece->id, i, copy));
        }
      g_autofree char *address = g_strdup_printf ("%s/%s", piece->id, id);
      for (guint s = work->design->steps->len; way == CW_FOLD_NONE && s > 0; s--)
        cw_make_drop_fold (work, s - 1, address);
    }
}

/* Whether a mark would lie on another one once `marks` are where they go. */
static gboolean
check_free (const CwPiece *old, const GPtrArray *marks, GError **error)
{
  for (guint i = 0; i < marks->len; i++)
    {
      const CwMark *mark = marks->pdata[i];
      const CwMark *was = cw_piece_get_mark (old, mark->id);

      for (guint k = 0; k < old->marks->len; k++)
        {
          const CwMark *other = old->marks->pdata[k];

          for (guint n = 0; n < marks->len; n++)
            if (strcmp (((const CwMark *) marks->pdata[n])->id, other->id) == 0)
              other = marks->pdata[n];
          if (strcmp (other->id, mark->id) == 0 || !same_shape (mark, other) || same_shape (mark, was))
            continue;
          g_set_error (error, CW_MAKE_ERROR, CW_MAKE_ERROR_IMPOSSIBLE, _ ("there is a mark on that line already: %s"),
                       other->id);
          return FALSE;
        }
    }
  return TRUE;
}

/**
 * cw_make_replace_marks:
 * @marks: (transfer full) (element-type CwMark): changed marks with ids of existing ones, not yet shared
 *
 * Changes marks in one go, most often by moving them. Names, the hold point and whatever else stands for a panel go
 * with their panels; the other scores of a fold line turn with one whose way changes.
 *
 * Returns: (transfer full): the edit, or NULL with CW_MAKE_ERROR
 */
CwEdit *
cw_make_replace_marks (const CwDesign *design, const char *piece_id, GPtrArray *marks, GError **error)
{
  g_autoptr (GPtrArray) taken G_GNUC_UNUSED = marks;
  const CwPiece *old = design ? cw_design_get_piece (design, piece_id) : NULL;
  g_return_val_if_fail (old && marks, NULL);
  for (guint i = 0; i < marks->len; i++)
    g_return_val_if_fail (cw_piece_get_mark (old, ((CwMark *) marks->pdata[i])->id), NULL);

  if (!check_free (old, marks, error))
    return NULL;
  g_autoptr (CwMakeGraph) before = cw_make_graph_new (design, piece_id);
  CwMakeWork work = cw_make_work_begin (design);
  for (guint i = 0; i < marks->len; i++)
    {
      const CwMark *mark = marks->pdata[i];
      cw_make_work_do (&work, cw_edit_new_replace (work.design, CW_LIST_MARKS, piece_id,
                                                   cw_piece_find_mark (old, mark->id), cw_mark_ref (marks->pdata[i])));
    }
  for (guint i = 0; i < marks->len; i++)
    {
      const CwMark *mark = marks->pdata[i];
      if (mark->kind == CW_MARK_SCORE && mark->fold != cw_piece_get_mark (old, mark->id)->fold)
        spread_way (&work, before, mark->id, mark->fold);
    }
  cw_make_lift_spines (&work, piece_id, old);
  cw_make_settle (&work, piece_id, before);
  cw_make_hold_anew (&work, piece_id, before);
  cw_make_follow (&work, piece_id, before);
  cw_make_reflow (&work, piece_id, before);
  return cw_make_work_finish (&work, error);
}

/**
 * cw_make_replace_mark:
 * @mark: (transfer full): a changed mark with the id of an existing one, not yet shared
 *
 * cw_make_replace_marks() for one mark.
 *
 * Returns: (transfer full): the edit, or NULL with CW_MAKE_ERROR
 */
CwEdit *
cw_make_replace_mark (const CwDesign *design, const char *piece_id, CwMark *mark, GError **error)
{
  GPtrArray *marks = g_ptr_array_new_with_free_func ((GDestroyNotify) cw_mark_unref);

  g_ptr_array_add (marks, mark);
  return cw_make_replace_marks (design, piece_id, marks, error);
}

/**
 * cw_make_turn_way:
 * @mark_id: an existing score
 *
 * Lets a score fold the other way, and with it all scores of the same fold line. One not folded then folds toward.
 *
 * Returns: (transfer full): the edit, or NULL with CW_MAKE_ERROR
 */
CwEdit *
cw_make_turn_way (const CwDesign *design, const char *piece_id, const char *mark_id, GError **error)
{
  const CwPiece *piece = design ? cw_design_get_piece (design, piece_id) : NULL;
  const CwMark *mark = piece ? cw_piece_get_mark (piece, mark_id) : NULL;
  g_return_val_if_fail (mark, NULL);

  if (mark->kind != CW_MARK_SCORE)
    {
      g_set_error_literal (error, CW_MAKE_ERROR, CW_MAKE_ERROR_IMPOSSIBLE, _ ("only a score folds toward or away"));
      return NULL;
    }
  g_autoptr (CwMakeGraph) before = cw_make_graph_new (design, piece_id);
  CwMakeWork work = cw_make_work_begin (design);
  spread_way (&work, before, mark_id, mark->fold == CW_FOLD_TOWARD ? CW_FOLD_AWAY : CW_FOLD_TOWARD);
  cw_make_settle (&work, piece_id, before);
  return cw_make_work_finish (&work, error);
}
