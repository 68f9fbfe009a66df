/* test-motion.c: designs in time: where folding, sticking and taking away bring the panels.
 *
 * Positions are worked by hand: a fold of 180 degrees is a reflection in the fold line, one of 90 degrees stands the
 * panel up towards the viewer (toward, -z) or away (+z) at its distance from the line. Stick placements are the rule of
 * the model page written out. No outside source is needed beyond plane geometry; others stand at their checks.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "card-fixture.h"

/* Counts allocations of the whole program, where no sanitizer has taken that place. */
#if defined(__has_feature)
#if __has_feature(address_sanitizer) || __has_feature(thread_sanitizer)
#define SANITIZED 1
#endif
#endif
#if defined(__SANITIZE_ADDRESS__) || defined(__SANITIZE_THREAD__) || !defined(__GLIBC__)
#define SANITIZED 1
#endif

#ifndef SANITIZED
static guint n_allocations;

void *__libc_malloc (size_t size);
void *__libc_calloc (size_t n, size_t size);
void *__libc_realloc (void *block, size_t size);
void *malloc (size_t size);
void *calloc (size_t n, size_t size);
void *realloc (void *block, size_t size);

void *
malloc (size_t size)
{
  n_allocations++;
  return __libc_malloc (size);
}

void *
calloc (size_t n, size_t size)
{
  n_allocations++;
  return __libc_calloc (n, size);
}

void *
realloc (void *block, size_t size)
{
  n_allocations++;
  return __libc_realloc (block, size);
}
#endif

#define HALF_FOLD                                                                                                      \
  CARD_HEAD CARD_INCH                                                                                                  \
    "'pieces': [ { 'id': 'base', 'outline': [['0','0'],['8','0'],['8','6'],['0','6']], 'hold': ['6','3'],"             \
    " 'marks': [ { 'id': 'spine', 'kind': 'score', 'fold': '%s', 'line': [['4','0'],['4','6']] } ] } ],"               \
    " 'steps': [ { 'id': 'close', 'do': 'fold', 'folds': [ { 'score': 'base/spine', 'to': %s } ] },"                   \
    "            { 'id': 'open', 'do': 'fold', 'folds': [ { 'score': 'base/spine', 'to': 0 } ] } ] }"

static CwMotion *
half_fold (const char *way, const char *to)
{
  g_autofree char *text = g_strdup_printf (HALF_FOLD, way, to);

  return card_motion (text);
}

static void
test_half_fold (void)
{
  g_autoptr (CwMotion) motion = half_fold ("toward", "180");
  g_autoptr (CwPose) half = card_pose (motion, "close", 0.5);
  g_autoptr (CwPose) shut = card_pose (motion, "close", 1);
  g_autoptr (CwPose) open = card_pose (motion, "open", 1);

  card_assert_point (card_point (motion, half, "base", 1, 1, 0, 0), 4, 0, -4);
  card_assert_point (card_point (motion, half, "base", 1, 1, 3, 6), 4, 6, -1);
  card_assert_point (card_point (motion, shut, "base", 1, 1, 0, 0), 8, 0, 0);
  card_assert_point (card_point (motion, open, "base", 1, 1, 0, 0), 0, 0, 0);
  /* The held panel stays. */
  card_assert_point (card_point (motion, half, "base", 6, 3, 8, 6), 8, 6, 0);
  g_assert_cmpuint (cw_motion_get_held (motion), ==, card_panel (motion, "base", 6, 3));

  g_assert_cmpfloat_with_epsilon (half->angles_deg[0], 90, 1e-9);
  g_assert_cmpfloat_with_epsilon (card_state (motion, "close")->reached, 1, 1e-12);
  g_assert_true (card_state (motion, "close")->flat);
  g_assert_cmpuint (card_state (motion, "close")->freedom, ==, 1);
  g_assert_cmpuint (card_state (motion, "close")->n_bodies, ==, 2);
  g_assert_cmpuint (card_state (motion, "close")->n_loops, ==, 0);
  g_assert_true (cw_motion_step_moves (motion, 0, card_panel (motion, "base", 1, 1)));
  g_assert_false (cw_motion_step_moves (motion, 0, card_panel (motion, "base", 6, 3)));
  g_assert_cmpuint (cw_motion_get_findings (motion)->len, ==, 0);
}

/* `to` counts in the score's own direction: away goes behind, a negative angle the other way. */
static void
test_directions (void)
{
  static const struct
  {
    const char *way, *to;
    double z;
  } cases[] = { { "toward", "90", -4 }, { "away", "90", 4 },  { "toward", "-90", 4 },
                { "away", "-90", -4 },  { "none", "90", -4 }, { "none", "-90", 4 } };

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (CwMotion) motion = half_fold (cases[i].way, cases[i].to);
      g_autoptr (CwPose) pose = card_pose (motion, "close", 1);

      card_assert_point (card_point (motion, pose, "base", 1, 1, 0, 2), 4, 2, cases[i].z);
      g_assert_false (card_state (motion, "close")->flat);
    }
}

