/* cw-table-items.c: child widgets for everything on the table, for keyboard and screen reader.
 *
 * One for the sheet, one for the card, one for every mark, picture area, glue zone and panel of the piece on the table,
 * and one for every other piece. They follow the analysis, lie over what they stand for, and pass on what is done to
 * them.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "cw-table-item.h"
#include "cw-table-private.h"

#include <glib/gi18n-lib.h>
#include <math.h>
#include <string.h>

#define LEAST 12 /* pixels: a level or upright line still has an area to point at */

static void
acted (CwTableItem *item, const char *what, CwTable *self)
{
  CwId id = cw_table_item_get_id (item);

  if (id.kind == CW_ID_NONE || id.kind == CW_ID_SHEET || !cw_table_is_ready (self))
    return;
  if (!cw_table_to_current (self, &id))
    {
      cw_table_needs_fresh (self);
      return;
    }
  if (g_str_equal (what, "toggle"))
    {
      cw_document_toggle (self->document, id);
      return;
    }
  if (!cw_table_is_selected (self, id) || g_str_equal (what, "select"))
    cw_document_select (self->document, &id, 1);
  if (!g_str_equal (what, "select") && g_action_group_get_action_enabled (G_ACTION_GROUP (self->actions), what))
    g_action_group_activate_action (G_ACTION_GROUP (self->actions), what, NULL);
}

/* Going to an item by Tab selects it, as a row of a list would be. */
static void
focused (CwTableItem *item, GParamSpec *pspec, CwTable *self)
{
  CwId id = cw_table_item_get_id (item);

  if (!gtk_widget_has_focus (GTK_WIDGET (item)) || self->document == NULL || self->rebuilding)
    return;
  if (id.kind != CW_ID_NONE && id.kind != CW_ID_SHEET && cw_table_is_ready (self) && cw_table_to_current (self, &id)
      && !cw_table_is_selected (self, id))
    cw_document_select (self->document, &id, 1);
}

static CwTableItem *
add (CwTable *self, CwId id, GtkAccessibleRole role, const char *label)
{
  GtkWidget *item = cw_table_item_new (id, role, label);

  gtk_widget_set_parent (item, GTK_WIDGET (self));
  g_signal_connect (item, "act", G_CALLBACK (acted), self);
  g_signal_connect (item, "notify::has-focus", G_CALLBACK (focused), self);
  g_ptr_array_add (self->items, item);
  return CW_TABLE_ITEM (item);
}

static void
add_fixed (CwTable *self)
{
  if (self->sheet_item != NULL)
    return;
  self->sheet_item = cw_table_item_new ((CwId){ CW_ID_SHEET }, GTK_ACCESSIBLE_ROLE_IMG, _ ("Sheet"));
  gtk_widget_set_focusable (self->sheet_item, FALSE);
  gtk_widget_set_parent (self->sheet_item, GTK_WIDGET (self));
  self->card_item = cw_table_item_new ((CwId){ CW_ID_NONE }, GTK_ACCESSIBLE_ROLE_IMG, _ ("Card"));
  self->told_step = G_MININT;
  gtk_widget_set_parent (self->card_item, GTK_WIDGET (self));
}

/* Whether the items there are stand for what is on the table now, so that an edit that only moves a mark keeps them,
 * and with them the focus. */
static gboolean
items_fit (CwTable *self, const GArray *wanted)
{
  if (self->items->len != wanted->len)
    return FALSE;
  for (guint i = 0; i < wanted->len; i++)
    {
      CwId is = cw_table_item_get_id (g_ptr_array_index (self->items, i)), want = g_array_index (wanted, CwId, i);

      if (is.kind != want.kind || is.piece != want.piece || is.index != want.index)
        return FALSE;
    }
  return TRUE;
}

void
cw_table_rebuild_items (CwTable *self)
{
  g_autoptr (GArray) wanted = g_array_new (FALSE, TRUE, sizeof (CwId));

  add_fixed (self);
  if (cw_table_is_ready (self))
    {
      const CwPanelSet *set = self->analysis->panels;
      guint piece = cw_table_get_drawn_piece (self);
      CwId id = { CW_ID_MARK, piece, 0 };

      for (id.index = 0; id.index < set->maps[piece].piece->marks->len; id.index++)
        g_array_append_val (wanted, id);
      id.kind = CW_ID_ART;
      for (id.index = 0; id.index < set->maps[piece].piece->art->len; id.index++)
        g_array_append_val (wanted, id);
      for (guint i = 0; i < set->design->glue->len; i++)
        if (g_strcmp0 (((const CwGlue *) g_ptr_array_index (set->design->glue, i))->piece, set->maps[piece].piece->id)
            == 0)
          g_array_append_val (wanted, ((CwId){ CW_ID_ZONE, G_MAXUINT, i, 0 }));
      id.kind = CW_ID_PANEL;
      for (id.index = 0; id.index < set->maps[piece].panels->len; id.index++)
        g_array_append_val (wanted, id);
      id.index = 0;
      for (id.piece = 0; id.piece < set->n_pieces; id.piece++)
        if (id.piece != piece && set->maps[id.piece].panels->len > 0)
          g_array_append_val (wanted, id);
    }
  if (!items_fit (self, wanted))
    {
      GtkRoot *root = gtk_widget_get_root (GTK_WIDGET (self));
      gboolean had_focus = root != NULL && CW_IS_TABLE_ITEM (gtk_root_get_focus (root));

      self->rebuilding = TRUE;
      if (had_focus)
        gtk_widget_grab_focus (GTK_WIDGET (self));
      for (guint i = 0; i < self->items->len; i++)
        gtk_widget_unparent (g_ptr_array_index (self->items, i));
      g_ptr_array_set_size (self->items, 0);
      for (guint i = 0; i < wanted->len; i++)
        {
          CwId id = g_array_index (wanted, CwId, i);
          g_autofree char *label = cw_table_dup_words (self, id);

          add (self, id, GTK_ACCESSIBLE_ROLE_LIST_ITEM, label);
        }
      self->rebuilding = FALSE;
      gtk_widget_queue_allocate (GTK_WIDGET (self));
    }
  cw_table_update_items (self);
  cw_table_place_items (self);
}

