/* test-flat-boxes.c: random cards of boxes across the spine, shut, against plane geometry.
 *
 * A box of arms p and q is a parallelogram: its feet stand p and q from the spine, its panels are q and p long, and
 * shut its ridge comes to lie p + q from the spine. One with arms r and r across its far foot does the same from there.
 * So over every point of the shut card it is known which panels lie there; they lie as they are strung: left leaf, box,
 * box across its foot, right leaf. Seed named here.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "flat-fixture.h"

#define SEED 0x73687574u
#define CARDS 60
#define LEAF 6.0
#define HIGH 12.0
#define A_BIT 0.03125
#define MOST_BOXES 3

/* Inches. */
typedef struct
{
  double y0, y1, p, q, r; /* r: 0 for no box across the foot */
} Box;

static double
sixteenths (GRand *rand, int low, int high)
{
  return g_rand_int_range (rand, low, high + 1) / 16.0;
}

static void
add_mark (GString *marks, const char *kind, const char *fold, int *n, double x0, double y0, double x1, double y1)
{
  g_string_append_printf (marks, "%s{ 'id': 'm%d', 'kind': '%s'%s%s%s, 'line': [['%g','%g'],['%g','%g']] }",
                          *n > 0 ? ", " : "", *n, kind, *fold ? ", 'fold': '" : "", fold, *fold ? "'" : "", x0, y0, x1,
                          y1);
  (*n)++;
}

static void
add_box (GString *marks, int *n, const Box *b)
{
  double far = LEAF + b->q, a = b->y0 + 0.75, c = b->y1 - 0.75;

  add_mark (marks, "cut", "", n, LEAF - b->p, b->y0, far, b->y0);
  add_mark (marks, "cut", "", n, LEAF - b->p, b->y1, far, b->y1);
  add_mark (marks, "score", "toward", n, LEAF - b->p, b->y0, LEAF - b->p, b->y1);
  add_mark (marks, "score", "away", n, LEAF - b->p + b->q, b->y0, LEAF - b->p + b->q, b->y1);
  if (!(b->r > 0))
    {
      add_mark (marks, "score", "toward", n, far, b->y0, far, b->y1);
      return;
    }
  add_mark (marks, "score", "toward", n, far, b->y0, far, a);
  add_mark (marks, "score", "toward", n, far, c, far, b->y1);
  add_mark (marks, "cut", "", n, far - b->r, a, far + b->r, a);
  add_mark (marks, "cut", "", n, far - b->r, c, far + b->r, c);
  add_mark (marks, "score", "toward", n, far - b->r, a, far - b->r, c);
  add_mark (marks, "score", "away", n, far, a, far, c);
  add_mark (marks, "score", "toward", n, far + b->r, a, far + b->r, c);
}

static guint
random_boxes (GRand *rand, Box *boxes, GString *text)
{
  guint n_boxes = (guint) g_rand_int_range (rand, 1, MOST_BOXES + 1);
  double y = 0;
  int n = 0;

  g_string_append_printf (text, CARD_HEAD CARD_INCH
                          "'pieces': [ { 'id': 'base', 'outline': [['0','0'],['12','0'],['12','12'],['0','12']],"
                          " 'hold': ['11.75','11.75'], 'marks': [ ");
  for (guint i = 0; i < n_boxes; i++)
    {
      Box *b = &boxes[i];

      *b = (Box){ 4 * i + sixteenths (rand, 4, 16), 4 * i + sixteenths (rand, 48, 60), sixteenths (rand, 8, 64),
                  sixteenths (rand, 8, 64), sixteenths (rand, 4, 12) };
      if (!(b->p > 2 * b->r && b->q > b->r) || g_rand_boolean (rand))
        b->r = 0;
      add_mark (text, "score", "toward", &n, LEAF, y, LEAF, b->y0);
      add_box (text, &n, b);
      y = b->y1;
    }
  add_mark (text, "score", "toward", &n, LEAF, y, LEAF, HIGH);
  g_string_append (text, " ] } ], 'steps': [ { 'id': 'close', 'do': 'fold', 'folds': [ { 'score': 'base/m0', 'to': 180"
                         " } ] }, { 'id': 'open', 'do': 'fold', 'folds': [ { 'score': 'base/m0', 'to': 0 } ] } ] }");
  return n_boxes;
}

