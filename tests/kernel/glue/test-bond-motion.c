/* test-bond-motion.c: glue makes loops and bodies: pop-ups glued by closing the card, rings, pieces that change hosts.
 *
 * Closed forms: values of the V fold and the box strip from their own geometry (spherical law of cosines, Pythagoras);
 * the loose but rigid ring of three hinges is the textbook case of an infinitesimal freedom that is none.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "glue-fixture.h"

static void
assert_no_errors (const CwAnalysis *analysis)
{
  for (guint i = 0; i < analysis->findings->len; i++)
    {
      const CwFinding *finding = g_ptr_array_index (analysis->findings, i);
      g_autofree char *words = cw_finding_dup_text (finding, FALSE);

      g_test_message ("%s", words);
      g_assert_cmpint (finding->severity, !=, CW_SEVERITY_ERROR);
    }
}

/* --- V fold ------------------------------------------------------------------------------------------------------- */

#define V_REACH 60.0 /* mm, from the tip to the end of every crease */
#define V_TAB 15.0   /* degrees */

static void
add_point (GString *text, double degrees, double radius)
{
  g_string_append_printf (text, "['%.3f','%.3f']", radius * cos (degrees * G_PI / 180),
                          radius * sin (degrees * G_PI / 180));
}

static void
add_crease (GString *text, const char *id, double degrees)
{
  g_string_append_printf (text, "{ 'id': '%s', 'kind': 'score', 'fold': 'toward', 'line': [['0','0'],", id);
  add_point (text, degrees, V_REACH);
  g_string_append (text, "] }");
}

static void
add_zone (GString *text, const char *id, double from, double to, const char *leaf)
{
  g_string_append_printf (text, "{ 'id': '%s', 'piece': 'v', 'face': 'back', 'kind': 'strong', 'area': [", id);
  add_point (text, from, 10);
  g_string_append (text, ",");
  add_point (text, from, 50);
  g_string_append (text, ",");
  add_point (text, to, 50);
  g_string_append (text, ",");
  add_point (text, to, 10);
  g_string_append_printf (text, "], 'holds': { 'piece': 'base', 'panel': ['%s','10'] } }", leaf);
}

/* A V of panels of b degrees, its creases a degrees from the spine: one tab stuck, the other glued by closing. */
static CwAnalysis *
v_fold (double a, double b)
{
  g_autoptr (GString) text = g_string_new (
    CARD_HEAD "'measure': { 'unit': 'mm', 'give': '0.2', 'snap': 'off' }, 'pieces': [ { 'id': 'base', 'ground': true,"
              " 'outline': [['0','0'],['200','0'],['200','100'],['0','100']], 'hold': ['190','10'], 'marks': ["
              " { 'id': 'spine', 'kind': 'score', 'fold': 'toward', 'line': [['100','0'],['100','100']] } ] },"
              " { 'id': 'v', 'outline': [['0','0'],");
  const double corners[] = { -b - V_TAB, -b, 0, b, b + V_TAB };

  for (gsize i = 0; i < G_N_ELEMENTS (corners); i++)
    {
      g_string_append (text, i > 0 ? "," : "");
      add_point (text, corners[i], V_REACH);
    }
  g_string_append (text, "], 'hold': ");
  add_point (text, -b - V_TAB / 2, 30);
  g_string_append (text, ", 'marks': [");
  add_crease (text, "right", -b);
  g_string_append (text, ",");
  add_crease (text, "middle", 0);
  g_string_append (text, ",");
  add_crease (text, "left", b);
  g_string_append (text, "] } ], 'glue': [");
  add_zone (text, "first", -b - V_TAB + 2, -b - 2, "190");
  g_string_append (text, ",");
  add_zone (text, "second", b + 2, b + V_TAB - 2, "10");
  g_string_append_printf (
    text,
    "], 'steps': [ { 'id': 'double', 'do': 'fold', 'folds': [ { 'score': 'v/middle', 'to': 180 } ] },"
    " { 'id': 'stick', 'do': 'stick', 'piece': 'v', 'on': { 'piece': 'base', 'panel': ['190','10'], 'face': 'front' },"
    "   'facing': 'back', 'at': ['100','80'], 'turn': %g },"
    " { 'id': 'close', 'do': 'fold', 'rest': 'closed', 'folds': [ { 'score': 'base/spine', 'to': 180 } ] }",
    a + b - 90);
  for (int opening = 30; opening <= 180; opening += 30)
    g_string_append_printf (text,
                            ", { 'id': 'open%d', 'do': 'fold', 'phase': 'using', 'folds': [ { 'score': 'base/spine', "
                            "'to': %d } ] }",
                            opening, 180 - opening);
  g_string_append (text, " ] }");
  return glue_analysis (text->str);
}

