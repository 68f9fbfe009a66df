/* cw-document.c: the open design, and everything the parts of the window tell each other.
 *
 * The design is immutable, so the analysis runs on a worker thread (GTask) on its own reference. One worker at a time:
 * when it comes back and the design has moved on meanwhile, its answer is dropped and a new one is started. The moment
 * is kept by its step's id, so that it follows the step through edits and undo.
 *
 * Over 500 lines because it is the one thing all parts of the window share: short accessors with their descriptions.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "cw-document.h"

#include <glib/gi18n-lib.h>

#include "cw-selection.h"
#include "design/cw-design-json.h"

struct _CwDocument
{
  GObject parent_instance;

  CwHistory *history;
  GFile *file;
  CwAnalysis *analysis;
  gboolean working;    /* a worker is under way */
  GCancellable *stale; /* ends the worker's analysis when the design has changed */
  guint serial;        /* answers to older questions are dropped */
  int step;            /* -1: before the first */
  double fraction;     /* 0 to 1 */
  char *step_id;       /* NULL at step -1 */
  guint piece;         /* index in the design */
  char *piece_id;      /* its id */
  CwLie lie;           /* how it lies on the table */
  CwSelection *selection;
  GPtrArray *preview; /* of CwMark, NULL when there is none */
};

G_DEFINE_FINAL_TYPE (CwDocument, cw_document, G_TYPE_OBJECT)

enum
{
  CHANGED,
  ANALYSED,
  MOMENT,
  SELECTION,
  PIECE,
  LIE,
  PREVIEW,
  FILE_STATE,
  MESSAGE,
  N_SIGNALS
};
static guint signals[N_SIGNALS];

static void start_analysis (CwDocument *self);

static void
cw_document_finalize (GObject *object)
{
  CwDocument *self = CW_DOCUMENT (object);

  g_clear_pointer (&self->history, cw_history_free);
  g_clear_pointer (&self->analysis, cw_analysis_unref);
  g_clear_object (&self->file);
  g_clear_object (&self->stale);
  g_free (self->step_id);
  g_free (self->piece_id);
  g_clear_pointer (&self->selection, cw_selection_free);
  g_clear_pointer (&self->preview, g_ptr_array_unref);
  G_OBJECT_CLASS (cw_document_parent_class)->finalize (object);
}

static void
cw_document_class_init (CwDocumentClass *klass)
{
  static const char *const names[N_SIGNALS]
    = { "changed", "analysed", "moment", "selection", "piece", "lie", "preview", "file", "message" };

  G_OBJECT_CLASS (klass)->finalize = cw_document_finalize;
  for (guint i = 0; i < N_SIGNALS; i++)
    if (i == MESSAGE)
      signals[i] = g_signal_new (names[i], CW_TYPE_DOCUMENT, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 1,
                                 G_TYPE_STRING);
    else
      signals[i] = g_signal_new (names[i], CW_TYPE_DOCUMENT, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
}

static void
cw_document_init (CwDocument *self)
{
  self->step = -1;
  self->selection = cw_selection_new ();
}

/**
 * cw_document_new:
 * @design: a design
 * @file: (nullable): where it came from; NULL when it has not been saved yet
 *
 * The analysis is started at once. The moment is before the first step, the ground piece lies on the table.
 *
 * Returns: (transfer full): the document
 */
CwDocument *
cw_document_new (CwDesign *design, GFile *file)
{
  CwDocument *self = NULL;
  CwPiece *ground = NULL;

  g_return_val_if_fail (design != NULL, NULL);
  g_return_val_if_fail (file == NULL || G_IS_FILE (file), NULL);

  self = g_object_new (CW_TYPE_DOCUMENT, NULL);
  self->history = cw_history_new (design);
  g_set_object (&self->file, file);
  ground = cw_design_get_ground (design);
  if (ground != NULL)
    {
      self->piece_id = g_strdup (ground->id);
      self->piece = cw_design_find_piece (design, ground->id);
    }
  start_analysis (self);
  return self;
}

/**
 * cw_document_get_design:
 * @self: the document
 *
 * Returns: (transfer none): the design as it now is
 */
CwDesign *
cw_document_get_design (CwDocument *self)
{
  g_return_val_if_fail (CW_IS_DOCUMENT (self), NULL);
  return cw_history_get_design (self->history);
}

/* --- what the kernel finds out ----------------------------------------------------------------------------------- */

static void
take_analysis (CwDocument *self, CwAnalysis *analysis)
{
  g_clear_pointer (&self->analysis, cw_analysis_unref);
  self->analysis = analysis;
  if (cw_selection_follow_analysis (self->selection, analysis))
    g_signal_emit (self, signals[SELECTION], 0);
  g_signal_emit (self, signals[ANALYSED], 0);
}

static void
work (GTask *task, gpointer source, gpointer data, GCancellable *cancellable)
{
  CwAnalysis *analysis = cw_analysis_new_cancellable (data, cancellable);

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
        start_analysis (self);
    }
  else if (GPOINTER_TO_UINT (data) == self->serial)
    take_analysis (self, analysis);
  else
    {
      cw_analysis_unref (analysis);
      if (!cw_document_is_analysed (self))
        start_analysis (self);
    }
}

