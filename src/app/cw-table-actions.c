/* cw-table-actions.c: everything a maker can do on the table as actions, and their keys.
 *
 * Whether an action can be used is decided in one function, cw_table_update_actions(). Those that change the design are
 * in cw-table-edits.c.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "cw-table-item.h"
#include "cw-table-private.h"

#include <string.h>

#define ZOOM_STEP 1.25
/* Two letters typed within this time are a word, not two keys. Microseconds. */
#define WORD_TIME (900 * 1000)

/* ---- The table ---- */

static void
change_tool (GSimpleAction *action, GVariant *value, gpointer data)
{
  for (CwTool tool = 0; tool < CW_N_TOOLS; tool++)
    if (g_str_equal (cw_tool_get_name (tool), g_variant_get_string (value, NULL)))
      cw_table_set_tool (data, tool);
}

static void
change_form (GSimpleAction *action, GVariant *value, gpointer data)
{
  for (CwForm form = 0; form < CW_N_FORMS; form++)
    if (g_str_equal (cw_form_get_name (form), g_variant_get_string (value, NULL)))
      cw_table_set_form (data, form);
}

/* Measures from the right and the bottom edge, or from the guide and the ruler again. */
static void
other_edge (GSimpleAction *action, GVariant *value, gpointer data)
{
  CwTable *self = data;

  if (self->document == NULL)
    return;
  g_simple_action_set_state (action, value);
  cw_document_set_far (self->document, g_variant_get_boolean (value));
}

static void
next_form (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  cw_table_next_form (data);
}

static void
change_share (GSimpleAction *action, GVariant *value, gpointer data)
{
  const char *wish = g_variant_get_string (value, NULL);

  g_simple_action_set_state (action, value);
  cw_table_set_share (data, g_str_equal (wish, "sheet")  ? CW_SHARE_SHEET
                            : g_str_equal (wish, "card") ? CW_SHARE_CARD
                                                         : CW_SHARE_BOTH);
}

/* The same again gives the even parts back: one button each. */
static void
bigger (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  CwTable *self = data;
  const char *wish = g_variant_get_string (parameter, NULL);
  CwShare share = g_str_equal (wish, "card") ? CW_SHARE_CARD : CW_SHARE_SHEET;

  g_action_group_change_action_state (G_ACTION_GROUP (self->actions), "share",
                                      g_variant_new_string (self->share == share ? "both" : wish));
}

static void
turn (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  CwTable *self = data;
  gboolean back = g_str_equal (g_action_get_name (G_ACTION (action)), "turn-back");
  CwLie lie;

  if (self->document == NULL)
    return;
  lie = cw_document_get_lie (self->document);
  lie.quarter_turns = (lie.quarter_turns + (back ? 3 : 1)) % 4;
  cw_document_set_lie (self->document, lie);
}

static void
flip (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  CwTable *self = data;
  CwLie lie;

  if (self->document == NULL)
    return;
  lie = cw_document_get_lie (self->document);
  lie.flipped = !lie.flipped;
  cw_document_set_lie (self->document, lie);
}

static void
look (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  CwTable *self = data;
  const char *from = g_variant_get_string (parameter, NULL);

  if (!cw_table_is_ready (self))
    return;
  if (g_str_equal (from, "inside"))
    cw_table_show_moment (self, "open");
  else if (!g_str_equal (from, "table"))
    cw_table_show_moment (self, "closed");
  cw_table_look (self, g_str_equal (from, "inside") ? "front" : from);
}

static void
zoom (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  CwTable *self = data;
  const char *name = g_action_get_name (G_ACTION (action));
  gboolean card = gtk_widget_has_focus (self->card_item);
  const GdkRectangle *a = card ? &self->card_area : &self->sheet_area;

  if (g_str_equal (name, "zoom-fit"))
    cw_table_fit (self);
  else
    cw_table_zoom (self, g_str_equal (name, "zoom-in") ? ZOOM_STEP : 1 / ZOOM_STEP, a->x + a->width / 2.0,
                   a->y + a->height / 2.0);
}

static void
change_piece (GSimpleAction *action, GVariant *value, gpointer data)
{
  CwTable *self = data;

  if (self->document != NULL && (guint) g_variant_get_int32 (value) != cw_document_get_piece (self->document))
    cw_document_set_piece (self->document, (guint) g_variant_get_int32 (value));
}

