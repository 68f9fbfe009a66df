/* cw-remedy-trim.c: a piece made shorter or longer at one of its sides, on the way to a remedy.
 *
 * What becomes shorter or longer on its left or top is shifted back afterwards, so that measures are still read from
 * the corner of the sheet, and everything that names a place on it goes along: glue, panels that are meant, what is
 * stuck on it, and where it is itself stuck.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "check/cw-remedy-private.h"

#include "fold/cw-assembly.h"

#include <math.h>

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

  if (!cw_piece_get_box (cw_design_get_piece (draft->design, piece_id), &low, &high)
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
