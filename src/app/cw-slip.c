/* cw-slip.c: what the slips of paper at the side of the table share.
 *
 * Fields change the design as soon as they are left: there is no button to confirm, since undo takes everything back.
 * A field in which somebody is typing keeps what is typed when the design changes elsewhere. Undo in a field takes back
 * typing; with nothing typed since, it is the design's.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "cw-slip.h"

#include <glib/gi18n-lib.h>

#define GAP 6

/**
 * cw_slip_fill:
 * @slip: an empty box
 * @heading: what it is about
 * @heading_label: (out) (optional) (transfer none): its heading, to be changed
 *
 * Returns: (transfer none): the box for its rows
 */
GtkWidget *
cw_slip_fill (GtkBox *slip, const char *heading, GtkWidget **heading_label)
{
  GtkWidget *head = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 0), *label = gtk_label_new (heading);
  GtkWidget *close = gtk_button_new_from_icon_name ("window-close-symbolic");
  GtkWidget *scroller = gtk_scrolled_window_new (), *body = gtk_box_new (GTK_ORIENTATION_VERTICAL, GAP);

  gtk_orientable_set_orientation (GTK_ORIENTABLE (slip), GTK_ORIENTATION_VERTICAL);
  gtk_widget_set_valign (GTK_WIDGET (slip), GTK_ALIGN_START);
  gtk_widget_set_size_request (GTK_WIDGET (slip), 300, -1);
  gtk_widget_add_css_class (GTK_WIDGET (slip), "findings");
  gtk_widget_add_css_class (head, "findings-head");
  gtk_widget_add_css_class (label, "heading");
  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_ellipsize (GTK_LABEL (label), PANGO_ELLIPSIZE_END);
  gtk_widget_set_hexpand (label, TRUE);
  gtk_widget_add_css_class (close, "flat");
  gtk_widget_set_valign (close, GTK_ALIGN_START);
  gtk_widget_set_tooltip_text (close, _ ("Fold this slip away"));
  gtk_accessible_update_property (GTK_ACCESSIBLE (close), GTK_ACCESSIBLE_PROPERTY_LABEL, _ ("Fold this slip away"), -1);
  gtk_actionable_set_action_name (GTK_ACTIONABLE (close), "win.hide-slip");
  gtk_box_append (GTK_BOX (head), label);
  gtk_box_append (GTK_BOX (head), close);
  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (scroller), GTK_POLICY_NEVER, GTK_POLICY_AUTOMATIC);
  gtk_scrolled_window_set_propagate_natural_height (GTK_SCROLLED_WINDOW (scroller), TRUE);
  gtk_widget_set_focusable (scroller, FALSE);
  gtk_widget_add_css_class (body, "slip-body");
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (scroller), body);
  gtk_viewport_set_scroll_to_focus (GTK_VIEWPORT (gtk_scrolled_window_get_child (GTK_SCROLLED_WINDOW (scroller))),
                                    TRUE);
  gtk_box_append (slip, head);
  gtk_box_append (slip, scroller);
  if (heading_label != NULL)
    *heading_label = label;
  return body;
}

static GtkWidget *
add_words (GtkWidget *body, const char *words, const char *style)
{
  GtkWidget *label = gtk_label_new (words);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_wrap_mode (GTK_LABEL (label), PANGO_WRAP_WORD_CHAR);
  gtk_label_set_max_width_chars (GTK_LABEL (label), 30);
  gtk_widget_add_css_class (label, style);
  gtk_box_append (GTK_BOX (body), label);
  return label;
}

/* Words over the rows that follow. */
GtkWidget *
cw_slip_add_heading (GtkWidget *body, const char *words)
{
  return add_words (body, words, "slip-heading");
}

/* A quiet sentence. */
GtkWidget *
cw_slip_add_hint (GtkWidget *body, const char *words)
{
  return add_words (body, words, "hint");
}

/**
 * cw_slip_add_row:
 * @body: the box for the rows
 * @words: what the field is; also its name for screen readers
 * @field: (transfer floating): the field
 * @wide: the words stand above the field
 *
 * Returns: (transfer none): the row
 */
