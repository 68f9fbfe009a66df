/* cw-page-show.h: one step of a card laid out for a screen that many look at.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "cw-card-scene.h"
#include "cw-draw-list.h"
#include "text/cw-step-card.h"

G_BEGIN_DECLS

guint cw_show_get_n_steps (const CwStepCard *card);
const CwCardStep *cw_show_get_step (const CwStepCard *card, guint index);
/* The first step of the card that belongs to a step of the design, or comes after it. */
guint cw_show_find_step (const CwStepCard *card, guint design_step);
CwDrawList *cw_show_draw (const CwStepCard *card, CwCardScene *scene, guint index, double width, double height);
char *cw_show_dup_words (const CwStepCard *card, guint index);
char *cw_show_dup_time (const CwStepCard *card, guint index);

G_END_DECLS
