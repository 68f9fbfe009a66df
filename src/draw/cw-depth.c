/* cw-depth.c: which panel lies in front of which, pair by pair, and an order of painting from that.
 *
 * Two panels whose projections overlap are compared at the overlap itself (cw-facet.c), not by boxes or middles: right
 * for L-shapes, holes and long leaves. Depth is linear over a flat panel, so the mean difference over the overlap is
 * its value at the overlap's centroid. Where the two lie in one plane depth says nothing, and the kernel's order of
 * layers does (cw-flat-state.h), so that picture and verdict cannot disagree. It is told by the panel's own front face,
 * so the order is the same from every side.
 *
 * The order itself is topological; ready panels are taken farthest first. Rings of panels (each over the next) are
 * opened at the least overlap and the hidden part painted once more where it belongs.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-depth.h"

#include <math.h>
#include <string.h>

#include "cw-facet.h"

/* Two panels nearer than this over their whole overlap lie in one plane, ticks (3 micrometres). Ten times less than
 * what lifts the rim of a quarter-inch flap by a sixth of a degree. */
#define ONE_PLANE 1.0
/* Overlaps smaller than this are seams, square ticks: a hundred times the rounding of a 60 inch seam. */
#define SEAM_AREA 1.0
/* A panel seen more edge-on than this has no picture, cosine. */
#define EDGE_ON 1e-4
/* Above this many panels only depth counts at flat states: remembering needs room and time with the square. */
#define PANELS_MAX 400

typedef struct
{
  CwRigid place;  /* flat to view */
  double a, b, c; /* depth at view (x, y): a x + b y + c */
  double box[4];
  double mean; /* depth of the middle */
  gboolean shown, edge_on;
} Seen;

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
  CwFacet *cast;   /* facets as seen */
  Seen *seen;      /* n */
  gint8 *over;     /* n x n: +1 the first lies over the second */
  float *area;     /* n x n: of the overlap */
  guint *below;    /* n: how many unpainted panels must come before */
  gboolean *done;  /* n */
  CwPaint *paints; /* n + patches */
  guint n_paints, max_paints;
};

static void
look (CwDepth *depth, guint i, const CwRigid *place)
{
  Seen *seen = &depth->seen[i];
  const CwFacet *flat = &g_array_index (depth->facets[i], CwFacet, 0);
  const double (*r)[3] = place->r;
  double det = r[0][0] * r[1][1] - r[0][1] * r[1][0];

  seen->place = *place;
  seen->edge_on = fabs (det) < EDGE_ON;
  seen->box[0] = seen->box[1] = G_MAXDOUBLE;
  seen->box[2] = seen->box[3] = -G_MAXDOUBLE;
  for (guint k = 0; k < depth->facets[i]->len; k++)
    {
      CwFacet *cast = &depth->cast[depth->first[i] + k];
      for (guint m = 0; m < 4; m++)
        {
          cast->x[m] = r[0][0] * flat[k].x[m] + r[0][1] * flat[k].y[m] + place->t.x;
          cast->y[m] = r[1][0] * flat[k].x[m] + r[1][1] * flat[k].y[m] + place->t.y;
          seen->box[0] = MIN (seen->box[0], cast->x[m]);
          seen->box[1] = MIN (seen->box[1], cast->y[m]);
          seen->box[2] = MAX (seen->box[2], cast->x[m]);
          seen->box[3] = MAX (seen->box[3], cast->y[m]);
        }
    }
  CwPoint inside = cw_panel_set_get_panel (depth->set, i)->inside;
  seen->mean = r[2][0] * inside.x + r[2][1] * inside.y + place->t.z;
  if (seen->edge_on)
    return;
  /* Depth over the picture: solve the flat place for (x, y), then its depth. */
  seen->a = (r[2][0] * r[1][1] - r[2][1] * r[1][0]) / det;
  seen->b = (r[2][1] * r[0][0] - r[2][0] * r[0][1]) / det;
  seen->c = place->t.z - seen->a * place->t.x - seen->b * place->t.y;
}

/* Compares two panels that have been looked at. Returns the sum of (depth of i - depth of j) over their overlap; area
 * gets the overlap's and widest the largest difference. */
