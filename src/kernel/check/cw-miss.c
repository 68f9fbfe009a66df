/* cw-miss.c: designs as they come out of a hand that misses.
 *
 * What is set on the ruler once misses once: all scores on one straight line of a piece go together. A line stays
 * parallel to itself; where it ends on a cut or on the outline it still does, and a slit that ended at the line ends
 * there again; where only other scores end at its end, that point was marked for all of them and stays. Layers and
 * windows keep their way round. Glue is laid too far on all sides at once, but not over a fold line onto another panel
 * of its own piece, where nobody lays it; that is the worst of all its ways. Curved scores are left as they are.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "check/cw-miss.h"

#include "check/cw-remedy-private.h"
#include "geometry/cw-region.h"
#include "geometry/cw-tolerance.h"

#include <glib/gi18n-lib.h>
#include <math.h>

static const gint32 ways[4][2] = { { -1, 0 }, { 1, 0 }, { 0, -1 }, { 0, 1 } };

/**
 * cw_miss_free:
 * @miss: (nullable) (transfer full): a miss
 */
void
cw_miss_free (CwMiss *miss)
{
  if (miss == NULL)
    return;
  g_free (miss->piece);
  g_free (miss->item);
  g_array_unref (miss->marks);
  g_free (miss);
}

static CwMiss *
miss_new (CwMissKind kind, const char *piece, const char *item, guint n_ways)
{
  CwMiss *miss = g_new0 (CwMiss, 1);

  miss->kind = kind;
  miss->piece = g_strdup (piece);
  miss->item = g_strdup (item);
  miss->marks = g_array_new (FALSE, FALSE, sizeof (guint));
  miss->n_ways = n_ways;
  return miss;
}

/* --- Lines -------------------------------------------------------------------------------------------------------- */

static gboolean
is_line (const CwMark *mark)
{
  return mark->kind == CW_MARK_SCORE && mark->shape == CW_SHAPE_LINE && mark->line.n_vertices == 2
         && !cw_path_is_curved (&mark->line);
}

static CwPoint
end_of (const CwMark *mark, guint end)
{
  return cw_place_get_point (&mark->line.vertices[end].at);
}

/* How far a point is from the endless line through two others, ticks. */
static double
off_line (CwPoint a, CwPoint b, CwPoint p)
{
  return fabs ((double) cw_point_orient (a, b, p)) / hypot (b.x - a.x, b.y - a.y);
}

static gboolean
same_line (const CwMark *one, const CwMark *other)
{
  return off_line (end_of (one, 0), end_of (one, 1), end_of (other, 0)) <= CW_TOL_EXACT_TICKS
         && off_line (end_of (one, 0), end_of (one, 1), end_of (other, 1)) <= CW_TOL_EXACT_TICKS;
}

static void
add_lines (GPtrArray *misses, const CwPiece *piece)
{
  g_autofree gboolean *taken = g_new0 (gboolean, piece->marks->len + 1);

  for (guint i = 0; i < piece->marks->len; i++)
    {
      const CwMark *mark = piece->marks->pdata[i];
      CwMiss *miss;

      if (taken[i] || !is_line (mark) || cw_point_equal (end_of (mark, 0), end_of (mark, 1)))
        continue;
      miss = miss_new (CW_MISS_SCORE, piece->id, mark->id, 2);
      for (guint k = i; k < piece->marks->len; k++)
        if (!taken[k] && is_line (piece->marks->pdata[k]) && same_line (mark, piece->marks->pdata[k]))
          {
            taken[k] = TRUE;
            g_array_append_val (miss->marks, k);
          }
      g_ptr_array_add (misses, miss);
    }
}

/* A line on its way to another place. */
typedef struct
{
  const CwPiece *piece; /* as drawn */
  const CwMiss *miss;
  GArray *strokes; /* of CwStroke: of the piece as drawn */
  double dx, dy;   /* where it goes, ticks */
  CwPoint a, b;    /* of it as drawn */
} Shift;

