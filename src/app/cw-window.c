/* cw-window.c: puts the parts of the window together and shows what the document says.
 *
 * Files are in cw-window-files.c, actions in cw-window-actions.c.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "cw-preferences.h"
#include "cw-window-private.h"

#include <glib/gi18n-lib.h>

G_DEFINE_FINAL_TYPE (CwWindow, cw_window, GTK_TYPE_APPLICATION_WINDOW)

/**
 * cw_window_say:
 * @self: the window
 * @sentence: (nullable): what to tell the maker; NULL takes the message line away
 */
void
cw_window_say (CwWindow *self, const char *sentence)
{
  g_return_if_fail (CW_IS_WINDOW (self));

  if (sentence != NULL)
    gtk_label_set_text (GTK_LABEL (self->message), sentence);
  gtk_revealer_set_reveal_child (GTK_REVEALER (self->message_revealer), sentence != NULL);
}

/* --- what the document says -------------------------------------------------------------------------------------- */

static void
show_title (CwWindow *self)
{
  g_autofree char *title = NULL, *whole = NULL;
  const char *state = NULL;

  if (self->document == NULL)
    {
      gtk_label_set_text (GTK_LABEL (self->title), _ ("Creasewright"));
      gtk_widget_set_visible (self->subtitle, FALSE);
      gtk_window_set_title (GTK_WINDOW (self), _ ("Creasewright"));
      return;
    }
  title = cw_document_dup_title (self->document);
  if (!cw_document_is_saved (self->document))
    state = _ ("Changes not saved");
  else
    state = cw_document_get_file (self->document) != NULL ? _ ("Saved") : _ ("Not saved yet");
  gtk_label_set_text (GTK_LABEL (self->title), title);
  gtk_label_set_text (GTK_LABEL (self->subtitle), state);
  gtk_widget_set_visible (self->subtitle, TRUE);
  whole = g_strdup_printf ("%s%s - %s", cw_document_is_saved (self->document) ? "" : "*", title, _ ("Creasewright"));
  gtk_window_set_title (GTK_WINDOW (self), whole);
}

static void
show_history (CwWindow *self)
{
  const char *undo = self->document != NULL ? cw_document_get_undo_name (self->document) : NULL;
  const char *redo = self->document != NULL ? cw_document_get_redo_name (self->document) : NULL;
  /* Translators: %s is what was done, such as "move score". */
  g_autofree char *undo_words = undo != NULL ? g_strdup_printf (_ ("Undo %s"), undo) : g_strdup (_ ("Undo"));
  /* Translators: %s is what was undone, such as "move score". */
  g_autofree char *redo_words = redo != NULL ? g_strdup_printf (_ ("Redo %s"), redo) : g_strdup (_ ("Redo"));

  gtk_widget_set_tooltip_text (self->undo_button, undo_words);
  gtk_widget_set_tooltip_text (self->redo_button, redo_words);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->undo_button), GTK_ACCESSIBLE_PROPERTY_DESCRIPTION, undo_words,
                                  -1);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->redo_button), GTK_ACCESSIBLE_PROPERTY_DESCRIPTION, redo_words,
                                  -1);
}

static void
show_findings (CwWindow *self)
{
  CwAnalysis *analysis = self->document != NULL ? cw_document_get_analysis (self->document) : NULL;
  g_autofree char *count = cw_finding_list_dup_count (self->document);
  g_autofree char *number = NULL;
  const char *icon = "content-loading-symbolic";

  if (analysis != NULL && analysis->findings->len > 0)
    {
      icon = cw_finding_list_get_icon (((CwFinding *) g_ptr_array_index (analysis->findings, 0))->severity);
      number = g_strdup_printf ("%u", analysis->findings->len);
    }
  else if (analysis != NULL)
    icon = "object-select-symbolic";
  /* With nothing to mend the slip takes no room: the tick stands for it. */
  if (analysis != NULL)
    cw_window_reveal_findings (self, self->wants_findings && analysis->findings->len > 0);
  gtk_image_set_from_icon_name (GTK_IMAGE (self->findings_icon), icon);
  gtk_label_set_text (GTK_LABEL (self->findings_label), number != NULL ? number : "");
  gtk_widget_set_visible (self->findings_label, number != NULL);
  gtk_widget_set_tooltip_text (self->findings_button, count);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->findings_button), GTK_ACCESSIBLE_PROPERTY_DESCRIPTION, count,
                                  -1);
}

