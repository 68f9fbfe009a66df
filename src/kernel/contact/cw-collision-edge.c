/* cw-collision-edge.c: the edges of two panels against one another, through one span.
 *
 * The lines of two edges have a distance with a sign. When it changes they crossed, and paper went through paper if
 * they did so within the lengths of both.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "contact/cw-collision-pair.h"

#include "geometry/cw-tolerance.h"

static CwLines
lines_of (const CwPairWork *work, CwVec3 p0, CwVec3 p1, guint k)
{
  const CwCollisionSheet *b = work->sheets[1];
  guint n = b->next[k];

  return (CwLines){ p0, cw_vec3_sub (p1, p0), cw_vec3 (b->x[k], b->y[k], 0),
                    cw_vec3 (b->x[n] - b->x[k], b->y[n] - b->y[k], 0) };
}

/**
 * cw_pair_lines_at:
 * @work: scratch
 * @rel: how the panels lie
 * @i: an edge of a
 * @k: an edge of b
 *
 * Returns: both, in b's flat coordinates
 */
CwLines
cw_pair_lines_at (const CwPairWork *work, const CwRelative *rel, guint i, guint k)
{
  return lines_of (work, cw_pair_place_corner (work, rel, 0, i),
                   cw_pair_place_corner (work, rel, 0, work->sheets[0]->next[i]), k);
}

/**
 * cw_pair_lines_in_span:
 * @work: scratch, its corners placed
 * @look: 0 to 2: which moment of the span
 * @i: an edge of a
 * @k: an edge of b
 *
 * Returns: both, in b's flat coordinates
 */
CwLines
cw_pair_lines_in_span (const CwPairWork *work, guint look, guint i, guint k)
{
  return lines_of (work, work->corners[0][i].at[look], work->corners[0][work->sheets[0]->next[i]].at[look], k);
}

static void
list_active (CwPairWork *work, guint w)
{
  const CwCollisionSheet *sheet = work->sheets[w];
  double band = work->ask.band;

  g_array_set_size (work->active[w], 0);
  for (guint i = 0; i < sheet->n_corners; i++)
    {
      const CwCorner *x = &work->corners[w][i], *y = &work->corners[w][sheet->next[i]];
      double slack = MAX (cw_pair_stray_of (x->at), cw_pair_stray_of (y->at)) + band;
      gboolean above = TRUE, below = TRUE;

      for (guint k = 0; k < 3; k++)
        {
          above = above && x->at[k].z > slack && y->at[k].z > slack;
          below = below && x->at[k].z < -slack && y->at[k].z < -slack;
        }
      if (!above && !below)
        g_array_append_val (work->active[w], i);
    }
}

/* Over the span, edge i of a beside edge k of b, by their boxes in b's plane. */
static gboolean
edges_apart (const CwPairWork *work, guint i, guint k)
{
  const CwCollisionSheet *b = work->sheets[1];
  const CwCorner *x = &work->corners[0][i], *y = &work->corners[0][work->sheets[0]->next[i]];
  double slack = MAX (cw_pair_stray_of (x->at), cw_pair_stray_of (y->at)) + work->ask.band;
  double left = MIN (b->x[k], b->x[b->next[k]]) - slack, right = MAX (b->x[k], b->x[b->next[k]]) + slack;
  double top = MIN (b->y[k], b->y[b->next[k]]) - slack, bottom = MAX (b->y[k], b->y[b->next[k]]) + slack;
  gboolean off[4] = { TRUE, TRUE, TRUE, TRUE };

  for (guint m = 0; m < 3; m++)
    {
      off[0] = off[0] && x->at[m].x < left && y->at[m].x < left;
      off[1] = off[1] && x->at[m].x > right && y->at[m].x > right;
      off[2] = off[2] && x->at[m].y < top && y->at[m].y < top;
      off[3] = off[3] && x->at[m].y > bottom && y->at[m].y > bottom;
    }
  return off[0] || off[1] || off[2] || off[3];
}

/**
 * cw_pair_list_edges:
 * @work: scratch, its corners placed
 * @t: the span's first moment
 *
 * Lists the edges that come near one another in the span, with what is remembered of them.
 */
