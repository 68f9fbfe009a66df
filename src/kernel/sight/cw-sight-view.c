/* cw-sight-view.c: what is seen of the card from one direction, far away.
 *
 * All panels are projected along the direction onto ticks of the picture's plane, their outlines noded together and
 * made into faces (cw-region.c); over each face the panel nearest to the eye is found at a point inside, in each
 * panel's own flat coordinates. Depth is linear over a flat panel, so the answer holds for the whole face; where two
 * sheets pierce one another, which is a fault of its own, the line along which they do is an edge too. Where two panels
 * lie in one plane their depths say nothing and the known order of layers decides (cw-flat-state.h). A flat state seen
 * from straight in front or behind needs no overlay: its cells are the picture. The picture's axes are x right and y
 * down for an eye at -z; for one at +z they are the same, so that the picture is seen through the card: areas are what
 * is asked, and one set of coordinates serves both sides.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "sight/cw-sight-view.h"

#include "sight/cw-sight-pierce.h"

#include "geometry/cw-edges.h"
#include "geometry/cw-tolerance.h"

#include <stdlib.h>

/* Space to picture for a look along d: the depth axis is d itself. */
static CwRigid
find_eye (CwVec3 direction)
{
  CwVec3 d = cw_vec3_scale (direction, 1 / cw_vec3_length (direction));
  CwVec3 x = cw_vec3 (1, 0, 0), y;
  CwRigid eye = cw_rigid_identity ();

  /* The side of the picture that is level; straight up or down is seen as from the front. */
  if (hypot (d.x, d.z) > CW_TOL_EDGE_ON)
    x = cw_vec3_scale (cw_vec3 (fabs (d.z), 0, d.z < 0 ? d.x : -d.x), 1 / hypot (d.x, d.z));
  y = cw_vec3_cross (d, x);
  if (y.y < 0)
    y = cw_vec3_scale (y, -1);
  eye.r[0][0] = x.x, eye.r[0][1] = x.y, eye.r[0][2] = x.z;
  eye.r[1][0] = y.x, eye.r[1][1] = y.y, eye.r[1][2] = y.z;
  eye.r[2][0] = d.x, eye.r[2][1] = d.y, eye.r[2][2] = d.z;
  return eye;
}

static void
view_cell_clear (void *data)
{
  cw_polygon_clear (&((CwViewCell *) data)->outline);
}

static CwPoint
project (const CwRigid *place, CwPoint p)
{
  CwVec3 at = cw_rigid_apply (place, cw_vec3 (p.x, p.y, 0));

  return cw_point ((gint32) lround (at.x), (gint32) lround (at.y));
}

static GArray *
cast_panels (const CwView *view, const CwPanelSet *set)
{
  GArray *casts = g_array_new (FALSE, FALSE, sizeof (CwCast));

  for (guint i = 0; i < view->n_panels; i++)
    {
      const CwRigid *place = &view->places[i];
      CwCast cast = { i, place->r[2][2] > 0 ? CW_FACE_FRONT : CW_FACE_BACK, NULL, place, { 0, 0 }, { 0, 0 } };

      if (!view->there[i] || fabs (place->r[2][2]) <= CW_TOL_EDGE_ON)
        continue;
      cast.outline = &cw_panel_set_get_panel (set, i)->outline;
      for (guint k = 0; cast.outline->n_rings > 0 && k < cast.outline->rings[0].n_points; k++)
        {
          CwPoint p = project (place, cast.outline->rings[0].points[k]);

          cast.low = k == 0 ? p : cw_point (MIN (cast.low.x, p.x), MIN (cast.low.y, p.y));
          cast.high = k == 0 ? p : cw_point (MAX (cast.high.x, p.x), MAX (cast.high.y, p.y));
        }
      g_array_append_val (casts, cast);
    }
  return casts;
}

