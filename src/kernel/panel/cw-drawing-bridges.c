/* cw-drawing-bridges.c: paper that holds by too little between cuts, or between a cut and the edge.
 *
 * Two lines that bound paper (outline, windows, cuts; scores do not) make a bridge where a straight way between them
 * runs through paper and a circle over that way touches nothing nearer: a narrowest place, or the middle of a strip
 * with sides within 11 degrees of parallel. So a corner, however sharp, is no bridge, and a slit that ends near the
 * edge is one. The narrowest is told. Elementary geometry, no source.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "panel/cw-drawing-fault.h"

#include "cw-config.h"
#include "geometry/cw-house.h"
#include "geometry/cw-tolerance.h"

#include <glib/gi18n-lib.h>
#include <math.h>

/* A way between two bounds. */
typedef struct
{
  double width, x, y; /* its length and middle, ticks */
  guint one, other;   /* edges of the sheet */
} Bridge;

typedef struct
{
  CwPoint low, high; /* its box */
  guint edge;
} Bound;

/* The search: bounds sorted by the left side of their boxes, and again in upright bands one house value wide, so that
 * what is near a place is found in its band and the next ones. */
typedef struct
{
  const CwDrawing *drawing;
  const GArray *told; /* panels */
  GArray *bounds;     /* of Bound */
  GPtrArray *bands;   /* of GArray of guint, places among bounds */
  gint32 left;        /* where the first band starts */
  Bridge best;
  gboolean found;
} Search;

static int
compare_bounds (const void *one, const void *two)
{
  const Bound *a = one, *b = two;

  if (a->low.x != b->low.x)
    return a->low.x < b->low.x ? -1 : 1;
  return a->edge < b->edge ? -1 : a->edge > b->edge;
}

static guint
band_of (const Search *search, double x)
{
  double band = floor ((x - search->left) / CW_HOUSE_THIN_STRIP);

  return (guint) CLAMP (band, 0, (double) search->bands->len - 1);
}

static void
collect_bounds (Search *search)
{
  const CwSheet *sheet = search->drawing->sheet;
  gint32 right = G_MININT32;

  search->bounds = g_array_new (FALSE, FALSE, sizeof (Bound));
  search->bands = g_ptr_array_new_with_free_func ((GDestroyNotify) g_array_unref);
  search->left = G_MAXINT32;
  for (guint i = 0; i < sheet->edges->len; i++)
    {
      const CwSheetEdge *edge = &g_array_index (sheet->edges, CwSheetEdge, i);
      Bound bound = { { MIN (edge->a.x, edge->b.x), MIN (edge->a.y, edge->b.y) },
                      { MAX (edge->a.x, edge->b.x), MAX (edge->a.y, edge->b.y) },
                      i };

      if ((edge->flags & CW_SHEET_OPEN) == 0 || (edge->flags & CW_SHEET_DROPPED) != 0
          || !cw_sheet_edge_on_paper (sheet, edge))
        continue;
      g_array_append_val (search->bounds, bound);
      search->left = MIN (search->left, bound.low.x);
      right = MAX (right, bound.high.x);
    }
  g_array_sort (search->bounds, compare_bounds);
  for (gint32 x = search->left; x <= right; x += CW_HOUSE_THIN_STRIP)
    g_ptr_array_add (search->bands, g_array_new (FALSE, FALSE, sizeof (guint)));
  for (guint i = 0; i < search->bounds->len; i++)
    {
      const Bound *bound = &g_array_index (search->bounds, Bound, i);

      for (guint k = band_of (search, bound->low.x), last = band_of (search, bound->high.x); k <= last; k++)
        g_array_append_val ((GArray *) search->bands->pdata[k], i);
    }
}

/* Whether the way runs through paper and nothing stands nearer to its middle than its ends. */
static gboolean
is_bridge (const Search *search, const Bridge *bridge)
{
  const CwSheet *sheet = search->drawing->sheet;
  double room = bridge->width / 2 * CW_TOL_BRIDGE_SHARE;

  for (guint k = band_of (search, bridge->x - room), last = band_of (search, bridge->x + room); k <= last; k++)
    {
      const GArray *band = search->bands->pdata[k];

      for (guint i = 0; i < band->len; i++)
        {
          const Bound *bound = &g_array_index (search->bounds, Bound, g_array_index (band, guint, i));
          const CwSheetEdge *edge = &g_array_index (sheet->edges, CwSheetEdge, bound->edge);

          if (bound->low.y <= bridge->y + room && bound->high.y >= bridge->y - room
              && cw_segment_distance (edge->a, edge->b, bridge->x, bridge->y) < room)
            return FALSE;
        }
    }
  return cw_sheet_kind_at (sheet, bridge->x, bridge->y) == CW_FACE_PAPER;
}

