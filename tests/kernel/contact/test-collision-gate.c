/* test-collision-gate.c: two doors shut together over the panel between them, against plane geometry.
 *
 * Both doors turn by the same angle. So they are the legs of a triangle over the panel between them, of width w, with
 * equal angles u at its foot, and the lines they lie in cross over the middle of the panel, w / (2 cos u) from either
 * fold. The shorter door reaches that place, and its edge goes through the longer one, where cos u = w / (2 s), if its
 * width s is more than w / 2; a shorter one comes to lie under the longer one. No outside source is needed. Sheets are
 * tried less a hair or two (CW_COLLISION_HAIR_TICKS), the shorter door less two.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "card-fixture.h"
#include "contact/cw-collision.h"
#include "geometry/cw-tolerance.h"

#define ROUNDS 60
#define SEED 0x67617465u

/* Doors and panel in ticks. A collision's moment is found to a few looks' rounding: the turn at it is judged by the
 * place it stands for. */
static void
check (gint left, gint between, gint right, gint height)
{
  g_autofree char *text = g_strdup_printf (
    CARD_HEAD CARD_INCH
    "'pieces': [ { 'id': 'base', 'outline': [['0','0'],['%d/8128','0'],['%d/8128','%d/8128'],['0','%d/8128']],"
    " 'hold': ['%d/8128','%d/8128'], 'marks': ["
    " { 'id': 'l', 'kind': 'score', 'fold': 'toward', 'line': [['%d/8128','0'],['%d/8128','%d/8128']] },"
    " { 'id': 'r', 'kind': 'score', 'fold': 'toward', 'line': [['%d/8128','0'],['%d/8128','%d/8128']] } ] } ],"
    " 'steps': [ { 'id': 'shut', 'do': 'fold', 'folds': [ { 'score': 'base/l', 'to': 180 },"
    " { 'score': 'base/r', 'to': 180 } ] } ] }",
    left + between + right, left + between + right, height, height, left + between / 2, height / 2, left, left, height,
    left + between, left + between, height);
  g_autoptr (CwMotion) motion = card_motion (text);
  g_autoptr (GArray) found = cw_collisions_find (motion, NULL, NULL);
  gint shorter = MIN (left, right), hairs = 2 * CW_COLLISION_HAIR_TICKS;

  g_test_message ("doors %d and %d over %d, %d high: %u", left, right, between, height, found->len);
  if (2 * shorter <= between)
    g_assert_cmpuint (found->len, ==, 0);
  else if (2 * shorter >= between + CW_TICKS_PER_INCH / 32)
    {
      const CwCollision *first = (const CwCollision *) (gpointer) found->data;
      double drawn = acos (between / (2.0 * shorter)), tried = acos (between / (2.0 * (shorter - hairs)));

      g_assert_cmpuint (found->len, ==, 1);
      g_assert_cmpfloat (first->fraction, >=, 1 - drawn / G_PI - 1e-6);
      g_assert_cmpfloat (first->fraction, <=, 1 - tried / G_PI + 1e-6);
    }
}

static void
test_overlaps (void)
{
  static const gint overlaps[] = { 0, 254, 508, 1016, 2032 }; /* 1/32, 1/16, 1/8, 1/4 inch */
  static const gint widths[] = { 2, 5, 10 };

  for (guint i = 0; i < G_N_ELEMENTS (overlaps); i++)
    for (guint k = 0; k < G_N_ELEMENTS (widths); k++)
      {
        gint between = widths[k] * CW_TICKS_PER_INCH, half = between / 2, lap = overlaps[i];

        /* Each beyond the middle by half the overlap; one by more; all of it one door's: that one lies over the other.
         */
        check (half + lap / 2, between, half + lap / 2, 5 * CW_TICKS_PER_INCH);
        check (half + lap / 2, between, half + 3 * lap, 5 * CW_TICKS_PER_INCH);
        check (half + 2 * lap, between, half + lap / 2, 2 * CW_TICKS_PER_INCH);
        check (half, between, half + lap, 5 * CW_TICKS_PER_INCH);
        check (half - lap, between, half + 2 * lap, 5 * CW_TICKS_PER_INCH);
      }
}

static void
test_random (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (SEED);

  for (guint i = 0; i < ROUNDS; i++)
    {
      gint between = g_rand_int_range (rand, CW_TICKS_PER_INCH, 12 * CW_TICKS_PER_INCH);
      gint left = between / 2 + g_rand_int_range (rand, -between / 3, between / 2 - 1);
      gint right = between / 2 + g_rand_int_range (rand, -between / 3, between / 2 - 1);

      /* Half of them just about meet. */
      if (i % 2 == 0)
        {
          left = between / 2 + g_rand_int_range (rand, -CW_TICKS_PER_INCH / 16, CW_TICKS_PER_INCH / 16);
          right = between / 2 + g_rand_int_range (rand, -CW_TICKS_PER_INCH / 16, CW_TICKS_PER_INCH / 16);
        }
      check (left, between, right, g_rand_int_range (rand, CW_TICKS_PER_INCH, 9 * CW_TICKS_PER_INCH));
    }
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/contact/collision-gate/overlaps-and-doors-that-just-meet", test_overlaps);
  g_test_add_func ("/contact/collision-gate/random-doors", test_random);
  return g_test_run ();
}