GtkWidget *
cw_slip_add_row (GtkWidget *body, const char *words, GtkWidget *field, gboolean wide)
{
  GtkWidget *row = gtk_box_new (wide ? GTK_ORIENTATION_VERTICAL : GTK_ORIENTATION_HORIZONTAL, wide ? 2 : GAP);
  GtkWidget *label = gtk_label_new (words);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_widget_set_hexpand (label, !wide);
  gtk_widget_set_hexpand (field, wide);
  gtk_accessible_update_property (GTK_ACCESSIBLE (field), GTK_ACCESSIBLE_PROPERTY_LABEL, words, -1);
  gtk_box_append (GTK_BOX (row), label);
  gtk_box_append (GTK_BOX (row), field);
  gtk_box_append (GTK_BOX (body), row);
  return row;
}

/* A row of buttons that wraps where it has to. */
GtkWidget *
cw_slip_add_buttons (GtkWidget *body)
{
  GtkWidget *row = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, GAP);

  gtk_box_append (GTK_BOX (body), row);
  return row;
}

/* --- entries ----------------------------------------------------------------------------------------------------- */

typedef struct
{
  CwSlipTaken taken;
  gpointer data;
  char *shown;
} Entry;

static void
entry_free (gpointer data)
{
  Entry *entry = data;

  g_free (entry->shown);
  g_free (entry);
}

static Entry *
get_entry (GtkWidget *widget)
{
  return g_object_get_data (G_OBJECT (widget), "cw-slip-entry");
}

/* What was typed so far is no typing to take back any more. */
static void
forget_typing (GtkWidget *widget)
{
  gtk_editable_set_enable_undo (GTK_EDITABLE (widget), FALSE);
  gtk_editable_set_enable_undo (GTK_EDITABLE (widget), TRUE);
}

static void
take (GtkWidget *widget)
{
  Entry *entry = get_entry (widget);
  g_autofree char *text = g_strstrip (g_strdup (gtk_editable_get_text (GTK_EDITABLE (widget))));

  if (entry->shown == NULL || g_str_equal (text, entry->shown))
    return;
  g_object_ref (widget); /* what is taken may take the slip away */
  gtk_widget_remove_css_class (widget, "error");
  forget_typing (widget);
  entry->taken (widget, text, entry->data);
  g_object_unref (widget);
}

static void
left (GtkEventControllerFocus *focus, GtkWidget *widget)
{
  take (widget);
}

static void
typed (GtkWidget *widget)
{
  gtk_widget_remove_css_class (widget, "error");
}

static gboolean
keyed (GtkEventControllerKey *keys, guint key, guint code, GdkModifierType mods, GtkWidget *widget)
{
  Entry *entry = get_entry (widget);
  gboolean as_shown = entry->shown == NULL || g_str_equal (entry->shown, gtk_editable_get_text (GTK_EDITABLE (widget)));
  gboolean redo = key == GDK_KEY_y || key == GDK_KEY_Z || (mods & GDK_SHIFT_MASK) != 0;

  if (as_shown && (mods & GDK_CONTROL_MASK) != 0 && (key == GDK_KEY_z || key == GDK_KEY_Z || key == GDK_KEY_y))
    return gtk_widget_activate_action (widget, redo ? "win.redo" : "win.undo", NULL);
  if (key != GDK_KEY_Escape || as_shown)
    return FALSE;
  gtk_editable_set_text (GTK_EDITABLE (widget), entry->shown);
  gtk_editable_set_position (GTK_EDITABLE (widget), -1);
  return TRUE;
}

/**
 * cw_slip_entry_new:
 * @taken: called with the text when it is to be taken; it shows the outcome by cw_slip_entry_show() or refuses it
 * @data: for @taken
 *
 * Returns: (transfer floating): an entry
 */
