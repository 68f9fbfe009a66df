/* cw-mark-bar.h: the selected mark in numbers: where it is, which way it folds, changed in place.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <gtk/gtk.h>

#include "cw-document.h"

G_BEGIN_DECLS

#define CW_TYPE_MARK_BAR (cw_mark_bar_get_type ())
G_DECLARE_FINAL_TYPE (CwMarkBar, cw_mark_bar, CW, MARK_BAR, GtkBox)

void cw_mark_bar_set_document (CwMarkBar *self, CwDocument *document);

G_END_DECLS
