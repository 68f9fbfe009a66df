/* cw-design.c: looks things up in a design by the ids of the file, and names its words.
 *
 * Lists are short (tens of items), so a look-up walks them in file order; the first of two equal ids would win, but
 * cw_design_validate() refuses those.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "design/cw-design-private.h"

#include "geometry/cw-tolerance.h"

#include <math.h>
#include <string.h>

/* Every item with an id has it first, so one walk serves all lists. */
G_STATIC_ASSERT (G_STRUCT_OFFSET (CwPaper, id) == 0);
G_STATIC_ASSERT (G_STRUCT_OFFSET (CwPiece, id) == 0);
G_STATIC_ASSERT (G_STRUCT_OFFSET (CwMark, id) == 0);
G_STATIC_ASSERT (G_STRUCT_OFFSET (CwArt, id) == 0);
G_STATIC_ASSERT (G_STRUCT_OFFSET (CwGlue, id) == 0);
G_STATIC_ASSERT (G_STRUCT_OFFSET (CwStep, id) == 0);

static guint
find_id (const GPtrArray *list, const char *id)
{
  for (guint i = 0; id && i < list->len; i++)
    if (g_strcmp0 (*(char **) g_ptr_array_index (list, i), id) == 0)
      return i;
  return G_MAXUINT;
}

static gpointer
get_id (const GPtrArray *list, const char *id)
{
  guint index = find_id (list, id);

  return index == G_MAXUINT ? NULL : g_ptr_array_index (list, index);
}

/**
 * cw_design_get_paper:
 * @design: a design
 * @id: (nullable): the id of a paper
 *
 * Returns: (transfer none) (nullable): the paper, or NULL if there is none of that id
 */
CwPaper *
cw_design_get_paper (const CwDesign *design, const char *id)
{
  g_return_val_if_fail (design, NULL);
  return get_id (design->papers, id);
}

/**
 * cw_design_get_piece:
 * @design: a design
 * @id: (nullable): the id of a piece
 *
 * Returns: (transfer none) (nullable): the piece, or NULL if there is none of that id
 */
CwPiece *
cw_design_get_piece (const CwDesign *design, const char *id)
{
  g_return_val_if_fail (design, NULL);
  return get_id (design->pieces, id);
}

/**
 * cw_design_get_ground:
 * @design: a design
 *
 * The piece that is on the table from the start: the one marked `ground`, else the first (model, "Steps").
 *
 * Returns: (transfer none) (nullable): the piece, or NULL if the design has none
 */
CwPiece *
cw_design_get_ground (const CwDesign *design)
{
  g_return_val_if_fail (design, NULL);
  for (guint i = 0; i < design->pieces->len; i++)
    {
      CwPiece *piece = g_ptr_array_index (design->pieces, i);
      if (piece->ground)
        return piece;
    }
  return design->pieces->len > 0 ? g_ptr_array_index (design->pieces, 0) : NULL;
}

/**
 * cw_design_get_glue:
 * @design: a design
 * @id: (nullable): the id of a glue zone
 *
 * Returns: (transfer none) (nullable): the zone, or NULL if there is none of that id
 */
CwGlue *
cw_design_get_glue (const CwDesign *design, const char *id)
{
  g_return_val_if_fail (design, NULL);
  return get_id (design->glue, id);
}

/**
 * cw_design_get_step:
 * @design: a design
 * @id: (nullable): the id of a step
 *
 * Returns: (transfer none) (nullable): the step, or NULL if there is none of that id
 */
CwStep *
cw_design_get_step (const CwDesign *design, const char *id)
{
  g_return_val_if_fail (design, NULL);
  return get_id (design->steps, id);
}

/**
 * cw_design_find_piece:
 * @design: a design
 * @id: (nullable): the id of a piece
 *
 * Returns: its index among the pieces, or G_MAXUINT
 */
guint
cw_design_find_piece (const CwDesign *design, const char *id)
{
  g_return_val_if_fail (design, G_MAXUINT);
  return find_id (design->pieces, id);
}

/**
 * cw_design_find_step:
 * @design: a design
 * @id: (nullable): the id of a step
 *
 * Returns: its index among the steps, or G_MAXUINT
 */
guint
cw_design_find_step (const CwDesign *design, const char *id)
{
  g_return_val_if_fail (design, G_MAXUINT);
  return find_id (design->steps, id);
}

/**
 * cw_piece_get_mark:
 * @piece: a piece
 * @id: (nullable): the id of a mark
 *
 * Returns: (transfer none) (nullable): the mark, or NULL if the piece has none of that id
 */
CwMark *
cw_piece_get_mark (const CwPiece *piece, const char *id)
{
  g_return_val_if_fail (piece, NULL);
  return get_id (piece->marks, id);
}

/**
 * cw_piece_find_mark:
 * @piece: a piece
 * @id: (nullable): the id of a mark
 *
 * Returns: its index among the marks of the piece, or G_MAXUINT
 */
guint
cw_piece_find_mark (const CwPiece *piece, const char *id)
{
  g_return_val_if_fail (piece, G_MAXUINT);
  return find_id (piece->marks, id);
}

/**
 * cw_design_split_address:
 * @design: a design
 * @address: (nullable): "piece/mark"
 * @piece: (out) (optional) (transfer none): the piece
 * @mark: (out) (optional) (transfer none): the mark
 *
 * Returns: TRUE if there are such a piece and such a mark; otherwise both are NULL
 */
