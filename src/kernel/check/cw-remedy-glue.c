/* cw-remedy-glue.c: glue that holds what it should not, or holds nothing.
 *
 * A zone that reaches too far is cut back to an outline: the part of it over one panel of its host, less what a hand
 * may miss by. A rectangle stays one, on the maker's marks. A layer without glue gets a zone that keeps a hand's miss
 * from its edges.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "check/cw-remedy-private.h"

#include "fold/cw-assembly.h"
#include "geometry/cw-region.h"
#include "geometry/cw-tolerance.h"

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

/* The outer ring of the largest part, brought onto the marks inwards where it is a rectangle. */
static gboolean
outline_of (const CwMending *mending, const CwRegion *region, CwPath *area)
{
  gint32 step = cw_mending_step (mending);
  guint best = 0;
  const CwRing *ring;
  CwPoint low, high;
  gboolean rectangle;

  if (region->n_polygons == 0)
    return FALSE;
  for (guint i = 1; i < region->n_polygons; i++)
    if (cw_polygon_area2 (&region->polygons[i]) > cw_polygon_area2 (&region->polygons[best]))
      best = i;
  ring = &region->polygons[best].rings[0];
  cw_polygon_bounds (&region->polygons[best], &low, &high);
  rectangle = region->polygons[best].n_rings == 1 && ring->n_points == 4
              && cw_ring_area2 (ring) == 2 * (gint64) (high.x - low.x) * (high.y - low.y);
  if (rectangle)
    {
      low = cw_point ((gint32) ceil ((double) low.x / step) * step, (gint32) ceil ((double) low.y / step) * step);
      high = cw_point ((gint32) floor ((double) high.x / step) * step, (gint32) floor ((double) high.y / step) * step);
      if (low.x >= high.x || low.y >= high.y)
        return FALSE;
    }
  for (guint k = 0; k < (rectangle ? 4 : ring->n_points); k++)
    {
      CwPoint corners[4] = { low, { high.x, low.y }, high, { low.x, high.y } };
      CwPoint p = rectangle ? corners[k] : ring->points[k];

      cw_path_append (area, cw_place_from_point (p, mending->design->head->unit), FALSE);
    }
  return TRUE;
}

static void
offer_zone (CwMending *mending, const CwGlue *zone, const CwPiece *piece, const CwRegion *region)
{
  CwGlue *copy = cw_glue_copy (zone);
  CwDraft *draft;

  cw_path_clear (&copy->area);
  copy->area = (CwPath){ 0 };
  if (!outline_of (mending, region, &copy->area))
    {
      cw_glue_unref (copy);
      return;
    }
  draft = cw_draft_new (mending->design);
  cw_draft_put_glue (draft, copy);
  mending->family++;
  cw_mending_offer (mending, draft, N_ ("make glue smaller"),
                    N_ ("Shrink the glue on “{0}” to where it can only hold what it should."),
                    cw_mending_name_piece (piece), NULL);
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
  CwRegion own;

  if (host == G_MAXUINT)
    return;
  if (stick->on.has_panel)
    meant = cw_panel_map_find (&set->maps[host], cw_place_get_point (&stick->on.panel));
  own = zone_region (zone);
  for (guint pass = 0; pass < 2; pass++)
    for (guint i = 0; i < set->maps[host].panels->len; i++)
      {
        CwRegion under, inner, both;

        if ((i == meant) != (pass == 0))
          continue;
        under = panel_under (mending, stick, host, i);
        inner = cw_region_grow (&under, -hand);
        both = cw_region_overlay (&own, &inner, CW_OVERLAY_INTERSECTION);
        offer_zone (mending, zone, piece, &both);
        cw_region_clear (&under);
        cw_region_clear (&inner);
        cw_region_clear (&both);
      }
  cw_region_clear (&own);
}

static void
offer_new_zone (CwMending *mending, const CwPiece *piece)
{
  const CwStep *stick = cw_mending_find_stick (mending, piece->id);
  gint32 hand = MAX (mending->design->head->hand.ticks, 0);
  CwPoint low = { 0 }, high = { 0 };
  gint32 rim = cw_head_round_up (mending->design->head, CW_TICKS_PER_INCH / 8 + hand);
  CwPolygon box;
  CwRegion whole, inner;
  CwGlue *zone;
  CwTarget *target;
  g_autoptr (GArray) points = cw_path_flatten (&piece->outline, TRUE);

  if (stick == NULL || !cw_piece_get_box (piece, &low, &high))
    return;
  box = cw_polygon_from_points (points);
  whole = cw_region_from_polygon (&box);
  inner = cw_region_grow (&whole, -rim);
  zone = cw_glue_new ();
  zone->id = cw_design_dup_free_id (mending->design, "glue");
  zone->piece = g_strdup (piece->id);
  zone->face = stick->facing;
  zone->kind = CW_GLUE_TAPE;
  target = cw_target_copy (&stick->on);
  g_ptr_array_add (zone->holds, target);
  if (outline_of (mending, &inner, &zone->area))
    {
      CwDraft *draft = cw_draft_new (mending->design);
      g_autofree char *text = cw_mending_say (mending, rim);

      cw_draft_do (draft, cw_edit_new_insert (draft->design, CW_LIST_GLUE, NULL, G_MAXUINT, zone));
      mending->family++;
      cw_mending_offer (mending, draft, N_ ("add glue"), N_ ("Put tape on “{0}”, {1} from its edges."),
                        cw_mending_name_piece (piece), text, NULL);
    }
  else
    cw_glue_unref (zone);
  cw_polygon_clear (&box);
  cw_region_clear (&whole);
  cw_region_clear (&inner);
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

          if (g_strcmp0 (zone->piece, piece->id) == 0)
            offer_one_panel (mending, zone);
        }
    }
}
