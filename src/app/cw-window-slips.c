/* cw-window-slips.c: the slips of paper at the side of the table: findings, pieces, wants, a step. One lies there at a
 * time, or none; the one with the findings comes back when another is folded away.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "cw-window-private.h"

#define SHOW "show-"

static const char *const slips[] = { "findings", "pieces", "wants", "step" };

static gboolean
has_findings (CwWindow *self)
{
  CwAnalysis *analysis = self->document != NULL ? cw_document_get_analysis (self->document) : NULL;

  return analysis != NULL && analysis->findings->len > 0;
}

/* Those that have been made show the design that is open. */
void
cw_window_show_document_on_slips (CwWindow *self)
{
  if (self->step_form != NULL)
    cw_step_form_set_document (self->step_form, self->document);
  if (self->piece_slip != NULL)
    cw_piece_slip_set_document (self->piece_slip, self->document);
  if (self->want_slip != NULL)
    cw_want_slip_set_document (self->want_slip, self->document);
}

/* A slip is made when it is first shown. */
static void
make_slip (CwWindow *self, const char *name)
{
  GtkWidget *slip = NULL;

  if (gtk_stack_get_child_by_name (GTK_STACK (self->slips), name) != NULL)
    return;
  if (g_str_equal (name, "pieces"))
    slip = GTK_WIDGET (self->piece_slip = g_object_new (CW_TYPE_PIECE_SLIP, NULL));
  else if (g_str_equal (name, "wants"))
    slip = GTK_WIDGET (self->want_slip = g_object_new (CW_TYPE_WANT_SLIP, NULL));
  else
    slip = GTK_WIDGET (self->step_form = g_object_new (CW_TYPE_STEP_FORM, NULL));
  gtk_stack_add_named (GTK_STACK (self->slips), slip, name);
  cw_window_show_document_on_slips (self);
}

/* Lays a slip on the table in place of any other; NULL: none. */
void
cw_window_show_slip (CwWindow *self, const char *name)
{
  self->slip = NULL;
  for (guint i = 0; i < G_N_ELEMENTS (slips); i++)
    {
      g_autofree char *action_name = g_strconcat (SHOW, slips[i], NULL);
      GAction *action = g_action_map_lookup_action (G_ACTION_MAP (self), action_name);
      gboolean shown = g_strcmp0 (name, slips[i]) == 0;

      if (shown)
        self->slip = slips[i];
      if (action != NULL)
        g_simple_action_set_state (G_SIMPLE_ACTION (action), g_variant_new_boolean (shown));
    }
  if (self->slip != NULL)
    make_slip (self, self->slip);
  if (self->slip != NULL)
    gtk_stack_set_visible_child_name (GTK_STACK (self->slips), self->slip);
  gtk_revealer_set_reveal_child (GTK_REVEALER (self->findings_revealer), self->slip != NULL);
  gtk_widget_set_visible (self->findings_revealer, self->slip != NULL); /* folded away it leaves the table its room */
}

/* Folds the slip with the findings out or away, without taking it for the maker's wish, and leaves any other alone. */
void
cw_window_reveal_findings (CwWindow *self, gboolean reveal)
{
  if (self->slip == NULL || g_str_equal (self->slip, "findings"))
    cw_window_show_slip (self, reveal ? "findings" : NULL);
}

static void
fold_away (CwWindow *self)
{
  gboolean findings = g_strcmp0 (self->slip, "findings") != 0 && self->wants_findings && has_findings (self);

  cw_window_show_slip (self, findings ? "findings" : NULL);
}

/* The state of one of the actions that show a slip. */
void
cw_window_change_slip (CwWindow *self, const char *action, gboolean show)
{
  const char *name = action + strlen (SHOW);
  gboolean findings = g_str_equal (name, "findings");

  if (show)
    cw_window_show_page (self, "table");
  if (findings)
    {
      self->wants_findings = show;
      if (self->settings != NULL)
        g_settings_set_boolean (self->settings, "show-findings", show);
    }
  if (show)
    cw_window_show_slip (self, name);
  else if (g_strcmp0 (self->slip, name) == 0)
    fold_away (self);
  if (show && !findings)
    gtk_widget_child_focus (gtk_widget_get_last_child (gtk_stack_get_visible_child (GTK_STACK (self->slips))),
                            GTK_DIR_TAB_FORWARD); /* the fields, not the button that folds it away */
}

/* Folds away whatever slip lies there. */
void
cw_window_hide_slip (CwWindow *self)
{
  if (self->slip == NULL)
    return;
  if (g_str_equal (self->slip, "findings"))
    {
      cw_window_change_slip (self, "show-findings", FALSE);
      gtk_widget_grab_focus (self->findings_button);
      return;
    }
  fold_away (self);
  gtk_widget_grab_focus (GTK_WIDGET (self->table));
}