/* Whether a place lies in, or on the rim of, a panel that has been told already. */
static gboolean
is_told (const Search *search, double x, double y)
{
  for (guint i = 0; i < search->told->len; i++)
    {
      guint panel = g_array_index (search->told, guint, i);
      const CwPolygon *outline = &g_array_index (search->drawing->map->panels, CwPanel, panel).outline;

      if (cw_polygon_distance (outline, x, y) <= CW_TOL_MEETS_TICKS)
        return TRUE;
    }
  return FALSE;
}

/* The foot on a segment of the perpendicular from a point, or the nearer end. */
static void
nearest_on (const CwSheetEdge *edge, double x, double y, double *fx, double *fy)
{
  double dx = (double) edge->b.x - edge->a.x, dy = (double) edge->b.y - edge->a.y;
  double share = CLAMP (((x - edge->a.x) * dx + (y - edge->a.y) * dy) / (dx * dx + dy * dy), 0, 1);

  *fx = edge->a.x + share * dx;
  *fy = edge->a.y + share * dy;
}

/* Looks at the way from a place on one edge to another edge; keeps it if it is the narrowest bridge so far. */
static void
try_way (Search *search, guint from, guint to, double x, double y)
{
  Bridge bridge = { 0, 0, 0, MIN (from, to), MAX (from, to) };
  double fx, fy;

  nearest_on (&g_array_index (search->drawing->sheet->edges, CwSheetEdge, to), x, y, &fx, &fy);
  bridge.width = hypot (fx - x, fy - y);
  bridge.x = (x + fx) / 2;
  bridge.y = (y + fy) / 2;
  if (bridge.width >= search->best.width || bridge.width <= CW_TOL_SLIVER_TICKS || !is_bridge (search, &bridge)
      || is_told (search, bridge.x, bridge.y))
    return;
  search->best = bridge;
  search->found = TRUE;
}

/* From the middle of the stretch of one edge that lies beside the other. */
static void
try_middle_way (Search *search, guint from, guint to)
{
  const CwSheetEdge *f = &g_array_index (search->drawing->sheet->edges, CwSheetEdge, from);
  const CwSheetEdge *t = &g_array_index (search->drawing->sheet->edges, CwSheetEdge, to);
  double dx = (double) f->b.x - f->a.x, dy = (double) f->b.y - f->a.y, square = dx * dx + dy * dy;
  double s = (((double) t->a.x - f->a.x) * dx + ((double) t->a.y - f->a.y) * dy) / square;
  double e = (((double) t->b.x - f->a.x) * dx + ((double) t->b.y - f->a.y) * dy) / square;
  double start = MAX (MIN (s, e), 0), end = MIN (MAX (s, e), 1);

  if (end > start)
    try_way (search, from, to, f->a.x + (start + end) / 2 * dx, f->a.y + (start + end) / 2 * dy);
}

/* Edges that meet, or are parts of one drawn line, have nothing between them. */
static gboolean
are_joined (const CwSheet *sheet, const CwSheetEdge *a, const CwSheetEdge *b)
{
  return cw_point_equal (a->a, b->a) || cw_point_equal (a->a, b->b) || cw_point_equal (a->b, b->a)
         || cw_point_equal (a->b, b->b) || cw_sheet_get_source (sheet, a, 0) == cw_sheet_get_source (sheet, b, 0);
}

