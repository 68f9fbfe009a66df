/* cw-finding-list.h: what the program has to say about the design, worst first, each with its place.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <gtk/gtk.h>

#include "cw-document.h"

G_BEGIN_DECLS

#define CW_TYPE_FINDING_LIST (cw_finding_list_get_type ())
G_DECLARE_FINAL_TYPE (CwFindingList, cw_finding_list, CW, FINDING_LIST, GtkBox)

void cw_finding_list_set_document (CwFindingList *self, CwDocument *document);
/* Brings a finding's moment and place onto the table. */
void cw_finding_list_show (CwFindingList *self, guint index);
/* Counted for the button that folds the list away: "2 problems, 1 note"; "Nothing found". */
char *cw_finding_list_dup_count (CwDocument *document);
/* The icon of a severity: a shape of its own, so that colour is never the only sign. */
const char *cw_finding_list_get_icon (CwSeverity severity);

G_END_DECLS
