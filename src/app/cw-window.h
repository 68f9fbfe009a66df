/* cw-window.h: the one window: header bar, the table with the steps on its near edge, findings, start page.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <gtk/gtk.h>

#include "cw-document.h"

G_BEGIN_DECLS

#define CW_TYPE_WINDOW (cw_window_get_type ())
G_DECLARE_FINAL_TYPE (CwWindow, cw_window, CW, WINDOW, GtkApplicationWindow)

GtkWidget *cw_window_new (GtkApplication *application);
void cw_window_set_document (CwWindow *self, CwDocument *document); /* NULL: the start page */
CwDocument *cw_window_get_document (CwWindow *self);
/* Opens a file; asks first when the open design has changes that are not saved. */
void cw_window_offer_leftovers (CwWindow *self);
void cw_window_open (CwWindow *self, GFile *file);
/* One sentence in the message line; NULL takes it away. */
void cw_window_say (CwWindow *self, const char *sentence);

G_END_DECLS
