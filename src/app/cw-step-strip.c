/* cw-step-strip.c: the row of steps.
 *
 * The row is the design's steps, with the flat sheet before them and a word where the using steps begin. Picking a card
 * up, the slider and the play knob all move the document's moment through the player; renaming, moving and taking away
 * are edits like any other. Order changes that the kernel refuses are told in the message line and change nothing.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "cw-step-strip.h"

#include <glib/gi18n-lib.h>

#include "cw-step-slip.h"
#include "make/cw-make.h"
#include "design/cw-step-words.h"

struct _CwStepStrip
{
  GtkBox parent_instance;

  /* Template */
  GtkWidget *cards, *scroller, *play_image, *play_button, *slider;

  /* Owned */
  CwDocument *document;
  CwPlayer *player;
  GPtrArray *row;  /* of CwStepSlip, borrowed; the flat sheet first */
  gboolean inward; /* the slider is being set, not moved */
  guint reveal;    /* waiting for the next frame */
};

G_DEFINE_FINAL_TYPE (CwStepStrip, cw_step_strip, GTK_TYPE_BOX)

static CwStep *
nth_step (CwStepStrip *self, guint index)
{
  return g_ptr_array_index (cw_document_get_design (self->document)->steps, index);
}

/* --- what the maker does ----------------------------------------------------------------------------------------- */

static void
focus_card (CwStepStrip *self, int step)
{
  if (step + 1 >= 0 && (guint) (step + 1) < self->row->len)
    gtk_widget_grab_focus (g_ptr_array_index (self->row, (guint) (step + 1)));
}

static void
picked (CwStepSlip *card, CwStepStrip *self)
{
  cw_player_go_to (self->player, cw_step_slip_get_step (card));
}

static void
renamed (CwStepSlip *card, const char *title, CwStepStrip *self)
{
  CwStep *step = nth_step (self, (guint) cw_step_slip_get_step (card));
  g_autofree char *made = NULL;

  /* The words that the program made are no name of the maker's: left as they are, they stay the program's. */
  made = cw_step_dup_title (cw_document_get_design (self->document), step);
  if (g_strcmp0 (title, made) == 0)
    return;
  cw_document_do (self->document, _ ("rename step"),
                  cw_make_rename_step (cw_document_get_design (self->document), step->id,
                                       *title != '\0' ? title : NULL));
}

static void
move_to (CwStepStrip *self, guint from, int to)
{
  g_autoptr (GError) error = NULL;
  CwDesign *design = cw_document_get_design (self->document);
  CwEdit *edit = NULL;

  if (to < 0 || (guint) to >= design->steps->len || (guint) to == from)
    return;
  edit = cw_make_move_step (design, nth_step (self, from)->id, (guint) to, &error);
  if (edit == NULL)
    {
      cw_document_say (self->document, error->message);
      return;
    }
  cw_player_pause (self->player);
  cw_document_do (self->document, _ ("move step"), edit);
  focus_card (self, to);
}

static void
moved (CwStepSlip *card, int by, CwStepStrip *self)
{
  int step = cw_step_slip_get_step (card);

  move_to (self, (guint) step, step + by);
}

static void
dropped (CwStepSlip *card, CwStepSlip *other, CwStepStrip *self)
{
  if (gtk_widget_is_ancestor (GTK_WIDGET (other), GTK_WIDGET (self)))
    move_to (self, (guint) cw_step_slip_get_step (other), MAX (cw_step_slip_get_step (card), 0));
}

static void
removed (CwStepSlip *card, CwStepStrip *self)
{
  guint index = (guint) cw_step_slip_get_step (card);
  CwDesign *design = cw_document_get_design (self->document);
  g_autoptr (CwEdit) edit = cw_edit_new_remove (design, CW_LIST_STEPS, NULL, index);
  g_autoptr (CwDesign) after = cw_edit_apply (edit, design);
  g_autoptr (GError) error = NULL;

  if (!cw_design_validate (after, &error))
    {
      g_autofree char *said = g_strdup_printf (_ ("“%s” cannot be taken away: something else in the design needs it."),
                                               cw_step_slip_get_title (card));

      cw_document_say (self->document, said);
      return;
    }
  cw_player_pause (self->player);
  cw_document_do (self->document, _ ("take step away"), g_steal_pointer (&edit));
  focus_card (self, (int) index - 1);
}

static void
slid (GtkRange *slider, CwStepStrip *self)
{
  int step = -1;

  if (self->inward || self->document == NULL)
    return;
  step = cw_document_get_step (self->document);
  if (step < 0)
    return;
  cw_player_pause (self->player);
  cw_document_set_moment (self->document, step, gtk_range_get_value (slider) / 100);
}

