/* cw-draw-card.c: the folded card at one moment: faces by paper and tilt, real edges, fold lines, layers, shadow,
 * words.
 *
 * Panels are painted farthest first (cw-depth.c). A face is shaded by its tilt from a light that stands fixed beside
 * the eye, so that a turning panel changes as a real one does; a printed front carries fine lines, so that the face is
 * told without colour. Names stand on what is seen and flat enough to read.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-camera-private.h"
#include "cw-card-scene.h"

#include "cw-pen.h"

/* The light comes over the reader's left shoulder; a face square to it keeps its colour, the darkest keeps AMBIENT. */
#define AMBIENT 0.72
/* Lines on a face take their ink for this shade, so that they do not change while it turns: from AMBIENT to 1 they keep
 * 3:1 (a ground at the border of black and white ink, 4.58:1, loses no more than a factor of 1.4 either way). */
#define LINE_SHADE 0.86
static const CwVec3 to_light = { -0.36, -0.48, -0.80 };
/* Where the shadow falls: the table lies this far under the lowest paper. */
#define TABLE_BELOW 24.0
static const CwVec3 shadow_way = { 0.30, 0.38, 1.0 };
/* Folded farther than this a fold line is a ridge and drawn as an edge, degrees. */
#define RIDGE_DEG 12.0
#define LABEL 11.0
#define LABEL_LEAST 8.0
#define FACE_ON 0.35
#define PATTERN_APART 8.0

typedef struct
{
  CwDrawList *list;
  CwCardScene *scene;
  const CwCamera *camera;
  const CwCardLook *look;
  CwRigid view;
} Play;

static void
project (const Play *play, const CwRigid *place, double x, double y, double *ox, double *oy)
{
  const double (*r)[3] = place->r;

  *ox = play->camera->x + (r[0][0] * x + r[0][1] * y + place->t.x) * play->camera->scale;
  *oy = play->camera->y + (r[1][0] * x + r[1][1] * y + place->t.y) * play->camera->scale;
}

static void
add_polygon (const Play *play, const CwRigid *place, const CwPolygon *polygon)
{
  for (guint r = 0; r < polygon->n_rings; r++)
    for (guint i = 0; i < polygon->rings[r].n_points; i++)
      {
        double x, y;
        project (play, place, polygon->rings[r].points[i].x, polygon->rings[r].points[i].y, &x, &y);
        if (i == 0)
          cw_draw_list_move (play->list, x, y);
        else
          cw_draw_list_line (play->list, x, y);
        if (i + 1 == polygon->rings[r].n_points)
          cw_draw_list_close (play->list);
      }
}

static gboolean
is_selected (const Play *play, CwIdKind kind, guint piece, guint index)
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
hinge_selected (const Play *play, guint hinge)
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
draw_lines (const Play *play, const CwCardPanel *panel, const CwRigid *place, gboolean halo)
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
              project (play, place, lines[i].p.x, lines[i].p.y, &x, &y);
              cw_draw_list_move (play->list, x, y);
              project (play, place, lines[i].q.x, lines[i].q.y, &x, &y);
              cw_draw_list_line (play->list, x, y);
            }
          cw_draw_list_end (play->list);
        }
      i = end;
    }
}

static void
draw_path (const Play *play, const CwRigid *place, const CwPath *path)
{
  for (guint i = 0; i < path->n_vertices; i++)
    {
      CwPoint p = cw_place_get_point (&path->vertices[i].at);
      double x, y;
      project (play, place, p.x, p.y, &x, &y);
      if (i == 0)
        cw_draw_list_move (play->list, x, y);
      else
        cw_draw_list_line (play->list, x, y);
    }
  cw_draw_list_close (play->list);
}

