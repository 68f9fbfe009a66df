/* cw-trace.c: one step's motion: what every block does, put together, and asked at any moment.
 *
 * Hinges outside all loops follow their ramps. Every block that the step drives answers for itself
 * (cw-trace-block.c); the step goes as far as the block that comes least far. Where several blocks move they share one
 * fraction of the step. A step that undoes the one before is that one run backward.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "fold/cw-trace-private.h"
#include "geometry/cw-tolerance.h"

#include <string.h>

struct CwTrace
{
  gatomicrefcount refs;
  CwLinkage *linkage;
  double *from, *to; /* n_joints: the ramps of hinges that are in no path */
  gboolean *listed;  /* n_joints */
  GPtrArray *paths;  /* of CwCourse: blocks in which more moves than is driven */
  CwTraceResult result;
};

/* Asks every block that the step drives. */
static void
answer_blocks (CwTrace *trace, const double *hint, const CwDrive *drives, guint n_drives, double give_ticks,
               CwEffort *effort)
{
  const CwLinkage *linkage = trace->linkage;
  CwTraceResult *result = &trace->result;
  g_autoptr (CwLinkageWork) work = cw_linkage_work_new (linkage);
  g_autofree gboolean *driven = g_new0 (gboolean, linkage->n_blocks);

  work->effort = effort;
  for (guint i = 0; i < n_drives; i++)
    if (linkage->joint_block[drives[i].joint] != G_MAXUINT)
      driven[linkage->joint_block[drives[i].joint]] = TRUE;

  for (guint k = 0; k < linkage->n_blocks; k++)
    {
      CwAsk ask = { linkage, work, k, trace->from, hint, drives, n_drives, give_ticks };
      CwAnswer answer;

      if (!driven[k])
        continue;
      answer = cw_block_answer (&ask);
      if (answer.path != NULL)
        g_ptr_array_add (trace->paths, answer.path);
      if (answer.reached < result->reached)
        {
          result->verdict = answer.not_decided ? CW_TRACE_NOT_DECIDED : CW_TRACE_STOPPED;
          result->reached = answer.reached;
          result->blocking_block = k;
        }
      if (answer.misfit > result->misfit_ticks)
        {
          result->misfit_ticks = answer.misfit;
          result->misfit_joint = answer.misfit_joint;
        }
      result->two_ways |= answer.two_ways;
      result->other_way_moves |= answer.other_way_moves;
      result->sways |= answer.sways;
      result->sway_not_decided |= answer.sway_not_decided;
    }

  for (guint k = 0; k < trace->paths->len; k++)
    {
      const CwCourse *path = g_ptr_array_index (trace->paths, k);

      if (path->misfit > result->misfit_ticks)
        {
          result->misfit_ticks = path->misfit;
          result->misfit_joint = path->misfit_joint;
        }
    }
  result->needs_give = result->reached > 0 && result->misfit_ticks > CW_TOL_EXACT_TICKS;
}

/**
 * cw_linkage_trace:
 * @linkage: a linkage
 * @start: (array): n_joints angles at the step's beginning, radians
 * @drives: (array length=n_drives): which hinges go where, in the order listed
 * @n_drives: how many
 * @give_ticks: how far paper bends to let a loop close, 0 for not beyond what rounding to ticks asks
 *
 * Returns: (transfer full): the step's motion
 */
CwTrace *
cw_linkage_trace (CwLinkage *linkage, const double *start, const CwDrive *drives, guint n_drives, double give_ticks)
{
  return cw_linkage_trace_from (linkage, start, NULL, drives, n_drives, give_ticks);
}

/**
 * cw_linkage_trace_from:
 * @linkage: a linkage
 * @start: (array): n_joints angles at the step's beginning, radians
 * @hint: (array) (nullable): n_joints angles a little before @start on the way it came, or %NULL if not known: each
 *   hinge as it stood shortly before the end of the last step that moved it. Where several motions leave @start, the
 *   one that goes back that way is taken, so that opening retraces closing
 * @drives: (array length=n_drives): which hinges go where, in the order listed
 * @n_drives: how many
 * @give_ticks: how far paper bends to let a loop close, 0 for not beyond what rounding to ticks asks
 *
 * Returns: (transfer full): the step's motion
 */
CwTrace *
cw_linkage_trace_from (CwLinkage *linkage, const double *start, const double *hint, const CwDrive *drives,
                       guint n_drives, double give_ticks)
{
  return cw_linkage_trace_within (linkage, start, hint, drives, n_drives, give_ticks, NULL);
}

/**
 * cw_linkage_trace_within:
 * @linkage: a linkage
 * @start: (array): n_joints angles at the step's beginning, radians
 * @hint: (array) (nullable): the way it came, as for cw_linkage_trace_from()
 * @drives: (array length=n_drives): which hinges go where, in the order listed
 * @n_drives: how many
 * @give_ticks: how far paper bends to let a loop close
 * @effort: (nullable): how much work it may cost; what was done is taken off
 *
 * Returns: (transfer full): the step's motion; not decided, and standing still, if the effort is out before
 */
