/* cw-table-hand.c: the pointer on the table: drawing, selecting, moving, pulling, pushing, looking, zooming.
 *
 * A press becomes a click or, once moved, a drag of one kind that stays the same until release. While it lasts the
 * design is not touched: fresh copies of the marks are shown moved, and the release makes one edit. Over 500 lines
 * because every kind of drag shares one press and one release.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "cw-table-private.h"

#include <glib/gi18n-lib.h>
#include <math.h>

/* How near a line the pointer is on it, and what a trembling hand may move without dragging. Logical pixels. */
#define REACH CW_TABLE_REACH
#define STILL 5
#define ZOOM_PER_NOTCH 1.15

/* What lies under the pointer: the card lies over the sheet. */
gboolean
cw_table_pick (CwTable *self, double x, double y, CwId *id, gboolean *on_card)
{
  const GdkRectangle *a = &self->sheet_area;
  const guint on_sheet = 1u << CW_ID_MARK_END | 1u << CW_ID_MARK | 1u << CW_ID_PANEL;

  *on_card = TRUE;
  if (cw_draw_list_pick (self->card_list, x, y, 2, 1u << CW_ID_PANEL, id))
    {
      id->part = 0; /* both faces are one panel */
      return TRUE;
    }
  *on_card = FALSE;
  if (x < a->x || y < a->y || x >= a->x + a->width || y >= a->y + a->height)
    return FALSE;
  return cw_draw_list_pick (self->sheet_list, x, y, REACH, on_sheet, id);
}

/* What is drawn there, as a mark of the current design; NULL for what is none. */
static const CwMark *
mark_of (CwTable *self, CwId id)
{
  return cw_table_to_current (self, &id) ? cw_table_get_mark (self, id) : NULL;
}

gboolean
cw_table_is_selected (CwTable *self, CwId id)
{
  guint n;
  const CwId *ids = cw_document_get_selection (self->document, &n);

  for (guint i = 0; i < n; i++)
    if (ids[i].kind == id.kind && ids[i].piece == id.piece && ids[i].index == id.index)
      return TRUE;
  return FALSE;
}

/* ---- Moving marks ---- */

void
cw_table_forget_moving (CwTable *self)
{
  if (self->moving->len == 0 && self->before->len == 0)
    return;
  g_ptr_array_set_size (self->moving, 0);
  g_ptr_array_set_size (self->before, 0);
  cw_table_redraw_over (self);
}

static void
take_marks (CwTable *self, CwId stretched)
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

static void
slide (CwTable *self)
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

static void
stretch (CwTable *self)
{
  const CwPanelMap *map = cw_table_get_map (self);
  CwMark *mark = g_ptr_array_index (self->moving, 0);
  CwPoint other = cw_point (0, 0);
  g_autofree char *measure = NULL;
  gboolean straight = mark->shape == CW_SHAPE_LINE && mark->line.n_vertices > 1;

  /* Straight against the vertex beside it. */
  if (straight)
    other = cw_place_get_point (&mark->line.vertices[self->stretch_vertex > 0 ? self->stretch_vertex - 1 : 1].at);
  self->aim = cw_hand_aim (&self->view, map, cw_table_get_snap (self), self->pointer_x, self->pointer_y, REACH,
                           straight ? &other : NULL, cw_table_wants_slant (self));
  cw_hand_stretch_mark (mark, self->stretch_vertex, self->aim.at, cw_table_get_unit (self));
  measure = cw_words_measure (&self->view, map, mark, cw_table_get_unit (self));
  cw_table_set_tip (self, self->aim.word
                            ? g_strdup_printf ("%s\n%s", measure, g_dgettext (GETTEXT_PACKAGE, self->aim.word))
                            : g_steal_pointer (&measure));
  cw_table_redraw_over (self);
}

/* One edit for all marks that were moved. */
static void
put_marks (CwTable *self, const char *name)
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

/* ---- The card ---- */

