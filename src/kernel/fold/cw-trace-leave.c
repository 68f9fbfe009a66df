/* cw-trace-leave.c: which ways lead out of a state where several motions meet.
 *
 * Flat and shut states are singular: the hinges' axes lie in one plane, the closing equations lose rank, and first
 * order cannot tell a motion from looseness or one motion from another. So the driven hinges are set a few degrees on
 * and closed positions are looked for from many guesses, each following hinge towards its own score's direction or
 * back from +-180. Half of the guesses first fall onto a motion with the driven hinges free and then slide to the
 * wanted angle: on some motions hinges turn many times faster than the driven ones, out of reach of guesses of the
 * driver's own size. Positions found are ranked (no score turned the wrong way, most turned their own way, least
 * misfit, least turn) and walked back: only those that really lead to the start count. The guesses come from a named
 * seed: the same answer every time.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "fold/cw-trace-private.h"
#include "geometry/cw-tolerance.h"

typedef struct
{
  double *x;
  guint right, wrong;
  gboolean loose;
  double misfit, turn;
  guint number; /* in the order found: ties keep it */
} Find;

typedef struct
{
  CwCourse *path; /* knots: the way back of the find at hand */
  CwLinkageWork *work;
  const double *start;
  double *low, *high, *x, *null;
  double ahead; /* share of the step at which positions are looked for */
  double turn;  /* the fastest driven hinge's turn there */
  gboolean own_way;
  guint64 random;
  GArray *finds; /* of Find */
} Search;

/* The way a following hinge must leave in: from 0 its own, from +-180 back; 0: either. */
static int
way_out (const Search *search, guint i)
{
  if (fabs (search->start[i]) <= CW_LEAVE_FLAT)
    return search->own_way ? search->path->sense[i] : 0;
  if (fabs (search->start[i]) >= G_PI - CW_LEAVE_FLAT)
    return search->start[i] > 0 ? -1 : 1;
  return 0;
}

static void
set_bounds (Search *search)
{
  double slack = search->path->rows == CW_ROWS_GIVE ? CW_LEAVE_SLACK_GIVE : 0;

  for (guint i = 0; i < search->path->block->n_joints; i++)
    {
      double start = search->start[i];
      int way = fabs (start) <= CW_LEAVE_FLAT ? way_out (search, i) : 0;

      search->low[i] = way > 0 ? MIN (start, 0) - slack : -G_PI - slack;
      search->high[i] = way < 0 ? MAX (start, 0) + slack : G_PI + slack;
    }
}

/* Takes the turning out of a position that need not turn so far: towards the start as far as the loops stay closed. */
static void
relax (Search *search)
{
  guint n = search->path->block->n_joints;
  g_autofree double *to = g_new (double, n);

  for (guint round = 0; round < CW_TRIES_CLOSE; round++)
    {
      guint loose = cw_block_looseness (search->path->linkage, search->work, search->path->block, search->path->slots,
                                        search->x, CW_TOL_LOOSE, search->null);

      for (guint i = 0; i < n; i++)
        to[i] = search->x[i];
      for (guint k = 0; k < loose; k++)
        {
          const double *direction = search->null + k * n;
          double along = 0;

          for (guint i = 0; i < n; i++)
            along += direction[i] * (search->x[i] - search->start[i]);
          for (guint i = 0; i < n; i++)
            to[i] -= direction[i] * along / 2;
        }
      if (cw_angles_farthest (n, to, search->x) < CW_LEAVE_SAME * search->turn
          || !cw_course_close (search->path, search->work, search->low, search->high, CW_TRIES_CLOSE, to))
        return;
      for (guint i = 0; i < n; i++)
        search->x[i] = to[i];
    }
}

static void
keep_find (Search *search)
{
  const CwCourse *path = search->path;
  guint n = path->block->n_joints;
  Find find = { .number = search->finds->len };

  find.loose
    = cw_block_looseness (path->linkage, search->work, path->block, path->slots, search->x, CW_TOL_LOOSE, NULL) > 0;
  if (find.loose && path->rows == CW_ROWS_EXACT)
    relax (search);
  for (guint k = 0; k < search->finds->len; k++)
    if (cw_angles_farthest (n, g_array_index (search->finds, Find, k).x, search->x)
        < (path->rows == CW_ROWS_EXACT ? CW_LEAVE_SAME : CW_SNAP_NEAR_GIVE))
      return;

  for (guint i = 0; i < n; i++)
    {
      double turned = search->x[i] - search->start[i];

      find.turn += turned * turned;
      if (path->slots[i] != CW_SLOT_FREE || fabs (search->start[i]) > CW_LEAVE_FLAT || path->sense[i] == 0)
        continue;
      if (turned * path->sense[i] > CW_LEAVE_STILL * search->turn)
        find.right++;
      else if (turned * path->sense[i]
               < -(path->rows == CW_ROWS_GIVE ? CW_LEAVE_SLACK_GIVE : CW_LEAVE_STILL * search->turn))
        find.wrong++;
    }
  if (path->rows == CW_ROWS_GIVE)
    find.misfit = cw_block_misfit (path->linkage, search->work, path->block, search->x, NULL);
  find.x = g_memdup2 (search->x, n * sizeof (double));
  g_array_append_val (search->finds, find);
}

