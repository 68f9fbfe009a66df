/* cw-cards-page.h: the page of the window with the step cards as they will print.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <gtk/gtk.h>

#include "cw-document.h"

G_BEGIN_DECLS

#define CW_TYPE_CARDS_PAGE (cw_cards_page_get_type ())
G_DECLARE_FINAL_TYPE (CwCardsPage, cw_cards_page, CW, CARDS_PAGE, GtkBox)

void cw_cards_page_set_document (CwCardsPage *self, CwDocument *document);
void cw_cards_page_set_active (CwCardsPage *self, gboolean active); /* it is what the window shows */
void cw_cards_page_turn (CwCardsPage *self, int by);
void cw_cards_page_print (CwCardsPage *self);

G_END_DECLS
