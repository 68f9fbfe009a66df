/* test-step-words.c: titles made from what a step does.
 *
 * The wording is ours; the facts behind it are the model's: "toward" and "away" are as seen with the front up, and an
 * angle against a score's own direction turns the word round (model.md: fold angle "positive in the score's own
 * direction, negative the other way").
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "design/cw-design-json.h"
#include "design/cw-step-words.h"

static const char design_text[]
  = "{ \"format\": \"creasewright design\", \"version\": 1,"
    "  \"papers\": [ { \"id\": \"p\" } ],"
    "  \"pieces\": [ { \"id\": \"base\", \"paper\": \"p\", \"ground\": true,"
    "    \"outline\": [[\"0 in\",\"0 in\"],[\"9 in\",\"0 in\"],[\"9 in\",\"4 in\"],[\"0 in\",\"4 in\"]],"
    "    \"marks\": ["
    "      { \"id\": \"left\", \"kind\": \"score\", \"fold\": \"toward\", \"line\": [[\"3 in\",\"0 in\"],[\"3 in\",\"4 "
    "in\"]] },"
    "      { \"id\": \"right\", \"kind\": \"score\", \"fold\": \"away\", \"line\": [[\"6 in\",\"0 in\"],[\"6 in\",\"4 "
    "in\"]] } ] },"
    "    { \"id\": \"tile\", \"name\": \"Sail\", \"paper\": \"p\","
    "      \"outline\": [[\"0 in\",\"0 in\"],[\"1 in\",\"0 in\"],[\"1 in\",\"1 in\"]], \"marks\": [] } ],"
    "  \"steps\": [ %s ] }";

static void
assert_title (const char *step, const char *title)
{
  g_autofree char *text = g_strdup_printf ("%s", design_text), *whole = NULL, *got = NULL;
  g_autoptr (GError) error = NULL;
  g_autoptr (CwDesign) design = NULL;
  char *gap = strstr (text, "%s");
  g_autoptr (GString) built = g_string_new_len (text, gap - text);

  g_string_append (built, step);
  g_string_append (built, gap + 2);
  whole = g_strdup (built->str);
  design = cw_design_from_text (whole, -1, "test", &error);
  g_assert_no_error (error);
  got = cw_step_dup_title (design, g_ptr_array_index (design->steps, 0));
  g_assert_cmpstr (got, ==, title);
}

#define FOLD(folds) "{ \"id\": \"s\", \"do\": \"fold\", \"folds\": [" folds "] }"
#define SCORE(name, to) "{ \"score\": \"base/" name "\", \"to\": " to " }"

static void
test_ways (void)
{
  assert_title (FOLD (SCORE ("left", "180")), "Fold left toward you");
  assert_title (FOLD (SCORE ("right", "180")), "Fold right away from you");
  assert_title (FOLD (SCORE ("left", "-180")), "Fold left away from you");
  assert_title (FOLD (SCORE ("right", "-180")), "Fold right toward you");
  assert_title (FOLD (SCORE ("left", "180") "," SCORE ("right", "180")), "Fold left and right");
  assert_title (FOLD (SCORE ("left", "180") "," SCORE ("right", "-180")), "Fold left and right toward you");
}

static void
test_angles (void)
{
  assert_title (FOLD (SCORE ("left", "90")), "Fold left toward you, to 90°");
  assert_title (FOLD (SCORE ("left", "0")), "Open left flat");
  assert_title (FOLD (SCORE ("left", "0") "," SCORE ("right", "0")), "Open left and right flat");
  /* one shut, one half: no one angle can be told */
  assert_title (FOLD (SCORE ("left", "180") "," SCORE ("right", "-90")), "Fold left and right toward you");
}

static void
test_other_steps (void)
{
  assert_title ("{ \"id\": \"s\", \"do\": \"fold\", \"title\": \"My own\", \"folds\": [" SCORE ("left", "0") "] }",
                "My own");
  /* What the step is for says more than the lines it folds. */
  assert_title ("{ \"id\": \"s\", \"do\": \"fold\", \"rest\": \"closed\", \"folds\": [" SCORE ("left", "180") "] }",
                "Fold the card shut");
  assert_title ("{ \"id\": \"s\", \"do\": \"fold\", \"rest\": \"open\", \"folds\": [" SCORE ("left", "0") "] }",
                "Open the card");
  assert_title ("{ \"id\": \"s\", \"do\": \"fold\", \"rest\": \"closed\", \"folds\": [] }", "Fold the card shut");
  assert_title ("{ \"id\": \"s\", \"do\": \"stick\", \"piece\": \"tile\", \"on\": { \"piece\": \"base\", \"panel\": "
                "[\"1 in\",\"1 in\"],"
                " \"face\": \"front\" }, \"facing\": \"back\", \"at\": [\"1 in\",\"1 in\"], \"turn\": 0 }",
                "Stick Sail down");
  assert_title ("{ \"id\": \"s\", \"do\": \"turn-over\" }", "Turn over");
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/text/step-words/ways-as-seen-with-the-front-up", test_ways);
  g_test_add_func ("/text/step-words/angles", test_angles);
  g_test_add_func ("/text/step-words/other-steps", test_other_steps);
  return g_test_run ();
}
