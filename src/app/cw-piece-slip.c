/* cw-piece-slip.c: the slip on which the piece on the table is named, sized and given its paper, and others are added.
 *
 * It shows the piece that lies on the table as a sheet. Its paper is in cw-paper-part.c.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "cw-piece-slip.h"

#include <glib/gi18n-lib.h>

#include "cw-paper-part.h"
#include "cw-slip.h"
#include "make/cw-make-outline.h"
#include "make/cw-make-piece.h"
#include "make/cw-make-step.h"

typedef enum
{
  WIDTH,
  HEIGHT,
  RADIUS,
  N_SIZES
} Size;

struct _CwPieceSlip
{
  GtkBox parent_instance;

  GtkWidget *piece, *name, *sizes[N_SIZES], *size_part, *own_outline, *shows;
  GtkWidget *lay, *guide, *remove;
  CwPaperPart *paper;

  CwDocument *document;
  char *piece_id; /* the piece shown */
  GtkFileChooserNative *chooser;
};

G_DEFINE_FINAL_TYPE (CwPieceSlip, cw_piece_slip, GTK_TYPE_BOX)

static const char *const show_words[]
  = { N_ ("Either side"), N_ ("The drawn side"), N_ ("The other side"), N_ ("Both sides"), NULL };

static CwDesign *
get_design (CwPieceSlip *self)
{
  return cw_document_get_design (self->document);
}

static const CwPiece *
get_piece (CwPieceSlip *self)
{
  return self->document != NULL && self->piece_id != NULL ? cw_design_get_piece (get_design (self), self->piece_id)
                                                          : NULL;
}

/* The piece that has just been added lies on the table. */
static void
lay_last (CwPieceSlip *self)
{
  cw_document_set_piece (self->document, get_design (self)->pieces->len - 1);
}

/* --- what the maker does ----------------------------------------------------------------------------------------- */

static void
piece_chosen (GtkDropDown *choice, GParamSpec *spec, CwPieceSlip *self)
{
  cw_document_set_piece (self->document, gtk_drop_down_get_selected (choice));
}

static void
name_taken (GtkWidget *entry, const char *text, gpointer data)
{
  CwPieceSlip *self = data;

  if (get_piece (self) != NULL)
    cw_document_try (self->document, _ ("rename piece"), cw_make_rename_piece (get_design (self), self->piece_id, text),
                     NULL);
}

static void
size_taken (GtkWidget *entry, const char *text, gpointer data)
{
  CwPieceSlip *self = data;
  CwMakeSize size;
  CwLength *fields[N_SIZES] = { &size.width, &size.height, &size.radius };
  GError *error = NULL;
  CwEdit *edit = NULL;

  if (get_piece (self) == NULL || !cw_make_get_size (get_piece (self), &size))
    return;
  for (guint i = 0; i < N_SIZES; i++)
    if (self->sizes[i] == entry && !cw_length_parse (text, get_design (self)->head->unit, fields[i], &error))
      break;
  if (error == NULL)
    edit = cw_make_set_size (get_design (self), self->piece_id, &size, &error);
  if (!cw_document_try (self->document, _ ("change size"), edit, error))
    cw_slip_entry_refuse (entry);
}

static void
shows_chosen (GtkDropDown *choice, GParamSpec *spec, CwPieceSlip *self)
{
  if (get_piece (self) != NULL)
    cw_document_try (self->document, _ ("change the side to be seen"),
                     cw_make_set_shows (get_design (self), self->piece_id,
                                        (CwShows) gtk_drop_down_get_selected (choice)),
                     NULL);
}

static void
add_clicked (GtkButton *button, CwPieceSlip *self)
{
  CwMakeSize size = cw_make_usual_size (get_design (self));
  GError *error = NULL;
  CwEdit *edit = cw_make_add_piece (get_design (self), &size, &error);

  if (!cw_document_try (self->document, _ ("add piece"), edit, error))
    return;
  lay_last (self);
  gtk_widget_grab_focus (self->name);
}

typedef struct
{
  char *name;
} Picture;

