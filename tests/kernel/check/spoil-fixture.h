/* spoil-fixture.h: ways to spoil a card that is right, one for each finding: what a maker might draw by mistake.
 *
 * Each changes a draft and says whether there was anything to change; the nth of its kind where it has several.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "check/cw-remedy-private.h"
#include <math.h>

#define SPOIL_QUARTER (CW_TICKS_PER_INCH / 4)

G_BEGIN_DECLS

typedef gboolean (*Spoil) (CwDraft *draft, const CwAnalysis *sound);

static inline CwMark *
spoil_find_score (const CwDesign *design, CwFoldWay way, const CwPiece **on)
{
  for (guint i = 0; i < design->pieces->len; i++)
    {
      const CwPiece *piece = design->pieces->pdata[i];

      for (guint k = 0; k < piece->marks->len; k++)
        {
          CwMark *mark = piece->marks->pdata[k];

          if (mark->kind != CW_MARK_SCORE || mark->shape != CW_SHAPE_LINE || mark->line.n_vertices != 2
              || mark->fold != way)
            continue;
          *on = piece;
          return mark;
        }
    }
  return NULL;
}

/* The score with one end moved along it: inwards, or outwards beyond. */
static inline gboolean
spoil_end (CwDraft *draft, gint32 by)
{
  const CwPiece *piece;
  const CwMark *score = spoil_find_score (draft->design, CW_FOLD_TOWARD, &piece);
  CwMark *mark;
  CwPoint a, b;
  double length;

  if (score == NULL)
    return FALSE;
  mark = cw_mark_copy (score);
  a = cw_place_get_point (&mark->line.vertices[0].at);
  b = cw_place_get_point (&mark->line.vertices[1].at);
  length = hypot (b.x - a.x, b.y - a.y);
  cw_place_move (&mark->line.vertices[0].at, (gint32) lround ((b.x - a.x) / length * by),
                 (gint32) lround ((b.y - a.y) / length * by));
  cw_draft_put_mark (draft, piece->id, mark);
  return TRUE;
}

static inline gboolean
spoil_short (CwDraft *draft, const CwAnalysis *sound)
{
  return spoil_end (draft, SPOIL_QUARTER);
}

static inline gboolean
spoil_beyond (CwDraft *draft, const CwAnalysis *sound)
{
  return spoil_end (draft, -SPOIL_QUARTER);
}

static inline void
spoil_add_mark (CwDraft *draft, const CwPiece *piece, CwMark *mark)
{
  mark->id = cw_design_dup_free_id (draft->design, "spoilt");
  cw_draft_do (draft, cw_edit_new_insert (draft->design, CW_LIST_MARKS, piece->id, G_MAXUINT, mark));
}

/* A square cut out in the middle of the widest panel. */
static inline gboolean
spoil_cut_out (CwDraft *draft, const CwAnalysis *sound)
{
  const CwPanelMap *map = &sound->panels->maps[0];
  static const gint32 corners[5][2] = { { -1, -1 }, { 1, -1 }, { 1, 1 }, { -1, 1 }, { -1, -1 } };
  CwMark *mark = cw_mark_new ();
  const CwPanel *widest = NULL;

  for (guint i = 0; i < map->panels->len; i++)
    {
      const CwPanel *panel = &g_array_index (map->panels, CwPanel, i);

      if (widest == NULL || panel->area2 > widest->area2)
        widest = panel;
    }
  mark->kind = CW_MARK_CUT;
  for (guint i = 0; i < G_N_ELEMENTS (corners); i++)
    cw_path_append (&mark->line,
                    cw_place_from_point (cw_point (widest->inside.x + corners[i][0] * SPOIL_QUARTER,
                                                   widest->inside.y + corners[i][1] * SPOIL_QUARTER),
                                         draft->design->head->unit),
                    FALSE);
  spoil_add_mark (draft, map->piece, mark);
  return TRUE;
}

/* The first score once more, half of it. */
static inline gboolean
spoil_overlap (CwDraft *draft, const CwAnalysis *sound)
{
  const CwPiece *piece;
  const CwMark *score = spoil_find_score (draft->design, CW_FOLD_TOWARD, &piece);
  CwMark *mark;
  CwPoint a, b;

  if (score == NULL)
    return FALSE;
  mark = cw_mark_copy (score);
  g_clear_pointer (&mark->id, g_free);
  a = cw_place_get_point (&mark->line.vertices[0].at);
  b = cw_place_get_point (&mark->line.vertices[1].at);
  cw_place_set (&mark->line.vertices[1].at, cw_point ((a.x + b.x) / 2, (a.y + b.y) / 2));
  spoil_add_mark (draft, piece, mark);
  return TRUE;
}

