/* cw-flat-state.h: how the paper lies in a flat rest state: cells, each with its stack of layers, sizes and thickness.
 *
 * A cell is a region of the held plane over which the same panels lie. Coordinates are ticks of the held panel's own
 * flat coordinates, rounded to the tick grid. Stacks run from top to bottom as seen from -z, in front of the held
 * panel.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "fold/cw-motion.h"

G_BEGIN_DECLS

typedef struct
{
  guint panel;    /* index through the design */
  CwFace face_up; /* the face that looks to -z */
} CwLayer;

typedef struct
{
  CwPolygon outline;
  gint64 area2; /* twice, square ticks */
  CwPoint inside;
  guint n_layers;
  CwLayer *layers;  /* top to bottom */
  double thickness; /* ticks: papers' calipers and foam */
} CwCell;

typedef struct
{
  guint step;
  gboolean flat;    /* FALSE: nothing else is filled */
  GArray *cells;    /* of CwCell, stable order */
  gint32 box[4];    /* left, top, right, bottom, ticks */
  double thickness; /* the most, ticks */
  CwPoint thickest;
  CwKnown known; /* how the order is known: NUMERIC from the motion; BOUNDED: one of several that the motion leaves
                  * open; NOT_DECIDED over the search limit */
} CwFlatState;

/* All rest states of a motion, in step order, with what is wrong with them. Immutable once made. */
typedef struct CwFlatStates CwFlatStates;
CwFlatStates *cw_flat_states_new (CwMotion *motion);
CwFlatStates *cw_flat_states_new_cancellable (CwMotion *motion, GCancellable *cancellable); /* NULL when cancelled */
CwFlatStates *cw_flat_states_ref (CwFlatStates *states);
void cw_flat_states_unref (CwFlatStates *states);
CwMotion *cw_flat_states_get_motion (const CwFlatStates *states); /* borrowed */
const CwFlatState *cw_flat_states_get (const CwFlatStates *states, guint step);
GPtrArray *cw_flat_states_get_findings (const CwFlatStates *states); /* of CwFinding, borrowed */
/* -1: a lies above b (nearer to -z) where both lie at this step's end; 1: below; 0: they do not overlap or it is not
 * known. Also where the state is not flat and the two lie in one plane: then as seen with the front up of the held
 * panel if it lies there too, else of the lowest panel that does. step G_MAXUINT: before the first. */
int cw_flat_states_compare (const CwFlatStates *states, guint step, guint panel_a, guint panel_b);
/* The same, told by the paper itself: 1: b lies on a's front; -1: on a's back; 0 as above. */
int cw_flat_states_side (const CwFlatStates *states, guint step, guint panel_a, guint panel_b);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (CwFlatStates, cw_flat_states_unref)

G_END_DECLS
