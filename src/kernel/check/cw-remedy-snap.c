/* cw-remedy-snap.c: lengths moved onto the maker's own marks.
 *
 * A mark moves alone and with all that meets it, an outline with what ends on it; what a piece is stuck at moves with
 * its step.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "check/cw-remedy-private.h"

#include <glib/gi18n-lib.h>

/* As cw-drawing-snap.c has it: without marks any whole tick will do. */
static gint32
snapped (const CwHead *head, gint32 ticks)
{
  gint32 step = !head->has_snap && head->unit != CW_UNIT_INCH ? CW_TICKS_PER_MM : head->snap_ticks;

  return cw_ticks_snap (ticks, step);
}

static CwLength
snapped_length (const CwHead *head, CwLength length)
{
  gint32 ticks = snapped (head, length.ticks);

  return ticks == length.ticks && cw_length_is_whole (length) ? length : cw_length_from_ticks (ticks, length.unit);
}

static gboolean
snap_path (const CwHead *head, CwPath *path)
{
  gboolean any = FALSE;

  for (guint i = 0; i < path->n_vertices; i++)
    {
      CwPlace *at = &path->vertices[i].at;
      CwPlace to = { snapped_length (head, at->x), snapped_length (head, at->y) };

      if (path->vertices[i].through)
        continue;
      any
        |= to.x.ticks != at->x.ticks || to.y.ticks != at->y.ticks || to.x.text != at->x.text || to.y.text != at->y.text;
      *at = to;
    }
  return any;
}

/* Points that other lines share with the mark, or the outline, are taken along, so that what meets goes on meeting. */
static void
snap_shared (CwDraft *draft, const char *piece_id, const CwPath *path)
{
  for (guint i = 0; i < path->n_vertices; i++)
    {
      CwPoint from = cw_place_get_point (&path->vertices[i].at);
      CwPoint to = { snapped (draft->design->head, from.x), snapped (draft->design->head, from.y) };

      if (!path->vertices[i].through && !cw_point_equal (from, to))
        cw_draft_move_point (draft, piece_id, from, to);
    }
}

/**
 * cw_mend_snap:
 * @mending: an `off-snap`
 */
void
cw_mend_snap (CwMending *mending)
{
  const CwHead *head = mending->design->head;
  CwPiece *piece = cw_mending_get_piece (mending, 0);
  CwMark *mark;

  if (piece == NULL)
    return;
  if (cw_mending_get_mark (mending, 0, &piece, &mark))
    {
      for (guint shared = 0; shared < 2; shared++)
        {
          CwDraft *draft = cw_draft_new (mending->design);
          CwMark *copy;

          if (shared == 0)
            snap_shared (draft, piece->id, &mark->line);
          copy = cw_mark_copy (cw_piece_get_mark (cw_design_get_piece (draft->design, piece->id), mark->id));
          snap_path (head, &copy->line);
          if (copy->shape == CW_SHAPE_CIRCLE)
            {
              copy->centre = (CwPlace){ snapped_length (head, copy->centre.x), snapped_length (head, copy->centre.y) };
              copy->radius = snapped_length (head, copy->radius);
            }
          cw_draft_put_mark (draft, piece->id, copy);
          mending->family++;
          cw_mending_offer (mending, draft, N_ ("move onto your marks"),
                            N_ ("Move “{0}” to the nearest of your marks."), mark->id, NULL);
        }
      return;
    }
  piece = cw_mending_get_piece (mending, 0);
  {
    CwDraft *draft = cw_draft_new (mending->design);
    CwPiece *copy;

    snap_shared (draft, piece->id, &piece->outline);
    copy = cw_piece_copy (cw_design_get_piece (draft->design, piece->id));
    if (snap_path (head, &copy->outline) || !cw_edit_is_empty (draft->edit))
      cw_draft_put_piece (draft, copy);
    else
      cw_piece_unref (copy);
    mending->family++;
    cw_mending_offer (mending, draft, N_ ("move onto your marks"),
                      N_ ("Move the corners of “{0}” to the nearest of your marks."), cw_mending_name_piece (piece),
                      NULL);
  }
  for (guint i = 0; i < mending->design->steps->len; i++)
    {
      const CwStep *step = mending->design->steps->pdata[i];
      CwDraft *draft;
      CwStep *copy;

      if (step->what != CW_DO_STICK || g_strcmp0 (step->piece, piece->id) != 0)
        continue;
      draft = cw_draft_new (mending->design);
      copy = cw_step_copy (step);
      copy->at = (CwPlace){ snapped_length (head, step->at.x), snapped_length (head, step->at.y) };
      cw_draft_put_step (draft, copy);
      mending->family++;
      cw_mending_offer (mending, draft, N_ ("move onto your marks"), N_ ("Stick “{0}” at the nearest of your marks."),
                        cw_mending_name_piece (piece), NULL);
    }
}
