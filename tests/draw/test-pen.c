/* Pens and palettes against ISO 128-2 and WCAG 2.2.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include <math.h>

#include "cw-pen.h"

/* WCAG 2.2, definitions "relative luminance" and "contrast ratio", written out here a second time. */
static double
luminance (guint32 rgb)
{
  double sum = 0;
  const double weight[3] = { 0.2126, 0.7152, 0.0722 };

  for (int i = 0; i < 3; i++)
    {
      double c = (double) ((rgb >> (16 - 8 * i)) & 255) / 255;
      sum += weight[i] * (c <= 0.04045 ? c / 12.92 : pow ((c + 0.055) / 1.055, 2.4));
    }
  return sum;
}

static double
contrast (guint32 a, guint32 b)
{
  double x = luminance (a) + 0.05, y = luminance (b) + 0.05;
  return x > y ? x / y : y / x;
}

/* Ratios on white computed with the WCAG 2.2 formula outside this project. */
static void
test_known_contrast (void)
{
  static const struct
  {
    guint32 rgb;
    double ratio;
  } known[]
    = { { 0x000000, 21 },     { 0x595959, 7.0047 }, { 0x767676, 4.5422 }, { 0x777777, 4.4781 }, { 0x949494, 3.0335 },
        { 0x959595, 2.9953 }, { 0xff0000, 3.9985 }, { 0x00ff00, 1.3722 }, { 0x0000ff, 8.5925 } };

  for (guint i = 0; i < G_N_ELEMENTS (known); i++)
    {
      g_assert_cmpfloat_with_epsilon (cw_colour_contrast (known[i].rgb, 0xffffff), known[i].ratio, 6e-5);
      g_assert_cmpfloat_with_epsilon (contrast (known[i].rgb, 0xffffff), known[i].ratio, 6e-5);
    }
}

static gboolean
is_text (CwPen pen)
{
  return pen == CW_PEN_TEXT || pen == CW_PEN_TITLE || pen == CW_PEN_FIGURE;
}

/* What fills a face or draws nothing has no contrast of its own to keep: the shadow repeats what the edges say. */
static gboolean
is_surface (CwPen pen)
{
  return pen == CW_PEN_PAPER || pen == CW_PEN_SHADOW || pen == CW_PEN_PICK || pen == CW_PEN_CLIP
         || pen == CW_PEN_UNCLIP;
}

/* SC 1.4.3: text 4.5:1. SC 1.4.11: lines 3:1. Every pen, every palette, on the table and on papers of all colours. */
static void
test_contrast (void)
{
  const CwPalette *palettes[] = { &cw_palette_paper, &cw_palette_light, &cw_palette_dark, &cw_palette_contrast };

  for (guint p = 0; p < G_N_ELEMENTS (palettes); p++)
    for (guint pen = 0; pen < CW_N_PENS; pen++)
      {
        double least = is_text (pen) ? 4.5 : 3;
        if (is_surface (pen))
          continue;
        g_assert_cmpfloat (contrast (cw_pen_get_colour (pen, palettes[p], CW_GROUND_TABLE), palettes[p]->table), >=,
                           least);
        for (guint32 r = 0; r < 256; r += 17)
          for (guint32 g = 0; g < 256; g += 17)
            for (guint32 b = 0; b < 256; b += 51)
              {
                guint32 ground = r << 16 | g << 8 | b;
                g_assert_cmpfloat (contrast (cw_pen_get_colour (pen, palettes[p], ground), ground), >=, least);
              }
      }
}

/* SC 1.4.11 on a turning face: line ink is chosen once for a middle shade and must hold from the darkest to the lit. */
static void
test_turning_face (void)
{
  for (guint32 grey = 0; grey < 256; grey++)
    for (guint32 tint = 0; tint < 3; tint++)
      {
        guint32 paper = tint == 0 ? grey * 0x010101 : tint == 1 ? grey << 16 | 0x8020 : grey << 8 | 0x300050;
        guint32 ink = cw_pen_get_colour (CW_PEN_EDGE, &cw_palette_light, cw_colour_mix (0, paper, 0.86));
        for (int i = 0; i <= 28; i++)
          g_assert_cmpfloat (contrast (ink, cw_colour_mix (0, paper, 0.72 + 0.01 * i)), >=, 3);
      }
}

/* Mark pens on white paper are told apart with all colour taken away: ISO 128-2:2020 line types, Table 3 (dash 12 d,
 * gap 3 d, dot at most 0.5 d) and the widths' ratio 1:2 of clause 5. */
static void
test_line_types (void)
{
  double dashes[4], centre;

  g_assert_cmpint (cw_pen_get_style (CW_PEN_CUT)->line, ==, 1);
  g_assert_cmpint (cw_pen_get_style (CW_PEN_SCORE_TOWARD)->line, ==, 2);
  g_assert_cmpint (cw_pen_get_style (CW_PEN_SCORE_AWAY)->line, ==, 10);
  g_assert_cmpint (cw_pen_get_style (CW_PEN_SCORE_NONE)->line, ==, 7);
  g_assert_cmpfloat_with_epsilon (cw_pen_get_style (CW_PEN_CUT)->width_mm,
                                  2 * cw_pen_get_style (CW_PEN_SCORE_TOWARD)->width_mm, 1e-12);

  g_assert_cmpuint (cw_line_get_dashes (CW_LINE_DASHED, dashes, &centre), ==, 2);
  g_assert_cmpfloat_with_epsilon (dashes[0], 12, 1e-12);
  g_assert_cmpfloat_with_epsilon (dashes[1], 3, 1e-12);
  g_assert_cmpuint (cw_line_get_dashes (CW_LINE_DASHED_DOTTED, dashes, &centre), ==, 4);
  g_assert_cmpfloat_with_epsilon (dashes[0], 12, 1e-12);
  g_assert_cmpfloat_with_epsilon (dashes[1], 3, 1e-12);
  g_assert_cmpfloat (dashes[2], <=, 0.5);
  g_assert_cmpfloat_with_epsilon (dashes[3], 3, 1e-12);
  g_assert_cmpuint (cw_line_get_dashes (CW_LINE_DOTTED, dashes, &centre), ==, 2);
  g_assert_cmpfloat (dashes[0], <=, 0.5);
  g_assert_cmpfloat_with_epsilon (dashes[1], 3, 1e-12);
  g_assert_cmpuint (cw_line_get_dashes (CW_LINE_CONTINUOUS, dashes, &centre), ==, 0);
}

/* Every drawn width is one of the standard's series (ISO 128-2:2020: 0.13 to 2 mm in steps of sqrt 2); the halo, four
 * times the cut, is a highlight and no line of the drawing. */
static void
test_widths (void)
{
  static const double series[] = { 0.13, 0.18, 0.25, 0.35, 0.5, 0.7, 1.0, 1.4, 2.0 };

  for (guint pen = 0; pen < CW_N_PENS; pen++)
    {
      const CwPenStyle *style = cw_pen_get_style (pen);
      gboolean found = FALSE;
      if (style->line == CW_LINE_NONE || pen == CW_PEN_SELECTED)
        continue;
      for (guint i = 0; i < G_N_ELEMENTS (series); i++)
        found = found || fabs (style->width_mm - series[i]) < 1e-12;
      g_assert_true (found);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/draw/pen/known-contrast", test_known_contrast);
  g_test_add_func ("/draw/pen/contrast", test_contrast);
  g_test_add_func ("/draw/pen/turning-face", test_turning_face);
  g_test_add_func ("/draw/pen/line-types", test_line_types);
  g_test_add_func ("/draw/pen/widths", test_widths);
  return g_test_run ();
}
