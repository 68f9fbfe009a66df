/* cw-sets.c: sets of numbers that are only ever joined: panels held together, pieces glued together, hinges of one
 * loop.
 *
 * A forest in which every number points to a smaller one of its set; the way up is halved as it is walked (Tarjan and
 * van Leeuwen 1984, path halving). The smallest number stands for its set, so that nothing depends on the order in
 * which sets are joined.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "geometry/cw-sets.h"

/**
 * cw_sets_new:
 * @n: how many numbers
 *
 * Returns: (transfer full): @n sets of one number each, to be freed with g_free()
 */
guint *
cw_sets_new (guint n)
{
  guint *sets = g_new (guint, n + 1);

  for (guint i = 0; i < n; i++)
    sets[i] = i;
  return sets;
}

/**
 * cw_sets_find:
 * @sets: from cw_sets_new(); ways up are shortened
 * @i: a number
 *
 * Returns: the smallest number in the set of @i
 */
guint
cw_sets_find (guint *sets, guint i)
{
  while (sets[i] != i)
    {
      sets[i] = sets[sets[i]];
      i = sets[i];
    }
  return i;
}

/**
 * cw_sets_join:
 * @sets: from cw_sets_new()
 * @a: a number
 * @b: another, whose set becomes one with that of @a
 */
void
cw_sets_join (guint *sets, guint a, guint b)
{
  a = cw_sets_find (sets, a);
  b = cw_sets_find (sets, b);
  sets[MAX (a, b)] = MIN (a, b);
}
