/* cw-remedy-drawing.c: faults of single marks and pairs: off the sheet, on one another, at odds, cutting
 * paper free; and paper whose grain runs the wrong way.
 *
 * An outline that crosses itself is untangled by running one of its two loops the other way round, as corners listed in
 * the wrong order are put right.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "check/cw-remedy-private.h"

#include "geometry/cw-house.h"
#include "geometry/cw-polygon.h"
#include "geometry/cw-tolerance.h"

#include <glib/gi18n-lib.h>
#include <math.h>

/* --- Off the sheet ------------------------------------------------------------------------------------------------ */

static void
offer_erase (CwMending *mending, const CwPiece *piece, const CwMark *mark)
{
  CwDraft *draft = cw_draft_new (mending->design);

  cw_draft_erase_mark (draft, piece->id, mark->id);
  mending->family++;
  mending->gives_up = TRUE;
  cw_mending_offer (mending, draft, N_ ("take mark away"), N_ ("Take “{0}” away."), mark->id, NULL);
  mending->gives_up = FALSE;
}

/* The share of the way from a inside to b outside at which the outline is crossed first. */
static double
share_inside (const GArray *strokes, CwPoint a, CwPoint b)
{
  double best = 1;

  for (guint i = 0; i < strokes->len; i++)
    {
      const CwStroke *stroke = &g_array_index (strokes, CwStroke, i);
      gint64 p, q;

      if (stroke->mark != G_MAXUINT)
        continue;
      p = cw_point_orient (stroke->a, stroke->b, a);
      q = cw_point_orient (stroke->a, stroke->b, b);
      if (p == 0 || (p > 0) == (q > 0)
          || (cw_point_orient (a, b, stroke->a) > 0) == (cw_point_orient (a, b, stroke->b) > 0))
        continue;
      best = MIN (best, (double) p / (double) (p - q));
    }
  return best;
}

static void
trim_end (CwPath *line, gboolean last, const CwPolygon *outline, const GArray *strokes, double *cut_off)
{
  while (line->n_vertices >= 2)
    {
      guint end = last ? line->n_vertices - 1 : 0, next = last ? end - 1 : 1;
      CwPoint p = cw_place_get_point (&line->vertices[end].at), q = cw_place_get_point (&line->vertices[next].at);
      double share;

      if (cw_polygon_contains (outline, p.x, p.y) || cw_polygon_distance (outline, p.x, p.y) <= CW_TOL_MEETS_TICKS)
        return;
      if (line->n_vertices > 2 && !cw_polygon_contains (outline, q.x, q.y)
          && cw_polygon_distance (outline, q.x, q.y) > CW_TOL_MEETS_TICKS)
        {
          for (guint i = end; !last && i + 1 < line->n_vertices; i++)
            line->vertices[i] = line->vertices[i + 1];
          line->n_vertices--;
          continue;
        }
      share = share_inside (strokes, q, p);
      *cut_off += (1 - share) * hypot ((double) p.x - q.x, (double) p.y - q.y);
      cw_place_set (&line->vertices[end].at, cw_point ((gint32) lround (q.x + share * (p.x - q.x)),
                                                       (gint32) lround (q.y + share * (p.y - q.y))));
      return;
    }
}

static void
offer_trim (CwMending *mending, const CwPiece *piece, const CwMark *mark)
{
  g_autoptr (GArray) outline = cw_path_flatten (&piece->outline, TRUE), strokes = cw_piece_get_strokes (piece);
  CwRing ring = { outline->len, (CwPoint *) (void *) outline->data };
  CwPolygon polygon = { 1, &ring };
  CwMark *copy;
  CwDraft *draft;
  double cut_off = 0;
  g_autofree char *text = NULL;

  if (mark->shape != CW_SHAPE_LINE || mark->kind == CW_MARK_WINDOW || cw_path_is_curved (&mark->line))
    return;
  draft = cw_draft_new (mending->design);
  copy = cw_mark_copy (mark);
  trim_end (&copy->line, FALSE, &polygon, strokes, &cut_off);
  trim_end (&copy->line, TRUE, &polygon, strokes, &cut_off);
  cw_draft_put_mark (draft, piece->id, copy);
  text = cw_mending_say (mending, (gint32) lround (cut_off));
  mending->family++;
  cw_mending_offer (mending, draft, N_ ("let mark end on the edge"), N_ ("Let “{0}” end on the edge, {1} shorter."),
                    mark->id, text, NULL);
}

