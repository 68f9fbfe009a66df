/* cw-finding.c: makes findings and knows the key and the severity of every code.
 *
 * The table below is the one place in code that holds them; it is the table "Finding codes" of the tool's agreed
 * design. Words come from the room that knows the fact.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "design/cw-finding.h"

#include <stdarg.h>

static const struct
{
  const char *key;
  CwSeverity severity;
} codes[CW_FINDING_N_CODES] = {
  [CW_FINDING_OFF_SHEET] = { "off-sheet", CW_SEVERITY_ERROR },
  [CW_FINDING_PIECE_FALLS_OUT] = { "piece-falls-out", CW_SEVERITY_ERROR },
  [CW_FINDING_SCORE_STOPS_SHORT] = { "score-stops-short", CW_SEVERITY_ERROR },
  [CW_FINDING_MARKS_DISAGREE] = { "marks-disagree", CW_SEVERITY_ERROR },
  [CW_FINDING_WILL_NOT_FOLD_FLAT] = { "will-not-fold-flat", CW_SEVERITY_ERROR },
  [CW_FINDING_CANNOT_MOVE] = { "cannot-move", CW_SEVERITY_ERROR },
  [CW_FINDING_PANELS_COLLIDE] = { "panels-collide", CW_SEVERITY_ERROR },
  [CW_FINDING_LAYERS_BLOCK] = { "layers-block", CW_SEVERITY_ERROR },
  [CW_FINDING_NOT_FLAT] = { "not-flat", CW_SEVERITY_ERROR },
  [CW_FINDING_GLUED_SHUT] = { "glued-shut", CW_SEVERITY_ERROR },
  [CW_FINDING_GLUE_STRAYS] = { "glue-strays", CW_SEVERITY_ERROR },
  [CW_FINDING_LAYER_OVER_SCORE] = { "layer-over-score", CW_SEVERITY_ERROR },
  [CW_FINDING_LAYER_OVER_CUT] = { "layer-over-cut", CW_SEVERITY_ERROR },
  [CW_FINDING_MARKS_OVERLAP] = { "marks-overlap", CW_SEVERITY_WARNING },
  [CW_FINDING_THIN_STRIP] = { "thin-strip", CW_SEVERITY_WARNING },
  [CW_FINDING_SWAYS] = { "sways", CW_SEVERITY_WARNING },
  [CW_FINDING_TWO_WAYS] = { "two-ways", CW_SEVERITY_WARNING },
  [CW_FINDING_STICKS_OUT] = { "sticks-out", CW_SEVERITY_WARNING },
  [CW_FINDING_TOO_BIG_FOR_ENVELOPE] = { "too-big-for-envelope", CW_SEVERITY_WARNING },
  [CW_FINDING_TOO_THICK] = { "too-thick", CW_SEVERITY_WARNING },
  [CW_FINDING_TUCK_TOO_WIDE] = { "tuck-too-wide", CW_SEVERITY_WARNING },
  [CW_FINDING_LAYER_SHOWS] = { "layer-shows", CW_SEVERITY_WARNING },
  [CW_FINDING_LAYER_HIDDEN] = { "layer-hidden", CW_SEVERITY_WARNING },
  [CW_FINDING_LAYER_OVERHANGS] = { "layer-overhangs", CW_SEVERITY_WARNING },
  [CW_FINDING_WRONG_FACE] = { "wrong-face", CW_SEVERITY_WARNING },
  [CW_FINDING_ART_TURNED] = { "art-turned", CW_SEVERITY_WARNING },
  [CW_FINDING_GLUE_NEAR_EDGE] = { "glue-near-edge", CW_SEVERITY_WARNING },
  [CW_FINDING_GLUE_MISSING] = { "glue-missing", CW_SEVERITY_WARNING },
  [CW_FINDING_HEAT_AFTER_GLUE] = { "heat-after-glue", CW_SEVERITY_WARNING },
  [CW_FINDING_MAIL_SURCHARGE] = { "mail-surcharge", CW_SEVERITY_WARNING },
  [CW_FINDING_TIGHT_MARGIN] = { "tight-margin", CW_SEVERITY_WARNING },
  [CW_FINDING_NEEDS_GIVE] = { "needs-give", CW_SEVERITY_NOTE },
  [CW_FINDING_OFF_SNAP] = { "off-snap", CW_SEVERITY_NOTE },
  [CW_FINDING_NOT_SIMULATED] = { "not-simulated", CW_SEVERITY_NOTE },
  [CW_FINDING_NOT_DECIDED] = { "not-decided", CW_SEVERITY_NOTE },
  [CW_FINDING_NOT_CHECKED] = { "not-checked", CW_SEVERITY_NOTE },
  [CW_FINDING_LOOK_ALIKE_NUMBERS] = { "look-alike-numbers", CW_SEVERITY_NOTE },
  [CW_FINDING_AGAINST_GRAIN] = { "against-grain", CW_SEVERITY_NOTE },
};

static void
panel_ref_clear (gpointer ref)
{
  g_free (((CwPanelRef *) ref)->piece);
}

/**
 * cw_finding_new:
 * @code: what is found
 *
 * Returns: (transfer full): a finding of the code's own severity, known exactly, about the drawing, with no place,
 *   amount or words yet
 */
