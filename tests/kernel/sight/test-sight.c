/* test-sight.c: what shows of which face, and how much of it.
 *
 * Areas are worked by hand from plane geometry; at an angle a flat sheet's picture is its area times the cosine. Random
 * rectangles are held against a count on a grid finer than their corners, written here and sharing nothing with the
 * kernel. No outside source.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "card-fixture.h"
#include "sight/cw-sight.h"

#define SEED 0x73656531u
#define CARDS 30
#define LAYERS 5
#define SIDE 16 /* quarter inches along the base */

static double
area_of (const CwMotion *motion, GArray *seen, const char *piece, double x, double y, CwFace face)
{
  guint panel = card_panel (motion, piece, x, y);
  double area = 0;

  for (guint i = 0; i < seen->len; i++)
    {
      const CwSeen *own = &g_array_index (seen, CwSeen, i);

      if (own->panel == panel && own->face == face)
        area += (double) own->area2 / 2 / CW_TICKS_PER_INCH / CW_TICKS_PER_INCH;
    }
  return area;
}

static GArray *
flat_seen (const CwMotion *motion, const CwFlatStates *states, const char *step, CwFace from)
{
  return cw_sight_flat (cw_flat_states_get (states, cw_design_find_step (cw_motion_get_set (motion)->design, step)),
                        from);
}

/* The cover, 3 in wide over a back of 4 in, with a window of 1 by 1; a note of 2 by 2 on the back. */
static const char *peep = CARD_HEAD CARD_INCH
  "'pieces': [ { 'id': 'base', 'outline': [['0','0'],['7','0'],['7','5'],['0','5']], 'hold': ['6','4'], 'marks': ["
  " { 'id': 'spine', 'kind': 'score', 'fold': 'toward', 'line': [['3','0'],['3','5']] },"
  " { 'id': 'hole', 'kind': 'window', 'rect': [['1','1'],['2','2']] } ] },"
  " { 'id': 'note', 'outline': [['0','0'],['2','0'],['2','2'],['0','2']], 'marks': [] } ],"
  "'steps': [ { 'id': 'lay', 'do': 'stick', 'piece': 'note', 'on': { 'piece': 'base', 'panel': ['6','4'], 'face':"
  " 'front' }, 'facing': 'back', 'at': ['4 1/2','1/2'] },"
  " { 'id': 'shut', 'do': 'fold', 'rest': 'closed', 'folds': [ { 'score': 'base/spine', 'to': 180 } ] } ] }";

static void
test_flat (void)
{
  g_autoptr (CwMotion) motion = card_motion (peep);
  g_autoptr (CwFlatStates) states = cw_flat_states_new (motion);
  g_autoptr (GArray) open = flat_seen (motion, states, "lay", CW_FACE_FRONT);
  g_autoptr (GArray) front = flat_seen (motion, states, "shut", CW_FACE_FRONT);
  g_autoptr (GArray) back = flat_seen (motion, states, "shut", CW_FACE_BACK);

  g_assert_cmpfloat_with_epsilon (area_of (motion, open, "base", 0.5, 0.5, CW_FACE_FRONT), 14, 1e-9);
  g_assert_cmpfloat_with_epsilon (area_of (motion, open, "base", 6, 4, CW_FACE_FRONT), 16, 1e-9);
  g_assert_cmpfloat_with_epsilon (area_of (motion, open, "note", 1, 1, CW_FACE_FRONT), 4, 1e-9);
  g_assert_cmpuint (open->len, ==, 3);

  /* Shut: the cover lies over x 3 .. 6, its window over 4 .. 5; the note over 4.5 .. 6.5. */
  g_assert_cmpfloat_with_epsilon (area_of (motion, front, "base", 0.5, 0.5, CW_FACE_BACK), 14, 1e-9);
  g_assert_cmpfloat_with_epsilon (area_of (motion, front, "note", 1, 1, CW_FACE_FRONT), 0.5 * 1 + 0.5 * 2, 1e-9);
  g_assert_cmpfloat_with_epsilon (area_of (motion, front, "base", 6, 4, CW_FACE_FRONT), 0.5 * 1 + 1 * 5 - 0.5 * 2,
                                  1e-9);
  g_assert_cmpuint (front->len, ==, 3);
  g_assert_cmpfloat_with_epsilon (area_of (motion, back, "base", 6, 4, CW_FACE_BACK), 20, 1e-9);
  g_assert_cmpuint (back->len, ==, 1);
}

