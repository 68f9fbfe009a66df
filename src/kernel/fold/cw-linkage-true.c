/* cw-linkage-true.c: fold lines that rounding to ticks put out of true, laid as they were meant.
 *
 * A box drawn slanted has four fold lines that are parallel but for a tick, a beak four that pass one point but for a
 * tick: taken at their word, such rings of panels are rigid. So in every small ring of panels the lines are looked at
 * in the plane, unfolded: are they parallel, or do they meet in one point, within what rounding explains? Which of its
 * flat states (any of its folds shut, the others open) close within that? All this is then made exact by the least
 * shifts of the lines' ends that do so, Gauss and Newton's way (least-norm steps; flat states close when the product of
 * reflections in the folded lines is no motion at all, Kawasaki-Justin's condition among them: Belcastro & Hull, Linear
 * Algebra Appl. 348 (2002) 273-282). What is off by more than rounding is left as drawn, and so is what no small shift
 * puts right. Where panels met that now hold together, how they lie was worked out with lines not yet true: a ring is
 * cut there, and only its lines are laid true.
 *
 * Over 500 lines because rings, their kinds and their rows share one unfolded plane.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "fold/cw-linkage-true.h"

#include "fold/cw-linkage-dense.h"
#include "fold/cw-linkage-private.h"
#include "geometry/cw-tolerance.h"

/* A map of the plane that keeps distances: (x, y) goes to (xx x + xy y + x0, yx x + yy y + y0). */
typedef struct
{
  double xx, xy, yx, yy, x0, y0;
} Plane;

typedef struct
{
  double x, y;
} Spot;

typedef enum
{
  RING_PARALLEL,
  RING_POINT,
} RingKind;

/* Panels joined in a ring by hinges, walked round from one of them. */
typedef struct
{
  guint n;
  guint slots[CW_TRUE_RING_MOST]; /* of the block */
  gboolean from_a[CW_TRUE_RING_MOST];
  RingKind kind;
  gboolean cut;  /* the way round is cut before the first hinge: how the panels there lie is not known for sure */
  gboolean cone; /* RING_POINT: unfolded, the way round does not come back to itself */
  Spot point;    /* RING_POINT: where the lines meet, in the plane of the first panel */
  double reach;  /* turns an angle into a shift of a hinge's end, ticks */
  guint n_flats;
  guint flats[CW_TRUE_FLATS_MOST]; /* which hinges are shut, a bit each */
} Ring;

typedef struct
{
  const CwLinkage *linkage;
  const CwBlock *block;
  Plane *in_a, *in_b; /* n_joints of the block */
  Spot *p, *q;        /* as drawn */
  Spot *side;         /* square to the line, unit */
  double *length;
  GArray *rings;   /* of Ring */
  guint n_lines;   /* unknowns: two shifts a line, then two of every ring's point */
  guint n_unknown; /* ticks */
  double *shift;
} Truing;

static Plane
plane_compose (Plane a, Plane b)
{
  return (Plane){ a.xx * b.xx + a.xy * b.yx, a.xx * b.xy + a.xy * b.yy,        a.yx * b.xx + a.yy * b.yx,
                  a.yx * b.xy + a.yy * b.yy, a.xx * b.x0 + a.xy * b.y0 + a.x0, a.yx * b.x0 + a.yy * b.y0 + a.y0 };
}

static Plane
plane_inverse (Plane a)
{
  return (Plane){ a.xx, a.yx, a.xy, a.yy, -(a.xx * a.x0 + a.yx * a.y0), -(a.xy * a.x0 + a.yy * a.y0) };
}

static Spot
plane_apply (Plane a, Spot p)
{
  return (Spot){ a.xx * p.x + a.xy * p.y + a.x0, a.yx * p.x + a.yy * p.y + a.y0 };
}

static Plane
plane_mirror (Spot p, Spot q)
{
  double dx = q.x - p.x, dy = q.y - p.y, square = dx * dx + dy * dy;
  double c = (dx * dx - dy * dy) / square, s = 2 * dx * dy / square;

  return (Plane){ c, s, s, -c, p.x - c * p.x - s * p.y, p.y - s * p.x + c * p.y };
}

