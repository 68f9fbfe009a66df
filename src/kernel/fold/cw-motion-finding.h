/* cw-motion-finding.h: what the motion of a step has to say to the maker. Only for cw-motion.c and tests.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "fold/cw-assembly.h"

G_BEGIN_DECLS

/* One traced step and all that is needed to speak about it. Nothing here is owned. */
typedef struct
{
  const CwPanelSet *set;
  const CwAssembly *assembly; /* during the step */
  CwLinkageWork *work;        /* of assembly->linkage */
  const CwStep *step;
  const CwDrive *drives;
  guint n_drives;
  const CwTraceResult *result;
  const double *end; /* n_hinges: angles where the step ended, radians */
  double give_ticks;
} CwMotionTold;

void cw_motion_tell_trace (const CwMotionTold *told, GPtrArray *findings);
void cw_motion_tell_two_angles (const CwPanelSet *set, const CwStep *step, guint hinge, double first_rad,
                                double second_rad, GPtrArray *findings);
void cw_motion_tell_not_there (const CwPanelSet *set, const CwStep *step, guint host, guint laid, double off_ticks,
                               GPtrArray *findings);

void cw_motion_tell_not_free (const CwPanelSet *set, const CwAssembly *assembly, const CwStep *step,
                              GPtrArray *findings);

G_END_DECLS
