/* cw-flat-size.c: how large and how thick the closed card is, against what is wanted of it.
 *
 * Sizes and envelopes are compared either way round; a layer whose overhang is meant counts for the envelope, not for
 * the wanted size. A card made by hand may come out larger by what a hand misses by: where it would no longer go into
 * its envelope the margin is tight.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "contact/cw-flat-private.h"
#include "contact/cw-panel-words.h"

#include "geometry/cw-house.h"
#include "geometry/cw-tolerance.h"
#include "units/cw-about.h"

#include <glib/gi18n-lib.h>

/* TRUE if this panel's piece was stuck on with an overhang that is meant. */
static gboolean
overhang_is_meant (const CwPanelSet *set, guint panel)
{
  guint piece;

  cw_panel_set_locate (set, panel, &piece, NULL);
  for (guint i = 0; i < set->design->steps->len; i++)
    {
      const CwStep *step = g_ptr_array_index (set->design->steps, i);

      if (step->what == CW_DO_STICK && step->overhang_meant && g_strcmp0 (step->piece, set->maps[piece].piece->id) == 0)
        return TRUE;
    }
  return FALSE;
}

/* Left, top, right and bottom of one member. */
static void
find_box (const CwLaid *laid, gint32 box[4])
{
  const CwRing *ring = &laid->outline->rings[0];

  for (guint k = 0; laid->outline->n_rings > 0 && k < ring->n_points; k++)
    {
      CwPoint p = cw_laid_point (laid, ring->points[k]);

      box[0] = k == 0 ? p.x : MIN (box[0], p.x);
      box[1] = k == 0 ? p.y : MIN (box[1], p.y);
      box[2] = k == 0 ? p.x : MAX (box[2], p.x);
      box[3] = k == 0 ? p.y : MAX (box[3], p.y);
    }
}

/* How far a box of w x h stands over one of at most W x H, in ticks along x and y; either way round, the better one. */
static void
stand_over (gint32 w, gint32 h, gint32 most_w, gint32 most_h, gint32 over[2])
{
  gint32 plain = MAX (MAX (w - most_w, h - most_h), 0), turned = MAX (MAX (w - most_h, h - most_w), 0);

  over[0] = MAX (0, plain <= turned ? w - most_w : w - most_h);
  over[1] = MAX (0, plain <= turned ? h - most_h : h - most_w);
}

static const char *const over_words[4]
  = { N_ ("Closed (“{0}”), {1} stands {2} over the wanted size of {3} x {4} on the left."),
      N_ ("Closed (“{0}”), {1} stands {2} over the wanted size of {3} x {4} at the top."),
      N_ ("Closed (“{0}”), {1} stands {2} over the wanted size of {3} x {4} on the right."),
      N_ ("Closed (“{0}”), {1} stands {2} over the wanted size of {3} x {4} at the bottom.") };

