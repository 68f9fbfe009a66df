/* cw-remedy-points.c: creases that meet at a point and cannot lie flat together.
 *
 * Four ways out, and trying tells which helps: one crease folds the other way (Maekawa-Justin); the point is moved, or
 * the far end of one crease slides along what it ends on (Kawasaki-Justin), by whole steps of the maker's marks; where
 * the number is odd, the crease that is missing is drawn, at the angle at which every other angle adds up to 180
 * degrees, or one is taken away. The sources of the two conditions stand in cw-flat-vertex.c.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "check/cw-remedy-private.h"

#include "geometry/cw-polygon.h"
#include "geometry/cw-tolerance.h"

#include <glib/gi18n-lib.h>
#include <math.h>
#include <stdlib.h>

/* The point is moved by up to so many steps each way, and a far end slides within as many of where it should go. */
#define STEPS_MOST 4
/* Creases at one point for which a missing one is looked for. */
#define CREASES_MOST 16

static CwPoint
finding_point (const CwMending *mending)
{
  return cw_point ((gint32) lround (mending->finding->at.x), (gint32) lround (mending->finding->at.y));
}

static void
offer_other_ways (CwMending *mending)
{
  CwPiece *piece;
  CwMark *mark;

  for (guint i = 0; cw_mending_get_mark (mending, i, &piece, &mark); i++)
    {
      CwDraft *draft = cw_draft_new (mending->design);

      cw_draft_turn_fold (draft, piece->id, mark->id);
      mending->family++;
      cw_mending_offer (mending, draft, N_ ("change way of score"), N_ ("Let the score “{0}” fold the other way."),
                        mark->id, NULL);
    }
}

static void
offer_moves (CwMending *mending, const CwPiece *piece, CwPoint at)
{
  static const gint32 ways[4][2] = { { -1, 0 }, { 1, 0 }, { 0, -1 }, { 0, 1 } };
  static const char *const words[4] = { N_ ("Move the point where the folds meet by {0} to the left."),
                                        N_ ("Move the point where the folds meet by {0} to the right."),
                                        N_ ("Move the point where the folds meet by {0} up."),
                                        N_ ("Move the point where the folds meet by {0} down.") };

  for (guint way = 0; way < 4; way++)
    {
      mending->family++;
      for (gint32 k = 1; k <= STEPS_MOST; k++)
        {
          gint32 by = k * cw_mending_step (mending);
          CwDraft *draft = cw_draft_new (mending->design);
          g_autofree char *text = cw_mending_say (mending, by);

          cw_draft_move_point (draft, piece->id, at, cw_point (at.x + ways[way][0] * by, at.y + ways[way][1] * by));
          cw_mending_offer (mending, draft, N_ ("move point"), words[way], text, NULL);
        }
    }
}

/* The end of a straight mark that is not at the point; FALSE if the mark does not end there. */
static gboolean
find_far_end (const CwMark *mark, CwPoint at, guint *vertex, CwPoint *far_end)
{
  CwPoint ends[2];

  if (mark->shape != CW_SHAPE_LINE || mark->line.n_vertices != 2)
    return FALSE;
  for (guint k = 0; k < 2; k++)
    ends[k] = cw_place_get_point (&mark->line.vertices[k].at);
  for (guint k = 0; k < 2; k++)
    if (hypot ((double) ends[k].x - at.x, (double) ends[k].y - at.y) <= CW_TOL_MEETS_TICKS)
      {
        *vertex = 1 - k;
        *far_end = ends[1 - k];
        return TRUE;
      }
  return FALSE;
}

/* What a crease's far end lies on, as a direction of unit length; across the crease if it lies on nothing. */
static void
find_slide (const GArray *strokes, guint own, CwPoint at, CwPoint far_end, double *dx, double *dy)
{
  double length = hypot ((double) far_end.x - at.x, (double) far_end.y - at.y);

  *dx = -((double) far_end.y - at.y) / length;
  *dy = ((double) far_end.x - at.x) / length;
  for (guint i = 0; i < strokes->len; i++)
    {
      const CwStroke *stroke = &g_array_index (strokes, CwStroke, i);
      double sx = (double) stroke->b.x - stroke->a.x, sy = (double) stroke->b.y - stroke->a.y, long_by = hypot (sx, sy);

      if (stroke->mark == own || cw_segment_distance (stroke->a, stroke->b, far_end.x, far_end.y) > CW_TOL_MEETS_TICKS
          || fabs (sx * *dx + sy * *dy) < long_by / 2)
        continue;
      *dx = sx / long_by;
      *dy = sy / long_by;
      return;
    }
}

