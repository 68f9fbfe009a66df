/* test-flat-thickness.c: how thick the closed card is, and where.
 *
 * All by hand: a sum of calipers and, once for a layer, of the foam it lies on, over the whole layer (agreed rule);
 * other glue adds nothing. Calipers are round numbers, not those of any stock.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "flat-fixture.h"

#define IN ((double) CW_TICKS_PER_INCH)

/* A half-fold of 1/50 in card, 4 by 6 closed, the cover folding over the page at x 4 .. 8, with a mount of 1/100 in
 * paper, 2 by 3, its corner at `at` on the page, and a slip of 1/100 in, 1 by 1, on whatever it says. */
#define CARD                                                                                                           \
  CARD_HEAD CARD_INCH                                                                                                  \
    "'papers': [ { 'id': 'card', 'caliper': '1/50 in' }, { 'id': 'thin', 'caliper': '1/100 in' } ],"                   \
    "'pieces': [ { 'id': 'base', 'paper': 'card', 'outline': [['0','0'],['8','0'],['8','6'],['0','6']],"               \
    "  'hold': ['7 3/4','5 3/4'], 'marks': [ { 'id': 's', 'kind': 'score', 'fold': 'toward', 'line':"                  \
    "  [['4','0'],['4','6']] } ] },"                                                                                   \
    " { 'id': 'mount', 'paper': 'thin', 'outline': [['0','0'],['2','0'],['2','3'],['0','3']] },"                       \
    " { 'id': 'slip', 'paper': 'thin', 'outline': [['0','0'],['1','0'],['1','1'],['0','1']] } ],"                      \
    "'glue': [ %s ],"                                                                                                  \
    "'steps': [ { 'id': 'mount', 'do': 'stick', 'piece': 'mount', 'on': { 'piece': 'base', 'panel': ['7 3/4','5 "      \
    "3/4'],"                                                                                                           \
    "  'face': 'front' }, 'facing': 'back', 'at': ['5','1'] },"                                                        \
    " { 'id': 'slip', 'do': 'stick', 'piece': 'slip', 'on': { 'piece': '%s', 'face': 'front' }, 'facing': 'back',"     \
    "  'at': ['1/2','1/2'] %s },"                                                                                      \
    " { 'id': 'close', 'do': 'fold', 'rest': 'closed', 'folds': [ { 'score': 'base/s', 'to': 180 } ] } ] }"

#define ZONE(piece, face, kind, area, holds)                                                                           \
  "{ 'id': 'z" piece "', 'piece': '" piece "', 'face': '" face "', 'kind': " kind ", 'area': " area                    \
  ", 'holds': '" holds "' }"
/* Two strips of foam would do: the mount is stiff. */
#define CORNER "[['1/4','1/4'],['1/2','1/4'],['1/2','1/2'],['1/4','1/2']]"

static void
test_kinds (void)
{
  static const struct
  {
    const char *glue, *on, *tucked;
    double page, mount, slip; /* over the bare page, the mount beside the slip, and both; hundredths of an inch */
  } cases[] = {
    { "", "mount", "", 4, 5, 6 },
    { ZONE ("mount", "back", "'wet'", CORNER, "base"), "mount", "", 4, 5, 6 },
    { ZONE ("mount", "back", "'tape'", CORNER, "base"), "mount", "", 4, 5, 6 },
    { ZONE ("mount", "back", "'dots'", CORNER, "base"), "mount", "", 4, 5, 6 },
    { ZONE ("mount", "back", "'strong'", CORNER, "base"), "mount", "", 4, 5, 6 },
    /* Over the whole mount, not over the foam alone. */
    { ZONE ("mount", "back", "'foam', 'height': '1/10 in'", CORNER, "base"), "mount", "", 4, 15, 16 },
    /* Foam under foam. */
    { ZONE ("mount", "back", "'foam', 'height': '1/10 in'", CORNER,
            "base") "," ZONE ("slip", "back", "'foam', 'height': '1/20 in'", CORNER, "mount"),
      "mount", "", 4, 15, 21 },
    /* On the mount's own face, for the slip that is laid on it: it lifts the slip. */
    { ZONE ("mount", "front", "'foam', 'height': '1/20 in'", CORNER, "slip"), "mount", "", 4, 5, 11 },
    /* Laid loose it still lies there. */
    { "", "mount", ", 'tucked': true", 4, 5, 6 },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autofree char *text = g_strdup_printf (CARD, cases[i].glue, cases[i].on, cases[i].tucked);
      g_autoptr (CwFlatStates) states = flat_states (text);
      const CwFlatState *state = flat_state (states, "close");
      double per = IN / 100;

      g_test_message ("case %u", (guint) i);
      /* Bare page at (4.5, 5.5), mount alone at (6.8, 3.8), slip over mount at (5.6, 1.6) or so. */
      g_assert_cmpfloat_with_epsilon (flat_cell (state, 4.5, 5.5)->thickness / per, cases[i].page, 0.02);
      g_assert_cmpfloat_with_epsilon (flat_cell (state, 6.8, 3.8)->thickness / per, cases[i].mount, 0.02);
      g_assert_cmpfloat_with_epsilon (flat_cell (state, 5.9, 1.9)->thickness / per, cases[i].slip, 0.02);
      g_assert_cmpfloat_with_epsilon (state->thickness / per, cases[i].slip, 0.02);
    }
}

