/* cw-draw-card.c: the folded card at one moment: faces by paper and tilt, real edges, fold lines, layers, shadow.
 *
 * Panels are painted farthest first (cw-depth.c). A face is shaded by its tilt from a light that stands fixed beside
 * the eye, so that a turning panel changes as a real one does; a printed front carries fine lines, so that the face is
 * told without colour. Words: cw-card-name.c.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-camera-private.h"
#include "cw-card-scene.h"

#include "cw-pen.h"
#include "panel/cw-path-flatten.h"

/* Lines on a face take their ink for this shade, so that they do not change while it turns: from 0.72 (AMBIENT) to 1
 * they keep 3:1 (a ground at the border of black and white ink, 4.58:1, loses no more than a factor of 1.4 either way).
 */
#define LINE_SHADE 0.86
/* Where the shadow falls: the table lies this far under the lowest paper. */
#define TABLE_BELOW 24.0
static const CwVec3 shadow_way = { 0.30, 0.38, 1.0 };
/* Folded farther than this a fold line is a ridge and drawn as an edge, degrees. */
#define RIDGE_DEG 12.0
/* A finding's place: its radius in output units, and how near its moment it is shown, share of the step. */
#define TROUBLE 14.0
#define TROUBLE_NEAR 0.1
/* Nearest two printed lines, output units. */
#define PATTERN_APART 8.0

static gboolean
is_selected (const CwCardPlay *play, CwIdKind kind, guint piece, guint index)
{
  for (guint i = 0; i < play->look->n_selected; i++)
    {
      const CwId *id = &play->look->selected[i];
      if (id->kind == kind && id->piece == piece && id->index == index)
        return TRUE;
    }
  return FALSE;
}

/* A hinge is selected with any of its scores. */
static gboolean
hinge_selected (const CwCardPlay *play, guint hinge)
{
  guint piece;
  const CwHinge *item = cw_panel_set_get_hinge (play->scene->analysis->panels, hinge, &piece);
  const CwPiece *of = play->scene->analysis->panels->maps[piece].piece;

  if (hinge == play->look->hinge_at)
    return TRUE;
  for (guint i = 0; i < play->look->n_selected; i++)
    {
      const CwId *id = &play->look->selected[i];
      if (id->kind == CW_ID_HINGE && id->piece == piece
          && id->index == hinge - play->scene->analysis->panels->first_hinge[piece])
        return TRUE;
      if (id->kind != CW_ID_MARK || id->piece != piece || id->index >= of->marks->len)
        continue;
      const CwMark *mark = g_ptr_array_index (of->marks, id->index);
      for (guint k = 0; k < item->scores->len; k++)
        if (g_strcmp0 (mark->id, g_ptr_array_index (item->scores, k)) == 0)
          return TRUE;
    }
  return FALSE;
}

static void
draw_lines (const CwCardPlay *play, const CwCardPanel *panel, const CwFlat *flat, gboolean halo)
{
  const CwPanelSet *set = play->scene->analysis->panels;
  const CwCardLine *lines = (const CwCardLine *) (gpointer) panel->lines->data;
  guint n = panel->lines->len;

  for (guint i = 0; i < n;)
    {
      guint end = i + 1;
      CwId id = { CW_ID_NONE, panel->piece, panel->panel, 0 };
      CwPen pen = CW_PEN_EDGE;
      gboolean lit;

      while (end < n && lines[end].hinge == lines[i].hinge && lines[end].mark == lines[i].mark)
        end++;
      if (lines[i].hinge != G_MAXUINT)
        {
          id = (CwId){ CW_ID_HINGE, panel->piece, lines[i].hinge - set->first_hinge[panel->piece], 0 };
          lit = hinge_selected (play, lines[i].hinge);
          if (fabs (play->scene->pose->angles_deg[lines[i].hinge]) < RIDGE_DEG)
            pen = CW_PEN_CREASE;
        }
      else
        {
          if (lines[i].mark != G_MAXUINT)
            id = (CwId){ CW_ID_MARK, panel->piece, lines[i].mark, 0 };
          lit = id.kind == CW_ID_MARK && is_selected (play, CW_ID_MARK, panel->piece, lines[i].mark);
        }
      if (!halo || lit)
        {
          cw_draw_list_begin (play->list, halo ? CW_PEN_SELECTED : pen, id);
          for (; i < end; i++)
            {
              double x, y;
              cw_flat_apply (flat, lines[i].p.x, lines[i].p.y, &x, &y);
              cw_draw_list_move (play->list, x, y);
              cw_flat_apply (flat, lines[i].q.x, lines[i].q.y, &x, &y);
              cw_draw_list_line (play->list, x, y);
            }
          cw_draw_list_end (play->list);
        }
      i = end;
    }
}