/* From the spine to the middle crease f, at opening T: cos b = cos a cos f + sin a sin f cos (T / 2), the larger root
 * (spherical law of cosines). The numbers for 45 and 60 degrees to four places: 103.4371 98.5819 90 77.3335 61.3106 45.
 */
static void
test_v_fold (void)
{
  static const double cases[][2] = { { 45, 60 }, { 60, 75 }, { 30, 50 } };

  for (gsize c = 0; c < G_N_ELEMENTS (cases); c++)
    {
      double a = cases[c][0] * G_PI / 180, b = cases[c][1] * G_PI / 180;
      g_autoptr (CwAnalysis) analysis = v_fold (cases[c][0], cases[c][1]);
      double sine = sin ((V_TAB - 4) * G_PI / 180);

      assert_no_errors (analysis);
      g_assert_cmpuint (cw_bonds_get_rows (analysis->bonds)->len, ==, 2);
      /* A ring sector cut straight: (50^2 - 10^2) / 2 times the sine of its angle, in square inches. */
      g_assert_cmpfloat_with_epsilon (glue_row (analysis, "close", "second", "base", 10 / 25.4, 10 / 25.4),
                                      (2500 - 100) / 2 * sine / (25.4 * 25.4), 1e-4);
      g_assert_cmpfloat_with_epsilon (glue_row (analysis, "stick", "first", "base", 190 / 25.4, 10 / 25.4),
                                      (2500 - 100) / 2 * sine / (25.4 * 25.4), 1e-4);
      g_assert_cmpuint (card_state (analysis->motion, "stick")->n_loops, ==, 0);
      g_assert_cmpuint (card_state (analysis->motion, "close")->n_loops, ==, 1);
      for (int opening = 30; opening <= 180; opening += 30)
        {
          g_autofree char *step = g_strdup_printf ("open%d", opening);
          g_autoptr (CwPose) pose = card_pose (analysis->motion, step, 1);
          double half = cos (opening * G_PI / 360), x = cos (a), y = sin (a) * half;
          double f = atan2 (y, x) + acos (cos (b) / hypot (x, y));
          double at = cases[c][1] * 0.5; /* a panel beside the middle crease */
          CwVec3 tip = card_point (analysis->motion, pose, "v", 30 * cos (-at * G_PI / 180) / 25.4,
                                   30 * sin (-at * G_PI / 180) / 25.4, 0, 0);
          CwVec3 far_end = card_point (analysis->motion, pose, "v", 30 * cos (-at * G_PI / 180) / 25.4,
                                       30 * sin (-at * G_PI / 180) / 25.4, V_REACH / 25.4, 0);
          CwVec3 crease = cw_vec3_sub (far_end, tip);

          glue_assert_reached (card_state (analysis->motion, step)->reached, 1);
          g_assert_cmpfloat_with_epsilon (acos (-crease.y / cw_vec3_length (crease)) * 180 / G_PI, f * 180 / G_PI,
                                          0.05);
        }
    }
}

/* --- Box strip ---------------------------------------------------------------------------------------------------- */