CwFinding *
cw_finding_new (CwFindingCode code)
{
  g_return_val_if_fail ((guint) code < CW_FINDING_N_CODES, NULL);
  CwFinding *finding = g_new0 (CwFinding, 1);

  finding->code = code;
  finding->severity = codes[code].severity;
  finding->known = CW_KNOWN_EXACT;
  finding->amount_unit = CW_AMOUNT_NONE;
  finding->pieces = g_ptr_array_new_with_free_func (g_free);
  finding->panels = g_array_new (FALSE, FALSE, sizeof (CwPanelRef));
  g_array_set_clear_func (finding->panels, panel_ref_clear);
  finding->marks = g_ptr_array_new_with_free_func (g_free);
  finding->args = g_ptr_array_new_with_free_func (g_free);
  finding->steps = g_ptr_array_new_with_free_func (g_free);
  return finding;
}

/**
 * cw_finding_free:
 * @finding: (nullable) (transfer full): a finding
 */
void
cw_finding_free (CwFinding *finding)
{
  if (!finding)
    return;
  g_free (finding->step);
  g_ptr_array_unref (finding->pieces);
  g_array_unref (finding->panels);
  g_ptr_array_unref (finding->marks);
  g_free (finding->at_piece);
  g_free (finding->mend_mark);
  g_ptr_array_unref (finding->args);
  g_ptr_array_unref (finding->steps);
  g_free (finding);
}

/**
 * cw_finding_copy:
 * @old: a finding
 *
 * Returns: (transfer full): the same
 */
CwFinding *
cw_finding_copy (const CwFinding *old)
{
  CwFinding *finding;

  g_return_val_if_fail (old != NULL, NULL);

  finding = cw_finding_new (old->code);
  finding->severity = old->severity;
  finding->step = g_strdup (old->step);
  finding->fraction = old->fraction;
  for (guint i = 0; i < old->pieces->len; i++)
    g_ptr_array_add (finding->pieces, g_strdup (g_ptr_array_index (old->pieces, i)));
  for (guint i = 0; i < old->panels->len; i++)
    {
      CwPanelRef ref = g_array_index (old->panels, CwPanelRef, i);

      ref.piece = g_strdup (ref.piece);
      g_array_append_val (finding->panels, ref);
    }
  for (guint i = 0; i < old->marks->len; i++)
    g_ptr_array_add (finding->marks, g_strdup (g_ptr_array_index (old->marks, i)));
  finding->has_at = old->has_at;
  finding->at_piece = g_strdup (old->at_piece);
  finding->at = old->at;
  finding->amount_unit = old->amount_unit;
  finding->amount = old->amount;
  finding->known = old->known;
  finding->has_would_be = old->has_would_be;
  finding->would_be = old->would_be;
  finding->mend_mark = g_strdup (old->mend_mark);
  finding->mend_by = old->mend_by;
  finding->mend_turns = old->mend_turns;
  finding->words = old->words;
  finding->remedy = old->remedy;
  for (guint i = 0; i < old->args->len; i++)
    g_ptr_array_add (finding->args, g_strdup (g_ptr_array_index (old->args, i)));
  for (guint i = 0; i < old->steps->len; i++)
    g_ptr_array_add (finding->steps, g_strdup (g_ptr_array_index (old->steps, i)));
  return finding;
}

