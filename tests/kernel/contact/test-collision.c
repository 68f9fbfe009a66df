/* test-collision.c: paper that goes through paper while the card moves, and paper that only looks as if it did.
 *
 * Angles are worked out by plane trigonometry beside each case; no outside source is needed. Sheets are tried less a
 * hair (0.1 mm), so where a tip meets a face the angle is right to half a degree; where whole faces pass through one
 * another it does not depend on the hair and is right to 1e-6 of the step.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "card-fixture.h"
#include "contact/cw-collision-sheet.h"
#include "contact/cw-collision.h"

#define HALF_DEGREE(step_degrees) (0.5 / (step_degrees))

static GArray *
find (const char *text)
{
  g_autoptr (CwMotion) motion = card_motion (text);

  g_assert_cmpuint (cw_motion_get_n_steps (motion), >, 0);
  return cw_collisions_find (motion, NULL, NULL);
}

static void
assert_none (const char *text)
{
  g_autoptr (GArray) found = find (text);

  for (guint i = 0; i < found->len; i++)
    {
      const CwCollision *c = &g_array_index (found, CwCollision, i);

      g_test_message ("step %u, %.9f: %u and %u, kind %d", c->step, c->fraction, c->panel_a, c->panel_b, c->kind);
    }
  g_assert_cmpuint (found->len, ==, 0);
}

/* The first collision is of this step, kind and moment. */
static void
assert_first (const char *text, guint step, CwCollisionKind kind, double fraction, double within)
{
  g_autoptr (GArray) found = find (text);
  const CwCollision *first;

  g_assert_cmpuint (found->len, >, 0);
  first = &g_array_index (found, CwCollision, 0);
  g_assert_cmpuint (first->step, ==, step);
  g_assert_cmpint (first->kind, ==, kind);
  g_assert_cmpfloat_with_epsilon (first->fraction, fraction, within);
}

/* A tile whose score lies over the spine: its left half and the left leaf turn about one line. */
#define ONE_LINE(steps)                                                                                                \
  CARD_HEAD CARD_INCH                                                                                                  \
    "'pieces': [ { 'id': 'base', 'outline': [['0','0'],['8','0'],['8','6'],['0','6']], 'hold': ['6','1'],"             \
    " 'marks': [ { 'id': 'spine', 'kind': 'score', 'fold': 'toward', 'line': [['4','0'],['4','6']] } ] },"             \
    " { 'id': 'tile', 'outline': [['0','0'],['2','0'],['2','2'],['0','2']], 'hold': ['1.5','1'],"                      \
    " 'marks': [ { 'id': 't', 'kind': 'score', 'fold': 'toward', 'line': [['1','0'],['1','2']] } ] } ],"               \
    " 'steps': [ { 'id': 'lay', 'do': 'stick', 'piece': 'tile', 'on': { 'piece': 'base', 'panel': ['6','1'],"          \
    " 'face': 'front' }, 'facing': 'back', 'at': ['3','2'] }, " steps " ] }"
#define FOLD(id, score, to) "{ 'id': '" id "', 'do': 'fold', 'folds': [ { 'score': '" score "', 'to': " to " } ] }"

static void
test_one_line (void)
{
  /* The tile stands at 90 degrees; the leaf on its way to 120 goes through it there: nothing cuts at any moment. */
  assert_first (ONE_LINE (FOLD ("up", "tile/t", "90") "," FOLD ("close", "base/spine", "120")), 2,
                CW_COLLISION_PASS_THROUGH, 0.75, 1e-6);
  /* Stopping short of it, on it, or going ahead of it is right. */
  assert_none (ONE_LINE (FOLD ("up", "tile/t", "90") "," FOLD ("close", "base/spine", "89")));
  assert_none (ONE_LINE (
    FOLD ("up", "tile/t", "90") "," FOLD ("close", "base/spine",
                                          "90") "," FOLD ("open", "base/spine", "0") "," FOLD ("down", "tile/t", "0")));
  assert_none (ONE_LINE (FOLD ("up", "tile/t", "180") "," FOLD ("close", "base/spine", "180") "," FOLD (
    "open", "base/spine", "0") "," FOLD ("down", "tile/t", "0")));
}