static void
select_all (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  CwTable *self = data;
  g_autoptr (GArray) ids = NULL;

  if (!cw_table_is_ready (self))
    return;
  ids = cw_table_list_things (self);
  if (g_str_equal (g_action_get_name (G_ACTION (action)), "select-none"))
    g_array_set_size (ids, 0);
  cw_document_select (self->document, (const CwId *) (gpointer) ids->data, ids->len);
}

static void
finish (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  CwTable *self = data;

  if (self->n_points > 0)
    cw_table_finish_line (self);
}

/* Escape leaves what is under way; then the offer; then the tool; then the selection. */
static void
cancel (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  CwTable *self = data;

  if (cw_table_cancel (self) || self->document == NULL)
    return;
  if (gtk_widget_get_visible (self->offer))
    g_action_group_activate_action (G_ACTION_GROUP (self->actions), "refuse-offer", NULL);
  else if (self->tool != CW_TOOL_SELECT)
    cw_table_set_tool (self, CW_TOOL_SELECT);
  else
    cw_document_select (self->document, NULL, 0);
}

static void
popup_menu (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  cw_table_popup_selected (data);
}

/* ---- All together ---- */

/**
 * cw_table_action_is_enabled:
 * @name: name of one of the table's actions
 * @state: the facts
 *
 * Returns: TRUE if it can be used
 */
gboolean
cw_table_action_is_enabled (const char *name, const CwTableState *state)
{
  const struct
  {
    gboolean enabled;
    const char *const *names;
  } rows[] = {
    { state->n_marks + state->n_zones + state->n_art > 0, (const char *const[]){ "delete", NULL } },
    { state->n_scores > 0, (const char *const[]){ "swap-way", "way", "made", NULL } },
    { state->n_here > 0,
      (const char *const[]){ "copy", "cut", "mirror", "mirror-copy", "turn-marks", "align", "repeat", NULL } },
    { state->n_here > 1, (const char *const[]){ "align-to", NULL } },
    { state->n_here > 2, (const char *const[]){ "spread", NULL } },
    { state->can_paste, (const char *const[]){ "paste", NULL } },
    { state->panel, (const char *const[]){ "hold", "rename", "lay-piece", "divide", NULL } },
    { state->layer, (const char *const[]){ "set-rim", NULL } },
    { state->removable, (const char *const[]){ "remove-piece", NULL } },
    { state->n_art > 0, (const char *const[]){ "words", "turn-art", NULL } },
    { state->n_zones > 0 || state->glue_tool, (const char *const[]){ "glue-kind", NULL } },
    { state->glue_meant, (const char *const[]){ "glue", "glue-lay", NULL } },
    { state->glued, (const char *const[]){ "glue-off", NULL } },
    { state->n_forms > 1, (const char *const[]){ "form", "next-form", NULL } },
    { state->offer, (const char *const[]){ "accept-offer", "refuse-offer", NULL } },
  };

  g_return_val_if_fail (name != NULL && state != NULL, FALSE);

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    if (g_strv_contains (rows[i].names, name))
      return state->ready && rows[i].enabled;
  return state->ready;
}

static void
find_panel_facts (CwTable *self, CwTableState *state)
{
  CwDesign *design = cw_document_get_design (self->document);
  const char *piece;
  CwId id;

  state->panel = cw_table_get_panel (self, &id);
  if (!state->panel)
    return;
  piece = self->analysis->panels->maps[id.piece].piece->id;
  state->layer
    = cw_design_get_piece (design, piece) != cw_design_get_ground (design) && !cw_make_is_loose (design, piece);
  state->removable = cw_design_get_piece (design, piece) != cw_design_get_ground (design);
}

static void
set_state (CwTable *self, const char *name, GVariant *value)
{
  g_simple_action_set_state (G_SIMPLE_ACTION (g_action_map_lookup_action (G_ACTION_MAP (self->actions), name)), value);
}

