/* cw-window-actions.c: everything that can be done in the window, as actions, and when it can be done.
 *
 * Keys that a text entry has a use for itself (undo, redo, Page Up and so on) are no application accelerators, because
 * those win over the entry: they are shortcuts of the window in the bubble phase, which get only what the focused
 * widget leaves. So Ctrl+Z in an entry takes back typing and, when there is none, the last edit.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "cw-show.h"
#include "cw-window-private.h"

#include <glib/gi18n-lib.h>

/**
 * cw_window_action_is_enabled:
 * @name: name of one of the window's actions
 * @state: the facts
 *
 * Returns: TRUE if it can be used
 */
gboolean
cw_window_action_is_enabled (const char *name, const CwWindowState *state)
{
  g_return_val_if_fail (name != NULL && state != NULL, FALSE);

  if (g_str_equal (name, "answer"))
    return state->asking;
  if (g_str_equal (name, "open") || g_str_equal (name, "open-sample"))
    return !state->busy;
  if (g_str_equal (name, "start"))
    return state->has_document && !state->busy;
  if (g_str_equal (name, "save"))
    return state->has_document && !state->busy && (!state->is_saved || !state->has_file);
  if (g_str_equal (name, "save-as"))
    return state->has_document && !state->busy;
  if (g_str_equal (name, "undo"))
    return state->can_undo;
  if (g_str_equal (name, "redo"))
    return state->can_redo;
  if (g_str_equal (name, "play") || g_str_equal (name, "show"))
    return state->n_steps > 0;
  if (g_str_equal (name, "step-previous"))
    return state->n_steps > 0 && state->step >= 0;
  if (g_str_equal (name, "step-next"))
    return state->n_steps > 0 && state->step < (int) state->n_steps;
  if (g_str_equal (name, "change-step"))
    return state->n_steps > 0 && state->step >= 0;
  if (g_str_equal (name, "slow") || g_str_has_prefix (name, "show-") || g_str_equal (name, "hide-slip")
      || g_str_equal (name, "add-step") || g_str_equal (name, "measure") || g_str_equal (name, "page")
      || g_str_equal (name, "print"))
    return state->has_document;
  return TRUE;
}

/* --- what they do ------------------------------------------------------------------------------------------------ */

static void
do_start (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  cw_window_guard (data, CW_PENDING_START, NULL);
}

static void
do_open (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  cw_window_choose_open (data);
}

static void
do_save (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  cw_window_save (data, FALSE);
}

static void
do_save_as (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  cw_window_save (data, TRUE);
}

static void
do_undo (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  cw_document_undo (CW_WINDOW (data)->document);
}

static void
do_redo (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  cw_document_redo (CW_WINDOW (data)->document);
}

static void
do_play (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  CwPlayer *player = cw_step_strip_get_player (CW_WINDOW (data)->steps);

  if (cw_player_is_playing (player))
    cw_player_pause (player);
  else
    cw_player_play (player);
}

static void
do_slow (GSimpleAction *action, GVariant *value, gpointer data)
{
  g_simple_action_set_state (action, value);
  cw_player_set_slow (cw_step_strip_get_player (CW_WINDOW (data)->steps), g_variant_get_boolean (value));
}

static gboolean
is_on_cards (CwWindow *self)
{
  return g_strcmp0 (gtk_stack_get_visible_child_name (GTK_STACK (self->stack)), "cards") == 0;
}

static void
do_page (GSimpleAction *action, GVariant *value, gpointer data)
{
  CwWindow *self = data;
  const char *name = g_variant_get_string (value, NULL);
  gboolean cards = g_str_equal (name, "cards");

  if (cards == is_on_cards (self))
    return;
  cw_window_show_page (self, name);
  gtk_widget_grab_focus (cards ? GTK_WIDGET (self->cards) : GTK_WIDGET (self->table));
}

static void
do_print (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  CwWindow *self = data;

  cw_window_show_page (self, "cards");
  cw_cards_page_print (self->cards);
}

/* From the middle of a step, "back" goes to its beginning: the end of the one before. */
static void
do_step_previous (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  CwWindow *self = data;

  if (is_on_cards (self))
    {
      cw_cards_page_turn (self->cards, -1);
      return;
    }
  cw_player_go_by (cw_step_strip_get_player (self->steps), -1);
}

static void
do_step_next (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  CwWindow *self = data;

  if (is_on_cards (self))
    {
      cw_cards_page_turn (self->cards, 1);
      return;
    }
  cw_player_go_by (cw_step_strip_get_player (self->steps), 1);
}

static void
do_show_slip (GSimpleAction *action, GVariant *value, gpointer data)
{
  cw_window_change_slip (data, g_action_get_name (G_ACTION (action)), g_variant_get_boolean (value));
}

static void
do_hide_slip (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  cw_window_hide_slip (data);
}

static void
do_change_step (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  CwWindow *self = data;

  cw_window_show_page (self, "table");
  cw_window_show_slip (self, "step");
  cw_step_form_rename (self->step_form);
}

static void
do_add_step (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  CwWindow *self = data;

  if (!cw_step_strip_add (self->steps, g_variant_get_string (parameter, NULL)))
    return;
  cw_window_show_slip (self, "step");
  cw_step_form_set_choosing (self->step_form, TRUE);
}

