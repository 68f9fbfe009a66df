/* cw-template.c: templates on pages, at true size.
 *
 * A piece that fits stands whole; small ones share pages. A larger one is cut into equal tiles that overlap; crosses
 * stand at the same places of the piece on both pages of a joint, so that laying cross on cross joins them true
 * whatever the printer's margins are. Piece and page may each lie on their side: taken is what needs the fewest pages.
 * Every page has a check bar on either axis: printers stretch one axis more than the other. Lines are half as wide as
 * in pictures, since a knife has to follow their middle.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "cw-template.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#include "cw-page-private.h"
#include "cw-template-private.h"
#include "text/cw-readable.h"
#include "panel/cw-path-flatten.h"

/* Points: what printers leave white, at the sides with room for the upright bars; letters' line; between pieces on one
 * page; between a piece's words or the foot and the piece, with room for the ticks of its creases. */
#define SIDE 36.0
#define TOP 14.0
#define BOTTOM 10.0
#define LINE 1.3
#define APART 22.0
#define GAP (CW_TEMPLATE_TICK_TO + 1)
/* Between a piece and the foot, whose first row has air of its own for ticks. */
#define FOOT_GAP 2.0
/* Lines that a part of a piece may need to say which it is. */
#define PART_LINES 2
/* The check bars, with their words; a row of them. */
#define INCHES (2 * 72.0)
#define CENTIMETRES (50 * CW_TEMPLATE_MM)
#define BAR_WORDS 28.0
#define BAR_ROW 19.0
/* Room for the page's number. */
#define NUMBER 74.0
/* Sums of lengths are equal within this. */
#define HAIR 0.01
/* What neighbouring tiles both show, and the arms of a joining cross. */
#define OVERLAP (10 * CW_TEMPLATE_MM)
#define CROSS (4 * CW_TEMPLATE_MM)
/* Lines as wide as this share of those in pictures. */
#define LINE_SCALE 0.5

static const CwId no_id = { CW_ID_NONE, 0, 0, 0 };

typedef struct
{
  CwPages *pages;
  GArray *pens;                /* of guint, by page: what its lines mean */
  double wide, tall;           /* of an upright page, what may be printed on */
  const char *how, *how_short; /* how to print and read it: on upright pages, on others */
  double head, foot;           /* upright pages: heights of that and of the foot */
  double x, y, row;            /* shelf: next piece's place, the shelf's height */
  gboolean full;               /* nothing more goes on the last page */
} Layout;

/* Words from y down; only counted when @list is NULL. Returns their height. */
static double
wrap (CwDrawList *list, double x, double y, double room, const char *text)
{
  const double leading = LINE * CW_TEMPLATE_LETTERS;

  return leading * cw_draw_words (list, x, y + CW_TEMPLATE_LETTERS, CW_TEMPLATE_LETTERS, leading, room, text);
}

static guint
tiles (double length, double room)
{
  return length <= room + HAIR ? 1
         : room <= OVERLAP     ? 999
                               : (guint) ceil ((length - OVERLAP - HAIR) / (room - OVERLAP));
}

/* A bar of true length with ticks on one side. */
static void
draw_bar (CwDrawList *list, gboolean upright, double x, double y, double length, guint parts, guint long_every)
{
  for (guint i = 0; i <= parts; i++)
    {
      double at = length * i / parts, tick = i % long_every == 0 ? 8 : 4;

      if (upright)
        cw_page_rule (list, CW_PEN_EDGE, x, y + at, x + tick, y + at);
      else
        cw_page_rule (list, CW_PEN_EDGE, x + at, y, x + at, y - tick);
    }
  if (upright)
    cw_page_rule (list, CW_PEN_EDGE, x, y, x, y + length);
  else
    cw_page_rule (list, CW_PEN_EDGE, x, y, x + length, y);
}

/* What stands at the foot of a page: what the lines mean, check bars, its number if any; only counted when @list is
 * NULL. Returns its height. */
