/* test-linkage-true.c: fold lines that rounding put out of true are laid as they were meant, and no others.
 *
 * What was meant is known: the same drawing before its points were turned and rounded to ticks.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-make-vertex.h"
#include "fold/cw-linkage-private.h"
#include "fold/cw-linkage-true.h"
#include "geometry/cw-tolerance.h"

#define INCH 8128.0
#define SLANTS 60

/* A sheet of four panels in a ring: ends of its four fold lines in inches, and the panels at their sides. */
typedef struct
{
  double ends[4][4];
  guint a[4], b[4];
} Sheet;

/* A step across a spine: spine, fold at the left page, ridge, fold at the right page. Its folds lie at different
 * heights, as slits leave them. */
static const Sheet box
  = { { { 5, 0, 5, 1 }, { 4, 2, 4, 5 }, { 6, 2, 6, 5 }, { 7, 2, 7, 5 } }, { 0, 2, 3, 0 }, { 1, 1, 2, 3 } };
/* A beak: spine, left crease, middle, right crease, all through (5, 5). */
static const Sheet beak
  = { { { 5, 0, 5, 7 }, { 5, 5, 3, 3 }, { 5, 5, 5, 3 }, { 5, 5, 7, 3 } }, { 0, 1, 2, 3 }, { 1, 2, 3, 0 } };

/* The sheet turned by `turn` radians, ends rounded to ticks, the third line moved by `off` ticks along x first. */
static void
draw (const Sheet *sheet, double turn, double off, CwJoint joints[4])
{
  for (guint i = 0; i < 4; i++)
    {
      double x[2], y[2];

      for (guint k = 0; k < 2; k++)
        {
          double u = sheet->ends[i][2 * k] * INCH + (i == 2 ? off : 0), v = sheet->ends[i][2 * k + 1] * INCH;

          x[k] = round (u * cos (turn) - v * sin (turn));
          y[k] = round (u * sin (turn) + v * cos (turn));
        }
      joints[i] = (CwJoint){ .a = sheet->a[i], .b = sheet->b[i], .way = 1 };
      joints[i].in_a = joints[i].in_b = cw_rigid_identity ();
      joints[i].p = cw_vec3 (x[0], y[0], 0);
      joints[i].q = cw_vec3 (x[1], y[1], 0);
    }
}

static double
misfit (const CwJoint joints[4], const double rho[4])
{
  g_autoptr (CwLinkage) linkage = cw_linkage_new (4, 0, 4, joints, 10 * INCH);
  g_autoptr (CwLinkageWork) work = cw_linkage_work_new (linkage);

  return cw_linkage_misfit (linkage, work, rho, NULL);
}

static gboolean
make_true (CwJoint joints[4])
{
  g_autoptr (CwLinkage) linkage = cw_linkage_new (4, 0, 4, joints, 10 * INCH);

  return cw_linkage_true_joints (linkage, joints);
}

/* Drawn at many slants, the sheet closes at angles known from elsewhere once its lines are true; as drawn it does not.
 */
static void
assert_closes (const Sheet *sheet, guint n_states, const double (*states)[4])
{
  double as_drawn = 0;

  for (guint i = 0; i < SLANTS; i++)
    {
      CwJoint drawn[4], joints[4];

      draw (sheet, 0.05 + 0.1 * i, 0, drawn);
      memcpy (joints, drawn, sizeof drawn);
      g_assert_true (make_true (joints));
      for (guint k = 0; k < n_states; k++)
        {
          as_drawn = MAX (as_drawn, misfit (drawn, states[k]));
          g_assert_cmpfloat (misfit (joints, states[k]), <, CW_TOL_CLOSED * 10 * INCH);
        }
      for (guint k = 0; k < 4; k++)
        {
          g_assert_cmpfloat (cw_vec3_length (cw_vec3_sub (joints[k].p, drawn[k].p)), <, 5);
          g_assert_cmpfloat (cw_vec3_length (cw_vec3_sub (joints[k].q, drawn[k].q)), <, 5);
        }
    }
  g_assert_cmpfloat (as_drawn, >, 1);
}

/* Opposite sides of a parallelogram stay parallel: all four turn by the same angle (plane geometry). The hinges here
 * have left and right so that spine and page folds turn one way, the ridge the other. */
static void
test_box (void)
{
  static const double states[3][4] = { { 0.5, 0.5, -0.5, 0.5 }, { 2, 2, -2, 2 }, { G_PI, G_PI, -G_PI, G_PI } };

  assert_closes (&box, G_N_ELEMENTS (states), states);
}

