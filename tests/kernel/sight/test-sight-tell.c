/* test-sight-tell.c: what is said about what shows: hidden and shown wants, margins, wrong faces, turned art.
 *
 * Every card is built so that one fault, or none, is there by construction; areas, margins and turns are worked by
 * hand. Laws (mirrored, drawn from the other side, reordered) need no expected value at all. No outside source.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "card-fixture.h"
#include "sight/cw-sight.h"

/* A half-fold card of 4 by 6 with a note of 2 by 3 inside, on the back leaf. Filled in: hand, width of the whole sheet
 * (the cover is the left 4 in at most), x of the spine, more marks, more of the note, where the note lies, more steps,
 * wants. */
#define CARD                                                                                                           \
  CARD_HEAD                                                                                                            \
  "'measure': { 'unit': 'in', 'snap': '1/16 in', 'hand': '%s' },"                                                      \
  "'papers': [ { 'id': 'plain' }, { 'id': 'dots', 'patterned': true } ],"                                              \
  "'pieces': [ { 'id': 'base', 'outline': [['0','0'],['%s','0'],['%s','6'],['0','6']], 'hold': ['5','5'],"             \
  " 'marks': [ { 'id': 'spine', 'kind': 'score', 'fold': 'toward', 'line': [['%s','0'],['%s','6']] } %s ] },"          \
  " { 'id': 'note', 'outline': [['0','0'],['2','0'],['2','3'],['0','3']], 'marks': [] %s } ],"                         \
  "'steps': [ { 'id': 'lay', 'do': 'stick', 'piece': 'note', 'on': { 'piece': 'base', %s },"                           \
  " { 'id': 'shut', 'do': 'fold', 'rest': 'closed', 'folds': [ { 'score': 'base/spine', 'to': 180 } %s ] },"           \
  " { 'id': 'open', 'do': 'fold', 'rest': 'open', 'folds': [ { 'score': 'base/spine', 'to': 0 } ] } ],"                \
  "'wants': { %s } }"

#define INSIDE(at) "'panel': ['7','5'], 'face': 'front' }, 'facing': 'back', 'at': [" at "]"
#define HIDDEN "'hidden': [ { 'piece': 'note', 'state': 'closed', 'from': 'front' } ]"
#define SHOWN "'shown': [ { 'piece': 'note', 'state': 'closed', 'from': 'front' } ]"

/* The sheet's width and the spine: a cover as wide as `spine`, a back of 4 in. */
static GPtrArray *
tell (const char *hand, const char *width, const char *spine, const char *marks, const char *note, const char *on,
      const char *folds, const char *wants)
{
  g_autofree char *text = g_strdup_printf (CARD, hand, width, width, spine, spine, marks, note, on, folds, wants);
  g_autoptr (CwMotion) motion = card_motion (text);
  g_autoptr (CwFlatStates) states = cw_flat_states_new (motion);

  return cw_sight_tell (motion, states);
}

static const CwFinding *
only (GPtrArray *findings, CwFindingCode code)
{
  const CwFinding *finding;

  g_assert_cmpuint (findings->len, ==, 1);
  finding = g_ptr_array_index (findings, 0);
  g_assert_cmpstr (cw_finding_code_get_key (finding->code), ==, cw_finding_code_get_key (code));
  return finding;
}

static const char *
arg (const CwFinding *finding, guint index)
{
  return g_ptr_array_index (finding->args, index);
}

static double
sq_in (const CwFinding *finding)
{
  g_assert_cmpint (finding->amount_unit, ==, CW_AMOUNT_SQ_TICKS);
  return finding->amount / CW_TICKS_PER_INCH / CW_TICKS_PER_INCH;
}

static void
test_hidden (void)
{
  /* An inch from every edge of a 4 by 6 leaf: nothing to say, whatever the hand. */
  g_autoptr (GPtrArray) good = tell ("1/4", "8", "4", "", "", INSIDE ("'5','1'"), "", HIDDEN);
  /* A cover of 2 1/2 in over a back of 4: it ends at x 5 of the sheet's 6.5, the note lies over 3.5 .. 5.5. */
  g_autoptr (GPtrArray) narrow = tell ("0", "6 1/2", "2 1/2", "", "", INSIDE ("'3 1/2','1'"), "", HIDDEN);
  const CwFinding *finding = only (narrow, CW_FINDING_LAYER_SHOWS);

  g_assert_cmpuint (good->len, ==, 0);
  g_assert_cmpfloat_with_epsilon (sq_in (finding), 0.5 * 3, 1e-6);
  g_assert_cmpstr (finding->step, ==, "shut");
  g_assert_cmpuint (finding->steps->len, ==, 1);
  g_assert_cmpint (finding->severity, ==, CW_SEVERITY_WARNING);
  /* In the strip, and half an inch to the left hides it. */
  g_assert_cmpfloat (finding->at.x / CW_TICKS_PER_INCH, >, 5);
  g_assert_cmpfloat (finding->at.x / CW_TICKS_PER_INCH, <, 5.5);
  g_assert_nonnull (strstr (finding->remedy, "to the left"));
  g_assert_cmpstr (arg (finding, 3), ==, "1/2 in");
}

