/* cw-remedy-draft.c: changes that remedies are made of, on a design of which nothing else may notice them.
 *
 * A point that several marks share is moved in all of them. A side of a piece: cw-remedy-trim.c.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "check/cw-remedy-private.h"

#include "fold/cw-assembly.h"

#include <math.h>

/**
 * cw_draft_new:
 * @design: a design
 *
 * Returns: (transfer full): a draft in which nothing is changed yet
 */
CwDraft *
cw_draft_new (const CwDesign *design)
{
  CwDraft *draft = g_new0 (CwDraft, 1);

  draft->edit = cw_edit_new_group ();
  draft->design = cw_edit_apply (draft->edit, design);
  return draft;
}

/**
 * cw_draft_free:
 * @draft: (nullable) (transfer full): a draft
 */
void
cw_draft_free (CwDraft *draft)
{
  if (draft == NULL)
    return;
  cw_design_unref (draft->design);
  cw_edit_unref (draft->edit);
  g_free (draft);
}

/**
 * cw_draft_do:
 * @draft: a draft
 * @edit: (transfer full): an edit of its design as it is now
 */
void
cw_draft_do (CwDraft *draft, CwEdit *edit)
{
  CwDesign *next = cw_edit_apply (edit, draft->design);

  g_return_if_fail (next != NULL);
  cw_design_unref (draft->design);
  draft->design = next;
  cw_edit_group_add (draft->edit, edit);
}

/**
 * cw_draft_put_head:
 *
 * Puts a changed head in the place of the one it was copied from; takes it.
 */
void
cw_draft_put_head (CwDraft *draft, CwHead *head)
{
  cw_draft_do (draft, cw_edit_new_head (draft->design, head));
}

static guint
find_in (const GPtrArray *list, gconstpointer item)
{
  /* Every item with an id has it first. */
  for (guint i = 0; i < list->len; i++)
    if (g_strcmp0 (*(char *const *) list->pdata[i], *(char *const *) item) == 0)
      return i;
  return G_MAXUINT;
}

static void
put (CwDraft *draft, CwList list, const char *piece_id, const GPtrArray *items, gpointer item)
{
  cw_draft_do (draft, cw_edit_new_replace (draft->design, list, piece_id, find_in (items, item), item));
}

/**
 * cw_draft_put_paper:
 *
 * Puts a changed paper in the place of the one it was copied from; takes it.
 */
void
cw_draft_put_paper (CwDraft *draft, CwPaper *paper)
{
  put (draft, CW_LIST_PAPERS, NULL, draft->design->papers, paper);
}

/**
 * cw_draft_put_piece:
 *
 * Puts a changed piece in the place of the one it was copied from; takes it.
 */
void
cw_draft_put_piece (CwDraft *draft, CwPiece *piece)
{
  put (draft, CW_LIST_PIECES, NULL, draft->design->pieces, piece);
}

/**
 * cw_draft_put_mark:
 *
 * Puts a changed mark in the place of the one it was copied from; takes it.
 */
void
cw_draft_put_mark (CwDraft *draft, const char *piece_id, CwMark *mark)
{
  put (draft, CW_LIST_MARKS, piece_id, cw_design_get_piece (draft->design, piece_id)->marks, mark);
}

/**
 * cw_draft_put_art:
 *
 * Puts a changed art in the place of the one it was copied from; takes it.
 */
void
cw_draft_put_art (CwDraft *draft, const char *piece_id, CwArt *art)
{
  put (draft, CW_LIST_ART, piece_id, cw_design_get_piece (draft->design, piece_id)->art, art);
}

/**
 * cw_draft_put_glue:
 *
 * Puts a changed glue in the place of the one it was copied from; takes it.
 */
void
cw_draft_put_glue (CwDraft *draft, CwGlue *glue)
{
  put (draft, CW_LIST_GLUE, NULL, draft->design->glue, glue);
}

/**
 * cw_draft_put_step:
 *
 * Puts a changed step in the place of the one it was copied from; takes it.
 */
void
cw_draft_put_step (CwDraft *draft, CwStep *step)
{
  put (draft, CW_LIST_STEPS, NULL, draft->design->steps, step);
}

/**
 * cw_draft_erase_mark:
 *
 * Takes a mark away with all that names it.
 */
void
cw_draft_erase_mark (CwDraft *draft, const char *piece_id, const char *mark_id)
{
  const CwPiece *piece = cw_design_get_piece (draft->design, piece_id);

  cw_draft_do (draft, cw_edit_new_erase (draft->design, CW_LIST_MARKS, piece_id, cw_piece_find_mark (piece, mark_id)));
}

/**
 * cw_draft_move_step:
 *
 * Does a step earlier or later.
 */
void
cw_draft_move_step (CwDraft *draft, guint from, guint to)
{
  cw_draft_do (draft, cw_edit_new_move (CW_LIST_STEPS, NULL, from, to));
}

/* --- Places ------------------------------------------------------------------------------------------------------- */

static void
length_move (CwLength *length, gint32 by)
{
  if (by != 0)
    *length = cw_length_from_ticks (length->ticks + by, length->unit);
}

/**
 * cw_place_move:
 *
 * Moves a place by ticks; a measure that does not change stays as typed.
 */
void
cw_place_move (CwPlace *place, gint32 dx, gint32 dy)
{
  length_move (&place->x, dx);
  length_move (&place->y, dy);
}

/**
 * cw_place_set:
 *
 * Moves a place to a point.
 */
void
cw_place_set (CwPlace *place, CwPoint to)
{
  cw_place_move (place, to.x - place->x.ticks, to.y - place->y.ticks);
}

