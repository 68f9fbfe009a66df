/* cw-make-glue.h: writing glue as people do: the zones of one wish as one edit.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "glue/cw-glue-shape.h"
#include "make/cw-make.h"

G_BEGIN_DECLS

CwEdit *cw_make_add_glue (const CwDesign *design, const char *piece_id, guint panel, CwFace face, CwGlueKind kind,
                          const CwGluePlan *plan, GError **error);
CwEdit *cw_make_add_glue_on (const CwDesign *design, const char *piece_id, CwFace face, CwGlueKind kind,
                             const CwRegion *region, GError **error);
CwEdit *cw_make_reshape_glue (const CwDesign *design, const char *zone_id, const CwGluePlan *plan, GError **error);
CwEdit *cw_make_reshape_glue_to (const CwDesign *design, const char *zone_id, const CwRegion *region, GError **error);

G_END_DECLS
