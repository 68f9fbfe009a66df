/* cw-flat-layer.c: layers that stand over the edge of what carries them.
 *
 * What of a layer lies beyond all other paper of its plane when it is stuck on, told by its farthest corner. Windows
 * count as paper: a layer may lie over them. Parts of it that a later step folds in or up are left to `sticks-out`.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "contact/cw-flat-private.h"
#include "contact/cw-panel-words.h"

#include "geometry/cw-region.h"
#include "geometry/cw-tolerance.h"

#include <glib/gi18n-lib.h>

/* The layer of one stick step. */
typedef struct
{
  guint step, piece, laid; /* laid: through the design */
  CwFace facing;
  const CwClusters *clusters; /* at the step's end */
  const CwCluster *cluster;
} Layer;

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

/* Whether a panel of the layer is folded about the one that is laid in a later step: how it lay was not its place. */
static gboolean
folds_later (const CwMotion *motion, const Layer *layer, guint panel)
{
  for (guint i = layer->step + 1; panel != layer->laid && i < cw_motion_get_n_steps (motion); i++)
    {
      g_autoptr (CwMotionWork) work = NULL;
      g_autoptr (CwPose) pose = NULL;
      CwRigid back, now;

      if (cw_motion_step_moves (motion, i, panel) == cw_motion_step_moves (motion, i, layer->laid)
          && !cw_motion_step_moves (motion, i, panel))
        continue;
      work = cw_motion_work_new (motion);
      pose = cw_pose_new (motion);
      cw_motion_get_pose (motion, work, i, 1, pose);
      back = cw_rigid_inverse (&pose->places[layer->laid]);
      now = cw_rigid_compose (&back, &pose->places[panel]);
      if (now.r[2][2] < 1 - CW_STACK_TILT)
        return TRUE;
    }
  return FALSE;
}

/* What lies beyond all other paper in the plane; windows count as paper, a layer may lie over them. */
static CwRegion
find_overhang (const CwMotion *motion, const Layer *layer, CwRegion *under)
{
  const CwPanelSet *set = cw_motion_get_set (motion);
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
      if (piece == layer->piece && folds_later (motion, layer, layer->cluster->panels[i]))
        continue;
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
  CwRegion under, beyond = find_overhang (states->motion, layer, &under);
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

/**
 * cw_flat_states_tell_layers:
 * @states: states, all filled in
 *
 * Adds layers that stand over an edge to their findings.
 */
void
cw_flat_states_tell_layers (CwFlatStates *states)
{
  const CwPanelSet *set = cw_motion_get_set (states->motion);

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
      host = cw_panel_set_find_host (set, step);
      if (host != G_MAXUINT && !step->overhang_meant
          && layer.clusters->cluster_of[host] == layer.clusters->cluster_of[layer.laid])
        tell_overhang (states, &layer, host);
    }
}
