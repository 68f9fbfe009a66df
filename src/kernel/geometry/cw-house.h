/* cw-house.h: our own house values: what is not in any standard and a maker may see differently.
 *
 * Common practice, no source, unless said. In ticks unless said.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "units/cw-length.h"

/* Narrower panels and bridges of paper are hard to cut and fold by hand and tear. */
#define CW_HOUSE_THIN_STRIP (CW_TICKS_PER_INCH / 4)

/* Thicker cards are hard to post and do not stay shut. */
#define CW_HOUSE_TOO_THICK (CW_TICKS_PER_INCH / 4)
