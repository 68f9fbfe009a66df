/* cw-draw-pierce.c: panels of the folded card that pierce one another, as the picture shows them.
 *
 * What pierces another is painted in parts (cw-depth.c): each is clipped to its side of the line in which the two
 * planes meet, and along that line the picture has an edge.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-card-scene.h"

#include <math.h>

#include "cw-pen.h"

static void
trace_panel (const CwCardPlay *play, guint panel, const CwRigid *place)
{
  CwFlat flat = cw_card_get_flat (play, place);

  cw_trace_polygon (play->list, &flat, &cw_panel_set_get_panel (play->scene->analysis->panels, panel)->outline);
}

/**
 * cw_card_clip:
 * @play: the drawing in the making
 * @paint: what is painted next
 *
 * Keeps what is drawn to the part of the panel that is to be painted.
 *
 * Returns: how many clips that takes
 */
guint
cw_card_clip (const CwCardPlay *play, const CwPaint *paint)
{
  const CwPanelSet *set = play->scene->analysis->panels;
  CwFlat view = cw_card_get_flat (play, NULL);
  guint n_clips = 0;

  if (paint->within != G_MAXUINT)
    {
      CwRigid place = cw_rigid_compose (&play->view, &play->scene->pose->places[paint->within]);

      cw_draw_list_begin (play->list, CW_PEN_CLIP, (CwId){ CW_ID_NONE, 0, 0, 0 });
      trace_panel (play, paint->within, &place);
      cw_draw_list_end (play->list);
      n_clips++;
    }
  for (guint first = 0; first < paint->n_cuts; first += CW_DEPTH_CUTS)
    {
      /* A square round the panel, whichever way it is turned, cut down. */
      const CwPanel *flat = cw_panel_set_get_panel (set, paint->panel);
      CwRigid place = cw_rigid_compose (&play->view, &play->scene->pose->places[paint->panel]);
      CwVec3 at = cw_rigid_apply (&place, cw_vec3 (flat->inside.x, flat->inside.y, 0));
      double reach = CW_TICKS_PER_INCH
                     + hypot ((double) flat->box_max.x - flat->box_min.x, (double) flat->box_max.y - flat->box_min.y);
      CwFacet facet = { 4,
                        { at.x - reach, at.x + reach, at.x + reach, at.x - reach },
                        { at.y - reach, at.y - reach, at.y + reach, at.y + reach } };

      for (guint k = first; k < MIN (paint->n_cuts, first + CW_DEPTH_CUTS); k++)
        {
          CwFacet whole = facet;

          if (!cw_facet_cut (&whole, &paint->cuts[k], &facet))
            facet = (CwFacet){ 0 };
        }
      cw_draw_list_begin (play->list, CW_PEN_CLIP, (CwId){ CW_ID_NONE, 0, 0, 0 });
      for (guint k = 0; k < facet.n; k++)
        {
          double x, y;

          cw_flat_apply (&view, facet.x[k], facet.y[k], &x, &y);
          if (k == 0)
            cw_draw_list_move (play->list, x, y);
          else
            cw_draw_list_line (play->list, x, y);
        }
      cw_draw_list_close (play->list);
      cw_draw_list_end (play->list);
      n_clips++;
    }
  return n_clips;
}

/**
 * cw_card_draw_piercing:
 * @play: the drawing in the making
 * @paint: what has been painted
 *
 * Draws the lines along which it goes through others: there the picture has an edge.
 */
void
cw_card_draw_piercing (const CwCardPlay *play, const CwPaint *paint)
{
  const CwPanel *flat = cw_panel_set_get_panel (play->scene->analysis->panels, paint->panel);
  CwRigid place = cw_rigid_compose (&play->view, &play->scene->pose->places[paint->panel]);
  CwVec3 at = cw_rigid_apply (&place, cw_vec3 (flat->inside.x, flat->inside.y, 0));
  CwFlat view = cw_card_get_flat (play, NULL);

  if (paint->n_cuts == 0)
    return;
  cw_draw_list_begin (play->list, CW_PEN_CLIP, (CwId){ CW_ID_NONE, 0, 0, 0 });
  trace_panel (play, paint->panel, &place);
  cw_draw_list_end (play->list);
  for (guint k = 0; k < paint->n_cuts; k++)
    {
      const CwCut *cut = &paint->cuts[k];
      CwRigid by = cw_rigid_compose (&play->view, &play->scene->pose->places[cut->by]);
      double length = hypot (cut->nx, cut->ny), off = (cut->d - cut->nx * at.x - cut->ny * at.y) / (length * length);
      double foot[2] = { at.x + off * cut->nx, at.y + off * cut->ny };
      double way[2] = { -cut->ny / length, cut->nx / length }, ends[2] = { G_MAXDOUBLE, -G_MAXDOUBLE };

      /* From the foot of the panel's middle on the line, as far along it as the panel reaches. */
      for (guint i = 0; i < flat->outline.rings[0].n_points; i++)
        {
          CwPoint p = flat->outline.rings[0].points[i];
          CwVec3 to = cw_rigid_apply (&place, cw_vec3 (p.x, p.y, 0));
          double along = (to.x - foot[0]) * way[0] + (to.y - foot[1]) * way[1];

          ends[0] = MIN (ends[0], along);
          ends[1] = MAX (ends[1], along);
        }
      cw_draw_list_begin (play->list, CW_PEN_CLIP, (CwId){ CW_ID_NONE, 0, 0, 0 });
      trace_panel (play, cut->by, &by);
      cw_draw_list_end (play->list);
      cw_draw_list_begin (play->list, play->look->findings ? CW_PEN_TROUBLE : CW_PEN_EDGE,
                          (CwId){ CW_ID_NONE, 0, 0, 0 });
      for (guint end = 0; end < 2; end++)
        {
          double x, y;

          cw_flat_apply (&view, foot[0] + ends[end] * way[0], foot[1] + ends[end] * way[1], &x, &y);
          if (end == 0)
            cw_draw_list_move (play->list, x, y);
          else
            cw_draw_list_line (play->list, x, y);
        }
      cw_draw_list_end (play->list);
      cw_draw_list_unclip (play->list);
    }
  cw_draw_list_unclip (play->list);
}
