/* cw-bond.c: walks the rest states of a design and makes bonds where live glue comes to lie against paper.
 *
 * First the card moves without any glue: a stuck piece rides on its host panel. Rest states are then taken in order.
 * Where a live zone lies face to face against a panel in one plane with nothing between (cw-contact.h), that contact is
 * a bond from that step's end on. A bond between panels that keep their places to one another in the whole motion as it
 * is known changes no way the card goes; any other is handed to the motion (CwFixed), which is traced again, and the
 * states that follow are read off the new one. In the end the motion has all bonds.
 *
 * Contact is asked for in every rest state, also where the card stands: panels laid in one plane stick at once. A face
 * against an edge, and faces at an angle, are no contact.
 *
 * Over 500 lines because walking the states and making bonds hand the same half-made motion to and fro.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "glue/cw-bond-private.h"

#include "geometry/cw-tolerance.h"

/* Two panels are looked at at these moments of every step to see that they keep their places. */
static const double looks[] = { 0.25, 0.5, 0.75, 1.0 };

static gboolean
is_cancelled (const CwBonds *bonds)
{
  return g_cancellable_is_cancelled (bonds->cancellable);
}

static void
add_region (CwRegion *sum, const CwRegion *more)
{
  CwRegion both = cw_region_overlay (sum, more, CW_OVERLAY_UNION);

  cw_region_clear (sum);
  *sum = both;
}

/* --- Contact of zones at one rest state --------------------------------------------------------------------------- */

/* What one part of a zone newly meets. */
typedef struct
{
  guint part, panel;
  CwFace face;
  CwRegion where;
  CwKnown known;
} Meeting;

static void
meeting_clear (void *data)
{
  cw_region_clear (&((Meeting *) data)->where);
}

static void
find_meetings (CwBonds *bonds, guint index, guint step, GArray *meetings)
{
  const CwZone *zone = &g_array_index (bonds->zones, CwZone, index);
  CwZoneFate *fate = &bonds->fates[index];

  for (guint i = 0; i < zone->n_parts; i++)
    {
      const CwZonePart *part = &zone->parts[i];
      CwKnown known;
      g_autoptr (GArray) contacts = NULL;

      /* Where all of it sticks already nothing new can come. */
      if (cw_region_area2 (&part->where) - cw_region_area2 (&fate->done[i]) < (gint64) (2 * CW_TOL_GLUE_SQ_TICKS))
        continue;
      contacts = cw_contacts_find (bonds->states, step, part->panel, zone->glue->face, &known);

      for (guint k = 0; k < contacts->len; k++)
        {
          const CwContact *contact = &g_array_index (contacts, CwContact, k);
          CwRegion all = cw_region_overlay (&part->where, &contact->where, CW_OVERLAY_INTERSECTION), rest;
          Meeting meeting = { i, contact->panel, contact->face, { 0 }, known };

          if (contact->panel == CW_CONTACT_AIR)
            {
              if (step == zone->live)
                add_region (&fate->air[i], &all);
              cw_region_clear (&all);
              continue;
            }
          rest = cw_region_overlay (&all, &fate->done[i], CW_OVERLAY_DIFFERENCE);
          meeting.where = cw_glue_region_take_wide (&rest);
          cw_region_clear (&rest);
          cw_region_clear (&all);
          if (meeting.where.n_polygons > 0)
            g_array_append_val (meetings, meeting);
        }
    }
}

/* A piece named alone means those of its panels that the zone meets in the first state in which it meets any. */
static void
resolve_targets (CwBonds *bonds, guint index, const GArray *meetings)
{
  const CwZone *zone = &g_array_index (bonds->zones, CwZone, index);
  CwZoneFate *fate = &bonds->fates[index];

  for (guint t = 0; t < zone->n_targets; t++)
    {
      const CwZoneTarget *target = &zone->targets[t];
      gboolean met = FALSE;

      if (target->panel != G_MAXUINT || fate->resolved[t])
        continue;
      for (guint i = 0; i < meetings->len; i++)
        {
          guint panel = g_array_index (meetings, Meeting, i).panel, piece;

          cw_panel_set_locate (bonds->set, panel, &piece, NULL);
          if (piece != target->piece)
            continue;
          fate->intended[panel] = TRUE;
          met = TRUE;
        }
      fate->resolved[t] = met;
    }
}

