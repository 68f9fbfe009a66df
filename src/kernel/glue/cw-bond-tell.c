/* cw-bond-tell.c: glue that strays, and layers glued over what has to move: a fold line, or the two sides of a cut.
 *
 * Strays are told once a layer: the panel that most of its glue strays to, in the step in which it first does. Those
 * that stop a step are told there (cw-bond-shut.c). Two panels of one piece that intended bonds hold to one and the
 * same panel, and that would move to one another later if nothing were glued, are the other fault: over a score if a
 * fold line joins them, else over a cut.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "glue/cw-bond-private.h"

#include "contact/cw-panel-words.h"
#include "geometry/cw-tolerance.h"
#include "units/cw-about.h"

#include <glib/gi18n-lib.h>

/**
 * cw_bonds_new_finding:
 * @bonds: bonds
 * @code: what it is
 * @step: index of the step it is about
 * @known: how
 *
 * Returns: (transfer full): a finding without words yet; a note where the order of layers is not decided
 */
CwFinding *
cw_bonds_new_finding (const CwBonds *bonds, CwFindingCode code, guint step, CwKnown known)
{
  CwFinding *finding = cw_finding_new (code);

  finding->step = g_strdup (((const CwStep *) g_ptr_array_index (bonds->set->design->steps, step))->id);
  finding->fraction = 1;
  finding->known = known;
  if (known == CW_KNOWN_NOT_DECIDED)
    finding->severity = CW_SEVERITY_NOTE;
  return finding;
}

/**
 * cw_bonds_step_name:
 *
 * Returns: (transfer none): what the maker calls a step
 */
const char *
cw_bonds_step_name (const CwBonds *bonds, guint step)
{
  return cw_panel_set_get_step_name (bonds->set, step);
}

/**
 * cw_bonds_piece_name:
 *
 * Returns: (transfer none): what the maker calls a piece
 */
const char *
cw_bonds_piece_name (const CwBonds *bonds, guint piece)
{
  const CwPiece *own = bonds->set->maps[piece].piece;

  return own->name ? own->name : own->id;
}

/**
 * cw_bonds_area_text:
 *
 * Returns: (transfer full): an area as the maker reads it
 */
char *
cw_bonds_area_text (const CwBonds *bonds, double sq_ticks)
{
  return cw_about_area (sq_ticks, bonds->set->design->head ? bonds->set->design->head->unit : CW_UNIT_INCH);
}

/**
 * cw_bonds_length_text:
 *
 * Returns: (transfer full): a length as the maker reads it
 */
char *
cw_bonds_length_text (const CwBonds *bonds, double ticks)
{
  return cw_about_length (ticks, bonds->set->design->head ? bonds->set->design->head->unit : CW_UNIT_INCH);
}

/**
 * cw_bonds_set_at_row:
 *
 * Shows the largest part of a bond, on the piece that carries its zone.
 */
void
cw_bonds_set_at_row (const CwBonds *bonds, CwFinding *finding, const CwGlued *row)
{
  const CwZone *zone = &g_array_index (bonds->zones, CwZone, row->zone);
  guint best = 0;
  CwPoint at;

  for (guint i = 1; i < row->where.n_polygons; i++)
    if (cw_polygon_area2 (&row->where.polygons[i]) > cw_polygon_area2 (&row->where.polygons[best]))
      best = i;
  if (row->where.n_polygons == 0)
    return;
  at = cw_polygon_inside_point (&row->where.polygons[best]);
  cw_finding_set_at (finding, bonds->set->maps[zone->piece].piece->id, at.x, at.y);
}

/* --- Strays ------------------------------------------------------------------------------------------------------- */

static gboolean
is_stray_of (const CwBonds *bonds, const CwGlued *row, guint piece)
{
  return !row->intended && !bonds->told[row->zone] && g_array_index (bonds->zones, CwZone, row->zone).piece == piece;
}

