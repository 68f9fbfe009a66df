/* test-cards.c: the step cards page of the window.
 *
 * Sizes of sheets: ISO 216:2007 (A4, A5), ANSI letter and its half. One inch is 72 points (PDF, ISO 32000-1:2008,
 * 8.3.2.3). What is printed to a file is read back by poppler.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-application.h"
#include "cw-cards-page-private.h"
#include "cw-cards-print.h"
#include "cw-config.h"
#include "cw-template.h"
#include "cw-window-private.h"
#include "design/cw-step-words.h"
#include "window-test.h"

#include <glib/gstdio.h>

static CwDocument *
open_sample (const char *name)
{
  g_autoptr (GFile) file = g_file_new_build_filename (g_getenv ("CREASEWRIGHT_DATA"), "samples", name, NULL);
  CwDocument *document = cw_document_load (file, NULL);

  g_assert_nonnull (document);
  return document;
}

static gboolean
is_made (gpointer window)
{
  return cw_cards_maker_is_current (((CwWindow *) window)->cards->maker);
}

static gboolean
is_drawn (gpointer window)
{
  return is_made (window) && cw_cards_view_is_drawn (((CwWindow *) window)->cards->view);
}

static CwWindow *
show_cards (CwDocument *document)
{
  CwWindow *window = CW_WINDOW (cw_window_new (application));

  gtk_window_present (GTK_WINDOW (window));
  cw_window_set_document (window, document);
  g_action_group_change_action_state (G_ACTION_GROUP (window), "page", g_variant_new_string ("cards"));
  iterate_until (is_drawn, window, 30);
  return window;
}

static CwCardsSpot *
find_spot (CwWindow *window, CwPageWordsKind what, guint step)
{
  CwCardsView *view = window->cards->view;

  for (guint i = 0; cw_cards_view_get_sheet (view, i) != NULL; i++)
    {
      CwCardsSpot *spot = cw_cards_sheet_find (cw_cards_view_get_sheet (view, i), what, step);

      if (spot != NULL)
        return spot;
    }
  return NULL;
}

/* --- the page ---------------------------------------------------------------------------------------------------- */

/* Two pages of the window, one shown at a time; without a card neither. */
static void
test_switch (void)
{
  g_autoptr (CwDocument) document = open_sample ("half-fold.creasecard");
  CwWindow *window = show_cards (document);

  g_assert_cmpstr (gtk_stack_get_visible_child_name (GTK_STACK (window->stack)), ==, "cards");
  g_assert_false (gtk_widget_get_visible (window->findings_button));
  g_action_group_activate_action (G_ACTION_GROUP (window), "measure", NULL);
  g_assert_cmpstr (gtk_stack_get_visible_child_name (GTK_STACK (window->stack)), ==, "table");
  g_assert_true (gtk_widget_get_visible (window->findings_button));
  g_action_group_change_action_state (G_ACTION_GROUP (window), "page", g_variant_new_string ("cards"));
  cw_window_set_document (window, NULL);
  g_assert_cmpstr (gtk_stack_get_visible_child_name (GTK_STACK (window->stack)), ==, "start");
  g_assert_false (gtk_widget_get_visible (window->page_switch));
  close_window (window);
}

