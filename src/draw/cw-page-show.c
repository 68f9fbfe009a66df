/* cw-page-show.c: one step of a card laid out for a screen that many look at.
 *
 * The picture takes one part of the screen, a large number, the title and the words the other; beside each other on a
 * wide screen, one under the other on a tall one. Words are as large as all of them allow: sizes are tried from the
 * largest down, so that nothing is ever cut off while there is a size that fits.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "cw-page-show.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#include "cw-page-private.h"

/* Shares of the screen's height: margin; the number; words at their largest and smallest; and never under this, logical
 * pixels. */
#define MARGIN 0.035
#define NUMBER 0.15
#define LARGEST 0.048
#define SMALLEST 0.016
#define LEAST 9.0
/* Each size tried is this share of the one before. */
#define SHRINK 0.93
/* Words from this on can be read from afar. */
#define COMFORT 0.03
/* A picture of the size of a page's is drawn this many times as large on a screen as high as this. */
#define PAGE_HEIGHT 460.0

/**
 * cw_show_get_n_steps:
 * @card: a step card
 *
 * Returns: how many steps there are, making and using ones
 */
guint
cw_show_get_n_steps (const CwStepCard *card)
{
  g_return_val_if_fail (card != NULL, 0);
  return card->making->len + card->using->len;
}

/**
 * cw_show_get_step:
 * @card: a step card
 * @index: which, from 0
 *
 * Returns: (transfer none): the step
 */
const CwCardStep *
cw_show_get_step (const CwStepCard *card, guint index)
{
  g_return_val_if_fail (card != NULL && index < cw_show_get_n_steps (card), NULL);
  return index < card->making->len ? g_ptr_array_index (card->making, index)
                                   : g_ptr_array_index (card->using, index - card->making->len);
}

/**
 * cw_show_find_step:
 * @card: a step card
 * @design_step: index of a step of the design; %G_MAXUINT: before the first
 *
 * Returns: the step of the card to begin with
 */
guint
cw_show_find_step (const CwStepCard *card, guint design_step)
{
  g_return_val_if_fail (card != NULL, 0);
  for (guint i = 0; design_step != G_MAXUINT && i < cw_show_get_n_steps (card); i++)
    {
      guint own = cw_show_get_step (card, i)->step;

      if (own != G_MAXUINT && own >= design_step)
        return i;
    }
  return 0;
}

/**
 * cw_show_dup_time:
 * @card: a step card
 * @index: which step, from 0
 *
 * Returns: (transfer full): how long the making still takes from this step on; "" where the maker has not said
 */
char *
cw_show_dup_time (const CwStepCard *card, guint index)
{
  double minutes = 0;
  guint n;

  g_return_val_if_fail (card != NULL, NULL);
  for (guint i = index; i < card->making->len; i++)
    minutes += ((const CwCardStep *) g_ptr_array_index (card->making, i))->minutes;
  n = (guint) ceil (minutes);
  if (n == 0)
    return g_strdup ("");
  return g_strdup_printf (dngettext (GETTEXT_PACKAGE, "about %u minute left", "about %u minutes left", n), n);
}

