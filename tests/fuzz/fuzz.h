/* fuzz.h: what a fuzz target tells its driver.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <glib.h>

/* Tries one input, at most `size` bytes of which may be read. Returns whether it was accepted; aborts when a promise is
 * broken. */
gboolean cw_fuzz_one (const guint8 *data, gsize size);
