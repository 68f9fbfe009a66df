/* cw-table-item.h: one thing on the table that draws nothing itself but can be reached: by Tab, by a screen reader, by
 * tests. Lies over the mark, panel or piece it stands for and never takes the pointer.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <gtk/gtk.h>

#include "cw-draw-list.h"

G_BEGIN_DECLS

#define CW_TYPE_TABLE_ITEM (cw_table_item_get_type ())
G_DECLARE_FINAL_TYPE (CwTableItem, cw_table_item, CW, TABLE_ITEM, GtkWidget)

GtkWidget *cw_table_item_new (CwId id, GtkAccessibleRole role, const char *label);
CwId cw_table_item_get_id (CwTableItem *self);
void cw_table_item_set_label (CwTableItem *self, const char *label, const char *description);
void cw_table_item_set_selected (CwTableItem *self, gboolean selected);

G_END_DECLS
