/* cw-document.c: the open design, and everything the parts of the window tell each other.
 *
 * The moment is kept by its step's id, so that it follows the step through edits and undo. What the kernel finds out is
 * in cw-document-analysis.c, the file in cw-document-file.c, the moment and the sheet in cw-document-moment.c.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "cw-document-private.h"

G_DEFINE_FINAL_TYPE (CwDocument, cw_document, G_TYPE_OBJECT)

static guint signals[CW_DOCUMENT_N_SIGNALS];

/* Tells everyone. */
void
cw_document_tell (CwDocument *self, CwDocumentSignal what)
{
  g_signal_emit (self, signals[what], 0);
}

static void
cw_document_finalize (GObject *object)
{
  CwDocument *self = CW_DOCUMENT (object);

  g_clear_pointer (&self->history, cw_history_free);
  g_clear_pointer (&self->analysis, cw_analysis_unref);
  cw_document_set_file (self, NULL, NULL);
  g_clear_pointer (&self->written, cw_design_unref);
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
  static const char *const names[CW_DOCUMENT_N_SIGNALS]
    = { "changed", "analysed", "moment", "selection", "piece", "lie", "preview", "file", "disk", "message" };

  G_OBJECT_CLASS (klass)->finalize = cw_document_finalize;
  for (guint i = 0; i < CW_DOCUMENT_N_SIGNALS; i++)
    if (i == CW_DOCUMENT_MESSAGE)
      signals[i] = g_signal_new (names[i], CW_TYPE_DOCUMENT, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 1,
                                 G_TYPE_STRING);
    else
      signals[i] = g_signal_new (names[i], CW_TYPE_DOCUMENT, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
}

static void
cw_document_init (CwDocument *self)
{
  self->step = -1;
  self->tools = cw_tools_usual;
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
  cw_document_set_file (self, file, file != NULL ? design : NULL);
  ground = cw_design_get_ground (design);
  if (ground != NULL)
    {
      self->piece_id = g_strdup (ground->id);
      self->piece = cw_design_find_piece (design, ground->id);
    }
  cw_document_start_analysis (self);
  return self;
}

/**
 * cw_document_follow:
 * @followed: (inout) (nullable): where the follower keeps its document
 * @document: (nullable): the document to follow from now on
 * @follower: who has connected to the signals of the old one, as data
 *
 * Lets go of the old document, handlers and all, and takes hold of the new one, whose signals are still to be
 * connected.
 *
 * Returns: whether it is another document
 */
gboolean
cw_document_follow (CwDocument **followed, CwDocument *document, gpointer follower)
{
  g_return_val_if_fail (followed != NULL, FALSE);

  if (document == *followed)
    return FALSE;
  if (*followed != NULL)
    g_signal_handlers_disconnect_by_data (*followed, follower);
  g_set_object (followed, document);
  return TRUE;
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
    cw_document_tell (self, CW_DOCUMENT_SELECTION);
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
  cw_document_tell (self, CW_DOCUMENT_SELECTION);
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

  cw_document_start_analysis (self);
  cw_document_tell (self, CW_DOCUMENT_CHANGED);
  if (self->piece != old_piece)
    cw_document_tell (self, CW_DOCUMENT_PIECE);
  if (self->step != old_step)
    cw_document_tell (self, CW_DOCUMENT_MOMENT);
  if (dropped)
    cw_document_tell (self, CW_DOCUMENT_SELECTION);
  cw_document_tell (self, CW_DOCUMENT_FILE);
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
 * cw_document_try:
 * @self: the document
 * @name: a translated phrase that can follow "Undo"
 * @edit: (nullable) (transfer full): the edit, or NULL when it cannot be
 * @error: (nullable) (transfer full): why it cannot be
 *
 * Takes the edit, or tells the maker why it cannot be.
 *
 * Returns: whether there was an edit
 */
gboolean
cw_document_try (CwDocument *self, const char *name, CwEdit *edit, GError *error)
{
  g_autoptr (GError) why = error;

  g_return_val_if_fail (CW_IS_DOCUMENT (self), FALSE);

  if (edit != NULL)
    cw_document_do (self, name, edit);
  else if (why != NULL)
    cw_document_say (self, why->message);
  return edit != NULL;
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
  g_signal_emit (self, signals[CW_DOCUMENT_MESSAGE], 0, sentence);
}
