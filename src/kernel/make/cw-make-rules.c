/* cw-make-rules.c: which way a new score folds, and which step folds it.
 *
 * Way: a crease that joins the ends of one cornered slit folds away (the corner flips out); one that ends at the ends
 * of two slits folds toward and one that ends inside both folds away (hinges and ridge of a step across a spine: round
 * a closed loop of parallel folds the signed angles add up); a second fold right across goes the other way if the outer
 * panels would lie on one another, else the same way; any other folds toward.
 * Step: in every block of fold lines (cw-make-graph.c) one score is driven and the others follow. A fold line right
 * across the ground piece is driven by the step that closes the card, any other by a making step of its own. Only
 * blocks that this edit made or left without a drive are looked at: what the maker chose to leave flat stays flat.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "make/cw-make-private.h"

#include "geometry/cw-polygon.h"
#include "geometry/cw-tolerance.h"
#include "panel/cw-path-flatten.h"

#include <math.h>
#include <string.h>

/* Ends of a straight or polyline mark. */
static gboolean
get_ends (const CwMark *mark, CwPoint *p, CwPoint *q)
{
  if (mark->shape != CW_SHAPE_LINE || mark->line.n_vertices < 2)
    return FALSE;
  *p = cw_place_get_point (&mark->line.vertices[0].at);
  *q = cw_place_get_point (&mark->line.vertices[mark->line.n_vertices - 1].at);
  return TRUE;
}

/* The outline as a closed line, and its box. */
typedef struct
{
  GArray *ring; /* of CwPoint, the first repeated */
  CwPoint low, high;
} Sheet;

static Sheet
sheet_of (const CwPiece *piece)
{
  Sheet sheet = { cw_path_flatten (&piece->outline, TRUE), { G_MAXINT32, G_MAXINT32 }, { G_MININT32, G_MININT32 } };

  for (guint i = 0; i < sheet.ring->len; i++)
    {
      CwPoint c = g_array_index (sheet.ring, CwPoint, i);
      sheet.low = cw_point (MIN (sheet.low.x, c.x), MIN (sheet.low.y, c.y));
      sheet.high = cw_point (MAX (sheet.high.x, c.x), MAX (sheet.high.y, c.y));
    }
  if (sheet.ring->len > 0)
    {
      CwPoint first = g_array_index (sheet.ring, CwPoint, 0);
      g_array_append_val (sheet.ring, first);
    }
  return sheet;
}

/* Whether the mark is one straight segment right across the piece. */
static gboolean
runs_across (const Sheet *sheet, const CwMark *mark, CwPoint *p, CwPoint *q)
{
  if (mark->kind != CW_MARK_SCORE || mark->line.n_vertices != 2 || !get_ends (mark, p, q))
    return FALSE;
  return cw_make_on_line (sheet->ring, *p, NULL) && cw_make_on_line (sheet->ring, *q, NULL)
         && 4 * hypot (q->x - p->x, q->y - p->y)
              >= 3.0 * MIN (sheet->high.x - sheet->low.x, sheet->high.y - sheet->low.y);
}

/* The way of a fold right across beside other such folds listed before it. */
static CwFoldWay
guess_across (const Sheet *sheet, const CwPiece *piece, const CwMark *mark, CwPoint p, CwPoint q)
{
  double length = hypot (q.x - p.x, q.y - p.y);
  double low = 0, high = 0, nearest = INFINITY;
  CwFoldWay other = CW_FOLD_NONE;
  guint n_others = 0;

  for (guint i = 0; i < sheet->ring->len; i++)
    {
      double t = (double) cw_point_orient (p, q, g_array_index (sheet->ring, CwPoint, i)) / length;
      low = MIN (low, t);
      high = MAX (high, t);
    }
  for (guint i = 0; i < piece->marks->len && piece->marks->pdata[i] != mark; i++)
    {
      const CwMark *m = piece->marks->pdata[i];
      CwPoint a, b;

      if (!runs_across (sheet, m, &a, &b) || !cw_make_parallel (p, q, a, b) || m->fold == CW_FOLD_NONE)
        continue;
      double t = (double) cw_point_orient (p, q, a) / length;
      n_others++;
      if (fabs (t) >= fabs (nearest))
        continue;
      nearest = t;
      other = m->fold;
    }
  if (n_others == 0)
    return CW_FOLD_TOWARD;
  /* Two folds: if both outer panels lie within the middle one they both close over it, like gates. */
  double outer = high - low - fabs (nearest);
  if (n_others == 1 && outer <= fabs (nearest) + CW_TOL_MEETS_TICKS)
    return other;
  return other == CW_FOLD_TOWARD ? CW_FOLD_AWAY : CW_FOLD_TOWARD;
}

