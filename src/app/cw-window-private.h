/* cw-window-private.h: what the files of the window share.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "cw-cards-page.h"
#include "cw-finding-list.h"
#include "cw-mark-bar.h"
#include "cw-measure-entry.h"
#include "cw-piece-slip.h"
#include "cw-recovery.h"
#include "cw-start-page.h"
#include "cw-step-form.h"
#include "cw-step-strip.h"
#include "cw-table.h"
#include "cw-want-slip.h"
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

/* What the maker is being asked, in the window. */
typedef enum
{
  CW_ASK_NOTHING,
  CW_ASK_UNSAVED,  /* something would let go of changes */
  CW_ASK_FAILED,   /* the card could not be saved there */
  CW_ASK_OVER,     /* somebody else has written the file that is to be saved */
  CW_ASK_CHANGED,  /* somebody else has written the open file */
  CW_ASK_LEFTOVER, /* a design that the program did not save when it ended */
  CW_N_ASKS
} CwAsk;

struct _CwWindow
{
  GtkApplicationWindow parent_instance;

  /* Template */
  GtkWidget *stack, *title, *subtitle, *save_button, *undo_button, *redo_button;
  GtkWidget *findings_button, *findings_icon, *findings_label, *findings_revealer, *slips, *slips_button;
  const char *slip;        /* the one that lies at the side; NULL: none */
  gboolean wants_findings; /* the slip is wanted when there is something on it */
  GtkWidget *message_revealer, *message, *question_revealer, *question, *answers;
  CwStartPage *start_page;
  CwTable *table;
  CwMeasureEntry *measure_entry;
  CwMarkBar *mark_bar;
  CwStepStrip *steps;
  CwFindingList *findings;
  GtkWidget *page_switch;
  CwCardsPage *cards;
  CwStepForm *step_form; /* these three and the cards: NULL until first shown */
  CwPieceSlip *piece_slip;
  CwWantSlip *want_slip;

  /* Owned */
  CwDocument *document;
  CwRecovery *recovery; /* of the document */
  CwLeftover *leftover; /* offered to be brought back */
  GList *later;         /* of CwLeftover: not to be offered again before the next start */
  gboolean offers_leftovers;
  CwAsk ask;
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
  gboolean asking; /* a question is up */
} CwWindowState;

/* The one place that decides it; TRUE for actions that can always be used. */
gboolean cw_window_action_is_enabled (const char *name, const CwWindowState *state);
void cw_window_add_actions (CwWindow *self);
void cw_window_show_slip (CwWindow *self, const char *name);
void cw_window_change_slip (CwWindow *self, const char *action, gboolean show);
void cw_window_hide_slip (CwWindow *self);
void cw_window_reveal_findings (CwWindow *self, gboolean reveal);
void cw_window_show_document_on_slips (CwWindow *self);
void cw_window_update_actions (CwWindow *self);
void cw_window_show_page (CwWindow *self, const char *name); /* "table" or "cards" */

void cw_window_choose_open (CwWindow *self);
void cw_window_save (CwWindow *self, gboolean ask);
/* TRUE when it was done at once; FALSE when the maker has to be asked first. */
gboolean cw_window_guard (CwWindow *self, CwPending pending, GFile *file);
void cw_window_add_questions (CwWindow *self);
void cw_window_ask (CwWindow *self, CwAsk ask, const char *sentence);
void cw_window_answer (CwWindow *self, const char *answer); /* one of those of the question */
void cw_window_disk_changed (CwWindow *self);
void cw_window_save_over (CwWindow *self, gboolean over);
void cw_window_open_again (CwWindow *self);
void cw_window_read (CwWindow *self, GFile *file); /* asks nothing */
void cw_window_take_document (CwWindow *self, CwDocument *document, CwLeftover *leftover);
void cw_window_do_pending (CwWindow *self);
void cw_window_open_sample (CwWindow *self, GFile *file);

G_END_DECLS