static gboolean
keyed (GtkEventControllerKey *keys, guint key, guint code, GdkModifierType mods, CwStepStrip *self)
{
  GtkDirectionType way = key == GDK_KEY_Left ? GTK_DIR_LEFT : GTK_DIR_RIGHT;

  if ((key != GDK_KEY_Left && key != GDK_KEY_Right) || (mods & gtk_accelerator_get_default_mod_mask ()) != 0)
    return FALSE;
  return gtk_widget_child_focus (self->cards, way);
}

/* --- what the document says -------------------------------------------------------------------------------------- */

static GtkWidget *
caption (const char *text)
{
  GtkWidget *label = gtk_label_new (text);

  gtk_widget_add_css_class (label, "phase");
  gtk_widget_set_valign (label, GTK_ALIGN_CENTER);
  return label;
}

static void
add_card (CwStepStrip *self, int step)
{
  GtkWidget *card = cw_step_slip_new (step);

  g_signal_connect (card, "picked", G_CALLBACK (picked), self);
  g_signal_connect (card, "renamed", G_CALLBACK (renamed), self);
  g_signal_connect (card, "removed", G_CALLBACK (removed), self);
  g_signal_connect (card, "moved", G_CALLBACK (moved), self);
  g_signal_connect (card, "dropped", G_CALLBACK (dropped), self);
  g_ptr_array_add (self->row, card);
  gtk_box_append (GTK_BOX (self->cards), card);
}

static gboolean
is_using (CwStep *step)
{
  return step->phase == CW_PHASE_USING;
}

/* Whether the row on the table has the cards and captions that the design asks for. */
static char *
row_shape (CwDesign *design)
{
  GString *shape = g_string_new ("-");

  for (guint i = 0; i < design->steps->len; i++)
    g_string_append_c (shape, is_using (g_ptr_array_index (design->steps, i)) ? 'u' : 'm');
  return g_string_free (shape, FALSE);
}

static void
clear_row (CwStepStrip *self)
{
  GtkWidget *child = NULL;

  g_ptr_array_set_size (self->row, 0);
  while ((child = gtk_widget_get_first_child (self->cards)) != NULL)
    gtk_box_remove (GTK_BOX (self->cards), child);
}

static gboolean
reveal_current (GtkWidget *widget, GdkFrameClock *frames, gpointer data)
{
  CwStepStrip *self = CW_STEP_STRIP (widget);
  int step = self->document != NULL ? cw_document_get_step (self->document) : -1;
  GtkAdjustment *sideways = gtk_scrolled_window_get_hadjustment (GTK_SCROLLED_WINDOW (self->scroller));
  graphene_rect_t box;

  self->reveal = 0;
  if ((guint) (step + 1) < self->row->len
      && gtk_widget_compute_bounds (g_ptr_array_index (self->row, (guint) (step + 1)), self->cards, &box))
    gtk_adjustment_clamp_page (sideways, box.origin.x - 40, box.origin.x + box.size.width + 40);
  return G_SOURCE_REMOVE;
}

/* Brings the card of the moment into sight, once the row has its width. */
static void
queue_reveal (CwStepStrip *self)
{
  if (self->reveal == 0)
    self->reveal = gtk_widget_add_tick_callback (GTK_WIDGET (self), reveal_current, NULL, NULL);
}

static void
show_moment (CwStepStrip *self)
{
  int step = self->document != NULL ? cw_document_get_step (self->document) : -1;

  for (guint i = 0; i < self->row->len; i++)
    cw_step_slip_set_current (g_ptr_array_index (self->row, i), (int) i == step + 1);
  self->inward = TRUE;
  gtk_range_set_value (GTK_RANGE (self->slider), step < 0 ? 0 : 100 * cw_document_get_fraction (self->document));
  gtk_widget_set_sensitive (self->slider, step >= 0);
  self->inward = FALSE;
  queue_reveal (self);
}

static void
show_words (CwStepStrip *self)
{
  CwDesign *design = cw_document_get_design (self->document);

  cw_step_slip_set_words (g_ptr_array_index (self->row, 0), "", _ ("The flat sheet"), "");
  for (guint i = 0; i < design->steps->len; i++)
    {
      CwStep *step = g_ptr_array_index (design->steps, i);
      g_autofree char *number = g_strdup_printf ("%u", i + 1);
      g_autofree char *title = cw_step_dup_title (design, step);

      cw_step_slip_set_words (g_ptr_array_index (self->row, i + 1), number, title,
                              is_using (step) ? _ ("Using the card") : _ ("Making the card"));
    }
}

