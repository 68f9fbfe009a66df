/* random-sheet.h: random drawings for laws and referees, and what is done to them: mirror, turn, reorder.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "panel/cw-panel-map.h"

typedef struct
{
  CwMarkKind kind;
  CwFoldWay fold;
  guint n;
  CwPoint points[5]; /* windows: closed */
} RandomMark;

typedef struct
{
  CwPoint size;
  guint n_marks;
  RandomMark marks[64];
} RandomSheet;

static inline gint32
random_on_grid (GRand *rand, gint32 low, gint32 high, gint32 step)
{
  return g_rand_int_range (rand, low / step, high / step + 1) * step;
}

/* Marks of all sorts on a grid of `step` ticks, a tenth of their ends a little off the sheet. */
static inline RandomSheet
random_sheet (GRand *rand, guint n_marks, gint32 step)
{
  RandomSheet sheet = { { 160 * 508, 112 * 508 }, n_marks, { { 0 } } };

  for (guint i = 0; i < n_marks; i++)
    {
      RandomMark *mark = &sheet.marks[i];
      gint32 over = g_rand_int_range (rand, 0, 10) == 0 ? 8 * 508 : 0;

      mark->kind = (CwMarkKind) (g_rand_int_range (rand, 0, 9) % 4 % 3);
      mark->fold = (CwFoldWay) g_rand_int_range (rand, 0, 2);
      mark->n = mark->kind == CW_MARK_WINDOW ? 3 : (guint) g_rand_int_range (rand, 2, 4);
      for (guint k = 0; k < mark->n; k++)
        {
          /* Half of the ends lie on an edge of the sheet. */
          gint32 x = random_on_grid (rand, -over, sheet.size.x + over, step);
          gint32 y = random_on_grid (rand, -over, sheet.size.y + over, step);

          switch (g_rand_int_range (rand, 0, 8))
            {
            case 0:
              x = 0;
              break;
            case 1:
              x = sheet.size.x;
              break;
            case 2:
              y = 0;
              break;
            case 3:
              y = sheet.size.y;
              break;
            default:
              break;
            }
          mark->points[k] = cw_point (x, y);
        }
    }
  return sheet;
}

static inline CwDesign *
random_sheet_design (const RandomSheet *sheet)
{
  CwDesign *design = cw_design_new ();
  CwPiece *piece = cw_piece_new ();
  CwPoint corners[4] = { { 0, 0 }, { sheet->size.x, 0 }, sheet->size, { 0, sheet->size.y } };

  if (design->head == NULL)
    design->head = cw_head_new ();
  design->head->snap_ticks = 0;
  piece->id = g_strdup ("base");
  for (int i = 0; i < 4; i++)
    cw_path_append (&piece->outline, cw_place_from_point (corners[i], CW_UNIT_INCH), FALSE);
  for (guint i = 0; i < sheet->n_marks; i++)
    {
      CwMark *mark = cw_mark_new ();

      mark->id = g_strdup_printf ("m%u", i);
      mark->kind = sheet->marks[i].kind;
      mark->fold = sheet->marks[i].fold;
      for (guint k = 0; k < sheet->marks[i].n; k++)
        cw_path_append (&mark->line, cw_place_from_point (sheet->marks[i].points[k], CW_UNIT_INCH), FALSE);
      g_ptr_array_add (piece->marks, mark);
    }
  g_ptr_array_add (design->pieces, piece);
  return design;
}

static inline RandomSheet
random_sheet_mirror (const RandomSheet *from)
{
  RandomSheet to = *from;

  for (guint i = 0; i < to.n_marks; i++)
    for (guint k = 0; k < to.marks[i].n; k++)
      to.marks[i].points[k].x = from->size.x - from->marks[i].points[k].x;
  return to;
}

static inline RandomSheet
random_sheet_turn (const RandomSheet *from)
{
  RandomSheet to = *from;

  to.size = cw_point (from->size.y, from->size.x);
  for (guint i = 0; i < to.n_marks; i++)
    for (guint k = 0; k < to.marks[i].n; k++)
      to.marks[i].points[k] = cw_point (from->size.y - from->marks[i].points[k].y, from->marks[i].points[k].x);
  return to;
}

static inline RandomSheet
random_sheet_reorder (const RandomSheet *from)
{
  RandomSheet to = *from;

  for (guint i = 0; i < to.n_marks; i++)
    {
      to.marks[i] = from->marks[to.n_marks - 1 - i];
      for (guint k = 0; k < to.marks[i].n; k++)
        to.marks[i].points[k] = from->marks[to.n_marks - 1 - i].points[to.marks[i].n - 1 - k];
    }
  return to;
}
