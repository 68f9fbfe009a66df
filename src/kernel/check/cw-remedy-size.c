/* cw-remedy-size.c: what stands out, is too big, too thick or too tight: less paper, another place, or another wish.
 *
 * The finding's measure rounded up to the maker's marks is what is taken off or moved by. A wished size or an envelope
 * can be changed instead: to the closed card as it is, to the next envelope that can be bought, or to the card as it is
 * with room round it.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "check/cw-envelope.h"
#include "check/cw-remedy-private.h"

#include "geometry/cw-house.h"

#include <glib/gi18n-lib.h>

/* The closed card's box in a finding's step; FALSE where it does not lie flat. */
static gboolean
find_box (const CwMending *mending, gint32 size[2])
{
  guint step
    = mending->finding->step != NULL ? cw_design_find_step (mending->design, mending->finding->step) : G_MAXUINT;
  const CwFlatState *state;

  if (step == G_MAXUINT)
    return FALSE;
  state = cw_flat_states_get (mending->analysis->flat_states, step);
  if (!state->flat || state->cells->len == 0)
    return FALSE;
  size[0] = state->box[2] - state->box[0];
  size[1] = state->box[3] - state->box[1];
  return TRUE;
}

static void
offer_size (CwMending *mending)
{
  CwUnit unit = mending->design->head->unit;
  g_autofree char *width = NULL, *height = NULL;
  gint32 size[2];
  CwDraft *draft;
  CwHead *head;

  if (!find_box (mending, size))
    return;
  draft = cw_draft_new (mending->design);
  head = cw_head_copy (mending->design->head);
  head->has_wants = TRUE;
  head->wants.has_size = TRUE;
  for (guint k = 0; k < 2; k++)
    {
      size[k] = cw_head_round_up (head, size[k]);
      head->wants.size[k] = cw_length_from_ticks (size[k], unit);
    }
  cw_draft_put_head (draft, head);
  width = cw_mending_say (mending, size[0]);
  height = cw_mending_say (mending, size[1]);
  mending->family++;
  mending->gives_up = TRUE;
  cw_mending_offer (mending, draft, N_ ("change closed size"), N_ ("Ask for a closed size of {0} x {1}."), width,
                    height, NULL);
  mending->gives_up = FALSE;
}

static void
offer_envelope (CwMending *mending)
{
  CwUnit unit = mending->design->head->unit;
  g_autofree char *width = NULL, *height = NULL;
  gint32 size[2];
  CwDraft *draft;
  CwHead *head;

  if (!find_box (mending, size))
    return;
  draft = cw_draft_new (mending->design);
  head = cw_head_copy (mending->design->head);
  for (guint k = 0; k < 2; k++)
    {
      size[k] = cw_head_round_up (head, size[k] + CW_HOUSE_ENVELOPE_ROOM);
      head->wants.envelope[k] = cw_length_from_ticks (size[k], unit);
    }
  cw_draft_put_head (draft, head);
  width = cw_mending_say (mending, size[0]);
  height = cw_mending_say (mending, size[1]);
  mending->family++;
  cw_mending_offer (mending, draft, N_ ("change envelope"), N_ ("Take an envelope of {0} x {1}."), width, height, NULL);
}

/* An envelope that can be bought, before one of the size that would be best. */
static void
offer_standard_envelope (CwMending *mending)
{
  CwHead *head;
  const CwEnvelope *found;
  g_autofree char *width = NULL, *height = NULL;
  gint32 size[2];
  guint wide;
  CwDraft *draft;

  if (!find_box (mending, size))
    return;
  found = cw_envelope_find (size[0], size[1],
                            MAX (CW_HOUSE_ENVELOPE_ROOM_LEAST, (gint32) mending->design->head->hand.ticks),
                            mending->design->head->unit);
  if (found == NULL)
    return;
  draft = cw_draft_new (mending->design);
  head = cw_head_copy (mending->design->head);
  wide = size[0] > size[1] ? 1 : 0;
  for (guint k = 0; k < 2; k++)
    head->wants.envelope[k] = cw_length_from_ticks (found->size[k == 0 ? wide : 1 - wide], head->unit);
  width = cw_mending_say (mending, (gint32) head->wants.envelope[0].ticks);
  height = cw_mending_say (mending, (gint32) head->wants.envelope[1].ticks);
  cw_draft_put_head (draft, head);
  mending->family++;
  cw_mending_offer (mending, draft, N_ ("change envelope"), N_ ("Take a standard envelope, {0}: {1} x {2}."),
                    found->name, width, height, NULL);
}

