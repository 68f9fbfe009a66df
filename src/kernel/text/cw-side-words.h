/* cw-side-words.h: what a face is called on screen and page: "drawn side (inside when closed)".
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "check/cw-analysis.h"

G_BEGIN_DECLS

/* Inside or outside is read from the closed state of the motion and left out when there is none or when it is both. */
typedef enum
{
  CW_SIDE_UNKNOWN,
  CW_SIDE_INSIDE,
  CW_SIDE_OUTSIDE
} CwSide;
CwSide cw_side_find (const CwAnalysis *analysis, guint piece, CwFace face);
const char *cw_side_get_words (const CwAnalysis *analysis, guint piece, CwFace face);

/* The step after which the card is closed: the last labelled so, else the last of those wanted flat; G_MAXUINT: none.
 */
guint cw_find_closed_step (const CwAnalysis *analysis);

G_END_DECLS
