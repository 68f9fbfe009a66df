/* cw-make-glue.c: glue zones put on a face, or given another shape.
 *
 * One wish may need several zones (cw-glue-shape.c); they share kind, step, height and what they hold. A new zone holds
 * what the other zones of its face hold, else what the step that sticks this face down names; else it holds nothing
 * yet, and the maker says what. A zone reshaped keeps its id; further outlines become further zones right after it, in
 * the file and in every step that lists it. Glue laid instead of what is there keeps the first zone of the face, so
 * that what it holds and when it is put on stay as they are. Refuses what there is no room for, and more zones than
 * anyone would glue.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "make/cw-make-glue.h"

#include "make/cw-make-private.h"
#include "panel/cw-path-flatten.h"

#include <glib/gi18n-lib.h>

/* Pads of foam are sold about so high; common practice, no source. */
#define FOAM_HEIGHT (CW_TICKS_PER_INCH / 16)

static gboolean
fail (GError **error, const char *words)
{
  g_set_error_literal (error, CW_MAKE_ERROR, CW_MAKE_ERROR_IMPOSSIBLE, words);
  return FALSE;
}

static gboolean
check_outlines (const GPtrArray *outlines, GError **error)
{
  if (outlines->len == 0)
    return fail (error, _ ("there is no room for glue of this shape here; try a smaller size"));
  if (outlines->len > CW_GLUE_SHAPE_MOST)
    return fail (error, _ ("that makes more spots of glue than anyone would put on; try them further apart"));
  return TRUE;
}

static void
copy_holds (GPtrArray *to, const GPtrArray *from)
{
  for (guint i = 0; i < from->len; i++)
    g_ptr_array_add (to, cw_target_copy (g_ptr_array_index (from, i)));
}

/* A zone of this face, all but its id and area. */
static CwGlue *
new_zone (const CwDesign *design, const char *piece_id, CwFace face, CwGlueKind kind)
{
  CwGlue *zone = cw_glue_new ();

  zone->piece = g_strdup (piece_id);
  zone->face = face;
  zone->kind = kind;
  if (kind == CW_GLUE_FOAM)
    {
      zone->has_height = TRUE;
      zone->height = cw_length_from_ticks (FOAM_HEIGHT, design->head->unit);
    }
  for (guint i = 0; i < design->glue->len; i++)
    {
      const CwGlue *other = g_ptr_array_index (design->glue, i);

      if (g_strcmp0 (other->piece, piece_id) != 0 || other->face != face || other->holds->len == 0)
        continue;
      copy_holds (zone->holds, other->holds);
      zone->holds_listed = other->holds_listed;
      zone->apply = g_strdup (other->apply);
      return zone;
    }
  for (guint i = 0; i < design->steps->len; i++)
    {
      const CwStep *step = g_ptr_array_index (design->steps, i);

      if (step->what == CW_DO_STICK && step->has_on && g_strcmp0 (step->piece, piece_id) == 0 && step->facing == face)
        {
          CwTarget *target = cw_target_copy (&step->on);

          target->spelled_out = TRUE;
          g_ptr_array_add (zone->holds, target);
          break;
        }
    }
  return zone;
}

/* Lists the new zones in every `glue` step that lists the old one. */
static void
list_in_steps (CwMakeWork *work, const char *zone_id, const GPtrArray *new_ids)
{
  for (guint i = 0; i < work->design->steps->len; i++)
    {
      CwStep *step = g_ptr_array_index (work->design->steps, i);
      guint at;

      if (!g_ptr_array_find_with_equal_func (step->zones, zone_id, g_str_equal, &at))
        continue;
      step = cw_step_copy (step);
      for (guint k = 0; k < new_ids->len; k++)
        g_ptr_array_insert (step->zones, (gint) (at + 1 + k), g_strdup (g_ptr_array_index (new_ids, k)));
      cw_make_work_do (work, cw_edit_new_replace (work->design, CW_LIST_STEPS, NULL, i, step));
    }
}

/* Adds a zone like `like` for every outline from `first` on, the first of them at `index` of the list. */
static void
add_zones (CwMakeWork *work, const CwGlue *like, const GPtrArray *outlines, guint first, guint index,
           GPtrArray *new_ids)
{
  for (guint i = first; i < outlines->len; i++)
    {
      CwGlue *zone = cw_glue_copy (like);

      g_free (zone->id);
      zone->id = cw_design_dup_free_id (work->design, "glue");
      cw_path_clear (&zone->area);
      zone->area = cw_path_copy (g_ptr_array_index (outlines, i));
      g_ptr_array_add (new_ids, g_strdup (zone->id));
      cw_make_work_do (work, cw_edit_new_insert (work->design, CW_LIST_GLUE, NULL, index + i - first, zone));
    }
}

