/* cw-step-card-steps.c: the design's own steps as a reader carries them out.
 *
 * Which face is up on the table is followed through all steps: a layer for the other face, or a fold that would go
 * under, is preceded by turning the card over, a step of its own. "Toward" and "away" are said as the reader sees the
 * paper then. Glue goes on before its piece goes down. Before glue sets the card is closed and looked at once.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "text/cw-step-card-private.h"

#include "glue/cw-safe-area.h"
#include "glue/cw-zone.h"
#include "panel/cw-path-flatten.h"
#include "text/cw-side-words.h"
#include "design/cw-step-words.h"

#include <glib/gi18n-lib.h>
#include <math.h>

static guint
ground_of (const CwCardWalk *walk)
{
  return cw_design_find_piece (walk->making->design, cw_design_get_ground (walk->making->design)->id);
}

/* Is the piece on the card at the start of a step? */
static gboolean
is_on_card (const CwCardWalk *walk, guint piece)
{
  return walk->start->present[walk->making->analysis->panels->first_panel[piece]];
}

/**
 * cw_card_face_seen:
 *
 * Returns: the face of a panel that the reader sees at a moment
 */
CwFace
cw_card_face_seen (const CwCardWalk *walk, const CwPose *pose, guint panel)
{
  guint piece, own;

  cw_panel_set_locate (walk->making->analysis->panels, panel, &piece, &own);
  if (!pose->present[panel])
    return walk->making->up[piece];
  gboolean front = pose->places[panel].r[2][2] >= 0;
  return front == (walk->making->up[ground_of (walk)] == CW_FACE_FRONT) ? CW_FACE_FRONT : CW_FACE_BACK;
}

/* What is seen of a flat card: the panel that stays still if any of it is, else what covers most. FALSE when it does
 * not lie flat. */
static gboolean
find_seen (const CwCardWalk *walk, guint step, CwFace up, guint *piece, CwFace *face)
{
  const CwAnalysis *analysis = walk->making->analysis;
  const CwFlatState *state = cw_flat_states_get (analysis->flat_states, step);
  guint held = cw_motion_get_held (analysis->motion), own;
  g_autofree gint64 *shown = NULL;
  guint best = 0;

  if (state == NULL || !state->flat || state->cells->len == 0)
    return FALSE;
  shown = g_new0 (gint64, 2 * analysis->design->pieces->len);
  for (guint i = 0; i < state->cells->len; i++)
    {
      const CwCell *cell = &g_array_index (state->cells, CwCell, i);
      const CwLayer *layer;

      if (cell->n_layers == 0)
        continue;
      layer = &cell->layers[up == CW_FACE_FRONT ? 0 : cell->n_layers - 1];
      cw_panel_set_locate (analysis->panels, layer->panel, piece, &own);
      *face = (layer->face_up == CW_FACE_FRONT) == (up == CW_FACE_FRONT) ? CW_FACE_FRONT : CW_FACE_BACK;
      if (layer->panel == held)
        return TRUE;
      shown[2 * *piece + *face] += cell->area2;
    }
  for (guint i = 1; i < 2 * analysis->design->pieces->len; i++)
    if (shown[i] > shown[best])
      best = i;
  *piece = best / 2;
  *face = best % 2;
  return TRUE;
}

static void
show_card (CwCardWalk *walk, CwCardStep *step, guint index, double fraction)
{
  CwCardMaking *making = walk->making;
  CwFace up = making->up[ground_of (walk)], face = up;
  guint piece = ground_of (walk);
  gboolean flat = index == G_MAXUINT || find_seen (walk, index, up, &piece, &face);

  step->picture = (CwCardPicture){ .kind = CW_CARD_PICTURE_CARD, .step = index, .fraction = fraction };
  step->picture.from = !flat ? CW_CARD_FROM_TABLE : up == CW_FACE_FRONT ? CW_CARD_FROM_FRONT : CW_CARD_FROM_BACK;
  step->picture.moved = g_array_new (FALSE, FALSE, sizeof (guint));
  step->face
    = g_strdup_printf (_ ("Up: %s, %s"), cw_card_piece_name (making, piece), cw_card_side_words (making, piece, face));
  if (!flat)
    {
      g_free (step->face);
      step->face = g_strdup (_ ("Seen on the table, from in front"));
    }
  step->picture.words = g_strdup_printf (_ ("The card after step %u. %s."), step->number, step->face);
}