/* Back onto the paper, as far in as paper should be left. */
static void
offer_move_on (CwMending *mending, const CwPiece *piece, const CwMark *mark)
{
  g_autoptr (GArray) points = cw_mark_flatten (mark);
  CwPoint low = { 0 }, high = { 0 }, paper_low = { 0 }, paper_high = { 0 };
  gint32 room = cw_head_round_up (mending->design->head, CW_HOUSE_THIN_STRIP), dx, dy;
  g_autofree char *text = NULL;
  CwDraft *draft;

  if (!cw_piece_get_box (piece, &paper_low, &paper_high) || points->len == 0)
    return;
  for (guint i = 0; i < points->len; i++)
    {
      CwPoint p = g_array_index (points, CwPoint, i);

      low = i == 0 ? p : cw_point (MIN (low.x, p.x), MIN (low.y, p.y));
      high = i == 0 ? p : cw_point (MAX (high.x, p.x), MAX (high.y, p.y));
    }
  dx = low.x < paper_low.x ? paper_low.x + room - low.x : high.x > paper_high.x ? paper_high.x - room - high.x : 0;
  dy = low.y < paper_low.y ? paper_low.y + room - low.y : high.y > paper_high.y ? paper_high.y - room - high.y : 0;
  if (low.x + dx < paper_low.x || high.x + dx > paper_high.x || low.y + dy < paper_low.y || high.y + dy > paper_high.y)
    return;
  draft = cw_draft_new (mending->design);
  cw_draft_shift_mark (draft, piece->id, mark->id, dx, dy, FALSE);
  text = cw_mending_say (mending, room);
  mending->family++;
  cw_mending_offer (mending, draft, N_ ("move mark onto the paper"),
                    N_ ("Move “{0}” onto the paper, {1} from the edge."), mark->id, text, NULL);
}

static gboolean
cross (CwPoint a, CwPoint b, CwPoint c, CwPoint d)
{
  gint64 p = cw_point_orient (a, b, c), q = cw_point_orient (a, b, d), r = cw_point_orient (c, d, a),
         s = cw_point_orient (c, d, b);

  return (p >= 0) != (q > 0) && (r >= 0) != (s > 0);
}

static void
offer_untangled (CwMending *mending, const CwPiece *piece)
{
  guint n = piece->outline.n_vertices;

  if (n < 4 || cw_path_is_curved (&piece->outline))
    return;
  for (guint i = 0; i < n; i++)
    for (guint k = i + 2; k < n; k++)
      {
        const CwVertex *v = piece->outline.vertices;
        CwPiece *copy;
        CwDraft *draft;

        if ((k + 1) % n == i
            || !cross (cw_place_get_point (&v[i].at), cw_place_get_point (&v[i + 1].at), cw_place_get_point (&v[k].at),
                       cw_place_get_point (&v[(k + 1) % n].at)))
          continue;
        draft = cw_draft_new (mending->design);
        copy = cw_piece_copy (piece);
        for (guint a = i + 1, b = k; a < b; a++, b--)
          {
            CwVertex kept = copy->outline.vertices[a];

            copy->outline.vertices[a] = copy->outline.vertices[b];
            copy->outline.vertices[b] = kept;
          }
        cw_draft_put_piece (draft, copy);
        mending->family++;
        cw_mending_offer (mending, draft, N_ ("untangle outline"),
                          N_ ("Run the outline of “{0}” once round the paper, without crossing itself."),
                          cw_mending_name_piece (piece), NULL);
      }
}

static void
mend_off_sheet (CwMending *mending)
{
  CwPiece *piece;
  CwMark *mark;

  if (cw_mending_get_mark (mending, 0, &piece, &mark))
    {
      offer_trim (mending, piece, mark);
      offer_move_on (mending, piece, mark);
      offer_erase (mending, piece, mark);
      return;
    }
  piece = cw_mending_get_piece (mending, 0);
  if (piece == NULL)
    return;
  offer_untangled (mending, piece);
  /* No paper left: the windows that take it, the last drawn first. */
  for (guint i = piece->marks->len; i-- > 0;)
    if (((const CwMark *) piece->marks->pdata[i])->kind == CW_MARK_WINDOW)
      offer_erase (mending, piece, piece->marks->pdata[i]);
}

/* --- Cut free ----------------------------------------------------------------------------------------------------- */

