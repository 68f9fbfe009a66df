/* cw-finding-order.h: the order in which findings are told, and one finding for each fault.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "check/cw-analysis.h"

G_BEGIN_DECLS

gboolean cw_finding_strings_equal (const GPtrArray *a, const GPtrArray *b);
void cw_findings_add (GPtrArray *all, const CwDesign *design, const GPtrArray *more);
void cw_findings_sort (GPtrArray *findings, const CwDesign *design);
void cw_findings_merge (GPtrArray *findings);

G_END_DECLS
