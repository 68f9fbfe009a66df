/* cw-flat-finding.c: what is wrong with how the paper lies, in a maker's words: flatness, size and thickness.
 *
 * Sizes are asked of the closed states only:
 * those labelled so, else those wanted flat. Sizes and envelopes are compared either way round; a layer whose overhang
 * is meant counts for the envelope, not for the wanted size.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "contact/cw-flat-private.h"
#include "contact/cw-panel-words.h"

#include "geometry/cw-house.h"
#include "geometry/cw-tolerance.h"
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

/* --- Size --------------------------------------------------------------------------------------------------------- */

/* TRUE if this panel's piece was stuck on with an overhang that is meant. */
static gboolean
overhang_is_meant (const CwPanelSet *set, guint panel)
{
  guint piece;

  cw_panel_set_locate (set, panel, &piece, NULL);
  for (guint i = 0; i < set->design->steps->len; i++)
    {
      const CwStep *step = g_ptr_array_index (set->design->steps, i);

      if (step->what == CW_DO_STICK && step->overhang_meant && g_strcmp0 (step->piece, set->maps[piece].piece->id) == 0)
        return TRUE;
    }
  return FALSE;
}

/* Left, top, right and bottom of one member. */
static void
find_box (const CwLaid *laid, gint32 box[4])
{
  const CwRing *ring = &laid->outline->rings[0];

  for (guint k = 0; laid->outline->n_rings > 0 && k < ring->n_points; k++)
    {
      CwPoint p = cw_laid_point (laid, ring->points[k]);

      box[0] = k == 0 ? p.x : MIN (box[0], p.x);
      box[1] = k == 0 ? p.y : MIN (box[1], p.y);
      box[2] = k == 0 ? p.x : MAX (box[2], p.x);
      box[3] = k == 0 ? p.y : MAX (box[3], p.y);
    }
}

/* How far a box of w x h stands over one of at most W x H, in ticks along x and y; either way round, the better one. */
static void
stand_over (gint32 w, gint32 h, gint32 most_w, gint32 most_h, gint32 over[2])
{
  gint32 plain = MAX (MAX (w - most_w, h - most_h), 0), turned = MAX (MAX (w - most_h, h - most_w), 0);

  over[0] = MAX (0, plain <= turned ? w - most_w : w - most_h);
  over[1] = MAX (0, plain <= turned ? h - most_h : h - most_w);
}

static const char *const over_words[4]
  = { N_ ("Closed (“{0}”), {1} stands {2} over the wanted size of {3} x {4} on the left."),
      N_ ("Closed (“{0}”), {1} stands {2} over the wanted size of {3} x {4} at the top."),
      N_ ("Closed (“{0}”), {1} stands {2} over the wanted size of {3} x {4} on the right."),
      N_ ("Closed (“{0}”), {1} stands {2} over the wanted size of {3} x {4} at the bottom.") };

/* The card against its wanted size; without one, against the panel that stays still. */
static void
tell_sticks_out (CwFlatStates *states, guint step, const CwCluster *cluster)
{
  const CwPanelSet *set = cw_motion_get_set (states->motion);
  const CwWants *wants = &set->design->head->wants;
  gint32 held[4] = { 0, 0, 0, 0 }, box[4], over[2] = { 0, 0 }, worst = 0;
  guint who[4] = { 0, 0, 0, 0 };
  int side = 0;
  CwFinding *finding;
  g_autofree char *amount = NULL, *name = NULL, *mark = NULL;
  g_autofree char *width = NULL;
  g_autofree char *height = NULL;

  find_box (&cluster->laid[0], held);
  memcpy (box, held, sizeof box);
  for (guint i = 1; i < cluster->n_panels; i++)
    {
      gint32 own[4] = { 0, 0, 0, 0 };

      if (overhang_is_meant (set, cluster->panels[i]))
        continue;
      find_box (&cluster->laid[i], own);
      for (int k = 0; k < 4; k++)
        if (k < 2 ? own[k] < box[k] : own[k] > box[k])
          {
            box[k] = own[k];
            who[k] = i;
          }
    }
  if (wants->has_size)
    stand_over (box[2] - box[0], box[3] - box[1], (gint32) wants->size[0].ticks, (gint32) wants->size[1].ticks, over);
  for (int k = 0; k < 4; k++)
    {
      gint32 out = k < 2 ? held[k] - box[k] : box[k] - held[k];

      /* Along an axis that is too long the side that stands farther out is the one to look at. */
      if (wants->has_size)
        out = over[k % 2] > 0 && out >= (k < 2 ? box[k + 2] - held[k + 2] : held[k - 2] - box[k - 2]) ? over[k % 2] : 0;
      if (out > worst)
        {
          worst = out;
          side = k;
        }
    }
  if (worst <= CW_TOL_CELL_TICKS)
    return;
  finding = cw_flat_new_finding (states, CW_FINDING_STICKS_OUT, step, CW_KNOWN_EXACT);
  cw_flat_add_panel (finding, states, cluster->panels[who[side]]);
  cw_finding_set_amount (finding, CW_AMOUNT_TICKS, worst);
  cw_finding_set_at (finding, NULL, side % 2 == 0 ? box[side] : ((double) box[0] + box[2]) / 2,
                     side % 2 == 0 ? ((double) box[1] + box[3]) / 2 : box[side]);
  amount = cw_flat_length (states, worst);
  name = cw_panel_words (set, cluster->panels[who[side]]);
  if (wants->has_size)
    {
      width = cw_flat_length (states, (double) wants->size[0].ticks);
      height = cw_flat_length (states, (double) wants->size[1].ticks);
      mark = cw_about_next_mark (worst, set->design->head->unit, set->design->head->snap_ticks);
      cw_finding_set_words (finding, over_words[side], N_ ("Make it shorter by {5}, or ask for a larger closed size."),
                            cw_flat_step_name (states, step), name, amount, width, height, mark, NULL);
    }
  else
    {
      finding->severity = CW_SEVERITY_NOTE;
      width = cw_flat_length (states, box[2] - box[0]);
      height = cw_flat_length (states, box[3] - box[1]);
      cw_finding_set_words (finding,
                            N_ (
                              "Closed (“{0}”), the card is {3} x {4}: {1} stands {2} over the part that stays still."),
                            NULL, cw_flat_step_name (states, step), name, amount, width, height, NULL);
    }
  g_ptr_array_add (states->findings, finding);
}

