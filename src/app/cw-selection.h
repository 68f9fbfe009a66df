/* cw-selection.h: what the maker has chosen, and how it follows its things through edits.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "check/cw-analysis.h"
#include "cw-draw-list.h"

G_BEGIN_DECLS

typedef struct CwSelection CwSelection;

CwSelection *cw_selection_new (void);
void cw_selection_free (CwSelection *selection);

/* analysis may be NULL. TRUE if the selection is another one now. */
gboolean cw_selection_set (CwSelection *selection, const CwDesign *design, const CwAnalysis *analysis, const CwId *ids,
                           guint n_ids);
void cw_selection_toggle (CwSelection *selection, const CwDesign *design, const CwAnalysis *analysis, CwId id);
const CwId *cw_selection_get (CwSelection *selection, guint *n_ids);

/* After an edit, and after the analysis of it: finds everything again. TRUE if something went or got another number. */
gboolean cw_selection_follow_design (CwSelection *selection, const CwDesign *design);
gboolean cw_selection_follow_analysis (CwSelection *selection, const CwAnalysis *analysis);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (CwSelection, cw_selection_free)

G_END_DECLS
