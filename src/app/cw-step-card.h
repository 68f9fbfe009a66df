/* cw-step-card.h: one step as a small card on the near edge of the table.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <gtk/gtk.h>

#include "check/cw-analysis.h"

G_BEGIN_DECLS

#define CW_TYPE_STEP_CARD (cw_step_card_get_type ())
G_DECLARE_FINAL_TYPE (CwStepCard, cw_step_card, CW, STEP_CARD, GtkWidget)

/* Signals: "picked", "renamed" (new title), "removed", "moved" (int: by how many places), "dropped" (CwStepCard: the
 * card let go on this one). Step -1 is the flat sheet before the first step: it is only ever picked. */
GtkWidget *cw_step_card_new (int step);
int cw_step_card_get_step (CwStepCard *self);
void cw_step_card_set_words (CwStepCard *self, const char *number, const char *title, const char *kind);
void cw_step_card_set_picture (CwStepCard *self, CwAnalysis *analysis);
void cw_step_card_set_current (CwStepCard *self, gboolean current);
const char *cw_step_card_get_title (CwStepCard *self);

G_END_DECLS