/* A piece by itself, not on the card yet: lying flat, with what a step has laid on it. */
static void
show_piece (CwCardWalk *walk, CwCardStep *step, guint piece, CwFace face, const CwStep *laid)
{
  CwCardMaking *making = walk->making;

  g_free (step->face);
  g_clear_pointer (&step->picture.moved, g_array_unref);
  g_free (step->picture.words);
  step->face
    = g_strdup_printf (_ ("Up: %s, %s"), cw_card_piece_name (making, piece), cw_card_side_words (making, piece, face));
  step->picture = (CwCardPicture){ .kind = CW_CARD_PICTURE_SHEET,
                                   .piece = piece,
                                   .lie = { 0, face == CW_FACE_BACK },
                                   .first_move = making->card->trimming->moves->len,
                                   .laid = laid };
  step->picture.words = g_strdup_printf (_ ("%s by itself, after step %u. %s."), cw_card_piece_name (making, piece),
                                         step->number, step->face);
}

static void
mark_moved (CwCardWalk *walk, CwCardStep *step, guint index)
{
  for (guint i = 0; i < walk->start->n_panels; i++)
    if (walk->end->present[i]
        && (!walk->start->present[i] || cw_motion_step_moves (walk->making->analysis->motion, index, i)))
      g_array_append_val (step->picture.moved, i);

  /* What the picture marks, for those who cannot see it. */
  g_autoptr (GString) names = g_string_new (NULL);
  guint n = 0;
  for (guint i = 0; i < step->picture.moved->len; i++)
    {
      const CwPanel *panel
        = cw_panel_set_get_panel (walk->making->analysis->panels, g_array_index (step->picture.moved, guint, i));

      if (panel->name != NULL && n++ < 4)
        g_string_append_printf (names, "%s%s", n > 1 ? ", " : "", panel->name);
    }
  if (n > 0)
    {
      g_autofree char *words = g_steal_pointer (&step->picture.words);

      step->picture.words
        = g_strdup_printf (n > 4 ? _ ("%s Marked: %s and others.") : _ ("%s Marked: %s."), words, names->str);
    }
}

static void
turn_card (CwCardWalk *walk, GPtrArray *list, guint after)
{
  CwCardMaking *making = walk->making;
  CwFace *up = &making->up[ground_of (walk)];
  CwCardStep *step = cw_card_step_add (making, list, _ ("Turn the card over"));

  *up = *up == CW_FACE_FRONT ? CW_FACE_BACK : CW_FACE_FRONT;
  cw_card_say (step->lines, g_strdup (_ ("Turn it over sideways, like a page.")));
  show_card (walk, step, after, 1);
}

static void
say_checks (CwCardWalk *walk, CwCardStep *step, guint closed)
{
  CwStepCard *card = walk->making->card;
  const CwFlatState *state
    = closed != G_MAXUINT ? cw_flat_states_get (walk->making->analysis->flat_states, closed) : NULL;

  cw_card_say (step->checks, walk->glue_open
                               ? g_strdup (_ ("Check before the glue sets: nothing is caught, nothing sticks "
                                              "where it should not."))
                               : g_strdup (_ ("Check: nothing is caught.")));
  if (state != NULL && state->flat && card->size != NULL)
    cw_card_say (step->checks, g_strdup_printf (_ ("It lies flat and measures %s."), card->size));
  cw_card_say (step->checks, g_strdup (_ ("It opens and closes again without force.")));
  walk->glue_open = FALSE;
}

/* --- The walk. --- */

/**
 * cw_step_get_minutes:
 * @step: a step of a design
 *
 * Returns: how long it takes by the maker's reckoning, minutes; 0: unsaid
 */
double
cw_step_get_minutes (const CwStep *step)
{
  JsonNode *node = step->extra != NULL ? json_object_get_member (step->extra, "minutes") : NULL;
  double minutes = 0;

  if (node == NULL || !JSON_NODE_HOLDS_VALUE (node))
    return 0;
  if (json_node_get_value_type (node) == G_TYPE_STRING)
    minutes = g_ascii_strtod (json_node_get_string (node), NULL);
  else if (json_node_get_value_type (node) == G_TYPE_INT64 || json_node_get_value_type (node) == G_TYPE_DOUBLE)
    minutes = json_node_get_double (node);
  return minutes > 0 && minutes < 10000 ? minutes : 0;
}