static gboolean
lies_over (const CwRegion *region, const CwRegion *air)
{
  CwRegion common = cw_region_overlay (region, air, CW_OVERLAY_INTERSECTION);
  gboolean over = 2 * cw_region_area2 (&common) > cw_region_area2 (region);

  cw_region_clear (&common);
  return over;
}

static CwRigid
place_between (const CwPose *pose, guint a, guint b)
{
  CwRigid back = cw_rigid_inverse (&pose->places[a]);

  return cw_rigid_compose (&back, &pose->places[b]);
}

/* Makes a row of every meeting. */
static void
add_rows (CwBonds *bonds, guint index, guint step, const GArray *meetings, const CwPose *pose)
{
  const CwZone *zone = &g_array_index (bonds->zones, CwZone, index);
  CwZoneFate *fate = &bonds->fates[index];

  for (guint i = 0; i < meetings->len; i++)
    {
      const Meeting *meeting = &g_array_index (meetings, Meeting, i);
      guint own = zone->parts[meeting->part].panel;
      CwGlued row = { .zone = index,
                      .step = step,
                      .panel = own,
                      .other = meeting->panel,
                      .other_face = meeting->face,
                      .intended = fate->intended[meeting->panel],
                      .over_air = step > zone->live && lies_over (&meeting->where, &fate->air[meeting->part]),
                      .where = cw_region_copy (&meeting->where),
                      .area2 = cw_region_area2 (&meeting->where),
                      .other_in_panel = place_between (pose, own, meeting->panel),
                      .known = meeting->known };

      add_region (&fate->done[meeting->part], &meeting->where);
      g_array_append_val (bonds->rows, row);
    }
}

static void
meet (CwBonds *bonds, guint step, const CwPose *pose)
{
  for (guint z = 0; z < bonds->zones->len; z++)
    {
      const CwZone *zone = &g_array_index (bonds->zones, CwZone, z);
      g_autoptr (GArray) meetings = g_array_new (FALSE, FALSE, sizeof (Meeting));

      g_array_set_clear_func (meetings, meeting_clear);
      if (step < zone->live)
        continue;
      find_meetings (bonds, z, step, meetings);
      resolve_targets (bonds, z, meetings);
      add_rows (bonds, z, step, meetings, pose);
    }
}

/* --- Bonds and the motion ----------------------------------------------------------------------------------------- */

static gboolean
is_same_place (const CwPanel *panel, const CwRigid *a, const CwRigid *b)
{
  for (guint k = 0; panel->outline.n_rings > 0 && k < panel->outline.rings[0].n_points; k++)
    {
      CwVec3 p = cw_vec3 (panel->outline.rings[0].points[k].x, panel->outline.rings[0].points[k].y, 0);

      if (cw_vec3_length (cw_vec3_sub (cw_rigid_apply (a, p), cw_rigid_apply (b, p))) > CW_TOL_SAME_PLACE_TICKS)
        return FALSE;
    }
  return TRUE;
}

/* TRUE if the two panels of a row are one body in the motion from the row's step on, and no step lays one of them
 * elsewhere on the other. */
static gboolean
is_one_body (const CwBonds *bonds, const CwGlued *row, CwMotionWork *work, CwPose *pose)
{
  for (guint i = row->step; i < bonds->n_steps; i++)
    {
      const CwStep *step = g_ptr_array_index (bonds->set->design->steps, i);
      CwRigid now;

      if (cw_motion_get_body (bonds->motion, i, row->panel) != cw_motion_get_body (bonds->motion, i, row->other))
        return FALSE;
      if (step->what != CW_DO_STICK || i == row->step)
        continue;
      cw_motion_get_pose (bonds->motion, work, i, 1, pose);
      now = place_between (pose, row->panel, row->other);
      if (!is_same_place (cw_panel_set_get_panel (bonds->set, row->other), &row->other_in_panel, &now))
        return FALSE;
    }
  return TRUE;
}

