/* cw-motion.c: a motion once made: where every panel is at any moment of any step, and how each step ends.
 *
 * A pose is the step's traced angles at the moment asked for, composed along the linkage of that stretch of time:
 * nothing is allocated. At a step's end (fraction 1) what the step sticks on or takes away is done.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "fold/cw-motion-private.h"

#include "geometry/cw-tolerance.h"

struct CwMotionWork
{
  guint n_works;
  CwLinkageWork **works; /* one per assembly */
  CwRigid *bodies;       /* of the assembly with most */
  double *rho;           /* n_hinges */
};

/**
 * cw_motion_place:
 * @motion: a motion
 * @assembly: one of its assemblies
 * @work: scratch of its linkage
 * @rho: (array): n_hinges angles, radians
 * @bodies: (array): scratch, as many as panels
 * @pose: (out caller-allocates): gets where everything is at these angles
 */
void
cw_motion_place (const CwMotion *motion, const CwAssembly *assembly, CwLinkageWork *work, const double *rho,
                 CwRigid *bodies, CwPose *pose)
{
  if (assembly->linkage == NULL)
    return;
  cw_linkage_place (assembly->linkage, work, rho, bodies);
  for (guint i = 0; i < motion->n_panels; i++)
    {
      pose->places[i] = cw_rigid_compose (&bodies[assembly->body[i]], &assembly->in_body[i]);
      pose->present[i] = assembly->present[i];
    }
  for (guint i = 0; i < motion->n_hinges; i++)
    pose->angles_deg[i] = rho[i] * 180 / G_PI;
}

/**
 * cw_motion_angles_before:
 *
 * Returns: (transfer none): the angles at which @step begins, radians
 */
const double *
cw_motion_angles_before (const CwMotion *motion, guint step)
{
  return step > 0 ? motion->steps[step - 1].end : motion->flat;
}

/**
 * cw_motion_ref:
 *
 * Returns: (transfer full): @motion
 */
CwMotion *
cw_motion_ref (CwMotion *motion)
{
  g_return_val_if_fail (motion != NULL, NULL);
  return g_atomic_rc_box_acquire (motion);
}

static void
motion_clear (gpointer data)
{
  CwMotion *motion = data;

  for (guint i = 0; i < motion->n_steps; i++)
    {
      g_clear_pointer (&motion->steps[i].trace, cw_trace_unref);
      g_free (motion->steps[i].end);
      g_free (motion->steps[i].moves);
    }
  g_free (motion->steps);
  g_free (motion->flat);
  g_ptr_array_unref (motion->assemblies);
  g_ptr_array_unref (motion->findings);
  cw_panel_set_unref (motion->set);
}

/**
 * cw_motion_unref:
 * @motion: (transfer full): a motion
 */
void
cw_motion_unref (CwMotion *motion)
{
  g_return_if_fail (motion != NULL);
  g_atomic_rc_box_release_full (motion, motion_clear);
}

/**
 * cw_motion_get_set:
 *
 * Returns: (transfer none): the panels @motion was made from
 */
CwPanelSet *
cw_motion_get_set (const CwMotion *motion)
{
  g_return_val_if_fail (motion != NULL, NULL);
  return motion->set;
}

/**
 * cw_motion_get_held:
 *
 * Returns: the panel that stays still, through the design; G_MAXUINT when there is no panel at all
 */
guint
cw_motion_get_held (const CwMotion *motion)
{
  g_return_val_if_fail (motion != NULL, G_MAXUINT);
  return motion->held;
}

/**
 * cw_motion_get_n_steps:
 *
 * Returns: how many steps the design has
 */
guint
cw_motion_get_n_steps (const CwMotion *motion)
{
  g_return_val_if_fail (motion != NULL, 0);
  return motion->n_steps;
}

/**
 * cw_motion_get_state:
 * @motion: a motion
 * @step: index of a step
 *
 * Returns: (transfer none): how the step ends
 */
const CwMotionState *
cw_motion_get_state (const CwMotion *motion, guint step)
{
  g_return_val_if_fail (motion != NULL && step < motion->n_steps, NULL);
  return &motion->steps[step].state;
}

/**
 * cw_motion_get_start_state:
 * @motion: a motion
 *
 * Returns: (transfer none): the flat card before the first step; freedom is not asked there and 0
 */
const CwMotionState *
cw_motion_get_start_state (const CwMotion *motion)
{
  g_return_val_if_fail (motion != NULL, NULL);
  return &motion->start;
}