static CwEdit *
end (CwMakeWork *work, GError **error)
{
  g_autoptr (GError) why = NULL;
  gboolean sound = cw_design_validate (work->design, &why);
  g_autoptr (CwEdit) edit = cw_make_work_end (work);

  if (!sound)
    {
      fail (error, why->message);
      return NULL;
    }
  return g_steal_pointer (&edit);
}

static CwEdit *
add (const CwDesign *design, const char *piece_id, CwFace face, CwGlueKind kind, const GPtrArray *outlines,
     GError **error)
{
  g_autoptr (CwGlue) like = NULL;
  g_autoptr (GPtrArray) new_ids = g_ptr_array_new_with_free_func (g_free);
  CwMakeWork work;

  if (!check_outlines (outlines, error))
    return NULL;
  like = new_zone (design, piece_id, face, kind);
  work = cw_make_work_begin (design);
  add_zones (&work, like, outlines, 0, design->glue->len, new_ids);
  return end (&work, error);
}

static void
set_kind (const CwDesign *design, CwGlue *zone, CwGlueKind kind)
{
  if (zone->kind == kind)
    return;
  zone->kind = kind;
  zone->has_height = kind == CW_GLUE_FOAM;
  if (zone->has_height)
    zone->height = cw_length_from_ticks (FOAM_HEIGHT, design->head->unit);
}

static CwEdit *
reshape (const CwDesign *design, guint index, const GPtrArray *outlines, GError **error)
{
  const CwGlue *old = g_ptr_array_index (design->glue, index);
  g_autoptr (GPtrArray) new_ids = g_ptr_array_new_with_free_func (g_free);
  CwGlue *zone;
  CwMakeWork work;

  if (!check_outlines (outlines, error))
    return NULL;
  work = cw_make_work_begin (design);
  zone = cw_glue_copy (old);
  cw_path_clear (&zone->area);
  zone->area = cw_path_copy (g_ptr_array_index (outlines, 0));
  cw_make_work_do (&work, cw_edit_new_replace (design, CW_LIST_GLUE, NULL, index, zone));
  add_zones (&work, old, outlines, 1, index + 1, new_ids);
  list_in_steps (&work, old->id, new_ids);
  return end (&work, error);
}

static guint
find_zone (const CwDesign *design, const char *zone_id)
{
  guint i = 0;

  while (i < design->glue->len && g_strcmp0 (((CwGlue *) g_ptr_array_index (design->glue, i))->id, zone_id) != 0)
    i++;
  return i < design->glue->len ? i : G_MAXUINT;
}

/* The panel that carries the middle of a zone. */
static guint
find_panel (const CwPanelMap *map, const CwGlue *zone)
{
  g_autoptr (GArray) points = cw_path_flatten (&zone->area, TRUE);
  CwPolygon area = cw_polygon_from_points (points);
  guint panel = cw_panel_map_find (map, cw_polygon_inside_point (&area));

  cw_polygon_clear (&area);
  return panel;
}

static GPtrArray *
shape_on (const CwDesign *design, const CwPanelMap *map, guint panel, const CwGluePlan *plan)
{
  return cw_glue_shape_outline (&g_array_index (map->panels, CwPanel, panel).outline, plan, design->head->unit,
                                design->head->snap_ticks);
}

/**
 * cw_make_add_glue:
 * @design: a design
 * @piece_id: an existing piece
 * @panel: index into the panels of that piece
 * @face: the face that gets the glue
 * @kind: what is put on
 * @plan: how it is to lie
 *
 * Returns: (transfer full) (nullable): the edit that adds the zones, or %NULL with %CW_MAKE_ERROR
 */
CwEdit *
cw_make_add_glue (const CwDesign *design, const char *piece_id, guint panel, CwFace face, CwGlueKind kind,
                  const CwGluePlan *plan, GError **error)
{
  g_autoptr (CwMakeGraph) graph = NULL;
  g_autoptr (GPtrArray) outlines = NULL;

  g_return_val_if_fail (design != NULL && plan != NULL && cw_design_get_piece (design, piece_id) != NULL, NULL);
  graph = cw_make_graph_new (design, piece_id);
  g_return_val_if_fail (panel < graph->map->panels->len, NULL);

  outlines = shape_on (design, graph->map, panel, plan);
  return add (design, piece_id, face, kind, outlines, error);
}

