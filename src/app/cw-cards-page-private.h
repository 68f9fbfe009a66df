/* cw-cards-page-private.h: what the files of the step cards page share.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "cw-cards-maker.h"
#include "cw-cards-page.h"
#include "cw-cards-view.h"
#include "cw-cards-words.h"
#include "cw-tools-panel.h"

G_BEGIN_DECLS

/* What is done once the design is analysed as it is. */
typedef enum
{
  CW_CARDS_NOTHING,
  CW_CARDS_PRINT,
  CW_CARDS_PRINT_TEMPLATES,
  CW_CARDS_SAVE,
  CW_CARDS_SAVE_WEB,
  CW_CARDS_SAVE_TEMPLATES,
  CW_CARDS_SAVE_SVG, /* templates too */
} CwCardsWait;

struct _CwCardsPage
{
  GtkBox parent_instance;

  /* Template */
  CwCardsView *view;
  CwToolsPanel *tools;
  GtkWidget *place, *zoom_label, *options_revealer, *show_choice, *sheet_choice, *large, *sixteenths;

  /* Owned */
  CwDocument *document;
  CwCardsMaker *maker;
  GSettings *settings; /* NULL when the schema is not installed */
  GSimpleActionGroup *actions;
  GtkWidget *words; /* CwCardsWords */
  GtkFileChooserNative *chooser;
  CwCardsWait waiting, choosing; /* choosing: what the file chooser is open for */
  GFile *wanted;                 /* where to save what is waited for */
  CwPageWordsKind asked;         /* whose words were asked for last */
  guint asked_step;
  gboolean inward, wants_focus;
};

/* Which of the choices of paper the maker has made; G_MAXUINT: by the card's own measures. */
CwPageFormat cw_cards_page_get_format (CwCardsPage *self);

/* what: one of those that save. */
void cw_cards_page_choose (CwCardsPage *self, CwCardsWait what);
/* Does it as soon as the design is analysed as it is. file: NULL: it is printed. */
void cw_cards_page_wait (CwCardsPage *self, CwCardsWait what, GFile *file);
/* There may be a new analysis: does what waits for it. */
void cw_cards_page_go_on (CwCardsPage *self);

G_END_DECLS
