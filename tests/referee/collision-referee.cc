// collision-referee.cc: the Flexible Collision Library: triangle meshes in trees of oriented boxes, one pose at a time.
//
// It knows nothing of folds, of motion or of sides: whether two sheets cut one another at a moment, and how far they
// are apart, is all that is asked of it. Sheets with holes are drawn in and cut into triangles by GEOS.
//
// SPDX-License-Identifier: GPL-3.0-or-later
#include "collision-referee.h"

#include <vector>

#include <fcl/geometry/bvh/BVH_model.h>
#include <fcl/narrowphase/collision.h>
#include <fcl/narrowphase/distance.h>
#include <geos_c.h>

using Model = fcl::BVHModel<fcl::OBBRSS<double> >;

struct RefereeSheet
{
  Model model;
};

RefereeSheet *
referee_sheet_new (unsigned n, const double *corners)
{
  auto *sheet = new RefereeSheet;
  std::vector<fcl::Vector3<double> > points;
  std::vector<fcl::Triangle> triangles;

  for (unsigned i = 0; i < 3 * n; i++)
    points.emplace_back (corners[2 * i], corners[2 * i + 1], 0.0);
  for (unsigned i = 0; i < n; i++)
    triangles.emplace_back (3 * i, 3 * i + 1, 3 * i + 2);
  sheet->model.beginModel ();
  sheet->model.addSubModel (points, triangles);
  sheet->model.endModel ();
  return sheet;
}

static GEOSGeometry *
polygon_of (GEOSContextHandle_t h, unsigned n, const double *xy)
{
  GEOSCoordSequence *points = GEOSCoordSeq_create_r (h, n + 1, 2);

  for (unsigned i = 0; i <= n; i++)
    GEOSCoordSeq_setXY_r (h, points, i, xy[2 * (i % n)], xy[2 * (i % n) + 1]);
  return GEOSGeom_createPolygon_r (h, GEOSGeom_createLinearRing_r (h, points), nullptr, 0);
}

static void
take_out (GEOSContextHandle_t h, GEOSGeometry *&from, GEOSGeometry *what)
{
  GEOSGeometry *left = GEOSDifference_r (h, from, what);

  GEOSGeom_destroy_r (h, from);
  GEOSGeom_destroy_r (h, what);
  from = left;
}

RefereeSheet *
referee_sheet_drawn_in (unsigned n, const double *outline, unsigned n_holes, const unsigned *hole_sizes,
                        const double *holes, unsigned n_slits, const double *slits, double by)
{
  GEOSContextHandle_t h = GEOS_init_r ();
  GEOSGeometry *paper = polygon_of (h, n, outline), *triangles;
  std::vector<double> corners;

  for (unsigned i = 0; i < n_holes; holes += 2 * hole_sizes[i++])
    take_out (h, paper, polygon_of (h, hole_sizes[i], holes));
  if (by > 0)
    {
      GEOSGeometry *less = GEOSBufferWithStyle_r (h, paper, -by, 8, GEOSBUF_CAP_FLAT, GEOSBUF_JOIN_MITRE, 5);

      GEOSGeom_destroy_r (h, paper);
      paper = less;
      for (unsigned i = 0; i < n_slits; i++)
        {
          GEOSCoordSequence *points = GEOSCoordSeq_create_r (h, 2, 2);
          GEOSGeometry *line;

          for (unsigned e = 0; e < 2; e++)
            GEOSCoordSeq_setXY_r (h, points, e, slits[4 * i + 2 * e], slits[4 * i + 2 * e + 1]);
          line = GEOSGeom_createLineString_r (h, points);
          take_out (h, paper, GEOSBuffer_r (h, line, by, 8));
          GEOSGeom_destroy_r (h, line);
        }
    }
  triangles = GEOSConstrainedDelaunayTriangulation_r (h, paper);
  for (int i = 0; i < GEOSGetNumGeometries_r (h, triangles); i++)
    {
      const GEOSGeometry *ring = GEOSGetExteriorRing_r (h, GEOSGetGeometryN_r (h, triangles, i));
      const GEOSCoordSequence *points = GEOSGeom_getCoordSeq_r (h, ring);

      for (unsigned k = 0; k < 3; k++)
        {
          double x, y;

          GEOSCoordSeq_getXY_r (h, points, k, &x, &y);
          corners.push_back (x);
          corners.push_back (y);
        }
    }
  GEOSGeom_destroy_r (h, triangles);
  GEOSGeom_destroy_r (h, paper);
  GEOS_finish_r (h);
  return referee_sheet_new (static_cast<unsigned> (corners.size () / 6), corners.data ());
}

void
referee_sheet_free (RefereeSheet *sheet)
{
  delete sheet;
}

static fcl::Transform3<double>
transform_of (const double *place)
{
  fcl::Transform3<double> t = fcl::Transform3<double>::Identity ();

  for (int r = 0; r < 3; r++)
    {
      for (int c = 0; c < 3; c++)
        t.linear () (r, c) = place[3 * r + c];
      t.translation () (r) = place[9 + r];
    }
  return t;
}

int
referee_sheets_meet (const RefereeSheet *a, const double *place_a, const RefereeSheet *b, const double *place_b)
{
  fcl::CollisionRequest<double> request;
  fcl::CollisionResult<double> result;

  return fcl::collide (&a->model, transform_of (place_a), &b->model, transform_of (place_b), request, result) > 0;
}

double
referee_sheets_apart (const RefereeSheet *a, const double *place_a, const RefereeSheet *b, const double *place_b)
{
  fcl::DistanceRequest<double> request;
  fcl::DistanceResult<double> result;

  if (referee_sheets_meet (a, place_a, b, place_b))
    return 0;
  return fcl::distance (&a->model, transform_of (place_a), &b->model, transform_of (place_b), request, result);
}
