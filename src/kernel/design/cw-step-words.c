/* cw-step-words.c: a step's title, the maker's own or made from what the step does.
 *
 * "Fold spine toward you", "Open spine flat", "Fold left and right away from you, to 90 degrees". Directions are as
 * seen with the front of the piece up, as everywhere.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "design/cw-step-words.h"

#include "design/cw-finding.h"

#include <glib/gi18n-lib.h>
#include <math.h>

/* In the user's language, or in English. */
#define SAY(words) (translated ? g_dgettext (GETTEXT_PACKAGE, words) : words)

#define NAMED_MOST 2   /* more folds than this are counted, not named */
#define SAME_DEG 0.5   /* angles this near are told as the same, degrees */
#define SHUT_DEG 180.0 /* folded shut */

/* The names of the scores a step folds, such as "spine and left edge" or "4 scores". */
static char *
dup_scores (const CwDesign *design, const CwStep *step, gboolean translated)
{
  const char *names[NAMED_MOST] = { NULL };

  if (step->folds->len > NAMED_MOST)
    return g_strdup_printf (translated ? dngettext (GETTEXT_PACKAGE, "%u score", "%u scores", step->folds->len)
                                       : "%u scores",
                            step->folds->len);
  for (guint i = 0; i < step->folds->len; i++)
    {
      const CwStepFold *fold = g_ptr_array_index (step->folds, i);
      const char *slash = fold->score != NULL ? strrchr (fold->score, '/') : NULL;

      names[i] = slash != NULL ? slash + 1 : "?";
    }
  if (step->folds->len == 2)
    /* Translators: two scores by their names, such as "spine and left edge". */
    return g_strdup_printf (SAY (N_ ("%s and %s")), names[0], names[1]);
  return g_strdup (names[0]);
}

/* +1 all toward, -1 all away, 0 mixed or not known. */
static int
common_way (const CwDesign *design, const CwStep *step)
{
  int way = 0;

  for (guint i = 0; i < step->folds->len; i++)
    {
      const CwStepFold *fold = g_ptr_array_index (step->folds, i);
      CwPiece *piece = NULL;
      CwMark *mark = NULL;
      int turn = 0;

      if (!cw_design_split_address (design, fold->score, &piece, &mark) || mark == NULL)
        return 0;
      turn = (mark->fold == CW_FOLD_AWAY) == (fold->to < 0) ? 1 : -1;
      if (i > 0 && turn != way)
        return 0;
      way = turn;
    }
  return way;
}

static char *
dup_fold_title (const CwDesign *design, const CwStep *step, gboolean translated)
{
  g_autofree char *scores = NULL;
  double size = 0, least = INFINITY;

  /* What the step is for says more than which lines it folds. */
  if (g_strcmp0 (step->rest, "closed") == 0)
    return g_strdup (SAY (N_ ("Fold the card shut")));
  if (g_strcmp0 (step->rest, "open") == 0)
    return g_strdup (SAY (N_ ("Open the card")));
  if (step->folds->len == 0)
    return g_strdup (SAY (N_ ("Fold")));
  scores = dup_scores (design, step, translated);
  for (guint i = 0; i < step->folds->len; i++)
    {
      double to = fabs (((CwStepFold *) g_ptr_array_index (step->folds, i))->to);

      size = MAX (size, to);
      least = MIN (least, to);
    }
  if (size < SAME_DEG)
    /* Translators: %s is one or more scores: the fold is opened until the paper is flat again. */
    return g_strdup_printf (SAY (N_ ("Open %s flat")), scores);
  if (size - least < SAME_DEG && SHUT_DEG - size >= SAME_DEG)
    switch (common_way (design, step))
      {
      case 1:
        return g_strdup_printf (SAY (N_ ("Fold %s toward you, to %.0f°")), scores, size);
      case -1:
        return g_strdup_printf (SAY (N_ ("Fold %s away from you, to %.0f°")), scores, size);
      default:
        return g_strdup_printf (SAY (N_ ("Fold %s to %.0f°")), scores, size);
      }
  switch (common_way (design, step))
    {
    case 1:
      return g_strdup_printf (SAY (N_ ("Fold %s toward you")), scores);
    case -1:
      return g_strdup_printf (SAY (N_ ("Fold %s away from you")), scores);
    default:
      return g_strdup_printf (SAY (N_ ("Fold %s")), scores);
    }
}

static const char *
piece_name (const CwDesign *design, const char *id)
{
  const CwPiece *piece = id != NULL ? cw_design_get_piece (design, id) : NULL;

  if (piece == NULL)
    return id != NULL ? id : "?";
  return piece->name != NULL ? piece->name : piece->id;
}

static char *
dup_title (const CwDesign *design, const CwStep *step, gboolean translated)
{
  if (step->title != NULL && *step->title != '\0')
    return g_strdup (step->title);
  switch (step->what)
    {
    case CW_DO_CUT:
      return g_strdup (SAY (N_ ("Cut")));
    case CW_DO_SCORE:
      return g_strdup (SAY (N_ ("Score")));
    case CW_DO_FOLD:
      return dup_fold_title (design, step, translated);
    case CW_DO_STICK:
      return g_strdup_printf (step->tucked ? SAY (N_ ("Lay %s on")) : SAY (N_ ("Stick %s down")),
                              piece_name (design, step->piece));
    case CW_DO_TAKE_AWAY:
      return g_strdup_printf (SAY (N_ ("Take %s away")), piece_name (design, step->piece));
    case CW_DO_GLUE:
      return g_strdup (SAY (N_ ("Put on glue")));
    case CW_DO_RUB:
      return g_strdup (SAY (N_ ("Rub flat with the bone folder")));
    case CW_DO_TURN_OVER:
      return g_strdup (SAY (N_ ("Turn over")));
    case CW_DO_DECORATE:
      return g_strdup (SAY (N_ ("Decorate")));
    default:
      return g_strdup (step->id);
    }
}

/**
 * cw_step_dup_title:
 * @design: the design
 * @step: one of its steps
 *
 * Returns: (transfer full): the maker's own title, else words made from what the step does, in the user's language
 */
char *
cw_step_dup_title (const CwDesign *design, const CwStep *step)
{
  g_return_val_if_fail (design != NULL && step != NULL, NULL);
  return dup_title (design, step, TRUE);
}

/**
 * cw_step_dup_mention:
 * @design: the design
 * @step: one of its steps
 *
 * Returns: (transfer full): the same in both languages, to be put into the words of a finding
 */
char *
cw_step_dup_mention (const CwDesign *design, const CwStep *step)
{
  g_autofree char *english = NULL, *translated = NULL;

  g_return_val_if_fail (design != NULL && step != NULL, NULL);
  english = dup_title (design, step, FALSE);
  translated = dup_title (design, step, TRUE);
  return cw_finding_dup_both (english, translated);
}