/* Everything a reader reads is a name of a widget; what can be changed takes the focus. */
static void
test_words_are_there (void)
{
  g_autoptr (CwDocument) document = open_sample ("corner-flip.creasecard");
  CwWindow *window = show_cards (document);
  CwPages *pages = cw_cards_view_get_pages (window->cards->view);
  guint n = 0, n_focusable = 0;

  for (guint p = 0; p < pages->lists->len; p++)
    {
      GtkWidget *sheet = GTK_WIDGET (cw_cards_view_get_sheet (window->cards->view, p));
      GtkWidget *spot = gtk_widget_get_first_child (sheet);
      g_autofree char *name = g_strdup_printf ("Page %u of %u", p + 1, pages->lists->len);

      gtk_test_accessible_assert_property (sheet, GTK_ACCESSIBLE_PROPERTY_LABEL, name);
      for (guint i = 0; i < pages->words->len; i++)
        {
          const CwPageWords *words = g_ptr_array_index (pages->words, i);

          if (words->page != p)
            continue;
          g_assert_nonnull (spot);
          gtk_test_accessible_assert_property (spot, GTK_ACCESSIBLE_PROPERTY_LABEL, words->text);
          if (cw_page_words_can_change (words))
            {
              gtk_test_accessible_assert_role (spot, GTK_ACCESSIBLE_ROLE_BUTTON);
              g_assert_true (gtk_widget_grab_focus (spot));
              g_assert_true (gtk_root_get_focus (GTK_ROOT (window)) == spot);
              n_focusable++;
            }
          spot = gtk_widget_get_next_sibling (spot);
          n++;
        }
      g_assert_null (spot);
    }
  g_assert_cmpuint (n, ==, pages->words->len);
  g_assert_cmpuint (n_focusable, >, 4);

  /* The first step of the design, by Tab from the title. */
  gtk_widget_grab_focus (GTK_WIDGET (find_spot (window, CW_PAGE_WORDS_TITLE, G_MAXUINT)));
  for (guint i = 0; i < 6; i++)
    {
      GtkWidget *focus = gtk_root_get_focus (GTK_ROOT (window));

      if (CW_IS_CARDS_SPOT (focus) && cw_cards_spot_get_words (CW_CARDS_SPOT (focus))->what == CW_PAGE_WORDS_STEP)
        break;
      gtk_widget_child_focus (GTK_WIDGET (window), GTK_DIR_TAB_FORWARD);
    }
  g_assert_true (CW_IS_CARDS_SPOT (gtk_root_get_focus (GTK_ROOT (window))));
  g_assert_cmpint (cw_cards_spot_get_words (CW_CARDS_SPOT (gtk_root_get_focus (GTK_ROOT (window))))->what, ==,
                   CW_PAGE_WORDS_STEP);
  close_window (window);
}

/* Text twice as large (WCAG 2.2, 1.4.4 Resize Text) still leaves a window for a screen of 1024 pixels. */
static void
test_large_text (void)
{
  g_autoptr (CwDocument) document = open_sample ("half-fold.creasecard");
  CwWindow *window = show_cards (document);
  GtkSettings *settings = gtk_settings_get_default ();
  int old = 0, page = 0, header = 0;

  g_object_get (settings, "gtk-xft-dpi", &old, NULL);
  g_object_set (settings, "gtk-xft-dpi", 2 * 96 * 1024, NULL);
  gtk_widget_measure (GTK_WIDGET (window->cards), GTK_ORIENTATION_HORIZONTAL, -1, &page, NULL, NULL, NULL);
  gtk_widget_measure (gtk_window_get_titlebar (GTK_WINDOW (window)), GTK_ORIENTATION_HORIZONTAL, -1, &header, NULL,
                      NULL, NULL);
  g_test_message ("page %d, header %d", page, header);
  g_assert_cmpint (page, <=, 1024);
  g_assert_cmpint (header, <=, 1024);
  g_object_set (settings, "gtk-xft-dpi", old, NULL);
  close_window (window);
}

/* --- live -------------------------------------------------------------------------------------------------------- */

static void
choose_sheet (CwWindow *window, CwPageFormat format)
{
  gtk_drop_down_set_selected (GTK_DROP_DOWN (window->cards->sheet_choice), format);
}