static void
design_changed (CwWindow *self)
{
  cw_window_say (self, NULL);
  show_history (self);
  cw_window_update_actions (self);
}

static void
file_changed (CwWindow *self)
{
  show_title (self);
  cw_window_update_actions (self);
}

static void
message_told (CwDocument *document, const char *sentence, CwWindow *self)
{
  cw_window_say (self, sentence);
}

/**
 * cw_window_get_document:
 * @self: the window
 *
 * Returns: (transfer none) (nullable): the open design
 */
CwDocument *
cw_window_get_document (CwWindow *self)
{
  g_return_val_if_fail (CW_IS_WINDOW (self), NULL);
  return self->document;
}

static void
disk_changed (CwWindow *self)
{
  cw_window_disk_changed (self);
}

/* The step cards page is made when it is first shown. */
static void
make_cards_page (CwWindow *self)
{
  if (self->cards != NULL)
    return;
  self->cards = g_object_new (CW_TYPE_CARDS_PAGE, NULL);
  gtk_stack_add_named (GTK_STACK (self->stack), GTK_WIDGET (self->cards), "cards");
  cw_cards_page_set_document (self->cards, self->document);
}

/* Shows one of the pages of the open design; without one the start page. */
void
cw_window_show_page (CwWindow *self, const char *name)
{
  gboolean cards = self->document != NULL && g_str_equal (name, "cards");
  GAction *action = g_action_map_lookup_action (G_ACTION_MAP (self), "page");

  if (action != NULL)
    g_simple_action_set_state (G_SIMPLE_ACTION (action), g_variant_new_string (cards ? "cards" : "table"));
  if (cards)
    make_cards_page (self);
  gtk_stack_set_visible_child_name (GTK_STACK (self->stack), self->document == NULL ? "start"
                                                             : cards                ? "cards"
                                                                                    : "table");
  gtk_widget_set_visible (self->page_switch, self->document != NULL);
  gtk_widget_set_visible (self->findings_button, self->document != NULL && !cards);
  gtk_widget_set_visible (self->slips_button, self->document != NULL && !cards);
  if (self->cards != NULL)
    cw_cards_page_set_active (self->cards, cards);
}

/* Lays a design on the table, with the copy it was brought back from, if it was. */
void
cw_window_take_document (CwWindow *self, CwDocument *document, CwLeftover *leftover)
{
  if (self->document != NULL)
    g_signal_handlers_disconnect_by_data (self->document, self);
  if (self->recovery != NULL)
    cw_recovery_end (self->recovery);
  g_clear_object (&self->recovery);
  g_set_object (&self->document, document);
  if (document != NULL)
    {
      self->recovery = cw_recovery_new (document, leftover);
      g_signal_connect_object (document, "disk", G_CALLBACK (disk_changed), self, G_CONNECT_SWAPPED);
      g_signal_connect_object (document, "changed", G_CALLBACK (design_changed), self, G_CONNECT_SWAPPED);
      g_signal_connect_object (document, "analysed", G_CALLBACK (show_findings), self, G_CONNECT_SWAPPED);
      g_signal_connect_object (document, "moment", G_CALLBACK (cw_window_update_actions), self, G_CONNECT_SWAPPED);
      g_signal_connect_object (document, "file", G_CALLBACK (file_changed), self, G_CONNECT_SWAPPED);
      g_signal_connect_object (document, "message", G_CALLBACK (message_told), self, 0);
    }
  cw_table_set_document (self->table, document);
  cw_measure_entry_set_document (self->measure_entry, document);
  cw_mark_bar_set_document (self->mark_bar, document);
  cw_step_strip_set_document (self->steps, document);
  cw_finding_list_set_document (self->findings, document);
  cw_window_show_document_on_slips (self);
  if (document == NULL)
    cw_start_page_refresh (self->start_page);
  if (self->cards != NULL)
    cw_cards_page_set_document (self->cards, document);
  cw_window_show_page (self, "table");
  cw_window_say (self, NULL);
  show_title (self);
  show_history (self);
  show_findings (self);
  cw_window_update_actions (self);
  /* A bare sheet waits for its first measure; a card that is drawn already is looked at. */
  if (document != NULL)
    gtk_widget_grab_focus (cw_document_is_bare (document) ? GTK_WIDGET (self->measure_entry)
                                                          : GTK_WIDGET (self->table));
}

