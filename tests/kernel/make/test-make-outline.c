/* test-make-outline.c: outlines of pieces from SVG pictures, and pictures made to do harm.
 *
 * Outside sources: SVG 1.1, second edition, 2011: units and viewBox (chapter 7), transforms (7.6), path data (8.3),
 * basic shapes (chapter 9), arcs (F.6); CSS 2.1, 4.3.2: 96 pixels are an inch. Areas from elementary geometry: a disc
 * is pi r^2, an ellipse pi a b; a quadratic segment is two thirds of its triangle's base times height (Archimedes,
 * Quadrature of the Parabola).
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "geometry/cw-polygon.h"
#include "make-test.h"
#include "make/cw-make-outline.h"
#include "panel/cw-path-flatten.h"

#include <math.h>

#define MM(n) ((n) *CW_TICKS_PER_MM)
#define AREA_SHARE 0.002 /* lines within 0.025 mm of a curve of a few centimetres lose less of its area than this */

static GPtrArray *
read_picture (const char *text)
{
  g_autoptr (GError) error = NULL;
  GPtrArray *paths = cw_outline_read (text, strlen (text), CW_UNIT_MM, &error);

  g_assert_no_error (error);
  g_assert_nonnull (paths);
  return paths;
}

static void
measure (const CwPath *path, double *width_mm, double *height_mm, double *area_mm2)
{
  g_autoptr (GArray) points = cw_path_flatten (path, TRUE);
  double twice = 0, w = 0, h = 0;

  for (guint i = 0; i < points->len; i++)
    {
      CwPoint p = g_array_index (points, CwPoint, i), q = g_array_index (points, CwPoint, (i + 1) % points->len);

      twice += (double) p.x * q.y - (double) q.x * p.y;
      w = MAX (w, p.x);
      h = MAX (h, p.y);
    }
  *width_mm = w / CW_TICKS_PER_MM;
  *height_mm = h / CW_TICKS_PER_MM;
  *area_mm2 = fabs (twice) / 2 / CW_TICKS_PER_MM / CW_TICKS_PER_MM;
}

