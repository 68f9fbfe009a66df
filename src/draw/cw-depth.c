/* cw-depth.c: which panel lies in front of which, pair by pair, and an order of painting from that.
 *
 * Two panels whose projections overlap are compared at the overlap itself (cw-facet.c), not by boxes or middles: right
 * for L-shapes, holes and long leaves. Depth is linear over a flat panel, so the mean difference over the overlap is
 * its value at the overlap's centroid. Where the two lie in one plane depth says nothing, and the kernel's order of
 * layers does (cw-flat-state.h), so that picture and verdict cannot disagree. It is told by the panel's own front face,
 * so the order is the same from every side. Where two pierce one another, which is a fault to be seen, the second is
 * cut in two along the line in which they do, and each part has its own place in the order.
 *
 * The order itself is topological; ready panels are taken farthest first. Rings of panels (each over the next) are
 * opened at the least overlap and the hidden part painted once more where it belongs.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-depth.h"

#include <math.h>
#include <string.h>

/* Two panels nearer than this over their whole overlap lie in one plane, ticks (3 micrometres). Ten times less than
 * what lifts the rim of a quarter-inch flap by a sixth of a degree. */
#define ONE_PLANE 1.0
/* Overlaps smaller than this are seams, square ticks: a hundred times the rounding of a 60 inch seam. */
#define SEAM_AREA 1.0
/* A panel seen more edge-on than this has no picture, cosine. */
#define EDGE_ON 1e-4
/* Two panels pierce one another when each comes before the other by more than this somewhere, ticks: a hundredth of a
 * millimetre, over what rounding makes at a fold line; and over at least this much of the picture, square ticks: a
 * sixty-fourth of an inch square. */
#define PIERCES 4.0
#define PIERCE_AREA 16384.0
/* Parts that piercing panels are cut into, beyond one a panel. */
#define PARTS_MORE 48
/* Above this many panels only depth counts at flat states: remembering needs room and time with the square. */
#define PANELS_MAX 400

typedef struct
{
  CwRigid place;  /* flat to view */
  double a, b, c; /* depth at view (x, y): a x + b y + c */
  double mean;    /* depth of the middle */
  gboolean shown, edge_on;
} Seen;

/* A panel, or what is left of it between cuts. */
typedef struct
{
  guint panel;
  guint first, n_facets; /* into `cast` */
  guint n_cuts;
  CwCut cuts[CW_DEPTH_CUTS];
  double box[4], mean;
} Part;

struct CwDepth
{
  /* Borrowed */
  const CwMotion *motion;
  const CwPanelSet *set;
  /* Owned */
  guint n, n_steps;
  GArray **facets; /* n of GArray of CwFacet, flat */
  gint8 *sides;    /* n_steps x n x n: +1 the second lies on the front of the first, -1 on its back, 0 unknown */
  guint *first;    /* n + 1: where a panel's facets start in `cast` */
  CwFacet *cast;   /* facets as seen; those of parts follow */
  guint n_cast, max_cast;
  Seen *seen;  /* n */
  Part *parts; /* n, then those cut off */
  guint n_parts, max_parts;
  gint8 *over;     /* max_parts x max_parts: +1 the first lies over the second */
  float *area;     /* max_parts x max_parts: of the overlap */
  guint *below;    /* max_parts: how many unpainted parts must come before */
  gboolean *done;  /* max_parts */
  CwPaint *paints; /* parts + patches */
  guint n_paints, max_paints;
};

static void
find_box (const CwDepth *depth, Part *part)
{
  part->box[0] = part->box[1] = G_MAXDOUBLE;
  part->box[2] = part->box[3] = -G_MAXDOUBLE;
  for (guint k = part->first; k < part->first + part->n_facets; k++)
    for (guint m = 0; m < depth->cast[k].n; m++)
      {
        part->box[0] = MIN (part->box[0], depth->cast[k].x[m]);
        part->box[1] = MIN (part->box[1], depth->cast[k].y[m]);
        part->box[2] = MAX (part->box[2], depth->cast[k].x[m]);
        part->box[3] = MAX (part->box[3], depth->cast[k].y[m]);
      }
}

