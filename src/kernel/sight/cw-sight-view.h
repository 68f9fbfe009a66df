/* cw-sight-view.h: one look at the card: which part of which face is seen.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sight/cw-sight.h"

G_BEGIN_DECLS

/* A part of the picture over which one face is seen. */
typedef struct
{
  CwPolygon outline; /* picture, ticks */
  gint64 area2;      /* twice, square ticks, as projected */
  guint panel;       /* index through the design */
  CwFace face;
} CwViewCell;

typedef struct
{
  CwRigid eye;     /* space to picture: picture x, y and depth away from the eye */
  GArray *cells;   /* of CwViewCell, stable order */
  CwRigid *places; /* n_panels: flat to picture */
  gboolean *there; /* n_panels: on the card */
  guint n_panels;
} CwView;

CwView *cw_view_new (const CwMotion *motion, const CwFlatStates *states, guint step, const CwPose *pose,
                     CwVec3 direction);
CwView *cw_view_new_at_rest (const CwMotion *motion, const CwFlatStates *states, guint step, const CwPose *pose,
                             CwFace from);
void cw_view_free (CwView *view);
/* Parts of one face, all of them or (face G_MAXUINT) either face, joined. */
CwRegion cw_view_find (const CwView *view, const gboolean *panels, guint face);
CwRegion cw_sight_project (const CwRegion *flat, const CwRigid *place);
CwRegion cw_sight_join (CwRegion *parts, guint n_parts);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (CwView, cw_view_free)

G_END_DECLS
