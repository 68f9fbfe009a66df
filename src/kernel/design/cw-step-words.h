/* cw-step-words.h: what a step is called when the maker has not named it.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "design/cw-design.h"

G_BEGIN_DECLS

char *cw_step_dup_title (const CwDesign *design, const CwStep *step);
char *cw_step_dup_mention (const CwDesign *design, const CwStep *step);

G_END_DECLS
