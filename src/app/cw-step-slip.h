/* cw-step-slip.h: one step as a small card on the near edge of the table.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <gtk/gtk.h>

#include "check/cw-analysis.h"

G_BEGIN_DECLS

#define CW_TYPE_STEP_SLIP (cw_step_slip_get_type ())
G_DECLARE_FINAL_TYPE (CwStepSlip, cw_step_slip, CW, STEP_SLIP, GtkWidget)

/* Signals: "picked", "renamed" (new title), "removed", "moved" (int: by how many places), "dropped" (CwStepSlip: the
 * card let go on this one). Step -1 is the flat sheet before the first step: it is only ever picked. */
GtkWidget *cw_step_slip_new (int step);
int cw_step_slip_get_step (CwStepSlip *self);
void cw_step_slip_set_words (CwStepSlip *self, const char *number, const char *title, const char *kind);
void cw_step_slip_set_picture (CwStepSlip *self, CwAnalysis *analysis);
void cw_step_slip_set_current (CwStepSlip *self, gboolean current);
const char *cw_step_slip_get_title (CwStepSlip *self);

G_END_DECLS
