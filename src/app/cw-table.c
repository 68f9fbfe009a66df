/* cw-table.c: the table: where the sheet and the card lie on it, and how it follows the document.
 *
 * One widget, no panes: the sheet has its part of the surface and the card the other (beside each other when wide,
 * above each other when narrow). What moves is drawn in layers of its own (cw-table-paint.c), the pointer is in
 * cw-table-hand.c, keys and menus in cw-table-actions.c, and child widgets for keyboard and screen reader in
 * cw-table-items.c. All geometry comes from the rooms below.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "cw-table-private.h"

#include <glib/gi18n-lib.h>

/* A row that comes or goes beside the table changes its size by no more than this, and does not shift the drawing under
 * the hand. Logical pixels. */
#define SMALL_CHANGE 28
/* Below this ratio of width to height the card lies under the sheet. */
#define NARROW 1.15

G_DEFINE_FINAL_TYPE (CwTable, cw_table, GTK_TYPE_WIDGET)

void
cw_table_redraw_sheet (CwTable *self)
{
  g_clear_pointer (&self->sheet_node, gsk_render_node_unref);
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

void
cw_table_redraw_card (CwTable *self)
{
  g_clear_pointer (&self->card_node, gsk_render_node_unref);
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

void
cw_table_redraw_over (CwTable *self)
{
  g_clear_pointer (&self->over_node, gsk_render_node_unref);
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

static void
redraw_all (CwTable *self)
{
  cw_table_redraw_sheet (self);
  cw_table_redraw_card (self);
  cw_table_redraw_over (self);
}

void
cw_table_lie_changed (CwTable *self)
{
  if (self->document == NULL)
    return;
  cw_table_cancel (self);
  cw_table_fit_sheet (self);
  cw_table_update_items (self);
}

/* ---- Following the document ---- */

static void
analysed (CwTable *self)
{
  CwAnalysis *analysis = cw_document_get_analysis (self->document);

  if (analysis == NULL || analysis == self->analysis)
    return;
  g_clear_pointer (&self->scene, cw_card_scene_free);
  g_clear_pointer (&self->analysis, cw_analysis_unref);
  self->analysis = cw_analysis_ref (analysis);
  self->scene = cw_card_scene_new (analysis);
  if (self->drag != CW_DRAG_SLIDE && self->drag != CW_DRAG_STRETCH)
    cw_table_forget_moving (self);
  if (self->drag == CW_DRAG_PULL)
    self->drag = CW_DRAG_NONE;
  self->hover = (CwId){ CW_ID_NONE };
  if (!self->view_own)
    cw_table_fit_sheet (self);
  if (!self->camera_own && !self->camera_turned && self->look_tick == 0)
    {
      /* Still as it was laid down: from the side that shows most of this card. */
      if (self->camera.pitch > 0)
        cw_camera_look_into (&self->camera, self->analysis->motion);
      cw_table_fit_card (self);
    }
  cw_table_follow_glue (self);
  cw_table_rebuild_items (self);
  cw_table_update_pieces (self);
  cw_table_update_actions (self);
  redraw_all (self);
}

static void
changed (CwTable *self)
{
  if (self->drag == CW_DRAG_SLIDE || self->drag == CW_DRAG_STRETCH)
    cw_table_cancel (self);
  gtk_widget_set_visible (self->offer, FALSE);
  cw_table_update_actions (self);
}

static void
moment (CwTable *self)
{
  if (self->sheet_item != NULL)
    cw_table_tell_moment (self);
  cw_table_redraw_card (self);
}

static void
selection (CwTable *self)
{
  cw_table_offer_flip (self);
  cw_table_update_items (self);
  cw_table_update_actions (self);
  cw_table_redraw_sheet (self);
  cw_table_redraw_card (self);
}

static void
piece_changed (CwTable *self)
{
  cw_table_lie_changed (self);
  cw_table_rebuild_items (self);
  cw_table_update_pieces (self);
  cw_table_update_actions (self);
}

void
cw_table_say (CwTable *self, const char *format, ...)
{
  g_autofree char *sentence = NULL;
  va_list args;

  va_start (args, format);
  sentence = g_strdup_vprintf (format, args);
  va_end (args);
  cw_document_say (self->document, sentence);
}

static void
disconnect (CwTable *self)
{
  cw_document_follow (&self->document, NULL, self);
  cw_table_stop_looking (self);
  g_clear_pointer (&self->scene, cw_card_scene_free);
  g_clear_pointer (&self->analysis, cw_analysis_unref);
  cw_table_follow_glue (self);
}

/**
 * cw_table_set_document:
 * @self: a table
 * @document: (nullable): the open design; NULL clears the table
 */
void
cw_table_set_document (CwTable *self, CwDocument *document)
{
  static const struct
  {
    const char *signal;
    void (*handler) (CwTable *self);
  } followed[] = {
    { "changed", changed },
    { "analysed", analysed },
    { "moment", moment },
    { "selection", selection },
    { "piece", piece_changed },
    { "lie", cw_table_lie_changed },
    { "preview", cw_table_redraw_over },
  };

  g_return_if_fail (CW_IS_TABLE (self));

  if (self->document == document)
    return;
  if (self->document != NULL)
    cw_table_cancel (self);
  disconnect (self);
  self->hover = (CwId){ CW_ID_NONE };
  self->view_own = self->camera_own = FALSE;
  cw_camera_look_from (&self->camera, "table");
  if (document != NULL)
    {
      self->document = g_object_ref (document);
      for (guint i = 0; i < G_N_ELEMENTS (followed); i++)
        g_signal_connect_swapped (document, followed[i].signal, G_CALLBACK (followed[i].handler), self);
      analysed (self);
    }
  cw_table_rebuild_items (self);
  cw_table_update_pieces (self);
  cw_table_update_actions (self);
  redraw_all (self);
}

/**
 * cw_table_get_document:
 *
 * Returns: (transfer none) (nullable): the open design
 */
CwDocument *
cw_table_get_document (CwTable *self)
{
  g_return_val_if_fail (CW_IS_TABLE (self), NULL);

  return self->document;
}

/**
 * cw_table_get_actions:
 *
 * Returns: (transfer none): the actions, to be inserted under the prefix "table"
 */
GActionGroup *
cw_table_get_actions (CwTable *self)
{
  g_return_val_if_fail (CW_IS_TABLE (self), NULL);

  return G_ACTION_GROUP (self->actions);
}

/* ---- The widget ---- */

static void
cw_table_measure (GtkWidget *widget, GtkOrientation orientation, int for_size, int *minimum, int *natural,
                  int *minimum_baseline, int *natural_baseline)
{
  *minimum = orientation == GTK_ORIENTATION_HORIZONTAL ? 480 : 300;
  *natural = orientation == GTK_ORIENTATION_HORIZONTAL ? 1200 : 720;
}

/* The larger part for what the maker has asked for; the other never vanishes. */
static double
sheet_share (const CwTable *self)
{
  switch (self->share)
    {
    case CW_SHARE_SHEET:
      return 0.76;
    case CW_SHARE_CARD:
      return 0.3;
    case CW_SHARE_BOTH:
    default:
      return 0.5;
    }
}

static void
cw_table_size_allocate (GtkWidget *widget, int width, int height, int baseline)
{
  CwTable *self = CW_TABLE (widget);
  GdkRectangle sheet = { 0, 0, width, height }, card = sheet, old = self->sheet_area, old_card = self->card_area;

  if (width >= height * NARROW)
    {
      sheet.width = (int) (width * sheet_share (self));
      card.x = sheet.width;
      card.width = width - sheet.width;
    }
  else
    {
      sheet.height = (int) (height * sheet_share (self));
      card.y = sheet.height;
      card.height = height - sheet.height;
    }
  self->sheet_area = sheet;
  self->card_area = card;
  cw_table_place_bars (self); /* takes its rows off the areas */

  if (!gdk_rectangle_equal (&old, &self->sheet_area))
    {
      gboolean much = ABS (self->sheet_area.width - self->fit_area.width) > SMALL_CHANGE
                      || ABS (self->sheet_area.height - self->fit_area.height) > SMALL_CHANGE;

      g_clear_pointer (&self->sheet_surface, cairo_surface_destroy);
      if (!self->view_own && much)
        cw_table_fit_sheet (self);
      if (!self->camera_own && much)
        {
          cw_table_stop_looking (self);
          cw_table_fit_card (self);
        }
      redraw_all (self);
    }
  else if (!gdk_rectangle_equal (&old_card, &self->card_area))
    {
      if (!self->camera_own && !self->camera_turned)
        cw_table_fit_card (self);
      cw_table_redraw_card (self);
    }
  cw_table_place_items (self);
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    if (GTK_IS_POPOVER (child))
      gtk_popover_present (GTK_POPOVER (child));
}

static void
cw_table_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  CwTable *self = CW_TABLE (widget);

  cw_table_snapshot_layers (self, snapshot);
  GTK_WIDGET_CLASS (cw_table_parent_class)->snapshot (widget, snapshot);
}

static void
palette_changed (CwTable *self)
{
  const CwPalette *palette = cw_table_choose_palette (GTK_WIDGET (self));

  if (palette == self->palette)
    return;
  self->palette = palette;
  redraw_all (self);
}

static void
cw_table_css_changed (GtkWidget *widget, GtkCssStyleChange *change)
{
  GTK_WIDGET_CLASS (cw_table_parent_class)->css_changed (widget, change);
  g_clear_object (&CW_TABLE (widget)->tip);
  palette_changed (CW_TABLE (widget));
}

static void
cw_table_realize (GtkWidget *widget)
{
  GTK_WIDGET_CLASS (cw_table_parent_class)->realize (widget);
  palette_changed (CW_TABLE (widget));
  g_signal_connect_swapped (widget, "notify::scale-factor", G_CALLBACK (redraw_all), widget);
  g_signal_connect_object (gtk_widget_get_clipboard (widget), "changed", G_CALLBACK (cw_table_update_actions), widget,
                           G_CONNECT_SWAPPED);
}

static void
cw_table_dispose (GObject *object)
{
  CwTable *self = CW_TABLE (object);
  GtkWidget *child;

  disconnect (self);
  while ((child = gtk_widget_get_first_child (GTK_WIDGET (self))) != NULL)
    gtk_widget_unparent (child);
  self->menu = self->entry_popover = self->repeat_popover = self->glue_popover = self->glue_legend = NULL;
  if (self->items != NULL)
    g_ptr_array_set_size (self->items, 0);
  g_clear_object (&self->actions);
  G_OBJECT_CLASS (cw_table_parent_class)->dispose (object);
}

static void
cw_table_finalize (GObject *object)
{
  CwTable *self = CW_TABLE (object);

  g_clear_pointer (&self->sheet_node, gsk_render_node_unref);
  g_clear_pointer (&self->card_node, gsk_render_node_unref);
  g_clear_pointer (&self->over_node, gsk_render_node_unref);
  g_clear_pointer (&self->sheet_surface, cairo_surface_destroy);
  g_clear_object (&self->tip);
  g_clear_pointer (&self->rubber, cw_mark_unref);
  cw_draw_list_free (self->sheet_list);
  cw_draw_list_free (self->card_list);
  cw_draw_list_free (self->over_list);
  g_ptr_array_unref (self->moving);
  g_ptr_array_unref (self->before);
  g_array_unref (self->moved);
  g_ptr_array_unref (self->refused);
  g_ptr_array_unref (self->items);
  g_clear_pointer (&self->offered, cw_make_offer_free);
  g_free (self->tip_text);
  g_free (self->piece_names);
  G_OBJECT_CLASS (cw_table_parent_class)->finalize (object);
}

static void
cw_table_class_init (CwTableClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);

  G_OBJECT_CLASS (class)->dispose = cw_table_dispose;
  G_OBJECT_CLASS (class)->finalize = cw_table_finalize;
  widget_class->measure = cw_table_measure;
  widget_class->size_allocate = cw_table_size_allocate;
  widget_class->snapshot = cw_table_snapshot;
  widget_class->css_changed = cw_table_css_changed;
  widget_class->realize = cw_table_realize;
  /* What was typed on the table that belongs into the measure line. */
  g_signal_new ("typed", CW_TYPE_TABLE, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 1, G_TYPE_STRING);
  gtk_widget_class_set_css_name (widget_class, "table");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_GROUP);
}

static void
cw_table_init (CwTable *self)
{
  gtk_widget_set_focusable (GTK_WIDGET (self), TRUE);
  gtk_widget_set_overflow (GTK_WIDGET (self), GTK_OVERFLOW_HIDDEN);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL, _ ("The table"), -1);
  self->sheet_list = cw_draw_list_new ();
  self->card_list = cw_draw_list_new ();
  self->over_list = cw_draw_list_new ();
  self->moving = g_ptr_array_new_with_free_func ((GDestroyNotify) cw_mark_unref);
  self->before = g_ptr_array_new_with_free_func ((GDestroyNotify) cw_mark_unref);
  self->refused = g_ptr_array_new_with_free_func (g_free);
  self->moved = g_array_new (FALSE, FALSE, sizeof (CwId));
  self->items = g_ptr_array_new ();
  self->palette = &cw_palette_light;
  cw_camera_look_from (&self->camera, "table");
  cw_table_add_actions (self);
  cw_table_add_bars (self);
  cw_table_add_controllers (self);
}

/**
 * cw_table_new:
 *
 * Returns: (transfer floating): an empty table
 */
GtkWidget *
cw_table_new (void)
{
  return g_object_new (CW_TYPE_TABLE, NULL);
}