/**
 * cw_finding_add_piece:
 * @finding: a finding
 * @piece_id: the id of a piece it is about; one already named is not named twice
 */
void
cw_finding_add_piece (CwFinding *finding, const char *piece_id)
{
  g_return_if_fail (finding && piece_id);
  if (!g_ptr_array_find_with_equal_func (finding->pieces, piece_id, g_str_equal, NULL))
    g_ptr_array_add (finding->pieces, g_strdup (piece_id));
}

/**
 * cw_finding_add_panel:
 * @finding: a finding
 * @piece_id: the id of a piece
 * @panel: the number of a panel of that piece
 *
 * Adds the panel, and its piece; a panel already named is not named twice.
 */
void
cw_finding_add_panel (CwFinding *finding, const char *piece_id, guint panel)
{
  g_return_if_fail (finding && piece_id);
  cw_finding_add_piece (finding, piece_id);
  for (guint i = 0; i < finding->panels->len; i++)
    {
      const CwPanelRef *have = &g_array_index (finding->panels, CwPanelRef, i);
      if (have->panel == panel && g_str_equal (have->piece, piece_id))
        return;
    }
  CwPanelRef ref = { g_strdup (piece_id), panel };
  g_array_append_val (finding->panels, ref);
}

/**
 * cw_finding_add_mark:
 * @finding: a finding
 * @piece_id: the id of a piece
 * @mark_id: the id of a mark on it
 *
 * Adds the mark, and its piece; a mark already named is not named twice.
 */
void
cw_finding_add_mark (CwFinding *finding, const char *piece_id, const char *mark_id)
{
  g_return_if_fail (finding && piece_id && mark_id);
  g_autofree char *address = g_strconcat (piece_id, "/", mark_id, NULL);

  cw_finding_add_piece (finding, piece_id);
  if (!g_ptr_array_find_with_equal_func (finding->marks, address, g_str_equal, NULL))
    g_ptr_array_add (finding->marks, g_steal_pointer (&address));
}

/**
 * cw_finding_set_at:
 * @finding: a finding
 * @piece_id: (nullable): the piece in whose flat coordinates the place is; NULL for the held panel's
 * @x_ticks: to the right, in ticks
 * @y_ticks: down, in ticks
 */
void
cw_finding_set_at (CwFinding *finding, const char *piece_id, double x_ticks, double y_ticks)
{
  g_return_if_fail (finding);
  g_free (finding->at_piece);
  finding->at_piece = g_strdup (piece_id);
  finding->at = (CwVec3){ x_ticks, y_ticks, 0.0 };
  finding->has_at = TRUE;
}

/**
 * cw_finding_set_amount:
 * @finding: a finding
 * @unit: what is counted
 * @amount: how much
 */
void
cw_finding_set_amount (CwFinding *finding, CwAmountUnit unit, double amount)
{
  g_return_if_fail (finding);
  finding->amount_unit = unit;
  finding->amount = amount;
}

/**
 * cw_finding_set_mend:
 * @finding: a finding
 * @piece_id: the id of a piece
 * @mark_id: the id of the mark on it that has to move to mend it
 * @turns: whether it has to turn
 * @by: by how much: ticks, or degrees if it turns
 *
 * For remedies as edits: the number that the remedy in words says.
 */