/* Reads the facts and sets every action by them. */
void
cw_table_update_actions (CwTable *self)
{
  CwTableState state = { .ready = cw_table_is_ready (self) };
  g_auto (GStrv) names = g_action_group_list_actions (G_ACTION_GROUP (self->actions));
  const CwMark *first = NULL;

  if (state.ready)
    {
      g_autoptr (GPtrArray) here = cw_table_get_selected_marks (self, cw_document_get_piece (self->document));

      first = cw_table_get_first_mark (self);
      state.n_marks = cw_table_count (self, CW_ID_MARK);
      state.n_scores = cw_table_count_scores (self);
      state.n_here = here->len;
      state.n_zones = cw_table_count (self, CW_ID_ZONE);
      state.n_art = cw_table_count (self, CW_ID_ART);
      state.can_paste = cw_table_can_paste (self);
      state.offer = self->offered != NULL && gtk_widget_get_visible (self->offer);
      state.n_forms = cw_tool_count_forms (self->tool);
      state.glue_tool = self->tool == CW_TOOL_GLUE;
      find_panel_facts (self, &state);
      cw_table_find_glue_facts (self, &state);
    }
  for (guint i = 0; names[i] != NULL; i++)
    g_simple_action_set_enabled (G_SIMPLE_ACTION (g_action_map_lookup_action (G_ACTION_MAP (self->actions), names[i])),
                                 cw_table_action_is_enabled (names[i], &state));
  if (first != NULL && first->kind == CW_MARK_SCORE)
    {
      set_state (self, "way",
                 g_variant_new_string (first->fold == CW_FOLD_AWAY   ? "away"
                                       : first->fold == CW_FOLD_NONE ? "none"
                                                                     : "toward"));
      set_state (self, "made", g_variant_new_string (first->made == CW_MADE_PRESS ? "press" : "board"));
    }
  set_state (self, "glue-kind", g_variant_new_string (cw_glue_kind_get_key (cw_table_get_glue_kind (self))));
  set_state (self, "other-edge", g_variant_new_boolean (state.ready && cw_document_get_far (self->document)));
  set_state (self, "set-rim", g_variant_new_string (state.layer ? cw_table_get_rim_words (self) : ""));
  if (state.ready)
    set_state (self, "piece", g_variant_new_int32 ((gint32) cw_document_get_piece (self->document)));
}

/* A key of the table: only while the table itself or an item on it has the focus, so that entries and buttons that lie
 * on the table keep their own keys. */
static gboolean
run_key (GtkWidget *widget, GVariant *args, gpointer data)
{
  CwTable *self = CW_TABLE (widget);
  GtkWidget *focus = gtk_root_get_focus (gtk_widget_get_root (widget));
  const char *detailed = data;
  g_autofree char *name = NULL;
  g_autoptr (GVariant) target = NULL;

  if (focus != widget && !CW_IS_TABLE_ITEM (focus))
    return FALSE;
  if (!g_action_parse_detailed_name (detailed, &name, &target, NULL)
      || !g_action_group_get_action_enabled (G_ACTION_GROUP (self->actions), name))
    return FALSE;
  g_action_group_activate_action (G_ACTION_GROUP (self->actions), name, target);
  return TRUE;
}

/* A maker who types a measure or a word with the table in focus means the measure line: a digit goes there at once, and
 * so does the second letter after one that begins score, cut, window, layer, glue, press or picture. The tool the first
 * letter chose is given back.
 */
static gboolean
typed (GtkEventControllerKey *keys, guint key, guint code, GdkModifierType mods, CwTable *self)
{
  GtkWidget *focus = gtk_root_get_focus (gtk_widget_get_root (GTK_WIDGET (self)));
  gunichar letter = gdk_keyval_to_unicode (key);
  gint64 now = g_get_monotonic_time (), before = self->word_time;
  char text[8] = { 0 };

  self->word_time = 0;
  if ((focus != GTK_WIDGET (self) && !CW_IS_TABLE_ITEM (focus)) || self->n_points > 0 || !cw_table_is_ready (self)
      || (mods & (GDK_CONTROL_MASK | GDK_ALT_MASK | GDK_SUPER_MASK)) != 0)
    return FALSE;
  if (letter >= '1' && letter <= '9')
    text[0] = (char) letter;
  else if (before != 0 && now - before < WORD_TIME && g_unichar_isalpha (letter) && letter < 128
           && (char) letter != self->word_letter)
    {
      text[0] = self->word_letter;
      text[1] = (char) letter;
      cw_table_set_tool (self, self->word_tool);
    }
  else if (letter != 0 && letter < 128 && strchr ("scwlgp", (int) letter) != NULL)
    {
      self->word_time = now;
      self->word_letter = (char) letter;
      self->word_tool = self->tool;
    }
  if (text[0] == '\0')
    return FALSE;
  g_signal_emit_by_name (self, "typed", text);
  return TRUE;
}

