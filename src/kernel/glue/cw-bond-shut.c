/* cw-bond-shut.c: steps that glue stops.
 *
 * A step that does not come to its end with all bonds made is tried again: if it comes further without any glue (stuck
 * pieces riding on their hosts), glue stops it. If it then comes further with the intended bonds alone, strays do;
 * leaving out the strays of one zone at a time finds whose. Else intended bonds do, found the same way. What can move
 * is always decided by the motion itself, never by counting freedoms at rest. Taking away a piece that is bonded, and
 * sticking one that is glued elsewhere, are stopped as well.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "glue/cw-bond-private.h"

#include "contact/cw-panel-words.h"
#include "geometry/cw-tolerance.h"

#include <glib/gi18n-lib.h>

/* Zones are left out one at a time to find the guilty one, if there are at most so many. */
#define CW_SHUT_MOST_TRIES 12

/* Who stops a step. */
typedef struct
{
  gboolean strays;
  guint zone; /* G_MAXUINT: several together */
} Guilt;

static gboolean
is_intended (const CwBonds *bonds, const CwGlued *row, guint zone)
{
  return row->intended;
}

static gboolean
is_not_stray_of (const CwBonds *bonds, const CwGlued *row, guint zone)
{
  return row->intended || row->zone != zone;
}

static gboolean
is_not_of (const CwBonds *bonds, const CwGlued *row, guint zone)
{
  return row->zone != zone;
}

/* TRUE if the step comes further with the rows kept than with all. */
static gboolean
frees (const CwBonds *bonds, guint step, CwRowKept kept, guint zone)
{
  g_autoptr (CwMotion) trial = cw_bonds_try (bonds, kept, zone);

  return trial != NULL
         && cw_motion_get_state (trial, step)->reached
              > cw_motion_get_state (bonds->motion, step)->reached + CW_TOL_REACHED;
}

/* The one zone without whose bonds the step comes further; of those made before it only. */
static guint
find_guilty_zone (const CwBonds *bonds, guint step, gboolean strays)
{
  g_autofree gboolean *suspect = g_new0 (gboolean, bonds->zones->len + 1);
  guint n_suspects = 0, last = G_MAXUINT;

  for (guint i = 0; i < bonds->rows->len; i++)
    {
      const CwGlued *row = &g_array_index (bonds->rows, CwGlued, i);

      if (row->step >= step || (strays && row->intended) || suspect[row->zone])
        continue;
      suspect[row->zone] = TRUE;
      last = row->zone;
      n_suspects++;
    }
  if (n_suspects <= 1)
    return last;
  for (guint z = 0; z < bonds->zones->len && n_suspects <= CW_SHUT_MOST_TRIES; z++)
    if (suspect[z] && frees (bonds, step, strays ? is_not_stray_of : is_not_of, z))
      return z;
  return G_MAXUINT;
}

static Guilt
find_guilt (const CwBonds *bonds, guint step)
{
  Guilt guilt = { FALSE, G_MAXUINT };

  for (guint i = 0; i < bonds->rows->len && !guilt.strays; i++)
    guilt.strays
      = !g_array_index (bonds->rows, CwGlued, i).intended && g_array_index (bonds->rows, CwGlued, i).step < step;
  guilt.strays = guilt.strays && frees (bonds, step, is_intended, 0);
  guilt.zone = find_guilty_zone (bonds, step, guilt.strays);
  return guilt;
}

/* The largest bond that is to blame. */
static const CwGlued *
find_worst (const CwBonds *bonds, guint step, Guilt guilt)
{
  const CwGlued *worst = NULL;

  for (guint i = 0; i < bonds->rows->len; i++)
    {
      const CwGlued *row = &g_array_index (bonds->rows, CwGlued, i);

      if (row->step < step && (guilt.zone == G_MAXUINT || row->zone == guilt.zone) && !(guilt.strays && row->intended)
          && (worst == NULL || row->area2 > worst->area2))
        worst = row;
    }
  return worst;
}

