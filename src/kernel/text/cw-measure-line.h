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

/* Returns: (transfer full) GPtrArray of new CwMark (ids unset, fold unset as the line says or toward), or NULL with
 * error. */
GPtrArray *cw_measure_line_parse (const char *text, const CwDesign *design, const CwPiece *piece, CwLie lie,
                                  GError **error);
/* Whether the line says which way its scores fold ("toward", "away"): if not, the way may be guessed. */
gboolean cw_measure_line_says_way (const char *text);
/* The words that describe a mark as lying, such as "score 3 1/2 in across, from 0 in to 5 1/2 in, toward"; the inverse
 * of parsing for straight marks, rectangles and circles. */
char *cw_measure_line_describe (const CwDesign *design, const CwPiece *piece, const CwMark *mark, CwLie lie);

G_END_DECLS
