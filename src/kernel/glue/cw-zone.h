/* cw-zone.h: glue zones in the kernel's numbers: which panels carry them, from when on they stick, what they are meant
 * to hold, how far they creep.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "geometry/cw-region.h"
#include "panel/cw-panel-map.h"

G_BEGIN_DECLS

/* The part of a zone on one panel. */
typedef struct
{
  guint panel;    /* through the design */
  CwRegion where; /* the piece's flat coordinates */
} CwZonePart;

/* One thing a zone is meant to hold. */
typedef struct
{
  guint piece;
  guint panel; /* through the design; G_MAXUINT: the panels of the piece it meets first */
} CwZoneTarget;

typedef struct
{
  const CwGlue *glue; /* borrowed from the design */
  guint piece;        /* that carries it; G_MAXUINT: none, and no parts */
  guint live;         /* the step from whose end on it sticks; G_MAXUINT: never */
  guint panel;        /* that carries most of it, through the design; G_MAXUINT: none */
  gint64 area2;       /* of all parts, twice, square ticks */
  guint n_parts;
  CwZonePart *parts; /* by panel */
  guint n_targets;
  CwZoneTarget *targets;
} CwZone;

/* All zones of a design, in file order. Returns: (transfer full) GArray of CwZone; the set must outlive it. */
GArray *cw_zones_new (const CwPanelSet *set);

gint32 cw_glue_kind_get_creep (CwGlueKind kind); /* ticks */

/* Parts narrower than glue is laid by hand are left out; what is left is wide enough to hold. */
CwRegion cw_glue_region_take_wide (const CwRegion *region);

G_END_DECLS
