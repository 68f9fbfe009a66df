/* cw-collision-pair.h: what is known of two panels while their step is followed; of the files that follow a pair only.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "contact/cw-collision-lines.h"
#include "contact/cw-collision-private.h"

G_BEGIN_DECLS

/* Where one panel lies in the flat coordinates of the other, both ways. */
typedef struct
{
  CwRigid place[2]; /* a in b's, b in a's */
} CwRelative;

typedef struct
{
  CwVec3 at[3]; /* in the other's coordinates, at the span's moments; z is the distance from its plane */
  int side;     /* -1, 1: where it last stood clearly; 0: not known */
  double last;  /* when */
} CwCorner;

typedef struct
{
  guint i, k; /* edges of a and b, by their first corners */
  double f[3];
  int side;
  double last;
} CwEdgePair;

struct CwPairWork
{
  CwPairAsk ask;
  gboolean fresh, moved;
  gboolean blurred[3]; /* at the span's moments: the motion tells no side */
  const CwCollisionSheet *sheets[2];
  guint panels[2];
  guint room[2];
  CwCorner *corners[2];
  GArray *edges, *next_edges; /* of CwEdgePair, by i, then k */
  GArray *active[2];          /* of guint: edges that may meet the other's plane */
  gboolean has_before;
  CwRelative before;
  const CwMoment *last; /* the moment `last_relative` is of; NULL: none yet */
  CwRelative last_relative;
  int side;          /* of b's plane on which a began, in b's coordinates; 0: not known */
  gboolean same_way; /* both with the front up, or both not */
  gboolean found;
  CwCollision hit;
};

/* Corner i of sheet w in the other's coordinates. */
static inline CwVec3
cw_pair_place_corner (const CwPairWork *work, const CwRelative *rel, guint w, guint i)
{
  return cw_rigid_apply (&rel->place[w], cw_vec3 (work->sheets[w]->x[i], work->sheets[w]->y[i], 0));
}

static inline int
cw_pair_side_of (double f, double band)
{
  return f > band ? 1 : f < -band ? -1 : 0;
}

/* How far a value may stray from straight lines between its three looks: four times what it does if it is a parabola.
 */
static inline double
cw_pair_stray (const double *f)
{
  return fabs (f[0] - 2 * f[1] + f[2]) / 2;
}

static inline double
cw_pair_stray_of (const CwVec3 *at)
{
  CwVec3 bend = cw_vec3_add (cw_vec3_sub (at[0], cw_vec3_scale (at[1], 2)), at[2]);

  return cw_vec3_length (bend) / 2;
}

/* cw-collision-side.c: sides at the beginning, and the moment of a crossing. */
void cw_pair_learn_side (CwPairWork *work, const CwRelative *rel);
int cw_pair_side_before (const CwPairWork *work, guint w, guint i, guint k);
gboolean cw_pair_may_hide (const double *f, int side, double band);
double cw_pair_find_moment (CwPairWork *work, guint w, guint i, guint k, double t0, double t1, CwRelative *rel);
void cw_pair_note_hit (CwPairWork *work, double t, const CwRelative *rel, guint face, CwVec3 where);

/* cw-collision-corner.c: corners of one against the face of the other. */
gboolean cw_pair_place_corners (CwPairWork *work, const CwRelative *rel);
void cw_pair_begin_corners (CwPairWork *work, double t);
gboolean cw_pair_corners_may_hide (const CwPairWork *work);
void cw_pair_follow_corners (CwPairWork *work, const CwSpan *span);

/* cw-collision-edge.c: edges against edges. */
CwLines cw_pair_lines_at (const CwPairWork *work, const CwRelative *rel, guint i, guint k);
CwLines cw_pair_lines_in_span (const CwPairWork *work, guint look, guint i, guint k);
void cw_pair_list_edges (CwPairWork *work, double t);
gboolean cw_pair_edges_may_hide (const CwPairWork *work);
void cw_pair_follow_edges (CwPairWork *work, const CwSpan *span);

CwRelative cw_pair_relative_at (CwPairWork *work, double t);

G_END_DECLS
