/* cw-panel-map.c: the panels of one piece, their order and names, and which panel lies under a point.
 *
 * Panels are the paper faces of the cut-up drawing (cw-sheet.c), numbered in reading order of the boxes round them:
 * by left edge, then top edge. A name goes to the panel under its point; the first listed wins.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "panel/cw-panel-map-private.h"

#include <math.h>

static void
panel_clear (CwPanel *panel)
{
  cw_polygon_clear (&panel->outline);
  g_free (panel->name);
}

static void
hinge_clear (CwHinge *hinge)
{
  g_clear_pointer (&hinge->stretches, g_array_unref);
  g_clear_pointer (&hinge->scores, g_ptr_array_unref);
}

static void
take_names (CwPanelMap *map)
{
  for (guint i = 0; i < map->piece->names->len; i++)
    {
      const CwName *name = map->piece->names->pdata[i];
      CwPoint at = cw_point (name->at.x.ticks, name->at.y.ticks);
      guint k = cw_panel_map_find (map, at);
      CwPanel *panel;

      if (k == G_MAXUINT)
        return;
      panel = &g_array_index (map->panels, CwPanel, k);
      if (panel->name != NULL)
        continue;
      panel->name = g_strdup (name->name);
      if (cw_polygon_contains (&panel->outline, at.x, at.y))
        panel->inside = at;
    }
}

/**
 * cw_panel_map_init:
 * @map: an empty map
 * @sheet: the piece's drawing, cut up
 *
 * Fills in panels and their names, not the hinges.
 *
 * Returns: (transfer full): for each face of @sheet its panel, G_MAXUINT for faces that are no paper
 */
guint *
cw_panel_map_init (CwPanelMap *map, const CwSheet *sheet)
{
  guint *panel_of_face = g_new (guint, sheet->faces->len + 1);

  map->piece = sheet->piece;
  map->panels = g_array_new (FALSE, TRUE, sizeof (CwPanel));
  map->hinges = g_array_new (FALSE, TRUE, sizeof (CwHinge));
  g_array_set_clear_func (map->panels, (GDestroyNotify) panel_clear);
  g_array_set_clear_func (map->hinges, (GDestroyNotify) hinge_clear);
  for (guint f = 0; f < sheet->faces->len; f++)
    {
      CwPanel panel = { 0 };
      CwPoint low, high;

      panel_of_face[f] = G_MAXUINT;
      if (g_array_index (sheet->face_kinds, CwSheetFaceKind, f) != CW_FACE_PAPER)
        continue;
      panel.outline = cw_polygon_copy (&g_array_index (sheet->faces, CwPolygon, f));
      cw_polygon_tidy (&panel.outline);
      panel.area2 = cw_polygon_area2 (&panel.outline);
      panel.inside = cw_polygon_inside_point (&panel.outline);
      cw_polygon_bounds (&panel.outline, &low, &high);
      panel.box_min = low;
      panel.box_max = high;
      if (map->panels->len == 0)
        {
          map->box_min = low;
          map->box_max = high;
        }
      map->box_min = cw_point (MIN (map->box_min.x, low.x), MIN (map->box_min.y, low.y));
      map->box_max = cw_point (MAX (map->box_max.x, high.x), MAX (map->box_max.y, high.y));
      map->area2 += panel.area2;
      panel_of_face[f] = map->panels->len;
      g_array_append_val (map->panels, panel);
    }
  take_names (map);
  return panel_of_face;
}

/**
 * cw_panel_map_clear:
 * @map: a map; left empty
 */
void
cw_panel_map_clear (CwPanelMap *map)
{
  g_clear_pointer (&map->panels, g_array_unref);
  g_clear_pointer (&map->hinges, g_array_unref);
}

/**
 * cw_panel_map_find:
 * @map: a map
 * @point: ticks, in the piece's flat coordinates
 *
 * Returns: the panel under @point; if it is on an edge, in a window or off the sheet, the nearest panel (the first of
 *   those equally near); G_MAXUINT when the piece has no panel
 */
guint
cw_panel_map_find (const CwPanelMap *map, CwPoint point)
{
  guint best = G_MAXUINT;
  double best_distance = G_MAXDOUBLE;

  g_return_val_if_fail (map != NULL && map->panels != NULL, G_MAXUINT);

  for (guint i = 0; i < map->panels->len; i++)
    {
      const CwPanel *panel = &g_array_index (map->panels, CwPanel, i);
      double dx = MAX (MAX ((double) panel->box_min.x - point.x, (double) point.x - panel->box_max.x), 0);
      double dy = MAX (MAX ((double) panel->box_min.y - point.y, (double) point.y - panel->box_max.y), 0);
      double distance;

      if (hypot (dx, dy) >= best_distance)
        continue;
      distance = cw_polygon_distance (&panel->outline, point.x, point.y);
      if (distance < best_distance)
        {
          best = i;
          best_distance = distance;
        }
    }
  return best;
}

/**
 * cw_panel_map_find_hold:
 * @map: a map
 *
 * Returns: the panel under the piece's `hold` point, else the one nearest to its origin; G_MAXUINT when it has none
 */
guint
cw_panel_map_find_hold (const CwPanelMap *map)
{
  g_return_val_if_fail (map != NULL, G_MAXUINT);

  if (map->piece->has_hold)
    return cw_panel_map_find (map, cw_point (map->piece->hold.x.ticks, map->piece->hold.y.ticks));
  return cw_panel_map_find (map, cw_point (0, 0));
}
