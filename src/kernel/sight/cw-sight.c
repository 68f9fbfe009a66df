/* cw-sight.c: all that is to be said about what shows, and what its parts share: the looks at the card that were taken,
 * and names in a maker's words.
 *
 * Looks are taken only where a want, a face meant to be seen or a piece of art asks for one, and only once.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "sight/cw-sight-private.h"

#include "geometry/cw-tolerance.h"
#include "units/cw-about.h"

#include <math.h>
#include <string.h>

/**
 * cw_look_get_pose:
 * @look: looks
 * @step: index of a step
 *
 * Returns: (transfer none): where everything is at the end of @step
 */
const CwPose *
cw_look_get_pose (CwLook *look, guint step)
{
  if (look->poses[step] == NULL)
    {
      look->poses[step] = cw_pose_new (look->motion);
      cw_motion_get_pose (look->motion, look->work, step, 1, look->poses[step]);
    }
  return look->poses[step];
}

/**
 * cw_look_get_view:
 * @look: looks
 * @step: index of a step
 * @from: the reader's side
 *
 * Returns: (transfer none): what is seen at the end of @step
 */
const CwView *
cw_look_get_view (CwLook *look, guint step, CwFace from)
{
  CwView **view = &look->views[2 * step + (from == CW_FACE_FRONT ? 0 : 1)];

  if (*view == NULL)
    *view = cw_view_new_at_rest (look->motion, look->states, step, cw_look_get_pose (look, step), from);
  return *view;
}

static gboolean
makes_hinge (const CwPanelSet *set, const char *address)
{
  for (guint i = 0; i < cw_panel_set_n_hinges (set); i++)
    {
      guint piece;
      const CwHinge *hinge = cw_panel_set_get_hinge (set, i, &piece);
      const char *id = set->maps[piece].piece->id;
      gsize n = strlen (id);

      if (strncmp (address, id, n) != 0 || address[n] != '/')
        continue;
      for (guint k = 0; k < hinge->scores->len; k++)
        if (g_str_equal (g_ptr_array_index (hinge->scores, k), address + n + 1))
          return TRUE;
    }
  return FALSE;
}

/* The first step that asks a fold of a score that makes none; n_steps if there is none. */
static guint
find_unfolded (const CwLook *look)
{
  for (guint i = 0; i < look->n_steps; i++)
    {
      const CwStep *own = cw_look_get_step (look, i);

      for (guint k = 0; k < own->folds->len; k++)
        {
          const CwStepFold *fold = g_ptr_array_index (own->folds, k);

          if (fpclassify (fold->to) != FP_ZERO && !makes_hinge (look->set, fold->score))
            return i;
        }
    }
  return look->n_steps;
}

/**
 * cw_look_is_reached:
 * @look: looks
 * @step: index of a step
 *
 * A step that stops on its way has no state worth judging, nor has any after a score that does not fold: the cause is
 * said already.
 *
 * Returns: %TRUE if the state at its end is worth judging
 */
gboolean
cw_look_is_reached (const CwLook *look, guint step)
{
  return step < look->unfolded && cw_motion_get_state (look->motion, step)->reached >= 1 - CW_TOL_REACHED;
}

/**
 * cw_look_get_step:
 * @look: looks
 * @step: index of a step
 *
 * Returns: (transfer none): the step
 */
const CwStep *
cw_look_get_step (const CwLook *look, guint step)
{
  return g_ptr_array_index (look->design->steps, step);
}

/**
 * cw_look_is_closed:
 * @look: looks
 * @step: index of a step
 *
 * Returns: %TRUE if the card is closed at its end: so labelled, else, without such labels, wanted flat (model, "Wants")
 */
gboolean
cw_look_is_closed (const CwLook *look, guint step)
{
  const CwStep *own = cw_look_get_step (look, step);
  const GPtrArray *flat = look->design->head ? look->design->head->wants.flat : NULL;

  if (own->rest != NULL && g_str_equal (own->rest, "closed"))
    return TRUE;
  for (guint i = 0; i < look->n_steps; i++)
    if (g_strcmp0 (cw_look_get_step (look, i)->rest, "closed") == 0)
      return FALSE;
  return flat != NULL
         && (g_ptr_array_find_with_equal_func ((GPtrArray *) flat, own->id, g_str_equal, NULL)
             || (own->rest != NULL
                 && g_ptr_array_find_with_equal_func ((GPtrArray *) flat, own->rest, g_str_equal, NULL)));
}

/**
 * cw_look_find_stick:
 * @look: looks
 * @piece: index of a piece
 * @step: index of a step
 *
 * Returns: the last step up to @step that laid the piece on something; %G_MAXUINT if none did
 */
guint
cw_look_find_stick (const CwLook *look, guint piece, guint step)
{
  const char *id = look->set->maps[piece].piece->id;

  for (guint i = step + 1; i-- > 0;)
    {
      const CwStep *own = cw_look_get_step (look, i);

      if (own->what == CW_DO_STICK && own->has_on && g_strcmp0 (own->piece, id) == 0)
        return i;
    }
  return G_MAXUINT;
}

