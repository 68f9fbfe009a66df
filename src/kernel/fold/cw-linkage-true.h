/* cw-linkage-true.h: fold lines that rounding to ticks put out of true, laid as they were meant.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "fold/cw-linkage.h"

G_BEGIN_DECLS

gboolean cw_linkage_true_joints (const CwLinkage *linkage, CwJoint *joints);

G_END_DECLS
