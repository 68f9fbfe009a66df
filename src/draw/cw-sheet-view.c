/* cw-sheet-view.c: where the flat piece lies on the output, and the nearest place the maker's marks allow.
 *
 * The view turns and flips exactly (quarter turns on whole ticks), so that what is snapped to an edge lies on the edge.
 * Snapping is read from the guide (left) and ruler (top) edge as the piece lies: on a trimmer the eighth of an inch is
 * counted from there, also when the sheet has no whole number of eighths.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#include "cw-draw-sheet-private.h"

/* A piece and back, in ticks as lying: the corner of the lying box is 0, 0. */
static void
lie_down (const CwSheetView *view, const CwPanelMap *map, double x, double y, double *lx, double *ly)
{
  double w = map->box_max.x - map->box_min.x, h = map->box_max.y - map->box_min.y;

  x -= map->box_min.x;
  y -= map->box_min.y;
  if (view->lie.flipped)
    x = w - x;
  for (guint i = 0; i < view->lie.quarter_turns % 4; i++)
    {
      double turned = h - y, swap = h;
      y = x;
      x = turned;
      h = w;
      w = swap;
    }
  *lx = x;
  *ly = y;
}

static void
pick_up (const CwSheetView *view, const CwPanelMap *map, double lx, double ly, double *x, double *y)
{
  double w = map->box_max.x - map->box_min.x, h = map->box_max.y - map->box_min.y;

  if (view->lie.quarter_turns % 2 == 1)
    {
      double swap = w;
      w = h;
      h = swap;
    }
  for (guint i = 0; i < view->lie.quarter_turns % 4; i++)
    {
      double turned = lx, swap = h;
      lx = ly;
      ly = w - turned;
      h = w;
      w = swap;
    }
  if (view->lie.flipped)
    lx = w - lx;
  *x = lx + map->box_min.x;
  *y = ly + map->box_min.y;
}

/**
 * cw_sheet_view_size:
 * @view: a view
 * @map: the piece
 * @width: (out): ticks as it lies
 * @height: (out): the same
 */
void
cw_sheet_view_size (const CwSheetView *view, const CwPanelMap *map, gint32 *width, gint32 *height)
{
  gint32 w = map->box_max.x - map->box_min.x, h = map->box_max.y - map->box_min.y;
  gboolean across = view->lie.quarter_turns % 2 == 1;

  *width = across ? h : w;
  *height = across ? w : h;
}

/**
 * cw_sheet_view_fit:
 * @view: a view whose `lie` is set
 * @map: the piece
 * @x: left of the room there is, output units
 * @y: top
 * @width: width
 * @height: height
 *
 * Sets scale and place so that paper and rulers fill the room, the paper in its middle.
 */
void
cw_sheet_view_fit (CwSheetView *view, const CwPanelMap *map, double x, double y, double width, double height)
{
  gint32 w, h;

  g_return_if_fail (view != NULL && map != NULL);

  cw_sheet_view_size (view, map, &w, &h);
  double room_x = MAX (width - CW_SHEET_MARGIN_LEFT - CW_SHEET_MARGIN, 1);
  double room_y = MAX (height - CW_SHEET_MARGIN_TOP - CW_SHEET_MARGIN, 1);
  view->scale = MIN (room_x / MAX (w, 1), room_y / MAX (h, 1));
  view->left = x + CW_SHEET_MARGIN_LEFT + (room_x - w * view->scale) / 2;
  view->top = y + CW_SHEET_MARGIN_TOP + (room_y - h * view->scale) / 2;
}

/**
 * cw_sheet_view_to_output:
 * @view: a view
 * @map: the piece
 * @x: piece coordinates, ticks
 * @y: the same
 * @ox: (out): output place
 * @oy: (out): the same
 */
void
cw_sheet_view_to_output (const CwSheetView *view, const CwPanelMap *map, double x, double y, double *ox, double *oy)
{
  double lx, ly;

  lie_down (view, map, x, y, &lx, &ly);
  *ox = view->left + lx * view->scale;
  *oy = view->top + ly * view->scale;
}

/**
 * cw_sheet_view_get_flat:
 * @view: a view
 * @map: the piece
 *
 * Returns: cw_sheet_view_to_output() as a mapping
 */
