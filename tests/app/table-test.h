/* table-test.h: a table on a shown window, driven as a hand would: gestures, keys' actions, items.
 *
 * Input comes as the gestures' own signals, since GTK has no public way to make events; real pointer events are in
 * test-pointer.py.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "cw-table-item.h"
#include "cw-table-private.h"
#include "design/cw-design-json.h"

#define IN CW_TICKS_PER_INCH

/* Two places: the marks and the steps. A macro, so that the compiler sees a literal format. */
#define EMPTY_TEXT                                                                                                     \
  "{\"format\":\"creasewright design\",\"version\":1,\"title\":\"Test\","                                              \
  "\"measure\":{\"unit\":\"in\",\"snap\":\"1/16 in\",\"hand\":\"1/32 in\",\"give\":\"1/32 in\"},"                      \
  "\"papers\":[{\"id\":\"card\",\"front\":\"#e8d9b8\",\"back\":\"#e8d9b8\"}],"                                         \
  "\"pieces\":[{\"id\":\"base\",\"name\":\"Card base\",\"paper\":\"card\",\"ground\":true,"                            \
  "\"outline\":[[\"0 in\",\"0 in\"],[\"10 in\",\"0 in\"],[\"10 in\",\"6 in\"],[\"0 in\",\"6 in\"]],\"marks\":[%s]}],"  \
  "\"glue\":[],\"steps\":[%s]}"

static const char *const spine_text
  = "{\"id\":\"spine\",\"kind\":\"score\",\"fold\":\"toward\",\"line\":[[\"5 in\",\"0 in\"],[\"5 in\",\"6 in\"]]},"
    "{\"id\":\"slit\",\"kind\":\"cut\",\"line\":[[\"7 in\",\"2 in\"],[\"8 in\",\"2 in\"]]}";
static const char *const close_text
  = "{\"id\":\"close\",\"do\":\"fold\",\"rest\":\"closed\",\"folds\":[{\"score\":\"base/spine\",\"to\":180}]},"
    "{\"id\":\"open\",\"do\":\"fold\",\"phase\":\"using\",\"rest\":\"open\",\"folds\":[{\"score\":\"base/"
    "spine\",\"to\":0}]}";

typedef struct
{
  GtkWidget *window;
  CwTable *table;
  CwDocument *document;
  char *said;
} Fixture;

static inline void
said (CwDocument *document, const char *sentence, Fixture *f)
{
  g_free (f->said);
  f->said = g_strdup (sentence);
}

static inline void
settle (Fixture *f)
{
  cw_document_analyse_now (f->document);
  while (g_main_context_iteration (NULL, FALSE))
    ;
  gtk_test_widget_wait_for_draw (GTK_WIDGET (f->table));
}

static inline void
set_up_text (Fixture *f, const char *text)
{
  GError *error = NULL;
  g_autoptr (CwDesign) design = cw_design_from_text (text, -1, "test", &error);

  g_assert_no_error (error);
  f->document = cw_document_new (design, NULL);
  g_signal_connect (f->document, "message", G_CALLBACK (said), f);
  f->window = gtk_window_new ();
  gtk_window_set_default_size (GTK_WINDOW (f->window), 1200, 800);
  f->table = CW_TABLE (cw_table_new ());
  gtk_window_set_child (GTK_WINDOW (f->window), GTK_WIDGET (f->table));
  cw_table_set_document (f->table, f->document);
  gtk_window_present (GTK_WINDOW (f->window));
  settle (f);
}

static inline void
set_up (Fixture *f, gconstpointer data)
{
  gboolean with_marks = data != NULL;
  g_autofree char *text = g_strdup_printf (EMPTY_TEXT, with_marks ? spine_text : "", with_marks ? close_text : "");

  set_up_text (f, text);
}

