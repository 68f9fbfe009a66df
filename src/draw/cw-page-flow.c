/* cw-page-flow.c: boxes flowing from page to page.
 *
 * A box is laid out first, by Pango, and only then placed: so it is known before whether it fits, and nothing is ever
 * clipped or runs into the foot. Headings wait for what follows them. A box taller than a page, as long notes are, is
 * cut between two of its lines; if it has none to be cut at it is drawn smaller.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include <glib/gi18n-lib.h>

#include "cw-page-private.h"

#define FONT "sans-serif"
/* Room for the foot of the page: its line and the gap above it, in letters of its size. */
#define FOOT 2.2
/* Lines stand this many letters apart. */
#define LEADING 1.28
/* Sums of heights are equal within this, points. */
#define HAIR 0.01

static const CwId no_id = { CW_ID_NONE, 0, 0, 0 };

static const CwPageSizes normal = { 12, 10, 15, 22, 40, 8, 1.0 };
static const CwPageSizes large = { 18, 18, 22, 28, 40, 12, 1.64 };

/* Where a box may be cut: below a line of words, with so many items of its list before. */
typedef struct
{
  guint items;
  double y;
} LineEnd;

/* A box that waits, with the gap wanted before it. */
typedef struct
{
  CwPageBox *box;
  double gap;
} Waiting;

static void
new_page (CwPageFlow *flow)
{
  g_ptr_array_add (flow->pages->lists, cw_draw_list_new ());
  flow->y = flow->top;
}

/**
 * cw_page_flow_init:
 * @flow: (out): pages in the making
 * @pages: (inout): gets its size, and pages as they fill
 * @style: sheet and type
 */
void
cw_page_flow_init (CwPageFlow *flow, CwPages *pages, const CwPageStyle *style)
{
  PangoFontMap *map = pango_cairo_font_map_get_default ();

  *flow = (CwPageFlow){ .pages = pages, .sizes = style->large ? large : normal };
  cw_page_format_get (style->format, &pages->width, &pages->height);
  /* Small sheets have less to spare. */
  if (pages->width < 500)
    flow->sizes.margin = 30;
  flow->left = flow->top = flow->sizes.margin;
  flow->width = pages->width - 2 * flow->sizes.margin;
  flow->bottom = pages->height - flow->sizes.margin - FOOT * flow->sizes.small;
  flow->waiting = g_ptr_array_new_with_free_func (g_free);
  flow->context = pango_font_map_create_context (map);
  pango_cairo_context_set_resolution (flow->context, 72);
  flow->font = pango_font_description_from_string (FONT);
  cw_page_words_init (flow);
  new_page (flow);
}

static PangoLayout *
lay_out (CwPageFlow *flow, CwPen pen, double size, double width, const char *text)
{
  PangoLayout *layout = pango_layout_new (flow->context);

  pango_font_description_set_absolute_size (flow->font, size * PANGO_SCALE);
  pango_font_description_set_weight (flow->font, pen == CW_PEN_TITLE ? PANGO_WEIGHT_BOLD : PANGO_WEIGHT_NORMAL);
  pango_layout_set_font_description (layout, flow->font);
  pango_layout_set_wrap (layout, PANGO_WRAP_WORD_CHAR);
  if (width > 0)
    pango_layout_set_width (layout, (int) (width * PANGO_SCALE));
  pango_layout_set_text (layout, text, -1);
  return layout;
}

/* A measure must not be torn at a line's end: its spaces become ones that do not break. */
static char *
keep_measures (const char *text)
{
  GString *kept = g_string_new (NULL);

  for (const char *p = text; *p != '\0'; p++)
    {
      gboolean digit = p > text && g_ascii_isdigit (p[-1]);
      gboolean unit
        = (g_str_has_prefix (p + 1, "in") || g_str_has_prefix (p + 1, "mm") || g_str_has_prefix (p + 1, "cm"))
          && !g_ascii_isalpha (p[1] != '\0' && p[2] != '\0' ? p[3] : '\0');

      if (*p == ' ' && digit && (g_ascii_isdigit (p[1]) || unit || p[1] == '%'))
        g_string_append (kept, "\u00a0");
      else
        g_string_append_c (kept, *p);
    }
  return g_string_free (kept, FALSE);
}

/**
 * cw_page_text_width:
 *
 * Returns: how wide the words are in one line, points
 */
double
cw_page_text_width (CwPageFlow *flow, CwPen pen, double size, const char *text)
{
  PangoLayout *layout = lay_out (flow, pen, size, -1, text);
  int width;

  pango_layout_get_size (layout, &width, NULL);
  g_object_unref (layout);
  return (double) width / PANGO_SCALE;
}

