/* cw-table-arrange.c: marks copied and put down again, mirrored, turned, spread, repeated and lined up.
 *
 * Ways are meant as the sheet lies; the kernel wants them in the piece's own coordinates. The clipboard carries marks
 * as the text of a small design.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "cw-table-private.h"
#include "make/cw-make-arrange.h"

#include <glib/gi18n-lib.h>

/* Ids of the marks selected on the piece that lies there, NULL-terminated; borrowed strings. */
static GPtrArray *
selected_ids (CwTable *self)
{
  g_autoptr (GPtrArray) marks = cw_table_get_selected_marks (self, cw_document_get_piece (self->document));
  GPtrArray *ids = g_ptr_array_new ();

  for (guint i = 0; i < marks->len; i++)
    g_ptr_array_add (ids, ((CwMark *) g_ptr_array_index (marks, i))->id);
  g_ptr_array_add (ids, NULL);
  return ids;
}

static const char *
piece_id (CwTable *self)
{
  return ((CwPiece *) g_ptr_array_index (cw_document_get_design (self->document)->pieces,
                                         cw_document_get_piece (self->document)))
    ->id;
}

/* Does an edit that adds marks at the end of the piece's list, and selects them. */
static void
do_and_select_new (CwTable *self, const char *name, CwEdit *edit, GError *error)
{
  guint at = cw_document_get_piece (self->document);
  const CwPiece *piece = g_ptr_array_index (cw_document_get_design (self->document)->pieces, at);
  guint before = piece->marks->len;
  g_autoptr (GArray) ids = g_array_new (FALSE, TRUE, sizeof (CwId));

  cw_document_try (self->document, name, edit, error);
  piece = g_ptr_array_index (cw_document_get_design (self->document)->pieces, at);
  for (guint i = before; i < piece->marks->len; i++)
    g_array_append_val (ids, ((CwId){ CW_ID_MARK, at, i, 0 }));
  if (ids->len > 0)
    cw_document_select (self->document, (const CwId *) (gpointer) ids->data, ids->len);
}

/* ---- The clipboard ---- */

static void
copy (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  CwTable *self = data;
  g_autoptr (GPtrArray) ids = NULL;
  g_autofree char *text = NULL;

  if (!cw_table_is_ready (self))
    return;
  ids = selected_ids (self);
  if (ids->len < 2)
    return;
  text = cw_make_copy_text (cw_document_get_design (self->document), piece_id (self), (const char *const *) ids->pdata);
  gdk_clipboard_set_text (gtk_widget_get_clipboard (GTK_WIDGET (self)), text);
  if (g_str_equal (g_action_get_name (G_ACTION (action)), "cut"))
    {
      GError *error = NULL;
      CwEdit *edit = cw_make_remove_marks (cw_document_get_design (self->document), piece_id (self),
                                           (const char *const *) ids->pdata, &error);

      cw_document_try (self->document, ids->len == 2 ? _ ("cut out mark") : _ ("cut out marks"), edit, error);
    }
}

static void
pasted (GObject *source, GAsyncResult *result, gpointer data)
{
  g_autoptr (CwTable) self = data;
  g_autofree char *text = gdk_clipboard_read_text_finish (GDK_CLIPBOARD (source), result, NULL);
  GError *error = NULL;
  CwEdit *edit;

  if (!cw_table_is_ready (self))
    return;
  edit = cw_make_paste_text (cw_document_get_design (self->document), piece_id (self), text ? text : "", &error);
  do_and_select_new (self, _ ("paste marks"), edit, error);
}

static void
paste (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  CwTable *self = data;

  if (cw_table_is_ready (self))
    gdk_clipboard_read_text_async (gtk_widget_get_clipboard (GTK_WIDGET (self)), NULL, pasted, g_object_ref (self));
}

/* Whether there is text on the clipboard that may be marks; what it is shows when it is put down. */
gboolean
cw_table_can_paste (CwTable *self)
{
  GdkContentFormats *formats = gdk_clipboard_get_formats (gtk_widget_get_clipboard (GTK_WIDGET (self)));

  return gdk_content_formats_contain_gtype (formats, G_TYPE_STRING)
         || gdk_content_formats_contain_mime_type (formats, "text/plain")
         || gdk_content_formats_contain_mime_type (formats, "text/plain;charset=utf-8");
}

/* ---- Mirrored, turned, spread, lined up ---- */

typedef CwEdit *(*Arrange) (CwTable *self, const CwDesign *design, const char *piece, const char *const *ids,
                            gconstpointer data, GError **error);

static void
arrange (CwTable *self, const char *name, Arrange func, gconstpointer data, gboolean adds)
{
  g_autoptr (GPtrArray) ids = NULL;
  GError *error = NULL;
  CwEdit *edit;

  if (!cw_table_is_ready (self))
    return;
  ids = selected_ids (self);
  if (ids->len < 2)
    return;
  edit = func (self, cw_document_get_design (self->document), piece_id (self), (const char *const *) ids->pdata, data,
               &error);
  if (adds)
    do_and_select_new (self, name, edit, error);
  else
    cw_document_try (self->document, name, edit, error);
}

