/* cw-measure-sentence.c: the grammar of the measure line.
 *
 * The verb first, then clauses in any order, each read by one function; nothing here knows the piece. Refuses what it
 * does not understand in one sentence that says what would be right. Over 500 lines because all clauses share one small
 * reader.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "text/cw-measure-line.h"
#include "text/cw-measure-sentence-private.h"
#include "text/cw-measure-token-private.h"

#include <glib/gi18n-lib.h>
#include <string.h>

typedef struct
{
  const CwToken *token; /* the next one */
  GError **error;
} Reader;

static gboolean
is_word (const CwToken *token, const char *word)
{
  return token->kind == CW_TOKEN_WORD && strcmp (token->word, word) == 0;
}

static gboolean
take_word (Reader *r, const char *word)
{
  if (!is_word (r->token, word))
    return FALSE;
  r->token++;
  return TRUE;
}

static gboolean
take_comma (Reader *r)
{
  if (r->token->kind != CW_TOKEN_COMMA)
    return FALSE;
  while (r->token->kind == CW_TOKEN_COMMA) /* ", and" */
    r->token++;
  return TRUE;
}

static gboolean
is_measure (const CwToken *token)
{
  return token->kind == CW_TOKEN_LENGTH || token->kind == CW_TOKEN_MIDDLE;
}

static CwMeasure
take_measure (Reader *r)
{
  CwMeasure m = { r->token->length, r->token->kind == CW_TOKEN_MIDDLE };

  r->token++;
  return m;
}

G_GNUC_PRINTF (2, 3)
static gboolean
fail (Reader *r, const char *format, ...)
{
  va_list args;

  va_start (args, format);
  if (r->error)
    *r->error = g_error_new_valist (CW_MEASURE_ERROR, CW_MEASURE_ERROR_SYNTAX, format, args);
  va_end (args);
  return FALSE;
}

static gboolean
fail_token (Reader *r)
{
  const CwToken *t = r->token;

  if (t->kind == CW_TOKEN_END)
    return fail (r, _ ("the line stops too soon; write it like “score 3 1/2” or “cut 2 from 1 3/4 to 5 1/8”"));
  return fail (r, _ ("“%.*s” is not understood here; write it like “score 3 1/2” or “cut 2 from 1 3/4 to 5 1/8”"),
               (int) (t->end - t->start), t->start);
}

/* A list of measures with commas between. */
static gboolean
read_list (Reader *r, GArray *list)
{
  for (;;)
    {
      const CwToken *before = r->token;
      CwMeasure m = take_measure (r);

      g_array_append_val (list, m);
      if (is_measure (r->token))
        return fail (r, _ ("put a comma between “%.*s” and “%.*s”"), (int) (before->end - before->start), before->start,
                     (int) (r->token->end - r->token->start), r->token->start);
      const CwToken *comma = r->token;
      if (!take_comma (r) || !is_measure (r->token))
        {
          r->token = comma;
          return TRUE;
        }
    }
}

/* After "from" or "to": a measure, or a point "1, 2". *is_spot says which. */
static gboolean
read_end (Reader *r, CwMeasure *end, CwMeasureSpot *spot, gboolean *is_spot)
{
  if (!is_measure (r->token))
    return fail_token (r);
  const CwToken *first = r->token;
  *end = take_measure (r);
  if (is_measure (r->token))
    return fail (r, _ ("put a comma between the two measures of a point: “%.*s, %.*s”"),
                 (int) (first->end - first->start), first->start, (int) (r->token->end - r->token->start),
                 r->token->start);
  const CwToken *comma = r->token;
  *is_spot = take_comma (r) && is_measure (r->token);
  if (*is_spot)
    *spot = (CwMeasureSpot){ *end, take_measure (r), FALSE };
  else
    r->token = comma;
  return TRUE;
}

static gboolean
set_end (Reader *r, CwSentence *s, guint which, CwMeasure end, const CwMeasureSpot *spot, gboolean is_spot)
{
  if (is_spot ? s->has_ends[0] || s->has_ends[1] : s->spots->len > 0)
    return fail (r, _ ("a slanted line needs two measures for each end: “from 1, 2 to 3 1/2, 5”"));
  if (is_spot)
    {
      g_array_append_val (s->spots, *spot);
      return TRUE;
    }
  if (s->has_ends[which])
    return fail (r, which ? _ ("“to” is said twice") : _ ("“from” is said twice"));
  s->has_ends[which] = TRUE;
  s->ends[which] = end;
  return TRUE;
}