CwTrace *
cw_linkage_trace_within (CwLinkage *linkage, const double *start, const double *hint, const CwDrive *drives,
                         guint n_drives, double give_ticks, CwEffort *effort)
{
  CwTrace *trace;

  g_return_val_if_fail (linkage != NULL, NULL);
  g_return_val_if_fail (start != NULL || linkage->n_joints == 0, NULL);
  g_return_val_if_fail (drives != NULL || n_drives == 0, NULL);
  for (guint i = 0; i < n_drives; i++)
    g_return_val_if_fail (drives[i].joint < linkage->n_joints, NULL);

  trace = g_new0 (CwTrace, 1);
  g_atomic_ref_count_init (&trace->refs);
  trace->linkage = cw_linkage_ref (linkage);
  trace->from = g_memdup2 (start, linkage->n_joints * sizeof (double));
  trace->to = g_memdup2 (start, linkage->n_joints * sizeof (double));
  for (guint i = 0; i < n_drives; i++)
    trace->to[drives[i].joint] = drives[i].to_rad;
  trace->listed = g_new0 (gboolean, linkage->n_joints + 1);
  for (guint i = 0; i < n_drives; i++)
    trace->listed[drives[i].joint] = TRUE;
  trace->paths = g_ptr_array_new_with_free_func ((GDestroyNotify) cw_course_free);
  trace->result.reached = 1;
  trace->result.misfit_joint = G_MAXUINT;
  trace->result.blocking_block = G_MAXUINT;
  if (linkage->n_blocks > 0)
    answer_blocks (trace, hint, drives, n_drives, give_ticks, effort);
  return trace;
}

static gboolean
has_knot (const CwCourse *path, double s)
{
  for (guint k = 0; k < path->s->len; k++)
    if (!(fabs (cw_course_get_s (path, k) - s) > 0))
      return TRUE;
  return FALSE;
}

/* The motion from share `high` of the step back to share `low`. */
static CwCourse *
course_back (const CwCourse *path, CwLinkageWork *work, double high, double low)
{
  CwCourse *back = cw_course_copy (path);
  guint n = path->block->n_joints;
  g_autofree double *rate = g_new (double, n);
  g_autofree double *end = g_new (double, n);

  back->misfit = path->misfit;
  back->misfit_joint = path->misfit_joint;
  cw_course_get_angles (path, work, high, back->from);
  cw_course_get_angles (path, work, low, end);
  for (guint i = 0; i < n; i++)
    back->to[i] = end[i];
  if (!has_knot (path, high))
    cw_course_add (back, work, 0, back->from);
  for (guint k = path->s->len; k-- > 0;)
    {
      double at = cw_course_get_s (path, k), s = (high - at) / (high - low);

      if (at > high || at < low)
        continue;
      for (guint i = 0; i < n; i++)
        rate[i] = (low - high) * g_array_index (path->rate, double, k *n + i);
      g_array_append_val (back->s, s);
      g_array_append_vals (back->x, cw_course_get_x (path, k), n);
      g_array_append_vals (back->rate, rate, n);
      g_array_append_vals (back->rests, &g_array_index (path->rests, gboolean, k * n), n);
    }
  if (!has_knot (path, low))
    cw_course_add (back, work, 1, end);
  return back;
}

/* The share of the step at which all driven hinges stood where they should go back to: negative if there is none. */
static double
find_share (const CwTrace *trace, const CwDrive *drives, guint n_drives)
{
  double agree = CW_TOL_ANGLE_AGREES_DEG * G_PI / 180, far = 0, share = 0;
  guint n_listed = 0;

  for (guint j = 0; j < trace->linkage->n_joints; j++)
    n_listed += trace->listed[j];
  if (n_listed != n_drives)
    return -1;
  for (guint i = 0; i < n_drives; i++)
    {
      guint j = drives[i].joint;
      double way = trace->to[j] - trace->from[j];

      if (!trace->listed[j])
        return -1;
      if (fabs (way) > far)
        {
          far = fabs (way);
          share = fabs (drives[i].to_rad - trace->from[j]) <= agree ? 0 : (drives[i].to_rad - trace->from[j]) / way;
        }
    }
  for (guint i = 0; i < n_drives; i++)
    {
      guint j = drives[i].joint;

      if (fabs (trace->from[j] + share * (trace->to[j] - trace->from[j]) - drives[i].to_rad) > agree)
        return -1;
    }
  return share;
}

