/* cw-make-across.c: a rectangle laid over the folded card as it is seen, split over the faces that show under it and
 * brought back to the flat pieces.
 *
 * What shows where is asked of the look at the card from that direction (sight/cw-sight-view.c); what of each face lies
 * under the rectangle is mapped back by the panel's own place, which is affine in a parallel projection. A place for a
 * picture is a box in its piece's own directions with an up of its own, so a part becomes the box round it; sides that
 * are not the panel's own go to the maker's marks. Faces seen edge-on get nothing, nor do slivers narrower than a
 * sixteenth of an inch.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "make/cw-make-across.h"
#include "make/cw-make-area.h"
#include "make/cw-make-glue.h"
#include "make/cw-make-private.h"

#include "geometry/cw-region.h"
#include "geometry/cw-tolerance.h"
#include "sight/cw-sight-view.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#define LEAST (CW_TICKS_PER_INCH / 16) /* narrower parts are slivers; the finest mark makers use, no source */
#define OWN_SIDE 2                     /* a side within this of the panel's is the panel's: two roundings, ticks */
#define QUARTER_DEG 0.5                /* an up this near a quarter turn is one */

static void
part_clear (void *data)
{
  cw_region_clear (&((CwAcrossPart *) data)->flat);
}

/* A direction of the seen picture in space: the eye's turn is undone by its transpose. */
static CwVec3
to_space (const CwRigid *eye, CwVec3 v)
{
  const double (*r)[3] = eye->r;

  return cw_vec3 (r[0][0] * v.x + r[1][0] * v.y + r[2][0] * v.z, r[0][1] * v.x + r[1][1] * v.y + r[2][1] * v.z,
                  r[0][2] * v.x + r[1][2] * v.y + r[2][2] * v.z);
}

/* The box as a region of the picture that sight draws, which may be turned against the one the maker sees. */
static CwRegion
cast_box (const CwView *view, const CwRigid *eye, const double box[4])
{
  g_autoptr (GArray) points = g_array_new (FALSE, FALSE, sizeof (CwPoint));
  CwPolygon polygon;
  CwRegion region;

  for (guint i = 0; i < 4; i++)
    {
      CwVec3 seen = cw_vec3 (box[i == 0 || i == 3 ? 0 : 2], box[i < 2 ? 1 : 3], 0);
      CwVec3 at = cw_rigid_apply (&view->eye, to_space (eye, cw_vec3_sub (seen, eye->t)));
      CwPoint p = cw_point ((gint32) lround (at.x), (gint32) lround (at.y));

      g_array_append_val (points, p);
    }
  polygon = cw_polygon_from_points (points);
  cw_polygon_arrange (&polygon);
  region = cw_region_from_polygon (&polygon);
  cw_polygon_clear (&polygon);
  return region;
}

/* Solves place * flat = picture for a vector or a place of the panel's own plane. */
static void
to_flat (const CwRigid *place, double x, double y, double *u, double *v)
{
  double det = place->r[0][0] * place->r[1][1] - place->r[0][1] * place->r[1][0];

  *u = (x * place->r[1][1] - y * place->r[0][1]) / det;
  *v = (y * place->r[0][0] - x * place->r[1][0]) / det;
}

static CwRegion
flatten (const CwRegion *cast, const CwRigid *place)
{
  CwRegion flat = cw_region_copy (cast);

  for (guint i = 0; i < flat.n_polygons; i++)
    {
      for (guint r = 0; r < flat.polygons[i].n_rings; r++)
        for (guint k = 0; k < flat.polygons[i].rings[r].n_points; k++)
          {
            CwPoint *p = &flat.polygons[i].rings[r].points[k];
            double u, v;

            to_flat (place, p->x - place->t.x, p->y - place->t.y, &u, &v);
            *p = cw_point ((gint32) lround (u), (gint32) lround (v));
          }
      cw_polygon_arrange (&flat.polygons[i]);
    }
  return flat;
}

