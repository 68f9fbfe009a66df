/* cw-trace-block.c: one block's part in a step: what drives, which way it leaves, how far it comes.
 *
 * In this order: if the listed hinges alone keep the loops closed, nothing else moves. Else the listed hinges are
 * taken one by one; one whose angle is settled by those before it, at a position where first order can be trusted,
 * does not drive and need only agree at the end. From a singular start the best way out is taken, from a regular one
 * the least motion. What cannot close exactly is tried again with the misfit that rounding to ticks, or the paper's
 * give, allows.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "fold/cw-trace-private.h"
#include "geometry/cw-tolerance.h"

static void
task_init (CwBlockTask *task, const CwAsk *ask)
{
  const CwLinkage *linkage = ask->linkage;

  task->ask = ask;
  task->block = &linkage->blocks[ask->block];
  task->n = task->block->n_joints;
  task->from = g_new (double, task->n);
  task->to = g_new (double, task->n);
  task->hint = ask->hint != NULL ? g_new (double, task->n) : NULL;
  task->sense = g_new (int, task->n);
  task->listed = g_new0 (gboolean, task->n);
  task->order = g_new (guint, task->n);
  task->slots = g_new (CwSlot, task->n);
  for (guint i = 0; i < task->n; i++)
    {
      guint j = task->block->joints[i];

      task->from[i] = task->to[i] = ask->start[j];
      if (task->hint != NULL)
        task->hint[i] = ask->hint[j];
      task->sense[i] = linkage->joints[j].way;
      task->slots[i] = linkage->joints[j].way == 0 ? CW_SLOT_HELD : CW_SLOT_FREE;
    }
  for (guint k = 0; k < ask->n_drives; k++)
    {
      guint j = ask->drives[k].joint, i = linkage->joint_slot[j];

      if (linkage->joint_block[j] != ask->block)
        continue;
      if (!task->listed[i])
        task->order[task->n_order++] = i;
      task->listed[i] = TRUE;
      task->to[i] = ask->drives[k].to_rad;
      if (fabs (task->to[i] - task->from[i]) > CW_TOL_ANGLE_AGREES_DEG * G_PI / 180)
        task->sense[i] = task->to[i] > task->from[i] ? 1 : -1;
      if (task->slots[i] == CW_SLOT_HELD)
        task->slots[i] = CW_SLOT_FREE; /* scored but not folded, yet named by this step */
    }
}

static void
task_clear (CwBlockTask *task)
{
  g_free (task->from);
  g_free (task->to);
  g_free (task->hint);
  g_free (task->sense);
  g_free (task->listed);
  g_free (task->order);
  g_free (task->slots);
}

static double
speed_of (const CwBlockTask *task)
{
  double speed = 0;

  for (guint i = 0; i < task->n; i++)
    if (task->listed[i])
      speed = MAX (speed, fabs (task->to[i] - task->from[i]));
  return speed;
}

/* Whether the listed hinges alone keep the loops closed, looked at all along and far enough to be told from standing
 * still. The misfit, if any, is no more than rounding. */
static gboolean
ramps_close (const CwBlockTask *task, CwAnswer *answer)
{
  const CwAsk *ask = task->ask;
  g_autofree double *x = g_memdup2 (task->from, task->n * sizeof (double));
  double far = MAX (1, CW_PLAIN_TURN / speed_of (task));
  double worst = 0;

  for (guint k = 1; k <= CW_PLAIN_LOOKS; k++)
    {
      double s = far * k / CW_PLAIN_LOOKS, misfit;
      guint joint;

      for (guint i = 0; i < task->n; i++)
        if (task->listed[i])
          x[i] = task->from[i] + (task->to[i] - task->from[i]) * s;
      misfit = cw_block_misfit (ask->linkage, ask->work, task->block, x, &joint);
      if (misfit > CW_TOL_EXACT_TICKS)
        return FALSE;
      if (misfit > worst)
        {
          worst = misfit;
          answer->misfit_joint = joint;
        }
    }
  answer->misfit = worst;
  if (worst <= CW_TOL_CLOSED * ask->linkage->size)
    {
      answer->misfit = 0;
      answer->misfit_joint = G_MAXUINT;
    }
  return TRUE;
}

static CwCourse *
still_path (const CwBlockTask *task, CwRows rows)
{
  return cw_course_new (task->ask->linkage, task->block, task->slots, task->from, task->to, task->sense, rows,
                        task->ask->give + CW_TOL_EXACT_TICKS);
}

