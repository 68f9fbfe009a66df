/* cw-history.h: undo and redo without knowing any widget.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "design/cw-edit.h"

G_BEGIN_DECLS

typedef struct CwHistory CwHistory;

CwHistory *cw_history_new (CwDesign *design); /* takes a reference */
void cw_history_free (CwHistory *history);

CwDesign *cw_history_get_design (const CwHistory *history);
void cw_history_do (CwHistory *history, const char *name, CwEdit *edit);
gboolean cw_history_undo (CwHistory *history);
gboolean cw_history_redo (CwHistory *history);
const char *cw_history_get_undo_name (const CwHistory *history);
const char *cw_history_get_redo_name (const CwHistory *history);
void cw_history_set_saved (CwHistory *history);
void cw_history_forget_saved (CwHistory *history);
gboolean cw_history_is_saved (const CwHistory *history);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (CwHistory, cw_history_free)

G_END_DECLS
