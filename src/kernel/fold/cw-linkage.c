/* cw-linkage.c: bodies and hinges as a graph: its spanning tree, its loops, its blocks, and placing by composition.
 *
 * The tree is grown breadth first from the ground, hinges in their given order, so that the same linkage always has
 * the same tree. Every hinge outside the tree closes a loop: the tree's way between its two sides. Loops that share a
 * hinge fall into one block; a block is a biconnected component of the graph, and the tree restricted to it spans it,
 * so that blocks can be solved one by one. Refuses hinges without length and bodies that are not there.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "fold/cw-linkage-private.h"

#include <string.h>
#include "geometry/cw-sets.h"

/* Breadth first from the ground, then from the first body of every part not joined to it. */
static void
grow_tree (CwLinkage *self, guint ground, guint *depth)
{
  g_autofree guint *first = g_new0 (guint, self->n_bodies + 2);
  g_autofree guint *around = g_new (guint, 2 * self->n_joints + 1);
  g_autofree gboolean *seen = g_new0 (gboolean, self->n_bodies);
  guint n_order = 0;

  for (guint j = 0; j < self->n_joints; j++)
    {
      first[self->joints[j].a + 2]++;
      first[self->joints[j].b + 2]++;
    }
  for (guint i = 2; i < self->n_bodies + 2; i++)
    first[i] += first[i - 1];
  for (guint j = 0; j < self->n_joints; j++)
    {
      around[first[self->joints[j].a + 1]++] = j;
      around[first[self->joints[j].b + 1]++] = j;
    }

  for (guint k = 0; k <= self->n_bodies; k++)
    {
      guint start = k == 0 ? ground : k - 1;
      guint next = n_order;

      if (seen[start])
        continue;
      seen[start] = TRUE;
      self->parent_joint[start] = G_MAXUINT;
      self->parent_body[start] = start;
      depth[start] = 0;
      self->order[n_order++] = start;
      for (; next < n_order; next++)
        {
          guint body = self->order[next];

          for (guint i = first[body]; i < first[body + 1]; i++)
            {
              const CwJoint *joint = &self->joints[around[i]];
              guint other = joint->a == body ? joint->b : joint->a;

              if (seen[other])
                continue;
              seen[other] = TRUE;
              self->parent_joint[other] = around[i];
              self->parent_body[other] = body;
              depth[other] = depth[body] + 1;
              self->order[n_order++] = other;
            }
        }
    }
}

/* Adds the tree hinge above `body` to a loop: on a's side of the closing hinge it carries the far end (+1), on b's
 * side what the far end is compared with (-1). */
static guint
climb (const CwLinkage *self, guint body, double side, GArray *steps)
{
  guint j = self->parent_joint[body];
  CwLoopStep step = { j, self->joints[j].b == body ? -side : side };

  g_array_append_val (steps, step);
  return self->parent_body[body];
}

static gboolean
is_identity (const CwRigid *place)
{
  static const CwRigid identity = { { { 1, 0, 0 }, { 0, 1, 0 }, { 0, 0, 1 } }, { 0, 0, 0 } };
  double off = 0;

  for (guint i = 0; i < 3; i++)
    for (guint k = 0; k < 3; k++)
      off = MAX (off, fabs (place->r[i][k] - identity.r[i][k]));
  return !(MAX (off, MAX (fabs (place->t.x), MAX (fabs (place->t.y), fabs (place->t.z)))) > 0);
}

static CwLoop
make_loop (const CwLinkage *self, guint joint, const guint *depth)
{
  g_autoptr (GArray) steps = g_array_new (FALSE, FALSE, sizeof (CwLoopStep));
  const CwJoint *j = &self->joints[joint];
  guint a = j->a, b = j->b;
  CwLoopStep last = { joint, -1 };
  CwLoop loop = { .joint = joint };

  while (a != b)
    if (depth[a] >= depth[b])
      a = climb (self, a, 1, steps);
    else
      b = climb (self, b, -1, steps);
  g_array_append_val (steps, last);
  loop.reach = cw_vec3_length (cw_vec3_sub (j->q, j->p)) / 2 / self->size;
  loop.n_steps = steps->len;
  loop.steps = (CwLoopStep *) g_array_free (g_steal_pointer (&steps), FALSE);
  return loop;
}

