/* cw-safe-area.c: where glue may lie on a face.
 *
 * Every rest state from the one on in which the face meets what it is to hold is asked what lies against it
 * (cw-contact.h), also where the card stands: panels in one plane are known there too. Safe is what meets a host in all
 * of them; never is what meets anything else in one of them, or a host and later no more (glue there would hold what
 * has to leave). Of a face without glue what it met before a piece is stuck there counts no more: glue comes with it.
 * Then every place where the neighbour changes is kept away from by `hand`, and every edge by the creep of the glue:
 * the layer's own edge takes no hand, since layer and glue miss together. Regions are exact on ticks; shrinking is
 * mitred, so it never takes less than the distance. What is as narrow as rounding leaves between two states counts as
 * meeting what its surroundings meet.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "glue/cw-safe-area.h"

#include "geometry/cw-tolerance.h"

static void
take (CwRegion *region, CwRegion result)
{
  cw_region_clear (region);
  *region = result;
}

static void
add (CwRegion *region, const CwRegion *more)
{
  take (region, cw_region_overlay (region, more, CW_OVERLAY_UNION));
}

static void
keep (CwRegion *region, const CwRegion *within)
{
  take (region, cw_region_overlay (region, within, CW_OVERLAY_INTERSECTION));
}

static void
take_away (CwRegion *region, const CwRegion *less)
{
  take (region, cw_region_overlay (region, less, CW_OVERLAY_DIFFERENCE));
}

/* What is no wider than rounding leaves it goes. */
static void
drop_slivers (CwRegion *region)
{
  take (region, cw_region_open (region, (gint32) CW_TOL_CELL_TICKS));
}

/* What a walk over the rest states has seen. */
typedef struct
{
  const CwSafeAsk *ask;
  gboolean began;  /* a host has been met */
  CwRegion always; /* has met a host in every state since then */
  CwRegion once;   /* has met one */
  CwRegion never;
  CwKnown known;
} Walk;

static void
worsen (CwKnown *known, CwKnown by)
{
  *known = MAX (*known, by);
}

/* With hosts named: what meets one of them now, and what meets anything else. */
static void
see_hosts (Walk *walk, guint step, const CwFlatStates *states)
{
  CwKnown known = CW_KNOWN_EXACT;
  g_autoptr (GArray) contacts = cw_contacts_find (states, step, walk->ask->panel, walk->ask->face, &known);
  CwRegion now = { 0 }, gone;

  for (guint i = 0; i < contacts->len; i++)
    {
      const CwContact *contact = &g_array_index (contacts, CwContact, i);

      if (contact->panel != CW_CONTACT_AIR && walk->ask->hosts[contact->panel])
        add (&now, &contact->where);
    }
  drop_slivers (&now);
  for (guint i = 0; i < contacts->len; i++)
    {
      const CwContact *contact = &g_array_index (contacts, CwContact, i);

      if (contact->panel != CW_CONTACT_AIR && !walk->ask->hosts[contact->panel])
        add (&walk->never, &contact->where);
    }
  if (walk->began)
    keep (&walk->always, &now);
  else
    take (&walk->always, cw_region_copy (&now));
  walk->began |= now.n_polygons > 0;
  gone = cw_region_overlay (&walk->once, &now, CW_OVERLAY_DIFFERENCE);
  add (&walk->never, &gone);
  add (&walk->once, &now);
  cw_region_clear (&gone);
  cw_region_clear (&now);
  worsen (&walk->known, known);
}

/* Whether this step sticks the one panel's piece or the other's. */
static gboolean
sticks (const CwFlatStates *states, guint step, guint panel, guint other)
{
  const CwPanelSet *set = cw_motion_get_set (cw_flat_states_get_motion (states));
  const CwStep *what = g_ptr_array_index (set->design->steps, step);
  guint piece, index;

  if (what->what != CW_DO_STICK)
    return FALSE;
  cw_panel_set_locate (set, panel, &piece, &index);
  if (g_strcmp0 (set->maps[piece].piece->id, what->piece) == 0)
    return TRUE;
  cw_panel_set_locate (set, other, &piece, &index);
  return g_strcmp0 (set->maps[piece].piece->id, what->piece) == 0;
}

/* What met this place before was gone before the glue came. */
static void
meet_anew (Walk *walk, CwRegion *met, const CwContact *contact, guint n_panels)
{
  take_away (&walk->never, &contact->where);
  for (guint p = 0; p < n_panels; p++)
    if (p != contact->panel)
      take_away (&met[p], &contact->where);
}

