/* test-reverse-laws.c: what is folded and folded back has come home, and went through the same paper on both ways.
 *
 * test-reverse-laws CARD.creasecard...    After every fold step of every card a step is put in that turns the same
 * scores back to where they were. Kinematics knows no direction of time: every panel must pass through the same places
 * in the opposite order, and paper that goes through paper one way does so the other, at the mirrored fraction if it
 * does so once and not before if more often. What cannot even begin (it lies on the wrong side from the start, from
 * another order of steps) is no contact of the motion: taken back it just comes to rest there. Left out: steps that
 * stop on their way, those whose end sets glue, which holds on the way back, and those that have two ways to go.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "card-fixture.h"
#include "check/cw-analysis.h"
#include "contact/cw-collision.h"

/* Ticks: where loops are solved, and half a tick a place is rounded by. */
#define NEAR 1.0
#define LOOKS 8
/* Of the step: an edge of two hairs and a band is passed a little sooner one way than the other. */
#define SAME_MOMENT 0.02

static JsonObject *
read_card (const char *path)
{
  g_autoptr (JsonParser) parser = json_parser_new ();
  g_autoptr (GError) error = NULL;

  json_parser_load_from_file (parser, path, &error);
  g_assert_no_error (error);
  return json_object_ref (json_node_get_object (json_parser_get_root (parser)));
}

/* The angle a score stands at, in its own direction; FALSE where it makes no fold line or several at odds. */
static gboolean
angle_of (const CwMotion *motion, const CwPose *pose, const char *score, double *angle)
{
  const CwPanelSet *set = cw_motion_get_set (motion);
  gboolean any = FALSE;

  for (guint i = 0; i < cw_panel_set_n_hinges (set); i++)
    {
      guint piece;
      const CwHinge *hinge = cw_panel_set_get_hinge (set, i, &piece);
      double own = hinge->fold == CW_FOLD_AWAY ? -pose->angles_deg[i] : pose->angles_deg[i];

      for (guint k = 0; k < hinge->scores->len; k++)
        {
          g_autofree char *address
            = g_strdup_printf ("%s/%s", set->maps[piece].piece->id, (const char *) hinge->scores->pdata[k]);

          if (!g_str_equal (address, score))
            continue;
          if (any && fabs (own - *angle) > 1e-6)
            return FALSE;
          *angle = own;
          any = TRUE;
        }
    }
  return any;
}

/* The card's text with step `at` taken back right after it; NULL if there is nothing to take back. */
static char *
write_back (JsonObject *card, const CwMotion *motion, guint at)
{
  JsonArray *steps = json_object_get_array_member (card, "steps"), *all = json_array_new (), *folds = json_array_new ();
  JsonObject *step = json_array_get_object_element (steps, at), *back = json_object_new ();
  g_autoptr (CwMotionWork) work = cw_motion_work_new (motion);
  g_autoptr (CwPose) pose = cw_pose_new (motion);
  g_autoptr (JsonNode) root = json_node_new (JSON_NODE_OBJECT);
  gboolean any = FALSE, odd = FALSE;
  char *text = NULL;

  cw_motion_get_pose (motion, work, at, 0, pose);
  for (guint i = 0; i < json_array_get_length (json_object_get_array_member (step, "folds")); i++)
    {
      JsonObject *fold = json_array_get_object_element (json_object_get_array_member (step, "folds"), i);
      JsonObject *undo = json_object_new ();
      double angle = 0;

      odd = odd || !angle_of (motion, pose, json_object_get_string_member (fold, "score"), &angle);
      any = any || fabs (angle - json_object_get_double_member (fold, "to")) > 1e-6;
      json_object_set_string_member (undo, "score", json_object_get_string_member (fold, "score"));
      json_object_set_double_member (undo, "to", round (angle * 1e6) / 1e6);
      json_array_add_object_element (folds, undo);
    }
  json_object_set_string_member (back, "id", "taken-back");
  json_object_set_string_member (back, "do", "fold");
  json_object_set_array_member (back, "folds", folds);
  for (guint i = 0; i < json_array_get_length (steps); i++)
    {
      json_array_add_element (all, json_node_copy (json_array_get_element (steps, i)));
      if (i == at)
        json_array_add_object_element (all, back);
    }
  {
    g_autoptr (JsonNode) old = json_node_copy (json_object_get_member (card, "steps"));

    json_object_set_array_member (card, "steps", all);
    json_node_set_object (root, card);
    if (any && !odd)
      text = json_to_string (root, FALSE);
    json_object_set_member (card, "steps", g_steal_pointer (&old));
  }
  return text;
}

static gboolean
sets_glue (const CwAnalysis *analysis, guint step)
{
  const GArray *rows = cw_bonds_get_rows (analysis->bonds);

  for (guint i = 0; i < rows->len; i++)
    if (g_array_index (rows, CwGlued, i).step == step)
      return TRUE;
  return FALSE;
}

static gboolean
has_ways (const CwAnalysis *analysis, const char *step)
{
  for (guint i = 0; i < analysis->findings->len; i++)
    {
      const CwFinding *f = g_ptr_array_index (analysis->findings, i);

      if ((f->code == CW_FINDING_TWO_WAYS || f->code == CW_FINDING_SWAYS || f->code == CW_FINDING_NEEDS_GIVE)
          && (g_strcmp0 (f->step, step) == 0 || g_strcmp0 (f->step, "taken-back") == 0))
        return TRUE;
    }
  return FALSE;
}

