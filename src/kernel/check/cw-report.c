/* cw-report.c: an analysis as JSON, for programs and checks outside this one.
 *
 * The tree is json-glib's, the text is cw-json.c's: the same analysis gives the same bytes. Numbers are rounded to
 * 1e-9, text is English whatever the locale. Space coordinates are inches in the held panel's own flat coordinates.
 * Keys whose content is not computed are left out.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "check/cw-report-private.h"

#include "check/cw-trial.h"
#include "design/cw-json.h"
#include "sight/cw-sight.h"
#include "units/cw-about.h"

static const char *
fold_key (CwFoldWay fold)
{
  switch (fold)
    {
    case CW_FOLD_AWAY:
      return "away";
    case CW_FOLD_NONE:
      return "none";
    case CW_FOLD_TOWARD:
    default:
      return "toward";
    }
}

static JsonObject *
new_piece (const CwPanelMap *map)
{
  JsonObject *piece = json_object_new ();
  JsonArray *panels = json_array_new (), *hinges = json_array_new ();

  for (guint i = 0; i < map->panels->len; i++)
    {
      const CwPanel *panel = &g_array_index (map->panels, CwPanel, i);
      JsonObject *entry = json_object_new ();

      json_object_set_int_member (entry, "panel", i);
      if (panel->name)
        json_object_set_string_member (entry, "name", panel->name);
      json_object_set_array_member (entry, "at_in",
                                    cw_report_pair (cw_report_inches (panel->inside.x),
                                                    cw_report_inches (panel->inside.y)));
      json_object_set_double_member (entry, "area_sq_in", cw_report_square_inches ((double) panel->area2 / 2));
      json_object_set_array_member (entry, "corners_in", cw_report_corners (&panel->outline, NULL));
      json_array_add_object_element (panels, entry);
    }
  for (guint i = 0; i < map->hinges->len; i++)
    {
      const CwHinge *hinge = &g_array_index (map->hinges, CwHinge, i);
      JsonObject *entry = json_object_new ();
      JsonArray *sides = json_array_new ();

      json_array_add_int_element (sides, hinge->left);
      json_array_add_int_element (sides, hinge->right);
      json_object_set_int_member (entry, "hinge", i);
      json_object_set_array_member (entry, "scores", cw_report_strings (hinge->scores));
      json_object_set_array_member (entry, "panels", sides);
      json_object_set_double_member (entry, "length_in", cw_report_inches (hinge->length));
      json_object_set_string_member (entry, "fold", fold_key (hinge->fold));
      json_array_add_object_element (hinges, entry);
    }
  json_object_set_string_member (piece, "id", map->piece->id);
  json_object_set_double_member (piece, "area_sq_in", cw_report_square_inches ((double) map->area2 / 2));
  json_object_set_array_member (piece, "panels", panels);
  json_object_set_array_member (piece, "hinges", hinges);
  return piece;
}

static JsonArray *
new_place (const CwRigid *place)
{
  JsonArray *rows = json_array_sized_new (3);
  const double shift[3] = { place->t.x, place->t.y, place->t.z };

  for (int i = 0; i < 3; i++)
    {
      JsonArray *row = json_array_sized_new (4);

      for (int k = 0; k < 3; k++)
        json_array_add_double_element (row, cw_report_rounded (place->r[i][k]));
      json_array_add_double_element (row, cw_report_inches (shift[i]));
      json_array_add_array_element (rows, row);
    }
  return rows;
}

/* Angles, places and, where flat, the box round everything, of what is on the card. */
static void
fill_pose (JsonObject *state, const CwPanelSet *set, const CwPose *pose, gboolean flat)
{
  JsonArray *angles = json_array_new (), *panels = json_array_new ();
  double left = INFINITY, top = INFINITY, right = -INFINITY, bottom = -INFINITY;

  for (guint i = 0; i < pose->n_hinges; i++)
    {
      guint piece;
      const CwHinge *hinge = cw_panel_set_get_hinge (set, i, &piece);
      JsonObject *entry;

      if (!pose->present[set->first_panel[piece] + hinge->left])
        continue;
      entry = json_object_new ();
      json_object_set_string_member (entry, "piece", set->maps[piece].piece->id);
      json_object_set_int_member (entry, "hinge", i - set->first_hinge[piece]);
      cw_report_set (entry, "deg", hinge->fold == CW_FOLD_AWAY ? -pose->angles_deg[i] : pose->angles_deg[i]);
      json_array_add_object_element (angles, entry);
    }
  for (guint i = 0; i < pose->n_panels; i++)
    {
      guint piece, index;
      const CwPanel *panel = cw_panel_set_get_panel (set, i);
      JsonObject *entry;

      if (!pose->present[i])
        continue;
      cw_panel_set_locate (set, i, &piece, &index);
      entry = json_object_new ();
      json_object_set_string_member (entry, "piece", set->maps[piece].piece->id);
      json_object_set_int_member (entry, "panel", index);
      json_object_set_array_member (entry, "place", new_place (&pose->places[i]));
      json_object_set_array_member (entry, "corners_in", cw_report_corners (&panel->outline, &pose->places[i]));
      json_array_add_object_element (panels, entry);
      for (guint k = 0; panel->outline.n_rings > 0 && k < panel->outline.rings[0].n_points; k++)
        {
          CwPoint flat_point = panel->outline.rings[0].points[k];
          CwVec3 p = cw_rigid_apply (&pose->places[i], cw_vec3 (flat_point.x, flat_point.y, 0));

          left = MIN (left, p.x);
          top = MIN (top, p.y);
          right = MAX (right, p.x);
          bottom = MAX (bottom, p.y);
        }
    }
  json_object_set_array_member (state, "angles", angles);
  json_object_set_array_member (state, "panels", panels);
  if (flat && left <= right)
    {
      JsonArray *box = cw_report_pair (cw_report_inches (left), cw_report_inches (top));

      json_array_add_double_element (box, cw_report_inches (right));
      json_array_add_double_element (box, cw_report_inches (bottom));
      json_object_set_array_member (state, "size_in",
                                    cw_report_pair (cw_report_inches (right - left), cw_report_inches (bottom - top)));
      json_object_set_array_member (state, "box_in", box);
    }
}