GtkWidget *
cw_slip_entry_new (CwSlipTaken taken, gpointer data)
{
  GtkWidget *widget = gtk_entry_new ();
  GtkEventController *focus = gtk_event_controller_focus_new (), *keys = gtk_event_controller_key_new ();
  Entry *entry = g_new0 (Entry, 1);

  entry->taken = taken;
  entry->data = data;
  g_object_set_data_full (G_OBJECT (widget), "cw-slip-entry", entry, entry_free);
  gtk_editable_set_width_chars (GTK_EDITABLE (widget), 11);
  gtk_editable_set_max_width_chars (GTK_EDITABLE (widget), 11);
  gtk_widget_set_valign (widget, GTK_ALIGN_CENTER);
  g_signal_connect (widget, "activate", G_CALLBACK (take), NULL);
  g_signal_connect (widget, "changed", G_CALLBACK (typed), NULL);
  g_signal_connect (focus, "leave", G_CALLBACK (left), widget);
  gtk_widget_add_controller (widget, focus);
  gtk_event_controller_set_propagation_phase (keys, GTK_PHASE_CAPTURE);
  g_signal_connect (keys, "key-pressed", G_CALLBACK (keyed), widget);
  gtk_widget_add_controller (widget, keys);
  return widget;
}

/**
 * cw_slip_entry_show:
 * @entry: an entry of cw_slip_entry_new()
 * @text: what stands there now; while the same stood there before, what is being typed is left alone
 */
void
cw_slip_entry_show (GtkWidget *widget, const char *text)
{
  Entry *entry = get_entry (widget);
  gboolean typing = gtk_widget_has_css_class (widget, "error")
                    || (gtk_widget_get_state_flags (widget) & GTK_STATE_FLAG_FOCUS_WITHIN) != 0;

  if (typing && g_strcmp0 (entry->shown, text) == 0)
    return;
  g_free (entry->shown);
  entry->shown = g_strdup (text);
  if (!g_str_equal (text, gtk_editable_get_text (GTK_EDITABLE (widget))))
    {
      gtk_editable_set_text (GTK_EDITABLE (widget), text);
      gtk_editable_set_position (GTK_EDITABLE (widget), -1);
      forget_typing (widget);
    }
}

void
cw_slip_entry_refuse (GtkWidget *widget)
{
  gtk_widget_add_css_class (widget, "error");
}

/**
 * cw_slip_take:
 * @slip: a slip
 *
 * Takes what is being typed anywhere in it.
 */
void
cw_slip_take (GtkWidget *slip)
{
  GtkRoot *root = gtk_widget_get_root (slip);
  GtkWidget *focus = root != NULL ? gtk_root_get_focus (root) : NULL;

  for (; focus != NULL && focus != slip; focus = gtk_widget_get_parent (focus))
    if (get_entry (focus) != NULL && gtk_widget_is_ancestor (focus, slip))
      {
        take (focus);
        return;
      }
}

/* --- choices ----------------------------------------------------------------------------------------------------- */

/**
 * cw_slip_choice_new:
 * @chosen: (type GCallback): "notify::selected" of the list
 * @data: for @chosen
 *
 * Returns: (transfer floating): a list to choose from
 */
GtkWidget *
cw_slip_choice_new (GCallback chosen, gpointer data)
{
  GtkWidget *choice = gtk_drop_down_new (NULL, NULL);

  gtk_widget_set_valign (choice, GTK_ALIGN_CENTER);
  g_object_set_data (G_OBJECT (choice), "cw-chosen",
                     GSIZE_TO_POINTER (g_signal_connect (choice, "notify::selected", chosen, data)));
  return choice;
}

/**
 * cw_slip_choice_show:
 * @choice: a list of cw_slip_choice_new()
 * @words: (array zero-terminated=1): what there is to choose from
 * @selected: which of them is
 */
void
cw_slip_choice_show (GtkWidget *choice, const char *const *words, guint selected)
{
  gulong handler = (gulong) GPOINTER_TO_SIZE (g_object_get_data (G_OBJECT (choice), "cw-chosen"));
  GListModel *old = gtk_drop_down_get_model (GTK_DROP_DOWN (choice));
  guint n = g_strv_length ((GStrv) words);
  gboolean same = old != NULL && g_list_model_get_n_items (old) == n;

  for (guint i = 0; same && i < n; i++)
    same = g_str_equal (words[i], gtk_string_list_get_string (GTK_STRING_LIST (old), i));
  g_signal_handler_block (choice, handler);
  if (!same)
    {
      g_autoptr (GtkStringList) list = gtk_string_list_new (words);

      gtk_drop_down_set_model (GTK_DROP_DOWN (choice), G_LIST_MODEL (list));
    }
  gtk_drop_down_set_selected (GTK_DROP_DOWN (choice), selected);
  g_signal_handler_unblock (choice, handler);
}
