/* test-trace-block.c: what drives, which way a block leaves, where it stops, what follows from give.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-make-vertex.h"

#define MM 320.0

static const int box_ways[4] = { 1, 1, -1, 1 };
static const double flat[6] = { 0 };
static const double shut[4] = { G_PI, G_PI, -G_PI, G_PI };

/* Where the ridge stands: x along the right page from the spine, y off it. */
static CwVec3
ridge (CwLinkage *linkage, CwLinkageWork *work, const double *rho, double from_left)
{
  CwRigid places[4];

  cw_linkage_place (linkage, work, rho, places);
  return cw_rigid_apply (&places[2], cw_vec3 (from_left, 0, 0));
}

/* A step cut from the card: |OC|^2 = p^2 + q^2 + 2 p q cos T, C = A + B, panels parallel to the pages (plane geometry
 * of a parallelogram). Driven by the spine alone, and by the ridge alone; opening goes back the way it closed. */
static void
test_parallelogram (void)
{
  double p = 25.4 * MM, q = 38.1 * MM;
  g_autoptr (CwLinkage) linkage = cw_make_four_bar (p, q, q, p, 200 * MM, box_ways);
  g_autoptr (CwLinkageWork) work = cw_linkage_work_new (linkage);

  for (guint driver = 0; driver < 4; driver++)
    {
      CwDrive close = { driver, driver == 2 ? -G_PI : G_PI }, open = { driver, 0 };
      g_autoptr (CwTrace) there = cw_linkage_trace (linkage, flat, &close, 1, 0);
      g_autoptr (CwTrace) back = NULL;
      double rho[4], again[4], hint[4];

      g_assert_cmpint (cw_trace_get_result (there)->verdict, ==, CW_TRACE_ARRIVED);
      for (guint i = 0; i <= 24; i++)
        {
          double turn = G_PI * i / 24;
          CwVec3 c;

          cw_trace_get_angles (there, work, i / 24.0, rho);
          c = ridge (linkage, work, rho, -p + q);
          g_assert_cmpfloat_with_epsilon (rho[0], turn, 1e-9);
          g_assert_cmpfloat_with_epsilon (rho[1], turn, 1e-9);
          g_assert_cmpfloat_with_epsilon (rho[2], -turn, 1e-9);
          g_assert_cmpfloat_with_epsilon (rho[3], turn, 1e-9);
          g_assert_cmpfloat_with_epsilon (c.x * c.x + c.z * c.z, p * p + q * q - 2 * p * q * cos (turn), 1e-3);
        }
      cw_trace_get_angles (there, work, 0.97, hint);
      cw_trace_get_angles (there, work, 1, rho);
      back = cw_linkage_trace_from (linkage, rho, hint, &open, 1, 0);
      g_assert_cmpint (cw_trace_get_result (back)->verdict, ==, CW_TRACE_ARRIVED);
      for (guint i = 0; i <= 24; i++)
        {
          cw_trace_get_angles (there, work, i / 24.0, rho);
          cw_trace_get_angles (back, work, 1 - i / 24.0, again);
          for (guint j = 0; j < 4; j++)
            g_assert_cmpfloat_with_epsilon (again[j], rho[j], 1e-9);
        }
      cw_trace_get_angles (back, work, 1, again);
      for (guint j = 0; j < 4; j++)
        g_assert_cmpfloat (fabs (again[j]), <=, 0);
    }
}

/* The crossed branch of the same box meets the parallelogram flat; the followers' signs tell them apart. Crossed, the
 * ridge lies at the mirror image of the spine in the perpendicular bisector of the two page hinges: its distances to
 * them are those of the parallelogram swapped (plane geometry of the antiparallelogram). */
