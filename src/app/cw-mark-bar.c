/* cw-mark-bar.c: measures of the selected mark as entries.
 *
 * Enter or leaving the entry takes the new measure; the up and down keys step by the maker's finest mark. Every change
 * is one edit with its fold steps (cw-make). Direction, hand-made creases and deleting are the table's own actions, so
 * that menu, keys and these buttons are the same thing.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "cw-mark-bar.h"

#include <glib/gi18n-lib.h>

#include "make/cw-make.h"
#include "text/cw-mark-measures.h"

struct _CwMarkBar
{
  GtkBox parent_instance;

  /* Template */
  GtkWidget *name, *nothing, *ways, *press, *remove, *measures;
  GtkWidget *entries[CW_MARK_MEASURES_MAX], *words[CW_MARK_MEASURES_MAX];

  CwDocument *document;
  CwMarkMeasure shown[CW_MARK_MEASURES_MAX];
  guint n_shown;
};

G_DEFINE_FINAL_TYPE (CwMarkBar, cw_mark_bar, GTK_TYPE_BOX)

static CwPiece *
selected_piece (CwMarkBar *self, const CwId *id)
{
  GPtrArray *pieces = cw_document_get_design (self->document)->pieces;

  return id->piece < pieces->len ? g_ptr_array_index (pieces, id->piece) : NULL;
}

static CwMark *
id_mark (CwMarkBar *self, const CwId *id)
{
  CwPiece *piece = NULL;

  if (id->kind != CW_ID_MARK && id->kind != CW_ID_MARK_END)
    return NULL;
  piece = selected_piece (self, id);
  return piece != NULL && id->index < piece->marks->len ? g_ptr_array_index (piece->marks, id->index) : NULL;
}

/* The one mark that is selected; NULL when there is none or more than one. n gets how many there are. */
static CwMark *
selected_mark (CwMarkBar *self, CwPiece **piece, guint *n)
{
  guint n_ids = 0;
  const CwId *ids = cw_document_get_selection (self->document, &n_ids);
  CwMark *only = NULL;

  *n = 0;
  for (guint i = 0; i < n_ids; i++)
    {
      CwMark *mark = id_mark (self, &ids[i]);

      if (mark == NULL || mark == only)
        continue;
      (*n)++;
      only = mark;
      *piece = selected_piece (self, &ids[i]);
    }
  return *n == 1 ? only : NULL;
}

static const char *
move_name (CwMarkKind kind)
{
  static const char *const names[] = { N_ ("move score"), N_ ("move cut"), N_ ("move window") };

  return _ (names[kind]);
}

static void show_mark (CwMarkBar *self);

/* FALSE when the measure cannot be: the entry is marked and the reason told. */
static gboolean
take (CwMarkBar *self, guint index, CwLength value)
{
  g_autoptr (GError) error = NULL;
  CwPiece *piece = NULL;
  guint n = 0;
  CwMark *mark = selected_mark (self, &piece, &n);
  CwEdit *edit = NULL;

  if (mark == NULL)
    return FALSE;
  edit = cw_make_replace_mark (cw_document_get_design (self->document), piece->id,
                               cw_mark_with_measure (piece, cw_document_get_lie (self->document), mark,
                                                     &self->shown[index], value),
                               &error);
  if (edit == NULL)
    {
      gtk_widget_add_css_class (self->entries[index], "error");
      cw_document_say (self->document, error->message);
      return FALSE;
    }
  cw_document_do (self->document, move_name (mark->kind), edit);
  return TRUE;
}

static guint
entry_index (CwMarkBar *self, GtkWidget *entry)
{
  guint i = 0;

  while (i < CW_MARK_MEASURES_MAX && self->entries[i] != entry)
    i++;
  return i;
}

static gboolean
read_entry (CwMarkBar *self, guint index, CwLength *value)
{
  g_autoptr (GError) error = NULL;

  if (cw_measure_length_read (gtk_editable_get_text (GTK_EDITABLE (self->entries[index])),
                              cw_document_get_design (self->document)->head, value, &error))
    return TRUE;
  gtk_widget_add_css_class (self->entries[index], "error");
  cw_document_say (self->document, error->message);
  return FALSE;
}

