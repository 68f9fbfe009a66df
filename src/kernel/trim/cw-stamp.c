/* cw-stamp.c: where on the flat piece greetings and pictures go.
 *
 * Stamping is easiest on the flat, uncut piece: a score's dent takes no ink, and a layer once stuck may not be even. So
 * measures are from the left and top edge of the piece as it lies with that face up, turned over like a page where it
 * is the other one (left and right change, up stays up). Kept keys of an area are read leniently: `prints` is a list of
 * texts or of objects with `print` ("first", "second", "third" or a number), `place` (a text, or the middle as a
 * point), `stamp_off`, `mask`, `words`; `wait` is a text, `heat` true or false. What is not understood is left out.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "trim/cw-stamp.h"

#include "panel/cw-panel-map.h"
#include "panel/cw-path-flatten.h"

#include <math.h>
#include <stdlib.h>

static void
free_print (gpointer data)
{
  CwPrint *print = data;

  g_free (print->place);
  g_free (print->words);
  g_free (print);
}

static void
free_stamp (gpointer data)
{
  CwStamp *stamp = data;

  g_array_unref (stamp->over);
  g_ptr_array_unref (stamp->prints);
  g_free (stamp->wait);
  g_free (stamp);
}

/* Whether some of a segment lies inside a box, not only on its rim (clipping by Liang and Barsky 1984). */
static gboolean
runs_through (CwPoint a, CwPoint b, CwPoint low, CwPoint high)
{
  const double start[2] = { a.x, a.y }, step[2] = { (double) b.x - a.x, (double) b.y - a.y };
  const double least[2] = { low.x, low.y }, most[2] = { high.x, high.y };
  double from = 0, to = 1, x, y;

  for (guint axis = 0; axis < 2; axis++)
    {
      if (fabs (step[axis]) < 0.5)
        {
          if (start[axis] <= least[axis] || start[axis] >= most[axis])
            return FALSE;
          continue;
        }
      double one = (least[axis] - start[axis]) / step[axis], two = (most[axis] - start[axis]) / step[axis];
      from = MAX (from, MIN (one, two));
      to = MIN (to, MAX (one, two));
    }
  if (from >= to)
    return FALSE;
  x = start[0] + step[0] * (from + to) / 2;
  y = start[1] + step[1] * (from + to) / 2;
  return x > least[0] && x < most[0] && y > least[1] && y < most[1];
}

static void
find_over (CwStamp *stamp, const CwPiece *piece, CwPoint low, CwPoint high)
{
  for (guint i = 0; i < piece->marks->len; i++)
    {
      const CwMark *mark = g_ptr_array_index (piece->marks, i);
      g_autoptr (GArray) points = cw_mark_flatten (mark);
      guint n = points->len, segments = mark->kind == CW_MARK_WINDOW ? n : n > 0 ? n - 1 : 0;

      for (guint k = 0; k < segments; k++)
        if (runs_through (g_array_index (points, CwPoint, k), g_array_index (points, CwPoint, (k + 1) % n), low, high))
          {
            g_array_append_val (stamp->over, i);
            break;
          }
    }
}

static guint
read_print (JsonNode *node)
{
  static const char *const words[] = { "", "first", "second", "third", "fourth" };

  if (node == NULL || !JSON_NODE_HOLDS_VALUE (node))
    return 0;
  if (json_node_get_value_type (node) == G_TYPE_INT64)
    return (guint) CLAMP (json_node_get_int (node), 0, 99);
  for (guint i = 1; i < G_N_ELEMENTS (words); i++)
    if (g_strcmp0 (json_node_get_string (node), words[i]) == 0)
      return i;
  return 0;
}

static gboolean
read_middle (JsonNode *node, CwUnit unit, CwLength at[2])
{
  JsonArray *array = node != NULL && JSON_NODE_HOLDS_ARRAY (node) ? json_node_get_array (node) : NULL;

  if (array == NULL || json_array_get_length (array) != 2)
    return FALSE;
  for (guint i = 0; i < 2; i++)
    {
      JsonNode *item = json_array_get_element (array, i);

      if (!JSON_NODE_HOLDS_VALUE (item) || json_node_get_value_type (item) != G_TYPE_STRING
          || !cw_length_parse (json_node_get_string (item), unit, &at[i], NULL))
        return FALSE;
    }
  return TRUE;
}

