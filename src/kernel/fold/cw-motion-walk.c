/* cw-motion-walk.c: makes a motion by walking the steps of a design in order.
 *
 * Between two moments at which something is stuck on or taken away the card is one linkage (cw-assembly.h); a fold step
 * is one trace through it (cw-linkage.h) from where the step before ended, be that its end or the place where it
 * stopped; any other step stands still. A piece joins with the angles it was folded to before.
 *
 * Decisions where the model is silent: a piece stuck a second time without being taken away is laid anew (the first
 * place is given up); a part that hangs on the card already (a strip's end stuck on the strip itself, a second tab) is
 * held where it lies if it lies where the step wants it, within the paper's give, and otherwise the step cannot be
 * done; with `take-away` everything that hangs on the piece alone goes too, and sticking it again brings it back.
 * Bonds from outside (glue) take the place of the place a piece was stuck in as soon as they join it to its host's
 * piece.
 *
 * Over 500 lines because all kinds of step work on one state of the walk.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "fold/cw-motion-private.h"

#include "fold/cw-motion-finding.h"
#include "geometry/cw-tolerance.h"

/* Where in a step the way is remembered that each fold line came: so near the end that the branches are the same, so
 * far from it that they differ. */
#define HINT_FRACTION 0.9

/* A bond of the moment, and the piece whose `stick` step made it; G_MAXUINT for bonds handed in from outside. */
typedef struct
{
  CwBond bond;
  guint piece;
} Held;

/* What the walk over the steps carries from one to the next. */
typedef struct
{
  CwMotion *motion;
  GHashTable *hinges; /* "piece/score" to GArray of hinge indices; only ever looked up */
  GArray *bonds;      /* of Held, in the order they were made */
  const CwFixed *more;
  guint n_more;
  double *hint; /* n_hinges: each as it stood shortly before the end of the step that last moved it */
  CwLinkageWork *work, *card_work; /* of the newest assembly */
  double *card_rho;                /* n_hinges: scratch */
  CwPose *pose, *other;            /* scratch */
  CwRigid *bodies;                 /* n_panels: scratch */
  CwEffort effort;                 /* what is left for all questions to come */
} Walk;

static CwAssembly *
newest (const CwMotion *motion)
{
  return g_ptr_array_index (motion->assemblies, motion->assemblies->len - 1);
}

static void
push_assembly (Walk *walk)
{
  CwMotion *motion = walk->motion;
  g_autofree CwBond *bonds = g_new (CwBond, walk->bonds->len + 1);
  CwAssembly *assembly;

  for (guint i = 0; i < walk->bonds->len; i++)
    bonds[i] = g_array_index (walk->bonds, Held, i).bond;
  assembly = cw_assembly_new (motion->set, motion->held, bonds, walk->bonds->len);
  g_ptr_array_add (motion->assemblies, assembly);

  g_clear_pointer (&walk->work, cw_linkage_work_free);
  g_clear_pointer (&walk->card_work, cw_linkage_work_free);
  if (assembly->linkage)
    {
      walk->work = cw_linkage_work_new (assembly->linkage);
      walk->card_work = cw_linkage_work_new (assembly->card);
    }
}

static void
index_hinges (Walk *walk)
{
  const CwPanelSet *set = walk->motion->set;

  walk->hinges = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, (GDestroyNotify) g_array_unref);
  for (guint i = 0; i < walk->motion->n_hinges; i++)
    {
      guint piece;
      const CwHinge *hinge = cw_panel_set_get_hinge (set, i, &piece);

      for (guint k = 0; k < hinge->scores->len; k++)
        {
          char *key = g_strdup_printf ("%s/%s", set->maps[piece].piece->id,
                                       (const char *) g_ptr_array_index (hinge->scores, k));
          GArray *list = g_hash_table_lookup (walk->hinges, key);

          if (list == NULL)
            {
              list = g_array_new (FALSE, FALSE, sizeof (guint));
              g_hash_table_insert (walk->hinges, key, list);
            }
          else
            g_free (key);
          g_array_append_val (list, i);
        }
    }
}