static void
make_blocks (CwLinkage *self, const guint *depth)
{
  g_autofree gboolean *in_tree = g_new0 (gboolean, self->n_joints + 1);
  g_autofree gboolean *in_loop = g_new0 (gboolean, self->n_joints + 1);
  g_autofree guint *sets = cw_sets_new (self->n_joints); /* hinges, joined as loops are found */
  g_autoptr (GArray) loops = g_array_new (FALSE, FALSE, sizeof (CwLoop));

  for (guint i = 0; i < self->n_bodies; i++)
    if (self->parent_joint[i] != G_MAXUINT)
      in_tree[self->parent_joint[i]] = TRUE;
  for (guint j = 0; j < self->n_joints; j++)
    {
      CwLoop loop;

      if (in_tree[j])
        continue;
      loop = make_loop (self, j, depth);
      for (guint k = 0; k < loop.n_steps; k++)
        {
          in_loop[loop.steps[k].joint] = TRUE;
          cw_sets_join (sets, loop.steps[k].joint, j);
        }
      g_array_append_val (loops, loop);
    }
  self->n_loops = loops->len;

  /* Number the blocks by their smallest hinge, then count and fill. */
  for (guint j = 0; j < self->n_joints; j++)
    self->joint_block[j] = in_loop[j] && cw_sets_find (sets, j) == j ? self->n_blocks++ : G_MAXUINT;
  self->blocks = g_new0 (CwBlock, self->n_blocks + 1);
  for (guint j = 0; j < self->n_joints; j++)
    if (in_loop[j])
      {
        self->joint_block[j] = self->joint_block[cw_sets_find (sets, j)];
        self->blocks[self->joint_block[j]].n_joints++;
      }
  for (guint i = 0; i < loops->len; i++)
    self->blocks[self->joint_block[g_array_index (loops, CwLoop, i).joint]].n_loops++;
  for (guint k = 0; k < self->n_blocks; k++)
    {
      CwBlock *block = &self->blocks[k];

      block->joints = g_new (guint, block->n_joints);
      block->loops = g_new (CwLoop, block->n_loops);
      block->tree = g_new (guint, block->n_joints);
      block->n_joints = block->n_loops = 0;
    }
  for (guint j = 0; j < self->n_joints; j++)
    if (in_loop[j])
      {
        CwBlock *block = &self->blocks[self->joint_block[j]];

        self->joint_slot[j] = block->n_joints;
        block->joints[block->n_joints++] = j;
        block->root = self->joints[j].a; /* for a block that is one hinge with both sides on one body */
      }
  for (guint i = 0; i < loops->len; i++)
    {
      CwLoop *loop = &g_array_index (loops, CwLoop, i);
      CwBlock *block = &self->blocks[self->joint_block[loop->joint]];

      block->loops[block->n_loops++] = *loop;
    }
  for (guint i = 0; i < self->n_bodies; i++)
    {
      guint body = self->order[i];
      guint j = self->parent_joint[body];

      if (j != G_MAXUINT && in_loop[j])
        {
          CwBlock *block = &self->blocks[self->joint_block[j]];

          if (block->n_tree == 0)
            block->root = self->parent_body[body];
          block->tree[block->n_tree++] = body;
        }
    }
}

/**
 * cw_linkage_new:
 * @n_bodies: how many rigid bodies, at least one
 * @ground: the body that stands still
 * @n_joints: how many hinges
 * @joints: (array length=n_joints): the hinges; copied
 * @size_ticks: the design's size in ticks, which scales all tolerances of length
 *
 * Returns: (transfer full): a linkage
 */
