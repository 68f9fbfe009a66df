/* cw-table-edits.c: the actions that change the design: marks, panels and pieces that are selected, and the offer of a
 * crease beside a new cut.
 *
 * Edits of several marks become one undoable edit, each made on the design that the ones before it leave.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "cw-table-item.h"
#include "cw-table-private.h"
#include "make/cw-make-area.h"

#include <glib/gi18n-lib.h>

#define ARROW_TURN 14 /* pixels of dragging that an arrow key stands for when it turns the card */

typedef CwEdit *(*MarkEdit) (const CwDesign *design, const CwPiece *piece, const CwMark *mark, gconstpointer data,
                             GError **error);

/* ---- What is selected ---- */

guint
cw_table_count_marks (CwTable *self, const CwMark **first)
{
  guint n, found = 0;
  const CwId *ids = cw_document_get_selection (self->document, &n);
  CwDesign *design = cw_document_get_design (self->document);

  for (guint i = 0; i < n; i++)
    if (ids[i].kind == CW_ID_MARK && ids[i].piece < design->pieces->len)
      {
        const CwPiece *piece = g_ptr_array_index (design->pieces, ids[i].piece);

        if (ids[i].index >= piece->marks->len)
          continue;
        if (found++ == 0 && first != NULL)
          *first = g_ptr_array_index (piece->marks, ids[i].index);
      }
  return found;
}

/* The one panel that is meant: the first selected. */
gboolean
cw_table_get_panel (CwTable *self, CwId *id)
{
  guint n;
  const CwId *ids = cw_document_get_selection (self->document, &n);

  for (guint i = 0; i < n; i++)
    if (ids[i].kind == CW_ID_PANEL && ids[i].piece < self->analysis->panels->n_pieces
        && ids[i].index < self->analysis->panels->maps[ids[i].piece].panels->len)
      {
        *id = ids[i];
        return TRUE;
      }
  return FALSE;
}

/* Edits every selected mark as one; says why when it cannot be done. */
static void
edit_marks (CwTable *self, const char *name, MarkEdit edit_mark, gconstpointer data)
{
  g_autoptr (CwDesign) design = NULL;
  g_autoptr (GPtrArray) addresses = g_ptr_array_new_with_free_func (g_free);
  CwEdit *group = cw_edit_new_group ();
  GError *error = NULL;
  guint n;
  const CwId *ids;

  if (self->document == NULL)
    {
      cw_edit_unref (group);
      return;
    }
  design = cw_design_ref (cw_document_get_design (self->document));
  ids = cw_document_get_selection (self->document, &n);
  for (guint i = 0; i < n; i++)
    if (ids[i].kind == CW_ID_MARK && ids[i].piece < design->pieces->len)
      {
        const CwPiece *piece = g_ptr_array_index (design->pieces, ids[i].piece);
        const CwMark *mark = ids[i].index < piece->marks->len ? g_ptr_array_index (piece->marks, ids[i].index) : NULL;

        if (mark != NULL)
          g_ptr_array_add (addresses, g_strdup_printf ("%s/%s", piece->id, mark->id));
      }
  for (guint i = 0; i < addresses->len && error == NULL; i++)
    {
      CwPiece *piece;
      CwMark *mark;
      g_autoptr (CwEdit) edit = NULL;

      if (!cw_design_split_address (design, g_ptr_array_index (addresses, i), &piece, &mark))
        continue;
      edit = edit_mark (design, piece, mark, data, &error);
      if (edit != NULL)
        {
          CwDesign *next = cw_edit_apply (edit, design);

          cw_design_unref (design);
          design = next;
          cw_edit_group_add (group, g_steal_pointer (&edit));
        }
    }
  cw_table_do (self, name, group, error);
}

static CwEdit *
edit_swap_way (const CwDesign *design, const CwPiece *piece, const CwMark *mark, gconstpointer data, GError **error)
{
  return mark->kind == CW_MARK_SCORE ? cw_make_turn_way (design, piece->id, mark->id, error) : NULL;
}

