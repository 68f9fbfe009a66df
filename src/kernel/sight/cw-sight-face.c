/* cw-sight-face.c: which pieces show the face that is not meant to be seen.
 *
 * The face meant to be seen is what the piece says, else the printed one of a patterned paper. A folded or
 * overhanging piece may well show its other side somewhere, so a piece is told of only where nothing excuses it: the
 * meant face is seen in no labelled state from any side, and the other one is; or the piece is one flat panel whose
 * other face is what shows of it on the closed card, and more of it than is ever seen of the meant one.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "sight/cw-sight-private.h"

#include "geometry/cw-tolerance.h"
#include "units/cw-about.h"

#include <glib/gi18n-lib.h>

static gboolean
is_present (CwLook *look, guint piece, guint step)
{
  return look->set->first_panel[piece] < look->set->first_panel[piece + 1]
         && cw_look_get_pose (look, step)->present[look->set->first_panel[piece]];
}

/* Labelled states with the piece; without any, closed ones, else the last one it is in. */
static GArray *
find_judged (CwLook *look, guint piece)
{
  GArray *steps = g_array_new (FALSE, FALSE, sizeof (guint));

  for (guint pass = 0; pass < 2 && steps->len == 0; pass++)
    for (guint i = 0; i < look->n_steps; i++)
      if ((pass == 0 ? cw_look_get_step (look, i)->rest != NULL : cw_look_is_closed (look, i))
          && cw_look_is_reached (look, i) && is_present (look, piece, i))
        g_array_append_val (steps, i);
  for (guint i = look->n_steps; i-- > 0 && steps->len == 0;)
    if (cw_look_is_reached (look, i) && is_present (look, piece, i))
      g_array_append_val (steps, i);
  return steps;
}

/* Square ticks of the face seen, seams left out. */
static double
area_seen (const CwView *view, const gboolean *panels, CwFace face, CwPoint *at)
{
  CwRegion all = cw_view_find (view, panels, face), seen;
  double area;

  if (all.n_polygons == 0)
    return 0;
  seen = cw_region_open (&all, CW_TOL_SHOWS_TICKS / 2);
  area = (double) cw_region_area2 (&seen) / 2;
  if (area > 0 && at != NULL)
    *at = cw_polygon_inside_point (&seen.polygons[0]);
  cw_region_clear (&all);
  cw_region_clear (&seen);
  return area;
}

/* A standing card may be looked at from anywhere: along the axes, edges and corners of a cube. */
static gboolean
is_seen_standing (CwLook *look, guint step, const gboolean *panels, CwFace face)
{
  for (int x = -1; x <= 1; x++)
    for (int y = -1; y <= 1; y++)
      for (int z = -1; z <= 1; z++)
        if (x != 0 || y != 0 || z != 0)
          {
            g_autoptr (CwView) view
              = cw_view_new (look->motion, look->states, step, cw_look_get_pose (look, step), cw_vec3 (x, y, z));

            if (area_seen (view, panels, face, NULL) > 0)
              return TRUE;
          }
  return FALSE;
}

typedef struct
{
  double most; /* square ticks, in one state from one side */
  guint step;
  CwFace from;
  CwPoint at;
} Sighting;

static void
note (Sighting *sighting, double area, guint step, CwFace from, CwPoint at)
{
  if (area > sighting->most)
    *sighting = (Sighting){ area, step, from, at };
}