static void
picture_free (gpointer data)
{
  g_free (((Picture *) data)->name);
  g_free (data);
}

static void
picture_read (GObject *source, GAsyncResult *result, gpointer data)
{
  g_autoptr (CwPieceSlip) self = data;
  Picture *picture = g_object_get_data (source, "cw-picture");
  g_autofree char *text = NULL;
  gsize length = 0;
  GError *error = NULL;
  CwEdit *edit = NULL;

  if (self->document == NULL)
    return;
  if (g_file_load_contents_finish (G_FILE (source), result, &text, &length, NULL, &error))
    edit = cw_make_add_outline (get_design (self), picture->name, text, length, &error);
  if (error != NULL)
    g_prefix_error (&error, _ ("“%s” could not be taken as an outline. "), picture->name);
  if (cw_document_try (self->document, _ ("add piece"), edit, error))
    lay_last (self);
}

static void
picture_answered (GtkNativeDialog *dialog, int response, CwPieceSlip *self)
{
  g_autoptr (GFile) file = NULL;
  Picture *picture = NULL;
  g_autofree char *name = NULL;

  if (response == GTK_RESPONSE_ACCEPT)
    file = gtk_file_chooser_get_file (GTK_FILE_CHOOSER (dialog));
  g_clear_object (&self->chooser);
  if (file == NULL || self->document == NULL)
    return;
  name = g_file_get_basename (file);
  if (g_str_has_suffix (name, ".svg"))
    name[strlen (name) - strlen (".svg")] = '\0';
  picture = g_new (Picture, 1);
  picture->name = g_filename_display_name (name);
  g_object_set_data_full (G_OBJECT (file), "cw-picture", picture, picture_free);
  g_file_load_contents_async (file, NULL, picture_read, g_object_ref (self));
}

static void
picture_clicked (GtkButton *button, CwPieceSlip *self)
{
  g_autoptr (GtkFileFilter) filter = gtk_file_filter_new ();

  if (self->chooser != NULL)
    return;
  self->chooser = gtk_file_chooser_native_new (_ ("Take an outline from a picture"),
                                               GTK_WINDOW (gtk_widget_get_root (GTK_WIDGET (self))),
                                               GTK_FILE_CHOOSER_ACTION_OPEN, _ ("_Open"), _ ("_Cancel"));
  gtk_file_filter_set_name (filter, _ ("SVG pictures"));
  gtk_file_filter_add_suffix (filter, "svg");
  gtk_file_chooser_add_filter (GTK_FILE_CHOOSER (self->chooser), filter);
  gtk_native_dialog_set_modal (GTK_NATIVE_DIALOG (self->chooser), TRUE);
  g_signal_connect (self->chooser, "response", G_CALLBACK (picture_answered), self);
  gtk_native_dialog_show (GTK_NATIVE_DIALOG (self->chooser));
}

/* The panel that is selected, on another piece than this one; else the first of the base. */
static void
lay_clicked (GtkButton *button, CwPieceSlip *self)
{
  CwDesign *design = get_design (self);
  const CwPiece *host = cw_design_get_ground (design);
  guint n = 0, panel = 0;
  const CwId *ids = cw_document_get_selection (self->document, &n);
  GError *error = NULL;
  CwEdit *edit = NULL;

  if (get_piece (self) == NULL || host == NULL)
    return;
  for (guint i = 0; i < n; i++)
    if (ids[i].kind == CW_ID_PANEL && cw_document_is_analysed (self->document) && ids[i].piece < design->pieces->len
        && g_ptr_array_index (design->pieces, ids[i].piece) != get_piece (self))
      {
        host = g_ptr_array_index (design->pieces, ids[i].piece);
        panel = ids[i].index;
      }
  edit = cw_make_stick_piece (design, self->piece_id, host->id, panel, CW_FACE_FRONT, &error);
  cw_document_try (self->document, _ ("lay piece on the card"), edit, error);
}

static void
guide_clicked (GtkButton *button, CwPieceSlip *self)
{
  GError *error = NULL;
  CwEdit *edit = NULL;

  if (get_piece (self) == NULL)
    return;
  edit = cw_make_guide (get_design (self), self->piece_id, &error);
  cw_document_try (self->document, _ ("make the piece a guide"), edit, error);
}

