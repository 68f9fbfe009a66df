/* cw-make-graph.c: how the panels of one piece hang together.
 *
 * Panels are the nodes and fold lines the edges of a graph; its blocks (maximal sets of edges of which any two lie on a
 * common loop) are found by depth-first search with low points (Hopcroft and Tarjan, Commun. ACM 16 (1973) 372-378).
 * A fold line that is a block of its own turns freely; in a larger block one fold line moves the others.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "make/cw-make-private.h"

#include "geometry/cw-tolerance.h"
#include "panel/cw-path-flatten.h"

#include <math.h>
#include <string.h>

typedef struct
{
  const CwMakeGraph *graph;
  GPtrArray *edges_of; /* per panel: GArray of guint, its hinges */
  guint *found, *low;  /* per panel: 0 = not yet found */
  guint n_found;
  GArray *stack; /* of guint: hinges of blocks not yet complete */
} Search;

/**
 * cw_make_graph_n_hinges:
 *
 * Returns: how many fold lines the piece has
 */
guint
cw_make_graph_n_hinges (const CwMakeGraph *graph)
{
  return graph->map->hinges->len;
}

/**
 * cw_make_graph_get_hinge:
 *
 * Returns: a fold line
 */
const CwHinge *
cw_make_graph_get_hinge (const CwMakeGraph *graph, guint hinge)
{
  return &g_array_index (graph->map->hinges, CwHinge, hinge);
}

/* Only as deep as there are panels in a row. */
static void
search_panel (Search *search, guint panel, guint by_hinge)
{
  const GArray *edges = search->edges_of->pdata[panel];

  search->found[panel] = search->low[panel] = ++search->n_found;
  for (guint i = 0; i < edges->len; i++)
    {
      guint h = g_array_index (edges, guint, i);
      const CwHinge *hinge = cw_make_graph_get_hinge (search->graph, h);
      guint other = hinge->left == panel ? hinge->right : hinge->left;

      if (h == by_hinge)
        continue;
      if (search->found[other])
        {
          if (search->found[other] < search->found[panel])
            g_array_append_val (search->stack, h);
          search->low[panel] = MIN (search->low[panel], search->found[other]);
          continue;
        }
      g_array_append_val (search->stack, h);
      search_panel (search, other, h);
      search->low[panel] = MIN (search->low[panel], search->low[other]);
      if (search->low[other] < search->found[panel])
        continue;
      for (guint top = G_MAXUINT; top != h;)
        {
          top = g_array_index (search->stack, guint, search->stack->len - 1);
          g_array_set_size (search->stack, search->stack->len - 1);
          search->graph->block[top] = search->graph->n_blocks;
        }
      ((CwMakeGraph *) search->graph)->n_blocks++;
    }
}

/**
 * cw_make_graph_new:
 * @design: holds the piece
 *
 * Returns: (transfer full): how the piece hangs together
 */
CwMakeGraph *
cw_make_graph_new (const CwDesign *design, const char *piece_id)
{
  CwMakeGraph *graph = g_new0 (CwMakeGraph, 1);

  graph->set = cw_panel_set_new ((CwDesign *) design);
  graph->map = &graph->set->maps[cw_design_find_piece (design, piece_id)];
  guint n_panels = graph->map->panels->len, n_hinges = graph->map->hinges->len;
  graph->block = g_new (guint, n_hinges + 1);

  g_autoptr (GPtrArray) edges_of = g_ptr_array_new_with_free_func ((GDestroyNotify) g_array_unref);
  for (guint i = 0; i < n_panels; i++)
    g_ptr_array_add (edges_of, g_array_new (FALSE, FALSE, sizeof (guint)));
  for (guint h = 0; h < n_hinges; h++)
    {
      const CwHinge *hinge = cw_make_graph_get_hinge (graph, h);

      graph->block[h] = G_MAXUINT;
      g_array_append_val ((GArray *) edges_of->pdata[hinge->left], h);
      if (hinge->right != hinge->left)
        g_array_append_val ((GArray *) edges_of->pdata[hinge->right], h);
    }
  g_autofree guint *found = g_new0 (guint, n_panels + 1);
  g_autofree guint *low = g_new0 (guint, n_panels + 1);
  g_autoptr (GArray) stack = g_array_new (FALSE, FALSE, sizeof (guint));
  Search search = { graph, edges_of, found, low, 0, stack };
  for (guint i = 0; i < n_panels; i++)
    if (!found[i])
      search_panel (&search, i, G_MAXUINT);
  for (guint h = 0; h < n_hinges; h++)
    if (graph->block[h] == G_MAXUINT) /* both sides are one panel */
      graph->block[h] = graph->n_blocks++;
  return graph;
}