/**
 * cw_trace_new_back:
 * @trace: a motion
 * @linkage: the linkage as it is now
 * @start: (array): n_joints angles at which the step begins, radians
 * @drives: (array length=n_drives): which hinges go where
 * @n_drives: how many
 *
 * What is folded and then unfolded by the same hinges, all the way or part of it, goes back the way it came.
 *
 * Returns: (transfer full) (nullable): @trace run backward from where it stopped, if that is what the step asks; %NULL
 *   if it asks anything else
 */
CwTrace *
cw_trace_new_back (const CwTrace *trace, CwLinkage *linkage, const double *start, const CwDrive *drives, guint n_drives)
{
  g_autoptr (CwLinkageWork) work = NULL;
  g_autofree double *end = NULL;
  double high, low;
  CwTrace *back;
  guint n;

  g_return_val_if_fail (trace != NULL && linkage != NULL, NULL);
  g_return_val_if_fail (start != NULL || linkage->n_joints == 0, NULL);

  n = linkage->n_joints;
  high = trace->result.reached;
  if (high <= CW_FOLLOW_LEAST || !cw_linkage_is_same (trace->linkage, linkage))
    return NULL;
  low = find_share (trace, drives, n_drives);
  if (low < 0 || low > high - CW_FOLLOW_LEAST)
    return NULL;
  work = cw_linkage_work_new (trace->linkage);
  end = g_new (double, n + 1);
  cw_trace_get_angles (trace, work, 1, end);
  if (memcmp (end, start, n * sizeof (double)) != 0)
    return NULL;

  back = g_new0 (CwTrace, 1);
  g_atomic_ref_count_init (&back->refs);
  back->linkage = cw_linkage_ref (trace->linkage);
  back->from = g_steal_pointer (&end);
  back->to = g_memdup2 (trace->from, n * sizeof (double));
  for (guint i = 0; i < n_drives; i++)
    back->to[drives[i].joint] = drives[i].to_rad;
  back->listed = g_memdup2 (trace->listed, n * sizeof (gboolean));
  back->paths = g_ptr_array_new_with_free_func ((GDestroyNotify) cw_course_free);
  for (guint k = 0; k < trace->paths->len; k++)
    g_ptr_array_add (back->paths, course_back (g_ptr_array_index (trace->paths, k), work, high, low));
  back->result = (CwTraceResult){ .verdict = CW_TRACE_ARRIVED,
                                  .reached = 1,
                                  .misfit_ticks = trace->result.misfit_ticks,
                                  .misfit_joint = trace->result.misfit_joint,
                                  .needs_give = trace->result.needs_give,
                                  .sways = trace->result.sways,
                                  .sway_not_decided = trace->result.sway_not_decided,
                                  .blocking_block = G_MAXUINT };
  return back;
}

/**
 * cw_trace_ref:
 * @trace: a motion
 *
 * Returns: (transfer full): the same
 */
CwTrace *
cw_trace_ref (CwTrace *trace)
{
  g_return_val_if_fail (trace != NULL, NULL);

  g_atomic_ref_count_inc (&trace->refs);
  return trace;
}

/**
 * cw_trace_unref:
 * @trace: (transfer full): a motion
 */
void
cw_trace_unref (CwTrace *trace)
{
  g_return_if_fail (trace != NULL);

  if (!g_atomic_ref_count_dec (&trace->refs))
    return;
  g_ptr_array_unref (trace->paths);
  g_free (trace->from);
  g_free (trace->to);
  g_free (trace->listed);
  cw_linkage_unref (trace->linkage);
  g_free (trace);
}

/**
 * cw_trace_get_result:
 * @trace: a motion
 *
 * Returns: (transfer none): what came of it
 */
const CwTraceResult *
cw_trace_get_result (const CwTrace *trace)
{
  g_return_val_if_fail (trace != NULL, NULL);

  return &trace->result;
}

/**
 * cw_trace_get_angles:
 * @trace: a motion
 * @work: scratch of this thread
 * @fraction: share of the step, 0 to 1; beyond what was reached the motion stands still
 * @rho: (array) (out caller-allocates): n_joints angles, radians
 *
 * Allocates nothing.
 */
void
cw_trace_get_angles (const CwTrace *trace, CwLinkageWork *work, double fraction, double *rho)
{
  double s;

  g_return_if_fail (trace != NULL && work != NULL);
  g_return_if_fail (rho != NULL || trace->linkage->n_joints == 0);

  s = CLAMP (fraction, 0, trace->result.reached);
  for (guint j = 0; j < trace->linkage->n_joints; j++)
    rho[j] = s < 1 ? trace->from[j] + (trace->to[j] - trace->from[j]) * s : trace->to[j];
  for (guint k = 0; k < trace->paths->len; k++)
    {
      const CwCourse *path = g_ptr_array_index (trace->paths, k);
      const CwBlock *block = path->block;

      cw_course_get_angles (path, work, s, work->angles);
      for (guint i = 0; i < block->n_joints; i++)
        rho[block->joints[i]] = work->angles[i];
    }
}