/**
 * cw_window_set_document:
 * @self: the window
 * @document: (nullable): the design to lay on the table; NULL shows the start page
 */
void
cw_window_set_document (CwWindow *self, CwDocument *document)
{
  g_return_if_fail (CW_IS_WINDOW (self));

  cw_window_take_document (self, document, NULL);
}

static void
table_typed (CwTable *table, const char *text, CwWindow *self)
{
  cw_measure_entry_begin (self->measure_entry, text);
}

/* --- start page, dropped files, closing -------------------------------------------------------------------------- */

static void
start_make (CwStartPage *page, CwDesign *design, CwWindow *self)
{
  g_autoptr (CwDocument) document = cw_document_new (design, NULL);

  cw_window_set_document (self, document);
}

static void
start_open (CwStartPage *page, GFile *file, CwWindow *self)
{
  cw_window_open (self, file);
}

static void
start_open_sample (CwStartPage *page, GFile *file, CwWindow *self)
{
  cw_window_open_sample (self, file);
}

static gboolean
dropped (GtkDropTarget *target, const GValue *value, double x, double y, CwWindow *self)
{
  GSList *files = g_value_get_boxed (value);

  if (files == NULL)
    return FALSE;
  cw_window_open (self, files->data);
  return TRUE;
}

static gboolean
cw_window_close_request (GtkWindow *window)
{
  CwWindow *self = CW_WINDOW (window);

  if (self->document != NULL && !cw_document_is_saved (self->document) && self->pending != CW_PENDING_CLOSE)
    {
      cw_window_guard (self, CW_PENDING_CLOSE, NULL);
      return TRUE;
    }
  if (self->document != NULL && !cw_document_is_saved (self->document) && self->ask == CW_ASK_UNSAVED)
    return TRUE; /* asked already, not answered */
  if (self->settings != NULL)
    {
      gboolean maximized = gtk_window_is_maximized (window);
      int width = 0, height = 0;

      gtk_window_get_default_size (window, &width, &height);
      g_settings_set_boolean (self->settings, "window-maximized", maximized);
      if (!maximized && width >= 640 && height >= 480)
        {
          g_settings_set_int (self->settings, "window-width", width);
          g_settings_set_int (self->settings, "window-height", height);
        }
    }
  return GTK_WINDOW_CLASS (cw_window_parent_class)->close_request (window);
}

static void
close_message (CwWindow *self)
{
  cw_window_say (self, NULL);
}

/* --- life -------------------------------------------------------------------------------------------------------- */

static void
take_settings (CwWindow *self)
{
  self->settings = cw_preferences_new ();
  if (self->settings == NULL)
    return;
  gtk_window_set_default_size (GTK_WINDOW (self), g_settings_get_int (self->settings, "window-width"),
                               g_settings_get_int (self->settings, "window-height"));
  if (g_settings_get_boolean (self->settings, "window-maximized"))
    gtk_window_maximize (GTK_WINDOW (self));
  cw_start_page_set_metric (self->start_page, g_settings_get_boolean (self->settings, "metric"));
}

/* The words of the page switch are whole as long as there is room for them: with text half as large again there is none
 * on a small screen, and they may be cut short. */
static void
fit_page_switch (CwWindow *self)
{
  int dpi = 0;

  g_object_get (gtk_widget_get_settings (GTK_WIDGET (self)), "gtk-xft-dpi", &dpi, NULL);
  for (GtkWidget *button = gtk_widget_get_first_child (self->page_switch); button != NULL;
       button = gtk_widget_get_next_sibling (button))
    gtk_label_set_width_chars (GTK_LABEL (gtk_widget_get_first_child (button)), dpi > 3 * 96 * 1024 / 2 ? 4 : 9);
}

static void
cw_window_dispose (GObject *object)
{
  CwWindow *self = CW_WINDOW (object);

  cw_document_follow (&self->document, NULL, self);
  if (self->recovery != NULL)
    cw_recovery_end (self->recovery);
  g_clear_object (&self->recovery);
  g_clear_pointer (&self->leftover, cw_leftover_free);
  g_list_free_full (g_steal_pointer (&self->later), (GDestroyNotify) cw_leftover_free);
  g_clear_object (&self->settings);
  g_clear_object (&self->pending_file);
  if (self->chooser != NULL)
    gtk_native_dialog_destroy (GTK_NATIVE_DIALOG (self->chooser));
  g_clear_object (&self->chooser);
  G_OBJECT_CLASS (cw_window_parent_class)->dispose (object);
}

