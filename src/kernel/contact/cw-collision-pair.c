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
 * Sheets that begin face to face take their side from an earlier moment, where the caller knows one.
 *
 * Over 500 lines because corners and edges are two readings of one span and share its looks and what is remembered.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "contact/cw-collision-lines.h"
#include "contact/cw-collision-private.h"

#include "geometry/cw-tolerance.h"

/* Where one panel lies in the flat coordinates of the other, both ways. */
typedef struct
{
  CwRigid place[2]; /* a in b's, b in a's */
} Relative;

typedef struct
{
  CwVec3 at[3]; /* in the other's coordinates, at the span's looks; z is the distance from its plane */
  int side;     /* -1, 1: where it last stood clearly; 0: not known */
  double last;  /* when */
} Corner;

typedef struct
{
  guint i, k; /* edges of a and b, by their first corners */
  double f[3];
  int side;
  double last;
} EdgePair;

struct CwPairWork
{
  CwPairAsk ask;
  gboolean fresh, moved;
  gboolean blurred[3]; /* at the span's looks: the motion tells no side */
  const CwCollisionSheet *sheets[2];
  guint panels[2];
  guint room[2];
  Corner *corners[2];
  GArray *edges, *next_edges; /* of EdgePair, by i, then k */
  GArray *active[2];          /* of guint: edges that may meet the other's plane */
  gboolean has_before;
  Relative before;
  int side;          /* of b's plane on which a began, in b's coordinates; 0: not known */
  gboolean same_way; /* both with the front up, or both not */
  gboolean found;
  CwCollision hit;
};

/**
 * cw_pair_work_new:
 *
 * Returns: (transfer full): scratch for one pair after another
 */
CwPairWork *
cw_pair_work_new (void)
{
  CwPairWork *work = g_new0 (CwPairWork, 1);

  work->edges = g_array_new (FALSE, FALSE, sizeof (EdgePair));
  work->next_edges = g_array_new (FALSE, FALSE, sizeof (EdgePair));
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

static Relative
relative_of (const CwPose *pose, guint panel_a, guint panel_b)
{
  const CwRigid *a = &pose->places[panel_a], *b = &pose->places[panel_b];
  CwRigid from_a = cw_rigid_inverse (a), from_b = cw_rigid_inverse (b);

  return (Relative){ { cw_rigid_compose (&from_b, a), cw_rigid_compose (&from_a, b) } };
}

static Relative
relative (const CwPairWork *work, const CwPose *pose)
{
  return relative_of (pose, work->ask.a, work->ask.b);
}

static Relative
relative_at (CwPairWork *work, double t)
{
  CwLooks *looks = work->ask.looks;

  cw_motion_get_pose (looks->motion, looks->work, looks->step, t, looks->scratch);
  return relative (work, looks->scratch);
}

static gboolean
stands_still (const Relative *x, const Relative *y)
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
  Relative x = relative_of (from, a, b), y = relative_of (to, a, b);

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
        work->corners[w] = g_renew (Corner, work->corners[w], work->room[w]);
      }
  g_array_set_size (work->edges, 0);
  work->has_before = ask->before != NULL;
  if (work->has_before)
    work->before = relative (work, ask->before);
}

static CwVec3
place_corner (const CwPairWork *work, const Relative *rel, guint w, guint i)
{
  return cw_rigid_apply (&rel->place[w], cw_vec3 (work->sheets[w]->x[i], work->sheets[w]->y[i], 0));
}

static int
side_of (double f, double band)
{
  return f > band ? 1 : f < -band ? -1 : 0;
}

/* How far a value may stray from straight lines between its three looks: four times what it does if it is a parabola.
 */
static double
stray (const double *f)
{
  return fabs (f[0] - 2 * f[1] + f[2]) / 2;
}

static double
stray_of (const CwVec3 *at)
{
  CwVec3 bend = cw_vec3_add (cw_vec3_sub (at[0], cw_vec3_scale (at[1], 2)), at[2]);

  return cw_vec3_length (bend) / 2;
}