static void
offer_window (CwMending *mending, const CwPiece *piece, const CwMark *mark)
{
  guint n = mark->line.n_vertices;
  CwMark *copy;
  CwDraft *draft;

  if (n < 4
      || !cw_point_equal (cw_place_get_point (&mark->line.vertices[0].at),
                          cw_place_get_point (&mark->line.vertices[n - 1].at)))
    return;
  draft = cw_draft_new (mending->design);
  copy = cw_mark_copy (mark);
  copy->kind = CW_MARK_WINDOW;
  copy->line.n_vertices--;
  cw_draft_put_mark (draft, piece->id, copy);
  mending->family++;
  cw_mending_offer (mending, draft, N_ ("make a window of the cut"),
                    N_ ("Make “{0}” a window: what it cuts out is thrown away."), mark->id, NULL);
}

static void
mend_falls_out (CwMending *mending)
{
  CwPiece *piece;
  CwMark *mark;

  if (!cw_mending_get_mark (mending, 0, &piece, &mark))
    {
      piece = cw_mending_get_piece (mending, 0);
      if (piece != NULL)
        offer_untangled (mending, piece);
      return;
    }
  if (mark->kind == CW_MARK_CUT && mark->shape == CW_SHAPE_LINE && mark->line.n_vertices >= 2)
    {
      offer_window (mending, piece, mark);
      if (!cw_path_is_curved (&mark->line))
        {
          gint32 by = cw_head_round_up (mending->design->head, CW_HOUSE_THIN_STRIP);

          for (guint end = 2; end-- > 0;)
            cw_mend_by_shortening (mending, piece, mark, by, end * (mark->line.n_vertices - 1), N_ ("leave a bridge"),
                                   N_ ("Make the cut “{0}” shorter by {1}: a bridge of paper holds the part."));
        }
    }
  offer_erase (mending, piece, mark);
}

/* --- Pairs -------------------------------------------------------------------------------------------------------- */

/* Steps that fold the one fold the other in its place, unless they do already. */
static void
hand_folds_on (CwDraft *draft, const char *from, const char *to)
{
  for (guint i = 0; i < draft->design->steps->len; i++)
    {
      const CwStep *step = draft->design->steps->pdata[i];
      guint found = G_MAXUINT;
      gboolean has = FALSE;
      CwStep *copy;
      CwStepFold *fold;

      for (guint k = 0; k < step->folds->len; k++)
        {
          const CwStepFold *one = step->folds->pdata[k];

          has |= g_strcmp0 (one->score, to) == 0;
          if (g_strcmp0 (one->score, from) == 0)
            found = k;
        }
      if (found == G_MAXUINT || has)
        continue;
      copy = cw_step_copy (step);
      fold = cw_step_fold_copy (copy->folds->pdata[found]);
      g_free (fold->score);
      fold->score = g_strdup (to);
      cw_step_fold_unref (copy->folds->pdata[found]);
      copy->folds->pdata[found] = fold;
      cw_draft_put_step (draft, copy);
    }
}

/* What of `mark` does not lie on `on`: one end of it cut back to where the overlap begins. */
static void
offer_apart (CwMending *mending, const CwPiece *piece, const CwMark *mark, const CwMark *on)
{
  CwPoint a = cw_place_get_point (&mark->line.vertices[0].at), b = cw_place_get_point (&mark->line.vertices[1].at);
  g_autoptr (GArray) points = cw_mark_flatten (on);
  g_autofree char *text = cw_mending_say (mending, (gint32) lround (mending->finding->amount));

  for (guint i = 0; i < points->len; i++)
    {
      CwPoint p = g_array_index (points, CwPoint, i);

      if (cw_point_equal (p, a) || cw_point_equal (p, b) || cw_segment_distance (a, b, p.x, p.y) > CW_TOL_MEETS_TICKS)
        continue;
      for (guint k = 0; k < 2; k++)
        {
          CwDraft *draft = cw_draft_new (mending->design);
          CwMark *copy = cw_mark_copy (mark);

          cw_place_set (&copy->line.vertices[k].at, p);
          cw_draft_put_mark (draft, piece->id, copy);
          mending->family++;
          cw_mending_offer (mending, draft, N_ ("take overlap away"),
                            N_ ("Let “{0}” end where “{1}” begins, {2} shorter."), mark->id, on->id, text, NULL);
        }
    }
}