static gboolean
begin_pull (CwTable *self, CwId id)
{
  const CwPanelSet *set = self->analysis->panels;
  int step = cw_document_get_step (self->document);
  double fraction = cw_document_get_fraction (self->document);
  guint panel = set->first_panel[id.piece] + id.index, found;

  if (set->design->steps->len == 0)
    return FALSE;
  found = cw_card_scene_find_step (self->scene, step < 0 ? 0 : (guint) step, step < 0 ? 0 : fraction, panel);
  if (found == G_MAXUINT)
    return FALSE;
  if (step < 0 || found != (guint) step)
    fraction = step < 0 || found > (guint) step ? 0 : found < (guint) step ? 0 : fraction;
  if (!cw_card_scene_grab (self->scene, found, fraction, &self->camera, panel, self->press_x, self->press_y))
    return FALSE;
  self->pull_step = found;
  return TRUE;
}

static void
pull (CwTable *self)
{
  double fraction;

  if (!cw_table_is_fresh (self))
    return;
  fraction = cw_card_scene_pull (self->scene, &self->camera, self->pointer_x, self->pointer_y);
  self->pull_step = cw_card_scene_get_grab_step (self->scene);

  cw_table_set_tip (self, NULL);
  cw_document_set_moment (self->document, (int) self->pull_step, CLAMP (fraction, 0, 1));
}

/* ---- Press, drag, release ---- */

static void
begin_drag (CwTable *self, CwId id, gboolean hit)
{
  if (self->drag_on_card)
    {
      self->drag = hit && cw_table_is_fresh (self) && begin_pull (self, id) ? CW_DRAG_PULL : CW_DRAG_LOOK;
      self->camera_turned |= self->drag == CW_DRAG_LOOK;
      return;
    }
  hit = hit && cw_table_to_current (self, &id);
  if (hit && id.kind == CW_ID_MARK_END && cw_table_get_mark (self, id) != NULL)
    {
      self->drag = CW_DRAG_STRETCH;
      self->stretch_vertex = id.part;
      take_marks (self, id);
    }
  else if (hit && id.kind == CW_ID_MARK && cw_table_get_mark (self, id) != NULL
           && id.piece == cw_document_get_piece (self->document))
    {
      self->drag = CW_DRAG_SLIDE;
      if (!cw_table_is_selected (self, id))
        cw_document_select (self->document, &id, 1);
      take_marks (self, (CwId){ CW_ID_NONE });
    }
  else
    {
      self->drag = CW_DRAG_PUSH;
      self->view_own = TRUE;
      gtk_widget_set_cursor_from_name (GTK_WIDGET (self), "grabbing");
      return;
    }
  if (self->moving->len == 0)
    self->drag = CW_DRAG_NONE;
  cw_table_redraw_sheet (self);
}

/* Whether something lies on the table there that has its own use for the pointer. */
static gboolean
on_button (CwTable *self, double x, double y)
{
  return gtk_widget_pick (GTK_WIDGET (self), x, y, GTK_PICK_DEFAULT) != GTK_WIDGET (self);
}

static void
drag_begin (GtkGestureDrag *gesture, double x, double y, CwTable *self)
{
  CwId id;
  gboolean hit;

  self->drag = CW_DRAG_NONE;
  if (on_button (self, x, y))
    return;
  gtk_widget_grab_focus (GTK_WIDGET (self));
  self->state = gtk_event_controller_get_current_event_state (GTK_EVENT_CONTROLLER (gesture));
  self->press_x = self->pointer_x = self->last_x = x;
  self->press_y = self->pointer_y = self->last_y = y;
  self->drag = CW_DRAG_NONE;
  if (!cw_table_is_ready (self))
    return;
  if (self->sheet_node == NULL)
    cw_table_draw_sheet_list (self);
  if (self->card_node == NULL)
    cw_table_draw_card_list (self);
  hit = cw_table_pick (self, x, y, &id, &self->drag_on_card);
  if (!hit)
    self->drag_on_card = cw_table_is_on_card_side (self, x, y);
  if (self->tool != CW_TOOL_SELECT && (self->n_points > 0 || !self->drag_on_card))
    {
      self->drag_on_card = FALSE;
      self->drag = CW_DRAG_DRAW;
      self->drag_new_point = self->n_points == 0;
      cw_table_update_aim (self);
      if (self->n_points == 0)
        cw_table_add_point (self);
      cw_table_follow_line (self);
      return;
    }
  self->drag = CW_DRAG_PRESSED;
  {
    double px, py;
    cw_sheet_view_to_piece (&self->view, cw_table_get_map (self), x, y, &px, &py);
    self->held = cw_point ((gint32) lround (px), (gint32) lround (py));
  }
}

