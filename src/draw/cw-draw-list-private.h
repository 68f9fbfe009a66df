/* cw-draw-list-private.h: how a draw list keeps its items; for the list, its player and their tests.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "cw-draw-list.h"

G_BEGIN_DECLS

typedef enum
{
  CW_OP_MOVE,
  CW_OP_LINE,
  CW_OP_ARC, /* centre v[0], v[1]; radius v[2]; from angle v[3] by v[4] radians, positive from x to y */
  CW_OP_CLOSE,
} CwOpKind;

typedef struct
{
  CwOpKind kind;
  double v[5];
} CwOp;

typedef struct
{
  CwPen pen;
  CwId id;
  gboolean has_colour;
  guint32 colour, ground;
  double shade;
  guint first_op, n_ops;
  /* Words: an offset into `words`, or G_MAXUINT for a path. */
  guint text;
  double x, y, size, angle_deg;
  CwAnchor anchor;
} CwItem;

struct CwDrawList
{
  GArray *items; /* of CwItem */
  GArray *ops;   /* of CwOp */
  GString *words;
  guint32 ground;
  gboolean open; /* between begin and end */
  double x, y;   /* where the path stands */
  double start_x, start_y;
};

/* Total length of an item's path; sets `one` to TRUE when it is a single open stroke. */
double cw_item_get_length (const CwDrawList *list, const CwItem *item, gboolean *one);

G_END_DECLS
