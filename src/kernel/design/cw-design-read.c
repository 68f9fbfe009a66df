/* cw-design-read.c: a design from a tree of JSON.
 *
 * Method: walks the tables of cw-design-format.c; what no table knows is kept as it stands. Checks what one value can
 * say by itself; what needs several (references, ids, areas) is cw_design_validate()'s.
 * Refuses values of the wrong kind, lengths that are none, unknown words where the format lists them, angles that are
 * not within one turn. Every error names the JSON path and what was expected there.
 * Over 500 lines because every kind of value has its reader here: they share the path that errors tell.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "design/cw-design-format.h"
#include "design/cw-design-json.h"
#include "design/cw-design-private.h"
#include "units/cw-size.h"

#include <glib/gi18n-lib.h>
#include <math.h>
#include <string.h>

#define FOUND_MAX 40 /* characters of a wrong value that an error shows */

typedef struct
{
  GString *path; /* "pieces[0].marks[2]"; empty for the whole */
  CwUnit unit;   /* of bare numbers */
  GError **error;
} Reader;

static gboolean read_record (Reader *reader, const CwRecord *record, JsonObject *object, gpointer item);

static gsize
enter_key (Reader *reader, const char *key)
{
  gsize length = reader->path->len;

  if (length > 0)
    g_string_append_c (reader->path, '.');
  g_string_append (reader->path, key);
  return length;
}

static gsize
enter_index (Reader *reader, guint index)
{
  gsize length = reader->path->len;

  g_string_append_printf (reader->path, "[%u]", index);
  return length;
}

/* Steps back; only where nothing failed, so that an error is told where it is. */
static gboolean
leave (Reader *reader, gsize length)
{
  g_string_truncate (reader->path, length);
  return TRUE;
}

static gboolean
fail (Reader *reader, const char *words)
{
  if (reader->path->len > 0)
    g_set_error (reader->error, CW_DESIGN_ERROR, CW_DESIGN_ERROR_CONTENT, "%s: %s", reader->path->str, words);
  else
    g_set_error_literal (reader->error, CW_DESIGN_ERROR, CW_DESIGN_ERROR_CONTENT, words);
  return FALSE;
}

static gboolean
fail_expected (Reader *reader, const char *expected, JsonNode *node)
{
  g_autoptr (GString) found = g_string_new (NULL);

  if (JSON_NODE_HOLDS_OBJECT (node))
    g_string_append (found, _ ("an object"));
  else if (JSON_NODE_HOLDS_ARRAY (node))
    g_string_append_printf (found, _ ("a list of %u"), json_array_get_length (json_node_get_array (node)));
  else
    cw_json_append (found, node, NULL);
  if (g_utf8_strlen (found->str, -1) > FOUND_MAX)
    {
      g_string_truncate (found, (gsize) (g_utf8_offset_to_pointer (found->str, FOUND_MAX) - found->str));
      g_string_append (found, "…");
    }
  /* Translators: such as: expected a length, not 5 */
  g_autofree char *words = g_strdup_printf (_ ("expected %s, not %s"), expected, found->str);
  return fail (reader, words);
}

/* Takes over an error of the room `units`, which says what is wrong with a text but not where it stands. */
static gboolean
fail_units (Reader *reader, GError *why)
{
  fail (reader, why->message);
  g_error_free (why);
  return FALSE;
}

static gboolean
read_text (Reader *reader, JsonNode *node, const char *expected, char **text)
{
  if (json_node_get_value_type (node) != G_TYPE_STRING)
    return fail_expected (reader, expected, node);
  g_free (*text);
  *text = json_node_dup_string (node);
  return TRUE;
}

static gboolean
read_colour (Reader *reader, JsonNode *node, char **colour)
{
  const char *words = _ ("a colour such as \"#b08d57\"");

  if (!read_text (reader, node, words, colour))
    return FALSE;
  return (strlen (*colour) == 7 && **colour == '#' && strspn (*colour + 1, "0123456789abcdefABCDEF") == 6)
         || fail_expected (reader, words, node);
}

