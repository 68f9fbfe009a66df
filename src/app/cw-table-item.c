/* cw-table-item.c: one thing on the table as a widget that draws nothing but its focus.
 *
 * A canvas cannot give GTK 4.8 accessible children of its own making, but real widgets are listed with place and state,
 * are reached by Tab, and their class actions are actions on the accessibility bus. What the actions do is the table's
 * business: the signal "act" carries the name of the one that was called.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-table-item.h"

struct _CwTableItem
{
  GtkWidget parent_instance;

  CwId id;
};

G_DEFINE_FINAL_TYPE (CwTableItem, cw_table_item, GTK_TYPE_WIDGET)

enum
{
  ACT,
  N_SIGNALS
};
static guint signals[N_SIGNALS];

static const char *const action_names[]
  = { "item.select", "item.toggle", "item.delete", "item.swap-way", "item.hold", "item.rename", "item.menu" };

static void
act (GtkWidget *widget, const char *name, GVariant *parameter)
{
  g_signal_emit (widget, signals[ACT], 0, name + strlen ("item."));
}

static void
cw_table_item_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  GdkRGBA colour;
  float width = (float) gtk_widget_get_width (widget), height = (float) gtk_widget_get_height (widget);
  GskRoundedRect outline;

  if (!gtk_widget_has_visible_focus (widget))
    return;
  gtk_style_context_get_color (gtk_widget_get_style_context (widget), &colour);
  gsk_rounded_rect_init_from_rect (&outline, &GRAPHENE_RECT_INIT (-5, -5, width + 10, height + 10), 6);
  gtk_snapshot_append_border (snapshot, &outline, (float[4]){ 2, 2, 2, 2 },
                              (GdkRGBA[4]){ colour, colour, colour, colour });
}

static void
focus_changed (GtkWidget *widget, GParamSpec *pspec, gpointer data)
{
  gtk_widget_queue_draw (widget);
}

static void
cw_table_item_class_init (CwTableItemClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);

  widget_class->snapshot = cw_table_item_snapshot;
  gtk_widget_class_set_css_name (widget_class, "tableitem");
  for (guint i = 0; i < G_N_ELEMENTS (action_names); i++)
    gtk_widget_class_install_action (widget_class, action_names[i], NULL, act);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_space, 0, "item.toggle", NULL);
  signals[ACT]
    = g_signal_new ("act", CW_TYPE_TABLE_ITEM, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 1, G_TYPE_STRING);
}

static void
cw_table_item_init (CwTableItem *self)
{
  gtk_widget_set_can_target (GTK_WIDGET (self), FALSE);
  gtk_widget_set_focusable (GTK_WIDGET (self), TRUE);
  g_signal_connect (self, "notify::has-focus", G_CALLBACK (focus_changed), NULL);
}

/**
 * cw_table_item_new:
 * @id: what it stands for
 * @role: what it is to a screen reader
 * @label: its name there
 *
 * Returns: (transfer floating): an item
 */
GtkWidget *
cw_table_item_new (CwId id, GtkAccessibleRole role, const char *label)
{
  CwTableItem *self = g_object_new (CW_TYPE_TABLE_ITEM, "accessible-role", role, NULL);

  self->id = id;
  cw_table_item_set_label (self, label, NULL);
  return GTK_WIDGET (self);
}

/**
 * cw_table_item_get_id:
 *
 * Returns: what it stands for
 */
CwId
cw_table_item_get_id (CwTableItem *self)
{
  g_return_val_if_fail (CW_IS_TABLE_ITEM (self), (CwId){ CW_ID_NONE });

  return self->id;
}

/**
 * cw_table_item_set_label:
 * @label: its name
 * @description: (nullable): more about it
 */
void
cw_table_item_set_label (CwTableItem *self, const char *label, const char *description)
{
  g_return_if_fail (CW_IS_TABLE_ITEM (self));

  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL, label, -1);
  if (description != NULL)
    gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_DESCRIPTION, description, -1);
}

/**
 * cw_table_item_set_selected:
 * @selected: whether it is part of the selection
 */
void
cw_table_item_set_selected (CwTableItem *self, gboolean selected)
{
  g_return_if_fail (CW_IS_TABLE_ITEM (self));

  gtk_accessible_update_state (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_STATE_SELECTED, selected, -1);
}