/* FALSE if the placement leaves the plane. */
static gboolean
plane_from_rigid (const CwRigid *rigid, double size, Plane *plane)
{
  *plane = (Plane){ rigid->r[0][0], rigid->r[0][1], rigid->r[1][0], rigid->r[1][1], rigid->t.x, rigid->t.y };
  return fabs (rigid->r[2][0]) < CW_TOL_CLOSED && fabs (rigid->r[2][1]) < CW_TOL_CLOSED
         && fabs (rigid->t.z) < CW_TOL_CLOSED * size;
}

static double
distance (Spot a, Spot b)
{
  return hypot (b.x - a.x, b.y - a.y);
}

/* The ends of a line, shifted. */
static void
get_line (const Truing *self, guint slot, Spot *p, Spot *q)
{
  double at_p = self->shift[2 * slot], at_q = self->shift[2 * slot + 1];
  Spot side = self->side[slot];

  *p = (Spot){ self->p[slot].x + side.x * at_p, self->p[slot].y + side.y * at_p };
  *q = (Spot){ self->q[slot].x + side.x * at_q, self->q[slot].y + side.y * at_q };
}

/* Walks round with some hinges shut; gives the lines on the way, and where the first panel comes to. */
static Plane
walk_round (const Truing *self, const Ring *ring, guint shut, Spot *p, Spot *q)
{
  Plane place = { 1, 0, 0, 1, 0, 0 };

  for (guint k = 0; k < ring->n; k++)
    {
      guint slot = ring->slots[k];
      Plane in = ring->from_a[k] ? self->in_a[slot] : self->in_b[slot];
      Plane out = ring->from_a[k] ? self->in_b[slot] : self->in_a[slot];
      Spot a, b;

      get_line (self, slot, &a, &b);
      place = plane_compose (place, in);
      if (p != NULL)
        {
          p[k] = plane_apply (place, a);
          q[k] = plane_apply (place, b);
        }
      if (shut >> k & 1)
        place = plane_compose (place, plane_mirror (a, b));
      place = plane_compose (place, plane_inverse (out));
    }
  return place;
}

/* Sine of the angle between two lines. */
static double
sine_between (Spot p, Spot q, Spot r, Spot s)
{
  return ((q.x - p.x) * (s.y - r.y) - (q.y - p.y) * (s.x - r.x)) / (distance (p, q) * distance (r, s));
}

/* How far a point lies to the side of a line. */
static double
off_line (Spot p, Spot q, Spot v)
{
  return ((q.x - p.x) * (v.y - p.y) - (q.y - p.y) * (v.x - p.x)) / distance (p, q);
}

/* How many times a line's own error counts at a point beyond its ends. */
static double
lever (Spot p, Spot q, Spot v)
{
  double dx = q.x - p.x, dy = q.y - p.y;
  double t = ((v.x - p.x) * dx + (v.y - p.y) * dy) / (dx * dx + dy * dy);

  return MAX (1, fabs (2 * t - 1));
}

/* The point nearest to all lines, by least squares. FALSE if they tell none. */
static gboolean
meeting_point (guint n, const Spot *p, const Spot *q, Spot *v)
{
  double xx = 0, xy = 0, yy = 0, x = 0, y = 0, det;

  for (guint k = 0; k < n; k++)
    {
      double length = distance (p[k], q[k]);
      double a = -(q[k].y - p[k].y) / length, b = (q[k].x - p[k].x) / length, c = a * p[k].x + b * p[k].y;

      xx += a * a;
      xy += a * b;
      yy += b * b;
      x += a * c;
      y += b * c;
    }
  det = xx * yy - xy * xy;
  if (det < CW_TOL_SAME_LINE * CW_TOL_SAME_LINE)
    return FALSE;
  *v = (Spot){ (x * yy - y * xy) / det, (y * xx - x * xy) / det };
  return TRUE;
}

