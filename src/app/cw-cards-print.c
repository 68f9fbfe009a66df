/* cw-cards-print.c: pages through the system's print dialog.
 *
 * Pages hold true measures, so nothing between them and the paper may scale or shift them: the page setup is theirs,
 * the whole sheet is drawn on, the unit is the point and the scale 100 %. Paper names are those of PWG 5101.1-2013
 * (media standardized names); half letter is its na_invoice.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "cw-cards-print.h"

#include <glib/gi18n-lib.h>
#include <math.h>

/* Sizes are equal within this, points. */
#define SAME_SIZE 1.0

static GtkPaperSize *
find_paper (double width, double height)
{
  static const char *const names[] = { "na_letter", "iso_a4", "na_invoice", "iso_a5" };

  for (guint i = 0; i < G_N_ELEMENTS (names); i++)
    {
      g_autoptr (GtkPaperSize) paper = gtk_paper_size_new (names[i]);

      if (fabs (gtk_paper_size_get_width (paper, GTK_UNIT_POINTS) - width) < SAME_SIZE
          && fabs (gtk_paper_size_get_height (paper, GTK_UNIT_POINTS) - height) < SAME_SIZE)
        return g_steal_pointer (&paper);
    }
  return gtk_paper_size_new_custom ("creasewright-page", _ ("Page"), width, height, GTK_UNIT_POINTS);
}

static GtkPageSetup *
new_setup (const CwPages *pages)
{
  GtkPageSetup *setup = gtk_page_setup_new ();
  g_autoptr (GtkPaperSize) paper = find_paper (pages->width, pages->height);

  gtk_page_setup_set_paper_size (setup, paper);
  return setup;
}

static void
draw_page (GtkPrintOperation *operation, GtkPrintContext *context, int page, CwPages *pages)
{
  cw_pages_draw (pages, (guint) page, gtk_print_context_get_cairo_context (context));
}

/**
 * cw_cards_print_new:
 * @pages: what to print; referenced
 * @folder: (nullable): where the dialog offers to print a file to
 *
 * Returns: (transfer full): the operation, to be run
 */
GtkPrintOperation *
cw_cards_print_new (CwPages *pages, GFile *folder)
{
  GtkPrintOperation *operation = NULL;
  g_autoptr (GtkPageSetup) setup = NULL;
  g_autoptr (GtkPrintSettings) settings = NULL;
  g_autofree char *name = NULL, *path = folder != NULL ? g_file_get_path (folder) : NULL;

  g_return_val_if_fail (pages != NULL && pages->lists->len > 0, NULL);

  operation = gtk_print_operation_new ();
  setup = new_setup (pages);
  settings = gtk_print_settings_new ();
  name = g_strdup (pages->title);
  g_strdelimit (name, "/\\:*?\"<>|\n\t", ' ');
  gtk_print_settings_set_scale (settings, 100);
  gtk_print_settings_set_paper_size (settings, gtk_page_setup_get_paper_size (setup));
  gtk_print_settings_set_orientation (settings, GTK_PAGE_ORIENTATION_PORTRAIT);
  gtk_print_settings_set (settings, GTK_PRINT_SETTINGS_OUTPUT_BASENAME, name);
  gtk_print_settings_set (settings, GTK_PRINT_SETTINGS_OUTPUT_FILE_FORMAT, "pdf");
  if (path != NULL)
    gtk_print_settings_set (settings, GTK_PRINT_SETTINGS_OUTPUT_DIR, path);
  gtk_print_operation_set_default_page_setup (operation, setup);
  gtk_print_operation_set_print_settings (operation, settings);
  gtk_print_operation_set_use_full_page (operation, TRUE);
  gtk_print_operation_set_unit (operation, GTK_UNIT_POINTS);
  gtk_print_operation_set_embed_page_setup (operation, FALSE);
  gtk_print_operation_set_n_pages (operation, (int) pages->lists->len);
  gtk_print_operation_set_job_name (operation, pages->title);
  gtk_print_operation_set_allow_async (operation, TRUE);
  g_signal_connect_data (operation, "draw-page", G_CALLBACK (draw_page), cw_pages_ref (pages),
                         (GClosureNotify) (void (*) (void)) cw_pages_unref, 0);
  return operation;
}