gboolean
cw_design_split_address (const CwDesign *design, const char *address, CwPiece **piece, CwMark **mark)
{
  const char *slash = address ? strchr (address, '/') : NULL;
  CwPiece *found_piece = NULL;
  CwMark *found_mark = NULL;

  g_return_val_if_fail (design, FALSE);
  if (slash)
    {
      g_autofree char *id = g_strndup (address, (gsize) (slash - address));
      found_piece = cw_design_get_piece (design, id);
      found_mark = found_piece ? cw_piece_get_mark (found_piece, slash + 1) : NULL;
    }
  if (piece)
    *piece = found_mark ? found_piece : NULL;
  if (mark)
    *mark = found_mark;
  return found_mark != NULL;
}

static gboolean
has_id (const CwDesign *design, const char *id)
{
  if (get_id (design->papers, id) || get_id (design->pieces, id) || get_id (design->glue, id)
      || get_id (design->steps, id))
    return TRUE;
  for (guint i = 0; i < design->pieces->len; i++)
    {
      const CwPiece *piece = g_ptr_array_index (design->pieces, i);
      if (get_id (piece->marks, id) || get_id (piece->art, id))
        return TRUE;
    }
  return FALSE;
}

/**
 * cw_design_dup_free_id:
 * @design: a design
 * @wish: (nullable): what the id should look like, such as "score"
 *
 * An id that nothing in the design has yet: @wish itself if it is free (each '/' becomes '-'), else with the first free
 * number after it: "score-2", "score-3"...
 *
 * Returns: (transfer full): the id
 */
char *
cw_design_dup_free_id (const CwDesign *design, const char *wish)
{
  g_return_val_if_fail (design, NULL);
  g_autofree char *stem = g_strdup (wish && *wish ? wish : "item");

  g_strdelimit (stem, "/", '-');
  if (!has_id (design, stem))
    return g_steal_pointer (&stem);

  /* "score-2" wished for again becomes "score-3", not "score-2-2". */
  char *dash = strrchr (stem, '-');
  if (dash && dash > stem && dash[1] != '\0' && strspn (dash + 1, "0123456789") == strlen (dash + 1))
    *dash = '\0';
  for (guint n = 2;; n++)
    {
      g_autofree char *id = g_strdup_printf ("%s-%u", stem, n);
      if (!has_id (design, id))
        return g_steal_pointer (&id);
    }
}

/**
 * cw_head_get_mark_step:
 * @head: (nullable): a head
 *
 * Returns: the distance of the maker's finest marks, ticks: the snap step; whole millimetres in a metric design that
 *   names none; 1/64 inch or 0.1 mm when the snap is off
 */
gint32
cw_head_get_mark_step (const CwHead *head)
{
  if (head == NULL)
    return CW_TICKS_PER_INCH / 64;
  if (!head->has_snap && head->unit != CW_UNIT_INCH)
    return CW_TICKS_PER_MM;
  if (head->snap_ticks > 0)
    return head->snap_ticks;
  return head->unit == CW_UNIT_INCH ? CW_TICKS_PER_INCH / 64 : CW_TICKS_PER_MM / 10;
}

/**
 * cw_head_round_up:
 * @head: (nullable): a head
 * @ticks: a length to be made, 0 or more
 *
 * What a maker is told to move or shorten by: never a length that is not on the marks, never too little. What two marks
 * are off by rounding does not ask for a whole step.
 *
 * Returns: the next multiple of the maker's step from @ticks on, ticks
 */
gint32
cw_head_round_up (const CwHead *head, double ticks)
{
  gint32 step = cw_head_get_mark_step (head);

  return (gint32) ceil ((ticks - CW_TOL_EXACT_TICKS) / step) * step;
}

/**
 * cw_face_get_key:
 * @face: a face
 *
 * Returns: its word in the file
 */
const char *
cw_face_get_key (CwFace face)
{
  return face == CW_FACE_BACK ? "back" : "front";
}

/**
 * cw_mark_kind_get_key:
 * @kind: a kind of mark
 *
 * Returns: its word in the file
 */
const char *
cw_mark_kind_get_key (CwMarkKind kind)
{
  static const char *const keys[] = { "score", "cut", "window" };

  g_return_val_if_fail ((guint) kind < G_N_ELEMENTS (keys), NULL);
  return keys[kind];
}

/**
 * cw_do_get_key:
 * @what: what a step does
 *
 * Returns: its word in the file
 */
const char *
cw_do_get_key (CwDo what)
{
  static const char *const keys[]
    = { "cut", "score", "fold", "stick", "take-away", "glue", "rub", "turn-over", "decorate" };

  g_return_val_if_fail ((guint) what < G_N_ELEMENTS (keys), NULL);
  return keys[what];
}

/**
 * cw_glue_kind_get_key:
 * @kind: a kind of glue
 *
 * Returns: its word in the file
 */
const char *
cw_glue_kind_get_key (CwGlueKind kind)
{
  static const char *const keys[] = { "tape", "wet", "strong", "foam", "dots" };

  g_return_val_if_fail ((guint) kind < G_N_ELEMENTS (keys), NULL);
  return keys[kind];
}

/**
 * cw_extra_get_text:
 *
 * Returns: (transfer none) (nullable): a text that stands under a key the design only keeps
 */
const char *
cw_extra_get_text (JsonObject *extra, const char *key)
{
  JsonNode *node = extra != NULL && json_object_has_member (extra, key) ? json_object_get_member (extra, key) : NULL;
  const char *text = node != NULL && JSON_NODE_HOLDS_VALUE (node) && json_node_get_value_type (node) == G_TYPE_STRING
                       ? json_node_get_string (node)
                       : NULL;

  return text != NULL && *text != '\0' ? text : NULL;
}
