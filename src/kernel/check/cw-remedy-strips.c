/* cw-remedy-strips.c: paper that is too narrow: lines are moved apart, slits and windows made smaller, to leave what
 * the house value asks.
 *
 * The finding says how narrow; what is missing is rounded up to the maker's marks. Which way is apart is left to
 * trying.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "check/cw-remedy-private.h"

#include "geometry/cw-house.h"
#include "geometry/cw-polygon.h"
#include "geometry/cw-tolerance.h"

#include <glib/gi18n-lib.h>
#include <math.h>

static const gint32 ways[4][2] = { { -1, 0 }, { 1, 0 }, { 0, -1 }, { 0, 1 } };
static const char *const move_words[4]
  = { N_ ("Move “{0}” by {1} to the left."), N_ ("Move “{0}” by {1} to the right."), N_ ("Move “{0}” by {1} up."),
      N_ ("Move “{0}” by {1} down.") };

static void
offer_move (CwMending *mending, const CwPiece *piece, const CwMark *mark, gint32 by, guint way)
{
  CwDraft *draft = cw_draft_new (mending->design);
  g_autofree char *text = cw_mending_say (mending, by);

  cw_draft_shift_mark (draft, piece->id, mark->id, ways[way][0] * by, ways[way][1] * by, TRUE);
  mending->family++;
  cw_mending_offer (mending, draft,
                    mark->kind == CW_MARK_SCORE ? N_ ("move score")
                    : mark->kind == CW_MARK_CUT ? N_ ("move cut")
                                                : N_ ("move window"),
                    move_words[way], mark->id, text, NULL);
}

/**
 * cw_mend_by_shortening:
 * @mending: what is being mended
 * @piece: a piece
 * @mark: a straight or cornered cut of it
 * @by: how much shorter, ticks
 * @vertex: its first or its last place: the end that gives way, along its last stretch
 * @name: static msgid of a phrase that can follow "Undo"
 * @words: static msgid of a sentence about the mark {0} and the length {1}
 *
 * Offers to make a cut shorter at one end.
 */
void
cw_mend_by_shortening (CwMending *mending, const CwPiece *piece, const CwMark *mark, gint32 by, guint vertex,
                       const char *name, const char *words)
{
  guint next = vertex == 0 ? 1 : vertex - 1;
  CwPoint at = cw_place_get_point (&mark->line.vertices[vertex].at);
  CwPoint to = cw_place_get_point (&mark->line.vertices[next].at);
  double length = hypot ((double) to.x - at.x, (double) to.y - at.y);
  g_autofree char *text = cw_mending_say (mending, by);
  CwMark *copy;
  CwDraft *draft;

  if (length <= by)
    return;
  draft = cw_draft_new (mending->design);
  copy = cw_mark_copy (mark);
  cw_place_set (&copy->line.vertices[vertex].at, cw_point ((gint32) lround (at.x + (to.x - at.x) * by / length),
                                                           (gint32) lround (at.y + (to.y - at.y) * by / length)));
  cw_draft_put_mark (draft, piece->id, copy);
  mending->family++;
  cw_mending_offer (mending, draft, name, words, mark->id, text, NULL);
}

/* Left, right, top, bottom, as the sides below are gone through. */
static const char *const narrow_words[4] = { N_ ("Make the window “{0}” smaller by {1} on its left."),
                                             N_ ("Make the window “{0}” smaller by {1} on its right."),
                                             N_ ("Make the window “{0}” smaller by {1} at its top."),
                                             N_ ("Make the window “{0}” smaller by {1} at its bottom.") };

static void
offer_smaller_window (CwMending *mending, const CwPiece *piece, const CwMark *mark, gint32 by)
{
  g_autofree char *text = cw_mending_say (mending, by);

  if (mark->shape == CW_SHAPE_CIRCLE && mark->radius.ticks > by)
    {
      CwDraft *draft = cw_draft_new (mending->design);
      CwMark *copy = cw_mark_copy (mark);

      copy->radius = cw_length_from_ticks (mark->radius.ticks - by, mark->radius.unit);
      cw_draft_put_mark (draft, piece->id, copy);
      mending->family++;
      cw_mending_offer (mending, draft, N_ ("make window smaller"),
                        N_ ("Make the window “{0}” smaller by {1} all round."), mark->id, text, NULL);
    }
  for (guint side = 0; mark->shape == CW_SHAPE_RECT && mark->line.n_vertices >= 2 && side < 4; side++)
    {
      CwMark *copy = cw_mark_copy (mark);
      CwPlace *a = &copy->line.vertices[0].at, *b = &copy->line.vertices[1].at;
      gboolean across = side < 2, low = side % 2 == 0;
      gboolean a_first = across ? a->x.ticks < b->x.ticks : a->y.ticks < b->y.ticks;
      CwPlace *moved = low == a_first ? a : b;
      CwDraft *draft = cw_draft_new (mending->design);

      cw_place_move (moved, across ? (low ? by : -by) : 0, across ? 0 : (low ? by : -by));
      cw_draft_put_mark (draft, piece->id, copy);
      mending->family++;
      cw_mending_offer (mending, draft, N_ ("make window smaller"), narrow_words[side], mark->id, text, NULL);
    }
}

