/* cw-path.c: lists of points as typed, and places in ticks.
 *
 * Nothing here can fail; whether a path makes sense is cw_design_validate()'s to say.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "design/cw-design-private.h"

/**
 * cw_path_copy:
 * @path: a path
 *
 * Returns: (transfer full): a copy, to be cleared with cw_path_clear()
 */
CwPath
cw_path_copy (const CwPath *path)
{
  CwPath copy = { path->n_vertices, NULL };
  copy.vertices = g_memdup2 (path->vertices, path->n_vertices * sizeof (CwVertex));
  for (guint i = 0; i < copy.n_vertices; i++)
    if (copy.vertices[i].extra)
      copy.vertices[i].extra = cw_json_object_copy (copy.vertices[i].extra);
  return copy;
}

/**
 * cw_path_clear:
 * @path: a path
 *
 * Frees what @path owns and leaves it empty.
 */
void
cw_path_clear (CwPath *path)
{
  for (guint i = 0; i < path->n_vertices; i++)
    g_clear_pointer (&path->vertices[i].extra, json_object_unref);
  g_clear_pointer (&path->vertices, g_free);
  path->n_vertices = 0;
}

/**
 * cw_path_append:
 * @path: a path not yet shared
 * @at: where
 * @through: whether the arc between the entries before and after passes through @at
 */
void
cw_path_append (CwPath *path, CwPlace at, gboolean through)
{
  guint n = path->n_vertices;
  path->vertices = g_renew (CwVertex, path->vertices, (gsize) n + 1);
  path->vertices[n] = (CwVertex){ at, through, NULL };
  path->n_vertices = n + 1;
}

/**
 * cw_place_get_point:
 * @place: a place as typed
 *
 * Returns: the same place in ticks
 */
CwPoint
cw_place_get_point (const CwPlace *place)
{
  return cw_point (place->x.ticks, place->y.ticks);
}

/**
 * cw_place_from_point:
 * @point: a point in ticks
 * @unit: the unit it is to be written in
 *
 * Returns: the place
 */
CwPlace
cw_place_from_point (CwPoint point, CwUnit unit)
{
  return (CwPlace){ cw_length_from_ticks (point.x, unit), cw_length_from_ticks (point.y, unit) };
}