void
cw_table_add_actions (CwTable *self)
{
  static const GActionEntry entries[] = {
    { "tool", NULL, "s", "'select'", change_tool },
    { "form", NULL, "s", "'straight'", change_form },
    { "next-form", next_form },
    { "other-edge", NULL, NULL, "false", other_edge },
    { "share", NULL, "s", "'both'", change_share },
    { "bigger", bigger, "s" },
    { "turn", turn },
    { "turn-back", turn },
    { "flip", flip },
    { "look", look, "s" },
    { "zoom-in", zoom },
    { "zoom-out", zoom },
    { "zoom-fit", zoom },
    { "piece", NULL, "i", "0", change_piece },
    { "select-all", select_all },
    { "select-none", select_all },
    { "finish", finish },
    { "cancel", cancel },
    { "menu", popup_menu },
  };
  static const struct
  {
    const char *key;
    const char *action;
  } keys[] = {
    { "s", "tool::score" },
    { "c", "tool::cut" },
    { "w", "tool::window" },
    { "l", "tool::layer" },
    { "g", "tool::glue" },
    { "p", "tool::picture" },
    { "n", "tool::name" },
    { "period", "next-form" },
    { "k", "other-edge" },
    { "v", "tool::select" },
    { "Escape", "cancel" },
    { "Return", "finish" },
    { "KP_Enter", "finish" },
    { "t", "swap-way" },
    { "h", "hold" },
    { "F2", "rename" },
    { "Delete", "delete" },
    { "BackSpace", "delete" },
    { "Left", "nudge((-1,0))" },
    { "Right", "nudge((1,0))" },
    { "Up", "nudge((0,-1))" },
    { "Down", "nudge((0,1))" },
    { "<Control>c", "copy" },
    { "<Control>x", "cut" },
    { "<Control>v", "paste" },
    { "<Control>a", "select-all" },
    { "<Control><Shift>a", "select-none" },
    { "x", "mirror::across" },
    { "<Shift>x", "mirror::down" },
    { "bracketright", "turn-marks(1)" },
    { "bracketleft", "turn-marks(3)" },
    { "d", "spread" },
    { "e", "repeat" },
    { "f", "accept-offer" },
    { "Menu", "menu" },
    { "<Shift>F10", "menu" },
    { "r", "turn" },
    { "<Shift>r", "turn-back" },
    { "o", "flip" },
    { "<Control>g", "glue" },
    { "<Shift>g", "glue-lay::safe" },
    { "m", "glue-map" },
    { "plus", "zoom-in" },
    { "equal", "zoom-in" },
    { "minus", "zoom-out" },
    { "0", "zoom-fit" },
  };
  GtkEventController *shortcuts = gtk_shortcut_controller_new (), *typing;

  self->actions = g_simple_action_group_new ();
  g_action_map_add_action_entries (G_ACTION_MAP (self->actions), entries, G_N_ELEMENTS (entries), self);
  cw_table_add_edit_actions (self);
  cw_table_add_glue_actions (self);
  cw_table_add_panel_actions (self);
  cw_table_add_offer_actions (self);
  cw_table_add_arrange_actions (self);
  gtk_widget_insert_action_group (GTK_WIDGET (self), "table", G_ACTION_GROUP (self->actions));
  for (guint i = 0; i < G_N_ELEMENTS (keys); i++)
    gtk_shortcut_controller_add_shortcut (GTK_SHORTCUT_CONTROLLER (shortcuts),
                                          gtk_shortcut_new (gtk_shortcut_trigger_parse_string (keys[i].key),
                                                            gtk_callback_action_new (run_key, (gpointer) keys[i].action,
                                                                                     NULL)));
  gtk_event_controller_set_name (shortcuts, "keys");
  gtk_widget_add_controller (GTK_WIDGET (self), shortcuts);
  typing = gtk_event_controller_key_new ();
  gtk_event_controller_set_name (typing, "typing");
  gtk_event_controller_set_propagation_phase (typing, GTK_PHASE_CAPTURE);
  g_signal_connect (typing, "key-pressed", G_CALLBACK (typed), self);
  gtk_widget_add_controller (GTK_WIDGET (self), typing);
}