/* Seen from behind nothing of the inside shows; open, all of it does; a face that lies down never shows. */
static void
test_sides (void)
{
  g_autoptr (GPtrArray) behind = tell ("0", "6 1/2", "2 1/2", "", "", INSIDE ("'3 1/2','1'"), "",
                                       "'hidden': [ { 'piece': 'note', 'state': 'closed', 'from': 'back' } ]");
  g_autoptr (GPtrArray) open = tell ("0", "8", "4", "", "", INSIDE ("'5','1'"), "",
                                     "'hidden': [ { 'piece': 'note', 'state': 'open', 'from': 'front' } ]");
  g_autoptr (GPtrArray) face
    = tell ("0", "8", "4", "", "", INSIDE ("'5','1'"), "",
            "'hidden': [ { 'piece': 'note', 'face': 'back', 'state': 'open', 'from': 'front' } ]");
  const CwFinding *finding = only (open, CW_FINDING_LAYER_SHOWS);

  g_assert_cmpuint (behind->len, ==, 0);
  g_assert_cmpuint (face->len, ==, 0);
  g_assert_cmpfloat_with_epsilon (sq_in (finding), 6, 1e-6);
  g_assert_cmpstr (finding->step, ==, "open");
}

/* A window over a hidden note shows it; a flap folded out on purpose to look at it does not count, nor for a margin. */
static void
test_openings (void)
{
  g_autoptr (GPtrArray) window
    = tell ("0", "8", "4", ", { 'id': 'hole', 'kind': 'window', 'rect': [['1 1/2','1 1/2'],['2 1/2','2 1/2']] }", "",
            INSIDE ("'5','1'"), "", HIDDEN);
  g_autoptr (GPtrArray) flap
    = tell ("1/32", "8", "4",
            ", { 'id': 'hinge', 'kind': 'score', 'fold': 'away', 'line': [['1 1/2','1 1/2'],['1 1/2','2 1/2']] },"
            "{ 'id': 'slit', 'kind': 'cut', 'line': [['1 1/2','1 1/2'],['2 1/2','1 1/2'],['2 1/2','2 1/2'],['1 1/2','2 "
            "1/2']] }",
            "", INSIDE ("'5','1'"), ", { 'score': 'base/hinge', 'to': 180 }", HIDDEN);

  /* Only its own opening is taken as meant: a strip of 1/2 by 3 in shows beside a cover that is too narrow. */
  g_autoptr (GPtrArray) both
    = tell ("0", "6 1/2", "2 1/2",
            ", { 'id': 'hinge', 'kind': 'score', 'fold': 'away', 'line': [['1 1/2','1 1/2'],['1 1/2','2 1/2']] },"
            "{ 'id': 'slit', 'kind': 'cut', 'line': [['1 1/2','1 1/2'],['1/2','1 1/2'],['1/2','2 1/2'],['1 1/2','2 "
            "1/2']] }",
            "", INSIDE ("'3 1/2','1'"), ", { 'score': 'base/hinge', 'to': 180 }", HIDDEN);

  g_assert_cmpfloat_with_epsilon (sq_in (only (both, CW_FINDING_LAYER_SHOWS)), 1.5, 1e-6);
  g_assert_cmpfloat_with_epsilon (sq_in (only (window, CW_FINDING_LAYER_SHOWS)), 1, 1e-6);
  g_assert_cmpuint (flap->len, ==, 0);
}

/* The note ends 1/64 in from the edge of the cover that hides it; a hand of 1/32 shows it, one of 1/64 or none does
 * not. */