/* A strip of two parts of `part` mm, glued 40 mm from the spine on both sides, the second time by closing the card. */
static CwAnalysis *
strip (double part, const char *give)
{
  double ridge = 10 + part, end = 10 + 2 * part;
  g_autofree char *text = g_strdup_printf (
    CARD_HEAD
    "'measure': { 'unit': 'mm', 'give': '%s' },"
    "'pieces': [ { 'id': 'base', 'outline': [['0','0'],['200','0'],['200','100'],['0','100']], 'hold': ['190','10'],"
    " 'marks': [ { 'id': 'spine', 'kind': 'score', 'fold': 'toward', 'line': [['100','0'],['100','100']] } ] },"
    " { 'id': 'strip', 'outline': [['0','0'],['%g','0'],['%g','20'],['0','20']], 'marks': ["
    " { 'id': 'a', 'kind': 'score', 'fold': 'toward', 'line': [['10','0'],['10','20']] },"
    " { 'id': 'c', 'kind': 'score', 'fold': 'toward', 'line': [['%g','0'],['%g','20']] },"
    " { 'id': 'b', 'kind': 'score', 'fold': 'toward', 'line': [['%g','0'],['%g','20']] } ] } ],"
    "'glue': [ { 'id': 'closing', 'piece': 'strip', 'face': 'back', 'kind': 'tape', 'apply': 'close',"
    "   'area': [['0','0'],['10','0'],['10','20'],['0','20']], 'holds': 'base' },"
    " { 'id': 'stuck', 'piece': 'strip', 'face': 'back', 'kind': 'tape',"
    "   'area': [['%g','0'],['%g','0'],['%g','20'],['%g','20']], 'holds': 'base' } ],"
    "'steps': [ { 'id': 'double', 'do': 'fold', 'folds': [ { 'score': 'strip/c', 'to': 180 } ] },"
    " { 'id': 'stick', 'do': 'stick', 'piece': 'strip', 'on': { 'piece': 'base', 'panel': ['190','10'],"
    "   'face': 'front' }, 'facing': 'back', 'at': ['%g','90'], 'turn': 180 },"
    " { 'id': 'close', 'do': 'fold', 'folds': [ { 'score': 'base/spine', 'to': 180 } ] },"
    " { 'id': 'open', 'do': 'fold', 'folds': [ { 'score': 'base/spine', 'to': 0 } ] },"
    " { 'id': 'shut', 'do': 'fold', 'folds': [ { 'score': 'base/spine', 'to': 180 } ] } ] }",
    give, end + 10, end + 10, ridge, ridge, end, end, end, end + 10, end + 10, end, 150 + 2 * part);

  return glue_analysis (text);
}

/* Parts of 60 mm stand sqrt (60^2 - 40^2) = 44.7214 mm high when the card lies open. */
static void
test_strip (void)
{
  g_autoptr (CwAnalysis) analysis = strip (60, "0");
  g_autoptr (CwPose) open = card_pose (analysis->motion, "open", 1);
  CwVec3 ridge = card_point (analysis->motion, open, "strip", 100 / 25.4, 10 / 25.4, 70 / 25.4, 10 / 25.4);

  assert_no_errors (analysis);
  glue_assert_area (glue_row (analysis, "stick", "stuck", "base", 7, 1), 200 / (25.4 * 25.4));
  glue_assert_area (glue_row (analysis, "close", "closing", "base", 1, 1), 200 / (25.4 * 25.4));
  glue_assert_reached (card_state (analysis->motion, "open")->reached, 1);
  g_assert_cmpfloat_with_epsilon (ridge.x * 25.4, 100, 1e-4);
  g_assert_cmpfloat_with_epsilon (-ridge.z * 25.4, 44.7214, 1e-4);
  g_assert_cmpuint (card_state (analysis->motion, "close")->freedom, ==, 1);
  g_assert_true (card_state (analysis->motion, "shut")->flat);
}

/* Parts of 30 mm are pulled straight at 97.1808 degrees (cos T = (1600 + 1600 - 3600) / 3200): too short, which is
 * another fault than glued shut. */
static void
test_short_strip (void)
{
  for (int i = 0; i < 2; i++)
    {
      g_autoptr (CwAnalysis) analysis = strip (30, i == 0 ? "0" : "0.8");

      g_assert_null (glue_finding (analysis, CW_FINDING_GLUED_SHUT));
      g_assert_nonnull (glue_finding (analysis, CW_FINDING_CANNOT_MOVE));
      g_assert_cmpstr (glue_finding (analysis, CW_FINDING_CANNOT_MOVE)->step, ==, "open");
      if (i == 0)
        g_assert_cmpfloat_with_epsilon (card_state (analysis->motion, "open")->reached * 180, 97.1808, 0.02);
    }
}

/* --- A ring of three hinges --------------------------------------------------------------------------------------- */