/* The layers of a flat state, and how thick they are. */
static void
fill_cells (JsonObject *state, const CwPanelSet *set, const CwFlatState *flat)
{
  JsonArray *cells = json_array_sized_new (flat->cells->len);

  for (guint i = 0; i < flat->cells->len; i++)
    {
      const CwCell *cell = &g_array_index (flat->cells, CwCell, i);
      JsonObject *entry = json_object_new ();
      JsonArray *stack = json_array_sized_new (cell->n_layers);

      for (guint k = 0; k < cell->n_layers; k++)
        {
          guint piece, index;
          JsonObject *layer = json_object_new ();

          cw_panel_set_locate (set, cell->layers[k].panel, &piece, &index);
          json_object_set_string_member (layer, "piece", set->maps[piece].piece->id);
          json_object_set_int_member (layer, "panel", index);
          json_object_set_string_member (layer, "face_up", cw_face_get_key (cell->layers[k].face_up));
          json_array_add_object_element (stack, layer);
        }
      json_object_set_double_member (entry, "area_sq_in", cw_report_square_inches ((double) cell->area2 / 2));
      json_object_set_array_member (entry, "at_in",
                                    cw_report_pair (cw_report_inches (cell->inside.x),
                                                    cw_report_inches (cell->inside.y)));
      json_object_set_array_member (entry, "corners_in", cw_report_corners (&cell->outline, NULL));
      json_object_set_array_member (entry, "stack", stack);
      json_array_add_object_element (cells, entry);
    }
  json_object_set_array_member (state, "cells", cells);
  json_object_set_double_member (state, "thickness_in", cw_report_inches (flat->thickness));
  json_object_set_array_member (state, "thickest_at_in",
                                cw_report_pair (cw_report_inches (flat->thickest.x),
                                                cw_report_inches (flat->thickest.y)));
}

/* What is seen of each face from one side of a flat state. */
static JsonArray *
new_sight (const CwPanelSet *set, const CwFlatState *state, CwFace from)
{
  g_autoptr (GArray) seen = cw_sight_flat (state, from);
  JsonArray *list = json_array_sized_new (seen->len);

  for (guint i = 0; i < seen->len; i++)
    {
      const CwSeen *face = &g_array_index (seen, CwSeen, i);
      JsonObject *entry = json_object_new ();
      guint piece, panel;

      cw_panel_set_locate (set, face->panel, &piece, &panel);
      json_object_set_string_member (entry, "piece", set->maps[piece].piece->id);
      json_object_set_int_member (entry, "panel", panel);
      json_object_set_string_member (entry, "face", cw_face_get_key (face->face));
      json_object_set_double_member (entry, "area_sq_in", cw_report_square_inches ((double) face->area2 / 2));
      json_array_add_object_element (list, entry);
    }
  return list;
}

