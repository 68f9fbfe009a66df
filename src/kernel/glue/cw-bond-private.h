/* cw-bond-private.h: what the files that make up cw-bond.c share; of the glue room only.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "glue/cw-bond.h"

G_BEGIN_DECLS

/* What is known of one zone beside its drawing. */
typedef struct
{
  gboolean *intended; /* n_panels */
  gboolean *resolved; /* n_targets: a piece named alone has been met */
  CwRegion *done;     /* n_parts: has become a bond */
  CwRegion *air;      /* n_parts: nothing lay there when it began to stick */
} CwZoneFate;

struct CwBonds
{
  CwPanelSet *set;
  guint n_panels, n_steps;
  GArray *zones; /* of CwZone */
  CwZoneFate *fates;
  GArray *rows;     /* of CwGlued */
  CwMotion *free;   /* without any glue: stuck pieces ride on their hosts */
  CwMotion *motion; /* with all bonds; may be the same */
  CwFlatStates *states;
  GPtrArray *findings;       /* of CwFinding */
  gboolean *shut;            /* n_steps: glue stops the step, and that is told */
  gboolean *told;            /* n_zones: strays are told with what they shut */
  GCancellable *cancellable; /* while it is being made */
};

/* Which rows a trial motion keeps. */
typedef gboolean (*CwRowKept) (const CwBonds *bonds, const CwGlued *row, guint zone);

CwMotion *cw_bonds_try (const CwBonds *bonds, CwRowKept kept, guint zone);
void cw_bonds_tell_shut (CwBonds *bonds);
void cw_bonds_tell_strays (CwBonds *bonds);
void cw_bonds_tell_bridges (CwBonds *bonds);
void cw_bonds_tell_care (CwBonds *bonds);

CwFinding *cw_bonds_new_finding (const CwBonds *bonds, CwFindingCode code, guint step, CwKnown known);
const char *cw_bonds_step_name (const CwBonds *bonds, guint step);
const char *cw_bonds_piece_name (const CwBonds *bonds, guint piece);
char *cw_bonds_area_text (const CwBonds *bonds, double sq_ticks);
char *cw_bonds_length_text (const CwBonds *bonds, double ticks);
void cw_bonds_set_at_row (const CwBonds *bonds, CwFinding *finding, const CwGlued *row);

G_END_DECLS
