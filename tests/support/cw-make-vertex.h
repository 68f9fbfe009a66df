/* cw-make-vertex.h: small linkages for tests: a vertex from its sector angles, plane four-bars, rounded V folds.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "fold/cw-linkage.h"

#define CW_MAKE_SIZE 40640.0 /* five inches in ticks */

static inline double
cw_make_rad (double degrees)
{
  return degrees * G_PI / 180;
}

/* n sectors around one point, degrees, body i being sector i; crease i precedes sector i, between bodies i - 1 and i.
 * The sectors need not add up to 360: where they do, all angles 0 is the flat sheet. `ways` as in CwJoint. */
static inline CwLinkage *
cw_make_vertex (guint n, const double *sectors_deg, const int *ways)
{
  g_autofree CwJoint *joints = g_new (CwJoint, n);

  for (guint i = 0; i < n; i++)
    {
      guint before = (i + n - 1) % n;

      joints[i] = (CwJoint){
        .a = before,
        .b = i,
        .in_a = cw_rigid_about_axis (cw_vec3 (0, 0, 0), cw_vec3 (0, 0, 1), cw_make_rad (sectors_deg[before])),
        .in_b = cw_rigid_identity (),
        .p = cw_vec3 (0, 0, 0),
        .q = cw_vec3 (CW_MAKE_SIZE / 4, 0, 0),
        .way = ways[i],
      };
    }
  return cw_linkage_new (n, 0, n, joints, CW_MAKE_SIZE);
}

/* A card whose spine is the line x = 0, and a strip across it. Bodies: 0 the right page, held; 1 the left page; 2 and 3
 * the strip's panels, r wide from the left page, s wide from the right one. The strip is joined p from the spine on the
 * left page and q from it on the right one. Joints: 0 the spine, 1 at the left page, 2 the ridge, 3 at the right page.
 * All fronts up; r + s = p + q is a step cut from the card itself, flat at all angles 0. */
static inline CwLinkage *
cw_make_four_bar (double p, double q, double r, double s, double size, const int *ways)
{
  CwRigid moved = cw_rigid_identity ();
  CwJoint joints[4];

  moved.t.x = q - (-p + r + s);
  joints[0] = (CwJoint){ 0, 1, moved, moved, cw_vec3 (0, 0, 0), cw_vec3 (0, size, 0), ways[0] };
  joints[0].in_a = joints[0].in_b = cw_rigid_identity ();
  joints[1] = (CwJoint){ 2, 1, joints[0].in_a, joints[0].in_a, cw_vec3 (-p, 0, 0), cw_vec3 (-p, size, 0), ways[1] };
  joints[2]
    = (CwJoint){ 3, 2, joints[0].in_a, joints[0].in_a, cw_vec3 (-p + r, 0, 0), cw_vec3 (-p + r, size, 0), ways[2] };
  joints[3]
    = (CwJoint){ 0, 3, moved, joints[0].in_a, cw_vec3 (-p + r + s, 0, 0), cw_vec3 (-p + r + s, size, 0), ways[3] };
  return cw_linkage_new (4, 0, 4, joints, size);
}

/* The fold angle of a V fold's middle crease and page creases is 4.0 inches long here. */
#define CW_MAKE_CREASE (CW_MAKE_SIZE * 0.4)

/* A V fold glued into a card: page creases at a degrees from the spine, panels with b degrees at the tip. Marks are
 * rounded to whole ticks as a design's are, tabs are turned exactly, and the right tab is glued `off` ticks out of
 * place, in its page's flat coordinates (x along the crease). Bodies: 0 left page, held; 1, 2 the panels; 3 right page.
 * Joints: 0 the spine, 1 left page crease, 2 middle crease, 3 right page crease. Shut: 180, 0, 180, 0 degrees. */
static inline CwLinkage *
cw_make_v_fold (double a_deg, double b_deg, CwVec3 off)
{
  CwVec3 o = cw_vec3 (0, 0, 0), up = cw_vec3 (0, 0, 1);
  CwRigid still = cw_rigid_identity ();
  double b = cw_make_rad (b_deg);
  CwVec3 middle = cw_vec3 (round (CW_MAKE_CREASE * cos (b)), round (CW_MAKE_CREASE * sin (b)), 0);
  CwVec3 right = cw_vec3 (round (CW_MAKE_CREASE * cos (2 * b)), round (CW_MAKE_CREASE * sin (2 * b)), 0);
  CwJoint joints[4] = {
    { 3, 0, cw_rigid_about_axis (o, up, cw_make_rad (a_deg)), still, o, cw_vec3 (CW_MAKE_SIZE, 0, 0), 1 },
    { 0, 1, cw_rigid_about_axis (o, up, cw_make_rad (a_deg)), still, o, cw_vec3 (CW_MAKE_CREASE, 0, 0), 1 },
    { 1, 2, still, still, o, middle, 1 },
    { 2, 3, still, cw_rigid_about_axis (o, up, -2 * b), o, right, 1 },
  };

  joints[3].in_b.t = off;
  return cw_linkage_new (4, 0, 4, joints, CW_MAKE_SIZE);
}
