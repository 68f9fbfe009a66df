/* cw-table.h: the table: one surface with the flat sheet and the folded card on it.
 *
 * Talks to the CwDocument only. Its actions (prefix "table") are a GActionGroup that the window may insert into itself
 * too, so that menus and accelerators reach them:
 *
 *   tool (s) "select" "score" "cut" "window" "layer" "glue" "picture" "name"
 *   form (s) "straight" "arc" "panel" "box" "round" "corners": what the tool draws; next-form
 *   other-edge (boolean state): measures are read from the right and the bottom edge
 *   share (s) "both" "sheet" "card": which has the larger part; bigger (s) the same again shares evenly
 *   turn, turn-back, flip                        look (s) "front" "back" "inside" "table"
 *   zoom-in, zoom-out, zoom-fit                  piece (i): which piece lies on the table
 *   delete, nudge (ii): what is selected         swap-way, way (s), made (s): scores
 *   copy, cut, paste; mirror (s) and mirror-copy (s) "across" "down"; turn-marks (i) quarters; spread; repeat;
 *   align (s) and align-to (s) "left" "right" "top" "bottom" "middle-across" "middle-down": marks
 *   glue-kind (s): glue                          words, turn-art: pictures
 *   hold, rename, divide (ib), lay-piece (s) a rim such as "1/8 in", set-rim (s), remove-piece: the selected panel
 *   accept-offer, refuse-offer                   select-all, select-none, finish, cancel, menu
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <gtk/gtk.h>

#include "cw-document.h"

G_BEGIN_DECLS

#define CW_TYPE_TABLE (cw_table_get_type ())
G_DECLARE_FINAL_TYPE (CwTable, cw_table, CW, TABLE, GtkWidget)

GtkWidget *cw_table_new (void);
void cw_table_set_document (CwTable *self, CwDocument *document); /* NULL: nothing lies on the table */
CwDocument *cw_table_get_document (CwTable *self);

GActionGroup *cw_table_get_actions (CwTable *self);

G_END_DECLS
