/* cw-json.c: reads and writes JSON text strictly (RFC 8259, 2017; the standard is named where a rule is its own).
 *
 * Method: recursive descent with a limit on depth, straight to json-glib's tree. Numbers become 64-bit integers where
 * they are written as integers and fit, else doubles; both are read and written without regard to the locale.
 * Refuses, naming line and column: everything that is not JSON, deeper nesting than asked for, a key given twice (RFC
 * 8259 section 4 leaves their meaning open), numbers beyond a double, \u0000 and halves of surrogate pairs (section 8.2
 * leaves those open; neither can be kept in a C string of UTF-8).
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "design/cw-json.h"

#include <glib/gi18n-lib.h>
#include <math.h>
#include <string.h>

typedef struct
{
  const char *start, *at, *end;
  guint depth, depth_max;
  GError **error;
} Text;

G_DEFINE_QUARK (cw - json - error - quark, cw_json_error)

static JsonNode *read_value (Text *text);

/* Sets the error with the line and the column, in characters, of `at`. */
static gboolean
fail (Text *text, const char *at, CwJsonError code, const char *words)
{
  guint line = 1;
  const char *line_start = text->start;

  for (const char *p = text->start; p < at; p++)
    if (*p == '\n')
      {
        line++;
        line_start = p + 1;
      }
  g_set_error (text->error, CW_JSON_ERROR, code, _ ("line %u, column %ld: %s"), line,
               g_utf8_strlen (line_start, at - line_start) + 1, words);
  return FALSE;
}

static void
skip_space (Text *text)
{
  while (text->at < text->end && strchr (" \t\n\r", *text->at) && *text->at)
    text->at++;
}

static gboolean
skip_char (Text *text, char c)
{
  if (text->at >= text->end || *text->at != c)
    return FALSE;
  text->at++;
  return TRUE;
}

static gboolean
skip_digits (Text *text)
{
  const char *start = text->at;

  while (text->at < text->end && g_ascii_isdigit (*text->at))
    text->at++;
  return text->at > start;
}

static gboolean
read_hex4 (Text *text, gunichar *c)
{
  *c = 0;
  for (guint i = 0; i < 4; i++, text->at++)
    {
      if (text->at >= text->end || !g_ascii_isxdigit (*text->at))
        return fail (text, text->at, CW_JSON_ERROR_SYNTAX, _ ("expected four hexadecimal digits after \\u"));
      *c = *c * 16 + (gunichar) g_ascii_xdigit_value (*text->at);
    }
  return TRUE;
}

/* Reads what stands after a backslash. */
static gboolean
read_escape (Text *text, GString *string)
{
  static const char names[] = "\"\\/bfnrt";
  static const char means[] = "\"\\/\b\f\n\r\t";
  const char *start = text->at - 1;
  const char *name = text->at < text->end && *text->at ? strchr (names, *text->at) : NULL;
  gunichar c, low = 0;

  if (name)
    {
      g_string_append_c (string, means[name - names]);
      text->at++;
      return TRUE;
    }
  if (!skip_char (text, 'u'))
    return fail (text, start, CW_JSON_ERROR_SYNTAX, _ ("expected one of \" \\ / b f n r t u after a backslash"));
  if (!read_hex4 (text, &c))
    return FALSE;
  if (c >= 0xD800 && c <= 0xDBFF)
    {
      if (text->end - text->at < 2 || text->at[0] != '\\' || text->at[1] != 'u')
        return fail (text, start, CW_JSON_ERROR_LIMIT, _ ("half a character of two \\u parts stands alone"));
      text->at += 2;
      if (!read_hex4 (text, &low))
        return FALSE;
      if (low < 0xDC00 || low > 0xDFFF)
        return fail (text, start, CW_JSON_ERROR_LIMIT, _ ("half a character of two \\u parts stands alone"));
      c = 0x10000 + ((c - 0xD800) << 10) + (low - 0xDC00);
    }
  else if (c >= 0xDC00 && c <= 0xDFFF)
    return fail (text, start, CW_JSON_ERROR_LIMIT, _ ("half a character of two \\u parts stands alone"));
  if (c == 0)
    return fail (text, start, CW_JSON_ERROR_LIMIT, _ ("a text cannot hold the character \\u0000"));
  g_string_append_unichar (string, c);
  return TRUE;
}

