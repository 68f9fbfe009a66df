/* cw-draw-trace.c: outlines of the design as lines of a draw list, through a flat mapping.
 *
 * Sheets, templates, printed pictures and panels of the folded card differ only in where their flat places come to, and
 * that is linear. Paths and marks keep their arcs, so they want a mapping that keeps shapes; a panel seen aslant is
 * traced as its polygon.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-draw-trace.h"

#include <math.h>

/**
 * cw_flat_from_lying:
 * @lying: how a piece lies
 * @scale: output units a tick
 * @left: left of its box on the output
 * @top: top of it
 *
 * Returns: where the piece's front coordinates come to
 */
CwFlat
cw_flat_from_lying (const CwLying *lying, double scale, double left, double top)
{
  CwPoint zero = cw_lying_from_piece (lying, cw_point (0, 0));
  CwPoint along = cw_lying_from_piece (lying, cw_point (1, 0)), down = cw_lying_from_piece (lying, cw_point (0, 1));

  return (CwFlat){ .xx = (along.x - zero.x) * scale,
                   .xy = (down.x - zero.x) * scale,
                   .x0 = left + zero.x * scale,
                   .yx = (along.y - zero.y) * scale,
                   .yy = (down.y - zero.y) * scale,
                   .y0 = top + zero.y * scale };
}

/**
 * cw_flat_of_place:
 * @flat: where flat places come to
 * @place: how a sheet is placed among them
 *
 * Returns: where the sheet's own flat places come to, as seen along its third axis
 */
CwFlat
cw_flat_of_place (const CwFlat *flat, const CwRigid *place)
{
  const double (*r)[3] = place->r;
  CwFlat of = { .xx = flat->xx * r[0][0] + flat->xy * r[1][0],
                .xy = flat->xx * r[0][1] + flat->xy * r[1][1],
                .yx = flat->yx * r[0][0] + flat->yy * r[1][0],
                .yy = flat->yx * r[0][1] + flat->yy * r[1][1] };

  cw_flat_apply (flat, place->t.x, place->t.y, &of.x0, &of.y0);
  return of;
}

/**
 * cw_trace_points:
 * @list: a list with an item begun
 * @flat: where flat places come to
 * @points: corners of a closed outline, ticks
 * @n: how many
 */
void
cw_trace_points (CwDrawList *list, const CwFlat *flat, const CwPoint *points, guint n)
{
  for (guint i = 0; i < n; i++)
    {
      double x, y;

      cw_flat_apply (flat, points[i].x, points[i].y, &x, &y);
      if (i == 0)
        cw_draw_list_move (list, x, y);
      else
        cw_draw_list_line (list, x, y);
    }
  if (n > 0)
    cw_draw_list_close (list);
}

/**
 * cw_trace_polygon:
 * @list: a list with an item begun
 * @flat: where flat places come to
 * @polygon: flat coordinates, ticks
 */
void
cw_trace_polygon (CwDrawList *list, const CwFlat *flat, const CwPolygon *polygon)
{
  for (guint r = 0; r < polygon->n_rings; r++)
    cw_trace_points (list, flat, polygon->rings[r].points, polygon->rings[r].n_points);
}

/**
 * cw_trace_path:
 * @list: a list with an item begun
 * @flat: where flat places come to; keeps shapes
 * @path: a path of the design
 * @closed: whether its last point joins its first
 */
void
cw_trace_path (CwDrawList *list, const CwFlat *flat, const CwPath *path, gboolean closed)
{
  for (guint i = 0; i < path->n_vertices; i++)
    {
      CwPoint p = cw_place_get_point (&path->vertices[i].at), q;
      double x, y, tx, ty;

      cw_flat_apply (flat, p.x, p.y, &x, &y);
      if (i == 0)
        cw_draw_list_move (list, x, y);
      else if (!path->vertices[i].through)
        cw_draw_list_line (list, x, y);
      else if (i + 1 < path->n_vertices || closed)
        {
          tx = x;
          ty = y;
          i++;
          q = cw_place_get_point (&path->vertices[i % path->n_vertices].at);
          cw_flat_apply (flat, q.x, q.y, &x, &y);
          cw_draw_list_arc_to (list, tx, ty, x, y);
        }
    }
  if (closed && path->n_vertices > 0)
    cw_draw_list_close (list);
}

/**
 * cw_trace_mark:
 * @list: a list with an item begun
 * @flat: where flat places come to; keeps shapes
 * @mark: a mark
 */
void
cw_trace_mark (CwDrawList *list, const CwFlat *flat, const CwMark *mark)
{
  if (mark->shape == CW_SHAPE_CIRCLE)
    {
      CwPoint centre = cw_place_get_point (&mark->centre);
      double x, y;

      cw_flat_apply (flat, centre.x, centre.y, &x, &y);
      cw_draw_list_arc (list, x, y, mark->radius.ticks * hypot (flat->xx, flat->yx));
    }
  else if (mark->shape == CW_SHAPE_LINE)
    cw_trace_path (list, flat, &mark->line, mark->kind == CW_MARK_WINDOW);
  else if (mark->line.n_vertices >= 2)
    {
      CwPoint p = cw_place_get_point (&mark->line.vertices[0].at), q = cw_place_get_point (&mark->line.vertices[1].at);

      cw_trace_points (list, flat, (const CwPoint[4]){ p, { q.x, p.y }, q, { p.x, q.y } }, 4);
    }
}
