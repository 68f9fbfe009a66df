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
/* Measures of which one may be set in place of the other. moves (optional): one for each move, set to TRUE where one of
 * its measures is such. Returns: (transfer full): of CwLookAlike, each pair once, smallest first. */
GArray *cw_look_alikes_find (const CwTrimming *trimming, const CwDesign *design, gboolean *moves);
/* At most one finding, a note, of all such pairs: of CwFinding. */
GPtrArray *cw_look_alikes_tell (const CwTrimming *trimming, const CwDesign *design);

G_END_DECLS