/* Greetings, pictures and glue on the face that is seen, within the panel. */
static void
draw_on_face (const Play *play, const CwCardPanel *panel, const CwPanel *flat, const CwRigid *place, CwFace face)
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
      if (art->face != face || !cw_polygon_contains (&flat->outline, cx, cy))
        continue;
      cw_draw_list_begin (play->list, CW_PEN_ART, (CwId){ CW_ID_ART, panel->piece, i, 0 });
      for (int k = 0; k < 4; k++)
        {
          project (play, place, corner[k].x, corner[k].y, &x, &y);
          if (k == 0)
            cw_draw_list_move (play->list, x, y);
          else
            cw_draw_list_line (play->list, x, y);
        }
      cw_draw_list_close (play->list);
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
          project (play, place, ax + ux * along - uy * across, ay + uy * along + ux * across, &x, &y);
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
      double cx = 0, cy = 0;
      if (g_strcmp0 (glue->piece, piece->id) != 0 || glue->face != face || glue->area.n_vertices < 3)
        continue;
      for (guint k = 0; k < glue->area.n_vertices; k++)
        {
          CwPoint p = cw_place_get_point (&glue->area.vertices[k].at);
          cx += p.x;
          cy += p.y;
        }
      if (!cw_polygon_contains (&flat->outline, cx / glue->area.n_vertices, cy / glue->area.n_vertices))
        continue;
      cw_draw_list_begin (play->list, CW_PEN_GLUE, (CwId){ CW_ID_ZONE, G_MAXUINT, i, 0 });
      draw_path (play, place, &glue->area);
      cw_draw_list_end (play->list);
    }
}

static CwFace
seen_face (const CwRigid *place)
{
  return place->r[2][2] >= 0 ? CW_FACE_FRONT : CW_FACE_BACK;
}

static double
shade_of (const CwRigid *place)
{
  /* The normal of the seen face points to the eye. */
  double turn = seen_face (place) == CW_FACE_FRONT ? -1 : 1;
  CwVec3 normal = cw_vec3 (turn * place->r[0][2], turn * place->r[1][2], turn * place->r[2][2]);
  double light = cw_vec3_dot (normal, to_light) / cw_vec3_length (to_light);

  return AMBIENT + (1 - AMBIENT) * CLAMP (light * 1.12, 0, 1);
}

static guint32
ground_of (const Play *play, guint index, const CwRigid *place)
{
  return cw_colour_mix (0x000000, play->scene->panels[index].colour[seen_face (place)], shade_of (place));
}

static void
draw_panel (const Play *play, guint index)
{
  const CwCardPanel *panel = &play->scene->panels[index];
  const CwPanel *flat = cw_panel_set_get_panel (play->scene->analysis->panels, index);
  CwRigid place = cw_rigid_compose (&play->view, &play->scene->pose->places[index]);
  CwFace face = seen_face (&place);

  cw_draw_list_begin (play->list, CW_PEN_PAPER, (CwId){ CW_ID_PANEL, panel->piece, panel->panel, face });
  cw_draw_list_set_colour (play->list, panel->colour[face]);
  cw_draw_list_set_shade (play->list, shade_of (&place));
  add_polygon (play, &place, &flat->outline);
  cw_draw_list_end (play->list);

  guint32 shaded = ground_of (play, index, &place);
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
          project (play, &place, p.x, p.y, &x, &y);
          cw_draw_list_move (play->list, x, y);
          project (play, &place, q.x, q.y, &x, &y);
          cw_draw_list_line (play->list, x, y);
        }
      cw_draw_list_end (play->list);
    }
  draw_on_face (play, panel, flat, &place, face);
  cw_draw_list_set_ground (play->list, shaded);
  if (play->look->lit_panel == index || is_selected (play, CW_ID_PANEL, panel->piece, panel->panel))
    {
      cw_draw_list_begin (play->list, CW_PEN_SELECTED, (CwId){ CW_ID_NONE, 0, 0, 0 });
      add_polygon (play, &place, &flat->outline);
      cw_draw_list_end (play->list);
    }
  draw_lines (play, panel, &place, TRUE);
  cw_draw_list_set_ground (play->list, line_ground);
  draw_lines (play, panel, &place, FALSE);
  cw_draw_list_set_ground (play->list, CW_GROUND_TABLE);
}

/* Where the shadow of a place on a panel falls, output units. */
static CwVec3
fall (const Play *play, guint panel, CwPoint at, double table)
{
  CwVec3 p = cw_rigid_apply (&play->scene->pose->places[panel], cw_vec3 (at.x, at.y, 0));

  p = cw_rigid_apply (&play->view, cw_vec3_add (p, cw_vec3_scale (shadow_way, (table - p.z) / shadow_way.z)));
  return cw_vec3 (play->camera->x + p.x * play->camera->scale, play->camera->y + p.y * play->camera->scale, 0);
}

