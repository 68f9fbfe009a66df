/* test-flat-finding.c: what is said about how the paper lies: blocked layers, size, flatness, thickness, bridged folds.
 *
 * Amounts are differences of the drawn measures. The strip that cannot lie flat is the example (2, 1, 2), both folds
 * one way, of Arkin, Bender, Demaine, Demaine, Mitchell, Sethia & Skiena, Comput. Geom. 29 (2004) 23-46; (1, 2, 1) can.
 * Too thick from 1/4 inch on is a house value: common practice, no source.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "flat-fixture.h"

#include "contact/cw-panel-words.h"

#define IN ((double) CW_TICKS_PER_INCH)

static const CwFinding *
find (const CwFlatStates *states, CwFindingCode code)
{
  GPtrArray *findings = cw_flat_states_get_findings (states);

  for (guint i = 0; i < findings->len; i++)
    if (((const CwFinding *) g_ptr_array_index (findings, i))->code == code)
      return g_ptr_array_index (findings, i);
  return NULL;
}

/* A leaf of @cover inches that closes over one of 4 inches, 5 inches high, with more of the file in @rest. */
static CwFlatStates *
leaf (const char *cover, const char *more, const char *wants, const char *to)
{
  g_autofree char *text = g_strdup_printf (
    CARD_HEAD CARD_INCH
    "'papers': [ { 'id': 'p', 'caliper': '1/10 in' } ],"
    "'pieces': [ { 'id': 'base', 'paper': 'p', 'hold': ['1','1'],"
    "  'outline': [['0','0'],['%s','0'],['%s','5'],['0','5']],"
    "  'names': [ { 'name': 'cover', 'at': ['5','1'] } ],"
    "  'marks': [ { 'id': 's', 'kind': 'score', 'fold': 'toward', 'line': [['4','0'],['4','5']] } ] },"
    " { 'id': 'tag', 'paper': 'p', 'outline': [['0','0'],['1','0'],['1','1'],['0','1']] } ],"
    "'steps': [ %s { 'id': 'close', 'do': 'fold', 'rest': 'closed', 'folds': [ { 'score': 'base/s', 'to': %s } ] } ],"
    "'wants': { %s } }",
    cover, cover, more, to, wants);

  return flat_states (text);
}

#define TAG                                                                                                            \
  "{ 'id': 'stick', 'do': 'stick', 'piece': 'tag', 'on': { 'piece': 'base', 'panel': ['1','1'], 'face': 'front' },"    \
  " 'facing': 'back', 'at': ['%s','1'] %s },"

static void
test_size (void)
{
  static const struct
  {
    const char *cover, *wants;
    double over; /* inches; 0: nothing is said */
    CwSeverity severity;
  } cases[] = { { "8", "'size': '4 in x 5 in'", 0, 0 },
                { "8", "'size': '5 in x 4 in'", 0, 0 }, /* either way round */
                { "8", "'size': '4 in x 4 3/4 in'", 0.25, CW_SEVERITY_WARNING },
                { "8 1/2", "'size': '4 in x 5 in'", 0.5, CW_SEVERITY_WARNING },
                { "7 1/2", "'size': '4 in x 5 in'", 0, 0 },
                { "8 1/2", "'flat': ['close']", 0.5, CW_SEVERITY_NOTE },
                { "8", "'flat': ['close']", 0, 0 } };

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (CwFlatStates) states = leaf (cases[i].cover, "", cases[i].wants, "180");
      const CwFinding *finding = find (states, CW_FINDING_STICKS_OUT);

      if (cases[i].over <= 0)
        {
          g_assert_null (finding);
          g_assert_cmpuint (cw_flat_states_get_findings (states)->len, ==, 0);
          continue;
        }
      g_assert_nonnull (finding);
      g_assert_cmpfloat_with_epsilon (finding->amount, cases[i].over * IN, 1e-9);
      g_assert_cmpint (finding->severity, ==, cases[i].severity);
      g_assert_cmpstr (finding->step, ==, "close");
      if (g_str_equal (cases[i].cover, "8 1/2"))
        {
          /* It is the cover that stands out, on the left. */
          g_assert_cmpuint (g_array_index (finding->panels, CwPanelRef, 0).panel, ==, 1);
          g_assert_cmpfloat_with_epsilon (finding->at.x, -0.5 * IN, 1e-9);
        }
    }
}

