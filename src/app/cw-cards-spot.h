/* cw-cards-spot.h: a paragraph of a printed page as a widget that draws nothing but what shows it can be changed.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <gtk/gtk.h>

#include "cw-page.h"

G_BEGIN_DECLS

#define CW_TYPE_CARDS_SPOT (cw_cards_spot_get_type ())
G_DECLARE_FINAL_TYPE (CwCardsSpot, cw_cards_spot, CW, CARDS_SPOT, GtkWidget)

/* Signals: "picked" (it is to be changed), "moved" (int: its step by how many places). */
GtkWidget *cw_cards_spot_new (const CwPageWords *words);
/* Says other words of the same kind; FALSE when a new spot has to be made. */
gboolean cw_cards_spot_follow (CwCardsSpot *self, const CwPageWords *words);
const CwPageWords *cw_cards_spot_get_words (CwCardsSpot *self);
gboolean cw_page_words_can_change (const CwPageWords *words);

G_END_DECLS