static CwEdit *
edit_way (const CwDesign *design, const CwPiece *piece, const CwMark *mark, gconstpointer data, GError **error)
{
  const char *wish = data;
  CwMark *copy;

  if (mark->kind != CW_MARK_SCORE)
    return NULL;
  copy = cw_mark_copy (mark);
  copy->fold = g_str_equal (wish, "away") ? CW_FOLD_AWAY : g_str_equal (wish, "none") ? CW_FOLD_NONE : CW_FOLD_TOWARD;
  return cw_make_replace_mark (design, piece->id, copy, error);
}

static CwEdit *
edit_made (const CwDesign *design, const CwPiece *piece, const CwMark *mark, gconstpointer data, GError **error)
{
  CwMark *copy;

  if (mark->kind != CW_MARK_SCORE)
    return NULL;
  copy = cw_mark_copy (mark);
  copy->made = g_str_equal (data, "press") ? CW_MADE_PRESS : CW_MADE_BOARD;
  return cw_make_replace_mark (design, piece->id, copy, error);
}

/* ---- Marks ---- */

static void
swap_way (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  edit_marks (data, _ ("turn the fold over"), edit_swap_way, NULL);
}

static void
set_way (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  edit_marks (data, _ ("change fold direction"), edit_way, g_variant_get_string (parameter, NULL));
}

static void
set_made (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  edit_marks (data, _ ("change how it is creased"), edit_made, g_variant_get_string (parameter, NULL));
}

/* The selected marks of one piece of the current design, as they are; borrowed. */
static GPtrArray *
selected_of (CwTable *self, guint piece_at)
{
  GPtrArray *found = g_ptr_array_new ();
  const CwPiece *piece = g_ptr_array_index (cw_document_get_design (self->document)->pieces, piece_at);
  guint n;
  const CwId *ids = cw_document_get_selection (self->document, &n);

  for (guint i = 0; i < n; i++)
    if (ids[i].kind == CW_ID_MARK && ids[i].piece == piece_at && ids[i].index < piece->marks->len)
      g_ptr_array_add (found, g_ptr_array_index (piece->marks, ids[i].index));
  return found;
}

static void
delete_marks (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  CwTable *self = data;
  g_autoptr (CwDesign) design = NULL;
  CwEdit *group = cw_edit_new_group ();
  GError *error = NULL;

  if (self->document != NULL)
    design = cw_design_ref (cw_document_get_design (self->document));
  for (guint i = 0; design != NULL && i < design->pieces->len && error == NULL; i++)
    {
      g_autoptr (GPtrArray) marks = selected_of (self, i);
      g_autoptr (GPtrArray) ids = g_ptr_array_new ();
      g_autoptr (CwEdit) edit = NULL;
      CwDesign *next;

      for (guint k = 0; k < marks->len; k++)
        g_ptr_array_add (ids, ((CwMark *) g_ptr_array_index (marks, k))->id);
      g_ptr_array_add (ids, NULL);
      if (marks->len == 0)
        continue;
      edit = cw_make_remove_marks (design, ((CwPiece *) g_ptr_array_index (design->pieces, i))->id,
                                   (const char *const *) ids->pdata, &error);
      if (edit == NULL)
        break;
      next = cw_edit_apply (edit, design);
      cw_design_unref (design);
      design = next;
      cw_edit_group_add (group, g_steal_pointer (&edit));
    }
  cw_table_do (self, cw_table_count_marks (self, NULL) == 1 ? _ ("delete mark") : _ ("delete marks"), group, error);
}