/* The ways out of the start for what drives now. */
static GPtrArray *
ways_out (const CwBlockTask *task, CwRows rows, gboolean own_way, gboolean *by_hint)
{
  g_autoptr (CwCourse) still = still_path (task, rows);
  CwLinkageWork *work = task->ask->work;
  GPtrArray *paths;

  *by_hint = FALSE;
  if (!cw_course_is_singular (still, work))
    {
      paths = g_ptr_array_new_with_free_func ((GDestroyNotify) cw_course_free);
      still->loose
        = cw_block_looseness (still->linkage, work, still->block, still->slots, still->from, CW_TOL_LOOSE, NULL) > 0;
      cw_course_add (still, work, 0, task->from);
      g_ptr_array_add (paths, g_steal_pointer (&still));
      return paths;
    }
  if (task->hint != NULL)
    {
      double far = 0;

      for (guint i = 0; i < task->n; i++)
        far = MAX (far, fabs (task->hint[i] - task->from[i]));
      if (far > CW_LEAVE_SAME)
        {
          paths = cw_course_leave (still, work, task->hint, FALSE);
          if (paths->len > 0)
            {
              *by_hint = TRUE;
              return paths;
            }
          g_ptr_array_unref (paths);
        }
    }
  return cw_course_leave (still, work, NULL, own_way);
}

/* Settles which of the listed hinges drive: the first that moves, what stands still before it, and every later one
 * that those before leave open. Returns the ways out, for all that drive. */
static GPtrArray *
choose_drivers (CwBlockTask *task, CwRows rows, gboolean own_way, gboolean *by_hint)
{
  CwLinkageWork *work = task->ask->work;
  g_autofree double *null = g_new (double, (gsize) task->n * task->n);
  GPtrArray *paths;
  guint next = 0;

  for (guint i = 0; i < task->n; i++)
    if (task->listed[i])
      task->slots[i] = CW_SLOT_FREE;
  while (next < task->n_order)
    {
      guint i = task->order[next++];

      task->slots[i] = CW_SLOT_DRIVEN;
      if (fabs (task->to[i] - task->from[i]) > CW_TOL_ANGLE_AGREES_DEG * G_PI / 180)
        break;
    }
  paths = ways_out (task, rows, own_way, by_hint);

  while (paths->len > 0 && next < task->n_order && !cw_effort_is_out (work->effort))
    {
      const CwCourse *path = g_ptr_array_index (paths, 0);
      guint i = task->order[next++];
      guint loose = cw_block_looseness (path->linkage, work, task->block, task->slots,
                                        cw_course_get_x (path, path->s->len - 1), CW_TOL_LOOSE, null);
      double open = 0;

      for (guint k = 0; k < loose; k++)
        open = MAX (open, fabs (null[k * task->n + i]));
      if (open <= CW_TOL_OPEN)
        continue;
      task->slots[i] = CW_SLOT_DRIVEN;
      g_ptr_array_unref (paths);
      paths = ways_out (task, rows, own_way, by_hint);
    }
  return paths;
}

/* Listed hinges that follow must stand at their angles at the end. Returns how far the worst is off, radians. */
static double
disagreement (const CwBlockTask *task, const double *x)
{
  double worst = 0;

  for (guint i = 0; i < task->n; i++)
    if (task->listed[i])
      worst = MAX (worst, fabs (x[i] - task->to[i]));
  return worst;
}

/* Goes on to the end. Where more ways are open than driven, each hinge turns its own way; if none of these leads on,
 * any way. */
static gboolean
follow_on (CwCourse *path, CwLinkageWork *work)
{
  if (cw_course_get_s (path, path->s->len - 1) >= 1)
    return TRUE;
  path->bounded = path->loose || path->rows == CW_ROWS_GIVE;
  if (path->bounded && cw_course_follow (path, work, 1, TRUE) >= 1)
    return TRUE;
  path->bounded = FALSE;
  return cw_course_follow (path, work, 1, TRUE) >= 1;
}

