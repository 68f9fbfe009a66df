/* cw-sight-want.c: what should be hidden and shows, what should show and is hidden, what is hidden too narrowly.
 *
 * A want is judged at the end of every step it names: by what is seen of its panels, of one face or of either, from its
 * side. Seams narrower than rounding or the state's misfit do not show. One want is one finding, with all its steps and
 * the worst of them in its words. The margin is that of cw-sight-cover.c, in flat states only.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "sight/cw-sight-private.h"

#include "geometry/cw-house.h"
#include "geometry/cw-tolerance.h"
#include "units/cw-about.h"

#include <glib/gi18n-lib.h>

/* One want in the kernel's numbers. */
typedef struct
{
  const CwSightWant *want;
  guint piece;
  gboolean *panels; /* n_panels */
  guint one;        /* the first panel of it */
  guint face;       /* G_MAXUINT: either */
  const char *name;
} Wanted;

static gboolean
find_wanted (const CwLook *look, const CwSightWant *want, Wanted *wanted)
{
  const CwPanelSet *set = look->set;
  guint first, end;

  wanted->want = want;
  wanted->piece = cw_design_find_piece (look->design, want->target.piece);
  if (wanted->piece == G_MAXUINT)
    return FALSE;
  first = set->first_panel[wanted->piece];
  end = set->first_panel[wanted->piece + 1];
  if (want->target.has_panel)
    {
      guint panel = cw_panel_map_find (&set->maps[wanted->piece], cw_place_get_point (&want->target.panel));

      if (panel == G_MAXUINT)
        return FALSE;
      first += panel;
      end = first + 1;
    }
  if (first >= end)
    return FALSE;
  wanted->panels = g_new0 (gboolean, look->n_panels + 1);
  for (guint i = first; i < end; i++)
    wanted->panels[i] = TRUE;
  wanted->one = first;
  wanted->face = want->has_face ? want->face : G_MAXUINT;
  wanted->name = want->target.has_panel ? cw_look_panel_name (look, first) : cw_look_piece_name (look, wanted->piece);
  return TRUE;
}

static gboolean
is_named (const CwLook *look, const CwSightWant *want, guint step)
{
  const CwStep *own = cw_look_get_step (look, step);

  return g_strcmp0 (own->id, want->state) == 0 || g_strcmp0 (own->rest, want->state) == 0;
}

static gboolean
is_there (CwLook *look, const Wanted *wanted, guint step)
{
  return cw_look_get_pose (look, step)->present[wanted->one];
}

/* What shows of it, without seams that rounding or give explain. */
static CwRegion
find_shown (CwLook *look, const Wanted *wanted, guint step, guint face)
{
  double misfit = cw_motion_get_state (look->motion, step)->misfit_ticks;
  gint32 seam = MAX (CW_TOL_SHOWS_TICKS, (gint32) ceil (misfit));
  CwRegion all = cw_view_find (cw_look_get_view (look, step, wanted->want->from), wanted->panels, face), shown;

  if (all.n_polygons == 0)
    return all;
  shown = cw_region_open (&all, (seam + 1) / 2);
  cw_region_clear (&all);
  return shown;
}

/* Takes away what is seen through flaps that are folded open. */
static void
drop_openings (CwLook *look, const Wanted *wanted, guint step, CwRegion *shown)
{
  CwRegion openings = cw_cover_find_openings (look, step, wanted->want->from, wanted->panels), rest;

  if (openings.n_polygons > 0)
    {
      rest = cw_region_overlay (shown, &openings, CW_OVERLAY_DIFFERENCE);
      cw_region_clear (shown);
      *shown = cw_region_open (&rest, CW_TOL_SHOWS_TICKS / 2);
      cw_region_clear (&rest);
    }
  cw_region_clear (&openings);
}

static void
region_bounds (const CwRegion *region, CwPoint *low, CwPoint *high)
{
  for (guint i = 0; i < region->n_polygons; i++)
    {
      CwPoint a, b;

      cw_polygon_bounds (&region->polygons[i], &a, &b);
      *low = i == 0 ? a : cw_point (MIN (low->x, a.x), MIN (low->y, a.y));
      *high = i == 0 ? b : cw_point (MAX (high->x, b.x), MAX (high->y, b.y));
    }
}