static gboolean
read_number (Reader *reader, JsonNode *node, double *number)
{
  GType type = json_node_get_value_type (node);

  if (type != G_TYPE_INT64 && type != G_TYPE_DOUBLE)
    return fail_expected (reader, _ ("an angle in degrees, a number"), node);
  double value = json_node_get_double (node);
  if (!(fabs (value) <= 360.0))
    return fail_expected (reader, _ ("an angle between -360 and 360 degrees"), node);
  *number = value + 0.0; /* -0 becomes 0 */
  return TRUE;
}

static gboolean
read_yes (Reader *reader, JsonNode *node, gboolean *yes)
{
  if (json_node_get_value_type (node) != G_TYPE_BOOLEAN)
    return fail_expected (reader, _ ("true or false"), node);
  *yes = json_node_get_boolean (node);
  return TRUE;
}

static gboolean
read_enum (Reader *reader, JsonNode *node, const char *const *keys, guint *value)
{
  g_autoptr (GString) list = g_string_new (NULL);
  const char *word = json_node_get_value_type (node) == G_TYPE_STRING ? json_node_get_string (node) : NULL;

  for (guint i = 0; !keys[i] || *keys[i]; i++)
    {
      if (!keys[i])
        continue;
      if (g_strcmp0 (keys[i], word) == 0)
        {
          *value = i;
          return TRUE;
        }
      g_string_append_printf (list, "%s\"%s\"", list->len > 0 ? ", " : "", keys[i]);
    }
  g_autofree char *expected = strchr (list->str, ',') ? g_strdup_printf (_ ("one of %s"), list->str) : NULL;
  return fail_expected (reader, expected ? expected : list->str, node);
}

static gboolean
check_sign (Reader *reader, JsonNode *node, guint flags, gint32 ticks)
{
  if ((flags & CW_FIELD_POSITIVE) && ticks <= 0)
    return fail_expected (reader, _ ("a length over 0"), node);
  if ((flags & CW_FIELD_UNSIGNED) && ticks < 0)
    return fail_expected (reader, _ ("a length of 0 or more"), node);
  return TRUE;
}

static gboolean
read_length (Reader *reader, JsonNode *node, guint flags, CwLength *length)
{
  GError *why = NULL;

  if (json_node_get_value_type (node) != G_TYPE_STRING)
    return fail_expected (reader, _ ("a length in quotes such as \"4 1/4 in\""), node);
  if (!cw_length_parse (json_node_get_string (node), reader->unit, length, &why))
    return fail_units (reader, why);
  return check_sign (reader, node, flags, length->ticks);
}

static gboolean
read_size (Reader *reader, JsonNode *node, CwLength *size)
{
  GError *why = NULL;

  if (json_node_get_value_type (node) != G_TYPE_STRING)
    return fail_expected (reader, _ ("a size in quotes such as \"5 in x 7 in\""), node);
  if (!cw_size_parse (json_node_get_string (node), reader->unit, &size[0], &size[1], &why))
    return fail_units (reader, why);
  return check_sign (reader, node, CW_FIELD_POSITIVE, MIN (size[0].ticks, size[1].ticks));
}

static gboolean
read_snap (Reader *reader, JsonNode *node, CwHead *head)
{
  if (json_node_get_value_type (node) == G_TYPE_STRING && g_str_equal (json_node_get_string (node), "off"))
    head->snap = cw_length_from_ticks (0, reader->unit);
  else if (!read_length (reader, node, CW_FIELD_POSITIVE, &head->snap))
    return FALSE;
  head->snap_ticks = head->snap.ticks;
  return TRUE;
}

static gboolean
read_place (Reader *reader, JsonNode *node, CwPlace *place)
{
  JsonArray *list = JSON_NODE_HOLDS_ARRAY (node) ? json_node_get_array (node) : NULL;
  CwLength *lengths[] = { &place->x, &place->y };

  if (!list || json_array_get_length (list) != 2)
    return fail_expected (reader, _ ("a point, a list of two lengths such as [\"5 in\", \"7 in\"]"), node);
  for (guint i = 0; i < 2; i++)
    {
      gsize level = enter_index (reader, i);
      if (!read_length (reader, json_array_get_element (list, i), 0, lengths[i]))
        return FALSE;
      leave (reader, level);
    }
  return TRUE;
}

