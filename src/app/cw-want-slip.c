/* cw-want-slip.c: the slip on which the maker says what the finished card is to be.
 *
 * What must and must not show is said of the panel that is selected, on the sheet or the card: click a panel, choose.
 * Everything wanted so far stands below, each to be taken back.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "cw-want-slip.h"

#include <glib/gi18n-lib.h>

#include "cw-slip.h"
#include "design/cw-step-words.h"
#include "make/cw-make-piece.h"

#define N_RESTS 2

struct _CwWantSlip
{
  GtkBox parent_instance;

  GtkWidget *size[2], *envelope[2];
  GtkWidget *panel_name, *click_hint, *wishes_part, *wishes[N_RESTS];
  GtkWidget *list, *list_part;

  CwDocument *document;
  char *shape; /* of the list shown */
};

G_DEFINE_FINAL_TYPE (CwWantSlip, cw_want_slip, GTK_TYPE_BOX)

static const char *const rests[N_RESTS] = { "closed", "open" };
static const char *const wish_words[]
  = { N_ ("May show or not"), N_ ("Must not show"), N_ ("Must show in front"), N_ ("Must show at the back"), NULL };

static CwDesign *
get_design (CwWantSlip *self)
{
  return cw_document_get_design (self->document);
}

/* Panels are known as long as the pieces are those that were looked at; what is wanted of them may have changed. */
static CwAnalysis *
get_analysis (CwWantSlip *self)
{
  CwAnalysis *analysis = cw_document_get_analysis (self->document);

  return analysis != NULL && analysis->design->pieces == get_design (self)->pieces ? analysis : NULL;
}

/* The panel that is selected. */
static const CwPanelMap *
get_panel (CwWantSlip *self, guint *panel)
{
  guint n = 0;
  const CwId *ids = cw_document_get_selection (self->document, &n);
  CwAnalysis *analysis = get_analysis (self);

  if (analysis == NULL)
    return NULL;
  for (guint i = 0; i < n; i++)
    if (ids[i].kind == CW_ID_PANEL && ids[i].piece < analysis->panels->n_pieces
        && ids[i].index < analysis->panels->maps[ids[i].piece].panels->len)
      {
        *panel = ids[i].index;
        return &analysis->panels->maps[ids[i].piece];
      }
  return NULL;
}

/* --- sizes ------------------------------------------------------------------------------------------------------- */

/* Both measures or none: with one typed the other is what it was, or the same. */
static void
size_taken (GtkWidget *entry, const char *text, gpointer data)
{
  CwWantSlip *self = data;
  const CwWants *wants = &get_design (self)->head->wants;
  gboolean envelope = entry == self->envelope[0] || entry == self->envelope[1];
  guint which = entry == self->size[1] || entry == self->envelope[1];
  gboolean has = envelope ? wants->has_envelope : wants->has_size;
  CwLength value = { 0 }, both[2];
  const CwLength *old = envelope ? wants->envelope : wants->size;
  g_autoptr (GError) error = NULL;
  CwEdit *edit = NULL;

  if (*text != '\0' && !cw_length_parse (text, get_design (self)->head->unit, &value, &error))
    {
      cw_document_say (self->document, error->message);
      cw_slip_entry_refuse (entry);
      return;
    }
  if (*text != '\0' && value.ticks <= 0)
    {
      cw_document_say (self->document, _ ("A size is more than 0."));
      cw_slip_entry_refuse (entry);
      return;
    }
  for (guint i = 0; i < 2; i++)
    both[i] = i == which || !has ? value : old[i];
  if (envelope)
    edit = *text != '\0' ? cw_make_set_envelope (get_design (self), &both[0], &both[1])
                         : cw_make_set_envelope (get_design (self), NULL, NULL);
  else
    edit = *text != '\0' ? cw_make_set_closed_size (get_design (self), &both[0], &both[1])
                         : cw_make_set_closed_size (get_design (self), NULL, NULL);
  cw_document_do (self->document, envelope ? _ ("change envelope") : _ ("change closed size"), edit);
}

