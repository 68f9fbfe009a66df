/* cw-make-lift.c: a spine drawn right across is lifted where a step is cut across it.
 *
 * Makers score the spine first and cut the step afterwards. Between the slits the paper folds at the step's hinges and
 * ridge, not at the spine: with three folds or more beside it, the stretch of the spine there is no fold and is taken
 * out; with two (a box whose ridge is the spine itself) it folds the other way. With fewer the step is not finished
 * and nothing is done.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "make/cw-make-private.h"

#include "geometry/cw-polygon.h"
#include "geometry/cw-tolerance.h"
#include "panel/cw-path-flatten.h"

#include <string.h>

#define LIFTS_MAX 64 /* stretches lifted by one edit: far more than slits fit across a spine in one go */

static gboolean
same_line (const CwPath *a, const CwPath *b)
{
  if (a->n_vertices != b->n_vertices)
    return FALSE;
  for (guint i = 0; i < a->n_vertices; i++)
    if (!cw_point_equal (cw_place_get_point (&a->vertices[i].at), cw_place_get_point (&b->vertices[i].at)))
      return FALSE;
  return TRUE;
}

static gboolean
is_new (const CwPiece *before, const CwMark *mark)
{
  const CwMark *old = cw_piece_get_mark (before, mark->id);

  return !old || !same_line (&old->line, &mark->line);
}

static gboolean
lies_within (const CwHinge *inner, const CwHinge *outer)
{
  return cw_segment_distance (outer->p, outer->q, inner->p.x, inner->p.y) <= CW_TOL_MEETS_TICKS
         && cw_segment_distance (outer->p, outer->q, inner->q.x, inner->q.y) <= CW_TOL_MEETS_TICKS;
}

/* The fold line that `inner` is a lifted-to-be stretch of, or G_MAXUINT; *n_beside gets the folds beside it. */
static guint
find_outer (const CwMakeGraph *graph, guint inner, guint *n_beside)
{
  const CwHinge *i = cw_make_graph_get_hinge (graph, inner);
  guint n = cw_make_graph_n_hinges (graph);

  for (guint outer = 0; outer < n; outer++)
    {
      const CwHinge *o = cw_make_graph_get_hinge (graph, outer);

      if (outer == inner || graph->block[outer] != graph->block[inner] || !lies_within (i, o))
        continue;
      if (i->left == o->left || i->left == o->right || i->right == o->left || i->right == o->right)
        continue;
      g_autofree gboolean *closed = g_new0 (gboolean, n + 1);
      for (guint h = 0; h < n; h++)
        closed[h] = lies_within (cw_make_graph_get_hinge (graph, h), o);
      guint way[4] = { cw_make_graph_distance (graph, i->left, o->left, closed),
                       cw_make_graph_distance (graph, i->right, o->right, closed),
                       cw_make_graph_distance (graph, i->left, o->right, closed),
                       cw_make_graph_distance (graph, i->right, o->left, closed) };
      guint straight = way[0] == G_MAXUINT || way[1] == G_MAXUINT ? G_MAXUINT : way[0] + way[1];
      guint crossed = way[2] == G_MAXUINT || way[3] == G_MAXUINT ? G_MAXUINT : way[2] + way[3];
      *n_beside = MIN (straight, crossed);
      if (*n_beside != G_MAXUINT)
        return outer;
    }
  return G_MAXUINT;
}

/* Whether this edit has to do with the stretch: a score of its block, or a slit at one of its ends, is new. */
static gboolean
is_touched (const CwMakeGraph *graph, guint inner, const CwPiece *before)
{
  const CwPiece *piece = graph->map->piece;
  const CwHinge *i = cw_make_graph_get_hinge (graph, inner);

  for (guint h = 0; h < cw_make_graph_n_hinges (graph); h++)
    {
      const CwHinge *hinge = cw_make_graph_get_hinge (graph, h);

      for (guint k = 0; graph->block[h] == graph->block[inner] && k < hinge->scores->len; k++)
        if (is_new (before, cw_piece_get_mark (piece, hinge->scores->pdata[k])))
          return TRUE;
    }
  for (guint k = 0; k < piece->marks->len; k++)
    {
      const CwMark *mark = piece->marks->pdata[k];

      if (mark->kind != CW_MARK_CUT || !is_new (before, mark))
        continue;
      g_autoptr (GArray) points = cw_mark_flatten (mark);
      if (cw_make_on_line (points, i->p, NULL) || cw_make_on_line (points, i->q, NULL))
        return TRUE;
    }
  return FALSE;
}

static void
forget_folds (CwMakeWork *work, const char *piece_id, const char *mark_id)
{
  g_autofree char *address = g_strdup_printf ("%s/%s", piece_id, mark_id);

  for (guint s = work->design->steps->len; s > 0; s--)
    cw_make_drop_fold (work, s - 1, address);
}

