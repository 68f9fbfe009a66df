/* cw-draw-name.c: words on the flat sheet: panel names and greetings with their up-arrows, and what stays still.
 *
 * Words stand upright for the reader however the sheet lies; the arrow tells the panel's own up. A name that does not
 * fit beside its point moves to the panel's middle, then stands upright, then shrinks, then gives way to the arrow
 * alone.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include <math.h>

#include "cw-draw-sheet-private.h"

#define NAME_LEAST 8.5
#define ARROW 15.0
#define PIN 6.0
#define PIN_RINGS 24 /* how far a clear place for the pin is looked for, in its own radius */

/* Words on a shaded face clear what is behind them. */
static CwPen
word_pen (const CwSheetPlay *play)
{
  return play->look->glue_map != NULL ? CW_PEN_FIGURE : CW_PEN_TEXT;
}

static void
to_output (const CwSheetPlay *play, CwPoint p, double *x, double *y)
{
  cw_flat_apply (&play->flat, p.x, p.y, x, y);
}

/**
 * cw_draw_arrow:
 * @list: gets the arrow
 * @pen: its pen
 * @id: what it belongs to
 * @x: its middle, output units
 * @y: its middle, output units
 * @turn: where it points, degrees clockwise from up on the output
 * @length: from end to end, output units
 */
void
cw_draw_arrow (CwDrawList *list, CwPen pen, CwId id, double x, double y, double turn, double length)
{
  double ux = sin (turn * G_PI / 180), uy = -cos (turn * G_PI / 180), head = length * 0.36;
  double tip_x = x + ux * length / 2, tip_y = y + uy * length / 2;

  cw_draw_list_begin (list, pen, id);
  cw_draw_list_move (list, x - ux * length / 2, y - uy * length / 2);
  cw_draw_list_line (list, tip_x, tip_y);
  cw_draw_list_move (list, tip_x - ux * head - uy * head * 0.6, tip_y - uy * head + ux * head * 0.6);
  cw_draw_list_line (list, tip_x, tip_y);
  cw_draw_list_line (list, tip_x - ux * head + uy * head * 0.6, tip_y - uy * head - ux * head * 0.6);
  cw_draw_list_end (list);
}

static double
up_turn (const CwSheetPlay *play)
{
  return 90.0 * (play->view->lie.quarter_turns % 4);
}

/**
 * cw_sheet_draw_art:
 * @play: the drawing in the making
 *
 * Greeting and picture areas on the face that is up.
 */
void
cw_sheet_draw_art (const CwSheetPlay *play)
{
  for (guint i = 0; i < play->map->piece->art->len; i++)
    {
      const CwArt *art = g_ptr_array_index (play->map->piece->art, i);
      CwId id = cw_id (CW_ID_ART, play->piece, i, 0);
      double x0, y0, x1, y1;
      if (art->face != play->up)
        continue;
      to_output (play, cw_place_get_point (&art->box[0]), &x0, &y0);
      to_output (play, cw_place_get_point (&art->box[1]), &x1, &y1);
      cw_draw_list_begin (play->list, CW_PEN_ART, id);
      cw_draw_list_move (play->list, x0, y0);
      cw_draw_list_line (play->list, x1, y0);
      cw_draw_list_line (play->list, x1, y1);
      cw_draw_list_line (play->list, x0, y1);
      cw_draw_list_close (play->list);
      cw_draw_list_end (play->list);

      double cx = (x0 + x1) / 2, cy = (y0 + y1) / 2, w = fabs (x1 - x0), h = fabs (y1 - y0);
      double turn = up_turn (play) + art->up;
      double size = MIN (CW_SHEET_TEXT, 0.8 * h);
      gboolean words = art->label != NULL && size >= NAME_LEAST && cw_draw_text_width (size, art->label) < w - 6;
      gboolean both = words && h > size * 1.4 + ARROW + 6;
      if (words)
        cw_draw_list_text (play->list, word_pen (play), id, cx, cy + size * 0.36 + (both ? ARROW / 2 + 1 : 0), size,
                           CW_ANCHOR_MIDDLE, 0, art->label);
      if (MIN (w, h) > 12)
        cw_draw_arrow (play->list, CW_PEN_ART, id, words && !both ? MAX (x0, x1) - 9 : cx, both ? cy - size * 0.7 : cy,
                       turn, MIN (ARROW, MIN (w, h) - 4));
    }
}