CwFlat
cw_sheet_view_get_flat (const CwSheetView *view, const CwPanelMap *map)
{
  /* As far apart as a large sheet, so that rounding does not turn it. */
  const double far = CW_LENGTH_MAX;
  double ax, ay, dx, dy;
  CwFlat flat;

  cw_sheet_view_to_output (view, map, 0, 0, &flat.x0, &flat.y0);
  cw_sheet_view_to_output (view, map, far, 0, &ax, &ay);
  cw_sheet_view_to_output (view, map, 0, far, &dx, &dy);
  flat.xx = (ax - flat.x0) / far;
  flat.yx = (ay - flat.y0) / far;
  flat.xy = (dx - flat.x0) / far;
  flat.yy = (dy - flat.y0) / far;
  return flat;
}

/**
 * cw_sheet_view_to_piece:
 * @view: a view
 * @map: the piece
 * @ox: output place
 * @oy: the same
 * @x: (out): piece coordinates, ticks
 * @y: (out): the same
 */
void
cw_sheet_view_to_piece (const CwSheetView *view, const CwPanelMap *map, double ox, double oy, double *x, double *y)
{
  pick_up (view, map, (ox - view->left) / view->scale, (oy - view->top) / view->scale, x, y);
}

/* Straight stretches of all marks and the outline, for their ends and crossings. Arcs count by their vertices only. */
typedef struct
{
  double x, y; /* what is looked for, piece ticks */
  double best; /* squared distance, ticks */
  CwPoint found;
  gboolean any;
} Nearest;

static void
offer (Nearest *nearest, double x, double y)
{
  double d2 = (x - nearest->x) * (x - nearest->x) + (y - nearest->y) * (y - nearest->y);

  if (d2 > nearest->best)
    return;
  nearest->best = d2;
  nearest->found = cw_point ((gint32) lround (x), (gint32) lround (y));
  nearest->any = TRUE;
}

static guint
mark_stretches (const CwMark *mark, guint at, CwPoint *a, CwPoint *b)
{
  const CwPath *line = &mark->line;

  if (mark->shape == CW_SHAPE_CIRCLE)
    return 0;
  if (mark->shape == CW_SHAPE_RECT)
    {
      if (line->n_vertices < 2)
        return 0;
      CwPoint p = cw_place_get_point (&line->vertices[0].at), q = cw_place_get_point (&line->vertices[1].at);
      CwPoint corner[4] = { p, { q.x, p.y }, q, { p.x, q.y } };
      *a = corner[at % 4];
      *b = corner[(at + 1) % 4];
      return 4;
    }
  guint n = line->n_vertices < 2 ? 0 : mark->kind == CW_MARK_WINDOW ? line->n_vertices : line->n_vertices - 1;
  if (at < n)
    {
      *a = cw_place_get_point (&line->vertices[at].at);
      *b = cw_place_get_point (&line->vertices[(at + 1) % line->n_vertices].at);
    }
  return n;
}

static void
offer_crossings (Nearest *nearest, const CwMark *mark, const CwMark *other)
{
  CwPoint a = { 0, 0 }, b = { 0, 0 }, c = { 0, 0 }, d = { 0, 0 };
  guint n = mark_stretches (mark, 0, &a, &b), m = mark_stretches (other, 0, &c, &d);

  for (guint i = 0; i < n; i++)
    for (guint k = 0; k < m; k++)
      {
        mark_stretches (mark, i, &a, &b);
        mark_stretches (other, k, &c, &d);
        gint64 across = ((gint64) b.x - a.x) * ((gint64) d.y - c.y) - ((gint64) b.y - a.y) * ((gint64) d.x - c.x);
        if (across == 0)
          continue;
        double t
          = (double) cw_point_orient (c, d, a) / (double) (cw_point_orient (c, d, a) - cw_point_orient (c, d, b));
        double u
          = (double) cw_point_orient (a, b, c) / (double) (cw_point_orient (a, b, c) - cw_point_orient (a, b, d));
        if (t >= 0 && t <= 1 && u >= 0 && u <= 1)
          offer (nearest, a.x + t * (b.x - a.x), a.y + t * (b.y - a.y));
      }
}

static void
offer_path (Nearest *nearest, const CwPath *path)
{
  for (guint i = 0; i < path->n_vertices; i++)
    if (!path->vertices[i].through)
      {
        CwPoint p = cw_place_get_point (&path->vertices[i].at);
        offer (nearest, p.x, p.y);
      }
}

/* One direction as it lies: the far edge when within reach, else the nearest mark of the snap step. */
static double
snap_along (double at, gint32 size, gint32 step, double reach)
{
  if (fabs (at - size) <= reach && (step <= 0 || fabs (at - size) <= step / 2.0))
    return size;
  if (step <= 0)
    return round (at);
  return cw_ticks_snap ((gint32) lround (at), step);
}

