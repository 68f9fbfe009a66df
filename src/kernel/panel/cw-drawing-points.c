/* cw-drawing-points.c: creases that meet at a point inside the paper and are asked to fold flat, but cannot.
 *
 * Asked means: a step lists one of them as folded shut (+-180 degrees) and nothing left one standing part of the
 * way. Then those it lists as shut must be flat and those it lists at 0 stay out. Those it does not list follow,
 * whatever earlier steps made of them, so they may be either: if any choice of these meets the two conditions of
 * cw-flat-vertex.c, nothing is said here. They turn the way they last turned, else their own; those set to no fold that
 * no step has named are left out. A point with a cut or an edge running into it is free. A miss that the design's give
 * takes up at the far end of the longest crease is no fault: paper bends that much.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "panel/cw-drawing-fault.h"

#include "cw-config.h"
#include "geometry/cw-tolerance.h"
#include "panel/cw-flat-vertex.h"

#include <glib/gi18n-lib.h>
#include <math.h>
#include <string.h>

/* Choices over more creases than this are not tried one by one. */
#define FREE_CREASES_MAX 10

typedef enum
{
  CREASE_FREE,
  CREASE_FLAT,
  CREASE_SHUT,
  CREASE_PART
} CreaseState;

typedef struct
{
  guint hinge;
  gboolean forward; /* runs from the hinge's p to its q */
} CreaseEnd;

typedef struct
{
  CwPoint at;
  guint first, n; /* into the list of CreaseEnd */
  CwFinding *finding;
} Vertex;

/* What the steps so far have made of every mark of the piece: degrees, or nothing yet; and whether this step says it.
 */
typedef struct
{
  double *deg;
  gboolean *said;
  gboolean *listed;
} Folded;

static void
collect_vertices (const CwDrawing *drawing, GArray *vertices, GArray *ends)
{
  const CwSheet *sheet = drawing->sheet;

  for (guint i = 0, n; i < sheet->ends->len; i += n)
    {
      Vertex vertex = { g_array_index (sheet->ends, CwSheetEnd, i).at, ends->len, 0, NULL };
      gboolean inside = TRUE;

      n = cw_sheet_count_ends (sheet, i);
      for (guint k = i; k < i + n; k++)
        {
          guint number = g_array_index (sheet->ends, CwSheetEnd, k).edge;
          const CwSheetEdge *edge = &g_array_index (sheet->edges, CwSheetEdge, number);
          CreaseEnd end = { drawing->hinge_of_edge[number], cw_point_equal (edge->a, vertex.at) };

          if ((edge->flags & CW_SHEET_OPEN) != 0)
            inside = FALSE;
          if (end.hinge != G_MAXUINT)
            g_array_append_val (ends, end);
        }
      vertex.n = ends->len - vertex.first;
      if (inside && vertex.n > 0)
        g_array_append_val (vertices, vertex);
      else
        g_array_set_size (ends, vertex.first);
    }
}

static CwFlatCrease
crease_at (const CwDrawing *drawing, const Vertex *vertex, const CreaseEnd *end)
{
  const CwHinge *hinge = &g_array_index (drawing->map->hinges, CwHinge, end->hinge);
  CwVec3 way = cw_vec3_sub (hinge->axis[1], hinge->axis[0]);
  CwPoint far_end = end->forward ? hinge->q : hinge->p;
  CwFlatCrease crease = { 0 };

  if (!end->forward)
    way = cw_vec3_scale (way, -1);
  crease.angle = atan2 (way.y, way.x);
  crease.length = hypot ((double) far_end.x - vertex->at.x, (double) far_end.y - vertex->at.y);
  return crease;
}

