/* cw-collision.c: goes through all steps and all pairs of panels that come near one another, and keeps what is needed
 * to tell on which side panels that begin a step face to face had been.
 *
 * What may meet is asked of a tree (cw-collision-near.c) span by span; what does, of cw-collision-pair.c. In the first
 * and last degree of a step everything that folds flat meets everything: in piles of more than CW_COLLISION_STACK_MOST
 * panels only pairs are looked at there that neither's plane keeps apart just inside of it.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "contact/cw-collision-private.h"

#include "geometry/cw-tolerance.h"

/* A pair that may meet in a span. */
typedef struct
{
  guint a, b, span;
} Near;

/* What a step gone through tells about sides. */
typedef struct
{
  CwPose *late;   /* NULL: nothing moved. Else just before the end; of a step that sticks: what it lays down, lifted */
  gboolean stuck; /* the step laid something on something */
  guint host;
  gboolean tucked;
} Passed;

typedef struct
{
  CwMotion *motion;
  const CwFlatStates *states; /* nullable */
  const CwPanelSet *set;
  guint n_panels;
  CwCollisionSheet **sheets[2]; /* n_panels: less one hair, and less two; made when first asked for */
  gint32 hair;
  double touch;   /* ticks: nearer than this is in contact */
  double misfit;  /* ticks: the most any loop misses closing by where a step ends */
  double off;     /* ticks: how far the loops of the step looked at are off */
  GArray *passed; /* of Passed, one per step gone through */
} Search;

/* What hangs together within a step is what did at the end of the one before (cw_motion_get_group()). */
static guint
within (guint step)
{
  return step > 0 ? step - 1 : G_MAXUINT;
}

static int
compare_near (gconstpointer a, gconstpointer b)
{
  const Near *x = a, *y = b;

  if (x->a != y->a)
    return x->a < y->a ? -1 : 1;
  if (x->b != y->b)
    return x->b < y->b ? -1 : 1;
  return x->span < y->span ? -1 : x->span > y->span;
}

static int
compare_collisions (gconstpointer a, gconstpointer b)
{
  const CwCollision *x = a, *y = b;
  /* What happens at one moment must not be ordered by rounding. */
  long long at_x = llround (x->fraction / CW_COLLISION_SAME_MOMENT),
            at_y = llround (y->fraction / CW_COLLISION_SAME_MOMENT);

  if (x->step != y->step)
    return x->step < y->step ? -1 : 1;
  if (at_x != at_y)
    return at_x < at_y ? -1 : 1;
  if (x->panel_a != y->panel_a)
    return x->panel_a < y->panel_a ? -1 : 1;
  return x->panel_b < y->panel_b ? -1 : x->panel_b > y->panel_b;
}

static const CwCollisionSheet *
get_sheet (Search *search, guint panel, guint hairs)
{
  CwCollisionSheet **sheet = &search->sheets[hairs - 1][panel];

  if (*sheet == NULL)
    *sheet = cw_collision_sheet_new (search->set, panel, (gint32) hairs * search->hair);
  return *sheet;
}

/* A moment that tells on which side the pair's panels are: just before the end of the last step in which they moved to
 * one another, or the sticking that brought them together. NULL if there is none. */
static const CwPose *
find_before (const Search *search, const CwPose *start, guint a, guint b)
{
  for (guint step = search->passed->len; step-- > 0;)
    {
      const Passed *passed = &g_array_index (search->passed, Passed, step);

      if (cw_motion_get_group (search->motion, within (step), a)
          != cw_motion_get_group (search->motion, within (step), b))
        /* A tucked piece lies right against its host, under what else lies there. */
        return passed->stuck && (!passed->tucked || a == passed->host || b == passed->host) ? passed->late : NULL;
      if (passed->late != NULL && !passed->stuck && cw_pair_moved (passed->late, start, a, b))
        return passed->late;
    }
  return NULL;
}