static void
drag_update (GtkGestureDrag *gesture, double dx, double dy, CwTable *self)
{
  CwId id;
  gboolean hit, on_card;

  if (self->drag == CW_DRAG_NONE || !cw_table_is_ready (self))
    return;
  self->state = gtk_event_controller_get_current_event_state (GTK_EVENT_CONTROLLER (gesture));
  self->pointer_x = self->press_x + dx;
  self->pointer_y = self->press_y + dy;
  if (self->drag == CW_DRAG_PRESSED)
    {
      if (hypot (dx, dy) < STILL)
        return;
      hit = cw_table_pick (self, self->press_x, self->press_y, &id, &on_card);
      cw_table_set_tip (self, NULL);
      begin_drag (self, id, hit);
    }
  switch (self->drag)
    {
    case CW_DRAG_DRAW:
      cw_table_follow_line (self);
      break;
    case CW_DRAG_SLIDE:
      slide (self);
      break;
    case CW_DRAG_STRETCH:
      stretch (self);
      break;
    case CW_DRAG_PULL:
      pull (self);
      break;
    case CW_DRAG_LOOK:
      cw_hand_turn_card (&self->camera, self->pointer_x - self->last_x, self->pointer_y - self->last_y);
      cw_table_redraw_card (self);
      break;
    case CW_DRAG_PUSH:
      self->view.left += self->pointer_x - self->last_x;
      self->view.top += self->pointer_y - self->last_y;
      cw_table_place_items (self);
      cw_table_redraw_sheet (self);
      cw_table_redraw_over (self);
      break;
    case CW_DRAG_NONE:
    case CW_DRAG_PRESSED:
    default:
      break;
    }
  self->last_x = self->pointer_x;
  self->last_y = self->pointer_y;
}

/* A line of the card that was clicked, as the mark that made it. */
static gboolean
pick_card_line (CwTable *self, CwId *id)
{
  const guint lines = 1u << CW_ID_PANEL | 1u << CW_ID_MARK | 1u << CW_ID_HINGE;
  const CwPanelSet *set = self->analysis->panels;
  CwId line;

  if (!cw_draw_list_pick (self->card_list, self->press_x, self->press_y, CW_TABLE_REACH / 2.0, lines, &line)
      || line.piece >= set->n_pieces)
    return FALSE;
  if (line.kind == CW_ID_HINGE && line.index < set->maps[line.piece].hinges->len)
    {
      const CwHinge *hinge = &g_array_index (set->maps[line.piece].hinges, CwHinge, line.index);

      if (hinge->scores->len == 0)
        return FALSE;
      line = (CwId){ CW_ID_MARK, line.piece,
                     cw_piece_find_mark (set->maps[line.piece].piece, g_ptr_array_index (hinge->scores, 0)) };
    }
  if (line.kind != CW_ID_MARK || line.index == G_MAXUINT)
    return FALSE;
  *id = line;
  return TRUE;
}

static void
click (CwTable *self)
{
  CwId id;
  gboolean on_card, hit = cw_table_pick (self, self->press_x, self->press_y, &id, &on_card);

  if (hit && on_card)
    pick_card_line (self, &id);
  if (hit && !cw_table_to_current (self, &id))
    {
      cw_table_needs_fresh (self);
      return;
    }
  if (hit && id.kind == CW_ID_MARK_END)
    id = (CwId){ CW_ID_MARK, id.piece, id.index };
  if (!hit || (id.kind != CW_ID_MARK && id.kind != CW_ID_PANEL))
    {
      if ((self->state & GDK_SHIFT_MASK) == 0)
        cw_document_select (self->document, NULL, 0);
    }
  else if ((self->state & GDK_SHIFT_MASK) != 0)
    cw_document_toggle (self->document, id);
  else
    cw_document_select (self->document, &id, 1);
}