/* Parts of 2, 1 and 1 inch and a tab glued to the first: a triangle pressed flat. First order says it moves. */
static CwAnalysis *
ring (const char *give)
{
  g_autofree char *text = g_strdup_printf (
    CARD_HEAD
    "'measure': { 'unit': 'in', 'give': '%s' },"
    "'pieces': [ { 'id': 'strip', 'outline': [['0','0'],['4 1/2','0'],['4 1/2','1'],['0','1']], 'hold': ['1','1/2'],"
    " 'marks': [ { 'id': 'a', 'kind': 'score', 'fold': 'toward', 'line': [['2','0'],['2','1']] },"
    " { 'id': 'b', 'kind': 'score', 'fold': 'away', 'line': [['3','0'],['3','1']] },"
    " { 'id': 'c', 'kind': 'score', 'fold': 'toward', 'line': [['4','0'],['4','1']] } ] } ],"
    "'glue': [ { 'id': 'g', 'piece': 'strip', 'face': 'back', 'kind': 'wet', 'apply': 'ring',"
    "   'area': [['4 1/8','1/8'],['4 3/8','1/8'],['4 3/8','7/8'],['4 1/8','7/8']],"
    "   'holds': { 'piece': 'strip', 'panel': ['1','1/2'] } } ],"
    "'steps': [ { 'id': 'tab', 'do': 'fold', 'folds': [ { 'score': 'strip/c', 'to': 180 } ] },"
    " { 'id': 'ring', 'do': 'fold', 'folds': [ { 'score': 'strip/a', 'to': 180 } ] },"
    " { 'id': 'raise', 'do': 'fold', 'folds': [ { 'score': 'strip/b', 'to': 90 } ] } ] }",
    give);

  return glue_analysis (text);
}

static void
test_ring (void)
{
  g_autoptr (CwAnalysis) analysis = ring ("0");
  g_autoptr (CwAnalysis) gives = ring ("1/32 in");
  const CwFinding *shut = glue_finding (analysis, CW_FINDING_GLUED_SHUT);

  glue_assert_area (glue_row (analysis, "ring", "g", "strip", 1, 0.5), 0.25 * 0.75);
  g_assert_cmpuint (card_state (analysis->motion, "ring")->freedom_first_order, ==, 1);
  g_assert_cmpuint (card_state (analysis->motion, "ring")->freedom, ==, 0);
  /* Two ticks of rounding are allowed to a loop: a stop is exact to 1e-4. */
  g_assert_cmpfloat_with_epsilon (card_state (analysis->motion, "raise")->reached, 0, 1e-4);
  g_assert_nonnull (shut);
  g_assert_cmpstr (shut->step, ==, "raise");
  g_assert_null (glue_finding (analysis, CW_FINDING_CANNOT_MOVE));
  /* Paper that gives bends a little before it stops: glued shut all the same. */
  g_assert_cmpfloat (card_state (gives->motion, "raise")->reached, >, 0.01);
  g_assert_nonnull (glue_finding (gives, CW_FINDING_GLUED_SHUT));
  g_assert_null (glue_finding (gives, CW_FINDING_CANNOT_MOVE));
}

/* --- Who carries a piece ------------------------------------------------------------------------------------------ */

/* Two leaves, 4 by 4, and a tile 2 by 1 laid on the right one; `glue` zones of it or of the base. */
static CwAnalysis *
tile (const char *glue, const char *more, const char *stick)
{
  g_autofree char *text
    = g_strdup_printf (CARD_HEAD CARD_INCH
                       "'pieces': [ { 'id': 'base', 'ground': true, 'outline': [['0','0'],['8','0'],['8','4'],"
                       "['0','4']], 'hold': ['6','3 1/2'], 'marks': [ { 'id': 'spine', 'kind': 'score',"
                       " 'fold': 'toward', 'line': [['4','0'],['4','4']] } ] }, { 'id': 'tile', 'outline':"
                       " [['0','0'],['2','0'],['2','1'],['0','1']] } ], 'glue': [ %s ], 'steps': ["
                       " { 'id': 'stick', 'do': 'stick', 'piece': 'tile', 'on': { 'piece': 'base',"
                       " 'panel': ['6','3 1/2'], 'face': 'front' }, 'facing': 'back', 'at': ['5','1'] %s }, %s"
                       " { 'id': 'close', 'do': 'fold', 'folds': [ { 'score': 'base/spine', 'to': 180 } ] },"
                       " { 'id': 'open', 'do': 'fold', 'folds': [ { 'score': 'base/spine', 'to': 0 } ] } ] }",
                       glue, stick, more);

  return glue_analysis (text);
}

#define ALL "'area': [['0','0'],['2','0'],['2','1'],['0','1']]"

/* Laid with the glue up, a piece goes over to the leaf that closes on it: u inches from 5 on the right lie 8 - 5 - u on
 * the left. */
