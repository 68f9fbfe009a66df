/* cw-paper-part.h: the paper of a piece: which it is, and all that can be said of it.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <gtk/gtk.h>

#include "cw-document.h"

G_BEGIN_DECLS

#define CW_TYPE_PAPER_PART (cw_paper_part_get_type ())
G_DECLARE_FINAL_TYPE (CwPaperPart, cw_paper_part, CW, PAPER_PART, GtkBox)

void cw_paper_part_show (CwPaperPart *self, CwDocument *document, const char *piece_id); /* NULL: nothing */

G_END_DECLS
