/* cw-pen.c: the one place that decides how things look.
 *
 * Line types and their element lengths are those of ISO 128-2:2020 (Table 3: dot at most 0.5 d, gap 3 d, dash 12 d,
 * with d the line width; widths in steps of sqrt 2; narrow to wide 1:2). Line style alone tells cut, score toward and
 * score away; colour never does. Ink is chosen for the ground it lies on, so that text has 4.5:1 and lines 3:1 on any
 * paper colour (contrast by WCAG 2.2): of black and white the better one has at least sqrt (1.05 / 0.05) = 4.58:1.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-pen.h"

#include <math.h>

/* Narrow and wide; both are standard widths. Fine is for what must stay behind the drawing. */
#define FINE 0.25
#define NARROW 0.5
#define WIDE 1.0

static const CwPenStyle styles[CW_N_PENS] = {
  [CW_PEN_OUTLINE] = { "outline", CW_LINE_CONTINUOUS, NARROW, CW_FILL_NONE },
  [CW_PEN_CUT] = { "cut", CW_LINE_CONTINUOUS, WIDE, CW_FILL_NONE },
  [CW_PEN_SCORE_TOWARD] = { "score-toward", CW_LINE_DASHED, NARROW, CW_FILL_NONE },
  [CW_PEN_SCORE_AWAY] = { "score-away", CW_LINE_DASHED_DOTTED, NARROW, CW_FILL_NONE },
  [CW_PEN_SCORE_NONE] = { "score-none", CW_LINE_DOTTED, NARROW, CW_FILL_NONE },
  [CW_PEN_EDGE] = { "edge", CW_LINE_CONTINUOUS, 0.35, CW_FILL_NONE },
  [CW_PEN_HIDDEN] = { "hidden", CW_LINE_DASHED, FINE, CW_FILL_NONE },
  [CW_PEN_PAPER] = { "paper", CW_LINE_NONE, 0, CW_FILL_SOLID },
  [CW_PEN_WASTE] = { "waste", CW_LINE_NONE, FINE, CW_FILL_HATCH },
  [CW_PEN_GLUE] = { "glue", CW_LINE_DOTTED, FINE, CW_FILL_DOTS },
  [CW_PEN_NEVER] = { "never", CW_LINE_CONTINUOUS, FINE, CW_FILL_CROSS },
  [CW_PEN_SAFE] = { "safe", CW_LINE_CONTINUOUS, FINE, CW_FILL_OPEN_DOTS },
  [CW_PEN_NEAR] = { "near", CW_LINE_CONTINUOUS, FINE, CW_FILL_LINES },
  [CW_PEN_ART] = { "art", CW_LINE_CONTINUOUS, FINE, CW_FILL_NONE },
  [CW_PEN_GUIDE] = { "guide", CW_LINE_CONTINUOUS, FINE, CW_FILL_NONE },
  [CW_PEN_GRID] = { "grid", CW_LINE_CONTINUOUS, 0.13, CW_FILL_NONE },
  [CW_PEN_SELECTED] = { "selected", CW_LINE_CONTINUOUS, 4.0, CW_FILL_NONE },
  [CW_PEN_PREVIEW] = { "preview", CW_LINE_CONTINUOUS, WIDE, CW_FILL_NONE },
  [CW_PEN_TROUBLE] = { "trouble", CW_LINE_CONTINUOUS, 0.7, CW_FILL_HATCH },
  [CW_PEN_HANDLE] = { "handle", CW_LINE_CONTINUOUS, NARROW, CW_FILL_SOLID },
  [CW_PEN_HOLD] = { "hold", CW_LINE_CONTINUOUS, NARROW, CW_FILL_NONE },
  [CW_PEN_TEXT] = { "text", CW_LINE_NONE, 0, CW_FILL_SOLID },
  [CW_PEN_TITLE] = { "title", CW_LINE_NONE, 0, CW_FILL_SOLID },
  [CW_PEN_FIGURE] = { "figure", CW_LINE_NONE, 0, CW_FILL_SOLID },
  [CW_PEN_PATTERN] = { "pattern", CW_LINE_CONTINUOUS, 0.13, CW_FILL_NONE },
  [CW_PEN_CREASE] = { "crease", CW_LINE_CONTINUOUS, 0.18, CW_FILL_NONE },
  [CW_PEN_SHADOW] = { "shadow", CW_LINE_NONE, 0, CW_FILL_SOLID },
  [CW_PEN_PICK] = { "pick", CW_LINE_NONE, 0, CW_FILL_NONE },
  [CW_PEN_CLIP] = { "clip", CW_LINE_NONE, 0, CW_FILL_NONE },
  [CW_PEN_UNCLIP] = { "unclip", CW_LINE_NONE, 0, CW_FILL_NONE },
};

