/* cw-hand.c: what a hand does on the table.
 *
 * Aiming: a place held by an end, corner or crossing wins; else a line nearly upright or level against the place it
 * came from is made exactly so and ends on the first line of the drawing near the pointer (so that scores reach the
 * edge of sheets that are no whole number of snap steps wide); else a line of the drawing nearby holds the place; else
 * the snap step. Lines of the drawing are the sides of its panels. Works on the sheet as it lies: quarter turns keep
 * upright and level exact.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "cw-hand.h"

#include <glib/gi18n-lib.h>
#include <math.h>

/* A line this near to upright or level is meant to be so: pixels off at its end, or a share of its length. */
#define STRAIGHT_REACH 7.0
#define STRAIGHT_SHARE 0.06
/* Smallest and largest size of one inch on the table, in pixels. */
#define SCALE_LEAST (6.0 / CW_TICKS_PER_INCH)
#define SCALE_MOST (2400.0 / CW_TICKS_PER_INCH)
/* One full turn of the card for about 900 pixels of dragging. */
#define TURN_PER_PIXEL 0.007

typedef struct
{
  double x, y;
} Output;

static Output
to_output (const CwSheetView *view, const CwPanelMap *map, CwPoint p)
{
  Output out;

  cw_sheet_view_to_output (view, map, p.x, p.y, &out.x, &out.y);
  return out;
}

/* The nearest place of the drawing's lines to an output place; on an upright or level side its place along the side
 * keeps to the snap step, given by `stepped`. With `ray` only sides that cross the line through `from` along one axis
 * count, and the place is the crossing. */
static gboolean
nearest_on_lines (const CwSheetView *view, const CwPanelMap *map, CwPoint stepped, double ox, double oy, double reach,
                  const CwPoint *from, gboolean along_x, CwPoint *found)
{
  double best = reach;
  gboolean any = FALSE;

  for (guint i = 0; i < map->panels->len; i++)
    {
      const CwPolygon *outline = &g_array_index (map->panels, CwPanel, i).outline;
      for (guint r = 0; r < outline->n_rings; r++)
        for (guint k = 0; k < outline->rings[r].n_points; k++)
          {
            CwPoint a = outline->rings[r].points[k];
            CwPoint b = outline->rings[r].points[(k + 1) % outline->rings[r].n_points];
            CwPoint at;
            Output out;
            double far;

            if (from != NULL)
              {
                /* Along x at height from->y, or along y at from->x: where does this side cross it? */
                gint32 c = along_x ? from->y : from->x;
                gint32 a1 = along_x ? a.y : a.x, b1 = along_x ? b.y : b.x;
                gint32 a2 = along_x ? a.x : a.y, b2 = along_x ? b.x : b.y;
                double other;

                if (a1 == b1 || c < MIN (a1, b1) || c > MAX (a1, b1))
                  continue;
                other = a2 + (double) (b2 - a2) * ((double) (c - a1) / (double) (b1 - a1));
                at = along_x ? cw_point ((gint32) lround (other), c) : cw_point (c, (gint32) lround (other));
              }
            else if (a.x == b.x)
              at = cw_point (a.x, CLAMP (stepped.y, MIN (a.y, b.y), MAX (a.y, b.y)));
            else if (a.y == b.y)
              at = cw_point (CLAMP (stepped.x, MIN (a.x, b.x), MAX (a.x, b.x)), a.y);
            else
              {
                double dx = b.x - a.x, dy = b.y - a.y, px, py, t;

                cw_sheet_view_to_piece (view, map, ox, oy, &px, &py);
                t = CLAMP (((px - a.x) * dx + (py - a.y) * dy) / (dx * dx + dy * dy), 0, 1);
                at = cw_point ((gint32) lround (a.x + t * dx), (gint32) lround (a.y + t * dy));
              }
            out = to_output (view, map, at);
            far = hypot (out.x - ox, out.y - oy);
            if (far < best || (far <= best && !any))
              {
                best = far;
                *found = at;
                any = TRUE;
              }
          }
    }
  return any;
}

/* A hand beside the sheet means its edge, as a ruler does. */
static void
keep_on_paper (const CwSheetView *view, const CwPanelMap *map, double *ox, double *oy)
{
  Output a = to_output (view, map, map->box_min), b = to_output (view, map, map->box_max);

  *ox = CLAMP (*ox, MIN (a.x, b.x), MAX (a.x, b.x));
  *oy = CLAMP (*oy, MIN (a.y, b.y), MAX (a.y, b.y));
}