/* What a step lays down, lifted off the face it is laid on. */
static void
lift_laid (Search *search, CwMotionWork *work, guint step, Passed *passed)
{
  const CwStep *s = g_ptr_array_index (search->set->design->steps, step);
  guint piece = s->piece ? cw_design_find_piece (search->set->design, s->piece) : G_MAXUINT, group;
  guint host = cw_panel_set_find_host (search->set, s);
  CwVec3 lift;

  if (s->what != CW_DO_STICK || piece == G_MAXUINT || host == G_MAXUINT || search->set->maps[piece].panels->len == 0)
    return;
  passed->host = host;
  passed->stuck = TRUE;
  passed->tucked = s->tucked;
  passed->late = cw_pose_new (search->motion);
  cw_motion_get_pose (search->motion, work, step, 1, passed->late);
  lift = cw_vec3 (0, 0, (s->on_face == CW_FACE_FRONT ? -1 : 1) * CW_COLLISION_LIFT_BANDS * search->touch);
  lift = cw_rigid_turn (&passed->late->places[passed->host], lift);
  group = cw_motion_get_group (search->motion, within (step), search->set->first_panel[piece]);
  for (guint i = 0; i < search->n_panels; i++)
    if (cw_motion_get_group (search->motion, within (step), i) == group)
      passed->late->places[i].t = cw_vec3_add (passed->late->places[i].t, lift);
}

/* Appends the pairs that may move to one another, for the spans from `first` to before `end`. */
static void
add_near (const Search *search, guint step, const GArray *pairs, guint first, guint end, GArray *all)
{
  for (guint k = 0; k < pairs->len; k++)
    {
      const CwNearPair *pair = &g_array_index (pairs, CwNearPair, k);

      if (cw_motion_get_group (search->motion, within (step), pair->a)
            != cw_motion_get_group (search->motion, within (step), pair->b)
          || cw_motion_get_body (search->motion, within (step), pair->a)
               == cw_motion_get_body (search->motion, within (step), pair->b))
        continue;
      for (guint span = first; span < end; span++)
        {
          Near near = { pair->a, pair->b, span };

          g_array_append_val (all, near);
        }
    }
}

/* How far the loops of a step miss closing where it ends, in ticks. Where it stops on its way the paper has given all
 * it can, whatever it did before: there the half way to the stop is asked instead. */
static double
end_misfit (const Search *search, CwMotionWork *work, guint step)
{
  const CwMotionState *state = cw_motion_get_state (search->motion, step);

  if (state->reached < 1 && state->reached > 0 && !state->flat)
    return cw_motion_get_misfit (search->motion, work, step, state->reached / 2);
  return state->misfit_ticks;
}

/* How far the loops of a step are off where it begins and ends, in ticks; 0: they close exactly, like those cut from
 * one sheet on whole ticks, and then near flat they turn as paper does, too. */
static double
loops_off (const Search *search, CwMotionWork *work, guint step)
{
  double off;

  if (cw_motion_get_state (search->motion, step)->n_loops == 0)
    return 0;
  off = end_misfit (search, work, step);
  if (step > 0)
    off = MAX (off, end_misfit (search, work, step - 1));
  return off > 0 ? MAX (off, CW_TOL_EXACT_TICKS) : 0;
}

/* How far a loop may carry paper astray near flat, in ticks. There a loop whose bars are a little off turns its hinges
 * by the square root of that: bars of length l off by e, by sqrt (2 e / l), which moves a corner at l by sqrt (2 e l).
 */
static double
loop_blur (const Search *search, guint a, guint b)
{
  const guint panels[2] = { a, b };
  double reach = 0;

  for (guint i = 0; i < 2; i++)
    {
      const CwPanel *panel = cw_panel_set_get_panel (search->set, panels[i]);

      reach = MAX (reach,
                   hypot (panel->box_max.x - (double) panel->box_min.x, panel->box_max.y - (double) panel->box_min.y));
    }
  return CW_COLLISION_BLUR_SHARE * sqrt (2 * search->off * reach);
}

/* How near to flat a loop's hinges turn as rounding has them and not as paper does: where the turn that is left, times
 * its length, is no more than what the loop misses closing by over that turn, so at the square root of the one by the
 * other. */
