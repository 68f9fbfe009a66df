/* cw-make-layer.c: layers laid on a panel: with a rim all round, or of any shape; a piece stuck on; a piece taken away;
 * the creases a slit offers.
 *
 * A layer with a rim is the panel less the rim all round, cut from the host's paper, its drawn side out, stuck on by
 * its other side with tape a little inside its edge. Openings of the panel become windows of the layer, wider by the
 * rim. It keeps its rim and with it the shape of its panel (cw-make-rim.c).
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "make/cw-make-private.h"
#include "make/cw-make-rim.h"

#include "panel/cw-path-flatten.h"

#include <glib/gi18n-lib.h>
#include <string.h>

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

/**
 * cw_make_target:
 * @panel: one of the piece's
 *
 * Returns: (transfer full): that panel, as steps and glue speak of it
 */
CwTarget
cw_make_target (const CwDesign *design, const char *piece_id, const CwPanel *panel)
{
  CwPoint at = cw_make_point_in (&panel->outline, design->head->snap_ticks);

  return (CwTarget){ g_strdup (piece_id), TRUE, cw_place_from_point (at, design->head->unit) };
}

/* Adds a piece of that shape, its glue and the step that sticks it on the panel. */
static CwEdit *
add_shape (const CwDesign *design, const CwPiece *host, const CwPanel *under, CwFace face, const CwRimShape *shape,
           const CwLength *rim, GError **error)
{
  CwMakeWork work = cw_make_work_begin (design);
  CwPiece *layer = cw_piece_new ();

  layer->id = cw_design_dup_free_id (design, "layer");
  layer->name = make_layer_name (design);
  layer->paper = g_strdup (host->paper);
  layer->outline = cw_path_copy (&shape->outline);
  layer->has_rim = rim != NULL;
  if (rim)
    layer->rim = *rim;
  for (guint i = 0; i < shape->windows->len; i++)
    {
      CwMark *window = cw_mark_copy (shape->windows->pdata[i]);

      window->id = cw_make_dup_mark_id (layer, CW_MARK_WINDOW);
      g_ptr_array_add (layer->marks, window);
    }
  g_autofree char *layer_id = g_strdup (layer->id);
  cw_make_work_do (&work, cw_edit_new_insert (work.design, CW_LIST_PIECES, NULL, design->pieces->len, layer));

  CwGlue *glue = cw_glue_new ();
  CwTarget *holds = cw_target_new ();
  *holds = cw_make_target (design, host->id, under);
  glue->id = cw_design_dup_free_id (work.design, "glue");
  glue->piece = g_strdup (layer_id);
  glue->face = CW_FACE_BACK;
  glue->kind = CW_GLUE_TAPE;
  glue->area = cw_path_copy (&shape->glue);
  g_ptr_array_add (glue->holds, holds);
  cw_make_work_do (&work, cw_edit_new_insert (work.design, CW_LIST_GLUE, NULL, design->glue->len, glue));

  CwStep *stick = cw_step_new ();
  g_autofree char *wish = g_strdup_printf ("stick-%s", layer_id);
  stick->id = cw_design_dup_free_id (work.design, wish);
  stick->what = CW_DO_STICK;
  stick->phase = CW_PHASE_MAKING;
  stick->piece = g_strdup (layer_id);
  stick->has_on = TRUE;
  stick->on = cw_make_target (design, host->id, under);
  stick->on_face = face;
  stick->facing = CW_FACE_BACK;
  stick->at = shape->at;
  cw_make_insert_step (&work, layer_id, stick);
  return cw_make_work_finish (&work, error);
}

/**
 * cw_make_add_layer:
 * @host_id: an existing piece
 * @panel: index into the panels of that piece
 * @face: of the host
 * @rim: how much of the panel shows all round; negative: how far the layer stands over
 *
 * Returns: (transfer full): the edit that adds the layer, its glue and its stick step, or NULL with CW_MAKE_ERROR
 */
CwEdit *
cw_make_add_layer (const CwDesign *design, const char *host_id, guint panel, CwFace face, CwLength rim, GError **error)
{
  const CwPiece *host = design ? cw_design_get_piece (design, host_id) : NULL;
  g_return_val_if_fail (host, NULL);

  g_autoptr (CwMakeGraph) graph = cw_make_graph_new (design, host_id);
  g_return_val_if_fail (panel < graph->map->panels->len, NULL);
  const CwPanel *under = &g_array_index (graph->map->panels, CwPanel, panel);
  g_auto (CwRimShape) shape = { 0 };

  if (!cw_rim_shape_of_panel (&shape, under, face, rim.ticks, design->head->unit))
    {
      cw_make_fail (error, _ ("this rim leaves nothing of the layer; make it smaller"));
      return NULL;
    }
  return add_shape (design, host, under, face, &shape, &rim, error);
}

