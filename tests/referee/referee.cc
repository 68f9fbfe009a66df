// referee.cc: the other library: Boost.Geometry, overlay by its own turn-based method in doubles, not GEOS.
//
// Panels between straight chords are found in another way altogether: the sheet is cut by each chord's line into the
// parts on its two sides, one after the other, and the windows are taken out at the end.
//
// SPDX-License-Identifier: GPL-3.0-or-later
#include "referee.h"

#include <algorithm>
#include <vector>

#include <boost/geometry.hpp>
#include <boost/geometry/geometries/multi_polygon.hpp>
#include <boost/geometry/geometries/point_xy.hpp>
#include <boost/geometry/geometries/polygon.hpp>

namespace bg = boost::geometry;
using Point = bg::model::d2::point_xy<double>;
using Polygon = bg::model::polygon<Point>;
using Multi = bg::model::multi_polygon<Polygon>;

static Polygon
polygon_of (RefereeRing ring)
{
  Polygon polygon;

  for (unsigned i = 0; i < ring.n; i++)
    bg::append (polygon.outer (), Point (ring.xy[2 * i], ring.xy[2 * i + 1]));
  bg::correct (polygon);
  return polygon;
}

// The half of the plane on one side of a line, as far as any sheet reaches.
static Polygon
half_plane (const double *chord, double side)
{
  const double reach = 4e6;
  double dx = chord[2] - chord[0], dy = chord[3] - chord[1], length = std::hypot (dx, dy);
  double ux = dx / length * reach, uy = dy / length * reach;
  double nx = -uy * side, ny = ux * side;
  double xy[8] = { chord[0] - ux,      chord[1] - uy,      chord[0] + ux,      chord[1] + uy,
                   chord[0] + ux + nx, chord[1] + uy + ny, chord[0] - ux + nx, chord[1] - uy + ny };

  return polygon_of (RefereeRing{ 4, xy });
}

unsigned
referee_parts (RefereeRing sheet, unsigned n_chords, const double *chords, unsigned n_windows,
               const RefereeRing *windows, double *areas, unsigned max)
{
  std::vector<Polygon> parts{ polygon_of (sheet) };
  std::vector<double> found;

  for (unsigned c = 0; c < n_chords; c++)
    {
      std::vector<Polygon> cut;

      for (double side : { 1.0, -1.0 })
        for (const Polygon &part : parts)
          {
            Multi pieces;

            bg::intersection (part, half_plane (chords + 4 * c, side), pieces);
            cut.insert (cut.end (), pieces.begin (), pieces.end ());
          }
      parts = cut;
    }
  for (const Polygon &part : parts)
    {
      Multi left{ part };

      for (unsigned w = 0; w < n_windows; w++)
        {
          Multi less;

          bg::difference (left, polygon_of (windows[w]), less);
          left = less;
        }
      for (const Polygon &piece : left)
        found.push_back (bg::area (piece));
    }
  std::sort (found.begin (), found.end (), std::greater<double> ());
  for (unsigned i = 0; i < std::min<size_t> (found.size (), max); i++)
    areas[i] = found[i];
  return static_cast<unsigned> (std::min<size_t> (found.size (), max));
}

double
referee_overlay (RefereeRing a, RefereeRing b, int what)
{
  Polygon one = polygon_of (a), two = polygon_of (b);
  Multi result;

  if (what == 0)
    bg::intersection (one, two, result);
  else if (what == 1)
    bg::union_ (one, two, result);
  else
    bg::difference (one, two, result);
  return bg::area (result);
}
