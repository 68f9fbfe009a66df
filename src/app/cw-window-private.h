/* cw-window-private.h: what the files of the window share.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "cw-finding-list.h"
#include "cw-mark-bar.h"
#include "cw-measure-entry.h"
#include "cw-start-page.h"
#include "cw-step-strip.h"
#include "cw-table.h"
#include "cw-window.h"

G_BEGIN_DECLS

/* What waits until the maker has said what to do with unsaved changes. */
typedef enum
{
  CW_PENDING_NOTHING,
  CW_PENDING_CLOSE,
  CW_PENDING_START, /* go to the start page */
  CW_PENDING_OPEN,  /* open pending_file */
} CwPending;

struct _CwWindow
{
  GtkApplicationWindow parent_instance;

  /* Template */
  GtkWidget *stack, *title, *subtitle, *save_button, *undo_button, *redo_button;
  GtkWidget *findings_button, *findings_icon, *findings_label, *findings_revealer;
  gboolean wants_findings; /* the slip is wanted when there is something on it */
  GtkWidget *message_revealer, *message, *guard_revealer, *guard;
  CwStartPage *start_page;
  CwTable *table;
  CwMeasureEntry *measure_entry;
  CwMarkBar *mark_bar;
  CwStepStrip *steps;
  CwFindingList *findings;

  /* Owned */
  CwDocument *document;
  GSettings *settings; /* NULL when the schema is not installed */
  GtkFileChooserNative *chooser;
  CwPending pending;
  GFile *pending_file;
  gboolean busy; /* a file is being read or written */
};

/* The facts that decide which actions can be used. */
typedef struct
{
  gboolean has_document, has_file, is_saved, busy;
  gboolean can_undo, can_redo;
  int step;
  guint n_steps;
  gboolean guard; /* the question about unsaved changes is up */
} CwWindowState;

/* The one place that decides it; TRUE for actions that can always be used. */
gboolean cw_window_action_is_enabled (const char *name, const CwWindowState *state);
void cw_window_add_actions (CwWindow *self);
void cw_window_reveal_findings (CwWindow *self, gboolean reveal);
void cw_window_update_actions (CwWindow *self);

void cw_window_choose_open (CwWindow *self);
void cw_window_save (CwWindow *self, gboolean ask);
/* TRUE when it was done at once; FALSE when the maker has to be asked first. */
gboolean cw_window_guard (CwWindow *self, CwPending pending, GFile *file);
void cw_window_guard_answer (CwWindow *self, const char *answer); /* "save", "discard", "cancel" */
void cw_window_do_pending (CwWindow *self);
void cw_window_open_sample (CwWindow *self, GFile *file);

G_END_DECLS
