/* cw-pile.h: panels laid on one another in one plane, cut up into cells over which the same panels lie; of the
 * contact room and its tests only.
 *
 * Panels are numbered here by their place in the list handed in ("members"). Coordinates are ticks of the plane.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "geometry/cw-polygon.h"
#include "geometry/cw-vector.h"

G_BEGIN_DECLS

/* One panel as it lies. */
typedef struct
{
  const CwPolygon *outline; /* flat, borrowed */
  CwRigid place;            /* flat to plane */
} CwLaid;

static inline gboolean
cw_laid_is_turned (const CwLaid *laid)
{
  return laid->place.r[2][2] < 0; /* its back looks to -z */
}

/* Where a flat point comes to in the plane, on ticks. */
static inline CwPoint
cw_laid_point (const CwLaid *laid, CwPoint p)
{
  CwVec3 at = cw_rigid_apply (&laid->place, cw_vec3 (p.x, p.y, 0));

  return cw_point ((gint32) lround (at.x), (gint32) lround (at.y));
}

/* A straight stretch along which two members hang together. */
typedef struct
{
  guint a, b;      /* members */
  guint hinge;     /* the caller's number */
  CwPoint p, q;    /* plane */
  gboolean folded; /* both on one side of it; else one sheet that goes on */
  int fronts;      /* folded: +1 the fronts meet, -1 the backs, 0 either */
} CwSeam;

typedef struct
{
  CwPolygon outline;
  gint64 area2; /* twice, square ticks */
  CwPoint inside;
  guint n_members;
  guint *members; /* growing, until someone puts them in order: then from -z to +z */
} CwPileCell;

/* One edge of the cut-up plane from its left (then upper) end a. */
typedef struct
{
  CwPoint a, b;
  guint cell[2];             /* left, right as seen walking from a to b with y down; G_MAXUINT: none */
  guint first_seam, n_seams; /* into seam_list: seams that lie along it */
} CwPileEdge;

typedef struct
{
  guint n_members, n_seams;
  CwLaid *members;
  CwSeam *seams;
  GArray *cells;     /* of CwPileCell, in reading order */
  GArray *edges;     /* of CwPileEdge, sorted by place */
  GArray *seam_list; /* of guint */
  guint *first_of;   /* n_members + 1: into cells_of */
  guint *cells_of;   /* cells of each member, growing */
} CwPile;

CwPile *cw_pile_new (const CwLaid *members, guint n_members, const CwSeam *seams, guint n_seams);
void cw_pile_free (CwPile *pile);
GArray *cw_pile_find_lines (const CwLaid *members, guint n_members);
guint cw_pile_find_cell (const CwPile *pile, double x, double y);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (CwPile, cw_pile_free)

G_END_DECLS
