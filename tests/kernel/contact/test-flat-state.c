/* test-flat-state.c: cells, orders of layers and thickness of cards worked by hand.
 *
 * Orders follow from which panel is turned over which, one fold after another, as anyone can do with a strip of paper;
 * areas are plane geometry. No source beyond that.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "flat-fixture.h"

#define PAPER "'papers': [ { 'id': 'p', 'caliper': '0.25 mm' } ],"

static void
test_half_fold (void)
{
  static const struct
  {
    const char *way, *stack;
  } cases[] = { { "toward", "base0b base1f" }, { "away", "base1f base0b" } };

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autofree char *text = g_strdup_printf (
        CARD_HEAD CARD_INCH PAPER
        "'pieces': [ { 'id': 'base', 'paper': 'p', 'outline': [['0','0'],['8','0'],['8','6'],['0','6']],"
        " 'hold': ['6','3'], 'marks': [ { 'id': 's', 'kind': 'score', 'fold': '%s', 'line': [['4','0'],['4','6']] } ]"
        " } ], 'steps': [ { 'id': 'close', 'do': 'fold', 'folds': [ { 'score': 'base/s', 'to': 180 } ] },"
        "                 { 'id': 'open', 'do': 'fold', 'folds': [ { 'score': 'base/s', 'to': 0 } ] } ] }",
        cases[i].way);
      g_autoptr (CwFlatStates) states = flat_states (text);
      const CwFlatState *shut = flat_state (states, "close"), *open = flat_state (states, "open");

      flat_assert_stack (states, "close", 5, 1, cases[i].stack);
      g_assert_cmpuint (shut->cells->len, ==, 1);
      g_assert_cmpint (g_array_index (shut->cells, CwCell, 0).area2, ==, 2ll * 4 * 6 * 8128 * 8128);
      /* 0.25 mm is 80 ticks of 1/320 mm. */
      g_assert_cmpfloat_with_epsilon (shut->thickness, 160, 1e-9);
      g_assert_cmpint (shut->box[0], ==, 4 * 8128);
      g_assert_cmpint (shut->box[2], ==, 8 * 8128);
      g_assert_cmpuint (open->cells->len, ==, 2);
      g_assert_cmpfloat_with_epsilon (open->thickness, 80, 1e-9);
      flat_assert_stack (states, "open", 5, 1, "base1f");
      flat_assert_stack (states, "open", 1, 1, "base0f");
    }
}

/* Three panels A B C of 3, 3 and 3 inches (A held), both folds toward: the one folded first lies inside. */
#define ROLL                                                                                                           \
  CARD_HEAD CARD_INCH                                                                                                  \
    "'pieces': [ { 'id': 'base', 'outline': [['0','0'],['8','0'],['8','4'],['0','4']], 'hold': ['4','2'],"             \
    " 'marks': [ { 'id': 'l', 'kind': 'score', 'fold': 'toward', 'line': [['2 3/4','0'],['2 3/4','4']] },"             \
    "            { 'id': 'r', 'kind': 'score', 'fold': 'toward', 'line': [['5 1/2','0'],['5 1/2','4']] } ] } ],"       \
    " 'steps': [ { 'id': 'first', 'do': 'fold', 'folds': [ { 'score': 'base/%s', 'to': 180 } ] },"                     \
    "            { 'id': 'second', 'do': 'fold', 'folds': [ { 'score': 'base/%s', 'to': 180 } ] },"                    \
    "            { 'id': 'half', 'do': 'fold', 'folds': [ { 'score': 'base/%s', 'to': 90 } ] },"                       \
    "            { 'id': 'back', 'do': 'fold', 'folds': [ { 'score': 'base/%s', 'to': 180 } ] } ] }"

static void
test_roll_keeps_the_order_of_folding (void)
{
  for (int i = 0; i < 2; i++)
    {
      const char *first = i == 0 ? "l" : "r", *second = i == 0 ? "r" : "l";
      g_autofree char *text = g_strdup_printf (ROLL, first, second, second, second);
      g_autoptr (CwFlatStates) states = flat_states (text);
      const char *stack = i == 0 ? "base2b base0b base1f" : "base0b base2b base1f";

      flat_assert_stack (states, "second", 4, 2, stack);
      g_assert_false (flat_state (states, "half")->flat);
      /* What stays folded keeps its side while the other flap stands up. */
      g_assert_cmpint (cw_flat_states_side (states, 2, 1, i == 0 ? 0 : 2), ==, 1);
      g_assert_cmpint (cw_flat_states_compare (states, 2, 1, i == 0 ? 0 : 2), ==, 1);
      g_assert_cmpint (cw_flat_states_side (states, 2, 1, i == 0 ? 2 : 0), ==, 0);
      flat_assert_stack (states, "back", 4, 2, stack);
    }
}

