/* cw-analysis.c: everything found out about a design: asks all rooms, and drops what one says where another says why.
 *
 * A point that the card does not ask to lie flat, a step that glue stops and a loop that a missing fold holds are told
 * by their cause alone. In what order the rest is told is for cw-finding-order.c.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "check/cw-analysis.h"

#include "check/cw-finding-order.h"

#include "contact/cw-collision.h"

#include "geometry/cw-tolerance.h"
#include "sight/cw-sight.h"
#include "trim/cw-look-alike.h"

#include <math.h>

/* Whether a fold line of one of the marks that the finding names stands part of the way. */
static gboolean
stands (const CwAnalysis *analysis, const CwFinding *finding, const CwPose *pose)
{
  for (guint h = 0; h < pose->n_hinges; h++)
    {
      guint piece;
      const CwHinge *hinge = cw_panel_set_get_hinge (analysis->panels, h, &piece);
      double degrees = fabs (pose->angles_deg[h]);

      if (degrees <= CW_TOL_FLAT_SNAP_DEG || fabs (degrees - 180) <= CW_TOL_FLAT_SNAP_DEG)
        continue;
      for (guint i = 0; i < hinge->scores->len; i++)
        {
          g_autofree char *address
            = g_strdup_printf ("%s/%s", analysis->panels->maps[piece].piece->id, (char *) hinge->scores->pdata[i]);

          if (g_ptr_array_find_with_equal_func (finding->marks, address, g_str_equal, NULL))
            return TRUE;
        }
    }
  return FALSE;
}

/* A point that was judged by the drawing alone is not asked to lie flat in a step that goes to its end with one of the
 * point's folds standing up: those were free to. Such steps are taken off the finding; FALSE when none is left. */
static gboolean
still_asked (const CwAnalysis *analysis, CwFinding *finding)
{
  g_autoptr (CwMotionWork) work = cw_motion_work_new (analysis->motion);
  g_autoptr (CwPose) pose = cw_pose_new (analysis->motion);

  for (guint i = finding->steps->len; i > 0; i--)
    {
      guint step = cw_design_find_step (analysis->design, finding->steps->pdata[i - 1]);

      if (step == G_MAXUINT || cw_motion_get_state (analysis->motion, step)->reached < 1)
        continue;
      cw_motion_get_pose (analysis->motion, work, step, 1, pose);
      if (stands (analysis, finding, pose))
        g_ptr_array_remove_index (finding->steps, i - 1);
    }
  if (finding->steps->len == 0)
    return FALSE;
  g_free (finding->step);
  finding->step = g_strdup (finding->steps->pdata[0]);
  return TRUE;
}

static void
drop_unasked (const CwAnalysis *analysis, GPtrArray *findings)
{
  for (guint i = findings->len; i > 0; i--)
    {
      CwFinding *finding = findings->pdata[i - 1];

      if (finding->code == CW_FINDING_WILL_NOT_FOLD_FLAT && !still_asked (analysis, finding))
        g_ptr_array_remove_index (findings, i - 1);
    }
}

/* What else is said of a step that glue stops is told with the glue. */
static void
drop_shut (const CwAnalysis *analysis, GPtrArray *findings)
{
  for (guint i = findings->len; i > 0; i--)
    if (cw_bonds_explain (analysis->bonds, findings->pdata[i - 1]))
      g_ptr_array_remove_index (findings, i - 1);
}

static gboolean
share_panel (const CwFinding *a, const CwFinding *b)
{
  for (guint i = 0; i < a->panels->len; i++)
    for (guint k = 0; k < b->panels->len; k++)
      {
        const CwPanelRef *x = &g_array_index (a->panels, CwPanelRef, i), *y = &g_array_index (b->panels, CwPanelRef, k);

        if (x->panel == y->panel && g_strcmp0 (x->piece, y->piece) == 0)
          return TRUE;
      }
  return FALSE;
}

static gboolean
share_mark (const CwFinding *a, const CwFinding *b)
{
  for (guint i = 0; i < a->marks->len; i++)
    if (g_ptr_array_find_with_equal_func (b->marks, a->marks->pdata[i], g_str_equal, NULL))
      return TRUE;
  return FALSE;
}

/* Whether `cause` explains why a loop of panels cannot move, or moves only by the paper's give: a score that ends
 * inside one of them is a fold that is missing there; a point that cannot fold flat is where it stops. */
static gboolean
explains (const CwFinding *cause, const CwFinding *stop)
{
  if (cause->code == CW_FINDING_SCORE_STOPS_SHORT)
    return share_panel (cause, stop);
  return cause->code == CW_FINDING_WILL_NOT_FOLD_FLAT && share_mark (cause, stop)
         && g_ptr_array_find_with_equal_func (cause->steps, stop->step, g_str_equal, NULL);
}

