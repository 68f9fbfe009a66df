/* cw-motion.h: a design in time: what every step does to every panel, and where each panel is at any fraction of any
 * step.
 *
 * Panels and hinges are numbered through the whole design (cw-panel-map.h). Space is the held panel's own flat
 * coordinates, in ticks: the held panel's place is the identity.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "fold/cw-linkage.h"
#include "panel/cw-panel-map.h"

G_BEGIN_DECLS

typedef struct CwMotion CwMotion;         /* immutable once made, reference counted, readable from any thread */
typedef struct CwMotionWork CwMotionWork; /* scratch of one thread */

/* Where everything is at one moment. Made once (cw_pose_new) and refilled; refilling allocates nothing. */
typedef struct
{
  guint n_panels, n_hinges;
  CwRigid *places;    /* n_panels; flat (x, y, 0) in ticks to space in ticks */
  gboolean *present;  /* n_panels: its piece is on the card */
  double *angles_deg; /* n_hinges: rho in degrees, + fronts meet, whatever the score's own direction */
} CwPose;

/* Two panels that move as one from the end of a step on. Made from stick steps here; glue adds its own. */
typedef struct
{
  guint step;
  guint panel_a, panel_b; /* indices through the design */
  CwRigid b_in_a;         /* flat b to flat a */
} CwFixed;

/* The end of one step. */
typedef struct
{
  double reached;
  double residual;                    /* of the loops, as shift in ticks */
  double misfit_ticks;                /* 0 when exact */
  gboolean flat;                      /* all present panels parallel to the held panel's plane */
  guint freedom, freedom_first_order; /* at least so many where not decided */
  gboolean other_way_moves;           /* stopped at once, and would move with scores folded the other way */
  gboolean not_decided;               /* how it moves, or how freely, was too much to work out */
  guint n_bodies, n_loops;            /* of what is on the card */
} CwMotionState;

CwMotion *cw_motion_new (CwPanelSet *set, const CwFixed *more, guint n_more);
/* NULL when cancelled. */
CwMotion *cw_motion_new_cancellable (CwPanelSet *set, const CwFixed *more, guint n_more, GCancellable *cancellable);
CwMotion *cw_motion_ref (CwMotion *motion);
void cw_motion_unref (CwMotion *motion);
CwPanelSet *cw_motion_get_set (const CwMotion *motion);
guint cw_motion_get_held (const CwMotion *motion); /* panel index */
guint cw_motion_get_n_steps (const CwMotion *motion);
const CwMotionState *cw_motion_get_state (const CwMotion *motion, guint step);
const CwMotionState *cw_motion_get_start_state (const CwMotion *motion); /* bodies and loops before the first step */
GPtrArray *cw_motion_get_findings (const CwMotion *motion);              /* of CwFinding, borrowed */
gint64 cw_motion_get_effort (const CwMotion *motion); /* what its loops cost to work out (cw-effort.h) */

CwMotionWork *cw_motion_work_new (const CwMotion *motion);
void cw_motion_work_free (CwMotionWork *work);
CwPose *cw_pose_new (const CwMotion *motion);
CwPose *cw_pose_copy (const CwPose *pose);
void cw_pose_free (CwPose *pose);

/* The moment `fraction` (0 to 1) of `step`. A piece stuck by a step is present from that step's end (fraction 1) on. */
void cw_motion_get_pose (const CwMotion *motion, CwMotionWork *work, guint step, double fraction, CwPose *pose);
/* How far loops miss closing on the way through a step, ticks. */
double cw_motion_get_misfit (const CwMotion *motion, CwMotionWork *work, guint step, double fraction);
/* The flat card before the first step: the ground piece only, unfolded. */
void cw_motion_get_start (const CwMotion *motion, CwPose *pose);
/* Numbers of what hangs together at the end of a step (G_MAXUINT: before the first): panels of pieces joined by bonds
 * share a group, panels that move as one a body. */
guint cw_motion_get_group (const CwMotion *motion, guint step, guint panel);
guint cw_motion_get_body (const CwMotion *motion, guint step, guint panel);
/* TRUE if this panel moves relative to the held one within the step. */
gboolean cw_motion_step_moves (const CwMotion *motion, guint step, guint panel);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (CwMotion, cw_motion_unref)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (CwMotionWork, cw_motion_work_free)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (CwPose, cw_pose_free)

G_END_DECLS
