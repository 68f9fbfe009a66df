/* cw-cluster.h: which panels lie in one plane at the end of a step, and in what order they lie on one another there; of
 * the contact room only.
 *
 * The plane of a cluster is that of its first member, in that panel's own flat coordinates: its front looks to -z. The
 * held panel is the first member of its cluster.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "contact/cw-stack.h"
#include "fold/cw-motion.h"

G_BEGIN_DECLS

typedef struct
{
  guint group; /* cw_motion_get_group() */
  guint n_panels;
  guint *panels;          /* through the design; the first gives the plane, the others grow */
  CwLaid *laid;           /* n_panels */
  CwPile *pile;           /* NULL when no panel lies on another and nobody asked for cells */
  GArray *open;           /* of CwPair: pairs whose order neither the motion nor the paper tells */
  CwStackVerdict verdict; /* of the order, once it is there */
  gboolean gave_up;       /* the search for an order of open pairs reached its limit */
} CwCluster;

/* All panels of a design at the end of a step. */
typedef struct
{
  guint n_panels, n_clusters;
  CwCluster *clusters; /* the held panel's first */
  guint *cluster_of;   /* n_panels */
  guint *member_of;    /* n_panels: place in that cluster */
} CwClusters;

CwClusters *cw_clusters_new (const CwMotion *motion, guint step, const CwPose *pose);
CwClusters *cw_clusters_ref (CwClusters *clusters);
void cw_clusters_unref (CwClusters *clusters);
void cw_clusters_order (CwClusters *now, const CwClusters *before, const CwMotion *motion, CwMotionWork *work,
                        guint step, const CwPose *end, GCancellable *stop);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (CwClusters, cw_clusters_unref)

G_END_DECLS
