/* cw-sheet.c: nodes outline, windows, cuts and scores of a piece together and finds the faces between them.
 *
 * Method (kernel, section 2): all straight segments go into one noding; the faces of what comes out are told apart
 * into paper, thrown away (inside a window) and outside (not inside the outline) by the shapes as drawn, even-odd, so
 * that a window in a window is still thrown away and one that crosses the outline bites the edge. Curved scores take
 * no part. Faces thinner than two ticks all along, which noding leaves between lines that all but fall together, are
 * joined to the neighbour they share most with. A score that ends inside a face does not bound it, so it divides
 * nothing without a rule of its own.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "panel/cw-sheet.h"

#include "geometry/cw-tolerance.h"
#include "panel/cw-path-flatten.h"

#include <math.h>

static void
add_source (CwSheet *sheet, GArray *raw, guint mark, guint segment, CwPoint a, CwPoint b)
{
  CwSheetSource source = { mark, segment, a, b };
  CwEdge edge = { a, b, 0 };

  if (mark == CW_SHEET_OUTLINE)
    edge.tag = CW_SHEET_EDGE;
  else
    switch (((const CwMark *) sheet->piece->marks->pdata[mark])->kind)
      {
      case CW_MARK_SCORE:
        edge.tag = CW_SHEET_SCORE;
        break;
      case CW_MARK_CUT:
        edge.tag = CW_SHEET_CUT;
        break;
      case CW_MARK_WINDOW:
        edge.tag = CW_SHEET_WINDOW;
        break;
      default:
        g_return_if_reached ();
      }
  g_array_append_val (sheet->sources, source);
  g_array_append_val (raw, edge);
}

static void
add_shape (CwSheet *sheet, GArray *raw, guint mark, const GArray *points, gboolean closed)
{
  for (guint i = 0; i + (closed ? 0 : 1) < points->len; i++)
    add_source (sheet, raw, mark, i, g_array_index (points, CwPoint, i),
                g_array_index (points, CwPoint, i + 1 < points->len ? i + 1 : 0));
}

static GArray *
collect_sources (CwSheet *sheet)
{
  GArray *raw = g_array_new (FALSE, FALSE, sizeof (CwEdge));
  const CwPiece *piece = sheet->piece;

  sheet->outline = cw_path_flatten (&piece->outline, TRUE);
  add_shape (sheet, raw, CW_SHEET_OUTLINE, sheet->outline, TRUE);
  for (guint m = 0; m < piece->marks->len; m++)
    {
      const CwMark *mark = piece->marks->pdata[m];
      GArray *points = cw_mark_flatten (mark);
      gboolean curved = mark->kind == CW_MARK_SCORE && cw_path_is_curved (&mark->line);

      g_ptr_array_add (sheet->shapes, points);
      g_array_append_val (sheet->is_curved, curved);
      if (!curved)
        add_shape (sheet, raw, m, points, mark->kind == CW_MARK_WINDOW);
    }
  return raw;
}

static gboolean
ring_contains (const GArray *points, double x, double y)
{
  CwRing ring = { points->len, (CwPoint *) (void *) points->data };
  CwPolygon polygon = { 1, &ring };

  return cw_polygon_contains (&polygon, x, y);
}

/**
 * cw_sheet_kind_at:
 * @sheet: a sheet
 * @x: ticks
 * @y: ticks
 *
 * Returns: what is at that point by the shapes as drawn
 */
CwSheetFaceKind
cw_sheet_kind_at (const CwSheet *sheet, double x, double y)
{
  g_return_val_if_fail (sheet != NULL, CW_FACE_OUTSIDE);

  if (!ring_contains (sheet->outline, x, y))
    return CW_FACE_OUTSIDE;
  for (guint m = 0; m < sheet->shapes->len; m++)
    if (((const CwMark *) sheet->piece->marks->pdata[m])->kind == CW_MARK_WINDOW
        && ring_contains (sheet->shapes->pdata[m], x, y))
      return CW_FACE_WINDOW;
  return CW_FACE_PAPER;
}

static int
compare_edge_ends (const CwSheetEdge *edge, CwPoint a, CwPoint b)
{
  gint32 x[4] = { edge->a.x, edge->a.y, edge->b.x, edge->b.y }, y[4] = { a.x, a.y, b.x, b.y };

  for (int i = 0; i < 4; i++)
    if (x[i] != y[i])
      return x[i] < y[i] ? -1 : 1;
  return 0;
}

/**
 * cw_sheet_find_edge:
 * @sheet: a sheet
 * @a: one end
 * @b: other end
 * @forward: (out): whether the edge runs from @a to @b
 *
 * Returns: (transfer none) (nullable): the edge between two places, either way round
 */
