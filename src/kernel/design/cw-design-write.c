/* cw-design-write.c: a design to a tree of JSON.
 *
 * Method: walks the tables of cw-design-format.c, so keys come in their fixed order, those the program does not know
 * after them in the order they were read. Cannot fail.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "design/cw-design-format.h"
#include "design/cw-design-json.h"
#include "design/cw-design-private.h"
#include "units/cw-size.h"

static JsonNode *write_record (const CwRecord *record, gconstpointer item);

static JsonNode *
node_from_text (const char *text)
{
  return json_node_init_string (json_node_alloc (), text);
}

static JsonNode *
node_take_text (char *text)
{
  JsonNode *node = node_from_text (text);

  g_free (text);
  return node;
}

static JsonNode *
node_take_list (JsonArray *list)
{
  JsonNode *node = json_node_init_array (json_node_alloc (), list);

  json_array_unref (list);
  return node;
}

static JsonNode *
write_length (CwLength length)
{
  return node_take_text (cw_length_format (length));
}

static JsonNode *
write_snap (const CwHead *head)
{
  if (head->snap_ticks == 0)
    return node_from_text ("off");
  /* Whoever sets the step by its ticks alone is right as well. */
  return write_length (head->snap.ticks == head->snap_ticks ? head->snap
                                                            : cw_length_from_ticks (head->snap_ticks, head->unit));
}

static JsonNode *
write_place (const CwPlace *place)
{
  JsonArray *list = json_array_sized_new (2);

  json_array_add_element (list, write_length (place->x));
  json_array_add_element (list, write_length (place->y));
  return node_take_list (list);
}

static JsonNode *
write_path (const CwPath *path)
{
  JsonArray *list = json_array_sized_new (path->n_vertices);

  for (guint i = 0; i < path->n_vertices; i++)
    json_array_add_element (list, path->vertices[i].through ? write_record (&cw_format_through, &path->vertices[i])
                                                            : write_place (&path->vertices[i].at));
  return node_take_list (list);
}

static JsonNode *
write_box (const CwPlace *box)
{
  JsonArray *list = json_array_sized_new (2);

  json_array_add_element (list, write_place (&box[0]));
  json_array_add_element (list, write_place (&box[1]));
  return node_take_list (list);
}

static JsonNode *
write_texts (const GPtrArray *texts)
{
  JsonArray *list = json_array_sized_new (texts->len);

  for (guint i = 0; i < texts->len; i++)
    json_array_add_element (list, node_from_text (g_ptr_array_index (texts, i)));
  return node_take_list (list);
}

static JsonNode *
write_items (const CwRecord *record, const GPtrArray *items)
{
  JsonArray *list = json_array_sized_new (items->len);

  for (guint i = 0; i < items->len; i++)
    json_array_add_element (list, write_record (record, g_ptr_array_index (items, i)));
  return node_take_list (list);
}

static JsonNode *
write_target (const CwTarget *target)
{
  if (target->has_panel || target->spelled_out || target->extra)
    return write_record (&cw_format_target, target);
  return node_from_text (target->piece);
}

static JsonNode *
write_holds (const GPtrArray *targets, gboolean listed)
{
  if (targets->len == 1 && !listed)
    return write_target (g_ptr_array_index (targets, 0));
  JsonArray *list = json_array_sized_new (targets->len);
  for (guint i = 0; i < targets->len; i++)
    json_array_add_element (list, write_target (g_ptr_array_index (targets, i)));
  return node_take_list (list);
}

