/* cw-remedy-motion.c: what stops on its way, is loose, or needs the paper to give.
 *
 * Where the finding knows what has to move and by how much (`mend_mark`, `mend_by`), that is done on the maker's marks,
 * both ways; what is stuck there is moved by as much. Otherwise fold lines of the loop are turned the other way, given
 * a way where they have none, or moved by a few steps. What sways, or can fold in two ways, is told one more angle: the
 * one at which it is shown now.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "check/cw-remedy-private.h"

#include "fold/cw-assembly.h"
#include "geometry/cw-polygon.h"
#include "geometry/cw-tolerance.h"
#include "units/cw-about.h"

#include <glib/gi18n-lib.h>
#include <math.h>

/* Fold lines are moved by up to so many steps where it is not known by how much. */
#define STEPS_MOST 4
/* A loop with more fold lines is not tried line by line. */
#define FOLDS_MOST 12
/* Lengths tried near one that is known. */
#define LENGTHS_MOST 3

static const gint32 ways[4][2] = { { -1, 0 }, { 1, 0 }, { 0, -1 }, { 0, 1 } };

static const CwStep *
get_step (const CwMending *mending)
{
  return mending->finding->step != NULL ? cw_design_get_step (mending->design, mending->finding->step) : NULL;
}

/* The first score of a fold line, and its piece. */
static const CwMark *
get_score (const CwMending *mending, guint hinge, const CwPiece **piece)
{
  guint index;
  const CwHinge *h = cw_panel_set_get_hinge (mending->analysis->panels, hinge, &index);

  *piece = mending->analysis->panels->maps[index].piece;
  return cw_piece_get_mark (*piece, h->scores->pdata[0]);
}

static gboolean
step_folds (const CwStep *step, const CwPiece *piece, const CwMark *mark)
{
  g_autofree char *address = g_strdup_printf ("%s/%s", piece->id, mark->id);

  for (guint i = 0; i < step->folds->len; i++)
    if (g_strcmp0 (((const CwStepFold *) step->folds->pdata[i])->score, address) == 0)
      return TRUE;
  return FALSE;
}

/* --- Two angles of one fold line ---------------------------------------------------------------------------------- */

static void
offer_fewer_folds (CwMending *mending, const CwStep *step)
{
  for (guint i = step->folds->len; i-- > 0;)
    {
      const CwStepFold *fold = step->folds->pdata[i];
      CwDraft *draft;
      CwStep *copy;
      CwMark *mark;

      if (step->folds->len < 2 || !cw_design_split_address (mending->design, fold->score, NULL, &mark))
        continue;
      draft = cw_draft_new (mending->design);
      copy = cw_step_copy (step);
      g_ptr_array_remove_index (copy->folds, i);
      cw_draft_put_step (draft, copy);
      mending->family++;
      cw_mending_offer (mending, draft, N_ ("ask one angle"), N_ ("Leave “{0}” out of “{1}”."), mark->id,
                        cw_mending_name_step (step), NULL);
    }
}

/* --- Ways --------------------------------------------------------------------------------------------------------- */

/* Whether the score folds along another line as well. */
static gboolean
folds_elsewhere (const CwPanelSet *set, guint hinge, const char *score)
{
  guint own, piece;

  cw_panel_set_get_hinge (set, hinge, &own);
  for (guint i = 0; i < cw_panel_set_n_hinges (set); i++)
    if (i != hinge
        && g_ptr_array_find_with_equal_func (cw_panel_set_get_hinge (set, i, &piece)->scores, score, g_str_equal, NULL)
        && piece == own)
      return TRUE;
  return FALSE;
}

/* Steps that fold the one fold the other by as much, each in its own way. */
static void
fold_likewise (CwDraft *draft, const char *address, const char *other)
{
  for (guint i = 0; i < draft->design->steps->len; i++)
    {
      const CwStep *step = draft->design->steps->pdata[i];

      for (guint k = 0; k < step->folds->len; k++)
        {
          const CwStepFold *fold = step->folds->pdata[k];
          CwStepFold *likewise;
          CwStep *copy;

          if (g_strcmp0 (fold->score, address) != 0)
            continue;
          copy = cw_step_copy (step);
          likewise = cw_step_fold_copy (fold);
          g_free (likewise->score);
          likewise->score = g_strdup (other);
          g_ptr_array_insert (copy->folds, (gint) k + 1, likewise);
          cw_draft_put_step (draft, copy);
          break;
        }
    }
}

