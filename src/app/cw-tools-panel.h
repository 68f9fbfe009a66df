/* cw-tools-panel.h: the maker's tools as fields.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <gtk/gtk.h>

#include "trim/cw-tools.h"

G_BEGIN_DECLS

#define CW_TYPE_TOOLS_PANEL (cw_tools_panel_get_type ())
G_DECLARE_FINAL_TYPE (CwToolsPanel, cw_tools_panel, CW, TOOLS_PANEL, GtkBox)

/* A drop-down's button has no name of its own in GTK 4.8: gives it one, with what is chosen, and keeps it true. */
void cw_drop_down_set_name (GtkDropDown *drop_down, const char *name);

/* Signal "changed": by the maker. */
void cw_tools_panel_set_tools (CwToolsPanel *self, const CwTools *tools);
const CwTools *cw_tools_panel_get_tools (CwToolsPanel *self);

G_END_DECLS
