/* test-report-glue.c: bonds and zones in the report, in the form that the tool page lays down. Areas by hand.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "card-fixture.h"

#include "check/cw-report.h"

/* A tile of 2 by 1 over the right edge of the right leaf, glued all over: half of it meets the left leaf when closed.
 */
static const char *card = CARD_HEAD CARD_INCH
  "'pieces': [ { 'id': 'base', 'outline': [['0','0'],['9','0'],['9','4'],['0','4']], 'hold': ['6','3'], 'marks': ["
  " { 'id': 'spine', 'kind': 'score', 'fold': 'toward', 'line': [['5','0'],['5','4']] } ] },"
  " { 'id': 'tile', 'outline': [['0','0'],['2','0'],['2','1'],['0','1']] } ],"
  "'glue': [ { 'id': 'g', 'piece': 'tile', 'face': 'front', 'kind': 'tape', 'area': [['0','0'],['2','0'],['2','1'],"
  " ['0','1']], 'holds': { 'piece': 'base', 'panel': ['6','3'] } } ],"
  "'steps': [ { 'id': 'stick', 'do': 'stick', 'piece': 'tile', 'on': { 'piece': 'base', 'panel': ['6','3'], 'face': "
  "'back' }, 'facing': 'front', 'at': ['8 1/2','1'], 'overhang': 'meant' },"
  " { 'id': 'close', 'do': 'fold', 'rest': 'closed', 'folds': [ { 'score': 'base/spine', 'to': 180 } ] } ] }";

static void
assert_bond (JsonObject *bond, const char *step, int panel, double area, gboolean intended)
{
  JsonObject *a = json_object_get_object_member (bond, "a"), *b = json_object_get_object_member (bond, "b");

  g_assert_cmpstr (json_object_get_string_member (bond, "step"), ==, step);
  g_assert_cmpstr (json_object_get_string_member (bond, "zone"), ==, "g");
  g_assert_cmpstr (json_object_get_string_member (a, "piece"), ==, "tile");
  g_assert_cmpint (json_object_get_int_member (a, "panel"), ==, 0);
  g_assert_cmpstr (json_object_get_string_member (b, "piece"), ==, "base");
  g_assert_cmpint (json_object_get_int_member (b, "panel"), ==, panel);
  g_assert_cmpfloat_with_epsilon (json_object_get_double_member (bond, "area_sq_in"), area, 1e-9);
  g_assert_true (json_object_get_boolean_member (bond, "intended") == intended);
}

static void
test_bonds_and_zones (void)
{
  g_autoptr (CwDesign) design = card_design (card);
  g_autoptr (CwAnalysis) analysis = cw_analysis_new (design);
  g_autofree char *json = cw_report_to_text (analysis);
  g_autoptr (JsonNode) node = json_from_string (json, NULL);
  JsonObject *root = json_node_get_object (node), *zone = NULL, *stray;
  JsonArray *bonds = json_object_get_array_member (root, "bonds"), *glue = json_object_get_array_member (root, "glue");

  /* Panels are numbered from the left: the left leaf is 0. */
  g_assert_cmpuint (json_array_get_length (bonds), ==, 2);
  assert_bond (json_array_get_object_element (bonds, 0), "stick", 1, 0.5, TRUE);
  assert_bond (json_array_get_object_element (bonds, 1), "close", 0, 1, FALSE);
  for (guint i = 0; i < json_array_get_length (glue); i++)
    {
      JsonObject *face = json_array_get_object_element (glue, i);
      JsonArray *zones = json_object_get_array_member (face, "zones");

      if (json_array_get_length (zones) == 0)
        continue;
      g_assert_null (zone);
      zone = json_array_get_object_element (zones, 0);
      g_assert_cmpstr (json_object_get_string_member (face, "piece"), ==, "tile");
      g_assert_cmpstr (json_object_get_string_member (face, "face"), ==, "front");
      g_assert_cmpint (json_object_get_int_member (face, "panel"), ==, 0);
    }
  g_assert_nonnull (zone);
  g_assert_cmpfloat_with_epsilon (json_object_get_double_member (zone, "area_sq_in"), 2, 1e-9);
  g_assert_cmpfloat_with_epsilon (json_object_get_double_member (zone, "holds_sq_in"), 0.5, 1e-9);
  g_assert_cmpfloat_with_epsilon (json_object_get_double_member (zone, "strays_sq_in"), 1, 1e-9);
  g_assert_cmpuint (json_array_get_length (json_object_get_array_member (zone, "strays_to")), ==, 1);
  stray = json_array_get_object_element (json_object_get_array_member (zone, "strays_to"), 0);
  g_assert_cmpstr (json_object_get_string_member (stray, "piece"), ==, "base");
  g_assert_cmpint (json_object_get_int_member (stray, "panel"), ==, 0);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/check/report-glue/bonds-and-zones", test_bonds_and_zones);
  return g_test_run ();
}
