/* cw-table-menu.c: the context menus of marks, panels and the bare table.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "cw-table-private.h"

#include <glib/gi18n-lib.h>

static void
append (GMenu *menu, const char *label, const char *action)
{
  g_menu_append (menu, label, action);
}

static void
append_section (GMenu *menu, GMenu *section)
{
  g_menu_append_section (menu, NULL, G_MENU_MODEL (section));
  g_object_unref (section);
}

static void
fill_mark_menu (GMenu *menu, const CwMark *mark)
{
  GMenu *section = g_menu_new ();

  if (mark->kind == CW_MARK_SCORE)
    {
      append (section, _ ("Fold toward you"), "table.way::toward");
      append (section, _ ("Fold away from you"), "table.way::away");
      append (section, _ ("Score only, not folded here"), "table.way::none");
      append_section (menu, section);
      section = g_menu_new ();
      append (section, _ ("Scored on a board"), "table.made::board");
      append (section, _ ("Creased by hand"), "table.made::press");
      append_section (menu, section);
      section = g_menu_new ();
    }
  append (section, _ ("Delete"), "table.delete");
  append_section (menu, section);
}

static void
fill_panel_menu (GMenu *menu, gboolean removable)
{
  GMenu *section = g_menu_new (), *rims = g_menu_new ();

  append (section, _ ("Keep this panel still"), "table.hold");
  append (section, _ ("Name this panel…"), "table.rename");
  append_section (menu, section);
  section = g_menu_new ();
  append (rims, _ ("With a rim of 1/8 in"), "table.lay-piece::1/8 in");
  append (rims, _ ("With a rim of 1/16 in"), "table.lay-piece::1/16 in");
  append (rims, _ ("With a rim of 3 mm"), "table.lay-piece::3 mm");
  append (rims, _ ("With a rim of 2 mm"), "table.lay-piece::2 mm");
  append (rims, _ ("Right to the edge"), "table.lay-piece::0 in");
  g_menu_append_submenu (section, _ ("Lay a piece here"), G_MENU_MODEL (rims));
  g_object_unref (rims);
  append (section, _ ("Glue all that is safe"), "table.glue-lay::safe");
  cw_table_fill_glue_menu (section);
  if (removable)
    append (section, _ ("Take this piece away"), "table.remove-piece");
  append_section (menu, section);
}

static void
fill_table_menu (GMenu *menu)
{
  GMenu *section = g_menu_new ();

  append (section, _ ("Turn the sheet a quarter"), "table.turn");
  append (section, _ ("Other side up"), "table.flip");
  append_section (menu, section);
  section = g_menu_new ();
  append (section, _ ("Show everything"), "table.zoom-fit");
  append (section, _ ("Glue map"), "table.glue-map");
  append (section, _ ("Make the sheet bigger"), "table.bigger::sheet");
  append (section, _ ("Make the card bigger"), "table.bigger::card");
  append_section (menu, section);
}

/* Opens the menu of what was pointed at, selecting it first so that menu, keys and drawing mean the same. */
void
cw_table_popup (CwTable *self, const CwId *id, double x, double y)
{
  g_autoptr (GMenu) menu = g_menu_new ();
  CwId thing = *id;
  CwDesign *design = cw_document_get_design (self->document);

  cw_table_set_tip (self, NULL);
  if (thing.kind == CW_ID_MARK_END)
    thing = (CwId){ CW_ID_MARK, id->piece, id->index };
  if ((thing.kind == CW_ID_MARK || thing.kind == CW_ID_PANEL) && thing.piece < design->pieces->len)
    {
      const CwPiece *piece = g_ptr_array_index (design->pieces, thing.piece);

      if (!cw_table_is_selected (self, thing))
        cw_document_select (self->document, &thing, 1);
      if (thing.kind == CW_ID_MARK && thing.index < piece->marks->len)
        fill_mark_menu (menu, g_ptr_array_index (piece->marks, thing.index));
      else
        fill_panel_menu (menu, piece != cw_design_get_ground (design));
    }
  else
    fill_table_menu (menu);
  if (self->menu == NULL)
    {
      self->menu = gtk_popover_menu_new_from_model (G_MENU_MODEL (menu));
      gtk_popover_set_has_arrow (GTK_POPOVER (self->menu), FALSE);
      gtk_widget_set_halign (self->menu, GTK_ALIGN_START);
      gtk_widget_set_parent (self->menu, GTK_WIDGET (self));
    }
  else
    gtk_popover_menu_set_menu_model (GTK_POPOVER_MENU (self->menu), G_MENU_MODEL (menu));
  gtk_popover_set_pointing_to (GTK_POPOVER (self->menu), &(GdkRectangle){ (int) x, (int) y, 1, 1 });
  gtk_popover_popup (GTK_POPOVER (self->menu));
}

/* The menu of what is selected, opened by key. */
void
cw_table_popup_selected (CwTable *self)
{
  guint n;
  const CwId *ids;
  CwId id = { CW_ID_NONE };
  double box[4]
    = { self->sheet_area.x + 40, self->sheet_area.y + 40, self->sheet_area.x + 40, self->sheet_area.y + 40 };

  if (!cw_table_is_ready (self))
    return;
  ids = cw_document_get_selection (self->document, &n);
  if (n > 0 && ids[0].piece == cw_document_get_piece (self->document))
    {
      const CwPanelMap *map = cw_table_get_map (self);

      id = ids[0];
      if (id.kind == CW_ID_MARK && id.index < map->piece->marks->len)
        cw_hand_mark_box (&self->view, map, g_ptr_array_index (map->piece->marks, id.index), box);
      else if (id.kind == CW_ID_PANEL)
        cw_hand_panel_box (&self->view, map, id.index, box);
    }
  cw_table_popup (self, &id, (box[0] + box[2]) / 2, (box[1] + box[3]) / 2);
}
