/* cw-show.c: the steps one at a time over the whole screen, for a class round a table.
 *
 * Keys: next, back, first, last, turn the picture round for those who sit opposite, leave. The same can be done by the
 * buttons along the lower edge, which stay the right way up for who shows. What is shown is laid out by the drawing
 * (cw-page-show.c) and told to a screen reader as words.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "cw-show.h"

#include <glib/gi18n-lib.h>

#include "cw-look.h"
#include "cw-page-show.h"

struct _CwShow
{
  GtkWindow parent_instance;

  GtkWidget *page, *count, *back, *next, *turn;
  CwStepCard *card;
  CwCardScene *scene;
  CwDrawList *list; /* of the step, laid out for `width` by `height` */
  int width, height;
  guint index;
  gboolean turned;
};

G_DEFINE_FINAL_TYPE (CwShow, cw_show, GTK_TYPE_WINDOW)

static void
draw_page (GtkDrawingArea *area, cairo_t *cr, int width, int height, gpointer data)
{
  CwShow *self = data;

  if (self->list == NULL || self->width != width || self->height != height)
    {
      g_clear_pointer (&self->list, cw_draw_list_free);
      self->list = cw_show_draw (self->card, self->scene, self->index, width, height);
      self->width = width;
      self->height = height;
    }
  if (self->turned)
    {
      cairo_translate (cr, width, height);
      cairo_rotate (cr, G_PI);
    }
  cw_draw_play (self->list, cw_look_get_palette (), cr);
}

static void
renew (CwShow *self)
{
  g_autofree char *words = cw_show_dup_words (self->card, self->index),
                  *time = cw_show_dup_time (self->card, self->index);
  g_autofree char *count = g_strdup_printf (_ ("Step %u of %u"), self->index + 1, cw_show_get_n_steps (self->card));
  g_autofree char *text = *time != '\0' ? g_strdup_printf ("%s, %s", count, time) : g_strdup (count);

  g_clear_pointer (&self->list, cw_draw_list_free);
  gtk_label_set_text (GTK_LABEL (self->count), text);
  gtk_widget_action_set_enabled (GTK_WIDGET (self), "show.back", self->index > 0);
  gtk_widget_action_set_enabled (GTK_WIDGET (self), "show.next", self->index + 1 < cw_show_get_n_steps (self->card));
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->page), GTK_ACCESSIBLE_PROPERTY_LABEL, words, -1);
  gtk_widget_queue_draw (self->page);
}

static void
go_to (CwShow *self, guint index)
{
  guint n = cw_show_get_n_steps (self->card);

  index = MIN (index, n - 1);
  if (index == self->index)
    return;
  self->index = index;
  renew (self);
}

static void
do_next (GtkWidget *widget, const char *name, GVariant *parameter)
{
  go_to (CW_SHOW (widget), CW_SHOW (widget)->index + 1);
}

static void
do_back (GtkWidget *widget, const char *name, GVariant *parameter)
{
  if (CW_SHOW (widget)->index > 0)
    go_to (CW_SHOW (widget), CW_SHOW (widget)->index - 1);
}

static void
do_first (GtkWidget *widget, const char *name, GVariant *parameter)
{
  go_to (CW_SHOW (widget), 0);
}

static void
do_last (GtkWidget *widget, const char *name, GVariant *parameter)
{
  go_to (CW_SHOW (widget), G_MAXUINT);
}

static void
do_turn (GtkWidget *widget, const char *name, GVariant *parameter)
{
  CwShow *self = CW_SHOW (widget);

  self->turned = !self->turned;
  gtk_accessible_update_state (GTK_ACCESSIBLE (self->turn), GTK_ACCESSIBLE_STATE_PRESSED,
                               self->turned ? GTK_ACCESSIBLE_TRISTATE_TRUE : GTK_ACCESSIBLE_TRISTATE_FALSE, -1);
  gtk_widget_queue_draw (self->page);
}

static void
do_leave (GtkWidget *widget, const char *name, GVariant *parameter)
{
  gtk_window_destroy (GTK_WINDOW (widget));
}

static GtkWidget *
add_button (GtkWidget *bar, const char *label, const char *action, const char *tooltip)
{
  GtkWidget *button = gtk_button_new_with_mnemonic (label);

  gtk_actionable_set_action_name (GTK_ACTIONABLE (button), action);
  gtk_widget_set_tooltip_text (button, tooltip);
  gtk_box_append (GTK_BOX (bar), button);
  return button;
}

static void
cw_show_dispose (GObject *object)
{
  CwShow *self = CW_SHOW (object);

  g_clear_pointer (&self->list, cw_draw_list_free);
  g_clear_pointer (&self->scene, cw_card_scene_free);
  g_clear_pointer (&self->card, cw_step_card_free);
  G_OBJECT_CLASS (cw_show_parent_class)->dispose (object);
}

