/* cw-analysis.c: finds panels and motion of a design and puts all findings in the order in which they are told.
 *
 * Worst first: severity, then the order of the codes, then the order of the steps (the drawing before all steps), then
 * as found. The same fault in several steps is one finding: told for the step in which it first appears, with the worst
 * amount and a list of all its steps.
 *
 * Over 500 lines because all rooms are asked in one order and what one finds silences another.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "check/cw-analysis.h"

#include "contact/cw-collision.h"

#include "geometry/cw-tolerance.h"
#include "sight/cw-sight.h"
#include "trim/cw-look-alike.h"

#include <math.h>

/* What orders a finding; a plain value so that the sort is stable without relying on the library's. */
typedef struct
{
  CwFinding *finding; /* owned */
  guint step, found;
} Ranked;

static guint
step_rank (const CwDesign *design, const CwFinding *finding)
{
  guint index;

  if (finding->step == NULL)
    return 0;
  index = cw_design_find_step (design, finding->step);
  return index == G_MAXUINT ? index : index + 1;
}

static int
compare_ranked (gconstpointer a, gconstpointer b)
{
  const Ranked *x = a, *y = b;

  if (x->finding->severity != y->finding->severity)
    return x->finding->severity < y->finding->severity ? -1 : 1;
  if (x->finding->code != y->finding->code)
    return x->finding->code < y->finding->code ? -1 : 1;
  if (x->step != y->step)
    return x->step < y->step ? -1 : 1;
  return x->found < y->found ? -1 : x->found > y->found;
}

static gboolean
same_strings (const GPtrArray *a, const GPtrArray *b)
{
  if (a->len != b->len)
    return FALSE;
  for (guint i = 0; i < a->len; i++)
    if (g_strcmp0 (g_ptr_array_index (a, i), g_ptr_array_index (b, i)) != 0)
      return FALSE;
  return TRUE;
}

static gboolean
names_panel (const GArray *panels, const CwPanelRef *sought)
{
  for (guint i = 0; i < panels->len; i++)
    {
      const CwPanelRef *ref = &g_array_index (panels, CwPanelRef, i);

      if (ref->panel == sought->panel && g_strcmp0 (ref->piece, sought->piece) == 0)
        return TRUE;
    }
  return FALSE;
}

/* In any order: sheets that run into one another when the card closes do so the other way round when it opens. */
static gboolean
same_panels (const GArray *a, const GArray *b)
{
  for (guint i = 0; i < a->len; i++)
    if (!names_panel (b, &g_array_index (a, CwPanelRef, i)))
      return FALSE;
  for (guint i = 0; i < b->len; i++)
    if (!names_panel (a, &g_array_index (b, CwPanelRef, i)))
      return FALSE;
  return TRUE;
}

/* One fault: the same thing said about the same paper, whatever the step. Two faults of the drawing at different places
 * stay two. Sheets that went through one another in one step lie on the wrong sides in the next: other words, no news.
 */
static gboolean
same_fault (const CwFinding *a, const CwFinding *b)
{
  gboolean same_step = a->step == NULL ? b->step == NULL : b->step != NULL && g_str_equal (a->step, b->step);

  if (a->code != b->code || a->has_would_be != b->has_would_be || a->would_be != b->would_be
      || a->severity != b->severity || (a->words != b->words && a->code != CW_FINDING_PANELS_COLLIDE)
      || (a->step == NULL) != (b->step == NULL))
    return FALSE;
  if (same_step && (a->has_at != b->has_at || cw_vec3_length (cw_vec3_sub (a->at, b->at)) >= 1))
    return FALSE;
  return same_panels (a->panels, b->panels) && same_strings (a->pieces, b->pieces) && same_strings (a->marks, b->marks)
         && (!same_step || same_strings (a->args, b->args));
}

static void
add_step (CwFinding *finding, const char *step)
{
  if (step != NULL && !g_ptr_array_find_with_equal_func (finding->steps, step, g_str_equal, NULL))
    g_ptr_array_add (finding->steps, g_strdup (step));
}

/* The larger amount is worse, but of a margin the smaller. How far a fold came is no measure of a fault. */
static gboolean
is_worse (const CwFinding *a, const CwFinding *b)
{
  if (a->code == CW_FINDING_CANNOT_MOVE || a->code == CW_FINDING_PANELS_COLLIDE || a->amount_unit != b->amount_unit)
    return FALSE;
  return a->has_would_be ? a->amount < b->amount : fabs (a->amount) > fabs (b->amount);
}

/* Adds what `later` knows to `first`; the worse amount wins, with its words. */
static void
merge (CwFinding *first, CwFinding *later)
{
  add_step (first, first->step);
  add_step (first, later->step);
  for (guint i = 0; i < later->steps->len; i++)
    add_step (first, g_ptr_array_index (later->steps, i));

  if (is_worse (later, first))
    {
      g_autoptr (GPtrArray) args = g_steal_pointer (&first->args);

      first->amount = later->amount;
      g_free (first->mend_mark);
      first->mend_mark = g_steal_pointer (&later->mend_mark);
      first->mend_by = later->mend_by;
      first->mend_turns = later->mend_turns;
      first->args = g_steal_pointer (&later->args);
      later->args = g_steal_pointer (&args);
    }
  cw_finding_free (later);
}

