/* cw-sight-private.h: what the files that speak about sight share; of the sight room only.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "sight/cw-sight-view.h"

G_BEGIN_DECLS

/* All looks at one card that were asked for so far. */
typedef struct
{
  const CwMotion *motion;
  const CwPanelSet *set;
  const CwDesign *design;
  const CwFlatStates *states;
  CwMotionWork *work;
  guint n_steps, n_panels;
  guint unfolded; /* the first step that asks a fold of a score that makes none; n_steps without any */
  CwPose **poses; /* n_steps; made when asked for */
  CwView **views; /* 2 * n_steps; made when asked for */
} CwLook;

const CwPose *cw_look_get_pose (CwLook *look, guint step);
const CwView *cw_look_get_view (CwLook *look, guint step, CwFace from);
gboolean cw_look_is_reached (const CwLook *look, guint step);
gboolean cw_look_is_closed (const CwLook *look, guint step);
guint cw_look_find_stick (const CwLook *look, guint piece, guint step);
const CwStep *cw_look_get_step (const CwLook *look, guint step);
const char *cw_look_step_name (const CwLook *look, guint step);
const char *cw_look_panel_name (const CwLook *look, guint panel);
const char *cw_look_piece_name (const CwLook *look, guint piece);
CwUnit cw_look_unit (const CwLook *look);
char *cw_look_dup_snapped (const CwLook *look, double ticks);
void cw_look_add_state (const CwLook *look, CwFinding *finding, guint step);
void cw_look_place (const CwLook *look, CwFinding *finding, guint panel, double x, double y);

/* How a hidden thing is hidden in a flat state, from one side; pictures as in cw-sight-view.h. */
typedef struct
{
  CwRegion lies;  /* where the target lies and would show if nothing but what moves with it lay over it */
  CwRegion cover; /* where it would be hidden if it lay there, by something that does not move with it */
  guint by;       /* the panel that covers most of it; G_MAXUINT: nothing does */
  guint n_by;     /* how many cover it somewhere */
} CwCover;

CwCover cw_cover_find (CwLook *look, guint step, CwFace from, guint piece, const gboolean *panels);
CwRegion cw_cover_find_openings (CwLook *look, guint step, CwFace from, const gboolean *panels);
void cw_cover_clear (CwCover *cover);
double cw_cover_margin (const CwCover *cover, double most, CwPoint *at);
gboolean cw_cover_hides (const CwCover *cover, gint32 dx, gint32 dy);

void cw_sight_tell_wants (CwLook *look, GPtrArray *findings);
void cw_sight_tell_faces (CwLook *look, GPtrArray *findings);
void cw_sight_tell_art (CwLook *look, GPtrArray *findings);

G_END_DECLS