/* Which lies above is known from the sticking, or from how it was folded in. */
static void
test_wrong_side (void)
{
  assert_first (ONE_LINE (FOLD ("close", "base/spine", "90")), 1, CW_COLLISION_PASS_THROUGH, 0, 1e-6);
  assert_none (ONE_LINE (FOLD ("close", "base/spine", "-90")));
  /* Shut in between the leaves, the half tile cannot unfold. */
  assert_first (ONE_LINE (FOLD ("up", "tile/t", "180") "," FOLD ("close", "base/spine",
                                                                 "180") "," FOLD ("down", "tile/t", "0")),
                3, CW_COLLISION_PASS_THROUGH, 0, 1e-6);
}

#define ROLL(width, steps)                                                                                             \
  CARD_HEAD CARD_INCH "'pieces': [ { 'id': 'base', 'outline': [['0','0'],['" width "','0'],['" width                   \
                      "','3'],['0','3']],"                                                                             \
                      " 'hold': ['2','1'], 'marks': ["                                                                 \
                      " { 'id': 'a', 'kind': 'score', 'fold': 'toward', 'line': [['4','0'],['4','3']] },"              \
                      " { 'id': 'b', 'kind': 'score', 'fold': 'toward', 'line': [['8','0'],['8','3']] } ] } ],"        \
                      " 'steps': [ " steps " ] }"

/* A roll fold with the inner panel wider than the middle one laps over the first fold line: it exists as a flat stack,
 * but folding the middle panel over would bring the lap down through the first. */
static void
test_roll (void)
{
  const char *fine = ROLL ("12", FOLD ("in", "base/b", "180") "," FOLD ("over", "base/a", "180") "," FOLD (
                                   "back", "base/a", "0") "," FOLD ("out", "base/b", "0"));
  const char *wide = ROLL ("12.5", FOLD ("in", "base/b", "180") "," FOLD ("over", "base/a", "180"));

  assert_none (fine);
  assert_first (wide, 1, CW_COLLISION_PASS_THROUGH, 0, 1e-6);
  /* Rolled up all at once three equal panels make a triangle at 120 degrees, and then the tip goes through. */
  assert_first (ROLL ("12", "{ 'id': 'roll', 'do': 'fold', 'folds': [ { 'score': 'base/a', 'to': 180 },"
                            " { 'score': 'base/b', 'to': 180 } ] }"),
                0, CW_COLLISION_PIERCE, 120.0 / 180, HALF_DEGREE (180));
}

/* A tab stands on a tile on the left leaf, 2 in from the spine and 1 in high. Its tip meets the right leaf when the
 * leaf has turned by 180 - atan (1/2) degrees. */
#define TAB(window)                                                                                                    \
  CARD_HEAD CARD_INCH                                                                                                  \
    "'pieces': [ { 'id': 'base', 'outline': [['0','0'],['8','0'],['8','6'],['0','6']], 'hold': ['7.5','1'],"           \
    " 'marks': [ { 'id': 'spine', 'kind': 'score', 'fold': 'toward', 'line': [['4','0'],['4','6']] } " window " ] },"  \
    " { 'id': 'tab', 'outline': [['0','0'],['2','0'],['2','1'],['0','1']], 'hold': ['1.5','0.5'],"                     \
    " 'marks': [ { 'id': 't', 'kind': 'score', 'fold': 'toward', 'line': [['1','0'],['1','1']] } ] } ],"               \
    " 'steps': [ { 'id': 'lay', 'do': 'stick', 'piece': 'tab', 'on': { 'piece': 'base', 'panel': ['1','1'],"           \
    " 'face': 'front' }, 'facing': 'back', 'at': ['1','2'] }, " FOLD ("stand", "tab/t", "90") "," FOLD (               \
      "close", "base/spine", "180") "," FOLD ("open", "base/spine", "0") " ] }"
#define WINDOW(left, top, right, bottom)                                                                               \
  ", { 'id': 'w', 'kind': 'window', 'rect': [['" left "','" top "'],['" right "','" bottom "']] }"