static void
commit (CwMarkBar *self, guint index)
{
  CwLength value;
  g_autofree char *old = NULL;

  if (self->document == NULL || index >= self->n_shown)
    return;
  old = cw_length_format (self->shown[index].length);
  if (g_strcmp0 (old, gtk_editable_get_text (GTK_EDITABLE (self->entries[index]))) == 0)
    return;
  if (read_entry (self, index, &value) && value.ticks != self->shown[index].ticks)
    take (self, index, value);
  else
    show_mark (self);
}

static void
activated (GtkWidget *entry, CwMarkBar *self)
{
  commit (self, entry_index (self, entry));
}

static void
left (GtkEventControllerFocus *focus, CwMarkBar *self)
{
  commit (self, entry_index (self, gtk_event_controller_get_widget (GTK_EVENT_CONTROLLER (focus))));
}

static gboolean
keyed (GtkEventControllerKey *keys, guint key, guint code, GdkModifierType mods, CwMarkBar *self)
{
  GtkWidget *entry = gtk_event_controller_get_widget (GTK_EVENT_CONTROLLER (keys));
  guint index = entry_index (self, entry);
  gint32 step = 0;
  CwLength value;

  if (self->document == NULL || index >= self->n_shown)
    return FALSE;
  if (key == GDK_KEY_Escape)
    {
      show_mark (self);
      return FALSE;
    }
  if (key != GDK_KEY_Up && key != GDK_KEY_Down)
    return FALSE;
  step = cw_document_get_design (self->document)->head->snap_ticks;
  if (step <= 0)
    step = CW_TICKS_PER_INCH / 64;
  if (!read_entry (self, index, &value))
    return TRUE;
  take (self, index, cw_length_from_ticks (value.ticks + (key == GDK_KEY_Up ? step : -step), value.unit));
  return TRUE;
}

static void
press_clicked (GtkToggleButton *button, CwMarkBar *self)
{
  gtk_widget_activate_action (GTK_WIDGET (button), "table.made", "s",
                              gtk_toggle_button_get_active (button) ? "press" : "board");
}

static void
show_measures (CwMarkBar *self, CwPiece *piece, CwMark *mark)
{
  self->n_shown = mark != NULL ? cw_mark_measures (piece, cw_document_get_lie (self->document), mark, self->shown) : 0;
  for (guint i = 0; i < CW_MARK_MEASURES_MAX; i++)
    {
      gboolean visible = i < self->n_shown;
      g_autofree char *text = visible ? cw_length_format (self->shown[i].length) : g_strdup ("");

      gtk_widget_set_visible (self->entries[i], visible);
      gtk_widget_set_visible (self->words[i], visible);
      gtk_widget_remove_css_class (self->entries[i], "error");
      if (g_strcmp0 (text, gtk_editable_get_text (GTK_EDITABLE (self->entries[i]))) != 0)
        gtk_editable_set_text (GTK_EDITABLE (self->entries[i]), text);
      if (!visible)
        continue;
      gtk_label_set_text (GTK_LABEL (self->words[i]), _ (self->shown[i].word));
      gtk_widget_set_tooltip_text (self->entries[i], _ (self->shown[i].help));
      gtk_accessible_update_property (GTK_ACCESSIBLE (self->entries[i]), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                      _ (self->shown[i].help), -1);
    }
  gtk_widget_set_visible (self->measures, self->n_shown > 0);
}

static char *
dup_name (CwMark *mark, guint n)
{
  if (mark == NULL)
    return g_strdup_printf (dngettext (GETTEXT_PACKAGE, "%u mark", "%u marks", n), n);
  switch (mark->kind)
    {
    case CW_MARK_SCORE:
      return g_strdup_printf (_ ("Score %s"), mark->id);
    case CW_MARK_CUT:
      return g_strdup_printf (_ ("Cut %s"), mark->id);
    case CW_MARK_WINDOW:
    default:
      return g_strdup_printf (_ ("Window %s"), mark->id);
    }
}

