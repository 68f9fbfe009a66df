/* cw-card-scene.h: what a view of the folded card keeps between frames; for the folded card's own files.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "cw-depth.h"
#include "cw-draw-card.h"

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

G_END_DECLS
