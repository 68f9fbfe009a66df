/* cw-collision.h: does paper pass through paper while the card moves? The first place, angle and moment for every pair.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <gio/gio.h>

#include "contact/cw-flat-state.h"

G_BEGIN_DECLS

typedef enum
{
  CW_COLLISION_PIERCE,
  CW_COLLISION_PASS_THROUGH
} CwCollisionKind;

typedef struct
{
  CwCollisionKind kind;
  guint step;
  double fraction;        /* of the step at first contact */
  guint panel_a, panel_b; /* indices through the design, a < b */
  CwVec3 at;              /* ticks, held panel's space */
} CwCollision;

/* First collision of every pair of panels in every step, in step, fraction, panel order. `states` may be NULL. May be
 * cancelled between units of work: then what was found so far.
 * Returns: (transfer full): GArray of CwCollision. */
GArray *cw_collisions_find (CwMotion *motion, const CwFlatStates *states, GCancellable *cancellable);
/* One finding a step: the first collision named, the other pairs listed. Returns: (transfer full): GPtrArray of
 * CwFinding. */
GPtrArray *cw_collisions_tell (CwMotion *motion, const GArray *collisions);

G_END_DECLS
