/* cw-make-across.h: something laid over the folded card as it is seen, brought back to the flat faces under it.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "contact/cw-flat-state.h"
#include "make/cw-make.h"

G_BEGIN_DECLS

/* What lies on one face of one panel. */
typedef struct
{
  guint piece, panel; /* index in the design, and in the piece's map */
  CwFace face;
  CwRegion flat; /* owned: the piece's front coordinates, ticks */
  double up;     /* the picture's up: degrees clockwise from the piece's own, as seen by one who looks at that face */
} CwAcrossPart;

GArray *cw_make_find_across (const CwMotion *motion, const CwFlatStates *states, guint step, const CwPose *pose,
                             const CwRigid *eye, const double box[4]);
CwEdit *cw_make_add_art_across (const CwDesign *design, const GArray *parts, const char *label, GError **error);
CwEdit *cw_make_draw_glue_across (const CwDesign *design, const GArray *parts, CwGlueKind kind, GError **error);

G_END_DECLS