/* What a line of the drawing is called: the sheet's own edge, or any other. */
static const char *
name_line (const CwPanelMap *map, CwPoint at)
{
  if (at.x == map->box_min.x || at.x == map->box_max.x || at.y == map->box_min.y || at.y == map->box_max.y)
    return N_ ("at the edge");
  return N_ ("on a line");
}

/**
 * cw_hand_aim:
 * @view: how the sheet lies
 * @map: its panels
 * @step_ticks: the snap step; 0 for none
 * @ox: pointer, output
 * @oy: pointer, output
 * @reach: how near something must be to hold the place, output units
 * @from: (nullable): the place the line comes from
 * @slant: do not straighten
 *
 * Returns: where the hand means to be
 */
CwAim
cw_hand_aim (const CwSheetView *view, const CwPanelMap *map, gint32 step_ticks, double ox, double oy, double reach,
             const CwPoint *from, gboolean slant)
{
  CwAim aim = { .at = cw_point (0, 0) };
  const char *plain = NULL;
  CwPoint on;

  g_return_val_if_fail (view != NULL && map != NULL, aim);

  keep_on_paper (view, map, &ox, &oy);
  aim.at = cw_sheet_view_snap (view, map, step_ticks, ox, oy, reach, &aim.word);
  cw_sheet_view_snap (view, map, step_ticks, ox, oy, 0, &plain);
  if (g_strcmp0 (aim.word, plain) == 0)
    aim.word = NULL; /* the snap step holds every place: nothing in particular */
  if (from != NULL && !slant)
    {
      Output start = to_output (view, map, *from);
      double dx = fabs (ox - start.x), dy = fabs (oy - start.y);
      gboolean sideways = view->lie.quarter_turns % 2 == 1;
      gboolean upright = dx <= MAX (STRAIGHT_REACH, STRAIGHT_SHARE * dy) && dy > dx;
      gboolean level = dy <= MAX (STRAIGHT_REACH, STRAIGHT_SHARE * dx) && dx > dy;
      Output held = to_output (view, map, aim.at);

      /* What holds the place exactly in line is kept; what is beside the line only when the pointer is right on it. */
      if ((upright || level) && aim.word != NULL && (upright ? fabs (held.x - start.x) : fabs (held.y - start.y)) >= 1
          && hypot (held.x - ox, held.y - oy) <= reach / 2)
        upright = level = FALSE;
      if (upright || level)
        {
          gboolean along_x = level != sideways;

          if (along_x)
            aim.at.y = from->y;
          else
            aim.at.x = from->x;
          aim.upright = upright;
          aim.level = level;
          aim.word = NULL;
          if (nearest_on_lines (view, map, aim.at, level ? ox : start.x, level ? start.y : oy, reach, from, along_x,
                                &on))
            {
              aim.at = on;
              aim.word = name_line (map, on);
            }
          return aim;
        }
    }
  if (aim.word == NULL && nearest_on_lines (view, map, aim.at, ox, oy, reach, NULL, FALSE, &on))
    {
      aim.at = on;
      aim.word = name_line (map, on);
    }
  if (from != NULL)
    {
      Output start = to_output (view, map, *from), end = to_output (view, map, aim.at);
      gboolean same_across = fabs (start.x - end.x) * 2 < view->scale,
               same_down = fabs (start.y - end.y) * 2 < view->scale;

      aim.upright = same_across && !same_down;
      aim.level = same_down && !same_across;
    }
  return aim;
}

/**
 * cw_hand_measure:
 * @view: how the sheet lies
 * @map: its panels
 * @at: a place of the piece
 * @across: (out): ticks from the guide edge
 * @down: (out): ticks from the ruler edge
 */
void
cw_hand_measure (const CwSheetView *view, const CwPanelMap *map, CwPoint at, gint32 *across, gint32 *down)
{
  const CwSheetView lying = { view->lie, 1, 0, 0 };
  Output out = to_output (&lying, map, at);

  *across = (gint32) lround (out.x);
  *down = (gint32) lround (out.y);
}

