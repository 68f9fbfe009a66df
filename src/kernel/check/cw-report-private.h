/* cw-report-private.h: what the files that make up the report share.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "check/cw-report.h"

G_BEGIN_DECLS

/* Numbers of the report are rounded to this many parts of one (tool page, "report JSON"). */
#define CW_REPORT_PARTS 1e9

static inline double
cw_report_rounded (double number)
{
  double r = isfinite (number) ? round (number * CW_REPORT_PARTS) / CW_REPORT_PARTS : 0;

  return fpclassify (r) == FP_ZERO ? 0 : r;
}

static inline double
cw_report_square_inches (double sq_ticks)
{
  return cw_report_rounded (sq_ticks / ((double) CW_TICKS_PER_INCH * CW_TICKS_PER_INCH));
}

double cw_report_inches (double ticks);
void cw_report_set (JsonObject *object, const char *key, double number);
JsonArray *cw_report_pair (double x, double y);
JsonArray *cw_report_strings (const GPtrArray *strings);
JsonArray *cw_report_corners (const CwPolygon *outline, const CwRigid *place);
JsonArray *cw_report_new_findings (const CwAnalysis *analysis, guint n_remedies);
JsonArray *cw_report_new_remedies (const CwAnalysis *analysis, const CwFinding *finding, guint most);
JsonArray *cw_report_new_bonds (const CwAnalysis *analysis);
JsonArray *cw_report_new_glue (const CwAnalysis *analysis);

G_END_DECLS
