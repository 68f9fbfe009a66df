/* cw-make-rim.c: the shape of a layer, and layers that follow their panel.
 *
 * A layer with a rim is the largest part of its panel grown by minus the rim (cw_region_grow(), mitred corners); its
 * openings become windows. When an edit changes the panel, whatever of the layer still is what the old panel gave
 * (outline, windows, glue, place) becomes what the new one gives; what the maker has changed by hand stays, and a layer
 * of another outline or place than its panel gave follows no longer. Layers on layers follow in turn.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "make/cw-make-rim.h"

#include "geometry/cw-region.h"
#include "panel/cw-path-flatten.h"

#include <glib/gi18n-lib.h>

#define GLUE_RIM_TICKS (CW_TICKS_PER_INCH / 8) /* tape stays this far inside the layer's edge */

/* The largest part of the polygon, `by` smaller all round (larger if negative). FALSE if nothing is left. */
static gboolean
shrink (const CwPolygon *polygon, gint32 by, CwPolygon *result)
{
  CwRegion region = cw_region_from_polygon (polygon);
  CwRegion less = cw_region_grow (&region, -by);
  guint best = 0;

  for (guint i = 1; i < less.n_polygons; i++)
    if (cw_polygon_area2 (&less.polygons[i]) > cw_polygon_area2 (&less.polygons[best]))
      best = i;
  gboolean some = less.n_polygons > 0;
  if (some)
    *result = cw_polygon_copy (&less.polygons[best]);
  cw_region_clear (&region);
  cw_region_clear (&less);
  return some;
}

/* Into the layer's own coordinates; on a back the layer is turned over like a page, so left and right change. */
static CwPoint
to_layer (CwPoint p, CwPoint low, CwPoint high, CwFace face)
{
  return cw_point (face == CW_FACE_FRONT ? p.x - low.x : high.x - p.x, p.y - low.y);
}

static void
append_ring (CwPath *path, const CwRing *ring, CwPoint low, CwPoint high, CwFace face, CwUnit unit)
{
  for (guint i = 0; i < ring->n_points; i++)
    {
      guint k = face == CW_FACE_FRONT ? i : ring->n_points - 1 - i; /* turned over, it runs the other way round */
      CwPoint p = to_layer (ring->points[k], low, high, face);

      cw_path_append (path, cw_place_from_point (p, unit), FALSE);
    }
}

static void
glue_inside (CwPath *glue, const CwPolygon *shape, CwPoint low, CwPoint high, CwFace face, CwUnit unit)
{
  CwPolygon glued = { 0 };

  if (!shrink (shape, GLUE_RIM_TICKS, &glued))
    glued = cw_polygon_copy (shape);
  append_ring (glue, &glued.rings[0], low, high, face, unit);
  cw_polygon_clear (&glued);
}

/**
 * cw_rim_shape_of_panel:
 * @shape: (out): the layer; cleared by the caller
 * @panel: of the host
 * @face: of the host
 * @rim: how much of the panel shows all round, ticks
 *
 * Returns: FALSE if the rim leaves nothing
 */
gboolean
cw_rim_shape_of_panel (CwRimShape *shape, const CwPanel *panel, CwFace face, gint32 rim, CwUnit unit)
{
  CwPolygon less = { 0 };
  CwPoint low, high;

  *shape = (CwRimShape){ .windows = g_ptr_array_new_with_free_func ((GDestroyNotify) cw_mark_unref) };
  if (!shrink (&panel->outline, rim, &less))
    return FALSE;
  cw_polygon_bounds (&less, &low, &high);
  append_ring (&shape->outline, &less.rings[0], low, high, face, unit);
  for (guint i = 1; i < less.n_rings; i++)
    {
      CwMark *window = cw_mark_new ();

      window->kind = CW_MARK_WINDOW;
      window->shape = CW_SHAPE_LINE;
      append_ring (&window->line, &less.rings[i], low, high, face, unit);
      g_ptr_array_add (shape->windows, window);
    }
  glue_inside (&shape->glue, &less, low, high, face, unit);
  shape->at = cw_place_from_point (cw_point (face == CW_FACE_FRONT ? low.x : high.x, low.y), unit);
  cw_polygon_clear (&less);
  return TRUE;
}

/**
 * cw_make_mark_outline:
 * @shape: a window, or a mark drawn like one
 *
 * Returns: (transfer full): its outline as a closed path; a circle as two arcs
 */