CwLinkage *
cw_linkage_new (guint n_bodies, guint ground, guint n_joints, const CwJoint *joints, double size_ticks)
{
  CwLinkage *self;
  g_autofree guint *depth = NULL;

  g_return_val_if_fail (n_bodies > 0 && ground < n_bodies, NULL);
  g_return_val_if_fail (n_joints == 0 || joints != NULL, NULL);
  g_return_val_if_fail (size_ticks > 0, NULL);
  for (guint j = 0; j < n_joints; j++)
    {
      g_return_val_if_fail (joints[j].a < n_bodies && joints[j].b < n_bodies, NULL);
      g_return_val_if_fail (cw_vec3_length (cw_vec3_sub (joints[j].q, joints[j].p)) > 0, NULL);
    }

  self = g_new0 (CwLinkage, 1);
  g_atomic_ref_count_init (&self->refs);
  self->n_bodies = n_bodies;
  self->n_joints = n_joints;
  self->size = size_ticks;
  self->joints = g_memdup2 (joints, n_joints * sizeof (CwJoint));
  self->in_b_inverse = g_new (CwRigid, n_joints);
  self->hinges = g_new (CwHinge, n_joints);
  self->order = g_new (guint, n_bodies);
  self->parent_joint = g_new (guint, n_bodies);
  self->parent_body = g_new (guint, n_bodies);
  self->joint_block = g_new (guint, n_joints);
  self->joint_slot = g_new0 (guint, n_joints);
  for (guint j = 0; j < n_joints; j++)
    {
      CwHinge *hinge = &self->hinges[j];
      CwVec3 d;

      self->in_b_inverse[j] = cw_rigid_inverse (&joints[j].in_b);
      hinge->plain = is_identity (&joints[j].in_a) && is_identity (&joints[j].in_b);
      hinge->p_a = cw_rigid_apply (&joints[j].in_a, joints[j].p);
      hinge->q_a = cw_rigid_apply (&joints[j].in_a, joints[j].q);
      hinge->p_b = cw_rigid_apply (&joints[j].in_b, joints[j].p);
      hinge->q_b = cw_rigid_apply (&joints[j].in_b, joints[j].q);
      d = cw_vec3_sub (hinge->q_a, hinge->p_a);
      hinge->axis_a = cw_vec3_scale (d, 1 / cw_vec3_length (d));
    }

  depth = g_new (guint, n_bodies);
  grow_tree (self, ground, depth);
  make_blocks (self, depth);
  return self;
}

/**
 * cw_linkage_ref:
 * @linkage: a linkage
 *
 * Returns: (transfer full): the same
 */
CwLinkage *
cw_linkage_ref (CwLinkage *linkage)
{
  g_return_val_if_fail (linkage != NULL, NULL);

  g_atomic_ref_count_inc (&linkage->refs);
  return linkage;
}

/**
 * cw_linkage_unref:
 * @linkage: (transfer full): a linkage
 */
void
cw_linkage_unref (CwLinkage *linkage)
{
  g_return_if_fail (linkage != NULL);

  if (!g_atomic_ref_count_dec (&linkage->refs))
    return;
  for (guint k = 0; k < linkage->n_blocks; k++)
    {
      CwBlock *block = &linkage->blocks[k];

      for (guint i = 0; i < block->n_loops; i++)
        g_free (block->loops[i].steps);
      g_free (block->joints);
      g_free (block->loops);
      g_free (block->tree);
    }
  g_free (linkage->blocks);
  g_free (linkage->joints);
  g_free (linkage->in_b_inverse);
  g_free (linkage->hinges);
  g_free (linkage->order);
  g_free (linkage->parent_joint);
  g_free (linkage->parent_body);
  g_free (linkage->joint_block);
  g_free (linkage->joint_slot);
  g_free (linkage);
}

/**
 * cw_linkage_is_same:
 * @linkage: a linkage
 * @other: another, or the same
 *
 * Returns: whether both have the same bodies and hinges in the same order, so that all that holds of one holds of the
 * other
 */