static void
offer_turns (CwMending *mending, const CwPiece *piece, CwPoint at)
{
  g_autoptr (GArray) strokes = cw_piece_get_strokes (piece);
  gint32 step = cw_mending_step (mending);
  CwPiece *of;
  CwMark *mark;

  for (guint i = 0; cw_mending_get_mark (mending, i, &of, &mark); i++)
    {
      guint vertex;
      CwPoint far_end;
      double dx, dy, shift;

      if (of != piece || !find_far_end (mark, at, &vertex, &far_end))
        continue;
      find_slide (strokes, cw_piece_find_mark (piece, mark->id), at, far_end, &dx, &dy);
      shift = hypot ((double) far_end.x - at.x, (double) far_end.y - at.y)
              * tan (MIN (mending->finding->amount, 45) * G_PI / 180);
      mending->family++;
      for (gint32 k = 0; k <= STEPS_MOST; k++)
        for (int sign = -1; sign <= 1; sign += 2)
          {
            /* The nearest mark first, then those on either side of it. */
            gint32 by = cw_ticks_snap ((gint32) lround (shift), step) + (k % 2 == 0 ? k / 2 : -(k + 1) / 2) * step;
            CwPoint to = { far_end.x + (gint32) lround (sign * by * dx), far_end.y + (gint32) lround (sign * by * dy) };
            CwDraft *draft;
            g_autofree char *text = NULL;

            /* A far end that was off the marks comes onto them. */
            if (fabs (dx) < CW_TOL_SAME_LINE)
              to.y = cw_ticks_snap (to.y, step);
            if (fabs (dy) < CW_TOL_SAME_LINE)
              to.x = cw_ticks_snap (to.x, step);
            if (cw_point_equal (to, far_end))
              continue;
            text = cw_mending_say (mending,
                                   (gint32) lround (hypot ((double) to.x - far_end.x, (double) to.y - far_end.y)));
            draft = cw_draft_new (mending->design);
            cw_draft_move_point (draft, piece->id, far_end, to);
            cw_mending_offer (mending, draft, N_ ("turn score"), N_ ("Turn the score “{0}”: move its far end by {1}."),
                              mark->id, text, NULL);
          }
    }
}

static int
compare_doubles (const void *a, const void *b)
{
  double x = *(const double *) a, y = *(const double *) b;

  return x < y ? -1 : x > y;
}

/* From the point in a direction to the first line ahead, brought onto the maker's marks along that line. */
static gboolean
find_end_ahead (const GArray *strokes, CwPoint at, double angle, gint32 step, CwPoint *end)
{
  double dx = cos (angle), dy = sin (angle), best = G_MAXDOUBLE;

  for (guint i = 0; i < strokes->len; i++)
    {
      const CwStroke *s = &g_array_index (strokes, CwStroke, i);
      double ax = (double) s->a.x - at.x, ay = (double) s->a.y - at.y;
      double bx = (double) s->b.x - at.x, by = (double) s->b.y - at.y;
      double side_a = dx * ay - dy * ax, side_b = dx * by - dy * bx, share, ahead;

      if ((side_a > 0) == (side_b > 0))
        continue;
      share = side_a / (side_a - side_b);
      ahead = dx * (ax + share * (bx - ax)) + dy * (ay + share * (by - ay));
      if (ahead <= CW_TOL_MEETS_TICKS || ahead >= best)
        continue;
      best = ahead;
      *end = cw_point ((gint32) lround (at.x + ahead * dx), (gint32) lround (at.y + ahead * dy));
      if (s->a.x == s->b.x)
        end->y = cw_ticks_snap (end->y, step);
      if (s->a.y == s->b.y)
        end->x = cw_ticks_snap (end->x, step);
    }
  return best < G_MAXDOUBLE;
}

