/* arms.h: random chains of panels on a random plate, as a design in motion and as sheets for the referee.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "card-fixture.h"
#include "collision-referee.h"

#define MOST_ARMS 3
#define MOST_PANELS 5 /* of an arm, its foot among them */
#define MOST_SHAPES (1 + MOST_ARMS * MOST_PANELS)
#define MOST_CORNERS 64
/* The program draws in by one and two hairs of 32 ticks and leaves a band of 4 undecided. */
#define DRAWN_IN 100.0
#define S64 127 /* ticks in 1/64 in */

typedef struct
{
  guint arm, k; /* k: 0 on the plate */
  guint n, n_hole;
  double xy[2 * MOST_CORNERS], hole[2 * MOST_CORNERS], slit[4], in[2];
  gboolean has_slit;
  RefereeSheet *whole, *less;
} Shape;

typedef struct
{
  guint n_arms, n_shapes, first_move;
  Shape shapes[MOST_SHAPES];
  guint n_links[MOST_ARMS];
  double links[MOST_ARMS][MOST_PANELS][4];
  int start[MOST_ARMS][MOST_PANELS], to[2][MOST_ARMS][MOST_PANELS];
  int at[MOST_ARMS][2], turn[MOST_ARMS];
  gboolean behind[MOST_ARMS];
  CwMotion *motion;
  guint panels[MOST_SHAPES];
} Plate;

/* A random plate with its motion and sheets: every arm is folded up and laid on it, then two moves (steps `first_move`
 * and the next) turn all fold lines at once. */
void plate_make (GRand *rand, Plate *plate, guint most_arms, gboolean openings);
/* Motion and sheets anew, once the shapes were changed. */
void plate_make_motion (Plate *plate);
void plate_clear (Plate *plate);
