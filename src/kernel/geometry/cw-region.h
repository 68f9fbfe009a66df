/* cw-region.h: regions of paper: overlay, growing and shrinking.
 *
 * Everything in and out is on the tick grid. Every call makes and ends its own engine context, so all of this is safe
 * on any thread.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "geometry/cw-polygon.h"

G_BEGIN_DECLS

typedef enum
{
  CW_OVERLAY_UNION,
  CW_OVERLAY_INTERSECTION,
  CW_OVERLAY_DIFFERENCE
} CwOverlay;

CwRegion cw_region_overlay (const CwRegion *a, const CwRegion *b, CwOverlay what);
CwRegion cw_region_join (const CwPolygon *polygons, guint n_polygons);
CwRegion cw_region_grow (const CwRegion *region, gint32 by_ticks); /* negative shrinks; corners mitred */
CwRegion cw_region_open (const CwRegion *region, gint32 by_ticks);

G_END_DECLS
