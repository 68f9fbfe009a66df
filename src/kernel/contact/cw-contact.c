/* cw-contact.c: what a face of a panel lies against, read off the stacks of the cells its plane is cut into.
 *
 * The neighbour in a cell's stack on the face's side is what the face meets there; none is air. Cells are brought back
 * from the plane into the panel's own flat coordinates, rounded to ticks and joined. A plane in which nothing lies on
 * anything has no cells: all is air.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "contact/cw-contact.h"

#include "contact/cw-flat-private.h"

/* One cell of the asking panel, in its own flat coordinates. */
typedef struct
{
  guint panel;
  CwFace face;
  CwPolygon where;
} Patch;

static int
compare_patches (const void *one, const void *two)
{
  const Patch *a = one, *b = two;

  if (a->panel != b->panel)
    return a->panel < b->panel ? -1 : 1;
  return cw_polygon_compare (&a->where, &b->where);
}

static void
contact_clear (void *data)
{
  cw_region_clear (&((CwContact *) data)->where);
}

static CwPolygon
bring_back (const CwPolygon *cell, const CwRigid *back)
{
  CwPolygon polygon = cw_polygon_copy (cell);

  for (guint r = 0; r < polygon.n_rings; r++)
    for (guint k = 0; k < polygon.rings[r].n_points; k++)
      {
        CwPoint *p = &polygon.rings[r].points[k];
        CwVec3 at = cw_rigid_apply (back, cw_vec3 (p->x, p->y, 0));

        *p = cw_point ((gint32) lround (at.x), (gint32) lround (at.y));
      }
  cw_polygon_arrange (&polygon);
  return polygon;
}

static GArray *
find_patches (const CwCluster *cluster, guint member, CwFace face)
{
  GArray *patches = g_array_new (FALSE, FALSE, sizeof (Patch));
  const CwPile *pile = cluster->pile;
  const CwLaid *laid = &cluster->laid[member];
  CwRigid back = cw_rigid_inverse (&laid->place);
  gboolean up = (face == CW_FACE_FRONT) != cw_laid_is_turned (laid);

  for (guint k = pile->first_of[member]; k < pile->first_of[member + 1]; k++)
    {
      const CwPileCell *cell = &g_array_index (pile->cells, CwPileCell, pile->cells_of[k]);
      Patch patch = { .panel = CW_CONTACT_AIR };
      guint seat = 0;

      while (cell->members[seat] != member)
        seat++;
      if (up ? seat > 0 : seat + 1 < cell->n_members)
        {
          guint other = cell->members[up ? seat - 1 : seat + 1];

          patch.panel = cluster->panels[other];
          /* Looking to -z one sees what looks to +z: of a panel that is not turned over, its back. */
          patch.face = up != cw_laid_is_turned (&cluster->laid[other]) ? CW_FACE_BACK : CW_FACE_FRONT;
        }
      patch.where = bring_back (&cell->outline, &back);
      if (patch.where.n_rings > 0)
        g_array_append_val (patches, patch);
      else
        cw_polygon_clear (&patch.where);
    }
  g_array_sort (patches, compare_patches);
  return patches;
}

/**
 * cw_contacts_find:
 * @states: states
 * @step: index of a step; %G_MAXUINT for the moment before the first
 * @panel: a panel, through the design
 * @face: a face of it
 * @known: (out) (nullable): how the order of layers there is known
 *
 * Returns: (transfer full) (element-type CwContact): what the face meets at the step's end, each other panel once, in
 *   the order of their numbers, air last; together they cover the panel but for slivers of rounding
 */
GArray *
cw_contacts_find (const CwFlatStates *states, guint step, guint panel, CwFace face, CwKnown *known)
{
  GArray *contacts = g_array_new (FALSE, FALSE, sizeof (CwContact));
  g_autoptr (GArray) patches = NULL;
  g_autoptr (GArray) own = g_array_new (FALSE, FALSE, sizeof (CwPolygon));
  const CwClusters *clusters;
  const CwCluster *cluster;

  g_array_set_clear_func (contacts, contact_clear);
  g_return_val_if_fail (states != NULL && (step == G_MAXUINT || step < states->n_steps), contacts);
  clusters = states->clusters[step == G_MAXUINT ? 0 : step + 1];
  g_return_val_if_fail (panel < clusters->n_panels, contacts);

  cluster = &clusters->clusters[clusters->cluster_of[panel]];
  if (known != NULL)
    *known = cluster->gave_up         ? CW_KNOWN_NOT_DECIDED
             : cluster->open->len > 0 ? CW_KNOWN_BOUNDED
             : cluster->pile != NULL  ? CW_KNOWN_NUMERIC
                                      : CW_KNOWN_EXACT;
  if (cluster->pile == NULL)
    {
      CwContact air = { .panel = CW_CONTACT_AIR,
                        .where = cw_region_from_polygon (cluster->laid[clusters->member_of[panel]].outline) };

      g_array_append_val (contacts, air);
      return contacts;
    }
  patches = find_patches (cluster, clusters->member_of[panel], face);
  for (guint i = 0; i < patches->len; i++)
    {
      const Patch *patch = &g_array_index (patches, Patch, i);

      g_array_append_val (own, patch->where);
      if (i + 1 == patches->len || g_array_index (patches, Patch, i + 1).panel != patch->panel)
        {
          CwContact contact
            = { patch->panel, patch->face, cw_region_join ((const CwPolygon *) (void *) own->data, own->len) };

          g_array_append_val (contacts, contact);
          g_array_set_size (own, 0);
        }
    }
  for (guint i = 0; i < patches->len; i++)
    cw_polygon_clear (&g_array_index (patches, Patch, i).where);
  return contacts;
}

/**
 * cw_contacts_same_as_before:
 * @states: states
 * @step: index of a step
 *
 * Returns: %TRUE if all contacts at the end of @step are those of the step before it (of the start, for the first)
 */
gboolean
cw_contacts_same_as_before (const CwFlatStates *states, guint step)
{
  g_return_val_if_fail (states != NULL && step < states->n_steps, FALSE);
  return states->clusters[step + 1] == states->clusters[step];
}
