/* cw-trimming-json.c: the moves of a design as JSON, for programs and checks outside this one.
 *
 * Exact lengths are text with a whole number of ticks beside them, as in the report. The same design gives the same
 * bytes. A line that joins two pencil marks names them by their numbers and has no measures of its own.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "trim/cw-trimmer.h"

#include "design/cw-json.h"
#include "trim/cw-look-alike.h"
#include "trim/cw-stamp.h"

static void
set_length (JsonObject *object, const char *key, const char *key_ticks, const CwLength *length)
{
  if (length == NULL)
    {
      json_object_set_null_member (object, key);
      json_object_set_null_member (object, key_ticks);
      return;
    }

  g_autofree char *text = cw_length_format (*length);

  json_object_set_string_member (object, key, text);
  json_object_set_int_member (object, key_ticks, length->ticks);
}

static const char *
mark_id (const CwPiece *piece, guint mark)
{
  return mark == CW_MOVE_OUTLINE ? "outline" : ((const CwMark *) g_ptr_array_index (piece->marks, mark))->id;
}

static JsonArray *
new_remarks (guint flags)
{
  static const char *const words[] = { "narrow", "beyond-rule", "between-marks", "between-grooves" };
  JsonArray *remarks = json_array_new ();

  for (guint i = 0; i < G_N_ELEMENTS (words); i++)
    if (flags & 1u << i)
      json_array_add_string_element (remarks, words[i]);
  return remarks;
}

static JsonObject *
new_move (const CwDesign *design, const CwMove *move, guint n)
{
  const CwPiece *piece = g_ptr_array_index (design->pieces, move->piece);
  JsonObject *object = json_object_new ();
  gboolean ends = !move->joins && !move->whole;

  json_object_set_int_member (object, "n", n + 1);
  json_object_set_string_member (object, "piece", piece->id);
  json_object_set_string_member (object, "mark", mark_id (piece, move->mark));
  json_object_set_int_member (object, "segment", move->segment);
  json_object_set_string_member (object, "does", cw_move_does_get_key (move->does));
  json_object_set_string_member (object, "face_up", cw_face_get_key (move->face_up));
  if (move->joins)
    json_object_set_null_member (object, "against");
  else
    json_object_set_string_member (object, "against", cw_sheet_side_get_key (move->against));
  set_length (object, "at", "at_ticks", move->joins ? NULL : &move->at);
  if (move->joins)
    json_object_set_null_member (object, "read_from");
  else
    json_object_set_string_member (object, "read_from", cw_sheet_side_get_key (move->read_from));
  set_length (object, "from", "from_ticks", ends ? &move->from : NULL);
  set_length (object, "to", "to_ticks", ends ? &move->to : NULL);
  if (move->joins)
    {
      JsonArray *marks = json_array_new ();

      for (guint i = 0; i < 2; i++)
        json_array_add_int_element (marks, move->marks[i] + 1);
      json_object_set_array_member (object, "joins", marks);
    }
  json_object_set_string_member (object, "pull", move->pull_up ? "up" : "down");
  if (move->flags != 0)
    json_object_set_array_member (object, "remarks", new_remarks (move->flags));
  return object;
}

static JsonObject *
new_by_hand (const CwDesign *design, const CwByHand *item)
{
  const CwPiece *piece = g_ptr_array_index (design->pieces, item->piece);
  JsonObject *object = json_object_new ();

  json_object_set_string_member (object, "piece", piece->id);
  json_object_set_string_member (object, "mark", mark_id (piece, item->mark));
  json_object_set_string_member (object, "why", item->why == CW_BY_HAND_PRESS ? "pressed" : "curved");
  if (item->slit != G_MAXUINT)
    json_object_set_string_member (object, "between_ends_of", mark_id (piece, item->slit));
  return object;
}

static JsonArray *
new_look_alikes (const CwTrimming *trimming, const CwDesign *design)
{
  g_autoptr (GArray) pairs = cw_look_alikes_find (trimming, design, NULL);
  JsonArray *list = json_array_new ();

  for (guint i = 0; i < pairs->len; i++)
    {
      const CwLookAlike *pair = &g_array_index (pairs, CwLookAlike, i);
      g_autofree char *a = cw_length_format (pair->a), *b = cw_length_format (pair->b);
      JsonArray *two = json_array_new ();

      json_array_add_string_element (two, a);
      json_array_add_string_element (two, b);
      json_array_add_array_element (list, two);
    }
  return list;
}

static JsonObject *
new_print (const CwPrint *print)
{
  JsonObject *object = json_object_new ();

  if (print->print > 0)
    json_object_set_int_member (object, "print", print->print);
  if (print->has_middle)
    {
      set_length (object, "left", "left_ticks", &print->left);
      set_length (object, "top", "top_ticks", &print->top);
    }
  if (print->place != NULL)
    json_object_set_string_member (object, "place", print->place);
  if (print->words != NULL)
    json_object_set_string_member (object, "words", print->words);
  json_object_set_boolean_member (object, "stamp_off", print->stamp_off);
  json_object_set_boolean_member (object, "mask", print->mask);
  return object;
}

static JsonObject *
new_stamp (const CwDesign *design, const CwStamp *stamp)
{
  const CwPiece *piece = g_ptr_array_index (design->pieces, stamp->piece);
  const CwArt *art = g_ptr_array_index (piece->art, stamp->art);
  JsonObject *object = json_object_new ();
  JsonArray *over = json_array_new (), *prints = json_array_new ();

  json_object_set_string_member (object, "piece", piece->id);
  json_object_set_string_member (object, "art", art->id);
  if (art->label != NULL)
    json_object_set_string_member (object, "label", art->label);
  json_object_set_string_member (object, "face_up", cw_face_get_key (stamp->face));
  set_length (object, "left", "left_ticks", &stamp->left);
  set_length (object, "top", "top_ticks", &stamp->top);
  set_length (object, "width", "width_ticks", &stamp->width);
  set_length (object, "height", "height_ticks", &stamp->height);
  json_object_set_double_member (object, "up", stamp->up);
  for (guint i = 0; i < stamp->over->len; i++)
    json_array_add_string_element (over, mark_id (piece, g_array_index (stamp->over, guint, i)));
  json_object_set_array_member (object, "over", over);
  for (guint i = 0; i < stamp->prints->len; i++)
    json_array_add_object_element (prints, new_print (g_ptr_array_index (stamp->prints, i)));
  json_object_set_array_member (object, "prints", prints);
  if (stamp->wait != NULL)
    json_object_set_string_member (object, "wait", stamp->wait);
  json_object_set_boolean_member (object, "heat", stamp->heat);
  return object;
}

static gboolean
is_open (const char *key, guint level)
{
  return level == 0
         || (level == 1
             && (g_strcmp0 (key, "moves") == 0 || g_strcmp0 (key, "by_hand") == 0 || g_strcmp0 (key, "look_alikes") == 0
                 || g_strcmp0 (key, "stamps") == 0));
}

/**
 * cw_trimming_to_text:
 * @trimming: the moves of a design
 * @design: the design
 *
 * Returns: (transfer full): JSON: `moves` in order, `by_hand`, `look_alikes`, `stamps` (greetings and pictures), how
 * often the sheet is laid anew
 * (`turns`) and the stop set (`stops`), and whether that is proved to be the least
 */