/* The card against its wanted size; without one, against the panel that stays still. */
static void
tell_sticks_out (CwFlatStates *states, guint step, const CwCluster *cluster)
{
  const CwPanelSet *set = cw_motion_get_set (states->motion);
  const CwWants *wants = &set->design->head->wants;
  gint32 held[4] = { 0, 0, 0, 0 }, box[4], over[2] = { 0, 0 }, worst = 0;
  guint who[4] = { 0, 0, 0, 0 };
  int side = 0;
  CwFinding *finding;
  g_autofree char *amount = NULL, *name = NULL, *mark = NULL;
  g_autofree char *width = NULL;
  g_autofree char *height = NULL;

  find_box (&cluster->laid[0], held);
  memcpy (box, held, sizeof box);
  for (guint i = 1; i < cluster->n_panels; i++)
    {
      gint32 own[4] = { 0, 0, 0, 0 };

      if (overhang_is_meant (set, cluster->panels[i]))
        continue;
      find_box (&cluster->laid[i], own);
      for (int k = 0; k < 4; k++)
        if (k < 2 ? own[k] < box[k] : own[k] > box[k])
          {
            box[k] = own[k];
            who[k] = i;
          }
    }
  if (wants->has_size)
    stand_over (box[2] - box[0], box[3] - box[1], (gint32) wants->size[0].ticks, (gint32) wants->size[1].ticks, over);
  for (int k = 0; k < 4; k++)
    {
      gint32 out = k < 2 ? held[k] - box[k] : box[k] - held[k];

      /* Along an axis that is too long the side that stands farther out is the one to look at. */
      if (wants->has_size)
        out = over[k % 2] > 0 && out >= (k < 2 ? box[k + 2] - held[k + 2] : held[k - 2] - box[k - 2]) ? over[k % 2] : 0;
      if (out > worst)
        {
          worst = out;
          side = k;
        }
    }
  if (worst <= CW_TOL_CELL_TICKS)
    return;
  finding = cw_flat_new_finding (states, CW_FINDING_STICKS_OUT, step, CW_KNOWN_EXACT);
  cw_flat_add_panel (finding, states, cluster->panels[who[side]]);
  cw_finding_set_amount (finding, CW_AMOUNT_TICKS, worst);
  cw_finding_set_at (finding, NULL, side % 2 == 0 ? box[side] : ((double) box[0] + box[2]) / 2,
                     side % 2 == 0 ? ((double) box[1] + box[3]) / 2 : box[side]);
  amount = cw_flat_length (states, worst);
  name = cw_panel_words (set, cluster->panels[who[side]]);
  if (wants->has_size)
    {
      width = cw_flat_length (states, (double) wants->size[0].ticks);
      height = cw_flat_length (states, (double) wants->size[1].ticks);
      mark = cw_about_next_mark (worst, set->design->head->unit, set->design->head->snap_ticks);
      cw_finding_set_words (finding, over_words[side], N_ ("Make it shorter by {5}, or ask for a larger closed size."),
                            cw_flat_step_name (states, step), name, amount, width, height, mark, NULL);
    }
  else
    {
      finding->severity = CW_SEVERITY_NOTE;
      width = cw_flat_length (states, box[2] - box[0]);
      height = cw_flat_length (states, box[3] - box[1]);
      cw_finding_set_words (finding,
                            N_ (
                              "Closed (“{0}”), the card is {3} x {4}: {1} stands {2} over the part that stays still."),
                            NULL, cw_flat_step_name (states, step), name, amount, width, height, NULL);
    }
  g_ptr_array_add (states->findings, finding);
}

/* The room that a card of w x h has in an envelope that it fits into, the better way round, ticks. */
static gint32
room_in (gint32 w, gint32 h, gint32 most_w, gint32 most_h)
{
  return MAX (MIN (most_w - w, most_h - h), MIN (most_h - w, most_w - h));
}

/* It fits as drawn; made by hand it may be larger by what a hand misses by. */
static void
tell_tight_envelope (CwFlatStates *states, guint step, gint32 w, gint32 h)
{
  const CwHead *head = cw_motion_get_set (states->motion)->design->head;
  gint32 room = room_in (w, h, (gint32) head->wants.envelope[0].ticks, (gint32) head->wants.envelope[1].ticks);
  g_autofree char *width = cw_flat_length (states, w), *height = cw_flat_length (states, h);
  g_autofree char *left = NULL, *hand = NULL, *by = NULL;
  CwFinding *finding;

  room = MAX (room, 0);
  if (!head->has_hand || room >= head->hand.ticks - CW_TOL_EXACT_TICKS)
    return;
  left = cw_flat_length (states, room);
  hand = cw_flat_length (states, (double) head->hand.ticks);
  by = cw_about_next_mark ((double) head->hand.ticks - room, head->unit, head->snap_ticks);
  finding = cw_flat_new_finding (states, CW_FINDING_TIGHT_MARGIN, step, CW_KNOWN_EXACT);
  finding->has_would_be = TRUE;
  finding->would_be = CW_FINDING_TOO_BIG_FOR_ENVELOPE;
  cw_finding_set_amount (finding, CW_AMOUNT_TICKS, room);
  cw_finding_set_words (finding,
                        room > CW_TOL_EXACT_TICKS
                          ? N_ ("Closed (“{0}”), the card is {1} x {2}, only {3} smaller than its envelope; a hand may "
                                "miss by {4}, and then it does not fit.")
                          : N_ ("Closed (“{0}”), the card is {1} x {2}, as large as its envelope; a hand may miss by "
                                "{4}, and then it does not fit."),
                        N_ ("Take a larger envelope, or make the card smaller by {5}."),
                        cw_flat_step_name (states, step), width, height, left, hand, by, NULL);
  g_ptr_array_add (states->findings, finding);
}

