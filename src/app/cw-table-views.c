/* cw-table-views.c: how sheet and card are looked at: fitted to their parts of the table, zoomed, pushed about, and the
 * card from another side.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "cw-table-private.h"

#include <math.h>

#define ZOOM_PER_NOTCH 1.15
/* Room left round the sheet for its rulers and measures, and round the card for its shadow. Logical pixels. */
#define SHEET_ROOM 12
#define CARD_ROOM 16
/* An animated look takes this long, microseconds. */
#define LOOK_TIME (280 * 1000)

void
cw_table_fit_sheet (CwTable *self)
{
  const GdkRectangle *a = &self->sheet_area;

  if (!cw_table_is_ready (self) || a->width <= 2 * SHEET_ROOM || a->height <= 2 * SHEET_ROOM)
    return;
  self->view.lie = cw_document_get_lie (self->document);
  cw_sheet_view_fit (&self->view, cw_table_get_map (self), a->x + SHEET_ROOM, a->y + SHEET_ROOM,
                     a->width - 2 * SHEET_ROOM, a->height - 2 * SHEET_ROOM);
  self->view_own = FALSE;
  self->fit_area = *a;
  cw_table_place_items (self);
  cw_table_redraw_sheet (self);
  cw_table_redraw_over (self);
}

void
cw_table_fit_card (CwTable *self)
{
  const GdkRectangle *a = &self->card_area;

  if (!cw_table_is_ready (self) || a->width <= 2 * CARD_ROOM || a->height <= 2 * CARD_ROOM)
    return;
  cw_camera_fit (&self->camera, self->analysis->motion, a->x + CARD_ROOM, a->y + CARD_ROOM, a->width - 2 * CARD_ROOM,
                 a->height - 2 * CARD_ROOM);
  self->camera_own = self->camera_turned = FALSE;
  cw_table_redraw_card (self);
}

void
cw_table_fit (CwTable *self)
{
  cw_table_fit_sheet (self);
  cw_table_fit_card (self);
}

void
cw_table_set_share (CwTable *self, CwShare share)
{
  self->share = share;
  self->fit_area = (GdkRectangle){ 0, 0, 0, 0 };
  self->view_own = self->camera_own = FALSE;
  gtk_widget_queue_allocate (GTK_WIDGET (self));
}

gboolean
cw_table_is_on_card_side (CwTable *self, double x, double y)
{
  const GdkRectangle *a = &self->card_area;

  return x >= a->x && x < a->x + a->width && y >= a->y && y < a->y + a->height;
}

/* ---- Looking at the card ---- */

static gboolean
look_tick (GtkWidget *widget, GdkFrameClock *clock, gpointer data)
{
  CwTable *self = CW_TABLE (widget);
  double share = (double) (gdk_frame_clock_get_frame_time (clock) - self->look_start) / LOOK_TIME;

  share = CLAMP (share, 0, 1);
  cw_hand_between (&self->camera, &self->look_from, &self->look_to, share * share * (3 - 2 * share));
  cw_table_redraw_card (self);
  if (share < 1)
    return G_SOURCE_CONTINUE;
  self->look_tick = 0;
  return G_SOURCE_REMOVE;
}

void
cw_table_stop_looking (CwTable *self)
{
  if (self->look_tick != 0)
    gtk_widget_remove_tick_callback (GTK_WIDGET (self), self->look_tick);
  self->look_tick = 0;
}

/* Turns the card to the look, in a short sweep unless the maker wants no motion. */
void
cw_table_look (CwTable *self, const char *from)
{
  gboolean animate = FALSE;

  if (!cw_table_is_ready (self))
    return;
  cw_table_stop_looking (self);
  self->look_from = self->camera;
  if (g_str_equal (from, "table"))
    cw_camera_look_into (&self->camera, self->analysis->motion);
  else
    cw_camera_look_from (&self->camera, from);
  cw_table_fit_card (self);
  self->look_to = self->camera;
  g_object_get (gtk_widget_get_settings (GTK_WIDGET (self)), "gtk-enable-animations", &animate, NULL);
  if (animate && gtk_widget_get_mapped (GTK_WIDGET (self)))
    {
      self->camera = self->look_from;
      self->look_start = gdk_frame_clock_get_frame_time (gtk_widget_get_frame_clock (GTK_WIDGET (self)));
      self->look_tick = gtk_widget_add_tick_callback (GTK_WIDGET (self), look_tick, NULL, NULL);
    }
}

/* Shows the finished card as `rest` says; stays where it is when no step ends so. */
void
cw_table_show_moment (CwTable *self, const char *rest)
{
  GPtrArray *steps = cw_document_get_design (self->document)->steps;

  for (guint i = steps->len; i-- > 0;)
    {
      const CwStep *step = g_ptr_array_index (steps, i);
      if (g_strcmp0 (step->rest, rest) == 0)
        {
          cw_document_set_moment (self->document, (int) i, 1);
          return;
        }
    }
}

/* ---- Pushing, zooming ---- */

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

GtkEventController *
cw_table_add_controller (CwTable *self, gpointer controller, const char *name)
{
  gtk_event_controller_set_name (controller, name);
  gtk_widget_add_controller (GTK_WIDGET (self), controller);
  return controller;
}

void
cw_table_add_view_controllers (CwTable *self)
{
  GtkEventController *c;

  c = cw_table_add_controller (self, gtk_gesture_drag_new (), "push");
  gtk_gesture_single_set_button (GTK_GESTURE_SINGLE (c), GDK_BUTTON_MIDDLE);
  g_signal_connect (c, "drag-begin", G_CALLBACK (push_begin), self);
  g_signal_connect (c, "drag-update", G_CALLBACK (push_update), self);
  c = cw_table_add_controller (self, gtk_event_controller_scroll_new (GTK_EVENT_CONTROLLER_SCROLL_VERTICAL), "scroll");
  g_signal_connect (c, "scroll", G_CALLBACK (scroll), self);
  c = cw_table_add_controller (self, gtk_gesture_zoom_new (), "pinch");
  g_signal_connect (c, "begin", G_CALLBACK (pinch_begin), self);
  g_signal_connect (c, "scale-changed", G_CALLBACK (pinch), self);
}
