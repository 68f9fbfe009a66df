/* cw-remedy-order.c: paper in the way of paper: another order of the steps, another way of a fold, less paper; what
 * should lie flat and stands; heat after glue.
 *
 * How much less is not known beforehand, so a few lengths on the maker's marks are tried, the least that helps is kept.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "check/cw-remedy-private.h"

#include "geometry/cw-tolerance.h"
#include "units/cw-about.h"

#include <glib/gi18n-lib.h>
#include <math.h>

/* Lengths tried, in steps of the maker's marks. */
static const gint32 lengths[] = { 1, 2, 4, 8 };

static const gint32 ways[4][2] = { { -1, 0 }, { 1, 0 }, { 0, -1 }, { 0, 1 } };

/**
 * cw_mend_by_moving_layers:
 * @mending: what is being mended
 * @first: the least move, ticks
 * @last: the greatest; doubled from the first on
 *
 * Offers to stick the finding's pieces, as far as they are stuck on, elsewhere.
 */
void
cw_mend_by_moving_layers (CwMending *mending, gint32 first, gint32 last)
{
  static const char *const words[4]
    = { N_ ("Stick “{0}” {1} further to the left."), N_ ("Stick “{0}” {1} further to the right."),
        N_ ("Stick “{0}” {1} further up."), N_ ("Stick “{0}” {1} further down.") };

  for (guint i = 0; i < mending->finding->pieces->len; i++)
    {
      const CwPiece *piece = cw_mending_get_piece (mending, i);
      const CwStep *stick = piece != NULL ? cw_mending_find_stick (mending, piece->id) : NULL;

      for (guint way = 0; stick != NULL && way < 4; way++)
        {
          mending->family++;
          for (gint32 by = first; by <= last; by *= 2)
            {
              CwDraft *draft = cw_draft_new (mending->design);
              g_autofree char *text = cw_mending_say (mending, by);

              cw_draft_shift_step (draft, stick->id, ways[way][0] * by, ways[way][1] * by);
              cw_mending_offer (mending, draft, N_ ("move layer"), words[way], cw_mending_name_piece (piece), text,
                                NULL);
            }
        }
    }
}

/**
 * cw_mend_by_trimming:
 * @mending: what is being mended
 * @piece_id: a piece
 * @first: the least length to take off, ticks
 * @last: the greatest; doubled from the first on
 *
 * Offers to make the piece shorter on each of its sides.
 */
void
cw_mend_by_trimming (CwMending *mending, const char *piece_id, gint32 first, gint32 last)
{
  static const char *const words[4]
    = { N_ ("Make “{0}” shorter by {1} on its left."), N_ ("Make “{0}” shorter by {1} at its top."),
        N_ ("Make “{0}” shorter by {1} on its right."), N_ ("Make “{0}” shorter by {1} at its bottom.") };
  const CwPiece *piece = cw_design_get_piece (mending->design, piece_id);

  for (CwSide side = CW_SIDE_LEFT; piece != NULL && side <= CW_SIDE_BOTTOM; side++)
    {
      mending->family++;
      for (gint32 by = first; by <= last; by *= 2)
        {
          CwDraft *draft = cw_draft_new (mending->design);
          g_autofree char *text = cw_mending_say (mending, by);

          cw_draft_trim_piece (draft, piece_id, side, by);
          cw_mending_offer (mending, draft, N_ ("make piece shorter"), words[side], cw_mending_name_piece (piece), text,
                            NULL);
        }
    }
}

/* --- Order of the steps ------------------------------------------------------------------------------------------- */

static void
offer_step_at (CwMending *mending, guint from, guint to)
{
  const CwStep *moved = mending->design->steps->pdata[from], *other = mending->design->steps->pdata[to];
  CwDraft *draft = cw_draft_new (mending->design);

  cw_draft_move_step (draft, from, to);
  mending->family++;
  cw_mending_offer (mending, draft, N_ ("change order of steps"),
                    to < from ? N_ ("Do “{0}” before “{1}”.") : N_ ("Do “{0}” after “{1}”."),
                    cw_mending_name_step (moved), cw_mending_name_step (other), NULL);
}

/* Using steps come after making steps; a step goes past its neighbours of its own phase. */
static gboolean
same_phase (const CwStep *a, const CwStep *b)
{
  return (a->phase == CW_PHASE_USING) == (b->phase == CW_PHASE_USING);
}

