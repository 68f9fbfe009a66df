/* cw-trace-follow.c: follows a block's closed positions as its driven hinges turn.
 *
 * Predictor and corrector: the tangent (the least motion that keeps the loops closed), bent as it bent last, then
 * Newton. A corrected position must lie near the predicted one, else the step is halved: this keeps to one branch
 * where several come near one another (Allgower & Georg, Numerical Continuation Methods, 1990; from memory). A step
 * halved away to nothing is a dead point or a jam. A step that seems to end flat, where Newton is slow and blind, is
 * approached by halves and the flat position itself is tried. A following hinge may pass +-180: that its two panels
 * then pass through one another is a collision, found and reported as such, not a jam of the linkage.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "fold/cw-trace-private.h"
#include "geometry/cw-tolerance.h"

/* Where more ways are open than driven, or give opens more, hinges keep to their scores' directions: how far each may
 * go. */
static void
find_bounds (const CwCourse *path, double *low, double *high)
{
  double slack = path->rows == CW_ROWS_GIVE ? CW_LEAVE_SLACK_GIVE : 0;

  for (guint i = 0; i < path->block->n_joints; i++)
    {
      double start = path->from[i];
      gboolean flat = fabs (start) <= CW_LEAVE_FLAT && path->slots[i] == CW_SLOT_FREE;

      low[i] = flat && path->sense[i] > 0 ? MIN (start, 0) - slack : MIN (start, -G_PI);
      high[i] = flat && path->sense[i] < 0 ? MAX (start, 0) + slack : MAX (start, G_PI);
      if (path->slots[i] != CW_SLOT_FREE)
        low[i] = -(high[i] = G_MAXDOUBLE);
    }
}

/* Whether a hinge at `x` stands on its bound and is pushed on, or will be within the least step: else it would creep
 * towards it by ever smaller steps. */
static gboolean
is_pushed (double x, double rate, double low, double high)
{
  return (rate < 0 && (x <= low + CW_FOLLOW_NOISE || x + rate * CW_FOLLOW_LEAST <= low))
         || (rate > 0 && (x >= high - CW_FOLLOW_NOISE || x + rate * CW_FOLLOW_LEAST >= high));
}

static void
find_rate (const CwCourse *path, CwLinkageWork *work, const double *x, double *rate, gboolean *rests)
{
  guint n = path->block->n_joints;
  g_autofree double *space = g_new (double, 3 * n);
  g_autofree CwSlot *slots = g_memdup2 (path->slots, n * sizeof (CwSlot));
  double *driven = space, *low = space + n, *high = space + 2 * n;

  for (guint i = 0; i < n; i++)
    {
      driven[i] = path->to[i] - path->from[i];
      rests[i] = FALSE;
    }
  cw_block_tangent (path->linkage, work, path->block, slots, x, path->rows, driven, rate);
  if (!path->bounded)
    return;

  find_bounds (path, low, high);
  for (gboolean again = TRUE; again;)
    {
      again = FALSE;
      for (guint i = 0; i < n; i++)
        if (slots[i] == CW_SLOT_FREE && is_pushed (x[i], rate[i], low[i], high[i]))
          {
            slots[i] = CW_SLOT_HELD;
            rests[i] = again = TRUE;
          }
      if (again)
        cw_block_tangent (path->linkage, work, path->block, slots, x, path->rows, driven, rate);
    }
}

/**
 * cw_course_add:
 * @path: a motion
 * @work: scratch of this thread
 * @s: a share of the step
 * @x: (array): n_joints angles that close there, radians
 *
 * Adds a knot, its rates, and its misfit if that is the worst so far.
 */
void
cw_course_add (CwCourse *path, CwLinkageWork *work, double s, const double *x)
{
  guint n = path->block->n_joints;
  g_autofree double *rate = g_new (double, n);
  g_autofree gboolean *rests = g_new (gboolean, n);
  guint joint;
  double misfit = cw_block_misfit (path->linkage, work, path->block, x, &joint);

  if (misfit > MAX (path->misfit, CW_CLOSED_MARGIN * CW_TOL_CLOSED * path->linkage->size))
    {
      path->misfit = misfit;
      path->misfit_joint = joint;
    }
  find_rate (path, work, x, rate, rests);
  g_array_append_val (path->s, s);
  g_array_append_vals (path->x, x, n);
  g_array_append_vals (path->rate, rate, n);
  g_array_append_vals (path->rests, rests, n);
}