/* A score that folds along two lines is parted where they meet, and one part turns. */
static gboolean
part_and_turn (CwDraft *draft, const CwPiece *piece, const CwMark *mark, const CwHinge *hinge)
{
  CwPoint ends[2], meet;
  g_autofree char *address = NULL, *other = NULL;
  CwMark *kept, *turned;
  guint end;

  if (mark->shape != CW_SHAPE_LINE || mark->line.n_vertices != 2)
    return FALSE;
  for (guint k = 0; k < 2; k++)
    ends[k] = cw_place_get_point (&mark->line.vertices[k].at);
  if (cw_point_equal (hinge->p, ends[0]) || cw_point_equal (hinge->q, ends[0]))
    end = 0;
  else if (cw_point_equal (hinge->p, ends[1]) || cw_point_equal (hinge->q, ends[1]))
    end = 1;
  else
    return FALSE;
  meet = cw_point_equal (hinge->p, ends[end]) ? hinge->q : hinge->p;
  kept = cw_mark_copy (mark);
  turned = cw_mark_copy (mark);
  g_free (turned->id);
  turned->id = cw_design_dup_free_id (draft->design, mark->id);
  turned->fold = mark->fold == CW_FOLD_AWAY ? CW_FOLD_TOWARD : CW_FOLD_AWAY;
  cw_place_set (&kept->line.vertices[end].at, meet);
  cw_place_set (&turned->line.vertices[1 - end].at, meet);
  address = g_strdup_printf ("%s/%s", piece->id, mark->id);
  other = g_strdup_printf ("%s/%s", piece->id, turned->id);
  cw_draft_put_mark (draft, piece->id, kept);
  cw_draft_do (draft, cw_edit_new_insert (draft->design, CW_LIST_MARKS, piece->id, G_MAXUINT, turned));
  fold_likewise (draft, address, other);
  return TRUE;
}

/* All scores of a fold line turn together. TRUE if the first had to be parted. */
static gboolean
turn_hinge (CwDraft *draft, const CwMending *mending, guint hinge)
{
  const CwPanelSet *set = mending->analysis->panels;
  guint index;
  const CwHinge *h = cw_panel_set_get_hinge (set, hinge, &index);
  const CwPiece *piece = set->maps[index].piece;

  if (h->scores->len == 1 && folds_elsewhere (set, hinge, h->scores->pdata[0])
      && part_and_turn (draft, piece, cw_piece_get_mark (piece, h->scores->pdata[0]), h))
    return TRUE;
  for (guint i = 0; i < h->scores->len; i++)
    cw_draft_turn_fold (draft, piece->id, h->scores->pdata[i]);
  return FALSE;
}

static void
offer_ways (CwMending *mending, const GArray *hinges, const CwStep *step)
{
  CwDraft *followers;

  /* One that follows before one that drives, then all that follow. */
  for (guint pass = 0; pass < 2; pass++)
    for (guint i = 0; i < hinges->len && i < FOLDS_MOST; i++)
      {
        const CwPiece *piece;
        const CwMark *mark = get_score (mending, g_array_index (hinges, guint, i), &piece);
        gboolean parted;
        CwDraft *draft;

        if (mark->fold == CW_FOLD_NONE || step_folds (step, piece, mark) != (pass == 1))
          continue;
        draft = cw_draft_new (mending->design);
        parted = turn_hinge (draft, mending, g_array_index (hinges, guint, i));
        mending->family++;
        cw_mending_offer (mending, draft, N_ ("change way of score"),
                          parted ? N_ ("Part the score “{0}” where the folds meet and let one part fold the other way.")
                                 : N_ ("Let the score “{0}” fold the other way."),
                          mark->id, NULL);
      }
  followers = cw_draft_new (mending->design);
  for (guint i = 0; i < hinges->len; i++)
    {
      const CwPiece *piece;
      const CwMark *mark = get_score (mending, g_array_index (hinges, guint, i), &piece);

      if (!step_folds (step, piece, mark)
          && !folds_elsewhere (mending->analysis->panels, g_array_index (hinges, guint, i), mark->id))
        turn_hinge (followers, mending, g_array_index (hinges, guint, i));
    }
  mending->family++;
  cw_mending_offer (mending, followers, N_ ("change ways of scores"),
                    N_ ("Let the scores that fold by themselves in “{0}” fold the other way."),
                    cw_mending_name_step (step), NULL);
}

