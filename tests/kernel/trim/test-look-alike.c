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
tell (const char *one, const char *other)
{
  g_autofree char *text
    = g_strdup_printf (CARD_HEAD CARD_INCH
                       "'pieces': [ { 'id': 'base', 'outline': [['0','0'],['9','0'],['9','7'],['0','7']], 'marks': ["
                       "{ 'id': 'a', 'kind': 'score', 'fold': 'away', 'line': [['%s','0'],['%s','7']] },"
                       "{ 'id': 'b', 'kind': 'score', 'fold': 'away', 'line': [['%s','0'],['%s','7']] } ] } ] }",
                       one, one, other, other);
  g_autoptr (CwDesign) design = card_design (text);

  return cw_look_alikes_tell (design);
}

static void
test_finding (void)
{
  g_autoptr (GPtrArray) quiet = tell ("2 1/8", "6"), said = tell ("2 1/8", "2 3/8");

  g_assert_cmpuint (quiet->len, ==, 0);
  g_assert_cmpuint (said->len, ==, 1);
  const CwFinding *finding = said->pdata[0];
  g_assert_cmpint (finding->code, ==, CW_FINDING_LOOK_ALIKE_NUMBERS);
  g_assert_cmpint (finding->severity, ==, CW_SEVERITY_NOTE);
  g_assert_nonnull (strstr (finding->args->pdata[0], "2 1/8 in / 2 3/8 in"));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/trim/look-alike/pairs", test_pairs);
  g_test_add_func ("/trim/look-alike/one-note-for-a-design", test_finding);
  return g_test_run ();
}
