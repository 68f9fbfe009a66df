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

#include "cw-lay.h"
#include "make/cw-make-area.h"
#include "text/cw-measure-line.h"

struct _CwMeasureEntry
{
  GtkBox parent_instance;

  /* Template */
  GtkWidget *row, *entry, *hint;
  GtkWidget *beside; /* what stands beside the entry while nothing is typed */

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

/* The face of the piece that is up. */
static CwFace
face_up (CwMeasureEntry *self)
{
  return cw_document_get_lie (self->document).flipped ? CW_FACE_BACK : CW_FACE_FRONT;
}

/* What the text asks for. FALSE with an error sentence, or without one when nothing is typed. */
static gboolean
read_line (CwMeasureEntry *self, CwMeasureWish *wish, GError **error)
{
  g_autofree char *text = g_strstrip (g_strdup (gtk_editable_get_text (GTK_EDITABLE (self->entry))));
  CwPiece *piece = self->document != NULL ? piece_on_table (self) : NULL;

  if (*text == '\0' || piece == NULL)
    return FALSE;
  return cw_measure_line_read (wish, text, cw_document_get_design (self->document), piece,
                               cw_document_get_lie (self->document), error);
}

/* The panel that a layer with a rim is meant for: the one said, else the one selected, else the only one there is. */
static gboolean
find_panel (CwMeasureEntry *self, const CwMeasureWish *wish, guint *piece, guint *panel, GError **error)
{
  CwDesign *design = cw_document_get_design (self->document);
  CwAnalysis *analysis = cw_document_get_analysis (self->document);
  guint n;
  const CwId *ids = cw_document_get_selection (self->document, &n);

  *piece = cw_document_get_piece (self->document);
  if (wish->has_place)
    {
      *panel = cw_make_find_panel (design, piece_on_table (self)->id, wish->place);
      if (*panel == G_MAXUINT)
        g_set_error_literal (error, CW_MEASURE_ERROR, CW_MEASURE_ERROR_RANGE, _ ("there is no paper at that place"));
      return *panel != G_MAXUINT;
    }
  for (guint i = 0; i < n; i++)
    if (ids[i].kind == CW_ID_PANEL && cw_document_is_analysed (self->document))
      {
        *piece = ids[i].piece;
        *panel = ids[i].index;
        return TRUE;
      }
  *panel = 0;
  if (cw_document_is_analysed (self->document) && analysis->panels->maps[*piece].panels->len == 1)
    return TRUE;
  g_set_error_literal (error, CW_MEASURE_ERROR, CW_MEASURE_ERROR_RANGE,
                       _ ("click the panel first, or say where it is: “layer with a 1/8 rim at 2, 3”"));
  return FALSE;
}

/* What the layer would look like on the piece on the table. */
static GPtrArray *
preview_rim (CwMeasureEntry *self, const CwMeasureWish *wish, GError **error)
{
  GPtrArray *marks;
  CwDesign *design = cw_document_get_design (self->document);
  g_autoptr (CwDesign) after = NULL;
  g_autoptr (CwEdit) edit = NULL;
  guint piece, panel;

  if (!find_panel (self, wish, &piece, &panel, error))
    return NULL;
  edit = cw_make_add_layer (design, ((CwPiece *) g_ptr_array_index (design->pieces, piece))->id, panel, face_up (self),
                            wish->rim, error);
  if (edit == NULL)
    return NULL;
  after = cw_edit_apply (edit, design);
  marks = g_ptr_array_new_with_free_func ((GDestroyNotify) cw_mark_unref);
  if (piece == cw_document_get_piece (self->document))
    g_ptr_array_add (marks, cw_make_outline_of_layer (
                              after, ((CwPiece *) g_ptr_array_index (after->pieces, after->pieces->len - 1))->id));
  return marks;
}

static void
refresh (CwMeasureEntry *self)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GPtrArray) marks = NULL;
  g_auto (CwMeasureWish) wish = { 0 };
  gboolean read;

  if (self->document == NULL)
    return;
  read = read_line (self, &wish, &error);
  /* While a line is typed it has all the room. */
  if (self->beside != NULL)
    gtk_widget_set_visible (self->beside, *gtk_editable_get_text (GTK_EDITABLE (self->entry)) == '\0');
  gtk_widget_set_hexpand (self->entry, *gtk_editable_get_text (GTK_EDITABLE (self->entry)) != '\0');
  if (read)
    marks = wish.what == CW_MEASURE_RIM ? preview_rim (self, &wish, &error) : g_ptr_array_ref (wish.marks);
  cw_document_set_preview (self->document, marks);
  if (error != NULL)
    say (self, error->message, TRUE);
  else if (!read)
    say (self, _ ("For example: score 3 1/2, cut 2 from 1 3/4 to 5 1/8, layer with a 1/8 rim"), FALSE);
  else if (wish.marks == NULL || wish.marks->len == 1)
    {
      g_autofree char *words = cw_measure_wish_describe (&wish, cw_document_get_design (self->document),
                                                         piece_on_table (self), cw_document_get_lie (self->document));
      g_autofree char *sentence = g_strdup_printf (_ ("Enter adds: %s"), words);

      say (self, sentence, FALSE);
    }
  else
    {
      g_autofree char *sentence
        = g_strdup_printf (dngettext (GETTEXT_PACKAGE, "Enter adds %u mark", "Enter adds %u marks", wish.marks->len),
                           wish.marks->len);

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

/* Adds the marks of the line and selects them. */
static gboolean
add_marks (CwMeasureEntry *self, CwMeasureWish *wish, GError **error)
{
  g_autoptr (GArray) ids = g_array_new (FALSE, FALSE, sizeof (CwId));
  const char *name = edit_name (wish->marks);
  guint before = piece_on_table (self)->marks->len;
  CwEdit *edit
    = cw_make_add_marks (cw_document_get_design (self->document), piece_on_table (self)->id,
                         g_steal_pointer (&wish->marks),
                         !cw_measure_line_says_way (gtk_editable_get_text (GTK_EDITABLE (self->entry))), error);

  if (edit == NULL)
    return FALSE;
  cw_document_do (self->document, name, edit);
  for (guint i = before; i < piece_on_table (self)->marks->len; i++)
    {
      CwId id = { CW_ID_MARK, cw_document_get_piece (self->document), i, 0 };

      g_array_append_val (ids, id);
    }
  cw_document_select (self->document, (const CwId *) (gpointer) ids->data, ids->len);
  return TRUE;
}

static gboolean
carry_out (CwMeasureEntry *self, CwMeasureWish *wish, GError **error)
{
  guint piece, panel;

  switch (wish->what)
    {
    case CW_MEASURE_RIM:
      return find_panel (self, wish, &piece, &panel, error)
             && cw_lay_rim (self->document, piece, panel, face_up (self), wish->rim, error);
    case CW_MEASURE_LAYER:
    case CW_MEASURE_GLUE:
    case CW_MEASURE_PICTURE:
      return cw_lay_area (self->document, wish, g_ptr_array_index (wish->marks, 0), face_up (self), error);
    case CW_MEASURE_MARKS:
    default:
      return add_marks (self, wish, error);
    }
}

static void
activated (GtkEntry *entry, CwMeasureEntry *self)
{
  g_autoptr (GError) error = NULL;
  g_auto (CwMeasureWish) wish = { 0 };

  if (!read_line (self, &wish, &error))
    {
      refresh (self);
      return;
    }
  if (!carry_out (self, &wish, &error))
    {
      say (self, error->message, TRUE);
      return;
    }
  cw_document_set_preview (self->document, NULL);
  clear (self);
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
  GtkWidget *window = gtk_scrolled_window_new ();

  g_return_if_fail (CW_IS_MEASURE_ENTRY (self));

  /* What is too wide for the window is scrolled to by the keys and the wheel; it does not make the window wider. */
  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (window), GTK_POLICY_EXTERNAL, GTK_POLICY_NEVER);
  gtk_widget_set_focusable (window, FALSE);
  gtk_widget_set_hexpand (window, TRUE);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (window), widget);
  gtk_box_append (GTK_BOX (self->row), window);
  self->beside = window;
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

  if (!cw_document_follow (&self->document, document, self))
    return;
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

  cw_document_follow (&self->document, NULL, self);
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
