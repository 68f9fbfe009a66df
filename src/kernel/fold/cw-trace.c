/* cw-trace.c: one step's motion.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "fold/cw-linkage-private.h"

struct CwTrace
{
  gatomicrefcount refs;
  CwLinkage *linkage;
  double *from, *to; /* n_joints */
  CwTraceResult result;
};

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
  CwTrace *trace;

  g_return_val_if_fail (linkage != NULL, NULL);
  g_return_val_if_fail (start != NULL || linkage->n_joints == 0, NULL);
  g_return_val_if_fail (drives != NULL || n_drives == 0, NULL);

  trace = g_new0 (CwTrace, 1);
  g_atomic_ref_count_init (&trace->refs);
  trace->linkage = cw_linkage_ref (linkage);
  trace->from = g_memdup2 (start, linkage->n_joints * sizeof (double));
  trace->to = g_memdup2 (start, linkage->n_joints * sizeof (double));
  for (guint i = 0; i < n_drives; i++)
    trace->to[drives[i].joint] = drives[i].to_rad;
  trace->result.reached = 1;
  trace->result.misfit_joint = G_MAXUINT;
  trace->result.blocking_block = G_MAXUINT;
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
}
