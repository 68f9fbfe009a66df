/* cw-draw-legend.c: what the line styles mean, in words.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#include "cw-draw-sheet-private.h"
#include "cw-pen.h"

#define SWATCH 40.0
#define ROW 19.0
#define TEXT 10.5
#define LEADING 13.0
#define BETWEEN 22.0

static const struct
{
  CwPen pen;
  const char *words;
} entries[] = {
  { CW_PEN_CUT, N_ ("cut") },
  { CW_PEN_SCORE_TOWARD, N_ ("score: fold toward you") },
  { CW_PEN_SCORE_AWAY, N_ ("score: fold away from you") },
  { CW_PEN_SCORE_NONE, N_ ("scored, not folded here") },
  { CW_PEN_WASTE, N_ ("cut out and thrown away") },
  { CW_PEN_GLUE, N_ ("glue") },
  { CW_PEN_SAFE, N_ ("glue may go here") },
  { CW_PEN_NEAR, N_ ("too near an edge for glue") },
  { CW_PEN_NEVER, N_ ("no glue here") },
  { CW_PEN_HIDDEN, N_ ("glue on the other side") },
  { CW_PEN_ART, N_ ("greeting or picture") },
  { CW_PEN_HOLD, N_ ("stays still") },
  { CW_PEN_SELECTED, N_ ("has just moved or come") },
};

static double
swatch_width (CwPen pen)
{
  return pen == CW_PEN_HOLD ? 14 : SWATCH;
}

static void
swatch (CwDrawList *list, CwPen pen, double x, double y)
{
  const CwPenStyle *style = cw_pen_get_style (pen);

  cw_draw_list_begin (list, pen, cw_id (CW_ID_NONE, 0, 0, 0));
  if (pen == CW_PEN_HOLD)
    {
      cw_draw_list_arc (list, x + 7, y, 6);
      cw_draw_list_arc (list, x + 7, y, 1.5);
    }
  else if (style->fill != CW_FILL_NONE || pen == CW_PEN_ART)
    {
      cw_draw_list_move (list, x, y - 6);
      cw_draw_list_line (list, x + SWATCH, y - 6);
      cw_draw_list_line (list, x + SWATCH, y + 6);
      cw_draw_list_line (list, x, y + 6);
      cw_draw_list_close (list);
    }
  else
    {
      cw_draw_list_move (list, x, y);
      cw_draw_list_line (list, x + SWATCH, y);
    }
  cw_draw_list_end (list);
}

/**
 * cw_draw_legend:
 * @list: a list
 * @x: left of the legend, output units
 * @y: its top
 * @width: rows are no longer than this
 * @pens: mask of 1 << #CwPen of what to explain
 *
 * Returns: the height it takes
 */
double
cw_draw_legend (CwDrawList *list, double x, double y, double width, guint pens)
{
  double at = x, top = y, tall = ROW;

  cw_draw_list_set_ground (list, CW_GROUND_TABLE);
  for (guint i = 0; i < G_N_ELEMENTS (entries); i++)
    {
      const char *words = _ (entries[i].words);
      double wide = swatch_width (entries[i].pen), needs = wide + 7 + cw_draw_text_width (TEXT, words), lines;

      if ((pens & 1u << entries[i].pen) == 0)
        continue;
      if (at > x && at + needs > x + width)
        {
          at = x;
          top += tall;
          tall = ROW;
        }
      swatch (list, entries[i].pen, at, top + ROW / 2);
      lines = cw_draw_words (list, at + wide + 7, top + ROW / 2 + TEXT * 0.36, TEXT, LEADING, width - wide - 7, words);
      tall = MAX (tall, ROW + (lines - 1) * LEADING);
      at += needs + BETWEEN;
    }
  return top + tall - y;
}

/**
 * cw_draw_legend_dup_words:
 * @pens: mask of 1 << #CwPen of what to explain
 *
 * Returns: (transfer full): which meanings the legend explains
 */
char *
cw_draw_legend_dup_words (guint pens)
{
  g_autoptr (GString) text = g_string_new (NULL);

  for (guint i = 0; i < G_N_ELEMENTS (entries); i++)
    if (pens & 1u << entries[i].pen)
      g_string_append_printf (text, "%s%s", text->len > 0 ? "; " : "", _ (entries[i].words));
  return g_strdup (text->str);
}
