/* cw-sight-art.c: greetings and pictures that the reader sees upside down or sideways.
 *
 * Art is judged in labelled states where at least half of it is seen, from both sides when the card is closed, from the
 * front otherwise (model, "Wants"). The reader holds the card with the held piece's up upright and turns it about the
 * vertical to see the back, so up stays up and only left and right change. A face of opaque paper is seen from its own
 * side only: no folding and no sticking can show art mirrored, and there is nothing to find there.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "sight/cw-sight-private.h"

#include "geometry/cw-house.h"
#include "geometry/cw-tolerance.h"
#include "units/cw-about.h"

#include <glib/gi18n-lib.h>

/* One piece of art on the flat piece, cut up by its panels. */
typedef struct
{
  const CwArt *art;
  guint piece;
  guint n_parts;
  CwRegion *parts; /* one a panel of the piece */
  double area;     /* square ticks, of what lies on paper */
} Drawn;

static void
find_drawn (const CwLook *look, guint piece, const CwArt *art, Drawn *drawn)
{
  const CwPanelMap *map = &look->set->maps[piece];
  CwPoint a = cw_place_get_point (&art->box[0]), b = cw_place_get_point (&art->box[1]);
  CwPoint corners[4] = { cw_point (MIN (a.x, b.x), MIN (a.y, b.y)), cw_point (MAX (a.x, b.x), MIN (a.y, b.y)),
                         cw_point (MAX (a.x, b.x), MAX (a.y, b.y)), cw_point (MIN (a.x, b.x), MAX (a.y, b.y)) };
  CwRing ring = { 4, corners };
  CwPolygon polygon = { 1, &ring };
  CwRegion box = { 1, &polygon };

  *drawn = (Drawn){ art, piece, map->panels->len, g_new0 (CwRegion, map->panels->len + 1), 0 };
  for (guint i = 0; i < drawn->n_parts; i++)
    {
      const CwPanel *panel = &g_array_index (map->panels, CwPanel, i);
      CwRegion whole;

      if (panel->box_min.x >= corners[2].x || panel->box_max.x <= corners[0].x || panel->box_min.y >= corners[2].y
          || panel->box_max.y <= corners[0].y)
        continue;
      whole = cw_region_from_polygon (&panel->outline);
      drawn->parts[i] = cw_region_overlay (&box, &whole, CW_OVERLAY_INTERSECTION);
      drawn->area += (double) cw_region_area2 (&drawn->parts[i]) / 2;
      cw_region_clear (&whole);
    }
}

static void
drawn_clear (Drawn *drawn)
{
  for (guint i = 0; i < drawn->n_parts; i++)
    cw_region_clear (&drawn->parts[i]);
  g_free (drawn->parts);
}

/* How much of it is seen, square ticks; the panel with most of that and a place on it. */
static double
find_seen (CwLook *look, const Drawn *drawn, guint step, CwFace from, guint *panel, CwPoint *at)
{
  const CwView *view = cw_look_get_view (look, step, from);
  double seen = 0, most = 0;

  for (guint i = 0; i < drawn->n_parts; i++)
    {
      guint own = look->set->first_panel[drawn->piece] + i;
      g_autofree gboolean *one = NULL;
      CwRegion shown, cast, both;
      double area;

      if (drawn->parts[i].n_polygons == 0 || fabs (view->places[own].r[2][2]) <= CW_TOL_EDGE_ON)
        continue;
      one = g_new0 (gboolean, look->n_panels + 1);
      one[own] = TRUE;
      shown = cw_view_find (view, one, drawn->art->face);
      if (shown.n_polygons == 0)
        continue;
      cast = cw_sight_project (&drawn->parts[i], &view->places[own]);
      both = cw_region_overlay (&shown, &cast, CW_OVERLAY_INTERSECTION);
      area = (double) cw_region_area2 (&both) / 2;
      seen += area;
      if (area > most)
        {
          most = area;
          *panel = own;
          *at = cw_polygon_inside_point (&both.polygons[0]);
        }
      cw_region_clear (&shown);
      cw_region_clear (&cast);
      cw_region_clear (&both);
    }
  return seen;
}

