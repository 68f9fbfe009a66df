/* cw-sheet.h: the drawing of one piece cut up into edges and faces, before panels are named. Of the panel room only.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "design/cw-design.h"
#include "geometry/cw-edges.h"

G_BEGIN_DECLS

#define CW_SHEET_OUTLINE G_MAXUINT /* in place of a mark's index */
#define CW_SHEET_NO_FACE G_MAXUINT

/* What runs along an edge. */
enum
{
  CW_SHEET_EDGE = 1 << 0,
  CW_SHEET_CUT = 1 << 1,
  CW_SHEET_WINDOW = 1 << 2,
  CW_SHEET_SCORE = 1 << 3,
  CW_SHEET_DROPPED = 1 << 4, /* taken out to join a sliver to its neighbour */
};
#define CW_SHEET_OPEN (CW_SHEET_EDGE | CW_SHEET_CUT | CW_SHEET_WINDOW) /* nothing holds across it */

typedef enum
{
  CW_FACE_PAPER,
  CW_FACE_WINDOW, /* thrown away */
  CW_FACE_OUTSIDE
} CwSheetFaceKind;

/* One straight segment as drawn. */
typedef struct
{
  guint mark; /* index into the piece's marks, or CW_SHEET_OUTLINE */
  guint segment;
  CwPoint a, b;
} CwSheetSource;

/* One edge of the cut-up drawing, from its left (then upper) end a. `left` and `right` as seen walking from a to b. */
typedef struct
{
  CwPoint a, b;
  guint flags;
  guint first_link, n_links; /* into links: the sources that run along it */
  guint left, right;         /* faces, or CW_SHEET_NO_FACE */
} CwSheetEdge;

/* One end of an edge. */
typedef struct
{
  CwPoint at;
  guint edge;
} CwSheetEnd;

typedef struct
{
  const CwPiece *piece;
  GArray *outline;    /* of CwPoint */
  GPtrArray *shapes;  /* of GArray of CwPoint, one per mark */
  GArray *is_curved;  /* of gboolean, one per mark: curved scores, left out of all below */
  GArray *sources;    /* of CwSheetSource */
  GArray *edges;      /* of CwSheetEdge, sorted by a, then b */
  GArray *ends;       /* of CwSheetEnd, sorted by place, then edge: the edges of one node follow one another */
  GArray *links;      /* of CwEdgeLink */
  GArray *faces;      /* of CwPolygon, in reading order, all corners kept */
  GArray *face_kinds; /* of CwSheetFaceKind */
} CwSheet;

CwSheet *cw_sheet_new (const CwPiece *piece);
void cw_sheet_free (CwSheet *sheet);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (CwSheet, cw_sheet_free)

CwSheetFaceKind cw_sheet_kind_at (const CwSheet *sheet, double x, double y);
const CwSheetSource *cw_sheet_get_source (const CwSheet *sheet, const CwSheetEdge *edge, guint i);
CwSheetEdge *cw_sheet_find_edge (const CwSheet *sheet, CwPoint a, CwPoint b, gboolean *forward);
guint cw_sheet_count_ends (const CwSheet *sheet, guint first);
gboolean cw_sheet_edge_on_paper (const CwSheet *sheet, const CwSheetEdge *edge);

G_END_DECLS