static void
remove_clicked (GtkButton *button, CwPieceSlip *self)
{
  GError *error = NULL;
  CwEdit *edit = NULL;

  if (get_piece (self) == NULL)
    return;
  edit = cw_make_remove_piece (get_design (self), self->piece_id, &error);
  cw_document_try (self->document, _ ("take piece away"), edit, error);
}

/* --- what is shown ----------------------------------------------------------------------------------------------- */

static void
show_pieces (CwPieceSlip *self)
{
  GPtrArray *pieces = get_design (self)->pieces;
  g_autoptr (GPtrArray) words = g_ptr_array_new ();

  for (guint i = 0; i < pieces->len; i++)
    {
      const CwPiece *piece = g_ptr_array_index (pieces, i);

      g_ptr_array_add (words, piece->name != NULL ? piece->name : piece->id);
    }
  g_ptr_array_add (words, NULL);
  cw_slip_choice_show (self->piece, (const char *const *) words->pdata, cw_document_get_piece (self->document));
}

static void
show_size (CwPieceSlip *self, const CwPiece *piece)
{
  CwMakeSize size;
  gboolean plain = cw_make_get_size (piece, &size);
  const CwLength *fields[N_SIZES] = { &size.width, &size.height, &size.radius };

  gtk_widget_set_visible (self->size_part, plain);
  gtk_widget_set_visible (self->own_outline, !plain);
  for (guint i = 0; plain && i < N_SIZES; i++)
    {
      g_autofree char *text = cw_length_format (*fields[i]);

      cw_slip_entry_show (self->sizes[i], text);
    }
}

static gboolean
is_taken_away (CwPieceSlip *self)
{
  GPtrArray *steps = get_design (self)->steps;

  for (guint i = 0; i < steps->len; i++)
    {
      const CwStep *step = g_ptr_array_index (steps, i);

      if (step->what == CW_DO_TAKE_AWAY && g_strcmp0 (step->piece, self->piece_id) == 0)
        return TRUE;
    }
  return FALSE;
}

static void
show_piece (CwPieceSlip *self)
{
  GPtrArray *pieces = self->document != NULL ? get_design (self)->pieces : NULL;
  guint index = self->document != NULL ? cw_document_get_piece (self->document) : 0;
  const CwPiece *piece = NULL;
  const char *words[G_N_ELEMENTS (show_words)] = { NULL };
  gboolean loose = FALSE, base = FALSE;

  if (pieces == NULL || index >= pieces->len)
    {
      g_clear_pointer (&self->piece_id, g_free);
      return;
    }
  piece = g_ptr_array_index (pieces, index);
  if (g_strcmp0 (self->piece_id, piece->id) != 0)
    {
      cw_slip_take (GTK_WIDGET (self));
      pieces = get_design (self)->pieces;
      if (index >= pieces->len)
        return;
      piece = g_ptr_array_index (pieces, index);
    }
  g_free (self->piece_id);
  self->piece_id = g_strdup (piece->id);
  show_pieces (self);
  cw_slip_entry_show (self->name, piece->name != NULL ? piece->name : "");
  show_size (self, piece);
  for (guint i = 0; show_words[i] != NULL; i++)
    words[i] = _ (show_words[i]);
  cw_slip_choice_show (self->shows, words, piece->shows);
  base = piece == cw_design_get_ground (get_design (self));
  loose = cw_make_is_loose (get_design (self), piece->id);
  gtk_widget_set_visible (self->lay, loose);
  gtk_widget_set_visible (self->guide, !loose && !base && !is_taken_away (self));
  gtk_widget_set_visible (self->remove, !base);
  cw_paper_part_show (self->paper, self->document, piece->id);
}

/**
 * cw_piece_slip_set_document:
 * @self: the slip
 * @document: (nullable): whose pieces to show
 */
