/* cw-flat-layer.c: layers that stand over the edge of what carries them, and glue that bridges what has to move: a fold
 * line, or the two sides of a cut.
 *
 * When a layer is stuck on, its glue holds whatever lies against it there (the next in each cell's stack). Two panels
 * of one piece that are held together so and whose places to one another change in a later step, while the layer is
 * still there, are the fault: over a score if a fold line joins them, else over a cut. A zone that names the panel it
 * holds holds no other: what else it meets is a stray, told with the glue. Areas are exact on ticks.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "contact/cw-flat-private.h"
#include "contact/cw-panel-words.h"

#include "geometry/cw-region.h"
#include "geometry/cw-tolerance.h"
#include "panel/cw-path-flatten.h"

#include <glib/gi18n-lib.h>

/* The layer of one stick step. */
typedef struct
{
  guint step, piece, laid; /* laid: through the design */
  CwFace facing;
  const CwClusters *clusters; /* at the step's end */
  const CwCluster *cluster;
} Layer;

/* Twice the area over which the zone lies against each member of the cluster. */
static gint64 *
find_contacts (const CwFlatStates *states, const Layer *layer, const CwGlue *zone)
{
  const CwCluster *cluster = layer->cluster;
  gint64 *contacts = g_new0 (gint64, cluster->n_panels + 1);
  guint member = layer->clusters->member_of[layer->laid];
  const CwLaid *laid = &cluster->laid[member];
  gboolean up = (layer->facing == CW_FACE_FRONT) != cw_laid_is_turned (laid);
  g_autoptr (GArray) points = cw_path_flatten (&zone->area, TRUE);
  CwPolygon area;
  CwRegion region;

  if (cluster->pile == NULL || points->len < 3)
    return contacts;
  for (guint i = 0; i < points->len; i++)
    g_array_index (points, CwPoint, i) = cw_laid_point (laid, g_array_index (points, CwPoint, i));
  area = cw_polygon_from_points (points);
  region = cw_region_from_polygon (&area);
  for (guint k = cluster->pile->first_of[member]; k < cluster->pile->first_of[member + 1]; k++)
    {
      const CwPileCell *cell = &g_array_index (cluster->pile->cells, CwPileCell, cluster->pile->cells_of[k]);
      CwRegion own, shared;
      guint seat = 0;

      while (cell->members[seat] != member)
        seat++;
      if (up ? seat == 0 : seat + 1 == cell->n_members)
        continue;
      own = cw_region_from_polygon (&cell->outline);
      shared = cw_region_overlay (&own, &region, CW_OVERLAY_INTERSECTION);
      contacts[cell->members[up ? seat - 1 : seat + 1]] += cw_region_area2 (&shared);
      cw_region_clear (&shared);
      cw_region_clear (&own);
    }
  cw_region_clear (&region);
  cw_polygon_clear (&area);
  return contacts;
}

/* TRUE if the zone may hold this panel: it names no panel of its piece, or this one. */
static gboolean
may_hold (const CwPanelSet *set, const CwGlue *zone, guint panel)
{
  guint piece, own;

  cw_panel_set_locate (set, panel, &piece, &own);
  for (guint i = 0; i < zone->holds->len; i++)
    {
      const CwTarget *target = g_ptr_array_index (zone->holds, i);

      if (g_strcmp0 (target->piece, set->maps[piece].piece->id) != 0)
        continue;
      if (!target->has_panel || cw_panel_map_find (&set->maps[piece], cw_place_get_point (&target->panel)) == own)
        return TRUE;
    }
  return FALSE;
}

/* The fold line between two panels of one piece; G_MAXUINT: none. */
static guint
find_hinge (const CwPanelSet *set, guint a, guint b)
{
  guint piece, own_a, own_b;

  cw_panel_set_locate (set, a, &piece, &own_a);
  cw_panel_set_locate (set, b, &piece, &own_b);
  for (guint i = 0; i < set->maps[piece].hinges->len; i++)
    {
      const CwHinge *hinge = &g_array_index (set->maps[piece].hinges, CwHinge, i);

      if ((hinge->left == own_a && hinge->right == own_b) || (hinge->left == own_b && hinge->right == own_a))
        return set->first_hinge[piece] + i;
    }
  return G_MAXUINT;
}