static void
test_shapes (void)
{
  static const struct
  {
    const char *svg;
    double width, height, area; /* millimetres */
  } all[] = {
    { "<svg width='100mm' height='80mm' viewBox='0 0 100 80'><rect x='10' y='5' width='40' height='30'/></svg>", 40, 30,
      1200 },
    { "<svg width='4in' height='2in' viewBox='0 0 4 2'><rect width='1' height='1'/></svg>", 25.4, 25.4, 645.16 },
    /* a user unit is a pixel, 1/96 in */
    { "<svg><rect width='96' height='192'/></svg>", 25.4, 50.8, 1290.32 },
    /* fits the smaller way: 1 mm a unit, not 2 */
    { "<svg width='100mm' height='200mm' viewBox='0 0 100 100'><rect width='10' height='10'/></svg>", 10, 10, 100 },
    { "<svg width='100mm' viewBox='0 0 100 80'><circle cx='50' cy='40' r='20'/></svg>", 40, 40, G_PI * 400 },
    { "<svg width='100mm' viewBox='0 0 100 80'><ellipse cx='50' cy='40' rx='30' ry='10'/></svg>", 60, 20, G_PI * 300 },
    { "<svg width='100mm' viewBox='0 0 100 80'><rect width='40' height='20' rx='5'/></svg>", 40, 20,
      800 - (4 - G_PI) * 25 },
    { "<svg width='100mm' viewBox='0 0 100 80'><polygon points='0,0 30,0 0,40'/></svg>", 30, 40, 600 },
    { "<svg width='100mm' viewBox='0 0 100 80'><polyline points='0,0 30,0 0,40 0,0'/></svg>", 30, 40, 600 },
    { "<svg width='100mm' viewBox='0 0 100 80'><path d='M10 10h20v30H10z'/></svg>", 20, 30, 600 },
    { "<svg width='100mm' viewBox='0 0 100 80'><path d='M10,10 30,10 30,40 10,40Z'/></svg>", 20, 30, 600 },
    /* half a disc, its arc's flags run together */
    { "<svg width='100mm' viewBox='0 0 100 80'><path d='M10 30a20 20 0 0140 0z'/></svg>", 40, 20, G_PI * 200 },
    /* the larger way round is three quarters of a disc: pi r^2 3/4 and the triangle of the corner */
    { "<svg width='100mm' viewBox='0 0 100 80'><path d='M40 20A20 20 0 1 1 20 40L40 20z'/></svg>", 40, 40,
      G_PI * 300 + 200 },
    /* Archimedes: two thirds of 40 by 15 (the curve reaches half its handle's height) */
    { "<svg width='100mm' viewBox='0 0 100 80'><path d='M0 30Q20 0 40 30Z'/></svg>", 40, 15, 400 },
    /* the same as a cubic, and with a mirrored handle */
    { "<svg width='100mm' viewBox='0 0 100 80'><path d='M0 30C13.3333333 10 26.6666667 10 40 30Z'/></svg>", 40, 15,
      400 },
    { "<svg width='100mm' viewBox='0 0 100 80'><path d='M0 30Q10 10 20 30T40 30V40H0Z'/></svg>", 40, 20, 400 },
    /* transforms: a quarter turn, twice as large, moved */
    { "<svg width='100mm' viewBox='0 0 100 80'><g transform='translate(50,10) rotate(90)'><rect width='10' height='20' "
      "transform='scale(2)'/></g></svg>",
      40, 20, 800 },
    { "<svg width='100mm' viewBox='0 0 100 80'><circle r='10' transform='matrix(2 0 0 1 30 30)'/></svg>", 40, 20,
      G_PI * 200 },
    { "<svg width='100mm' viewBox='0 0 100 80'><rect width='10' height='10' transform='skewX(45)'/></svg>", 20, 10,
      100 },
    /* with a name space, a document type and what is not drawn */
    { "<?xml version='1.0'?><!DOCTYPE svg PUBLIC '-//W3C//DTD SVG 1.1//EN' 'svg11.dtd'><svg:svg "
      "xmlns:svg='http://www.w3.org/2000/svg' width='100mm' viewBox='0 0 100 80'><svg:defs><svg:rect width='90' "
      "height='70'/></svg:defs><svg:g display='none'><svg:rect width='80' height='70'/></svg:g><svg:rect width='10' "
      "height='10'/></svg:svg>",
      10, 10, 100 },
  };

  for (guint i = 0; i < G_N_ELEMENTS (all); i++)
    {
      g_autoptr (GPtrArray) paths = read_picture (all[i].svg);
      double width, height, area;

      g_test_message ("%s", all[i].svg);
      measure (paths->pdata[0], &width, &height, &area);
      g_assert_cmpfloat_with_epsilon (width, all[i].width, 0.06);
      g_assert_cmpfloat_with_epsilon (height, all[i].height, 0.06);
      g_assert_cmpfloat_with_epsilon (area, all[i].area, AREA_SHARE * all[i].area);
    }
}

/* A circle stays an arc, so that it is cut as one. */
static void
test_circle (void)
{
  g_autoptr (GPtrArray) paths
    = read_picture ("<svg width='100mm' viewBox='0 0 100 80'><circle cx='50' cy='40' r='20'/></svg>");
  const CwPath *path = paths->pdata[0];
  guint n_through = 0;

  g_assert_cmpuint (path->n_vertices, <=, 12);
  for (guint i = 0; i < path->n_vertices; i++)
    {
      CwPoint p = cw_place_get_point (&path->vertices[i].at);

      n_through += path->vertices[i].through;
      g_assert_cmpfloat (fabs (hypot (p.x - MM (20), p.y - MM (20)) - MM (20)), <=, 1);
    }
  g_assert_cmpuint (n_through, ==, path->n_vertices / 2);
}

/* The largest shape is the outline, those in it are windows, one beside it is left out. */
static void
test_piece (void)
{
  const char *text
    = "<svg width='100mm' viewBox='0 0 100 80'><circle cx='20' cy='20' r='5'/><rect width='40' height='40'/>"
      "<rect x='60' y='0' width='10' height='10'/></svg>";
  g_autoptr (CwDesign) design = sheet (10, 7, NULL);
  g_autoptr (GError) error = NULL;
  const CwPiece *piece = NULL;

  do_edit (&design, cw_make_add_outline (design, "Buoy", text, strlen (text), &error));
  g_assert_no_error (error);
  piece = design->pieces->pdata[1];
  g_assert_cmpstr (piece->name, ==, "Buoy");
  g_assert_cmpuint (piece->outline.n_vertices, ==, 4);
  g_assert_cmpuint (piece->marks->len, ==, 1);
  g_assert_cmpint (((CwMark *) piece->marks->pdata[0])->kind, ==, CW_MARK_WINDOW);
  g_assert_true (cw_make_is_loose (design, piece->id));
}