/* The panels over (x, y) of the shut card, top to bottom. */
static guint
stack_at (const CwMotion *motion, const Box *boxes, guint n_boxes, double x, double y, guint *stack)
{
  const Box *b = NULL;
  double from = x - LEAF;
  gboolean across;
  guint n = 0;

  for (guint i = 0; i < n_boxes; i++)
    if (y > boxes[i].y0 && y < boxes[i].y1)
      b = &boxes[i];
  if (b == NULL)
    {
      stack[n++] = card_panel (motion, "base", A_BIT, A_BIT);
      stack[n++] = card_panel (motion, "base", 12 - A_BIT, A_BIT);
      return n;
    }
  across = b->r > 0 && y > b->y0 + 0.75 && y < b->y1 - 0.75;
  if (from > b->p && from < LEAF)
    stack[n++] = card_panel (motion, "base", A_BIT, A_BIT);
  if (from > b->p && from < b->p + b->q)
    stack[n++] = card_panel (motion, "base", LEAF - b->p + A_BIT, b->y0 + A_BIT);
  if (from > b->q + (across ? b->r : 0) && from < b->p + b->q)
    stack[n++] = card_panel (motion, "base", LEAF - b->p + b->q + A_BIT, b->y0 + A_BIT);
  if (across && from > b->q + b->r && from < b->q + 2 * b->r)
    {
      stack[n++] = card_panel (motion, "base", LEAF + b->q - A_BIT, (b->y0 + b->y1) / 2);
      stack[n++] = card_panel (motion, "base", LEAF + b->q + A_BIT, (b->y0 + b->y1) / 2);
    }
  if (from > b->q + (across ? b->r : 0) && from < LEAF)
    stack[n++] = card_panel (motion, "base", 12 - A_BIT, A_BIT);
  return n;
}

static void
test_shut (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (SEED);
  guint n_across = 0;

  for (guint i = 0; i < CARDS; i++)
    {
      Box boxes[MOST_BOXES];
      g_autoptr (GString) text = g_string_new (NULL);
      guint n_boxes = random_boxes (rand, boxes, text), stack[8];
      g_autoptr (CwFlatStates) states = flat_states (text->str);
      const CwMotion *motion = cw_flat_states_get_motion (states);
      const CwFlatState *state = cw_flat_states_get (states, 0);
      gint64 area2 = 0;

      for (guint b = 0; b < n_boxes; b++)
        n_across += boxes[b].r > 0;
      g_assert_true (state->flat);
      g_assert_cmpint (state->known, !=, CW_KNOWN_BOUNDED);
      for (guint c = 0; c < state->cells->len; c++)
        {
          const CwCell *cell = &g_array_index (state->cells, CwCell, c);
          guint n = stack_at (motion, boxes, n_boxes, cell->inside.x / 8128.0, cell->inside.y / 8128.0, stack);

          g_assert_cmpuint (cell->n_layers, ==, n);
          for (guint k = 0; k < n; k++)
            g_assert_cmpuint (cell->layers[k].panel, ==, stack[k]);
          area2 += cell->area2 * cell->n_layers;
        }
      g_assert_cmpint (area2, ==, (gint64) (2 * 12 * 12) * 8128 * 8128);
      g_assert_cmpuint (cw_flat_states_get_findings (states)->len, ==, 0);
    }
  g_assert_cmpuint (n_across, >, CARDS / 3);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/contact/flat-boxes/shut", test_shut);
  return g_test_run ();
}