/* Whether what is across as the sheet lies is across on the piece. */
static gboolean
across_on_piece (CwTable *self, gboolean across)
{
  CwPoint way = cw_hand_lying_step (self->view.lie, across, !across);

  return way.x != 0;
}

static CwEdit *
mirror_edit (CwTable *self, const CwDesign *design, const char *piece, const char *const *ids, gconstpointer data,
             GError **error)
{
  return cw_make_mirror_marks (design, piece, ids, across_on_piece (self, g_str_equal (data, "across")), error);
}

static void
mirror (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  arrange (data, _ ("mirror"), mirror_edit, g_variant_get_string (parameter, NULL), FALSE);
}

static CwEdit *
mirror_copy_edit (CwTable *self, const CwDesign *design, const char *piece, const char *const *ids, gconstpointer data,
                  GError **error)
{
  return cw_make_mirror_copy (design, piece, ids, across_on_piece (self, g_str_equal (data, "across")), error);
}

static void
mirror_copy (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  arrange (data, _ ("mirror a copy"), mirror_copy_edit, g_variant_get_string (parameter, NULL), TRUE);
}

static CwEdit *
turn_edit (CwTable *self, const CwDesign *design, const char *piece, const char *const *ids, gconstpointer data,
           GError **error)
{
  guint quarters = *(const guint *) data;

  return cw_make_turn_marks (design, piece, ids, self->view.lie.flipped ? (4 - quarters) % 4 : quarters, error);
}

static void
turn_marks (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  guint quarters = (guint) (g_variant_get_int32 (parameter) & 3);

  arrange (data, _ ("turn marks"), turn_edit, &quarters, FALSE);
}

static CwEdit *
spread_edit (CwTable *self, const CwDesign *design, const char *piece, const char *const *ids, gconstpointer data,
             GError **error)
{
  return cw_make_spread_marks (design, piece, ids, error);
}

static void
spread (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  arrange (data, _ ("spread evenly"), spread_edit, NULL, FALSE);
}

typedef struct
{
  const char *where, *to;
} Align;

static CwEdit *
align_edit (CwTable *self, const CwDesign *design, const char *piece, const char *const *ids, gconstpointer data,
            GError **error)
{
  static const struct
  {
    const char *name;
    int right, down;
  } ways[] = { { "left", -1, 0 }, { "right", 1, 0 }, { "top", 0, -1 }, { "bottom", 0, 1 } };
  const Align *align = data;
  CwMakeAlign where = across_on_piece (self, g_str_equal (align->where, "middle-across")) ? CW_ALIGN_MIDDLE_ACROSS
                                                                                          : CW_ALIGN_MIDDLE_DOWN;

  for (guint i = 0; i < G_N_ELEMENTS (ways); i++)
    if (g_str_equal (ways[i].name, align->where))
      {
        CwPoint way = cw_hand_lying_step (self->view.lie, ways[i].right, ways[i].down);

        where = way.x < 0 ? CW_ALIGN_LEFT : way.x > 0 ? CW_ALIGN_RIGHT : way.y < 0 ? CW_ALIGN_TOP : CW_ALIGN_BOTTOM;
      }
  return cw_make_align_marks (design, piece, ids, where, align->to, error);
}

/* To the sheet, or "align-to": to the mark that was selected first. */
static void
align (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  CwTable *self = data;
  Align align = { g_variant_get_string (parameter, NULL), NULL };
  g_autoptr (GPtrArray) ids = NULL;

  if (!cw_table_is_ready (self))
    return;
  ids = selected_ids (self);
  if (g_str_equal (g_action_get_name (G_ACTION (action)), "align-to") && ids->len > 1)
    align.to = g_ptr_array_index (ids, 0);
  arrange (self, _ ("line up"), align_edit, &align, FALSE);
}

/* ---- Repeated ---- */

typedef struct
{
  CwPoint by;
  guint times;
} Repeat;

static CwEdit *
repeat_edit (CwTable *self, const CwDesign *design, const char *piece, const char *const *ids, gconstpointer data,
             GError **error)
{
  const Repeat *repeat = data;

  return cw_make_repeat_marks (design, piece, ids, repeat->by, repeat->times, error);
}

static void
repeat_now (CwTable *self)
{
  static const int ways[][2] = { { 1, 0 }, { -1, 0 }, { 0, 1 }, { 0, -1 } };
  guint way = gtk_drop_down_get_selected (GTK_DROP_DOWN (self->repeat_way));
  g_autoptr (GError) error = NULL;
  CwLength distance;
  Repeat repeat;

  if (!cw_table_is_ready (self) || way >= G_N_ELEMENTS (ways))
    return;
  if (!cw_measure_length_read (gtk_editable_get_text (GTK_EDITABLE (self->repeat_distance)),
                               cw_document_get_design (self->document)->head, &distance, &error))
    {
      gtk_widget_add_css_class (self->repeat_distance, "error");
      cw_document_say (self->document, error->message);
      return;
    }
  gtk_widget_remove_css_class (self->repeat_distance, "error");
  repeat.by = cw_hand_lying_step (self->view.lie, ways[way][0], ways[way][1]);
  repeat.by = cw_point (repeat.by.x * distance.ticks, repeat.by.y * distance.ticks);
  repeat.times = (guint) gtk_spin_button_get_value_as_int (GTK_SPIN_BUTTON (self->repeat_times));
  gtk_popover_popdown (GTK_POPOVER (self->repeat_popover));
  arrange (self, _ ("repeat"), repeat_edit, &repeat, TRUE);
  gtk_widget_grab_focus (GTK_WIDGET (self));
}