/* The middle of the largest part of a region. */
static CwPoint
largest_place (const CwRegion *region)
{
  guint best = 0;

  for (guint i = 1; i < region->n_polygons; i++)
    if (cw_polygon_area2 (&region->polygons[i]) > cw_polygon_area2 (&region->polygons[best]))
      best = i;
  return cw_polygon_inside_point (&region->polygons[best]);
}

static void
note_known (const CwLook *look, CwFinding *finding, guint step)
{
  const CwFlatState *state = cw_flat_states_get (look->states, step);

  finding->known = state->flat ? state->known : CW_KNOWN_NUMERIC;
  if (finding->known == CW_KNOWN_NOT_DECIDED)
    finding->severity = CW_SEVERITY_NOTE;
}

/* What is too large on one side; moves away from that side as the reader sees it (left, right, up, down); a gap in the
 * middle; nothing over it at all. */
static const char *const smaller
  = N_ ("Make {0} {3} smaller on the side that shows, or what lies over it {3} bigger there.");
static const char *const moves[4]
  = { N_ ("Move {0} {3} to the left, as seen there."), N_ ("Move {0} {3} to the right, as seen there."),
      N_ ("Move {0} {3} up, as seen there."), N_ ("Move {0} {3} down, as seen there.") };
static const char *const gap = N_ ("Make what lies over {0} reach {3} further there, or close the opening in it.");
static const char *const bare = N_ ("Lay something over {0}, or stick it where the card covers it.");

/* How to hide what shows in a flat state: the least move or trim on one side that does it. */
static const char *
find_remedy (CwLook *look, const Wanted *wanted, guint step, const CwRegion *shown, char **by)
{
  static const gint32 ways[4][2] = { { -1, 0 }, { 1, 0 }, { 0, -1 }, { 0, 1 } };
  const CwHead *head = look->design->head;
  double hand = head && head->has_hand ? head->hand.ticks : 0;
  CwPoint low = { 0 }, high = { 0 }, shown_low = { 0 }, shown_high = { 0 };
  gint32 sides[4], side = G_MAXINT32, width;
  const char *remedy = smaller;
  CwCover cover;

  *by = NULL;
  if (!cw_flat_states_get (look->states, step)->flat)
    return NULL;
  cover = cw_cover_find (look, step, wanted->want->from, wanted->piece, wanted->panels);
  region_bounds (&cover.lies, &low, &high);
  region_bounds (shown, &shown_low, &shown_high);
  /* The strip that shows, measured from each side; what sticks out to the right is moved to the left. */
  sides[0] = high.x - shown_low.x;
  sides[1] = shown_high.x - low.x;
  sides[2] = high.y - shown_low.y;
  sides[3] = shown_high.y - low.y;
  for (guint i = 0; i < 4; i++)
    side = MIN (side, sides[i]);
  width = MIN (shown_high.x - shown_low.x, shown_high.y - shown_low.y);
  if (cover.by == G_MAXUINT || side >= MAX (high.x - low.x, high.y - low.y) - CW_TOL_SHOWS_TICKS)
    remedy = bare;
  else if (cw_look_find_stick (look, wanted->piece, step) != G_MAXUINT)
    for (guint i = 0; i < 4 && remedy == smaller; i++)
      {
        g_autofree char *text = cw_look_dup_snapped (look, sides[i] + hand);
        CwLength length;

        if (sides[i] > side || !cw_length_parse (text, cw_look_unit (look), &length, NULL))
          continue;
        if (!cw_cover_hides (&cover, ways[i][0] * length.ticks, ways[i][1] * length.ticks))
          continue;
        /* One behind the card has left and right the other way. */
        remedy = moves[i < 2 && wanted->want->from == CW_FACE_BACK ? 1 - i : i];
      }
  if (remedy == smaller && side > width + CW_TOL_SHOWS_TICKS)
    {
      remedy = gap;
      side = width;
    }
  *by = cw_look_dup_snapped (look, side + hand);
  cw_cover_clear (&cover);
  return remedy;
}