static void
test_goes_over (void)
{
  g_autoptr (CwAnalysis) analysis
    = tile ("{ 'id': 'g', 'piece': 'tile', 'face': 'front', 'kind': 'tape', " ALL ", 'holds': 'base' }", "", "");
  g_autoptr (CwPose) open = card_pose (analysis->motion, "open", 1);

  glue_assert_codes (analysis, "");
  glue_assert_area (glue_row (analysis, "close", "g", "base", 1, 1), 2);
  card_assert_point (card_point (analysis->motion, open, "tile", 1, 0.5, 0, 0), 3, 1, 0);
  card_assert_point (card_point (analysis->motion, open, "tile", 1, 0.5, 2, 0), 1, 1, 0);
  /* Its front lies on the leaf, so it shows its back. */
  g_assert_cmpfloat (open->places[card_panel (analysis->motion, "tile", 1, 0.5)].r[2][2], <, 0);
}

/* Without glue, and when tucked, a piece rides on its host; the zone of a tucked piece does not stick by itself, nor
 * one of its host that would hold it, and one that is put on later sticks only then. */
static void
test_rides (void)
{
#define TUCKED_ZONE "{ 'id': 'g', 'piece': 'tile', 'face': 'front', 'kind': 'tape', " ALL ", 'holds': 'base'"
  static const struct
  {
    const char *glue, *stick, *codes;
  } cases[] = {
    { "", "", "glue-missing" },
    { TUCKED_ZONE ", 'apply': 'open' }", ", 'tucked': true", "" },
    { TUCKED_ZONE " }", ", 'tucked': true", "" },
    { "{ 'id': 'g', 'piece': 'base', 'face': 'front', 'kind': 'tape', 'holds': 'tile',"
      " 'area': [['5','1'],['7','1'],['7','2'],['5','2']] }",
      ", 'tucked': true", "" },
  };

  for (gsize c = 0; c < G_N_ELEMENTS (cases); c++)
    {
      g_autoptr (CwAnalysis) analysis = tile (cases[c].glue, "", cases[c].stick);
      g_autoptr (CwPose) open = card_pose (analysis->motion, "open", 1);

      glue_assert_codes (analysis, cases[c].codes);
      g_assert_cmpuint (cw_bonds_get_rows (analysis->bonds)->len, ==, 0);
      card_assert_point (card_point (analysis->motion, open, "tile", 1, 0.5, 0, 0), 5, 1, 0);
    }
#undef TUCKED_ZONE
}

/* Adhesive on the base holds what is laid on it. */
static void
test_zone_on_base (void)
{
  g_autoptr (CwAnalysis) analysis
    = tile ("{ 'id': 'g', 'piece': 'base', 'face': 'front', 'kind': 'tape',"
            " 'area': [['5 1/2','1'],['6 1/2','1'],['6 1/2','2'],['5 1/2','2']], 'holds': 'tile' }",
            "", "");
  /* One that is larger than the tile sees the other leaf beside it when the card closes. */
  g_autoptr (CwAnalysis) large
    = tile ("{ 'id': 'g', 'piece': 'base', 'face': 'front', 'kind': 'tape',"
            " 'area': [['5 1/2','1'],['6 1/2','1'],['6 1/2','3'],['5 1/2','3']], 'holds': 'tile' }",
            "", "");

  glue_assert_codes (analysis, "");
  glue_assert_area (glue_row (analysis, "stick", "g", "tile", 1, 0.5), 1);
  glue_assert_codes (large, "glued-shut");
  glue_assert_area (glue_row (large, "stick", "g", "tile", 1, 0.5), 1);
  glue_assert_area (glue_row (large, "close", "g", "base", 1, 1), -1);
  g_assert_cmpstr (glue_finding (large, CW_FINDING_GLUED_SHUT)->step, ==, "open");
}

