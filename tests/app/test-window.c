/* test-window.c: the window as a whole, built from its templates.
 *
 * Every control has a name for a screen reader (WCAG 2.2, 4.1.2 Name, Role, Value) and none of the large targets is
 * under 24 pixels (WCAG 2.2, 2.5.8 Target Size (Minimum): 24 by 24 CSS pixels).
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-application.h"
#include "cw-config.h"
#include "cw-window-private.h"
#include "window-test.h"

#include <glib/gstdio.h>

#define TARGET_LEAST 24

static CwWindow *
new_window (void)
{
  CwWindow *window = CW_WINDOW (cw_window_new (application));

  gtk_window_present (GTK_WINDOW (window));
  return window;
}

static gboolean
is_analysed (gpointer document)
{
  return cw_document_is_analysed (document);
}

static gboolean
has_document (gpointer window)
{
  return cw_window_get_document (window) != NULL;
}

static gboolean
is_telling (gpointer data)
{
  CwWindow *window = data;

  return gtk_revealer_get_reveal_child (GTK_REVEALER (window->message_revealer));
}

static GFile *
sample (const char *name)
{
  return g_file_new_build_filename (g_getenv ("CREASEWRIGHT_DATA"), "samples", name, NULL);
}

static gboolean
is_enabled (CwWindow *window, const char *action)
{
  return g_action_group_get_action_enabled (G_ACTION_GROUP (window), action);
}

/* --- names and sizes --------------------------------------------------------------------------------------------- */

static gboolean
has_words (GtkWidget *widget)
{
  if (GTK_IS_LABEL (widget) && *gtk_label_get_text (GTK_LABEL (widget)) != '\0')
    return TRUE;
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    if (has_words (child))
      return TRUE;
  return FALSE;
}

static gboolean
has_name (GtkWidget *widget)
{
  GtkAccessible *accessible = GTK_ACCESSIBLE (widget);

  if (gtk_test_accessible_has_property (accessible, GTK_ACCESSIBLE_PROPERTY_LABEL)
      || gtk_test_accessible_has_relation (accessible, GTK_ACCESSIBLE_RELATION_LABELLED_BY))
    return TRUE;
  return GTK_IS_BUTTON (widget) && has_words (widget);
}

/* What a person can put the focus on; the text inside an entry is named by the entry, the button inside a menu button
 * by the menu button, the row that a list to choose from shows by the list. */
static gboolean
is_control (GtkWidget *widget)
{
  GtkWidget *parent = gtk_widget_get_parent (widget);

  if (GTK_IS_DROP_DOWN (widget))
    return TRUE;
  if (gtk_widget_get_ancestor (widget, GTK_TYPE_DROP_DOWN) != NULL)
    return FALSE;
  if (GTK_IS_TEXT (widget) || GTK_IS_MENU_BUTTON (parent) || GTK_IS_WINDOW (widget) || GTK_IS_POPOVER (widget)
      || GTK_IS_WINDOW_CONTROLS (parent))
    return FALSE;
  return GTK_IS_ENTRY (widget) || GTK_IS_MENU_BUTTON (widget) || gtk_widget_get_focusable (widget);
}

static void
check_controls (GtkWidget *widget, guint *n)
{
  if (!gtk_widget_get_visible (widget))
    return;
  if (is_control (widget))
    {
      (*n)++;
      if (!has_name (widget))
        {
          g_test_message ("no name: %s in %s", G_OBJECT_TYPE_NAME (widget),
                          G_OBJECT_TYPE_NAME (gtk_widget_get_parent (widget)));
          g_test_fail ();
        }
      if (GTK_IS_BUTTON (widget) && gtk_widget_get_mapped (widget)
          && (gtk_widget_get_width (widget) < TARGET_LEAST || gtk_widget_get_height (widget) < TARGET_LEAST))
        {
          g_test_message ("small: %s %dx%d", G_OBJECT_TYPE_NAME (widget), gtk_widget_get_width (widget),
                          gtk_widget_get_height (widget));
          g_test_fail ();
        }
    }
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    check_controls (child, n);
}

static void
test_names (void)
{
  CwWindow *window = new_window ();
  g_autoptr (CwDocument) document = blank_document ();
  const CwId id = { CW_ID_MARK, 0, 0, 0 };
  guint n_start = 0, n_table = 0;

  gtk_test_widget_wait_for_draw (GTK_WIDGET (window));
  check_controls (GTK_WIDGET (window), &n_start);
  g_assert_cmpuint (n_start, >, 10);

  type_measure (document, "score 4 1/4");
  type_measure (document, "score 2 from 1 to 2"); /* a score that stops short: there is something to find */
  cw_document_analyse_now (document);
  g_assert_cmpuint (cw_document_get_analysis (document)->findings->len, >, 0);
  cw_window_set_document (window, document);
  cw_document_select (document, &id, 1);
  gtk_test_widget_wait_for_draw (GTK_WIDGET (window));
  check_controls (GTK_WIDGET (window), &n_table);
  g_assert_cmpuint (n_table, >, 30);
  close_window (window);
}

