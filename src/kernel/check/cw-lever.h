/* cw-lever.h: how far a miss of the hand shows on the finished card.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "check/cw-analysis.h"
#include "check/cw-miss.h"

G_BEGIN_DECLS

/* The corner of the card that lies farthest from where it should, at the end of a step. */
typedef struct
{
  CwMiss *miss; /* owned */
  double shows; /* ticks, for a miss of the design's `hand`; 0: nothing is known */
  guint step;
  guint panel; /* through the design */
  CwPoint at;  /* the corner, in its piece's flat coordinates */
} CwLever;

void cw_lever_free (CwLever *lever);
/* Looks at the card as it comes out, and keeps what lies farthest from where it should. */
void cw_lever_look (CwLever *lever, const CwAnalysis *drawn, const CwAnalysis *made, gint32 hand);
/* "The score “spine”: 1/32 in off shows as 1/16 in on the left door after “Close”." */
char *cw_lever_dup_text (const CwLever *lever, const CwAnalysis *analysis, gboolean translated);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (CwLever, cw_lever_free)

G_END_DECLS
