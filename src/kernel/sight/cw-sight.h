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
/* The same at any moment and from anywhere: areas as projected along the direction in which the eye looks; (0, 0, 1) is
 * the viewer at -z. states may be NULL: they decide between panels in one plane. step G_MAXUINT: before the first.
 * Returns: (transfer full) GArray of CwSeen. */
GArray *cw_sight_from (const CwMotion *motion, const CwFlatStates *states, guint step, const CwPose *pose,
                       CwVec3 direction);
/* Findings of all wants and art over all labelled states. Returns: (transfer full) GPtrArray of CwFinding. */
GPtrArray *cw_sight_tell (CwMotion *motion, const CwFlatStates *states);

G_END_DECLS
