/* test-four-bar.c: boxes and strips that stop, and the inequality told for it.
 *
 * Source of the numbers: for pages joined in the spine, A at p on one and B at q on the other, AB^2 = p^2 + q^2 -
 * 2pq cos(opening) (law of cosines, Euclid II.12-13); a strip of r and s between them lets A and B come no farther
 * apart than r + s and no nearer than |r - s| (triangle inequality, Euclid I.20).
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "card-fixture.h"

#include "check/cw-analysis.h"

/* Both stop angles are looked at to the share of the step that kernel.md promises for a dead point: 1e-4 of 180. */
#define DEAD_POINT_DEG 0.018

/* A box cut from the sheet over the spine at x = 100 mm: it hangs on a and b and folds in the ridge. */
static CwMotion *
box (double a, double ridge, double b)
{
  g_autofree char *text = g_strdup_printf (
    CARD_HEAD CARD_MM
    "'pieces': [ { 'id': 'base', 'outline': [['0','0'],['200','0'],['200','100'],['0','100']], 'hold': ['190','10'],"
    " 'marks': [ { 'id': 'spine', 'kind': 'score', 'fold': 'toward', 'line': [['100','0'],['100','30']] },"
    " { 'id': 'spine2', 'kind': 'score', 'fold': 'toward', 'line': [['100','70'],['100','100']] },"
    " { 'id': 's1', 'kind': 'cut', 'line': [['%g','30'],['%g','30']] },"
    " { 'id': 's2', 'kind': 'cut', 'line': [['%g','70'],['%g','70']] },"
    " { 'id': 'a', 'kind': 'score', 'fold': 'toward', 'line': [['%g','30'],['%g','70']] },"
    " { 'id': 'ridge', 'kind': 'score', 'fold': 'away', 'line': [['%g','30'],['%g','70']] },"
    " { 'id': 'b', 'kind': 'score', 'fold': 'toward', 'line': [['%g','30'],['%g','70']] } ],"
    " 'names': [ { 'name': 'top', 'at': ['%g','50'] }, { 'name': 'front', 'at': ['%g','50'] } ] } ],"
    "'steps': [ { 'id': 'close', 'do': 'fold', 'folds': [ { 'score': 'base/spine', 'to': 180 } ] },"
    " { 'id': 'open', 'do': 'fold', 'folds': [ { 'score': 'base/spine', 'to': 0 } ] } ] }",
    a, b, a, b, a, a, ridge, ridge, b, b, a + 5, b - 5);

  return card_motion (text);
}

/* Parallelogram fold, values from the law that C = A + B (values.md has the same table; computed from p + q e^iT):
 * p = 25.4 on the held page, q = 38.1. */
static void
test_parallelogram (void)
{
  static const struct
  {
    double opening, x, height;
  } table[] = { { 180, -12.7, 0 }, { 120, 6.35, 32.9955 }, { 90, 25.4, 38.1 }, { 60, 44.45, 32.9955 }, { 0, 63.5, 0 } };
  g_autoptr (CwMotion) motion = box (61.9, 87.3, 125.4);

  for (gsize i = 0; i < G_N_ELEMENTS (table); i++)
    {
      g_autoptr (CwPose) pose = card_pose (motion, "close", 1 - table[i].opening / 180);
      CwVec3 c = card_point (motion, pose, "base", 110 / 25.4, 50 / 25.4, 87.3 / 25.4, 50 / 25.4);

      g_assert_cmpfloat_with_epsilon (c.x * 25.4 - 100, table[i].x, 1e-4);
      g_assert_cmpfloat_with_epsilon (-c.z * 25.4, table[i].height, 1e-4);
      g_assert_cmpfloat_with_epsilon (c.y * 25.4, 50, 1e-4);
    }
  g_assert_cmpfloat_with_epsilon (card_state (motion, "close")->reached, 1, 1e-12);
  g_assert_true (card_state (motion, "close")->flat);
  g_assert_cmpuint (card_state (motion, "close")->n_loops, ==, 1);
  g_assert_cmpuint (card_state (motion, "close")->freedom, ==, 1);
  g_assert_cmpuint (card_state (motion, "open")->freedom, ==, 1);
  g_assert_cmpuint (cw_motion_get_findings (motion)->len, ==, 0);
}

