/* test-flat-laws.c: orders of layers of random strips folded crease by crease, and what may not change them.
 *
 * A strip folded at one crease turns all that hangs beyond it over, as one, and lays it outermost on the side it comes
 * from: so the order is a list from which the turned panels are taken, reversed, and put back at one end. The list is
 * kept here apart from the program; no geometry is in it. Laws: a mirrored strip, one turned end for end and one drawn
 * from its other side lie as they must.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "flat-fixture.h"

#define PANELS 7
#define STEPS 9
#define STRIPS 60
#define SEED 0x6c617965u

/* A strip and the folds made in it. `fronts`: 1 fronts meet, -1 backs, 0 opened. */
typedef struct
{
  int lengths[PANELS]; /* ticks */
  guint held;
  struct
  {
    guint crease;
    int fronts;
  } folds[STEPS];
} Strip;

/* TRUE if all that hangs beyond a crease lies on its own side of it, so that turning it lays all of it on one side of
 * the rest. Where it reaches past the crease, one part goes over and the other under: no list tells that. */
static gboolean
turns_clear (const Strip *strip, const int *fronts, guint crease)
{
  int from[PANELS], to[PANELS], way = 1, at = 0, line, beyond;

  for (guint i = 0; i < PANELS; i++)
    {
      from[i] = at;
      at += way * strip->lengths[i];
      to[i] = at;
      if (i + 1 < PANELS && fronts[i] != 0)
        way = -way;
    }
  line = to[crease];
  beyond = strip->held <= crease ? to[crease + 1] - line : from[crease] - line;
  for (guint i = 0; i < PANELS; i++)
    if ((strip->held <= crease) == (i > crease)
        && ((from[i] - line) * (beyond > 0 ? 1 : -1) < 0 || (to[i] - line) * (beyond > 0 ? 1 : -1) < 0))
      return FALSE;
  return TRUE;
}

static Strip
strip_random (GRand *rand)
{
  Strip strip = { .held = (guint) g_rand_int_range (rand, 0, PANELS) };
  int at[PANELS] = { 0 };

  for (guint i = 0; i < PANELS; i++)
    strip.lengths[i] = g_rand_int_range (rand, 4000, 16000);
  for (guint i = 0; i < STEPS; i++)
    {
      guint crease = (guint) g_rand_int_range (rand, 0, PANELS - 1);
      int to = at[crease] != 0 ? 0 : g_rand_boolean (rand) ? 1 : -1;

      /* The two panels at either end always turn clear. */
      while (!turns_clear (&strip, at, crease))
        {
          crease = (guint) g_rand_int_range (rand, 0, PANELS - 1);
          to = at[crease] != 0 ? 0 : g_rand_boolean (rand) ? 1 : -1;
        }
      strip.folds[i].crease = crease;
      strip.folds[i].fronts = at[crease] = to;
    }
  return strip;
}

/* The strip drawn from its other side: left and right change places, and fronts and backs. */
static Strip
strip_other_side (const Strip *strip, gboolean swap_faces)
{
  Strip other = *strip;

  other.held = PANELS - 1 - strip->held;
  for (guint i = 0; i < PANELS; i++)
    other.lengths[i] = strip->lengths[PANELS - 1 - i];
  for (guint i = 0; i < STEPS; i++)
    {
      other.folds[i].crease = PANELS - 2 - strip->folds[i].crease;
      other.folds[i].fronts = swap_faces ? -strip->folds[i].fronts : strip->folds[i].fronts;
    }
  return other;
}

static char *
strip_text (const Strip *strip, gboolean marks_backwards)
{
  GString *text = g_string_new (CARD_HEAD CARD_INCH "'pieces': [ { 'id': 'base', 'outline': [");
  gint64 whole = 0, x[PANELS + 1] = { 0 };

  for (guint i = 0; i < PANELS; i++)
    {
      whole += strip->lengths[i];
      x[i + 1] = whole;
    }
#define IN(ticks) ((double) (ticks) / 8128.0)
  g_string_append_printf (text, "['0','0'],['%.9f','0'],['%.9f','2'],['0','2']], 'hold': ['%.9f','1'], 'marks': [",
                          IN (whole), IN (whole), IN ((double) (x[strip->held] + x[strip->held + 1]) / 2));
  for (guint k = 0; k + 1 < PANELS; k++)
    {
      guint i = marks_backwards ? PANELS - 2 - k : k;

      g_string_append_printf (
        text, "%s{ 'id': 's%u', 'kind': 'score', 'fold': 'toward', 'line': [['%.9f','0'],['%.9f','2']] }",
        k > 0 ? "," : "", i, IN (x[i + 1]), IN (x[i + 1]));
    }
  g_string_append (text, "] } ], 'steps': [");
  for (guint i = 0; i < STEPS; i++)
    g_string_append_printf (text, "%s{ 'id': 'f%u', 'do': 'fold', 'folds': [ { 'score': 'base/s%u', 'to': %d } ] }",
                            i > 0 ? "," : "", i, strip->folds[i].crease, 180 * strip->folds[i].fronts);
  g_string_append (text, "] }");
  return g_string_free (text, FALSE);
}

