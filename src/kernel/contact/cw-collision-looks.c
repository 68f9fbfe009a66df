/* cw-collision-looks.c: looks at a step's motion, close enough together that what happens between two of them is known
 * from them.
 *
 * Between two looks no hinge turns by more than CW_COLLISION_TURN and no panel by more than CW_COLLISION_PANEL_TURN in
 * space. Distances then run so straight that a second difference over three looks tells how far off a straight line
 * they can be. A span may be halved further for a pair that needs it.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "contact/cw-collision-private.h"

#include "geometry/cw-tolerance.h"

/* Most any hinge turns between two looks, radians; a pose's angles are in degrees. */
static double
hinge_turn (const CwPose *p, const CwPose *q)
{
  double most = 0;

  for (guint i = 0; i < p->n_hinges; i++)
    most = MAX (most, fabs (p->angles_deg[i] - q->angles_deg[i]));
  return most * G_PI / 180;
}

/* Whether any panel turns in space by more than an angle of this cosine. */
static gboolean
panel_turns (const CwPose *p, const CwPose *q, double least_cos)
{
  for (guint i = 0; i < p->n_panels; i++)
    {
      double trace = 0;

      for (guint r = 0; r < 3; r++)
        for (guint c = 0; c < 3; c++)
          trace += p->places[i].r[r][c] * q->places[i].r[r][c];
      if ((trace - 1) / 2 < least_cos)
        return TRUE;
    }
  return FALSE;
}

/* What stands still but for rounding does not count: just there rounding may swing it far. */
static double
off_flat (const CwLooks *looks, const CwPose *pose)
{
  double off[2] = { 0, 0 };

  for (guint i = 0; i < pose->n_hinges; i++)
    {
      if (fabs (looks->ends[0]->angles_deg[i] - looks->ends[1]->angles_deg[i]) < CW_TOL_ANGLE_AGREES_DEG)
        continue;
      for (guint e = 0; e < 2; e++)
        {
          double end = looks->ends[e]->angles_deg[i];

          off[e] = fabs (remainder (end, 180)) < CW_TOL_FLAT_SNAP_DEG
                     ? MAX (off[e], fabs (pose->angles_deg[i] - end) * G_PI / 180)
                     : G_MAXDOUBLE;
        }
    }
  return MIN (off[0], off[1]);
}

static CwMoment *
look (CwLooks *looks, double t)
{
  CwMoment *moment = g_new0 (CwMoment, 1);

  moment->t = t;
  moment->pose = cw_pose_new (looks->motion);
  cw_motion_get_pose (looks->motion, looks->work, looks->step, t, moment->pose);
  moment->back = g_new (CwRigid, moment->pose->n_panels + 1);
  for (guint i = 0; i < moment->pose->n_panels; i++)
    moment->back[i] = cw_rigid_inverse (&moment->pose->places[i]);
  moment->off_flat = off_flat (looks, moment->pose);
  return moment;
}

static void
moment_free (CwMoment *moment)
{
  cw_pose_free (moment->pose);
  g_free (moment->back);
  g_free (moment);
}

static gboolean
too_far (const CwPose *p, const CwPose *q)
{
  return hinge_turn (p, q) > CW_COLLISION_TURN || panel_turns (p, q, cos (CW_COLLISION_PANEL_TURN));
}

static void
span_free (CwSpan *span)
{
  if (span == NULL)
    return;
  span_free (span->half[0]);
  span_free (span->half[1]);
  moment_free (span->moment[1]);
  if (span->owns_ends)
    moment_free (span->moment[2]);
  g_free (span);
}

/* Adds spans from `p` to `q`, which they own. */
static void
add_spans (CwLooks *looks, CwMoment *p, CwMoment *q)
{
  CwMoment *m = look (looks, (p->t + q->t) / 2);
  CwSpan *span;

  if (q->t - p->t > CW_COLLISION_LEAST_SPAN && (too_far (p->pose, m->pose) || too_far (m->pose, q->pose)))
    {
      add_spans (looks, p, m);
      add_spans (looks, m, q);
      return;
    }
  span = g_new0 (CwSpan, 1);
  span->moment[0] = p;
  span->moment[1] = m;
  span->moment[2] = q;
  span->owns_ends = TRUE;
  g_ptr_array_add (looks->spans, span);
}

