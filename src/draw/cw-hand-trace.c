/* cw-hand-trace.c: marks and panels under the hand as lines of a draw list, and the boxes they take up.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-hand.h"

#include "geometry/cw-arc.h"

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

/* The corners of a mark as drawn. Appends to `points`; returns whether it is closed. */
static gboolean
flatten_mark (const CwMark *mark, GArray *points)
{
  const CwPath *line = &mark->line;

  if (mark->shape == CW_SHAPE_CIRCLE)
    {
      cw_circle_flatten (cw_place_get_point (&mark->centre), mark->radius.ticks, points);
      return TRUE;
    }
  if (mark->shape == CW_SHAPE_RECT && line->n_vertices == 2)
    {
      CwPoint a = cw_place_get_point (&line->vertices[0].at), b = cw_place_get_point (&line->vertices[1].at);
      CwPoint corners[] = { a, { b.x, a.y }, b, { a.x, b.y } };

      g_array_append_vals (points, corners, 4);
      return TRUE;
    }
  for (guint i = 0; i < line->n_vertices; i++)
    {
      CwPoint p = cw_place_get_point (&line->vertices[i].at);
      gboolean last = i + 1 == line->n_vertices;

      if (line->vertices[i].through && i > 0 && (!last || mark->kind == CW_MARK_WINDOW))
        cw_arc_flatten (cw_place_get_point (&line->vertices[i - 1].at), p,
                        cw_place_get_point (&line->vertices[last ? 0 : i + 1].at), points);
      else
        g_array_append_val (points, p);
    }
  return mark->kind == CW_MARK_WINDOW;
}

static void
trace (CwDrawList *list, const CwSheetView *view, const CwPanelMap *map, const CwPoint *points, guint n,
       gboolean closed)
{
  for (guint i = 0; i < n; i++)
    {
      Output out = to_output (view, map, points[i]);
      if (i == 0)
        cw_draw_list_move (list, out.x, out.y);
      else
        cw_draw_list_line (list, out.x, out.y);
    }
  if (closed)
    cw_draw_list_close (list);
}

/**
 * cw_hand_trace_mark:
 * @list: where to draw
 * @pen: with what
 * @id: as what
 * @view: how the sheet lies
 * @map: its panels
 * @mark: a mark, in the design or not. Allocates only for curves.
 */
void
cw_hand_trace_mark (CwDrawList *list, CwPen pen, CwId id, const CwSheetView *view, const CwPanelMap *map,
                    const CwMark *mark)
{
  g_autoptr (GArray) points = g_array_sized_new (FALSE, FALSE, sizeof (CwPoint), mark->line.n_vertices + 4);
  gboolean closed = flatten_mark (mark, points);

  cw_draw_list_begin (list, pen, id);
  trace (list, view, map, (const CwPoint *) (void *) points->data, points->len, closed);
  cw_draw_list_end (list);
}

/**
 * cw_hand_trace_panel:
 * @list: where to draw
 * @pen: with what
 * @id: as what
 * @view: how the sheet lies
 * @map: its panels
 * @panel: index in @map
 */
void
cw_hand_trace_panel (CwDrawList *list, CwPen pen, CwId id, const CwSheetView *view, const CwPanelMap *map, guint panel)
{
  const CwPolygon *outline;

  g_return_if_fail (panel < map->panels->len);

  outline = &g_array_index (map->panels, CwPanel, panel).outline;
  cw_draw_list_begin (list, pen, id);
  for (guint r = 0; r < outline->n_rings; r++)
    trace (list, view, map, outline->rings[r].points, outline->rings[r].n_points, TRUE);
  cw_draw_list_end (list);
}

static void
grow_box (double box[4], Output p)
{
  box[0] = MIN (box[0], p.x);
  box[1] = MIN (box[1], p.y);
  box[2] = MAX (box[2], p.x);
  box[3] = MAX (box[3], p.y);
}

/**
 * cw_hand_mark_box:
 * @view: how the sheet lies
 * @map: its panels
 * @mark: a mark
 * @box: (out): left, top, right and bottom, output
 */
void
cw_hand_mark_box (const CwSheetView *view, const CwPanelMap *map, const CwMark *mark, double box[4])
{
  g_autoptr (GArray) points = g_array_new (FALSE, FALSE, sizeof (CwPoint));

  flatten_mark (mark, points);
  box[0] = box[1] = G_MAXDOUBLE;
  box[2] = box[3] = -G_MAXDOUBLE;
  for (guint i = 0; i < points->len; i++)
    grow_box (box, to_output (view, map, g_array_index (points, CwPoint, i)));
}

/**
 * cw_hand_panel_box:
 * @view: how the sheet lies
 * @map: its panels
 * @panel: index in @map, or %G_MAXUINT for the whole piece
 * @box: (out): left, top, right and bottom, output
 */
void
cw_hand_panel_box (const CwSheetView *view, const CwPanelMap *map, guint panel, double box[4])
{
  box[0] = box[1] = G_MAXDOUBLE;
  box[2] = box[3] = -G_MAXDOUBLE;
  if (panel < map->panels->len)
    {
      const CwRing *ring = &g_array_index (map->panels, CwPanel, panel).outline.rings[0];
      for (guint i = 0; i < ring->n_points; i++)
        grow_box (box, to_output (view, map, ring->points[i]));
      return;
    }
  grow_box (box, to_output (view, map, map->box_min));
  grow_box (box, to_output (view, map, map->box_max));
}
