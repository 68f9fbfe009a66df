/* cw-measure-line.h: reads what a maker would write on the measure line: "score 3 1/2", "cut 2 from 1 3/4 to 5 1/8",
 * "score 2 1/8, 6 3/8 along the long side", "score from 1, 2 to 3 1/2, 5".
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "text/cw-lie.h"

G_BEGIN_DECLS

typedef enum
{
  CW_MEASURE_ERROR_SYNTAX,
  CW_MEASURE_ERROR_RANGE
} CwMeasureError;
#define CW_MEASURE_ERROR (cw_measure_error_quark ())
GQuark cw_measure_error_quark (void);

/* What a line asks for. All but a rim have outlines: marks, or what stands for the outline of an area. */
typedef enum
{
  CW_MEASURE_MARKS,
  CW_MEASURE_LAYER, /* a piece of that shape laid on the panel under it */
  CW_MEASURE_RIM,   /* a layer as large as a panel less a rim */
  CW_MEASURE_GLUE,
  CW_MEASURE_PICTURE,
} CwMeasureWhat;

typedef struct
{
  CwMeasureWhat what;
  GPtrArray *marks;   /* owned, of CwMark without ids; NULL for a rim */
  CwLength rim;       /* of a layer */
  gboolean has_place; /* the panel under this place is meant */
  CwPoint place;
  CwGlueKind glue;
  char *label; /* owned: what a picture shows; NULL if unsaid */
} CwMeasureWish;

gboolean cw_measure_line_read (CwMeasureWish *wish, const char *text, const CwDesign *design, const CwPiece *piece,
                               CwLie lie, GError **error);
char *cw_measure_wish_describe (const CwMeasureWish *wish, const CwDesign *design, const CwPiece *piece, CwLie lie);
void cw_measure_wish_clear (CwMeasureWish *wish);
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (CwMeasureWish, cw_measure_wish_clear)

/* One length as said for an entry: also "13 sixteenths past 4", "3.3 to the nearest mark". */
gboolean cw_measure_length_read (const char *text, const CwHead *head, CwLength *length, GError **error);

/* The same for lines that draw marks only.
 * Returns: (transfer full) GPtrArray of new CwMark (ids unset, fold unset as the line says or toward), or NULL with
 * error. */
GPtrArray *cw_measure_line_parse (const char *text, const CwDesign *design, const CwPiece *piece, CwLie lie,
                                  GError **error);
/* Whether the line says which way its scores fold ("toward", "away"): if not, the way may be guessed. */
gboolean cw_measure_line_says_way (const char *text);
/* The words that describe a mark as lying, such as "score 3 1/2 in across, from 0 in to 5 1/2 in, toward"; the inverse
 * of parsing for straight marks, rectangles and circles. */
char *cw_measure_line_describe (const CwDesign *design, const CwPiece *piece, const CwMark *mark, CwLie lie);

G_END_DECLS
