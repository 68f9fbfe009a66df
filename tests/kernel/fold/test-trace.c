/* test-trace.c: loops in motion, against closed forms.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-make-vertex.h"

#include "geometry/cw-tolerance.h"

/* Degree-4 flat-foldable vertices: values 5.2 (Lang & Howell, J. Mech. Robot. 10 (2018) 021004; Akitaya et al.,
 * J. Comput. Geom. 11 (2020) 93-124): sectors a, b, 180 - a, 180 - b, crease i before sector i. Creases 2 and 4 equal,
 * 1 and 3 opposite with tan(rho1/2) = -p tan(rho2/2); or creases 1 and 3 equal and tan(rho2/2) = -p' tan(rho1/2). */
static void
test_degree_four (void)
{
  static const double pairs[][2] = { { 45, 90 }, { 60, 90 }, { 60, 120 }, { 70, 100 }, { 50, 80 }, { 30, 90 } };
  static const double at_90[] = { 45.000000, 30.000000, 53.130102, 29.127790, 31.876058, 60.000000 };

  for (guint k = 0; k < G_N_ELEMENTS (pairs); k++)
    for (guint motion = 0; motion < 2; motion++)
      for (int sign = -1; sign <= 1; sign += 2)
        {
          double a = pairs[k][0], b = pairs[k][1];
          double sectors[] = { a, b, 180 - a, 180 - b };
          double p = sin (cw_make_rad (b - a) / 2) / sin (cw_make_rad (b + a) / 2);
          double other = cos (cw_make_rad (a + b) / 2) / cos (cw_make_rad (a - b) / 2);
          double m = motion == 0 ? p : other;
          int ways[4] = { -sign, sign, sign, sign };
          guint driver = motion == 0 ? 1 : 0;
          double start[4] = { 0 }, rho[4];
          g_autoptr (CwLinkage) linkage = NULL;
          g_autoptr (CwLinkageWork) work = NULL;
          g_autoptr (CwTrace) trace = NULL;
          CwDrive drive = { driver, sign * G_PI };

          if (motion == 1)
            {
              ways[0] = sign;
              ways[1] = other > 0 ? -sign : sign;
              ways[2] = sign;
              ways[3] = -ways[1];
            }
          linkage = cw_make_vertex (4, sectors, ways);
          work = cw_linkage_work_new (linkage);
          trace = cw_linkage_trace (linkage, start, &drive, 1, 0);
          g_assert_cmpint (cw_trace_get_result (trace)->verdict, ==, CW_TRACE_ARRIVED);
          g_assert_false (cw_trace_get_result (trace)->two_ways);
          g_assert_false (cw_trace_get_result (trace)->sways);
          g_assert_cmpfloat (cw_trace_get_result (trace)->misfit_ticks, <=, 0);
          for (guint i = 0; i <= 60; i++)
            {
              double follows;

              cw_trace_get_angles (trace, work, i / 60.0, rho);
              follows = i == 60 ? (fabs (m) > 1e-9 ? -sign * G_PI * (m > 0 ? 1 : -1) : 0)
                                : -2 * atan (m * tan (rho[driver] / 2));
              g_assert_cmpfloat_with_epsilon (rho[driver], sign * G_PI * i / 60, 1e-12);
              g_assert_cmpfloat_with_epsilon (rho[driver + 2], rho[driver], 1e-9);
              g_assert_cmpfloat_with_epsilon (rho[1 - driver], follows, 1e-9);
              g_assert_cmpfloat_with_epsilon (rho[3 - driver], -rho[1 - driver], 1e-9);
              if (i == 30 && motion == 0)
                g_assert_cmpfloat_with_epsilon (fabs (rho[0]) * 180 / G_PI, at_90[k], 5e-7);
            }
        }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/fold/trace/degree-four", test_degree_four);
  return g_test_run ();
}
