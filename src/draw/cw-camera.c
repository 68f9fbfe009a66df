/* cw-camera.c: looking at the folded card in parallel projection.
 *
 * Space is turned first about the held panel's normal (the card lying on the table), then about its upright, then
 * tipped; depth grows away from the eye. Nothing is foreshortened by distance, so lengths stay comparable.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-camera-private.h"

#include <string.h>

/* How the table is looked at: from the near edge, turned enough that no leaf standing upright is seen edge-on. */
#define TABLE_SPIN -0.40
#define TABLE_PITCH 0.88
/* Turned further to look into a card: the leaf that rises stands behind like a stage, with what it lifts before it. */
#define INTO_SPIN -0.80
/* Moments looked at in every step when fitting. */
#define FIT_MOMENTS 8

/**
 * cw_camera_look_from:
 * @camera: a camera; scale, place and centre stay
 * @from: "front", "back" or "table"
 */
void
cw_camera_look_from (CwCamera *camera, const char *from)
{
  gboolean table = g_strcmp0 (from, "table") == 0;

  g_return_if_fail (camera != NULL);
  camera->yaw = g_strcmp0 (from, "back") == 0 ? G_PI : 0;
  camera->pitch = table ? TABLE_PITCH : 0;
  camera->spin = table ? TABLE_SPIN : 0;
}

/**
 * cw_camera_look_into:
 * @camera: a camera; scale, place and centre stay
 * @motion: the card that is looked at
 *
 * From the table, from the side that the other leaves do not hide: a leaf to the left of the panel that stays still
 * rises on the left.
 */
void
cw_camera_look_into (CwCamera *camera, const CwMotion *motion)
{
  CwPanelSet *set = cw_motion_get_set (motion);
  guint held = cw_motion_get_held (motion), piece, panel;
  double held_x = 0, others = 0, weight = 0;

  cw_camera_look_from (camera, "table");
  camera->spin = INTO_SPIN;
  if (held >= cw_panel_set_n_panels (set))
    return;
  cw_panel_set_locate (set, held, &piece, &panel);
  for (guint i = set->first_panel[piece]; i < set->first_panel[piece + 1]; i++)
    {
      const CwPanel *item = cw_panel_set_get_panel (set, i);
      const CwRing *ring = &item->outline.rings[0];
      double x = 0;
      for (guint k = 0; k < ring->n_points; k++)
        x += (double) ring->points[k].x / ring->n_points;
      if (i == held)
        held_x = x;
      else
        {
          others += x * (double) item->area2;
          weight += (double) item->area2;
        }
    }
  if (weight > 0 && others / weight < held_x)
    camera->spin = -camera->spin;
}

/**
 * cw_camera_get_view:
 * @camera: a camera
 *
 * Returns: the placement of space before the eye: x right, y down, z away, the camera's centre at the origin, ticks
 */
CwRigid
cw_camera_get_view (const CwCamera *camera)
{
  const CwVec3 zero = { 0, 0, 0 };
  CwRigid spin = cw_rigid_about_axis (zero, cw_vec3 (0, 0, 1), camera->spin);
  CwRigid yaw = cw_rigid_about_axis (zero, cw_vec3 (0, 1, 0), -camera->yaw);
  CwRigid pitch = cw_rigid_about_axis (zero, cw_vec3 (1, 0, 0), -camera->pitch);
  CwRigid view = cw_rigid_compose (&yaw, &spin);

  view = cw_rigid_compose (&pitch, &view);
  view.t = cw_vec3_scale (cw_rigid_turn (&view, camera->centre), -1);
  return view;
}

/**
 * cw_camera_project:
 * @camera: a camera
 * @point: a place in space, ticks
 *
 * Returns: output x and y, and depth in output units, larger is farther
 */
CwVec3
cw_camera_project (const CwCamera *camera, CwVec3 point)
{
  CwRigid view = cw_camera_get_view (camera);
  CwVec3 seen = cw_rigid_apply (&view, point);

  return cw_vec3 (camera->x + seen.x * camera->scale, camera->y + seen.y * camera->scale, seen.z * camera->scale);
}

typedef struct
{
  CwVec3 low, high; /* in space */
  double seen[4];   /* in the view, about the space's origin */
} Bounds;

