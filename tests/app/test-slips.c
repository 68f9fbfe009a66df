/* test-slips.c: the slips at the side of the table: which lies there, and that a field changes the design and follows
 * it.
 *
 * Checked by a second way: what a field did is read from the design, what the design became is read from the field.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-application.h"
#include "cw-slip.h"
#include "cw-window-private.h"
#include "window-test.h"

static CwWindow *
new_window (CwDocument *document)
{
  CwWindow *window = CW_WINDOW (cw_window_new (application));

  gtk_window_present (GTK_WINDOW (window));
  cw_window_set_document (window, document);
  return window;
}

/* The field of this name in a slip. */
static GtkWidget *
find_field (GtkWidget *widget, const char *name)
{
  g_autofree char *wrong = NULL;
  GtkWidget *found = NULL;

  if (!gtk_widget_get_visible (widget))
    return NULL;
  if (!GTK_IS_LABEL (widget)
      && gtk_test_accessible_has_property (GTK_ACCESSIBLE (widget), GTK_ACCESSIBLE_PROPERTY_LABEL))
    {
      wrong = gtk_test_accessible_check_property (GTK_ACCESSIBLE (widget), GTK_ACCESSIBLE_PROPERTY_LABEL, name);
      if (wrong == NULL)
        return widget;
    }
  if (GTK_IS_BUTTON (widget) && g_strcmp0 (gtk_button_get_label (GTK_BUTTON (widget)), name) == 0)
    return widget;
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL && found == NULL;
       child = gtk_widget_get_next_sibling (child))
    found = find_field (child, name);
  return found;
}

static GtkWidget *
get_field (gpointer slip, const char *name)
{
  GtkWidget *found = find_field (GTK_WIDGET (slip), name);

  g_test_message ("%s", name);
  g_assert_nonnull (found);
  return found;
}

static void
enter (gpointer slip, const char *name, const char *text)
{
  GtkWidget *entry = get_field (slip, name);

  gtk_editable_set_text (GTK_EDITABLE (entry), text);
  g_signal_emit_by_name (entry, "activate");
}

static void
assert_says (gpointer slip, const char *name, const char *text)
{
  g_assert_cmpstr (gtk_editable_get_text (GTK_EDITABLE (get_field (slip, name))), ==, text);
}

static void
press (gpointer slip, const char *name)
{
  g_signal_emit_by_name (get_field (slip, name), "clicked");
}

static void
do_action (CwWindow *window, const char *name, GVariant *target)
{
  g_action_group_activate_action (G_ACTION_GROUP (window), name, target);
}

static gboolean
is_shown (CwWindow *window, const char *slip)
{
  g_autofree char *name = g_strconcat ("show-", slip, NULL);
  g_autoptr (GVariant) state = g_action_group_get_action_state (G_ACTION_GROUP (window), name);

  g_assert_true (g_variant_get_boolean (state) == (g_strcmp0 (window->slip, slip) == 0));
  return g_variant_get_boolean (state);
}

static CwDesign *
design_of (CwDocument *document)
{
  return cw_document_get_design (document);
}

/* One at a time; the findings come back by themselves. */
static void
test_which (void)
{
  g_autoptr (CwDocument) document = blank_document ();
  CwWindow *window = NULL;

  type_measure (document, "score 2 from 1 to 2"); /* there is something to find */
  cw_document_analyse_now (document);
  window = new_window (document);
  g_assert_true (is_shown (window, "findings"));
  do_action (window, "show-pieces", NULL);
  g_assert_true (is_shown (window, "pieces"));
  g_assert_false (is_shown (window, "findings"));
  do_action (window, "show-wants", NULL);
  g_assert_true (is_shown (window, "wants"));
  g_assert_false (is_shown (window, "pieces"));
  type_measure (document, "score 3");
  cw_document_analyse_now (document); /* new findings leave the slip that is being used alone */
  g_assert_true (is_shown (window, "wants"));
  do_action (window, "hide-slip", NULL);
  g_assert_true (is_shown (window, "findings"));
  do_action (window, "hide-slip", NULL);
  g_assert_false (is_shown (window, "findings"));
  do_action (window, "show-step", NULL);
  do_action (window, "show-step", NULL);
  g_assert_null (window->slip);
  close_window (window);
}

