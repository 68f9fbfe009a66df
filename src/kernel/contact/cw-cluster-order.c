/* cw-cluster-order.c: puts the panels over every cell in order, from the motion that brought them there.
 *
 * Panels that lay in one plane before the step and moved as one keep the order they had, turned over with them. Such
 * groups are put in order by their heights over the plane just before the step's end, so near that no panel is tilted
 * by more than CW_STACK_TILT. What a step sticks on lies outermost on the face it is stuck to; what it tucks lies right
 * against its host. Equal heights are left open, and told so. One sort a cell: a tall stack costs no more than sorting.
 * Where paper cannot lie in the order so read, heights that only a loop's rounding or give may have made are left open
 * too.
 *
 * Over 500 lines because what a step moves, sticks on and tucks in are readings of one cell's order.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "contact/cw-cluster.h"

#include "geometry/cw-tolerance.h"

/* Members that keep their order among themselves. */
typedef struct
{
  guint former;  /* the cluster they lay in before the step */
  CwRigid moved; /* that cluster's plane to the present one */
  CwRigid rise;  /* the present plane to where it was just before the end */
  int outer;     /* -1 stuck on from the side of -z, +1 from the other side, 0 was here */
} Kin;

/* What is known about the step. */
typedef struct
{
  const CwClusters *before;
  CwPose *near_end; /* NULL when nothing turned */
  double same;      /* heights nearer than this are equal, ticks */
  double blur;      /* heights nearer than this may be what a loop's misfit makes of equal ones, ticks */
  double size;
  const CwStep *stick;    /* NULL unless something was laid on something */
  guint laid_panel, host; /* of a stick */
  guint laid_group;       /* of what was laid on, before the step */
} Telling;

static gboolean
same_place (const CwRigid *a, const CwRigid *b, double size)
{
  const CwVec3 at[3] = { { 0, 0, 0 }, { size, 0, 0 }, { 0, size, 0 } };

  for (int i = 0; i < 3; i++)
    {
      CwVec3 apart = cw_vec3_sub (cw_rigid_apply (a, at[i]), cw_rigid_apply (b, at[i]));

      if (cw_vec3_length (apart) > CW_TOL_SAME_PLACE_TICKS)
        return FALSE;
    }
  return TRUE;
}

static gboolean
same_height (const CwRigid *a, const CwRigid *b, double size, double same)
{
  const CwVec3 at[3] = { { 0, 0, 0 }, { size, 0, 0 }, { 0, size, 0 } };

  for (int i = 0; i < 3; i++)
    if (fabs (cw_rigid_apply (a, at[i]).z - cw_rigid_apply (b, at[i]).z) > same)
      return FALSE;
  return TRUE;
}

/* How far apart the normals of two placements are, as a sine; 1 from a right angle on. */
static double
tilt_between (const CwRigid *a, const CwRigid *b)
{
  CwVec3 na = cw_vec3 (a->r[0][2], a->r[1][2], a->r[2][2]), nb = cw_vec3 (b->r[0][2], b->r[1][2], b->r[2][2]);

  return cw_vec3_dot (na, nb) <= 0 ? 1 : cw_vec3_length (cw_vec3_cross (na, nb));
}

static double
widest_tilt (const CwPose *a, const CwPose *b)
{
  double widest = 0;

  for (guint i = 0; i < a->n_panels; i++)
    widest = MAX (widest, tilt_between (&a->places[i], &b->places[i]));
  return widest;
}

/* The moment just before the end; NULL when the step turns nothing. */
static CwPose *
look_before_end (const CwMotion *motion, CwMotionWork *work, guint step, const CwPose *end, double size, double *same)
{
  const CwMotionState *state = cw_motion_get_state (motion, step);
  double wanted = CLAMP (32 * state->misfit_ticks / size, CW_STACK_TILT, 30 * CW_STACK_TILT);
  double left = 1, tilt = 0;
  gboolean moves = FALSE;
  CwPose *pose;

  for (guint i = 0; i < end->n_panels && !moves; i++)
    moves = cw_motion_step_moves (motion, step, i);
  if (!moves)
    return NULL;
  pose = cw_pose_new (motion);
  for (guint k = 0; k < CW_STACK_TRIES; k++)
    {
      double share = tilt > 0 ? CLAMP (wanted / tilt, 0.1, 0.9) : 0.5, former = tilt;

      left *= share;
      cw_motion_get_pose (motion, work, step, MIN (state->reached, 1) * (1 - left), pose);
      tilt = widest_tilt (pose, end);
      /* A loop that rounding keeps from closing comes no nearer: a turn falls at least as the root of what is left. */
      if (tilt <= wanted || (former > 0 && tilt > former * (1 + share) / 2))
        break;
    }
  *same = CW_TOL_STACK_TICKS * MAX (tilt, CW_TOL_RIGHT_ANGLE);
  if (tilt > 0)
    return pose;
  cw_pose_free (pose);
  return NULL;
}