/* Every panel passes through the same places. Returns the farthest any corner of a panel's box is off, ticks. */
static double
way_home (const CwAnalysis *analysis, guint at)
{
  CwMotion *motion = analysis->motion;
  g_autoptr (CwMotionWork) work = cw_motion_work_new (motion);
  g_autoptr (CwPose) there = cw_pose_new (motion), back = cw_pose_new (motion);
  double most = 0;

  for (guint i = 0; i <= LOOKS; i++)
    {
      cw_motion_get_pose (motion, work, at, i / (double) LOOKS, there);
      cw_motion_get_pose (motion, work, at + 1, 1 - i / (double) LOOKS, back);
      for (guint p = 0; p < there->n_panels; p++)
        {
          const CwPanel *panel = cw_panel_set_get_panel (analysis->panels, p);

          for (guint c = 0; c < 4 && there->present[p]; c++)
            {
              CwVec3 flat
                = cw_vec3 (c % 2 ? panel->box_max.x : panel->box_min.x, c / 2 ? panel->box_max.y : panel->box_min.y, 0);
              CwVec3 off
                = cw_vec3_sub (cw_rigid_apply (&there->places[p], flat), cw_rigid_apply (&back->places[p], flat));

              most = MAX (most, cw_vec3_length (off));
            }
        }
    }
  return most;
}

static const CwCollision *
find_pair (const GArray *found, guint step, const CwCollision *other)
{
  for (guint i = 0; i < found->len; i++)
    {
      const CwCollision *c = &g_array_index (found, CwCollision, i);

      if (c->step == step && c->panel_a == other->panel_a && c->panel_b == other->panel_b)
        return c;
    }
  return NULL;
}

/* Returns how many pairs go through one another. */
static guint
same_through (const CwAnalysis *analysis, guint at, const char *what)
{
  g_autoptr (GArray) found = cw_collisions_find (analysis->motion, analysis->flat_states, NULL);
  guint n = 0;

  for (guint i = 0; i < found->len; i++)
    {
      const CwCollision *c = &g_array_index (found, CwCollision, i), *other;

      if ((c->step != at && c->step != at + 1) || c->fraction <= 0)
        continue;
      other = find_pair (found, c->step == at ? at + 1 : at, c);
      if (other == NULL)
        g_error ("%s: panels %u and %u go through at %.6f of step %u, but not %s", what, c->panel_a, c->panel_b,
                 c->fraction, c->step, c->step == at ? "on the way back" : "on the way there");
      g_assert_cmpfloat (other->fraction, <=, 1 - c->fraction + SAME_MOMENT);
      n++;
    }
  return n;
}

static void
test_card (gconstpointer path)
{
  g_autoptr (JsonObject) card = read_card (path);
  g_autoptr (JsonNode) root = json_node_new (JSON_NODE_OBJECT);
  g_autofree char *text = NULL;
  g_autoptr (CwDesign) design = NULL;
  g_autoptr (CwAnalysis) plain = NULL;
  guint n = 0, n_through = 0;

  json_node_set_object (root, card);
  text = json_to_string (root, FALSE);
  design = cw_design_from_text (text, -1, path, NULL);
  g_assert_nonnull (design);
  plain = cw_analysis_new (design);
  for (guint at = 0; at < design->steps->len; at++)
    {
      const CwStep *step = g_ptr_array_index (design->steps, at);
      g_autofree char *there_and_back = NULL;
      g_autofree char *what = g_strdup_printf ("%s, %s", (const char *) path, step->id);
      g_autoptr (CwDesign) both = NULL;
      g_autoptr (CwAnalysis) analysis = NULL;

      if (step->what != CW_DO_FOLD || cw_motion_get_state (plain->motion, at)->reached < 1)
        continue;
      there_and_back = write_back (card, plain->motion, at);
      if (there_and_back == NULL)
        continue;
      both = cw_design_from_text (there_and_back, -1, "taken back", NULL);
      g_assert_nonnull (both);
      analysis = cw_analysis_new (both);
      if (sets_glue (analysis, at) || has_ways (analysis, step->id))
        continue;
      g_assert_cmpfloat (cw_motion_get_state (analysis->motion, at + 1)->reached, >=, 1);
      {
        double off = way_home (analysis, at);

        if (off > NEAR)
          g_error ("%s: a corner is %.1f ticks off on its way back", what, off);
      }
      n_through += same_through (analysis, at, what);
      n++;
    }
  g_test_message ("%u steps taken back, %u pairs through", n, n_through);
  if (n == 0)
    g_test_skip ("nothing to take back");
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (int i = 1; i < argc; i++)
    {
      g_autofree char *base = g_path_get_basename (argv[i]);
      g_autofree char *name = NULL;

      base[strlen (base) - strlen (".creasecard")] = '\0';
      name = g_strdup_printf ("/laws/taken-back/%s", base);
      g_test_add_data_func (name, argv[i], test_card);
    }
  return g_test_run ();
}
