/* cw-step-about.h: the part of a step's slip that says what the step is done to: marks it folds, cuts or scores, or
 * glue.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <gtk/gtk.h>

#include "cw-document.h"

G_BEGIN_DECLS

#define CW_TYPE_STEP_ABOUT (cw_step_about_get_type ())
G_DECLARE_FINAL_TYPE (CwStepAbout, cw_step_about, CW, STEP_ABOUT, GtkBox)

void cw_step_about_show (CwStepAbout *self, CwDocument *document, const CwStep *step); /* NULL: nothing */
void cw_step_about_set_choosing (CwStepAbout *self, gboolean choosing); /* clicked marks go into the step */

G_END_DECLS
