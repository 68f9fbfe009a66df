/* cw-start-page.h: what the window shows before a design is open: new cards, samples, recent files.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <gtk/gtk.h>

#include "design/cw-design.h"

G_BEGIN_DECLS

#define CW_TYPE_START_PAGE (cw_start_page_get_type ())
G_DECLARE_FINAL_TYPE (CwStartPage, cw_start_page, CW, START_PAGE, GtkBox)

/* Signals: "make" (CwDesign pointer), "open" (GFile), "open-sample" (GFile): a sample is opened as a new card. */
void cw_start_page_set_metric (CwStartPage *self, gboolean metric);
void cw_start_page_refresh (CwStartPage *self); /* the recent files */
char *cw_start_page_dup_samples_folder (void);

G_END_DECLS
