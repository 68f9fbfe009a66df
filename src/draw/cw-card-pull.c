/* cw-card-pull.c: folding the card by pulling a panel.
 *
 * The ray under the pointer meets the panel in one place of the paper; that place is held. Over the step it runs along
 * a curve; the answer is the fraction at which the curve, projected, comes nearest to the pointer, looked for downhill
 * from where it stands, so that the card follows the hand and never jumps to a far moment that happens to look alike.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-camera-private.h"
#include "cw-card-scene.h"

#include <string.h>

/* First stride of the search, as a share of the step, and where it ends: far under one pixel of any card. */
#define STRIDE (1.0 / 24)
#define STRIDE_LEAST 1e-7
/* This near to its end a step is over, share of the step. */
#define STEP_END 1e-5
/* A panel more edge-on than this is held by its middle, cosine. */
#define EDGE_ON 0.02
/* Poses that differ by less are the same moment, ticks. */
#define SAME_MOMENT 64.0

/**
 * cw_card_scene_grab:
 * @scene: a scene
 * @step: the step the card stands in
 * @fraction: how far
 * @camera: how it is seen
 * @panel: index of a panel through the design
 * @ox: where the pointer is, output units
 * @oy: the same
 *
 * Returns: %FALSE when the panel does not move in the step; else it is held from now on
 */
gboolean
cw_card_scene_grab (CwCardScene *scene, guint step, double fraction, const CwCamera *camera, guint panel, double ox,
                    double oy)
{
  const CwMotion *motion = scene->analysis->motion;

  g_return_val_if_fail (scene != NULL && camera != NULL && panel < scene->n_panels, FALSE);

  scene->grab_panel = G_MAXUINT;
  if (step >= cw_motion_get_n_steps (motion) || !cw_motion_step_moves (motion, step, panel))
    return FALSE;
  cw_card_scene_pose (scene, step, fraction, scene->pose);

  CwRigid view = cw_camera_get_view (camera);
  CwRigid place = cw_rigid_compose (&view, &scene->pose->places[panel]);
  double x = (ox - camera->x) / camera->scale - place.t.x, y = (oy - camera->y) / camera->scale - place.t.y;
  double det = place.r[0][0] * place.r[1][1] - place.r[0][1] * place.r[1][0];
  if (fabs (det) > EDGE_ON)
    scene->grab_flat
      = cw_vec3 ((x * place.r[1][1] - y * place.r[0][1]) / det, (y * place.r[0][0] - x * place.r[1][0]) / det, 0);
  else
    {
      CwPoint inside = cw_panel_set_get_panel (scene->analysis->panels, panel)->inside;
      scene->grab_flat = cw_vec3 (inside.x, inside.y, 0);
    }
  scene->grab_step = step;
  scene->grab_panel = panel;
  scene->grab_fraction = CLAMP (fraction, 0, 1);
  return TRUE;
}

static double
miss (CwCardScene *scene, const CwCamera *camera, double fraction, double ox, double oy)
{
  cw_card_scene_pose (scene, scene->grab_step, fraction, scene->other);
  CwVec3 seen = cw_camera_project (camera, cw_rigid_apply (&scene->other->places[scene->grab_panel], scene->grab_flat));
  return (seen.x - ox) * (seen.x - ox) + (seen.y - oy) * (seen.y - oy);
}

static gboolean
same_moment (const CwCardScene *scene, const CwPose *a, const CwPose *b)
{
  for (guint i = 0; i < a->n_panels; i++)
    {
      if (a->present[i] != b->present[i])
        return FALSE;
      if (!a->present[i])
        continue;
      const CwRing *ring = &cw_panel_set_get_panel (scene->analysis->panels, i)->outline.rings[0];
      for (guint k = 0; k < ring->n_points; k++)
        {
          CwVec3 p = cw_vec3 (ring->points[k].x, ring->points[k].y, 0);
          CwVec3 d = cw_vec3_sub (cw_rigid_apply (&a->places[i], p), cw_rigid_apply (&b->places[i], p));
          if (cw_vec3_length (d) > SAME_MOMENT)
            return FALSE;
        }
    }
  return TRUE;
}

/* At the end of a step the hand goes on into the next one, and at its beginning back into the one before, when that
 * begins as the card lies now and brings the held place nearer to the pointer. */