static void
look (CwDepth *depth, guint i, const CwRigid *place)
{
  Seen *seen = &depth->seen[i];
  Part *part = &depth->parts[i];
  const CwFacet *flat = &g_array_index (depth->facets[i], CwFacet, 0);
  const double (*r)[3] = place->r;
  double det = r[0][0] * r[1][1] - r[0][1] * r[1][0];

  seen->place = *place;
  seen->edge_on = fabs (det) < EDGE_ON;
  for (guint k = 0; k < depth->facets[i]->len; k++)
    {
      CwFacet *cast = &depth->cast[depth->first[i] + k];

      cast->n = flat[k].n;
      for (guint m = 0; m < cast->n; m++)
        {
          cast->x[m] = r[0][0] * flat[k].x[m] + r[0][1] * flat[k].y[m] + place->t.x;
          cast->y[m] = r[1][0] * flat[k].x[m] + r[1][1] * flat[k].y[m] + place->t.y;
        }
    }
  CwPoint inside = cw_panel_set_get_panel (depth->set, i)->inside;
  seen->mean = r[2][0] * inside.x + r[2][1] * inside.y + place->t.z;
  *part = (Part){ .panel = i, .first = depth->first[i], .n_facets = depth->facets[i]->len, .mean = seen->mean };
  find_box (depth, part);
  if (seen->edge_on)
    return;
  /* Depth over the picture: solve the flat place for (x, y), then its depth. */
  seen->a = (r[2][0] * r[1][1] - r[2][1] * r[1][0]) / det;
  seen->b = (r[2][1] * r[0][0] - r[2][0] * r[0][1]) / det;
  seen->c = place->t.z - seen->a * place->t.x - seen->b * place->t.y;
}

/* How two parts lie to one another over their overlap; depth of the first less that of the second. */
typedef struct
{
  double area, sum; /* of the overlap; of the difference over it */
  double least, most;
} Gap;

static Gap
compare (const CwDepth *depth, const Part *one, const Part *other)
{
  const Seen *s = &depth->seen[one->panel], *t = &depth->seen[other->panel];
  Gap gap = { 0, 0, G_MAXDOUBLE, -G_MAXDOUBLE };

  if (s->edge_on || t->edge_on || one->box[0] >= other->box[2] || other->box[0] >= one->box[2]
      || one->box[1] >= other->box[3] || other->box[1] >= one->box[3])
    return gap;
  for (guint k = one->first; k < one->first + one->n_facets; k++)
    for (guint m = other->first; m < other->first + other->n_facets; m++)
      {
        double x[CW_OVERLAP_CORNERS], y[CW_OVERLAP_CORNERS], cx = 0, cy = 0, part = 0;
        guint n;
        double own = cw_facet_overlap (&depth->cast[k], &depth->cast[m], x, y, &n);
        if (n == 0 || own <= 0)
          continue;
        for (guint p = 0; p < n; p++)
          {
            guint q = p + 1 < n ? p + 1 : 0;
            double cross = (x[p] - x[0]) * (y[q] - y[0]) - (x[q] - x[0]) * (y[p] - y[0]);
            double difference = (s->a - t->a) * x[p] + (s->b - t->b) * y[p] + s->c - t->c;
            gap.least = MIN (gap.least, difference);
            gap.most = MAX (gap.most, difference);
            part += cross;
            cx += cross * (x[p] + x[q] + x[0]) / 3;
            cy += cross * (y[p] + y[q] + y[0]) / 3;
          }
        if (fabs (part) <= 0)
          continue;
        gap.area += own;
        gap.sum += own * ((s->a - t->a) * cx / part + (s->b - t->b) * cy / part + s->c - t->c);
      }
  return gap;
}

