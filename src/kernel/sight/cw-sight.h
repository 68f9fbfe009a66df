/* cw-sight.h: what the reader sees of the card from the front, the back or any side, and what that says about the
 * wants.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "contact/cw-flat-state.h"

G_BEGIN_DECLS

typedef struct
{
  guint panel; /* index through the design */
  CwFace face;
  gint64 area2; /* twice, square ticks */
} CwSeen;

/* What shows in a flat rest state. from FRONT: a viewer at -z, BACK: at +z. Returns: (transfer full) GArray of CwSeen.
 */
GArray *cw_sight_flat (const CwFlatState *state, CwFace from);
/* Findings of all wants and art over all labelled states. Returns: (transfer full) GPtrArray of CwFinding. */
GPtrArray *cw_sight_tell (CwMotion *motion, const CwFlatStates *states);

G_END_DECLS