/**
 * cw_make_graph_free:
 *
 * Frees the graph.
 */
void
cw_make_graph_free (CwMakeGraph *graph)
{
  cw_panel_set_unref (graph->set);
  g_free (graph->block);
  g_free (graph);
}

/**
 * cw_make_hinge_has_score:
 *
 * Returns: whether that score makes part of the fold line
 */
gboolean
cw_make_hinge_has_score (const CwHinge *hinge, const char *mark_id)
{
  for (guint i = 0; i < hinge->scores->len; i++)
    if (strcmp (hinge->scores->pdata[i], mark_id) == 0)
      return TRUE;
  return FALSE;
}

/**
 * cw_make_graph_find_hinge:
 *
 * Returns: the first fold line that the score makes, G_MAXUINT if it folds nothing
 */
guint
cw_make_graph_find_hinge (const CwMakeGraph *graph, const char *mark_id)
{
  for (guint h = 0; h < cw_make_graph_n_hinges (graph); h++)
    if (cw_make_hinge_has_score (cw_make_graph_get_hinge (graph, h), mark_id))
      return h;
  return G_MAXUINT;
}

/**
 * cw_make_near:
 *
 * Returns: whether the two are one place, to the tick that an end may miss by
 */
gboolean
cw_make_near (CwPoint a, CwPoint b)
{
  return ABS (a.x - b.x) <= CW_TOL_MEETS_TICKS && ABS (a.y - b.y) <= CW_TOL_MEETS_TICKS;
}

/**
 * cw_make_on_line:
 * @points: (element-type CwPoint): a polyline
 * @at_end: (out) (optional): whether @p is one of its two ends
 *
 * Returns: whether @p lies on the polyline
 */
gboolean
cw_make_on_line (const GArray *points, CwPoint p, gboolean *at_end)
{
  guint n = points->len;
  gboolean on = FALSE;

  for (guint i = 0; i + 1 < n && !on; i++)
    on = cw_segment_distance (g_array_index (points, CwPoint, i), g_array_index (points, CwPoint, i + 1), p.x, p.y)
         <= CW_TOL_MEETS_TICKS;
  if (at_end)
    *at_end = n > 0
              && (cw_make_near (p, g_array_index (points, CwPoint, 0))
                  || cw_make_near (p, g_array_index (points, CwPoint, n - 1)));
  return on;
}

/**
 * cw_make_parallel:
 *
 * Returns: whether p q and a b run the same way, to the tick that the end of the shorter may miss by
 */
gboolean
cw_make_parallel (CwPoint p, CwPoint q, CwPoint a, CwPoint b)
{
  double px = (double) q.x - p.x, py = (double) q.y - p.y, ax = (double) b.x - a.x, ay = (double) b.y - a.y;

  return fabs (px * ay - py * ax) <= CW_TOL_MEETS_TICKS * MAX (hypot (px, py), hypot (ax, ay));
}

/**
 * cw_make_graph_hinge_spans:
 *
 * Returns: whether the fold line runs right across the piece, from edge to edge, as a spine does and the fold of a
 * small corner does not: at least three quarters of the piece's shorter side
 */
