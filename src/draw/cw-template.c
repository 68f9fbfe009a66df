/* cw-template.c: templates on pages, at true size.
 *
 * A piece that fits stands whole, turned a quarter if only so it fits; small ones share pages. A larger one is cut into
 * tiles that overlap; crosses stand at the same places of the piece on both pages of a joint, so that laying cross on
 * cross joins them true whatever the printer's margins are. Every page has a check bar on either axis: printers stretch
 * one axis more than the other. Lines are half as wide as in pictures, since a knife has to follow their middle.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "cw-template.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#include "cw-template-private.h"
#include "text/cw-readable.h"
#include "panel/cw-path-flatten.h"

/* Points: what printers leave white and room for the bars; letters; between pieces on one page. */
#define LEFT 62.0
#define TOP 42.0
#define RIGHT 36.0
#define BOTTOM 30.0
#define LINE 1.3
/* Lines that a part of a piece may need to say which it is. */
#define HEAD_LINES 2
#define APART 22.0
/* What neighbouring tiles both show, and the arms of a joining cross. */
#define OVERLAP (10 * CW_TEMPLATE_MM)
#define CROSS (4 * CW_TEMPLATE_MM)
/* Lines as wide as this share of those in pictures. */
#define LINE_SCALE 0.5

static const CwId no_id = { CW_ID_NONE, 0, 0, 0 };

typedef struct
{
  CwPages *pages;
  double width, height; /* of what may be drawn on a page */
  double x, y, row;     /* shelf: next piece's place, the shelf's height */
} Layout;

/* Greedy lines no wider than some room, from y down; only counted when @list is NULL. Returns their height. */
static double
wrap (CwDrawList *list, double x, double y, double room, const char *text)
{
  g_auto (GStrv) words = g_strsplit (text, " ", -1);
  g_autoptr (GString) row = g_string_new (NULL);
  double height = 0;

  for (guint i = 0;; i++)
    {
      g_autofree char *longer = words[i] == NULL ? NULL
                                : row->len > 0   ? g_strdup_printf ("%s %s", row->str, words[i])
                                                 : g_strdup (words[i]);

      if (longer != NULL && (row->len == 0 || cw_draw_text_width (CW_TEMPLATE_LETTERS, longer) <= room))
        {
          g_string_assign (row, longer);
          continue;
        }
      if (row->len > 0)
        {
          if (list != NULL)
            cw_draw_list_text (list, CW_PEN_TEXT, no_id, x, y + height + CW_TEMPLATE_LETTERS, CW_TEMPLATE_LETTERS,
                               CW_ANCHOR_START, 0, row->str);
          height += LINE * CW_TEMPLATE_LETTERS;
        }
      if (words[i] == NULL)
        return height;
      g_string_assign (row, words[i]);
    }
}

static guint
tiles (double length, double room)
{
  return length <= room ? 1 : (guint) ceil ((length - OVERLAP) / (room - OVERLAP));
}

static CwTemplatePiece
sheet_new (const CwAnalysis *analysis, guint piece, const char *words, const Layout *layout, guint *pens)
{
  CwTemplatePiece best = { 0 };

  for (guint turn = 0; turn < 2; turn++)
    {
      CwTemplatePiece sheet = { .piece = g_ptr_array_index (analysis->design->pieces, piece) };

      sheet.lying = cw_lying_new (sheet.piece, (CwLie){ turn, FALSE });
      sheet.width = sheet.lying.width * CW_TEMPLATE_SCALE;
      sheet.height = sheet.lying.height * CW_TEMPLATE_SCALE;
      sheet.columns = tiles (sheet.width, layout->width);
      sheet.head = wrap (NULL, 0, 0, layout->width, words) + 4;
      if (sheet.columns > 1 || sheet.height + sheet.head > layout->height)
        sheet.head += HEAD_LINES * LINE * CW_TEMPLATE_LETTERS;
      sheet.rows = tiles (sheet.height, layout->height - sheet.head);
      if (turn == 0 || sheet.columns * sheet.rows < best.columns * best.rows)
        best = sheet;
    }
  best.list = cw_draw_list_new ();
  best.map = &analysis->panels->maps[piece];
  cw_template_draw_piece (&best, analysis->design, pens);
  return best;
}

