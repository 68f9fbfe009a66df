/* cw-remedy-ends.c: scores that stop short, aside or beyond what they should end on.
 *
 * A loose end is one that lies on nothing else that is drawn. It can be drawn on to the next line ahead, cut back to
 * the last one it crossed, or brought to the one beside it; the way that agrees with the finding's measure comes first.
 * Both ends of one score are mended at once. A score without a loose end that still folds nothing ends at a slit round
 * which the paper runs on: the slit is drawn on.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "check/cw-remedy-private.h"

#include "fold/cw-assembly.h"
#include "geometry/cw-polygon.h"
#include "geometry/cw-tolerance.h"

#include <glib/gi18n-lib.h>
#include <math.h>

typedef enum
{
  WAY_ON,
  WAY_BACK,
  WAY_ASIDE,
  N_WAYS
} Way;

/* One loose end, and where it could go. */
typedef struct
{
  guint vertex;
  CwPoint at;
  double by[N_WAYS]; /* infinite: nothing there */
  CwPoint to[N_WAYS];
} LooseEnd;

static gboolean
is_on (const GArray *strokes, guint own, CwPoint p)
{
  for (guint i = 0; i < strokes->len; i++)
    {
      const CwStroke *stroke = &g_array_index (strokes, CwStroke, i);

      if (stroke->mark != own && cw_segment_distance (stroke->a, stroke->b, p.x, p.y) <= CW_TOL_MEETS_TICKS)
        return TRUE;
    }
  return FALSE;
}

/* How far along the way from p in direction (dx, dy), of unit length, a stroke is met; infinite if it is not. */
static double
meets_at (CwPoint p, double dx, double dy, const CwStroke *stroke)
{
  double ax = (double) stroke->a.x - p.x, ay = (double) stroke->a.y - p.y;
  double bx = (double) stroke->b.x - p.x, by = (double) stroke->b.y - p.y;
  double side_a = dx * ay - dy * ax, side_b = dx * by - dy * bx, ahead, share;

  if (fabs (side_a) <= CW_TOL_MEETS_TICKS && fabs (side_b) <= CW_TOL_MEETS_TICKS)
    {
      double first = dx * ax + dy * ay, second = dx * bx + dy * by;

      ahead = first > 0 && second > 0 ? MIN (first, second) : MAX (first, second);
    }
  else if ((side_a > CW_TOL_MEETS_TICKS && side_b > CW_TOL_MEETS_TICKS)
           || (side_a < -CW_TOL_MEETS_TICKS && side_b < -CW_TOL_MEETS_TICKS))
    return G_MAXDOUBLE;
  else
    {
      share = CLAMP (side_a / (side_a - side_b), 0, 1);
      ahead = dx * (ax + share * (bx - ax)) + dy * (ay + share * (by - ay));
    }
  return ahead > CW_TOL_MEETS_TICKS ? ahead : G_MAXDOUBLE;
}

static CwPoint
foot_on (const CwStroke *stroke, CwPoint p)
{
  double dx = (double) stroke->b.x - stroke->a.x, dy = (double) stroke->b.y - stroke->a.y;
  double share = CLAMP (((p.x - stroke->a.x) * dx + (p.y - stroke->a.y) * dy) / (dx * dx + dy * dy), 0, 1);

  return cw_point ((gint32) lround (stroke->a.x + share * dx), (gint32) lround (stroke->a.y + share * dy));
}

static LooseEnd
look_round (const GArray *strokes, guint own, const CwPath *line, guint vertex)
{
  guint next = vertex == 0 ? 1 : vertex - 1;
  CwPoint at = cw_place_get_point (&line->vertices[vertex].at), from = cw_place_get_point (&line->vertices[next].at);
  double dx = (double) at.x - from.x, dy = (double) at.y - from.y, length = hypot (dx, dy);
  LooseEnd end = { vertex, at, { G_MAXDOUBLE, G_MAXDOUBLE, G_MAXDOUBLE }, { at, at, at } };

  if (length <= 0)
    return end;
  for (guint i = 0; i < strokes->len; i++)
    {
      const CwStroke *stroke = &g_array_index (strokes, CwStroke, i);
      double by;

      if (stroke->mark == own)
        continue;
      by = meets_at (at, dx / length, dy / length, stroke);
      if (by < end.by[WAY_ON])
        {
          end.by[WAY_ON] = by;
          end.to[WAY_ON]
            = cw_point ((gint32) lround (at.x + by * dx / length), (gint32) lround (at.y + by * dy / length));
        }
      by = meets_at (at, -dx / length, -dy / length, stroke);
      if (by < end.by[WAY_BACK] && by < length - CW_TOL_MEETS_TICKS)
        {
          end.by[WAY_BACK] = by;
          end.to[WAY_BACK]
            = cw_point ((gint32) lround (at.x - by * dx / length), (gint32) lround (at.y - by * dy / length));
        }
      by = cw_segment_distance (stroke->a, stroke->b, at.x, at.y);
      if (by < end.by[WAY_ASIDE])
        {
          end.by[WAY_ASIDE] = by;
          end.to[WAY_ASIDE] = foot_on (stroke, at);
        }
    }
  return end;
}

