/* window-test.h: what the window tests share.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <gtk/gtk.h>

#include "cw-application.h"
#include "cw-document.h"
#include "cw-window.h"
#include "design/cw-design-json.h"
#include "make/cw-make.h"
#include "text/cw-measure-line.h"

/* FALSE when there is no display: the test program says so and ends. */
static inline gboolean
window_test_init (int *argc, char ***argv)
{
  g_test_init (argc, argv, NULL);
  if (gtk_init_check ())
    return TRUE;
  g_print ("1..0 # SKIP no display\n");
  return FALSE;
}

static G_GNUC_UNUSED GtkApplication *application; /* of tests that open whole windows */

/* As window_test_init(), with an application to open windows. */
static inline gboolean
window_test_begin (int *argc, char ***argv)
{
  if (!window_test_init (argc, argv))
    return FALSE;
  application = GTK_APPLICATION (cw_application_new ());
  g_application_set_flags (G_APPLICATION (application), G_APPLICATION_NON_UNIQUE);
  g_assert_true (g_application_register (G_APPLICATION (application), NULL, NULL));
  return TRUE;
}

static inline int
window_test_end (void)
{
  int status = g_test_run ();

  g_object_unref (application);
  return status;
}

static inline void
close_window (CwWindow *window)
{
  gtk_window_destroy (GTK_WINDOW (window));
  while (g_main_context_iteration (NULL, FALSE))
    ;
}

static inline void
iterate_until (gboolean (*done) (gpointer data), gpointer data, double seconds)
{
  gint64 end = g_get_monotonic_time () + (gint64) (seconds * G_USEC_PER_SEC);

  while (!done (data) && g_get_monotonic_time () < end)
    if (!g_main_context_iteration (NULL, FALSE))
      g_usleep (1000);
  g_assert_true (done (data));
}

/* A blank sheet of 8 1/2 x 5 1/2 inch. */
static inline CwDocument *
blank_document (void)
{
  g_autoptr (CwDesign) design = cw_make_design (CW_UNIT_INCH, 17 * CW_TICKS_PER_INCH / 2, 11 * CW_TICKS_PER_INCH / 2);

  return cw_document_new (design, NULL);
}

/* Does what the measure line does on Enter. */
static inline void
type_measure (CwDocument *document, const char *line)
{
  CwDesign *design = cw_document_get_design (document);
  CwPiece *piece = g_ptr_array_index (design->pieces, cw_document_get_piece (document));
  g_autoptr (GError) error = NULL;
  g_autoptr (GPtrArray) marks = cw_measure_line_parse (line, design, piece, cw_document_get_lie (document), &error);
  CwEdit *edit = NULL;

  g_assert_no_error (error);
  edit = cw_make_add_marks (design, piece->id, g_steal_pointer (&marks), TRUE, &error);
  g_assert_no_error (error);
  cw_document_do (document, "add marks", edit);
}