static CwDrawList *
new_page (Layout *layout)
{
  CwDrawList *list = cw_draw_list_new ();

  g_ptr_array_add (layout->pages->lists, list);
  layout->x = 0;
  layout->y = 0;
  layout->row = 0;
  return list;
}

static char *
piece_words (const CwAnalysis *analysis, guint piece)
{
  const CwPiece *item = g_ptr_array_index (analysis->design->pieces, piece);
  CwUnit unit = item->outline.n_vertices > 1 ? item->outline.vertices[1].at.x.unit : analysis->design->head->unit;
  CwPoint low, high;

  cw_piece_get_box (item, &low, &high);
  g_autofree char *size
    = cw_size_dup_words (cw_length_from_ticks (high.x - low.x, unit), cw_length_from_ticks (high.y - low.y, unit));
  return g_strdup_printf ("%s: %s", item->name != NULL ? item->name : item->id, size);
}

/* A piece that fits: on the shelf that is being filled, the next, or a new page. */
static void
place_whole (Layout *layout, const CwTemplatePiece *sheet, const char *words)
{
  double width = MAX (sheet->width, MIN (cw_draw_text_width (CW_TEMPLATE_LETTERS, words), layout->width));
  double height = sheet->height + sheet->head;

  if (layout->x > 0 && layout->x + width > layout->width)
    {
      layout->x = 0;
      layout->y += layout->row + APART;
      layout->row = 0;
    }
  if (layout->pages->lists->len == 0 || layout->y + height > layout->height + 0.01)
    new_page (layout);
  CwDrawList *list = g_ptr_array_index (layout->pages->lists, layout->pages->lists->len - 1);
  wrap (list, LEFT + layout->x, TOP + layout->y, layout->width, words);
  cw_draw_list_append (list, sheet->list, 1, LEFT + layout->x, TOP + layout->y + sheet->head);
  cw_template_draw_names (sheet, list, (const double[4]){ 0, 0, sheet->width, sheet->height }, LEFT + layout->x,
                          TOP + layout->y + sheet->head);
  layout->x += width + APART;
  layout->row = MAX (layout->row, height);
}

static void
draw_cross (CwDrawList *list, double x, double y)
{
  cw_template_line (list, CW_PEN_OUTLINE, x - CROSS, y, x + CROSS, y);
  cw_template_line (list, CW_PEN_OUTLINE, x, y - CROSS, x, y + CROSS);
  cw_draw_list_begin (list, CW_PEN_OUTLINE, no_id);
  cw_draw_list_arc (list, x, y, CROSS / 2);
  cw_draw_list_end (list);
}

/* Crosses of a joint, at the same places of the piece on both pages. along: the joint's own length on this tile. */
static void
draw_joint (CwDrawList *list, gboolean upright, double at, double from, double length)
{
  for (guint k = 0; k < 2; k++)
    {
      double along = from + length * (k == 0 ? 0.2 : 0.8);

      draw_cross (list, upright ? at : along, upright ? along : at);
    }
}