static void
test_crossed_branch (void)
{
  double p = 25.4 * MM, q = 38.1 * MM;
  guint found = 0;

  for (guint pattern = 0; pattern < 8; pattern++)
    {
      int ways[4] = { 1, pattern & 1 ? 1 : -1, pattern & 2 ? 1 : -1, pattern & 4 ? 1 : -1 };
      g_autoptr (CwLinkage) linkage = cw_make_four_bar (p, q, q, p, 200 * MM, ways);
      g_autoptr (CwLinkageWork) work = cw_linkage_work_new (linkage);
      CwDrive drive = { 0, cw_make_rad (60) };
      g_autoptr (CwTrace) trace = cw_linkage_trace (linkage, flat, &drive, 1, 0);
      double rho[4];
      CwVec3 a, b, c, along;
      CwRigid places[4];

      if (cw_trace_get_result (trace)->verdict != CW_TRACE_ARRIVED)
        {
          g_assert_true (cw_trace_get_result (trace)->other_way_moves);
          continue;
        }
      found++;
      cw_trace_get_angles (trace, work, 1, rho);
      for (guint j = 0; j < 4; j++)
        g_assert_cmpfloat (rho[j] * ways[j], >, 0.01);
      cw_linkage_place (linkage, work, rho, places);
      a = cw_rigid_apply (&places[1], cw_vec3 (-p, 0, 0));
      b = cw_vec3 (q, 0, 0);
      c = ridge (linkage, work, rho, -p + q);
      if (pattern == 5)
        {
          g_assert_cmpfloat_with_epsilon (c.x, a.x + b.x, 1e-6);
          g_assert_cmpfloat_with_epsilon (c.z, a.z + b.z, 1e-6);
          continue;
        }
      along = cw_vec3_sub (b, a);
      /* The line from the spine to the ridge is parallel to that between the page hinges. */
      g_assert_cmpfloat_with_epsilon (cw_vec3_length (cw_vec3_cross (along, c)) / cw_vec3_length (along), 0, 1e-6);
    }
  g_assert_cmpuint (found, ==, 2);
}

/* Plane four-bars (law of cosines): ridge C for p = 40, q = 30, r = 35, s = 45 mm at openings 0, 60, 90, 120, 180. */
static void
test_four_bar (void)
{
  static const double opening[] = { 0, 60, 90, 120, 180 };
  static const double x[] = { 75, 59.9126, 44.7565, 29.3919, 10.7143 }, y[] = { 0, 28.7834, 34.6753, 33.3537, 19.1663 };
  g_autoptr (CwLinkage) linkage = cw_make_four_bar (40 * MM, 30 * MM, 35 * MM, 45 * MM, 200 * MM, box_ways);
  g_autoptr (CwLinkageWork) work = cw_linkage_work_new (linkage);
  CwDrive open = { 0, 0 };
  g_autoptr (CwTrace) trace = cw_linkage_trace (linkage, shut, &open, 1, 0);
  double rho[4];

  g_assert_cmpint (cw_trace_get_result (trace)->verdict, ==, CW_TRACE_ARRIVED);
  for (guint i = 0; i < 5; i++)
    {
      CwRigid places[4];
      CwVec3 c, out;

      cw_trace_get_angles (trace, work, opening[i] / 180, rho);
      cw_linkage_place (linkage, work, rho, places);
      c = ridge (linkage, work, rho, (-40 + 35) * MM);
      /* The table's x axis is the page with p, here the left one. */
      out = cw_rigid_turn (&places[1], cw_vec3 (-1, 0, 0));
      g_assert_cmpfloat_with_epsilon (cw_vec3_dot (c, out) / MM, x[i], 6e-5);
      g_assert_cmpfloat_with_epsilon (cw_vec3_length (cw_vec3_cross (out, c)) / MM, y[i], 6e-5);
    }
}

/* r + s < p + q: opens to cos T = (p^2 + q^2 - (r + s)^2) / (2 p q), 97.1808 degrees for 40, 40, 30, 30. With give it
 * goes on until the give is used up; the misfit is reported. r = s = 60 stands 44.7214 mm high at 180. */
