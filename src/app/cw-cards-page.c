/* cw-cards-page.c: the page of the window with the step cards as they will print.
 *
 * Left the pages, live; right a slip with the choices of sheet and type and the maker's own tools. Words of the pages
 * are changed where they stand. Everything is an action of the group "cards"; output is in cw-cards-output.c.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "cw-cards-page-private.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#include "cw-preferences.h"
#include "make/cw-make.h"

G_DEFINE_FINAL_TYPE (CwCardsPage, cw_cards_page, GTK_TYPE_BOX)

/* --- what is shown ----------------------------------------------------------------------------------------------- */

static void
show_place (CwCardsPage *self)
{
  CwPages *pages = cw_cards_view_get_pages (self->view);
  g_autofree char *place = NULL, *zoom = NULL;
  guint page = cw_cards_view_get_page (self->view), n = pages != NULL ? pages->lists->len : 0;

  place = n > 0 ? g_strdup_printf (_ ("Page %u of %u"), page + 1, n) : g_strdup (_ ("Making the pages…"));
  /* Translators: how large pages are shown; 100 % is true size. */
  zoom = g_strdup_printf (_ ("%d %%"), (int) lround (100 * cw_cards_view_get_zoom (self->view)));
  gtk_label_set_text (GTK_LABEL (self->place), place);
  gtk_label_set_text (GTK_LABEL (self->zoom_label), zoom);
  g_simple_action_set_enabled (G_SIMPLE_ACTION (g_action_map_lookup_action (G_ACTION_MAP (self->actions), "previous")),
                               page > 0);
  g_simple_action_set_enabled (G_SIMPLE_ACTION (g_action_map_lookup_action (G_ACTION_MAP (self->actions), "next")),
                               page + 1 < n);
}

/* Nobody has gone elsewhere meanwhile. */
static gboolean
focus_waits (CwCardsPage *self)
{
  GtkRoot *root = gtk_widget_get_root (GTK_WIDGET (self));
  GtkWidget *focus = root != NULL ? gtk_root_get_focus (root) : NULL;

  return self->wants_focus && cw_cards_view_get_pages (self->view) != NULL
         && (focus == NULL || gtk_widget_is_ancestor (focus, GTK_WIDGET (self->view)));
}

static void
pages_made (CwCardsPage *self)
{
  cw_cards_view_set_pages (self->view, cw_cards_maker_get_pages (self->maker));
  show_place (self);
  if (focus_waits (self))
    gtk_widget_grab_focus (GTK_WIDGET (self));
}

/* --- choices ----------------------------------------------------------------------------------------------------- */

/**
 * cw_cards_page_get_format:
 * @self: the page
 *
 * Returns: the sheet that is printed on
 */
CwPageFormat
cw_cards_page_get_format (CwCardsPage *self)
{
  return (CwPageFormat) MIN (gtk_drop_down_get_selected (GTK_DROP_DOWN (self->sheet_choice)), CW_N_PAGE_FORMATS - 1);
}

static void
apply_style (CwCardsPage *self)
{
  CwPageStyle style = { cw_cards_page_get_format (self), gtk_check_button_get_active (GTK_CHECK_BUTTON (self->large)) };

  gboolean templates = gtk_drop_down_get_selected (GTK_DROP_DOWN (self->show_choice)) == 1;

  cw_cards_maker_set_style (self->maker, &style, gtk_check_button_get_active (GTK_CHECK_BUTTON (self->sixteenths)),
                            templates);
}

static void
show_chosen (CwCardsPage *self)
{
  if (!self->inward)
    apply_style (self);
}

static void
sheet_chosen (CwCardsPage *self)
{
  if (self->inward)
    return;
  if (self->settings != NULL)
    g_settings_set_string (self->settings, "page-sheet", cw_page_format_get_key (cw_cards_page_get_format (self)));
  apply_style (self);
}

static void
type_chosen (CwCardsPage *self)
{
  if (self->inward)
    return;
  if (self->settings != NULL)
    {
      g_settings_set_boolean (self->settings, "page-large-type",
                              gtk_check_button_get_active (GTK_CHECK_BUTTON (self->large)));
      g_settings_set_boolean (self->settings, "page-sixteenths",
                              gtk_check_button_get_active (GTK_CHECK_BUTTON (self->sixteenths)));
    }
  apply_style (self);
}

static void
tools_changed (CwCardsPage *self)
{
  const CwTools *tools = cw_tools_panel_get_tools (self->tools);

  cw_preferences_write_tools (self->settings, tools);
  if (self->document != NULL)
    cw_document_set_tools (self->document, tools);
}

