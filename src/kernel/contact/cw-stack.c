/* cw-stack.c: whether the stacks of a pile are an order that uncut paper can take.
 *
 * Justin's conditions (Justin 1997, Towards a mathematical theory of origami), edge by edge: the two panels of a fold
 * lie as it was folded; no sheet that goes on across a fold line lies within the fold; two folds on one line, open to
 * the same side, lie within or beside one another; two sheets that go on across an edge keep their order. Within one
 * side a scan with a stack of open folds tells all of it, as brackets are matched. That no cell has a cyclic order is
 * given: it has a stack.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "contact/cw-stack.h"

#include <string.h>

/**
 * cw_stack_line_init:
 * @line: (out caller-allocates): a line
 * @pile: the pile it will be read of
 */
void
cw_stack_line_init (CwStackLine *line, const CwPile *pile)
{
  for (int side = 0; side < 2; side++)
    {
      line->seat[side] = g_new0 (guint, pile->n_members + 1);
      line->folds[side] = g_array_new (FALSE, FALSE, sizeof (CwPair));
      line->fold_seams[side] = g_array_new (FALSE, FALSE, sizeof (guint));
    }
  line->sheets = g_array_new (FALSE, FALSE, sizeof (CwPair));
}

/**
 * cw_stack_line_clear:
 * @line: a line
 */
void
cw_stack_line_clear (CwStackLine *line)
{
  for (int side = 0; side < 2; side++)
    {
      g_free (line->seat[side]);
      g_array_unref (line->folds[side]);
      g_array_unref (line->fold_seams[side]);
    }
  g_array_unref (line->sheets);
}

static const CwPileCell *
cell_beside (const CwPile *pile, const CwPileEdge *edge, int side)
{
  return edge->cell[side] == G_MAXUINT ? NULL : &g_array_index (pile->cells, CwPileCell, edge->cell[side]);
}

/**
 * cw_stack_line_read:
 * @line: a line
 * @pile: the pile it was made for
 * @edge: index of one of its edges
 *
 * Finds what folds at the edge and what goes on across it; both in the order of the stacks as far as they have one.
 */
void
cw_stack_line_read (CwStackLine *line, const CwPile *pile, guint edge)
{
  const CwPileEdge *e = &g_array_index (pile->edges, CwPileEdge, edge);
  const CwPileCell *left = cell_beside (pile, e, 0);

  g_array_set_size (line->sheets, 0);
  for (int side = 0; side < 2; side++)
    {
      const CwPileCell *cell = cell_beside (pile, e, side);

      g_array_set_size (line->folds[side], 0);
      g_array_set_size (line->fold_seams[side], 0);
      memset (line->seat[side], 0, pile->n_members * sizeof (guint));
      for (guint i = 0; cell != NULL && i < cell->n_members; i++)
        line->seat[side][cell->members[i]] = i + 1;
    }
  for (guint i = 0; i < e->n_seams; i++)
    {
      guint which = g_array_index (pile->seam_list, guint, e->first_seam + i);
      const CwSeam *seam = &pile->seams[which];

      for (int side = 0; side < 2 && seam->folded; side++)
        if (line->seat[side][seam->a] > 0 && line->seat[side][seam->b] > 0)
          {
            CwPair pair = { seam->a, seam->b };

            g_array_append_val (line->folds[side], pair);
            g_array_append_val (line->fold_seams[side], which);
          }
    }
  for (guint i = 0; left != NULL && i < left->n_members; i++)
    {
      guint member = left->members[i];
      CwPair sheet = { member, member };

      if (line->seat[1][member] == 0)
        {
          /* It may go on as another panel of an unfolded hinge. */
          sheet.b = G_MAXUINT;
          for (guint k = 0; k < e->n_seams && sheet.b == G_MAXUINT; k++)
            {
              const CwSeam *seam = &pile->seams[g_array_index (pile->seam_list, guint, e->first_seam + k)];

              if (!seam->folded && seam->a == member && line->seat[1][seam->b] > 0)
                sheet.b = seam->b;
              else if (!seam->folded && seam->b == member && line->seat[1][seam->a] > 0)
                sheet.b = seam->a;
            }
        }
      if (sheet.b != G_MAXUINT)
        g_array_append_val (line->sheets, sheet);
    }
}

static CwStackVerdict
fault_at (CwStackFault fault, guint edge, guint n, guint a, guint b, guint c, guint d)
{
  return (CwStackVerdict){ fault, edge, n, { a, b, c, d } };
}

/* Keeps a fault. Returns TRUE when one was enough. */
static gboolean
note (GArray *faults, gboolean all, CwStackVerdict verdict)
{
  g_array_append_val (faults, verdict);
  return !all;
}

