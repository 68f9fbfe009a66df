/* cw-about.h: measured quantities as a maker reads them: near enough to mark, never more digits than a hand can use.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "units/cw-length.h"

G_BEGIN_DECLS

char *cw_about_length (double ticks, CwUnit unit);
char *cw_about_next_mark (double ticks, CwUnit unit, gint32 snap);
char *cw_about_area (double sq_ticks, CwUnit unit);
char *cw_about_degrees (double degrees);

G_END_DECLS