static CwMark *
make_part (const CwMark *mark, CwPlace from, CwPlace to)
{
  CwMark *part = cw_mark_copy (mark);

  cw_path_clear (&part->line);
  cw_path_append (&part->line, from, FALSE);
  cw_path_append (&part->line, to, FALSE);
  return part;
}

/* Takes the stretch of `hinge` out of the mark, or turns it the other way if `turn`. */
static void
lift (CwMakeWork *work, const CwMakeGraph *graph, const CwHinge *hinge, const CwMark *mark, gboolean turn)
{
  const char *piece_id = graph->map->piece->id;
  CwPlace a = mark->line.vertices[0].at, b = mark->line.vertices[1].at;
  CwPoint pa = cw_place_get_point (&a), pb = cw_place_get_point (&b);
  CwPoint u = hinge->p, v = hinge->q;
  guint index = cw_piece_find_mark (graph->map->piece, mark->id);

  if (cw_segment_distance (pa, pa, v.x, v.y) < cw_segment_distance (pa, pa, u.x, u.y))
    {
      u = hinge->q;
      v = hinge->p;
    }
  CwPlace at_u = cw_place_from_point (u, a.x.unit), at_v = cw_place_from_point (v, a.x.unit);
  CwMark *parts[3] = { cw_make_near (pa, u) ? NULL : make_part (mark, a, at_u), NULL,
                       cw_make_near (pb, v) ? NULL : make_part (mark, at_v, b) };
  if (turn)
    {
      parts[1] = make_part (mark, at_u, at_v);
      parts[1]->fold = mark->fold == CW_FOLD_AWAY ? CW_FOLD_TOWARD : CW_FOLD_AWAY;
    }
  gboolean kept_id = FALSE;
  if (!parts[0] && !parts[2])
    forget_folds (work, piece_id, mark->id);
  if (!parts[0] && !parts[1] && !parts[2])
    {
      cw_make_work_do (work, cw_edit_new_erase (work->design, CW_LIST_MARKS, piece_id, index));
      return;
    }
  /* The id stays with a part that folds as the mark did, so that steps go on folding it. */
  for (guint k = 0; k < 3; k++)
    if (parts[k] && !kept_id && (k != 1 || (!parts[0] && !parts[2])))
      {
        cw_make_work_do (work, cw_edit_new_replace (work->design, CW_LIST_MARKS, piece_id, index, parts[k]));
        parts[k] = NULL;
        kept_id = TRUE;
      }
  for (guint k = 0; k < 3; k++)
    {
      if (!parts[k])
        continue;
      g_free (parts[k]->id);
      parts[k]->id = cw_make_dup_mark_id (cw_design_get_piece (work->design, piece_id), CW_MARK_SCORE);
      cw_make_work_do (work, cw_edit_new_insert (work->design, CW_LIST_MARKS, piece_id, ++index, parts[k]));
    }
}

/**
 * cw_make_lift_spines:
 * @before: the piece before this edit
 *
 * Lifts spines where marks of this edit have finished a step across them.
 */
void
cw_make_lift_spines (CwMakeWork *work, const char *piece_id, const CwPiece *before)
{
  for (guint n_lifted = 0; n_lifted < LIFTS_MAX; n_lifted++)
    {
      g_autoptr (CwMakeGraph) graph = cw_make_graph_new (work->design, piece_id);
      gboolean lifted = FALSE;

      for (guint h = 0; h < cw_make_graph_n_hinges (graph) && !lifted; h++)
        {
          const CwHinge *hinge = cw_make_graph_get_hinge (graph, h);
          const CwMark *mark = cw_piece_get_mark (graph->map->piece, hinge->scores->pdata[0]);
          guint n_beside = 0;
          guint outer = find_outer (graph, h, &n_beside);

          if (outer == G_MAXUINT || n_beside < 2 || mark->line.n_vertices != 2 || !is_touched (graph, h, before))
            continue;
          CwPoint a = cw_place_get_point (&mark->line.vertices[0].at);
          CwPoint b = cw_place_get_point (&mark->line.vertices[1].at);
          gboolean whole = (cw_make_near (a, hinge->p) && cw_make_near (b, hinge->q))
                           || (cw_make_near (a, hinge->q) && cw_make_near (b, hinge->p));
          if (whole && is_new (before, mark)) /* drawn there on purpose */
            continue;
          if (n_beside == 2 && hinge->fold != cw_make_graph_get_hinge (graph, outer)->fold)
            continue;
          lift (work, graph, hinge, mark, n_beside == 2);
          lifted = TRUE;
        }
      if (!lifted)
        return;
    }
}
