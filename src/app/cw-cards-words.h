/* cw-cards-words.h: changes the words of a printed page in place.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <gtk/gtk.h>

#include "cw-document.h"
#include "cw-page.h"

G_BEGIN_DECLS

#define CW_TYPE_CARDS_WORDS (cw_cards_words_get_type ())
G_DECLARE_FINAL_TYPE (CwCardsWords, cw_cards_words, CW, CARDS_WORDS, GtkPopover)

GtkWidget *cw_cards_words_new (void);
/* Asks for the words of a step, or of the card; what is written is one edit of the document, done when it closes. */
void cw_cards_words_ask (CwCardsWords *self, CwDocument *document, const CwPageWords *words);

/* The edits themselves; NULL texts and "" mean none. */
CwEdit *cw_cards_words_edit_step (const CwDesign *design, guint step, const char *title, const char *caption);
CwEdit *cw_cards_words_edit_card (const CwDesign *design, const char *title, const char *author, const char *date,
                                  const char *notes);

G_END_DECLS