/**
 * cw_make_lay_shape:
 * @host_id: an existing piece
 * @face: of the host
 * @drawn: a closed shape on the host, in its front coordinates
 *
 * Lays a new piece of that shape on the panel under its middle.
 *
 * Returns: (transfer full): the edit, or NULL with CW_MAKE_ERROR when there is no paper under it
 */
CwEdit *
cw_make_lay_shape (const CwDesign *design, const char *host_id, CwFace face, const CwMark *drawn, GError **error)
{
  const CwPiece *host = design ? cw_design_get_piece (design, host_id) : NULL;
  g_return_val_if_fail (host && drawn, NULL);

  g_autoptr (CwMakeGraph) graph = cw_make_graph_new (design, host_id);
  g_auto (CwRimShape) shape = { 0 };
  CwPoint middle;

  if (!cw_rim_shape_of_mark (&shape, drawn, face, design->head->unit, &middle))
    {
      cw_make_fail (error, _ ("A layer needs some width and some height."));
      return NULL;
    }
  guint panel = cw_panel_map_find (graph->map, middle);
  const CwPanel *under = panel == G_MAXUINT ? NULL : &g_array_index (graph->map->panels, CwPanel, panel);
  if (!under || !cw_polygon_contains (&under->outline, middle.x, middle.y))
    {
      cw_make_fail (error, _ ("There is no paper under the middle of this layer to stick it to."));
      return NULL;
    }
  return add_shape (design, host, under, face, &shape, NULL, error);
}

/**
 * cw_make_stick_piece:
 * @piece_id: a piece that is not on the card yet
 * @host_id: the piece it goes on
 * @panel: index into the panels of the host
 * @face: of the host
 *
 * Sticks a piece on the middle of a panel by its other side, all over.
 *
 * Returns: (transfer full): the edit, or NULL with CW_MAKE_ERROR when it is on the card already
 */
CwEdit *
cw_make_stick_piece (const CwDesign *design, const char *piece_id, const char *host_id, guint panel, CwFace face,
                     GError **error)
{
  const CwPiece *piece = design ? cw_design_get_piece (design, piece_id) : NULL;
  g_return_val_if_fail (piece && cw_design_get_piece (design, host_id), NULL);

  g_autoptr (CwMakeGraph) graph = cw_make_graph_new (design, host_id);
  g_return_val_if_fail (panel < graph->map->panels->len, NULL);
  const CwPanel *under = &g_array_index (graph->map->panels, CwPanel, panel);

  if (!cw_make_is_loose (design, piece_id) || g_strcmp0 (piece_id, host_id) == 0)
    {
      cw_make_fail (error, _ ("“%s” is on the card already."), piece->name ? piece->name : piece->id);
      return NULL;
    }
  CwMakeWork work = cw_make_work_begin (design);
  CwMakeBox box = cw_make_box_of_piece (piece);
  CwStep *stick = cw_step_new ();
  g_autofree char *wish = g_strdup_printf ("stick-%s", piece_id);
  gint32 mid_x = (box.low.x + box.high.x) / 2, mid_y = (box.low.y + box.high.y) / 2;
  gint32 snap = design->head->snap_ticks;
  CwPoint at = { (under->box_min.x + under->box_max.x) / 2, (under->box_min.y + under->box_max.y) / 2 };

  if (!cw_polygon_contains (&under->outline, at.x, at.y))
    at = under->inside;
  at.x = cw_ticks_snap (face == CW_FACE_FRONT ? at.x - mid_x : at.x + mid_x, snap);
  at.y = cw_ticks_snap (at.y - mid_y, snap);
  stick->id = cw_design_dup_free_id (work.design, wish);
  stick->what = CW_DO_STICK;
  stick->phase = CW_PHASE_MAKING;
  stick->piece = g_strdup (piece_id);
  stick->has_on = TRUE;
  stick->on = cw_make_target (design, host_id, under);
  stick->on_face = face;
  stick->facing = CW_FACE_BACK;
  stick->at = cw_place_from_point (at, design->head->unit);

  gboolean glued = FALSE;
  for (guint i = 0; i < design->glue->len; i++)
    glued = glued || g_strcmp0 (((const CwGlue *) design->glue->pdata[i])->piece, piece_id) == 0;
  if (!glued)
    {
      CwGlue *glue = cw_glue_new ();
      CwTarget *holds = cw_target_new ();

      *holds = cw_make_target (design, host_id, under);
      glue->id = cw_design_dup_free_id (work.design, "glue");
      glue->piece = g_strdup (piece_id);
      glue->face = CW_FACE_BACK;
      glue->kind = CW_GLUE_TAPE;
      glue->area = cw_rim_glue_of_path (&piece->outline, design->head->unit);
      g_ptr_array_add (glue->holds, holds);
      cw_make_work_do (&work, cw_edit_new_insert (work.design, CW_LIST_GLUE, NULL, design->glue->len, glue));
    }
  cw_make_insert_step (&work, piece_id, stick);
  return cw_make_work_finish (&work, error);
}