static gboolean
read_box (Reader *reader, JsonNode *node, CwPlace *box)
{
  JsonArray *list = JSON_NODE_HOLDS_ARRAY (node) ? json_node_get_array (node) : NULL;

  if (!list || json_array_get_length (list) != 2)
    return fail_expected (reader, _ ("two opposite corners, a list of two points"), node);
  for (guint i = 0; i < 2; i++)
    {
      gsize level = enter_index (reader, i);
      if (!read_place (reader, json_array_get_element (list, i), &box[i]))
        return FALSE;
      leave (reader, level);
    }
  return TRUE;
}

static gboolean
read_path (Reader *reader, JsonNode *node, CwPath *path)
{
  JsonArray *list = JSON_NODE_HOLDS_ARRAY (node) ? json_node_get_array (node) : NULL;

  if (!list)
    return fail_expected (reader, _ ("a list of points"), node);
  cw_path_clear (path);
  path->vertices = g_new0 (CwVertex, json_array_get_length (list));
  for (guint i = 0; i < json_array_get_length (list); i++)
    {
      JsonNode *entry = json_array_get_element (list, i);
      CwVertex *vertex = &path->vertices[i];
      gsize level = enter_index (reader, i);

      path->n_vertices = i + 1;
      vertex->through = JSON_NODE_HOLDS_OBJECT (entry);
      if (vertex->through ? !read_record (reader, &cw_format_through, json_node_get_object (entry), vertex)
                          : !read_place (reader, entry, &vertex->at))
        return FALSE;
      leave (reader, level);
    }
  return TRUE;
}

static gboolean
read_rect (Reader *reader, JsonNode *node, CwPath *path)
{
  CwPlace box[2] = { 0 };

  if (!read_box (reader, node, box))
    return FALSE;
  cw_path_clear (path);
  cw_path_append (path, box[0], FALSE);
  cw_path_append (path, box[1], FALSE);
  return TRUE;
}

static gboolean
read_texts (Reader *reader, JsonNode *node, GPtrArray *texts)
{
  JsonArray *list = JSON_NODE_HOLDS_ARRAY (node) ? json_node_get_array (node) : NULL;

  if (!list)
    return fail_expected (reader, _ ("a list of texts in quotes"), node);
  for (guint i = 0; i < json_array_get_length (list); i++)
    {
      gsize level = enter_index (reader, i);
      char *text = NULL;
      if (!read_text (reader, json_array_get_element (list, i), _ ("a text in quotes"), &text))
        return FALSE;
      g_ptr_array_add (texts, text);
      leave (reader, level);
    }
  return TRUE;
}

/* A mark has exactly one shape, which must be known before its keys are read. */
static gboolean
begin_mark (Reader *reader, JsonObject *object, CwMark *mark)
{
  static const char *const keys[] = { "line", "rect", "circle" };
  guint n = 0;

  mark->fold = CW_FOLD_NONE; /* a score of which nobody has said yet which way it folds */
  for (guint i = 0; i < G_N_ELEMENTS (keys); i++)
    if (json_object_has_member (object, keys[i]))
      {
        mark->shape = (CwMarkShape) i;
        n++;
      }
  if (n == 0)
    return fail (reader, _ ("expected a “line” (or, for a window, a “rect” or a “circle”)"));
  if (n > 1)
    return fail (reader, _ ("expected only one of “line”, “rect” and “circle”"));
  return TRUE;
}