/* TRUE if the two panels keep their places to one another from the row's step on: the bond stops nothing. */
static gboolean
keeps_place (const CwBonds *bonds, const CwGlued *row, CwMotionWork *work, CwPose *pose)
{
  const CwPanel *other = cw_panel_set_get_panel (bonds->set, row->other);

  for (guint i = row->step + 1; i < bonds->n_steps; i++)
    {
      if (cw_motion_get_group (bonds->motion, i, row->panel) != cw_motion_get_group (bonds->motion, i, row->other))
        return FALSE;
      for (guint k = 0; k < G_N_ELEMENTS (looks); k++)
        {
          CwRigid now;

          cw_motion_get_pose (bonds->motion, work, i, looks[k], pose);
          now = place_between (pose, row->panel, row->other);
          if (!is_same_place (other, &row->other_in_panel, &now))
            return FALSE;
        }
    }
  return TRUE;
}

/**
 * cw_bonds_try:
 * @bonds: bonds
 * @kept: (nullable): which rows to keep; all when %NULL
 * @zone: handed to @kept
 *
 * Returns: (transfer full) (nullable): the design's motion with these bonds alone; %NULL when cancelled
 */
CwMotion *
cw_bonds_try (const CwBonds *bonds, CwRowKept kept, guint zone)
{
  g_autoptr (GArray) fixed = g_array_new (FALSE, FALSE, sizeof (CwFixed));

  for (guint i = 0; i < bonds->rows->len; i++)
    {
      const CwGlued *row = &g_array_index (bonds->rows, CwGlued, i);
      CwFixed one = { row->step, row->panel, row->other, row->other_in_panel };

      if (kept == NULL || kept (bonds, row, zone))
        g_array_append_val (fixed, one);
    }
  return cw_motion_new_cancellable (bonds->set, (const CwFixed *) (void *) fixed->data, fixed->len, bonds->cancellable);
}

/* Plays the design again with all bonds so far; FALSE when cancelled. */
static gboolean
trace_again (CwBonds *bonds)
{
  CwMotion *motion = cw_bonds_try (bonds, NULL, 0);

  if (motion == NULL)
    return FALSE;
  cw_flat_states_unref (bonds->states);
  cw_motion_unref (bonds->motion);
  bonds->motion = motion;
  bonds->states = cw_flat_states_new_cancellable (motion, bonds->cancellable);
  return bonds->states != NULL;
}

/* Takes the rest states in order. FALSE when cancelled. */
static gboolean
walk (CwBonds *bonds)
{
  g_autoptr (CwMotionWork) work = cw_motion_work_new (bonds->motion);
  g_autoptr (CwPose) pose = cw_pose_new (bonds->motion);
  gboolean fresh = TRUE, pending = FALSE;

  for (guint i = 0; i < bonds->n_steps; i++)
    {
      guint first = bonds->rows->len;
      gboolean again = FALSE, starts = FALSE;

      for (guint z = 0; z < bonds->zones->len; z++)
        starts |= g_array_index (bonds->zones, CwZone, z).live == i;
      if (!starts && !fresh && cw_contacts_same_as_before (bonds->states, i))
        continue;
      if (is_cancelled (bonds))
        return FALSE;
      cw_motion_get_pose (bonds->motion, work, i, 1, pose);
      meet (bonds, i, pose);
      for (guint k = first; k < bonds->rows->len && !again; k++)
        {
          const CwGlued *row = &g_array_index (bonds->rows, CwGlued, k);

          if (is_one_body (bonds, row, work, pose))
            continue;
          pending = TRUE;
          again = !keeps_place (bonds, row, work, pose);
        }
      fresh = again;
      if (!again)
        continue;
      if (!trace_again (bonds))
        return FALSE;
      pending = FALSE;
      g_clear_pointer (&work, cw_motion_work_free);
      work = cw_motion_work_new (bonds->motion);
    }
  return !pending || trace_again (bonds);
}

