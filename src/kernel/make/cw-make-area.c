/* cw-make-area.c: places for pictures and greetings, glue drawn by hand, and the names of panels.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "make/cw-make-area.h"
#include "make/cw-make-glue.h"
#include "make/cw-make-private.h"

#include "fold/cw-assembly.h"
#include "panel/cw-path-flatten.h"

#include <glib/gi18n-lib.h>
#include <math.h>

/* Whether four corners are those of an upright rectangle, in turn. */
static gboolean
is_rectangle (const CwPath *path)
{
  gboolean level = TRUE, upright = TRUE;

  if (path->n_vertices != 4)
    return FALSE;
  for (guint i = 0; i < 4; i++)
    {
      CwPoint a = cw_place_get_point (&path->vertices[i].at);
      CwPoint b = cw_place_get_point (&path->vertices[(i + 1) % 4].at);

      if (path->vertices[i].through || cw_point_equal (a, b))
        return FALSE;
      level = level && (i % 2 == 0 ? a.y == b.y : a.x == b.x);
      upright = upright && (i % 2 == 0 ? a.x == b.x : a.y == b.y);
    }
  return level || upright;
}

/**
 * cw_make_outline_of_glue:
 *
 * Returns: (transfer full): the zone's outline as a mark; an upright rectangle as one
 */
CwMark *
cw_make_outline_of_glue (const CwGlue *glue)
{
  CwMark *mark = cw_mark_new ();

  mark->kind = CW_MARK_WINDOW;
  mark->shape = CW_SHAPE_LINE;
  mark->id = g_strdup (glue->id);
  if (is_rectangle (&glue->area))
    {
      mark->shape = CW_SHAPE_RECT;
      cw_path_append (&mark->line, glue->area.vertices[0].at, FALSE);
      cw_path_append (&mark->line, glue->area.vertices[2].at, FALSE);
    }
  else
    mark->line = cw_path_copy (&glue->area);
  return mark;
}

/**
 * cw_make_outline_of_art:
 *
 * Returns: (transfer full): the area's box as a mark
 */
CwMark *
cw_make_outline_of_art (const CwArt *art)
{
  CwMark *mark = cw_mark_new ();

  mark->kind = CW_MARK_WINDOW;
  mark->shape = CW_SHAPE_RECT;
  mark->id = g_strdup (art->id);
  for (guint i = 0; i < 2; i++)
    cw_path_append (&mark->line, art->box[i], FALSE);
  return mark;
}

/**
 * cw_make_outline_of_layer:
 * @piece_id: a piece that is stuck on another
 *
 * Returns: (transfer full) (nullable): its outline as it lies on the other, in that one's front coordinates, each place
 * rounded to the nearest tick; NULL when no step sticks it on
 */
CwMark *
cw_make_outline_of_layer (const CwDesign *design, const char *piece_id)
{
  const CwPiece *piece = design ? cw_design_get_piece (design, piece_id) : NULL;
  g_return_val_if_fail (piece, NULL);

  for (guint i = 0; i < design->steps->len; i++)
    {
      const CwStep *step = design->steps->pdata[i];

      if (step->what != CW_DO_STICK || !step->has_on || g_strcmp0 (step->piece, piece_id) != 0)
        continue;
      CwRigid place = cw_step_get_placement (step);
      CwMark *mark = cw_mark_new ();

      mark->kind = CW_MARK_WINDOW;
      mark->shape = CW_SHAPE_LINE;
      for (guint k = 0; k < piece->outline.n_vertices; k++)
        {
          CwPoint p = cw_place_get_point (&piece->outline.vertices[k].at);
          CwVec3 at = cw_rigid_apply (&place, cw_vec3 (p.x, p.y, 0));

          cw_path_append (&mark->line,
                          cw_place_from_point (cw_point ((gint32) lround (at.x), (gint32) lround (at.y)),
                                               design->head->unit),
                          piece->outline.vertices[k].through);
        }
      return mark;
    }
  return NULL;
}

/**
 * cw_make_find_panel:
 * @at: a place of the piece
 *
 * Returns: index of the panel under it in the piece; G_MAXUINT where there is no paper
 */
guint
cw_make_find_panel (const CwDesign *design, const char *piece_id, CwPoint at)
{
  g_return_val_if_fail (design && cw_design_get_piece (design, piece_id), G_MAXUINT);

  g_autoptr (CwMakeGraph) graph = cw_make_graph_new (design, piece_id);
  guint panel = cw_panel_map_find (graph->map, at);

  if (panel != G_MAXUINT
      && !cw_polygon_contains (&g_array_index (graph->map->panels, CwPanel, panel).outline, at.x, at.y))
    return G_MAXUINT;
  return panel;
}

