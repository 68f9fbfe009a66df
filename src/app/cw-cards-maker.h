/* cw-cards-maker.h: makes the printed pages of a document, again and again, away from the window.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "cw-document.h"
#include "cw-page.h"

G_BEGIN_DECLS

#define CW_TYPE_CARDS_MAKER (cw_cards_maker_get_type ())
G_DECLARE_FINAL_TYPE (CwCardsMaker, cw_cards_maker, CW, CARDS_MAKER, GObject)

/* Signal "made": there are new pages. */
CwCardsMaker *cw_cards_maker_new (void);
void cw_cards_maker_set_document (CwCardsMaker *self, CwDocument *document);
/* templates: in place of the step cards. */
void cw_cards_maker_set_style (CwCardsMaker *self, const CwPageStyle *style, gboolean sixteenths, gboolean templates);
/* Nobody looks at the pages while it is not active: then none are made. */
void cw_cards_maker_set_active (CwCardsMaker *self, gboolean active);
/* What the pages say: today's date unless the design names one. On any thread. */
CwStepCard *cw_cards_maker_new_card (CwAnalysis *analysis, gboolean sixteenths);
CwPages *cw_cards_maker_get_pages (CwCardsMaker *self);  /* borrowed; the newest, NULL before the first */
gboolean cw_cards_maker_is_current (CwCardsMaker *self); /* they show the design as it now is */

G_END_DECLS
