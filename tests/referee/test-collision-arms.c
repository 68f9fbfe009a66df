/* test-collision-arms.c: chains of random panels on a random plate, all swinging at once, against a general collision
 * library that looks densely and halves.
 *
 * Panels are many-cornered, L-shaped, pierced by windows or slit; fold lines lean; the plate has windows and slits and
 * carries its arms on either face. For every pair that shares no fold line three questions, each answered by FCL alone:
 * - where the two, drawn in by more than the program's hairs, cut one another, the program found a collision no later
 *   than the moment found by halving;
 * - where the program found one, the two whole panels touch at that very moment;
 * - a collision of which FCL, looking ever more densely, sees whole panels touch but never panels drawn in, is a touch
 *   within the tolerance: counted, and rare.
 * Then: a window as large as what passes through it, with 1/64 in of room, lets it pass; without the room it does not.
 * Moments are compared by placement alone: FCL knows no motion. Seeds are named here.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "arms.h"
#include "contact/cw-collision.h"

#define SEED 0x61726d73u
#define PLATES 300
#define PLATES_THOROUGH 2500
#define WINDOWS 40
#define WINDOWS_THOROUGH 400
#define LOOKS 96
#define LOOKS_AGAIN 3000
#define ROOM S64
/* Of a step: the moment of a contact, found from either side. */
#define SAME_MOMENT 1e-6

typedef struct
{
  const Plate *plate;
  CwMotionWork *work;
  CwPose *pose;
  guint step;
} Looker;

static void
place_of (const Looker *l, guint shape, double *place)
{
  const CwRigid *m = &l->pose->places[l->plate->panels[shape]];

  memcpy (place, m->r, 9 * sizeof (double));
  place[9] = m->t.x;
  place[10] = m->t.y;
  place[11] = m->t.z;
}

static void
look_at (Looker *l, double t)
{
  cw_motion_get_pose (l->plate->motion, l->work, l->step, t, l->pose);
}

static gboolean
less_meet (Looker *l, guint a, guint b)
{
  double place_a[12], place_b[12];

  place_of (l, a, place_a);
  place_of (l, b, place_b);
  return referee_sheets_meet (l->plate->shapes[a].less, place_a, l->plate->shapes[b].less, place_b) != 0;
}

static double
whole_apart (Looker *l, guint a, guint b)
{
  double place_a[12], place_b[12];

  place_of (l, a, place_a);
  place_of (l, b, place_b);
  return referee_sheets_apart (l->plate->shapes[a].whole, place_a, l->plate->shapes[b].whole, place_b);
}

/* The first moment at which the two, drawn in, meet: looked for, then halved. 2: none. */
static double
first_meeting (Looker *l, guint a, guint b, guint looks)
{
  for (guint i = 0; i <= looks; i++)
    {
      double low = i > 0 ? (i - 1.0) / looks : 0, high = i / (double) looks;

      look_at (l, high);
      if (!less_meet (l, a, b))
        continue;
      for (guint n = 0; n < 24; n++)
        {
          double t = (low + high) / 2;

          look_at (l, t);
          if (less_meet (l, a, b))
            high = t;
          else
            low = t;
        }
      return high;
    }
  return 2;
}

static const CwCollision *
find_pair (const GArray *found, guint step, guint a, guint b)
{
  for (guint i = 0; i < found->len; i++)
    {
      const CwCollision *c = &g_array_index (found, CwCollision, i);

      if (c->step == step && c->panel_a == MIN (a, b) && c->panel_b == MAX (a, b))
        return c;
    }
  return NULL;
}

/* Pairs that move to one another and share no fold line. */
static gboolean
is_asked (const Shape *a, const Shape *b)
{
  if (a->k == 0 && b->k == 0)
    return FALSE;
  return a->arm != b->arm || MAX (a->k, b->k) - MIN (a->k, b->k) > 1;
}

typedef struct
{
  guint motions, through, none, touching, plates;
  double latest; /* by how much of the step the program was at most ahead of the sheets drawn in */
} Count;