/* All paragraphs of a step below its title, with the sign before them. */
static void
each_words (const CwStepCard *card, const CwCardStep *step,
            void (*tell) (CwPageSign sign, const char *text, gpointer data), gpointer data)
{
  for (guint i = 0; i < step->lines->len; i++)
    tell (CW_PAGE_SIGN_NONE, g_ptr_array_index (step->lines, i), data);
  /* The first step cuts the pieces: here the list of them stands nowhere else. */
  for (guint i = 0; step->number == 1 && i < card->cuts->len; i++)
    {
      const CwCardCut *cut = g_ptr_array_index (card->cuts, i);
      g_autofree char *count = cw_card_cut_dup_count (cut);
      g_autofree char *text
        = g_strdup_printf ("%s: %s, %s: %s; %s", cut->letter, cut->name, count, cut->size, cut->paper);

      tell (CW_PAGE_SIGN_TICK, text, data);
    }
  for (guint i = 0; i < step->moves->len; i++)
    {
      const CwCardMove *row = g_ptr_array_index (step->moves, i);
      g_autofree char *sentence = cw_card_move_dup_sentence (row);

      tell (CW_PAGE_SIGN_NONE, sentence, data);
    }
  for (guint i = 0; i < step->cautions->len; i++)
    tell (CW_PAGE_SIGN_WARNING, g_ptr_array_index (step->cautions, i), data);
  if (step->caption != NULL && *step->caption != '\0')
    tell (CW_PAGE_SIGN_NONE, step->caption, data);
  for (guint i = 0; i < step->checks->len; i++)
    tell (CW_PAGE_SIGN_TICK, g_ptr_array_index (step->checks, i), data);
}

static void
tell_line (CwPageSign sign, const char *text, gpointer data)
{
  g_string_append_printf (data, "\n%s", text);
}

/**
 * cw_show_dup_words:
 * @card: a step card
 * @index: which step, from 0
 *
 * Returns: (transfer full): all that is shown of it, for those who hear it
 */
char *
cw_show_dup_words (const CwStepCard *card, guint index)
{
  const CwCardStep *step = cw_show_get_step (card, index);
  g_autofree char *time = NULL;
  g_autoptr (GString) text = g_string_new (NULL);

  g_return_val_if_fail (step != NULL, NULL);
  time = cw_show_dup_time (card, index);
  g_string_append_printf (text, _ ("Step %u of %u"), step->number, cw_show_get_n_steps (card));
  g_string_append_printf (text, ": %s", step->title);
  if (step->face != NULL)
    g_string_append_printf (text, "\n%s", step->face);
  each_words (card, step, tell_line, text);
  if (*time != '\0')
    g_string_append_printf (text, "\n%s", time);
  return g_strdup (text->str);
}

typedef struct
{
  CwPageBox *box;
  double size;
} Filling;

static void
fill (CwPageSign sign, const char *text, gpointer data)
{
  Filling *filling = data;

  cw_page_box_item (filling->box, sign, 0, filling->box->width, filling->size, text);
}

static CwPageBox *
fill_words (CwPageFlow *flow, const CwStepCard *card, const CwCardStep *step, double width, double number, double size)
{
  CwPageBox *box = cw_page_box_new (flow, width);
  Filling filling = { box, size };
  g_autofree char *count = g_strdup_printf (_ ("of %u"), cw_show_get_n_steps (card));
  g_autofree char *digits = g_strdup_printf ("%u", step->number);
  double wide = cw_page_text_width (flow, CW_PEN_TITLE, number, digits);

  cw_page_box_text (box, CW_PEN_TITLE, number, 0, -1, digits);
  cw_draw_list_text (box->list, CW_PEN_TEXT, (CwId){ CW_ID_NONE, 0, 0, 0 }, wide + 0.2 * number, number, number * 0.3,
                     CW_ANCHOR_START, 0, count);
  box->y = 1.18 * number;
  cw_page_box_text (box, CW_PEN_TITLE, 1.25 * size, 0, width, step->title);
  if (step->face != NULL)
    cw_page_box_text (box, CW_PEN_TEXT, 0.8 * size, 0, width, step->face);
  box->y += 0.4 * size;
  each_words (card, step, fill, &filling);
  return box;
}

/* Words as large as a room allows. */
typedef struct
{
  CwPageBox *box;
  double size;
} Fitted;