/* A strip of 4 by 1 with a score in the middle, the left half on foam: the right half at the same height beside it, or
 * folded over it, where the foam counts once. */
static void
test_folded_layer (void)
{
  for (int folded = 0; folded < 2; folded++)
    {
      g_autofree char *text = g_strdup_printf (
        CARD_HEAD CARD_INCH
        "'papers': [ { 'id': 'card', 'caliper': '1/50 in' }, { 'id': 'thin', 'caliper': '1/100 in' } ],"
        "'pieces': [ { 'id': 'base', 'paper': 'card', 'outline': [['0','0'],['6','0'],['6','6'],['0','6']] },"
        " { 'id': 'strip', 'paper': 'thin', 'outline': [['0','0'],['4','0'],['4','1'],['0','1']], 'hold': ['1','1/2'],"
        "   'marks': [ { 'id': 's', 'kind': 'score', 'fold': 'toward', 'line': [['2','0'],['2','1']] } ] } ],"
        "'glue': [ " ZONE ("strip", "back", "'foam', 'height': '1/10 in'", CORNER,
                           "base") " ],"
                                   "'steps': [ { 'id': 'lay', 'do': 'stick', 'piece': 'strip', 'on': { 'piece': "
                                   "'base', 'face': 'front' },"
                                   " 'facing': 'back', 'at': ['1','1'] },"
                                   " { 'id': 'over', 'do': 'fold', 'rest': 'closed', 'folds': [ { 'score': 'strip/s', "
                                   "'to': %d } ] } ] }",
        folded ? 180 : 0);
      g_autoptr (CwFlatStates) states = flat_states (text);
      const CwFlatState *state = flat_state (states, "over");

      g_assert_cmpfloat_with_epsilon (flat_cell (state, 2, 1.5)->thickness / IN * 100, folded ? 14 : 13, 0.02);
      g_assert_cmpfloat_with_epsilon (flat_cell (state, 4, 1.5)->thickness / IN * 100, folded ? 2 : 13, 0.02);
    }
}

/* Too thick from 1/4 in on (house value): told at the slip on foam on the mount, with what to take away. */
static void
test_too_thick (void)
{
  g_autofree char *text
    = g_strdup_printf (CARD,
                       ZONE ("mount", "back", "'foam', 'height': '1/8 in'", CORNER,
                             "base") "," ZONE ("slip", "back", "'foam', 'height': '1/8 in'", CORNER, "mount"),
                       "mount", "");
  g_autoptr (CwFlatStates) states = flat_states (text);
  GPtrArray *findings = cw_flat_states_get_findings (states);
  const CwFinding *finding = NULL;

  for (guint i = 0; i < findings->len; i++)
    if (((const CwFinding *) g_ptr_array_index (findings, i))->code == CW_FINDING_TOO_THICK)
      finding = g_ptr_array_index (findings, i);
  g_assert_nonnull (finding);
  g_assert_cmpstr (finding->step, ==, "close");
  g_assert_cmpfloat_with_epsilon (finding->amount / IN, 0.25 + 0.06, 1e-3);
  /* The slip lies on the mount at 1/2, 1/2, that on the sheet at 5, 1. */
  g_assert_cmpfloat_with_epsilon (finding->at.x / IN, 6, 0.5);
  g_assert_cmpfloat_with_epsilon (finding->at.y / IN, 2, 0.5);
  g_assert_cmpstr (g_ptr_array_index (finding->args, 5), ==, "4");
  g_assert_cmpstr (g_ptr_array_index (finding->args, 6), ==, "1/16 in");
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/contact/flat-thickness/kinds-of-glue", test_kinds);
  g_test_add_func ("/contact/flat-thickness/folded-layer", test_folded_layer);
  g_test_add_func ("/contact/flat-thickness/too-thick", test_too_thick);
  return g_test_run ();
}
