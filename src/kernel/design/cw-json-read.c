/* cw-json-read.c: reads JSON text strictly (RFC 8259, 2017; the standard is named where a rule is its own).
 *
 * Method: recursive descent with a limit on depth, straight to json-glib's tree. Numbers become 64-bit integers where
 * they are written as integers and fit, else doubles, without regard to the locale.
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