/**
 * cw_make_add_glue_on:
 * @design: a design
 * @piece_id: an existing piece
 * @face: the face that gets the glue
 * @kind: what is put on
 * @region: where, in the piece's front coordinates, ticks: all that is safe, say
 *
 * Returns: (transfer full) (nullable): the edit that adds the zones, or %NULL with %CW_MAKE_ERROR
 */
CwEdit *
cw_make_add_glue_on (const CwDesign *design, const char *piece_id, CwFace face, CwGlueKind kind, const CwRegion *region,
                     GError **error)
{
  g_autoptr (GPtrArray) outlines = NULL;

  g_return_val_if_fail (design != NULL && region != NULL && cw_design_get_piece (design, piece_id) != NULL, NULL);

  outlines = cw_glue_shape_from_region (region, design->head->unit, design->head->snap_ticks);
  return add (design, piece_id, face, kind, outlines, error);
}

/**
 * cw_make_reshape_glue:
 * @design: a design
 * @zone_id: an existing zone
 * @plan: how it is to lie from now on, on the panel that carries it
 *
 * Returns: (transfer full) (nullable): the edit, or %NULL with %CW_MAKE_ERROR
 */
CwEdit *
cw_make_reshape_glue (const CwDesign *design, const char *zone_id, const CwGluePlan *plan, GError **error)
{
  g_autoptr (CwMakeGraph) graph = NULL;
  g_autoptr (GPtrArray) outlines = NULL;
  const CwGlue *zone = design ? cw_design_get_glue (design, zone_id) : NULL;
  guint panel;

  g_return_val_if_fail (zone != NULL && plan != NULL, NULL);

  graph = cw_make_graph_new (design, zone->piece);
  panel = find_panel (graph->map, zone);
  if (panel == G_MAXUINT)
    {
      fail (error, _ ("this glue lies on no paper"));
      return NULL;
    }
  outlines = shape_on (design, graph->map, panel, plan);
  return reshape (design, find_zone (design, zone_id), outlines, error);
}

/**
 * cw_make_reshape_glue_to:
 * @design: a design
 * @zone_id: an existing zone
 * @region: where it is to lie from now on, in the piece's front coordinates, ticks: all that is safe, say
 *
 * Returns: (transfer full) (nullable): the edit, or %NULL with %CW_MAKE_ERROR
 */
CwEdit *
cw_make_reshape_glue_to (const CwDesign *design, const char *zone_id, const CwRegion *region, GError **error)
{
  g_autoptr (GPtrArray) outlines = NULL;
  guint index = design ? find_zone (design, zone_id) : G_MAXUINT;

  g_return_val_if_fail (index != G_MAXUINT && region != NULL, NULL);

  outlines = cw_glue_shape_from_region (region, design->head->unit, design->head->snap_ticks);
  return reshape (design, index, outlines, error);
}

/**
 * cw_make_find_glue:
 * @design: a design
 * @map: of one of its pieces
 * @panel: index into the panels of that piece
 * @face: a face of it
 *
 * Returns: (transfer full) (element-type guint): which zones have their middle on that face, places in the design's
 * list
 */
GArray *
cw_make_find_glue (const CwDesign *design, const CwPanelMap *map, guint panel, CwFace face)
{
  GArray *found = g_array_new (FALSE, FALSE, sizeof (guint));

  g_return_val_if_fail (design != NULL && map != NULL, found);

  for (guint i = 0; i < design->glue->len; i++)
    {
      const CwGlue *zone = g_ptr_array_index (design->glue, i);

      if (zone->face == face && g_strcmp0 (zone->piece, map->piece->id) == 0 && find_panel (map, zone) == panel)
        g_array_append_val (found, i);
    }
  return found;
}

/* Takes zones out, the last first so that places stay right. */
static void
erase (CwMakeWork *work, const GArray *zones, guint first)
{
  for (guint i = zones->len; i-- > first;)
    cw_make_work_do (work, cw_edit_new_erase (work->design, CW_LIST_GLUE, NULL, g_array_index (zones, guint, i)));
}

