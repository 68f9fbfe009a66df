/* cw-analysis.h: everything the kernel finds out about one design, in one immutable value that may cross threads.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "glue/cw-bond.h"
#include "trim/cw-tools.h"

G_BEGIN_DECLS

typedef struct
{
  CwDesign *design;
  CwTools tools; /* of the maker; cw_tools_usual unless said */
  CwPanelSet *panels;
  CwBonds *bonds;
  CwMotion *motion;          /* with all bonds made */
  CwFlatStates *flat_states; /* of that motion */
  GPtrArray *findings;       /* of CwFinding, worst first */
  GPtrArray *levers;         /* of CwLever (cw-lever.h), what shows most first; NULL: misses were not tried */
  guint n_tried, n_ways;     /* how many misses were tried, of how many */
} CwAnalysis;

CwAnalysis *cw_analysis_new (CwDesign *design);
CwAnalysis *cw_analysis_new_cancellable (CwDesign *design, GCancellable *cancellable); /* NULL when cancelled */
CwAnalysis *cw_analysis_new_for_tools (CwDesign *design, const CwTools *tools, GCancellable *cancellable);
/* The same with more findings, which are copied, and levers: for cw_analysis_try_hand(). */
CwAnalysis *cw_analysis_new_tried (const CwAnalysis *analysis, GPtrArray *more, GPtrArray *levers, guint n_tried,
                                   guint n_ways);
CwAnalysis *cw_analysis_ref (CwAnalysis *analysis);
void cw_analysis_unref (CwAnalysis *analysis);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (CwAnalysis, cw_analysis_unref)

typedef enum
{
  CW_VERDICT_CLEAR,
  CW_VERDICT_NOTES,
  CW_VERDICT_WARNINGS,
  CW_VERDICT_ERRORS
} CwVerdict;
CwVerdict cw_analysis_get_verdict (const CwAnalysis *analysis);

/* Puts the maker's names in the place of ids; once, before the words are told. */
void cw_finding_name_arguments (CwFinding *finding, const CwDesign *design);
char *cw_words_fill (const char *words, const GPtrArray *args, gboolean translated);
/* Words of a finding: in English when translated is FALSE (the report), else in the user's language. */
char *cw_finding_dup_text (const CwFinding *finding, gboolean translated);
char *cw_finding_dup_remedy (const CwFinding *finding, gboolean translated); /* NULL if none */

G_END_DECLS
