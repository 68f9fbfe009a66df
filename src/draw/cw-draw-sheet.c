/* cw-draw-sheet.c: a piece lying flat: paper, marks, waste, glue, art, panel names with an up-arrow, what stays still.
 *
 * Marks are drawn with true arcs as the design has them, whatever the panels made of them. Ink is chosen for the paper
 * colour; line style alone tells what a mark is. With the other side up a fold toward is a fold away, as the maker who
 * has turned the sheet over sees it.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#include "cw-draw-sheet-private.h"
#include "cw-pen.h"
#include "fold/cw-assembly.h"
#include "make/cw-make-area.h"

#define PAPER_UNSAID 0xf6f2ea
#define HANDLE 4.5

/**
 * cw_mark_get_pen:
 * @mark: a mark
 * @up: the face that is looked at
 *
 * Returns: its pen
 */
CwPen
cw_mark_get_pen (const CwMark *mark, CwFace up)
{
  if (mark->kind != CW_MARK_SCORE)
    return CW_PEN_CUT;
  if (mark->fold == CW_FOLD_NONE)
    return CW_PEN_SCORE_NONE;
  return (mark->fold == CW_FOLD_TOWARD) == (up == CW_FACE_FRONT) ? CW_PEN_SCORE_TOWARD : CW_PEN_SCORE_AWAY;
}

static gboolean
is_selected (const CwSheetPlay *play, CwIdKind kind, guint index)
{
  guint piece = kind == CW_ID_ZONE ? G_MAXUINT : play->piece;

  for (guint i = 0; i < play->look->n_selected; i++)
    {
      const CwId *id = &play->look->selected[i];
      if (id->piece == piece && id->index == index && id->kind == kind)
        return TRUE;
    }
  return play->look->hover.kind == kind && play->look->hover.piece == piece && play->look->hover.index == index;
}

static void
draw_paper (const CwSheetPlay *play)
{
  cw_draw_list_begin (play->list, CW_PEN_PAPER, cw_id (CW_ID_SHEET, play->piece, 0, 0));
  cw_draw_list_set_colour (play->list, play->paper);
  cw_trace_path (play->list, &play->flat, &play->map->piece->outline, TRUE);
  cw_draw_list_end (play->list);
  cw_draw_list_set_ground (play->list, play->paper);
  for (guint i = 0; i < play->map->panels->len; i++)
    {
      cw_draw_list_begin (play->list, CW_PEN_PICK, cw_id (CW_ID_PANEL, play->piece, i, 0));
      cw_trace_polygon (play->list, &play->flat, &g_array_index (play->map->panels, CwPanel, i).outline);
      cw_draw_list_end (play->list);
    }
}

static void
draw_glue (const CwSheetPlay *play)
{
  for (guint i = 0; i < play->design->glue->len; i++)
    {
      const CwGlue *glue = g_ptr_array_index (play->design->glue, i);
      if (g_strcmp0 (glue->piece, play->map->piece->id) != 0)
        continue;
      if (is_selected (play, CW_ID_ZONE, i))
        {
          cw_draw_list_begin (play->list, CW_PEN_SELECTED, cw_id (CW_ID_NONE, 0, 0, 0));
          cw_trace_path (play->list, &play->flat, &glue->area, TRUE);
          cw_draw_list_end (play->list);
        }
      cw_draw_list_begin (play->list, glue->face == play->up ? CW_PEN_GLUE : CW_PEN_HIDDEN,
                          cw_id (CW_ID_ZONE, G_MAXUINT, i, 0));
      cw_trace_path (play->list, &play->flat, &glue->area, TRUE);
      cw_draw_list_end (play->list);
    }
}

static void
draw_halo (const CwSheetPlay *play, const CwMark *mark, CwId id)
{
  cw_draw_list_begin (play->list, CW_PEN_SELECTED, id);
  cw_trace_mark (play->list, &play->flat, mark);
  cw_draw_list_end (play->list);
}

static void
draw_marks (const CwSheetPlay *play)
{
  const GPtrArray *marks = play->map->piece->marks;

  /* Scores before cuts: a cut laid over a score wins there. */
  for (int cuts = 0; cuts < 2; cuts++)
    for (guint i = 0; i < marks->len; i++)
      {
        const CwMark *mark = g_ptr_array_index (marks, i);
        if ((mark->kind != CW_MARK_SCORE) != cuts)
          continue;
        cw_draw_list_begin (play->list, cw_mark_get_pen (mark, play->up), cw_id (CW_ID_MARK, play->piece, i, 0));
        cw_trace_mark (play->list, &play->flat, mark);
        cw_draw_list_end (play->list);
      }
}

