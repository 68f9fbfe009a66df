/* cw-bond-care.c: glue that is missing, too near to an edge, or heated.
 *
 * A piece that a step sticks and that no bond joins to the piece it was stuck on by the end is held by nothing; pieces
 * laid without glue on purpose join like bonds do. A panel that a zone names and never meets, while the zone holds
 * something else, is not held either. Wet glue is asked how far it is from where what it holds ends, on either sheet:
 * nearer than it creeps it comes out there. Heat loosens what was glued before.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "glue/cw-bond-private.h"

#include "contact/cw-panel-words.h"
#include "geometry/cw-sets.h"
#include "geometry/cw-tolerance.h"

#include <glib/gi18n-lib.h>

/* --- Missing ------------------------------------------------------------------------------------------------------ */

/* Pieces that bonds and tucking join share a number. */
static guint *
find_groups (const CwBonds *bonds)
{
  const CwPanelSet *set = bonds->set;
  guint *group = cw_sets_new (set->n_pieces);

  for (guint i = 0; i < bonds->rows->len; i++)
    {
      const CwGlued *row = &g_array_index (bonds->rows, CwGlued, i);
      guint a, b;

      cw_panel_set_locate (set, row->panel, &a, NULL);
      cw_panel_set_locate (set, row->other, &b, NULL);
      cw_sets_join (group, a, b);
    }
  for (guint i = 0; i < bonds->n_steps; i++)
    {
      const CwStep *step = g_ptr_array_index (set->design->steps, i);
      guint a, b;

      if (step->what != CW_DO_STICK || !step->tucked || step->piece == NULL || step->on.piece == NULL)
        continue;
      a = cw_design_find_piece (set->design, step->piece);
      b = cw_design_find_piece (set->design, step->on.piece);
      if (a < set->n_pieces && b < set->n_pieces)
        cw_sets_join (group, a, b);
    }
  for (guint i = 0; i < set->n_pieces; i++)
    group[i] = cw_sets_find (group, i);
  return group;
}

static gboolean
is_taken_away (const CwBonds *bonds, guint step, const char *piece)
{
  for (guint i = step + 1; i < bonds->n_steps; i++)
    {
      const CwStep *later = g_ptr_array_index (bonds->set->design->steps, i);

      if (later->what == CW_DO_TAKE_AWAY && g_strcmp0 (later->piece, piece) == 0)
        return TRUE;
    }
  return FALSE;
}

static void
tell_missing (CwBonds *bonds)
{
  const CwPanelSet *set = bonds->set;
  g_autofree guint *group = find_groups (bonds);
  g_autofree gboolean *told = g_new0 (gboolean, set->n_pieces + 1);

  for (guint i = 0; i < bonds->n_steps; i++)
    {
      const CwStep *step = g_ptr_array_index (set->design->steps, i);
      guint piece, host;
      CwFinding *finding;

      if (step->what != CW_DO_STICK || step->tucked || step->piece == NULL || !step->has_on || step->on.piece == NULL
          || is_taken_away (bonds, i, step->piece))
        continue;
      piece = cw_design_find_piece (set->design, step->piece);
      host = cw_design_find_piece (set->design, step->on.piece);
      if (piece >= set->n_pieces || host >= set->n_pieces || told[piece] || group[piece] == group[host]
          || set->maps[piece].panels->len == 0)
        continue;
      told[piece] = TRUE;
      finding = cw_bonds_new_finding (bonds, CW_FINDING_GLUE_MISSING, i, CW_KNOWN_EXACT);
      cw_finding_add_piece (finding, set->maps[piece].piece->id);
      cw_finding_add_piece (finding, set->maps[host].piece->id);
      cw_finding_set_words (finding, N_ ("Nothing holds “{0}” on “{1}”: no glue between the two meets paper."),
                            N_ ("Add glue where “{0}” lies on “{1}”, or say that it is tucked in."),
                            cw_bonds_piece_name (bonds, piece), cw_bonds_piece_name (bonds, host), NULL);
      g_ptr_array_add (bonds->findings, finding);
    }
}