static CwRigid
place_between (const CwPose *pose, guint a, guint b)
{
  CwRigid back = cw_rigid_inverse (&pose->places[a]);

  return cw_rigid_compose (&back, &pose->places[b]);
}

/* The first later step in which the two panels move to one another while the layer is on the card; G_MAXUINT: none. */
static guint
find_parting (const CwFlatStates *states, const Layer *layer, CwMotionWork *work, CwPose *pose, guint a, guint b)
{
  const CwPanel *panel = cw_panel_set_get_panel (cw_motion_get_set (states->motion), b);
  CwRigid was;

  cw_motion_get_pose (states->motion, work, layer->step, 1, pose);
  was = place_between (pose, a, b);
  for (guint i = layer->step + 1; i < states->n_steps; i++)
    {
      CwRigid is;

      if (cw_motion_get_group (states->motion, i, layer->laid) != cw_motion_get_group (states->motion, i, a))
        return G_MAXUINT;
      cw_motion_get_pose (states->motion, work, i, 1, pose);
      is = place_between (pose, a, b);
      for (guint k = 0; k < panel->outline.rings[0].n_points; k++)
        {
          CwVec3 p = cw_vec3 (panel->outline.rings[0].points[k].x, panel->outline.rings[0].points[k].y, 0);

          if (cw_vec3_length (cw_vec3_sub (cw_rigid_apply (&was, p), cw_rigid_apply (&is, p))) > CW_TOL_LAID_TICKS)
            return i;
        }
    }
  return G_MAXUINT;
}

static void
tell_bridge (CwFlatStates *states, const Layer *layer, guint a, guint b, guint parting)
{
  const CwPanelSet *set = cw_motion_get_set (states->motion);
  const CwPiece *own = set->maps[layer->piece].piece;
  const char *name = own->name ? own->name : own->id;
  guint hinge = find_hinge (set, a, b), piece;
  g_autofree char *name_a = cw_panel_words (set, a), *name_b = cw_panel_words (set, b);
  CwFinding *finding
    = cw_flat_new_finding (states, hinge != G_MAXUINT ? CW_FINDING_LAYER_OVER_SCORE : CW_FINDING_LAYER_OVER_CUT,
                           layer->step, CW_KNOWN_EXACT);

  cw_flat_add_panel (finding, states, layer->laid);
  cw_flat_add_panel (finding, states, a);
  cw_flat_add_panel (finding, states, b);
  if (hinge != G_MAXUINT)
    {
      const CwHinge *h = cw_panel_set_get_hinge (set, hinge, &piece);
      const char *score = g_ptr_array_index (h->scores, 0);

      cw_finding_add_mark (finding, set->maps[piece].piece->id, score);
      cw_finding_set_at (finding, set->maps[piece].piece->id, ((double) h->p.x + h->q.x) / 2,
                         ((double) h->p.y + h->q.y) / 2);
      cw_finding_set_words (finding,
                            N_ ("“{0}” is glued across the fold line “{1}”, which has to move in “{2}”: it would hold "
                                "{3} and {4} together."),
                            N_ ("Keep the glue of “{0}” on one side of that fold line."), name, score,
                            cw_flat_step_name (states, parting), name_a, name_b, NULL);
    }
  else
    {
      const CwPanel *panel = cw_panel_set_get_panel (set, b);

      cw_panel_set_locate (set, b, &piece, NULL);
      cw_finding_set_at (finding, set->maps[piece].piece->id, panel->inside.x, panel->inside.y);
      cw_finding_set_words (finding, N_ ("“{0}” is glued to both {1} and {2}, which have to part in “{3}”."),
                            N_ ("Keep the glue of “{0}” on one of them."), name, name_a, name_b,
                            cw_flat_step_name (states, parting), NULL);
    }
  g_ptr_array_add (states->findings, finding);
}

/* TRUE if the zone sticks from the step on that lays its layer: no other step is named for it. */
static gboolean
sticks_at_once (const CwDesign *design, const CwGlue *zone)
{
  for (guint i = 0; i < design->steps->len; i++)
    {
      const CwStep *step = g_ptr_array_index (design->steps, i);

      for (guint k = 0; step->what == CW_DO_GLUE && k < step->zones->len; k++)
        if (g_str_equal (g_ptr_array_index (step->zones, k), zone->id))
          return FALSE;
    }
  return zone->apply == NULL;
}