static void
tell_envelope (CwFlatStates *states, guint step, const CwFlatState *state)
{
  const CwWants *wants = &cw_motion_get_set (states->motion)->design->head->wants;
  gint32 w = state->box[2] - state->box[0], h = state->box[3] - state->box[1], over[2];
  g_autofree char *amount = NULL;
  g_autofree char *width = NULL;
  g_autofree char *height = NULL;
  CwFinding *finding;

  if (!wants->has_envelope)
    return;
  stand_over (w, h, (gint32) wants->envelope[0].ticks, (gint32) wants->envelope[1].ticks, over);
  if (MAX (over[0], over[1]) <= CW_TOL_CELL_TICKS)
    return;
  amount = cw_flat_length (states, MAX (over[0], over[1]));
  width = cw_flat_length (states, w);
  height = cw_flat_length (states, h);
  finding = cw_flat_new_finding (states, CW_FINDING_TOO_BIG_FOR_ENVELOPE, step, CW_KNOWN_EXACT);
  cw_finding_set_amount (finding, CW_AMOUNT_TICKS, MAX (over[0], over[1]));
  cw_finding_set_words (finding, N_ ("Closed (“{0}”), the card is {1} x {2}: {3} too big for its envelope."),
                        N_ ("Take a larger envelope, or make the card smaller by {3}."),
                        cw_flat_step_name (states, step), width, height, amount, NULL);
  g_ptr_array_add (states->findings, finding);
}

static void
tell_thick (CwFlatStates *states, guint step, const CwFlatState *state)
{
  g_autofree char *amount = NULL, *limit = NULL, *x = NULL, *y = NULL, *off = NULL, *layers = NULL;
  guint n_layers = 0;
  CwFinding *finding;

  if (state->thickness <= CW_HOUSE_TOO_THICK)
    return;
  for (guint i = 0; i < state->cells->len; i++)
    {
      const CwCell *cell = &g_array_index (state->cells, CwCell, i);

      if (cw_point_equal (cell->inside, state->thickest))
        n_layers = cell->n_layers;
    }
  amount = cw_flat_length (states, state->thickness);
  limit = cw_flat_length (states, CW_HOUSE_TOO_THICK);
  x = cw_flat_length (states, state->thickest.x - state->box[0]);
  y = cw_flat_length (states, state->thickest.y - state->box[1]);
  off = cw_flat_length (states, state->thickness - CW_HOUSE_TOO_THICK);
  layers = g_strdup_printf ("%u", n_layers);
  finding = cw_flat_new_finding (states, CW_FINDING_TOO_THICK, step, CW_KNOWN_EXACT);
  cw_finding_set_at (finding, NULL, state->thickest.x, state->thickest.y);
  cw_finding_set_amount (finding, CW_AMOUNT_TICKS, state->thickness);
  cw_finding_set_words (finding,
                        N_ ("Closed (“{0}”), the card is {1} thick where {5} layers of paper lie on one another, {3} "
                            "from its left and {4} from its top; over {2} is hard to post."),
                        N_ ("Take away {6} there: lower foam, or fewer layers."), cw_flat_step_name (states, step),
                        amount, limit, x, y, layers, off, NULL);
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
      tell_sticks_out (states, i, cluster);
      tell_envelope (states, i, state);
      tell_thick (states, i, state);
    }
}
