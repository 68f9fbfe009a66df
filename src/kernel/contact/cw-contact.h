/* cw-contact.h: what a face of a panel lies against at a rest state, and where.
 *
 * Regions are ticks of the asking panel's own flat coordinates. Asked of any rest state: panels that lie in one plane
 * are known also where the whole card does not lie flat.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "contact/cw-flat-state.h"
#include "geometry/cw-region.h"

G_BEGIN_DECLS

#define CW_CONTACT_AIR G_MAXUINT /* in place of a panel: nothing lies there */

typedef struct
{
  guint panel;    /* what lies there, through the design, or CW_CONTACT_AIR */
  CwFace face;    /* the face of it that meets the asking one */
  CwRegion where; /* flat coordinates of the asking panel; the contacts of one face never overlap */
} CwContact;

/* What one face of a panel meets at a step's end (G_MAXUINT: before the first), each other panel once, in the order of
 * their numbers, air last. Returns: (transfer full) GArray of CwContact; known gets how the order is known. */
GArray *cw_contacts_find (const CwFlatStates *states, guint step, guint panel, CwFace face, CwKnown *known);
/* TRUE if nothing on the card moved, joined or left between the ends of two steps that follow one another: whoever met
 * whom at `step` - 1 still does. */
gboolean cw_contacts_same_as_before (const CwFlatStates *states, guint step);

G_END_DECLS