/* One score as two, the second folding the other way. */
static inline gboolean
spoil_disagree (CwDraft *draft, const CwAnalysis *sound)
{
  const CwPiece *piece;
  const CwMark *score = spoil_find_score (draft->design, CW_FOLD_TOWARD, &piece);
  CwMark *half[2];
  CwPoint a, b, middle;
  g_autofree char *id = NULL;

  if (score == NULL)
    return FALSE;
  half[0] = cw_mark_copy (score);
  half[1] = cw_mark_copy (score);
  id = g_strdup (piece->id);
  a = cw_place_get_point (&score->line.vertices[0].at);
  b = cw_place_get_point (&score->line.vertices[1].at);
  middle = cw_point ((a.x + b.x) / 2, (a.y + b.y) / 2);
  cw_place_set (&half[0]->line.vertices[1].at, middle);
  cw_place_set (&half[1]->line.vertices[0].at, middle);
  half[1]->fold = CW_FOLD_AWAY;
  g_clear_pointer (&half[1]->id, g_free);
  cw_draft_put_mark (draft, id, half[0]);
  spoil_add_mark (draft, cw_design_get_piece (sound->design, id), half[1]);
  return TRUE;
}

/* A slit 1/8 inch beside the first score's line. */
static inline gboolean
spoil_strip (CwDraft *draft, const CwAnalysis *sound)
{
  const CwPiece *piece = cw_design_get_ground (draft->design);
  CwPoint low = { 0 }, high = { 0 };
  CwMark *mark = cw_mark_new ();

  cw_piece_get_box (piece, &low, &high);
  mark->kind = CW_MARK_CUT;
  cw_path_append (&mark->line,
                  cw_place_from_point (cw_point (low.x + SPOIL_QUARTER / 2, low.y + 2 * SPOIL_QUARTER),
                                       draft->design->head->unit),
                  FALSE);
  cw_path_append (&mark->line,
                  cw_place_from_point (cw_point (low.x + SPOIL_QUARTER / 2, low.y + 6 * SPOIL_QUARTER),
                                       draft->design->head->unit),
                  FALSE);
  spoil_add_mark (draft, piece, mark);
  return TRUE;
}

/* A line moved sideways with what ends at it. */
static inline gboolean
spoil_shift (CwDraft *draft, CwFoldWay way, gint32 by)
{
  const CwPiece *piece;
  const CwMark *score = spoil_find_score (draft->design, way, &piece);
  CwPoint a, b;

  if (score == NULL)
    return FALSE;
  a = cw_place_get_point (&score->line.vertices[0].at);
  b = cw_place_get_point (&score->line.vertices[1].at);
  if (a.x != b.x && a.y != b.y)
    return FALSE;
  cw_draft_shift_mark (draft, piece->id, score->id, a.x == b.x ? by : 0, a.x == b.x ? 0 : by, TRUE);
  return TRUE;
}

static inline gboolean
spoil_off_marks (CwDraft *draft, const CwAnalysis *sound)
{
  return spoil_shift (draft, CW_FOLD_TOWARD, CW_TICKS_PER_INCH / 128);
}

static inline gboolean
spoil_ridge (CwDraft *draft, const CwAnalysis *sound)
{
  return spoil_shift (draft, CW_FOLD_AWAY, SPOIL_QUARTER);
}

static inline gboolean
spoil_ridge_little (CwDraft *draft, const CwAnalysis *sound)
{
  return spoil_shift (draft, CW_FOLD_AWAY, CW_TICKS_PER_INCH / 64);
}

/* --- Steps and wants ---------------------------------------------------------------------------------------------- */

static inline CwStep *
spoil_find_step (const CwDesign *design, CwDo what)
{
  for (guint i = 0; i < design->steps->len; i++)
    if (((CwStep *) design->steps->pdata[i])->what == what)
      return design->steps->pdata[i];
  return NULL;
}