/* A flap folded flat on a cover keeps its place while the cover stands up and lies down again, and turns over with
 * it. */
static void
test_flap_on_a_cover (void)
{
  g_autoptr (CwFlatStates) states = flat_states (
    CARD_HEAD CARD_INCH
    "'pieces': [ { 'id': 'base', 'outline': [['0','0'],['10','0'],['10','4'],['0','4']], 'hold': ['9','2'],"
    " 'marks': [ { 'id': 'flap', 'kind': 'score', 'fold': 'away', 'line': [['2','0'],['2','4']] },"
    "            { 'id': 'spine', 'kind': 'score', 'fold': 'toward', 'line': [['6','0'],['6','4']] } ] } ],"
    " 'steps': [ { 'id': 'tuck', 'do': 'fold', 'folds': [ { 'score': 'base/flap', 'to': 180 } ] },"
    "            { 'id': 'stand', 'do': 'fold', 'folds': [ { 'score': 'base/spine', 'to': 90 } ] },"
    "            { 'id': 'close', 'do': 'fold', 'folds': [ { 'score': 'base/spine', 'to': 180 } ] } ] }");

  flat_assert_stack (states, "tuck", 3, 2, "base1f base0b");
  g_assert_cmpint (cw_flat_states_side (states, 1, 1, 0), ==, -1);
  g_assert_cmpint (cw_flat_states_side (states, 1, 0, 1), ==, -1);
  g_assert_cmpint (cw_flat_states_compare (states, 1, 1, 2), ==, 0);
  /* The cover's back, and the flap on it, look up when it is shut. */
  flat_assert_stack (states, "close", 9, 2, "base0f base1b base2f");
}

/* A layer on the outside, one on the inside, one tucked behind a flap that is down already. */
static void
test_layers (void)
{
  g_autoptr (CwFlatStates) states = flat_states (
    CARD_HEAD CARD_INCH
    "'pieces': [ { 'id': 'base', 'outline': [['0','0'],['10','0'],['10','4'],['0','4']], 'hold': ['5','2'],"
    "   'marks': [ { 'id': 'l', 'kind': 'score', 'fold': 'toward', 'line': [['2','0'],['2','4']] },"
    "              { 'id': 'r', 'kind': 'score', 'fold': 'toward', 'line': [['6','0'],['6','4']] } ] },"
    " { 'id': 'slip', 'outline': [['0','0'],['3','0'],['3','2'],['0','2']] },"
    " { 'id': 'out', 'outline': [['0','0'],['1','0'],['1','1'],['0','1']] },"
    " { 'id': 'in', 'outline': [['0','0'],['1','0'],['1','1'],['0','1']] } ],"
    " 'steps': [ { 'id': 'flap', 'do': 'fold', 'folds': [ { 'score': 'base/l', 'to': 180 } ] },"
    "   { 'id': 'tuck', 'do': 'stick', 'piece': 'slip', 'tucked': true, 'on': { 'piece': 'base', 'panel': ['5','2'],"
    "     'face': 'front' }, 'facing': 'back', 'at': ['2 1/2','1'] },"
    "   { 'id': 'out', 'do': 'stick', 'piece': 'out', 'on': { 'piece': 'base', 'panel': ['5','2'], 'face': 'back' },"
    "     'facing': 'back', 'at': ['4','1'] },"
    "   { 'id': 'in', 'do': 'stick', 'piece': 'in', 'on': { 'piece': 'slip', 'face': 'front' },"
    "     'facing': 'back', 'at': ['0','0'] },"
    "   { 'id': 'close', 'do': 'fold', 'folds': [ { 'score': 'base/r', 'to': 180 } ] } ] }");

  flat_assert_stack (states, "tuck", 3, 1.5, "base0b slip0f base1f");
  flat_assert_stack (states, "tuck", 5, 1.5, "slip0f base1f");
  flat_assert_stack (states, "out", 3.5, 1.5, "base0b slip0f base1f out0b");
  /* Stuck on after the flap was shut: outermost. */
  flat_assert_stack (states, "in", 3, 1.5, "in0f base0b slip0f base1f out0b");
  flat_assert_stack (states, "close", 3, 1.5, "base2b in0f base0b slip0f base1f out0b");
}

/* A fold on no grid: both layers' areas add up to the sheet's. */
static void
test_slanted (void)
{
  g_autoptr (CwFlatStates) states = flat_states (
    CARD_HEAD CARD_INCH
    "'pieces': [ { 'id': 'base', 'outline': [['0','0'],['7','0'],['7','3'],['0','3']], 'hold': ['6','1'],"
    " 'marks': [ { 'id': 'd', 'kind': 'score', 'fold': 'toward', 'line': [['3 1/3','0'],['1 1/7','3']] } ] } ],"
    " 'steps': [ { 'id': 'fold', 'do': 'fold', 'folds': [ { 'score': 'base/d', 'to': 180 } ] } ] }");
  const CwFlatState *state = flat_state (states, "fold");
  double two = 0;

  for (guint i = 0; i < state->cells->len; i++)
    two
      += g_array_index (state->cells, CwCell, i).n_layers * (double) g_array_index (state->cells, CwCell, i).area2 / 2;
  /* Every bit of paper is in some cell: 0.002 square inches is the agreed bound. */
  g_assert_cmpfloat_with_epsilon (two / 8128 / 8128, 21, 0.002);
  flat_assert_stack (states, "fold", 3, 1.5, "base0b base1f");
}

