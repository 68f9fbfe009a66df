/* cw-card-scene.c: what a view of the folded card makes once, so that a frame allocates nothing.
 *
 * For every panel: its paper's colours, its real edges apart from its fold lines, slits that end inside it, and the
 * fine lines that stand for a printed front. All in flat coordinates: a frame only places and projects them.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-card-scene.h"

#include <string.h>

#include "cw-pen.h"

#define PAPER_UNSAID 0xf6f2ea
/* Two stretches this near lie on one line, ticks: roundings of crossings add up to less. */
#define ON_LINE 2.0

static double
off_line (CwVec3 p, CwVec3 q, double x, double y)
{
  double dx = q.x - p.x, dy = q.y - p.y, length = hypot (dx, dy);

  return length > 0 ? fabs (dx * (y - p.y) - dy * (x - p.x)) / length : hypot (x - p.x, y - p.y);
}

/* The part of p q, as shares, that a stretch on the same line covers; FALSE if none. */
static gboolean
covered (CwVec3 p, CwVec3 q, double ax, double ay, double bx, double by, double *from, double *to)
{
  double dx = q.x - p.x, dy = q.y - p.y, length2 = dx * dx + dy * dy;

  if (length2 <= 0 || off_line (p, q, ax, ay) > ON_LINE || off_line (p, q, bx, by) > ON_LINE)
    return FALSE;
  double a = ((ax - p.x) * dx + (ay - p.y) * dy) / length2, b = ((bx - p.x) * dx + (by - p.y) * dy) / length2;
  *from = CLAMP (MIN (a, b), 0, 1);
  *to = CLAMP (MAX (a, b), 0, 1);
  return (*to - *from) * sqrt (length2) > ON_LINE;
}

static CwVec3
along (CwVec3 p, CwVec3 q, double t)
{
  return cw_vec3_add (p, cw_vec3_scale (cw_vec3_sub (q, p), t));
}

static void
append_line (CwCardPanel *panel, CwVec3 p, CwVec3 q, guint mark, guint hinge)
{
  CwCardLine line = { p, q, mark, hinge };
  g_array_append_val (panel->lines, line);
}

/* Which cut runs along a real edge; G_MAXUINT: none, it is the outline. */
static guint
cut_along (const CwPiece *piece, CwVec3 p, CwVec3 q)
{
  CwVec3 middle = along (p, q, 0.5);
  guint found = G_MAXUINT;
  double nearest = ON_LINE * ON_LINE;

  for (guint i = 0; i < piece->marks->len; i++)
    {
      const CwMark *mark = g_ptr_array_index (piece->marks, i);
      if (mark->kind == CW_MARK_SCORE)
        continue;
      if (mark->shape == CW_SHAPE_CIRCLE)
        {
          CwPoint c = cw_place_get_point (&mark->centre);
          /* Chords of the flattened circle dip inside it a little. */
          double off = fabs (hypot (middle.x - c.x, middle.y - c.y) - mark->radius.ticks);
          if (off < mark->radius.ticks * 0.02 + ON_LINE)
            return i;
          continue;
        }
      guint n = mark->line.n_vertices, sides = mark->shape == CW_SHAPE_RECT ? 4 : n;
      for (guint k = 0; k < sides && n >= 2; k++)
        {
          CwPoint a, b;
          double from, to;
          if (mark->shape == CW_SHAPE_RECT)
            {
              CwPoint u = cw_place_get_point (&mark->line.vertices[0].at);
              CwPoint v = cw_place_get_point (&mark->line.vertices[1].at);
              const CwPoint corner[4] = { u, { v.x, u.y }, v, { u.x, v.y } };
              a = corner[k];
              b = corner[(k + 1) % 4];
            }
          else
            {
              if (k + 1 == n && mark->kind != CW_MARK_WINDOW)
                break;
              a = cw_place_get_point (&mark->line.vertices[k].at);
              b = cw_place_get_point (&mark->line.vertices[(k + 1) % n].at);
            }
          if (covered (p, q, a.x, a.y, b.x, b.y, &from, &to) && from < 0.5 && to > 0.5)
            {
              double off = off_line (p, q, a.x, a.y);
              if (off * off < nearest)
                {
                  nearest = off * off;
                  found = i;
                }
            }
        }
    }
  return found;
}

static int
compare_shares (const void *a, const void *b)
{
  const double *x = a, *y = b;
  return (*x > *y) - (*x < *y);
}

