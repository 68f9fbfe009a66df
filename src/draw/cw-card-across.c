/* cw-card-across.c: what lies under a rectangle drawn over the folded card.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-camera-private.h"
#include "cw-card-scene.h"
#include "make/cw-make-across.h"

/**
 * cw_card_scene_find_across:
 * @scene: a scene
 * @step: the step the card stands in; beyond the last: before the first
 * @fraction: how far
 * @camera: how it is seen
 * @box: left, top, right and bottom, output units
 *
 * Returns: (transfer full) (element-type CwAcrossPart): what of it lies on which face
 */
GArray *
cw_card_scene_find_across (CwCardScene *scene, guint step, double fraction, const CwCamera *camera, const double box[4])
{
  CwRigid view = cw_camera_get_view (camera);
  const double seen[4] = { (box[0] - camera->x) / camera->scale, (box[1] - camera->y) / camera->scale,
                           (box[2] - camera->x) / camera->scale, (box[3] - camera->y) / camera->scale };

  g_return_val_if_fail (scene != NULL && camera != NULL, NULL);

  cw_card_scene_pose (scene, step, fraction, scene->pose);
  return cw_make_find_across (scene->analysis->motion, scene->analysis->flat_states,
                              step < cw_motion_get_n_steps (scene->analysis->motion) ? step : G_MAXUINT, scene->pose,
                              &view, seen);
}
