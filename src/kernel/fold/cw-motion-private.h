/* cw-motion-private.h: what cw-motion.c (asking) and cw-motion-walk.c (making) share.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "fold/cw-assembly.h"
#include "fold/cw-motion.h"

G_BEGIN_DECLS

typedef struct
{
  CwMotionState state;
  guint before, after; /* indices into assemblies: within the step, and at its end */
  CwTrace *trace;      /* NULL: stands still */
  double *end;         /* n_hinges: angles at the end, radians */
  gboolean *moves;     /* n_panels */
  gboolean freedom_not_decided;
} CwMotionStep;

struct CwMotion
{
  CwPanelSet *set;
  guint held;
  guint n_panels, n_hinges, n_steps;
  CwMotionState start;
  CwMotionStep *steps;
  double *flat;          /* n_hinges zeros: before the first step */
  GPtrArray *assemblies; /* of CwAssembly */
  GPtrArray *findings;   /* of CwFinding */
  double give;           /* ticks */
  gint64 effort;         /* what its loops cost (cw-effort.h) */
};

const double *cw_motion_angles_before (const CwMotion *motion, guint step);
void cw_motion_place (const CwMotion *motion, const CwAssembly *assembly, CwLinkageWork *work, const double *rho,
                      CwRigid *bodies, CwPose *pose);

G_END_DECLS