static gboolean
read_items (Reader *reader, JsonNode *node, const CwRecord *record, GPtrArray *items)
{
  JsonArray *list = JSON_NODE_HOLDS_ARRAY (node) ? json_node_get_array (node) : NULL;

  if (!list)
    return fail_expected (reader, _ ("a list of objects"), node);
  for (guint i = 0; i < json_array_get_length (list); i++)
    {
      JsonNode *entry = json_array_get_element (list, i);
      gsize level = enter_index (reader, i);

      if (!JSON_NODE_HOLDS_OBJECT (entry))
        return fail_expected (reader, _ ("an object in braces"), entry);
      gpointer item = record->new ();
      g_ptr_array_add (items, item);
      if (record == &cw_format_mark && !begin_mark (reader, json_node_get_object (entry), item))
        return FALSE;
      if (!read_record (reader, record, json_node_get_object (entry), item))
        return FALSE;
      leave (reader, level);
    }
  return TRUE;
}

static gboolean
read_target (Reader *reader, JsonNode *node, GPtrArray *targets)
{
  CwTarget *target = cw_target_new ();

  g_ptr_array_add (targets, target);
  target->spelled_out = JSON_NODE_HOLDS_OBJECT (node);
  if (target->spelled_out)
    return read_record (reader, &cw_format_target, json_node_get_object (node), target);
  return read_text (reader, node, _ ("the id of a piece, or an object with “piece” and “panel”"), &target->piece);
}

static gboolean
read_holds (Reader *reader, JsonNode *node, GPtrArray *targets, gboolean *listed)
{
  *listed = JSON_NODE_HOLDS_ARRAY (node);
  if (!*listed)
    return read_target (reader, node, targets);
  for (guint i = 0; i < json_array_get_length (json_node_get_array (node)); i++)
    {
      gsize level = enter_index (reader, i);
      if (!read_target (reader, json_array_get_element (json_node_get_array (node), i), targets))
        return FALSE;
      leave (reader, level);
    }
  return TRUE;
}

static gboolean
read_field (Reader *reader, const CwField *field, JsonNode *node, gpointer item)
{
  gpointer value = CW_FIELD_AT (item, field->offset, char);

  if (field->has)
    *CW_FIELD_AT (item, field->has, gboolean) = TRUE;
  switch (field->kind)
    {
    case CW_FIELD_TEXT:
      return read_text (reader, node, _ ("a text in quotes"), value);
    case CW_FIELD_COLOUR:
      return read_colour (reader, node, value);
    case CW_FIELD_YES:
      return read_yes (reader, node, value);
    case CW_FIELD_ENUM:
      return read_enum (reader, node, field->more, value);
    case CW_FIELD_UNIT:
      if (!read_enum (reader, node, field->more, value))
        return FALSE;
      reader->unit = *(CwUnit *) value;
      return TRUE;
    case CW_FIELD_ANGLE:
      return read_number (reader, node, value);
    case CW_FIELD_SNAP:
      return read_snap (reader, node, item);
    case CW_FIELD_LENGTH:
      return read_length (reader, node, field->flags, value);
    case CW_FIELD_SIZE:
      return read_size (reader, node, value);
    case CW_FIELD_PLACE:
      return read_place (reader, node, value);
    case CW_FIELD_BOX:
      return read_box (reader, node, value);
    case CW_FIELD_PATH:
      return read_path (reader, node, value);
    case CW_FIELD_RECT:
      return read_rect (reader, node, value);
    case CW_FIELD_TEXTS:
      return read_texts (reader, node, *(GPtrArray **) value);
    case CW_FIELD_ITEMS:
      return read_items (reader, node, field->more, *(GPtrArray **) value);
    case CW_FIELD_HOLDS:
      return read_holds (reader, node, *(GPtrArray **) value, CW_FIELD_AT (item, field->has, gboolean));
    case CW_FIELD_OBJECT:
      if (!JSON_NODE_HOLDS_OBJECT (node))
        return fail_expected (reader, _ ("an object in braces"), node);
      return read_record (reader, field->more, json_node_get_object (node), item);
    default:
      g_assert_not_reached ();
    }
}

/* Keeps a member that no field stands for. */
static void
keep (JsonObject **extra, const char *key, JsonNode *node)
{
  if (!*extra)
    *extra = json_object_new ();
  json_object_set_member (*extra, key, json_node_ref (node));
}

