/* cw-make-layer.c: a layer for a panel, a piece taken away, and the creases a slit offers.
 *
 * A layer is the panel less a rim all round, cut from the host's paper, its drawn side out, stuck on by its other side
 * with tape a little inside its edge. Openings of the panel become windows of the layer, wider by the rim.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "make/cw-make-private.h"

#include "geometry/cw-region.h"

#include <glib/gi18n-lib.h>
#include <string.h>

#define GLUE_RIM_TICKS (CW_TICKS_PER_INCH / 8) /* tape stays this far inside the layer's edge */

static gboolean
fail (GError **error, const char *words)
{
  g_set_error_literal (error, CW_MAKE_ERROR, CW_MAKE_ERROR_IMPOSSIBLE, words);
  return FALSE;
}

/* The largest part of the polygon, `by` smaller all round (larger if negative). FALSE if nothing is left. */
static gboolean
shrink (const CwPolygon *polygon, gint32 by, CwPolygon *result)
{
  CwRegion region = cw_region_from_polygon (polygon);
  CwRegion less = cw_region_grow (&region, -by);
  guint best = 0;

  for (guint i = 1; i < less.n_polygons; i++)
    if (cw_polygon_area2 (&less.polygons[i]) > cw_polygon_area2 (&less.polygons[best]))
      best = i;
  gboolean some = less.n_polygons > 0;
  if (some)
    *result = cw_polygon_copy (&less.polygons[best]);
  cw_region_clear (&region);
  cw_region_clear (&less);
  return some;
}

/* Into the layer's own coordinates; on a back the layer is turned over like a page, so left and right change. */
static CwPoint
to_layer (CwPoint p, CwPoint low, CwPoint high, CwFace face)
{
  return cw_point (face == CW_FACE_FRONT ? p.x - low.x : high.x - p.x, p.y - low.y);
}

static void
append_ring (CwPath *path, const CwRing *ring, CwPoint low, CwPoint high, CwFace face, CwUnit unit)
{
  for (guint i = 0; i < ring->n_points; i++)
    {
      guint k = face == CW_FACE_FRONT ? i : ring->n_points - 1 - i; /* turned over, it runs the other way round */
      CwPoint p = to_layer (ring->points[k], low, high, face);

      cw_path_append (path, cw_place_from_point (p, unit), FALSE);
    }
}

/* "Layer 2", the first number not yet taken. */
static char *
make_layer_name (const CwDesign *design)
{
  for (guint n = 1;; n++)
    {
      g_autofree char *name = g_strdup_printf (_ ("Layer %u"), n);
      guint i = 0;

      while (i < design->pieces->len && g_strcmp0 (((CwPiece *) design->pieces->pdata[i])->name, name) != 0)
        i++;
      if (i == design->pieces->len)
        return g_steal_pointer (&name);
    }
}

static CwPiece *
new_layer (const CwDesign *design, const CwPiece *host, const CwPolygon *shape, CwFace face)
{
  CwPiece *layer = cw_piece_new ();
  CwUnit unit = design->head->unit;
  CwPoint low, high;

  cw_polygon_bounds (shape, &low, &high);
  layer->id = cw_design_dup_free_id (design, "layer");
  layer->name = make_layer_name (design);
  layer->paper = g_strdup (host->paper);
  append_ring (&layer->outline, &shape->rings[0], low, high, face, unit);
  for (guint i = 1; i < shape->n_rings; i++)
    {
      CwMark *window = cw_mark_new ();

      window->kind = CW_MARK_WINDOW;
      window->shape = CW_SHAPE_LINE;
      window->id = cw_make_dup_mark_id (layer, CW_MARK_WINDOW);
      append_ring (&window->line, &shape->rings[i], low, high, face, unit);
      g_ptr_array_add (layer->marks, window);
    }
  return layer;
}

static CwTarget
make_target (const CwDesign *design, const char *host_id, const CwPanel *panel)
{
  CwPoint at = cw_make_point_in (&panel->outline, design->head->snap_ticks);

  return (CwTarget){ g_strdup (host_id), TRUE, cw_place_from_point (at, design->head->unit) };
}