gboolean
cw_make_graph_hinge_spans (const CwMakeGraph *graph, guint hinge)
{
  const CwHinge *h = cw_make_graph_get_hinge (graph, hinge);
  g_autoptr (GArray) ring = cw_path_flatten (&graph->map->piece->outline, TRUE);
  double shorter = MIN (graph->map->box_max.x - graph->map->box_min.x, graph->map->box_max.y - graph->map->box_min.y);

  if (ring->len == 0)
    return FALSE;
  CwPoint first = g_array_index (ring, CwPoint, 0);
  g_array_append_val (ring, first);
  return cw_make_on_line (ring, h->p, NULL) && cw_make_on_line (ring, h->q, NULL)
         && 4 * hypot (h->q.x - h->p.x, h->q.y - h->p.y) >= 3 * shorter;
}

/**
 * cw_make_graph_distance:
 * @closed: per hinge: whether the way may not go over it
 *
 * Returns: over how many fold lines the shortest way from one panel to another goes, G_MAXUINT if there is none
 */
guint
cw_make_graph_distance (const CwMakeGraph *graph, guint from, guint to, const gboolean *closed)
{
  guint n_panels = graph->map->panels->len;
  g_autofree guint *far = g_new (guint, n_panels + 1);
  gboolean changed = TRUE;

  for (guint i = 0; i < n_panels; i++)
    far[i] = i == from ? 0 : G_MAXUINT;
  while (changed)
    {
      changed = FALSE;
      for (guint h = 0; h < cw_make_graph_n_hinges (graph); h++)
        {
          const CwHinge *hinge = cw_make_graph_get_hinge (graph, h);
          guint *a = &far[hinge->left], *b = &far[hinge->right];

          if (closed[h])
            continue;
          if (*a != G_MAXUINT && (*b == G_MAXUINT || *b > *a + 1))
            *b = *a + 1, changed = TRUE;
          else if (*b != G_MAXUINT && (*a == G_MAXUINT || *a > *b + 1))
            *a = *b + 1, changed = TRUE;
        }
    }
  return far[to];
}

/**
 * cw_make_point_in:
 * @snap: the maker's marks, ticks
 *
 * Returns: a point well inside @polygon, on the maker's marks if they meet it
 */
CwPoint
cw_make_point_in (const CwPolygon *polygon, gint32 snap)
{
  CwPoint p = cw_polygon_inside_point (polygon);
  CwPoint on_mark = cw_point (cw_ticks_snap (p.x, snap), cw_ticks_snap (p.y, snap));

  return cw_polygon_contains (polygon, on_mark.x, on_mark.y) ? on_mark : p;
}

/**
 * cw_make_graph_guess_hold:
 * @snap: the maker's marks, ticks
 *
 * The panel that stays still on the table: the largest; of panels about as large (four fifths), the one farthest to the
 * right and the bottom, as a card lies when its front is opened.
 *
 * Returns: a point of that panel, on the maker's marks if they meet it
 */
CwPoint
cw_make_graph_guess_hold (const CwMakeGraph *graph, gint32 snap)
{
  const GArray *panels = graph->map->panels;
  gint64 largest = 0, best_at = G_MININT64;
  guint best = 0;

  if (panels->len == 0)
    return cw_point (0, 0);
  for (guint i = 0; i < panels->len; i++)
    largest = MAX (largest, g_array_index (panels, CwPanel, i).area2);
  for (guint i = 0; i < panels->len; i++)
    {
      const CwPanel *panel = &g_array_index (panels, CwPanel, i);
      CwPoint low, high;

      cw_polygon_bounds (&panel->outline, &low, &high);
      gint64 at = (gint64) low.x + high.x + low.y + high.y;
      if (5 * panel->area2 >= 4 * largest && at > best_at)
        {
          best = i;
          best_at = at;
        }
    }
  return cw_make_point_in (&g_array_index (panels, CwPanel, best).outline, snap);
}
