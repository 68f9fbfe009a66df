/* cw-paper-part.c: the paper of a piece: which it is, and all that can be said of it.
 *
 * A change is a change of the paper, and so of every piece cut from it; "Another paper" first makes a like one for this
 * piece alone. Colours are told by name of the side and by a patch; the pattern is a word of its own.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "cw-paper-part.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#include "cw-slip.h"
#include "make/cw-make-piece.h"

#define N_SIDES 2

struct _CwPaperPart
{
  GtkBox parent_instance;

  GtkWidget *paper, *name, *weight, *caliper, *colours[N_SIDES], *patterned, *grain;

  CwDocument *document; /* borrowed from the slip */
  char *piece_id;
  gboolean inward;
};

G_DEFINE_FINAL_TYPE (CwPaperPart, cw_paper_part, GTK_TYPE_BOX)

static const struct
{
  const char *key, *words;
} grains[] = {
  { NULL, N_ ("Not said") },
  { "x", N_ ("Along the width") },
  { "y", N_ ("Along the height") },
};

static CwDesign *
get_design (CwPaperPart *self)
{
  return cw_document_get_design (self->document);
}

static const CwPaper *
get_paper (CwPaperPart *self)
{
  const CwPiece *piece
    = self->document != NULL && self->piece_id != NULL ? cw_design_get_piece (get_design (self), self->piece_id) : NULL;

  return piece != NULL && piece->paper != NULL ? cw_design_get_paper (get_design (self), piece->paper) : NULL;
}

static void
change (CwPaperPart *self, CwPaper *copy)
{
  cw_document_do (self->document, _ ("change paper"), cw_make_change_paper (get_design (self), copy));
}

static void
paper_chosen (GtkDropDown *choice, GParamSpec *spec, CwPaperPart *self)
{
  GPtrArray *papers = get_design (self)->papers;
  guint selected = gtk_drop_down_get_selected (choice);

  if (selected < papers->len && g_ptr_array_index (papers, selected) != get_paper (self))
    cw_document_do (self->document, _ ("choose paper"),
                    cw_make_set_paper (get_design (self), self->piece_id,
                                       ((CwPaper *) g_ptr_array_index (papers, selected))->id));
}

static void
add_clicked (GtkButton *button, CwPaperPart *self)
{
  if (self->document == NULL || self->piece_id == NULL)
    return;
  cw_document_do (self->document, _ ("add paper"), cw_make_add_paper (get_design (self), self->piece_id));
  gtk_widget_grab_focus (self->name);
}

static void
text_taken (GtkWidget *entry, const char *text, gpointer data)
{
  CwPaperPart *self = data;
  CwPaper *copy = NULL;
  char **field = NULL;

  if (get_paper (self) == NULL)
    return;
  copy = cw_paper_copy (get_paper (self));
  field = entry == self->name ? &copy->name : &copy->weight;
  g_free (*field);
  *field = *text != '\0' ? g_strdup (text) : NULL;
  change (self, copy);
}

static void
caliper_taken (GtkWidget *entry, const char *text, gpointer data)
{
  CwPaperPart *self = data;
  CwLength caliper = cw_length_from_ticks (0, CW_UNIT_MM);
  g_autoptr (GError) error = NULL;
  CwPaper *copy = NULL;

  if (get_paper (self) == NULL)
    return;
  /* Papers are thin: a bare number is millimetres, whatever the sheet is measured by. */
  if (*text != '\0' && !cw_length_parse (text, CW_UNIT_MM, &caliper, &error))
    cw_document_say (self->document, error->message);
  else if (*text != '\0' && (caliper.ticks <= 0 || caliper.ticks > CW_TICKS_PER_INCH))
    cw_document_say (self->document, _ ("The thickness of one sheet is more than 0, and less than an inch."));
  else
    {
      copy = cw_paper_copy (get_paper (self));
      copy->has_caliper = *text != '\0';
      copy->caliper = caliper;
      change (self, copy);
      return;
    }
  cw_slip_entry_refuse (entry);
}