static gboolean
read_record (Reader *reader, const CwRecord *record, JsonObject *object, gpointer item)
{
  JsonObjectIter iter;
  const char *key;
  JsonNode *node;

  for (const CwField *field = record->fields; field->key; field++)
    {
      if (field->applies && !field->applies (item))
        continue;
      node = json_object_get_member (object, field->key);
      if (!node)
        {
          if (!(field->flags & CW_FIELD_NEEDED))
            continue;
          g_autofree char *words = g_strdup_printf (_ ("the key “%s” is missing"), field->key);
          return fail (reader, words);
        }
      gsize level = enter_key (reader, field->key);
      if (!read_field (reader, field, node, item))
        return FALSE;
      leave (reader, level);
    }
  if (record->extra == 0)
    return TRUE;
  json_object_iter_init_ordered (&iter, object);
  while (json_object_iter_next_ordered (&iter, &key, &node))
    if (!cw_format_knows (record, item, key))
      keep (CW_FIELD_AT (item, record->extra, JsonObject *), key, node);
  return TRUE;
}

/* The first two keys: is this ours, and do we know this version? */
static gboolean
read_version (Reader *reader, JsonObject *object)
{
  JsonNode *format = json_object_get_member (object, "format");
  JsonNode *version = json_object_get_member (object, "version");

  if (!format || json_node_get_value_type (format) != G_TYPE_STRING
      || !g_str_equal (json_node_get_string (format), CW_DESIGN_FORMAT))
    return fail (reader, _ ("this is not a Creasewright design: the key “format” should say \"creasewright design\""));
  if (!version)
    return fail (reader, _ ("the key “version” is missing"));
  if (json_node_get_value_type (version) != G_TYPE_INT64 || json_node_get_int (version) < 1)
    {
      enter_key (reader, "version");
      return fail_expected (reader, _ ("a whole number from 1 on"), version);
    }
  if (json_node_get_int (version) > CW_DESIGN_VERSION)
    {
      g_autofree char *number = g_strdup_printf ("%" G_GINT64_FORMAT, json_node_get_int (version));

      g_set_error (reader->error, CW_DESIGN_ERROR, CW_DESIGN_ERROR_VERSION,
                   _ ("this design was written by a newer Creasewright (version %s of the format, this program knows "
                      "up to %d); open it with a newer one"),
                   number, CW_DESIGN_VERSION);
      return FALSE;
    }
  return TRUE;
}

/**
 * cw_design_from_json: (private to the room)
 * @root: a tree of JSON
 * @error: where to put an error of CW_DESIGN_ERROR
 *
 * Reads a design; it is not validated yet.
 *
 * Returns: (transfer full) (nullable): the design, or NULL with @error set
 */
CwDesign *
cw_design_from_json (JsonNode *root, GError **error)
{
  g_autoptr (GString) path = g_string_new (NULL);
  g_autoptr (CwDesign) design = cw_design_new ();
  Reader reader = { path, CW_UNIT_INCH, error };
  JsonObjectIter iter;
  const char *key;
  JsonNode *node;

  if (!JSON_NODE_HOLDS_OBJECT (root))
    {
      fail_expected (&reader, _ ("a design, an object in braces"), root);
      return NULL;
    }
  JsonObject *object = json_node_get_object (root);
  if (!read_version (&reader, object) || !read_record (&reader, &cw_format_head, object, design->head)
      || !read_record (&reader, &cw_format_lists, object, design)
      || !read_record (&reader, &cw_format_tail, object, design->head))
    return NULL;
  json_object_iter_init_ordered (&iter, object);
  while (json_object_iter_next_ordered (&iter, &key, &node))
    if (!g_str_equal (key, "format") && !g_str_equal (key, "version")
        && !cw_format_knows (&cw_format_head, design->head, key) && !cw_format_knows (&cw_format_lists, design, key)
        && !cw_format_knows (&cw_format_tail, design->head, key))
      keep (&design->head->extra, key, node);
  return g_steal_pointer (&design);
}
