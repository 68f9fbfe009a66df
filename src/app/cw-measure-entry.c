/* cw-measure-entry.c: reads the line on every key, shows what Enter would make, and makes it.
 *
 * The line under the entry always says something useful: an example while nothing is typed, what is understood so far,
 * or what is wrong with it. The marks understood lie on the sheet as a preview until Enter or Escape.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "cw-measure-entry.h"

#include <glib/gi18n-lib.h>

#include "make/cw-make.h"
#include "text/cw-measure-line.h"

struct _CwMeasureEntry
{
  GtkBox parent_instance;

  /* Template */
  GtkWidget *row, *entry, *hint;

  CwDocument *document;
};

G_DEFINE_FINAL_TYPE (CwMeasureEntry, cw_measure_entry, GTK_TYPE_BOX)

static CwPiece *
piece_on_table (CwMeasureEntry *self)
{
  GPtrArray *pieces = cw_document_get_design (self->document)->pieces;
  guint index = cw_document_get_piece (self->document);

  return index < pieces->len ? g_ptr_array_index (pieces, index) : NULL;
}

static void
say (CwMeasureEntry *self, const char *sentence, gboolean wrong)
{
  gtk_label_set_text (GTK_LABEL (self->hint), sentence);
  if (wrong)
    gtk_widget_add_css_class (self->hint, "wrong");
  else
    gtk_widget_remove_css_class (self->hint, "wrong");
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->entry), GTK_ACCESSIBLE_PROPERTY_DESCRIPTION, sentence, -1);
  gtk_accessible_update_state (GTK_ACCESSIBLE (self->entry), GTK_ACCESSIBLE_STATE_INVALID,
                               wrong ? GTK_ACCESSIBLE_INVALID_TRUE : GTK_ACCESSIBLE_INVALID_FALSE, -1);
}

/* The marks that the text stands for; NULL with an error sentence, or without one when nothing is typed. */
static GPtrArray *
read_line (CwMeasureEntry *self, GError **error)
{
  g_autofree char *text = g_strstrip (g_strdup (gtk_editable_get_text (GTK_EDITABLE (self->entry))));
  CwPiece *piece = self->document != NULL ? piece_on_table (self) : NULL;

  if (*text == '\0' || piece == NULL)
    return NULL;
  return cw_measure_line_parse (text, cw_document_get_design (self->document), piece,
                                cw_document_get_lie (self->document), error);
}

static void
refresh (CwMeasureEntry *self)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GPtrArray) marks = NULL;

  if (self->document == NULL)
    return;
  marks = read_line (self, &error);
  cw_document_set_preview (self->document, marks);
  if (error != NULL)
    say (self, error->message, TRUE);
  else if (marks == NULL)
    say (self, _ ("For example: score 3 1/2, or cut 2 from 1 3/4 to 5 1/8"), FALSE);
  else if (marks->len == 1)
    {
      g_autofree char *words
        = cw_measure_line_describe (cw_document_get_design (self->document), piece_on_table (self),
                                    g_ptr_array_index (marks, 0), cw_document_get_lie (self->document));
      g_autofree char *sentence = g_strdup_printf (_ ("Enter adds: %s"), words);

      say (self, sentence, FALSE);
    }
  else
    {
      g_autofree char *sentence
        = g_strdup_printf (dngettext (GETTEXT_PACKAGE, "Enter adds %u mark", "Enter adds %u marks", marks->len),
                           marks->len);

      say (self, sentence, FALSE);
    }
}

static const char *
edit_name (GPtrArray *marks)
{
  static const char *const one[] = { N_ ("add score"), N_ ("add cut"), N_ ("add window") };
  static const char *const many[] = { N_ ("add scores"), N_ ("add cuts"), N_ ("add windows") };
  CwMarkKind kind = ((CwMark *) g_ptr_array_index (marks, 0))->kind;

  for (guint i = 1; i < marks->len; i++)
    if (((CwMark *) g_ptr_array_index (marks, i))->kind != kind)
      return _ ("add marks");
  return marks->len == 1 ? _ (one[kind]) : _ (many[kind]);
}

/* Empties the entry for good, with its own history of typing. */
static void
clear (CwMeasureEntry *self)
{
  gtk_editable_set_enable_undo (GTK_EDITABLE (self->entry), FALSE);
  gtk_editable_set_text (GTK_EDITABLE (self->entry), "");
  gtk_editable_set_enable_undo (GTK_EDITABLE (self->entry), TRUE);
}