static void
colour_chosen (GtkColorButton *button, CwPaperPart *self)
{
  GdkRGBA rgba;
  CwPaper *copy = NULL;
  char **field = NULL;

  if (get_paper (self) == NULL)
    return;
  gtk_color_chooser_get_rgba (GTK_COLOR_CHOOSER (button), &rgba);
  copy = cw_paper_copy (get_paper (self));
  field = GTK_WIDGET (button) == self->colours[0] ? &copy->front : &copy->back;
  g_free (*field);
  *field
    = g_strdup_printf ("#%02x%02x%02x", (guint) lround (CLAMP (rgba.red, 0, 1) * 255),
                       (guint) lround (CLAMP (rgba.green, 0, 1) * 255), (guint) lround (CLAMP (rgba.blue, 0, 1) * 255));
  change (self, copy);
}

static void
patterned_chosen (GtkCheckButton *button, CwPaperPart *self)
{
  gboolean patterned = gtk_check_button_get_active (button);
  CwPaper *copy = NULL;

  if (self->inward || get_paper (self) == NULL || (get_paper (self)->patterned != FALSE) == (patterned != FALSE))
    return;
  copy = cw_paper_copy (get_paper (self));
  copy->patterned = patterned;
  copy->has_patterned = TRUE;
  change (self, copy);
}

static void
grain_chosen (GtkDropDown *choice, GParamSpec *spec, CwPaperPart *self)
{
  guint selected = gtk_drop_down_get_selected (choice);
  CwPaper *copy = NULL;

  if (get_paper (self) == NULL || selected >= G_N_ELEMENTS (grains)
      || g_strcmp0 (grains[selected].key, get_paper (self)->grain) == 0)
    return;
  copy = cw_paper_copy (get_paper (self));
  g_free (copy->grain);
  copy->grain = g_strdup (grains[selected].key);
  change (self, copy);
}

static void
show_papers (CwPaperPart *self)
{
  GPtrArray *papers = get_design (self)->papers;
  g_autoptr (GPtrArray) words = g_ptr_array_new ();
  guint selected = GTK_INVALID_LIST_POSITION;

  for (guint i = 0; i < papers->len; i++)
    {
      const CwPaper *paper = g_ptr_array_index (papers, i);

      g_ptr_array_add (words, paper->name != NULL ? paper->name : paper->id);
      if (paper == get_paper (self))
        selected = i;
    }
  g_ptr_array_add (words, NULL);
  cw_slip_choice_show (self->paper, (const char *const *) words->pdata, selected);
}

static void
show_colour (GtkWidget *button, const char *colour)
{
  GdkRGBA rgba = { 1, 1, 1, 1 };

  if (colour != NULL)
    gdk_rgba_parse (&rgba, colour);
  gtk_color_chooser_set_rgba (GTK_COLOR_CHOOSER (button), &rgba);
}

/**
 * cw_paper_part_show:
 * @self: the part
 * @document: (nullable): the open design; NULL: nothing
 * @piece_id: (nullable): one of its pieces
 */
void
cw_paper_part_show (CwPaperPart *self, CwDocument *document, const char *piece_id)
{
  const CwPaper *paper = NULL;
  g_autofree char *caliper = NULL;
  const char *words[G_N_ELEMENTS (grains) + 1] = { NULL };
  guint grain = 0;

  g_return_if_fail (CW_IS_PAPER_PART (self));

  self->document = document;
  g_free (self->piece_id);
  self->piece_id = g_strdup (piece_id);
  if (document == NULL)
    return;
  paper = get_paper (self);
  show_papers (self);
  gtk_widget_set_sensitive (self->name, paper != NULL);
  if (paper == NULL)
    return;
  self->inward = TRUE;
  cw_slip_entry_show (self->name, paper->name != NULL ? paper->name : "");
  cw_slip_entry_show (self->weight, paper->weight != NULL ? paper->weight : "");
  caliper = paper->has_caliper ? cw_length_format (paper->caliper) : g_strdup ("");
  cw_slip_entry_show (self->caliper, caliper);
  show_colour (self->colours[0], paper->front);
  show_colour (self->colours[1], paper->back);
  gtk_check_button_set_active (GTK_CHECK_BUTTON (self->patterned), paper->patterned);
  for (guint i = 0; i < G_N_ELEMENTS (grains); i++)
    {
      words[i] = _ (grains[i].words);
      if (g_strcmp0 (grains[i].key, paper->grain) == 0)
        grain = i;
    }
  cw_slip_choice_show (self->grain, words, grain);
  self->inward = FALSE;
}