static CreaseState
state_of_hinge (const CwDrawing *drawing, const Folded *folded, const CwHinge *hinge, gboolean *toward)
{
  *toward = hinge->fold != CW_FOLD_AWAY;
  for (guint i = 0; i < hinge->scores->len; i++)
    {
      guint mark = cw_piece_find_mark (drawing->map->piece, hinge->scores->pdata[i]);

      if (!folded->listed[mark])
        continue;
      if (fabs (folded->deg[mark]) <= CW_TOL_FLAT_SNAP_DEG)
        return CREASE_FLAT;
      if (fabs (fabs (folded->deg[mark]) - 180) > CW_TOL_FLAT_SNAP_DEG)
        return CREASE_PART;
      if (folded->deg[mark] < 0)
        *toward = !*toward;
      return CREASE_SHUT;
    }
  for (guint i = 0; i < hinge->scores->len; i++)
    {
      guint mark = cw_piece_find_mark (drawing->map->piece, hinge->scores->pdata[i]);

      if (!folded->said[mark])
        continue;
      if (fabs (folded->deg[mark]) > CW_TOL_FLAT_SNAP_DEG
          && fabs (fabs (folded->deg[mark]) - 180) > CW_TOL_FLAT_SNAP_DEG)
        return CREASE_PART;
      if (folded->deg[mark] < 0)
        *toward = !*toward;
      return CREASE_FREE;
    }
  return hinge->fold == CW_FOLD_NONE ? CREASE_FLAT : CREASE_FREE;
}

static double
tolerance_deg (const CwDrawing *drawing, const CwFlatCrease *creases, guint n)
{
  double longest = 1;

  for (guint i = 0; i < n; i++)
    longest = MAX (longest, creases[i].length);
  return (drawing->design->head->give.ticks + CW_TOL_VERTEX_TICKS) / longest * 180 / G_PI;
}

/* Whether the shut creases with some choice of the free ones can lie flat; if not, @worst tells about all of them. */
static gboolean
some_choice_is_flat (const CwDrawing *drawing, const CwFlatCrease *shut, guint n_shut, const CwFlatCrease *loose,
                     guint n_loose, CwFlatVertex *worst, double *longest)
{
  g_autofree CwFlatCrease *all = g_new (CwFlatCrease, n_shut + n_loose + 1);
  guint n_free = MIN (n_loose, FREE_CREASES_MAX);

  for (guint without = 0; without < 1u << n_free; without++)
    {
      guint n = n_shut;
      CwFlatVertex judged;

      for (guint i = 0; i < n_shut; i++)
        all[i] = shut[i];
      for (guint i = 0; i < n_loose; i++)
        if (i >= n_free || (without & 1u << i) == 0)
          all[n++] = loose[i];
      judged = cw_flat_vertex_judge (all, n);
      if (cw_flat_vertex_is_good (&judged, tolerance_deg (drawing, all, n)))
        return TRUE;
      if (without == 0)
        {
          *worst = judged;
          *longest = 0;
          for (guint i = 0; i < n; i++)
            *longest = MAX (*longest, all[i].length);
        }
    }
  return FALSE;
}

static char *
say_number (double value)
{
  char text[G_ASCII_DTOSTR_BUF_SIZE];

  return g_strdup (g_ascii_formatd (text, sizeof text, "%.2f", value));
}

static CwFinding *
say_vertex (const CwDrawing *drawing, const Vertex *vertex, const GArray *ends, const CwFlatVertex *judged,
            double longest, const char *step)
{
  CwFinding *finding = cw_drawing_add (drawing, CW_FINDING_WILL_NOT_FOLD_FLAT, vertex->at);
  const char *piece = drawing->map->piece->id;
  g_autofree char *n = g_strdup_printf ("%u", judged->n_creases);
  g_autofree char *n_toward = g_strdup_printf ("%u", judged->n_toward);
  g_autofree char *n_away = g_strdup_printf ("%u", judged->n_creases - judged->n_toward);

  finding->step = g_strdup (step);
  finding->fraction = 1;
  for (guint i = 0; i < vertex->n; i++)
    {
      const CreaseEnd *end = &g_array_index (ends, CreaseEnd, vertex->first + i);
      const CwHinge *hinge = &g_array_index (drawing->map->hinges, CwHinge, end->hinge);

      if (i == 0 || hinge != &g_array_index (drawing->map->hinges, CwHinge, (end - 1)->hinge))
        cw_finding_add_mark (finding, piece, hinge->scores->pdata[0]);
    }
  if (judged->n_creases % 2 == 1)
    {
      cw_finding_set_amount (finding, CW_AMOUNT_COUNT, judged->n_creases);
      cw_finding_set_words (finding,
                            N_ ("{0} folds meet at one point of “{1}”: an odd number never lies flat together."),
                            N_ ("Add a score at that point or take one away."), n, piece, NULL);
    }
  else if (judged->miss_deg > tolerance_deg (drawing, &(CwFlatCrease){ .length = longest }, 1))
    {
      g_autofree char *miss = say_number (judged->miss_deg);
      g_autofree char *shift = cw_drawing_say_length (drawing, longest * judged->miss_deg * G_PI / 180);

      cw_finding_set_amount (finding, CW_AMOUNT_DEGREES, judged->miss_deg);
      cw_finding_set_words (finding,
                            N_ ("The {0} folds that meet at one point of “{1}” cannot lie flat together: every other "
                                "angle adds up to {2} degrees more or less than 180."),
                            N_ ("Turn one score by that much: its far end moves by up to {3}."), n, piece, miss, shift,
                            NULL);
    }
  else
    {
      cw_finding_set_amount (finding, CW_AMOUNT_DEGREES, judged->miss_deg);
      cw_finding_set_words (finding,
                            N_ ("The {0} folds that meet at one point of “{1}” cannot lie flat together: {2} fold "
                                "toward you and {3} away, and these must differ by two."),
                            N_ ("Let one of the scores fold the other way."), n, piece, n_toward, n_away, NULL);
    }
  return finding;
}