/**
 * cw_sheet_view_snap:
 * @view: a view
 * @map: the piece
 * @step_ticks: the maker's finest mark; 0: every tick
 * @ox: output place
 * @oy: the same
 * @reach: how near an existing place counts, output units
 * @what: (out) (nullable): msgid of what was snapped to
 *
 * Returns: piece coordinates of the nearest end, corner or crossing within @reach, else of the nearest place on the
 * snap step, counted from the guide and ruler edge as the piece lies
 */
CwPoint
cw_sheet_view_snap (const CwSheetView *view, const CwPanelMap *map, gint32 step_ticks, double ox, double oy,
                    double reach, const char **what)
{
  const char *said = NULL;
  double x, y, reach_ticks = reach / view->scale;
  gint32 width, height;

  cw_sheet_view_to_piece (view, map, ox, oy, &x, &y);
  Nearest nearest = { x, y, reach_ticks * reach_ticks, { 0, 0 }, FALSE };

  offer_path (&nearest, &map->piece->outline);
  if (nearest.any)
    said = N_ ("corner");
  for (guint i = 0; i < map->piece->marks->len; i++)
    {
      const CwMark *mark = g_ptr_array_index (map->piece->marks, i);
      CwPoint a = { 0, 0 }, b = { 0, 0 };
      double before = nearest.best;
      guint n = mark_stretches (mark, 0, &a, &b);

      if (mark->shape == CW_SHAPE_CIRCLE)
        {
          CwPoint centre = cw_place_get_point (&mark->centre);
          offer (&nearest, centre.x, centre.y);
          if (nearest.best < before)
            said = N_ ("centre of a circle");
          continue;
        }
      if (mark->shape == CW_SHAPE_LINE)
        offer_path (&nearest, &mark->line);
      else
        for (guint k = 0; k < n; k++)
          {
            mark_stretches (mark, k, &a, &b);
            offer (&nearest, a.x, a.y);
          }
      if (nearest.best < before)
        said = N_ ("end of a line");
      before = nearest.best;
      for (guint k = 0; k < i; k++)
        offer_crossings (&nearest, mark, g_ptr_array_index (map->piece->marks, k));
      if (nearest.best < before)
        said = N_ ("crossing");
    }

  if (!nearest.any)
    {
      cw_sheet_view_size (view, map, &width, &height);
      double lx = snap_along ((ox - view->left) / view->scale, width, step_ticks, reach_ticks);
      double ly = snap_along ((oy - view->top) / view->scale, height, step_ticks, reach_ticks);
      pick_up (view, map, lx, ly, &x, &y);
      nearest.found = cw_point ((gint32) lround (x), (gint32) lround (y));
      said = step_ticks > 0 ? N_ ("your marks") : NULL;
    }
  if (what != NULL)
    *what = said;
  return nearest.found;
}

static guint
add_measure (CwSheetMeasure *measures, guint n, guint n_max, CwSheetMeasure measure)
{
  for (guint i = 0; i < n; i++)
    if (measures[i].axis == measure.axis && measures[i].ticks == measure.ticks)
      return n;
  if (n < n_max)
    measures[n++] = measure;
  return n;
}

/**
 * cw_sheet_view_measures:
 * @view: a view
 * @map: the piece
 * @mark: one of its marks
 * @measures: (out): room for @n_max measures
 * @n_max: how many fit
 *
 * Returns: how many there are
 */
guint
cw_sheet_view_measures (const CwSheetView *view, const CwPanelMap *map, const CwMark *mark, CwSheetMeasure *measures,
                        guint n_max)
{
  guint n = 0, n_vertices = mark->shape == CW_SHAPE_CIRCLE ? 1 : mark->line.n_vertices;
  gint32 size[2];

  cw_sheet_view_size (view, map, &size[0], &size[1]);
  for (guint axis = 0; axis < 2; axis++)
    for (guint i = 0; i < n_vertices; i++)
      {
        if (mark->shape != CW_SHAPE_CIRCLE && mark->line.vertices[i].through)
          continue;
        CwPoint p = cw_place_get_point (mark->shape == CW_SHAPE_CIRCLE ? &mark->centre : &mark->line.vertices[i].at);
        double at[2];
        lie_down (view, map, p.x, p.y, &at[0], &at[1]);
        gint32 ticks = (gint32) lround (at[axis]);
        if (ticks != 0 && ticks != size[axis])
          n = add_measure (measures, n, n_max, (CwSheetMeasure){ CW_MEASURE_PART (i, axis), i, axis, ticks });
      }
  if (mark->shape == CW_SHAPE_CIRCLE)
    n = add_measure (measures, n, n_max, (CwSheetMeasure){ CW_MEASURE_RADIUS, 0, 2, mark->radius.ticks });
  return n;
}