static void
test_piece (void)
{
  g_autoptr (CwDocument) document = blank_document ();
  CwWindow *window = new_window (document);
  CwPieceSlip *slip = NULL;
  const CwPiece *piece = NULL;
  const CwPaper *paper = NULL;

  do_action (window, "show-pieces", NULL);
  slip = window->piece_slip;
  assert_says (slip, "Width", "8 1/2 in");
  press (slip, "Add a piece");
  g_assert_cmpuint (design_of (document)->pieces->len, ==, 2);
  g_assert_cmpuint (cw_document_get_piece (document), ==, 1); /* it lies on the table */
  enter (slip, "Name", "Kite");
  enter (slip, "Width", "3");
  enter (slip, "Corners rounded by", "1/4");
  piece = g_ptr_array_index (design_of (document)->pieces, 1);
  g_assert_cmpstr (piece->name, ==, "Kite");
  g_assert_cmpuint (piece->outline.n_vertices, ==, 12);
  assert_says (slip, "Width", "3 in");
  /* what cannot be is refused, and changes nothing */
  enter (slip, "Width", "0");
  g_assert_true (gtk_widget_has_css_class (get_field (slip, "Width"), "error"));
  g_assert_true (piece == g_ptr_array_index (design_of (document)->pieces, 1));
  enter (slip, "Width", "4");
  g_assert_false (gtk_widget_has_css_class (get_field (slip, "Width"), "error"));

  press (slip, "Another paper");
  enter (slip, "Name of the paper", "Thin blue");
  enter (slip, "Weight", "120 g/m2");
  enter (slip, "Thickness", "0.15");
  piece = g_ptr_array_index (design_of (document)->pieces, 1);
  paper = cw_design_get_paper (design_of (document), piece->paper);
  g_assert_cmpstr (paper->name, ==, "Thin blue");
  g_assert_cmpstr (paper->weight, ==, "120 g/m2");
  g_assert_cmpint (paper->caliper.ticks, ==, 48); /* 0.15 mm of 320 ticks */
  gtk_drop_down_set_selected (GTK_DROP_DOWN (get_field (slip, "Grain")), 1);
  paper = cw_design_get_paper (design_of (document), piece->paper);
  g_assert_cmpstr (paper->grain, ==, "x");

  press (slip, "Lay it on the card");
  g_assert_cmpint (((CwStep *) g_ptr_array_index (design_of (document)->steps, 0))->what, ==, CW_DO_STICK);
  press (slip, "Only a guide: take it away again");
  g_assert_true (((CwStep *) g_ptr_array_index (design_of (document)->steps, 0))->tucked);
  /* undo goes all the way back, and the fields with it */
  while (cw_document_undo (document))
    ;
  assert_says (slip, "Width", "8 1/2 in");
  close_window (window);
}

static void
test_wants (void)
{
  g_autoptr (CwDocument) document = blank_document ();
  const CwId panel = { CW_ID_PANEL, 0, 0, 0 };
  CwWindow *window = NULL;
  CwWantSlip *slip = NULL;
  const CwWants *wants = NULL;

  type_measure (document, "score 4 1/4");
  cw_document_analyse_now (document);
  window = new_window (document);
  do_action (window, "show-wants", NULL);
  slip = window->want_slip;
  enter (slip, "Width of the closed card", "4 1/4");
  enter (slip, "Height of the closed card", "5 1/2");
  enter (slip, "Width of the envelope", "4 3/8");
  enter (slip, "Height of the envelope", "5 3/4");
  wants = &design_of (document)->head->wants;
  g_assert_true (wants->has_size && wants->has_envelope);
  g_assert_cmpint (wants->size[0].ticks, ==, 17 * CW_TICKS_PER_INCH / 4);
  g_assert_cmpint (wants->size[1].ticks, ==, 11 * CW_TICKS_PER_INCH / 2);
  g_assert_cmpint (wants->envelope[1].ticks, ==, 23 * CW_TICKS_PER_INCH / 4);
  enter (slip, "Width of the envelope", "");
  g_assert_false (design_of (document)->head->wants.has_envelope);
  assert_says (slip, "Height of the envelope", "");

  /* of a panel, once one is selected */
  g_assert_null (find_field (GTK_WIDGET (slip), "When closed"));
  cw_document_select (document, &panel, 1);
  gtk_drop_down_set_selected (GTK_DROP_DOWN (get_field (slip, "When closed")), 1);
  g_assert_cmpuint (design_of (document)->head->wants.hidden->len, ==, 2); /* from both sides */
  gtk_drop_down_set_selected (GTK_DROP_DOWN (get_field (slip, "When open")), 2);
  wants = &design_of (document)->head->wants;
  g_assert_cmpuint (wants->shown->len, ==, 1);
  g_assert_cmpstr (((CwSightWant *) g_ptr_array_index (wants->shown, 0))->state, ==, "open");
  press (slip, "No longer: Panel 1 of Card base must show in front, when open");
  g_assert_cmpuint (design_of (document)->head->wants.shown->len, ==, 0);
  close_window (window);
}

