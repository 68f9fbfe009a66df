/* cw-step-card-private.h: the parts a step card is made of.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "text/cw-step-card.h"

G_BEGIN_DECLS

/* A card in the making. */
typedef struct
{
  CwStepCard *card;
  const CwAnalysis *analysis;
  const CwDesign *design;
  const CwStepCardOptions *options;
  gboolean *alike; /* by move: one of its measures is easily mistaken */
  CwFace *up;      /* by piece: the face that is up on the table */
  guint *row_of;   /* by piece: its row in the cut list */
} CwCardMaking;

/* A mark of a piece. */
typedef struct
{
  guint piece, mark;
} CwCardMark;

/* Going through the design's steps. */
typedef struct
{
  CwCardMaking *making;
  CwMotionWork *work;
  CwPose *start, *end; /* of the step at hand */
  gboolean *folded;    /* by hinge through the design: has been folded before */
  gboolean glue_open;  /* glue has been used and the card not closed since */
} CwCardWalk;

/* One fold of a step. */
typedef struct
{
  const CwMark *mark;
  const CwPiece *piece;
  guint hinge;
  double from, to; /* degrees, without sign */
  gboolean toward; /* as the reader sees it */
} CwCardFold;

CwCardStep *cw_card_step_add (CwCardMaking *making, GPtrArray *list, const char *title);
void cw_card_say (GPtrArray *lines, char *sentence); /* takes it */
const char *cw_card_piece_name (const CwCardMaking *making, guint piece);
char *cw_card_letter (guint index);
/* What a face is called on the page: for a plain layer by what becomes of it, else as in the window. */
gboolean cw_card_sides_differ (const CwCardMaking *making, guint piece);
const char *cw_card_side_words (const CwCardMaking *making, guint piece, CwFace face);
/* The trimmer's lines that make these marks: " (lines 3, 7)", "" for none. marks: of CwCardMark. */
char *cw_card_lines_of (const CwCardMaking *making, const GArray *marks);

/* Greetings and pictures of a piece, before it is cut and scored. */
void cw_card_add_stamping (CwCardMaking *making, guint piece);
/* Sheets on the trimmer: steps for every move, ending with each piece's face up as the last move left it. */
void cw_card_add_trimming (CwCardMaking *making);
/* The design's own steps. */
void cw_card_add_steps (CwCardMaking *making);
/* The bed of the page: tools, cautions, cut list, remarks. */
void cw_card_add_front (CwCardMaking *making);

/* The face of a panel that the reader sees at a moment. */
CwFace cw_card_face_seen (const CwCardWalk *walk, const CwPose *pose, guint panel);
GArray *cw_card_read_folds (CwCardWalk *walk, const CwStep *step); /* of CwCardFold */
void cw_card_say_folds (CwCardWalk *walk, CwCardStep *step, const GArray *folds, gboolean making);
void cw_card_say_followers (CwCardWalk *walk, CwCardStep *step, const GArray *folds, guint index);
void cw_card_say_moved (CwCardWalk *walk, CwCardStep *step, guint index);
void cw_card_say_stick (CwCardWalk *walk, CwCardStep *card_step, const CwStep *step, guint piece, guint host);
/* The steps that put glue on. */
void cw_card_add_glue (CwCardWalk *walk, const CwGlue *glue, guint piece, guint index, const CwStep *own);
void cw_card_add_glue_of (CwCardWalk *walk, guint piece, CwFace face, guint index);

G_END_DECLS
