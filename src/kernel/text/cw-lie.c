/* cw-lie.c: turns measures between a piece's own front coordinates and the piece as it lies on the table.
 *
 * Half turns about the vertical and quarter turns of the bounding box, exact in integers. A length that moves to the
 * other axis unchanged keeps its text; one that is measured from the other edge is ticks in its own unit.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "text/cw-lie.h"

#include "panel/cw-path-flatten.h"

/**
 * cw_lying_new:
 *
 * Returns: the box of @piece as it lies
 */
CwLying
cw_lying_new (const CwPiece *piece, CwLie lie)
{
  CwLying lying = { .lie = { lie.quarter_turns % 4, lie.flipped } };

  cw_piece_get_box (piece, &lying.min, &lying.max);
  lying.width = lying.max.x - lying.min.x;
  lying.height = lying.max.y - lying.min.y;
  if (lying.lie.quarter_turns % 2)
    {
      gint32 width = lying.width;
      lying.width = lying.height;
      lying.height = width;
    }
  return lying;
}

/* `from` minus `length`, as a measure from the other edge. */
static CwLength
measure_back (gint32 from, CwLength length)
{
  return cw_length_from_ticks (from - length.ticks, length.unit);
}

static CwLength
shift (CwLength length, gint32 by)
{
  return by == 0 ? length : cw_length_from_ticks (length.ticks + by, length.unit);
}

/**
 * cw_lying_place_from_piece:
 * @place: in the piece's front coordinates
 *
 * Returns: the same place as measured from guide and ruler
 */
CwPlace
cw_lying_place_from_piece (const CwLying *lying, CwPlace place)
{
  gint32 across = lying->max.x - lying->min.x;
  gint32 down = lying->max.y - lying->min.y;
  CwLength u = shift (place.x, -lying->min.x);
  CwLength v = shift (place.y, -lying->min.y);

  if (lying->lie.flipped)
    u = measure_back (across, u);
  for (guint i = 0; i < lying->lie.quarter_turns; i++)
    {
      CwLength old_u = u;
      gint32 old_across = across;

      u = measure_back (down, v);
      v = old_u;
      across = down;
      down = old_across;
    }
  return (CwPlace){ u, v };
}

/**
 * cw_lying_place_to_piece:
 * @place: as measured from guide and ruler
 *
 * Returns: the same place in the piece's front coordinates
 */
CwPlace
cw_lying_place_to_piece (const CwLying *lying, CwPlace place)
{
  gint32 across = lying->width;
  gint32 down = lying->height;
  CwLength u = place.x;
  CwLength v = place.y;

  for (guint i = 0; i < lying->lie.quarter_turns; i++)
    {
      CwLength old_u = u;
      gint32 old_across = across;

      u = v;
      v = measure_back (across, old_u);
      across = down;
      down = old_across;
    }
  if (lying->lie.flipped)
    u = measure_back (across, u);
  return (CwPlace){ shift (u, lying->min.x), shift (v, lying->min.y) };
}

/**
 * cw_lying_from_piece:
 *
 * Returns: cw_lying_place_from_piece() for plain ticks
 */
CwPoint
cw_lying_from_piece (const CwLying *lying, CwPoint point)
{
  CwPlace place = cw_lying_place_from_piece (lying, cw_place_from_point (point, CW_UNIT_INCH));

  return cw_place_get_point (&place);
}

/**
 * cw_lying_to_piece:
 *
 * Returns: cw_lying_place_to_piece() for plain ticks
 */
CwPoint
cw_lying_to_piece (const CwLying *lying, CwPoint point)
{
  CwPlace place = cw_lying_place_to_piece (lying, cw_place_from_point (point, CW_UNIT_INCH));

  return cw_place_get_point (&place);
}