static void
try_all (Search *search)
{
  const CwSheet *sheet = search->drawing->sheet;

  for (guint i = 0; i < search->bounds->len; i++)
    {
      const Bound *one = &g_array_index (search->bounds, Bound, i);
      const CwSheetEdge *a = &g_array_index (sheet->edges, CwSheetEdge, one->edge);

      for (guint k = i + 1; k < search->bounds->len; k++)
        {
          const Bound *other = &g_array_index (search->bounds, Bound, k);
          const CwSheetEdge *b = &g_array_index (sheet->edges, CwSheetEdge, other->edge);
          double reach = search->best.width;

          if (other->low.x > one->high.x + reach)
            break;
          if (other->low.y > one->high.y + reach || one->low.y > other->high.y + reach || are_joined (sheet, a, b))
            continue;
          try_way (search, one->edge, other->edge, a->a.x, a->a.y);
          try_way (search, one->edge, other->edge, a->b.x, a->b.y);
          try_way (search, other->edge, one->edge, b->a.x, b->a.y);
          try_way (search, other->edge, one->edge, b->b.x, b->b.y);
          try_middle_way (search, one->edge, other->edge);
        }
    }
}

/* The first cut or window along an edge; NULL for the outline. */
static const CwMark *
mark_along (const CwDrawing *drawing, guint number)
{
  const CwSheetEdge *edge = &g_array_index (drawing->sheet->edges, CwSheetEdge, number);

  for (guint k = 0; k < edge->n_links; k++)
    {
      guint mark = cw_sheet_get_source (drawing->sheet, edge, k)->mark;

      if (mark != CW_SHEET_OUTLINE && cw_drawing_get_mark (drawing, mark)->kind != CW_MARK_SCORE)
        return cw_drawing_get_mark (drawing, mark);
    }
  return NULL;
}

static void
say_bridge (const CwDrawing *drawing, const Bridge *bridge)
{
  CwPoint at = cw_point ((gint32) lround (bridge->x), (gint32) lround (bridge->y));
  CwFinding *finding = cw_drawing_add (drawing, CW_FINDING_THIN_STRIP, at);
  const char *piece = drawing->sheet->piece->id;
  const CwMark *one = mark_along (drawing, bridge->one), *other = mark_along (drawing, bridge->other);
  g_autofree char *width = cw_drawing_say_length (drawing, bridge->width);
  g_autofree char *limit = cw_drawing_say_length (drawing, CW_HOUSE_THIN_STRIP);

  cw_finding_add_panel (finding, piece, cw_panel_map_find (drawing->map, at));
  cw_finding_set_amount (finding, CW_AMOUNT_TICKS, bridge->width);
  if (one == NULL)
    {
      one = other;
      other = NULL;
    }
  if (one != NULL)
    cw_finding_add_mark (finding, piece, one->id);
  if (other != NULL && other != one)
    cw_finding_add_mark (finding, piece, other->id);
  if (one == NULL)
    cw_finding_set_words (finding, N_ ("The paper of “{0}” is only {1} wide at one place."),
                          N_ ("Leave at least {2} there."), piece, width, limit, NULL);
  else if (other == NULL)
    cw_finding_set_words (finding, N_ ("Only {1} of paper is left between “{3}” and the edge of “{0}”."),
                          N_ ("Leave at least {2} there."), piece, width, limit, one->id, NULL);
  else if (other == one)
    cw_finding_set_words (finding, N_ ("Only {1} of paper is left between two parts of “{3}” on “{0}”."),
                          N_ ("Leave at least {2} there."), piece, width, limit, one->id, NULL);
  else
    cw_finding_set_words (finding, N_ ("Only {1} of paper is left between “{3}” and “{4}” on “{0}”."),
                          N_ ("Leave at least {2} there."), piece, width, limit, one->id, other->id, NULL);
}

/* Without cuts and windows only the outline is left, and a narrow outline makes narrow panels. */
static gboolean
has_cuts (const CwDrawing *drawing)
{
  for (guint m = 0; m < drawing->sheet->shapes->len; m++)
    if (cw_drawing_get_mark (drawing, m)->kind != CW_MARK_SCORE)
      return TRUE;
  return FALSE;
}

/**
 * cw_drawing_check_bridges:
 * @drawing: a drawing; gets `thin-strip` for its narrowest bridge
 * @told: (element-type guint): panels whose narrowness has been told already
 */
void
cw_drawing_check_bridges (const CwDrawing *drawing, const GArray *told)
{
  Search search = { .drawing = drawing, .told = told };

  if (!has_cuts (drawing))
    return;
  search.best.width = CW_HOUSE_THIN_STRIP - CW_TOL_STRIP_TICKS;
  collect_bounds (&search);
  try_all (&search);
  if (search.found)
    say_bridge (drawing, &search.best);
  g_array_unref (search.bounds);
  g_ptr_array_unref (search.bands);
}