/* A score that is not folded is told which way. */
static void
offer_a_way (CwMending *mending, const GArray *hinges)
{
  for (guint i = 0; i < hinges->len && i < FOLDS_MOST; i++)
    {
      const CwPiece *piece;
      const CwMark *mark = get_score (mending, g_array_index (hinges, guint, i), &piece);

      for (guint way = 0; mark->fold == CW_FOLD_NONE && way < 2; way++)
        {
          CwDraft *draft = cw_draft_new (mending->design);
          CwMark *copy = cw_mark_copy (mark);

          copy->fold = way == 0 ? CW_FOLD_TOWARD : CW_FOLD_AWAY;
          cw_draft_put_mark (draft, piece->id, copy);
          mending->family++;
          cw_mending_offer (mending, draft, N_ ("change way of score"),
                            way == 0 ? N_ ("Let the score “{0}” fold toward you.")
                                     : N_ ("Let the score “{0}” fold away from you."),
                            mark->id, NULL);
        }
    }
}

/* --- Places ------------------------------------------------------------------------------------------------------- */

static const char *const move_words[4]
  = { N_ ("Move the score “{0}” by {1} to the left."), N_ ("Move the score “{0}” by {1} to the right."),
      N_ ("Move the score “{0}” by {1} up."), N_ ("Move the score “{0}” by {1} down.") };

static void
offer_move (CwMending *mending, const CwPiece *piece, const CwMark *mark, guint way, gint32 by)
{
  g_autofree char *text = cw_mending_say (mending, by);
  CwDraft *draft;

  if (by <= 0)
    return;
  draft = cw_draft_new (mending->design);
  cw_draft_shift_mark (draft, piece->id, mark->id, ways[way][0] * by, ways[way][1] * by, TRUE);
  cw_mending_offer (mending, draft, N_ ("move score"), move_words[way], mark->id, text, NULL);
}

/* One end of a slanted score moves across or along the sheet; what meets it there goes along. */
static void
offer_end_moves (CwMending *mending, const CwPiece *piece, const CwMark *mark, gint32 by)
{
  g_autofree char *text = cw_mending_say (mending, by);

  for (guint end = 0; by > 0 && end < 2; end++)
    for (guint way = 0; way < 4; way++)
      {
        CwDraft *draft = cw_draft_new (mending->design);
        CwPoint from = cw_place_get_point (&mark->line.vertices[end == 0 ? 0 : mark->line.n_vertices - 1].at);

        cw_draft_move_point (draft, piece->id, from, cw_point (from.x + ways[way][0] * by, from.y + ways[way][1] * by));
        mending->family++;
        cw_mending_offer (mending, draft, N_ ("turn score"), N_ ("Move one end of the score “{0}” by {1}."), mark->id,
                          text, NULL);
      }
}

/* Square to an upright or level score, by a few lengths; of a slanted one the ends. */
static void
offer_moves (CwMending *mending, const CwPiece *piece, const CwMark *mark, const gint32 *by, guint n)
{
  CwPoint a, b;

  if (mark->shape != CW_SHAPE_LINE || mark->line.n_vertices < 2)
    return;
  a = cw_place_get_point (&mark->line.vertices[0].at);
  b = cw_place_get_point (&mark->line.vertices[mark->line.n_vertices - 1].at);
  if (a.x != b.x && a.y != b.y)
    {
      for (guint i = 0; i < n; i++)
        offer_end_moves (mending, piece, mark, by[i]);
      return;
    }
  for (guint way = a.x == b.x ? 0 : 2; way < (a.x == b.x ? 2 : 4); way++)
    {
      gint32 step = cw_mending_step (mending), at = way < 2 ? a.x : a.y, off = (at % step + step) % step;

      mending->family++;
      /* One that was off the marks comes onto them. */
      if (off != 0)
        offer_move (mending, piece, mark, way, way % 2 == 0 ? off : step - off);
      for (guint i = 0; i < n && off == 0; i++)
        offer_move (mending, piece, mark, way, by[i]);
    }
}

/* The length that is known, on the marks: nearest, next, the one before. */
static guint
lengths_near (const CwMending *mending, double ticks, gint32 by[LENGTHS_MOST])
{
  gint32 step = cw_mending_step (mending), nearest = cw_ticks_snap ((gint32) lround (ticks), step);

  by[0] = nearest;
  by[1] = nearest + step;
  by[2] = nearest - step;
  return by[2] > 0 ? 3 : 2;
}

