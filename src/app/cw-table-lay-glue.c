/* cw-table-lay-glue.c: glue as people put it on, for the selected layer or zone: from the menu or asked for in full.
 *
 * Meant is the selected zone; else, of the selected panel, the face by which its piece is stuck down; else the face
 * that lies up on the table. Laying glue takes the place of what lies on that face. The slip that asks in full keeps
 * open what was asked last, so that several layers can be glued alike.
 *
 * Over 500 lines because one gesture, from the press of the pointer to the edit, is read in one piece.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "cw-table-private.h"

#include <glib/gi18n-lib.h>

#include "make/cw-make-area.h"
#include "make/cw-make-glue.h"

/* How it can lie: "safe" is no shape of its own. */
typedef enum
{
  WAY_SAFE,
  WAY_ALL,
  WAY_RIM,
  WAY_CORNERS,
  WAY_STRIP,
  WAY_DOTS,
  N_WAYS
} Way;

static const struct
{
  const char *key;
  CwGlueShape shape;
  const char *words, *undo;
  const char *size_words; /* NULL: it has no size */
  const char *inches[3];  /* size, distance between dots, distance from the edge; common practice, no source */
  const char *millimetres[3];
} ways[N_WAYS] = {
  { "safe", CW_GLUE_SHAPE_ALL_OVER, N_ ("All that is safe"), N_ ("glue all that is safe"), NULL, { 0 }, { 0 } },
  { "all",
    CW_GLUE_SHAPE_ALL_OVER,
    N_ ("All over"),
    N_ ("glue all over"),
    NULL,
    { NULL, NULL, "1/8 in" },
    { NULL, NULL, "3 mm" } },
  { "rim",
    CW_GLUE_SHAPE_RIM,
    N_ ("A rim"),
    N_ ("glue a rim"),
    N_ ("How wide"),
    { "1/4 in", NULL, "1/8 in" },
    { "6 mm", NULL, "3 mm" } },
  { "corners",
    CW_GLUE_SHAPE_CORNERS,
    N_ ("The corners"),
    N_ ("glue the corners"),
    N_ ("How large"),
    { "1/2 in", NULL, "1/8 in" },
    { "12 mm", NULL, "3 mm" } },
  { "strip",
    CW_GLUE_SHAPE_STRIP,
    N_ ("A strip along an edge"),
    N_ ("glue a strip"),
    N_ ("How wide"),
    { "1/4 in", NULL, "1/8 in" },
    { "6 mm", NULL, "3 mm" } },
  { "dots",
    CW_GLUE_SHAPE_DOTS,
    N_ ("Dots"),
    N_ ("glue dots"),
    N_ ("How large"),
    { "1/4 in", "3/4 in", "1/8 in" },
    { "6 mm", "20 mm", "3 mm" } },
};

static const char *const kind_words[]
  = { N_ ("Double-sided tape"), N_ ("Wet glue"), N_ ("Strong tape or glue"), N_ ("Foam tape"), N_ ("Glue dots"), NULL };

/* The slip that asks. */
typedef struct
{
  CwTable *table;
  GtkWidget *title, *kind, *way, *edge, *entries[3], *words[3], *edge_words;
  CwUnit unit;
  gboolean filled;
} Slip;

/* ---- What is meant ---- */

typedef struct
{
  guint piece, panel; /* place in the design, and index in its map */
  guint zone;         /* place in the design's list; G_MAXUINT: the whole face */
  CwFace face;
} Meant;

static CwFace
find_face (CwTable *self, guint piece, guint panel)
{
  const CwPanelSet *set = self->analysis->panels;
  const char *id = set->maps[piece].piece->id;

  for (guint i = 0; i < set->design->steps->len; i++)
    {
      const CwStep *step = g_ptr_array_index (set->design->steps, i);

      if (step->what == CW_DO_STICK && g_strcmp0 (step->piece, id) == 0 && cw_panel_set_find_laid (set, piece) == panel)
        return step->facing;
    }
  return cw_document_get_lie (self->document).flipped ? CW_FACE_BACK : CW_FACE_FRONT;
}

