/* cw-stack.h: which orders of layers paper can take, and which it cannot; of the contact room and its tests only.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <gio/gio.h>

#include "contact/cw-pile.h"

G_BEGIN_DECLS

typedef struct
{
  guint a, b; /* members; a < b unless said */
} CwPair;

/* What meets at one edge of a pile. Made once, refilled for every edge. */
typedef struct
{
  guint *seat[2];        /* n_members: place in the left and the right cell, from 1; 0: not there */
  GArray *folds[2];      /* of CwPair: fold lines that lie on the edge with both panels on this side */
  GArray *fold_seams[2]; /* of guint: the seam of each */
  GArray *sheets; /* of CwPair: what goes on across it: the member to the left and the one to the right (often one) */
} CwStackLine;

typedef enum
{
  CW_STACK_RIGHT,
  CW_STACK_WRONG_WAY,     /* a fold lies the other way round than it was folded */
  CW_STACK_SHEET_IN_FOLD, /* a sheet goes through a fold */
  CW_STACK_FOLDS_CROSS,   /* two folds on one line are caught in one another */
  CW_STACK_SHEETS_CROSS   /* two sheets change sides */
} CwStackFault;

typedef struct
{
  CwStackFault fault;
  guint edge;
  guint n_members;
  guint members[4];
} CwStackVerdict;

typedef struct
{
  guint64 n_found;  /* orders, up to as many as asked for */
  gboolean gave_up; /* a limit was reached, or it was stopped, before all were looked at */
} CwStackAnswer;

void cw_stack_line_init (CwStackLine *line, const CwPile *pile);
void cw_stack_line_read (CwStackLine *line, const CwPile *pile, guint edge);
void cw_stack_line_clear (CwStackLine *line);

CwStackVerdict cw_stack_check (const CwPile *pile);
GArray *cw_stack_list_faults (const CwPile *pile); /* of CwStackVerdict */
CwStackAnswer cw_stack_search (CwPile *pile, const GArray *open, guint64 most, guint64 tries, GCancellable *stop);

G_END_DECLS
