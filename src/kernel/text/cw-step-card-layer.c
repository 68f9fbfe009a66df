/* cw-step-card-layer.c: where a layer goes, in words.
 *
 * Measured only from edges of its panel that a ruler can be put to, as seen on the face it goes on; an even rim is said
 * as one. What lies askew, or on a panel without such edges, is left to the picture.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "text/cw-step-card-private.h"
#include "fold/cw-assembly.h"
#include "panel/cw-path-flatten.h"

#include <glib/gi18n-lib.h>
#include <math.h>

/* Turned by no more than this off a quarter, a layer lies straight, degrees. */
#define SQUARE_DEG 0.5

static void
extend (double low[2], double high[2], const CwRigid *place, CwPoint p)
{
  CwVec3 at = cw_rigid_apply (place, cw_vec3 (p.x, p.y, 0));

  low[0] = MIN (low[0], at.x);
  low[1] = MIN (low[1], at.y);
  high[0] = MAX (high[0], at.x);
  high[1] = MAX (high[1], at.y);
}

/* The box round a laid piece on its host, in the host's front coordinates; as it is folded, if it has been. */
static void
measure_laid (const CwCardWalk *walk, const CwStep *step, guint piece, guint on, double low[2], double high[2])
{
  const CwPanelSet *set = walk->making->analysis->panels;
  CwRigid place = cw_step_get_placement (step);
  gboolean folded = FALSE;
  CwPoint a, b;

  for (guint h = set->first_hinge[piece]; h < set->first_hinge[piece + 1]; h++)
    folded |= fabs (walk->end->angles_deg[h]) > SQUARE_DEG;
  if (!folded || !walk->end->present[on] || !walk->end->present[set->first_panel[piece]])
    {
      cw_piece_get_box (set->maps[piece].piece, &a, &b);
      for (guint i = 0; i < 4; i++)
        extend (low, high, &place, cw_point (i % 2 == 0 ? a.x : b.x, i / 2 == 0 ? a.y : b.y));
      return;
    }
  for (guint k = set->first_panel[piece]; k < set->first_panel[piece + 1]; k++)
    {
      const CwRing *ring = &cw_panel_set_get_panel (set, k)->outline.rings[0];
      CwRigid back = cw_rigid_inverse (&walk->end->places[on]);

      place = cw_rigid_compose (&back, &walk->end->places[k]);
      for (guint i = 0; i < ring->n_points; i++)
        extend (low, high, &place, ring->points[i]);
    }
}

/* How far a laid piece stays in from the four sides of the box round its panel, as seen on that face: left, top, right,
 * bottom; FALSE when it lies askew. on: the panel in the design. */
static gboolean
measure_rims (const CwCardWalk *walk, const CwStep *step, guint piece, guint on, gint32 rims[4])
{
  const CwPanel *panel = cw_panel_set_get_panel (walk->making->analysis->panels, on);
  double low[2] = { G_MAXDOUBLE, G_MAXDOUBLE }, high[2] = { -G_MAXDOUBLE, -G_MAXDOUBLE };

  if (fabs (remainder (step->turn, 90)) > SQUARE_DEG)
    return FALSE;
  measure_laid (walk, step, piece, on, low, high);
  rims[0] = (gint32) lround (low[0]) - panel->box_min.x;
  rims[1] = (gint32) lround (low[1]) - panel->box_min.y;
  rims[2] = panel->box_max.x - (gint32) lround (high[0]);
  rims[3] = panel->box_max.y - (gint32) lround (high[1]);
  if (step->on_face == CW_FACE_BACK)
    {
      gint32 swap = rims[0];

      rims[0] = rims[2];
      rims[2] = swap;
    }
  return TRUE;
}

/* Whether the paper's edge runs along each side of the box round a panel, as seen on that face: left, top, right,
 * bottom. Only there can a ruler be put to it. */
static void
find_edges (const CwPanel *panel, CwFace face, gboolean has[4])
{
  const CwRing *ring = &panel->outline.rings[0];

  has[0] = has[1] = has[2] = has[3] = FALSE;
  for (guint i = 0; i < ring->n_points; i++)
    {
      CwPoint a = ring->points[i], b = ring->points[(i + 1) % ring->n_points];

      has[face == CW_FACE_BACK ? 2 : 0] |= a.x == b.x && a.x == panel->box_min.x;
      has[face == CW_FACE_BACK ? 0 : 2] |= a.x == b.x && a.x == panel->box_max.x;
      has[1] |= a.y == b.y && a.y == panel->box_min.y;
      has[3] |= a.y == b.y && a.y == panel->box_max.y;
    }
}

/* A layer that reaches edges of its panel or beyond: by how far on each side, what stays free on the others. */
static char *
over_words (const gint32 rims[4], const gboolean has[4], CwUnit unit)
{
  const char *const beyond[] = { _ ("%s beyond the left edge"), _ ("%s beyond the top edge"),
                                 _ ("%s beyond the right edge"), _ ("%s beyond the bottom edge") };
  const char *const inside[] = { _ ("%s from the left edge"), _ ("%s from the top edge"), _ ("%s from the right edge"),
                                 _ ("%s from the bottom edge") };
  const char *const level[] = { _ ("level with the left edge"), _ ("level with the top edge"),
                                _ ("level with the right edge"), _ ("level with the bottom edge") };
  g_autoptr (GString) text = g_string_new (NULL);

  for (guint i = 0; i < 4; i++)
    {
      gboolean other_over = rims[(i + 2) % 4] < 0 && has[(i + 2) % 4];
      gboolean nearer = rims[i] < rims[(i + 2) % 4] || (rims[i] == rims[(i + 2) % 4] && i < 2) || !has[(i + 2) % 4];
      g_autofree char *length = cw_length_format_ticks (ABS (rims[i]), unit);
      g_auto (GStrv) parts = NULL;
      g_autofree char *words = NULL;

      if (!has[i] || (rims[i] >= 0 && (other_over || !nearer)))
        continue;
      if (rims[i] == 0)
        {
          g_string_append_printf (text, "%s%s", text->len > 0 ? ", " : "", level[i]);
          continue;
        }
      parts = g_strsplit (rims[i] < 0 ? beyond[i] : inside[i], "%s", 2);
      words = g_strjoinv (length, parts);
      g_string_append_printf (text, "%s%s", text->len > 0 ? ", " : "", words);
    }
  return g_strdup_printf (_ ("It stands %s."), text->str);
}