static void
test_gate (void)
{
  g_autoptr (CwMotion) motion = card_motion (
    CARD_HEAD CARD_INCH
    "'pieces': [ { 'id': 'base', 'outline': [['0','0'],['8','0'],['8','6'],['0','6']], 'hold': ['4','3'], 'marks': ["
    " { 'id': 'left', 'kind': 'score', 'fold': 'toward', 'line': [['2','0'],['2','6']] },"
    " { 'id': 'right', 'kind': 'score', 'fold': 'toward', 'line': [['6','6'],['6','0']] } ] } ],"
    "'steps': [ { 'id': 'close', 'do': 'fold', 'folds': [ { 'score': 'base/left', 'to': 180 },"
    " { 'score': 'base/right', 'to': 90 } ] } ] }");
  g_autoptr (CwPose) half = card_pose (motion, "close", 0.5);
  g_autoptr (CwPose) shut = card_pose (motion, "close", 1);

  /* The folds of a step move together: half way the left leaf is at 90 degrees, the right at 45. */
  card_assert_point (card_point (motion, half, "base", 1, 1, 0, 0), 2, 0, -2);
  card_assert_point (card_point (motion, half, "base", 7, 1, 8, 0), 6 + G_SQRT2, 0, -G_SQRT2);
  card_assert_point (card_point (motion, shut, "base", 1, 1, 0, 0), 4, 0, 0);
  card_assert_point (card_point (motion, shut, "base", 7, 1, 8, 0), 6, 0, -2);
  g_assert_cmpuint (card_state (motion, "close")->freedom, ==, 2);
}

static void
test_z_fold (void)
{
  g_autoptr (CwMotion) motion = card_motion (
    CARD_HEAD CARD_INCH
    "'pieces': [ { 'id': 'base', 'outline': [['0','0'],['9','0'],['9','4'],['0','4']], 'hold': ['8','2'], 'marks': ["
    " { 'id': 'zig', 'kind': 'score', 'fold': 'away', 'line': [['3','0'],['3','4']] },"
    " { 'id': 'zag', 'kind': 'score', 'fold': 'toward', 'line': [['6','0'],['6','4']] } ] } ],"
    "'steps': [ { 'id': 'both', 'do': 'fold', 'folds': [ { 'score': 'base/zig', 'to': 180 },"
    " { 'score': 'base/zag', 'to': 180 } ] } ] }");
  g_autoptr (CwPose) half = card_pose (motion, "both", 0.5);
  g_autoptr (CwPose) shut = card_pose (motion, "both", 1);

  /* The middle stands up on x = 6 with its front to +x; the left leaf goes away from that front, to -x. */
  card_assert_point (card_point (motion, half, "base", 4, 2, 3, 0), 6, 0, -3);
  card_assert_point (card_point (motion, half, "base", 1, 2, 0, 0), 3, 0, -3);
  /* Shut: (0, y) in 3 goes to 6, in 6 stays; (3, y) in 6 goes to 9. */
  card_assert_point (card_point (motion, shut, "base", 1, 2, 0, 4), 6, 4, 0);
  card_assert_point (card_point (motion, shut, "base", 4, 2, 3, 4), 9, 4, 0);
  g_assert_true (card_state (motion, "both")->flat);
}

/* The rule of the model page: not mirrored (u, v) lands at `at` + (u, v), mirrored at `at` + (-u, v), then turned about
 * `at`, clockwise as seen by someone looking at the host's face. Clockwise with y down turns (1, 0) into (cos, sin)
 * seen from the front and into (cos, -sin) seen from behind. */
static void
test_stick_placement (void)
{
  static const struct
  {
    double turn, cosine, sine;
  } turns[] = { { 0, 1, 0 },
                { 90, 0, 1 },
                { 180, -1, 0 },
                { 270, 0, -1 },
                /* cos and sin of 37 degrees: any table of functions, from memory. */
                { 37, 0.798635510047293, 0.601815023152048 } };
  static const char *faces[] = { "front", "back" };

  for (gsize t = 0; t < G_N_ELEMENTS (turns); t++)
    for (int host = 0; host < 2; host++)
      for (int facing = 0; facing < 2; facing++)
        {
          g_autofree char *text = g_strdup_printf (
            CARD_HEAD CARD_INCH
            "'pieces': [ { 'id': 'base', 'outline': [['0','0'],['8','0'],['8','6'],['0','6']], 'marks': [] },"
            " { 'id': 'tag', 'outline': [['0','0'],['2','0'],['2','1'],['0','1']], 'marks': [] } ],"
            "'steps': [ { 'id': 'lay', 'do': 'stick', 'piece': 'tag', 'on': { 'piece': 'base', 'panel': ['4','3'],"
            " 'face': '%s' }, 'facing': '%s', 'at': ['3','-1/2'], 'turn': %g } ] }",
            faces[host], faces[facing], turns[t].turn);
          g_autoptr (CwMotion) motion = card_motion (text);
          g_autoptr (CwPose) pose = card_pose (motion, "lay", 1);
          double c = turns[t].cosine, s = host == 1 ? -turns[t].sine : turns[t].sine;
          double u = host == facing ? -2 : 2;
          guint tag = card_panel (motion, "tag", 1, 0.5);

          card_assert_point (card_point (motion, pose, "tag", 1, 0.5, 0, 0), 3, -0.5, 0);
          card_assert_point (card_point (motion, pose, "tag", 1, 0.5, 2, 0), 3 + u * c, -0.5 + u * s, 0);
          card_assert_point (card_point (motion, pose, "tag", 1, 0.5, 0, 1), 3 - s, -0.5 + c, 0);
          /* Mirrored means turned over. */
          g_assert_cmpfloat_with_epsilon (cw_rigid_turn (&pose->places[tag], cw_vec3 (0, 0, 1)).z,
                                          host == facing ? -1 : 1, 1e-12);
          g_assert_cmpuint (card_state (motion, "lay")->n_bodies, ==, 1);
        }
}

