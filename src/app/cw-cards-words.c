/* cw-cards-words.c: changes the words of a printed page in place.
 *
 * A small sheet beside the words holds entries for them. Closing it keeps what was written as one edit that can be
 * undone; Escape leaves all as it was. Titles the program made are no words of the maker's: left as they are, they stay
 * the program's.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "cw-cards-words.h"

#include <glib/gi18n-lib.h>

#include "design/cw-step-words.h"

struct _CwCardsWords
{
  GtkPopover parent_instance;

  GtkWidget *title, *author, *date, *text; /* entries, and a text view for captions and notes */
  GtkWidget *author_row, *title_label, *text_label;
  CwDocument *document; /* while it asks */
  char *step_id;        /* NULL: about the card */
  gboolean given_up;
};

G_DEFINE_FINAL_TYPE (CwCardsWords, cw_cards_words, GTK_TYPE_POPOVER)

static char *
dup_or_null (const char *text)
{
  g_autofree char *stripped = text != NULL ? g_strstrip (g_strdup (text)) : NULL;

  return stripped != NULL && *stripped != '\0' ? g_steal_pointer (&stripped) : NULL;
}

/**
 * cw_cards_words_edit_step:
 * @design: a design
 * @step: one of its steps
 * @title: (nullable): its title; the program's own words count as none
 * @caption: (nullable): the maker's words to it
 *
 * Returns: (transfer full): the edit; empty when nothing is another
 */
CwEdit *
cw_cards_words_edit_step (const CwDesign *design, guint step, const char *title, const char *caption)
{
  const CwStep *old = NULL;
  g_autofree char *shown = NULL, *new_title = NULL, *new_caption = NULL;
  CwStep *copy = NULL;

  g_return_val_if_fail (design != NULL && step < design->steps->len, NULL);

  old = g_ptr_array_index (design->steps, step);
  shown = cw_step_dup_title (design, old);
  new_title = g_strcmp0 (title, shown) == 0 ? g_strdup (old->title) : dup_or_null (title);
  new_caption = dup_or_null (caption);
  if (g_strcmp0 (new_title, old->title) == 0 && g_strcmp0 (new_caption, old->caption) == 0)
    return cw_edit_new_group ();
  copy = cw_step_copy (old);
  g_free (copy->title);
  copy->title = g_steal_pointer (&new_title);
  g_free (copy->caption);
  copy->caption = g_steal_pointer (&new_caption);
  return cw_edit_new_replace (design, CW_LIST_STEPS, NULL, step, copy);
}

/* Sets a text among the keys the design only keeps. TRUE if it is another now. */
static gboolean
set_extra (CwHead *head, const char *key, const char *text)
{
  g_autofree char *value = dup_or_null (text);

  if (g_strcmp0 (cw_extra_get_text (head->extra, key), value) == 0)
    return FALSE;
  if (head->extra == NULL)
    head->extra = json_object_new ();
  if (value != NULL)
    json_object_set_string_member (head->extra, key, value);
  else
    json_object_remove_member (head->extra, key);
  return TRUE;
}

static gboolean
set_text (char **field, const char *text)
{
  g_autofree char *value = dup_or_null (text);

  if (g_strcmp0 (*field, value) == 0)
    return FALSE;
  g_free (*field);
  *field = g_steal_pointer (&value);
  return TRUE;
}

/**
 * cw_cards_words_edit_card:
 * @design: a design
 * @title: (nullable): of the card
 * @author: (nullable): who made it
 * @date: (nullable): when
 * @notes: (nullable): what stands under its title
 *
 * Returns: (transfer full): the edit; empty when nothing is another
 */
CwEdit *
cw_cards_words_edit_card (const CwDesign *design, const char *title, const char *author, const char *date,
                          const char *notes)
{
  g_autoptr (CwHead) copy = NULL;
  gboolean changed = FALSE;

  g_return_val_if_fail (design != NULL, NULL);

  copy = cw_head_copy (design->head);
  changed |= set_text (&copy->title, title);
  changed |= set_text (&copy->notes, notes);
  changed |= set_extra (copy, "author", author);
  changed |= set_extra (copy, "date", date);
  return changed ? cw_edit_new_head (design, g_steal_pointer (&copy)) : cw_edit_new_group ();
}

