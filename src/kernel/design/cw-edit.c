/* cw-edit.c: the closed list of edits, what each does and what undoes it.
 *
 * An edit keeps the item that was there and the one that is to be there, so its inverse is the same edit with the two
 * exchanged; a move's inverse is the move back; a group's the inverses in reverse order. Applying makes a new design
 * that shares every list and item that is not on the way to the change, so it costs one list, not one design.
 * Refuses, as the caller's mistake, an edit whose place no longer holds what it remembers: an edit belongs to the
 * design it was made for, or to one in which the same items stand at the same places.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "design/cw-edit.h"

#include "design/cw-design-private.h"

#include <string.h>

struct CwEdit
{
  gatomicrefcount ref_count;
  CwEditKind kind;
  CwList list;
  char *piece_id;         /* owned; NULL except for the lists of one piece */
  guint index;            /* ITEM, and where MOVE takes it from */
  guint to;               /* MOVE: its index afterwards */
  gpointer before, after; /* owned: items of the list, or heads; NULL: none */
  GPtrArray *edits;       /* GROUP: of CwEdit, owned */
};

static gboolean
is_of_piece (CwList list)
{
  return list == CW_LIST_MARKS || list == CW_LIST_NAMES || list == CW_LIST_ART;
}

/* What an edit of a list, or of the head, has to know about its items. */
static gpointer
item_ref (CwEditKind kind, CwList list, gpointer item)
{
  if (!item)
    return NULL;
  if (kind == CW_EDIT_HEAD)
    return cw_head_ref (item);
  switch (list)
    {
    case CW_LIST_PAPERS:
      return cw_paper_ref (item);
    case CW_LIST_PIECES:
      return cw_piece_ref (item);
    case CW_LIST_GLUE:
      return cw_glue_ref (item);
    case CW_LIST_STEPS:
      return cw_step_ref (item);
    case CW_LIST_MARKS:
      return cw_mark_ref (item);
    case CW_LIST_NAMES:
      return cw_name_ref (item);
    case CW_LIST_ART:
      return cw_art_ref (item);
    default:
      g_assert_not_reached ();
    }
}

#define DEFINE_UNREF(name)                                                                                             \
  static void unref_##name (gpointer item)                                                                             \
  {                                                                                                                    \
    cw_##name##_unref (item);                                                                                          \
  }
DEFINE_UNREF (head)
DEFINE_UNREF (paper)
DEFINE_UNREF (piece)
DEFINE_UNREF (glue)
DEFINE_UNREF (step)
DEFINE_UNREF (mark)
DEFINE_UNREF (name)
DEFINE_UNREF (art)

static GDestroyNotify
get_unref (CwEditKind kind, CwList list)
{
  static const GDestroyNotify unrefs[]
    = { unref_paper, unref_piece, unref_glue, unref_step, unref_mark, unref_name, unref_art };

  return kind == CW_EDIT_HEAD ? unref_head : unrefs[list];
}

static GPtrArray *
get_list (const CwDesign *design, CwList list, const char *piece_id)
{
  const CwPiece *piece = is_of_piece (list) ? cw_design_get_piece (design, piece_id) : NULL;

  switch (list)
    {
    case CW_LIST_PAPERS:
      return design->papers;
    case CW_LIST_PIECES:
      return design->pieces;
    case CW_LIST_GLUE:
      return design->glue;
    case CW_LIST_STEPS:
      return design->steps;
    case CW_LIST_MARKS:
      return piece ? piece->marks : NULL;
    case CW_LIST_NAMES:
      return piece ? piece->names : NULL;
    case CW_LIST_ART:
      return piece ? piece->art : NULL;
    default:
      g_return_val_if_reached (NULL);
    }
}

static CwEdit *
edit_new (CwEditKind kind, CwList list, const char *piece_id)
{
  CwEdit *edit = g_new0 (CwEdit, 1);

  g_atomic_ref_count_init (&edit->ref_count);
  edit->kind = kind;
  edit->list = list;
  edit->piece_id = g_strdup (piece_id);
  return edit;
}

/**
 * cw_edit_new_head:
 * @design: the design to be edited
 * @head: (transfer full): its head afterwards
 *
 * Returns: (transfer full): the edit that replaces title, measures, wants and what else the head holds
 */