static void
cw_window_class_init (CwWindowClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = cw_window_dispose;
  GTK_WINDOW_CLASS (klass)->close_request = cw_window_close_request;
  g_type_ensure (CW_TYPE_START_PAGE);
  g_type_ensure (CW_TYPE_TABLE);
  g_type_ensure (CW_TYPE_MEASURE_ENTRY);
  g_type_ensure (CW_TYPE_STEP_STRIP);
  g_type_ensure (CW_TYPE_FINDING_LIST);
  gtk_widget_class_set_template_from_resource (widget_class, "/org/creasewright/Creasewright/window.ui");
  gtk_widget_class_bind_template_child (widget_class, CwWindow, stack);
  gtk_widget_class_bind_template_child (widget_class, CwWindow, title);
  gtk_widget_class_bind_template_child (widget_class, CwWindow, subtitle);
  gtk_widget_class_bind_template_child (widget_class, CwWindow, save_button);
  gtk_widget_class_bind_template_child (widget_class, CwWindow, undo_button);
  gtk_widget_class_bind_template_child (widget_class, CwWindow, redo_button);
  gtk_widget_class_bind_template_child (widget_class, CwWindow, findings_button);
  gtk_widget_class_bind_template_child (widget_class, CwWindow, findings_icon);
  gtk_widget_class_bind_template_child (widget_class, CwWindow, findings_label);
  gtk_widget_class_bind_template_child (widget_class, CwWindow, findings_revealer);
  gtk_widget_class_bind_template_child (widget_class, CwWindow, slips);
  gtk_widget_class_bind_template_child (widget_class, CwWindow, slips_button);
  gtk_widget_class_bind_template_child (widget_class, CwWindow, message_revealer);
  gtk_widget_class_bind_template_child (widget_class, CwWindow, message);
  gtk_widget_class_bind_template_child (widget_class, CwWindow, question_revealer);
  gtk_widget_class_bind_template_child (widget_class, CwWindow, question);
  gtk_widget_class_bind_template_child (widget_class, CwWindow, answers);
  gtk_widget_class_bind_template_child (widget_class, CwWindow, start_page);
  gtk_widget_class_bind_template_child (widget_class, CwWindow, table);
  gtk_widget_class_bind_template_child (widget_class, CwWindow, measure_entry);
  gtk_widget_class_bind_template_child (widget_class, CwWindow, steps);
  gtk_widget_class_bind_template_child (widget_class, CwWindow, findings);
  gtk_widget_class_bind_template_child (widget_class, CwWindow, page_switch);
  gtk_widget_class_bind_template_callback (widget_class, start_make);
  gtk_widget_class_bind_template_callback (widget_class, start_open);
  gtk_widget_class_bind_template_callback (widget_class, start_open_sample);
  gtk_widget_class_bind_template_callback (widget_class, close_message);
  gtk_widget_class_bind_template_callback (widget_class, table_typed);
}

static void
cw_window_init (CwWindow *self)
{
  GtkDropTarget *target = gtk_drop_target_new (GDK_TYPE_FILE_LIST, GDK_ACTION_COPY);

  gtk_widget_init_template (GTK_WIDGET (self));
  self->mark_bar = g_object_new (CW_TYPE_MARK_BAR, NULL);
  cw_measure_entry_add_beside (self->measure_entry, GTK_WIDGET (self->mark_bar));
  gtk_widget_insert_action_group (GTK_WIDGET (self), "table", cw_table_get_actions (self->table));
  g_signal_connect (target, "drop", G_CALLBACK (dropped), self);
  gtk_widget_add_controller (GTK_WIDGET (self), GTK_EVENT_CONTROLLER (target));
  cw_window_add_questions (self);
  g_signal_connect_object (gtk_widget_get_settings (GTK_WIDGET (self)), "notify::gtk-xft-dpi",
                           G_CALLBACK (fit_page_switch), self, G_CONNECT_SWAPPED);
  fit_page_switch (self);
  take_settings (self);
  cw_window_add_actions (self);
  cw_window_set_document (self, NULL);
}

/**
 * cw_window_new:
 * @application: the application
 *
 * Returns: (transfer floating): a window that shows the start page
 */
GtkWidget *
cw_window_new (GtkApplication *application)
{
  return g_object_new (CW_TYPE_WINDOW, "application", application, NULL);
}
