/* test-trace-give.c: loops that close only by rounding's or the paper's give; no allocation; the same digits always.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-make-vertex.h"

#include <stdlib.h>

static const double shut[4] = { G_PI, 0, G_PI, 0 };

/* V folds with marks rounded to ticks, opened from shut: one tab right or half a tick off has no exact motion but is
 * exact to two ticks; 1/64, 1/32 and 1/16 inch off move only with give, and miss by no more than the tab does (all
 * turns meet in the tip, which is off by just that) nor less than half of it. Page creases at 30, 37 and 60 degrees. */
static void
test_tab_off (void)
{
  static const double angles[][2] = { { 30, 30 }, { 37, 37 }, { 60, 60 }, { 30, 50 }, { 37, 52 }, { 60, 75 } };
  static const double off[] = { 0, 0.5, 127, 254, 508 };

  for (guint k = 0; k < G_N_ELEMENTS (angles); k++)
    for (guint o = 0; o < G_N_ELEMENTS (off); o++)
      for (guint across = 0; across < 2; across++)
        {
          g_autoptr (CwLinkage) linkage
            = cw_make_v_fold (angles[k][0], angles[k][1], cw_vec3 (across ? 0 : off[o], across ? off[o] : 0, 0));
          /* As far as the fold opens without lying quite flat. */
          CwDrive open = { 0, cw_make_rad (angles[k][1] > angles[k][0] ? 0 : 10) };
          g_autoptr (CwLinkageWork) work = cw_linkage_work_new (linkage);
          g_autoptr (CwTrace) bare = cw_linkage_trace (linkage, shut, &open, 1, 0);
          g_autoptr (CwTrace) given = cw_linkage_trace (linkage, shut, &open, 1, off[o]);
          const CwTraceResult *result = cw_trace_get_result (bare);
          double rho[4];

          if (off[o] < 1)
            {
              g_assert_cmpint (result->verdict, ==, CW_TRACE_ARRIVED);
              g_assert_cmpfloat (result->misfit_ticks, <=, 2);
              g_assert_false (result->needs_give);
            }
          else
            {
              g_assert_cmpint (result->verdict, ==, CW_TRACE_STOPPED);
              g_assert_cmpfloat (result->reached, <, 0.01);
            }

          result = cw_trace_get_result (given);
          g_assert_cmpint (result->verdict, ==, CW_TRACE_ARRIVED);
          g_assert_false (result->two_ways);
          g_assert_false (result->other_way_moves);
          if (off[o] >= 1)
            {
              g_assert_true (result->needs_give);
              g_assert_cmpfloat (result->misfit_ticks, >, off[o] / 2);
              g_assert_cmpfloat (result->misfit_ticks, <=, off[o] + 2);
              g_assert_cmpuint (result->misfit_joint, <, 4);
            }
          for (guint i = 0; i <= 50; i++)
            {
              cw_trace_get_angles (given, work, i / 50.0, rho);
              g_assert_cmpfloat (cw_linkage_misfit (linkage, work, rho, NULL), <=, off[o] + 2);
            }
          /* The two panels fold about alike: 1/16 inch off turned the prototype's panels by 1.9 degrees. */
          cw_trace_get_angles (given, work, 0.5, rho);
          g_assert_cmpfloat (fabs (rho[1] - rho[3]), <, cw_make_rad (8));
        }
}

#ifdef __has_feature
#if __has_feature(address_sanitizer) || __has_feature(thread_sanitizer)
#define SANITIZED 1
#endif
#endif
#if defined(__SANITIZE_ADDRESS__) || defined(__SANITIZE_THREAD__)
#define SANITIZED 1
#endif

#ifndef SANITIZED
static guint n_allocations;
extern void *__libc_malloc (size_t size);
extern void *__libc_calloc (size_t n, size_t size);
extern void *__libc_realloc (void *p, size_t size);

/* Count what is asked of the C library. */
void *
malloc (size_t size)
{
  n_allocations++;
  return __libc_malloc (size);
}

void *
calloc (size_t n, size_t size)
{
  n_allocations++;
  return __libc_calloc (n, size);
}

void *
realloc (void *p, size_t size)
{
  n_allocations++;
  return __libc_realloc (p, size);
}
#endif

/* A hundred looks at a motion with loops allocate nothing (kernel, "Time": no allocation per frame). */
static void
test_no_allocation (void)
{
#ifdef SANITIZED
  g_test_skip ("the sanitizer owns the allocator");
#else
  g_autoptr (CwLinkage) linkage = cw_make_v_fold (60, 75, cw_vec3 (0, 127, 0));
  CwDrive open = { 0, 0 };
  g_autoptr (CwLinkageWork) work = cw_linkage_work_new (linkage);
  g_autoptr (CwTrace) trace = cw_linkage_trace (linkage, shut, &open, 1, 254);
  CwRigid places[4];
  double rho[4];
  guint before = n_allocations;

  g_assert_cmpuint (before, >, 0);
  for (guint i = 0; i < 100; i++)
    {
      cw_trace_get_angles (trace, work, i / 100.0, rho);
      cw_linkage_place (linkage, work, rho, places);
      cw_linkage_misfit (linkage, work, rho, NULL);
    }
  g_assert_cmpuint (n_allocations, ==, before);
#endif
}

static guint64
hash_motion (guint64 hash, CwLinkage *linkage, CwTrace *trace)
{
  g_autoptr (CwLinkageWork) work = cw_linkage_work_new (linkage);

  for (guint i = 0; i <= 40; i++)
    {
      double rho[8];

      cw_trace_get_angles (trace, work, i / 40.0, rho);
      for (guint j = 0; j < 4; j++)
        hash = (hash ^ (guint64) llround (rho[j] * 1e7)) * G_GUINT64_CONSTANT (0x100000001b3);
    }
  return hash;
}

/* The same motions to 1e-7 radian from either compiler at any level of optimisation: the number below was the same from
 * gcc and clang at -O0 and -O2 when it was written down. It guards against change, not against error. */
static void
test_same_digits (void)
{
  static const double sectors[] = { 80, 95, 85, 100 }, flat[4] = { 0 };
  static const int ways[] = { 1, -1, 1, 1 };
  guint64 hash = G_GUINT64_CONSTANT (0xcbf29ce484222325);
  CwDrive drive = { 0, cw_make_rad (120) }, open = { 0, 0 };

  for (guint again = 0; again < 2; again++)
    {
      g_autoptr (CwLinkage) vertex = cw_make_vertex (4, sectors, ways);
      g_autoptr (CwLinkage) v_fold = cw_make_v_fold (37, 52, cw_vec3 (254, 0, 0));
      g_autoptr (CwTrace) exact = cw_linkage_trace (vertex, flat, &drive, 1, 0);
      g_autoptr (CwTrace) given = cw_linkage_trace (v_fold, shut, &open, 1, 254);

      hash = hash_motion (hash, vertex, exact);
      hash = hash_motion (hash, v_fold, given);
    }
  g_assert_cmphex (hash, ==, G_GUINT64_CONSTANT (0x532aa9fff55399));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/fold/trace-give/tab-off", test_tab_off);
  g_test_add_func ("/fold/trace-give/no-allocation", test_no_allocation);
  g_test_add_func ("/fold/trace-give/same-digits", test_same_digits);
  return g_test_run ();
}
