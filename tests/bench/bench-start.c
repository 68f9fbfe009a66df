/* bench-start.c: how long from the start of the program to its first frame, beside a window with nothing in it.
 *
 * Calls itself: a child opens a bare GTK window, the program, or the program on a design, and prints the moment when
 * its first frame was painted. The kinds take turns, so that the machine's moods meet all alike. Medians and ratios;
 * nothing is asserted, since the machine decides.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include <stdlib.h>

#include "cw-application.h"

#define TRIES 7

static void
frame_ends (GdkFrameClock *clock, GApplication *application)
{
  g_print ("%" G_GINT64_FORMAT "\n", g_get_monotonic_time ());
  exit (0);
}

static void
realized (GtkWidget *window, GApplication *application)
{
  g_signal_connect (gtk_widget_get_frame_clock (window), "after-paint", G_CALLBACK (frame_ends), application);
}

static void
window_added (GtkApplication *application, GtkWindow *window)
{
  if (gtk_widget_get_realized (GTK_WIDGET (window)))
    realized (GTK_WIDGET (window), G_APPLICATION (application));
  else
    g_signal_connect (window, "realize", G_CALLBACK (realized), application);
}

static void
open_bare (GtkApplication *application)
{
  GtkWidget *window = gtk_application_window_new (application);

  gtk_window_set_titlebar (GTK_WINDOW (window), gtk_header_bar_new ());
  gtk_window_set_default_size (GTK_WINDOW (window), 1200, 800);
  gtk_window_present (GTK_WINDOW (window));
}

static int
run_child (const char *kind, char *self, char *path)
{
  char *arguments[] = { self, path, NULL };
  gboolean bare = g_str_equal (kind, "bare");
  g_autoptr (GtkApplication) application
    = bare ? gtk_application_new (NULL, G_APPLICATION_DEFAULT_FLAGS) : GTK_APPLICATION (cw_application_new ());

  g_application_set_flags (G_APPLICATION (application),
                           g_application_get_flags (G_APPLICATION (application)) | G_APPLICATION_NON_UNIQUE);
  if (bare)
    g_signal_connect (application, "activate", G_CALLBACK (open_bare), NULL);
  g_signal_connect (application, "window-added", G_CALLBACK (window_added), NULL);
  return g_application_run (G_APPLICATION (application), path != NULL ? 2 : 1, arguments);
}

static double
time_child (char *self, const char *kind, char *path)
{
  char *arguments[] = { self, (char *) "--child", (char *) kind, path, NULL };
  g_autofree char *printed = NULL;
  gint64 from = g_get_monotonic_time ();

  if (!g_spawn_sync (NULL, arguments, NULL, G_SPAWN_DEFAULT, NULL, NULL, &printed, NULL, NULL, NULL))
    return 0;
  return (double) (g_ascii_strtoll (printed, NULL, 10) - from) / 1000;
}

static int
compare (const void *a, const void *b)
{
  double x = *(const double *) a, y = *(const double *) b;

  return (x > y) - (x < y);
}

int
main (int argc, char *argv[])
{
  static const char *const kinds[] = { "bare", "program", "program" };
  static const char *const names[] = { "bare window", "program", "program on a design" };
  double ms[3][TRIES];

  if (argc > 2 && g_str_equal (argv[1], "--child"))
    return run_child (argv[2], argv[0], argc > 3 ? argv[3] : NULL);
  if (!gtk_init_check ())
    {
      g_print ("no display: nothing measured\n");
      return 0;
    }
  for (guint again = 0; again < TRIES; again++)
    for (guint k = 0; k < (argc > 1 ? 3 : 2); k++)
      ms[k][again] = time_child (argv[0], kinds[k], k == 2 ? argv[1] : NULL);
  for (guint k = 0; k < (argc > 1 ? 3 : 2); k++)
    {
      qsort (ms[k], TRIES, sizeof (double), compare);
      g_print ("%-20s first frame after %6.0f ms, %.2f times the bare window\n", names[k], ms[k][TRIES / 2],
               ms[k][TRIES / 2] / ms[0][TRIES / 2]);
    }
  return 0;
}