/* Foam stands off under its layer's whole extent, from the step on that makes it live. */
static void
test_foam (void)
{
  g_autoptr (CwFlatStates) states
    = flat_states (CARD_HEAD CARD_INCH PAPER
                   "'pieces': [ { 'id': 'base', 'paper': 'p', 'outline': [['0','0'],['4','0'],['4','4'],['0','4']] },"
                   " { 'id': 'tile', 'paper': 'p', 'outline': [['0','0'],['2','0'],['2','2'],['0','2']] } ],"
                   " 'glue': [ { 'id': 'z', 'piece': 'tile', 'face': 'back', 'kind': 'foam', 'height': '2 mm',"
                   "   'area': [['0','0'],['1/2','0'],['1/2','1/2'],['0','1/2']], 'holds': 'base' } ],"
                   " 'steps': [ { 'id': 'idle', 'do': 'decorate' },"
                   "   { 'id': 'stick', 'do': 'stick', 'piece': 'tile', 'on': { 'piece': 'base', 'face': 'front' },"
                   "     'facing': 'back', 'at': ['1','1'] } ] }");
  const CwFlatState *state = flat_state (states, "stick");

  g_assert_cmpfloat_with_epsilon (flat_state (states, "idle")->thickness, 80, 1e-9);
  /* Two papers of 80 ticks and 2 mm of 320 ticks. */
  g_assert_cmpfloat_with_epsilon (state->thickness, 80 + 80 + 640, 1e-9);
  g_assert_cmpfloat_with_epsilon (flat_cell (state, 2.9, 2.9)->thickness, 800, 1e-9);
  g_assert_cmpfloat_with_epsilon (flat_cell (state, 3.5, 3.5)->thickness, 80, 1e-9);
}

/* A strip of n equal panels folded to and fro, all at once or one by one: the order is the strip's own. */
static void
test_accordion (void)
{
  for (int at_once = 0; at_once < 2; at_once++)
    {
      const guint n = 12;
      g_autoptr (GString) text = g_string_new (
        CARD_HEAD CARD_INCH "'pieces': [ { 'id': 'base', 'outline': [['0','0'],['12','0'],['12','2'],['0','2']],"
                            " 'hold': ['1/2','1'], 'marks': [ ");
      g_autoptr (GString) stack = g_string_new (NULL);
      g_autoptr (CwFlatStates) states = NULL;

      for (guint i = 1; i < n; i++)
        g_string_append_printf (text,
                                "%s{ 'id': 's%u', 'kind': 'score', 'fold': '%s', 'line': [['%u','0'],['%u','2']] }",
                                i > 1 ? ", " : "", i, i % 2 ? "toward" : "away", i, i);
      g_string_append (text, " ] } ], 'steps': [ ");
      for (guint i = 1; i < n; i++)
        {
          if (i == 1 || !at_once)
            g_string_append_printf (text, "%s{ 'id': 'fold%u', 'do': 'fold', 'folds': [ ", i > 1 ? ", " : "", i);
          g_string_append_printf (text, "%s{ 'score': 'base/s%u', 'to': 180 }", i > 1 && at_once ? ", " : "",
                                  at_once ? i : n - i);
          if (i == n - 1 || !at_once)
            g_string_append (text, " ] }");
        }
      g_string_append (text, " ] }");
      states = flat_states (text->str);
      for (guint i = n; i-- > 0;)
        g_string_append_printf (stack, "base%u%s%s", i, i % 2 ? "b" : "f", i > 0 ? " " : "");
      flat_assert_stack (states, at_once ? "fold1" : "fold11", 0.5, 1, stack->str);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/contact/flat-state/half-fold", test_half_fold);
  g_test_add_func ("/contact/flat-state/roll-keeps-the-order-of-folding", test_roll_keeps_the_order_of_folding);
  g_test_add_func ("/contact/flat-state/flap-on-a-cover", test_flap_on_a_cover);
  g_test_add_func ("/contact/flat-state/layers", test_layers);
  g_test_add_func ("/contact/flat-state/slanted-fold-keeps-area", test_slanted);
  g_test_add_func ("/contact/flat-state/foam", test_foam);
  g_test_add_func ("/contact/flat-state/accordion", test_accordion);
  return g_test_run ();
}