/* --- One cluster -------------------------------------------------------------------------------------------------- */

/* Kin by the height of their planes' origin, in bins two heights wide that count as the same: those of one height lie
 * in one bin or in neighbours. */
typedef struct
{
  GHashTable *last; /* bin to the last kin in it, from 1 */
  GArray *before;   /* of guint: of every kin the one before it in its bin, from 1; 0: none */
  double width;
} Bins;

static gint64
bin_of (const Bins *bins, const Kin *kin)
{
  return (gint64) floor (kin->rise.t.z / bins->width);
}

/* The first of all that this one is kin to; how many there are if none. */
static guint
find_like (const GArray *all, const Bins *bins, const Kin *kin, const Telling *telling)
{
  guint found = all->len;

  for (int step = -1; step <= 1; step++)
    {
      gint64 bin = bin_of (bins, kin) + step;

      for (guint at = GPOINTER_TO_UINT (g_hash_table_lookup (bins->last, &bin)); at > 0;
           at = g_array_index (bins->before, guint, at - 1))
        {
          const Kin *other = &g_array_index (all, Kin, at - 1);

          if (at - 1 < found && other->former == kin->former
              && same_height (&other->rise, &kin->rise, telling->size, telling->same)
              && same_place (&other->moved, &kin->moved, telling->size))
            found = at - 1;
        }
    }
  return found;
}

static void
add_kin (GArray *all, Bins *bins, const Kin *kin)
{
  gint64 bin = bin_of (bins, kin);
  guint before = GPOINTER_TO_UINT (g_hash_table_lookup (bins->last, &bin));

  g_array_append_val (bins->before, before);
  g_array_append_val (all, *kin);
  g_hash_table_replace (bins->last, g_memdup2 (&bin, sizeof bin), GUINT_TO_POINTER (all->len));
}

static GArray *
find_kin (const CwCluster *cluster, const Telling *telling, guint *kin_of)
{
  GArray *all = g_array_new (FALSE, FALSE, sizeof (Kin));
  Bins bins = { g_hash_table_new_full (g_int64_hash, g_int64_equal, g_free, NULL), /* only looked up */
                g_array_new (FALSE, FALSE, sizeof (guint)), MAX (2 * telling->same, CW_TOL_STACK_TICKS) };
  CwRigid frame = cw_rigid_identity ();

  if (telling->near_end)
    frame = cw_rigid_inverse (&telling->near_end->places[cluster->panels[0]]);
  for (guint i = 0; i < cluster->n_panels; i++)
    {
      guint panel = cluster->panels[i];
      Kin kin = { telling->before->cluster_of[panel], cw_rigid_identity (), cw_rigid_identity (), 0 };
      const CwCluster *former = &telling->before->clusters[kin.former];
      CwRigid back = cw_rigid_inverse (&former->laid[telling->before->member_of[panel]].place);

      kin.moved = cw_rigid_compose (&cluster->laid[i].place, &back);
      if (telling->near_end)
        {
          CwRigid flat = cw_rigid_inverse (&cluster->laid[i].place);
          CwRigid stood = cw_rigid_compose (&frame, &telling->near_end->places[panel]);

          kin.rise = cw_rigid_compose (&stood, &flat);
        }
      kin_of[i] = find_like (all, &bins, &kin, telling);
      if (kin_of[i] == all->len)
        add_kin (all, &bins, &kin);
    }
  g_hash_table_unref (bins.last);
  g_array_unref (bins.before);
  return all;
}