/**
 * cw_course_close:
 * @path: a motion
 * @work: scratch of this thread
 * @low: (array) (nullable): least angles, radians
 * @high: (array) (nullable): largest angles; given with @low
 * @n_tries: at most so many evaluations
 * @x: (array) (inout): the guess, then the best angles found
 *
 * Returns: whether the loops close there as this motion's do, or miss by no more than is allowed
 */
gboolean
cw_course_close (CwCourse *path, CwLinkageWork *work, const double *low, const double *high, guint n_tries, double *x)
{
  double norm = cw_block_close (path->linkage, work, path->block, path->slots, low, high, path->rows, n_tries, x);

  if (path->rows == CW_ROWS_EXACT)
    return norm <= CW_TOL_CLOSED;
  return cw_block_misfit (path->linkage, work, path->block, x, NULL) <= path->allowed;
}

static double
nearest_flat (double x)
{
  return x > G_PI_2 ? G_PI : x < -G_PI_2 ? -G_PI : 0;
}

/* Tries the position with every following hinge that seems to end flat made exactly so. `misfit`: what it may miss by,
 * in ticks, if all do; 0: the loops must close as the path's do. */
static gboolean
snap (CwCourse *path, CwLinkageWork *work, double near, double misfit, double *x)
{
  guint n = path->block->n_joints;
  g_autofree double *flat = g_memdup2 (x, n * sizeof (double));
  g_autofree CwSlot *slots = g_memdup2 (path->slots, n * sizeof (CwSlot));
  gboolean any = FALSE, all = TRUE;
  double norm;

  for (guint i = 0; i < n; i++)
    if (path->slots[i] == CW_SLOT_FREE)
      {
        double to = nearest_flat (x[i]);

        if (fabs (x[i] - to) <= near)
          {
            flat[i] = to;
            slots[i] = CW_SLOT_HELD;
            any = TRUE;
          }
        else
          all = FALSE;
      }
  if (!any || (misfit > 0 && !all))
    return FALSE;
  norm = cw_block_close (path->linkage, work, path->block, slots, NULL, NULL, path->rows, all ? 0 : CW_TRIES_CORRECT,
                         flat);
  if (misfit <= 0 && path->rows == CW_ROWS_EXACT)
    {
      if (norm > CW_TOL_CLOSED)
        return FALSE;
    }
  else if (cw_block_misfit (path->linkage, work, path->block, flat, NULL) > (misfit > 0 ? misfit : path->allowed))
    return FALSE;
  for (guint i = 0; i < n; i++)
    x[i] = flat[i];
  return TRUE;
}

/* Whether some following hinge may be on its way to flat at the end, `ahead` shares off. */
static gboolean
may_end_flat (const CwCourse *path, const double *x, const double *rate, double ahead)
{
  for (guint i = 0; i < path->block->n_joints; i++)
    if (path->slots[i] == CW_SLOT_FREE && fabs (rate[i] * ahead) > CW_SNAP_NEAR)
      {
        double at = x[i] + rate[i] * ahead;

        if (fabs (at - nearest_flat (at)) < 2 * CW_FOLLOW_TURN)
          return TRUE;
      }
  return FALSE;
}

/* The position `ahead` shares beyond the last knot, by its tangent bent as between the last two knots, if the same
 * hinges rested there. */
static void
predict (const CwCourse *path, double ahead, double *x)
{
  guint n = path->block->n_joints, last = path->s->len - 1;
  const double *rate = &g_array_index (path->rate, double, last *n);
  const double *before = last > 0 ? rate - n : NULL;
  double gone = last > 0 ? cw_course_get_s (path, last) - cw_course_get_s (path, last - 1) : 0;
  const gboolean *rests = &g_array_index (path->rests, gboolean, last * n);

  for (guint i = 0; before != NULL && i < n; i++)
    if (rests[i] != rests[i - (gssize) n])
      before = NULL;
  for (guint i = 0; i < n; i++)
    {
      double bend = 0;

      if (before != NULL && path->slots[i] == CW_SLOT_FREE)
        bend = (rate[i] - before[i]) / gone * ahead / 2;
      /* Where the tangent tells little, at a singular knot, its change tells less. */
      bend = CLAMP (bend, -fabs (rate[i]) / 2, fabs (rate[i]) / 2);
      x[i] = cw_course_get_x (path, last)[i] + (rate[i] + bend) * ahead;
    }
}

