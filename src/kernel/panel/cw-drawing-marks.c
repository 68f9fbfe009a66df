/* cw-drawing-marks.c: faults of single marks and of pairs: off the sheet, on one another, curved scores.
 *
 * A window that crosses the outline bites the edge and is no fault; one that takes no paper is off the sheet. A cut or
 * window over a score wins there and is no fault. Told once for each mark, or for each mark and the first listed one it
 * lies on.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "panel/cw-drawing-fault.h"

#include "cw-config.h"
#include "geometry/cw-tolerance.h"

#include <glib/gi18n-lib.h>
#include <math.h>

/**
 * cw_drawing_get_mark:
 * @drawing: a drawing
 * @mark: a mark's place on the piece
 *
 * Returns: (transfer none): the mark
 */
const CwMark *
cw_drawing_get_mark (const CwDrawing *drawing, guint mark)
{
  return drawing->sheet->piece->marks->pdata[mark];
}

/**
 * cw_drawing_say_length:
 * @drawing: a drawing
 * @ticks: a computed length
 *
 * Returns: (transfer full): it as a maker would measure it, to the nearest 1/64 inch or 0.1 mm; under that, to the tick
 */
char *
cw_drawing_say_length (const CwDrawing *drawing, double ticks)
{
  CwUnit unit = drawing->design->head->unit;
  gint32 step = unit == CW_UNIT_INCH ? CW_TICKS_PER_INCH / 64 : CW_TICKS_PER_MM / 10;
  gint32 whole = (gint32) (round (ticks / step) * step);

  return cw_length_format_ticks (whole != 0 ? whole : (gint32) lround (ticks), unit);
}

/**
 * cw_drawing_add:
 * @drawing: a drawing
 * @code: what kind
 * @at: where, ticks
 *
 * Returns: (transfer none): a new finding about the piece, already among the findings
 */
CwFinding *
cw_drawing_add (const CwDrawing *drawing, CwFindingCode code, CwPoint at)
{
  CwFinding *finding = cw_finding_new (code);

  cw_finding_add_piece (finding, drawing->sheet->piece->id);
  cw_finding_set_at (finding, drawing->sheet->piece->id, at.x, at.y);
  g_ptr_array_add (drawing->findings, finding);
  return finding;
}

/* How far a point outside stands off the outline. */
static double
distance_off (const CwSheet *sheet, CwPoint p)
{
  CwRing ring = { sheet->outline->len, (CwPoint *) (void *) sheet->outline->data };
  CwPolygon outline = { 1, &ring };

  return cw_polygon_distance (&outline, p.x, p.y);
}

static gboolean
is_outside (const CwSheet *sheet, const CwSheetEdge *edge)
{
  guint sides[2] = { edge->left, edge->right };

  if ((edge->flags & CW_SHEET_EDGE) != 0)
    return FALSE;
  if (edge->left == CW_SHEET_NO_FACE && edge->right == CW_SHEET_NO_FACE)
    return cw_sheet_kind_at (sheet, ((double) edge->a.x + edge->b.x) / 2, ((double) edge->a.y + edge->b.y) / 2)
           == CW_FACE_OUTSIDE;
  for (int i = 0; i < 2; i++)
    if (sides[i] != CW_SHEET_NO_FACE && g_array_index (sheet->face_kinds, CwSheetFaceKind, sides[i]) != CW_FACE_OUTSIDE)
      return FALSE;
  return TRUE;
}

typedef struct
{
  double off; /* the farthest point off the sheet, ticks */
  CwPoint at;
  gboolean inside; /* some of it is on the sheet */
} Leaving;

static void
note_outside (const CwSheet *sheet, Leaving *leaving, CwPoint p)
{
  double off = distance_off (sheet, p);

  if (off > leaving->off)
    {
      leaving->off = off;
      leaving->at = p;
    }
}

