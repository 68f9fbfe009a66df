/* cw-cards-print.h: pages through the system's print dialog.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <gtk/gtk.h>

#include "cw-page.h"

G_BEGIN_DECLS

/* Ready to be run with a dialog or to a file: every page at true size on its own sheet. */
/* folder: where the dialog offers to print a file to; NULL: anywhere. */
GtkPrintOperation *cw_cards_print_new (CwPages *pages, GFile *folder);

G_END_DECLS
