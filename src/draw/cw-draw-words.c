/* cw-draw-words.c: how much room words take in a list that knows no fonts, and words wrapped to a width.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-draw-list.h"

/**
 * cw_draw_text_width:
 * @size: height of the em
 * @text: words
 *
 * Returns: a width the words will not exceed in the usual sans fonts; the list itself knows no fonts
 */
double
cw_draw_text_width (double size, const char *text)
{
  double em = 0;

  for (const char *at = text; *at != '\0'; at = g_utf8_next_char (at))
    {
      gunichar c = g_utf8_get_char (at);
      if (c == ' ' || c == ',' || c == '.' || c == 'i' || c == 'l' || c == 'j' || c == '/' || c == ':' || c == '\'')
        em += 0.34;
      else if (c == 'm' || c == 'w' || c == 'M' || c == 'W')
        em += 0.99;
      else if (g_unichar_iswide (c))
        em += 1;
      else if (g_unichar_isupper (c))
        em += 0.72;
      else
        em += 0.62;
    }
  return em * size;
}

/**
 * cw_draw_words:
 * @list: (nullable): a list; %NULL: the lines are only counted
 * @x: left of the words
 * @y: base of the first line
 * @size: height of the em
 * @leading: from one line to the next
 * @room: no line is wider, unless a single word is
 * @text: words
 *
 * Returns: how many lines there are
 */
guint
cw_draw_words (CwDrawList *list, double x, double y, double size, double leading, double room, const char *text)
{
  const CwId no_id = { CW_ID_NONE, 0, 0, 0 };
  g_auto (GStrv) words = g_strsplit (text, " ", -1);
  g_autoptr (GString) row = g_string_new (NULL);
  guint lines = 0;

  for (guint i = 0;; i++)
    {
      g_autofree char *longer = words[i] == NULL ? NULL
                                : row->len > 0   ? g_strdup_printf ("%s %s", row->str, words[i])
                                                 : g_strdup (words[i]);

      if (longer != NULL && (row->len == 0 || cw_draw_text_width (size, longer) <= room))
        {
          g_string_assign (row, longer);
          continue;
        }
      if (row->len > 0 && list != NULL)
        cw_draw_list_text (list, CW_PEN_TEXT, no_id, x, y + lines * leading, size, CW_ANCHOR_START, 0, row->str);
      lines += row->len > 0 ? 1 : 0;
      if (words[i] == NULL)
        return lines;
      g_string_assign (row, words[i]);
    }
}
