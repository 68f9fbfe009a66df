/* cw-camera-private.h: the camera's turn as a placement, for the folded card's own files.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "cw-draw-card.h"

G_BEGIN_DECLS

/* Space to view: x right, y down, z away from the eye; still in ticks. */
CwRigid cw_camera_get_view (const CwCamera *camera);

G_END_DECLS
