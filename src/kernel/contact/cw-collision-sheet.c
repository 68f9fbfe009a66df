/* cw-collision-sheet.c: shrinks a panel by a hair and opens its slits, so that paper which only touches is not taken
 * for paper that collides.
 *
 * Edges that two panels share, fold lines above all, come apart by the hairs of both. A slit inside a panel bounds
 * nothing in the flat drawing; here it becomes a narrow opening two hairs wide, so that what swings through it passes.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "contact/cw-collision-sheet.h"

#include "geometry/cw-tolerance.h"
#include "geometry/cw-vector.h"
#include "panel/cw-path-flatten.h"

/* The strip of half width `hair` round a stretch of a slit, longer by a hair at both ends. */
static gboolean
strip_round (CwPoint a, CwPoint b, double hair, CwRegion *strip)
{
  g_autoptr (GArray) points = g_array_new (FALSE, FALSE, sizeof (CwPoint));
  double dx = (double) b.x - a.x, dy = (double) b.y - a.y, length = hypot (dx, dy);
  static const double along[4] = { -1, 1, 1, -1 }, across[4] = { -1, -1, 1, 1 };

  if (length < 1)
    return FALSE;
  dx *= hair / length;
  dy *= hair / length;
  for (guint i = 0; i < 4; i++)
    {
      const CwPoint *end = along[i] < 0 ? &a : &b;
      CwPoint corner = cw_point ((gint32) lround (end->x + along[i] * dx - across[i] * dy),
                                 (gint32) lround (end->y + along[i] * dy + across[i] * dx));

      g_array_append_val (points, corner);
    }
  {
    CwPolygon polygon = cw_polygon_from_points (points);

    *strip = cw_region_from_polygon (&polygon);
    cw_polygon_clear (&polygon);
  }
  return TRUE;
}

/* Does a stretch of a cut run through the shrunk panel, not only along its edge? Looked at in a few places: shorter
 * runs than that leave no room for paper. */
static gboolean
runs_through (const CwRegion *region, CwPoint a, CwPoint b)
{
  const int n = 16;

  for (int i = 1; i < n; i++)
    for (guint k = 0; k < region->n_polygons; k++)
      if (cw_polygon_contains (&region->polygons[k], a.x + ((double) b.x - a.x) * i / n,
                               a.y + ((double) b.y - a.y) * i / n))
        return TRUE;
  return FALSE;
}

static void
open_slits (const CwPanelSet *set, guint index, double hair, CwRegion *region)
{
  guint piece, panel;
  const GPtrArray *marks;

  cw_panel_set_locate (set, index, &piece, &panel);
  marks = set->maps[piece].piece->marks;
  for (guint i = 0; i < marks->len; i++)
    {
      const CwMark *mark = g_ptr_array_index (marks, i);
      g_autoptr (GArray) points = mark->kind == CW_MARK_CUT ? cw_mark_flatten (mark) : NULL;

      for (guint k = 0; points && k + 1 < points->len; k++)
        {
          CwPoint a = g_array_index (points, CwPoint, k), b = g_array_index (points, CwPoint, k + 1);
          CwRegion strip, opened;

          if (!runs_through (region, a, b) || !strip_round (a, b, hair, &strip))
            continue;
          opened = cw_region_overlay (region, &strip, CW_OVERLAY_DIFFERENCE);
          cw_region_clear (&strip);
          cw_region_clear (region);
          *region = opened;
        }
    }
}

/**
 * cw_collision_sheet_new:
 * @set: all panels
 * @panel: a panel, through the design
 * @hair_ticks: how much every edge moves inward
 *
 * Returns: (transfer full): the panel less a hair; without corners where it is narrower than two hairs
 */
