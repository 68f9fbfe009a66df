/* test-show.c: the steps one at a time over the whole screen.
 *
 * Keys go through the same actions as the buttons; every control has a name and the step is told as words (WCAG 2.2,
 * 1.1.1 and 4.1.2).
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-page-show.h"
#include "cw-show.h"
#include "window-test.h"

static CwAnalysis *
analyse (const char *name)
{
  g_autoptr (GFile) file = g_file_new_build_filename (g_getenv ("CREASEWRIGHT_DATA"), "samples", name, NULL);
  g_autoptr (CwDesign) design = cw_design_load (file, NULL);

  g_assert_nonnull (design);
  return cw_analysis_new (design);
}

static GtkWidget *
find_role (GtkWidget *widget, GtkAccessibleRole role)
{
  if (gtk_accessible_get_accessible_role (GTK_ACCESSIBLE (widget)) == role && GTK_IS_DRAWING_AREA (widget))
    return widget;
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    {
      GtkWidget *found = find_role (child, role);

      if (found != NULL)
        return found;
    }
  return NULL;
}

static void
check_told (CwShow *show, const CwStepCard *card, guint index)
{
  GtkWidget *page = find_role (GTK_WIDGET (show), GTK_ACCESSIBLE_ROLE_IMG);
  g_autofree char *words = cw_show_dup_words (card, index);
  const CwCardStep *step = cw_show_get_step (card, index);

  g_assert_cmpuint (cw_show_get_index (show), ==, index);
  g_assert_nonnull (page);
  gtk_test_accessible_assert_property (page, GTK_ACCESSIBLE_PROPERTY_LABEL, words);
  g_assert_nonnull (strstr (words, step->title));
}

static void
test_keys (void)
{
  g_autoptr (CwAnalysis) analysis = analyse ("corner-flip.creasecard");
  g_autoptr (CwStepCard) card = cw_step_card_new (analysis, &cw_step_card_usual);
  GtkWidget *show = cw_show_new (NULL, analysis, G_MAXUINT);
  guint n = cw_show_get_n_steps (card);

  g_object_add_weak_pointer (G_OBJECT (show), (gpointer *) &show);
  gtk_window_present (GTK_WINDOW (show));
  gtk_test_widget_wait_for_draw (show);
  g_assert_true (gtk_window_is_fullscreen (GTK_WINDOW (show)));
  check_told (CW_SHOW (show), card, 0);
  gtk_widget_activate_action (show, "show.back", NULL);
  check_told (CW_SHOW (show), card, 0);
  gtk_widget_activate_action (show, "show.next", NULL);
  gtk_test_widget_wait_for_draw (show);
  check_told (CW_SHOW (show), card, 1);
  gtk_widget_activate_action (show, "show.last", NULL);
  gtk_test_widget_wait_for_draw (show);
  check_told (CW_SHOW (show), card, n - 1);
  gtk_widget_activate_action (show, "show.next", NULL);
  check_told (CW_SHOW (show), card, n - 1);
  gtk_widget_activate_action (show, "show.back", NULL);
  check_told (CW_SHOW (show), card, n - 2);
  gtk_widget_activate_action (show, "show.first", NULL);
  check_told (CW_SHOW (show), card, 0);
  g_assert_false (cw_show_is_turned (CW_SHOW (show)));
  gtk_widget_activate_action (show, "show.turn", NULL);
  gtk_test_widget_wait_for_draw (show);
  g_assert_true (cw_show_is_turned (CW_SHOW (show)));
  gtk_widget_activate_action (show, "show.turn", NULL);
  g_assert_false (cw_show_is_turned (CW_SHOW (show)));
  gtk_widget_activate_action (show, "show.leave", NULL);
  while (g_main_context_iteration (NULL, FALSE))
    ;
  g_assert_null (show);
}

static void
test_begins (void)
{
  g_autoptr (CwAnalysis) analysis = analyse ("corner-flip.creasecard");
  g_autoptr (CwStepCard) card = cw_step_card_new (analysis, &cw_step_card_usual);
  GtkWidget *show = cw_show_new (NULL, analysis, 2);

  check_told (CW_SHOW (show), card, cw_show_find_step (card, 2));
  g_assert_cmpuint (cw_show_get_index (CW_SHOW (show)), >, 0);
  gtk_window_destroy (GTK_WINDOW (show));
}

int
main (int argc, char *argv[])
{
  if (!window_test_init (&argc, &argv))
    return 0;
  g_test_add_func ("/app/show/keys", test_keys);
  g_test_add_func ("/app/show/begins-with-the-step-at-hand", test_begins);
  return g_test_run ();
}