/* A panel that the longer line divides was named by any of its points. What is stuck on it means the part it lies on.
 */
static void
follow_hosts (CwDraft *draft, const CwPanelMap *before, const CwPiece *piece)
{
  for (guint i = 0; i < draft->design->steps->len; i++)
    {
      const CwStep *old = draft->design->steps->pdata[i];
      const CwPiece *layer = old->piece != NULL ? cw_design_get_piece (draft->design, old->piece) : NULL;
      CwPoint low = { 0 }, high = { 0 }, middle;
      CwRigid place;
      CwVec3 at;
      CwStep *step;

      if (old->what != CW_DO_STICK || !old->has_on || !old->on.has_panel || g_strcmp0 (old->on.piece, piece->id) != 0
          || layer == NULL || !cw_piece_get_box (layer, &low, &high))
        continue;
      place = cw_step_get_placement (old);
      at = cw_rigid_apply (&place, cw_vec3 (((double) low.x + high.x) / 2, ((double) low.y + high.y) / 2, 0));
      middle = cw_point ((gint32) lround (at.x), (gint32) lround (at.y));
      if (cw_panel_map_find (before, middle) != cw_panel_map_find (before, cw_place_get_point (&old->on.panel)))
        continue;
      step = cw_step_copy (old);
      cw_place_set (&step->on.panel, middle);
      cw_draft_put_step (draft, step);
    }
}

/* Whether the panels that are named are still those under the same points. */
static gboolean
hosts_hold (const CwDraft *draft, const char *piece_id)
{
  g_autoptr (CwPanelSet) set = cw_panel_set_new (draft->design);
  const CwPanelMap *map = &set->maps[cw_design_find_piece (draft->design, piece_id)];

  for (guint i = 0; i < draft->design->steps->len; i++)
    {
      const CwStep *step = draft->design->steps->pdata[i];
      const CwPiece *layer = step->piece != NULL ? cw_design_get_piece (draft->design, step->piece) : NULL;
      CwPoint low = { 0 }, high = { 0 };
      CwRigid place;
      CwVec3 at;

      if (step->what != CW_DO_STICK || !step->has_on || !step->on.has_panel || g_strcmp0 (step->on.piece, piece_id) != 0
          || layer == NULL || !cw_piece_get_box (layer, &low, &high))
        continue;
      place = cw_step_get_placement (step);
      at = cw_rigid_apply (&place, cw_vec3 (((double) low.x + high.x) / 2, ((double) low.y + high.y) / 2, 0));
      if (cw_panel_map_find (map, cw_point ((gint32) lround (at.x), (gint32) lround (at.y)))
          != cw_panel_map_find (map, cw_place_get_point (&step->on.panel)))
        return FALSE;
    }
  return TRUE;
}

static void
offer_way (CwMending *mending, const CwPiece *piece, const CwMark *mark, const LooseEnd *ends, guint n, Way way)
{
  static const char *const names[N_WAYS]
    = { N_ ("make score longer"), N_ ("make score shorter"), N_ ("move end of score") };
  static const char *const one_end[N_WAYS]
    = { N_ ("Make the score “{0}” longer by {1}."), N_ ("Make the score “{0}” shorter by {1}."),
        N_ ("Move the end of the score “{0}” by {1}, onto the line beside it.") };
  static const char *const two_ends[N_WAYS]
    = { N_ ("Make the score “{0}” longer by {1} at one end and {2} at the other."),
        N_ ("Make the score “{0}” shorter by {1} at one end and {2} at the other."),
        N_ ("Move the ends of the score “{0}” by {1} and {2}, onto the lines beside them.") };
  g_autofree char *by[2] = { NULL, NULL };
  CwMark *copy;
  CwDraft *draft;

  for (guint i = 0; i < n; i++)
    if (ends[i].by[way] >= G_MAXDOUBLE)
      return;
  /* The line beside is often the one ahead. */
  if (way == WAY_ASIDE && cw_point_equal (ends[0].to[WAY_ASIDE], ends[0].to[WAY_ON]))
    return;
  draft = cw_draft_new (mending->design);
  copy = cw_mark_copy (mark);
  for (guint i = 0; i < n; i++)
    {
      cw_place_set (&copy->line.vertices[ends[i].vertex].at, ends[i].to[way]);
      by[i] = cw_length_format_ticks ((gint32) lround (ends[i].by[way]), mending->design->head->unit);
    }
  cw_draft_put_mark (draft, piece->id, copy);
  if (!hosts_hold (draft, piece->id))
    follow_hosts (draft, &mending->analysis->panels->maps[cw_design_find_piece (mending->design, piece->id)], piece);
  mending->family++;
  cw_mending_offer (mending, draft, names[way], (n == 1 ? one_end : two_ends)[way], mark->id, by[0], by[1], NULL);
  g_clear_pointer (&by[1], g_free);
}

