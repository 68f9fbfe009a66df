/* cw-want-slip.h: the slip on which the maker says what the finished card is to be: its size, its envelope, what must
 * and must not show.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <gtk/gtk.h>

#include "cw-document.h"

G_BEGIN_DECLS

#define CW_TYPE_WANT_SLIP (cw_want_slip_get_type ())
G_DECLARE_FINAL_TYPE (CwWantSlip, cw_want_slip, CW, WANT_SLIP, GtkBox)

void cw_want_slip_set_document (CwWantSlip *self, CwDocument *document);

G_END_DECLS
