/* cw-glue-map.c: where glue may lie on every face of a card, worked out once.
 *
 * Two faces a panel, each asked as the report asks it (cw-bond-safe.c). It costs an overlay for every face and rest
 * state, so whoever shows it makes it away from the window's own thread and keeps it.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "glue/cw-glue-map.h"

struct CwGlueMap
{
  gatomicrefcount n_refs;
  guint n_panels;
  CwSafeArea *areas; /* front and back of each panel in turn */
};

/**
 * cw_glue_map_new:
 * @bonds: what glue does to a design
 * @cancellable: (nullable): asked between faces
 *
 * Returns: (transfer full) (nullable): the safe areas of all faces; %NULL when cancelled
 */
CwGlueMap *
cw_glue_map_new (const CwBonds *bonds, GCancellable *cancellable)
{
  CwGlueMap *map;

  g_return_val_if_fail (bonds != NULL, NULL);

  map = g_new0 (CwGlueMap, 1);
  g_atomic_ref_count_init (&map->n_refs);
  map->n_panels = cw_panel_set_n_panels (cw_motion_get_set (cw_bonds_get_motion (bonds)));
  map->areas = g_new0 (CwSafeArea, 2 * map->n_panels + 1);
  for (guint i = 0; i < 2 * map->n_panels; i++)
    {
      if (g_cancellable_is_cancelled (cancellable))
        {
          cw_glue_map_unref (map);
          return NULL;
        }
      map->areas[i] = cw_bonds_find_safe_area (bonds, i / 2, i % 2 == 0 ? CW_FACE_FRONT : CW_FACE_BACK);
    }
  return map;
}

/**
 * cw_glue_map_ref:
 * @map: a map
 *
 * Returns: (transfer full): @map
 */
CwGlueMap *
cw_glue_map_ref (CwGlueMap *map)
{
  g_return_val_if_fail (map != NULL, NULL);
  g_atomic_ref_count_inc (&map->n_refs);
  return map;
}

/**
 * cw_glue_map_unref:
 * @map: (transfer full): a map
 */
void
cw_glue_map_unref (CwGlueMap *map)
{
  g_return_if_fail (map != NULL);

  if (!g_atomic_ref_count_dec (&map->n_refs))
    return;
  for (guint i = 0; i < 2 * map->n_panels; i++)
    cw_safe_area_clear (&map->areas[i]);
  g_free (map->areas);
  g_free (map);
}

/**
 * cw_glue_map_get:
 * @map: a map
 * @panel: a panel, through the design
 * @face: a face of it
 *
 * Returns: (transfer none): where glue may lie on it
 */
const CwSafeArea *
cw_glue_map_get (const CwGlueMap *map, guint panel, CwFace face)
{
  g_return_val_if_fail (map != NULL && panel < map->n_panels, NULL);
  return &map->areas[2 * panel + (face == CW_FACE_BACK)];
}
