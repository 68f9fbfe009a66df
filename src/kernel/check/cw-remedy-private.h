/* cw-remedy-private.h: what the families of remedies share: a design being changed step by step, and offering it.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "check/cw-remedy.h"
#include "panel/cw-path-flatten.h"

G_BEGIN_DECLS

/* A design on its way to a remedy, and the edit that makes it. */
typedef struct
{
  CwDesign *design; /* owned: as changed so far */
  CwEdit *edit;     /* owned: the group that did it */
} CwDraft;

CwDraft *cw_draft_new (const CwDesign *design);
void cw_draft_free (CwDraft *draft);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (CwDraft, cw_draft_free)

/* Items handed in are taken; each replaces the one with its id. */
void cw_draft_do (CwDraft *draft, CwEdit *edit);
void cw_draft_put_head (CwDraft *draft, CwHead *head);
void cw_draft_put_paper (CwDraft *draft, CwPaper *paper);
void cw_draft_put_piece (CwDraft *draft, CwPiece *piece);
void cw_draft_put_mark (CwDraft *draft, const char *piece_id, CwMark *mark);
void cw_draft_put_art (CwDraft *draft, const char *piece_id, CwArt *art);
void cw_draft_put_glue (CwDraft *draft, CwGlue *glue);
void cw_draft_put_step (CwDraft *draft, CwStep *step);
void cw_draft_erase_mark (CwDraft *draft, const char *piece_id, const char *mark_id);
void cw_draft_move_step (CwDraft *draft, guint from, guint to);

/* Sides of a piece as drawn. */
typedef enum
{
  CW_SIDE_LEFT,
  CW_SIDE_TOP,
  CW_SIDE_RIGHT,
  CW_SIDE_BOTTOM
} CwSide;

void cw_place_move (CwPlace *place, gint32 dx, gint32 dy);
void cw_place_set (CwPlace *place, CwPoint to);
void cw_draft_move_point (CwDraft *draft, const char *piece_id, CwPoint from, CwPoint to);
void cw_draft_shift_mark (CwDraft *draft, const char *piece_id, const char *mark_id, gint32 dx, gint32 dy,
                          gboolean joined);
void cw_draft_turn_fold (CwDraft *draft, const char *piece_id, const char *mark_id);
void cw_draft_shift_step (CwDraft *draft, const char *step_id, gint32 dx, gint32 dy);
void cw_draft_shift_piece (CwDraft *draft, const char *piece_id, gint32 dx, gint32 dy);
gboolean cw_draft_trim_piece (CwDraft *draft, const char *piece_id, CwSide side, gint32 by);

/* One finding and what has been offered for it so far. */
typedef struct
{
  const CwAnalysis *analysis;
  const CwDesign *design;
  const CwFinding *finding;
  GPtrArray *remedies; /* of CwRemedy */
  guint family;        /* of what is offered next */
  gboolean gives_up;   /* what is offered next */
} CwMending;

/* Takes the draft; what changes nothing or makes no valid design is dropped. Arguments are strings, then NULL. */
void cw_mending_offer (CwMending *mending, CwDraft *draft, const char *name, const char *words, ...)
  G_GNUC_NULL_TERMINATED;
gint32 cw_mending_step (const CwMending *mending);
char *cw_mending_say (const CwMending *mending, gint32 ticks);
gboolean cw_mending_get_mark (const CwMending *mending, guint index, CwPiece **piece, CwMark **mark);
CwPiece *cw_mending_get_piece (const CwMending *mending, guint index);
CwStep *cw_mending_find_stick (const CwMending *mending, const char *piece_id);
const char *cw_mending_name_piece (const CwPiece *piece);
const char *cw_mending_name_step (const CwStep *step);
GArray *cw_mending_hinges (const CwMending *mending); /* of guint: fold lines between the finding's panels */

/* Straight stretches of a piece's drawing. */
typedef struct
{
  guint mark; /* G_MAXUINT: the outline */
  CwPoint a, b;
} CwStroke;
GArray *cw_piece_get_strokes (const CwPiece *piece);

void cw_mend_drawing (CwMending *mending);
void cw_mend_snap (CwMending *mending);
void cw_mend_score_ends (CwMending *mending);
void cw_mend_strips (CwMending *mending);
void cw_mend_points (CwMending *mending);
void cw_mend_motion (CwMending *mending);
void cw_mend_place (CwMending *mending, const CwStep *step);
void cw_mend_order (CwMending *mending);
void cw_mend_size (CwMending *mending);
void cw_mend_sight (CwMending *mending);
void cw_mend_glue (CwMending *mending);

/* Sentences and offers that several families use. */
void cw_mend_by_moving_layers (CwMending *mending, gint32 first, gint32 last);
void cw_mend_by_shortening (CwMending *mending, const CwPiece *piece, const CwMark *mark, gint32 by, guint vertex,
                            const char *name, const char *words);
void cw_mend_by_trimming (CwMending *mending, const char *piece_id, gint32 first, gint32 last);

G_END_DECLS