static void
place_tiles (Layout *layout, const CwTemplatePiece *sheet, const char *words)
{
  double room_x = layout->width, room_y = layout->height - sheet->head, top = TOP + sheet->head;
  double step_x = room_x - OVERLAP, step_y = room_y - OVERLAP;

  for (guint r = 0; r < sheet->rows; r++)
    for (guint c = 0; c < sheet->columns; c++)
      {
        CwDrawList *list = new_page (layout);
        double left = c * step_x, above = r * step_y;
        double wide = MIN (room_x, sheet->width - left), tall = MIN (room_y, sheet->height - above);
        g_autofree char *part
          = g_strdup_printf (_ ("Part %u of %u, row %u, column %u. Join the parts so that cross lies "
                                "on cross."),
                             r * sheet->columns + c + 1, sheet->columns * sheet->rows, r + 1, c + 1);

        wrap (list, LEFT, TOP + wrap (list, LEFT, TOP, layout->width, words), layout->width, part);
        cw_draw_list_begin (list, CW_PEN_CLIP, no_id);
        /* At the piece's own edges its ticks and line width stay. */
        double x0 = LEFT - (c == 0 ? CW_TEMPLATE_TICK_TO : 0), y0 = top - (r == 0 ? 2 * CW_TEMPLATE_MM : 0);
        double x1 = LEFT + wide + (c + 1 == sheet->columns ? CW_TEMPLATE_TICK_TO : 0);
        double y1 = top + tall + (r + 1 == sheet->rows ? CW_TEMPLATE_TICK_TO : 0);
        cw_draw_list_move (list, x0, y0);
        cw_draw_list_line (list, x1, y0);
        cw_draw_list_line (list, x1, y1);
        cw_draw_list_line (list, x0, y1);
        cw_draw_list_close (list);
        cw_draw_list_end (list);
        cw_draw_list_append (list, sheet->list, 1, LEFT - left, top - above);
        cw_draw_list_unclip (list);
        cw_template_draw_names (sheet, list, (const double[4]){ left, above, left + wide, above + tall }, LEFT - left,
                                top - above);
        if (c > 0)
          draw_joint (list, TRUE, LEFT + OVERLAP / 2, top, MIN (room_y, sheet->height - above));
        if (c + 1 < sheet->columns)
          draw_joint (list, TRUE, LEFT + room_x - OVERLAP / 2, top, MIN (room_y, sheet->height - above));
        if (r > 0)
          draw_joint (list, FALSE, top + OVERLAP / 2, LEFT, MIN (room_x, sheet->width - left));
        if (r + 1 < sheet->rows)
          draw_joint (list, FALSE, top + room_y - OVERLAP / 2, LEFT, MIN (room_x, sheet->width - left));
      }
  /* What follows begins on a page of its own. */
  layout->y = layout->height;
  layout->x = 0;
  layout->row = 0;
}

/* A bar of true length with ticks on one side. */
static void
draw_bar (CwDrawList *list, gboolean upright, double x, double y, double length, guint parts, guint long_every)
{
  for (guint i = 0; i <= parts; i++)
    {
      double at = length * i / parts, tick = i % long_every == 0 ? 8 : 4;

      if (upright)
        cw_template_line (list, CW_PEN_EDGE, x, y + at, x + tick, y + at);
      else
        cw_template_line (list, CW_PEN_EDGE, x + at, y, x + at, y - tick);
    }
  if (upright)
    cw_template_line (list, CW_PEN_EDGE, x, y, x, y + length);
  else
    cw_template_line (list, CW_PEN_EDGE, x, y, x + length, y);
}