static void
mend_bridge (CwMending *mending, gint32 by)
{
  CwPiece *piece;
  CwMark *mark;

  /* The one listed last is tried first: the maker drew it later. Shorter or smaller before elsewhere. */
  for (guint i = mending->finding->marks->len; i-- > 0;)
    if (cw_mending_get_mark (mending, i, &piece, &mark))
      {
        if (mark->kind == CW_MARK_CUT && mark->line.n_vertices >= 2 && !cw_path_is_curved (&mark->line))
          {
            for (guint end = 0; end < 2; end++)
              cw_mend_by_shortening (mending, piece, mark, by, end * (mark->line.n_vertices - 1),
                                     N_ ("make cut shorter"), N_ ("Make the cut “{0}” shorter by {1}."));
          }
        if (mark->kind == CW_MARK_WINDOW)
          offer_smaller_window (mending, piece, mark, by);
      }
  for (guint i = mending->finding->marks->len; i-- > 0;)
    for (guint way = 0; cw_mending_get_mark (mending, i, &piece, &mark) && way < 4; way++)
      offer_move (mending, piece, mark, by, way);
}

/* Whether the mark runs along the rim of the panel. */
static gboolean
bounds_panel (const CwMark *mark, const CwPanel *panel)
{
  g_autoptr (GArray) points = cw_mark_flatten (mark);

  for (guint i = 0; i + (mark->kind == CW_MARK_WINDOW ? 0 : 1) < points->len; i++)
    {
      CwPoint a = g_array_index (points, CwPoint, i), b = g_array_index (points, CwPoint, (i + 1) % points->len);

      for (guint r = 0; r < panel->outline.n_rings; r++)
        for (guint k = 0, n = panel->outline.rings[r].n_points; k < n; k++)
          {
            CwPoint p = panel->outline.rings[r].points[k], q = panel->outline.rings[r].points[(k + 1) % n];

            if (cw_segment_distance (a, b, p.x, p.y) <= CW_TOL_EXACT_TICKS
                && cw_segment_distance (a, b, q.x, q.y) <= CW_TOL_EXACT_TICKS)
              return TRUE;
          }
    }
  return FALSE;
}

static const char *const larger_words[4]
  = { N_ ("Make “{0}” larger by {1} on its left."), N_ ("Make “{0}” larger by {1} at its top."),
      N_ ("Make “{0}” larger by {1} on its right."), N_ ("Make “{0}” larger by {1} at its bottom.") };

static void
mend_panel (CwMending *mending, const CwPanelRef *ref, gint32 by)
{
  const CwPanelSet *set = mending->analysis->panels;
  guint index = cw_design_find_piece (mending->design, ref->piece);
  const CwPiece *piece = cw_design_get_piece (mending->design, ref->piece);
  const CwPanel *panel = &g_array_index (set->maps[index].panels, CwPanel, ref->panel);
  gboolean across = panel->box_max.x - panel->box_min.x < panel->box_max.y - panel->box_min.y;

  for (guint i = piece->marks->len; i-- > 0;)
    {
      const CwMark *mark = piece->marks->pdata[i];

      if (!bounds_panel (mark, panel))
        continue;
      if (mark->kind == CW_MARK_WINDOW)
        offer_smaller_window (mending, piece, mark, by);
      for (guint way = 0; way < 4; way++)
        if (mark->kind == CW_MARK_WINDOW || (way < 2) == across)
          offer_move (mending, piece, mark, by, way);
    }
  for (CwSide side = CW_SIDE_LEFT; side <= CW_SIDE_BOTTOM; side++)
    {
      CwDraft *draft;
      g_autofree char *text = NULL;

      if (across != (side == CW_SIDE_LEFT || side == CW_SIDE_RIGHT))
        continue;
      draft = cw_draft_new (mending->design);
      text = cw_mending_say (mending, by);
      cw_draft_trim_piece (draft, ref->piece, side, -by);
      mending->family++;
      cw_mending_offer (mending, draft, N_ ("make piece larger"), larger_words[side], cw_mending_name_piece (piece),
                        text, NULL);
    }
}

/**
 * cw_mend_strips:
 * @mending: a `thin-strip`
 */
void
cw_mend_strips (CwMending *mending)
{
  gint32 by = cw_head_round_up (mending->design->head, CW_HOUSE_THIN_STRIP - mending->finding->amount);

  if (mending->finding->marks->len > 0)
    mend_bridge (mending, by);
  else if (mending->finding->panels->len > 0)
    mend_panel (mending, &g_array_index (mending->finding->panels, CwPanelRef, 0), by);
}
