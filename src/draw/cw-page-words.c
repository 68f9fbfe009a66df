/* cw-page-words.c: what is said where on the pages, for those who hear them and for changing words in place.
 *
 * Every paragraph gets a number when it is laid out, and its lines carry that number into whatever list they end up in;
 * boxes are laid out more than once, so only what is found on a page in the end is kept.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "cw-page-private.h"

#include "cw-draw-list-private.h"

static void
free_words (gpointer data)
{
  g_free (((CwPageWords *) data)->text);
  g_free (data);
}

/**
 * cw_page_words_init:
 * @flow: pages in the making
 */
void
cw_page_words_init (CwPageFlow *flow)
{
  flow->words = g_ptr_array_new_with_free_func (free_words);
  flow->open_words = G_MAXUINT;
}

/**
 * cw_page_words_begin:
 * @flow: pages in the making
 * @what: what is said next
 * @step: which step of the design it belongs to; %G_MAXUINT: none
 * @text: (nullable): the words; %NULL: those of the first paragraph that comes
 *
 * All that is laid out until cw_page_words_end() counts as one paragraph.
 */
void
cw_page_words_begin (CwPageFlow *flow, CwPageWordsKind what, guint step, const char *text)
{
  CwPageWords *words = g_new0 (CwPageWords, 1);

  words->what = what;
  words->step = step;
  words->text = g_strdup (text);
  flow->open_words = flow->words->len;
  g_ptr_array_add (flow->words, words);
}

/**
 * cw_page_words_end:
 * @flow: pages in the making
 */
void
cw_page_words_end (CwPageFlow *flow)
{
  flow->open_words = G_MAXUINT;
}

/**
 * cw_page_words_id:
 * @flow: pages in the making
 * @text: a paragraph that is laid out now
 *
 * Returns: the id of its lines
 */
CwId
cw_page_words_id (CwPageFlow *flow, const char *text)
{
  CwPageWords *words;
  guint index = flow->open_words;

  if (index == G_MAXUINT)
    {
      index = flow->words->len;
      cw_page_words_begin (flow, CW_PAGE_WORDS_PLAIN, G_MAXUINT, text);
      cw_page_words_end (flow);
    }
  words = g_ptr_array_index (flow->words, index);
  if (words->text == NULL)
    words->text = g_strdup (text);
  return (CwId){ CW_ID_WORDS, 0, index, 0 };
}

/**
 * cw_page_words_take:
 * @flow: pages in the making
 * @list: a list whose words come from elsewhere; each becomes a paragraph
 */
void
cw_page_words_take (CwPageFlow *flow, CwDrawList *list)
{
  for (guint i = 0; i < list->items->len; i++)
    {
      CwItem *item = &g_array_index (list->items, CwItem, i);

      if (item->text != G_MAXUINT)
        item->id = cw_page_words_id (flow, list->words->str + item->text);
    }
}

/**
 * cw_pages_read_words:
 * @pages: finished pages whose words nobody has kept; each line becomes a paragraph
 */
void
cw_pages_read_words (CwPages *pages)
{
  pages->words = g_ptr_array_new_with_free_func (free_words);
  for (guint p = 0; p < pages->lists->len; p++)
    {
      const CwDrawList *list = g_ptr_array_index (pages->lists, p);

      for (guint i = 0; i < list->items->len; i++)
        {
          CwItem *item = &g_array_index (list->items, CwItem, i);
          CwPageWords *words = NULL;

          if (item->text == G_MAXUINT)
            continue;
          item->id = (CwId){ CW_ID_WORDS, 0, pages->words->len, 0 };
          words = g_new0 (CwPageWords, 1);
          words->text = g_strdup (list->words->str + item->text);
          words->step = G_MAXUINT;
          words->page = p;
          cw_draw_list_get_box (list, item->id, words->box);
          g_ptr_array_add (pages->words, words);
        }
    }
}

/* Which paragraphs have lines on a page. */
static void
find_on_page (const CwDrawList *list, gboolean *here, guint n)
{
  for (guint i = 0; i < list->items->len; i++)
    {
      const CwItem *item = &g_array_index (list->items, CwItem, i);

      if (item->id.kind == CW_ID_WORDS && item->id.index < n)
        here[item->id.index] = TRUE;
    }
}

/**
 * cw_page_words_settle:
 * @flow: finished pages; they get the paragraphs that are on them
 */
void
cw_page_words_settle (CwPageFlow *flow)
{
  CwPages *pages = flow->pages;
  guint n = flow->words->len;

  pages->words = g_ptr_array_new_with_free_func (free_words);
  for (guint p = 0; p < pages->lists->len; p++)
    {
      const CwDrawList *list = g_ptr_array_index (pages->lists, p);
      g_autofree gboolean *here = g_new0 (gboolean, n + 1);

      find_on_page (list, here, n);
      for (guint i = 0; i < n; i++)
        {
          CwPageWords *words = g_ptr_array_index (flow->words, i);

          if (!here[i] || words->text == NULL)
            continue;
          words->page = p;
          cw_draw_list_get_box (list, (CwId){ CW_ID_WORDS, 0, i, 0 }, words->box);
          words->box[2] = MIN (words->box[2], pages->width - flow->sizes.margin / 2);
          flow->words->pdata[i] = g_new0 (CwPageWords, 1);
          g_ptr_array_add (pages->words, words);
        }
    }
  g_clear_pointer (&flow->words, g_ptr_array_unref);
}