/* --- files ------------------------------------------------------------------------------------------------------- */

static void
test_open_sample (void)
{
  CwWindow *window = new_window ();
  g_autoptr (GFile) file = sample ("half-fold.creasecard");

  g_assert_null (cw_window_get_document (window));
  g_assert_false (is_enabled (window, "play"));
  cw_window_open (window, file);
  g_assert_false (is_enabled (window, "open"));
  iterate_until (has_document, window, 20);
  iterate_until (is_analysed, cw_window_get_document (window), 20);
  g_assert_true (is_enabled (window, "play"));
  g_assert_false (is_enabled (window, "save"));
  g_assert_nonnull (strstr (gtk_window_get_title (GTK_WINDOW (window)), "Lighthouse note"));
  close_window (window);
}

/* A file that is no design is told in one sentence, and the open design stays. */
static void
test_wrong_file (void)
{
  CwWindow *window = new_window ();
  g_autoptr (CwDocument) document = blank_document ();
  g_autofree char *path = NULL;
  g_autoptr (GFile) file = NULL;
  int fd = g_file_open_tmp ("creasewright-XXXXXX.creasecard", &path, NULL);

  g_assert_cmpint (fd, >=, 0);
  g_assert_true (g_close (fd, NULL));
  g_assert_true (g_file_set_contents (path, "{ \"format\": \"shopping list\" }", -1, NULL));
  file = g_file_new_for_path (path);
  cw_window_set_document (window, document);
  cw_window_open (window, file);
  iterate_until (is_telling, window, 20);
  g_assert_true (cw_window_get_document (window) == document);
  g_assert_nonnull (strstr (gtk_label_get_text (GTK_LABEL (window->message)), "could not be opened"));
  g_assert_true (is_enabled (window, "open"));
  g_unlink (path);
  close_window (window);
}

static gboolean
is_asking (CwWindow *window)
{
  return window->ask != CW_ASK_NOTHING;
}

static void
test_guard (void)
{
  CwWindow *window = new_window ();
  g_autoptr (CwDocument) document = blank_document ();
  g_autofree char *folder = g_dir_make_tmp ("creasewright-XXXXXX", NULL), *path = NULL;
  g_autoptr (GFile) file = NULL;

  path = g_build_filename (folder, "boat.creasecard", NULL);
  file = g_file_new_for_path (path);
  g_assert_true (cw_document_save (document, file, NULL));
  cw_window_set_document (window, document);
  type_measure (document, "score 4 1/4");

  gtk_window_close (GTK_WINDOW (window));
  g_assert_true (is_asking (window));
  g_assert_true (is_enabled (window, "answer"));
  g_action_group_activate_action (G_ACTION_GROUP (window), "answer", g_variant_new_string ("cancel"));
  g_assert_false (is_asking (window));
  g_assert_true (cw_window_get_document (window) == document);
  g_assert_false (is_enabled (window, "answer"));

  /* "save first" writes and then does what was asked for */
  g_action_group_activate_action (G_ACTION_GROUP (window), "start", NULL);
  g_assert_true (is_asking (window));
  g_action_group_activate_action (G_ACTION_GROUP (window), "answer", g_variant_new_string ("save"));
  for (guint i = 0; i < 5000 && cw_window_get_document (window) != NULL; i++)
    {
      while (g_main_context_iteration (NULL, FALSE))
        ;
      g_usleep (1000);
    }
  g_assert_null (cw_window_get_document (window));
  g_assert_true (cw_document_is_saved (document));
  {
    g_autoptr (CwDesign) written = cw_design_load (file, NULL);

    g_assert_cmpuint (((CwPiece *) g_ptr_array_index (written->pieces, 0))->marks->len, ==, 1);
  }
  g_unlink (path);
  g_rmdir (folder);
  close_window (window);
}

/* --- the parts -----------------------------------------------------------------------------------------------------
 */

static void
count_cards (GtkWidget *widget, guint *n)
{
  if (g_str_equal (G_OBJECT_TYPE_NAME (widget), "CwStepSlip"))
    (*n)++;
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    count_cards (child, n);
}

/* One card for each step, and one for the flat sheet; after every edit and undo. */
static void
test_steps (void)
{
  CwWindow *window = new_window ();
  g_autoptr (CwDocument) document = blank_document ();
  const char *const lines[] = { "score 4 1/4", "score 2", "cut 1 from 1 to 3", NULL };

  cw_window_set_document (window, document);
  for (guint i = 0; lines[i] != NULL; i++)
    {
      guint n = 0;

      type_measure (document, lines[i]);
      count_cards (GTK_WIDGET (window->steps), &n);
      g_assert_cmpuint (n, ==, cw_document_get_design (document)->steps->len + 1);
    }
  while (cw_document_undo (document))
    {
      guint n = 0;

      count_cards (GTK_WIDGET (window->steps), &n);
      g_assert_cmpuint (n, ==, cw_document_get_design (document)->steps->len + 1);
    }
  close_window (window);
}