/* TRUE if a lies nearer to the eye than b, which was found nearest so far. */
static gboolean
is_nearer (const CwFlatStates *states, guint step, const CwCast *a, double depth_a, const CwCast *b, double depth_b)
{
  int side = 0;

  if (fabs (depth_a - depth_b) > CW_TOL_SAME_DEPTH_TICKS)
    return depth_a < depth_b;
  if (states != NULL)
    {
      side = cw_flat_states_side (states, step, b->panel, a->panel);
      /* Within a step what lies together lay so before it. */
      if (side == 0 && step != G_MAXUINT)
        side = cw_flat_states_side (states, step > 0 ? step - 1 : G_MAXUINT, b->panel, a->panel);
    }
  if (side != 0)
    return (side > 0) == (b->face == CW_FACE_FRONT);
  return depth_a < depth_b;
}

static gboolean
find_nearest (const CwFlatStates *states, guint step, const GArray *casts, CwPoint at, CwViewCell *cell)
{
  const CwCast *best = NULL;
  double best_depth = 0;

  for (guint i = 0; i < casts->len; i++)
    {
      const CwCast *cast = &g_array_index (casts, CwCast, i);
      double u, v, depth;

      if (at.x < cast->low.x || at.x > cast->high.x || at.y < cast->low.y || at.y > cast->high.y)
        continue;
      depth = cw_cast_meet (cast->place, at.x, at.y, &u, &v);
      if (!cw_polygon_contains (cast->outline, u, v))
        continue;
      if (best == NULL || is_nearer (states, step, cast, depth, best, best_depth))
        {
          best = cast;
          best_depth = depth;
        }
    }
  if (best == NULL)
    return FALSE;
  cell->panel = best->panel;
  cell->face = best->face;
  return TRUE;
}

static int
compare_cells (const void *one, const void *two)
{
  const CwViewCell *a = one, *b = two;

  if (a->panel != b->panel)
    return a->panel < b->panel ? -1 : 1;
  return cw_polygon_compare (&a->outline, &b->outline);
}

static void
overlay (CwView *view, const CwPanelSet *set, const CwFlatStates *states, guint step)
{
  g_autoptr (GArray) casts = cast_panels (view, set);
  g_autoptr (GArray) edges = g_array_new (FALSE, FALSE, sizeof (CwEdge));
  g_autoptr (GArray) shares = g_array_new (FALSE, FALSE, sizeof (double));
  g_autoptr (GArray) noded = NULL;
  g_autoptr (GArray) faces = NULL;

  for (guint i = 0; i < casts->len; i++)
    {
      const CwCast *cast = &g_array_index (casts, CwCast, i);

      for (guint r = 0; r < cast->outline->n_rings; r++)
        for (guint k = 0, n = cast->outline->rings[r].n_points; k < n; k++)
          {
            CwEdge edge = { project (cast->place, cast->outline->rings[r].points[k]),
                            project (cast->place, cast->outline->rings[r].points[(k + 1) % n]), 1 };

            if (!cw_point_equal (edge.a, edge.b))
              g_array_append_val (edges, edge);
          }
    }
  for (guint i = 0; i < casts->len; i++)
    for (guint k = i + 1; k < casts->len; k++)
      cw_cast_add_piercing (&g_array_index (casts, CwCast, i), &g_array_index (casts, CwCast, k), shares, edges);
  noded = cw_edges_node (edges, NULL);
  faces = cw_edges_faces (noded);
  for (guint i = 0; i < faces->len; i++)
    {
      const CwPolygon *face = &g_array_index (faces, CwPolygon, i);
      CwViewCell cell = { .area2 = cw_polygon_area2 (face) };

      if (cell.area2 <= 0 || !find_nearest (states, step, casts, cw_polygon_inside_point (face), &cell))
        continue;
      cell.outline = cw_polygon_copy (face);
      g_array_append_val (view->cells, cell);
    }
  g_array_sort (view->cells, compare_cells);
}

static void
take_cells (CwView *view, const CwFlatState *state, CwFace from)
{
  for (guint i = 0; i < state->cells->len; i++)
    {
      const CwCell *of = &g_array_index (state->cells, CwCell, i);
      CwViewCell cell = { .area2 = of->area2 };
      const CwLayer *seen;

      if (of->n_layers == 0)
        continue;
      seen = &of->layers[from == CW_FACE_FRONT ? 0 : of->n_layers - 1];
      cell.panel = seen->panel;
      cell.face = from == seen->face_up ? CW_FACE_FRONT : CW_FACE_BACK;
      cell.outline = cw_polygon_copy (&of->outline);
      g_array_append_val (view->cells, cell);
    }
}

