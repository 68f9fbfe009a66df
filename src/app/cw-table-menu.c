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
append_submenu (GMenu *menu, const char *label, GMenu *submenu)
{
  g_menu_append_submenu (menu, label, G_MENU_MODEL (submenu));
  g_object_unref (submenu);
}

static void
append_clipboard (GMenu *menu)
{
  GMenu *section = g_menu_new ();

  append (section, _ ("Copy"), "table.copy");
  append (section, _ ("Cut out"), "table.cut");
  append (section, _ ("Paste"), "table.paste");
  append_section (menu, section);
}

static void
append_arrange (GMenu *menu)
{
  GMenu *section = g_menu_new (), *mirror = g_menu_new (), *line_up = g_menu_new (), *to_first = g_menu_new ();

  append (mirror, _ ("Left and right change places"), "table.mirror::across");
  append (mirror, _ ("Top and bottom change places"), "table.mirror::down");
  append (mirror, _ ("A copy on the other half, across"), "table.mirror-copy::across");
  append (mirror, _ ("A copy on the other half, down"), "table.mirror-copy::down");
  append (mirror, _ ("Turn a quarter to the right"), "table.turn-marks(1)");
  append (mirror, _ ("Turn a quarter to the left"), "table.turn-marks(3)");
  append_submenu (section, _ ("Mirror and turn"), mirror);
  append (line_up, _ ("At the left edge"), "table.align::left");
  append (line_up, _ ("At the right edge"), "table.align::right");
  append (line_up, _ ("At the top edge"), "table.align::top");
  append (line_up, _ ("At the bottom edge"), "table.align::bottom");
  append (line_up, _ ("In the middle across"), "table.align::middle-across");
  append (line_up, _ ("In the middle down"), "table.align::middle-down");
  append (to_first, _ ("Left sides"), "table.align-to::left");
  append (to_first, _ ("Right sides"), "table.align-to::right");
  append (to_first, _ ("Tops"), "table.align-to::top");
  append (to_first, _ ("Bottoms"), "table.align-to::bottom");
  append (to_first, _ ("Middles across"), "table.align-to::middle-across");
  append (to_first, _ ("Middles down"), "table.align-to::middle-down");
  append_submenu (line_up, _ ("With the mark selected first"), to_first);
  append_submenu (section, _ ("Line up"), line_up);
  append (section, _ ("Spread evenly"), "table.spread");
  append (section, _ ("Repeat at a distance…"), "table.repeat");
  append_section (menu, section);
}

static void
append_delete (GMenu *menu)
{
  GMenu *section = g_menu_new ();

  append (section, _ ("Delete"), "table.delete");
  append_section (menu, section);
}

static void
fill_mark_menu (GMenu *menu, const CwMark *mark)
{
  GMenu *section;

  if (mark->kind == CW_MARK_SCORE)
    {
      section = g_menu_new ();
      append (section, _ ("Fold toward you"), "table.way::toward");
      append (section, _ ("Fold away from you"), "table.way::away");
      append (section, _ ("Score only, not folded here"), "table.way::none");
      append_section (menu, section);
      section = g_menu_new ();
      append (section, _ ("Scored on a board"), "table.made::board");
      append (section, _ ("Creased by hand"), "table.made::press");
      append_section (menu, section);
    }
  append_arrange (menu);
  section = g_menu_new ();
  append (section, _ ("Measure from the other edge"), "table.other-edge");
  append_section (menu, section);
  append_clipboard (menu);
  append_delete (menu);
}

static void
fill_zone_menu (GMenu *menu)
{
  GMenu *section = g_menu_new ();

  for (CwGlueKind kind = CW_GLUE_TAPE; kind <= CW_GLUE_DOTS; kind++)
    {
      g_autofree char *action = g_strdup_printf ("table.glue-kind::%s", cw_glue_kind_get_key (kind));

      append (section, cw_words_glue_kind (kind), action);
    }
  append_section (menu, section);
  section = g_menu_new ();
  append (section, _ ("Glue all that is safe"), "table.glue-lay::safe");
  cw_table_fill_glue_menu (section);
  append_section (menu, section);
  append_delete (menu);
}

static void
fill_art_menu (GMenu *menu)
{
  GMenu *section = g_menu_new ();

  append (section, _ ("What it says or shows…"), "table.words");
  append (section, _ ("Turn its up a quarter"), "table.turn-art");
  append_section (menu, section);
  append_delete (menu);
}