/**
 * cw_hand_lying_step:
 * @lie: how the sheet lies
 * @right: -1, 0 or 1
 * @down: -1, 0 or 1
 *
 * Returns: the same way in the piece's own coordinates
 */
CwPoint
cw_hand_lying_step (CwLie lie, int right, int down)
{
  CwPoint step = cw_point (right, down);

  /* Turned by a quarter clockwise, what lies to the right was up. */
  for (guint i = 0; i < lie.quarter_turns % 4; i++)
    step = cw_point (step.y, -step.x);
  if (lie.flipped)
    step.x = -step.x;
  return step;
}

static void
shift_place (CwPlace *place, const CwPlace *from, CwPoint by)
{
  *place = *from;
  if (by.x != 0)
    place->x = cw_length_from_ticks (from->x.ticks + by.x, from->x.unit);
  if (by.y != 0)
    place->y = cw_length_from_ticks (from->y.ticks + by.y, from->y.unit);
}

/**
 * cw_hand_slide_mark:
 * @mark: a mark not yet shared
 * @from: where it was
 * @by: how far it is shifted, ticks
 */
void
cw_hand_slide_mark (CwMark *mark, const CwMark *from, CwPoint by)
{
  g_return_if_fail (mark->line.n_vertices == from->line.n_vertices);

  for (guint i = 0; i < mark->line.n_vertices; i++)
    shift_place (&mark->line.vertices[i].at, &from->line.vertices[i].at, by);
  if (mark->shape == CW_SHAPE_CIRCLE)
    shift_place (&mark->centre, &from->centre, by);
}

/**
 * cw_hand_stretch_mark:
 * @mark: a mark not yet shared
 * @part: which of its handles, as drawn: a vertex; of a rectangle also 2 and 3, the corners between its two; of a
 * circle 1, its rim, or 0, its middle
 * @at: where it goes
 * @unit: unit of the new measures
 */
void
cw_hand_stretch_mark (CwMark *mark, guint part, CwPoint at, CwUnit unit)
{
  CwVertex *v = mark->line.vertices;

  if (mark->shape == CW_SHAPE_CIRCLE)
    {
      CwPoint c = cw_place_get_point (&mark->centre);

      if (part == 0)
        mark->centre = cw_place_from_point (at, unit);
      else
        mark->radius = cw_length_from_ticks (MAX (1, (gint32) lround (hypot (at.x - c.x, at.y - c.y))), unit);
      return;
    }
  if (mark->shape == CW_SHAPE_RECT && part >= 2 && mark->line.n_vertices == 2)
    {
      v[part == 2 ? 1 : 0].at.x = cw_length_from_ticks (at.x, unit);
      v[part == 2 ? 0 : 1].at.y = cw_length_from_ticks (at.y, unit);
      return;
    }
  g_return_if_fail (part < mark->line.n_vertices);
  v[part].at = cw_place_from_point (at, unit);
}

/**
 * cw_hand_shift:
 * @mark: a mark about to be moved
 * @held: where the hand took it
 * @to: where the hand is now
 * @step_ticks: the snap step; 0 for none
 *
 * The vertex nearest to @held goes to the snap step nearest to where the hand has brought it; on an axis along which
 * the hand has not moved by a step the mark stays.
 *
 * Returns: the shift, ticks
 */
CwPoint
cw_hand_shift (const CwMark *mark, CwPoint held, CwPoint to, gint32 step_ticks)
{
  CwPoint anchor = mark->shape == CW_SHAPE_CIRCLE ? cw_place_get_point (&mark->centre) : cw_point (0, 0);
  CwPoint by = cw_point (to.x - held.x, to.y - held.y);
  double best = G_MAXDOUBLE;

  for (guint i = 0; i < mark->line.n_vertices; i++)
    {
      CwPoint p = cw_place_get_point (&mark->line.vertices[i].at);
      double far = hypot ((double) p.x - held.x, (double) p.y - held.y);

      if (far < best)
        {
          best = far;
          anchor = p;
        }
    }
  if (step_ticks > 0)
    {
      by.x = ABS (by.x) * 2 < step_ticks ? 0 : cw_ticks_snap (anchor.x + by.x, step_ticks) - anchor.x;
      by.y = ABS (by.y) * 2 < step_ticks ? 0 : cw_ticks_snap (anchor.y + by.y, step_ticks) - anchor.y;
    }
  return by;
}

