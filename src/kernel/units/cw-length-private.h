/* cw-length-private.h: what cw-size.c shares with cw-length.c.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "units/cw-length.h"

G_BEGIN_DECLS

const char *cw_length_skip_spaces (const char *p);
gboolean cw_length_check_text (const char *text, gsize longest, GError **error);
gboolean cw_length_fail_rest (const char *text, const char *rest, GError **error);

G_END_DECLS
