/* test-flat-vertex.c: the two conditions for creases that meet at one point.
 *
 * Sources: Kawasaki-Justin and Maekawa-Justin (J. Justin 1986, T. Kawasaki 1989); numbers of valid choices of
 * directions by T. Hull, "The combinatorics of flat folds", and "Counting mountain-valley assignments for flat folds",
 * Ars Combinatoria 67 (2003) 175-188.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "panel/cw-flat-vertex.h"

#include <math.h>

static guint
lay_out (const double *sectors_deg, guint n, guint toward, CwFlatCrease *creases)
{
  double angle = 0.3; /* anywhere: the point knows no up */

  for (guint i = 0; i < n; i++)
    {
      creases[i] = (CwFlatCrease){ remainder (angle, 2 * G_PI), (toward & 1u << i) != 0, 8128 };
      angle += sectors_deg[i] * G_PI / 180;
    }
  return n;
}

/* Hull 2003, as tabled by brute force. All choices that fold flat meet Maekawa-Justin, so there are at least as many of
 * these; with all sectors equal every one of them folds flat, 2 binom(2n, n-1), so there the count is exact. */
static void
test_counts (void)
{
  static const struct
  {
    guint n;
    double sectors[8];
    guint hull;
    gboolean equal, flat;
  } cases[] = {
    { 4, { 90, 90, 90, 90 }, 8, TRUE, TRUE },
    { 4, { 60, 60, 120, 120 }, 6, FALSE, TRUE },
    { 4, { 60, 100, 120, 80 }, 4, FALSE, TRUE },
    { 4, { 45, 90, 135, 90 }, 4, FALSE, TRUE },
    { 4, { 70, 100, 120, 70 }, 0, FALSE, FALSE },
    { 6, { 15, 30, 15, 30, 150, 120 }, 8, FALSE, TRUE },
    { 6, { 15, 15, 15, 30, 150, 135 }, 12, FALSE, TRUE },
    { 6, { 30, 45, 75, 75, 75, 60 }, 16, FALSE, TRUE },
    { 6, { 15, 15, 30, 30, 135, 135 }, 18, FALSE, TRUE },
    { 6, { 15, 15, 15, 15, 150, 150 }, 20, FALSE, TRUE },
    { 6, { 30, 30, 75, 75, 75, 75 }, 24, FALSE, TRUE },
    { 6, { 60, 60, 60, 60, 60, 60 }, 30, TRUE, TRUE },
    { 8, { 45, 45, 45, 45, 45, 45, 45, 45 }, 112, TRUE, TRUE },
  };

  for (guint c = 0; c < G_N_ELEMENTS (cases); c++)
    {
      guint good = 0;

      for (guint toward = 0; toward < 1u << cases[c].n; toward++)
        {
          CwFlatCrease creases[8];
          CwFlatVertex vertex = cw_flat_vertex_judge (creases, lay_out (cases[c].sectors, cases[c].n, toward, creases));

          g_assert_cmpuint (vertex.n_creases, ==, cases[c].n);
          if (cases[c].flat)
            g_assert_cmpfloat (vertex.miss_deg, <, 1e-9);
          if (cw_flat_vertex_is_good (&vertex, 1e-6))
            good++;
        }
      if (cases[c].equal || !cases[c].flat)
        g_assert_cmpuint (good, ==, cases[c].hull);
      else
        g_assert_cmpuint (good, >=, cases[c].hull);
    }
}

/* 70 + 120 = 190: the sum misses by ten degrees. */
static void
test_miss (void)
{
  static const double sectors[4] = { 70, 100, 120, 70 };
  CwFlatCrease creases[4];
  CwFlatVertex vertex = cw_flat_vertex_judge (creases, lay_out (sectors, 4, 7, creases));

  g_assert_cmpfloat_with_epsilon (vertex.miss_deg, 10, 1e-9);
  g_assert_cmpuint (vertex.n_toward, ==, 3);
  g_assert_false (cw_flat_vertex_is_good (&vertex, 9.99));
  g_assert_true (cw_flat_vertex_is_good (&vertex, 10.01));
}

/* An odd number of creases never folds flat; two fold flat only along one straight line and the same way. */
static void
test_few (void)
{
  static const double three[3] = { 120, 120, 120 }, straight[2] = { 180, 180 }, bent[2] = { 170, 190 };
  CwFlatCrease creases[3];
  CwFlatVertex vertex;

  for (guint toward = 0; toward < 8; toward++)
    {
      vertex = cw_flat_vertex_judge (creases, lay_out (three, 3, toward, creases));
      g_assert_false (cw_flat_vertex_is_good (&vertex, 1));
    }
  for (guint toward = 0; toward < 4; toward++)
    {
      vertex = cw_flat_vertex_judge (creases, lay_out (straight, 2, toward, creases));
      g_assert_cmpint (cw_flat_vertex_is_good (&vertex, 1e-6), ==, toward == 0 || toward == 3);
      vertex = cw_flat_vertex_judge (creases, lay_out (bent, 2, toward, creases));
      g_assert_false (cw_flat_vertex_is_good (&vertex, 1e-6));
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/panel/flat-vertex/counts-of-hull", test_counts);
  g_test_add_func ("/panel/flat-vertex/miss-in-degrees", test_miss);
  g_test_add_func ("/panel/flat-vertex/odd-and-two", test_few);
  return g_test_run ();
}
