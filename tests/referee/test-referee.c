/* test-referee.c: panel areas and overlays against a general geometry library other than the kernel's.
 *
 * The referee is Boost.Geometry (referee.cc). Allowed between the two: the kernel rounds crossings to ticks, at most
 * 0.71 tick off, so an edge of length l may sweep 0.71 l; round the whole sheet that is 0.003 square inch. Drawings in
 * which two things come within three ticks of one another without meeting are passed over: the model makes them one,
 * the referee does not (nor does it always keep its footing there).
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "panel/cw-panel-map.h"
#include "referee.h"

#include <math.h>
#include <stdlib.h>

#define SEED 18911230
#define N_DESIGNS 3000
#define MAX_PARTS 512
#define TOLERANCE (0.003 * 8128 * 8128)

enum
{
  WIDTH = 80000,
  HEIGHT = 60000
};

static CwPoint
on_rim (GRand *rand, int side)
{
  gint32 t = g_rand_int_range (rand, 1, HEIGHT);

  switch (side)
    {
    case 0:
      return cw_point (t, 0);
    case 1:
      return cw_point (WIDTH, t);
    case 2:
      return cw_point (t, HEIGHT);
    default:
      return cw_point (0, t);
    }
}

/* The drawing's straight segments, four numbers each. */
static GArray *
segments_of (const CwPiece *piece)
{
  GArray *segments = g_array_new (FALSE, FALSE, sizeof (double));

  for (guint m = 0; m <= piece->marks->len; m++)
    {
      const CwMark *mark = m > 0 ? piece->marks->pdata[m - 1] : NULL;
      const CwPath *path = mark != NULL ? &mark->line : &piece->outline;
      gboolean closed = mark == NULL || mark->kind == CW_MARK_WINDOW;

      for (guint i = 0; i + (closed ? 0 : 1) < path->n_vertices; i++)
        {
          CwPoint a = cw_place_get_point (&path->vertices[i].at);
          CwPoint b = cw_place_get_point (&path->vertices[(i + 1) % path->n_vertices].at);
          double numbers[4] = { a.x, a.y, b.x, b.y };

          g_array_append_vals (segments, numbers, 4);
        }
    }
  return segments;
}

static gboolean
crossing (const double *s, const double *t, double *x, double *y)
{
  double ax = s[2] - s[0], ay = s[3] - s[1], bx = t[2] - t[0], by = t[3] - t[1], d = ax * by - ay * bx;
  double u = ((t[0] - s[0]) * by - (t[1] - s[1]) * bx) / d, v = ((t[0] - s[0]) * ay - (t[1] - s[1]) * ax) / d;

  *x = s[0] + u * ax;
  *y = s[1] + u * ay;
  return u >= 0 && u <= 1 && v >= 0 && v <= 1;
}

/* Whether an end or a crossing comes within three ticks of a segment that it is not on by its making. Ends of chords
 * lie on the sheet's sides by theirs. */
static gboolean
is_close_run (const CwPiece *piece)
{
  g_autoptr (GArray) segments = segments_of (piece);
  const double *all = (const double *) (void *) segments->data;
  guint n = segments->len / 4;

  for (guint i = 0; i < n; i++)
    for (guint k = 0; k < n; k++)
      for (guint c = 0; c < n; c++)
        {
          const double *s = all + 4 * i, *t = all + 4 * k, *other = all + 4 * c;
          double x = s[0], y = s[1], distance;

          if (c == i || c == k || (i != k && (i > k || !crossing (s, t, &x, &y))))
            continue;
          for (int end = 0; end < (i == k ? 2 : 1); end++)
            {
              if (i == k)
                {
                  x = s[2 * end];
                  y = s[2 * end + 1];
                }
              distance = cw_segment_distance (cw_point ((gint32) other[0], (gint32) other[1]),
                                              cw_point ((gint32) other[2], (gint32) other[3]), x, y);
              if (distance > 1e-6 && distance < 3)
                return TRUE;
              /* Three lines through one point, none of them a side of the sheet. */
              if (distance <= 1e-6 && i != k && i >= 4 && k >= 4 && c >= 4
                  && !(x <= 0 || x >= WIDTH || y <= 0 || y >= HEIGHT) && hypot (x - other[0], y - other[1]) > 3
                  && hypot (x - other[2], y - other[3]) > 3)
                return TRUE;
            }
        }
  return FALSE;
}

static void
add_point (CwPath *path, CwPoint p)
{
  cw_path_append (path, cw_place_from_point (p, CW_UNIT_INCH), FALSE);
}

static int
compare_falling (const void *a, const void *b)
{
  double x = *(const double *) a, y = *(const double *) b;

  return x > y ? -1 : x < y;
}

