/* cw-table-line.c: the line being drawn: aiming, the rubber line with its words, and making the mark.
 *
 * A line is drawn by press, drag and release, or by clicks; a cut may have corners, ended by a double click or Enter,
 * and one that comes back to its start is a window. Straight and held places come from cw_hand_aim().
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "cw-table-private.h"

#include <glib/gi18n-lib.h>

static const char *const tool_names[CW_N_TOOLS] = { "select", "score", "cut", "window" };

gint32
cw_table_get_snap (CwTable *self)
{
  return cw_document_get_design (self->document)->head->snap_ticks;
}

CwUnit
cw_table_get_unit (CwTable *self)
{
  return cw_document_get_design (self->document)->head->unit;
}

/* A measure is not broken between lines: "1 5/8 in" holds together. */
static char *
hold_measures (char *text)
{
  GString *held;

  if (text == NULL)
    return NULL;
  held = g_string_sized_new (strlen (text) + 16);
  for (const char *c = text; *c != '\0'; c++)
    {
      gboolean inside = *c == ' ' && c > text && g_ascii_isdigit (c[-1])
                        && (g_ascii_isdigit (c[1]) || g_str_has_prefix (c + 1, "in") || g_str_has_prefix (c + 1, "mm")
                            || g_str_has_prefix (c + 1, "cm"));

      g_string_append (held, inside ? "\302\240" : (const char[]){ *c, '\0' });
    }
  g_free (text);
  return g_string_free (held, FALSE);
}