/* Where the picture's up points on the face, clockwise from the piece's own as seen by one who looks at that face. */
static double
find_up (const CwView *view, const CwRigid *eye, const CwRigid *place, CwFace face)
{
  CwVec3 up = cw_rigid_turn (&view->eye, to_space (eye, cw_vec3 (0, -1, 0)));
  double u, v, turn;

  to_flat (place, up.x, up.y, &u, &v);
  turn = atan2 (face == CW_FACE_FRONT ? u : -u, -v) * 180 / G_PI;
  if (fabs (remainder (turn, 90)) < QUARTER_DEG)
    turn = 90 * round (turn / 90);
  turn = fmod (turn + 360, 360);
  return round (turn * 10) / 10;
}

static void
bounds (const CwRegion *region, CwPoint *low, CwPoint *high)
{
  CwMakeBox box = { .some = FALSE };

  for (guint i = 0; i < region->n_polygons; i++)
    for (guint k = 0; k < region->polygons[i].rings[0].n_points; k++)
      cw_make_box_add (&box, region->polygons[i].rings[0].points[k]);
  *low = box.low;
  *high = box.high;
}

static gboolean
is_sliver (const CwRegion *flat)
{
  CwPoint low, high;

  if (flat->n_polygons == 0)
    return TRUE;
  bounds (flat, &low, &high);
  return high.x - low.x < LEAST || high.y - low.y < LEAST;
}

/**
 * cw_make_find_across:
 * @motion: a motion
 * @states: (nullable): how the paper lies at rest
 * @step: the step that @pose is a moment of; %G_MAXUINT before the first
 * @pose: where everything is
 * @eye: space to what the maker sees: x right, y down, z away, ticks
 * @box: left, top, right and bottom of a rectangle there, ticks
 *
 * Returns: (transfer full) (element-type CwAcrossPart): what of it lies on which face, in the order of the panels
 */
GArray *
cw_make_find_across (const CwMotion *motion, const CwFlatStates *states, guint step, const CwPose *pose,
                     const CwRigid *eye, const double box[4])
{
  GArray *parts = g_array_new (FALSE, TRUE, sizeof (CwAcrossPart));
  const CwPanelSet *set;
  g_autoptr (CwView) view = NULL;
  g_autofree gboolean *one = NULL;
  CwRegion cast;

  g_array_set_clear_func (parts, part_clear);
  g_return_val_if_fail (motion != NULL && pose != NULL && eye != NULL && box != NULL, parts);
  if (!(box[2] - box[0] >= 1 && box[3] - box[1] >= 1))
    return parts;
  set = cw_motion_get_set (motion);
  view = cw_view_new (motion, states, step, pose, cw_vec3 (eye->r[2][0], eye->r[2][1], eye->r[2][2]));
  cast = cast_box (view, eye, box);
  one = g_new0 (gboolean, view->n_panels + 1);
  for (guint i = 0; i < view->n_panels; i++)
    {
      const CwRigid *place = &view->places[i];
      CwAcrossPart part = { 0 };
      CwRegion shown, under;

      if (!view->there[i] || fabs (place->r[2][2]) <= CW_TOL_EDGE_ON)
        continue;
      one[i] = TRUE;
      shown = cw_view_find (view, one, G_MAXUINT);
      one[i] = FALSE;
      under = cw_region_overlay (&shown, &cast, CW_OVERLAY_INTERSECTION);
      part.flat = flatten (&under, place);
      cw_region_clear (&shown);
      cw_region_clear (&under);
      if (is_sliver (&part.flat))
        {
          cw_region_clear (&part.flat);
          continue;
        }
      cw_panel_set_locate (set, i, &part.piece, &part.panel);
      part.face = place->r[2][2] >= 0 ? CW_FACE_FRONT : CW_FACE_BACK;
      part.up = find_up (view, eye, place, part.face);
      g_array_append_val (parts, part);
    }
  cw_region_clear (&cast);
  return parts;
}

/* ---- What becomes of it ---- */

/* A side of the box: the panel's own where it is one, else on the maker's marks. */
static gint32
settle_side (gint32 side, gint32 panel_low, gint32 panel_high, gint32 snap)
{
  if (ABS (side - panel_low) <= OWN_SIDE)
    return panel_low;
  if (ABS (side - panel_high) <= OWN_SIDE)
    return panel_high;
  return snap > 0 ? CLAMP (cw_ticks_snap (side, snap), panel_low, panel_high) : side;
}

