/* cw-table-menu.c: the context menus of marks, panels and the bare table.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "cw-table-private.h"

#include <glib/gi18n-lib.h>

typedef struct
{
  const char *words, *action;
} Row;

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

/* Rows up to the one without words. */
static GMenu *
menu_of (const Row *rows)
{
  GMenu *menu = g_menu_new ();

  for (; rows->words != NULL; rows++)
    g_menu_append (menu, _ (rows->words), rows->action);
  return menu;
}

static void
append_rows (GMenu *menu, const Row *rows)
{
  append_section (menu, menu_of (rows));
}

static const Row clipboard_rows[]
  = { { N_ ("Copy"), "table.copy" }, { N_ ("Cut out"), "table.cut" }, { N_ ("Paste"), "table.paste" }, { NULL, NULL } };
static const Row delete_rows[] = { { N_ ("Delete"), "table.delete" }, { NULL, NULL } };
static const Row ways_rows[] = { { N_ ("Fold toward you"), "table.way::toward" },
                                 { N_ ("Fold away from you"), "table.way::away" },
                                 { N_ ("Score only, not folded here"), "table.way::none" },
                                 { NULL, NULL } };
static const Row made_rows[] = { { N_ ("Scored on a board"), "table.made::board" },
                                 { N_ ("Creased by hand"), "table.made::press" },
                                 { NULL, NULL } };
static const Row mirror_rows[] = { { N_ ("Left and right change places"), "table.mirror::across" },
                                   { N_ ("Top and bottom change places"), "table.mirror::down" },
                                   { N_ ("A copy on the other half, across"), "table.mirror-copy::across" },
                                   { N_ ("A copy on the other half, down"), "table.mirror-copy::down" },
                                   { N_ ("Turn a quarter to the right"), "table.turn-marks(1)" },
                                   { N_ ("Turn a quarter to the left"), "table.turn-marks(3)" },
                                   { NULL, NULL } };
static const Row line_up_rows[] = { { N_ ("At the left edge"), "table.align::left" },
                                    { N_ ("At the right edge"), "table.align::right" },
                                    { N_ ("At the top edge"), "table.align::top" },
                                    { N_ ("At the bottom edge"), "table.align::bottom" },
                                    { N_ ("In the middle across"), "table.align::middle-across" },
                                    { N_ ("In the middle down"), "table.align::middle-down" },
                                    { NULL, NULL } };
static const Row to_first_rows[] = { { N_ ("Left sides"), "table.align-to::left" },
                                     { N_ ("Right sides"), "table.align-to::right" },
                                     { N_ ("Tops"), "table.align-to::top" },
                                     { N_ ("Bottoms"), "table.align-to::bottom" },
                                     { N_ ("Middles across"), "table.align-to::middle-across" },
                                     { N_ ("Middles down"), "table.align-to::middle-down" },
                                     { NULL, NULL } };
static const Row edge_rows[] = { { N_ ("Measure from the other edge"), "table.other-edge" }, { NULL, NULL } };
static const Row art_rows[] = { { N_ ("What it says or shows…"), "table.words" },
                                { N_ ("Turn the picture a quarter"), "table.turn-art" },
                                { NULL, NULL } };
static const Row panel_rows[] = { { N_ ("Keep this panel still"), "table.hold" },
                                  { N_ ("Name this panel…"), "table.rename" },
                                  { N_ ("What must and must not show…"), "win.show-wants" },
                                  { NULL, NULL } };
static const Row all_rows[]
  = { { N_ ("Select all"), "table.select-all" }, { N_ ("Paste"), "table.paste" }, { NULL, NULL } };
static const Row sheet_rows[]
  = { { N_ ("Turn the sheet a quarter"), "table.turn" }, { N_ ("Other side up"), "table.flip" }, { NULL, NULL } };