/* The value of a field, or NULL when it says nothing. */
static JsonNode *
write_field (const CwField *field, gconstpointer item)
{
  gconstpointer value = CW_FIELD_SEE (item, field->offset, char);
  gboolean has = field->has && *CW_FIELD_SEE (item, field->has, gboolean);
  gboolean is_list = field->kind == CW_FIELD_TEXTS || field->kind == CW_FIELD_ITEMS || field->kind == CW_FIELD_HOLDS;
  gboolean always = has || (field->flags & (CW_FIELD_ALWAYS | CW_FIELD_NEEDED)) != 0;

  if (field->has && !is_list && !has)
    return NULL;
  switch (field->kind)
    {
    case CW_FIELD_TEXT:
    case CW_FIELD_COLOUR:
      return *(char *const *) value ? node_from_text (*(char *const *) value) : NULL;
    case CW_FIELD_YES:
      if (!*(const gboolean *) value && !has)
        return NULL;
      return json_node_init_boolean (json_node_alloc (), *(const gboolean *) value);
    case CW_FIELD_ENUM:
    case CW_FIELD_UNIT:
      {
        const char *key = ((const char *const *) field->more)[*(const guint *) value];
        return key ? node_from_text (key) : NULL;
      }
    case CW_FIELD_ANGLE:
      return json_node_init_double (json_node_alloc (), *(const double *) value);
    case CW_FIELD_SNAP:
      return write_snap (item);
    case CW_FIELD_LENGTH:
      return write_length (*(const CwLength *) value);
    case CW_FIELD_SIZE:
      return node_take_text (cw_size_format (((const CwLength *) value)[0], ((const CwLength *) value)[1]));
    case CW_FIELD_PLACE:
      return write_place (value);
    case CW_FIELD_BOX:
      return write_box (value);
    case CW_FIELD_PATH:
    case CW_FIELD_RECT:
      return write_path (value);
    case CW_FIELD_TEXTS:
      return always || (*(GPtrArray *const *) value)->len > 0 ? write_texts (*(GPtrArray *const *) value) : NULL;
    case CW_FIELD_ITEMS:
      return always || (*(GPtrArray *const *) value)->len > 0 ? write_items (field->more, *(GPtrArray *const *) value)
                                                              : NULL;
    case CW_FIELD_HOLDS:
      return has || (*(GPtrArray *const *) value)->len > 0 ? write_holds (*(GPtrArray *const *) value, has) : NULL;
    case CW_FIELD_OBJECT:
      return write_record (field->more, item);
    default:
      g_assert_not_reached ();
    }
}

static void
add_fields (JsonObject *object, const CwRecord *record, gconstpointer item)
{
  for (const CwField *field = record->fields; field->key; field++)
    {
      JsonNode *node = field->applies && !field->applies (item) ? NULL : write_field (field, item);
      if (node)
        json_object_set_member (object, field->key, node);
    }
}

static void
add_extra (JsonObject *object, JsonObject *extra)
{
  JsonObjectIter iter;
  const char *key;
  JsonNode *node;

  if (!extra)
    return;
  json_object_iter_init_ordered (&iter, extra);
  while (json_object_iter_next_ordered (&iter, &key, &node))
    if (!json_object_has_member (object, key))
      json_object_set_member (object, key, json_node_ref (node));
}

static JsonNode *
write_record (const CwRecord *record, gconstpointer item)
{
  g_autoptr (JsonObject) object = json_object_new ();

  add_fields (object, record, item);
  if (record->extra)
    add_extra (object, *CW_FIELD_SEE (item, record->extra, JsonObject *));
  return json_node_init_object (json_node_alloc (), object);
}

/**
 * cw_design_to_json: (private to the room)
 * @design: a design
 *
 * Returns: (transfer full): the design as a tree of JSON
 */
JsonNode *
cw_design_to_json (const CwDesign *design)
{
  g_autoptr (JsonObject) object = json_object_new ();

  json_object_set_string_member (object, "format", CW_DESIGN_FORMAT);
  json_object_set_int_member (object, "version", CW_DESIGN_VERSION);
  add_fields (object, &cw_format_head, design->head);
  add_fields (object, &cw_format_lists, design);
  add_fields (object, &cw_format_tail, design->head);
  add_extra (object, design->head->extra);
  return json_node_init_object (json_node_alloc (), object);
}