CwEdit *
cw_edit_new_head (const CwDesign *design, CwHead *head)
{
  g_return_val_if_fail (design && head, NULL);
  CwEdit *edit = edit_new (CW_EDIT_HEAD, CW_LIST_PAPERS, NULL);

  edit->before = cw_head_ref (design->head);
  edit->after = head;
  return edit;
}

/**
 * cw_edit_new_insert:
 * @design: the design to be edited
 * @list: a list
 * @piece_id: (nullable): the piece whose list it is, NULL for the lists of the design
 * @index: where the item shall stand; the length of the list, or G_MAXUINT, puts it last
 * @item: (transfer full): the item, of the type of the list
 *
 * Returns: (transfer full): the edit that puts @item in
 */
CwEdit *
cw_edit_new_insert (const CwDesign *design, CwList list, const char *piece_id, guint index, gpointer item)
{
  g_return_val_if_fail (design && item, NULL);
  const GPtrArray *items = get_list (design, list, piece_id);
  g_return_val_if_fail (items && (index <= items->len || index == G_MAXUINT), NULL);
  CwEdit *edit = edit_new (CW_EDIT_ITEM, list, piece_id);

  edit->index = index == G_MAXUINT ? items->len : index;
  edit->after = item;
  return edit;
}

/**
 * cw_edit_new_replace:
 * @design: the design to be edited
 * @list: a list
 * @piece_id: (nullable): the piece whose list it is, NULL for the lists of the design
 * @index: which item
 * @item: (transfer full): what it becomes
 *
 * Returns: (transfer full): the edit that puts @item in the place of the one at @index
 */
CwEdit *
cw_edit_new_replace (const CwDesign *design, CwList list, const char *piece_id, guint index, gpointer item)
{
  g_return_val_if_fail (design && item, NULL);
  const GPtrArray *items = get_list (design, list, piece_id);
  g_return_val_if_fail (items && index < items->len, NULL);
  CwEdit *edit = edit_new (CW_EDIT_ITEM, list, piece_id);

  edit->index = index;
  edit->before = item_ref (CW_EDIT_ITEM, list, g_ptr_array_index (items, index));
  edit->after = item;
  return edit;
}

/**
 * cw_edit_new_remove:
 * @design: the design to be edited
 * @list: a list
 * @piece_id: (nullable): the piece whose list it is, NULL for the lists of the design
 * @index: which item
 *
 * What refers to the item is left alone: see cw_edit_new_erase().
 *
 * Returns: (transfer full): the edit that takes the item at @index out
 */
CwEdit *
cw_edit_new_remove (const CwDesign *design, CwList list, const char *piece_id, guint index)
{
  g_return_val_if_fail (design, NULL);
  const GPtrArray *items = get_list (design, list, piece_id);
  g_return_val_if_fail (items && index < items->len, NULL);
  CwEdit *edit = edit_new (CW_EDIT_ITEM, list, piece_id);

  edit->index = index;
  edit->before = item_ref (CW_EDIT_ITEM, list, g_ptr_array_index (items, index));
  return edit;
}

/**
 * cw_edit_new_move:
 * @list: a list
 * @piece_id: (nullable): the piece whose list it is, NULL for the lists of the design
 * @from: which item
 * @to: its index afterwards
 *
 * Returns: (transfer full): the edit that moves the item
 */
CwEdit *
cw_edit_new_move (CwList list, const char *piece_id, guint from, guint to)
{
  CwEdit *edit = edit_new (CW_EDIT_MOVE, list, piece_id);

  edit->index = from;
  edit->to = to;
  return edit;
}

/**
 * cw_edit_new_group:
 *
 * Returns: (transfer full): an edit that does nothing yet; see cw_edit_group_add()
 */
CwEdit *
cw_edit_new_group (void)
{
  CwEdit *edit = edit_new (CW_EDIT_GROUP, CW_LIST_PAPERS, NULL);

  edit->edits = g_ptr_array_new_with_free_func ((GDestroyNotify) cw_edit_unref);
  return edit;
}

