/* cw-sets.h: which things hang together: sets of the numbers 0 .. n-1 that are only ever joined.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

guint *cw_sets_new (guint n);
guint cw_sets_find (guint *sets, guint i);
void cw_sets_join (guint *sets, guint a, guint b);

G_END_DECLS