/* May f have changed sides and come back between two looks? */
static gboolean
may_hide (const double *f, int side, double band)
{
  double slack = stray (f);

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

/* --- Edges. --- */

static CwLines
lines_of (const CwPairWork *work, CwVec3 p0, CwVec3 p1, guint k)
{
  const CwCollisionSheet *b = work->sheets[1];
  guint n = b->next[k];

  return (CwLines){ p0, cw_vec3_sub (p1, p0), cw_vec3 (b->x[k], b->y[k], 0),
                    cw_vec3 (b->x[n] - b->x[k], b->y[n] - b->y[k], 0) };
}

static CwLines
lines_at (const CwPairWork *work, const Relative *rel, guint i, guint k)
{
  return lines_of (work, place_corner (work, rel, 0, i), place_corner (work, rel, 0, work->sheets[0]->next[i]), k);
}

static CwLines
lines_in_span (const CwPairWork *work, guint look, guint i, guint k)
{
  return lines_of (work, work->corners[0][i].at[look], work->corners[0][work->sheets[0]->next[i]].at[look], k);
}

/* --- The moment of a crossing. --- */

/* Corner i of sheet w; or, for w = 2, edge i of a and k of b. */
static double
value_at (CwPairWork *work, guint w, guint i, guint k, double t, Relative *rel)
{
  *rel = relative_at (work, t);
  if (w < 2)
    return place_corner (work, rel, w, i).z;
  {
    CwLines lines = lines_at (work, rel, i, k);

    return cw_lines_distance (&lines);
  }
}

/* Regula falsi with the end that stays halved (Illinois): f is 0 at the moment found. Without a change of sign, as when
 * the sheets began face to face, the beginning. */
static double
find_moment (CwPairWork *work, guint w, guint i, guint k, double t0, double t1, Relative *rel)
{
  Relative other;
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

/* `where` lies in the plane of sheet `face`, in its flat coordinates. */
static void
note_hit (CwPairWork *work, double t, const Relative *rel, guint face, CwVec3 where)
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

/* --- One span. --- */

/* All that the step turns is within `turn` of a flat place it began or ends at. What stands still but for rounding does
 * not count: just there rounding may swing it far. */
static gboolean
as_good_as_flat (const CwLooks *looks, const CwPose *pose, double turn)
{
  const CwSpan *first = g_ptr_array_index (looks->spans, 0);
  const CwSpan *last = g_ptr_array_index (looks->spans, looks->spans->len - 1);
  const CwPose *ends[2] = { first->pose[0], last->pose[2] };
  guint n = cw_panel_set_n_hinges (cw_motion_get_set (looks->motion));
  gboolean near[2] = { turn > 0, turn > 0 };

  for (guint i = 0; i < n && (near[0] || near[1]); i++)
    {
      if (fabs (ends[0]->angles_deg[i] - ends[1]->angles_deg[i]) < CW_TOL_ANGLE_AGREES_DEG)
        continue;
      for (guint e = 0; e < 2; e++)
        near[e] = near[e] && fabs (remainder (ends[e]->angles_deg[i], 180)) < CW_TOL_FLAT_SNAP_DEG
                  && fabs (pose->angles_deg[i] - ends[e]->angles_deg[i]) < turn * 180 / G_PI;
    }
  return near[0] || near[1];
}

static gboolean
near_paper (const Corner *corner, const CwCollisionSheet *other)
{
  double slack = stray_of (corner->at), low_x = corner->at[0].x, high_x = low_x, low_y = corner->at[0].y,
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

/* Places all corners; FALSE if one sheet stays off the other's plane or beside its paper all through the span. */
static gboolean
place_corners (CwPairWork *work, const Relative *rel)
{
  double band = work->ask.band;

  for (guint w = 0; w < 2; w++)
    {
      const CwCollisionSheet *other = work->sheets[1 - w];
      gboolean above = TRUE, below = TRUE;
      gboolean beside[4] = { TRUE, TRUE, TRUE, TRUE };

      for (guint i = 0; i < work->sheets[w]->n_corners; i++)
        {
          Corner *corner = &work->corners[w][i];
          double slack;

          for (guint k = 0; k < 3; k++)
            corner->at[k] = place_corner (work, &rel[k], w, i);
          slack = stray_of (corner->at) + band;
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
        side = side_of (place_corner (work, &work->before, w, i).z, work->ask.clear);
        if (side != 0)
          seen[side * turned > 0] = TRUE;
      }
  return seen[0] == seen[1] ? 0 : seen[1] ? 1 : -1;
}

/* Learns on which side of b's plane a lies, if the two begin face to face and it is known. */
static void
learn_side (CwPairWork *work, const Relative *rel)
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

/* The side on which corner or edges stood before this step. */
static int
side_before (const CwPairWork *work, guint w, guint i, guint k)
{
  CwLines lines;
  double f = 0;
  int side;

  if (work->moved)
    return 0;
  if (w == 2)
    lines = lines_in_span (work, 0, i, k);
  if (work->has_before && w < 2)
    f = place_corner (work, &work->before, w, i).z;
  else if (work->has_before)
    {
      CwLines before = lines_at (work, &work->before, i, k);

      f = cw_lines_distance (&before);
    }
  side = side_of (f, work->ask.clear);
  if (side != 0)
    return side;
  if (w == 0)
    return work->side;
  if (w == 1)
    return work->same_way ? -work->side : work->side;
  return cw_vec3_cross (lines.along_p, lines.along_q).z > 0 ? work->side : -work->side;
}

static void
begin_corners (CwPairWork *work, double t)
{
  for (guint w = 0; w < 2; w++)
    for (guint i = 0; i < work->sheets[w]->n_corners; i++)
      {
        Corner *corner = &work->corners[w][i];

        corner->side = work->blurred[0] && t > 0 ? 0 : side_of (corner->at[0].z, work->ask.band);
        if (corner->side == 0 && cw_collision_sheet_contains (work->sheets[1 - w], corner->at[0].x, corner->at[0].y))
          corner->side = side_before (work, w, i, 0);
        corner->last = t;
      }
}

static void
list_active (CwPairWork *work, guint w)
{
  const CwCollisionSheet *sheet = work->sheets[w];
  double band = work->ask.band;

  g_array_set_size (work->active[w], 0);
  for (guint i = 0; i < sheet->n_corners; i++)
    {
      const Corner *x = &work->corners[w][i], *y = &work->corners[w][sheet->next[i]];
      double slack = MAX (stray_of (x->at), stray_of (y->at)) + band;
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
  const Corner *x = &work->corners[0][i], *y = &work->corners[0][work->sheets[0]->next[i]];
  double slack = MAX (stray_of (x->at), stray_of (y->at)) + work->ask.band;
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

/* Fills next_edges with what is near in this span, with what is remembered of it. */
static void
list_edges (CwPairWork *work, double t)
{
  guint seen = 0;

  list_active (work, 0);
  list_active (work, 1);
  g_array_set_size (work->next_edges, 0);
  for (guint x = 0; x < work->active[0]->len; x++)
    for (guint y = 0; y < work->active[1]->len; y++)
      {
        EdgePair edge
          = { g_array_index (work->active[0], guint, x), g_array_index (work->active[1], guint, y), { 0 }, 0, t };
        const EdgePair *old = NULL;
        CwLines first;
        CwVec3 where;

        if (edges_apart (work, edge.i, edge.k))
          continue;
        for (guint m = 0; m < 3; m++)
          {
            CwLines lines = lines_in_span (work, m, edge.i, edge.k);

            edge.f[m] = cw_lines_distance (&lines);
            if (m == 0)
              first = lines;
          }
        while (!work->fresh && seen < work->edges->len)
          {
            old = &g_array_index (work->edges, EdgePair, seen);
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
            edge.side = work->blurred[0] && t > 0 ? 0 : side_of (edge.f[0], work->ask.band);
            if (edge.side == 0 && cw_lines_cross (&first, 4 * work->ask.band, &where))
              edge.side = side_before (work, 2, edge.i, edge.k);
          }
        g_array_append_val (work->next_edges, edge);
      }
}

static gboolean
must_halve (const CwPairWork *work)
{
  if (work->blurred[0] && work->blurred[1] && work->blurred[2])
    return FALSE;
  for (guint w = 0; w < 2; w++)
    for (guint i = 0; i < work->sheets[w]->n_corners; i++)
      {
        const Corner *corner = &work->corners[w][i];
        double f[3] = { corner->at[0].z, corner->at[1].z, corner->at[2].z };

        if (may_hide (f, corner->side, work->ask.band) && near_paper (corner, work->sheets[1 - w]))
          return TRUE;
      }
  for (guint i = 0; i < work->next_edges->len; i++)
    {
      const EdgePair *edge = &g_array_index (work->next_edges, EdgePair, i);

      if (may_hide (edge->f, edge->side, work->ask.band))
        return TRUE;
    }
  return FALSE;
}

/* Between looks m - 1 and m the corner changed sides: surely beside the paper? Saves finding the moment. */
static gboolean
surely_beside (const CwPairWork *work, const CwSpan *span, const Corner *corner, guint m, const CwCollisionSheet *other)
{
  double z0, z1, s, x, y;
  const CwVec3 *at = corner->at;

  if (m == 0 || corner->last < span->t[m - 1])
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
         > stray_of (at) + cw_vec3_length (cw_vec3_sub (at[m], at[m - 1])) * MIN (1, stray_of (at) / fabs (z1 - z0));
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
  Corner *corner = &work->corners[w][i];
  const CwCollisionSheet *other = work->sheets[1 - w];
  gboolean near = near_paper (corner, other);

  for (guint m = 0; m < 3; m++)
    {
      int side = side_of (corner->at[m].z, work->ask.band);

      if (work->blurred[m])
        continue;
      if (side != 0)
        {
          if (near && corner->side == -side && !surely_beside (work, span, corner, m, other))
            {
              Relative rel;
              double t = find_moment (work, w, i, 0, corner->last, span->t[m], &rel);
              CwVec3 at = place_corner (work, &rel, w, i);

              if (cw_collision_sheet_contains (other, at.x, at.y))
                note_hit (work, t, &rel, 1 - w, at);
            }
          corner->side = side;
          corner->last = span->t[m];
        }
      else if (passes_beside (work, other, &corner->at[m]))
        corner->side = 0;
    }
}

/* Between looks m - 1 and m the lines changed sides: surely beyond the edges' ends? Saves finding the moment. */
static gboolean
surely_beyond (const CwPairWork *work, const CwSpan *span, const EdgePair *edge, guint m)
{
  double from[2], to[2];
  CwLines x, y;

  if (m == 0 || edge->last < span->t[m - 1])
    return FALSE;
  x = lines_in_span (work, m - 1, edge->i, edge->k);
  y = lines_in_span (work, m, edge->i, edge->k);
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
follow_edges (CwPairWork *work, const CwSpan *span, EdgePair *edge)
{
  CwVec3 where;

  for (guint m = 0; m < 3; m++)
    {
      int side = side_of (edge->f[m], work->ask.band);

      if (work->blurred[m])
        continue;
      if (side != 0)
        {
          if (edge->side == -side && !surely_beyond (work, span, edge, m))
            {
              Relative rel;
              double t = find_moment (work, 2, edge->i, edge->k, edge->last, span->t[m], &rel);
              CwLines lines = lines_at (work, &rel, edge->i, edge->k);

              if (cw_lines_cross (&lines, 4 * work->ask.touch, &where))
                note_hit (work, t, &rel, 1, where);
            }
          edge->side = side;
          edge->last = span->t[m];
        }
      else
        {
          CwLines lines = lines_in_span (work, m, edge->i, edge->k);

          if (!cw_lines_cross (&lines, 4 * work->ask.band, &where))
            edge->side = 0;
        }
    }
}

static void
follow_span (CwPairWork *work, CwSpan *span)
{
  Relative rel[3];
  GArray *swap;

  for (guint k = 0; k < 3; k++)
    {
      rel[k] = relative (work, span->pose[k]);
      work->blurred[k] = as_good_as_flat (work->ask.looks, span->pose[k], work->ask.blur_turn);
    }
  if (stands_still (&rel[0], &rel[1]) && stands_still (&rel[1], &rel[2]))
    return;
  if (!place_corners (work, rel))
    {
      work->fresh = TRUE;
      work->moved = TRUE;
      return;
    }
  if (work->fresh)
    {
      work->same_way = rel[0].place[0].r[2][2] > 0;
      learn_side (work, &rel[0]);
      begin_corners (work, span->t[0]);
    }
  list_edges (work, span->t[0]);
  if (must_halve (work) && cw_looks_split (work->ask.looks, span))
    {
      for (guint h = 0; h < 2 && !work->found; h++)
        follow_span (work, span->half[h]);
      return;
    }

  for (guint w = 0; w < 2; w++)
    for (guint i = 0; i < work->sheets[w]->n_corners; i++)
      follow_corner (work, span, w, i);
  for (guint i = 0; i < work->next_edges->len; i++)
    follow_edges (work, span, &g_array_index (work->next_edges, EdgePair, i));
  swap = work->edges;
  work->edges = work->next_edges;
  work->next_edges = swap;
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
