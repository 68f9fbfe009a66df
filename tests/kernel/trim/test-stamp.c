/* test-stamp.c: where greetings and pictures go on the flat piece.
 *
 * Expected measures are worked out by hand from the design; a piece turned over like a page keeps its top and changes
 * left and right (model, "Axes"). Which repeated stampings there are: the model's "prints"; their reading is ours.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "card-fixture.h"
#include "trim/cw-stamp.h"

#define PIECE(art)                                                                                                     \
  CARD_HEAD CARD_INCH "'papers': [ { 'id': 'p' } ], 'pieces': [ { 'id': 'base', 'paper': 'p', 'outline': "             \
                      "[['1','2'],['9','2'],['9','7'],['1','7']], 'marks': ["                                          \
                      "{ 'id': 'spine', 'kind': 'score', 'line': [['5','2'],['5','7']] },"                             \
                      "{ 'id': 'slant', 'kind': 'cut', 'line': [['1','2'],['3','4']] },"                               \
                      "{ 'id': 'hole', 'kind': 'window', 'circle': { 'centre': ['8','6'], 'radius': '1/4' } } ],"      \
                      "'art': [ { 'id': 'a', " art " } ] } ], 'steps': [] }"

static void
check_inch (CwLength length, double inches)
{
  g_assert_cmpint (length.ticks, ==, (gint32) (inches * CW_TICKS_PER_INCH));
}

static void
test_measures (void)
{
  g_autoptr (CwDesign) front = card_design (PIECE ("'box': [['2','3'],['4 1/2','4']], 'up': -90"));
  g_autoptr (CwDesign) back = card_design (PIECE ("'face': 'back', 'box': [['4 1/2','4'],['2','3']], 'up': -180"));
  g_autoptr (GPtrArray) stamps = cw_stamps_find (front), turned = cw_stamps_find (back);
  const CwStamp *one, *two;

  g_assert_cmpuint (stamps->len, ==, 1);
  g_assert_cmpuint (turned->len, ==, 1);
  one = g_ptr_array_index (stamps, 0);
  two = g_ptr_array_index (turned, 0);
  /* The piece's box is 8 in by 5 in, from 1, 2 on. */
  check_inch (one->left, 1);
  check_inch (one->top, 1);
  check_inch (one->width, 2.5);
  check_inch (one->height, 1);
  g_assert_cmpfloat_with_epsilon (one->up, 270, 1e-9);
  /* From behind its right side, at 4 1/2, is the left one: 9 - 4 1/2 from the edge. */
  check_inch (two->left, 4.5);
  check_inch (two->top, 1);
  check_inch (two->width, 2.5);
  g_assert_cmpfloat_with_epsilon (two->up, 180, 1e-9);
  g_assert_cmpint (two->face, ==, CW_FACE_BACK);
}

static void
check_over (const char *box, const char *names)
{
  g_autofree char *json = g_strdup_printf ("'box': %s", box);
  g_autofree char *whole = g_strconcat (PIECE ("@"), NULL);
  g_auto (GStrv) parts = g_strsplit (whole, "@", 2);
  g_autofree char *text = g_strjoinv (json, parts);
  g_autoptr (CwDesign) design = card_design (text);
  g_autoptr (GPtrArray) stamps = cw_stamps_find (design);
  const CwStamp *stamp = g_ptr_array_index (stamps, 0);
  g_autoptr (GString) found = g_string_new (NULL);
  const CwPiece *piece = g_ptr_array_index (design->pieces, 0);

  for (guint i = 0; i < stamp->over->len; i++)
    g_string_append_printf (
      found, "%s ", ((const CwMark *) g_ptr_array_index (piece->marks, g_array_index (stamp->over, guint, i)))->id);
  g_assert_cmpstr (found->str, ==, names);
}

static void
test_over (void)
{
  check_over ("[['4','3'],['6','4']]", "spine ");
  check_over ("[['3','5'],['5','6']]", ""); /* only touches */
  check_over ("[['1 1/2','2 1/4'],['2 1/2','3 1/4']]", "slant ");
  check_over ("[['2','5'],['8','6']]", "spine hole ");
  check_over ("[['3','3'],['4','4']]", "");
}

static void
test_prints (void)
{
  g_autoptr (CwDesign) design
    = card_design (PIECE ("'face': 'back', 'box': [['2','3'],['4','4']], 'wait': 'an hour', 'heat': true, 'prints': ["
                          "{ 'place': ['3','3 1/2'], 'print': 'first', 'stamp_off': true }, { 'place': 'beside it', "
                          "'print': 2, 'mask': true },"
                          "'as you like', { 'print': 'often', 'mask': 'no' }, 7 ]"));
  g_autoptr (GPtrArray) stamps = cw_stamps_find (design);
  const CwStamp *stamp = g_ptr_array_index (stamps, 0);
  const CwPrint *print;

  g_assert_cmpstr (stamp->wait, ==, "an hour");
  g_assert_true (stamp->heat);
  g_assert_cmpuint (stamp->prints->len, ==, 5);
  print = g_ptr_array_index (stamp->prints, 0);
  g_assert_cmpuint (print->print, ==, 1);
  g_assert_true (print->has_middle && print->stamp_off && !print->mask);
  check_inch (print->left, 6);
  check_inch (print->top, 1.5);
  print = g_ptr_array_index (stamp->prints, 1);
  g_assert_cmpuint (print->print, ==, 2);
  g_assert_cmpstr (print->place, ==, "beside it");
  g_assert_true (print->mask && !print->has_middle && !print->stamp_off);
  print = g_ptr_array_index (stamp->prints, 2);
  g_assert_cmpstr (print->words, ==, "as you like");
  /* What is not understood is left out, not guessed. */
  print = g_ptr_array_index (stamp->prints, 3);
  g_assert_cmpuint (print->print, ==, 0);
  g_assert_false (print->mask);
  print = g_ptr_array_index (stamp->prints, 4);
  g_assert_null (print->words);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/trim/stamp/measures-as-the-piece-lies", test_measures);
  g_test_add_func ("/trim/stamp/lines-that-run-through", test_over);
  g_test_add_func ("/trim/stamp/repeated-stampings", test_prints);
  return g_test_run ();
}