static void
test_window (void)
{
  /* The tab's line is at 2 in of the left leaf: 2 in from the spine. */
  double meets = 180 - atan2 (1, 2) * 180 / G_PI;

  assert_first (TAB (""), 2, CW_COLLISION_PIERCE, meets / 180, HALF_DEGREE (180));
  /* It sweeps the right leaf from sqrt (5) = 2.236 in to 2 in from the spine: 6.236 to 6; and is 1 in wide, 2 to 3. */
  assert_none (TAB (WINDOW ("5.9", "1.9", "6.4", "3.1")));
  /* Too short, too narrow, beside. */
  assert_first (TAB (WINDOW ("5.9", "1.9", "6.1", "3.1")), 2, CW_COLLISION_PIERCE, meets / 180, HALF_DEGREE (180));
  assert_first (TAB (WINDOW ("5.9", "2.1", "6.4", "3.1")), 2, CW_COLLISION_PIERCE, meets / 180, HALF_DEGREE (180));
  assert_first (TAB (WINDOW ("5.9", "3.1", "6.4", "4.1")), 2, CW_COLLISION_PIERCE, meets / 180, HALF_DEGREE (180));
}

/* A blade stands on the left leaf square to the spine, 2 to 3 in from it and 1 in high, and turns in its own plane: a
 * slit in line with it takes it. Its near top corner meets the right leaf at atan (1/2) before shut, sqrt (5) in from
 * the spine, its far one at atan (1/3), sqrt (10) = 3.162 in from the spine: 7.162. */
#define BLADE(slit, stands)                                                                                            \
  CARD_HEAD CARD_INCH                                                                                                  \
    "'pieces': [ { 'id': 'base', 'outline': [['0','0'],['8','0'],['8','6'],['0','6']], 'hold': ['7.5','1'],"           \
    " 'marks': [ { 'id': 'spine', 'kind': 'score', 'fold': 'toward', 'line': [['4','0'],['4','6']] } " slit " ] },"    \
    " { 'id': 'blade', 'outline': [['0','0'],['1','0'],['1','2'],['0','2']], 'hold': ['0.5','1.5'],"                   \
    " 'marks': [ { 'id': 'b', 'kind': 'score', 'fold': 'toward', 'line': [['0','1'],['1','1']] } ] } ],"               \
    " 'steps': [ { 'id': 'lay', 'do': 'stick', 'piece': 'blade', 'on': { 'piece': 'base', 'panel': ['1','1'],"         \
    " 'face': 'front' }, 'facing': 'back', 'at': ['1','1'] }, " FOLD ("stand", "blade/b", stands) "," FOLD (           \
      "close", "base/spine", "180") "," FOLD ("open", "base/spine", "0") " ] }"
#define SLIT(from, to, y) ", { 'id': 'slit', 'kind': 'cut', 'line': [['" from "','" y "'],['" to "','" y "']] }"

static void
test_slit (void)
{
  double near = 1 - atan2 (1, 2) / G_PI, far = 1 - atan2 (1, 3) / G_PI;

  assert_first (BLADE ("", "90"), 2, CW_COLLISION_PIERCE, near, HALF_DEGREE (180));
  assert_none (BLADE (SLIT ("5.9", "7.2", "2"), "90"));
  /* Too short at the far end, at the near one, beside, and a blade that leans by more than a slit is wide. */
  assert_first (BLADE (SLIT ("5.9", "7.1", "2"), "90"), 2, CW_COLLISION_PIERCE, far, HALF_DEGREE (180));
  assert_first (BLADE (SLIT ("6.3", "7.2", "2"), "90"), 2, CW_COLLISION_PIERCE, near, HALF_DEGREE (180));
  assert_first (BLADE (SLIT ("5.9", "7.2", "2.1"), "90"), 2, CW_COLLISION_PIERCE, near, HALF_DEGREE (180));
  assert_first (BLADE (SLIT ("5.9", "7.2", "2"), "80"), 2, CW_COLLISION_PIERCE, near, 1.0 / 180);
}

/* What collides is the paper: not where a window or the corner of an L is cut out, not on an open slit, nor a hair
 * inside its edges. */
