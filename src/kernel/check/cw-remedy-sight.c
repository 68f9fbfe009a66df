/* cw-remedy-sight.c: what shows and should not, what should and does not, faces and art that lie the wrong way.
 *
 * A layer that is turned over before it is stuck lands on the same place: it is laid down beside its old corner by its
 * own width, its glue goes to the face that is stuck now, left and right changed, and one that is turned by quarters or
 * halves turns about its middle.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "check/cw-remedy-private.h"

#include "fold/cw-assembly.h"
#include "geometry/cw-house.h"
#include "units/cw-about.h"

#include <glib/gi18n-lib.h>
#include <math.h>

static CwFace
other_face (CwFace face)
{
  return face == CW_FACE_FRONT ? CW_FACE_BACK : CW_FACE_FRONT;
}

static CwVec3
middle_of (const CwPiece *piece)
{
  CwPoint low = { 0 }, high = { 0 };

  cw_piece_get_box (piece, &low, &high);
  return cw_vec3 (((double) low.x + high.x) / 2, ((double) low.y + high.y) / 2, 0);
}

/* Brings a changed stick step back over the place where the piece's middle lay. */
static void
keep_middle (const CwPiece *piece, const CwStep *old, CwStep *step)
{
  CwRigid was = cw_step_get_placement (old), is = cw_step_get_placement (step);
  CwVec3 off = cw_vec3_sub (cw_rigid_apply (&was, middle_of (piece)), cw_rigid_apply (&is, middle_of (piece)));

  cw_place_move (&step->at, (gint32) lround (off.x), (gint32) lround (off.y));
}

/* The glue of the face that was stuck goes to the other one, where it holds the same paper; with `swap`, that of the
 * other face comes here as well. */
static void
turn_glue (CwDraft *draft, const CwPiece *piece)
{
  gint32 across = (gint32) lround (2 * middle_of (piece).x);

  for (guint i = 0; i < draft->design->glue->len; i++)
    {
      const CwGlue *zone = draft->design->glue->pdata[i];
      CwGlue *copy;

      if (g_strcmp0 (zone->piece, piece->id) != 0)
        continue;
      copy = cw_glue_copy (zone);
      copy->face = other_face (zone->face);
      for (guint k = 0; k < copy->area.n_vertices; k++)
        {
          CwPlace *at = &copy->area.vertices[k].at;

          cw_place_move (at, across - 2 * at->x.ticks, 0);
        }
      cw_draft_put_glue (draft, copy);
    }
}

static void
offer_turned_over (CwMending *mending, const CwPiece *piece)
{
  const CwStep *stick = cw_mending_find_stick (mending, piece->id);
  CwDraft *draft;
  CwStep *copy;

  if (stick == NULL)
    return;
  draft = cw_draft_new (mending->design);
  copy = cw_step_copy (stick);
  copy->facing = other_face (stick->facing);
  keep_middle (piece, stick, copy);
  turn_glue (draft, piece);
  cw_draft_put_step (draft, copy);
  mending->family++;
  cw_mending_offer (mending, draft, N_ ("turn layer over"), N_ ("Turn “{0}” over before sticking it."),
                    cw_mending_name_piece (piece), NULL);
}

static void
offer_shows (CwMending *mending, const CwPiece *piece)
{
  CwDraft *draft = cw_draft_new (mending->design);
  CwPiece *copy = cw_piece_copy (piece);

  copy->shows = CW_SHOWS_BOTH;
  cw_draft_put_piece (draft, copy);
  mending->family++;
  mending->gives_up = TRUE;
  cw_mending_offer (mending, draft, N_ ("change what is wanted"), N_ ("Say that either side of “{0}” may be seen."),
                    cw_mending_name_piece (piece), NULL);
  mending->gives_up = FALSE;
}

/* --- Art ---------------------------------------------------------------------------------------------------------- */

