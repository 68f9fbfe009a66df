/* cw-drawing-strips.c: panels too narrow to cut and fold by hand.
 *
 * A panel that bulges nowhere inward is measured across (the least distance between parallel lines that hold it). Other
 * panels are shrunk and grown again (morphological opening,
 * J. Serra, "Image analysis and mathematical morphology", 1982): what does not come back is narrow. Mitred corners come
 * back, so that a pointed flap is no strip. The width is then found by halving. Strips of just the house value are
 * meant and are no fault.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "panel/cw-drawing-fault.h"

#include "cw-config.h"
#include "geometry/cw-house.h"
#include "geometry/cw-tolerance.h"

#include <glib/gi18n-lib.h>
#include <math.h>

typedef struct
{
  double width; /* ticks */
  CwPoint at;
} Narrow;

static gboolean
is_convex (const CwPolygon *polygon)
{
  const CwRing *ring = &polygon->rings[0];

  if (polygon->n_rings > 1)
    return FALSE;
  for (guint i = 0, n = ring->n_points; i < n; i++)
    if (cw_point_orient (ring->points[i], ring->points[(i + 1) % n], ring->points[(i + 2) % n]) < 0)
      return FALSE;
  return TRUE;
}

/* Least distance between two parallel lines that hold a convex ring: one of them runs along an edge. */
static double
width_across (const CwRing *ring)
{
  double least = G_MAXDOUBLE;

  for (guint i = 0, n = ring->n_points; i < n; i++)
    {
      CwPoint a = ring->points[i], b = ring->points[(i + 1) % n];
      double farthest = 0, length = hypot ((double) b.x - a.x, (double) b.y - a.y);

      for (guint k = 0; k < n; k++)
        farthest = MAX (farthest, (double) cw_point_orient (a, b, ring->points[k]));
      least = MIN (least, farthest / length);
    }
  return least;
}

/* What opening by half a width takes away; the largest part of it that counts. */
static gboolean
opening_takes (const CwRegion *region, gint32 half, CwPoint *at)
{
  CwRegion opened = cw_region_open (region, half);
  CwRegion lost = cw_region_overlay (region, &opened, CW_OVERLAY_DIFFERENCE);
  gint64 most = 0;

  for (guint i = 0; i < lost.n_polygons; i++)
    {
      gint64 area2 = cw_polygon_area2 (&lost.polygons[i]);

      if (area2 > most)
        {
          most = area2;
          *at = cw_polygon_inside_point (&lost.polygons[i]);
        }
    }
  cw_region_clear (&lost);
  cw_region_clear (&opened);
  return (double) most / 2 >= CW_TOL_STRIP_SQ_TICKS;
}

/* The narrowest place under @limit; FALSE if there is none. Its width is not looked for when it is over @known. */
static gboolean
find_narrowest (const CwRegion *region, gint32 limit, double known, Narrow *narrow)
{
  gint32 low = 1, high = (limit - CW_TOL_STRIP_TICKS) / 2;

  if (!opening_takes (region, high, &narrow->at))
    return FALSE;
  narrow->width = limit;
  if (known < limit)
    {
      high = MAX ((gint32) (known / 2), 2);
      if (!opening_takes (region, high, &narrow->at))
        return TRUE;
    }
  while (high - low > CW_TOL_STRIP_TICKS)
    {
      gint32 middle = low + (high - low) / 2;

      if (opening_takes (region, middle, &narrow->at))
        high = middle;
      else
        low = middle;
    }
  narrow->width = low + high;
  return TRUE;
}

static gboolean
panel_is_narrow (const CwPolygon *outline, gint32 limit, double known, Narrow *narrow)
{
  CwRegion region;
  gboolean found;

  if (is_convex (outline))
    {
      narrow->width = width_across (&outline->rings[0]);
      return narrow->width < limit - CW_TOL_STRIP_TICKS;
    }
  region = cw_region_from_polygon (outline);
  found = find_narrowest (&region, limit, known, narrow);
  cw_region_clear (&region);
  return found;
}

/**
 * cw_drawing_check_strips:
 * @drawing: a drawing; gets `thin-strip`: one for all narrow panels of the piece, one for its narrowest bridge
 */
void
cw_drawing_check_strips (const CwDrawing *drawing)
{
  const GArray *panels = drawing->map->panels;
  const char *piece = drawing->map->piece->id;
  g_autofree char *limit = cw_drawing_say_length (drawing, CW_HOUSE_THIN_STRIP);
  g_autoptr (GArray) narrow_panels = g_array_new (FALSE, FALSE, sizeof (guint));
  Narrow worst = { G_MAXDOUBLE, { 0, 0 } };

  for (guint i = 0; i < panels->len; i++)
    {
      const CwPanel *panel = &g_array_index (panels, CwPanel, i);
      Narrow narrow = { 0, panel->inside };

      if (!panel_is_narrow (&panel->outline, CW_HOUSE_THIN_STRIP, worst.width, &narrow))
        continue;
      g_array_append_val (narrow_panels, i);
      if (narrow.width < worst.width)
        worst = narrow;
    }
  if (narrow_panels->len > 0)
    {
      CwFinding *finding = cw_drawing_add (drawing, CW_FINDING_THIN_STRIP, worst.at);
      g_autofree char *width = cw_drawing_say_length (drawing, worst.width);
      g_autofree char *n = g_strdup_printf ("%u", narrow_panels->len);

      for (guint i = 0; i < narrow_panels->len; i++)
        cw_finding_add_panel (finding, piece, g_array_index (narrow_panels, guint, i));
      cw_finding_set_amount (finding, CW_AMOUNT_TICKS, worst.width);
      if (narrow_panels->len == 1)
        cw_finding_set_words (finding,
                              N_ ("A panel of “{0}” is only {1} wide at its narrowest: hard to cut and fold by hand."),
                              N_ ("Make it at least {2} wide."), piece, width, limit, NULL);
      else
        cw_finding_set_words (finding,
                              N_ (
                                "{3} panels of “{0}” are too narrow to cut and fold by hand, the narrowest {1} wide."),
                              N_ ("Make them at least {2} wide."), piece, width, limit, n, NULL);
    }
  cw_drawing_check_bridges (drawing, narrow_panels);
}