static void
check_pair (Looker *l, const GArray *found, guint a, guint b, double *first, Count *count)
{
  const guint *panels = l->plate->panels;
  const CwCollision *c = find_pair (found, l->step, panels[a], panels[b]);

  count->motions++;
  if (*first > 1 && c != NULL)
    {
      *first = first_meeting (l, a, b, LOOKS_AGAIN);
      count->touching += *first > 1;
    }
  if (*first <= 1)
    {
      if (c == NULL)
        g_error ("shapes %u and %u meet at %.6f of step %u and were not found", a, b, *first, l->step);
      g_assert_cmpfloat (c->fraction, <=, *first + 1e-9);
      count->through++;
      count->latest = MAX (count->latest, *first - c->fraction);
    }
  count->none += *first > 1 && c == NULL;
  if (c != NULL)
    {
      look_at (l, c->fraction);
      g_assert_cmpfloat (whole_apart (l, a, b), <, 1);
    }
}

/* All pairs of one motion. Those that meet at its start are left out, and told nothing of later. */
static void
check_motion (const Plate *plate, const GArray *found, guint step, gboolean met[MOST_SHAPES][MOST_SHAPES], Count *count)
{
  g_autoptr (CwMotionWork) work = cw_motion_work_new (plate->motion);
  g_autoptr (CwPose) pose = cw_pose_new (plate->motion);
  Looker l = { plate, work, pose, step };

  for (guint a = 0; a < plate->n_shapes; a++)
    for (guint b = a + 1; b < plate->n_shapes; b++)
      {
        double first;

        if (!is_asked (&plate->shapes[a], &plate->shapes[b]) || met[a][b])
          continue;
        look_at (&l, 0);
        /* Face to face or through one another from the start: only the whole panels of one arm may touch there. */
        met[a][b] = whole_apart (&l, a, b) < DRAWN_IN && !(plate->shapes[a].k == 0 && plate->shapes[b].k == 1);
        if (met[a][b] || less_meet (&l, a, b))
          {
            met[a][b] = TRUE;
            continue;
          }
        first = first_meeting (&l, a, b, LOOKS);
        check_pair (&l, found, a, b, &first, count);
        met[a][b] = first <= 1;
      }
}

static void
test_arms (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (SEED);
  guint n = g_test_thorough () ? PLATES_THOROUGH : PLATES;
  Count count = { 0 };

  for (; count.plates < n; count.plates++)
    {
      Plate plate;
      gboolean met[MOST_SHAPES][MOST_SHAPES] = { { FALSE } };
      g_autoptr (GArray) found = NULL;

      plate_make (rand, &plate, MOST_ARMS, TRUE);
      found = cw_collisions_find (plate.motion, NULL, NULL);
      for (guint m = 0; m < 2; m++)
        check_motion (&plate, found, plate.first_move + m, met, &count);
      plate_clear (&plate);
    }
  g_test_message ("%u motions of pairs: %u through, %u not, %u within the tolerance; at most %.4f of a step ahead",
                  count.motions, count.through, count.none, count.touching, count.latest);
  g_assert_cmpuint (count.through, >, count.motions / 20);
  g_assert_cmpuint (count.touching, <, count.through / 20);
}

/* TRUE if the sheets of a collision, drawn in, never meet in its step. */
static gboolean
only_touch (const Plate *plate, const CwCollision *c)
{
  g_autoptr (CwMotionWork) work = cw_motion_work_new (plate->motion);
  g_autoptr (CwPose) pose = cw_pose_new (plate->motion);
  Looker l = { plate, work, pose, c->step };
  guint a = 0, b = 0;

  for (guint i = 0; i < plate->n_shapes; i++)
    {
      a = plate->panels[i] == c->panel_a ? i : a;
      b = plate->panels[i] == c->panel_b ? i : b;
    }
  return first_meeting (&l, a, b, LOOKS_AGAIN) > 1;
}

/* Taken back to where they were, the arms go through the same, at the mirrored moment or, if they do so more than once,
 * earlier: a law of motion, whose direction in time is only a name. */
