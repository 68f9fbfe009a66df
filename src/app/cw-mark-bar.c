/* cw-mark-bar.c: what is selected, its measures as entries, and what is most often done with it as buttons.
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

#include "make/cw-make-area.h"
#include "text/cw-mark-measures.h"

struct _CwMarkBar
{
  GtkBox parent_instance;

  /* Template */
  GtkWidget *name, *nothing, *ways, *press, *remove, *measures, *edge, *lay, *rim, *glue, *picture;
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

/* The one mark, zone or picture area that is selected, as an outline on its piece. */
typedef struct
{
  CwId id;
  CwPiece *piece;
  CwMark *outline; /* owned; a mark itself is shared */
} Thing;

static void
thing_clear (Thing *thing)
{
  g_clear_pointer (&thing->outline, cw_mark_unref);
}
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Thing, thing_clear)

static Thing
find_thing (CwMarkBar *self, const CwId *id)
{
  CwDesign *design = cw_document_get_design (self->document);
  Thing thing = { *id, id->kind == CW_ID_ZONE ? NULL : selected_piece (self, id), NULL };

  if ((id->kind == CW_ID_MARK || id->kind == CW_ID_MARK_END) && thing.piece != NULL
      && id->index < thing.piece->marks->len)
    thing.outline = cw_mark_ref (g_ptr_array_index (thing.piece->marks, id->index));
  else if (id->kind == CW_ID_ART && thing.piece != NULL && id->index < thing.piece->art->len)
    thing.outline = cw_make_outline_of_art (g_ptr_array_index (thing.piece->art, id->index));
  else if (id->kind == CW_ID_ZONE && id->index < design->glue->len)
    {
      const CwGlue *glue = g_ptr_array_index (design->glue, id->index);

      thing.piece = cw_design_get_piece (design, glue->piece);
      thing.outline = cw_make_outline_of_glue (glue);
    }
  return thing;
}

/* The one thing with an outline that is selected; none when there are several. n gets how many there are. */
static Thing
selected_thing (CwMarkBar *self, guint *n)
{
  guint n_ids = 0;
  const CwId *ids = cw_document_get_selection (self->document, &n_ids);
  Thing only = { 0 };

  *n = 0;
  for (guint i = 0; i < n_ids; i++)
    {
      Thing thing = find_thing (self, &ids[i]);

      if (thing.outline == NULL)
        continue;
      (*n)++;
      thing_clear (&only);
      only = thing;
    }
  if (*n > 1)
    thing_clear (&only);
  return only;
}

/* The panel selected, when nothing with an outline is. */
static const CwPanel *
selected_panel (CwMarkBar *self, CwId *id)
{
  CwAnalysis *analysis = cw_document_get_analysis (self->document);
  guint n = 0;
  const CwId *ids = cw_document_get_selection (self->document, &n);

  if (n != 1 || ids[0].kind != CW_ID_PANEL || analysis == NULL || ids[0].piece >= analysis->panels->n_pieces
      || ids[0].index >= analysis->panels->maps[ids[0].piece].panels->len)
    return NULL;
  *id = ids[0];
  return &g_array_index (analysis->panels->maps[ids[0].piece].panels, CwPanel, ids[0].index);
}

static const char *
move_name (const Thing *thing)
{
  static const char *const names[] = { N_ ("move score"), N_ ("move cut"), N_ ("move window") };

  if (thing->id.kind == CW_ID_ZONE)
    return _ ("move glue");
  return thing->id.kind == CW_ID_ART ? _ ("move picture area") : _ (names[thing->outline->kind]);
}

static void show_mark (CwMarkBar *self);