/* The drives a fold step asks for, in the order listed, each fold line once. */
static GArray *
find_drives (Walk *walk, const CwStep *step)
{
  CwMotion *motion = walk->motion;
  GArray *drives = g_array_new (FALSE, FALSE, sizeof (CwDrive));
  g_autofree guint *seen = g_new0 (guint, motion->n_hinges + 1);

  for (guint i = 0; i < step->folds->len; i++)
    {
      const CwStepFold *fold = g_ptr_array_index (step->folds, i);
      GArray *list = fold->score ? g_hash_table_lookup (walk->hinges, fold->score) : NULL;

      for (guint k = 0; list != NULL && k < list->len; k++)
        {
          guint piece, index = g_array_index (list, guint, k);
          const CwHinge *hinge = cw_panel_set_get_hinge (motion->set, index, &piece);
          double to = isfinite (fold->to) ? CLAMP (fold->to, -180, 180) : 0;
          CwDrive drive = { index, (hinge->fold == CW_FOLD_AWAY ? -to : to) * G_PI / 180 };

          if (seen[index] == 0)
            {
              g_array_append_val (drives, drive);
              seen[index] = drives->len;
            }
          else
            {
              const CwDrive *first = &g_array_index (drives, CwDrive, seen[index] - 1);

              if (fabs (first->to_rad - drive.to_rad) * 180 / G_PI > CW_TOL_ANGLE_AGREES_DEG)
                cw_motion_tell_two_angles (motion->set, step, index, first->to_rad, drive.to_rad, motion->findings);
            }
        }
    }
  return drives;
}

static double
panel_shift (const CwPanel *panel, const CwRigid *a, const CwRigid *b)
{
  const CwRing *ring = &panel->outline.rings[0];
  double worst = 0;

  for (guint i = 0; panel->outline.n_rings > 0 && i < ring->n_points; i++)
    {
      CwVec3 p = cw_vec3 (ring->points[i].x, ring->points[i].y, 0);

      worst = MAX (worst, cw_vec3_length (cw_vec3_sub (cw_rigid_apply (a, p), cw_rigid_apply (b, p))));
    }
  return worst;
}

/* Looks at the step's motion at a few moments: nothing that moves is back where it began at all of them. */
static void
find_moves (Walk *walk, CwMotionStep *step, const double *start)
{
  static const double looks[] = { 0.25, 0.5, 0.75, 1.0 };
  CwMotion *motion = walk->motion;
  g_autofree double *rho = g_new0 (double, motion->n_hinges + 1);

  cw_motion_place (motion, newest (motion), walk->work, start, walk->bodies, walk->pose);
  for (guint k = 0; k < G_N_ELEMENTS (looks); k++)
    {
      cw_trace_get_angles (step->trace, walk->work, looks[k] * step->state.reached, rho);
      cw_motion_place (motion, newest (motion), walk->work, rho, walk->bodies, walk->other);
      for (guint i = 0; i < motion->n_panels; i++)
        if (!step->moves[i]
            && panel_shift (cw_panel_set_get_panel (motion->set, i), &walk->pose->places[i], &walk->other->places[i])
                 > CW_TOL_MOVES_TICKS)
          step->moves[i] = TRUE;
    }
}

/* Opening retraces closing: the way each fold line came is what tells the motions apart that leave a flat card. */
static void
remember_way (Walk *walk, const CwMotionStep *step)
{
  const CwMotion *motion = walk->motion;
  g_autofree double *rho = g_new0 (double, motion->n_hinges + 1);

  cw_trace_get_angles (step->trace, walk->work, HINT_FRACTION * step->state.reached, rho);
  for (guint i = 0; i < motion->n_hinges; i++)
    if (fabs (rho[i] - step->end[i]) * 180 / G_PI > CW_TOL_ANGLE_AGREES_DEG)
      walk->hint[i] = rho[i];
}

/* What one question may cost: a share of what is left, so that a hard one leaves the others their answers. */
static CwEffort
ask_for_effort (const Walk *walk)
{
  CwEffort effort = walk->effort;

  effort.left /= CW_EFFORT_QUESTIONS;
  return effort;
}

static void
take_effort (Walk *walk, const CwEffort *asked)
{
  walk->effort.left -= walk->effort.left / CW_EFFORT_QUESTIONS - asked->left;
}

/* The motion of a step that undoes the last one that moved anything; NULL if it does not. */
static CwTrace *
go_back (const CwMotion *motion, const CwMotionStep *step, const double *start, const GArray *drives)
{
  const CwAssembly *assembly = newest (motion);

  for (const CwMotionStep *before = step; before-- > motion->steps;)
    if (before->trace != NULL)
      return cw_trace_new_back (before->trace, assembly->linkage, start, (const CwDrive *) (void *) drives->data,
                                drives->len);
  return NULL;
}