/* Arrow keys: the marks go by the snap step; with the card in focus it is looked at from elsewhere. */
static void
nudge (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  CwTable *self = data;
  g_autoptr (GPtrArray) marks = NULL;
  GPtrArray *moved;
  GError *error = NULL;
  CwEdit *edit;
  int right, down;
  gint32 step;
  CwPoint by;

  g_variant_get (parameter, "(ii)", &right, &down);
  if (!cw_table_is_ready (self))
    return;
  if (gtk_widget_has_focus (self->card_item))
    {
      cw_hand_turn_card (&self->camera, right * ARROW_TURN, down * ARROW_TURN);
      self->camera_turned = TRUE;
      cw_table_redraw_card (self);
      return;
    }
  marks = selected_of (self, cw_document_get_piece (self->document));
  if (marks->len == 0)
    return;
  step = cw_table_get_snap (self);
  if (step <= 0)
    step = cw_table_get_unit (self) == CW_UNIT_INCH ? CW_TICKS_PER_INCH / 64 : CW_TICKS_PER_MM / 10;
  by = cw_hand_lying_step (self->view.lie, right, down);
  by = cw_point (by.x * step, by.y * step);
  for (guint i = 0; i < marks->len; i++)
    by = cw_hand_keep_on_sheet (cw_table_get_map (self), g_ptr_array_index (marks, i), by);
  if (by.x == 0 && by.y == 0)
    {
      cw_document_say (self->document, _ ("It lies at the edge of the sheet already."));
      return;
    }
  moved = g_ptr_array_new_with_free_func ((GDestroyNotify) cw_mark_unref);
  for (guint i = 0; i < marks->len; i++)
    {
      CwMark *mark = g_ptr_array_index (marks, i), *copy = cw_mark_copy (mark);

      cw_hand_slide_mark (copy, mark, by);
      g_ptr_array_add (moved, copy);
    }
  edit = cw_make_replace_marks (cw_document_get_design (self->document), cw_table_get_piece (self)->id, moved, &error);
  cw_table_do (self, marks->len == 1 ? _ ("move mark") : _ ("move marks"), edit, error);
}

/* ---- Panels and pieces ---- */

static void
hold (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  CwTable *self = data;
  CwId id;
  GError *error = NULL;
  CwEdit *edit;
  const CwPanelMap *map;
  g_autofree char *name = NULL;

  if (!cw_table_needs_fresh (self) || !cw_table_get_panel (self, &id))
    return;
  map = &self->analysis->panels->maps[id.piece];
  name = cw_words_panel (self->analysis->panels, id.piece, id.index);
  edit = cw_make_set_hold (cw_document_get_design (self->document), map->piece->id,
                           g_array_index (map->panels, CwPanel, id.index).inside, &error);
  if (error == NULL)
    cw_table_say (self, _ ("%s stays still now."), name);
  cw_table_do (self, _ ("keep panel still"), edit, error);
}

static void
lay_piece (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  CwTable *self = data;
  CwId id;
  CwLength rim;
  GError *error = NULL;
  CwEdit *edit = NULL;

  if (!cw_table_needs_fresh (self) || !cw_table_get_panel (self, &id))
    return;
  if (cw_length_parse (g_variant_get_string (parameter, NULL), CW_UNIT_INCH, &rim, &error))
    edit = cw_make_add_layer (cw_document_get_design (self->document), self->analysis->panels->maps[id.piece].piece->id,
                              id.index, self->view.lie.flipped ? CW_FACE_BACK : CW_FACE_FRONT, rim, &error);
  cw_table_do (self, _ ("lay a piece"), edit, error);
}

static void
remove_piece (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  CwTable *self = data;
  CwId id;
  GError *error = NULL;
  CwEdit *edit;

  if (!cw_table_needs_fresh (self) || !cw_table_get_panel (self, &id))
    return;
  edit = cw_make_remove_piece (cw_document_get_design (self->document),
                               self->analysis->panels->maps[id.piece].piece->id, &error);
  cw_table_do (self, _ ("take piece away"), edit, error);
}

static void
name_entered (GtkEntry *entry, CwTable *self)
{
  const char *text = gtk_editable_get_text (GTK_EDITABLE (entry));
  CwDesign *design = cw_document_get_design (self->document);
  g_autofree char *name = g_strstrip (g_strdup (text));
  CwId id = self->menu_id;
  CwEdit *edit;

  gtk_popover_popdown (GTK_POPOVER (self->entry_popover));
  if (!cw_table_needs_fresh (self) || id.piece >= self->analysis->panels->n_pieces
      || id.index >= self->analysis->panels->maps[id.piece].panels->len)
    return;
  edit = cw_make_name_panel (design, self->analysis->panels->maps[id.piece].piece->id, id.index, name);
  cw_table_do (self, _ ("rename panel"), edit, NULL);
  gtk_widget_grab_focus (GTK_WIDGET (self));
}

