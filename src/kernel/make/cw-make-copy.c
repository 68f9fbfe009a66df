/* cw-make-copy.c: marks as text for the clipboard, and put down again; a panel divided into equal parts.
 *
 * What is copied is a whole small design, one piece with the marks in question: so it is read and checked like any
 * file, and pasted into a text editor it is one. Copies lie as far from the left and top edge as the marks did; where a
 * mark lies there already they go right and down by four of the maker's marks until they lie free.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "make/cw-make-arrange.h"
#include "make/cw-make-private.h"

#include "design/cw-design-json.h"
#include "panel/cw-path-flatten.h"

#include <glib/gi18n-lib.h>

#define TRIES_MAX 200 /* places tried for a copy */

/**
 * cw_make_copy_text:
 * @mark_ids: (array zero-terminated=1): marks of the piece
 *
 * Returns: (transfer full): the marks as the text of a small design
 */
char *
cw_make_copy_text (const CwDesign *design, const char *piece_id, const char *const *mark_ids)
{
  const CwPiece *piece = design ? cw_design_get_piece (design, piece_id) : NULL;
  g_return_val_if_fail (piece && mark_ids, NULL);

  g_autoptr (CwDesign) small = cw_design_new ();
  CwPiece *copy = cw_piece_copy (piece);

  small->head->unit = design->head->unit;
  small->head->has_measure = TRUE;
  for (guint i = copy->marks->len; i-- > 0;)
    if (!g_strv_contains (mark_ids, ((const CwMark *) copy->marks->pdata[i])->id))
      g_ptr_array_remove_index (copy->marks, i);
  g_ptr_array_set_size (copy->names, 0);
  g_ptr_array_set_size (copy->art, 0);
  copy->has_names = copy->has_art = copy->has_hold = copy->has_rim = FALSE;
  g_clear_pointer (&copy->paper, g_free);
  g_ptr_array_add (small->pieces, copy);
  return cw_design_to_text (small, NULL);
}

static void
shift_mark (CwMark *mark, CwPoint by)
{
  for (guint i = 0; i < mark->line.n_vertices; i++)
    {
      CwPlace *at = &mark->line.vertices[i].at;
      CwPoint p = cw_place_get_point (at);

      if (by.x != 0)
        at->x = cw_length_from_ticks (p.x + by.x, at->x.unit);
      if (by.y != 0)
        at->y = cw_length_from_ticks (p.y + by.y, at->y.unit);
    }
  if (mark->shape == CW_SHAPE_CIRCLE)
    {
      CwPoint c = cw_place_get_point (&mark->centre);

      if (by.x != 0)
        mark->centre.x = cw_length_from_ticks (c.x + by.x, mark->centre.x.unit);
      if (by.y != 0)
        mark->centre.y = cw_length_from_ticks (c.y + by.y, mark->centre.y.unit);
    }
}

static GPtrArray *
shifted (const GPtrArray *marks, CwPoint by)
{
  GPtrArray *copies = g_ptr_array_new_with_free_func ((GDestroyNotify) cw_mark_unref);

  for (guint i = 0; i < marks->len; i++)
    {
      CwMark *copy = cw_mark_copy (marks->pdata[i]);

      shift_mark (copy, by);
      g_ptr_array_add (copies, copy);
    }
  return copies;
}

/* What of the shift leaves a box of this size within the sheet. */
static gint32
keep (gint32 by, gint32 low, gint32 high, gint32 least, gint32 most)
{
  return CLAMP (by, least - low, MAX (least - low, most - high));
}

/**
 * cw_make_paste_text:
 * @text: what cw_make_copy_text() gave, or any design
 *
 * Adds the marks of the first piece in @text. Scores keep the way they fold.
 *
 * Returns: (transfer full): the edit, or NULL with CW_MAKE_ERROR when there are no marks in @text or they have no room
 */