static void
tell_margin (CwLook *look, const Wanted *wanted, guint step, CwFinding **worst)
{
  static const char *const words[2][2]
    = { { N_ ("After “{1}”, {0} is hidden from the front by only {2}; a hand may miss by {3}, and then it shows."),
          N_ ("After “{1}”, {0} is hidden from the back by only {2}; a hand may miss by {3}, and then it shows.") },
        { N_ ("After “{1}”, {0} ends just where what hides it from the front ends; a hand may miss by {3}, and then it "
              "shows."),
          N_ ("After “{1}”, {0} ends just where what hides it from the back ends; a hand may miss by {3}, and then it "
              "shows.") } };
  const CwHead *head = look->design->head;
  double hand = head && head->has_hand ? head->hand.ticks : 0, margin;
  g_autofree char *text = NULL, *may = NULL, *more = NULL;
  CwCover cover;
  CwPoint at = { 0 };
  gboolean first = *worst == NULL;
  CwFinding *finding;

  if (hand <= CW_TOL_EXACT_TICKS || !cw_flat_states_get (look->states, step)->flat
      || cw_look_find_stick (look, wanted->piece, step) == G_MAXUINT)
    return;
  cover = cw_cover_find (look, step, wanted->want->from, wanted->piece, wanted->panels);
  margin = cw_cover_margin (&cover, MAX (CW_HOUSE_MARGIN_MOST, hand), &at);
  cw_cover_clear (&cover);
  if (margin >= hand - CW_TOL_EXACT_TICKS)
    return;
  if (margin <= CW_TOL_EXACT_TICKS)
    margin = 0;
  if (first)
    {
      *worst = cw_finding_new (CW_FINDING_TIGHT_MARGIN);
      (*worst)->has_would_be = TRUE;
      (*worst)->would_be = CW_FINDING_LAYER_SHOWS;
    }
  finding = *worst;
  cw_look_add_state (look, finding, step);
  if (!first && margin >= finding->amount)
    return;
  text = cw_about_length (margin, cw_look_unit (look));
  may = cw_about_length (hand, cw_look_unit (look));
  more = cw_look_dup_snapped (look, hand - margin);
  cw_finding_add_piece (finding, look->set->maps[wanted->piece].piece->id);
  cw_look_place (look, finding, wanted->one, at.x, at.y);
  cw_finding_set_amount (finding, CW_AMOUNT_TICKS, margin);
  note_known (look, finding, step);
  cw_finding_set_words (finding, words[margin > 0 ? 0 : 1][wanted->want->from == CW_FACE_FRONT ? 0 : 1],
                        N_ ("Make {0} {4} smaller on that side, or what lies over it {4} bigger."), wanted->name,
                        cw_look_step_name (look, step), text, may, more, NULL);
}

static void
tell_shows (CwLook *look, const Wanted *wanted, guint step, const CwRegion *shown, CwFinding **worst)
{
  double area = (double) cw_region_area2 (shown) / 2;
  gboolean first = *worst == NULL;
  g_autofree char *text = NULL, *by = NULL;
  const char *remedy;
  CwFinding *finding;
  CwPoint at;

  if (first)
    *worst = cw_finding_new (CW_FINDING_LAYER_SHOWS);
  finding = *worst;
  cw_look_add_state (look, finding, step);
  if (!first && area <= finding->amount)
    return;
  text = cw_about_area (area, cw_look_unit (look));
  remedy = find_remedy (look, wanted, step, shown, &by);
  at = largest_place (shown);
  cw_look_place (look, finding, G_MAXUINT, at.x, at.y);
  for (guint i = 0; i < look->n_panels; i++)
    if (wanted->panels[i])
      {
        g_autofree gboolean *one = g_new0 (gboolean, look->n_panels + 1);
        CwRegion part;

        one[i] = TRUE;
        part = cw_view_find (cw_look_get_view (look, step, wanted->want->from), one, wanted->face);
        if (part.n_polygons > 0)
          cw_finding_add_panel (finding, look->set->maps[wanted->piece].piece->id,
                                i - look->set->first_panel[wanted->piece]);
        cw_region_clear (&part);
      }
  cw_finding_set_amount (finding, CW_AMOUNT_SQ_TICKS, area);
  note_known (look, finding, step);
  cw_finding_set_words (finding,
                        wanted->want->from == CW_FACE_FRONT
                          ? N_ ("After “{1}”, {0} should be hidden from the front, but {2} of it shows.")
                          : N_ ("After “{1}”, {0} should be hidden from the back, but {2} of it shows."),
                        remedy, wanted->name, cw_look_step_name (look, step), text, by ? by : "", NULL);
}