/* A panel named in `holds` that the zone never meets, though it holds another panel. */
static void
tell_not_met (CwBonds *bonds, guint index)
{
  const CwZone *zone = &g_array_index (bonds->zones, CwZone, index);

  for (guint t = 0; t < zone->n_targets; t++)
    {
      const CwZoneTarget *target = &zone->targets[t];
      const CwGlued *first = NULL;
      gboolean met = FALSE;
      g_autofree char *wanted = NULL, *instead = NULL;
      CwFinding *finding;

      if (target->panel == G_MAXUINT)
        continue;
      for (guint i = 0; i < bonds->rows->len; i++)
        {
          const CwGlued *row = &g_array_index (bonds->rows, CwGlued, i);

          if (row->zone != index)
            continue;
          met |= row->other == target->panel;
          if (first == NULL && row->intended)
            first = row;
        }
      if (met || first == NULL)
        continue;
      wanted = cw_panel_words (bonds->set, target->panel);
      instead = cw_panel_words (bonds->set, first->other);
      finding = cw_bonds_new_finding (bonds, CW_FINDING_GLUE_MISSING, first->step, first->known);
      cw_panel_set_tell (bonds->set, finding, zone->panel);
      cw_panel_set_tell (bonds->set, finding, target->panel);
      cw_panel_set_tell (bonds->set, finding, first->other);
      cw_bonds_set_at_row (bonds, finding, first);
      cw_finding_set_words (finding,
                            N_ ("The glue of “{0}” should hold {1} too, but never comes to lie on it: since “{3}” it "
                                "sticks to {2}."),
                            N_ ("Glue {1} with a zone of its own, or let this one hold {2} only."),
                            cw_bonds_piece_name (bonds, zone->piece), wanted, instead,
                            cw_bonds_step_name (bonds, first->step), NULL);
      g_ptr_array_add (bonds->findings, finding);
    }
}

/* --- Near an edge ------------------------------------------------------------------------------------------------- */

/* Where paper lies on what the zone should hold, on its own face, in the step in which it first holds. */
static CwRegion
find_held (const CwBonds *bonds, guint index, guint step)
{
  const CwZone *zone = &g_array_index (bonds->zones, CwZone, index);
  CwRegion all = { 0 };

  for (guint i = bonds->set->first_panel[zone->piece]; i < bonds->set->first_panel[zone->piece + 1]; i++)
    {
      g_autoptr (GArray) contacts = cw_contacts_find (bonds->states, step, i, zone->glue->face, NULL);

      for (guint k = 0; k < contacts->len; k++)
        {
          const CwContact *contact = &g_array_index (contacts, CwContact, k);
          CwRegion both;

          if (contact->panel == CW_CONTACT_AIR || !bonds->fates[index].intended[contact->panel])
            continue;
          both = cw_region_overlay (&all, &contact->where, CW_OVERLAY_UNION);
          cw_region_clear (&all);
          all = both;
        }
    }
  return all;
}

/* How far a point is from the outline of a region, ticks. */
static double
outline_distance (const CwRegion *region, CwPoint p)
{
  double least = G_MAXDOUBLE;

  for (guint i = 0; i < region->n_polygons; i++)
    for (guint r = 0; r < region->polygons[i].n_rings; r++)
      {
        const CwRing *ring = &region->polygons[i].rings[r];

        for (guint k = 0; k < ring->n_points; k++)
          least = MIN (least, cw_segment_distance (ring->points[k], ring->points[(k + 1) % ring->n_points], p.x, p.y));
      }
  return least;
}

/* The nearest that two regions' outlines come to one another, and where: at a corner of one of them. */
static double
find_gap (const CwRegion *one, const CwRegion *two, CwPoint *at)
{
  double least = G_MAXDOUBLE;

  for (guint side = 0; side < 2; side++)
    {
      const CwRegion *corners = side == 0 ? one : two, *edges = side == 0 ? two : one;

      for (guint i = 0; i < corners->n_polygons; i++)
        for (guint r = 0; r < corners->polygons[i].n_rings; r++)
          for (guint k = 0; k < corners->polygons[i].rings[r].n_points; k++)
            {
              double gap = outline_distance (edges, corners->polygons[i].rings[r].points[k]);

              if (gap >= least)
                continue;
              least = gap;
              *at = corners->polygons[i].rings[r].points[k];
            }
    }
  return least;
}