CwCollisionSheet *
cw_collision_sheet_new (const CwPanelSet *set, guint panel, gint32 hair_ticks)
{
  CwCollisionSheet *sheet = g_new0 (CwCollisionSheet, 1);
  CwRegion whole = cw_region_from_polygon (&cw_panel_set_get_panel (set, panel)->outline);
  CwRegion region = cw_region_grow (&whole, -hair_ticks);
  guint n = 0;

  open_slits (set, panel, hair_ticks, &region);
  for (guint i = 0; i < region.n_polygons; i++)
    for (guint k = 0; k < region.polygons[i].n_rings; k++)
      n += region.polygons[i].rings[k].n_points;
  sheet->x = g_new0 (double, n + 1);
  sheet->y = g_new0 (double, n + 1);
  sheet->next = g_new0 (guint, n + 1);
  for (guint i = 0; i < region.n_polygons; i++)
    for (guint k = 0; k < region.polygons[i].n_rings; k++)
      {
        const CwRing *ring = &region.polygons[i].rings[k];
        guint first = sheet->n_corners;

        for (guint m = 0; m < ring->n_points; m++)
          {
            sheet->x[first + m] = ring->points[m].x;
            sheet->y[first + m] = ring->points[m].y;
            sheet->next[first + m] = first + (m + 1) % ring->n_points;
          }
        sheet->n_corners += ring->n_points;
      }
  for (guint i = 0; i < sheet->n_corners; i++)
    {
      sheet->box[0] = i == 0 ? sheet->x[i] : MIN (sheet->box[0], sheet->x[i]);
      sheet->box[1] = i == 0 ? sheet->y[i] : MIN (sheet->box[1], sheet->y[i]);
      sheet->box[2] = i == 0 ? sheet->x[i] : MAX (sheet->box[2], sheet->x[i]);
      sheet->box[3] = i == 0 ? sheet->y[i] : MAX (sheet->box[3], sheet->y[i]);
    }
  cw_region_clear (&region);
  cw_region_clear (&whole);
  return sheet;
}

/**
 * cw_collision_sheet_free:
 * @sheet: (transfer full) (nullable): a sheet
 */
void
cw_collision_sheet_free (CwCollisionSheet *sheet)
{
  if (sheet == NULL)
    return;
  g_free (sheet->x);
  g_free (sheet->y);
  g_free (sheet->next);
  g_free (sheet);
}

/**
 * cw_collision_sheet_contains:
 * @sheet: a sheet
 * @x: ticks
 * @y: ticks
 *
 * Returns: %TRUE if the point lies on the paper (even-odd rule over all rings)
 */
gboolean
cw_collision_sheet_contains (const CwCollisionSheet *sheet, double x, double y)
{
  gboolean inside = FALSE;

  if (x <= sheet->box[0] || x >= sheet->box[2] || y <= sheet->box[1] || y >= sheet->box[3])
    return FALSE;
  for (guint i = 0; i < sheet->n_corners; i++)
    {
      guint k = sheet->next[i];

      if ((sheet->y[i] > y) != (sheet->y[k] > y)
          && x < sheet->x[i] + (y - sheet->y[i]) / (sheet->y[k] - sheet->y[i]) * (sheet->x[k] - sheet->x[i]))
        inside = !inside;
    }
  return inside;
}

/**
 * cw_collision_sheet_edge_distance:
 * @sheet: a sheet
 * @x: ticks
 * @y: ticks
 *
 * Returns: how far the point is from the nearest edge, ticks
 */
double
cw_collision_sheet_edge_distance (const CwCollisionSheet *sheet, double x, double y)
{
  double least = G_MAXDOUBLE;

  for (guint i = 0; i < sheet->n_corners; i++)
    {
      guint k = sheet->next[i];
      double dx = sheet->x[k] - sheet->x[i], dy = sheet->y[k] - sheet->y[i], square = dx * dx + dy * dy;
      double px = x - sheet->x[i], py = y - sheet->y[i];
      double share = square > 0 ? CLAMP ((px * dx + py * dy) / square, 0, 1) : 0;

      px -= share * dx;
      py -= share * dy;
      least = MIN (least, px * px + py * py);
    }
  return sqrt (least);
}
