/* cw-json-write.c: writes JSON text, and copies trees.
 *
 * Layout: a list or an object that fits on its line goes on that line, another one entry a line, indented by two. Text
 * gets the escapes that RFC 8259 (2017), section 7, asks for and no others; numbers the fewest digits that read back to
 * them, whatever the locale. Cannot fail: the trees come from cw-json-read.c or from our own writers, so they are no
 * deeper than a file may be.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "design/cw-json.h"

#include <math.h>
#include <string.h>

/**
 * cw_json_append_string:
 * @text: where to write
 * @string: UTF-8
 *
 * Writes @string in quotes, with the escapes that JSON asks for and no others (RFC 8259 section 7).
 */
void
cw_json_append_string (GString *text, const char *string)
{
  g_string_append_c (text, '"');
  for (const char *p = string; *p; p++)
    switch (*p)
      {
      case '"':
        g_string_append (text, "\\\"");
        break;
      case '\\':
        g_string_append (text, "\\\\");
        break;
      case '\n':
        g_string_append (text, "\\n");
        break;
      case '\t':
        g_string_append (text, "\\t");
        break;
      case '\r':
        g_string_append (text, "\\r");
        break;
      default:
        if ((guchar) *p < 0x20)
          g_string_append_printf (text, "\\u%04x", (guint) *p);
        else
          g_string_append_c (text, *p);
      }
  g_string_append_c (text, '"');
}

/**
 * cw_json_append_double:
 * @text: where to write
 * @number: a finite number
 *
 * Writes @number with the fewest digits that read back to it, without ".0", never as -0, whatever the locale.
 */
void
cw_json_append_double (GString *text, double number)
{
  char digits[G_ASCII_DTOSTR_BUF_SIZE] = "0";

  g_return_if_fail (isfinite (number));
  if (fpclassify (number) != FP_ZERO)
    for (int precision = 15; precision <= 17; precision++)
      {
        char format[] = "%.10g";
        format[3] = (char) ('0' + precision % 10);
        g_ascii_formatd (digits, sizeof digits, format, number);
        double back = g_ascii_strtod (digits, NULL);
        if (memcmp (&back, &number, sizeof back) == 0)
          break;
      }
  g_string_append (text, digits);
}

static void
append_scalar (GString *text, JsonNode *node)
{
  if (JSON_NODE_HOLDS_NULL (node))
    g_string_append (text, "null");
  else if (json_node_get_value_type (node) == G_TYPE_STRING)
    cw_json_append_string (text, json_node_get_string (node));
  else if (json_node_get_value_type (node) == G_TYPE_BOOLEAN)
    g_string_append (text, json_node_get_boolean (node) ? "true" : "false");
  else if (json_node_get_value_type (node) == G_TYPE_INT64)
    g_string_append_printf (text, "%" G_GINT64_FORMAT, json_node_get_int (node));
  else
    cw_json_append_double (text, json_node_get_double (node));
}

/* Writes on one line; gives up, FALSE, as soon as the text is longer than `limit` bytes: a quick bound that the exact
 * count of characters follows. */
static gboolean
append_inline (GString *text, JsonNode *node, gsize limit)
{
  if (text->len > limit)
    return FALSE;
  if (JSON_NODE_HOLDS_ARRAY (node))
    {
      JsonArray *list = json_node_get_array (node);
      guint n = json_array_get_length (list);

      g_string_append_c (text, '[');
      for (guint i = 0; i < n; i++)
        {
          if (i > 0)
            g_string_append (text, ", ");
          if (!append_inline (text, json_array_get_element (list, i), limit))
            return FALSE;
        }
      g_string_append_c (text, ']');
    }
  else if (JSON_NODE_HOLDS_OBJECT (node))
    {
      JsonObjectIter iter;
      const char *key;
      JsonNode *value;
      const char *before = "{ ";

      if (json_object_get_size (json_node_get_object (node)) == 0)
        g_string_append (text, "{");
      json_object_iter_init_ordered (&iter, json_node_get_object (node));
      while (json_object_iter_next_ordered (&iter, &key, &value))
        {
          g_string_append (text, before);
          cw_json_append_string (text, key);
          g_string_append (text, ": ");
          if (!append_inline (text, value, limit))
            return FALSE;
          before = ", ";
        }
      g_string_append (text, json_object_get_size (json_node_get_object (node)) == 0 ? "}" : " }");
    }
  else
    append_scalar (text, node);
  return text->len <= limit;
}

