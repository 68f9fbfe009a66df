/* cw-step-card.c: the content of the step cards, put together in reading order.
 *
 * What stands at the head of the page is made in cw-step-card-front.c, the sheets on the trimmer in
 * cw-step-card-trim.c, the design's own steps in cw-step-card-steps.c. No date is taken from a clock: the same design
 * gives the same pages.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "text/cw-step-card-private.h"

#include "geometry/cw-house.h"

#include <glib/gi18n-lib.h>

const CwStepCardOptions cw_step_card_usual = {
  .tools = { .reach = CW_HOUSE_REACH, .has_stops = TRUE, .groove = CW_HOUSE_GROOVE, .narrowest = CW_HOUSE_HOLD },
};

static void
clear_picture (CwCardPicture *picture)
{
  g_clear_pointer (&picture->moved, g_array_unref);
  g_clear_pointer (&picture->words, g_free);
  cw_region_clear (&picture->never);
}

static void
free_move (gpointer data)
{
  CwCardMove *move = data;

  g_free (move->at);
  g_free (move->from);
  g_free (move->to);
  g_free (move->what);
  g_free (move);
}

static void
free_step (gpointer data)
{
  CwCardStep *step = data;

  g_free (step->title);
  g_free (step->face);
  g_free (step->caption);
  g_ptr_array_unref (step->lines);
  g_ptr_array_unref (step->moves);
  g_ptr_array_unref (step->cautions);
  g_ptr_array_unref (step->checks);
  clear_picture (&step->picture);
  g_free (step);
}

static void
free_cut (gpointer data)
{
  CwCardCut *cut = data;

  g_free (cut->letter);
  g_free (cut->name);
  g_free (cut->paper);
  g_free (cut->size);
  g_free (cut->grain);
  g_free (cut->purpose);
  g_free (cut);
}

static void
free_tool (gpointer data)
{
  g_free (((CwCardTool *) data)->name);
  g_free (data);
}

static void
free_remark (gpointer data)
{
  CwCardRemark *remark = data;

  g_free (remark->text);
  g_free (remark->remedy);
  g_free (remark);
}

/* --- Helpers of the parts. --- */

/**
 * cw_card_step_add:
 *
 * Returns: (transfer none): a new step at the end of a list, numbered through
 */
CwCardStep *
cw_card_step_add (CwCardMaking *making, GPtrArray *list, const char *title)
{
  CwCardStep *step = g_new0 (CwCardStep, 1);

  step->number = making->card->making->len + making->card->using->len + 1;
  step->title = g_strdup (title);
  step->lines = g_ptr_array_new_with_free_func (g_free);
  step->moves = g_ptr_array_new_with_free_func (free_move);
  step->cautions = g_ptr_array_new_with_free_func (g_free);
  step->checks = g_ptr_array_new_with_free_func (g_free);
  step->step = G_MAXUINT;
  g_ptr_array_add (list, step);
  return step;
}

/**
 * cw_card_say:
 * @lines: sentences
 * @sentence: (transfer full): one more
 */
void
cw_card_say (GPtrArray *lines, char *sentence)
{
  g_ptr_array_add (lines, sentence);
}

/**
 * cw_card_piece_name:
 *
 * Returns: (transfer none): what the maker calls a piece
 */
const char *
cw_card_piece_name (const CwCardMaking *making, guint piece)
{
  const CwPiece *item = g_ptr_array_index (making->design->pieces, piece);

  return item->name != NULL && *item->name != '\0' ? item->name : item->id;
}

/**
 * cw_card_letter:
 *
 * Returns: (transfer full): A, B ... Z, AA ...
 */
char *
cw_card_letter (guint index)
{
  if (index < 26)
    return g_strdup_printf ("%c", 'A' + index);
  return g_strdup_printf ("%c%c", 'A' + (index / 26 - 1) % 26, 'A' + index % 26);
}

/**
 * cw_step_card_new:
 * @analysis: a design and what is known of it; referenced
 * @options: the maker's tools and how numbers are to be told
 *
 * Returns: (transfer full): what the pages for its reader say, in the user's language
 */
CwStepCard *
cw_step_card_new (CwAnalysis *analysis, const CwStepCardOptions *options)
{
  CwStepCard *card;
  CwCardMaking making = { 0 };

  g_return_val_if_fail (analysis != NULL && options != NULL, NULL);

  card = g_new0 (CwStepCard, 1);
  card->analysis = cw_analysis_ref (analysis);
  card->trimmer = options->tools;
  card->trimming = cw_trimming_new (analysis->design, &options->tools);
  card->faults = g_ptr_array_new_with_free_func (free_remark);
  card->tools = g_ptr_array_new_with_free_func (free_tool);
  card->cautions = g_ptr_array_new_with_free_func (g_free);
  card->cuts = g_ptr_array_new_with_free_func (free_cut);
  card->numbers = g_ptr_array_new_with_free_func (g_free);
  card->making = g_ptr_array_new_with_free_func (free_step);
  card->using = g_ptr_array_new_with_free_func (free_step);
  card->mistakes = g_ptr_array_new_with_free_func (free_remark);

  making.card = card;
  making.analysis = analysis;
  making.design = analysis->design;
  making.options = options;
  making.alike = g_new0 (gboolean, MAX (card->trimming->moves->len, 1));
  making.up = g_new0 (CwFace, MAX (analysis->design->pieces->len, 1));
  making.row_of = g_new0 (guint, MAX (analysis->design->pieces->len, 1));
  cw_card_add_front (&making);
  cw_card_add_trimming (&making);
  cw_card_add_steps (&making);
  g_free (making.alike);
  g_free (making.up);
  g_free (making.row_of);
  return card;
}

/**
 * cw_step_card_free:
 * @card: (transfer full) (nullable): a step card
 */
void
cw_step_card_free (CwStepCard *card)
{
  if (card == NULL)
    return;
  g_free (card->title);
  g_free (card->author);
  g_free (card->date);
  g_free (card->version);
  g_free (card->notes);
  g_free (card->size);
  g_free (card->envelope);
  g_free (card->work);
  clear_picture (&card->closed);
  clear_picture (&card->open);
  g_ptr_array_unref (card->faults);
  g_ptr_array_unref (card->tools);
  g_ptr_array_unref (card->cautions);
  g_ptr_array_unref (card->cuts);
  g_ptr_array_unref (card->numbers);
  g_ptr_array_unref (card->making);
  g_ptr_array_unref (card->using);
  g_ptr_array_unref (card->mistakes);
  cw_trimming_free (card->trimming);
  cw_analysis_unref (card->analysis);
  g_free (card);
}