/* The pieces of the finding, else the one that stays still and what is stuck on, are made shorter. */
static void
offer_shorter (CwMending *mending, gint32 by)
{
  const CwPiece *ground = cw_design_get_ground (mending->design);

  for (guint i = 0; i < mending->finding->pieces->len; i++)
    cw_mend_by_trimming (mending, mending->finding->pieces->pdata[i], by, by);
  if (mending->finding->pieces->len > 0)
    return;
  for (guint i = 0; i < mending->design->pieces->len; i++)
    if (mending->design->pieces->pdata[i] != ground)
      cw_mend_by_trimming (mending, ((const CwPiece *) mending->design->pieces->pdata[i])->id, by, by);
  if (ground != NULL)
    cw_mend_by_trimming (mending, ground->id, by, by);
}

static void
offer_meant (CwMending *mending)
{
  const CwStep *step
    = mending->finding->step != NULL ? cw_design_get_step (mending->design, mending->finding->step) : NULL;
  const CwPiece *piece = cw_mending_get_piece (mending, 0);
  CwDraft *draft;
  CwStep *copy;

  if (step == NULL || step->what != CW_DO_STICK || piece == NULL)
    return;
  draft = cw_draft_new (mending->design);
  copy = cw_step_copy (step);
  copy->overhang_meant = TRUE;
  cw_draft_put_step (draft, copy);
  mending->family++;
  mending->gives_up = TRUE;
  cw_mending_offer (mending, draft, N_ ("say that it is meant to stand over"),
                    N_ ("Say that “{0}” is meant to stand over the edge."), cw_mending_name_piece (piece), NULL);
  mending->gives_up = FALSE;
}

/* Flat tape for foam: one zone, then all of them. */
static void
offer_tape (CwMending *mending)
{
  CwDraft *all = cw_draft_new (mending->design);
  guint n = 0;

  for (guint i = 0; i < mending->design->glue->len; i++)
    {
      const CwGlue *zone = mending->design->glue->pdata[i];
      const CwPiece *piece = cw_design_get_piece (mending->design, zone->piece);
      CwDraft *draft;

      if (zone->kind != CW_GLUE_FOAM || piece == NULL)
        continue;
      draft = cw_draft_new (mending->design);
      for (guint k = 0; k < 2; k++)
        {
          CwGlue *copy = cw_glue_copy (zone);

          copy->kind = CW_GLUE_TAPE;
          copy->has_height = FALSE;
          cw_draft_put_glue (k == 0 ? draft : all, copy);
        }
      n++;
      mending->family++;
      cw_mending_offer (mending, draft, N_ ("use tape"), N_ ("Use flat tape instead of foam under “{0}”."),
                        cw_mending_name_piece (piece), NULL);
    }
  mending->family++;
  if (n > 1)
    cw_mending_offer (mending, all, N_ ("use tape"), N_ ("Use flat tape instead of foam everywhere."), NULL);
  else
    cw_draft_free (all);
}

/* The score at which the tight panel begins is moved, so that it becomes narrower and its neighbour wider. */
static void
offer_narrower (CwMending *mending, gint32 by)
{
  static const gint32 ways[4][2] = { { -1, 0 }, { 1, 0 }, { 0, -1 }, { 0, 1 } };
  static const char *const words[4]
    = { N_ ("Move the score “{0}” by {1} to the left."), N_ ("Move the score “{0}” by {1} to the right."),
        N_ ("Move the score “{0}” by {1} up."), N_ ("Move the score “{0}” by {1} down.") };
  const CwPanelSet *set = mending->analysis->panels;
  const CwPanelRef *tight
    = mending->finding->panels->len > 0 ? &g_array_index (mending->finding->panels, CwPanelRef, 0) : NULL;

  for (guint h = 0; tight != NULL && h < cw_panel_set_n_hinges (set); h++)
    {
      guint piece;
      const CwHinge *hinge = cw_panel_set_get_hinge (set, h, &piece);
      const char *id = set->maps[piece].piece->id, *score = hinge->scores->pdata[0];
      gboolean upright = hinge->p.x == hinge->q.x, level = hinge->p.y == hinge->q.y;
      g_autofree char *text = cw_mending_say (mending, by);

      if (!g_str_equal (id, tight->piece) || (hinge->left != tight->panel && hinge->right != tight->panel)
          || (!upright && !level))
        continue;
      for (guint way = upright ? 0 : 2; way < (upright ? 2 : 4); way++)
        {
          CwDraft *draft = cw_draft_new (mending->design);

          cw_draft_shift_mark (draft, id, score, ways[way][0] * by, ways[way][1] * by, TRUE);
          mending->family++;
          cw_mending_offer (mending, draft, N_ ("move score"), words[way], score, text, NULL);
        }
    }
}