static void
test_dead_point (void)
{
  CwDrive open = { 0, 0 };
  double rho[4];
  g_autoptr (CwLinkage) short_one = cw_make_four_bar (40 * MM, 40 * MM, 30 * MM, 30 * MM, 200 * MM, box_ways);
  g_autoptr (CwLinkage) tall = cw_make_four_bar (40 * MM, 40 * MM, 60 * MM, 60 * MM, 200 * MM, box_ways);
  g_autoptr (CwLinkageWork) work = cw_linkage_work_new (tall);
  g_autoptr (CwTrace) stops = cw_linkage_trace (short_one, shut, &open, 1, 0);
  g_autoptr (CwTrace) gives = cw_linkage_trace (short_one, shut, &open, 1, 254);
  g_autoptr (CwTrace) stands = cw_linkage_trace (tall, shut, &open, 1, 0);

  g_assert_cmpint (cw_trace_get_result (stops)->verdict, ==, CW_TRACE_STOPPED);
  g_assert_cmpfloat_with_epsilon (cw_trace_get_result (stops)->reached, 97.1808 / 180, 1e-4);
  g_assert_cmpuint (cw_trace_get_result (stops)->blocking_block, ==, 0);
  g_assert_false (cw_trace_get_result (stops)->needs_give);

  g_assert_cmpint (cw_trace_get_result (gives)->verdict, ==, CW_TRACE_STOPPED);
  g_assert_cmpfloat (cw_trace_get_result (gives)->reached, >, 97.1808 / 180 + 1e-3);
  g_assert_cmpfloat (cw_trace_get_result (gives)->reached, <, 97.1808 / 180 + 0.02);
  g_assert_true (cw_trace_get_result (gives)->needs_give);
  g_assert_cmpfloat (cw_trace_get_result (gives)->misfit_ticks, <=, 256);

  g_assert_cmpint (cw_trace_get_result (stands)->verdict, ==, CW_TRACE_ARRIVED);
  cw_trace_get_angles (stands, work, 1, rho);
  g_assert_cmpfloat_with_epsilon (fabs (ridge (tall, work, rho, 20 * MM).z) / MM, 44.7214, 6e-5);
}

/* A vertex in whose one motion neighbours turn 7.5 times as fast as the driver (tan(rho1/2) = -p tan(rho2/2) with
 * p = 1/7.5), hidden beside the plain fold along creases 1 and 3, which lie on one line: crease 3 is scored the other
 * way, and the scores' directions must win. */
static void
test_hidden_branch (void)
{
  double p = 1 / 7.5, a = 90 - asin (p) * 180 / G_PI;
  double sectors[] = { a, 180 - a, 180 - a, a };
  int ways[4] = { -1, 1, 1, 1 };
  g_autoptr (CwLinkage) linkage = cw_make_vertex (4, sectors, ways);
  g_autoptr (CwLinkageWork) work = cw_linkage_work_new (linkage);
  CwDrive drive = { 0, -cw_make_rad (15) };
  g_autoptr (CwTrace) trace = cw_linkage_trace (linkage, flat, &drive, 1, 0);
  double rho[4];

  g_assert_cmpint (cw_trace_get_result (trace)->verdict, ==, CW_TRACE_ARRIVED);
  cw_trace_get_angles (trace, work, 1, rho);
  g_assert_cmpfloat_with_epsilon (rho[1], 2 * atan (7.5 * tan (cw_make_rad (7.5))), 1e-9);
  g_assert_cmpfloat_with_epsilon (rho[2], cw_make_rad (15), 1e-9);

  /* Scored alike, creases 1 and 3 fold plainly and nothing else moves. */
  ways[2] = -1;
  {
    g_autoptr (CwLinkage) plain = cw_make_vertex (4, sectors, ways);
    g_autoptr (CwTrace) straight = cw_linkage_trace (plain, flat, &drive, 1, 0);

    g_assert_cmpint (cw_trace_get_result (straight)->verdict, ==, CW_TRACE_ARRIVED);
    cw_trace_get_angles (straight, work, 1, rho);
    g_assert_cmpfloat_with_epsilon (rho[2], -cw_make_rad (15), 1e-9);
    g_assert_cmpfloat_with_epsilon (rho[1], 0, 1e-9);
  }
}

