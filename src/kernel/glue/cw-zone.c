/* cw-zone.c: glue zones in the kernel's numbers.
 *
 * A zone is cut up by the panels of its piece; what lies beyond the paper, or over a window, is no glue. It sticks from
 * the end of the step named in `apply`, else of the `glue` step that lists it, else of the step that sticks its piece.
 * Where the model is silent: a tucked piece is laid without glue, so that step does not count, and what would stick or
 * hold it sticks only where a step says so; a zone of a piece that is never laid (the base) sticks from the step on
 * that sticks what it holds, else from the first step on; a zone that holds nothing yet is meant for the piece that its
 * own is stuck on.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "glue/cw-zone.h"

#include "geometry/cw-house.h"
#include "geometry/cw-tolerance.h"
#include "panel/cw-path-flatten.h"

/* The first step that sticks the piece with glue, or G_MAXUINT. */
static guint
find_stick (const CwDesign *design, const char *piece)
{
  for (guint s = 0; s < design->steps->len; s++)
    {
      const CwStep *step = g_ptr_array_index (design->steps, s);

      if (step->what == CW_DO_STICK && !step->tucked && g_strcmp0 (step->piece, piece) == 0)
        return s;
    }
  return G_MAXUINT;
}

/* Whether a step lays the piece down, with glue or tucked in. */
static gboolean
is_laid (const CwDesign *design, const char *piece)
{
  for (guint s = 0; s < design->steps->len; s++)
    {
      const CwStep *step = g_ptr_array_index (design->steps, s);

      if (step->what == CW_DO_STICK && g_strcmp0 (step->piece, piece) == 0)
        return TRUE;
    }
  return FALSE;
}

/* The step from whose end on a zone sticks, or G_MAXUINT. */
static guint
find_live (const CwDesign *design, const CwGlue *glue)
{
  gboolean laid;
  guint step;

  if (glue->apply != NULL)
    return cw_design_find_step (design, glue->apply);
  for (guint s = 0; s < design->steps->len; s++)
    {
      const CwStep *listed = g_ptr_array_index (design->steps, s);

      if (listed->what == CW_DO_GLUE && g_ptr_array_find_with_equal_func (listed->zones, glue->id, g_str_equal, NULL))
        return s;
    }
  step = find_stick (design, glue->piece);
  laid = is_laid (design, glue->piece);
  for (guint i = 0; i < glue->holds->len && step == G_MAXUINT; i++)
    {
      const char *held = ((const CwTarget *) g_ptr_array_index (glue->holds, i))->piece;

      step = find_stick (design, held);
      laid |= is_laid (design, held);
    }
  return step == G_MAXUINT && !laid && design->steps->len > 0 ? 0 : step;
}

static void
find_parts (CwZone *zone, const CwPanelSet *set)
{
  g_autoptr (GArray) points = cw_path_flatten (&zone->glue->area, TRUE);
  const CwPanelMap *map = &set->maps[zone->piece];
  gint64 most = 0;
  CwPolygon polygon;
  CwRegion area;

  zone->parts = g_new0 (CwZonePart, map->panels->len + 1);
  if (points->len < 3)
    return;
  polygon = cw_polygon_from_points (points);
  area = cw_region_from_polygon (&polygon);
  for (guint i = 0; i < map->panels->len; i++)
    {
      CwRegion panel = cw_region_from_polygon (&g_array_index (map->panels, CwPanel, i).outline);
      CwRegion common = cw_region_overlay (&panel, &area, CW_OVERLAY_INTERSECTION);
      gint64 area2 = cw_region_area2 (&common);

      cw_region_clear (&panel);
      if (area2 == 0)
        {
          cw_region_clear (&common);
          continue;
        }
      zone->parts[zone->n_parts++] = (CwZonePart){ set->first_panel[zone->piece] + i, common };
      zone->area2 += area2;
      if (area2 > most)
        {
          most = area2;
          zone->panel = set->first_panel[zone->piece] + i;
        }
    }
  cw_region_clear (&area);
  cw_polygon_clear (&polygon);
}

