/* cw-step-card-fold.c: a fold step in words, as the reader sees the paper when it is made.
 *
 * "Toward" and "away" are the reader's: with the back up they change places. A fold line is named by all scores on it.
 * Folds that nobody drives are told the first time they turn: new paper has to be helped.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "text/cw-step-card-private.h"

#include <glib/gi18n-lib.h>
#include <math.h>

/* Angles this near are one, degrees; panels named in one line. */
#define SAME_DEG 0.5
#define NAMED_MOST 5
/* A fold line that turns farther than this in a step folds with it, degrees. */
#define FOLLOWS_DEG 5

/* The fold line of a score, through the design; G_MAXUINT if it makes none. */
static guint
find_hinge (const CwCardWalk *walk, const CwPiece *piece, const CwMark *mark)
{
  const CwPanelSet *set = walk->making->analysis->panels;
  guint p = cw_design_find_piece (walk->making->design, piece->id), of;

  for (guint h = set->first_hinge[p]; h < set->first_hinge[p + 1]; h++)
    if (g_ptr_array_find_with_equal_func (cw_panel_set_get_hinge (set, h, &of)->scores, mark->id, g_str_equal, NULL))
      return h;
  return G_MAXUINT;
}

/**
 * cw_card_read_folds:
 * @step: a fold step
 *
 * Returns: (transfer full): GArray of #CwCardFold, ways as the reader sees them now
 */
GArray *
cw_card_read_folds (CwCardWalk *walk, const CwStep *step)
{
  const CwPanelSet *set = walk->making->analysis->panels;
  GArray *folds = g_array_new (FALSE, FALSE, sizeof (CwCardFold));

  for (guint i = 0; i < step->folds->len; i++)
    {
      const CwStepFold *item = g_ptr_array_index (step->folds, i);
      CwPiece *piece = NULL;
      CwMark *mark = NULL;

      if (!cw_design_split_address (walk->making->design, item->score, &piece, &mark) || mark == NULL)
        continue;
      CwCardFold fold = { mark, piece,           find_hinge (walk, piece, mark),
                          0,    fabs (item->to), (mark->fold == CW_FOLD_AWAY) == (item->to < 0) };
      if (fold.hinge != G_MAXUINT)
        {
          guint of;
          const CwHinge *hinge = cw_panel_set_get_hinge (set, fold.hinge, &of);
          guint left = set->first_panel[of] + hinge->left, right = set->first_panel[of] + hinge->right;
          guint step_index = cw_design_find_step (walk->making->design, step->id);
          guint still = cw_motion_step_moves (walk->making->analysis->motion, step_index, left) ? right : left;

          fold.from = fabs (walk->start->angles_deg[fold.hinge]);
          if (cw_card_face_seen (walk, walk->start, still) == CW_FACE_BACK)
            fold.toward = !fold.toward;
        }
      /* Opening flat goes no way. */
      fold.toward |= fold.to < SAME_DEG;
      g_array_append_val (folds, fold);
    }
  return folds;
}

static char *
join_names (const GPtrArray *names)
{
  GString *text = g_string_new (NULL);

  for (guint i = 0; i < names->len; i++)
    {
      g_string_append (text, i == 0 ? "" : i + 1 == names->len ? _ (" and ") : ", ");
      g_string_append_printf (text, _ ("“%s”"), (const char *) names->pdata[i]);
    }
  return g_string_free (text, FALSE);
}

/* Fold lines by the names of all scores on them. */
typedef struct
{
  GPtrArray *names; /* borrowed */
  GArray *marks;    /* of CwCardMark */
} Named;

static Named
named_new (void)
{
  return (Named){ g_ptr_array_new (), g_array_new (FALSE, FALSE, sizeof (CwCardMark)) };
}

static void
named_clear (Named *named)
{
  g_ptr_array_unref (named->names);
  g_array_unref (named->marks);
}

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Named, named_clear)