/* Seen from straight in front and behind, the overlay of projections says the same as the cells. */
static void
test_from_is_flat (void)
{
  g_autoptr (CwMotion) motion = card_motion (peep);
  g_autoptr (CwFlatStates) states = cw_flat_states_new (motion);

  for (guint step = 0; step < 2; step++)
    for (int from = 0; from < 2; from++)
      {
        g_autoptr (CwPose) pose = card_pose (motion, step == 0 ? "lay" : "shut", 1);
        g_autoptr (GArray) cells
          = cw_sight_flat (cw_flat_states_get (states, step), from == 0 ? CW_FACE_FRONT : CW_FACE_BACK);
        g_autoptr (GArray) seen = cw_sight_from (motion, states, step, pose, cw_vec3 (0, 0, from == 0 ? 1 : -1));

        g_assert_cmpuint (seen->len, ==, cells->len);
        for (guint i = 0; i < seen->len; i++)
          {
            const CwSeen *a = &g_array_index (seen, CwSeen, i), *b = &g_array_index (cells, CwSeen, i);

            g_assert_cmpuint (a->panel, ==, b->panel);
            g_assert_cmpint (a->face, ==, b->face);
            g_assert_cmpint (a->area2, ==, b->area2);
          }
      }
}

/* Half open at 60 degrees between the leaves: the cover's picture is 3 cos 60 = 1.5 in wide, from x 3 to 4.5, and its
 * window's from 3.5 to 4 (1 to 2 in from the spine). The note starts at 4.5 and is clear of it. */
static void
test_standing (void)
{
  g_autoptr (CwMotion) motion = card_motion (peep);
  g_autoptr (CwFlatStates) states = cw_flat_states_new (motion);
  g_autoptr (CwPose) pose = card_pose (motion, "shut", 2.0 / 3);
  g_autoptr (GArray) front = cw_sight_from (motion, states, 1, pose, cw_vec3 (0, 0, 1));
  g_autoptr (GArray) back = cw_sight_from (motion, states, 1, pose, cw_vec3 (0, 0, -1));
  g_autoptr (GArray) level = cw_sight_from (motion, states, 1, pose, cw_vec3 (1, 0, 0));

  g_assert_cmpfloat_with_epsilon (area_of (motion, front, "base", 0.5, 0.5, CW_FACE_BACK), 14 * 0.5, 1e-3);
  g_assert_cmpfloat_with_epsilon (area_of (motion, front, "note", 1, 1, CW_FACE_FRONT), 4, 1e-3);
  g_assert_cmpfloat_with_epsilon (area_of (motion, front, "base", 6, 4, CW_FACE_FRONT), 20 - 4 - 7, 1e-3);
  g_assert_cmpfloat_with_epsilon (area_of (motion, back, "base", 6, 4, CW_FACE_BACK), 20, 1e-3);
  g_assert_cmpfloat_with_epsilon (area_of (motion, back, "base", 0.5, 0.5, CW_FACE_FRONT), 0, 1e-3);
  /* From the left, level with the table: the cover leans over it towards the eye's far side, its back is seen. */
  g_assert_cmpfloat_with_epsilon (area_of (motion, level, "base", 0.5, 0.5, CW_FACE_BACK), 14 * sin (G_PI / 3), 1e-3);
  g_assert_cmpuint (level->len, ==, 1);
}

/* A leaf of 4 by 4 and an arm of 3 by 1, both leaning at 45 degrees from hinges 2 in apart, lean through one another 1
 * in up: x = 4 + t and x = 6 - t meet at t = 1. Each is seen where it is higher; level from the left only the leaf's
 * outside and, above it, nothing. */
static void
test_piercing (void)
{
  const char *text = CARD_HEAD CARD_INCH
    "'pieces': [ { 'id': 'base', 'outline': [['0','0'],['10','0'],['10','4'],['0','4']], 'hold': ['9','3'],"
    " 'marks': [ { 'id': 's', 'kind': 'score', 'fold': 'toward', 'line': [['4','0'],['4','4']] } ] },"
    " { 'id': 'arm', 'outline': [['0','0'],['4','0'],['4','1'],['0','1']], 'hold': ['3 1/2','1/2'],"
    " 'marks': [ { 'id': 's', 'kind': 'score', 'fold': 'toward', 'line': [['3','0'],['3','1']] } ] } ],"
    "'steps': [ { 'id': 'stick', 'do': 'stick', 'piece': 'arm', 'on': { 'piece': 'base', 'panel': ['9','3'],"
    " 'face': 'front' }, 'facing': 'back', 'at': ['3','1'] },"
    " { 'id': 'up', 'do': 'fold', 'folds': [ { 'score': 'base/s', 'to': 135 }, { 'score': 'arm/s', 'to': 45 } ] } ] }";
  g_autoptr (CwMotion) motion = card_motion (text);
  g_autoptr (CwFlatStates) states = cw_flat_states_new (motion);
  g_autoptr (CwPose) pose = card_pose (motion, "up", 1);
  g_autoptr (GArray) front = cw_sight_from (motion, states, 1, pose, cw_vec3 (0, 0, 1));
  g_autoptr (GArray) left = cw_sight_from (motion, states, 1, pose, cw_vec3 (1, 0, 1));
  double leaf_tip = 4 * sqrt (0.5), arm_tip = 3 * sqrt (0.5);

  /* The arm over x 6 - 2.1213 .. 5, the leaf over all else of x 4 .. 6.8284. */
  g_assert_cmpfloat_with_epsilon (area_of (motion, front, "arm", 1, 0.5, CW_FACE_FRONT), arm_tip - 1, 1e-3);
  g_assert_cmpfloat_with_epsilon (area_of (motion, front, "base", 1, 1, CW_FACE_BACK), 4 * leaf_tip - 1, 1e-3);
  /* Along (1, 0, 1) the leaf is square to the eye, and the arm seen from its edge. */
  g_assert_cmpfloat_with_epsilon (area_of (motion, left, "arm", 1, 0.5, CW_FACE_FRONT), 0, 1e-3);
  g_assert_cmpfloat_with_epsilon (area_of (motion, left, "base", 1, 1, CW_FACE_BACK), 16, 1e-3);
}

