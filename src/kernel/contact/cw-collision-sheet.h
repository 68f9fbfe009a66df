/* cw-collision-sheet.h: a panel as collisions see it: its outline less a hair, with holes, and with slits opened.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "panel/cw-panel-map.h"

G_BEGIN_DECLS

/* Closed rings one after another; corner i is joined to corner next[i]. Ticks, flat coordinates. */
typedef struct
{
  guint n_corners;
  double *x, *y;
  guint *next;
  double box[4]; /* left, top, right, bottom */
} CwCollisionSheet;

CwCollisionSheet *cw_collision_sheet_new (const CwPanelSet *set, guint panel, gint32 hair_ticks);
void cw_collision_sheet_free (CwCollisionSheet *sheet);
gboolean cw_collision_sheet_contains (const CwCollisionSheet *sheet, double x, double y);
double cw_collision_sheet_edge_distance (const CwCollisionSheet *sheet, double x, double y);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (CwCollisionSheet, cw_collision_sheet_free)

G_END_DECLS