/* How far from `end` (towards `inner`) the widest hinge is about a degree off, as a share of the step. */
static double
last_degree (CwLooks *looks, double end, double inner)
{
  const CwPose *at_end = looks->ends[end > inner];
  double share = 0.5;

  for (guint i = 0; i < CW_COLLISION_HALVINGS; i++)
    {
      cw_motion_get_pose (looks->motion, looks->work, looks->step, end + (inner - end) * share, looks->scratch);
      if (hinge_turn (looks->scratch, at_end) <= CW_COLLISION_LATE_TURN)
        break;
      share /= 2;
    }
  return end + (inner - end) * share;
}

/**
 * cw_looks_new:
 * @motion: a motion
 * @work: scratch of @motion; used as long as the looks are
 * @step: index of a step
 *
 * Returns: (transfer full): the step looked at; without spans if nothing moves
 */
CwLooks *
cw_looks_new (CwMotion *motion, CwMotionWork *work, guint step)
{
  CwLooks *looks = g_new0 (CwLooks, 1);
  /* Where a step stops short the card stands still from there on. */
  double end = MIN (cw_motion_get_state (motion, step)->reached, 1);
  double early_t;
  CwMoment *start, *early, *late, *stop;

  looks->motion = motion;
  looks->work = work;
  looks->step = step;
  looks->scratch = cw_pose_new (motion);
  looks->spans = g_ptr_array_new_with_free_func ((GDestroyNotify) span_free);
  if (!(end > 0))
    return looks;

  for (guint e = 0; e < 2; e++)
    {
      looks->ends[e] = cw_pose_new (motion);
      cw_motion_get_pose (motion, work, step, e == 0 ? 0 : end, looks->ends[e]);
    }
  cw_motion_get_pose (motion, work, step, end / 2, looks->scratch);
  looks->moves = hinge_turn (looks->ends[0], looks->ends[1]) > 0 || hinge_turn (looks->ends[0], looks->scratch) > 0;
  if (!looks->moves)
    return looks;
  early_t = last_degree (looks, 0, end);
  looks->late_t = MAX (last_degree (looks, end, 0), early_t + (end - early_t) / 2);
  start = look (looks, 0);
  early = look (looks, early_t);
  late = look (looks, looks->late_t);
  stop = look (looks, end);
  add_spans (looks, start, early);
  looks->n_early = looks->spans->len;
  add_spans (looks, early, late);
  looks->n_late_first = looks->spans->len;
  add_spans (looks, late, stop);
  return looks;
}

/**
 * cw_looks_free:
 * @looks: (transfer full) (nullable): looks
 */
void
cw_looks_free (CwLooks *looks)
{
  if (looks == NULL)
    return;
  if (looks->spans->len > 0)
    moment_free (((CwSpan *) g_ptr_array_index (looks->spans, 0))->moment[0]);
  g_ptr_array_unref (looks->spans);
  cw_pose_free (looks->scratch);
  cw_pose_free (looks->ends[0]);
  cw_pose_free (looks->ends[1]);
  g_free (looks);
}

/**
 * cw_looks_get_late:
 *
 * Returns: (transfer none) (nullable): where the card stands a degree before the step's end; %NULL if nothing moves
 */
const CwPose *
cw_looks_get_late (const CwLooks *looks)
{
  return looks->moves ? ((CwSpan *) g_ptr_array_index (looks->spans, looks->n_late_first))->moment[0]->pose : NULL;
}

/**
 * cw_looks_split:
 * @looks: looks
 * @span: one of them
 *
 * Returns: %FALSE if the span is too short to be halved
 */
gboolean
cw_looks_split (CwLooks *looks, CwSpan *span)
{
  if (span->half[0] != NULL)
    return TRUE;
  if (span->moment[2]->t - span->moment[0]->t < 2 * CW_COLLISION_LEAST_SPAN)
    return FALSE;
  for (guint i = 0; i < 2; i++)
    {
      CwSpan *half = g_new0 (CwSpan, 1);

      half->moment[0] = span->moment[i];
      half->moment[2] = span->moment[i + 1];
      half->moment[1] = look (looks, (half->moment[0]->t + half->moment[2]->t) / 2);
      span->half[i] = half;
    }
  return TRUE;
}