/* Where a layer goes, with measures from edges a reader can put a ruler to. */
static char *
place_words (const CwCardWalk *walk, const CwStep *step, guint piece, guint panel)
{
  const CwPanel *on = cw_panel_set_get_panel (walk->making->analysis->panels, panel);
  CwUnit unit = step->at.x.unit;
  gint32 rims[4];
  gboolean has[4], level = TRUE, over = FALSE, all = TRUE; /* over: reaches an edge or beyond */
  guint n = 0;

  find_edges (on, step->on_face, has);
  if (!measure_rims (walk, step, piece, panel, rims))
    return g_strdup (_ ("Lay it as the picture shows."));
  for (guint i = 0; i < 4; i++)
    {
      level &= !has[i] || rims[i] == 0;
      over |= has[i] && rims[i] <= 0;
      all &= has[i];
      n += has[i];
    }
  if (n == 0)
    return g_strdup (_ ("Lay it as the picture shows."));
  if (level)
    return g_strdup (_ ("Its edges lie level with the panel's edges, as the picture shows."));
  if (over)
    return over_words (rims, has, unit);
  g_autofree char *l = cw_length_format_ticks (rims[0], unit), *t = cw_length_format_ticks (rims[1], unit);
  g_autofree char *r = cw_length_format_ticks (rims[2], unit), *b = cw_length_format_ticks (rims[3], unit);
  if (all && rims[0] == rims[1] && rims[0] == rims[2] && rims[0] == rims[3])
    return g_strdup_printf (_ ("Leave an even rim of %s all round."), l);
  if (all && rims[0] == rims[2] && rims[1] == rims[3])
    return g_strdup_printf (_ ("In the middle: leave %s at left and right, %s at top and bottom."), l, t);
  /* The nearer edge of either pair that is there. */
  gboolean right = has[2] && (!has[0] || rims[2] < rims[0]), bottom = has[3] && (!has[1] || rims[3] < rims[1]);
  const char *across = right ? r : l, *down = bottom ? b : t;
  if (!has[0] && !has[2])
    return g_strdup_printf (bottom ? _ ("Leave %s at the bottom.") : _ ("Leave %s at the top."), down);
  if (!has[1] && !has[3])
    return g_strdup_printf (right ? _ ("Leave %s at the right.") : _ ("Leave %s at the left."), across);
  if (has[0] && has[2] && rims[0] == rims[2])
    return g_strdup_printf (bottom ? _ ("Leave %s at left and right and %s at the bottom.")
                                   : _ ("Leave %s at left and right and %s at the top."),
                            across, down);
  if (has[1] && has[3] && rims[1] == rims[3])
    return g_strdup_printf (right ? _ ("Leave %s at the right and %s at top and bottom.")
                                  : _ ("Leave %s at the left and %s at top and bottom."),
                            across, down);
  if (right)
    return g_strdup_printf (bottom ? _ ("Leave %s at the right and %s at the bottom.")
                                   : _ ("Leave %s at the right and %s at the top."),
                            across, down);
  return g_strdup_printf (bottom ? _ ("Leave %s at the left and %s at the bottom.")
                                 : _ ("Leave %s at the left and %s at the top."),
                          across, down);
}

/**
 * cw_card_say_stick:
 * @card_step: the step of the card
 * @step: the step of the design
 * @piece: what is stuck
 * @host: what on
 *
 * Says what goes where.
 */
void
cw_card_say_stick (CwCardWalk *walk, CwCardStep *card_step, const CwStep *step, guint piece, guint host)
{
  CwCardMaking *making = walk->making;
  const CwPanelMap *map = &making->analysis->panels->maps[host];
  guint panel = step->on.has_panel ? cw_panel_map_find (map, cw_place_get_point (&step->on.panel)) : G_MAXUINT;
  const CwPanel *on = panel != G_MAXUINT ? &g_array_index (map->panels, CwPanel, panel) : NULL;
  const char *name = on != NULL && on->name != NULL ? on->name : cw_card_piece_name (making, host);
  g_autofree char *letter = cw_card_letter (making->row_of[piece]);

  cw_card_say (card_step->lines, g_strdup_printf (step->tucked ? _ ("Lay piece %s, %s, on “%s” without glue.")
                                                               : _ ("Stick piece %s, %s, to “%s”."),
                                                  letter, cw_card_piece_name (making, piece), name));
  if (cw_card_sides_differ (making, piece))
    cw_card_say (card_step->lines,
                 g_strdup_printf (_ ("Face down: %s."), cw_card_side_words (making, piece, step->facing)));
  if (on != NULL)
    cw_card_say (card_step->lines,
                 place_words (walk, step, piece, making->analysis->panels->first_panel[host] + panel));
  if (!step->tucked)
    cw_card_say (card_step->lines, g_strdup (_ ("Set one edge down first, look, then press it down all over.")));
}