static gboolean
accept (const CwCourse *path, const double *guess, const double *x, double turn)
{
  gboolean exact = path->rows == CW_ROWS_EXACT;
  double near = CW_FOLLOW_NEAR * turn + (exact ? CW_FOLLOW_NOISE : CW_FOLLOW_NEAR_GIVE);

  for (guint i = 0; i < path->block->n_joints; i++)
    if (!(fabs (x[i] - guess[i]) <= near))
      return FALSE;
  return TRUE;
}

/* Where one more hinge comes to its bound, as shares ahead; boundless if none does. */
static double
find_hit (const CwCourse *path, const double *low, const double *high, guint *which)
{
  guint n = path->block->n_joints, last = path->s->len - 1;
  const double *x = cw_course_get_x (path, last), *rate = &g_array_index (path->rate, double, last *n);
  double hit = G_MAXDOUBLE;

  *which = G_MAXUINT;
  for (guint i = 0; path->bounded && i < n; i++)
    if (path->slots[i] == CW_SLOT_FREE && fabs (rate[i]) > 0 && !g_array_index (path->rests, gboolean, last * n + i))
      {
        double ahead = ((rate[i] > 0 ? high[i] : low[i]) - x[i]) / rate[i];

        if (ahead < hit)
          {
            hit = ahead;
            *which = i;
          }
      }
  return hit;
}

/* Closes a predicted position: first with what rests on its bound, or comes there, held on it. */
static gboolean
correct (CwCourse *path, CwLinkageWork *work, const double *low, const double *high, guint arrives, const double *guess,
         double turn, double *x)
{
  guint n = path->block->n_joints, last = path->s->len - 1;
  guint tries = path->rows == CW_ROWS_EXACT ? CW_TRIES_CORRECT : CW_TRIES_MEND;
  gboolean any = FALSE;

  if (path->bounded)
    {
      g_autofree CwSlot *slots = g_memdup2 (path->slots, n * sizeof (CwSlot));
      CwSlot *all = path->slots;
      gboolean good;

      for (guint i = 0; i < n; i++)
        if (i == arrives || g_array_index (path->rests, gboolean, last * n + i))
          {
            slots[i] = CW_SLOT_HELD;
            x[i] = x[i] - low[i] < high[i] - x[i] ? low[i] : high[i];
            any = TRUE;
          }
      path->slots = slots;
      good = any && cw_course_close (path, work, low, high, tries, x) && accept (path, guess, x, turn);
      path->slots = all;
      if (good)
        return TRUE;
      for (guint i = 0; i < n; i++)
        x[i] = guess[i];
    }
  return cw_course_close (path, work, path->bounded ? low : NULL, path->bounded ? high : NULL, tries, x)
         && accept (path, guess, x, turn);
}

/**
 * cw_course_follow:
 * @path: a motion with at least one knot
 * @work: scratch of this thread
 * @goal: the share of the step to go to, either way from the last knot; only forth where hinges keep to their own way
 * @may_snap: whether hinges that come to lie flat at @goal are made exactly so
 *
 * Adds knots up to @goal or up to where the motion is stuck: predictor and corrector, Allgower & Georg. A hinge that
 * comes to its bound gets a knot there, and rests on it from then on for as long as it is pushed.
 *
 * Returns: the share reached
 */