/**
 * cw_make_add_layer:
 * @host_id: an existing piece
 * @panel: index into the panels of that piece
 * @face: of the host
 * @rim: how much of the panel shows all round, ticks; negative: how far the layer stands over
 *
 * Returns: (transfer full): the edit that adds the layer, its glue and its stick step, or NULL with CW_MAKE_ERROR
 */
CwEdit *
cw_make_add_layer (const CwDesign *design, const char *host_id, guint panel, CwFace face, gint32 rim, GError **error)
{
  const CwPiece *host = design ? cw_design_get_piece (design, host_id) : NULL;
  g_return_val_if_fail (host, NULL);

  g_autoptr (CwMakeGraph) graph = cw_make_graph_new (design, host_id);
  g_return_val_if_fail (panel < graph->map->panels->len, NULL);
  const CwPanel *under = &g_array_index (graph->map->panels, CwPanel, panel);
  CwPolygon shape = { 0 }, glued = { 0 };
  CwPoint low, high;

  if (!shrink (&under->outline, rim, &shape))
    {
      fail (error, _ ("this rim leaves nothing of the layer; make it smaller"));
      return NULL;
    }
  cw_polygon_bounds (&shape, &low, &high);
  if (!shrink (&shape, GLUE_RIM_TICKS, &glued))
    glued = cw_polygon_copy (&shape);

  CwMakeWork work = cw_make_work_begin (design);
  CwPiece *layer = new_layer (design, host, &shape, face);
  g_autofree char *layer_id = g_strdup (layer->id);
  cw_make_work_do (&work, cw_edit_new_insert (work.design, CW_LIST_PIECES, NULL, design->pieces->len, layer));

  CwGlue *glue = cw_glue_new ();
  CwTarget *holds = cw_target_new ();
  *holds = make_target (design, host_id, under);
  glue->id = cw_design_dup_free_id (work.design, "glue");
  glue->piece = g_strdup (layer_id);
  glue->face = CW_FACE_BACK;
  glue->kind = CW_GLUE_TAPE;
  append_ring (&glue->area, &glued.rings[0], low, high, face, design->head->unit);
  g_ptr_array_add (glue->holds, holds);
  cw_make_work_do (&work, cw_edit_new_insert (work.design, CW_LIST_GLUE, NULL, design->glue->len, glue));

  CwStep *stick = cw_step_new ();
  g_autofree char *wish = g_strdup_printf ("stick-%s", layer_id);
  stick->id = cw_design_dup_free_id (work.design, wish);
  stick->what = CW_DO_STICK;
  stick->phase = CW_PHASE_MAKING;
  stick->piece = g_strdup (layer_id);
  stick->has_on = TRUE;
  stick->on = make_target (design, host_id, under);
  stick->on_face = face;
  stick->facing = CW_FACE_BACK;
  stick->at = cw_place_from_point (cw_point (face == CW_FACE_FRONT ? low.x : high.x, low.y), design->head->unit);
  cw_make_insert_step (&work, layer_id, stick);
  cw_polygon_clear (&shape);
  cw_polygon_clear (&glued);

  g_autoptr (GError) why = NULL;
  gboolean sound = cw_design_validate (work.design, &why);
  g_autoptr (CwEdit) edit = cw_make_work_end (&work);
  if (!sound)
    {
      fail (error, why->message);
      return NULL;
    }
  return g_steal_pointer (&edit);
}

/**
 * cw_make_remove_piece:
 * @piece_id: an existing piece
 *
 * Takes a piece out with its steps, folds, glue and wants.
 *
 * Returns: (transfer full): the edit, or NULL with CW_MAKE_ERROR for the base, or when other pieces are stuck on it
 */
