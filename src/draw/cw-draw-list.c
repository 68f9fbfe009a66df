/* cw-draw-list.c: the neutral list of things to draw, and what of it lies under the pointer.
 *
 * Three growing arrays (items, path operations, words) that keep their memory when cleared, so that refilling a list
 * every frame allocates nothing. Arcs are kept as arcs. Picking walks the items from the top: the same list that is
 * seen is the list that is touched.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-draw-list-private.h"

#include <math.h>

#include "cw-pen.h"

/* A chord this much of the radius off the circle is not seen, and this many parts make a whole turn when picking. */
#define ARC_PARTS 48
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
 * What follows shows everywhere again. Clips do not nest.
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
 * cw_draw_text_width:
 * @size: height of the em
 * @text: words
 *
 * Returns: a width the words will not exceed in the usual sans fonts; the list itself knows no fonts
 */
double
cw_draw_text_width (double size, const char *text)
{
  double em = 0;

  for (const char *at = text; *at != '\0'; at = g_utf8_next_char (at))
    {
      gunichar c = g_utf8_get_char (at);
      if (c == ' ' || c == ',' || c == '.' || c == 'i' || c == 'l' || c == 'j' || c == '/' || c == ':' || c == '\'')
        em += 0.34;
      else if (c == 'm' || c == 'w' || c == 'M' || c == 'W')
        em += 0.99;
      else if (g_unichar_iswide (c))
        em += 1;
      else if (g_unichar_isupper (c))
        em += 0.72;
      else
        em += 0.62;
    }
  return em * size;
}

/* The box of words in their own frame: x from, y from, x to, y to about the anchor. */
static void
text_box (const CwDrawList *list, const CwItem *item, double box[4])
{
  double width = cw_draw_text_width (item->size, list->words->str + item->text);
  double left = item->anchor == CW_ANCHOR_START ? 0 : item->anchor == CW_ANCHOR_MIDDLE ? -width / 2 : -width;

  box[0] = left;
  box[1] = -item->size * 0.85;
  box[2] = left + width;
  box[3] = item->size * 0.25;
}

/* Walks an item's path as straight pieces. `each` gets every piece; `closing` those that only a filling needs. */
typedef void (*EachPiece) (double ax, double ay, double bx, double by, gboolean closing, gpointer data);

static void
walk (const CwDrawList *list, const CwItem *item, EachPiece each, gpointer data)
{
  double x = 0, y = 0, sx = 0, sy = 0;
  gboolean begun = FALSE;

  for (guint i = 0; i < item->n_ops; i++)
    {
      const CwOp *op = &g_array_index (list->ops, CwOp, item->first_op + i);
      switch (op->kind)
        {
        case CW_OP_MOVE:
          if (begun)
            each (x, y, sx, sy, TRUE, data);
          x = sx = op->v[0];
          y = sy = op->v[1];
          begun = TRUE;
          break;
        case CW_OP_LINE:
          each (x, y, op->v[0], op->v[1], FALSE, data);
          x = op->v[0];
          y = op->v[1];
          break;
        case CW_OP_ARC:
          {
            int parts = 1 + (int) (fabs (op->v[4]) / (2 * G_PI) * ARC_PARTS);
            for (int k = 1; k <= parts; k++)
              {
                double angle = op->v[3] + op->v[4] * k / parts;
                double nx = op->v[0] + op->v[2] * cos (angle), ny = op->v[1] + op->v[2] * sin (angle);
                each (x, y, nx, ny, FALSE, data);
                x = nx;
                y = ny;
              }
            break;
          }
        case CW_OP_CLOSE:
          each (x, y, sx, sy, FALSE, data);
          x = sx;
          y = sy;
          begun = FALSE;
          break;
        default:
          g_assert_not_reached ();
        }
    }
  if (begun)
    each (x, y, sx, sy, TRUE, data);
}

typedef struct
{
  double x, y, near;
  gboolean inside;
} Probe;

static void
probe_piece (double ax, double ay, double bx, double by, gboolean closing, gpointer data)
{
  Probe *probe = data;
  double dx = bx - ax, dy = by - ay, px = probe->x - ax, py = probe->y - ay;
  double length2 = dx * dx + dy * dy;
  double t = length2 > 0 ? CLAMP ((px * dx + py * dy) / length2, 0, 1) : 0;

  if (!closing)
    probe->near = MIN (probe->near, hypot (px - t * dx, py - t * dy));
  /* Even-odd crossings of the ray to the right. */
  if ((ay > probe->y) != (by > probe->y) && probe->x < ax + (probe->y - ay) / dy * dx)
    probe->inside = !probe->inside;
}

static Probe
probe_item (const CwDrawList *list, const CwItem *item, double x, double y)
{
  Probe probe = { x, y, G_MAXDOUBLE, FALSE };

  if (item->text == G_MAXUINT)
    {
      walk (list, item, probe_piece, &probe);
      return probe;
    }

  double box[4], turn = item->angle_deg * G_PI / 180;
  double dx = x - item->x, dy = y - item->y;
  double u = dx * cos (turn) + dy * sin (turn), v = -dx * sin (turn) + dy * cos (turn);
  text_box (list, item, box);
  probe.inside = u >= box[0] && u <= box[2] && v >= box[1] && v <= box[3];
  return probe;
}

/**
 * cw_draw_list_pick:
 * @list: a list
 * @x: a place, output units
 * @y: the same
 * @reach: how near counts, output units
 * @kinds: mask of 1 << #CwIdKind
 * @id: (out): what lies there
 *
 * Handles win within reach, then the nearest line above the topmost area, then that area.
 *
 * Returns: %FALSE if nothing of these kinds lies there
 */