static double
stray_area (const CwBonds *bonds, guint piece, guint other)
{
  double area = 0;

  for (guint i = 0; i < bonds->rows->len; i++)
    {
      const CwGlued *row = &g_array_index (bonds->rows, CwGlued, i);

      if (is_stray_of (bonds, row, piece) && row->other == other)
        area += (double) row->area2 / 2;
    }
  return area;
}

static void
tell_stray (CwBonds *bonds, guint piece)
{
  const CwGlued *first = NULL, *worst = NULL;
  double most = 0;
  g_autofree char *area = NULL, *other = NULL;
  const char *name, *when;
  CwFinding *finding;

  for (guint i = 0; i < bonds->rows->len; i++)
    {
      const CwGlued *row = &g_array_index (bonds->rows, CwGlued, i);
      double own;

      if (!is_stray_of (bonds, row, piece))
        continue;
      own = stray_area (bonds, piece, row->other);
      if (first == NULL)
        first = row;
      if (worst != NULL && own <= most)
        continue;
      worst = row;
      most = own;
    }
  if (worst == NULL)
    return;
  finding = cw_bonds_new_finding (bonds, CW_FINDING_GLUE_STRAYS, first->step, worst->known);
  for (guint i = 0; i < bonds->rows->len; i++)
    {
      const CwGlued *row = &g_array_index (bonds->rows, CwGlued, i);
      const CwStep *step = g_ptr_array_index (bonds->set->design->steps, row->step);

      if (is_stray_of (bonds, row, piece)
          && !g_ptr_array_find_with_equal_func (finding->steps, step->id, g_str_equal, NULL))
        g_ptr_array_add (finding->steps, g_strdup (step->id));
    }
  area = cw_bonds_area_text (bonds, most);
  other = cw_panel_words (bonds->set, worst->other);
  name = cw_bonds_piece_name (bonds, piece);
  when = cw_bonds_step_name (bonds, worst->step);
  cw_panel_set_tell (bonds->set, finding, worst->panel);
  cw_panel_set_tell (bonds->set, finding, worst->other);
  cw_bonds_set_at_row (bonds, finding, worst);
  cw_finding_set_amount (finding, CW_AMOUNT_SQ_TICKS, most);
  if (worst->over_air)
    cw_finding_set_words (finding,
                          N_ ("The glue of “{0}” looks past an edge or through an opening: in “{1}” {2} of it comes to "
                              "lie on {3}, which it should not hold."),
                          N_ ("Keep the glue of “{0}” to where it lies on what it should hold."), name, when, area,
                          other, NULL);
  else
    cw_finding_set_words (finding,
                          N_ ("In “{1}” {2} of the glue of “{0}” comes to lie on {3}, which it should not hold."),
                          N_ ("Keep the glue of “{0}” off {3}, or say that it should hold it."), name, when, area,
                          other, NULL);
  g_ptr_array_add (bonds->findings, finding);
}

/**
 * cw_bonds_tell_strays:
 * @bonds: bonds; cw_bonds_tell_shut() has been called
 *
 * Adds glue that strays to their findings, one a layer.
 */
void
cw_bonds_tell_strays (CwBonds *bonds)
{
  for (guint i = 0; i < bonds->set->n_pieces; i++)
    tell_stray (bonds, i);
}

/* --- Bridges ------------------------------------------------------------------------------------------------------ */

/* Two panels that a third one is glued to. */
typedef struct
{
  guint layer, a, b, step; /* step: in which the later of the two bonds was made */
  guint hinge;             /* between a and b; G_MAXUINT: none */
  guint parting;           /* the step that has to move them; G_MAXUINT: none */
  const CwGlued *row;
} Bridge;