/* The example of the model page: the corner flips in the diagonal from (6, 2) to (8, 4), so (x, y) goes to
 * (y + 4, x - 4); the tile lies there at (6, 4), turned by 270 degrees, so (u, v) is (6 + v, 4 - u) on the flat corner
 * and (8 - u, 2 + v) flipped: upright, over the square that the slit encloses. */
static const char *model_example = CARD_HEAD
  "'measure': { 'unit': 'in', 'snap': '1/16 in', 'hand': '1/32 in', 'give': '1/32 in' },"
  "'pieces': [ { 'id': 'base', 'ground': true, 'outline': [['0 in','0 in'],['10 in','0 in'],['10 in','7 in'],['0 "
  "in','7 in']],"
  " 'hold': ['2 in','6 in'], 'marks': ["
  " { 'id': 'spine', 'kind': 'score', 'fold': 'toward', 'line': [['5 in','0 in'],['5 in','7 in']] },"
  " { 'id': 'slit', 'kind': 'cut', 'line': [['6 in','2 in'],['8 in','2 in'],['8 in','4 in']] },"
  " { 'id': 'diagonal', 'kind': 'score', 'fold': 'away', 'line': [['6 in','2 in'],['8 in','4 in']] },"
  " { 'id': 'port', 'kind': 'window', 'circle': { 'centre': ['2 in','2 in'], 'radius': '3/4 in' } } ] },"
  " { 'id': 'tile', 'outline': [['0 in','0 in'],['2 in','0 in'],['2 in','2 in'],['0 in','2 in']], 'marks': [] } ],"
  "'glue': [ { 'id': 'g1', 'piece': 'tile', 'face': 'back', 'kind': 'tape',"
  " 'area': [['1 3/4 in','1/2 in'],['1 3/4 in','1 3/4 in'],['1/2 in','1 3/4 in']],"
  " 'holds': { 'piece': 'base', 'panel': ['7 1/2 in','2 1/2 in'] } } ],"
  "'steps': [ { 'id': 'flip', 'do': 'fold', 'folds': [ { 'score': 'base/diagonal', 'to': 180 } ] },"
  " { 'id': 'stick', 'do': 'stick', 'piece': 'tile', 'on': { 'piece': 'base', 'panel': ['7 1/2 in','2 1/2 in'],"
  " 'face': 'front' }, 'facing': 'back', 'at': ['6 in','4 in'], 'turn': 270 },"
  " { 'id': 'close', 'do': 'fold', 'rest': 'closed', 'folds': [ { 'score': 'base/spine', 'to': 180 } ] },"
  " { 'id': 'open', 'do': 'fold', 'phase': 'using', 'rest': 'open', 'folds': [ { 'score': 'base/spine', 'to': 0 } ] } "
  "] }";

static void
test_model_example (void)
{
  g_autoptr (CwMotion) motion = card_motion (model_example);
  g_autoptr (CwPose) before = card_pose (motion, "stick", 0.5);
  g_autoptr (CwPose) stuck = card_pose (motion, "stick", 1);
  g_autoptr (CwPose) shut = card_pose (motion, "close", 1);
  g_autoptr (CwPose) open = card_pose (motion, "open", 1);
  guint tile = card_panel (motion, "tile", 1, 1);

  card_assert_point (card_point (motion, before, "base", 7.5, 2.5, 8, 2), 6, 4, 0);
  g_assert_false (before->present[tile]);
  g_assert_true (stuck->present[tile]);
  card_assert_point (card_point (motion, stuck, "tile", 1, 1, 0, 0), 8, 2, 0);
  card_assert_point (card_point (motion, stuck, "tile", 1, 1, 2, 0), 6, 2, 0);
  card_assert_point (card_point (motion, stuck, "tile", 1, 1, 0, 2), 8, 4, 0);
  /* The corner folded away shows its front, and so the tile its own, to a viewer behind. */
  g_assert_cmpfloat_with_epsilon (cw_rigid_turn (&stuck->places[tile], cw_vec3 (0, 0, -1)).z, 1, 1e-12);
  /* Closing is a reflection in x = 5. */
  card_assert_point (card_point (motion, shut, "tile", 1, 1, 0, 0), 2, 2, 0);
  card_assert_point (card_point (motion, shut, "tile", 1, 1, 2, 2), 4, 4, 0);
  card_assert_point (card_point (motion, open, "tile", 1, 1, 0, 2), 8, 4, 0);
  g_assert_cmpuint (card_state (motion, "flip")->n_bodies, ==, 3);
  g_assert_cmpuint (card_state (motion, "close")->n_bodies, ==, 3);
  g_assert_true (card_state (motion, "close")->flat);
}