/* p = 50, q = 40, r = 30, s = 60: closing stops where AB = s - r, at cos T = (2500 + 1600 - 900) / 4000 = 0.8, and it
 * would fold shut only if p + r = q + s. Moving the ridge by 10 makes it so. */
static void
test_box_with_the_ridge_misplaced (void)
{
  g_autoptr (CwMotion) motion = box (50, 80, 140);
  double stop = 180 - acos (0.8) * 180 / G_PI;
  g_autoptr (CwPose) end = card_pose (motion, "close", 1);
  const CwFinding *finding = card_finding (motion, CW_FINDING_CANNOT_MOVE);
  g_autofree char *text = NULL, *remedy = NULL;

  g_assert_cmpfloat_with_epsilon (end->angles_deg[card_hinge (motion, "base/spine")], stop, DEAD_POINT_DEG);
  g_assert_cmpfloat_with_epsilon (card_state (motion, "close")->reached, stop / 180, 1e-4);
  g_assert_nonnull (finding);
  g_assert_cmpstr (finding->step, ==, "close");
  g_assert_cmpfloat_with_epsilon (finding->amount, stop, DEAD_POINT_DEG);
  g_assert_cmpuint (finding->panels->len, ==, 4);
  text = cw_finding_dup_text (finding, FALSE);
  remedy = cw_finding_dup_remedy (finding, FALSE);
  g_test_message ("%s %s", text, remedy);
  g_assert_nonnull (strstr (text, "143.1 degrees"));
  g_assert_nonnull (strstr (text, "80 mm"));
  g_assert_nonnull (strstr (text, "100 mm"));
  g_assert_nonnull (strstr (text, "top (30 mm)"));
  g_assert_nonnull (strstr (text, "front (60 mm)"));
  g_assert_nonnull (strstr (remedy, "ridge by 10 mm"));
  /* Opening again starts where closing stopped, and gets home. */
  g_assert_cmpfloat_with_epsilon (card_state (motion, "open")->reached, 1, 1e-12);
}

/* A box over the spine with its folds at these places, mm, and in these directions: t, w (away) or n (not folded). */
static CwMotion *
box_scored (const char *ways, const double *x)
{
  g_autoptr (GString) text = g_string_new (
    CARD_HEAD CARD_MM
    "'pieces': [ { 'id': 'base', 'outline': [['0','0'],['200','0'],['200','100'],['0','100']], 'hold': ['190','10'],"
    " 'marks': [ { 'id': 'spine', 'kind': 'score', 'fold': 'toward', 'line': [['100','0'],['100','30']] },"
    " { 'id': 'spine2', 'kind': 'score', 'fold': 'toward', 'line': [['100','70'],['100','100']] }");
  guint n = (guint) strlen (ways);

  for (guint i = 0; i < n; i++)
    g_string_append_printf (text, ", { 'id': 'f%u', 'kind': 'score', 'fold': '%s', 'line': [['%g','30'],['%g','70']] }",
                            i,
                            ways[i] == 't'   ? "toward"
                            : ways[i] == 'w' ? "away"
                                             : "none",
                            x[i], x[i]);
  for (guint i = 0; i < 2; i++)
    g_string_append_printf (text, ", { 'id': 's%u', 'kind': 'cut', 'line': [['%g','%u'],['%g','%u']] }", i, x[0],
                            30 + 40 * i, x[n - 1], 30 + 40 * i);
  g_string_append (text, " ] } ], 'steps': [ { 'id': 'close', 'title': 'Shut the card', 'do': 'fold',"
                         " 'folds': [ { 'score': 'base/spine', 'to': 180 } ] } ] }");
  return card_motion (text->str);
}