static Fitted
fit_words (CwPageFlow *flow, const CwStepCard *card, const CwCardStep *step, double width, double height,
           double short_side)
{
  double number = NUMBER * short_side, least = MAX (LEAST, SMALLEST * short_side);
  Fitted fitted = { NULL, LARGEST * short_side };

  while (fitted.box == NULL || (fitted.box->y > height && fitted.size > least))
    {
      if (fitted.box != NULL)
        {
          cw_page_box_free (fitted.box);
          fitted.size = MAX (least, fitted.size * SHRINK);
          number = MAX (0.06 * short_side, number * 0.96);
        }
      fitted.box = fill_words (flow, card, step, width, number, fitted.size);
    }
  if (fitted.box->y > height)
    fitted.size = 0.5 * LEAST;
  return fitted;
}

/**
 * cw_show_draw:
 * @card: a step card
 * @scene: its card's scene
 * @index: which step, from 0
 * @width: of the screen, logical pixels
 * @height: of the screen
 *
 * Returns: (transfer full): the step laid out
 */
CwDrawList *
cw_show_draw (const CwStepCard *card, CwCardScene *scene, guint index, double width, double height)
{
  const CwCardStep *step = cw_show_get_step (card, index);
  CwDrawList *list = cw_draw_list_new ();
  g_autoptr (CwPages) pages = cw_pages_new ();
  g_autofree char *time = NULL;
  const CwPageStyle style = { CW_PAGE_LETTER, FALSE };
  const CwPageSizes page = { 12, 10, 15, 22, 0, 8, 1.0 };
  static const double shares[] = { 0.54, 0.44, 0.34 };
  CwPageFlow flow;
  guint pens = 0;

  g_return_val_if_fail (step != NULL && width > 0 && height > 0, list);

  double margin = MARGIN * height, short_side = MIN (height, 0.75 * width);
  gboolean wide = width > 1.1 * height, pictured = step->picture.kind != CW_CARD_PICTURE_NONE;
  double foot = MAX (LEAST, 0.03 * short_side), room_x = width - 2 * margin, room_y = height - 2 * margin;
  Fitted best = { 0 };
  double across = 0, down = 0;

  time = cw_show_dup_time (card, index);
  if (*time != '\0')
    room_y -= 1.6 * foot;
  pages->title = g_strdup ("");
  cw_page_flow_init (&flow, pages, &style);
  cw_draw_list_set_ground (list, CW_GROUND_TABLE);
  /* The picture gives way to the words until they can be read from afar. */
  for (guint i = 0; i < G_N_ELEMENTS (shares) && best.size < COMFORT * short_side; i++)
    {
      double share = pictured ? shares[i] : 0;
      double x = wide && pictured ? room_x * (1 - share) - 1.2 * margin : room_x;
      double y = !wide && pictured ? room_y * (1 - share) - margin : room_y;
      Fitted fitted = fit_words (&flow, card, step, x, y, short_side);

      if (best.box != NULL && fitted.size <= best.size)
        {
          cw_page_box_free (fitted.box);
          continue;
        }
      if (best.box != NULL)
        cw_page_box_free (best.box);
      best = fitted;
      across = wide ? share * room_x : room_x;
      down = wide ? room_y : share * room_y;
    }
  if (pictured)
    {
      g_autoptr (CwDrawList) picture = cw_draw_list_new ();
      double scale = MAX (1, short_side / PAGE_HEIGHT), tall;

      tall = cw_page_picture (picture, card, scene, &step->picture, across / scale, down / scale, &page, &pens) * scale;
      cw_draw_list_append (list, picture, scale, margin, margin + (wide ? MAX (0, (down - tall) / 2) : 0));
    }
  cw_draw_list_append (list, best.box->list, 1, margin + (wide && pictured ? across + 1.2 * margin : 0),
                       margin + (!wide && pictured ? down + margin : 0));
  cw_page_box_free (best.box);
  cw_draw_list_set_ground (list, CW_GROUND_TABLE);
  if (*time != '\0')
    cw_draw_list_text (list, CW_PEN_TEXT, (CwId){ CW_ID_NONE, 0, 0, 0 }, width - margin, height - margin, foot,
                       CW_ANCHOR_END, 0, time);
  cw_page_flow_finish (&flow);
  return list;
}