static void
keep (CwCardsWords *self)
{
  CwDesign *design = cw_document_get_design (self->document);
  GtkTextBuffer *buffer = gtk_text_view_get_buffer (GTK_TEXT_VIEW (self->text));
  const char *title = gtk_editable_get_text (GTK_EDITABLE (self->title));
  g_autofree char *text = NULL;
  GtkTextIter start, end;
  guint step = G_MAXUINT;

  gtk_text_buffer_get_bounds (buffer, &start, &end);
  text = gtk_text_buffer_get_text (buffer, &start, &end, FALSE);
  if (self->step_id == NULL)
    {
      cw_document_do (self->document, _ ("change words of the card"),
                      cw_cards_words_edit_card (design, title, gtk_editable_get_text (GTK_EDITABLE (self->author)),
                                                gtk_editable_get_text (GTK_EDITABLE (self->date)), text));
      return;
    }
  step = cw_design_find_step (design, self->step_id);
  if (step != G_MAXUINT)
    cw_document_do (self->document, _ ("change words of a step"), cw_cards_words_edit_step (design, step, title, text));
}

static void
closed (CwCardsWords *self)
{
  if (self->document == NULL)
    return;
  if (!self->given_up)
    keep (self);
  g_clear_object (&self->document);
  g_clear_pointer (&self->step_id, g_free);
}

static gboolean
keyed (GtkEventControllerKey *keys, guint key, guint code, GdkModifierType mods, CwCardsWords *self)
{
  if (key == GDK_KEY_Escape)
    self->given_up = TRUE;
  else if ((key == GDK_KEY_Return || key == GDK_KEY_KP_Enter) && (mods & GDK_CONTROL_MASK) != 0)
    {
      gtk_popover_popdown (GTK_POPOVER (self));
      return TRUE;
    }
  return FALSE;
}

static void
done (CwCardsWords *self)
{
  gtk_popover_popdown (GTK_POPOVER (self));
}