CwPath
cw_make_mark_outline (const CwMark *shape)
{
  CwPath path = { 0 };

  if (shape->shape == CW_SHAPE_CIRCLE)
    {
      CwPoint c = cw_place_get_point (&shape->centre);
      gint32 r = shape->radius.ticks;
      const CwPoint on[4] = { { c.x - r, c.y }, { c.x, c.y - r }, { c.x + r, c.y }, { c.x, c.y + r } };

      for (guint i = 0; i < 4; i++)
        cw_path_append (&path, cw_place_from_point (on[i], shape->radius.unit), i % 2 == 1);
    }
  else if (shape->shape == CW_SHAPE_RECT && shape->line.n_vertices == 2)
    {
      CwPlace a = shape->line.vertices[0].at, b = shape->line.vertices[1].at;

      cw_path_append (&path, a, FALSE);
      cw_path_append (&path, (CwPlace){ b.x, a.y }, FALSE);
      cw_path_append (&path, b, FALSE);
      cw_path_append (&path, (CwPlace){ a.x, b.y }, FALSE);
    }
  else
    for (guint i = 0; i < shape->line.n_vertices; i++)
      cw_path_append (&path, shape->line.vertices[i].at, shape->line.vertices[i].through);
  return path;
}

/* The polygon of a closed path; FALSE when it has no area. */
static gboolean
polygon_of_path (const CwPath *path, CwPolygon *polygon)
{
  g_autoptr (GArray) points = cw_path_flatten (path, TRUE);

  if (points->len < 3)
    return FALSE;
  *polygon = cw_polygon_from_points (points);
  cw_polygon_arrange (polygon);
  if (polygon->n_rings > 0 && cw_polygon_area2 (polygon) != 0)
    return TRUE;
  cw_polygon_clear (polygon);
  return FALSE;
}

/**
 * cw_rim_shape_of_mark:
 * @shape: (out): the layer; cleared by the caller
 * @drawn: a closed shape on the host
 * @face: of the host
 * @middle: (out): a point of the host well inside the shape
 *
 * Returns: FALSE if the shape has no area
 */
gboolean
cw_rim_shape_of_mark (CwRimShape *shape, const CwMark *drawn, CwFace face, CwUnit unit, CwPoint *middle)
{
  CwPath path = cw_make_mark_outline (drawn);
  CwPolygon polygon = { 0 };
  CwPoint low, high;

  *shape = (CwRimShape){ .windows = g_ptr_array_new_with_free_func ((GDestroyNotify) cw_mark_unref) };
  if (!polygon_of_path (&path, &polygon))
    {
      cw_path_clear (&path);
      return FALSE;
    }
  cw_polygon_bounds (&polygon, &low, &high);
  for (guint i = 0; i < path.n_vertices; i++)
    {
      CwPoint p = to_layer (cw_place_get_point (&path.vertices[i].at), low, high, face);

      cw_path_append (&shape->outline, cw_place_from_point (p, unit), path.vertices[i].through);
    }
  glue_inside (&shape->glue, &polygon, low, high, face, unit);
  shape->at = cw_place_from_point (cw_point (face == CW_FACE_FRONT ? low.x : high.x, low.y), unit);
  *middle = cw_polygon_contains (&polygon, (low.x + high.x) / 2, (low.y + high.y) / 2)
              ? cw_point ((low.x + high.x) / 2, (low.y + high.y) / 2)
              : cw_polygon_inside_point (&polygon);
  cw_path_clear (&path);
  cw_polygon_clear (&polygon);
  return TRUE;
}

/**
 * cw_rim_glue_of_path:
 * @outline: of a piece
 *
 * Returns: (transfer full): where tape goes on it: a little inside its edge
 */
CwPath
cw_rim_glue_of_path (const CwPath *outline, CwUnit unit)
{
  CwPolygon polygon = { 0 };
  CwPath glue = { 0 };

  if (!polygon_of_path (outline, &polygon))
    return cw_path_copy (outline);
  glue_inside (&glue, &polygon, cw_point (0, 0), cw_point (0, 0), CW_FACE_FRONT, unit);
  cw_polygon_clear (&polygon);
  return glue;
}

/**
 * cw_rim_shape_clear:
 *
 * Frees what the shape owns.
 */
