/* cw-step-strip.h: the steps as small cards along the near edge of the table, and the knobs that play them.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <gtk/gtk.h>

#include "cw-document.h"
#include "cw-player.h"

G_BEGIN_DECLS

#define CW_TYPE_STEP_STRIP (cw_step_strip_get_type ())
G_DECLARE_FINAL_TYPE (CwStepStrip, cw_step_strip, CW, STEP_STRIP, GtkBox)

void cw_step_strip_set_document (CwStepStrip *self, CwDocument *document); /* NULL: no steps */
gboolean cw_step_strip_add (CwStepStrip *self, const char *kind);          /* FALSE: it cannot be, which is told */
CwPlayer *cw_step_strip_get_player (CwStepStrip *self);                    /* borrowed */

G_END_DECLS
