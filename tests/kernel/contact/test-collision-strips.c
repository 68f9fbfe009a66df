/* test-collision-strips.c: random strips folded crease by crease, held against an exact answer in whole numbers.
 *
 * A strip folded flat at one crease turns a stack of flat panels about one line of another flat stack. What lies on the
 * side that goes up must lie above all it overlaps, what lies on the other side below (the rules of simple folds: Arkin
 * et al., "When can you fold a map?", Comput. Geom. 29, 2004, section 2). That is a question of intervals and of a
 * relation between pairs, with no angle and no tolerance in it. Seeds are named here.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "card-fixture.h"
#include "contact/cw-collision.h"

#define SEED 0x73747269u
#define STRIPS 250
#define MOST 8

/* In half inches; above[i][k] is 1 where i lies over k (nearer to -z), -1 under, 0 where they never overlapped. */
typedef struct
{
  guint n;
  int low[MOST], high[MOST], up[MOST], above[MOST][MOST];
} Strip;

static gboolean
overlap (const Strip *s, guint i, guint k, int low, int high)
{
  return MIN (MIN (s->high[i], s->high[k]), high) > MAX (MAX (s->low[i], s->low[k]), low);
}

/* Folds at the crease before panel c to `sign` 180; sets the pairs that go through one another. */
static gboolean
fold (Strip *s, guint c, int sign, gboolean pairs[MOST][MOST])
{
  /* The panels lie as drawn where they are the right way up. */
  int at = s->up[c - 1] > 0 ? s->high[c - 1] : s->low[c - 1];
  int side = s->low[c] == at ? 1 : -1, turn = sign * s->up[c - 1];
  const int far = 1000;
  gboolean through = FALSE;

  for (guint i = c; i < s->n; i++)
    for (guint k = 0; k < c; k++)
      {
        gboolean here = side > 0 ? overlap (s, i, k, at, far) : overlap (s, i, k, -far, at);
        gboolean there = side > 0 ? overlap (s, i, k, -far, at) : overlap (s, i, k, at, far);

        pairs[k][i] = (here && s->above[i][k] != turn) || (there && s->above[i][k] != -turn);
        through = through || pairs[k][i];
      }
  if (through)
    return TRUE;
  for (guint i = c; i < s->n; i++)
    {
      int low = s->low[i];

      s->low[i] = 2 * at - s->high[i];
      s->high[i] = 2 * at - low;
      s->up[i] = -s->up[i];
      for (guint k = c; k < s->n; k++)
        s->above[i][k] = -s->above[i][k];
    }
  for (guint i = c; i < s->n; i++)
    for (guint k = 0; k < c; k++)
      {
        gboolean landed = side > 0 ? overlap (s, i, k, -far, at) : overlap (s, i, k, at, far);
        gboolean sunk = side > 0 ? overlap (s, i, k, at, far) : overlap (s, i, k, -far, at);

        s->above[i][k] = landed ? turn : sunk ? -turn : 0;
        s->above[k][i] = -s->above[i][k];
      }
  return FALSE;
}

static CwMotion *
make_motion (const Strip *s, const guint *order, const int *signs)
{
  g_autoptr (GString) text = g_string_new (CARD_HEAD CARD_INCH);
  double width = s->high[s->n - 1] / 2.0;

  g_string_append_printf (text,
                          "'pieces': [ { 'id': 'base', 'outline': [['0','0'],['%.1f','0'],['%.1f','2'],['0','2']],"
                          " 'hold': ['0.25','1'], 'marks': [ ",
                          width, width);
  for (guint c = 1; c < s->n; c++)
    g_string_append_printf (text,
                            "%s{ 'id': 'c%u', 'kind': 'score', 'fold': 'toward', 'line': [['%.1f','0'],['%.1f','2']] }",
                            c > 1 ? ", " : "", c, s->low[c] / 2.0, s->low[c] / 2.0);
  g_string_append (text, " ] } ], 'steps': [ ");
  for (guint i = 0; i + 1 < s->n; i++)
    g_string_append_printf (text, "%s{ 'id': 's%u', 'do': 'fold', 'folds': [ { 'score': 'base/c%u', 'to': %d } ] }",
                            i > 0 ? ", " : "", i, order[i], signs[i] * 180);
  g_string_append (text, " ] }");
  return card_motion (text->str);
}

static void
check_strip (GRand *rand, guint *n_through)
{
  Strip s = { .n = (guint) g_rand_int_range (rand, 3, MOST + 1) };
  guint order[MOST], n_steps = s.n - 1, expected_step = G_MAXUINT, n_expected = 0;
  int signs[MOST];
  gboolean pairs[MOST][MOST] = { { FALSE } };
  g_autoptr (CwMotion) motion = NULL;
  g_autoptr (CwFlatStates) states = NULL;

  for (guint i = 0; i < s.n; i++)
    {
      s.low[i] = i > 0 ? s.high[i - 1] : 0;
      s.high[i] = s.low[i] + g_rand_int_range (rand, 1, 5);
      s.up[i] = 1;
    }
  for (guint i = 0; i < n_steps; i++)
    {
      guint k = (guint) g_rand_int_range (rand, 0, (gint32) i + 1);

      order[i] = order[k];
      order[k] = i + 1;
      signs[i] = g_rand_boolean (rand) ? 1 : -1;
    }
  motion = make_motion (&s, order, signs);
  g_assert_cmpuint (cw_panel_set_n_panels (cw_motion_get_set (motion)), ==, s.n);
  for (guint i = 0; i < n_steps && expected_step == G_MAXUINT; i++)
    if (fold (&s, order[i], signs[i], pairs))
      expected_step = i;
  for (guint i = 0; i < s.n; i++)
    for (guint k = i + 1; k < s.n; k++)
      n_expected += expected_step != G_MAXUINT && pairs[i][k];
  *n_through += expected_step != G_MAXUINT;

  states = cw_flat_states_new (motion);
  for (guint with = 0; with < 2; with++)
    {
      g_autoptr (GArray) found = cw_collisions_find (motion, with ? states : NULL, NULL);
      guint n = 0;

      for (guint i = 0; i < found->len; i++)
        {
          const CwCollision *c = &g_array_index (found, CwCollision, i);

          if (c->step > expected_step)
            break;
          g_assert_cmpuint (c->step, ==, expected_step);
          g_assert_true (pairs[c->panel_a][c->panel_b]);
          g_assert_cmpint (c->kind, ==, CW_COLLISION_PASS_THROUGH);
          g_assert_cmpfloat (c->fraction, <, 1e-6);
          n++;
        }
      g_assert_cmpuint (n, ==, n_expected);
    }
}

static void
test_random (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (SEED);
  guint n_through = 0;

  for (guint i = 0; i < STRIPS; i++)
    check_strip (rand, &n_through);
  /* Both answers come up often. */
  g_assert_cmpuint (n_through, >, STRIPS / 5);
  g_assert_cmpuint (n_through, <, STRIPS - STRIPS / 5);
  g_test_message ("%u of %u strips cannot be folded in their order", n_through, STRIPS);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/contact/collision-strips/as-whole-numbers-say", test_random);
  return g_test_run ();
}
