/* cw-path-flatten.c: from a path as typed to its points on ticks.
 *
 * A `through` entry between two points makes the arc through it (model, "Marks and outlines"); a closed path closes by
 * itself, a trailing `through` makes the closing arc. A `through` with no point before it, or followed by another, is
 * taken as a plain point: the reader refuses such files, edits cannot make them.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "panel/cw-path-flatten.h"

#include "geometry/cw-arc.h"

static CwPoint
vertex_point (const CwVertex *vertex)
{
  return cw_point (vertex->at.x.ticks, vertex->at.y.ticks);
}

/**
 * cw_path_is_curved:
 * @path: a path
 *
 * Returns: whether it has an arc
 */
gboolean
cw_path_is_curved (const CwPath *path)
{
  g_return_val_if_fail (path != NULL, FALSE);

  for (guint i = 0; i < path->n_vertices; i++)
    if (path->vertices[i].through)
      return TRUE;
  return FALSE;
}

/* Whether an arc goes through a vertex. */
static gboolean
is_through (const CwPath *path, guint i, gboolean closed)
{
  const CwVertex *v = path->vertices;

  return v[i].through && i > 0 && (i + 1 < path->n_vertices || closed) && !v[(i + 1) % path->n_vertices].through
         && !v[i - 1].through;
}

static void
append_point (GArray *points, CwPoint p)
{
  if (points->len == 0 || !cw_point_equal (g_array_index (points, CwPoint, points->len - 1), p))
    g_array_append_val (points, p);
}

/**
 * cw_path_flatten:
 * @path: a path
 * @closed: whether its end is joined to its start
 *
 * Returns: (transfer full) (element-type CwPoint): its points on ticks, none twice running; the first point of a closed
 *   path is not repeated
 */
GArray *
cw_path_flatten (const CwPath *path, gboolean closed)
{
  GArray *points = g_array_new (FALSE, FALSE, sizeof (CwPoint));
  guint n;

  g_return_val_if_fail (path != NULL, points);

  n = path->n_vertices;
  for (guint i = 0; i < n; i++)
    {
      if (is_through (path, i, closed))
        cw_arc_flatten (vertex_point (&path->vertices[i - 1]), vertex_point (&path->vertices[i]),
                        vertex_point (&path->vertices[(i + 1) % n]), points);
      else
        append_point (points, vertex_point (&path->vertices[i]));
    }
  while (closed && points->len > 1
         && cw_point_equal (g_array_index (points, CwPoint, 0), g_array_index (points, CwPoint, points->len - 1)))
    g_array_set_size (points, points->len - 1);
  return points;
}

/**
 * cw_mark_flatten:
 * @mark: a mark
 *
 * Returns: (transfer full) (element-type CwPoint): its points on ticks; windows are closed rings
 */
GArray *
cw_mark_flatten (const CwMark *mark)
{
  GArray *points;

  g_return_val_if_fail (mark != NULL, NULL);

  switch (mark->shape)
    {
    case CW_SHAPE_LINE:
      return cw_path_flatten (&mark->line, mark->kind == CW_MARK_WINDOW);
    case CW_SHAPE_RECT:
      points = g_array_new (FALSE, FALSE, sizeof (CwPoint));
      if (mark->line.n_vertices >= 2)
        {
          CwPoint a = vertex_point (&mark->line.vertices[0]), b = vertex_point (&mark->line.vertices[1]);
          CwPoint corners[4] = { a, { b.x, a.y }, b, { a.x, b.y } };

          g_array_append_vals (points, corners, 4);
        }
      return points;
    case CW_SHAPE_CIRCLE:
      points = g_array_new (FALSE, FALSE, sizeof (CwPoint));
      cw_circle_flatten (cw_point (mark->centre.x.ticks, mark->centre.y.ticks), mark->radius.ticks, points);
      return points;
    default:
      g_return_val_if_reached (NULL);
    }
}

/**
 * cw_piece_get_box:
 * @piece: a piece
 * @low: (out): left top corner of the box round its outline, ticks; arcs count as they are, not as they are flattened
 * @high: (out): right bottom corner
 *
 * Returns: %FALSE, both being the origin, if it has no outline
 */
gboolean
cw_piece_get_box (const CwPiece *piece, CwPoint *low, CwPoint *high)
{
  const CwPath *path = &piece->outline;

  *low = *high = path->n_vertices > 0 ? vertex_point (&path->vertices[0]) : cw_point (0, 0);
  for (guint i = 1; i < path->n_vertices; i++)
    {
      CwPoint p = vertex_point (&path->vertices[i]);

      if (is_through (path, i, TRUE))
        cw_arc_extend_box (vertex_point (&path->vertices[i - 1]), p,
                           vertex_point (&path->vertices[(i + 1) % path->n_vertices]), low, high);
      *low = cw_point (MIN (low->x, p.x), MIN (low->y, p.y));
      *high = cw_point (MAX (high->x, p.x), MAX (high->y, p.y));
    }
  return path->n_vertices > 0;
}
