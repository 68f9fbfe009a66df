/* cw-step-detail.c: what a maker may say of a step besides what is done, as text by the file's own key.
 *
 * An empty text takes the detail away.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "make/cw-make-step.h"

#include <string.h>

/**
 * cw_step_dup_detail:
 * @step: a step
 * @key: "minutes", "who", "tools", "wait" or "caution"
 *
 * Returns: (transfer full): what stands there as one line; a list with commas between; "" when nothing does
 */
char *
cw_step_dup_detail (const CwStep *step, const char *key)
{
  JsonNode *node = NULL;
  g_autoptr (GString) line = g_string_new (NULL);

  g_return_val_if_fail (step && key, NULL);

  if (step->extra && json_object_has_member (step->extra, key))
    node = json_object_get_member (step->extra, key);
  if (node && JSON_NODE_HOLDS_ARRAY (node))
    {
      JsonArray *list = json_node_get_array (node);

      for (guint i = 0; i < json_array_get_length (list); i++)
        {
          JsonNode *one = json_array_get_element (list, i);

          if (JSON_NODE_HOLDS_VALUE (one) && json_node_get_value_type (one) == G_TYPE_STRING)
            g_string_append_printf (line, "%s%s", line->len > 0 ? ", " : "", json_node_get_string (one));
        }
    }
  else if (node && JSON_NODE_HOLDS_VALUE (node))
    {
      if (json_node_get_value_type (node) == G_TYPE_STRING)
        g_string_append (line, json_node_get_string (node));
      else if (json_node_get_value_type (node) == G_TYPE_INT64)
        g_string_append_printf (line, "%" G_GINT64_FORMAT, json_node_get_int (node));
      else if (json_node_get_value_type (node) == G_TYPE_DOUBLE)
        {
          char text[G_ASCII_DTOSTR_BUF_SIZE];

          g_string_append (line, g_ascii_dtostr (text, sizeof text, json_node_get_double (node)));
        }
    }
  return g_string_free (g_steal_pointer (&line), FALSE);
}

static JsonNode *
make_detail (const char *key, const char *text)
{
  JsonNode *node = json_node_new (JSON_NODE_VALUE);
  char *end = NULL;
  gint64 whole = g_ascii_strtoll (text, &end, 10);

  if (g_str_equal (key, "minutes") && *end == '\0' && whole >= 0)
    {
      json_node_set_int (node, whole);
      return node;
    }
  if (g_str_equal (key, "tools") && strchr (text, ','))
    {
      g_auto (GStrv) each = g_strsplit (text, ",", -1);
      JsonArray *list = json_array_new ();

      for (guint i = 0; each[i]; i++)
        if (*g_strstrip (each[i]) != '\0')
          json_array_add_string_element (list, each[i]);
      json_node_init_array (node, list);
      json_array_unref (list);
      return node;
    }
  json_node_set_string (node, text);
  return node;
}

/**
 * cw_step_set_detail:
 * @copy: a step that is not shared yet
 * @key: "minutes", "who", "tools", "wait" or "caution"
 * @text: (nullable): what is to stand there: minutes as a number where it is one, tools with commas as a list; NULL or
 *   "" takes it away
 */
void
cw_step_set_detail (CwStep *copy, const char *key, const char *text)
{
  g_return_if_fail (copy && key);

  if (!copy->extra)
    copy->extra = json_object_new ();
  if (text && *text)
    json_object_set_member (copy->extra, key, make_detail (key, text));
  else if (json_object_has_member (copy->extra, key))
    json_object_remove_member (copy->extra, key);
  if (json_object_get_size (copy->extra) == 0)
    g_clear_pointer (&copy->extra, json_object_unref);
}
