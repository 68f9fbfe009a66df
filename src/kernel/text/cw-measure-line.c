/* cw-measure-line.c: reads a measure line and makes its marks.
 *
 * The sentence (cw-measure-sentence.c) is laid on the piece as it lies and turned into the piece's own front
 * coordinates. All exact; only where a line without ends meets a slanted or curved edge is its end rounded to the
 * nearest tick. "across" runs from the ruler edge to the opposite one at a measure from the guide; "along" runs from
 * the guide to the right at a measure from the ruler. Refuses what is off the piece.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "geometry/cw-polygon.h"
#include "panel/cw-path-flatten.h"
#include "text/cw-measure-line.h"
#include "text/cw-measure-sentence-private.h"
#include "text/cw-measure-token-private.h"

#include <glib/gi18n-lib.h>
#include <string.h>

G_DEFINE_QUARK (cw_measure_error, cw_measure_error)

typedef struct
{
  CwLying lying;
  CwUnit unit;
  const CwPolygon *outline; /* as it lies */
  const CwSentence *s;
  GPtrArray *marks;
  GError **error;
} Layout;

G_GNUC_PRINTF (2, 3)
static gboolean
fail_range (Layout *l, const char *format, ...)
{
  va_list args;

  va_start (args, format);
  if (l->error)
    *l->error = g_error_new_valist (CW_MEASURE_ERROR, CW_MEASURE_ERROR_RANGE, format, args);
  va_end (args);
  return FALSE;
}

/* The measure in ticks from guide or ruler, in a piece `size` wide or high there; `from_end`: measured from the other
 * edge. */
static gboolean
resolve (Layout *l, CwMeasure m, gboolean wide, gboolean from_end, CwLength *result)
{
  gint32 size = wide ? l->lying.width : l->lying.height;

  if (m.middle)
    *result = cw_length_from_ticks (size / 2, l->unit);
  else
    *result = from_end ? cw_length_from_ticks (size - m.length.ticks, m.length.unit) : m.length;
  if (result->ticks >= 0 && result->ticks <= size)
    return TRUE;
  g_autofree char *what = cw_length_format (m.length);
  g_autofree char *most = cw_length_format_ticks (size, l->unit);
  return fail_range (l,
                     wide ? _ ("%s is off the piece: it is %s wide as it lies")
                          : _ ("%s is off the piece: it is %s high as it lies"),
                     what, most);
}

static CwMark *
add_mark (Layout *l, CwMarkShape shape)
{
  CwMark *mark = cw_mark_new ();
  const CwSentence *s = l->s;

  mark->kind = s->kind;
  mark->shape = shape;
  mark->made = s->made;
  if (s->unfolded)
    mark->fold = CW_FOLD_NONE;
  else if (s->toward || s->away) /* as seen by the maker: other side up, the two change places */
    mark->fold = s->toward == !l->lying.lie.flipped ? CW_FOLD_TOWARD : CW_FOLD_AWAY;
  g_ptr_array_add (l->marks, mark);
  return mark;
}

static void
add_vertex (Layout *l, CwMark *mark, CwLength u, CwLength v)
{
  cw_path_append (&mark->line, cw_lying_place_to_piece (&l->lying, (CwPlace){ u, v }), FALSE);
}

static void
add_straight (Layout *l, gboolean across, CwLength at, CwLength from, CwLength to)
{
  CwMark *mark = add_mark (l, CW_SHAPE_LINE);

  add_vertex (l, mark, across ? at : from, across ? from : at);
  add_vertex (l, mark, across ? at : to, across ? to : at);
}

static gboolean
lay_straight (Layout *l, gboolean across, CwMeasure measure)
{
  const CwSentence *s = l->s;
  gint32 length = across ? l->lying.height : l->lying.width;
  CwLength at, from = cw_length_from_ticks (0, l->unit), to = cw_length_from_ticks (length, l->unit);

  if (!resolve (l, measure, across, across ? s->from_right : s->from_bottom, &at))
    return FALSE;
  if (at.ticks == 0 || at.ticks == (across ? l->lying.width : l->lying.height))
    {
      g_autofree char *what = cw_length_format (measure.length);
      return fail_range (l, _ ("%s is the edge of the piece itself; choose a measure inside it"), what);
    }
  if (s->has_ends[0] || s->has_ends[1])
    {
      if ((s->has_ends[0] && !resolve (l, s->ends[0], !across, FALSE, &from))
          || (s->has_ends[1] && !resolve (l, s->ends[1], !across, FALSE, &to)))
        return FALSE;
      if (from.ticks == to.ticks)
        return fail_range (l, _ ("“from” and “to” are the same place, so the line has no length"));
      add_straight (l, across, at, from, to);
      return TRUE;
    }
  g_autoptr (GArray) cuts = cw_polygon_find_stretches (l->outline, across, at.ticks);
  for (guint i = 0; i + 1 < cuts->len; i += 2)
    {
      gint32 ends[] = { g_array_index (cuts, gint32, i), g_array_index (cuts, gint32, i + 1) };

      if (ends[0] < ends[1])
        add_straight (l, across, at, cw_length_from_ticks (ends[0], l->unit), cw_length_from_ticks (ends[1], l->unit));
    }
  return TRUE;
}