/* FALSE when nothing is selected that glue could go on, or when it is not known yet how it folds. */
static gboolean
find_meant (CwTable *self, Meant *meant)
{
  guint n;
  const CwId *ids;
  CwId panel;

  if (!cw_table_is_fresh (self))
    return FALSE;
  ids = cw_document_get_selection (self->document, &n);
  for (guint i = 0; i < n; i++)
    if (ids[i].kind == CW_ID_ZONE && ids[i].index < cw_bonds_get_zones (self->analysis->bonds)->len)
      {
        const CwZone *zone = &g_array_index (cw_bonds_get_zones (self->analysis->bonds), CwZone, ids[i].index);

        if (zone->panel == G_MAXUINT)
          return FALSE;
        cw_panel_set_locate (self->analysis->panels, zone->panel, &meant->piece, &meant->panel);
        meant->zone = ids[i].index;
        meant->face = zone->glue->face;
        return TRUE;
      }
  if (!cw_table_get_panel (self, &panel))
    return FALSE;
  *meant = (Meant){ panel.piece, panel.index, G_MAXUINT, find_face (self, panel.piece, panel.index) };
  return TRUE;
}

static const CwPanelMap *
get_map (CwTable *self, const Meant *meant)
{
  return &self->analysis->panels->maps[meant->piece];
}

/* The zone that stands for what is there; NULL: there is no glue yet. */
static const CwGlue *
find_glue (CwTable *self, const Meant *meant)
{
  g_autoptr (GArray) zones = NULL;
  guint first = meant->zone;

  if (first == G_MAXUINT)
    {
      zones = cw_make_find_glue (self->analysis->design, get_map (self, meant), meant->panel, meant->face);
      if (zones->len == 0)
        return NULL;
      first = g_array_index (zones, guint, 0);
    }
  return g_ptr_array_index (self->analysis->design->glue, first);
}

/* ---- Doing it ---- */

/* One zone gets another shape, and maybe another kind, as one edit. */
static CwEdit *
reshape (const CwDesign *design, guint zone, CwGlueKind kind, const CwGluePlan *plan, const CwRegion *region,
         GError **error)
{
  CwEdit *group = cw_edit_new_group (), *edit = cw_make_change_glue (design, zone, kind);
  g_autoptr (CwDesign) changed = cw_edit_apply (edit, design);
  const char *id = ((CwGlue *) g_ptr_array_index (design->glue, zone))->id;

  cw_edit_group_add (group, edit);
  edit = region != NULL ? cw_make_reshape_glue_to (changed, id, region, error)
                        : cw_make_reshape_glue (changed, id, plan, error);
  if (edit == NULL)
    g_clear_pointer (&group, cw_edit_unref);
  else
    cw_edit_group_add (group, edit);
  return group;
}

static void
lay (CwTable *self, const Meant *meant, Way way, CwGlueKind kind, const CwGluePlan *plan)
{
  const CwDesign *design = cw_document_get_design (self->document);
  const CwPanelSet *set = self->analysis->panels;
  const char *piece = get_map (self, meant)->piece->id;
  CwSafeArea safe = { 0 };
  const CwRegion *region = NULL;
  GError *error = NULL;
  CwEdit *edit;

  if (way == WAY_SAFE)
    {
      safe = cw_bonds_find_safe_area_for (self->analysis->bonds, set->first_panel[meant->piece] + meant->panel,
                                          meant->face, kind);
      region = &safe.safe;
      if (region->n_polygons == 0)
        {
          cw_document_say (self->document, _ ("Nowhere on this face would glue be safe: nothing stays with it."));
          cw_safe_area_clear (&safe);
          return;
        }
    }
  if (meant->zone != G_MAXUINT)
    edit = reshape (design, meant->zone, kind, plan, region, &error);
  else if (region != NULL)
    edit = cw_make_lay_glue_on (design, piece, meant->panel, meant->face, kind, region, &error);
  else
    edit = cw_make_lay_glue (design, piece, meant->panel, meant->face, kind, plan, &error);
  cw_safe_area_clear (&safe);
  cw_document_try (self->document, _ (ways[way].undo), edit, error);
}

static Way
find_way (const char *key)
{
  guint way = WAY_SAFE;

  while (way + 1 < N_WAYS && !g_str_equal (ways[way].key, key))
    way++;
  return way;
}

/* A place outside the middle of one side of the panel, as the sheet lies. */
static CwPoint
find_edge (CwTable *self, const Meant *meant, guint side)
{
  static const double to[4][2] = { { 0, 0.5 }, { 1, 0.5 }, { 0.5, 0 }, { 0.5, 1 } };
  CwSheetView view = { .lie = cw_document_get_lie (self->document), .scale = 1 };
  const CwPanelMap *map = get_map (self, meant);
  double box[4], x, y;

  cw_hand_panel_box (&view, map, meant->panel, box);
  cw_sheet_view_to_piece (&view, map, box[0] + to[side][0] * (box[2] - box[0]),
                          box[1] + to[side][1] * (box[3] - box[1]), &x, &y);
  return cw_point ((gint32) x, (gint32) y);
}

