/* cw-remedy-draft.c: changes that remedies are made of, on a design of which nothing else may notice them.
 *
 * A point that several marks share is moved in all of them. What becomes shorter or longer on its left or top is
 * shifted back afterwards, so that measures are still read from the corner of the sheet, and everything that names a
 * place on it goes along: glue, panels that are meant, what is stuck on it, and where it is itself stuck.
 *
 * Over 500 lines because all changes of a design share the same few ways to move a place.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "check/cw-remedy-private.h"

#include "fold/cw-assembly.h"
#include "panel/cw-path-flatten.h"

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

  if (path_move_point (&copy->outline, from, to))
    cw_draft_put_piece (draft, copy);
  else
    cw_piece_unref (copy);
  for (guint i = 0; i < piece->marks->len; i++)
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

/* --- Pieces ------------------------------------------------------------------------------------------------------- */

/**
 * cw_mending_find_box:
 * @piece: a piece
 * @low: (out): left and top of its outline, ticks
 * @high: (out): right and bottom
 *
 * Returns: %FALSE if it has no outline
 */
gboolean
cw_mending_find_box (const CwPiece *piece, CwPoint *low, CwPoint *high)
{
  g_autoptr (GArray) points = cw_path_flatten (&piece->outline, TRUE);

  for (guint i = 0; i < points->len; i++)
    {
      CwPoint p = g_array_index (points, CwPoint, i);

      *low = i == 0 ? p : cw_point (MIN (low->x, p.x), MIN (low->y, p.y));
      *high = i == 0 ? p : cw_point (MAX (high->x, p.x), MAX (high->y, p.y));
    }
  return points->len > 0;
}

/* How places of a piece change: those beyond a limit are brought in to it, all are shifted. */
typedef struct
{
  CwSide side;
  gint32 limit;       /* places beyond it come to lie on it */
  gint32 edge, reach; /* longer: places on this edge go to reach */
  gint32 dx, dy;
} Change;

static gint32
change_one (const Change *change, CwSide low, CwSide high, gint32 at)
{
  if (change->side == low)
    return at == change->edge ? change->reach : MAX (at, change->limit);
  if (change->side == high)
    return at == change->edge ? change->reach : MIN (at, change->limit);
  return at;
}

static void
change_place (const Change *change, CwPlace *place)
{
  CwPoint p = cw_place_get_point (place);
  CwPoint q = { change_one (change, CW_SIDE_LEFT, CW_SIDE_RIGHT, p.x) + change->dx,
                change_one (change, CW_SIDE_TOP, CW_SIDE_BOTTOM, p.y) + change->dy };

  cw_place_set (place, q);
}

static void
change_path (const Change *change, CwPath *path)
{
  for (guint i = 0; i < path->n_vertices; i++)
    change_place (change, &path->vertices[i].at);
}

static void
change_target (const Change *change, CwTarget *target, const char *piece_id)
{
  if (target->has_panel && g_strcmp0 (target->piece, piece_id) == 0)
    change_place (change, &target->panel);
}

static void
change_drawing (CwDraft *draft, const char *piece_id, const Change *change)
{
  CwPiece *copy = cw_piece_copy (cw_design_get_piece (draft->design, piece_id));
  guint n_marks = copy->marks->len, n_art = copy->art->len;

  change_path (change, &copy->outline);
  if (copy->has_hold)
    change_place (change, &copy->hold);
  for (guint i = 0; i < copy->names->len; i++)
    {
      CwName *name = cw_name_copy (copy->names->pdata[i]);

      change_place (change, &name->at);
      cw_name_unref (copy->names->pdata[i]);
      copy->names->pdata[i] = name;
    }
  for (guint i = 0; i < n_marks; i++)
    {
      CwMark *mark = cw_mark_copy (copy->marks->pdata[i]);

      change_path (change, &mark->line);
      if (mark->shape == CW_SHAPE_CIRCLE)
        change_place (change, &mark->centre);
      cw_mark_unref (copy->marks->pdata[i]);
      copy->marks->pdata[i] = mark;
    }
  for (guint i = 0; i < n_art; i++)
    {
      CwArt *art = cw_art_copy (copy->art->pdata[i]);

      change_place (change, &art->box[0]);
      change_place (change, &art->box[1]);
      cw_art_unref (copy->art->pdata[i]);
      copy->art->pdata[i] = art;
    }
  cw_draft_put_piece (draft, copy);
}

