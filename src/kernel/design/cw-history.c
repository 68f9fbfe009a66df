/* cw-history.c: undo and redo without knowing any widget.
 *
 * A row of named edits and a place in it: left of the place lies what can be undone, right of it what can be redone.
 * The saved point is a place in that row, so undoing back to it, or redoing forward to it, is "saved" again; a new edit
 * made before it throws the way to it away, and then nothing is saved until the next save.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "design/cw-history.h"

typedef struct
{
  char *name;
  CwEdit *edit;
} Entry;

struct CwHistory
{
  CwDesign *design;
  GPtrArray *entries; /* of Entry */
  guint n_done;       /* how many of them are done */
  gboolean has_saved;
  guint saved; /* how many of them were done at the saved point */
};

static void
entry_free (gpointer data)
{
  Entry *entry = data;

  g_free (entry->name);
  cw_edit_unref (entry->edit);
  g_free (entry);
}

/**
 * cw_history_new:
 * @design: a design, taken as saved
 *
 * Returns: (transfer full): a history in which nothing has been done
 */
CwHistory *
cw_history_new (CwDesign *design)
{
  g_return_val_if_fail (design, NULL);
  CwHistory *history = g_new0 (CwHistory, 1);

  history->design = cw_design_ref (design);
  history->entries = g_ptr_array_new_with_free_func (entry_free);
  history->has_saved = TRUE;
  return history;
}

/**
 * cw_history_free:
 * @history: (nullable) (transfer full): a history
 */
void
cw_history_free (CwHistory *history)
{
  if (!history)
    return;
  cw_design_unref (history->design);
  g_ptr_array_unref (history->entries);
  g_free (history);
}

/**
 * cw_history_get_design:
 * @history: a history
 *
 * Returns: (transfer none): the design as it is now; valid until the next change
 */
CwDesign *
cw_history_get_design (const CwHistory *history)
{
  g_return_val_if_fail (history, NULL);
  return history->design;
}

static gboolean
change (CwHistory *history, const CwEdit *edit)
{
  CwDesign *design = cw_edit_apply (edit, history->design);

  if (!design)
    return FALSE;
  cw_design_unref (history->design);
  history->design = design;
  return TRUE;
}

/**
 * cw_history_do:
 * @history: a history
 * @name: what the maker will read beside "undo"
 * @edit: (transfer full): an edit made for the design as it is now
 *
 * Does @edit and forgets what could be redone. An edit that changes nothing leaves no trace.
 */
void
cw_history_do (CwHistory *history, const char *name, CwEdit *edit)
{
  g_return_if_fail (history && name && edit);
  if (cw_edit_is_empty (edit) || !change (history, edit))
    {
      cw_edit_unref (edit);
      return;
    }
  Entry *entry = g_new (Entry, 1);
  *entry = (Entry){ g_strdup (name), edit };
  if (history->saved > history->n_done)
    history->has_saved = FALSE;
  g_ptr_array_set_size (history->entries, (gint) history->n_done);
  g_ptr_array_add (history->entries, entry);
  history->n_done++;
}

/**
 * cw_history_undo:
 * @history: a history
 *
 * Returns: FALSE when there is nothing to undo
 */
gboolean
cw_history_undo (CwHistory *history)
{
  g_return_val_if_fail (history, FALSE);
  if (history->n_done == 0)
    return FALSE;
  const Entry *entry = g_ptr_array_index (history->entries, history->n_done - 1);
  g_autoptr (CwEdit) back = cw_edit_invert (entry->edit);
  if (!change (history, back))
    return FALSE;
  history->n_done--;
  return TRUE;
}

/**
 * cw_history_redo:
 * @history: a history
 *
 * Returns: FALSE when there is nothing to redo
 */
gboolean
cw_history_redo (CwHistory *history)
{
  g_return_val_if_fail (history, FALSE);
  if (history->n_done == history->entries->len)
    return FALSE;
  const Entry *entry = g_ptr_array_index (history->entries, history->n_done);
  if (!change (history, entry->edit))
    return FALSE;
  history->n_done++;
  return TRUE;
}

/**
 * cw_history_get_undo_name:
 * @history: a history
 *
 * Returns: (transfer none) (nullable): the name of what would be undone, NULL if there is nothing
 */
const char *
cw_history_get_undo_name (const CwHistory *history)
{
  g_return_val_if_fail (history, NULL);
  if (history->n_done == 0)
    return NULL;
  return ((const Entry *) g_ptr_array_index (history->entries, history->n_done - 1))->name;
}

/**
 * cw_history_get_redo_name:
 * @history: a history
 *
 * Returns: (transfer none) (nullable): the name of what would be redone, NULL if there is nothing
 */
const char *
cw_history_get_redo_name (const CwHistory *history)
{
  g_return_val_if_fail (history, NULL);
  if (history->n_done == history->entries->len)
    return NULL;
  return ((const Entry *) g_ptr_array_index (history->entries, history->n_done))->name;
}

/**
 * cw_history_set_saved:
 * @history: a history
 *
 * Says that the design as it is now has been saved.
 */
void
cw_history_set_saved (CwHistory *history)
{
  g_return_if_fail (history);
  history->has_saved = TRUE;
  history->saved = history->n_done;
}

/**
 * cw_history_forget_saved:
 * @history: a history
 *
 * Says that no design of this row stands in a file any more.
 */
void
cw_history_forget_saved (CwHistory *history)
{
  g_return_if_fail (history);
  history->has_saved = FALSE;
}

/**
 * cw_history_is_saved:
 * @history: a history
 *
 * Returns: whether the design as it is now is the one saved last
 */
gboolean
cw_history_is_saved (const CwHistory *history)
{
  g_return_val_if_fail (history, FALSE);
  return history->has_saved && history->saved == history->n_done;
}
