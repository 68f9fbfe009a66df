/* test-report.c: the report's form as the tool page lays it down.
 *
 * Positions and areas are worked by hand. No outside source beyond plane geometry and 1 inch = 25.4 mm (international
 * yard and pound agreement, 1959).
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "card-fixture.h"

#include "check/cw-report.h"

#include <locale.h>

static const char *flap = CARD_HEAD CARD_INCH
  "'pieces': [ { 'id': 'base', 'outline': [['0','0'],['8','0'],['8','6'],['0','6']], 'hold': ['6','3'], 'marks': ["
  " { 'id': 'spine', 'kind': 'score', 'fold': 'away', 'line': [['4','0'],['4','6']] },"
  " { 'id': 'hole', 'kind': 'window', 'rect': [['1','1'],['2','3']] } ],"
  " 'names': [ { 'name': 'flap', 'at': ['3','5'] } ] },"
  " { 'id': 'tag', 'outline': [['0','0'],['1','0'],['1','1'],['0','1']], 'marks': [] } ],"
  "'steps': [ { 'id': 'fold', 'do': 'fold', 'rest': 'standing', 'folds': [ { 'score': 'base/spine', 'to': 90 } ] },"
  " { 'id': 'lay', 'do': 'stick', 'piece': 'tag', 'on': { 'piece': 'base', 'panel': ['3','5'], 'face': 'front' },"
  " 'facing': 'back', 'at': ['-1/2','2'] },"
  " { 'id': 'shut', 'do': 'fold', 'rest': 'closed', 'folds': [ { 'score': 'base/spine', 'to': 180 } ] } ] }";

static JsonNode *
report (const char *text, JsonObject **root)
{
  g_autoptr (CwDesign) design = card_design (text);
  g_autoptr (CwAnalysis) analysis = cw_analysis_new (design);
  g_autofree char *json = cw_report_to_text (analysis);
  g_autoptr (GError) error = NULL;
  JsonNode *node = json_from_string (json, &error);

  g_assert_no_error (error);
  *root = json_node_get_object (node);
  return node;
}

static JsonObject *
entry (JsonObject *object, const char *list, guint index)
{
  return json_array_get_object_element (json_object_get_array_member (object, list), index);
}

static double
number (JsonObject *object, const char *list, guint index)
{
  return json_array_get_double_element (json_object_get_array_member (object, list), index);
}

static void
test_pieces (void)
{
  JsonObject *root, *base, *hinge;
  g_autoptr (JsonNode) node G_GNUC_UNUSED = report (flap, &root);
  gboolean seen = FALSE;

  base = entry (root, "pieces", 0);
  g_assert_cmpstr (json_object_get_string_member (base, "id"), ==, "base");
  g_assert_cmpfloat_with_epsilon (json_object_get_double_member (base, "area_sq_in"), 48 - 2, 1e-9);
  g_assert_cmpuint (json_array_get_length (json_object_get_array_member (base, "panels")), ==, 2);
  for (guint i = 0; i < 2; i++)
    {
      JsonObject *panel = entry (base, "panels", i);

      if (!json_object_has_member (panel, "name"))
        continue;
      seen = TRUE;
      g_assert_cmpint (json_object_get_int_member (panel, "panel"), ==, i);
      g_assert_cmpfloat_with_epsilon (json_object_get_double_member (panel, "area_sq_in"), 24 - 2, 1e-9);
      g_assert_cmpfloat_with_epsilon (number (panel, "at_in", 0), 3, 1e-9);
      g_assert_cmpfloat_with_epsilon (number (panel, "at_in", 1), 5, 1e-9);
      /* The rim and the hole. */
      g_assert_cmpuint (json_array_get_length (json_object_get_array_member (panel, "corners_in")), ==, 2);
    }
  g_assert_true (seen);
  hinge = entry (base, "hinges", 0);
  g_assert_cmpstr (json_array_get_string_element (json_object_get_array_member (hinge, "scores"), 0), ==, "spine");
  g_assert_cmpstr (json_object_get_string_member (hinge, "fold"), ==, "away");
  g_assert_cmpfloat_with_epsilon (json_object_get_double_member (hinge, "length_in"), 6, 1e-9);
}

