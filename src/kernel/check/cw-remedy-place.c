/* cw-remedy-place.c: a piece that hangs on the card already and should be stuck somewhere else.
 *
 * It is stuck where it lies then, or one of the two places is left out.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "check/cw-remedy-private.h"

#include "geometry/cw-tolerance.h"

#include <glib/gi18n-lib.h>
#include <math.h>

static void
offer_where_it_lies (CwMending *mending, const CwStep *step)
{
  const CwPanelSet *set = mending->analysis->panels;
  g_autoptr (CwMotionWork) work = cw_motion_work_new (mending->analysis->motion);
  g_autoptr (CwPose) pose = cw_pose_new (mending->analysis->motion);
  guint piece = cw_design_find_piece (mending->design, step->piece);
  guint laid, host = cw_panel_set_find_host (set, step);
  CwRigid back, lies;
  CwDraft *draft;
  CwStep *copy;
  gboolean over;
  double turn;
  g_autofree char *x = NULL, *y = NULL;

  if (piece == G_MAXUINT || host == G_MAXUINT)
    return;
  laid = cw_panel_set_find_laid (set, piece);
  if (laid == G_MAXUINT)
    return;
  laid += set->first_panel[piece];
  cw_motion_get_pose (mending->analysis->motion, work, cw_design_find_step (mending->design, step->id), 0, pose);
  back = cw_rigid_inverse (&pose->places[host]);
  lies = cw_rigid_compose (&back, &pose->places[laid]);
  if (fabs (lies.t.z) > CW_TOL_FLAT_TICKS || fabs (fabs (lies.r[2][2]) - 1) > CW_TOL_EDGE_ON)
    return;
  over = lies.r[2][2] < 0;
  turn = (over ? atan2 (-lies.r[1][0], -lies.r[0][0]) : atan2 (lies.r[1][0], lies.r[0][0])) * 180 / G_PI;
  draft = cw_draft_new (mending->design);
  copy = cw_step_copy (step);
  copy->facing = over ? copy->on_face : copy->on_face == CW_FACE_FRONT ? CW_FACE_BACK : CW_FACE_FRONT;
  copy->turn = round (copy->on_face == CW_FACE_BACK ? -turn : turn);
  cw_place_set (&copy->at, cw_point ((gint32) lround (lies.t.x), (gint32) lround (lies.t.y)));
  x = cw_mending_say (mending, copy->at.x.ticks);
  y = cw_mending_say (mending, copy->at.y.ticks);
  cw_draft_put_step (draft, copy);
  mending->family++;
  cw_mending_offer (mending, draft, N_ ("stick where it lies"), N_ ("Stick it where it lies then, at {0} and {1}."), x,
                    y, NULL);
}

/* Of two steps that stick one piece in two places one is left out: this one, or the last one before it. */
static void
offer_one_place (CwMending *mending, const CwStep *step)
{
  const GPtrArray *steps = mending->design->steps;
  guint own = cw_design_find_step (mending->design, step->id);

  for (guint i = own + 1; own != G_MAXUINT && i-- > 0;)
    {
      const CwStep *other = steps->pdata[i];
      CwDraft *draft;

      if (other->what != CW_DO_STICK || g_strcmp0 (other->piece, step->piece) != 0)
        continue;
      draft = cw_draft_new (mending->design);
      cw_draft_do (draft, cw_edit_new_erase (draft->design, CW_LIST_STEPS, NULL, i));
      mending->family++;
      mending->gives_up = TRUE;
      cw_mending_offer (mending, draft, N_ ("leave out a step"),
                        i == own ? N_ ("Leave out “{0}”: “{1}” stays where it is.")
                                 : N_ ("Leave out the first “{0}”: “{1}” is stuck only later."),
                        cw_mending_name_step (other),
                        cw_mending_name_piece (cw_design_get_piece (mending->design, step->piece)), NULL);
      mending->gives_up = FALSE;
      if (i < own)
        return;
    }
}

/**
 * cw_mend_place:
 * @mending: a `cannot-move`
 * @step: the step that sticks and cannot
 */
void
cw_mend_place (CwMending *mending, const CwStep *step)
{
  offer_where_it_lies (mending, step);
  if (step->piece != NULL && cw_design_get_piece (mending->design, step->piece) != NULL)
    offer_one_place (mending, step);
}