/* Steps (model): folds are taken in the order listed; one whose angle follows from those before it need only agree at
 * the end. A maker may list every crease of a corner. What the listed hinges alone keep closed moves nothing else. */
static void
test_listed_folds (void)
{
  double sectors[] = { 60, 90, 120, 90 };
  int ways[4] = { -1, 1, 1, 1 };
  g_autoptr (CwLinkage) linkage = cw_make_vertex (4, sectors, ways);
  g_autoptr (CwLinkageWork) work = cw_linkage_work_new (linkage);
  CwDrive all[] = { { 0, -G_PI }, { 1, G_PI }, { 2, G_PI }, { 3, G_PI } };
  CwDrive not_so[] = { { 1, G_PI }, { 2, G_PI / 2 } };
  g_autoptr (CwTrace) agrees = cw_linkage_trace (linkage, flat, all, 4, 0);
  g_autoptr (CwTrace) disagrees = cw_linkage_trace (linkage, flat, not_so, 2, 0);
  double rho[4];

  g_assert_cmpint (cw_trace_get_result (agrees)->verdict, ==, CW_TRACE_ARRIVED);
  cw_trace_get_angles (agrees, work, 0.5, rho);
  /* The first listed drives. */
  g_assert_cmpfloat_with_epsilon (rho[0], -G_PI / 2, 1e-12);
  g_assert_cmpfloat (rho[1], >, G_PI / 2 + 0.1);
  cw_trace_get_angles (agrees, work, 1, rho);
  for (guint i = 0; i < 4; i++)
    g_assert_cmpfloat_with_epsilon (rho[i], all[i].to_rad, 1e-12);

  g_assert_cmpint (cw_trace_get_result (disagrees)->verdict, ==, CW_TRACE_STOPPED);
  g_assert_cmpfloat (cw_trace_get_result (disagrees)->reached, <, 1);
  g_assert_cmpfloat (cw_trace_get_result (disagrees)->reached, >, 0.1);

  /* A hexagon of six creases: the two on one line, listed, fold plainly. */
  {
    double six[] = { 60, 60, 60, 60, 60, 60 };
    int toward[6] = { 1, 1, 1, 1, 1, 1 };
    CwDrive line[] = { { 0, G_PI }, { 3, G_PI } };
    double angles[6];
    g_autoptr (CwLinkage) star = cw_make_vertex (6, six, toward);
    g_autoptr (CwLinkageWork) scratch = cw_linkage_work_new (star);
    g_autoptr (CwTrace) plain = cw_linkage_trace (star, flat, line, 2, 0);

    g_assert_cmpint (cw_trace_get_result (plain)->verdict, ==, CW_TRACE_ARRIVED);
    for (guint i = 0; i <= 4; i++)
      {
        cw_trace_get_angles (plain, scratch, i / 4.0, angles);
        for (guint j = 0; j < 6; j++)
          g_assert_cmpfloat_with_epsilon (angles[j], j % 3 == 0 ? G_PI * i / 4 : 0, 1e-12);
      }
  }
}