static void
test_sheet (void)
{
  g_autoptr (CwMotion) motion = card_motion (
    CARD_HEAD CARD_INCH
    "'pieces': [ { 'id': 'base', 'outline': [['0','0'],['8','0'],['8','3'],['4','3'],['4','6'],['0','6']],"
    " 'marks': [ { 'id': 's', 'kind': 'cut', 'line': [['1','1'],['1','3'],['2','3']] },"
    " { 'id': 'e', 'kind': 'cut', 'line': [['0','5'],['1','5']] },"
    " { 'id': 'w', 'kind': 'window', 'rect': [['5','1'],['6','2']] } ] } ], 'steps': [] }");
  g_autoptr (CwCollisionSheet) sheet = cw_collision_sheet_new (cw_motion_get_set (motion), 0, 32);
  static const struct
  {
    double x, y;
    gboolean paper;
  } points[] = { { 3, 2, TRUE },        { 7, 2, TRUE },      { 7, 5, FALSE },   { 5.5, 1.5, FALSE }, { 1, 2, FALSE },
                 { 1.01, 2, TRUE },     { 0.99, 2, TRUE },   { 1.5, 3, FALSE }, { 1.5, 3.01, TRUE }, { 1, 3.02, TRUE },
                 { 0.5, 5, FALSE },     { 0.5, 5.01, TRUE }, { 1.02, 5, TRUE }, { 0.002, 2, FALSE }, { 0.005, 2, TRUE },
                 { 4.998, 1.5, FALSE }, { 4.995, 1.5, TRUE } };

  g_assert_cmpuint (cw_panel_set_n_panels (cw_motion_get_set (motion)), ==, 1);
  for (gsize i = 0; i < G_N_ELEMENTS (points); i++)
    g_assert_cmpint (cw_collision_sheet_contains (sheet, points[i].x * CW_TICKS_PER_INCH,
                                                  points[i].y * CW_TICKS_PER_INCH),
                     ==, points[i].paper);
}

/* Box with arms 2 1/2 and 2, roof 1 1/2, riser 3: the roof comes to lie on the leaf where the far ends of a triangle
 * 4 (2 1/2 + 1 1/2), 2 and 3 meet: cos = (16 + 4 - 9) / 16 = 11/16 of the opening; past it roof and leaf change
 * sides. It jams only later, where the roof lies along the riser: cos = (6.25 + 4 - 2.25) / 10 = 0.8. */
#define BOX(ridge)                                                                                                     \
  CARD_HEAD                                                                                                            \
  "'measure': { 'unit': 'in' }, "                                                                                      \
  "'pieces': [ { 'id': 'base', 'outline': [['0','0'],['12','0'],['12','7'],['0','7']], 'hold': ['11','1'],"            \
  " 'marks': [ { 'id': 'spine1', 'kind': 'score', 'fold': 'toward', 'line': [['6','0'],['6','2']] },"                  \
  " { 'id': 'spine2', 'kind': 'score', 'fold': 'toward', 'line': [['6','5'],['6','7']] },"                             \
  " { 'id': 'c1', 'kind': 'cut', 'line': [['3.5','2'],['8','2']] },"                                                   \
  " { 'id': 'c2', 'kind': 'cut', 'line': [['3.5','5'],['8','5']] },"                                                   \
  " { 'id': 'foot1', 'kind': 'score', 'fold': 'toward', 'line': [['3.5','2'],['3.5','5']] },"                          \
  " { 'id': 'ridge', 'kind': 'score', 'fold': 'away', 'line': [['" ridge "','2'],['" ridge "','5']] },"                \
  " { 'id': 'foot2', 'kind': 'score', 'fold': 'toward', 'line': [['8','2'],['8','5']] } ] } ],"                        \
  " 'steps': [ " FOLD ("close", "base/spine1", "180") "," FOLD ("open", "base/spine1", "0") " ] }"