static gint32
usual (CwTable *self, Way way, guint which)
{
  CwUnit unit = cw_table_get_unit (self);
  const char *text = unit == CW_UNIT_INCH ? ways[way].inches[which] : ways[way].millimetres[which];
  CwLength length = { 0 };

  return text != NULL && cw_length_parse (text, unit, &length, NULL) ? length.ticks : 0;
}

/* ---- The slip ---- */

static Way
get_way (Slip *slip)
{
  return MIN (gtk_drop_down_get_selected (GTK_DROP_DOWN (slip->way)), N_WAYS - 1);
}

/* Entries that this way of gluing has no use for go; the others get its usual measures. */
static void
way_chosen (Slip *slip)
{
  Way way = get_way (slip);

  for (guint i = 0; i < 3; i++)
    {
      const char *text = slip->unit == CW_UNIT_INCH ? ways[way].inches[i] : ways[way].millimetres[i];

      gtk_widget_set_visible (slip->entries[i], text != NULL);
      gtk_widget_set_visible (slip->words[i], text != NULL);
      gtk_widget_remove_css_class (slip->entries[i], "error");
      if (text != NULL)
        gtk_editable_set_text (GTK_EDITABLE (slip->entries[i]), text);
    }
  if (ways[way].size_words != NULL)
    {
      gtk_label_set_text (GTK_LABEL (slip->words[0]), _ (ways[way].size_words));
      gtk_accessible_update_property (GTK_ACCESSIBLE (slip->entries[0]), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                      _ (ways[way].size_words), -1);
    }
  gtk_widget_set_visible (slip->edge, way == WAY_STRIP);
  gtk_widget_set_visible (slip->edge_words, way == WAY_STRIP);
}

/* FALSE when a measure cannot be read: its entry is marked and the reason told. */
static gboolean
read_measure (Slip *slip, guint which, gint32 *ticks)
{
  g_autoptr (GError) error = NULL;
  CwLength length;

  if (!gtk_widget_get_visible (slip->entries[which]))
    return TRUE;
  if (!cw_length_parse (gtk_editable_get_text (GTK_EDITABLE (slip->entries[which])), slip->unit, &length, &error)
      || length.ticks < (which == 2 ? 0 : 1))
    {
      gtk_widget_add_css_class (slip->entries[which], "error");
      cw_document_say (slip->table->document,
                       error != NULL ? error->message : _ ("This measure must be larger than nothing."));
      gtk_widget_grab_focus (slip->entries[which]);
      return FALSE;
    }
  gtk_widget_remove_css_class (slip->entries[which], "error");
  *ticks = length.ticks;
  return TRUE;
}

static void
put_on (Slip *slip)
{
  CwTable *self = slip->table;
  Way way = get_way (slip);
  CwGluePlan plan = { .shape = ways[way].shape };
  Meant meant;

  if (!cw_table_needs_fresh (self) || !find_meant (self, &meant) || !read_measure (slip, 0, &plan.size)
      || !read_measure (slip, 1, &plan.spacing) || !read_measure (slip, 2, &plan.inset))
    return;
  plan.along = find_edge (self, &meant, gtk_drop_down_get_selected (GTK_DROP_DOWN (slip->edge)) % 4);
  gtk_popover_popdown (GTK_POPOVER (self->glue_popover));
  gtk_widget_grab_focus (GTK_WIDGET (self));
  lay (self, &meant, way, gtk_drop_down_get_selected (GTK_DROP_DOWN (slip->kind)), &plan);
}

static GtkWidget *
add_row (GtkWidget *grid, int row, const char *words, GtkWidget *control)
{
  GtkWidget *label = gtk_label_new (words);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_mnemonic_widget (GTK_LABEL (label), control);
  gtk_accessible_update_property (GTK_ACCESSIBLE (control), GTK_ACCESSIBLE_PROPERTY_LABEL, words, -1);
  gtk_widget_set_hexpand (control, TRUE);
  gtk_grid_attach (GTK_GRID (grid), label, 0, row, 1, 1);
  gtk_grid_attach (GTK_GRID (grid), control, 1, row, 1, 1);
  return label;
}