static void
name_widget (GtkWidget *widget, const char *name)
{
  gtk_widget_set_tooltip_text (widget, name);
  gtk_accessible_update_property (GTK_ACCESSIBLE (widget), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
}

/* "Every [1/2 in] [to the right], [3] times [Repeat]" as a small slip on the table. */
static void
make_repeat_popover (CwTable *self)
{
  const char *const ways[] = { _ ("to the right"), _ ("to the left"), _ ("downward"), _ ("upward"), NULL };
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 6), *button = gtk_button_new_with_label (_ ("Repeat"));

  self->repeat_popover = gtk_popover_new ();
  self->repeat_distance = gtk_entry_new ();
  gtk_editable_set_width_chars (GTK_EDITABLE (self->repeat_distance), 8);
  gtk_editable_set_max_width_chars (GTK_EDITABLE (self->repeat_distance), 8);
  gtk_editable_set_text (GTK_EDITABLE (self->repeat_distance),
                         cw_table_get_unit (self) == CW_UNIT_INCH ? "1/2 in" : "10 mm");
  gtk_widget_set_direction (self->repeat_distance, GTK_TEXT_DIR_LTR);
  name_widget (self->repeat_distance, _ ("How far from one to the next"));
  self->repeat_way = gtk_drop_down_new_from_strings (ways);
  name_widget (self->repeat_way, _ ("Which way"));
  self->repeat_times = gtk_spin_button_new_with_range (1, CW_MAKE_PARTS_MAX, 1);
  name_widget (self->repeat_times, _ ("How many copies"));
  gtk_widget_add_css_class (button, "suggested-action");
  gtk_box_append (GTK_BOX (box), gtk_label_new (_ ("Every")));
  gtk_box_append (GTK_BOX (box), self->repeat_distance);
  gtk_box_append (GTK_BOX (box), self->repeat_way);
  gtk_box_append (GTK_BOX (box), self->repeat_times);
  gtk_box_append (GTK_BOX (box), gtk_label_new (_ ("times")));
  gtk_box_append (GTK_BOX (box), button);
  gtk_popover_set_child (GTK_POPOVER (self->repeat_popover), box);
  gtk_widget_set_parent (self->repeat_popover, GTK_WIDGET (self));
  g_signal_connect_swapped (button, "clicked", G_CALLBACK (repeat_now), self);
  g_signal_connect_swapped (self->repeat_distance, "activate", G_CALLBACK (repeat_now), self);
}

static void
repeat (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  CwTable *self = data;
  double box[4];
  guint n;
  const CwId *ids;

  if (!cw_table_is_ready (self))
    return;
  ids = cw_document_get_selection (self->document, &n);
  if (n == 0 || !cw_table_get_box (self, &ids[0], box))
    return;
  if (self->repeat_popover == NULL)
    make_repeat_popover (self);
  gtk_popover_set_pointing_to (GTK_POPOVER (self->repeat_popover),
                               &(GdkRectangle){ (int) ((box[0] + box[2]) / 2), (int) ((box[1] + box[3]) / 2), 1, 1 });
  gtk_popover_popup (GTK_POPOVER (self->repeat_popover));
  gtk_widget_grab_focus (self->repeat_distance);
}

/* The selected panel scored into equal parts: how many, and whether side by side as the sheet lies. */
static void
divide (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  CwTable *self = data;
  GError *error = NULL;
  gboolean beside;
  int parts;
  CwEdit *edit;
  CwId id;

  g_variant_get (parameter, "(ib)", &parts, &beside);
  if (!cw_table_needs_fresh (self) || !cw_table_get_panel (self, &id) || parts < 2 || parts > CW_MAKE_PARTS_MAX)
    return;
  edit
    = cw_make_divide_panel (cw_document_get_design (self->document), self->analysis->panels->maps[id.piece].piece->id,
                            id.index, (guint) parts, across_on_piece (self, beside), &error);
  cw_document_try (self->document, _ ("divide evenly"), edit, error);
}

void
cw_table_add_arrange_actions (CwTable *self)
{
  static const GActionEntry entries[] = {
    { "copy", copy },
    { "cut", copy },
    { "paste", paste },
    { "mirror", mirror, "s" },
    { "mirror-copy", mirror_copy, "s" },
    { "turn-marks", turn_marks, "i" },
    { "spread", spread },
    { "align", align, "s" },
    { "align-to", align, "s" },
    { "repeat", repeat },
    { "divide", divide, "(ib)" },
  };

  g_action_map_add_action_entries (G_ACTION_MAP (self->actions), entries, G_N_ELEMENTS (entries), self);
}
