/* cw-table-move.c: marks, glue and picture areas that the hand moves or stretches.
 *
 * While a drag lasts the design is not touched: fresh copies of the outlines are shown moved, and the release makes one
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
  g_array_set_size (self->moved, 0);
  cw_table_redraw_over (self);
}

/* Takes what is selected on this piece into the hand, or the one thing whose end is pulled. */
void
cw_table_take (CwTable *self, CwId stretched)
{
  guint n;
  const CwId *ids = cw_document_get_selection (self->document, &n);
  CwId one = cw_table_whole (stretched);

  cw_table_forget_moving (self);
  if (stretched.kind != CW_ID_NONE)
    {
      ids = &one;
      n = 1;
    }
  for (guint i = 0; i < n; i++)
    {
      CwMark *outline = cw_table_dup_outline (self, ids[i]);

      if (outline == NULL)
        continue;
      g_ptr_array_add (self->moving, outline);
      g_ptr_array_add (self->before, cw_mark_copy (outline));
      g_array_append_val (self->moved, ids[i]);
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
  guint n = mark->line.n_vertices, vertex = self->stretch_vertex;
  CwPoint other = cw_point (0, 0);
  g_autofree char *measure = NULL;
  gboolean straight = mark->shape == CW_SHAPE_LINE && n > 1;

  if (cw_hand_arc_depth (mark) >= 0 && vertex == 1)
    self->aim = cw_hand_aim_rise (&self->view, map, cw_table_get_snap (self), self->pointer_x, self->pointer_y,
                                  CW_TABLE_REACH, cw_place_get_point (&mark->line.vertices[0].at),
                                  cw_place_get_point (&mark->line.vertices[2].at));
  else
    {
      /* Straight against the vertex beside it. */
      if (straight)
        other = cw_place_get_point (&mark->line.vertices[vertex > 0 ? vertex - 1 : 1].at);
      self->aim = cw_hand_aim (&self->view, map, cw_table_get_snap (self), self->pointer_x, self->pointer_y,
                               CW_TABLE_REACH, straight ? &other : NULL, cw_table_wants_slant (self));
    }
  cw_hand_stretch_mark (mark, vertex, self->aim.at, cw_table_get_unit (self));
  measure = cw_words_measure (&self->view, map, mark, cw_table_get_unit (self));
  cw_table_set_tip (self, self->aim.word
                            ? g_strdup_printf ("%s\n%s", measure, g_dgettext (GETTEXT_PACKAGE, self->aim.word))
                            : g_steal_pointer (&measure));
  cw_table_redraw_over (self);
}

/* Adds an edit made on the design so far, and brings the design up to it. Takes the edit. */
void
cw_table_go_on (CwEdit *group, CwDesign **design, CwEdit *edit)
{
  CwDesign *next;

  if (edit == NULL)
    return;
  next = cw_edit_apply (edit, *design);
  cw_design_unref (*design);
  *design = next;
  cw_edit_group_add (group, edit);
}

static const char *
name_of_move (CwTable *self, gboolean stretched)
{
  const CwId *id = &g_array_index (self->moved, CwId, 0);

  if (stretched)
    return _ ("move an end");
  if (self->moved->len > 1)
    return _ ("move marks");
  return id->kind == CW_ID_ZONE ? _ ("move glue") : id->kind == CW_ID_ART ? _ ("move picture area") : _ ("move mark");
}

/* One edit for all that was moved. */
void
cw_table_put (CwTable *self)
{
  GPtrArray *marks = g_ptr_array_new_with_free_func ((GDestroyNotify) cw_mark_unref);
  g_autoptr (CwDesign) design = cw_design_ref (cw_document_get_design (self->document));
  CwEdit *group = cw_edit_new_group ();
  GError *error = NULL;
  g_autofree char *piece
    = g_strdup (((CwPiece *) g_ptr_array_index (design->pieces, cw_document_get_piece (self->document)))->id);
  gboolean stretched = self->stretch_vertex != G_MAXUINT;

  for (guint i = 0; i < self->moving->len; i++)
    if (g_array_index (self->moved, CwId, i).kind == CW_ID_MARK)
      g_ptr_array_add (marks, cw_mark_copy (g_ptr_array_index (self->moving, i)));
  if (marks->len > 0)
    cw_table_go_on (group, &design, cw_make_replace_marks (design, piece, marks, &error));
  else
    g_ptr_array_unref (marks);
  for (guint i = 0; i < self->moving->len && error == NULL; i++)
    {
      const CwId *id = &g_array_index (self->moved, CwId, i);
      const CwMark *outline = g_ptr_array_index (self->moving, i);

      if (id->kind == CW_ID_ZONE)
        cw_table_go_on (group, &design, cw_make_redraw_glue (design, id->index, outline, &error));
      else if (id->kind == CW_ID_ART)
        cw_table_go_on (group, &design, cw_make_redraw_art (design, piece, id->index, outline, &error));
    }
  if (error != NULL || cw_edit_is_empty (group))
    cw_table_forget_moving (self);
  cw_document_try (self->document, name_of_move (self, stretched), group, error);
  if (cw_document_is_analysed (self->document))
    cw_table_forget_moving (self);
}