static GtkWidget *
new_choice (const char *const *words)
{
  GtkStringList *list = gtk_string_list_new (NULL);

  for (; *words != NULL; words++)
    gtk_string_list_append (list, _ (*words));
  return gtk_drop_down_new (G_LIST_MODEL (list), NULL);
}

static Slip *
new_slip (CwTable *self)
{
  static const char *const sides[]
    = { N_ ("The left edge"), N_ ("The right edge"), N_ ("The top edge"), N_ ("The bottom edge"), NULL };
  static const char *const measures[] = { N_ ("How wide"), N_ ("From dot to dot"), N_ ("Away from the edges") };
  const char *way_words[N_WAYS + 1] = { 0 };
  Slip *slip = g_new0 (Slip, 1);
  GtkWidget *grid = gtk_grid_new (), *buttons = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 6), *button;

  slip->table = self;
  for (guint i = 0; i < N_WAYS; i++)
    way_words[i] = ways[i].words;
  gtk_grid_set_row_spacing (GTK_GRID (grid), 6);
  gtk_grid_set_column_spacing (GTK_GRID (grid), 10);
  slip->title = gtk_label_new (NULL);
  gtk_label_set_xalign (GTK_LABEL (slip->title), 0);
  gtk_widget_add_css_class (slip->title, "heading");
  gtk_grid_attach (GTK_GRID (grid), slip->title, 0, 0, 2, 1);
  add_row (grid, 1, _ ("Glue"), slip->kind = new_choice (kind_words));
  add_row (grid, 2, _ ("Where"), slip->way = new_choice (way_words));
  slip->edge_words = add_row (grid, 3, _ ("Along"), slip->edge = new_choice (sides));
  for (guint i = 0; i < 3; i++)
    {
      slip->entries[i] = gtk_entry_new ();
      gtk_widget_set_direction (slip->entries[i], GTK_TEXT_DIR_LTR);
      g_signal_connect_swapped (slip->entries[i], "activate", G_CALLBACK (put_on), slip);
      slip->words[i] = add_row (grid, 4 + (int) i, _ (measures[i]), slip->entries[i]);
    }
  button = gtk_button_new_with_label (_ ("Take all glue off"));
  gtk_actionable_set_action_name (GTK_ACTIONABLE (button), "table.glue-off");
  gtk_box_append (GTK_BOX (buttons), button);
  button = gtk_button_new_with_label (_ ("Put it on"));
  gtk_widget_add_css_class (button, "suggested-action");
  g_signal_connect_swapped (button, "clicked", G_CALLBACK (put_on), slip);
  gtk_box_append (GTK_BOX (buttons), button);
  gtk_widget_set_halign (buttons, GTK_ALIGN_END);
  gtk_widget_set_margin_top (buttons, 6);
  gtk_grid_attach (GTK_GRID (grid), buttons, 0, 7, 2, 1);
  g_signal_connect_swapped (slip->way, "notify::selected", G_CALLBACK (way_chosen), slip);

  self->glue_popover = gtk_popover_new ();
  gtk_popover_set_child (GTK_POPOVER (self->glue_popover), grid);
  gtk_widget_set_parent (self->glue_popover, GTK_WIDGET (self));
  g_object_set_data_full (G_OBJECT (self->glue_popover), "cw-slip", slip, g_free);
  return slip;
}

/* Where the slip points: at the panel, on the sheet if it lies there, else on the card. */
static GdkRectangle
find_place (CwTable *self, const Meant *meant)
{
  double box[4]
    = { self->sheet_area.x + 40.0, self->sheet_area.y + 40.0, self->sheet_area.x + 40.0, self->sheet_area.y + 40.0 };

  if (meant->piece == cw_document_get_piece (self->document))
    cw_hand_panel_box (&self->view, get_map (self, meant), meant->panel, box);
  else if (!cw_draw_list_get_box (self->card_list, (CwId){ CW_ID_PANEL, meant->piece, meant->panel, CW_FACE_FRONT },
                                  box))
    cw_draw_list_get_box (self->card_list, (CwId){ CW_ID_PANEL, meant->piece, meant->panel, CW_FACE_BACK }, box);
  return (GdkRectangle){ (int) ((box[0] + box[2]) / 2), (int) ((box[1] + box[3]) / 2), 1, 1 };
}