/* Whatever is chosen while pages are being made, the pages that come are of the last choice; they follow edits. */
static void
test_live (void)
{
  g_autoptr (CwDocument) document = open_sample ("half-fold.creasecard");
  CwWindow *window = show_cards (document);
  g_autoptr (CwEdit) edit = NULL;
  CwPages *pages = NULL;
  CwCardsSpot *title = NULL;

  choose_sheet (window, CW_PAGE_A4);
  choose_sheet (window, CW_PAGE_HALF_LETTER);
  choose_sheet (window, CW_PAGE_A5);
  g_assert_false (is_made (window));
  iterate_until (is_drawn, window, 30);
  pages = cw_cards_view_get_pages (window->cards->view);
  g_assert_cmpfloat_with_epsilon (pages->width, 148 / 25.4 * 72, 0.01);
  g_assert_cmpfloat_with_epsilon (pages->height, 210 / 25.4 * 72, 0.01);
  choose_sheet (window, CW_PAGE_LETTER);
  iterate_until (is_drawn, window, 30);
  pages = cw_cards_view_get_pages (window->cards->view);
  g_assert_cmpfloat_with_epsilon (pages->width, 612, 0.01);

  edit = cw_cards_words_edit_card (cw_document_get_design (document), "Lamp in the harbour", "A maker", NULL, NULL);
  cw_document_do (document, "change words", g_steal_pointer (&edit));
  g_assert_false (is_made (window));
  iterate_until (is_drawn, window, 30);
  title = find_spot (window, CW_PAGE_WORDS_TITLE, G_MAXUINT);
  g_assert_cmpstr (cw_cards_spot_get_words (title)->text, ==, "Lamp in the harbour");
  g_assert_cmpstr (cw_cards_view_get_pages (window->cards->view)->author, ==, "A maker");

  /* Out of sight nothing is made. */
  g_action_group_change_action_state (G_ACTION_GROUP (window), "page", g_variant_new_string ("table"));
  cw_document_undo (document);
  cw_document_analyse_now (document);
  for (guint i = 0; i < 50; i++)
    {
      g_main_context_iteration (NULL, FALSE);
      g_usleep (1000);
    }
  g_assert_false (is_made (window));
  g_action_group_change_action_state (G_ACTION_GROUP (window), "page", g_variant_new_string ("cards"));
  iterate_until (is_drawn, window, 30);
  g_assert_cmpstr (cw_cards_spot_get_words (find_spot (window, CW_PAGE_WORDS_TITLE, G_MAXUINT))->text, ==,
                   "Lighthouse note");
  close_window (window);
}

/* The templates are shown as well: their pages, as they are read, with their words. */
static void
test_templates (void)
{
  g_autoptr (CwDocument) document = open_sample ("half-fold.creasecard");
  CwWindow *window = show_cards (document);
  g_autoptr (CwPages) own = cw_pages_new_template (cw_document_get_analysis (document), CW_PAGE_LETTER);
  CwPages *pages = NULL;
  gboolean lying = FALSE;

  gtk_drop_down_set_selected (GTK_DROP_DOWN (window->cards->show_choice), 1);
  iterate_until (is_drawn, window, 30);
  pages = cw_cards_view_get_pages (window->cards->view);
  g_assert_cmpuint (pages->lists->len, ==, own->lists->len);
  for (guint i = 0; i < pages->lists->len; i++)
    {
      GtkWidget *sheet = GTK_WIDGET (cw_cards_view_get_sheet (window->cards->view, i));
      int width = 0, height = 0;

      gtk_widget_measure (sheet, GTK_ORIENTATION_HORIZONTAL, -1, &width, NULL, NULL, NULL);
      gtk_widget_measure (sheet, GTK_ORIENTATION_VERTICAL, -1, &height, NULL, NULL, NULL);
      g_assert_cmpint (width > height, ==, cw_pages_get_on_side (own, i));
      lying |= width > height;
      g_assert_nonnull (gtk_widget_get_first_child (sheet));
    }
  g_assert_true (lying); /* a sheet of 10 x 7 inches does not fit upright on letter */
  g_assert_null (find_spot (window, CW_PAGE_WORDS_TITLE, G_MAXUINT));
  gtk_drop_down_set_selected (GTK_DROP_DOWN (window->cards->show_choice), 0);
  iterate_until (is_drawn, window, 30);
  g_assert_nonnull (find_spot (window, CW_PAGE_WORDS_TITLE, G_MAXUINT));
  close_window (window);
}

static void
zoom (CwWindow *window, const char *action)
{
  g_action_group_activate_action (G_ACTION_GROUP (window->cards->actions), action, NULL);
  gtk_test_widget_wait_for_draw (GTK_WIDGET (window));
  iterate_until (is_drawn, window, 30);
}