/* Whether the lines are parallel, or meet, within what rounding explains. */
static gboolean
tell_kind (const Truing *self, Ring *ring)
{
  Spot p[CW_TRUE_RING_MOST], q[CW_TRUE_RING_MOST], moved;
  Plane round = walk_round (self, ring, 0, p, q);
  gboolean parallel = TRUE;

  ring->reach = G_MAXDOUBLE;
  for (guint k = 0; k < ring->n; k++)
    {
      double length = self->length[ring->slots[k]];
      double blur = CW_TRUE_TICKS / length + CW_TRUE_TICKS / self->length[ring->slots[0]];

      parallel &= fabs (sine_between (p[0], q[0], p[k], q[k])) <= blur;
      ring->reach = MIN (ring->reach, length / 2);
    }
  ring->kind = RING_PARALLEL;
  if (parallel)
    return TRUE;

  ring->kind = RING_POINT;
  if (!meeting_point (ring->n, p, q, &ring->point))
    return FALSE;
  for (guint k = 0; k < ring->n; k++)
    if (fabs (off_line (p[k], q[k], ring->point)) > CW_TRUE_TICKS * lever (p[k], q[k], ring->point))
      return FALSE;
  moved = plane_apply (round, ring->point);
  if (ring->cut)
    return TRUE;
  ring->cone = fabs (round.xx - 1) > CW_TOL_CLOSED || fabs (round.yy - 1) > CW_TOL_CLOSED
               || fabs (round.xy) > CW_TOL_CLOSED || fabs (round.yx) > CW_TOL_CLOSED
               || hypot (round.x0, round.y0) > CW_TOL_CLOSED * self->linkage->size;
  return distance (moved, ring->point) <= CW_TRUE_TICKS * ring->n;
}

/* What the flat state misses by: half the shift square to parallel lines, or half the turn about the point at the end
 * of the ring's shortest hinge. `along`: the shift that no line can mend. */
static double
flat_miss (const Truing *self, const Ring *ring, guint shut, double *along)
{
  Spot p[CW_TRUE_RING_MOST], q[CW_TRUE_RING_MOST], moved;
  Plane place = walk_round (self, ring, shut, p, q);
  double length = distance (p[0], q[0]);
  double ux = (q[0].x - p[0].x) / length, uy = (q[0].y - p[0].y) / length;

  *along = 0;
  /* A mirrored panel lies elsewhere. */
  if (place.xx * place.yy - place.xy * place.yx < 0)
    return G_MAXDOUBLE;
  if (ring->kind == RING_POINT)
    return atan2 (place.yx - place.xy, place.xx + place.yy) * ring->reach / 2;
  if (place.xx < 0)
    return G_MAXDOUBLE;
  moved = plane_apply (place, p[0]);
  *along = (moved.x - p[0].x) * ux + (moved.y - p[0].y) * uy;
  return ((moved.y - p[0].y) * ux - (moved.x - p[0].x) * uy) / 2;
}

/* Lines that were parallel or met but for rounding do so by now: a short line's error does not grow along it. */
static void
find_flats (const Truing *self, Ring *ring)
{
  if (ring->n > CW_TRUE_RING_FLAT || ring->cut)
    return;
  for (guint shut = 1; shut < 1u << ring->n && ring->n_flats < CW_TRUE_FLATS_MOST; shut++)
    {
      double along, miss = fabs (flat_miss (self, ring, shut, &along));

      if (miss <= CW_TRUE_TICKS && fabs (along) <= CW_TRUE_TICKS)
        ring->flats[ring->n_flats++] = shut;
    }
}