/* A score that is not folded here is held at 0 unless a step names it: with the ridge held the box cannot close. */
static void
test_held_hinge (void)
{
  int ways[4] = { 1, 1, 0, 1 };
  g_autoptr (CwLinkage) linkage = cw_make_four_bar (40 * MM, 30 * MM, 30 * MM, 40 * MM, 200 * MM, ways);
  CwDrive spine = { 0, G_PI }, named[] = { { 0, G_PI }, { 2, -G_PI } };
  g_autoptr (CwTrace) held = cw_linkage_trace (linkage, flat, &spine, 1, 0);
  g_autoptr (CwTrace) moves = cw_linkage_trace (linkage, flat, named, 2, 0);

  g_assert_cmpint (cw_trace_get_result (held)->verdict, ==, CW_TRACE_STOPPED);
  g_assert_cmpfloat (cw_trace_get_result (held)->reached, <, 1e-3);
  g_assert_cmpint (cw_trace_get_result (moves)->verdict, ==, CW_TRACE_ARRIVED);
}

/* Six creases with one driven: three ways to move (degree less three, for a generic vertex), so the loop sways. */
static void
test_sways (void)
{
  double sectors[] = { 50, 70, 60, 65, 55, 60 }, four[] = { 60, 90, 120, 90 };
  int ways[6] = { 1, 1, -1, 1, 1, -1 }, four_ways[4] = { -1, 1, 1, 1 };
  CwDrive drive = { 0, cw_make_rad (40) }, four_drive = { 1, cw_make_rad (40) };
  g_autoptr (CwLinkage) linkage = cw_make_vertex (6, sectors, ways);
  g_autoptr (CwLinkage) firm = cw_make_vertex (4, four, four_ways);
  g_autoptr (CwLinkageWork) work = cw_linkage_work_new (linkage);
  g_autoptr (CwTrace) loose = cw_linkage_trace (linkage, flat, &drive, 1, 0);
  g_autoptr (CwTrace) tight = cw_linkage_trace (firm, flat, &four_drive, 1, 0);
  double rho[6];

  g_assert_cmpint (cw_trace_get_result (loose)->verdict, ==, CW_TRACE_ARRIVED);
  g_assert_true (cw_trace_get_result (loose)->sways);
  g_assert_false (cw_trace_get_result (loose)->two_ways);
  for (guint i = 0; i <= 10; i++)
    {
      cw_trace_get_angles (loose, work, i / 10.0, rho);
      g_assert_cmpfloat (cw_linkage_misfit (linkage, work, rho, NULL), <, 1e-4);
    }
  for (guint j = 0; j < 6; j++)
    g_assert_cmpfloat (rho[j] * ways[j], >, -1e-6);
  g_assert_false (cw_trace_get_result (tight)->sways);
}

/* A box one tick out closes flat like any other, and nothing is said. One whose ridge is 1/64 inch out would turn a
 * page hinge past 180 degrees, which paper cannot: it is pressed flat by its give, or, without give, does so and
 * collides. */
static void
test_shut_by_give (void)
{
  CwDrive close = { 0, G_PI };
  double rho[4];
  g_autoptr (CwLinkage) tick = cw_make_four_bar (9600, 12800, 12800, 9601, 40640, box_ways);
  g_autoptr (CwLinkage) out = cw_make_four_bar (9600, 12800, 12800 - 127, 9600 + 127, 40640, box_ways);
  g_autoptr (CwLinkageWork) work = cw_linkage_work_new (tick);
  g_autoptr (CwTrace) quiet = cw_linkage_trace (tick, flat, &close, 1, 0);
  g_autoptr (CwTrace) pressed = cw_linkage_trace (out, flat, &close, 1, 254);
  g_autoptr (CwTrace) passes = cw_linkage_trace (out, flat, &close, 1, 0);

  g_assert_cmpint (cw_trace_get_result (quiet)->verdict, ==, CW_TRACE_ARRIVED);
  g_assert_false (cw_trace_get_result (quiet)->needs_give);
  cw_trace_get_angles (quiet, work, 1, rho);
  for (guint j = 0; j < 4; j++)
    g_assert_cmpfloat_with_epsilon (rho[j], box_ways[j] * G_PI, 1e-12);

  g_assert_cmpint (cw_trace_get_result (pressed)->verdict, ==, CW_TRACE_ARRIVED);
  g_assert_true (cw_trace_get_result (pressed)->needs_give);
  /* Shut, the two ways round are 254 ticks unlike: p + r = 22273, q + s = 22527. */
  g_assert_cmpfloat_with_epsilon (cw_trace_get_result (pressed)->misfit_ticks, 254, 2);
  cw_trace_get_angles (pressed, work, 1, rho);
  for (guint j = 0; j < 4; j++)
    g_assert_cmpfloat_with_epsilon (rho[j], box_ways[j] * G_PI, 1e-12);

  g_assert_false (cw_trace_get_result (passes)->needs_give);
  cw_trace_get_angles (passes, work, 1, rho);
  g_assert_cmpfloat (rho[1], >, G_PI);
}

