/* cw-trace-sway.c: whether a loop that moves is driven firmly.
 *
 * Half way through the motion, where first order can be trusted, the ways still open with the driven hinges held are
 * read off the closing equations. One counts if closed positions really spread along it and if it turns a hinge of a
 * loop that the step moves: the rest of the block may be as loose as it likes.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "fold/cw-trace-private.h"
#include "geometry/cw-tolerance.h"

/**
 * cw_block_sways:
 * @task: what the step asks of the block, and what drives
 * @path: (nullable): how it moves; %NULL: the listed hinges alone
 * @reached: share of the step
 *
 * Returns: whether at the middle of the motion a loop that moves has more ways open than are driven, and they really
 * lead somewhere
 */
gboolean
cw_block_sways (const CwBlockTask *task, const CwCourse *path, double reached)
{
  const CwAsk *ask = task->ask;
  guint n = task->n;
  g_autofree double *null = g_new (double, (gsize) n *n);
  g_autofree double *x = g_memdup2 (task->from, n * sizeof (double));
  g_autofree double *off = g_new (double, n);
  g_autofree CwSlot *slots = g_memdup2 (task->slots, n * sizeof (CwSlot));
  g_autofree gboolean *moves = g_new0 (gboolean, n);
  g_autoptr (CwCourse) scratch = NULL;
  CwRows rows = path != NULL ? path->rows : CW_ROWS_EXACT;
  guint loose;

  if (path != NULL)
    cw_course_get_angles (path, ask->work, reached / 2, x);
  for (guint i = 0; i < n; i++)
    if (path == NULL && task->listed[i])
      {
        slots[i] = CW_SLOT_DRIVEN;
        x[i] = (task->from[i] + task->to[i]) / 2;
      }
  for (guint k = 0; k < task->block->n_loops; k++)
    {
      const CwLoop *loop = &task->block->loops[k];
      gboolean moving = FALSE;

      for (guint i = 0; i < loop->n_steps; i++)
        {
          guint slot = ask->linkage->joint_slot[loop->steps[i].joint];

          moving |= fabs (x[slot] - task->from[slot]) > CW_LEAVE_SAME;
        }
      for (guint i = 0; moving && i < loop->n_steps; i++)
        moves[ask->linkage->joint_slot[loop->steps[i].joint]] = TRUE;
    }

  loose = cw_block_looseness (ask->linkage, ask->work, task->block, slots, x, CW_TOL_LOOSE, null);
  scratch = cw_course_new (ask->linkage, task->block, slots, task->from, task->to, task->sense, rows,
                           ask->give + CW_TOL_EXACT_TICKS);
  for (guint k = 0; k < loose; k++)
    {
      for (guint i = 0; i < n; i++)
        off[i] = x[i] + CW_LEAVE_SPREAD * null[k * n + i];
      if (!cw_course_close (scratch, ask->work, NULL, NULL, CW_TRIES_CLOSE, off))
        continue;
      for (guint i = 0; i < n; i++)
        if (moves[i] && fabs (off[i] - x[i]) > CW_LEAVE_SPREAD / 10)
          return TRUE;
    }
  return FALSE;
}
