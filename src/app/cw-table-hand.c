/* cw-table-hand.c: the pointer on the table: drawing, selecting, moving, pulling, pushing, looking, zooming.
 *
 * A press becomes a click or, once moved, a drag of one kind that stays the same until release. While it lasts the
 * design is not touched: fresh copies of the marks are shown moved (cw-table-move.c), and the release makes one edit.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "cw-table-private.h"

#include <glib/gi18n-lib.h>
#include <math.h>

/* What a trembling hand may move without dragging. Logical pixels. */
#define STILL 5

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

/* A mark slides as it is pulled; an area only when it is selected, so that one can draw a box on it. */
static gboolean
can_slide (CwTable *self, CwId id)
{
  if (id.kind == CW_ID_MARK)
    return id.piece == cw_document_get_piece (self->document);
  return (id.kind == CW_ID_ZONE || id.kind == CW_ID_ART) && cw_table_is_selected (self, id);
}

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
  self->stretch_vertex = G_MAXUINT;
  if (hit && cw_table_whole (id).kind != id.kind)
    {
      self->drag = CW_DRAG_STRETCH;
      self->stretch_vertex = id.part;
      cw_table_take (self, id);
    }
  else if (hit && can_slide (self, id))
    {
      self->drag = CW_DRAG_SLIDE;
      if (!cw_table_is_selected (self, id))
        cw_document_select (self->document, &id, 1);
      cw_table_take (self, (CwId){ CW_ID_NONE });
    }
  else if (cw_draw_list_pick (self->sheet_list, self->press_x, self->press_y, 0, 1u << CW_ID_SHEET, &id))
    {
      self->drag = CW_DRAG_BOX;
      return;
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
gboolean
cw_table_on_button (CwTable *self, double x, double y)
{
  return gtk_widget_pick (GTK_WIDGET (self), x, y, GTK_PICK_DEFAULT) != GTK_WIDGET (self);
}

static void
drag_begin (GtkGestureDrag *gesture, double x, double y, CwTable *self)
{
  CwId id;
  gboolean hit;

  self->drag = CW_DRAG_NONE;
  if (cw_table_on_button (self, x, y))
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
  if (self->tool != CW_TOOL_SELECT && !cw_table_points_at_panels (self) && (self->n_points > 0 || !self->drag_on_card))
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
  if (self->drag_on_card && self->tool != CW_TOOL_SELECT && cw_table_draws_on_card (self))
    {
      self->drag = CW_DRAG_AREA;
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
      cw_table_slide (self);
      break;
    case CW_DRAG_STRETCH:
      cw_table_stretch (self);
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
    case CW_DRAG_BOX:
      cw_table_redraw_over (self);
      break;
    case CW_DRAG_AREA:
      cw_table_follow_area (self);
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

/* A panel pointed at with a tool that needs nothing else. */
static void
click_panel (CwTable *self)
{
  CwId id;
  CwFace face;

  if (!cw_table_pick_panel (self, self->press_x, self->press_y, &id, &face) || !cw_table_needs_fresh (self))
    return;
  if (self->tool == CW_TOOL_LAYER)
    {
      cw_table_set_tip (self, NULL);
      cw_table_lay_on_panel (self, id, face, cw_table_get_rim (self));
    }
  else
    cw_table_rename_panel (self, id);
}

static void
click (CwTable *self)
{
  CwId id, under;
  gboolean on_card, hit = cw_table_pick (self, self->press_x, self->press_y, &id, &on_card);
  gboolean more = (self->state & (GDK_SHIFT_MASK | GDK_CONTROL_MASK)) != 0;
  CwFace face;
  guint n;

  if (cw_table_points_at_panels (self))
    {
      click_panel (self);
      return;
    }
  if (hit && on_card)
    pick_card_line (self, &id);
  if (hit && !cw_table_to_current (self, &id))
    {
      cw_table_needs_fresh (self);
      return;
    }
  id = cw_table_whole (id);
  /* An area that is selected already gives way to the panel under it. */
  cw_document_get_selection (self->document, &n);
  if (hit && !more && n == 1 && (id.kind == CW_ID_ZONE || id.kind == CW_ID_ART) && cw_table_is_selected (self, id)
      && cw_table_is_fresh (self) && cw_table_pick_panel (self, self->press_x, self->press_y, &under, &face))
    id = under;
  if (!hit)
    {
      if (!more)
        cw_document_select (self->document, NULL, 0);
    }
  else if (more)
    cw_document_toggle (self->document, id);
  else
    cw_document_select (self->document, &id, 1);
}

/* Selects all that the box touches; with Shift or Ctrl it is added to what is selected. */
static void
select_box (CwTable *self)
{
  const double box[4] = { MIN (self->press_x, self->pointer_x), MIN (self->press_y, self->pointer_y),
                          MAX (self->press_x, self->pointer_x), MAX (self->press_y, self->pointer_y) };
  g_autoptr (GArray) found = g_array_new (FALSE, FALSE, sizeof (CwId));
  g_autoptr (GArray) all = cw_table_list_things (self);
  gboolean more = (self->state & (GDK_SHIFT_MASK | GDK_CONTROL_MASK)) != 0;

  if (more)
    {
      guint n;
      const CwId *ids = cw_document_get_selection (self->document, &n);

      g_array_append_vals (found, ids, n);
    }
  for (guint i = 0; i < all->len; i++)
    {
      CwId id = g_array_index (all, CwId, i);
      g_autoptr (CwMark) outline = cw_table_dup_outline (self, id);

      if (outline != NULL && cw_hand_mark_touches (&self->view, cw_table_get_map (self), outline, box)
          && (!more || !cw_table_is_selected (self, id)))
        g_array_append_val (found, id);
    }
  cw_document_select (self->document, (const CwId *) (gpointer) found->data, found->len);
}

/* Whether what is drawn by one pull of the hand is done with it: an arc has to rise yet, a shape to close. */
static gboolean
ends_by_release (CwTable *self)
{
  CwForm form = cw_table_get_form (self);

  return form != CW_FORM_ARC && form != CW_FORM_CORNERS;
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
      if (cw_table_add_point (self) || (moved && self->drag_new_point && ends_by_release (self)))
        cw_table_finish_line (self);
      break;
    case CW_DRAG_SLIDE:
      cw_table_put (self);
      cw_table_set_tip (self, NULL);
      cw_table_redraw_sheet (self);
      break;
    case CW_DRAG_STRETCH:
      cw_table_put (self);
      cw_table_set_tip (self, NULL);
      cw_table_redraw_sheet (self);
      break;
    case CW_DRAG_BOX:
      select_box (self);
      cw_table_redraw_over (self);
      break;
    case CW_DRAG_AREA:
      cw_table_set_tip (self, NULL);
      if (moved)
        cw_table_lay_across (self);
      cw_table_redraw_over (self);
      break;
    case CW_DRAG_PUSH:
      gtk_widget_set_cursor_from_name (GTK_WIDGET (self), cw_table_points_at_panels (self) ? "pointer" : NULL);
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
      if (cw_table_on_button (self, x, y) || !cw_table_is_ready (self) || cw_table_cancel (self))
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
  gboolean any
    = self->n_points > 0 || self->drag == CW_DRAG_SLIDE || self->drag == CW_DRAG_STRETCH || self->drag == CW_DRAG_BOX;

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

void
cw_table_add_controllers (CwTable *self)
{
  GtkEventController *c;

  c = cw_table_add_controller (self, gtk_gesture_drag_new (), "hand");
  gtk_gesture_single_set_button (GTK_GESTURE_SINGLE (c), GDK_BUTTON_PRIMARY);
  g_signal_connect (c, "drag-begin", G_CALLBACK (drag_begin), self);
  g_signal_connect (c, "drag-update", G_CALLBACK (drag_update), self);
  g_signal_connect (c, "drag-end", G_CALLBACK (drag_end), self);
  c = cw_table_add_controller (self, gtk_gesture_click_new (), "click");
  gtk_gesture_single_set_button (GTK_GESTURE_SINGLE (c), 0);
  g_signal_connect (c, "pressed", G_CALLBACK (pressed), self);
  g_signal_connect (c, "released", G_CALLBACK (released), self);
  cw_table_add_hover_controller (self);
  cw_table_add_view_controllers (self);
}