static void
offer_known (CwMending *mending)
{
  const CwFinding *finding = mending->finding;
  CwPiece *piece;
  CwMark *mark;
  gint32 by[LENGTHS_MOST];
  guint n;

  if (finding->mend_mark == NULL || !(finding->mend_by > 0)
      || !cw_design_split_address (mending->design, finding->mend_mark, &piece, &mark))
    return;
  if (!finding->mend_turns)
    {
      n = lengths_near (mending, finding->mend_by, by);
      offer_moves (mending, piece, mark, by, n);
      cw_mend_by_moving_layers (mending, MAX (by[0], cw_mending_step (mending)), by[1]);
    }
  else if (mark->shape == CW_SHAPE_LINE && mark->line.n_vertices >= 2)
    {
      CwPoint a = cw_place_get_point (&mark->line.vertices[0].at);
      CwPoint b = cw_place_get_point (&mark->line.vertices[mark->line.n_vertices - 1].at);

      n = lengths_near (mending, hypot ((double) b.x - a.x, (double) b.y - a.y) * tan (finding->mend_by * G_PI / 180),
                        by);
      for (guint i = 0; i < n; i++)
        offer_end_moves (mending, piece, mark, by[i]);
    }
}

static void
offer_any (CwMending *mending, const GArray *hinges)
{
  gint32 by[STEPS_MOST];

  for (gint32 k = 0; k < STEPS_MOST; k++)
    by[k] = (k + 1) * cw_mending_step (mending);
  for (guint i = 0; i < hinges->len && i < FOLDS_MOST; i++)
    {
      const CwPiece *piece;
      const CwMark *mark = get_score (mending, g_array_index (hinges, guint, i), &piece);

      offer_moves (mending, piece, mark, by, STEPS_MOST);
    }
}

/* --- Angles ------------------------------------------------------------------------------------------------------- */

static void
offer_more_angles (CwMending *mending, const GArray *hinges, const CwStep *step)
{
  const CwPanelSet *set = mending->analysis->panels;
  g_autoptr (CwMotionWork) work = cw_motion_work_new (mending->analysis->motion);
  g_autoptr (CwPose) pose = cw_pose_new (mending->analysis->motion);

  cw_motion_get_pose (mending->analysis->motion, work, cw_design_find_step (mending->design, step->id), 1, pose);
  for (guint i = 0; i < hinges->len && i < FOLDS_MOST; i++)
    {
      guint hinge = g_array_index (hinges, guint, i), index;
      const CwPiece *piece;
      const CwMark *mark = get_score (mending, hinge, &piece);
      double to = pose->angles_deg[hinge];
      g_autofree char *text = NULL;
      CwDraft *draft;
      CwStep *copy;
      CwStepFold *fold;

      if (step_folds (step, piece, mark))
        continue;
      if (cw_panel_set_get_hinge (set, hinge, &index)->fold == CW_FOLD_AWAY)
        to = -to;
      draft = cw_draft_new (mending->design);
      copy = cw_step_copy (step);
      fold = cw_step_fold_new ();
      fold->score = g_strdup_printf ("%s/%s", piece->id, mark->id);
      fold->to = to;
      g_ptr_array_add (copy->folds, fold);
      cw_draft_put_step (draft, copy);
      text = cw_about_degrees (to);
      mending->family++;
      cw_mending_offer (mending, draft, N_ ("say one more angle"), N_ ("Fold “{0}” to {1} degrees in “{2}” as well."),
                        mark->id, text, cw_mending_name_step (step), NULL);
    }
}

/**
 * cw_mend_motion:
 * @mending: a `cannot-move`, `sways`, `two-ways` or `needs-give`
 */
void
cw_mend_motion (CwMending *mending)
{
  const CwFinding *finding = mending->finding;
  const CwStep *step = get_step (mending);
  g_autoptr (GArray) hinges = cw_mending_hinges (mending);

  if (step == NULL)
    return;
  if (step->what == CW_DO_STICK)
    {
      cw_mend_place (mending, step);
      return;
    }
  if (finding->code == CW_FINDING_SWAYS || finding->code == CW_FINDING_TWO_WAYS)
    {
      offer_more_angles (mending, hinges, step);
      return;
    }
  offer_known (mending);
  if (finding->code == CW_FINDING_NEEDS_GIVE)
    return;
  if (finding->known == CW_KNOWN_EXACT)
    {
      offer_fewer_folds (mending, step);
      return;
    }
  offer_a_way (mending, hinges);
  offer_ways (mending, hinges, step);
  /* What does not even begin is a matter of ways, not of places. */
  if (finding->mend_mark == NULL && finding->fraction > 0)
    offer_any (mending, hinges);
}