void
cw_pair_list_edges (CwPairWork *work, double t)
{
  guint seen = 0;

  list_active (work, 0);
  list_active (work, 1);
  g_array_set_size (work->next_edges, 0);
  for (guint x = 0; x < work->active[0]->len; x++)
    for (guint y = 0; y < work->active[1]->len; y++)
      {
        CwEdgePair edge
          = { g_array_index (work->active[0], guint, x), g_array_index (work->active[1], guint, y), { 0 }, 0, t };
        const CwEdgePair *old = NULL;
        CwLines first;
        CwVec3 where;

        if (edges_apart (work, edge.i, edge.k))
          continue;
        for (guint m = 0; m < 3; m++)
          {
            CwLines lines = cw_pair_lines_in_span (work, m, edge.i, edge.k);

            edge.f[m] = cw_lines_distance (&lines);
            if (m == 0)
              first = lines;
          }
        while (!work->fresh && seen < work->edges->len)
          {
            old = &g_array_index (work->edges, CwEdgePair, seen);
            if (old->i > edge.i || (old->i == edge.i && old->k >= edge.k))
              break;
            old = NULL;
            seen++;
          }
        if (old != NULL && old->i == edge.i && old->k == edge.k)
          {
            edge.side = old->side;
            edge.last = old->last;
          }
        else
          {
            edge.side = work->blurred[0] && t > 0 ? 0 : cw_pair_side_of (edge.f[0], work->ask.band);
            if (edge.side == 0 && cw_lines_cross (&first, 4 * work->ask.band, &where))
              edge.side = cw_pair_side_before (work, 2, edge.i, edge.k);
          }
        g_array_append_val (work->next_edges, edge);
      }
}

/**
 * cw_pair_edges_may_hide:
 * @work: scratch, its edges listed
 *
 * Returns: %TRUE if two edges may have crossed and come back unseen within the span
 */
gboolean
cw_pair_edges_may_hide (const CwPairWork *work)
{
  for (guint i = 0; i < work->next_edges->len; i++)
    {
      const CwEdgePair *edge = &g_array_index (work->next_edges, CwEdgePair, i);

      if (cw_pair_may_hide (edge->f, edge->side, work->ask.band))
        return TRUE;
    }
  return FALSE;
}

/* Between looks m - 1 and m the lines changed sides: surely beyond the edges' ends? Saves finding the moment. */
static gboolean
surely_beyond (const CwPairWork *work, const CwSpan *span, const CwEdgePair *edge, guint m)
{
  double from[2], to[2];
  CwLines x, y;

  if (m == 0 || edge->last < span->moment[m - 1]->t)
    return FALSE;
  x = cw_pair_lines_in_span (work, m - 1, edge->i, edge->k);
  y = cw_pair_lines_in_span (work, m, edge->i, edge->k);
  if (!cw_lines_nearest (&x, CW_COLLISION_SURE_SINE, from) || !cw_lines_nearest (&y, CW_COLLISION_SURE_SINE, to))
    return FALSE;
  for (guint e = 0; e < 2; e++)
    {
      double change = fabs (to[e] - from[e]);

      if (MAX (from[e], to[e]) < -change || MIN (from[e], to[e]) > 1 + change)
        return TRUE;
    }
  return FALSE;
}

static void
follow_edge (CwPairWork *work, const CwSpan *span, CwEdgePair *edge)
{
  CwVec3 where;

  for (guint m = 0; m < 3; m++)
    {
      int side = cw_pair_side_of (edge->f[m], work->ask.band);

      if (work->blurred[m])
        continue;
      if (side != 0)
        {
          if (edge->side == -side && !surely_beyond (work, span, edge, m))
            {
              CwRelative rel;
              double t = cw_pair_find_moment (work, 2, edge->i, edge->k, edge->last, span->moment[m]->t, &rel);
              CwLines lines = cw_pair_lines_at (work, &rel, edge->i, edge->k);

              if (cw_lines_cross (&lines, 4 * work->ask.touch, &where))
                cw_pair_note_hit (work, t, &rel, 1, where);
            }
          edge->side = side;
          edge->last = span->moment[m]->t;
        }
      else
        {
          CwLines lines = cw_pair_lines_in_span (work, m, edge->i, edge->k);

          if (!cw_lines_cross (&lines, 4 * work->ask.band, &where))
            edge->side = 0;
        }
    }
}

/**
 * cw_pair_follow_edges:
 * @work: scratch, its edges listed
 * @span: the span
 */
void
cw_pair_follow_edges (CwPairWork *work, const CwSpan *span)
{
  GArray *swap = work->edges;

  for (guint i = 0; i < work->next_edges->len; i++)
    follow_edge (work, span, &g_array_index (work->next_edges, CwEdgePair, i));
  work->edges = work->next_edges;
  work->next_edges = swap;
}
