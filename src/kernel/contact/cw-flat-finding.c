/* cw-flat-finding.c: what is wrong with how the paper lies, in a maker's words: flatness.
 *
 * Order is told by cw-flat-order.c, sizes by cw-flat-size.c, of the closed states only: those labelled so, else those
 * wanted flat.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "contact/cw-flat-private.h"
#include "contact/cw-panel-words.h"

#include "units/cw-about.h"

#include <glib/gi18n-lib.h>

/**
 * cw_flat_new_finding:
 * @states: states
 * @code: what it is
 * @step: index of the step at whose end it is seen
 * @known: how
 *
 * Returns: (transfer full): a finding without words yet
 */
CwFinding *
cw_flat_new_finding (const CwFlatStates *states, CwFindingCode code, guint step, CwKnown known)
{
  const CwDesign *design = cw_motion_get_set (states->motion)->design;
  CwFinding *finding = cw_finding_new (code);

  finding->step = g_strdup (((const CwStep *) g_ptr_array_index (design->steps, step))->id);
  finding->fraction = 1;
  finding->known = known;
  return finding;
}

/**
 * cw_flat_step_name:
 *
 * Returns: (transfer none): what the maker calls a step
 */
const char *
cw_flat_step_name (const CwFlatStates *states, guint step)
{
  return cw_panel_set_get_step_name (cw_motion_get_set (states->motion), step);
}

/**
 * cw_flat_add_panel:
 *
 * Adds a panel, through the design, and its piece to @finding, once.
 */
void
cw_flat_add_panel (CwFinding *finding, const CwFlatStates *states, guint index)
{
  const CwPanelSet *set = cw_motion_get_set (states->motion);
  guint piece, panel;

  cw_panel_set_locate (set, index, &piece, &panel);
  for (guint i = 0; i < finding->panels->len; i++)
    {
      const CwPanelRef *ref = &g_array_index (finding->panels, CwPanelRef, i);

      if (ref->panel == panel && g_str_equal (ref->piece, set->maps[piece].piece->id))
        return;
    }
  cw_finding_add_panel (finding, set->maps[piece].piece->id, panel);
  cw_finding_add_piece (finding, set->maps[piece].piece->id);
}

/**
 * cw_flat_length:
 *
 * Returns: (transfer full): a length as the maker reads it
 */
char *
cw_flat_length (const CwFlatStates *states, double ticks)
{
  const CwHead *head = cw_motion_get_set (states->motion)->design->head;

  return cw_about_length (ticks, head ? head->unit : CW_UNIT_INCH);
}

/* --- Flatness ----------------------------------------------------------------------------------------------------- */

static gboolean
names_step (const GPtrArray *names, const CwStep *step)
{
  for (guint i = 0; i < names->len; i++)
    {
      const char *name = g_ptr_array_index (names, i);

      if (g_str_equal (name, step->id) || g_strcmp0 (name, step->rest) == 0)
        return TRUE;
    }
  return FALSE;
}

static void
tell_not_flat (CwFlatStates *states, guint step, const CwPose *end)
{
  const CwPanelSet *set = cw_motion_get_set (states->motion);
  g_autofree char *height = NULL, *name = NULL;
  CwFinding *finding;
  CwPoint corner = { 0, 0 };
  double most = 0;
  guint highest = 0, piece;

  for (guint i = 0; i < end->n_panels; i++)
    {
      const CwPolygon *outline = &cw_panel_set_get_panel (set, i)->outline;

      for (guint k = 0; end->present[i] && outline->n_rings > 0 && k < outline->rings[0].n_points; k++)
        {
          CwPoint p = outline->rings[0].points[k];
          double z = fabs (cw_rigid_apply (&end->places[i], cw_vec3 (p.x, p.y, 0)).z);

          if (z > most)
            {
              most = z;
              highest = i;
              corner = p;
            }
        }
    }
  if (most <= 0)
    return;
  cw_panel_set_locate (set, highest, &piece, NULL);
  height = cw_flat_length (states, most);
  name = cw_panel_words (set, highest);
  finding = cw_flat_new_finding (states, CW_FINDING_NOT_FLAT, step, CW_KNOWN_NUMERIC);
  cw_flat_add_panel (finding, states, highest);
  cw_finding_set_at (finding, set->maps[piece].piece->id, corner.x, corner.y);
  cw_finding_set_amount (finding, CW_AMOUNT_TICKS, most);
  cw_finding_set_words (finding, N_ ("The card should lie flat after “{0}”, but {1} stands up by {2}."), NULL,
                        cw_flat_step_name (states, step), name, height, NULL);
  g_ptr_array_add (states->findings, finding);
}