/* How far any panel is from where the panel beside it and the angle between the two would have it, ticks. */
static double
find_misfit (const CwBonds *bonds, const CwPose *pose)
{
  double worst = 0;

  for (guint i = 0; i < pose->n_hinges; i++)
    {
      guint piece;
      const CwHinge *hinge = cw_panel_set_get_hinge (bonds->set, i, &piece);
      const CwRigid *left = &pose->places[bonds->set->first_panel[piece] + hinge->left];
      guint beside = bonds->set->first_panel[piece] + hinge->right;
      const CwPolygon *outline = &cw_panel_set_get_panel (bonds->set, beside)->outline;
      CwRigid turn = cw_rigid_about_axis (hinge->axis[0], hinge->axis[1], -pose->angles_deg[i] * G_PI / 180);
      CwRigid meant = cw_rigid_compose (left, &turn);

      for (guint k = 0; outline->n_rings > 0 && k < outline->rings[0].n_points; k++)
        {
          CwVec3 p = cw_vec3 (outline->rings[0].points[k].x, outline->rings[0].points[k].y, 0);

          worst = MAX (worst, cw_vec3_length (
                                cw_vec3_sub (cw_rigid_apply (&meant, p), cw_rigid_apply (&pose->places[beside], p))));
        }
    }
  return worst;
}

/* TRUE if the step goes some of its way truly, not by what the paper gives: then its loops can move and what stops them
 * is their measures, which the motion tells; parts that are too short to open are not glued shut. */
static gboolean
moves_at_first (const CwBonds *bonds, guint step)
{
  double reached = cw_motion_get_state (bonds->motion, step)->reached;
  double before = step > 0 ? cw_motion_get_state (bonds->motion, step - 1)->misfit_ticks : 0;
  g_autoptr (CwMotionWork) work = NULL;
  g_autoptr (CwPose) pose = NULL;

  if (reached <= CW_TOL_REACHED)
    return FALSE;
  work = cw_motion_work_new (bonds->motion);
  pose = cw_pose_new (bonds->motion);
  cw_motion_get_pose (bonds->motion, work, step, reached / 2, pose);
  return find_misfit (bonds, pose) <= MAX (before, CW_TOL_EXACT_TICKS);
}

/* TRUE if scores stop the step, not glue: it would move with scores folded the other way, and no zone holds more than
 * one panel to another. */
static gboolean
folds_wrong_way (const CwBonds *bonds, guint step)
{
  if (!cw_motion_get_state (bonds->motion, step)->other_way_moves)
    return FALSE;
  for (guint i = 0; i < bonds->rows->len; i++)
    for (guint k = 0; k < i; k++)
      {
        const CwGlued *a = &g_array_index (bonds->rows, CwGlued, i), *b = &g_array_index (bonds->rows, CwGlued, k);

        if (a->zone == b->zone && (a->panel != b->panel || a->other != b->other))
          return FALSE;
      }
  return TRUE;
}

/* TRUE if the two panels move to one another in the step when there is no glue. */
static gboolean
would_part (const CwBonds *bonds, guint step, guint a, guint b)
{
  g_autoptr (CwMotionWork) work = cw_motion_work_new (bonds->free);
  g_autoptr (CwPose) pose = cw_pose_new (bonds->free);
  CwRigid places[2];

  for (guint i = 0; i < 2; i++)
    {
      CwRigid back;

      cw_motion_get_pose (bonds->free, work, step, i, pose);
      back = cw_rigid_inverse (&pose->places[a]);
      places[i] = cw_rigid_compose (&back, &pose->places[b]);
    }
  for (guint i = 0; i < 3; i++)
    for (guint k = 0; k < 3; k++)
      if (fabs (places[0].r[i][k] - places[1].r[i][k]) > CW_TOL_REACHED)
        return TRUE;
  return FALSE;
}

