/* cw-table-line.c: what is being drawn: aiming, the rubber line with its words, and the mark that becomes of it.
 *
 * Everything is drawn by press, drag and release, or by clicks: places are gathered until the form has all it needs. A
 * cut may have corners, ended by a double click or Enter, and one that comes back to its start is a window. Held and
 * straightened places come from cw_hand_aim(). What is made of the outline is in cw-table-lay.c.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "cw-table-private.h"

#include <glib/gi18n-lib.h>

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
  CwForm form = cw_table_get_form (self);

  return (self->state & GDK_SHIFT_MASK) != 0
         || (self->tool != CW_TOOL_SELECT && (form == CW_FORM_BOX || form == CW_FORM_ROUND));
}

void
cw_table_update_aim (CwTable *self)
{
  const CwPoint *from = self->n_points > 0 ? &self->points[self->n_points - 1] : NULL;
  const CwPanelMap *map = cw_table_get_map (self);
  CwForm form = cw_table_get_form (self);

  if (form == CW_FORM_ARC && self->n_points == 2)
    self->aim = cw_hand_aim_rise (&self->view, map, cw_table_get_snap (self), self->pointer_x, self->pointer_y,
                                  CW_TABLE_REACH, self->points[0], self->points[1]);
  else
    self->aim = cw_hand_aim (&self->view, map, form == CW_FORM_ROUND && from != NULL ? 0 : cw_table_get_snap (self),
                             self->pointer_x, self->pointer_y, CW_TABLE_REACH, from, cw_table_wants_slant (self));
}

static CwMarkKind
mark_kind (CwTable *self)
{
  return self->tool == CW_TOOL_SCORE ? CW_MARK_SCORE : self->tool == CW_TOOL_CUT ? CW_MARK_CUT : CW_MARK_WINDOW;
}

/* Gives a mark the form at hand through places. Its vertices are made once and refilled. */
static void
shape (CwTable *self, CwMark *mark, const CwPoint *points, guint n, const CwAim *aim)
{
  CwUnit unit = cw_table_get_unit (self);
  CwForm form = cw_table_get_form (self);
  gboolean arc = form == CW_FORM_ARC && n == 3;

  if (form == CW_FORM_ROUND && n == 2)
    {
      mark->shape = CW_SHAPE_CIRCLE;
      mark->centre = cw_place_from_point (points[0], unit);
      mark->radius = cw_length_from_ticks (MAX (1, cw_hand_radius (points[0], aim, cw_table_get_snap (self))), unit);
      return;
    }
  if (mark->line.n_vertices != n)
    {
      cw_path_clear (&mark->line);
      for (guint i = 0; i < n; i++)
        cw_path_append (&mark->line, cw_place_from_point (points[i], unit), arc && i == 1);
    }
  mark->shape = form == CW_FORM_BOX && n == 2 ? CW_SHAPE_RECT : CW_SHAPE_LINE;
  for (guint i = 0; i < n; i++)
    {
      /* Drawn last, the place an arc goes through stands between its ends. */
      guint from = arc && i > 0 ? 3 - i : i;

      mark->line.vertices[i].at = cw_place_from_point (points[from], unit);
      mark->line.vertices[i].through = arc && i == 1;
    }
}

/* The rubber mark takes the points so far and the place aimed at. */
static void
update_rubber (CwTable *self)
{
  CwPoint points[CW_TABLE_POINTS_MAX + 1];
  CwMarkKind kind = mark_kind (self);

  for (guint i = 0; i < self->n_points; i++)
    points[i] = self->points[i];
  points[self->n_points] = self->aim.at;
  if (self->rubber == NULL || self->rubber->kind != kind)
    {
      g_clear_pointer (&self->rubber, cw_mark_unref);
      self->rubber = cw_mark_new ();
      self->rubber->kind = kind;
    }
  shape (self, self->rubber, points, self->n_points + 1, &self->aim);
}