static char *
read_string (Text *text)
{
  const char *start = text->at;
  g_autoptr (GString) string = g_string_new (NULL);

  text->at++;
  while (text->at < text->end && *text->at != '"')
    {
      const char *run = text->at;

      while (text->at < text->end && *text->at != '"' && *text->at != '\\' && (guchar) *text->at >= 0x20)
        text->at++;
      g_string_append_len (string, run, text->at - run);
      if (text->at < text->end && (guchar) *text->at < 0x20)
        {
          fail (text, text->at, CW_JSON_ERROR_SYNTAX, _ ("a text in quotes may not hold a bare line end or tab"));
          return NULL;
        }
      if (skip_char (text, '\\') && !read_escape (text, string))
        return NULL;
    }
  if (!skip_char (text, '"'))
    {
      fail (text, start, CW_JSON_ERROR_SYNTAX, _ ("this text in quotes never ends"));
      return NULL;
    }
  return g_string_free (g_steal_pointer (&string), FALSE);
}

static JsonNode *
read_number (Text *text)
{
  const char *start = text->at;
  gboolean whole = TRUE;

  skip_char (text, '-');
  gboolean ok = skip_char (text, '0') || skip_digits (text);
  if (ok && skip_char (text, '.'))
    {
      whole = FALSE;
      ok = skip_digits (text);
    }
  if (ok && (skip_char (text, 'e') || skip_char (text, 'E')))
    {
      whole = FALSE;
      if (!skip_char (text, '+'))
        skip_char (text, '-');
      ok = skip_digits (text);
    }
  if (!ok || (text->at < text->end && g_ascii_isalnum (*text->at)))
    {
      fail (text, start, CW_JSON_ERROR_SYNTAX, _ ("expected a number such as 90, -2.5 or 1e3"));
      return NULL;
    }

  g_autofree char *digits = g_strndup (start, (gsize) (text->at - start));
  gint64 integer;
  if (whole && g_ascii_string_to_signed (digits, 10, G_MININT64, G_MAXINT64, &integer, NULL))
    return json_node_init_int (json_node_alloc (), integer);
  double number = g_ascii_strtod (digits, NULL);
  if (!isfinite (number))
    {
      fail (text, start, CW_JSON_ERROR_LIMIT, _ ("this number is too large"));
      return NULL;
    }
  return json_node_init_double (json_node_alloc (), number);
}

/* Reads the members of an object whose brace is read already. */
static JsonNode *
read_object (Text *text)
{
  g_autoptr (JsonObject) object = json_object_new ();

  skip_space (text);
  if (!skip_char (text, '}'))
    for (;;)
      {
        const char *start = text->at;

        if (text->at >= text->end || *text->at != '"')
          {
            fail (text, text->at, CW_JSON_ERROR_SYNTAX, _ ("expected a key in double quotes"));
            return NULL;
          }
        g_autofree char *key = read_string (text);
        if (!key)
          return NULL;
        if (json_object_has_member (object, key))
          {
            g_autofree char *words = g_strdup_printf (_ ("the key “%s” is here for the second time"), key);
            fail (text, start, CW_JSON_ERROR_LIMIT, words);
            return NULL;
          }
        skip_space (text);
        if (!skip_char (text, ':'))
          {
            fail (text, text->at, CW_JSON_ERROR_SYNTAX, _ ("expected a colon after the key"));
            return NULL;
          }
        JsonNode *value = read_value (text);
        if (!value)
          return NULL;
        json_object_set_member (object, key, value);
        skip_space (text);
        if (skip_char (text, '}'))
          break;
        if (!skip_char (text, ','))
          {
            fail (text, text->at, CW_JSON_ERROR_SYNTAX, _ ("expected a comma or the brace } that ends the object"));
            return NULL;
          }
        skip_space (text);
      }
  return json_node_init_object (json_node_alloc (), object);
}

