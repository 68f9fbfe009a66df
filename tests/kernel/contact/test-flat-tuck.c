/* test-flat-tuck.c: what is folded into a fold has to end short of it.
 *
 * The letter fold is the print trade's worked example: 11 in = 3 11/16 + 3 11/16 + 3 5/8, the turned-in panel 1/32 to
 * 1/8 in narrower (values page 1.5). 1/16 in for every fold round a panel is a house value. All else is differences of
 * drawn measures; half folds, doors that meet, Z folds, quarter folds, inserts and pockets have nothing held between
 * two fold lines, so nothing is said of them.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "flat-fixture.h"

#define IN ((double) CW_TICKS_PER_INCH)

/* All that is said of tucks, as "panel amount;" by the panel's number, in 64ths of an inch, the most of all states. */
static char *
tucks (const char *text)
{
  g_autoptr (CwFlatStates) states = flat_states (text);
  GPtrArray *findings = cw_flat_states_get_findings (states);
  GString *all = g_string_new (NULL);
  double most[8] = { 0 };

  for (guint i = 0; i < findings->len; i++)
    {
      const CwFinding *finding = g_ptr_array_index (findings, i);
      guint panel = g_array_index (finding->panels, CwPanelRef, 0).panel;

      if (finding->code != CW_FINDING_TUCK_TOO_WIDE)
        continue;
      g_assert_cmpint (finding->amount_unit, ==, CW_AMOUNT_TICKS);
      g_assert_cmpint (finding->severity, ==, CW_SEVERITY_WARNING);
      g_assert_true (finding->has_at);
      g_assert_nonnull (finding->remedy);
      g_assert_cmpuint (panel, <, G_N_ELEMENTS (most));
      most[panel] = MAX (most[panel], finding->amount / IN * 64);
    }
  for (guint i = 0; i < G_N_ELEMENTS (most); i++)
    if (most[i] > 0)
      g_string_append_printf (all, "base%u %.0f;", i, most[i]);
  return g_string_free (all, FALSE);
}

/* A strip 4 in high, folded at places from the left ("|" between scores with its way), held at `hold`. */
static char *
strip (const char *width, const char *hold, const char *const *places, const char *const *ways,
       const char *const *order, const char *more)
{
  GString *marks = g_string_new (NULL), *steps = g_string_new (NULL);
  char *text;

  for (guint i = 0; places[i] != NULL; i++)
    g_string_append_printf (marks, "%s{ 'id': 's%u', 'kind': 'score', 'fold': '%s', 'line': [['%s','0'],['%s','4']] }",
                            i > 0 ? "," : "", i, ways[i], places[i], places[i]);
  for (guint i = 0; order[i] != NULL; i++)
    g_string_append_printf (steps,
                            "%s{ 'id': 'f%s', 'do': 'fold', %s 'folds': [ { 'score': 'base/s%s', 'to': 180 } ] }",
                            i > 0 ? "," : "", order[i], order[i + 1] == NULL ? "'rest': 'closed'," : "", order[i]);
  text = g_strdup_printf (CARD_HEAD CARD_INCH "'pieces': [ { 'id': 'base', 'outline': [['0','0'],['%s','0'],['%s','4'],"
                                              "['0','4']], 'hold': ['%s','2'], 'marks': [ %s ] } %s,"
                                              "'steps': [ %s ] }",
                          width, width, hold, marks->str, more, steps->str);
  g_string_free (marks, TRUE);
  g_string_free (steps, TRUE);
  return text;
}

#define LIST(...) ((const char *const[]){ __VA_ARGS__, NULL })

typedef struct
{
  const char *what, *width, *hold;
  const char *const *places, *const *ways, *const *order;
  const char *said;
} Strip;

