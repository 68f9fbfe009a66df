/* cw-make-rim.h: the shape of a layer: its outline, windows, glue and place, from the panel it lies on or as drawn. For
 * this room only.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "make/cw-make-private.h"

G_BEGIN_DECLS

typedef struct
{
  CwPath outline, glue; /* in the layer's own coordinates, its drawn side up */
  GPtrArray *windows;   /* of CwMark without ids */
  CwPlace at;           /* where its origin lands on the host, front coordinates */
} CwRimShape;

gboolean cw_rim_shape_of_panel (CwRimShape *shape, const CwPanel *panel, CwFace face, gint32 rim, CwUnit unit);
gboolean cw_rim_shape_of_mark (CwRimShape *shape, const CwMark *drawn, CwFace face, CwUnit unit, CwPoint *middle);
void cw_rim_shape_clear (CwRimShape *shape);
CwPath cw_rim_glue_of_path (const CwPath *outline, CwUnit unit);

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (CwRimShape, cw_rim_shape_clear)

G_END_DECLS