static void
show_design (CwStepStrip *self)
{
  CwDesign *design = cw_document_get_design (self->document);
  g_autofree char *shape = row_shape (design);
  const char *old = g_object_get_data (G_OBJECT (self->cards), "shape");

  if (g_strcmp0 (shape, old) != 0)
    {
      clear_row (self);
      add_card (self, -1);
      for (guint i = 0; i < design->steps->len; i++)
        {
          if (i == 0 || shape[i + 1] != shape[i])
            gtk_box_append (GTK_BOX (self->cards), caption (shape[i + 1] == 'u' ? _ ("Using") : _ ("Making")));
          add_card (self, (int) i);
        }
      g_object_set_data_full (G_OBJECT (self->cards), "shape", g_steal_pointer (&shape), g_free);
    }
  show_words (self);
  show_moment (self);
}

static void
show_pictures (CwStepStrip *self)
{
  CwAnalysis *analysis = cw_document_get_analysis (self->document);

  if (analysis == NULL || !cw_document_is_analysed (self->document))
    return;
  for (guint i = 0; i < self->row->len; i++)
    cw_step_slip_set_picture (g_ptr_array_index (self->row, i), analysis);
}

static void
design_changed (CwStepStrip *self)
{
  show_design (self);
}

static void
playing_changed (CwStepStrip *self)
{
  gboolean playing = cw_player_is_playing (self->player);
  const char *word = playing ? _ ("Pause") : _ ("Play");

  gtk_image_set_from_icon_name (GTK_IMAGE (self->play_image),
                                playing ? "media-playback-pause-symbolic" : "media-playback-start-symbolic");
  gtk_widget_set_tooltip_text (self->play_button, word);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->play_button), GTK_ACCESSIBLE_PROPERTY_LABEL, word, -1);
}

/**
 * cw_step_strip_set_document:
 * @self: the strip
 * @document: (nullable): whose steps to show
 */
void
cw_step_strip_set_document (CwStepStrip *self, CwDocument *document)
{
  g_return_if_fail (CW_IS_STEP_STRIP (self));

  if (document == self->document)
    return;
  if (self->document != NULL)
    g_signal_handlers_disconnect_by_data (self->document, self);
  g_set_object (&self->document, document);
  cw_player_set_document (self->player, document);
  clear_row (self);
  g_object_set_data (G_OBJECT (self->cards), "shape", NULL);
  if (document == NULL)
    return;
  g_signal_connect_object (document, "changed", G_CALLBACK (design_changed), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (document, "analysed", G_CALLBACK (show_pictures), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (document, "moment", G_CALLBACK (show_moment), self, G_CONNECT_SWAPPED);
  show_design (self);
  show_pictures (self);
}

/**
 * cw_step_strip_get_player:
 * @self: the strip
 *
 * Returns: (transfer none): what moves the document's moment
 */
CwPlayer *
cw_step_strip_get_player (CwStepStrip *self)
{
  g_return_val_if_fail (CW_IS_STEP_STRIP (self), NULL);
  return self->player;
}

static void
cw_step_strip_dispose (GObject *object)
{
  CwStepStrip *self = CW_STEP_STRIP (object);

  if (self->reveal != 0)
    gtk_widget_remove_tick_callback (GTK_WIDGET (self), self->reveal);
  self->reveal = 0;
  if (self->player != NULL)
    cw_player_set_document (self->player, NULL);
  if (self->document != NULL)
    g_signal_handlers_disconnect_by_data (self->document, self);
  g_clear_object (&self->document);
  g_clear_object (&self->player);
  g_clear_pointer (&self->row, g_ptr_array_unref);
  G_OBJECT_CLASS (cw_step_strip_parent_class)->dispose (object);
}

static void
cw_step_strip_class_init (CwStepStripClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = cw_step_strip_dispose;
  gtk_widget_class_set_template_from_resource (widget_class, "/org/creasewright/Creasewright/step-strip.ui");
  gtk_widget_class_bind_template_child (widget_class, CwStepStrip, cards);
  gtk_widget_class_bind_template_child (widget_class, CwStepStrip, scroller);
  gtk_widget_class_bind_template_child (widget_class, CwStepStrip, play_image);
  gtk_widget_class_bind_template_child (widget_class, CwStepStrip, play_button);
  gtk_widget_class_bind_template_child (widget_class, CwStepStrip, slider);
  gtk_widget_class_bind_template_callback (widget_class, slid);
  gtk_widget_class_bind_template_callback (widget_class, keyed);
}

static void
cw_step_strip_init (CwStepStrip *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  self->row = g_ptr_array_new ();
  self->player = cw_player_new (GTK_WIDGET (self));
  g_signal_connect_object (self->player, "notify::playing", G_CALLBACK (playing_changed), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (gtk_scrolled_window_get_hadjustment (GTK_SCROLLED_WINDOW (self->scroller)), "changed",
                           G_CALLBACK (queue_reveal), self, G_CONNECT_SWAPPED);
  playing_changed (self);
}
