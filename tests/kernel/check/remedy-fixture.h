/* remedy-fixture.h: holds remedies to what they promise, by other means than those that chose them: findings are
 * counted by code, and undoing must give the same bytes.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "check/cw-remedy.h"
#include "design/cw-design-json.h"

/* How many findings of a code there are. */
static inline guint
remedy_count (const CwAnalysis *analysis, CwFindingCode code, guint would_be)
{
  guint n = 0;

  for (guint i = 0; i < analysis->findings->len; i++)
    {
      const CwFinding *finding = analysis->findings->pdata[i];

      n += finding->code == code && (finding->has_would_be ? finding->would_be : CW_FINDING_N_CODES) == would_be;
    }
  return n;
}

static inline void
remedy_hold_one (const CwAnalysis *before, const CwFinding *finding, const CwRemedy *remedy)
{
  g_autofree char *old_text = cw_design_to_text (before->design, NULL), *back_text = NULL, *new_text = NULL;
  g_autofree char *words = cw_remedy_dup_text (remedy, FALSE), *name = cw_remedy_dup_name (remedy, FALSE);
  g_autoptr (CwDesign) mended = cw_edit_apply (remedy->edit, before->design);
  g_autoptr (CwEdit) inverse = cw_edit_invert (remedy->edit);
  g_autoptr (CwDesign) back = cw_edit_apply (inverse, mended), again = NULL;
  g_autoptr (CwAnalysis) after = NULL;
  g_autoptr (GError) error = NULL;
  guint would_be = finding->has_would_be ? finding->would_be : CW_FINDING_N_CODES;

  g_test_message ("%s: %s", cw_finding_code_get_key (finding->code), words);
  g_assert_null (strstr (words, "{"));
  g_assert_true (g_str_has_suffix (words, "."));
  g_assert_true (g_ascii_islower (name[0]) && !g_str_has_suffix (name, "."));

  /* A file that can be written and read, undone to the same bytes. */
  new_text = cw_design_to_text (mended, NULL);
  g_assert_cmpstr (new_text, !=, old_text);
  again = cw_design_from_text (new_text, -1, "mended", &error);
  g_assert_no_error (error);
  back_text = cw_design_to_text (back, NULL);
  g_assert_cmpstr (back_text, ==, old_text);

  after = cw_analysis_new (again);
  g_assert_cmpuint (remedy_count (after, finding->code, would_be), <, remedy_count (before, finding->code, would_be));
  for (guint i = 0; i < after->findings->len; i++)
    {
      const CwFinding *now = after->findings->pdata[i];
      guint of = now->has_would_be ? now->would_be : CW_FINDING_N_CODES;
      g_autofree char *said = cw_finding_dup_text (now, FALSE);

      if (now->severity == CW_SEVERITY_NOTE && finding->severity != CW_SEVERITY_NOTE)
        continue;
      if (remedy_count (after, now->code, of) > remedy_count (before, now->code, of))
        g_error ("%s raises: %s", words, said);
    }
}

/* Tries to mend the finding, checks all remedies; how many there are. */
static inline guint
remedy_hold (const CwAnalysis *analysis, const CwFinding *finding)
{
  g_autoptr (GPtrArray) remedies = cw_remedies_try (analysis, finding, 3, NULL);

  for (guint i = 0; i < remedies->len; i++)
    remedy_hold_one (analysis, finding, remedies->pdata[i]);
  return remedies->len;
}

static inline const CwFinding *
remedy_find (const CwAnalysis *analysis, CwFindingCode code)
{
  for (guint i = 0; i < analysis->findings->len; i++)
    if (((const CwFinding *) analysis->findings->pdata[i])->code == code)
      return analysis->findings->pdata[i];
  return NULL;
}
