/* cw-bond-safe.c: where glue may lie on a face of a design: what cw-safe-area.c is asked.
 *
 * A face is to hold the panels that its zones are meant for, as they were met; without any, the panel that its piece is
 * stuck on. It is asked from the first step on in whose end the piece lies there or a zone of it sticks. The glue that
 * creeps farthest counts. A face that is not stuck down and carries no glue may hold whatever stays with it: it is
 * asked from when its piece is on the card, and what a step sticks there is met anew. Pieces that are only tucked in,
 * and that no glue holds, may be drawn out again: nothing stays with them.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "glue/cw-bond-private.h"

/* Whether a step lays this piece without glue, and none ever holds it. */
static gboolean
is_loose (const CwBonds *bonds, guint piece)
{
  const char *id = bonds->set->maps[piece].piece->id;
  gboolean tucked = FALSE;

  for (guint i = 0; i < bonds->n_steps; i++)
    {
      const CwStep *step = g_ptr_array_index (bonds->set->design->steps, i);

      tucked |= step->what == CW_DO_STICK && step->tucked && g_strcmp0 (step->piece, id) == 0;
    }
  for (guint i = 0; tucked && i < bonds->rows->len; i++)
    {
      const CwGlued *row = &g_array_index (bonds->rows, CwGlued, i);
      guint a, b, index;

      cw_panel_set_locate (bonds->set, row->panel, &a, &index);
      cw_panel_set_locate (bonds->set, row->other, &b, &index);
      tucked = !row->intended || (a != piece && b != piece);
    }
  return tucked;
}

/* The step that brings the piece onto the card; 0 for one that is there from the start. */
static guint
find_coming (const CwBonds *bonds, guint piece)
{
  const char *id = bonds->set->maps[piece].piece->id;

  for (guint i = 0; i < bonds->n_steps; i++)
    {
      const CwStep *step = g_ptr_array_index (bonds->set->design->steps, i);

      if (step->what == CW_DO_STICK && g_strcmp0 (step->piece, id) == 0)
        return i;
    }
  return 0;
}

/* A negative creep is that of the zones there are. */
static CwSafeArea
find_area (const CwBonds *bonds, guint panel, CwFace face, gint32 creep)
{
  g_autofree gboolean *hosts = NULL, *loose = NULL;
  gboolean any = FALSE;
  guint piece, index, laid;
  CwSafeAsk ask = { .panel = panel, .face = face, .first = G_MAXUINT };

  hosts = g_new0 (gboolean, bonds->n_panels);
  cw_panel_set_locate (bonds->set, panel, &piece, &index);
  laid = cw_panel_set_find_laid (bonds->set, piece);
  for (guint z = 0; z < bonds->zones->len; z++)
    {
      const CwZone *zone = &g_array_index (bonds->zones, CwZone, z);

      if (zone->panel != panel || zone->glue->face != face)
        continue;
      ask.first = MIN (ask.first, zone->live);
      ask.creep = MAX (ask.creep, cw_glue_kind_get_creep (zone->glue->kind));
      for (guint p = 0; p < bonds->n_panels; p++)
        any |= hosts[p] |= bonds->fates[z].intended[p];
    }
  for (guint i = 0; i < bonds->n_steps; i++)
    {
      const CwStep *step = g_ptr_array_index (bonds->set->design->steps, i);
      guint host;

      if (step->what != CW_DO_STICK || step->facing != face || laid != index || step->piece == NULL
          || !g_str_equal (step->piece, bonds->set->maps[piece].piece->id))
        continue;
      ask.first = MIN (ask.first, i);
      host = cw_panel_set_find_host (bonds->set, step);
      if (!any && host != G_MAXUINT)
        any = hosts[host] = TRUE;
      break;
    }
  ask.hosts = any ? hosts : NULL;
  if (ask.first == G_MAXUINT)
    {
      ask.first = find_coming (bonds, piece);
      ask.bare = TRUE;
    }
  if (!any)
    {
      ask.loose = loose = g_new0 (gboolean, bonds->n_panels);
      for (guint p = 0; p < bonds->n_panels; p++)
        {
          cw_panel_set_locate (bonds->set, p, &piece, &index);
          loose[p] = is_loose (bonds, piece);
        }
    }
  if (creep >= 0)
    ask.creep = creep;
  ask.last = bonds->n_steps;
  ask.hand = MAX (bonds->set->design->head->hand.ticks, 0);
  return cw_safe_area_find (bonds->states, &ask);
}

/**
 * cw_bonds_find_safe_area:
 * @bonds: bonds
 * @panel: a panel, through the design
 * @face: a face of it
 *
 * Returns: (transfer full): where glue may lie on it, over all rest states from the one on in which it first lies
 * there; cleared with cw_safe_area_clear()
 */
CwSafeArea
cw_bonds_find_safe_area (const CwBonds *bonds, guint panel, CwFace face)
{
  g_return_val_if_fail (bonds != NULL && panel < bonds->n_panels, (CwSafeArea){ 0 });
  return find_area (bonds, panel, face, -1);
}

/**
 * cw_bonds_find_safe_area_for:
 * @bonds: bonds
 * @panel: a panel, through the design
 * @face: a face of it
 * @kind: of the glue that is to go there, instead of what there is
 *
 * Returns: (transfer full): where such glue may lie; cleared with cw_safe_area_clear()
 */
CwSafeArea
cw_bonds_find_safe_area_for (const CwBonds *bonds, guint panel, CwFace face, CwGlueKind kind)
{
  g_return_val_if_fail (bonds != NULL && panel < bonds->n_panels, (CwSafeArea){ 0 });
  return find_area (bonds, panel, face, cw_glue_kind_get_creep (kind));
}
