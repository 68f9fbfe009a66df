/* cw-page-html.h: a step card as one page for the web.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <gio/gio.h>

#include "text/cw-step-card.h"

G_BEGIN_DECLS

char *cw_step_card_to_html (const CwStepCard *card, GFile *folder, GError **error);
gboolean cw_step_card_write_html (const CwStepCard *card, GFile *folder, GFile *file, GError **error);

G_END_DECLS