static void
assert_no_picture (const char *text, gsize length)
{
  g_autoptr (GError) error = NULL;

  g_test_message ("%.80s", text);
  g_assert_null (cw_outline_read (text, length, CW_UNIT_MM, &error));
  g_assert_error (error, CW_MAKE_ERROR, CW_MAKE_ERROR_IMPOSSIBLE);
  g_assert_true (g_str_has_suffix (error->message, "."));
}

static void
test_refused (void)
{
  static const char *const all[] = {
    "",
    "no picture",
    "<html><rect width='10' height='10'/></html>",
    "<svg",
    "<svg></svg>",
    "<svg><path d='M0 0L10 10'/></svg>",
    "<svg><path d='L0 0 10 10z'/></svg>",
    "<svg><path d='M0 0 10'/></svg>",
    "<svg><path d='M0 0A1 1 0 2 0 5 5z'/></svg>",
    "<svg><path d='M0 0C1z'/></svg>",
    "<svg><rect width='nan' height='10'/></svg>",
    "<svg><rect width='1e999' height='10'/></svg>",
    "<svg><rect width='1e300' height='1e300'/></svg>",
    "<svg><rect width='0x10' height='10'/></svg>",
    "<svg><rect width='-5' height='10'/></svg>",
    "<svg><rect width='1' height='1' transform='scale(1e-9)'/></svg>",
    "<svg><rect width='1' height='1' transform='scale(1e9)'/></svg>",
    "<svg><rect width='1' height='1' transform='rotate(1,2)'/></svg>",
    "<svg><rect width='1' height='1' transform='bend(1)'/></svg>",
    "<svg viewBox='0 0'><rect width='100' height='100'/></svg>",
    ("<!DOCTYPE svg [<!ENTITY a 'aaaaaaaaaa'><!ENTITY b '&a;&a;&a;'>]><svg><text>&b;</text><rect width='9' "
     "height='9'/></svg>"),
  };
  g_autoptr (GString) deep = g_string_new ("<svg>"), many = g_string_new ("<svg>"), long_path = g_string_new (NULL);
  g_autofree char *large = g_strnfill (CW_OUTLINE_BYTES_MAX + 1, ' ');

  for (guint i = 0; i < G_N_ELEMENTS (all); i++)
    assert_no_picture (all[i], strlen (all[i]));
  for (guint i = 0; i < 100000; i++)
    g_string_append (deep, "<g>");
  assert_no_picture (deep->str, deep->len);
  for (guint i = 0; i <= CW_OUTLINE_SHAPES_MAX; i++)
    g_string_append (many, "<rect width='10' height='10'/>");
  g_string_append (many, "</svg>");
  assert_no_picture (many->str, many->len);
  g_string_append (long_path, "<svg><path d='M0 0");
  for (guint i = 0; i < 100000; i++)
    g_string_append_printf (long_path, " %u %u", i % 100, i % 7);
  g_string_append (long_path, "z'/></svg>");
  assert_no_picture (long_path->str, long_path->len);
  assert_no_picture (large, CW_OUTLINE_BYTES_MAX + 1);
}

/* Cut off anywhere it is either refused or read; nothing else happens. */
static void
test_cut_off (void)
{
  const char *text
    = "<svg width='9cm' viewBox='0 0 90 80'><g transform='rotate(30 1 2)'><path d='M1-2.5e1 "
      "C3,4 5,6 7,8S9 10 40-11q1 2 3 4t5 6A7 8 9 1 0 10 11h1v2z'/></g><polygon points='1,2 30,4 5,60'/></svg>";

  for (gsize n = 0; n <= strlen (text); n++)
    {
      g_autofree char *part = g_strndup (text, n);
      g_autoptr (GPtrArray) paths = NULL;
      g_autoptr (GError) error = NULL;

      paths = cw_outline_read (part, n, CW_UNIT_MM, &error);
      g_assert_true ((paths == NULL) == (error != NULL));
      if (n + 1 < strlen (text))
        g_assert_null (paths);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/make/outline/shapes-and-units", test_shapes);
  g_test_add_func ("/make/outline/circle-stays-round", test_circle);
  g_test_add_func ("/make/outline/piece-with-windows", test_piece);
  g_test_add_func ("/make/outline/refused-in-one-sentence", test_refused);
  g_test_add_func ("/make/outline/cut-off-anywhere", test_cut_off);
  return g_test_run ();
}