static void
test_there_and_back (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (SEED + 2);
  guint n = g_test_thorough () ? PLATES_THOROUGH : PLATES, n_through = 0, n_touching = 0;

  for (guint i = 0; i < n; i++)
    {
      Plate plate;
      g_autoptr (GArray) found = NULL;

      plate_make (rand, &plate, MOST_ARMS, TRUE);
      plate_clear (&plate);
      memcpy (plate.to[1], plate.start, sizeof plate.start);
      plate_make_motion (&plate);
      found = cw_collisions_find (plate.motion, NULL, NULL);
      for (guint k = 0; k < found->len; k++)
        {
          const CwCollision *c = &g_array_index (found, CwCollision, k), *other;
          gboolean there = c->step == plate.first_move;

          if (c->step < plate.first_move)
            continue;
          other = find_pair (found, plate.first_move + there, c->panel_a, c->panel_b);
          if (other == NULL)
            {
              g_assert_true (only_touch (&plate, c));
              n_touching++;
              continue;
            }
          g_assert_cmpfloat (c->fraction + other->fraction, <=, 1 + SAME_MOMENT);
          n_through++;
        }
      plate_clear (&plate);
    }
  g_test_message ("%u through both ways, %u within the tolerance one way only", n_through, n_touching);
  g_assert_cmpuint (n_through, >, n / 2);
  g_assert_cmpuint (n_touching, <, n_through / 50);
}

/* Adds where the arm's outlines pierce the plate's plane in a stretch of a motion, its first panel apart: x and y in
 * turn. */
static void
add_crossings (Looker *l, double from, double to, GArray *crossings)
{
  const Plate *plate = l->plate;

  for (guint i = 0; i <= LOOKS_AGAIN; i++)
    {
      CwRigid back;

      look_at (l, from + (to - from) * i / LOOKS_AGAIN);
      back = cw_rigid_inverse (&l->pose->places[plate->panels[0]]);
      for (guint k = 0; k < plate->n_shapes; k++)
        {
          const Shape *s = &plate->shapes[k];
          CwRigid rel = cw_rigid_compose (&back, &l->pose->places[plate->panels[k]]);

          for (guint m = 0; s->k > 1 && m < s->n; m++)
            {
              guint n = (m + 1) % s->n;
              CwVec3 p = cw_rigid_apply (&rel, cw_vec3 (s->xy[2 * m], s->xy[2 * m + 1], 0));
              CwVec3 q = cw_rigid_apply (&rel, cw_vec3 (s->xy[2 * n], s->xy[2 * n + 1], 0));
              double share = p.z / (p.z - q.z);
              double at[2] = { p.x + share * (q.x - p.x), p.y + share * (q.y - p.y) };

              if ((p.z > 0) != (q.z > 0))
                g_array_append_vals (crossings, at, 1);
            }
        }
    }
}

/* The polygon of SIDES equal angles round the crossings, drawn towards their middle to a share and then grown. */
#define SIDES 16
static void
wrap (const GArray *crossings, double share, double room, double *window)
{
  const double *at = (const double *) (void *) crossings->data;
  double middle[2] = { 0, 0 }, far[SIDES];

  for (guint i = 0; i < crossings->len; i++)
    for (guint c = 0; c < 2; c++)
      middle[c] += at[2 * i + c] / crossings->len;
  for (guint d = 0; d < SIDES; d++)
    {
      double x = cos (2 * G_PI * d / SIDES), y = sin (2 * G_PI * d / SIDES), reach = 0;

      for (guint i = 0; i < crossings->len; i++)
        reach = MAX (reach, x * (at[2 * i] - middle[0]) + y * (at[2 * i + 1] - middle[1]));
      far[d] = share * reach + room;
    }
  for (guint d = 0; d < SIDES; d++)
    {
      double a = 2 * G_PI * d / SIDES, b = a + 2 * G_PI / SIDES, p = far[d], q = far[(d + 1) % SIDES];
      double cross = sin (b - a);

      window[2 * d] = round (middle[0] + (p * sin (b) - q * sin (a)) / cross);
      window[2 * d + 1] = round (middle[1] + (q * cos (a) - p * cos (b)) / cross);
    }
}

