/* cw-drawing-score-ends.c: scores that end inside a panel and so cannot fold there.
 *
 * A score ends properly on the outline, a window, a cut or another score. A loose end is a node at which nothing but
 * one edge ends, and that edge is a score on paper. Only loose ends are told, not what else they make fall away: one
 * short score can silence a whole fold, and its other half is not to blame. A loose end is looked at three ways: how
 * far ahead the next mark is, how far back it left the last one, and whether a mark lies clearly nearer to its side;
 * the nearest is what it was meant to reach. Two scores that stop short of one another are one fault, and so are both
 * ends of one score. Scores that end on a curved score have reached it. A score set to no fold is held flat and need
 * not reach anything unless a step folds it.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "panel/cw-drawing-fault.h"

#include "cw-config.h"
#include "geometry/cw-tolerance.h"

#include <glib/gi18n-lib.h>
#include <math.h>

typedef enum
{
  TIP_SHORT, /* stops before the target ahead */
  TIP_ASIDE, /* the target lies to its side */
  TIP_OVER   /* runs past the target */
} TipKind;

typedef struct
{
  CwPoint at;
  guint mark;
  TipKind kind;
  guint target; /* a mark, or CW_SHEET_OUTLINE */
  double amount;
} Tip;

static gboolean
is_only_score (const CwSheetEdge *edge)
{
  return (edge->flags & CW_SHEET_SCORE) != 0 && (edge->flags & CW_SHEET_OPEN) == 0;
}

static gboolean
has_step (const CwDrawing *drawing, const CwMark *mark)
{
  g_autofree char *address = g_strdup_printf ("%s/%s", drawing->sheet->piece->id, mark->id);

  for (guint s = 0; s < drawing->design->steps->len; s++)
    {
      const CwStep *step = drawing->design->steps->pdata[s];

      for (guint i = 0; step->what == CW_DO_FOLD && i < step->folds->len; i++)
        if (g_strcmp0 (((const CwStepFold *) step->folds->pdata[i])->score, address) == 0)
          return TRUE;
    }
  return FALSE;
}

static gboolean
on_curved_score (const CwSheet *sheet, CwPoint p)
{
  for (guint m = 0; m < sheet->shapes->len; m++)
    {
      const GArray *points = sheet->shapes->pdata[m];

      for (guint i = 0; g_array_index (sheet->is_curved, gboolean, m) && i + 1 < points->len; i++)
        if (cw_segment_distance (g_array_index (points, CwPoint, i), g_array_index (points, CwPoint, i + 1), p.x, p.y)
            <= CW_TOL_ARC_TICKS)
          return TRUE;
    }
  return FALSE;
}

static guint
find_node (const CwSheet *sheet, CwPoint at)
{
  guint low = 0, high = sheet->ends->len;

  while (low < high)
    {
      guint middle = low + (high - low) / 2;
      CwPoint p = g_array_index (sheet->ends, CwSheetEnd, middle).at;

      if (p.x < at.x || (p.x == at.x && p.y < at.y))
        low = middle + 1;
      else
        high = middle;
    }
  return low;
}

/* Walks back from a loose end to where it left another mark: its distance and that mark; infinite when it never did. */
static double
walk_back (const CwSheet *sheet, CwPoint at, guint edge_number, guint own, guint *target)
{
  double length = 0;

  for (guint steps = 0; steps <= sheet->edges->len; steps++)
    {
      const CwSheetEdge *edge = &g_array_index (sheet->edges, CwSheetEdge, edge_number);
      CwPoint next = cw_point_equal (edge->a, at) ? edge->b : edge->a;
      guint first = find_node (sheet, next), n = cw_sheet_count_ends (sheet, first), onward = G_MAXUINT;

      length += hypot ((double) edge->b.x - edge->a.x, (double) edge->b.y - edge->a.y);
      for (guint i = first; i < first + n; i++)
        {
          guint other = g_array_index (sheet->ends, CwSheetEnd, i).edge;
          const CwSheetEdge *e = &g_array_index (sheet->edges, CwSheetEdge, other);

          if (other == edge_number)
            continue;
          onward = other;
          for (guint k = 0; k < e->n_links && (n > 2 || !is_only_score (e)); k++)
            if (cw_sheet_get_source (sheet, e, k)->mark != own)
              {
                *target = cw_sheet_get_source (sheet, e, k)->mark;
                return length;
              }
        }
      if (onward == G_MAXUINT)
        break;
      at = next;
      edge_number = onward;
    }
  return G_MAXDOUBLE;
}

