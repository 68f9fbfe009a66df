/* cw-finding-order.c: puts findings in the order in which they are told.
 *
 * Worst first: severity, then the order of the codes, then the order of the steps (the drawing before all steps), then
 * as found. The same fault in several steps is one finding: told for the step in which it first appears, with the worst
 * amount and a list of all its steps.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "check/cw-finding-order.h"

#include <math.h>

/* What orders a finding; a plain value so that the sort is stable without relying on the library's. */
typedef struct
{
  CwFinding *finding;
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

/**
 * cw_finding_strings_equal:
 * @a: (element-type utf8): strings
 * @b: (element-type utf8): strings
 *
 * Returns: %TRUE if both hold the same strings in the same order
 */
gboolean
cw_finding_strings_equal (const GPtrArray *a, const GPtrArray *b)
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
  return same_panels (a->panels, b->panels) && cw_finding_strings_equal (a->pieces, b->pieces)
         && cw_finding_strings_equal (a->marks, b->marks)
         && (!same_step || cw_finding_strings_equal (a->args, b->args));
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

/**
 * cw_findings_add:
 * @all: (inout) (element-type CwFinding): gets copies
 * @design: what they are about
 * @more: (element-type CwFinding): as a room made them
 *
 * Adds findings, with the names of what their arguments are the ids of.
 */
void
cw_findings_add (GPtrArray *all, const CwDesign *design, const GPtrArray *more)
{
  for (guint i = 0; i < more->len; i++)
    {
      CwFinding *finding = cw_finding_copy (g_ptr_array_index (more, i));

      cw_finding_name_arguments (finding, design);
      g_ptr_array_add (all, finding);
    }
}

/**
 * cw_findings_sort:
 * @findings: (inout) (element-type CwFinding): as found
 * @design: what they are about
 *
 * Puts them in the order in which they are told.
 */
void
cw_findings_sort (GPtrArray *findings, const CwDesign *design)
{
  g_autofree Ranked *ranked = g_new (Ranked, findings->len + 1);

  for (guint i = 0; i < findings->len; i++)
    ranked[i] = (Ranked){ findings->pdata[i], step_rank (design, findings->pdata[i]), i };
  qsort (ranked, findings->len, sizeof (Ranked), compare_ranked);
  for (guint i = 0; i < findings->len; i++)
    findings->pdata[i] = ranked[i].finding;
}

/**
 * cw_findings_merge:
 * @findings: (inout) (element-type CwFinding): in order
 *
 * Makes one finding of each fault.
 */
void
cw_findings_merge (GPtrArray *findings)
{
  guint n = 0;

  for (guint i = 0; i < findings->len; i++)
    {
      CwFinding *finding = findings->pdata[i];
      guint k = n;

      /* The same fault has the same code, and those stand together. */
      while (k > 0 && ((const CwFinding *) findings->pdata[k - 1])->code == finding->code
             && !same_fault (findings->pdata[k - 1], finding))
        k--;
      findings->pdata[i] = NULL;
      if (k > 0 && same_fault (findings->pdata[k - 1], finding))
        merge (findings->pdata[k - 1], finding);
      else
        findings->pdata[n++] = finding;
    }
  /* Nothing is left behind the last: the array frees what it cuts off. */
  g_ptr_array_set_size (findings, (gint) n);
}
