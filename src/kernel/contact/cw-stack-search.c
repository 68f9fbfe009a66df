/* cw-stack-search.c: looks for orders of layers that paper can take.
 *
 * One yes-or-no unknown for every two panels that lie over one another somewhere: does the first lie above? Justin's
 * conditions (cw-stack.c) are then sums of two or four unknowns that must be even, and three panels over one cell may
 * not lie above one another in a ring. Depth first, first open unknown first, above before below; what a choice forces
 * is followed at once. Deciding this is NP-hard in general (Bern & Hayes 1996), so both the size and the number of
 * choices have limits, and reaching one is said. The same engine counts all orders of a folded sheet.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "contact/cw-stack.h"

#include <string.h>

#include "geometry/cw-tolerance.h"

/* "a lies above b" is twice the unknown's number, plus one when a > b: then it is the unknown's contrary. */
typedef guint Claim;

typedef struct
{
  guint n_claims; /* 2 and 4: the sum of those that hold is even; 3: neither all hold nor none */
  Claim claims[4];
} Rule;

typedef struct
{
  const CwPile *pile;
  guint n;        /* members */
  guint *unknown; /* n * n, a < b: number of the pair's unknown; G_MAXUINT: they lie nowhere together */
  guint n_unknown;
  GArray *pairs; /* of CwPair, one an unknown */
  gint8 *value;  /* n_unknown: -1 open, 0 no, 1 yes */
  GArray *rules; /* of Rule */
  guint *first;  /* n_unknown + 1: into `uses` */
  guint *uses;   /* rules of each unknown */
  GArray *trail; /* of guint: unknowns in the order they were settled */
  gboolean broken;
} Search;

static Claim
claim (const Search *search, guint a, guint b)
{
  return a < b ? 2 * search->unknown[a * search->n + b] : 2 * search->unknown[b * search->n + a] + 1;
}

static gboolean
lie_together (const Search *search, guint a, guint b)
{
  return a != b && search->unknown[MIN (a, b) * search->n + MAX (a, b)] != G_MAXUINT;
}

static int
claim_value (const Search *search, Claim c)
{
  int value = search->value[c / 2];

  return value < 0 ? -1 : value ^ (int) (c & 1);
}

static void
settle (Search *search, Claim c, gboolean holds)
{
  gint8 wanted = (gint8) ((holds ? 1 : 0) ^ (int) (c & 1));
  guint which = c / 2;

  if (search->value[which] == wanted)
    return;
  if (search->value[which] >= 0)
    {
      search->broken = TRUE;
      return;
    }
  search->value[which] = wanted;
  g_array_append_val (search->trail, which);
}

static void
apply_rule (Search *search, const Rule *rule)
{
  guint open = 0, yes = 0, no = 0;
  Claim last = 0;

  for (guint i = 0; i < rule->n_claims; i++)
    {
      int value = claim_value (search, rule->claims[i]);

      if (value < 0)
        {
          open++;
          last = rule->claims[i];
        }
      else if (value > 0)
        yes++;
      else
        no++;
    }
  if (rule->n_claims == 3)
    {
      if (yes == 3 || no == 3)
        search->broken = TRUE;
      else if (open == 1 && yes == 2)
        settle (search, last, FALSE);
      else if (open == 1 && no == 2)
        settle (search, last, TRUE);
    }
  else if (open == 0 && yes % 2 == 1)
    search->broken = TRUE;
  else if (open == 1)
    settle (search, last, yes % 2 == 1);
}

/* Follows what the trail from `from` on forces. */
static gboolean
follow (Search *search, guint from)
{
  for (guint i = from; i < search->trail->len && !search->broken; i++)
    {
      guint which = g_array_index (search->trail, guint, i);

      for (guint k = search->first[which]; k < search->first[which + 1] && !search->broken; k++)
        apply_rule (search, &g_array_index (search->rules, Rule, search->uses[k]));
    }
  return !search->broken;
}

static void
take_back (Search *search, guint to)
{
  for (guint i = to; i < search->trail->len; i++)
    search->value[g_array_index (search->trail, guint, i)] = -1;
  g_array_set_size (search->trail, to);
  search->broken = FALSE;
}

/* --- The rules ---------------------------------------------------------------------------------------------------- */

static void
add_even (Search *search, guint n, Claim a, Claim b, Claim c, Claim d)
{
  Rule rule = { n, { a, b, c, d } };

  g_array_append_val (search->rules, rule);
}

