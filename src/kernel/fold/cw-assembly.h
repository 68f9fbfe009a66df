/* cw-assembly.h: what is joined to what between two moments at which something is stuck on or taken away.
 *
 * Panels that move as one make a body; bodies and fold lines make a linkage. All pieces take part, also those not yet
 * on the card (they may be folded before they join), so joint numbers are the design's hinge numbers.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "fold/cw-linkage.h"
#include "panel/cw-panel-map.h"

G_BEGIN_DECLS

/* Two panels held together: b's flat coordinates in a's. */
typedef struct
{
  guint panel_a, panel_b; /* indices through the design */
  CwRigid b_in_a;
  const double *made_at; /* nullable, borrowed: the n_hinges angles at which the two met, radians */
} CwBond;

/* Immutable once made, reference counted. */
typedef struct
{
  guint n_panels, n_hinges, n_bodies;
  guint *body;         /* n_panels: the body a panel belongs to */
  CwRigid *in_body;    /* n_panels: flat panel to its body's frame; the body of the held panel has that panel's */
  guint *group;        /* n_pieces: pieces joined by bonds share a number */
  gboolean *present;   /* n_panels: its piece is on the card */
  CwLinkage *linkage;  /* of everything; joint = hinge index; NULL when there is no panel at all */
  CwLinkage *card;     /* of what is on the card; the same linkage when that is everything */
  guint *card_hinges;  /* hinge index of each joint of `card`; NULL when the same */
  guint n_card_joints; /* joints of `card` */
  guint n_card_bodies; /* bodies of `card` */
} CwAssembly;

CwAssembly *cw_assembly_new (const CwPanelSet *set, guint held, const CwBond *bonds, guint n_bonds);
CwAssembly *cw_assembly_ref (CwAssembly *assembly);
void cw_assembly_unref (CwAssembly *assembly);
double cw_panel_set_get_size (const CwPanelSet *set);

/* Where a `stick` step lays its piece: the piece's flat coordinates in the host's. */
CwRigid cw_step_get_placement (const CwStep *step);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (CwAssembly, cw_assembly_unref)

G_END_DECLS
