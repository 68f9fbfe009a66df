/* test-motion-laws.c: what must hold for the motion of any design, tried on random small ones.
 *
 * The laws are plane and space geometry: a reflection of the drawing reflects what it folds into, a rotation rotates
 * it, a fold undone is undone, and names, order and cutting sequence mean nothing. Seeds are GLib's (printed by the
 * test runner; --seed repeats a run).
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "card-fixture.h"
#include "contact/cw-collision.h"

#define LEAVES_MAX 5
#define TRIES 40
/* Of a step, by how much what goes through two hairs and a band differs on the way back. */
#define SAME_MOMENT 0.02

/* An accordion of up to five leaves with a tag stuck on one of them; measures in sixteenths of an inch. */
typedef struct
{
  int n;
  int x[LEAVES_MAX + 1], height, hold;
  gboolean away[LEAVES_MAX];
  int to[LEAVES_MAX];
  int host, tag_x, tag_y;
} Card;

static Card
random_card (void)
{
  Card card = { .n = g_test_rand_int_range (2, LEAVES_MAX + 1), .height = g_test_rand_int_range (16, 80) };

  for (int i = 0; i < card.n; i++)
    {
      card.x[i + 1] = card.x[i] + g_test_rand_int_range (8, 40);
      card.away[i] = g_test_rand_bit ();
      card.to[i] = g_test_rand_int_range (-180, 181);
    }
  card.hold = g_test_rand_int_range (0, card.n);
  card.host = g_test_rand_int_range (0, card.n);
  card.tag_x = g_test_rand_int_range (-8, 32);
  card.tag_y = g_test_rand_int_range (-8, 32);
  return card;
}

typedef enum
{
  PLAIN,
  MIRRORED, /* left and right changed: x is width - x */
  TURNED,   /* by a half turn: x is width - x, y is height - y */
  SHUFFLED, /* marks drawn backwards and listed in reverse, the tag first */
} Way;

static int
way_x (const Card *card, Way way, int x)
{
  return way == MIRRORED || way == TURNED ? card->x[card->n] - x : x;
}

static int
way_y (const Card *card, Way way, int y)
{
  return way == TURNED ? card->height - y : y;
}

static void
append_point (GString *text, const Card *card, Way way, int x, int y)
{
  g_string_append_printf (text, "['%d/16','%d/16']", way_x (card, way, x), way_y (card, way, y));
}

static void
append_outline (GString *text, const Card *card, Way way, int width, int height)
{
  g_string_append (text, "'outline': [");
  append_point (text, card, way, 0, 0);
  g_string_append_c (text, ',');
  append_point (text, card, way, width, 0);
  g_string_append_c (text, ',');
  append_point (text, card, way, width, height);
  g_string_append_c (text, ',');
  append_point (text, card, way, 0, height);
  g_string_append (text, "], ");
}

static void
append_base (GString *text, const Card *card, Way way)
{
  g_string_append (text, "{ 'id': 'base', 'ground': true, ");
  append_outline (text, card, way, card->x[card->n], card->height);
  g_string_append (text, "'hold': ");
  append_point (text, card, way, card->x[card->hold] + 1, 1);
  g_string_append (text, ", 'marks': [");
  for (int k = 1; k < card->n; k++)
    {
      int i = way == SHUFFLED ? card->n - k : k;

      g_string_append_printf (text, "%s{ 'id': 's%d', 'kind': 'score', 'fold': '%s', 'line': [", k > 1 ? ", " : "", i,
                              card->away[i] ? "away" : "toward");
      append_point (text, card, way, card->x[i], way == SHUFFLED ? card->height : 0);
      g_string_append_c (text, ',');
      append_point (text, card, way, card->x[i], way == SHUFFLED ? 0 : card->height);
      g_string_append (text, "] }");
    }
  g_string_append (text, "] }");
}

static void
append_fold (GString *text, const Card *card, Way way, const char *id, gboolean open)
{
  g_string_append_printf (text, ", { 'id': '%s', 'do': 'fold', 'folds': [", id);
  for (int k = 1; k < card->n; k++)
    {
      int i = way == SHUFFLED ? card->n - k : k;

      g_string_append_printf (text, "%s{ 'score': 'base/s%d', 'to': %d }", k > 1 ? ", " : "", i,
                              open ? 0 : card->to[i]);
    }
  g_string_append (text, "] }");
}

/* The tag is 2 by 1 inch. Under a mirror or turn its corner nearest the new origin is another one, and that is what
 * `at` names: (u, v) of the tag becomes (2 - u, v) or (2 - u, 1 - v). */