/* An entry that stands on the panel. */
void
cw_table_rename_panel (CwTable *self, guint piece, guint panel)
{
  double box[4];
  GtkWidget *entry;
  const CwPanel *found = &g_array_index (self->analysis->panels->maps[piece].panels, CwPanel, panel);
  GdkRectangle place;

  if (self->entry_popover == NULL)
    {
      self->entry_popover = gtk_popover_new ();
      entry = gtk_entry_new ();
      gtk_entry_set_placeholder_text (GTK_ENTRY (entry), _ ("Name of this panel"));
      gtk_accessible_update_property (GTK_ACCESSIBLE (entry), GTK_ACCESSIBLE_PROPERTY_LABEL, _ ("Name of this panel"),
                                      -1);
      g_signal_connect (entry, "activate", G_CALLBACK (name_entered), self);
      gtk_popover_set_child (GTK_POPOVER (self->entry_popover), entry);
      gtk_widget_set_parent (self->entry_popover, GTK_WIDGET (self));
    }
  entry = gtk_popover_get_child (GTK_POPOVER (self->entry_popover));
  gtk_editable_set_text (GTK_EDITABLE (entry), found->name ? found->name : "");
  self->menu_id = (CwId){ CW_ID_PANEL, piece, panel };
  if (piece == cw_document_get_piece (self->document))
    cw_hand_panel_box (&self->view, cw_table_get_map (self), panel, box);
  else if (!cw_draw_list_get_box (self->card_list, self->menu_id, box))
    cw_draw_list_get_box (self->card_list, (CwId){ CW_ID_PANEL, piece, panel, CW_FACE_BACK }, box);
  place = (GdkRectangle){ (int) ((box[0] + box[2]) / 2), (int) ((box[1] + box[3]) / 2), 1, 1 };
  gtk_popover_set_pointing_to (GTK_POPOVER (self->entry_popover), &place);
  gtk_popover_popup (GTK_POPOVER (self->entry_popover));
  gtk_widget_grab_focus (entry);
}

static void
rename_panel (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  CwTable *self = data;
  CwId id;

  if (cw_table_needs_fresh (self) && cw_table_get_panel (self, &id))
    cw_table_rename_panel (self, id.piece, id.index);
}

/* ---- A corner that could flip ---- */

/* Offers the crease between the ends of the cut just drawn, if there is one that works. */
void
cw_table_offer_flip (CwTable *self)
{
  guint n;
  const CwId *ids = cw_document_get_selection (self->document, &n);
  CwDesign *design = cw_document_get_design (self->document);
  const CwPiece *piece = g_ptr_array_index (design->pieces, cw_document_get_piece (self->document));
  g_autoptr (GPtrArray) offers = NULL;

  g_clear_pointer (&self->offered, cw_make_offer_free);
  if (n == 1 && ids[0].kind == CW_ID_MARK && ids[0].index < piece->marks->len)
    {
      const CwMark *cut = g_ptr_array_index (piece->marks, ids[0].index);

      if (cut->kind == CW_MARK_CUT)
        offers = cw_make_offer_flips (design, piece->id);
      for (guint i = 0; offers != NULL && i < offers->len && self->offered == NULL; i++)
        {
          CwMakeOffer *offer = g_ptr_array_index (offers, i);

          if (g_strcmp0 (offer->cut, cut->id) == 0)
            {
              self->offered = g_new0 (CwMakeOffer, 1);
              self->offered->cut = g_strdup (offer->cut);
              self->offered->mark = cw_mark_ref (offer->mark);
              self->offered->edit = cw_edit_ref (offer->edit);
            }
        }
    }
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
  cw_table_do (self, _ ("score the corner"), cw_edit_ref (self->offered->edit), NULL);
  gtk_widget_grab_focus (GTK_WIDGET (self));
}

static void
refuse_offer (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  CwTable *self = data;

  gtk_widget_set_visible (self->offer, FALSE);
  gtk_widget_grab_focus (GTK_WIDGET (self));
  cw_table_redraw_over (self);
}

void
cw_table_add_edit_actions (CwTable *self)
{
  static const GActionEntry entries[] = {
    { "swap-way", swap_way },         { "way", set_way, "s", "'toward'" }, { "made", set_made, "s", "'board'" },
    { "delete", delete_marks },       { "nudge", nudge, "(ii)" },          { "hold", hold },
    { "rename", rename_panel },       { "lay-piece", lay_piece, "s" },     { "remove-piece", remove_piece },
    { "accept-offer", accept_offer }, { "refuse-offer", refuse_offer },
  };

  g_action_map_add_action_entries (G_ACTION_MAP (self->actions), entries, G_N_ELEMENTS (entries), self);
}