/* Scores and cuts from edge to edge, windows anywhere, also over the edge and over one another. */
static void
test_panels (void)
{
  static const double rim[8] = { 0, 0, WIDTH, 0, WIDTH, HEIGHT, 0, HEIGHT };
  g_autoptr (GRand) rand = g_rand_new_with_seed (SEED);
  guint n_judged = 0;

  for (guint round = 0; round < N_DESIGNS; round++)
    {
      g_autoptr (CwDesign) design = cw_design_new ();
      CwPiece *piece = cw_piece_new ();
      g_autoptr (CwPanelSet) set = NULL;
      guint n_chords = (guint) g_rand_int_range (rand, 0, 7), n_windows = (guint) g_rand_int_range (rand, 0, 4);
      double chords[7 * 4], xy[4][6], theirs[MAX_PARTS], ours[MAX_PARTS] = { 0 };
      RefereeRing windows[4];
      guint n_theirs, n_ours;

      if (design->head == NULL)
        design->head = cw_head_new ();
      piece->id = g_strdup ("sheet");
      for (int i = 0; i < 4; i++)
        add_point (&piece->outline, cw_point ((gint32) rim[2 * i], (gint32) rim[2 * i + 1]));
      for (guint i = 0; i < n_chords + n_windows; i++)
        {
          CwMark *mark = cw_mark_new ();

          mark->id = g_strdup_printf ("m%u", i);
          if (i < n_chords)
            {
              int side = g_rand_int_range (rand, 0, 4);
              CwPoint a = on_rim (rand, side), b = on_rim (rand, (side + g_rand_int_range (rand, 1, 4)) % 4);

              mark->kind = g_rand_int_range (rand, 0, 4) == 0 ? CW_MARK_CUT : CW_MARK_SCORE;
              add_point (&mark->line, a);
              add_point (&mark->line, b);
              chords[4 * i] = a.x;
              chords[4 * i + 1] = a.y;
              chords[4 * i + 2] = b.x;
              chords[4 * i + 3] = b.y;
            }
          else
            {
              guint w = i - n_chords;

              mark->kind = CW_MARK_WINDOW;
              for (int k = 0; k < 3; k++)
                {
                  CwPoint p = cw_point (g_rand_int_range (rand, -5000, WIDTH + 5000),
                                        g_rand_int_range (rand, -5000, HEIGHT + 5000));

                  add_point (&mark->line, p);
                  xy[w][2 * k] = p.x;
                  xy[w][2 * k + 1] = p.y;
                }
              windows[w] = (RefereeRing){ 3, xy[w] };
            }
          g_ptr_array_add (piece->marks, mark);
        }
      g_ptr_array_add (design->pieces, piece);
      if (is_close_run (piece))
        continue;
      n_judged++;

      set = cw_panel_set_new (design);
      n_theirs = referee_parts ((RefereeRing){ 4, rim }, n_chords, chords, n_windows, windows, theirs, MAX_PARTS);
      n_ours = cw_panel_set_n_panels (set);
      g_assert_cmpuint (n_ours, <, MAX_PARTS);
      for (guint i = 0; i < n_ours; i++)
        ours[i] = (double) cw_panel_set_get_panel (set, i)->area2 / 2;
      qsort (ours, n_ours, sizeof *ours, compare_falling);
      for (guint i = n_theirs; i < n_ours; i++)
        theirs[i] = 0; /* a part too small to be paper on one side only */
      g_test_message ("design %u: %u chords, %u windows, %u and %u parts", round, n_chords, n_windows, n_ours,
                      n_theirs);
      for (guint i = 0; i < MAX (n_ours, n_theirs); i++)
        g_assert_cmpfloat_with_epsilon (ours[i], theirs[i], TOLERANCE);
    }
  g_assert_cmpuint (n_judged, >, N_DESIGNS * 9 / 10);
}

static CwRegion
region_of (const double *xy, guint n)
{
  g_autoptr (GArray) points = g_array_new (FALSE, FALSE, sizeof (CwPoint));
  CwPolygon polygon;
  CwRegion region;

  for (guint i = 0; i < n; i++)
    {
      CwPoint p = cw_point ((gint32) xy[2 * i], (gint32) xy[2 * i + 1]);

      g_array_append_val (points, p);
    }
  polygon = cw_polygon_from_points (points);
  cw_polygon_tidy (&polygon);
  region = cw_region_from_polygon (&polygon);
  cw_polygon_clear (&polygon);
  return region;
}

static void
test_overlays (void)
{
  static const CwOverlay whats[3] = { CW_OVERLAY_INTERSECTION, CW_OVERLAY_UNION, CW_OVERLAY_DIFFERENCE };
  g_autoptr (GRand) rand = g_rand_new_with_seed (SEED + 1);

  for (guint round = 0; round < 1000; round++)
    {
      double a[8], b[6];
      gint32 x = g_rand_int_range (rand, 0, 40000), y = g_rand_int_range (rand, 0, 40000);
      gint32 w = g_rand_int_range (rand, 1000, 40000), h = g_rand_int_range (rand, 1000, 40000);
      double box[8] = { x, y, x + w, y, x + w, y + h, x, y + h };
      CwRegion one, two;

      for (int i = 0; i < 8; i++)
        a[i] = box[i];
      for (int i = 0; i < 6; i++)
        b[i] = g_rand_int_range (rand, 0, 80000);
      one = region_of (a, 4);
      two = region_of (b, 3);
      for (int k = 0; k < 3; k++)
        {
          CwRegion result = cw_region_overlay (&one, &two, whats[k]);

          g_assert_cmpfloat_with_epsilon ((double) cw_region_area2 (&result) / 2,
                                          referee_overlay ((RefereeRing){ 4, a }, (RefereeRing){ 3, b }, k), TOLERANCE);
          cw_region_clear (&result);
        }
      cw_region_clear (&one);
      cw_region_clear (&two);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/referee/panel-areas", test_panels);
  g_test_add_func ("/referee/overlay-areas", test_overlays);
  return g_test_run ();
}
