/* test-trace.c: loops in motion, against closed forms and published tables.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-make-vertex.h"

/* Degree-4 flat-foldable vertices (Lang & Howell, J. Mech. Robot. 10 (2018) 021004; Akitaya et al., J. Comput. Geom. 11
 * (2020) 93-124): sectors a, b, 180 - a, 180 - b, crease i before sector i. Creases 2 and 4 equal, 1 and 3 opposite
 * with tan(rho1/2) = -p tan(rho2/2); or creases 1 and 3 equal, 2 and 4 opposite and tan(rho2/2) = -p' tan(rho1/2). The
 * column at 90 degrees was also found by closing the vertex numerically without the formula. */
static void
test_degree_four (void)
{
  static const double pairs[][2] = { { 45, 90 }, { 60, 90 }, { 60, 120 }, { 70, 100 }, { 50, 80 }, { 30, 90 } };
  static const double at_90[] = { 45.000000, 30.000000, 53.130102, 29.127790, 31.876058, 60.000000 };

  for (guint k = 0; k < 24; k++)
    {
      guint pair = k / 4, motion = k / 2 % 2;
      int sign = k % 2 == 0 ? 1 : -1;
      double a = pairs[pair][0], b = pairs[pair][1];
      double sectors[] = { a, b, 180 - a, 180 - b };
      double p = sin (cw_make_rad (b - a) / 2) / sin (cw_make_rad (b + a) / 2);
      double other = cos (cw_make_rad (a + b) / 2) / cos (cw_make_rad (a - b) / 2);
      double m = motion == 0 ? p : other;
      guint driver = motion == 0 ? 1 : 0;
      int ways[4];
      double start[4] = { 0 }, rho[4];
      CwDrive drive = { driver, sign * G_PI };
      g_autoptr (CwLinkage) linkage = NULL;
      g_autoptr (CwLinkageWork) work = NULL;
      g_autoptr (CwTrace) trace = NULL;

      ways[driver] = ways[driver + 2] = sign;
      ways[1 - driver] = m > 0 ? -sign : sign;
      ways[3 - driver] = -ways[1 - driver];
      linkage = cw_make_vertex (4, sectors, ways);
      work = cw_linkage_work_new (linkage);
      trace = cw_linkage_trace (linkage, start, &drive, 1, 0);
      g_assert_cmpint (cw_trace_get_result (trace)->verdict, ==, CW_TRACE_ARRIVED);
      g_assert_false (cw_trace_get_result (trace)->two_ways);
      g_assert_false (cw_trace_get_result (trace)->sways);
      g_assert_cmpfloat (cw_trace_get_result (trace)->misfit_ticks, <=, 0);
      for (guint i = 0; i <= 60; i++)
        {
          double follows = -2 * atan (m * tan (sign * G_PI * i / 120));

          if (i == 60)
            follows = fabs (m) > 1e-9 ? -sign * G_PI * (m > 0 ? 1 : -1) : 0;
          cw_trace_get_angles (trace, work, i / 60.0, rho);
          g_assert_cmpfloat_with_epsilon (rho[driver], sign * G_PI * i / 60, 1e-12);
          g_assert_cmpfloat_with_epsilon (rho[driver + 2], rho[driver], 1e-9);
          g_assert_cmpfloat_with_epsilon (rho[1 - driver], follows, 1e-9);
          g_assert_cmpfloat_with_epsilon (rho[3 - driver], -rho[1 - driver], 1e-9);
          if (i == 30 && motion == 0)
            g_assert_cmpfloat_with_epsilon (fabs (rho[0]) * 180 / G_PI, at_90[pair], 5e-7);
        }
    }
}

/* Spherical law of cosines, any flat-paper degree-4 vertex (textbook): cos d = cos a1 cos a4 - sin a1 sin a4 cos rho1 =
 * cos a2 cos a3 - sin a2 sin a3 cos rho3. The tabled |rho3| were checked against closure. Whichever crease is the
 * odd one out. In the first two vertices creases 2 and 4 lie on one line: their second motion folds these alone and
 * leaves the driver flat, so one motion is found there and two in the third. */