/* How many scores of the line end at a point; G_MAXUINT: it lies within one of them. */
static guint
count_ends (const Shift *shift, CwPoint p)
{
  guint n = 0;

  for (guint i = 0; i < shift->miss->marks->len; i++)
    {
      const CwMark *mark = shift->piece->marks->pdata[g_array_index (shift->miss->marks, guint, i)];

      if (cw_point_equal (p, end_of (mark, 0)) || cw_point_equal (p, end_of (mark, 1)))
        n++;
      else if (cw_segment_distance (end_of (mark, 0), end_of (mark, 1), p.x, p.y) <= CW_TOL_EXACT_TICKS)
        return G_MAXUINT;
    }
  return n;
}

/* Where the shifted line meets the endless line through a stroke. */
static gboolean
meet (const Shift *shift, const CwStroke *stroke, CwPoint *at)
{
  double ux = shift->b.x - shift->a.x, uy = shift->b.y - shift->a.y;
  double vx = stroke->b.x - stroke->a.x, vy = stroke->b.y - stroke->a.y, cross = ux * vy - uy * vx, t;

  if (fabs (cross) <= CW_TOL_SAME_LINE * hypot (ux, uy) * hypot (vx, vy))
    return FALSE;
  t = ((stroke->a.x - shift->a.x - shift->dx) * vy - (stroke->a.y - shift->a.y - shift->dy) * vx) / cross;
  *at = cw_point ((gint32) lround (shift->a.x + shift->dx + t * ux), (gint32) lround (shift->a.y + shift->dy + t * uy));
  return TRUE;
}

/* Where a point of the drawing on the line goes; FALSE if it is not on it or stays. */
static gboolean
find_new_place (const Shift *shift, CwPoint p, CwPoint *to)
{
  guint n = count_ends (shift, p);
  gboolean ends_on = FALSE;

  if (n == 0)
    return FALSE;
  for (guint i = 0; i < shift->strokes->len; i++)
    {
      const CwStroke *stroke = &g_array_index (shift->strokes, CwStroke, i);
      CwPoint at;

      if ((stroke->mark != G_MAXUINT
           && ((const CwMark *) shift->piece->marks->pdata[stroke->mark])->kind == CW_MARK_SCORE)
          || cw_segment_distance (stroke->a, stroke->b, p.x, p.y) > CW_TOL_EXACT_TICKS || !meet (shift, stroke, &at))
        continue;
      /* Of two edges that meet at a corner the one that the line runs onto. */
      if (!ends_on || cw_segment_distance (stroke->a, stroke->b, at.x, at.y) <= CW_TOL_EXACT_TICKS)
        *to = at;
      ends_on = TRUE;
    }
  if (ends_on)
    return TRUE;
  if (n == 1)
    for (guint i = 0; i < shift->strokes->len; i++)
      {
        const CwStroke *stroke = &g_array_index (shift->strokes, CwStroke, i);
        CwPoint at;

        if (cw_segment_distance (stroke->a, stroke->b, p.x, p.y) <= CW_TOL_EXACT_TICKS && meet (shift, stroke, &at))
          return FALSE;
      }
  *to = cw_point ((gint32) lround (p.x + shift->dx), (gint32) lround (p.y + shift->dy));
  return TRUE;
}

static CwDesign *
shift_line (const CwMiss *miss, const CwDesign *design, double by)
{
  g_autoptr (CwDraft) draft = cw_draft_new (design);
  const CwPiece *piece = cw_design_get_piece (design, miss->piece);
  const CwMark *first = piece->marks->pdata[g_array_index (miss->marks, guint, 0)];
  g_autoptr (GArray) strokes = cw_piece_get_strokes (piece);
  Shift shift = { piece, miss, strokes, 0, 0, end_of (first, 0), end_of (first, 1) };
  double length = hypot (shift.b.x - shift.a.x, shift.b.y - shift.a.y);

  shift.dx = -by * (shift.b.y - shift.a.y) / length;
  shift.dy = by * (shift.b.x - shift.a.x) / length;
  for (guint i = 0; i < piece->marks->len; i++)
    {
      CwMark *mark = cw_mark_copy (piece->marks->pdata[i]);
      gboolean any = FALSE;

      for (guint k = 0; mark->shape == CW_SHAPE_LINE && k < mark->line.n_vertices; k++)
        {
          CwPoint to;

          if (!find_new_place (&shift, cw_place_get_point (&mark->line.vertices[k].at), &to))
            continue;
          cw_place_set (&mark->line.vertices[k].at, to);
          any = TRUE;
        }
      if (any)
        cw_draft_put_mark (draft, piece->id, mark);
      else
        cw_mark_unref (mark);
    }
  return cw_design_ref (draft->design);
}

