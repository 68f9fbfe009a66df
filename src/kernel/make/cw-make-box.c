/* cw-make-box.c: boxes round marks and pieces, and whether a mark lies on its sheet.
 *
 * A mark's box is that of the places it is drawn by, not of its curves: see cw-make-arrange.c.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "make/cw-make-private.h"

#include "panel/cw-path-flatten.h"

/**
 * cw_make_box_of_mark:
 * @box: (inout): grown by the places the mark is drawn by
 */
void
cw_make_box_of_mark (const CwMark *mark, CwMakeBox *box)
{
  if (mark->shape == CW_SHAPE_CIRCLE)
    {
      CwPoint c = cw_place_get_point (&mark->centre);
      gint32 r = mark->radius.ticks;

      cw_make_box_add (box, cw_point (c.x - r, c.y - r));
      cw_make_box_add (box, cw_point (c.x + r, c.y + r));
      return;
    }
  for (guint i = 0; i < mark->line.n_vertices; i++)
    cw_make_box_add (box, cw_place_get_point (&mark->line.vertices[i].at));
}

/**
 * cw_make_box_add:
 * @box: (inout): grown to hold @p
 */
void
cw_make_box_add (CwMakeBox *box, CwPoint p)
{
  box->low = box->some ? cw_point (MIN (box->low.x, p.x), MIN (box->low.y, p.y)) : p;
  box->high = box->some ? cw_point (MAX (box->high.x, p.x), MAX (box->high.y, p.y)) : p;
  box->some = TRUE;
}

/**
 * cw_make_box_of_piece:
 *
 * Returns: the box round the paper of @piece
 */
CwMakeBox
cw_make_box_of_piece (const CwPiece *piece)
{
  CwMakeBox box;

  box.some = cw_piece_get_box (piece, &box.low, &box.high);
  return box;
}

/**
 * cw_make_mark_on_sheet:
 *
 * Returns: whether all of the mark, its arcs too, lies within the box round the paper
 */
gboolean
cw_make_mark_on_sheet (const CwPiece *piece, const CwMark *mark)
{
  CwMakeBox sheet = cw_make_box_of_piece (piece), box = { .some = FALSE };
  g_autoptr (GArray) points = cw_mark_flatten (mark);

  for (guint i = 0; i < points->len && mark->shape != CW_SHAPE_CIRCLE; i++)
    cw_make_box_add (&box, g_array_index (points, CwPoint, i));
  cw_make_box_of_mark (mark, &box);
  return box.low.x >= sheet.low.x && box.low.y >= sheet.low.y && box.high.x <= sheet.high.x
         && box.high.y <= sheet.high.y;
}