static void
fill_sight (JsonObject *state, const CwPanelSet *set, const CwFlatState *flat)
{
  JsonObject *sight = json_object_new ();

  json_object_set_array_member (sight, "front", new_sight (set, flat, CW_FACE_FRONT));
  json_object_set_array_member (sight, "back", new_sight (set, flat, CW_FACE_BACK));
  json_object_set_object_member (state, "sight", sight);
}

static JsonArray *
new_states (const CwAnalysis *analysis)
{
  JsonArray *states = json_array_new ();
  g_autoptr (CwMotionWork) work = cw_motion_work_new (analysis->motion);
  g_autoptr (CwPose) pose = cw_pose_new (analysis->motion);

  for (guint i = 0; i < cw_motion_get_n_steps (analysis->motion); i++)
    {
      const CwStep *step = g_ptr_array_index (analysis->design->steps, i);
      const CwMotionState *end = cw_motion_get_state (analysis->motion, i);
      JsonObject *state = json_object_new ();

      json_object_set_string_member (state, "step", step->id);
      if (step->rest)
        json_object_set_string_member (state, "rest", step->rest);
      json_object_set_boolean_member (state, "flat", end->flat);
      cw_report_set (state, "reached", end->reached);
      json_object_set_double_member (state, "residual_in", cw_report_inches (end->residual));
      json_object_set_double_member (state, "misfit_in", cw_report_inches (end->misfit_ticks));
      json_object_set_int_member (state, "freedom", end->freedom);
      json_object_set_int_member (state, "freedom_first_order", end->freedom_first_order);
      cw_motion_get_pose (analysis->motion, work, i, 1, pose);
      fill_pose (state, analysis->panels, pose, end->flat);
      if (end->flat)
        fill_sight (state, analysis->panels, cw_flat_states_get (analysis->flat_states, i));
      if (end->flat)
        fill_cells (state, analysis->panels, cw_flat_states_get (analysis->flat_states, i));
      json_array_add_object_element (states, state);
    }
  return states;
}

/* The measures that show most when a hand misses; absent where misses were not tried. */
static JsonObject *
new_hand (const CwAnalysis *analysis)
{
  const CwHead *head = analysis->design->head;
  JsonObject *hand = json_object_new ();
  JsonArray *measures = json_array_new ();
  g_autofree char *miss = cw_length_format_ticks ((gint32) head->hand.ticks, head->unit);

  json_object_set_string_member (hand, "miss", miss);
  json_object_set_int_member (hand, "miss_ticks", head->hand.ticks);
  for (guint i = 0; i < analysis->levers->len; i++)
    {
      const CwLever *lever = analysis->levers->pdata[i];
      JsonObject *entry = json_object_new (), *panel = json_object_new ();
      g_autofree char *text = cw_lever_dup_text (lever, analysis, FALSE);
      guint piece, index;

      cw_panel_set_locate (analysis->panels, lever->panel, &piece, &index);
      json_object_set_string_member (panel, "piece", analysis->panels->maps[piece].piece->id);
      json_object_set_int_member (panel, "panel", index);
      json_object_set_string_member (entry, "what", cw_miss_kind_get_key (lever->miss->kind));
      json_object_set_string_member (entry, "piece", lever->miss->piece);
      if (lever->miss->kind == CW_MISS_LAYER)
        json_object_set_string_member (entry, "stick", lever->miss->item);
      else
        {
          JsonArray *marks = json_array_new ();

          for (guint k = 0; k < lever->miss->marks->len; k++)
            json_array_add_string_element (marks, cw_miss_get_mark (lever->miss, analysis->design, k)->id);
          json_object_set_array_member (entry, "marks", marks);
        }
      json_object_set_double_member (entry, "shows_in", cw_report_inches (lever->shows));
      json_object_set_string_member (entry, "step", ((const CwStep *) analysis->design->steps->pdata[lever->step])->id);
      json_object_set_object_member (entry, "shows_on", panel);
      json_object_set_array_member (entry, "at_in",
                                    cw_report_pair (cw_report_inches (lever->at.x), cw_report_inches (lever->at.y)));
      json_object_set_string_member (entry, "text", text);
      json_array_add_object_element (measures, entry);
    }
  json_object_set_int_member (hand, "tried", analysis->n_tried);
  json_object_set_int_member (hand, "of", analysis->n_ways);
  json_object_set_array_member (hand, "measures", measures);
  return hand;
}