/* Warm neutrals; accents are a deep green, an amber and a yellow, each told also by the shape of what they colour. */
const CwPalette cw_palette_paper = { 0x000000, 0xffffff, 0x595959, 0x3d3d3d, 1 };
const CwPalette cw_palette_light = { 0x2a2520, 0xefe9df, 0x6b6358, 0x17695a, 1.2 };
const CwPalette cw_palette_dark = { 0xf3ede3, 0x2b2724, 0xa79e91, 0xe2b45c, 1.2 };
const CwPalette cw_palette_contrast = { 0xffffff, 0x000000, 0xe0e0e0, 0xffd84a, 1.5 };

/**
 * cw_pen_get_style:
 * @pen: a pen
 *
 * Returns: (transfer none): its line type, width and filling
 */
const CwPenStyle *
cw_pen_get_style (CwPen pen)
{
  g_return_val_if_fail ((guint) pen < CW_N_PENS, &styles[CW_PEN_OUTLINE]);
  return &styles[pen];
}

/**
 * cw_line_get_dashes:
 * @line: a line type
 * @dashes: (out): drawn and empty lengths in turn, in line widths
 * @centre: (out): middle of the telling element, in line widths from the pattern's start
 *
 * Returns: how many lengths there are; 0 for a continuous line
 */
guint
cw_line_get_dashes (CwLineType line, double dashes[4], double *centre)
{
  static const double dash = 12, gap = 3, dot = 0.5;

  *centre = 0;
  switch (line)
    {
    case CW_LINE_DASHED:
      dashes[0] = dash;
      dashes[1] = gap;
      *centre = dash + gap / 2;
      return 2;
    case CW_LINE_DOTTED:
      dashes[0] = dot;
      dashes[1] = gap;
      *centre = dot / 2;
      return 2;
    case CW_LINE_DASHED_DOTTED:
      dashes[0] = dash;
      dashes[1] = gap;
      dashes[2] = dot;
      dashes[3] = gap;
      *centre = dash + gap + dot / 2;
      return 4;
    case CW_LINE_NONE:
    case CW_LINE_CONTINUOUS:
    default:
      return 0;
    }
}

static double
channel (guint32 rgb, int shift)
{
  double c = ((rgb >> shift) & 0xff) / 255.0;
  return c <= 0.04045 ? c / 12.92 : pow ((c + 0.055) / 1.055, 2.4);
}

/**
 * cw_colour_luminance:
 * @rgb: a colour
 *
 * Returns: its relative luminance, 0 to 1 (WCAG 2.2, "relative luminance")
 */
double
cw_colour_luminance (guint32 rgb)
{
  return 0.2126 * channel (rgb, 16) + 0.7152 * channel (rgb, 8) + 0.0722 * channel (rgb, 0);
}

/**
 * cw_colour_contrast:
 * @a: a colour
 * @b: another
 *
 * Returns: their contrast ratio, 1 to 21 (WCAG 2.2, "contrast ratio")
 */
double
cw_colour_contrast (guint32 a, guint32 b)
{
  double la = cw_colour_luminance (a), lb = cw_colour_luminance (b);
  return (MAX (la, lb) + 0.05) / (MIN (la, lb) + 0.05);
}

/**
 * cw_colour_mix:
 * @a: a colour
 * @b: another
 * @share_of_b: 0 gives @a, 1 gives @b
 *
 * Returns: the colour between them, channel by channel
 */
