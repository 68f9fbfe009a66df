/* cw-mending.c: what the families of remedies share: offering a changed design, and asking about the finding.
 *
 * A draft that changes nothing, or that makes no valid design, is dropped without a word.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "check/cw-remedy-private.h"

#include <stdarg.h>

/**
 * cw_mending_offer:
 * @mending: what is being mended
 * @draft: (transfer full): the design that would be better
 * @name: static msgid of a phrase that can follow "Undo"
 * @words: static msgid of a sentence
 * @...: the arguments, strings, then NULL
 */
void
cw_mending_offer (CwMending *mending, CwDraft *draft, const char *name, const char *words, ...)
{
  G_GNUC_UNUSED g_autoptr (CwDraft) owned = draft;
  CwRemedy *remedy;
  va_list args;

  g_return_if_fail (mending != NULL && draft != NULL && name != NULL && words != NULL);

  if (cw_edit_is_empty (draft->edit) || !cw_design_validate (draft->design, NULL))
    return;
  remedy = g_new0 (CwRemedy, 1);
  remedy->words = words;
  remedy->name = name;
  remedy->family = mending->family;
  remedy->gives_up = mending->gives_up;
  remedy->edit = cw_edit_ref (draft->edit);
  remedy->args = g_ptr_array_new_with_free_func (g_free);
  va_start (args, words);
  for (const char *arg = va_arg (args, const char *); arg != NULL; arg = va_arg (args, const char *))
    g_ptr_array_add (remedy->args, g_strdup (arg));
  va_end (args);
  g_ptr_array_add (mending->remedies, remedy);
}

/**
 * cw_mending_step:
 *
 * Returns: the maker's finest mark, ticks
 */
gint32
cw_mending_step (const CwMending *mending)
{
  return cw_head_get_mark_step (mending->design->head);
}

/**
 * cw_mending_say:
 *
 * Returns: (transfer full): a length as the maker writes it
 */
char *
cw_mending_say (const CwMending *mending, gint32 ticks)
{
  return cw_length_format_ticks (ticks, mending->design->head->unit);
}

/**
 * cw_mending_get_mark:
 * @mending: what is being mended
 * @index: which of the finding's marks
 * @piece: (out) (transfer none): its piece
 * @mark: (out) (transfer none): the mark
 *
 * Returns: %FALSE if there is none
 */
gboolean
cw_mending_get_mark (const CwMending *mending, guint index, CwPiece **piece, CwMark **mark)
{
  *piece = NULL;
  *mark = NULL;
  return index < mending->finding->marks->len
         && cw_design_split_address (mending->design, mending->finding->marks->pdata[index], piece, mark);
}

/**
 * cw_mending_get_piece:
 *
 * Returns: (transfer none) (nullable): one of the finding's pieces
 */
CwPiece *
cw_mending_get_piece (const CwMending *mending, guint index)
{
  return index < mending->finding->pieces->len
           ? cw_design_get_piece (mending->design, mending->finding->pieces->pdata[index])
           : NULL;
}

/**
 * cw_mending_find_stick:
 *
 * Returns: (transfer none) (nullable): the step that sticks a piece on another one's panel, the last one
 */
CwStep *
cw_mending_find_stick (const CwMending *mending, const char *piece_id)
{
  for (guint i = mending->design->steps->len; i-- > 0;)
    {
      CwStep *step = mending->design->steps->pdata[i];

      if (step->what == CW_DO_STICK && step->has_on && g_strcmp0 (step->piece, piece_id) == 0)
        return step;
    }
  return NULL;
}

/**
 * cw_mending_name_piece:
 *
 * Returns: (transfer none): what the maker calls it
 */
const char *
cw_mending_name_piece (const CwPiece *piece)
{
  return piece->name != NULL ? piece->name : piece->id;
}

/**
 * cw_mending_name_step:
 *
 * Returns: (transfer none): what the maker calls it
 */
const char *
cw_mending_name_step (const CwStep *step)
{
  return step->title != NULL ? step->title : step->id;
}

static gboolean
names_panel (const CwFinding *finding, const char *piece, guint panel)
{
  for (guint i = 0; i < finding->panels->len; i++)
    {
      const CwPanelRef *ref = &g_array_index (finding->panels, CwPanelRef, i);

      if (ref->panel == panel && g_str_equal (ref->piece, piece))
        return TRUE;
    }
  return FALSE;
}

/**
 * cw_mending_hinges:
 *
 * Returns: (transfer full) (element-type guint): fold lines, through the design, both panels of which the finding names
 */
GArray *
cw_mending_hinges (const CwMending *mending)
{
  const CwPanelSet *set = mending->analysis->panels;
  GArray *hinges = g_array_new (FALSE, FALSE, sizeof (guint));

  for (guint i = 0; i < cw_panel_set_n_hinges (set); i++)
    {
      guint piece;
      const CwHinge *hinge = cw_panel_set_get_hinge (set, i, &piece);
      const char *id = set->maps[piece].piece->id;

      if (names_panel (mending->finding, id, hinge->left) && names_panel (mending->finding, id, hinge->right))
        g_array_append_val (hinges, i);
    }
  return hinges;
}
