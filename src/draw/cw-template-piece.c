/* cw-template-piece.c: one piece of a template: cuts, creases with ticks at their ends, glue, names.
 *
 * Arcs stay arcs. A crease that ends at the box round the paper has its tick off the paper, in its own line, where it
 * can be seen with the paper laid on; others have a short bar across.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-page-private.h"
#include "cw-template-private.h"

#include <math.h>

#include "panel/cw-path-flatten.h"

/* Points: where a tick off the paper begins; half of one across a crease that ends on the paper. */
#define TICK_FROM (1 * CW_TEMPLATE_MM)
#define TICK_HALF (1 * CW_TEMPLATE_MM)

static const CwId no_id = { CW_ID_NONE, 0, 0, 0 };

static void
to_output (const CwTemplatePiece *sheet, CwPoint p, double *x, double *y)
{
  CwFlat flat = cw_flat_from_lying (&sheet->lying, CW_TEMPLATE_SCALE, 0, 0);

  cw_flat_apply (&flat, p.x, p.y, x, y);
}

/* Where a crease ends: off the paper in its own line when it ends at the box round the paper, else across it. */
static void
draw_tick (const CwTemplatePiece *sheet, CwPoint end, CwPoint from)
{
  double x, y, fx, fy, length;
  CwPoint lies = cw_lying_from_piece (&sheet->lying, end);
  gboolean edge = lies.x <= 0 || lies.y <= 0 || lies.x >= sheet->lying.width || lies.y >= sheet->lying.height;

  to_output (sheet, end, &x, &y);
  to_output (sheet, from, &fx, &fy);
  length = hypot (x - fx, y - fy);
  if (length <= 0)
    return;
  double ux = (x - fx) / length, uy = (y - fy) / length;
  if (edge)
    cw_page_rule (sheet->list, CW_PEN_OUTLINE, x + ux * TICK_FROM, y + uy * TICK_FROM, x + ux * CW_TEMPLATE_TICK_TO,
                  y + uy * CW_TEMPLATE_TICK_TO);
  else
    cw_page_rule (sheet->list, CW_PEN_OUTLINE, x - uy * TICK_HALF, y + ux * TICK_HALF, x + uy * TICK_HALF,
                  y - ux * TICK_HALF);
}

static void
draw_ticks (const CwTemplatePiece *sheet, const CwMark *mark)
{
  g_autoptr (GArray) points = cw_mark_flatten (mark);

  if (points->len < 2)
    return;
  draw_tick (sheet, g_array_index (points, CwPoint, 0), g_array_index (points, CwPoint, 1));
  draw_tick (sheet, g_array_index (points, CwPoint, points->len - 1), g_array_index (points, CwPoint, points->len - 2));
}

/**
 * cw_template_draw_piece:
 * @sheet: a piece with an empty list
 * @design: its design
 * @pens: (inout): mask of 1 << #CwPen of what its lines mean
 *
 * Draws all but the panels' names.
 */
void
cw_template_draw_piece (const CwTemplatePiece *sheet, const CwDesign *design, guint *pens)
{
  CwFlat flat = cw_flat_from_lying (&sheet->lying, CW_TEMPLATE_SCALE, 0, 0);

  for (guint i = 0; i < design->glue->len; i++)
    {
      const CwGlue *glue = g_ptr_array_index (design->glue, i);

      if (g_strcmp0 (glue->piece, sheet->piece->id) != 0 || glue->area.n_vertices < 3)
        continue;
      CwPen pen = glue->face == CW_FACE_BACK ? CW_PEN_HIDDEN : CW_PEN_GLUE;
      cw_draw_list_begin (sheet->list, pen, no_id);
      cw_trace_path (sheet->list, &flat, &glue->area, TRUE);
      cw_draw_list_end (sheet->list);
      *pens |= 1u << pen;
    }
  for (guint cuts = 0; cuts < 2; cuts++)
    for (guint i = 0; i < sheet->piece->marks->len; i++)
      {
        const CwMark *mark = g_ptr_array_index (sheet->piece->marks, i);
        CwPen pen = cw_mark_get_pen (mark, CW_FACE_FRONT);

        if ((mark->kind != CW_MARK_SCORE) != cuts)
          continue;
        cw_draw_list_begin (sheet->list, pen, no_id);
        cw_trace_mark (sheet->list, &flat, mark);
        cw_draw_list_end (sheet->list);
        *pens |= 1u << pen;
        if (mark->kind == CW_MARK_SCORE)
          draw_ticks (sheet, mark);
      }
  cw_draw_list_begin (sheet->list, CW_PEN_CUT, no_id);
  cw_trace_path (sheet->list, &flat, &sheet->piece->outline, TRUE);
  cw_draw_list_end (sheet->list);
  *pens |= 1u << CW_PEN_CUT;
}

/**
 * cw_template_draw_names:
 * @sheet: a piece
 * @list: where to
 * @part: left, top, right, bottom of the part of it that is shown, points
 * @dx: how far right the piece is shifted
 * @dy: how far down
 *
 * Writes the names that fit their panels and lie within the part, none cut off by its edge.
 */
void
cw_template_draw_names (const CwTemplatePiece *sheet, CwDrawList *list, const double part[4], double dx, double dy)
{
  for (guint i = 0; i < sheet->map->panels->len; i++)
    {
      const CwPanel *panel = &g_array_index (sheet->map->panels, CwPanel, i);
      double half = panel->name != NULL ? cw_draw_text_width (CW_TEMPLATE_LETTERS, panel->name) / 2 : 0,
             off = half / CW_TEMPLATE_SCALE, x, y;
      gboolean upright = sheet->lying.lie.quarter_turns % 2 == 1;

      if (panel->name == NULL
          || !cw_polygon_contains (&panel->outline, panel->inside.x - (upright ? 0 : off),
                                   panel->inside.y - (upright ? off : 0))
          || !cw_polygon_contains (&panel->outline, panel->inside.x + (upright ? 0 : off),
                                   panel->inside.y + (upright ? off : 0)))
        continue;
      to_output (sheet, panel->inside, &x, &y);
      if (x - half < part[0] || y - CW_TEMPLATE_LETTERS < part[1] || x + half > part[2]
          || y + CW_TEMPLATE_LETTERS > part[3])
        continue;
      cw_draw_list_text (list, CW_PEN_TEXT, no_id, x + dx, y + dy + 0.36 * CW_TEMPLATE_LETTERS, CW_TEMPLATE_LETTERS,
                         CW_ANCHOR_MIDDLE, 0, panel->name);
    }
}
