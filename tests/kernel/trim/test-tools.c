/* test-tools.c: the maker's tools as text, and what they cannot set.
 *
 * What every key means is in the words ("rule direction and reach, finest mark, start/stop rule, board grooves,
 * narrowest strip, pull up or down"); lengths are those of an inch of 25.4 mm (international yard and pound agreement,
 * 1959): 8128 ticks.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "card-fixture.h"
#include "trim/cw-trimmer.h"

static void
test_values (void)
{
  static const struct
  {
    const char *key, *value, *back; /* back: as it is written; NULL: refused */
  } cases[] = {
    { "rule", "right-to-left", "right-to-left" },
    { "rule", "left-to-right", "left-to-right" },
    { "rule", "upwards", NULL },
    { "reach", "12 in", "12 in" },
    { "reach", "305 mm", "305 mm" },
    { "reach", "0", NULL },
    { "reach", "-3 in", NULL },
    { "reach", "none", NULL },
    { "reach", "90 in", NULL },
    { "finest", "1/16", "1/16 in" },
    { "finest", "0.5 mm", "0.5 mm" },
    { "finest", "as-drawn", "as-drawn" },
    { "finest", "1/3 in", NULL }, /* no whole tick */
    { "stops", "no", "no" },
    { "stops", "maybe", NULL },
    { "grooves", "1/8 in", "1/8 in" },
    { "grooves", "none", "none" },
    { "narrowest", "1/2 in", "1/2 in" },
    { "pull", "up", "up" },
    { "scores", "one-face", "one-face" },
    { "blade", "sharp", NULL },
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      CwTools tools = cw_tools_usual;
      g_autoptr (GError) error = NULL;
      gboolean set = cw_tools_set (&tools, cases[i].key, cases[i].value, &error);

      g_test_message ("%s=%s", cases[i].key, cases[i].value);
      g_assert_cmpint (set, ==, cases[i].back != NULL);
      g_assert_cmpint (error == NULL, ==, set);
      if (set)
        {
          g_autofree char *back = cw_tools_dup_value (&tools, cases[i].key);

          g_assert_cmpstr (back, ==, cases[i].back);
        }
      else
        {
          g_assert_cmpmem (&tools, sizeof tools, &cw_tools_usual, sizeof tools);
          g_assert_nonnull (strstr (error->message, cases[i].key));
        }
    }
}

/* What is written is read back, and every key stands in it. */
static void
test_text (void)
{
  const CwTools odd = { .right_to_left = TRUE,
                        .reach = 15 * CW_TICKS_PER_INCH,
                        .finest = CW_TICKS_PER_MM,
                        .has_stops = FALSE,
                        .groove = 0,
                        .narrowest = 20 * CW_TICKS_PER_MM,
                        .pull_up = TRUE,
                        .one_face = TRUE };
  CwTools tools = cw_tools_usual, other = cw_tools_usual;
  g_autofree char *text = cw_tools_to_text (&odd);
  g_autoptr (GError) error = NULL;

  g_assert_true (cw_tools_read (&tools, text, &error));
  g_assert_no_error (error);
  g_assert_cmpmem (&tools, sizeof tools, &odd, sizeof odd);
  g_assert_true (cw_tools_equal (&tools, &odd));
  for (guint i = 0; cw_tools_get_keys ()[i] != NULL; i++)
    {
      g_autofree char *value = cw_tools_dup_value (&cw_tools_usual, cw_tools_get_keys ()[i]);
      CwTools one = odd;

      g_assert_true (cw_tools_set (&one, cw_tools_get_keys ()[i], value, NULL));
      g_assert_false (cw_tools_equal (&one, &odd));
    }
  for (guint i = 0; cw_tools_get_keys ()[i] != NULL; i++)
    {
      g_autofree char *line = g_strdup_printf ("\n%s=", cw_tools_get_keys ()[i]);

      g_assert_nonnull (strstr (text, line));
    }

  /* What is left out stays; a wrong line changes nothing. */
  g_assert_true (cw_tools_read (&other, "[tools]\npull = up\n", NULL));
  g_assert_true (other.pull_up);
  g_assert_cmpint (other.reach, ==, cw_tools_usual.reach);
  g_assert_false (cw_tools_read (&other, "[tools]\npull=down\nreach=far\n", &error));
  g_assert_error (error, CW_LENGTH_ERROR, CW_LENGTH_ERROR_SYNTAX);
  g_assert_true (other.pull_up);
  g_clear_error (&error);
  g_assert_false (cw_tools_read (&other, "pull: up", &error));
  g_assert_error (error, CW_TOOLS_ERROR, CW_TOOLS_ERROR_TEXT);
}

/* A sheet of 9 x 7 inches with scores at 4 1/8 and 4 1/16 and a slit from 1 to 2 1/2 inches. */
static void
test_off_marks (void)
{
  static const struct
  {
    const char *finest;
    const char *told[3];
  } cases[] = {
    { "as-drawn", { NULL } },
    { "1/16 in", { NULL } },
    { "1/8 in", { "base/b", NULL } },
    { "1/4 in", { "base/b", "base/a", NULL } },
  };
  g_autoptr (CwDesign) design = card_design (
    CARD_HEAD CARD_INCH "'pieces': [ { 'id': 'base', 'outline': [['0','0'],['9','0'],['9','7'],['0','7']], 'marks': ["
                        "{ 'id': 'a', 'kind': 'score', 'fold': 'away', 'line': [['4 1/8','0'],['4 1/8','7']] },"
                        "{ 'id': 'b', 'kind': 'score', 'fold': 'away', 'line': [['4 1/16','0'],['4 1/16','7']] },"
                        "{ 'id': 'c', 'kind': 'cut', 'line': [['1','2'],['2 1/2','2']] } ] } ] }");

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      CwTools tools = cw_tools_usual;
      g_autoptr (CwTrimming) trimming = NULL;
      g_autoptr (GPtrArray) findings = NULL;
      guint n = 0;

      g_test_message ("%s", cases[i].finest);
      g_assert_true (cw_tools_set (&tools, "finest", cases[i].finest, NULL));
      trimming = cw_trimming_new (design, &tools);
      findings = cw_trimming_tell_off_marks (trimming, design, &tools);
      for (; cases[i].told[n] != NULL; n++)
        {
          gboolean found = FALSE;

          for (guint k = 0; k < findings->len; k++)
            {
              const CwFinding *finding = findings->pdata[k];

              g_assert_cmpint (finding->code, ==, CW_FINDING_OFF_SNAP);
              g_assert_cmpint (finding->severity, ==, CW_SEVERITY_NOTE);
              found |= g_strcmp0 (finding->marks->pdata[0], cases[i].told[n]) == 0;
            }
          g_assert_true (found);
        }
      g_assert_cmpuint (findings->len, ==, n);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/trim/tools/values", test_values);
  g_test_add_func ("/trim/tools/text", test_text);
  g_test_add_func ("/trim/tools/off-their-marks", test_off_marks);
  return g_test_run ();
}
