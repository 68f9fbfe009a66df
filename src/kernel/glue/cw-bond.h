/* cw-bond.h: glue is physical: what every glue zone sticks to, when, and what follows for the motion.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "contact/cw-contact.h"
#include "glue/cw-safe-area.h"
#include "glue/cw-zone.h"

G_BEGIN_DECLS

/* One zone, one pair of panels, one step in which more of the zone came to lie against that panel. */
typedef struct
{
  guint zone;             /* place in the design's list */
  guint step;             /* at whose end it became a bond */
  guint panel, other;     /* the zone's own panel and what it sticks to, through the design */
  CwFace other_face;      /* the face of `other` that it sticks to */
  gboolean intended;      /* else it strays */
  gboolean over_air;      /* nothing lay there when the zone began to stick: it hung over an edge or an opening */
  CwRegion where;         /* the new contact only, flat coordinates of the zone's piece */
  gint64 area2;           /* of it, twice, square ticks */
  CwRigid other_in_panel; /* flat `other` to flat `panel` */
  CwKnown known;          /* how the order of layers there is known */
} CwGlued;

/* Everything that glue does to a design. Immutable once made, reference counted. */
typedef struct CwBonds CwBonds;

/* NULL when cancelled. */
CwBonds *cw_bonds_new (CwPanelSet *set, GCancellable *cancellable);
CwBonds *cw_bonds_ref (CwBonds *bonds);
void cw_bonds_unref (CwBonds *bonds);
CwMotion *cw_bonds_get_motion (const CwBonds *bonds);     /* with all bonds */
CwFlatStates *cw_bonds_get_states (const CwBonds *bonds); /* of that motion */
const GArray *cw_bonds_get_zones (const CwBonds *bonds);  /* of CwZone, in file order */
const GArray *cw_bonds_get_rows (const CwBonds *bonds);   /* of CwGlued: by step, zone, panel, other */
GPtrArray *cw_bonds_get_findings (const CwBonds *bonds);  /* of CwFinding, borrowed */
/* Whether a finding of the motion only follows from glue and is told by the findings above. */
gboolean cw_bonds_explain (const CwBonds *bonds, const CwFinding *finding);
/* Twice the area of a zone that holds what it should, or strays, over all rest states. */
gint64 cw_bonds_get_area2 (const CwBonds *bonds, guint zone, gboolean intended);
/* Whether the zone is meant to hold this panel (a piece named alone: the panels of it that it met first). */
gboolean cw_bonds_is_intended (const CwBonds *bonds, guint zone, guint panel);
/* Where glue may lie on a face, from the step on in which its piece is laid there or its first zone sticks; any other
 * face from when its piece is on the card. */
CwSafeArea cw_bonds_find_safe_area (const CwBonds *bonds, guint panel, CwFace face);
/* The same if all glue on it were of this kind. */
CwSafeArea cw_bonds_find_safe_area_for (const CwBonds *bonds, guint panel, CwFace face, CwGlueKind kind);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (CwBonds, cw_bonds_unref)

G_END_DECLS
