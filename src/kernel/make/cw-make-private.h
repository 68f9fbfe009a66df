/* cw-make-private.h: what the files of the room share: an edit under way, and how a piece hangs together.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "make/cw-make.h"
#include "panel/cw-panel-map.h"

G_BEGIN_DECLS

/* An edit under way: what it has become so far, and the group that makes it so. */
typedef struct
{
  CwDesign *design;
  CwEdit *group;
} CwMakeWork;

CwMakeWork cw_make_work_begin (const CwDesign *design);
void cw_make_work_do (CwMakeWork *work, CwEdit *edit);
CwEdit *cw_make_work_end (CwMakeWork *work);
guint cw_make_find_rest (const CwDesign *design, const char *rest);
gboolean cw_make_step_is_own (const CwStep *step);
gboolean cw_make_step_has_fold (const CwStep *step, const char *address);
void cw_make_add_fold (CwMakeWork *work, guint step, const char *address, double to);
void cw_make_drop_fold (CwMakeWork *work, guint step, const char *address);
guint cw_make_insert_step (CwMakeWork *work, const char *piece_id, CwStep *step);
void cw_make_replace_piece (CwMakeWork *work, CwPiece *piece);

/* A box on a piece, ticks; nothing in it until `some`. */
typedef struct
{
  gboolean some;
  CwPoint low, high;
} CwMakeBox;

void cw_make_box_add (CwMakeBox *box, CwPoint p);
void cw_make_box_of_mark (const CwMark *mark, CwMakeBox *box);
CwMakeBox cw_make_box_of_piece (const CwPiece *piece);
gboolean cw_make_mark_on_sheet (const CwPiece *piece, const CwMark *mark);
G_GNUC_PRINTF (2, 3) gboolean cw_make_fail (GError **error, const char *format, ...);
CwEdit *cw_make_work_finish (CwMakeWork *work, GError **error);

/* How a piece hangs together: which fold lines close loops with which. */
typedef struct
{
  CwPanelSet *set;
  const CwPanelMap *map;
  guint *block; /* per hinge: hinges of one block lie in loops with one another; a block of one is an open chain */
  guint n_blocks;
} CwMakeGraph;

CwMakeGraph *cw_make_graph_new (const CwDesign *design, const char *piece_id);
void cw_make_graph_free (CwMakeGraph *graph);
guint cw_make_graph_n_hinges (const CwMakeGraph *graph);
const CwHinge *cw_make_graph_get_hinge (const CwMakeGraph *graph, guint hinge);
gboolean cw_make_hinge_has_score (const CwHinge *hinge, const char *mark_id);
guint cw_make_graph_find_hinge (const CwMakeGraph *graph, const char *mark_id);
gboolean cw_make_graph_hinge_spans (const CwMakeGraph *graph, guint hinge);
guint cw_make_graph_distance (const CwMakeGraph *graph, guint from, guint to, const gboolean *closed);
CwPoint cw_make_point_in (const CwPolygon *polygon, gint32 snap);
CwPoint cw_make_graph_guess_hold (const CwMakeGraph *graph, gint32 snap);

gboolean cw_make_parallel (CwPoint p, CwPoint q, CwPoint a, CwPoint b);
gboolean cw_make_near (CwPoint a, CwPoint b);
gboolean cw_make_on_line (const GArray *points, CwPoint p, gboolean *at_end);

/* Layers with a rim */

CwTarget cw_make_target (const CwDesign *design, const char *piece_id, const CwPanel *panel);
void cw_make_reflow (CwMakeWork *work, const char *host_id, const CwMakeGraph *before);
CwPath cw_make_mark_outline (const CwMark *shape);

char *cw_make_dup_mark_id (const CwPiece *piece, CwMarkKind kind);

/* Rules applied once the marks are there */
void cw_make_guess_way (const CwPiece *piece, CwMark *mark);
GPtrArray *cw_make_split_crossing (CwPiece *piece, guint first_new);
void cw_make_fold_again (CwMakeWork *work, const char *piece_id, const GPtrArray *ids);
void cw_make_settle (CwMakeWork *work, const char *piece_id, const CwMakeGraph *before);
void cw_make_lift_spines (CwMakeWork *work, const char *piece_id, const CwPiece *before);
void cw_make_follow (CwMakeWork *work, const char *piece_id, const CwMakeGraph *before);
void cw_make_hold_anew (CwMakeWork *work, const char *piece_id, const CwMakeGraph *before);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (CwMakeGraph, cw_make_graph_free)

G_END_DECLS