static int
sheet_width (CwWindow *window)
{
  int width = 0;

  gtk_widget_measure (GTK_WIDGET (cw_cards_view_get_sheet (window->cards->view, 0)), GTK_ORIENTATION_HORIZONTAL, -1,
                      NULL, &width, NULL, NULL);
  return width;
}

/* True size is 96 logical pixels to the inch (CSS Values and Units 3, 5.2): 8 1/2 inches are 816. */
static void
test_zoom_and_turn (void)
{
  g_autoptr (CwDocument) document = open_sample ("box-steps.creasecard");
  CwWindow *window = show_cards (document);
  int width = 0;

  zoom (window, "zoom-true");
  g_assert_cmpint (sheet_width (window), ==, 816);
  zoom (window, "zoom-in");
  width = sheet_width (window);
  g_assert_cmpint (width, >, 816);
  zoom (window, "zoom-out");
  g_assert_cmpint (sheet_width (window), ==, 816);
  zoom (window, "zoom-page");
  g_assert_cmpint (sheet_width (window), <, 816);
  g_assert_cmpuint (cw_cards_view_get_page (window->cards->view), ==, 0);
  g_assert_false (g_action_group_get_action_enabled (G_ACTION_GROUP (window->cards->actions), "previous"));
  zoom (window, "next");
  g_assert_cmpuint (cw_cards_view_get_page (window->cards->view), ==, 1);
  g_assert_cmpstr (gtk_label_get_text (GTK_LABEL (window->cards->place)), >=, "Page 2 of ");
  g_assert_true (g_action_group_get_action_enabled (G_ACTION_GROUP (window->cards->actions), "previous"));
  zoom (window, "previous");
  g_assert_cmpuint (cw_cards_view_get_page (window->cards->view), ==, 0);
  zoom (window, "zoom-width");
  close_window (window);
}

/* --- words ------------------------------------------------------------------------------------------------------- */

static char *
text_of (CwDocument *document)
{
  return cw_design_to_text (cw_document_get_design (document), NULL);
}

/* Written words are one edit, are kept in the file, and go back to the same bytes; what is not changed is no edit. */
static void
test_words_are_edits (void)
{
  g_autoptr (CwDocument) document = open_sample ("half-fold.creasecard");
  CwDesign *design = cw_document_get_design (document);
  g_autofree char *before = text_of (document), *after = NULL, *back = NULL;
  g_autoptr (CwDesign) read = NULL;
  g_autofree char *title = cw_step_dup_title (design, g_ptr_array_index (design->steps, 0));
  const CwStep *first = g_ptr_array_index (design->steps, 0);
  const struct
  {
    const char *title, *caption;
    gboolean empty;
  } cases[] = {
    { title, first->caption, TRUE },
    { title, "  \n ", first->caption == NULL },
    { title, "Press from the middle outward.", FALSE },
    { "A name of my own", first->caption, FALSE },
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (CwEdit) edit = cw_cards_words_edit_step (design, 0, cases[i].title, cases[i].caption);

      g_assert_cmpint (cw_edit_is_empty (edit), ==, cases[i].empty);
    }
  {
    g_autoptr (CwEdit) edit
      = cw_cards_words_edit_card (design, design->head->title, cw_extra_get_text (design->head->extra, "author"),
                                  cw_extra_get_text (design->head->extra, "date"), design->head->notes);

    g_assert_true (cw_edit_is_empty (edit));
  }
  cw_document_do (document, "words", cw_cards_words_edit_card (design, "Harbour", "A maker", "2031-02-03", NULL));
  cw_document_do (document, "words",
                  cw_cards_words_edit_step (cw_document_get_design (document), 0, title, "Mind the\nsecond line."));
  after = text_of (document);
  read = cw_design_from_text (after, -1, "kept", NULL);
  g_assert_nonnull (read);
  g_assert_cmpstr (read->head->title, ==, "Harbour");
  g_assert_null (read->head->notes);
  g_assert_cmpstr (cw_extra_get_text (read->head->extra, "author"), ==, "A maker");
  g_assert_cmpstr (cw_extra_get_text (read->head->extra, "date"), ==, "2031-02-03");
  g_assert_cmpstr (((CwStep *) g_ptr_array_index (read->steps, 0))->caption, ==, "Mind the\nsecond line.");
  g_assert_true (cw_document_undo (document));
  g_assert_true (cw_document_undo (document));
  back = text_of (document);
  g_assert_cmpstr (back, ==, before);
}

