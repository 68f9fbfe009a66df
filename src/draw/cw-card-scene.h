/* cw-card-scene.h: what a view of the folded card keeps between frames; for the folded card's own files.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "cw-depth.h"
#include "cw-draw-card.h"
#include "cw-draw-trace.h"

G_BEGIN_DECLS

/* Printed papers: one fine slanted line to every so many ticks. */
#define CW_CARD_PATTERN (CW_TICKS_PER_INCH / 4)

/* A straight stretch on a panel, flat coordinates. */
typedef struct
{
  CwVec3 p, q;
  guint mark;  /* cut along it, index in the piece; G_MAXUINT: the piece's outline */
  guint hinge; /* through the design; G_MAXUINT: a real edge of the paper */
} CwCardLine;

typedef struct
{
  guint piece, panel; /* place in the design */
  guint32 colour[2];  /* of front and back */
  GArray *lines;      /* of CwCardLine: edges, slits and fold lines, sorted by hinge and mark */
  GArray
    *pattern; /* of CwVec3 pairs: lines printed on the front, the first's z its number; NULL when the paper is plain */
} CwCardPanel;

struct CwCardScene
{
  /* Owned */
  CwAnalysis *analysis;
  CwMotionWork *work;
  CwPose *pose, *other;
  CwDepth *depth;
  CwCardPanel *panels; /* n_panels */
  guint n_panels;
  /* The grab: a place on the paper that the pointer holds. */
  guint grab_step, grab_panel;
  double grab_fraction;
  CwVec3 grab_flat;
};

void cw_card_scene_pose (CwCardScene *scene, guint step, double fraction, CwPose *pose);

/* One drawing of the card. */
typedef struct
{
  CwDrawList *list;
  CwCardScene *scene;
  const CwCamera *camera;
  const CwCardLook *look;
  CwRigid view;
} CwCardPlay;

/* Where flat places of a panel come to on the output, and those of the view itself. */
static inline CwFlat
cw_card_get_flat (const CwCardPlay *play, const CwRigid *place)
{
  double scale = play->camera->scale;
  const CwFlat view = { scale, 0, play->camera->x, 0, scale, play->camera->y };

  return place != NULL ? cw_flat_of_place (&view, place) : view;
}

static inline CwFace
cw_card_face (const CwRigid *place)
{
  return place->r[2][2] >= 0 ? CW_FACE_FRONT : CW_FACE_BACK;
}

double cw_card_shade (const CwRigid *place);
guint32 cw_card_ground (const CwCardPlay *play, guint index, const CwRigid *place);
void cw_card_draw_glue_map (const CwCardPlay *play, guint panel, const CwFlat *flat, CwFace face);
/* Where panels pierce one another: the part of one that is to be painted, and the edges it has there. */
guint cw_card_clip (const CwCardPlay *play, const CwPaint *paint);
void cw_card_draw_piercing (const CwCardPlay *play, const CwPaint *paint);
void cw_card_draw_names (const CwCardPlay *play, const CwPaint *paints, guint n);

G_END_DECLS
