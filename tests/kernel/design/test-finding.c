/* test-finding.c: keys and severities of findings, and how a finding is put together.
 *
 * The table is that of the agreed design of the tool ("Finding codes"), in the order in which it stands there, which is
 * not the order of the enum.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "design/cw-finding.h"

static void
test_table (void)
{
  static const struct
  {
    const char *key;
    CwSeverity severity;
  } table[] = {
    { "score-stops-short", CW_SEVERITY_ERROR },
    { "piece-falls-out", CW_SEVERITY_ERROR },
    { "marks-overlap", CW_SEVERITY_WARNING },
    { "off-sheet", CW_SEVERITY_ERROR },
    { "off-snap", CW_SEVERITY_NOTE },
    { "thin-strip", CW_SEVERITY_WARNING },
    { "will-not-fold-flat", CW_SEVERITY_ERROR },
    { "not-flat", CW_SEVERITY_ERROR },
    { "not-simulated", CW_SEVERITY_NOTE },
    { "cannot-move", CW_SEVERITY_ERROR },
    { "sways", CW_SEVERITY_WARNING },
    { "two-ways", CW_SEVERITY_WARNING },
    { "needs-give", CW_SEVERITY_NOTE },
    { "tight-margin", CW_SEVERITY_WARNING },
    { "not-decided", CW_SEVERITY_NOTE },
    { "not-checked", CW_SEVERITY_NOTE },
    { "marks-disagree", CW_SEVERITY_ERROR },
    { "panels-collide", CW_SEVERITY_ERROR },
    { "layers-block", CW_SEVERITY_ERROR },
    { "sticks-out", CW_SEVERITY_WARNING },
    { "too-big-for-envelope", CW_SEVERITY_WARNING },
    { "mail-surcharge", CW_SEVERITY_WARNING },
    { "too-thick", CW_SEVERITY_WARNING },
    { "tuck-too-wide", CW_SEVERITY_WARNING },
    { "layer-over-score", CW_SEVERITY_ERROR },
    { "layer-over-cut", CW_SEVERITY_ERROR },
    { "layer-shows", CW_SEVERITY_WARNING },
    { "layer-hidden", CW_SEVERITY_WARNING },
    { "layer-overhangs", CW_SEVERITY_WARNING },
    { "wrong-face", CW_SEVERITY_WARNING },
    { "art-turned", CW_SEVERITY_WARNING },
    { "glue-strays", CW_SEVERITY_ERROR },
    { "glued-shut", CW_SEVERITY_ERROR },
    { "glue-near-edge", CW_SEVERITY_WARNING },
    { "glue-missing", CW_SEVERITY_WARNING },
    { "look-alike-numbers", CW_SEVERITY_NOTE },
    { "against-grain", CW_SEVERITY_NOTE },
    { "heat-after-glue", CW_SEVERITY_WARNING },
  };
  g_autoptr (GHashTable) seen = g_hash_table_new (g_str_hash, g_str_equal);

  g_assert_cmpuint (G_N_ELEMENTS (table), ==, CW_FINDING_N_CODES);
  for (guint code = 0; code < CW_FINDING_N_CODES; code++)
    {
      const char *key = cw_finding_code_get_key ((CwFindingCode) code);
      gboolean found = FALSE;

      g_assert_nonnull (key);
      g_assert_true (g_hash_table_add (seen, (gpointer) key));
      for (guint i = 0; i < G_N_ELEMENTS (table); i++)
        if (g_str_equal (table[i].key, key))
          {
            found = TRUE;
            g_assert_cmpint (cw_finding_code_get_severity ((CwFindingCode) code), ==, table[i].severity);
          }
      if (!found)
        g_error ("%s is not in the table", key);
    }
  g_assert_cmpstr (cw_finding_code_get_key (CW_FINDING_STICKS_OUT), ==, "sticks-out");
  g_assert_cmpstr (cw_finding_code_get_key (CW_FINDING_GLUED_SHUT), ==, "glued-shut");
  g_assert_cmpstr (cw_severity_get_key (CW_SEVERITY_ERROR), ==, "error");
  g_assert_cmpstr (cw_severity_get_key (CW_SEVERITY_WARNING), ==, "warning");
  g_assert_cmpstr (cw_severity_get_key (CW_SEVERITY_NOTE), ==, "note");
}

static void
test_parts (void)
{
  g_autoptr (CwFinding) finding = cw_finding_new (CW_FINDING_THIN_STRIP);

  g_assert_cmpint (finding->severity, ==, CW_SEVERITY_WARNING);
  g_assert_cmpint (finding->known, ==, CW_KNOWN_EXACT);
  g_assert_false (finding->has_at);
  cw_finding_add_mark (finding, "base", "spine");
  cw_finding_add_mark (finding, "base", "spine");
  cw_finding_add_panel (finding, "base", 2);
  cw_finding_add_panel (finding, "base", 2);
  cw_finding_add_panel (finding, "base", 3);
  cw_finding_add_piece (finding, "tile");
  g_assert_cmpuint (finding->marks->len, ==, 1);
  g_assert_cmpstr (g_ptr_array_index (finding->marks, 0), ==, "base/spine");
  g_assert_cmpuint (finding->panels->len, ==, 2);
  g_assert_cmpuint (finding->pieces->len, ==, 2);
  g_assert_cmpstr (g_ptr_array_index (finding->pieces, 1), ==, "tile");

  cw_finding_set_at (finding, "base", 3.0, -4.0);
  cw_finding_set_at (finding, NULL, 3.0, -4.0);
  g_assert_true (finding->has_at);
  g_assert_null (finding->at_piece);
  cw_finding_set_words (finding, "{0} of {1}", NULL, "one", NULL);
  cw_finding_set_words (finding, "{0} of {1}", "cut", "1/8 in", "base", NULL);
  g_assert_cmpuint (finding->args->len, ==, 2);
  g_assert_cmpstr (g_ptr_array_index (finding->args, 1), ==, "base");
}

/* A name within words, in two languages: each is read alone, also between other words; the same in both is just that.
 */
static void
test_both (void)
{
  g_autofree char *both = cw_finding_dup_both ("Fold shut", "Zuklappen"), *same = cw_finding_dup_both ("Kite", "Kite");
  g_autofree char *within = g_strdup_printf ("in %s, %s", both, same);
  g_autofree char *english = cw_finding_dup_read (within, FALSE), *translated = cw_finding_dup_read (within, TRUE);

  g_assert_cmpstr (same, ==, "Kite");
  g_assert_cmpstr (english, ==, "in Fold shut, Kite");
  g_assert_cmpstr (translated, ==, "in Zuklappen, Kite");
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/finding/code/key-and-severity-as-agreed", test_table);
  g_test_add_func ("/finding/parts/named-once", test_parts);
  g_test_add_func ("/finding/words/in-two-languages", test_both);
  return g_test_run ();
}