/* The shortest way round through a hinge, by breadth first over the block from its side b; FALSE if it is long. */
static gboolean
find_ring (const Truing *self, guint start, guint *from, guint *queue, Ring *ring)
{
  const CwLinkage *linkage = self->linkage;
  const CwBlock *block = self->block;
  const CwJoint *first = &linkage->joints[block->joints[start]];
  guint n_queue = 0, body;
  GArray *way;

  if (first->a == first->b)
    return FALSE;
  for (guint i = 0; i < block->n_joints; i++)
    from[linkage->joints[block->joints[i]].a] = from[linkage->joints[block->joints[i]].b] = G_MAXUINT;
  queue[n_queue++] = first->b;
  from[first->b] = start;
  for (guint k = 0; k < n_queue && from[first->a] == G_MAXUINT; k++)
    for (guint i = 0; i < block->n_joints; i++)
      {
        const CwJoint *joint = &linkage->joints[block->joints[i]];
        guint to = joint->a == queue[k] ? joint->b : joint->b == queue[k] ? joint->a : G_MAXUINT;

        if (i == start || to == G_MAXUINT || from[to] != G_MAXUINT)
          continue;
        from[to] = i;
        queue[n_queue++] = to;
      }

  way = g_array_new (FALSE, FALSE, sizeof (guint));
  for (body = first->a; body != first->b;)
    {
      guint i = from[body];
      const CwJoint *joint = &linkage->joints[block->joints[i]];

      g_array_append_val (way, i);
      body = joint->a == body ? joint->b : joint->a;
    }
  *ring = (Ring){ .n = way->len + 1 };
  if (ring->n <= CW_TRUE_RING_MOST)
    {
      ring->slots[0] = start;
      ring->from_a[0] = TRUE;
      body = first->b;
      for (guint k = 1; k < ring->n; k++)
        {
          guint i = g_array_index (way, guint, way->len - k);
          const CwJoint *joint = &linkage->joints[block->joints[i]];

          ring->slots[k] = i;
          ring->from_a[k] = joint->a == body;
          body = joint->a == body ? joint->b : joint->a;
        }
    }
  g_array_unref (way);
  return ring->n <= CW_TRUE_RING_MOST;
}

/* Turns the ring so that it begins behind a place where two parts of a body met. */
static void
cut_ring (const Truing *self, Ring *ring)
{
  Ring old = *ring;

  for (guint k = 0; k < ring->n && !ring->cut; k++)
    {
      guint before = (k + ring->n - 1) % ring->n;
      const CwJoint *in = &self->linkage->joints[self->block->joints[old.slots[k]]];
      const CwJoint *out = &self->linkage->joints[self->block->joints[old.slots[before]]];

      if ((old.from_a[k] ? in->part_a : in->part_b) == (old.from_a[before] ? out->part_b : out->part_a))
        continue;
      ring->cut = TRUE;
      for (guint m = 0; m < ring->n; m++)
        {
          ring->slots[m] = old.slots[(k + m) % ring->n];
          ring->from_a[m] = old.from_a[(k + m) % ring->n];
        }
    }
}

static gboolean
is_known (const Truing *self, const Ring *ring)
{
  for (guint i = 0; i < self->rings->len; i++)
    {
      const Ring *other = &g_array_index (self->rings, Ring, i);
      guint shared = 0;

      if (other->n != ring->n)
        continue;
      for (guint k = 0; k < ring->n; k++)
        for (guint m = 0; m < ring->n; m++)
          shared += ring->slots[k] == other->slots[m];
      if (shared == ring->n)
        return TRUE;
    }
  return FALSE;
}

static void
find_rings (Truing *self)
{
  g_autofree guint *from = g_new (guint, self->linkage->n_bodies);
  g_autofree guint *queue = g_new (guint, self->block->n_joints + 1);

  for (guint i = 0; i < self->block->n_joints; i++)
    {
      Ring ring;

      if (!find_ring (self, i, from, queue, &ring) || is_known (self, &ring))
        continue;
      cut_ring (self, &ring);
      if (!tell_kind (self, &ring))
        continue;
      g_array_append_val (self->rings, ring);
    }
}

static guint
ring_n_rows (const Ring *ring)
{
  return (ring->kind == RING_PARALLEL ? ring->n - 1 : ring->n + (ring->cone ? 2 : 0)) + ring->n_flats;
}

