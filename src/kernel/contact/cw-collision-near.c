/* cw-collision-near.c: which panels come near one another within a span, without looking at every pair.
 *
 * A tree of balls: each panel in a ball round the middle of its box, two balls in a larger one, and so on up. Centres
 * move with the paper, so the distance of two of them over a span follows from three looks and their second difference;
 * two balls that stay apart need no further look. Balls are compared in relative motion: a long strip that swings as a
 * whole brings nothing nearer to its neighbour. Leaves of a stack are near one another as balls, but not across the
 * planes they lie in: where those are asked too, a folding accordion has few pairs.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "contact/cw-collision-private.h"

typedef struct
{
  CwVec3 centre[3]; /* at the three looks of the span */
  double radius;
} Ball;

struct CwNearTree
{
  guint n_panels, n_leaves; /* leaves: a power of two */
  CwVec3 *middle;           /* n_panels, flat */
  double *reach;            /* n_panels: farthest corner from the middle */
  double *half[2];          /* n_panels: half width and height of the box round the panel */
  const CwSpan *span;       /* while finding: its planes are asked too; NULL: balls alone */
  Ball *balls;              /* 2 * n_leaves, children of i are 2i and 2i + 1; radius below 0: empty */
};

/**
 * cw_near_tree_new:
 * @set: all panels
 *
 * Returns: (transfer full): a tree over them, in the order of their numbers, in which neighbours mostly lie together
 */
CwNearTree *
cw_near_tree_new (const CwPanelSet *set)
{
  CwNearTree *tree = g_new0 (CwNearTree, 1);

  tree->n_panels = cw_panel_set_n_panels (set);
  tree->n_leaves = 1;
  while (tree->n_leaves < tree->n_panels)
    tree->n_leaves *= 2;
  tree->middle = g_new0 (CwVec3, tree->n_panels + 1);
  tree->reach = g_new0 (double, tree->n_panels + 1);
  tree->half[0] = g_new0 (double, tree->n_panels + 1);
  tree->half[1] = g_new0 (double, tree->n_panels + 1);
  tree->balls = g_new0 (Ball, 2 * (gsize) tree->n_leaves);
  for (guint i = 0; i < tree->n_panels; i++)
    {
      const CwPanel *panel = cw_panel_set_get_panel (set, i);
      const CwRing *ring = &panel->outline.rings[0];
      CwVec3 m = cw_vec3 (((double) panel->box_min.x + panel->box_max.x) / 2,
                          ((double) panel->box_min.y + panel->box_max.y) / 2, 0);

      tree->middle[i] = m;
      tree->half[0][i] = ((double) panel->box_max.x - panel->box_min.x) / 2;
      tree->half[1][i] = ((double) panel->box_max.y - panel->box_min.y) / 2;
      for (guint k = 0; k < ring->n_points; k++)
        tree->reach[i] = MAX (tree->reach[i], hypot (ring->points[k].x - m.x, ring->points[k].y - m.y));
    }
  return tree;
}

/**
 * cw_near_tree_free:
 * @tree: (transfer full) (nullable): a tree
 */
void
cw_near_tree_free (CwNearTree *tree)
{
  if (tree == NULL)
    return;
  g_free (tree->middle);
  g_free (tree->reach);
  g_free (tree->half[0]);
  g_free (tree->half[1]);
  g_free (tree->balls);
  g_free (tree);
}

static void
fill (CwNearTree *tree, const CwSpan *span)
{
  for (guint i = 0; i < tree->n_leaves; i++)
    {
      Ball *ball = &tree->balls[tree->n_leaves + i];

      ball->radius = i < tree->n_panels ? tree->reach[i] : -1;
      for (guint k = 0; i < tree->n_panels && k < 3; k++)
        ball->centre[k] = cw_rigid_apply (&span->moment[k]->pose->places[i], tree->middle[i]);
    }
  for (guint i = tree->n_leaves - 1; i > 0; i--)
    {
      const Ball *x = &tree->balls[2 * i], *y = &tree->balls[2 * i + 1];
      Ball *ball = &tree->balls[i];

      if (y->radius < 0)
        {
          *ball = *x;
          continue;
        }
      ball->radius = 0;
      for (guint k = 0; k < 3; k++)
        {
          CwVec3 half = cw_vec3_scale (cw_vec3_sub (x->centre[k], y->centre[k]), 0.5);

          ball->centre[k] = cw_vec3_add (y->centre[k], half);
          ball->radius = MAX (ball->radius, cw_vec3_length (half) + MAX (x->radius, y->radius));
        }
    }
}

