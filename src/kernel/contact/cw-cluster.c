/* cw-cluster.c: sorts the panels at a rest state into planes and cuts those up where panels lie on one another.
 *
 * Only panels that hang together can lie on one another; those not yet on the card are sorted by what they hang on. At
 * a flat state everything on the card is one cluster. Else panels are compared with those whose plane is about as far
 * from one fixed point, so that a long accordion at any angle costs no more than sorting.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "contact/cw-cluster.h"

#include "geometry/cw-tolerance.h"

/* Where planes are measured from, as shares of the design's size: no rational ratio to anything drawn. */
static const CwVec3 measured_from = { 0.618034, 0.414214, 0.732051 };

/* Distances of one plane, measured from corners that stand off by the tolerance, differ by up to this many times it:
 * the design's size over the narrowest panel worth folding. */
#define PLANE_BLUR 64

typedef struct
{
  guint group, panel;
  double far;
} Candidate;

static int
compare_candidates (const void *one, const void *two)
{
  const Candidate *a = one, *b = two;

  if (a->group != b->group)
    return a->group < b->group ? -1 : 1;
  if (a->far < b->far || a->far > b->far)
    return a->far < b->far ? -1 : 1;
  return a->panel < b->panel ? -1 : a->panel > b->panel;
}

static double
design_size (const CwPanelSet *set)
{
  double size = 1;

  for (guint i = 0; i < set->n_pieces; i++)
    size = MAX (size,
                MAX (set->maps[i].box_max.x - set->maps[i].box_min.x, set->maps[i].box_max.y - set->maps[i].box_min.y));
  return size;
}

/* Every corner of the panel lies in the plane z = 0 of `place`, a panel's placement to that plane's space. */
static gboolean
lies_in (const CwPanel *panel, const CwRigid *place, double tolerance)
{
  for (guint r = 0; r < panel->outline.n_rings; r++)
    for (guint k = 0; k < panel->outline.rings[r].n_points; k++)
      {
        CwPoint p = panel->outline.rings[r].points[k];

        if (fabs (cw_rigid_apply (place, cw_vec3 (p.x, p.y, 0)).z) > tolerance)
          return FALSE;
      }
  return TRUE;
}

/* Gives every panel the number of a panel of its plane; the held panel's plane is numbered by it. */
static guint *
find_planes (const CwMotion *motion, guint step, const CwPose *pose)
{
  const CwPanelSet *set = cw_motion_get_set (motion);
  const CwMotionState *state
    = step == G_MAXUINT ? cw_motion_get_start_state (motion) : cw_motion_get_state (motion, step);
  guint n = pose->n_panels, held = cw_motion_get_held (motion);
  double give = set->design->head && set->design->head->has_give ? set->design->head->give.ticks : 0;
  double tolerance = state->misfit_ticks > 0 ? MAX (give, CW_TOL_FLAT_TICKS) : CW_TOL_FLAT_TICKS;
  CwVec3 from = cw_vec3_scale (measured_from, design_size (set));
  guint *plane = g_new (guint, n + 1);
  g_autofree Candidate *candidates = g_new (Candidate, n + 1);
  guint n_candidates = 0;

  for (guint i = 0; i < n; i++)
    {
      const CwRigid *place = &pose->places[i];
      CwVec3 normal = cw_vec3 (place->r[0][2], place->r[1][2], place->r[2][2]);

      plane[i] = G_MAXUINT;
      if (state->flat && pose->present[i])
        plane[i] = held;
      else
        candidates[n_candidates++] = (Candidate){ cw_motion_get_group (motion, step, i), i,
                                                  fabs (cw_vec3_dot (normal, cw_vec3_sub (place->t, from))) };
    }
  qsort (candidates, n_candidates, sizeof (Candidate), compare_candidates);
  for (guint i = 0; i < n_candidates; i++)
    {
      const Candidate *own = &candidates[i];
      guint tried = G_MAXUINT;

      plane[own->panel] = own->panel;
      for (guint k = i; k-- > 0;)
        {
          const Candidate *other = &candidates[k];
          CwRigid back, place;

          if (other->group != own->group || own->far - other->far > PLANE_BLUR * tolerance)
            break;
          if (plane[other->panel] == tried)
            continue;
          tried = plane[other->panel];
          back = cw_rigid_inverse (&pose->places[tried]);
          place = cw_rigid_compose (&back, &pose->places[own->panel]);
          if (!lies_in (cw_panel_set_get_panel (set, own->panel), &place, tolerance))
            continue;
          plane[own->panel] = tried;
          break;
        }
    }
  return plane;
}

/* TRUE if two members may lie on one another: they are not all parts of one unfolded piece. */
static gboolean
may_overlap (const CwPanelSet *set, const CwCluster *cluster)
{
  guint piece, other;

  cw_panel_set_locate (set, cluster->panels[0], &piece, NULL);
  for (guint i = 1; i < cluster->n_panels; i++)
    {
      const CwRigid *place = &cluster->laid[i].place;

      cw_panel_set_locate (set, cluster->panels[i], &other, NULL);
      if (other != piece || place->r[2][2] < 0 || fabs (place->r[0][1]) > CW_TOL_SAME_LINE
          || fabs (place->t.x) > CW_TOL_FLAT_TICKS || fabs (place->t.y) > CW_TOL_FLAT_TICKS)
        return TRUE;
    }
  return FALSE;
}

