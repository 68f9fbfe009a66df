/* cw-glue-map.h: where glue may lie on every face of a card.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "glue/cw-bond.h"

G_BEGIN_DECLS

/* Immutable, reference counted, may cross threads. */
typedef struct CwGlueMap CwGlueMap;

/* NULL when cancelled. */
CwGlueMap *cw_glue_map_new (const CwBonds *bonds, GCancellable *cancellable);
CwGlueMap *cw_glue_map_ref (CwGlueMap *map);
void cw_glue_map_unref (CwGlueMap *map);
const CwSafeArea *cw_glue_map_get (const CwGlueMap *map, guint panel,
                                   CwFace face); /* borrowed; panel through the design */

G_DEFINE_AUTOPTR_CLEANUP_FUNC (CwGlueMap, cw_glue_map_unref)

G_END_DECLS
