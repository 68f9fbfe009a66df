/* cw-template.h: cutting and scoring templates at true size.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "check/cw-analysis.h"
#include "cw-page.h"

G_BEGIN_DECLS

/* All pieces, drawn side up, on pages; one larger than a page goes over several, to be joined. */
CwPages *cw_pages_new_template (const CwAnalysis *analysis, CwPageFormat format);
/* All pieces as one SVG in millimetres, with groups named for what a line means. */
char *cw_template_to_svg (const CwAnalysis *analysis);
gboolean cw_template_write_svg (const CwAnalysis *analysis, GFile *file, GError **error);

G_END_DECLS
