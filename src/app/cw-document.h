/* cw-document.h: the open design: its history, file, what the kernel found out, the moment looked at and the selection.
 *
 * The window's parts talk through this object only. A change of the design starts an analysis on a worker thread; a
 * stale one is dropped. Signals: "changed" (the design), "analysed" (a new analysis, always of the current design),
 * "moment" (step or fraction), "selection", "piece" (which piece lies on the table), "lie" (how it lies), "preview"
 * (marks not yet in the design), "file" (name or saved state), "disk" (the file is
 * another than it was), "message" (a sentence for the maker).
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <gio/gio.h>

#include "check/cw-analysis.h"
#include "cw-draw-list.h"
#include "design/cw-history.h"
#include "text/cw-measure-line.h"

G_BEGIN_DECLS

#define CW_TYPE_DOCUMENT (cw_document_get_type ())
G_DECLARE_FINAL_TYPE (CwDocument, cw_document, CW, DOCUMENT, GObject)

CwDocument *cw_document_new (CwDesign *design, GFile *file); /* file NULL: not saved yet */

/* Takes hold of another document, or of none, in the place of one that is followed; what that one tells is no longer
 * heard. Whether it is another. */
gboolean cw_document_follow (CwDocument **followed, CwDocument *document, gpointer follower);

CwDesign *cw_document_get_design (CwDocument *self);
CwAnalysis *cw_document_get_analysis (CwDocument *self); /* borrowed; the newest finished one, NULL before the first;
                                                            its design may be older than the current one */
gboolean cw_document_is_bare (CwDocument *self);         /* nothing is drawn yet */
gboolean cw_document_is_analysed (CwDocument *self);     /* that analysis is of the current design */
void cw_document_set_tools (CwDocument *self, const CwTools *tools); /* what the maker works with: analysed anew */
void cw_document_analyse_now (CwDocument *self);                     /* waits for it; for tests and small designs */

/* Takes the edit; an empty one does nothing. The name is a translated phrase that can follow "Undo", such as
 * _("move score"). */
void cw_document_do (CwDocument *self, const char *name, CwEdit *edit);
/* Takes the edit, or tells why it cannot be; takes error too. Whether there was one. */
gboolean cw_document_try (CwDocument *self, const char *name, CwEdit *edit, GError *error);
gboolean cw_document_undo (CwDocument *self);
gboolean cw_document_redo (CwDocument *self);
const char *cw_document_get_undo_name (CwDocument *self);
const char *cw_document_get_redo_name (CwDocument *self);

GFile *cw_document_get_file (CwDocument *self);
char *cw_document_dup_title (CwDocument *self);
gboolean cw_document_is_saved (CwDocument *self);
CwDocument *cw_document_load (GFile *file, GError **error);
gboolean cw_document_save (CwDocument *self, GFile *file, GError **error); /* file NULL: where it came from */
void cw_document_save_async (CwDocument *self, GFile *file, gboolean over, GAsyncReadyCallback done, gpointer data);
gboolean cw_document_save_finish (CwDocument *self, GAsyncResult *result, GFile **file, GError **error);
void cw_document_forget_saved (CwDocument *self); /* no file holds this design */
const char *cw_document_get_tag (CwDocument *self);
void cw_document_set_tag (CwDocument *self, const char *tag);

/* What other programs have done to the file; told by "disk". */
typedef enum
{
  CW_DISK_SAME,
  CW_DISK_CHANGED,
  CW_DISK_GONE,
} CwDiskState;
CwDiskState cw_document_get_disk (CwDocument *self);
void cw_document_keep_mine (CwDocument *self); /* the next saving replaces the file as it is now */

/* The moment the card is shown at. step -1: before the first step. */
void cw_document_set_moment (CwDocument *self, int step, double fraction);
int cw_document_get_step (CwDocument *self);
/* The moment at which a design is seen best: half way into the first using step, else the end. */
void cw_document_choose_moment (const CwDesign *design, int *step, double *fraction);
double cw_document_get_fraction (CwDocument *self);

/* The piece lying on the table as a sheet, its index in the design. */
void cw_document_set_piece (CwDocument *self, guint piece);
guint cw_document_get_piece (CwDocument *self);
/* How it lies: turned by quarters, drawn side or other side up. Typed measures are read from it as it lies. */
void cw_document_set_lie (CwDocument *self, CwLie lie);
CwLie cw_document_get_lie (CwDocument *self);
/* Measures of what is selected are read from the right and the bottom edge; told by "selection". */
void cw_document_set_far (CwDocument *self, gboolean far);
gboolean cw_document_get_far (CwDocument *self);

/* Marks that Enter or letting go would add to the piece on the table; NULL: none. Borrowed on both ways, the document
 * keeps a reference. */
void cw_document_set_preview (CwDocument *self, GPtrArray *marks);
GPtrArray *cw_document_get_preview (CwDocument *self);

/* Selection: CwIds into the current design; dropped or remapped when an edit takes the item away. */
void cw_document_select (CwDocument *self, const CwId *ids, guint n_ids);
void cw_document_toggle (CwDocument *self, CwId id);
const CwId *cw_document_get_selection (CwDocument *self, guint *n_ids);

/* A word to the maker, shown in the window's one message line: "message" signal with the sentence. */
void cw_document_say (CwDocument *self, const char *sentence);

G_END_DECLS