/* --- Glue --------------------------------------------------------------------------------------------------------- */

static CwDesign *
grow_glue (const CwMiss *miss, const CwDesign *design, gint32 by)
{
  g_autoptr (CwDraft) draft = cw_draft_new (design);
  const CwGlue *zone = cw_design_get_glue (design, miss->item);
  g_autoptr (CwPanelSet) set = cw_panel_set_new (draft->design);
  guint piece = cw_design_find_piece (design, zone->piece);
  g_autoptr (GArray) points = cw_path_flatten (&zone->area, TRUE);
  CwPolygon polygon = cw_polygon_from_points (points);
  CwRegion own = cw_region_from_polygon (&polygon), wide = cw_region_grow (&own, by), all = { 0 };
  CwGlue *copy = NULL;

  for (guint i = 0; i < set->maps[piece].panels->len; i++)
    {
      CwRegion panel = cw_region_from_polygon (&g_array_index (set->maps[piece].panels, CwPanel, i).outline);
      CwRegion before = cw_region_overlay (&own, &panel, CW_OVERLAY_INTERSECTION);

      if (before.n_polygons > 0)
        {
          CwRegion part = cw_region_overlay (&wide, &panel, CW_OVERLAY_INTERSECTION);
          CwRegion both = cw_region_overlay (&all, &part, CW_OVERLAY_UNION);

          cw_region_clear (&part);
          cw_region_clear (&all);
          all = both;
        }
      cw_region_clear (&before);
      cw_region_clear (&panel);
    }
  /* One outline without a hole: what has a hole is glue round a window of its own piece, which no glue goes over. */
  if (all.n_polygons == 1)
    {
      copy = cw_glue_copy (zone);
      cw_path_clear (&copy->area);
      for (guint k = 0; k < all.polygons[0].rings[0].n_points; k++)
        cw_path_append (&copy->area, cw_place_from_point (all.polygons[0].rings[0].points[k], design->head->unit),
                        FALSE);
      cw_draft_put_glue (draft, copy);
    }
  cw_region_clear (&all);
  cw_region_clear (&wide);
  cw_region_clear (&own);
  cw_polygon_clear (&polygon);
  return copy != NULL ? cw_design_ref (draft->design) : NULL;
}

/* --- All ---------------------------------------------------------------------------------------------------------- */

/**
 * cw_misses_new:
 * @design: a design
 *
 * Returns: (transfer full) (element-type CwMiss): all that a hand puts in its place, layers first, then lines, windows
 *   and glue, each in the order of the file
 */
GPtrArray *
cw_misses_new (const CwDesign *design)
{
  GPtrArray *misses = g_ptr_array_new_with_free_func ((GDestroyNotify) cw_miss_free);

  g_return_val_if_fail (design != NULL, misses);

  for (guint i = 0; i < design->steps->len; i++)
    {
      const CwStep *step = design->steps->pdata[i];

      if (step->what == CW_DO_STICK && step->has_on && step->piece != NULL
          && cw_design_get_piece (design, step->piece) != NULL)
        g_ptr_array_add (misses, miss_new (CW_MISS_LAYER, step->piece, step->id, 4));
    }
  for (guint i = 0; i < design->pieces->len; i++)
    add_lines (misses, design->pieces->pdata[i]);
  for (guint i = 0; i < design->pieces->len; i++)
    {
      const CwPiece *piece = design->pieces->pdata[i];

      for (guint k = 0; k < piece->marks->len; k++)
        if (((const CwMark *) piece->marks->pdata[k])->kind == CW_MARK_WINDOW)
          {
            CwMiss *miss = miss_new (CW_MISS_WINDOW, piece->id, ((const CwMark *) piece->marks->pdata[k])->id, 4);

            g_array_append_val (miss->marks, k);
            g_ptr_array_add (misses, miss);
          }
    }
  for (guint i = 0; i < design->glue->len; i++)
    {
      const CwGlue *zone = design->glue->pdata[i];

      if (zone->piece != NULL && cw_design_get_piece (design, zone->piece) != NULL)
        g_ptr_array_add (misses, miss_new (CW_MISS_GLUE, zone->piece, zone->id, 1));
    }
  return misses;
}

