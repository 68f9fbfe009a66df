/* cw-preferences.h: what the maker has chosen once for all cards.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <gio/gio.h>

#include "cw-page.h"
#include "trim/cw-tools.h"

G_BEGIN_DECLS

GSettings *cw_preferences_new (void); /* NULL when the schema is not installed: then nothing is remembered */

/* settings may be NULL: what is usual is read, nothing is written. */
void cw_preferences_read_tools (GSettings *settings, CwTools *tools);
void cw_preferences_write_tools (GSettings *settings, const CwTools *tools);
/* unit: of the card; "auto" takes letter for inches and A4 for metric ones. */
CwPageFormat cw_preferences_read_format (GSettings *settings, CwUnit unit);

G_END_DECLS