static gboolean
run_on (CwCardScene *scene, const CwCamera *camera, double ox, double oy, double here)
{
  const CwMotion *motion = scene->analysis->motion;
  gboolean end = scene->grab_fraction > 1 - STEP_END, begin = scene->grab_fraction < STEP_END;
  guint from = scene->grab_step, to = end ? from + 1 : from - 1;

  if ((!end && !begin) || to >= cw_motion_get_n_steps (motion) || !cw_motion_step_moves (motion, to, scene->grab_panel))
    return FALSE;
  cw_card_scene_pose (scene, from, end ? 1 : 0, scene->pose);
  cw_card_scene_pose (scene, to, end ? 0 : 1, scene->other);
  if (!same_moment (scene, scene->pose, scene->other))
    return FALSE;
  scene->grab_step = to;
  if (miss (scene, camera, end ? STRIDE : 1 - STRIDE, ox, oy) >= here)
    {
      scene->grab_step = from;
      return FALSE;
    }
  scene->grab_fraction = end ? 0 : 1;
  return TRUE;
}

/* Nearest downhill within the step; answers how far the pointer still is from there, squared. */
static double
follow (CwCardScene *scene, const CwCamera *camera, double ox, double oy)
{
  double at = scene->grab_fraction, here = miss (scene, camera, at, ox, oy);

  for (double stride = STRIDE; stride > STRIDE_LEAST;)
    {
      double after = MIN (at + stride, 1), before = MAX (at - stride, 0);
      double miss_after = miss (scene, camera, after, ox, oy), miss_before = miss (scene, camera, before, ox, oy);
      if (miss_after < here && miss_after <= miss_before)
        {
          at = after;
          here = miss_after;
        }
      else if (miss_before < here)
        {
          at = before;
          here = miss_before;
        }
      else
        stride /= 2;
    }
  scene->grab_fraction = at;
  return here;
}

/**
 * cw_card_scene_pull:
 * @scene: a scene with a panel held
 * @camera: how it is seen
 * @ox: where the pointer is now, output units
 * @oy: the same
 *
 * At the end of a step the pull runs on into the next one when that moves the panel nearer to the pointer still
 * (cw_card_scene_get_grab_step()), and back over its beginning likewise.
 *
 * Returns: the fraction of the step that brings the held place nearest to the pointer, 0 to 1
 */
double
cw_card_scene_pull (CwCardScene *scene, const CwCamera *camera, double ox, double oy)
{
  g_return_val_if_fail (scene != NULL && camera != NULL, 0);
  if (scene->grab_panel == G_MAXUINT)
    return scene->grab_fraction;

  if (run_on (scene, camera, ox, oy, follow (scene, camera, ox, oy)))
    follow (scene, camera, ox, oy);
  return scene->grab_fraction;
}

/**
 * cw_card_scene_get_grab_step:
 * @scene: a scene with a panel held
 *
 * Returns: the step that the pull has come to
 */
guint
cw_card_scene_get_grab_step (const CwCardScene *scene)
{
  g_return_val_if_fail (scene != NULL, G_MAXUINT);
  return scene->grab_step;
}

/**
 * cw_card_scene_find_step:
 * @scene: a scene
 * @step: the step the card stands in; beyond the last: before the first
 * @fraction: how far
 * @panel: index of a panel through the design
 *
 * Looks on from @step and round again. A step that begins as the card lies now comes before one that would make it
 * jump, so that an opened card can be closed again after its last step.
 *
 * Returns: the step that moves the panel, or %G_MAXUINT
 */
guint
cw_card_scene_find_step (CwCardScene *scene, guint step, double fraction, guint panel)
{
  const CwMotion *motion = scene->analysis->motion;
  guint n = cw_motion_get_n_steps (motion), first = G_MAXUINT;

  g_return_val_if_fail (panel < scene->n_panels, G_MAXUINT);

  if (step < n && fraction < 1 && cw_motion_step_moves (motion, step, panel))
    return step;
  cw_card_scene_pose (scene, step, fraction, scene->pose);
  for (guint k = 1; k <= n; k++)
    {
      guint next = step < n ? (step + k) % n : k - 1;
      if (!cw_motion_step_moves (motion, next, panel))
        continue;
      cw_card_scene_pose (scene, next, 0, scene->other);
      if (same_moment (scene, scene->pose, scene->other))
        return next;
      if (first == G_MAXUINT)
        first = next;
    }
  return first;
}