static gboolean
fail_bare (GError **error)
{
  return cw_make_fail (error, _ ("There is no face of the card under it."));
}

/**
 * cw_make_add_art_across:
 * @design: a design
 * @parts: (element-type CwAcrossPart): where, of an analysis of this design
 * @label: (nullable): what it says or shows
 * @error: CW_MAKE_ERROR when there is no face under it
 *
 * Returns: (transfer full): the edit that marks a place on every face, the picture's up told for each, or NULL
 */
CwEdit *
cw_make_add_art_across (const CwDesign *design, const GArray *parts, const char *label, GError **error)
{
  g_return_val_if_fail (design != NULL && parts != NULL, NULL);

  CwMakeWork work = cw_make_work_begin (design);
  gboolean right = parts->len > 0 || fail_bare (error);

  for (guint i = 0; i < parts->len && right; i++)
    {
      const CwAcrossPart *part = &g_array_index (parts, CwAcrossPart, i);
      const CwPiece *piece = work.design->pieces->pdata[part->piece];
      g_autofree char *id = g_strdup (piece->id);
      g_autoptr (CwMakeGraph) graph = cw_make_graph_new (work.design, id);
      const CwPanel *panel = &g_array_index (graph->map->panels, CwPanel, part->panel);
      g_autoptr (CwMark) box = cw_mark_new ();
      gint32 snap = design->head->snap_ticks;
      guint index = piece->art->len;
      CwPoint low, high;
      CwEdit *edit;

      bounds (&part->flat, &low, &high);
      low = cw_point (settle_side (low.x, panel->box_min.x, panel->box_max.x, snap),
                      settle_side (low.y, panel->box_min.y, panel->box_max.y, snap));
      high = cw_point (settle_side (high.x, panel->box_min.x, panel->box_max.x, snap),
                       settle_side (high.y, panel->box_min.y, panel->box_max.y, snap));
      box->kind = CW_MARK_WINDOW;
      box->shape = CW_SHAPE_RECT;
      cw_path_append (&box->line, cw_place_from_point (low, design->head->unit), FALSE);
      cw_path_append (&box->line, cw_place_from_point (high, design->head->unit), FALSE);
      if (low.x == high.x || low.y == high.y)
        continue; /* a sliver once it is on the marks */
      edit = cw_make_add_art (work.design, id, part->face, box, NULL, error);
      right = edit != NULL;
      if (!right)
        break;
      cw_make_work_do (&work, edit);
      cw_make_work_do (&work, cw_make_change_art (work.design, id, index, label, part->up));
    }
  if (right)
    return cw_make_work_finish (&work, error);
  cw_edit_unref (cw_make_work_end (&work));
  return NULL;
}

/**
 * cw_make_draw_glue_across:
 * @design: a design
 * @parts: (element-type CwAcrossPart): where, of an analysis of this design
 * @kind: what is put on
 * @error: CW_MAKE_ERROR when there is no face under it
 *
 * Returns: (transfer full): the edit that puts glue on every face, or NULL
 */
CwEdit *
cw_make_draw_glue_across (const CwDesign *design, const GArray *parts, CwGlueKind kind, GError **error)
{
  g_return_val_if_fail (design != NULL && parts != NULL, NULL);

  CwMakeWork work = cw_make_work_begin (design);
  gboolean right = parts->len > 0 || fail_bare (error);

  for (guint i = 0; i < parts->len && right; i++)
    {
      const CwAcrossPart *part = &g_array_index (parts, CwAcrossPart, i);
      g_autofree char *id = g_strdup (((const CwPiece *) work.design->pieces->pdata[part->piece])->id);
      CwEdit *edit = cw_make_add_glue_on (work.design, id, part->face, kind, &part->flat, error);

      right = edit != NULL;
      if (right)
        cw_make_work_do (&work, edit);
    }
  if (right)
    return cw_make_work_finish (&work, error);
  cw_edit_unref (cw_make_work_end (&work));
  return NULL;
}
