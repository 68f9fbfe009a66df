/* cw-piece-slip.h: the slip on which the piece on the table is named, sized and given its paper, and others are added.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <gtk/gtk.h>

#include "cw-document.h"

G_BEGIN_DECLS

#define CW_TYPE_PIECE_SLIP (cw_piece_slip_get_type ())
G_DECLARE_FINAL_TYPE (CwPieceSlip, cw_piece_slip, CW, PIECE_SLIP, GtkBox)

void cw_piece_slip_set_document (CwPieceSlip *self, CwDocument *document);

G_END_DECLS