/* Two panels that the guilty glue holds together and that the step would part; else what the worst bond joins. */
static void
find_pair (const CwBonds *bonds, guint step, Guilt guilt, const CwGlued *worst, guint pair[2])
{
  for (guint i = 0; i < bonds->rows->len; i++)
    for (guint k = 0; k < i; k++)
      {
        const CwGlued *one = &g_array_index (bonds->rows, CwGlued, k), *two = &g_array_index (bonds->rows, CwGlued, i);
        guint ends[2];

        if (one->step >= step || two->step >= step || one->zone != two->zone
            || (guilt.zone != G_MAXUINT && one->zone != guilt.zone) || one->panel != two->panel
            || one->other == two->other)
          continue;
        ends[0] = one->other;
        ends[1] = two->other;
        if (!would_part (bonds, step, ends[0], ends[1]))
          continue;
        pair[0] = MIN (ends[0], ends[1]);
        pair[1] = MAX (ends[0], ends[1]);
        return;
      }
  pair[0] = worst->panel;
  pair[1] = worst->other;
}

static void
tell_step (CwBonds *bonds, guint step, Guilt guilt)
{
  const CwGlued *worst = find_worst (bonds, step, guilt);
  double amount = 0;
  g_autofree char *area = NULL, *other = NULL;
  const char *name, *when;
  CwFinding *finding;
  CwKnown known = CW_KNOWN_NUMERIC;

  if (worst == NULL)
    return;
  for (guint i = 0; i < bonds->rows->len; i++)
    {
      const CwGlued *row = &g_array_index (bonds->rows, CwGlued, i);

      if (row->zone == worst->zone && row->other == worst->other && row->intended == worst->intended)
        amount += (double) row->area2 / 2;
    }
  for (guint i = 0; guilt.strays && i < bonds->rows->len; i++)
    {
      const CwGlued *row = &g_array_index (bonds->rows, CwGlued, i);

      if (!row->intended && (guilt.zone == G_MAXUINT || row->zone == guilt.zone))
        bonds->told[row->zone] = TRUE;
    }
  bonds->shut[step] = TRUE;
  if (worst->known == CW_KNOWN_NOT_DECIDED)
    known = CW_KNOWN_NOT_DECIDED;
  finding = cw_bonds_new_finding (bonds, CW_FINDING_GLUED_SHUT, step, known);
  finding->fraction = cw_motion_get_state (bonds->motion, step)->reached;
  cw_panel_set_tell (bonds->set, finding, worst->panel);
  cw_panel_set_tell (bonds->set, finding, worst->other);
  cw_bonds_set_at_row (bonds, finding, worst);
  cw_finding_set_amount (finding, CW_AMOUNT_SQ_TICKS, amount);
  area = cw_bonds_area_text (bonds, amount);
  name = cw_bonds_piece_name (bonds, g_array_index (bonds->zones, CwZone, worst->zone).piece);
  when = cw_bonds_step_name (bonds, worst->step);
  other = cw_panel_words (bonds->set, worst->other);
  if (!guilt.strays)
    {
      guint pair[2];
      g_autofree char *first = NULL, *second = NULL;

      find_pair (bonds, step, guilt, worst, pair);
      first = cw_panel_words (bonds->set, pair[0]);
      second = cw_panel_words (bonds->set, pair[1]);
      cw_panel_set_tell (bonds->set, finding, pair[0]);
      cw_panel_set_tell (bonds->set, finding, pair[1]);
      cw_finding_set_words (finding,
                            N_ ("“{0}” cannot be done: the glue of “{1}” holds {2} and {3} together, and this step has "
                                "to part them."),
                            N_ ("Glue “{1}” to one of them only, or stick it after “{0}”."),
                            cw_bonds_step_name (bonds, step), name, first, second, NULL);
    }
  else if (worst->over_air)
    cw_finding_set_words (finding,
                          N_ ("“{0}” cannot be done: past an edge or through an opening the glue of “{1}” came to lie "
                              "on {2} in “{3}” and sticks there with {4}."),
                          N_ ("Keep the glue of “{1}” to where it lies on what it should hold."),
                          cw_bonds_step_name (bonds, step), name, other, when, area, NULL);
  else
    cw_finding_set_words (finding,
                          N_ ("“{0}” cannot be done: the glue of “{1}” came to lie on {2} as well in “{3}” and sticks "
                              "there with {4}."),
                          N_ ("Keep the glue of “{1}” off {2}."), cw_bonds_step_name (bonds, step), name, other, when,
                          area, NULL);
  g_ptr_array_add (bonds->findings, finding);
}