static double
compare (const CwDepth *depth, guint i, guint j, double *area, double *widest)
{
  const Seen *s = &depth->seen[i], *t = &depth->seen[j];
  double sum = 0;

  *area = *widest = 0;
  if (s->edge_on || t->edge_on || s->box[0] >= t->box[2] || t->box[0] >= s->box[2] || s->box[1] >= t->box[3]
      || t->box[1] >= s->box[3])
    return 0;
  for (guint k = depth->first[i]; k < depth->first[i + 1]; k++)
    for (guint m = depth->first[j]; m < depth->first[j + 1]; m++)
      {
        double x[8], y[8], cx = 0, cy = 0, part = 0;
        guint n;
        double own = cw_facet_overlap (&depth->cast[k], &depth->cast[m], x, y, &n);
        if (n == 0 || own <= 0)
          continue;
        for (guint p = 0; p < n; p++)
          {
            guint q = p + 1 < n ? p + 1 : 0;
            double cross = (x[p] - x[0]) * (y[q] - y[0]) - (x[q] - x[0]) * (y[p] - y[0]);
            double difference = (s->a - t->a) * x[p] + (s->b - t->b) * y[p] + s->c - t->c;
            *widest = MAX (*widest, fabs (difference));
            part += cross;
            cx += cross * (x[p] + x[q] + x[0]) / 3;
            cy += cross * (y[p] + y[q] + y[0]) / 3;
          }
        if (fabs (part) <= 0)
          continue;
        *area += own;
        sum += own * ((s->a - t->a) * cx / part + (s->b - t->b) * cy / part + s->c - t->c);
      }
  return sum;
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
  depth->facets = g_new0 (GArray *, n);
  depth->first = g_new0 (guint, n + 1);
  for (guint i = 0; i < depth->n; i++)
    {
      depth->facets[i] = cw_facets_new (&cw_panel_set_get_panel (depth->set, i)->outline);
      depth->first[i + 1] = depth->first[i] + depth->facets[i]->len;
    }
  depth->cast = g_new0 (CwFacet, MAX (depth->first[depth->n], 1));
  depth->seen = g_new0 (Seen, n);
  depth->over = g_new0 (gint8, n * n);
  depth->area = g_new0 (float, n *n);
  depth->below = g_new0 (guint, n);
  depth->done = g_new0 (gboolean, n);
  depth->max_paints = (guint) (4 * n);
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
paint (CwDepth *depth, guint panel, guint within)
{
  if (depth->n_paints < depth->max_paints)
    depth->paints[depth->n_paints++] = (CwPaint){ panel, within };
}

/* The next panel: nothing unpainted lies under it; of those the farthest. With none, the one that hides least. */
static guint
choose (const CwDepth *depth, gboolean *ring)
{
  guint best = G_MAXUINT;
  double least = G_MAXDOUBLE;

  for (guint i = 0; i < depth->n; i++)
    if (depth->seen[i].shown && !depth->done[i] && depth->below[i] == 0
        && (best == G_MAXUINT || depth->seen[i].mean > depth->seen[best].mean))
      best = i;
  *ring = best == G_MAXUINT;
  if (!*ring)
    return best;
  for (guint i = 0; i < depth->n; i++)
    {
      double hides = 0;
      if (!depth->seen[i].shown || depth->done[i])
        continue;
      for (guint j = 0; j < depth->n; j++)
        if (!depth->done[j] && depth->over[(gsize) i * depth->n + j] > 0)
          hides += (double) depth->area[(gsize) i * depth->n + j];
      if (hides < least)
        {
          least = hides;
          best = i;
        }
    }
  return best;
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
  guint n = depth->n, left = 0;

  depth->n_paints = 0;
  for (guint i = 0; i < n; i++)
    {
      depth->seen[i].shown = pose->present[i];
      depth->below[i] = 0;
      depth->done[i] = FALSE;
      if (!pose->present[i])
        continue;
      CwRigid place = cw_rigid_compose (view, &pose->places[i]);
      look (depth, i, &place);
      left++;
    }
  memset (depth->over, 0, (gsize) n * n);
  for (guint i = 0; i < n; i++)
    for (guint j = i + 1; j < n; j++)
      {
        double area, widest;
        if (!depth->seen[i].shown || !depth->seen[j].shown)
          continue;
        double sum = compare (depth, i, j, &area, &widest);
        if (area < SEAM_AREA)
          continue;
        int over = sum < 0 ? 1 : -1;
        if (widest < ONE_PLANE)
          {
            over = remembered (depth, step, fraction, i, j);
            if (over == 0)
              continue;
          }
        depth->over[(gsize) i * n + j] = (gint8) over;
        depth->over[(gsize) j * n + i] = (gint8) -over;
        depth->area[(gsize) i * n + j] = depth->area[(gsize) j * n + i] = (float) area;
        depth->below[over > 0 ? i : j]++;
      }

  for (; left > 0; left--)
    {
      gboolean ring;
      guint next = choose (depth, &ring);
      depth->done[next] = TRUE;
      paint (depth, next, G_MAXUINT);
      for (guint i = 0; i < n; i++)
        {
          if (depth->over[(gsize) i * n + next] <= 0)
            continue;
          if (!depth->done[i])
            depth->below[i]--;
          else /* painted too early to open a ring: its part over this panel comes once more */
            paint (depth, i, next);
        }
    }
  *n_paints = depth->n_paints;
  return depth->paints;
}