/* A strip is folded up and gets a tag before it joins the card; both join as they are. */
#define STRIP_PIECES                                                                                                   \
  "'pieces': [ { 'id': 'base', 'outline': [['0','0'],['8','0'],['8','6'],['0','6']], 'marks': [] },"                   \
  " { 'id': 'strip', 'outline': [['0','0'],['4','0'],['4','1'],['0','1']], 'hold': ['1','1/2'], 'marks': ["            \
  " { 'id': 'up', 'kind': 'score', 'fold': 'toward', 'line': [['2','0'],['2','1']] } ] },"                             \
  " { 'id': 'tag', 'outline': [['0','0'],['1','0'],['1','1/2'],['0','1/2']], 'marks': [] } ],"
#define STICK_TAG                                                                                                      \
  "{ 'id': 'tag on', 'do': 'stick', 'piece': 'tag', 'on': { 'piece': 'strip', 'panel': ['3','1/2'], 'face': 'front' "  \
  "},"                                                                                                                 \
  " 'facing': 'back', 'at': ['2 1/2','1/4'] }"
#define STICK_STRIP                                                                                                    \
  "{ 'id': 'strip on', 'do': 'stick', 'piece': 'strip', 'on': { 'piece': 'base', 'panel': ['4','3'], 'face': 'front' " \
  "},"                                                                                                                 \
  " 'facing': 'back', 'at': ['1','1'] }"

static void
test_sub_assembly (void)
{
  g_autoptr (CwMotion) motion = card_motion (
    CARD_HEAD CARD_INCH STRIP_PIECES
    "'steps': [ { 'id': 'stand', 'do': 'fold', 'folds': [ { 'score': 'strip/up', 'to': 90 } ] }, " STICK_TAG
    ", " STICK_STRIP ","
    " { 'id': 'lie', 'do': 'fold', 'folds': [ { 'score': 'strip/up', 'to': 0 } ] } ] }");
  g_autoptr (CwPose) before = card_pose (motion, "strip on", 0.9);
  g_autoptr (CwPose) on = card_pose (motion, "strip on", 1);
  g_autoptr (CwPose) lie = card_pose (motion, "lie", 1);
  guint tag = card_panel (motion, "tag", 0.5, 0.25), strip = card_panel (motion, "strip", 1, 0.5);

  g_assert_false (before->present[strip] || before->present[tag]);
  g_assert_true (on->present[strip] && on->present[tag]);
  card_assert_point (card_point (motion, on, "strip", 1, 0.5, 0, 0), 1, 1, 0);
  card_assert_point (card_point (motion, on, "strip", 3, 0.5, 4, 0), 3, 1, -2);
  card_assert_point (card_point (motion, on, "tag", 0.5, 0.25, 0, 0), 3, 1.25, -0.5);
  card_assert_point (card_point (motion, on, "tag", 0.5, 0.25, 1, 0.5), 3, 1.75, -1.5);
  card_assert_point (card_point (motion, lie, "tag", 0.5, 0.25, 1, 0.5), 4.5, 1.75, 0);
  /* Before it joins, the card is the base alone. */
  g_assert_cmpuint (card_state (motion, "tag on")->n_bodies, ==, 1);
  g_assert_cmpuint (card_state (motion, "tag on")->freedom, ==, 0);
  g_assert_true (card_state (motion, "tag on")->flat);
  g_assert_cmpuint (card_state (motion, "strip on")->n_bodies, ==, 2);
  g_assert_cmpuint (card_state (motion, "strip on")->freedom, ==, 1);
  g_assert_false (card_state (motion, "strip on")->flat);
  g_assert_true (card_state (motion, "lie")->flat);
}