static void
do_measure (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  cw_window_show_page (data, "table");
  gtk_widget_grab_focus (GTK_WIDGET (CW_WINDOW (data)->measure_entry));
}

static void
do_show (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  CwWindow *self = data;
  CwAnalysis *analysis = cw_document_get_analysis (self->document);
  int step = cw_document_get_step (self->document);

  if (analysis == NULL)
    {
      cw_window_say (self, _ ("The card is still being looked at: one moment."));
      return;
    }
  gtk_window_present (GTK_WINDOW (cw_show_new (GTK_WINDOW (self), analysis, step < 0 ? G_MAXUINT : (guint) step)));
}

static void
do_answer (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  cw_window_answer (data, g_variant_get_string (parameter, NULL));
}

static const GActionEntry entries[] = {
  { .name = "start", .activate = do_start },
  { .name = "open", .activate = do_open },
  { .name = "save", .activate = do_save },
  { .name = "save-as", .activate = do_save_as },
  { .name = "undo", .activate = do_undo },
  { .name = "redo", .activate = do_redo },
  { .name = "play", .activate = do_play },
  { .name = "slow", .state = "false", .change_state = do_slow },
  { .name = "step-previous", .activate = do_step_previous },
  { .name = "step-next", .activate = do_step_next },
  { .name = "show-findings", .state = "false", .change_state = do_show_slip },
  { .name = "show-pieces", .state = "false", .change_state = do_show_slip },
  { .name = "show-wants", .state = "false", .change_state = do_show_slip },
  { .name = "show-step", .state = "false", .change_state = do_show_slip },
  { .name = "hide-slip", .activate = do_hide_slip },
  { .name = "add-step", .activate = do_add_step, .parameter_type = "s" },
  { .name = "change-step", .activate = do_change_step },
  { .name = "measure", .activate = do_measure },
  { .name = "show", .activate = do_show },
  { .name = "page", .parameter_type = "s", .state = "'table'", .change_state = do_page },
  { .name = "print", .activate = do_print },
  { .name = "answer", .activate = do_answer, .parameter_type = "s" },
};

/* Keys that the focused widget may use first. */
static const struct
{
  guint key;
  GdkModifierType mods;
  const char *action;
} shortcuts[] = {
  { GDK_KEY_z, GDK_CONTROL_MASK, "win.undo" },
  { GDK_KEY_z, GDK_CONTROL_MASK | GDK_SHIFT_MASK, "win.redo" },
  { GDK_KEY_y, GDK_CONTROL_MASK, "win.redo" },
  { GDK_KEY_F5, 0, "win.play" },
  { GDK_KEY_F11, 0, "win.show" },
  { GDK_KEY_Page_Up, 0, "win.step-previous" },
  { GDK_KEY_Page_Down, 0, "win.step-next" },
  { GDK_KEY_Escape, 0, "win.answer('')" },
};

/* Reads the facts and sets every action by them. */
void
cw_window_update_actions (CwWindow *self)
{
  CwWindowState state = { 0 };

  state.busy = self->busy;
  state.asking = self->ask != CW_ASK_NOTHING;
  if (self->document != NULL)
    {
      state.has_document = TRUE;
      state.has_file = cw_document_get_file (self->document) != NULL;
      state.is_saved = cw_document_is_saved (self->document);
      state.can_undo = cw_document_get_undo_name (self->document) != NULL;
      state.can_redo = cw_document_get_redo_name (self->document) != NULL;
      state.step = cw_document_get_step (self->document);
      state.n_steps = cw_document_get_design (self->document)->steps->len;
      if (state.step == (int) state.n_steps - 1 && !(cw_document_get_fraction (self->document) < 1))
        state.step = (int) state.n_steps; /* at the very end */
    }
  for (guint i = 0; i < G_N_ELEMENTS (entries); i++)
    g_simple_action_set_enabled (G_SIMPLE_ACTION (g_action_map_lookup_action (G_ACTION_MAP (self), entries[i].name)),
                                 cw_window_action_is_enabled (entries[i].name, &state));
}

/* Adds the actions and their keys. */
void
cw_window_add_actions (CwWindow *self)
{
  GtkEventController *keys = gtk_shortcut_controller_new ();

  g_action_map_add_action_entries (G_ACTION_MAP (self), entries, G_N_ELEMENTS (entries), self);
  for (guint i = 0; i < G_N_ELEMENTS (shortcuts); i++)
    {
      g_autofree char *name = NULL;
      g_autoptr (GVariant) target = NULL;
      GtkShortcut *shortcut = NULL;

      g_action_parse_detailed_name (shortcuts[i].action, &name, &target, NULL);
      shortcut
        = gtk_shortcut_new (gtk_keyval_trigger_new (shortcuts[i].key, shortcuts[i].mods), gtk_named_action_new (name));
      gtk_shortcut_set_arguments (shortcut, target);
      gtk_shortcut_controller_add_shortcut (GTK_SHORTCUT_CONTROLLER (keys), shortcut);
    }
  gtk_widget_add_controller (GTK_WIDGET (self), keys);
  self->wants_findings = self->settings == NULL || g_settings_get_boolean (self->settings, "show-findings");
  cw_window_reveal_findings (self, FALSE); /* until there is something to tell */
}