static void
do_fold (Walk *walk, const CwStep *design_step, CwMotionStep *step, const double *start)
{
  CwMotion *motion = walk->motion;
  CwAssembly *assembly = newest (motion);
  g_autoptr (GArray) drives = find_drives (walk, design_step);
  const CwTraceResult *result;
  CwMotionTold told;
  CwEffort effort = ask_for_effort (walk);

  if (drives->len == 0)
    return;
  step->trace = go_back (motion, step, start, drives);
  if (step->trace == NULL)
    step->trace = cw_linkage_trace_within (assembly->linkage, start, walk->hint, (const CwDrive *) drives->data,
                                           drives->len, motion->give, &effort);
  take_effort (walk, &effort);
  result = cw_trace_get_result (step->trace);
  step->state.not_decided = result->verdict == CW_TRACE_NOT_DECIDED;
  step->state.other_way_moves = result->verdict == CW_TRACE_STOPPED && result->other_way_moves;
  step->state.reached = result->verdict == CW_TRACE_ARRIVED ? 1 : result->reached;
  cw_trace_get_angles (step->trace, walk->work, 1, step->end);
  find_moves (walk, step, start);
  remember_way (walk, step);

  told = (CwMotionTold){ .set = motion->set,
                         .assembly = assembly,
                         .work = walk->work,
                         .step = design_step,
                         .drives = (const CwDrive *) drives->data,
                         .n_drives = drives->len,
                         .result = result,
                         .end = step->end,
                         .give_ticks = motion->give };
  cw_motion_tell_trace (&told, motion->findings);
}

/* Removes the bond a piece was stuck with; FALSE if there is none. */
static gboolean
remove_stuck (GArray *bonds, guint piece)
{
  for (guint i = 0; i < bonds->len; i++)
    if (g_array_index (bonds, Held, i).piece == piece)
      {
        g_array_remove_index (bonds, i);
        return TRUE;
      }
  return FALSE;
}

/* TRUE if bonds already join the two pieces, with those the piece itself was stuck with or without them. */
static gboolean
are_joined (Walk *walk, guint piece, guint other, gboolean by_own)
{
  CwMotion *motion = walk->motion;
  g_autofree guint *group = g_new (guint, motion->set->n_pieces);
  gboolean again = TRUE;

  for (guint i = 0; i < motion->set->n_pieces; i++)
    group[i] = i;
  while (again)
    {
      again = FALSE;
      for (guint k = 0; k < walk->bonds->len; k++)
        {
          const Held *held = &g_array_index (walk->bonds, Held, k);
          guint a, b, unused;

          if (held->piece == piece && !by_own)
            continue;
          cw_panel_set_locate (motion->set, held->bond.panel_a, &a, &unused);
          cw_panel_set_locate (motion->set, held->bond.panel_b, &b, &unused);
          if (group[a] != group[b])
            {
              group[a] = group[b] = MIN (group[a], group[b]);
              again = TRUE;
            }
        }
    }
  return group[piece] == group[other];
}

