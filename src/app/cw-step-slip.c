/* cw-step-slip.c: a card with a picture, a number and a title, that can be picked up, changed, moved and taken away.
 *
 * Keys: Enter or Space picks it up, F2 opens its slip, Delete takes it away, Alt+Left and Alt+Right move it, Page Up
 * and Page Down go one step back and on. The same are widget actions ("step.change" and so on) of the context menu, and
 * of assistive programs.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "cw-step-slip.h"

#include <glib/gi18n-lib.h>

#include "cw-picture.h"

#define PICTURE_WIDTH 124
#define PICTURE_HEIGHT 62

struct _CwStepSlip
{
  GtkWidget parent_instance;

  GtkWidget *picture, *number, *title;
  GtkWidget *menu; /* made when first asked for */
  int step;
  gboolean current;
};

G_DEFINE_FINAL_TYPE (CwStepSlip, cw_step_slip, GTK_TYPE_WIDGET)

enum
{
  PICKED,
  REMOVED,
  MOVED,
  DROPPED,
  N_SIGNALS
};
static guint signals[N_SIGNALS];

static void
pick (GtkWidget *widget, const char *name, GVariant *parameter)
{
  g_signal_emit (widget, signals[PICKED], 0);
}

static void
take_away (GtkWidget *widget, const char *name, GVariant *parameter)
{
  g_signal_emit (widget, signals[REMOVED], 0);
}

static void
move_by (GtkWidget *widget, const char *name, GVariant *parameter)
{
  g_signal_emit (widget, signals[MOVED], 0, g_str_equal (name, "step.earlier") ? -1 : 1);
}

/* Alt+Left and Alt+Right move the card the way the arrow points, whichever way the words run. */
static gboolean
key_move (GtkWidget *widget, GVariant *args, gpointer data)
{
  int by = 0;

  g_variant_get (args, "(i)", &by);
  if (CW_STEP_SLIP (widget)->step < 0)
    return FALSE;
  g_signal_emit (widget, signals[MOVED], 0, gtk_widget_get_direction (widget) == GTK_TEXT_DIR_RTL ? -by : by);
  return TRUE;
}

/* Its slip shows what can be changed. */
static void
change (GtkWidget *widget, const char *name, GVariant *parameter)
{
  g_signal_emit (widget, signals[PICKED], 0);
  gtk_widget_activate_action (widget, "win.change-step", NULL);
}

/* One step back or on. */
static gboolean
key_turn (GtkWidget *widget, GVariant *args, gpointer data)
{
  int by = 0;

  g_variant_get (args, "(i)", &by);
  gtk_widget_activate_action (widget, by < 0 ? "win.step-previous" : "win.step-next", NULL);
  return TRUE;
}

static void
show_menu (GtkWidget *widget, const char *name, GVariant *parameter)
{
  CwStepSlip *self = CW_STEP_SLIP (widget);

  if (self->step < 0)
    return;
  if (self->menu == NULL)
    {
      g_autoptr (GMenu) menu = g_menu_new ();

      g_menu_append (menu, _ ("_Go here"), "step.pick");
      g_menu_append (menu, _ ("_Change…"), "step.change");
      g_menu_append (menu, _ ("Move _earlier"), "step.earlier");
      g_menu_append (menu, _ ("Move _later"), "step.later");
      g_menu_append (menu, _ ("_Take this step away"), "step.take-away");
      self->menu = gtk_popover_menu_new_from_model (G_MENU_MODEL (menu));
      gtk_popover_set_position (GTK_POPOVER (self->menu), GTK_POS_TOP);
      gtk_widget_set_parent (self->menu, widget);
    }
  gtk_popover_popup (GTK_POPOVER (self->menu));
}

static void
pressed (GtkGestureClick *click, int n_press, double x, double y, CwStepSlip *self)
{
  guint button = gtk_gesture_single_get_current_button (GTK_GESTURE_SINGLE (click));

  gtk_widget_grab_focus (GTK_WIDGET (self));
  if (button == GDK_BUTTON_SECONDARY)
    show_menu (GTK_WIDGET (self), NULL, NULL);
  else if (n_press == 2 && self->step >= 0)
    change (GTK_WIDGET (self), NULL, NULL);
}

static void
released (GtkGestureClick *click, int n_press, double x, double y, CwStepSlip *self)
{
  guint button = gtk_gesture_single_get_current_button (GTK_GESTURE_SINGLE (click));

  if (button == GDK_BUTTON_PRIMARY && n_press == 1 && gtk_widget_contains (GTK_WIDGET (self), x, y))
    g_signal_emit (self, signals[PICKED], 0);
}

/* The whole title, only where the card has no room for it. */
static gboolean
tell_title (GtkWidget *widget, int x, int y, gboolean keyboard, GtkTooltip *tooltip, gpointer data)
{
  GtkLabel *title = GTK_LABEL (CW_STEP_SLIP (widget)->title);

  if (!pango_layout_is_ellipsized (gtk_label_get_layout (title)))
    return FALSE;
  gtk_tooltip_set_text (tooltip, gtk_label_get_text (title));
  return TRUE;
}