static GtkWidget *
find_field (GtkWidget *widget, GType type, const char *label)
{
  GtkWidget *found = NULL;

  if (G_TYPE_CHECK_INSTANCE_TYPE (widget, type))
    {
      char *wrong = gtk_test_accessible_check_property (GTK_ACCESSIBLE (widget), GTK_ACCESSIBLE_PROPERTY_LABEL, label);

      if (wrong == NULL)
        return widget;
      g_free (wrong);
    }
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL && found == NULL;
       child = gtk_widget_get_next_sibling (child))
    found = find_field (child, type, label);
  return found;
}

/* Picking the words of a step asks for them in place; closing keeps them, the page shows them, the focus stays. */
static void
test_words_in_place (void)
{
  g_autoptr (CwDocument) document = open_sample ("corner-flip.creasecard");
  CwWindow *window = show_cards (document);
  GtkWidget *sheet = window->cards->words;
  guint step = cw_document_get_design (document)->steps->len - 2;
  CwCardsSpot *spot = find_spot (window, CW_PAGE_WORDS_STEP, step);
  g_autofree char *before = text_of (document), *after = NULL;

  g_assert_nonnull (spot);
  g_assert_true (gtk_widget_activate_action (GTK_WIDGET (spot), "words.change", NULL));
  g_assert_true (gtk_widget_get_visible (sheet));
  gtk_popover_popdown (GTK_POPOVER (sheet)); /* nothing was written */
  after = text_of (document);
  g_assert_cmpstr (after, ==, before);

  gtk_widget_grab_focus (GTK_WIDGET (spot));
  gtk_widget_activate_action (GTK_WIDGET (spot), "words.change", NULL);
  {
    GtkWidget *title = find_field (sheet, GTK_TYPE_ENTRY, "Title of this step");
    GtkWidget *words = find_field (sheet, GTK_TYPE_TEXT_VIEW, "Your words to it");

    g_assert_true (title != NULL && words != NULL);
    gtk_editable_set_text (GTK_EDITABLE (title), "Shut it softly");
    gtk_text_buffer_set_text (gtk_text_view_get_buffer (GTK_TEXT_VIEW (words)), "The corner goes in first.", -1);
    gtk_popover_popdown (GTK_POPOVER (sheet));
  }
  g_assert_cmpstr (cw_document_get_undo_name (document), ==, "change words of a step");
  iterate_until (is_drawn, window, 30);
  spot = find_spot (window, CW_PAGE_WORDS_STEP, step);
  g_assert_true (g_str_has_suffix (cw_cards_spot_get_words (spot)->text, ". Shut it softly"));
  spot = find_spot (window, CW_PAGE_WORDS_CAPTION, step);
  g_assert_cmpstr (cw_cards_spot_get_words (spot)->text, ==, "The corner goes in first.");
  g_assert_true (cw_document_undo (document));
  g_free (after);
  after = text_of (document);
  g_assert_cmpstr (after, ==, before);
  close_window (window);
}

/* Alt+Up on a step's title puts it one place earlier; the focus goes with it. */
static void
test_reorder (void)
{
  g_autoptr (CwDocument) document = open_sample ("gate-fold.creasecard");
  CwWindow *window = show_cards (document);
  CwDesign *design = cw_document_get_design (document);
  g_autofree char *first = g_strdup (((CwStep *) g_ptr_array_index (design->steps, 0))->id);
  g_autofree char *second = g_strdup (((CwStep *) g_ptr_array_index (design->steps, 1))->id);
  CwCardsSpot *spot = find_spot (window, CW_PAGE_WORDS_STEP, 1);

  g_assert_true (gtk_widget_activate_action (GTK_WIDGET (spot), "words.earlier", NULL));
  design = cw_document_get_design (document);
  g_assert_cmpstr (((CwStep *) g_ptr_array_index (design->steps, 0))->id, ==, second);
  g_assert_cmpstr (((CwStep *) g_ptr_array_index (design->steps, 1))->id, ==, first);
  iterate_until (is_drawn, window, 30);
  spot = find_spot (window, CW_PAGE_WORDS_STEP, 0);
  gtk_widget_activate_action (GTK_WIDGET (spot), "words.earlier", NULL); /* nowhere to go */
  g_assert_true (cw_document_get_design (document) == design);
  close_window (window);
}