static void
test_box (void)
{
  double meets = 180 - acos (11.0 / 16) * 180 / G_PI, jams = 180 - acos (0.8) * 180 / G_PI;
  g_autoptr (CwMotion) motion = card_motion (BOX ("5"));
  g_autoptr (GArray) found = cw_collisions_find (motion, NULL, NULL);
  g_autoptr (GPtrArray) told = cw_collisions_tell (motion, found);
  const CwCollision *first;
  const CwFinding *finding;

  assert_none (BOX ("5.5"));
  g_assert_cmpuint (found->len, >, 0);
  first = &g_array_index (found, CwCollision, 0);
  g_assert_cmpint (first->kind, ==, CW_COLLISION_PASS_THROUGH);
  g_assert_cmpfloat_with_epsilon (first->fraction, meets / 180, 1e-5);
  g_assert_cmpuint (first->panel_a, ==, card_panel (motion, "base", 1, 1));
  g_assert_cmpuint (first->panel_b, ==, card_panel (motion, "base", 4, 3));
  /* Found though the linkage goes on, and stops later. */
  g_assert_cmpfloat_with_epsilon (cw_motion_get_state (motion, 0)->reached, jams / 180, 2e-3);

  g_assert_cmpuint (told->len, >=, 1);
  finding = g_ptr_array_index (told, 0);
  g_assert_cmpint (finding->code, ==, CW_FINDING_PANELS_COLLIDE);
  g_assert_cmpint (finding->severity, ==, CW_SEVERITY_ERROR);
  g_assert_cmpstr (finding->step, ==, "close");
  g_assert_cmpint (finding->known, ==, CW_KNOWN_NUMERIC);
  g_assert_cmpfloat_with_epsilon (finding->amount, meets, 1e-3);
  g_assert_cmpstr (g_ptr_array_index (finding->args, 3), ==, "133.4");
  g_assert_cmpstr (g_ptr_array_index (finding->marks, 0), ==, "base/spine1");
}

/* The box of 5 1/2 (arms 2 1/2 and 2, a true parallelogram) rises in front of the leaves. A tile stuck on the left leaf
 * and lapping over its roof by 1 in is in its way from the first moment if it lies in front, and never if it lies
 * behind. */
#define BOX_TILE(face, facing)                                                                                         \
  CARD_HEAD CARD_INCH                                                                                                  \
    "'pieces': [ { 'id': 'base', 'outline': [['0','0'],['12','0'],['12','7'],['0','7']], 'hold': ['11','1'],"          \
    " 'marks': [ { 'id': 'spine1', 'kind': 'score', 'fold': 'toward', 'line': [['6','0'],['6','2']] },"                \
    " { 'id': 'spine2', 'kind': 'score', 'fold': 'toward', 'line': [['6','5'],['6','7']] },"                           \
    " { 'id': 'c1', 'kind': 'cut', 'line': [['3.5','2'],['8','2']] },"                                                 \
    " { 'id': 'c2', 'kind': 'cut', 'line': [['3.5','5'],['8','5']] },"                                                 \
    " { 'id': 'foot1', 'kind': 'score', 'fold': 'toward', 'line': [['3.5','2'],['3.5','5']] },"                        \
    " { 'id': 'ridge', 'kind': 'score', 'fold': 'away', 'line': [['5.5','2'],['5.5','5']] },"                          \
    " { 'id': 'foot2', 'kind': 'score', 'fold': 'toward', 'line': [['8','2'],['8','5']] } ] },"                        \
    " { 'id': 'tile', 'outline': [['0','0'],['2','0'],['2','1'],['0','1']] } ],"                                       \
    " 'steps': [ { 'id': 'lay', 'do': 'stick', 'piece': 'tile', 'on': { 'piece': 'base', 'panel': ['1','1'],"          \
    " 'face': '" face "' }, 'facing': '" facing                                                                        \
    "', 'at': ['2.5','3'] }, " FOLD ("close", "base/spine1", "180") "," FOLD ("open", "base/spine1", "0") " ] }"

static void
test_box_under_tile (void)
{
  for (guint with = 0; with < 2; with++)
    {
      g_autoptr (CwMotion) motion = card_motion (BOX_TILE ("front", "back"));
      g_autoptr (CwFlatStates) states = with ? cw_flat_states_new (motion) : NULL;
      g_autoptr (GArray) found = cw_collisions_find (motion, states, NULL);
      const CwCollision *first;

      g_assert_cmpuint (found->len, >, 0);
      first = &g_array_index (found, CwCollision, 0);
      g_assert_cmpuint (first->step, ==, 1);
      g_assert_cmpfloat (first->fraction, <, 1e-6);
      g_assert_cmpuint (first->panel_a, ==, card_panel (motion, "base", 4.5, 3));
      g_assert_cmpuint (first->panel_b, ==, card_panel (motion, "tile", 1, 0.5));
    }
  assert_none (BOX_TILE ("back", "front"));
}