static gboolean
meets (const CwPanel *flat, CwPoint a, CwPoint b)
{
  return MAX (a.x, b.x) > flat->box_min.x && MIN (a.x, b.x) < flat->box_max.x && MAX (a.y, b.y) > flat->box_min.y
         && MIN (a.y, b.y) < flat->box_max.y;
}

/* What of a box lies on a panel: the rest lies on its neighbours, which may be folded elsewhere. */
static void
draw_part (const CwCardPlay *play, const CwFlat *flat, const CwPanel *panel, CwPoint corner[4])
{
  CwRing ring = { 4, corner };
  CwPolygon polygon = { 1, &ring };
  CwRegion box = { 1, &polygon }, whole = cw_region_from_polygon (&panel->outline);
  CwRegion part = cw_region_overlay (&box, &whole, CW_OVERLAY_INTERSECTION);

  for (guint i = 0; i < part.n_polygons; i++)
    cw_trace_polygon (play->list, flat, &part.polygons[i]);
  cw_region_clear (&whole);
  cw_region_clear (&part);
}

/* Greetings, pictures and glue on the face that is seen, within the panel. */
static void
draw_on_face (const CwCardPlay *play, const CwCardPanel *panel, const CwPanel *on, const CwFlat *flat, CwFace face)
{
  const CwDesign *design = play->scene->analysis->design;
  const CwPiece *piece = play->scene->analysis->panels->maps[panel->piece].piece;

  for (guint i = 0; play->look->labels && i < piece->art->len; i++)
    {
      const CwArt *art = g_ptr_array_index (piece->art, i);
      CwPoint a = cw_place_get_point (&art->box[0]), b = cw_place_get_point (&art->box[1]);
      CwPoint corner[4] = { a, { b.x, a.y }, b, { a.x, b.y } };
      double x, y, cx = (a.x + b.x) / 2.0, cy = (a.y + b.y) / 2.0;
      double w = abs (b.x - a.x), h = abs (b.y - a.y);
      gboolean within = TRUE, middle = cw_polygon_contains (&on->outline, cx, cy);
      for (int k = 0; k < 4; k++)
        within &= cw_polygon_contains (&on->outline, corner[k].x, corner[k].y);
      if (art->face != face || (!within && !meets (on, a, b)))
        continue;
      cw_draw_list_begin (play->list, CW_PEN_ART, (CwId){ CW_ID_ART, panel->piece, i, 0 });
      if (within)
        cw_trace_points (play->list, flat, corner, 4);
      else
        draw_part (play, flat, on, corner);
      if (!middle)
        {
          cw_draw_list_end (play->list);
          continue;
        }
      /* Its up, clockwise as seen from that face; on the back that is counterclockwise in front coordinates. */
      double up = art->up * G_PI / 180 * (face == CW_FACE_FRONT ? 1 : -1), ux = sin (up), uy = -cos (up);
      /* The arrow stands beside the words. */
      double breadth = fabs (uy) * w + fabs (ux) * h, aside = art->label == NULL ? 0 : 0.4 * breadth;
      double half = MIN (0.3 * MIN (w, h), 0.2 * breadth);
      double ax = cx + uy * aside, ay = cy - ux * aside;
      const double shaft[5][2] = { { 0, -1 }, { 0, 1 }, { -0.35, 0.5 }, { 0, 1 }, { 0.35, 0.5 } };
      for (int k = 0; k < 5; k++)
        {
          double along = shaft[k][1] * half, across = shaft[k][0] * half;
          cw_flat_apply (flat, ax + ux * along - uy * across, ay + uy * along + ux * across, &x, &y);
          if (k == 0 || k == 2)
            cw_draw_list_move (play->list, x, y);
          else
            cw_draw_list_line (play->list, x, y);
        }
      cw_draw_list_end (play->list);
    }

  for (guint i = 0; play->look->glue && i < design->glue->len; i++)
    {
      const CwGlue *glue = g_ptr_array_index (design->glue, i);
      g_autoptr (GArray) points = NULL;
      double cx = 0, cy = 0;
      if (g_strcmp0 (glue->piece, piece->id) != 0 || glue->face != face || glue->area.n_vertices < 3)
        continue;
      for (guint k = 0; k < glue->area.n_vertices; k++)
        {
          CwPoint p = cw_place_get_point (&glue->area.vertices[k].at);
          cx += p.x;
          cy += p.y;
        }
      if (!cw_polygon_contains (&on->outline, cx / glue->area.n_vertices, cy / glue->area.n_vertices))
        continue;
      cw_draw_list_begin (play->list, CW_PEN_GLUE, (CwId){ CW_ID_ZONE, G_MAXUINT, i, 0 });
      points = cw_path_flatten (&glue->area, TRUE);
      cw_trace_points (play->list, flat, (const CwPoint *) (gpointer) points->data, points->len);
      cw_draw_list_end (play->list);
    }
}