static gboolean
set_run (Reader *r, CwSentence *s, CwMeasureRun run)
{
  if (s->run != CW_RUN_UNSAID && s->run != run)
    return fail (r, _ ("say either across or along, not both"));
  s->run = run;
  return TRUE;
}

/* After "from": an edge to measure from, or an end. */
static gboolean
read_from (Reader *r, CwSentence *s)
{
  gboolean *edges[] = { &s->from_right, &s->from_bottom, &s->from_left, &s->from_top };
  static const char *const words[] = { "right", "bottom", "left", "top" };
  CwMeasure end = { 0 };
  CwMeasureSpot spot = { 0 };
  gboolean is_spot;

  for (guint i = 0; i < G_N_ELEMENTS (words); i++)
    {
      if (!take_word (r, words[i]))
        continue;
      *edges[i] = TRUE;
      take_word (r, "side");
      return TRUE;
    }
  return read_end (r, &end, &spot, &is_spot) && set_end (r, s, 0, end, &spot, is_spot);
}

static gboolean
read_to (Reader *r, CwSentence *s)
{
  CwMeasure end = { 0 };
  CwMeasureSpot spot = { 0 };
  gboolean is_spot;

  if (!read_end (r, &end, &spot, &is_spot))
    return FALSE;
  if (is_spot && s->spots->len == 0)
    return fail (r, _ ("say where the slanted line starts: “from 1, 2 to 3 1/2, 5”"));
  return set_end (r, s, 1, end, &spot, is_spot);
}

static gboolean
read_through (Reader *r, CwSentence *s)
{
  CwMeasure end = { 0 };
  CwMeasureSpot spot = { 0 };
  gboolean is_spot;

  if (!read_end (r, &end, &spot, &is_spot))
    return FALSE;
  if (!is_spot || s->spots->len == 0)
    return fail (r, _ ("say an arc by its ends and a place it goes through: “from 1, 3 through 2, 2 to 3, 3”"));
  spot.through = TRUE;
  g_array_append_val (s->spots, spot);
  return TRUE;
}

/* "from 1, 3 to 3, 3 through 2, 2": the place it goes through is put between the ends. */
static void
sort_through (CwSentence *s)
{
  CwMeasureSpot *spots = (CwMeasureSpot *) (void *) s->spots->data;

  if (s->spots->len == 3 && spots[2].through && !spots[1].through && !spots[0].through)
    {
      CwMeasureSpot last = spots[1];

      spots[1] = spots[2];
      spots[2] = last;
    }
}

/* No arc without an end on either side; only a closed line may end with one. */
static gboolean
arcs_are_right (const CwSentence *s, gboolean closed)
{
  for (guint i = 0; i < s->spots->len; i++)
    {
      gboolean here = g_array_index (s->spots, CwMeasureSpot, i).through;
      gboolean last = i + 1 == s->spots->len;

      if (here && (i == 0 || (last && !closed) || g_array_index (s->spots, CwMeasureSpot, i - 1).through))
        return FALSE;
    }
  return TRUE;
}

/* "nearest mark", "to the nearest 1/8". */
static gboolean
read_nearest (Reader *r, CwSentence *s)
{
  s->nearest = TRUE;
  if (!take_word (r, "mark") && r->token->kind == CW_TOKEN_LENGTH && (s->positions->len > 0 || s->spots->len > 1))
    {
      if (r->token->length.ticks <= 0)
        return fail (r, _ ("the nearest mark must be one of some size, as in “nearest 1/8”"));
      s->step = r->token->length;
      r->token++;
    }
  return TRUE;
}

static gboolean
read_between (Reader *r, CwSentence *s)
{
  CwMeasure ends[2];

  if (!is_measure (r->token))
    return fail_token (r);
  ends[0] = take_measure (r);
  if (!take_comma (r) || !is_measure (r->token))
    return fail (r, _ ("write “between 1 and 5”, or “from 1 to 5”"));
  ends[1] = take_measure (r);
  return set_end (r, s, 0, ends[0], NULL, FALSE) && set_end (r, s, 1, ends[1], NULL, FALSE);
}

