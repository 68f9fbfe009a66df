/* cw-table-ask.c: one short answer, typed into an entry that stands on the table where it belongs.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "cw-table-private.h"

static void
answered (GtkEntry *entry, CwTable *self)
{
  g_autofree char *text = g_strstrip (g_strdup (gtk_editable_get_text (GTK_EDITABLE (entry))));

  gtk_popover_popdown (GTK_POPOVER (self->entry_popover));
  if (self->ask_answer != NULL && self->document != NULL && cw_table_is_ready (self))
    self->ask_answer (self, self->ask_id, text);
  gtk_widget_grab_focus (GTK_WIDGET (self));
}

/**
 * cw_table_ask:
 * @self: the table
 * @box: left, top, right and bottom of what it is about
 * @what: what is asked for; the entry's name
 * @text: (nullable): the answer there is so far
 * @answer: called with the new one on Enter; not called on Escape
 * @id: handed on
 */
void
cw_table_ask (CwTable *self, const double box[4], const char *what, const char *text, CwTableAnswer answer, CwId id)
{
  const GdkRectangle *a = &self->sheet_area, *c = &self->card_area;
  GdkRectangle place = { (int) ((box[0] + box[2]) / 2), (int) ((box[1] + box[3]) / 2), 1, 1 };
  GtkWidget *entry;

  if (self->entry_popover == NULL)
    {
      self->entry_popover = gtk_popover_new ();
      entry = gtk_entry_new ();
      gtk_editable_set_width_chars (GTK_EDITABLE (entry), 22);
      g_signal_connect (entry, "activate", G_CALLBACK (answered), self);
      gtk_popover_set_child (GTK_POPOVER (self->entry_popover), entry);
      gtk_widget_set_parent (self->entry_popover, GTK_WIDGET (self));
    }
  entry = gtk_popover_get_child (GTK_POPOVER (self->entry_popover));
  gtk_entry_set_placeholder_text (GTK_ENTRY (entry), what);
  gtk_widget_set_tooltip_text (entry, what);
  gtk_accessible_update_property (GTK_ACCESSIBLE (entry), GTK_ACCESSIBLE_PROPERTY_LABEL, what, -1);
  gtk_editable_set_text (GTK_EDITABLE (entry), text ? text : "");
  self->ask_id = id;
  self->ask_answer = answer;
  place.x = CLAMP (place.x, a->x, MAX (a->x + a->width, c->x + c->width) - 1);
  place.y = CLAMP (place.y, a->y, MAX (a->y + a->height, c->y + c->height) - 1);
  gtk_popover_set_pointing_to (GTK_POPOVER (self->entry_popover), &place);
  gtk_popover_popup (GTK_POPOVER (self->entry_popover));
  gtk_widget_grab_focus (entry);
}
