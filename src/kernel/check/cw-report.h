/* cw-report.h: an analysis as the report JSON that checks outside the project read.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "check/cw-analysis.h"

G_BEGIN_DECLS

char *cw_report_to_text (const CwAnalysis *analysis);
/* The same with at most so many remedies a finding, tried and with what they change: costs an analysis a candidate. */
char *cw_report_to_text_with_remedies (const CwAnalysis *analysis, guint most);
char *cw_findings_to_text (const CwAnalysis *analysis, const char *file);

G_END_DECLS