static void
add_names (Named *named, const CwCardWalk *walk, guint hinge)
{
  CwCardMark mark = { 0, 0 };
  const CwHinge *item = cw_panel_set_get_hinge (walk->making->analysis->panels, hinge, &mark.piece);
  const CwPiece *piece = g_ptr_array_index (walk->making->design->pieces, mark.piece);

  for (guint i = 0; i < item->scores->len; i++)
    {
      char *id = item->scores->pdata[i];

      if (g_ptr_array_find_with_equal_func (named->names, id, g_str_equal, NULL))
        continue;
      mark.mark = cw_piece_find_mark (piece, id);
      g_ptr_array_add (named->names, id);
      g_array_append_val (named->marks, mark);
    }
}

/* "“left” and “right” (lines 1, 2)" */
static char *
join_named (const CwCardWalk *walk, const Named *named)
{
  g_autofree char *names = join_names (named->names), *lines = cw_card_lines_of (walk->making, named->marks);

  return g_strconcat (names, lines, NULL);
}

/* Fold lines of one kind. */
static char *
fold_names (const CwCardWalk *walk, const GArray *folds, double to, gboolean toward)
{
  g_auto (Named) named = named_new ();

  for (guint i = 0; i < folds->len; i++)
    {
      const CwCardFold *fold = &g_array_index (folds, CwCardFold, i);

      if (fabs (fold->to - to) >= SAME_DEG || fold->toward != toward)
        continue;
      if (fold->hinge != G_MAXUINT)
        add_names (&named, walk, fold->hinge);
      else
        g_ptr_array_add (named.names, fold->mark->id);
    }
  return join_named (walk, &named);
}

/**
 * cw_card_say_followers:
 * @folds: what the hand folds
 * @index: the step in the design
 *
 * Says what folds along with it for the first time.
 */
void
cw_card_say_followers (CwCardWalk *walk, CwCardStep *step, const GArray *folds, guint index)
{
  const CwPanelSet *set = walk->making->analysis->panels;
  g_auto (Named) away = named_new (), toward_us = named_new ();
  Named *const named[2] = { &away, &toward_us };

  for (guint h = 0; h < walk->start->n_hinges; h++)
    {
      guint piece;
      const CwHinge *hinge = cw_panel_set_get_hinge (set, h, &piece);
      double turn = walk->end->angles_deg[h] - walk->start->angles_deg[h];
      guint left = set->first_panel[piece] + hinge->left, right = set->first_panel[piece] + hinge->right;
      gboolean driven = walk->folded[h], toward;

      for (guint i = 0; i < folds->len; i++)
        driven |= g_array_index (folds, CwCardFold, i).hinge == h;
      if (driven || fabs (turn) < FOLLOWS_DEG || !walk->start->present[left])
        continue;
      guint still = cw_motion_step_moves (walk->making->analysis->motion, index, left) ? right : left;
      toward = (turn > 0) == (cw_card_face_seen (walk, walk->start, still) == CW_FACE_FRONT);
      walk->folded[h] = TRUE;
      add_names (named[toward], walk, h);
    }
  for (guint toward = 0; toward < 2; toward++)
    {
      g_autofree char *joined = join_named (walk, named[toward]);

      if (named[toward]->names->len > 0)
        cw_card_say (step->lines, g_strdup_printf (toward ? _ ("As it moves, help these to fold toward you: %s.")
                                                          : _ ("As it moves, help these to fold away from you: %s."),
                                                   joined));
    }
}