/* A piece that glue holds in one place already should be stuck in another. */
static void
tell_two_places (CwBonds *bonds, guint step, Guilt guilt)
{
  const CwGlued *worst = find_worst (bonds, step, guilt);
  g_autofree char *other = NULL;
  CwFinding *finding;

  if (worst == NULL)
    return;
  bonds->shut[step] = TRUE;
  other = cw_panel_words (bonds->set, worst->other);
  finding = cw_bonds_new_finding (bonds, CW_FINDING_CANNOT_MOVE, step, CW_KNOWN_NUMERIC);
  finding->fraction = 0;
  cw_panel_set_tell (bonds->set, finding, worst->panel);
  cw_panel_set_tell (bonds->set, finding, worst->other);
  cw_bonds_set_at_row (bonds, finding, worst);
  cw_finding_set_words (finding,
                        N_ ("“{0}” cannot be done: “{1}” is glued to {2} since “{3}” and would have to be in two "
                            "places."),
                        N_ ("Leave out one of the two places, or glue “{1}” later."), cw_bonds_step_name (bonds, step),
                        cw_bonds_piece_name (bonds, g_array_index (bonds->zones, CwZone, worst->zone).piece), other,
                        cw_bonds_step_name (bonds, worst->step), NULL);
  g_ptr_array_add (bonds->findings, finding);
}

/* The panel on which a piece was last stuck before a step; G_MAXUINT: none. */
static guint
find_last_host (const CwBonds *bonds, guint step, guint piece)
{
  for (guint i = step; i > 0; i--)
    {
      const CwStep *former = g_ptr_array_index (bonds->set->design->steps, i - 1);
      guint host = former->what == CW_DO_STICK && former->has_on && former->on.piece != NULL
                     ? cw_design_find_piece (bonds->set->design, former->on.piece)
                     : G_MAXUINT;

      if (host < bonds->set->n_pieces && g_strcmp0 (former->piece, bonds->set->maps[piece].piece->id) == 0)
        return bonds->set->first_panel[host];
    }
  return G_MAXUINT;
}

static void
tell_take_away (CwBonds *bonds, guint step, const CwStep *what)
{
  guint piece = what->piece ? cw_design_find_piece (bonds->set->design, what->piece) : G_MAXUINT, host;
  guint panel = piece < bonds->set->n_pieces ? bonds->set->first_panel[piece] : G_MAXUINT;

  if (panel >= bonds->n_panels)
    return;
  host = find_last_host (bonds, step, piece);
  if (host >= bonds->n_panels
      || cw_motion_get_group (bonds->motion, step, panel) != cw_motion_get_group (bonds->motion, step, host))
    return;
  for (guint i = 0; i < bonds->rows->len; i++)
    {
      const CwGlued *row = &g_array_index (bonds->rows, CwGlued, i);
      guint own, other;
      g_autofree char *name = NULL;
      CwFinding *finding;

      cw_panel_set_locate (bonds->set, row->panel, &own, NULL);
      cw_panel_set_locate (bonds->set, row->other, &other, NULL);
      if (row->step >= step || (own == piece) == (other == piece))
        continue;
      bonds->shut[step] = TRUE;
      name = cw_panel_words (bonds->set, own == piece ? row->other : row->panel);
      finding = cw_bonds_new_finding (bonds, CW_FINDING_GLUED_SHUT, step, CW_KNOWN_EXACT);
      finding->fraction = 0;
      cw_panel_set_tell (bonds->set, finding, row->panel);
      cw_panel_set_tell (bonds->set, finding, row->other);
      cw_bonds_set_at_row (bonds, finding, row);
      cw_finding_set_amount (finding, CW_AMOUNT_SQ_TICKS, (double) row->area2 / 2);
      cw_finding_set_words (finding, N_ ("“{0}” cannot be done: “{1}” is glued to {2} since “{3}”."),
                            N_ ("Leave out the glue between the two, or leave “{1}” where it is."),
                            cw_bonds_step_name (bonds, step), cw_bonds_piece_name (bonds, piece), name,
                            cw_bonds_step_name (bonds, row->step), NULL);
      g_ptr_array_add (bonds->findings, finding);
      return;
    }
}

