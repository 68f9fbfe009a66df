/* cw-flat-tuck.c: panels folded into a fold of the card that leave no room in it for the paper.
 *
 * A fold line shut on other paper goes round it, so what is folded in between its two panels must end short of it: by
 * the house value, or by the thickness that lies there if that is more. Asked of every fold line shut in a flat state:
 * which panels between its two sides reach towards it, and how near they come. Only what is folded in counts: it hangs
 * by another fold line, farther away, on one of the two panels and so is held between that line and this one. What is
 * glued to one of them goes along with it, what has its own fold in the fold lies snugly, and points that touch it
 * give way. Where what it hangs on has to be shorter itself, it has to be shorter by that much more: so the innermost
 * panel of a roll gets the sum over all folds round it.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "contact/cw-flat-private.h"
#include "contact/cw-panel-words.h"

#include "geometry/cw-house.h"
#include "geometry/cw-region.h"
#include "geometry/cw-sets.h"
#include "geometry/cw-tolerance.h"
#include "units/cw-about.h"

#include <glib/gi18n-lib.h>

/* One part of the card that lies flat in itself, held in one fold. */
typedef struct
{
  guint inner, carrier;     /* parts: what lies in the fold, what it hangs on */
  guint panel, left, right; /* members: its nearest panel, the two of the fold */
  double room, need;        /* ticks */
  double low, high;         /* along the fold line: where it lies near */
  CwPoint at;
} Tuck;

/* A fold line is looked at as far from it as a roll of so many more turns needs. */
#define TUCK_REACH 8

/* What is asked of one flat state. */
typedef struct
{
  const CwFlatStates *states;
  const CwCluster *cluster;
  const CwPile *pile;
  guint step;
  guint *part; /* of each member: the least member that lies flat in one with it */
  CwThick *thick;
  double reach; /* how far from a fold line is looked, ticks */
  GArray *tucks;
} Ask;

/* Panels that move as one, and those joined by fold lines that lie open. */
static guint *
find_parts (const CwFlatStates *states, const CwCluster *cluster, guint step)
{
  guint n = cluster->n_panels, n_bodies = 0;
  guint *part = cw_sets_new (n);
  g_autofree guint *first = NULL;

  for (guint i = 0; i < n; i++)
    n_bodies = MAX (n_bodies, cw_motion_get_body (states->motion, step, cluster->panels[i]) + 1);
  first = g_new (guint, n_bodies + 1);
  for (guint i = 0; i < n_bodies; i++)
    first[i] = G_MAXUINT;
  for (guint i = 0; i < n; i++)
    {
      guint body = cw_motion_get_body (states->motion, step, cluster->panels[i]);

      if (first[body] == G_MAXUINT)
        first[body] = i;
      else
        cw_sets_join (part, first[body], i);
    }
  for (guint i = 0; i < cluster->pile->n_seams; i++)
    if (!cluster->pile->seams[i].folded)
      cw_sets_join (part, cluster->pile->seams[i].a, cluster->pile->seams[i].b);
  for (guint i = 0; i < n; i++)
    part[i] = cw_sets_find (part, i);
  return part;
}

/* The fold line's own axes: `along` from p to q, `in` from it over its two panels. */
typedef struct
{
  CwPoint p;
  double length, along[2], in[2];
} Frame;

static gboolean
find_frame (const CwPile *pile, const CwSeam *seam, Frame *frame)
{
  const CwLaid *laid = &pile->members[seam->a];
  CwRigid back = cw_rigid_inverse (&laid->place);
  double dx = (double) seam->q.x - seam->p.x, dy = (double) seam->q.y - seam->p.y, off = 2 * CW_TOL_CELL_TICKS;
  CwVec3 beside;

  frame->p = seam->p;
  frame->length = hypot (dx, dy);
  if (frame->length <= off)
    return FALSE;
  frame->along[0] = dx / frame->length;
  frame->along[1] = dy / frame->length;
  frame->in[0] = -frame->along[1];
  frame->in[1] = frame->along[0];
  beside = cw_vec3 (seam->p.x + dx / 2 + off * frame->in[0], seam->p.y + dy / 2 + off * frame->in[1], 0);
  beside = cw_rigid_apply (&back, beside);
  if (!cw_polygon_contains (laid->outline, beside.x, beside.y))
    {
      frame->in[0] = -frame->in[0];
      frame->in[1] = -frame->in[1];
    }
  return TRUE;
}

