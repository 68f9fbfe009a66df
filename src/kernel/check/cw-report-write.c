/* cw-report-write.c: numbers, texts and outlines as the report writes them.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "check/cw-report-private.h"

/**
 * cw_report_inches:
 *
 * Returns: ticks in inches, rounded as the report rounds
 */
double
cw_report_inches (double ticks)
{
  return cw_report_rounded (cw_ticks_to_inch (ticks));
}

/**
 * cw_report_set:
 *
 * Sets a rounded number.
 */
void
cw_report_set (JsonObject *object, const char *key, double number)
{
  json_object_set_double_member (object, key, cw_report_rounded (number));
}

/**
 * cw_report_pair:
 *
 * Returns: (transfer full): two numbers, as they are
 */
JsonArray *
cw_report_pair (double x, double y)
{
  JsonArray *pair = json_array_sized_new (2);

  json_array_add_double_element (pair, x);
  json_array_add_double_element (pair, y);
  return pair;
}

/**
 * cw_report_strings:
 *
 * Returns: (transfer full): a list of texts
 */
JsonArray *
cw_report_strings (const GPtrArray *strings)
{
  JsonArray *list = json_array_sized_new (strings->len);

  for (guint i = 0; i < strings->len; i++)
    json_array_add_string_element (list, g_ptr_array_index (strings, i));
  return list;
}

/**
 * cw_report_corners:
 * @outline: a polygon, ticks
 * @place: (nullable): where it lies in space; flat if %NULL
 *
 * Returns: (transfer full): its rings in inches
 */
JsonArray *
cw_report_corners (const CwPolygon *outline, const CwRigid *place)
{
  JsonArray *rings = json_array_sized_new (outline->n_rings);

  for (guint i = 0; i < outline->n_rings; i++)
    {
      const CwRing *ring = &outline->rings[i];
      JsonArray *points = json_array_sized_new (ring->n_points);

      for (guint k = 0; k < ring->n_points; k++)
        {
          CwVec3 p = cw_vec3 (ring->points[k].x, ring->points[k].y, 0);
          JsonArray *point;

          if (place)
            p = cw_rigid_apply (place, p);
          point = cw_report_pair (cw_report_inches (p.x), cw_report_inches (p.y));
          if (place)
            json_array_add_double_element (point, cw_report_inches (p.z));
          json_array_add_array_element (points, point);
        }
      json_array_add_array_element (rings, points);
    }
  return rings;
}
