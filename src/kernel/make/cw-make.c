/* cw-make.c: a new design, the panel that stays still, and steps.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "make/cw-make-private.h"

#include <glib/gi18n-lib.h>
#include <string.h>

#define CALIPER_TICKS 96 /* 0.3 mm: card of about 220 to 240 g/m2 */

G_DEFINE_QUARK (cw_make_error, cw_make_error)

static CwStep *
new_rest_step (const char *id, const char *rest, CwPhase phase)
{
  CwStep *step = cw_step_new ();

  step->id = g_strdup (id);
  step->rest = g_strdup (rest);
  step->what = CW_DO_FOLD;
  step->phase = phase;
  return step;
}

/**
 * cw_make_design:
 * @unit: the unit of bare numbers and new measures
 * @width: of the sheet, ticks
 * @height: of the sheet, ticks
 *
 * A blank sheet: one paper, one piece, the maker's usual marks (1/16 inch, or 1 mm), hand and give of 1/32 inch, and
 * the steps "close" and "open", which fold nothing yet.
 *
 * Returns: (transfer full): the design
 */
CwDesign *
cw_make_design (CwUnit unit, gint32 width, gint32 height)
{
  g_return_val_if_fail (width > 0 && height > 0 && width <= CW_COORDINATE_MAX && height <= CW_COORDINATE_MAX, NULL);

  CwDesign *design = cw_design_new ();
  CwPaper *paper = cw_paper_new ();
  CwPiece *base = cw_piece_new ();
  const CwPoint corners[] = { { 0, 0 }, { width, 0 }, { width, height }, { 0, height } };

  if (!design->head)
    design->head = cw_head_new ();
  design->head->has_measure = TRUE;
  design->head->unit = unit;
  design->head->has_snap = design->head->has_hand = design->head->has_give = TRUE;
  design->head->snap = unit == CW_UNIT_INCH ? cw_length_from_ticks (CW_TICKS_PER_INCH / 16, unit)
                                            : cw_length_from_ticks (CW_TICKS_PER_MM, CW_UNIT_MM);
  design->head->snap_ticks = design->head->snap.ticks;
  design->head->hand = cw_length_from_ticks (CW_TICKS_PER_INCH / 32, CW_UNIT_INCH);
  design->head->give = design->head->hand;

  paper->id = g_strdup ("card");
  paper->name = g_strdup (_ ("Card"));
  paper->has_caliper = TRUE;
  paper->caliper = cw_length_from_ticks (CALIPER_TICKS, CW_UNIT_MM);
  g_ptr_array_add (design->papers, paper);

  base->id = g_strdup ("base");
  base->name = g_strdup (_ ("Card base"));
  base->paper = g_strdup (paper->id);
  base->ground = TRUE;
  for (guint i = 0; i < G_N_ELEMENTS (corners); i++)
    cw_path_append (&base->outline, cw_place_from_point (corners[i], unit), FALSE);
  g_ptr_array_add (design->pieces, base);

  g_ptr_array_add (design->steps, new_rest_step ("close", "closed", CW_PHASE_MAKING));
  g_ptr_array_add (design->steps, new_rest_step ("open", "open", CW_PHASE_USING));
  return design;
}

/**
 * cw_make_set_hold:
 * @point: in the piece's front coordinates, ticks
 *
 * Lets the panel under @point be the one that stays still on the table, or is laid down when the piece is stuck on.
 *
 * Returns: (transfer full): the edit, or NULL with CW_MAKE_ERROR when there is no paper at that point
 */
CwEdit *
cw_make_set_hold (const CwDesign *design, const char *piece_id, CwPoint point, GError **error)
{
  g_return_val_if_fail (design && cw_design_get_piece (design, piece_id), NULL);

  g_autoptr (CwMakeGraph) graph = cw_make_graph_new (design, piece_id);
  guint panel = cw_panel_map_find (graph->map, point);
  if (panel == G_MAXUINT
      || !cw_polygon_contains (&g_array_index (graph->map->panels, CwPanel, panel).outline, point.x, point.y))
    {
      g_set_error_literal (error, CW_MAKE_ERROR, CW_MAKE_ERROR_IMPOSSIBLE, _ ("there is no paper at that point"));
      return NULL;
    }
  CwMakeWork work = cw_make_work_begin (design);
  CwPiece *copy = cw_piece_copy (graph->map->piece);
  copy->has_hold = TRUE;
  copy->hold = cw_place_from_point (point, design->head->unit);
  cw_make_replace_piece (&work, copy);
  return cw_make_work_end (&work);
}

/**
 * cw_make_rename_step:
 * @step_id: an existing step
 * @title: (nullable): its title; NULL or "" for none
 *
 * Returns: (transfer full): the edit
 */
CwEdit *
cw_make_rename_step (const CwDesign *design, const char *step_id, const char *title)
{
  guint index = design ? cw_design_find_step (design, step_id) : G_MAXUINT;
  g_return_val_if_fail (index != G_MAXUINT, NULL);

  CwStep *copy = cw_step_copy (design->steps->pdata[index]);
  g_free (copy->title);
  copy->title = title && *title ? g_strdup (title) : NULL;
  return cw_edit_new_replace (design, CW_LIST_STEPS, NULL, index, copy);
}

/* Where `step` would stand between its neighbours: before everything in it must come... */
static gboolean
may_follow (const CwStep *earlier, const CwStep *later, GError **error)
{
  const char *why = NULL;

  if (earlier->phase == CW_PHASE_USING && later->phase != CW_PHASE_USING)
    why = _ ("what the reader does comes after the making");
  else if (g_strcmp0 (earlier->rest, "open") == 0 && g_strcmp0 (later->rest, "closed") == 0
           && earlier->phase == CW_PHASE_USING)
    why = _ ("the card is closed before it can be opened");
  else if (earlier->what == CW_DO_TAKE_AWAY && later->what == CW_DO_STICK
           && g_strcmp0 (earlier->piece, later->piece) == 0)
    why = _ ("a piece cannot be taken away before it is laid there");
  if (!why)
    return TRUE;
  g_set_error_literal (error, CW_MAKE_ERROR, CW_MAKE_ERROR_IMPOSSIBLE, why);
  return FALSE;
}

/**
 * cw_make_move_step:
 * @step_id: an existing step
 * @to: its index afterwards
 *
 * Returns: (transfer full): the edit, or NULL with CW_MAKE_ERROR when the order would make no sense
 */
CwEdit *
cw_make_move_step (const CwDesign *design, const char *step_id, guint to, GError **error)
{
  guint from = design ? cw_design_find_step (design, step_id) : G_MAXUINT;
  g_return_val_if_fail (from != G_MAXUINT && to < design->steps->len, NULL);

  const CwStep *step = design->steps->pdata[from];
  for (guint i = MIN (from, to); i <= MAX (from, to); i++)
    {
      const CwStep *other = design->steps->pdata[i];

      if (i != from && !(from < to ? may_follow (other, step, error) : may_follow (step, other, error)))
        return NULL;
    }
  return cw_edit_new_move (CW_LIST_STEPS, NULL, from, to);
}
