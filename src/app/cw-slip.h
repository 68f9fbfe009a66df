/* cw-slip.h: what the slips of paper at the side of the table share: a heading, and rows of words and fields.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/* A slip is a vertical box; this fills it with a heading that folds it away and returns the box for its rows. */
GtkWidget *cw_slip_fill (GtkBox *slip, const char *heading, GtkWidget **heading_label);
GtkWidget *cw_slip_add_heading (GtkWidget *body, const char *words);
GtkWidget *cw_slip_add_hint (GtkWidget *body, const char *words);
/* Words and a field, beside one another or, when wide, one above the other. Returns the row. */
GtkWidget *cw_slip_add_row (GtkWidget *body, const char *words, GtkWidget *field, gboolean wide);
GtkWidget *cw_slip_add_buttons (GtkWidget *body);

/* An entry whose text is taken by Enter or by leaving it, when it is another than the one shown; Escape gives the shown
 * text back. */
typedef void (*CwSlipTaken) (GtkWidget *entry, const char *text, gpointer data);
GtkWidget *cw_slip_entry_new (CwSlipTaken taken, gpointer data);
void cw_slip_entry_show (GtkWidget *entry, const char *text);
void cw_slip_entry_refuse (GtkWidget *entry); /* the text cannot be: marked until it is changed */
/* Takes what is being typed anywhere in the slip, before it shows something else. */
void cw_slip_take (GtkWidget *slip);

/* A list to choose from; changes while it is being filled are not told. */
GtkWidget *cw_slip_choice_new (GCallback chosen, gpointer data);
void cw_slip_choice_show (GtkWidget *choice, const char *const *words, guint selected);

G_END_DECLS