static gboolean
lay_list (Layout *l)
{
  const CwSentence *s = l->s;
  gboolean by_x = s->from_left || s->from_right, by_y = s->from_top || s->from_bottom;
  gboolean wide = l->lying.width >= l->lying.height;
  gboolean across = s->run == CW_RUN_ACROSS || (s->run == CW_RUN_UNSAID && !by_y) || (s->run == CW_RUN_LONG && !wide)
                    || (s->run == CW_RUN_SHORT && wide);

  if ((s->run == CW_RUN_LONG || s->run == CW_RUN_SHORT) && l->lying.width == l->lying.height)
    return fail_range (l, _ ("this piece is as wide as it is high; say across or along"));
  if ((by_x && by_y) || (across ? by_y : by_x))
    return fail_range (l, across ? _ ("a line across is measured from the left or from the right")
                                 : _ ("a line along is measured from the top or from the bottom"));
  for (guint i = 0; i < s->positions->len; i++)
    if (!lay_straight (l, across, g_array_index (s->positions, CwMeasure, i)))
      return FALSE;
  return TRUE;
}

static gboolean
lay_spots (Layout *l)
{
  const CwSentence *s = l->s;
  CwMark *mark = add_mark (l, CW_SHAPE_LINE);
  gint32 last[2] = { -1, -1 };

  for (guint i = 0; i < s->spots->len; i++)
    {
      const CwMeasureSpot *spot = &g_array_index (s->spots, CwMeasureSpot, i);
      CwLength u, v;

      if (!resolve (l, spot->x, TRUE, s->from_right, &u) || !resolve (l, spot->y, FALSE, s->from_bottom, &v))
        return FALSE;
      if (u.ticks == last[0] && v.ticks == last[1])
        return fail_range (l, _ ("two points that follow one another are the same place"));
      last[0] = u.ticks;
      last[1] = v.ticks;
      add_vertex (l, mark, u, v);
      mark->line.vertices[mark->line.n_vertices - 1].through = spot->through;
    }
  return TRUE;
}

/* A window's left or top measure and the opposite one. */
static gboolean
lay_extent (Layout *l, CwMeasure at, CwLength size, gboolean wide, gboolean from_end, CwLength ends[2])
{
  CwLength start;
  gint32 limit = wide ? l->lying.width : l->lying.height;

  if (size.ticks <= 0)
    return fail_range (l, _ ("a window must be larger than 0"));
  if (!resolve (l, at, wide, from_end, &start))
    return FALSE;
  if (l->s->centred)
    start.ticks -= size.ticks / 2;
  else if (from_end)
    start.ticks -= size.ticks;
  if (l->s->centred || from_end)
    start.text = NULL;
  ends[0] = start;
  ends[1] = cw_length_from_ticks (start.ticks + size.ticks, size.unit);
  if (ends[0].ticks >= 0 && ends[1].ticks <= limit)
    return TRUE;
  g_autofree char *most = cw_length_format_ticks (limit, l->unit);
  return fail_range (l,
                     wide ? _ ("the window goes off the piece: it is %s wide as it lies")
                          : _ ("the window goes off the piece: it is %s high as it lies"),
                     most);
}

