/* cw-four-bar.c: finds the four-bar in a block of fold lines that explains why it stopped.
 *
 * Four bodies joined in a ring by fold lines that are parallel (a box) or meet in one point (a V fold). With D a fold
 * line of the ring, C the one opposite, p and q the bars from D to its neighbours A and B, r and s the bars from A and
 * B to C, the ring is dead where C is straight or shut, that is where the distance AB is r + s or |r - s|. It opens
 * flat only if r + s >= p + q and folds shut only if p + r = q + s (limits of the plane four-bar from the triangle
 * inequality; for axes through a point the same with angles, by the spherical triangle inequality).
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "fold/cw-four-bar.h"

#include "geometry/cw-tolerance.h"

typedef struct
{
  guint hinge, body[2];
  CwVec3 p, way; /* a point of the axis and its unit direction, in space */
} Axis;

static CwVec3
unit_vector (CwVec3 v)
{
  double length = cw_vec3_length (v);

  return length > 0 ? cw_vec3_scale (v, 1 / length) : v;
}

/* Where the fold lines of the block are in space, at the step's end. */
static GArray *
find_axes (const CwPanelSet *set, const CwAssembly *assembly, CwLinkageWork *work, const double *rho, guint block)
{
  GArray *axes = g_array_new (FALSE, FALSE, sizeof (Axis));
  g_autofree CwRigid *places = g_new (CwRigid, assembly->n_bodies);

  cw_linkage_place (assembly->linkage, work, rho, places);
  for (guint i = 0; i < assembly->n_hinges; i++)
    {
      guint piece, left;
      const CwHinge *h;
      CwRigid place;
      Axis axis = { .hinge = i };
      CwVec3 q;

      if (cw_linkage_get_joint_block (assembly->linkage, i) != block)
        continue;
      h = cw_panel_set_get_hinge (set, i, &piece);
      left = set->first_panel[piece] + h->left;
      axis.body[0] = assembly->body[left];
      axis.body[1] = assembly->body[set->first_panel[piece] + h->right];
      place = cw_rigid_compose (&places[axis.body[0]], &assembly->in_body[left]);
      axis.p = cw_rigid_apply (&place, cw_vec3 (h->p.x, h->p.y, 0));
      q = cw_rigid_apply (&place, cw_vec3 (h->q.x, h->q.y, 0));
      axis.way = unit_vector (cw_vec3_sub (q, axis.p));
      g_array_append_val (axes, axis);
    }
  return axes;
}

/* Distance of two parallel lines. */
static double
line_gap (const Axis *a, const Axis *b)
{
  return cw_vec3_length (cw_vec3_cross (cw_vec3_sub (b->p, a->p), a->way));
}

static gboolean
is_parallel (const Axis *a, const Axis *b)
{
  return cw_vec3_length (cw_vec3_cross (a->way, b->way)) < CW_TOL_SAME_LINE;
}

/* The point where two lines pass nearest, on the first. */
static CwVec3
nearest_point (const Axis *a, const Axis *b)
{
  CwVec3 w = cw_vec3_sub (b->p, a->p);
  double k = cw_vec3_dot (a->way, b->way);
  double t = (cw_vec3_dot (w, a->way) - k * cw_vec3_dot (w, b->way)) / (1 - k * k);

  return cw_vec3_add (a->p, cw_vec3_scale (a->way, t));
}

static double
point_gap (const Axis *a, CwVec3 point)
{
  return cw_vec3_length (cw_vec3_cross (cw_vec3_sub (point, a->p), a->way));
}

/* The direction of an axis away from a point on it, towards its farther end: the side the paper is on. */
static CwVec3
way_from (const Axis *a, const CwPanelSet *set, CwVec3 point)
{
  guint piece;
  const CwHinge *h = cw_panel_set_get_hinge (set, a->hinge, &piece);
  double length = hypot ((double) h->q.x - h->p.x, (double) h->q.y - h->p.y);
  double from_p = cw_vec3_dot (cw_vec3_sub (point, a->p), a->way);

  return from_p < length / 2 ? a->way : cw_vec3_scale (a->way, -1);
}

static double
angle_between (CwVec3 a, CwVec3 b)
{
  return atan2 (cw_vec3_length (cw_vec3_cross (a, b)), cw_vec3_dot (a, b)) * 180 / G_PI;
}