/* Without: what has met each panel so far, and where it does no more. */
static void
see_all (Walk *walk, CwRegion *met, guint step, const CwFlatStates *states, guint n_panels)
{
  const CwSafeAsk *ask = walk->ask;
  CwKnown known = CW_KNOWN_EXACT;
  g_autoptr (GArray) contacts = cw_contacts_find (states, step, ask->panel, ask->face, &known);
  g_autofree const CwRegion **now = g_new0 (const CwRegion *, n_panels + 1);

  for (guint i = 0; i < contacts->len; i++)
    {
      const CwContact *contact = &g_array_index (contacts, CwContact, i);

      if (contact->panel == CW_CONTACT_AIR)
        continue;
      if (ask->loose != NULL && (ask->loose[contact->panel] || ask->loose[ask->panel]))
        {
          add (&walk->never, &contact->where);
          continue;
        }
      now[contact->panel] = &contact->where;
      if (ask->bare && sticks (states, step, ask->panel, contact->panel))
        meet_anew (walk, met, contact, n_panels);
    }
  for (guint p = 0; p < n_panels; p++)
    {
      if (met[p].n_polygons > 0)
        {
          CwRegion gone
            = now[p] ? cw_region_overlay (&met[p], now[p], CW_OVERLAY_DIFFERENCE) : cw_region_copy (&met[p]);

          add (&walk->never, &gone);
          cw_region_clear (&gone);
        }
      if (now[p] != NULL)
        {
          add (&met[p], now[p]);
          walk->began = TRUE;
        }
    }
  worsen (&walk->known, known);
}

static void
walk_states (Walk *walk, const CwFlatStates *states, guint n_panels)
{
  const CwSafeAsk *ask = walk->ask;
  g_autofree CwRegion *met = ask->hosts == NULL ? g_new0 (CwRegion, n_panels + 1) : NULL;

  for (guint i = ask->first; i <= ask->last && i < cw_motion_get_n_steps (cw_flat_states_get_motion (states)); i++)
    {
      if (i > ask->first && cw_contacts_same_as_before (states, i))
        continue;
      if (ask->hosts != NULL)
        see_hosts (walk, i, states);
      else
        see_all (walk, met, i, states, n_panels);
    }
  for (guint p = 0; met != NULL && p < n_panels; p++)
    {
      add (&walk->always, &met[p]);
      cw_region_clear (&met[p]);
    }
  if (met != NULL)
    take_away (&walk->always, &walk->never);
  drop_slivers (&walk->never);
  drop_slivers (&walk->always);
  /* Where both are claimed, rounding has put the edge of one state a tick beside that of another. */
  take_away (&walk->always, &walk->never);
}

/**
 * cw_safe_area_find:
 * @states: how the paper lies at every step's end
 * @ask: which face, from when to when, and what it is to hold
 *
 * Returns: (transfer full): where glue may lie on the face; cleared with cw_safe_area_clear()
 */
CwSafeArea
cw_safe_area_find (const CwFlatStates *states, const CwSafeAsk *ask)
{
  CwSafeArea area = { 0 };
  Walk walk = { .ask = ask };
  const CwPanelSet *set;
  CwRegion face;

  g_return_val_if_fail (states != NULL && ask != NULL, area);
  set = cw_motion_get_set (cw_flat_states_get_motion (states));
  g_return_val_if_fail (ask->panel < cw_panel_set_n_panels (set), area);
  g_return_val_if_fail (ask->creep >= 0 && ask->hand >= 0, area);

  area = (CwSafeArea){ .panel = ask->panel, .face = ask->face, .creep = ask->creep, .hand = ask->hand };
  face = cw_region_from_polygon (&cw_panel_set_get_panel (set, ask->panel)->outline);
  walk_states (&walk, states, cw_panel_set_n_panels (set));
  area.held = ask->hosts != NULL || walk.always.n_polygons > 0;
  area.never = walk.never;
  area.known = walk.known;
  area.safe = cw_region_copy (&walk.always);
  if (ask->hand > 0 && area.safe.n_polygons > 0)
    {
      CwRegion other = cw_region_overlay (&face, &walk.always, CW_OVERLAY_DIFFERENCE), wide;

      /* Slivers along the layer's own edge are no neighbour. */
      drop_slivers (&other);
      wide = cw_region_grow (&other, ask->hand);
      take_away (&area.safe, &wide);
      cw_region_clear (&wide);
      cw_region_clear (&other);
    }
  if (ask->creep > 0)
    take (&area.safe, cw_region_grow (&area.safe, -ask->creep));
  area.near = cw_region_overlay (&walk.always, &area.safe, CW_OVERLAY_DIFFERENCE);
  cw_region_clear (&walk.always);
  cw_region_clear (&walk.once);
  cw_region_clear (&face);
  return area;
}

/**
 * cw_safe_area_clear:
 * @area: an area; its regions are freed and left empty
 */
void
cw_safe_area_clear (CwSafeArea *area)
{
  g_return_if_fail (area != NULL);
  cw_region_clear (&area->safe);
  cw_region_clear (&area->near);
  cw_region_clear (&area->never);
}
