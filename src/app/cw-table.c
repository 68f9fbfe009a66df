/* cw-table.c: the table widget.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-table.h"

struct _CwTable
{
  GtkWidget parent_instance;

  /* Owned */
  CwDocument *document;
  GSimpleActionGroup *actions;
};

G_DEFINE_FINAL_TYPE (CwTable, cw_table, GTK_TYPE_WIDGET)

static void
cw_table_dispose (GObject *object)
{
  CwTable *self = CW_TABLE (object);

  g_clear_object (&self->document);
  g_clear_object (&self->actions);
  G_OBJECT_CLASS (cw_table_parent_class)->dispose (object);
}

static void
cw_table_class_init (CwTableClass *class)
{
  G_OBJECT_CLASS (class)->dispose = cw_table_dispose;
  g_signal_new ("lie", CW_TYPE_TABLE, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
}

static void
cw_table_init (CwTable *self)
{
  self->actions = g_simple_action_group_new ();
  gtk_widget_insert_action_group (GTK_WIDGET (self), "table", G_ACTION_GROUP (self->actions));
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

/**
 * cw_table_set_document:
 * @document: (nullable): the open design
 */
void
cw_table_set_document (CwTable *self, CwDocument *document)
{
  g_return_if_fail (CW_IS_TABLE (self));

  g_set_object (&self->document, document);
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

/**
 * cw_table_get_lie:
 *
 * Returns: how the sheet lies now
 */
CwLie
cw_table_get_lie (CwTable *self)
{
  return (CwLie){ 0, FALSE };
}

/**
 * cw_table_set_preview:
 * @marks: (nullable) (element-type CwMark): marks to show before they are made; NULL for none
 */
void
cw_table_set_preview (CwTable *self, GPtrArray *marks)
{
  g_return_if_fail (CW_IS_TABLE (self));
}
