/* cw-effort.h: how much work a question about a linkage may cost, counted, never timed.
 *
 * The closing of big blocks of loops can cost any amount of work. Whoever asks hands in an allotment; the solver takes
 * its arithmetic off it (about one unit a product) and gives up when it is used up or the asker no longer wants the
 * answer. Counting what is done, not how long it takes, gives the same answer on every machine.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <gio/gio.h>

G_BEGIN_DECLS

typedef struct
{
  gint64 left;        /* units */
  GCancellable *stop; /* borrowed, nullable */
  gboolean out;       /* used up or stopped: what was worked out since is not to be trusted */
} CwEffort;

/* Takes `units` off; FALSE, and `out` from then on, when there are not so many. A missing `effort` has no bound. */
static inline gboolean
cw_effort_spend (CwEffort *effort, gint64 units)
{
  if (effort == NULL)
    return TRUE;
  if (units > effort->left || g_cancellable_is_cancelled (effort->stop))
    effort->out = TRUE;
  if (effort->out)
    return FALSE;
  effort->left -= units;
  return TRUE;
}

static inline gboolean
cw_effort_is_out (const CwEffort *effort)
{
  return effort != NULL && effort->out;
}

G_END_DECLS