/* A loop of n fold lines with parallel axes has n - 3 freedoms (plane linkage: 3 (n - 1) - 2 n, Gruebler's count, from
 * memory): five fold lines sway when the spine alone is driven. A loop of four whose ridge is not folded has three that
 * turn and so none; one whose ridge is scored toward would move only with it folded away. */
static void
test_loops_that_sway_or_stick (void)
{
  static const struct
  {
    const char *ways;
    double x[4];
    CwFindingCode code;
    const char *said, *remedy;
  } cases[] = {
    { "twwt", { 60, 75, 90, 130 }, CW_FINDING_SWAYS, "“Shut the card” the parts round spine can sway", "how far" },
    { "tnt", { 60, 90, 130 }, CW_FINDING_CANNOT_MOVE, "while the score f1 is not folded", "whether f1 folds" },
    { "ttt", { 60, 90, 130 }, CW_FINDING_CANNOT_MOVE, "only with some scores folded the other way", "from toward" },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (CwMotion) motion = box_scored (cases[i].ways, cases[i].x);
      const CwFinding *finding = card_finding (motion, cases[i].code);
      g_autofree char *text = NULL, *remedy = NULL;

      g_assert_nonnull (finding);
      g_assert_cmpuint (cw_motion_get_findings (motion)->len, ==, 1);
      text = cw_finding_dup_text (finding, FALSE);
      remedy = cw_finding_dup_remedy (finding, FALSE);
      g_assert_nonnull (strstr (text, cases[i].said));
      g_assert_nonnull (strstr (remedy, cases[i].remedy));
      g_assert_cmpuint (finding->panels->len, ==, strlen (cases[i].ways) + 1);
      if (cases[i].code == CW_FINDING_SWAYS)
        g_assert_cmpuint (card_state (motion, "close")->freedom, ==, 2);
      else
        g_assert_cmpfloat (card_state (motion, "close")->reached, <, 0.01);
    }
}

/* A strip stuck with a tab on each page in the closed card, A and B 40 mm from the spine, its two parts `part` mm. The
 * strip lies at (u, v) -> (x - u, 90 - v) of the right page with x = 150 + 2 part, its other tab folded back over it
 * meets the left page, which is there (x, y) -> (200 - x, y) of it: tab (u, v) lies at (70 - u, 90 - v) of the left
 * page, or `off` mm nearer to the spine. */
