/* cw-collision-corner.c: the corners of one panel against the face of another, through one span.
 *
 * A corner has changed sides when it stands clearly on the other one; it went through paper if it lay on the paper at
 * the moment it was in its plane. One that only slides along the face, or passes beside it, raises nothing.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "contact/cw-collision-pair.h"

#include "geometry/cw-tolerance.h"

static gboolean
near_paper (const CwCorner *corner, const CwCollisionSheet *other)
{
  double slack = cw_pair_stray_of (corner->at), low_x = corner->at[0].x, high_x = low_x, low_y = corner->at[0].y,
         high_y = low_y;

  for (guint k = 1; k < 3; k++)
    {
      low_x = MIN (low_x, corner->at[k].x);
      high_x = MAX (high_x, corner->at[k].x);
      low_y = MIN (low_y, corner->at[k].y);
      high_y = MAX (high_y, corner->at[k].y);
    }
  return high_x + slack > other->box[0] && low_x - slack < other->box[2] && high_y + slack > other->box[1]
         && low_y - slack < other->box[3];
}

/**
 * cw_pair_place_corners:
 * @work: scratch
 * @rel: (array fixed-size=3): how the panels lie at the moments of a span
 *
 * Places all corners.
 *
 * Returns: %FALSE if one sheet stays off the other's plane or beside its paper all through the span
 */
gboolean
cw_pair_place_corners (CwPairWork *work, const CwRelative *rel)
{
  double band = work->ask.band;

  for (guint w = 0; w < 2; w++)
    {
      const CwCollisionSheet *other = work->sheets[1 - w];
      gboolean above = TRUE, below = TRUE;
      gboolean beside[4] = { TRUE, TRUE, TRUE, TRUE };

      for (guint i = 0; i < work->sheets[w]->n_corners; i++)
        {
          CwCorner *corner = &work->corners[w][i];
          double slack;

          for (guint k = 0; k < 3; k++)
            corner->at[k] = cw_pair_place_corner (work, &rel[k], w, i);
          slack = cw_pair_stray_of (corner->at) + band;
          for (guint k = 0; k < 3; k++)
            {
              above = above && corner->at[k].z > slack;
              below = below && corner->at[k].z < -slack;
              beside[0] = beside[0] && corner->at[k].x < other->box[0] - slack;
              beside[1] = beside[1] && corner->at[k].y < other->box[1] - slack;
              beside[2] = beside[2] && corner->at[k].x > other->box[2] + slack;
              beside[3] = beside[3] && corner->at[k].y > other->box[3] + slack;
            }
        }
      if (above || below || beside[0] || beside[1] || beside[2] || beside[3])
        return FALSE;
    }
  return TRUE;
}

/**
 * cw_pair_begin_corners:
 * @work: scratch, its corners placed
 * @t: the moment at which the pair begins to be followed
 */
void
cw_pair_begin_corners (CwPairWork *work, double t)
{
  for (guint w = 0; w < 2; w++)
    for (guint i = 0; i < work->sheets[w]->n_corners; i++)
      {
        CwCorner *corner = &work->corners[w][i];

        corner->side = work->blurred[0] && t > 0 ? 0 : cw_pair_side_of (corner->at[0].z, work->ask.band);
        if (corner->side == 0 && cw_collision_sheet_contains (work->sheets[1 - w], corner->at[0].x, corner->at[0].y))
          corner->side = cw_pair_side_before (work, w, i, 0);
        corner->last = t;
      }
}

/**
 * cw_pair_corners_may_hide:
 * @work: scratch, its corners placed
 *
 * Returns: %TRUE if a corner near the other's paper may have changed sides unseen within the span
 */
gboolean
cw_pair_corners_may_hide (const CwPairWork *work)
{
  for (guint w = 0; w < 2; w++)
    for (guint i = 0; i < work->sheets[w]->n_corners; i++)
      {
        const CwCorner *corner = &work->corners[w][i];
        double f[3] = { corner->at[0].z, corner->at[1].z, corner->at[2].z };

        if (cw_pair_may_hide (f, corner->side, work->ask.band) && near_paper (corner, work->sheets[1 - w]))
          return TRUE;
      }
  return FALSE;
}

/* Between looks m - 1 and m the corner changed sides: surely beside the paper? Saves finding the moment. */
static gboolean
surely_beside (const CwPairWork *work, const CwSpan *span, const CwCorner *corner, guint m,
               const CwCollisionSheet *other)
{
  double z0, z1, s, x, y;
  const CwVec3 *at = corner->at;

  if (m == 0 || corner->last < span->moment[m - 1]->t)
    return FALSE;
  z0 = at[m - 1].z;
  z1 = at[m].z;
  s = m - 1 + z0 / (z0 - z1); /* 0 to 2 over the span */
  x = (s - 1) * (s - 2) / 2 * at[0].x - s * (s - 2) * at[1].x + s * (s - 1) / 2 * at[2].x;
  y = (s - 1) * (s - 2) / 2 * at[0].y - s * (s - 2) * at[1].y + s * (s - 1) / 2 * at[2].y;
  if (cw_collision_sheet_contains (other, x, y))
    return FALSE;
  /* Where the linear guess of the moment is off, the corner is off by as much along its way. */
  return cw_collision_sheet_edge_distance (other, x, y)
         > cw_pair_stray_of (at)
             + cw_vec3_length (cw_vec3_sub (at[m], at[m - 1])) * MIN (1, cw_pair_stray_of (at) / fabs (z1 - z0));
}

/* In the plane, or as good as, and off the paper: from here either side is free. */
static gboolean
passes_beside (const CwPairWork *work, const CwCollisionSheet *other, const CwVec3 *at)
{
  if (cw_collision_sheet_contains (other, at->x, at->y))
    return FALSE;
  return fabs (at->z) <= work->ask.touch
         || cw_collision_sheet_edge_distance (other, at->x, at->y) > CW_COLLISION_BESIDE_BANDS * work->ask.band;
}

static void
follow_corner (CwPairWork *work, const CwSpan *span, guint w, guint i)
{
  CwCorner *corner = &work->corners[w][i];
  const CwCollisionSheet *other = work->sheets[1 - w];
  gboolean near = near_paper (corner, other);

  for (guint m = 0; m < 3; m++)
    {
      int side = cw_pair_side_of (corner->at[m].z, work->ask.band);

      if (work->blurred[m])
        continue;
      if (side != 0)
        {
          if (near && corner->side == -side && !surely_beside (work, span, corner, m, other))
            {
              CwRelative rel;
              double t = cw_pair_find_moment (work, w, i, 0, corner->last, span->moment[m]->t, &rel);
              CwVec3 at = cw_pair_place_corner (work, &rel, w, i);

              if (cw_collision_sheet_contains (other, at.x, at.y))
                cw_pair_note_hit (work, t, &rel, 1 - w, at);
            }
          corner->side = side;
          corner->last = span->moment[m]->t;
        }
      else if (passes_beside (work, other, &corner->at[m]))
        corner->side = 0;
    }
}

/**
 * cw_pair_follow_corners:
 * @work: scratch, its corners placed
 * @span: the span
 */
void
cw_pair_follow_corners (CwPairWork *work, const CwSpan *span)
{
  for (guint w = 0; w < 2; w++)
    for (guint i = 0; i < work->sheets[w]->n_corners; i++)
      follow_corner (work, span, w, i);
}