static guint
find_hinge (const CwPanelSet *set, guint a, guint b)
{
  guint piece, own_a, own_b;

  cw_panel_set_locate (set, a, &piece, &own_a);
  cw_panel_set_locate (set, b, &piece, &own_b);
  for (guint i = 0; i < set->maps[piece].hinges->len; i++)
    {
      const CwHinge *hinge = &g_array_index (set->maps[piece].hinges, CwHinge, i);

      if ((hinge->left == own_a && hinge->right == own_b) || (hinge->left == own_b && hinge->right == own_a))
        return set->first_hinge[piece] + i;
    }
  return G_MAXUINT;
}

static CwRigid
place_between (const CwPose *pose, guint a, guint b)
{
  CwRigid back = cw_rigid_inverse (&pose->places[a]);

  return cw_rigid_compose (&back, &pose->places[b]);
}

/* The first later step in which the two panels would move to one another while the layer is with them. */
static guint
find_parting (const CwBonds *bonds, CwMotionWork *work, CwPose *pose, const Bridge *bridge)
{
  const CwPanel *panel = cw_panel_set_get_panel (bonds->set, bridge->b);
  CwRigid was;

  cw_motion_get_pose (bonds->free, work, bridge->step, 1, pose);
  was = place_between (pose, bridge->a, bridge->b);
  for (guint i = bridge->step + 1; i < bonds->n_steps; i++)
    {
      CwRigid is;

      if (cw_motion_get_group (bonds->free, i, bridge->layer) != cw_motion_get_group (bonds->free, i, bridge->a))
        return G_MAXUINT;
      cw_motion_get_pose (bonds->free, work, i, 1, pose);
      is = place_between (pose, bridge->a, bridge->b);
      for (guint k = 0; panel->outline.n_rings > 0 && k < panel->outline.rings[0].n_points; k++)
        {
          CwVec3 p = cw_vec3 (panel->outline.rings[0].points[k].x, panel->outline.rings[0].points[k].y, 0);

          if (cw_vec3_length (cw_vec3_sub (cw_rigid_apply (&was, p), cw_rigid_apply (&is, p))) > CW_TOL_LAID_TICKS)
            return i;
        }
    }
  return G_MAXUINT;
}

/* FALSE unless the two intended bonds join two panels of one piece to one panel of another. */
static gboolean
make_bridge (const CwBonds *bonds, const CwGlued *one, const CwGlued *two, Bridge *bridge)
{
  guint piece_a, piece_b, piece;

  if (!one->intended || !two->intended)
    return FALSE;
  if (one->panel == two->panel)
    *bridge = (Bridge){ .layer = one->panel, .a = one->other, .b = two->other };
  else if (one->other == two->other)
    *bridge = (Bridge){ .layer = one->other, .a = one->panel, .b = two->panel };
  else if (one->panel == two->other)
    *bridge = (Bridge){ .layer = one->panel, .a = one->other, .b = two->panel };
  else if (one->other == two->panel)
    *bridge = (Bridge){ .layer = one->other, .a = one->panel, .b = two->other };
  else
    return FALSE;
  cw_panel_set_locate (bonds->set, bridge->a, &piece_a, NULL);
  cw_panel_set_locate (bonds->set, bridge->b, &piece_b, NULL);
  cw_panel_set_locate (bonds->set, bridge->layer, &piece, NULL);
  if (piece_a != piece_b || bridge->a == bridge->b || piece == piece_a)
    return FALSE;
  if (bridge->a > bridge->b)
    {
      guint swap = bridge->a;

      bridge->a = bridge->b;
      bridge->b = swap;
    }
  bridge->step = MAX (one->step, two->step);
  bridge->hinge = find_hinge (bonds->set, bridge->a, bridge->b);
  bridge->row = two;
  return TRUE;
}