/* The cut that a score ends at is drawn on until it meets the next line. */
static void
offer_longer_cut (CwMending *mending, const CwPiece *piece, const GArray *strokes, guint cut, guint vertex)
{
  const CwMark *mark = piece->marks->pdata[cut];
  LooseEnd end = look_round (strokes, cut, &mark->line, vertex);
  g_autofree char *by = NULL;
  CwMark *copy;
  CwDraft *draft;

  if (end.by[WAY_ON] >= G_MAXDOUBLE || is_on (strokes, cut, end.at))
    return;
  draft = cw_draft_new (mending->design);
  copy = cw_mark_copy (mark);
  cw_place_set (&copy->line.vertices[vertex].at, end.to[WAY_ON]);
  cw_draft_put_mark (draft, piece->id, copy);
  by = cw_mending_say (mending, (gint32) lround (end.by[WAY_ON]));
  mending->family++;
  cw_mending_offer (mending, draft, N_ ("make cut longer"), N_ ("Make the cut “{0}” longer by {1}."), mark->id, by,
                    NULL);
}

static void
mend_idle (CwMending *mending, const CwPiece *piece, const CwMark *mark, const GArray *strokes)
{
  for (guint i = 0; i < piece->marks->len; i++)
    {
      const CwMark *cut = piece->marks->pdata[i];

      if (cut->kind != CW_MARK_CUT || cut->shape != CW_SHAPE_LINE || cut->line.n_vertices < 2
          || cw_path_is_curved (&cut->line))
        continue;
      for (guint k = 0; k < strokes->len; k++)
        {
          const CwStroke *stroke = &g_array_index (strokes, CwStroke, k);
          CwPoint first = cw_place_get_point (&mark->line.vertices[0].at);
          CwPoint last = cw_place_get_point (&mark->line.vertices[mark->line.n_vertices - 1].at);

          if (stroke->mark != i
              || (cw_segment_distance (stroke->a, stroke->b, first.x, first.y) > CW_TOL_MEETS_TICKS
                  && cw_segment_distance (stroke->a, stroke->b, last.x, last.y) > CW_TOL_MEETS_TICKS))
            continue;
          offer_longer_cut (mending, piece, strokes, i, 0);
          offer_longer_cut (mending, piece, strokes, i, cut->line.n_vertices - 1);
          break;
        }
    }
}

/**
 * cw_mend_score_ends:
 * @mending: a `score-stops-short`
 */
void
cw_mend_score_ends (CwMending *mending)
{
  CwPiece *piece;
  CwMark *mark;
  g_autoptr (GArray) strokes = NULL;
  LooseEnd ends[2] = { 0 };
  Way first = WAY_ON;
  guint n = 0, own;

  if (!cw_mending_get_mark (mending, 0, &piece, &mark) || mark->shape != CW_SHAPE_LINE || mark->line.n_vertices < 2
      || cw_path_is_curved (&mark->line))
    return;
  own = cw_piece_find_mark (piece, mark->id);
  strokes = cw_piece_get_strokes (piece);
  for (guint k = 0; k < 2; k++)
    {
      guint vertex = k == 0 ? 0 : mark->line.n_vertices - 1;

      if (!is_on (strokes, own, cw_place_get_point (&mark->line.vertices[vertex].at)))
        ends[n++] = look_round (strokes, own, &mark->line, vertex);
    }
  if (n == 0)
    {
      mend_idle (mending, piece, mark, strokes);
      return;
    }
  for (guint i = 0; i < n; i++)
    for (Way way = WAY_ON; way < N_WAYS; way++)
      if (fabs (ends[i].by[way] - mending->finding->amount) <= CW_TOL_EXACT_TICKS
          && hypot (ends[i].at.x - mending->finding->at.x, ends[i].at.y - mending->finding->at.y) <= CW_TOL_EXACT_TICKS)
        {
          first = way;
          i = n - 1;
          break;
        }
  offer_way (mending, piece, mark, ends, n, first);
  for (Way way = WAY_ON; way < N_WAYS; way++)
    if (way != first)
      offer_way (mending, piece, mark, ends, n, way);
}