static CwMotion *
make (const Card *card, Way way)
{
  static const char *tag
    = "{ 'id': 'tag', 'outline': [['0','0'],['2','0'],['2','1'],['0','1']], 'hold': ['1','1/2'], 'marks': [] }";
  g_autoptr (GString) text = g_string_new (CARD_HEAD CARD_INCH "'pieces': [ ");
  int far_x = way == MIRRORED || way == TURNED ? 32 : 0, far_y = way == TURNED ? 16 : 0;

  if (way == SHUFFLED)
    g_string_append_printf (text, "%s, ", tag);
  append_base (text, card, way);
  if (way != SHUFFLED)
    g_string_append_printf (text, ", %s", tag);
  g_string_append (text, " ], 'steps': [ { 'id': 'lay', 'do': 'stick', 'piece': 'tag', 'on': { 'piece': 'base',"
                         " 'face': 'front', 'panel': ");
  append_point (text, card, way, card->x[card->host] + 1, 1);
  g_string_append (text, " }, 'facing': 'back', 'at': ");
  append_point (text, card, way, card->x[card->host] + card->tag_x + far_x, card->tag_y + far_y);
  g_string_append (text, " }");
  append_fold (text, card, way, "fold", FALSE);
  append_fold (text, card, way, "open", TRUE);
  g_string_append (text, " ] }");
  return card_motion (text->str);
}

static CwVec3
leaf_point (const Card *card, Way way, const CwMotion *motion, const CwPose *pose, int leaf, int x, int y)
{
  return card_point (motion, pose, "base", way_x (card, way, card->x[leaf] + 1) / 16.0, way_y (card, way, 1) / 16.0,
                     way_x (card, way, x) / 16.0, way_y (card, way, y) / 16.0);
}

static CwVec3
tag_point (Way way, const CwMotion *motion, const CwPose *pose, int u, int v)
{
  double x = way == MIRRORED || way == TURNED ? 32 - u : u, y = way == TURNED ? 16 - v : v;

  return card_point (motion, pose, "tag", 1, 0.5, x / 16, y / 16);
}

/* Where a point in space comes to when the whole drawing is mirrored, turned or shuffled. */
static CwVec3
way_vec (const Card *card, Way way, CwVec3 p)
{
  if (way == MIRRORED || way == TURNED)
    p.x = card->x[card->n] / 16.0 - p.x;
  if (way == TURNED)
    p.y = card->height / 16.0 - p.y;
  return p;
}

static void
assert_near (CwVec3 got, CwVec3 want)
{
  card_assert_point (got, want.x, want.y, want.z);
}

static void
try_way (Way way)
{
  static const double fractions[] = { 0.25, 0.5, 1 };

  for (int try = 0; try < TRIES; try++)
    {
      Card card = random_card ();
      g_autoptr (CwMotion) plain = make (&card, PLAIN), other = make (&card, way);

      for (gsize f = 0; f < G_N_ELEMENTS (fractions); f++)
        {
          g_autoptr (CwPose) a = card_pose (plain, "fold", fractions[f]), b = card_pose (other, "fold", fractions[f]);

          for (int leaf = 0; leaf < card.n; leaf++)
            for (int corner = 0; corner < 4; corner++)
              {
                int x = card.x[leaf + corner % 2], y = corner < 2 ? 0 : card.height;

                assert_near (leaf_point (&card, way, other, b, leaf, x, y),
                             way_vec (&card, way, leaf_point (&card, PLAIN, plain, a, leaf, x, y)));
              }
          assert_near (tag_point (way, other, b, 32, 16), way_vec (&card, way, tag_point (PLAIN, plain, a, 32, 16)));
          assert_near (tag_point (way, other, b, 32, 1), way_vec (&card, way, tag_point (PLAIN, plain, a, 32, 1)));
        }
      g_assert_cmpuint (card_state (plain, "fold")->freedom, ==, card_state (other, "fold")->freedom);
      g_assert_true (card_state (plain, "fold")->flat == card_state (other, "fold")->flat);
    }
}

static void
test_mirrored (void)
{
  try_way (MIRRORED);
}

static void
test_turned (void)
{
  try_way (TURNED);
}

static void
test_shuffled (void)
{
  try_way (SHUFFLED);
}

/* Opened again, every panel lies where it was drawn. */
static void
test_open_undoes_fold (void)
{
  for (int try = 0; try < TRIES; try++)
    {
      Card card = random_card ();
      g_autoptr (CwMotion) motion = make (&card, PLAIN);
      g_autoptr (CwPose) pose = card_pose (motion, "open", 1);

      for (int leaf = 0; leaf < card.n; leaf++)
        card_assert_point (leaf_point (&card, PLAIN, motion, pose, leaf, card.x[leaf + 1], card.height),
                           card.x[leaf + 1] / 16.0, card.height / 16.0, 0);
      g_assert_true (card_state (motion, "open")->flat);
    }
}

/* The end of a step is the beginning of the next, and panels are rigid: no distance on a panel changes. */
static void
test_continuous_and_rigid (void)
{
  for (int try = 0; try < TRIES; try++)
    {
      Card card = random_card ();
      g_autoptr (CwMotion) motion = make (&card, PLAIN);
      g_autoptr (CwPose) end = card_pose (motion, "fold", 1), start = card_pose (motion, "open", 0);
      g_autoptr (CwPose) within = card_pose (motion, "fold", g_test_rand_double ());

      for (int leaf = 0; leaf < card.n; leaf++)
        {
          int x = card.x[leaf], y = card.height;
          double width = (card.x[leaf + 1] - x) / 16.0;
          CwVec3 a = leaf_point (&card, PLAIN, motion, within, leaf, x, 0);
          CwVec3 b = leaf_point (&card, PLAIN, motion, within, leaf, card.x[leaf + 1], y);

          assert_near (leaf_point (&card, PLAIN, motion, start, leaf, x, y),
                       leaf_point (&card, PLAIN, motion, end, leaf, x, y));
          g_assert_cmpfloat_with_epsilon (cw_vec3_length (cw_vec3_sub (a, b)), hypot (width, y / 16.0), 1e-9);
        }
    }
}