static void
append_line (GString *text, guint indent)
{
  g_string_append_c (text, '\n');
  for (guint i = 0; i < indent; i++)
    g_string_append_c (text, ' ');
}

/* Writes @node, which begins after `taken` characters of a line. */
static void
append_node (GString *text, JsonNode *node, CwJsonOpen is_open, const char *key, guint level, glong taken)
{
  gboolean is_list = JSON_NODE_HOLDS_ARRAY (node);
  gsize start = text->len;
  guint n = 0;

  if (is_list)
    n = json_array_get_length (json_node_get_array (node));
  else if (JSON_NODE_HOLDS_OBJECT (node))
    n = json_object_get_size (json_node_get_object (node));
  if (n == 0)
    {
      append_inline (text, node, G_MAXSIZE);
      return;
    }
  if (!is_open || !is_open (key, level))
    {
      /* A character has at most four bytes; one column is kept for a comma. */
      if (append_inline (text, node, start + 4 * CW_JSON_COLUMNS)
          && taken + g_utf8_strlen (text->str + start, (gssize) (text->len - start)) < CW_JSON_COLUMNS)
        return;
      g_string_truncate (text, start);
    }

  guint indent = 2 * (level + 1);
  if (is_list)
    for (guint i = 0; i < n; i++)
      {
        g_string_append_c (text, i == 0 ? '[' : ',');
        append_line (text, indent);
        append_node (text, json_array_get_element (json_node_get_array (node), i), is_open, key, level + 1, indent);
      }
  else
    {
      JsonObjectIter iter;
      const char *member;
      JsonNode *value;
      char before = '{';

      json_object_iter_init_ordered (&iter, json_node_get_object (node));
      while (json_object_iter_next_ordered (&iter, &member, &value))
        {
          g_string_append_c (text, before);
          before = ',';
          append_line (text, indent);
          gsize line = text->len;
          cw_json_append_string (text, member);
          g_string_append (text, ": ");
          append_node (text, value, is_open, member, level + 1,
                       (glong) indent + g_utf8_strlen (text->str + line, (gssize) (text->len - line)));
        }
    }
  append_line (text, indent - 2);
  g_string_append_c (text, is_list ? ']' : '}');
}

/**
 * cw_json_append:
 * @text: where to write, at the beginning of a line
 * @node: a tree
 * @is_open: (nullable): what is written one entry a line in any case
 *
 * Writes @node with an indent of two: a list or an object that fits on its line goes on that line, another one entry a
 * line. The same tree gives the same bytes.
 */
void
cw_json_append (GString *text, JsonNode *node, CwJsonOpen is_open)
{
  append_node (text, node, is_open, NULL, 0, 0);
}

static void
copy_member (JsonObject *object, const char *key, JsonNode *node, gpointer copy)
{
  json_object_set_member (copy, key, cw_json_node_copy (node));
}

/**
 * cw_json_object_copy:
 * @object: an object
 *
 * Returns: (transfer full): a copy that shares nothing with @object, its members in the same order
 */
JsonObject *
cw_json_object_copy (JsonObject *object)
{
  JsonObject *copy = json_object_new ();

  json_object_foreach_member (object, copy_member, copy);
  return copy;
}

/**
 * cw_json_node_copy:
 * @node: a tree
 *
 * Returns: (transfer full): a copy that shares nothing with @node
 */
JsonNode *
cw_json_node_copy (JsonNode *node)
{
  if (JSON_NODE_HOLDS_OBJECT (node))
    {
      g_autoptr (JsonObject) object = cw_json_object_copy (json_node_get_object (node));
      return json_node_init_object (json_node_alloc (), object);
    }
  if (JSON_NODE_HOLDS_ARRAY (node))
    {
      g_autoptr (JsonArray) list = json_array_new ();
      JsonArray *from = json_node_get_array (node);

      for (guint i = 0; i < json_array_get_length (from); i++)
        json_array_add_element (list, cw_json_node_copy (json_array_get_element (from, i)));
      return json_node_init_array (json_node_alloc (), list);
    }
  return json_node_copy (node);
}