static void
tell_line (CwTable *self)
{
  g_autofree char *measure = NULL, *hint = cw_table_dup_hint (self);
  CwForm form = cw_table_get_form (self);
  gboolean line = form == CW_FORM_STRAIGHT || form == CW_FORM_CORNERS || (form == CW_FORM_ARC && self->n_points < 2);
  const char *word = self->aim.word ? g_dgettext (GETTEXT_PACKAGE, self->aim.word) : NULL;
  const char *straight = !line || self->n_points == 0 ? NULL
                         : self->aim.upright          ? _ ("upright")
                         : self->aim.level            ? _ ("level")
                                                      : _ ("slanted");

  if (self->n_points == 0)
    measure = cw_words_place (&self->view, cw_table_get_map (self), self->aim.at, cw_table_get_unit (self));
  else if (line)
    measure = cw_words_line (&self->view, cw_table_get_map (self), self->points[self->n_points - 1], self->aim.at,
                             cw_table_get_unit (self));
  else
    measure = cw_words_measure (&self->view, cw_table_get_map (self), self->rubber, cw_table_get_unit (self));
  if (hint != NULL && (self->n_points == 0 || (form == CW_FORM_ARC && self->n_points == 2)))
    cw_table_set_tip (self, g_strdup_printf ("%s\n%s", measure, hint));
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

/* Ends what is being drawn at the last place it has, and makes of it what the tool makes. */
void
cw_table_finish_line (CwTable *self)
{
  CwForm form = cw_table_get_form (self);
  gboolean back = self->n_points > 3 && cw_point_equal (self->points[0], self->points[self->n_points - 1]);
  guint n = self->n_points;
  CwMark *mark;

  if (n < 2)
    {
      cw_table_drop_line (self);
      return;
    }
  mark = cw_mark_new ();
  mark->kind = mark_kind (self);
  if (back && form != CW_FORM_ARC)
    {
      n--;
      if (mark->kind == CW_MARK_CUT)
        mark->kind = CW_MARK_WINDOW; /* it comes back to its start: what is inside falls out */
    }
  shape (self, mark, self->points, n, &self->aim);
  cw_table_drop_line (self);
  if (form == CW_FORM_CORNERS && n < 3)
    {
      cw_document_say (self->document, _ ("That is only a line. A shape has three corners or more."));
      cw_mark_unref (mark);
      return;
    }
  self->known |= 1u << form;
  cw_table_lay (self, mark);
  if (self->document != NULL && cw_table_is_ready (self))
    cw_table_update_aim (self);
}

/* A line of no length or an opening of no area is not made: the hand has not come anywhere yet. */
static gboolean
has_no_size (CwTable *self, CwPoint a, CwPoint b)
{
  CwForm form = cw_table_get_form (self);

  if (form == CW_FORM_ROUND)
    return cw_hand_radius (a, &self->aim, cw_table_get_snap (self)) < 1;
  return form == CW_FORM_BOX ? a.x == b.x || a.y == b.y : cw_point_equal (a, b);
}

/* Adds the place aimed at. TRUE when that ends the line. */
gboolean
cw_table_add_point (CwTable *self)
{
  CwForm form = cw_table_get_form (self);
  gboolean rise = form == CW_FORM_ARC && self->n_points == 2;

  if (self->n_points > 0 && !rise && has_no_size (self, self->points[self->n_points - 1], self->aim.at))
    return FALSE;
  if (self->n_points == CW_TABLE_POINTS_MAX)
    return TRUE;
  self->points[self->n_points++] = self->aim.at;
  if (form == CW_FORM_ARC)
    {
      if (self->n_points == 3 && g_strcmp0 (self->aim.word, "straight") == 0)
        self->n_points = 2; /* it does not rise: a straight line */
      return self->n_points == 3 || rise;
    }
  if (form == CW_FORM_CORNERS || (form == CW_FORM_STRAIGHT && self->tool == CW_TOOL_CUT))
    return self->n_points > 3 && cw_point_equal (self->points[0], self->aim.at);
  return self->n_points == 2;
}