/* The card's shadow on the table under it: all panels in one path, so that it is one even shade. */
static void
draw_shadow (const Play *play)
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

/* Room to both sides of a place within a panel's picture, output units. */
static double
free_width (const Play *play, const CwRigid *place, const CwPolygon *polygon, double x, double y)
{
  double before = G_MAXDOUBLE, after = G_MAXDOUBLE;

  for (guint r = 0; r < polygon->n_rings; r++)
    for (guint i = 0; i < polygon->rings[r].n_points; i++)
      {
        const CwRing *ring = &polygon->rings[r];
        CwPoint p = ring->points[i], q = ring->points[(i + 1) % ring->n_points];
        double ax, ay, bx, by;
        project (play, place, p.x, p.y, &ax, &ay);
        project (play, place, q.x, q.y, &bx, &by);
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
hidden (const Play *play, const CwPaint *paints, guint n, guint at, double x, double y)
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
      if (cw_polygon_contains (&panel->outline, u, v))
        return TRUE;
    }
  return FALSE;
}

/* Words on a panel, if there is room for them beside the place and it is not hidden. */
static void
draw_words (const Play *play, const CwPaint *paints, guint n, guint at, CwId id, double flat_x, double flat_y,
            double room, const char *text)
{
  guint index = paints[at].panel;
  const CwPanel *panel = cw_panel_set_get_panel (play->scene->analysis->panels, index);
  CwRigid place = cw_rigid_compose (&play->view, &play->scene->pose->places[index]);
  double x, y, size = LABEL, width = cw_draw_text_width (size, text);

  project (play, &place, flat_x, flat_y, &x, &y);
  room = MIN (room * play->camera->scale, free_width (play, &place, &panel->outline, x, y)) - 8;
  if (width > room)
    size *= room / width;
  if (size < LABEL_LEAST || hidden (play, paints, n, at, x, y))
    return;
  /* Words on a printed face clear the print behind them. */
  gboolean printed = play->scene->panels[index].pattern != NULL && seen_face (&place) == CW_FACE_FRONT;
  cw_draw_list_set_ground (play->list, ground_of (play, index, &place));
  cw_draw_list_text (play->list, printed ? CW_PEN_FIGURE : CW_PEN_TEXT, id, x, y + size * 0.36, size, CW_ANCHOR_MIDDLE,
                     0, text);
}

static void
draw_names (const Play *play, const CwPaint *paints, guint n)
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
          if (item->label != NULL && item->face == seen_face (&place) && cw_polygon_contains (&panel->outline, x, y))
            draw_words (play, paints, n, i, (CwId){ CW_ID_ART, of->piece, k, 0 }, x, y,
                        0.65 * (fabs (cos (up)) * w + fabs (sin (up)) * h), item->label);
        }
    }
  cw_draw_list_set_ground (play->list, CW_GROUND_TABLE);
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

  Play play = { list, scene, camera, look, cw_camera_get_view (camera) };
  cw_card_scene_pose (scene, step, fraction, scene->pose);
  const CwPaint *paints = cw_depth_order (scene->depth, scene->pose, step, fraction, &play.view, &n);

  cw_draw_list_set_ground (list, CW_GROUND_TABLE);
  if (look->shadow)
    draw_shadow (&play);
  for (guint i = 0; i < n; i++)
    {
      if (paints[i].within != G_MAXUINT)
        {
          CwRigid place = cw_rigid_compose (&play.view, &scene->pose->places[paints[i].within]);
          cw_draw_list_begin (list, CW_PEN_CLIP, (CwId){ CW_ID_NONE, 0, 0, 0 });
          add_polygon (&play, &place, &cw_panel_set_get_panel (scene->analysis->panels, paints[i].within)->outline);
          cw_draw_list_end (list);
        }
      draw_panel (&play, paints[i].panel);
      if (paints[i].within != G_MAXUINT)
        cw_draw_list_unclip (list);
    }
  if (look->labels)
    draw_names (&play, paints, n);
}
