/* cw-make-step.h: steps added, changed and told more about by hand.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "make/cw-make.h"

G_BEGIN_DECLS

CwEdit *cw_make_add_step (const CwDesign *design, CwDo what, guint at, GError **error);
CwEdit *cw_make_guide (const CwDesign *design, const char *piece_id, GError **error);
CwEdit *cw_make_change_step (const CwDesign *design, CwStep *step, GError **error);
CwEdit *cw_make_remove_step (const CwDesign *design, const char *step_id, GError **error);
CwEdit *cw_make_set_phase (const CwDesign *design, const char *step_id, CwPhase phase, GError **error);

/* What a step folds, cuts or scores, by "piece/mark". */
double cw_make_angle_before (const CwDesign *design, guint step, const char *address);
gboolean cw_make_step_has_mark (const CwStep *step, const char *address);
CwEdit *cw_make_toggle_mark (const CwDesign *design, const char *step_id, const char *address, GError **error);
CwEdit *cw_make_set_angle (const CwDesign *design, const char *step_id, const char *address, double to, GError **error);
CwEdit *cw_make_stop_step (const CwDesign *design, const char *step_id, double fraction, GError **error);
CwEdit *cw_make_toggle_zone (const CwDesign *design, const char *step_id, const char *zone_id, GError **error);

/* Keys of later pages that a step keeps: "minutes", "who", "tools", "wait", "caution". */
char *cw_step_dup_detail (const CwStep *step, const char *key);
void cw_step_set_detail (CwStep *copy, const char *key, const char *text);

G_END_DECLS