static void
add_extras (CwCardWalk *walk, CwCardStep *card_step, const CwStep *step)
{
  const char *wait = cw_extra_get_text (step->extra, "wait"), *caution = cw_extra_get_text (step->extra, "caution");

  card_step->step = cw_design_find_step (walk->making->design, step->id);
  card_step->caption = g_strdup (step->caption);
  card_step->photo = g_strdup (cw_extra_get_text (step->extra, "photo"));
  card_step->minutes = cw_step_get_minutes (step);
  if (step->heat != NULL && step->heat->len > 0)
    cw_card_say (card_step->cautions, g_strdup (_ ("Hot: let it cool before you touch it.")));
  if (caution != NULL)
    cw_card_say (card_step->cautions, g_strdup (caution));
  if (wait != NULL)
    cw_card_say (card_step->lines, g_strdup_printf (_ ("Then wait: %s."), wait));
}

static void
add_fold (CwCardWalk *walk, GPtrArray *list, const CwStep *step, guint index)
{
  g_autoptr (GArray) folds = cw_card_read_folds (walk, step);
  g_autofree char *title = cw_step_dup_title (walk->making->design, step);
  gboolean making = step->phase != CW_PHASE_USING, all_under = folds->len > 0;
  CwCardStep *card_step;

  for (guint i = 0; i < folds->len; i++)
    {
      const CwCardFold *fold = &g_array_index (folds, CwCardFold, i);

      all_under &= !fold->toward && fold->to > 90
                   && is_on_card (walk, cw_design_find_piece (walk->making->design, fold->piece->id));
    }
  if (all_under && making)
    {
      turn_card (walk, list, index > 0 ? index - 1 : G_MAXUINT);
      g_array_unref (folds);
      folds = cw_card_read_folds (walk, step);
    }
  card_step = cw_card_step_add (walk->making, list, title);
  cw_card_say_folds (walk, card_step, folds, making);
  if (making)
    cw_card_say_followers (walk, card_step, folds, index);
  cw_card_say_moved (walk, card_step, index);
  show_card (walk, card_step, index, 1);
  mark_moved (walk, card_step, index);
  for (guint i = 0; i < folds->len; i++)
    {
      guint piece = cw_design_find_piece (walk->making->design, g_array_index (folds, CwCardFold, i).piece->id);

      if (i == 0 && !walk->end->present[walk->making->analysis->panels->first_panel[piece]])
        show_piece (walk, card_step, piece, walk->making->up[piece], NULL);
    }
  if (making && g_strcmp0 (step->rest, "closed") == 0)
    say_checks (walk, card_step, index);
  add_extras (walk, card_step, step);
}

static void
add_stick (CwCardWalk *walk, GPtrArray *list, const CwStep *step, guint index)
{
  CwCardMaking *making = walk->making;
  g_autofree char *title = cw_step_dup_title (making->design, step);
  guint piece = step->piece != NULL ? cw_design_find_piece (making->design, step->piece) : G_MAXUINT;
  guint host = step->on.piece != NULL ? cw_design_find_piece (making->design, step->on.piece) : G_MAXUINT;
  CwCardStep *card_step;

  if (piece != G_MAXUINT && !step->tucked)
    cw_card_add_glue_of (walk, piece, step->facing, index);
  if (host != G_MAXUINT && is_on_card (walk, host))
    {
      guint panel = cw_panel_set_find_host (making->analysis->panels, step);

      if (panel != G_MAXUINT && cw_card_face_seen (walk, walk->start, panel) != step->on_face)
        turn_card (walk, list, index > 0 ? index - 1 : G_MAXUINT);
    }
  card_step = cw_card_step_add (making, list, title);
  if (piece != G_MAXUINT && host != G_MAXUINT)
    cw_card_say_stick (walk, card_step, step, piece, host);
  show_card (walk, card_step, index, 1);
  mark_moved (walk, card_step, index);
  if (piece != G_MAXUINT && host != G_MAXUINT && !walk->end->present[making->analysis->panels->first_panel[host]])
    show_piece (walk, card_step, host, step->on_face, step);
  add_extras (walk, card_step, step);
}

static void
add_zones (CwCardWalk *walk, const CwStep *step, guint index)
{
  const CwDesign *design = walk->making->design;

  for (guint i = 0; i < step->zones->len; i++)
    {
      const CwGlue *glue = cw_design_get_glue (design, g_ptr_array_index (step->zones, i));
      guint piece = glue != NULL ? cw_design_find_piece (design, glue->piece) : G_MAXUINT;

      if (piece == G_MAXUINT)
        continue;
      cw_card_add_glue (walk, glue, piece, index, step);
      add_extras (walk, g_ptr_array_index (walk->making->card->making, walk->making->card->making->len - 1), step);
    }
}