static void
show_sizes (GtkWidget *const *entries, gboolean has, const CwLength *lengths)
{
  for (guint i = 0; i < 2; i++)
    {
      g_autofree char *text = has ? cw_length_format (lengths[i]) : g_strdup ("");

      cw_slip_entry_show (entries[i], text);
    }
}

/* --- what must and must not show --------------------------------------------------------------------------------- */

static void
wish_chosen (GtkDropDown *choice, GParamSpec *spec, CwWantSlip *self)
{
  guint panel = 0, rest = GTK_WIDGET (choice) == self->wishes[1];
  const CwPanelMap *map = get_panel (self, &panel);
  g_autoptr (GError) error = NULL;
  CwEdit *edit = NULL;

  if (map == NULL)
    return;
  edit = cw_make_set_wish (get_design (self), map->piece->id, panel, rests[rest],
                           (CwMakeWish) gtk_drop_down_get_selected (choice), &error);
  if (edit == NULL)
    cw_document_say (self->document, error->message);
  else
    cw_document_do (self->document, _ ("change what must show"), edit);
}

static char *
dup_panel_name (const CwPanelMap *map, guint panel)
{
  const CwPanel *found = &g_array_index (map->panels, CwPanel, panel);
  const char *piece = map->piece->name != NULL ? map->piece->name : map->piece->id;

  if (map->panels->len == 1)
    return g_strdup (piece);
  if (found->name != NULL)
    /* Translators: a panel and its piece, such as "left door of Card base". */
    return g_strdup_printf (_ ("%s of %s"), found->name, piece);
  return g_strdup_printf (_ ("Panel %u of %s"), panel + 1, piece);
}

static void
show_panel (CwWantSlip *self)
{
  guint panel = 0;
  const CwPanelMap *map = NULL;
  const char *words[G_N_ELEMENTS (wish_words)] = { NULL };
  g_autofree char *name = NULL;

  if (self->document == NULL)
    return;
  map = get_panel (self, &panel);
  gtk_widget_set_visible (self->click_hint, map == NULL);
  gtk_widget_set_visible (self->wishes_part, map != NULL);
  if (map == NULL)
    return;
  name = dup_panel_name (map, panel);
  gtk_label_set_text (GTK_LABEL (self->panel_name), name);
  for (guint i = 0; wish_words[i] != NULL; i++)
    words[i] = _ (wish_words[i]);
  for (guint i = 0; i < N_RESTS; i++)
    cw_slip_choice_show (self->wishes[i], words, cw_make_get_wish (get_design (self), map->piece->id, panel, rests[i]));
}

/* --- what is wanted so far --------------------------------------------------------------------------------------- */

/* "closed", or the step's own words. */
static char *
dup_state_words (CwWantSlip *self, const char *state)
{
  const CwStep *step = cw_design_get_step (get_design (self), state);
  g_autofree char *title = NULL;

  if (g_strcmp0 (state, "closed") == 0)
    return g_strdup (_ ("when closed"));
  if (g_strcmp0 (state, "open") == 0)
    return g_strdup (_ ("when open"));
  if (step == NULL)
    return g_strdup (state != NULL ? state : "");
  title = cw_step_dup_title (get_design (self), step);
  return g_strdup_printf (_ ("after “%s”"), title);
}

static char *
dup_want_words (CwWantSlip *self, const CwSightWant *want, gboolean hidden)
{
  const CwPiece *piece = cw_design_get_piece (get_design (self), want->target.piece);
  g_autofree char *state = dup_state_words (self, want->state), *name = NULL;
  CwAnalysis *analysis = get_analysis (self);

  if (want->target.has_panel && analysis != NULL)
    {
      const CwPanelMap *map = &analysis->panels->maps[cw_design_find_piece (get_design (self), want->target.piece)];
      guint panel = cw_panel_map_find (map, cw_place_get_point (&want->target.panel));

      if (panel < map->panels->len)
        name = dup_panel_name (map, panel);
    }
  if (name == NULL)
    name = g_strdup (piece != NULL && piece->name != NULL ? piece->name : want->target.piece);
  if (hidden)
    return want->from == CW_FACE_FRONT ? g_strdup_printf (_ ("%s must not show in front, %s"), name, state)
                                       : g_strdup_printf (_ ("%s must not show at the back, %s"), name, state);
  return want->from == CW_FACE_FRONT ? g_strdup_printf (_ ("%s must show in front, %s"), name, state)
                                     : g_strdup_printf (_ ("%s must show at the back, %s"), name, state);
}

