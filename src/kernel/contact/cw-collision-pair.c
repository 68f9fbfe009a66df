/* cw-collision-pair.c: does one panel pass through another within a step? With no gap between looks.
 *
 * Two sheets that come together do so with a corner of one against the face of the other or with two edges crossing
 * (the classical contacts of polyhedra: Canny, "Collision detection for moving polyhedra", IEEE PAMI 8, 1986; from
 * memory). For both there is a distance f of a sign: corner from plane, edge from edge. Over a span of three looks f
 * lies within a fraction of its second difference of straight lines; where that leaves open whether f changes sign
 * unseen, the span is halved. The side on which f last stood clearly (off a dead band) is remembered. When it stands
 * clearly on the other side the moment it was 0 is found, and there, not at a look, it is asked whether the corner lay
 * on the other paper, or the edges crossed within their lengths: then paper went through paper. So coplanar sheets that
 * change sides are found though nothing cuts at any moment, and a corner that only slides along a face or passes round
 * an edge raises nothing. Sides are forgotten where a corner is in the plane but beside the paper.
 *
 * Corners and edges are followed side by side through the same spans (cw-collision-corner.c, cw-collision-edge.c); this
 * file decides which spans, and halves them.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "contact/cw-collision-pair.h"

#include "geometry/cw-tolerance.h"

/**
 * cw_pair_work_new:
 *
 * Returns: (transfer full): scratch for one pair after another
 */
CwPairWork *
cw_pair_work_new (void)
{
  CwPairWork *work = g_new0 (CwPairWork, 1);

  work->edges = g_array_new (FALSE, FALSE, sizeof (CwEdgePair));
  work->next_edges = g_array_new (FALSE, FALSE, sizeof (CwEdgePair));
  for (guint w = 0; w < 2; w++)
    work->active[w] = g_array_new (FALSE, FALSE, sizeof (guint));
  return work;
}

/**
 * cw_pair_work_free:
 * @work: (transfer full) (nullable): scratch
 */
void
cw_pair_work_free (CwPairWork *work)
{
  if (work == NULL)
    return;
  g_array_unref (work->edges);
  g_array_unref (work->next_edges);
  for (guint w = 0; w < 2; w++)
    {
      g_array_unref (work->active[w]);
      g_free (work->corners[w]);
    }
  g_free (work);
}

static CwRelative
relative_of (const CwPose *pose, guint panel_a, guint panel_b)
{
  CwRigid from_b = cw_rigid_inverse (&pose->places[panel_b]);
  CwRelative rel;

  rel.place[0] = cw_rigid_compose (&from_b, &pose->places[panel_a]);
  rel.place[1] = cw_rigid_inverse (&rel.place[0]);
  return rel;
}

/* At a look, where the way back to every panel is known. */
static void
relative_at_moment (const CwPairWork *work, const CwMoment *moment, CwRelative *rel)
{
  rel->place[0] = cw_rigid_compose (&moment->back[work->ask.b], &moment->pose->places[work->ask.a]);
  rel->place[1] = cw_rigid_inverse (&rel->place[0]);
}

/**
 * cw_pair_relative_at:
 * @work: scratch
 * @t: any moment of the step
 *
 * Returns: how the panels lie to one another then
 */
CwRelative
cw_pair_relative_at (CwPairWork *work, double t)
{
  CwLooks *looks = work->ask.looks;

  cw_motion_get_pose (looks->motion, looks->work, looks->step, t, looks->scratch);
  return relative_of (looks->scratch, work->ask.a, work->ask.b);
}

static gboolean
stands_still (const CwRelative *x, const CwRelative *y)
{
  const CwRigid *p = &x->place[0], *q = &y->place[0];

  for (guint r = 0; r < 3; r++)
    for (guint c = 0; c < 3; c++)
      if (fabs (p->r[r][c] - q->r[r][c]) > CW_COLLISION_STILL)
        return FALSE;
  return cw_vec3_length (cw_vec3_sub (p->t, q->t)) < CW_COLLISION_STILL_TICKS;
}

/**
 * cw_pair_moved:
 * @from: a moment
 * @to: another
 * @a: a panel
 * @b: another
 *
 * Returns: %TRUE if @b lies elsewhere in @a's flat coordinates at @to than at @from
 */
gboolean
cw_pair_moved (const CwPose *from, const CwPose *to, guint a, guint b)
{
  CwRelative x = relative_of (from, a, b), y = relative_of (to, a, b);

  return !stands_still (&x, &y);
}

/**
 * cw_pair_begin:
 * @work: scratch
 * @ask: the pair and its step; what it points to must last until the last cw_pair_follow()
 */
void
cw_pair_begin (CwPairWork *work, const CwPairAsk *ask)
{
  work->ask = *ask;
  work->fresh = TRUE;
  work->moved = FALSE;
  work->found = FALSE;
  work->sheets[0] = ask->sheet_a;
  work->sheets[1] = ask->sheet_b;
  work->panels[0] = ask->a;
  work->panels[1] = ask->b;
  for (guint w = 0; w < 2; w++)
    if (work->room[w] < work->sheets[w]->n_corners)
      {
        work->room[w] = work->sheets[w]->n_corners;
        work->corners[w] = g_renew (CwCorner, work->corners[w], work->room[w]);
      }
  g_array_set_size (work->edges, 0);
  work->has_before = ask->before != NULL;
  work->last = NULL;
  if (work->has_before)
    work->before = relative_of (ask->before, ask->a, ask->b);
}

static void
follow_span (CwPairWork *work, CwSpan *span)
{
  CwRelative rel[3];

  for (guint k = 0; k < 3; k++)
    {
      if (k == 0 && work->last == span->moment[0])
        rel[0] = work->last_relative;
      else
        relative_at_moment (work, span->moment[k], &rel[k]);
      work->blurred[k] = span->moment[k]->off_flat < work->ask.blur_turn;
    }
  work->last = span->moment[2];
  work->last_relative = rel[2];
  if (stands_still (&rel[0], &rel[1]) && stands_still (&rel[1], &rel[2]))
    return;
  if (!cw_pair_place_corners (work, rel))
    {
      work->fresh = TRUE;
      work->moved = TRUE;
      return;
    }
  if (work->fresh)
    {
      work->same_way = rel[0].place[0].r[2][2] > 0;
      cw_pair_learn_side (work, &rel[0]);
      cw_pair_begin_corners (work, span->moment[0]->t);
    }
  cw_pair_list_edges (work, span->moment[0]->t);
  if (!(work->blurred[0] && work->blurred[1] && work->blurred[2])
      && (cw_pair_corners_may_hide (work) || cw_pair_edges_may_hide (work)) && cw_looks_split (work->ask.looks, span))
    {
      for (guint h = 0; h < 2 && !work->found; h++)
        follow_span (work, span->half[h]);
      return;
    }
  cw_pair_follow_corners (work, span);
  cw_pair_follow_edges (work, span);
  work->fresh = FALSE;
  work->moved = TRUE;
}

/**
 * cw_pair_follow:
 * @work: scratch, after cw_pair_begin()
 * @span: the next span of the step at which the pair is near
 * @fresh: %TRUE if the span before it was skipped, the two being apart there
 * @collision: (out): the first collision
 *
 * Returns: %TRUE if the panels collide in the span; the pair is then done with
 */
gboolean
cw_pair_follow (CwPairWork *work, CwSpan *span, gboolean fresh, CwCollision *collision)
{
  if (fresh)
    {
      work->fresh = TRUE;
      work->moved = TRUE;
    }
  follow_span (work, span);
  if (work->found)
    *collision = work->hit;
  return work->found;
}