static CwView *
start (const CwPose *pose, CwVec3 direction)
{
  CwView *view = g_new0 (CwView, 1);

  view->eye = find_eye (direction);
  view->cells = g_array_new (FALSE, FALSE, sizeof (CwViewCell));
  g_array_set_clear_func (view->cells, view_cell_clear);
  view->n_panels = pose->n_panels;
  view->places = g_new0 (CwRigid, pose->n_panels + 1);
  view->there = g_new0 (gboolean, pose->n_panels + 1);
  for (guint i = 0; i < pose->n_panels; i++)
    {
      view->places[i] = cw_rigid_compose (&view->eye, &pose->places[i]);
      view->there[i] = pose->present[i];
    }
  return view;
}

/**
 * cw_view_new:
 * @motion: a motion
 * @states: (nullable): how the paper lies at rest; decides between panels in one plane
 * @step: the step that @pose is a moment of; %G_MAXUINT before the first
 * @pose: where everything is
 * @direction: the way the eye looks, any length but 0; (0, 0, 1) is the reader in front of the held panel
 *
 * Returns: (transfer full): what is seen
 */
CwView *
cw_view_new (const CwMotion *motion, const CwFlatStates *states, guint step, const CwPose *pose, CwVec3 direction)
{
  CwView *view;

  g_return_val_if_fail (motion != NULL && pose != NULL && cw_vec3_length (direction) > 0, NULL);

  view = start (pose, direction);
  overlay (view, cw_motion_get_set (motion), states, step);
  return view;
}

/**
 * cw_view_new_at_rest:
 * @motion: a motion
 * @states: how the paper lies at rest
 * @step: index of a step
 * @pose: where everything is at its end
 * @from: %CW_FACE_FRONT for the reader at -z, %CW_FACE_BACK for one at +z
 *
 * Returns: (transfer full): what is seen at the end of @step
 */
CwView *
cw_view_new_at_rest (const CwMotion *motion, const CwFlatStates *states, guint step, const CwPose *pose, CwFace from)
{
  CwVec3 direction = cw_vec3 (0, 0, from == CW_FACE_FRONT ? 1 : -1);
  CwView *view;

  g_return_val_if_fail (motion != NULL && states != NULL && pose != NULL, NULL);

  if (!cw_flat_states_get (states, step)->flat)
    return cw_view_new (motion, states, step, pose, direction);
  view = start (pose, direction);
  take_cells (view, cw_flat_states_get (states, step), from);
  return view;
}

/**
 * cw_view_free:
 * @view: (nullable) (transfer full): a view
 */
void
cw_view_free (CwView *view)
{
  if (view == NULL)
    return;
  g_array_unref (view->cells);
  g_free (view->places);
  g_free (view->there);
  g_free (view);
}

/**
 * cw_sight_join:
 * @parts: (array length=n_parts): regions that touch at most; cleared
 * @n_parts: how many
 *
 * Joins in pairs, so that many small parts cost little.
 *
 * Returns: (transfer full): all of them as one region
 */
CwRegion
cw_sight_join (CwRegion *parts, guint n_parts)
{
  if (n_parts == 0)
    return (CwRegion){ 0 };
  for (guint n = n_parts; n > 1; n = (n + 1) / 2)
    for (guint i = 0; i < (n + 1) / 2; i++)
      {
        CwRegion both;

        if (2 * i + 1 == n)
          {
            parts[i] = parts[2 * i];
            continue;
          }
        both = cw_region_overlay (&parts[2 * i], &parts[2 * i + 1], CW_OVERLAY_UNION);
        cw_region_clear (&parts[2 * i]);
        cw_region_clear (&parts[2 * i + 1]);
        parts[i] = both;
      }
  return parts[0];
}

/**
 * cw_sight_project:
 * @flat: a region in a panel's flat coordinates
 * @place: flat to picture
 *
 * Returns: (transfer full): the region as it comes to lie in the picture, on ticks
 */