void
cw_piece_slip_set_document (CwPieceSlip *self, CwDocument *document)
{
  g_return_if_fail (CW_IS_PIECE_SLIP (self));

  if (!cw_document_follow (&self->document, document, self))
    return;
  g_clear_pointer (&self->piece_id, g_free);
  if (document != NULL)
    {
      g_signal_connect_object (document, "changed", G_CALLBACK (show_piece), self, G_CONNECT_SWAPPED);
      g_signal_connect_object (document, "piece", G_CALLBACK (show_piece), self, G_CONNECT_SWAPPED);
    }
  else
    cw_paper_part_show (self->paper, NULL, NULL);
  show_piece (self);
}

static void
cw_piece_slip_dispose (GObject *object)
{
  CwPieceSlip *self = CW_PIECE_SLIP (object);

  cw_document_follow (&self->document, NULL, self);
  g_clear_pointer (&self->piece_id, g_free);
  if (self->chooser != NULL)
    gtk_native_dialog_destroy (GTK_NATIVE_DIALOG (self->chooser));
  g_clear_object (&self->chooser);
  G_OBJECT_CLASS (cw_piece_slip_parent_class)->dispose (object);
}

static void
cw_piece_slip_class_init (CwPieceSlipClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = cw_piece_slip_dispose;
}

static GtkWidget *
add_button (GtkWidget *row, const char *words, const char *tooltip, GCallback clicked, CwPieceSlip *self)
{
  GtkWidget *button = gtk_button_new_with_label (words);

  gtk_widget_set_tooltip_text (button, tooltip);
  gtk_widget_set_hexpand (button, TRUE);
  g_signal_connect (button, "clicked", clicked, self);
  gtk_box_append (GTK_BOX (row), button);
  return button;
}

static void
cw_piece_slip_init (CwPieceSlip *self)
{
  static const char *const size_words[N_SIZES] = { N_ ("Width"), N_ ("Height"), N_ ("Corners rounded by") };
  GtkWidget *body = cw_slip_fill (GTK_BOX (self), _ ("Pieces and papers"), NULL), *row = NULL;

  self->piece = cw_slip_choice_new (G_CALLBACK (piece_chosen), self);
  cw_slip_add_row (body, _ ("On the table"), self->piece, FALSE);
  row = cw_slip_add_buttons (body);
  add_button (row, _ ("Add a piece"), _ ("A new piece that is not on the card yet"), G_CALLBACK (add_clicked), self);
  add_button (row, _ ("From a picture…"), _ ("A new piece with the outline of an SVG picture"),
              G_CALLBACK (picture_clicked), self);
  cw_slip_add_heading (body, _ ("This piece"));
  self->name = cw_slip_entry_new (name_taken, self);
  cw_slip_add_row (body, _ ("Name"), self->name, FALSE);
  self->size_part = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6);
  for (guint i = 0; i < N_SIZES; i++)
    {
      self->sizes[i] = cw_slip_entry_new (size_taken, self);
      gtk_widget_set_direction (self->sizes[i], GTK_TEXT_DIR_LTR); /* fractions keep their order */
      cw_slip_add_row (self->size_part, _ (size_words[i]), self->sizes[i], FALSE);
    }
  gtk_box_append (GTK_BOX (body), self->size_part);
  self->own_outline = cw_slip_add_hint (body, _ ("It has an outline of its own, without a width and height to type."));
  self->shows = cw_slip_choice_new (G_CALLBACK (shows_chosen), self);
  cw_slip_add_row (body, _ ("To be seen"), self->shows, FALSE);
  self->lay = add_button (body, _ ("Lay it on the card"), _ ("On the panel that is selected, else on the base"),
                          G_CALLBACK (lay_clicked), self);
  self->guide = add_button (body, _ ("Only a guide: take it away again"),
                            _ ("Lies there without glue, and a step takes it away"), G_CALLBACK (guide_clicked), self);
  self->remove = add_button (body, _ ("Take this piece away"), _ ("The piece, its glue and its steps"),
                             G_CALLBACK (remove_clicked), self);
  self->paper = CW_PAPER_PART (g_object_new (CW_TYPE_PAPER_PART, NULL));
  gtk_box_append (GTK_BOX (body), GTK_WIDGET (self->paper));
}