guint32
cw_colour_mix (guint32 a, guint32 b, double share_of_b)
{
  guint32 mixed = 0;

  for (int shift = 16; shift >= 0; shift -= 8)
    {
      double ca = (a >> shift) & 0xff, cb = (b >> shift) & 0xff;
      mixed |= (guint32) lround (ca + (cb - ca) * CLAMP (share_of_b, 0, 1)) << shift;
    }
  return mixed;
}

/**
 * cw_colour_parse:
 * @text: (nullable): "#rrggbb"
 * @otherwise: what stands in when @text is no colour
 *
 * Returns: the colour
 */
guint32
cw_colour_parse (const char *text, guint32 otherwise)
{
  guint32 rgb = 0;

  if (text == NULL || text[0] != '#')
    return otherwise;
  for (int i = 1; i <= 6; i++)
    {
      int digit = g_ascii_xdigit_value (text[i]);
      if (digit < 0)
        return otherwise;
      rgb = rgb << 4 | (guint32) digit;
    }
  return text[7] == '\0' ? rgb : otherwise;
}

/**
 * cw_colour_ink_on:
 * @ground: a colour
 *
 * Returns: a warm near-black or near-white with at least 4.5:1 on it, pure black or white where only that will do
 */
guint32
cw_colour_ink_on (guint32 ground)
{
  const guint32 dark = 0x1d1915, light = 0xfbf8f2;
  gboolean black = cw_colour_contrast (0x000000, ground) >= cw_colour_contrast (0xffffff, ground);
  guint32 soft = black ? dark : light;

  if (cw_colour_contrast (soft, ground) >= CW_CONTRAST_TEXT)
    return soft;
  return black ? 0x000000 : 0xffffff;
}

/* The wished colour, moved towards ink no farther than the contrast asks. */
static guint32
enough_on (guint32 wish, guint32 ground, guint32 ink, double least)
{
  for (int i = 0; i <= 16; i++)
    {
      guint32 colour = cw_colour_mix (wish, ink, i / 16.0);
      if (cw_colour_contrast (colour, ground) >= least)
        return colour;
    }
  return ink;
}

/**
 * cw_pen_get_colour:
 * @pen: a pen
 * @palette: the surroundings
 * @ground: what it lies on, or %CW_GROUND_TABLE
 *
 * Returns: the colour that keeps this pen readable there
 */
guint32
cw_pen_get_colour (CwPen pen, const CwPalette *palette, guint32 ground)
{
  guint32 under = ground == CW_GROUND_TABLE ? palette->table : ground;
  guint32 ink = ground == CW_GROUND_TABLE ? palette->ink : cw_colour_ink_on (ground);

  switch (pen)
    {
    case CW_PEN_GUIDE:
    case CW_PEN_GRID:
    case CW_PEN_HIDDEN:
    case CW_PEN_PATTERN:
    case CW_PEN_CREASE:
    case CW_PEN_WASTE:
    case CW_PEN_GLUE:
    case CW_PEN_NEVER:
    case CW_PEN_SAFE:
    case CW_PEN_NEAR:
    case CW_PEN_ART:
      return enough_on (ground == CW_GROUND_TABLE ? palette->faint : cw_colour_mix (under, ink, 0.5), under, ink,
                        CW_CONTRAST_LINE);
    case CW_PEN_SELECTED:
    case CW_PEN_PREVIEW:
    case CW_PEN_HANDLE:
      return enough_on (palette->accent, under, ink, CW_CONTRAST_LINE);
    case CW_PEN_PAPER:
      return under;
    case CW_PEN_SHADOW:
      return 0x000000;
    case CW_PEN_OUTLINE:
    case CW_PEN_CUT:
    case CW_PEN_SCORE_TOWARD:
    case CW_PEN_SCORE_AWAY:
    case CW_PEN_SCORE_NONE:
    case CW_PEN_EDGE:
    case CW_PEN_TROUBLE:
    case CW_PEN_HOLD:
    case CW_PEN_TEXT:
    case CW_PEN_TITLE:
    case CW_PEN_FIGURE:
    case CW_PEN_PICK:
    case CW_PEN_CLIP:
    case CW_PEN_UNCLIP:
    case CW_N_PENS:
    default:
      return ink;
    }
}
