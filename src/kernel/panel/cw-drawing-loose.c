/* cw-drawing-loose.c: parts of a piece that cuts free and no window throws away.
 *
 * Panels joined by hinges hold together; the part with the piece's `hold` point (without one, the largest) is the
 * piece, every other part falls out.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "panel/cw-drawing-fault.h"

#include "cw-config.h"
#include "geometry/cw-sets.h"

#include <glib/gi18n-lib.h>

/* For each part the mark that frees it: the first cut, else window, in file order along its edges. */
static guint *
find_freeing_marks (const CwDrawing *drawing, guint *parent)
{
  guint *best = g_new (guint, drawing->map->panels->len + 1);

  for (guint i = 0; i < drawing->map->panels->len; i++)
    best[i] = G_MAXUINT;
  for (guint i = 0; i < drawing->sheet->edges->len; i++)
    {
      const CwSheetEdge *edge = &g_array_index (drawing->sheet->edges, CwSheetEdge, i);
      guint sides[2] = { edge->left, edge->right };

      for (int k = 0; k < 2; k++)
        {
          guint panel = sides[k] == CW_SHEET_NO_FACE ? G_MAXUINT : drawing->panel_of_face[sides[k]];
          guint *of_part = panel == G_MAXUINT ? NULL : &best[cw_sets_find (parent, panel)];

          for (guint n = 0; of_part != NULL && n < edge->n_links; n++)
            {
              guint mark = cw_sheet_get_source (drawing->sheet, edge, n)->mark;
              CwMarkKind kind = mark == CW_SHEET_OUTLINE ? CW_MARK_SCORE : cw_drawing_get_mark (drawing, mark)->kind;
              CwMarkKind so_far = *of_part == G_MAXUINT ? CW_MARK_SCORE : cw_drawing_get_mark (drawing, *of_part)->kind;

              if (kind == CW_MARK_SCORE)
                continue;
              if (so_far == CW_MARK_SCORE || (kind == CW_MARK_CUT && so_far == CW_MARK_WINDOW)
                  || (kind == so_far && mark < *of_part))
                *of_part = mark;
            }
        }
    }
  return best;
}

static char *
say_area (const CwDrawing *drawing, double area2)
{
  char number[G_ASCII_DTOSTR_BUF_SIZE];

  if (drawing->design->head->unit == CW_UNIT_INCH)
    return g_strdup_printf ("%s sq in", g_ascii_formatd (number, sizeof number, "%.2f",
                                                         area2 / 2 / CW_TICKS_PER_INCH / CW_TICKS_PER_INCH));
  return g_strdup_printf ("%s sq cm", g_ascii_formatd (number, sizeof number, "%.1f",
                                                       area2 / 2 / (100.0 * CW_TICKS_PER_MM * CW_TICKS_PER_MM)));
}

static void
say_loose (const CwDrawing *drawing, guint *parent, guint part, gint64 area2, guint freeing)
{
  const GArray *panels = drawing->map->panels;
  const CwMark *mark = freeing == G_MAXUINT ? NULL : cw_drawing_get_mark (drawing, freeing);
  const CwPanel *largest = NULL;
  g_autofree char *area = say_area (drawing, (double) area2);
  CwFinding *finding;

  for (guint i = 0; i < panels->len; i++)
    {
      const CwPanel *panel = &g_array_index (panels, CwPanel, i);

      if (cw_sets_find (parent, i) == part && (largest == NULL || panel->area2 > largest->area2))
        largest = panel;
    }
  finding = cw_drawing_add (drawing, CW_FINDING_PIECE_FALLS_OUT, largest->inside);
  for (guint i = 0; i < panels->len; i++)
    if (cw_sets_find (parent, i) == part)
      cw_finding_add_panel (finding, drawing->sheet->piece->id, i);
  cw_finding_set_amount (finding, CW_AMOUNT_SQ_TICKS, (double) area2 / 2);
  if (mark != NULL)
    {
      cw_finding_add_mark (finding, drawing->sheet->piece->id, mark->id);
      cw_finding_set_words (finding, N_ ("“{2}” cuts a part out of “{0}”: {1} fall out."),
                            N_ ("Leave a bridge or a score to hold it, or draw it as a window to throw it away."),
                            drawing->sheet->piece->id, area, mark->id, NULL);
    }
  else
    cw_finding_set_words (finding, N_ ("“{0}” is drawn in parts that do not hold together: {1} fall off."),
                          N_ ("Draw the outline so that it does not cross itself."), drawing->sheet->piece->id, area,
                          NULL);
}

/* An outline that meets itself and yet lets nothing fall off, as a curl does: more than two of its edges at a node. */
static void
check_outline (const CwDrawing *drawing)
{
  const CwSheet *sheet = drawing->sheet;

  for (guint i = 0, n; i < sheet->ends->len; i += n)
    {
      guint n_outline = 0;

      n = cw_sheet_count_ends (sheet, i);
      for (guint k = i; k < i + n; k++)
        {
          guint edge = g_array_index (sheet->ends, CwSheetEnd, k).edge;

          n_outline += (g_array_index (sheet->edges, CwSheetEdge, edge).flags & CW_SHEET_EDGE) != 0;
        }
      if (n_outline > 2)
        {
          CwFinding *finding
            = cw_drawing_add (drawing, CW_FINDING_OFF_SHEET, g_array_index (sheet->ends, CwSheetEnd, i).at);

          cw_finding_set_words (finding, N_ ("The outline of “{0}” crosses or touches itself."),
                                N_ ("Draw the outline once round the paper."), sheet->piece->id, NULL);
          return;
        }
    }
}

/**
 * cw_drawing_check_loose:
 * @drawing: a drawing; gets `piece-falls-out`, and `off-sheet` for an outline that meets itself
 */
void
cw_drawing_check_loose (const CwDrawing *drawing)
{
  const CwPanelMap *map = drawing->map;
  guint n = map->panels->len, kept;
  g_autofree guint *parent = cw_sets_new (n);
  g_autofree gint64 *area2 = g_new0 (gint64, n + 1);
  g_autofree guint *freeing = NULL;
  gboolean told_outline = FALSE;

  if (n == 0)
    return;
  for (guint i = 0; i < map->hinges->len; i++)
    {
      const CwHinge *hinge = &g_array_index (map->hinges, CwHinge, i);

      cw_sets_join (parent, hinge->left, hinge->right);
    }
  for (guint i = 0; i < n; i++)
    area2[cw_sets_find (parent, i)] += g_array_index (map->panels, CwPanel, i).area2;
  kept = 0;
  for (guint i = 1; i < n; i++)
    if (area2[i] > area2[kept])
      kept = i;
  if (map->piece->has_hold)
    kept = cw_sets_find (parent, cw_panel_map_find_hold (map));
  freeing = find_freeing_marks (drawing, parent);
  for (guint i = 0; i < n; i++)
    if (area2[i] > 0 && i != kept)
      {
        say_loose (drawing, parent, i, area2[i], freeing[i]);
        told_outline = told_outline || freeing[i] == G_MAXUINT;
      }
  if (!told_outline)
    check_outline (drawing);
}
