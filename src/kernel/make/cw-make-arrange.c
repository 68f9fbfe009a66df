/* cw-make-arrange.c: marks moved, mirrored, turned, spread and lined up, each as one edit.
 *
 * All in whole ticks. A mark's box is that of the places it is drawn by (ends, corners, places an arc goes through, a
 * circle's four sides), so that a mirrored mark has the mirrored box and mirroring twice gives the same places. A
 * quarter turn goes about the middle of that box; where that is no whole tick the turned box lies half a tick off, to
 * the other side the next time, so that four quarter turns are none. Coordinates that stay keep the text they were
 * typed with. Refuses in words what would leave the sheet or change nothing.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "make/cw-make-arrange.h"
#include "make/cw-make-private.h"

#include <glib/gi18n-lib.h>

static CwMakeBox
box_of_marks (const GPtrArray *marks)
{
  CwMakeBox box = { .some = FALSE };

  for (guint i = 0; i < marks->len; i++)
    cw_make_box_of_mark (marks->pdata[i], &box);
  return box;
}

/* ---- Places ---- */

static CwLength
put_length (CwLength length, gint32 ticks)
{
  return ticks == length.ticks ? length : cw_length_from_ticks (ticks, length.unit);
}

/* x and y change places when `turned`; then both are signed and shifted: exact, and its own kind of map undoes it. */
typedef struct
{
  gboolean turned;
  gint32 sign_x, sign_y, add_x, add_y;
} Map;

static CwPlace
map_place (const Map *map, CwPlace place)
{
  CwLength x = map->turned ? place.y : place.x, y = map->turned ? place.x : place.y;

  return (CwPlace){ put_length (x, map->sign_x * x.ticks + map->add_x),
                    put_length (y, map->sign_y * y.ticks + map->add_y) };
}

static CwMark *
map_mark (const Map *map, const CwMark *mark)
{
  CwMark *copy = cw_mark_copy (mark);

  for (guint i = 0; i < copy->line.n_vertices; i++)
    copy->line.vertices[i].at = map_place (map, copy->line.vertices[i].at);
  if (copy->shape == CW_SHAPE_CIRCLE)
    copy->centre = map_place (map, copy->centre);
  return copy;
}

static Map
map_shift (CwPoint by)
{
  return (Map){ FALSE, 1, 1, by.x, by.y };
}

/* ---- The marks that are meant, and the edit ---- */

/* The marks with these ids, in the order of the piece; borrowed. */
static GPtrArray *
find_marks (const CwPiece *piece, const char *const *mark_ids)
{
  GPtrArray *found = g_ptr_array_new ();

  for (guint i = 0; i < piece->marks->len; i++)
    if (g_strv_contains (mark_ids, ((const CwMark *) piece->marks->pdata[i])->id))
      g_ptr_array_add (found, piece->marks->pdata[i]);
  return found;
}

static GPtrArray *
new_marks (void)
{
  return g_ptr_array_new_with_free_func ((GDestroyNotify) cw_mark_unref);
}

static gboolean
same_places (const CwMark *a, const CwMark *b)
{
  for (guint i = 0; i < a->line.n_vertices; i++)
    if (!cw_point_equal (cw_place_get_point (&a->line.vertices[i].at), cw_place_get_point (&b->line.vertices[i].at)))
      return FALSE;
  return a->shape != CW_SHAPE_CIRCLE
         || cw_point_equal (cw_place_get_point (&a->centre), cw_place_get_point (&b->centre));
}

/* Puts changed marks in the place of the old ones, if they lie on the sheet and anything has changed. */
static CwEdit *
replace (const CwDesign *design, const CwPiece *piece, const GPtrArray *old, GPtrArray *marks, GError **error)
{
  gboolean changed = FALSE;

  for (guint i = 0; i < marks->len; i++)
    {
      changed = changed || !same_places (old->pdata[i], marks->pdata[i]);
      if (same_places (old->pdata[i], marks->pdata[i]) || cw_make_mark_on_sheet (piece, marks->pdata[i]))
        continue;
      cw_make_fail (error, _ ("%s would lie off the sheet then."), ((const CwMark *) marks->pdata[i])->id);
      g_ptr_array_unref (marks);
      return NULL;
    }
  if (!changed)
    {
      cw_make_fail (error, _ ("Nothing would change: it lies that way already."));
      g_ptr_array_unref (marks);
      return NULL;
    }
  return cw_make_replace_marks (design, piece->id, marks, error);
}

