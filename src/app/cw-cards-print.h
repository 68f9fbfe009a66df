/* cw-cards-print.h: pages through the system's print dialog.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <gtk/gtk.h>

#include "cw-page.h"

G_BEGIN_DECLS

/* Ready to be run with a dialog or to a file: every page at true size on its own sheet. */
GtkPrintOperation *cw_cards_print_new (CwPages *pages);

G_END_DECLS