/* How far along the way from p in direction (dx, dy), of unit length, a segment is met; infinite if never. */
static double
ray_meets (CwPoint p, double dx, double dy, const CwSheetSource *s)
{
  double ax = (double) s->a.x - p.x, ay = (double) s->a.y - p.y;
  double bx = (double) s->b.x - p.x, by = (double) s->b.y - p.y;
  double side_a = dx * ay - dy * ax, side_b = dx * by - dy * bx, ahead;

  if ((side_a > 0) == (side_b > 0) && fabs (side_a) > CW_TOL_MEETS_TICKS && fabs (side_b) > CW_TOL_MEETS_TICKS)
    return G_MAXDOUBLE;
  if (fabs (side_a - side_b) <= CW_TOL_MEETS_TICKS)
    ahead = MIN (dx * ax + dy * ay, dx * bx + dy * by);
  else
    {
      double share = CLAMP (side_a / (side_a - side_b), 0, 1);

      ahead = dx * (ax + share * (bx - ax)) + dy * (ay + share * (by - ay));
    }
  return ahead > CW_TOL_MEETS_TICKS ? ahead : G_MAXDOUBLE;
}

/* Finds out what a loose end was meant to reach. */
static Tip
judge_tip (const CwSheet *sheet, CwPoint at, guint edge_number)
{
  const CwSheetEdge *edge = &g_array_index (sheet->edges, CwSheetEdge, edge_number);
  CwPoint other = cw_point_equal (edge->a, at) ? edge->b : edge->a;
  double dx = (double) at.x - other.x, dy = (double) at.y - other.y, length = hypot (dx, dy);
  double ahead = G_MAXDOUBLE, aside = G_MAXDOUBLE, back;
  guint ahead_of = CW_SHEET_OUTLINE, beside = CW_SHEET_OUTLINE, left = CW_SHEET_OUTLINE;
  Tip tip = { at, cw_sheet_get_source (sheet, edge, 0)->mark, TIP_SHORT, CW_SHEET_OUTLINE, 0 };

  back = walk_back (sheet, at, edge_number, tip.mark, &left);
  for (guint i = 0; i < sheet->sources->len; i++)
    {
      const CwSheetSource *source = &g_array_index (sheet->sources, CwSheetSource, i);
      double meets, off;

      if (source->mark == tip.mark)
        continue;
      meets = ray_meets (at, dx / length, dy / length, source);
      if (meets < ahead)
        {
          ahead = meets;
          ahead_of = source->mark;
        }
      off = cw_segment_distance (source->a, source->b, at.x, at.y);
      if (off < aside && (source->mark != left || left == CW_SHEET_OUTLINE))
        {
          aside = off;
          beside = source->mark;
        }
    }
  tip.target = ahead_of;
  tip.amount = ahead;
  if (back < tip.amount)
    {
      tip.kind = TIP_OVER;
      tip.target = left;
      tip.amount = back;
    }
  /* Clearly nearer: less than half as far. */
  if (aside * 2 < tip.amount && beside != CW_SHEET_OUTLINE)
    {
      tip.kind = TIP_ASIDE;
      tip.target = beside;
      tip.amount = aside;
    }
  return tip;
}

static GArray *
collect_tips (const CwDrawing *drawing)
{
  const CwSheet *sheet = drawing->sheet;
  GArray *tips = g_array_new (FALSE, FALSE, sizeof (Tip));

  for (guint i = 0, n; i < sheet->ends->len; i += n)
    {
      const CwSheetEnd *end = &g_array_index (sheet->ends, CwSheetEnd, i);
      const CwSheetEdge *edge = &g_array_index (sheet->edges, CwSheetEdge, end->edge);
      const CwMark *mark;
      Tip tip;

      n = cw_sheet_count_ends (sheet, i);
      if (n > 1 || !is_only_score (edge) || !cw_sheet_edge_on_paper (sheet, edge) || on_curved_score (sheet, end->at))
        continue;
      tip = judge_tip (sheet, end->at, end->edge);
      mark = cw_drawing_get_mark (drawing, tip.mark);
      if (mark->fold != CW_FOLD_NONE || has_step (drawing, mark))
        g_array_append_val (tips, tip);
    }
  return tips;
}

static void
say_tip (const CwDrawing *drawing, const Tip *tip, gboolean both_ends)
{
  CwFinding *finding = cw_drawing_add (drawing, CW_FINDING_SCORE_STOPS_SHORT, tip->at);
  const char *piece = drawing->sheet->piece->id;
  const CwMark *mark = cw_drawing_get_mark (drawing, tip->mark);
  g_autofree char *amount = cw_drawing_say_length (drawing, tip->amount);
  const char *target = tip->target == CW_SHEET_OUTLINE ? piece : cw_drawing_get_mark (drawing, tip->target)->id;
  const char *words, *remedy;

  cw_finding_add_panel (finding, piece, cw_panel_map_find (drawing->map, tip->at));
  cw_finding_add_mark (finding, piece, mark->id);
  if (tip->target != CW_SHEET_OUTLINE)
    cw_finding_add_mark (finding, piece, target);
  cw_finding_set_amount (finding, CW_AMOUNT_TICKS, tip->amount);
  switch (tip->kind)
    {
    case TIP_SHORT:
      remedy = N_ ("Make it {1} longer at that end.");
      if (tip->target == CW_SHEET_OUTLINE)
        words = both_ends ? N_ ("Both ends of the score “{0}” lie inside a panel, one {1} short of the edge of “{2}”: "
                                "it cannot fold there.")
                          : N_ ("The score “{0}” ends inside a panel, {1} short of the edge of “{2}”: it cannot fold "
                                "there.");
      else
        words = both_ends ? N_ ("Both ends of the score “{0}” lie inside a panel, one {1} short of “{2}”: it cannot "
                                "fold there.")
                          : N_ ("The score “{0}” ends inside a panel, {1} short of “{2}”: it cannot fold there.");
      break;
    case TIP_ASIDE:
      remedy = N_ ("Let it end on “{2}”.");
      words = both_ends ? N_ ("Both ends of the score “{0}” lie inside a panel, one {1} beside “{2}”: it cannot fold "
                              "there.")
                        : N_ ("The score “{0}” ends inside a panel, {1} beside “{2}”: it cannot fold there.");
      break;
    case TIP_OVER:
      remedy = N_ ("Make it {1} shorter at that end.");
      words = tip->target == CW_SHEET_OUTLINE
                ? N_ ("The score “{0}” ends inside a panel, {1} from the edge of “{2}”: it cannot fold there.")
                : N_ ("The score “{0}” runs {1} past “{2}” and ends inside a panel: it cannot fold there.");
      break;
    default:
      g_return_if_reached ();
    }
  cw_finding_set_words (finding, words, remedy, mark->id, amount, target, NULL);
}

