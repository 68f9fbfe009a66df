/* cw-drawing-snap.c: lengths that are not on the maker's own marks.
 *
 * Looked at: the places of outline and marks (not the points arcs go through, which nobody measures), radii, and where
 * pieces are stuck. The step is the design's; a metric design that names none is held to whole millimetres, as nobody
 * measures a metric card by sixteenths of an inch. A length that is no whole tick is told in any case. One note for
 * each mark, about its first such length.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "panel/cw-drawing-fault.h"

#include "cw-config.h"

#include <glib/gi18n-lib.h>

static gint32
snap_step (const CwHead *head)
{
  if (!head->has_snap && head->unit != CW_UNIT_INCH)
    return CW_TICKS_PER_MM;
  return head->snap_ticks;
}

static gboolean
is_off (const CwLength *length, gint32 step)
{
  return !cw_length_is_whole (*length) || (step > 0 && length->ticks % step != 0);
}

static const CwLength *
first_off_in_path (const CwPath *path, gint32 step, const CwPlace **at)
{
  for (guint i = 0; i < path->n_vertices; i++)
    {
      const CwVertex *vertex = &path->vertices[i];

      *at = &vertex->at;
      if (vertex->through)
        continue;
      if (is_off (&vertex->at.x, step))
        return &vertex->at.x;
      if (is_off (&vertex->at.y, step))
        return &vertex->at.y;
    }
  return NULL;
}

static const CwLength *
first_off_in_mark (const CwMark *mark, gint32 step, const CwPlace **at)
{
  if (mark->shape != CW_SHAPE_CIRCLE)
    return first_off_in_path (&mark->line, step, at);
  *at = &mark->centre;
  return is_off (&mark->centre.x, step)   ? &mark->centre.x
         : is_off (&mark->centre.y, step) ? &mark->centre.y
         : is_off (&mark->radius, step)   ? &mark->radius
                                          : NULL;
}

static void
say_off (const CwDrawing *drawing, const CwLength *length, CwPoint at, const char *mark, const char *words)
{
  const CwHead *head = drawing->design->head;
  gint32 step = snap_step (head);
  CwFinding *finding = cw_drawing_add (drawing, CW_FINDING_OFF_SNAP, at);
  gint32 nearest = step > 0 ? cw_ticks_snap (length->ticks, step) : length->ticks;
  g_autofree char *is = cw_length_format (*length);
  g_autofree char *every = step > 0 ? cw_length_format_ticks (step, head->unit) : NULL;
  g_autofree char *better = cw_length_format_ticks (nearest, head->unit);

  if (mark != NULL)
    cw_finding_add_mark (finding, drawing->sheet->piece->id, mark);
  cw_finding_set_amount (finding, CW_AMOUNT_TICKS, ABS (nearest - length->ticks));
  cw_finding_set_words (finding, words, N_ ("Make it {2}."), mark != NULL ? mark : drawing->sheet->piece->id, is,
                        better, every != NULL ? every : better, NULL);
}

static const char *
choose_words (gboolean has_step, const char *with_step, const char *without)
{
  return has_step ? with_step : without;
}

/**
 * cw_drawing_check_snap:
 * @drawing: a drawing; gets `off-snap`
 */
void
cw_drawing_check_snap (const CwDrawing *drawing)
{
  const CwPiece *piece = drawing->sheet->piece;
  gint32 step = snap_step (drawing->design->head);
  const CwPlace *at;
  const CwLength *length = first_off_in_path (&piece->outline, step, &at);

  if (length != NULL)
    say_off (drawing, length, cw_place_get_point (at), NULL,
             choose_words (step > 0,
                           N_ ("The outline of “{0}” has the measure {1}, which is not on your marks, every {3}."),
                           N_ ("The outline of “{0}” has the measure {1}, which no ruler shows exactly.")));
  for (guint m = 0; m < piece->marks->len; m++)
    {
      const CwMark *mark = piece->marks->pdata[m];

      length = first_off_in_mark (mark, step, &at);
      if (length != NULL)
        say_off (drawing, length, cw_place_get_point (at), mark->id,
                 choose_words (step > 0, N_ ("“{0}” has the measure {1}, which is not on your marks, every {3}."),
                               N_ ("“{0}” has the measure {1}, which no ruler shows exactly.")));
    }
  for (guint s = 0; s < drawing->design->steps->len; s++)
    {
      const CwStep *stuck = drawing->design->steps->pdata[s];

      if (stuck->what != CW_DO_STICK || g_strcmp0 (stuck->piece, piece->id) != 0)
        continue;
      length = is_off (&stuck->at.x, step) ? &stuck->at.x : is_off (&stuck->at.y, step) ? &stuck->at.y : NULL;
      if (length != NULL)
        say_off (drawing, length, cw_point (0, 0), NULL,
                 choose_words (step > 0, N_ ("“{0}” is stuck at {1}, which is not on your marks, every {3}."),
                               N_ ("“{0}” is stuck at {1}, which no ruler shows exactly.")));
    }
}
