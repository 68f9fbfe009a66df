/* cw-remedy-glue.c: glue that holds what it should not, or holds nothing.
 *
 * A zone that reaches too far is cut back to the part of it that is safe (glue/cw-safe-area.c). Where it is meant for
 * two panels that have to part, none of it is safer than the rest: then to what lies on one panel of its own piece, or
 * over one panel of its host, less what a hand may miss by. A layer without glue gets tape on all that is safe, a rim
 * in from its edges.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "check/cw-remedy-private.h"

#include "fold/cw-assembly.h"
#include "geometry/cw-region.h"
#include "geometry/cw-tolerance.h"
#include "glue/cw-glue-shape.h"

#include <glib/gi18n-lib.h>
#include <math.h>

static CwRegion
zone_region (const CwGlue *zone)
{
  g_autoptr (GArray) points = cw_path_flatten (&zone->area, TRUE);
  CwPolygon polygon = cw_polygon_from_points (points);
  CwRegion region = cw_region_from_polygon (&polygon);

  cw_polygon_clear (&polygon);
  return region;
}

/* A panel of the host as it lies under the layer, in the layer's own flat coordinates. */
static CwRegion
panel_under (const CwMending *mending, const CwStep *stick, guint host, guint panel)
{
  const CwPanelMap *map = &mending->analysis->panels->maps[host];
  CwPolygon outline = cw_polygon_copy (&g_array_index (map->panels, CwPanel, panel).outline);
  CwRigid place = cw_step_get_placement (stick), back = cw_rigid_inverse (&place);
  CwRegion region;

  for (guint r = 0; r < outline.n_rings; r++)
    for (guint k = 0; k < outline.rings[r].n_points; k++)
      {
        CwPoint *p = &outline.rings[r].points[k];
        CwVec3 q = cw_rigid_apply (&back, cw_vec3 (p->x, p->y, 0));

        *p = cw_point ((gint32) lround (q.x), (gint32) lround (q.y));
      }
  cw_polygon_arrange (&outline);
  region = cw_region_from_polygon (&outline);
  cw_polygon_clear (&outline);
  return region;
}

/* The zone takes the first outline; zones of its kind the others, where a hole parts what is safe. */
static CwDraft *
new_draft_of_outlines (CwMending *mending, const CwGlue *zone, GPtrArray *outlines, gboolean is_new)
{
  CwDraft *draft = cw_draft_new (mending->design);

  for (guint i = 0; i < outlines->len; i++)
    {
      CwGlue *copy = cw_glue_copy (zone);

      cw_path_clear (&copy->area);
      copy->area = cw_path_copy (outlines->pdata[i]);
      if (i == 0 && !is_new)
        {
          cw_draft_put_glue (draft, copy);
          continue;
        }
      g_free (copy->id);
      copy->id = cw_design_dup_free_id (draft->design, "glue");
      cw_draft_do (draft, cw_edit_new_insert (draft->design, CW_LIST_GLUE, NULL, G_MAXUINT, copy));
    }
  return draft;
}

/* Offers to cut a zone back to a region of its own piece. */
static void
offer_region (CwMending *mending, const CwGlue *zone, const CwRegion *region)
{
  CwRegion own = zone_region (zone), both = cw_region_overlay (&own, region, CW_OVERLAY_INTERSECTION);
  g_autoptr (GPtrArray) outlines
    = cw_glue_shape_from_region (&both, mending->design->head->unit, cw_mending_step (mending));

  if (outlines->len > 0)
    {
      CwDraft *draft = new_draft_of_outlines (mending, zone, outlines, FALSE);

      mending->family++;
      cw_mending_offer (mending, draft, N_ ("make glue smaller"),
                        N_ ("Shrink the glue on “{0}” to where it can only hold what it should."),
                        cw_mending_name_piece (cw_design_get_piece (mending->design, zone->piece)), NULL);
    }
  cw_region_clear (&both);
  cw_region_clear (&own);
}

/* What of the zone lies where glue may lie: beyond it holds something else, or creeps out. Then what of it lies on one
 * panel of its own piece. */