void
cw_rim_shape_clear (CwRimShape *shape)
{
  cw_path_clear (&shape->outline);
  cw_path_clear (&shape->glue);
  g_clear_pointer (&shape->windows, g_ptr_array_unref);
}

/* ---- Following ---- */

static gboolean
same_path (const CwPath *a, const CwPath *b)
{
  if (a->n_vertices != b->n_vertices)
    return FALSE;
  for (guint i = 0; i < a->n_vertices; i++)
    if (!cw_point_equal (cw_place_get_point (&a->vertices[i].at), cw_place_get_point (&b->vertices[i].at))
        || a->vertices[i].through != b->vertices[i].through)
      return FALSE;
  return TRUE;
}

static guint
find_stick (const CwDesign *design, const char *piece_id)
{
  for (guint i = 0; i < design->steps->len; i++)
    {
      const CwStep *step = design->steps->pdata[i];
      if (step->what == CW_DO_STICK && step->has_on && g_strcmp0 (step->piece, piece_id) == 0)
        return i;
    }
  return G_MAXUINT;
}

/* Whether a stick step lays the layer as cw_make_add_layer() does, and the panel it means. */
static const CwPanel *
find_under (const CwStep *stick, const CwMakeGraph *graph)
{
  if (stick->facing != CW_FACE_BACK || stick->turn < 0 || stick->turn > 0 || !stick->on.has_panel)
    return NULL;
  guint panel = cw_panel_map_find (graph->map, cw_place_get_point (&stick->on.panel));
  return panel == G_MAXUINT ? NULL : &g_array_index (graph->map->panels, CwPanel, panel);
}

/* The windows of the layer that were the old panel's openings give way to those of the new one. */
static void
put_windows (CwPiece *layer, const GPtrArray *was, const GPtrArray *now)
{
  guint at = 0;

  for (guint i = 0; i < layer->marks->len; i++)
    {
      const CwMark *mark = layer->marks->pdata[i];
      gboolean old = FALSE;

      for (guint k = 0; k < was->len && !old; k++)
        old = mark->kind == CW_MARK_WINDOW && mark->shape == CW_SHAPE_LINE
              && same_path (&mark->line, &((const CwMark *) was->pdata[k])->line);
      if (!old)
        continue;
      if (at < now->len)
        {
          CwMark *copy = cw_mark_copy (mark);

          cw_path_clear (&copy->line);
          copy->line = cw_path_copy (&((const CwMark *) now->pdata[at++])->line);
          cw_mark_unref (layer->marks->pdata[i]);
          layer->marks->pdata[i] = copy;
        }
      else
        g_ptr_array_remove_index (layer->marks, i--);
    }
  for (; at < now->len; at++)
    {
      CwMark *window = cw_mark_copy (now->pdata[at]);

      window->id = cw_make_dup_mark_id (layer, CW_MARK_WINDOW);
      g_ptr_array_add (layer->marks, window);
    }
}

/* Lets the layer take the new shape where it had the old one. */
static void
take_shape (CwMakeWork *work, const char *layer_id, const CwRimShape *was, const CwRimShape *now)
{
  g_autoptr (CwMakeGraph) before = cw_make_graph_new (work->design, layer_id);
  CwPiece *copy = cw_piece_copy (cw_design_get_piece (work->design, layer_id));
  guint stick = find_stick (work->design, layer_id);

  cw_path_clear (&copy->outline);
  copy->outline = cw_path_copy (&now->outline);
  put_windows (copy, was->windows, now->windows);
  cw_make_replace_piece (work, copy);
  for (guint i = 0; i < work->design->glue->len; i++)
    {
      const CwGlue *glue = work->design->glue->pdata[i];

      if (g_strcmp0 (glue->piece, layer_id) != 0 || !same_path (&glue->area, &was->glue))
        continue;
      CwGlue *changed = cw_glue_copy (glue);
      cw_path_clear (&changed->area);
      changed->area = cw_path_copy (&now->glue);
      cw_make_work_do (work, cw_edit_new_replace (work->design, CW_LIST_GLUE, NULL, i, changed));
    }
  CwStep *step = cw_step_copy (work->design->steps->pdata[stick]);
  step->at = now->at;
  cw_make_work_do (work, cw_edit_new_replace (work->design, CW_LIST_STEPS, NULL, stick, step));
  cw_make_follow (work, layer_id, before);
  cw_make_reflow (work, layer_id, before);
}