static void
drop_clicked (GtkButton *button, CwWantSlip *self)
{
  guint index = GPOINTER_TO_UINT (g_object_get_data (G_OBJECT (button), "cw-index"));
  gboolean hidden = GPOINTER_TO_INT (g_object_get_data (G_OBJECT (button), "cw-hidden"));
  CwHead *head = cw_head_copy (get_design (self)->head);
  GPtrArray *wants = hidden ? head->wants.hidden : head->wants.shown;

  if (index < wants->len)
    g_ptr_array_remove_index (wants, index);
  cw_document_do (self->document, _ ("change what must show"), cw_edit_new_head (get_design (self), head));
}

static void
add_want (CwWantSlip *self, const CwSightWant *want, guint index, gboolean hidden)
{
  GtkWidget *row = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 6), *label = NULL, *button = NULL;
  g_autofree char *words = dup_want_words (self, want, hidden), *out = NULL;

  label = gtk_label_new (words);
  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_max_width_chars (GTK_LABEL (label), 24);
  gtk_widget_set_hexpand (label, TRUE);
  /* Translators: takes back a want, such as "Tile must show in front, when closed". */
  out = g_strdup_printf (_ ("No longer: %s"), words);
  button = gtk_button_new_from_icon_name ("list-remove-symbolic");
  gtk_widget_add_css_class (button, "flat");
  gtk_widget_set_valign (button, GTK_ALIGN_START);
  gtk_widget_set_tooltip_text (button, out);
  gtk_accessible_update_property (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_PROPERTY_LABEL, out, -1);
  g_object_set_data (G_OBJECT (button), "cw-index", GUINT_TO_POINTER (index));
  g_object_set_data (G_OBJECT (button), "cw-hidden", GINT_TO_POINTER (hidden));
  g_signal_connect (button, "clicked", G_CALLBACK (drop_clicked), self);
  gtk_box_append (GTK_BOX (row), label);
  gtk_box_append (GTK_BOX (row), button);
  gtk_box_append (GTK_BOX (self->list), row);
}

static char *
dup_shape (CwWantSlip *self)
{
  const CwWants *wants = &get_design (self)->head->wants;
  GString *shape = g_string_new (NULL);

  for (guint i = 0; i < wants->hidden->len; i++)
    {
      g_autofree char *words = dup_want_words (self, g_ptr_array_index (wants->hidden, i), TRUE);

      g_string_append_printf (shape, "%s\n", words);
    }
  for (guint i = 0; i < wants->shown->len; i++)
    {
      g_autofree char *words = dup_want_words (self, g_ptr_array_index (wants->shown, i), FALSE);

      g_string_append_printf (shape, "%s\n", words);
    }
  return g_string_free (shape, FALSE);
}

static void
show_list (CwWantSlip *self)
{
  const CwWants *wants = &get_design (self)->head->wants;
  g_autofree char *shape = dup_shape (self);
  GtkWidget *child = NULL;

  if (g_strcmp0 (shape, self->shape) == 0)
    return;
  g_free (self->shape);
  self->shape = g_steal_pointer (&shape);
  while ((child = gtk_widget_get_first_child (self->list)) != NULL)
    gtk_box_remove (GTK_BOX (self->list), child);
  for (guint i = 0; i < wants->hidden->len; i++)
    add_want (self, g_ptr_array_index (wants->hidden, i), i, TRUE);
  for (guint i = 0; i < wants->shown->len; i++)
    add_want (self, g_ptr_array_index (wants->shown, i), i, FALSE);
  gtk_widget_set_visible (self->list_part, wants->hidden->len + wants->shown->len > 0);
}

