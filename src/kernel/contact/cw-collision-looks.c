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

static CwPose *
look (CwLooks *looks, double t)
{
  cw_motion_get_pose (looks->motion, looks->work, looks->step, t, looks->scratch);
  return cw_pose_copy (looks->scratch);
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
  cw_pose_free (span->pose[1]);
  if (span->owns_ends)
    cw_pose_free (span->pose[2]);
  g_free (span);
}

/* Adds spans from `p` to `q`; owns `q`. */
static void
add_spans (CwLooks *looks, double t0, CwPose *p, double t1, CwPose *q)
{
  double middle = (t0 + t1) / 2;
  CwPose *m = look (looks, middle);
  CwSpan *span;

  if (t1 - t0 > CW_COLLISION_LEAST_SPAN && (too_far (p, m) || too_far (m, q)))
    {
      add_spans (looks, t0, p, middle, m);
      add_spans (looks, middle, m, t1, q);
      return;
    }
  span = g_new0 (CwSpan, 1);
  span->t[0] = t0;
  span->t[1] = middle;
  span->t[2] = t1;
  span->pose[0] = p;
  span->pose[1] = m;
  span->pose[2] = q;
  span->owns_ends = TRUE;
  g_ptr_array_add (looks->spans, span);
}

/* How far from `end` (towards `inner`) the widest hinge is about a degree off, as a share of the step. */
static double
last_degree (CwLooks *looks, double end, double inner)
{
  g_autoptr (CwPose) at_end = look (looks, end);
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
  CwPose *start, *early, *late, *stop;
  double early_t;

  looks->motion = motion;
  looks->work = work;
  looks->step = step;
  looks->scratch = cw_pose_new (motion);
  looks->spans = g_ptr_array_new_with_free_func ((GDestroyNotify) span_free);
  if (!(end > 0))
    return looks;

  start = look (looks, 0);
  stop = look (looks, end);
  cw_motion_get_pose (motion, work, step, end / 2, looks->scratch);
  looks->moves = hinge_turn (start, stop) > 0 || hinge_turn (start, looks->scratch) > 0;
  if (!looks->moves)
    {
      cw_pose_free (start);
      cw_pose_free (stop);
      return looks;
    }
  early_t = last_degree (looks, 0, end);
  looks->late_t = MAX (last_degree (looks, end, 0), early_t + (end - early_t) / 2);
  early = look (looks, early_t);
  late = look (looks, looks->late_t);
  add_spans (looks, 0, start, early_t, early);
  looks->n_early = looks->spans->len;
  add_spans (looks, early_t, early, looks->late_t, late);
  looks->n_late_first = looks->spans->len;
  add_spans (looks, looks->late_t, late, end, stop);
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
    cw_pose_free (((CwSpan *) g_ptr_array_index (looks->spans, 0))->pose[0]);
  g_ptr_array_unref (looks->spans);
  cw_pose_free (looks->scratch);
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
  return looks->moves ? ((CwSpan *) g_ptr_array_index (looks->spans, looks->n_late_first))->pose[0] : NULL;
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
  if (span->t[2] - span->t[0] < 2 * CW_COLLISION_LEAST_SPAN)
    return FALSE;
  for (guint i = 0; i < 2; i++)
    {
      CwSpan *half = g_new0 (CwSpan, 1);

      half->t[0] = span->t[i];
      half->t[2] = span->t[i + 1];
      half->t[1] = (half->t[0] + half->t[2]) / 2;
      half->pose[0] = span->pose[i];
      half->pose[2] = span->pose[i + 1];
      half->pose[1] = look (looks, half->t[1]);
      span->half[i] = half;
    }
  return TRUE;
}
