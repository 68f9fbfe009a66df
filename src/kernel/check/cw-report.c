/* cw-report.c: an analysis as JSON, for programs and checks outside this one.
 *
 * The tree is json-glib's, the text is cw-json.c's: the same analysis gives the same bytes. Numbers are rounded to
 * 1e-9, text is English whatever the locale. Space coordinates are inches in the held panel's own flat coordinates.
 * Keys whose content is not computed are left out.
 *
 * Over 500 lines because the whole shape of the report stands in one place.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "check/cw-report-private.h"

#include "design/cw-json.h"
#include "sight/cw-sight.h"
#include "units/cw-about.h"

static double
inches (double ticks)
{
  return cw_report_rounded (cw_ticks_to_inch (ticks));
}

static void
set_double (JsonObject *object, const char *key, double number)
{
  json_object_set_double_member (object, key, cw_report_rounded (number));
}

static JsonArray *
new_pair (double x, double y)
{
  JsonArray *pair = json_array_sized_new (2);

  json_array_add_double_element (pair, x);
  json_array_add_double_element (pair, y);
  return pair;
}

static JsonArray *
new_strings (const GPtrArray *strings)
{
  JsonArray *list = json_array_sized_new (strings->len);

  for (guint i = 0; i < strings->len; i++)
    json_array_add_string_element (list, g_ptr_array_index (strings, i));
  return list;
}

/* The rings of a polygon, flat if place is NULL, else in space. */
static JsonArray *
new_corners (const CwPolygon *outline, const CwRigid *place)
{
  JsonArray *rings = json_array_sized_new (outline->n_rings);

  for (guint i = 0; i < outline->n_rings; i++)
    {
      const CwRing *ring = &outline->rings[i];
      JsonArray *points = json_array_sized_new (ring->n_points);

      for (guint k = 0; k < ring->n_points; k++)
        {
          CwVec3 p = cw_vec3 (ring->points[k].x, ring->points[k].y, 0);
          JsonArray *point;

          if (place)
            p = cw_rigid_apply (place, p);
          point = new_pair (inches (p.x), inches (p.y));
          if (place)
            json_array_add_double_element (point, inches (p.z));
          json_array_add_array_element (points, point);
        }
      json_array_add_array_element (rings, points);
    }
  return rings;
}

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
      json_object_set_array_member (entry, "at_in", new_pair (inches (panel->inside.x), inches (panel->inside.y)));
      json_object_set_double_member (entry, "area_sq_in", cw_report_square_inches ((double) panel->area2 / 2));
      json_object_set_array_member (entry, "corners_in", new_corners (&panel->outline, NULL));
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
      json_object_set_array_member (entry, "scores", new_strings (hinge->scores));
      json_object_set_array_member (entry, "panels", sides);
      json_object_set_double_member (entry, "length_in", inches (hinge->length));
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
      json_array_add_double_element (row, inches (shift[i]));
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
      set_double (entry, "deg", hinge->fold == CW_FOLD_AWAY ? -pose->angles_deg[i] : pose->angles_deg[i]);
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
      json_object_set_array_member (entry, "corners_in", new_corners (&panel->outline, &pose->places[i]));
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
      JsonArray *box = new_pair (inches (left), inches (top));

      json_array_add_double_element (box, inches (right));
      json_array_add_double_element (box, inches (bottom));
      json_object_set_array_member (state, "size_in", new_pair (inches (right - left), inches (bottom - top)));
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
      json_object_set_array_member (entry, "at_in", new_pair (inches (cell->inside.x), inches (cell->inside.y)));
      json_object_set_array_member (entry, "corners_in", new_corners (&cell->outline, NULL));
      json_object_set_array_member (entry, "stack", stack);
      json_array_add_object_element (cells, entry);
    }
  json_object_set_array_member (state, "cells", cells);
  json_object_set_double_member (state, "thickness_in", inches (flat->thickness));
  json_object_set_array_member (state, "thickest_at_in",
                                new_pair (inches (flat->thickest.x), inches (flat->thickest.y)));
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
      set_double (state, "reached", end->reached);
      json_object_set_double_member (state, "residual_in", inches (end->residual));
      json_object_set_double_member (state, "misfit_in", inches (end->misfit_ticks));
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

