/* Picture files: true size, line patterns as the standard has them, and never half a file.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include <glib/gstdio.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "cw-draw-play.h"

static char *folder;

static CwDrawList *
four_lines (void)
{
  static const CwPen pens[] = { CW_PEN_CUT, CW_PEN_SCORE_TOWARD, CW_PEN_SCORE_AWAY, CW_PEN_SCORE_NONE };
  CwDrawList *list = cw_draw_list_new ();

  for (guint i = 0; i < 4; i++)
    {
      cw_draw_list_begin (list, pens[i], (CwId){ CW_ID_MARK, 0, i, 0 });
      cw_draw_list_move (list, 36, 36 + 20.0 * i);
      cw_draw_list_line (list, 36 + 360, 36 + 20.0 * i);
      cw_draw_list_end (list);
    }
  return list;
}

static char *
write_picture (const CwDrawList *list, CwPictureKind kind, const char *name, gsize *length)
{
  g_autofree char *path = g_build_filename (folder, name, NULL);
  g_autoptr (GFile) file = g_file_new_for_path (path);
  g_autoptr (GError) error = NULL;
  char *bytes = NULL;

  g_assert_true (cw_draw_write (list, kind, 432, 144, file, &error));
  g_assert_no_error (error);
  g_assert_true (g_file_get_contents (path, &bytes, length, NULL));
  g_remove (path);
  return bytes;
}

/* The numbers after an attribute of a start tag; returns how many. */
static guint
numbers (const char *tag, const char *attribute, double *values, guint n_max)
{
  const char *end = strchr (tag, '>'), *at = strstr (tag, attribute);
  guint n = 0;

  if (at == NULL || at > end)
    return 0;
  /* As an attribute or as a property of a style. */
  at += strlen (attribute);
  at += strspn (at, "=:\"");
  while (n < n_max && *at != '"' && *at != ';')
    {
      char *next;
      values[n++] = g_ascii_strtod (at, &next);
      at = next;
      while (*at == ',' || *at == ' ')
        at++;
    }
  return n;
}

/* Element lengths in line widths, ISO 128-2:2020, Table 3, read back from the file: dash 12, gap 3, dot at most 0.5;
 * the cut is twice as wide as a score (narrow to wide 1:2). */
static void
test_svg_patterns (void)
{
  g_autoptr (CwDrawList) list = four_lines ();
  gsize length;
  g_autofree char *svg = write_picture (list, CW_PICTURE_SVG, "lines.svg", &length);
  double width[4], dash[4][4];
  guint n_dash[4], n = 0;

  for (const char *at = svg; (at = strstr (at, "<path")) != NULL; at++)
    {
      if (numbers (at, "stroke-width", &width[n], 1) == 0)
        continue;
      g_assert_cmpuint (n, <, 4);
      n_dash[n] = numbers (at, "stroke-dasharray", dash[n], 4);
      n++;
    }
  g_assert_cmpuint (n, ==, 4);
  g_assert_cmpuint (n_dash[0], ==, 0);
  g_assert_cmpfloat_with_epsilon (width[0], 2 * width[1], 1e-4);
  /* 0.5 mm in points, 1 in = 25.4 mm = 72 pt. */
  g_assert_cmpfloat_with_epsilon (width[1], 0.5 / 25.4 * 72, 1e-4);

  g_assert_cmpuint (n_dash[1], ==, 2);
  g_assert_cmpfloat_with_epsilon (dash[1][0] / width[1], 12, 1e-3);
  g_assert_cmpfloat_with_epsilon (dash[1][1] / width[1], 3, 1e-3);
  g_assert_cmpuint (n_dash[2], ==, 4);
  g_assert_cmpfloat_with_epsilon (dash[2][0] / width[2], 12, 1e-3);
  g_assert_cmpfloat_with_epsilon (dash[2][1] / width[2], 3, 1e-3);
  g_assert_cmpfloat (dash[2][2] / width[2], <=, 0.5 + 1e-3);
  g_assert_cmpfloat (dash[2][2], >, 0);
  g_assert_cmpfloat_with_epsilon (dash[2][3] / width[2], 3, 1e-3);
  g_assert_cmpuint (n_dash[3], ==, 2);
  g_assert_cmpfloat (dash[3][0] / width[3], <=, 0.5 + 1e-3);
  g_assert_cmpfloat_with_epsilon (dash[3][1] / width[3], 3, 1e-3);
}