static gboolean
lay_window (Layout *l)
{
  const CwSentence *s = l->s;
  CwLength width = g_array_index (s->sizes, CwLength, 0);
  CwLength height = g_array_index (s->sizes, CwLength, s->sizes->len - 1);
  CwMeasure x = g_array_index (s->positions, CwMeasure, 0), y = g_array_index (s->positions, CwMeasure, 1);
  CwLength us[2], vs[2];

  if (s->radius_said)
    {
      width.ticks *= 2;
      height.ticks *= 2;
    }
  if (!lay_extent (l, x, width, TRUE, s->from_right, us) || !lay_extent (l, y, height, FALSE, s->from_bottom, vs))
    return FALSE;
  if (!s->round)
    {
      CwMark *mark = add_mark (l, CW_SHAPE_RECT);
      add_vertex (l, mark, us[0], vs[0]);
      add_vertex (l, mark, us[1], vs[1]);
      return TRUE;
    }
  CwLength u, v;
  CwMark *mark = add_mark (l, CW_SHAPE_CIRCLE);
  if (!resolve (l, x, TRUE, s->from_right, &u) || !resolve (l, y, FALSE, s->from_bottom, &v))
    return FALSE;
  mark->centre = cw_lying_place_to_piece (&l->lying, (CwPlace){ u, v });
  mark->radius
    = s->radius_said ? g_array_index (s->sizes, CwLength, 0) : cw_length_from_ticks ((width.ticks + 1) / 2, width.unit);
  return TRUE;
}

static void
bring_to_step (CwLength *length, gint32 step)
{
  *length = cw_length_from_ticks (cw_ticks_snap (length->ticks, step), length->unit);
}

/* "Nearest mark": every measure of the line goes to one. */
static void
bring_all_to_step (CwSentence *s, gint32 step)
{
  for (guint i = 0; i < s->positions->len; i++)
    bring_to_step (&g_array_index (s->positions, CwMeasure, i).length, step);
  for (guint i = 0; i < s->spots->len; i++)
    {
      bring_to_step (&g_array_index (s->spots, CwMeasureSpot, i).x.length, step);
      bring_to_step (&g_array_index (s->spots, CwMeasureSpot, i).y.length, step);
    }
  for (guint i = 0; i < s->sizes->len; i++)
    bring_to_step (&g_array_index (s->sizes, CwLength, i), step);
  bring_to_step (&s->ends[0].length, step);
  bring_to_step (&s->ends[1].length, step);
}

/* The place on the panel that a layer with a rim is meant for. */
static gboolean
lay_place (Layout *l, CwMeasureWish *wish)
{
  const CwSentence *s = l->s;
  CwLength u, v;

  wish->rim = s->rim;
  wish->has_place = s->positions->len == 2;
  if (!wish->has_place)
    return TRUE;
  if (!resolve (l, g_array_index (s->positions, CwMeasure, 0), TRUE, s->from_right, &u)
      || !resolve (l, g_array_index (s->positions, CwMeasure, 1), FALSE, s->from_bottom, &v))
    return FALSE;
  CwPlace place = cw_lying_place_to_piece (&l->lying, (CwPlace){ u, v });
  wish->place = cw_place_get_point (&place);
  return TRUE;
}

/**
 * cw_measure_line_read:
 * @wish: (out): what the line asks for; to be cleared by the caller whatever is returned
 * @text: what the maker wrote
 * @design: gives the unit of bare numbers, and the maker's marks
 * @piece: the piece the line is for
 * @lie: how it lies; the line is read from its guide (left) and ruler (top) edge as it lies
 * @error: CW_MEASURE_ERROR or CW_LENGTH_ERROR, in one sentence that says what would be right
 *
 * A line without "from" and "to" goes from edge to edge, once for every stretch of paper on its way. A round area is
 * said by its diameter (an odd number of ticks is rounded up by half a tick) or its radius, and its centre; any other
 * by its width, height and upper left corner unless "centred", or by its corners. What is toward the maker as the piece
 * lies is written as seen with the front up.
 *
 * Returns: FALSE if the line is not understood
 */
gboolean
cw_measure_line_read (CwMeasureWish *wish, const char *text, const CwDesign *design, const CwPiece *piece, CwLie lie,
                      GError **error)
{
  g_return_val_if_fail (wish && text && design && piece, FALSE);

  g_auto (CwSentence) s = { 0 };
  *wish = (CwMeasureWish){ 0 };
  if (!cw_sentence_read (&s, text, design->head->unit, error))
    return FALSE;
  if (s.nearest)
    bring_all_to_step (&s, s.step.ticks > 0 ? s.step.ticks : cw_head_get_mark_step (design->head));

  g_autoptr (GPtrArray) marks = g_ptr_array_new_with_free_func ((GDestroyNotify) cw_mark_unref);
  g_autoptr (GArray) ring = cw_path_flatten (&piece->outline, TRUE);
  CwRing outer = { 0 };
  CwPolygon outline = { 1, &outer }; /* borrows the ring's points */
  Layout l = { cw_lying_new (piece, lie), design->head->unit, &outline, &s, marks, error };
  gboolean right;

  for (guint i = 0; i < ring->len; i++)
    {
      CwPoint *p = &g_array_index (ring, CwPoint, i);
      *p = cw_lying_from_piece (&l.lying, *p);
    }
  outer.n_points = ring->len;
  outer.points = (CwPoint *) (void *) ring->data;
  wish->what = s.what;
  wish->glue = s.glue;
  wish->label = g_steal_pointer (&s.label);
  if (s.what == CW_MEASURE_RIM)
    return lay_place (&l, wish);
  if (s.spots->len > 0)
    right = lay_spots (&l);
  else
    right = s.kind == CW_MARK_WINDOW ? lay_window (&l) : lay_list (&l);
  if (right && marks->len == 0)
    right = fail_range (&l, _ ("there is no paper at that measure"));
  if (right)
    wish->marks = g_steal_pointer (&marks);
  return right;
}