/* Measures the ring d, a, c, b; FALSE if it is neither a box nor a V fold. */
static gboolean
measure_ring (const CwPanelSet *set, const Axis *d, const Axis *a, const Axis *c, const Axis *b, CwFourBar *bars)
{
  *bars = (CwFourBar){ .d = d->hinge, .a = a->hinge, .c = c->hinge, .b = b->hinge };
  if (is_parallel (d, a) && is_parallel (d, b) && is_parallel (d, c))
    {
      bars->p = line_gap (d, a);
      bars->q = line_gap (d, b);
      bars->r = line_gap (a, c);
      bars->s = line_gap (b, c);
      bars->ab = line_gap (a, b);
    }
  else
    {
      const Axis *other = !is_parallel (d, a) ? a : !is_parallel (d, b) ? b : c;
      CwVec3 point = nearest_point (d, other);
      double near = CW_TOL_SAME_LINE * cw_panel_set_get_size (set);
      CwVec3 wd, wa, wb, wc;

      if (point_gap (a, point) > near || point_gap (b, point) > near || point_gap (c, point) > near)
        return FALSE;
      wd = way_from (d, set, point);
      wa = way_from (a, set, point);
      wb = way_from (b, set, point);
      wc = way_from (c, set, point);
      bars->at_point = TRUE;
      bars->p = angle_between (wd, wa);
      bars->q = angle_between (wd, wb);
      bars->r = angle_between (wa, wc);
      bars->s = angle_between (wb, wc);
      bars->ab = angle_between (wa, wb);
    }
  if (!(bars->r + bars->s > 0))
    return FALSE;
  bars->off = MIN (fabs (bars->ab - (bars->r + bars->s)), fabs (bars->ab - fabs (bars->r - bars->s)));
  bars->off /= bars->r + bars->s;
  return TRUE;
}

/* Where the fold line of `axis` is on the flat paper of one of its two bodies. */
static Axis
axis_in_body (const CwPanelSet *set, const CwAssembly *assembly, const Axis *axis, guint body)
{
  guint piece;
  const CwHinge *h = cw_panel_set_get_hinge (set, axis->hinge, &piece);
  guint side = set->first_panel[piece] + (axis->body[0] == body ? h->left : h->right);
  Axis flat = *axis;

  flat.p = cw_rigid_apply (&assembly->in_body[side], h->axis[0]);
  flat.way = unit_vector (cw_vec3_sub (cw_rigid_apply (&assembly->in_body[side], h->axis[1]), flat.p));
  return flat;
}

/* Two fold lines of one body, apart on its flat paper: what the maker measures, whatever the paper gives meanwhile. */
static double
flat_gap (const CwPanelSet *set, const CwAssembly *assembly, const Axis *a, const Axis *b, guint body)
{
  Axis flat_a = axis_in_body (set, assembly, a, body), flat_b = axis_in_body (set, assembly, b, body);

  return line_gap (&flat_a, &flat_b);
}

static guint
far_body (const Axis *axis, guint body)
{
  return axis->body[0] == body ? axis->body[1] : axis->body[0];
}

static gboolean
has_body (const Axis *axis, guint body)
{
  return axis->body[0] == body || axis->body[1] == body;
}

/**
 * cw_four_bar_find_dead:
 * @set: the panels
 * @assembly: what is joined to what
 * @work: scratch of its linkage
 * @rho: (array): n_hinges angles, radians
 * @block: a block of its linkage
 * @driven: (array): n_hinges; %TRUE for the fold lines that the step drives
 * @bars: (out): the ring
 *
 * Returns: %TRUE if there is a ring of four fold lines in the block that is dead at these angles; one with a driven D
 * is preferred
 */
gboolean
cw_four_bar_find_dead (const CwPanelSet *set, const CwAssembly *assembly, CwLinkageWork *work, const double *rho,
                       guint block, const gboolean *driven, CwFourBar *bars)
{
  g_autoptr (GArray) axes = NULL;
  gboolean found = FALSE;

  g_return_val_if_fail (set != NULL && assembly != NULL && rho != NULL && driven != NULL && bars != NULL, FALSE);

  axes = find_axes (set, assembly, work, rho, block);

  for (guint i = 0; i < axes->len; i++)
    for (guint j = 0; j < axes->len; j++)
      {
        const Axis *d = &g_array_index (axes, Axis, i), *a = &g_array_index (axes, Axis, j);

        if (i == j || !has_body (a, d->body[0]))
          continue;
        for (guint k = 0; k < axes->len; k++)
          {
            const Axis *b = &g_array_index (axes, Axis, k);
            guint left = far_body (a, d->body[0]), right = far_body (b, d->body[1]);

            if (k == i || k == j || left == right || !has_body (b, d->body[1]))
              continue;
            for (guint l = 0; l < axes->len; l++)
              {
                const Axis *c = &g_array_index (axes, Axis, l);
                CwFourBar ring;

                if (l == i || l == j || l == k || !has_body (c, left) || !has_body (c, right))
                  continue;
                if (!measure_ring (set, d, a, c, b, &ring) || ring.off > CW_TOL_DEAD_POINT)
                  continue;
                if (!ring.at_point)
                  {
                    ring.p = flat_gap (set, assembly, d, a, d->body[0]);
                    ring.q = flat_gap (set, assembly, d, b, d->body[1]);
                    ring.r = flat_gap (set, assembly, a, c, left);
                    ring.s = flat_gap (set, assembly, b, c, right);
                  }
                if (!found || (driven[d->hinge] && !driven[bars->d]))
                  *bars = ring;
                found = TRUE;
              }
          }
      }
  return found;
}
