/* test-json.c: JSON text to a tree and back.
 *
 * Checked against json-glib's own parser where the text is plain JSON, and against RFC 8259 (The JavaScript Object
 * Notation Data Interchange Format, 2017) where it is not.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "design/cw-json.h"

#include <locale.h>
#include <string.h>

#define NESTING 8

static char *
write_back (const char *text)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (JsonNode) node = cw_json_parse (text, strlen (text), NESTING, &error);
  GString *out = g_string_new (NULL);

  g_assert_no_error (error);
  cw_json_append (out, node, NULL);
  return g_string_free (out, FALSE);
}

static void
test_same_tree (void)
{
  /* Everything of the grammar of RFC 8259, sections 2 to 7, that json-glib reads the same. */
  static const char text[]
    = " { \"a\" : [ 1 , -2 , 0, 3.5, -0.25, 1e3, 2E-2, 5e+1 ] ,\r\n\t\"b\":{ \"c\":null,\"d\":true },"
      "\"e\":false, \"f\": \"\\\"\\\\\\/\\b\\f\\n\\r\\t\\u00e9\\ud83d\\ude80\xc3\xa9\", \"g\": [], \"h\": {} } ";
  g_autoptr (GError) error = NULL;
  g_autoptr (JsonParser) parser = json_parser_new ();
  g_autoptr (JsonNode) ours = cw_json_parse (text, sizeof text - 1, NESTING, &error);

  g_assert_no_error (error);
  g_assert_true (json_parser_load_from_data (parser, text, -1, &error));
  g_assert_no_error (error);
  g_assert_true (json_node_equal (ours, json_parser_get_root (parser)));

  /* And what we write is JSON to json-glib too. */
  g_autofree char *again = write_back (text);
  g_assert_true (json_parser_load_from_data (parser, again, -1, &error));
  g_assert_true (json_node_equal (ours, json_parser_get_root (parser)));
}

static void
test_numbers (void)
{
  /* Shortest decimals that read back to the same double; 0.1 + 0.2 and 1/3 are the textbook cases that need 17 and 16
   * digits (D. Goldberg, "What Every Computer Scientist Should Know About Floating-Point Arithmetic", 1991). */
  static const struct
  {
    const char *in, *out;
  } cases[] = {
    { "180", "180" },
    { "-90", "-90" },
    { "22.5", "22.5" },
    { "22.50", "22.5" },
    { "180.0", "180" },
    { "-0.0", "0" },
    { "0.1", "0.1" },
    { "0.30000000000000004", "0.30000000000000004" },
    { "0.3333333333333333", "0.3333333333333333" },
    { "1e3", "1000" },
    { "1e20", "1e+20" },
    { "9223372036854775807", "9223372036854775807" },
    { "-9223372036854775808", "-9223372036854775808" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autofree char *out = write_back (cases[i].in);
      g_assert_cmpstr (out, ==, cases[i].out);
    }
}

static void
test_locale (void)
{
  /* Any locale that writes a decimal comma will do. */
  static const char *const names[] = { "de_DE.UTF-8", "de_DE.utf8", "fr_FR.UTF-8", "fr_FR.utf8", "nl_NL.UTF-8" };
  const char *found = NULL;

  for (guint i = 0; i < G_N_ELEMENTS (names) && !found; i++)
    found = setlocale (LC_NUMERIC, names[i]);
  if (!found)
    {
      g_test_skip ("no locale with a decimal comma is installed");
      return;
    }
  g_assert_cmpstr (localeconv ()->decimal_point, ==, ",");
  g_autofree char *out = write_back ("[22.5, -0.125]");
  g_assert_cmpstr (out, ==, "[22.5, -0.125]");
  setlocale (LC_NUMERIC, "C");
}

static void
test_place_of_error (void)
{
  /* The second line, after an e with an accent, which is two bytes and one character. */
  static const char text[] = "{\n \"\xc3\xa9\": tru }";
  g_autoptr (GError) error = NULL;

  g_assert_null (cw_json_parse (text, sizeof text - 1, NESTING, &error));
  g_assert_error (error, CW_JSON_ERROR, CW_JSON_ERROR_SYNTAX);
  g_assert_true (g_str_has_prefix (error->message, "line 2, column 7: "));
}

static void
test_nesting (void)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (JsonNode) node = cw_json_parse ("[[[[[[[[]]]]]]]]", 16, NESTING, &error);

  g_assert_no_error (error);
  g_assert_nonnull (node);
  g_assert_null (cw_json_parse ("[[[[[[[[[]]]]]]]]]", 18, NESTING, &error));
  g_assert_error (error, CW_JSON_ERROR, CW_JSON_ERROR_LIMIT);

  /* Brackets in a text are no nesting. */
  g_autoptr (JsonNode) text = cw_json_parse ("\"[[[[[[[[[[[[\"", 14, NESTING, NULL);
  g_assert_nonnull (text);
}