static void
draw_panel (const CwCardPlay *play, guint index)
{
  const CwCardPanel *panel = &play->scene->panels[index];
  const CwPanel *shape = cw_panel_set_get_panel (play->scene->analysis->panels, index);
  CwRigid place = cw_rigid_compose (&play->view, &play->scene->pose->places[index]);
  CwFlat flat = cw_card_get_flat (play, &place);
  CwFace face = cw_card_face (&place);

  cw_draw_list_begin (play->list, CW_PEN_PAPER, (CwId){ CW_ID_PANEL, panel->piece, panel->panel, face });
  cw_draw_list_set_colour (play->list, panel->colour[face]);
  cw_draw_list_set_shade (play->list, cw_card_shade (&place));
  cw_trace_polygon (play->list, &flat, &shape->outline);
  cw_draw_list_end (play->list);

  guint32 shaded = cw_card_ground (play, index, &place);
  guint32 line_ground = cw_colour_mix (0x000000, panel->colour[face], LINE_SHADE);
  cw_draw_list_set_ground (play->list, line_ground);
  if (panel->pattern != NULL && face == CW_FACE_FRONT && panel->pattern->len > 0)
    {
      cw_draw_list_begin (play->list, CW_PEN_PATTERN, (CwId){ CW_ID_NONE, 0, 0, 0 });
      /* No nearer than PATTERN_APART as seen face on: a power of two keeps the rest in place when zooming. */
      gint32 stride = 1;
      while (stride * CW_CARD_PATTERN * G_SQRT2 / 2 * play->camera->scale < PATTERN_APART && stride < 1024)
        stride *= 2;
      for (guint i = 0; i + 1 < panel->pattern->len; i += 2)
        {
          CwVec3 p = g_array_index (panel->pattern, CwVec3, i), q = g_array_index (panel->pattern, CwVec3, i + 1);
          double x, y;
          if ((gint32) p.z % stride != 0)
            continue;
          cw_flat_apply (&flat, p.x, p.y, &x, &y);
          cw_draw_list_move (play->list, x, y);
          cw_flat_apply (&flat, q.x, q.y, &x, &y);
          cw_draw_list_line (play->list, x, y);
        }
      cw_draw_list_end (play->list);
    }
  if (play->look->glue_map != NULL)
    cw_card_draw_glue_map (play, index, &flat, face);
  draw_on_face (play, panel, shape, &flat, face);
  cw_draw_list_set_ground (play->list, shaded);
  if (play->look->lit_panel == index || is_selected (play, CW_ID_PANEL, panel->piece, panel->panel))
    {
      cw_draw_list_begin (play->list, CW_PEN_SELECTED, (CwId){ CW_ID_NONE, 0, 0, 0 });
      cw_trace_polygon (play->list, &flat, &shape->outline);
      cw_draw_list_end (play->list);
    }
  draw_lines (play, panel, &flat, TRUE);
  cw_draw_list_set_ground (play->list, line_ground);
  draw_lines (play, panel, &flat, FALSE);
  cw_draw_list_set_ground (play->list, CW_GROUND_TABLE);
}

/* Where the shadow of a place on a panel falls, output units. */
static CwVec3
fall (const CwCardPlay *play, guint panel, CwPoint at, double table)
{
  CwVec3 p = cw_rigid_apply (&play->scene->pose->places[panel], cw_vec3 (at.x, at.y, 0));

  p = cw_rigid_apply (&play->view, cw_vec3_add (p, cw_vec3_scale (shadow_way, (table - p.z) / shadow_way.z)));
  return cw_vec3 (play->camera->x + p.x * play->camera->scale, play->camera->y + p.y * play->camera->scale, 0);
}

