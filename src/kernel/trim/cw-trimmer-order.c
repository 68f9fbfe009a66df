/* cw-trimmer-order.c: in which order lines are made, so that the sheet is turned and the stop moved as little as can
 * be.
 *
 * Every line may be made in a few ways (sheet laid so, stop set there); a change of either costs one. Among orders
 * that cost the same the one that is easier to read wins: edges at the left and top, the stop going one way. Stages are
 * made one after the other. Within a stage it is a travelling salesman's path through groups of ways: solved exactly by
 * dynamic programming over sets of lines (Held and Karp 1962) while the tables stay small. Above that lines are laid
 * for the fewest edges that serve all of them, equal stops together: good, not proved.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "trim/cw-trimmer-private.h"

/* Lines of one stage up to which the exact search is tried, and table entries times choices it may take: under a tenth
 * of a second. */
#define EXACT_LINES 12
#define EXACT_WORK 40000000.0
#define NEVER (G_MAXUINT / 2)

/* A stage's end: how the sheet lies then, what it cost so far and what was done. */
typedef struct
{
  gboolean nothing_yet;
  CwTrimWay way;
  guint cost;
  GArray *path; /* of CwTrimPick */
} End;

static void
clear_end (gpointer data)
{
  g_array_unref (((End *) data)->path);
}

static guint
cost_from (const End *end, CwTrimWay way)
{
  return end->cost + cw_trim_cost (end->nothing_yet ? NULL : &end->way, way);
}

static guint
best_start (GArray *ends, CwTrimWay way, guint *from)
{
  guint best = NEVER;

  for (guint i = 0; i < ends->len; i++)
    {
      guint cost = cost_from (&g_array_index (ends, End, i), way);

      if (cost < best)
        {
          best = cost;
          *from = i;
        }
    }
  return best;
}

static GArray *
ends_new (void)
{
  GArray *ends = g_array_new (FALSE, FALSE, sizeof (End));

  g_array_set_clear_func (ends, clear_end);
  return ends;
}

/* Adds an end, unless one that lies the same way is as cheap. */
static void
add_end (GArray *ends, CwTrimWay way, guint cost, GArray *path)
{
  End end = { FALSE, way, cost, path };

  for (guint i = 0; i < ends->len; i++)
    {
      End *other = &g_array_index (ends, End, i);

      if (cw_trim_changes (other->way, way) != 0)
        continue;
      if (cost < other->cost)
        {
          g_array_unref (other->path);
          *other = end;
        }
      else
        g_array_unref (path);
      return;
    }
  g_array_append_val (ends, end);
}

static gboolean
is_small (const GArray *lines)
{
  double ways = 0;

  for (guint i = 0; i < lines->len; i++)
    ways += g_array_index (lines, CwTrimLine, i).n_ways;
  return lines->len <= EXACT_LINES && (double) (1u << lines->len) * ways * ways <= EXACT_WORK;
}

/* table[set][w]: the least cost to have made a set of lines, the last one by way w of all ways. */
static GArray *
stage_exact (GArray *starts, guint stage, const GArray *lines)
{
  guint n = lines->len, n_ways = 0, n_sets = 1u << n;
  guint first[EXACT_LINES + 1];
  GArray *ends = ends_new ();

  for (guint i = 0; i < n; i++)
    {
      first[i] = n_ways;
      n_ways += g_array_index (lines, CwTrimLine, i).n_ways;
    }
  first[n] = n_ways;

  g_autofree CwTrimWay *ways = g_new (CwTrimWay, n_ways);
  g_autofree guint *line_of = g_new (guint, n_ways);
  g_autofree guint *cost = g_new (guint, (gsize) n_sets * n_ways);
  g_autofree guint *before = g_new0 (guint, (gsize) n_sets * n_ways);

  for (guint i = 0; i < n; i++)
    for (guint w = first[i]; w < first[i + 1]; w++)
      {
        ways[w] = g_array_index (lines, CwTrimLine, i).ways[w - first[i]];
        line_of[w] = i;
      }
  for (gsize i = 0; i < (gsize) n_sets * n_ways; i++)
    cost[i] = NEVER;
  for (guint w = 0; w < n_ways; w++)
    {
      gsize at = (gsize) (1u << line_of[w]) * n_ways + w;

      cost[at] = best_start (starts, ways[w], &before[at]);
    }
  for (guint set = 1; set < n_sets; set++)
    for (guint w = 0; w < n_ways; w++)
      {
        guint so_far = cost[(gsize) set * n_ways + w];

        if (so_far >= NEVER)
          continue;
        for (guint v = 0; v < n_ways; v++)
          {
            guint next = set | 1u << line_of[v];
            guint sum = so_far + cw_trim_cost (&ways[w], ways[v]);

            if (next == set || sum >= cost[(gsize) next * n_ways + v])
              continue;
            cost[(gsize) next * n_ways + v] = sum;
            before[(gsize) next * n_ways + v] = w;
          }
      }

  for (guint w = 0; w < n_ways; w++)
    {
      guint set = n_sets - 1, at = w;
      GArray *path;
      g_autoptr (GArray) picks = g_array_new (FALSE, FALSE, sizeof (CwTrimPick));

      if (cost[(gsize) set * n_ways + w] >= NEVER)
        continue;
      for (;;)
        {
          CwTrimPick pick = { stage, line_of[at], at - first[line_of[at]] };
          guint back = before[(gsize) set * n_ways + at];

          g_array_append_val (picks, pick);
          set &= ~(1u << line_of[at]);
          at = back;
          if (set == 0)
            break;
        }
      path = g_array_copy (g_array_index (starts, End, at).path);
      for (guint i = picks->len; i-- > 0;)
        g_array_append_val (path, g_array_index (picks, CwTrimPick, i));
      add_end (ends, ways[w], cost[(gsize) (n_sets - 1) * n_ways + w], path);
    }
  return ends;
}

