/* cw-draw-card.h: the folded card at one moment, seen from any side, and pulling its panels.
 *
 * Parallel projection: what is in front is decided by depth alone, and lengths on the table stay comparable.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "check/cw-analysis.h"
#include "cw-draw-list.h"
#include "glue/cw-glue-map.h"

G_BEGIN_DECLS

typedef struct
{
  double yaw, pitch; /* radians; 0, 0 looks along +z at the held panel's front; yaw turns about the card's upright,
                        pitch tips it */
  double scale;      /* output units per tick */
  double x, y;       /* output place of `centre` */
  CwVec3 centre;     /* ticks */
  double spin;       /* radians, about the held panel's normal, before yaw and pitch: a card turned on the table */
} CwCamera;

void cw_camera_look_from (CwCamera *camera, const char *from); /* "front", "back", "table" */
/* From the table, turned so that one looks into the card and not at the back of the leaf that stands up. */
void cw_camera_look_into (CwCamera *camera, const CwMotion *motion);
/* Scale and place so that every moment of the whole motion fits the rectangle. */
void cw_camera_fit (CwCamera *camera, const CwMotion *motion, double x, double y, double width, double height);
/* The same for one moment only. */
void cw_camera_fit_pose (CwCamera *camera, const CwMotion *motion, const CwPose *pose, double x, double y, double width,
                         double height);
/* Output x, y and depth (larger is farther). */
CwVec3 cw_camera_project (const CwCamera *camera, CwVec3 point);

typedef struct
{
  const CwId *selected;
  guint n_selected;
  guint lit_panel; /* panel index through the design; G_MAXUINT = none */
  guint hinge_at;  /* hinge index being pulled or G_MAXUINT */
  gboolean labels, shadow, glue;
  gboolean findings;         /* the places of what is wrong at this moment */
  const CwGlueMap *glue_map; /* shades where glue may lie on every face that is seen; may be NULL */
  double label_least;        /* names smaller than this are left out, output units; 0: the usual */
} CwCardLook;

/* Scratch that lives with a view, so that playing allocates nothing per frame. */
typedef struct CwCardScene CwCardScene;
CwCardScene *cw_card_scene_new (const CwAnalysis *analysis);
void cw_card_scene_free (CwCardScene *scene);

/* The card at a fraction of a step; a step beyond the last: the flat card before the first. */
void cw_draw_card (CwDrawList *list, CwCardScene *scene, guint step, double fraction, const CwCamera *camera,
                   const CwCardLook *look);

/* Pulling: begun on a panel at an output place, moved to another; answers the fraction of the step that brings the
 * grabbed place of the paper nearest to the pointer, near the fraction it stands at. FALSE when the panel does not move
 * in the step. */
gboolean cw_card_scene_grab (CwCardScene *scene, guint step, double fraction, const CwCamera *camera, guint panel,
                             double ox, double oy);
double cw_card_scene_pull (CwCardScene *scene, const CwCamera *camera, double ox, double oy);
/* The step a pull has come to: at the end of one it runs on into the next that goes the same way. */
guint cw_card_scene_get_grab_step (const CwCardScene *scene);
/* What of a rectangle on the output lies on which face of the card. Returns: (transfer full) GArray of CwAcrossPart. */
GArray *cw_card_scene_find_across (CwCardScene *scene, guint step, double fraction, const CwCamera *camera,
                                   const double box[4]);
/* The step, from `step` on (going round making and using steps), that moves this panel; G_MAXUINT if none does. */
guint cw_card_scene_find_step (CwCardScene *scene, guint step, double fraction, guint panel);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (CwCardScene, cw_card_scene_free)

G_END_DECLS