/* --- my tools ---------------------------------------------------------------------------------------------------- */

static void
test_tools (void)
{
  g_autoptr (CwDocument) document = open_sample ("corner-flip.creasecard");
  CwWindow *window = show_cards (document);
  g_autoptr (GSettings) settings = g_settings_new (CW_APP_ID);
  GtkWidget *reach = find_field (GTK_WIDGET (window->cards->tools), GTK_TYPE_ENTRY, "It reaches");
  GtkWidget *finest = find_field (GTK_WIDGET (window->cards->tools), GTK_TYPE_ENTRY, "Its finest mark");
  g_autofree char *kept = NULL;

  /* What is typed is kept, and the card is analysed for it. */
  gtk_editable_set_text (GTK_EDITABLE (finest), "1/4");
  g_signal_emit_by_name (finest, "activate");
  g_assert_cmpstr (gtk_editable_get_text (GTK_EDITABLE (finest)), ==, "1/4 in");
  kept = g_settings_get_string (settings, "tool-finest");
  g_assert_cmpstr (kept, ==, "1/4 in");
  g_assert_false (cw_document_is_analysed (document));
  iterate_until (is_drawn, window, 30);
  g_assert_cmpint (cw_document_get_analysis (document)->tools.finest, ==, CW_TICKS_PER_INCH / 4);

  /* What is no length changes nothing and is said. */
  gtk_editable_set_text (GTK_EDITABLE (reach), "far");
  g_signal_emit_by_name (reach, "activate");
  g_assert_true (gtk_widget_has_css_class (reach, "error"));
  g_free (kept);
  kept = g_settings_get_string (settings, "tool-reach");
  g_assert_cmpstr (kept, ==, "12 in");
  gtk_editable_set_text (GTK_EDITABLE (reach), "15 in");
  g_signal_emit_by_name (reach, "activate");
  g_assert_false (gtk_widget_has_css_class (reach, "error"));

  /* Another window's choice counts here too; an empty field is no mark of one's own. */
  g_settings_set_string (settings, "tool-rule", "right-to-left");
  gtk_editable_set_text (GTK_EDITABLE (finest), "");
  g_signal_emit_by_name (finest, "activate");
  iterate_until (is_drawn, window, 30);
  g_assert_true (cw_document_get_analysis (document)->tools.right_to_left);
  g_assert_cmpint (cw_document_get_analysis (document)->tools.finest, ==, 0);
  g_assert_cmpint (cw_document_get_analysis (document)->tools.reach, ==, 15 * CW_TICKS_PER_INCH);
  for (const char *const *key = cw_tools_get_keys (); *key != NULL; key++)
    {
      g_autofree char *name = g_strconcat ("tool-", *key, NULL);

      g_settings_reset (settings, name);
    }
  iterate_until (is_drawn, window, 30);
  g_assert_true (cw_tools_equal (&cw_document_get_analysis (document)->tools, &cw_tools_usual));
  close_window (window);
}

/* --- paper and files --------------------------------------------------------------------------------------------- */

static char *
run (const char *const *argv)
{
  g_autoptr (GError) error = NULL;
  char *out = NULL;
  int status = 0;

  if (!g_spawn_sync (NULL, (char **) argv, NULL, G_SPAWN_SEARCH_PATH, NULL, NULL, &out, NULL, &status, &error))
    return NULL;
  g_assert_true (g_spawn_check_wait_status (status, &error));
  return out;
}