/* The point nearest to 0 on the way from p to q. */
static double
nearest_to_zero (CwVec3 p, CwVec3 q)
{
  CwVec3 way = cw_vec3_sub (q, p);
  double square = cw_vec3_dot (way, way);
  double share = square > 0 ? CLAMP (-cw_vec3_dot (p, way) / square, 0, 1) : 0;

  return cw_vec3_length (cw_vec3_add (p, cw_vec3_scale (way, share)));
}

static gboolean
may_meet (const Ball *x, const Ball *y, double band)
{
  CwVec3 d[3], bend;
  double least;

  if (x->radius < 0 || y->radius < 0)
    return FALSE;
  for (guint k = 0; k < 3; k++)
    d[k] = cw_vec3_sub (x->centre[k], y->centre[k]);
  bend = cw_vec3_add (cw_vec3_sub (d[0], cw_vec3_scale (d[1], 2)), d[2]);
  least = MIN (nearest_to_zero (d[0], d[1]), nearest_to_zero (d[1], d[2]));
  return least - cw_vec3_length (bend) / 2 <= x->radius + y->radius + band;
}

/* Does panel a stay on one side of b's plane all through the span? Asked of the corners of its box. */
static gboolean
stays_off (const CwNearTree *tree, guint a, guint b, double band)
{
  gboolean above = TRUE, below = TRUE;
  double middle[3], along[2][3];

  for (guint k = 0; k < 3; k++)
    {
      const CwRigid *pa = &tree->span->moment[k]->pose->places[a], *pb = &tree->span->moment[k]->pose->places[b];
      CwVec3 normal = cw_vec3 (pb->r[0][2], pb->r[1][2], pb->r[2][2]);

      middle[k] = cw_vec3_dot (normal, cw_vec3_sub (tree->balls[tree->n_leaves + a].centre[k], pb->t));
      for (guint d = 0; d < 2; d++)
        along[d][k] = tree->half[d][a] * cw_vec3_dot (normal, cw_vec3 (pa->r[0][d], pa->r[1][d], pa->r[2][d]));
    }
  for (guint c = 0; c < 4; c++)
    {
      double f[3], slack;

      for (guint k = 0; k < 3; k++)
        f[k] = middle[k] + (c % 2 ? along[0][k] : -along[0][k]) + (c / 2 ? along[1][k] : -along[1][k]);
      slack = fabs (f[0] - 2 * f[1] + f[2]) / 2 + band;
      above = above && f[0] > slack && f[1] > slack && f[2] > slack;
      below = below && f[0] < -slack && f[1] < -slack && f[2] < -slack;
    }
  return above || below;
}

static void
find_between (CwNearTree *tree, guint i, guint k, double band, GArray *pairs)
{
  if (!may_meet (&tree->balls[i], &tree->balls[k], band))
    return;
  if (i >= tree->n_leaves)
    {
      CwNearPair pair = { i - tree->n_leaves, k - tree->n_leaves };

      if (tree->span == NULL || !(stays_off (tree, pair.a, pair.b, band) || stays_off (tree, pair.b, pair.a, band)))
        g_array_append_val (pairs, pair);
      return;
    }
  for (guint m = 0; m < 4; m++)
    find_between (tree, 2 * i + m / 2, 2 * k + m % 2, band, pairs);
}

static void
find_within (CwNearTree *tree, guint i, double band, GArray *pairs)
{
  if (i >= tree->n_leaves || tree->balls[i].radius < 0)
    return;
  find_within (tree, 2 * i, band, pairs);
  find_within (tree, 2 * i + 1, band, pairs);
  find_between (tree, 2 * i, 2 * i + 1, band, pairs);
}

/**
 * cw_near_tree_find:
 * @tree: a tree
 * @span: a span of the motion
 * @band: ticks by which a pair may miss and still counts
 * @planes: %TRUE to leave out pairs of which one stays on one side of the other's plane
 * @pairs: (element-type CwNearPair): gets all pairs that may meet, lower number first, in no order
 */
void
cw_near_tree_find (CwNearTree *tree, const CwSpan *span, double band, gboolean planes, GArray *pairs)
{
  if (tree->n_panels < 2)
    return;
  fill (tree, span);
  tree->span = planes ? span : NULL;
  find_within (tree, 1, band, pairs);
}