static void
rank (GArray *ranked, const CwDesign *design, GPtrArray *findings)
{
  for (guint i = 0; i < findings->len; i++)
    {
      Ranked entry = { cw_finding_copy (g_ptr_array_index (findings, i)), 0, ranked->len };

      cw_finding_name_arguments (entry.finding, design);
      entry.step = step_rank (design, entry.finding);
      g_array_append_val (ranked, entry);
    }
}

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
drop_unasked (const CwAnalysis *analysis, GArray *ranked)
{
  for (guint i = ranked->len; i > 0; i--)
    {
      Ranked *entry = &g_array_index (ranked, Ranked, i - 1);

      if (entry->finding->code != CW_FINDING_WILL_NOT_FOLD_FLAT)
        continue;
      if (still_asked (analysis, entry->finding))
        entry->step = step_rank (analysis->design, entry->finding);
      else
        {
          cw_finding_free (entry->finding);
          g_array_remove_index (ranked, i - 1);
        }
    }
}

/* What else is said of a step that glue stops is told with the glue. */
static void
drop_shut (const CwAnalysis *analysis, GArray *ranked)
{
  for (guint i = ranked->len; i > 0; i--)
    {
      CwFinding *stop = g_array_index (ranked, Ranked, i - 1).finding;

      if (!cw_bonds_explain (analysis->bonds, stop))
        continue;
      cw_finding_free (stop);
      g_array_remove_index (ranked, i - 1);
    }
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
drop_explained (GArray *ranked)
{
  for (guint i = ranked->len; i > 0; i--)
    {
      CwFinding *stop = g_array_index (ranked, Ranked, i - 1).finding;
      gboolean explained = FALSE;

      /* Two panels only: it is no loop that stops, but a step that contradicts itself. */
      if ((stop->code != CW_FINDING_CANNOT_MOVE && stop->code != CW_FINDING_NEEDS_GIVE) || stop->panels->len < 3)
        continue;
      for (guint k = 0; k < ranked->len && !explained; k++)
        explained = explains (g_array_index (ranked, Ranked, k).finding, stop);
      if (!explained)
        continue;
      cw_finding_free (stop);
      g_array_remove_index (ranked, i - 1);
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

          told = other->code == mine->code && same_strings (other->marks, mine->marks)
                 && (mine->marks->len > 0 || same_strings (other->pieces, mine->pieces));
        }
      if (told)
        g_ptr_array_remove_index (off_marks, i - 1);
    }
}

/* NULL when cancelled. */
static GPtrArray *
sort_findings (const CwAnalysis *analysis, GCancellable *cancellable)
{
  g_autoptr (GArray) ranked = g_array_new (FALSE, FALSE, sizeof (Ranked));
  g_autoptr (GArray) found = cw_collisions_find (analysis->motion, analysis->flat_states, cancellable);
  g_autoptr (GPtrArray) collisions = NULL;
  g_autoptr (GPtrArray) sight = NULL;
  g_autoptr (CwTrimming) trimming = cw_trimming_new (analysis->design, &analysis->tools);
  g_autoptr (GPtrArray) look_alikes = cw_look_alikes_tell (trimming, analysis->design);
  g_autoptr (GPtrArray) off_marks = cw_trimming_tell_off_marks (trimming, analysis->design, &analysis->tools);
  GPtrArray *sorted;

  if (g_cancellable_is_cancelled (cancellable))
    return NULL;
  collisions = cw_collisions_tell (analysis->motion, found);
  sight = cw_sight_tell (analysis->motion, analysis->flat_states);
  if (g_cancellable_is_cancelled (cancellable))
    return NULL;
  sorted = g_ptr_array_new_with_free_func ((GDestroyNotify) cw_finding_free);

  drop_told (off_marks, analysis->panels->findings);
  rank (ranked, analysis->design, analysis->panels->findings);
  drop_unasked (analysis, ranked);
  rank (ranked, analysis->design, cw_motion_get_findings (analysis->motion));
  rank (ranked, analysis->design, collisions);
  rank (ranked, analysis->design, cw_flat_states_get_findings (analysis->flat_states));
  rank (ranked, analysis->design, sight);
  rank (ranked, analysis->design, look_alikes);
  rank (ranked, analysis->design, off_marks);
  drop_shut (analysis, ranked);
  rank (ranked, analysis->design, cw_bonds_get_findings (analysis->bonds));
  drop_explained (ranked);
  g_array_sort (ranked, compare_ranked);

  for (guint i = 0; i < ranked->len; i++)
    {
      CwFinding *finding = g_array_index (ranked, Ranked, i).finding;
      guint k = sorted->len;

      /* The same fault has the same code, and those stand together. */
      while (k > 0 && ((const CwFinding *) g_ptr_array_index (sorted, k - 1))->code == finding->code
             && !same_fault (g_ptr_array_index (sorted, k - 1), finding))
        k--;
      if (k > 0 && same_fault (g_ptr_array_index (sorted, k - 1), finding))
        merge (g_ptr_array_index (sorted, k - 1), finding);
      else
        g_ptr_array_add (sorted, finding);
    }
  return sorted;
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
  g_autoptr (GArray) ranked = g_array_new (FALSE, FALSE, sizeof (Ranked));
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
    {
      Ranked entry = { cw_finding_copy (analysis->findings->pdata[i]), 0, ranked->len };

      entry.step = step_rank (analysis->design, entry.finding);
      g_array_append_val (ranked, entry);
    }
  rank (ranked, analysis->design, more);
  g_array_sort (ranked, compare_ranked);
  for (guint i = 0; i < ranked->len; i++)
    g_ptr_array_add (tried->findings, g_array_index (ranked, Ranked, i).finding);
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
