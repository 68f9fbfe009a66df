/* bench-linkage.c: how long tracing, placing and asking take: an accordion by its length (kernel, "Numbers to hold": no
 * faster than n^1.2), and a box, which is a loop.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-make-vertex.h"

static double
accordion_ms (guint n)
{
  g_autofree CwJoint *joints = g_new (CwJoint, n);
  g_autofree CwDrive *drives = g_new (CwDrive, n);
  g_autofree double *rho = g_new0 (double, n);
  g_autofree CwRigid *places = g_new (CwRigid, n + 1);
  double best = G_MAXDOUBLE;

  for (guint i = 0; i < n; i++)
    {
      int way = i % 2 == 0 ? 1 : -1;

      joints[i] = (CwJoint){
        i, i + 1, cw_rigid_identity (), cw_rigid_identity (), { i * 100, 0, 0 }, { i * 100, 1000, 0 }, way
      };
      drives[i] = (CwDrive){ i, way * G_PI };
    }
  for (guint again = 0; again < 9; again++)
    {
      gint64 from = g_get_monotonic_time ();
      g_autoptr (CwLinkage) linkage = cw_linkage_new (n + 1, 0, n, joints, n * 100.0);
      g_autoptr (CwLinkageWork) work = cw_linkage_work_new (linkage);
      g_autoptr (CwTrace) trace = NULL;

      for (guint i = 0; i < n; i++)
        rho[i] = 0;
      trace = cw_linkage_trace (linkage, rho, drives, n, 0);
      for (guint i = 0; i <= 10; i++)
        {
          cw_trace_get_angles (trace, work, i / 10.0, rho);
          cw_linkage_place (linkage, work, rho, places);
        }
      best = MIN (best, (double) (g_get_monotonic_time () - from) / 1000);
    }
  return best;
}

int
main (void)
{
  static const int ways[] = { 1, 1, -1, 1 };
  static const double flat[4] = { 0 };
  double rho[4], last = 0;
  CwDrive close = { 0, G_PI };
  g_autoptr (CwLinkage) box = cw_make_four_bar (9600, 12800, 12800, 9600, CW_MAKE_SIZE, ways);
  g_autoptr (CwLinkageWork) work = cw_linkage_work_new (box);
  g_autoptr (CwTrace) trace = NULL;
  gint64 from;

  for (guint n = 250; n <= 2000; n *= 2)
    {
      double ms = accordion_ms (n);

      if (last > 0)
        g_print ("accordion of %4u: %6.2f ms, grows as n^%.2f\n", n, ms, log2 (ms / last));
      else
        g_print ("accordion of %4u: %6.2f ms\n", n, ms);
      last = ms;
    }

  from = g_get_monotonic_time ();
  trace = cw_linkage_trace (box, flat, &close, 1, 0);
  g_print ("box, traced from flat: %6.2f ms\n", (double) (g_get_monotonic_time () - from) / 1000);
  from = g_get_monotonic_time ();
  for (guint i = 0; i < 1000; i++)
    cw_trace_get_angles (trace, work, i / 1000.0, rho);
  g_print ("box, one moment: %.2f us\n", (double) (g_get_monotonic_time () - from) / 1000);
  return 0;
}