static void
cw_paper_part_finalize (GObject *object)
{
  g_free (CW_PAPER_PART (object)->piece_id);
  G_OBJECT_CLASS (cw_paper_part_parent_class)->finalize (object);
}

static void
cw_paper_part_class_init (CwPaperPartClass *klass)
{
  G_OBJECT_CLASS (klass)->finalize = cw_paper_part_finalize;
}

static void
cw_paper_part_init (CwPaperPart *self)
{
  static const char *const sides[N_SIDES] = { N_ ("Drawn side"), N_ ("Other side") };
  static const char *const titles[N_SIDES] = { N_ ("Colour of the drawn side"), N_ ("Colour of the other side") };
  GtkWidget *body = GTK_WIDGET (self), *button = NULL;

  gtk_orientable_set_orientation (GTK_ORIENTABLE (self), GTK_ORIENTATION_VERTICAL);
  gtk_box_set_spacing (GTK_BOX (self), 6);
  cw_slip_add_heading (body, _ ("Its paper"));
  self->paper = cw_slip_choice_new (G_CALLBACK (paper_chosen), self);
  cw_slip_add_row (body, _ ("Cut from"), self->paper, FALSE);
  button = gtk_button_new_with_label (_ ("Another paper"));
  gtk_widget_set_tooltip_text (button, _ ("A new paper like this one, for this piece"));
  g_signal_connect (button, "clicked", G_CALLBACK (add_clicked), self);
  gtk_box_append (GTK_BOX (self), button);
  self->name = cw_slip_entry_new (text_taken, self);
  cw_slip_add_row (body, _ ("Name of the paper"), self->name, TRUE);
  self->weight = cw_slip_entry_new (text_taken, self);
  gtk_entry_set_placeholder_text (GTK_ENTRY (self->weight), _ ("216 g/m2"));
  cw_slip_add_row (body, _ ("Weight"), self->weight, FALSE);
  self->caliper = cw_slip_entry_new (caliper_taken, self);
  gtk_widget_set_direction (self->caliper, GTK_TEXT_DIR_LTR);
  cw_slip_add_row (body, _ ("Thickness"), self->caliper, FALSE);
  for (guint i = 0; i < N_SIDES; i++)
    {
      self->colours[i] = gtk_color_button_new ();
      gtk_color_button_set_title (GTK_COLOR_BUTTON (self->colours[i]), _ (titles[i]));
      gtk_color_button_set_modal (GTK_COLOR_BUTTON (self->colours[i]), TRUE);
      g_signal_connect (self->colours[i], "color-set", G_CALLBACK (colour_chosen), self);
      cw_slip_add_row (body, _ (sides[i]), self->colours[i], FALSE);
      /* The button that is pressed is within. */
      gtk_accessible_update_property (GTK_ACCESSIBLE (gtk_widget_get_first_child (self->colours[i])),
                                      GTK_ACCESSIBLE_PROPERTY_LABEL, _ (titles[i]), -1);
    }
  self->patterned = gtk_check_button_new_with_label (_ ("Printed on the drawn side"));
  g_signal_connect (self->patterned, "toggled", G_CALLBACK (patterned_chosen), self);
  gtk_box_append (GTK_BOX (self), self->patterned);
  self->grain = cw_slip_choice_new (G_CALLBACK (grain_chosen), self);
  cw_slip_add_row (body, _ ("Grain"), self->grain, FALSE);
}
