/* cw-template-private.h: a piece as it stands on a template; of the templates only.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "cw-draw-sheet-private.h"
#include "cw-template.h"

G_BEGIN_DECLS

#define CW_TEMPLATE_SCALE (72.0 / CW_TICKS_PER_INCH)
#define CW_TEMPLATE_MM (72.0 / 25.4)
/* Points: letters; how far off the paper's edge the tick of a crease ends. */
#define CW_TEMPLATE_LETTERS 10.0
#define CW_TEMPLATE_TICK_TO (3 * CW_TEMPLATE_MM)

/* One piece as it is printed: its lying box at 0, 0. */
typedef struct
{
  CwDrawList *list;
  const CwPiece *piece;
  const CwPanelMap *map;
  CwLying lying;
  double width, height; /* points, of the paper */
  double head;          /* room for the words above it */
  gboolean on_side;     /* on pages that lie on their side */
  guint columns, rows;  /* tiles */
  double room;          /* height for the piece on a page */
  guint pens;           /* mask of 1 << CwPen of what its lines mean */
} CwTemplatePiece;

void cw_template_draw_piece (const CwTemplatePiece *sheet, const CwDesign *design, guint *pens);
void cw_template_draw_names (const CwTemplatePiece *sheet, CwDrawList *list, const double part[4], double dx,
                             double dy);

G_END_DECLS