static void
test_strips (void)
{
  const char *const *in = LIST ("toward", "toward", "toward", "toward");
  const Strip cases[] = {
    { "letter fold as printed", "11", "5", LIST ("3 11/16", "7 3/8"), in, LIST ("1", "0"), "" },
    { "the same from the other end", "11", "5", LIST ("3 5/8", "7 5/16"), in, LIST ("0", "1"), "" },
    { "three equal thirds", "9", "4", LIST ("3", "6"), in, LIST ("1", "0"), "base2 4;" },
    { "1/32 short", "8 31/32", "4", LIST ("3", "6"), in, LIST ("1", "0"), "base2 2;" },
    { "half fold", "8", "6", LIST ("4"), in, LIST ("0"), "" },
    { "doors that meet", "8", "4", LIST ("2", "6"), in, LIST ("0", "1"), "" },
    { "doors that overlap", "9", "4", LIST ("2 1/2", "6"), in, LIST ("1", "0"), "" },
    { "Z fold", "9", "4", LIST ("3", "6"), LIST ("toward", "away"), LIST ("0", "1"), "" },
    { "roll of four", "16", "1", LIST ("4", "8", "12"), in, LIST ("2", "1", "0"), "base2 4;base3 8;" },
    { "roll of four, each shorter", "15 13/16", "1", LIST ("4", "8", "11 15/16"), in, LIST ("2", "1", "0"), "" },
    { "roll of four, the last as wide", "15 7/8", "1", LIST ("4", "8", "11 15/16"), in, LIST ("2", "1", "0"),
      "base3 4;" },
    { "doors, then in half", "8", "3", LIST ("2", "4", "6"), in, LIST ("0", "2", "1"), "base0 4;base3 4;" },
    { "shorter doors, then in half", "7 7/8", "3", LIST ("1 15/16", "3 15/16", "5 15/16"), in, LIST ("0", "2", "1"),
      "" },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autofree char *text
        = strip (cases[i].width, cases[i].hold, cases[i].places, cases[i].ways, cases[i].order, "]");
      g_autofree char *said = tucks (text);

      g_test_message ("%s", cases[i].what);
      g_assert_cmpstr (said, ==, cases[i].said);
    }
}

/* A mount of 2 by 3 on foam of 1/8 in, on the turned-in panel: at its free edge it needs 1/8 of room, further in it
 * does not matter. The panel ends 1/16 from the fold. */
static void
test_foam (void)
{
  static const struct
  {
    const char *at, *kind, *said;
  } cases[] = { { "9", "'foam', 'height': '1/8 in'", "base2 4;" },
                { "9", "'wet'", "" },
                { "7 3/4", "'foam', 'height': '1/8 in'", "" } };

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autofree char *more = g_strdup_printf (
        ", { 'id': 'mount', 'outline': [['0','0'],['2','0'],['2','3'],['0','3']] } ],"
        "'glue': [ { 'id': 'g', 'piece': 'mount', 'face': 'back', 'kind': %s, 'area': [['1/4','1/4'],['1 3/4','1/4'],"
        "['1 3/4','2 3/4'],['1/4','2 3/4']], 'holds': 'base' } ]",
        cases[i].kind);
      g_autofree char *text
        = strip ("11", "5", LIST ("3 11/16", "7 3/8"), LIST ("toward", "toward"), LIST ("1", "0"), more);
      g_autofree char *stick
        = g_strdup_printf ("'steps': [ { 'id': 'lay', 'do': 'stick', 'piece': 'mount', 'on': { 'piece': 'base',"
                           " 'panel': ['8','1'], 'face': 'back' }, 'facing': 'back', 'at': ['%s','1/2'] },",
                           g_str_equal (cases[i].at, "9") ? "11" : "10");
      g_auto (GStrv) parts = g_strsplit (text, "'steps': [", 2);
      g_autofree char *whole = g_strconcat (parts[0], stick, parts[1], NULL);
      g_autofree char *said = tucks (whole);

      g_assert_cmpstr (said, ==, cases[i].said);
    }
}

/* What lies snugly: an insert with its own fold in the spine, a liner up to the spine, a pocket across it, and a sheet
 * folded in four. */