/* The lines of a stage, those that lie one way together and equal stops together, using only some of the ways the sheet
 * may lie; NULL if these do not serve every line. */
static GArray *
lay_by (GArray *starts, guint stage, const GArray *lines, guint lies, guint *cost)
{
  g_autofree guint *way_of = g_new (guint, lines->len);
  g_autofree gboolean *done = g_new0 (gboolean, lines->len);
  GArray *path;
  CwTrimWay last = { 0 };
  guint from = 0, sum = NEVER;

  /* A line takes the way that most lines could share. */
  for (guint i = 0; i < lines->len; i++)
    {
      const CwTrimLine *line = &g_array_index (lines, CwTrimLine, i);
      guint most = 0;

      way_of[i] = G_MAXUINT;
      for (guint w = 0; w < line->n_ways; w++)
        {
          guint shared = 0;

          if ((lies & 1u << line->ways[w].lie) == 0)
            continue;
          for (guint k = 0; k < lines->len; k++)
            {
              const CwTrimLine *other = &g_array_index (lines, CwTrimLine, k);

              for (guint v = 0; v < other->n_ways; v++)
                shared += cw_trim_changes (other->ways[v], line->ways[w]) == 0;
            }
          if (shared > most)
            {
              most = shared;
              way_of[i] = w;
            }
        }
      if (way_of[i] == G_MAXUINT)
        return NULL;
    }

  /* Begin with the way that follows best on what was before. */
  for (guint i = 0; i < lines->len; i++)
    {
      guint start = 0;
      guint begin = best_start (starts, g_array_index (lines, CwTrimLine, i).ways[way_of[i]], &start);

      if (begin < sum || (begin == sum && g_array_index (lines, CwTrimLine, i).ways[way_of[i]].stop < last.stop))
        {
          sum = begin;
          from = start;
          last = g_array_index (lines, CwTrimLine, i).ways[way_of[i]];
        }
    }
  path = g_array_copy (g_array_index (starts, End, from).path);
  for (guint made = 0; made < lines->len; made++)
    {
      guint next = G_MAXUINT, least = NEVER;

      for (guint i = 0; i < lines->len; i++)
        {
          CwTrimWay way = g_array_index (lines, CwTrimLine, i).ways[way_of[i]];
          /* Turning the sheet is put off: all that can be made as it lies is made first. */
          guint change = cw_trim_cost (&last, way) + CW_TRIM_CHANGE * (way.lie != last.lie);

          /* Of equals the lowest place on the rule: the numbers then go one way. */
          if (!done[i]
              && (change < least
                  || (change == least && way.stop < g_array_index (lines, CwTrimLine, next).ways[way_of[next]].stop)))
            {
              least = change;
              next = i;
            }
        }
      CwTrimPick pick = { stage, next, way_of[next] };
      CwTrimWay way = g_array_index (lines, CwTrimLine, next).ways[way_of[next]];
      done[next] = TRUE;
      sum += made == 0 ? 0 : cw_trim_cost (&last, way);
      last = way;
      g_array_append_val (path, pick);
    }
  *cost = sum;
  return path;
}