/* What was stuck on lies outermost on the side its host's face looks to. */
static void
find_outer (const CwCluster *cluster, const CwClusters *now, const Telling *telling, GArray *all, const guint *kin_of)
{
  gboolean host_turned, up;
  guint laid;

  if (telling->stick == NULL || now->cluster_of[telling->host] != now->cluster_of[cluster->panels[0]]
      || now->cluster_of[telling->laid_panel] != now->cluster_of[telling->host])
    return;
  host_turned = cw_laid_is_turned (&cluster->laid[now->member_of[telling->host]]);
  up = (telling->stick->on_face == CW_FACE_FRONT) != host_turned;
  laid = kin_of[now->member_of[telling->laid_panel]];
  for (guint i = 0; i < all->len; i++)
    {
      Kin *kin = &g_array_index (all, Kin, i);

      if (i == laid
          || (telling->laid_group != G_MAXUINT && telling->before->clusters[kin->former].group == telling->laid_group))
        kin->outer = up ? -1 : 1;
    }
}

typedef struct
{
  guint member, kin;
  int outer;
  double height;
} Standing;

static int
compare_standings (const void *one, const void *two)
{
  const Standing *a = one, *b = two;

  if (a->outer != b->outer)
    return a->outer < b->outer ? -1 : 1;
  if (a->height < b->height || a->height > b->height)
    return a->height < b->height ? -1 : 1;
  if (a->kin != b->kin)
    return a->kin < b->kin ? -1 : 1;
  return a->member < b->member ? -1 : a->member > b->member;
}

static void
leave_open (GArray *open, guint a, guint b)
{
  CwPair pair = { MIN (a, b), MAX (a, b) };

  g_array_append_val (open, pair);
}

/* The cell in which all stamped members lay that is nearest to a place; G_MAXUINT where they lay nowhere together. */
static guint
find_together (const CwPile *pile, const guint *stamp, guint n, CwVec3 place)
{
  guint best = G_MAXUINT;
  double nearest = G_MAXDOUBLE;

  for (guint i = 0; i < pile->cells->len; i++)
    {
      const CwPileCell *cell = &g_array_index (pile->cells, CwPileCell, i);
      double far = hypot (cell->inside.x - place.x, cell->inside.y - place.y);
      guint found = 0;

      for (guint k = 0; far < nearest && k < cell->n_members; k++)
        found += stamp[cell->members[k]] > 0;
      if (found == n)
        {
          best = i;
          nearest = far;
        }
    }
  return best;
}

static guint
count_stamped (const CwPile *pile, guint where, const guint *stamp)
{
  const CwPileCell *cell = where != G_MAXUINT ? &g_array_index (pile->cells, CwPileCell, where) : NULL;
  guint found = 0;

  for (guint k = 0; cell != NULL && k < cell->n_members; k++)
    found += stamp[cell->members[k]] > 0;
  return found;
}

/* Puts members of one kin, `stack[0..n]`, in the order in which they lay before. */
static void
keep_order (CwCluster *cluster, const Kin *kin, const Telling *telling, CwPoint inside, Standing *stack, guint n,
            guint *stamp)
{
  const CwClusters *before = telling->before;
  const CwCluster *former = &before->clusters[kin->former];
  CwRigid back = cw_rigid_inverse (&kin->moved);
  CwVec3 was = cw_rigid_apply (&back, cw_vec3 (inside.x, inside.y, 0));
  g_autofree Standing *sorted = g_new (Standing, n);
  guint where = former->pile ? cw_pile_find_cell (former->pile, was.x, was.y) : G_MAXUINT, found = 0;

  for (guint i = 0; i < n; i++)
    stamp[before->member_of[cluster->panels[stack[i].member]]] = i + 1;
  /* The place may fall on the line where other sheets met, and so into a gap or a sliver of rounding. */
  if (former->pile && count_stamped (former->pile, where, stamp) < n)
    {
      guint together = find_together (former->pile, stamp, n, was);

      where = together != G_MAXUINT ? together : where;
    }
  if (where != G_MAXUINT)
    {
      const CwPileCell *cell = &g_array_index (former->pile->cells, CwPileCell, where);
      gboolean turned = kin->moved.r[2][2] < 0;

      for (guint k = 0; k < cell->n_members; k++)
        {
          guint own = stamp[cell->members[turned ? cell->n_members - 1 - k : k]];

          if (own > 0)
            sorted[found++] = stack[own - 1];
        }
    }
  for (guint i = 0; i < found; i++)
    stamp[before->member_of[cluster->panels[sorted[i].member]]] = 0;
  /* Lay nowhere together: only rounding can bring them onto one another. */
  for (guint i = 0; i < n; i++)
    {
      guint *own = &stamp[before->member_of[cluster->panels[stack[i].member]]];

      if (*own == 0)
        continue;
      *own = 0;
      for (guint k = 0; k < found; k++)
        leave_open (cluster->open, stack[i].member, sorted[k].member);
      sorted[found++] = stack[i];
    }
  memcpy (stack, sorted, n * sizeof (Standing));
}