/* One edge of a panel's ring, split into fold lines and real edges. */
static void
split_edge (CwCardPanel *panel, const CwPanelSet *set, const CwPiece *piece, CwVec3 p, CwVec3 q)
{
  g_autoptr (GArray) folds = g_array_new (FALSE, FALSE, sizeof (double[3]));
  double at = 0;

  for (guint h = set->first_hinge[panel->piece]; h < set->first_hinge[panel->piece + 1]; h++)
    {
      guint of;
      const CwHinge *hinge = cw_panel_set_get_hinge (set, h, &of);
      if (hinge->left != panel->panel && hinge->right != panel->panel)
        continue;
      for (guint k = 0; k < hinge->stretches->len; k++)
        {
          const CwStretch *stretch = &g_array_index (hinge->stretches, CwStretch, k);
          CwPoint a = stretch->a, b = stretch->b;
          double share[3];
          if (covered (p, q, a.x, a.y, b.x, b.y, &share[0], &share[1]))
            {
              share[2] = h;
              g_array_append_val (folds, share);
            }
        }
    }
  g_array_sort (folds, compare_shares);
  for (guint k = 0; k < folds->len; k++)
    {
      const double *share = (const double *) (gpointer) (folds->data + k * sizeof (double[3]));
      if (share[1] <= at)
        continue;
      if (share[0] > at)
        append_line (panel, along (p, q, at), along (p, q, share[0]),
                     cut_along (piece, along (p, q, at), along (p, q, share[0])), G_MAXUINT);
      append_line (panel, along (p, q, MAX (share[0], at)), along (p, q, share[1]), G_MAXUINT, (guint) share[2]);
      at = share[1];
    }
  if (at < 1)
    append_line (panel, along (p, q, at), q, cut_along (piece, along (p, q, at), q), G_MAXUINT);
}

/* Where a line through the polygon enters and leaves it: shares of p q, sorted. */
static void
crossings (const CwPolygon *polygon, CwVec3 p, CwVec3 q, GArray *shares)
{
  double dx = q.x - p.x, dy = q.y - p.y;

  for (guint r = 0; r < polygon->n_rings; r++)
    for (guint i = 0; i < polygon->rings[r].n_points; i++)
      {
        CwPoint a = polygon->rings[r].points[i];
        CwPoint b = polygon->rings[r].points[(i + 1) % polygon->rings[r].n_points];
        double da = dx * (a.y - p.y) - dy * (a.x - p.x), db = dx * (b.y - p.y) - dy * (b.x - p.x);
        if ((da > 0) == (db > 0))
          continue;
        double u = da / (da - db), x = a.x + u * (b.x - a.x), y = a.y + u * (b.y - a.y);
        double t = ((x - p.x) * dx + (y - p.y) * dy) / (dx * dx + dy * dy);
        g_array_append_val (shares, t);
      }
  g_array_sort (shares, compare_shares);
}

/* Cuts that end inside the panel do not bound it; they are drawn all the same. */
static void
add_slits (CwCardPanel *panel, const CwPanel *flat, const CwPiece *piece)
{
  g_autoptr (GArray) shares = g_array_new (FALSE, FALSE, sizeof (double));

  for (guint i = 0; i < piece->marks->len; i++)
    {
      const CwMark *mark = g_ptr_array_index (piece->marks, i);
      if (mark->kind != CW_MARK_CUT)
        continue;
      for (guint k = 0; k + 1 < mark->line.n_vertices; k++)
        {
          CwPoint a = cw_place_get_point (&mark->line.vertices[k].at);
          CwPoint b = cw_place_get_point (&mark->line.vertices[k + 1].at);
          CwVec3 p = cw_vec3 (a.x, a.y, 0), q = cw_vec3 (b.x, b.y, 0);
          double zero = 0, one = 1;
          if (cw_point_equal (a, b))
            continue;
          g_array_set_size (shares, 0);
          g_array_append_val (shares, zero);
          g_array_append_val (shares, one);
          crossings (&flat->outline, p, q, shares);
          for (guint s = 0; s + 1 < shares->len; s++)
            {
              double from = CLAMP (g_array_index (shares, double, s), 0, 1);
              double to = CLAMP (g_array_index (shares, double, s + 1), 0, 1);
              CwVec3 u = along (p, q, from), v = along (p, q, to), middle = along (u, v, 0.5);
              gboolean bounds = FALSE;
              if (cw_vec3_length (cw_vec3_sub (v, u)) <= ON_LINE
                  || !cw_polygon_contains (&flat->outline, middle.x, middle.y))
                continue;
              for (guint n = 0; n < panel->lines->len && !bounds; n++)
                {
                  const CwCardLine *line = &g_array_index (panel->lines, CwCardLine, n);
                  double f, t;
                  bounds = covered (u, v, line->p.x, line->p.y, line->q.x, line->q.y, &f, &t) && f < 0.5 && t > 0.5;
                }
              if (!bounds)
                append_line (panel, u, v, i, G_MAXUINT);
            }
        }
    }
}