static void
show_mark (CwMarkBar *self)
{
  CwPiece *piece = NULL;
  guint n = 0;
  CwMark *mark = self->document != NULL ? selected_mark (self, &piece, &n) : NULL;
  gboolean score = mark != NULL && mark->kind == CW_MARK_SCORE;
  g_autofree char *name = dup_name (mark, n);

  gtk_widget_set_visible (self->nothing, n == 0);
  gtk_widget_set_visible (self->name, n > 0);
  gtk_widget_set_visible (self->remove, n > 0);
  gtk_widget_set_visible (self->ways, score);
  gtk_label_set_text (GTK_LABEL (self->name), name);
  show_measures (self, piece, mark);
  if (score) /* told by "clicked", so that setting it here is no press */
    gtk_toggle_button_set_active (GTK_TOGGLE_BUTTON (self->press), mark->made == CW_MADE_PRESS);
}

/**
 * cw_mark_bar_set_document:
 * @self: the bar
 * @document: (nullable): whose selection to show
 */
void
cw_mark_bar_set_document (CwMarkBar *self, CwDocument *document)
{
  g_return_if_fail (CW_IS_MARK_BAR (self));

  if (document == self->document)
    return;
  if (self->document != NULL)
    g_signal_handlers_disconnect_by_data (self->document, self);
  g_set_object (&self->document, document);
  if (document != NULL)
    {
      g_signal_connect_object (document, "changed", G_CALLBACK (show_mark), self, G_CONNECT_SWAPPED);
      g_signal_connect_object (document, "selection", G_CALLBACK (show_mark), self, G_CONNECT_SWAPPED);
      g_signal_connect_object (document, "lie", G_CALLBACK (show_mark), self, G_CONNECT_SWAPPED);
    }
  show_mark (self);
}

static void
cw_mark_bar_dispose (GObject *object)
{
  CwMarkBar *self = CW_MARK_BAR (object);

  if (self->document != NULL)
    g_signal_handlers_disconnect_by_data (self->document, self);
  g_clear_object (&self->document);
  G_OBJECT_CLASS (cw_mark_bar_parent_class)->dispose (object);
}

static void
cw_mark_bar_class_init (CwMarkBarClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = cw_mark_bar_dispose;
  gtk_widget_class_set_template_from_resource (widget_class, "/org/creasewright/Creasewright/mark-bar.ui");
  gtk_widget_class_bind_template_child (widget_class, CwMarkBar, name);
  gtk_widget_class_bind_template_child (widget_class, CwMarkBar, nothing);
  gtk_widget_class_bind_template_child (widget_class, CwMarkBar, measures);
  gtk_widget_class_bind_template_child (widget_class, CwMarkBar, ways);
  gtk_widget_class_bind_template_child (widget_class, CwMarkBar, press);
  gtk_widget_class_bind_template_child (widget_class, CwMarkBar, remove);
  gtk_widget_class_bind_template_callback (widget_class, press_clicked);
}

static void
cw_mark_bar_init (CwMarkBar *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  for (guint i = 0; i < CW_MARK_MEASURES_MAX; i++)
    {
      GtkEventController *focus = gtk_event_controller_focus_new ();
      GtkEventController *keys = gtk_event_controller_key_new ();

      self->words[i] = gtk_label_new (NULL);
      self->entries[i] = gtk_entry_new ();
      gtk_editable_set_width_chars (GTK_EDITABLE (self->entries[i]), 9);
      gtk_editable_set_max_width_chars (GTK_EDITABLE (self->entries[i]), 9);
      /* Fractions keep their order in right-to-left windows. */
      gtk_widget_set_direction (self->entries[i], GTK_TEXT_DIR_LTR);
      gtk_widget_set_valign (self->entries[i], GTK_ALIGN_CENTER);
      g_signal_connect (self->entries[i], "activate", G_CALLBACK (activated), self);
      g_signal_connect (focus, "leave", G_CALLBACK (left), self);
      gtk_widget_add_controller (self->entries[i], focus);
      gtk_event_controller_set_propagation_phase (keys, GTK_PHASE_CAPTURE);
      g_signal_connect (keys, "key-pressed", G_CALLBACK (keyed), self);
      gtk_widget_add_controller (self->entries[i], keys);
      gtk_box_append (GTK_BOX (self->measures), self->words[i]);
      gtk_box_append (GTK_BOX (self->measures), self->entries[i]);
    }
  show_mark (self);
}