/**
 * cw_miss_apply:
 * @miss: what is put in its place
 * @design: the design it is of
 * @way: one of its ways to miss
 * @by: by how much, ticks, more than 0
 *
 * Returns: (transfer full) (nullable): the design as it comes out; %NULL if it is none
 */
CwDesign *
cw_miss_apply (const CwMiss *miss, const CwDesign *design, guint way, gint32 by)
{
  g_autoptr (CwDesign) made = NULL;

  g_return_val_if_fail (miss != NULL && design != NULL && way < miss->n_ways && by > 0, NULL);

  if (miss->kind == CW_MISS_SCORE)
    made = shift_line (miss, design, way == 0 ? -by : by);
  else if (miss->kind == CW_MISS_GLUE)
    made = grow_glue (miss, design, by);
  else
    {
      g_autoptr (CwDraft) draft = cw_draft_new (design);

      if (miss->kind == CW_MISS_LAYER)
        cw_draft_shift_step (draft, miss->item, ways[way][0] * by, ways[way][1] * by);
      else
        cw_draft_shift_mark (draft, miss->piece, miss->item, ways[way][0] * by, ways[way][1] * by, FALSE);
      made = cw_design_ref (draft->design);
    }
  return made != NULL && cw_design_validate (made, NULL) ? g_steal_pointer (&made) : NULL;
}

/**
 * cw_miss_get_mark:
 * @miss: a line or window
 * @design: the design it is of
 * @index: which of its marks
 *
 * Returns: (transfer none): the mark
 */
CwMark *
cw_miss_get_mark (const CwMiss *miss, const CwDesign *design, guint index)
{
  g_return_val_if_fail (miss != NULL && design != NULL && index < miss->marks->len, NULL);
  return cw_design_get_piece (design, miss->piece)->marks->pdata[g_array_index (miss->marks, guint, index)];
}

/**
 * cw_miss_kind_get_key:
 * @kind: a kind
 *
 * Returns: its word in reports
 */
const char *
cw_miss_kind_get_key (CwMissKind kind)
{
  static const char *const keys[] = { "score", "layer", "window", "glue" };

  g_return_val_if_fail ((guint) kind < G_N_ELEMENTS (keys), NULL);
  return keys[kind];
}

/**
 * cw_miss_dup_name:
 * @miss: what is put in its place
 * @design: the design it is of
 * @translated: %FALSE for English whatever the locale
 *
 * Returns: (transfer full): words that can begin a sentence, such as "The score “spine”"
 */
char *
cw_miss_dup_name (const CwMiss *miss, const CwDesign *design, gboolean translated)
{
  static const char *const words[4]
    = { N_ ("The score “{0}”"), N_ ("The layer “{0}”"), N_ ("The window “{0}”"), N_ ("The edge of the glue on “{0}”") };
  g_autoptr (GPtrArray) args = g_ptr_array_new ();
  const CwPiece *piece;

  g_return_val_if_fail (miss != NULL && design != NULL, NULL);

  piece = cw_design_get_piece (design, miss->piece);
  if (miss->kind == CW_MISS_LAYER || miss->kind == CW_MISS_GLUE)
    g_ptr_array_add (args, piece->name != NULL ? piece->name : piece->id);
  else
    g_ptr_array_add (args, miss->item);
  return cw_words_fill (words[miss->kind], args, translated);
}