static void
do_stick (Walk *walk, const CwStep *design_step, CwMotionStep *step, const double *rho)
{
  CwMotion *motion = walk->motion;
  const CwPanelSet *set = motion->set;
  guint piece = design_step->piece ? cw_design_find_piece (set->design, design_step->piece) : G_MAXUINT;
  guint host_piece = design_step->has_on && design_step->on.piece
                       ? cw_design_find_piece (set->design, design_step->on.piece)
                       : G_MAXUINT;
  Held held = { .piece = piece };
  guint laid;

  if (piece == G_MAXUINT || host_piece == G_MAXUINT)
    return;
  laid = cw_panel_set_find_laid (set, piece);
  held.bond.panel_a = cw_panel_set_find_host (set, design_step);
  if (laid >= set->maps[piece].panels->len || held.bond.panel_a == G_MAXUINT)
    return;
  held.bond.panel_b = set->first_panel[piece] + laid;
  held.bond.b_in_a = cw_step_get_placement (design_step);

  if (held.bond.panel_a == held.bond.panel_b)
    return;

  if (are_joined (walk, piece, host_piece, TRUE))
    {
      /* It hangs there already: hold it as it lies, if it lies there. If not, one that hangs there by nothing but its
       * own place is taken up and laid anew. */
      const CwRigid *a = &walk->pose->places[held.bond.panel_a], *b = &walk->pose->places[held.bond.panel_b];
      CwRigid wanted, inverse;
      double off;

      cw_motion_place (motion, newest (motion), walk->work, rho, walk->bodies, walk->pose);
      wanted = cw_rigid_compose (a, &held.bond.b_in_a);
      off = panel_shift (cw_panel_set_get_panel (set, held.bond.panel_b), &wanted, b);
      if (off <= MAX (motion->give, CW_TOL_EXACT_TICKS))
        {
          inverse = cw_rigid_inverse (a);
          held.bond.b_in_a = cw_rigid_compose (&inverse, b);
          held.bond.made_at = rho;
        }
      else if (!are_joined (walk, piece, host_piece, FALSE))
        while (remove_stuck (walk->bonds, piece))
          ;
      else
        {
          cw_motion_tell_not_there (set, design_step, held.bond.panel_a, held.bond.panel_b, off, motion->findings);
          step->state.reached = 0;
          return;
        }
    }
  g_array_append_val (walk->bonds, held);
  push_assembly (walk);
}

static void
do_take_away (Walk *walk, const CwStep *design_step)
{
  guint piece = design_step->piece ? cw_design_find_piece (walk->motion->set->design, design_step->piece) : G_MAXUINT;

  gboolean removed = FALSE;

  if (piece == G_MAXUINT)
    return;
  while (remove_stuck (walk->bonds, piece))
    removed = TRUE;
  if (removed)
    push_assembly (walk);
}

/* TRUE if a bond handed in from outside holds the panel to another of its own piece. */
static gboolean
is_held_in_itself (const Walk *walk, guint piece, guint panel)
{
  const CwPanelSet *set = walk->motion->set;

  for (guint k = 0; k < walk->bonds->len; k++)
    {
      const Held *held = &g_array_index (walk->bonds, Held, k);
      guint a, b;

      if (held->piece != G_MAXUINT || (held->bond.panel_a != panel && held->bond.panel_b != panel))
        continue;
      cw_panel_set_locate (set, held->bond.panel_a, &a, NULL);
      cw_panel_set_locate (set, held->bond.panel_b, &b, NULL);
      if (a == piece && b == piece)
        return TRUE;
    }
  return FALSE;
}

/* A piece rides on its host panel only until glue holds it: then it moves with what its bonds hold. The last one stuck
 * is let go first, so that of two pieces held by one another one still rides. */
static gboolean
drop_rides (Walk *walk)
{
  gboolean dropped = FALSE;

  for (guint k = walk->bonds->len; k > 0; k--)
    {
      const Held *held = &g_array_index (walk->bonds, Held, k - 1);
      guint host;

      if (held->piece == G_MAXUINT)
        continue;
      cw_panel_set_locate (walk->motion->set, held->bond.panel_a, &host, NULL);
      if (host == held->piece ? !is_held_in_itself (walk, host, held->bond.panel_b)
                              : !are_joined (walk, held->piece, host, FALSE))
        continue;
      g_array_remove_index (walk->bonds, k - 1);
      dropped = TRUE;
    }
  return dropped;
}

static void
add_more (Walk *walk, guint step)
{
  gboolean changed = FALSE;

  for (guint i = 0; i < walk->n_more; i++)
    {
      Held held
        = { { walk->more[i].panel_a, walk->more[i].panel_b, walk->more[i].b_in_a, walk->motion->steps[step].end },
            G_MAXUINT };

      if (walk->more[i].step != step)
        continue;
      g_array_append_val (walk->bonds, held);
      changed = TRUE;
    }
  if (walk->n_more > 0)
    changed |= drop_rides (walk);
  if (changed)
    push_assembly (walk);
}

/* Flat: every panel on the card lies in the held panel's plane, front or back up. Where a loop closes only by the
 * paper's give, a panel may stand off by as much as the paper gives. */