static void
tell_bridge (CwBonds *bonds, const Bridge *bridge)
{
  const CwPanelSet *set = bonds->set;
  guint own, piece;
  const char *name;
  g_autofree char *name_a = cw_panel_words (set, bridge->a), *name_b = cw_panel_words (set, bridge->b);
  CwFinding *finding
    = cw_bonds_new_finding (bonds, bridge->hinge != G_MAXUINT ? CW_FINDING_LAYER_OVER_SCORE : CW_FINDING_LAYER_OVER_CUT,
                            bridge->step,
                            bridge->row->known == CW_KNOWN_NOT_DECIDED ? CW_KNOWN_NOT_DECIDED : CW_KNOWN_EXACT);

  cw_panel_set_locate (set, bridge->layer, &own, NULL);
  name = cw_bonds_piece_name (bonds, own);
  cw_panel_set_tell (set, finding, bridge->layer);
  cw_panel_set_tell (set, finding, bridge->a);
  cw_panel_set_tell (set, finding, bridge->b);
  if (bridge->hinge != G_MAXUINT)
    {
      const CwHinge *hinge = cw_panel_set_get_hinge (set, bridge->hinge, &piece);
      const char *score = g_ptr_array_index (hinge->scores, 0);

      cw_finding_add_mark (finding, set->maps[piece].piece->id, score);
      cw_finding_set_at (finding, set->maps[piece].piece->id, ((double) hinge->p.x + hinge->q.x) / 2,
                         ((double) hinge->p.y + hinge->q.y) / 2);
      cw_finding_set_words (finding,
                            N_ ("“{0}” is glued across the fold line “{1}”, which has to move in “{2}”: it would hold "
                                "{3} and {4} together."),
                            N_ ("Keep the glue of “{0}” on one side of that fold line."), name, score,
                            cw_bonds_step_name (bonds, bridge->parting), name_a, name_b, NULL);
    }
  else
    {
      const CwPanel *panel = cw_panel_set_get_panel (set, bridge->b);

      cw_panel_set_locate (set, bridge->b, &piece, NULL);
      cw_finding_set_at (finding, set->maps[piece].piece->id, panel->inside.x, panel->inside.y);
      cw_finding_set_words (finding, N_ ("“{0}” is glued to both {1} and {2}, which have to part in “{3}”."),
                            N_ ("Keep the glue of “{0}” on one of them."), name, name_a, name_b,
                            cw_bonds_step_name (bonds, bridge->parting), NULL);
    }
  g_ptr_array_add (bonds->findings, finding);
}

/**
 * cw_bonds_tell_bridges:
 * @bonds: bonds, all made
 *
 * Adds layers glued over a score or a cut that has to move to their findings: one a layer, a fold line before a cut, in
 * the order of the bonds.
 */
void
cw_bonds_tell_bridges (CwBonds *bonds)
{
  g_autoptr (CwMotionWork) work = cw_motion_work_new (bonds->free);
  g_autoptr (CwPose) pose = cw_pose_new (bonds->free);
  g_autofree Bridge *best = g_new0 (Bridge, bonds->set->n_pieces + 1);

  for (guint i = 0; i < bonds->set->n_pieces; i++)
    best[i] = (Bridge){ .hinge = G_MAXUINT, .parting = G_MAXUINT };
  for (guint i = 0; i < bonds->rows->len; i++)
    for (guint k = 0; k < i; k++)
      {
        Bridge bridge;
        guint piece;

        if (!make_bridge (bonds, &g_array_index (bonds->rows, CwGlued, k), &g_array_index (bonds->rows, CwGlued, i),
                          &bridge))
          continue;
        cw_panel_set_locate (bonds->set, bridge.layer, &piece, NULL);
        if (best[piece].parting != G_MAXUINT && (best[piece].hinge != G_MAXUINT || bridge.hinge == G_MAXUINT))
          continue;
        bridge.parting = find_parting (bonds, work, pose, &bridge);
        if (bridge.parting != G_MAXUINT)
          best[piece] = bridge;
      }
  for (guint i = 0; i < bonds->set->n_pieces; i++)
    if (best[i].parting != G_MAXUINT)
      tell_bridge (bonds, &best[i]);
}