/* The list, top to bottom as seen from the held panel's front, after fold `last`. */
static void
fold_list (const Strip *strip, guint last, guint *list)
{
  int fronts[PANELS] = { 0 };

  for (guint i = 0; i < PANELS; i++)
    list[i] = i;
  for (guint f = 0; f <= last; f++)
    {
      guint crease = strip->folds[f].crease, moved[PANELS], kept[PANELS], n_moved = 0, n_kept = 0;
      int to = strip->folds[f].fronts, by_way = to != 0 ? to : fronts[crease], turned = 0;
      guint own;

      /* The panel at the crease that stays: is its front up? */
      own = strip->held <= crease ? crease : crease + 1;
      for (guint i = MIN (own, strip->held); i < MAX (own, strip->held); i++)
        turned ^= fronts[i] != 0;
      for (guint i = PANELS; i-- > 0;)
        if ((strip->held <= crease) == (list[i] > crease))
          moved[n_moved++] = list[i];
      for (guint i = 0; i < PANELS; i++)
        if ((strip->held <= crease) != (list[i] > crease))
          kept[n_kept++] = list[i];
      fronts[crease] = to;
      /* What comes by way of the fronts of a panel that looks up comes from above. */
      if ((by_way > 0) != turned)
        {
          memcpy (list, moved, n_moved * sizeof (guint));
          memcpy (list + n_moved, kept, n_kept * sizeof (guint));
        }
      else
        {
          memcpy (list, kept, n_kept * sizeof (guint));
          memcpy (list + n_kept, moved, n_moved * sizeof (guint));
        }
    }
}

static void
test_random_strips (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (SEED);

  for (guint i = 0; i < STRIPS; i++)
    {
      Strip strip = strip_random (rand);
      g_autofree char *text = strip_text (&strip, FALSE);
      g_autoptr (CwFlatStates) states = flat_states (text);

      for (guint f = 0; f < STEPS; f++)
        {
          const CwFlatState *state = cw_flat_states_get (states, f);
          guint list[PANELS], seat[PANELS];
          gint64 area2 = 0, paper = 0;

          g_assert_true (state->flat);
          fold_list (&strip, f, list);
          for (guint k = 0; k < PANELS; k++)
            {
              seat[list[k]] = k;
              paper += strip.lengths[k];
            }
          for (guint c = 0; c < state->cells->len; c++)
            {
              const CwCell *cell = &g_array_index (state->cells, CwCell, c);

              area2 += cell->area2 * cell->n_layers;
              for (guint k = 1; k < cell->n_layers; k++)
                g_assert_cmpuint (seat[cell->layers[k - 1].panel], <, seat[cell->layers[k].panel]);
            }
          /* Cells narrower than rounding are dropped: less than 0.002 square inches a cell. */
          g_assert_cmpfloat_with_epsilon ((double) area2 / 2 / 8128 / 8128, (double) paper * 2 / 8128, 0.02);
        }
    }
}

/* The lists of layers of all cells of a state; panel k is told as `flip` - k if flip > 0. */
static char *
all_stacks (const CwFlatStates *states, guint step, guint flip, gboolean upside_down, gboolean from_right)
{
  const CwFlatState *state = cw_flat_states_get (states, step);
  GString *all = g_string_new (NULL);

  for (guint c = 0; c < state->cells->len; c++)
    {
      const CwCell *cell = &g_array_index (state->cells, CwCell, from_right ? state->cells->len - 1 - c : c);

      g_string_append (all, "|");
      for (guint k = 0; k < cell->n_layers; k++)
        {
          guint panel = cell->layers[upside_down ? cell->n_layers - 1 - k : k].panel;

          g_string_append_printf (all, "%u ", flip > 0 ? flip - panel : panel);
        }
    }
  return g_string_free (all, FALSE);
}

static void
assert_same (const CwFlatStates *a, const CwFlatStates *b, gboolean mirrored, gboolean upside_down)
{
  for (guint f = 0; f < STEPS; f++)
    {
      g_autofree char *one = all_stacks (a, f, 0, FALSE, FALSE);
      g_autofree char *two = all_stacks (b, f, mirrored ? PANELS - 1 : 0, upside_down, mirrored);

      g_assert_cmpstr (one, ==, two);
      g_assert_cmpint (cw_flat_states_get (a, f)->known, ==, cw_flat_states_get (b, f)->known);
    }
  g_assert_cmpuint (cw_flat_states_get_findings (a)->len, ==, cw_flat_states_get_findings (b)->len);
}

static void
test_laws (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (SEED + 1);

  for (guint i = 0; i < STRIPS / 2; i++)
    {
      Strip strip = strip_random (rand), mirrored = strip_other_side (&strip, FALSE),
            behind = strip_other_side (&strip, TRUE);
      g_autofree char *text = strip_text (&strip, FALSE);
      g_autofree char *backwards = strip_text (&strip, TRUE);
      g_autofree char *mirror_text = strip_text (&mirrored, FALSE);
      g_autofree char *behind_text = strip_text (&behind, FALSE);
      g_autoptr (CwFlatStates) states = flat_states (text);
      g_autoptr (CwFlatStates) reordered = flat_states (backwards);
      g_autoptr (CwFlatStates) mirror = flat_states (mirror_text);
      g_autoptr (CwFlatStates) other = flat_states (behind_text);

      assert_same (states, reordered, FALSE, FALSE);
      assert_same (states, mirror, TRUE, FALSE);
      assert_same (states, other, TRUE, TRUE);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/contact/flat-laws/random-strips", test_random_strips);
  g_test_add_func ("/contact/flat-laws/mirrored-reordered-other-side", test_laws);
  return g_test_run ();
}