static void
test_states (void)
{
  JsonObject *root, *state;
  g_autoptr (JsonNode) node G_GNUC_UNUSED = report (flap, &root);
  JsonArray *states = json_object_get_array_member (root, "states");

  g_assert_cmpuint (json_array_get_length (states), ==, 3);
  g_assert_cmpint (json_object_get_int_member (root, "bodies"), ==, 2);
  g_assert_cmpint (json_object_get_int_member (root, "loops"), ==, 0);
  g_assert_cmpuint (json_array_get_length (json_object_get_array_member (root, "bonds")), ==, 0);

  /* Standing: not flat, so no size; the tag is not on the card yet; the angle is told in the score's own direction. */
  state = entry (root, "states", 0);
  g_assert_cmpstr (json_object_get_string_member (state, "step"), ==, "fold");
  g_assert_cmpstr (json_object_get_string_member (state, "rest"), ==, "standing");
  g_assert_false (json_object_get_boolean_member (state, "flat"));
  g_assert_false (json_object_has_member (state, "size_in"));
  g_assert_cmpuint (json_array_get_length (json_object_get_array_member (state, "panels")), ==, 2);
  g_assert_cmpfloat_with_epsilon (json_object_get_double_member (entry (state, "angles", 0), "deg"), 90, 1e-9);
  g_assert_cmpint (json_object_get_int_member (state, "freedom"), ==, 1);

  state = entry (root, "states", 1);
  g_assert_false (json_object_has_member (state, "rest"));
  g_assert_cmpuint (json_array_get_length (json_object_get_array_member (state, "panels")), ==, 3);

  /* Shut: the tag, 1/2 inch over the flap's edge at x = 0, goes to 8 .. 8 1/2. */
  state = entry (root, "states", 2);
  g_assert_true (json_object_get_boolean_member (state, "flat"));
  g_assert_cmpfloat_with_epsilon (number (state, "size_in", 0), 4.5, 1e-9);
  g_assert_cmpfloat_with_epsilon (number (state, "size_in", 1), 6, 1e-9);
  g_assert_cmpfloat_with_epsilon (number (state, "box_in", 0), 4, 1e-9);
  g_assert_cmpfloat_with_epsilon (number (state, "box_in", 2), 8.5, 1e-9);
  for (guint i = 0; i < 3; i++)
    {
      JsonObject *panel = entry (state, "panels", i);
      JsonArray *row = json_array_get_array_element (json_object_get_array_member (panel, "place"), 0);

      if (g_str_equal (json_object_get_string_member (panel, "piece"), "tag"))
        {
          /* (u, v) is (u - 1/2, v + 2) on the flap, and that is reflected in x = 4. */
          g_assert_cmpfloat_with_epsilon (json_array_get_double_element (row, 0), -1, 1e-12);
          g_assert_cmpfloat_with_epsilon (json_array_get_double_element (row, 3), 8.5, 1e-9);
        }
    }
}

static void
test_bytes_do_not_depend_on_the_run_or_locale (void)
{
  g_autoptr (CwDesign) design = card_design (flap);
  g_autoptr (CwAnalysis) first = cw_analysis_new (design);
  g_autoptr (CwAnalysis) second = cw_analysis_new (design);
  g_autofree char *a = cw_report_to_text (first), *b = cw_report_to_text (second), *c = NULL;
  static const char *const others[] = { "de_DE.UTF-8", "fr_FR.UTF-8", "nl_NL.UTF-8", NULL };
  const char *other = NULL;

  g_assert_cmpstr (a, ==, b);
  g_assert_true (g_str_has_suffix (a, "}\n"));
  g_assert_null (strstr (a, "-0,"));
  g_assert_null (strstr (a, "-0]"));
  for (guint i = 0; other == NULL && others[i] != NULL; i++)
    other = setlocale (LC_ALL, others[i]);
  c = cw_report_to_text (first);
  setlocale (LC_ALL, "C");
  g_assert_cmpstr (a, ==, c);
}

static void
test_finding (void)
{
  JsonObject *root, *finding, *amount;
  g_autoptr (JsonNode) node G_GNUC_UNUSED
    = report (CARD_HEAD CARD_INCH
              "'pieces': [ { 'id': 'base', 'outline': [['0','0'],['8','0'],['8','6'],['0','6']], 'marks': ["
              " { 'id': 'spine', 'kind': 'score', 'fold': 'toward', 'line': [['4','0'],['4','5 1/2']] } ] } ],"
              "'steps': [] }",
              &root);

  g_assert_cmpstr (json_object_get_string_member (root, "verdict"), ==, "errors");
  finding = entry (root, "findings", 0);
  g_assert_cmpstr (json_object_get_string_member (finding, "code"), ==, "score-stops-short");
  g_assert_cmpstr (json_object_get_string_member (finding, "severity"), ==, "error");
  g_assert_false (json_object_has_member (finding, "step"));
  amount = json_object_get_object_member (finding, "amount");
  g_assert_cmpstr (json_object_get_string_member (amount, "text"), ==, "1/2 in");
  g_assert_cmpstr (json_object_get_string_member (amount, "unit"), ==, "in");
  g_assert_cmpfloat_with_epsilon (json_object_get_double_member (amount, "value"), 0.5, 1e-9);
  g_assert_nonnull (strstr (json_object_get_string_member (finding, "text"), "1/2 in"));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/check/report/pieces", test_pieces);
  g_test_add_func ("/check/report/states", test_states);
  g_test_add_func ("/check/report/same-bytes", test_bytes_do_not_depend_on_the_run_or_locale);
  g_test_add_func ("/check/report/finding", test_finding);
  return g_test_run ();
}
