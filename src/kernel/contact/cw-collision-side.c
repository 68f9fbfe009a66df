/* cw-collision-side.c: on which side of one another two panels are, and the moment they change.
 *
 * Sheets that begin face to face take their side from an earlier moment or from the order of layers, where the caller
 * knows one. A change of sides is dated by regula falsi with the end that stays halved (the "Illinois" rule: Dowell and
 * Jarratt, "A modified regula falsi method", BIT 11, 1971; from memory) on the motion itself, not on the looks at it.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "contact/cw-collision-pair.h"

#include "geometry/cw-tolerance.h"

/* On which side of b all corners agree that a stood at the moment before: all of both panels', or only those that now
 * lie on the other's paper. 0: they do not agree. Corners near an old fold line cannot tell for themselves. */
static int
agreed_side (const CwPairWork *work, gboolean on_paper)
{
  gboolean seen[2] = { FALSE, FALSE };

  for (guint w = 0; w < 2; w++)
    for (guint i = 0; i < work->sheets[w]->n_corners; i++)
      {
        const CwVec3 *at = &work->corners[w][i].at[0];
        double turned = w == 0 ? 1 : -work->before.place[0].r[2][2];
        int side;

        if (on_paper && !cw_collision_sheet_contains (work->sheets[1 - w], at->x, at->y))
          continue;
        side = cw_pair_side_of (cw_pair_place_corner (work, &work->before, w, i).z, work->ask.clear);
        if (side != 0)
          seen[side * turned > 0] = TRUE;
      }
  return seen[0] == seen[1] ? 0 : seen[1] ? 1 : -1;
}

/**
 * cw_pair_learn_side:
 * @work: scratch, its corners placed
 * @rel: the span's first moment
 *
 * Learns on which side of b's plane a lies, if the two begin face to face and it is known.
 */
void
cw_pair_learn_side (CwPairWork *work, const CwRelative *rel)
{
  work->side = 0;
  if (work->moved || fabs (rel->place[0].r[2][2]) < CW_COLLISION_FACE_COS)
    return;
  if (work->has_before)
    {
      work->side = agreed_side (work, FALSE);
      if (work->side == 0)
        work->side = agreed_side (work, TRUE);
    }
  /* z counts away from the front, on which a side is 1. */
  if (work->side == 0)
    work->side = -work->ask.front_side;
}

/**
 * cw_pair_side_before:
 * @work: scratch
 * @w: 0: a corner of a; 1: of b; 2: an edge of either
 * @i: the corner, or the edge of a
 * @k: the edge of b
 *
 * Returns: the side on which corner or edges stood before this step; 0: not known
 */
int
cw_pair_side_before (const CwPairWork *work, guint w, guint i, guint k)
{
  CwLines lines;
  double f = 0;
  int side;

  if (work->moved)
    return 0;
  if (w == 2)
    lines = cw_pair_lines_in_span (work, 0, i, k);
  if (work->has_before && w < 2)
    f = cw_pair_place_corner (work, &work->before, w, i).z;
  else if (work->has_before)
    {
      CwLines before = cw_pair_lines_at (work, &work->before, i, k);

      f = cw_lines_distance (&before);
    }
  side = cw_pair_side_of (f, work->ask.clear);
  if (side != 0)
    return side;
  if (w == 0)
    return work->side;
  if (w == 1)
    return work->same_way ? -work->side : work->side;
  return cw_vec3_cross (lines.along_p, lines.along_q).z > 0 ? work->side : -work->side;
}

/**
 * cw_pair_may_hide:
 * @f: (array fixed-size=3): a distance with a sign, at the moments of a span
 * @side: where it last stood clearly
 * @band: the dead band
 *
 * Returns: %TRUE if it may have changed sides and come back between two looks
 */
gboolean
cw_pair_may_hide (const double *f, int side, double band)
{
  double slack = cw_pair_stray (f);

  if (slack < band / 8)
    return FALSE;
  for (guint h = 0; h < 2; h++)
    {
      double low = MIN (f[h], f[h + 1]), high = MAX (f[h], f[h + 1]);

      if ((low >= -band && low - slack < -band && (high > band || side > 0))
          || (high <= band && high + slack > band && (low < -band || side < 0)))
        return TRUE;
    }
  return FALSE;
}

/* CwCorner i of sheet w; or, for w = 2, edge i of a and k of b. */
static double
value_at (CwPairWork *work, guint w, guint i, guint k, double t, CwRelative *rel)
{
  *rel = cw_pair_relative_at (work, t);
  if (w < 2)
    return cw_pair_place_corner (work, rel, w, i).z;
  {
    CwLines lines = cw_pair_lines_at (work, rel, i, k);

    return cw_lines_distance (&lines);
  }
}

/**
 * cw_pair_find_moment:
 * @work: scratch
 * @w: 0: a corner of a; 1: of b; 2: an edge of either
 * @i: the corner, or the edge of a
 * @k: the edge of b
 * @t0: a moment at which it stood on one side
 * @t1: one at which it stands on the other
 * @rel: (out): how the panels lie at the moment found
 *
 * Returns: the moment between; without a change of sign, as when the sheets began face to face, the beginning
 */
double
cw_pair_find_moment (CwPairWork *work, guint w, guint i, guint k, double t0, double t1, CwRelative *rel)
{
  CwRelative other;
  double f0 = value_at (work, w, i, k, t0, rel), f1 = value_at (work, w, i, k, t1, &other);
  int stayed = 0;

  if (fabs (f0) < CW_COLLISION_ROOT_TICKS || (f0 > 0) == (f1 > 0))
    return t0;
  for (guint n = 0; n < CW_COLLISION_ROOT_TRIES; n++)
    {
      double t = t0 + (t1 - t0) * f0 / (f0 - f1), f;

      f = value_at (work, w, i, k, t, rel);
      if (fabs (f) < CW_COLLISION_ROOT_TICKS)
        return t;
      if ((f > 0) == (f0 > 0))
        {
          t0 = t;
          f0 = f;
          f1 = stayed == 1 ? f1 / 2 : f1;
          stayed = 1;
        }
      else
        {
          t1 = t;
          f1 = f;
          f0 = stayed == 2 ? f0 / 2 : f0;
          stayed = 2;
        }
    }
  return t0;
}

/**
 * cw_pair_note_hit:
 * @work: scratch
 * @t: a moment at which paper went through paper
 * @rel: how the panels lie then
 * @face: in the plane of which of the two
 * @where: the place, in its flat coordinates
 *
 * Keeps the first.
 */
void
cw_pair_note_hit (CwPairWork *work, double t, const CwRelative *rel, guint face, CwVec3 where)
{
  CwLooks *looks = work->ask.looks;

  if (work->found && t >= work->hit.fraction)
    return;
  work->found = TRUE;
  cw_motion_get_pose (looks->motion, looks->work, looks->step, t, looks->scratch);
  work->hit.kind
    = fabs (rel->place[0].r[2][2]) > CW_COLLISION_FACE_COS ? CW_COLLISION_PASS_THROUGH : CW_COLLISION_PIERCE;
  work->hit.step = looks->step;
  work->hit.fraction = t;
  work->hit.panel_a = MIN (work->ask.a, work->ask.b);
  work->hit.panel_b = MAX (work->ask.a, work->ask.b);
  work->hit.at = cw_rigid_apply (&looks->scratch->places[work->panels[face]], cw_vec3 (where.x, where.y, 0));
}
