/* cw-document-analysis.c: what the kernel finds out about the open design.
 *
 * The design is immutable, so the analysis runs on a worker thread (GTask) on its own reference. One worker at a time:
 * when it comes back and the design has moved on meanwhile, its answer is dropped and a new one is started. When the
 * answer has been told, what becomes of the card when a hand misses is tried in the same way and told as another one.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "cw-document-private.h"

#include "check/cw-trial.h"

static void
take_analysis (CwDocument *self, CwAnalysis *analysis)
{
  g_clear_pointer (&self->analysis, cw_analysis_unref);
  self->analysis = analysis;
  if (cw_selection_follow_analysis (self->selection, analysis))
    cw_document_tell (self, CW_DOCUMENT_SELECTION);
  cw_document_tell (self, CW_DOCUMENT_ANALYSED);
}

typedef struct
{
  CwDesign *design;
  CwTools tools;
} Question;

static void
question_free (gpointer data)
{
  cw_design_unref (((Question *) data)->design);
  g_free (data);
}

/* What becomes of it when a hand misses comes after the rest, and is told when it adds something. */
static void
try_hand (GTask *task, gpointer source, gpointer data, GCancellable *cancellable)
{
  g_task_return_pointer (task, cw_analysis_try_hand (data, cancellable), (GDestroyNotify) cw_analysis_unref);
}

static void
try_hand_done (GObject *source, GAsyncResult *result, gpointer data)
{
  CwDocument *self = CW_DOCUMENT (source);
  CwAnalysis *tried = g_task_propagate_pointer (G_TASK (result), NULL);

  self->working = FALSE;
  if (!cw_document_is_analysed (self))
    cw_document_start_analysis (self);
  else if (tried != NULL && tried->design == self->analysis->design
           && tried->findings->len > self->analysis->findings->len)
    take_analysis (self, g_steal_pointer (&tried));
  g_clear_pointer (&tried, cw_analysis_unref);
}

static void
start_try_hand (CwDocument *self)
{
  g_autoptr (GTask) task = NULL;

  if (self->working || !cw_document_is_analysed (self))
    return;
  self->working = TRUE;
  g_clear_object (&self->stale);
  self->stale = g_cancellable_new ();
  task = g_task_new (self, self->stale, try_hand_done, NULL);
  g_task_set_source_tag (task, start_try_hand);
  g_task_set_task_data (task, cw_analysis_ref (self->analysis), (GDestroyNotify) cw_analysis_unref);
  g_task_run_in_thread (task, try_hand);
}

static void
work (GTask *task, gpointer source, gpointer data, GCancellable *cancellable)
{
  const Question *question = data;
  CwAnalysis *analysis = cw_analysis_new_for_tools (question->design, &question->tools, cancellable);

  g_task_return_pointer (task, analysis, (GDestroyNotify) cw_analysis_unref);
}

static void
work_done (GObject *source, GAsyncResult *result, gpointer data)
{
  CwDocument *self = CW_DOCUMENT (source);
  CwAnalysis *analysis = g_task_propagate_pointer (G_TASK (result), NULL);

  self->working = FALSE;
  if (analysis == NULL)
    {
      /* It was stopped as stale. */
      if (!cw_document_is_analysed (self))
        cw_document_start_analysis (self);
    }
  else if (GPOINTER_TO_UINT (data) == self->serial)
    {
      take_analysis (self, analysis);
      start_try_hand (self);
    }
  else
    {
      cw_analysis_unref (analysis);
      if (!cw_document_is_analysed (self))
        cw_document_start_analysis (self);
    }
}

/* Asks anew: the design, or the tools, have changed. */
void
cw_document_start_analysis (CwDocument *self)
{
  g_autoptr (GTask) task = NULL;
  Question *question = NULL;

  self->serial++;
  if (self->working)
    {
      g_cancellable_cancel (self->stale);
      return;
    }
  self->working = TRUE;
  g_clear_object (&self->stale);
  self->stale = g_cancellable_new ();
  task = g_task_new (self, self->stale, work_done, GUINT_TO_POINTER (self->serial));
  g_task_set_source_tag (task, cw_document_start_analysis);
  question = g_new (Question, 1);
  question->design = cw_design_ref (cw_document_get_design (self));
  question->tools = self->tools;
  g_task_set_task_data (task, question, question_free);
  g_task_run_in_thread (task, work);
}

/**
 * cw_document_get_analysis:
 * @self: the document
 *
 * Returns: (transfer none) (nullable): the newest finished analysis; its design may be older than the current one
 */
CwAnalysis *
cw_document_get_analysis (CwDocument *self)
{
  g_return_val_if_fail (CW_IS_DOCUMENT (self), NULL);
  return self->analysis;
}

/**
 * cw_document_is_analysed:
 * @self: the document
 *
 * Returns: TRUE if the analysis at hand is of the current design
 */
gboolean
cw_document_is_analysed (CwDocument *self)
{
  g_return_val_if_fail (CW_IS_DOCUMENT (self), FALSE);
  return self->analysis != NULL && self->analysis->design == cw_document_get_design (self)
         && cw_tools_equal (&self->analysis->tools, &self->tools);
}

/**
 * cw_document_analyse_now:
 * @self: the document
 *
 * Analyses on the calling thread and returns when it is done; for tests and small designs.
 */
void
cw_document_analyse_now (CwDocument *self)
{
  g_return_if_fail (CW_IS_DOCUMENT (self));

  if (cw_document_is_analysed (self))
    return;
  self->serial++;
  take_analysis (self, cw_analysis_new_for_tools (cw_document_get_design (self), &self->tools, NULL));
}

/**
 * cw_document_set_tools:
 * @self: the document
 * @tools: what the maker works with; no part of the design, but notes and trimmer moves are for them
 */
void
cw_document_set_tools (CwDocument *self, const CwTools *tools)
{
  g_return_if_fail (CW_IS_DOCUMENT (self) && tools != NULL);

  if (cw_tools_equal (&self->tools, tools))
    return;
  self->tools = *tools;
  cw_document_start_analysis (self);
}
