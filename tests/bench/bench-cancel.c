/* bench-cancel.c: how long the window's worker goes on after the maker has dragged a mark on.
 *
 * The analysis of an accordion and of the card of 12 panels is stopped from another thread at many moments of its way;
 * told is the longest time from there to its return, beside the time of the whole. Numbers to read; nothing is
 * asserted.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "bench-accordion.h"
#include "check/cw-analysis.h"
#include "design/cw-design-json.h"

#define MOMENTS 40

typedef struct
{
  GCancellable *cancellable;
  gint64 after; /* microseconds */
  gint64 at;    /* when it was cancelled */
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

static void
time_stops (const char *name, CwDesign *design)
{
  gint64 from = g_get_monotonic_time (), whole, most = 0, most_after = 0;
  guint stopped = 0;
  cw_analysis_unref (cw_analysis_new (design));

  whole = g_get_monotonic_time () - from;
  for (guint i = 0; i < MOMENTS; i++)
    {
      g_autoptr (GCancellable) cancellable = g_cancellable_new ();
      Stopper stopper = { cancellable, whole * i / MOMENTS, 0 };
      GThread *thread = g_thread_new ("stopper", stop, &stopper);
      g_autoptr (CwAnalysis) analysis = cw_analysis_new_cancellable (design, cancellable);
      gint64 now = g_get_monotonic_time ();

      g_thread_join (thread);
      if (analysis != NULL)
        continue;
      stopped++;
      if (now - stopper.at > most)
        {
          most = now - stopper.at;
          most_after = stopper.after;
        }
    }
  g_print ("%s: whole %.1f ms; stopped %u of %u times, at most %.2f ms after the word (given at %.1f ms)\n", name,
           (double) whole / 1000, stopped, MOMENTS, (double) most / 1000, (double) most_after / 1000);
}

int
main (int argc, char *argv[])
{
  for (int i = 1; i < argc; i++)
    {
      g_autoptr (GFile) file = g_file_new_for_path (argv[i]);
      g_autoptr (GError) error = NULL;
      g_autoptr (CwDesign) design = cw_design_load (file, &error);

      g_assert_no_error (error);
      time_stops (argv[i], design);
    }
  for (guint n = 500; n <= 2000; n *= 2)
    {
      g_autofree char *text = bench_accordion (n, 240, 8128), *name = g_strdup_printf ("accordion of %u strips", n);
      g_autoptr (CwDesign) design = cw_design_from_text (text, -1, "bench", NULL);

      g_assert_nonnull (design);
      time_stops (name, design);
    }
  return 0;
}