static GdkContentProvider *
lift (GtkDragSource *source, double x, double y, CwStepSlip *self)
{
  return self->step < 0 ? NULL : gdk_content_provider_new_typed (CW_TYPE_STEP_SLIP, self);
}

static void
lifted (GtkDragSource *source, GdkDrag *drag, CwStepSlip *self)
{
  g_autoptr (GdkPaintable) looks = gtk_widget_paintable_new (GTK_WIDGET (self));
  g_autoptr (GdkPaintable) still = gdk_paintable_get_current_image (looks);

  gtk_drag_source_set_icon (source, still, PICTURE_WIDTH / 2, PICTURE_HEIGHT / 2);
}

static gboolean
let_go (GtkDropTarget *target, const GValue *value, double x, double y, CwStepSlip *self)
{
  CwStepSlip *other = g_value_get_object (value);

  if (other == NULL || other == self)
    return FALSE;
  g_signal_emit (self, signals[DROPPED], 0, other);
  return TRUE;
}

/**
 * cw_step_slip_get_step:
 * @self: the card
 *
 * Returns: the step's index, -1 for the flat sheet
 */
int
cw_step_slip_get_step (CwStepSlip *self)
{
  g_return_val_if_fail (CW_IS_STEP_SLIP (self), -1);
  return self->step;
}

/**
 * cw_step_slip_get_title:
 * @self: the card
 *
 * Returns: (transfer none): the title shown
 */
const char *
cw_step_slip_get_title (CwStepSlip *self)
{
  g_return_val_if_fail (CW_IS_STEP_SLIP (self), NULL);
  return gtk_label_get_text (GTK_LABEL (self->title));
}

/**
 * cw_step_slip_set_words:
 * @self: the card
 * @number: what stands before the title, "" for none
 * @title: the title
 * @kind: "Making" or "Using", for assistive programs; "" for none
 */
void
cw_step_slip_set_words (CwStepSlip *self, const char *number, const char *title, const char *kind)
{
  g_autofree char *name = NULL;

  g_return_if_fail (CW_IS_STEP_SLIP (self));

  gtk_label_set_text (GTK_LABEL (self->number), number);
  gtk_widget_set_visible (self->number, *number != '\0');
  gtk_label_set_text (GTK_LABEL (self->title), title);
  /* Translators: a step by its number and title, such as "Step 3: Fold spine toward you". */
  name = *number != '\0' ? g_strdup_printf (_ ("Step %s: %s"), number, title) : g_strdup (title);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL, name,
                                  GTK_ACCESSIBLE_PROPERTY_DESCRIPTION, kind, -1);
}

/**
 * cw_step_slip_set_picture:
 * @self: the card
 * @analysis: (nullable): of the design the step is of; NULL keeps the old picture
 */
void
cw_step_slip_set_picture (CwStepSlip *self, CwAnalysis *analysis)
{
  g_return_if_fail (CW_IS_STEP_SLIP (self));

  if (analysis != NULL)
    cw_picture_set_moment (CW_PICTURE (self->picture), analysis, self->step, 1);
}

/**
 * cw_step_slip_set_current:
 * @self: the card
 * @current: the card on the table is in this step
 */
void
cw_step_slip_set_current (CwStepSlip *self, gboolean current)
{
  g_return_if_fail (CW_IS_STEP_SLIP (self));

  self->current = current;
  if (current)
    gtk_widget_add_css_class (GTK_WIDGET (self), "current");
  else
    gtk_widget_remove_css_class (GTK_WIDGET (self), "current");
  gtk_accessible_update_state (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_STATE_SELECTED, current, -1);
}

static void
cw_step_slip_size_allocate (GtkWidget *widget, int width, int height, int baseline)
{
  CwStepSlip *self = CW_STEP_SLIP (widget);

  GTK_WIDGET_CLASS (cw_step_slip_parent_class)->size_allocate (widget, width, height, baseline);
  if (self->menu != NULL)
    gtk_popover_present (GTK_POPOVER (self->menu));
}

static void
cw_step_slip_dispose (GObject *object)
{
  GtkWidget *child = NULL;

  while ((child = gtk_widget_get_first_child (GTK_WIDGET (object))) != NULL)
    gtk_widget_unparent (child);
  G_OBJECT_CLASS (cw_step_slip_parent_class)->dispose (object);
}