/**
 * cw_look_step_name:
 * @look: looks
 * @step: index of a step
 *
 * Returns: (transfer none): its title, else its id, as cw_panel_set_get_step_name()
 */
const char *
cw_look_step_name (const CwLook *look, guint step)
{
  return cw_panel_set_get_step_name (look->set, step);
}

/**
 * cw_look_piece_name:
 * @look: looks
 * @piece: index of a piece
 *
 * Returns: (transfer none): its name, else its id
 */
const char *
cw_look_piece_name (const CwLook *look, guint piece)
{
  const CwPiece *own = look->set->maps[piece].piece;

  return own->name ? own->name : own->id;
}

/**
 * cw_look_panel_name:
 * @look: looks
 * @panel: a panel, through the design
 *
 * Returns: (transfer none): the own name of a panel of a folded piece, if it has one; else its piece's
 */
const char *
cw_look_panel_name (const CwLook *look, guint panel)
{
  const CwPanel *own = cw_panel_set_get_panel (look->set, panel);
  guint piece;

  cw_panel_set_locate (look->set, panel, &piece, NULL);
  return own->name != NULL && look->set->maps[piece].panels->len > 1 ? own->name : cw_look_piece_name (look, piece);
}

/**
 * cw_look_unit:
 * @look: looks
 *
 * Returns: the unit the maker works in
 */
CwUnit
cw_look_unit (const CwLook *look)
{
  return look->design->head ? look->design->head->unit : CW_UNIT_INCH;
}

/**
 * cw_look_dup_snapped:
 * @look: looks
 * @ticks: a length to be made
 *
 * Returns: (transfer full): the maker's next mark from there on, in text; the next 1/64 inch or 0.1 mm without marks
 */
char *
cw_look_dup_snapped (const CwLook *look, double ticks)
{
  const CwHead *head = look->design->head;

  return cw_about_next_mark (ticks, cw_look_unit (look), head ? head->snap_ticks : 0);
}

/**
 * cw_look_add_state:
 * @look: looks
 * @finding: a finding
 * @step: index of a step at whose end the same is wrong
 *
 * The first one added is the finding's own step.
 */
void
cw_look_add_state (const CwLook *look, CwFinding *finding, guint step)
{
  const char *id = cw_look_get_step (look, step)->id;

  if (finding->step == NULL)
    {
      finding->step = g_strdup (id);
      finding->fraction = 1;
    }
  if (!g_ptr_array_find_with_equal_func (finding->steps, id, g_str_equal, NULL))
    g_ptr_array_add (finding->steps, g_strdup (id));
}

/**
 * cw_look_place:
 * @look: looks
 * @finding: a finding
 * @panel: a panel it is about, through the design; %G_MAXUINT: none
 * @x: in the held panel's space, ticks
 * @y: likewise
 */
void
cw_look_place (const CwLook *look, CwFinding *finding, guint panel, double x, double y)
{
  guint piece, own;

  cw_finding_set_at (finding, NULL, x, y);
  if (panel == G_MAXUINT)
    return;
  cw_panel_set_locate (look->set, panel, &piece, &own);
  cw_finding_add_panel (finding, look->set->maps[piece].piece->id, own);
}

/**
 * cw_sight_tell:
 * @motion: a motion
 * @states: how the paper lies at its rest states
 *
 * Returns: (transfer full) (element-type CwFinding): what shows or hides against the wants, faces and art that are not
 *   seen as they are meant to be, each fault once with all its steps
 */
GPtrArray *
cw_sight_tell (CwMotion *motion, const CwFlatStates *states)
{
  GPtrArray *findings;
  CwLook look = { 0 };

  g_return_val_if_fail (motion != NULL && states != NULL, NULL);

  findings = g_ptr_array_new_with_free_func ((GDestroyNotify) cw_finding_free);
  look.motion = motion;
  look.set = cw_motion_get_set (motion);
  look.design = look.set->design;
  look.states = states;
  look.work = cw_motion_work_new (motion);
  look.n_steps = cw_motion_get_n_steps (motion);
  look.n_panels = cw_panel_set_n_panels (look.set);
  look.unfolded = find_unfolded (&look);
  look.poses = g_new0 (CwPose *, look.n_steps + 1);
  look.views = g_new0 (CwView *, 2 * look.n_steps + 1);

  cw_sight_tell_wants (&look, findings);
  cw_sight_tell_faces (&look, findings);
  cw_sight_tell_art (&look, findings);

  for (guint i = 0; i < look.n_steps; i++)
    {
      if (look.poses[i] != NULL)
        cw_pose_free (look.poses[i]);
      cw_view_free (look.views[2 * i]);
      cw_view_free (look.views[2 * i + 1]);
    }
  g_free (look.poses);
  g_free (look.views);
  cw_motion_work_free (look.work);
  return findings;
}
