/* cw-trimmer.h: every straight line of every piece as one move on a trimmer, in the order to make them.
 *
 * A trimmer has a guide that one edge of the sheet is laid against, a rule that says how far the blade runs from that
 * edge, and a second rule along the blade, read from the sheet's edge at its upper end, that says where the blade
 * starts and stops. A move is one line: which edge against the guide, where on the rule, from where to where, which
 * face up.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "panel/cw-panel-map.h"
#include "trim/cw-tools.h"

G_BEGIN_DECLS

/* The four sides of the box round a piece, named as seen with the front up; in clockwise order. */
typedef enum
{
  CW_SIDE_OF_SHEET_LEFT,
  CW_SIDE_OF_SHEET_TOP,
  CW_SIDE_OF_SHEET_RIGHT,
  CW_SIDE_OF_SHEET_BOTTOM,
} CwSheetSide;

typedef enum
{
  CW_MOVE_MARK,  /* a pencil mark, one end of a slanted line */
  CW_MOVE_SCORE, /* pressed */
  CW_MOVE_SLIT,  /* cut, removing nothing */
  CW_MOVE_CUT,   /* a side of a window, or of the outline */
} CwMoveDoes;

enum
{
  CW_MOVE_NARROW = 1 << 0,     /* less paper than can be held lies between guide and blade, from either edge */
  CW_MOVE_BEYOND = 1 << 1,     /* farther than the rule reaches, from either edge */
  CW_MOVE_OFF_MARKS = 1 << 2,  /* a measure lies between the marks of the rule */
  CW_MOVE_OFF_GROOVE = 1 << 3, /* a score no groove of the board lies under */
};

#define CW_MOVE_OUTLINE G_MAXUINT /* in place of a mark's index */

typedef struct
{
  guint piece, mark, segment; /* positions in the design; segment: which straight part of the mark's line */
  CwMoveDoes does;
  CwFace face_up;
  gboolean joins;                 /* a slanted line: from one pencil mark to another, no edge against the guide */
  guint marks[2];                 /* joins: the two CW_MOVE_MARK moves, positions in the list */
  CwSheetSide against, read_from; /* edge against the guide; edge at the upper end of the blade */
  CwLength at;                    /* on the rule, from the guide */
  CwLength from, to;              /* where the blade starts and stops, from `read_from`; a mark: the same twice */
  gboolean whole;                 /* from edge to edge */
  gboolean pull_up;
  guint flags;
} CwMove;

typedef enum
{
  CW_BY_HAND_CURVE, /* knife or stylus along the template */
  CW_BY_HAND_PRESS, /* creased from one end of a slit to the other */
} CwByHandWhy;

typedef struct
{
  guint piece, mark;
  CwByHandWhy why;
  guint slit; /* CW_BY_HAND_PRESS: the slit whose ends are joined; G_MAXUINT if there is none */
} CwByHand;

typedef struct
{
  GArray *moves;   /* of CwMove, in order; pieces in the design's order */
  GArray *by_hand; /* of CwByHand */
  guint n_turns;   /* the sheet is taken up and laid down another way, or another sheet */
  guint n_stops;   /* the stop is set to another place on the rule */
  gboolean least;  /* no order has fewer turns and stops, proved for every sheet */
} CwTrimming;

CwTrimming *cw_trimming_new (const CwDesign *design, const CwTools *tools);
void cw_trimming_free (CwTrimming *trimming);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (CwTrimming, cw_trimming_free)

/* The slit whose two ends a score joins, so that it is creased by hand unless said otherwise; G_MAXUINT: none. */
guint cw_piece_find_slit_joined (const CwPiece *piece, const CwMark *score);
gboolean cw_piece_is_pressed (const CwPiece *piece, const CwMark *score);

/* Lengths between the marks of the maker's own tools, where those are named: of CwFinding (off-snap), one a mark. */
GPtrArray *cw_trimming_tell_off_marks (const CwTrimming *trimming, const CwDesign *design, const CwTools *tools);
/* Where a move's line runs, the piece's front coordinates. */
void cw_trimming_get_ends (const CwTrimming *trimming, const CwDesign *design, guint index, CwPoint *a, CwPoint *b);

const char *cw_sheet_side_get_key (CwSheetSide side);
const char *cw_move_does_get_key (CwMoveDoes does);

/* Returns: (transfer full): the moves as JSON, format "creasewright steps". */
char *cw_trimming_to_text (const CwTrimming *trimming, const CwDesign *design);

G_END_DECLS