static const char *
verdict_key (CwVerdict verdict)
{
  switch (verdict)
    {
    case CW_VERDICT_CLEAR:
      return "clear";
    case CW_VERDICT_NOTES:
      return "notes";
    case CW_VERDICT_WARNINGS:
      return "warnings";
    case CW_VERDICT_ERRORS:
    default:
      return "errors";
    }
}

/* The whole report is opened, entries fit one line where they can. */
static gboolean
is_open (const char *key, guint level)
{
  return level == 0;
}

static char *
write_object (JsonObject *object)
{
  g_autoptr (JsonNode) node = json_node_new (JSON_NODE_OBJECT);
  GString *text = g_string_new (NULL);

  json_node_take_object (node, object);
  cw_json_append (text, node, is_open);
  g_string_append_c (text, '\n');
  return g_string_free (text, FALSE);
}

static JsonObject *
new_head (const CwAnalysis *analysis, const char *format)
{
  JsonObject *head = json_object_new ();

  json_object_set_string_member (head, "format", format);
  json_object_set_int_member (head, "version", 1);
  json_object_set_string_member (head, "verdict", verdict_key (cw_analysis_get_verdict (analysis)));
  return head;
}

/**
 * cw_report_to_text:
 * @analysis: an analysis
 *
 * Returns: (transfer full): everything known, as JSON with a trailing newline; the same analysis gives the same bytes
 */
char *
cw_report_to_text (const CwAnalysis *analysis)
{
  return cw_report_to_text_with_remedies (analysis, 0);
}

/**
 * cw_report_to_text_with_remedies:
 * @analysis: an analysis
 * @most: how many remedies to try to find for a finding; 0: the key `remedies` is left out
 *
 * Returns: (transfer full): as cw_report_to_text(), and in every finding what clears it
 */
char *
cw_report_to_text_with_remedies (const CwAnalysis *analysis, guint most)
{
  JsonObject *report;
  JsonArray *pieces;
  const CwMotionState *last;
  guint n_steps;

  g_return_val_if_fail (analysis != NULL, NULL);

  report = new_head (analysis, "creasewright report");
  pieces = json_array_new ();
  for (guint i = 0; i < analysis->panels->n_pieces; i++)
    json_array_add_object_element (pieces, new_piece (&analysis->panels->maps[i]));
  json_object_set_array_member (report, "pieces", pieces);

  n_steps = cw_motion_get_n_steps (analysis->motion);
  last
    = n_steps > 0 ? cw_motion_get_state (analysis->motion, n_steps - 1) : cw_motion_get_start_state (analysis->motion);
  json_object_set_int_member (report, "bodies", last->n_bodies);
  json_object_set_int_member (report, "loops", last->n_loops);
  json_object_set_array_member (report, "bonds", cw_report_new_bonds (analysis));
  json_object_set_array_member (report, "states", new_states (analysis));
  json_object_set_array_member (report, "glue", cw_report_new_glue (analysis));
  if (analysis->levers != NULL)
    json_object_set_object_member (report, "hand", new_hand (analysis));
  json_object_set_array_member (report, "findings", cw_report_new_findings (analysis, most));
  return write_object (report);
}

/**
 * cw_findings_to_text:
 * @analysis: an analysis
 * @file: (nullable): the name of the file it was read from
 *
 * Returns: (transfer full): the verdict and the findings alone, as JSON with a trailing newline
 */
char *
cw_findings_to_text (const CwAnalysis *analysis, const char *file)
{
  JsonObject *object;

  g_return_val_if_fail (analysis != NULL, NULL);

  object = new_head (analysis, "creasewright findings");
  if (file)
    json_object_set_string_member (object, "file", file);
  json_object_set_array_member (object, "findings", cw_report_new_findings (analysis, 0));
  return write_object (object);
}