/* Glue goes along with an edge: it stays as far from it as it was. */
static void
change_glue (CwDraft *draft, const char *piece_id, const Change *change)
{
  for (guint i = 0; i < draft->design->glue->len; i++)
    {
      const CwGlue *old = draft->design->glue->pdata[i];
      gboolean concerned = g_strcmp0 (old->piece, piece_id) == 0;
      CwGlue *glue;

      for (guint k = 0; k < old->holds->len && !concerned; k++)
        concerned = g_strcmp0 (((const CwTarget *) old->holds->pdata[k])->piece, piece_id) == 0;
      if (!concerned)
        continue;
      glue = cw_glue_copy (old);
      if (g_strcmp0 (glue->piece, piece_id) == 0)
        {
          Change own = *change;
          gint32 nearest = G_MAXINT32;

          for (guint k = 0; k < glue->area.n_vertices; k++)
            {
              CwPoint p = cw_place_get_point (&glue->area.vertices[k].at);
              gint32 at = change->side == CW_SIDE_LEFT || change->side == CW_SIDE_RIGHT ? p.x : p.y;

              nearest = MIN (nearest, ABS (change->edge - at));
            }
          own.limit += change->side == CW_SIDE_LEFT || change->side == CW_SIDE_TOP ? nearest : -nearest;
          own.reach = own.edge; /* longer paper needs no more glue */
          change_path (&own, &glue->area);
        }
      for (guint k = 0; k < glue->holds->len; k++)
        {
          CwTarget *target = cw_target_copy (glue->holds->pdata[k]);

          change_target (change, target, piece_id);
          cw_target_unref (glue->holds->pdata[k]);
          glue->holds->pdata[k] = target;
        }
      cw_draft_put_glue (draft, glue);
    }
}

static void
change_steps (CwDraft *draft, const char *piece_id, const Change *change)
{
  for (guint i = 0; i < draft->design->steps->len; i++)
    {
      const CwStep *old = draft->design->steps->pdata[i];
      CwStep *step;

      if (old->what != CW_DO_STICK || !old->has_on
          || (g_strcmp0 (old->on.piece, piece_id) != 0 && g_strcmp0 (old->piece, piece_id) != 0))
        continue;
      step = cw_step_copy (old);
      if (step->has_on && g_strcmp0 (step->on.piece, piece_id) == 0)
        {
          change_target (change, &step->on, piece_id);
          cw_place_move (&step->at, change->dx, change->dy);
        }
      if (step->what == CW_DO_STICK && g_strcmp0 (step->piece, piece_id) == 0)
        {
          CwRigid place = cw_step_get_placement (step);
          CwVec3 by = cw_rigid_turn (&place, cw_vec3 (change->dx, change->dy, 0));

          cw_place_move (&step->at, (gint32) -lround (by.x), (gint32) -lround (by.y));
        }
      cw_draft_put_step (draft, step);
    }
}

static void
change_wants (CwDraft *draft, const char *piece_id, const Change *change)
{
  CwHead *head = cw_head_copy (draft->design->head);
  GPtrArray *lists[2] = { head->wants.hidden, head->wants.shown };

  for (guint k = 0; k < 2; k++)
    for (guint i = 0; i < lists[k]->len; i++)
      {
        CwSightWant *want = cw_sight_want_copy (lists[k]->pdata[i]);

        change_target (change, &want->target, piece_id);
        cw_sight_want_unref (lists[k]->pdata[i]);
        lists[k]->pdata[i] = want;
      }
  cw_draft_put_head (draft, head);
}

static void
change_piece (CwDraft *draft, const char *piece_id, const Change *change)
{
  change_drawing (draft, piece_id, change);
  change_glue (draft, piece_id, change);
  change_steps (draft, piece_id, change);
  if (draft->design->head->wants.hidden->len + draft->design->head->wants.shown->len > 0)
    change_wants (draft, piece_id, change);
}

/**
 * cw_draft_trim_piece:
 * @draft: a draft
 * @piece_id: a piece
 * @side: which of its sides, as drawn
 * @by: how much shorter it becomes there, ticks; negative: longer
 *
 * What reaches beyond the new edge ends on it. The paper that is left stays where it was on the card.
 *
 * Returns: %FALSE, nothing being changed, if too little would be left
 */
gboolean
cw_draft_trim_piece (CwDraft *draft, const char *piece_id, CwSide side, gint32 by)
{
  CwPoint low = { 0 }, high = { 0 };
  gboolean across = side == CW_SIDE_LEFT || side == CW_SIDE_RIGHT, first = side == CW_SIDE_LEFT || side == CW_SIDE_TOP;
  Change change = { .side = side };

  if (!cw_mending_find_box (cw_design_get_piece (draft->design, piece_id), &low, &high)
      || by >= (across ? high.x - low.x : high.y - low.y) - cw_head_get_mark_step (draft->design->head))
    return FALSE;
  change.edge = side == CW_SIDE_LEFT ? low.x : side == CW_SIDE_RIGHT ? high.x : side == CW_SIDE_TOP ? low.y : high.y;
  change.reach = first ? change.edge + by : change.edge - by;
  change.limit = by > 0 ? change.reach : change.edge;
  if (first)
    {
      change.dx = across ? -by : 0;
      change.dy = across ? 0 : -by;
    }
  change_piece (draft, piece_id, &change);
  return TRUE;
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
