/* cw-flat-thickness.c: how thick the flat card is over every cell.
 *
 * The sum of the papers' calipers and, for every layer that foam carries, the foam's height over the whole layer (a
 * mount is stiff: it stands off as one), also over what hangs on the layer by a fold line and is stuck to nothing else.
 * Other glue has no thickness. Paper without a caliper adds nothing.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "contact/cw-flat-private.h"

#include "panel/cw-path-flatten.h"

static double
get_caliper (const CwPanelSet *set, guint piece)
{
  const char *id = set->maps[piece].piece->paper;
  const CwPaper *paper = id ? cw_design_get_paper (set->design, id) : NULL;

  return paper && paper->has_caliper ? MAX (0, paper->caliper.ticks) : 0;
}

/* TRUE if the zone is live at the end of `step`. */
static gboolean
is_live (const CwDesign *design, const CwGlue *zone, guint step)
{
  gboolean stuck_by_step = FALSE;

  for (guint i = 0; i < design->steps->len; i++)
    {
      const CwStep *what = g_ptr_array_index (design->steps, i);
      gboolean makes = zone->apply && g_str_equal (zone->apply, what->id);

      if (what->what == CW_DO_GLUE)
        for (guint k = 0; k < what->zones->len && !makes; k++)
          makes = g_str_equal (g_ptr_array_index (what->zones, k), zone->id);
      if (what->what == CW_DO_STICK && !what->tucked && zone->apply == NULL
          && g_strcmp0 (what->piece, zone->piece) == 0)
        makes = stuck_by_step = TRUE;
      if (makes && i <= step)
        return TRUE;
    }
  /* On a piece that nothing sticks on: there from the start, if no step says otherwise. */
  return zone->apply == NULL && !stuck_by_step && cw_design_get_ground (design) != NULL
         && g_strcmp0 (cw_design_get_ground (design)->id, zone->piece) == 0;
}

/* TRUE if the panel's body holds no other piece: it hangs free, at the height of what it hangs on. */
static gboolean
hangs_free (const CwMotion *motion, guint step, guint panel)
{
  const CwPanelSet *set = cw_motion_get_set (motion);
  guint body = cw_motion_get_body (motion, step, panel), own, other;

  cw_panel_set_locate (set, panel, &own, NULL);
  for (guint i = 0; i < cw_panel_set_n_panels (set); i++)
    {
      cw_panel_set_locate (set, i, &other, NULL);
      if (other != own && cw_motion_get_body (motion, step, i) == body)
        return FALSE;
    }
  return TRUE;
}

/* The panel of the layer that a foam zone carries: the zone's own if its piece was stuck on by that face, else of what
 * it holds. */
static guint
find_carried (const CwPanelSet *set, const CwGlue *zone)
{
  const CwDesign *design = set->design;
  guint piece = G_MAXUINT, panel = G_MAXUINT;

  for (guint i = 0; i < design->steps->len && piece == G_MAXUINT; i++)
    {
      const CwStep *what = g_ptr_array_index (design->steps, i);

      if (what->what == CW_DO_STICK && what->facing == zone->face && g_strcmp0 (what->piece, zone->piece) == 0)
        piece = cw_design_find_piece (design, zone->piece);
    }
  if (piece < set->n_pieces)
    {
      g_autoptr (GArray) points = cw_path_flatten (&zone->area, TRUE);
      CwPolygon area;

      if (points->len < 3)
        return G_MAXUINT;
      area = cw_polygon_from_points (points);
      panel = cw_panel_map_find (&set->maps[piece], cw_polygon_inside_point (&area));
      cw_polygon_clear (&area);
    }
  else if (zone->holds->len > 0)
    {
      const CwTarget *target = g_ptr_array_index (zone->holds, 0);

      piece = target->piece ? cw_design_find_piece (design, target->piece) : G_MAXUINT;
      if (piece < set->n_pieces)
        panel = target->has_panel ? cw_panel_map_find (&set->maps[piece], cw_place_get_point (&target->panel))
                                  : cw_panel_set_find_laid (set, piece);
    }
  return piece < set->n_pieces && panel < set->maps[piece].panels->len ? set->first_panel[piece] + panel : G_MAXUINT;
}

