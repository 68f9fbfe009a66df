/* cw-draw-pick.c: what of a draw list lies under the pointer, and how far it reaches.
 *
 * Walks the items from the top: the same list that is seen is the list that is touched. Areas answer by the even-odd
 * rule, lines by distance, words by the box they may fill; clips hold for picking as for drawing.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-draw-list-private.h"

#include <math.h>

#include "cw-pen.h"

/* Straight parts to a whole turn when picking: a fifth of a percent of the radius off the circle. */
#define ARC_PARTS 48

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
  guint n_clipped = 0; /* clips round this item that do not hold the place */

  g_return_val_if_fail (list != NULL && id != NULL, FALSE);

  for (guint i = list->items->len; i-- > 0;)
    {
      const CwItem *item = &g_array_index (list->items, CwItem, i);
      const CwPenStyle *style = cw_pen_get_style (item->pen);

      if (item->pen == CW_PEN_UNCLIP)
        {
          /* Walking down, the end of a clip comes first: look for its path. */
          guint inner = 0;
          for (guint k = i; k-- > 0;)
            {
              const CwItem *clip = &g_array_index (list->items, CwItem, k);
              if (clip->pen == CW_PEN_UNCLIP)
                inner++;
              else if (clip->pen == CW_PEN_CLIP && inner-- == 0)
                {
                  n_clipped += probe_item (list, clip, x, y).inside ? 0 : 1;
                  break;
                }
            }
          continue;
        }
      if (item->pen == CW_PEN_CLIP)
        {
          n_clipped -= probe_item (list, item, x, y).inside ? 0 : 1;
          continue;
        }
      if (n_clipped > 0 || item->id.kind == CW_ID_NONE || (kinds & 1u << item->id.kind) == 0)
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

/**
 * cw_item_get_length:
 * @list: a list
 * @item: one of its paths
 * @one: (out): whether it is a single stroke
 *
 * Returns: the length of all that is drawn of it, output units
 */
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
