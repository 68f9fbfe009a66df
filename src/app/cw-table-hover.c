/* cw-table-hover.c: what is under the resting pointer: lit on sheet and card, and told in words beside it.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "cw-table-private.h"

#include <glib/gi18n-lib.h>

static void
tell_hover (CwTable *self)
{
  const CwPanelSet *set = self->analysis->panels;
  CwId whole = cw_table_whole (self->hover);

  if (self->hover_on_card && cw_table_draws_on_card (self))
    cw_table_set_tip (self, g_strdup (_ ("Draw over the card: it is laid on the faces you see.")));
  else if (cw_table_points_at_panels (self))
    cw_table_set_tip (self, self->hover.kind == CW_ID_PANEL ? cw_table_dup_hint (self) : NULL);
  else if (whole.kind != self->hover.kind)
    cw_table_set_tip (self, g_strdup (_ ("Pull this end")));
  else if (whole.kind == CW_ID_MARK || whole.kind == CW_ID_ZONE || whole.kind == CW_ID_ART
           || (whole.kind == CW_ID_PANEL && !self->hover_on_card && whole.piece != cw_table_get_drawn_piece (self)))
    cw_table_set_tip (self, cw_table_dup_words (self, whole));
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
  return (id.kind != CW_ID_PANEL && id.kind != CW_ID_NONE)
         || (id.kind == CW_ID_PANEL && (on_card || cw_table_points_at_panels (self))
             && id.piece == cw_table_get_drawn_piece (self));
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
  CwFace face;

  self->pointer_x = x;
  self->pointer_y = y;
  self->pointer_in = TRUE;
  self->state = gtk_event_controller_get_current_event_state (GTK_EVENT_CONTROLLER (controller));
  if (!cw_table_is_ready (self) || self->drag != CW_DRAG_NONE)
    return;
  if (cw_table_on_button (self, x, y))
    {
      left (controller, self);
      return;
    }
  hit = cw_table_pick (self, x, y, &id, &on_card);
  if (cw_table_points_at_panels (self))
    {
      hit = cw_table_pick_panel (self, x, y, &id, &face);
      set_hover (self, hit ? id : (CwId){ CW_ID_NONE }, on_card);
      return;
    }
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
cw_table_add_hover_controller (CwTable *self)
{
  GtkEventController *c = cw_table_add_controller (self, gtk_event_controller_motion_new (), "hover");

  g_signal_connect (c, "enter", G_CALLBACK (motion), self);
  g_signal_connect (c, "motion", G_CALLBACK (motion), self);
  g_signal_connect (c, "leave", G_CALLBACK (left), self);
}
