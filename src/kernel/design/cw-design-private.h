/* cw-design-private.h: what the files of this room share among themselves and with their tests.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "design/cw-design.h"
#include "design/cw-json.h"

G_BEGIN_DECLS

#define CW_DESIGN_FORMAT "creasewright design"

CwDesign *cw_design_from_json (JsonNode *root, GError **error);
JsonNode *cw_design_to_json (const CwDesign *design);
CwDesign *cw_design_share (const CwDesign *design);
CwPiece *cw_piece_share (const CwPiece *piece);

G_END_DECLS