/**
 * cw_edit_group_add:
 * @group: a group that is not shared yet
 * @edit: (transfer full): what to do after what is in it already
 *
 * An edit that touches what an earlier one of the group touched must be made for the design as that one leaves it:
 * cw_edit_apply() the group so far.
 */
void
cw_edit_group_add (CwEdit *group, CwEdit *edit)
{
  g_return_if_fail (group && group->kind == CW_EDIT_GROUP && edit && edit != group);
  g_ptr_array_add (group->edits, edit);
}

/**
 * cw_edit_get_kind:
 * @edit: an edit
 *
 * Returns: its kind
 */
CwEditKind
cw_edit_get_kind (const CwEdit *edit)
{
  g_return_val_if_fail (edit, CW_EDIT_GROUP);
  return edit->kind;
}

/**
 * cw_edit_is_empty:
 * @edit: an edit
 *
 * Returns: whether it certainly changes nothing: a group of nothing, a move to where the item is
 */
gboolean
cw_edit_is_empty (const CwEdit *edit)
{
  g_return_val_if_fail (edit, TRUE);
  switch (edit->kind)
    {
    case CW_EDIT_MOVE:
      return edit->index == edit->to;
    case CW_EDIT_GROUP:
      for (guint i = 0; i < edit->edits->len; i++)
        if (!cw_edit_is_empty (g_ptr_array_index (edit->edits, i)))
          return FALSE;
      return TRUE;
    case CW_EDIT_HEAD:
    case CW_EDIT_ITEM:
    default:
      return edit->before == edit->after;
    }
}

/**
 * cw_edit_ref:
 * @edit: an edit
 *
 * Returns: (transfer full): @edit
 */
CwEdit *
cw_edit_ref (CwEdit *edit)
{
  g_return_val_if_fail (edit, NULL);
  g_atomic_ref_count_inc (&edit->ref_count);
  return edit;
}

/**
 * cw_edit_unref:
 * @edit: (nullable) (transfer full): an edit
 */
void
cw_edit_unref (CwEdit *edit)
{
  if (!edit || !g_atomic_ref_count_dec (&edit->ref_count))
    return;
  GDestroyNotify unref = get_unref (edit->kind, edit->list);
  g_clear_pointer (&edit->before, unref);
  g_clear_pointer (&edit->after, unref);
  g_clear_pointer (&edit->edits, g_ptr_array_unref);
  g_free (edit->piece_id);
  g_free (edit);
}

/**
 * cw_edit_invert:
 * @edit: an edit
 *
 * Returns: (transfer full): the edit that takes a design back from after @edit to before it
 */
CwEdit *
cw_edit_invert (const CwEdit *edit)
{
  g_return_val_if_fail (edit, NULL);
  CwEdit *back = edit_new (edit->kind, edit->list, edit->piece_id);

  back->before = item_ref (edit->kind, edit->list, edit->after);
  back->after = item_ref (edit->kind, edit->list, edit->before);
  back->index = edit->kind == CW_EDIT_MOVE ? edit->to : edit->index;
  back->to = edit->kind == CW_EDIT_MOVE ? edit->index : 0;
  if (edit->edits)
    {
      back->edits = g_ptr_array_new_with_free_func ((GDestroyNotify) cw_edit_unref);
      for (guint i = edit->edits->len; i > 0; i--)
        g_ptr_array_add (back->edits, cw_edit_invert (g_ptr_array_index (edit->edits, i - 1)));
    }
  return back;
}

static gboolean
same_items (const GPtrArray *a, const GPtrArray *b)
{
  return a == b || (a->len == b->len && (a->len == 0 || memcmp (a->pdata, b->pdata, a->len * sizeof (gpointer)) == 0));
}

/* Whether an item is the one an edit remembers. A piece is made anew by every edit of its lists, so undoing and redoing
 * such an edit gives another piece with the same items. */
static gboolean
is_same (CwList list, gconstpointer a, gconstpointer b)
{
  const CwPiece *p = a, *q = b;

  return a == b
         || (list == CW_LIST_PIECES && g_strcmp0 (p->id, q->id) == 0 && same_items (p->marks, q->marks)
             && same_items (p->names, q->names) && same_items (p->art, q->art));
}

