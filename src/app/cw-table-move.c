/* cw-table-move.c: marks that the hand moves or stretches.
 *
 * While a drag lasts the design is not touched: fresh copies of the marks are shown moved, and the release makes one
 * edit.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "cw-table-private.h"

#include <glib/gi18n-lib.h>

void
cw_table_forget_moving (CwTable *self)
{
  if (self->moving->len == 0 && self->before->len == 0)
    return;
  g_ptr_array_set_size (self->moving, 0);
  g_ptr_array_set_size (self->before, 0);
  cw_table_redraw_over (self);
}

void
cw_table_take_marks (CwTable *self, CwId stretched)
{
  guint n;
  const CwId *ids = cw_document_get_selection (self->document, &n);
  guint piece = cw_document_get_piece (self->document);

  cw_table_forget_moving (self);
  for (guint i = 0; i < n; i++)
    {
      const CwMark *mark = cw_table_get_mark (self, ids[i]);

      if (mark == NULL || ids[i].piece != piece
          || (stretched.kind == CW_ID_MARK_END && ids[i].index != stretched.index))
        continue;
      g_ptr_array_add (self->moving, cw_mark_copy (mark));
      g_ptr_array_add (self->before, cw_mark_ref ((CwMark *) mark));
    }
}

void
cw_table_slide (CwTable *self)
{
  const CwPanelMap *map = cw_table_get_map (self);
  CwAim aim
    = cw_hand_aim (&self->view, map, 0, self->pointer_x, self->pointer_y, 0, &self->held, cw_table_wants_slant (self));
  CwPoint by = cw_hand_shift (g_ptr_array_index (self->before, 0), self->held, aim.at, cw_table_get_snap (self));

  for (guint i = 0; i < self->before->len; i++)
    by = cw_hand_keep_on_sheet (map, g_ptr_array_index (self->before, i), by);
  for (guint i = 0; i < self->moving->len; i++)
    cw_hand_slide_mark (g_ptr_array_index (self->moving, i), g_ptr_array_index (self->before, i), by);
  cw_table_set_tip (self,
                    cw_words_measure (&self->view, map, g_ptr_array_index (self->moving, 0), cw_table_get_unit (self)));
  cw_table_redraw_over (self);
}

void
cw_table_stretch (CwTable *self)
{
  const CwPanelMap *map = cw_table_get_map (self);
  CwMark *mark = g_ptr_array_index (self->moving, 0);
  CwPoint other = cw_point (0, 0);
  g_autofree char *measure = NULL;
  gboolean straight = mark->shape == CW_SHAPE_LINE && mark->line.n_vertices > 1;

  /* Straight against the vertex beside it. */
  if (straight)
    other = cw_place_get_point (&mark->line.vertices[self->stretch_vertex > 0 ? self->stretch_vertex - 1 : 1].at);
  self->aim = cw_hand_aim (&self->view, map, cw_table_get_snap (self), self->pointer_x, self->pointer_y, CW_TABLE_REACH,
                           straight ? &other : NULL, cw_table_wants_slant (self));
  cw_hand_stretch_mark (mark, self->stretch_vertex, self->aim.at, cw_table_get_unit (self));
  measure = cw_words_measure (&self->view, map, mark, cw_table_get_unit (self));
  cw_table_set_tip (self, self->aim.word
                            ? g_strdup_printf ("%s\n%s", measure, g_dgettext (GETTEXT_PACKAGE, self->aim.word))
                            : g_steal_pointer (&measure));
  cw_table_redraw_over (self);
}

/* One edit for all marks that were moved. */
void
cw_table_put_marks (CwTable *self, const char *name)
{
  GPtrArray *marks = g_ptr_array_new_with_free_func ((GDestroyNotify) cw_mark_unref);
  GError *error = NULL;
  CwEdit *edit;

  for (guint i = 0; i < self->moving->len; i++)
    g_ptr_array_add (marks, cw_mark_copy (g_ptr_array_index (self->moving, i)));
  edit = cw_make_replace_marks (cw_document_get_design (self->document), cw_table_get_piece (self)->id, marks, &error);
  if (edit == NULL || cw_edit_is_empty (edit))
    cw_table_forget_moving (self);
  cw_table_do (self, name, edit, error);
  if (cw_document_is_analysed (self->document))
    cw_table_forget_moving (self);
}