/* Doors of 3 1/2 over a middle of 5: they lap by 2. */
#define GATE(left, right, steps)                                                                                       \
  CARD_HEAD CARD_INCH                                                                                                  \
    "'pieces': [ { 'id': 'base', 'outline': [['0','0'],['12','0'],['12','6'],['0','6']], 'hold': ['6','1'],"           \
    " 'marks': [ { 'id': 'l', 'kind': 'score', 'fold': 'toward', 'line': [['" left "','0'],['" left "','6']] },"       \
    " { 'id': 'r', 'kind': 'score', 'fold': 'toward', 'line': [['" right "','0'],['" right "','6']] } ] } ],"          \
    " 'steps': [ " steps " ] }"
#define BOTH(id, to)                                                                                                   \
  "{ 'id': '" id "', 'do': 'fold', 'folds': [ { 'score': 'base/l', 'to': " to " }, { 'score': 'base/r', 'to': " to     \
  " } ] }"

static void
test_gate (void)
{
  assert_none (
    GATE ("3.5", "8.5",
          FOLD ("1", "base/l", "180") "," FOLD ("2", "base/r", "180") "," FOLD ("3", "base/r",
                                                                                "0") "," FOLD ("4", "base/l", "0")));
  /* The door shut first is opened first. */
  assert_first (GATE ("3.5", "8.5",
                      FOLD ("1", "base/l", "180") "," FOLD ("2", "base/r",
                                                            "180") "," FOLD ("3", "base/l",
                                                                             "0") "," FOLD ("4", "base/r", "0")),
                2, CW_COLLISION_PASS_THROUGH, 0, 1e-6);
  /* Both at once: the edges meet over the middle, where 3 1/2 - 3 1/2 cos = 6. */
  assert_first (GATE ("3.5", "8.5", BOTH ("1", "180")), 0, CW_COLLISION_PIERCE, acos (-2.5 / 3.5) / G_PI,
                HALF_DEGREE (180));
  /* Doors that just meet. */
  assert_none (GATE ("3", "9", BOTH ("1", "180") "," BOTH ("2", "0")));
}

/* Everything here touches: an accordion, a corner flipped through its own opening, panels folded round one another. */
static void
test_sound (void)
{
  assert_none (CARD_HEAD CARD_INCH
               "'pieces': [ { 'id': 'base', 'outline': [['0','0'],['12','0'],['12','3'],['0','3']], 'hold': ['1','1'],"
               " 'marks': [ { 'id': 'a', 'kind': 'score', 'fold': 'toward', 'line': [['2','0'],['2','3']] },"
               " { 'id': 'b', 'kind': 'score', 'fold': 'away', 'line': [['4','0'],['4','3']] },"
               " { 'id': 'c', 'kind': 'score', 'fold': 'toward', 'line': [['6','0'],['6','3']] },"
               " { 'id': 'd', 'kind': 'score', 'fold': 'away', 'line': [['8','0'],['8','3']] },"
               " { 'id': 'e', 'kind': 'score', 'fold': 'toward', 'line': [['10','0'],['10','3']] } ] } ],"
               " 'steps': [ { 'id': 'shut', 'do': 'fold', 'folds': [ { 'score': 'base/a', 'to': 180 },"
               " { 'score': 'base/b', 'to': 180 }, { 'score': 'base/c', 'to': 180 }, { 'score': 'base/d', 'to': 180 },"
               " { 'score': 'base/e', 'to': 180 } ] }, { 'id': 'open', 'do': 'fold', 'folds': ["
               " { 'score': 'base/a', 'to': 0 }, { 'score': 'base/b', 'to': 0 }, { 'score': 'base/c', 'to': 0 },"
               " { 'score': 'base/d', 'to': 0 }, { 'score': 'base/e', 'to': 0 } ] } ] }");
  assert_none (CARD_HEAD CARD_INCH
               "'pieces': [ { 'id': 'base', 'outline': [['0','0'],['10','0'],['10','7'],['0','7']], 'hold': ['2','6'],"
               " 'marks': [ { 'id': 'spine', 'kind': 'score', 'fold': 'toward', 'line': [['5','0'],['5','7']] },"
               " { 'id': 'slit', 'kind': 'cut', 'line': [['6','2'],['8','2'],['8','4']] },"
               " { 'id': 'dia', 'kind': 'score', 'fold': 'away', 'line': [['6','2'],['8','4']] } ] } ],"
               " 'steps': [ " FOLD ("flip", "base/dia", "180") "," FOLD ("close", "base/spine", "180") "," FOLD (
                 "open", "base/spine",
                 "0") "," FOLD ("back", "base/dia", "0") "," FOLD ("swing", "base/dia",
                                                                   "-90") "," FOLD ("swing2", "base/dia", "90") " ] }");
  /* The last panel is wrapped by the others, one after another. */
  assert_none (ROLL ("11", FOLD ("in", "base/b", "180") "," FOLD ("over", "base/a", "180") "," FOLD (
                             "out", "base/a", "0") "," FOLD ("un", "base/b", "0")));
  /* Behind: the middle folds away. */
  assert_none (ROLL ("12", FOLD ("in", "base/b", "180") "," FOLD ("over", "base/a", "-180") "," FOLD (
                             "out", "base/a", "0") "," FOLD ("un", "base/b", "0")));
}