static void
start_analysis (CwDocument *self)
{
  g_autoptr (GTask) task = NULL;

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
  g_task_set_source_tag (task, start_analysis);
  g_task_set_task_data (task, cw_design_ref (cw_document_get_design (self)), (GDestroyNotify) cw_design_unref);
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
 * cw_document_is_bare:
 * @self: the document
 *
 * Returns: TRUE if there is no mark in the design yet
 */
gboolean
cw_document_is_bare (CwDocument *self)
{
  GPtrArray *pieces = NULL;

  g_return_val_if_fail (CW_IS_DOCUMENT (self), FALSE);

  pieces = cw_document_get_design (self)->pieces;
  for (guint i = 0; i < pieces->len; i++)
    if (((CwPiece *) g_ptr_array_index (pieces, i))->marks->len > 0)
      return FALSE;
  return TRUE;
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
  return self->analysis != NULL && self->analysis->design == cw_document_get_design (self);
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
  take_analysis (self, cw_analysis_new (cw_document_get_design (self)));
}

/* --- selection --------------------------------------------------------------------------------------------------- */

/**
 * cw_document_select:
 * @self: the document
 * @ids: (array length=n_ids) (nullable): what to select instead of what is selected now
 * @n_ids: how many; 0 lets go of everything
 */
void
cw_document_select (CwDocument *self, const CwId *ids, guint n_ids)
{
  g_return_if_fail (CW_IS_DOCUMENT (self));
  g_return_if_fail (ids != NULL || n_ids == 0);

  if (cw_selection_set (self->selection, cw_document_get_design (self), self->analysis, ids, n_ids))
    g_signal_emit (self, signals[SELECTION], 0);
}

/**
 * cw_document_toggle:
 * @self: the document
 * @id: what to add to the selection, or to take out of it when it is in it
 */
void
cw_document_toggle (CwDocument *self, CwId id)
{
  g_return_if_fail (CW_IS_DOCUMENT (self));

  cw_selection_toggle (self->selection, cw_document_get_design (self), self->analysis, id);
  g_signal_emit (self, signals[SELECTION], 0);
}

/**
 * cw_document_get_selection:
 * @self: the document
 * @n_ids: (out): how many are selected
 *
 * Returns: (transfer none) (array length=n_ids): the selection, in the order it was made
 */
const CwId *
cw_document_get_selection (CwDocument *self, guint *n_ids)
{
  g_return_val_if_fail (CW_IS_DOCUMENT (self), NULL);
  g_return_val_if_fail (n_ids != NULL, NULL);

  return cw_selection_get (self->selection, n_ids);
}

/* --- edits ------------------------------------------------------------------------------------------------------- */

/* Brings everything that points into the design up to a design that has just changed, then tells everyone. */
static void
design_changed (CwDocument *self)
{
  CwDesign *design = cw_document_get_design (self);
  gboolean dropped = cw_selection_follow_design (self->selection, design);
  int old_step = self->step;
  guint old_piece = self->piece, found = G_MAXUINT;

  if (self->step_id != NULL)
    {
      found = cw_design_find_step (design, self->step_id);
      self->step = found != G_MAXUINT ? (int) found : MIN (self->step, (int) design->steps->len) - 1;
      if (found == G_MAXUINT)
        self->fraction = 1;
      g_free (self->step_id);
      self->step_id
        = self->step < 0 ? NULL : g_strdup (((CwStep *) g_ptr_array_index (design->steps, (guint) self->step))->id);
    }
  found = self->piece_id != NULL ? cw_design_find_piece (design, self->piece_id) : G_MAXUINT;
  if (found == G_MAXUINT)
    {
      CwPiece *ground = cw_design_get_ground (design);

      g_free (self->piece_id);
      self->piece_id = ground != NULL ? g_strdup (ground->id) : NULL;
      found = ground != NULL ? cw_design_find_piece (design, ground->id) : 0;
    }
  self->piece = found;

  start_analysis (self);
  g_signal_emit (self, signals[CHANGED], 0);
  if (self->piece != old_piece)
    g_signal_emit (self, signals[PIECE], 0);
  if (self->step != old_step)
    g_signal_emit (self, signals[MOMENT], 0);
  if (dropped)
    g_signal_emit (self, signals[SELECTION], 0);
  g_signal_emit (self, signals[FILE_STATE], 0);
}

/**
 * cw_document_do:
 * @self: the document
 * @name: a translated phrase that can follow "Undo", such as "move score"
 * @edit: (transfer full): the edit; an empty one does nothing
 */
void
cw_document_do (CwDocument *self, const char *name, CwEdit *edit)
{
  g_autoptr (CwEdit) owned = edit;

  g_return_if_fail (CW_IS_DOCUMENT (self));
  g_return_if_fail (name != NULL && edit != NULL);

  if (cw_edit_is_empty (edit))
    return;
  cw_history_do (self->history, name, g_steal_pointer (&owned));
  design_changed (self);
}

/**
 * cw_document_undo:
 * @self: the document
 *
 * Returns: FALSE when there was nothing to undo
 */
gboolean
cw_document_undo (CwDocument *self)
{
  g_return_val_if_fail (CW_IS_DOCUMENT (self), FALSE);

  if (!cw_history_undo (self->history))
    return FALSE;
  design_changed (self);
  return TRUE;
}

/**
 * cw_document_redo:
 * @self: the document
 *
 * Returns: FALSE when there was nothing to redo
 */
gboolean
cw_document_redo (CwDocument *self)
{
  g_return_val_if_fail (CW_IS_DOCUMENT (self), FALSE);

  if (!cw_history_redo (self->history))
    return FALSE;
  design_changed (self);
  return TRUE;
}

/**
 * cw_document_get_undo_name:
 * @self: the document
 *
 * Returns: (transfer none) (nullable): the name of the edit that undo would take back
 */
const char *
cw_document_get_undo_name (CwDocument *self)
{
  g_return_val_if_fail (CW_IS_DOCUMENT (self), NULL);
  return cw_history_get_undo_name (self->history);
}

/**
 * cw_document_get_redo_name:
 * @self: the document
 *
 * Returns: (transfer none) (nullable): the name of the edit that redo would do again
 */
const char *
cw_document_get_redo_name (CwDocument *self)
{
  g_return_val_if_fail (CW_IS_DOCUMENT (self), NULL);
  return cw_history_get_redo_name (self->history);
}

/* --- the file ---------------------------------------------------------------------------------------------------- */

/**
 * cw_document_get_file:
 * @self: the document
 *
 * Returns: (transfer none) (nullable): where the design is kept
 */
GFile *
cw_document_get_file (CwDocument *self)
{
  g_return_val_if_fail (CW_IS_DOCUMENT (self), NULL);
  return self->file;
}

/**
 * cw_document_dup_title:
 * @self: the document
 *
 * Returns: (transfer full): the design's own title, else the file's name without its ending, else "New card"
 */
char *
cw_document_dup_title (CwDocument *self)
{
  const char *title = NULL;

  g_return_val_if_fail (CW_IS_DOCUMENT (self), NULL);

  title = cw_document_get_design (self)->head->title;
  if (title != NULL && *title != '\0')
    return g_strdup (title);
  if (self->file != NULL)
    {
      g_autofree char *name = g_file_get_basename (self->file);
      char *shown = NULL;

      if (g_str_has_suffix (name, ".creasecard"))
        name[strlen (name) - strlen (".creasecard")] = '\0';
      shown = g_filename_display_name (name);
      return shown;
    }
  return g_strdup (_ ("New card"));
}

/**
 * cw_document_is_saved:
 * @self: the document
 *
 * Returns: TRUE if the file holds the design as it now is, or if nothing was done to a new one yet
 */
gboolean
cw_document_is_saved (CwDocument *self)
{
  g_return_val_if_fail (CW_IS_DOCUMENT (self), TRUE);
  return cw_history_is_saved (self->history);
}

/**
 * cw_document_load:
 * @file: a design file
 * @error: the reason when it cannot be read
 *
 * Returns: (transfer full) (nullable): a document of the design in the file
 */
CwDocument *
cw_document_load (GFile *file, GError **error)
{
  g_autoptr (CwDesign) design = NULL;

  g_return_val_if_fail (G_IS_FILE (file), NULL);

  design = cw_design_load (file, error);
  return design != NULL ? cw_document_new (design, file) : NULL;
}

/**
 * cw_document_save:
 * @self: the document
 * @file: (nullable): where to; NULL: where it came from
 * @error: the reason when it cannot be written
 *
 * Returns: FALSE when it could not be written; the design and its saved state are then as before
 */
gboolean
cw_document_save (CwDocument *self, GFile *file, GError **error)
{
  g_return_val_if_fail (CW_IS_DOCUMENT (self), FALSE);
  g_return_val_if_fail (file != NULL || self->file != NULL, FALSE);

  if (file == NULL)
    file = self->file;
  if (!cw_design_save (cw_document_get_design (self), file, error))
    return FALSE;
  cw_document_set_saved (self, cw_document_get_design (self), file);
  return TRUE;
}

/**
 * cw_document_set_saved:
 * @self: the document
 * @design: the design that has been written, maybe on another thread
 * @file: where to
 *
 * Takes the file as the document's own. The document counts as saved only if nothing was done to it meanwhile.
 */
void
cw_document_set_saved (CwDocument *self, CwDesign *design, GFile *file)
{
  g_return_if_fail (CW_IS_DOCUMENT (self));
  g_return_if_fail (design != NULL && G_IS_FILE (file));

  g_set_object (&self->file, file);
  if (design == cw_document_get_design (self))
    cw_history_set_saved (self->history);
  g_signal_emit (self, signals[FILE_STATE], 0);
}

/* --- the moment, the sheet, the preview -------------------------------------------------------------------------- */

/**
 * cw_document_set_moment:
 * @self: the document
 * @step: index of a step; -1 is before the first one
 * @fraction: how much of it is done, 0 to 1
 */
void
cw_document_set_moment (CwDocument *self, int step, double fraction)
{
  CwDesign *design = NULL;

  g_return_if_fail (CW_IS_DOCUMENT (self));

  design = cw_document_get_design (self);
  step = CLAMP (step, -1, (int) design->steps->len - 1);
  fraction = step < 0 ? 1 : CLAMP (fraction, 0, 1);
  if (step == self->step && !(fraction < self->fraction) && !(fraction > self->fraction))
    return;
  if (step != self->step)
    {
      g_free (self->step_id);
      self->step_id = step < 0 ? NULL : g_strdup (((CwStep *) g_ptr_array_index (design->steps, (guint) step))->id);
    }
  self->step = step;
  self->fraction = fraction;
  g_signal_emit (self, signals[MOMENT], 0);
}

/**
 * cw_document_get_step:
 * @self: the document
 *
 * Returns: the step the card is shown in, -1 before the first
 */
int
cw_document_get_step (CwDocument *self)
{
  g_return_val_if_fail (CW_IS_DOCUMENT (self), -1);
  return self->step;
}

/**
 * cw_document_choose_moment:
 * @design: a design
 * @step: (out): index of a step, -1 when there is none
 * @fraction: (out): how much of it is done
 *
 * Gives the moment at which the card is seen best.
 */
void
cw_document_choose_moment (const CwDesign *design, int *step, double *fraction)
{
  g_return_if_fail (design != NULL && step != NULL && fraction != NULL);

  *step = (int) design->steps->len - 1;
  *fraction = 1;
  for (guint i = 0; i < design->steps->len; i++)
    {
      const CwStep *one = g_ptr_array_index (design->steps, i);

      if (one->phase == CW_PHASE_USING && one->what == CW_DO_FOLD)
        {
          *step = (int) i;
          /* Half way between shut and open; a step that ends upright is seen at its end. */
          *fraction = one->rest == NULL || g_str_equal (one->rest, "standing") ? 1 : 0.5;
          return;
        }
    }
}

/**
 * cw_document_get_fraction:
 * @self: the document
 *
 * Returns: how much of that step is done, 0 to 1
 */
double
cw_document_get_fraction (CwDocument *self)
{
  g_return_val_if_fail (CW_IS_DOCUMENT (self), 0);
  return self->fraction;
}

/**
 * cw_document_set_piece:
 * @self: the document
 * @piece: index of the piece to lay on the table
 */
void
cw_document_set_piece (CwDocument *self, guint piece)
{
  CwDesign *design = NULL;

  g_return_if_fail (CW_IS_DOCUMENT (self));

  design = cw_document_get_design (self);
  if (piece == self->piece || piece >= design->pieces->len)
    return;
  self->piece = piece;
  g_free (self->piece_id);
  self->piece_id = g_strdup (((CwPiece *) g_ptr_array_index (design->pieces, piece))->id);
  g_signal_emit (self, signals[PIECE], 0);
}

/**
 * cw_document_get_piece:
 * @self: the document
 *
 * Returns: index of the piece that lies on the table
 */
guint
cw_document_get_piece (CwDocument *self)
{
  g_return_val_if_fail (CW_IS_DOCUMENT (self), 0);
  return self->piece;
}

/**
 * cw_document_set_lie:
 * @self: the document
 * @lie: how the piece is to lie on the table
 */
void
cw_document_set_lie (CwDocument *self, CwLie lie)
{
  g_return_if_fail (CW_IS_DOCUMENT (self));

  lie.quarter_turns %= 4;
  lie.flipped = lie.flipped != FALSE;
  if (lie.quarter_turns == self->lie.quarter_turns && lie.flipped == self->lie.flipped)
    return;
  self->lie = lie;
  g_signal_emit (self, signals[LIE], 0);
}

/**
 * cw_document_get_lie:
 * @self: the document
 *
 * Returns: how the piece lies on the table
 */
CwLie
cw_document_get_lie (CwDocument *self)
{
  g_return_val_if_fail (CW_IS_DOCUMENT (self), ((CwLie){ 0, FALSE }));
  return self->lie;
}

/**
 * cw_document_set_preview:
 * @self: the document
 * @marks: (nullable) (transfer none) (element-type CwMark): marks that would be added to the piece on the table
 */
void
cw_document_set_preview (CwDocument *self, GPtrArray *marks)
{
  g_return_if_fail (CW_IS_DOCUMENT (self));

  if (marks == self->preview)
    return;
  if (marks != NULL)
    g_ptr_array_ref (marks);
  g_clear_pointer (&self->preview, g_ptr_array_unref);
  self->preview = marks;
  g_signal_emit (self, signals[PREVIEW], 0);
}

/**
 * cw_document_get_preview:
 * @self: the document
 *
 * Returns: (transfer none) (nullable) (element-type CwMark): marks that would be added to the piece on the table
 */
GPtrArray *
cw_document_get_preview (CwDocument *self)
{
  g_return_val_if_fail (CW_IS_DOCUMENT (self), NULL);
  return self->preview;
}

/**
 * cw_document_say:
 * @self: the document
 * @sentence: a whole translated sentence for the maker
 */
void
cw_document_say (CwDocument *self, const char *sentence)
{
  g_return_if_fail (CW_IS_DOCUMENT (self));
  g_return_if_fail (sentence != NULL);
  g_signal_emit (self, signals[MESSAGE], 0, sentence);
}
