/* cw-panel-map-private.h: how a map is made; of the panel room and its tests only.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "panel/cw-panel-map.h"
#include "panel/cw-sheet.h"

G_BEGIN_DECLS

guint *cw_panel_map_init (CwPanelMap *map, const CwSheet *sheet);
void cw_panel_map_clear (CwPanelMap *map);
guint *cw_panel_map_find_hinges (CwPanelMap *map, const CwSheet *sheet, const guint *panel_of_face,
                                 GPtrArray *findings);

G_END_DECLS