static void
tell_envelope (CwFlatStates *states, guint step, const CwFlatState *state)
{
  const CwWants *wants = &cw_motion_get_set (states->motion)->design->head->wants;
  gint32 w = state->box[2] - state->box[0], h = state->box[3] - state->box[1], over[2];
  g_autofree char *amount = NULL;
  g_autofree char *width = NULL;
  g_autofree char *height = NULL;
  CwFinding *finding;

  if (!wants->has_envelope)
    return;
  stand_over (w, h, (gint32) wants->envelope[0].ticks, (gint32) wants->envelope[1].ticks, over);
  if (MAX (over[0], over[1]) <= CW_TOL_CELL_TICKS)
    {
      tell_tight_envelope (states, step, w, h);
      return;
    }
  amount = cw_flat_length (states, MAX (over[0], over[1]));
  width = cw_flat_length (states, w);
  height = cw_flat_length (states, h);
  finding = cw_flat_new_finding (states, CW_FINDING_TOO_BIG_FOR_ENVELOPE, step, CW_KNOWN_EXACT);
  cw_finding_set_amount (finding, CW_AMOUNT_TICKS, MAX (over[0], over[1]));
  cw_finding_set_words (finding, N_ ("Closed (“{0}”), the card is {1} x {2}: {3} too big for its envelope."),
                        N_ ("Take a larger envelope, or make the card smaller by {3}."),
                        cw_flat_step_name (states, step), width, height, amount, NULL);
  g_ptr_array_add (states->findings, finding);
}

static void
tell_thick (CwFlatStates *states, guint step, const CwFlatState *state)
{
  g_autofree char *amount = NULL, *limit = NULL, *x = NULL, *y = NULL, *off = NULL, *layers = NULL;
  guint n_layers = 0;
  CwFinding *finding;

  if (state->thickness <= CW_HOUSE_TOO_THICK)
    return;
  for (guint i = 0; i < state->cells->len; i++)
    {
      const CwCell *cell = &g_array_index (state->cells, CwCell, i);

      if (cw_point_equal (cell->inside, state->thickest))
        n_layers = cell->n_layers;
    }
  amount = cw_flat_length (states, state->thickness);
  limit = cw_flat_length (states, CW_HOUSE_TOO_THICK);
  x = cw_flat_length (states, state->thickest.x - state->box[0]);
  y = cw_flat_length (states, state->thickest.y - state->box[1]);
  off = cw_flat_length (states, state->thickness - CW_HOUSE_TOO_THICK);
  layers = g_strdup_printf ("%u", n_layers);
  finding = cw_flat_new_finding (states, CW_FINDING_TOO_THICK, step, CW_KNOWN_EXACT);
  cw_finding_set_at (finding, NULL, state->thickest.x, state->thickest.y);
  cw_finding_set_amount (finding, CW_AMOUNT_TICKS, state->thickness);
  cw_finding_set_words (finding,
                        N_ ("Closed (“{0}”), the card is {1} thick where {5} layers of paper lie on one another, {3} "
                            "from its left and {4} from its top; over {2} is hard to post."),
                        N_ ("Take away {6} there: lower foam, or fewer layers."), cw_flat_step_name (states, step),
                        amount, limit, x, y, layers, off, NULL);
  g_ptr_array_add (states->findings, finding);
}

/**
 * cw_flat_states_tell_size:
 * @states: states, all filled in
 * @step: a closed state
 * @cluster: what lies flat in it
 *
 * Adds what stands out, is too large or too thick to their findings.
 */
void
cw_flat_states_tell_size (CwFlatStates *states, guint step, const CwCluster *cluster)
{
  tell_sticks_out (states, step, cluster);
  tell_envelope (states, step, &states->states[step]);
  tell_thick (states, step, &states->states[step]);
}