static void
test_take_away (void)
{
  g_autoptr (CwMotion) motion
    = card_motion (CARD_HEAD CARD_INCH STRIP_PIECES
                   "'steps': [ " STICK_STRIP ", " STICK_TAG ","
                   " { 'id': 'off', 'do': 'take-away', 'piece': 'strip' },"
                   " { 'id': 'back', 'do': 'stick', 'piece': 'strip', 'on': { 'piece': 'base', 'panel': ['4','3'],"
                   " 'face': 'front' }, 'facing': 'back', 'at': ['2','2'] },"
                   " { 'id': 'again', 'do': 'stick', 'piece': 'strip', 'on': { 'piece': 'base', 'panel': ['4','3'],"
                   " 'face': 'front' }, 'facing': 'back', 'at': ['3','4'] } ] }");
  g_autoptr (CwPose) on = card_pose (motion, "tag on", 1);
  g_autoptr (CwPose) still = card_pose (motion, "off", 0.5);
  g_autoptr (CwPose) off = card_pose (motion, "off", 1);
  g_autoptr (CwPose) back = card_pose (motion, "back", 1);
  g_autoptr (CwPose) again = card_pose (motion, "again", 1);
  guint tag = card_panel (motion, "tag", 0.5, 0.25), strip = card_panel (motion, "strip", 1, 0.5);

  g_assert_true (on->present[strip] && on->present[tag]);
  g_assert_true (still->present[strip] && still->present[tag]);
  g_assert_false (off->present[strip] || off->present[tag]);
  g_assert_true (back->present[strip] && back->present[tag]);
  card_assert_point (card_point (motion, back, "tag", 0.5, 0.25, 0, 0), 4.5, 2.25, 0);
  /* Stuck once more without being taken away: laid anew. */
  card_assert_point (card_point (motion, again, "strip", 1, 0.5, 0, 0), 3, 4, 0);
  g_assert_cmpuint (cw_motion_get_findings (motion)->len, ==, 0);
}

/* The strip is stuck on the base and the tag on the strip's other half; then the strip is to be stuck on the tag, which
 * it carries. Where it lies on it already (the tag's (0, 0) is at (2.5, 0.25) of the strip) that holds its two halves
 * together; anywhere else it cannot be done. */
static void
test_stuck_on_what_it_carries (void)
{
  static const struct
  {
    const char *at;
    guint n_bodies;
    double reached;
  } cases[] = { { "['-2 1/2','-1/4']", 1, 1 }, { "['-2','-1/4']", 2, 0 } };

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autofree char *text
        = g_strdup_printf (CARD_HEAD CARD_INCH STRIP_PIECES
                           "'steps': [ " STICK_STRIP ", " STICK_TAG ","
                           " { 'id': 'ring', 'do': 'stick', 'piece': 'strip', 'on': { 'piece': 'tag',"
                           " 'panel': ['1/2','1/4'], 'face': 'back' }, 'facing': 'front', 'at': %s } ] }",
                           cases[i].at);
      g_autoptr (CwMotion) motion = card_motion (text);
      g_autoptr (CwPose) pose = card_pose (motion, "ring", 1);
      const CwFinding *finding = card_finding (motion, CW_FINDING_CANNOT_MOVE);

      card_assert_point (card_point (motion, pose, "strip", 3, 0.5, 4, 0), 5, 1, 0);
      g_assert_cmpuint (card_state (motion, "ring")->n_bodies, ==, cases[i].n_bodies);
      g_assert_cmpfloat_with_epsilon (card_state (motion, "ring")->reached, cases[i].reached, 1e-12);
      g_assert_true ((finding != NULL) == (cases[i].reached < 0.5));
      if (finding)
        g_assert_cmpstr (finding->step, ==, "ring");
    }
}

/* A strip across a half-fold: one end stuck on the left page, the other on a foot that is then stuck on the right one,
 * so that the foot holds both. Hinges lie 3 in from the spine and from the ridge: a rhombus, whose opposite angles are
 * the same and whose neighbours turn the other way, so all four scores stand at the spine's angle. */
static void
test_bridge (void)
{
  g_autoptr (CwMotion) motion = card_motion (
    CARD_HEAD CARD_INCH
    "'pieces': [ { 'id': 'base', 'outline': [['0','0'],['10','0'],['10','7'],['0','7']], 'hold': ['8','6'],"
    " 'marks': [ { 'id': 's', 'kind': 'score', 'fold': 'toward', 'line': [['5','0'],['5','7']] } ] },"
    " { 'id': 'strip', 'outline': [['0','0'],['8','0'],['8','1'],['0','1']], 'hold': ['1/2','1/2'], 'marks': ["
    " { 'id': 'u', 'kind': 'score', 'fold': 'toward', 'line': [['1','0'],['1','1']] },"
    " { 'id': 'r', 'kind': 'score', 'fold': 'away', 'line': [['4','0'],['4','1']] },"
    " { 'id': 'v', 'kind': 'score', 'fold': 'toward', 'line': [['7','0'],['7','1']] } ] },"
    " { 'id': 'foot', 'outline': [['0','0'],['1','0'],['1','1'],['0','1']], 'marks': [] } ],"
    "'steps': [ { 'id': 'sub', 'do': 'stick', 'piece': 'foot', 'on': { 'piece': 'strip', 'panel': ['7 1/2','1/2'],"
    "  'face': 'back' }, 'facing': 'front', 'at': ['7','0'] },"
    " { 'id': 'in', 'do': 'stick', 'piece': 'strip', 'on': { 'piece': 'base', 'panel': ['1 1/2','3'], 'face': 'front' "
    "},"
    "  'facing': 'back', 'at': ['1','3'] },"
    " { 'id': 'end', 'do': 'stick', 'piece': 'foot', 'on': { 'piece': 'base', 'panel': ['8 1/2','3'], 'face': 'front' "
    "},"
    "  'facing': 'back', 'at': ['8','3'] },"
    " { 'id': 'half', 'do': 'fold', 'folds': [ { 'score': 'base/s', 'to': 90 } ] },"
    " { 'id': 'close', 'do': 'fold', 'folds': [ { 'score': 'base/s', 'to': 180 } ] },"
    " { 'id': 'off', 'do': 'take-away', 'piece': 'foot' } ] }");
  g_autoptr (CwPose) half = card_pose (motion, "half", 1);

  g_assert_cmpuint (cw_motion_get_findings (motion)->len, ==, 0);
  g_assert_cmpuint (card_state (motion, "in")->n_loops, ==, 0);
  g_assert_cmpuint (card_state (motion, "end")->n_loops, ==, 1);
  g_assert_cmpuint (card_state (motion, "half")->freedom, ==, 1);
  for (guint h = 0; h < half->n_hinges; h++)
    g_assert_cmpfloat_with_epsilon (fabs (half->angles_deg[h]), 90, 1e-6);
  g_assert_true (card_state (motion, "close")->flat);
  g_assert_cmpuint (card_state (motion, "off")->n_loops, ==, 0);
}

