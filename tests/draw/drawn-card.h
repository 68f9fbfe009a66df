/* drawn-card.h: the cards that the drawing tests look at, of our own invention and measures.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "card-fixture.h"
#include "check/cw-analysis.h"
#include "cw-draw-list.h"

#define DRAWN_PAPERS                                                                                                   \
  "'papers': [ { 'id': 'oat', 'name': 'Oat card', 'front': '#efe6d0', 'back': '#d8cbb0' },"                            \
  " { 'id': 'rain', 'name': 'Rain paper', 'front': '#8fb0a9', 'back': '#f6f4ee', 'patterned': true } ], "

/* A half-fold, 10 x 7 in, spine at 5 in; the right half stays still. A layer 3 x 4 in lies on it: on the front at
 * (6, 1), so it covers 6..9 by 1..5. Then the card closes. WAY and FACE are filled in. */
#define DRAWN_HALF(way, face, facing)                                                                                  \
  CARD_HEAD CARD_INCH DRAWN_PAPERS                                                                                     \
    "'pieces': [ { 'id': 'base', 'paper': 'oat', 'ground': true,"                                                      \
    "  'outline': [['0 in','0 in'],['10 in','0 in'],['10 in','7 in'],['0 in','7 in']], 'hold': ['9 3/4 in','6 in'],"   \
    "  'marks': [ { 'id': 'spine', 'kind': 'score', 'fold': '" way "',"                                                \
    "    'line': [['5 in','0 in'],['5 in','7 in']] } ],"                                                               \
    "  'names': [ { 'name': 'left', 'at': ['1 in','6 in'] }, { 'name': 'right', 'at': ['9 in','6 in'] } ] },"          \
    " { 'id': 'layer', 'paper': 'rain', 'outline': [['0 in','0 in'],['3 in','0 in'],['3 in','4 in'],['0 in','4 in']]," \
    "  'marks': [], 'art': [ { 'id': 'wish', 'face': 'front', 'label': 'Harbour', 'box': [['1/2 in','1 in'],"          \
    "  ['2 1/2 in','2 in']], 'up': 0 } ] } ],"                                                                         \
    "'glue': [ { 'id': 'g', 'piece': 'layer', 'face': 'back', 'kind': 'tape', 'area': [['1/4 in','1/4 in'],"           \
    "  ['2 3/4 in','1/4 in'],['2 3/4 in','1 in'],['1/4 in','1 in']], 'holds': { 'piece': 'base' } } ],"                \
    "'steps': [ { 'id': 'stick', 'do': 'stick', 'piece': 'layer', 'on': { 'piece': 'base', 'panel': ['9 in','6 in'],"  \
    "  'face': '" face "' }, 'facing': '" facing "', 'at': ['6 in','1 in'] },"                                         \
    " { 'id': 'close', 'do': 'fold', 'rest': 'closed', 'folds': [ { 'score': 'base/spine', 'to': 180 } ] },"           \
    " { 'id': 'open', 'do': 'fold', 'phase': 'using', 'folds': [ { 'score': 'base/spine', 'to': 0 } ] } ] }"

/* One box across the spine of a 10 x 6 in card: cut from 2 to 4 in down; hinges at 5 - 2 and 5 + 1 in, ridge at 4 in.
 * At a right angle the tread lies 2 in before the still half, from 5 to 6 in (parallelogram: each side as long as the
 * page stretch it stands on). */