/* Whether a window takes any paper: some face thrown away lies in it. */
static gboolean
window_takes_paper (const CwSheet *sheet, guint mark)
{
  const GArray *points = sheet->shapes->pdata[mark];
  CwRing ring = { points->len, (CwPoint *) (void *) points->data };
  CwPolygon window = { 1, &ring };

  for (guint f = 0; f < sheet->faces->len; f++)
    if (g_array_index (sheet->face_kinds, CwSheetFaceKind, f) == CW_FACE_WINDOW)
      {
        CwPoint p = cw_polygon_inside_point (&g_array_index (sheet->faces, CwPolygon, f));

        if (cw_polygon_contains (&window, p.x, p.y))
          return TRUE;
      }
  return FALSE;
}

static void
check_off_sheet (const CwDrawing *drawing)
{
  const CwSheet *sheet = drawing->sheet;
  guint n_marks = sheet->shapes->len;
  g_autofree Leaving *leaving = g_new0 (Leaving, n_marks + 1);

  for (guint i = 0; i < sheet->edges->len; i++)
    {
      const CwSheetEdge *edge = &g_array_index (sheet->edges, CwSheetEdge, i);
      gboolean outside = is_outside (sheet, edge);

      for (guint k = 0; k < edge->n_links; k++)
        {
          guint mark = cw_sheet_get_source (sheet, edge, k)->mark;

          if (mark == CW_SHEET_OUTLINE)
            continue;
          if (outside)
            {
              note_outside (sheet, &leaving[mark], edge->a);
              note_outside (sheet, &leaving[mark], edge->b);
            }
          else
            leaving[mark].inside = TRUE;
        }
    }
  for (guint m = 0; m < n_marks; m++)
    {
      const CwMark *mark = cw_drawing_get_mark (drawing, m);
      const GArray *points = sheet->shapes->pdata[m];
      g_autofree char *amount = NULL;
      CwFinding *finding;

      for (guint i = 0; g_array_index (sheet->is_curved, gboolean, m) && i < points->len; i++)
        {
          CwPoint p = g_array_index (points, CwPoint, i);

          if (cw_sheet_kind_at (sheet, p.x, p.y) == CW_FACE_OUTSIDE)
            note_outside (sheet, &leaving[m], p);
          else
            leaving[m].inside = TRUE;
        }
      if (leaving[m].off <= CW_TOL_MEETS_TICKS || (mark->kind == CW_MARK_WINDOW && window_takes_paper (sheet, m)))
        continue;
      finding = cw_drawing_add (drawing, CW_FINDING_OFF_SHEET, leaving[m].at);
      cw_finding_add_mark (finding, sheet->piece->id, mark->id);
      cw_finding_set_amount (finding, CW_AMOUNT_TICKS, leaving[m].off);
      amount = cw_drawing_say_length (drawing, leaving[m].off);
      if (leaving[m].inside)
        cw_finding_set_words (finding, N_ ("“{0}” runs {1} over the edge of “{2}”."), N_ ("Let it end on the edge."),
                              mark->id, amount, sheet->piece->id, NULL);
      else
        cw_finding_set_words (finding, N_ ("“{0}” lies off “{2}”, up to {1} from its edge."),
                              N_ ("Move it onto the paper or take it away."), mark->id, amount, sheet->piece->id, NULL);
    }
  if (drawing->map->panels->len == 0)
    {
      CwPoint at = sheet->outline->len > 0 ? g_array_index (sheet->outline, CwPoint, 0) : cw_point (0, 0);

      cw_finding_set_words (cw_drawing_add (drawing, CW_FINDING_OFF_SHEET, at),
                            N_ ("No paper is left of “{0}”: its outline has no inside, or windows take all of it."),
                            N_ ("Draw the outline round the paper, or make the windows smaller."), sheet->piece->id,
                            NULL);
    }
}

typedef struct
{
  guint first, other; /* marks */
  double length;
  CwPoint at;
} Overlap;

static int
compare_overlaps (const void *one, const void *two)
{
  const Overlap *a = one, *b = two;

  if (a->first != b->first)
    return a->first < b->first ? -1 : 1;
  return a->other < b->other ? -1 : a->other > b->other;
}

