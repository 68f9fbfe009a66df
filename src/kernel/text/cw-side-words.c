/* cw-side-words.c: which side of the paper is which, in words.
 *
 * A face is "inside when closed" when, at the closed state, fold lines bring that face of the piece together: every
 * fold shut there votes with its length times the smaller panel beside it, so that the spine outweighs a pop-up's
 * ridges. A layer is inside where the face it is stuck on is.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "text/cw-side-words.h"

#include <glib/gi18n-lib.h>
#include <math.h>

/* A fold this far over counts as shut, degrees; and a vote clearer than this share of all decides. */
#define SHUT_DEG 175.0
#define CLEAR_VOTE 0.2

static gboolean
is_closed_step (const CwDesign *design, guint index, gboolean by_label)
{
  const CwStep *step = g_ptr_array_index (design->steps, index);
  const GPtrArray *flat = design->head->wants.flat;

  if (by_label)
    return g_strcmp0 (step->rest, "closed") == 0;
  for (guint i = 0; flat != NULL && i < flat->len; i++)
    if (g_strcmp0 (g_ptr_array_index (flat, i), step->id) == 0
        || g_strcmp0 (g_ptr_array_index (flat, i), step->rest) == 0)
      return TRUE;
  return FALSE;
}

/**
 * cw_find_closed_step:
 * @analysis: a design and its motion
 *
 * The closed states are those labelled so, else those wanted flat (model, "Wants"); the last one reached counts.
 *
 * Returns: the step after which the card is closed; %G_MAXUINT if there is none
 */
guint
cw_find_closed_step (const CwAnalysis *analysis)
{
  guint n = cw_motion_get_n_steps (analysis->motion);

  for (int by_label = 1; by_label >= 0; by_label--)
    for (guint i = n; i-- > 0;)
      if (is_closed_step (analysis->design, i, by_label) && cw_motion_get_state (analysis->motion, i)->reached >= 1)
        return i;
  return G_MAXUINT;
}

static CwSide
other_side (CwSide side)
{
  return side == CW_SIDE_INSIDE ? CW_SIDE_OUTSIDE : side == CW_SIDE_OUTSIDE ? CW_SIDE_INSIDE : CW_SIDE_UNKNOWN;
}

/* Inside or outside of the front of a piece, from its own folds at the closed state. */
static CwSide
vote (const CwAnalysis *analysis, guint piece, const CwPose *pose)
{
  const CwPanelSet *set = analysis->panels;
  double all = 0, sum = 0;

  for (guint h = set->first_hinge[piece]; h < set->first_hinge[piece + 1]; h++)
    {
      guint of;
      const CwHinge *hinge = cw_panel_set_get_hinge (set, h, &of);
      const CwPanel *left = &g_array_index (set->maps[piece].panels, CwPanel, hinge->left);
      const CwPanel *right = &g_array_index (set->maps[piece].panels, CwPanel, hinge->right);
      if (fabs (pose->angles_deg[h]) < SHUT_DEG)
        continue;
      double weight = hinge->length * (double) MIN (left->area2, right->area2);
      all += weight;
      sum += pose->angles_deg[h] > 0 ? weight : -weight;
    }
  if (all <= 0 || fabs (sum) < CLEAR_VOTE * all)
    return CW_SIDE_UNKNOWN;
  return sum > 0 ? CW_SIDE_INSIDE : CW_SIDE_OUTSIDE;
}

static CwSide
front_side (const CwAnalysis *analysis, guint piece, const CwPose *pose, guint depth)
{
  const CwDesign *design = analysis->design;
  CwSide side = vote (analysis, piece, pose);

  if (side != CW_SIDE_UNKNOWN || depth == 0)
    return side;
  for (guint i = 0; i < design->steps->len; i++)
    {
      const CwStep *step = g_ptr_array_index (design->steps, i);
      if (step->what != CW_DO_STICK || cw_design_find_piece (design, step->piece) != piece || !step->has_on)
        continue;
      guint host = cw_design_find_piece (design, step->on.piece);
      if (host == G_MAXUINT || host == piece)
        return CW_SIDE_UNKNOWN;
      CwSide of_host = front_side (analysis, host, pose, depth - 1);
      if (step->on_face == CW_FACE_BACK)
        of_host = other_side (of_host);
      /* What is seen of the layer is the face that does not meet the host. */
      return step->facing == CW_FACE_BACK ? of_host : other_side (of_host);
    }
  return CW_SIDE_UNKNOWN;
}

/**
 * cw_side_find:
 * @analysis: a design and its motion
 * @piece: index of a piece
 * @face: one of its faces
 *
 * Returns: whether that face lies inside or outside of the closed card
 */
CwSide
cw_side_find (const CwAnalysis *analysis, guint piece, CwFace face)
{
  guint closed = cw_find_closed_step (analysis);

  if (closed == G_MAXUINT)
    return CW_SIDE_UNKNOWN;

  g_autoptr (CwPose) pose = cw_pose_new (analysis->motion);
  g_autoptr (CwMotionWork) work = cw_motion_work_new (analysis->motion);
  cw_motion_get_pose (analysis->motion, work, closed, 1, pose);
  CwSide side = front_side (analysis, piece, pose, analysis->design->pieces->len);
  return face == CW_FACE_FRONT ? side : other_side (side);
}

/**
 * cw_side_get_words:
 * @analysis: a design and its motion
 * @piece: index of a piece
 * @face: one of its faces
 *
 * Returns: (transfer none): its name in the maker's words and language
 */
const char *
cw_side_get_words (const CwAnalysis *analysis, guint piece, CwFace face)
{
  static const char *const words[2][3] = {
    { N_ ("drawn side"), N_ ("drawn side (inside when closed)"), N_ ("drawn side (outside when closed)") },
    { N_ ("other side"), N_ ("other side (inside when closed)"), N_ ("other side (outside when closed)") },
  };

  return _ (words[face][cw_side_find (analysis, piece, face)]);
}