static CwEdit *
replace_mapped (const CwDesign *design, const CwPiece *piece, const GPtrArray *old, const Map *map, GError **error)
{
  GPtrArray *marks = new_marks ();

  for (guint i = 0; i < old->len; i++)
    g_ptr_array_add (marks, map_mark (map, old->pdata[i]));
  return replace (design, piece, old, marks, error);
}

/**
 * cw_make_shift_marks:
 * @mark_ids: (array zero-terminated=1): marks of the piece
 * @by: how far, ticks, in the piece's own coordinates
 *
 * Returns: (transfer full): the edit, or NULL with CW_MAKE_ERROR when a mark would leave the sheet
 */
CwEdit *
cw_make_shift_marks (const CwDesign *design, const char *piece_id, const char *const *mark_ids, CwPoint by,
                     GError **error)
{
  const CwPiece *piece = design ? cw_design_get_piece (design, piece_id) : NULL;
  g_return_val_if_fail (piece && mark_ids, NULL);

  g_autoptr (GPtrArray) old = find_marks (piece, mark_ids);
  Map map = map_shift (by);
  return replace_mapped (design, piece, old, &map, error);
}

/**
 * cw_make_mirror_marks:
 * @mark_ids: (array zero-terminated=1): marks of the piece
 * @left_right: left and right change places, else top and bottom, in the piece's own coordinates
 *
 * Mirrors marks in the middle of the box round them. Which way scores fold stays.
 *
 * Returns: (transfer full): the edit, or NULL with CW_MAKE_ERROR
 */
CwEdit *
cw_make_mirror_marks (const CwDesign *design, const char *piece_id, const char *const *mark_ids, gboolean left_right,
                      GError **error)
{
  const CwPiece *piece = design ? cw_design_get_piece (design, piece_id) : NULL;
  g_return_val_if_fail (piece && mark_ids, NULL);

  g_autoptr (GPtrArray) old = find_marks (piece, mark_ids);
  CwMakeBox box = box_of_marks (old);
  Map map
    = left_right ? (Map){ FALSE, -1, 1, box.low.x + box.high.x, 0 } : (Map){ FALSE, 1, -1, 0, box.low.y + box.high.y };
  return replace_mapped (design, piece, old, &map, error);
}

/**
 * cw_make_mirror_copy:
 * @mark_ids: (array zero-terminated=1): marks of the piece
 * @left_right: to the other side of the upright middle of the sheet, else of the level one
 *
 * Adds mirrored copies on the other half of the sheet.
 *
 * Returns: (transfer full): the edit, or NULL with CW_MAKE_ERROR
 */
CwEdit *
cw_make_mirror_copy (const CwDesign *design, const char *piece_id, const char *const *mark_ids, gboolean left_right,
                     GError **error)
{
  const CwPiece *piece = design ? cw_design_get_piece (design, piece_id) : NULL;
  g_return_val_if_fail (piece && mark_ids, NULL);

  g_autoptr (GPtrArray) old = find_marks (piece, mark_ids);
  CwMakeBox sheet = cw_make_box_of_piece (piece);
  Map map = left_right ? (Map){ FALSE, -1, 1, sheet.low.x + sheet.high.x, 0 }
                       : (Map){ FALSE, 1, -1, 0, sheet.low.y + sheet.high.y };
  GPtrArray *marks = new_marks ();

  for (guint i = 0; i < old->len; i++)
    g_ptr_array_add (marks, map_mark (&map, old->pdata[i]));
  if (marks->len > 0)
    return cw_make_add_marks (design, piece_id, marks, FALSE, error);
  g_ptr_array_unref (marks);
  cw_make_fail (error, _ ("Choose a mark first."));
  return NULL;
}

/* An odd number is brought to the even one above it, or below it, in turns: see the top of this file. */
static gint32
halve (gint32 sum, gint32 by_parity_of)
{
  if (sum % 2 == 0)
    return sum / 2;
  return (by_parity_of % 2 == 0 ? sum + 1 : sum - 1) / 2;
}

/**
 * cw_make_turn_marks:
 * @mark_ids: (array zero-terminated=1): marks of the piece
 * @quarters: quarter turns clockwise, front up
 *
 * Turns marks about the middle of the box round them.
 *
 * Returns: (transfer full): the edit, or NULL with CW_MAKE_ERROR
 */