static GArray *
stage_by_edges (GArray *starts, guint stage, const GArray *lines)
{
  GArray *ends = ends_new ();
  guint all = 0;

  for (guint i = 0; i < lines->len; i++)
    for (guint w = 0; w < g_array_index (lines, CwTrimLine, i).n_ways; w++)
      all |= 1u << g_array_index (lines, CwTrimLine, i).ways[w].lie;
  for (guint lies = 1; lies <= all; lies++)
    {
      guint cost;
      GArray *path = (lies & ~all) == 0 ? lay_by (starts, stage, lines, lies, &cost) : NULL;

      if (path == NULL)
        continue;
      const CwTrimPick *pick = &g_array_index (path, CwTrimPick, path->len - 1);
      add_end (ends, g_array_index (lines, CwTrimLine, pick->line).ways[pick->way], cost, path);
    }
  return ends;
}

static CwTrimWay
way_at (GPtrArray *stages, const GArray *path, guint i)
{
  CwTrimPick pick = g_array_index (path, CwTrimPick, i);

  return g_array_index ((const GArray *) g_ptr_array_index (stages, pick.stage), CwTrimLine, pick.line).ways[pick.way];
}

static guint
path_cost (GPtrArray *stages, const GArray *path)
{
  guint sum = 0;

  for (guint i = 0; i < path->len; i++)
    {
      CwTrimWay before = i > 0 ? way_at (stages, path, i - 1) : (CwTrimWay){ 0 };

      sum += cw_trim_cost (i > 0 ? &before : NULL, way_at (stages, path, i));
    }
  return sum;
}

/* Numbers are easier to follow when they go one way: what is made with the sheet lying one way is put in the order of
 * its stops where that costs no more, all but the last if that shares its stop with what follows. */
static GArray *
sort_runs (GPtrArray *stages, GArray *path)
{
  GArray *best = g_array_ref (path);

  for (guint first = 0, n = 0; first < path->len; first += n)
    {
      CwTrimWay lies = way_at (stages, best, first);
      guint stage = g_array_index (path, CwTrimPick, first).stage;
      GArray *trial = g_array_copy (best);

      n = 1;
      while (first + n < path->len && way_at (stages, best, first + n).lie == lies.lie
             && g_array_index (path, CwTrimPick, first + n).stage == stage)
        n++;
      gboolean pinned
        = first + n < path->len && way_at (stages, best, first + n).stop == way_at (stages, best, first + n - 1).stop;
      for (guint i = first + 1; i < first + n - pinned; i++)
        for (guint k = i; k > first && way_at (stages, trial, k).stop < way_at (stages, trial, k - 1).stop; k--)
          {
            CwTrimPick swap = g_array_index (trial, CwTrimPick, k);

            g_array_index (trial, CwTrimPick, k) = g_array_index (trial, CwTrimPick, k - 1);
            g_array_index (trial, CwTrimPick, k - 1) = swap;
          }
      if (path_cost (stages, trial) <= path_cost (stages, best))
        {
          g_array_unref (best);
          best = trial;
        }
      else
        g_array_unref (trial);
    }
  return best;
}

/**
 * cw_trim_order:
 * @stages: of GArray of #CwTrimLine, each line with at least one way
 * @cost: (out): of the order, in the measure of cw_trim_cost(); the first laying costs nothing
 * @least: (out): whether no order has fewer
 *
 * Returns: (transfer full): GArray of #CwTrimPick: every line of every stage once, stages in order
 */
GArray *
cw_trim_order (GPtrArray *stages, guint *cost, gboolean *least)
{
  g_autoptr (GArray) ends = ends_new ();
  End start = { .nothing_yet = TRUE, .path = g_array_new (FALSE, FALSE, sizeof (CwTrimPick)) };
  guint best = 0;

  g_return_val_if_fail (stages != NULL && cost != NULL && least != NULL, NULL);

  *least = TRUE;
  g_array_append_val (ends, start);
  for (guint s = 0; s < stages->len; s++)
    {
      const GArray *lines = g_ptr_array_index (stages, s);
      gboolean small = is_small (lines);
      GArray *next;

      if (lines->len == 0)
        continue;
      next = small ? stage_exact (ends, s, lines) : stage_by_edges (ends, s, lines);
      g_array_unref (ends);
      ends = next;
      *least &= small;
    }
  for (guint i = 1; i < ends->len; i++)
    if (g_array_index (ends, End, i).cost < g_array_index (ends, End, best).cost)
      best = i;
  GArray *path = sort_runs (stages, g_array_index (ends, End, best).path);
  *cost = path_cost (stages, path);
  return path;
}