static void
cw_step_slip_class_init (CwStepSlipClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  GType type = G_TYPE_FROM_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = cw_step_slip_dispose;
  widget_class->size_allocate = cw_step_slip_size_allocate;
  signals[PICKED] = g_signal_new ("picked", type, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
  signals[REMOVED] = g_signal_new ("removed", type, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
  signals[MOVED] = g_signal_new ("moved", type, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 1, G_TYPE_INT);
  signals[DROPPED]
    = g_signal_new ("dropped", type, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 1, CW_TYPE_STEP_SLIP);

  gtk_widget_class_install_action (widget_class, "step.pick", NULL, pick);
  gtk_widget_class_install_action (widget_class, "step.change", NULL, change);
  gtk_widget_class_install_action (widget_class, "step.take-away", NULL, take_away);
  gtk_widget_class_install_action (widget_class, "step.earlier", NULL, move_by);
  gtk_widget_class_install_action (widget_class, "step.later", NULL, move_by);
  gtk_widget_class_install_action (widget_class, "step.menu", NULL, show_menu);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_Return, 0, "step.pick", NULL);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_KP_Enter, 0, "step.pick", NULL);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_space, 0, "step.pick", NULL);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_F2, 0, "step.change", NULL);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_Delete, 0, "step.take-away", NULL);
  gtk_widget_class_add_binding (widget_class, GDK_KEY_Left, GDK_ALT_MASK, key_move, "(i)", -1);
  gtk_widget_class_add_binding (widget_class, GDK_KEY_Right, GDK_ALT_MASK, key_move, "(i)", 1);
  gtk_widget_class_add_binding (widget_class, GDK_KEY_Page_Up, 0, key_turn, "(i)", -1);
  gtk_widget_class_add_binding (widget_class, GDK_KEY_Page_Down, 0, key_turn, "(i)", 1);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_Menu, 0, "step.menu", NULL);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_F10, GDK_SHIFT_MASK, "step.menu", NULL);

  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BOX_LAYOUT);
  gtk_widget_class_set_css_name (widget_class, "stepcard");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_LIST_ITEM);
}

static void
cw_step_slip_init (CwStepSlip *self)
{
  GtkWidget *widget = GTK_WIDGET (self), *words = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 6);
  GtkGesture *click = gtk_gesture_click_new ();
  GtkDragSource *source = gtk_drag_source_new ();
  GtkDropTarget *target = gtk_drop_target_new (CW_TYPE_STEP_SLIP, GDK_ACTION_COPY);

  gtk_orientable_set_orientation (GTK_ORIENTABLE (gtk_widget_get_layout_manager (widget)), GTK_ORIENTATION_VERTICAL);
  gtk_widget_set_focusable (widget, TRUE);
  self->picture = cw_picture_new (PICTURE_WIDTH, PICTURE_HEIGHT);
  self->number = gtk_label_new (NULL);
  self->title = gtk_label_new (NULL);
  gtk_widget_add_css_class (self->number, "number");
  gtk_widget_add_css_class (self->title, "step-title");
  gtk_widget_set_valign (self->number, GTK_ALIGN_START);
  gtk_widget_set_valign (self->title, GTK_ALIGN_START);
  gtk_label_set_wrap (GTK_LABEL (self->title), TRUE);
  gtk_label_set_wrap_mode (GTK_LABEL (self->title), PANGO_WRAP_WORD_CHAR);
  gtk_label_set_lines (GTK_LABEL (self->title), 2);
  gtk_label_set_ellipsize (GTK_LABEL (self->title), PANGO_ELLIPSIZE_END);
  gtk_label_set_width_chars (GTK_LABEL (self->title), 14);
  gtk_label_set_max_width_chars (GTK_LABEL (self->title), 14);
  gtk_label_set_xalign (GTK_LABEL (self->title), 0);
  gtk_widget_set_hexpand (self->title, TRUE);
  gtk_box_append (GTK_BOX (words), self->number);
  gtk_box_append (GTK_BOX (words), self->title);
  gtk_widget_set_parent (self->picture, widget);
  gtk_widget_set_parent (words, widget);

  gtk_widget_set_has_tooltip (widget, TRUE);
  g_signal_connect (self, "query-tooltip", G_CALLBACK (tell_title), NULL);
  gtk_gesture_single_set_button (GTK_GESTURE_SINGLE (click), 0);
  g_signal_connect (click, "pressed", G_CALLBACK (pressed), self);
  g_signal_connect (click, "released", G_CALLBACK (released), self);
  gtk_widget_add_controller (widget, GTK_EVENT_CONTROLLER (click));
  g_signal_connect (source, "prepare", G_CALLBACK (lift), self);
  g_signal_connect (source, "drag-begin", G_CALLBACK (lifted), self);
  gtk_widget_add_controller (widget, GTK_EVENT_CONTROLLER (source));
  g_signal_connect (target, "drop", G_CALLBACK (let_go), self);
  gtk_widget_add_controller (widget, GTK_EVENT_CONTROLLER (target));
}

/**
 * cw_step_slip_new:
 * @step: the step's index; -1 for the flat sheet before the first
 *
 * Returns: (transfer floating): a card
 */
GtkWidget *
cw_step_slip_new (int step)
{
  CwStepSlip *self = g_object_new (CW_TYPE_STEP_SLIP, NULL);

  self->step = step;
  if (step < 0)
    {
      gtk_widget_action_set_enabled (GTK_WIDGET (self), "step.change", FALSE);
      gtk_widget_action_set_enabled (GTK_WIDGET (self), "step.take-away", FALSE);
      gtk_widget_action_set_enabled (GTK_WIDGET (self), "step.earlier", FALSE);
      gtk_widget_action_set_enabled (GTK_WIDGET (self), "step.later", FALSE);
    }
  return GTK_WIDGET (self);
}