/* The same for a single driven hinge, whose place on its ramp is a share of the step: followed, however fast the other
 * hinges turn. */
static gboolean
slide_along_ramp (Search *search, guint driven)
{
  guint n = search->path->block->n_joints;
  double from = search->path->from[driven];
  double s = (search->x[driven] - from) / (search->path->to[driven] - from);
  g_autoptr (CwCourse) way = NULL;

  if (s < search->ahead * CW_LEAVE_STILL)
    return FALSE;
  way = cw_course_copy (search->path);
  cw_course_add (way, search->work, s, search->x);
  if (fabs (cw_course_follow (way, search->work, search->ahead, FALSE) - search->ahead) > 0)
    return FALSE;
  for (guint i = 0; i < n; i++)
    {
      search->x[i] = cw_course_get_x (way, way->s->len - 1)[i];
      if (search->x[i] < search->low[i] || search->x[i] > search->high[i])
        return FALSE;
    }
  return TRUE;
}

/* From a position with the driven hinges anywhere to the wanted one, keeping near. */
static gboolean
slide (Search *search)
{
  const CwCourse *path = search->path;
  guint n = path->block->n_joints;
  double left = 0;
  guint steps, n_driven = 0, driven = 0;

  for (guint i = 0; i < n; i++)
    if (path->slots[i] == CW_SLOT_DRIVEN)
      {
        n_driven++;
        driven = i;
      }
  if (n_driven == 1)
    return slide_along_ramp (search, driven);

  cw_course_ramp (path, search->ahead, search->work->guess);
  for (guint i = 0; i < n; i++)
    if (path->slots[i] == CW_SLOT_DRIVEN)
      left = MAX (left, fabs (search->work->guess[i] - search->x[i]));
  steps = (guint) MIN (ceil (left / (search->turn / 2)) + 1, CW_TRIES_CLOSE);
  for (guint k = 0; k < steps; k++)
    {
      cw_course_ramp (path, search->ahead, search->work->guess);
      for (guint i = 0; i < n; i++)
        if (path->slots[i] == CW_SLOT_DRIVEN)
          search->x[i] += (search->work->guess[i] - search->x[i]) / (steps - k);
      if (!cw_course_close (search->path, search->work, search->low, search->high, CW_TRIES_CORRECT, search->x))
        return FALSE;
    }
  return TRUE;
}

static void
try_guess (Search *search, guint trial)
{
  CwCourse *path = search->path;
  guint n = path->block->n_joints;
  gboolean closed;

  for (guint i = 0; i < n; i++)
    {
      int way = way_out (search, i);
      double size = search->turn;

      search->x[i] = search->start[i];
      if (path->slots[i] != CW_SLOT_FREE)
        continue;
      if (trial >= 2)
        {
          double kind = cw_linkage_draw (&search->random);

          /* A quarter of the hinges stay, the others turn by a tenth to ten times the driver's turn. */
          size *= kind < 0.25 ? 0 : exp ((cw_linkage_draw (&search->random) * 2 - 1) * G_LN10);
        }
      if (way == 0)
        way = cw_linkage_draw (&search->random) < 0.5 ? -1 : 1;
      search->x[i] += way * MIN (size, 1);
    }
  cw_course_ramp (path, search->ahead, search->x);

  if (trial % 2 == 1)
    {
      /* First onto some motion, with the driven hinges free. */
      for (guint i = 0; i < n; i++)
        search->work->driven[i] = path->slots[i] == CW_SLOT_DRIVEN;
      for (guint i = 0; i < n; i++)
        if (search->work->driven[i])
          path->slots[i] = CW_SLOT_FREE;
      closed = cw_course_close (path, search->work, search->low, search->high, CW_TRIES_CLOSE, search->x);
      for (guint i = 0; i < n; i++)
        if (search->work->driven[i])
          path->slots[i] = CW_SLOT_DRIVEN;
      if (!closed || !slide (search))
        return;
    }
  if (cw_course_close (path, search->work, search->low, search->high, CW_TRIES_CLOSE, search->x))
    keep_find (search);
}

