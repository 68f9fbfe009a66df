/* test-trimmer-order.c: the order of moves against every order there is.
 *
 * The referee is plain enumeration: every permutation of the lines of each stage, every way of each line. Random small
 * cases, seeds named. What is not proved the least must still keep the promises: every line once, stages in order, the
 * cost told is the cost of the order given.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "trim/cw-trimmer-private.h"

#define SEED 0x74726d31u

static GArray *
random_stage (GRand *rand, guint n_lines, guint n_ways, guint n_lies, gint32 n_stops)
{
  GArray *lines = g_array_new (FALSE, FALSE, sizeof (CwTrimLine));

  for (guint i = 0; i < n_lines; i++)
    {
      CwTrimLine line = { .n_ways = (guint) g_rand_int_range (rand, 1, (gint32) n_ways + 1) };

      for (guint w = 0; w < line.n_ways; w++)
        line.ways[w] = (CwTrimWay){ (guint) g_rand_int_range (rand, 0, (gint32) n_lies),
                                    g_rand_int_range (rand, 0, n_stops), w % 2 };
      g_array_append_val (lines, line);
    }
  return lines;
}

/* The least cost of what is left of a stage and of those after it. */
static guint
enumerate (GPtrArray *stages, guint stage, guint made, const CwTrimWay *last)
{
  const GArray *lines;
  guint best = G_MAXUINT / 2;

  while (stage < stages->len && made == (1u << ((GArray *) g_ptr_array_index (stages, stage))->len) - 1)
    {
      stage++;
      made = 0;
    }
  if (stage == stages->len)
    return 0;
  lines = g_ptr_array_index (stages, stage);
  for (guint i = 0; i < lines->len; i++)
    {
      const CwTrimLine *line = &g_array_index (lines, CwTrimLine, i);

      for (guint w = 0; (made & 1u << i) == 0 && w < line->n_ways; w++)
        {
          guint cost = cw_trim_cost (last, line->ways[w]);

          best = MIN (best, cost + enumerate (stages, stage, made | 1u << i, &line->ways[w]));
        }
    }
  return best;
}

/* Every line once, stages in order; returns what the order costs. */
static guint
retrace (GPtrArray *stages, const GArray *order)
{
  guint cost = 0, n = 0;
  g_autoptr (GHashTable) seen = g_hash_table_new (NULL, NULL);
  const CwTrimWay *last = NULL;

  for (guint s = 0; s < stages->len; s++)
    n += ((GArray *) g_ptr_array_index (stages, s))->len;
  g_assert_cmpuint (order->len, ==, n);
  for (guint i = 0; i < order->len; i++)
    {
      const CwTrimPick *pick = &g_array_index (order, CwTrimPick, i);
      const CwTrimLine *line
        = &g_array_index ((GArray *) g_ptr_array_index (stages, pick->stage), CwTrimLine, pick->line);

      g_assert_cmpuint (pick->way, <, line->n_ways);
      g_assert_true (g_hash_table_add (seen, GUINT_TO_POINTER (pick->stage * 1000 + pick->line)));
      if (i > 0)
        g_assert_cmpuint (pick->stage, >=, g_array_index (order, CwTrimPick, i - 1).stage);
      cost += cw_trim_cost (last, line->ways[pick->way]);
      last = &line->ways[pick->way];
    }
  return cost;
}