/* A panel between two fold lines of a step or box comes closer when one of them moves together with the next one: the
 * parallelogram stays one. */
static void
offer_line_pairs (CwMending *mending, gint32 by)
{
  const CwPanelSet *set = mending->analysis->panels;
  gint32 step = cw_mending_step (mending), half = cw_ticks_snap (by / 2, step);

  for (guint h = 0; h < cw_panel_set_n_hinges (set); h++)
    for (guint k = h + 1; k < cw_panel_set_n_hinges (set); k++)
      {
        guint piece, other;
        const CwHinge *a = cw_panel_set_get_hinge (set, h, &piece), *b = cw_panel_set_get_hinge (set, k, &other);
        const char *id = set->maps[piece].piece->id;
        gboolean upright = a->p.x == a->q.x && b->p.x == b->q.x, level = a->p.y == a->q.y && b->p.y == b->q.y;
        gboolean neighbours = a->left == b->left || a->left == b->right || a->right == b->left || a->right == b->right;

        if (piece != other || !neighbours || (!upright && !level)
            || g_str_equal (a->scores->pdata[0], b->scores->pdata[0])
            || !g_ptr_array_find_with_equal_func (mending->finding->pieces, id, g_str_equal, NULL))
          continue;
        for (int sign = -1; sign <= 1; sign += 2)
          {
            mending->family++;
            for (guint pass = 0; pass < 2; pass++)
              {
                gint32 length = pass == 0 ? half : by;
                CwDraft *draft = cw_draft_new (mending->design);
                g_autofree char *text = cw_mending_say (mending, length);

                for (guint m = 0; m < 2 && length > 0; m++)
                  cw_draft_shift_mark (draft, id, (m == 0 ? a : b)->scores->pdata[0], upright ? sign * length : 0,
                                       upright ? 0 : sign * length, TRUE);
                cw_mending_offer (mending, draft, N_ ("move scores"),
                                  N_ ("Move the scores “{0}” and “{1}” by {2} the same way."),
                                  (char *) a->scores->pdata[0], (char *) b->scores->pdata[0], text, NULL);
              }
          }
      }
}

/**
 * cw_mend_size:
 * @mending: a `sticks-out`, `too-big-for-envelope`, `too-thick`, `tuck-too-wide`, `layer-overhangs` or
 * `mail-surcharge`, or a `tight-margin` of one of them
 */
void
cw_mend_size (CwMending *mending)
{
  const CwFinding *finding = mending->finding;
  CwFindingCode code = finding->has_would_be ? finding->would_be : finding->code;
  gint32 by = MAX (cw_head_round_up (mending->design->head, finding->amount), cw_mending_step (mending));

  /* A margin is what is there; what lacks is the rest of what a hand may miss by. */
  if (finding->code == CW_FINDING_TIGHT_MARGIN)
    by = MAX (cw_head_round_up (mending->design->head, MAX (mending->design->head->hand.ticks - finding->amount, 0)),
              cw_mending_step (mending));
  if (code == CW_FINDING_TOO_THICK || code == CW_FINDING_MAIL_SURCHARGE)
    offer_tape (mending);
  else if (code == CW_FINDING_TUCK_TOO_WIDE)
    {
      if (finding->pieces->len > 0)
        cw_mend_by_trimming (mending, finding->pieces->pdata[0], by, by);
      offer_narrower (mending, by);
    }
  else if (code == CW_FINDING_TOO_BIG_FOR_ENVELOPE)
    {
      offer_standard_envelope (mending);
      offer_envelope (mending);
      offer_shorter (mending, by);
    }
  else if (code == CW_FINDING_LAYER_OVERHANGS)
    {
      cw_mend_by_moving_layers (mending, by, by);
      if (finding->pieces->len > 0)
        cw_mend_by_trimming (mending, finding->pieces->pdata[0], by, by);
      offer_meant (mending);
    }
  else if (code == CW_FINDING_STICKS_OUT)
    {
      /* A note says how large the card is: nothing says that it is too large. */
      if (finding->severity != CW_SEVERITY_NOTE)
        {
          cw_mend_by_moving_layers (mending, by, by);
          offer_line_pairs (mending, by);
          offer_shorter (mending, by);
        }
      offer_size (mending);
    }
}