/* How far one can go from a place to both sides within the panel, output units: along x, or along y. */
static double
free_width (const CwSheetPlay *play, const CwPolygon *polygon, double x, double y, gboolean upright)
{
  double before = G_MAXDOUBLE, after = G_MAXDOUBLE;

  for (guint r = 0; r < polygon->n_rings; r++)
    for (guint i = 0; i < polygon->rings[r].n_points; i++)
      {
        const CwRing *ring = &polygon->rings[r];
        double ax, ay, bx, by;
        to_output (play, ring->points[i], &ax, &ay);
        to_output (play, ring->points[(i + 1) % ring->n_points], &bx, &by);
        double a = upright ? ax - x : ay - y, b = upright ? bx - x : by - y;
        if ((a > 0) == (b > 0))
          continue;
        double t = a / (a - b), at = upright ? ay + t * (by - ay) - y : ax + t * (bx - ax) - x;
        if (at >= 0)
          after = MIN (after, at);
        else
          before = MIN (before, -at);
      }
  return 2 * MIN (before, after);
}

/* Moves a place for words of some half size until no mark runs through them, if there is such a place near by. */
static void
keep_clear (const CwSheetPlay *play, const CwPolygon *polygon, double half_width, double half_height, double *x,
            double *y)
{
  static const int tries[][2] = { { 0, 0 },  { 0, 1 },  { 0, -1 },  { 1, 0 }, { -1, 0 }, { 1, 1 },
                                  { -1, 1 }, { 1, -1 }, { -1, -1 }, { 0, 2 }, { 0, -2 } };
  double far = 2 * half_height + 6;

  for (guint t = 0; t < G_N_ELEMENTS (tries); t++)
    {
      double cx = *x + tries[t][0] * far, cy = *y + tries[t][1] * far;
      gboolean clear = TRUE;
      for (int i = -2; i <= 2 && clear; i++)
        for (int k = -1; k <= 1 && clear; k++)
          {
            double px = cx + i * half_width / 2, py = cy + k * half_height, u, v;
            CwId id;
            cw_sheet_view_to_piece (play->view, play->map, px, py, &u, &v);
            clear = cw_polygon_contains (polygon, u, v)
                    && !cw_draw_list_pick (play->list, px, py, half_height / 2, 1u << CW_ID_MARK, &id);
          }
      if (clear)
        {
          *x = cx;
          *y = cy;
          return;
        }
    }
}

/**
 * cw_sheet_draw_names:
 * @play: the drawing in the making
 */
void
cw_sheet_draw_names (const CwSheetPlay *play)
{
  for (guint i = 0; i < play->map->panels->len; i++)
    {
      const CwPanel *panel = &g_array_index (play->map->panels, CwPanel, i);
      CwId id = cw_id (CW_ID_NAME, play->piece, i, 0);
      double x, y, size = CW_SHEET_TEXT, width = 0;
      gboolean words = panel->name != NULL, upright = FALSE;

      to_output (play, panel->inside, &x, &y);
      if (words)
        {
          width = cw_draw_text_width (size, panel->name);
          if (free_width (play, &panel->outline, x, y, FALSE) - 8 < width)
            to_output (play, cw_polygon_inside_point (&panel->outline), &x, &y);
        }
      keep_clear (play, &panel->outline, MAX (width, ARROW) / 2, ARROW * 0.7, &x, &y);
      double across = free_width (play, &panel->outline, x, y, FALSE) - 8;
      double along = free_width (play, &panel->outline, x, y, TRUE) - 8;
      if (words)
        {
          upright = width > across && along > across;
          double room = upright ? along - 2 * ARROW : across;
          if (width > room)
            {
              size *= room / width;
              width = room;
            }
          words = size >= NAME_LEAST;
        }
      if (words && upright)
        cw_draw_list_text (play->list, word_pen (play), id, x + size * 0.36, y, size, CW_ANCHOR_MIDDLE, 270,
                           panel->name);
      else if (words)
        cw_draw_list_text (play->list, word_pen (play), id, x, y + size * 0.36, size, CW_ANCHOR_MIDDLE, 0, panel->name);

      double above = !words ? 0 : upright ? width / 2 + ARROW * 0.8 : size * 0.8 + ARROW * 0.7;
      double room = MIN (across + 4, along + 4);
      if (room > 7)
        cw_draw_arrow (play->list, CW_PEN_GUIDE, cw_id (CW_ID_NONE, 0, 0, 0), x, y - above, up_turn (play),
                       MIN (ARROW, room));
    }
}