CwEdit *
cw_make_turn_marks (const CwDesign *design, const char *piece_id, const char *const *mark_ids, guint quarters,
                    GError **error)
{
  const CwPiece *piece = design ? cw_design_get_piece (design, piece_id) : NULL;
  g_return_val_if_fail (piece && mark_ids, NULL);

  g_autoptr (GPtrArray) old = find_marks (piece, mark_ids);
  CwMakeBox box = box_of_marks (old);
  gint32 sx = box.low.x + box.high.x, sy = box.low.y + box.high.y;
  /* A quarter clockwise with y down: (x, y) goes to (cx + cy - y, cy - cx + x). */
  gint32 plus = halve (sx + sy, sx), minus = halve (sy - sx, sy);
  Map map;

  switch (quarters % 4)
    {
    case 1:
      map = (Map){ TRUE, -1, 1, plus, minus };
      break;
    case 2:
      map = (Map){ FALSE, -1, -1, sx, sy };
      break;
    case 3:
      /* The way back: the sums that the quarter clockwise was made from. */
      map = (Map){ TRUE, 1, -1, -halve (sy - sx, sx + 1), halve (sx + sy, sy) };
      break;
    case 0:
    default:
      map = map_shift (cw_point (0, 0));
      break;
    }
  return replace_mapped (design, piece, old, &map, error);
}

/* ---- Spreading and lining up ---- */

typedef struct
{
  guint index;
  gint32 sum[2]; /* twice the middle of its box, across and down */
} Middle;

static int
compare_across (gconstpointer a, gconstpointer b)
{
  const Middle *p = a, *q = b;

  return p->sum[0] != q->sum[0] ? (p->sum[0] > q->sum[0]) - (p->sum[0] < q->sum[0])
                                : (p->index > q->index) - (p->index < q->index);
}

static int
compare_down (gconstpointer a, gconstpointer b)
{
  const Middle *p = a, *q = b;

  return p->sum[1] != q->sum[1] ? (p->sum[1] > q->sum[1]) - (p->sum[1] < q->sum[1])
                                : (p->index > q->index) - (p->index < q->index);
}

/* n / d to the nearest integer, half away from zero; d > 0. */
static gint32
round_share (gint64 n, gint64 d)
{
  return (gint32) (n >= 0 ? (n + d / 2) / d : -((-n + d / 2) / d));
}

/**
 * cw_make_spread_marks:
 * @mark_ids: (array zero-terminated=1): three marks of the piece or more
 *
 * Leaves the two outermost where they are and spreads the others between them, so that the steps from middle to middle
 * are the same to a tick; across or down, whichever the marks are spread along more.
 *
 * Returns: (transfer full): the edit, or NULL with CW_MAKE_ERROR
 */
CwEdit *
cw_make_spread_marks (const CwDesign *design, const char *piece_id, const char *const *mark_ids, GError **error)
{
  const CwPiece *piece = design ? cw_design_get_piece (design, piece_id) : NULL;
  g_return_val_if_fail (piece && mark_ids, NULL);

  g_autoptr (GPtrArray) old = find_marks (piece, mark_ids);
  g_autoptr (GArray) middles = g_array_new (FALSE, FALSE, sizeof (Middle));
  CwMakeBox all = { .some = FALSE };

  if (old->len < 3)
    {
      cw_make_fail (error, _ ("Choose three marks or more: the outer two stay, those between are spread evenly."));
      return NULL;
    }
  for (guint i = 0; i < old->len; i++)
    {
      CwMakeBox box = { .some = FALSE };

      cw_make_box_of_mark (old->pdata[i], &box);
      Middle middle = { i, { box.low.x + box.high.x, box.low.y + box.high.y } };
      cw_make_box_add (&all, cw_point (middle.sum[0], middle.sum[1]));
      g_array_append_val (middles, middle);
    }
  gboolean down = all.high.y - all.low.y > all.high.x - all.low.x;
  g_array_sort (middles, down ? compare_down : compare_across);
  gint32 first = g_array_index (middles, Middle, 0).sum[down];
  gint32 last = g_array_index (middles, Middle, middles->len - 1).sum[down];
  GPtrArray *marks = new_marks ();

  for (guint i = 0; i < old->len; i++)
    {
      guint at = 0;
      while (g_array_index (middles, Middle, at).index != i)
        at++;
      gint64 n = middles->len - 1;
      gint32 by = round_share (((gint64) last - first) * at
                                 + ((gint64) first - g_array_index (middles, Middle, at).sum[down]) * n,
                               2 * n);
      Map map = map_shift (down ? cw_point (0, by) : cw_point (by, 0));
      g_ptr_array_add (marks, map_mark (&map, old->pdata[i]));
    }
  return replace (design, piece, old, marks, error);
}