static double
draw_foot (CwDrawList *list, double top, double width, guint pens, const char *number)
{
  g_autoptr (CwDrawList) trial = cw_draw_list_new ();
  g_autoptr (CwDrawList) legend = cw_draw_list_new ();
  CwDrawList *out = list != NULL ? list : trial;
  double number_width = number != NULL ? NUMBER : 0;
  double legend_height = cw_draw_legend (legend, 0, 0, width, pens), legend_width, box[4];
  double bars = INCHES + CENTIMETRES + 2 * BAR_WORDS, x = SIDE, y = top;

  cw_draw_list_get_extents (legend, box);
  legend_width = legend_height <= BAR_ROW + HAIR ? box[2] + 14 : width;
  cw_draw_list_set_ground (out, CW_GROUND_TABLE);
  cw_draw_list_append (out, legend, 1, SIDE, top);
  if (legend_width + bars + number_width <= width)
    x += legend_width;
  else
    y += legend_height;
  draw_bar (out, FALSE, x, y + 14, INCHES, 16, 8);
  cw_draw_list_text (out, CW_PEN_TEXT, no_id, x + INCHES + 4, y + 14, CW_TEMPLATE_LETTERS, CW_ANCHOR_START, 0,
                     _ ("2 in"));
  if (bars + number_width <= width)
    x += INCHES + BAR_WORDS;
  else
    y += BAR_ROW;
  draw_bar (out, FALSE, x, y + 14, CENTIMETRES, 50, 10);
  cw_draw_list_text (out, CW_PEN_TEXT, no_id, x + CENTIMETRES + 4, y + 14, CW_TEMPLATE_LETTERS, CW_ANCHOR_START, 0,
                     _ ("5 cm"));
  if (number != NULL)
    cw_draw_list_text (out, CW_PEN_TEXT, no_id, SIDE + width, y + 14, CW_TEMPLATE_LETTERS, CW_ANCHOR_END, 0, number);
  return y + BAR_ROW - top;
}

/* The upright check bars, in the left margin. */
static void
draw_upright_bars (CwDrawList *list)
{
  const double x = 14, words = 24;

  draw_bar (list, TRUE, x, TOP + 34, INCHES, 16, 8);
  cw_draw_list_text (list, CW_PEN_TEXT, no_id, words, TOP + 30, CW_TEMPLATE_LETTERS, CW_ANCHOR_START, 270, _ ("2 in"));
  draw_bar (list, TRUE, x, TOP + 34 + INCHES + BAR_WORDS, CENTIMETRES, 50, 10);
  cw_draw_list_text (list, CW_PEN_TEXT, no_id, words, TOP + 30 + INCHES + BAR_WORDS, CW_TEMPLATE_LETTERS,
                     CW_ANCHOR_START, 270, _ ("5 cm"));
}

static double
page_width (const Layout *layout, const CwTemplatePiece *sheet)
{
  return sheet->on_side ? layout->tall : layout->wide;
}

