/* test-safe-area.c: where glue may lie, against facts of the trade and areas worked out by hand.
 *
 * Facts of the trade (common practice, no source): on a corner that flips, glue under a square laid over it may lie
 * only where the square rests on the flipped corner; on a never-ending ring only the four corner squares are glued; the
 * front of an easel only on the lower half of the bent leaf. The rest is elementary geometry.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "glue/cw-safe-area.h"

#include "card-fixture.h"

#include <math.h>

#define SQ_IN (2.0 * CW_TICKS_PER_INCH * CW_TICKS_PER_INCH)
#define IN(n) ((gint32) ((n) *64) * 127) /* n in whole 64ths of an inch */
#define IN_16 (CW_TICKS_PER_INCH / 16)
/* What a tick to either side makes of an outline of 40 in: square inches. */
#define ROUNDED (40.0 / CW_TICKS_PER_INCH)

static double
sq_in (const CwRegion *region)
{
  return (double) cw_region_area2 (region) / SQ_IN;
}

/* A host for every name, the panel at x, y of the piece. */
typedef struct
{
  const char *piece;
  double x, y;
} At;

/* From the step named `first` to the one named `last` (NULL: the last there is). No hosts: whatever stays. */
static CwSafeArea
find_with (CwMotion *motion, At own, CwFace face, const At *hosts, guint n_hosts, const char *first, const char *last,
           gint32 creep, gint32 hand)
{
  g_autoptr (CwFlatStates) states = cw_flat_states_new (motion);
  const CwPanelSet *set = cw_motion_get_set (motion);
  g_autofree gboolean *is_host = g_new0 (gboolean, cw_panel_set_n_panels (set));
  CwSafeAsk ask = { .panel = card_panel (motion, own.piece, own.x, own.y),
                    .face = face,
                    .first = cw_design_find_step (set->design, first),
                    .last = last ? cw_design_find_step (set->design, last) : G_MAXUINT - 1,
                    .hosts = n_hosts > 0 ? is_host : NULL,
                    .creep = creep,
                    .hand = hand };

  for (guint i = 0; i < n_hosts; i++)
    is_host[card_panel (motion, hosts[i].piece, hosts[i].x, hosts[i].y)] = TRUE;
  return cw_safe_area_find (states, &ask);
}

#define assert_areas(area, safe_is, near_is, never_is, within)                                                         \
  G_STMT_START                                                                                                         \
  {                                                                                                                    \
    CwSafeArea _area = (area);                                                                                         \
    g_assert_cmpfloat_with_epsilon (sq_in (&_area.safe), safe_is, within);                                             \
    g_assert_cmpfloat_with_epsilon (sq_in (&_area.near), near_is, within);                                             \
    g_assert_cmpfloat_with_epsilon (sq_in (&_area.never), never_is, within);                                           \
    cw_safe_area_clear (&_area);                                                                                       \
  }                                                                                                                    \
  G_STMT_END

/* A card 12 x 6; a corner with legs of 3 flips out of its left leaf and a square of 3 is laid over it and the opening
 * it leaves. */
#define CORNER                                                                                                         \
  CARD_HEAD CARD_INCH                                                                                                  \
    "'pieces': [ { 'id': 'base', 'outline': [['0 in','0 in'],['12 in','0 in'],['12 in','6 in'],['0 in','6 in']],"      \
    " 'hold': ['9 in','3 in'], 'marks': ["                                                                             \
    " { 'id': 'spine', 'kind': 'score', 'fold': 'toward', 'line': [['6 in','0 in'],['6 in','6 in']] },"                \
    " { 'id': 'slit', 'kind': 'cut', 'line': [['1 in','4 in'],['4 in','4 in'],['4 in','1 in']] },"                     \
    " { 'id': 'flip', 'kind': 'score', 'fold': 'away', 'line': [['1 in','4 in'],['4 in','1 in']] } ] },"               \
    " { 'id': 'tile', 'outline': [['0 in','0 in'],['3 in','0 in'],['3 in','3 in'],['0 in','3 in']], 'marks': [] } ],"  \
    " 'steps': [ { 'id': 'flip', 'do': 'fold', 'folds': [ { 'score': 'base/flip', 'to': 180 } ] },"                    \
    " { 'id': 'stick', 'do': 'stick', 'piece': 'tile', 'on': { 'piece': 'base', 'panel': ['3 1/2 in','3 1/2 in'],"     \
    " 'face': 'front' }, 'facing': 'back', 'at': ['4 in','1 in'], 'turn': 90 },"                                       \
    " { 'id': 'close', 'do': 'fold', 'rest': 'closed', 'folds': [ { 'score': 'base/spine', 'to': 180 } ] },"           \
    " { 'id': 'open', 'do': 'fold', 'rest': 'open', 'folds': [ { 'score': 'base/spine', 'to': 0 } ] } ] }"

