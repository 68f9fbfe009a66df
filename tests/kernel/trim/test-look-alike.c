/* test-look-alike.c: which numbers are easily taken for one another.
 *
 * The examples of the agreed house rule: 5 3/8 and 3 5/8 have the same digits, 4 1/4 and 4 1/2 the same whole. The rest
 * follows from its words; common practice, no source.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "card-fixture.h"
#include "trim/cw-look-alike.h"

static CwLength
read_length (const char *text)
{
  CwLength length;
  g_autoptr (GError) error = NULL;

  cw_length_parse (text, CW_UNIT_INCH, &length, &error);
  g_assert_no_error (error);
  return length;
}

static void
test_pairs (void)
{
  static const struct
  {
    const char *a, *b;
    gboolean alike;
  } cases[] = {
    { "5 3/8 in", "3 5/8 in", TRUE },  { "4 1/4 in", "4 1/2 in", TRUE },   { "4 3/4 in", "4 1/2 in", TRUE },
    { "4 1/4 in", "4 3/4 in", FALSE }, { "4 in", "4 1/4 in", FALSE },      { "4 1/4 in", "5 1/4 in", FALSE },
    { "4 1/4 in", "5 1/2 in", FALSE }, { "7/16 in", "3/4 in", FALSE },     { "5 in", "5 in", FALSE },
    { "52 mm", "25 mm", TRUE },        { "52 mm", "53 mm", FALSE },        { "12.5 mm", "15.2 mm", TRUE },
    { "3 in", "3 mm", FALSE },         { "1 3/16 in", "3 1/16 in", TRUE }, { "1 3/16 in", "1 7/16 in", TRUE },
    { "2 1/8 in", "8 1/2 in", FALSE },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      CwLength a = read_length (cases[i].a), b = read_length (cases[i].b);

      g_test_message ("%s and %s", cases[i].a, cases[i].b);
      g_assert_cmpint (cw_lengths_look_alike (a, b), ==, cases[i].alike);
      g_assert_cmpint (cw_lengths_look_alike (b, a), ==, cases[i].alike);
    }
}

static GPtrArray *
tell (const char *marks, const char *more)
{
  g_autofree char *text
    = g_strdup_printf (CARD_HEAD CARD_INCH "'pieces': [ { 'id': 'base', 'outline': [['0','0'],['9','0'],['9','7 1/2'],"
                                           "['0','7 1/2']], 'marks': [ %s ] }%s ] }",
                       marks, more);
  g_autoptr (CwDesign) design = card_design (text);
  g_autoptr (CwTrimming) trimming = cw_trimming_new (design, &cw_tools_usual);

  return cw_look_alikes_tell (trimming, design);
}

#define LEVEL(id, y, from, to) "{ 'id': '" id "', 'kind': 'cut', 'line': [['" from "','" y "'],['" to "','" y "']] }"
#define SCORE(id, x) "{ 'id': '" id "', 'kind': 'score', 'fold': 'away', 'line': [['" x "','0'],['" x "','7 1/2']] }"
#define SCORE_BACK(id, x)                                                                                              \
  "{ 'id': '" id "', 'kind': 'score', 'fold': 'toward', 'line': [['" x "','0'],['" x "','7 1/2']] }"
#define PLAIN(id, w, h)                                                                                                \
  ", { 'id': '" id "', 'outline': [['0','0'],['" w "','0'],['" w "','" h "'],['0','" h "']], 'marks': [] }"

/* Told where one would be set in place of the other, and only there. */
static void
test_finding (void)
{
  static const struct
  {
    const char *name, *marks, *more, *pair; /* pair: NULL: nothing to tell */
  } cases[] = {
    { "stops of one laying", SCORE ("a", "2 1/8") ", " SCORE ("b", "2 3/8"), "", "2 1/8 in / 2 3/8 in" },
    { "stops far apart", SCORE ("a", "2 1/8") ", " SCORE ("b", "6"), "", NULL },
    { "stops with the sheet turned over between", SCORE ("a", "2 1/8") ", " SCORE_BACK ("b", "2 3/8"), "", NULL },
    { "starts of two lines", LEVEL ("a", "2", "1 1/4", "3") ", " LEVEL ("b", "3", "1 1/2", "3"), "",
      "7 1/2 in / 7 3/4 in" }, /* read from the right edge: 9 less each */
    { "the two ends of one line", LEVEL ("a", "2", "1 1/4", "1 1/2"), "", NULL },
    { "digits swapped between the ends of one line", LEVEL ("a", "2", "3 5/8", "5 3/8"), "", NULL },
    { "digits swapped on two lines", LEVEL ("a", "2", "3 5/8", "8") ", " LEVEL ("b", "3", "5 3/8", "8"), "",
      "3 5/8 in / 5 3/8 in" },
    { "a start and another line's stop", LEVEL ("a", "2 1/4", "2 1/2", "5"), "", NULL },
    { "pieces that one number tells apart", SCORE ("a", "4"), PLAIN ("b", "4 1/4", "6") PLAIN ("c", "4 1/2", "6"),
      "4 1/4 in / 4 1/2 in" },
    { "pieces of quite another shape", SCORE ("a", "4"), PLAIN ("b", "4 1/4", "6") PLAIN ("c", "4 1/2", "3"), NULL },
    { "sides of one piece with swapped digits", SCORE ("a", "4"), PLAIN ("b", "5 3/8", "3 5/8"),
      "3 5/8 in / 5 3/8 in" },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (GPtrArray) said = tell (cases[i].marks, cases[i].more);

      g_test_message ("%s", cases[i].name);
      g_assert_cmpuint (said->len, ==, cases[i].pair != NULL ? 1 : 0);
      if (cases[i].pair == NULL)
        continue;
      const CwFinding *finding = said->pdata[0];
      g_assert_cmpint (finding->code, ==, CW_FINDING_LOOK_ALIKE_NUMBERS);
      g_assert_cmpint (finding->severity, ==, CW_SEVERITY_NOTE);
      g_assert_cmpstr (finding->args->pdata[0], ==, cases[i].pair);
    }
}

/* Every row that the page marks has a number of a pair, and no row of a card without pairs is marked. */
static void
test_rows (void)
{
  g_autofree char *text
    = g_strdup_printf (CARD_HEAD CARD_INCH "'pieces': [ { 'id': 'base', 'outline': [['0','0'],['9','0'],['9','7'],"
                                           "['0','7']], 'marks': [ %s ] } ] }",
                       LEVEL ("a", "2", "1 1/4", "3") ", " LEVEL ("b", "3", "1 1/2", "3") ", " LEVEL ("c", "4", "2",
                                                                                                      "3"));
  g_autoptr (CwDesign) design = card_design (text);
  g_autoptr (CwTrimming) trimming = cw_trimming_new (design, &cw_tools_usual);
  gboolean marked[3] = { FALSE };
  g_autoptr (GArray) pairs = cw_look_alikes_find (trimming, design, marked);

  g_assert_cmpuint (trimming->moves->len, ==, 3);
  g_assert_cmpuint (pairs->len, ==, 1);
  for (guint i = 0; i < 3; i++)
    g_assert_cmpint (marked[i], ==, g_array_index (trimming->moves, CwMove, i).mark != 2);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/trim/look-alike/pairs", test_pairs);
  g_test_add_func ("/trim/look-alike/told-where-they-are-mixed-up", test_finding);
  g_test_add_func ("/trim/look-alike/marks-their-rows", test_rows);
  return g_test_run ();
}
