/* cw-document-private.h: what the files of the document share.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "cw-document.h"
#include "cw-selection.h"

G_BEGIN_DECLS

struct _CwDocument
{
  GObject parent_instance;

  CwHistory *history;
  GFile *file;
  char *tag;         /* of the file as it was last read or written; NULL when that is not known */
  CwDesign *written; /* what stands in it */
  CwDiskState disk;  /* what somebody else has done to it */
  GFileMonitor *watch;
  guint look;      /* about to look at the file */
  gboolean saving; /* a worker writes it */
  CwTools tools;   /* of the maker; no part of the design */
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
  gboolean far;        /* measures are read from the right and the bottom edge */
  CwSelection *selection;
  GPtrArray *preview; /* of CwMark, NULL when there is none */
};

typedef enum
{
  CW_DOCUMENT_CHANGED,
  CW_DOCUMENT_ANALYSED,
  CW_DOCUMENT_MOMENT,
  CW_DOCUMENT_SELECTION,
  CW_DOCUMENT_PIECE,
  CW_DOCUMENT_LIE,
  CW_DOCUMENT_PREVIEW,
  CW_DOCUMENT_FILE,
  CW_DOCUMENT_DISK,
  CW_DOCUMENT_MESSAGE,
  CW_DOCUMENT_N_SIGNALS
} CwDocumentSignal;

void cw_document_tell (CwDocument *self, CwDocumentSignal what);
void cw_document_start_analysis (CwDocument *self);
void cw_document_set_file (CwDocument *self, GFile *file, CwDesign *written); /* file NULL: lets go of it */

G_END_DECLS
