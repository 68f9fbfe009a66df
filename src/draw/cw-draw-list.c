/* cw-draw-list.c: the neutral list of things to draw.
 *
 * Three growing arrays (items, path operations, words) that keep their memory when cleared, so that refilling a list
 * every frame allocates nothing. Arcs are kept as arcs.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-draw-list-private.h"

#include <math.h>

#include "cw-pen.h"

/* Three points whose triangle is flatter than this share of its longest side squared count as one line. No unit. */
#define ARC_FLAT 1e-9

/**
 * cw_draw_list_new:
 *
 * Returns: (transfer full): an empty list
 */
CwDrawList *
cw_draw_list_new (void)
{
  CwDrawList *list = g_new0 (CwDrawList, 1);

  list->items = g_array_new (FALSE, FALSE, sizeof (CwItem));
  list->ops = g_array_new (FALSE, FALSE, sizeof (CwOp));
  list->words = g_string_new (NULL);
  list->ground = CW_GROUND_TABLE;
  return list;
}

/**
 * cw_draw_list_free:
 * @list: (transfer full) (nullable): a list
 */
void
cw_draw_list_free (CwDrawList *list)
{
  if (list == NULL)
    return;
  g_array_unref (list->items);
  g_array_unref (list->ops);
  g_string_free (list->words, TRUE);
  g_free (list);
}

/**
 * cw_draw_list_clear:
 * @list: a list, emptied; its memory is kept
 */
void
cw_draw_list_clear (CwDrawList *list)
{
  g_return_if_fail (list != NULL);
  g_array_set_size (list->items, 0);
  g_array_set_size (list->ops, 0);
  g_string_truncate (list->words, 0);
  list->ground = CW_GROUND_TABLE;
  list->open = FALSE;
}

/**
 * cw_draw_list_get_n_items:
 * @list: a list
 *
 * Returns: how many items it has
 */
guint
cw_draw_list_get_n_items (const CwDrawList *list)
{
  return list->items->len;
}

/**
 * cw_draw_list_uses:
 * @list: a list
 * @pen: a pen
 *
 * Returns: whether any item has this pen
 */
gboolean
cw_draw_list_uses (const CwDrawList *list, CwPen pen)
{
  for (guint i = 0; i < list->items->len; i++)
    if (g_array_index (list->items, CwItem, i).pen == pen)
      return TRUE;
  return FALSE;
}

/**
 * cw_draw_list_set_ground:
 * @list: a list
 * @rgb: colour of what the following items lie on, or %CW_GROUND_TABLE
 */
void
cw_draw_list_set_ground (CwDrawList *list, guint32 rgb)
{
  list->ground = rgb;
}

static CwItem *
append_item (CwDrawList *list, CwPen pen, CwId id)
{
  CwItem item = { .pen = pen, .id = id, .ground = list->ground, .shade = 1, .text = G_MAXUINT };

  item.first_op = list->ops->len;
  g_array_append_val (list->items, item);
  return &g_array_index (list->items, CwItem, list->items->len - 1);
}

static CwItem *
last_item (CwDrawList *list)
{
  return &g_array_index (list->items, CwItem, list->items->len - 1);
}

/**
 * cw_draw_list_begin:
 * @list: a list
 * @pen: what the path means
 * @id: what it is a picture of
 *
 * Begins one item; its path follows, then cw_draw_list_end().
 */
void
cw_draw_list_begin (CwDrawList *list, CwPen pen, CwId id)
{
  g_return_if_fail (list != NULL && !list->open);
  append_item (list, pen, id);
  list->open = TRUE;
}

/**
 * cw_draw_list_set_colour:
 * @list: a list with an item begun
 * @rgb: the item's own colour, instead of its pen's
 */
void
cw_draw_list_set_colour (CwDrawList *list, guint32 rgb)
{
  g_return_if_fail (list->open);
  last_item (list)->has_colour = TRUE;
  last_item (list)->colour = rgb & 0xffffff;
}

/**
 * cw_draw_list_set_shade:
 * @list: a list with an item begun
 * @shade: 0 dark to 1 as it is
 */
void
cw_draw_list_set_shade (CwDrawList *list, double shade)
{
  g_return_if_fail (list->open);
  last_item (list)->shade = CLAMP (shade, 0, 1);
}

static void
append_op (CwDrawList *list, CwOpKind kind, double a, double b)
{
  CwOp op = { kind, { a, b, 0, 0, 0 } };

  g_return_if_fail (list->open);
  g_array_append_val (list->ops, op);
  list->x = a;
  list->y = b;
}

/**
 * cw_draw_list_move:
 * @list: a list with an item begun
 * @x: where a new part of the path starts
 * @y: the same
 */