/* A shift of what reaches from low to high, kept within least and most; what already lies outside may come back. */
static gint32
keep_within (gint32 by, gint32 low, gint32 high, gint32 least, gint32 most)
{
  return CLAMP (by, MIN (0, least - low), MAX (0, most - high));
}

/**
 * cw_hand_keep_on_sheet:
 * @map: the sheet's panels
 * @mark: a mark about to be shifted
 * @by: how far, ticks
 *
 * Returns: as much of the shift as leaves the mark on the sheet
 */
CwPoint
cw_hand_keep_on_sheet (const CwPanelMap *map, const CwMark *mark, CwPoint by)
{
  const CwSheetView flat = { { 0, FALSE }, 1, 0, 0 };
  gint32 least_x = 0, least_y = 0, most_x = map->box_max.x - map->box_min.x, most_y = map->box_max.y - map->box_min.y;
  double box[4];

  cw_hand_mark_box (&flat, map, mark, box);
  if (!(box[2] >= box[0]))
    return by;
  by.x = keep_within (by.x, (gint32) lround (box[0]), (gint32) lround (box[2]), least_x, most_x);
  by.y = keep_within (by.y, (gint32) lround (box[1]), (gint32) lround (box[3]), least_y, most_y);
  return by;
}

/**
 * cw_hand_zoom_sheet:
 * @view: how the sheet lies, changed
 * @factor: above 1 makes it larger; held within sensible sizes
 * @ox: the place that stays, output
 * @oy: the same
 */
void
cw_hand_zoom_sheet (CwSheetView *view, double factor, double ox, double oy)
{
  double scale = CLAMP (view->scale * factor, SCALE_LEAST, SCALE_MOST), real = scale / view->scale;

  view->scale = scale;
  view->left = ox + (view->left - ox) * real;
  view->top = oy + (view->top - oy) * real;
}

/**
 * cw_hand_zoom_card:
 * @camera: the look at the card, changed
 * @factor: above 1 makes it larger; held within sensible sizes
 * @ox: the place that stays, output
 * @oy: the same
 */
void
cw_hand_zoom_card (CwCamera *camera, double factor, double ox, double oy)
{
  double scale = CLAMP (camera->scale * factor, SCALE_LEAST, SCALE_MOST), real = scale / camera->scale;

  camera->scale = scale;
  camera->x = ox + (camera->x - ox) * real;
  camera->y = oy + (camera->y - oy) * real;
}

/**
 * cw_hand_turn_card:
 * @camera: the look at the card, changed
 * @dx: drag to the right, pixels
 * @dy: drag down, pixels
 */
void
cw_hand_turn_card (CwCamera *camera, double dx, double dy)
{
  /* Seen from above the card spins on the table, seen straight on it turns about its upright: between, both. */
  double way = cos (camera->yaw) < 0 ? 1 : -1;
  camera->spin = remainder (camera->spin + way * dx * TURN_PER_PIXEL * sin (camera->pitch), 2 * G_PI);
  camera->yaw = remainder (camera->yaw + dx * TURN_PER_PIXEL * cos (camera->pitch), 2 * G_PI);
  camera->pitch = CLAMP (camera->pitch + dy * TURN_PER_PIXEL, -G_PI / 2, G_PI / 2);
}

/**
 * cw_hand_between:
 * @camera: (out): the look between
 * @from: one look
 * @to: another
 * @share: 0 gives @from, 1 gives @to
 */
void
cw_hand_between (CwCamera *camera, const CwCamera *from, const CwCamera *to, double share)
{
  *camera = *to;
  if (share >= 1)
    return;
  camera->yaw = from->yaw + remainder (to->yaw - from->yaw, 2 * G_PI) * share;
  camera->pitch = from->pitch + (to->pitch - from->pitch) * share;
  camera->spin = from->spin + remainder (to->spin - from->spin, 2 * G_PI) * share;
  camera->scale = from->scale + (to->scale - from->scale) * share;
  camera->x = from->x + (to->x - from->x) * share;
  camera->y = from->y + (to->y - from->y) * share;
  camera->centre = cw_vec3_add (from->centre, cw_vec3_scale (cw_vec3_sub (to->centre, from->centre), share));
}
