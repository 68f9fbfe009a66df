/* cw-readable.h: numbers as they are printed for a reader with a ruler.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "units/cw-length.h"

G_BEGIN_DECLS

/* "4 13/16 in"; with sixteenths "4 13/16 in (= 13 sixteenths past 4)". */
char *cw_length_dup_readable (CwLength length, gboolean sixteenths);
/* The same length in the other unit where that is just as true on a ruler, to 1/64 inch or 0.1 mm; NULL where it is
 * not. */
char *cw_length_dup_other_unit (CwLength length);
/* "10 in wide by 7 in high", with the other unit beside it where both are true. */
char *cw_size_dup_words (CwLength width, CwLength height);

G_END_DECLS