/**
 * cw_make_guess_way:
 * @piece: holds all marks, @mark among them
 * @mark: a score not yet shared
 *
 * Sets the way it folds, as said at the top of this file.
 */
void
cw_make_guess_way (const CwPiece *piece, CwMark *mark)
{
  CwPoint p, q;
  const CwMark *cut_at[2] = { NULL, NULL };
  gboolean at_end[2] = { FALSE, FALSE };

  mark->fold = CW_FOLD_TOWARD;
  if (!get_ends (mark, &p, &q))
    return;
  for (guint i = 0; i < piece->marks->len; i++)
    {
      const CwMark *cut = piece->marks->pdata[i];
      CwPoint a, b;

      if (cut->kind != CW_MARK_CUT || !get_ends (cut, &a, &b) || cw_make_near (a, b))
        continue;
      if (cut->line.n_vertices > 2
          && ((cw_make_near (p, a) && cw_make_near (q, b)) || (cw_make_near (p, b) && cw_make_near (q, a))))
        {
          mark->fold = CW_FOLD_AWAY;
          return;
        }
      g_autoptr (GArray) points = cw_path_flatten (&cut->line, FALSE);
      for (guint end = 0; end < 2; end++)
        {
          gboolean ends_there;

          if (!cw_make_on_line (points, end ? q : p, &ends_there))
            continue;
          cut_at[end] = cut;
          at_end[end] = at_end[end] || ends_there;
        }
    }
  if (cut_at[0] && cut_at[1] && cut_at[0] != cut_at[1])
    mark->fold = at_end[0] || at_end[1] ? CW_FOLD_TOWARD : CW_FOLD_AWAY;
  else
    {
      Sheet sheet = sheet_of (piece);
      if (runs_across (&sheet, mark, &p, &q))
        mark->fold = guess_across (&sheet, piece, mark, p, q);
      g_array_unref (sheet.ring);
    }
}

static char *
make_address (const char *piece_id, const char *mark_id)
{
  return g_strdup_printf ("%s/%s", piece_id, mark_id);
}

typedef enum
{
  DRIVE_ANY,
  DRIVE_FIRM,    /* by a step that is not the program's own */
  DRIVE_CLOSING, /* by the step that closes the card */
} Drive;

static gboolean
step_counts (const CwStep *step, Drive drive)
{
  if (drive == DRIVE_CLOSING)
    return g_strcmp0 (step->rest, "closed") == 0;
  return drive == DRIVE_ANY || !cw_make_step_is_own (step);
}

/* Per block: whether a step of `design` folds one of its scores. */
static gboolean *
find_driven (const CwMakeGraph *graph, const CwDesign *design, Drive drive)
{
  gboolean *driven = g_new0 (gboolean, graph->n_blocks + 1);

  for (guint h = 0; h < cw_make_graph_n_hinges (graph); h++)
    {
      const CwHinge *hinge = cw_make_graph_get_hinge (graph, h);

      for (guint i = 0; i < hinge->scores->len; i++)
        {
          g_autofree char *address = make_address (graph->map->piece->id, hinge->scores->pdata[i]);

          for (guint s = 0; s < design->steps->len; s++)
            {
              const CwStep *step = design->steps->pdata[s];
              if (step_counts (step, drive) && cw_make_step_has_fold (step, address))
                driven[graph->block[h]] = TRUE;
            }
        }
    }
  return driven;
}

