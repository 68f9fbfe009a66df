/* cw-mark-measures.c: the numbers under the measure entries.
 *
 * An upright or level line has three: how far from the edge it runs along, from where, to where. A slanted line has its
 * two ends, a rectangle its four sides, a circle its middle and radius. Other shapes have none here: they are changed
 * on the sheet. All are read from the guide (left) and ruler (top) edge as the sheet lies, or from the other two.
 * Coordinates that a change does not touch keep the text they were typed with.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "text/cw-mark-measures.h"

#include <glib/gi18n-lib.h>

static CwLength *
along_axis (CwPlace *place, guint axis)
{
  return axis == 0 ? &place->x : &place->y;
}

static gint32
ticks_of (CwPlace place, guint axis)
{
  return along_axis (&place, axis)->ticks;
}

/* What a measure is, read from the guide or ruler edge, or from the other one. */
typedef struct
{
  const char *near, *far; /* msgids */
} Help;

typedef struct
{
  CwLying lying;
  gboolean far;
} Reading;

static gint32
get_size (const CwLying *lying, guint axis)
{
  return axis == 0 ? lying->width : lying->height;
}

static void
put (CwMarkMeasure *measure, const char *word, const Help *help, const Reading *reading, CwPlace lying, guint axis,
     guint vertices)
{
  measure->word = word;
  measure->help = reading->far ? help->far : help->near;
  measure->far = reading->far;
  measure->axis = axis;
  measure->vertices = vertices;
  measure->length = *along_axis (&lying, axis);
  if (reading->far)
    measure->length
      = cw_length_from_ticks (get_size (&reading->lying, axis) - measure->length.ticks, measure->length.unit);
  measure->ticks = measure->length.ticks;
}

static guint
line_measures (const Reading *reading, const CwMark *mark, CwMarkMeasure *m)
{
  static const Help at[2] = { { N_ ("How far from the guide edge"), N_ ("How far from the right edge") },
                              { N_ ("How far from the ruler edge"), N_ ("How far from the bottom edge") } };
  static const Help ends[2] = { { N_ ("Where the mark begins"), N_ ("Where the mark begins, from the other edge") },
                                { N_ ("Where the mark ends"), N_ ("Where the mark ends, from the other edge") } };
  static const Help corners[4] = {
    { N_ ("First end, how far from the guide edge"), N_ ("First end, how far from the right edge") },
    { N_ ("First end, how far from the ruler edge"), N_ ("First end, how far from the bottom edge") },
    { N_ ("Second end, how far from the guide edge"), N_ ("Second end, how far from the right edge") },
    { N_ ("Second end, how far from the ruler edge"), N_ ("Second end, how far from the bottom edge") },
  };
  CwPlace a = cw_lying_place_from_piece (&reading->lying, mark->line.vertices[0].at);
  CwPlace b = cw_lying_place_from_piece (&reading->lying, mark->line.vertices[1].at);

  for (guint axis = 0; axis < 2; axis++)
    if (ticks_of (a, axis) == ticks_of (b, axis))
      {
        /* The smaller measure first, from whichever edge. */
        gboolean forward = (ticks_of (a, 1 - axis) <= ticks_of (b, 1 - axis)) == !reading->far;

        put (&m[0], N_ ("At"), &at[axis], reading, a, axis, 3);
        put (&m[1], N_ ("from"), &ends[0], reading, forward ? a : b, 1 - axis, forward ? 1 : 2);
        put (&m[2], N_ ("to"), &ends[1], reading, forward ? b : a, 1 - axis, forward ? 2 : 1);
        return 3;
      }
  put (&m[0], N_ ("From"), &corners[0], reading, a, 0, 1);
  put (&m[1], N_ (","), &corners[1], reading, a, 1, 1);
  put (&m[2], N_ ("to"), &corners[2], reading, b, 0, 2);
  put (&m[3], N_ (","), &corners[3], reading, b, 1, 2);
  return 4;
}