/* --- All of it ---------------------------------------------------------------------------------------------------- */

/* Closed states are those labelled so, else those wanted flat, else none. */
static gboolean
is_closed (const CwDesign *design, const CwStep *step)
{
  gboolean labelled = FALSE;

  for (guint i = 0; i < design->steps->len && !labelled; i++)
    labelled = g_strcmp0 (((const CwStep *) g_ptr_array_index (design->steps, i))->rest, "closed") == 0;
  return labelled ? g_strcmp0 (step->rest, "closed") == 0 : names_step (design->head->wants.flat, step);
}

/* TRUE if a fold asked for so far has no fold line: the drawing's fault, told there, and the card is not as meant. */
static gboolean
lacks_fold (const CwPanelSet *set, GHashTable *scores, guint step)
{
  for (guint i = 0; i <= step; i++)
    {
      const CwStep *what = g_ptr_array_index (set->design->steps, i);

      for (guint k = 0; what->what == CW_DO_FOLD && k < what->folds->len; k++)
        {
          const CwStepFold *fold = g_ptr_array_index (what->folds, k);

          if (fold->score && !g_hash_table_contains (scores, fold->score))
            return TRUE;
        }
    }
  return FALSE;
}

/* Addresses of all scores that make fold lines; only looked up. */
static GHashTable *
find_scores (const CwPanelSet *set)
{
  GHashTable *scores = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);

  for (guint i = 0; i < cw_panel_set_n_hinges (set); i++)
    {
      guint piece;
      const CwHinge *hinge = cw_panel_set_get_hinge (set, i, &piece);

      for (guint k = 0; k < hinge->scores->len; k++)
        g_hash_table_add (scores, g_strdup_printf ("%s/%s", set->maps[piece].piece->id,
                                                   (const char *) g_ptr_array_index (hinge->scores, k)));
    }
  return scores;
}

/**
 * cw_flat_states_tell:
 * @states: states, all filled in
 *
 * Adds what is wrong with them to their findings.
 */
void
cw_flat_states_tell (CwFlatStates *states)
{
  const CwPanelSet *set = cw_motion_get_set (states->motion);
  const CwDesign *design = set->design;
  g_autoptr (GHashTable) scores = find_scores (set);
  g_autoptr (CwMotionWork) work = cw_motion_work_new (states->motion);
  g_autoptr (CwPose) end = cw_pose_new (states->motion);

  for (guint i = 0; i < states->n_steps; i++)
    {
      const CwStep *step = g_ptr_array_index (design->steps, i);
      const CwFlatState *state = &states->states[i];
      const CwCluster *cluster = &states->clusters[i + 1]->clusters[0];

      if (!state->flat)
        {
          if (design->head && names_step (design->head->wants.flat, step))
            {
              cw_motion_get_pose (states->motion, work, i, 1, end);
              tell_not_flat (states, i, end);
            }
          continue;
        }
      if (state->cells->len == 0)
        continue;
      cw_flat_tell_order (states, i, cluster);
      if (design->head == NULL || !is_closed (design, step) || lacks_fold (set, scores, i))
        continue;
      cw_flat_states_tell_size (states, i, cluster);
    }
}
