/* cw-panel-set.c: the panels of all pieces of a design, numbered through, and the faults of its drawing.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "panel/cw-panel-map-private.h"

#include "panel/cw-drawing-fault.h"
#include "panel/cw-path-flatten.h"

/**
 * cw_panel_set_new:
 * @design: a design
 *
 * Returns: (transfer full): panels, hinges and drawing faults of every piece; holds a reference to @design
 */
CwPanelSet *
cw_panel_set_new (CwDesign *design)
{
  CwPanelSet *set;

  g_return_val_if_fail (design != NULL, NULL);

  set = g_atomic_rc_box_new0 (CwPanelSet);
  set->design = cw_design_ref (design);
  set->n_pieces = design->pieces->len;
  set->maps = g_new0 (CwPanelMap, set->n_pieces + 1);
  set->first_panel = g_new0 (guint, set->n_pieces + 1);
  set->first_hinge = g_new0 (guint, set->n_pieces + 1);
  set->findings = g_ptr_array_new_with_free_func ((GDestroyNotify) cw_finding_free);
  set->step_names = g_new0 (char *, design->steps->len + 1);
  for (guint i = 0; i < design->steps->len; i++)
    {
      const CwStep *step = design->steps->pdata[i];

      set->step_names[i] = step->title ? g_strdup_printf ("%c%s", CW_FINDING_NAME, step->title)
                                       : g_strdup_printf ("%c%s", CW_FINDING_STEP, step->id);
    }
  for (guint i = 0; i < set->n_pieces; i++)
    {
      CwPanelMap *map = &set->maps[i];
      g_autoptr (CwSheet) sheet = cw_sheet_new (design->pieces->pdata[i]);
      g_autofree guint *panel_of_face = cw_panel_map_init (map, sheet);

      g_autofree guint *hinge_of_edge = cw_panel_map_find_hinges (map, sheet, panel_of_face, set->findings);
      CwDrawing drawing = { design, sheet, map, panel_of_face, hinge_of_edge, set->findings };

      cw_drawing_check_marks (&drawing);
      cw_drawing_check_loose (&drawing);
      cw_drawing_check_score_ends (&drawing);
      cw_drawing_check_points (&drawing);
      cw_drawing_check_strips (&drawing);
      cw_drawing_check_snap (&drawing);
      cw_drawing_check_grain (&drawing);
      set->first_panel[i + 1] = set->first_panel[i] + map->panels->len;
      set->first_hinge[i + 1] = set->first_hinge[i] + map->hinges->len;
    }
  return set;
}

/**
 * cw_panel_set_ref:
 * @set: a set
 *
 * Returns: (transfer full): @set
 */
CwPanelSet *
cw_panel_set_ref (CwPanelSet *set)
{
  g_return_val_if_fail (set != NULL, NULL);

  return g_atomic_rc_box_acquire (set);
}

static void
set_clear (void *data)
{
  CwPanelSet *set = data;

  for (guint i = 0; i < set->n_pieces; i++)
    cw_panel_map_clear (&set->maps[i]);
  g_free (set->maps);
  g_free (set->first_panel);
  g_free (set->first_hinge);
  g_ptr_array_unref (set->findings);
  g_strfreev (set->step_names);
  cw_design_unref (set->design);
}

/**
 * cw_panel_set_unref:
 * @set: (transfer full): a set
 */
void
cw_panel_set_unref (CwPanelSet *set)
{
  g_return_if_fail (set != NULL);

  g_atomic_rc_box_release_full (set, set_clear);
}

/**
 * cw_panel_set_get_step_name:
 * @set: a set
 * @step: index of a step of its design
 *
 * Returns: (transfer none): what findings call the step: the maker's title, else its id after %CW_FINDING_STEP, which
 *   is told as the window calls the step
 */
const char *
cw_panel_set_get_step_name (const CwPanelSet *set, guint step)
{
  g_return_val_if_fail (set != NULL && step < set->design->steps->len, "");

  return set->step_names[step];
}

