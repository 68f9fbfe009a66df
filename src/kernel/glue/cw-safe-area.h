/* cw-safe-area.h: where glue may lie on a face, and where it never may, over all rest states of a card.
 *
 * Regions are ticks of the face's own panel, in its piece's front coordinates.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "contact/cw-contact.h"

G_BEGIN_DECLS

/* What is asked of one face. */
typedef struct
{
  guint panel; /* through the design */
  CwFace face;
  guint first, last;     /* the first and the last step whose rest state counts */
  const gboolean *hosts; /* n_panels: what it is to hold; NULL: whatever stays with it from when they first meet */
  const gboolean *loose; /* n_panels, without hosts only: lies there without glue and may leave; NULL: nothing does */
  gboolean bare;         /* without hosts only: no glue is on it yet, so what a step sticks there is met anew */
  gint32 creep;          /* of the glue, ticks: kept away from every edge */
  gint32 hand;           /* how far a hand may miss, ticks: kept away from where the neighbour changes */
} CwSafeAsk;

/* Together safe, near and never cover what meets anything; the rest of the face lies free at all times. */
typedef struct
{
  guint panel;
  CwFace face;
  gboolean held;  /* something was named for it to hold, or stays with it */
  CwRegion safe;  /* what it is to hold lies there in every state, creep and hand allowed for */
  CwRegion near;  /* so it does, but creep or a hand that misses would carry glue beyond */
  CwRegion never; /* meets something else in some state, or what it is to hold and later no more */
  gint32 creep, hand;
  CwKnown known;
} CwSafeArea;

CwSafeArea cw_safe_area_find (const CwFlatStates *states, const CwSafeAsk *ask);
void cw_safe_area_clear (CwSafeArea *area);

G_END_DECLS