static double
normal_turn (double degrees)
{
  double turn = fmod (degrees, 360);

  return turn < 0 ? turn + 360 : turn;
}

static void
offer_turned_layer (CwMending *mending, const CwPiece *piece, double by)
{
  const CwStep *stick = cw_mending_find_stick (mending, piece->id);
  g_autofree char *text = cw_about_degrees (fabs (by));
  CwDraft *draft;
  CwStep *copy;

  if (stick == NULL)
    return;
  draft = cw_draft_new (mending->design);
  copy = cw_step_copy (stick);
  copy->turn = normal_turn (stick->turn + by);
  keep_middle (piece, stick, copy);
  cw_draft_put_step (draft, copy);
  mending->family++;
  cw_mending_offer (mending, draft, N_ ("turn layer"),
                    by > 0 ? N_ ("Turn “{0}” clockwise by {1} degrees before sticking it.")
                           : N_ ("Turn “{0}” anticlockwise by {1} degrees before sticking it."),
                    cw_mending_name_piece (piece), text, NULL);
}

static void
offer_turned_art (CwMending *mending, const CwPiece *piece, double by)
{
  g_autofree char *text = cw_about_degrees (fabs (by));

  for (guint i = 0; i < piece->art->len; i++)
    {
      const CwArt *art = piece->art->pdata[i];
      CwDraft *draft;
      CwArt *copy;

      /* The one the finding speaks of: its words name it first. */
      if (mending->finding->args->len > 0
          && g_strcmp0 (mending->finding->args->pdata[0], art->label != NULL ? art->label : art->id) != 0)
        continue;
      draft = cw_draft_new (mending->design);
      copy = cw_art_copy (art);
      copy->up = normal_turn (art->up + by);
      cw_draft_put_art (draft, piece->id, copy);
      mending->family++;
      cw_mending_offer (mending, draft, N_ ("turn art"),
                        by > 0 ? N_ ("Draw “{0}” turned clockwise by {1} degrees.")
                               : N_ ("Draw “{0}” turned anticlockwise by {1} degrees."),
                        art->label != NULL ? art->label : art->id, text, NULL);
    }
}

static void
mend_art (CwMending *mending, const CwPiece *piece)
{
  /* To the quarter: nobody turns a layer by odd degrees; a slanted one stays slanted by less than is told. */
  double by = mending->finding->amount >= 180 - CW_HOUSE_TILT ? 180 : 90;

  offer_turned_layer (mending, piece, by);
  if (by < 180)
    offer_turned_layer (mending, piece, -by);
  offer_turned_art (mending, piece, by);
  if (by < 180)
    offer_turned_art (mending, piece, -by);
}

/* --- Hidden and shown --------------------------------------------------------------------------------------------- */

/* The number that the remedy in words says, on the maker's marks; the least mark without one. */
static gint32
said_length (const CwMending *mending)
{
  const GPtrArray *args = mending->finding->args;
  CwLength length;

  for (guint i = args->len; i-- > 3;)
    if (cw_length_parse (args->pdata[i], mending->design->head->unit, &length, NULL) && length.ticks > 0)
      return length.ticks;
  return cw_mending_step (mending);
}

static void
mend_shows (CwMending *mending)
{
  gint32 by = said_length (mending);

  cw_mend_by_moving_layers (mending, by, by);
  for (guint i = 0; i < mending->finding->pieces->len; i++)
    if (cw_mending_find_stick (mending, mending->finding->pieces->pdata[i]) != NULL)
      cw_mend_by_trimming (mending, mending->finding->pieces->pdata[i], by, by);
}