/* A guide may be taken away again unless glue holds it. */
static void
test_take_away (void)
{
  static const char away[] = "{ 'id': 'away', 'do': 'take-away', 'piece': 'tile' },";
  g_autoptr (CwAnalysis) guide = tile ("", away, "");
  g_autoptr (CwAnalysis) glued
    = tile ("{ 'id': 'g', 'piece': 'tile', 'face': 'back', 'kind': 'tape', " ALL ", 'holds': 'base' }", away, "");
  g_autoptr (CwPose) gone = card_pose (guide->motion, "away", 1), still = card_pose (glued->motion, "away", 1);

  glue_assert_codes (guide, "");
  g_assert_false (gone->present[card_panel (guide->motion, "tile", 1, 0.5)]);
  glue_assert_codes (glued, "glued-shut");
  g_assert_cmpstr (glue_finding (glued, CW_FINDING_GLUED_SHUT)->step, ==, "away");
  g_assert_true (still->present[card_panel (glued->motion, "tile", 1, 0.5)]);
}

/* A tile glued to a note that is then glued to the card: the note's own glue alone holds both. */
static void
test_sub_assembly (void)
{
  for (int missing = 0; missing < 2; missing++)
    {
      g_autofree char *text = g_strdup_printf (
        CARD_HEAD CARD_INCH
        "'pieces': [ { 'id': 'base', 'ground': true, 'outline': [['0','0'],['8','0'],['8','4'],['0','4']],"
        " 'hold': ['1','1'], 'marks': [ { 'id': 'spine', 'kind': 'score', 'fold': 'toward',"
        " 'line': [['4','0'],['4','4']] } ] },"
        " { 'id': 'note', 'outline': [['0','0'],['3','0'],['3','3'],['0','3']], 'marks': [ { 'id': 'f',"
        "   'kind': 'score', 'fold': 'toward', 'line': [['1','0'],['1','3']] } ], 'hold': ['2','2'] },"
        " { 'id': 'tile', 'outline': [['0','0'],['1','0'],['1','1'],['0','1']] } ],"
        "'glue': [ { 'id': 't', 'piece': 'tile', 'face': 'back', 'kind': 'tape',"
        "   'area': [['0','0'],['1','0'],['1','1'],['0','1']], 'holds': 'note' } %s ],"
        "'steps': [ { 'id': 'fold', 'do': 'fold', 'folds': [ { 'score': 'note/f', 'to': 180 } ] },"
        " { 'id': 'tile', 'do': 'stick', 'piece': 'tile', 'on': { 'piece': 'note', 'panel': ['2','2'],"
        "   'face': 'front' }, 'facing': 'back', 'at': ['2','1'] },"
        " { 'id': 'note', 'do': 'stick', 'piece': 'note', 'on': { 'piece': 'base', 'panel': ['6','2'],"
        "   'face': 'front' }, 'facing': 'back', 'at': ['4 1/2','1/2'] },"
        " { 'id': 'close', 'do': 'fold', 'folds': [ { 'score': 'base/spine', 'to': 180 } ] },"
        " { 'id': 'open', 'do': 'fold', 'folds': [ { 'score': 'base/spine', 'to': 0 } ] } ] }",
        missing ? ""
                : ", { 'id': 'n', 'piece': 'note', 'face': 'back', 'kind': 'tape',"
                  "   'area': [['1','0'],['3','0'],['3','3'],['1','3']], 'holds': 'base' }");
      g_autoptr (CwAnalysis) analysis = glue_analysis (text);
      g_autoptr (CwPose) open = card_pose (analysis->motion, "open", 1);

      glue_assert_codes (analysis, missing ? "glue-missing" : "");
      glue_assert_area (glue_row (analysis, "tile", "t", "note", 2, 2), 1);
      if (!missing)
        glue_assert_area (glue_row (analysis, "note", "n", "base", 6, 2), 6);
      else
        g_assert_cmpstr (glue_finding (analysis, CW_FINDING_GLUE_MISSING)->step, ==, "note");
      card_assert_point (card_point (analysis->motion, open, "tile", 0.5, 0.5, 0, 0), 6.5, 1.5, 0);
    }
}

/* A piece glued in one place that a later step wants in another. */
static void
test_two_places (void)
{
  g_autoptr (CwAnalysis) analysis
    = tile ("{ 'id': 'g', 'piece': 'tile', 'face': 'back', 'kind': 'tape', " ALL ", 'holds': 'base' }",
            "{ 'id': 'again', 'do': 'stick', 'piece': 'tile', 'on': { 'piece': 'base', 'panel': ['1','1'],"
            " 'face': 'front' }, 'facing': 'back', 'at': ['1','1'] },",
            "");

  glue_assert_codes (analysis, "cannot-move");
  g_assert_cmpstr (glue_finding (analysis, CW_FINDING_CANNOT_MOVE)->step, ==, "again");
  g_assert_cmpuint (glue_finding (analysis, CW_FINDING_CANNOT_MOVE)->panels->len, ==, 2);
}