static void
test_spherical_law (void)
{
  static const double sectors[3][4] = { { 80, 95, 85, 100 }, { 90, 80, 100, 90 }, { 60, 110, 80, 110 } };
  static const double rho3[3][4] = { { 29.649175, 59.245198, 88.697542, 117.768786 },
                                     { 30.473934, 61.023268, 91.781682, 123.136588 },
                                     { 28.092962, 55.922942, 83.072417, 108.607167 } };

  for (guint k = 0; k < 3; k++)
    {
      guint moved = 0;

      for (guint odd = 0; odd < 4; odd++)
        {
          int ways[4] = { 1, 1, 1, 1 };
          double start[4] = { 0 }, rho[4];
          CwDrive drive = { 0, cw_make_rad (120) };
          g_autoptr (CwLinkage) linkage = NULL;
          g_autoptr (CwLinkageWork) work = NULL;
          g_autoptr (CwTrace) trace = NULL;

          for (guint i = 1; i < 4; i++)
            ways[i] = odd == 0 || odd == i ? -1 : 1;
          linkage = cw_make_vertex (4, sectors[k], ways);
          work = cw_linkage_work_new (linkage);
          trace = cw_linkage_trace (linkage, start, &drive, 1, 0);
          if (cw_trace_get_result (trace)->verdict != CW_TRACE_ARRIVED)
            {
              g_assert_true (cw_trace_get_result (trace)->other_way_moves);
              continue;
            }
          moved++;
          for (guint i = 1; i <= 4; i++)
            {
              double a[4], left, right;

              cw_trace_get_angles (trace, work, i / 4.0, rho);
              for (guint j = 0; j < 4; j++)
                a[j] = cw_make_rad (sectors[k][j]);
              left = cos (a[0]) * cos (a[3]) - sin (a[0]) * sin (a[3]) * cos (rho[0]);
              right = cos (a[1]) * cos (a[2]) - sin (a[1]) * sin (a[2]) * cos (rho[2]);
              g_assert_cmpfloat_with_epsilon (left, right, 1e-9);
              g_assert_cmpfloat_with_epsilon (fabs (rho[2]) * 180 / G_PI, rho3[k][i - 1], 1e-6);
            }
        }
      g_assert_cmpuint (moved, ==, k < 2 ? 1 : 2);
    }
}

/* Vertex closure (Belcastro & Hull, Linear Algebra Appl. 348 (2002) 273-282, from memory): the turns about the creases
 * multiply to the identity. One degree more at the first crease leaves a turn of one degree. */
static void
test_closure_example (void)
{
  static const double sectors[] = { 60, 120, 120, 60 };
  CwJoint joints[4];
  double rho[4] = { 53.130102354, -90, -53.130102354, -90 };

  for (guint i = 0; i < 4; i++)
    {
      joints[i] = (CwJoint){ i, i + 1, cw_rigid_identity (), cw_rigid_identity (), { 0, 0, 0 }, { 1000, 0, 0 }, 1 };
      joints[i].in_b = cw_rigid_about_axis (cw_vec3 (0, 0, 0), cw_vec3 (0, 0, 1), -cw_make_rad (sectors[i]));
    }
  for (guint off = 0; off < 2; off++)
    {
      g_autoptr (CwLinkage) linkage = cw_linkage_new (5, 0, 4, joints, 1000);
      g_autoptr (CwLinkageWork) work = cw_linkage_work_new (linkage);
      CwRigid places[5];
      double radians[4], worst = 0;

      for (guint i = 0; i < 4; i++)
        radians[i] = cw_make_rad (rho[i] + (i == 0 ? off : 0));
      cw_linkage_place (linkage, work, radians, places);
      for (guint i = 0; i < 3; i++)
        for (guint j = 0; j < 3; j++)
          worst = MAX (worst, fabs (places[4].r[i][j] - (i == j)));
      g_assert_cmpfloat_with_epsilon (worst, off == 0 ? 0 : 0.017452406, 1e-9);
    }
}