/* Where a tucked layer belongs in `stack[0..n]` of what was there: right against its host, on the side `outer`. */
static guint
find_pocket (const CwCluster *cluster, const CwClusters *now, const Telling *telling, const Kin *kin,
             const Standing *stack, guint n, int outer)
{
  const CwClusters *before = telling->before;
  guint host = now->member_of[telling->host], former_host = before->member_of[telling->host];
  const CwCluster *former = &before->clusters[kin->former];
  gboolean turned = kin->moved.r[2][2] < 0;
  guint place = outer < 0 ? 0 : n;

  for (guint i = 0; i < n; i++)
    if (stack[i].member == host)
      return outer < 0 ? i : i + 1;
  if (former->pile == NULL)
    return place;
  for (guint i = 0; i < n; i++)
    {
      /* Does this one lie over or under the host where both are? */
      guint member = before->member_of[cluster->panels[stack[i].member]];
      int over = 0;

      if (before->cluster_of[cluster->panels[stack[i].member]] != kin->former)
        continue;
      for (guint k = former->pile->first_of[member]; k < former->pile->first_of[member + 1] && over == 0; k++)
        {
          const CwPileCell *cell = &g_array_index (former->pile->cells, CwPileCell, former->pile->cells_of[k]);
          guint own = G_MAXUINT, hosts = G_MAXUINT;

          for (guint m = 0; m < cell->n_members; m++)
            {
              own = cell->members[m] == member ? m : own;
              hosts = cell->members[m] == former_host ? m : hosts;
            }
          if (hosts != G_MAXUINT)
            over = (own < hosts) != turned ? -1 : 1;
        }
      if (outer < 0 && over < 0)
        place = i + 1;
      else if (outer > 0 && over > 0 && place == n)
        place = i;
    }
  return place;
}

/* Moves what was tucked from the outside of the stack to its pocket. */
static void
tuck (const CwCluster *cluster, const CwClusters *now, const Telling *telling, const GArray *all, Standing *stack,
      guint n)
{
  g_autofree Standing *old = g_new (Standing, n);
  g_autofree Standing *fresh = g_new (Standing, n);
  guint n_old = 0, n_fresh = 0, place;

  for (guint i = 0; i < n; i++)
    if (stack[i].outer == 0)
      old[n_old++] = stack[i];
    else
      fresh[n_fresh++] = stack[i];
  if (n_old == 0 || n_fresh == 0)
    return;
  place = find_pocket (cluster, now, telling, &g_array_index (all, Kin, old[0].kin), old, n_old, fresh[0].outer);
  memcpy (stack, old, place * sizeof (Standing));
  memcpy (stack + place, fresh, n_fresh * sizeof (Standing));
  memcpy (stack + place + n_fresh, old + place, (n_old - place) * sizeof (Standing));
}

