/* cw-make-glue.h: writing glue as people do: the zones of one wish as one edit.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "glue/cw-glue-shape.h"
#include "make/cw-make.h"
#include "panel/cw-panel-map.h"

G_BEGIN_DECLS

CwEdit *cw_make_add_glue (const CwDesign *design, const char *piece_id, guint panel, CwFace face, CwGlueKind kind,
                          const CwGluePlan *plan, GError **error);
CwEdit *cw_make_add_glue_on (const CwDesign *design, const char *piece_id, CwFace face, CwGlueKind kind,
                             const CwRegion *region, GError **error);
CwEdit *cw_make_reshape_glue (const CwDesign *design, const char *zone_id, const CwGluePlan *plan, GError **error);
CwEdit *cw_make_reshape_glue_to (const CwDesign *design, const char *zone_id, const CwRegion *region, GError **error);

/* Instead of all glue that lies on one panel's face; on a face without any it is added. */
CwEdit *cw_make_lay_glue (const CwDesign *design, const char *piece_id, guint panel, CwFace face, CwGlueKind kind,
                          const CwGluePlan *plan, GError **error);
CwEdit *cw_make_lay_glue_on (const CwDesign *design, const char *piece_id, guint panel, CwFace face, CwGlueKind kind,
                             const CwRegion *region, GError **error);
CwEdit *cw_make_strip_glue (const CwDesign *design, const char *piece_id, guint panel, CwFace face);
/* The zones whose middle lies on a panel's face. Returns: (transfer full): GArray of guint, places in the design's list
 */
GArray *cw_make_find_glue (const CwDesign *design, const CwPanelMap *map, guint panel, CwFace face);

G_END_DECLS