static void
offer_missing (CwMending *mending, const CwPiece *piece, CwPoint at)
{
  g_autoptr (GArray) strokes = cw_piece_get_strokes (piece);
  double angles[CREASES_MOST];
  guint n = 0;
  CwPiece *of;
  CwMark *mark;

  for (guint i = 0; cw_mending_get_mark (mending, i, &of, &mark); i++)
    {
      const CwPath *line = &mark->line;

      for (guint k = 0; mark->shape == CW_SHAPE_LINE && k + 1 < line->n_vertices && n + 2 <= CREASES_MOST; k++)
        {
          CwPoint ends[2]
            = { cw_place_get_point (&line->vertices[k].at), cw_place_get_point (&line->vertices[k + 1].at) };

          if (cw_segment_distance (ends[0], ends[1], at.x, at.y) > CW_TOL_MEETS_TICKS)
            continue;
          for (guint e = 0; e < 2; e++)
            if (hypot ((double) ends[e].x - at.x, (double) ends[e].y - at.y) > CW_TOL_MEETS_TICKS)
              angles[n++] = atan2 ((double) ends[e].y - at.y, (double) ends[e].x - at.x);
        }
    }
  if (n < 3 || n % 2 == 0)
    return;
  qsort (angles, n, sizeof *angles, compare_doubles);
  for (guint i = 0; i < n; i++)
    {
      double sector = (i + 1 < n ? angles[i + 1] : angles[0] + 2 * G_PI) - angles[i], others = 0, part;
      CwPoint end = { 0, 0 };

      /* Every other sector after this one, from the second on: with the first part of this one they make 180. */
      for (guint k = 1; k + 1 < n; k += 2)
        {
          guint from = (i + k) % n, to = (from + 1) % n;

          others += angles[to] - angles[from] + (to < from ? 2 * G_PI : 0);
        }
      part = G_PI - others;
      if (part <= 0 || part >= sector
          || !find_end_ahead (strokes, at, angles[i] + part, cw_mending_step (mending), &end))
        continue;
      for (guint way = 0; way < 2; way++)
        {
          CwDraft *draft = cw_draft_new (mending->design);
          CwMark *score = cw_mark_new ();

          score->id = cw_design_dup_free_id (mending->design, "score");
          score->kind = CW_MARK_SCORE;
          score->fold = way == 0 ? CW_FOLD_TOWARD : CW_FOLD_AWAY;
          cw_path_append (&score->line, cw_place_from_point (at, mending->design->head->unit), FALSE);
          cw_path_append (&score->line, cw_place_from_point (end, mending->design->head->unit), FALSE);
          cw_draft_do (draft, cw_edit_new_insert (draft->design, CW_LIST_MARKS, piece->id, G_MAXUINT, score));
          mending->family++;
          cw_mending_offer (mending, draft, N_ ("add score"),
                            way == 0 ? N_ ("Add a score from that point, folding toward you.")
                                     : N_ ("Add a score from that point, folding away from you."),
                            NULL);
        }
    }
}

static void
offer_fewer (CwMending *mending)
{
  CwPiece *piece;
  CwMark *mark;

  for (guint i = 0; cw_mending_get_mark (mending, i, &piece, &mark); i++)
    {
      CwDraft *draft = cw_draft_new (mending->design);

      cw_draft_erase_mark (draft, piece->id, mark->id);
      mending->family++;
      mending->gives_up = TRUE;
      cw_mending_offer (mending, draft, N_ ("take score away"), N_ ("Take the score “{0}” away."), mark->id, NULL);
      mending->gives_up = FALSE;
    }
}

/**
 * cw_mend_points:
 * @mending: a `will-not-fold-flat`
 */
void
cw_mend_points (CwMending *mending)
{
  const CwFinding *finding = mending->finding;
  const CwPiece *piece = cw_mending_get_piece (mending, 0);
  CwPoint at = finding_point (mending);

  if (piece == NULL || !finding->has_at)
    return;
  if (finding->amount_unit == CW_AMOUNT_COUNT)
    {
      offer_missing (mending, piece, at);
      offer_fewer (mending);
      return;
    }
  if (finding->amount > CW_TOL_MENDS_DEG)
    {
      offer_turns (mending, piece, at);
      offer_moves (mending, piece, at);
    }
  offer_other_ways (mending);
}