static CwEdit *
lay (const CwDesign *design, const CwPanelMap *map, guint panel, CwFace face, CwGlueKind kind,
     const GPtrArray *outlines, GError **error)
{
  g_autoptr (GArray) zones = cw_make_find_glue (design, map, panel, face);
  g_autoptr (GPtrArray) new_ids = g_ptr_array_new_with_free_func (g_free);
  CwMakeWork work;
  CwGlue *zone;
  guint index;

  if (zones->len == 0)
    return add (design, map->piece->id, face, kind, outlines, error);
  if (!check_outlines (outlines, error))
    return NULL;
  index = g_array_index (zones, guint, 0);
  work = cw_make_work_begin (design);
  erase (&work, zones, 1);
  zone = cw_glue_copy (g_ptr_array_index (design->glue, index));
  set_kind (design, zone, kind);
  cw_path_clear (&zone->area);
  zone->area = cw_path_copy (g_ptr_array_index (outlines, 0));
  cw_make_work_do (&work, cw_edit_new_replace (work.design, CW_LIST_GLUE, NULL, index, zone));
  add_zones (&work, zone, outlines, 1, index + 1, new_ids);
  list_in_steps (&work, ((CwGlue *) g_ptr_array_index (design->glue, index))->id, new_ids);
  return end (&work, error);
}

/**
 * cw_make_lay_glue:
 * @design: a design
 * @piece_id: an existing piece
 * @panel: index into the panels of that piece
 * @face: the face that gets the glue
 * @kind: what is put on
 * @plan: how it is to lie
 *
 * Like cw_make_add_glue(), but instead of the glue that lies on that face of that panel.
 *
 * Returns: (transfer full) (nullable): the edit, or %NULL with %CW_MAKE_ERROR
 */
CwEdit *
cw_make_lay_glue (const CwDesign *design, const char *piece_id, guint panel, CwFace face, CwGlueKind kind,
                  const CwGluePlan *plan, GError **error)
{
  g_autoptr (CwMakeGraph) graph = NULL;
  g_autoptr (GPtrArray) outlines = NULL;

  g_return_val_if_fail (design != NULL && plan != NULL && cw_design_get_piece (design, piece_id) != NULL, NULL);
  graph = cw_make_graph_new (design, piece_id);
  g_return_val_if_fail (panel < graph->map->panels->len, NULL);

  outlines = shape_on (design, graph->map, panel, plan);
  return lay (design, graph->map, panel, face, kind, outlines, error);
}

/**
 * cw_make_lay_glue_on:
 * @design: a design
 * @piece_id: an existing piece
 * @panel: index into the panels of that piece
 * @face: the face that gets the glue
 * @kind: what is put on
 * @region: where, in the piece's front coordinates, ticks: all that is safe, say
 *
 * Like cw_make_add_glue_on(), but instead of the glue that lies on that face of that panel.
 *
 * Returns: (transfer full) (nullable): the edit, or %NULL with %CW_MAKE_ERROR
 */
CwEdit *
cw_make_lay_glue_on (const CwDesign *design, const char *piece_id, guint panel, CwFace face, CwGlueKind kind,
                     const CwRegion *region, GError **error)
{
  g_autoptr (CwMakeGraph) graph = NULL;
  g_autoptr (GPtrArray) outlines = NULL;

  g_return_val_if_fail (design != NULL && region != NULL && cw_design_get_piece (design, piece_id) != NULL, NULL);
  graph = cw_make_graph_new (design, piece_id);
  g_return_val_if_fail (panel < graph->map->panels->len, NULL);

  outlines = cw_glue_shape_from_region (region, design->head->unit, design->head->snap_ticks);
  return lay (design, graph->map, panel, face, kind, outlines, error);
}

/**
 * cw_make_strip_glue:
 * @design: a design
 * @piece_id: an existing piece
 * @panel: index into the panels of that piece
 * @face: a face of it
 *
 * Returns: (transfer full): the edit that takes all glue off that face; an empty one where there is none
 */
CwEdit *
cw_make_strip_glue (const CwDesign *design, const char *piece_id, guint panel, CwFace face)
{
  g_autoptr (CwMakeGraph) graph = NULL;
  g_autoptr (GArray) zones = NULL;
  CwMakeWork work;

  g_return_val_if_fail (design != NULL && cw_design_get_piece (design, piece_id) != NULL, NULL);
  graph = cw_make_graph_new (design, piece_id);
  zones = cw_make_find_glue (design, graph->map, panel, face);
  work = cw_make_work_begin (design);
  erase (&work, zones, 0);
  return cw_make_work_end (&work);
}