static inline CwStep *
spoil_find_closed (const CwDesign *design)
{
  for (guint i = 0; i < design->steps->len; i++)
    {
      CwStep *step = design->steps->pdata[i];

      if (step->what == CW_DO_FOLD && step->folds->len > 0 && g_strcmp0 (step->rest, "closed") == 0)
        return step;
    }
  return NULL;
}

/* The card should be flat where it only stands. */
static inline gboolean
spoil_not_flat (CwDraft *draft, const CwAnalysis *sound)
{
  const CwStep *closed = spoil_find_closed (draft->design);
  CwStep *step;
  CwStepFold *fold;
  CwHead *head;

  if (closed == NULL)
    return FALSE;
  step = cw_step_copy (closed);
  fold = cw_step_fold_copy (step->folds->pdata[0]);
  fold->to = 150;
  cw_step_fold_unref (step->folds->pdata[0]);
  step->folds->pdata[0] = fold;
  head = cw_head_copy (draft->design->head);
  if (!head->wants.has_flat)
    {
      head->has_wants = head->wants.has_flat = TRUE;
      g_ptr_array_add (head->wants.flat, g_strdup (step->id));
    }
  cw_draft_put_step (draft, step);
  cw_draft_put_head (draft, head);
  return TRUE;
}

/* The wished closed size, or the envelope, is this much more than the card. */
static inline gboolean
spoil_wish (CwDraft *draft, const CwAnalysis *sound, gboolean envelope, gint32 more)
{
  const CwStep *closed = spoil_find_closed (draft->design);
  guint index = closed != NULL ? cw_design_find_step (draft->design, closed->id) : G_MAXUINT;
  const CwFlatState *state = index != G_MAXUINT ? cw_flat_states_get (sound->flat_states, index) : NULL;
  CwHead *head;

  if (state == NULL || !state->flat)
    return FALSE;
  head = cw_head_copy (draft->design->head);
  head->has_wants = TRUE;
  if (envelope)
    head->wants.has_envelope = TRUE;
  else
    head->wants.has_size = TRUE;
  for (guint k = 0; k < 2; k++)
    (envelope ? head->wants.envelope : head->wants.size)[k]
      = cw_length_from_ticks (state->box[k + 2] - state->box[k] + more, head->unit);
  cw_draft_put_head (draft, head);
  return TRUE;
}

static inline gboolean
spoil_size (CwDraft *draft, const CwAnalysis *sound)
{
  return spoil_wish (draft, sound, FALSE, -SPOIL_QUARTER);
}

static inline gboolean
spoil_envelope (CwDraft *draft, const CwAnalysis *sound)
{
  return spoil_wish (draft, sound, TRUE, -SPOIL_QUARTER);
}

static inline gboolean
spoil_tight_envelope (CwDraft *draft, const CwAnalysis *sound)
{
  CwHead *head;

  if (!spoil_wish (draft, sound, TRUE, CW_TICKS_PER_INCH / 64))
    return FALSE;
  head = cw_head_copy (draft->design->head);
  head->has_measure = head->has_hand = TRUE;
  head->hand = cw_length_from_ticks (CW_TICKS_PER_INCH / 32, head->unit);
  cw_draft_put_head (draft, head);
  return TRUE;
}

/* Wants a layer hidden, or shown, from the side where it is not. */
static inline gboolean
spoil_sight (CwDraft *draft, const CwAnalysis *sound, gboolean hidden)
{
  const CwStep *stick = spoil_find_step (draft->design, CW_DO_STICK), *closed = spoil_find_closed (draft->design);
  CwSightWant *want;
  CwHead *head;

  if (stick == NULL || closed == NULL)
    return FALSE;
  want = cw_sight_want_new ();
  want->target.piece = g_strdup (stick->piece);
  want->state = g_strdup (closed->id);
  want->from = CW_FACE_FRONT;
  head = cw_head_copy (draft->design->head);
  head->has_wants = TRUE;
  if (hidden)
    head->wants.has_hidden = TRUE;
  else
    head->wants.has_shown = TRUE;
  g_ptr_array_add (hidden ? head->wants.hidden : head->wants.shown, want);
  cw_draft_put_head (draft, head);
  return TRUE;
}

static inline gboolean
spoil_hidden (CwDraft *draft, const CwAnalysis *sound)
{
  return spoil_sight (draft, sound, TRUE);
}