static inline void
tear_down (Fixture *f, gconstpointer data)
{
  gtk_window_destroy (GTK_WINDOW (f->window));
  /* A worker may hold the document until it is done. */
  g_object_add_weak_pointer (G_OBJECT (f->document), (gpointer *) &f->document);
  g_object_unref (f->document);
  for (int i = 0; f->document != NULL && i < 6000; i++)
    {
      while (g_main_context_iteration (NULL, FALSE))
        ;
      g_usleep (5000);
    }
  g_assert_null (f->document);
  g_free (f->said);
}

static inline GtkEventController *
controller (Fixture *f, const char *name)
{
  g_autoptr (GListModel) list = gtk_widget_observe_controllers (GTK_WIDGET (f->table));

  for (guint i = 0; i < g_list_model_get_n_items (list); i++)
    {
      g_autoptr (GtkEventController) c = g_list_model_get_item (list, i);

      if (g_strcmp0 (gtk_event_controller_get_name (c), name) == 0)
        return c; /* the widget keeps it */
    }
  g_assert_not_reached ();
}

static inline void
act_now (Fixture *f, const char *detailed)
{
  g_autofree char *name = NULL;
  g_autoptr (GVariant) target = NULL;

  g_assert_true (g_action_parse_detailed_name (detailed, &name, &target, NULL));
  g_action_group_activate_action (cw_table_get_actions (f->table), name, target);
}

/* As a maker who waits until the program has caught up. */
static inline void
act (Fixture *f, const char *detailed)
{
  cw_document_analyse_now (f->document);
  act_now (f, detailed);
}

static inline void
place (Fixture *f, double x_in, double y_in, double *x, double *y)
{
  cw_sheet_view_to_output (&f->table->view, cw_table_get_map (f->table), x_in * IN, y_in * IN, x, y);
}

static inline void
drag_now (Fixture *f, double x0, double y0, double x1, double y1)
{
  GtkEventController *hand = controller (f, "hand");

  g_signal_emit_by_name (hand, "drag-begin", x0, y0);
  for (int i = 1; i <= 4; i++)
    g_signal_emit_by_name (hand, "drag-update", (x1 - x0) * i / 4, (y1 - y0) * i / 4);
  g_signal_emit_by_name (hand, "drag-end", x1 - x0, y1 - y0);
}

static inline void
drag_pixels (Fixture *f, double x0, double y0, double x1, double y1)
{
  cw_document_analyse_now (f->document);
  drag_now (f, x0, y0, x1, y1);
}

static inline void
drag (Fixture *f, double x0, double y0, double x1, double y1)
{
  double a, b, c, d;

  place (f, x0, y0, &a, &b);
  place (f, x1, y1, &c, &d);
  drag_pixels (f, a, b, c, d);
}

static inline void
click (Fixture *f, double x_in, double y_in)
{
  double x, y;

  place (f, x_in, y_in, &x, &y);
  g_signal_emit_by_name (controller (f, "hover"), "motion", x, y);
  drag_pixels (f, x, y, x, y);
}

static inline GPtrArray *
marks (Fixture *f)
{
  return ((CwPiece *) g_ptr_array_index (cw_document_get_design (f->document)->pieces, 0))->marks;
}

static inline void
assert_vertex (const CwMark *mark, guint vertex, double x_in, double y_in)
{
  CwPoint p;

  g_assert_cmpuint (vertex, <, mark->line.n_vertices);
  p = cw_place_get_point (&mark->line.vertices[vertex].at);
  g_assert_cmpint (p.x, ==, (gint32) (x_in * IN));
  g_assert_cmpint (p.y, ==, (gint32) (y_in * IN));
}

/* FALSE when there is no display: the test program says so and ends. */
static inline gboolean
table_test_init (int *argc, char ***argv)
{
  gtk_disable_setlocale ();
  g_test_init (argc, argv, NULL);
  if (gtk_init_check ())
    return TRUE;
  g_print ("1..0 # SKIP no display\n");
  return FALSE;
}

#define TABLE_TEST(path, test, marks) g_test_add ("/app/" path, Fixture, marks, set_up, test, tear_down)