char *
cw_trimming_to_text (const CwTrimming *trimming, const CwDesign *design)
{
  g_autoptr (JsonNode) node = json_node_alloc ();
  JsonObject *top = json_object_new ();
  JsonArray *moves = json_array_new (), *by_hand = json_array_new (), *stamps = json_array_new ();
  GString *text = g_string_new (NULL);

  g_return_val_if_fail (trimming != NULL && design != NULL, NULL);

  for (guint i = 0; i < trimming->moves->len; i++)
    json_array_add_object_element (moves, new_move (design, &g_array_index (trimming->moves, CwMove, i), i));
  for (guint i = 0; i < trimming->by_hand->len; i++)
    json_array_add_object_element (by_hand, new_by_hand (design, &g_array_index (trimming->by_hand, CwByHand, i)));
  g_autoptr (GPtrArray) found = cw_stamps_find (design);
  for (guint i = 0; i < found->len; i++)
    json_array_add_object_element (stamps, new_stamp (design, g_ptr_array_index (found, i)));
  json_object_set_string_member (top, "format", "creasewright steps");
  json_object_set_int_member (top, "version", 1);
  if (design->head->title != NULL)
    json_object_set_string_member (top, "title", design->head->title);
  json_object_set_int_member (top, "turns", trimming->n_turns);
  json_object_set_int_member (top, "stops", trimming->n_stops);
  json_object_set_boolean_member (top, "least", trimming->least);
  json_object_set_array_member (top, "moves", moves);
  json_object_set_array_member (top, "by_hand", by_hand);
  json_object_set_array_member (top, "look_alikes", new_look_alikes (trimming, design));
  json_object_set_array_member (top, "stamps", stamps);
  json_node_init_object (node, top);
  json_object_unref (top);
  cw_json_append (text, node, is_open);
  if (text->len == 0 || text->str[text->len - 1] != '\n')
    g_string_append_c (text, '\n');
  return g_string_free (text, FALSE);
}
