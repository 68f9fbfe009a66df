/* cw-measure-spoken.c: fractions of an inch as they are said at the table: "13 sixteenths past 4", "a quarter past 3",
 * "5 16ths".
 *
 * Works on the tokens of a line, before its units are settled. A fraction said in words is always one of an inch;
 * refuses one with another unit.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "text/cw-measure-line.h"
#include "text/cw-measure-token-private.h"

#include <glib/gi18n-lib.h>
#include <string.h>

static const struct
{
  const char *word;
  int parts;
} words[] = {
  { "half", 2 },          { "halves", 2 },         { "quarter", 4 },      { "quarters", 4 },      { "fourth", 4 },
  { "fourths", 4 },       { "eighth", 8 },         { "eighths", 8 },      { "sixteenth", 16 },    { "sixteenths", 16 },
  { "thirtysecond", 32 }, { "thirtyseconds", 32 }, { "sixtyfourth", 64 }, { "sixtyfourths", 64 },
};

/* What part of an inch a token names; 0: none. */
static int
get_parts (const CwToken *token)
{
  if (token->kind == CW_TOKEN_MIDDLE)
    return 2; /* "half" */
  for (guint i = 0; token->kind == CW_TOKEN_WORD && i < G_N_ELEMENTS (words); i++)
    if (strcmp (token->word, words[i].word) == 0)
      return words[i].parts;
  return 0;
}

/* A length token read as inches: its count, in ticks of an inch. */
static gboolean
read_inches (const CwToken *token, gint64 *ticks, const char **end, GError **error)
{
  CwLength length;
  gboolean said = FALSE;

  if (!cw_length_scan (token->start, CW_UNIT_INCH, &length, &said, end, error))
    return FALSE;
  if (said && length.unit != CW_UNIT_INCH)
    {
      g_set_error (error, CW_MEASURE_ERROR, CW_MEASURE_ERROR_SYNTAX,
                   _ ("“%.*s”: halves to sixty-fourths are of an inch"), (int) (token->end - token->start),
                   token->start);
      return FALSE;
    }
  *ticks = length.ticks;
  return TRUE;
}

/* How many tokens from `at` on say a fraction, and of which part; 0 when there is none. "16ths" are two tokens. */
static guint
find_parts (const CwToken *token, int *parts)
{
  *parts = get_parts (token);
  if (*parts != 0)
    return 1;
  if (token->kind == CW_TOKEN_LENGTH && !token->unit_said && token[1].kind == CW_TOKEN_WORD
      && token[1].start == token->end
      && (strcmp (token[1].word, "ths") == 0 || strcmp (token[1].word, "th") == 0
          || strcmp (token[1].word, "nds") == 0))
    for (guint i = 0; i < G_N_ELEMENTS (words); i++)
      {
        g_autofree char *digits = g_strdup_printf ("%d", words[i].parts);

        if ((gsize) (token->end - token->start) == strlen (digits)
            && strncmp (token->start, digits, strlen (digits)) == 0)
          {
            *parts = words[i].parts;
            return 2;
          }
      }
  return 0;
}

/**
 * cw_measure_tokens_join_spoken:
 * @tokens: (element-type CwToken): the tokens of a line, changed
 *
 * Makes one length of every fraction said in words, with the whole number it is past.
 *
 * Returns: FALSE with CW_MEASURE_ERROR when the unit does not go with it
 */
gboolean
cw_measure_tokens_join_spoken (GArray *tokens, GError **error)
{
  for (guint i = 0; i + 1 < tokens->len; i++)
    {
      CwToken *token = &g_array_index (tokens, CwToken, i);
      gboolean counted = token->kind == CW_TOKEN_LENGTH;
      gint64 count = CW_TICKS_PER_INCH, whole = 0;
      const char *end = token->end, *ignored;
      int parts = 0;
      guint n = find_parts (token + counted, &parts), more = 0;

      if (n == 0)
        continue;
      const CwToken *after = token + counted + n;
      more = after->kind == CW_TOKEN_WORD && (strcmp (after->word, "past") == 0 || strcmp (after->word, "after") == 0)
                 && after[1].kind == CW_TOKEN_LENGTH
               ? 2
               : 0;
      if (token->kind == CW_TOKEN_MIDDLE && more == 0)
        continue; /* "half" alone is the middle */
      if (counted && !read_inches (token, &count, &ignored, error))
        return FALSE;
      end = after[-1].end;
      if (more > 0 && !read_inches (after + 1, &whole, &end, error))
        return FALSE;
      whole += count / parts;
      if (whole > CW_LENGTH_MAX)
        {
          g_set_error_literal (error, CW_LENGTH_ERROR, CW_LENGTH_ERROR_TOO_LARGE,
                               _ ("this is too long; the largest measure is 60 in (1524 mm)"));
          return FALSE;
        }
      token->kind = CW_TOKEN_LENGTH;
      token->length = cw_length_from_ticks ((gint32) whole, CW_UNIT_INCH);
      token->unit_said = TRUE;
      token->end = end;
      g_array_remove_range (tokens, i + 1, counted + n + more - 1);
    }
  return TRUE;
}
