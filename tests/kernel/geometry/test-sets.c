/* test-sets.c: sets that are joined, against walking the joins as a graph.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "geometry/cw-sets.h"

#define SEED 19840401
#define N 40

/* The smallest number that can be walked to from i over the joins, found the slow way. */
static guint
reach (const gboolean linked[N][N], guint i)
{
  gboolean seen[N] = { FALSE };
  gboolean grew = TRUE;

  seen[i] = TRUE;
  while (grew)
    {
      grew = FALSE;
      for (guint a = 0; a < N; a++)
        for (guint b = 0; b < N; b++)
          if (linked[a][b] && seen[a] != seen[b])
            seen[a] = seen[b] = grew = TRUE;
    }
  for (guint k = 0; k < N; k++)
    if (seen[k])
      return k;
  g_assert_not_reached ();
}

static void
test_walk (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (SEED);

  for (int round = 0; round < 30; round++)
    {
      gboolean linked[N][N] = { { FALSE } };
      g_autofree guint *sets = cw_sets_new (N);

      for (int k = 0; k < 2 + round; k++)
        {
          guint a = (guint) g_rand_int_range (rand, 0, N), b = (guint) g_rand_int_range (rand, 0, N);

          linked[a][b] = TRUE;
          cw_sets_join (sets, a, b);
        }
      for (guint i = 0; i < N; i++)
        g_assert_cmpuint (cw_sets_find (sets, i), ==, reach ((const gboolean (*)[N]) linked, i));
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/geometry/sets/hang-together-as-joined", test_walk);
  return g_test_run ();
}
