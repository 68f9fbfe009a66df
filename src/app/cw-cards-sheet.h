/* cw-cards-sheet.h: one printed page on the screen.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "cw-cards-spot.h"

G_BEGIN_DECLS

#define CW_TYPE_CARDS_SHEET (cw_cards_sheet_get_type ())
G_DECLARE_FINAL_TYPE (CwCardsSheet, cw_cards_sheet, CW, CARDS_SHEET, GtkWidget)

/* Signals: "picked" (CwCardsSpot: its words are to be changed), "moved" (CwCardsSpot, int). */
GtkWidget *cw_cards_sheet_new (void);
void cw_cards_sheet_set_page (CwCardsSheet *self, CwPages *pages, guint page);
void cw_cards_sheet_set_zoom (CwCardsSheet *self, double zoom);      /* logical pixels to a point */
void cw_cards_sheet_set_near (CwCardsSheet *self, gboolean is_near); /* in sight, or soon */
gboolean cw_cards_sheet_is_drawn (CwCardsSheet *self); /* its picture is the one of its page, at its zoom */
CwCardsSpot *cw_cards_sheet_find (CwCardsSheet *self, CwPageWordsKind what, guint step); /* NULL if it is not here */

G_END_DECLS
