/* cw-report-remedy.c: the remedies of a finding in the report, and what each changes in the design's file.
 *
 * A change is told as JSON Patch (RFC 6902): a list of operations on places named by JSON Pointers (RFC 6901), to be
 * applied to the design as the program writes it. Lists that grow or shrink keep what they begin and end with alike;
 * what lies between is compared in pairs. So a patch is short, though not always the shortest.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "check/cw-report-private.h"

#include "check/cw-remedy.h"
#include "design/cw-design-json.h"

#include <string.h>

/* A key as it stands in a pointer: ~ and / are written ~0 and ~1 (RFC 6901, section 3). */
static char *
new_place (const char *place, const char *key)
{
  GString *text = g_string_new (place);

  g_string_append_c (text, '/');
  for (const char *p = key; *p != '\0'; p++)
    {
      if (*p == '~')
        g_string_append (text, "~0");
      else if (*p == '/')
        g_string_append (text, "~1");
      else
        g_string_append_c (text, *p);
    }
  return g_string_free (text, FALSE);
}

static char *
new_index (const char *place, guint index)
{
  return g_strdup_printf ("%s/%u", place, index);
}

static void
add_operation (JsonArray *patch, const char *what, const char *place, JsonNode *value)
{
  JsonObject *operation = json_object_new ();

  json_object_set_string_member (operation, "op", what);
  json_object_set_string_member (operation, "path", place);
  if (value != NULL)
    json_object_set_member (operation, "value", json_node_copy (value));
  json_array_add_object_element (patch, operation);
}

static void compare (JsonArray *patch, const char *place, JsonNode *was, JsonNode *is);

static void
compare_objects (JsonArray *patch, const char *place, JsonObject *was, JsonObject *is)
{
  g_autoptr (GList) old_keys = json_object_get_members (was), new_keys = json_object_get_members (is);

  for (GList *key = old_keys; key != NULL; key = key->next)
    {
      g_autofree char *at = new_place (place, key->data);

      if (json_object_has_member (is, key->data))
        compare (patch, at, json_object_get_member (was, key->data), json_object_get_member (is, key->data));
      else
        add_operation (patch, "remove", at, NULL);
    }
  for (GList *key = new_keys; key != NULL; key = key->next)
    {
      g_autofree char *at = new_place (place, key->data);

      if (!json_object_has_member (was, key->data))
        add_operation (patch, "add", at, json_object_get_member (is, key->data));
    }
}

static void
compare_lists (JsonArray *patch, const char *place, JsonArray *was, JsonArray *is)
{
  guint n_was = json_array_get_length (was), n_is = json_array_get_length (is), begin = 0, end = 0, both;

  while (begin < MIN (n_was, n_is)
         && json_node_equal (json_array_get_element (was, begin), json_array_get_element (is, begin)))
    begin++;
  while (
    end < MIN (n_was, n_is) - begin
    && json_node_equal (json_array_get_element (was, n_was - 1 - end), json_array_get_element (is, n_is - 1 - end)))
    end++;
  both = MIN (n_was, n_is) - begin - end;
  for (guint i = begin; i < begin + both; i++)
    {
      g_autofree char *at = new_index (place, i);

      compare (patch, at, json_array_get_element (was, i), json_array_get_element (is, i));
    }
  for (guint i = n_was - end; i-- > begin + both;)
    {
      g_autofree char *at = new_index (place, i);

      add_operation (patch, "remove", at, NULL);
    }
  for (guint i = begin + both; i < n_is - end; i++)
    {
      g_autofree char *at = new_index (place, i);

      add_operation (patch, "add", at, json_array_get_element (is, i));
    }
}

static void
compare (JsonArray *patch, const char *place, JsonNode *was, JsonNode *is)
{
  if (json_node_equal (was, is))
    return;
  if (JSON_NODE_HOLDS_OBJECT (was) && JSON_NODE_HOLDS_OBJECT (is))
    compare_objects (patch, place, json_node_get_object (was), json_node_get_object (is));
  else if (JSON_NODE_HOLDS_ARRAY (was) && JSON_NODE_HOLDS_ARRAY (is))
    compare_lists (patch, place, json_node_get_array (was), json_node_get_array (is));
  else
    add_operation (patch, "replace", place, is);
}

static JsonNode *
new_node (const CwDesign *design)
{
  g_autofree char *text = cw_design_to_text (design, NULL);

  return json_from_string (text, NULL);
}

/**
 * cw_report_new_remedies:
 * @analysis: an analysis
 * @finding: one of its findings
 * @most: how many remedies to tell at most
 *
 * Costs an analysis a candidate.
 *
 * Returns: (transfer full): what can be done about it, best first, each with what it changes
 */
JsonArray *
cw_report_new_remedies (const CwAnalysis *analysis, const CwFinding *finding, guint most)
{
  JsonArray *list = json_array_new ();
  g_autoptr (GPtrArray) remedies = cw_remedies_try (analysis, finding, most, NULL);
  g_autoptr (JsonNode) was = remedies->len > 0 ? new_node (analysis->design) : NULL;

  for (guint i = 0; i < remedies->len; i++)
    {
      const CwRemedy *remedy = g_ptr_array_index (remedies, i);
      g_autoptr (CwDesign) design = cw_edit_apply (remedy->edit, analysis->design);
      g_autoptr (JsonNode) is = new_node (design);
      g_autofree char *text = cw_remedy_dup_text (remedy, FALSE), *name = cw_remedy_dup_name (remedy, FALSE);
      JsonObject *entry = json_object_new ();
      JsonArray *patch = json_array_new ();

      json_object_set_string_member (entry, "text", text);
      json_object_set_string_member (entry, "name", name);
      json_object_set_boolean_member (entry, "gives_up", remedy->gives_up);
      compare (patch, "", was, is);
      json_object_set_array_member (entry, "changes", patch);
      json_array_add_object_element (list, entry);
    }
  return list;
}
