/* cw-miss-loop.c: whether what a hand puts in its place is part of a loop of panels: paper that hangs together round a
 * fold line without folding there, by other fold lines or by glue, or a layer glued to two panels of one piece.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "check/cw-trial.h"

static guint
find_root (guint *parent, guint i)
{
  while (parent[i] != i)
    i = parent[i] = parent[parent[i]];
  return i;
}

/* A number for all panels that hang together at the end of all steps without folding at one fold line. */
static void
join_panels (const CwAnalysis *analysis, guint except, guint *parent)
{
  const CwPanelSet *set = analysis->panels;
  const CwMotion *motion = analysis->motion;
  guint n = cw_panel_set_n_panels (set), last = cw_motion_get_n_steps (motion) - 1;
  g_autofree guint *first = g_new (guint, n + 1);

  for (guint i = 0; i < n; i++)
    {
      parent[i] = i;
      first[i] = G_MAXUINT;
    }
  for (guint i = 0; i < n; i++)
    {
      guint body = cw_motion_get_body (motion, last, i);

      if (body >= n)
        continue;
      if (first[body] == G_MAXUINT)
        first[body] = i;
      parent[find_root (parent, i)] = find_root (parent, first[body]);
    }
  for (guint h = 0; h < cw_panel_set_n_hinges (set); h++)
    {
      guint piece;
      const CwHinge *hinge = cw_panel_set_get_hinge (set, h, &piece);

      if (h != except)
        parent[find_root (parent, set->first_panel[piece] + hinge->left)]
          = find_root (parent, set->first_panel[piece] + hinge->right);
    }
}

/* Whether the paper hangs together round one of the line's fold lines, by others or by glue. */
static gboolean
line_is_in_loop (const CwAnalysis *analysis, const CwMiss *miss)
{
  const CwPanelSet *set = analysis->panels;
  g_autofree guint *parent = g_new (guint, cw_panel_set_n_panels (set) + 1);

  for (guint h = 0; h < cw_panel_set_n_hinges (set); h++)
    {
      guint piece;
      const CwHinge *hinge = cw_panel_set_get_hinge (set, h, &piece);
      gboolean on_line = FALSE;

      for (guint i = 0; i < miss->marks->len && g_str_equal (set->maps[piece].piece->id, miss->piece); i++)
        on_line |= g_ptr_array_find_with_equal_func (hinge->scores, cw_miss_get_mark (miss, analysis->design, i)->id,
                                                     g_str_equal, NULL);
      if (!on_line)
        continue;
      join_panels (analysis, h, parent);
      if (find_root (parent, set->first_panel[piece] + hinge->left)
          == find_root (parent, set->first_panel[piece] + hinge->right))
        return TRUE;
    }
  return FALSE;
}

/* Whether glue holds the piece to two panels of one other. */
static gboolean
layer_is_in_loop (const CwAnalysis *analysis, const char *piece_id)
{
  const CwPanelSet *set = analysis->panels;
  const GArray *rows = cw_bonds_get_rows (analysis->bonds);
  guint piece = cw_design_find_piece (analysis->design, piece_id);
  g_autofree guint *met = g_new0 (guint, set->n_pieces + 1); /* the panel met of each, and one more */

  for (guint i = 0; i < rows->len; i++)
    {
      const CwGlued *row = &g_array_index (rows, CwGlued, i);
      guint a, b, other;

      cw_panel_set_locate (set, row->panel, &a, NULL);
      cw_panel_set_locate (set, row->other, &b, NULL);
      if ((a == piece) == (b == piece))
        continue;
      other = a == piece ? row->other : row->panel;
      if (met[a == piece ? b : a] != 0 && met[a == piece ? b : a] != other + 1)
        return TRUE;
      met[a == piece ? b : a] = other + 1;
    }
  return FALSE;
}

/**
 * cw_miss_is_in_loop:
 * @miss: what is put in its place
 * @analysis: of its design
 *
 * Returns: whether the paper has to give if it misses, as a loop of panels closes over it. What nothing holds in its
 *   place counts too: it goes where it is pushed
 */
gboolean
cw_miss_is_in_loop (const CwMiss *miss, const CwAnalysis *analysis)
{
  g_return_val_if_fail (miss != NULL && analysis != NULL, FALSE);

  for (guint i = 0; i < analysis->findings->len; i++)
    {
      const CwFinding *finding = analysis->findings->pdata[i];

      if (finding->code == CW_FINDING_GLUE_MISSING
          && g_ptr_array_find_with_equal_func (finding->pieces, miss->piece, g_str_equal, NULL))
        return TRUE;
    }
  return (miss->kind == CW_MISS_SCORE && line_is_in_loop (analysis, miss))
         || (miss->kind == CW_MISS_LAYER && layer_is_in_loop (analysis, miss->piece));
}