static void
name_field (GtkWidget *field, GtkWidget *label, const char *name)
{
  gtk_label_set_text (GTK_LABEL (label), name);
  gtk_accessible_update_property (GTK_ACCESSIBLE (field), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
}

static void
set_entry (GtkWidget *entry, const char *text)
{
  gtk_editable_set_text (GTK_EDITABLE (entry), text != NULL ? text : "");
}

/**
 * cw_cards_words_ask:
 * @self: the sheet
 * @document: whose words
 * @words: which; what of them can be changed is asked for
 */
void
cw_cards_words_ask (CwCardsWords *self, CwDocument *document, const CwPageWords *words)
{
  CwDesign *design = NULL;
  const char *text = NULL;
  gboolean about_text = words->what == CW_PAGE_WORDS_CAPTION || words->what == CW_PAGE_WORDS_NOTES;

  g_return_if_fail (CW_IS_CARDS_WORDS (self) && CW_IS_DOCUMENT (document));

  closed (self);
  design = cw_document_get_design (document);
  if (words->step != G_MAXUINT && words->step < design->steps->len)
    {
      const CwStep *step = g_ptr_array_index (design->steps, words->step);
      g_autofree char *title = cw_step_dup_title (design, step);

      self->step_id = g_strdup (step->id);
      name_field (self->title, self->title_label, _ ("Title of this step"));
      name_field (self->text, self->text_label, _ ("Your words to it"));
      set_entry (self->title, title);
      text = step->caption;
    }
  else
    {
      name_field (self->title, self->title_label, _ ("Title of the card"));
      name_field (self->text, self->text_label, _ ("Words under the title"));
      set_entry (self->title, design->head->title);
      set_entry (self->author, cw_extra_get_text (design->head->extra, "author"));
      set_entry (self->date, cw_extra_get_text (design->head->extra, "date"));
      text = design->head->notes;
    }
  gtk_widget_set_visible (self->author_row, self->step_id == NULL);
  gtk_text_buffer_set_text (gtk_text_view_get_buffer (GTK_TEXT_VIEW (self->text)), text != NULL ? text : "", -1);
  self->document = g_object_ref (document);
  self->given_up = FALSE;
  gtk_popover_popup (GTK_POPOVER (self));
  gtk_widget_grab_focus (about_text ? self->text : words->what == CW_PAGE_WORDS_FACTS ? self->author : self->title);
}

static GtkWidget *
new_label (GtkWidget *box, GtkWidget *field)
{
  GtkWidget *label = gtk_label_new (NULL);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_mnemonic_widget (GTK_LABEL (label), field);
  gtk_box_append (GTK_BOX (box), label);
  gtk_box_append (GTK_BOX (box), field);
  return label;
}

static GtkWidget *
new_entry (CwCardsWords *self, int width)
{
  GtkWidget *entry = gtk_entry_new ();

  gtk_editable_set_width_chars (GTK_EDITABLE (entry), width);
  g_signal_connect_object (entry, "activate", G_CALLBACK (done), self, G_CONNECT_SWAPPED);
  return entry;
}

static void
cw_cards_words_dispose (GObject *object)
{
  CwCardsWords *self = CW_CARDS_WORDS (object);

  g_clear_object (&self->document);
  g_clear_pointer (&self->step_id, g_free);
  G_OBJECT_CLASS (cw_cards_words_parent_class)->dispose (object);
}

static void
cw_cards_words_class_init (CwCardsWordsClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = cw_cards_words_dispose;
}

static void
cw_cards_words_init (CwCardsWords *self)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6), *row = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 12);
  GtkWidget *scroller = gtk_scrolled_window_new (), *button = gtk_button_new_with_mnemonic (_ ("_Keep"));
  GtkWidget *left = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6), *right = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6);
  GtkEventController *keys = gtk_event_controller_key_new ();

  gtk_widget_add_css_class (box, "words-sheet");
  self->title = new_entry (self, 36);
  self->author = new_entry (self, 20);
  self->date = new_entry (self, 12);
  self->text = gtk_text_view_new ();
  gtk_text_view_set_wrap_mode (GTK_TEXT_VIEW (self->text), GTK_WRAP_WORD_CHAR);
  gtk_text_view_set_accepts_tab (GTK_TEXT_VIEW (self->text), FALSE);
  gtk_text_view_set_left_margin (GTK_TEXT_VIEW (self->text), 6);
  gtk_text_view_set_right_margin (GTK_TEXT_VIEW (self->text), 6);
  gtk_text_view_set_top_margin (GTK_TEXT_VIEW (self->text), 6);
  gtk_text_view_set_bottom_margin (GTK_TEXT_VIEW (self->text), 6);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (scroller), self->text);
  gtk_scrolled_window_set_min_content_height (GTK_SCROLLED_WINDOW (scroller), 84);
  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (scroller), GTK_POLICY_NEVER, GTK_POLICY_AUTOMATIC);
  gtk_scrolled_window_set_has_frame (GTK_SCROLLED_WINDOW (scroller), TRUE);

  self->title_label = new_label (box, self->title);
  name_field (self->author, new_label (left, self->author), _ ("Made by"));
  name_field (self->date, new_label (right, self->date), _ ("Date"));
  gtk_widget_set_tooltip_text (self->date, _ ("Without one, the day of printing is printed"));
  gtk_widget_set_hexpand (left, TRUE);
  gtk_box_append (GTK_BOX (row), left);
  gtk_box_append (GTK_BOX (row), right);
  self->author_row = row;
  gtk_box_append (GTK_BOX (box), row);
  self->text_label = gtk_label_new (NULL);
  gtk_label_set_xalign (GTK_LABEL (self->text_label), 0);
  gtk_box_append (GTK_BOX (box), self->text_label);
  gtk_box_append (GTK_BOX (box), scroller);
  gtk_widget_set_halign (button, GTK_ALIGN_END);
  gtk_widget_add_css_class (button, "suggested-action");
  gtk_widget_set_tooltip_text (button, _ ("Keep these words (Ctrl+Enter); Escape leaves all as it was"));
  g_signal_connect_object (button, "clicked", G_CALLBACK (done), self, G_CONNECT_SWAPPED);
  gtk_box_append (GTK_BOX (box), button);
  gtk_popover_set_child (GTK_POPOVER (self), box);
  gtk_event_controller_set_propagation_phase (keys, GTK_PHASE_CAPTURE);
  g_signal_connect (keys, "key-pressed", G_CALLBACK (keyed), self);
  gtk_widget_add_controller (GTK_WIDGET (self), keys);
  g_signal_connect (self, "closed", G_CALLBACK (closed), NULL);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL, _ ("Words on the page"), -1);
}

/**
 * cw_cards_words_new:
 *
 * Returns: (transfer floating): a sheet to be given a parent
 */
GtkWidget *
cw_cards_words_new (void)
{
  return g_object_new (CW_TYPE_CARDS_WORDS, NULL);
}
