/* cw-pile.c: cuts a plane up by the outlines of the panels that lie in it (cw-pile-lines.c).
 *
 * Outlines are rounded to ticks in the plane; corners that all but fall together are joined, edges are bent to corners
 * that all but lie on them (a slanted fold lays them so), edges that fall together are kept once, and the rest is noded
 * and made into faces by cw-region.c. What is narrower than rounding makes is dropped. Which panels lie over a face is
 * asked at a point inside it, in each panel's own flat coordinates. A stack of any height over one outline costs no
 * more than one sheet, apart from its corners.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "contact/cw-pile.h"

#include <stdlib.h>
#include <string.h>

#include "geometry/cw-edges.h"
#include "geometry/cw-tolerance.h"

static gboolean
is_sliver (const CwPolygon *face)
{
  double round = 0;

  for (guint r = 0; r < face->n_rings; r++)
    for (guint k = 0; k < face->rings[r].n_points; k++)
      {
        CwPoint a = face->rings[r].points[k], b = face->rings[r].points[(k + 1) % face->rings[r].n_points];

        round += hypot ((double) b.x - a.x, (double) b.y - a.y);
      }
  /* A strip's area is its width times half its outline. */
  return (double) cw_polygon_area2 (face) < CW_TOL_CELL_TICKS * round / 2 * 2;
}

/* --- Which members lie where -------------------------------------------------------------------------------------- */

typedef struct
{
  guint member;
  double left, top, right, bottom; /* in the plane */
  CwRigid back;                    /* plane to flat */
} Reach;

static int
compare_reaches (const void *one, const void *two)
{
  const Reach *a = one, *b = two;

  if (a->left < b->left || a->left > b->left)
    return a->left < b->left ? -1 : 1;
  return a->member < b->member ? -1 : a->member > b->member;
}

static GArray *
find_reaches (const CwPile *pile)
{
  GArray *reaches = g_array_sized_new (FALSE, FALSE, sizeof (Reach), pile->n_members);

  for (guint i = 0; i < pile->n_members; i++)
    {
      const CwLaid *laid = &pile->members[i];
      Reach reach = { i, INFINITY, INFINITY, -INFINITY, -INFINITY, cw_rigid_inverse (&laid->place) };

      for (guint k = 0; laid->outline->n_rings > 0 && k < laid->outline->rings[0].n_points; k++)
        {
          CwPoint p = cw_laid_point (laid, laid->outline->rings[0].points[k]);

          reach.left = MIN (reach.left, p.x);
          reach.top = MIN (reach.top, p.y);
          reach.right = MAX (reach.right, p.x);
          reach.bottom = MAX (reach.bottom, p.y);
        }
      g_array_append_val (reaches, reach);
    }
  g_array_sort (reaches, compare_reaches);
  return reaches;
}

typedef struct
{
  guint face;
  CwPoint inside;
} Probe;

static int
compare_probes (const void *one, const void *two)
{
  const Probe *a = one, *b = two;
  int first = cw_point_compare (a->inside, b->inside);

  return first != 0 ? first : (a->face < b->face ? -1 : a->face > b->face);
}

static int
compare_numbers (const void *one, const void *two)
{
  guint a = *(const guint *) one, b = *(const guint *) two;

  return a < b ? -1 : a > b;
}

/* Members over every face, by one sweep from left to right; faces without any get none. */
static GPtrArray *
find_members (const CwPile *pile, const GArray *probes, guint n_faces)
{
  GPtrArray *lists = g_ptr_array_new ();
  g_autoptr (GArray) reaches = find_reaches (pile);
  g_autoptr (GArray) open = g_array_new (FALSE, FALSE, sizeof (guint));
  guint next = 0;

  g_ptr_array_set_size (lists, (gint) n_faces);
  for (guint i = 0; i < probes->len; i++)
    {
      const Probe *probe = &g_array_index (probes, Probe, i);
      GArray *list = g_array_new (FALSE, FALSE, sizeof (guint));
      double x = probe->inside.x, y = probe->inside.y;
      guint kept = 0;

      for (; next < reaches->len && g_array_index (reaches, Reach, next).left <= x; next++)
        g_array_append_val (open, next);
      for (guint k = 0; k < open->len; k++)
        {
          guint which = g_array_index (open, guint, k);
          const Reach *reach = &g_array_index (reaches, Reach, which);
          CwVec3 flat;

          if (reach->right < x)
            continue;
          g_array_index (open, guint, kept++) = which;
          if (reach->top > y || reach->bottom < y)
            continue;
          flat = cw_rigid_apply (&reach->back, cw_vec3 (x, y, 0));
          if (cw_polygon_contains (pile->members[reach->member].outline, flat.x, flat.y))
            g_array_append_val (list, reach->member);
        }
      g_array_set_size (open, kept);
      g_array_sort (list, compare_numbers);
      lists->pdata[probe->face] = list;
    }
  return lists;
}