static void
tell_near_edge (CwBonds *bonds, guint index)
{
  const CwZone *zone = &g_array_index (bonds->zones, CwZone, index);
  gint32 creep = cw_glue_kind_get_creep (zone->glue->kind);
  const CwGlued *first = NULL;
  CwRegion held, inner, wet = { 0 }, out, wide;
  CwPoint at = { 0, 0 };

  for (guint i = 0; i < bonds->rows->len && first == NULL; i++)
    if (g_array_index (bonds->rows, CwGlued, i).zone == index && g_array_index (bonds->rows, CwGlued, i).intended)
      first = &g_array_index (bonds->rows, CwGlued, i);
  if (creep <= 0 || first == NULL)
    return;
  held = find_held (bonds, index, first->step);
  for (guint i = 0; i < zone->n_parts; i++)
    {
      CwRegion own = cw_region_overlay (&zone->parts[i].where, &held, CW_OVERLAY_INTERSECTION);
      CwRegion both = cw_region_overlay (&wet, &own, CW_OVERLAY_UNION);

      cw_region_clear (&own);
      cw_region_clear (&wet);
      wet = both;
    }
  inner = cw_region_grow (&held, -creep);
  out = cw_region_overlay (&wet, &inner, CW_OVERLAY_DIFFERENCE);
  wide = cw_glue_region_take_wide (&out);
  if (wide.n_polygons > 0)
    {
      double gap = find_gap (&wet, &held, &at);
      g_autofree char *gap_text = cw_bonds_length_text (bonds, gap), *creep_text = cw_bonds_length_text (bonds, creep);
      CwFinding *finding = cw_bonds_new_finding (bonds, CW_FINDING_GLUE_NEAR_EDGE, first->step, first->known);

      cw_panel_set_tell (bonds->set, finding, zone->panel);
      cw_finding_set_at (finding, bonds->set->maps[zone->piece].piece->id, at.x, at.y);
      cw_finding_set_amount (finding, CW_AMOUNT_TICKS, gap);
      if (gap < CW_TOL_GLUE_TICKS)
        cw_finding_set_words (finding,
                              N_ ("The wet glue of “{0}” goes up to an edge or an opening and creeps out there when it "
                                  "is pressed."),
                              N_ ("Keep it {1} from every edge."), cw_bonds_piece_name (bonds, zone->piece), creep_text,
                              NULL);
      else
        cw_finding_set_words (finding,
                              N_ ("The wet glue of “{0}” is only {2} from an edge or an opening; it creeps up to {1} "
                                  "when it is pressed."),
                              N_ ("Keep it {1} from every edge."), cw_bonds_piece_name (bonds, zone->piece), creep_text,
                              gap_text, NULL);
      g_ptr_array_add (bonds->findings, finding);
    }
  cw_region_clear (&wide);
  cw_region_clear (&out);
  cw_region_clear (&inner);
  cw_region_clear (&wet);
  cw_region_clear (&held);
}

/* --- Heat --------------------------------------------------------------------------------------------------------- */

/* The first step in whose end glue lies on the piece: its own, or that of what is glued to it. */
static guint
find_first_glue (const CwBonds *bonds, guint piece, guint *zone)
{
  guint first = G_MAXUINT;

  for (guint z = 0; z < bonds->zones->len; z++)
    {
      const CwZone *own = &g_array_index (bonds->zones, CwZone, z);

      if (own->piece != piece || own->live >= first)
        continue;
      first = own->live;
      *zone = z;
    }
  for (guint i = 0; i < bonds->rows->len; i++)
    {
      const CwGlued *row = &g_array_index (bonds->rows, CwGlued, i);
      guint other;

      cw_panel_set_locate (bonds->set, row->other, &other, NULL);
      if (other != piece || row->step >= first)
        continue;
      first = row->step;
      *zone = row->zone;
    }
  return first;
}

static void
tell_heat (CwBonds *bonds)
{
  const CwPanelSet *set = bonds->set;
  g_autofree gboolean *told = g_new0 (gboolean, set->n_pieces + 1);

  for (guint i = 0; i < bonds->n_steps; i++)
    {
      const CwStep *step = g_ptr_array_index (set->design->steps, i);

      for (guint k = 0; k < step->heat->len; k++)
        {
          guint piece = cw_design_find_piece (set->design, g_ptr_array_index (step->heat, k)), zone = 0, since;
          const CwGlue *glue;
          CwFinding *finding;

          if (piece >= set->n_pieces || told[piece])
            continue;
          since = find_first_glue (bonds, piece, &zone);
          if (since >= i)
            continue;
          told[piece] = TRUE;
          glue = g_array_index (bonds->zones, CwZone, zone).glue;
          finding = cw_bonds_new_finding (bonds, CW_FINDING_HEAT_AFTER_GLUE, i, CW_KNOWN_EXACT);
          cw_finding_add_piece (finding, set->maps[piece].piece->id);
          cw_finding_set_words (finding,
                                glue->kind == CW_GLUE_FOAM
                                  ? N_ (
                                    "“{0}” uses heat on “{1}”, which has had foam on it since “{2}”: heat melts foam "
                                    "and loosens glue.")
                                  : N_ ("“{0}” uses heat on “{1}”, which has had glue on it since “{2}”: heat loosens "
                                        "glue."),
                                N_ ("Use the heat before “{2}”."), cw_bonds_step_name (bonds, i),
                                cw_bonds_piece_name (bonds, piece), cw_bonds_step_name (bonds, since), NULL);
          g_ptr_array_add (bonds->findings, finding);
        }
    }
}

/**
 * cw_bonds_tell_care:
 * @bonds: bonds, all made
 *
 * Adds missing glue, wet glue near edges and heat on glue to their findings.
 */
void
cw_bonds_tell_care (CwBonds *bonds)
{
  tell_missing (bonds);
  for (guint z = 0; z < bonds->zones->len; z++)
    {
      if (g_array_index (bonds->zones, CwZone, z).panel == G_MAXUINT)
        continue;
      tell_not_met (bonds, z);
      tell_near_edge (bonds, z);
    }
  tell_heat (bonds);
}