/* What is left of a part on one side of a cut, as a part after the last; FALSE when there is nothing or no room. */
static gboolean
cut_part (CwDepth *depth, const Part *whole, const CwCut *cut)
{
  Part *part = &depth->parts[depth->n_parts];
  double area = 0;

  if (depth->n_parts >= depth->max_parts || whole->n_cuts >= CW_DEPTH_CUTS
      || depth->n_cast + whole->n_facets > depth->max_cast)
    return FALSE;
  *part = *whole;
  part->first = depth->n_cast;
  part->n_facets = 0;
  part->mean = 0;
  for (guint k = whole->first; k < whole->first + whole->n_facets; k++)
    {
      CwFacet *kept = &depth->cast[depth->n_cast + part->n_facets];
      const Seen *seen = &depth->seen[whole->panel];

      if (!cw_facet_cut (&depth->cast[k], cut, kept))
        continue;
      part->n_facets++;
      for (guint m = 0; m < kept->n; m++)
        part->mean += seen->a * kept->x[m] + seen->b * kept->y[m] + seen->c;
      area += kept->n;
    }
  if (part->n_facets == 0)
    return FALSE;
  part->mean /= area;
  part->cuts[part->n_cuts++] = *cut;
  find_box (depth, part);
  depth->n_cast += part->n_facets;
  depth->n_parts++;
  return TRUE;
}

/* Cuts `index` in two where it pierces `by`: the part before it stays, the part behind it comes last. */
static gboolean
cut_in_two (CwDepth *depth, guint index, guint by)
{
  Part whole = depth->parts[index];
  const Seen *s = &depth->seen[whole.panel], *t = &depth->seen[depth->parts[by].panel];
  /* Nearer than the other: (s - t) of the depths below 0. */
  CwCut before = { s->a - t->a, s->b - t->b, t->c - s->c, depth->parts[by].panel };
  CwCut behind = { -before.nx, -before.ny, -before.d, before.by };

  if (!cut_part (depth, &whole, &behind))
    return FALSE;
  if (!cut_part (depth, &whole, &before))
    {
      depth->n_parts--;
      return FALSE;
    }
  depth->parts[index] = depth->parts[--depth->n_parts];
  return TRUE;
}

static gint8 *
side_of (const CwDepth *depth, guint step, guint i, guint j)
{
  return &depth->sides[((gsize) step * depth->n + i) * depth->n + j];
}

/* The layers as the kernel found them, at the end of every step. */
static void
remember (CwDepth *depth, const CwFlatStates *states)
{
  for (guint step = 0; step < depth->n_steps; step++)
    for (guint i = 0; i < depth->n; i++)
      for (guint j = 0; j < depth->n; j++)
        if (i != j)
          *side_of (depth, step, i, j) = (gint8) cw_flat_states_side (states, step, i, j);
}

/**
 * cw_depth_new:
 * @motion: a motion; must outlive the result
 * @states: how its paper lies at the end of every step
 *
 * Returns: (transfer full): what is needed to order its panels at any moment
 */
CwDepth *
cw_depth_new (const CwMotion *motion, const CwFlatStates *states)
{
  CwDepth *depth = g_new0 (CwDepth, 1);

  depth->motion = motion;
  depth->set = cw_motion_get_set (motion);
  depth->n = cw_panel_set_n_panels (depth->set);
  depth->n_steps = cw_motion_get_n_steps (motion);
  gsize n = MAX (depth->n, 1);
  guint widest = 1;
  depth->facets = g_new0 (GArray *, n);
  depth->first = g_new0 (guint, n + 1);
  for (guint i = 0; i < depth->n; i++)
    {
      depth->facets[i] = cw_facets_new (&cw_panel_set_get_panel (depth->set, i)->outline);
      depth->first[i + 1] = depth->first[i] + depth->facets[i]->len;
    }
  for (guint i = 0; i < depth->n; i++)
    widest = MAX (widest, depth->facets[i]->len);
  depth->max_cast = depth->first[depth->n] + 2 * PARTS_MORE * widest;
  depth->cast = g_new0 (CwFacet, depth->max_cast);
  depth->seen = g_new0 (Seen, n);
  depth->max_parts = depth->n + PARTS_MORE;
  depth->parts = g_new0 (Part, depth->max_parts);
  depth->over = g_new0 (gint8, (gsize) depth->max_parts * depth->max_parts);
  depth->area = g_new0 (float, (gsize) depth->max_parts * depth->max_parts);
  depth->below = g_new0 (guint, depth->max_parts);
  depth->done = g_new0 (gboolean, depth->max_parts);
  depth->max_paints = 4 * depth->max_parts;
  depth->paints = g_new0 (CwPaint, depth->max_paints);
  if (depth->n <= PANELS_MAX && depth->n_steps > 0)
    {
      depth->sides = g_new0 (gint8, depth->n_steps * n * n);
      remember (depth, states);
    }
  return depth;
}