/**
 * cw_make_is_loose:
 *
 * Returns: whether the piece lies beside the card: neither its base nor stuck on by any step
 */
gboolean
cw_make_is_loose (const CwDesign *design, const char *piece_id)
{
  const CwPiece *ground = cw_design_get_ground (design);

  if (ground && g_strcmp0 (ground->id, piece_id) == 0)
    return FALSE;
  for (guint i = 0; i < design->steps->len; i++)
    {
      const CwStep *step = design->steps->pdata[i];
      if (step->what == CW_DO_STICK && g_strcmp0 (step->piece, piece_id) == 0)
        return FALSE;
    }
  return TRUE;
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
      cw_make_fail (error, _ ("the card needs its base; take out its marks or the other pieces instead"));
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

/* The crease between the ends of one slit, if it cuts off exactly one new panel. */
static CwMakeOffer *
offer_flip (const CwDesign *design, const char *piece_id, const CwMark *cut, const CwMakeGraph *before)
{
  guint n = cut->line.n_vertices;

  if (cut->kind != CW_MARK_CUT || cut->shape != CW_SHAPE_LINE || n < 3)
    return NULL;
  CwPlace a = cut->line.vertices[0].at, b = cut->line.vertices[n - 1].at;
  if (cw_make_near (cw_place_get_point (&a), cw_place_get_point (&b)))
    return NULL;
  GPtrArray *marks = g_ptr_array_new_with_free_func ((GDestroyNotify) cw_mark_unref);
  g_autoptr (CwMark) crease = cw_mark_new ();
  crease->kind = CW_MARK_SCORE;
  cw_path_append (&crease->line, a, FALSE);
  cw_path_append (&crease->line, b, FALSE);
  g_ptr_array_add (marks, cw_mark_ref (crease));
  g_autoptr (CwEdit) edit = cw_make_add_marks (design, piece_id, marks, TRUE, NULL);
  if (!edit)
    return NULL;
  g_autoptr (CwDesign) after_design = cw_edit_apply (edit, design);
  g_autoptr (CwMakeGraph) after = cw_make_graph_new (after_design, piece_id);
  if (after->map->panels->len != before->map->panels->len + 1)
    return NULL;
  CwMakeOffer *offer = g_new0 (CwMakeOffer, 1);
  offer->cut = g_strdup (cut->id);
  offer->mark = g_steal_pointer (&crease);
  offer->edit = g_steal_pointer (&edit);
  return offer;
}

/**
 * cw_make_offer_flip:
 * @piece_id: an existing piece
 * @cut_id: one of its marks
 *
 * Returns: (transfer full) (nullable): the offer, if this is a slit with a corner whose two ends can carry a crease so
 *   that the corner between flips: the crease must cut off exactly one new panel
 */
CwMakeOffer *
cw_make_offer_flip (const CwDesign *design, const char *piece_id, const char *cut_id)
{
  const CwPiece *piece = design ? cw_design_get_piece (design, piece_id) : NULL;
  const CwMark *cut = piece ? cw_piece_get_mark (piece, cut_id) : NULL;
  g_return_val_if_fail (cut, NULL);

  if (cut->kind != CW_MARK_CUT || cut->line.n_vertices < 3)
    return NULL;
  g_autoptr (CwMakeGraph) before = cw_make_graph_new (design, piece_id);
  return offer_flip (design, piece_id, cut, before);
}

/**
 * cw_make_offer_flips:
 * @piece_id: an existing piece
 *
 * Returns: (transfer full) (element-type CwMakeOffer): the offers of all slits of the piece, in their order
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
      CwMakeOffer *offer = offer_flip (design, piece_id, piece->marks->pdata[i], before);

      if (offer)
        g_ptr_array_add (offers, offer);
    }
  return offers;
}
