/* bench-table.c: what a frame of the table costs: a card of 60 panels folding, and a mark of its sheet being moved.
 *
 * Measured in a real window of 1200 x 800 with a header bar, from the start of a frame to the end of its painting (a
 * bare window measures the shared-memory pool and not the drawing). Prints the median and the 95th of 100; nothing is
 * asserted, since the machine decides.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "bench-accordion.h"
#include "cw-table-private.h"
#include "design/cw-design-json.h"

#define N_PANELS 60
#define N_FRAMES 150
#define N_COUNTED 100

typedef struct
{
  CwTable *table;
  CwDocument *document;
  GtkEventController *hand;
  gint64 begun, times[N_FRAMES];
  guint n;
  gboolean dragging;
  double x, y;
} Bench;

static void
frame_begins (GdkFrameClock *clock, Bench *bench)
{
  bench->begun = g_get_monotonic_time ();
}

static void
frame_ends (GdkFrameClock *clock, Bench *bench)
{
  if (bench->begun != 0 && bench->n < N_FRAMES)
    bench->times[bench->n++] = g_get_monotonic_time () - bench->begun;
}

static gboolean
tick (GtkWidget *widget, GdkFrameClock *clock, gpointer data)
{
  Bench *bench = data;

  if (bench->dragging)
    g_signal_emit_by_name (bench->hand, "drag-update", bench->n % 60 * 1.0, 3.0);
  else
    cw_document_set_moment (bench->document, 0, bench->n % N_FRAMES / (double) N_FRAMES);
  return G_SOURCE_CONTINUE;
}

static int
compare (const void *a, const void *b)
{
  gint64 x = *(const gint64 *) a, y = *(const gint64 *) b;

  return x < y ? -1 : x > y;
}

static void
run (Bench *bench, const char *what)
{
  guint id;

  bench->n = 0;
  id = gtk_widget_add_tick_callback (GTK_WIDGET (bench->table), tick, bench, NULL);
  while (bench->n < N_FRAMES)
    g_main_context_iteration (NULL, TRUE);
  gtk_widget_remove_tick_callback (GTK_WIDGET (bench->table), id);
  qsort (bench->times + (N_FRAMES - N_COUNTED), N_COUNTED, sizeof (gint64), compare);
  g_print ("%-46s median %5.1f ms, 95th %5.1f ms\n", what,
           (double) bench->times[N_FRAMES - N_COUNTED + N_COUNTED / 2] / 1000,
           (double) bench->times[N_FRAMES - N_COUNTED + N_COUNTED * 95 / 100] / 1000);
}

int
main (void)
{
  Bench bench = { 0 };
  g_autofree char *text = NULL;
  g_autoptr (CwDesign) design = NULL;
  g_autoptr (GListModel) controllers = NULL;
  GtkWidget *window;
  GdkFrameClock *clock;

  if (!gtk_init_check ())
    {
      g_print ("no display: nothing measured\n");
      return 0;
    }
  text = bench_accordion (N_PANELS, CW_TICKS_PER_INCH / 2, 9 * CW_TICKS_PER_INCH);
  design = cw_design_from_text (text, -1, "bench", NULL);
  g_assert_nonnull (design);
  bench.document = cw_document_new (design, NULL);
  window = gtk_window_new ();
  gtk_window_set_titlebar (GTK_WINDOW (window), gtk_header_bar_new ());
  gtk_window_set_default_size (GTK_WINDOW (window), 1200, 800);
  bench.table = CW_TABLE (cw_table_new ());
  gtk_window_set_child (GTK_WINDOW (window), GTK_WIDGET (bench.table));
  cw_table_set_document (bench.table, bench.document);
  cw_document_analyse_now (bench.document);
  gtk_window_present (GTK_WINDOW (window));
  gtk_test_widget_wait_for_draw (GTK_WIDGET (bench.table));
  clock = gtk_widget_get_frame_clock (GTK_WIDGET (bench.table));
  g_signal_connect (clock, "before-paint", G_CALLBACK (frame_begins), &bench);
  g_signal_connect (clock, "after-paint", G_CALLBACK (frame_ends), &bench);

  run (&bench, "card of 60 panels folding");

  controllers = gtk_widget_observe_controllers (GTK_WIDGET (bench.table));
  for (guint i = 0; i < g_list_model_get_n_items (controllers); i++)
    {
      g_autoptr (GtkEventController) c = g_list_model_get_item (controllers, i);

      if (g_strcmp0 (gtk_event_controller_get_name (c), "hand") == 0)
        bench.hand = c;
    }
  cw_sheet_view_to_output (&bench.table->view, cw_table_get_map (bench.table), 15 * CW_TICKS_PER_INCH,
                           3 * CW_TICKS_PER_INCH, &bench.x, &bench.y);
  g_signal_emit_by_name (bench.hand, "drag-begin", bench.x, bench.y);
  bench.dragging = TRUE;
  run (&bench, "one mark of its sheet moving under the hand");
  g_signal_emit_by_name (bench.hand, "drag-end", 0.0, 0.0);
  gtk_window_destroy (GTK_WINDOW (window));
  g_object_unref (bench.document);
  return 0;
}