static void
activated (GtkEntry *entry, CwMeasureEntry *self)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GPtrArray) marks = read_line (self, &error);
  g_autoptr (GArray) ids = g_array_new (FALSE, FALSE, sizeof (CwId));
  const char *name = NULL;
  guint before = 0;
  CwEdit *edit = NULL;

  if (marks == NULL || marks->len == 0)
    {
      refresh (self);
      return;
    }
  before = piece_on_table (self)->marks->len;
  name = edit_name (marks);
  edit
    = cw_make_add_marks (cw_document_get_design (self->document), piece_on_table (self)->id, g_steal_pointer (&marks),
                         !cw_measure_line_says_way (gtk_editable_get_text (GTK_EDITABLE (self->entry))), &error);
  if (edit == NULL)
    {
      say (self, error->message, TRUE);
      return;
    }
  cw_document_set_preview (self->document, NULL);
  clear (self);
  cw_document_do (self->document, name, edit);
  for (guint i = before; i < piece_on_table (self)->marks->len; i++)
    {
      CwId id = { CW_ID_MARK, cw_document_get_piece (self->document), i, 0 };

      g_array_append_val (ids, id);
    }
  cw_document_select (self->document, (const CwId *) (gpointer) ids->data, ids->len);
}

static gboolean
keyed (GtkEventControllerKey *keys, guint key, guint code, GdkModifierType mods, CwMeasureEntry *self)
{
  gboolean empty = *gtk_editable_get_text (GTK_EDITABLE (self->entry)) == '\0';
  gboolean control = (mods & GDK_CONTROL_MASK) != 0, shift = (mods & GDK_SHIFT_MASK) != 0;

  if (key == GDK_KEY_Escape && !empty)
    {
      clear (self);
      return TRUE;
    }
  /* With nothing typed there is no typing to take back: the keys are the design's. */
  if (empty && control && (key == GDK_KEY_z || key == GDK_KEY_Z || key == GDK_KEY_y))
    return gtk_widget_activate_action (GTK_WIDGET (self), key == GDK_KEY_y || shift ? "win.redo" : "win.undo", NULL);
  return FALSE;
}

/**
 * cw_measure_entry_add_beside:
 * @self: the measure line
 * @widget: (transfer floating): a widget
 *
 * Puts the widget beside the entry.
 */
void
cw_measure_entry_add_beside (CwMeasureEntry *self, GtkWidget *widget)
{
  g_return_if_fail (CW_IS_MEASURE_ENTRY (self));
  gtk_box_append (GTK_BOX (self->row), widget);
}

/**
 * cw_measure_entry_begin:
 * @self: the measure line
 * @text: what has been typed so far
 *
 * Takes the focus with @text typed already, so that typing goes on there.
 */
void
cw_measure_entry_begin (CwMeasureEntry *self, const char *text)
{
  g_return_if_fail (CW_IS_MEASURE_ENTRY (self) && text != NULL);

  gtk_widget_grab_focus (self->entry);
  gtk_editable_set_text (GTK_EDITABLE (self->entry), text);
  gtk_editable_set_position (GTK_EDITABLE (self->entry), -1);
}

static gboolean
cw_measure_entry_grab_focus (GtkWidget *widget)
{
  return gtk_widget_grab_focus (CW_MEASURE_ENTRY (widget)->entry);
}

/**
 * cw_measure_entry_set_document:
 * @self: the measure line
 * @document: (nullable): whose piece on the table the marks are for
 */
void
cw_measure_entry_set_document (CwMeasureEntry *self, CwDocument *document)
{
  g_return_if_fail (CW_IS_MEASURE_ENTRY (self));

  if (document == self->document)
    return;
  if (self->document != NULL)
    g_signal_handlers_disconnect_by_data (self->document, self);
  g_set_object (&self->document, document);
  clear (self);
  if (document == NULL)
    return;
  g_signal_connect_object (document, "changed", G_CALLBACK (refresh), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (document, "piece", G_CALLBACK (refresh), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (document, "lie", G_CALLBACK (refresh), self, G_CONNECT_SWAPPED);
  refresh (self);
}

static void
cw_measure_entry_dispose (GObject *object)
{
  CwMeasureEntry *self = CW_MEASURE_ENTRY (object);

  if (self->document != NULL)
    g_signal_handlers_disconnect_by_data (self->document, self);
  g_clear_object (&self->document);
  G_OBJECT_CLASS (cw_measure_entry_parent_class)->dispose (object);
}

static void
cw_measure_entry_class_init (CwMeasureEntryClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = cw_measure_entry_dispose;
  widget_class->grab_focus = cw_measure_entry_grab_focus;
  gtk_widget_class_set_template_from_resource (widget_class, "/org/creasewright/Creasewright/measure-entry.ui");
  gtk_widget_class_bind_template_child (widget_class, CwMeasureEntry, row);
  gtk_widget_class_bind_template_child (widget_class, CwMeasureEntry, entry);
  gtk_widget_class_bind_template_child (widget_class, CwMeasureEntry, hint);
  gtk_widget_class_bind_template_callback (widget_class, refresh);
  gtk_widget_class_bind_template_callback (widget_class, activated);
  gtk_widget_class_bind_template_callback (widget_class, keyed);
}

static void
cw_measure_entry_init (CwMeasureEntry *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  /* Fractions keep their order in right-to-left windows. */
  gtk_widget_set_direction (self->entry, GTK_TEXT_DIR_LTR);
}