/* The window lies well on the plate, beside the place that is looked up. */
static gboolean
is_on_plate (const Shape *base, const double *window)
{
  gboolean beside = FALSE;

  for (guint d = 0; d < SIDES; d++)
    {
      guint e = (d + 1) % SIDES;
      double wx = window[2 * e] - window[2 * d], wy = window[2 * e + 1] - window[2 * d + 1];

      beside
        = beside || wx * (base->in[1] - window[2 * d + 1]) - wy * (base->in[0] - window[2 * d]) < -S64 * hypot (wx, wy);
      for (guint m = 0; m < base->n; m++)
        {
          guint n = (m + 1) % base->n;
          double x = base->xy[2 * n] - base->xy[2 * m], y = base->xy[2 * n + 1] - base->xy[2 * m + 1];

          if (x * (window[2 * d + 1] - base->xy[2 * m + 1]) - y * (window[2 * d] - base->xy[2 * m])
              < 16 * S64 * hypot (x, y))
            return FALSE;
        }
    }
  return beside;
}

/* The same plate with a window. Returns the first moment at which the program has a panel of the arm go through the
 * plate; 2: none. */
static double
first_through (const Plate *plate, const double *window, guint step, Count *count)
{
  Plate pierced = *plate;
  gboolean met[MOST_SHAPES][MOST_SHAPES] = { { FALSE } };
  g_autoptr (GArray) found = NULL;
  double first = 2;

  memcpy (pierced.shapes[0].hole, window, 2 * SIDES * sizeof (double));
  pierced.shapes[0].n_hole = SIDES;
  plate_make_motion (&pierced);
  found = cw_collisions_find (pierced.motion, NULL, NULL);
  check_motion (&pierced, found, step, met, count);
  /* Also of what stands in the window from the start. */
  for (guint k = 0; k < pierced.n_shapes; k++)
    {
      const CwCollision *c = find_pair (found, step, pierced.panels[0], pierced.panels[k]);

      if (pierced.shapes[k].k > 1 && c != NULL)
        first = MIN (first, c->fraction);
    }
  plate_clear (&pierced);
  return first;
}

/* Sheets that come to lie nearly along the plate run across it faster than any even looks: where the program has paper
 * go through, the crossings about that moment are looked at again, ever closer. Returns FALSE if there is no window. */
static gboolean
try_windows (Looker *l, Count *count, guint *stuck)
{
  const Plate *plate = l->plate;
  g_autoptr (GArray) crossings = g_array_new (FALSE, FALSE, 2 * sizeof (double));
  double roomy[2 * SIDES], tight[2 * SIDES], moment = 2, wide = 1;

  add_crossings (l, 0, 1, crossings);
  for (guint n = 0; n < 4; n++)
    {
      if (crossings->len == 0)
        return FALSE;
      wrap (crossings, 1, ROOM, roomy);
      wrap (crossings, 0.8, 0, tight);
      if (!is_on_plate (&plate->shapes[0], roomy))
        return FALSE;
      moment = first_through (plate, roomy, l->step, count);
      if (moment > 1)
        break;
      wide /= LOOKS_AGAIN / 2;
      add_crossings (l, MAX (moment - wide, 0), MIN (moment + wide, 1), crossings);
    }
  g_assert_cmpfloat (moment, >, 1);
  *stuck += first_through (plate, tight, l->step, count) <= 1;
  return TRUE;
}

static void
test_windows (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (SEED + 1);
  guint n = g_test_thorough () ? WINDOWS_THOROUGH : WINDOWS, tried = 0, stuck = 0;
  Count count = { 0 };

  while (tried < n)
    {
      Plate plate;
      g_autoptr (CwMotionWork) work = NULL;
      g_autoptr (CwPose) pose = NULL;
      Looker l;

      plate_make (rand, &plate, 1, FALSE);
      work = cw_motion_work_new (plate.motion);
      pose = cw_pose_new (plate.motion);
      l = (Looker){ &plate, work, pose, plate.first_move };
      tried += try_windows (&l, &count, &stuck);
      plate_clear (&plate);
    }
  g_test_message ("%u of %u windows without room stop the paper; %u motions of pairs", stuck, tried, count.motions);
  g_assert_cmpuint (stuck, >, tried * 9 / 10);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/referee/collision-arms/first-moments", test_arms);
  g_test_add_func ("/referee/collision-arms/there-and-back", test_there_and_back);
  g_test_add_func ("/referee/collision-arms/windows-with-and-without-room", test_windows);
  return g_test_run ();
}