static double
loop_blur_turn (const Search *search, guint a, guint b)
{
  const guint panels[2] = { a, b };
  double reach = G_MAXDOUBLE;

  for (guint i = 0; i < 2; i++)
    {
      const CwPanel *panel = cw_panel_set_get_panel (search->set, panels[i]);

      reach = MIN (reach,
                   hypot (panel->box_max.x - (double) panel->box_min.x, panel->box_max.y - (double) panel->box_min.y));
    }
  return CW_COLLISION_BLUR_TURNS * sqrt (2 * search->off / MAX (reach, 1));
}

/* All pairs that may meet in each span. */
static GArray *
list_near (Search *search, const CwLooks *looks, CwNearTree *tree, GCancellable *cancellable)
{
  GArray *all = g_array_new (FALSE, FALSE, sizeof (Near));
  g_autoptr (GArray) pairs = g_array_new (FALSE, FALSE, sizeof (CwNearPair));
  const CwSpan *opening = g_ptr_array_index (looks->spans, looks->n_early);
  double band = search->touch;
  gboolean pile = search->n_panels > CW_COLLISION_STACK_MOST;
  guint end = pile ? looks->n_late_first : looks->spans->len;

  for (guint i = 0; search->off > 0 && i < search->n_panels; i++)
    band = MAX (band, loop_blur (search, i, i));
  /* What begins face to face may go through at once and be clear of it within the degree. */
  cw_near_tree_find (tree, opening, band, pile, pairs);
  add_near (search, looks->step, pairs, 0, looks->n_early, all);
  for (guint i = looks->n_early; i < end && !g_cancellable_is_cancelled (cancellable); i++)
    {
      g_array_set_size (pairs, 0);
      cw_near_tree_find (tree, g_ptr_array_index (looks->spans, i), band, TRUE, pairs);
      add_near (search, looks->step, pairs, i, i + 1 == end ? looks->spans->len : i + 1, all);
    }
  g_array_sort (all, compare_near);
  return all;
}

/* The pair's stretch of `all` from `i` to before `end`, the first panel less so many hairs, the second less the other
 * number: different ones, so that edges of like panels do not fall together when they meet. */
static gboolean
follow_stretch (Search *search, CwLooks *looks, CwPairWork *work, const GArray *all, guint i, guint end, guint hairs,
                CwCollision *collision)
{
  const Near *first = &g_array_index (all, Near, i);
  gboolean loops = cw_motion_get_state (search->motion, looks->step)->n_loops > 0;
  CwPairAsk ask = { .looks = looks,
                    .a = first->a,
                    .b = first->b,
                    .sheet_a = get_sheet (search, first->a, hairs),
                    .sheet_b = get_sheet (search, first->b, 3 - hairs),
                    .touch = search->touch,
                    .band = loops ? search->touch : CW_COLLISION_BAND_EXACT_TICKS,
                    .clear = loops ? search->touch / 4 : CW_COLLISION_BAND_EXACT_TICKS };
  guint expected = 0;

  if (ask.sheet_a->n_corners == 0 || ask.sheet_b->n_corners == 0)
    return FALSE;
  if (first->span == 0)
    ask.before = find_before (search, looks->ends[0], first->a, first->b);
  /* Near flat a loop that is off blurs also what the order of layers was read from. */
  if (search->off > 0)
    {
      ask.band = ask.clear = MAX (search->touch, loop_blur (search, first->a, first->b));
      ask.blur_turn = loop_blur_turn (search, first->a, first->b);
    }
  else if (search->states != NULL && first->span == 0)
    ask.front_side = cw_flat_states_side (search->states, within (looks->step), first->b, first->a);
  cw_pair_begin (work, &ask);
  for (; i < end; i++)
    {
      guint span = g_array_index (all, Near, i).span;

      if (cw_pair_follow (work, g_ptr_array_index (looks->spans, span), span != expected, collision))
        return TRUE;
      expected = span + 1;
    }
  return FALSE;
}

/* The pair's stretch of `all` from `i`. Returns where the next pair begins. The smaller sheet is less two hairs. Of
 * sheets as large as one another either may be: what goes through both ways does so however the card is drawn, at the
 * moment at which it does both ways. */