static guint
rect_measures (const Reading *reading, const CwMark *mark, CwMarkMeasure *m)
{
  static const struct
  {
    const char *word;
    Help help;
  } words[2][2] = {
    { { N_ ("Left"), { N_ ("Left side, how far from the guide edge"), N_ ("Left side, how far from the right edge") } },
      { N_ ("right"),
        { N_ ("Right side, how far from the guide edge"), N_ ("Right side, how far from the right edge") } } },
    { { N_ ("top"), { N_ ("Top side, how far from the ruler edge"), N_ ("Top side, how far from the bottom edge") } },
      { N_ ("bottom"),
        { N_ ("Bottom side, how far from the ruler edge"), N_ ("Bottom side, how far from the bottom edge") } } },
  };
  CwPlace a = cw_lying_place_from_piece (&reading->lying, mark->line.vertices[0].at);
  CwPlace b = cw_lying_place_from_piece (&reading->lying, mark->line.vertices[1].at);

  for (guint axis = 0; axis < 2; axis++)
    {
      gboolean forward = ticks_of (a, axis) <= ticks_of (b, axis);

      put (&m[2 * axis], words[axis][0].word, &words[axis][0].help, reading, forward ? a : b, axis, forward ? 1 : 2);
      put (&m[2 * axis + 1], words[axis][1].word, &words[axis][1].help, reading, forward ? b : a, axis,
           forward ? 2 : 1);
    }
  return 4;
}

/**
 * cw_mark_measures:
 * @piece: the piece the mark is on
 * @lie: how the piece lies
 * @far: read from the right and the bottom edge
 * @mark: one of its marks, or the outline of an area on it
 * @measures: (out): its measures
 *
 * Returns: how many measures there are; 0 for shapes that no few numbers describe
 */
guint
cw_mark_measures (const CwPiece *piece, CwLie lie, gboolean far, const CwMark *mark,
                  CwMarkMeasure measures[CW_MARK_MEASURES_MAX])
{
  static const Help middles[2] = {
    { N_ ("Middle, how far from the guide edge"), N_ ("Middle, how far from the right edge") },
    { N_ ("Middle, how far from the ruler edge"), N_ ("Middle, how far from the bottom edge") },
  };
  Reading reading = { .far = far };
  CwPlace centre;

  g_return_val_if_fail (piece != NULL && mark != NULL, 0);

  reading.lying = cw_lying_new (piece, lie);

  switch (mark->shape)
    {
    case CW_SHAPE_LINE:
      if (mark->kind == CW_MARK_WINDOW || mark->line.n_vertices != 2)
        return 0;
      return line_measures (&reading, mark, measures);
    case CW_SHAPE_RECT:
      return mark->line.n_vertices == 2 ? rect_measures (&reading, mark, measures) : 0;
    case CW_SHAPE_CIRCLE:
      centre = cw_lying_place_from_piece (&reading.lying, mark->centre);
      put (&measures[0], N_ ("Middle"), &middles[0], &reading, centre, 0, 1);
      put (&measures[1], N_ (","), &middles[1], &reading, centre, 1, 1);
      measures[2] = (CwMarkMeasure){ N_ ("radius"), N_ ("Radius"), mark->radius.ticks, mark->radius, 2, 0, FALSE };
      return 3;
    default:
      return 0;
    }
}

static void
shift (const CwLying *lying, CwPlace *place, guint axis, CwLength value)
{
  CwPlace moved = cw_lying_place_from_piece (lying, *place);

  *along_axis (&moved, axis) = value;
  moved = cw_lying_place_to_piece (lying, moved);
  for (guint i = 0; i < 2; i++)
    if (ticks_of (moved, i) != ticks_of (*place, i))
      *along_axis (place, i) = *along_axis (&moved, i);
}

/**
 * cw_mark_with_measure:
 * @piece: the piece the mark is on
 * @lie: how the piece lies
 * @mark: one of its marks
 * @measure: one of its measures, as cw_mark_measures() gave it
 * @value: what it is to be
 *
 * Returns: (transfer full): a copy of the mark with that measure
 */
CwMark *
cw_mark_with_measure (const CwPiece *piece, CwLie lie, const CwMark *mark, const CwMarkMeasure *measure, CwLength value)
{
  CwMark *made = NULL;
  CwLying lying;

  g_return_val_if_fail (piece != NULL && mark != NULL && measure != NULL, NULL);

  lying = cw_lying_new (piece, lie);
  made = cw_mark_copy (mark);
  if (measure->far && measure->axis < 2)
    value = cw_length_from_ticks (get_size (&lying, measure->axis) - value.ticks, value.unit);
  if (measure->axis == 2)
    made->radius = value;
  else if (made->shape == CW_SHAPE_CIRCLE)
    shift (&lying, &made->centre, measure->axis, value);
  else
    for (guint i = 0; i < made->line.n_vertices; i++)
      if (measure->vertices & (1u << i))
        shift (&lying, &made->line.vertices[i].at, measure->axis, value);
  return made;
}