/**
 * cw_make_reflow:
 * @host_id: a piece that the edit has changed
 * @before: the same piece before that
 *
 * Lets the layers that follow a panel of the piece follow it.
 */
void
cw_make_reflow (CwMakeWork *work, const char *host_id, const CwMakeGraph *before)
{
  const CwDesign *old = before->set->design;
  CwUnit unit = work->design->head->unit;
  g_autoptr (CwMakeGraph) after = NULL;

  for (guint i = 0; i < old->steps->len; i++)
    {
      const CwStep *was_stuck = old->steps->pdata[i];
      const CwPiece *layer
        = was_stuck->what == CW_DO_STICK && was_stuck->has_on && g_strcmp0 (was_stuck->on.piece, host_id) == 0
            ? cw_design_get_piece (work->design, was_stuck->piece)
            : NULL;
      guint stick = layer && layer->has_rim ? find_stick (work->design, layer->id) : G_MAXUINT;

      if (stick == G_MAXUINT)
        continue;
      if (!after)
        after = cw_make_graph_new (work->design, host_id);
      const CwStep *stuck = work->design->steps->pdata[stick];
      const CwPanel *was = find_under (was_stuck, before), *now = find_under (stuck, after);
      g_auto (CwRimShape) old_shape = { 0 };
      g_auto (CwRimShape) new_shape = { 0 };

      if (!was || !now || cw_polygon_compare (&was->outline, &now->outline) == 0
          || !cw_rim_shape_of_panel (&old_shape, was, stuck->on_face, layer->rim.ticks, unit)
          || !same_path (&layer->outline, &old_shape.outline)
          || !cw_point_equal (cw_place_get_point (&stuck->at), cw_place_get_point (&old_shape.at))
          || !cw_rim_shape_of_panel (&new_shape, now, stuck->on_face, layer->rim.ticks, unit))
        continue;
      g_autofree char *layer_id = g_strdup (layer->id);
      take_shape (work, layer_id, &old_shape, &new_shape);
    }
}

/**
 * cw_make_set_rim:
 * @piece_id: a piece that is stuck on a panel
 * @rim: how much of the panel shows all round
 *
 * Gives the layer the shape of its panel less @rim, and lets it follow the panel from now on.
 *
 * Returns: (transfer full): the edit, or NULL with CW_MAKE_ERROR when it lies turned, or nothing would be left of it
 */
CwEdit *
cw_make_set_rim (const CwDesign *design, const char *piece_id, CwLength rim, GError **error)
{
  const CwPiece *layer = design ? cw_design_get_piece (design, piece_id) : NULL;
  guint stick = layer ? find_stick (design, piece_id) : G_MAXUINT;
  g_return_val_if_fail (layer, NULL);

  if (stick == G_MAXUINT)
    {
      cw_make_fail (error, _ ("Only a piece that is stuck on a panel has a rim."));
      return NULL;
    }
  const CwStep *stuck = design->steps->pdata[stick];
  g_autoptr (CwMakeGraph) graph = cw_make_graph_new (design, stuck->on.piece);
  const CwPanel *under = find_under (stuck, graph);
  CwUnit unit = design->head->unit;
  g_auto (CwRimShape) was = { 0 };
  g_auto (CwRimShape) now = { 0 };

  if (!under)
    {
      cw_make_fail (error, _ ("This piece lies turned or by its drawn side; it cannot follow the panel."));
      return NULL;
    }
  if (!cw_rim_shape_of_panel (&now, under, stuck->on_face, rim.ticks, unit))
    {
      cw_make_fail (error, _ ("this rim leaves nothing of the layer; make it smaller"));
      return NULL;
    }
  cw_rim_shape_of_panel (&was, under, stuck->on_face, layer->has_rim ? layer->rim.ticks : 0, unit);
  if (!layer->has_rim)
    {
      /* Whatever tape it was given with its shape goes along. */
      cw_path_clear (&was.glue);
      was.glue = cw_rim_glue_of_path (&layer->outline, unit);
    }
  CwMakeWork work = cw_make_work_begin (design);
  CwPiece *copy = cw_piece_copy (layer);
  copy->has_rim = TRUE;
  copy->rim = rim;
  cw_make_replace_piece (&work, copy);
  take_shape (&work, piece_id, &was, &now);
  return cw_make_work_finish (&work, error);
}