static void
check_vertex (const CwDrawing *drawing, const Folded *folded, Vertex *vertex, const GArray *ends, const char *step)
{
  g_autofree CwFlatCrease *shut = g_new (CwFlatCrease, vertex->n + 1);
  g_autofree CwFlatCrease *loose = g_new (CwFlatCrease, vertex->n + 1);
  guint n_shut = 0, n_loose = 0;
  CwFlatVertex judged = { 0 };
  double longest = 0;

  for (guint i = 0; i < vertex->n; i++)
    {
      const CreaseEnd *end = &g_array_index (ends, CreaseEnd, vertex->first + i);
      CwFlatCrease crease = crease_at (drawing, vertex, end);

      switch (
        state_of_hinge (drawing, folded, &g_array_index (drawing->map->hinges, CwHinge, end->hinge), &crease.toward))
        {
        case CREASE_PART:
          return;
        case CREASE_SHUT:
          shut[n_shut++] = crease;
          break;
        case CREASE_FREE:
          loose[n_loose++] = crease;
          break;
        case CREASE_FLAT:
        default:
          break;
        }
    }
  if (n_shut == 0 || some_choice_is_flat (drawing, shut, n_shut, loose, n_loose, &judged, &longest))
    return;
  if (vertex->finding == NULL)
    vertex->finding = say_vertex (drawing, vertex, ends, &judged, longest, step);
  g_ptr_array_add (vertex->finding->steps, g_strdup (step));
}

/**
 * cw_drawing_check_points:
 * @drawing: a drawing; gets `will-not-fold-flat`
 */
void
cw_drawing_check_points (const CwDrawing *drawing)
{
  const CwPiece *piece = drawing->map->piece;
  g_autoptr (GArray) vertices = g_array_new (FALSE, FALSE, sizeof (Vertex));
  g_autoptr (GArray) ends = g_array_new (FALSE, FALSE, sizeof (CreaseEnd));
  g_autofree double *deg = g_new0 (double, piece->marks->len + 1);
  g_autofree gboolean *said = g_new0 (gboolean, piece->marks->len + 1);
  g_autofree gboolean *listed = g_new0 (gboolean, piece->marks->len + 1);
  Folded folded = { deg, said, listed };

  collect_vertices (drawing, vertices, ends);
  if (vertices->len == 0)
    return;
  for (guint s = 0; s < drawing->design->steps->len; s++)
    {
      const CwStep *step = drawing->design->steps->pdata[s];
      gboolean changed = FALSE;

      memset (listed, 0, sizeof *listed * (piece->marks->len + 1));
      for (guint i = 0; step->what == CW_DO_FOLD && i < step->folds->len; i++)
        {
          const CwStepFold *fold = step->folds->pdata[i];
          CwPiece *of;
          CwMark *mark;
          guint number;

          if (!cw_design_split_address (drawing->design, fold->score, &of, &mark) || of != piece)
            continue;
          number = cw_piece_find_mark (piece, mark->id);
          deg[number] = fold->to;
          said[number] = listed[number] = changed = TRUE;
        }
      for (guint v = 0; changed && v < vertices->len; v++)
        check_vertex (drawing, &folded, &g_array_index (vertices, Vertex, v), ends, step->id);
    }
}
