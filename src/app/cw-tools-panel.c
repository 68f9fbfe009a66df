/* cw-tools-panel.c: the maker's tools as fields.
 *
 * One field for each key of trim/cw-tools.h, in its order. A choice counts at once, a length on Enter or on leaving the
 * field; one that cannot be read stays to be mended, with the reason under the fields, and changes nothing.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "cw-tools-panel.h"

#include <glib/gi18n-lib.h>

/* What the maker reads. A switch has words for its two choices, a length a word for none where it may be left out. */
static const struct
{
  const char *key, *name, *choices[2], *none;
} fields[] = {
  { "rule", N_ ("My rule counts"), { N_ ("from left to right"), N_ ("from right to left") }, NULL },
  { "reach", N_ ("It reaches"), { NULL, NULL }, NULL },
  { "finest", N_ ("Its finest mark"), { NULL, NULL }, N_ ("as the card is drawn") },
  { "stops",
    N_ ("Start and end of a line"),
    { N_ ("I mark them with a pencil"), N_ ("a rule along the blade") },
    NULL },
  { "grooves", N_ ("Grooves of my scoring board every"), { NULL, NULL }, N_ ("no board") },
  { "narrowest", N_ ("Narrowest strip I can hold"), { NULL, NULL }, NULL },
  { "pull", N_ ("My blade is"), { N_ ("pulled toward me"), N_ ("pushed away from me") }, NULL },
  { "scores", N_ ("I score"), { N_ ("with each dent outside its fold"), N_ ("all with the drawn side up") }, NULL },
};
#define N_FIELDS G_N_ELEMENTS (fields)

struct _CwToolsPanel
{
  GtkBox parent_instance;

  GtkWidget *widgets[N_FIELDS]; /* GtkDropDown or GtkEntry */
  GtkWidget *wrong;
  CwTools tools;
  gboolean inward; /* fields are being set, not changed */
};

G_DEFINE_FINAL_TYPE (CwToolsPanel, cw_tools_panel, GTK_TYPE_BOX)

static guint changed_signal;

static void
tell_choice (GtkDropDown *drop_down)
{
  GtkStringObject *chosen = gtk_drop_down_get_selected_item (drop_down);
  const char *name = g_object_get_data (G_OBJECT (drop_down), "name");
  g_autofree char *words
    = g_strdup_printf ("%s: %s", name, chosen != NULL ? gtk_string_object_get_string (chosen) : "");

  gtk_accessible_update_property (GTK_ACCESSIBLE (gtk_widget_get_first_child (GTK_WIDGET (drop_down))),
                                  GTK_ACCESSIBLE_PROPERTY_LABEL, words, -1);
}

/**
 * cw_drop_down_set_name:
 * @drop_down: a choice of strings
 * @name: what is chosen
 */