void
cw_draw_list_move (CwDrawList *list, double x, double y)
{
  append_op (list, CW_OP_MOVE, x, y);
  list->start_x = x;
  list->start_y = y;
}

/**
 * cw_draw_list_line:
 * @list: a list with an item begun
 * @x: where a straight line goes
 * @y: the same
 */
void
cw_draw_list_line (CwDrawList *list, double x, double y)
{
  append_op (list, CW_OP_LINE, x, y);
}

static void
append_arc (CwDrawList *list, double x, double y, double radius, double from, double by)
{
  CwOp op = { CW_OP_ARC, { x, y, radius, from, by } };

  g_return_if_fail (list->open);
  g_array_append_val (list->ops, op);
  list->x = x + radius * cos (from + by);
  list->y = y + radius * sin (from + by);
}

/**
 * cw_draw_list_arc:
 * @list: a list with an item begun
 * @x: the centre
 * @y: the same
 * @radius: the radius
 *
 * A whole circle, as a closed part of its own.
 */
void
cw_draw_list_arc (CwDrawList *list, double x, double y, double radius)
{
  cw_draw_list_move (list, x + radius, y);
  append_arc (list, x, y, radius, 0, 2 * G_PI);
  cw_draw_list_close (list);
}

/**
 * cw_draw_list_arc_to:
 * @list: a list with an item begun
 * @through_x: a place the arc passes
 * @through_y: the same
 * @x: where it ends
 * @y: the same
 */
void
cw_draw_list_arc_to (CwDrawList *list, double through_x, double through_y, double x, double y)
{
  double ax = list->x, ay = list->y;
  double bx = through_x - ax, by = through_y - ay, cx = x - ax, cy = y - ay;
  double d = 2 * (bx * cy - by * cx);
  double b2 = bx * bx + by * by, c2 = cx * cx + cy * cy;

  if (fabs (d) <= ARC_FLAT * MAX (b2, c2))
    {
      cw_draw_list_line (list, through_x, through_y);
      cw_draw_list_line (list, x, y);
      return;
    }

  double ux = (cy * b2 - by * c2) / d, uy = (bx * c2 - cx * b2) / d;
  double from = atan2 (-uy, -ux), to = atan2 (cy - uy, cx - ux);
  double sweep = to - from;
  /* The sign of the triangle says which way round passes the place between. */
  if (d > 0 && sweep < 0)
    sweep += 2 * G_PI;
  if (d < 0 && sweep > 0)
    sweep -= 2 * G_PI;
  append_arc (list, ax + ux, ay + uy, hypot (ux, uy), from, sweep);
  list->x = x;
  list->y = y;
}

/**
 * cw_draw_list_close:
 * @list: a list with an item begun; the present part of its path is closed
 */
void
cw_draw_list_close (CwDrawList *list)
{
  append_op (list, CW_OP_CLOSE, list->start_x, list->start_y);
}

/**
 * cw_draw_list_end:
 * @list: a list whose item is done
 */
void
cw_draw_list_end (CwDrawList *list)
{
  g_return_if_fail (list->open);
  last_item (list)->n_ops = list->ops->len - last_item (list)->first_op;
  list->open = FALSE;
}

/**
 * cw_draw_list_unclip:
 * @list: a list after an item with %CW_PEN_CLIP
 *
 * What follows shows where it did before that item. Clips nest.
 */
void
cw_draw_list_unclip (CwDrawList *list)
{
  append_item (list, CW_PEN_UNCLIP, (CwId){ CW_ID_NONE, 0, 0, 0 });
}

/**
 * cw_draw_list_text:
 * @list: a list
 * @pen: %CW_PEN_TEXT, %CW_PEN_TITLE or %CW_PEN_FIGURE
 * @id: what the words belong to
 * @x: place of the baseline's start, middle or end
 * @y: the same
 * @size: height of the letters' em, output units
 * @anchor: which part of the baseline is placed
 * @angle_deg: turn, clockwise as seen
 * @text: the words
 */
void
cw_draw_list_text (CwDrawList *list, CwPen pen, CwId id, double x, double y, double size, CwAnchor anchor,
                   double angle_deg, const char *text)
{
  g_return_if_fail (list != NULL && !list->open && text != NULL);

  CwItem *item = append_item (list, pen, id);
  item->text = (guint) list->words->len;
  item->x = x;
  item->y = y;
  item->size = size;
  item->anchor = anchor;
  item->angle_deg = angle_deg;
  g_string_append_len (list->words, text, (gssize) strlen (text) + 1);
}

/**
 * cw_draw_list_append_part:
 * @list: a list
 * @other: another
 * @first: the first of its items that is copied behind those of @list
 * @n: how many are
 * @scale: what its places and letters are multiplied by; lines keep their widths and patterns
 * @dx: how far right they are shifted then
 * @dy: how far down
 */