static const CwStep *
step_of (CwDocument *document)
{
  return g_ptr_array_index (design_of (document)->steps, (guint) cw_document_get_step (document));
}

static void
test_step (void)
{
  g_autoptr (CwDocument) document = blank_document ();
  const CwId score = { CW_ID_MARK, 0, 1, 0 };
  CwWindow *window = NULL;
  CwStepForm *slip = NULL;
  guint n = 0;

  type_measure (document, "score 4 1/4");
  type_measure (document, "score 2");
  cw_document_analyse_now (document);
  window = new_window (document);
  cw_document_set_moment (document, -1, 1);
  n = design_of (document)->steps->len;
  do_action (window, "add-step", g_variant_new_string ("fold"));
  slip = window->step_form;
  g_assert_true (is_shown (window, "step"));
  g_assert_cmpuint (design_of (document)->steps->len, ==, n + 1);
  g_assert_cmpint (cw_document_get_step (document), ==, 0);
  /* a click on a score takes it in */
  gtk_test_widget_wait_for_draw (GTK_WIDGET (window));
  cw_document_select (document, &score, 1);
  g_assert_cmpuint (step_of (document)->folds->len, ==, 1);
  enter (slip, "How far s2 is folded, in degrees", "120");
  g_assert_cmpfloat_with_epsilon (((CwStepFold *) g_ptr_array_index (step_of (document)->folds, 0))->to, 120, 1e-9);
  enter (slip, "How far s2 is folded, in degrees", "a lot");
  g_assert_true (gtk_widget_has_css_class (get_field (slip, "How far s2 is folded, in degrees"), "error"));
  g_assert_cmpfloat_with_epsilon (((CwStepFold *) g_ptr_array_index (step_of (document)->folds, 0))->to, 120, 1e-9);
  /* the panel pulled half way */
  cw_document_set_moment (document, 0, 0.5);
  press (slip, "End this step here");
  g_assert_cmpfloat_with_epsilon (((CwStepFold *) g_ptr_array_index (step_of (document)->folds, 0))->to, 60, 1e-9);
  g_assert_cmpfloat_with_epsilon (cw_document_get_fraction (document), 1, 1e-9);

  enter (slip, "Name of this step", "Raise the flap");
  enter (slip, "Caption", "Gently.");
  enter (slip, "Minutes", "2");
  enter (slip, "Who does it", "a child");
  enter (slip, "Tools", "bone folder, ruler");
  enter (slip, "Waiting", "until it is dry");
  enter (slip, "Take care", "The edge is sharp.");
  g_assert_cmpstr (step_of (document)->title, ==, "Raise the flap");
  g_assert_cmpstr (step_of (document)->caption, ==, "Gently.");
  g_assert_cmpint (json_object_get_int_member (step_of (document)->extra, "minutes"), ==, 2);
  gtk_drop_down_set_selected (GTK_DROP_DOWN (get_field (slip, "How the card lies then")), 4);
  g_assert_cmpstr (step_of (document)->rest, ==, "standing");
  /* the slip follows the moment */
  cw_document_set_moment (document, 1, 1);
  assert_says (slip, "Name of this step", "Fold the card shut");
  cw_document_set_moment (document, 0, 1);
  assert_says (slip, "Name of this step", "Raise the flap");
  assert_says (slip, "Tools", "bone folder, ruler");
  /* the other kinds */
  for (CwDo what = CW_DO_CUT; what <= CW_DO_DECORATE; what++)
    if (what != CW_DO_STICK && what != CW_DO_TAKE_AWAY && what != CW_DO_GLUE)
      {
        n = design_of (document)->steps->len;
        do_action (window, "add-step", g_variant_new_string (cw_do_get_key (what)));
        g_assert_cmpuint (design_of (document)->steps->len, ==, n + 1);
        g_assert_cmpint (step_of (document)->what, ==, what);
      }
  close_window (window);
}

int
main (int argc, char *argv[])
{
  if (!window_test_begin (&argc, &argv))
    return 0;
  g_test_add_func ("/app/slips/one-lies-there-at-a-time", test_which);
  g_test_add_func ("/app/slips/piece-and-paper", test_piece);
  g_test_add_func ("/app/slips/wants-by-clicking", test_wants);
  g_test_add_func ("/app/slips/step-of-every-kind", test_step);
  return window_test_end ();
}