static void
row_clear (void *data)
{
  cw_region_clear (&((CwGlued *) data)->where);
}

static void
bonds_clear (void *data)
{
  CwBonds *bonds = data;

  for (guint z = 0; z < bonds->zones->len; z++)
    {
      for (guint i = 0; i < g_array_index (bonds->zones, CwZone, z).n_parts; i++)
        {
          cw_region_clear (&bonds->fates[z].done[i]);
          cw_region_clear (&bonds->fates[z].air[i]);
        }
      g_free (bonds->fates[z].done);
      g_free (bonds->fates[z].air);
      g_free (bonds->fates[z].intended);
      g_free (bonds->fates[z].resolved);
    }
  g_free (bonds->fates);
  g_array_unref (bonds->zones);
  g_array_unref (bonds->rows);
  g_clear_pointer (&bonds->free, cw_motion_unref);
  g_clear_pointer (&bonds->motion, cw_motion_unref);
  g_clear_pointer (&bonds->states, cw_flat_states_unref);
  g_ptr_array_unref (bonds->findings);
  g_free (bonds->shut);
  g_free (bonds->told);
  cw_panel_set_unref (bonds->set);
}

static void
start_fates (CwBonds *bonds)
{
  bonds->fates = g_new0 (CwZoneFate, bonds->zones->len + 1);
  for (guint z = 0; z < bonds->zones->len; z++)
    {
      const CwZone *zone = &g_array_index (bonds->zones, CwZone, z);
      CwZoneFate *fate = &bonds->fates[z];

      fate->intended = g_new0 (gboolean, bonds->n_panels + 1);
      fate->resolved = g_new0 (gboolean, zone->n_targets + 1);
      fate->done = g_new0 (CwRegion, zone->n_parts + 1);
      fate->air = g_new0 (CwRegion, zone->n_parts + 1);
      for (guint t = 0; t < zone->n_targets; t++)
        if (zone->targets[t].panel != G_MAXUINT)
          fate->intended[zone->targets[t].panel] = TRUE;
    }
}

/**
 * cw_bonds_new:
 * @set: (transfer none): the panels of a design; referenced
 * @cancellable: (nullable): asked between units of work
 *
 * Returns: (transfer full) (nullable): what glue does to the design, its motion and rest states with all bonds made;
 *   %NULL when cancelled
 */
CwBonds *
cw_bonds_new (CwPanelSet *set, GCancellable *cancellable)
{
  CwBonds *bonds;

  g_return_val_if_fail (set != NULL, NULL);

  bonds = g_atomic_rc_box_new0 (CwBonds);
  bonds->set = cw_panel_set_ref (set);
  bonds->n_panels = cw_panel_set_n_panels (set);
  bonds->n_steps = set->design->steps->len;
  bonds->zones = cw_zones_new (set);
  bonds->rows = g_array_new (FALSE, FALSE, sizeof (CwGlued));
  g_array_set_clear_func (bonds->rows, row_clear);
  bonds->findings = g_ptr_array_new_with_free_func ((GDestroyNotify) cw_finding_free);
  bonds->shut = g_new0 (gboolean, bonds->n_steps + 1);
  bonds->told = g_new0 (gboolean, bonds->zones->len + 1);
  bonds->cancellable = cancellable;
  start_fates (bonds);
  bonds->free = cw_motion_new_cancellable (set, NULL, 0, cancellable);
  if (bonds->free != NULL)
    {
      bonds->motion = cw_motion_ref (bonds->free);
      bonds->states = cw_flat_states_new_cancellable (bonds->motion, cancellable);
    }
  if (bonds->states == NULL || !walk (bonds))
    {
      cw_bonds_unref (bonds);
      return NULL;
    }
  cw_bonds_tell_shut (bonds);
  cw_bonds_tell_strays (bonds);
  cw_bonds_tell_bridges (bonds);
  cw_bonds_tell_care (bonds);
  bonds->cancellable = NULL;
  if (g_cancellable_is_cancelled (cancellable))
    g_clear_pointer (&bonds, cw_bonds_unref);
  return bonds;
}

