/* cw-draw-sheet-private.h: the parts a flat sheet is drawn from.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "cw-draw-sheet.h"
#include "cw-draw-trace.h"

G_BEGIN_DECLS

/* Sizes on the sheet, output units. */
#define CW_SHEET_TEXT 12.0
#define CW_SHEET_FIGURE 11.0
#define CW_SHEET_MARGIN_LEFT 60.0
#define CW_SHEET_MARGIN_TOP 40.0
#define CW_SHEET_MARGIN 18.0

/* Everything the parts need; lives for one drawing. */
typedef struct
{
  CwDrawList *list;
  const CwAnalysis *analysis;
  const CwPanelMap *map;
  const CwDesign *design;
  guint piece;
  const CwSheetView *view;
  const CwSheetLook *look;
  CwFace up;
  guint32 paper; /* colour of the face that is up */
  double box[4]; /* the paper on the output */
  CwFlat flat;   /* piece coordinates to the output */
} CwSheetPlay;

static inline CwId
cw_id (CwIdKind kind, guint piece, guint index, guint part)
{
  return (CwId){ kind, piece, index, part };
}

/* An arrow with its middle at a place, turned clockwise from up, degrees. */
void cw_draw_arrow (CwDrawList *list, CwPen pen, CwId id, double x, double y, double turn, double length);
CwFlat cw_sheet_view_get_flat (const CwSheetView *view, const CwPanelMap *map);
void cw_sheet_draw_glue_map (const CwSheetPlay *play);
double cw_sheet_draw_glue_words (const CwSheetPlay *play, double x, double y);
guint cw_sheet_glue_pens (const CwSheetPlay *play);
void cw_sheet_draw_art (const CwSheetPlay *play);
void cw_sheet_draw_names (const CwSheetPlay *play);
void cw_sheet_draw_hold (const CwSheetPlay *play);
void cw_sheet_draw_rulers (const CwSheetPlay *play);
void cw_sheet_draw_measures (const CwSheetPlay *play, const CwMark *item, guint mark, guint n_before);
/* The pen of a mark as seen with this face up: what folds toward on one side folds away on the other. */
CwPen cw_mark_get_pen (const CwMark *mark, CwFace up);

G_END_DECLS
