/* cw-arc.h: circular arcs through three points, flattened once to vertices on ticks.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "geometry/cw-point.h"

G_BEGIN_DECLS

gboolean cw_arc_circle (CwPoint a, CwPoint through, CwPoint b, double *cx, double *cy, double *radius);
void cw_arc_flatten (CwPoint a, CwPoint through, CwPoint b, GArray *points);
void cw_arc_extend_box (CwPoint a, CwPoint through, CwPoint b, CwPoint *low, CwPoint *high);
void cw_circle_flatten (CwPoint centre, gint32 radius, GArray *points);

G_END_DECLS