/* Also when another window has changed them. */
static void
read_settings (CwCardsPage *self)
{
  CwTools tools;
  CwUnit unit = self->document != NULL ? cw_document_get_design (self->document)->head->unit : CW_UNIT_INCH;

  self->inward = TRUE;
  gtk_drop_down_set_selected (GTK_DROP_DOWN (self->sheet_choice), cw_preferences_read_format (self->settings, unit));
  if (self->settings != NULL)
    {
      gtk_check_button_set_active (GTK_CHECK_BUTTON (self->large),
                                   g_settings_get_boolean (self->settings, "page-large-type"));
      gtk_check_button_set_active (GTK_CHECK_BUTTON (self->sixteenths),
                                   g_settings_get_boolean (self->settings, "page-sixteenths"));
      cw_preferences_read_tools (self->settings, &tools);
      cw_tools_panel_set_tools (self->tools, &tools);
    }
  self->inward = FALSE;
  if (self->document != NULL)
    cw_document_set_tools (self->document, cw_tools_panel_get_tools (self->tools));
  apply_style (self);
}

static void
setting_changed (GSettings *settings, const char *key, CwCardsPage *self)
{
  if (g_str_has_prefix (key, "tool-") || g_str_has_prefix (key, "page-"))
    read_settings (self);
}

/* --- words ------------------------------------------------------------------------------------------------------- */

static void
words_picked (CwCardsView *view, CwCardsSpot *spot, CwCardsPage *self)
{
  graphene_rect_t box;
  GdkRectangle at;

  if (self->document == NULL || !gtk_widget_compute_bounds (GTK_WIDGET (spot), GTK_WIDGET (self), &box))
    return;
  /* Words that are scrolled out of sight are pointed at from the edge. */
  at.x = (int) CLAMP (box.origin.x, 0, (float) gtk_widget_get_width (GTK_WIDGET (view)) - box.size.width);
  at.y = (int) CLAMP (box.origin.y, 0, (float) gtk_widget_get_height (GTK_WIDGET (self)) - box.size.height);
  at.width = (int) box.size.width;
  at.height = (int) box.size.height;
  gtk_popover_set_pointing_to (GTK_POPOVER (self->words), &at);
  self->asked = cw_cards_spot_get_words (spot)->what;
  self->asked_step = cw_cards_spot_get_words (spot)->step;
  cw_cards_words_ask (CW_CARDS_WORDS (self->words), self->document, cw_cards_spot_get_words (spot));
}

/* Back to where the words stand. */
static void
words_closed (CwCardsPage *self)
{
  cw_cards_view_focus (self->view, self->asked, self->asked_step);
}

static void
step_moved (CwCardsView *view, CwCardsSpot *spot, int by, CwCardsPage *self)
{
  CwDesign *design = NULL;
  g_autoptr (GError) error = NULL;
  guint step = cw_cards_spot_get_words (spot)->step;
  CwEdit *edit = NULL;

  if (self->document == NULL)
    return;
  design = cw_document_get_design (self->document);
  if (step >= design->steps->len || (int) step + by < 0 || (int) step + by >= (int) design->steps->len)
    return;
  edit = cw_make_move_step (design, ((CwStep *) g_ptr_array_index (design->steps, step))->id, (guint) ((int) step + by),
                            &error);
  if (edit == NULL)
    cw_document_say (self->document, error->message);
  else
    cw_document_do (self->document, _ ("move step"), edit);
}

/* --- actions ----------------------------------------------------------------------------------------------------- */

static void
do_print (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  cw_cards_page_print (data);
}

static void
do_print_templates (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  cw_cards_page_wait (data, CW_CARDS_PRINT_TEMPLATES, NULL);
}

static void
do_save (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  const char *name = g_action_get_name (G_ACTION (action));

  cw_cards_page_choose (data, g_str_equal (name, "save-template")       ? CW_CARDS_SAVE_TEMPLATES
                              : g_str_equal (name, "save-template-svg") ? CW_CARDS_SAVE_SVG
                              : g_str_equal (name, "save-web")          ? CW_CARDS_SAVE_WEB
                                                                        : CW_CARDS_SAVE);
}

static void
do_zoom (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  CwCardsView *view = CW_CARDS_PAGE (data)->view;
  const char *name = g_action_get_name (G_ACTION (action));

  if (g_str_equal (name, "zoom-in"))
    cw_cards_view_zoom_by (view, 1);
  else if (g_str_equal (name, "zoom-out"))
    cw_cards_view_zoom_by (view, -1);
  else if (g_str_equal (name, "zoom-page"))
    cw_cards_view_set_zoom (view, CW_CARDS_ZOOM_PAGE, 1);
  else if (g_str_equal (name, "zoom-true"))
    cw_cards_view_set_zoom (view, CW_CARDS_ZOOM_FIXED, 1);
  else
    cw_cards_view_set_zoom (view, CW_CARDS_ZOOM_WIDTH, 1);
}