static void
offer_orders (CwMending *mending)
{
  const GPtrArray *steps = mending->design->steps;
  guint own = cw_design_find_step (mending->design, mending->finding->step);

  if (own == G_MAXUINT)
    return;
  for (guint far_by = 1; far_by <= 3; far_by++)
    {
      if (own >= far_by && same_phase (steps->pdata[own], steps->pdata[own - far_by]))
        offer_step_at (mending, own, own - far_by);
      if (own + far_by < steps->len && same_phase (steps->pdata[own], steps->pdata[own + far_by]))
        offer_step_at (mending, own, own + far_by);
    }
}

/* --- Ways and lines ----------------------------------------------------------------------------------------------- */

static gboolean
is_in_finding (const CwMending *mending, const char *piece)
{
  return g_ptr_array_find_with_equal_func (mending->finding->pieces, piece, g_str_equal, NULL);
}

/* Fold lines of the finding's pieces that this step folds, or an earlier one did. */
static GArray *
find_folded (const CwMending *mending)
{
  const CwPanelSet *set = mending->analysis->panels;
  guint own = cw_design_find_step (mending->design, mending->finding->step);
  GArray *hinges = g_array_new (FALSE, FALSE, sizeof (guint));

  for (guint s = MIN (own, mending->design->steps->len - 1) + 1; s-- > 0;)
    {
      const CwStep *step = mending->design->steps->pdata[s];

      for (guint f = 0; step->what == CW_DO_FOLD && f < step->folds->len; f++)
        for (guint h = 0; h < cw_panel_set_n_hinges (set); h++)
          {
            guint piece;
            const CwHinge *hinge = cw_panel_set_get_hinge (set, h, &piece);
            gboolean known = FALSE;

            for (guint k = 0; k < hinges->len; k++)
              known |= g_array_index (hinges, guint, k) == h;
            for (guint k = 0; !known && k < hinge->scores->len; k++)
              {
                g_autofree char *address
                  = g_strdup_printf ("%s/%s", set->maps[piece].piece->id, (char *) hinge->scores->pdata[k]);

                known = g_strcmp0 (address, ((const CwStepFold *) step->folds->pdata[f])->score) == 0;
                if (known && is_in_finding (mending, set->maps[piece].piece->id))
                  g_array_append_val (hinges, h);
              }
          }
    }
  return hinges;
}

static void
offer_other_ways (CwMending *mending, const GArray *hinges)
{
  for (guint i = 0; i < hinges->len; i++)
    {
      guint piece;
      const CwHinge *hinge
        = cw_panel_set_get_hinge (mending->analysis->panels, g_array_index (hinges, guint, i), &piece);
      CwDraft *draft = cw_draft_new (mending->design);

      for (guint k = 0; k < hinge->scores->len; k++)
        cw_draft_turn_fold (draft, mending->analysis->panels->maps[piece].piece->id, hinge->scores->pdata[k]);
      mending->family++;
      cw_mending_offer (mending, draft, N_ ("change way of score"), N_ ("Let the score “{0}” fold the other way."),
                        (char *) hinge->scores->pdata[0], NULL);
    }
}

static void
offer_line_moves (CwMending *mending, const GArray *hinges)
{
  static const char *const words[4]
    = { N_ ("Move the score “{0}” by {1} to the left."), N_ ("Move the score “{0}” by {1} to the right."),
        N_ ("Move the score “{0}” by {1} up."), N_ ("Move the score “{0}” by {1} down.") };

  for (guint i = 0; i < hinges->len; i++)
    {
      guint piece;
      const CwHinge *hinge
        = cw_panel_set_get_hinge (mending->analysis->panels, g_array_index (hinges, guint, i), &piece);
      const char *id = mending->analysis->panels->maps[piece].piece->id;

      if (hinge->p.x != hinge->q.x && hinge->p.y != hinge->q.y)
        continue;
      for (guint way = hinge->p.x == hinge->q.x ? 0 : 2; way < (hinge->p.x == hinge->q.x ? 2 : 4); way++)
        {
          mending->family++;
          for (guint k = 0; k < G_N_ELEMENTS (lengths); k++)
            {
              gint32 by = lengths[k] * cw_mending_step (mending);
              CwDraft *draft = cw_draft_new (mending->design);
              g_autofree char *text = cw_mending_say (mending, by);

              cw_draft_shift_mark (draft, id, hinge->scores->pdata[0], ways[way][0] * by, ways[way][1] * by, TRUE);
              cw_mending_offer (mending, draft, N_ ("move score"), words[way], (char *) hinge->scores->pdata[0], text,
                                NULL);
            }
        }
    }
}

/* --- What stands -------------------------------------------------------------------------------------------------- */

