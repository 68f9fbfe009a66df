/* cw-trial.h: what becomes of a design when a careful hand misses.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "check/cw-lever.h"

G_BEGIN_DECLS

/* How many levers are told. */
#define CW_TRIAL_LEVERS 3

/* The same analysis, with what a miss of the design's `hand` would turn wrong among its findings, and the measures at
 * which a miss shows most; the same one if the design names no hand or something is wrong with it. NULL when cancelled.
 */
CwAnalysis *cw_analysis_try_hand (CwAnalysis *analysis, GCancellable *cancellable);

gboolean cw_miss_is_in_loop (const CwMiss *miss, const CwAnalysis *analysis);

G_END_DECLS