/* --- A flap that glue holds down ---------------------------------------------------------------------------------- */

/* A flap of 3 in folds over; a strip lies beside its fold line, glued over `area`. Then a mat of 4 in is laid on the
 * back of the flap: it reaches an inch past the flap's edge, over the base if the flap lies folded. */
static CwAnalysis *
held_flap (const char *area)
{
  g_autofree char *text = g_strdup_printf (
    CARD_HEAD CARD_INCH
    "'pieces': [ { 'id': 'base', 'ground': true, 'outline': [['0','0'],['10','0'],['10','5'],['0','5']],"
    " 'hold': ['9','4'], 'marks': [ { 'id': 'fold', 'kind': 'score', 'fold': 'toward', 'line': [['3','0'],['3','5']] }"
    " ] }, { 'id': 'strip', 'outline': [['0','0'],['2','0'],['2','1'],['0','1']] },"
    " { 'id': 'mat', 'outline': [['0','0'],['4','0'],['4','3'],['0','3']] } ],"
    "'glue': [ { 'id': 's', 'piece': 'strip', 'face': 'back', 'kind': 'tape', 'area': %s,"
    "   'holds': { 'piece': 'base', 'panel': ['9','4'] } },"
    " { 'id': 'm', 'piece': 'mat', 'face': 'back', 'kind': 'tape', 'area': [['1/2','1/2'],['2 1/2','1/2'],"
    "   ['2 1/2','2 1/2'],['1/2','2 1/2']], 'holds': { 'piece': 'base', 'panel': ['1','1'] } } ],"
    "'steps': [ { 'id': 'lay', 'do': 'stick', 'piece': 'strip', 'on': { 'piece': 'base', 'panel': ['9','4'],"
    "   'face': 'front' }, 'facing': 'back', 'at': ['2','1/2'], 'overhang': 'meant' },"
    " { 'id': 'bend', 'do': 'fold', 'folds': [ { 'score': 'base/fold', 'to': 180 } ] },"
    " { 'id': 'cover', 'do': 'stick', 'piece': 'mat', 'on': { 'piece': 'base', 'panel': ['1','1'], 'face': 'back' },"
    "   'facing': 'back', 'at': ['3','1'] } ] }",
    area);

  return glue_analysis (text);
}

/* What is stuck on a flap that glue keeps from folding lies where it should not: that is no second fault. */
static void
test_held_flap (void)
{
  g_autoptr (CwAnalysis) right = held_flap ("[['1 1/4','1/4'],['1 3/4','1/4'],['1 3/4','3/4'],['1 1/4','3/4']]");
  g_autoptr (CwAnalysis) shut = held_flap ("[['1/4','1/4'],['1 3/4','1/4'],['1 3/4','3/4'],['1/4','3/4']]");

  g_assert_null (glue_finding (right, CW_FINDING_GLUED_SHUT));
  g_assert_null (glue_finding (right, CW_FINDING_LAYER_OVERHANGS));
  g_assert_nonnull (glue_finding (shut, CW_FINDING_GLUED_SHUT));
  g_assert_cmpstr (glue_finding (shut, CW_FINDING_GLUED_SHUT)->step, ==, "bend");
  g_assert_null (glue_finding (shut, CW_FINDING_LAYER_OVERHANGS));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/glue/bond-motion/v-fold", test_v_fold);
  g_test_add_func ("/glue/bond-motion/box-strip", test_strip);
  g_test_add_func ("/glue/bond-motion/short-strip", test_short_strip);
  g_test_add_func ("/glue/bond-motion/ring-of-three", test_ring);
  g_test_add_func ("/glue/bond-motion/goes-over", test_goes_over);
  g_test_add_func ("/glue/bond-motion/rides", test_rides);
  g_test_add_func ("/glue/bond-motion/zone-on-the-base", test_zone_on_base);
  g_test_add_func ("/glue/bond-motion/take-away", test_take_away);
  g_test_add_func ("/glue/bond-motion/sub-assembly", test_sub_assembly);
  g_test_add_func ("/glue/bond-motion/two-places", test_two_places);
  g_test_add_func ("/glue/bond-motion/held-flap", test_held_flap);
  return g_test_run ();
}