static gboolean
is_flat (const CwMotion *motion, const CwPose *pose, double misfit)
{
  double most = misfit > 0 ? MAX (motion->give, CW_TOL_FLAT_TICKS) : CW_TOL_FLAT_TICKS;

  for (guint i = 0; i < motion->n_panels; i++)
    {
      const CwPanel *panel = cw_panel_set_get_panel (motion->set, i);

      if (!pose->present[i] || panel->outline.n_rings == 0)
        continue;
      for (guint k = 0; k < panel->outline.rings[0].n_points; k++)
        {
          CwPoint p = panel->outline.rings[0].points[k];

          if (fabs (cw_rigid_apply (&pose->places[i], cw_vec3 (p.x, p.y, 0)).z) > most)
            return FALSE;
        }
    }
  return TRUE;
}

/* The last step that ended as this one does: the card as it was, at the same angles; NULL if there is none. */
static const CwMotionStep *
find_same (const CwMotion *motion, const CwMotionStep *step, const double *rho)
{
  const CwAssembly *assembly = g_ptr_array_index (motion->assemblies, step->after);

  for (const CwMotionStep *other = step; other-- > motion->steps;)
    {
      const CwAssembly *then = g_ptr_array_index (motion->assemblies, other->after);
      gboolean same = then->n_card_joints == assembly->n_card_joints && cw_linkage_is_same (then->card, assembly->card);

      for (guint i = 0; same && i < assembly->n_card_joints; i++)
        {
          double before = other->end[then->card_hinges ? then->card_hinges[i] : i];

          same = memcmp (&before, &rho[i], sizeof (double)) == 0;
        }
      if (same)
        return other;
    }
  return NULL;
}

static void
find_state (Walk *walk, const CwStep *design_step, CwMotionStep *step)
{
  CwMotion *motion = walk->motion;
  CwAssembly *assembly = newest (motion);
  CwMotionState *state = &step->state;
  const CwMotionStep *same;
  const double *rho = step->end;
  guint where;

  if (assembly->linkage == NULL)
    {
      state->flat = TRUE;
      return;
    }
  cw_motion_place (motion, assembly, walk->work, rho, walk->bodies, walk->pose);
  if (assembly->card_hinges)
    {
      for (guint i = 0; i < assembly->n_card_joints; i++)
        walk->card_rho[i] = rho[assembly->card_hinges[i]];
      rho = walk->card_rho;
    }
  state->residual = cw_linkage_misfit (assembly->card, walk->card_work, rho, &where);
  state->misfit_ticks = state->residual > CW_TOL_CLOSED * cw_panel_set_get_size (motion->set) ? state->residual : 0;
  state->flat = is_flat (motion, walk->pose, state->misfit_ticks);
  state->n_bodies = assembly->n_card_bodies;
  state->n_loops = cw_linkage_get_n_loops (assembly->card);
  same = find_same (motion, step, rho);
  if (same != NULL)
    {
      state->freedom = same->state.freedom;
      state->freedom_first_order = same->state.freedom_first_order;
      state->not_decided |= same->freedom_not_decided;
      step->freedom_not_decided = same->freedom_not_decided;
    }
  else
    {
      CwEffort effort = ask_for_effort (walk);

      state->freedom
        = cw_linkage_freedom_within (assembly->card, rho, motion->give, &state->freedom_first_order, &effort);
      take_effort (walk, &effort);
      if (effort.out)
        {
          state->not_decided = step->freedom_not_decided = TRUE;
          cw_motion_tell_not_free (motion->set, assembly, design_step, motion->findings);
        }
    }
}

static void
walk_step (Walk *walk, guint index)
{
  CwMotion *motion = walk->motion;
  const CwStep *design_step = g_ptr_array_index (motion->set->design->steps, index);
  const double *start = cw_motion_angles_before (motion, index);
  CwMotionStep *step = &motion->steps[index];

  step->state.reached = 1;
  step->end = g_new0 (double, motion->n_hinges + 1);
  step->moves = g_new0 (gboolean, motion->n_panels + 1);
  memcpy (step->end, start, motion->n_hinges * sizeof (double));
  step->before = motion->assemblies->len - 1;

  switch (design_step->what)
    {
    case CW_DO_FOLD:
      do_fold (walk, design_step, step, start);
      break;
    case CW_DO_STICK:
      do_stick (walk, design_step, step, start);
      break;
    case CW_DO_TAKE_AWAY:
      do_take_away (walk, design_step);
      break;
    case CW_DO_CUT:
    case CW_DO_SCORE:
    case CW_DO_GLUE:
    case CW_DO_RUB:
    case CW_DO_TURN_OVER:
    case CW_DO_DECORATE:
    default:
      break;
    }
  add_more (walk, index);
  step->after = motion->assemblies->len - 1;
  find_state (walk, design_step, step);
}

