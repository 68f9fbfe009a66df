/* cw-trace.c: one step's motion: what every block does, put together, and asked at any moment.
 *
 * Hinges outside all loops follow their ramps. Every block that the step drives answers for itself
 * (cw-trace-block.c); the step goes as far as the block that comes least far. Where several blocks move they share one
 * fraction of the step.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "fold/cw-trace-private.h"
#include "geometry/cw-tolerance.h"

struct CwTrace
{
  gatomicrefcount refs;
  CwLinkage *linkage;
  double *from, *to; /* n_joints: the ramps of hinges that are in no path */
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
  trace->paths = g_ptr_array_new_with_free_func ((GDestroyNotify) cw_course_free);
  trace->result.reached = 1;
  trace->result.misfit_joint = G_MAXUINT;
  trace->result.blocking_block = G_MAXUINT;
  if (linkage->n_blocks > 0)
    answer_blocks (trace, hint, drives, n_drives, give_ticks, effort);
  return trace;
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
