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
#include "make/cw-make-step.h"
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
  int shown;       /* the step whose card is marked */
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
  g_autoptr (GError) error = NULL;
  CwEdit *edit = cw_make_remove_step (cw_document_get_design (self->document), nth_step (self, index)->id, &error);

  if (edit == NULL)
    {
      cw_document_say (self->document, error->message);
      return;
    }
  cw_player_pause (self->player);
  cw_document_do (self->document, _ ("take step away"), edit);
  focus_card (self, (int) index - 1);
}

/* The first piece that lies beside the card goes on the panel that is selected, else on the middle of the base. */
static CwEdit *
stick_loose (CwStepStrip *self, GError **error)
{
  CwDesign *design = cw_document_get_design (self->document);
  CwAnalysis *analysis = cw_document_get_analysis (self->document);
  const CwPiece *loose = NULL, *host = cw_design_get_ground (design);
  guint n = 0, panel = 0;
  const CwId *ids = cw_document_get_selection (self->document, &n);

  for (guint i = 0; i < design->pieces->len && loose == NULL; i++)
    if (cw_make_is_loose (design, ((CwPiece *) g_ptr_array_index (design->pieces, i))->id))
      loose = g_ptr_array_index (design->pieces, i);
  if (loose == NULL)
    {
      g_set_error_literal (error, CW_MAKE_ERROR, CW_MAKE_ERROR_IMPOSSIBLE,
                           _ ("Every piece lies on the card already. Add a piece first."));
      return NULL;
    }
  for (guint i = 0; i < n; i++)
    if (ids[i].kind == CW_ID_PANEL && ids[i].piece < design->pieces->len
        && g_ptr_array_index (design->pieces, ids[i].piece) != loose && analysis != NULL
        && cw_document_is_analysed (self->document))
      {
        host = g_ptr_array_index (design->pieces, ids[i].piece);
        panel = ids[i].index;
      }
  return cw_make_stick_piece (design, loose->id, host->id, panel,
                              cw_document_get_lie (self->document).flipped ? CW_FACE_BACK : CW_FACE_FRONT, error);
}

/* A new step with the selected marks in it, if it has a use for them. */
static CwEdit *
add_with_marks (CwStepStrip *self, CwDo what, guint at, GError **error)
{
  CwDesign *design = cw_document_get_design (self->document);
  guint n = 0;
  const CwId *ids = cw_document_get_selection (self->document, &n);
  CwEdit *edit = cw_make_add_step (design, what, at, error), *group = NULL;
  g_autoptr (CwDesign) now = NULL;

  if (edit == NULL)
    return NULL;
  now = cw_edit_apply (edit, design);
  group = cw_edit_new_group ();
  cw_edit_group_add (group, edit);
  for (guint i = 0; i < n; i++)
    {
      const CwPiece *piece = ids[i].piece < now->pieces->len ? g_ptr_array_index (now->pieces, ids[i].piece) : NULL;
      g_autofree char *address = NULL;
      CwDesign *next = NULL;

      if (ids[i].kind != CW_ID_MARK || piece == NULL || ids[i].index >= piece->marks->len)
        continue;
      address = g_strdup_printf ("%s/%s", piece->id, ((CwMark *) g_ptr_array_index (piece->marks, ids[i].index))->id);
      edit = cw_make_toggle_mark (now, ((CwStep *) g_ptr_array_index (now->steps, at))->id, address, NULL);
      if (edit == NULL)
        continue;
      next = cw_edit_apply (edit, now);
      cw_design_unref (now);
      now = next;
      cw_edit_group_add (group, edit);
    }
  return group;
}

/**
 * cw_step_strip_add:
 * @self: the strip
 * @kind: what is done in it, by its word in the file
 *
 * Adds a step after the one the card is in, and goes to it.
 *
 * Returns: FALSE when it cannot be; the reason is told
 */
gboolean
cw_step_strip_add (CwStepStrip *self, const char *kind)
{
  g_autoptr (GError) error = NULL;
  CwEdit *edit = NULL;
  guint at = 0, n = 0;
  CwDo what = CW_DO_CUT;

  g_return_val_if_fail (CW_IS_STEP_STRIP (self) && self->document != NULL, FALSE);

  while (what < CW_DO_DECORATE && !g_str_equal (kind, cw_do_get_key (what)))
    what++;
  at = (guint) (cw_document_get_step (self->document) + 1);
  n = cw_document_get_design (self->document)->steps->len;
  edit = what == CW_DO_STICK ? stick_loose (self, &error) : add_with_marks (self, what, at, &error);
  if (edit == NULL)
    {
      cw_document_say (self->document, error->message);
      return FALSE;
    }
  cw_player_pause (self->player);
  cw_document_do (self->document, _ ("add step"), edit);
  if (what == CW_DO_STICK) /* where the maker would do it */
    for (guint i = 0; i < cw_document_get_design (self->document)->steps->len; i++)
      if (nth_step (self, i)->what == CW_DO_STICK)
        at = i;
  if (cw_document_get_design (self->document)->steps->len > n)
    cw_document_set_moment (self->document, (int) at, 1);
  return TRUE;
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
  gboolean follow = FALSE;

  for (guint i = 0; i < self->row->len; i++)
    {
      GtkWidget *card = g_ptr_array_index (self->row, i);

      cw_step_slip_set_current (CW_STEP_SLIP (card), (int) i == step + 1);
      follow = follow || ((int) i == self->shown + 1 && (int) i != step + 1 && gtk_widget_has_focus (card));
    }
  self->shown = step;
  if (follow) /* the keys are on the card of the moment: they go along */
    focus_card (self, step);
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

  if (!cw_document_follow (&self->document, document, self))
    return;
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
  cw_document_follow (&self->document, NULL, self);
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