/* Every card can be closed and opened: makes those steps where a design lacks them. */
static void
ensure_rests (CwMakeWork *work)
{
  if (cw_make_find_rest (work->design, "closed") == G_MAXUINT)
    {
      CwStep *step = cw_step_new ();
      guint at = 0;

      step->id = cw_design_dup_free_id (work->design, "close");
      step->rest = g_strdup ("closed");
      step->what = CW_DO_FOLD;
      step->phase = CW_PHASE_MAKING;
      while (at < work->design->steps->len && ((CwStep *) work->design->steps->pdata[at])->phase != CW_PHASE_USING)
        at++;
      cw_make_work_do (work, cw_edit_new_insert (work->design, CW_LIST_STEPS, NULL, at, step));
    }
  if (cw_make_find_rest (work->design, "open") == G_MAXUINT)
    {
      CwStep *step = cw_step_new ();

      step->id = cw_design_dup_free_id (work->design, "open");
      step->rest = g_strdup ("open");
      step->what = CW_DO_FOLD;
      step->phase = CW_PHASE_USING;
      cw_make_work_do (work, cw_edit_new_insert (work->design, CW_LIST_STEPS, NULL, work->design->steps->len, step));
    }
}

/* Whether the fold line closes the card: right across the ground piece, and parallel to what closes it already. */
static gboolean
closes_card (const CwMakeWork *work, const CwMakeGraph *graph, guint h)
{
  const CwHinge *hinge = cw_make_graph_get_hinge (graph, h);
  guint close = cw_make_find_rest (work->design, "closed");

  if (g_strcmp0 (cw_design_get_ground (work->design)->id, graph->map->piece->id) != 0)
    return FALSE;
  if (!cw_make_graph_hinge_spans (graph, h))
    return FALSE;
  for (guint other = 0; close != G_MAXUINT && other < cw_make_graph_n_hinges (graph); other++)
    {
      const CwHinge *o = cw_make_graph_get_hinge (graph, other);
      g_autofree char *address = make_address (graph->map->piece->id, o->scores->pdata[0]);

      if (cw_make_step_has_fold (work->design->steps->pdata[close], address))
        return cw_make_parallel (o->p, o->q, hinge->p, hinge->q);
    }
  return TRUE;
}

static void
drive_by_closing (CwMakeWork *work, const char *address)
{
  ensure_rests (work);
  cw_make_add_fold (work, cw_make_find_rest (work->design, "closed"), address, 180.0);
  cw_make_add_fold (work, cw_make_find_rest (work->design, "open"), address, 0.0);
}

/* A step of its own, or that of a fold line of this edit on the same line. */
static void
drive_by_step (CwMakeWork *work, const CwMakeGraph *graph, guint h, GArray *hinges, GPtrArray *step_ids)
{
  const CwHinge *hinge = cw_make_graph_get_hinge (graph, h);
  const char *mark_id = hinge->scores->pdata[0];
  g_autofree char *address = make_address (graph->map->piece->id, mark_id);

  for (guint i = 0; i < hinges->len; i++)
    {
      const CwHinge *other = cw_make_graph_get_hinge (graph, g_array_index (hinges, guint, i));

      if (!cw_make_parallel (other->p, other->q, hinge->p, hinge->q)
          || !cw_make_parallel (other->p, other->q, other->p, hinge->q))
        continue;
      cw_make_add_fold (work, cw_design_find_step (work->design, step_ids->pdata[i]), address, 180.0);
      return;
    }
  g_autofree char *wish = g_strdup_printf ("fold-%s", mark_id);
  CwStep *step = cw_step_new ();
  step->id = cw_design_dup_free_id (work->design, wish);
  step->what = CW_DO_FOLD;
  step->phase = CW_PHASE_MAKING;
  g_ptr_array_add (step_ids, g_strdup (step->id));
  g_array_append_val (hinges, h);
  guint at = cw_make_insert_step (work, graph->map->piece->id, step);
  cw_make_add_fold (work, at, address, 180.0);
}