/**
 * cw_bonds_tell_shut:
 * @bonds: bonds, all made
 *
 * Adds the steps that glue stops to their findings.
 */
void
cw_bonds_tell_shut (CwBonds *bonds)
{
  for (guint i = 0; i < bonds->n_steps && !g_cancellable_is_cancelled (bonds->cancellable); i++)
    {
      const CwStep *step = g_ptr_array_index (bonds->set->design->steps, i);
      const CwMotionState *state = cw_motion_get_state (bonds->motion, i);
      Guilt guilt;

      if (step->what == CW_DO_TAKE_AWAY)
        tell_take_away (bonds, i, step);
      if (bonds->motion == bonds->free || state->not_decided
          || cw_motion_get_state (bonds->free, i)->reached <= state->reached + CW_TOL_REACHED)
        continue;
      guilt = find_guilt (bonds, i);
      if (step->what == CW_DO_STICK)
        tell_two_places (bonds, i, guilt);
      else if (guilt.strays || (!folds_wrong_way (bonds, i) && !moves_at_first (bonds, i)))
        tell_step (bonds, i, guilt);
    }
}

/* Whether glue has stopped this step or one before it. */
static gboolean
is_shut_by (const CwBonds *bonds, guint step)
{
  for (guint i = 0; step < bonds->n_steps && i <= step; i++)
    if (bonds->shut[i])
      return TRUE;
  return FALSE;
}

/**
 * cw_bonds_explain:
 * @bonds: bonds
 * @finding: a finding of cw_bonds_get_motion()
 *
 * Returns: %TRUE if it says in other words what glue stops, and would not be said without the glue
 */
gboolean
cw_bonds_explain (const CwBonds *bonds, const CwFinding *finding)
{
  GPtrArray *free_findings;
  guint step;

  g_return_val_if_fail (bonds != NULL && finding != NULL, FALSE);

  step = finding->step ? cw_design_find_step (bonds->set->design, finding->step) : G_MAXUINT;
  if (!is_shut_by (bonds, step))
    return FALSE;
  /* The card is not where these would be judged, nor does it go on from where it should. */
  if (finding->code == CW_FINDING_STICKS_OUT || finding->code == CW_FINDING_TOO_BIG_FOR_ENVELOPE
      || finding->code == CW_FINDING_LAYER_OVERHANGS
      || ((finding->code == CW_FINDING_PANELS_COLLIDE || finding->code == CW_FINDING_LAYERS_BLOCK) && step > 0
          && is_shut_by (bonds, step - 1)))
    return TRUE;
  if (finding->code != CW_FINDING_CANNOT_MOVE && finding->code != CW_FINDING_NEEDS_GIVE)
    return FALSE;
  free_findings = cw_motion_get_findings (bonds->free);
  for (guint i = 0; i < free_findings->len; i++)
    {
      const CwFinding *other = g_ptr_array_index (free_findings, i);

      if (other->code == finding->code && other->words == finding->words && g_strcmp0 (other->step, finding->step) == 0)
        return FALSE;
    }
  return TRUE;
}
