/* cw-measure-entry.h: the measure line: a mark typed as a maker would write it, seen before it is made.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <gtk/gtk.h>

#include "cw-document.h"

G_BEGIN_DECLS

#define CW_TYPE_MEASURE_ENTRY (cw_measure_entry_get_type ())
G_DECLARE_FINAL_TYPE (CwMeasureEntry, cw_measure_entry, CW, MEASURE_ENTRY, GtkBox)

void cw_measure_entry_set_document (CwMeasureEntry *self, CwDocument *document);

/* Puts a widget beside the entry, above the line that says what is understood. */
void cw_measure_entry_begin (CwMeasureEntry *self, const char *text); /* takes the focus with this typed already */
void cw_measure_entry_add_beside (CwMeasureEntry *self, GtkWidget *widget);

G_END_DECLS
