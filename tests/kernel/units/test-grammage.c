/* test-grammage.c: what weights of paper as typed come to.
 *
 * A sheet of a basic size weighs a five-hundredth of its pounds (basis weight, the American trade); the basic sizes are
 * common practice. Converted values as trade tables print them: 80 lb cover 216, 110 lb cover 298 and index 199, 24 lb
 * bond 90, 70 lb text 104 g/m2 (from memory).
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "units/cw-grammage.h"

static void
test_read (void)
{
  static const struct
  {
    const char *text;
    double grams;
  } cases[] = {
    { "216 g/m2", 216 },    { "216g/m²", 216 },        { "300 gsm", 300 },      { "199.5 GSM ", 199.5 },
    { "80 lb cover", 216 }, { "110 lbs. cover", 298 }, { "110 lb index", 199 }, { "24# bond", 90 },
    { "70 lb Text", 104 },  { "100 lb bristol", 219 }, { "125 lb tag", 203 },
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      double grams = 0;

      g_test_message ("%s", cases[i].text);
      g_assert_true (cw_grammage_parse (cases[i].text, &grams));
      g_assert_cmpfloat_with_epsilon (grams, cases[i].grams, 0.6);
    }
}

static void
test_refused (void)
{
  static const char *const texts[]
    = { "",        "heavy",          "216",          "80 lb",     "-5 gsm", "0 g/m2", "nan gsm",
        "inf gsm", "216 g/m2 or so", "80 lb covers", "80 lb card" };
  double grams;

  for (guint i = 0; i < G_N_ELEMENTS (texts); i++)
    {
      g_test_message ("%s", texts[i]);
      g_assert_false (cw_grammage_parse (texts[i], &grams));
    }
  g_assert_false (cw_grammage_parse (NULL, &grams));
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/units/grammage/read", test_read);
  g_test_add_func ("/units/grammage/refused", test_refused);
  return g_test_run ();
}
