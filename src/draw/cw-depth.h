/* cw-depth.h: in which order the panels of the folded card are painted, farthest first.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "contact/cw-flat-state.h"
#include "cw-facet.h"

G_BEGIN_DECLS

/* Cuts a part of a panel may have, as many again for what it is painted within. */
#define CW_DEPTH_CUTS 4

/* One thing to paint: a whole panel, or that part of it that lies within the cuts (where sheets pierce one another, in
 * view coordinates, ticks); or, where panels lie over one another in a ring, once more that part of it that lies within
 * the panel `within`. */
typedef struct
{
  guint panel;
  guint within; /* G_MAXUINT: anywhere */
  guint n_cuts;
  CwCut cuts[2 * CW_DEPTH_CUTS];
} CwPaint;

typedef struct CwDepth CwDepth;

CwDepth *cw_depth_new (const CwMotion *motion, const CwFlatStates *states);
void cw_depth_free (CwDepth *depth);
/* view: space to x right, y down, z away from the eye. Returns: borrowed array of n_paints, good until the next call.
 */
const CwPaint *cw_depth_order (CwDepth *depth, const CwPose *pose, guint step, double fraction, const CwRigid *view,
                               guint *n_paints);

gboolean cw_paint_keeps (const CwPaint *paint, double x, double y); /* view coordinates: within its cuts */

G_DEFINE_AUTOPTR_CLEANUP_FUNC (CwDepth, cw_depth_free)

G_END_DECLS