gboolean
cw_linkage_is_same (const CwLinkage *linkage, const CwLinkage *other)
{
  g_return_val_if_fail (linkage != NULL && other != NULL, FALSE);

  if (linkage == other)
    return TRUE;
  if (linkage->n_bodies != other->n_bodies || linkage->n_joints != other->n_joints
      || linkage->order[0] != other->order[0])
    return FALSE;
  for (guint j = 0; j < linkage->n_joints; j++)
    {
      const CwJoint *a = &linkage->joints[j], *b = &other->joints[j];

      if (a->a != b->a || a->b != b->b || a->way != b->way || memcmp (&a->in_a, &b->in_a, sizeof (CwRigid)) != 0
          || memcmp (&a->in_b, &b->in_b, sizeof (CwRigid)) != 0 || memcmp (&a->p, &b->p, sizeof (CwVec3)) != 0
          || memcmp (&a->q, &b->q, sizeof (CwVec3)) != 0)
        return FALSE;
    }
  return TRUE;
}

/**
 * cw_linkage_get_n_loops:
 * @linkage: a linkage
 *
 * Returns: how many hinges close a loop: hinges less bodies plus connected parts
 */
guint
cw_linkage_get_n_loops (const CwLinkage *linkage)
{
  g_return_val_if_fail (linkage != NULL, 0);

  return linkage->n_loops;
}

/**
 * cw_linkage_get_n_blocks:
 * @linkage: a linkage
 *
 * Returns: how many sets of loops there are that share no hinge with one another
 */
guint
cw_linkage_get_n_blocks (const CwLinkage *linkage)
{
  g_return_val_if_fail (linkage != NULL, 0);

  return linkage->n_blocks;
}

/**
 * cw_linkage_get_joint_block:
 * @linkage: a linkage
 * @joint: a hinge
 *
 * Returns: the block the hinge is in, G_MAXUINT if it is in no loop
 */
guint
cw_linkage_get_joint_block (const CwLinkage *linkage, guint joint)
{
  g_return_val_if_fail (linkage != NULL && joint < linkage->n_joints, G_MAXUINT);

  return linkage->joint_block[joint];
}

/**
 * cw_linkage_joint_rigid:
 * @linkage: the linkage
 * @joint: one of its hinges
 * @rho: its fold angle, radians
 *
 * Returns: the place of the hinge's body b in the frame of its body a
 */
CwRigid
cw_linkage_joint_rigid (const CwLinkage *linkage, guint joint, double rho)
{
  const CwJoint *j = &linkage->joints[joint];
  CwRigid turn = cw_rigid_about_axis (j->p, j->q, -rho);
  CwRigid left;

  if (linkage->hinges[joint].plain)
    return turn;
  left = cw_rigid_compose (&j->in_a, &turn);
  return cw_rigid_compose (&left, &linkage->in_b_inverse[joint]);
}

/**
 * cw_linkage_place_child:
 * @linkage: the linkage
 * @body: a body with a parent
 * @rho: the angle of the tree hinge between the two, radians
 * @places: (array) (inout): n_bodies places; the parent's is read, the body's written
 */
void
cw_linkage_place_child (const CwLinkage *linkage, guint body, double rho, CwRigid *places)
{
  guint j = linkage->parent_joint[body];
  CwRigid step = cw_linkage_joint_rigid (linkage, j, rho);

  if (linkage->joints[j].b != body)
    step = cw_rigid_inverse (&step);
  places[body] = cw_rigid_compose (&places[linkage->parent_body[body]], &step);
}

/**
 * cw_linkage_place:
 * @linkage: a linkage
 * @work: scratch of this thread
 * @rho: (array): n_joints fold angles, radians
 * @places: (array) (out caller-allocates): n_bodies places
 *
 * Places all bodies along the spanning tree from the ground at the identity. The first body of every part not joined
 * to the ground is at the identity too. Whether the loops close is not asked.
 */
void
cw_linkage_place (const CwLinkage *linkage, CwLinkageWork *work, const double *rho, CwRigid *places)
{
  g_return_if_fail (linkage != NULL && places != NULL);
  g_return_if_fail (rho != NULL || linkage->n_joints == 0);

  for (guint i = 0; i < linkage->n_bodies; i++)
    {
      guint body = linkage->order[i];

      if (linkage->parent_joint[body] == G_MAXUINT)
        places[body] = cw_rigid_identity ();
      else
        cw_linkage_place_child (linkage, body, rho[linkage->parent_joint[body]], places);
    }
}