static void
cw_show_class_init (CwShowClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = cw_show_dispose;
  gtk_widget_class_install_action (widget_class, "show.next", NULL, do_next);
  gtk_widget_class_install_action (widget_class, "show.back", NULL, do_back);
  gtk_widget_class_install_action (widget_class, "show.first", NULL, do_first);
  gtk_widget_class_install_action (widget_class, "show.last", NULL, do_last);
  gtk_widget_class_install_action (widget_class, "show.turn", NULL, do_turn);
  gtk_widget_class_install_action (widget_class, "show.leave", NULL, do_leave);
}

/* Arrows would else move the focus from button to button. Space stays with the button that has it: the next step. */
static void
add_keys (CwShow *self)
{
  static const struct
  {
    guint key;
    const char *action;
  } keys[] = {
    { GDK_KEY_Right, "show.next" },     { GDK_KEY_Down, "show.next" },    { GDK_KEY_Page_Down, "show.next" },
    { GDK_KEY_Left, "show.back" },      { GDK_KEY_Up, "show.back" },      { GDK_KEY_Page_Up, "show.back" },
    { GDK_KEY_BackSpace, "show.back" }, { GDK_KEY_Home, "show.first" },   { GDK_KEY_End, "show.last" },
    { GDK_KEY_r, "show.turn" },         { GDK_KEY_Escape, "show.leave" },
  };
  GtkEventController *controller = gtk_shortcut_controller_new ();

  gtk_event_controller_set_propagation_phase (controller, GTK_PHASE_CAPTURE);
  for (guint i = 0; i < G_N_ELEMENTS (keys); i++)
    gtk_shortcut_controller_add_shortcut (GTK_SHORTCUT_CONTROLLER (controller),
                                          gtk_shortcut_new (gtk_keyval_trigger_new (keys[i].key, 0),
                                                            gtk_named_action_new (keys[i].action)));
  gtk_widget_add_controller (GTK_WIDGET (self), controller);
}

static void
cw_show_init (CwShow *self)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0), *bar = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 6);

  gtk_widget_add_css_class (GTK_WIDGET (self), "creasewright");
  self->page = g_object_new (GTK_TYPE_DRAWING_AREA, "accessible-role", GTK_ACCESSIBLE_ROLE_IMG, "hexpand", TRUE,
                             "vexpand", TRUE, NULL);
  gtk_drawing_area_set_draw_func (GTK_DRAWING_AREA (self->page), draw_page, self, NULL);
  gtk_widget_add_css_class (bar, "show-bar");
  self->count = g_object_new (GTK_TYPE_LABEL, "accessible-role", GTK_ACCESSIBLE_ROLE_STATUS, "hexpand", TRUE, "xalign",
                              0.0, "ellipsize", PANGO_ELLIPSIZE_END, NULL);
  gtk_box_append (GTK_BOX (bar), self->count);
  self->back = add_button (bar, _ ("_Back"), "show.back", _ ("The step before: Left"));
  self->next = add_button (bar, _ ("_Next"), "show.next", _ ("The next step: Right or Space"));
  self->turn = add_button (bar, _ ("_Turn round"), "show.turn", _ ("For those who sit opposite: R"));
  add_button (bar, _ ("_Leave"), "show.leave", _ ("Back to the table: Escape"));
  gtk_box_append (GTK_BOX (box), self->page);
  gtk_box_append (GTK_BOX (box), bar);
  gtk_window_set_child (GTK_WINDOW (self), box);
  gtk_window_set_default_size (GTK_WINDOW (self), 1000, 700);
  add_keys (self);
  cw_look_watch (G_OBJECT (self), G_CALLBACK (renew));
}

/**
 * cw_show_new:
 * @parent: the window it belongs to
 * @analysis: what to show; referenced
 * @step: step of the design to begin with; %G_MAXUINT: the first of all
 *
 * Returns: (transfer none): the window, over the whole screen once presented
 */
GtkWidget *
cw_show_new (GtkWindow *parent, CwAnalysis *analysis, guint step)
{
  CwShow *self;
  g_autofree char *title = NULL;

  g_return_val_if_fail (analysis != NULL, NULL);

  self = g_object_new (CW_TYPE_SHOW, "transient-for", parent, "modal", TRUE, "destroy-with-parent", TRUE, NULL);
  self->card = cw_step_card_new (analysis, &cw_step_card_usual);
  self->scene = cw_card_scene_new (analysis);
  self->index = cw_show_find_step (self->card, step);
  title = g_strdup_printf (_ ("%s: show"), self->card->title);
  gtk_window_set_title (GTK_WINDOW (self), title);
  renew (self);
  gtk_widget_grab_focus (self->next);
  gtk_window_fullscreen (GTK_WINDOW (self));
  return GTK_WIDGET (self);
}

/**
 * cw_show_get_index:
 * @self: the window
 *
 * Returns: which step of the card is shown, from 0
 */
guint
cw_show_get_index (CwShow *self)
{
  g_return_val_if_fail (CW_IS_SHOW (self), 0);
  return self->index;
}

/**
 * cw_show_is_turned:
 * @self: the window
 *
 * Returns: whether it is shown for those who sit opposite
 */
gboolean
cw_show_is_turned (CwShow *self)
{
  g_return_val_if_fail (CW_IS_SHOW (self), FALSE);
  return self->turned;
}