static void
cell_clear (void *data)
{
  CwPileCell *cell = data;

  cw_polygon_clear (&cell->outline);
  g_free (cell->members);
}

static void
find_cells (CwPile *pile, GArray *faces)
{
  g_autoptr (GArray) probes = g_array_new (FALSE, FALSE, sizeof (Probe));
  GPtrArray *lists;

  for (guint i = 0; i < faces->len; i++)
    {
      const CwPolygon *face = &g_array_index (faces, CwPolygon, i);
      Probe probe = { i, { 0, 0 } };

      if (is_sliver (face))
        continue;
      probe.inside = cw_polygon_inside_point (face);
      g_array_append_val (probes, probe);
    }
  g_array_sort (probes, compare_probes);
  lists = find_members (pile, probes, faces->len);
  for (guint i = 0; i < faces->len; i++)
    {
      CwPolygon *face = &g_array_index (faces, CwPolygon, i);
      GArray *list = lists->pdata[i];
      CwPileCell cell = { 0 };

      if (list == NULL || list->len == 0)
        {
          g_clear_pointer (&list, g_array_unref);
          continue;
        }
      cell.outline = *face;
      *face = (CwPolygon){ 0 };
      cell.area2 = cw_polygon_area2 (&cell.outline);
      cell.inside = cw_polygon_inside_point (&cell.outline);
      cell.n_members = list->len;
      cell.members = (guint *) (void *) g_array_free (list, FALSE);
      g_array_append_val (pile->cells, cell);
    }
  g_ptr_array_unref (lists);
}

/* --- Edges and seams --------------------------------------------------------------------------------------------- */

/* One way along an edge, and the cell to its right. */
typedef struct
{
  CwPoint a, b;
  guint cell;
} Border;

static int
compare_borders (const void *one, const void *two)
{
  const Border *a = one, *b = two;
  int first = cw_point_compare (a->a, b->a);

  return first != 0 ? first : cw_point_compare (a->b, b->b);
}

static guint
find_border (const GArray *borders, CwPoint a, CwPoint b)
{
  Border key = { a, b, 0 };
  const Border *found = bsearch (&key, borders->data, borders->len, sizeof (Border), compare_borders);

  return found ? found->cell : G_MAXUINT;
}

static void
find_edges (CwPile *pile, const GArray *noded)
{
  g_autoptr (GArray) borders = g_array_new (FALSE, FALSE, sizeof (Border));

  for (guint i = 0; i < pile->cells->len; i++)
    {
      const CwPolygon *outline = &g_array_index (pile->cells, CwPileCell, i).outline;

      for (guint r = 0; r < outline->n_rings; r++)
        {
          const CwRing *ring = &outline->rings[r];
          gint64 area2 = cw_ring_area2 (ring);
          /* y down: orient() is positive to the right, so a ring of positive area keeps its inside to the right; rings
           * of holes keep the cell outside of them. */
          gboolean right = (area2 > 0) == (r == 0);

          for (guint k = 0; k < ring->n_points; k++)
            {
              CwPoint a = ring->points[k], b = ring->points[(k + 1) % ring->n_points];
              Border border = { right ? a : b, right ? b : a, i };

              g_array_append_val (borders, border);
            }
        }
    }
  g_array_sort (borders, compare_borders);
  for (guint i = 0; i < noded->len; i++)
    {
      const CwEdge *e = &g_array_index (noded, CwEdge, i);
      CwPileEdge edge = { e->a, e->b, { find_border (borders, e->b, e->a), find_border (borders, e->a, e->b) }, 0, 0 };

      if (edge.cell[0] != G_MAXUINT || edge.cell[1] != G_MAXUINT)
        g_array_append_val (pile->edges, edge);
    }
}

typedef struct
{
  guint edge, seam;
} Along;

static int
compare_alongs (const void *one, const void *two)
{
  const Along *a = one, *b = two;

  if (a->edge != b->edge)
    return a->edge < b->edge ? -1 : 1;
  return a->seam < b->seam ? -1 : a->seam > b->seam;
}

/* Seams lie along edges of the outlines; an edge belongs to those its ends lie on. Edges are sorted by their left ends,
 * so those of one seam are a run. */