/* From half way to both ends, and through flat to the other side: on the way there no other branch is taken. */
static void
test_from_half_way (void)
{
  static const double half[4] = { G_PI / 2, G_PI / 2, -G_PI / 2, G_PI / 2 }, to[] = { 0, G_PI, -G_PI / 2 };
  g_autoptr (CwLinkage) linkage = cw_make_four_bar (9600, 12800, 12800, 9600, 40640, box_ways);
  g_autoptr (CwLinkageWork) work = cw_linkage_work_new (linkage);

  for (guint k = 0; k < 3; k++)
    {
      CwDrive drive = { 0, to[k] };
      g_autoptr (CwTrace) trace = cw_linkage_trace (linkage, half, &drive, 1, 0);

      g_assert_cmpint (cw_trace_get_result (trace)->verdict, ==, CW_TRACE_ARRIVED);
      for (guint i = 0; i <= 20; i++)
        {
          double rho[4], turn = G_PI / 2 + (to[k] - G_PI / 2) * i / 20;

          cw_trace_get_angles (trace, work, i / 20.0, rho);
          /* Within a hair of flat the position is only as sharp as closing is: its square is under 1e-10. */
          for (guint j = 0; j < 4; j++)
            g_assert_cmpfloat_with_epsilon (rho[j], box_ways[j] * turn, fabs (turn) < 0.1 ? 1e-4 : 1e-9);
        }
    }
}

/* At a dead point, arms in one line, a four-bar can go on to either side. Where the joint between the arms is no score
 * lying flat (here its two sides are twisted half a radian against each other), nothing tells the ways apart. */
static void
test_two_ways (void)
{
  double corner = acos (0.75); /* sides 40, 40, 60 */
  CwRigid still = cw_rigid_identity ();
  CwJoint joints[4] = {
    { 0, 1, still, still, { 0, 0, 0 }, { 0, 20000, 0 }, 1 },
    { 2, 1, still, still, { -12800, 0, 0 }, { -12800, 20000, 0 }, 1 },
    { 3, 2, still, still, { -3200, 0, 0 }, { -3200, 20000, 0 }, 1 },
    { 0, 3, still, still, { 6400, 0, 0 }, { 6400, 20000, 0 }, 1 },
  };
  double start[4] = { 2 * corner, corner, 0.5, corner };
  CwDrive close = { 0, cw_make_rad (150) };

  joints[2].in_b = cw_rigid_about_axis (joints[2].p, joints[2].q, -0.5);
  joints[3].in_a.t.x = 12800 - 6400;
  {
    g_autoptr (CwLinkage) linkage = cw_linkage_new (4, 0, 4, joints, 40640);
    g_autoptr (CwLinkageWork) work = cw_linkage_work_new (linkage);
    g_autoptr (CwTrace) trace = cw_linkage_trace (linkage, start, &close, 1, 0);

    g_assert_cmpfloat (cw_linkage_misfit (linkage, work, start, NULL), <, 1e-6);
    g_assert_cmpint (cw_trace_get_result (trace)->verdict, ==, CW_TRACE_ARRIVED);
    g_assert_true (cw_trace_get_result (trace)->two_ways);
  }
}

