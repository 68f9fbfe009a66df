/* glue-fixture.h: bonds of designs written as text, asked by words.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "card-fixture.h"
#include "check/cw-analysis.h"
#include "glue/cw-bond.h"

#define SQ_INCH ((double) CW_TICKS_PER_INCH * CW_TICKS_PER_INCH)

static inline CwAnalysis *
glue_analysis (const char *text)
{
  g_autoptr (CwDesign) design = card_design (text);

  return cw_analysis_new (design);
}

static inline guint
glue_zone (const CwAnalysis *analysis, const char *id)
{
  for (guint i = 0; i < analysis->design->glue->len; i++)
    if (g_str_equal (((const CwGlue *) g_ptr_array_index (analysis->design->glue, i))->id, id))
      return i;
  g_assert_not_reached ();
}

/* Square inches that a zone holds, or strays, over all. */
static inline double
glue_area (const CwAnalysis *analysis, const char *zone, gboolean intended)
{
  return (double) cw_bonds_get_area2 (analysis->bonds, glue_zone (analysis, zone), intended) / 2 / SQ_INCH;
}

/* The area that one zone newly sticks to one panel by in one step; the sign is minus where it strays; 0: no bond. */
static inline double
glue_row (const CwAnalysis *analysis, const char *step, const char *zone, const char *piece, double x, double y)
{
  const GArray *rows = cw_bonds_get_rows (analysis->bonds);
  guint other = card_panel (analysis->motion, piece, x, y), which = cw_design_find_step (analysis->design, step);
  double area = 0;

  for (guint i = 0; i < rows->len; i++)
    {
      const CwGlued *row = &g_array_index (rows, CwGlued, i);

      if (row->zone == glue_zone (analysis, zone) && row->step == which && row->other == other)
        area += (row->intended ? 1 : -1) * (double) row->area2 / 2 / SQ_INCH;
    }
  return area;
}

static inline const CwFinding *
glue_finding (const CwAnalysis *analysis, CwFindingCode code)
{
  for (guint i = 0; i < analysis->findings->len; i++)
    if (((const CwFinding *) g_ptr_array_index (analysis->findings, i))->code == code)
      return g_ptr_array_index (analysis->findings, i);
  return NULL;
}

/* Codes of all findings, in order, as words. */
static inline char *
glue_codes (const CwAnalysis *analysis)
{
  GString *words = g_string_new (NULL);

  for (guint i = 0; i < analysis->findings->len; i++)
    g_string_append_printf (words, "%s%s", i > 0 ? " " : "",
                            cw_finding_code_get_key (((const CwFinding *) analysis->findings->pdata[i])->code));
  return g_string_free (words, FALSE);
}

#define glue_assert_codes(analysis, wanted)                                                                            \
  G_STMT_START                                                                                                         \
  {                                                                                                                    \
    g_autofree char *glue_got = glue_codes (analysis);                                                                 \
    g_assert_cmpstr (glue_got, ==, (wanted));                                                                          \
  }                                                                                                                    \
  G_STMT_END
#define glue_assert_area(got, sq_in) g_assert_cmpfloat_with_epsilon ((got), (sq_in), 1e-6)
#define glue_assert_reached(got, share) g_assert_cmpfloat_with_epsilon ((got), (share), 1e-9)