/**
 * cw_thick_new:
 * @motion: a motion
 * @step: index of a step that ends flat
 *
 * Returns: (transfer full): what every panel adds to the card's thickness at the end of @step
 */
CwThick *
cw_thick_new (const CwMotion *motion, guint step)
{
  const CwPanelSet *set = cw_motion_get_set (motion);
  const CwDesign *design = set->design;
  CwThick *thick = g_new0 (CwThick, 1);

  thick->set = set;
  thick->caliper = g_new0 (double, set->n_pieces + 1);
  thick->foam = g_new0 (double, cw_panel_set_n_panels (set) + 1);
  thick->counted = g_new0 (double, set->n_pieces + 1);
  for (guint i = 0; i < set->n_pieces; i++)
    thick->caliper[i] = get_caliper (set, i);
  for (guint i = 0; i < design->glue->len; i++)
    {
      const CwGlue *zone = g_ptr_array_index (design->glue, i);
      guint carried, piece, body;

      if (zone->kind != CW_GLUE_FOAM || !zone->has_height || !is_live (design, zone, step))
        continue;
      carried = find_carried (set, zone);
      if (carried == G_MAXUINT)
        continue;
      cw_panel_set_locate (set, carried, &piece, NULL);
      body = cw_motion_get_body (motion, step, carried);
      for (guint k = set->first_panel[piece]; k < set->first_panel[piece + 1]; k++)
        if (cw_motion_get_body (motion, step, k) == body || hangs_free (motion, step, k))
          thick->foam[k] = MAX (thick->foam[k], (double) zone->height.ticks);
    }
  return thick;
}

/**
 * cw_thick_free:
 * @thick: (transfer full) (nullable): what cw_thick_new() gave
 */
void
cw_thick_free (CwThick *thick)
{
  if (thick == NULL)
    return;
  g_free (thick->caliper);
  g_free (thick->foam);
  g_free (thick->counted);
  g_free (thick);
}

/**
 * cw_thick_add:
 * @thick: what cw_thick_new() gave
 * @panels: (array length=n_panels): panels that lie on one another at one place, through the design
 * @n_panels: how many
 *
 * Foam counts once for all panels of a folded layer: they lie on it together.
 *
 * Returns: their paper and what foam they lie on, ticks
 */
double
cw_thick_add (CwThick *thick, const guint *panels, guint n_panels)
{
  double sum = 0;
  guint piece;

  for (guint i = 0; i < n_panels; i++)
    {
      cw_panel_set_locate (thick->set, panels[i], &piece, NULL);
      sum += thick->caliper[piece];
      if (thick->foam[panels[i]] > thick->counted[piece])
        {
          sum += thick->foam[panels[i]] - thick->counted[piece];
          thick->counted[piece] = thick->foam[panels[i]];
        }
    }
  for (guint i = 0; i < n_panels; i++)
    {
      cw_panel_set_locate (thick->set, panels[i], &piece, NULL);
      thick->counted[piece] = 0;
    }
  return sum;
}

/**
 * cw_flat_state_measure_thickness:
 * @motion: a motion
 * @state: a flat state with its cells; gets thickness
 *
 * Fills the thickness of every cell, the most and its place.
 */
void
cw_flat_state_measure_thickness (const CwMotion *motion, CwFlatState *state)
{
  CwThick *thick = cw_thick_new (motion, state->step);
  g_autoptr (GArray) panels = g_array_new (FALSE, FALSE, sizeof (guint));

  for (guint i = 0; i < state->cells->len; i++)
    {
      CwCell *cell = &g_array_index (state->cells, CwCell, i);

      g_array_set_size (panels, 0);
      for (guint k = 0; k < cell->n_layers; k++)
        g_array_append_val (panels, cell->layers[k].panel);
      cell->thickness = cw_thick_add (thick, (const guint *) (const void *) panels->data, panels->len);
      if (i == 0 || cell->thickness > state->thickness)
        {
          state->thickness = cell->thickness;
          state->thickest = cell->inside;
        }
    }
  cw_thick_free (thick);
}
