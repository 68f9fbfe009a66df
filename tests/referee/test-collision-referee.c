/* test-collision-referee.c: random strips of slanted, pierced and L-shaped panels in random motions, against a general
 * collision library looking densely.
 *
 * Not missed: where the library sees two panels, each drawn in towards its middle, cut one another at a look, a
 * collision of that pair was found no later. Not invented: where a collision is found, the library finds the two whole
 * panels touching at that very moment. Panels that share a fold line always touch and are left out. Seed named here.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "card-fixture.h"
#include "collision-referee.h"
#include "contact/cw-collision.h"

#define SEED 0x72656665u
#define STRIPS 300
#define MOST 6
#define LOOKS 240
#define STEPS 3
#define HEIGHT 3.0
/* Parts are drawn in to this share about their middles: at least 0.02 in at every edge, over two hairs. */
#define DRAWN_IN 0.92
#define MAX_TRIANGLES 16

/* A panel as convex parts of four corners. */
typedef struct
{
  guint n;
  double corners[4][4][2]; /* parts, corners, x and y: inches */
} Parts;

static void
add_part (Parts *parts, double x0, double y0, double x1, double y1, double x2, double y2, double x3, double y3)
{
  const double corners[4][2] = { { x0, y0 }, { x1, y1 }, { x2, y2 }, { x3, y3 } };

  memcpy (parts->corners[parts->n++], corners, sizeof corners);
}

static RefereeSheet *
make_sheet (const Parts *parts, double share)
{
  double corners[6 * MAX_TRIANGLES];
  guint n = 0;

  for (guint p = 0; p < parts->n; p++)
    {
      double middle[2] = { 0, 0 };
      static const guint order[6] = { 0, 1, 2, 0, 2, 3 };

      for (guint i = 0; i < 4; i++)
        for (guint c = 0; c < 2; c++)
          middle[c] += parts->corners[p][i][c] / 4;
      for (guint i = 0; i < 6; i++)
        for (guint c = 0; c < 2; c++)
          corners[n++] = CW_TICKS_PER_INCH * (middle[c] + share * (parts->corners[p][order[i]][c] - middle[c]));
    }
  return referee_sheet_new (2 * parts->n, corners);
}

typedef struct
{
  guint n;
  Parts parts[MOST];
  CwMotion *motion;
} Strip;

/* Fold lines lean by up to half an inch; panels are 3/4 to 2 in wide in their middles. */
static void
make_strip (GRand *rand, Strip *strip)
{
  g_autoptr (GString) marks = g_string_new (NULL);
  g_autoptr (GString) steps = g_string_new (NULL);
  g_autofree char *text = NULL;
  double top[MOST + 1] = { 0 }, bottom[MOST + 1] = { 0 }, end, notch;

  strip->n = (guint) g_rand_int_range (rand, 3, MOST + 1);
  for (guint i = 1; i <= strip->n; i++)
    {
      double middle = (top[i - 1] + bottom[i - 1]) / 2 + g_rand_int_range (rand, 12, 33) / 16.0;
      double lean = i < strip->n ? g_rand_int_range (rand, -4, 5) / 16.0 : 0;

      top[i] = middle + lean;
      bottom[i] = middle - lean;
      if (i < strip->n)
        g_string_append_printf (marks,
                                "%s{ 'id': 'c%u', 'kind': 'score', 'fold': 'toward',"
                                " 'line': [['%.4f','0'],['%.4f','3']] }",
                                i > 1 ? ", " : "", i, top[i], bottom[i]);
    }
  /* The last panel goes on as the foot of an L. */
  end = top[strip->n];
  notch = g_rand_boolean (rand) ? 1 : 2;
  for (guint i = 0; i < strip->n; i++)
    {
      Parts *parts = &strip->parts[i];
      double left = MAX (top[i], bottom[i]) + 0.1875, right = MIN (top[i + 1], bottom[i + 1]) - 0.1875;

      parts->n = 0;
      if (right - left > 0.3 && g_rand_boolean (rand))
        {
          g_string_append_printf (marks,
                                  ", { 'id': 'w%u', 'kind': 'window', 'rect': [['%.4f','0.5'],['%.4f','2.25']] }", i,
                                  left, right);
          add_part (parts, top[i], 0, left, 0, left, HEIGHT, bottom[i], HEIGHT);
          add_part (parts, right, 0, top[i + 1], 0, bottom[i + 1], HEIGHT, right, HEIGHT);
          add_part (parts, left, 0, right, 0, right, 0.5, left, 0.5);
          add_part (parts, left, 2.25, right, 2.25, right, HEIGHT, left, HEIGHT);
        }
      else
        add_part (parts, top[i], 0, top[i + 1], 0, bottom[i + 1], HEIGHT, bottom[i], HEIGHT);
      if (i + 1 == strip->n && parts->n == 1)
        add_part (parts, end, 0, end + 1.5, 0, end + 1.5, notch, end, notch);
    }
  for (guint s = 0; s < STEPS; s++)
    {
      g_string_append_printf (steps, "%s{ 'id': 's%u', 'do': 'fold', 'folds': [", s > 0 ? ", " : "", s);
      for (guint i = 1; i < strip->n; i++)
        g_string_append_printf (steps, "%s{ 'score': 'base/c%u', 'to': %d }", i > 1 ? ", " : "", i,
                                g_rand_int_range (rand, -170, 171));
      g_string_append (steps, "] }");
    }
  {
    gboolean foot = strip->parts[strip->n - 1].n == 2;

    text = g_strdup_printf (CARD_HEAD CARD_INCH
                            "'pieces': [ { 'id': 'base', 'outline': [['0','0'],['%.4f','0'],['%.4f','%.4f'],"
                            "['%.4f','%.4f'],['%.4f','3'],['0','3']], 'hold': ['0.0625','1.5'], 'marks': [ %s ] } ],"
                            " 'steps': [ %s ] }",
                            foot ? end + 1.5 : end, foot ? end + 1.5 : end, foot ? notch : 1.5, end,
                            foot ? notch : 1.75, end, marks->str, steps->str);
  }
  strip->motion = card_motion (text);
}