static void
offer_safe_part (CwMending *mending, guint index)
{
  const CwBonds *bonds = mending->analysis->bonds;
  const CwZone *zone = &g_array_index (cw_bonds_get_zones (bonds), CwZone, index);
  CwSafeArea safe;

  if (zone->panel == G_MAXUINT)
    return;
  safe = cw_bonds_find_safe_area (bonds, zone->panel, zone->glue->face);
  offer_region (mending, zone->glue, &safe.safe);
  cw_safe_area_clear (&safe);
  for (guint i = 0; zone->n_parts > 1 && i < zone->n_parts; i++)
    {
      CwRegion inner = cw_region_grow (&zone->parts[i].where, -MAX (mending->design->head->hand.ticks, 0));

      offer_region (mending, zone->glue, &inner);
      cw_region_clear (&inner);
    }
}

/* Cut back to one panel of the host, the one meant first. */
static void
offer_one_panel (CwMending *mending, const CwGlue *zone)
{
  const CwPanelSet *set = mending->analysis->panels;
  const CwPiece *piece = cw_design_get_piece (mending->design, zone->piece);
  const CwStep *stick = piece != NULL ? cw_mending_find_stick (mending, piece->id) : NULL;
  guint host = stick != NULL ? cw_design_find_piece (mending->design, stick->on.piece) : G_MAXUINT, meant = G_MAXUINT;
  gint32 hand = MAX (mending->design->head->hand.ticks, 0);

  if (host == G_MAXUINT)
    return;
  if (stick->on.has_panel)
    meant = cw_panel_map_find (&set->maps[host], cw_place_get_point (&stick->on.panel));
  for (guint pass = 0; pass < 2; pass++)
    for (guint i = 0; i < set->maps[host].panels->len; i++)
      {
        CwRegion under, inner;

        if ((i == meant) != (pass == 0))
          continue;
        under = panel_under (mending, stick, host, i);
        inner = cw_region_grow (&under, -hand);
        offer_region (mending, zone, &inner);
        cw_region_clear (&under);
        cw_region_clear (&inner);
      }
}

/* Tape on all that is safe, as far from the edges as a rim is wide. */
static void
offer_new_zone (CwMending *mending, const CwPiece *piece)
{
  const CwPanelSet *set = mending->analysis->panels;
  const CwStep *stick = cw_mending_find_stick (mending, piece->id);
  guint index = cw_design_find_piece (mending->design, piece->id), laid = cw_panel_set_find_laid (set, index);
  gint32 hand = MAX (mending->design->head->hand.ticks, 0);
  gint32 rim = cw_head_round_up (mending->design->head, CW_TICKS_PER_INCH / 8 + hand);
  g_autofree char *text = cw_mending_say (mending, rim);
  g_autoptr (CwGlue) zone = NULL;
  g_autoptr (GPtrArray) outlines = NULL;
  CwSafeArea safe;
  CwRegion inner;

  if (stick == NULL || laid == G_MAXUINT)
    return;
  safe = cw_bonds_find_safe_area (mending->analysis->bonds, set->first_panel[index] + laid, stick->facing);
  inner = cw_region_grow (&safe.safe, -rim);
  outlines = cw_glue_shape_from_region (&inner, mending->design->head->unit, cw_mending_step (mending));
  zone = cw_glue_new ();
  zone->piece = g_strdup (piece->id);
  zone->face = stick->facing;
  zone->kind = CW_GLUE_TAPE;
  g_ptr_array_add (zone->holds, cw_target_copy (&stick->on));
  if (outlines->len > 0)
    {
      CwDraft *draft = new_draft_of_outlines (mending, zone, outlines, TRUE);

      mending->family++;
      cw_mending_offer (mending, draft, N_ ("add glue"), N_ ("Put tape on “{0}”, {1} from its edges."),
                        cw_mending_name_piece (piece), text, NULL);
    }
  cw_region_clear (&inner);
  cw_safe_area_clear (&safe);
}

/**
 * cw_mend_glue:
 * @mending: a finding about glue
 */
void
cw_mend_glue (CwMending *mending)
{
  const CwFinding *finding = mending->finding;

  for (guint p = 0; p < finding->pieces->len; p++)
    {
      const CwPiece *piece = cw_mending_get_piece (mending, p);

      if (piece == NULL)
        continue;
      if (finding->code == CW_FINDING_GLUE_MISSING)
        {
          offer_new_zone (mending, piece);
          continue;
        }
      for (guint i = 0; i < mending->design->glue->len; i++)
        {
          const CwGlue *zone = mending->design->glue->pdata[i];

          if (g_strcmp0 (zone->piece, piece->id) != 0)
            continue;
          offer_safe_part (mending, i);
          offer_one_panel (mending, zone);
        }
    }
}