#define DRAWN_BOX                                                                                                      \
  CARD_HEAD CARD_INCH DRAWN_PAPERS                                                                                     \
    "'pieces': [ { 'id': 'base', 'paper': 'oat', 'ground': true,"                                                      \
    "  'outline': [['0 in','0 in'],['10 in','0 in'],['10 in','6 in'],['0 in','6 in']], 'hold': ['9 in','5 in'],"       \
    "  'marks': [ { 'id': 'g1', 'kind': 'score', 'fold': 'toward', 'line': [['5 in','0 in'],['5 in','2 in']] },"       \
    "   { 'id': 'g2', 'kind': 'score', 'fold': 'toward', 'line': [['5 in','4 in'],['5 in','6 in']] },"                 \
    "   { 'id': 's1', 'kind': 'cut', 'line': [['3 in','2 in'],['6 in','2 in']] },"                                     \
    "   { 'id': 's2', 'kind': 'cut', 'line': [['3 in','4 in'],['6 in','4 in']] },"                                     \
    "   { 'id': 'a', 'kind': 'score', 'fold': 'toward', 'line': [['3 in','2 in'],['3 in','4 in']] },"                  \
    "   { 'id': 'ridge', 'kind': 'score', 'fold': 'away', 'line': [['4 in','2 in'],['4 in','4 in']] },"                \
    "   { 'id': 'b', 'kind': 'score', 'fold': 'toward', 'line': [['6 in','2 in'],['6 in','4 in']] } ],"                \
    "  'names': [ { 'name': 'cover', 'at': ['1 in','5 in'] }, { 'name': 'floor', 'at': ['9 in','5 in'] },"             \
    "   { 'name': 'tread', 'at': ['3 1/2 in','3 in'] }, { 'name': 'riser', 'at': ['5 1/4 in','3 in'] } ] } ],"         \
    "'glue': [], 'steps': [ { 'id': 'close', 'do': 'fold', 'rest': 'closed', 'folds': [ { 'score': 'base/g1',"         \
    "  'to': 180 } ] } ] }"

/* A sheet with every kind of mark, in millimetres: a round window, a cornered slit, an arc-ended slit, three ways of
 * scores. */
#define DRAWN_MARKS                                                                                                    \
  CARD_HEAD CARD_MM DRAWN_PAPERS                                                                                       \
    "'pieces': [ { 'id': 'base', 'name': 'Strip', 'paper': 'oat', 'ground': true,"                                     \
    "  'outline': [['0 mm','0 mm'],['200 mm','0 mm'],['200 mm','100 mm'],['0 mm','100 mm']],"                          \
    "  'marks': [ { 'id': 'in', 'kind': 'score', 'fold': 'toward', 'line': [['60 mm','0 mm'],['60 mm','100 mm']] },"   \
    "   { 'id': 'out', 'kind': 'score', 'fold': 'away', 'line': [['130 mm','0 mm'],['130 mm','100 mm']] },"            \
    "   { 'id': 'not', 'kind': 'score', 'fold': 'none', 'line': [['130 mm','80 mm'],['200 mm','80 mm']] },"            \
    "   { 'id': 'port', 'kind': 'window', 'circle': { 'centre': ['30 mm','30 mm'], 'radius': '15 mm' } },"             \
    "   { 'id': 'slit', 'kind': 'cut', 'line': [['80 mm','20 mm'],['110 mm','20 mm'],['110 mm','50 mm']] },"           \
    "   { 'id': 'bow', 'kind': 'cut', 'line': [['145 mm','60 mm'],{ 'through': ['165 mm','40 mm'] },"                  \
    "     ['185 mm','60 mm']] } ],"                                                                                    \
    "  'names': [ { 'name': 'porthole', 'at': ['30 mm','80 mm'] } ],"                                                  \
    "  'art': [ { 'id': 'a', 'face': 'front', 'label': 'Sail', 'box': [['70 mm','60 mm'],['120 mm','90 mm']],"         \
    "    'up': 90 } ] } ],"                                                                                            \
    "'glue': [], 'steps': [ { 'id': 'f', 'do': 'fold', 'folds': [ { 'score': 'base/in', 'to': 180 } ] } ] }"

static inline CwAnalysis *
drawn_card (const char *text)
{
  g_autoptr (CwDesign) design = card_design (text);

  return cw_analysis_new (design);
}

/* The list against the one that was looked at and accepted; CREASEWRIGHT_ACCEPT=1 accepts what is drawn now. */
static inline void
drawn_golden (const CwDrawList *list, const char *name)
{
  g_autofree char *file = g_strconcat (name, ".txt", NULL);
  g_autofree char *path = g_test_build_filename (G_TEST_DIST, "draw", "golden", file, NULL);
  g_autofree char *text = cw_draw_list_to_text (list), *known = NULL;

  if (g_getenv ("CREASEWRIGHT_ACCEPT") != NULL)
    g_assert_true (g_file_set_contents (path, text, -1, NULL));
  g_assert_true (g_file_get_contents (path, &known, NULL, NULL));
  g_auto (GStrv) now = g_strsplit (text, "\n", -1);
  g_auto (GStrv) then = g_strsplit (known, "\n", -1);
  for (guint i = 0; now[i] != NULL && then[i] != NULL; i++)
    g_assert_cmpstr (now[i], ==, then[i]);
  g_assert_cmpuint (g_strv_length (now), ==, g_strv_length (then));
}