void
cw_finding_set_mend (CwFinding *finding, const char *piece_id, const char *mark_id, gboolean turns, double by)
{
  g_return_if_fail (finding && piece_id && mark_id);
  g_free (finding->mend_mark);
  finding->mend_mark = g_strconcat (piece_id, "/", mark_id, NULL);
  finding->mend_turns = turns;
  finding->mend_by = by;
}

/**
 * cw_finding_set_words:
 * @finding: a finding
 * @words: a static msgid in which {0}, {1}... stand for the arguments
 * @remedy: (nullable): a static msgid likewise, NULL if no remedy is known
 * @...: the arguments, strings, then NULL
 */
void
cw_finding_set_words (CwFinding *finding, const char *words, const char *remedy, ...)
{
  va_list args;

  g_return_if_fail (finding && words);
  finding->words = words;
  finding->remedy = remedy;
  g_ptr_array_set_size (finding->args, 0);
  va_start (args, remedy);
  for (const char *arg = va_arg (args, const char *); arg; arg = va_arg (args, const char *))
    g_ptr_array_add (finding->args, g_strdup (arg));
  va_end (args);
}

/**
 * cw_finding_code_get_key:
 * @code: a code
 *
 * Returns: its word in reports, such as "off-sheet"
 */
const char *
cw_finding_code_get_key (CwFindingCode code)
{
  g_return_val_if_fail ((guint) code < CW_FINDING_N_CODES, NULL);
  return codes[code].key;
}

/**
 * cw_finding_code_get_severity:
 * @code: a code
 *
 * Returns: the severity its findings have unless their maker says otherwise
 */
CwSeverity
cw_finding_code_get_severity (CwFindingCode code)
{
  g_return_val_if_fail ((guint) code < CW_FINDING_N_CODES, CW_SEVERITY_ERROR);
  return codes[code].severity;
}

/**
 * cw_severity_get_key:
 * @severity: a severity
 *
 * Returns: its word in reports
 */
const char *
cw_severity_get_key (CwSeverity severity)
{
  static const char *const keys[] = { "error", "warning", "note" };

  g_return_val_if_fail ((guint) severity < G_N_ELEMENTS (keys), NULL);
  return keys[severity];
}

/* Round the two readings of an argument; no text a maker writes holds them. */
#define BOTH_BEGIN '\x02'
#define BOTH_MIDDLE '\x1f'
#define BOTH_END '\x03'

/**
 * cw_finding_dup_both:
 * @english: how it reads in the report
 * @translated: how it reads in the user's language
 *
 * Returns: (transfer full): both in one, for cw_finding_dup_read(); just the words where they are the same
 */
char *
cw_finding_dup_both (const char *english, const char *translated)
{
  g_return_val_if_fail (english != NULL && translated != NULL, NULL);

  if (g_str_equal (english, translated))
    return g_strdup (english);
  return g_strdup_printf ("%c%s%c%s%c", BOTH_BEGIN, english, BOTH_MIDDLE, translated, BOTH_END);
}

/**
 * cw_finding_dup_read:
 * @text: words with any number of arguments of cw_finding_dup_both() in them, one not within the other
 * @translated: %FALSE for English, %TRUE for the user's language
 *
 * Returns: (transfer full): the words as they read in that language
 */
char *
cw_finding_dup_read (const char *text, gboolean translated)
{
  GString *read;
  gboolean skip = FALSE;

  g_return_val_if_fail (text != NULL, NULL);

  read = g_string_new (NULL);
  for (const char *p = text; *p != '\0'; p++)
    if (*p == BOTH_BEGIN)
      skip = translated;
    else if (*p == BOTH_MIDDLE)
      skip = !translated;
    else if (*p == BOTH_END)
      skip = FALSE;
    else if (!skip)
      g_string_append_c (read, *p);
  return g_string_free (read, FALSE);
}
