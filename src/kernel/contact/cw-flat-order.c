/* cw-flat-order.c: layers that cannot lie as the motion has them, in a maker's words.
 *
 * The order of every flat state is checked by the conditions of cw-stack.c, which may find many faults in one state: a
 * sheet caught in a fold stays caught while later steps catch others.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "contact/cw-flat-private.h"
#include "contact/cw-panel-words.h"

#include <glib/gi18n-lib.h>
#include <stdlib.h>

static int
compare_panels (const void *a, const void *b)
{
  guint x = *(const guint *) a, y = *(const guint *) b;

  return x < y ? -1 : x > y;
}

static CwFinding *
new_fault (const CwFlatStates *states, guint step, const CwCluster *cluster, const CwStackVerdict *verdict)
{
  CwFinding *finding = cw_flat_new_finding (states, CW_FINDING_LAYERS_BLOCK, step, CW_KNOWN_NUMERIC);
  const char *when = cw_flat_step_name (states, step);
  char *names[4] = { NULL, NULL, NULL, NULL };
  guint panels[4];
  const CwPileEdge *edge;

  for (guint i = 0; i < verdict->n_members; i++)
    {
      panels[i] = cluster->panels[verdict->members[i]];
      names[i] = cw_panel_words (cw_motion_get_set (states->motion), cluster->panels[verdict->members[i]]);
    }
  /* In one order, so that what is seen again is known again. */
  qsort (panels, verdict->n_members, sizeof (guint), compare_panels);
  for (guint i = 0; i < verdict->n_members; i++)
    cw_flat_add_panel (finding, states, panels[i]);
  edge = &g_array_index (cluster->pile->edges, CwPileEdge, verdict->edge);
  cw_finding_set_at (finding, NULL, ((double) edge->a.x + edge->b.x) / 2, ((double) edge->a.y + edge->b.y) / 2);
  switch (verdict->fault)
    {
    case CW_STACK_WRONG_WAY:
      cw_finding_set_words (finding, N_ ("After “{0}” {1} and {2} lie the wrong way round for the fold between them."),
                            NULL, when, names[0], names[1], NULL);
      break;
    case CW_STACK_SHEET_IN_FOLD:
      cw_finding_set_words (finding,
                            N_ ("“{0}” cannot lie flat: {3} would run right through the fold between {1} and {2}."),
                            N_ ("Make {3} end before that fold, or fold in another order."), when, names[0], names[1],
                            names[2], NULL);
      break;
    case CW_STACK_FOLDS_CROSS:
      cw_finding_set_words (finding,
                            N_ ("“{0}” cannot lie flat: the fold between {1} and {2} is caught in the fold between {3} "
                                "and {4}."),
                            N_ ("Fold in another order."), when, names[0], names[1], names[2], names[3], NULL);
      break;
    case CW_STACK_SHEETS_CROSS:
    case CW_STACK_RIGHT:
    default:
      cw_finding_set_words (finding, N_ ("“{0}” cannot lie flat: {1} and {2} would have to pass through one another."),
                            N_ ("Fold in another order."), when, names[0], names[1], NULL);
      break;
    }
  for (guint i = 0; i < G_N_ELEMENTS (names); i++)
    g_free (names[i]);
  return finding;
}

/* The same was said of the same panels. */
static gboolean
was_told (const CwFlatStates *states, const CwFinding *finding)
{
  for (guint i = 0; i < states->findings->len; i++)
    {
      const CwFinding *other = g_ptr_array_index (states->findings, i);
      gboolean same = other->words == finding->words && other->panels->len == finding->panels->len;

      for (guint k = 0; same && k < finding->panels->len; k++)
        {
          const CwPanelRef *x = &g_array_index (finding->panels, CwPanelRef, k);
          const CwPanelRef *y = &g_array_index (other->panels, CwPanelRef, k);

          same = x->panel == y->panel && g_str_equal (x->piece, y->piece);
        }
      if (same)
        return TRUE;
    }
  return FALSE;
}

/**
 * cw_flat_tell_order:
 * @states: states
 * @step: index of a step that ends flat
 * @cluster: how the paper lies there
 *
 * Tells one fault of the state: one that no state before had, if there is one, however the card is drawn.
 */
void
cw_flat_tell_order (CwFlatStates *states, guint step, const CwCluster *cluster)
{
  g_autoptr (GArray) faults = NULL;

  if (cluster->gave_up)
    {
      CwFinding *finding = cw_flat_new_finding (states, CW_FINDING_NOT_DECIDED, step, CW_KNOWN_NOT_DECIDED);

      cw_finding_set_words (finding,
                            N_ ("How the layers lie on one another after “{0}” was not found out: there are "
                                "too many ways to try."),
                            NULL, cw_flat_step_name (states, step), NULL);
      g_ptr_array_add (states->findings, finding);
      return;
    }
  if (cluster->verdict.fault == CW_STACK_RIGHT)
    return;
  faults = cw_stack_list_faults (cluster->pile);
  for (guint i = 0; i < faults->len; i++)
    {
      CwFinding *finding = new_fault (states, step, cluster, &g_array_index (faults, CwStackVerdict, i));

      if (!was_told (states, finding))
        {
          g_ptr_array_add (states->findings, finding);
          return;
        }
      cw_finding_free (finding);
    }
  /* Nothing new: the analysis adds the step to what was told. */
  g_ptr_array_add (states->findings, new_fault (states, step, cluster, &cluster->verdict));
}
