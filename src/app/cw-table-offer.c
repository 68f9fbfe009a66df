/* cw-table-offer.c: the offer of a crease beside a cut whose corner can flip.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "cw-table-private.h"

#include <glib/gi18n-lib.h>

/* Where the cut that is offered a crease is in the design: what has been refused is not offered again. */
static char *
address (CwTable *self, const char *cut)
{
  const CwPiece *piece
    = g_ptr_array_index (cw_document_get_design (self->document)->pieces, cw_document_get_piece (self->document));

  return g_strdup_printf ("%s/%s", piece->id, cut);
}

/* Offers the crease between the ends of the cut that is selected, drawn or typed, if there is one that works. */
void
cw_table_offer_flip (CwTable *self)
{
  guint n;
  const CwId *ids = cw_document_get_selection (self->document, &n);
  guint at = cw_document_get_piece (self->document);
  CwDesign *design = cw_document_get_design (self->document);
  const CwPiece *piece = g_ptr_array_index (design->pieces, at);
  gboolean was = gtk_widget_get_visible (self->offer);

  g_clear_pointer (&self->offered, cw_make_offer_free);
  if (n == 1 && ids[0].kind == CW_ID_MARK && ids[0].piece == at && ids[0].index < piece->marks->len)
    {
      const char *cut = ((CwMark *) g_ptr_array_index (piece->marks, ids[0].index))->id;
      g_autofree char *where = address (self, cut);

      if (!g_ptr_array_find_with_equal_func (self->refused, where, g_str_equal, NULL))
        self->offered = cw_make_offer_flip (design, piece->id, cut);
    }
  if (self->offered == NULL && !was)
    return;
  gtk_widget_set_visible (self->offer, self->offered != NULL);
  if (self->offered != NULL)
    cw_table_set_tip (self, NULL);
  gtk_widget_queue_allocate (GTK_WIDGET (self));
  cw_table_redraw_over (self);
}

static void
accept_offer (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  CwTable *self = data;

  if (self->offered == NULL || !gtk_widget_get_visible (self->offer))
    return;
  gtk_widget_set_visible (self->offer, FALSE);
  cw_document_try (self->document, _ ("score the corner"), cw_edit_ref (self->offered->edit), NULL);
  gtk_widget_grab_focus (GTK_WIDGET (self));
}

static void
refuse_offer (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  CwTable *self = data;

  if (self->offered != NULL)
    g_ptr_array_add (self->refused, address (self, self->offered->cut));
  gtk_widget_set_visible (self->offer, FALSE);
  cw_table_update_actions (self);
  gtk_widget_grab_focus (GTK_WIDGET (self));
  cw_table_redraw_over (self);
}

void
cw_table_add_offer_actions (CwTable *self)
{
  static const GActionEntry entries[] = { { "accept-offer", accept_offer }, { "refuse-offer", refuse_offer } };

  g_action_map_add_action_entries (G_ACTION_MAP (self->actions), entries, G_N_ELEMENTS (entries), self);
}