/* One finding a layer: a fold line before a cut, in the order of the panels. */
static void
tell_layer (CwFlatStates *states, const Layer *layer, CwMotionWork *work, CwPose *pose)
{
  const CwPanelSet *set = cw_motion_get_set (states->motion);
  const CwCluster *cluster = layer->cluster;
  guint best_a = 0, best_b = 0, best_parting = G_MAXUINT;
  gboolean best_fold = FALSE;

  for (guint z = 0; z < set->design->glue->len; z++)
    {
      const CwGlue *zone = g_ptr_array_index (set->design->glue, z);
      g_autofree gint64 *contacts = NULL;

      if (zone->face != layer->facing || !sticks_at_once (set->design, zone)
          || g_strcmp0 (zone->piece, set->maps[layer->piece].piece->id) != 0)
        continue;
      contacts = find_contacts (states, layer, zone);
      for (guint i = 0; i < cluster->n_panels; i++)
        for (guint k = 0; contacts[i] > 0 && k < cluster->n_panels; k++)
          {
            guint a = cluster->panels[i], b = cluster->panels[k], piece_a, piece_b, parting;
            gboolean fold;

            if (a >= b || (double) contacts[i] < 2 * CW_TOL_STRIP_SQ_TICKS
                || (double) contacts[k] < 2 * CW_TOL_STRIP_SQ_TICKS)
              continue;
            cw_panel_set_locate (set, a, &piece_a, NULL);
            cw_panel_set_locate (set, b, &piece_b, NULL);
            if (piece_a != piece_b || !may_hold (set, zone, a) || !may_hold (set, zone, b))
              continue;
            fold = find_hinge (set, a, b) != G_MAXUINT;
            if (best_parting != G_MAXUINT && (best_fold || !fold))
              continue;
            parting = find_parting (states, layer, work, pose, a, b);
            if (parting == G_MAXUINT)
              continue;
            best_a = a;
            best_b = b;
            best_parting = parting;
            best_fold = fold;
          }
    }
  if (best_parting != G_MAXUINT)
    tell_bridge (states, layer, best_a, best_b, best_parting);
}

/* --- Overhang ----------------------------------------------------------------------------------------------------- */

static void
lay_outline (GArray *polygons, const CwLaid *laid)
{
  CwPolygon outline = cw_polygon_copy (laid->outline);

  for (guint r = 0; r < outline.n_rings; r++)
    for (guint k = 0; k < outline.rings[r].n_points; k++)
      outline.rings[r].points[k] = cw_laid_point (laid, outline.rings[r].points[k]);
  cw_polygon_arrange (&outline);
  g_array_append_val (polygons, outline);
}

/* What lies beyond all other paper in the plane; windows count as paper, a layer may lie over them. */
static CwRegion
find_overhang (const CwPanelSet *set, const Layer *layer, CwRegion *under)
{
  CwRegion own, beyond;
  GArray *outlines[2]; /* under it, and its own */

  for (guint w = 0; w < 2; w++)
    {
      outlines[w] = g_array_new (FALSE, FALSE, sizeof (CwPolygon));
      g_array_set_clear_func (outlines[w], (GDestroyNotify) cw_polygon_clear);
    }
  for (guint i = 0; i < layer->cluster->n_panels; i++)
    {
      guint piece;

      cw_panel_set_locate (set, layer->cluster->panels[i], &piece, NULL);
      lay_outline (outlines[piece == layer->piece], &layer->cluster->laid[i]);
    }
  *under = cw_region_join ((const CwPolygon *) (void *) outlines[0]->data, outlines[0]->len);
  own = cw_region_join ((const CwPolygon *) (void *) outlines[1]->data, outlines[1]->len);
  for (guint w = 0; w < 2; w++)
    g_array_unref (outlines[w]);
  for (guint i = 0; i < under->n_polygons; i++)
    while (under->polygons[i].n_rings > 1)
      cw_ring_clear (&under->polygons[i].rings[--under->polygons[i].n_rings]);
  beyond = cw_region_overlay (&own, under, CW_OVERLAY_DIFFERENCE);
  cw_region_clear (&own);
  return beyond;
}