/**
 * cw_panel_set_n_panels:
 * @set: a set
 *
 * Returns: how many panels all pieces have together
 */
guint
cw_panel_set_n_panels (const CwPanelSet *set)
{
  g_return_val_if_fail (set != NULL, 0);

  return set->first_panel[set->n_pieces];
}

/**
 * cw_panel_set_n_hinges:
 * @set: a set
 *
 * Returns: how many hinges all pieces have together
 */
guint
cw_panel_set_n_hinges (const CwPanelSet *set)
{
  g_return_val_if_fail (set != NULL, 0);

  return set->first_hinge[set->n_pieces];
}

/* The piece whose numbers hold @index; first has n_pieces + 1 rising entries. */
static guint
find_piece (const guint *first, guint n_pieces, guint index)
{
  guint low = 0, high = n_pieces;

  while (high - low > 1)
    {
      guint middle = low + (high - low) / 2;

      if (first[middle] <= index)
        low = middle;
      else
        high = middle;
    }
  return low;
}

/**
 * cw_panel_set_locate:
 * @set: a set
 * @index: a panel's number through all pieces
 * @piece: (out) (optional): its piece's place in the design
 * @panel: (out) (optional): its number on that piece
 */
void
cw_panel_set_locate (const CwPanelSet *set, guint index, guint *piece, guint *panel)
{
  guint i;

  g_return_if_fail (set != NULL && index < cw_panel_set_n_panels (set));

  i = find_piece (set->first_panel, set->n_pieces, index);
  if (piece != NULL)
    *piece = i;
  if (panel != NULL)
    *panel = index - set->first_panel[i];
}

/**
 * cw_panel_set_get_panel:
 * @set: a set
 * @index: a panel's number through all pieces
 *
 * Returns: (transfer none): the panel
 */
const CwPanel *
cw_panel_set_get_panel (const CwPanelSet *set, guint index)
{
  guint piece, panel;

  g_return_val_if_fail (set != NULL && index < cw_panel_set_n_panels (set), NULL);

  cw_panel_set_locate (set, index, &piece, &panel);
  return &g_array_index (set->maps[piece].panels, CwPanel, panel);
}

/**
 * cw_panel_set_get_hinge:
 * @set: a set
 * @index: a hinge's number through all pieces
 * @piece: (out) (optional): its piece's place in the design
 *
 * Returns: (transfer none): the hinge; its `left` and `right` count from the piece's own panel 0
 */
const CwHinge *
cw_panel_set_get_hinge (const CwPanelSet *set, guint index, guint *piece)
{
  guint i;

  g_return_val_if_fail (set != NULL && index < cw_panel_set_n_hinges (set), NULL);

  i = find_piece (set->first_hinge, set->n_pieces, index);
  if (piece != NULL)
    *piece = i;
  return &g_array_index (set->maps[i].hinges, CwHinge, index - set->first_hinge[i]);
}

/* The step at whose end a zone becomes live: the one it names, else the `glue` step that lists it, else the `stick`
 * step of its piece; G_MAXUINT when there is none. */
static guint
step_of_zone (const CwDesign *design, const CwGlue *zone)
{
  guint stick = G_MAXUINT;

  if (zone->apply != NULL)
    return cw_design_find_step (design, zone->apply);
  for (guint s = 0; s < design->steps->len; s++)
    {
      const CwStep *step = design->steps->pdata[s];

      for (guint i = 0; step->what == CW_DO_GLUE && i < step->zones->len; i++)
        if (g_str_equal (step->zones->pdata[i], zone->id))
          return s;
      if (stick == G_MAXUINT && step->what == CW_DO_STICK && g_strcmp0 (step->piece, zone->piece) == 0)
        stick = s;
    }
  return stick;
}

