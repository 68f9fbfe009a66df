/* cw-lie.h: how a piece lies on the table, and measures read from it as it lies.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "design/cw-design.h"

G_BEGIN_DECLS

/* How the piece lies: measures are read from the guide (left) edge and the ruler (top) edge of the piece as it lies.
 * First, when flipped, it is turned over like a page (left and right change places); then it is turned by quarters
 * clockwise. */
typedef struct
{
  guint quarter_turns;
  gboolean flipped;
} CwLie;

/* A piece's bounding box as it lies. Lying coordinates have their origin at its top left corner as it lies. */
typedef struct
{
  CwLie lie;
  CwPoint min, max;     /* in the piece's front coordinates */
  gint32 width, height; /* as it lies, ticks */
} CwLying;

CwLying cw_lying_new (const CwPiece *piece, CwLie lie);
CwPoint cw_lying_from_piece (const CwLying *lying, CwPoint point);
CwPoint cw_lying_to_piece (const CwLying *lying, CwPoint point);
CwPlace cw_lying_place_from_piece (const CwLying *lying, CwPlace place);
CwPlace cw_lying_place_to_piece (const CwLying *lying, CwPlace place);

G_END_DECLS
