/* cw-measure-describe.c: says a mark in the words of the measure line: the inverse of cw-measure-line.c.
 *
 * Everything is said so that reading gives the mark again.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "text/cw-measure-line.h"

#include <string.h>

static void
append_place (GString *text, const CwLying *lying, CwPlace place)
{
  CwPlace lies = cw_lying_place_from_piece (lying, place);
  g_autofree char *u = cw_length_format (lies.x);
  g_autofree char *v = cw_length_format (lies.y);

  g_string_append_printf (text, "%s, %s", u, v);
}

static void
append_line (GString *text, const CwLying *lying, const CwPath *line)
{
  guint n = line->n_vertices;

  if (n == 2)
    {
      CwPlace p = cw_lying_place_from_piece (lying, line->vertices[0].at);
      CwPlace q = cw_lying_place_from_piece (lying, line->vertices[1].at);
      gboolean across = p.x.ticks == q.x.ticks, along = p.y.ticks == q.y.ticks;

      if (across != along)
        {
          g_autofree char *at = cw_length_format (across ? p.x : p.y);
          g_autofree char *from = cw_length_format (across ? p.y : p.x);
          g_autofree char *to = cw_length_format (across ? q.y : q.x);

          g_string_append_printf (text, "%s %s, from %s to %s", at, across ? "across" : "along", from, to);
          return;
        }
    }
  for (guint i = 0; i < n; i++)
    {
      g_string_append (text, i == 0 ? "from " : line->vertices[i].through ? " through " : " to ");
      append_place (text, lying, line->vertices[i].at);
    }
}

static void
append_window (GString *text, const CwLying *lying, const CwMark *mark)
{
  if (mark->shape == CW_SHAPE_CIRCLE)
    {
      g_autofree char *radius = cw_length_format (mark->radius);

      g_string_append_printf (text, "round radius %s at ", radius);
      append_place (text, lying, mark->centre);
      return;
    }
  if (mark->shape == CW_SHAPE_LINE || mark->line.n_vertices != 2)
    {
      append_line (text, lying, &mark->line);
      return;
    }
  CwPlace p = cw_lying_place_from_piece (lying, mark->line.vertices[0].at);
  CwPlace q = cw_lying_place_from_piece (lying, mark->line.vertices[1].at);
  g_autofree char *width = cw_length_format_ticks (ABS (q.x.ticks - p.x.ticks), p.x.unit);
  g_autofree char *height = cw_length_format_ticks (ABS (q.y.ticks - p.y.ticks), p.y.unit);
  g_autofree char *left = cw_length_format (p.x.ticks <= q.x.ticks ? p.x : q.x);
  g_autofree char *top = cw_length_format (p.y.ticks <= q.y.ticks ? p.y : q.y);

  g_string_append_printf (text, "%s by %s at %s, %s", width, height, left, top);
}

/**
 * cw_measure_line_describe:
 * @design: the design
 * @piece: the piece the mark is on
 * @mark: the mark
 * @lie: how the piece lies; the words are measured from its guide and ruler edge as it lies
 *
 * Returns: (transfer full): one line in the measure line's language, such as
 * "score 3 1/2 in across, from 0 in to 5 1/2 in, toward"
 */
char *
cw_measure_line_describe (const CwDesign *design, const CwPiece *piece, const CwMark *mark, CwLie lie)
{
  g_return_val_if_fail (piece && mark, NULL);

  CwLying lying = cw_lying_new (piece, lie);
  g_autoptr (GString) text = g_string_new (NULL);
  gboolean press = mark->kind == CW_MARK_SCORE && mark->made == CW_MADE_PRESS;

  g_string_append_printf (text, "%s ", press ? "press" : cw_mark_kind_get_key (mark->kind));
  if (mark->kind == CW_MARK_WINDOW)
    append_window (text, &lying, mark);
  else
    append_line (text, &lying, &mark->line);
  if (mark->kind == CW_MARK_SCORE && mark->made == CW_MADE_BOARD)
    g_string_append (text, ", on the board");
  if (mark->kind == CW_MARK_SCORE && mark->fold == CW_FOLD_NONE)
    g_string_append (text, ", not folded");
  else if (mark->kind == CW_MARK_SCORE)
    g_string_append (text, (mark->fold == CW_FOLD_TOWARD) == !lying.lie.flipped ? ", toward" : ", away");
  return g_string_free (g_steal_pointer (&text), FALSE);
}

/**
 * cw_measure_wish_describe:
 * @wish: what a line asks for, one mark if any
 * @design: the design
 * @piece: the piece the line is for
 * @lie: how it lies
 *
 * Returns: (transfer full): one line in the measure line's language, such as "glue 1 in by 2 in at 3 in, 4 in, tape"
 */
char *
cw_measure_wish_describe (const CwMeasureWish *wish, const CwDesign *design, const CwPiece *piece, CwLie lie)
{
  static const char *const verbs[] = { [CW_MEASURE_LAYER] = "layer",
                                       [CW_MEASURE_RIM] = "layer",
                                       [CW_MEASURE_GLUE] = "glue",
                                       [CW_MEASURE_PICTURE] = "picture" };

  g_return_val_if_fail (wish && piece, NULL);

  if (wish->what == CW_MEASURE_RIM)
    {
      g_autofree char *rim = cw_length_format (wish->rim);

      return g_strdup_printf ("layer with a %s rim", rim);
    }
  g_autofree char *outline = cw_measure_line_describe (design, piece, wish->marks->pdata[0], lie);

  if (wish->what == CW_MEASURE_MARKS)
    return g_steal_pointer (&outline);
  const char *rest = outline + strlen ("window");
  if (wish->what == CW_MEASURE_PICTURE && wish->label)
    return g_strdup_printf ("picture “%s”%s", wish->label, rest);
  if (wish->what == CW_MEASURE_GLUE)
    return g_strdup_printf ("glue%s, %s", rest, cw_glue_kind_get_key (wish->glue));
  return g_strdup_printf ("%s%s", verbs[wish->what], rest);
}