static void
show_wants (CwWantSlip *self)
{
  const CwWants *wants = NULL;

  if (self->document == NULL)
    return;
  wants = &get_design (self)->head->wants;
  show_sizes (self->size, wants->has_size, wants->size);
  show_sizes (self->envelope, wants->has_envelope, wants->envelope);
  show_list (self);
  show_panel (self);
}

/**
 * cw_want_slip_set_document:
 * @self: the slip
 * @document: (nullable): whose wants to show
 */
void
cw_want_slip_set_document (CwWantSlip *self, CwDocument *document)
{
  g_return_if_fail (CW_IS_WANT_SLIP (self));

  if (!cw_document_follow (&self->document, document, self))
    return;
  if (document != NULL)
    {
      g_signal_connect_object (document, "changed", G_CALLBACK (show_wants), self, G_CONNECT_SWAPPED);
      g_signal_connect_object (document, "analysed", G_CALLBACK (show_wants), self, G_CONNECT_SWAPPED);
      g_signal_connect_object (document, "selection", G_CALLBACK (show_panel), self, G_CONNECT_SWAPPED);
    }
  show_wants (self);
}

static void
cw_want_slip_dispose (GObject *object)
{
  CwWantSlip *self = CW_WANT_SLIP (object);

  cw_document_follow (&self->document, NULL, self);
  g_clear_pointer (&self->shape, g_free);
  G_OBJECT_CLASS (cw_want_slip_parent_class)->dispose (object);
}

static void
cw_want_slip_class_init (CwWantSlipClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = cw_want_slip_dispose;
}

/* Two entries with a cross between them. */
static void
add_size (CwWantSlip *self, GtkWidget *body, const char *words, const char *width, const char *height,
          GtkWidget **entries)
{
  GtkWidget *pair = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 6);

  for (guint i = 0; i < 2; i++)
    {
      entries[i] = cw_slip_entry_new (size_taken, self);
      gtk_widget_set_direction (entries[i], GTK_TEXT_DIR_LTR); /* fractions keep their order */
      gtk_widget_set_hexpand (entries[i], TRUE);
      gtk_accessible_update_property (GTK_ACCESSIBLE (entries[i]), GTK_ACCESSIBLE_PROPERTY_LABEL, i ? height : width,
                                      -1);
      gtk_widget_set_tooltip_text (entries[i], i ? height : width);
      if (i > 0)
        gtk_box_append (GTK_BOX (pair), gtk_label_new ("×"));
      gtk_box_append (GTK_BOX (pair), entries[i]);
    }
  cw_slip_add_row (body, words, pair, TRUE);
}

static void
cw_want_slip_init (CwWantSlip *self)
{
  static const char *const words[N_RESTS] = { N_ ("When closed"), N_ ("When open") };
  GtkWidget *body = cw_slip_fill (GTK_BOX (self), _ ("What I want of the card"), NULL);

  add_size (self, body, _ ("Closed size, width and height"), _ ("Width of the closed card"),
            _ ("Height of the closed card"), self->size);
  add_size (self, body, _ ("Envelope, width and height"), _ ("Width of the envelope"), _ ("Height of the envelope"),
            self->envelope);
  cw_slip_add_heading (body, _ ("What must and must not show"));
  self->click_hint = cw_slip_add_hint (body, _ ("Click a panel on the sheet or the card to say it of that panel."));
  self->wishes_part = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6);
  self->panel_name = cw_slip_add_hint (self->wishes_part, "");
  for (guint i = 0; i < N_RESTS; i++)
    {
      self->wishes[i] = cw_slip_choice_new (G_CALLBACK (wish_chosen), self);
      cw_slip_add_row (self->wishes_part, _ (words[i]), self->wishes[i], TRUE);
    }
  gtk_box_append (GTK_BOX (body), self->wishes_part);
  self->list_part = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6);
  cw_slip_add_heading (self->list_part, _ ("Wanted so far"));
  self->list = gtk_box_new (GTK_ORIENTATION_VERTICAL, 4);
  gtk_box_append (GTK_BOX (self->list_part), self->list);
  gtk_box_append (GTK_BOX (body), self->list_part);
  gtk_widget_set_visible (self->list_part, FALSE);
  gtk_widget_set_visible (self->wishes_part, FALSE);
}