/* "along", "along the long side", "along the short side"; the same after "across" means square to that side. */
static gboolean
read_run (Reader *r, CwSentence *s, gboolean across)
{
  CwMeasureRun run = across ? CW_RUN_ACROSS : CW_RUN_ALONG;

  take_word (r, "to"); /* "parallel to" */
  if (take_word (r, "long") || take_word (r, "longer"))
    run = across ? CW_RUN_SHORT : CW_RUN_LONG;
  else if (take_word (r, "short") || take_word (r, "shorter"))
    run = across ? CW_RUN_LONG : CW_RUN_SHORT;
  take_word (r, "side");
  return set_run (r, s, run);
}

/* What kind of glue, said before or after the rest. */
static gboolean
take_glue (Reader *r, CwSentence *s)
{
  static const struct
  {
    const char *word;
    CwGlueKind kind;
  } kinds[] = { { "tape", CW_GLUE_TAPE },
                { "wet", CW_GLUE_WET },
                { "strong", CW_GLUE_STRONG },
                { "foam", CW_GLUE_FOAM },
                { "dots", CW_GLUE_DOTS } };

  for (guint i = 0; i < G_N_ELEMENTS (kinds); i++)
    if (take_word (r, kinds[i].word))
      {
        s->glue = kinds[i].kind;
        take_word (r, "glue"); /* "wet glue" */
        take_word (r, "tape"); /* "foam tape" */
        return TRUE;
      }
  return FALSE;
}

static gboolean
take_label (Reader *r, CwSentence *s)
{
  if (r->token->kind != CW_TOKEN_QUOTED)
    return FALSE;
  g_free (s->label);
  s->label = g_strndup (r->token->start, (gsize) (r->token->end - r->token->start));
  r->token++;
  return TRUE;
}

static gboolean
read_clause (Reader *r, CwSentence *s)
{
  gboolean window = s->kind == CW_MARK_WINDOW;

  if (take_comma (r))
    return TRUE;
  if (is_measure (r->token))
    {
      if (s->positions->len > 0)
        return fail (r, _ ("put the measures together, with commas: “score 2 1/8, 6 3/8”"));
      return read_list (r, s->positions);
    }
  if (take_word (r, "at")) /* also "on the board" */
    return is_measure (r->token) || is_word (r->token, "board") ? TRUE : fail_token (r);
  if (take_word (r, "toward"))
    {
      take_word (r, "me");
      return s->toward = TRUE;
    }
  if (take_word (r, "away"))
    {
      if (is_word (r->token, "from") && is_word (r->token + 1, "me"))
        r->token += 2;
      return s->away = TRUE;
    }
  if (take_word (r, "unfolded") || (is_word (r->token, "not") && (r->token++, take_word (r, "folded"))))
    return s->unfolded = TRUE;
  if (take_word (r, "press") || (is_word (r->token, "x") && (r->token++, take_word (r, "hand")))) /* "by hand" */
    {
      s->made = CW_MADE_PRESS;
      return TRUE;
    }
  if (take_word (r, "board"))
    {
      s->made = CW_MADE_BOARD;
      return TRUE;
    }
  if (take_word (r, "nearest"))
    return read_nearest (r, s);
  if (take_word (r, "from"))
    return read_from (r, s);
  if (take_word (r, "to"))
    return take_word (r, "nearest") ? read_nearest (r, s) : read_to (r, s);
  if (take_word (r, "through"))
    return read_through (r, s);
  if (s->what == CW_MEASURE_GLUE && take_glue (r, s))
    return TRUE;
  if (s->what == CW_MEASURE_PICTURE && take_label (r, s))
    return TRUE;
  if (take_word (r, "between"))
    return read_between (r, s);
  if (!window && take_word (r, "across"))
    return read_run (r, s, TRUE);
  if (!window && take_word (r, "along"))
    return read_run (r, s, FALSE);
  if (!window && take_word (r, "lengthwise"))
    return set_run (r, s, CW_RUN_LONG);
  if (!window && take_word (r, "widthwise"))
    return set_run (r, s, CW_RUN_SHORT);
  return fail_token (r);
}

