/* cw-look-alike.h: measures of one card that are easily taken for one another.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "trim/cw-trimmer.h"

G_BEGIN_DECLS

typedef struct
{
  CwLength a, b; /* the shorter first */
} CwLookAlike;

gboolean cw_lengths_look_alike (CwLength a, CwLength b);
/* measures: of CwLength. Returns: (transfer full): of CwLookAlike, in the order of the measures. */
GArray *cw_look_alikes_find (const GArray *measures);
/* At most one finding, a note, of all pairs among the measures a page prints: of CwFinding. */
GPtrArray *cw_look_alikes_tell (const CwDesign *design);

G_END_DECLS