/* The panel that carries most of a zone. */
static guint
panel_of_zone (const CwPanelMap *map, const CwGlue *zone)
{
  g_autoptr (GArray) points = cw_path_flatten (&zone->area, TRUE);
  CwPolygon polygon = cw_polygon_from_points (points);
  CwRegion region = cw_region_from_polygon (&polygon);
  guint best = G_MAXUINT;
  gint64 best_area2 = 0;

  for (guint i = 0; i < map->panels->len; i++)
    {
      CwRegion panel = cw_region_from_polygon (&g_array_index (map->panels, CwPanel, i).outline);
      CwRegion common = cw_region_overlay (&panel, &region, CW_OVERLAY_INTERSECTION);
      gint64 area2 = cw_region_area2 (&common);

      if (area2 > best_area2)
        {
          best = i;
          best_area2 = area2;
        }
      cw_region_clear (&common);
      cw_region_clear (&panel);
    }
  cw_region_clear (&region);
  cw_polygon_clear (&polygon);
  return best;
}

/**
 * cw_panel_set_find_laid:
 * @set: a set
 * @piece: a piece's place in the design
 *
 * Returns: the panel of @piece that a `stick` step lays on the host (model, "Steps"): under its `hold` point, else the
 *   one that carries its first live zone (of several live at once the first listed), else the one nearest to its
 *   origin; G_MAXUINT when it has none
 */
guint
cw_panel_set_find_laid (const CwPanelSet *set, guint piece)
{
  const CwPanelMap *map;
  const CwGlue *first = NULL;
  guint first_step = G_MAXUINT, panel = G_MAXUINT;

  g_return_val_if_fail (set != NULL && piece < set->n_pieces, G_MAXUINT);

  map = &set->maps[piece];
  if (map->piece->has_hold)
    return cw_panel_map_find_hold (map);
  for (guint i = 0; i < set->design->glue->len; i++)
    {
      const CwGlue *zone = set->design->glue->pdata[i];
      guint step = g_str_equal (zone->piece, map->piece->id) ? step_of_zone (set->design, zone) : G_MAXUINT;

      if (step < first_step)
        {
          first = zone;
          first_step = step;
        }
    }
  if (first != NULL)
    panel = panel_of_zone (map, first);
  return panel != G_MAXUINT ? panel : cw_panel_map_find_hold (map);
}

/**
 * cw_panel_set_find_host:
 * @set: a set
 * @step: a `stick` step
 *
 * Returns: the panel it lays its piece on, through the design: the one it names, else the one its host is held by;
 *   G_MAXUINT when there is none
 */
guint
cw_panel_set_find_host (const CwPanelSet *set, const CwStep *step)
{
  guint piece, panel = G_MAXUINT;

  g_return_val_if_fail (set != NULL && step != NULL, G_MAXUINT);

  piece = step->has_on && step->on.piece != NULL ? cw_design_find_piece (set->design, step->on.piece) : G_MAXUINT;
  if (piece >= set->n_pieces)
    return G_MAXUINT;
  if (step->on.has_panel)
    panel = cw_panel_map_find (&set->maps[piece], cw_place_get_point (&step->on.panel));
  if (panel == G_MAXUINT)
    panel = cw_panel_map_find_hold (&set->maps[piece]);
  return panel < set->maps[piece].panels->len ? set->first_panel[piece] + panel : G_MAXUINT;
}

/**
 * cw_panel_set_tell:
 * @set: panels
 * @finding: (inout): what is said
 * @index: a panel, through the design
 *
 * Adds the panel and its piece to what the finding is about, each once.
 */
void
cw_panel_set_tell (const CwPanelSet *set, CwFinding *finding, guint index)
{
  guint piece, panel;
  const char *id;

  g_return_if_fail (set != NULL && finding != NULL);

  cw_panel_set_locate (set, index, &piece, &panel);
  id = set->maps[piece].piece->id;
  for (guint i = 0; i < finding->panels->len; i++)
    {
      const CwPanelRef *ref = &g_array_index (finding->panels, CwPanelRef, i);

      if (ref->panel == panel && g_str_equal (ref->piece, id))
        return;
    }
  cw_finding_add_panel (finding, id, panel);
  if (!g_ptr_array_find_with_equal_func (finding->pieces, id, g_str_equal, NULL))
    cw_finding_add_piece (finding, id);
}