static void
ask (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  CwTable *self = data;
  Slip *slip;
  Meant meant;
  GdkRectangle place;
  const CwGlue *glue;
  g_autofree char *words = NULL;
  const CwPiece *piece;

  if (!cw_table_needs_fresh (self) || !find_meant (self, &meant))
    return;
  slip = self->glue_popover != NULL ? g_object_get_data (G_OBJECT (self->glue_popover), "cw-slip") : new_slip (self);
  piece = get_map (self, &meant)->piece;
  /* Translators: %s is the name of a piece of paper; drawn side and other side are its two faces. */
  words = g_strdup_printf (meant.face == CW_FACE_FRONT ? _ ("Glue on the drawn side of “%s”")
                                                       : _ ("Glue on the other side of “%s”"),
                           piece->name != NULL ? piece->name : piece->id);
  gtk_label_set_text (GTK_LABEL (slip->title), words);
  if (!slip->filled || slip->unit != cw_table_get_unit (self))
    {
      slip->unit = cw_table_get_unit (self);
      slip->filled = TRUE;
      way_chosen (slip);
    }
  glue = find_glue (self, &meant);
  if (glue != NULL)
    gtk_drop_down_set_selected (GTK_DROP_DOWN (slip->kind), glue->kind);
  place = find_place (self, &meant);
  gtk_popover_set_pointing_to (GTK_POPOVER (self->glue_popover), &place);
  gtk_popover_popup (GTK_POPOVER (self->glue_popover));
  gtk_widget_grab_focus (slip->kind);
}

/* ---- Actions ---- */

/* From the menu: the usual measures, the kind of glue that is there. */
static void
lay_usual (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  CwTable *self = data;
  Way way = find_way (g_variant_get_string (parameter, NULL));
  CwGluePlan plan = { .shape = ways[way].shape };
  const CwGlue *glue;
  Meant meant;

  if (!cw_table_needs_fresh (self) || !find_meant (self, &meant))
    return;
  plan.size = usual (self, way, 0);
  plan.spacing = usual (self, way, 1);
  plan.inset = usual (self, way, 2);
  plan.along = find_edge (self, &meant, 0);
  glue = find_glue (self, &meant);
  lay (self, &meant, way, glue != NULL ? glue->kind : CW_GLUE_TAPE, &plan);
}

static void
take_off (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  CwTable *self = data;
  CwDesign *design;
  CwEdit *edit;
  Meant meant;

  if (!cw_table_needs_fresh (self) || !find_meant (self, &meant))
    return;
  design = cw_document_get_design (self->document);
  if (self->glue_popover != NULL)
    gtk_popover_popdown (GTK_POPOVER (self->glue_popover));
  if (meant.zone != G_MAXUINT)
    edit = cw_edit_new_erase (design, CW_LIST_GLUE, NULL, meant.zone);
  else
    edit = cw_make_strip_glue (design, get_map (self, &meant)->piece->id, meant.panel, meant.face);
  cw_document_try (self->document, _ ("take glue off"), edit, NULL);
}

void
cw_table_add_glue_actions (CwTable *self)
{
  static const GActionEntry entries[] = {
    { "glue-map", NULL, NULL, "false", cw_table_change_glue_map },
    { "glue", ask },
    { "glue-lay", lay_usual, "s" },
    { "glue-off", take_off },
  };

  g_action_map_add_action_entries (G_ACTION_MAP (self->actions), entries, G_N_ELEMENTS (entries), self);
}

/* What decides whether glue can be put on now, and taken off. */
void
cw_table_find_glue_facts (CwTable *self, CwTableState *state)
{
  Meant meant;

  state->glue_meant = find_meant (self, &meant);
  state->glued = state->glue_meant && find_glue (self, &meant) != NULL;
}

/* The menu of a layer's glue; the menu of what was pointed at shows it as a part. */
void
cw_table_fill_glue_menu (GMenu *menu)
{
  GMenu *glue = g_menu_new ();

  for (guint i = 0; i < N_WAYS; i++)
    {
      g_autofree char *action = g_strdup_printf ("table.glue-lay::%s", ways[i].key);

      if (i != WAY_SAFE && i != WAY_STRIP) /* the one stands beside this menu; along which edge has to be asked */
        g_menu_append (glue, _ (ways[i].words), action);
    }
  g_menu_append (glue, _ ("Other measures or glue…"), "table.glue");
  g_menu_append (glue, _ ("Take all glue off"), "table.glue-off");
  g_menu_append_submenu (menu, _ ("Glue"), G_MENU_MODEL (glue));
  g_object_unref (glue);
}