static const Row view_rows[] = { { N_ ("Show everything"), "table.zoom-fit" },
                                 { N_ ("Glue map"), "table.glue-map" },
                                 { N_ ("Make the sheet bigger"), "table.bigger::sheet" },
                                 { N_ ("Make the card bigger"), "table.bigger::card" },
                                 { NULL, NULL } };

static void
append_arrange (GMenu *menu)
{
  GMenu *section = g_menu_new (), *line_up = menu_of (line_up_rows);

  append_submenu (section, _ ("Mirror and turn"), menu_of (mirror_rows));
  append_submenu (line_up, _ ("With the mark selected first"), menu_of (to_first_rows));
  append_submenu (section, _ ("Line up"), line_up);
  g_menu_append (section, _ ("Spread evenly"), "table.spread");
  g_menu_append (section, _ ("Repeat at a distance…"), "table.repeat");
  append_section (menu, section);
}

static void
fill_mark_menu (GMenu *menu, const CwMark *mark)
{
  if (mark->kind == CW_MARK_SCORE)
    {
      append_rows (menu, ways_rows);
      append_rows (menu, made_rows);
    }
  append_arrange (menu);
  append_rows (menu, edge_rows);
  append_rows (menu, clipboard_rows);
  append_rows (menu, delete_rows);
}

static void
fill_zone_menu (GMenu *menu)
{
  GMenu *section = g_menu_new ();

  for (CwGlueKind kind = CW_GLUE_TAPE; kind <= CW_GLUE_DOTS; kind++)
    {
      g_autofree char *action = g_strdup_printf ("table.glue-kind::%s", cw_glue_kind_get_key (kind));

      g_menu_append (section, cw_words_glue_kind (kind), action);
    }
  append_section (menu, section);
  section = g_menu_new ();
  g_menu_append (section, _ ("Glue all that is safe"), "table.glue-lay::safe");
  cw_table_fill_glue_menu (section);
  append_section (menu, section);
  append_rows (menu, delete_rows);
}

static void
fill_art_menu (GMenu *menu)
{
  append_rows (menu, art_rows);
  append_rows (menu, delete_rows);
}

static void
append_parts (GMenu *menu, const char *label, gboolean beside)
{
  GMenu *parts = g_menu_new ();

  for (guint n = 2; n <= 8; n++)
    {
      g_autofree char *words = g_strdup_printf (ngettext ("%u part", "%u parts", n), n);
      g_autofree char *action = g_strdup_printf ("table.divide((%u,%s))", n, beside ? "true" : "false");

      g_menu_append (parts, words, action);
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

  append_rows (menu, panel_rows);
  for (guint i = 0; i < G_N_ELEMENTS (rims); i++)
    {
      g_autofree char *lay_action = g_strdup_printf ("table.lay-piece::%s", rims[i].rim);
      g_autofree char *rim_action = g_strdup_printf ("table.set-rim::%s", rims[i].rim);

      g_menu_append (lay, _ (rims[i].words), lay_action);
      g_menu_append (rim, _ (rims[i].words), rim_action);
    }
  append_submenu (section, _ ("Lay a layer here"), lay);
  if (layer)
    append_submenu (section, _ ("Round this layer"), rim);
  else
    g_object_unref (rim);
  g_menu_append (section, _ ("Glue all that is safe"), "table.glue-lay::safe");
  cw_table_fill_glue_menu (section);
  append_section (menu, section);
  section = g_menu_new ();
  append_parts (section, _ ("Divide, side by side"), TRUE);
  append_parts (section, _ ("Divide, one below the other"), FALSE);
  append_section (menu, section);
  section = g_menu_new ();
  g_menu_append (section, _ ("Paste"), "table.paste");
  if (layer)
    g_menu_append (section, _ ("Take this piece away"), "table.remove-piece");
  append_section (menu, section);
}

static void
fill_table_menu (GMenu *menu)
{
  append_rows (menu, all_rows);
  append_rows (menu, sheet_rows);
  append_rows (menu, view_rows);
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
