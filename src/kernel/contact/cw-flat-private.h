/* cw-flat-private.h: what the files that make up cw-flat-state.h share; of the contact room only.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "contact/cw-cluster.h"
#include "contact/cw-flat-state.h"

G_BEGIN_DECLS

struct CwFlatStates
{
  CwMotion *motion;
  guint n_steps;
  CwFlatState *states;
  CwClusters **clusters; /* n_steps + 1; the first is before all steps */
  GPtrArray *findings;   /* of CwFinding */
};

/* What every panel adds to the card's thickness in one flat state. */
typedef struct
{
  const CwPanelSet *set;
  double *caliper; /* n_pieces, ticks */
  double *foam;    /* n_panels: of the foam it lies on, ticks */
  double *counted; /* n_pieces: scratch */
} CwThick;

CwThick *cw_thick_new (const CwMotion *motion, guint step);
void cw_thick_free (CwThick *thick);
double cw_thick_add (CwThick *thick, const guint *panels, guint n_panels);

void cw_flat_state_measure_thickness (const CwMotion *motion, CwFlatState *state);
void cw_flat_states_tell_size (CwFlatStates *states, guint step, const CwCluster *cluster);
void cw_flat_states_tell_tucks (CwFlatStates *states);
void cw_flat_states_tell (CwFlatStates *states);
void cw_flat_tell_order (CwFlatStates *states, guint step, const CwCluster *cluster);
void cw_flat_states_tell_layers (CwFlatStates *states);

CwFinding *cw_flat_new_finding (const CwFlatStates *states, CwFindingCode code, guint step, CwKnown known);
const char *cw_flat_step_name (const CwFlatStates *states, guint step);
void cw_flat_add_panel (CwFinding *finding, const CwFlatStates *states, guint index);
char *cw_flat_length (const CwFlatStates *states, double ticks);

G_END_DECLS