/* Kinematics knows no direction of time: undone, even from a dead point (97.1808 degrees for p = q = 40, r = s = 30,
 * the law of cosines), a step goes through the same places backward, all the way or part of it. */
static void
test_back (void)
{
  g_autoptr (CwLinkage) linkage = cw_make_four_bar (40 * MM, 40 * MM, 30 * MM, 30 * MM, 200 * MM, box_ways);
  g_autoptr (CwLinkageWork) work = cw_linkage_work_new (linkage);
  CwDrive other = { 1, 0 }, beyond = { 0, G_PI }, two[] = { { 0, 0 }, { 1, 0 } };
  double start[4], shut_angles[4] = { G_PI, G_PI, -G_PI, G_PI }, end[4], rho[4], again[4];
  CwDrive open = { 0, 0 };
  g_autoptr (CwTrace) there = NULL;
  double reached;

  /* Opening stops: the step is pulled tight. */
  there = cw_linkage_trace (linkage, shut_angles, &open, 1, 0);
  reached = cw_trace_get_result (there)->reached;
  g_assert_cmpint (cw_trace_get_result (there)->verdict, ==, CW_TRACE_STOPPED);
  g_assert_cmpfloat_with_epsilon (180 * (1 - reached), 180 - 97.1808, 0.05);
  cw_trace_get_angles (there, work, 1, end);

  for (guint k = 0; k < 2; k++)
    {
      double low = k == 0 ? 0 : reached / 3;
      CwDrive close = { 0, G_PI * (1 - low) };
      g_autoptr (CwTrace) back = cw_trace_new_back (there, linkage, end, &close, 1);

      g_assert_nonnull (back);
      g_assert_cmpint (cw_trace_get_result (back)->verdict, ==, CW_TRACE_ARRIVED);
      for (guint i = 0; i <= 32; i++)
        {
          cw_trace_get_angles (there, work, reached + (low - reached) * i / 32, rho);
          cw_trace_get_angles (back, work, i / 32.0, again);
          g_assert_cmpfloat (cw_linkage_misfit (linkage, work, again, NULL), <=, 1e-4);
          for (guint j = 0; j < 4; j++)
            g_assert_cmpfloat_with_epsilon (rho[j], again[j], 1e-9);
        }
    }

  /* Whatever is not just that: other hinges, further than it began, another start. */
  for (guint j = 0; j < 4; j++)
    start[j] = end[j] + 1e-6;
  g_assert_null (cw_trace_new_back (there, linkage, end, &other, 1));
  g_assert_null (cw_trace_new_back (there, linkage, end, two, 2));
  g_assert_null (cw_trace_new_back (there, linkage, start, &beyond, 1));
  beyond.to_rad = 1.1 * G_PI;
  g_assert_null (cw_trace_new_back (there, linkage, end, &beyond, 1));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/fold/trace-block/parallelogram", test_parallelogram);
  g_test_add_func ("/fold/trace-block/crossed-branch", test_crossed_branch);
  g_test_add_func ("/fold/trace-block/four-bar", test_four_bar);
  g_test_add_func ("/fold/trace-block/dead-point", test_dead_point);
  g_test_add_func ("/fold/trace-block/hidden-branch", test_hidden_branch);
  g_test_add_func ("/fold/trace-block/listed-folds", test_listed_folds);
  g_test_add_func ("/fold/trace-block/held-hinge", test_held_hinge);
  g_test_add_func ("/fold/trace-block/sways", test_sways);
  g_test_add_func ("/fold/trace-block/shut-by-give", test_shut_by_give);
  g_test_add_func ("/fold/trace-block/from-half-way", test_from_half_way);
  g_test_add_func ("/fold/trace-block/two-ways", test_two_ways);
  g_test_add_func ("/fold/trace-block/undone-goes-back-the-way-it-came", test_back);
  return g_test_run ();
}