static void
find_targets (CwZone *zone, const CwPanelSet *set)
{
  const CwDesign *design = set->design;
  guint stick = find_stick (design, zone->glue->piece);

  zone->targets = g_new0 (CwZoneTarget, zone->glue->holds->len + 1);
  for (guint i = 0; i < zone->glue->holds->len; i++)
    {
      const CwTarget *target = g_ptr_array_index (zone->glue->holds, i);
      CwZoneTarget own = { cw_design_find_piece (design, target->piece), G_MAXUINT };

      if (own.piece >= set->n_pieces)
        continue;
      if (target->has_panel)
        {
          guint panel = cw_panel_map_find (&set->maps[own.piece], cw_place_get_point (&target->panel));

          if (panel == G_MAXUINT)
            continue;
          own.panel = set->first_panel[own.piece] + panel;
        }
      zone->targets[zone->n_targets++] = own;
    }
  if (zone->glue->holds->len == 0 && stick != G_MAXUINT)
    {
      const CwStep *step = g_ptr_array_index (design->steps, stick);
      CwZoneTarget own
        = { step->has_on && step->on.piece ? cw_design_find_piece (design, step->on.piece) : G_MAXUINT, G_MAXUINT };

      if (own.piece < set->n_pieces)
        zone->targets[zone->n_targets++] = own;
    }
}

static void
zone_clear (void *data)
{
  CwZone *zone = data;

  for (guint i = 0; i < zone->n_parts; i++)
    cw_region_clear (&zone->parts[i].where);
  g_free (zone->parts);
  g_free (zone->targets);
}

/**
 * cw_zones_new:
 * @set: the panels of a design; must outlive the result
 *
 * Returns: (transfer full) (element-type CwZone): its glue zones, in file order
 */
GArray *
cw_zones_new (const CwPanelSet *set)
{
  GArray *zones = g_array_new (FALSE, FALSE, sizeof (CwZone));

  g_array_set_clear_func (zones, zone_clear);
  g_return_val_if_fail (set != NULL, zones);

  for (guint i = 0; i < set->design->glue->len; i++)
    {
      CwZone zone = { .glue = g_ptr_array_index (set->design->glue, i), .panel = G_MAXUINT };

      zone.piece = zone.glue->piece ? cw_design_find_piece (set->design, zone.glue->piece) : G_MAXUINT;
      zone.live = find_live (set->design, zone.glue);
      if (zone.piece < set->n_pieces)
        {
          find_parts (&zone, set);
          find_targets (&zone, set);
        }
      g_array_append_val (zones, zone);
    }
  return zones;
}

/**
 * cw_glue_kind_get_creep:
 *
 * Returns: how far glue of this kind creeps when it is pressed, ticks
 */
gint32
cw_glue_kind_get_creep (CwGlueKind kind)
{
  return kind == CW_GLUE_WET ? CW_HOUSE_CREEP_WET : 0;
}

static gboolean
is_narrow (const CwPolygon *polygon)
{
  double round = 0;

  for (guint r = 0; r < polygon->n_rings; r++)
    for (guint k = 0; k < polygon->rings[r].n_points; k++)
      {
        CwPoint a = polygon->rings[r].points[k], b = polygon->rings[r].points[(k + 1) % polygon->rings[r].n_points];

        round += hypot ((double) b.x - a.x, (double) b.y - a.y);
      }
  /* A strip's area is its width times half its outline. */
  return (double) cw_polygon_area2 (polygon) < CW_TOL_GLUE_TICKS * round;
}

/**
 * cw_glue_region_take_wide:
 * @region: a region
 *
 * Returns: (transfer full): the region without slivers (%CW_TOL_GLUE_TICKS); empty when what is left is too little to
 *   hold anything (%CW_TOL_GLUE_SQ_TICKS)
 */
CwRegion
cw_glue_region_take_wide (const CwRegion *region)
{
  CwRegion wide = { 0 };

  g_return_val_if_fail (region != NULL, wide);

  wide.polygons = g_new0 (CwPolygon, region->n_polygons + 1);
  for (guint i = 0; i < region->n_polygons; i++)
    if (!is_narrow (&region->polygons[i]))
      wide.polygons[wide.n_polygons++] = cw_polygon_copy (&region->polygons[i]);
  if ((double) cw_region_area2 (&wide) < 2 * CW_TOL_GLUE_SQ_TICKS)
    cw_region_clear (&wide);
  return wide;
}
