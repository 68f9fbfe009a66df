// referee.cc: the other library: Boost.Geometry, overlay by its own turn-based method in doubles, not GEOS.
//
// Panels between straight chords are found in another way altogether: the sheet is cut by each chord's line into the
// parts on its two sides, one after the other, and the windows are taken out at the end. What lies behind a sheet is
// found by taking sheet after sheet, nearest first, out of what is still to be seen; the kernel overlays all at once.
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

static Multi
laid_paper (const RefereeLaid &sheet)
{
  auto placed = [&] (RefereeRing ring) {
    Polygon polygon;

    for (unsigned i = 0; i < ring.n; i++)
      bg::append (polygon.outer (), Point (sheet.sx * ring.xy[2 * i] + sheet.tx, ring.xy[2 * i + 1]));
    bg::correct (polygon);
    return polygon;
  };
  Multi paper{ placed (sheet.outline) };

  for (unsigned w = 0; w < sheet.n_windows; w++)
    {
      Multi less;

      bg::difference (paper, placed (sheet.windows[w]), less);
      paper = less;
    }
  return paper;
}

template <typename Join>
static double
kept_away (const Multi &safe, const Multi &other, double hand, Join join)
{
  Multi wide, left;

  bg::buffer (other, wide, bg::strategy::buffer::distance_symmetric<double> (hand),
              bg::strategy::buffer::side_straight (), join, bg::strategy::buffer::end_flat (),
              bg::strategy::buffer::point_square ());
  bg::difference (safe, wide, left);
  return bg::area (left);
}

void
referee_safe (const RefereeLaid *own, unsigned n_states, const unsigned *n_laid, const RefereeLaid *laid, double hand,
              double areas[4])
{
  const Multi face = laid_paper (*own);
  Multi safe = face, never, other;

  auto join = [] (Multi &to, const Multi &more) {
    Multi both;

    bg::union_ (to, more, both);
    to = both;
  };

  for (unsigned state = 0; state < n_states; state++)
    {
      Multi open = face, held;

      for (unsigned i = 0; i < n_laid[state]; i++, laid++)
        {
          const Multi paper = laid_paper (*laid);
          Multi seen, left;

          bg::intersection (open, paper, seen);
          bg::difference (open, paper, left);
          open = left;
          join (laid->host ? held : never, seen);
        }
      // Past everything there is air.
      join (other, open);
      Multi both;
      bg::intersection (safe, held, both);
      safe = both;
    }
  areas[0] = bg::area (safe);
  areas[1] = bg::area (never);
  areas[2] = areas[3] = 0;
  if (hand > 0)
    {
      join (other, never);
      areas[2] = kept_away (safe, other, hand, bg::strategy::buffer::join_round (64));
      areas[3] = kept_away (safe, other, hand, bg::strategy::buffer::join_miter (10));
    }
}