static void
place_of (const CwPose *pose, guint panel, double *place)
{
  const CwRigid *m = &pose->places[panel];

  memcpy (place, m->r, 9 * sizeof (double));
  place[9] = m->t.x;
  place[10] = m->t.y;
  place[11] = m->t.z;
}

static const CwCollision *
find_pair (const GArray *found, guint step, guint a, guint b)
{
  for (guint i = 0; i < found->len; i++)
    {
      const CwCollision *c = &g_array_index (found, CwCollision, i);

      if (c->step == step && c->panel_a == a && c->panel_b == b)
        return c;
    }
  return NULL;
}

/* Returns TRUE if a collision was seen or found in the step: what follows it means nothing. */
static gboolean
check_step (const Strip *strip, const GArray *found, guint step, RefereeSheet **whole, RefereeSheet **less)
{
  g_autoptr (CwMotionWork) work = cw_motion_work_new (strip->motion);
  g_autoptr (CwPose) pose = cw_pose_new (strip->motion);
  gboolean seen[MOST][MOST] = { { FALSE } }, any = FALSE;
  double place_a[12], place_b[12];

  for (guint i = 0; i <= LOOKS; i++)
    {
      double t = i / (double) LOOKS;

      cw_motion_get_pose (strip->motion, work, step, t, pose);
      for (guint a = 0; a < strip->n; a++)
        for (guint b = a + 2; b < strip->n; b++)
          {
            const CwCollision *c;

            if (seen[a][b])
              continue;
            place_of (pose, a, place_a);
            place_of (pose, b, place_b);
            if (!referee_sheets_meet (less[a], place_a, less[b], place_b))
              continue;
            seen[a][b] = any = TRUE;
            c = find_pair (found, step, a, b);
            if (c == NULL)
              g_error ("step %u: panels %u and %u meet at %.4f and were not found", step, a, b, t);
            g_assert_cmpfloat (c->fraction, <=, t);
          }
    }
  for (guint i = 0; i < found->len; i++)
    {
      const CwCollision *c = &g_array_index (found, CwCollision, i);

      if (c->step != step)
        continue;
      any = TRUE;
      g_assert_cmpuint (c->panel_a + 1, <, c->panel_b);
      cw_motion_get_pose (strip->motion, work, step, c->fraction, pose);
      place_of (pose, c->panel_a, place_a);
      place_of (pose, c->panel_b, place_b);
      g_assert_cmpfloat (referee_sheets_apart (whole[c->panel_a], place_a, whole[c->panel_b], place_b), <, 1);
    }
  return any;
}

static void
test_strips (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (SEED);
  guint n_steps = 0, n_through = 0;

  for (guint k = 0; k < STRIPS; k++)
    {
      Strip strip;
      RefereeSheet *whole[MOST], *less[MOST];
      g_autoptr (GArray) found = NULL;
      gboolean through = FALSE;

      make_strip (rand, &strip);
      g_assert_cmpuint (cw_panel_set_n_panels (cw_motion_get_set (strip.motion)), ==, strip.n);
      for (guint i = 0; i < strip.n; i++)
        {
          whole[i] = make_sheet (&strip.parts[i], 1);
          less[i] = make_sheet (&strip.parts[i], DRAWN_IN);
        }
      found = cw_collisions_find (strip.motion, NULL, NULL);
      for (guint s = 0; s < STEPS && !through; s++)
        {
          through = check_step (&strip, found, s, whole, less);
          n_steps++;
          n_through += through;
        }
      for (guint i = 0; i < strip.n; i++)
        {
          referee_sheet_free (whole[i]);
          referee_sheet_free (less[i]);
        }
      cw_motion_unref (strip.motion);
    }
  g_test_message ("%u of %u motions collide", n_through, n_steps);
  g_assert_cmpuint (n_through, >, n_steps / 10);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/referee/collisions-none-missed-none-invented", test_strips);
  return g_test_run ();
}
