/* test-size.c: sizes as text.
 *
 * Outside sources: ISO 216:2007 for the A and B sizes, ISO 269 for C.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "units/cw-size.h"

static void
test_iso_216 (void)
{
  /* ISO 216:2007 (A, B) and ISO 269 (C), sizes 0 to 10 in mm, by the rule of halving: (w, h) -> (h / 2 rounded down,
   * w). The start sizes and A4, B5, C6 are the published ones. Every size must be a whole number of ticks. */
  static const gint32 start[3][2] = { { 841, 1189 }, { 1000, 1414 }, { 917, 1297 } };

  for (guint series = 0; series < 3; series++)
    {
      gint32 w = start[series][0], h = start[series][1];

      for (guint n = 0; n <= 10; n++)
        {
          g_autofree char *text = g_strdup_printf ("%d × %d mm", w, h);
          CwLength width, height;
          gint32 half = h / 2;

          g_assert_true (cw_size_parse (text, CW_UNIT_INCH, &width, &height, NULL));
          g_assert_cmpint (width.ticks, ==, w * 320);
          g_assert_cmpint (height.ticks, ==, h * 320);
          g_assert_true (cw_length_is_whole (width) && cw_length_is_whole (height));
          if (series == 0 && n == 4)
            g_assert_true (w == 210 && h == 297);
          if (series == 1 && n == 5)
            g_assert_true (w == 176 && h == 250);
          if (series == 2 && n == 6)
            g_assert_true (w == 114 && h == 162);
          h = w;
          w = half;
        }
    }
}

static void
test_size (void)
{
  static const struct
  {
    const char *text;
    CwUnit bare;
    gint32 w, h;
    const char *printed;
  } sizes[] = {
    { "5 in x 7 in", CW_UNIT_MM, 40640, 56896, "5 in x 7 in" },
    { "8 1/2 x 11 in", CW_UNIT_MM, 69088, 89408, "8 1/2 in x 11 in" },
    { "8 1/2 x 11", CW_UNIT_INCH, 69088, 89408, "8 1/2 in x 11 in" },
    { "100 mm × 150 mm", CW_UNIT_INCH, 32000, 48000, "100 mm x 150 mm" },
    { "100x150mm", CW_UNIT_INCH, 32000, 48000, "100 mm x 150 mm" },
    { "5inX7in", CW_UNIT_MM, 40640, 56896, "5 in x 7 in" },
    { "5\" by 7\"", CW_UNIT_MM, 40640, 56896, "5 in x 7 in" },
    { "5 in x 7", CW_UNIT_MM, 40640, 56896, "5 in x 7 in" },
    { "5 in x 150 mm", CW_UNIT_MM, 40640, 48000, "5 in x 150 mm" },
  };
  static const char *const refused[]
    = { "",      "5 in",  "5 in x", "x 7", "5 in x 0 in", "-5 in x 7 in", "5 in x 7 in x 9 in", "5 ft x 7 ft",
        "5 + 7", "61 x 5" };

  for (guint i = 0; i < G_N_ELEMENTS (sizes); i++)
    {
      CwLength w, h;

      g_test_message ("%s", sizes[i].text);
      g_assert_true (cw_size_parse (sizes[i].text, sizes[i].bare, &w, &h, NULL));
      g_autofree char *printed = cw_size_format (w, h);
      g_assert_cmpint (w.ticks, ==, sizes[i].w);
      g_assert_cmpint (h.ticks, ==, sizes[i].h);
      g_assert_cmpstr (printed, ==, sizes[i].printed);
    }
  for (guint i = 0; i < G_N_ELEMENTS (refused); i++)
    {
      g_autoptr (GError) error = NULL;
      CwLength w, h;

      g_test_message ("%s", refused[i]);
      g_assert_false (cw_size_parse (refused[i], CW_UNIT_INCH, &w, &h, &error));
      g_assert_nonnull (error);
    }
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/units/size/iso-216-is-whole-ticks", test_iso_216);
  g_test_add_func ("/units/size/forms-and-refusals", test_size);
  return g_test_run ();
}