/* A drawn area must have a size and lie on the sheet. */
static gboolean
check_area (const CwPiece *piece, const CwMark *drawn, GError **error)
{
  CwMakeBox box = { .some = FALSE };

  cw_make_box_of_mark (drawn, &box);
  if (!box.some || box.low.x == box.high.x || box.low.y == box.high.y)
    return cw_make_fail (error, _ ("It needs some width and some height."));
  if (!cw_make_mark_on_sheet (piece, drawn))
    return cw_make_fail (error, _ ("It would lie off the sheet then."));
  return TRUE;
}

/* The box of a drawn area; places of a rectangle keep the text they were typed with. */
static void
set_box (CwArt *art, const CwMark *drawn, CwUnit unit)
{
  CwMakeBox box = { .some = FALSE };

  if (drawn->shape == CW_SHAPE_RECT && drawn->line.n_vertices == 2)
    {
      art->box[0] = drawn->line.vertices[0].at;
      art->box[1] = drawn->line.vertices[1].at;
      return;
    }
  cw_make_box_of_mark (drawn, &box);
  art->box[0] = cw_place_from_point (box.low, unit);
  art->box[1] = cw_place_from_point (box.high, unit);
}

/**
 * cw_make_add_art:
 * @piece_id: an existing piece
 * @face: which face it lies on
 * @drawn: its outline, in the piece's front coordinates; the box round it is meant
 * @label: (nullable): what it says or shows
 *
 * Returns: (transfer full): the edit, or NULL with CW_MAKE_ERROR when it has no size or lies off the sheet
 */
CwEdit *
cw_make_add_art (const CwDesign *design, const char *piece_id, CwFace face, const CwMark *drawn, const char *label,
                 GError **error)
{
  const CwPiece *piece = design ? cw_design_get_piece (design, piece_id) : NULL;
  g_return_val_if_fail (piece && drawn, NULL);

  if (!check_area (piece, drawn, error))
    return NULL;
  CwArt *art = cw_art_new ();
  art->id = cw_design_dup_free_id (design, "art");
  art->face = face;
  art->label = label && *label ? g_strdup (label) : NULL;
  set_box (art, drawn, design->head->unit);
  return cw_edit_new_insert (design, CW_LIST_ART, piece_id, piece->art->len, art);
}

/**
 * cw_make_redraw_art:
 * @index: in the piece's list
 * @drawn: its new outline
 *
 * Returns: (transfer full): the edit, or NULL with CW_MAKE_ERROR
 */
CwEdit *
cw_make_redraw_art (const CwDesign *design, const char *piece_id, guint index, const CwMark *drawn, GError **error)
{
  const CwPiece *piece = design ? cw_design_get_piece (design, piece_id) : NULL;
  g_return_val_if_fail (piece && index < piece->art->len && drawn, NULL);

  if (!check_area (piece, drawn, error))
    return NULL;
  CwArt *copy = cw_art_copy (piece->art->pdata[index]);
  set_box (copy, drawn, design->head->unit);
  return cw_edit_new_replace (design, CW_LIST_ART, piece_id, index, copy);
}

/**
 * cw_make_change_art:
 * @index: in the piece's list
 * @label: (nullable): what it says or shows
 * @up: degrees clockwise from the piece's own up
 *
 * Returns: (transfer full): the edit
 */
CwEdit *
cw_make_change_art (const CwDesign *design, const char *piece_id, guint index, const char *label, double up)
{
  const CwPiece *piece = design ? cw_design_get_piece (design, piece_id) : NULL;
  g_return_val_if_fail (piece && index < piece->art->len, NULL);

  CwArt *copy = cw_art_copy (piece->art->pdata[index]);
  g_free (copy->label);
  copy->label = label && *label ? g_strdup (label) : NULL;
  copy->up = fmod (up, 360);
  return cw_edit_new_replace (design, CW_LIST_ART, piece_id, index, copy);
}

/**
 * cw_make_draw_glue:
 * @piece_id: an existing piece
 * @face: the face that gets the glue
 * @kind: what is put on
 * @drawn: where, in the piece's front coordinates
 *
 * Returns: (transfer full): the edit, or NULL with CW_MAKE_ERROR when it has no size or lies off the sheet
 */
