/* cw-collision-private.h: what the files that find collisions share.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "contact/cw-collision-sheet.h"
#include "contact/cw-collision.h"

G_BEGIN_DECLS

/* A look: where everything is at one moment of a step. */
typedef struct
{
  double t;
  CwPose *pose;
  CwRigid *back;   /* n_panels: from space to each panel's flat coordinates */
  double off_flat; /* radians: how far what the step turns is from the flat place it began or ends at, the nearer of the
                    * two; G_MAXDOUBLE: neither is flat */
} CwMoment;

/* A stretch of a step with a look at its start, middle and end. Halved on demand; the halves stay, so that all pairs
 * share the same looks. The looks at the ends belong to the span beside it or above it. */
typedef struct CwSpan CwSpan;
struct CwSpan
{
  CwMoment *moment[3];
  gboolean owns_ends;
  CwSpan *half[2];
};

/* One step, looked at so often that nothing turns far between two looks. */
typedef struct
{
  CwMotion *motion;
  CwMotionWork *work;
  guint step;
  CwPose *scratch;
  CwPose *ends[2];             /* where the step begins and stops */
  GPtrArray *spans;            /* of CwSpan, in order */
  guint n_early, n_late_first; /* spans before and from here on: within a degree of the step's start and end */
  double late_t;               /* where the last degree begins */
  gboolean moves;
} CwLooks;

CwLooks *cw_looks_new (CwMotion *motion, CwMotionWork *work, guint step);
void cw_looks_free (CwLooks *looks);
const CwPose *cw_looks_get_late (const CwLooks *looks);
gboolean cw_looks_split (CwLooks *looks, CwSpan *span);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (CwLooks, cw_looks_free)

/* Two panels over one step. */
typedef struct
{
  CwLooks *looks;
  guint a, b;
  const CwCollisionSheet *sheet_a, *sheet_b;
  const CwPose *before; /* an earlier moment that tells on which side they were; NULL: not known */
  int front_side;       /* layer order: 1 if a lies on the front of b; -1: on the back; 0: not known */
  double touch;         /* ticks: nearer to a plane than this is in it */
  double band;          /* ticks: nearer than this is on neither side for certain */
  double clear;         /* ticks: farther than this at the moment before tells a side */
  double blur_turn;     /* radians: nearer than this to a flat start or end the motion tells no side; 0: it does */
} CwPairAsk;

typedef struct CwPairWork CwPairWork;
CwPairWork *cw_pair_work_new (void);
void cw_pair_work_free (CwPairWork *work);
void cw_pair_begin (CwPairWork *work, const CwPairAsk *ask);
gboolean cw_pair_moved (const CwPose *from, const CwPose *to, guint a, guint b);
/* Goes on through one span; `fresh` if the one before it was skipped. TRUE at the first collision. */
gboolean cw_pair_follow (CwPairWork *work, CwSpan *span, gboolean fresh, CwCollision *collision);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (CwPairWork, cw_pair_work_free)

/* Panels that may meet: calls back for every pair of panels, lower number first, whose surroundings meet in a span. */
typedef struct CwNearTree CwNearTree;
CwNearTree *cw_near_tree_new (const CwPanelSet *set);
void cw_near_tree_free (CwNearTree *tree);
void cw_near_tree_find (CwNearTree *tree, const CwSpan *span, double band, gboolean planes, GArray *pairs);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (CwNearTree, cw_near_tree_free)

typedef struct
{
  guint a, b;
} CwNearPair;

G_END_DECLS
