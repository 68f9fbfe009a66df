/* cw-grammage.h: what paper weighs, read from its weight as typed.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

gboolean cw_grammage_parse (const char *text, double *grams);

G_END_DECLS