static void
test_margin (void)
{
  static const struct
  {
    const char *hand, *at;
    double margin; /* inches; negative: nothing to say */
  } cases[] = { { "1/32", "'5 63/64','1'", 1.0 / 64 },
                { "1/64", "'5 63/64','1'", -1 },
                { "0", "'6','1'", -1 },
                { "1/32", "'6','1'", 0 },
                { "1/32", "'5','2 31/32'", -1 },
                { "1/32", "'5','3'", 0 },
                { "1/16", "'5','2 31/32'", 1.0 / 32 } };

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (GPtrArray) findings = tell (cases[i].hand, "8", "4", "", "",
                                             i == 0   ? INSIDE ("'5 63/64','1'")
                                             : i == 1 ? INSIDE ("'5 63/64','1'")
                                             : i < 4  ? INSIDE ("'6','1'")
                                             : i == 5 ? INSIDE ("'5','3'")
                                                      : INSIDE ("'5','2 31/32'"),
                                             "", HIDDEN);
      const CwFinding *finding;

      if (cases[i].margin < 0)
        {
          g_assert_cmpuint (findings->len, ==, 0);
          continue;
        }
      finding = only (findings, CW_FINDING_TIGHT_MARGIN);
      g_assert_true (finding->has_would_be);
      g_assert_cmpint (finding->would_be, ==, CW_FINDING_LAYER_SHOWS);
      g_assert_cmpint (finding->amount_unit, ==, CW_AMOUNT_TICKS);
      g_assert_cmpfloat_with_epsilon (finding->amount / CW_TICKS_PER_INCH, cases[i].margin, 1e-4);
    }
}

static void
test_shown (void)
{
  g_autoptr (GPtrArray) good
    = tell ("0", "8", "4", "", "", "'panel': ['1','5'], 'face': 'back' }, 'facing': 'back', 'at': ['3','1']", "",
            SHOWN);
  g_autoptr (GPtrArray) covered = tell ("0", "8", "4", "", "", INSIDE ("'5','1'"), "", SHOWN);
  g_autoptr (GPtrArray) face
    = tell ("0", "8", "4", "", "", "'panel': ['1','5'], 'face': 'back' }, 'facing': 'back', 'at': ['3','1']", "",
            "'shown': [ { 'piece': 'note', 'face': 'back', 'state': 'shut', 'from': 'front' } ]");
  const CwFinding *finding = only (covered, CW_FINDING_LAYER_HIDDEN);

  g_assert_cmpuint (good->len, ==, 0);
  g_assert_cmpstr (arg (finding, 2), ==, "base");
  g_assert_cmpuint (finding->pieces->len, ==, 2);
  /* The note lies at 5 .. 7 by 1 .. 4; the cover folded over it brings its 1 .. 3 there. */
  g_assert_cmpstr (arg (finding, 3), ==, "2 in");
  g_assert_cmpstr (arg (finding, 4), ==, "3 in");
  g_assert_cmpstr (arg (finding, 5), ==, "1 in");
  g_assert_cmpstr (arg (finding, 6), ==, "1 in");
  finding = only (face, CW_FINDING_LAYER_HIDDEN);
  g_assert_nonnull (strstr (finding->words, "other side"));
}

#define OUTSIDE(facing, at) "'panel': ['1','5'], 'face': 'back' }, 'facing': '" facing "', 'at': [" at "]"

static void
test_wrong_face (void)
{
  static const struct
  {
    const char *note, *on;
    gboolean wrong;
  } cases[] = {
    { ", 'paper': 'dots'", OUTSIDE ("back", "'3','1'"), FALSE },
    { ", 'paper': 'dots'", OUTSIDE ("front", "'1','1'"), TRUE },
    { ", 'paper': 'plain'", OUTSIDE ("front", "'1','1'"), FALSE },
    { ", 'paper': 'plain', 'shows': 'front'", OUTSIDE ("front", "'1','1'"), TRUE },
    { ", 'paper': 'plain', 'shows': 'back'", OUTSIDE ("front", "'1','1'"), FALSE },
    { ", 'paper': 'dots', 'shows': 'back'", OUTSIDE ("front", "'1','1'"), FALSE },
    { ", 'paper': 'plain', 'shows': 'both'", OUTSIDE ("front", "'1','1'"), FALSE },
    /* Over the fore edge: its other side is seen from inside, which is how such a seal is. */
    { ", 'paper': 'dots'", OUTSIDE ("back", "'1','1'"), FALSE },
    /* The same face down: the printed half inch inside does not excuse the outside. */
    { ", 'paper': 'dots'", OUTSIDE ("front", "'-1/2','1'"), TRUE },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (GPtrArray) findings = tell ("0", "8", "4", "", cases[i].note, cases[i].on, "", "'flat': []");

      if (cases[i].wrong)
        g_assert_cmpfloat_with_epsilon (sq_in (only (findings, CW_FINDING_WRONG_FACE)), 6, 1e-6);
      else
        g_assert_cmpuint (findings->len, ==, 0);
    }
}