CwEdit *
cw_make_paste_text (const CwDesign *design, const char *piece_id, const char *text, GError **error)
{
  const CwPiece *piece = design ? cw_design_get_piece (design, piece_id) : NULL;
  g_return_val_if_fail (piece && text, NULL);

  g_autoptr (CwDesign) small = cw_design_from_text (text, -1, "", NULL);
  const CwPiece *from = small && small->pieces->len > 0 ? small->pieces->pdata[0] : NULL;
  gint32 step = 4 * (design->head->snap_ticks > 0 ? design->head->snap_ticks : CW_TICKS_PER_INCH / 16);
  CwMakeBox sheet = cw_make_box_of_piece (piece), box = { .some = FALSE };

  if (!from || from->marks->len == 0)
    {
      cw_make_fail (error, _ ("There are no marks of a card to put down here."));
      return NULL;
    }
  for (guint i = 0; i < from->marks->len; i++)
    cw_make_box_of_mark (from->marks->pdata[i], &box);
  if (box.high.x - box.low.x > sheet.high.x - sheet.low.x || box.high.y - box.low.y > sheet.high.y - sheet.low.y)
    {
      cw_make_fail (error, _ ("This piece is too small for what you copied."));
      return NULL;
    }
  for (gint32 k = 0; k < TRIES_MAX; k++)
    {
      CwPoint by = { keep (k * step, box.low.x, box.high.x, sheet.low.x, sheet.high.x),
                     keep (k * step, box.low.y, box.high.y, sheet.low.y, sheet.high.y) };
      CwEdit *edit = cw_make_add_marks (design, piece_id, shifted (from->marks, by), FALSE, NULL);

      if (edit)
        return edit;
    }
  cw_make_fail (error, _ ("There is no free place for it here."));
  return NULL;
}

/* ---- A panel in equal parts ---- */

/**
 * cw_make_divide_panel:
 * @panel: index into the panels of the piece
 * @parts: how many, 2 to CW_MAKE_PARTS_MAX
 * @upright: the scores run down, in the piece's own coordinates, else across
 *
 * Scores the panel into parts that are equal to a tick.
 *
 * Returns: (transfer full): the edit, or NULL with CW_MAKE_ERROR
 */
CwEdit *
cw_make_divide_panel (const CwDesign *design, const char *piece_id, guint panel, guint parts, gboolean upright,
                      GError **error)
{
  const CwPiece *piece = design ? cw_design_get_piece (design, piece_id) : NULL;
  g_return_val_if_fail (piece && parts >= 2 && parts <= CW_MAKE_PARTS_MAX, NULL);

  g_autoptr (CwMakeGraph) graph = cw_make_graph_new (design, piece_id);
  g_return_val_if_fail (panel < graph->map->panels->len, NULL);
  const CwPanel *found = &g_array_index (graph->map->panels, CwPanel, panel);
  gint32 low = upright ? found->box_min.x : found->box_min.y;
  gint64 size = (upright ? found->box_max.x : found->box_max.y) - low;
  g_autoptr (GPtrArray) marks = g_ptr_array_new_with_free_func ((GDestroyNotify) cw_mark_unref);

  for (guint k = 1; k < parts; k++)
    {
      gint32 at = low + (gint32) ((2 * size * k + parts) / (2 * parts));
      g_autoptr (GArray) cuts = cw_polygon_find_stretches (&found->outline, upright, at);

      for (guint i = 0; i + 1 < cuts->len; i += 2)
        {
          CwMark *mark = cw_mark_new ();

          mark->kind = CW_MARK_SCORE;
          for (guint end = 0; end < 2; end++)
            {
              gint32 other = g_array_index (cuts, gint32, i + end);
              CwPoint p = upright ? cw_point (at, other) : cw_point (other, at);
              cw_path_append (&mark->line, cw_place_from_point (p, design->head->unit), FALSE);
            }
          g_ptr_array_add (marks, mark);
        }
    }
  if (marks->len > 0)
    return cw_make_add_marks (design, piece_id, g_steal_pointer (&marks), TRUE, error);
  cw_make_fail (error, _ ("This panel is too narrow for that."));
  return NULL;
}