/* Rectangles stuck one on another on a square base, seen from the front and from behind; corners on quarter inches. */
static void
test_random (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (SEED);

  for (guint c = 0; c < CARDS; c++)
    {
      g_autoptr (GString) text = g_string_new (
        CARD_HEAD CARD_INCH "'pieces': [ { 'id': 'base', 'outline': [['0','0'],['4','0'],['4','4'],['0','4']],"
                            " 'hold': ['2','2'], 'marks': [] }");
      g_autoptr (GString) steps = g_string_new ("], 'steps': [ ");
      int box[LAYERS][4], top[SIDE * 2][SIDE * 2];
      gboolean behind[LAYERS];

      for (int x = 0; x < SIDE * 2; x++)
        for (int y = 0; y < SIDE * 2; y++)
          top[x][y] = x >= SIDE / 2 && x < SIDE * 3 / 2 && y >= SIDE / 2 && y < SIDE * 3 / 2 ? LAYERS : -1;
      for (int i = 0; i < LAYERS; i++)
        {
          int w = g_rand_int_range (rand, 1, 13), h = g_rand_int_range (rand, 1, 13);

          behind[i] = g_rand_boolean (rand);
          box[i][0] = g_rand_int_range (rand, -4, SIDE - 2);
          box[i][1] = g_rand_int_range (rand, -4, SIDE - 2);
          box[i][2] = MIN (box[i][0] + w, SIDE + 4);
          box[i][3] = MIN (box[i][1] + h, SIDE + 4);
          w = box[i][2] - box[i][0];
          h = box[i][3] - box[i][1];
          g_string_append_printf (text,
                                  ", { 'id': 'p%d', 'outline': [['0','0'],['%d/4','0'],['%d/4','%d/4'],['0','%d/4']],"
                                  " 'marks': [] }",
                                  i, w, w, h, h);
          g_string_append_printf (steps,
                                  "%s{ 'id': 's%d', 'do': 'stick', 'piece': 'p%d', 'on': { 'piece': 'base', 'panel':"
                                  " ['2','2'], 'face': '%s' }, 'facing': '%s', 'at': ['%d/4','%d/4'] }",
                                  i > 0 ? ", " : "", i, i, behind[i] ? "back" : "front", behind[i] ? "front" : "back",
                                  box[i][0], box[i][1]);
        }
      g_string_append (text, steps->str);
      g_string_append (text, " ] }");
      for (int f = 0; f < 2; f++)
        {
          g_autoptr (CwMotion) motion = card_motion (text->str);
          g_autoptr (CwFlatStates) states = cw_flat_states_new (motion);
          g_autoptr (GArray) seen = flat_seen (motion, states, "s4", f == 0 ? CW_FACE_FRONT : CW_FACE_BACK);
          int count[LAYERS + 1] = { 0 };

          for (int x = 0; x < SIDE * 2; x++)
            for (int y = 0; y < SIDE * 2; y++)
              {
                int nearest = top[x][y];

                /* On the reader's side the last one stuck is nearest; on the other the first, behind the base. */
                for (int i = 0; i < LAYERS; i++)
                  if (x - SIDE / 2 >= box[i][0] && x - SIDE / 2 < box[i][2] && y - SIDE / 2 >= box[i][1]
                      && y - SIDE / 2 < box[i][3])
                    {
                      if (behind[i] == (f == 1))
                        nearest = i;
                      else if (nearest < 0)
                        nearest = i;
                    }
                if (nearest >= 0)
                  count[nearest]++;
              }
          for (int i = 0; i <= LAYERS; i++)
            {
              g_autofree char *id = i < LAYERS ? g_strdup_printf ("p%d", i) : g_strdup ("base");
              CwFace side = f == 0 ? CW_FACE_FRONT : CW_FACE_BACK;
              double area = area_of (motion, seen, id, 0.1, 0.1, side);

              g_assert_cmpfloat_with_epsilon (area, count[i] / 16.0, 1e-9);
            }
        }
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/sight/sight/flat", test_flat);
  g_test_add_func ("/sight/sight/straight-on-is-flat", test_from_is_flat);
  g_test_add_func ("/sight/sight/standing", test_standing);
  g_test_add_func ("/sight/sight/piercing", test_piercing);
  g_test_add_func ("/sight/sight/random-rectangles-on-a-grid", test_random);
  return g_test_run ();
}