/* Words over a piece on a page that lies on its side leave room for the page's number. */
static double
words_width (const Layout *layout, const CwTemplatePiece *sheet)
{
  return sheet->on_side ? layout->tall - NUMBER : layout->wide;
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

/* The piece as it needs the fewest pages; upright pages and pieces rather than others. */
static CwTemplatePiece
sheet_new (const CwAnalysis *analysis, guint piece, const Layout *layout)
{
  CwTemplatePiece best = { 0 };
  const CwPiece *item = g_ptr_array_index (analysis->design->pieces, piece);
  CwDrawList *list = cw_draw_list_new ();
  g_autofree char *name = piece_words (analysis, piece), *all = g_strdup_printf ("%s. %s", name, layout->how_short);
  guint pens = 0;

  for (guint way = 0; way < 4; way++)
    {
      CwTemplatePiece sheet = { .piece = item, .list = list, .on_side = way >= 2 };
      double width, height;

      sheet.lying = cw_lying_new (item, (CwLie){ way % 2, FALSE });
      sheet.width = sheet.lying.width * CW_TEMPLATE_SCALE;
      sheet.height = sheet.lying.height * CW_TEMPLATE_SCALE;
      if (way == 0)
        {
          cw_template_draw_piece (&sheet, analysis->design, &pens);
          cw_draw_list_clear (list);
        }
      width = page_width (layout, &sheet);
      height = sheet.on_side ? layout->wide + 2 * SIDE - TOP - BOTTOM - draw_foot (NULL, 0, width, pens, NULL)
                             : layout->tall + 2 * SIDE - TOP - BOTTOM - layout->head - layout->foot;
      sheet.head = wrap (NULL, 0, 0, words_width (layout, &sheet), sheet.on_side ? all : name) + GAP;
      sheet.columns = tiles (sheet.width, width);
      if (sheet.columns > 1 || sheet.height + sheet.head + FOOT_GAP > height + HAIR)
        sheet.head += PART_LINES * LINE * CW_TEMPLATE_LETTERS;
      sheet.room = height - sheet.head - FOOT_GAP;
      sheet.rows = tiles (sheet.height, sheet.room);
      sheet.pens = pens;
      if (way == 0 || sheet.columns * sheet.rows < best.columns * best.rows)
        best = sheet;
    }
  best.map = &analysis->panels->maps[piece];
  cw_template_draw_piece (&best, analysis->design, &pens);
  return best;
}

static CwDrawList *
new_page (Layout *layout, gboolean on_side)
{
  CwDrawList *list = cw_draw_list_new ();
  guint none = 0;

  g_ptr_array_add (layout->pages->lists, list);
  g_array_append_val (layout->pages->on_side, on_side);
  g_array_append_val (layout->pens, none);
  layout->x = 0;
  layout->y = 0;
  layout->row = 0;
  layout->full = on_side;
  if (!on_side)
    wrap (list, SIDE, TOP, layout->wide, layout->how);
  return list;
}

static guint *
last_pens (Layout *layout)
{
  return &g_array_index (layout->pens, guint, layout->pens->len - 1);
}

/* What stands over a piece. */
static char *
sheet_words (const Layout *layout, const CwTemplatePiece *sheet, const char *name)
{
  return sheet->on_side ? g_strdup_printf ("%s. %s", name, layout->how_short) : g_strdup (name);
}

/* A piece that fits: on the shelf that is being filled, the next, or a new page. */
static void
place_whole (Layout *layout, const CwTemplatePiece *sheet, const char *name)
{
  double room = page_width (layout, sheet), top;
  g_autofree char *words = sheet_words (layout, sheet, name);
  double width = MAX (sheet->width, MIN (cw_draw_text_width (CW_TEMPLATE_LETTERS, words), room));
  double height = sheet->height + sheet->head;

  if (layout->x > 0 && layout->x + width > room)
    {
      layout->x = 0;
      layout->y += layout->row + APART;
      layout->row = 0;
    }
  if (layout->pages->lists->len == 0 || layout->full || sheet->on_side
      || layout->y + height > sheet->room + sheet->head + HAIR)
    new_page (layout, sheet->on_side);
  CwDrawList *list = g_ptr_array_index (layout->pages->lists, layout->pages->lists->len - 1);
  top = TOP + (sheet->on_side ? 0 : layout->head) + layout->y;
  wrap (list, SIDE + layout->x, top, words_width (layout, sheet), words);
  cw_draw_list_append (list, sheet->list, 1, SIDE + layout->x, top + sheet->head);
  cw_template_draw_names (sheet, list, (const double[4]){ 0, 0, sheet->width, sheet->height }, SIDE + layout->x,
                          top + sheet->head);
  *last_pens (layout) |= sheet->pens;
  layout->x += width + APART;
  layout->row = MAX (layout->row, height);
}

static void
draw_cross (CwDrawList *list, double x, double y)
{
  cw_page_rule (list, CW_PEN_OUTLINE, x - CROSS, y, x + CROSS, y);
  cw_page_rule (list, CW_PEN_OUTLINE, x, y - CROSS, x, y + CROSS);
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
place_tiles (Layout *layout, const CwTemplatePiece *sheet, const char *name)
{
  double start = TOP + (sheet->on_side ? 0 : layout->head);
  double top = start + sheet->head;
  g_autofree char *words = sheet_words (layout, sheet, name);
  /* All tiles are of one size: no slivers. */
  double room_x = (sheet->width + (sheet->columns - 1) * OVERLAP) / sheet->columns;
  double room_y = (sheet->height + (sheet->rows - 1) * OVERLAP) / sheet->rows;
  double step_x = room_x - OVERLAP, step_y = room_y - OVERLAP;

  for (guint r = 0; r < sheet->rows; r++)
    for (guint c = 0; c < sheet->columns; c++)
      {
        CwDrawList *list = new_page (layout, sheet->on_side);
        double left = c * step_x, above = r * step_y, wide = room_x, tall = room_y;
        g_autofree char *part
          = g_strdup_printf (_ ("Part %u of %u, row %u, column %u. Join the parts so that cross lies "
                                "on cross."),
                             r * sheet->columns + c + 1, sheet->columns * sheet->rows, r + 1, c + 1);

        wrap (list, SIDE, start + wrap (list, SIDE, start, words_width (layout, sheet), words),
              words_width (layout, sheet), part);
        *last_pens (layout) |= sheet->pens;
        cw_draw_list_begin (list, CW_PEN_CLIP, no_id);
        /* At the piece's own edges its ticks and line width stay. */
        double x0 = SIDE - (c == 0 ? CW_TEMPLATE_TICK_TO : 0), y0 = top - (r == 0 ? 2 * CW_TEMPLATE_MM : 0);
        double x1 = SIDE + wide + (c + 1 == sheet->columns ? CW_TEMPLATE_TICK_TO : 0);
        double y1 = top + tall + (r + 1 == sheet->rows ? CW_TEMPLATE_TICK_TO : 0);
        cw_draw_list_move (list, x0, y0);
        cw_draw_list_line (list, x1, y0);
        cw_draw_list_line (list, x1, y1);
        cw_draw_list_line (list, x0, y1);
        cw_draw_list_close (list);
        cw_draw_list_end (list);
        cw_draw_list_append (list, sheet->list, 1, SIDE - left, top - above);
        cw_draw_list_unclip (list);
        cw_template_draw_names (sheet, list, (const double[4]){ left, above, left + wide, above + tall }, SIDE - left,
                                top - above);
        if (c > 0)
          draw_joint (list, TRUE, SIDE + OVERLAP / 2, top, tall);
        if (c + 1 < sheet->columns)
          draw_joint (list, TRUE, SIDE + room_x - OVERLAP / 2, top, tall);
        if (r > 0)
          draw_joint (list, FALSE, top + OVERLAP / 2, SIDE, wide);
        if (r + 1 < sheet->rows)
          draw_joint (list, FALSE, top + room_y - OVERLAP / 2, SIDE, wide);
      }
  /* What follows begins on a page of its own. */
  layout->full = TRUE;
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
  pages->on_side = g_array_new (FALSE, TRUE, sizeof (gboolean));
  pages->line_scale = LINE_SCALE;
  layout.pages = pages;
  layout.pens = g_array_new (FALSE, TRUE, sizeof (guint));
  layout.wide = pages->width - 2 * SIDE;
  layout.tall = pages->height - 2 * SIDE;
  layout.how = _ (
    "Drawn side up; ticks show where creases end. Print at 100 %, not fitted to the page; measure a bar each way.");
  layout.how_short = _ ("Drawn side up. Print at 100 %; measure a bar each way.");
  layout.head = wrap (NULL, 0, 0, layout.wide, layout.how) + 4;
  /* The legend of upright pages explains all lines there are, so that their feet are alike. */
  for (guint i = 0; i < analysis->design->pieces->len; i++)
    {
      CwTemplatePiece sheet = sheet_new (analysis, i, &layout);

      pens |= sheet.pens;
      cw_draw_list_free (sheet.list);
    }
  layout.foot = draw_foot (NULL, 0, layout.wide, pens, "");
  for (guint i = 0; i < analysis->design->pieces->len; i++)
    {
      g_autofree char *name = piece_words (analysis, i);
      CwTemplatePiece sheet = sheet_new (analysis, i, &layout);

      if (sheet.columns * sheet.rows > 1)
        place_tiles (&layout, &sheet, name);
      else
        place_whole (&layout, &sheet, name);
      cw_draw_list_free (sheet.list);
    }
  for (guint i = 0; i < pages->lists->len; i++)
    {
      g_autofree char *number = g_strdup_printf (_ ("Page %u of %u"), i + 1, pages->lists->len);
      gboolean on_side = g_array_index (pages->on_side, gboolean, i);
      double width = on_side ? layout.tall : layout.wide, height = on_side ? pages->width : pages->height;
      guint here = on_side ? g_array_index (layout.pens, guint, i) : pens;

      if (on_side)
        cw_draw_list_text (g_ptr_array_index (pages->lists, i), CW_PEN_TEXT, no_id, SIDE + width,
                           TOP + CW_TEMPLATE_LETTERS, CW_TEMPLATE_LETTERS, CW_ANCHOR_END, 0, number);
      draw_foot (g_ptr_array_index (pages->lists, i),
                 height - BOTTOM - draw_foot (NULL, 0, width, here, on_side ? NULL : ""), width, here,
                 on_side ? NULL : number);
      draw_upright_bars (g_ptr_array_index (pages->lists, i));
    }
  g_array_unref (layout.pens);
  cw_pages_read_words (pages);
  return pages;
}