/* Whether the pin would stand within the panel there, off every mark and off the words and arrow of the panel's name.
 */
static gboolean
pin_clear (const CwSheetPlay *play, const CwPanel *panel, const double name[4], double x, double y)
{
  const double reach = PIN + 4;
  CwId id;

  if (x > name[0] - reach && x < name[2] + reach && y > name[1] - reach && y < name[3] + reach)
    return FALSE;
  if (cw_draw_list_pick (play->list, x, y, reach, 1u << CW_ID_MARK | 1u << CW_ID_ART, &id))
    return FALSE;
  for (int k = 0; k < 8; k++)
    {
      double u, v;
      cw_sheet_view_to_piece (play->view, play->map, x + reach * cos (k * G_PI / 4), y + reach * sin (k * G_PI / 4), &u,
                              &v);
      if (!cw_polygon_contains (&panel->outline, u, v))
        return FALSE;
    }
  return TRUE;
}

/**
 * cw_sheet_draw_hold:
 * @play: the drawing in the making
 *
 * A pin on the panel that stays still, or lies on its host: where the maker set it, else as near as it is clear of the
 * panel's edge, its marks and its name.
 */
void
cw_sheet_draw_hold (const CwSheetPlay *play)
{
  const CwPiece *piece = play->map->piece;
  guint panel = cw_panel_map_find_hold (play->map);
  CwId id = cw_id (CW_ID_HOLD, play->piece, 0, 0);
  double x, y, name[4];
  gboolean clear;

  if (panel == G_MAXUINT)
    return;
  const CwPanel *held = &g_array_index (play->map->panels, CwPanel, panel);
  to_output (play, held->inside, &x, &y);
  if (!cw_draw_list_get_box (play->list, cw_id (CW_ID_NAME, play->piece, panel, 0), name))
    {
      name[0] = name[2] = x;
      name[1] = y;
      name[3] = y + ARROW / 2; /* the arrow alone */
    }
  name[1] -= ARROW * 1.6; /* the arrow stands above the words */
  name[0] = MIN (name[0], (name[0] + name[2]) / 2 - ARROW / 2);
  name[2] = MAX (name[2], (name[0] + name[2]) / 2 + ARROW / 2);
  if (piece->has_hold)
    to_output (play, cw_place_get_point (&piece->hold), &x, &y);
  clear = pin_clear (play, held, name, x, y);
  for (int ring = 1; ring <= PIN_RINGS && !clear; ring++)
    for (int k = 0; k < 12 && !clear; k++)
      {
        double px = x + ring * PIN * cos (k * G_PI / 6), py = y + ring * PIN * sin (k * G_PI / 6);
        if ((clear = pin_clear (play, held, name, px, py)))
          {
            x = px;
            y = py;
          }
      }
  cw_draw_list_begin (play->list, CW_PEN_HOLD, id);
  cw_draw_list_arc (play->list, x, y, PIN);
  cw_draw_list_arc (play->list, x, y, 1.5);
  cw_draw_list_end (play->list);
}