void
cw_drop_down_set_name (GtkDropDown *drop_down, const char *name)
{
  g_return_if_fail (GTK_IS_DROP_DOWN (drop_down) && name != NULL);

  g_object_set_data_full (G_OBJECT (drop_down), "name", g_strdup (name), g_free);
  g_signal_connect (drop_down, "notify::selected", G_CALLBACK (tell_choice), NULL);
  gtk_accessible_update_property (GTK_ACCESSIBLE (drop_down), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
  tell_choice (drop_down);
}

static gboolean
is_choice (guint field)
{
  return fields[field].choices[0] != NULL;
}

static guint
field_of (CwToolsPanel *self, GtkWidget *widget)
{
  guint i = 0;

  while (i + 1 < N_FIELDS && self->widgets[i] != widget)
    i++;
  return i;
}

static void
show_field (CwToolsPanel *self, guint field)
{
  g_autofree char *value = cw_tools_dup_value (&self->tools, fields[field].key);
  const char *const *choices = cw_tools_get_choices (fields[field].key);

  self->inward = TRUE;
  if (choices != NULL)
    gtk_drop_down_set_selected (GTK_DROP_DOWN (self->widgets[field]), g_strcmp0 (value, choices[1]) == 0 ? 1 : 0);
  else
    {
      /* The words for "none" are said by the empty field. */
      gboolean none = !g_ascii_isdigit (*value);

      gtk_editable_set_text (GTK_EDITABLE (self->widgets[field]), none ? "" : value);
      gtk_widget_remove_css_class (self->widgets[field], "error");
    }
  self->inward = FALSE;
}

static void
say_wrong (CwToolsPanel *self, const char *sentence)
{
  gtk_label_set_text (GTK_LABEL (self->wrong), sentence != NULL ? sentence : "");
  gtk_widget_set_visible (self->wrong, sentence != NULL);
}

/* Takes a value; FALSE when it is none. */
static gboolean
take (CwToolsPanel *self, guint field, const char *value)
{
  g_autoptr (GError) error = NULL;
  CwTools next = self->tools;
  g_autofree char *was = cw_tools_dup_value (&self->tools, fields[field].key), *now = NULL;

  if (!cw_tools_set (&next, fields[field].key, value, &error))
    {
      say_wrong (self, error->message);
      return FALSE;
    }
  say_wrong (self, NULL);
  self->tools = next;
  now = cw_tools_dup_value (&self->tools, fields[field].key);
  if (g_strcmp0 (was, now) != 0)
    g_signal_emit (self, changed_signal, 0);
  return TRUE;
}

static void
chosen (GtkDropDown *drop_down, GParamSpec *pspec, CwToolsPanel *self)
{
  guint field = field_of (self, GTK_WIDGET (drop_down)), which = gtk_drop_down_get_selected (drop_down);
  const char *const *choices = cw_tools_get_choices (fields[field].key);

  if (!self->inward && which < 2)
    take (self, field, choices[which]);
}

/* The word that stands in files for an empty field. */
static const char *
none_word (guint field)
{
  return g_str_equal (fields[field].key, "finest") ? "as-drawn" : "none";
}

static void
entered (GtkWidget *entry, CwToolsPanel *self)
{
  guint field = field_of (self, entry);
  g_autofree char *text = g_strstrip (g_strdup (gtk_editable_get_text (GTK_EDITABLE (entry))));

  if (*text == '\0' && fields[field].none != NULL)
    {
      g_free (text);
      text = g_strdup (none_word (field));
    }
  if (take (self, field, text))
    show_field (self, field);
  else
    gtk_widget_add_css_class (entry, "error");
}

static void
left (GtkEventControllerFocus *focus, CwToolsPanel *self)
{
  entered (gtk_event_controller_get_widget (GTK_EVENT_CONTROLLER (focus)), self);
}

static void
usual (CwToolsPanel *self)
{
  cw_tools_panel_set_tools (self, &cw_tools_usual);
  g_signal_emit (self, changed_signal, 0);
}

/**
 * cw_tools_panel_set_tools:
 * @self: the panel
 * @tools: what to show
 */
void
cw_tools_panel_set_tools (CwToolsPanel *self, const CwTools *tools)
{
  g_return_if_fail (CW_IS_TOOLS_PANEL (self) && tools != NULL);

  self->tools = *tools;
  say_wrong (self, NULL);
  for (guint i = 0; i < N_FIELDS; i++)
    show_field (self, i);
}

/**
 * cw_tools_panel_get_tools:
 * @self: the panel
 *
 * Returns: (transfer none): what the fields say
 */
const CwTools *
cw_tools_panel_get_tools (CwToolsPanel *self)
{
  g_return_val_if_fail (CW_IS_TOOLS_PANEL (self), NULL);
  return &self->tools;
}

static void
cw_tools_panel_class_init (CwToolsPanelClass *klass)
{
  changed_signal
    = g_signal_new ("changed", CW_TYPE_TOOLS_PANEL, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
}

static GtkWidget *
new_choice (CwToolsPanel *self, guint field)
{
  const char *words[3] = { _ (fields[field].choices[0]), _ (fields[field].choices[1]), NULL };
  GtkWidget *drop_down = gtk_drop_down_new_from_strings (words);

  g_signal_connect (drop_down, "notify::selected", G_CALLBACK (chosen), self);
  return drop_down;
}

static GtkWidget *
new_length (CwToolsPanel *self, guint field)
{
  GtkWidget *entry = gtk_entry_new ();
  GtkEventController *focus = gtk_event_controller_focus_new ();

  if (fields[field].none != NULL)
    gtk_entry_set_placeholder_text (GTK_ENTRY (entry), _ (fields[field].none));
  g_signal_connect (entry, "activate", G_CALLBACK (entered), self);
  g_signal_connect (focus, "leave", G_CALLBACK (left), self);
  gtk_widget_add_controller (entry, focus);
  return entry;
}

static void
cw_tools_panel_init (CwToolsPanel *self)
{
  GtkWidget *box = GTK_WIDGET (self), *button = gtk_button_new_with_mnemonic (_ ("_Usual tools"));

  G_STATIC_ASSERT (N_FIELDS == 8);
  gtk_orientable_set_orientation (GTK_ORIENTABLE (box), GTK_ORIENTATION_VERTICAL);
  gtk_box_set_spacing (GTK_BOX (box), 4);
  for (guint i = 0; i < N_FIELDS; i++)
    {
      GtkWidget *label = gtk_label_new (_ (fields[i].name));

      self->widgets[i] = is_choice (i) ? new_choice (self, i) : new_length (self, i);
      gtk_label_set_xalign (GTK_LABEL (label), 0);
      gtk_label_set_wrap (GTK_LABEL (label), TRUE);
      gtk_label_set_mnemonic_widget (GTK_LABEL (label), self->widgets[i]);
      gtk_widget_set_margin_top (label, i > 0 ? 6 : 0);
      if (is_choice (i))
        cw_drop_down_set_name (GTK_DROP_DOWN (self->widgets[i]), _ (fields[i].name));
      else
        gtk_accessible_update_property (GTK_ACCESSIBLE (self->widgets[i]), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                        _ (fields[i].name), -1);
      gtk_box_append (GTK_BOX (box), label);
      gtk_box_append (GTK_BOX (box), self->widgets[i]);
    }
  self->wrong = g_object_new (GTK_TYPE_LABEL, "accessible-role", GTK_ACCESSIBLE_ROLE_ALERT, "wrap", TRUE, "xalign", 0.0,
                              "visible", FALSE, NULL);
  gtk_widget_add_css_class (self->wrong, "hint");
  gtk_widget_add_css_class (self->wrong, "wrong");
  gtk_box_append (GTK_BOX (box), self->wrong);
  gtk_widget_set_halign (button, GTK_ALIGN_START);
  gtk_widget_set_margin_top (button, 8);
  g_signal_connect_object (button, "clicked", G_CALLBACK (usual), self, G_CONNECT_SWAPPED);
  gtk_box_append (GTK_BOX (box), button);
  cw_tools_panel_set_tools (self, &cw_tools_usual);
}