/* Marks along one edge, each against the first listed of its own sort. */
static void
collect_overlaps (const CwDrawing *drawing, guint edge_number, GArray *overlaps)
{
  const CwSheetEdge *edge = &g_array_index (drawing->sheet->edges, CwSheetEdge, edge_number);
  guint first[2] = { G_MAXUINT, G_MAXUINT }; /* the first score, the first cut or window */

  for (guint k = 0; k < edge->n_links; k++)
    {
      guint m = cw_sheet_get_source (drawing->sheet, edge, k)->mark;
      const CwMark *mark;
      Overlap overlap = { 0 };
      guint sort;

      if (m == CW_SHEET_OUTLINE)
        continue;
      mark = cw_drawing_get_mark (drawing, m);
      sort = mark->kind == CW_MARK_SCORE ? 0 : 1;
      if (first[sort] == G_MAXUINT)
        first[sort] = m;
      if (first[sort] == m)
        continue;
      /* Scores of one hinge that fold differently are told as that. */
      if (sort == 0 && drawing->hinge_of_edge[edge_number] != G_MAXUINT
          && mark->fold != cw_drawing_get_mark (drawing, first[0])->fold)
        continue;
      overlap.first = first[sort];
      overlap.other = m;
      overlap.length = hypot ((double) edge->b.x - edge->a.x, (double) edge->b.y - edge->a.y);
      overlap.at = edge->a;
      g_array_append_val (overlaps, overlap);
    }
}

static void
check_overlaps (const CwDrawing *drawing)
{
  g_autoptr (GArray) overlaps = g_array_new (FALSE, FALSE, sizeof (Overlap));

  for (guint i = 0; i < drawing->sheet->edges->len; i++)
    if (g_array_index (drawing->sheet->edges, CwSheetEdge, i).n_links > 1)
      collect_overlaps (drawing, i, overlaps);
  g_array_sort (overlaps, compare_overlaps);
  for (guint i = 0, n; i < overlaps->len; i += n)
    {
      Overlap all = g_array_index (overlaps, Overlap, i);

      for (n = 1; i + n < overlaps->len && compare_overlaps (&all, &g_array_index (overlaps, Overlap, i + n)) == 0; n++)
        all.length += g_array_index (overlaps, Overlap, i + n).length;
      if (all.length >= CW_TOL_OVERLAP_TICKS)
        {
          CwFinding *finding = cw_drawing_add (drawing, CW_FINDING_MARKS_OVERLAP, all.at);
          const CwMark *first = cw_drawing_get_mark (drawing, all.first);
          const CwMark *other = cw_drawing_get_mark (drawing, all.other);
          g_autofree char *length = cw_drawing_say_length (drawing, all.length);

          cw_finding_add_mark (finding, drawing->sheet->piece->id, first->id);
          cw_finding_add_mark (finding, drawing->sheet->piece->id, other->id);
          cw_finding_set_amount (finding, CW_AMOUNT_TICKS, all.length);
          cw_finding_set_words (finding, N_ ("“{0}” and “{1}” lie on one another for {2} on “{3}”."),
                                N_ ("Take one of them away there."), first->id, other->id, length,
                                drawing->sheet->piece->id, NULL);
        }
    }
}

/**
 * cw_drawing_check_marks:
 * @drawing: a drawing; gets `off-sheet`, `marks-overlap` and `not-simulated`
 */
void
cw_drawing_check_marks (const CwDrawing *drawing)
{
  check_off_sheet (drawing);
  check_overlaps (drawing);
  for (guint m = 0; m < drawing->sheet->shapes->len; m++)
    if (g_array_index (drawing->sheet->is_curved, gboolean, m))
      {
        const GArray *points = drawing->sheet->shapes->pdata[m];
        const CwMark *mark = cw_drawing_get_mark (drawing, m);
        CwPoint at = points->len > 0 ? g_array_index (points, CwPoint, points->len / 2) : cw_point (0, 0);
        CwFinding *finding = cw_drawing_add (drawing, CW_FINDING_NOT_SIMULATED, at);

        cw_finding_add_mark (finding, drawing->sheet->piece->id, mark->id);
        cw_finding_set_words (finding,
                              N_ ("The curved score “{0}” is drawn and printed, but how it folds is not worked out."),
                              NULL, mark->id, NULL);
      }
}