static void
test_least (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (SEED);

  for (guint trial = 0; trial < 200; trial++)
    {
      g_autoptr (GPtrArray) stages = g_ptr_array_new_with_free_func ((GDestroyNotify) g_array_unref);
      g_autoptr (GArray) order = NULL;
      guint cost;
      gboolean least;

      /* Up to five lines in all: 5! orders, 3^5 ways each. */
      g_ptr_array_add (stages, random_stage (rand, trial % 3, 3, 4, 4));
      g_ptr_array_add (stages, random_stage (rand, 1 + trial % 2, 3, 4, 4));
      g_ptr_array_add (stages, random_stage (rand, trial % 2, 3, 4, 4));
      order = cw_trim_order (stages, &cost, &least);
      g_assert_true (least);
      g_assert_cmpuint (cost, ==, retrace (stages, order));
      g_assert_cmpuint (cost, ==, enumerate (stages, 0, 0, NULL));
    }
  for (guint trial = 0; trial < 20; trial++)
    {
      g_autoptr (GPtrArray) stages = g_ptr_array_new_with_free_func ((GDestroyNotify) g_array_unref);
      g_autoptr (GArray) order = NULL;
      guint cost;
      gboolean least;

      g_ptr_array_add (stages, random_stage (rand, 6, 2, 3, 5));
      order = cw_trim_order (stages, &cost, &least);
      g_assert_true (least);
      g_assert_cmpuint (cost, ==, enumerate (stages, 0, 0, NULL));
    }
}

static void
test_nothing (void)
{
  g_autoptr (GPtrArray) stages = g_ptr_array_new_with_free_func ((GDestroyNotify) g_array_unref);
  g_autoptr (GArray) order = NULL;
  guint cost;
  gboolean least;

  order = cw_trim_order (stages, &cost, &least);
  g_assert_cmpuint (order->len, ==, 0);
  g_assert_cmpuint (cost, ==, 0);
  g_assert_true (least);
}

/* Lines that can each be made from two opposite edges, as on a sheet: large ones are laid well and told as not proved.
 */
static void
test_large (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (SEED + 1);

  for (guint trial = 0; trial < 20; trial++)
    {
      g_autoptr (GPtrArray) stages = g_ptr_array_new_with_free_func ((GDestroyNotify) g_array_unref);
      g_autoptr (GArray) order = NULL;
      GArray *lines = g_array_new (FALSE, FALSE, sizeof (CwTrimLine));
      guint cost, used = 0;
      gboolean least;

      for (guint i = 0; i < 30; i++)
        {
          gint32 at = g_rand_int_range (rand, 1, 40);
          guint axis = i % 2;
          CwTrimLine line = { 2, { { axis, at, 0 }, { axis + 2, 40 - at, 1 } } };

          g_array_append_val (lines, line);
        }
      g_ptr_array_add (stages, lines);
      order = cw_trim_order (stages, &cost, &least);
      g_assert_false (least);
      g_assert_cmpuint (cost, ==, retrace (stages, order));
      /* No more turns than there are edges to lay it by, and the stop never set twice to one place in one lying. */
      for (guint i = 0; i < order->len; i++)
        used |= 1u << g_array_index (lines, CwTrimLine, g_array_index (order, CwTrimPick, i).line)
                        .ways[g_array_index (order, CwTrimPick, i).way]
                        .lie;
      g_assert_cmpuint (cost / CW_TRIM_CHANGE, <=, 29 + (guint) __builtin_popcount (used) - 1);
    }
}

/* A gate: two scores as far from either end take one stop and one turn of the sheet. */
static void
test_gate (void)
{
  g_autoptr (GPtrArray) stages = g_ptr_array_new_with_free_func ((GDestroyNotify) g_array_unref);
  GArray *lines = g_array_new (FALSE, FALSE, sizeof (CwTrimLine));
  const CwTrimLine left = { 2, { { 0, 3, 0 }, { 2, 9, 1 } } }, right = { 2, { { 0, 9, 0 }, { 2, 3, 1 } } };
  g_autoptr (GArray) order = NULL;
  guint cost;
  gboolean least;

  g_array_append_val (lines, left);
  g_array_append_val (lines, right);
  g_ptr_array_add (stages, lines);
  order = cw_trim_order (stages, &cost, &least);
  g_assert_cmpuint (cost / CW_TRIM_CHANGE, ==, 1);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/trim/order/least-of-all-orders", test_least);
  g_test_add_func ("/trim/order/nothing-to-do", test_nothing);
  g_test_add_func ("/trim/order/large-sheets", test_large);
  g_test_add_func ("/trim/order/one-change-for-a-gate", test_gate);
  return g_test_run ();
}