static double
far_in (const Frame *frame, CwPoint at)
{
  return (at.x - frame->p.x) * frame->in[0] + (at.y - frame->p.y) * frame->in[1];
}

static double
far_along (const Frame *frame, CwPoint at)
{
  return (at.x - frame->p.x) * frame->along[0] + (at.y - frame->p.y) * frame->along[1];
}

/* The part of a cell that lies beside the fold line, no farther off than `reach`. */
static CwRegion
find_near (const Frame *frame, const CwPolygon *outline, double reach)
{
  CwPoint corners[4];
  CwRing ring = { 4, corners };
  CwPolygon strip = { 1, &ring };
  CwRegion beside, cell, near;

  for (guint i = 0; i < 4; i++)
    {
      double u = i == 1 || i == 2 ? frame->length : 0, v = i >= 2 ? reach : 0;

      corners[i] = cw_point ((gint32) lround (frame->p.x + u * frame->along[0] + v * frame->in[0]),
                             (gint32) lround (frame->p.y + u * frame->along[1] + v * frame->in[1]));
    }
  cw_polygon_arrange (&strip);
  beside = (CwRegion){ 1, &strip };
  cell = cw_region_from_polygon (outline);
  near = cw_region_overlay (&cell, &beside, CW_OVERLAY_INTERSECTION);
  cw_region_clear (&cell);
  return near;
}

/* The nearest fold line, ends of it, by which the part hangs on the one or the other of the two; FALSE: by none. */
static gboolean
find_carrier (const Ask *ask, const CwSeam *fold, const Frame *frame, guint inner, double room, guint *carrier)
{
  for (guint i = 0; i < ask->pile->n_seams; i++)
    {
      const CwSeam *seam = &ask->pile->seams[i];
      guint a = ask->part[seam->a], b = ask->part[seam->b], other;

      if (!seam->folded || seam->hinge == fold->hinge || (a != inner && b != inner))
        continue;
      other = a == inner ? b : a;
      if (other != ask->part[fold->a] && other != ask->part[fold->b])
        continue;
      if (MIN (far_in (frame, seam->p), far_in (frame, seam->q)) <= room + CW_HOUSE_TUCK)
        continue;
      *carrier = other;
      return TRUE;
    }
  return FALSE;
}

static Tuck *
get_tuck (const Ask *ask, guint inner, guint carrier, const CwSeam *fold)
{
  Tuck fresh = { .inner = inner, .carrier = carrier, .left = fold->a, .right = fold->b, .room = G_MAXDOUBLE };

  for (guint i = 0; i < ask->tucks->len; i++)
    {
      Tuck *tuck = &g_array_index (ask->tucks, Tuck, i);

      if (tuck->inner == inner && tuck->left == fold->a && tuck->right == fold->b)
        return tuck;
    }
  fresh.low = G_MAXDOUBLE;
  fresh.high = -G_MAXDOUBLE;
  g_array_append_val (ask->tucks, fresh);
  return &g_array_index (ask->tucks, Tuck, ask->tucks->len - 1);
}

