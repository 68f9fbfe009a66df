/* cw-path-flatten.h: the points of a path or mark on ticks, arcs flattened.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "design/cw-design.h"

G_BEGIN_DECLS

gboolean cw_path_is_curved (const CwPath *path);
GArray *cw_path_flatten (const CwPath *path, gboolean closed);
GArray *cw_mark_flatten (const CwMark *mark);
gboolean cw_piece_get_box (const CwPiece *piece, CwPoint *low, CwPoint *high);

G_END_DECLS