/**
 * cw_measure_wish_clear:
 *
 * Frees what the wish owns.
 */
void
cw_measure_wish_clear (CwMeasureWish *wish)
{
  g_clear_pointer (&wish->marks, g_ptr_array_unref);
  g_clear_pointer (&wish->label, g_free);
}

/**
 * cw_measure_line_parse:
 * @text: what the maker wrote
 * @design: gives the unit of bare numbers
 * @piece: the piece the line is for
 * @lie: how it lies
 * @error: CW_MEASURE_ERROR or CW_LENGTH_ERROR, in one sentence that says what would be right
 *
 * Reads a line that draws marks, as cw_measure_line_read() does.
 *
 * Returns: (transfer full) (element-type CwMark): at least one mark without id, or NULL
 */
GPtrArray *
cw_measure_line_parse (const char *text, const CwDesign *design, const CwPiece *piece, CwLie lie, GError **error)
{
  g_return_val_if_fail (text && design && piece, NULL);

  g_auto (CwMeasureWish) wish = { 0 };
  if (!cw_measure_line_read (&wish, text, design, piece, lie, error))
    return NULL;
  if (wish.what == CW_MEASURE_MARKS)
    return g_steal_pointer (&wish.marks);
  g_set_error_literal (error, CW_MEASURE_ERROR, CW_MEASURE_ERROR_SYNTAX, _ ("only marks can be drawn here"));
  return NULL;
}

/**
 * cw_measure_length_read:
 * @text: one length as a maker would say it
 * @head: gives the unit of a bare number, and the maker's marks
 * @length: (out): the length
 *
 * Reads also "13 sixteenths past 4" and "3.3 to the nearest mark".
 *
 * Returns: FALSE with CW_MEASURE_ERROR or CW_LENGTH_ERROR
 */
gboolean
cw_measure_length_read (const char *text, const CwHead *head, CwLength *length, GError **error)
{
  g_return_val_if_fail (text && head && length, FALSE);

  /* A plain length first: it has the better words for what is wrong with one. */
  g_autoptr (GError) why = NULL;
  if (cw_length_parse (text, head->unit, length, &why))
    return TRUE;
  g_autoptr (GArray) tokens = cw_measure_tokens_read (text, head->unit, NULL);
  const CwToken *found = NULL;
  gboolean nearest = FALSE, only = tokens != NULL;

  for (guint i = 0; only && i < tokens->len; i++)
    {
      const CwToken *token = &g_array_index (tokens, CwToken, i);

      if (token->kind == CW_TOKEN_LENGTH && !found)
        found = token;
      else if (token->kind == CW_TOKEN_WORD && strcmp (token->word, "nearest") == 0)
        nearest = TRUE;
      else
        only
          = token->kind == CW_TOKEN_END
            || (token->kind == CW_TOKEN_WORD && (strcmp (token->word, "mark") == 0 || strcmp (token->word, "to") == 0));
    }
  if (!only || !found)
    {
      g_propagate_error (error, g_steal_pointer (&why));
      return FALSE;
    }
  *length = found->length;
  if (nearest)
    bring_to_step (length, cw_head_get_mark_step (head));
  return TRUE;
}

/**
 * cw_measure_line_says_way:
 * @text: a measure line
 *
 * Returns: whether the line says toward, away or not folded, so that nothing is to be guessed
 */
gboolean
cw_measure_line_says_way (const char *text)
{
  g_return_val_if_fail (text, FALSE);

  g_auto (CwSentence) s = { 0 };
  return cw_sentence_read (&s, text, CW_UNIT_MM, NULL) && (s.toward || s.away || s.unfolded);
}