/* Folded in half and folded again, on a sheet that stands aslant (3-4-5) so that the crossing is no whole tick: it
 * folds as the same sheet does upright, the first fold alone, then the second. */
static void
test_fold_again_aslant (void)
{
  g_autoptr (CwMotion) motion = card_motion (
    CARD_HEAD CARD_INCH
    "'pieces': [ { 'id': 'base', 'outline': [['5.1','6.8'],['0','0'],['-8.8','6.6'],['-3.7','13.4']], 'hold': "
    "['-2.8','9.6'],"
    " 'marks': [ { 'id': 's1', 'kind': 'score', 'fold': 'toward', 'line': [['-4.4','3.3'],['0.7','10.1']] },"
    " { 'id': 'p1', 'kind': 'score', 'fold': 'toward', 'line': [['-1.85','6.7'],['-6.25','10']] },"
    " { 'id': 'p2', 'kind': 'score', 'fold': 'away', 'line': [['2.55','3.4'],['-1.85','6.7']] } ] } ],"
    "'steps': [ { 'id': 'first', 'do': 'fold', 'folds': [ { 'score': 'base/s1', 'to': 180 } ] },"
    " { 'id': 'again', 'do': 'fold', 'folds': [ { 'score': 'base/p1', 'to': 180 } ] },"
    " { 'id': 'back', 'do': 'fold', 'folds': [ { 'score': 'base/p1', 'to': 0 } ] },"
    " { 'id': 'open', 'do': 'fold', 'folds': [ { 'score': 'base/s1', 'to': 0 } ] } ] }");
  static const double ends[4][4] = { { 180, 180, 0, 0 }, { 180, 180, 180, -180 }, { 180, 180, 0, 0 }, { 0 } };

  g_assert_null (card_finding (motion, CW_FINDING_CANNOT_MOVE));
  for (guint s = 0; s < 4; s++)
    {
      g_autoptr (CwMotionWork) work = cw_motion_work_new (motion);
      g_autoptr (CwPose) pose = cw_pose_new (motion);

      cw_motion_get_pose (motion, work, s, 1, pose);
      for (guint h = 0; h < 4; h++)
        g_assert_cmpfloat_with_epsilon (pose->angles_deg[h], ends[s][h], 1e-6);
    }
}

/* Designs a program could make and no file could say: nothing at all, and names that name nothing. */
static void
test_designs_of_no_file (void)
{
  g_autoptr (CwDesign) empty = cw_design_new ();
  g_autoptr (CwDesign) lost
    = card_design (CARD_HEAD CARD_INCH STRIP_PIECES
                   "'steps': [ " STICK_STRIP ", " STICK_TAG ","
                   " { 'id': 'off', 'do': 'take-away', 'piece': 'strip' },"
                   " { 'id': 'fold', 'do': 'fold', 'folds': [ { 'score': 'strip/up', 'to': 90 } ] } ] }");
  CwStep *step;

  if (empty->head == NULL)
    empty->head = cw_head_new ();
  g_ptr_array_add (empty->steps, cw_step_new ());
  step = g_ptr_array_index (empty->steps, 0);
  step->id = g_strdup ("rub");
  step->what = CW_DO_RUB;

  for (guint i = 0; i < 3; i++)
    {
      step = g_ptr_array_index (lost->steps, i);
      g_free (step->piece);
      step->piece = i == 1 ? NULL : g_strdup ("nobody");
    }
  step = g_ptr_array_index (lost->steps, 3);
  ((CwStepFold *) g_ptr_array_index (step->folds, 0))->to = NAN;

  for (int i = 0; i < 2; i++)
    {
      g_autoptr (CwPanelSet) set = cw_panel_set_new (i == 0 ? empty : lost);
      g_autoptr (CwMotion) motion = cw_motion_new (set, NULL, 0);
      g_autoptr (CwMotionWork) work = cw_motion_work_new (motion);
      g_autoptr (CwPose) pose = cw_pose_new (motion);

      for (guint k = 0; k < cw_motion_get_n_steps (motion); k++)
        cw_motion_get_pose (motion, work, k, 0.5, pose);
      cw_motion_get_start (motion, pose);
      g_assert_true ((cw_motion_get_held (motion) == G_MAXUINT) == (i == 0));
      g_assert_cmpuint (cw_motion_get_state (motion, 0)->n_bodies, ==, i == 0 ? 0 : 1);
      g_assert_cmpuint (cw_motion_get_findings (motion)->len, ==, 0);
    }
}