static CwMotion *
strip (double part, double off, const char *give)
{
  double ridge = 10 + part, end = 10 + 2 * part;
  g_autofree char *text = g_strdup_printf (
    CARD_HEAD
    "'measure': { 'unit': 'mm', 'give': '%s' },"
    "'pieces': [ { 'id': 'base', 'outline': [['0','0'],['200','0'],['200','100'],['0','100']], 'hold': ['190','10'],"
    " 'marks': [ { 'id': 'spine', 'kind': 'score', 'fold': 'toward', 'line': [['100','0'],['100','100']] } ] },"
    " { 'id': 'strip', 'outline': [['0','0'],['%g','0'],['%g','20'],['0','20']], 'hold': ['%g','10'], 'marks': ["
    " { 'id': 'a', 'kind': 'score', 'fold': 'toward', 'line': [['10','0'],['10','20']] },"
    " { 'id': 'c', 'kind': 'score', 'fold': 'toward', 'line': [['%g','0'],['%g','20']] },"
    " { 'id': 'b', 'kind': 'score', 'fold': 'toward', 'line': [['%g','0'],['%g','20']] } ] } ],"
    "'steps': [ { 'id': 'double', 'do': 'fold', 'folds': [ { 'score': 'strip/c', 'to': 180 } ] },"
    " { 'id': 'stick', 'do': 'stick', 'piece': 'strip', 'on': { 'piece': 'base', 'panel': ['190','10'], 'face': "
    "'front' },"
    " 'facing': 'back', 'at': ['%g','90'], 'turn': 180 },"
    " { 'id': 'close', 'do': 'fold', 'folds': [ { 'score': 'base/spine', 'to': 180 } ] },"
    " { 'id': 'open', 'do': 'fold', 'folds': [ { 'score': 'base/spine', 'to': 0 } ] },"
    " { 'id': 'shut', 'do': 'fold', 'folds': [ { 'score': 'base/spine', 'to': 180 } ] } ] }",
    give, end + 10, end + 10, end + 5, ridge, ridge, end, end, 150 + 2 * part);
  /* One end is glued where it is stuck, the other by closing the card. */
  CwFixed bonds[] = { { .step = 1, .b_in_a = { { { -1, 0, 0 }, { 0, -1, 0 }, { 0, 0, 1 } }, { 0, 0, 0 } } },
                      { .step = 2, .b_in_a = { { { -1, 0, 0 }, { 0, -1, 0 }, { 0, 0, 1 } }, { 0, 0, 0 } } } };
  g_autoptr (CwMotion) loose = card_motion (text);

  bonds[0].panel_a = card_panel (loose, "base", 190 / 25.4, 10 / 25.4);
  bonds[0].panel_b = card_panel (loose, "strip", (end + 5) / 25.4, 10 / 25.4);
  bonds[0].b_in_a.t = cw_vec3 ((150 + 2 * part) * CW_TICKS_PER_MM, 90 * CW_TICKS_PER_MM, 0);
  bonds[1].panel_a = card_panel (loose, "base", 10 / 25.4, 10 / 25.4);
  bonds[1].panel_b = card_panel (loose, "strip", 5 / 25.4, 10 / 25.4);
  bonds[1].b_in_a.t = cw_vec3 (70 * CW_TICKS_PER_MM, (90 + off) * CW_TICKS_PER_MM, 0);
  return card_motion_with (text, bonds, G_N_ELEMENTS (bonds));
}

/* Parts of 30 mm: the card opens until the strip is pulled straight, at cos T = (1600 + 1600 - 3600) / 3200, T
 * = 97.1808 degrees (values.md section 5.6 has the same number). */
static void
test_strip_too_short (void)
{
  g_autoptr (CwMotion) motion = strip (30, 0, "0");
  double stop = acos (-0.125) * 180 / G_PI;
  g_autoptr (CwPose) end = card_pose (motion, "open", 1);
  const CwFinding *finding = card_finding (motion, CW_FINDING_CANNOT_MOVE);
  g_autofree char *words = NULL;

  g_assert_cmpfloat_with_epsilon (stop, 97.1808, 1e-4);
  g_assert_true (card_state (motion, "close")->flat);
  g_assert_cmpfloat_with_epsilon (card_state (motion, "close")->residual, 0, 1e-6);
  g_assert_cmpuint (card_state (motion, "stick")->n_loops, ==, 0);
  g_assert_cmpuint (card_state (motion, "close")->n_loops, ==, 1);
  g_assert_cmpuint (card_state (motion, "close")->n_bodies, ==, 4);
  g_assert_cmpuint (card_state (motion, "close")->freedom, ==, 1);
  g_assert_cmpfloat_with_epsilon (180 - end->angles_deg[card_hinge (motion, "base/spine")], stop, DEAD_POINT_DEG);
  g_assert_cmpfloat_with_epsilon (card_state (motion, "open")->reached, stop / 180, 1e-4);
  g_assert_nonnull (finding);
  g_assert_cmpstr (finding->step, ==, "open");
  words = cw_finding_dup_text (finding, FALSE);
  g_test_message ("%s", words);
  g_assert_nonnull (strstr (words, "pulled tight"));
  g_assert_nonnull (strstr (words, "60 mm"));
  g_assert_nonnull (strstr (words, "80 mm"));
  /* Shut again from where it stopped. */
  g_assert_cmpfloat_with_epsilon (card_state (motion, "shut")->reached, 1, 1e-12);
  g_assert_true (card_state (motion, "shut")->flat);
}