static void
add_line_rules (Search *search, const CwStackLine *line)
{
  for (int side = 0; side < 2; side++)
    for (guint i = 0; i < line->folds[side]->len; i++)
      {
        const CwPair *fold = &g_array_index (line->folds[side], CwPair, i);

        for (guint k = 0; k < line->sheets->len; k++)
          {
            const CwPair *sheet = &g_array_index (line->sheets, CwPair, k);
            guint t = side == 0 ? sheet->a : sheet->b;

            if (lie_together (search, fold->a, t) && lie_together (search, fold->b, t))
              add_even (search, 2, claim (search, fold->a, t), claim (search, fold->b, t), 0, 0);
          }
        for (guint k = i + 1; k < line->folds[side]->len; k++)
          {
            const CwPair *other = &g_array_index (line->folds[side], CwPair, k);

            /* Both ends of the other lie within this fold, or neither. */
            if (other->a != fold->a && other->a != fold->b && other->b != fold->a && other->b != fold->b)
              add_even (search, 4, claim (search, fold->a, other->a), claim (search, fold->b, other->a),
                        claim (search, fold->a, other->b), claim (search, fold->b, other->b));
          }
      }
  for (guint i = 0; i < line->sheets->len; i++)
    for (guint k = i + 1; k < line->sheets->len; k++)
      {
        const CwPair *one = &g_array_index (line->sheets, CwPair, i), *two = &g_array_index (line->sheets, CwPair, k);

        if ((one->a != one->b || two->a != two->b) && one->b != two->b)
          add_even (search, 2, claim (search, one->a, two->a), claim (search, one->b, two->b), 0, 0);
      }
}

/* Three panels over one cell, each three once. */
static void
add_ring_rules (Search *search)
{
  GHashTable *known = g_hash_table_new_full (g_int64_hash, g_int64_equal, g_free, NULL); /* only looked up */
  gint64 n = search->n;

  for (guint i = 0; i < search->pile->cells->len; i++)
    {
      const CwPileCell *cell = &g_array_index (search->pile->cells, CwPileCell, i);

      for (guint x = 0; x < cell->n_members; x++)
        for (guint y = x + 1; y < cell->n_members; y++)
          for (guint z = y + 1; z < cell->n_members; z++)
            {
              guint a = cell->members[x], b = cell->members[y], c = cell->members[z];
              guint low = MIN (a, MIN (b, c)), high = MAX (a, MAX (b, c));
              gint64 key = ((gint64) low * n + (a + b + c - low - high)) * n + high;
              Rule rule = { 3, { claim (search, a, b), claim (search, b, c), claim (search, c, a), 0 } };

              /* Rings among pairs that are settled already cannot be. */
              if (claim_value (search, rule.claims[0]) >= 0 && claim_value (search, rule.claims[1]) >= 0
                  && claim_value (search, rule.claims[2]) >= 0)
                continue;
              if (g_hash_table_add (known, g_memdup2 (&key, sizeof key)))
                g_array_append_val (search->rules, rule);
            }
    }
  g_hash_table_unref (known);
}

static void
add_fold_signs (Search *search)
{
  for (guint i = 0; i < search->pile->n_seams; i++)
    {
      const CwSeam *seam = &search->pile->seams[i];
      gboolean b_over = (seam->fronts > 0) != cw_laid_is_turned (&search->pile->members[seam->a]);

      if (seam->folded && seam->fronts != 0 && lie_together (search, seam->a, seam->b))
        settle (search, claim (search, seam->b, seam->a), b_over);
    }
}

static gboolean
is_open (const GArray *open, guint a, guint b)
{
  if (open == NULL)
    return TRUE;
  for (guint i = 0; i < open->len; i++)
    {
      const CwPair *pair = &g_array_index (open, CwPair, i);

      if (pair->a == MIN (a, b) && pair->b == MAX (a, b))
        return TRUE;
    }
  return FALSE;
}

static void
find_unknowns (Search *search)
{
  const CwPile *pile = search->pile;

  search->unknown = g_new (guint, (gsize) search->n * search->n + 1);
  for (gsize i = 0; i < (gsize) search->n * search->n; i++)
    search->unknown[i] = G_MAXUINT;
  search->pairs = g_array_new (FALSE, FALSE, sizeof (CwPair));
  for (guint i = 0; i < pile->cells->len; i++)
    {
      const CwPileCell *cell = &g_array_index (pile->cells, CwPileCell, i);

      for (guint x = 0; x < cell->n_members; x++)
        for (guint y = x + 1; y < cell->n_members; y++)
          {
            CwPair pair = { MIN (cell->members[x], cell->members[y]), MAX (cell->members[x], cell->members[y]) };
            guint *own = &search->unknown[pair.a * search->n + pair.b];

            if (*own != G_MAXUINT)
              continue;
            *own = search->n_unknown++;
            g_array_append_val (search->pairs, pair);
          }
    }
  search->value = g_new (gint8, search->n_unknown + 1);
  memset (search->value, -1, search->n_unknown + 1);
}

/* What the cells already tell of pairs that are not open. */
static void
take_known (Search *search, const GArray *open)
{
  for (guint i = 0; open != NULL && i < search->pile->cells->len; i++)
    {
      const CwPileCell *cell = &g_array_index (search->pile->cells, CwPileCell, i);

      for (guint x = 0; x < cell->n_members; x++)
        for (guint y = x + 1; y < cell->n_members; y++)
          if (!is_open (open, cell->members[x], cell->members[y]))
            settle (search, claim (search, cell->members[x], cell->members[y]), TRUE);
    }
}