/* The same words, each at the same place to 0.1 mm. */
static void
check_places (const char *one, const char *other)
{
  g_auto (GStrv) a = g_strsplit (strstr (one, "<page"), "\"", -1), b = g_strsplit (strstr (other, "<page"), "\"", -1);

  g_assert_cmpuint (g_strv_length (a), ==, g_strv_length (b));
  for (guint i = 0; a[i] != NULL; i++)
    {
      char *end_a = NULL, *end_b = NULL;
      double x = g_ascii_strtod (a[i], &end_a), y = g_ascii_strtod (b[i], &end_b);

      if (end_a != a[i] && *end_a == '\0' && *end_b == '\0')
        g_assert_cmpfloat_with_epsilon (x, y, 0.1 * 72 / 25.4);
      else
        g_assert_cmpstr (a[i], ==, b[i]);
    }
}

/* What the print system is given is, word for word and place for place, what the file of the pages holds. */
static guint
count_words (const char *text)
{
  g_auto (GStrv) parts = g_strsplit (text, "<word", -1);

  return g_strv_length (parts);
}

static void
check_print (CwPages *pages, const char *size)
{
  g_autofree char *folder = g_dir_make_tmp ("creasewright-XXXXXX", NULL);
  g_autofree char *printed = g_build_filename (folder, "printed.pdf", NULL);
  g_autofree char *written = g_build_filename (folder, "written.pdf", NULL);
  g_autoptr (GFile) file = g_file_new_for_path (written);
  g_autoptr (GtkPrintOperation) operation = cw_cards_print_new (pages, NULL);
  g_autoptr (GError) error = NULL;
  g_autofree char *info = NULL, *place = NULL, *other = NULL, *n = NULL;
  gboolean turned = FALSE;

  gtk_print_operation_set_allow_async (operation, FALSE);
  gtk_print_operation_set_export_filename (operation, printed);
  g_assert_cmpint (gtk_print_operation_run (operation, GTK_PRINT_OPERATION_ACTION_EXPORT, NULL, &error), ==,
                   GTK_PRINT_OPERATION_RESULT_APPLY);
  g_assert_no_error (error);
  g_assert_true (cw_pages_write_pdf (pages, file, &error));
  info = run ((const char *[]){ "pdfinfo", printed, NULL });
  if (info != NULL)
    {
      g_assert_nonnull (strstr (info, size));
      n = g_strdup_printf ("Pages:           %u\n", pages->lists->len);
      g_assert_nonnull (strstr (info, n));
      for (guint i = 0; i < pages->lists->len; i++)
        turned |= cw_pages_get_on_side (pages, i);
      place = run ((const char *[]){ "pdftotext", "-bbox", printed, "-", NULL });
      other = run ((const char *[]){ "pdftotext", "-bbox", written, "-", NULL });
      g_assert_nonnull (strstr (place, "<word"));
      /* A page on its side is turned by a quarter to go through the printer, and not in the file. */
      if (turned)
        g_assert_cmpuint (count_words (place), ==, count_words (other));
      else
        check_places (place, other);
    }
  else
    g_test_message ("no poppler: not read back");
  g_unlink (printed);
  g_unlink (written);
  g_rmdir (folder);
}

static void
test_print (void)
{
  static const char *const sizes[CW_N_PAGE_FORMATS]
    = { "612 x 792 pts", "595.276 x 841.89 pts", "396 x 612 pts", "419.528 x 595.276 pts" };
  g_autoptr (CwDocument) document = open_sample ("corner-flip.creasecard");
  g_autoptr (CwStepCard) card = NULL;

  cw_document_analyse_now (document);
  card = cw_step_card_new (cw_document_get_analysis (document), &cw_step_card_usual);
  for (guint i = 0; i < CW_N_PAGE_FORMATS; i++)
    {
      const CwPageStyle style = { i, FALSE };
      g_autoptr (CwPages) pages = cw_pages_new_step_card (card, &style);
      g_autoptr (CwPages) template = cw_pages_new_template (cw_document_get_analysis (document), i);

      g_test_message ("%s", cw_page_format_get_key (i));
      check_print (pages, sizes[i]);
      check_print (template, sizes[i]);
    }
}