static gboolean
path_move_point (CwPath *path, CwPoint from, CwPoint to)
{
  gboolean moved = FALSE;

  for (guint i = 0; i < path->n_vertices; i++)
    if (cw_point_equal (cw_place_get_point (&path->vertices[i].at), from))
      {
        cw_place_set (&path->vertices[i].at, to);
        moved = TRUE;
      }
  return moved;
}

/**
 * cw_draft_move_point:
 * @draft: a draft
 * @piece_id: a piece
 * @from: a point of its drawing
 * @to: where it goes
 *
 * Every mark with a corner or end there goes along, and the outline.
 */
void
cw_draft_move_point (CwDraft *draft, const char *piece_id, CwPoint from, CwPoint to)
{
  const CwPiece *piece = cw_design_get_piece (draft->design, piece_id);
  CwPiece *copy = cw_piece_copy (piece);
  guint n_marks = piece->marks->len; /* the piece itself goes with the first change */

  if (path_move_point (&copy->outline, from, to))
    cw_draft_put_piece (draft, copy);
  else
    cw_piece_unref (copy);
  for (guint i = 0; i < n_marks; i++)
    {
      const CwMark *mark = cw_design_get_piece (draft->design, piece_id)->marks->pdata[i];
      CwMark *moved = cw_mark_copy (mark);

      if (path_move_point (&moved->line, from, to))
        cw_draft_put_mark (draft, piece_id, moved);
      else
        cw_mark_unref (moved);
    }
}

static void
mark_move (CwMark *mark, gint32 dx, gint32 dy)
{
  for (guint i = 0; i < mark->line.n_vertices; i++)
    cw_place_move (&mark->line.vertices[i].at, dx, dy);
  if (mark->shape == CW_SHAPE_CIRCLE)
    cw_place_move (&mark->centre, dx, dy);
}

/**
 * cw_draft_shift_mark:
 * @draft: a draft
 * @piece_id: a piece
 * @mark_id: a mark of it
 * @dx: to the right, ticks
 * @dy: down, ticks
 * @joined: whether other marks that end at its ends go along there
 */
void
cw_draft_shift_mark (CwDraft *draft, const char *piece_id, const char *mark_id, gint32 dx, gint32 dy, gboolean joined)
{
  const CwPiece *piece = cw_design_get_piece (draft->design, piece_id);
  g_autoptr (CwMark) old = cw_mark_copy (cw_piece_get_mark (piece, mark_id));
  CwMark *moved = cw_mark_copy (old);
  guint n_marks = piece->marks->len; /* the piece itself goes with the first change */

  mark_move (moved, dx, dy);
  cw_draft_put_mark (draft, piece_id, moved);
  for (guint m = 0; joined && old->shape == CW_SHAPE_LINE && m < n_marks; m++)
    {
      const CwMark *other = cw_design_get_piece (draft->design, piece_id)->marks->pdata[m];
      CwMark *along;
      gboolean any = FALSE;

      if (g_str_equal (other->id, mark_id) || other->shape != CW_SHAPE_LINE)
        continue;
      along = cw_mark_copy (other);
      for (guint i = 0; i < old->line.n_vertices; i++)
        {
          CwPoint from = cw_place_get_point (&old->line.vertices[i].at);

          any |= path_move_point (&along->line, from, cw_point (from.x + dx, from.y + dy));
        }
      if (any)
        cw_draft_put_mark (draft, piece_id, along);
      else
        cw_mark_unref (along);
    }
}

/**
 * cw_draft_turn_fold:
 *
 * Lets a score fold the other way.
 */
void
cw_draft_turn_fold (CwDraft *draft, const char *piece_id, const char *mark_id)
{
  CwMark *mark = cw_mark_copy (cw_piece_get_mark (cw_design_get_piece (draft->design, piece_id), mark_id));

  mark->fold = mark->fold == CW_FOLD_AWAY ? CW_FOLD_TOWARD : CW_FOLD_AWAY;
  cw_draft_put_mark (draft, piece_id, mark);
}

/**
 * cw_draft_shift_step:
 *
 * Sticks the piece of a `stick` step further right and down on its host.
 */
void
cw_draft_shift_step (CwDraft *draft, const char *step_id, gint32 dx, gint32 dy)
{
  CwStep *step = cw_step_copy (cw_design_get_step (draft->design, step_id));

  cw_place_move (&step->at, dx, dy);
  cw_draft_put_step (draft, step);
}

/* --- Strokes ------------------------------------------------------------------------------------------------------ */

static void
add_strokes (GArray *strokes, guint mark, const GArray *points, gboolean closed)
{
  for (guint i = 0; i + (closed ? 0 : 1) < points->len; i++)
    {
      CwStroke stroke
        = { mark, g_array_index (points, CwPoint, i), g_array_index (points, CwPoint, (i + 1) % points->len) };

      if (!cw_point_equal (stroke.a, stroke.b))
        g_array_append_val (strokes, stroke);
    }
}

/**
 * cw_piece_get_strokes:
 *
 * Returns: (transfer full) (element-type CwStroke): every straight stretch of outline and marks, arcs flattened
 */
GArray *
cw_piece_get_strokes (const CwPiece *piece)
{
  GArray *strokes = g_array_new (FALSE, FALSE, sizeof (CwStroke));
  g_autoptr (GArray) outline = cw_path_flatten (&piece->outline, TRUE);

  add_strokes (strokes, G_MAXUINT, outline, TRUE);
  for (guint i = 0; i < piece->marks->len; i++)
    {
      const CwMark *mark = piece->marks->pdata[i];
      g_autoptr (GArray) points = cw_mark_flatten (mark);

      add_strokes (strokes, i, points, mark->kind == CW_MARK_WINDOW);
    }
  return strokes;
}