/**
 * cw_make_align_marks:
 * @mark_ids: (array zero-terminated=1): marks of the piece
 * @where: which side or middle, in the piece's own coordinates
 * @to_id: (nullable): the mark to line up with; NULL: the sheet itself
 *
 * Moves each mark until its own side or middle lies in line with that of the mark or the sheet. A middle that is no
 * whole tick is rounded to the lower one.
 *
 * Returns: (transfer full): the edit, or NULL with CW_MAKE_ERROR
 */
CwEdit *
cw_make_align_marks (const CwDesign *design, const char *piece_id, const char *const *mark_ids, CwMakeAlign where,
                     const char *to_id, GError **error)
{
  const CwPiece *piece = design ? cw_design_get_piece (design, piece_id) : NULL;
  const CwMark *to = piece && to_id ? cw_piece_get_mark (piece, to_id) : NULL;
  g_return_val_if_fail (piece && mark_ids && (to || !to_id), NULL);

  g_autoptr (GPtrArray) old = find_marks (piece, mark_ids);
  CwMakeBox aim = { .some = FALSE };
  GPtrArray *marks = new_marks ();

  if (to)
    cw_make_box_of_mark (to, &aim);
  else
    aim = cw_make_box_of_piece (piece);
  for (guint i = 0; i < old->len; i++)
    {
      CwMakeBox box = { .some = FALSE };
      CwPoint by = cw_point (0, 0);

      cw_make_box_of_mark (old->pdata[i], &box);
      switch (where)
        {
        case CW_ALIGN_LEFT:
          by.x = aim.low.x - box.low.x;
          break;
        case CW_ALIGN_RIGHT:
          by.x = aim.high.x - box.high.x;
          break;
        case CW_ALIGN_TOP:
          by.y = aim.low.y - box.low.y;
          break;
        case CW_ALIGN_BOTTOM:
          by.y = aim.high.y - box.high.y;
          break;
        case CW_ALIGN_MIDDLE_ACROSS:
          by.x = (aim.low.x + aim.high.x - box.low.x - box.high.x) / 2;
          break;
        case CW_ALIGN_MIDDLE_DOWN:
        default:
          by.y = (aim.low.y + aim.high.y - box.low.y - box.high.y) / 2;
          break;
        }
      Map map = map_shift (old->pdata[i] == to ? cw_point (0, 0) : by);
      g_ptr_array_add (marks, map_mark (&map, old->pdata[i]));
    }
  return replace (design, piece, old, marks, error);
}

/* ---- Copies ---- */

static gboolean
copies_fit (const CwPiece *piece, const GPtrArray *old, const Map *map)
{
  for (guint i = 0; i < old->len; i++)
    {
      g_autoptr (CwMark) copy = map_mark (map, old->pdata[i]);

      if (!cw_make_mark_on_sheet (piece, copy))
        return FALSE;
    }
  return TRUE;
}

/**
 * cw_make_repeat_marks:
 * @mark_ids: (array zero-terminated=1): marks of the piece
 * @by: the distance from one copy to the next, ticks, in the piece's own coordinates
 * @times: how many copies
 *
 * Returns: (transfer full): the edit, or NULL with CW_MAKE_ERROR that tells how many copies have room
 */
CwEdit *
cw_make_repeat_marks (const CwDesign *design, const char *piece_id, const char *const *mark_ids, CwPoint by,
                      guint times, GError **error)
{
  const CwPiece *piece = design ? cw_design_get_piece (design, piece_id) : NULL;
  g_return_val_if_fail (piece && mark_ids && times <= CW_MAKE_PARTS_MAX, NULL);

  g_autoptr (GPtrArray) old = find_marks (piece, mark_ids);
  if (old->len == 0 || times == 0 || (by.x == 0 && by.y == 0))
    {
      cw_make_fail (error, _ ("Say how far apart the copies are to lie, and how many."));
      return NULL;
    }
  g_autoptr (GPtrArray) marks = new_marks ();

  for (guint k = 1; k <= times; k++)
    {
      Map map = map_shift (cw_point (by.x * (gint32) k, by.y * (gint32) k));

      if (!copies_fit (piece, old, &map))
        {
          if (k == 1)
            cw_make_fail (error, _ ("There is no room for a copy at that distance."));
          else
            cw_make_fail (error,
                          dngettext (GETTEXT_PACKAGE, "Only %u copy has room on the sheet.",
                                     "Only %u copies have room on the sheet.", k - 1),
                          k - 1);
          return NULL;
        }
      for (guint i = 0; i < old->len; i++)
        g_ptr_array_add (marks, map_mark (&map, old->pdata[i]));
    }
  return cw_make_add_marks (design, piece_id, g_steal_pointer (&marks), FALSE, error);
}