static inline gboolean
spoil_shown (CwDraft *draft, const CwAnalysis *sound)
{
  return spoil_sight (draft, sound, FALSE);
}

/* --- Layers ------------------------------------------------------------------------------------------------------- */

/* The first layer with glue, moved on its host. */
static inline gboolean
spoil_layer (CwDraft *draft, gint32 dx, gint32 dy)
{
  const CwStep *stick = spoil_find_step (draft->design, CW_DO_STICK);

  if (stick == NULL || draft->design->glue->len == 0)
    return FALSE;
  cw_draft_shift_step (draft, stick->id, dx, dy);
  return TRUE;
}

static inline gboolean
spoil_overhang (CwDraft *draft, const CwAnalysis *sound)
{
  return spoil_layer (draft, 0, -3 * SPOIL_QUARTER);
}

/* The layer is made much wider, with glue all over: it comes to lie over what has to fold. */
static inline gboolean
spoil_wide (CwDraft *draft, const CwAnalysis *sound)
{
  const CwStep *stick = spoil_find_step (draft->design, CW_DO_STICK);
  CwPoint low = { 0 }, high = { 0 };
  gint32 by = 8 * SPOIL_QUARTER;
  g_autofree char *id = NULL;

  CwStep *meant;
  CwHead *head;

  if (stick == NULL)
    return FALSE;
  id = g_strdup (stick->piece);
  /* That it is too large for the card as well is not what this is about. */
  meant = cw_step_copy (stick);
  meant->overhang_meant = TRUE;
  cw_draft_put_step (draft, meant);
  head = cw_head_copy (draft->design->head);
  head->wants.has_size = head->wants.has_envelope = FALSE;
  cw_draft_put_head (draft, head);
  cw_draft_trim_piece (draft, id, CW_SIDE_LEFT, -by);
  cw_draft_trim_piece (draft, id, CW_SIDE_RIGHT, -by);
  cw_piece_get_box (cw_design_get_piece (draft->design, id), &low, &high);
  for (guint i = 0; i < draft->design->glue->len; i++)
    {
      const CwGlue *zone = draft->design->glue->pdata[i];
      CwGlue *copy;

      if (g_strcmp0 (zone->piece, id) != 0)
        continue;
      copy = cw_glue_copy (zone);
      cw_path_clear (&copy->area);
      cw_path_append (&copy->area, cw_place_from_point (low, draft->design->head->unit), FALSE);
      cw_path_append (&copy->area, cw_place_from_point (cw_point (high.x, low.y), draft->design->head->unit), FALSE);
      cw_path_append (&copy->area, cw_place_from_point (high, draft->design->head->unit), FALSE);
      cw_path_append (&copy->area, cw_place_from_point (cw_point (low.x, high.y), draft->design->head->unit), FALSE);
      cw_draft_put_glue (draft, copy);
      return TRUE;
    }
  return FALSE;
}

static inline gboolean
spoil_foam (CwDraft *draft, const CwAnalysis *sound)
{
  CwGlue *copy;

  if (draft->design->glue->len == 0)
    return FALSE;
  copy = cw_glue_copy (draft->design->glue->pdata[0]);
  copy->kind = CW_GLUE_FOAM;
  copy->has_height = TRUE;
  copy->height = cw_length_from_ticks (SPOIL_QUARTER, draft->design->head->unit);
  cw_draft_put_glue (draft, copy);
  return TRUE;
}

/* Wet glue as far as the layer goes. */
static inline gboolean
spoil_wet (CwDraft *draft, const CwAnalysis *sound)
{
  const CwGlue *zone = draft->design->glue->len > 0 ? draft->design->glue->pdata[0] : NULL;
  CwPoint low = { 0 }, high = { 0 };
  CwGlue *copy;

  if (zone == NULL || !cw_piece_get_box (cw_design_get_piece (draft->design, zone->piece), &low, &high))
    return FALSE;
  copy = cw_glue_copy (zone);
  copy->kind = CW_GLUE_WET;
  for (guint i = 0; i < copy->area.n_vertices; i++)
    if (copy->area.vertices[i].at.x.ticks < (low.x + high.x) / 2)
      cw_place_move (&copy->area.vertices[i].at, low.x - (gint32) copy->area.vertices[i].at.x.ticks, 0);
  cw_draft_put_glue (draft, copy);
  return TRUE;
}

