/* cw-draw-ruler.c: rulers along the guide edge and the ruler edge of the sheet, in the design's unit.
 *
 * Ticks follow the unit's own parts down to the snap step, as far as they keep apart; figures stand where there is room
 * for them, always at the longest ticks. When the paper's edge is out of sight the ruler stays at the border of what is
 * seen and clears the ground behind it.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include <math.h>

#include "cw-draw-sheet-private.h"

#define GAP 5.0         /* from the paper */
#define TICK 13.0       /* longest tick */
#define TICK_APART 4.0  /* nearest two ticks */
#define FIGURE 9.5      /* height of figures */
#define FIGURE_ROOM 8.0 /* between two figures */

/* Divisions from coarse to fine: inches halve, millimetres go by 10, 5 and 1. */
typedef struct
{
  gint32 ticks;
  double length;
} Division;

static guint
divisions (CwUnit unit, gint32 snap, Division *out)
{
  static const Division inch[]
    = { { 12 * CW_TICKS_PER_INCH, 1 },  { 6 * CW_TICKS_PER_INCH, 1 },    { 2 * CW_TICKS_PER_INCH, 1 },
        { CW_TICKS_PER_INCH, 1 },       { CW_TICKS_PER_INCH / 2, .75 },  { CW_TICKS_PER_INCH / 4, .6 },
        { CW_TICKS_PER_INCH / 8, .45 }, { CW_TICKS_PER_INCH / 16, .33 }, { CW_TICKS_PER_INCH / 32, .25 },
        { CW_TICKS_PER_INCH / 64, .2 } };
  static const Division metric[]
    = { { 1000 * CW_TICKS_PER_MM, 1 }, { 500 * CW_TICKS_PER_MM, 1 }, { 100 * CW_TICKS_PER_MM, 1 },
        { 50 * CW_TICKS_PER_MM, 1 },   { 20 * CW_TICKS_PER_MM, 1 },  { 10 * CW_TICKS_PER_MM, 1 },
        { 5 * CW_TICKS_PER_MM, .65 },  { CW_TICKS_PER_MM, .4 },      { CW_TICKS_PER_MM / 2, .25 },
        { CW_TICKS_PER_MM / 10, .2 } };
  const Division *from = unit == CW_UNIT_INCH ? inch : metric;
  guint n = 0;

  /* Finer than the maker's own marks is no help; with free placing, down to what the hand can do. */
  for (guint i = 0; i < G_N_ELEMENTS (inch); i++)
    if (from[i].ticks >= (snap > 0 ? snap : from[8].ticks))
      out[n++] = from[i];
  return n;
}

/* Figures without the unit, which stands once at the corner; the space of "3 1/2" is kept. */
static char *
figure_text (gint32 ticks, CwUnit unit)
{
  char *text = cw_length_format_ticks (ticks, unit);
  char *end = g_strrstr (text, " ");

  if (end != NULL && g_ascii_isalpha (end[1]))
    *end = '\0';
  return text;
}