/* The card's shadow on the table under it: all panels in one path, so that it is one even shade. */
static void
draw_shadow (const CwCardPlay *play)
{
  const CwPose *pose = play->scene->pose;
  const CwPanelSet *set = play->scene->analysis->panels;
  double table = -G_MAXDOUBLE;

  /* From under the table, or along it, there is no shadow to see. */
  if (play->view.r[2][2] < 0.1)
    return;
  for (guint i = 0; i < pose->n_panels; i++)
    if (pose->present[i])
      {
        const CwRing *ring = &cw_panel_set_get_panel (set, i)->outline.rings[0];
        for (guint k = 0; k < ring->n_points; k++)
          table = MAX (table, pose->places[i].r[2][0] * ring->points[k].x + pose->places[i].r[2][1] * ring->points[k].y
                                + pose->places[i].t.z);
      }
  table += TABLE_BELOW;

  cw_draw_list_begin (play->list, CW_PEN_SHADOW, (CwId){ CW_ID_NONE, 0, 0, 0 });
  for (guint i = 0; i < pose->n_panels; i++)
    {
      if (!pose->present[i])
        continue;
      const CwRing *ring = &cw_panel_set_get_panel (set, i)->outline.rings[0];
      double area = 0;
      /* All outlines the same way round as they fall, or the winding rule would take them off each other. */
      for (guint k = 0; k < ring->n_points; k++)
        {
          CwVec3 p = fall (play, i, ring->points[k], table),
                 q = fall (play, i, ring->points[(k + 1) % ring->n_points], table);
          area += p.x * q.y - q.x * p.y;
        }
      for (guint k = 0; k < ring->n_points; k++)
        {
          CwVec3 s = fall (play, i, ring->points[area < 0 ? ring->n_points - 1 - k : k], table);
          if (k == 0)
            cw_draw_list_move (play->list, s.x, s.y);
          else
            cw_draw_list_line (play->list, s.x, s.y);
        }
      cw_draw_list_close (play->list);
    }
  cw_draw_list_end (play->list);
}

/* Where a finding's place is on the card as it stands: on a panel of its piece, else in the plane the folded card lies
 * in. FALSE when the paper there is not there yet. */
static gboolean
trouble_place (const CwCardPlay *play, const CwFinding *finding, CwVec3 *place)
{
  const CwPanelSet *set = play->scene->analysis->panels;

  *place = cw_vec3 (finding->at.x, finding->at.y, 0);
  for (guint i = 0; finding->at_piece != NULL && i < set->n_pieces; i++)
    {
      CwPoint at = { (gint32) lround (finding->at.x), (gint32) lround (finding->at.y) };
      guint panel;

      if (g_strcmp0 (set->maps[i].piece->id, finding->at_piece) != 0)
        continue;
      panel = cw_panel_map_find (&set->maps[i], at);
      if (panel == G_MAXUINT || !play->scene->pose->present[set->first_panel[i] + panel])
        return FALSE;
      *place = cw_rigid_apply (&play->scene->pose->places[set->first_panel[i] + panel], *place);
      return TRUE;
    }
  return finding->at_piece == NULL;
}

/* Hatches the places of findings about this moment, over the paper: what is caught inside is to be seen too. */
static void
draw_troubles (const CwCardPlay *play, guint step, double fraction)
{
  const CwAnalysis *analysis = play->scene->analysis;
  GPtrArray *steps = analysis->design->steps;

  for (guint i = 0; step < steps->len && i < analysis->findings->len; i++)
    {
      const CwFinding *finding = g_ptr_array_index (analysis->findings, i);
      CwId id = { CW_ID_FINDING, G_MAXUINT, i, 0 };
      CwVec3 place;

      if (!finding->has_at || g_strcmp0 (finding->step, ((const CwStep *) g_ptr_array_index (steps, step))->id) != 0
          || fabs (finding->fraction - fraction) > TROUBLE_NEAR || !trouble_place (play, finding, &place))
        continue;
      place = cw_camera_project (play->camera, place);
      cw_draw_list_set_ground (play->list, CW_GROUND_TABLE);
      cw_draw_list_begin (play->list, CW_PEN_TROUBLE, id);
      cw_draw_list_arc (play->list, place.x, place.y, TROUBLE);
      cw_draw_list_end (play->list);
    }
}

/**
 * cw_draw_card:
 * @list: what to add to
 * @scene: the card's scene
 * @step: a step; beyond the last: the flat card before the first
 * @fraction: how far into it, 0 to 1
 * @camera: how it is seen
 * @look: what to show beside the paper
 *
 * Once the scene and the list have seen their largest frame, this allocates nothing.
 */
void
cw_draw_card (CwDrawList *list, CwCardScene *scene, guint step, double fraction, const CwCamera *camera,
              const CwCardLook *look)
{
  guint n;

  g_return_if_fail (list != NULL && scene != NULL && camera != NULL && look != NULL);

  CwCardPlay play = { list, scene, camera, look, cw_camera_get_view (camera) };
  cw_card_scene_pose (scene, step, fraction, scene->pose);
  const CwPaint *paints = cw_depth_order (scene->depth, scene->pose, step, fraction, &play.view, &n);

  cw_draw_list_set_ground (list, CW_GROUND_TABLE);
  if (look->shadow)
    draw_shadow (&play);
  for (guint i = 0; i < n; i++)
    {
      guint n_clips = cw_card_clip (&play, &paints[i]);
      draw_panel (&play, paints[i].panel);
      cw_card_draw_piercing (&play, &paints[i]);
      while (n_clips-- > 0)
        cw_draw_list_unclip (list);
    }
  if (look->labels)
    cw_card_draw_names (&play, paints, n);
  if (look->findings)
    draw_troubles (&play, step, fraction);
}