gboolean
cw_draw_list_pick (const CwDrawList *list, double x, double y, double reach, guint kinds, CwId *id)
{
  const CwItem *best = NULL;
  double nearest = G_MAXDOUBLE;
  gboolean clipped_away = FALSE;

  g_return_val_if_fail (list != NULL && id != NULL, FALSE);

  for (guint i = list->items->len; i-- > 0;)
    {
      const CwItem *item = &g_array_index (list->items, CwItem, i);
      const CwPenStyle *style = cw_pen_get_style (item->pen);

      if (item->pen == CW_PEN_UNCLIP)
        {
          /* Walking down, the end of a clip comes first: look for its path. */
          for (guint k = i; k-- > 0;)
            {
              const CwItem *clip = &g_array_index (list->items, CwItem, k);
              if (clip->pen == CW_PEN_CLIP)
                {
                  clipped_away = !probe_item (list, clip, x, y).inside;
                  break;
                }
            }
          continue;
        }
      if (item->pen == CW_PEN_CLIP)
        {
          clipped_away = FALSE;
          continue;
        }
      if (clipped_away || item->id.kind == CW_ID_NONE || (kinds & 1u << item->id.kind) == 0)
        continue;

      Probe probe = probe_item (list, item, x, y);
      gboolean area = item->text != G_MAXUINT || item->pen == CW_PEN_PICK || style->fill != CW_FILL_NONE;
      if (item->id.kind == CW_ID_MARK_END || item->pen == CW_PEN_HANDLE)
        {
          if (probe.inside || probe.near <= reach)
            {
              *id = item->id;
              return TRUE;
            }
          continue;
        }
      if (!area || style->line != CW_LINE_NONE)
        if (probe.near <= reach && probe.near < nearest)
          {
            nearest = probe.near;
            best = item;
          }
      if (area && probe.inside)
        {
          if (best == NULL)
            best = item;
          break;
        }
    }

  if (best == NULL)
    return FALSE;
  *id = best->id;
  return TRUE;
}

static void
extend (double *box, double x, double y)
{
  box[0] = MIN (box[0], x);
  box[1] = MIN (box[1], y);
  box[2] = MAX (box[2], x);
  box[3] = MAX (box[3], y);
}

static void
extend_piece (double ax, double ay, double bx, double by, gboolean closing, gpointer data)
{
  extend (data, ax, ay);
  extend (data, bx, by);
}

static void
extend_item (const CwDrawList *list, const CwItem *item, double found[4])
{
  if (item->pen == CW_PEN_CLIP)
    return;
  if (item->text == G_MAXUINT)
    {
      walk (list, item, extend_piece, found);
      return;
    }
  double own[4], turn = item->angle_deg * G_PI / 180;
  text_box (list, item, own);
  for (int k = 0; k < 4; k++)
    {
      double u = own[k & 1 ? 2 : 0], v = own[k & 2 ? 3 : 1];
      extend (found, item->x + u * cos (turn) - v * sin (turn), item->y + u * sin (turn) + v * cos (turn));
    }
}

/**
 * cw_draw_list_get_extents:
 * @list: a list
 * @box: (out): left, top, right, bottom of all items; all 0 for an empty list
 */
void
cw_draw_list_get_extents (const CwDrawList *list, double box[4])
{
  double found[4] = { G_MAXDOUBLE, G_MAXDOUBLE, -G_MAXDOUBLE, -G_MAXDOUBLE };

  for (guint i = 0; i < list->items->len; i++)
    extend_item (list, &g_array_index (list->items, CwItem, i), found);
  for (int k = 0; k < 4; k++)
    box[k] = found[0] > found[2] ? 0 : found[k];
}

/**
 * cw_draw_list_get_box:
 * @list: a list
 * @id: what to look for
 * @box: (out): left, top, right, bottom of all items that are pictures of it; all 0 if there are none
 *
 * Returns: whether there are any
 */
gboolean
cw_draw_list_get_box (const CwDrawList *list, CwId id, double box[4])
{
  double found[4] = { G_MAXDOUBLE, G_MAXDOUBLE, -G_MAXDOUBLE, -G_MAXDOUBLE };

  for (guint i = 0; i < list->items->len; i++)
    {
      const CwItem *item = &g_array_index (list->items, CwItem, i);
      if (item->id.kind == id.kind && item->id.piece == id.piece && item->id.index == id.index
          && item->id.part == id.part)
        extend_item (list, item, found);
    }
  for (int k = 0; k < 4; k++)
    box[k] = found[0] > found[2] ? 0 : found[k];
  return found[0] <= found[2];
}

static void
add_length (double ax, double ay, double bx, double by, gboolean closing, gpointer data)
{
  if (!closing)
    *(double *) data += hypot (bx - ax, by - ay);
}

double
cw_item_get_length (const CwDrawList *list, const CwItem *item, gboolean *one)
{
  double length = 0;
  guint moves = 0;

  for (guint i = 0; i < item->n_ops; i++)
    moves += g_array_index (list->ops, CwOp, item->first_op + i).kind == CW_OP_MOVE;
  *one = moves == 1;
  walk (list, item, add_length, &length);
  return length;
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
  static const char *const kinds[] = { "none", "sheet", "panel", "mark",    "mark-end", "hinge", "name",
                                       "zone", "art",   "hold",  "measure", "finding",  "ruler" };
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