static void
ruler (const CwSheetPlay *play, gboolean upright, gint32 size, double edge, double outer, gboolean slid)
{
  CwDrawList *list = play->list;
  const CwHead *head = play->design->head;
  Division division[12];
  guint n = divisions (head->unit, head->has_snap ? head->snap_ticks : 0, division);
  double scale = play->view->scale, origin = upright ? play->view->top : play->view->left;
  CwId id = cw_id (CW_ID_RULER, play->piece, upright ? 1 : 0, 0);
  guint finest = 0, figures = 0;

  for (guint i = 0; i < n; i++)
    {
      if (division[i].ticks * scale >= TICK_APART)
        finest = i;
      /* Whole inches are short, parts of an inch need room; both rulers show the same figures. */
      const char *widest = division[i].ticks >= CW_TICKS_PER_INCH ? "000" : "10 15/16";
      double need = cw_draw_text_width (FIGURE, widest) + FIGURE_ROOM;
      if (division[i].ticks * scale >= need)
        figures = i;
    }

  if (slid)
    {
      double far = origin + size * scale;
      cw_draw_list_begin (list, CW_PEN_PAPER, id);
      if (upright)
        {
          cw_draw_list_move (list, outer, origin);
          cw_draw_list_line (list, edge, origin);
          cw_draw_list_line (list, edge, far);
          cw_draw_list_line (list, outer, far);
        }
      else
        {
          cw_draw_list_move (list, origin, outer);
          cw_draw_list_line (list, origin, edge);
          cw_draw_list_line (list, far, edge);
          cw_draw_list_line (list, far, outer);
        }
      cw_draw_list_close (list);
      cw_draw_list_end (list);
    }

  /* Only what can be seen, however far the sheet is zoomed. */
  double from = -1, to = size;
  if (play->look->visible[2] > play->look->visible[0])
    {
      from = floor ((play->look->visible[upright ? 1 : 0] - origin) / scale / division[0].ticks) * division[0].ticks;
      to = MIN (size, (play->look->visible[upright ? 3 : 2] - origin) / scale);
    }

  cw_draw_list_begin (list, CW_PEN_GUIDE, id);
  double far = origin + size * scale;
  cw_draw_list_move (list, upright ? edge : origin, upright ? origin : edge);
  cw_draw_list_line (list, upright ? edge : far, upright ? far : edge);
  gint32 step = division[finest].ticks;
  for (gint32 t = from > 0 ? (gint32) from : 0; t <= to; t += step)
    {
      double length = division[finest].length;
      for (guint i = 0; i < finest; i++)
        if (t % division[i].ticks == 0)
          {
            length = division[i].length;
            break;
          }
      double at = origin + t * scale;
      cw_draw_list_move (list, upright ? edge : at, upright ? at : edge);
      cw_draw_list_line (list, upright ? edge - TICK * length : at, upright ? at : edge - TICK * length);
    }
  cw_draw_list_end (list);

  step = division[figures].ticks;
  for (gint32 t = from > 0 ? (gint32) from : 0; t <= to; t += step)
    {
      g_autofree char *text = figure_text (t, head->unit);
      double at = origin + t * scale;
      if (upright)
        cw_draw_list_text (list, CW_PEN_TEXT, id, edge - TICK - 3, at + FIGURE * 0.36, FIGURE, CW_ANCHOR_END, 0, text);
      else
        cw_draw_list_text (list, CW_PEN_TEXT, id, at, edge - TICK - 3, FIGURE, CW_ANCHOR_MIDDLE, 0, text);
    }
}

/**
 * cw_sheet_draw_rulers:
 * @play: the drawing in the making
 *
 * Rulers along the guide edge (left) and the ruler edge (top) as the piece lies.
 */
void
cw_sheet_draw_rulers (const CwSheetPlay *play)
{
  const double *visible = play->look->visible;
  gboolean bounded = visible[2] > visible[0];
  gint32 width, height;
  double left = play->box[0] - GAP, top = play->box[1] - GAP;
  const double deep = CW_SHEET_MARGIN_LEFT - GAP - 4, high = CW_SHEET_MARGIN_TOP - GAP - 6;
  gboolean slid_left = bounded && left - deep < visible[0], slid_top = bounded && top - high < visible[1];

  cw_sheet_view_size (play->view, play->map, &width, &height);
  if (slid_left)
    left = visible[0] + deep;
  if (slid_top)
    top = visible[1] + high;

  cw_draw_list_set_ground (play->list, CW_GROUND_TABLE);
  ruler (play, TRUE, height, left, left - deep, slid_left);
  ruler (play, FALSE, width, top, top - high, slid_top);
  cw_draw_list_text (play->list, CW_PEN_TEXT, cw_id (CW_ID_RULER, play->piece, 2, 0), left - 3, top - 5, FIGURE,
                     CW_ANCHOR_END, 0, cw_unit_get_suffix (play->design->head->unit));
}
