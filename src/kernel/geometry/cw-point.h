/* cw-point.h: points, rings, polygons and regions of flat paper.
 *
 * All coordinates are ticks (1/320 mm = 1/8128 inch), x to the right and y down, front face up. Everything here is
 * exact: sheets are at most CW_COORDINATE_MAX ticks from the origin, so products of two differences fit 64 bits with
 * room.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* Largest coordinate of a design, in ticks: 60 inches, the largest sheet the program takes. */
#define CW_COORDINATE_MAX (60 * 8128)

typedef struct
{
  gint32 x; /* ticks, to the right */
  gint32 y; /* ticks, down */
} CwPoint;

/* A closed ring; the last point is not a repeat of the first. */
typedef struct
{
  guint n_points;
  CwPoint *points; /* owned */
} CwRing;

/* rings[0] is the outer ring, the others are holes. Shoelace sums (x right, y down): outer positive, holes negative. */
typedef struct
{
  guint n_rings;
  CwRing *rings; /* owned */
} CwPolygon;

/* Any number of polygons that do not overlap. */
typedef struct
{
  guint n_polygons;
  CwPolygon *polygons; /* owned */
} CwRegion;

static inline CwPoint
cw_point (gint32 x, gint32 y)
{
  return (CwPoint){ x, y };
}

static inline gboolean
cw_point_equal (CwPoint a, CwPoint b)
{
  return a.x == b.x && a.y == b.y;
}

/* The order of points: from left to right, then from top to bottom. */
static inline int
cw_point_compare (CwPoint a, CwPoint b)
{
  if (a.x != b.x)
    return a.x < b.x ? -1 : 1;
  return a.y < b.y ? -1 : a.y > b.y;
}

/* Twice the signed area of the triangle a, b, c in square ticks. With y down the sign is positive when c lies to the
 * right of the way from a to b as seen with the front face up. Exact. */
static inline gint64
cw_point_orient (CwPoint a, CwPoint b, CwPoint c)
{
  return ((gint64) b.x - a.x) * ((gint64) c.y - a.y) - ((gint64) b.y - a.y) * ((gint64) c.x - a.x);
}

G_END_DECLS
