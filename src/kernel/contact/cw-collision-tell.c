/* cw-collision-tell.c: collisions in a maker's words: which panel goes through which, at what angle of the step's fold.
 *
 * One finding a step, about its first collision; the other pairs of that step are listed in it. The place is told in
 * the flat coordinates of the first panel's piece, so that it can be shown on the drawing and on the card.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "contact/cw-collision.h"

#include "contact/cw-panel-words.h"
#include "geometry/cw-tolerance.h"
#include "units/cw-about.h"

#include <glib/gi18n-lib.h>

/* Pairs told by name after the first; the panels of all pairs are listed in the finding. */
#define TOLD_PAIRS 3

/* The first fold the step lists that turns in it; G_MAXUINT if none makes a hinge. */
static guint
find_fold (const CwPanelSet *set, const CwStep *step, const CwPose *from, const CwPose *at)
{
  guint found = G_MAXUINT;

  for (guint f = 0; f < step->folds->len; f++)
    {
      const CwStepFold *fold = g_ptr_array_index (step->folds, f);

      for (guint i = 0; i < cw_panel_set_n_hinges (set); i++)
        {
          guint piece;
          const CwHinge *hinge = cw_panel_set_get_hinge (set, i, &piece);
          const char *id = set->maps[piece].piece->id, *mark = fold->score + strlen (id) + 1;

          if (!g_str_has_prefix (fold->score, id) || fold->score[strlen (id)] != '/'
              || !g_ptr_array_find_with_equal_func (hinge->scores, mark, g_str_equal, NULL))
            continue;
          if (fabs (from->angles_deg[i] - at->angles_deg[i]) > CW_TOL_ANGLE_AGREES_DEG)
            return i;
          if (found == G_MAXUINT)
            found = i;
        }
    }
  return found;
}

static char *
list_pairs (const CwPanelSet *set, const GArray *collisions, guint first, guint end)
{
  GString *text = g_string_new (NULL);

  for (guint i = first + 1; i < end && i <= first + TOLD_PAIRS; i++)
    {
      const CwCollision *more = &g_array_index (collisions, CwCollision, i);
      g_autofree char *a = cw_panel_words (set, more->panel_a), *b = cw_panel_words (set, more->panel_b);

      g_string_append_printf (text, "%s%s – %s", text->len > 0 ? ", " : "", a, b);
    }
  if (end > first + 1 + TOLD_PAIRS)
    g_string_append (text, ", …");
  return g_string_free (text, FALSE);
}

static CwFinding *
tell_step (CwMotion *motion, CwMotionWork *work, const GArray *collisions, guint first, guint end)
{
  const CwPanelSet *set = cw_motion_get_set (motion);
  const CwCollision *c = &g_array_index (collisions, CwCollision, first);
  g_autoptr (CwPose) start = cw_pose_new (motion), at = cw_pose_new (motion);
  g_autofree char *a = cw_panel_words (set, c->panel_a), *b = cw_panel_words (set, c->panel_b);
  g_autofree char *others = list_pairs (set, collisions, first, end);
  const CwStep *step = g_ptr_array_index (set->design->steps, c->step);
  const char *name = cw_panel_set_get_step_name (set, c->step), *score = "";
  g_autofree char *degrees = NULL;
  CwFinding *finding = cw_finding_new (CW_FINDING_PANELS_COLLIDE);
  guint hinge, piece, panel;
  double angle = 0;
  CwRigid back;
  CwVec3 flat;

  cw_motion_get_pose (motion, work, c->step, 0, start);
  cw_motion_get_pose (motion, work, c->step, c->fraction, at);
  /* A step that begins with the collision has not turned anything yet. */
  if (c->fraction <= 0)
    cw_motion_get_pose (motion, work, c->step, 1, start);
  hinge = find_fold (set, step, start, at);
  if (hinge != G_MAXUINT)
    {
      const CwHinge *h = cw_panel_set_get_hinge (set, hinge, &piece);

      angle = h->fold == CW_FOLD_AWAY ? -at->angles_deg[hinge] : at->angles_deg[hinge];
      score = g_ptr_array_index (h->scores, 0);
      cw_finding_add_mark (finding, set->maps[piece].piece->id, score);
    }
  degrees = cw_about_degrees (angle);

  finding->step = g_strdup (step->id);
  finding->fraction = c->fraction;
  finding->known = cw_motion_get_state (motion, c->step)->n_loops == 0 ? CW_KNOWN_BOUNDED : CW_KNOWN_NUMERIC;
  cw_finding_set_amount (finding, CW_AMOUNT_DEGREES, angle);
  for (guint i = first; i < end; i++)
    {
      cw_panel_set_tell (set, finding, g_array_index (collisions, CwCollision, i).panel_a);
      cw_panel_set_tell (set, finding, g_array_index (collisions, CwCollision, i).panel_b);
    }
  cw_panel_set_locate (set, c->panel_a, &piece, &panel);
  back = cw_rigid_inverse (&at->places[c->panel_a]);
  flat = cw_rigid_apply (&back, c->at);
  cw_finding_set_at (finding, set->maps[piece].piece->id, flat.x, flat.y);

  if (end == first + 1 && c->fraction <= 0)
    cw_finding_set_words (finding,
                          N_ ("“{0}” cannot begin: {1} lies on the wrong side of {2} and would have to go through it."),
                          N_ ("Do the steps in another order, or fold one of them the other way."), name, a, b, NULL);
  else if (end == first + 1)
    cw_finding_set_words (finding, N_ ("In “{0}”, {1} goes through {2} at {3} degrees on {4}."),
                          N_ ("Make {1} or {2} smaller, cut a way through, or do the steps in another order."), name, a,
                          b, degrees, score, NULL);
  else if (c->fraction <= 0)
    cw_finding_set_words (finding,
                          N_ ("“{0}” cannot begin: {1} lies on the wrong side of {2} and would have to go through it. "
                              "Later in the step the same happens to {3}."),
                          N_ ("Do the steps in another order, or fold one of them the other way."), name, a, b, others,
                          NULL);
  else
    cw_finding_set_words (finding,
                          N_ (
                            "In “{0}”, {1} goes through {2} at {3} degrees on {4}. Later in the step the same happens "
                            "to {5}."),
                          N_ ("Make {1} or {2} smaller, cut a way through, or do the steps in another order."), name, a,
                          b, degrees, score, others, NULL);
  return finding;
}

/**
 * cw_collisions_tell:
 * @motion: the motion searched
 * @collisions: (element-type CwCollision): what cw_collisions_find() found
 *
 * Returns: (transfer full) (element-type CwFinding): one `panels-collide` a step
 */
GPtrArray *
cw_collisions_tell (CwMotion *motion, const GArray *collisions)
{
  GPtrArray *findings = g_ptr_array_new_with_free_func ((GDestroyNotify) cw_finding_free);
  g_autoptr (CwMotionWork) work = NULL;

  g_return_val_if_fail (motion != NULL && collisions != NULL, findings);

  work = cw_motion_work_new (motion);
  for (guint i = 0, end; i < collisions->len; i = end)
    {
      guint step = g_array_index (collisions, CwCollision, i).step;

      for (end = i + 1; end < collisions->len && g_array_index (collisions, CwCollision, end).step == step; end++)
        ;
      g_ptr_array_add (findings, tell_step (motion, work, collisions, i, end));
    }
  return findings;
}