static void
draw_handle (const CwSheetPlay *play, CwId id, guint part, CwPoint p)
{
  double x, y;

  cw_flat_apply (&play->flat, p.x, p.y, &x, &y);
  id.part = part;
  cw_draw_list_begin (play->list, CW_PEN_HANDLE, id);
  cw_draw_list_arc (play->list, x, y, HANDLE);
  cw_draw_list_end (play->list);
}

/* Vertices of a line by their index; of a rectangle its two corners 0 and 1 and the other two, 2 and 3; of a circle its
 * centre 0 and a place on it, 1. */
static void
draw_handles (const CwSheetPlay *play, const CwMark *mark, CwId id)
{
  if (mark->shape == CW_SHAPE_CIRCLE)
    {
      CwPoint c = cw_place_get_point (&mark->centre);
      draw_handle (play, id, 0, c);
      draw_handle (play, id, 1, cw_point (c.x + mark->radius.ticks, c.y));
      return;
    }
  for (guint i = 0; i < mark->line.n_vertices; i++)
    draw_handle (play, id, i, cw_place_get_point (&mark->line.vertices[i].at));
  if (mark->shape == CW_SHAPE_RECT && mark->line.n_vertices >= 2)
    {
      CwPoint p = cw_place_get_point (&mark->line.vertices[0].at), q = cw_place_get_point (&mark->line.vertices[1].at);
      draw_handle (play, id, 2, cw_point (q.x, p.y));
      draw_handle (play, id, 3, cw_point (p.x, q.y));
    }
}

/* Measures and handles of one selected thing. */
static void
draw_grip (const CwSheetPlay *play, const CwId *selected, guint *measured)
{
  const CwPiece *piece = play->map->piece;
  g_autoptr (CwMark) outline = NULL;
  CwId end = *selected;

  if ((selected->kind == CW_ID_MARK || selected->kind == CW_ID_MARK_END) && selected->piece == play->piece
      && selected->index < piece->marks->len)
    {
      outline = cw_mark_ref (g_ptr_array_index (piece->marks, selected->index));
      end.kind = CW_ID_MARK_END;
    }
  else if (selected->kind == CW_ID_ART && selected->piece == play->piece && selected->index < piece->art->len
           && ((const CwArt *) g_ptr_array_index (piece->art, selected->index))->face == play->up)
    {
      outline = cw_make_outline_of_art (g_ptr_array_index (piece->art, selected->index));
      end.kind = CW_ID_ART_END;
    }
  else if (selected->kind == CW_ID_ZONE && play->look->glue && selected->index < play->design->glue->len
           && g_strcmp0 (((const CwGlue *) g_ptr_array_index (play->design->glue, selected->index))->piece, piece->id)
                == 0)
    {
      outline = cw_make_outline_of_glue (g_ptr_array_index (play->design->glue, selected->index));
      end.kind = CW_ID_ZONE_END;
    }
  if (outline == NULL)
    return;
  if (play->look->measures)
    cw_sheet_draw_measures (play, outline, selected->index, (*measured)++);
  cw_draw_list_set_ground (play->list, play->paper);
  if (play->look->handles)
    draw_handles (play, outline, end);
}

/* A panel of a piece that is stuck here, as an outline. */
static void
draw_layer_panel (const CwSheetPlay *play, const CwRigid *place, const CwPolygon *outline, CwPen pen, CwId id)
{
  CwFlat flat = cw_flat_of_place (&play->flat, place);

  cw_draw_list_begin (play->list, pen, id);
  cw_trace_polygon (play->list, &flat, outline);
  cw_draw_list_end (play->list);
}