static void
do_turn (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  cw_cards_page_turn (data, g_str_equal (g_action_get_name (G_ACTION (action)), "next") ? 1 : -1);
}

static void
do_options (GSimpleAction *action, GVariant *value, gpointer data)
{
  CwCardsPage *self = data;
  gboolean shown = g_variant_get_boolean (value);

  g_simple_action_set_state (action, value);
  gtk_widget_set_visible (self->options_revealer, shown);
  if (self->settings != NULL)
    g_settings_set_boolean (self->settings, "show-page-options", shown);
}

static const GActionEntry entries[] = {
  { .name = "print", .activate = do_print },        { .name = "print-templates", .activate = do_print_templates },
  { .name = "save", .activate = do_save },          { .name = "save-web", .activate = do_save },
  { .name = "save-template", .activate = do_save }, { .name = "save-template-svg", .activate = do_save },
  { .name = "zoom-in", .activate = do_zoom },       { .name = "zoom-out", .activate = do_zoom },
  { .name = "zoom-width", .activate = do_zoom },    { .name = "zoom-page", .activate = do_zoom },
  { .name = "zoom-true", .activate = do_zoom },     { .name = "next", .activate = do_turn },
  { .name = "previous", .activate = do_turn },      { .name = "options", .state = "true", .change_state = do_options },
};

/* Keys that what has the focus may use first. */
static const struct
{
  guint key;
  GdkModifierType mods;
  const char *action;
} keys[] = {
  { GDK_KEY_Page_Down, 0, "cards.next" },
  { GDK_KEY_Page_Up, 0, "cards.previous" },
  { GDK_KEY_plus, GDK_CONTROL_MASK, "cards.zoom-in" },
  { GDK_KEY_equal, GDK_CONTROL_MASK, "cards.zoom-in" },
  { GDK_KEY_KP_Add, GDK_CONTROL_MASK, "cards.zoom-in" },
  { GDK_KEY_minus, GDK_CONTROL_MASK, "cards.zoom-out" },
  { GDK_KEY_KP_Subtract, GDK_CONTROL_MASK, "cards.zoom-out" },
  { GDK_KEY_0, GDK_CONTROL_MASK, "cards.zoom-width" },
  { GDK_KEY_1, GDK_CONTROL_MASK, "cards.zoom-true" },
  { GDK_KEY_2, GDK_CONTROL_MASK, "cards.zoom-page" },
};

static void
add_keys (CwCardsPage *self)
{
  GtkEventController *controller = gtk_shortcut_controller_new ();

  for (guint i = 0; i < G_N_ELEMENTS (keys); i++)
    gtk_shortcut_controller_add_shortcut (GTK_SHORTCUT_CONTROLLER (controller),
                                          gtk_shortcut_new (gtk_keyval_trigger_new (keys[i].key, keys[i].mods),
                                                            gtk_named_action_new (keys[i].action)));
  gtk_widget_add_controller (GTK_WIDGET (self), controller);
}

/* --- what the window says ---------------------------------------------------------------------------------------- */

/**
 * cw_cards_page_turn:
 * @self: the page
 * @by: how many printed pages on, or back when below zero
 */
void
cw_cards_page_turn (CwCardsPage *self, int by)
{
  g_return_if_fail (CW_IS_CARDS_PAGE (self));
  cw_cards_view_turn (self->view, by);
}

/**
 * cw_cards_page_set_active:
 * @self: the page
 * @active: it is what the window shows
 */
void
cw_cards_page_set_active (CwCardsPage *self, gboolean active)
{
  g_return_if_fail (CW_IS_CARDS_PAGE (self));

  self->wants_focus &= active;
  cw_cards_maker_set_active (self->maker, active);
}

/**
 * cw_cards_page_set_document:
 * @self: the page
 * @document: (nullable): whose step cards to show
 */
void
cw_cards_page_set_document (CwCardsPage *self, CwDocument *document)
{
  g_return_if_fail (CW_IS_CARDS_PAGE (self));

  if (document == self->document)
    return;
  gtk_popover_popdown (GTK_POPOVER (self->words)); /* what is typed belongs to the design so far */
  self->waiting = CW_CARDS_NOTHING;
  cw_document_follow (&self->document, document, self);
  if (document != NULL)
    g_signal_connect_object (document, "analysed", G_CALLBACK (cw_cards_page_go_on), self, G_CONNECT_SWAPPED);
  read_settings (self);
  cw_cards_maker_set_document (self->maker, document);
}

static void
cw_cards_page_size_allocate (GtkWidget *widget, int width, int height, int baseline)
{
  GTK_WIDGET_CLASS (cw_cards_page_parent_class)->size_allocate (widget, width, height, baseline);
  gtk_popover_present (GTK_POPOVER (CW_CARDS_PAGE (widget)->words));
}

