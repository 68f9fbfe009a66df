/* cw-draw-sheet.h: a piece lying flat, with its marks, names, measures and ruler.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "check/cw-analysis.h"
#include "cw-draw-list.h"
#include "glue/cw-glue-map.h"
#include "text/cw-measure-line.h"
#include "text/cw-side-words.h"

G_BEGIN_DECLS

/* How the flat piece lies on the output: flipped about its upright as a page is turned, then turned by quarters
 * clockwise (CwLie), then scaled and shifted. */
typedef struct
{
  CwLie lie;
  double scale;     /* output units per tick */
  double left, top; /* output place of the lying piece's top left corner */
} CwSheetView;

/* Fits the paper into a rectangle, leaving room for the rulers; a legend goes below it and needs room of its own. */
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

/* Measures of a mark as the piece lies, as they stand on the drawing: how far each of its vertices lies from the guide
 * edge (axis 0) and the ruler edge (axis 1). Values that several vertices share are told once, by the first; those that
 * lie on the paper's edge are left out. `part` is that of the CW_ID_MEASURE item with its figures. */
#define CW_MEASURE_PART(vertex, axis) (2 * (vertex) + (axis))
#define CW_MEASURE_RADIUS 0xffff
typedef struct
{
  guint part, vertex, axis; /* axis 2: a radius */
  gint32 ticks;
} CwSheetMeasure;
guint cw_sheet_view_measures (const CwSheetView *view, const CwPanelMap *map, const CwMark *mark,
                              CwSheetMeasure *measures, guint n_max);

typedef struct
{
  const CwId *selected; /* ids to halo and to measure */
  guint n_selected;
  CwId hover;
  gboolean rulers, measures, names, legend, glue, handles;
  gboolean layers;              /* outlines of what is stuck on the face that is up; pictures answer all over */
  gboolean far_edges;           /* measures are read from the right and the bottom edge */
  const CwMark *const *preview; /* marks not yet in the design */
  guint n_preview;
  guint lit_panel; /* panel to light because the card has it under the pointer; G_MAXUINT = none */
  gboolean findings;
  const CwGlueMap *glue_map; /* shades where glue may lie on the face that is up; of the same analysis; may be NULL */
  double visible[4]; /* left, top, right, bottom of what can be seen, so that rulers stay in sight; all 0: everything */
} CwSheetLook;

void cw_draw_sheet (CwDrawList *list, const CwAnalysis *analysis, guint piece, const CwSheetView *view,
                    const CwSheetLook *look);

/* The meaning of the line styles in words, in rows of at most `width`, from a top left corner. pens: mask of
 * 1 << CwPen. Returns the height it takes. */
double cw_draw_legend (CwDrawList *list, double x, double y, double width, guint pens);
/* The same as words, for those who cannot see it. */
char *cw_draw_legend_dup_words (guint pens);

G_END_DECLS