/* Layers stuck on this face lie here as their outlines, so that one sees where they are. */
static void
draw_layers (const CwSheetPlay *play)
{
  for (guint i = 0; i < play->design->steps->len; i++)
    {
      const CwStep *step = g_ptr_array_index (play->design->steps, i);
      guint layer = step->what == CW_DO_STICK && step->has_on && step->on_face == play->up
                        && g_strcmp0 (step->on.piece, play->map->piece->id) == 0
                      ? cw_design_find_piece (play->design, step->piece)
                      : G_MAXUINT;

      if (layer == G_MAXUINT || layer == play->piece)
        continue;
      CwRigid place = cw_step_get_placement (step);
      CwFace seen = step->facing == CW_FACE_BACK ? CW_FACE_FRONT : CW_FACE_BACK;
      const GArray *panels = play->analysis->panels->maps[layer].panels;
      for (guint k = 0; k < panels->len; k++)
        {
          const CwPolygon *outline = &g_array_index (panels, CwPanel, k).outline;

          draw_layer_panel (play, &place, outline, CW_PEN_PICK, cw_id (CW_ID_LAYER, layer, k, seen));
          draw_layer_panel (play, &place, outline, CW_PEN_HIDDEN, cw_id (CW_ID_PANEL, layer, k, 0));
        }
    }
}

static void
draw_findings (const CwSheetPlay *play)
{
  for (guint i = 0; i < play->analysis->findings->len; i++)
    {
      const CwFinding *finding = g_ptr_array_index (play->analysis->findings, i);
      CwId id = cw_id (CW_ID_FINDING, G_MAXUINT, i, 0);
      double x, y;
      if (!finding->has_at || g_strcmp0 (finding->at_piece, play->map->piece->id) != 0)
        continue;
      cw_flat_apply (&play->flat, finding->at.x, finding->at.y, &x, &y);
      cw_draw_list_begin (play->list, CW_PEN_TROUBLE, id);
      cw_draw_list_arc (play->list, x, y, 10);
      cw_draw_list_end (play->list);
      cw_draw_list_text (play->list, CW_PEN_TITLE, id, x + 13, y - 8, CW_SHEET_TEXT, CW_ANCHOR_MIDDLE, 0, "!");
    }
}

static guint
legend_pens (const CwSheetPlay *play)
{
  guint pens = 0;

  for (guint i = 0; i < play->map->piece->marks->len; i++)
    {
      const CwMark *mark = g_ptr_array_index (play->map->piece->marks, i);
      pens |= 1u << cw_mark_get_pen (mark, play->up);
      if (mark->kind == CW_MARK_WINDOW)
        pens |= 1u << CW_PEN_WASTE;
    }
  if (play->look->glue)
    for (guint i = 0; i < play->design->glue->len; i++)
      {
        const CwGlue *glue = g_ptr_array_index (play->design->glue, i);
        if (g_strcmp0 (glue->piece, play->map->piece->id) == 0)
          pens |= 1u << (glue->face == play->up ? CW_PEN_GLUE : CW_PEN_HIDDEN);
      }
  if (play->look->glue_map != NULL)
    pens |= cw_sheet_glue_pens (play);
  for (guint i = 0; i < play->map->piece->art->len; i++)
    if (((const CwArt *) g_ptr_array_index (play->map->piece->art, i))->face == play->up)
      pens |= 1u << CW_PEN_ART;
  if (play->look->names)
    pens |= 1u << CW_PEN_HOLD;
  return pens;
}

/**
 * cw_draw_sheet:
 * @list: what to add to
 * @analysis: a design and what is known of it
 * @piece: index of the piece
 * @view: where and how it lies
 * @look: what to show beside paper and marks
 */
