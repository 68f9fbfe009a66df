/* cw-drawing-grain.c: long fold lines across the grain of a heavy paper.
 *
 * Across the grain the fibres of heavy paper break at the fold and spring back (common practice of the trade). A fold
 * line runs across when it is more than 45 degrees off the grain. Nothing is said where weight or grain is not known,
 * and of scores that are not folded. One note a piece, about its longest such fold line; where another one would run
 * across if the sheet were turned, turning is no remedy.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "panel/cw-drawing-fault.h"

#include "cw-config.h"
#include "geometry/cw-house.h"
#include "geometry/cw-tolerance.h"
#include "units/cw-grammage.h"

#include <glib/gi18n-lib.h>

/* The longest fold line that is long enough to be told and whose longer way is along y (or x). */
static const CwHinge *
find_longest (const CwDrawing *drawing, gboolean along_y)
{
  const CwHinge *longest = NULL;

  for (guint i = 0; i < drawing->map->hinges->len; i++)
    {
      const CwHinge *hinge = &g_array_index (drawing->map->hinges, CwHinge, i);
      gint64 dx = ABS ((gint64) hinge->q.x - hinge->p.x), dy = ABS ((gint64) hinge->q.y - hinge->p.y);

      if (hinge->fold == CW_FOLD_NONE || dx == dy || (dy > dx) != along_y
          || hinge->length < CW_HOUSE_GRAIN_LENGTH - CW_TOL_MEETS_TICKS
          || (longest != NULL && hinge->length <= longest->length))
        continue;
      longest = hinge;
    }
  return longest;
}

/**
 * cw_drawing_check_grain:
 * @drawing: a drawing
 *
 * Adds `against-grain`.
 */
void
cw_drawing_check_grain (const CwDrawing *drawing)
{
  const CwPiece *piece = drawing->sheet->piece;
  const CwPaper *paper = piece->paper != NULL ? cw_design_get_paper (drawing->design, piece->paper) : NULL;
  const CwHinge *across;
  g_autofree char *amount = NULL;
  CwFinding *finding;
  double grams;
  gboolean along_y;

  if (paper == NULL || paper->grain == NULL || !cw_grammage_parse (paper->weight, &grams)
      || grams < CW_HOUSE_GRAIN_GRAMS)
    return;
  along_y = g_str_equal (paper->grain, "y");
  across = find_longest (drawing, !along_y);
  if (across == NULL)
    return;
  finding = cw_drawing_add (drawing, CW_FINDING_AGAINST_GRAIN,
                            cw_point ((across->p.x + across->q.x) / 2, (across->p.y + across->q.y) / 2));
  for (guint i = 0; i < across->scores->len; i++)
    cw_finding_add_mark (finding, piece->id, across->scores->pdata[i]);
  cw_finding_set_amount (finding, CW_AMOUNT_TICKS, across->length);
  amount = cw_drawing_say_length (drawing, across->length);
  if (find_longest (drawing, along_y) == NULL)
    cw_finding_set_words (
      finding, N_ ("“{0}” folds {1} of “{2}” across the grain: heavy paper may crack there and spring open."),
      N_ ("Cut “{2}” with the grain along that fold line."), across->scores->pdata[0], amount, piece->id, NULL);
  else
    cw_finding_set_words (finding,
                          N_ ("“{0}” folds {1} of “{2}” across the grain: heavy paper may crack there and spring open. "
                              "Turned by a quarter, another fold line would run across."),
                          N_ ("Score “{0}” well before folding it, or take a lighter paper."), across->scores->pdata[0],
                          amount, piece->id, NULL);
}
