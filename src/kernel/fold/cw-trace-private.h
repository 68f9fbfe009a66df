/* cw-trace-private.h: one block's motion through a step, shared by the files that find, follow and keep it.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "fold/cw-linkage-private.h"

G_BEGIN_DECLS

/* A block's motion: its driven hinges on straight ramps, the others following. Knots are closed positions. */
typedef struct
{
  /* Borrowed. */
  const CwLinkage *linkage;
  const CwBlock *block;
  /* Owned. */
  CwSlot *slots;
  double *from, *to; /* the ramps; `to` is read for driven hinges only */
  int *sense;        /* the way each hinge should turn from 0: its score's, or its listed fold's; 0: neither */
  CwRows rows;       /* CW_ROWS_EXACT: loops close; CW_ROWS_GIVE: they come as near as can be */
  double allowed;    /* ticks, for CW_ROWS_GIVE */
  GArray *s;         /* of double: share of the step at each knot */
  GArray *x;         /* of double: n_joints angles at each knot */
  GArray *rate;      /* of double: n_joints angles per share at each knot */
  GArray *rests;     /* of gboolean: n_joints at each knot, whether a hinge rests on its bound */
  double misfit;     /* ticks, the worst over the knots; 0 while exact */
  guint misfit_joint;
  guint right, wrong; /* leaving: scores at 0 that turned their own way, and the other way */
  gboolean loose;     /* leaving: more ways open than driven */
  gboolean bounded;   /* hinges that started flat keep to their own way */
} CwCourse;

CwCourse *cw_course_new (const CwLinkage *linkage, const CwBlock *block, const CwSlot *slots, const double *from,
                         const double *to, const int *sense, CwRows rows, double allowed);
CwCourse *cw_course_copy (const CwCourse *path);
void cw_course_free (CwCourse *path);
void cw_course_ramp (const CwCourse *path, double s, double *x);
void cw_course_add (CwCourse *path, CwLinkageWork *work, double s, const double *x);
void cw_course_cut (CwCourse *path, guint n_knots);
double cw_course_get_s (const CwCourse *path, guint knot);
const double *cw_course_get_x (const CwCourse *path, guint knot);
gboolean cw_course_close (CwCourse *path, CwLinkageWork *work, const double *low, const double *high, guint n_tries,
                          double *x);
double cw_course_follow (CwCourse *path, CwLinkageWork *work, double goal, gboolean may_snap);
void cw_course_get_angles (const CwCourse *path, CwLinkageWork *work, double s, double *x);

GPtrArray *cw_course_leave (const CwCourse *still, CwLinkageWork *work, const double *hint, gboolean own_way);
gboolean cw_course_is_singular (const CwCourse *still, CwLinkageWork *work);

/* What a step asks of one block, and what came of it. */
typedef struct
{
  const CwLinkage *linkage;
  CwLinkageWork *work;
  guint block;
  const double *start; /* n_joints of the linkage */
  const double *hint;  /* the same, nullable */
  const CwDrive *drives;
  guint n_drives; /* of the whole step */
  double give;    /* ticks */
} CwAsk;          /* work->effort: how much it may cost */

typedef struct
{
  CwCourse *path; /* owned; NULL: the ramps alone keep the loops closed */
  double reached;
  double misfit; /* ticks, of ramps alone or of a start that does not close */
  guint misfit_joint;
  gboolean two_ways, other_way_moves, sways;
  gboolean not_decided, sway_not_decided; /* the effort was out before */
} CwAnswer;

/* The block's view of it. */
typedef struct
{
  const CwAsk *ask;
  const CwBlock *block;
  guint n;
  double *from, *to, *hint; /* n; hint may be NULL */
  int *sense;               /* n */
  gboolean *listed;         /* n */
  guint *order;             /* the listed hinges, in the order listed */
  guint n_order;
  CwSlot *slots; /* n: what drives so far */
} CwBlockTask;

CwAnswer cw_block_answer (const CwAsk *ask);
gboolean cw_block_sways (const CwBlockTask *task, const CwCourse *path, double reached);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (CwCourse, cw_course_free)

G_END_DECLS