static gboolean
fail_area (Reader *r, const CwSentence *s)
{
  switch (s->what)
    {
    case CW_MEASURE_LAYER:
    case CW_MEASURE_RIM:
      return fail (r, _ ("write a layer as “layer with a 1/8 rim” or “layer 3 by 4 1/2 at 1, 1”"));
    case CW_MEASURE_GLUE:
      return fail (r, _ ("write glue as “glue 1 by 2 at 3, 4” or “glue round 3/4 at 2, 2”"));
    case CW_MEASURE_PICTURE:
      return fail (r, _ ("write a picture as “picture 2 by 3 at 1, 1”"));
    case CW_MEASURE_MARKS:
    default:
      return fail (r, _ ("write a window as “window 1 by 2 at 3, 4” or “window round 3/4 at 2, 2”"));
    }
}

/* "layer with a 1/8 rim", "layer rim 1/8". */
static gboolean
take_rim (Reader *r, CwSentence *s)
{
  if (s->what != CW_MEASURE_LAYER)
    return FALSE;
  if (r->token->kind == CW_TOKEN_LENGTH && is_word (r->token + 1, "rim"))
    {
      s->rim = r->token->length;
      r->token += 2;
    }
  else if (is_word (r->token, "rim") && r->token[1].kind == CW_TOKEN_LENGTH)
    {
      s->rim = r->token[1].length;
      r->token += 2;
    }
  else
    return FALSE;
  s->what = CW_MEASURE_RIM;
  return TRUE;
}

/* "window 1 by 2 at 3, 4", "window round 3/4 at 2, 2": the size comes first; a shape is said by its corners, "window
 * from 1, 1 to 3, 1 to 2, 3". */
static gboolean
read_area (Reader *r, CwSentence *s)
{
  take_comma (r);
  while ((s->what == CW_MEASURE_GLUE && take_glue (r, s)) || (s->what == CW_MEASURE_PICTURE && take_label (r, s)))
    ;
  if (take_rim (r, s) || is_word (r->token, "from"))
    return TRUE;
  for (;;)
    {
      if (take_word (r, "round"))
        s->round = TRUE;
      else if (take_word (r, "window"))
        continue;
      else if (take_word (r, "square"))
        s->square = TRUE;
      else if (take_word (r, "radius"))
        s->round = s->radius_said = TRUE;
      else if (take_word (r, "across") || take_word (r, "diameter"))
        s->round = TRUE;
      else if (r->token->kind == CW_TOKEN_LENGTH && s->sizes->len < 2)
        {
          g_array_append_val (s->sizes, r->token->length);
          r->token++;
          if (take_word (r, "x") && r->token->kind != CW_TOKEN_LENGTH)
            return fail_token (r);
        }
      else
        break;
    }
  guint wanted = s->round || s->square ? 1 : 2;
  if (s->sizes->len != wanted || (s->round && s->square) || (s->round && s->what == CW_MEASURE_PICTURE))
    return fail_area (r, s);
  if (s->square)
    {
      CwLength side = g_array_index (s->sizes, CwLength, 0);
      g_array_append_val (s->sizes, side);
    }
  s->centred = take_word (r, "centred") || s->round;
  return TRUE;
}

/* The verb; FALSE when there is none known. */
static gboolean
read_verb (Reader *r, CwSentence *s)
{
  if (take_word (r, "layer"))
    s->what = CW_MEASURE_LAYER;
  else if (take_word (r, "picture"))
    s->what = CW_MEASURE_PICTURE;
  else if (take_word (r, "glue") || is_word (r->token, "tape") || is_word (r->token, "foam")
           || is_word (r->token, "dots") || (is_word (r->token, "wet") || is_word (r->token, "strong")))
    s->what = CW_MEASURE_GLUE;
  if (s->what != CW_MEASURE_MARKS)
    {
      s->kind = CW_MARK_WINDOW;
      return TRUE;
    }
  if (take_word (r, "press"))
    {
      s->made = CW_MADE_PRESS;
      take_word (r, "score");
    }
  else if (take_word (r, "cut"))
    s->kind = take_word (r, "window") || is_word (r->token, "round") ? CW_MARK_WINDOW : CW_MARK_CUT;
  else if (take_word (r, "window") || is_word (r->token, "round"))
    s->kind = CW_MARK_WINDOW;
  else if (!take_word (r, "score"))
    return fail (r, _ ("say first what to do: score, cut, press, window, layer, glue or picture, as in “score 3 1/2”"));
  return TRUE;
}

