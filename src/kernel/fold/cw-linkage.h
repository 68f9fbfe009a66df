/* cw-linkage.h: rigid bodies joined by fold lines, and how they move: placing, closing loops, following, freedom.
 *
 * Knows nothing of designs. A joint's fold angle rho is in radians here: 0 flat, +pi fronts meet, -pi backs meet. Both
 * sides of a joint are known in the flat coordinates of the paper that holds it; in_a and in_b place that flat paper in
 * each body's own frame:
 *     place(b) = place(a) * in_a * Rot(p q, -rho) * inverse(in_b)
 * with a the body on the left and b the one on the right walking from p to q, front up (right-hand rule; tested on a
 * half-fold: rho = pi brings the two fronts together).
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "fold/cw-effort.h"
#include "geometry/cw-vector.h"

G_BEGIN_DECLS

typedef struct
{
  guint a, b; /* bodies, left and right; may be equal (a hinge whose two sides are stuck together) */
  CwRigid in_a, in_b;
  CwVec3 p, q; /* ends of the fold line in the paper's flat coordinates, ticks, z = 0 */
  int way;     /* +1 toward, -1 away: the sign of rho in the score's own direction; 0: scored but not folded */
  /* Which part of the body carries it. Parts of one body with different numbers were joined where they met, and how
   * they lie is not to be relied on when fold lines are laid true. 0 for all: bodies of one part. */
  guint part_a, part_b;
} CwJoint;

typedef struct CwLinkage CwLinkage;         /* immutable once made */
typedef struct CwTrace CwTrace;             /* one step's motion, immutable once made */
typedef struct CwLinkageWork CwLinkageWork; /* scratch of one thread, made once and used for every solve */

typedef enum
{
  CW_TRACE_ARRIVED,     /* reached 1 */
  CW_TRACE_STOPPED,     /* a dead point or a jam: reached < 1 */
  CW_TRACE_NOT_DECIDED, /* a block's loops are too many to work out: it stands still, reached is 0 */
} CwTraceVerdict;

/* A joint driven on a straight ramp from where it stands to `to_rad`. Taken in the order listed: one that already
 * follows from those before it in its block does not drive and need only agree at the end. */
typedef struct
{
  guint joint;
  double to_rad;
} CwDrive;

typedef struct
{
  CwTraceVerdict verdict;
  double reached;            /* share of the step, 0 to 1; exact to 1e-4 at a dead point */
  double misfit_ticks;       /* how far loops miss closing at the worst place, 0 when exact */
  guint misfit_joint;        /* where; G_MAXUINT if exact */
  gboolean needs_give;       /* closes only by the paper's give (above what rounding to ticks explains) */
  gboolean two_ways;         /* two motions fit the scores' directions equally */
  gboolean other_way_moves;  /* only scores folded the other way would move */
  gboolean sways;            /* a loop that moves has more freedom than it is driven by */
  gboolean sway_not_decided; /* whether it sways was too much to work out */
  guint blocking_block;      /* the block that stopped or was not decided; G_MAXUINT if none */
} CwTraceResult;

CwLinkage *cw_linkage_new (guint n_bodies, guint ground, guint n_joints, const CwJoint *joints, double size_ticks);
CwLinkage *cw_linkage_ref (CwLinkage *linkage);
void cw_linkage_unref (CwLinkage *linkage);
gboolean cw_linkage_is_same (const CwLinkage *linkage, const CwLinkage *other);
guint cw_linkage_get_n_loops (const CwLinkage *linkage);
guint cw_linkage_get_n_blocks (const CwLinkage *linkage);
guint cw_linkage_get_joint_block (const CwLinkage *linkage, guint joint); /* G_MAXUINT: open chain, in no loop */

CwLinkageWork *cw_linkage_work_new (const CwLinkage *linkage);
void cw_linkage_work_free (CwLinkageWork *work);

/* Places all bodies for given angles (n_joints) along the spanning tree from the ground; bodies of other components
 * have their own first body at the identity. */
void cw_linkage_place (const CwLinkage *linkage, CwLinkageWork *work, const double *rho, CwRigid *places);
/* Worst shift (ticks) over the loops at these angles; joint gets where. */
double cw_linkage_misfit (const CwLinkage *linkage, CwLinkageWork *work, const double *rho, guint *joint);

/* Traces one step from `start` (n_joints angles). give_ticks: how far paper bends; 0 = exact to 2 ticks. */
CwTrace *cw_linkage_trace (CwLinkage *linkage, const double *start, const CwDrive *drives, guint n_drives,
                           double give_ticks);
/* The same, with a memory of the way `start` was reached (NULL: none): each hinge as it stood shortly before the end of
 * the last step that moved it. Where several motions leave `start`, the one that goes back that way is taken. */
CwTrace *cw_linkage_trace_from (CwLinkage *linkage, const double *start, const double *hint, const CwDrive *drives,
                                guint n_drives, double give_ticks);
/* The same, at most as much work as the effort holds (NULL: any). */
CwTrace *cw_linkage_trace_within (CwLinkage *linkage, const double *start, const double *hint, const CwDrive *drives,
                                  guint n_drives, double give_ticks, CwEffort *effort);
/* The same backward, from where it stopped, if the step asks for just that; NULL if not. */
CwTrace *cw_trace_new_back (const CwTrace *trace, CwLinkage *linkage, const double *start, const CwDrive *drives,
                            guint n_drives);

CwTrace *cw_trace_ref (CwTrace *trace);
void cw_trace_unref (CwTrace *trace);
const CwTraceResult *cw_trace_get_result (const CwTrace *trace);
/* Angles at a fraction of the step; beyond `reached` the motion stands still. Allocates nothing. */
void cw_trace_get_angles (const CwTrace *trace, CwLinkageWork *work, double fraction, double *rho);

/* Independent finite motions at these angles; first_order gets joints minus rank there. Confirmed by finite closed
 * positions that really spread, block by block (kernel.md: flat and shut are blind). */
guint cw_linkage_freedom (CwLinkage *linkage, const double *rho, double give_ticks, guint *first_order);
/* The same, at most as much work as the effort holds; if that is out, what was found so far, and no more than that. */
guint cw_linkage_freedom_within (CwLinkage *linkage, const double *rho, double give_ticks, guint *first_order,
                                 CwEffort *effort);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (CwLinkage, cw_linkage_unref)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (CwLinkageWork, cw_linkage_work_free)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (CwTrace, cw_trace_unref)

G_END_DECLS
