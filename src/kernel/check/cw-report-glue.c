/* cw-report-glue.c: the bonds and glue zones of the report.
 *
 * A face is listed when it carries glue or a step lays it on another piece: with where glue may lie and where never. A
 * zone stands once, under the face and panel that carry most of it, with what of it holds and what strays over all rest
 * states; entries go by piece, face and panel.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "check/cw-report-private.h"

static JsonObject *
new_panel (const CwPanelSet *set, guint index)
{
  JsonObject *entry = json_object_new ();
  guint piece, panel;

  cw_panel_set_locate (set, index, &piece, &panel);
  json_object_set_string_member (entry, "piece", set->maps[piece].piece->id);
  json_object_set_int_member (entry, "panel", panel);
  return entry;
}

/**
 * cw_report_new_bonds:
 *
 * Returns: (transfer full): every bond that glue makes: one zone, one pair of panels, one step
 */
JsonArray *
cw_report_new_bonds (const CwAnalysis *analysis)
{
  const GArray *rows = cw_bonds_get_rows (analysis->bonds), *zones = cw_bonds_get_zones (analysis->bonds);
  JsonArray *bonds = json_array_sized_new (rows->len);

  for (guint i = 0; i < rows->len; i++)
    {
      const CwGlued *row = &g_array_index (rows, CwGlued, i);
      const CwStep *step = g_ptr_array_index (analysis->design->steps, row->step);
      JsonObject *entry = json_object_new ();

      json_object_set_string_member (entry, "step", step->id);
      json_object_set_string_member (entry, "zone", g_array_index (zones, CwZone, row->zone).glue->id);
      json_object_set_object_member (entry, "a", new_panel (analysis->panels, row->panel));
      json_object_set_object_member (entry, "b", new_panel (analysis->panels, row->other));
      json_object_set_double_member (entry, "area_sq_in", cw_report_square_inches ((double) row->area2 / 2));
      json_object_set_boolean_member (entry, "intended", row->intended);
      json_array_add_object_element (bonds, entry);
    }
  return bonds;
}

/* What the zone strays to, each panel once, in the order in which it first does. */
static JsonArray *
new_strays (const CwAnalysis *analysis, guint zone)
{
  const GArray *rows = cw_bonds_get_rows (analysis->bonds);
  JsonArray *strays = json_array_new ();

  for (guint i = 0; i < rows->len; i++)
    {
      const CwGlued *row = &g_array_index (rows, CwGlued, i);
      gboolean first = TRUE;

      if (row->zone != zone || row->intended)
        continue;
      for (guint k = 0; k < i && first; k++)
        {
          const CwGlued *former = &g_array_index (rows, CwGlued, k);

          first = former->zone != zone || former->intended || former->other != row->other;
        }
      if (first)
        json_array_add_object_element (strays, new_panel (analysis->panels, row->other));
    }
  return strays;
}

static JsonObject *
new_zone (const CwAnalysis *analysis, guint index)
{
  const CwZone *zone = &g_array_index (cw_bonds_get_zones (analysis->bonds), CwZone, index);
  JsonObject *entry = json_object_new ();
  double holds = (double) cw_bonds_get_area2 (analysis->bonds, index, TRUE) / 2;
  double strays = (double) cw_bonds_get_area2 (analysis->bonds, index, FALSE) / 2;

  json_object_set_string_member (entry, "id", zone->glue->id);
  json_object_set_double_member (entry, "area_sq_in", cw_report_square_inches ((double) zone->area2 / 2));
  json_object_set_double_member (entry, "holds_sq_in", cw_report_square_inches (holds));
  json_object_set_double_member (entry, "strays_sq_in", cw_report_square_inches (strays));
  json_object_set_array_member (entry, "strays_to", new_strays (analysis, index));
  return entry;
}

/* Whether a step lays this face of the panel on another piece. */
static gboolean
is_laid (const CwAnalysis *analysis, guint index, CwFace face)
{
  const CwPanelSet *set = analysis->panels;
  guint piece, panel;

  cw_panel_set_locate (set, index, &piece, &panel);
  if (cw_panel_set_find_laid (set, piece) != panel)
    return FALSE;
  for (guint i = 0; i < analysis->design->steps->len; i++)
    {
      const CwStep *step = g_ptr_array_index (analysis->design->steps, i);

      if (step->what == CW_DO_STICK && step->facing == face && cw_panel_set_find_host (set, step) != G_MAXUINT
          && g_strcmp0 (step->piece, set->maps[piece].piece->id) == 0)
        return TRUE;
    }
  return FALSE;
}

/* Rings of all parts of a region, outer ones and holes. */
static JsonArray *
new_region (const CwRegion *region)
{
  JsonArray *rings = json_array_new ();

  for (guint i = 0; i < region->n_polygons; i++)
    {
      g_autoptr (JsonArray) part = cw_report_corners (&region->polygons[i], NULL);

      for (guint k = 0; k < json_array_get_length (part); k++)
        json_array_add_array_element (rings, json_array_ref (json_array_get_array_element (part, k)));
    }
  return rings;
}

/**
 * cw_report_new_glue:
 *
 * Returns: (transfer full): every face that carries glue or is laid on another piece, with where glue may lie on it,
 *   where never, and its zones
 */
JsonArray *
cw_report_new_glue (const CwAnalysis *analysis)
{
  const GArray *zones = cw_bonds_get_zones (analysis->bonds);
  JsonArray *glue = json_array_new ();

  for (guint panel = 0; panel < cw_panel_set_n_panels (analysis->panels); panel++)
    for (guint face = CW_FACE_FRONT; face <= CW_FACE_BACK; face++)
      {
        JsonArray *own = json_array_new ();
        JsonObject *entry;
        CwSafeArea area;

        for (guint z = 0; z < zones->len; z++)
          if (g_array_index (zones, CwZone, z).panel == panel && g_array_index (zones, CwZone, z).glue->face == face)
            json_array_add_object_element (own, new_zone (analysis, z));
        if (json_array_get_length (own) == 0 && !is_laid (analysis, panel, face))
          {
            json_array_unref (own);
            continue;
          }
        area = cw_bonds_find_safe_area (analysis->bonds, panel, face);
        entry = new_panel (analysis->panels, panel);
        json_object_set_string_member (entry, "face", cw_face_get_key (face));
        json_object_set_double_member (entry, "safe_area_sq_in",
                                       cw_report_square_inches ((double) cw_region_area2 (&area.safe) / 2));
        json_object_set_array_member (entry, "safe_in", new_region (&area.safe));
        json_object_set_array_member (entry, "never_in", new_region (&area.never));
        json_object_set_array_member (entry, "zones", own);
        json_array_add_object_element (glue, entry);
        cw_safe_area_clear (&area);
      }
  return glue;
}