/* Notes how near one panel that lies in the fold comes to it over one cell. */
static void
look_at (const Ask *ask, const CwSeam *fold, const Frame *frame, guint member, const CwPileCell *cell, double need)
{
  CwRegion near = find_near (frame, &cell->outline, ask->reach), rim;
  guint inner = ask->part[member], carrier;
  double room = G_MAXDOUBLE;
  CwPoint at = { 0, 0 };
  Tuck *tuck;

  for (guint i = 0; i < near.n_polygons; i++)
    for (guint k = 0; k < near.polygons[i].rings[0].n_points; k++)
      if (far_in (frame, near.polygons[i].rings[0].points[k]) < room)
        {
          at = near.polygons[i].rings[0].points[k];
          room = far_in (frame, at);
        }
  if (near.n_polygons > 0 && find_carrier (ask, fold, frame, inner, room, &carrier))
    {
      tuck = get_tuck (ask, inner, carrier, fold);
      tuck->need = MAX (tuck->need, need);
      if (room < tuck->room)
        {
          tuck->room = MAX (room, 0);
          tuck->panel = member;
          tuck->at = at;
        }
      rim = find_near (frame, &cell->outline, room + CW_HOUSE_TUCK);
      for (guint i = 0; i < rim.n_polygons; i++)
        for (guint k = 0; k < rim.polygons[i].rings[0].n_points; k++)
          {
            double u = far_along (frame, rim.polygons[i].rings[0].points[k]);

            tuck->low = MIN (tuck->low, u);
            tuck->high = MAX (tuck->high, u);
          }
      cw_region_clear (&rim);
    }
  cw_region_clear (&near);
}

static gboolean
is_beside (const Frame *frame, const CwPolygon *outline, double reach)
{
  CwPoint low, high;
  double box[4] = { frame->p.x, frame->p.y, frame->p.x, frame->p.y };

  cw_polygon_bounds (outline, &low, &high);
  for (guint i = 1; i < 4; i++)
    {
      double u = i == 1 || i == 2 ? frame->length : 0, v = i >= 2 ? reach : 0;
      double x = frame->p.x + u * frame->along[0] + v * frame->in[0];
      double y = frame->p.y + u * frame->along[1] + v * frame->in[1];

      box[0] = MIN (box[0], x);
      box[1] = MIN (box[1], y);
      box[2] = MAX (box[2], x);
      box[3] = MAX (box[3], y);
    }
  return low.x < box[2] && high.x > box[0] && low.y < box[3] && high.y > box[1];
}

/* All that lies in any fold over one cell. */
static void
look_over (const Ask *ask, const CwPileCell *cell, guint *seat, GArray *panels)
{
  for (guint i = 0; i < cell->n_members; i++)
    seat[cell->members[i]] = i + 1;
  for (guint i = 0; i < ask->pile->n_seams; i++)
    {
      const CwSeam *fold = &ask->pile->seams[i];
      guint low = MIN (seat[fold->a], seat[fold->b]), high = MAX (seat[fold->a], seat[fold->b]);
      double need;
      Frame frame;

      if (!fold->folded || low == 0 || high <= low + 1 || !find_frame (ask->pile, fold, &frame)
          || !is_beside (&frame, &cell->outline, ask->reach))
        continue;
      g_array_set_size (panels, 0);
      for (guint k = low; k < high - 1; k++)
        g_array_append_val (panels, ask->cluster->panels[cell->members[k]]);
      need = MAX (CW_HOUSE_TUCK, cw_thick_add (ask->thick, (const guint *) (const void *) panels->data, panels->len));
      for (guint k = low; k < high - 1; k++)
        {
          guint part = ask->part[cell->members[k]];

          if (part != ask->part[fold->a] && part != ask->part[fold->b])
            look_at (ask, fold, &frame, cell->members[k], cell, need);
        }
    }
  for (guint i = 0; i < cell->n_members; i++)
    seat[cell->members[i]] = 0;
}

