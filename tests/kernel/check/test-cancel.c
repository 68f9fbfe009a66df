/* test-cancel.c: a check that is no longer wanted stops at once, wherever it is.
 *
 * Seconds are compared with seconds of the same run: from the word to the return it may take no more than half of what
 * the whole takes. A pause of the machine may spoil one try, so a moment has three.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "../../bench/bench-accordion.h"
#include "card-fixture.h"
#include "check/cw-analysis.h"
#include "contact/cw-collision.h"

#define STRIPS 500
#define MOMENTS 8
#define TRIES 3

typedef struct
{
  GCancellable *cancellable;
  gint64 after, at;
} Stopper;

static gpointer
stop (gpointer data)
{
  Stopper *stopper = data;

  g_usleep ((gulong) stopper->after);
  stopper->at = g_get_monotonic_time ();
  g_cancellable_cancel (stopper->cancellable);
  return NULL;
}

static CwDesign *
accordion (void)
{
  g_autofree char *text = bench_accordion (STRIPS, 240, 8128);

  return card_design (text);
}

/* Microseconds from the word, given `after` microseconds on, to the return. */
static gint64
time_stop (CwDesign *design, gint64 after, guint *n_stopped)
{
  g_autoptr (GCancellable) cancellable = g_cancellable_new ();
  Stopper stopper = { cancellable, after, 0 };
  GThread *thread = g_thread_new ("stopper", stop, &stopper);
  g_autoptr (CwAnalysis) analysis = cw_analysis_new_cancellable (design, cancellable);
  gint64 end = g_get_monotonic_time ();

  g_thread_join (thread);
  *n_stopped += analysis == NULL;
  return analysis == NULL ? end - stopper.at : 0;
}

static void
test_midway (void)
{
  g_autoptr (CwDesign) design = accordion ();
  gint64 from = g_get_monotonic_time (), whole;
  g_autoptr (CwAnalysis) all = cw_analysis_new_cancellable (design, NULL);
  guint n_stopped = 0;

  whole = g_get_monotonic_time () - from;
  g_assert_nonnull (all);
  for (guint i = 0; i < MOMENTS; i++)
    {
      gint64 least = G_MAXINT64;

      for (guint k = 0; k < TRIES && least > whole / 2; k++)
        least = MIN (least, time_stop (design, whole * i / (2 * MOMENTS), &n_stopped));
      g_assert_cmpint (least, <=, whole / 2);
    }
  g_assert_cmpuint (n_stopped, >, MOMENTS / 2);
}

/* Stopped before it began every part gives nothing, and nothing is told of a part. */
static void
test_before (void)
{
  g_autoptr (CwDesign) design = accordion ();
  g_autoptr (CwPanelSet) set = cw_panel_set_new (design);
  g_autoptr (CwMotion) motion = cw_motion_new (set, NULL, 0);
  g_autoptr (GCancellable) cancellable = g_cancellable_new ();
  g_autoptr (GArray) found = NULL;

  g_cancellable_cancel (cancellable);
  g_assert_null (cw_analysis_new_cancellable (design, cancellable));
  g_assert_null (cw_motion_new_cancellable (set, NULL, 0, cancellable));
  g_assert_null (cw_flat_states_new_cancellable (motion, cancellable));
  found = cw_collisions_find (motion, NULL, cancellable);
  g_assert_cmpuint (found->len, ==, 0);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/check/cancel/midway", test_midway);
  g_test_add_func ("/check/cancel/before-it-begins", test_before);
  return g_test_run ();
}
