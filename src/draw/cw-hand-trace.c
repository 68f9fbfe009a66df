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

typedef void (*CornerFunc) (const CwSheetView *view, const CwPanelMap *map, CwPoint corner, gpointer data);

static void
each_of (GArray *points, const CwSheetView *view, const CwPanelMap *map, CornerFunc func, gpointer data)
{
  for (guint i = 0; i < points->len; i++)
    func (view, map, g_array_index (points, CwPoint, i), data);
}

/* The corners of a mark as drawn, in order. Allocates only for curves. Returns whether it is closed. */
static gboolean
each_corner (const CwMark *mark, const CwSheetView *view, const CwPanelMap *map, CornerFunc func, gpointer data)
{
  const CwPath *line = &mark->line;

  if (mark->shape == CW_SHAPE_CIRCLE)
    {
      g_autoptr (GArray) points = g_array_new (FALSE, FALSE, sizeof (CwPoint));

      cw_circle_flatten (cw_place_get_point (&mark->centre), mark->radius.ticks, points);
      each_of (points, view, map, func, data);
      return TRUE;
    }
  if (mark->shape == CW_SHAPE_RECT && line->n_vertices == 2)
    {
      CwPoint a = cw_place_get_point (&line->vertices[0].at), b = cw_place_get_point (&line->vertices[1].at);

      func (view, map, a, data);
      func (view, map, cw_point (b.x, a.y), data);
      func (view, map, b, data);
      func (view, map, cw_point (a.x, b.y), data);
      return TRUE;
    }
  for (guint i = 0; i < line->n_vertices; i++)
    {
      CwPoint p = cw_place_get_point (&line->vertices[i].at);
      gboolean last = i + 1 == line->n_vertices;

      if (line->vertices[i].through && i > 0 && (!last || mark->kind == CW_MARK_WINDOW))
        {
          g_autoptr (GArray) points = g_array_new (FALSE, FALSE, sizeof (CwPoint));

          cw_arc_flatten (cw_place_get_point (&line->vertices[i - 1].at), p,
                          cw_place_get_point (&line->vertices[last ? 0 : i + 1].at), points);
          each_of (points, view, map, func, data);
        }
      else
        func (view, map, p, data);
    }
  return mark->kind == CW_MARK_WINDOW;
}

typedef struct
{
  CwDrawList *list;
  gboolean begun;
} Tracing;

static void
trace_corner (const CwSheetView *view, const CwPanelMap *map, CwPoint corner, gpointer data)
{
  Tracing *tracing = data;
  Output out = to_output (view, map, corner);

  if (tracing->begun)
    cw_draw_list_line (tracing->list, out.x, out.y);
  else
    cw_draw_list_move (tracing->list, out.x, out.y);
  tracing->begun = TRUE;
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
  Tracing tracing = { list, FALSE };

  cw_draw_list_begin (list, pen, id);
  if (each_corner (mark, view, map, trace_corner, &tracing) && tracing.begun)
    cw_draw_list_close (list);
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
    {
      Tracing tracing = { list, FALSE };

      for (guint i = 0; i < outline->rings[r].n_points; i++)
        trace_corner (view, map, outline->rings[r].points[i], &tracing);
      cw_draw_list_close (list);
    }
  cw_draw_list_end (list);
}

typedef struct
{
  const double *box;
  Output first, last;
  gboolean begun, touches;
} Touching;

/* Whether a stretch has a part in the box: its parameter is cut down side by side (Liang and Barsky 1984). */
static gboolean
stretch_touches (Output a, Output b, const double box[4])
{
  double low = 0, high = 1;
  const double p[4] = { a.x - b.x, b.x - a.x, a.y - b.y, b.y - a.y };
  const double q[4] = { a.x - box[0], box[2] - a.x, a.y - box[1], box[3] - a.y };

  for (guint i = 0; i < 4; i++)
    {
      if (p[i] < 0)
        low = MAX (low, q[i] / p[i]);
      else if (p[i] > 0)
        high = MIN (high, q[i] / p[i]);
      else if (q[i] < 0)
        return FALSE;
    }
  return low <= high;
}

static void
touch_corner (const CwSheetView *view, const CwPanelMap *map, CwPoint corner, gpointer data)
{
  Touching *touching = data;
  Output out = to_output (view, map, corner);

  if (touching->begun)
    touching->touches = touching->touches || stretch_touches (touching->last, out, touching->box);
  else
    touching->first = out;
  touching->last = out;
  touching->begun = TRUE;
}

/**
 * cw_hand_mark_touches:
 * @view: how the sheet lies
 * @map: its panels
 * @mark: a mark
 * @box: left, top, right and bottom, output
 *
 * Returns: whether any of its line lies in the box
 */
gboolean
cw_hand_mark_touches (const CwSheetView *view, const CwPanelMap *map, const CwMark *mark, const double box[4])
{
  Touching touching = { .box = box };

  if (each_corner (mark, view, map, touch_corner, &touching) && touching.begun)
    touching.touches = touching.touches || stretch_touches (touching.last, touching.first, box);
  return touching.touches;
}

static void
grow_box (double box[4], Output p)
{
  box[0] = MIN (box[0], p.x);
  box[1] = MIN (box[1], p.y);
  box[2] = MAX (box[2], p.x);
  box[3] = MAX (box[3], p.y);
}

static void
box_corner (const CwSheetView *view, const CwPanelMap *map, CwPoint corner, gpointer data)
{
  grow_box (data, to_output (view, map, corner));
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
  box[0] = box[1] = G_MAXDOUBLE;
  box[2] = box[3] = -G_MAXDOUBLE;
  each_corner (mark, view, map, box_corner, box);
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