/* A picture seen through a window from outside shows its plain side inside: as meant. */
static void
test_window_picture (void)
{
  g_autoptr (GPtrArray) findings
    = tell ("0", "8", "4", ", { 'id': 'hole', 'kind': 'window', 'rect': [['1 1/2','1 1/2'],['2 1/2','2 1/2']] }",
            ", 'paper': 'dots'", "'panel': ['1','5'], 'face': 'front' }, 'facing': 'front', 'at': ['3','1']", "",
            "'flat': []");

  g_assert_cmpuint (findings->len, ==, 0);
}

#define ART(up)                                                                                                        \
  ", 'art': [ { 'id': 'wish', 'face': 'front', 'label': 'Fair winds', 'box': [['1/2','1/2'],['1 1/2','2']], 'up': " up \
  " } ]"

/* Inside, seen open from the front: the turn is that of sticking and of drawing together, clockwise. */
static void
test_art (void)
{
  static const struct
  {
    const char *note, *turn;
    double off; /* degrees; 0: nothing to say */
    gboolean clockwise;
  } cases[] = { { ART ("0"), "0", 0, FALSE },     { ART ("0"), "180", 180, FALSE }, { ART ("180"), "180", 0, FALSE },
                { ART ("90"), "0", 90, FALSE },   { ART ("270"), "0", 90, TRUE },   { ART ("90"), "270", 0, FALSE },
                { ART ("90"), "90", 180, FALSE }, { ART ("0"), "15", 0, FALSE },    { ART ("0"), "345", 0, FALSE } };

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autofree char *on = g_strdup_printf (INSIDE ("'6','3'") ", 'turn': %s", cases[i].turn);
      g_autoptr (GPtrArray) findings = tell ("0", "8", "4", "", cases[i].note, on, "", "'flat': []");
      const CwFinding *finding;

      if (cases[i].off <= 0)
        {
          g_assert_cmpuint (findings->len, ==, 0);
          continue;
        }
      finding = only (findings, CW_FINDING_ART_TURNED);
      g_assert_cmpstr (finding->step, ==, "open");
      g_assert_cmpfloat_with_epsilon (finding->amount, cases[i].off, 1e-6);
      g_assert_cmpstr (arg (finding, 0), ==, "Fair winds");
      if (cases[i].off < 180)
        g_assert_true ((strstr (finding->remedy, "anticlockwise") == NULL) == cases[i].clockwise);
    }
}

#define TENT                                                                                                           \
  CARD_HEAD CARD_INCH                                                                                                  \
    "'pieces': [ { 'id': 'base', 'outline': [['0','0'],['6','0'],['6','8'],['0','8']], 'hold': ['5','7'], 'marks': ["  \
    " { 'id': 'spine', 'kind': 'score', 'fold': 'toward', 'line': [['0','4'],['6','4']] } ],"                          \
    " 'art': [ { 'id': 'wish', 'face': 'back', 'box': [['1','1'],['3','3']], 'up': %s },"                              \
    "          { 'id': 'leaf', 'face': 'back', 'box': [['1','5'],['3','7']], 'up': 0 } ] } ],"                         \
    "'steps': [ { 'id': 'shut', 'do': 'fold', 'rest': 'closed', 'folds': [ { 'score': 'base/spine', 'to': 180 } ] } "  \
    "] "                                                                                                               \
    "}"

/* Outside, on the back of the cover: upright as drawn. A card that opens upwards shows what is upright inside upside
 * down outside. */
static void
test_art_outside (void)
{
  for (int i = 0; i < 2; i++)
    {
      g_autofree char *text = g_strdup_printf (TENT, i == 0 ? "0" : "180");
      g_autoptr (CwMotion) motion = card_motion (text);
      g_autoptr (CwFlatStates) states = cw_flat_states_new (motion);
      g_autoptr (GPtrArray) findings = cw_sight_tell (motion, states);

      if (i == 0)
        g_assert_cmpfloat_with_epsilon (only (findings, CW_FINDING_ART_TURNED)->amount, 180, 1e-6);
      else
        g_assert_cmpuint (findings->len, ==, 0);
    }
}

