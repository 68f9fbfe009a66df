/* cw-hand.h: what a hand does on the table: aim at a place of the sheet, slide and stretch marks, shift and turn views.
 *
 * The window's pointer handling asks here, so that it holds no geometry of its own. Flat places are ticks in the
 * piece's own coordinates; output places are logical pixels. Nothing here allocates except where it says so.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "cw-draw-card.h"
#include "cw-draw-sheet.h"

G_BEGIN_DECLS

/* Where the hand means to be. */
typedef struct
{
  CwPoint at;              /* piece coordinates */
  const char *word;        /* msgid of what holds the place there; NULL: nothing in particular */
  gboolean upright, level; /* straight against the place it came from, as the sheet lies */
} CwAim;

CwAim cw_hand_aim (const CwSheetView *view, const CwPanelMap *map, gint32 step_ticks, double ox, double oy,
                   double reach, const CwPoint *from, gboolean slant);

/* The place as the maker measures it: from the guide (left) and ruler (top) edge of the sheet as it lies. */
void cw_hand_measure (const CwSheetView *view, const CwPanelMap *map, CwPoint at, gint32 *across, gint32 *down);
/* The piece's own way for one step to the right or down as the sheet lies. */
CwPoint cw_hand_lying_step (CwLie lie, int right, int down);

/* mark takes the places of `from`, shifted; with the unit of each kept. Both have the same vertices. */
void cw_hand_slide_mark (CwMark *mark, const CwMark *from, CwPoint by);
/* One handle of a mark, numbered as CW_ID_MARK_END is, put at a place. */
void cw_hand_stretch_mark (CwMark *mark, guint part, CwPoint at, CwUnit unit);
/* How far a mark shifts when its nearest vertex to `held` goes where the hand aims. */
CwPoint cw_hand_shift (const CwMark *mark, CwPoint held, CwPoint to, gint32 step_ticks);
/* As much of a shift as leaves the mark on the sheet. */
CwPoint cw_hand_keep_on_sheet (const CwPanelMap *map, const CwMark *mark, CwPoint by);

/* A mark's line, or a panel's outline, as one item of a list. */
void cw_hand_trace_mark (CwDrawList *list, CwPen pen, CwId id, const CwSheetView *view, const CwPanelMap *map,
                         const CwMark *mark);
void cw_hand_trace_panel (CwDrawList *list, CwPen pen, CwId id, const CwSheetView *view, const CwPanelMap *map,
                          guint panel);
/* Output box (left, top, right, bottom) of a mark, a panel, or with G_MAXUINT the whole piece. */
void cw_hand_mark_box (const CwSheetView *view, const CwPanelMap *map, const CwMark *mark, double box[4]);
void cw_hand_panel_box (const CwSheetView *view, const CwPanelMap *map, guint panel, double box[4]);

/* Whether any of a mark's line lies in an output box (left, top, right, bottom). */
gboolean cw_hand_mark_touches (const CwSheetView *view, const CwPanelMap *map, const CwMark *mark, const double box[4]);

/* Curves. The third place of an arc between two ends: over the middle between them, as high as the hand is. */
CwAim cw_hand_aim_rise (const CwSheetView *view, const CwPanelMap *map, gint32 step_ticks, double ox, double oy,
                        double reach, CwPoint a, CwPoint b);
gint32 cw_hand_radius (CwPoint centre, const CwAim *aim, gint32 step_ticks);
/* How far an arc drawn by one mark rises over the straight between its ends, ticks; -1 for what is no arc. */
gint32 cw_hand_arc_depth (const CwMark *mark);

/* Views: the output place stays where it is while everything grows by factor. */
void cw_hand_zoom_sheet (CwSheetView *view, double factor, double ox, double oy);
void cw_hand_zoom_card (CwCamera *camera, double factor, double ox, double oy);
/* Looking from elsewhere: as if the card stood on a turntable dragged by dx and tipped by dy pixels. */
void cw_hand_turn_card (CwCamera *camera, double dx, double dy);
/* Between two looks, share 0 to 1, the short way round. */
void cw_hand_between (CwCamera *camera, const CwCamera *from, const CwCamera *to, double share);

G_END_DECLS