/* An area: where it is, or its corners. */
static gboolean
check_area (Reader *r, CwSentence *s)
{
  if (s->has_ends[0] || s->has_ends[1])
    return fail (r, _ ("say where the window is, as in “at 3, 4”"));
  if (s->what == CW_MEASURE_RIM)
    return s->spots->len > 0 || (s->positions->len != 0 && s->positions->len != 2)
             ? fail (r, _ ("say a place on the panel by two measures, as in “layer with a 1/8 rim at 2, 3”"))
             : TRUE;
  if (s->sizes->len > 0)
    return s->positions->len == 2 && s->spots->len == 0 ? TRUE
                                                        : fail (r, _ ("say where the window is, as in “at 3, 4”"));
  if (s->positions->len > 0 || s->spots->len < 3 || !arcs_are_right (s, TRUE))
    return fail (r, _ ("a shape is said by three corners or more: “from 1, 1 to 3, 1 to 2, 3”"));
  return TRUE;
}

static gboolean
read_whole (Reader *r, CwSentence *s)
{
  if (!read_verb (r, s) || (s->kind == CW_MARK_WINDOW && !read_area (r, s)))
    return FALSE;
  while (r->token->kind != CW_TOKEN_END)
    if (!read_clause (r, s))
      return FALSE;

  if (s->kind != CW_MARK_SCORE && (s->toward || s->away || s->unfolded || s->made != CW_MADE_UNSAID))
    return fail (r, _ ("only a score is folded; leave out toward and away for a cut"));
  if (s->toward + s->away + s->unfolded > 1)
    return fail (r, _ ("say either toward or away, not both"));
  if (s->kind == CW_MARK_WINDOW)
    return check_area (r, s);
  sort_through (s);
  if (s->spots->len > 0)
    {
      if (s->positions->len > 0 || s->run != CW_RUN_UNSAID)
        return fail (r, _ ("a slanted line is said by its points alone: “score from 1, 2 to 3 1/2, 5”"));
      if (s->spots->len < 2)
        return fail (r, _ ("say where the slanted line ends: “from 1, 2 to 3 1/2, 5”"));
      if (!arcs_are_right (s, FALSE))
        return fail (r, _ ("say an arc by its ends and a place it goes through: “from 1, 3 through 2, 2 to 3, 3”"));
    }
  else if (s->positions->len == 0)
    return fail (r, _ ("say where, as in “score 3 1/2” or “cut 2 from 1 3/4 to 5 1/8”"));
  return TRUE;
}

/**
 * cw_sentence_read:
 * @sentence: (out): what the line says; to be cleared by the caller whatever is returned
 * @text: a measure line
 * @unit: of bare numbers when the line names no unit
 *
 * Returns: FALSE with CW_MEASURE_ERROR or CW_LENGTH_ERROR when the line is not understood
 */
gboolean
cw_sentence_read (CwSentence *sentence, const char *text, CwUnit unit, GError **error)
{
  g_autoptr (GArray) tokens = cw_measure_tokens_read (text, unit, error);

  *sentence = (CwSentence){ .positions = g_array_new (FALSE, FALSE, sizeof (CwMeasure)),
                            .spots = g_array_new (FALSE, FALSE, sizeof (CwMeasureSpot)),
                            .sizes = g_array_new (FALSE, FALSE, sizeof (CwLength)) };
  if (!tokens)
    return FALSE;
  Reader reader = { (const CwToken *) (gpointer) tokens->data, error };
  return read_whole (&reader, sentence);
}

/**
 * cw_sentence_clear:
 *
 * Frees what the sentence owns.
 */
void
cw_sentence_clear (CwSentence *sentence)
{
  g_clear_pointer (&sentence->positions, g_array_unref);
  g_clear_pointer (&sentence->spots, g_array_unref);
  g_clear_pointer (&sentence->sizes, g_array_unref);
  g_clear_pointer (&sentence->label, g_free);
}
