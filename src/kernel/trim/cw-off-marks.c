/* cw-off-marks.c: measures that lie between the marks of the maker's own tools.
 *
 * The design's own marks are looked after where the drawing is (panel/cw-drawing-snap.c); here it is the rule at hand
 * that may be coarser. What is asked is what is set: places on the rules, in whatever way the sheet lies, and the sides
 * of the blanks. Nothing is said while the maker has named no marks.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "trim/cw-trimmer.h"

#include "panel/cw-path-flatten.h"

#include <glib/gi18n-lib.h>
#include <stdlib.h>

static gboolean
is_off (const CwLength *length, gint32 step)
{
  return !cw_length_is_whole (*length) || length->ticks % step != 0;
}

static CwFinding *
add_finding (GPtrArray *findings, const CwPiece *piece, const char *mark, const CwLength *length, gint32 step,
             const char *words)
{
  CwFinding *finding = cw_finding_new (CW_FINDING_OFF_SNAP);
  gint32 nearest = cw_ticks_snap (length->ticks, step);
  g_autofree char *is = cw_length_format (*length), *better = cw_length_format_ticks (nearest, length->unit);
  g_autofree char *every = cw_length_format_ticks (step, length->unit);

  cw_finding_add_piece (finding, piece->id);
  if (mark != NULL)
    cw_finding_add_mark (finding, piece->id, mark);
  cw_finding_set_amount (finding, CW_AMOUNT_TICKS, ABS (nearest - length->ticks));
  cw_finding_set_words (finding, words, N_ ("The nearest of your marks is {2}."), mark != NULL ? mark : piece->id, is,
                        better, every, NULL);
  g_ptr_array_add (findings, finding);
  return finding;
}

static void
tell_sides (GPtrArray *findings, const CwDesign *design, const CwPiece *piece, gint32 step)
{
  CwUnit unit = piece->outline.n_vertices > 0 ? piece->outline.vertices[0].at.x.unit : design->head->unit;
  CwPoint low, high;

  cw_piece_get_box (piece, &low, &high);
  const CwLength sides[2]
    = { cw_length_from_ticks (high.x - low.x, unit), cw_length_from_ticks (high.y - low.y, unit) };
  for (guint i = 0; i < 2; i++)
    if (is_off (&sides[i], step))
      {
        add_finding (findings, piece, NULL, &sides[i], step,
                     N_ ("“{0}” is cut to {1}, which lies between the marks of your rule, every {3}."));
        return;
      }
}

/* Whether a mark, or a piece for its outline, has been told of. */
static gboolean
is_told (const GPtrArray *findings, const char *piece, const char *mark)
{
  g_autofree char *address = mark != NULL ? g_strdup_printf ("%s/%s", piece, mark) : NULL;

  for (guint i = 0; i < findings->len; i++)
    {
      const CwFinding *finding = g_ptr_array_index (findings, i);

      if (mark == NULL ? finding->marks->len == 0 && g_strcmp0 (finding->pieces->pdata[0], piece) == 0
                       : finding->marks->len > 0 && g_strcmp0 (finding->marks->pdata[0], address) == 0)
        return TRUE;
    }
  return FALSE;
}

/**
 * cw_trimming_tell_off_marks:
 * @trimming: the moves of a design
 * @design: the design
 * @tools: the maker's tools
 *
 * Returns: (transfer full): GPtrArray of #CwFinding: notes, one a mark and one a piece, about the first measure of
 * each that lies between the marks of the tools; none when the tools name no finest mark
 */
GPtrArray *
cw_trimming_tell_off_marks (const CwTrimming *trimming, const CwDesign *design, const CwTools *tools)
{
  GPtrArray *findings = g_ptr_array_new_with_free_func ((GDestroyNotify) cw_finding_free);

  g_return_val_if_fail (trimming != NULL && design != NULL && tools != NULL, findings);
  if (tools->finest <= 0)
    return findings;
  for (guint i = 0; i < design->pieces->len; i++)
    tell_sides (findings, design, g_ptr_array_index (design->pieces, i), tools->finest);
  for (guint i = 0; i < trimming->moves->len; i++)
    {
      const CwMove *move = &g_array_index (trimming->moves, CwMove, i);
      const CwPiece *piece = g_ptr_array_index (design->pieces, move->piece);
      const char *mark
        = move->mark != CW_MOVE_OUTLINE ? ((const CwMark *) g_ptr_array_index (piece->marks, move->mark))->id : NULL;
      const CwLength *const measures[] = { &move->at, &move->from, &move->to };

      for (guint k = 0; k < (move->whole ? 1 : 3) && !move->joins && !is_told (findings, piece->id, mark); k++)
        if (is_off (measures[k], tools->finest))
          add_finding (findings, piece, mark, measures[k], tools->finest,
                       N_ ("“{0}” is set at {1}, which lies between the marks of your rule, every {3}."));
    }
  return findings;
}