static void
drag_end (GtkGestureDrag *gesture, double dx, double dy, CwTable *self)
{
  CwDragKind drag = self->drag;
  gboolean moved = hypot (dx, dy) >= STILL;

  self->drag = CW_DRAG_NONE;
  if (drag == CW_DRAG_NONE || !cw_table_is_ready (self))
    return;
  self->pointer_x = self->press_x + dx;
  self->pointer_y = self->press_y + dy;
  switch (drag)
    {
    case CW_DRAG_PRESSED:
      click (self);
      break;
    case CW_DRAG_DRAW:
      if (self->n_points == 0)
        break; /* a double click has ended the line already */
      cw_table_follow_line (self);
      if (!moved && self->drag_new_point)
        break; /* a click: the line follows the pointer until the next one */
      if (cw_table_add_point (self) || (moved && self->drag_new_point))
        cw_table_finish_line (self);
      break;
    case CW_DRAG_SLIDE:
      put_marks (self, self->moving->len == 1 ? _ ("move mark") : _ ("move marks"));
      cw_table_set_tip (self, NULL);
      cw_table_redraw_sheet (self);
      break;
    case CW_DRAG_STRETCH:
      put_marks (self, _ ("move an end"));
      cw_table_set_tip (self, NULL);
      cw_table_redraw_sheet (self);
      break;
    case CW_DRAG_PUSH:
      gtk_widget_set_cursor_from_name (GTK_WIDGET (self), self->tool == CW_TOOL_SELECT ? NULL : "crosshair");
      break;
    case CW_DRAG_NONE:
    case CW_DRAG_PULL:
    case CW_DRAG_LOOK:
    default:
      break;
    }
}

static void
pressed (GtkGestureClick *gesture, int n_press, double x, double y, CwTable *self)
{
  guint button = gtk_gesture_single_get_current_button (GTK_GESTURE_SINGLE (gesture));
  CwId id = { CW_ID_NONE };
  gboolean on_card;

  if (button == GDK_BUTTON_SECONDARY)
    {
      if (on_button (self, x, y) || !cw_table_is_ready (self) || cw_table_cancel (self))
        return;
      if (!cw_table_pick (self, x, y, &id, &on_card) || !cw_table_to_current (self, &id))
        id = (CwId){ CW_ID_NONE };
      cw_table_popup (self, &id, x, y);
    }
}

static void
released (GtkGestureClick *gesture, int n_press, double x, double y, CwTable *self)
{
  /* The first click of the pair has already added the place. */
  if (n_press == 2 && self->n_points > 0
      && gtk_gesture_single_get_current_button (GTK_GESTURE_SINGLE (gesture)) == GDK_BUTTON_PRIMARY)
    cw_table_finish_line (self);
}

/* Leaves what is under way, as Escape does. FALSE when nothing was. */
gboolean
cw_table_cancel (CwTable *self)
{
  gboolean any = self->n_points > 0 || self->drag == CW_DRAG_SLIDE || self->drag == CW_DRAG_STRETCH;

  if (self->drag != CW_DRAG_NONE)
    self->drag = CW_DRAG_NONE;
  cw_table_drop_line (self);
  cw_table_set_tip (self, NULL);
  if (any)
    {
      cw_table_forget_moving (self);
      cw_table_redraw_sheet (self);
    }
  return any;
}

/* ---- Pushing with the middle button, hovering, zooming ---- */

static void
push_begin (GtkGestureDrag *gesture, double x, double y, CwTable *self)
{
  self->drag_on_card = cw_table_is_on_card_side (self, x, y);
  self->last_x = self->last_y = 0;
}