static void
order_cell (CwCluster *cluster, const CwClusters *now, CwPileCell *cell, const Telling *telling, const GArray *all,
            const guint *kin_of, guint *stamp, GArray *blurred)
{
  guint n = cell->n_members;
  g_autofree Standing *stack = g_new (Standing, n);

  for (guint i = 0; i < n; i++)
    {
      guint member = cell->members[i];
      const Kin *kin = &g_array_index (all, Kin, kin_of[member]);
      double height = cw_rigid_apply (&kin->rise, cw_vec3 (cell->inside.x, cell->inside.y, 0)).z;

      stack[i] = (Standing){ member, kin_of[member], kin->outer, height };
    }
  qsort (stack, n, sizeof (Standing), compare_standings);
  for (guint i = 0, next; i < n; i = next)
    {
      for (next = i + 1; next < n && stack[next].kin == stack[i].kin; next++)
        ;
      if (next > i + 1)
        keep_order (cluster, &g_array_index (all, Kin, stack[i].kin), telling, cell->inside, stack + i, next - i,
                    stamp);
    }
  for (guint i = 0; i < n; i++)
    for (guint k = i + 1; k < n && stack[k].outer == stack[i].outer
                          && stack[k].height - stack[i].height <= MAX (telling->same, telling->blur);
         k++)
      if (stack[k].kin != stack[i].kin)
        leave_open (stack[k].height - stack[i].height <= telling->same ? cluster->open : blurred, stack[i].member,
                    stack[k].member);
  if (telling->stick && telling->stick->tucked)
    tuck (cluster, now, telling, all, stack, n);
  for (guint i = 0; i < n; i++)
    cell->members[i] = stack[i].member;
}

static int
compare_pairs (const void *one, const void *two)
{
  const CwPair *x = one, *y = two;

  if (x->a != y->a)
    return x->a < y->a ? -1 : 1;
  return x->b < y->b ? -1 : x->b > y->b;
}

/* Each pair once. */
static void
sort_pairs (GArray *pairs)
{
  guint kept = 0;

  g_array_sort (pairs, compare_pairs);
  for (guint i = 0; i < pairs->len; i++)
    if (kept == 0 || compare_pairs (&g_array_index (pairs, CwPair, i), &g_array_index (pairs, CwPair, kept - 1)) != 0)
      g_array_index (pairs, CwPair, kept++) = g_array_index (pairs, CwPair, i);
  g_array_set_size (pairs, kept);
}

/* `blurred` gets the pairs whose order may be another for all that the motion's rounding tells. */
static void
order_cluster (CwCluster *cluster, const CwClusters *now, const Telling *telling, GArray *blurred)
{
  g_autofree guint *kin_of = g_new0 (guint, cluster->n_panels + 1);
  g_autofree guint *stamp = g_new0 (guint, now->n_panels + 1);
  g_autoptr (GArray) all = find_kin (cluster, telling, kin_of);

  find_outer (cluster, now, telling, all, kin_of);
  for (guint i = 0; i < cluster->pile->cells->len; i++)
    {
      CwPileCell *cell = &g_array_index (cluster->pile->cells, CwPileCell, i);

      if (cell->n_members > 1)
        order_cell (cluster, now, cell, telling, all, kin_of, stamp, blurred);
    }
  sort_pairs (cluster->open);
}

/* Looks for an order of what the motion leaves open, and whether paper can lie as it says. If it cannot, `blurred`
 * pairs are left open too: paper finds its order where the numbers are only a loop's rounding or give. */
static void
settle_cluster (CwCluster *cluster, GArray *blurred, GCancellable *stop)
{
  CwStackAnswer answer = { 0 };

  if (cluster->open->len > 0)
    {
      answer = cw_stack_search (cluster->pile, cluster->open, 2, CW_STACK_SEARCH_TRIES, stop);
      if (answer.n_found == 1 && !answer.gave_up)
        g_array_set_size (cluster->open, 0);
      cluster->gave_up = answer.n_found == 0 && answer.gave_up;
    }
  cluster->verdict = cw_stack_check (cluster->pile);
  if (cluster->verdict.fault == CW_STACK_RIGHT || blurred->len == 0)
    return;
  g_array_append_vals (blurred, cluster->open->data, cluster->open->len);
  sort_pairs (blurred);
  answer = cw_stack_search (cluster->pile, blurred, 2, CW_STACK_SEARCH_TRIES, stop);
  if (answer.n_found == 0)
    return; /* in no order that the rounding allows */
  g_array_set_size (cluster->open, 0);
  if (answer.n_found > 1 || answer.gave_up)
    g_array_append_vals (cluster->open, blurred->data, blurred->len);
  cluster->gave_up = FALSE;
  cluster->verdict = cw_stack_check (cluster->pile);
}