void
cw_draw_list_append_part (CwDrawList *list, const CwDrawList *other, guint first, guint n, double scale, double dx,
                          double dy)
{
  g_return_if_fail (list != NULL && other != NULL && list != other && !list->open && !other->open);
  g_return_if_fail (first <= other->items->len && n <= other->items->len - first);

  for (guint i = first; i < first + n; i++)
    {
      CwItem item = g_array_index (other->items, CwItem, i);
      guint first_op = item.first_op;

      item.first_op = list->ops->len;
      for (guint k = 0; k < item.n_ops; k++)
        {
          CwOp op = g_array_index (other->ops, CwOp, first_op + k);

          op.v[0] = op.v[0] * scale + dx;
          op.v[1] = op.v[1] * scale + dy;
          op.v[2] *= op.kind == CW_OP_ARC ? scale : 1;
          g_array_append_val (list->ops, op);
        }
      if (item.text != G_MAXUINT)
        {
          const char *text = other->words->str + item.text;

          item.text = (guint) list->words->len;
          g_string_append_len (list->words, text, (gssize) strlen (text) + 1);
        }
      item.x = item.x * scale + dx;
      item.y = item.y * scale + dy;
      item.size *= scale;
      g_array_append_val (list->items, item);
    }
}

/**
 * cw_draw_list_append:
 * @list: a list
 * @other: another, all of whose items are copied behind those of @list
 * @scale: as in cw_draw_list_append_part()
 * @dx: how far right they are shifted then
 * @dy: how far down
 */
void
cw_draw_list_append (CwDrawList *list, const CwDrawList *other, double scale, double dx, double dy)
{
  g_return_if_fail (other != NULL);

  cw_draw_list_append_part (list, other, 0, other->items->len, scale, dx, dy);
}

static void
append_number (GString *text, double value)
{
  char buffer[G_ASCII_DTOSTR_BUF_SIZE];

  /* No -0.00: the same picture must give the same text. */
  if (fabs (value) < 0.005)
    value = 0;
  g_string_append_printf (text, " %s", g_ascii_formatd (buffer, sizeof buffer, "%.2f", value));
}

/**
 * cw_draw_list_to_text:
 * @list: a list
 *
 * Returns: (transfer full): one line for every item: pen, id, colours, then the path (M, L, A centre radius from sweep,
 * Z) or the words
 */
char *
cw_draw_list_to_text (const CwDrawList *list)
{
  static const char *const kinds[]
    = { "none", "sheet",   "panel",   "mark",  "mark-end", "hinge",    "name",    "zone", "art",
        "hold", "measure", "finding", "ruler", "words",    "zone-end", "art-end", "layer" };
  GString *text = g_string_new (NULL);

  for (guint i = 0; i < list->items->len; i++)
    {
      const CwItem *item = &g_array_index (list->items, CwItem, i);
      g_string_append (text, cw_pen_get_style (item->pen)->key);
      if (item->id.kind != CW_ID_NONE)
        {
          g_string_append_printf (text, " %s", kinds[item->id.kind]);
          const guint part[3] = { item->id.piece, item->id.index, item->id.part };
          for (int k = 0; k < 3; k++)
            if (part[k] == G_MAXUINT)
              g_string_append (text, k == 0 ? " -" : "/-");
            else
              g_string_append_printf (text, k == 0 ? " %u" : "/%u", part[k]);
        }
      if (item->has_colour)
        g_string_append_printf (text, " #%06x", item->colour);
      if (item->ground != CW_GROUND_TABLE)
        g_string_append_printf (text, " on #%06x", item->ground);
      if (item->shade < 1)
        {
          g_string_append (text, " shade");
          append_number (text, item->shade);
        }
      g_string_append_c (text, ':');
      if (item->text != G_MAXUINT)
        {
          append_number (text, item->x);
          append_number (text, item->y);
          append_number (text, item->size);
          append_number (text, item->angle_deg);
          g_string_append_printf (text, " %s \"%s\"",
                                  item->anchor == CW_ANCHOR_START    ? "start"
                                  : item->anchor == CW_ANCHOR_MIDDLE ? "middle"
                                                                     : "end",
                                  list->words->str + item->text);
        }
      for (guint k = 0; k < item->n_ops; k++)
        {
          const CwOp *op = &g_array_index (list->ops, CwOp, item->first_op + k);
          g_string_append_printf (text, " %c", "MLAZ"[op->kind]);
          for (int n = 0; n < (op->kind == CW_OP_ARC ? 5 : op->kind == CW_OP_CLOSE ? 0 : 2); n++)
            append_number (text, op->v[n]);
        }
      g_string_append_c (text, '\n');
    }
  return g_string_free (text, FALSE);
}
