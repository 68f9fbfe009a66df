/* cw-four-bar.h: four panels in a ring, as in a box or a V fold, and the bars between their fold lines.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "fold/cw-assembly.h"

G_BEGIN_DECLS

typedef struct
{
  guint d, a, c, b;  /* hinges; C is opposite to D */
  gboolean at_point; /* the axes meet in a point: bars are angles in degrees, else lengths in ticks */
  double p, q, r, s; /* bars DA, DB, AC, BC */
  double ab;         /* distance AB where the ring stands now */
  double off;        /* how far ab is from the nearer of r + s and |r - s|, as a share of r + s */
} CwFourBar;

gboolean cw_four_bar_find_dead (const CwPanelSet *set, const CwAssembly *assembly, CwLinkageWork *work,
                                const double *rho, guint block, const gboolean *driven, CwFourBar *bars);

G_END_DECLS
