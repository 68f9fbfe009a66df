/* cw-card-name.c: how light a face of the folded card is, and the words that stand on it.
 *
 * Light stands fixed beside the eye. Words stand upright for the reader on faces flat enough to read, where no panel
 * painted later hides any of them, in ink chosen for the shaded face.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include <stdlib.h>

#include "cw-card-scene.h"
#include "cw-pen.h"

/* The light comes over the reader's left shoulder; a face square to it keeps its colour, the darkest keeps AMBIENT. */
#define AMBIENT 0.72
static const CwVec3 to_light = { -0.36, -0.48, -0.80 };
#define LABEL 11.0
#define LABEL_LEAST 8.0
#define FACE_ON 0.35

/**
 * cw_card_shade:
 * @place: a panel in the view
 *
 * Returns: how light its seen face is, AMBIENT to 1, by its tilt from the light
 */
double
cw_card_shade (const CwRigid *place)
{
  /* The normal of the seen face points to the eye. */
  double turn = cw_card_face (place) == CW_FACE_FRONT ? -1 : 1;
  CwVec3 normal = cw_vec3 (turn * place->r[0][2], turn * place->r[1][2], turn * place->r[2][2]);
  double light = cw_vec3_dot (normal, to_light) / cw_vec3_length (to_light);

  return AMBIENT + (1 - AMBIENT) * CLAMP (light * 1.12, 0, 1);
}

/**
 * cw_card_ground:
 * @play: the drawing in the making
 * @index: a panel through the design
 * @place: that panel in the view
 *
 * Returns: the colour its seen face has, shaded
 */
guint32
cw_card_ground (const CwCardPlay *play, guint index, const CwRigid *place)
{
  return cw_colour_mix (0x000000, play->scene->panels[index].colour[cw_card_face (place)], cw_card_shade (place));
}

/* Room to both sides of a place within a panel's picture, output units. */
static double
free_width (const CwFlat *flat, const CwPolygon *polygon, double x, double y)
{
  double before = G_MAXDOUBLE, after = G_MAXDOUBLE;

  for (guint r = 0; r < polygon->n_rings; r++)
    for (guint i = 0; i < polygon->rings[r].n_points; i++)
      {
        const CwRing *ring = &polygon->rings[r];
        CwPoint p = ring->points[i], q = ring->points[(i + 1) % ring->n_points];
        double ax, ay, bx, by;
        cw_flat_apply (flat, p.x, p.y, &ax, &ay);
        cw_flat_apply (flat, q.x, q.y, &bx, &by);
        if ((ay > y) == (by > y))
          continue;
        double at = ax + (y - ay) / (by - ay) * (bx - ax) - x;
        if (at >= 0)
          after = MIN (after, at);
        else
          before = MIN (before, -at);
      }
  return 2 * MIN (before, after);
}

/* Whether the place of a panel's name is hidden by a panel painted later. */
static gboolean
hidden (const CwCardPlay *play, const CwPaint *paints, guint n, guint at, double x, double y)
{
  double vx = (x - play->camera->x) / play->camera->scale, vy = (y - play->camera->y) / play->camera->scale;

  for (guint i = at + 1; i < n; i++)
    {
      CwRigid place = cw_rigid_compose (&play->view, &play->scene->pose->places[paints[i].panel]);
      double det = place.r[0][0] * place.r[1][1] - place.r[0][1] * place.r[1][0];
      if (fabs (det) < FACE_ON * FACE_ON * FACE_ON)
        continue;
      double dx = vx - place.t.x, dy = vy - place.t.y;
      double u = (dx * place.r[1][1] - dy * place.r[0][1]) / det, v = (dy * place.r[0][0] - dx * place.r[1][0]) / det;
      const CwPanel *panel = cw_panel_set_get_panel (play->scene->analysis->panels, paints[i].panel);
      if (cw_polygon_contains (&panel->outline, u, v) && cw_paint_keeps (&paints[i], vx, vy))
        return TRUE;
    }
  return !cw_paint_keeps (&paints[at], vx, vy);
}

/* Words on a panel, if there is room for them beside the place and it is not hidden. */
static void
draw_words (const CwCardPlay *play, const CwPaint *paints, guint n, guint at, CwId id, double flat_x, double flat_y,
            double room, const char *text)
{
  guint index = paints[at].panel;
  const CwPanel *panel = cw_panel_set_get_panel (play->scene->analysis->panels, index);
  CwRigid place = cw_rigid_compose (&play->view, &play->scene->pose->places[index]);
  CwFlat flat = cw_card_get_flat (play, &place);
  double x, y, size = LABEL, width = cw_draw_text_width (size, text);

  cw_flat_apply (&flat, flat_x, flat_y, &x, &y);
  room = MIN (room * play->camera->scale, free_width (&flat, &panel->outline, x, y)) - 8;
  if (width > room)
    size *= room / width;
  if (size < MAX (LABEL_LEAST, play->look->label_least))
    return;
  width = cw_draw_text_width (size, text);
  for (int part = -1; part <= 1; part++)
    if (hidden (play, paints, n, at, x + part * width / 2, y))
      return;
  /* Words on a printed or shaded face clear what is behind them. */
  gboolean printed = play->look->glue_map != NULL
                     || (play->scene->panels[index].pattern != NULL && cw_card_face (&place) == CW_FACE_FRONT);
  cw_draw_list_set_ground (play->list, cw_card_ground (play, index, &place));
  cw_draw_list_text (play->list, printed ? CW_PEN_FIGURE : CW_PEN_TEXT, id, x, y + size * 0.36, size, CW_ANCHOR_MIDDLE,
                     0, text);
}

/**
 * cw_card_draw_names:
 * @play: the drawing in the making
 * @paints: what was painted, farthest first
 * @n: how many
 *
 * Panel names and the words of art, on faces that are seen and flat enough to read.
 */
void
cw_card_draw_names (const CwCardPlay *play, const CwPaint *paints, guint n)
{
  for (guint i = 0; i < n; i++)
    {
      const CwCardPanel *of = &play->scene->panels[paints[i].panel];
      const CwPanel *panel = cw_panel_set_get_panel (play->scene->analysis->panels, paints[i].panel);
      const GPtrArray *art = play->scene->analysis->panels->maps[of->piece].piece->art;
      CwRigid place = cw_rigid_compose (&play->view, &play->scene->pose->places[paints[i].panel]);

      if (paints[i].within != G_MAXUINT || fabs (place.r[2][2]) < FACE_ON)
        continue;
      if (panel->name != NULL)
        draw_words (play, paints, n, i, (CwId){ CW_ID_NAME, of->piece, of->panel, 0 }, panel->inside.x, panel->inside.y,
                    G_MAXINT32, panel->name);
      for (guint k = 0; k < art->len; k++)
        {
          const CwArt *item = g_ptr_array_index (art, k);
          CwPoint a = cw_place_get_point (&item->box[0]), b = cw_place_get_point (&item->box[1]);
          double x = (a.x + b.x) / 2.0, y = (a.y + b.y) / 2.0, w = abs (b.x - a.x), h = abs (b.y - a.y);
          double up = item->up * G_PI / 180 * (item->face == CW_FACE_FRONT ? 1 : -1);
          if (item->label != NULL && item->face == cw_card_face (&place) && cw_polygon_contains (&panel->outline, x, y))
            draw_words (play, paints, n, i, (CwId){ CW_ID_ART, of->piece, k, 0 }, x, y,
                        0.65 * (fabs (cos (up)) * w + fabs (sin (up)) * h), item->label);
        }
    }
  cw_draw_list_set_ground (play->list, CW_GROUND_TABLE);
}