CwSheetEdge *
cw_sheet_find_edge (const CwSheet *sheet, CwPoint a, CwPoint b, gboolean *forward)
{
  guint low = 0, high = sheet->edges->len;

  *forward = a.x < b.x || (a.x == b.x && a.y < b.y);
  if (!*forward)
    {
      CwPoint c = a;

      a = b;
      b = c;
    }
  while (low < high)
    {
      guint middle = low + (high - low) / 2;
      CwSheetEdge *edge = &g_array_index (sheet->edges, CwSheetEdge, middle);
      int order = compare_edge_ends (edge, a, b);

      if (order == 0)
        return edge;
      if (order < 0)
        low = middle + 1;
      else
        high = middle;
    }
  return NULL;
}

static void
find_faces (CwSheet *sheet)
{
  g_autoptr (GArray) kept = g_array_new (FALSE, FALSE, sizeof (CwEdge));

  for (guint i = 0; i < sheet->edges->len; i++)
    {
      CwSheetEdge *edge = &g_array_index (sheet->edges, CwSheetEdge, i);
      CwEdge plain = { edge->a, edge->b, 0 };

      edge->left = edge->right = CW_SHEET_NO_FACE;
      if ((edge->flags & CW_SHEET_DROPPED) == 0)
        g_array_append_val (kept, plain);
    }
  g_clear_pointer (&sheet->faces, g_array_unref);
  sheet->faces = cw_edges_faces (kept);
  for (guint f = 0; f < sheet->faces->len; f++)
    {
      const CwPolygon *face = &g_array_index (sheet->faces, CwPolygon, f);

      for (guint r = 0; r < face->n_rings; r++)
        for (guint i = 0, n = face->rings[r].n_points; i < n; i++)
          {
            gboolean forward;
            CwSheetEdge *edge
              = cw_sheet_find_edge (sheet, face->rings[r].points[i], face->rings[r].points[(i + 1) % n], &forward);

            /* Rings run clockwise as seen round paper: the face is on the right. */
            if (edge != NULL && forward)
              edge->right = f;
            else if (edge != NULL)
              edge->left = f;
          }
    }
}

static double
edge_length (const CwSheetEdge *edge)
{
  return hypot ((double) edge->b.x - edge->a.x, (double) edge->b.y - edge->a.y);
}

/* Takes out the longest edge of every sliver; FALSE when there was none. */
static gboolean
drop_sliver_edges (CwSheet *sheet)
{
  guint n = sheet->faces->len;
  g_autofree double *round = g_new0 (double, n + 1);
  g_autofree CwSheetEdge **longest = g_new0 (CwSheetEdge *, n + 1);
  gboolean dropped = FALSE;

  for (guint i = 0; i < sheet->edges->len; i++)
    {
      CwSheetEdge *edge = &g_array_index (sheet->edges, CwSheetEdge, i);
      guint sides[2] = { edge->left, edge->right };

      for (int k = 0; k < 2; k++)
        if (sides[k] != CW_SHEET_NO_FACE)
          {
            round[sides[k]] += edge_length (edge);
            if (longest[sides[k]] == NULL || edge_length (edge) > edge_length (longest[sides[k]]))
              longest[sides[k]] = edge;
          }
    }
  for (guint f = 0; f < n; f++)
    {
      double area2 = (double) cw_polygon_area2 (&g_array_index (sheet->faces, CwPolygon, f));

      /* A strip of width w and length l has twice the area 2 w l and is 2 l round. */
      if (longest[f] != NULL && area2 < CW_TOL_SLIVER_TICKS * round[f])
        {
          longest[f]->flags |= CW_SHEET_DROPPED;
          dropped = TRUE;
        }
    }
  return dropped;
}

static int
compare_ends (const void *one, const void *two)
{
  const CwSheetEnd *a = one, *b = two;

  if (!cw_point_equal (a->at, b->at))
    return a->at.x < b->at.x || (a->at.x == b->at.x && a->at.y < b->at.y) ? -1 : 1;
  return a->edge < b->edge ? -1 : a->edge > b->edge;
}

static void
collect_ends (CwSheet *sheet)
{
  sheet->ends = g_array_new (FALSE, FALSE, sizeof (CwSheetEnd));
  for (guint i = 0; i < sheet->edges->len; i++)
    {
      const CwSheetEdge *edge = &g_array_index (sheet->edges, CwSheetEdge, i);
      CwSheetEnd ends[2] = { { edge->a, i }, { edge->b, i } };

      g_array_append_vals (sheet->ends, ends, 2);
    }
  g_array_sort (sheet->ends, compare_ends);
}

/**
 * cw_sheet_new:
 * @piece: a piece; must outlive the sheet
 *
 * Returns: (transfer full): its drawing, cut up
 */
