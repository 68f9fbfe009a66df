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

/* Fold lines from this length on, in ticks, and papers from this weight on, in g/m2, are told when they run across the
 * grain: the trade scores and minds the grain of cover stock. */
#define CW_HOUSE_GRAIN_LENGTH (4 * CW_TICKS_PER_INCH)
#define CW_HOUSE_GRAIN_GRAMS 200

/* What is folded into a fold ends so far from it for every fold round it: between 1/32 and 1/8 inch in print, in common
 * 1/16 (a letter fold of 11 in is 3 11/16, 3 11/16 and 3 5/8). */
#define CW_HOUSE_TUCK (CW_TICKS_PER_INCH / 16)

/* A hidden layer need not be hidden by more than this (kernel page, "What shows"). */
#define CW_HOUSE_MARGIN_MOST (CW_TICKS_PER_INCH / 4)

/* Art tilted by up to this many degrees is meant so; up to its supplement it lies sideways, else upside down. */
#define CW_HOUSE_TILT 50

/* How far glue creeps when it is pressed: wet glue this far, any other kind not at all (tool page, "Safe areas"). */
#define CW_HOUSE_CREEP_WET (CW_TICKS_PER_INCH / 8)

/* Paper narrower than this between the guide and the blade cannot be held under the rail of a trimmer. */
#define CW_HOUSE_HOLD (CW_TICKS_PER_INCH / 2)

/* How far the rule of a common trimmer reaches from its blade. */
#define CW_HOUSE_REACH (12 * CW_TICKS_PER_INCH)

/* Distance of the grooves of a common scoring board. */
#define CW_HOUSE_GROOVE (CW_TICKS_PER_INCH / 8)

/* Two measures of the same whole inches this far apart are easily confused (tool page, "Finding codes"). */
#define CW_HOUSE_LOOK_ALIKE (CW_TICKS_PER_INCH / 4)

/* Room for a card in an envelope asked for anew, in each direction: a trade rule printed with envelopes (an insert is
 * 1/4 inch smaller than its envelope both ways). */
#define CW_HOUSE_ENVELOPE_ROOM (CW_TICKS_PER_INCH / 4)

/* The least room with which a card is sold together with its envelope: 1/8 inch one way, 1/4 the other, for the
 * commonest pair (4 1/4 by 5 1/2 inch in 4 3/8 by 5 3/4). */
#define CW_HOUSE_ENVELOPE_ROOM_LEAST (CW_TICKS_PER_INCH / 8)
