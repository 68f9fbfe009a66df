/* cw-edit.h: the closed list of edits. Every change to a design is one of these, and every one has an inverse.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "design/cw-design.h"

G_BEGIN_DECLS

typedef enum
{
  CW_LIST_PAPERS,
  CW_LIST_PIECES,
  CW_LIST_GLUE,
  CW_LIST_STEPS,
  CW_LIST_MARKS, /* of one piece */
  CW_LIST_NAMES, /* of one piece */
  CW_LIST_ART,   /* of one piece */
} CwList;

typedef enum
{
  CW_EDIT_HEAD,  /* replace title, measures, wants... */
  CW_EDIT_ITEM,  /* put in (before NULL), take out (after NULL) or replace an item of a list at an index */
  CW_EDIT_MOVE,  /* move an item of a list from one index to another */
  CW_EDIT_GROUP, /* several edits in order, as one */
} CwEditKind;

typedef struct CwEdit CwEdit;

/* Items and heads handed in are taken. piece_id is NULL except for the lists of one piece. */
CwEdit *cw_edit_new_head (const CwDesign *design, CwHead *head);
CwEdit *cw_edit_new_insert (const CwDesign *design, CwList list, const char *piece_id, guint index, gpointer item);
CwEdit *cw_edit_new_replace (const CwDesign *design, CwList list, const char *piece_id, guint index, gpointer item);
CwEdit *cw_edit_new_remove (const CwDesign *design, CwList list, const char *piece_id, guint index);
CwEdit *cw_edit_new_erase (const CwDesign *design, CwList list, const char *piece_id, guint index);
CwEdit *cw_edit_new_move (CwList list, const char *piece_id, guint from, guint to);
CwEdit *cw_edit_new_group (void);
void cw_edit_group_add (CwEdit *group, CwEdit *edit);

CwEditKind cw_edit_get_kind (const CwEdit *edit);
gboolean cw_edit_is_empty (const CwEdit *edit);
CwEdit *cw_edit_ref (CwEdit *edit);
void cw_edit_unref (CwEdit *edit);
CwEdit *cw_edit_invert (const CwEdit *edit);
CwDesign *cw_edit_apply (const CwEdit *edit, const CwDesign *design);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (CwEdit, cw_edit_unref)

G_END_DECLS
