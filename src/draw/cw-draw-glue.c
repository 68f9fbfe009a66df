/* cw-draw-glue.c: where glue may lie, shaded on the flat sheet and on the folded card, and told in words.
 *
 * Three patterns tell three things without colour: open dots where glue may go, cross-hatching where it never may,
 * level lines where it would hold but creeps or a hand that misses would carry it beyond. What touches nothing at any
 * time is left bare.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include <glib/gi18n-lib.h>

#include "cw-card-scene.h"
#include "cw-draw-sheet-private.h"

#define WORDS 10.5
#define ROW 15.0

static const CwPen pens[] = { CW_PEN_NEVER, CW_PEN_NEAR, CW_PEN_SAFE };

static const CwRegion *
get_region (const CwSafeArea *area, CwPen pen)
{
  return pen == CW_PEN_NEVER ? &area->never : pen == CW_PEN_NEAR ? &area->near : &area->safe;
}

static const CwSafeArea *
get_area (const CwSheetPlay *play, guint panel)
{
  return cw_glue_map_get (play->look->glue_map, play->analysis->panels->first_panel[play->piece] + panel, play->up);
}

/**
 * cw_sheet_draw_glue_map:
 * @play: the drawing in the making, with a glue map in its look
 */
void
cw_sheet_draw_glue_map (const CwSheetPlay *play)
{
  for (guint i = 0; i < play->map->panels->len; i++)
    for (guint k = 0; k < G_N_ELEMENTS (pens); k++)
      {
        const CwRegion *region = get_region (get_area (play, i), pens[k]);

        if (region->n_polygons == 0)
          continue;
        cw_draw_list_begin (play->list, pens[k], cw_id (CW_ID_NONE, 0, 0, 0));
        for (guint p = 0; p < region->n_polygons; p++)
          cw_trace_polygon (play->list, &play->flat, &region->polygons[p]);
        cw_draw_list_end (play->list);
      }
}

/**
 * cw_sheet_glue_pens:
 * @play: the drawing in the making, with a glue map in its look
 *
 * Returns: mask of 1 << #CwPen of what its legend must explain
 */
guint
cw_sheet_glue_pens (const CwSheetPlay *play)
{
  guint used = 0;

  for (guint i = 0; i < play->map->panels->len; i++)
    for (guint k = 0; k < G_N_ELEMENTS (pens); k++)
      if (get_region (get_area (play, i), pens[k])->n_polygons > 0)
        used |= 1u << pens[k];
  return used;
}

/**
 * cw_sheet_draw_glue_words:
 * @play: the drawing in the making, with a glue map in its look
 * @x: left of the words, output units
 * @y: their top
 *
 * Says how far glue is kept from what, where that is.
 *
 * Returns: the height it takes
 */
double
cw_sheet_draw_glue_words (const CwSheetPlay *play, double x, double y)
{
  gint32 creep = 0, hand = 0;
  double top = y;

  for (guint i = 0; i < play->map->panels->len; i++)
    {
      const CwSafeArea *area = get_area (play, i);

      if (area->near.n_polygons == 0)
        continue;
      creep = MAX (creep, area->creep);
      hand = MAX (hand, area->hand);
    }
  for (int i = 0; i < 2; i++)
    {
      gint32 ticks = i == 0 ? creep : hand;
      g_autofree char *far = cw_length_format_ticks (ticks, play->design->head->unit), *words = NULL;

      if (ticks == 0)
        continue;
      words = g_strdup_printf (i == 0 ? _ ("Glue stays %s away from every edge: wet glue creeps.")
                                      : _ ("Glue stays %s away from where other paper, or none, lies behind: a hand "
                                           "may miss."),
                               far);
      top += ROW;
      cw_draw_list_text (play->list, CW_PEN_TEXT, cw_id (CW_ID_NONE, 0, 0, 0), x, top, WORDS, CW_ANCHOR_START, 0,
                         words);
    }
  return top - y;
}

/**
 * cw_card_draw_glue_map:
 * @play: the drawing in the making, with a glue map in its look
 * @panel: a panel, through the design
 * @flat: where its flat places come to
 * @face: the face of it that is seen
 */
void
cw_card_draw_glue_map (const CwCardPlay *play, guint panel, const CwFlat *flat, CwFace face)
{
  const CwSafeArea *area = cw_glue_map_get (play->look->glue_map, panel, face);

  for (guint k = 0; k < G_N_ELEMENTS (pens); k++)
    {
      const CwRegion *region = get_region (area, pens[k]);

      if (region->n_polygons == 0)
        continue;
      cw_draw_list_begin (play->list, pens[k], cw_id (CW_ID_NONE, 0, 0, 0));
      for (guint p = 0; p < region->n_polygons; p++)
        cw_trace_polygon (play->list, flat, &region->polygons[p]);
      cw_draw_list_end (play->list);
    }
}