static void
index_rules (Search *search)
{
  g_autofree guint *fill = NULL;
  guint n = 0;

  search->first = g_new0 (guint, search->n_unknown + 2);
  for (guint i = 0; i < search->rules->len; i++)
    {
      const Rule *rule = &g_array_index (search->rules, Rule, i);

      for (guint k = 0; k < rule->n_claims; k++)
        search->first[rule->claims[k] / 2 + 1]++;
      n += rule->n_claims;
    }
  for (guint i = 0; i < search->n_unknown; i++)
    search->first[i + 1] += search->first[i];
  search->uses = g_new (guint, n + 1);
  fill = g_memdup2 (search->first, (search->n_unknown + 1) * sizeof (guint));
  for (guint i = 0; i < search->rules->len; i++)
    {
      const Rule *rule = &g_array_index (search->rules, Rule, i);

      for (guint k = 0; k < rule->n_claims; k++)
        search->uses[fill[rule->claims[k] / 2]++] = i;
    }
}

/* Puts every cell in the order found: a member's seat is how many lie above it. */
static void
write_order (const Search *search, CwPile *pile)
{
  for (guint i = 0; i < pile->cells->len; i++)
    {
      CwPileCell *cell = &g_array_index (pile->cells, CwPileCell, i);
      g_autofree guint *old = g_memdup2 (cell->members, cell->n_members * sizeof (guint));

      for (guint x = 0; x < cell->n_members; x++)
        {
          guint seat = 0;

          for (guint y = 0; y < cell->n_members; y++)
            if (x != y && claim_value (search, claim (search, old[y], old[x])) == 1)
              seat++;
          cell->members[seat] = old[x];
        }
    }
}

typedef struct
{
  guint unknown, trail; /* what was chosen, and how much was settled before */
  gboolean second;      /* the contrary is being tried */
} Choice;

static CwStackAnswer
look_through (Search *search, CwPile *pile, guint64 most, guint64 tries, GCancellable *stop)
{
  CwStackAnswer answer = { 0 };
  g_autoptr (GArray) choices = g_array_new (FALSE, FALSE, sizeof (Choice));
  guint64 n_tries = 0;
  gboolean good = !search->broken && follow (search, 0);

  for (;;)
    {
      guint next = choices->len > 0 ? g_array_index (choices, Choice, choices->len - 1).unknown : 0;

      if (good)
        {
          while (next < search->n_unknown && search->value[next] >= 0)
            next++;
          if (next < search->n_unknown)
            {
              Choice choice = { next, search->trail->len, FALSE };

              if (++n_tries > tries || g_cancellable_is_cancelled (stop))
                {
                  answer.gave_up = TRUE;
                  return answer;
                }
              g_array_append_val (choices, choice);
              settle (search, 2 * next, TRUE);
              good = follow (search, choice.trail);
              continue;
            }
          if (answer.n_found++ == 0)
            write_order (search, pile);
          if (answer.n_found >= most)
            return answer;
        }
      /* Back to the last choice whose contrary is left. */
      while (choices->len > 0 && g_array_index (choices, Choice, choices->len - 1).second)
        g_array_set_size (choices, choices->len - 1);
      if (choices->len == 0)
        return answer;
      {
        Choice *last = &g_array_index (choices, Choice, choices->len - 1);

        last->second = TRUE;
        take_back (search, last->trail);
        settle (search, 2 * last->unknown, FALSE);
        good = follow (search, last->trail);
      }
    }
}

/**
 * cw_stack_search:
 * @pile: a pile; its cells get the first order found
 * @open: (nullable) (element-type CwPair): the pairs whose order is looked for, all others being as the cells have
 *   them; %NULL: all
 * @most: stop after as many orders
 * @tries: give up after as many choices
 * @stop: (nullable): gives up when cancelled
 *
 * Two panels have one order wherever they lie together.
 *
 * Returns: how many orders there are, and whether all were looked at
 */
CwStackAnswer
cw_stack_search (CwPile *pile, const GArray *open, guint64 most, guint64 tries, GCancellable *stop)
{
  CwStackAnswer answer = { 0 };
  Search search = { .pile = pile };
  CwStackLine line;

  g_return_val_if_fail (pile != NULL && most > 0, answer);

  search.n = pile->n_members;
  if (search.n > CW_STACK_SEARCH_MEMBERS)
    {
      answer.gave_up = TRUE;
      return answer;
    }
  find_unknowns (&search);
  search.trail = g_array_new (FALSE, FALSE, sizeof (guint));
  search.rules = g_array_new (FALSE, FALSE, sizeof (Rule));
  take_known (&search, open);
  add_fold_signs (&search);
  cw_stack_line_init (&line, pile);
  for (guint i = 0; i < pile->edges->len && !g_cancellable_is_cancelled (stop); i++)
    {
      cw_stack_line_read (&line, pile, i);
      add_line_rules (&search, &line);
    }
  cw_stack_line_clear (&line);
  add_ring_rules (&search);
  index_rules (&search);
  if (g_cancellable_is_cancelled (stop))
    answer.gave_up = TRUE;
  else
    answer = look_through (&search, pile, most, tries, stop);

  g_free (search.unknown);
  g_free (search.value);
  g_free (search.first);
  g_free (search.uses);
  g_array_unref (search.pairs);
  g_array_unref (search.rules);
  g_array_unref (search.trail);
  return answer;
}
