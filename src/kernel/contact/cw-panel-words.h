/* cw-panel-words.h: what the maker calls a panel; of the contact and glue rooms only.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "panel/cw-panel-map.h"

G_BEGIN_DECLS

char *cw_panel_words (const CwPanelSet *set, guint panel);

G_END_DECLS