static void
tell_tuck (CwFlatStates *states, const Ask *ask, const Tuck *tuck, double shorter)
{
  const CwPanelSet *set = cw_motion_get_set (states->motion);
  const CwHead *head = set->design->head;
  guint panel = ask->cluster->panels[tuck->panel];
  guint left = ask->cluster->panels[tuck->left], right = ask->cluster->panels[tuck->right];
  g_autofree char *name = cw_panel_words (set, panel), *one = cw_panel_words (set, left);
  g_autofree char *other = cw_panel_words (set, right), *room = cw_flat_length (states, tuck->room);
  g_autofree char *need = cw_flat_length (states, tuck->need);
  g_autofree char *by = cw_about_next_mark (shorter, head ? head->unit : CW_UNIT_INCH, head ? head->snap_ticks : 0);
  CwFinding *finding = cw_flat_new_finding (states, CW_FINDING_TUCK_TOO_WIDE, ask->step, CW_KNOWN_EXACT);

  cw_flat_add_panel (finding, states, panel);
  cw_flat_add_panel (finding, states, left);
  cw_flat_add_panel (finding, states, right);
  cw_finding_set_at (finding, NULL, tuck->at.x, tuck->at.y);
  cw_finding_set_amount (finding, CW_AMOUNT_TICKS, shorter);
  cw_finding_set_words (finding,
                        tuck->room <= CW_TOL_CELL_TICKS
                          ? N_ (
                            "After “{0}”, {1} reaches right into the fold between {2} and {3}, which goes round it: "
                            "the paper needs {5} of room there.")
                          : N_ ("After “{0}”, {1} ends {4} from the fold between {2} and {3}, which goes round it: the "
                                "paper needs {5} of room there."),
                        N_ ("Make {1} {6} shorter at that end."), cw_flat_step_name (states, ask->step), name, one,
                        other, room, need, by, NULL);
  g_ptr_array_add (states->findings, finding);
}

/* How much shorter every part has to be: what it lacks, and what it hangs on lacks. */
static void
tell_all (CwFlatStates *states, const Ask *ask)
{
  g_autofree double *shorter = g_new0 (double, ask->cluster->n_panels + 1);
  g_autofree guint *why = g_new0 (guint, ask->cluster->n_panels + 1);
  gboolean changed = TRUE;

  for (guint round = 0; changed && round <= ask->cluster->n_panels; round++)
    {
      changed = FALSE;
      for (guint i = 0; i < ask->tucks->len; i++)
        {
          const Tuck *tuck = &g_array_index (ask->tucks, Tuck, i);
          double lacks = tuck->need - tuck->room + shorter[tuck->carrier];

          if (tuck->high - tuck->low < CW_HOUSE_THIN_STRIP || lacks <= shorter[tuck->inner] + CW_TOL_CELL_TICKS)
            continue;
          shorter[tuck->inner] = lacks;
          why[tuck->inner] = i;
          changed = TRUE;
        }
    }
  for (guint i = 0; i < ask->cluster->n_panels; i++)
    if (shorter[i] > 0)
      tell_tuck (states, ask, &g_array_index (ask->tucks, Tuck, why[i]), shorter[i]);
}

/**
 * cw_flat_states_tell_tucks:
 * @states: states, all filled in
 *
 * Adds panels that fill the fold they lie in to their findings. States whose layers cannot lie so are left out: that is
 * told, and says more.
 */
void
cw_flat_states_tell_tucks (CwFlatStates *states)
{
  for (guint i = 0; i < states->n_steps; i++)
    {
      const CwFlatState *state = &states->states[i];
      const CwCluster *cluster = &states->clusters[i + 1]->clusters[0];
      g_autofree guint *part = NULL;
      g_autofree guint *seat = NULL;
      g_autoptr (GArray) tucks = g_array_new (FALSE, FALSE, sizeof (Tuck));
      g_autoptr (GArray) panels = g_array_new (FALSE, FALSE, sizeof (guint));
      Ask ask = { states, cluster, cluster->pile, i, NULL, NULL, 0, tucks };

      if (!state->flat || state->cells->len == 0 || cluster->verdict.fault != CW_STACK_RIGHT || cluster->gave_up)
        continue;
      ask.part = part = find_parts (states, cluster, i);
      ask.thick = cw_thick_new (states->motion, i);
      ask.reach = MAX (TUCK_REACH * CW_HOUSE_TUCK, state->thickness);
      seat = g_new0 (guint, cluster->n_panels + 1);
      for (guint k = 0; k < cluster->pile->cells->len; k++)
        look_over (&ask, &g_array_index (cluster->pile->cells, CwPileCell, k), seat, panels);
      tell_all (states, &ask);
      cw_thick_free (ask.thick);
    }
}
