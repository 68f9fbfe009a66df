/* cw-engine.h: the one door to the polygon engine (GEOS); for cw-region.c and cw-edges.c only.
 *
 * Every call of theirs makes and ends its own engine context, so all of it is safe on any thread.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#define GEOS_USE_ONLY_R_API 1

#include "geometry/cw-polygon.h"

#include <geos_c.h>

G_BEGIN_DECLS

void cw_engine_destroy (GEOSContextHandle_t engine, GEOSGeometry *geometry);
GEOSCoordSequence *cw_engine_points (GEOSContextHandle_t engine, const CwPoint *points, guint n_points,
                                     gboolean closed);
GEOSGeometry *cw_engine_line (GEOSContextHandle_t engine, CwPoint a, CwPoint b);
GArray *cw_engine_take_polygons (GEOSContextHandle_t engine, const GEOSGeometry *geometry,
                                 void (*put_in_order) (CwPolygon *));

G_END_DECLS