/* What moves nothing or asks one fold line twice. */
static void
test_odd_steps (void)
{
  g_autoptr (CwMotion) still = card_motion (
    CARD_HEAD CARD_INCH "'pieces': [ { 'id': 'base', 'outline': [['0','0'],['8','0'],['8','6'],['0','6']], 'marks': ["
                        " { 'id': 'short', 'kind': 'score', 'fold': 'toward', 'line': [['4','0'],['4','5']] } ] } ],"
                        "'steps': [ { 'id': 'fold', 'do': 'fold', 'folds': [ { 'score': 'base/short', 'to': 180 } ] },"
                        " { 'id': 'turn', 'do': 'turn-over' }, { 'id': 'rub', 'do': 'rub' } ] }");
  g_autoptr (CwPose) start = cw_pose_new (still);
  g_autoptr (CwMotion) twice = card_motion (
    CARD_HEAD CARD_INCH
    "'pieces': [ { 'id': 'base', 'outline': [['0','0'],['8','0'],['8','6'],['0','6']], 'hold': ['6','3'], 'marks': ["
    " { 'id': 'cut', 'kind': 'cut', 'line': [['4','2'],['4','4']] },"
    " { 'id': 'up', 'kind': 'score', 'fold': 'toward', 'line': [['4','0'],['4','2']] },"
    " { 'id': 'down', 'kind': 'score', 'fold': 'toward', 'line': [['4','4'],['4','6']] } ] } ],"
    "'steps': [ { 'id': 'same', 'do': 'fold', 'folds': [ { 'score': 'base/up', 'to': 90 }, { 'score': 'base/down', "
    "'to': 90 } ] },"
    " { 'id': 'differ', 'do': 'fold', 'folds': [ { 'score': 'base/up', 'to': 180 }, { 'score': 'base/down', 'to': 0 } "
    "] } ] }");
  g_autoptr (CwPose) differ = card_pose (twice, "differ", 1);
  const CwFinding *finding = card_finding (twice, CW_FINDING_CANNOT_MOVE);

  /* A score that ends short makes no fold line: the step moves nothing and motion is silent (the panels tell). */
  g_assert_cmpfloat_with_epsilon (card_state (still, "fold")->reached, 1, 1e-12);
  g_assert_cmpuint (cw_motion_get_findings (still)->len, ==, 0);
  g_assert_false (cw_motion_step_moves (still, 0, 0));
  cw_motion_get_start (still, start);
  g_assert_true (start->present[0]);

  /* Two scores of one line make one fold line; they may agree, and only one of two that differ can be had. */
  g_assert_nonnull (finding);
  g_assert_cmpstr (finding->step, ==, "differ");
  g_assert_cmpuint (cw_motion_get_findings (twice)->len, ==, 1);
  g_assert_cmpfloat_with_epsilon (differ->angles_deg[0], 180, 1e-9);
}

/* kernel.md section 4: no allocation per frame. A box is tried, because its loop has to be closed at every look. */
static void
test_pose_allocates_nothing (void)
{
#ifdef SANITIZED
  g_test_skip ("a sanitizer counts the allocations here");
#else
  g_autoptr (CwMotion) motion = card_motion (
    CARD_HEAD CARD_INCH
    "'pieces': [ { 'id': 'base', 'outline': [['0','0'],['8','0'],['8','4'],['0','4']], 'hold': ['7','1/2'], 'marks': ["
    " { 'id': 'spine', 'kind': 'score', 'fold': 'toward', 'line': [['4','0'],['4','1']] },"
    " { 'id': 'spine2', 'kind': 'score', 'fold': 'toward', 'line': [['4','3'],['4','4']] },"
    " { 'id': 's1', 'kind': 'cut', 'line': [['3','1'],['6','1']] },"
    " { 'id': 's2', 'kind': 'cut', 'line': [['3','3'],['6','3']] },"
    " { 'id': 'a', 'kind': 'score', 'fold': 'toward', 'line': [['3','1'],['3','3']] },"
    " { 'id': 'ridge', 'kind': 'score', 'fold': 'away', 'line': [['5','1'],['5','3']] },"
    " { 'id': 'b', 'kind': 'score', 'fold': 'toward', 'line': [['6','1'],['6','3']] } ] } ],"
    "'steps': [ { 'id': 'close', 'do': 'fold', 'folds': [ { 'score': 'base/spine', 'to': 180 } ] },"
    " { 'id': 'open', 'do': 'fold', 'folds': [ { 'score': 'base/spine', 'to': 0 } ] } ] }");
  g_autoptr (CwMotionWork) work = cw_motion_work_new (motion);
  g_autoptr (CwPose) pose = cw_pose_new (motion);
  guint before;

  g_assert_cmpuint (card_state (motion, "close")->n_loops, ==, 1);
  cw_motion_get_pose (motion, work, 0, 0.5, pose);
  before = n_allocations;
  for (int i = 0; i < 100; i++)
    cw_motion_get_pose (motion, work, i % 2, i / 99.0, pose);
  g_assert_cmpuint (n_allocations, ==, before);
#endif
}