/* The other side of the host; seen through it, left and right of where it lies do not change. */
static void
offer_other_side (CwMending *mending, const CwPiece *piece)
{
  const CwStep *stick = cw_mending_find_stick (mending, piece->id);

  for (guint over = 0; stick != NULL && over < 2; over++)
    {
      CwDraft *draft = cw_draft_new (mending->design);
      CwStep *copy = cw_step_copy (stick);

      copy->on_face = other_face (stick->on_face);
      if (over == 1)
        copy->facing = other_face (stick->facing);
      copy->turn = normal_turn (-stick->turn);
      keep_middle (piece, stick, copy);
      if (over == 1)
        turn_glue (draft, piece);
      cw_draft_put_step (draft, copy);
      mending->family++;
      cw_mending_offer (mending, draft, N_ ("stick layer on the other side"),
                        over == 0 ? N_ ("Stick “{0}” on the other side of the paper.")
                                  : N_ ("Stick “{0}” on the other side of the paper, turned over."),
                        cw_mending_name_piece (piece), NULL);
    }
}

/* A window in what lies over it, a strip narrower all round than the piece. */
static void
offer_opening (CwMending *mending, const CwPiece *piece)
{
  const CwPanelSet *set = mending->analysis->panels;
  guint step = cw_design_find_step (mending->design, mending->finding->step);
  guint index = cw_design_find_piece (mending->design, piece->id);
  gint32 rim = cw_head_round_up (mending->design->head, CW_HOUSE_THIN_STRIP);
  g_autoptr (CwMotionWork) work = cw_motion_work_new (mending->analysis->motion);
  g_autoptr (CwPose) pose = cw_pose_new (mending->analysis->motion);
  CwPoint low = { 0 }, high = { 0 };

  if (step == G_MAXUINT || index == G_MAXUINT || !cw_piece_get_box (piece, &low, &high))
    return;
  cw_motion_get_pose (mending->analysis->motion, work, step, 1, pose);
  for (guint i = 0; i < mending->finding->panels->len; i++)
    {
      const CwPanelRef *ref = &g_array_index (mending->finding->panels, CwPanelRef, i);
      guint over = cw_design_find_piece (mending->design, ref->piece);
      const CwPiece *host = cw_design_get_piece (mending->design, ref->piece);
      CwRigid back;
      CwPoint corners[2];
      CwMark *mark;
      CwDraft *draft;

      if (over == index || over == G_MAXUINT || set->first_panel[index] == set->first_panel[index + 1])
        continue;
      back = cw_rigid_inverse (&pose->places[set->first_panel[over] + ref->panel]);
      for (guint k = 0; k < 2; k++)
        {
          CwVec3 p = k == 0 ? cw_vec3 (low.x, low.y, 0) : cw_vec3 (high.x, high.y, 0);

          p = cw_rigid_apply (&pose->places[set->first_panel[index]], p);
          p = cw_rigid_apply (&back, p);
          corners[k] = cw_point ((gint32) lround (p.x), (gint32) lround (p.y));
        }
      mark = cw_mark_new ();
      mark->id = cw_design_dup_free_id (mending->design, "window");
      mark->kind = CW_MARK_WINDOW;
      mark->shape = CW_SHAPE_RECT;
      for (guint k = 0; k < 2; k++)
        {
          gint32 step_ticks = cw_mending_step (mending);
          CwPoint p = { k == 0 ? MIN (corners[0].x, corners[1].x) + rim : MAX (corners[0].x, corners[1].x) - rim,
                        k == 0 ? MIN (corners[0].y, corners[1].y) + rim : MAX (corners[0].y, corners[1].y) - rim };

          p = cw_point (cw_ticks_snap (p.x, step_ticks), cw_ticks_snap (p.y, step_ticks));
          cw_path_append (&mark->line, cw_place_from_point (p, mending->design->head->unit), FALSE);
        }
      draft = cw_draft_new (mending->design);
      cw_draft_do (draft, cw_edit_new_insert (draft->design, CW_LIST_MARKS, host->id, G_MAXUINT, mark));
      mending->family++;
      cw_mending_offer (mending, draft, N_ ("cut window"), N_ ("Cut a window in “{0}” where “{1}” lies under it."),
                        cw_mending_name_piece (host), cw_mending_name_piece (piece), NULL);
    }
}

