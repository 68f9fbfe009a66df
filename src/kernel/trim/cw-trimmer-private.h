/* cw-trimmer-private.h: the order of moves, knowing nothing of papers; for the trimmer and its tests.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "trim/cw-trimmer.h"

G_BEGIN_DECLS

/* One way to lay the sheet and set the stop for a line. */
typedef struct
{
  guint lie;   /* which way the sheet lies: edge against the guide and face up, as one number */
  gint32 stop; /* on the rule */
  guint rank;  /* of ways that cost the same, the lower is taken; up to 3 */
} CwTrimWay;

#define CW_TRIM_WAYS_MAX 8

/* All that is made with the stop at one place: any of its ways will do. */
typedef struct
{
  guint n_ways;
  CwTrimWay ways[CW_TRIM_WAYS_MAX];
} CwTrimLine;

/* One taking of a line in the order. */
typedef struct
{
  guint stage, line, way;
} CwTrimPick;

/* What a change of sheet or stop costs; ranks and going back on the rule only decide between equals. */
#define CW_TRIM_CHANGE 1024

static inline guint
cw_trim_changes (CwTrimWay a, CwTrimWay b)
{
  return (a.lie != b.lie) + (a.stop != b.stop);
}

static inline guint
cw_trim_cost (const CwTrimWay *before, CwTrimWay way)
{
  if (before == NULL)
    return way.rank;
  return CW_TRIM_CHANGE * cw_trim_changes (*before, way) + way.rank
         + (before->lie == way.lie && way.stop < before->stop);
}

/* stages: of GArray of CwTrimLine; made one after the other. Returns: (transfer full): of CwTrimPick; cost (out): of
 * the order, in the measure of cw_trim_cost(); least (out): whether it is proved to be the least. */
GArray *cw_trim_order (GPtrArray *stages, guint *cost, gboolean *least);

G_END_DECLS