/* Which leaves (the tag: after all leaves) go through one another in a step, and when; 2: they do not. */
#define PARTS (LEAVES_MAX + 1)
static void
list_through (const Card *card, Way way, CwMotion *motion, guint step, double through[PARTS][PARTS])
{
  g_autoptr (CwFlatStates) states = cw_flat_states_new (motion);
  g_autoptr (GArray) found = cw_collisions_find (motion, states, NULL);
  int part_of[PARTS] = { 0 };

  for (int leaf = 0; leaf < card->n; leaf++)
    part_of[card_panel (motion, "base", way_x (card, way, card->x[leaf] + 1) / 16.0, way_y (card, way, 1) / 16.0)]
      = leaf;
  part_of[card_panel (motion, "tag", 1, 0.5)] = card->n;
  for (int i = 0; i < PARTS; i++)
    for (int k = 0; k < PARTS; k++)
      through[i][k] = 2;
  for (guint i = 0; i < found->len; i++)
    {
      const CwCollision *c = &g_array_index (found, CwCollision, i);
      int a = part_of[c->panel_a], b = part_of[c->panel_b];

      if (c->step == step)
        through[a][b] = through[b][a] = c->fraction;
    }
}

/* Leaves that come to lie on one another, or stand in one plane on their way, as well as any. */
static Card
random_flat_card (void)
{
  Card card = random_card ();

  for (int i = 1; i < card.n; i++)
    {
      card.x[i] = 16 * i;
      card.to[i] = g_test_rand_bit () ? 90 * g_test_rand_int_range (-2, 3) : card.to[i];
    }
  card.x[card.n] = 16 * card.n;
  return card;
}

/* What goes through what does not hang on how it is drawn. */
static void
test_collisions_drawn (void)
{
  guint n = 0;

  for (int try = 0; try < 3 * TRIES; try++)
    {
      Card card = try % 2 ? random_flat_card () : random_card ();
      g_autoptr (CwMotion) plain = make (&card, PLAIN);
      double want[PARTS][PARTS], got[PARTS][PARTS];

      for (guint step = 1; step < 3; step++)
        {
          list_through (&card, PLAIN, plain, step, want);
          for (int way = MIRRORED; way <= SHUFFLED; way++)
            {
              g_autoptr (CwMotion) other = make (&card, (Way) way);

              list_through (&card, (Way) way, other, step, got);
              for (int i = 0; i <= card.n; i++)
                for (int k = 0; k < i; k++)
                  {
                    g_assert_cmpfloat_with_epsilon (got[i][k], want[i][k], 1e-6);
                    n += want[i][k] <= 1;
                  }
            }
        }
    }
  g_assert_cmpuint (n, >, TRIES);
}

/* Folded and opened is the same motion both ways: the same goes through, at the mirrored moment if only once. What
 * cannot begin, or comes to rest on paper at the very end, is no matter of the motion between. */
static void
test_collisions_return (void)
{
  guint n = 0;

  for (int try = 0; try < 6 * TRIES; try++)
    {
      Card card = try % 2 ? random_flat_card () : random_card ();
      g_autoptr (CwMotion) motion = make (&card, PLAIN);
      double there[PARTS][PARTS], back[PARTS][PARTS];

      list_through (&card, PLAIN, motion, 1, there);
      list_through (&card, PLAIN, motion, 2, back);
      for (int i = 0; i <= card.n; i++)
        for (int k = 0; k < i; k++)
          {
            if (there[i][k] > 0 && back[i][k] > 0)
              {
                if ((there[i][k] <= 1) != (back[i][k] <= 1))
                  g_error ("parts %d and %d: there at %g, back at %g", i, k, there[i][k], back[i][k]);
                g_assert_cmpfloat (there[i][k] <= 1 ? there[i][k] + back[i][k] : 0, <=, 1 + SAME_MOMENT);
              }
            n += there[i][k] <= 1;
          }
    }
  g_assert_cmpuint (n, >, TRIES);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/laws/motion/a-mirrored-card-folds-mirrored", test_mirrored);
  g_test_add_func ("/laws/motion/a-turned-card-folds-turned", test_turned);
  g_test_add_func ("/laws/motion/order-of-marks-and-pieces-means-nothing", test_shuffled);
  g_test_add_func ("/laws/motion/open-undoes-fold", test_open_undoes_fold);
  g_test_add_func ("/laws/motion/collisions-however-it-is-drawn", test_collisions_drawn);
  g_test_add_func ("/laws/motion/collisions-both-ways", test_collisions_return);
  g_test_add_func ("/laws/motion/continuous-and-rigid", test_continuous_and_rigid);
  return g_test_run ();
}
