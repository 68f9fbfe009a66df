/* cw-flat-thickness.c: how thick the flat card is over every cell.
 *
 * The sum of the papers' calipers and, for every layer that foam carries, the foam's height over the whole layer (a
 * mount is stiff: it stands off as one). Other glue has no thickness. Paper without a caliper adds nothing.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "contact/cw-flat-private.h"

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
      if (what->what == CW_DO_STICK && zone->apply == NULL && g_strcmp0 (what->piece, zone->piece) == 0)
        makes = stuck_by_step = TRUE;
      if (makes && i <= step)
        return TRUE;
    }
  /* On a piece that nothing sticks on: there from the start, if no step says otherwise. */
  return zone->apply == NULL && !stuck_by_step && cw_design_get_ground (design) != NULL
         && g_strcmp0 (cw_design_get_ground (design)->id, zone->piece) == 0;
}

/* The piece a foam zone carries: its own if that was stuck on, else the one it holds. */
static guint
find_carried (const CwDesign *design, const CwGlue *zone)
{
  for (guint i = 0; i < design->steps->len; i++)
    {
      const CwStep *what = g_ptr_array_index (design->steps, i);

      if (what->what == CW_DO_STICK && g_strcmp0 (what->piece, zone->piece) == 0)
        return cw_design_find_piece (design, zone->piece);
    }
  if (zone->holds->len > 0)
    {
      const CwTarget *target = g_ptr_array_index (zone->holds, 0);

      if (target->piece)
        return cw_design_find_piece (design, target->piece);
    }
  return G_MAXUINT;
}

/**
 * cw_flat_state_measure_thickness:
 * @motion: a motion
 * @state: a flat state with its cells; gets thickness
 * @cluster: the plane the cells are of
 *
 * Fills the thickness of every cell, the most and its place.
 */
void
cw_flat_state_measure_thickness (const CwMotion *motion, CwFlatState *state, const CwCluster *cluster)
{
  const CwPanelSet *set = cw_motion_get_set (motion);
  const CwDesign *design = set->design;
  g_autofree double *caliper = g_new0 (double, set->n_pieces + 1);
  g_autofree double *foam = g_new0 (double, set->n_pieces + 1);
  g_autofree double *added = g_new0 (double, cw_panel_set_n_panels (set) + 1); /* of each panel: paper and foam */

  for (guint i = 0; i < set->n_pieces; i++)
    caliper[i] = get_caliper (set, i);
  for (guint i = 0; i < design->glue->len; i++)
    {
      const CwGlue *zone = g_ptr_array_index (design->glue, i);
      guint carried;

      if (zone->kind != CW_GLUE_FOAM || !zone->has_height || !is_live (design, zone, state->step))
        continue;
      carried = find_carried (design, zone);
      if (carried < set->n_pieces)
        foam[carried] = MAX (foam[carried], zone->height.ticks);
    }
  for (guint i = 0; i < cluster->n_panels; i++)
    {
      guint panel = cluster->panels[i], piece, laid;

      cw_panel_set_locate (set, panel, &piece, NULL);
      added[panel] = caliper[piece];
      if (foam[piece] <= 0)
        continue;
      laid = cw_panel_set_find_laid (set, piece);
      if (laid < set->maps[piece].panels->len
          && cw_motion_get_body (motion, state->step, panel)
               == cw_motion_get_body (motion, state->step, set->first_panel[piece] + laid))
        added[panel] += foam[piece];
    }
  for (guint i = 0; i < state->cells->len; i++)
    {
      CwCell *cell = &g_array_index (state->cells, CwCell, i);

      for (guint k = 0; k < cell->n_layers; k++)
        cell->thickness += added[cell->layers[k].panel];
      if (i == 0 || cell->thickness > state->thickness)
        {
          state->thickness = cell->thickness;
          state->thickest = cell->inside;
        }
    }
}