static void
add_other (CwCardWalk *walk, GPtrArray *list, const CwStep *step, guint index)
{
  g_autofree char *title = cw_step_dup_title (walk->making->design, step);
  CwCardStep *card_step;

  /* Cuts and scores stand on the trimmer's pages; here only what the maker has to say of them. */
  if ((step->what == CW_DO_CUT || step->what == CW_DO_SCORE) && step->caption == NULL)
    return;
  if (step->what == CW_DO_TURN_OVER)
    {
      CwFace *up = &walk->making->up[ground_of (walk)];

      *up = *up == CW_FACE_FRONT ? CW_FACE_BACK : CW_FACE_FRONT;
    }
  card_step = cw_card_step_add (walk->making, list, title);
  if (step->what == CW_DO_TURN_OVER)
    cw_card_say (card_step->lines, g_strdup (_ ("Turn it over sideways, like a page.")));
  show_card (walk, card_step, index, 1);
  mark_moved (walk, card_step, index);
  add_extras (walk, card_step, step);
}

static gboolean
closes_next (const CwDesign *design, guint index)
{
  for (guint i = index + 1; i < design->steps->len; i++)
    {
      const CwStep *next = g_ptr_array_index (design->steps, i);

      if (next->phase != CW_PHASE_USING)
        return next->what == CW_DO_STICK || next->what == CW_DO_GLUE || g_strcmp0 (next->rest, "closed") == 0
               || closes_next (design, i);
    }
  return FALSE;
}

/* Glue is down and no step of the design closes the card before the reader would lay it aside. */
static void
add_check (CwCardWalk *walk, GPtrArray *list, guint index)
{
  CwCardStep *step;

  if (!walk->glue_open || closes_next (walk->making->design, index))
    return;
  step = cw_card_step_add (walk->making, list, _ ("Close it and check"));
  cw_card_say (step->lines, g_strdup (_ ("Close the card once, gently, before the glue sets.")));
  say_checks (walk, step, cw_find_closed_step (walk->making->analysis));
}

/**
 * cw_card_add_steps:
 *
 * Adds the design's own steps, with turns of the card, glue and checks between them.
 */
void
cw_card_add_steps (CwCardMaking *making)
{
  const CwDesign *design = making->design;
  CwMotion *motion = making->analysis->motion;
  CwCardWalk walk = { making,
                      cw_motion_work_new (motion),
                      cw_pose_new (motion),
                      cw_pose_new (motion),
                      g_new0 (gboolean, MAX (cw_panel_set_n_hinges (making->analysis->panels), 1)),
                      FALSE };

  for (guint i = 0; i < design->steps->len; i++)
    {
      const CwStep *step = g_ptr_array_index (design->steps, i);
      GPtrArray *list = step->phase == CW_PHASE_USING ? making->card->using : making->card->making;

      if (step->phase == CW_PHASE_USING && making->card->using->len == 0
          && making->up[ground_of (&walk)] == CW_FACE_BACK)
        turn_card (&walk, list, i > 0 ? i - 1 : G_MAXUINT);
      if (i == 0)
        cw_motion_get_start (motion, walk.start);
      else
        cw_motion_get_pose (motion, walk.work, i - 1, 1, walk.start);
      cw_motion_get_pose (motion, walk.work, i, 1, walk.end);
      switch (step->what)
        {
        case CW_DO_FOLD:
          add_fold (&walk, list, step, i);
          break;
        case CW_DO_STICK:
          add_stick (&walk, list, step, i);
          break;
        case CW_DO_GLUE:
          add_zones (&walk, step, i);
          break;
        case CW_DO_CUT:
        case CW_DO_SCORE:
        case CW_DO_TAKE_AWAY:
        case CW_DO_RUB:
        case CW_DO_TURN_OVER:
        case CW_DO_DECORATE:
        default:
          add_other (&walk, list, step, i);
          break;
        }
      if (step->phase != CW_PHASE_USING)
        add_check (&walk, list, i);
    }
  double minutes = 0;
  for (guint i = 0; i < making->card->making->len; i++)
    minutes += ((const CwCardStep *) g_ptr_array_index (making->card->making, i))->minutes;
  if (minutes > 0)
    making->card->time = g_strdup_printf (_ ("about %.0f minutes"), ceil (minutes));
  cw_motion_work_free (walk.work);
  cw_pose_free (walk.start);
  cw_pose_free (walk.end);
  g_free (walk.folded);
}