/* 1 in = 72 pt: CSS points in SVG, default user space of ISO 32000 in PDF. 432 x 144 is 6 x 2 inches. */
static void
test_true_size (void)
{
  g_autoptr (CwDrawList) list = four_lines ();
  gsize length;
  g_autofree char *svg = write_picture (list, CW_PICTURE_SVG, "size.svg", &length);
  const char *tag = strstr (svg, "<svg");
  double size[4];

  g_assert_nonnull (strstr (tag, "width=\"432pt\""));
  g_assert_nonnull (strstr (tag, "height=\"144pt\""));
  g_assert_cmpuint (numbers (tag, "viewBox", size, 4), ==, 4);
  g_assert_cmpfloat_with_epsilon (size[2], 432, 1e-9);
  g_assert_cmpfloat_with_epsilon (size[3], 144, 1e-9);

  g_autofree char *pdf = write_picture (list, CW_PICTURE_PDF, "size.pdf", &length);
  const char *box = g_strstr_len (pdf, (gssize) length, "/MediaBox");
  g_assert_nonnull (box);
  box = strchr (box, '[') + 1;
  for (int i = 0; i < 4; i++)
    {
      char *next;
      size[i] = g_ascii_strtod (box, &next);
      box = next;
    }
  g_assert_cmpfloat_with_epsilon (size[2] - size[0], 432, 1e-3);
  g_assert_cmpfloat_with_epsilon (size[3] - size[1], 144, 1e-3);

  /* PNG (ISO/IEC 15948, 11.2.2): width and height at bytes 16 and 20; twice the points. */
  g_autofree char *png = write_picture (list, CW_PICTURE_PNG, "size.png", &length);
  const guint8 *header = (const guint8 *) png;
  g_assert_cmpmem (png, 8, "\x89PNG\r\n\x1a\n", 8);
  g_assert_cmpuint (header[16] << 24 | header[17] << 16 | header[18] << 8 | header[19], ==, 864);
  g_assert_cmpuint (header[20] << 24 | header[21] << 16 | header[22] << 8 | header[23], ==, 288);
}

/* No dates, no chance. (In an SVG cairo numbers its surfaces through the life of a process; that number is left out.)
 */
static void
test_same_bytes (void)
{
  g_autoptr (CwDrawList) list = four_lines ();
  g_autoptr (GRegex) surface = g_regex_new ("id=\"surface[0-9]+\"", 0, 0, NULL);
  gsize a, b;

  for (guint kind = CW_PICTURE_PNG; kind <= CW_PICTURE_PDF; kind++)
    {
      g_autofree char *one = write_picture (list, kind, "one", &a);
      g_usleep (kind == CW_PICTURE_PDF ? 1100000 : 0); /* a PDF date has whole seconds */
      g_autofree char *two = write_picture (list, kind, "two", &b);
      g_assert_cmpmem (one, (int) a, two, (int) b);
    }
  g_autofree char *one = write_picture (list, CW_PICTURE_SVG, "one", &a);
  g_autofree char *two = write_picture (list, CW_PICTURE_SVG, "two", &b);
  g_autofree char *plain_one = g_regex_replace (surface, one, -1, 0, "", 0, NULL);
  g_autofree char *plain_two = g_regex_replace (surface, two, -1, 0, "", 0, NULL);
  g_assert_cmpstr (plain_one, ==, plain_two);
}

/* What was there stays as it was when the picture cannot be written, and a new one replaces it whole. */
static void
test_replaces (void)
{
  g_autoptr (CwDrawList) list = four_lines ();
  g_autofree char *path = g_build_filename (folder, "card.svg", NULL), *bytes = NULL;
  g_autofree char *nowhere = g_build_filename (folder, "none", "card.svg", NULL);
  g_autoptr (GFile) file = g_file_new_for_path (path);
  g_autoptr (GFile) missing = g_file_new_for_path (nowhere);
  g_autoptr (GError) error = NULL;
  gsize length;

  g_autofree char *old = g_strnfill (200000, 'x');
  g_assert_true (g_file_set_contents (path, old, -1, NULL));
  g_assert_true (cw_draw_write (list, CW_PICTURE_SVG, 432, 144, file, &error));
  g_assert_true (g_file_get_contents (path, &bytes, &length, NULL));
  g_assert_cmpuint (length, <, 200000);
  g_assert_true (g_str_has_suffix (bytes, "</svg>\n"));
  g_remove (path);

  g_assert_false (cw_draw_write (list, CW_PICTURE_SVG, 432, 144, missing, &error));
  g_assert_nonnull (error);
  g_assert_false (g_file_test (nowhere, G_FILE_TEST_EXISTS));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  folder = g_dir_make_tmp ("cw-draw-XXXXXX", NULL);
  g_test_add_func ("/draw/write/svg-patterns", test_svg_patterns);
  g_test_add_func ("/draw/write/true-size", test_true_size);
  g_test_add_func ("/draw/write/same-bytes", test_same_bytes);
  g_test_add_func ("/draw/write/replaces", test_replaces);
  int status = g_test_run ();
  g_rmdir (folder);
  g_free (folder);
  return status;
}
