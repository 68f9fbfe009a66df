/* cw-drawing-fault.h: the rules that look for faults in the drawing of one piece; of the panel room only.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "panel/cw-panel-map.h"
#include "panel/cw-sheet.h"

G_BEGIN_DECLS

/* What the rules look at: one piece's drawing and what became of it. */
typedef struct
{
  const CwDesign *design;
  const CwSheet *sheet;
  const CwPanelMap *map;
  const guint *panel_of_face; /* G_MAXUINT for faces that are no paper */
  const guint *hinge_of_edge; /* G_MAXUINT for edges that are no part of a hinge */
  GPtrArray *findings;        /* of CwFinding: where new ones go */
} CwDrawing;

void cw_drawing_check_marks (const CwDrawing *drawing);      /* off-sheet, marks-overlap, not-simulated */
void cw_drawing_check_snap (const CwDrawing *drawing);       /* off-snap */
void cw_drawing_check_score_ends (const CwDrawing *drawing); /* score-stops-short */
void cw_drawing_check_loose (const CwDrawing *drawing);      /* piece-falls-out */
void cw_drawing_check_strips (const CwDrawing *drawing);     /* thin-strip */
void cw_drawing_check_bridges (const CwDrawing *drawing, const GArray *told);
void cw_drawing_check_grain (const CwDrawing *drawing);  /* against-grain */
void cw_drawing_check_points (const CwDrawing *drawing); /* will-not-fold-flat */

const CwMark *cw_drawing_get_mark (const CwDrawing *drawing, guint mark);
char *cw_drawing_say_length (const CwDrawing *drawing, double ticks);
CwFinding *cw_drawing_add (const CwDrawing *drawing, CwFindingCode code, CwPoint at);

G_END_DECLS