static void
lay_seams (CwPile *pile)
{
  g_autoptr (GArray) list = g_array_new (FALSE, FALSE, sizeof (Along));

  for (guint j = 0; j < pile->n_seams; j++)
    {
      const CwSeam *seam = &pile->seams[j];
      double reach = 2 * CW_TOL_LAID_TICKS;
      double left = MIN (seam->p.x, seam->q.x) - reach, right = MAX (seam->p.x, seam->q.x) + reach;
      guint low = 0, high = pile->edges->len;

      while (low < high)
        {
          guint middle = (low + high) / 2;

          if (g_array_index (pile->edges, CwPileEdge, middle).a.x < left)
            low = middle + 1;
          else
            high = middle;
        }
      for (; low < pile->edges->len && g_array_index (pile->edges, CwPileEdge, low).a.x <= right; low++)
        {
          const CwPileEdge *edge = &g_array_index (pile->edges, CwPileEdge, low);
          Along along = { low, j };

          if (edge->b.x <= right && cw_segment_distance (seam->p, seam->q, edge->a.x, edge->a.y) <= reach
              && cw_segment_distance (seam->p, seam->q, edge->b.x, edge->b.y) <= reach
              && hypot ((double) edge->b.x - edge->a.x, (double) edge->b.y - edge->a.y) > 2 * reach)
            g_array_append_val (list, along);
        }
    }
  g_array_sort (list, compare_alongs);
  for (guint i = 0; i < list->len; i++)
    {
      const Along *along = &g_array_index (list, Along, i);
      CwPileEdge *edge = &g_array_index (pile->edges, CwPileEdge, along->edge);

      if (edge->n_seams++ == 0)
        edge->first_seam = i;
      g_array_append_val (pile->seam_list, along->seam);
    }
}

static void
index_members (CwPile *pile)
{
  guint n = 0;
  g_autofree guint *fill = NULL;

  pile->first_of = g_new0 (guint, pile->n_members + 2);
  for (guint i = 0; i < pile->cells->len; i++)
    {
      const CwPileCell *cell = &g_array_index (pile->cells, CwPileCell, i);

      for (guint k = 0; k < cell->n_members; k++)
        pile->first_of[cell->members[k] + 1]++;
      n += cell->n_members;
    }
  for (guint i = 0; i < pile->n_members; i++)
    pile->first_of[i + 1] += pile->first_of[i];
  pile->cells_of = g_new (guint, n + 1);
  fill = g_memdup2 (pile->first_of, (pile->n_members + 1) * sizeof (guint));
  for (guint i = 0; i < pile->cells->len; i++)
    {
      const CwPileCell *cell = &g_array_index (pile->cells, CwPileCell, i);

      for (guint k = 0; k < cell->n_members; k++)
        pile->cells_of[fill[cell->members[k]]++] = i;
    }
}

/**
 * cw_pile_new:
 * @members: (array length=n_members): panels as they lie; their outlines must outlive the pile
 * @n_members: how many
 * @seams: (array length=n_seams) (nullable): where two of them hang together
 * @n_seams: how many
 *
 * Returns: (transfer full): the plane cut up; in every cell the members in growing order
 */
CwPile *
cw_pile_new (const CwLaid *members, guint n_members, const CwSeam *seams, guint n_seams)
{
  CwPile *pile;
  g_autoptr (GArray) lines = NULL;
  g_autoptr (GArray) noded = NULL;
  g_autoptr (GArray) faces = NULL;

  g_return_val_if_fail (members != NULL || n_members == 0, NULL);
  g_return_val_if_fail (seams != NULL || n_seams == 0, NULL);

  pile = g_new0 (CwPile, 1);
  pile->n_members = n_members;
  pile->n_seams = n_seams;
  pile->members = g_memdup2 (members, n_members * sizeof (CwLaid));
  pile->seams = g_memdup2 (seams, n_seams * sizeof (CwSeam));
  pile->cells = g_array_new (FALSE, FALSE, sizeof (CwPileCell));
  pile->edges = g_array_new (FALSE, FALSE, sizeof (CwPileEdge));
  pile->seam_list = g_array_new (FALSE, FALSE, sizeof (guint));
  g_array_set_clear_func (pile->cells, cell_clear);

  lines = cw_pile_find_lines (members, n_members);
  noded = cw_edges_node (lines, NULL);
  faces = cw_edges_faces (noded);
  find_cells (pile, faces);
  find_edges (pile, noded);
  lay_seams (pile);
  index_members (pile);
  return pile;
}

/**
 * cw_pile_free:
 * @pile: (transfer full) (nullable): an pile
 */
void
cw_pile_free (CwPile *pile)
{
  if (pile == NULL)
    return;
  g_array_unref (pile->cells);
  g_array_unref (pile->edges);
  g_array_unref (pile->seam_list);
  g_free (pile->members);
  g_free (pile->seams);
  g_free (pile->first_of);
  g_free (pile->cells_of);
  g_free (pile);
}

/**
 * cw_pile_find_cell:
 * @pile: an pile
 * @x: a place in the plane, ticks
 * @y: a place in the plane, ticks
 *
 * Returns: the cell that contains it; %G_MAXUINT when none does
 */
guint
cw_pile_find_cell (const CwPile *pile, double x, double y)
{
  g_return_val_if_fail (pile != NULL, G_MAXUINT);

  for (guint i = 0; i < pile->cells->len; i++)
    if (cw_polygon_contains (&g_array_index (pile->cells, CwPileCell, i).outline, x, y))
      return i;
  return G_MAXUINT;
}