CwEdit *
cw_make_remove_piece (const CwDesign *design, const char *piece_id, GError **error)
{
  const CwPiece *piece = design ? cw_design_get_piece (design, piece_id) : NULL;
  g_return_val_if_fail (piece, NULL);

  if (piece == cw_design_get_ground (design))
    {
      fail (error, _ ("the card needs its base; take out its marks or the other pieces instead"));
      return NULL;
    }
  for (guint i = 0; i < design->steps->len; i++)
    {
      const CwStep *step = design->steps->pdata[i];
      if (step->what != CW_DO_STICK || !step->has_on || g_strcmp0 (step->on.piece, piece_id) != 0)
        continue;
      const CwPiece *on_it = cw_design_get_piece (design, step->piece);
      g_set_error (error, CW_MAKE_ERROR, CW_MAKE_ERROR_IMPOSSIBLE, _ ("“%s” is stuck on it; take that out first"),
                   on_it && on_it->name ? on_it->name : step->piece);
      return NULL;
    }
  CwMakeWork work = cw_make_work_begin (design);
  for (guint i = 0; i < piece->marks->len; i++)
    {
      g_autofree char *address = g_strdup_printf ("%s/%s", piece_id, ((CwMark *) piece->marks->pdata[i])->id);
      for (guint s = work.design->steps->len; s > 0; s--)
        cw_make_drop_fold (&work, s - 1, address);
    }
  cw_make_work_do (&work,
                   cw_edit_new_erase (work.design, CW_LIST_PIECES, NULL, cw_design_find_piece (work.design, piece_id)));
  return cw_make_work_end (&work);
}

/**
 * cw_make_offer_free:
 *
 * Frees an offer.
 */
void
cw_make_offer_free (CwMakeOffer *offer)
{
  g_free (offer->cut);
  g_clear_pointer (&offer->mark, cw_mark_unref);
  g_clear_pointer (&offer->edit, cw_edit_unref);
  g_free (offer);
}

/**
 * cw_make_offer_flips:
 * @piece_id: an existing piece
 *
 * Finds slits with a corner whose two ends can carry a crease, so that the corner between flips: the crease must cut
 * off exactly one new panel.
 *
 * Returns: (transfer full) (element-type CwMakeOffer): the offers, in the order of the slits
 */
GPtrArray *
cw_make_offer_flips (const CwDesign *design, const char *piece_id)
{
  const CwPiece *piece = design ? cw_design_get_piece (design, piece_id) : NULL;
  g_return_val_if_fail (piece, NULL);

  GPtrArray *offers = g_ptr_array_new_with_free_func ((GDestroyNotify) cw_make_offer_free);
  g_autoptr (CwMakeGraph) before = cw_make_graph_new (design, piece_id);
  for (guint i = 0; i < piece->marks->len; i++)
    {
      const CwMark *cut = piece->marks->pdata[i];
      guint n = cut->line.n_vertices;

      if (cut->kind != CW_MARK_CUT || cut->shape != CW_SHAPE_LINE || n < 3)
        continue;
      CwPlace a = cut->line.vertices[0].at, b = cut->line.vertices[n - 1].at;
      if (cw_make_near (cw_place_get_point (&a), cw_place_get_point (&b)))
        continue;
      GPtrArray *marks = g_ptr_array_new_with_free_func ((GDestroyNotify) cw_mark_unref);
      g_autoptr (CwMark) crease = cw_mark_new ();
      crease->kind = CW_MARK_SCORE;
      cw_path_append (&crease->line, a, FALSE);
      cw_path_append (&crease->line, b, FALSE);
      g_ptr_array_add (marks, cw_mark_ref (crease));
      g_autoptr (CwEdit) edit = cw_make_add_marks (design, piece_id, marks, TRUE, NULL);
      if (!edit)
        continue;
      g_autoptr (CwDesign) after_design = cw_edit_apply (edit, design);
      g_autoptr (CwMakeGraph) after = cw_make_graph_new (after_design, piece_id);
      if (after->map->panels->len != before->map->panels->len + 1)
        continue;
      CwMakeOffer *offer = g_new0 (CwMakeOffer, 1);
      offer->cut = g_strdup (cut->id);
      offer->mark = g_steal_pointer (&crease);
      offer->edit = g_steal_pointer (&edit);
      g_ptr_array_add (offers, offer);
    }
  return offers;
}