/* The window that would show all of it, in what covers it: width, height, and its corner from the left and the top of
 * the piece as drawn. FALSE when one window does not do, or none can be told. */
static gboolean
find_window (CwLook *look, const Wanted *wanted, guint step, const CwCover *cover, char *sizes[4])
{
  const CwView *view = cw_look_get_view (look, step, wanted->want->from);
  const CwPanel *panel = cw_panel_set_get_panel (look->set, cover->by);
  CwRigid back = cw_rigid_inverse (&view->places[cover->by]);
  CwPoint low = { G_MAXINT32, G_MAXINT32 }, high = { -G_MAXINT32, -G_MAXINT32 };
  guint piece;

  if (cover->n_by != 1 || cover->lies.n_polygons == 0)
    return FALSE;
  for (guint i = 0; i < cover->lies.n_polygons; i++)
    for (guint k = 0; k < cover->lies.polygons[i].rings[0].n_points; k++)
      {
        CwPoint p = cover->lies.polygons[i].rings[0].points[k];
        CwVec3 flat = cw_rigid_apply (&back, cw_vec3 (p.x, p.y, 0));

        low = cw_point (MIN (low.x, (gint32) lround (flat.x)), MIN (low.y, (gint32) lround (flat.y)));
        high = cw_point (MAX (high.x, (gint32) lround (flat.x)), MAX (high.y, (gint32) lround (flat.y)));
      }
  low = cw_point (MAX (low.x, panel->box_min.x), MAX (low.y, panel->box_min.y));
  high = cw_point (MIN (high.x, panel->box_max.x), MIN (high.y, panel->box_max.y));
  if (high.x - low.x < CW_TOL_SHOWS_TICKS || high.y - low.y < CW_TOL_SHOWS_TICKS)
    return FALSE;
  cw_panel_set_locate (look->set, cover->by, &piece, NULL);
  sizes[0] = cw_about_length (high.x - low.x, cw_look_unit (look));
  sizes[1] = cw_about_length (high.y - low.y, cw_look_unit (look));
  sizes[2] = cw_about_length (low.x - look->set->maps[piece].box_min.x, cw_look_unit (look));
  sizes[3] = cw_about_length (low.y - look->set->maps[piece].box_min.y, cw_look_unit (look));
  return TRUE;
}

static void
tell_hidden (CwLook *look, const Wanted *wanted, guint step, CwFinding **worst)
{
  gboolean front = wanted->want->from == CW_FACE_FRONT;
  const char *name = wanted->name, *state = cw_look_step_name (look, step), *by = NULL, *words, *remedy = NULL;
  const CwPanel *panel = cw_panel_set_get_panel (look->set, wanted->one);
  char *window[4] = { NULL, NULL, NULL, NULL };
  CwFinding *finding;
  CwRegion seen;

  if (*worst != NULL)
    {
      cw_look_add_state (look, *worst, step);
      return;
    }
  finding = *worst = cw_finding_new (CW_FINDING_LAYER_HIDDEN);
  cw_look_add_state (look, finding, step);
  cw_finding_add_panel (finding, look->set->maps[wanted->piece].piece->id,
                        wanted->one - look->set->first_panel[wanted->piece]);
  cw_finding_set_at (finding, look->set->maps[wanted->piece].piece->id, panel->inside.x, panel->inside.y);
  if (!is_there (look, wanted, step))
    {
      cw_finding_set_words (finding,
                            front ? N_ ("After “{1}”, {0} should show from the front, but it is not on the card then.")
                                  : N_ ("After “{1}”, {0} should show from the back, but it is not on the card then."),
                            N_ ("Stick {0} in an earlier step."), name, state, NULL);
      return;
    }
  note_known (look, finding, step);
  seen = wanted->face == G_MAXUINT ? (CwRegion){ 0 } : find_shown (look, wanted, step, G_MAXUINT);
  if (seen.n_polygons > 0)
    {
      words = front ? N_ ("After “{1}”, {0} shows only its other side from the front.")
                    : N_ ("After “{1}”, {0} shows only its other side from the back.");
      remedy
        = cw_look_find_stick (look, wanted->piece, step) != G_MAXUINT ? N_ ("Turn {0} over before sticking it.") : NULL;
    }
  else
    {
      if (cw_flat_states_get (look->states, step)->flat)
        {
          CwCover cover = cw_cover_find (look, step, wanted->want->from, wanted->piece, wanted->panels);

          if (cover.by != G_MAXUINT)
            {
              guint piece, own;

              by = cw_look_panel_name (look, cover.by);
              cw_panel_set_locate (look->set, cover.by, &piece, &own);
              cw_finding_add_panel (finding, look->set->maps[piece].piece->id, own);
              remedy
                = find_window (look, wanted, step, &cover, window)
                    ? N_ ("Cut a window of {3} x {4} in {2}, its corner {5} from the left and {6} from the top as it "
                          "is drawn, or stick {0} on the other side.")
                    : N_ ("Cut windows in what lies over {0}, or stick {0} on the other side.");
            }
          cw_cover_clear (&cover);
        }
      if (by != NULL)
        words = front ? N_ ("After “{1}”, {0} should show from the front, but {2} lies over it.")
                      : N_ ("After “{1}”, {0} should show from the back, but {2} lies over it.");
      else
        words = front ? N_ ("After “{1}”, {0} should show from the front, but nothing of it is seen.")
                      : N_ ("After “{1}”, {0} should show from the back, but nothing of it is seen.");
    }
  cw_region_clear (&seen);
  cw_finding_set_words (finding, words, remedy, name, state, by ? by : "", window[0] ? window[0] : "",
                        window[1] ? window[1] : "", window[2] ? window[2] : "", window[3] ? window[3] : "", NULL);
  for (guint i = 0; i < G_N_ELEMENTS (window); i++)
    g_free (window[i]);
}

