/* cw-glue-shape.h: where glue goes on a face, as people put it there: all over, a rim, corners, a strip, dots.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "design/cw-design.h"
#include "geometry/cw-polygon.h"

G_BEGIN_DECLS

typedef enum
{
  CW_GLUE_SHAPE_ALL_OVER,
  CW_GLUE_SHAPE_RIM,     /* `size` wide, along all edges, those of windows too */
  CW_GLUE_SHAPE_CORNERS, /* `size` along both edges of every corner of the outline */
  CW_GLUE_SHAPE_STRIP,   /* `size` wide, along the edge nearest to `along` */
  CW_GLUE_SHAPE_DOTS,    /* round, `size` across, `spacing` from centre to centre */
} CwGlueShape;

typedef struct
{
  CwGlueShape shape;
  gint32 inset;   /* all of it stays this far from every edge, ticks */
  gint32 size;    /* ticks */
  gint32 spacing; /* ticks */
  CwPoint along;  /* ticks, the piece's front coordinates */
} CwGluePlan;

/* The most zones one wish may make. */
#define CW_GLUE_SHAPE_MOST 100

GPtrArray *cw_glue_shape_outline (const CwPolygon *paper, const CwGluePlan *plan, CwUnit unit, gint32 snap);
GPtrArray *cw_glue_shape_from_region (const CwRegion *region, CwUnit unit, gint32 snap);

G_END_DECLS