/**
 * cw_bonds_ref:
 *
 * Returns: (transfer full): @bonds
 */
CwBonds *
cw_bonds_ref (CwBonds *bonds)
{
  g_return_val_if_fail (bonds != NULL, NULL);
  return g_atomic_rc_box_acquire (bonds);
}

/**
 * cw_bonds_unref:
 * @bonds: (transfer full): bonds
 */
void
cw_bonds_unref (CwBonds *bonds)
{
  g_return_if_fail (bonds != NULL);
  g_atomic_rc_box_release_full (bonds, bonds_clear);
}

/**
 * cw_bonds_get_motion:
 *
 * Returns: (transfer none): how the card moves with all bonds
 */
CwMotion *
cw_bonds_get_motion (const CwBonds *bonds)
{
  g_return_val_if_fail (bonds != NULL, NULL);
  return bonds->motion;
}

/**
 * cw_bonds_get_states:
 *
 * Returns: (transfer none): how the paper lies at the end of every step of that motion
 */
CwFlatStates *
cw_bonds_get_states (const CwBonds *bonds)
{
  g_return_val_if_fail (bonds != NULL, NULL);
  return bonds->states;
}

/**
 * cw_bonds_get_zones:
 *
 * Returns: (transfer none) (element-type CwZone): the zones, in file order
 */
const GArray *
cw_bonds_get_zones (const CwBonds *bonds)
{
  g_return_val_if_fail (bonds != NULL, NULL);
  return bonds->zones;
}

/**
 * cw_bonds_get_rows:
 *
 * Returns: (transfer none) (element-type CwGlued): all bonds, by step, zone, own panel and the panel held
 */
const GArray *
cw_bonds_get_rows (const CwBonds *bonds)
{
  g_return_val_if_fail (bonds != NULL, NULL);
  return bonds->rows;
}

/**
 * cw_bonds_get_findings:
 *
 * Returns: (transfer none) (element-type CwFinding): what there is to say about the glue
 */
GPtrArray *
cw_bonds_get_findings (const CwBonds *bonds)
{
  g_return_val_if_fail (bonds != NULL, NULL);
  return bonds->findings;
}

/**
 * cw_bonds_get_area2:
 * @bonds: bonds
 * @zone: a zone's place in the design
 * @intended: what holds as it should, else what strays
 *
 * Returns: twice the area of the zone that does so in any rest state, square ticks
 */
gint64
cw_bonds_get_area2 (const CwBonds *bonds, guint zone, gboolean intended)
{
  gint64 area2 = 0;

  g_return_val_if_fail (bonds != NULL && zone < bonds->zones->len, 0);

  /* Rows of one zone never overlap: each is new contact only. */
  for (guint i = 0; i < bonds->rows->len; i++)
    {
      const CwGlued *row = &g_array_index (bonds->rows, CwGlued, i);

      if (row->zone == zone && row->intended == intended)
        area2 += row->area2;
    }
  return area2;
}

/**
 * cw_bonds_is_intended:
 * @bonds: bonds
 * @zone: a zone's place in the design
 * @panel: a panel, through the design
 *
 * Returns: %TRUE if the zone is meant to hold the panel
 */
gboolean
cw_bonds_is_intended (const CwBonds *bonds, guint zone, guint panel)
{
  g_return_val_if_fail (bonds != NULL && zone < bonds->zones->len && panel < bonds->n_panels, FALSE);
  return bonds->fates[zone].intended[panel];
}