static gboolean
open_whole (const char *key, guint level)
{
  return level == 0;
}

static void
test_layout (void)
{
  g_autoptr (GString) wide = g_string_new ("{\"a\":[");
  g_autoptr (GString) out = g_string_new (NULL);

  /* ["xxxxxxxxx", ...]: ten of 9 letters make 10 * 13 + 2 - 2 = 130 characters after "  "a": ", 137 in all, under the
   * limit of 140; eleven do not fit. */
  for (guint i = 0; i < 10; i++)
    g_string_append_printf (wide, "%s\"xxxxxxxxx\"", i > 0 ? "," : "");
  g_string_append (wide, "],\"b\":{}}");
  g_autoptr (JsonNode) fits = cw_json_parse (wide->str, wide->len, NESTING, NULL);
  cw_json_append (out, fits, open_whole);
  g_auto (GStrv) lines = g_strsplit (out->str, "\n", -1);
  g_assert_cmpuint (g_strv_length (lines), ==, 4);
  g_assert_cmpuint (strlen (lines[1]), <=, CW_JSON_COLUMNS);
  g_assert_cmpstr (lines[2], ==, "  \"b\": {}");

  g_string_insert (wide, 6, "\"xxxxxxxxx\",");
  g_autoptr (JsonNode) breaks = cw_json_parse (wide->str, wide->len, NESTING, NULL);
  g_string_truncate (out, 0);
  cw_json_append (out, breaks, open_whole);
  g_auto (GStrv) more = g_strsplit (out->str, "\n", -1);
  g_assert_cmpuint (g_strv_length (more), ==, 1 + 1 + 11 + 1 + 1 + 1);
  g_assert_cmpstr (more[1], ==, "  \"a\": [");
  g_assert_cmpstr (more[2], ==, "    \"xxxxxxxxx\",");
}

static void
test_copy (void)
{
  static const char text[] = "{\"a\":{\"b\":[{\"c\":1}]}}";
  g_autoptr (JsonNode) node = cw_json_parse (text, sizeof text - 1, NESTING, NULL);
  g_autoptr (JsonNode) copy = cw_json_node_copy (node);

  g_assert_true (json_node_equal (node, copy));
  JsonObject *a = json_object_get_object_member (json_node_get_object (copy), "a");
  JsonObject *deep = json_array_get_object_element (json_object_get_array_member (a, "b"), 0);
  json_object_set_int_member (deep, "c", 2);
  g_autofree char *still = write_back (text);
  GString *out = g_string_new (NULL);
  cw_json_append (out, node, NULL);
  g_autofree char *now = g_string_free (out, FALSE);
  g_assert_cmpstr (now, ==, still);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/json/text/same-tree-as-json-glib", test_same_tree);
  g_test_add_func ("/json/text/numbers-keep-their-value", test_numbers);
  g_test_add_func ("/json/text/locale-changes-nothing", test_locale);
  g_test_add_func ("/json/text/error-names-line-and-column", test_place_of_error);
  g_test_add_func ("/json/text/nesting-is-limited", test_nesting);
  g_test_add_func ("/json/layout/one-line-where-it-fits", test_layout);
  g_test_add_func ("/json/tree/copy-shares-nothing", test_copy);
  return g_test_run ();
}
