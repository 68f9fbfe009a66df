/* cw-draw-sheet.h: a piece lying flat, with its marks, names, measures and ruler.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "check/cw-analysis.h"
#include "cw-draw-list.h"
#include "text/cw-measure-line.h"

G_BEGIN_DECLS

/* How the flat piece lies on the output: turned and flipped as CwLie, then scaled and shifted. */
typedef struct
{
  CwLie lie;
  double scale;     /* output units per tick */
  double left, top; /* output place of the lying piece's top left corner */
} CwSheetView;

void cw_sheet_view_fit (CwSheetView *view, const CwPanelMap *map, double x, double y, double width, double height);
void cw_sheet_view_to_output (const CwSheetView *view, const CwPanelMap *map, double x, double y, double *ox,
                              double *oy);
void cw_sheet_view_to_piece (const CwSheetView *view, const CwPanelMap *map, double ox, double oy, double *x,
                             double *y);
/* The size of the piece as it lies, ticks. */
void cw_sheet_view_size (const CwSheetView *view, const CwPanelMap *map, gint32 *width, gint32 *height);

/* Nearest place the maker's marks allow: an existing mark end, corner or crossing within reach, else the snap step as
 * read from the guide and ruler edges, piece coordinates. what (may be NULL) gets a short msgid telling what was
 * snapped to. */
CwPoint cw_sheet_view_snap (const CwSheetView *view, const CwPanelMap *map, gint32 step_ticks, double ox, double oy,
                            double reach, const char **what);

typedef struct
{
  const CwId *selected; /* ids to halo and to measure */
  guint n_selected;
  CwId hover;
  gboolean rulers, measures, names, legend, glue, handles;
  const CwMark *const *preview; /* marks not yet in the design */
  guint n_preview;
  guint lit_panel; /* panel to light because the card has it under the pointer; G_MAXUINT = none */
} CwSheetLook;

void cw_draw_sheet (CwDrawList *list, const CwAnalysis *analysis, guint piece, const CwSheetView *view,
                    const CwSheetLook *look);

G_END_DECLS