/* One sheet in the maker's words, mirrored or drawn from its other side. */
static char *
law_card (gboolean mirrored, gboolean other_side, gboolean reordered)
{
  gboolean flip = mirrored != other_side;
  const char *front = other_side ? "back" : "front", *back = other_side ? "front" : "back";
  g_autofree char *base = g_strdup_printf (
    "{ 'id': 'base', 'ground': true, 'outline': [['0','0'],['7','0'],['7','6'],['0','6']], 'hold': ['%s','5'],"
    " 'marks': [ { 'id': 'spine', 'kind': 'score', 'fold': '%s', 'line': [['%s','0'],['%s','6']] } ] }",
    flip ? "1" : "6", other_side ? "away" : "toward", flip ? "4" : "3", flip ? "4" : "3");
  g_autofree char *note = g_strdup_printf (
    "{ 'id': 'note', 'outline': [['0','0'],['2','0'],['2','3'],['0','3']], 'marks': [], 'shows': 'back' }");
  const char *at = flip ? "3/4" : "4 1/4";
  /* The note is its own piece, drawn as before: laid so that the same paper comes to the same place. */
  return g_strdup_printf (CARD_HEAD "'measure': { 'unit': 'in', 'hand': '1/32' }, 'pieces': [ %s, %s ], 'steps': ["
                                    " { 'id': 'lay', 'do': 'stick', 'piece': 'note', 'on': { 'piece': 'base', 'panel':"
                                    " ['%s','5'], 'face': '%s' }, 'facing': 'back', 'at': ['%s','1'] },"
                                    " { 'id': 'shut', 'do': 'fold', 'rest': 'closed', 'folds': [ { 'score':"
                                    " 'base/spine', 'to': 180 } ] } ],"
                                    "'wants': { 'hidden': [ { 'piece': 'note', 'state': 'shut', 'from': '%s' } ],"
                                    " 'shown': [ { 'piece': 'note', 'state': 'shut', 'from': '%s' } ] } }",
                          reordered ? note : base, reordered ? base : note, flip ? "1" : "6", front,
                          !other_side ? at
                          : flip      ? "2 3/4"
                                      : "6 1/4",
                          front, back);
}

static void
test_laws (void)
{
  g_autofree char *first = NULL;

  for (int i = 0; i < 8; i++)
    {
      g_autofree char *text = law_card (i & 1, (i & 2) != 0, (i & 4) != 0);
      g_autoptr (CwMotion) motion = card_motion (text);
      g_autoptr (CwFlatStates) states = cw_flat_states_new (motion);
      g_autoptr (GPtrArray) findings = cw_sight_tell (motion, states);
      g_autoptr (GString) all = g_string_new (NULL);

      /* The cover ends at 6 of 7 in, the note at 6 1/4: a strip of 1/4 by 3 shows. Behind there is only the base.
       * The note's back should show and never does. */
      for (guint k = 0; k < findings->len; k++)
        {
          const CwFinding *finding = g_ptr_array_index (findings, k);

          g_string_append_printf (all, "%s %s %.4f|", cw_finding_code_get_key (finding->code), finding->step,
                                  finding->amount_unit == CW_AMOUNT_SQ_TICKS ? sq_in (finding) : 0);
        }
      if (first == NULL)
        {
          g_assert_cmpstr (all->str, ==, "layer-shows shut 0.7500|layer-hidden shut 0.0000|wrong-face shut 0.7500|");
          first = g_strdup (all->str);
        }
      g_assert_cmpstr (all->str, ==, first);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/sight/sight-tell/hidden", test_hidden);
  g_test_add_func ("/sight/sight-tell/sides-and-faces", test_sides);
  g_test_add_func ("/sight/sight-tell/windows-and-flaps", test_openings);
  g_test_add_func ("/sight/sight-tell/margin", test_margin);
  g_test_add_func ("/sight/sight-tell/shown", test_shown);
  g_test_add_func ("/sight/sight-tell/wrong-face", test_wrong_face);
  g_test_add_func ("/sight/sight-tell/picture-behind-a-window", test_window_picture);
  g_test_add_func ("/sight/sight-tell/art", test_art);
  g_test_add_func ("/sight/sight-tell/art-outside", test_art_outside);
  g_test_add_func ("/sight/sight-tell/mirrored-other-side-reordered", test_laws);
  return g_test_run ();
}