CwEdit *
cw_make_draw_glue (const CwDesign *design, const char *piece_id, CwFace face, CwGlueKind kind, const CwMark *drawn,
                   GError **error)
{
  const CwPiece *piece = design ? cw_design_get_piece (design, piece_id) : NULL;
  g_return_val_if_fail (piece && drawn, NULL);

  if (!check_area (piece, drawn, error))
    return NULL;
  CwPath path = cw_make_mark_outline (drawn);
  g_autoptr (GArray) points = cw_path_flatten (&path, TRUE);
  CwPolygon polygon = { 0 };
  CwRegion region = { 0 };

  cw_path_clear (&path);
  if (points->len >= 3)
    {
      polygon = cw_polygon_from_points (points);
      cw_polygon_arrange (&polygon);
      region = cw_region_from_polygon (&polygon);
    }
  CwEdit *edit = cw_make_add_glue_on (design, piece_id, face, kind, &region, error);
  cw_polygon_clear (&polygon);
  cw_region_clear (&region);
  return edit;
}

/**
 * cw_make_redraw_glue:
 * @index: in the design's list
 * @drawn: its new outline, in the front coordinates of its piece
 *
 * Returns: (transfer full): the edit, or NULL with CW_MAKE_ERROR
 */
CwEdit *
cw_make_redraw_glue (const CwDesign *design, guint index, const CwMark *drawn, GError **error)
{
  g_return_val_if_fail (design && index < design->glue->len && drawn, NULL);

  const CwGlue *glue = design->glue->pdata[index];
  if (!check_area (cw_design_get_piece (design, glue->piece), drawn, error))
    return NULL;
  CwMakeWork work = cw_make_work_begin (design);
  CwGlue *copy = cw_glue_copy (glue);
  cw_path_clear (&copy->area);
  copy->area = cw_make_mark_outline (drawn);
  cw_make_work_do (&work, cw_edit_new_replace (design, CW_LIST_GLUE, NULL, index, copy));
  return cw_make_work_finish (&work, error);
}

/**
 * cw_make_change_glue:
 * @index: in the design's list
 * @kind: what it is to be
 *
 * Returns: (transfer full): the edit; foam gets the usual height, anything else none
 */
CwEdit *
cw_make_change_glue (const CwDesign *design, guint index, CwGlueKind kind)
{
  g_return_val_if_fail (design && index < design->glue->len, NULL);

  CwGlue *copy = cw_glue_copy (design->glue->pdata[index]);
  gboolean high = kind == CW_GLUE_FOAM;

  copy->kind = kind;
  if (copy->has_height != high)
    copy->height = cw_length_from_ticks (high ? CW_TICKS_PER_INCH / 16 : 0, design->head->unit);
  copy->has_height = high;
  return cw_edit_new_replace (design, CW_LIST_GLUE, NULL, index, copy);
}

/**
 * cw_make_name_panel:
 * @panel: index into the panels of the piece
 * @name: (nullable): its name; NULL or "" takes it away
 *
 * Returns: (transfer full) (nullable): the edit, or NULL when nothing changes
 */
CwEdit *
cw_make_name_panel (const CwDesign *design, const char *piece_id, guint panel, const char *name)
{
  const CwPiece *piece = design ? cw_design_get_piece (design, piece_id) : NULL;
  g_return_val_if_fail (piece, NULL);

  g_autoptr (CwMakeGraph) graph = cw_make_graph_new (design, piece_id);
  g_return_val_if_fail (panel < graph->map->panels->len, NULL);
  guint at = 0;
  gboolean some = name && *name;

  for (; at < piece->names->len; at++)
    if (cw_panel_map_find (graph->map, cw_place_get_point (&((CwName *) piece->names->pdata[at])->at)) == panel)
      break;
  if (at == piece->names->len && !some)
    return NULL;
  if (!some)
    return cw_edit_new_remove (design, CW_LIST_NAMES, piece_id, at);
  CwName *item = at < piece->names->len ? cw_name_copy (piece->names->pdata[at]) : cw_name_new ();
  g_free (item->name);
  item->name = g_strdup (name);
  if (at < piece->names->len)
    return cw_edit_new_replace (design, CW_LIST_NAMES, piece_id, at, item);
  item->at = cw_place_from_point (g_array_index (graph->map->panels, CwPanel, panel).inside, design->head->unit);
  return cw_edit_new_insert (design, CW_LIST_NAMES, piece_id, at, item);
}