/* V fold: cos b = cos a cos f + sin a sin f cos(T/2), the larger root f from the spine to the middle crease; f = a + b
 * shut (Glassner, IEEE Comput. Graph. Appl. 22(1) (2002) 79-; Abel et al., STACS 2013; derived and checked). */
static void
test_v_fold (void)
{
  static const double table[6][9] = {
    { 45, 45, 90.0000, 88.0141, 81.7868, 70.5288, 53.1301, 29.0216, 0 },
    { 60, 60, 120.0000, 118.2650, 112.6199, 101.5370, 81.7868, 48.2922, 0 },
    { 30, 30, 60.0000, 58.2949, 53.1301, 44.4153, 32.2042, 16.9976, 0 },
    { 45, 60, 105.0000, 103.4371, 98.5819, 90.0000, 77.3335, 61.3106, 45.0000 },
    { 60, 75, 135.0000, 133.7313, 129.6235, 121.6585, 107.8581, 85.9593, 58.8260 },
    { 30, 50, 80.0000, 78.7385, 74.9695, 68.8012, 60.6137, 51.2695, 42.0785 },
  };

  for (guint k = 0; k < 6; k++)
    {
      double a = cw_make_rad (table[k][0]), b = cw_make_rad (table[k][1]);
      double sectors[] = { table[k][0], table[k][1], table[k][1], table[k][0] };
      int ways[4] = { 1, 1, 1, 1 };
      double start[4] = { G_PI, 0, G_PI, 0 }, rho[4];
      CwDrive drive = { 0, 0 };
      CwRigid places[4];
      g_autoptr (CwLinkage) linkage = cw_make_vertex (4, sectors, ways);
      g_autoptr (CwLinkageWork) work = cw_linkage_work_new (linkage);
      g_autoptr (CwTrace) trace = cw_linkage_trace (linkage, start, &drive, 1, 0);

      g_assert_cmpint (cw_trace_get_result (trace)->verdict, ==, CW_TRACE_ARRIVED);
      for (guint i = 0; i <= 6; i++)
        {
          double half = G_PI * i / 12, f;
          CwVec3 middle;

          cw_trace_get_angles (trace, work, i / 6.0, rho);
          cw_linkage_place (linkage, work, rho, places);
          middle = cw_rigid_turn (&places[1], cw_vec3 (cos (b), sin (b), 0));
          f = atan2 (hypot (middle.y, middle.z), middle.x);
          g_assert_cmpfloat_with_epsilon (f * 180 / G_PI, table[k][2 + i], 6e-5);
          g_assert_cmpfloat_with_epsilon (cos (a) * cos (f) + sin (a) * sin (f) * cos (half), cos (b), 1e-9);
        }

      /* Page creases scored away from the reader cannot follow, and it is said that the other way would. */
      ways[1] = ways[3] = -1;
      {
        g_autoptr (CwLinkage) wrong = cw_make_vertex (4, sectors, ways);
        g_autoptr (CwTrace) stuck = cw_linkage_trace (wrong, start, &drive, 1, 0);

        g_assert_cmpint (cw_trace_get_result (stuck)->verdict, ==, CW_TRACE_STOPPED);
        g_assert_cmpfloat (cw_trace_get_result (stuck)->reached, <=, 0);
        g_assert_true (cw_trace_get_result (stuck)->other_way_moves);
      }
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/fold/trace/degree-four", test_degree_four);
  g_test_add_func ("/fold/trace/spherical-law", test_spherical_law);
  g_test_add_func ("/fold/trace/closure-example", test_closure_example);
  g_test_add_func ("/fold/trace/v-fold", test_v_fold);
  return g_test_run ();
}