/* Fold lines between two members, one entry a stretch. */
static GArray *
find_seams (const CwPanelSet *set, const CwClusters *clusters, guint which, const CwPose *pose)
{
  GArray *seams = g_array_new (FALSE, FALSE, sizeof (CwSeam));
  const CwCluster *cluster = &clusters->clusters[which];

  for (guint i = 0; i < pose->n_hinges; i++)
    {
      guint piece, left, right;
      const CwHinge *hinge = cw_panel_set_get_hinge (set, i, &piece);
      CwSeam seam;

      left = set->first_panel[piece] + hinge->left;
      right = set->first_panel[piece] + hinge->right;
      if (clusters->cluster_of[left] != which || clusters->cluster_of[right] != which)
        continue;
      seam = (CwSeam){ .a = clusters->member_of[left], .b = clusters->member_of[right], .hinge = i };
      seam.folded = cw_laid_is_turned (&cluster->laid[seam.a]) != cw_laid_is_turned (&cluster->laid[seam.b]);
      seam.fronts = !seam.folded ? 0 : pose->angles_deg[i] > 0 ? 1 : -1;
      for (guint k = 0; k < hinge->stretches->len; k++)
        {
          const CwStretch *stretch = &g_array_index (hinge->stretches, CwStretch, k);

          seam.p = cw_laid_point (&cluster->laid[seam.a], stretch->a);
          seam.q = cw_laid_point (&cluster->laid[seam.a], stretch->b);
          g_array_append_val (seams, seam);
        }
    }
  return seams;
}

/**
 * cw_clusters_new:
 * @motion: a motion; must outlive the result
 * @step: index of a step; %G_MAXUINT for the moment before the first
 * @pose: where everything is at that step's end
 *
 * Returns: (transfer full): the planes, cut up where panels lie on one another, in no order yet
 */
CwClusters *
cw_clusters_new (const CwMotion *motion, guint step, const CwPose *pose)
{
  CwPanelSet *set;
  CwClusters *clusters;
  g_autofree guint *plane = NULL;
  g_autofree guint *number = NULL;
  guint n, held;

  g_return_val_if_fail (motion != NULL && pose != NULL, NULL);

  set = cw_motion_get_set (motion);
  held = cw_motion_get_held (motion);
  n = pose->n_panels;
  clusters = g_atomic_rc_box_new0 (CwClusters);
  clusters->n_panels = n;
  clusters->clusters = g_new0 (CwCluster, n + 1);
  clusters->cluster_of = g_new0 (guint, n + 1);
  clusters->member_of = g_new0 (guint, n + 1);
  plane = find_planes (motion, step, pose);
  number = g_new (guint, n + 1);
  for (guint i = 0; i < n; i++)
    number[i] = G_MAXUINT;
  if (held < n)
    number[plane[held]] = clusters->n_clusters++;
  for (guint i = 0; i < n; i++)
    {
      if (number[plane[i]] == G_MAXUINT)
        number[plane[i]] = clusters->n_clusters++;
      clusters->cluster_of[i] = number[plane[i]];
      clusters->clusters[number[plane[i]]].n_panels++;
    }
  for (guint c = 0; c < clusters->n_clusters; c++)
    {
      CwCluster *cluster = &clusters->clusters[c];

      cluster->panels = g_new (guint, cluster->n_panels);
      cluster->laid = g_new0 (CwLaid, cluster->n_panels);
      cluster->open = g_array_new (FALSE, FALSE, sizeof (CwPair));
      cluster->n_panels = 0;
    }
  if (held < n)
    clusters->clusters[0].panels[clusters->clusters[0].n_panels++] = held;
  for (guint i = 0; i < n; i++)
    {
      CwCluster *cluster = &clusters->clusters[clusters->cluster_of[i]];

      if (i != held)
        cluster->panels[cluster->n_panels++] = i;
    }
  for (guint c = 0; c < clusters->n_clusters; c++)
    {
      CwCluster *cluster = &clusters->clusters[c];
      CwRigid back = cw_rigid_inverse (&pose->places[cluster->panels[0]]);

      cluster->group = cw_motion_get_group (motion, step, cluster->panels[0]);
      for (guint i = 0; i < cluster->n_panels; i++)
        {
          clusters->member_of[cluster->panels[i]] = i;
          cluster->laid[i].outline = &cw_panel_set_get_panel (set, cluster->panels[i])->outline;
          cluster->laid[i].place = cw_rigid_compose (&back, &pose->places[cluster->panels[i]]);
        }
    }
  for (guint c = 0; c < clusters->n_clusters; c++)
    {
      CwCluster *cluster = &clusters->clusters[c];
      gboolean whole = c == 0 && step != G_MAXUINT && cw_motion_get_state (motion, step)->flat;

      if (whole || may_overlap (set, cluster))
        {
          g_autoptr (GArray) seams = find_seams (set, clusters, c, pose);

          cluster->pile
            = cw_pile_new (cluster->laid, cluster->n_panels, (const CwSeam *) (void *) seams->data, seams->len);
        }
    }
  return clusters;
}

/**
 * cw_clusters_ref:
 *
 * Returns: (transfer full): @clusters
 */
CwClusters *
cw_clusters_ref (CwClusters *clusters)
{
  g_return_val_if_fail (clusters != NULL, NULL);
  return g_atomic_rc_box_acquire (clusters);
}

static void
clusters_clear (gpointer data)
{
  CwClusters *clusters = data;

  for (guint c = 0; c < clusters->n_clusters; c++)
    {
      CwCluster *cluster = &clusters->clusters[c];

      g_free (cluster->panels);
      g_free (cluster->laid);
      cw_pile_free (cluster->pile);
      g_array_unref (cluster->open);
    }
  g_free (clusters->clusters);
  g_free (clusters->cluster_of);
  g_free (clusters->member_of);
}

/**
 * cw_clusters_unref:
 * @clusters: (transfer full): clusters
 */
void
cw_clusters_unref (CwClusters *clusters)
{
  g_return_if_fail (clusters != NULL);
  g_atomic_rc_box_release_full (clusters, clusters_clear);
}
