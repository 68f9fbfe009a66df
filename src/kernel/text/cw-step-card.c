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
#include "text/cw-side-words.h"

#include <glib/gi18n-lib.h>

const CwStepCardOptions cw_step_card_usual = { 0 };

static void
clear_picture (CwCardPicture *picture)
{
  g_clear_pointer (&picture->moved, g_array_unref);
  g_clear_pointer (&picture->zones, g_array_unref);
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
  g_free (step->photo);
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

/* The step that lays a piece on another; NULL for none or more than one. */
static const CwStep *
find_laying (const CwCardMaking *making, guint piece)
{
  const char *id = ((const CwPiece *) g_ptr_array_index (making->design->pieces, piece))->id;
  const CwStep *found = NULL;

  for (guint i = 0; i < making->design->steps->len; i++)
    {
      const CwStep *step = g_ptr_array_index (making->design->steps, i);

      if (step->what != CW_DO_STICK || g_strcmp0 (step->piece, id) != 0)
        continue;
      if (found != NULL)
        return NULL;
      found = step;
    }
  return found;
}

/**
 * cw_card_sides_differ:
 *
 * Returns: whether it matters for a layer which of its sides goes down: it is printed or has fold lines
 */
gboolean
cw_card_sides_differ (const CwCardMaking *making, guint piece)
{
  const CwPiece *item = g_ptr_array_index (making->design->pieces, piece);
  const CwPaper *paper = cw_design_get_paper (making->design, item->paper);
  const CwPanelSet *set = making->analysis->panels;

  return (paper != NULL && paper->patterned) || set->first_hinge[piece] != set->first_hinge[piece + 1]
         || find_laying (making, piece) == NULL;
}

/**
 * cw_card_side_words:
 * @piece: a piece
 * @face: one of its faces
 *
 * A layer without fold lines looks the same on both sides unless its paper is printed: what tells them apart is which
 * gets the glue. Others are called as in the window.
 *
 * Returns: (transfer none): what the page calls the face
 */
const char *
cw_card_side_words (const CwCardMaking *making, guint piece, CwFace face)
{
  static const char *const layer[3][3] = {
    { N_ ("the side that shows"), N_ ("the printed side, which shows"), N_ ("the plain side, which shows") },
    { N_ ("its glue side"), N_ ("its glue side, the printed one"), N_ ("its glue side, the plain one") },
    { N_ ("the side that lies down"), N_ ("the printed side, which lies down"),
      N_ ("the plain side, which lies down") },
  };
  const CwPiece *item = g_ptr_array_index (making->design->pieces, piece);
  const CwPaper *paper = cw_design_get_paper (making->design, item->paper);
  const CwPanelSet *set = making->analysis->panels;
  const CwStep *laying = item == cw_design_get_ground (making->design) ? NULL : find_laying (making, piece);
  guint print = paper == NULL || !paper->patterned ? 0 : face == CW_FACE_FRONT ? 1 : 2;

  if (laying == NULL || set->first_hinge[piece] != set->first_hinge[piece + 1])
    return cw_side_get_words (making->analysis, piece, face);
  return _ (layer[face != laying->facing ? 0 : laying->tucked ? 2 : 1][print]);
}

static gint
compare_uint (gconstpointer a, gconstpointer b)
{
  guint x = *(const guint *) a, y = *(const guint *) b;

  return (x > y) - (x < y);
}

/**
 * cw_card_lines_of:
 * @marks: of #CwCardMark
 *
 * Returns: (transfer full): the numbers of the trimmer's lines that make them, in brackets; "" for none
 */
char *
cw_card_lines_of (const CwCardMaking *making, const GArray *marks)
{
  const GArray *moves = making->card->trimming->moves;
  g_autoptr (GArray) numbers = g_array_new (FALSE, FALSE, sizeof (guint));
  g_autoptr (GString) text = g_string_new (NULL);

  for (guint i = 0; i < marks->len; i++)
    {
      const CwCardMark *mark = &g_array_index (marks, CwCardMark, i);

      for (guint k = 0; k < moves->len; k++)
        {
          const CwMove *move = &g_array_index (moves, CwMove, k);
          guint number = k + 1;

          if (move->piece == mark->piece && move->mark == mark->mark && move->does != CW_MOVE_MARK)
            g_array_append_val (numbers, number);
        }
    }
  g_array_sort (numbers, compare_uint);
  for (guint i = 0, n = 0; i < numbers->len; i += n)
    {
      guint first = g_array_index (numbers, guint, i);

      n = 1;
      while (i + n < numbers->len && g_array_index (numbers, guint, i + n) <= first + n)
        n++;
      if (n < 3)
        n = 1;
      g_string_append (text, i > 0 ? ", " : "");
      if (n == 1)
        g_string_append_printf (text, "%u", first);
      else
        /* Translators: a range of line numbers. */
        g_string_append_printf (text, _ ("%u to %u"), first, g_array_index (numbers, guint, i + n - 1));
    }
  if (numbers->len == 0)
    return g_strdup ("");
  /* Translators: after the names of fold lines: which of the numbered lines they are. */
  return g_strdup_printf (dngettext (GETTEXT_PACKAGE, " (line %s)", " (lines %s)", numbers->len), text->str);
}

/**
 * cw_card_cut_dup_count:
 * @cut: a row of the cut list
 *
 * Returns: (transfer full): how many of it, "2 pieces"
 */
char *
cw_card_cut_dup_count (const CwCardCut *cut)
{
  return g_strdup_printf (dngettext (GETTEXT_PACKAGE, "%u piece", "%u pieces", cut->count), cut->count);
}

/**
 * cw_step_card_new:
 * @analysis: a design and what is known of it; referenced
 * @options: how numbers are to be told, and the date
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
  card->trimmer = analysis->tools;
  card->trimming = cw_trimming_new (analysis->design, &analysis->tools);
  card->faults = g_ptr_array_new_with_free_func (free_remark);
  card->tools = g_ptr_array_new_with_free_func (free_tool);
  card->supplies = g_ptr_array_new_with_free_func (g_free);
  card->changes = g_ptr_array_new_with_free_func (g_free);
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
  g_free (card->time);
  g_free (card->work);
  clear_picture (&card->closed);
  clear_picture (&card->open);
  g_ptr_array_unref (card->faults);
  g_ptr_array_unref (card->tools);
  g_ptr_array_unref (card->supplies);
  g_ptr_array_unref (card->changes);
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