/* One side of an edge, as brackets are matched. Returns TRUE when one fault was enough and there is one. */
static gboolean
check_side (const CwPile *pile, const CwStackLine *line, guint edge, int side, guint *partner, gboolean *goes_on,
            GArray *opened, GArray *faults, gboolean all)
{
  const CwPileCell *cell = cell_beside (pile, &g_array_index (pile->edges, CwPileEdge, edge), side);

  if (cell == NULL || line->folds[side]->len == 0)
    return FALSE;
  for (guint i = 0; i < cell->n_members; i++)
    {
      partner[cell->members[i]] = G_MAXUINT;
      goes_on[cell->members[i]] = FALSE;
    }
  for (guint i = 0; i < line->sheets->len; i++)
    {
      const CwPair *sheet = &g_array_index (line->sheets, CwPair, i);

      goes_on[side == 0 ? sheet->a : sheet->b] = TRUE;
    }
  for (guint i = 0; i < line->folds[side]->len; i++)
    {
      const CwPair *fold = &g_array_index (line->folds[side], CwPair, i);
      const CwSeam *seam = &pile->seams[g_array_index (line->fold_seams[side], guint, i)];
      gboolean b_over = line->seat[side][seam->b] < line->seat[side][seam->a];
      gboolean meet_over = (seam->fronts > 0) != cw_laid_is_turned (&pile->members[seam->a]);

      if (seam->fronts != 0 && b_over != meet_over
          && note (faults, all, fault_at (CW_STACK_WRONG_WAY, edge, 2, seam->a, seam->b, 0, 0)))
        return TRUE;
      partner[fold->a] = fold->b;
      partner[fold->b] = fold->a;
      /* Where give closes a loop, one of the two overshoots their fold line by the misfit: it ends there all the same.
       */
      goes_on[fold->a] = goes_on[fold->b] = FALSE;
    }
  g_array_set_size (opened, 0);
  for (guint i = 0; i < cell->n_members; i++)
    {
      guint member = cell->members[i], innermost;

      for (guint k = goes_on[member] ? opened->len : 0; k-- > 0;)
        {
          innermost = g_array_index (opened, guint, k);
          if (note (faults, all, fault_at (CW_STACK_SHEET_IN_FOLD, edge, 3, innermost, partner[innermost], member, 0)))
            return TRUE;
        }
      if (partner[member] == G_MAXUINT)
        continue;
      if (line->seat[side][partner[member]] > i + 1)
        {
          g_array_append_val (opened, member);
          continue;
        }
      innermost = g_array_index (opened, guint, opened->len - 1);
      for (guint k = opened->len; k-- > 0 && g_array_index (opened, guint, k) != partner[member];)
        {
          innermost = g_array_index (opened, guint, k);
          if (note (faults, all,
                    fault_at (CW_STACK_FOLDS_CROSS, edge, 4, partner[member], member, innermost, partner[innermost])))
            return TRUE;
        }
      for (guint k = opened->len; k-- > 0;)
        if (g_array_index (opened, guint, k) == partner[member])
          {
            g_array_remove_index (opened, k);
            break;
          }
    }
  return FALSE;
}

static gboolean
check_sheets (const CwStackLine *line, guint edge, GArray *faults, gboolean all)
{
  for (guint i = 1; i < line->sheets->len; i++)
    {
      const CwPair *over = &g_array_index (line->sheets, CwPair, i - 1);
      const CwPair *under = &g_array_index (line->sheets, CwPair, i);

      if (line->seat[1][over->b] > line->seat[1][under->b]
          && note (faults, all,
                   fault_at (CW_STACK_SHEETS_CROSS, edge, over->a == over->b && under->a == under->b ? 2 : 4, over->a,
                             under->a, over->b, under->b)))
        return TRUE;
    }
  return FALSE;
}

/* Linear in the sum of the stacks along all edges. */
static void
find_faults (const CwPile *pile, GArray *faults, gboolean all)
{
  CwStackLine line;
  g_autofree guint *partner = g_new0 (guint, pile->n_members + 1);
  g_autofree gboolean *goes_on = g_new0 (gboolean, pile->n_members + 1);
  g_autoptr (GArray) opened = g_array_new (FALSE, FALSE, sizeof (guint));
  gboolean done = FALSE;

  cw_stack_line_init (&line, pile);
  for (guint i = 0; i < pile->edges->len && !done; i++)
    {
      const CwPileEdge *edge = &g_array_index (pile->edges, CwPileEdge, i);
      gboolean both = edge->cell[0] != G_MAXUINT && edge->cell[1] != G_MAXUINT;

      if (edge->n_seams == 0 && !both)
        continue;
      cw_stack_line_read (&line, pile, i);
      done = check_sheets (&line, i, faults, all);
      for (int side = 0; side < 2 && !done; side++)
        done = check_side (pile, &line, i, side, partner, goes_on, opened, faults, all);
    }
  cw_stack_line_clear (&line);
}

/**
 * cw_stack_check:
 * @pile: a pile with its cells in order
 *
 * Returns: the first fault found, in the order of the edges; %CW_STACK_RIGHT when paper can lie so
 */
CwStackVerdict
cw_stack_check (const CwPile *pile)
{
  CwStackVerdict verdict = { 0 };
  g_autoptr (GArray) faults = NULL;

  g_return_val_if_fail (pile != NULL, verdict);

  faults = g_array_new (FALSE, FALSE, sizeof (CwStackVerdict));
  find_faults (pile, faults, FALSE);
  return faults->len > 0 ? g_array_index (faults, CwStackVerdict, 0) : verdict;
}

/**
 * cw_stack_list_faults:
 * @pile: a pile with its cells in order
 *
 * Returns: (transfer full) (element-type CwStackVerdict): all faults, in the order of the edges; the same one may be
 * seen at several
 */
GArray *
cw_stack_list_faults (const CwPile *pile)
{
  GArray *faults = g_array_new (FALSE, FALSE, sizeof (CwStackVerdict));

  g_return_val_if_fail (pile != NULL, faults);

  find_faults (pile, faults, TRUE);
  return faults;
}