/* Whether a score has a stretch of paper on both sides that no cut wins. */
static gboolean
lies_on_paper (const CwSheet *sheet, guint mark)
{
  for (guint i = 0; i < sheet->edges->len; i++)
    {
      const CwSheetEdge *edge = &g_array_index (sheet->edges, CwSheetEdge, i);

      for (guint k = 0; is_only_score (edge) && k < edge->n_links; k++)
        if (cw_sheet_get_source (sheet, edge, k)->mark == mark && cw_sheet_edge_on_paper (sheet, edge))
          return TRUE;
    }
  return FALSE;
}

/* Scores that end properly and yet part no panels, where no short score explains it: the paper goes on round the end of
 * a slit they stop at. */
static void
check_idle_scores (const CwDrawing *drawing)
{
  const CwSheet *sheet = drawing->sheet;
  g_autofree gboolean *makes_hinge = g_new0 (gboolean, sheet->shapes->len + 1);

  for (guint i = 0; i < sheet->edges->len; i++)
    {
      const CwSheetEdge *edge = &g_array_index (sheet->edges, CwSheetEdge, i);

      for (guint k = 0; drawing->hinge_of_edge[i] != G_MAXUINT && k < edge->n_links; k++)
        makes_hinge[cw_sheet_get_source (sheet, edge, k)->mark] = TRUE;
    }
  for (guint m = 0; m < sheet->shapes->len; m++)
    {
      const CwMark *mark = cw_drawing_get_mark (drawing, m);
      const GArray *points = sheet->shapes->pdata[m];
      CwFinding *finding;

      if (mark->kind != CW_MARK_SCORE || makes_hinge[m] || g_array_index (sheet->is_curved, gboolean, m)
          || points->len < 2 || on_curved_score (sheet, g_array_index (points, CwPoint, 0))
          || on_curved_score (sheet, g_array_index (points, CwPoint, points->len - 1))
          || (mark->fold == CW_FOLD_NONE && !has_step (drawing, mark)) || !lies_on_paper (sheet, m))
        continue;
      finding = cw_drawing_add (drawing, CW_FINDING_SCORE_STOPS_SHORT, g_array_index (points, CwPoint, 0));
      cw_finding_add_mark (finding, sheet->piece->id, mark->id);
      cw_finding_set_words (finding,
                            N_ ("The score “{0}” parts no two panels: the paper runs on round what it ends at, so it "
                                "cannot fold."),
                            N_ ("Make the cut it ends at longer, until that meets another line or the edge."), mark->id,
                            NULL);
    }
}

/**
 * cw_drawing_check_score_ends:
 * @drawing: a drawing; gets `score-stops-short`
 */
void
cw_drawing_check_score_ends (const CwDrawing *drawing)
{
  g_autoptr (GArray) tips = collect_tips (drawing);
  g_autofree gboolean *told = g_new0 (gboolean, tips->len + 1);

  for (guint i = 0; i < tips->len; i++)
    {
      const Tip *tip = &g_array_index (tips, Tip, i), *worst = tip;
      gboolean both_ends = FALSE;

      if (told[i])
        continue;
      for (guint k = i + 1; k < tips->len; k++)
        {
          const Tip *other = &g_array_index (tips, Tip, k);

          if (told[k])
            continue;
          if (other->mark == tip->mark)
            {
              told[k] = both_ends = TRUE;
              if (other->amount > worst->amount)
                worst = other;
            }
          else if (tip->kind != TIP_OVER && other->kind != TIP_OVER && tip->target == other->mark
                   && other->target == tip->mark && fabs (tip->amount - other->amount) <= 2 * CW_TOL_MEETS_TICKS)
            told[k] = TRUE;
        }
      say_tip (drawing, worst, both_ends && worst->kind != TIP_OVER);
    }
  if (tips->len == 0)
    check_idle_scores (drawing);
}