static int
compare_finds (gconstpointer a, gconstpointer b)
{
  const Find *f = a, *g = b;

  if (f->wrong != g->wrong)
    return f->wrong < g->wrong ? -1 : 1;
  if (f->right != g->right)
    return f->right > g->right ? -1 : 1;
  if (fabs (f->misfit - g->misfit) > CW_LEAVE_SAME_TICKS)
    return f->misfit < g->misfit ? -1 : 1;
  if (fabs (f->turn - g->turn) > CW_LEAVE_SAME * (f->turn + g->turn))
    return f->turn < g->turn ? -1 : 1;
  return f->number < g->number ? -1 : 1;
}

/* Whether the last knot is near enough to the start to go there straight. */
static gboolean
is_back (Search *search, const CwCourse *way)
{
  guint n = way->block->n_joints;
  const double *knot = cw_course_get_x (way, way->s->len - 1);

  if (way->rows == CW_ROWS_EXACT)
    return cw_angles_farthest (n, knot, search->start) <= CW_LEAVE_BACK;

  /* Within give the last few degrees are better gone straight than followed: near shut the least misfit swings. */
  if (cw_angles_farthest (n, knot, search->start) > CW_LEAVE_BACK_GIVE)
    return FALSE;
  for (guint i = 0; i < n; i++)
    search->x[i] = (knot[i] + search->start[i]) / 2;
  return cw_course_close (search->path, search->work, NULL, NULL, CW_TRIES_MEND, search->x);
}

/* The motion from the start through `x` at search->ahead, if walking back from there comes to the start. */
static CwCourse *
walk_back (Search *search, const double *x)
{
  guint n = search->path->block->n_joints;
  g_autoptr (CwCourse) way = cw_course_copy (search->path);
  CwCourse *path;
  double goal = search->ahead, first;

  cw_course_add (way, search->work, goal, x);
  if (goal > 1)
    {
      /* The step ends before: only what is inside it is kept. */
      g_autofree double *end = NULL;

      if (cw_course_follow (way, search->work, 1, FALSE) > 1)
        return NULL;
      end = g_memdup2 (cw_course_get_x (way, way->s->len - 1), n * sizeof (double));
      cw_course_cut (way, 0);
      cw_course_add (way, search->work, 1, end);
      goal = 1;
    }
  while (!is_back (search, way))
    {
      goal /= 2;
      if (goal * search->turn / search->ahead < CW_FOLLOW_LEAST * search->turn
          || cw_course_follow (way, search->work, goal, FALSE) > goal)
        return NULL;
    }

  path = cw_course_copy (search->path);
  cw_course_add (path, search->work, 0, search->start);
  for (guint k = way->s->len; k-- > 0;)
    cw_course_add (path, search->work, cw_course_get_s (way, k), cw_course_get_x (way, k));
  /* The start's own tangent tells nothing. */
  first = cw_course_get_s (path, 1);
  for (guint i = 0; i < n; i++)
    g_array_index (path->rate, double, i) = (cw_course_get_x (path, 1)[i] - search->start[i]) / first;
  return path;
}

static void
look (Search *search, double turn, double speed, const double *hint)
{
  search->turn = turn;
  search->ahead = turn / speed;
  set_bounds (search);
  if (hint != NULL)
    {
      guint n = search->path->block->n_joints;

      for (guint i = 0; i < n; i++)
        search->x[i] = search->path->slots[i] == CW_SLOT_HELD ? search->start[i] : hint[i];
      if (cw_course_close (search->path, search->work, search->low, search->high, CW_TRIES_CLOSE, search->x)
          && slide (search))
        keep_find (search);
      return;
    }
  for (guint trial = 0; trial < CW_LEAVE_TRIALS && !cw_effort_is_out (search->work->effort); trial++)
    try_guess (search, trial);
}

/**
 * cw_course_leave:
 * @still: a motion without knots
 * @work: scratch of this thread
 * @hint: (array) (nullable): the block's angles a little before the start, on the way it came, radians
 * @own_way: whether scores at 0 may turn their own way only
 *
 * Returns: (transfer full) (element-type CwCourse): the motions that leave the start, the best first, each with knots
 * from the start on; of motions that are as good in all that ranks them, the least turning first
 */