/* Arms that are no whole ticks: the loop misses closing by a hair, and near flat the square root of that carries its
 * corners to the wrong side of one another by hundredths of an inch. No maker would see a fault in it. */
static void
test_rounded_boxes (void)
{
  static const char *measures[][3] = { { "8.666667", "3.333333", "6" },
                                       { "7.123456", "4.876544", "6" },
                                       { "6.777777", "3.214159", "3.991936" },
                                       { "8.911111", "4.011111", "6.922222" } };

  for (gsize i = 0; i < G_N_ELEMENTS (measures); i++)
    {
      g_autofree char *text = g_strdup_printf (
        CARD_HEAD CARD_INCH
        "'pieces': [ { 'id': 'base', 'outline': [['0','0'],['12','0'],['12','7'],['0','7']], 'hold': ['11','1'],"
        " 'marks': [ { 'id': 'spine1', 'kind': 'score', 'fold': 'toward', 'line': [['6','0'],['6','2']] },"
        " { 'id': 'spine2', 'kind': 'score', 'fold': 'toward', 'line': [['6','5'],['6','7']] },"
        " { 'id': 'c1', 'kind': 'cut', 'line': [['%2$s','2'],['%1$s','2']] },"
        " { 'id': 'c2', 'kind': 'cut', 'line': [['%2$s','5'],['%1$s','5']] },"
        " { 'id': 'foot1', 'kind': 'score', 'fold': 'toward', 'line': [['%2$s','2'],['%2$s','5']] },"
        " { 'id': 'ridge', 'kind': 'score', 'fold': 'away', 'line': [['%3$s','2'],['%3$s','5']] },"
        " { 'id': 'foot2', 'kind': 'score', 'fold': 'toward', 'line': [['%1$s','2'],['%1$s','5']] } ] } ],"
        " 'steps': [ " FOLD ("close", "base/spine1", "180") "," FOLD ("open", "base/spine1",
                                                                      "0") "," FOLD ("again", "base/spine1",
                                                                                     "180") " ] }",
        measures[i][0], measures[i][1], measures[i][2]);

      assert_none (text);
    }
}

/* One card of two doors and a flap, drawn as it is (0), mirrored (1), turned by a right angle (2), from its other side
 * (3), and with its scores listed in another order (4). All the same paper. */