static void
judge_face (CwLook *look, guint piece, CwFace meant, gboolean printed, GPtrArray *findings)
{
  g_autoptr (GArray) steps = find_judged (look, piece);
  g_autofree gboolean *panels = g_new0 (gboolean, look->n_panels + 1);
  CwFace other = meant == CW_FACE_FRONT ? CW_FACE_BACK : CW_FACE_FRONT;
  Sighting right = { 0 }, wrong = { 0 }, closed_wrong = { 0 };
  gboolean never, flat_one = look->set->maps[piece].panels->len == 1;
  CwFinding *finding;
  g_autofree char *text = NULL;

  for (guint k = look->set->first_panel[piece]; k < look->set->first_panel[piece + 1]; k++)
    panels[k] = TRUE;
  for (guint i = 0; i < steps->len; i++)
    for (guint f = 0; f < 2; f++)
      {
        guint step = g_array_index (steps, guint, i);
        CwFace from = f == 0 ? CW_FACE_FRONT : CW_FACE_BACK;
        gboolean closed = cw_look_is_closed (look, step);
        const CwView *view = cw_look_get_view (look, step, from);
        CwPoint at = { 0 };
        double area = area_seen (view, panels, meant, &at);

        note (&right, area, step, from, at);
        if (from == CW_FACE_BACK && !closed)
          continue;
        area = area_seen (view, panels, other, &at);
        note (&wrong, area, step, from, at);
        if (closed)
          note (&closed_wrong, area, step, from, at);
      }
  never = right.most <= 0 && wrong.most > 0;
  for (guint i = 0; i < steps->len && never; i++)
    never = cw_flat_states_get (look->states, g_array_index (steps, guint, i))->flat
            || !is_seen_standing (look, g_array_index (steps, guint, i), panels, meant);
  if (!never && !(flat_one && closed_wrong.most > right.most))
    return;
  if (!never)
    wrong = closed_wrong;

  finding = cw_finding_new (CW_FINDING_WRONG_FACE);
  cw_finding_add_piece (finding, look->set->maps[piece].piece->id);
  for (guint i = 0; i < steps->len; i++)
    {
      guint step = g_array_index (steps, guint, i);

      for (guint f = 0; f < (cw_look_is_closed (look, step) ? 2 : 1); f++)
        if (area_seen (cw_look_get_view (look, step, f == 0 ? CW_FACE_FRONT : CW_FACE_BACK), panels, other, NULL) > 0)
          cw_look_add_state (look, finding, step);
    }
  cw_look_place (look, finding, G_MAXUINT, wrong.at.x, wrong.at.y);
  cw_finding_set_amount (finding, CW_AMOUNT_SQ_TICKS, wrong.most);
  if (!cw_flat_states_get (look->states, wrong.step)->flat)
    finding->known = CW_KNOWN_NUMERIC;
  text = cw_about_area (wrong.most, cw_look_unit (look));
  cw_finding_set_words (
    finding,
    printed ? N_ ("After “{1}”, what shows of {0} is its unprinted side: {2}.")
    : meant == CW_FACE_FRONT
      ? N_ ("After “{1}”, what shows of {0} is its other side, not the drawn side that is meant to be seen: {2}.")
      : N_ ("After “{1}”, what shows of {0} is its drawn side, not the other side that is meant to be seen: {2}."),
    cw_look_find_stick (look, piece, wrong.step) != G_MAXUINT ? N_ ("Turn {0} over before sticking it.") : NULL,
    cw_look_piece_name (look, piece), cw_look_step_name (look, wrong.step), text, NULL);
  g_ptr_array_add (findings, finding);
}

/**
 * cw_sight_tell_faces:
 * @look: looks
 * @findings: (inout): gets `wrong-face`
 */
void
cw_sight_tell_faces (CwLook *look, GPtrArray *findings)
{
  g_return_if_fail (look != NULL && findings != NULL);

  for (guint i = 0; i < look->set->n_pieces; i++)
    {
      const CwPiece *piece = look->set->maps[i].piece;
      const CwPaper *paper = piece->paper ? cw_design_get_paper (look->design, piece->paper) : NULL;
      gboolean patterned = paper != NULL && paper->patterned;

      if (piece->shows == CW_SHOWS_BOTH || (piece->shows == CW_SHOWS_UNSAID && !patterned))
        continue;
      judge_face (look, i, piece->shows == CW_SHOWS_BACK ? CW_FACE_BACK : CW_FACE_FRONT,
                  patterned && piece->shows != CW_SHOWS_BACK, findings);
    }
}