static gboolean
is_telling (gpointer data)
{
  return gtk_revealer_get_reveal_child (GTK_REVEALER (((CwWindow *) data)->message_revealer));
}

/* Saving waits for pages that are being made, and says how it went. */
static void
test_save (void)
{
  g_autoptr (CwDocument) document = open_sample ("half-fold.creasecard");
  CwWindow *window = show_cards (document);
  g_autofree char *folder = g_dir_make_tmp ("creasewright-XXXXXX", NULL);
  g_autofree char *path = g_build_filename (folder, "note.pdf", NULL), *text = NULL;
  g_autofree char *nowhere = g_build_filename (folder, "none", "note.pdf", NULL);
  CwCardsPage *page = window->cards;
  g_autoptr (GFile) file = NULL;
  g_autoptr (GFile) missing = NULL;

  cw_document_do (document, "words",
                  cw_cards_words_edit_card (cw_document_get_design (document), "Ferry at night", NULL, NULL, NULL));
  file = g_file_new_for_path (path);
  cw_cards_page_wait (page, CW_CARDS_SAVE, file);
  g_assert_false (g_file_test (path, G_FILE_TEST_EXISTS));
  iterate_until (is_telling, window, 30);
  g_assert_nonnull (strstr (gtk_label_get_text (GTK_LABEL (window->message)), "100 %"));
  text = run ((const char *[]){ "pdftotext", path, "-", NULL });
  if (text != NULL)
    g_assert_nonnull (strstr (text, "Ferry at night"));
  cw_window_say (window, NULL);
  for (CwCardsWait what = CW_CARDS_SAVE; what <= CW_CARDS_SAVE_SVG; what++)
    {
      g_autofree char *other = g_build_filename (folder, "other", NULL), *kept = NULL;
      g_autoptr (GFile) other_file = g_file_new_for_path (other);
      static const char *const begins[] = { [CW_CARDS_SAVE] = "%PDF",
                                            [CW_CARDS_SAVE_WEB] = "<!DOCTYPE html>",
                                            [CW_CARDS_SAVE_TEMPLATES] = "%PDF",
                                            [CW_CARDS_SAVE_SVG] = "<?xml" };

      cw_window_say (window, NULL);
      cw_cards_page_wait (page, what, other_file);
      iterate_until (is_telling, window, 30);
      g_assert_true (g_file_get_contents (other, &kept, NULL, NULL));
      g_assert_true (g_ascii_strncasecmp (kept, begins[what], strlen (begins[what])) == 0);
      g_unlink (other);
    }
  cw_window_say (window, NULL);
  missing = g_file_new_for_path (nowhere);
  cw_cards_page_wait (page, CW_CARDS_SAVE, missing);
  iterate_until (is_telling, window, 30);
  g_assert_nonnull (strstr (gtk_label_get_text (GTK_LABEL (window->message)), "could not be written"));
  g_unlink (path);
  g_rmdir (folder);
  close_window (window);
}

int
main (int argc, char *argv[])
{
  if (!window_test_begin (&argc, &argv))
    return 0;
  g_test_add_func ("/app/cards/a-page-of-the-window", test_switch);
  g_test_add_func ("/app/cards/all-words-have-names", test_words_are_there);
  g_test_add_func ("/app/cards/fits-with-large-text", test_large_text);
  g_test_add_func ("/app/cards/pages-follow-choices-and-edits", test_live);
  g_test_add_func ("/app/cards/templates-are-shown", test_templates);
  g_test_add_func ("/app/cards/zoom-and-turn", test_zoom_and_turn);
  g_test_add_func ("/app/cards/words-are-edits", test_words_are_edits);
  g_test_add_func ("/app/cards/words-change-in-place", test_words_in_place);
  g_test_add_func ("/app/cards/steps-move", test_reorder);
  g_test_add_func ("/app/cards/my-tools", test_tools);
  g_test_add_func ("/app/cards/prints-at-true-size", test_print);
  g_test_add_func ("/app/cards/saves-what-is-current", test_save);
  return window_test_end ();
}