void
cw_draw_sheet (CwDrawList *list, const CwAnalysis *analysis, guint piece, const CwSheetView *view,
               const CwSheetLook *look)
{
  gint32 width, height;

  g_return_if_fail (list != NULL && analysis != NULL && view != NULL && look != NULL);
  g_return_if_fail (piece < analysis->panels->n_pieces);

  const CwPanelMap *map = &analysis->panels->maps[piece];
  const CwPaper *paper = cw_design_get_paper (analysis->design, map->piece->paper);
  CwSheetPlay play = { list,
                       analysis,
                       map,
                       analysis->design,
                       piece,
                       view,
                       look,
                       CW_FACE_FRONT,
                       PAPER_UNSAID,
                       { 0 },
                       cw_sheet_view_get_flat (view, map) };

  play.up = view->lie.flipped ? CW_FACE_BACK : CW_FACE_FRONT;
  if (paper != NULL)
    play.paper = cw_colour_parse (play.up == CW_FACE_FRONT ? paper->front : paper->back, PAPER_UNSAID);
  cw_sheet_view_size (view, map, &width, &height);
  play.box[0] = view->left;
  play.box[1] = view->top;
  play.box[2] = view->left + width * view->scale;
  play.box[3] = view->top + height * view->scale;

  cw_draw_list_set_ground (list, CW_GROUND_TABLE);
  draw_paper (&play);
  for (guint i = 0; i < map->piece->marks->len; i++)
    {
      const CwMark *mark = g_ptr_array_index (map->piece->marks, i);
      if (mark->kind != CW_MARK_WINDOW)
        continue;
      cw_draw_list_begin (list, CW_PEN_WASTE, cw_id (CW_ID_NONE, 0, 0, 0));
      cw_trace_mark (list, &play.flat, mark);
      cw_draw_list_end (list);
    }
  if (look->glue_map != NULL)
    cw_sheet_draw_glue_map (&play);
  if (look->glue)
    draw_glue (&play);
  if (look->layers)
    draw_layers (&play);
  for (guint i = 0; i < map->piece->art->len && look->layers; i++)
    if (((const CwArt *) g_ptr_array_index (map->piece->art, i))->face == play.up)
      {
        g_autoptr (CwMark) box = cw_make_outline_of_art (g_ptr_array_index (map->piece->art, i));

        cw_draw_list_begin (list, CW_PEN_PICK, cw_id (CW_ID_ART, piece, i, 0));
        cw_trace_mark (list, &play.flat, box);
        cw_draw_list_end (list);
      }
  for (guint i = 0; i < map->piece->art->len; i++)
    if (is_selected (&play, CW_ID_ART, i))
      {
        g_autoptr (CwMark) box = cw_make_outline_of_art (g_ptr_array_index (map->piece->art, i));

        if (((const CwArt *) g_ptr_array_index (map->piece->art, i))->face == play.up)
          draw_halo (&play, box, cw_id (CW_ID_NONE, 0, 0, 0));
      }
  cw_sheet_draw_art (&play);

  for (guint i = 0; i < map->panels->len; i++)
    if (analysis->panels->first_panel[piece] + i == look->lit_panel || is_selected (&play, CW_ID_PANEL, i))
      {
        cw_draw_list_begin (list, CW_PEN_SELECTED, cw_id (CW_ID_NONE, 0, 0, 0));
        cw_trace_polygon (list, &play.flat, &g_array_index (map->panels, CwPanel, i).outline);
        cw_draw_list_end (list);
      }
  for (guint i = 0; i < map->piece->marks->len; i++)
    if (is_selected (&play, CW_ID_MARK, i))
      draw_halo (&play, g_ptr_array_index (map->piece->marks, i), cw_id (CW_ID_NONE, 0, 0, 0));

  cw_draw_list_begin (list, CW_PEN_OUTLINE, cw_id (CW_ID_NONE, 0, 0, 0));
  cw_trace_path (list, &play.flat, &map->piece->outline, TRUE);
  cw_draw_list_end (list);
  draw_marks (&play);
  if (look->names)
    {
      cw_sheet_draw_names (&play);
      cw_sheet_draw_hold (&play);
    }

  for (guint i = 0; i < look->n_preview; i++)
    {
      cw_draw_list_begin (list, CW_PEN_PREVIEW, cw_id (CW_ID_NONE, 0, 0, 0));
      cw_trace_mark (list, &play.flat, look->preview[i]);
      cw_draw_list_end (list);
      cw_draw_list_begin (list, cw_mark_get_pen (look->preview[i], play.up), cw_id (CW_ID_NONE, 0, 0, 0));
      cw_trace_mark (list, &play.flat, look->preview[i]);
      cw_draw_list_end (list);
    }
  if (look->findings)
    draw_findings (&play);
  if (look->rulers)
    cw_sheet_draw_rulers (&play);
  cw_draw_list_set_ground (list, play.paper);

  guint measured = 0;
  for (guint i = 0; i < look->n_selected; i++)
    draw_grip (&play, &look->selected[i], &measured);

  cw_draw_list_set_ground (list, CW_GROUND_TABLE);
  if (look->legend)
    {
      const char *side = cw_side_get_words (analysis, piece, play.up);
      g_autofree char *words = g_strdup_printf (_ ("This side up: %s"), side);
      cw_draw_list_text (list, CW_PEN_TEXT, cw_id (CW_ID_NONE, 0, 0, 0), play.box[0], play.box[3] + 20, CW_SHEET_TEXT,
                         CW_ANCHOR_START, 0, words);
      double y = play.box[3] + 28;
      y += cw_draw_legend (list, play.box[0], y, MAX (play.box[2] - play.box[0], 200), legend_pens (&play));
      if (look->glue_map != NULL)
        cw_sheet_draw_glue_words (&play, play.box[0], y);
    }
}