/* Parts of 60 mm open all the way, the ridge then 44.7214 mm high: sqrt (60^2 - 40^2). */
static void
test_strip_long_enough (void)
{
  g_autoptr (CwMotion) motion = strip (60, 0, "0");
  g_autoptr (CwPose) open = card_pose (motion, "open", 1);
  CwVec3 ridge = card_point (motion, open, "strip", 100 / 25.4, 10 / 25.4, 70 / 25.4, 10 / 25.4);

  g_assert_cmpuint (cw_motion_get_findings (motion)->len, ==, 0);
  g_assert_cmpfloat_with_epsilon (card_state (motion, "open")->reached, 1, 1e-12);
  g_assert_cmpfloat_with_epsilon (ridge.x * 25.4, 100, 1e-4);
  g_assert_cmpfloat_with_epsilon (-ridge.z * 25.4, 44.7214, 1e-4);
  g_assert_false (card_state (motion, "open")->flat);
  g_assert_true (card_state (motion, "shut")->flat);
}

/* One tab stuck 1/64 inch off along the fold lines: these stay parallel, so nothing but the paper can take that up, and
 * it is the same 1/64 inch (127 ticks) at every angle. A stiff card cannot open; paper that gives 1/32 inch can. */
static void
test_tab_stuck_off (void)
{
  g_autoptr (CwMotion) gives = strip (60, 25.4 / 64, "1/32 in");
  g_autoptr (CwMotion) stiff = strip (60, 25.4 / 64, "0");
  const CwFinding *finding = card_finding (gives, CW_FINDING_NEEDS_GIVE);
  g_autofree char *words = NULL, *stop = NULL;

  g_assert_cmpfloat_with_epsilon (card_state (gives, "close")->residual, 127, 1e-3);
  g_assert_true (card_state (gives, "close")->flat);
  g_assert_cmpfloat_with_epsilon (card_state (gives, "open")->reached, 1, 1e-12);
  g_assert_cmpfloat_with_epsilon (card_state (gives, "open")->misfit_ticks, 127, 1);
  g_assert_cmpfloat_with_epsilon (card_state (gives, "shut")->reached, 1, 1e-12);
  g_assert_true (card_state (gives, "shut")->flat);
  g_assert_null (card_finding (gives, CW_FINDING_CANNOT_MOVE));
  g_assert_nonnull (finding);
  g_assert_cmpint (finding->severity, ==, CW_SEVERITY_NOTE);
  g_assert_cmpfloat_with_epsilon (finding->amount, 127, 1);
  words = cw_finding_dup_text (finding, FALSE);
  g_test_message ("%s", words);
  g_assert_nonnull (strstr (words, "give by 0.4 mm"));

  finding = card_finding (stiff, CW_FINDING_CANNOT_MOVE);
  g_assert_nonnull (finding);
  g_assert_cmpfloat (card_state (stiff, "open")->reached, <, 0.01);
  stop = cw_finding_dup_text (finding, FALSE);
  g_test_message ("%s", stop);
  g_assert_nonnull (strstr (stop, "miss one another by 0.4 mm"));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/fold/four-bar/parallelogram-keeps-its-table", test_parallelogram);
  g_test_add_func ("/fold/four-bar/misplaced-ridge-stops-closing", test_box_with_the_ridge_misplaced);
  g_test_add_func ("/fold/four-bar/short-strip-stops-opening", test_strip_too_short);
  g_test_add_func ("/fold/four-bar/long-strip-opens", test_strip_long_enough);
  g_test_add_func ("/fold/four-bar/tab-stuck-off-needs-give", test_tab_stuck_off);
  g_test_add_func ("/fold/four-bar/loops-that-sway-or-stick", test_loops_that_sway_or_stick);
  return g_test_run ();
}