/* Own steps of scores that closing the card now moves by itself. */
static void
drop_idle_steps (CwMakeWork *work, const CwMakeGraph *graph, const CwMakeGraph *before)
{
  const char *piece_id = graph->map->piece->id;
  g_autofree gboolean *closing = find_driven (graph, work->design, DRIVE_CLOSING);
  g_autofree gboolean *closing_before = find_driven (before, before->set->design, DRIVE_CLOSING);

  for (guint h = 0; h < cw_make_graph_n_hinges (graph); h++)
    {
      const CwHinge *hinge = cw_make_graph_get_hinge (graph, h);

      for (guint i = 0; closing[graph->block[h]] && i < hinge->scores->len; i++)
        {
          guint old = cw_make_graph_find_hinge (before, hinge->scores->pdata[i]);
          g_autofree char *address = make_address (piece_id, hinge->scores->pdata[i]);

          if (old != G_MAXUINT && closing_before[before->block[old]])
            continue;
          for (guint s = work->design->steps->len; s > 0; s--)
            if (cw_make_step_is_own (work->design->steps->pdata[s - 1]))
              cw_make_drop_fold (work, s - 1, address);
        }
    }
}

/**
 * cw_make_settle:
 * @before: the piece before this edit
 *
 * Gives every block of fold lines that this edit made, or left without a drive, the step that folds it, and takes away
 * own steps that became idle.
 */
void
cw_make_settle (CwMakeWork *work, const char *piece_id, const CwMakeGraph *before)
{
  g_autoptr (CwMakeGraph) graph = cw_make_graph_new (work->design, piece_id);
  g_autofree gboolean *driven = find_driven (graph, work->design, DRIVE_ANY);
  g_autofree gboolean *firm = find_driven (graph, work->design, DRIVE_FIRM);
  g_autofree gboolean *driven_before = find_driven (before, before->set->design, DRIVE_ANY);
  g_autofree gboolean *fresh = g_new0 (gboolean, graph->n_blocks + 1);
  g_autofree guint *driver = g_new (guint, graph->n_blocks + 1);
  g_autoptr (GArray) hinges = g_array_new (FALSE, FALSE, sizeof (guint));
  g_autoptr (GPtrArray) step_ids = g_ptr_array_new_with_free_func (g_free);

  for (guint b = 0; b < graph->n_blocks; b++)
    driver[b] = G_MAXUINT;
  for (guint h = 0; h < cw_make_graph_n_hinges (graph); h++)
    {
      const CwHinge *hinge = cw_make_graph_get_hinge (graph, h);
      guint b = graph->block[h];

      for (guint i = 0; i < hinge->scores->len; i++)
        {
          guint old = cw_make_graph_find_hinge (before, hinge->scores->pdata[i]);
          fresh[b] = fresh[b] || old == G_MAXUINT || driven_before[before->block[old]]
                     || (hinge->fold != CW_FOLD_NONE && cw_make_graph_get_hinge (before, old)->fold == CW_FOLD_NONE);
        }
      if (hinge->fold != CW_FOLD_NONE
          && (driver[b] == G_MAXUINT
              || (!cw_make_graph_hinge_spans (graph, driver[b]) && cw_make_graph_hinge_spans (graph, h))))
        driver[b] = h;
    }
  for (guint h = 0; h < cw_make_graph_n_hinges (graph); h++)
    {
      guint b = graph->block[h];

      if (driver[b] != h || firm[b] || !fresh[b])
        continue;
      if (closes_card (work, graph, h))
        {
          const CwHinge *hinge = cw_make_graph_get_hinge (graph, h);
          g_autofree char *address = make_address (piece_id, hinge->scores->pdata[0]);
          drive_by_closing (work, address);
        }
      else if (!driven[b])
        drive_by_step (work, graph, h, hinges, step_ids);
    }
  drop_idle_steps (work, graph, before);
}
