/* cw-measure-sentence-private.h: what a measure line says, before it is laid on a piece.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "text/cw-measure-line.h"

G_BEGIN_DECLS

typedef enum
{
  CW_RUN_UNSAID,
  CW_RUN_ACROSS,
  CW_RUN_ALONG,
  CW_RUN_LONG,  /* along the long side */
  CW_RUN_SHORT, /* along the short side */
} CwMeasureRun;

typedef struct
{
  CwLength length;
  gboolean middle;
} CwMeasure;

typedef struct
{
  CwMeasure x, y;
  gboolean through; /* a place an arc goes through */
} CwMeasureSpot;

typedef struct
{
  CwMeasureWhat what;
  CwMarkKind kind;
  CwMade made;
  gboolean away, toward, unfolded;
  CwMeasureRun run;
  gboolean from_right, from_bottom, from_left, from_top;
  GArray *positions;    /* of CwMeasure */
  GArray *spots;        /* of CwMeasureSpot: the corners of a line said point by point */
  gboolean has_ends[2]; /* from, to */
  CwMeasure ends[2];
  gboolean round, square, centred, radius_said;
  GArray *sizes; /* of CwLength: window */
  CwLength rim;  /* of a layer as large as its panel */
  CwGlueKind glue;
  gboolean nearest; /* every measure is brought to the nearest mark: the maker's, or one of so much */
  CwLength step;    /* 0: the maker's */
  char *label;      /* owned: what a picture shows */
} CwSentence;

gboolean cw_sentence_read (CwSentence *sentence, const char *text, CwUnit unit, GError **error);
void cw_sentence_clear (CwSentence *sentence);

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (CwSentence, cw_sentence_clear)

G_END_DECLS