GPtrArray *
cw_course_leave (const CwCourse *still, CwLinkageWork *work, const double *hint, gboolean own_way)
{
  static const double exact_turns[] = { CW_LEAVE_TURNS };
  static const double give_turns[] = { CW_LEAVE_TURNS_GIVE };
  const double *turns = still->rows == CW_ROWS_EXACT ? exact_turns : give_turns;
  guint n_turns = still->rows == CW_ROWS_EXACT ? G_N_ELEMENTS (exact_turns) : G_N_ELEMENTS (give_turns);
  GPtrArray *paths = g_ptr_array_new_with_free_func ((GDestroyNotify) cw_course_free);
  guint n = still->block->n_joints;
  g_autofree double *space = g_new (double, 3 * n + (gsize) n * n);
  g_autoptr (CwCourse) scratch = cw_course_copy (still);
  Search search = { .path = scratch, .work = work, .start = still->from, .own_way = own_way, .random = CW_LEAVE_SEED };
  double speed = 0;

  search.low = space;
  search.high = space + n;
  search.x = space + 2 * n;
  search.null = space + 3 * n;
  search.finds = g_array_new (FALSE, FALSE, sizeof (Find));
  for (guint i = 0; i < n; i++)
    if (still->slots[i] == CW_SLOT_DRIVEN)
      speed = MAX (speed, fabs (still->to[i] - still->from[i]));

  for (guint k = 0; k < n_turns && speed > 0 && paths->len == 0; k++)
    {
      look (&search, turns[k], speed, hint);
      g_array_sort (search.finds, compare_finds);
      for (guint i = 0; i < search.finds->len && paths->len < CW_LEAVE_WAYS; i++)
        {
          const Find *find = &g_array_index (search.finds, Find, i);
          CwCourse *path = walk_back (&search, find->x);

          if (path == NULL)
            continue;
          path->right = find->right;
          path->wrong = find->wrong;
          path->loose = find->loose;
          g_ptr_array_add (paths, path);
        }
      for (guint i = 0; i < search.finds->len; i++)
        g_free (g_array_index (search.finds, Find, i).x);
      g_array_set_size (search.finds, 0);
    }
  g_array_unref (search.finds);
  return paths;
}

/* Whether, with these hinges free, closed positions near the start are as loose to first order as the start itself. */
static gboolean
is_evenly_loose (const CwCourse *still, CwLinkageWork *work, const CwSlot *slots)
{
  guint n = still->block->n_joints;
  g_autofree double *null = g_new (double, (gsize) n *n + n);
  double *x = null + (gsize) n * n;
  double spread = still->rows == CW_ROWS_EXACT ? CW_LEAVE_SPREAD : CW_LEAVE_SPREAD_GIVE;
  g_autoptr (CwCourse) course = cw_course_new (still->linkage, still->block, slots, still->from, still->to,
                                               still->sense, still->rows, still->allowed);
  guint loose = cw_block_looseness (still->linkage, work, still->block, slots, still->from, CW_TOL_LOOSE, null);
  guint64 random = CW_LEAVE_SEED;

  for (guint trial = 0; loose > 0 && trial < CW_LEAVE_SAMPLES; trial++)
    {
      for (guint i = 0; i < n; i++)
        x[i] = still->from[i];
      for (guint k = 0; k < loose; k++)
        {
          double share = (cw_linkage_draw (&random) * 2 - 1) * spread;

          for (guint i = 0; i < n; i++)
            x[i] += share * null[k * n + i];
        }
      if (!cw_course_close (course, work, NULL, NULL, CW_TRIES_CLOSE, x)
          || cw_angles_farthest (n, x, still->from) < spread / 10
          || cw_block_looseness (still->linkage, work, still->block, slots, x, CW_TOL_LOOSE, NULL) != loose)
        return FALSE;
    }
  return TRUE;
}

/**
 * cw_course_is_singular:
 * @still: a course without knots
 * @work: scratch of this thread
 *
 * Returns: whether first order cannot be trusted at the start: it sees more ways open than there are at closed
 * positions nearby, with the driven hinges held or with them free
 */
gboolean
cw_course_is_singular (const CwCourse *still, CwLinkageWork *work)
{
  guint n = still->block->n_joints;
  g_autofree CwSlot *slots = g_memdup2 (still->slots, n * sizeof (CwSlot));

  if (cw_block_looseness (still->linkage, work, still->block, slots, still->from, CW_TOL_LOOSE, NULL) == 0)
    return FALSE;
  if (!is_evenly_loose (still, work, slots))
    return TRUE;
  for (guint i = 0; i < n; i++)
    if (slots[i] == CW_SLOT_DRIVEN)
      slots[i] = CW_SLOT_FREE;
  return !is_evenly_loose (still, work, slots);
}
