/* cw-lay.h: areas put down on a piece: layers, glue, places for pictures; drawn or typed, the same thing.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "cw-document.h"

G_BEGIN_DECLS

/* One edit; what it made is selected. FALSE with an error in words when it cannot be. */
gboolean cw_lay_area (CwDocument *document, const CwMeasureWish *wish, const CwMark *outline, CwFace face,
                      GError **error);
gboolean cw_lay_rim (CwDocument *document, guint piece, guint panel, CwFace face, CwLength rim, GError **error);

G_END_DECLS