/* How far a ring is from what it was meant to be, in ticks. */
static void
ring_rows (const Truing *self, guint index, double *rows)
{
  const Ring *ring = &g_array_index (self->rings, Ring, index);
  Spot p[CW_TRUE_RING_MOST], q[CW_TRUE_RING_MOST];
  Plane round = walk_round (self, ring, 0, p, q);
  double along;
  guint n = 0;

  if (ring->kind == RING_PARALLEL)
    {
      for (guint k = 1; k < ring->n; k++)
        rows[n++] = sine_between (p[0], q[0], p[k], q[k])
                    * MIN (self->length[ring->slots[0]], self->length[ring->slots[k]]) / 2;
    }
  else
    {
      const double *moved = self->shift + self->n_lines + 2 * index;
      Spot v = { ring->point.x + moved[0] * CW_TRUE_POINT_EASE, ring->point.y + moved[1] * CW_TRUE_POINT_EASE };
      Spot after = plane_apply (round, v);

      for (guint k = 0; k < ring->n; k++)
        rows[n++] = off_line (p[k], q[k], v);
      if (ring->cone)
        {
          rows[n++] = after.x - v.x;
          rows[n++] = after.y - v.y;
        }
    }
  for (guint k = 0; k < ring->n_flats; k++)
    rows[n++] = flat_miss (self, ring, ring->flats[k], &along);
}

static double
all_rows (const Truing *self, double *rows)
{
  double worst = 0;
  guint n = 0;

  for (guint i = 0; i < self->rings->len; i++)
    {
      ring_rows (self, i, rows + n);
      n += ring_n_rows (&g_array_index (self->rings, Ring, i));
    }
  for (guint i = 0; i < n; i++)
    worst = MAX (worst, fabs (rows[i]));
  return worst;
}

/* Derivatives by differences of half a tick either way, which are as good as exact: lines are millions of them long. */
static void
fill_columns (Truing *self, guint n_rows, double *columns, double *low, double *high)
{
  guint stride = n_rows + self->n_unknown, row = 0;

  for (gsize i = 0; i < (gsize) stride * self->n_unknown; i++)
    columns[i] = 0;
  for (guint i = 0; i < self->rings->len; i++)
    {
      const Ring *ring = &g_array_index (self->rings, Ring, i);
      guint n = ring_n_rows (ring), n_vary = 2 * ring->n + (ring->kind == RING_POINT ? 2 : 0);

      for (guint k = 0; k < n_vary; k++)
        {
          guint c = k < 2 * ring->n ? 2 * ring->slots[k / 2] + k % 2 : self->n_lines + 2 * i + k % 2;
          double at = self->shift[c];

          self->shift[c] = at + 0.5;
          ring_rows (self, i, high);
          self->shift[c] = at - 0.5;
          ring_rows (self, i, low);
          self->shift[c] = at;
          for (guint r = 0; r < n; r++)
            columns[(gsize) c * stride + row + r] = high[r] - low[r];
        }
      row += n;
    }
}

/* Least-norm Newton steps on from the shifts so far until all is true; FALSE if no small shift makes it so. */
static gboolean
make_true (Truing *self)
{
  guint n_rows = 0, n = self->n_unknown;
  g_autofree double *columns = NULL;
  g_autofree double *right = NULL;
  g_autofree double *low = NULL;
  g_autofree double *high = NULL;
  g_autofree double *step = g_new (double, n);
  g_autofree guint *used = NULL;
  double worst;

  for (guint i = 0; i < self->rings->len; i++)
    n_rows += ring_n_rows (&g_array_index (self->rings, Ring, i));
  columns = g_new (double, (gsize) (n_rows + n) * n);
  right = g_new (double, n_rows + n);
  low = g_new (double, n_rows);
  high = g_new (double, n_rows);
  used = g_new (guint, n_rows + n);
  worst = all_rows (self, right);
  for (guint again = 0; worst > CW_TRUE_DONE_TICKS; again++)
    {
      if (again == CW_TRUE_ROUNDS)
        return FALSE;
      fill_columns (self, n_rows, columns, low, high);
      for (guint i = 0; i < n_rows; i++)
        right[i] = -right[i];
      if (!cw_dense_least (n_rows, n, columns, right, CW_DAMPING_LEAST, used, NULL, step))
        return FALSE;
      for (guint i = 0; i < n; i++)
        self->shift[i] += step[i];
      worst = all_rows (self, right);
    }
  for (guint i = 0; i < self->n_lines; i++)
    if (!(fabs (self->shift[i]) <= CW_TRUE_MOST_TICKS))
      return FALSE;
  return TRUE;
}