/* Creases at 45 degrees from the spine. Shut, all four are folded (Kawasaki-Justin: opposite angles add up to 180
 * degrees). On the way, with the spine at 90 degrees, the creases stand at 2 atan (sqrt 2) (spherical law of cosines),
 * but for what a tick at the end of a two-inch line turns it by; and the loop closes as well as rounding lets it. */
static void
test_beak (void)
{
  static const double shut[1][4] = { { G_PI, G_PI, -G_PI, G_PI } }, flat[4] = { 0 };
  CwDrive quarter = { 0, G_PI_2 };

  assert_closes (&beak, 1, shut);
  for (guint i = 0; i < SLANTS; i += 6)
    {
      CwJoint joints[4];
      g_autoptr (CwLinkage) linkage = NULL;
      g_autoptr (CwLinkageWork) work = NULL;
      g_autoptr (CwTrace) trace = NULL;
      double rho[4];

      draw (&beak, 0.05 + 0.1 * i, 0, joints);
      joints[2].way = -1;
      make_true (joints);
      linkage = cw_linkage_new (4, 0, 4, joints, 10 * INCH);
      work = cw_linkage_work_new (linkage);
      trace = cw_linkage_trace (linkage, flat, &quarter, 1, 0);
      g_assert_cmpint (cw_trace_get_result (trace)->verdict, ==, CW_TRACE_ARRIVED);
      g_assert_cmpfloat (cw_trace_get_result (trace)->misfit_ticks, <, CW_TOL_CLOSED * 10 * INCH);
      cw_trace_get_angles (trace, work, 1, rho);
      g_assert_cmpfloat_with_epsilon (rho[1], 2 * atan (sqrt (2)), 1e-3);
      g_assert_cmpfloat_with_epsilon (rho[2], -G_PI_2, 1e-3);
      g_assert_cmpfloat_with_epsilon (rho[3], 2 * atan (sqrt (2)), 1e-3);
    }
}

/* What is true already stays to the last digit. */
static void
test_true_stays (void)
{
  const Sheet *sheets[] = { &box, &beak };

  for (guint i = 0; i < G_N_ELEMENTS (sheets); i++)
    {
      CwJoint joints[4], before[4];

      draw (sheets[i], 0, 0, joints);
      memcpy (before, joints, sizeof joints);
      g_assert_false (make_true (joints));
      g_assert_cmpmem (joints, sizeof joints, before, sizeof before);
    }
}

/* A ridge 1/64 inch (127 ticks) out of place is the maker's, not rounding's: it misses shut by twice that wherever it
 * is drawn (the reflection in a line moved by d moves by 2 d). */
static void
test_fault_stays (void)
{
  static const double shut[4] = { G_PI, G_PI, -G_PI, G_PI };

  for (guint i = 0; i < SLANTS; i++)
    {
      CwJoint joints[4];

      draw (&box, 0.05 + 0.1 * i, 127, joints);
      make_true (joints);
      g_assert_cmpfloat_with_epsilon (misfit (joints, shut), 2 * 127, 6);
    }
}

/* A V fold with one tab half a tick or a tick out of place: nothing exact as glued, a motion from flat to shut once
 * true. Shut: spine and middle crease (values, section 5). */
static void
test_v_fold (void)
{
  static const double shut[4] = { G_PI, 0, G_PI, 0 };

  for (guint i = 0; i < 12; i++)
    {
      CwVec3 off = cw_vec3 (cos (i), sin (i), 0);
      g_autoptr (CwLinkage) glued = cw_make_v_fold (60, 40, off);
      CwJoint joints[4];

      memcpy (joints, glued->joints, sizeof joints);
      g_assert_cmpfloat (misfit (joints, shut), >, 0.5);
      g_assert_true (cw_linkage_true_joints (glued, joints));
      g_assert_cmpfloat (misfit (joints, shut), <, CW_TOL_CLOSED * 10 * INCH);
    }
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/fold/linkage-true/box-at-any-slant-moves-as-parallelogram", test_box);
  g_test_add_func ("/fold/linkage-true/beak-at-any-slant-moves-about-its-point", test_beak);
  g_test_add_func ("/fold/linkage-true/true-lines-stay", test_true_stays);
  g_test_add_func ("/fold/linkage-true/a-64th-is-no-rounding", test_fault_stays);
  g_test_add_func ("/fold/linkage-true/v-fold-a-tick-off", test_v_fold);
  return g_test_run ();
}