static void
tell_overhang (CwFlatStates *states, const Layer *layer, guint host)
{
  const CwPanelSet *set = cw_motion_get_set (states->motion);
  const CwPiece *own = set->maps[layer->piece].piece;
  CwRegion under, beyond = find_overhang (set, layer, &under);
  double most = 0;
  CwPoint at = { 0, 0 };

  for (guint i = 0; i < beyond.n_polygons; i++)
    for (guint k = 0; k < beyond.polygons[i].rings[0].n_points; k++)
      {
        CwPoint p = beyond.polygons[i].rings[0].points[k];
        double least = G_MAXDOUBLE;

        for (guint m = 0; m < under.n_polygons; m++)
          least = MIN (least, cw_polygon_distance (&under.polygons[m], p.x, p.y));
        if (least < G_MAXDOUBLE && least > most)
          {
            most = least;
            at = p;
          }
      }
  if (most > CW_TOL_CELL_TICKS)
    {
      CwFinding *finding = cw_flat_new_finding (states, CW_FINDING_LAYER_OVERHANGS, layer->step, CW_KNOWN_EXACT);
      g_autofree char *amount = cw_flat_length (states, most), *on = cw_panel_words (set, host);
      CwRigid back = cw_rigid_inverse (&layer->cluster->laid[layer->clusters->member_of[layer->laid]].place);
      CwVec3 flat = cw_rigid_apply (&back, cw_vec3 (at.x, at.y, 0));

      cw_flat_add_panel (finding, states, layer->laid);
      cw_flat_add_panel (finding, states, host);
      cw_finding_set_at (finding, own->id, flat.x, flat.y);
      cw_finding_set_amount (finding, CW_AMOUNT_TICKS, most);
      cw_finding_set_words (finding, N_ ("“{0}” stands {1} over the edge of {2}."),
                            N_ ("Make “{0}” smaller or move it by {1}, or say that it is meant so."),
                            own->name ? own->name : own->id, amount, on, NULL);
      g_ptr_array_add (states->findings, finding);
    }
  cw_region_clear (&beyond);
  cw_region_clear (&under);
}

/* The panel a stick step lays on; G_MAXUINT: none. */
static guint
find_host (const CwPanelSet *set, const CwStep *step)
{
  guint piece = step->has_on && step->on.piece ? cw_design_find_piece (set->design, step->on.piece) : G_MAXUINT;
  guint panel = G_MAXUINT;

  if (piece >= set->n_pieces)
    return G_MAXUINT;
  if (step->on.has_panel)
    panel = cw_panel_map_find (&set->maps[piece], cw_place_get_point (&step->on.panel));
  if (panel == G_MAXUINT)
    panel = cw_panel_map_find_hold (&set->maps[piece]);
  return panel < set->maps[piece].panels->len ? set->first_panel[piece] + panel : G_MAXUINT;
}

/**
 * cw_flat_states_tell_layers:
 * @states: states, all filled in
 *
 * Adds layers glued over what has to move, and those that stand over an edge, to their findings.
 */
void
cw_flat_states_tell_layers (CwFlatStates *states)
{
  const CwPanelSet *set = cw_motion_get_set (states->motion);
  g_autoptr (CwMotionWork) work = cw_motion_work_new (states->motion);
  g_autoptr (CwPose) pose = cw_pose_new (states->motion);

  for (guint i = 0; i < states->n_steps; i++)
    {
      const CwStep *step = g_ptr_array_index (set->design->steps, i);
      Layer layer = { .step = i, .facing = step->facing, .clusters = states->clusters[i + 1] };
      guint laid, host;

      if (step->what != CW_DO_STICK || step->tucked || step->piece == NULL)
        continue;
      layer.piece = cw_design_find_piece (set->design, step->piece);
      laid = layer.piece < set->n_pieces ? cw_panel_set_find_laid (set, layer.piece) : G_MAXUINT;
      if (laid == G_MAXUINT || laid >= set->maps[layer.piece].panels->len)
        continue;
      layer.laid = set->first_panel[layer.piece] + laid;
      layer.cluster = &layer.clusters->clusters[layer.clusters->cluster_of[layer.laid]];
      tell_layer (states, &layer, work, pose);
      host = find_host (set, step);
      if (host != G_MAXUINT && !step->overhang_meant
          && layer.clusters->cluster_of[host] == layer.clusters->cluster_of[layer.laid])
        tell_overhang (states, &layer, host);
    }
}