static void
push_update (GtkGestureDrag *gesture, double dx, double dy, CwTable *self)
{
  if (!cw_table_is_ready (self))
    return;
  if (self->drag_on_card)
    {
      self->camera.x += dx - self->last_x;
      self->camera.y += dy - self->last_y;
      self->camera_own = TRUE;
      cw_table_redraw_card (self);
    }
  else
    {
      self->view.left += dx - self->last_x;
      self->view.top += dy - self->last_y;
      self->view_own = TRUE;
      cw_table_place_items (self);
      cw_table_redraw_sheet (self);
      cw_table_redraw_over (self);
    }
  self->last_x = dx;
  self->last_y = dy;
}

static void
tell_hover (CwTable *self)
{
  const CwPanelSet *set = self->analysis->panels;
  const CwMark *mark = mark_of (self, self->hover);

  if (self->hover.kind == CW_ID_MARK_END)
    cw_table_set_tip (self, g_strdup (_ ("Pull this end")));
  else if (mark != NULL)
    cw_table_set_tip (self, cw_words_mark (&self->view, cw_table_get_map (self), mark, cw_table_get_unit (self)));
  else if (self->hover.kind == CW_ID_PANEL && self->hover_on_card && self->hover.piece < set->n_pieces)
    {
      g_autofree char *name = cw_words_panel (set, self->hover.piece, self->hover.index);
      guint panel = set->first_panel[self->hover.piece] + self->hover.index;
      int step = cw_document_get_step (self->document);
      const char *what;

      if (panel == cw_motion_get_held (self->analysis->motion))
        what = _ ("stays still");
      else if (cw_table_is_fresh (self) && set->design->steps->len > 0
               && cw_card_scene_find_step (self->scene, step < 0 ? 0 : (guint) step,
                                           step < 0 ? 0 : cw_document_get_fraction (self->document), panel)
                    != G_MAXUINT)
        what = _ ("pull it to fold");
      else
        what = _ ("does not move");
      cw_table_set_tip (self, g_strdup_printf ("%s\n%s", name, what));
    }
  else
    cw_table_set_tip (self, NULL);
}

/* Whether pointing at it shows on the sheet: marks and ends, and panels of the card that are part of this piece. */
static gboolean
hovers_sheet (CwTable *self, CwId id, gboolean on_card)
{
  return id.kind == CW_ID_MARK || id.kind == CW_ID_MARK_END
         || (id.kind == CW_ID_PANEL && on_card && id.piece == cw_table_get_drawn_piece (self));
}

static void
set_hover (CwTable *self, CwId id, gboolean on_card)
{
  if (id.kind == self->hover.kind && id.piece == self->hover.piece && id.index == self->hover.index
      && id.part == self->hover.part && on_card == self->hover_on_card)
    {
      if (self->tip_text != NULL)
        gtk_widget_queue_draw (GTK_WIDGET (self));
      return;
    }
  if (id.kind == CW_ID_PANEL || self->hover.kind == CW_ID_PANEL)
    cw_table_redraw_card (self);
  if (hovers_sheet (self, id, on_card) || hovers_sheet (self, self->hover, self->hover_on_card))
    cw_table_redraw_sheet (self);
  self->hover = id;
  self->hover_on_card = on_card;
  tell_hover (self);
  cw_table_redraw_over (self);
}

static void
left (GtkEventControllerMotion *controller, CwTable *self)
{
  self->pointer_in = FALSE;
  if (self->drag != CW_DRAG_NONE || self->document == NULL || !cw_table_is_ready (self))
    return;
  set_hover (self, (CwId){ CW_ID_NONE }, FALSE);
  cw_table_set_tip (self, NULL);
  cw_table_redraw_over (self);
}

static void
motion (GtkEventControllerMotion *controller, double x, double y, CwTable *self)
{
  CwId id;
  gboolean on_card = FALSE, hit;

  self->pointer_x = x;
  self->pointer_y = y;
  self->pointer_in = TRUE;
  self->state = gtk_event_controller_get_current_event_state (GTK_EVENT_CONTROLLER (controller));
  if (!cw_table_is_ready (self) || self->drag != CW_DRAG_NONE)
    return;
  if (on_button (self, x, y))
    {
      left (controller, self);
      return;
    }
  hit = cw_table_pick (self, x, y, &id, &on_card);
  if (self->tool != CW_TOOL_SELECT && !on_card && (self->n_points > 0 || !cw_table_is_on_card_side (self, x, y)))
    {
      set_hover (self, (CwId){ CW_ID_NONE }, FALSE);
      cw_table_follow_line (self);
      return;
    }
  if (self->tool != CW_TOOL_SELECT)
    cw_table_redraw_over (self);
  set_hover (self, hit ? id : (CwId){ CW_ID_NONE }, on_card);
}

