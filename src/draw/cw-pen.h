/* cw-pen.h: how every pen looks: line type, width, filling and colour.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "cw-draw-play.h"

G_BEGIN_DECLS

/* Basic line types of ISO 128-2:2020, by their numbers there. */
typedef enum
{
  CW_LINE_NONE = 0,
  CW_LINE_CONTINUOUS = 1,
  CW_LINE_DASHED = 2,
  CW_LINE_DOTTED = 7,
  CW_LINE_DASHED_DOTTED = 10,
} CwLineType;

typedef enum
{
  CW_FILL_NONE,
  CW_FILL_SOLID,
  CW_FILL_HATCH, /* slanted lines */
  CW_FILL_CROSS, /* slanted lines both ways */
  CW_FILL_DOTS,
  CW_FILL_OPEN_DOTS, /* fewer and larger ones */
  CW_FILL_LINES,     /* level lines */
} CwFill;

typedef struct
{
  const char *key; /* in golden lists */
  CwLineType line;
  double width_mm; /* one of the widths of ISO 128-2 for drawn lines */
  CwFill fill;
} CwPenStyle;

#define CW_PT_PER_MM (72.0 / 25.4)
/* Spacing of hatching and glue dots, output units. */
#define CW_HATCH_SPACING 6.0
#define CW_DOT_SPACING 5.0
#define CW_OPEN_DOT_SPACING 11.0
#define CW_LINE_SPACING 4.0
/* Least contrast ratios: WCAG 2.2 SC 1.4.3 (text), SC 1.4.11 (lines). */
#define CW_CONTRAST_TEXT 4.5
#define CW_CONTRAST_LINE 3.0

const CwPenStyle *cw_pen_get_style (CwPen pen);
/* Dash lengths in units of the line width; 0 for a continuous line. centre: how far into the pattern its telling
 * element (dot, else gap) has its middle. */
guint cw_line_get_dashes (CwLineType line, double dashes[4], double *centre);
/* Colour of a pen on a ground (CW_GROUND_TABLE: the palette's table). */
guint32 cw_pen_get_colour (CwPen pen, const CwPalette *palette, guint32 ground);

double cw_colour_luminance (guint32 rgb);
double cw_colour_contrast (guint32 a, guint32 b);
guint32 cw_colour_mix (guint32 a, guint32 b, double share_of_b);
guint32 cw_colour_parse (const char *text, guint32 otherwise);
/* Near-black or near-white, whichever reads better on a ground; at least 4.5:1 on any. */
guint32 cw_colour_ink_on (guint32 ground);

G_END_DECLS
