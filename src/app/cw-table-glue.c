/* cw-table-glue.c: the switch that shades where glue may go, and the legend that says in words what the shading means.
 *
 * The map costs an overlay for every face and rest state, so it is made on a worker thread from the analysis at hand; a
 * stale one is stopped. Until it is there nothing is shaded: an old map could tell a lie.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "cw-table-private.h"

#include <glib/gi18n-lib.h>

#include "glue/cw-glue-map.h"

#define SWATCH_WIDTH 34
#define SWATCH_HEIGHT 16

static const struct
{
  CwPen pen;
  const char *words, *more;
} legend[] = {
  { CW_PEN_SAFE, N_ ("glue may go here"), N_ ("In every step the same paper lies there, and stays") },
  { CW_PEN_NEAR, N_ ("too near an edge for glue"), N_ ("It would hold, but wet glue creeps and a hand may miss") },
  { CW_PEN_NEVER, N_ ("no glue here"), N_ ("In some step other paper lies there, or what lies there leaves") },
};

static void
draw_swatch (GtkDrawingArea *area, cairo_t *cr, int width, int height, gpointer data)
{
  GtkWidget *table = gtk_widget_get_ancestor (GTK_WIDGET (area), CW_TYPE_TABLE);
  g_autoptr (CwDrawList) list = cw_draw_list_new ();

  cw_draw_list_begin (list, GPOINTER_TO_UINT (data), (CwId){ CW_ID_NONE });
  cw_draw_list_move (list, 1, 1);
  cw_draw_list_line (list, width - 1, 1);
  cw_draw_list_line (list, width - 1, height - 1);
  cw_draw_list_line (list, 1, height - 1);
  cw_draw_list_close (list);
  cw_draw_list_end (list);
  cw_draw_play (list, cw_table_choose_palette (table != NULL ? table : GTK_WIDGET (area)), cr);
}

void
cw_table_add_glue_legend (CwTable *self)
{
  self->glue_legend = g_object_new (GTK_TYPE_FLOW_BOX, "selection-mode", GTK_SELECTION_NONE, "max-children-per-line", 3,
                                    "column-spacing", 8, "row-spacing", 0, "can-focus", FALSE, "visible", FALSE, NULL);
  gtk_widget_add_css_class (self->glue_legend, "table-bar");
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->glue_legend), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _ ("What the glue map shows"), -1);
  for (guint i = 0; i < G_N_ELEMENTS (legend); i++)
    {
      GtkWidget *row = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 6), *label = gtk_label_new (_ (legend[i].words));
      GtkWidget *swatch
        = g_object_new (GTK_TYPE_DRAWING_AREA, "accessible-role", GTK_ACCESSIBLE_ROLE_PRESENTATION, NULL);
      GtkWidget *child = gtk_flow_box_child_new ();

      gtk_drawing_area_set_content_width (GTK_DRAWING_AREA (swatch), SWATCH_WIDTH);
      gtk_drawing_area_set_content_height (GTK_DRAWING_AREA (swatch), SWATCH_HEIGHT);
      gtk_widget_set_valign (swatch, GTK_ALIGN_CENTER);
      gtk_drawing_area_set_draw_func (GTK_DRAWING_AREA (swatch), draw_swatch, GUINT_TO_POINTER (legend[i].pen), NULL);
      gtk_label_set_xalign (GTK_LABEL (label), 0);
      gtk_box_append (GTK_BOX (row), swatch);
      gtk_box_append (GTK_BOX (row), label);
      gtk_widget_set_tooltip_text (row, _ (legend[i].more));
      gtk_widget_set_focusable (child, FALSE);
      gtk_flow_box_child_set_child (GTK_FLOW_BOX_CHILD (child), row);
      gtk_flow_box_insert (GTK_FLOW_BOX (self->glue_legend), child, -1);
    }
  gtk_widget_set_parent (self->glue_legend, GTK_WIDGET (self));
}

/* The map of what is drawn; NULL while it is not wanted or not there yet. */
const CwGlueMap *
cw_table_get_glue_map (CwTable *self)
{
  return self->glue_map;
}

static void
work (GTask *task, gpointer source, gpointer data, GCancellable *cancellable)
{
  const CwAnalysis *analysis = data;

  g_task_return_pointer (task, cw_glue_map_new (analysis->bonds, cancellable), (GDestroyNotify) cw_glue_map_unref);
}

static void
work_done (GObject *source, GAsyncResult *result, gpointer data)
{
  CwTable *self = CW_TABLE (source);
  g_autoptr (CwGlueMap) map = g_task_propagate_pointer (G_TASK (result), NULL);

  if (map == NULL || g_task_get_task_data (G_TASK (result)) != self->analysis || self->glue_work == NULL
      || g_task_get_cancellable (G_TASK (result)) != self->glue_work)
    return;
  self->glue_map = g_steal_pointer (&map);
  cw_table_redraw_sheet (self);
  cw_table_redraw_card (self);
}

/* Drops the map, and makes that of the analysis that is drawn now if it is wanted. */
void
cw_table_follow_glue (CwTable *self)
{
  g_autoptr (GTask) task = NULL;

  if (self->glue_work != NULL)
    g_cancellable_cancel (self->glue_work);
  g_clear_object (&self->glue_work);
  g_clear_pointer (&self->glue_map, cw_glue_map_unref);
  if (!self->glue_wanted || self->analysis == NULL)
    return;
  self->glue_work = g_cancellable_new ();
  task = g_task_new (self, self->glue_work, work_done, NULL);
  g_task_set_check_cancellable (task, FALSE);
  g_task_set_source_tag (task, cw_table_follow_glue);
  g_task_set_task_data (task, cw_analysis_ref (self->analysis), (GDestroyNotify) cw_analysis_unref);
  g_task_run_in_thread (task, work);
}

/* The switch. */
void
cw_table_change_glue_map (GSimpleAction *action, GVariant *value, gpointer data)
{
  CwTable *self = data;

  g_simple_action_set_state (action, value);
  self->glue_wanted = g_variant_get_boolean (value);
  gtk_widget_set_visible (self->glue_legend, self->glue_wanted);
  gtk_widget_queue_allocate (GTK_WIDGET (self));
  cw_table_follow_glue (self);
  cw_table_redraw_sheet (self);
  cw_table_redraw_card (self);
}