static void
test_overhang (void)
{
  for (int meant = 0; meant < 2; meant++)
    {
      g_autofree char *tag = g_strdup_printf (TAG, "-1/2", meant ? ", 'overhang': 'meant'" : "");
      g_autoptr (CwFlatStates) states
        = leaf ("8", tag, "'size': '4 in x 5 in', 'envelope': '4 1/4 in x 5 1/4 in'", "180");
      const CwFinding *out = find (states, CW_FINDING_STICKS_OUT);
      const CwFinding *big = find (states, CW_FINDING_TOO_BIG_FOR_ENVELOPE);

      const CwFinding *over = find (states, CW_FINDING_LAYER_OVERHANGS);

      /* The envelope does not care what is meant. */
      g_assert_nonnull (big);
      g_assert_cmpfloat_with_epsilon (big->amount, 0.25 * IN, 1e-9);
      g_assert_true ((over == NULL) == meant);
      if (meant)
        g_assert_null (out);
      else
        {
          g_assert_nonnull (out);
          g_assert_cmpfloat_with_epsilon (out->amount, 0.5 * IN, 1e-9);
          g_assert_cmpstr (g_ptr_array_index (out->pieces, 0), ==, "tag");
          g_assert_cmpfloat_with_epsilon (over->amount, 0.5 * IN, 1e-9);
          g_assert_cmpstr (over->step, ==, "stick");
        }
    }
}

static void
test_not_flat (void)
{
  g_autoptr (CwFlatStates) states = leaf ("8", "", "'flat': ['closed']", "90");
  const CwFinding *finding = find (states, CW_FINDING_NOT_FLAT);

  g_assert_nonnull (finding);
  g_assert_cmpfloat_with_epsilon (finding->amount, 4 * IN, 1e-6);
  g_assert_cmpuint (g_array_index (finding->panels, CwPanelRef, 0).panel, ==, 1);
}

/* Two papers of 1/10 inch are 1/5, with a tag between 3/10. */
static void
test_thickness (void)
{
  g_autofree char *tag = g_strdup_printf (TAG, "1", "");
  g_autoptr (CwFlatStates) thin = leaf ("8", "", "'flat': ['close']", "180");
  g_autoptr (CwFlatStates) thick = leaf ("8", tag, "'flat': ['close']", "180");
  const CwFinding *finding = find (thick, CW_FINDING_TOO_THICK);

  g_assert_null (find (thin, CW_FINDING_TOO_THICK));
  g_assert_nonnull (finding);
  g_assert_cmpfloat_with_epsilon (finding->amount, 0.3 * IN, 3);
  g_assert_true (finding->at.x > IN && finding->at.x < 2 * IN);
}

/* Creases at 2 and 3 of 5: (2, 1, 2). At 1 and 3 of 4: (1, 2, 1). */
static void
test_blocked (void)
{
  static const struct
  {
    int whole, first;
    gboolean blocked;
  } cases[] = { { 5, 2, TRUE }, { 4, 1, FALSE } };

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autofree char *text = g_strdup_printf (
        CARD_HEAD CARD_INCH
        "'pieces': [ { 'id': 'base', 'outline': [['0','0'],['%d','0'],['%d','2'],['0','2']], 'hold': ['2 1/2','1'],"
        " 'marks': [ { 'id': 'a', 'kind': 'score', 'fold': 'toward', 'line': [['%d','0'],['%d','2']] },"
        "            { 'id': 'b', 'kind': 'score', 'fold': 'toward', 'line': [['3','0'],['3','2']] } ] } ],"
        " 'steps': [ { 'id': 'one', 'do': 'fold', 'folds': [ { 'score': 'base/a', 'to': 180 } ] },"
        "            { 'id': 'two', 'do': 'fold', 'folds': [ { 'score': 'base/b', 'to': 180 } ] } ] }",
        cases[i].whole, cases[i].whole, cases[i].first, cases[i].first);
      g_autoptr (CwFlatStates) states = flat_states (text);
      const CwFinding *finding = find (states, CW_FINDING_LAYERS_BLOCK);

      g_assert_true ((finding != NULL) == cases[i].blocked);
      if (finding == NULL)
        continue;
      g_assert_cmpstr (finding->step, ==, "two");
      g_assert_cmpuint (finding->panels->len, ==, 3);
      g_assert_cmpfloat_with_epsilon (finding->at.x, 3 * IN, 1e-9);
    }
}

/* Two panels without names in one piece are told apart by places on them: here the middle of a leaf of 4 by 5 in. */
static void
test_panel_words (void)
{
  g_autoptr (CwFlatStates) states = leaf ("7", "", "", "180");
  const CwPanelSet *set = cw_motion_get_set (states->motion);
  g_autofree char *left = cw_panel_words (set, 0), *right = cw_panel_words (set, 1), *tag = cw_panel_words (set, 2);

  if (!g_str_equal (right, "cover"))
    {
      g_free (left);
      left = g_steal_pointer (&right);
      right = cw_panel_words (set, 0);
    }
  g_assert_cmpstr (left, ==, "the panel of base at 2 in, 2 1/2 in");
  g_assert_cmpstr (right, ==, "cover");
  g_assert_cmpstr (tag, ==, "tag");
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/contact/flat-finding/size", test_size);
  g_test_add_func ("/contact/flat-finding/overhang", test_overhang);
  g_test_add_func ("/contact/flat-finding/not-flat", test_not_flat);
  g_test_add_func ("/contact/flat-finding/thickness", test_thickness);
  g_test_add_func ("/contact/flat-finding/blocked-layers", test_blocked);
  g_test_add_func ("/contact/flat-finding/panel-words", test_panel_words);
  return g_test_run ();
}