static inline gboolean
spoil_no_glue (CwDraft *draft, const CwAnalysis *sound)
{
  const CwStep *stick = spoil_find_step (draft->design, CW_DO_STICK);
  gboolean any = FALSE;

  if (stick == NULL || stick->tucked)
    return FALSE;
  for (guint i = draft->design->glue->len; i-- > 0;)
    if (g_strcmp0 (((const CwGlue *) draft->design->glue->pdata[i])->piece, stick->piece) == 0)
      {
        cw_draft_do (draft, cw_edit_new_erase (draft->design, CW_LIST_GLUE, NULL, i));
        any = TRUE;
      }
  return any;
}

static inline gboolean
spoil_heat (CwDraft *draft, const CwAnalysis *sound)
{
  const CwStep *stick = spoil_find_step (draft->design, CW_DO_STICK);
  CwStep *step;

  if (stick == NULL || draft->design->glue->len == 0)
    return FALSE;
  step = cw_step_new ();
  step->id = cw_design_dup_free_id (draft->design, "emboss");
  step->what = CW_DO_DECORATE;
  g_ptr_array_add (step->heat, g_strdup (stick->piece));
  cw_draft_do (draft, cw_edit_new_insert (draft->design, CW_LIST_STEPS, NULL,
                                          cw_design_find_step (draft->design, stick->id) + 1, step));
  return TRUE;
}

static inline gboolean
spoil_art (CwDraft *draft, const CwAnalysis *sound)
{
  for (guint i = 0; i < draft->design->pieces->len; i++)
    {
      const CwPiece *piece = draft->design->pieces->pdata[i];
      CwArt *art;

      if (piece->art->len == 0)
        continue;
      art = cw_art_copy (piece->art->pdata[0]);
      art->up = art->up < 180 ? art->up + 180 : art->up - 180;
      cw_draft_put_art (draft, piece->id, art);
      return TRUE;
    }
  return FALSE;
}

static inline gboolean
spoil_face (CwDraft *draft, const CwAnalysis *sound)
{
  const CwStep *stick = spoil_find_step (draft->design, CW_DO_STICK);
  CwPiece *piece;

  if (stick == NULL)
    return FALSE;
  piece = cw_piece_copy (cw_design_get_piece (draft->design, stick->piece));
  piece->shows = stick->facing == CW_FACE_BACK ? CW_SHOWS_BACK : CW_SHOWS_FRONT;
  cw_draft_put_piece (draft, piece);
  return TRUE;
}

/* The same piece stuck a second time, where it is not. */
static inline gboolean
spoil_two_places (CwDraft *draft, const CwAnalysis *sound)
{
  const CwStep *stick = spoil_find_step (draft->design, CW_DO_STICK);
  CwStep *again;

  if (stick == NULL || stick->tucked || draft->design->glue->len == 0)
    return FALSE;
  again = cw_step_copy (stick);
  g_free (again->id);
  again->id = cw_design_dup_free_id (draft->design, "again");
  cw_place_move (&again->at, 2 * SPOIL_QUARTER, 0);
  cw_draft_do (draft, cw_edit_new_insert (draft->design, CW_LIST_STEPS, NULL,
                                          cw_design_find_step (draft->design, stick->id) + 1, again));
  return TRUE;
}

/* The first fold line folds the other way, as a slip of the pen. */
static inline gboolean
spoil_way (CwDraft *draft, const CwAnalysis *sound)
{
  const CwPiece *piece;
  const CwMark *score = spoil_find_score (draft->design, CW_FOLD_AWAY, &piece);

  if (score == NULL)
    return FALSE;
  cw_draft_turn_fold (draft, piece->id, score->id);
  return TRUE;
}

/* The last panel of a folded strip becomes longer than what it is folded into. */
static inline gboolean
spoil_long (CwDraft *draft, const CwAnalysis *sound)
{
  return cw_draft_trim_piece (draft, cw_design_get_ground (draft->design)->id, CW_SIDE_RIGHT, -2 * SPOIL_QUARTER);
}

/* A little longer: it fills the fold it is folded into. */
static inline gboolean
spoil_fill (CwDraft *draft, const CwAnalysis *sound)
{
  return cw_draft_trim_piece (draft, cw_design_get_ground (draft->design)->id, CW_SIDE_RIGHT, -CW_TICKS_PER_INCH / 8);
}

G_END_DECLS