static void
test_corner_flip (void)
{
  static const At tile = { "tile", 1.5, 1.5 }, flap = { "base", 3.5, 3.5 };
  g_autoptr (CwMotion) motion = card_motion (CORNER);
  double half = 4.5, hand = 1 / 16.0, creep = 1 / 8.0, leg;

  /* Resting on the corner: half of it. Through the opening it meets the other leaf when the card closes. */
  assert_areas (find_with (motion, tile, CW_FACE_BACK, &flap, 1, "stick", NULL, 0, 0), half, 0, half, 1e-6);
  /* Open, nothing lies behind the opening yet: that it must stay free of glue only closing the card tells. */
  assert_areas (find_with (motion, tile, CW_FACE_BACK, &flap, 1, "stick", "stick", 0, 0), half, 0, 0, 1e-6);
  /* A hand that misses moves the edge along the crease only: the legs are shorter by hand x sqrt 2. */
  leg = 3 - hand * sqrt (2);
  assert_areas (find_with (motion, tile, CW_FACE_BACK, &flap, 1, "stick", NULL, 0, IN_16), leg * leg / 2,
                half - leg * leg / 2, half, ROUNDED);
  /* Wet glue creeps at every edge: a triangle's inner parallel; its legs shrink by creep (2 + sqrt 2). */
  leg = 3 - creep * (2 + sqrt (2)) - hand * sqrt (2);
  assert_areas (find_with (motion, tile, CW_FACE_BACK, &flap, 1, "stick", NULL, 2 * IN_16, IN_16), leg * leg / 2,
                half - leg * leg / 2, half, ROUNDED);
}

/* A leaf folded over and bent back at its middle; a front as large as the card is laid on its outer half, the other
 * half of the front hangs free before the back leaf. */
#define EASEL                                                                                                          \
  CARD_HEAD CARD_INCH                                                                                                  \
    "'pieces': [ { 'id': 'base', 'outline': [['0 in','0 in'],['12 in','0 in'],['12 in','5 in'],['0 in','5 in']],"      \
    " 'hold': ['9 in','3 in'], 'marks': ["                                                                             \
    " { 'id': 'spine', 'kind': 'score', 'fold': 'toward', 'line': [['6 in','0 in'],['6 in','5 in']] },"                \
    " { 'id': 'bend', 'kind': 'score', 'fold': 'away', 'line': [['3 in','0 in'],['3 in','5 in']] } ] },"               \
    " { 'id': 'front', 'outline': [['0 in','0 in'],['6 in','0 in'],['6 in','5 in'],['0 in','5 in']], 'marks': [] } ]," \
    " 'steps': [ { 'id': 'fold', 'do': 'fold', 'folds': [ { 'score': 'base/bend', 'to': 180 },"                        \
    "   { 'score': 'base/spine', 'to': 180 } ] },"                                                                     \
    " { 'id': 'stick', 'do': 'stick', 'piece': 'front', 'on': { 'piece': 'base', 'panel': ['1 in','1 in'],"            \
    " 'face': 'front' }, 'facing': 'back', 'at': ['0 in','0 in'] },"                                                   \
    " { 'id': 'stand', 'do': 'fold', 'rest': 'standing', 'folds': [ { 'score': 'base/bend', 'to': 120 },"              \
    "   { 'score': 'base/spine', 'to': 150 } ] },"                                                                     \
    " { 'id': 'lay', 'do': 'fold', 'rest': 'closed', 'folds': [ { 'score': 'base/bend', 'to': 180 },"                  \
    "   { 'score': 'base/spine', 'to': 180 } ] } ] }"

static void
test_easel (void)
{
  static const At front = { "front", 3, 2 }, leaf = { "base", 1, 1 };
  g_autoptr (CwMotion) motion = card_motion (EASEL);
  CwSafeArea area = find_with (motion, front, CW_FACE_BACK, &leaf, 1, "stick", NULL, 0, 0);
  CwPoint low, high;

  g_assert_cmpuint (area.safe.n_polygons, ==, 1);
  cw_polygon_bounds (&area.safe.polygons[0], &low, &high);
  g_assert_cmpint (low.x, ==, 0);
  g_assert_cmpint (high.x, ==, IN (3));
  /* The half of the front over the bent leaf: 3 x 5; the other half meets the back leaf. */
  assert_areas (area, 15, 0, 15, 1e-6);
}

/* A step across the spine: cut at 1 1/2 and 4 3/4 from 3 to 5 3/4, so the cover has a bite of 1 1/2 x 3 1/4. A mat is
 * laid on the outside of the closed card, over the bite as well. */