static void
append_parts (GMenu *menu, const char *label, gboolean beside)
{
  GMenu *parts = g_menu_new ();

  for (guint n = 2; n <= 8; n++)
    {
      g_autofree char *words = g_strdup_printf (ngettext ("%u part", "%u parts", n), n);
      g_autofree char *action = g_strdup_printf ("table.divide((%u,%s))", n, beside ? "true" : "false");

      append (parts, words, action);
    }
  append_submenu (menu, label, parts);
}

static void
fill_panel_menu (GMenu *menu, gboolean layer)
{
  static const struct
  {
    const char *words, *rim;
  } rims[] = {
    { N_ ("A rim of 1/8 in"), "1/8 in" }, { N_ ("A rim of 1/16 in"), "1/16 in" }, { N_ ("A rim of 3 mm"), "3 mm" },
    { N_ ("A rim of 2 mm"), "2 mm" },     { N_ ("Right to the edge"), "0 in" },
  };
  GMenu *section = g_menu_new (), *lay = g_menu_new (), *rim = g_menu_new ();

  append (section, _ ("Keep this panel still"), "table.hold");
  append (section, _ ("Name this panel…"), "table.rename");
  append (section, _ ("What must and must not show…"), "win.show-wants");
  append_section (menu, section);
  section = g_menu_new ();
  for (guint i = 0; i < G_N_ELEMENTS (rims); i++)
    {
      g_autofree char *lay_action = g_strdup_printf ("table.lay-piece::%s", rims[i].rim);
      g_autofree char *rim_action = g_strdup_printf ("table.set-rim::%s", rims[i].rim);

      append (lay, _ (rims[i].words), lay_action);
      append (rim, _ (rims[i].words), rim_action);
    }
  append_submenu (section, _ ("Lay a layer here"), lay);
  if (layer)
    append_submenu (section, _ ("Round this layer"), rim);
  else
    g_object_unref (rim);
  append (section, _ ("Glue all that is safe"), "table.glue-lay::safe");
  cw_table_fill_glue_menu (section);
  append_section (menu, section);
  section = g_menu_new ();
  append_parts (section, _ ("Divide, side by side"), TRUE);
  append_parts (section, _ ("Divide, one below the other"), FALSE);
  append_section (menu, section);
  section = g_menu_new ();
  append (section, _ ("Paste"), "table.paste");
  if (layer)
    append (section, _ ("Take this piece away"), "table.remove-piece");
  append_section (menu, section);
}

static void
fill_table_menu (GMenu *menu)
{
  GMenu *section = g_menu_new ();

  append (section, _ ("Select all"), "table.select-all");
  append (section, _ ("Paste"), "table.paste");
  append_section (menu, section);
  section = g_menu_new ();
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

/* A menu closed from one of its inner menus keeps the keys (GTK 4.8), though nobody sees it any more. */
static void
menu_closed (CwTable *self)
{
  GtkRoot *root = gtk_widget_get_root (GTK_WIDGET (self));
  GtkWidget *focus = root != NULL ? gtk_root_get_focus (root) : NULL;

  if (root != NULL && (focus == NULL || gtk_widget_is_ancestor (focus, self->menu)))
    gtk_widget_grab_focus (GTK_WIDGET (self));
}

/* Opens the menu of what was pointed at, selecting it first so that menu, keys and drawing mean the same. */
void
cw_table_popup (CwTable *self, const CwId *id, double x, double y)
{
  g_autoptr (GMenu) menu = g_menu_new ();
  CwId thing = *id;
  CwDesign *design = cw_document_get_design (self->document);

  cw_table_set_tip (self, NULL);
  thing = cw_table_whole (thing);
  if (thing.kind != CW_ID_NONE && !cw_table_is_selected (self, thing))
    cw_document_select (self->document, &thing, 1);
  if (thing.kind == CW_ID_ZONE)
    fill_zone_menu (menu);
  else if (thing.kind == CW_ID_ART)
    fill_art_menu (menu);
  else if ((thing.kind == CW_ID_MARK || thing.kind == CW_ID_PANEL) && thing.piece < design->pieces->len)
    {
      const CwPiece *piece = g_ptr_array_index (design->pieces, thing.piece);

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
      g_signal_connect_swapped (self->menu, "closed", G_CALLBACK (menu_closed), self);
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
  if (n > 0)
    {
      id = ids[0];
      cw_table_get_box (self, &id, box);
    }
  cw_table_popup (self, &id, (box[0] + box[2]) / 2, (box[1] + box[3]) / 2);
}