/**
 * cw_depth_free:
 * @depth: (transfer full) (nullable): an order
 */
void
cw_depth_free (CwDepth *depth)
{
  if (depth == NULL)
    return;
  for (guint i = 0; i < depth->n; i++)
    g_array_unref (depth->facets[i]);
  g_free (depth->facets);
  g_free (depth->first);
  g_free (depth->cast);
  g_free (depth->seen);
  g_free (depth->parts);
  g_free (depth->sides);
  g_free (depth->over);
  g_free (depth->area);
  g_free (depth->below);
  g_free (depth->done);
  g_free (depth->paints);
  g_free (depth);
}

/* +1: i lies over j for this eye. */
static int
remembered (const CwDepth *depth, guint step, double fraction, guint i, guint j)
{
  int side = 0;

  if (depth->sides == NULL || step >= depth->n_steps)
    return 0;
  int end = *side_of (depth, step, i, j), start = step > 0 ? *side_of (depth, step - 1, i, j) : 0;
  side = fraction > 0.5 ? (end != 0 ? end : start) : (start != 0 ? start : end);
  /* On i's front: nearer than i when i's front looks at the eye (its normal -z turned toward -z of the view). */
  return depth->seen[i].place.r[2][2] > 0 ? -side : side;
}

static void
paint (CwDepth *depth, guint index, guint within)
{
  const Part *part = &depth->parts[index], *bound = within != G_MAXUINT ? &depth->parts[within] : NULL;
  CwPaint *paint;

  if (depth->n_paints >= depth->max_paints)
    return;
  paint = &depth->paints[depth->n_paints++];
  paint->panel = part->panel;
  paint->within = bound ? bound->panel : G_MAXUINT;
  paint->n_cuts = 0;
  for (guint k = 0; k < part->n_cuts; k++)
    paint->cuts[paint->n_cuts++] = part->cuts[k];
  for (guint k = 0; bound != NULL && k < bound->n_cuts; k++)
    paint->cuts[paint->n_cuts++] = bound->cuts[k];
}

/* The next part: nothing unpainted lies under it; of those the farthest. With none, the one that hides least. */
static guint
choose (const CwDepth *depth, gboolean *ring)
{
  guint best = G_MAXUINT;
  double least = G_MAXDOUBLE;

  for (guint i = 0; i < depth->n_parts; i++)
    if (!depth->done[i] && depth->below[i] == 0
        && (best == G_MAXUINT || depth->parts[i].mean > depth->parts[best].mean))
      best = i;
  *ring = best == G_MAXUINT;
  if (!*ring)
    return best;
  for (guint i = 0; i < depth->n_parts; i++)
    {
      double hides = 0;
      if (depth->done[i])
        continue;
      for (guint j = 0; j < depth->n_parts; j++)
        if (!depth->done[j] && depth->over[(gsize) i * depth->max_parts + j] > 0)
          hides += (double) depth->area[(gsize) i * depth->max_parts + j];
      if (hides < least)
        {
          least = hides;
          best = i;
        }
    }
  return best;
}

/* +1: the first lies over the second, -1: under it, 0: nowhere together, or it is not known. */
static int
tell_order (const CwDepth *depth, const Part *one, const Part *other, const Gap *gap, guint step, double fraction)
{
  if (gap->area < SEAM_AREA)
    return 0;
  if (MAX (gap->most, -gap->least) < ONE_PLANE)
    return remembered (depth, step, fraction, one->panel, other->panel);
  return gap->sum < 0 ? 1 : -1;
}

