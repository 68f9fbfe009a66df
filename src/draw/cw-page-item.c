/* cw-page-item.c: what stands in boxes: paragraphs with a sign before them, rules, pictures.
 *
 * Signs are drawn, so that no font has to have them: a triangle with an exclamation mark, a square to tick, a dot.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include <glib/gi18n-lib.h>

#include "cw-page-private.h"

static const CwId no_id = { CW_ID_NONE, 0, 0, 0 };

/**
 * cw_page_rule:
 * @list: a list
 * @pen: what the line means
 *
 * Draws a straight line from @x0, @y0 to @x1, @y1, points.
 */
void
cw_page_rule (CwDrawList *list, CwPen pen, double x0, double y0, double x1, double y1)
{
  cw_draw_list_begin (list, pen, no_id);
  cw_draw_list_move (list, x0, y0);
  cw_draw_list_line (list, x1, y1);
  cw_draw_list_end (list);
}

/* A triangle with an exclamation mark, as tall as the letters. */
static void
draw_warning (CwDrawList *list, double x, double y, double size)
{
  cw_draw_list_begin (list, CW_PEN_OUTLINE, no_id);
  cw_draw_list_move (list, x + size / 2, y);
  cw_draw_list_line (list, x + size, y + 0.9 * size);
  cw_draw_list_line (list, x, y + 0.9 * size);
  cw_draw_list_close (list);
  cw_draw_list_end (list);
  cw_draw_list_text (list, CW_PEN_TITLE, no_id, x + size / 2, y + 0.84 * size, 0.68 * size, CW_ANCHOR_MIDDLE, 0, "!");
}

/* An empty square to tick. */
static void
draw_tick_box (CwDrawList *list, double x, double y, double size)
{
  double side = 0.72 * size;

  cw_draw_list_begin (list, CW_PEN_EDGE, no_id);
  cw_draw_list_move (list, x, y + 0.22 * size);
  cw_draw_list_line (list, x + side, y + 0.22 * size);
  cw_draw_list_line (list, x + side, y + 0.22 * size + side);
  cw_draw_list_line (list, x, y + 0.22 * size + side);
  cw_draw_list_close (list);
  cw_draw_list_end (list);
}

/**
 * cw_page_box_item:
 * @box: a box
 * @sign: what stands before the words
 * @x: left of the sign, points
 * @width: of sign and words
 * @size: of the letters
 * @text: a paragraph
 */
void
cw_page_box_item (CwPageBox *box, CwPageSign sign, double x, double width, double size, const char *text)
{
  double indent = sign == CW_PAGE_SIGN_NONE ? 0 : 1.4 * size, top = box->y;

  cw_page_box_text (box, CW_PEN_TEXT, size, x + indent, width - indent, text);
  if (sign == CW_PAGE_SIGN_WARNING)
    draw_warning (box->list, x, top + 0.1 * size, size);
  else if (sign == CW_PAGE_SIGN_TICK)
    draw_tick_box (box->list, x, top, size);
  else if (sign == CW_PAGE_SIGN_DOT)
    {
      cw_draw_list_begin (box->list, CW_PEN_PAPER, no_id);
      cw_draw_list_set_colour (box->list, 0x000000);
      cw_draw_list_arc (box->list, x + 0.4 * size, top + 0.66 * size, 0.14 * size);
      cw_draw_list_end (box->list);
    }
  box->y += 0.22 * size;
}

/**
 * cw_page_box_picture:
 * @layout: the pages in the making; learns what the picture's lines mean
 * @box: a box
 * @picture: a picture of the card
 * @x: left, points
 * @y: top
 * @width: at most so wide
 * @height: at most so high
 *
 * Returns: how high it is
 */
double
cw_page_box_picture (CwPageLayout *layout, CwPageBox *box, const CwCardPicture *picture, double x, double y,
                     double width, double height)
{
  g_autoptr (CwDrawList) list = cw_draw_list_new ();
  double tall
    = cw_page_picture (list, layout->card, layout->scene, picture, width, height, &layout->flow.sizes, &layout->pens);

  cw_draw_list_append (box->list, list, 1, x, y);
  if (picture->words != NULL)
    {
      cw_page_words_begin (box->flow, CW_PAGE_WORDS_PICTURE, G_MAXUINT, picture->words);
      cw_draw_list_begin (box->list, CW_PEN_PICK, cw_page_words_id (box->flow, picture->words));
      cw_draw_list_move (box->list, x, y);
      cw_draw_list_line (box->list, x + width, y);
      cw_draw_list_line (box->list, x + width, y + tall);
      cw_draw_list_line (box->list, x, y + tall);
      cw_draw_list_close (box->list);
      cw_draw_list_end (box->list);
      cw_page_words_end (box->flow);
    }
  return tall;
}