#define STEP                                                                                                           \
  CARD_HEAD CARD_INCH                                                                                                  \
    "'pieces': [ { 'id': 'base', 'outline': [['0 in','0 in'],['9 in','0 in'],['9 in','6 in'],['0 in','6 in']],"        \
    " 'hold': ['8 1/2 in','5 1/2 in'], 'marks': ["                                                                     \
    " { 'id': 'head', 'kind': 'score', 'fold': 'toward', 'line': [['4 1/2 in','0 in'],['4 1/2 in','1 1/2 in']] },"     \
    " { 'id': 'tail', 'kind': 'score', 'fold': 'toward', 'line': [['4 1/2 in','4 3/4 in'],['4 1/2 in','6 in']] },"     \
    " { 'id': 'upper', 'kind': 'cut', 'line': [['3 in','1 1/2 in'],['5 3/4 in','1 1/2 in']] },"                        \
    " { 'id': 'lower', 'kind': 'cut', 'line': [['3 in','4 3/4 in'],['5 3/4 in','4 3/4 in']] },"                        \
    " { 'id': 'wall', 'kind': 'score', 'fold': 'toward', 'line': [['3 in','1 1/2 in'],['3 in','4 3/4 in']] },"         \
    " { 'id': 'edge', 'kind': 'score', 'fold': 'away', 'line': [['4 1/4 in','1 1/2 in'],['4 1/4 in','4 3/4 in']] },"   \
    " { 'id': 'foot', 'kind': 'score', 'fold': 'toward', 'line': [['5 3/4 in','1 1/2 in'],['5 3/4 in','4 3/4 in']] }"  \
    " ] }, { 'id': 'mat', 'outline': [['0 in','0 in'],['4 in','0 in'],['4 in','5 in'],['0 in','5 in']], 'marks': [] }" \
    " ], 'steps': ["                                                                                                   \
    " { 'id': 'close', 'do': 'fold', 'rest': 'closed', 'folds': [ { 'score': 'base/head', 'to': 180 } ] },"            \
    " { 'id': 'stick', 'do': 'stick', 'piece': 'mat', 'on': { 'piece': 'base', 'panel': ['1 in','1 in'],"              \
    " 'face': 'back' }, 'facing': 'back', 'at': ['4 1/4 in','1/2 in'] },"                                              \
    " { 'id': 'stand', 'do': 'fold', 'rest': 'standing', 'folds': [ { 'score': 'base/head', 'to': 90 } ] },"           \
    " { 'id': 'open', 'do': 'fold', 'rest': 'open', 'folds': [ { 'score': 'base/head', 'to': 0 } ] } ] }"

static void
test_every_rest_state (void)
{
  static const At mat = { "mat", 1, 1 }, cover = { "base", 1, 1 };
  g_autoptr (CwMotion) motion = card_motion (STEP);
  /* The mat lies over 1/4 .. 4 1/4 by 1/2 .. 5 1/2, the bite over 3 .. 4 1/2 by 1 1/2 .. 4 3/4. */
  double over = 1.25 * 3.25;

  /* Closed, of the bite the quarter inch next to the wall (3 to 3 1/4; folded over 5 3/4 to 6) lies before the inside
   * back; the rest looks through both leaves. */
  assert_areas (find_with (motion, mat, CW_FACE_BACK, &cover, 1, "stick", "stick", 0, 0), 20 - over, 0, 0.25 * 3.25,
                1e-6);
  /* Open, the step lies in the bite: all of it is never. */
  assert_areas (find_with (motion, mat, CW_FACE_BACK, &cover, 1, "stick", NULL, 0, 0), 20 - over, 0, over, 1e-6);
  /* A hand that misses keeps 1/16 away from the bite's three sides under the mat, not from the mat's own edge. */
  assert_areas (find_with (motion, mat, CW_FACE_BACK, &cover, 1, "stick", NULL, 0, IN_16),
                20 - (1.25 + 1 / 16.0) * (3.25 + 1 / 8.0), (1.25 + 1 / 16.0) * (3.25 + 1 / 8.0) - over, over, 1e-6);
}

/* Without anything named: what stays with the face from when they first meet; what leaves again is never. */
static void
test_whatever_stays (void)
{
  static const At mat = { "mat", 1, 1 }, cover = { "base", 1, 1 }, back = { "base", 8, 1 };
  g_autoptr (CwMotion) motion = card_motion (STEP);

  assert_areas (find_with (motion, cover, CW_FACE_BACK, NULL, 0, "close", NULL, 0, 0), 20 - 1.25 * 3.25, 0, 0, 1e-6);
  assert_areas (find_with (motion, mat, CW_FACE_FRONT, NULL, 0, "stick", NULL, 0, 0), 0, 0, 0, 1e-6);
  /* Inside, the leaves part again: but for their bites all of both is never. The right leaf's is 1 1/4 wide, so from
   * 4 1/2 to 5 3/4; the step lies before it from there to its edge at 7, so it meets paper wherever it is paper. */
  assert_areas (find_with (motion, back, CW_FACE_FRONT, NULL, 0, "close", NULL, 0, 0), 0, 0, 4.5 * 6 - 1.25 * 3.25,
                1e-6);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/glue/safe-area/corner-that-flips", test_corner_flip);
  g_test_add_func ("/glue/safe-area/easel", test_easel);
  g_test_add_func ("/glue/safe-area/every-rest-state", test_every_rest_state);
  g_test_add_func ("/glue/safe-area/whatever-stays", test_whatever_stays);
  return g_test_run ();
}