/* What stands at the foot of every page; only counted when @list is NULL. Returns its height. */
static double
draw_foot (CwDrawList *list, double top, double width, guint pens, const char *number)
{
  g_autoptr (CwDrawList) trial = cw_draw_list_new ();
  CwDrawList *out = list != NULL ? list : trial;
  double y = top + 6, second = 2 * 72 + 50;
  gboolean narrow = second + 50 * CW_TEMPLATE_MM + 40 > width;

  cw_draw_list_set_ground (out, CW_GROUND_TABLE);
  y += cw_draw_legend (out, LEFT, y, width, pens) + 14;
  draw_bar (out, FALSE, LEFT, y, 2 * 72, 16, 8);
  cw_draw_list_text (out, CW_PEN_TEXT, no_id, LEFT + 2 * 72 + 4, y, CW_TEMPLATE_LETTERS, CW_ANCHOR_START, 0,
                     _ ("2 in"));
  y += narrow ? 18 : 0;
  draw_bar (out, FALSE, LEFT + (narrow ? 0 : second), y, 50 * CW_TEMPLATE_MM, 50, 10);
  cw_draw_list_text (out, CW_PEN_TEXT, no_id, LEFT + (narrow ? 0 : second) + 50 * CW_TEMPLATE_MM + 4, y,
                     CW_TEMPLATE_LETTERS, CW_ANCHOR_START, 0, _ ("5 cm"));
  y += 5;
  y += wrap (out, LEFT, y, width,
             _ (
               "Drawn side up; ticks show where creases end. Print at 100 %, not fitted to the page, and measure a bar "
               "each way."));
  cw_draw_list_text (out, CW_PEN_TEXT, no_id, LEFT + width, y + CW_TEMPLATE_LETTERS, CW_TEMPLATE_LETTERS, CW_ANCHOR_END,
                     0, number);
  return y + LINE * CW_TEMPLATE_LETTERS - top;
}

/* The upright check bars, in the left margin. */
static void
draw_upright_bars (CwDrawList *list)
{
  draw_bar (list, TRUE, 30, TOP + 20, 2 * 72, 16, 8);
  cw_draw_list_text (list, CW_PEN_TEXT, no_id, 30, TOP + 14, CW_TEMPLATE_LETTERS, CW_ANCHOR_START, 0, _ ("2 in"));
  draw_bar (list, TRUE, 30, TOP + 200, 50 * CW_TEMPLATE_MM, 50, 10);
  cw_draw_list_text (list, CW_PEN_TEXT, no_id, 30, TOP + 194, CW_TEMPLATE_LETTERS, CW_ANCHOR_START, 0, _ ("5 cm"));
}

/**
 * cw_pages_new_template:
 * @analysis: a design
 * @format: the pages' size
 *
 * Returns: (transfer full): all pieces at true size, over as many pages as they take
 */
CwPages *
cw_pages_new_template (const CwAnalysis *analysis, CwPageFormat format)
{
  CwPages *pages;
  Layout layout = { 0 };
  guint pens = 0;

  g_return_val_if_fail (analysis != NULL, NULL);

  pages = cw_pages_new ();
  cw_page_format_get (format, &pages->width, &pages->height);
  pages->title
    = g_strdup_printf (_ ("%s: templates"),
                       analysis->design->head->title != NULL ? analysis->design->head->title : _ ("Folding card"));
  pages->author = g_strdup (cw_extra_get_text (analysis->design->head->extra, "author"));
  pages->line_scale = LINE_SCALE;
  layout.pages = pages;
  layout.width = pages->width - LEFT - RIGHT;
  layout.height = pages->height - TOP - BOTTOM;
  /* The legend stands on every page: its height has to be known before anything is placed. */
  for (guint i = 0; i < analysis->design->pieces->len; i++)
    {
      CwTemplatePiece sheet = sheet_new (analysis, i, "", &layout, &pens);

      cw_draw_list_free (sheet.list);
    }
  layout.height -= draw_foot (NULL, 0, layout.width, pens, "");
  for (guint i = 0; i < analysis->design->pieces->len; i++)
    {
      g_autofree char *words = piece_words (analysis, i);
      CwTemplatePiece sheet = sheet_new (analysis, i, words, &layout, &pens);

      if (sheet.columns * sheet.rows > 1)
        place_tiles (&layout, &sheet, words);
      else
        place_whole (&layout, &sheet, words);
      cw_draw_list_free (sheet.list);
    }
  for (guint i = 0; i < pages->lists->len; i++)
    {
      g_autofree char *number = g_strdup_printf (_ ("Page %u of %u"), i + 1, pages->lists->len);

      draw_foot (g_ptr_array_index (pages->lists, i), TOP + layout.height, layout.width, pens, number);
      draw_upright_bars (g_ptr_array_index (pages->lists, i));
    }
  return pages;
}