/* A layer that is stuck only later is stuck before the state it should show in. */
static void
offer_earlier (CwMending *mending, const CwPiece *piece)
{
  const CwStep *stick = cw_mending_find_stick (mending, piece->id);
  guint from = stick != NULL ? cw_design_find_step (mending->design, stick->id) : G_MAXUINT;
  guint to = cw_design_find_step (mending->design, mending->finding->step);
  CwDraft *draft;

  if (from == G_MAXUINT || to == G_MAXUINT || from <= to)
    return;
  draft = cw_draft_new (mending->design);
  cw_draft_move_step (draft, from, to);
  mending->family++;
  cw_mending_offer (mending, draft, N_ ("change order of steps"), N_ ("Do “{0}” before “{1}”."),
                    cw_mending_name_step (stick), cw_mending_name_step (mending->design->steps->pdata[to]), NULL);
}

static void
offer_tape_only_here (CwMending *mending)
{
  /* What lies over it moves away, as far as the piece is large: twice its size in steps is enough for a small one. */
  cw_mend_by_moving_layers (mending, cw_mending_step (mending) * 4, cw_mending_step (mending) * 16);
}

static void
drop_wants (GPtrArray *list, const CwStep *step, const char *piece)
{
  for (guint i = list->len; i-- > 0;)
    {
      const CwSightWant *want = list->pdata[i];

      if (g_strcmp0 (want->target.piece, piece) == 0
          && (g_strcmp0 (want->state, step->id) == 0 || g_strcmp0 (want->state, step->rest) == 0))
        g_ptr_array_remove_index (list, i);
    }
}

static void
offer_other_want (CwMending *mending, const CwPiece *piece)
{
  const CwStep *step = cw_design_get_step (mending->design, mending->finding->step);
  gboolean hidden = mending->finding->code != CW_FINDING_LAYER_HIDDEN;
  CwDraft *draft;
  CwHead *head;

  if (step == NULL)
    return;
  draft = cw_draft_new (mending->design);
  head = cw_head_copy (mending->design->head);
  drop_wants (hidden ? head->wants.hidden : head->wants.shown, step, piece->id);
  cw_draft_put_head (draft, head);
  mending->family++;
  mending->gives_up = TRUE;
  cw_mending_offer (mending, draft, N_ ("change what is wanted"),
                    hidden ? N_ ("Do not ask that “{0}” is hidden after “{1}”.")
                           : N_ ("Do not ask that “{0}” is seen after “{1}”."),
                    cw_mending_name_piece (piece), cw_mending_name_step (step), NULL);
  mending->gives_up = FALSE;
}

/**
 * cw_mend_sight:
 * @mending: a `layer-shows`, `layer-hidden`, `wrong-face` or `art-turned`, or the `tight-margin` of a hidden layer
 */
void
cw_mend_sight (CwMending *mending)
{
  const CwFinding *finding = mending->finding;
  const CwPiece *piece = cw_mending_get_piece (mending, 0);

  if (piece == NULL || finding->step == NULL)
    return;
  if (finding->code == CW_FINDING_WRONG_FACE)
    {
      offer_turned_over (mending, piece);
      offer_shows (mending, piece);
    }
  else if (finding->code == CW_FINDING_ART_TURNED)
    mend_art (mending, piece);
  else if (finding->code == CW_FINDING_LAYER_HIDDEN)
    {
      offer_earlier (mending, piece);
      offer_turned_over (mending, piece);
      offer_opening (mending, piece);
      offer_other_side (mending, piece);
      offer_tape_only_here (mending);
      offer_other_want (mending, piece);
    }
  else
    {
      mend_shows (mending);
      if (finding->code == CW_FINDING_LAYER_SHOWS)
        offer_other_side (mending, piece);
      offer_other_want (mending, piece);
    }
}