/**
 * cw_page_text_height:
 *
 * Returns: how high the words are, wrapped to @width, points
 */
double
cw_page_text_height (CwPageFlow *flow, CwPen pen, double size, double width, const char *text)
{
  PangoLayout *layout = lay_out (flow, pen, size, width, text);
  int lines = pango_layout_get_line_count (layout);

  g_object_unref (layout);
  return lines * size * LEADING;
}

/**
 * cw_page_box_new:
 *
 * Returns: (transfer full): an empty box
 */
CwPageBox *
cw_page_box_new (CwPageFlow *flow, double width)
{
  CwPageBox *box = g_new0 (CwPageBox, 1);

  box->flow = flow;
  box->list = cw_draw_list_new ();
  box->ends = g_array_new (FALSE, FALSE, sizeof (LineEnd));
  box->width = width;
  return box;
}

/**
 * cw_page_box_free:
 * @box: (transfer full): a box
 */
void
cw_page_box_free (CwPageBox *box)
{
  cw_draw_list_free (box->list);
  g_array_unref (box->ends);
  g_free (box);
}

/**
 * cw_page_box_text:
 * @box: a box
 * @pen: %CW_PEN_TEXT or %CW_PEN_TITLE
 * @size: of the letters, points
 * @x: left of the words
 * @width: they are wrapped to this; -1: one line
 * @text: a paragraph
 *
 * Adds it and moves on below it.
 */
void
cw_page_box_text (CwPageBox *box, CwPen pen, double size, double x, double width, const char *text)
{
  g_autofree char *kept = keep_measures (text);
  CwId id = cw_page_words_id (box->flow, text);
  PangoLayout *layout = lay_out (box->flow, pen, size, width, kept);
  GSList *lines = pango_layout_get_lines_readonly (layout);

  /* What stands beside other words is not to be cut there. */
  while (box->ends->len > 0 && g_array_index (box->ends, LineEnd, box->ends->len - 1).y > box->y + HAIR)
    g_array_set_size (box->ends, box->ends->len - 1);
  for (GSList *at = lines; at != NULL; at = at->next)
    {
      const PangoLayoutLine *line = at->data;
      g_autofree char *words = g_strndup (kept + line->start_index, (gsize) line->length);
      gboolean rtl = pango_layout_line_get_resolved_direction (at->data) == PANGO_DIRECTION_RTL;

      g_strchomp (words);
      cw_draw_list_text (box->list, pen, id, rtl ? x + width : x, box->y + size, size,
                         rtl ? CW_ANCHOR_END : CW_ANCHOR_START, 0, words);
      box->y += size * LEADING;
      LineEnd end = { cw_draw_list_get_n_items (box->list), box->y };
      g_array_append_val (box->ends, end);
    }
  g_object_unref (layout);
}

static double
waiting_height (const CwPageFlow *flow)
{
  double sum = 0;

  for (guint i = 0; i < flow->waiting->len; i++)
    {
      const Waiting *waiting = g_ptr_array_index (flow->waiting, i);

      sum += waiting->box->y + waiting->gap;
    }
  return sum;
}

/**
 * cw_page_flow_room:
 *
 * Returns: the height of an empty page, less what waits, points
 */
double
cw_page_flow_room (const CwPageFlow *flow)
{
  double waiting = waiting_height (flow);

  return flow->bottom - flow->top - (waiting > 0 ? waiting + flow->sizes.gap : 0);
}

/**
 * cw_page_flow_left:
 *
 * Returns: the height left on this page below what waits, points
 */
double
cw_page_flow_left (const CwPageFlow *flow)
{
  return flow->bottom - flow->y - waiting_height (flow);
}

/* The last end of a line of a box, after some, above a height; NULL: none. */
static const LineEnd *
find_end (const CwPageBox *box, guint after, double y)
{
  const LineEnd *last = NULL;

  for (guint i = 0; i < box->ends->len; i++)
    {
      const LineEnd *end = &g_array_index (box->ends, LineEnd, i);

      if (end->items > after && end->y <= y + HAIR)
        last = end;
    }
  return last;
}