/* The list after the edit; NULL when the edit does not belong to it. */
static GPtrArray *
apply_to_list (const CwEdit *edit, const GPtrArray *items)
{
  gboolean is_insert = edit->kind == CW_EDIT_ITEM && !edit->before;

  g_return_val_if_fail (edit->index < items->len + (is_insert ? 1 : 0), NULL);
  g_return_val_if_fail (edit->kind != CW_EDIT_MOVE || edit->to < items->len, NULL);
  g_return_val_if_fail (!edit->before || is_same (edit->list, edit->before, g_ptr_array_index (items, edit->index)),
                        NULL);

  GPtrArray *list = g_ptr_array_new_full (items->len + 1, get_unref (edit->kind, edit->list));
  for (guint i = 0; i < items->len; i++)
    g_ptr_array_add (list, item_ref (edit->kind, edit->list, g_ptr_array_index (items, i)));
  if (edit->kind == CW_EDIT_MOVE)
    g_ptr_array_insert (list, (gint) edit->to, g_ptr_array_steal_index (list, edit->index));
  else
    {
      if (edit->before)
        g_ptr_array_remove_index (list, edit->index);
      if (edit->after)
        g_ptr_array_insert (list, (gint) edit->index, item_ref (edit->kind, edit->list, edit->after));
    }
  return list;
}

static void
replace_list (GPtrArray **where, GPtrArray *list)
{
  g_ptr_array_unref (*where);
  *where = list;
}

/* Puts a list into a design that is not shared yet. */
static void
take_list (CwDesign *design, CwList list, const char *piece_id, GPtrArray *items)
{
  switch (list)
    {
    case CW_LIST_PAPERS:
      replace_list (&design->papers, items);
      return;
    case CW_LIST_PIECES:
      replace_list (&design->pieces, items);
      return;
    case CW_LIST_GLUE:
      replace_list (&design->glue, items);
      return;
    case CW_LIST_STEPS:
      replace_list (&design->steps, items);
      return;
    case CW_LIST_MARKS:
    case CW_LIST_NAMES:
    case CW_LIST_ART:
    default:
      break;
    }

  guint index = cw_design_find_piece (design, piece_id);
  GPtrArray *pieces = g_ptr_array_new_full (design->pieces->len, unref_piece);
  for (guint i = 0; i < design->pieces->len; i++)
    {
      CwPiece *piece = g_ptr_array_index (design->pieces, i);
      g_ptr_array_add (pieces, i == index ? cw_piece_share (piece) : cw_piece_ref (piece));
    }
  CwPiece *piece = g_ptr_array_index (pieces, index);
  replace_list (list == CW_LIST_MARKS ? &piece->marks : list == CW_LIST_NAMES ? &piece->names : &piece->art, items);
  replace_list (&design->pieces, pieces);
}

/**
 * cw_edit_apply:
 * @edit: an edit
 * @design: the design it was made for
 *
 * Returns: (transfer full) (nullable): the design afterwards, which shares what did not change; NULL, with a critical
 *   message, when @edit does not belong to @design
 */
CwDesign *
cw_edit_apply (const CwEdit *edit, const CwDesign *design)
{
  g_return_val_if_fail (edit && design, NULL);
  g_autoptr (CwDesign) result = cw_design_share (design);

  if (edit->kind == CW_EDIT_HEAD)
    {
      g_return_val_if_fail (edit->before == design->head, NULL);
      cw_head_unref (result->head);
      result->head = cw_head_ref (edit->after);
      return g_steal_pointer (&result);
    }
  if (edit->kind == CW_EDIT_GROUP)
    {
      for (guint i = 0; i < edit->edits->len; i++)
        {
          CwDesign *next = cw_edit_apply (g_ptr_array_index (edit->edits, i), result);
          if (!next)
            return NULL;
          cw_design_unref (result);
          result = next;
        }
      return g_steal_pointer (&result);
    }
  const GPtrArray *items = get_list (design, edit->list, edit->piece_id);
  g_return_val_if_fail (items, NULL);
  GPtrArray *list = apply_to_list (edit, items);
  if (!list)
    return NULL;
  take_list (result, edit->list, edit->piece_id, list);
  return g_steal_pointer (&result);
}