static gboolean
true_block (const CwLinkage *linkage, const CwBlock *block, CwJoint *joints)
{
  guint n = block->n_joints;
  Truing self = { .linkage = linkage, .block = block, .n_lines = 2 * n };
  g_autofree Plane *planes = g_new (Plane, 2 * n);
  g_autofree Spot *spots = g_new (Spot, 3 * n);
  g_autofree double *length = g_new (double, n);
  g_autofree double *shift = g_new0 (double, 4 * n);
  g_autofree double *before = NULL;
  g_autoptr (GArray) rings = g_array_new (FALSE, FALSE, sizeof (Ring));
  gboolean good = TRUE, moved = FALSE;

  self.in_a = planes;
  self.in_b = planes + n;
  self.p = spots;
  self.q = spots + n;
  self.side = spots + 2 * n;
  self.length = length;
  self.rings = rings;
  self.shift = shift;
  for (guint i = 0; i < n; i++)
    {
      const CwJoint *joint = &joints[block->joints[i]];

      good &= plane_from_rigid (&joint->in_a, linkage->size, &self.in_a[i])
              && plane_from_rigid (&joint->in_b, linkage->size, &self.in_b[i]);
      self.p[i] = (Spot){ joint->p.x, joint->p.y };
      self.q[i] = (Spot){ joint->q.x, joint->q.y };
      length[i] = distance (self.p[i], self.q[i]);
      self.side[i] = (Spot){ -(self.q[i].y - self.p[i].y) / length[i], (self.q[i].x - self.p[i].x) / length[i] };
    }
  if (!good)
    return FALSE;
  find_rings (&self);
  self.n_unknown = 2 * n + 2 * rings->len;
  if (!make_true (&self))
    return FALSE;
  before = g_memdup2 (shift, self.n_unknown * sizeof (double));
  for (guint i = 0; i < rings->len; i++)
    find_flats (&self, &g_array_index (rings, Ring, i));
  if (!make_true (&self))
    memcpy (shift, before, self.n_unknown * sizeof (double));
  for (guint i = 0; i < n; i++)
    {
      CwJoint *joint = &joints[block->joints[i]];
      Spot p, q;

      get_line (&self, i, &p, &q);
      moved |= fabs (shift[2 * i]) > 0 || fabs (shift[2 * i + 1]) > 0;
      joint->p.x = p.x;
      joint->p.y = p.y;
      joint->q.x = q.x;
      joint->q.y = q.y;
    }
  return moved;
}

/**
 * cw_linkage_true_joints:
 * @linkage: a linkage of lines as drawn
 * @joints: (array) (inout): its joints; lines in loops may be shifted by a few ticks
 *
 * Lays fold lines that rounding to ticks put out of true as they were meant: parallel, through one point, closing flat.
 * Blocks of many hinges are left as drawn.
 *
 * Returns: whether any line was shifted
 */
gboolean
cw_linkage_true_joints (const CwLinkage *linkage, CwJoint *joints)
{
  gboolean moved = FALSE;

  g_return_val_if_fail (linkage != NULL && (joints != NULL || linkage->n_joints == 0), FALSE);

  for (guint k = 0; k < linkage->n_blocks; k++)
    if (linkage->blocks[k].n_joints <= CW_TRUE_BLOCK_MOST)
      moved |= true_block (linkage, &linkage->blocks[k], joints);
  return moved;
}
