/* cw-step-form.h: the slip on which a step is changed: its name, what it folds and how far, who does it with what.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <gtk/gtk.h>

#include "cw-document.h"

G_BEGIN_DECLS

#define CW_TYPE_STEP_FORM (cw_step_form_get_type ())
G_DECLARE_FINAL_TYPE (CwStepForm, cw_step_form, CW, STEP_FORM, GtkBox)

void cw_step_form_set_document (CwStepForm *self, CwDocument *document);
void cw_step_form_set_choosing (CwStepForm *self, gboolean choosing); /* clicked marks go into the step */
void cw_step_form_rename (CwStepForm *self);                          /* puts the keys into the name */

G_END_DECLS