/* "Show me" brings the finding's own mark into the selection. */
static void
test_show_finding (void)
{
  CwWindow *window = new_window ();
  g_autoptr (CwDocument) document = blank_document ();
  CwFinding *finding = NULL;
  const CwId *ids = NULL;
  guint n = 0;

  type_measure (document, "score 2 from 1 to 2");
  cw_document_analyse_now (document);
  cw_window_set_document (window, document);
  finding = g_ptr_array_index (cw_document_get_analysis (document)->findings, 0);
  g_assert_cmpint (finding->code, ==, CW_FINDING_SCORE_STOPS_SHORT);
  cw_finding_list_show (window->findings, 0);
  ids = cw_document_get_selection (document, &n);
  g_assert_cmpuint (n, >=, 1);
  g_assert_cmpint (ids[0].kind, ==, CW_ID_MARK);
  close_window (window);
}

static GtkWidget *
find_tip (GtkWidget *widget, const char *part)
{
  const char *tip = gtk_widget_get_tooltip_text (widget);
  GtkWidget *found = GTK_IS_BUTTON (widget) && tip != NULL && strstr (tip, part) != NULL ? widget : NULL;

  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL && found == NULL;
       child = gtk_widget_get_next_sibling (child))
    found = find_tip (child, part);
  return found;
}

static gboolean
is_offering (gpointer window)
{
  return find_tip (GTK_WIDGET (((CwWindow *) window)->findings), "Make the score") != NULL;
}

/* "Do it" says what it will do, clears the finding, is one edit that undo takes back to the same bytes, and does
 * nothing once the design is another. */
static void
test_do_it (void)
{
  CwWindow *window = new_window ();
  g_autoptr (CwDocument) document = blank_document ();
  g_autoptr (GtkWidget) button = NULL;
  g_autofree char *old_text = NULL, *back_text = NULL, *label = NULL, *later = NULL, *latest = NULL;

  type_measure (document, "score 2 from 1 to 2");
  cw_document_analyse_now (document);
  old_text = cw_design_to_text (cw_document_get_design (document), NULL);
  cw_window_set_document (window, document);
  for (GtkWidget *w = GTK_WIDGET (window->findings); w != NULL; w = gtk_widget_get_parent (w))
    {
      gtk_widget_set_visible (w, TRUE);
      if (GTK_IS_REVEALER (w))
        gtk_revealer_set_reveal_child (GTK_REVEALER (w), TRUE);
    }
  iterate_until (is_offering, window, 30);
  button = g_object_ref (find_tip (GTK_WIDGET (window->findings), "Make the score"));
  label = g_strdup_printf ("Do it: %s", gtk_widget_get_tooltip_text (button));
  gtk_test_accessible_assert_property (button, GTK_ACCESSIBLE_PROPERTY_LABEL, label);

  g_signal_emit_by_name (button, "clicked");
  g_assert_cmpstr (cw_document_get_undo_name (document), !=, "add marks");
  later = cw_design_to_text (cw_document_get_design (document), NULL);
  g_assert_cmpstr (later, !=, old_text);
  g_signal_emit_by_name (button, "clicked");
  latest = cw_design_to_text (cw_document_get_design (document), NULL);
  g_assert_cmpstr (latest, ==, later);
  cw_document_analyse_now (document);
  for (guint i = 0; i < cw_document_get_analysis (document)->findings->len; i++)
    g_assert_cmpint (((CwFinding *) cw_document_get_analysis (document)->findings->pdata[i])->code, !=,
                     CW_FINDING_SCORE_STOPS_SHORT);
  g_assert_true (cw_document_undo (document));
  g_assert_cmpstr (cw_document_get_undo_name (document), ==, "add marks");
  back_text = cw_design_to_text (cw_document_get_design (document), NULL);
  g_assert_cmpstr (back_text, ==, old_text);
  close_window (window);
}

int
main (int argc, char *argv[])
{
  if (!window_test_begin (&argc, &argv))
    return 0;
  g_test_add_func ("/app/window/every-control-has-a-name-and-a-size", test_names);
  g_test_add_func ("/app/window/opens-a-sample", test_open_sample);
  g_test_add_func ("/app/window/a-wrong-file-changes-nothing", test_wrong_file);
  g_test_add_func ("/app/window/unsaved-changes-are-asked-about", test_guard);
  g_test_add_func ("/app/window/a-card-for-every-step", test_steps);
  g_test_add_func ("/app/window/show-me-selects-the-mark", test_show_finding);
  g_test_add_func ("/app/window/do-it-mends-the-finding", test_do_it);
  return window_test_end ();
}