void
cw_table_zoom (CwTable *self, double factor, double x, double y)
{
  if (!cw_table_is_ready (self))
    return;
  if (cw_table_is_on_card_side (self, x, y))
    {
      cw_hand_zoom_card (&self->camera, factor, x, y);
      self->camera_own = TRUE;
      cw_table_redraw_card (self);
      return;
    }
  cw_hand_zoom_sheet (&self->view, factor, x, y);
  self->view_own = TRUE;
  cw_table_place_items (self);
  cw_table_redraw_sheet (self);
  cw_table_redraw_over (self);
}

static gboolean
scroll (GtkEventControllerScroll *controller, double dx, double dy, CwTable *self)
{
  cw_table_zoom (self, pow (ZOOM_PER_NOTCH, -dy), self->pointer_x, self->pointer_y);
  return TRUE;
}

static void
pinch (GtkGestureZoom *gesture, double scale, CwTable *self)
{
  double x, y;

  if (!gtk_gesture_get_bounding_box_center (GTK_GESTURE (gesture), &x, &y))
    return;
  cw_table_zoom (self, scale / MAX (self->pinch_scale, 0.01), x, y);
  self->pinch_scale = scale;
}

static void
pinch_begin (GtkGesture *gesture, GdkEventSequence *sequence, CwTable *self)
{
  self->pinch_scale = 1;
}

static GtkEventController *
add (CwTable *self, gpointer controller, const char *name)
{
  gtk_event_controller_set_name (controller, name);
  gtk_widget_add_controller (GTK_WIDGET (self), controller);
  return controller;
}

void
cw_table_add_controllers (CwTable *self)
{
  GtkEventController *c;

  c = add (self, gtk_gesture_drag_new (), "hand");
  gtk_gesture_single_set_button (GTK_GESTURE_SINGLE (c), GDK_BUTTON_PRIMARY);
  g_signal_connect (c, "drag-begin", G_CALLBACK (drag_begin), self);
  g_signal_connect (c, "drag-update", G_CALLBACK (drag_update), self);
  g_signal_connect (c, "drag-end", G_CALLBACK (drag_end), self);
  c = add (self, gtk_gesture_click_new (), "click");
  gtk_gesture_single_set_button (GTK_GESTURE_SINGLE (c), 0);
  g_signal_connect (c, "pressed", G_CALLBACK (pressed), self);
  g_signal_connect (c, "released", G_CALLBACK (released), self);
  c = add (self, gtk_gesture_drag_new (), "push");
  gtk_gesture_single_set_button (GTK_GESTURE_SINGLE (c), GDK_BUTTON_MIDDLE);
  g_signal_connect (c, "drag-begin", G_CALLBACK (push_begin), self);
  g_signal_connect (c, "drag-update", G_CALLBACK (push_update), self);
  c = add (self, gtk_event_controller_motion_new (), "hover");
  g_signal_connect (c, "enter", G_CALLBACK (motion), self);
  g_signal_connect (c, "motion", G_CALLBACK (motion), self);
  g_signal_connect (c, "leave", G_CALLBACK (left), self);
  c = add (self, gtk_event_controller_scroll_new (GTK_EVENT_CONTROLLER_SCROLL_VERTICAL), "scroll");
  g_signal_connect (c, "scroll", G_CALLBACK (scroll), self);
  c = add (self, gtk_gesture_zoom_new (), "pinch");
  g_signal_connect (c, "begin", G_CALLBACK (pinch_begin), self);
  g_signal_connect (c, "scale-changed", G_CALLBACK (pinch), self);
}
