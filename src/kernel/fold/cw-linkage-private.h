/* cw-linkage-private.h: what the files of the linkage share: the graph, its loops and blocks, and the scratch.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "fold/cw-effort.h"
#include "fold/cw-linkage.h"

G_BEGIN_DECLS

/* One hinge of a loop's way round. Turning it by d turns the loop's far side by d * sense about its axis. */
typedef struct
{
  guint joint;
  double sense;
} CwLoopStep;

/* A hinge outside the spanning tree, and the tree hinges on both sides of it up to where the two sides meet. The
 * hinge itself is the last step. */
typedef struct
{
  guint joint;
  guint n_steps;
  CwLoopStep *steps;
  double reach; /* half the hinge's length as a share of the linkage's size: turns a twist into a shift of the ends */
} CwLoop;

/* A hinge's ends and axis in the frames of its two bodies. */
typedef struct
{
  CwVec3 p_a, q_a, p_b, q_b; /* ticks */
  CwVec3 axis_a;             /* unit, p to q */
  gboolean plain;            /* both bodies' frames are that of the flat paper */
} CwHinge;

/* Loops that share hinges, solved together. Its tree hinges are a spanning tree of its bodies. */
typedef struct
{
  guint n_joints;
  guint *joints; /* ascending */
  guint root;    /* the body nearest the ground */
  guint n_tree;
  guint *tree; /* the bodies but the root, each after its parent */
  guint n_loops;
  CwLoop *loops;
} CwBlock;

struct CwLinkage
{
  gatomicrefcount refs;
  guint n_bodies, n_joints, n_loops, n_blocks;
  double size; /* ticks */
  CwJoint *joints;
  CwRigid *in_b_inverse; /* n_joints */
  CwHinge *hinges;       /* n_joints */
  guint *order;          /* n_bodies: each after its parent */
  guint *parent_joint;   /* n_bodies: G_MAXUINT for a first body */
  guint *parent_body;    /* n_bodies */
  guint *joint_block;    /* n_joints: G_MAXUINT outside all loops */
  guint *joint_slot;     /* n_joints: the place in its block's list */
  CwBlock *blocks;
};

/* How a block's misfit is written as numbers. */
typedef enum
{
  CW_ROWS_EXACT = 6, /* a loop: its twist (3, radians) and the shift of the hinge's middle (3, share of the size) */
  CW_ROWS_GIVE = 7,  /* a loop: the shift of p (3) and of q (3), and the twist about the hinge as a shift (1) */
} CwRows;

/* What a hinge of a block may do. */
typedef enum
{
  CW_SLOT_FREE,
  CW_SLOT_DRIVEN,
  CW_SLOT_HELD,
} CwSlot;

/* Sized for the largest block. */
struct CwLinkageWork
{
  CwEffort *effort; /* borrowed, nullable: of the question worked on */
  CwRigid *places;  /* n_bodies: of one block, its root at the identity */
  double *x, *trial, *step, *guess, *angles;
  double *residual, *jacobian;
  double *columns, *right;
  guint *free, *used;
  CwSlot *slots;
  gboolean *driven;
};

/* The next of a run of numbers from 0 to 1: splitmix64 (Steele, Lea & Flood, OOPSLA 2014; from memory). */
static inline double
cw_linkage_draw (guint64 *state)
{
  guint64 z = (*state += G_GUINT64_CONSTANT (0x9e3779b97f4a7c15));

  z = (z ^ (z >> 30)) * G_GUINT64_CONSTANT (0xbf58476d1ce4e5b9);
  z = (z ^ (z >> 27)) * G_GUINT64_CONSTANT (0x94d049bb133111eb);
  z ^= z >> 31;
  return (double) (z >> 11) * 0x1p-53;
}

CwRigid cw_linkage_joint_rigid (const CwLinkage *linkage, guint joint, double rho);
void cw_linkage_place_child (const CwLinkage *linkage, guint body, double rho, CwRigid *places);

void cw_block_residual (const CwLinkage *linkage, CwLinkageWork *work, const CwBlock *block, const double *x,
                        CwRows rows, double *residual, double *jacobian);
double cw_block_misfit (const CwLinkage *linkage, CwLinkageWork *work, const CwBlock *block, const double *x,
                        guint *joint);
double cw_block_close (const CwLinkage *linkage, CwLinkageWork *work, const CwBlock *block, const CwSlot *slots,
                       const double *low, const double *high, CwRows rows, guint n_tries, double *x);
void cw_block_tangent (const CwLinkage *linkage, CwLinkageWork *work, const CwBlock *block, const CwSlot *slots,
                       const double *x, CwRows rows, const double *rate, double *tangent);
guint cw_block_looseness (const CwLinkage *linkage, CwLinkageWork *work, const CwBlock *block, const CwSlot *slots,
                          const double *x, double tolerance, double *null);

/* The most any of n angles of one position differs from the other's, radians. */
static inline double
cw_angles_farthest (guint n, const double *a, const double *b)
{
  double most = 0;

  for (guint i = 0; i < n; i++)
    most = MAX (most, fabs (a[i] - b[i]));
  return most;
}

G_END_DECLS