double
cw_course_follow (CwCourse *path, CwLinkageWork *work, double goal, gboolean may_snap)
{
  guint n = path->block->n_joints;
  g_autofree double *guess = g_new (double, n);
  g_autofree double *x = g_new (double, n);
  g_autofree double *low = g_new (double, n);
  g_autofree double *high = g_new (double, n);
  double s = cw_course_get_s (path, path->s->len - 1);
  double sign = goal > s ? 1 : -1;
  double h = 1;
  double near = path->rows == CW_ROWS_EXACT ? CW_SNAP_NEAR : CW_SNAP_NEAR_GIVE;

  find_bounds (path, low, high);
  while ((goal - s) * sign > 0)
    {
      guint last = path->s->len - 1, which;
      const double *rate = &g_array_index (path->rate, double, last *n);
      double left = (goal - s) * sign, speed = 0, hit = find_hit (path, low, high, &which), whole, at;
      gboolean done = FALSE;

      for (guint i = 0; i < n; i++)
        speed = MAX (speed, fabs (rate[i]));
      h = MIN (h, left);
      if (speed * h > CW_FOLLOW_TURN)
        h = CW_FOLLOW_TURN / speed;
      if (may_snap && h > left / 2 && speed * left > CW_FOLLOW_END
          && may_end_flat (path, cw_course_get_x (path, last), rate, left * sign))
        h = left / 2;

      whole = h;
      if (hit < h)
        h = MAX (hit, CW_FOLLOW_LEAST);
      for (; h >= CW_FOLLOW_LEAST || h >= left; h /= 2)
        {
          double turn = 0;

          at = h >= left ? goal : s + h * sign;
          predict (path, at - s, guess);
          cw_course_ramp (path, at, guess);
          for (guint i = 0; i < n; i++)
            {
              if (path->bounded)
                guess[i] = CLAMP (guess[i], low[i], high[i]);
              x[i] = guess[i];
              turn = MAX (turn, fabs (guess[i] - cw_course_get_x (path, last)[i]));
            }
          if (may_snap && h >= left
              && (snap (path, work, near, 0, x)
                  || (path->rows == CW_ROWS_EXACT && snap (path, work, CW_SNAP_NEAR_ROUNDED, CW_TOL_EXACT_TICKS, x))))
            {
              done = TRUE;
              break;
            }
          if (correct (path, work, low, high, h >= hit ? which : G_MAXUINT, guess, turn, x))
            {
              done = TRUE;
              break;
            }
        }
      if (!done || cw_effort_is_out (work->effort))
        break;
      cw_course_add (path, work, at, x);
      s = at;
      h = h >= hit ? whole : 2 * h;
    }
  return s;
}

/**
 * cw_course_get_angles:
 * @path: a motion
 * @work: scratch of this thread
 * @s: a share of the step between the path's first and last knot
 * @x: (array) (out caller-allocates): the block's angles there, radians: between two knots by their rates (Hermite),
 *   then mended
 */
void
cw_course_get_angles (const CwCourse *path, CwLinkageWork *work, double s, double *x)
{
  guint n = path->block->n_joints, low = 0, high = path->s->len - 1;
  double s0, s1, h, u;

  while (high - low > 1)
    {
      guint middle = (low + high) / 2;

      if (cw_course_get_s (path, middle) <= s)
        low = middle;
      else
        high = middle;
    }
  s0 = cw_course_get_s (path, low);
  s1 = cw_course_get_s (path, high);
  if (s <= s0 || s >= s1)
    {
      const double *knot = cw_course_get_x (path, s <= s0 ? low : high);

      for (guint i = 0; i < n; i++)
        x[i] = knot[i];
      return;
    }

  h = s1 - s0;
  u = (s - s0) / h;
  for (guint i = 0; i < n; i++)
    {
      double a = cw_course_get_x (path, low)[i], b = cw_course_get_x (path, high)[i];
      double ra = g_array_index (path->rate, double, low *n + i) * h;
      double rb = g_array_index (path->rate, double, high *n + i) * h;

      /* A rate that would swing far off the way between the knots comes from a singular one: go straight. */
      if (fabs (ra) > 3 * fabs (b - a) || fabs (rb) > 3 * fabs (b - a))
        ra = rb = b - a;
      x[i] = a + u * (ra + u * (3 * (b - a) - 2 * ra - rb + u * (ra + rb - 2 * (b - a))));
      work->guess[i] = x[i];
    }
  cw_course_ramp (path, s, x);
  cw_block_close (path->linkage, work, path->block, path->slots, NULL, NULL, path->rows, CW_TRIES_MEND, x);
  for (guint i = 0; i < n; i++)
    if (!(fabs (x[i] - work->guess[i]) <= CW_FOLLOW_TURN))
      {
        for (guint k = 0; k < n; k++)
          x[k] = work->guess[k];
        cw_course_ramp (path, s, x);
        return;
      }
}
