/* cw-json.h: strict JSON text to a tree and back.
 *
 * The tree is json-glib's; the text is ours. Tried with json-glib 1.6.6: its parser takes comments, single quotes,
 * octal and hexadecimal numbers and "var a =", reads 1e400 as infinity and a number of 23 digits as -1, keeps the last
 * of two equal keys, cuts a text at \u0000 and recurses without limit; its writer puts every entry on a line of its
 * own.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <json-glib/json-glib.h>

G_BEGIN_DECLS

#define CW_JSON_COLUMNS 140 /* a list or an object that fits is written on one line of at most this many characters */

typedef enum
{
  CW_JSON_ERROR_SYNTAX, /* not JSON: says the line, the column and what was expected */
  CW_JSON_ERROR_LIMIT,  /* JSON, but too deep, or a number or text that cannot be kept exactly */
} CwJsonError;

#define CW_JSON_ERROR (cw_json_error_quark ())
GQuark cw_json_error_quark (void);

/* Whether the list or object at `level` (0: the whole; an entry of a list is one below the list) under `key` (an entry:
 * the key of its list; the whole: NULL) is written one entry a line even if it would fit on one. */
typedef gboolean (*CwJsonOpen) (const char *key, guint level);

JsonNode *cw_json_parse (const char *text, gsize length, guint nesting_max, GError **error);
void cw_json_append (GString *text, JsonNode *node, CwJsonOpen is_open);
void cw_json_append_string (GString *text, const char *string);
void cw_json_append_double (GString *text, double number);
JsonObject *cw_json_object_copy (JsonObject *object);
JsonNode *cw_json_node_copy (JsonNode *node);

G_END_DECLS