/* A point that is not the same on both sides: closing turns one fold line right round, through its own paper (told by
 * the room `contact`). What has been folded can be unfolded all the same, all the way or part of it: kinematics knows
 * no direction of time. */
static void
test_undone (void)
{
  g_autoptr (CwMotion) motion = card_motion (
    CARD_HEAD CARD_INCH
    "'pieces': [ { 'id': 'base', 'outline': [['0','0'],['10','0'],['10','7'],['0','7']], 'hold': ['9','6'], 'marks': ["
    " { 'id': 'slit', 'kind': 'cut', 'line': [['3 1/8','3'],['7 7/16','3']] },"
    " { 'id': 'foot', 'kind': 'score', 'fold': 'toward', 'line': [['5','4 7/16'],['5','7']] },"
    " { 'id': 'top', 'kind': 'score', 'fold': 'toward', 'line': [['5','0'],['5','3']] },"
    " { 'id': 'ridge', 'kind': 'score', 'fold': 'away', 'line': [['5','3'],['5','4 7/16']] },"
    " { 'id': 'left', 'kind': 'score', 'fold': 'toward', 'line': [['3 1/8','3'],['5','4 7/16']] },"
    " { 'id': 'right', 'kind': 'score', 'fold': 'toward', 'line': [['7 7/16','3'],['5','4 7/16']] } ] } ],"
    "'steps': [ { 'id': 'close', 'do': 'fold', 'folds': [ { 'score': 'base/foot', 'to': 180 } ] },"
    " { 'id': 'ajar', 'do': 'fold', 'folds': [ { 'score': 'base/foot', 'to': 45 } ] },"
    " { 'id': 'open', 'do': 'fold', 'folds': [ { 'score': 'base/foot', 'to': 0 } ] } ] }");
  g_autoptr (CwPose) ajar = card_pose (motion, "ajar", 1);
  g_autoptr (CwPose) before = card_pose (motion, "close", 0.25);
  g_autoptr (CwPose) open = card_pose (motion, "open", 1);

  for (guint i = 0; i < 3; i++)
    g_assert_cmpfloat_with_epsilon (cw_motion_get_state (motion, i)->reached, 1, 1e-12);
  for (guint i = 0; i < ajar->n_hinges; i++)
    {
      g_assert_cmpfloat_with_epsilon (ajar->angles_deg[i], before->angles_deg[i], 1e-6);
      g_assert_cmpfloat_with_epsilon (open->angles_deg[i], 0, 1e-9);
    }
  for (guint i = 0; i < cw_motion_get_findings (motion)->len; i++)
    g_assert_cmpint (((const CwFinding *) g_ptr_array_index (cw_motion_get_findings (motion), i))->code, !=,
                     CW_FINDING_CANNOT_MOVE);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/fold/motion/half-fold", test_half_fold);
  g_test_add_func ("/fold/motion/to-counts-in-the-score's-own-direction", test_directions);
  g_test_add_func ("/fold/motion/gate-folds-move-together", test_gate);
  g_test_add_func ("/fold/motion/z-fold", test_z_fold);
  g_test_add_func ("/fold/motion/stick-lands-where-the-model-says", test_stick_placement);
  g_test_add_func ("/fold/motion/example-of-the-model-page", test_model_example);
  g_test_add_func ("/fold/motion/sub-assembly-joins-as-it-is-folded", test_sub_assembly);
  g_test_add_func ("/fold/motion/take-away-and-stick-again", test_take_away);
  g_test_add_func ("/fold/motion/stuck-on-what-it-carries", test_stuck_on_what_it_carries);
  g_test_add_func ("/fold/motion/strip-across-held-at-both-ends", test_bridge);
  g_test_add_func ("/fold/motion/folded-again-aslant", test_fold_again_aslant);
  g_test_add_func ("/fold/motion/designs-of-no-file", test_designs_of_no_file);
  g_test_add_func ("/fold/motion/odd-steps", test_odd_steps);
  g_test_add_func ("/fold/motion/a-pose-allocates-nothing", test_pose_allocates_nothing);
  g_test_add_func ("/fold/motion/what-was-folded-can-be-unfolded", test_undone);
  return g_test_run ();
}