/* Follows the ways out and keeps the first, in their order, that arrives and agrees; else the first. */
static gboolean
follow_ways (const CwBlockTask *task, GPtrArray *paths, gboolean by_hint, CwAnswer *answer)
{
  CwLinkageWork *work = task->ask->work;
  guint chosen = 0, good = 0, best_right = 0;
  gboolean settled = FALSE;

  for (guint k = 0; k < paths->len; k++)
    {
      CwCourse *path = g_ptr_array_index (paths, k);
      double agree = CW_TOL_ANGLE_AGREES_DEG * G_PI / 180;
      gboolean arrives;

      if (path->rows == CW_ROWS_GIVE)
        agree = CW_SNAP_NEAR_GIVE;
      /* A way that turns fewer scores than the best is only asked if the best did not bring the listed hinges
       * where they should be. */
      if (k > 0 && settled && path->right < best_right)
        break;
      arrives = follow_on (path, work);
      if (arrives && disagreement (task, cw_course_get_x (path, path->s->len - 1)) > agree)
        arrives = FALSE;
      else if (k == 0 || arrives)
        settled = TRUE;
      if (k == 0)
        best_right = path->right;
      if (!arrives)
        continue;
      if (good++ == 0)
        {
          chosen = k;
          best_right = path->right;
        }
    }
  if (good > 1 && !by_hint)
    {
      const CwCourse *first = g_ptr_array_index (paths, chosen);

      for (guint k = chosen + 1; k < paths->len; k++)
        {
          const CwCourse *other = g_ptr_array_index (paths, k);

          if (cw_course_get_s (other, other->s->len - 1) >= 1 && other->right == first->right && !other->loose
              && !first->loose && fabs (other->misfit - first->misfit) <= CW_TOL_EXACT_TICKS)
            answer->two_ways = TRUE;
        }
    }
  answer->path = g_ptr_array_steal_index (paths, chosen);
  answer->reached = MIN (cw_course_get_s (answer->path, answer->path->s->len - 1), 1);
  return good > 0;
}

/* The share at which the listed hinge that does not end where it should comes nearest to it. */
static double
nearest_agreement (const CwBlockTask *task, const CwCourse *path)
{
  double least = G_MAXDOUBLE, s = 0;

  for (guint k = 0; k < path->s->len; k++)
    {
      double off = disagreement (task, cw_course_get_x (path, k));

      if (off < least)
        {
          least = off;
          s = cw_course_get_s (path, k);
        }
    }
  return MIN (s, 1 - CW_FOLLOW_LEAST);
}

/* Whether a hinge that lay flat turns against its score or its listed fold, more than give can explain. */
static gboolean
turns_wrong (const CwBlockTask *task, const CwCourse *path)
{
  for (guint k = 0; k < path->s->len; k++)
    for (guint i = 0; i < task->n; i++)
      if (task->slots[i] == CW_SLOT_FREE && fabs (task->from[i]) <= CW_LEAVE_FLAT
          && (cw_course_get_x (path, k)[i] - task->from[i]) * task->sense[i] < -CW_LEAVE_SLACK_GIVE)
        return TRUE;
  return FALSE;
}

/* Paper cannot pass +-180: where an exact motion would, and rounding or give lets the loops close with the hinge held
 * there, that is what the card does. Where not, the exact motion stands, and its panels collide. */
static void
press_shut (const CwBlockTask *task, CwAnswer *answer)
{
  const CwCourse *path = answer->path;
  g_autoptr (CwCourse) pressed = NULL;
  guint n_within = 0;

  for (gboolean within = TRUE; within && n_within < path->s->len; n_within += within)
    for (guint i = 0; i < task->n; i++)
      within &= task->slots[i] != CW_SLOT_FREE || fabs (task->from[i]) > G_PI
                || fabs (cw_course_get_x (path, n_within)[i]) <= G_PI + CW_TOL_SHUT;
  if (n_within == 0 || n_within == path->s->len || path->rows != CW_ROWS_EXACT)
    return;
  pressed = cw_course_copy (path);
  pressed->rows = CW_ROWS_GIVE;
  pressed->bounded = TRUE;
  for (guint k = 0; k < n_within; k++)
    cw_course_add (pressed, task->ask->work, cw_course_get_s (path, k), cw_course_get_x (path, k));
  if (cw_course_follow (pressed, task->ask->work, 1, TRUE) < 1)
    return;
  cw_course_free (answer->path);
  answer->path = g_steal_pointer (&pressed);
  answer->reached = 1;
}