static guint
follow_pair (Search *search, CwLooks *looks, CwPairWork *work, const GArray *all, guint i, GArray *collisions)
{
  const Near *first = &g_array_index (all, Near, i);
  double area_a = (double) cw_panel_set_get_panel (search->set, first->a)->area2;
  double area_b = (double) cw_panel_set_get_panel (search->set, first->b)->area2;
  guint hairs = area_a <= area_b ? 2 : 1, end = i + 1;
  CwCollision collision, other;
  gboolean found;

  while (end < all->len && g_array_index (all, Near, end).a == first->a && g_array_index (all, Near, end).b == first->b)
    end++;
  found = follow_stretch (search, looks, work, all, i, end, hairs, &collision);
  if (found && fabs (area_a - area_b) <= CW_COLLISION_LIKE_SHARE * area_a)
    {
      found = follow_stretch (search, looks, work, all, i, end, 3 - hairs, &other);
      if (found && other.fraction > collision.fraction)
        collision = other;
    }
  if (found)
    g_array_append_val (collisions, collision);
  return end;
}

static void
search_step (Search *search, CwMotionWork *work, CwNearTree *tree, guint step, GArray *collisions,
             GCancellable *cancellable)
{
  g_autoptr (CwLooks) looks = cw_looks_new (search->motion, work, step);
  Passed passed = { 0 };

  search->off = loops_off (search, work, step);
  if (looks->moves)
    {
      g_autoptr (CwPairWork) pair_work = cw_pair_work_new ();
      g_autoptr (GArray) all = list_near (search, looks, tree, cancellable);

      for (guint i = 0; i < all->len && !g_cancellable_is_cancelled (cancellable);)
        i = follow_pair (search, looks, pair_work, all, i, collisions);
    }
  if (looks->moves)
    passed.late = cw_pose_copy (cw_looks_get_late (looks));
  else
    lift_laid (search, work, step, &passed);
  g_array_append_val (search->passed, passed);
}

static void
clear_passed (gpointer passed)
{
  cw_pose_free (((Passed *) passed)->late);
}

/**
 * cw_collisions_find:
 * @motion: a motion
 * @states: (nullable): the flat states of @motion
 * @cancellable: (nullable): may stop the search between two pairs
 *
 * A collision does not stop the motion: later steps go on from where this one ends.
 *
 * Returns: (transfer full) (element-type CwCollision): the first collision of every pair of panels in every step, in
 * the order of steps, fractions and panels
 */
GArray *
cw_collisions_find (CwMotion *motion, const CwFlatStates *states, GCancellable *cancellable)
{
  GArray *collisions = g_array_new (FALSE, FALSE, sizeof (CwCollision));
  Search search = { .motion = motion, .states = states };
  g_autoptr (CwMotionWork) work = NULL;
  g_autoptr (CwNearTree) tree = NULL;

  g_return_val_if_fail (motion != NULL, collisions);

  search.set = cw_motion_get_set (motion);
  search.n_panels = cw_panel_set_n_panels (search.set);
  if (search.n_panels < 2)
    return collisions;
  work = cw_motion_work_new (motion);
  tree = cw_near_tree_new (search.set);
  for (guint i = 0; i < cw_motion_get_n_steps (motion); i++)
    search.misfit = MAX (search.misfit, end_misfit (&search, work, i));
  search.hair = CW_COLLISION_HAIR_TICKS + (gint32) ceil (CW_COLLISION_GIVE_SHARE * search.misfit);
  search.touch = CW_COLLISION_BAND_TICKS + CW_COLLISION_GIVE_SHARE * search.misfit;
  search.passed = g_array_new (FALSE, FALSE, sizeof (Passed));
  g_array_set_clear_func (search.passed, clear_passed);
  for (guint h = 0; h < 2; h++)
    search.sheets[h] = g_new0 (CwCollisionSheet *, search.n_panels);
  for (guint i = 0; i < cw_motion_get_n_steps (motion) && !g_cancellable_is_cancelled (cancellable); i++)
    search_step (&search, work, tree, i, collisions, cancellable);
  g_array_sort (collisions, compare_collisions);

  for (guint h = 0; h < 2; h++)
    {
      for (guint i = 0; i < search.n_panels; i++)
        cw_collision_sheet_free (search.sheets[h][i]);
      g_free (search.sheets[h]);
    }
  g_array_unref (search.passed);
  return collisions;
}
