/* cw-remedy.h: what can be done about a finding, as edits with their numbers, and whether they really help.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "check/cw-analysis.h"
#include "design/cw-edit.h"

G_BEGIN_DECLS

typedef struct
{
  const char *words; /* msgid of a sentence in which {0}, {1}... stand for args; static */
  const char *name;  /* msgid of a phrase that can follow "Undo"; static */
  GPtrArray *args;   /* of strings */
  CwEdit *edit;      /* of the analysis's design */
  gboolean gives_up; /* takes something away, or changes what is wanted: offered after what does not */
  guint family;      /* remedies of one family differ by a number only: the first that helps is enough */
} CwRemedy;

void cw_remedy_free (CwRemedy *remedy);
char *cw_remedy_dup_text (const CwRemedy *remedy, gboolean translated);
char *cw_remedy_dup_name (const CwRemedy *remedy, gboolean translated);

/* Candidates, best first, not tried yet: cheap. */
GPtrArray *cw_remedies_new (const CwAnalysis *analysis, const CwFinding *finding);
/* Those that clear the finding and raise no other, best first, at most so many: costs an analysis a candidate. What was
 * found when cancelled. */
GPtrArray *cw_remedies_try (const CwAnalysis *analysis, const CwFinding *finding, guint most,
                            GCancellable *cancellable);
gboolean cw_remedy_helps (const CwAnalysis *before, const CwFinding *finding, const CwAnalysis *after);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (CwRemedy, cw_remedy_free)

G_END_DECLS
