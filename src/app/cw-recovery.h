/* cw-recovery.h: a copy of what is not saved yet, for the day the program ends in the middle of it.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "cw-document.h"

G_BEGIN_DECLS

/* A copy that nobody looks after any more. It stays claimed, so that nobody else is offered it, until it is freed. */
typedef struct
{
  char *base;  /* path of the copy without its endings */
  int claim;   /* the open file that holds the claim */
  char *title; /* of the card */
  GFile *file; /* where the card was kept; NULL: nowhere yet */
  char *tag;   /* of that file when it was last read or written */
  CwDesign *design;
} CwLeftover;

CwLeftover *cw_leftover_find (void);
CwDocument *cw_leftover_open (CwLeftover *leftover); /* then cw_recovery_new() goes on with the copy */
void cw_leftover_remove (CwLeftover *leftover);      /* takes it */
void cw_leftover_free (CwLeftover *leftover);        /* takes it; the copy stays */

#define CW_TYPE_RECOVERY (cw_recovery_get_type ())
G_DECLARE_FINAL_TYPE (CwRecovery, cw_recovery, CW, RECOVERY, GObject)

CwRecovery *cw_recovery_new (CwDocument *document, CwLeftover *leftover); /* takes the leftover */
void cw_recovery_end (CwRecovery *self); /* the maker has let go of the design on purpose */

G_DEFINE_AUTOPTR_CLEANUP_FUNC (CwLeftover, cw_leftover_free)

G_END_DECLS