/* A finding's measure: text as the maker reads it, the value in inches, degrees, square inches or as a count. */
static JsonObject *
new_amount (const CwFinding *finding, CwUnit unit)
{
  JsonObject *amount = json_object_new ();
  g_autofree char *text = NULL, *number = NULL;

  switch (finding->amount_unit)
    {
    case CW_AMOUNT_TICKS:
      text = cw_about_length (finding->amount, unit);
      json_object_set_string_member (amount, "text", text);
      json_object_set_double_member (amount, "value", inches (finding->amount));
      json_object_set_string_member (amount, "unit", "in");
      break;
    case CW_AMOUNT_SQ_TICKS:
      text = cw_about_area (finding->amount, unit);
      json_object_set_string_member (amount, "text", text);
      json_object_set_double_member (amount, "value", cw_report_square_inches (finding->amount));
      json_object_set_string_member (amount, "unit", "sq in");
      break;
    case CW_AMOUNT_DEGREES:
      number = cw_about_degrees (finding->amount);
      text = g_strdup_printf ("%s degrees", number);
      json_object_set_string_member (amount, "text", text);
      set_double (amount, "value", finding->amount);
      json_object_set_string_member (amount, "unit", "deg");
      break;
    case CW_AMOUNT_COUNT:
    case CW_AMOUNT_NONE:
    default:
      number = cw_about_degrees (finding->amount);
      json_object_set_string_member (amount, "text", number);
      set_double (amount, "value", finding->amount);
      json_object_set_string_member (amount, "unit", "count");
      break;
    }
  return amount;
}

static const char *
known_key (CwKnown known)
{
  switch (known)
    {
    case CW_KNOWN_BOUNDED:
      return "bounded";
    case CW_KNOWN_NUMERIC:
      return "numeric";
    case CW_KNOWN_NOT_DECIDED:
      return "not-decided";
    case CW_KNOWN_EXACT:
    default:
      return "exact";
    }
}

static JsonObject *
new_finding (const CwFinding *finding, CwUnit unit)
{
  JsonObject *entry = json_object_new ();
  JsonArray *panels = json_array_new ();
  g_autofree char *text = cw_finding_dup_text (finding, FALSE), *remedy = cw_finding_dup_remedy (finding, FALSE);

  json_object_set_string_member (entry, "code", cw_finding_code_get_key (finding->code));
  json_object_set_string_member (entry, "severity", cw_severity_get_key (finding->severity));
  if (finding->step)
    {
      json_object_set_string_member (entry, "step", finding->step);
      set_double (entry, "fraction", finding->fraction);
      if (finding->steps->len > 0)
        json_object_set_array_member (entry, "steps", new_strings (finding->steps));
    }
  json_object_set_array_member (entry, "pieces", new_strings (finding->pieces));
  for (guint i = 0; i < finding->panels->len; i++)
    {
      const CwPanelRef *ref = &g_array_index (finding->panels, CwPanelRef, i);
      JsonObject *panel = json_object_new ();

      json_object_set_string_member (panel, "piece", ref->piece);
      json_object_set_int_member (panel, "panel", ref->panel);
      json_array_add_object_element (panels, panel);
    }
  json_object_set_array_member (entry, "panels", panels);
  if (finding->marks->len > 0)
    json_object_set_array_member (entry, "marks", new_strings (finding->marks));
  if (finding->has_at)
    {
      JsonArray *at = new_pair (inches (finding->at.x), inches (finding->at.y));

      if (fpclassify (inches (finding->at.z)) != FP_ZERO)
        json_array_add_double_element (at, inches (finding->at.z));
      if (finding->at_piece)
        json_object_set_string_member (entry, "at_piece", finding->at_piece);
      json_object_set_array_member (entry, "at_in", at);
    }
  if (finding->amount_unit != CW_AMOUNT_NONE)
    json_object_set_object_member (entry, "amount", new_amount (finding, unit));
  if (finding->has_would_be)
    json_object_set_string_member (entry, "would_be", cw_finding_code_get_key (finding->would_be));
  json_object_set_string_member (entry, "known", known_key (finding->known));
  json_object_set_string_member (entry, "text", text);
  if (remedy)
    json_object_set_string_member (entry, "remedy", remedy);
  return entry;
}

static JsonArray *
new_findings (const CwAnalysis *analysis)
{
  JsonArray *findings = json_array_sized_new (analysis->findings->len);
  CwUnit unit = analysis->design->head ? analysis->design->head->unit : CW_UNIT_INCH;

  for (guint i = 0; i < analysis->findings->len; i++)
    json_array_add_object_element (findings, new_finding (g_ptr_array_index (analysis->findings, i), unit));
  return findings;
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
  json_object_set_array_member (report, "findings", new_findings (analysis));
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
  json_object_set_array_member (object, "findings", new_findings (analysis));
  return write_object (object);
}
