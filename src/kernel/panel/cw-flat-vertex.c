/* cw-flat-vertex.c: the two conditions for one point of the paper.
 *
 * Kawasaki-Justin: creases at one interior point fold flat, for some choice of directions, exactly when their number is
 * even and every other angle between them adds up to 180 degrees. Maekawa-Justin: in any flat folding the creases
 * toward and away differ by two. (T. Kawasaki, 1989; J. Justin, 1986; T. Hull, "On the mathematics of flat origamis",
 * Congressus Numerantium 100, 1994.) Both look at one point only: layers that get in one another's way are not judged
 * here.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "panel/cw-flat-vertex.h"

#include <math.h>
#include <stdlib.h>

static int
compare_creases (const void *one, const void *two)
{
  const CwFlatCrease *a = one, *b = two;

  if (a->angle < b->angle)
    return -1;
  return a->angle > b->angle;
}

/**
 * cw_flat_vertex_judge:
 * @creases: (array length=n): all creases that fold, in any order; left sorted by angle
 * @n: how many
 *
 * Returns: their number, how many fold toward, and by how many degrees every other angle misses 180
 */
CwFlatVertex
cw_flat_vertex_judge (CwFlatCrease *creases, guint n)
{
  CwFlatVertex vertex = { n, 0, 180 };
  double sum = 0;

  g_return_val_if_fail (creases != NULL || n == 0, vertex);

  if (n > 1)
    qsort (creases, n, sizeof *creases, compare_creases);
  for (guint i = 0; i < n; i++)
    if (creases[i].toward)
      vertex.n_toward++;
  if (n == 0)
    vertex.miss_deg = 0;
  if (n == 0 || n % 2 == 1)
    return vertex;
  for (guint i = 0; i < n; i += 2)
    sum += creases[i + 1].angle - creases[i].angle;
  vertex.miss_deg = fabs (sum - G_PI) * 180 / G_PI;
  return vertex;
}

/**
 * cw_flat_vertex_is_good:
 * @vertex: what cw_flat_vertex_judge() found
 * @tolerance_deg: by how much the angles may miss
 *
 * Returns: whether both conditions hold
 */
gboolean
cw_flat_vertex_is_good (const CwFlatVertex *vertex, double tolerance_deg)
{
  guint away;

  g_return_val_if_fail (vertex != NULL, FALSE);

  if (vertex->n_creases == 0)
    return TRUE;
  away = vertex->n_creases - vertex->n_toward;
  return vertex->n_creases % 2 == 0 && vertex->miss_deg <= tolerance_deg
         && (vertex->n_toward == away + 2 || away == vertex->n_toward + 2);
}