/* Reads the entries of a list whose bracket is read already. */
static JsonNode *
read_list (Text *text)
{
  g_autoptr (JsonArray) list = json_array_new ();

  skip_space (text);
  if (!skip_char (text, ']'))
    for (;;)
      {
        JsonNode *value = read_value (text);

        if (!value)
          return NULL;
        json_array_add_element (list, value);
        skip_space (text);
        if (skip_char (text, ']'))
          break;
        if (!skip_char (text, ','))
          {
            fail (text, text->at, CW_JSON_ERROR_SYNTAX, _ ("expected a comma or the bracket ] that ends the list"));
            return NULL;
          }
      }
  return json_node_init_array (json_node_alloc (), list);
}

static JsonNode *
read_value (Text *text)
{
  JsonNode *value = NULL;

  skip_space (text);
  if (text->at >= text->end)
    {
      fail (text, text->at, CW_JSON_ERROR_SYNTAX, _ ("the text ends too early"));
      return NULL;
    }
  gsize rest = (gsize) (text->end - text->at);
  char c = *text->at;
  if (c == '{' || c == '[')
    {
      if (text->depth == text->depth_max)
        {
          g_autofree char *words = g_strdup_printf (_ ("nested deeper than %u levels"), text->depth_max);
          fail (text, text->at, CW_JSON_ERROR_LIMIT, words);
          return NULL;
        }
      text->depth++;
      text->at++;
      value = c == '{' ? read_object (text) : read_list (text);
      text->depth--;
      return value;
    }
  if (c == '"')
    {
      g_autofree char *string = read_string (text);
      return string ? json_node_init_string (json_node_alloc (), string) : NULL;
    }
  if (c == '-' || g_ascii_isdigit (c))
    return read_number (text);
  if (rest >= 4 && memcmp (text->at, "true", 4) == 0)
    {
      text->at += 4;
      return json_node_init_boolean (json_node_alloc (), TRUE);
    }
  if (rest >= 5 && memcmp (text->at, "false", 5) == 0)
    {
      text->at += 5;
      return json_node_init_boolean (json_node_alloc (), FALSE);
    }
  if (rest >= 4 && memcmp (text->at, "null", 4) == 0)
    {
      text->at += 4;
      return json_node_init_null (json_node_alloc ());
    }
  fail (text, text->at, CW_JSON_ERROR_SYNTAX,
        _ ("expected a value: a text in double quotes, a number, true, false, null, a list or an object"));
  return NULL;
}

/**
 * cw_json_parse:
 * @text: JSON text, need not end with a zero
 * @length: its length in bytes
 * @nesting_max: how many lists and objects may stand inside one another
 * @error: where to put an error of CW_JSON_ERROR
 *
 * Reads exactly one JSON value (RFC 8259). A byte order mark before it is skipped (section 8.1 allows that).
 *
 * Returns: (transfer full) (nullable): the tree, or NULL with @error set
 */
JsonNode *
cw_json_parse (const char *text, gsize length, guint nesting_max, GError **error)
{
  g_return_val_if_fail (text, NULL);
  Text t = { text, text, text + length, 0, nesting_max, error };
  const char *bad;

  if (!g_utf8_validate_len (text, length, &bad))
    {
      /* The column counts characters, so it needs the text up to here only, which is valid. */
      fail (&t, bad, CW_JSON_ERROR_SYNTAX, _ ("this is not UTF-8 text"));
      return NULL;
    }
  if (length >= 3 && memcmp (text, "\xEF\xBB\xBF", 3) == 0)
    t.at += 3;
  JsonNode *node = read_value (&t);
  skip_space (&t);
  if (node && t.at < t.end)
    {
      fail (&t, t.at, CW_JSON_ERROR_SYNTAX, _ ("expected nothing more after the end"));
      g_clear_pointer (&node, json_node_unref);
    }
  return node;
}

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