static gboolean
cw_cards_page_grab_focus (GtkWidget *widget)
{
  CwCardsPage *self = CW_CARDS_PAGE (widget);

  /* Where there are no pages yet, as soon as there are. */
  self->wants_focus = cw_cards_view_get_pages (self->view) == NULL;
  if (self->wants_focus)
    return gtk_widget_child_focus (GTK_WIDGET (self->view), GTK_DIR_TAB_FORWARD);
  cw_cards_view_focus (self->view, CW_PAGE_WORDS_TITLE, G_MAXUINT);
  return TRUE;
}

static void
cw_cards_page_dispose (GObject *object)
{
  CwCardsPage *self = CW_CARDS_PAGE (object);

  if (self->chooser != NULL)
    gtk_native_dialog_destroy (GTK_NATIVE_DIALOG (self->chooser));
  g_clear_object (&self->chooser);
  cw_document_follow (&self->document, NULL, self);
  g_clear_object (&self->wanted);
  g_clear_object (&self->settings);
  g_clear_object (&self->maker);
  g_clear_pointer (&self->words, gtk_widget_unparent);
  g_clear_object (&self->actions);
  G_OBJECT_CLASS (cw_cards_page_parent_class)->dispose (object);
}

static void
cw_cards_page_class_init (CwCardsPageClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = cw_cards_page_dispose;
  widget_class->size_allocate = cw_cards_page_size_allocate;
  widget_class->grab_focus = cw_cards_page_grab_focus;
  g_type_ensure (CW_TYPE_CARDS_VIEW);
  g_type_ensure (CW_TYPE_TOOLS_PANEL);
  gtk_widget_class_set_template_from_resource (widget_class, "/org/creasewright/Creasewright/cards-page.ui");
  gtk_widget_class_bind_template_child (widget_class, CwCardsPage, view);
  gtk_widget_class_bind_template_child (widget_class, CwCardsPage, tools);
  gtk_widget_class_bind_template_child (widget_class, CwCardsPage, place);
  gtk_widget_class_bind_template_child (widget_class, CwCardsPage, zoom_label);
  gtk_widget_class_bind_template_child (widget_class, CwCardsPage, options_revealer);
  gtk_widget_class_bind_template_child (widget_class, CwCardsPage, sheet_choice);
  gtk_widget_class_bind_template_child (widget_class, CwCardsPage, show_choice);
  gtk_widget_class_bind_template_child (widget_class, CwCardsPage, large);
  gtk_widget_class_bind_template_child (widget_class, CwCardsPage, sixteenths);
  gtk_widget_class_bind_template_callback (widget_class, sheet_chosen);
  gtk_widget_class_bind_template_callback (widget_class, show_chosen);
  gtk_widget_class_bind_template_callback (widget_class, type_chosen);
  gtk_widget_class_bind_template_callback (widget_class, tools_changed);
  gtk_widget_class_bind_template_callback (widget_class, words_picked);
  gtk_widget_class_bind_template_callback (widget_class, step_moved);
  gtk_widget_class_bind_template_callback (widget_class, show_place);
}

static void
cw_cards_page_init (CwCardsPage *self)
{
  self->maker = cw_cards_maker_new ();
  self->settings = cw_preferences_new ();
  self->actions = g_simple_action_group_new ();
  g_action_map_add_action_entries (G_ACTION_MAP (self->actions), entries, G_N_ELEMENTS (entries), self);
  self->inward = TRUE;
  gtk_widget_init_template (GTK_WIDGET (self));
  cw_drop_down_set_name (GTK_DROP_DOWN (self->show_choice), _ ("Show"));
  cw_drop_down_set_name (GTK_DROP_DOWN (self->sheet_choice), _ ("Print on"));
  self->inward = FALSE;
  gtk_widget_insert_action_group (GTK_WIDGET (self), "cards", G_ACTION_GROUP (self->actions));
  self->words = cw_cards_words_new ();
  gtk_widget_set_parent (self->words, GTK_WIDGET (self));
  g_signal_connect_object (self->words, "closed", G_CALLBACK (words_closed), self, G_CONNECT_SWAPPED);
  add_keys (self);
  g_signal_connect_object (self->maker, "made", G_CALLBACK (pages_made), self, G_CONNECT_SWAPPED);
  if (self->settings != NULL)
    {
      g_signal_connect_object (self->settings, "changed", G_CALLBACK (setting_changed), self, 0);
      g_action_group_change_action_state (G_ACTION_GROUP (self->actions), "options",
                                          g_variant_new_boolean (
                                            g_settings_get_boolean (self->settings, "show-page-options")));
    }
  read_settings (self);
  show_place (self);
}