CwSheet *
cw_sheet_new (const CwPiece *piece)
{
  CwSheet *sheet;
  g_autoptr (GArray) raw = NULL;
  g_autoptr (GArray) noded = NULL;

  g_return_val_if_fail (piece != NULL, NULL);

  sheet = g_new0 (CwSheet, 1);
  sheet->piece = piece;
  sheet->shapes = g_ptr_array_new_with_free_func ((GDestroyNotify) g_array_unref);
  sheet->is_curved = g_array_new (FALSE, FALSE, sizeof (gboolean));
  sheet->sources = g_array_new (FALSE, FALSE, sizeof (CwSheetSource));
  sheet->edges = g_array_new (FALSE, FALSE, sizeof (CwSheetEdge));
  sheet->face_kinds = g_array_new (FALSE, FALSE, sizeof (CwSheetFaceKind));
  raw = collect_sources (sheet);
  noded = cw_edges_node (raw, &sheet->links);
  for (guint i = 0, k = 0; i < noded->len; i++)
    {
      const CwEdge *plain = &g_array_index (noded, CwEdge, i);
      CwSheetEdge edge = { plain->a, plain->b, (guint) plain->tag, k, 0, CW_SHEET_NO_FACE, CW_SHEET_NO_FACE };

      for (; k < sheet->links->len && g_array_index (sheet->links, CwEdgeLink, k).noded == i; k++)
        edge.n_links++;
      g_array_append_val (sheet->edges, edge);
    }

  collect_ends (sheet);
  find_faces (sheet);
  while (drop_sliver_edges (sheet))
    find_faces (sheet);
  for (guint f = 0; f < sheet->faces->len; f++)
    {
      CwPoint p = cw_polygon_inside_point (&g_array_index (sheet->faces, CwPolygon, f));
      CwSheetFaceKind kind = cw_sheet_kind_at (sheet, p.x, p.y);

      g_array_append_val (sheet->face_kinds, kind);
    }
  return sheet;
}

/**
 * cw_sheet_free:
 * @sheet: (nullable): a sheet
 */
void
cw_sheet_free (CwSheet *sheet)
{
  if (sheet == NULL)
    return;
  g_array_unref (sheet->outline);
  g_ptr_array_unref (sheet->shapes);
  g_array_unref (sheet->is_curved);
  g_array_unref (sheet->sources);
  g_array_unref (sheet->edges);
  g_array_unref (sheet->ends);
  g_array_unref (sheet->links);
  g_array_unref (sheet->faces);
  g_array_unref (sheet->face_kinds);
  g_free (sheet);
}

/**
 * cw_sheet_get_source:
 * @sheet: a sheet
 * @edge: one of its edges
 * @i: under @edge's n_links
 *
 * Returns: (transfer none): the drawn segment that runs along it; outline first, then marks in file order
 */
const CwSheetSource *
cw_sheet_get_source (const CwSheet *sheet, const CwSheetEdge *edge, guint i)
{
  const CwEdgeLink *link;

  g_return_val_if_fail (sheet != NULL && edge != NULL && i < edge->n_links, NULL);

  link = &g_array_index (sheet->links, CwEdgeLink, edge->first_link + i);
  return &g_array_index (sheet->sources, CwSheetSource, link->source);
}

/**
 * cw_sheet_count_ends:
 * @sheet: a sheet
 * @first: place of a node's first end among the sheet's ends
 *
 * Returns: how many edges meet at that node
 */
guint
cw_sheet_count_ends (const CwSheet *sheet, guint first)
{
  guint n = 1;

  g_return_val_if_fail (sheet != NULL && first < sheet->ends->len, 0);

  while (first + n < sheet->ends->len
         && cw_point_equal (g_array_index (sheet->ends, CwSheetEnd, first + n).at,
                            g_array_index (sheet->ends, CwSheetEnd, first).at))
    n++;
  return n;
}

/**
 * cw_sheet_edge_on_paper:
 * @sheet: a sheet
 * @edge: one of its edges
 *
 * Returns: whether the edge has paper on at least one side
 */
gboolean
cw_sheet_edge_on_paper (const CwSheet *sheet, const CwSheetEdge *edge)
{
  g_return_val_if_fail (sheet != NULL && edge != NULL, FALSE);

  if (edge->left == CW_SHEET_NO_FACE && edge->right == CW_SHEET_NO_FACE)
    return cw_sheet_kind_at (sheet, ((double) edge->a.x + edge->b.x) / 2, ((double) edge->a.y + edge->b.y) / 2)
           == CW_FACE_PAPER;
  return (edge->left != CW_SHEET_NO_FACE
          && g_array_index (sheet->face_kinds, CwSheetFaceKind, edge->left) == CW_FACE_PAPER)
         || (edge->right != CW_SHEET_NO_FACE
             && g_array_index (sheet->face_kinds, CwSheetFaceKind, edge->right) == CW_FACE_PAPER);
}
