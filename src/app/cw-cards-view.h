/* cw-cards-view.h: printed pages lying one below the other, to be scrolled and zoomed.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "cw-cards-sheet.h"

G_BEGIN_DECLS

#define CW_TYPE_CARDS_VIEW (cw_cards_view_get_type ())
G_DECLARE_FINAL_TYPE (CwCardsView, cw_cards_view, CW, CARDS_VIEW, GtkBox)

/* Signals: "picked" (CwCardsSpot), "moved" (CwCardsSpot, int), "turned": another page or zoom is shown. */
void cw_cards_view_set_pages (CwCardsView *self, CwPages *pages); /* NULL: none */
CwPages *cw_cards_view_get_pages (CwCardsView *self);

typedef enum
{
  CW_CARDS_ZOOM_WIDTH, /* as wide as there is room, at most true size */
  CW_CARDS_ZOOM_PAGE,  /* a whole page in sight */
  CW_CARDS_ZOOM_FIXED,
} CwCardsZoom;
void cw_cards_view_set_zoom (CwCardsView *self, CwCardsZoom how, double factor); /* factor: FIXED; 1: true size */
double cw_cards_view_get_zoom (CwCardsView *self);                               /* 1: true size */
CwCardsZoom cw_cards_view_get_zoom_kind (CwCardsView *self);
void cw_cards_view_zoom_by (CwCardsView *self, int steps);

guint cw_cards_view_get_page (CwCardsView *self); /* the one in sight, from 0 */
void cw_cards_view_turn (CwCardsView *self, int by);
void cw_cards_view_focus (CwCardsView *self, CwPageWordsKind what, guint step);
gboolean cw_cards_view_is_drawn (CwCardsView *self); /* all that is in sight */
CwCardsSheet *cw_cards_view_get_sheet (CwCardsView *self, guint page);

G_END_DECLS