/* From where the exact motion stuck, on with what rounding or give allows. */
static void
go_on_with_give (const CwBlockTask *task, CwAnswer *answer)
{
  CwCourse *path = answer->path;
  guint n_exact = path->s->len;
  double stuck = cw_course_get_s (path, n_exact - 1), reached;
  g_autofree double *x = g_memdup2 (cw_course_get_x (path, n_exact - 1), task->n * sizeof (double));

  /* The last knot again, for at a dead point the exact tangent is boundless. */
  path->rows = CW_ROWS_GIVE;
  cw_course_cut (path, n_exact - 1);
  cw_course_add (path, task->ask->work, stuck, x);
  reached = cw_course_follow (path, task->ask->work, 1, TRUE);
  if (reached >= 1 || task->ask->give > CW_TOL_EXACT_TICKS)
    {
      answer->reached = reached;
      return;
    }
  cw_course_cut (path, n_exact);
  path->rows = CW_ROWS_EXACT;
  path->misfit = 0;
  path->misfit_joint = G_MAXUINT;
}

static gboolean
other_way_moves (CwBlockTask *task, CwRows rows)
{
  gboolean by_hint;
  g_autoptr (GPtrArray) paths = choose_drivers (task, rows, FALSE, &by_hint);

  return paths->len > 0;
}

/* A question that cost more than it may has no answer: the block stands still. */
static void
give_up (CwAnswer *answer)
{
  g_clear_pointer (&answer->path, cw_course_free);
  *answer = (CwAnswer){ .reached = 0, .misfit_joint = G_MAXUINT, .not_decided = TRUE };
}

/**
 * cw_block_answer:
 * @ask: what the step asks of a block
 *
 * Returns: how the block moves; its path is the caller's
 */
CwAnswer
cw_block_answer (const CwAsk *ask)
{
  CwAnswer answer = { .reached = 1, .misfit_joint = G_MAXUINT };
  g_autoptr (GPtrArray) paths = NULL;
  CwBlockTask task = { 0 };
  gboolean by_hint, good;

  task_init (&task, ask);
  if (speed_of (&task) <= 0)
    {
      task_clear (&task);
      return answer;
    }
  if (ramps_close (&task, &answer))
    {
      answer.sways = cw_block_sways (&task, NULL, 1);
      answer.sway_not_decided = cw_effort_is_out (ask->work->effort);
      task_clear (&task);
      return answer;
    }
  answer.misfit = 0;
  answer.misfit_joint = G_MAXUINT;

  paths = choose_drivers (&task, CW_ROWS_EXACT, TRUE, &by_hint);
  if (paths->len > 0)
    {
      good = follow_ways (&task, paths, by_hint, &answer);
      press_shut (&task, &answer);
      if (!good && answer.reached < 1)
        go_on_with_give (&task, &answer);
    }
  if (answer.path == NULL || answer.reached <= CW_FOLLOW_LEAST)
    {
      /* No exact motion at all. */
      gboolean other = other_way_moves (&task, CW_ROWS_EXACT);
      CwAnswer given = { .reached = 0, .misfit_joint = G_MAXUINT };

      g_ptr_array_unref (paths);
      paths = choose_drivers (&task, CW_ROWS_GIVE, TRUE, &by_hint);
      good = paths->len > 0 && follow_ways (&task, paths, by_hint, &given);
      if (given.path != NULL && (!other || (good && !turns_wrong (&task, given.path))))
        {
          g_clear_pointer (&answer.path, cw_course_free);
          answer = given;
        }
      else
        {
          g_clear_pointer (&given.path, cw_course_free);
          answer.reached = 0;
          answer.other_way_moves = other || other_way_moves (&task, CW_ROWS_GIVE);
          answer.misfit = cw_block_misfit (ask->linkage, ask->work, task.block, task.from, &answer.misfit_joint);
        }
    }
  if (cw_effort_is_out (ask->work->effort))
    give_up (&answer);
  if (answer.path != NULL)
    {
      double off;

      if (answer.reached >= 1)
        {
          off = disagreement (&task, cw_course_get_x (answer.path, answer.path->s->len - 1));
          if (off > (answer.path->rows == CW_ROWS_EXACT ? CW_TOL_ANGLE_AGREES_DEG * G_PI / 180 : CW_SNAP_NEAR_GIVE))
            answer.reached = nearest_agreement (&task, answer.path);
        }
      answer.sways = cw_block_sways (&task, answer.path, answer.reached);
      answer.sway_not_decided = cw_effort_is_out (ask->work->effort);
    }
  task_clear (&task);
  return answer;
}