/* How far the art's up is turned clockwise from the reader's, degrees from -180 to 180. */
static double
find_turn (CwLook *look, const Drawn *drawn, guint step, CwFace from, guint panel)
{
  double up = drawn->art->up * G_PI / 180;
  /* Clockwise for one who looks at the back is anticlockwise in front coordinates. */
  CwVec3 flat = cw_vec3 (drawn->art->face == CW_FACE_FRONT ? sin (up) : -sin (up), -cos (up), 0);
  CwVec3 at = cw_rigid_turn (&cw_look_get_pose (look, step)->places[panel], flat);

  return atan2 (from == CW_FACE_FRONT ? at.x : -at.x, -at.y) * 180 / G_PI;
}

static void
judge_art (CwLook *look, const Drawn *drawn, GPtrArray *findings)
{
  static const char *const words[2][2]
    = { { N_ ("After “{1}”, the reader sees “{0}” on {2} from the front, lying sideways."),
          N_ ("After “{1}”, the reader sees “{0}” on {2} from the back, lying sideways.") },
        { N_ ("After “{1}”, the reader sees “{0}” on {2} from the front, upside down."),
          N_ ("After “{1}”, the reader sees “{0}” on {2} from the back, upside down.") } };
  static const char *const remedies[2][2]
    = { { N_ ("Draw “{0}” turned clockwise by {3} degrees."), N_ ("Draw “{0}” turned anticlockwise by {3} degrees.") },
        { N_ ("Turn {2} clockwise by {3} degrees before sticking it."),
          N_ ("Turn {2} anticlockwise by {3} degrees before sticking it.") } };
  CwFinding *finding = NULL;

  for (guint i = 0; i < look->n_steps; i++)
    for (guint f = 0; f < 2; f++)
      {
        CwFace from = f == 0 ? CW_FACE_FRONT : CW_FACE_BACK;
        const char *id = look->set->maps[drawn->piece].piece->id;
        g_autofree char *text = NULL;
        guint panel = G_MAXUINT;
        CwPoint at = { 0 };
        double turn;

        if (cw_look_get_step (look, i)->rest == NULL || !cw_look_is_reached (look, i)
            || (from == CW_FACE_BACK && !cw_look_is_closed (look, i))
            || !cw_look_get_pose (look, i)->present[look->set->first_panel[drawn->piece]])
          continue;
        /* A tick of rounding all round a half that shows exactly. */
        if (find_seen (look, drawn, i, from, &panel, &at) < drawn->area / 2 * (1 - CW_TOL_DEAD_POINT)
            || panel == G_MAXUINT)
          continue;
        turn = find_turn (look, drawn, i, from, panel);
        if (fabs (turn) <= CW_HOUSE_TILT)
          continue;
        if (finding == NULL)
          finding = cw_finding_new (CW_FINDING_ART_TURNED);
        cw_look_add_state (look, finding, i);
        if (finding->words != NULL && fabs (turn) <= finding->amount + CW_TOL_ANGLE_AGREES_DEG)
          continue;
        cw_finding_add_panel (finding, id, panel - look->set->first_panel[drawn->piece]);
        cw_finding_set_at (finding, NULL, at.x, at.y);
        cw_finding_set_amount (finding, CW_AMOUNT_DEGREES, fabs (turn));
        finding->known = cw_flat_states_get (look->states, i)->flat ? CW_KNOWN_EXACT : CW_KNOWN_NUMERIC;
        text = cw_about_degrees (fabs (turn));
        cw_finding_set_words (
          finding, words[fabs (turn) >= 180 - CW_HOUSE_TILT ? 1 : 0][f],
          remedies[cw_look_find_stick (look, drawn->piece, i) != G_MAXUINT ? 1 : 0][turn < 0 ? 0 : 1],
          drawn->art->label ? drawn->art->label : drawn->art->id, cw_look_step_name (look, i),
          cw_look_piece_name (look, drawn->piece), text, NULL);
      }
  if (finding != NULL)
    g_ptr_array_add (findings, finding);
}

/**
 * cw_sight_tell_art:
 * @look: looks
 * @findings: (inout): gets `art-turned`
 */
void
cw_sight_tell_art (CwLook *look, GPtrArray *findings)
{
  g_return_if_fail (look != NULL && findings != NULL);

  for (guint i = 0; i < look->set->n_pieces; i++)
    {
      const GPtrArray *art = look->set->maps[i].piece->art;

      for (guint k = 0; art != NULL && k < art->len && look->set->maps[i].panels->len > 0; k++)
        {
          Drawn drawn;

          find_drawn (look, i, g_ptr_array_index (art, k), &drawn);
          if (drawn.area > 0)
            judge_art (look, &drawn, findings);
          drawn_clear (&drawn);
        }
    }
}