/* The panel a stick step lays, and the one it lays it on. */
static void
read_stick (Telling *telling, const CwMotion *motion, guint step)
{
  const CwPanelSet *set = cw_motion_get_set (motion);
  const CwStep *what = g_ptr_array_index (set->design->steps, step);
  guint piece, host, laid, on;

  if (what->what != CW_DO_STICK || what->piece == NULL || !what->has_on || what->on.piece == NULL)
    return;
  piece = cw_design_find_piece (set->design, what->piece);
  host = cw_design_find_piece (set->design, what->on.piece);
  if (piece == G_MAXUINT || host == G_MAXUINT)
    return;
  laid = cw_panel_set_find_laid (set, piece);
  on = cw_panel_set_find_host (set, what);
  if (laid >= set->maps[piece].panels->len || on == G_MAXUINT)
    return;
  telling->laid_panel = set->first_panel[piece] + laid;
  telling->host = on;
  telling->stick = what;
  telling->laid_group = cw_motion_get_group (motion, step > 0 ? step - 1 : G_MAXUINT, telling->laid_panel);
  if (telling->laid_group == cw_motion_get_group (motion, step > 0 ? step - 1 : G_MAXUINT, telling->host))
    telling->laid_group = G_MAXUINT; /* hung together before: only the layer itself can have moved */
}

/* A piece that hung on the card already and was only held where it lay. */
static gboolean
lay_there (const CwClusters *now, const Telling *telling)
{
  const CwClusters *before = telling->before;
  guint laid = telling->laid_panel, host = telling->host;
  const CwCluster *former = &before->clusters[before->cluster_of[host]], *present;
  CwRigid back, was, is;

  if (telling->laid_group != G_MAXUINT || before->cluster_of[laid] != before->cluster_of[host]
      || now->cluster_of[laid] != now->cluster_of[host])
    return FALSE;
  present = &now->clusters[now->cluster_of[host]];
  back = cw_rigid_inverse (&former->laid[before->member_of[host]].place);
  was = cw_rigid_compose (&back, &former->laid[before->member_of[laid]].place);
  back = cw_rigid_inverse (&present->laid[now->member_of[host]].place);
  is = cw_rigid_compose (&back, &present->laid[now->member_of[laid]].place);
  return same_place (&was, &is, telling->size);
}

/**
 * cw_clusters_order:
 * @now: the planes at the end of @step
 * @before: (nullable): those at its beginning, in order
 * @motion: the motion they are of
 * @work: scratch of @motion
 * @step: index of the step
 * @end: the pose at its end
 * @stop: (nullable): when cancelled the order is left as far as it came
 *
 * Puts the members of every cell of @now in order. What the motion leaves open is
 * looked for by search; pairs that stay open are listed.
 */
void
cw_clusters_order (CwClusters *now, const CwClusters *before, const CwMotion *motion, CwMotionWork *work, guint step,
                   const CwPose *end, GCancellable *stop)
{
  const CwPanelSet *set;
  Telling telling = { .before = before, .size = 1 };

  g_return_if_fail (now != NULL && before != NULL && motion != NULL && work != NULL && end != NULL);

  set = cw_motion_get_set (motion);
  for (guint i = 0; i < set->n_pieces; i++)
    telling.size = MAX (telling.size, MAX (set->maps[i].box_max.x - set->maps[i].box_min.x,
                                           set->maps[i].box_max.y - set->maps[i].box_min.y));
  read_stick (&telling, motion, step);
  if (telling.stick && lay_there (now, &telling))
    telling.stick = NULL;
  telling.near_end = look_before_end (motion, work, step, end, telling.size, &telling.same);
  /* As for collisions: a loop off by e moves a corner at l by sqrt (2 e l) near flat; one that closes exactly does not.
   */
  if (telling.near_end && cw_motion_get_state (motion, step)->n_loops > 0
      && cw_motion_get_state (motion, step)->misfit_ticks > 0)
    telling.blur
      = CW_COLLISION_BLUR_SHARE
        * sqrt (2 * MAX (cw_motion_get_state (motion, step)->misfit_ticks, CW_TOL_EXACT_TICKS) * telling.size);
  for (guint c = 0; c < now->n_clusters && !g_cancellable_is_cancelled (stop); c++)
    if (now->clusters[c].pile != NULL)
      {
        g_autoptr (GArray) blurred = g_array_new (FALSE, FALSE, sizeof (CwPair));

        order_cluster (&now->clusters[c], now, &telling, blurred);
        settle_cluster (&now->clusters[c], blurred, stop);
      }
  g_clear_pointer (&telling.near_end, cw_pose_free);
}