static gboolean
get_flag (JsonObject *object, const char *key)
{
  JsonNode *node = object != NULL ? json_object_get_member (object, key) : NULL;

  return node != NULL && JSON_NODE_HOLDS_VALUE (node) && json_node_get_value_type (node) == G_TYPE_BOOLEAN
         && json_node_get_boolean (node);
}

/* A measure from the left edge of the piece as it lies. */
static CwLength
as_lies (gint32 x, CwFace face, CwPoint low, CwPoint high, CwUnit unit)
{
  return cw_length_from_ticks (face == CW_FACE_FRONT ? x - low.x : high.x - x, unit);
}

static void
read_prints (CwStamp *stamp, const CwArt *art, CwPoint low, CwPoint high, CwUnit unit)
{
  JsonNode *node = art->extra != NULL ? json_object_get_member (art->extra, "prints") : NULL;
  JsonArray *list = node != NULL && JSON_NODE_HOLDS_ARRAY (node) ? json_node_get_array (node) : NULL;

  for (guint i = 0; list != NULL && i < json_array_get_length (list); i++)
    {
      JsonNode *item = json_array_get_element (list, i);
      CwPrint *print = g_new0 (CwPrint, 1);

      if (JSON_NODE_HOLDS_OBJECT (item))
        {
          JsonObject *object = json_node_get_object (item);
          CwLength at[2];

          print->print = read_print (json_object_get_member (object, "print"));
          print->stamp_off = get_flag (object, "stamp_off");
          print->mask = get_flag (object, "mask");
          print->place = g_strdup (cw_extra_get_text (object, "place"));
          print->words = g_strdup (cw_extra_get_text (object, "words"));
          if (read_middle (json_object_get_member (object, "place"), unit, at))
            {
              print->has_middle = TRUE;
              print->left = as_lies (at[0].ticks, art->face, low, high, at[0].unit);
              print->top = cw_length_from_ticks (at[1].ticks - low.y, at[1].unit);
            }
        }
      else if (JSON_NODE_HOLDS_VALUE (item) && json_node_get_value_type (item) == G_TYPE_STRING)
        print->words = g_strdup (json_node_get_string (item));
      g_ptr_array_add (stamp->prints, print);
    }
}

/**
 * cw_stamps_find:
 * @design: a design
 *
 * Returns: (transfer full): GPtrArray of #CwStamp
 */
GPtrArray *
cw_stamps_find (const CwDesign *design)
{
  GPtrArray *stamps = g_ptr_array_new_with_free_func (free_stamp);

  g_return_val_if_fail (design != NULL, stamps);

  for (guint p = 0; p < design->pieces->len; p++)
    {
      const CwPiece *piece = g_ptr_array_index (design->pieces, p);
      CwPoint low, high;

      cw_piece_get_box (piece, &low, &high);
      for (guint i = 0; i < piece->art->len; i++)
        {
          const CwArt *art = g_ptr_array_index (piece->art, i);
          CwStamp *stamp = g_new0 (CwStamp, 1);
          CwPoint a = cw_place_get_point (&art->box[0]), b = cw_place_get_point (&art->box[1]);
          CwUnit unit = art->box[1].x.unit;

          stamp->piece = p;
          stamp->art = i;
          stamp->face = art->face;
          stamp->left
            = as_lies (art->face == CW_FACE_FRONT ? MIN (a.x, b.x) : MAX (a.x, b.x), art->face, low, high, unit);
          stamp->top = cw_length_from_ticks (MIN (a.y, b.y) - low.y, unit);
          stamp->width = cw_length_from_ticks (abs (b.x - a.x), unit);
          stamp->height = cw_length_from_ticks (abs (b.y - a.y), unit);
          stamp->up = fmod (fmod (art->up, 360) + 360, 360);
          stamp->over = g_array_new (FALSE, FALSE, sizeof (guint));
          stamp->prints = g_ptr_array_new_with_free_func (free_print);
          stamp->wait = g_strdup (cw_extra_get_text (art->extra, "wait"));
          stamp->heat = get_flag (art->extra, "heat");
          find_over (stamp, piece, cw_point (MIN (a.x, b.x), MIN (a.y, b.y)),
                     cw_point (MAX (a.x, b.x), MAX (a.y, b.y)));
          read_prints (stamp, art, low, high, unit);
          g_ptr_array_add (stamps, stamp);
        }
    }
  return stamps;
}