static void
add_pattern (CwCardPanel *panel, const CwPanel *flat)
{
  g_autoptr (GArray) shares = g_array_new (FALSE, FALSE, sizeof (double));
  const CwRing *ring = &flat->outline.rings[0];
  gint32 low = G_MAXINT32, high = G_MININT32;

  panel->pattern = g_array_new (FALSE, FALSE, sizeof (CwVec3));
  for (guint i = 0; i < ring->n_points; i++)
    {
      low = MIN (low, ring->points[i].x + ring->points[i].y);
      high = MAX (high, ring->points[i].x + ring->points[i].y);
    }
  low -= low % CW_CARD_PATTERN;
  for (gint32 c = low; c <= high; c += CW_CARD_PATTERN)
    {
      CwVec3 p = cw_vec3 (c, 0, 0), q = cw_vec3 (c - CW_TICKS_PER_INCH, CW_TICKS_PER_INCH, 0);
      g_array_set_size (shares, 0);
      crossings (&flat->outline, p, q, shares);
      for (guint s = 0; s + 1 < shares->len; s += 2)
        {
          /* z tells which line it is, so that a small picture can leave some out. */
          CwVec3 ends[2]
            = { along (p, q, g_array_index (shares, double, s)), along (p, q, g_array_index (shares, double, s + 1)) };
          ends[0].z = c / CW_CARD_PATTERN;
          g_array_append_vals (panel->pattern, ends, 2);
        }
    }
}

static int
compare_lines (const void *a, const void *b)
{
  const CwCardLine *x = a, *y = b;
  if (x->hinge != y->hinge)
    return x->hinge > y->hinge ? 1 : -1;
  return (x->mark > y->mark) - (x->mark < y->mark);
}

static void
make_panel (CwCardPanel *panel, const CwAnalysis *analysis, guint index)
{
  const CwPanelSet *set = analysis->panels;
  const CwPanel *flat = cw_panel_set_get_panel (set, index);

  cw_panel_set_locate (set, index, &panel->piece, &panel->panel);
  const CwPiece *piece = set->maps[panel->piece].piece;
  const CwPaper *paper = cw_design_get_paper (analysis->design, piece->paper);
  panel->colour[CW_FACE_FRONT] = cw_colour_parse (paper != NULL ? paper->front : NULL, PAPER_UNSAID);
  panel->colour[CW_FACE_BACK] = cw_colour_parse (paper != NULL ? paper->back : NULL, PAPER_UNSAID);
  panel->lines = g_array_new (FALSE, FALSE, sizeof (CwCardLine));
  for (guint r = 0; r < flat->outline.n_rings; r++)
    {
      const CwRing *ring = &flat->outline.rings[r];
      for (guint i = 0; i < ring->n_points; i++)
        {
          CwPoint a = ring->points[i], b = ring->points[(i + 1) % ring->n_points];
          split_edge (panel, set, piece, cw_vec3 (a.x, a.y, 0), cw_vec3 (b.x, b.y, 0));
        }
    }
  add_slits (panel, flat, piece);
  g_array_sort (panel->lines, compare_lines);
  if (paper != NULL && paper->patterned)
    add_pattern (panel, flat);
}

/**
 * cw_card_scene_new:
 * @analysis: a design and its motion
 *
 * Returns: (transfer full): what a view of its folded card keeps between frames
 */
CwCardScene *
cw_card_scene_new (const CwAnalysis *analysis)
{
  CwCardScene *scene = g_new0 (CwCardScene, 1);

  g_return_val_if_fail (analysis != NULL, NULL);

  scene->analysis = cw_analysis_ref ((CwAnalysis *) analysis);
  scene->work = cw_motion_work_new (analysis->motion);
  scene->pose = cw_pose_new (analysis->motion);
  scene->other = cw_pose_new (analysis->motion);
  scene->depth = cw_depth_new (analysis->motion, analysis->flat_states);
  scene->n_panels = cw_panel_set_n_panels (analysis->panels);
  scene->panels = g_new0 (CwCardPanel, MAX (scene->n_panels, 1));
  for (guint i = 0; i < scene->n_panels; i++)
    make_panel (&scene->panels[i], analysis, i);
  scene->grab_panel = G_MAXUINT;
  return scene;
}

/**
 * cw_card_scene_free:
 * @scene: (transfer full) (nullable): a scene
 */
void
cw_card_scene_free (CwCardScene *scene)
{
  if (scene == NULL)
    return;
  for (guint i = 0; i < scene->n_panels; i++)
    {
      g_array_unref (scene->panels[i].lines);
      g_clear_pointer (&scene->panels[i].pattern, g_array_unref);
    }
  g_free (scene->panels);
  cw_depth_free (scene->depth);
  cw_pose_free (scene->pose);
  cw_pose_free (scene->other);
  cw_motion_work_free (scene->work);
  cw_analysis_unref (scene->analysis);
  g_free (scene);
}

/**
 * cw_card_scene_pose:
 * @scene: a scene
 * @step: a step; beyond the last: the flat card before the first
 * @fraction: how far into it, 0 to 1
 * @pose: (out caller-allocates): where everything is then
 */
void
cw_card_scene_pose (CwCardScene *scene, guint step, double fraction, CwPose *pose)
{
  const CwMotion *motion = scene->analysis->motion;

  if (step < cw_motion_get_n_steps (motion))
    cw_motion_get_pose (motion, scene->work, step, CLAMP (fraction, 0, 1), pose);
  else
    cw_motion_get_start (motion, pose);
}