/**
 * cw_motion_get_effort:
 * @motion: a motion
 *
 * Returns: what its loops cost to work out, in units of cw-effort.h
 */
gint64
cw_motion_get_effort (const CwMotion *motion)
{
  g_return_val_if_fail (motion != NULL, 0);
  return motion->effort;
}

/**
 * cw_motion_get_findings:
 *
 * Returns: (transfer none) (element-type CwFinding): what there is to say about the motion, in the order of the steps
 */
GPtrArray *
cw_motion_get_findings (const CwMotion *motion)
{
  g_return_val_if_fail (motion != NULL, NULL);
  return motion->findings;
}

/**
 * cw_motion_work_new:
 *
 * Returns: (transfer full): scratch for one thread that asks poses of @motion
 */
CwMotionWork *
cw_motion_work_new (const CwMotion *motion)
{
  CwMotionWork *work;

  g_return_val_if_fail (motion != NULL, NULL);

  work = g_new0 (CwMotionWork, 1);
  work->n_works = motion->assemblies->len;
  work->works = g_new0 (CwLinkageWork *, work->n_works + 1);
  for (guint i = 0; i < work->n_works; i++)
    {
      const CwAssembly *assembly = g_ptr_array_index (motion->assemblies, i);

      if (assembly->linkage)
        work->works[i] = cw_linkage_work_new (assembly->linkage);
    }
  work->bodies = g_new0 (CwRigid, motion->n_panels + 1);
  work->rho = g_new0 (double, motion->n_hinges + 1);
  return work;
}

/**
 * cw_motion_work_free:
 * @work: (transfer full) (nullable): scratch
 */
void
cw_motion_work_free (CwMotionWork *work)
{
  if (work == NULL)
    return;
  for (guint i = 0; i < work->n_works; i++)
    g_clear_pointer (&work->works[i], cw_linkage_work_free);
  g_free (work->works);
  g_free (work->bodies);
  g_free (work->rho);
  g_free (work);
}

/**
 * cw_pose_new:
 *
 * Returns: (transfer full): a pose with room for @motion; all at the identity, nothing present
 */
CwPose *
cw_pose_new (const CwMotion *motion)
{
  CwPose *pose;

  g_return_val_if_fail (motion != NULL, NULL);

  pose = g_new0 (CwPose, 1);
  pose->n_panels = motion->n_panels;
  pose->n_hinges = motion->n_hinges;
  pose->places = g_new0 (CwRigid, pose->n_panels + 1);
  pose->present = g_new0 (gboolean, pose->n_panels + 1);
  pose->angles_deg = g_new0 (double, pose->n_hinges + 1);
  for (guint i = 0; i < pose->n_panels; i++)
    pose->places[i] = cw_rigid_identity ();
  return pose;
}

/**
 * cw_pose_copy:
 *
 * Returns: (transfer full): a pose equal to @pose
 */
CwPose *
cw_pose_copy (const CwPose *pose)
{
  CwPose *copy;

  g_return_val_if_fail (pose != NULL, NULL);

  copy = g_new0 (CwPose, 1);
  copy->n_panels = pose->n_panels;
  copy->n_hinges = pose->n_hinges;
  copy->places = g_memdup2 (pose->places, (pose->n_panels + 1) * sizeof (CwRigid));
  copy->present = g_memdup2 (pose->present, (pose->n_panels + 1) * sizeof (gboolean));
  copy->angles_deg = g_memdup2 (pose->angles_deg, (pose->n_hinges + 1) * sizeof (double));
  return copy;
}

/**
 * cw_pose_free:
 * @pose: (transfer full) (nullable): a pose
 */
void
cw_pose_free (CwPose *pose)
{
  if (pose == NULL)
    return;
  g_free (pose->places);
  g_free (pose->present);
  g_free (pose->angles_deg);
  g_free (pose);
}

/**
 * cw_motion_get_pose:
 * @motion: a motion
 * @work: scratch made for @motion
 * @step: index of a step
 * @fraction: of the step, 0 to 1; beyond where it stops the card stands still
 * @pose: (out caller-allocates): a pose made for @motion
 *
 * Allocates nothing. The held panel's place is the identity.
 */
