/* cw-measure-token.c: cuts a measure line into lengths, words and commas.
 *
 * Synonyms of the trade are brought to one word here, filler words are dropped. If the line names one unit, bare
 * numbers take it, else the design's. Refuses the two words that the trade uses with opposite meanings, with the words
 * to use instead.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "text/cw-measure-token-private.h"

#include "text/cw-measure-line.h"

#include <glib/gi18n-lib.h>
#include <string.h>

/* What the maker writes, and the word the grammar knows; "" drops it, "," makes it a comma, "|" the middle. */
static const char *const synonyms[][2] = {
  { "scores", "score" },
  { "scored", "score" },
  { "scoring", "score" },
  { "fold", "score" },
  { "folds", "score" },
  { "crease", "score" },
  { "creases", "score" },
  { "presses", "press" },
  { "pressed", "press" },
  { "cuts", "cut" },
  { "slit", "cut" },
  { "slits", "cut" },
  { "slice", "cut" },
  { "slot", "cut" },
  { "windows", "window" },
  { "opening", "window" },
  { "openings", "window" },
  { "hole", "window" },
  { "holes", "window" },
  { "aperture", "window" },
  { "layers", "layer" },
  { "mat", "layer" },
  { "mats", "layer" },
  { "sticky", "glue" },
  { "adhesive", "glue" },
  { "taped", "tape" },
  { "dot", "dots" },
  { "pad", "foam" },
  { "pads", "foam" },
  { "pictures", "picture" },
  { "photo", "picture" },
  { "greeting", "picture" },
  { "greetings", "picture" },
  { "margin", "rim" },
  { "border", "rim" },
  { "with", "" },
  { "arc", "" },
  { "arcs", "" },
  { "curve", "" },
  { "curved", "" },
  { "via", "through" },
  { "closest", "nearest" },
  { "marks", "mark" },
  { "towards", "toward" },
  { "backwards", "away" },
  { "vertical", "across" },
  { "vertically", "across" },
  { "upright", "across" },
  { "horizontal", "along" },
  { "horizontally", "along" },
  { "level", "along" },
  { "by", "x" },
  { "times", "x" },
  { "circle", "round" },
  { "circular", "round" },
  { "disc", "round" },
  { "rectangle", "" },
  { "rectangular", "" },
  { "centred", "centred" },
  { "centered", "centred" },
  { "middle", "|" },
  { "halfway", "|" },
  { "half", "|" },
  { "and", "," },
  { "edge", "side" },
  { "a", "" },
  { "an", "" },
  { "the", "" },
  { "line", "" },
  { "lines", "" },
  { "please", "" },
  { "myself", "me" },
  { "you", "me" },
  { "paper", "" },
  { "card", "" },
  { "sheet", "" },
  { "piece", "" },
  { "of", "" },
  { "in", "" },
  { "on", "at" },
  { "until", "to" },
  { "guide", "left" },
  { "ruler", "top" },
  { "lengthwise", "lengthwise" },
  { "lengthways", "lengthwise" },
  { "widthwise", "widthwise" },
  { "crosswise", "widthwise" },
  { "crossways", "widthwise" },
  { "parallel", "along" },
  { "wide", "" },
  { "unfolded", "unfolded" },
};

static gboolean
begins_number (const char *p)
{
  gunichar c = g_utf8_get_char (p);

  if (*p == '.')
    return g_ascii_isdigit (p[1]);
  return g_ascii_isdigit (*p) || *p == '-' || *p == '+' || c == 0x2212 || g_unichar_type (c) == G_UNICODE_OTHER_NUMBER;
}

/* The quote that ends what the one here begins; NULL when there is none. (A quote behind a number is an inch and is
 * read with it.) */
static const char *
find_close (const char *p)
{
  gunichar c = g_utf8_get_char (p);

  if (c != '"' && c != 0x201C && c != 0x201D && c != 0x201E)
    return NULL;
  for (p = g_utf8_next_char (p); *p; p = g_utf8_next_char (p))
    if (g_utf8_get_char (p) == '"' || g_utf8_get_char (p) == 0x201C || g_utf8_get_char (p) == 0x201D)
      return p;
  return NULL;
}