static void
place (CwTable *self, GtkWidget *item, const double box[4])
{
  double x0 = MIN (box[0], box[2]), y0 = MIN (box[1], box[3]);
  double width = fabs (box[2] - box[0]), height = fabs (box[3] - box[1]);

  if (width < LEAST)
    {
      x0 -= (LEAST - width) / 2;
      width = LEAST;
    }
  if (height < LEAST)
    {
      y0 -= (LEAST - height) / 2;
      height = LEAST;
    }
  gtk_widget_measure (item, GTK_ORIENTATION_HORIZONTAL, -1, NULL, NULL, NULL, NULL);
  gtk_widget_size_allocate (
    item, &(GtkAllocation){ (int) lround (x0), (int) lround (y0), (int) lround (width), (int) lround (height) }, -1);
}

/* Where the thing that is drawn lies: its own analysis may be older than the design. */
static gboolean
get_drawn_box (CwTable *self, CwId id, double box[4])
{
  const CwPanelMap *map = cw_table_get_map (self);
  const CwDesign *design = self->analysis->design;
  g_autoptr (CwMark) outline = NULL;

  if (id.kind == CW_ID_ZONE && id.index < design->glue->len)
    outline = cw_make_outline_of_glue (g_ptr_array_index (design->glue, id.index));
  else if (id.kind == CW_ID_ART && id.piece == cw_table_get_drawn_piece (self) && id.index < map->piece->art->len)
    outline = cw_make_outline_of_art (g_ptr_array_index (map->piece->art, id.index));
  else if (id.kind == CW_ID_MARK && id.piece == cw_table_get_drawn_piece (self) && id.index < map->piece->marks->len)
    outline = cw_mark_ref (g_ptr_array_index (map->piece->marks, id.index));
  if (outline != NULL)
    cw_hand_mark_box (&self->view, map, outline, box);
  else if (id.kind == CW_ID_PANEL && id.piece == cw_table_get_drawn_piece (self) && id.index < map->panels->len)
    cw_hand_panel_box (&self->view, map, id.index, box);
  else
    return cw_draw_list_get_box (self->card_list, id, box)
           || cw_draw_list_get_box (self->card_list, (CwId){ id.kind, id.piece, id.index, CW_FACE_BACK }, box);
  return TRUE;
}

void
cw_table_place_items (CwTable *self)
{
  double box[4];

  if (self->sheet_item == NULL)
    return;
  if (!cw_table_is_ready (self) || self->view.scale <= 0)
    {
      const double none[4] = { 0, 0, 1, 1 };

      place (self, self->sheet_item, none);
      place (self, self->card_item, none);
      return;
    }
  const double card[4] = { self->card_area.x + 6, self->card_area.y + 6, self->card_area.x + self->card_area.width - 6,
                           self->card_area.y + self->card_area.height - 6 };

  cw_hand_panel_box (&self->view, cw_table_get_map (self), G_MAXUINT, box);
  place (self, self->sheet_item, box);
  place (self, self->card_item, card);
  for (guint i = 0; i < self->items->len; i++)
    {
      GtkWidget *item = g_ptr_array_index (self->items, i);
      CwId id = cw_table_item_get_id (CW_TABLE_ITEM (item));

      if (!get_drawn_box (self, id, box))
        memcpy (box, card, sizeof box); /* not laid down yet at this moment, or not drawn yet */
      place (self, item, box);
    }
}

/* What a screen reader hears of the card: the step and how far it is, told in tenths so that playing does not chatter.
 */
void
cw_table_tell_moment (CwTable *self)
{
  GPtrArray *steps = cw_document_get_design (self->document)->steps;
  int step = cw_document_get_step (self->document);
  int tenths = (int) lround (cw_document_get_fraction (self->document) * 10);
  g_autofree char *text = NULL;

  if (step < 0 || (guint) step >= steps->len)
    tenths = -1;
  if (self->told_step == step && self->told_tenths == tenths)
    return;
  self->told_step = step;
  self->told_tenths = tenths;
  if (tenths < 0)
    text = g_strdup (_ ("Flat, before the first step. Arrow keys look at it from elsewhere."));
  else
    text = g_strdup_printf (_ ("Step %d of %u, %d %% done. Arrow keys look at it from elsewhere."), step + 1,
                            steps->len, tenths * 10);
  cw_table_item_set_label (CW_TABLE_ITEM (self->card_item), _ ("Card"), text);
}

/* Names and selected states; the items themselves stay. */
void
cw_table_update_items (CwTable *self)
{
  if (!cw_table_is_ready (self))
    return;
  cw_table_tell_moment (self);
  for (guint i = 0; i < self->items->len; i++)
    {
      CwTableItem *item = g_ptr_array_index (self->items, i);
      CwId id = cw_table_item_get_id (item);
      const CwPanelSet *set = self->analysis->panels;
      g_autofree char *label = NULL;
      const char *description = NULL;

      label = cw_table_dup_words (self, id);
      if (id.kind == CW_ID_PANEL && id.piece < set->n_pieces
          && set->first_panel[id.piece] + id.index == cw_motion_get_held (self->analysis->motion))
        description = _ ("Stays still");
      cw_table_item_set_label (item, label, description ? description : "");
      cw_table_item_set_selected (item, cw_table_is_selected (self, id));
    }
}