static void
offer_all_the_way (CwMending *mending)
{
  guint own = cw_design_find_step (mending->design, mending->finding->step);

  for (guint s = own + 1; own != G_MAXUINT && s-- > 0;)
    {
      const CwStep *step = mending->design->steps->pdata[s];
      CwDraft *shut, *open;

      if (step->what != CW_DO_FOLD)
        continue;
      shut = cw_draft_new (mending->design);
      open = cw_draft_new (mending->design);
      for (guint f = 0; f < step->folds->len; f++)
        {
          const CwStepFold *fold = step->folds->pdata[f];
          CwStep *copies[2];

          if (fabs (fold->to) <= CW_TOL_FLAT_SNAP_DEG || fabs (fabs (fold->to) - 180) <= CW_TOL_FLAT_SNAP_DEG)
            continue;
          for (guint k = 0; k < 2; k++)
            {
              CwDraft *draft = k == 0 ? shut : open;
              CwStepFold *changed = cw_step_fold_copy (fold);

              copies[k] = cw_step_copy (cw_design_get_step (draft->design, step->id));
              changed->to = k == 1 ? 0 : fold->to < 0 ? -180 : 180;
              cw_step_fold_unref (copies[k]->folds->pdata[f]);
              copies[k]->folds->pdata[f] = changed;
              cw_draft_put_step (draft, copies[k]);
            }
        }
      mending->family++;
      cw_mending_offer (mending, shut, N_ ("fold all the way"), N_ ("Fold all the way shut in “{0}”."),
                        cw_mending_name_step (step), NULL);
      mending->family++;
      cw_mending_offer (mending, open, N_ ("fold back flat"), N_ ("Fold back flat in “{0}”."),
                        cw_mending_name_step (step), NULL);
    }
}

static void
offer_not_flat (CwMending *mending)
{
  const CwStep *step = cw_design_get_step (mending->design, mending->finding->step);
  CwDraft *draft;
  CwHead *head;

  if (step == NULL)
    return;
  draft = cw_draft_new (mending->design);
  head = cw_head_copy (mending->design->head);
  for (guint i = head->wants.flat->len; i-- > 0;)
    if (g_str_equal (head->wants.flat->pdata[i], step->id) || g_strcmp0 (head->wants.flat->pdata[i], step->rest) == 0)
      g_ptr_array_remove_index (head->wants.flat, i);
  cw_draft_put_head (draft, head);
  mending->family++;
  mending->gives_up = TRUE;
  cw_mending_offer (mending, draft, N_ ("change what is wanted"), N_ ("Do not ask the card to lie flat after “{0}”."),
                    cw_mending_name_step (step), NULL);
  mending->gives_up = FALSE;
}

/* --- Heat --------------------------------------------------------------------------------------------------------- */

static void
offer_heat_first (CwMending *mending)
{
  guint own = cw_design_find_step (mending->design, mending->finding->step);

  for (guint i = 0; own != G_MAXUINT && i < own; i++)
    {
      const CwStep *step = mending->design->steps->pdata[i];

      if (step->what == CW_DO_STICK || step->what == CW_DO_GLUE)
        offer_step_at (mending, own, i);
    }
}

/**
 * cw_mend_order:
 * @mending: a `panels-collide`, `layers-block`, `not-flat` or `heat-after-glue`
 */
void
cw_mend_order (CwMending *mending)
{
  g_autoptr (GArray) hinges = NULL;
  gint32 step = cw_mending_step (mending);

  if (mending->finding->step == NULL)
    return;
  if (mending->finding->code == CW_FINDING_HEAT_AFTER_GLUE)
    {
      offer_heat_first (mending);
      return;
    }
  if (mending->finding->code == CW_FINDING_NOT_FLAT)
    {
      offer_all_the_way (mending);
      offer_not_flat (mending);
      return;
    }
  hinges = find_folded (mending);
  offer_orders (mending);
  /* What does not even begin is a matter of ways, not of places. */
  if (mending->finding->fraction <= 0)
    offer_other_ways (mending, hinges);
  cw_mend_by_moving_layers (mending, step, 4 * step);
  for (guint i = 0; i < mending->finding->pieces->len; i++)
    if (cw_mending_find_stick (mending, mending->finding->pieces->pdata[i]) != NULL)
      cw_mend_by_trimming (mending, mending->finding->pieces->pdata[i], step, 4 * step);
  if (mending->finding->fraction > 0)
    offer_other_ways (mending, hinges);
  for (guint i = 0; i < mending->finding->pieces->len; i++)
    if (cw_mending_find_stick (mending, mending->finding->pieces->pdata[i]) == NULL)
      cw_mend_by_trimming (mending, mending->finding->pieces->pdata[i], step, 8 * step);
  offer_line_moves (mending, hinges);
}