static void
put (CwPageFlow *flow, CwPageBox *box)
{
  guint first = 0, n = cw_draw_list_get_n_items (box->list);
  double from = 0;

  for (;;)
    {
      CwDrawList *page = g_ptr_array_index (flow->pages->lists, flow->pages->lists->len - 1);
      double room = flow->bottom - flow->y, left = box->y - from;
      const LineEnd *end = left > room + HAIR ? find_end (box, first, from + room) : NULL;

      if (end != NULL)
        {
          cw_draw_list_append_part (page, box->list, first, end->items - first, 1, flow->left, flow->y - from);
          first = end->items;
          from = end->y;
        }
      else if (left <= room + HAIR || flow->y <= flow->top)
        {
          double scale = left > room + HAIR ? room / left : 1;

          cw_draw_list_append_part (page, box->list, first, n - first, scale, flow->left, flow->y - from * scale);
          flow->y += left * scale;
          break;
        }
      new_page (flow);
    }
  cw_page_box_free (box);
}

/**
 * cw_page_flow_wait:
 * @box: (transfer full): a box
 * @gap_before: points
 *
 * Keeps it for the one that comes next: they go on one page.
 */
void
cw_page_flow_wait (CwPageFlow *flow, CwPageBox *box, double gap_before)
{
  Waiting *waiting = g_new (Waiting, 1);

  waiting->box = box;
  waiting->gap = gap_before;
  g_ptr_array_add (flow->waiting, waiting);
}

/**
 * cw_page_flow_place:
 * @box: (transfer full): a box
 * @gap_before: points, left out at the top of a page
 *
 * Puts it on the page, on a new one if it does not fit.
 */
void
cw_page_flow_place (CwPageFlow *flow, CwPageBox *box, double gap_before)
{
  gboolean first = flow->y <= flow->top;
  double needs = box->y + gap_before;

  for (guint i = 0; i < flow->waiting->len; i++)
    {
      const Waiting *waiting = g_ptr_array_index (flow->waiting, i);

      needs += waiting->box->y + (first && i == 0 ? 0 : waiting->gap);
    }
  if (!first && flow->y + needs > flow->bottom + HAIR)
    {
      new_page (flow);
      first = TRUE;
    }
  for (guint i = 0; i < flow->waiting->len; i++)
    {
      const Waiting *waiting = g_ptr_array_index (flow->waiting, i);

      flow->y += first ? 0 : waiting->gap;
      put (flow, waiting->box);
      first = FALSE;
    }
  g_ptr_array_set_size (flow->waiting, 0);
  flow->y += first ? 0 : gap_before;
  put (flow, box);
}

/**
 * cw_page_flow_heading:
 * @text: a heading; it waits for what follows it
 */
void
cw_page_flow_heading (CwPageFlow *flow, const char *text)
{
  CwPageBox *box = cw_page_box_new (flow, flow->width);

  cw_page_words_begin (flow, CW_PAGE_WORDS_HEADING, G_MAXUINT, NULL);
  cw_page_box_text (box, CW_PEN_TITLE, flow->sizes.heading, 0, flow->width, text);
  cw_page_words_end (flow);
  box->y += 2;
  cw_page_flow_wait (flow, box, 2 * flow->sizes.gap);
}

/**
 * cw_page_flow_finish:
 * @flow: pages in the making; places what waits and writes the feet of the pages
 */
void
cw_page_flow_finish (CwPageFlow *flow)
{
  if (flow->waiting->len > 0)
    cw_page_flow_place (flow, cw_page_box_new (flow, flow->width), 0);
  for (guint i = 0; i < flow->pages->lists->len; i++)
    {
      CwDrawList *list = g_ptr_array_index (flow->pages->lists, i);
      double size = flow->sizes.small, y = flow->pages->height - flow->sizes.margin;
      g_autofree char *number = g_strdup_printf (_ ("Page %u of %u"), i + 1, flow->pages->lists->len);
      double room = flow->width - cw_page_text_width (flow, CW_PEN_TEXT, size, number) - size;
      char *title = g_strdup (flow->pages->title);

      /* A long title gives way to the number. */
      for (glong n = g_utf8_strlen (title, -1); n > 0 && cw_page_text_width (flow, CW_PEN_TEXT, size, title) > room;)
        {
          g_autofree char *start = g_utf8_substring (flow->pages->title, 0, --n);

          g_free (title);
          title = g_strconcat (g_strchomp (start), "…", NULL);
        }
      cw_draw_list_set_ground (list, CW_GROUND_TABLE);
      cw_draw_list_text (list, CW_PEN_TEXT, no_id, flow->left, y, size, CW_ANCHOR_START, 0, title);
      cw_draw_list_text (list, CW_PEN_TEXT, no_id, flow->left + flow->width, y, size, CW_ANCHOR_END, 0, number);
      g_free (title);
    }
  cw_page_words_settle (flow);
  g_ptr_array_unref (flow->waiting);
  g_object_unref (flow->context);
  pango_font_description_free (flow->font);
}