/* The panel that stays still: of the ground piece, else of the first piece that has one. */
static guint
find_held (const CwPanelSet *set)
{
  const CwPiece *ground = cw_design_get_ground (set->design);

  for (guint i = 0; i < set->n_pieces; i++)
    if (set->maps[i].piece == ground)
      {
        guint panel = cw_panel_map_find_hold (&set->maps[i]);

        if (panel < set->maps[i].panels->len)
          return set->first_panel[i] + panel;
      }
  return cw_panel_set_n_panels (set) > 0 ? 0 : G_MAXUINT;
}

/**
 * cw_motion_new:
 * @set: (transfer none): the panels of a design; referenced
 * @more: (array length=n_more) (nullable): bonds other than those of stick steps
 * @n_more: how many
 *
 * Plays all steps. What there is to say about them is kept (cw_motion_get_findings()).
 *
 * Returns: (transfer full): the design's motion
 */
CwMotion *
cw_motion_new (CwPanelSet *set, const CwFixed *more, guint n_more)
{
  return cw_motion_new_cancellable (set, more, n_more, NULL);
}

/**
 * cw_motion_new_cancellable:
 * @set: (transfer none): the panels of a design; referenced
 * @more: (array length=n_more) (nullable): bonds other than those of stick steps
 * @n_more: how many
 * @cancellable: (nullable): asked between units of work
 *
 * Returns: (transfer full) (nullable): the design's motion; %NULL when cancelled
 */
CwMotion *
cw_motion_new_cancellable (CwPanelSet *set, const CwFixed *more, guint n_more, GCancellable *cancellable)
{
  CwMotion *motion;
  Walk walk = { 0 };

  g_return_val_if_fail (set != NULL && (more != NULL || n_more == 0), NULL);

  motion = g_atomic_rc_box_new0 (CwMotion);
  motion->set = cw_panel_set_ref (set);
  motion->held = find_held (set);
  motion->n_panels = cw_panel_set_n_panels (set);
  motion->n_hinges = cw_panel_set_n_hinges (set);
  motion->n_steps = set->design->steps->len;
  motion->steps = g_new0 (CwMotionStep, motion->n_steps + 1);
  motion->flat = g_new0 (double, motion->n_hinges + 1);
  motion->assemblies = g_ptr_array_new_with_free_func ((GDestroyNotify) cw_assembly_unref);
  motion->findings = g_ptr_array_new_with_free_func ((GDestroyNotify) cw_finding_free);
  motion->give = set->design->head && set->design->head->has_give ? MAX (0, set->design->head->give.ticks) : 0;

  walk.motion = motion;
  walk.effort = (CwEffort){ .left = CW_EFFORT_MOTION, .stop = cancellable };
  walk.more = more;
  walk.n_more = n_more;
  walk.bonds = g_array_new (FALSE, FALSE, sizeof (Held));
  walk.hint = g_new0 (double, motion->n_hinges + 1);
  walk.card_rho = g_new0 (double, motion->n_hinges + 1);
  walk.bodies = g_new0 (CwRigid, motion->n_panels + 1);
  walk.pose = cw_pose_new (motion);
  walk.other = cw_pose_new (motion);
  index_hinges (&walk);
  push_assembly (&walk);
  motion->start = (CwMotionState){ .reached = 1, .flat = TRUE, .n_bodies = newest (motion)->n_card_bodies };
  if (newest (motion)->card)
    motion->start.n_loops = cw_linkage_get_n_loops (newest (motion)->card);
  for (guint i = 0; i < motion->n_steps && !g_cancellable_is_cancelled (cancellable); i++)
    walk_step (&walk, i);

  motion->effort = CW_EFFORT_MOTION - walk.effort.left;
  g_clear_pointer (&walk.work, cw_linkage_work_free);
  g_clear_pointer (&walk.card_work, cw_linkage_work_free);
  g_hash_table_unref (walk.hinges);
  g_array_unref (walk.bonds);
  g_free (walk.hint);
  g_free (walk.card_rho);
  g_free (walk.bodies);
  cw_pose_free (walk.pose);
  cw_pose_free (walk.other);
  if (g_cancellable_is_cancelled (cancellable))
    g_clear_pointer (&motion, cw_motion_unref);
  return motion;
}
