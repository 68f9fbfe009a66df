// collision-referee.cc: the Flexible Collision Library: triangle meshes in trees of oriented boxes, one pose at a time.
//
// It knows nothing of folds, of motion or of sides: whether two sheets cut one another at a moment, and how far they
// are apart, is all that is asked of it.
//
// SPDX-License-Identifier: GPL-3.0-or-later
#include "collision-referee.h"

#include <vector>

#include <fcl/geometry/bvh/BVH_model.h>
#include <fcl/narrowphase/collision.h>
#include <fcl/narrowphase/distance.h>

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