static void
test_snug (void)
{
  static const char *const cards[] = {
    CARD_HEAD CARD_INCH
    "'pieces': [ { 'id': 'base', 'outline': [['0','0'],['8','0'],['8','5'],['0','5']], 'hold': ['6','2'],"
    " 'marks': [ { 'id': 's', 'kind': 'score', 'fold': 'toward', 'line': [['4','0'],['4','5']] } ] },"
    " { 'id': 'insert', 'outline': [['0','0'],['8','0'],['8','5'],['0','5']], 'hold': ['6','2'],"
    " 'marks': [ { 'id': 's', 'kind': 'score', 'fold': 'toward', 'line': [['4','0'],['4','5']] } ] } ],"
    "'steps': [ { 'id': 'lay', 'do': 'stick', 'piece': 'insert', 'on': { 'piece': 'base', 'panel': ['6','2'],"
    " 'face': 'front' }, 'facing': 'back', 'at': ['0','0'] },"
    " { 'id': 'shut', 'do': 'fold', 'rest': 'closed', 'folds': [ { 'score': 'base/s', 'to': 180 },"
    " { 'score': 'insert/s', 'to': 180 } ] } ] }",

    CARD_HEAD CARD_INCH
    "'pieces': [ { 'id': 'base', 'outline': [['0','0'],['8','0'],['8','5'],['0','5']], 'hold': ['6','2'],"
    " 'marks': [ { 'id': 's', 'kind': 'score', 'fold': 'toward', 'line': [['4','0'],['4','5']] } ] },"
    " { 'id': 'liner', 'outline': [['0','0'],['4','0'],['4','5'],['0','5']] } ],"
    "'steps': [ { 'id': 'lay', 'do': 'stick', 'piece': 'liner', 'on': { 'piece': 'base', 'panel': ['6','2'],"
    " 'face': 'front' }, 'facing': 'back', 'at': ['4','0'] },"
    " { 'id': 'shut', 'do': 'fold', 'rest': 'closed', 'folds': [ { 'score': 'base/s', 'to': 180 } ] } ] }",

    CARD_HEAD CARD_INCH
    "'pieces': [ { 'id': 'base', 'outline': [['0','0'],['8','0'],['8','7'],['0','7']], 'hold': ['6','2'],"
    " 'marks': [ { 'id': 'p', 'kind': 'score', 'fold': 'toward', 'line': [['0','5'],['8','5']] },"
    "            { 'id': 's', 'kind': 'score', 'fold': 'toward', 'line': [['4','0'],['4','5']] },"
    "            { 'id': 't', 'kind': 'score', 'fold': 'away', 'line': [['4','5'],['4','7']] } ] } ],"
    "'steps': [ { 'id': 'up', 'do': 'fold', 'folds': [ { 'score': 'base/p', 'to': 180 } ] },"
    " { 'id': 'shut', 'do': 'fold', 'rest': 'closed', 'folds': [ { 'score': 'base/s', 'to': 180 } ] } ] }",

    CARD_HEAD CARD_INCH
    "'pieces': [ { 'id': 'base', 'outline': [['0','0'],['8','0'],['8','10'],['0','10']], 'hold': ['6','2'],"
    " 'marks': [ { 'id': 'p', 'kind': 'score', 'fold': 'away', 'line': [['0','5'],['8','5']] },"
    "            { 'id': 's', 'kind': 'score', 'fold': 'toward', 'line': [['4','0'],['4','5']] },"
    "            { 'id': 't', 'kind': 'score', 'fold': 'away', 'line': [['4','5'],['4','10']] } ] } ],"
    "'steps': [ { 'id': 'up', 'do': 'fold', 'folds': [ { 'score': 'base/p', 'to': 180 } ] },"
    " { 'id': 'shut', 'do': 'fold', 'rest': 'closed', 'folds': [ { 'score': 'base/s', 'to': 180 } ] } ] }",
  };

  for (gsize i = 0; i < G_N_ELEMENTS (cards); i++)
    {
      g_autofree char *said = tucks (cards[i]);
      g_autoptr (CwFlatStates) states = flat_states (cards[i]);

      g_assert_true (flat_state (states, "shut")->flat);
      g_assert_cmpstr (said, ==, "");
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/contact/flat-tuck/strips", test_strips);
  g_test_add_func ("/contact/flat-tuck/foam", test_foam);
  g_test_add_func ("/contact/flat-tuck/snug", test_snug);
  return g_test_run ();
}