/* A cause is told once: what follows from it would send the maker to the wrong place. */
static void
drop_explained (GPtrArray *findings)
{
  for (guint i = findings->len; i > 0; i--)
    {
      const CwFinding *stop = findings->pdata[i - 1];
      gboolean explained = FALSE;

      /* Two panels only: it is no loop that stops, but a step that contradicts itself. */
      if ((stop->code != CW_FINDING_CANNOT_MOVE && stop->code != CW_FINDING_NEEDS_GIVE) || stop->panels->len < 3)
        continue;
      for (guint k = 0; k < findings->len && !explained; k++)
        explained = explains (findings->pdata[k], stop);
      if (explained)
        g_ptr_array_remove_index (findings, i - 1);
    }
}

/* Takes out what the drawing says already of the same mark, or of the same piece's outline. */
static void
drop_told (GPtrArray *off_marks, const GPtrArray *drawing)
{
  for (guint i = off_marks->len; i > 0; i--)
    {
      const CwFinding *mine = g_ptr_array_index (off_marks, i - 1);
      gboolean told = FALSE;

      for (guint k = 0; k < drawing->len && !told; k++)
        {
          const CwFinding *other = g_ptr_array_index (drawing, k);

          told = other->code == mine->code && cw_finding_strings_equal (other->marks, mine->marks)
                 && (mine->marks->len > 0 || cw_finding_strings_equal (other->pieces, mine->pieces));
        }
      if (told)
        g_ptr_array_remove_index (off_marks, i - 1);
    }
}

/* NULL when cancelled. */
static GPtrArray *
sort_findings (const CwAnalysis *analysis, GCancellable *cancellable)
{
  g_autoptr (GArray) found = cw_collisions_find (analysis->motion, analysis->flat_states, cancellable);
  g_autoptr (GPtrArray) collisions = NULL;
  g_autoptr (GPtrArray) sight = NULL;
  g_autoptr (CwTrimming) trimming = cw_trimming_new (analysis->design, &analysis->tools);
  g_autoptr (GPtrArray) look_alikes = cw_look_alikes_tell (trimming, analysis->design);
  g_autoptr (GPtrArray) off_marks = cw_trimming_tell_off_marks (trimming, analysis->design, &analysis->tools);
  GPtrArray *all;

  if (g_cancellable_is_cancelled (cancellable))
    return NULL;
  collisions = cw_collisions_tell (analysis->motion, found);
  sight = cw_sight_tell (analysis->motion, analysis->flat_states);
  if (g_cancellable_is_cancelled (cancellable))
    return NULL;
  all = g_ptr_array_new_with_free_func ((GDestroyNotify) cw_finding_free);

  drop_told (off_marks, analysis->panels->findings);
  cw_findings_add (all, analysis->design, analysis->panels->findings);
  drop_unasked (analysis, all);
  cw_findings_add (all, analysis->design, cw_motion_get_findings (analysis->motion));
  cw_findings_add (all, analysis->design, collisions);
  cw_findings_add (all, analysis->design, cw_flat_states_get_findings (analysis->flat_states));
  cw_findings_add (all, analysis->design, sight);
  cw_findings_add (all, analysis->design, look_alikes);
  cw_findings_add (all, analysis->design, off_marks);
  drop_shut (analysis, all);
  cw_findings_add (all, analysis->design, cw_bonds_get_findings (analysis->bonds));
  drop_explained (all);
  cw_findings_sort (all, analysis->design);
  cw_findings_merge (all);
  return all;
}

/**
 * cw_analysis_new:
 * @design: a design; referenced
 *
 * Returns: (transfer full): everything the kernel finds out about @design
 */
CwAnalysis *
cw_analysis_new (CwDesign *design)
{
  return cw_analysis_new_cancellable (design, NULL);
}

/**
 * cw_analysis_new_cancellable:
 * @design: a design; referenced
 * @cancellable: (nullable): asked between units of work
 *
 * Returns: (transfer full) (nullable): everything the kernel finds out about @design; %NULL when cancelled
 */
CwAnalysis *
cw_analysis_new_cancellable (CwDesign *design, GCancellable *cancellable)
{
  return cw_analysis_new_for_tools (design, &cw_tools_usual, cancellable);
}

/**
 * cw_analysis_new_for_tools:
 * @design: a design; referenced
 * @tools: what the maker works with: notes about numbers depend on it
 * @cancellable: (nullable): asked between units of work
 *
 * Returns: (transfer full) (nullable): everything the kernel finds out about @design; %NULL when cancelled
 */