void
cw_motion_get_pose (const CwMotion *motion, CwMotionWork *work, guint step, double fraction, CwPose *pose)
{
  const CwMotionStep *s;
  const double *rho;
  guint which;

  g_return_if_fail (motion != NULL && work != NULL && pose != NULL && step < motion->n_steps);
  g_return_if_fail (pose->n_panels == motion->n_panels && work->n_works == motion->assemblies->len);

  s = &motion->steps[step];
  which = fraction >= 1 ? s->after : s->before;
  rho = fraction >= 1 ? s->end : cw_motion_angles_before (motion, step);
  if (s->trace && fraction > 0 && fraction < 1)
    {
      cw_trace_get_angles (s->trace, work->works[s->before], fraction, work->rho);
      rho = work->rho;
    }
  cw_motion_place (motion, g_ptr_array_index (motion->assemblies, which), work->works[which], rho, work->bodies, pose);
}

/**
 * cw_motion_get_misfit:
 * @motion: a motion
 * @work: scratch made for @motion
 * @step: index of a step
 * @fraction: of the step, above 0 and below 1
 *
 * Returns: how far the loops miss closing there at the worst place, ticks; 0 when they close exactly
 */
double
cw_motion_get_misfit (const CwMotion *motion, CwMotionWork *work, guint step, double fraction)
{
  const CwMotionStep *s;
  const CwAssembly *assembly;
  const double *rho;
  double misfit;

  g_return_val_if_fail (motion != NULL && work != NULL && step < motion->n_steps && fraction > 0 && fraction < 1, 0);

  s = &motion->steps[step];
  assembly = g_ptr_array_index (motion->assemblies, s->before);
  if (assembly->linkage == NULL)
    return 0;
  rho = cw_motion_angles_before (motion, step);
  if (s->trace)
    {
      cw_trace_get_angles (s->trace, work->works[s->before], fraction, work->rho);
      rho = work->rho;
    }
  misfit = cw_linkage_misfit (assembly->linkage, work->works[s->before], rho, NULL);
  return misfit > CW_TOL_CLOSED * cw_panel_set_get_size (motion->set) ? misfit : 0;
}

/**
 * cw_motion_get_start:
 * @motion: a motion
 * @pose: (out caller-allocates): gets the flat card before the first step: the ground piece, unfolded
 */
void
cw_motion_get_start (const CwMotion *motion, CwPose *pose)
{
  const CwAssembly *first;

  g_return_if_fail (motion != NULL && pose != NULL && pose->n_panels == motion->n_panels);

  first = g_ptr_array_index (motion->assemblies, 0);
  for (guint i = 0; i < pose->n_panels; i++)
    {
      pose->places[i] = cw_rigid_identity ();
      pose->present[i] = first->present[i];
    }
  for (guint i = 0; i < pose->n_hinges; i++)
    pose->angles_deg[i] = 0;
}

/**
 * cw_motion_step_moves:
 * @motion: a motion
 * @step: index of a step
 * @panel: a panel, through the design
 *
 * Returns: %TRUE if the panel moves relative to the held one within the step
 */
gboolean
cw_motion_step_moves (const CwMotion *motion, guint step, guint panel)
{
  g_return_val_if_fail (motion != NULL && step < motion->n_steps && panel < motion->n_panels, FALSE);
  return motion->steps[step].moves[panel];
}

static const CwAssembly *
assembly_after (const CwMotion *motion, guint step)
{
  return g_ptr_array_index (motion->assemblies, step == G_MAXUINT ? 0 : motion->steps[step].after);
}

/**
 * cw_motion_get_group:
 * @motion: a motion
 * @step: index of a step; %G_MAXUINT for the moment before the first
 * @panel: a panel, through the design
 *
 * Returns: a number that the panel shares, at the step's end, with all panels of pieces joined to its own
 */
guint
cw_motion_get_group (const CwMotion *motion, guint step, guint panel)
{
  guint piece;

  g_return_val_if_fail (motion != NULL && panel < motion->n_panels, G_MAXUINT);
  g_return_val_if_fail (step == G_MAXUINT || step < motion->n_steps, G_MAXUINT);

  cw_panel_set_locate (motion->set, panel, &piece, NULL);
  return assembly_after (motion, step)->group[piece];
}

/**
 * cw_motion_get_body:
 * @motion: a motion
 * @step: index of a step; %G_MAXUINT for the moment before the first
 * @panel: a panel, through the design
 *
 * Returns: a number that the panel shares, at the step's end, with all panels that move as one with it
 */
guint
cw_motion_get_body (const CwMotion *motion, guint step, guint panel)
{
  g_return_val_if_fail (motion != NULL && panel < motion->n_panels, G_MAXUINT);
  g_return_val_if_fail (step == G_MAXUINT || step < motion->n_steps, G_MAXUINT);

  return assembly_after (motion, step)->body[panel];
}