/* FALSE when the measure cannot be: the entry is marked and the reason told. */
static gboolean
take (CwMarkBar *self, guint index, CwLength value)
{
  GError *error = NULL;
  guint n = 0;
  g_auto (Thing) thing = selected_thing (self, &n);
  CwDesign *design = cw_document_get_design (self->document);
  CwMark *made;
  CwEdit *edit = NULL;

  if (thing.outline == NULL)
    return FALSE;
  made = cw_mark_with_measure (thing.piece, cw_document_get_lie (self->document), thing.outline, &self->shown[index],
                               value);
  if (thing.id.kind == CW_ID_ZONE)
    edit = cw_make_redraw_glue (design, thing.id.index, made, &error);
  else if (thing.id.kind == CW_ID_ART)
    edit = cw_make_redraw_art (design, thing.piece->id, thing.id.index, made, &error);
  else
    edit = cw_make_replace_mark (design, thing.piece->id, cw_mark_ref (made), &error);
  cw_mark_unref (made);
  if (cw_document_try (self->document, move_name (&thing), edit, error))
    return TRUE;
  gtk_widget_add_css_class (self->entries[index], "error");
  return FALSE;
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
  step = cw_head_get_mark_step (cw_document_get_design (self->document)->head);
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
  self->n_shown = mark != NULL ? cw_mark_measures (piece, cw_document_get_lie (self->document),
                                                   cw_document_get_far (self->document), mark, self->shown)
                               : 0;
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
dup_name (CwMarkBar *self, const Thing *thing, guint n, const CwPanel *panel, const CwId *panel_id)
{
  if (panel != NULL)
    {
      const CwPiece *piece = selected_piece (self, panel_id);

      if (panel->name != NULL)
        return g_strdup (panel->name);
      return g_strdup (piece != NULL && piece->name != NULL ? piece->name : _ ("Panel"));
    }
  if (thing->outline == NULL)
    return g_strdup_printf (dngettext (GETTEXT_PACKAGE, "%u thing", "%u things", n), n);
  if (thing->id.kind == CW_ID_ZONE)
    return g_strdup (_ ("Glue"));
  if (thing->id.kind == CW_ID_ART)
    {
      const CwArt *art = g_ptr_array_index (thing->piece->art, thing->id.index);

      return g_strdup (art->label != NULL ? art->label : _ ("Picture"));
    }
  switch (thing->outline->kind)
    {
    case CW_MARK_SCORE:
      return g_strdup_printf (_ ("Score %s"), thing->outline->id);
    case CW_MARK_CUT:
      return g_strdup_printf (_ ("Cut %s"), thing->outline->id);
    case CW_MARK_WINDOW:
    default:
      return g_strdup_printf (_ ("Window %s"), thing->outline->id);
    }
}

static const char *
glue_words (CwMarkBar *self, guint index)
{
  static const char *const words[] = { [CW_GLUE_TAPE] = N_ ("Double-sided tape"),
                                       [CW_GLUE_WET] = N_ ("Wet glue"),
                                       [CW_GLUE_STRONG] = N_ ("Strong tape"),
                                       [CW_GLUE_FOAM] = N_ ("Foam tape"),
                                       [CW_GLUE_DOTS] = N_ ("Glue dots") };

  return _ (words[((CwGlue *) g_ptr_array_index (cw_document_get_design (self->document)->glue, index))->kind]);
}

/* Whether the panel is one of a piece that is stuck on another. */
static gboolean
is_layer (CwMarkBar *self, const CwId *id)
{
  CwDesign *design = cw_document_get_design (self->document);
  const CwPiece *piece = selected_piece (self, id);

  return piece != NULL && piece != cw_design_get_ground (design) && !cw_make_is_loose (design, piece->id);
}

static void
show_mark (CwMarkBar *self)
{
  guint n = 0;
  CwId panel_id = { CW_ID_NONE };
  g_auto (Thing) thing = { 0 };
  const CwPanel *panel = NULL;
  g_autofree char *name = NULL;
  gboolean score, layer;

  if (self->document != NULL)
    {
      thing = selected_thing (self, &n);
      panel = n == 0 ? selected_panel (self, &panel_id) : NULL;
    }
  score = thing.outline != NULL && thing.id.kind == CW_ID_MARK && thing.outline->kind == CW_MARK_SCORE;
  layer = panel != NULL && is_layer (self, &panel_id);
  name = dup_name (self, &thing, n, panel, &panel_id);
  gtk_widget_set_visible (self->nothing, n == 0 && panel == NULL);
  gtk_widget_set_visible (self->name, n > 0 || panel != NULL);
  gtk_widget_set_visible (self->remove, n > 0);
  gtk_widget_set_visible (self->ways, score);
  gtk_widget_set_visible (self->lay, panel != NULL && !layer);
  gtk_widget_set_visible (self->rim, layer);
  gtk_widget_set_visible (self->glue, thing.outline != NULL && thing.id.kind == CW_ID_ZONE);
  gtk_widget_set_visible (self->picture, thing.outline != NULL && thing.id.kind == CW_ID_ART);
  gtk_label_set_text (GTK_LABEL (self->name), name);
  gtk_widget_set_tooltip_text (self->name, name);
  show_measures (self, thing.piece, thing.outline);
  /* Beside a slanted score's four measures and its ways there is no room for one more: there are the key and the menu.
   */
  gtk_widget_set_visible (self->edge, self->n_shown > 0 && !(score && self->n_shown > 3));
  if (gtk_widget_get_visible (self->glue))
    gtk_menu_button_set_label (GTK_MENU_BUTTON (self->glue), glue_words (self, thing.id.index));
  if (score) /* told by "clicked", so that setting it here is no press */
    gtk_toggle_button_set_active (GTK_TOGGLE_BUTTON (self->press), thing.outline->made == CW_MADE_PRESS);
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

  if (!cw_document_follow (&self->document, document, self))
    return;
  if (document != NULL)
    {
      g_signal_connect_object (document, "changed", G_CALLBACK (show_mark), self, G_CONNECT_SWAPPED);
      g_signal_connect_object (document, "analysed", G_CALLBACK (show_mark), self, G_CONNECT_SWAPPED);
      g_signal_connect_object (document, "selection", G_CALLBACK (show_mark), self, G_CONNECT_SWAPPED);
      g_signal_connect_object (document, "lie", G_CALLBACK (show_mark), self, G_CONNECT_SWAPPED);
    }
  show_mark (self);
}

static void
cw_mark_bar_dispose (GObject *object)
{
  CwMarkBar *self = CW_MARK_BAR (object);

  cw_document_follow (&self->document, NULL, self);
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
  gtk_widget_class_bind_template_child (widget_class, CwMarkBar, edge);
  gtk_widget_class_bind_template_child (widget_class, CwMarkBar, lay);
  gtk_widget_class_bind_template_child (widget_class, CwMarkBar, rim);
  gtk_widget_class_bind_template_child (widget_class, CwMarkBar, glue);
  gtk_widget_class_bind_template_child (widget_class, CwMarkBar, picture);
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
      gtk_editable_set_width_chars (GTK_EDITABLE (self->entries[i]), 7);
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