CwAnalysis *
cw_analysis_new_for_tools (CwDesign *design, const CwTools *tools, GCancellable *cancellable)
{
  CwAnalysis *analysis;

  g_return_val_if_fail (design != NULL && tools != NULL, NULL);

  analysis = g_atomic_rc_box_new0 (CwAnalysis);
  analysis->design = cw_design_ref (design);
  analysis->tools = *tools;
  analysis->panels = cw_panel_set_new (design);
  analysis->bonds = cw_bonds_new (analysis->panels, cancellable);
  if (analysis->bonds != NULL)
    {
      analysis->motion = cw_motion_ref (cw_bonds_get_motion (analysis->bonds));
      analysis->flat_states = cw_flat_states_ref (cw_bonds_get_states (analysis->bonds));
      analysis->findings = sort_findings (analysis, cancellable);
    }
  if (analysis->findings == NULL)
    g_clear_pointer (&analysis, cw_analysis_unref);
  return analysis;
}

/**
 * cw_analysis_new_tried:
 * @analysis: an analysis
 * @more: (element-type CwFinding): further findings; copied
 * @levers: (element-type CwLever): the misses that show most; referenced
 * @n_tried: how many misses were tried
 * @n_ways: how many there are
 *
 * Returns: (transfer full): @analysis with these
 */
CwAnalysis *
cw_analysis_new_tried (const CwAnalysis *analysis, GPtrArray *more, GPtrArray *levers, guint n_tried, guint n_ways)
{
  CwAnalysis *tried;

  g_return_val_if_fail (analysis != NULL && more != NULL && levers != NULL, NULL);

  tried = g_atomic_rc_box_new0 (CwAnalysis);
  tried->design = cw_design_ref (analysis->design);
  tried->tools = analysis->tools;
  tried->panels = cw_panel_set_ref (analysis->panels);
  tried->bonds = cw_bonds_ref (analysis->bonds);
  tried->motion = cw_motion_ref (analysis->motion);
  tried->flat_states = cw_flat_states_ref (analysis->flat_states);
  tried->findings = g_ptr_array_new_with_free_func ((GDestroyNotify) cw_finding_free);
  tried->levers = g_ptr_array_ref (levers);
  tried->n_tried = n_tried;
  tried->n_ways = n_ways;
  /* The others were named before: their arguments are names no more. */
  for (guint i = 0; i < analysis->findings->len; i++)
    g_ptr_array_add (tried->findings, cw_finding_copy (analysis->findings->pdata[i]));
  cw_findings_add (tried->findings, analysis->design, more);
  cw_findings_sort (tried->findings, analysis->design);
  return tried;
}

/**
 * cw_analysis_ref:
 *
 * Returns: (transfer full): @analysis
 */
CwAnalysis *
cw_analysis_ref (CwAnalysis *analysis)
{
  g_return_val_if_fail (analysis != NULL, NULL);
  return g_atomic_rc_box_acquire (analysis);
}

static void
analysis_clear (gpointer data)
{
  CwAnalysis *analysis = data;

  g_clear_pointer (&analysis->findings, g_ptr_array_unref);
  g_clear_pointer (&analysis->levers, g_ptr_array_unref);
  g_clear_pointer (&analysis->flat_states, cw_flat_states_unref);
  g_clear_pointer (&analysis->motion, cw_motion_unref);
  g_clear_pointer (&analysis->bonds, cw_bonds_unref);
  cw_panel_set_unref (analysis->panels);
  cw_design_unref (analysis->design);
}

/**
 * cw_analysis_unref:
 * @analysis: (transfer full): an analysis
 */
void
cw_analysis_unref (CwAnalysis *analysis)
{
  g_return_if_fail (analysis != NULL);
  g_atomic_rc_box_release_full (analysis, analysis_clear);
}

/**
 * cw_analysis_get_verdict:
 * @analysis: an analysis
 *
 * Returns: the worst there is to say
 */
CwVerdict
cw_analysis_get_verdict (const CwAnalysis *analysis)
{
  const CwFinding *worst;

  g_return_val_if_fail (analysis != NULL, CW_VERDICT_ERRORS);

  if (analysis->findings->len == 0)
    return CW_VERDICT_CLEAR;
  worst = g_ptr_array_index (analysis->findings, 0);
  switch (worst->severity)
    {
    case CW_SEVERITY_ERROR:
      return CW_VERDICT_ERRORS;
    case CW_SEVERITY_WARNING:
      return CW_VERDICT_WARNINGS;
    case CW_SEVERITY_NOTE:
    default:
      return CW_VERDICT_NOTES;
    }
}