CwRegion
cw_sight_project (const CwRegion *flat, const CwRigid *place)
{
  CwRegion cast = cw_region_copy (flat);

  for (guint i = 0; i < cast.n_polygons; i++)
    {
      for (guint r = 0; r < cast.polygons[i].n_rings; r++)
        for (guint k = 0; k < cast.polygons[i].rings[r].n_points; k++)
          {
            CwPoint *p = &cast.polygons[i].rings[r].points[k];

            *p = project (place, *p);
          }
      cw_polygon_arrange (&cast.polygons[i]);
    }
  return cast;
}

/**
 * cw_view_find:
 * @view: what is seen
 * @panels: (array): n_panels flags
 * @face: a #CwFace; %G_MAXUINT: either
 *
 * Returns: (transfer full): where that face of these panels is seen, in the picture
 */
CwRegion
cw_view_find (const CwView *view, const gboolean *panels, guint face)
{
  g_autoptr (GArray) parts = g_array_new (FALSE, FALSE, sizeof (CwRegion));

  for (guint i = 0; i < view->cells->len; i++)
    {
      const CwViewCell *cell = &g_array_index (view->cells, CwViewCell, i);

      if (panels[cell->panel] && (face == G_MAXUINT || (guint) cell->face == face))
        {
          CwRegion part = cw_region_from_polygon (&cell->outline);

          g_array_append_val (parts, part);
        }
    }
  return cw_sight_join ((CwRegion *) (void *) parts->data, parts->len);
}

static int
compare_seen (const void *one, const void *two)
{
  const CwSeen *a = one, *b = two;

  if (a->panel != b->panel)
    return a->panel < b->panel ? -1 : 1;
  return a->face < b->face ? -1 : a->face > b->face;
}

static GArray *
sum (const GArray *cells)
{
  GArray *all = g_array_new (FALSE, FALSE, sizeof (CwSeen));
  guint n = 0;

  for (guint i = 0; i < cells->len; i++)
    {
      const CwViewCell *cell = &g_array_index (cells, CwViewCell, i);
      CwSeen seen = { cell->panel, cell->face, cell->area2 };

      g_array_append_val (all, seen);
    }
  g_array_sort (all, compare_seen);
  for (guint i = 0; i < all->len; i++)
    {
      const CwSeen *seen = &g_array_index (all, CwSeen, i);

      if (n > 0 && compare_seen (&g_array_index (all, CwSeen, n - 1), seen) == 0)
        g_array_index (all, CwSeen, n - 1).area2 += seen->area2;
      else
        g_array_index (all, CwSeen, n++) = *seen;
    }
  g_array_set_size (all, n);
  return all;
}

/**
 * cw_sight_flat:
 * @state: a flat state
 * @from: %CW_FACE_FRONT for the reader at -z, %CW_FACE_BACK for one at +z
 *
 * Returns: (transfer full) (element-type CwSeen): what is seen of every face, by panel, then face; nothing where the
 *   state is not flat
 */
GArray *
cw_sight_flat (const CwFlatState *state, CwFace from)
{
  CwView view = { 0 };
  GArray *seen;

  g_return_val_if_fail (state != NULL, NULL);

  view.cells = g_array_new (FALSE, FALSE, sizeof (CwViewCell));
  g_array_set_clear_func (view.cells, view_cell_clear);
  take_cells (&view, state, from);
  seen = sum (view.cells);
  g_array_unref (view.cells);
  return seen;
}

/**
 * cw_sight_from:
 * @motion: a motion
 * @states: (nullable): how the paper lies at rest; decides between panels in one plane
 * @step: the step that @pose is a moment of; %G_MAXUINT before the first
 * @pose: where everything is
 * @direction: the way the eye looks, any length but 0; (0, 0, 1) is the reader in front of the held panel
 *
 * Returns: (transfer full) (element-type CwSeen): what is seen of every face, by panel, then face; areas as projected
 *   along @direction. Faces seen from their edge are left out.
 */
GArray *
cw_sight_from (const CwMotion *motion, const CwFlatStates *states, guint step, const CwPose *pose, CwVec3 direction)
{
  g_autoptr (CwView) view = cw_view_new (motion, states, step, pose, direction);

  g_return_val_if_fail (view != NULL, NULL);
  return sum (view->cells);
}
