/* cw-envelope.h: envelopes that can be bought.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "units/cw-length.h"

G_BEGIN_DECLS

typedef struct
{
  const char *name; /* as on the packet, the same in every language; static */
  CwUnit unit;      /* that its size is given in */
  gint32 size[2];   /* ticks, the shorter side first */
} CwEnvelope;

/* The smallest that a card of this size goes into with room all round, of those sized in this unit's system; NULL if
 * there is none. */
const CwEnvelope *cw_envelope_find (gint32 width, gint32 height, gint32 room, CwUnit unit);

G_END_DECLS