void
cw_table_set_tip (CwTable *self, char *text)
{
  text = hold_measures (text);
  if (g_strcmp0 (self->tip_text, text) == 0)
    {
      g_free (text);
      if (self->tip_text != NULL)
        gtk_widget_queue_draw (GTK_WIDGET (self)); /* it goes with the pointer */
      return;
    }
  g_free (self->tip_text);
  self->tip_text = text;
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

/* ---- The line being drawn ---- */

gboolean
cw_table_wants_slant (CwTable *self)
{
  return (self->state & GDK_SHIFT_MASK) != 0 || self->tool == CW_TOOL_WINDOW;
}

void
cw_table_update_aim (CwTable *self)
{
  const CwPoint *from = self->n_points > 0 ? &self->points[self->n_points - 1] : NULL;

  self->aim = cw_hand_aim (&self->view, cw_table_get_map (self), cw_table_get_snap (self), self->pointer_x,
                           self->pointer_y, CW_TABLE_REACH, from, cw_table_wants_slant (self));
}

/* The rubber mark takes the points so far and the place aimed at. Its vertices are made once and refilled. */
static void
update_rubber (CwTable *self)
{
  guint n = self->n_points + 1;
  CwMarkKind kind = self->tool == CW_TOOL_SCORE ? CW_MARK_SCORE
                    : self->tool == CW_TOOL_CUT ? CW_MARK_CUT
                                                : CW_MARK_WINDOW;

  if (self->rubber == NULL || self->rubber->line.n_vertices != n || self->rubber->kind != kind)
    {
      g_clear_pointer (&self->rubber, cw_mark_unref);
      self->rubber = cw_mark_new ();
      self->rubber->kind = kind;
      self->rubber->shape = kind == CW_MARK_WINDOW ? CW_SHAPE_RECT : CW_SHAPE_LINE;
      for (guint i = 0; i < n; i++)
        cw_path_append (&self->rubber->line, cw_place_from_point (cw_point (0, 0), cw_table_get_unit (self)), FALSE);
    }
  for (guint i = 0; i < n; i++)
    self->rubber->line.vertices[i].at
      = cw_place_from_point (i < self->n_points ? self->points[i] : self->aim.at, cw_table_get_unit (self));
}

static void
tell_line (CwTable *self)
{
  g_autofree char *measure = NULL;
  const char *word = self->aim.word ? g_dgettext (GETTEXT_PACKAGE, self->aim.word) : NULL;
  const char *straight = self->tool == CW_TOOL_WINDOW || self->n_points == 0 ? NULL
                         : self->aim.upright                                 ? _ ("upright")
                         : self->aim.level                                   ? _ ("level")
                                                                             : _ ("slanted");

  if (self->n_points == 0)
    measure = cw_words_place (&self->view, cw_table_get_map (self), self->aim.at, cw_table_get_unit (self));
  else if (self->tool == CW_TOOL_WINDOW)
    measure = cw_words_measure (&self->view, cw_table_get_map (self), self->rubber, cw_table_get_unit (self));
  else
    measure = cw_words_line (&self->view, cw_table_get_map (self), self->points[self->n_points - 1], self->aim.at,
                             cw_table_get_unit (self));
  if (self->n_points == 0 && cw_table_get_piece (self)->marks->len == 0)
    cw_table_set_tip (self, g_strdup_printf ("%s\n%s", measure, _ ("Press here and pull to the other end.")));
  else if (word != NULL && straight != NULL)
    cw_table_set_tip (self, g_strdup_printf ("%s\n%s · %s", measure, straight, word));
  else if (word != NULL || straight != NULL)
    cw_table_set_tip (self, g_strdup_printf ("%s\n%s", measure, word ? word : straight));
  else
    cw_table_set_tip (self, g_steal_pointer (&measure));
}

void
cw_table_follow_line (CwTable *self)
{
  cw_table_update_aim (self);
  if (self->n_points > 0)
    update_rubber (self);
  if (self->n_points > 0 || !gtk_widget_get_visible (self->offer))
    tell_line (self);
  else
    cw_table_set_tip (self, NULL); /* the offer has the word */
  cw_table_redraw_over (self);
}

void
cw_table_drop_line (CwTable *self)
{
  self->n_points = 0;
  g_clear_pointer (&self->rubber, cw_mark_unref);
  cw_table_redraw_over (self);
}

static void
add_mark (CwTable *self, CwMark *mark)
{
  GPtrArray *marks = g_ptr_array_new_with_free_func ((GDestroyNotify) cw_mark_unref);
  CwDesign *design = cw_document_get_design (self->document);
  CwPiece *piece = g_ptr_array_index (design->pieces, cw_document_get_piece (self->document));
  guint before = piece->marks->len;
  const char *name = mark->kind == CW_MARK_SCORE ? _ ("draw score")
                     : mark->kind == CW_MARK_CUT ? _ ("draw cut")
                                                 : _ ("draw window");
  GError *error = NULL;
  CwEdit *edit;

  /* Shown until the analysis has caught up. */
  g_ptr_array_add (self->moving, cw_mark_copy (mark));
  g_ptr_array_add (marks, mark);
  edit = cw_make_add_marks (design, piece->id, marks, TRUE, &error);
  if (edit == NULL)
    cw_table_forget_moving (self);
  cw_table_do (self, name, edit, error);
  piece = g_ptr_array_index (cw_document_get_design (self->document)->pieces, cw_document_get_piece (self->document));
  if (piece->marks->len > before)
    {
      CwId id = { CW_ID_MARK, cw_document_get_piece (self->document), piece->marks->len - 1 };

      cw_document_select (self->document, &id, 1);
      cw_table_offer_flip (self);
    }
}

/* Ends the line being drawn at the last point it has, and makes the mark. */
void
cw_table_finish_line (CwTable *self)
{
  CwMark *mark;
  guint n = self->n_points;

  if (n < 2)
    {
      cw_table_drop_line (self);
      return;
    }
  mark = cw_mark_new ();
  mark->kind = self->tool == CW_TOOL_SCORE ? CW_MARK_SCORE : self->tool == CW_TOOL_CUT ? CW_MARK_CUT : CW_MARK_WINDOW;
  if (mark->kind == CW_MARK_WINDOW)
    mark->shape = CW_SHAPE_RECT;
  if (mark->kind == CW_MARK_CUT && n > 3 && cw_point_equal (self->points[0], self->points[n - 1]))
    {
      mark->kind = CW_MARK_WINDOW; /* it comes back to its start: what is inside falls out */
      n--;
    }
  for (guint i = 0; i < n; i++)
    cw_path_append (&mark->line, cw_place_from_point (self->points[i], cw_table_get_unit (self)), FALSE);
  cw_table_drop_line (self);
  add_mark (self, mark);
  if (self->document != NULL && cw_table_is_ready (self))
    cw_table_update_aim (self);
}

/* A line of no length or an opening of no area is not made: the hand has not come anywhere yet. */
static gboolean
has_no_size (CwTable *self, CwPoint a, CwPoint b)
{
  return self->tool == CW_TOOL_WINDOW ? a.x == b.x || a.y == b.y : cw_point_equal (a, b);
}

/* Adds the place aimed at. TRUE when that ends the line. */
gboolean
cw_table_add_point (CwTable *self)
{
  if (self->n_points > 0 && has_no_size (self, self->points[self->n_points - 1], self->aim.at))
    return FALSE;
  if (self->n_points == CW_TABLE_POINTS_MAX)
    return TRUE;
  self->points[self->n_points++] = self->aim.at;
  if (self->tool != CW_TOOL_CUT)
    return self->n_points == 2;
  return self->n_points > 3 && cw_point_equal (self->points[0], self->aim.at);
}

void
cw_table_set_tool (CwTable *self, CwTool tool)
{
  cw_table_drop_line (self);
  cw_table_set_tip (self, NULL);
  self->tool = tool;
  gtk_widget_set_cursor_from_name (GTK_WIDGET (self), tool == CW_TOOL_SELECT ? NULL : "crosshair");
  g_simple_action_set_state (G_SIMPLE_ACTION (g_action_map_lookup_action (G_ACTION_MAP (self->actions), "tool")),
                             g_variant_new_string (tool_names[tool]));
}