static void
bounds_add (Bounds *bounds, const CwPanelSet *set, const CwPose *pose, const CwRigid *view)
{
  for (guint i = 0; i < pose->n_panels; i++)
    {
      if (!pose->present[i])
        continue;
      const CwRing *ring = &cw_panel_set_get_panel (set, i)->outline.rings[0];
      for (guint k = 0; k < ring->n_points; k++)
        {
          CwVec3 p = cw_rigid_apply (&pose->places[i], cw_vec3 (ring->points[k].x, ring->points[k].y, 0));
          CwVec3 s = cw_rigid_turn (view, p);
          bounds->low = cw_vec3 (MIN (bounds->low.x, p.x), MIN (bounds->low.y, p.y), MIN (bounds->low.z, p.z));
          bounds->high = cw_vec3 (MAX (bounds->high.x, p.x), MAX (bounds->high.y, p.y), MAX (bounds->high.z, p.z));
          bounds->seen[0] = MIN (bounds->seen[0], s.x);
          bounds->seen[1] = MIN (bounds->seen[1], s.y);
          bounds->seen[2] = MAX (bounds->seen[2], s.x);
          bounds->seen[3] = MAX (bounds->seen[3], s.y);
        }
    }
}

static const Bounds nothing = { { G_MAXDOUBLE, G_MAXDOUBLE, G_MAXDOUBLE },
                                { -G_MAXDOUBLE, -G_MAXDOUBLE, -G_MAXDOUBLE },
                                { G_MAXDOUBLE, G_MAXDOUBLE, -G_MAXDOUBLE, -G_MAXDOUBLE } };

static void
fit (CwCamera *camera, const Bounds *bounds, const CwRigid *view, double x, double y, double width, double height)
{
  if (bounds->seen[2] < bounds->seen[0])
    return;
  double w = MAX (bounds->seen[2] - bounds->seen[0], 1), h = MAX (bounds->seen[3] - bounds->seen[1], 1);

  camera->centre = cw_vec3_scale (cw_vec3_add (bounds->low, bounds->high), 0.5);
  camera->scale = MIN (width / w, height / h);
  CwVec3 centre = cw_rigid_turn (view, camera->centre);
  camera->x = x + width / 2 - ((bounds->seen[0] + bounds->seen[2]) / 2 - centre.x) * camera->scale;
  camera->y = y + height / 2 - ((bounds->seen[1] + bounds->seen[3]) / 2 - centre.y) * camera->scale;
}

static CwRigid
turn_only (const CwCamera *camera)
{
  CwCamera about = *camera;

  about.centre = cw_vec3 (0, 0, 0);
  return cw_camera_get_view (&about);
}

/**
 * cw_camera_fit:
 * @camera: a camera that looks from somewhere
 * @motion: a motion
 * @x: left of the room there is, output units
 * @y: top
 * @width: width
 * @height: height
 *
 * Sets centre, scale and place so that every moment of the whole motion fits.
 */
void
cw_camera_fit (CwCamera *camera, const CwMotion *motion, double x, double y, double width, double height)
{
  g_autoptr (CwMotionWork) work = cw_motion_work_new (motion);
  g_autoptr (CwPose) pose = cw_pose_new (motion);
  CwRigid view = turn_only (camera);
  CwPanelSet *set = cw_motion_get_set (motion);
  Bounds bounds = nothing;

  cw_motion_get_start (motion, pose);
  bounds_add (&bounds, set, pose, &view);
  for (guint step = 0; step < cw_motion_get_n_steps (motion); step++)
    for (guint k = 0; k <= FIT_MOMENTS; k++)
      {
        cw_motion_get_pose (motion, work, step, (double) k / FIT_MOMENTS, pose);
        bounds_add (&bounds, set, pose, &view);
      }
  fit (camera, &bounds, &view, x, y, width, height);
}

/**
 * cw_camera_fit_pose:
 * @camera: a camera that looks from somewhere
 * @motion: a motion
 * @pose: one of its moments
 * @x: left of the room there is, output units
 * @y: top
 * @width: width
 * @height: height
 */
void
cw_camera_fit_pose (CwCamera *camera, const CwMotion *motion, const CwPose *pose, double x, double y, double width,
                    double height)
{
  CwRigid view = turn_only (camera);
  Bounds bounds = nothing;

  bounds_add (&bounds, cw_motion_get_set (motion), pose, &view);
  fit (camera, &bounds, &view, x, y, width, height);
}