/* Which of every two parts lies over the other; what pierces another is cut in two on the way. A part is done when it
 * has been held against all before it, so only the one at hand is ever cut, and then asked anew. */
static void
put_in_order (CwDepth *depth, guint step, double fraction)
{
  for (guint i = 0; i < depth->n_parts; i++)
    for (guint j = 0; j < i; j++)
      {
        const Part *one = &depth->parts[i], *other = &depth->parts[j];
        gsize at = (gsize) i * depth->max_parts + j, back = (gsize) j * depth->max_parts + i;
        Gap gap;
        int over;

        depth->over[at] = depth->over[back] = 0;
        if (!depth->seen[one->panel].shown || !depth->seen[other->panel].shown || one->panel == other->panel)
          continue;
        gap = compare (depth, one, other);
        if (gap.area > PIERCE_AREA && gap.least < -PIERCES && gap.most > PIERCES && cut_in_two (depth, i, j))
          {
            j = G_MAXUINT; /* from the first again */
            continue;
          }
        over = tell_order (depth, one, other, &gap, step, fraction);
        depth->over[at] = (gint8) over;
        depth->over[back] = (gint8) -over;
        depth->area[at] = depth->area[back] = (float) gap.area;
      }
  for (guint i = 0; i < depth->n_parts; i++)
    {
      depth->below[i] = 0;
      depth->over[(gsize) i * depth->max_parts + i] = 0;
      for (guint j = 0; j < depth->n_parts; j++)
        if (depth->over[(gsize) i * depth->max_parts + j] > 0)
          depth->below[i]++;
    }
}

/**
 * cw_depth_order:
 * @depth: from cw_depth_new()
 * @pose: a moment of its motion
 * @step: the step of that moment; beyond the last: before the first
 * @fraction: how far into the step
 * @view: space to x right, y down, z away from the eye, ticks
 * @n_paints: (out): how many there are
 *
 * Allocates nothing.
 *
 * Returns: (transfer none): panels to paint in this order, until the next call
 */
const CwPaint *
cw_depth_order (CwDepth *depth, const CwPose *pose, guint step, double fraction, const CwRigid *view, guint *n_paints)
{
  guint left = 0;

  depth->n_paints = 0;
  depth->n_cast = depth->first[depth->n];
  depth->n_parts = depth->n;
  for (guint i = 0; i < depth->n; i++)
    {
      depth->seen[i].shown = pose->present[i];
      depth->parts[i] = (Part){ .panel = i };
      if (!pose->present[i])
        continue;
      CwRigid place = cw_rigid_compose (view, &pose->places[i]);
      look (depth, i, &place);
    }
  put_in_order (depth, step, fraction);
  for (guint i = 0; i < depth->n_parts; i++)
    {
      depth->done[i] = !depth->seen[depth->parts[i].panel].shown;
      left += depth->done[i] ? 0 : 1;
    }

  for (; left > 0; left--)
    {
      gboolean ring;
      guint next = choose (depth, &ring);
      depth->done[next] = TRUE;
      paint (depth, next, G_MAXUINT);
      for (guint i = 0; i < depth->n_parts; i++)
        {
          if (depth->over[(gsize) i * depth->max_parts + next] <= 0)
            continue;
          if (!depth->done[i])
            depth->below[i]--;
          else /* painted too early to open a ring: its part over this one comes once more */
            paint (depth, i, next);
        }
    }
  *n_paints = depth->n_paints;
  return depth->paints;
}

/**
 * cw_paint_keeps:
 * @paint: one thing to paint
 * @x: a place in the view, ticks
 * @y: the same
 *
 * Returns: whether its cuts leave that place
 */
gboolean
cw_paint_keeps (const CwPaint *paint, double x, double y)
{
  for (guint i = 0; i < paint->n_cuts; i++)
    if (paint->cuts[i].nx * x + paint->cuts[i].ny * y > paint->cuts[i].d)
      return FALSE;
  return TRUE;
}