/* Reads a run of letters into the token; FALSE with error for a word that may not be used. */
static gboolean
read_word (CwToken *token, GError **error)
{
  const char *p = token->start;

  while (g_unichar_isalpha (g_utf8_get_char (p)))
    p = g_utf8_next_char (p);
  token->end = p;
  g_autofree char *raw = g_strndup (token->start, (gsize) (p - token->start));
  g_autofree char *lower = g_utf8_strdown (raw, -1);

  if (g_str_has_prefix (lower, "valley") || g_str_has_prefix (lower, "mountain")) /* refused words */
    {
      g_set_error (error, CW_MEASURE_ERROR, CW_MEASURE_ERROR_SYNTAX,
                   _ (
                     "“%s” means opposite things to different makers; say toward (the fold opens toward you, the faces "
                     "you see meet) or away"),
                   raw);
      return FALSE;
    }
  token->kind = CW_TOKEN_WORD;
  if (g_strlcpy (token->word, lower, sizeof token->word) >= sizeof token->word)
    {
      g_set_error (error, CW_MEASURE_ERROR, CW_MEASURE_ERROR_SYNTAX, _ ("“%s” is not understood here"), raw);
      return FALSE;
    }
  for (guint i = 0; i < G_N_ELEMENTS (synonyms); i++)
    if (strcmp (lower, synonyms[i][0]) == 0)
      g_strlcpy (token->word, synonyms[i][1], sizeof token->word);
  if (strcmp (token->word, ",") == 0)
    token->kind = CW_TOKEN_COMMA;
  else if (strcmp (token->word, "|") == 0)
    token->kind = CW_TOKEN_MIDDLE;
  return TRUE;
}

/* Gives bare numbers the one unit that the line names, else `unit`. */
static gboolean
settle_units (GArray *tokens, CwUnit unit, GError **error)
{
  gboolean one = FALSE, several = FALSE;
  CwUnit said = unit;

  for (guint i = 0; i < tokens->len; i++)
    {
      const CwToken *token = &g_array_index (tokens, CwToken, i);

      if (token->kind != CW_TOKEN_LENGTH || !token->unit_said)
        continue;
      several = several || (one && token->length.unit != said);
      one = TRUE;
      said = token->length.unit;
    }
  for (guint i = 0; i < tokens->len; i++)
    {
      CwToken *token = &g_array_index (tokens, CwToken, i);

      if (token->kind == CW_TOKEN_LENGTH && !token->unit_said
          && !cw_length_scan (token->start, one && !several ? said : unit, &token->length, NULL, &token->end, error))
        return FALSE;
    }
  return TRUE;
}

/**
 * cw_measure_tokens_read:
 * @text: a measure line
 * @unit: of bare numbers when the line names no unit
 *
 * Returns: (transfer full) (element-type CwToken): the tokens, a CW_TOKEN_END last, or NULL with CW_MEASURE_ERROR or
 * CW_LENGTH_ERROR
 */
GArray *
cw_measure_tokens_read (const char *text, CwUnit unit, GError **error)
{
  if (strlen (text) > CW_MEASURE_LINE_MAX || !g_utf8_validate (text, -1, NULL))
    {
      g_set_error_literal (error, CW_MEASURE_ERROR, CW_MEASURE_ERROR_SYNTAX,
                           _ ("this line is too long or not readable"));
      return NULL;
    }
  g_autoptr (GArray) tokens = g_array_new (FALSE, TRUE, sizeof (CwToken));
  const char *p = text;

  while (*p)
    {
      gunichar c = g_utf8_get_char (p);
      CwToken token = { .start = p, .end = g_utf8_next_char (p) };

      if (g_unichar_isspace (c) || strchr ("():.", *p))
        {
          if (!begins_number (p))
            {
              p = token.end;
              continue;
            }
        }
      if (find_close (p) != NULL)
        {
          token.kind = CW_TOKEN_QUOTED;
          token.start = token.end;
          token.end = find_close (p);
          p = g_utf8_next_char (token.end);
          g_array_append_val (tokens, token);
          continue;
        }
      if (begins_number (p))
        {
          /* As millimetres, the smallest unit, until the unit of the line is known. */
          token.kind = CW_TOKEN_LENGTH;
          if (!cw_length_scan (p, CW_UNIT_MM, &token.length, &token.unit_said, &token.end, error))
            return NULL;
        }
      else if (*p == ',' || *p == ';' || *p == '&')
        {
          token.kind = CW_TOKEN_COMMA;
        }
      else if (*p == '@' || c == 0x00D7)
        {
          token.kind = CW_TOKEN_WORD;
          g_strlcpy (token.word, *p == '@' ? "at" : "x", sizeof token.word);
        }
      else if (g_unichar_isalpha (c))
        {
          if (!read_word (&token, error))
            return NULL;
        }
      else
        {
          g_set_error (error, CW_MEASURE_ERROR, CW_MEASURE_ERROR_SYNTAX, _ ("“%.*s” is not understood here"),
                       (int) (token.end - p), p);
          return NULL;
        }
      p = token.end;
      if (token.kind != CW_TOKEN_WORD || token.word[0])
        g_array_append_val (tokens, token);
    }
  CwToken end = { .kind = CW_TOKEN_END, .start = p, .end = p };
  g_array_append_val (tokens, end);
  return cw_measure_tokens_join_spoken (tokens, error) && settle_units (tokens, unit, error) ? g_steal_pointer (&tokens)
                                                                                             : NULL;
}