static GArray *
find_drawn (guint how)
{
  static const char *ids[] = { "l", "r", "f" };
  static const double lines[3][4] = { { 3.5, 0, 3.5, 6 }, { 8.5, 0, 8.5, 6 }, { 3.5, 4.5, 8.5, 4.5 } };
  g_autoptr (GString) text = g_string_new (CARD_HEAD CARD_INCH "'pieces': [ { 'id': 'base', 'outline': [");
  static const double outline[8][2]
    = { { 0, 0 }, { 12, 0 }, { 12, 4.5 }, { 8.5, 4.5 }, { 8.5, 8 }, { 3.5, 8 }, { 3.5, 4.5 }, { 0, 4.5 } };
  const char *way = how == 3 ? "away" : "toward";

  for (guint i = 0; i < 8; i++)
    {
      double x = how == 1 || how == 3 ? 12 - outline[i][0] : outline[i][0], y = outline[i][1];

      g_string_append_printf (text, "%s['%g','%g']", i > 0 ? "," : "", how == 2 ? 8 - y : x, how == 2 ? x : y);
    }
  g_string_append_printf (text, "], 'hold': ['%g','%g'], 'marks': [", how == 2 ? 7.0 : 6.0, how == 2 ? 6.0 : 1.0);
  for (guint i = 0; i < 3; i++)
    {
      guint k = how == 4 ? 2 - i : i;
      double c[4];

      for (guint e = 0; e < 2; e++)
        {
          double x = lines[k][2 * e], y = MIN (lines[k][2 * e + 1], 4.5);

          x = how == 1 || how == 3 ? 12 - x : x;
          c[2 * e] = how == 2 ? 8 - y : x;
          c[2 * e + 1] = how == 2 ? x : y;
        }
      g_string_append_printf (text,
                              "%s{ 'id': '%s', 'kind': 'score', 'fold': '%s', 'line': [['%g','%g'],['%g','%g']] }",
                              i > 0 ? "," : "", ids[k], way, c[0], c[1], c[2], c[3]);
    }
  g_string_append (text, "] } ], 'steps': [ " BOTH ("1", "120") "," FOLD ("2", "base/f", "170") "," BOTH (
                           "3", "170") "," FOLD ("4", "base/f", "0") " ] }");
  return find (text->str);
}

static void
test_laws (void)
{
  g_autoptr (GArray) drawn = find_drawn (0);

  g_assert_cmpuint (drawn->len, >, 2);
  for (guint how = 1; how < 5; how++)
    {
      g_autoptr (GArray) other = find_drawn (how);

      g_assert_cmpuint (other->len, ==, drawn->len);
      for (guint i = 0; i < drawn->len; i++)
        {
          const CwCollision *x = &g_array_index (drawn, CwCollision, i), *y = &g_array_index (other, CwCollision, i);

          g_assert_cmpuint (x->step, ==, y->step);
          g_assert_cmpint (x->kind, ==, y->kind);
          g_assert_cmpfloat_with_epsilon (x->fraction, y->fraction, 1e-6);
        }
    }
}

/* Cancelled before it begins it finds nothing and does not fail. */
static void
test_cancel (void)
{
  g_autoptr (GCancellable) cancellable = g_cancellable_new ();
  g_autoptr (CwMotion) motion = card_motion (BOX ("5"));
  g_autoptr (GArray) found = NULL;

  g_cancellable_cancel (cancellable);
  found = cw_collisions_find (motion, NULL, cancellable);
  g_assert_cmpuint (found->len, ==, 0);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/contact/collision/flaps-on-one-line-change-sides", test_one_line);
  g_test_add_func ("/contact/collision/leaving-to-the-wrong-side-is-found-at-once", test_wrong_side);
  g_test_add_func ("/contact/collision/a-roll-too-wide", test_roll);
  g_test_add_func ("/contact/collision/a-tab-through-a-window", test_window);
  g_test_add_func ("/contact/collision/a-blade-into-a-slit", test_slit);
  g_test_add_func ("/contact/collision/sheets-have-holes-and-slits", test_sheet);
  g_test_add_func ("/contact/collision/a-box-cuts-before-it-jams", test_box);
  g_test_add_func ("/contact/collision/a-box-under-a-tile", test_box_under_tile);
  g_test_add_func ("/contact/collision/gate-doors-in-order", test_gate);
  g_test_add_func ("/contact/collision/touching-is-not-colliding", test_sound);
  g_test_add_func ("/contact/collision/boxes-a-tick-off", test_rounded_boxes);
  g_test_add_func ("/contact/collision/however-it-is-drawn", test_laws);
  g_test_add_func ("/contact/collision/cancelled", test_cancel);
  return g_test_run ();
}
