/* test-about.c: measured quantities as a maker reads them.
 *
 * 1 inch = 25.4 mm (international yard and pound agreement, 1959), so 8128 ticks, 1 mm = 320 ticks; the rest is
 * rounding.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "units/cw-about.h"

static void
test_length (void)
{
  static const struct
  {
    double ticks;
    CwUnit unit;
    const char *text;
  } cases[] = {
    { 4.25 * 8128, CW_UNIT_INCH, "4 1/4 in" },  { 4.2504 * 8128, CW_UNIT_INCH, "4 1/4 in" },
    { -8128 / 64.0, CW_UNIT_INCH, "-1/64 in" }, { 0.004 * 8128, CW_UNIT_INCH, "0.004 in" },
    { 0.00001 * 8128, CW_UNIT_INCH, "0 in" },   { 0, CW_UNIT_INCH, "0 in" },
    { 107.96 * 320, CW_UNIT_MM, "108 mm" },     { 10.76 * 3200, CW_UNIT_CM, "10.76 cm" },
    { 0.02 * 320, CW_UNIT_MM, "0.02 mm" },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autofree char *text = cw_about_length (cases[i].ticks, cases[i].unit);

      g_assert_cmpstr (text, ==, cases[i].text);
    }
}

static void
test_degrees_and_area (void)
{
  g_autofree char *whole = cw_about_degrees (90), *tenth = cw_about_degrees (97.1808),
                  *below = cw_about_degrees (-0.04);
  g_autofree char *inches = cw_about_area (4.25 * 8128 * 8128, CW_UNIT_INCH);
  g_autofree char *metric = cw_about_area (6.4516 * 3200 * 3200, CW_UNIT_MM);

  g_assert_cmpstr (whole, ==, "90");
  g_assert_cmpstr (tenth, ==, "97.2");
  g_assert_cmpstr (below, ==, "0");
  g_assert_cmpstr (inches, ==, "4.25 sq in");
  g_assert_cmpstr (metric, ==, "6.45 sq cm");
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/units/about/length", test_length);
  g_test_add_func ("/units/about/degrees-and-area", test_degrees_and_area);
  return g_test_run ();
}