static void
say_fold (const CwCardWalk *walk, CwCardStep *step, const GArray *folds, const CwCardFold *fold, gboolean making)
{
  g_autofree char *names = fold_names (walk, folds, fold->to, fold->toward);
  double size = fold->to;

  if (fold->from > size + SAME_DEG && size >= SAME_DEG && fabs (size - 90) < SAME_DEG)
    cw_card_say (step->lines, g_strdup_printf (_ ("Open %s to a right angle."), names));
  else if (fold->from > size + SAME_DEG && size >= SAME_DEG)
    cw_card_say (step->lines, g_strdup_printf (_ ("Open %s to %.0f degrees."), names, size));
  else if (size < SAME_DEG)
    cw_card_say (step->lines, g_strdup_printf (_ ("Open %s until the paper lies flat."), names));
  else if (180 - size < SAME_DEG && fold->toward)
    cw_card_say (step->lines,
                 g_strdup_printf (making ? _ ("Fold %s toward you, all the way over, and rub the fold flat with "
                                              "the bone folder.")
                                         : _ ("Fold %s toward you, all the way over."),
                                  names));
  else if (180 - size < SAME_DEG)
    cw_card_say (step->lines,
                 g_strdup_printf (making ? _ ("Fold %s away from you, all the way under, and rub the fold flat "
                                              "with the bone folder.")
                                         : _ ("Fold %s away from you, all the way under."),
                                  names));
  else if (fabs (size - 90) < SAME_DEG)
    cw_card_say (step->lines, g_strdup_printf (fold->toward ? _ ("Fold %s toward you to a right angle.")
                                                            : _ ("Fold %s away from you to a right angle."),
                                               names));
  else
    cw_card_say (step->lines, g_strdup_printf (fold->toward ? _ ("Fold %s toward you, to %.0f degrees.")
                                                            : _ ("Fold %s away from you, to %.0f degrees."),
                                               names, size));
}

/**
 * cw_card_say_folds:
 * @folds: of #CwCardFold
 * @making: whether the fold is made and rubbed, not only used
 *
 * Says them, those of one way and angle together.
 */
void
cw_card_say_folds (CwCardWalk *walk, CwCardStep *step, const GArray *folds, gboolean making)
{
  for (guint i = 0; i < folds->len; i++)
    {
      const CwCardFold *fold = &g_array_index (folds, CwCardFold, i);
      gboolean said = FALSE;

      for (guint k = 0; k < i; k++)
        said |= fabs (g_array_index (folds, CwCardFold, k).to - fold->to) < SAME_DEG
                && g_array_index (folds, CwCardFold, k).toward == fold->toward;
      if (fold->hinge != G_MAXUINT && !walk->folded[fold->hinge] && fold->to >= SAME_DEG
          && cw_piece_is_pressed (fold->piece, fold->mark))
        {
          guint slit = cw_piece_find_slit_joined (fold->piece, fold->mark);

          if (slit != G_MAXUINT)
            cw_card_say (
              step->lines,
              g_strdup_printf (_ ("“%s” is not scored: it runs straight from one end of the slit “%s” to the "
                                  "other."),
                               fold->mark->id, ((const CwMark *) g_ptr_array_index (fold->piece->marks, slit))->id));
          else
            cw_card_say (step->lines,
                         g_strdup_printf (_ ("“%s” is not scored: bend the paper along the line."), fold->mark->id));
        }
      if (fold->hinge != G_MAXUINT)
        walk->folded[fold->hinge] = TRUE;
      if (!said)
        say_fold (walk, step, folds, fold, making);
    }
}

/**
 * cw_card_say_moved:
 * @index: the step in the design
 *
 * Says which named panels move.
 */
void
cw_card_say_moved (CwCardWalk *walk, CwCardStep *step, guint index)
{
  g_autoptr (GString) names = g_string_new (NULL);
  guint n = 0;

  for (guint i = 0; i < walk->start->n_panels; i++)
    {
      const CwPanel *panel = cw_panel_set_get_panel (walk->making->analysis->panels, i);

      if (panel->name == NULL || !walk->start->present[i]
          || !cw_motion_step_moves (walk->making->analysis->motion, index, i))
        continue;
      if (n < NAMED_MOST)
        g_string_append_printf (names, "%s%s", n > 0 ? ", " : "", panel->name);
      n++;
    }
  if (n > 0)
    cw_card_say (step->lines, n > NAMED_MOST ? g_strdup_printf (_ ("What moves: %s and others."), names->str)
                                             : g_strdup_printf (_ ("What moves: %s."), names->str));
}
