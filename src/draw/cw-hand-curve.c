/* cw-hand-curve.c: arcs and circles under the hand.
 *
 * An arc is said by its two ends and how far it rises over the straight between them: its third place lies over the
 * middle, so that it is the same on both sides; a rise of half the width is a half round. All in the piece's own
 * coordinates.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "cw-hand.h"

#include "geometry/cw-arc.h"

#include <glib/gi18n-lib.h>
#include <math.h>

/**
 * cw_hand_aim_rise:
 * @view: how the sheet lies
 * @map: its panels
 * @step_ticks: the snap step; 0 for none
 * @ox: pointer, output
 * @oy: pointer, output
 * @reach: how near a half round must be to hold the place, output units
 * @a: one end of the arc
 * @b: the other
 *
 * Returns: the place over the middle between the ends that is as high as the pointer; between the ends: straight
 */
CwAim
cw_hand_aim_rise (const CwSheetView *view, const CwPanelMap *map, gint32 step_ticks, double ox, double oy, double reach,
                  CwPoint a, CwPoint b)
{
  CwAim aim = { .at = b };
  double px, py, dx = b.x - a.x, dy = b.y - a.y, length = hypot (dx, dy), rise, half = length / 2;

  g_return_val_if_fail (view != NULL && map != NULL, aim);
  if (length < 1)
    return aim;
  cw_sheet_view_to_piece (view, map, ox, oy, &px, &py);
  rise = ((px - (a.x + b.x) / 2.0) * -dy + (py - (a.y + b.y) / 2.0) * dx) / length;
  if (fabs (fabs (rise) - half) * view->scale <= reach)
    {
      rise = rise < 0 ? -half : half;
      aim.word = N_ ("half round");
    }
  else if (step_ticks > 0)
    rise = cw_ticks_snap ((gint32) lround (rise), step_ticks);
  if (fabs (rise) < 1)
    aim.word = N_ ("straight");
  aim.at = cw_point ((gint32) lround ((a.x + b.x) / 2.0 - dy / length * rise),
                     (gint32) lround ((a.y + b.y) / 2.0 + dx / length * rise));
  return aim;
}

/**
 * cw_hand_radius:
 * @centre: of a circle
 * @aim: where the hand means its rim to be
 * @step_ticks: the snap step; 0 for none
 *
 * Returns: its radius, ticks: a multiple of the step unless something holds the place
 */
gint32
cw_hand_radius (CwPoint centre, const CwAim *aim, gint32 step_ticks)
{
  gint32 radius = (gint32) lround (hypot ((double) aim->at.x - centre.x, (double) aim->at.y - centre.y));

  return aim->word != NULL || step_ticks <= 0 ? radius : cw_ticks_snap (radius, step_ticks);
}

/**
 * cw_hand_arc_depth:
 * @mark: a mark
 *
 * Returns: how far its arc rises over the straight between its ends, ticks; -1 if it is not one arc
 */
gint32
cw_hand_arc_depth (const CwMark *mark)
{
  const CwVertex *v = mark->line.vertices;
  double cx, cy, radius, across;
  CwPoint a, through, b;

  if (mark->shape != CW_SHAPE_LINE || mark->line.n_vertices != 3 || !v[1].through || mark->kind == CW_MARK_WINDOW)
    return -1;
  a = cw_place_get_point (&v[0].at);
  through = cw_place_get_point (&v[1].at);
  b = cw_place_get_point (&v[2].at);
  if (!cw_arc_circle (a, through, b, &cx, &cy, &radius))
    return 0;
  /* From the middle of the chord to the arc, on the side of the place it goes through. */
  across = hypot ((a.x + b.x) / 2.0 - cx, (a.y + b.y) / 2.0 - cy);
  double chord_x = b.x - a.x, chord_y = b.y - a.y;
  double side_through = chord_x * (through.y - a.y) - chord_y * (through.x - a.x);
  double side_centre = chord_x * (cy - a.y) - chord_y * (cx - a.x);
  return (gint32) lround (side_through * side_centre > 0 ? radius + across : radius - across);
}