static void
mend_overlap (CwMending *mending)
{
  CwPiece *piece;
  CwMark *marks[2];

  if (!cw_mending_get_mark (mending, 0, &piece, &marks[0]) || !cw_mending_get_mark (mending, 1, &piece, &marks[1]))
    return;
  for (guint i = 0; i < 2; i++)
    {
      const CwMark *mark = marks[1 - i];

      if (mark->kind != CW_MARK_WINDOW && mark->shape == CW_SHAPE_LINE && mark->line.n_vertices == 2)
        offer_apart (mending, piece, mark, marks[i]);
    }
  for (guint i = 0; i < 2; i++)
    {
      const CwMark *gone = marks[1 - i], *kept = marks[i];
      CwDraft *draft = cw_draft_new (mending->design);
      g_autofree char *from = g_strdup_printf ("%s/%s", piece->id, gone->id);
      g_autofree char *to = g_strdup_printf ("%s/%s", piece->id, kept->id);

      if (gone->kind == CW_MARK_SCORE && kept->kind == CW_MARK_SCORE)
        hand_folds_on (draft, from, to);
      cw_draft_erase_mark (draft, piece->id, gone->id);
      mending->family++;
      cw_mending_offer (mending, draft, N_ ("take mark away"), N_ ("Take “{0}” away: “{1}” lies there already."),
                        gone->id, kept->id, NULL);
    }
}

static void
mend_disagree (CwMending *mending)
{
  CwPiece *piece;
  CwMark *marks[2];

  if (!cw_mending_get_mark (mending, 0, &piece, &marks[0]) || !cw_mending_get_mark (mending, 1, &piece, &marks[1]))
    return;
  /* The first counts now, so the second is changed first. */
  for (guint i = 2; i-- > 0;)
    {
      CwDraft *draft = cw_draft_new (mending->design);
      CwMark *copy = cw_mark_copy (marks[i]);

      copy->fold = marks[1 - i]->fold;
      cw_draft_put_mark (draft, piece->id, copy);
      mending->family++;
      cw_mending_offer (mending, draft, N_ ("change way of score"), N_ ("Let “{0}” fold the same way as “{1}”."),
                        marks[i]->id, marks[1 - i]->id, NULL);
    }
}

/* --- Grain -------------------------------------------------------------------------------------------------------- */

/* Other pieces of the same paper are cut as they were: then the turned sheet is a paper of its own. */
static void
mend_grain (CwMending *mending)
{
  CwPiece *piece = cw_mending_get_piece (mending, 0);
  const CwPaper *paper = piece != NULL ? cw_design_get_paper (mending->design, piece->paper) : NULL;
  gboolean shared = FALSE;
  CwDraft *draft;
  CwPaper *copy;

  if (paper == NULL || paper->grain == NULL)
    return;
  for (guint i = 0; i < mending->design->pieces->len; i++)
    {
      const CwPiece *other = mending->design->pieces->pdata[i];

      shared |= other != piece && g_strcmp0 (other->paper, piece->paper) == 0;
    }
  draft = cw_draft_new (mending->design);
  copy = cw_paper_copy (paper);
  g_free (copy->grain);
  copy->grain = g_strdup (g_str_equal (paper->grain, "x") ? "y" : "x");
  if (shared)
    {
      CwPiece *turned = cw_piece_copy (piece);

      g_free (copy->id);
      copy->id = cw_design_dup_free_id (mending->design, paper->id);
      g_free (turned->paper);
      turned->paper = g_strdup (copy->id);
      cw_draft_do (draft, cw_edit_new_insert (draft->design, CW_LIST_PAPERS, NULL, draft->design->papers->len, copy));
      cw_draft_put_piece (draft, turned);
    }
  else
    cw_draft_put_paper (draft, copy);
  mending->family++;
  cw_mending_offer (mending, draft, N_ ("turn the grain"),
                    N_ ("Cut “{0}” from the sheet turned by a quarter, with the grain along the score."),
                    cw_mending_name_piece (piece), NULL);
}

/**
 * cw_mend_drawing:
 * @mending: a fault of the drawing
 */
void
cw_mend_drawing (CwMending *mending)
{
  CwFindingCode code = mending->finding->code;

  if (code == CW_FINDING_OFF_SHEET)
    mend_off_sheet (mending);
  else if (code == CW_FINDING_PIECE_FALLS_OUT)
    mend_falls_out (mending);
  else if (code == CW_FINDING_SCORE_STOPS_SHORT)
    cw_mend_score_ends (mending);
  else if (code == CW_FINDING_MARKS_DISAGREE)
    mend_disagree (mending);
  else if (code == CW_FINDING_MARKS_OVERLAP)
    mend_overlap (mending);
  else if (code == CW_FINDING_THIN_STRIP)
    cw_mend_strips (mending);
  else if (code == CW_FINDING_OFF_SNAP)
    cw_mend_snap (mending);
  else if (code == CW_FINDING_AGAINST_GRAIN)
    mend_grain (mending);
}