static void
take (GPtrArray *findings, CwFinding *finding)
{
  if (finding != NULL)
    g_ptr_array_add (findings, finding);
}

static void
judge_hidden (CwLook *look, const Wanted *wanted, GPtrArray *findings)
{
  CwFinding *shows = NULL, *tight = NULL;

  for (guint i = 0; i < look->n_steps; i++)
    {
      CwRegion shown;

      if (!is_named (look, wanted->want, i) || !cw_look_is_reached (look, i) || !is_there (look, wanted, i))
        continue;
      shown = find_shown (look, wanted, i, wanted->face);
      if (shown.n_polygons > 0 && cw_flat_states_get (look->states, i)->flat)
        drop_openings (look, wanted, i, &shown);
      if (shown.n_polygons > 0)
        tell_shows (look, wanted, i, &shown, &shows);
      else if (wanted->face == G_MAXUINT)
        tell_margin (look, wanted, i, &tight);
      cw_region_clear (&shown);
    }
  take (findings, shows);
  take (findings, tight);
}

static void
judge_shown (CwLook *look, const Wanted *wanted, GPtrArray *findings)
{
  CwFinding *hidden = NULL;
  gboolean ever = FALSE;

  for (guint i = 0; i < look->n_steps; i++)
    ever |= is_named (look, wanted->want, i) && is_there (look, wanted, i);
  for (guint i = 0; i < look->n_steps; i++)
    {
      CwRegion shown = { 0 };

      /* A label may also stand at steps from before it is on the card. */
      if (!is_named (look, wanted->want, i) || !cw_look_is_reached (look, i) || (ever && !is_there (look, wanted, i)))
        continue;
      if (ever)
        shown = find_shown (look, wanted, i, wanted->face);
      if (shown.n_polygons == 0)
        tell_hidden (look, wanted, i, &hidden);
      cw_region_clear (&shown);
    }
  take (findings, hidden);
}

/**
 * cw_sight_tell_wants:
 * @look: looks
 * @findings: (inout): gets `layer-shows`, `layer-hidden` and `tight-margin`
 */
void
cw_sight_tell_wants (CwLook *look, GPtrArray *findings)
{
  const CwWants *wants;

  g_return_if_fail (look != NULL && findings != NULL);

  if (look->design->head == NULL)
    return;
  wants = &look->design->head->wants;
  for (guint k = 0; k < 2; k++)
    {
      const GPtrArray *list = k == 0 ? wants->hidden : wants->shown;

      for (guint i = 0; list != NULL && i < list->len; i++)
        {
          Wanted wanted = { 0 };

          if (!find_wanted (look, g_ptr_array_index (list, i), &wanted))
            continue;
          if (k == 0)
            judge_hidden (look, &wanted, findings);
          else
            judge_shown (look, &wanted, findings);
          g_free (wanted.panels);
        }
    }
}
