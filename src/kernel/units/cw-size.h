/* cw-size.h: sizes as text, such as "5 in x 7 in".
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "units/cw-length.h"

G_BEGIN_DECLS

gboolean cw_size_parse (const char *text, CwUnit bare_unit, CwLength *width, CwLength *height, GError **error);
char *cw_size_format (CwLength width, CwLength height);

G_END_DECLS
