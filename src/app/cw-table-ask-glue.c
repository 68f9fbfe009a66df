/* cw-table-ask-glue.c: the slip that asks which glue, where and how much of it.
 *
 * It keeps open what was asked last, so that several layers can be glued alike.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "cw-table-lay-glue.h"

#include <glib/gi18n-lib.h>

static const char *const kind_words[]
  = { N_ ("Double-sided tape"), N_ ("Wet glue"), N_ ("Strong tape"), N_ ("Foam tape"), N_ ("Glue dots"), NULL };

typedef struct
{
  CwTable *table;
  GtkWidget *title, *kind, *way, *edge, *entries[3], *words[3], *edge_words;
  CwUnit unit;
  gboolean filled;
} Slip;

static CwGlueWay
get_way (Slip *slip)
{
  return MIN (gtk_drop_down_get_selected (GTK_DROP_DOWN (slip->way)), CW_N_GLUE_WAYS - 1);
}

/* Entries that this way of gluing has no use for go; the others get its usual measures. */
static void
way_chosen (Slip *slip)
{
  CwGlueWay way = get_way (slip);

  for (guint i = 0; i < 3; i++)
    {
      const char *text = slip->unit == CW_UNIT_INCH ? cw_glue_ways[way].inches[i] : cw_glue_ways[way].millimetres[i];

      gtk_widget_set_visible (slip->entries[i], text != NULL);
      gtk_widget_set_visible (slip->words[i], text != NULL);
      gtk_widget_remove_css_class (slip->entries[i], "error");
      if (text != NULL)
        gtk_editable_set_text (GTK_EDITABLE (slip->entries[i]), text);
    }
  if (cw_glue_ways[way].size_words != NULL)
    {
      gtk_label_set_text (GTK_LABEL (slip->words[0]), _ (cw_glue_ways[way].size_words));
      gtk_accessible_update_property (GTK_ACCESSIBLE (slip->entries[0]), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                      _ (cw_glue_ways[way].size_words), -1);
    }
  gtk_widget_set_visible (slip->edge, way == CW_GLUE_WAY_STRIP);
  gtk_widget_set_visible (slip->edge_words, way == CW_GLUE_WAY_STRIP);
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
  CwGlueWay way = get_way (slip);
  CwGluePlan plan = { .shape = cw_glue_ways[way].shape };
  CwGlueMeant meant;

  if (!cw_table_needs_fresh (self) || !cw_table_find_glue_meant (self, &meant) || !read_measure (slip, 0, &plan.size)
      || !read_measure (slip, 1, &plan.spacing) || !read_measure (slip, 2, &plan.inset))
    return;
  plan.along = cw_table_find_glue_edge (self, &meant, gtk_drop_down_get_selected (GTK_DROP_DOWN (slip->edge)) % 4);
  gtk_popover_popdown (GTK_POPOVER (self->glue_popover));
  gtk_widget_grab_focus (GTK_WIDGET (self));
  cw_table_lay_glue (self, &meant, way, gtk_drop_down_get_selected (GTK_DROP_DOWN (slip->kind)), &plan);
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
  const char *way_words[CW_N_GLUE_WAYS + 1] = { 0 };
  Slip *slip = g_new0 (Slip, 1);
  GtkWidget *grid = gtk_grid_new (), *buttons = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 6), *button;

  slip->table = self;
  for (guint i = 0; i < CW_N_GLUE_WAYS; i++)
    way_words[i] = cw_glue_ways[i].words;
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
find_place (CwTable *self, const CwGlueMeant *meant)
{
  double box[4]
    = { self->sheet_area.x + 40.0, self->sheet_area.y + 40.0, self->sheet_area.x + 40.0, self->sheet_area.y + 40.0 };

  if (meant->piece == cw_document_get_piece (self->document))
    cw_hand_panel_box (&self->view, &self->analysis->panels->maps[meant->piece], meant->panel, box);
  else if (!cw_draw_list_get_box (self->card_list, (CwId){ CW_ID_PANEL, meant->piece, meant->panel, CW_FACE_FRONT },
                                  box))
    cw_draw_list_get_box (self->card_list, (CwId){ CW_ID_PANEL, meant->piece, meant->panel, CW_FACE_BACK }, box);
  return (GdkRectangle){ (int) ((box[0] + box[2]) / 2), (int) ((box[1] + box[3]) / 2), 1, 1 };
}

void
cw_table_ask_glue (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  CwTable *self = data;
  Slip *slip;
  CwGlueMeant meant;
  GdkRectangle place;
  const CwGlue *glue;
  g_autofree char *words = NULL;
  const CwPiece *piece;

  if (!cw_table_needs_fresh (self) || !cw_table_find_glue_meant (self, &meant))
    return;
  slip = self->glue_popover != NULL ? g_object_get_data (G_OBJECT (self->glue_popover), "cw-slip") : new_slip (self);
  piece = self->analysis->panels->maps[meant.piece].piece;
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
  glue = cw_table_find_glue (self, &meant);
  if (glue != NULL)
    gtk_drop_down_set_selected (GTK_DROP_DOWN (slip->kind), glue->kind);
  place = find_place (self, &meant);
  gtk_popover_set_pointing_to (GTK_POPOVER (self->glue_popover), &place);
  gtk_popover_popup (GTK_POPOVER (self->glue_popover));
  gtk_widget_grab_focus (slip->kind);
}
