/* cw-table-lay.c: what becomes of an outline that has been drawn: a mark, a layer, glue, or a place for a picture.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "cw-lay.h"
#include "cw-table-private.h"

#include <glib/gi18n-lib.h>

static void
lay_mark (CwTable *self, CwMark *mark)
{
  CwDesign *design = cw_document_get_design (self->document);
  CwPiece *piece = g_ptr_array_index (design->pieces, cw_document_get_piece (self->document));
  GPtrArray *marks = g_ptr_array_new_with_free_func ((GDestroyNotify) cw_mark_unref);
  const char *name = mark->kind == CW_MARK_SCORE ? _ ("draw score")
                     : mark->kind == CW_MARK_CUT ? _ ("draw cut")
                                                 : _ ("draw window");
  guint before = piece->marks->len;
  GError *error = NULL;
  CwEdit *edit;

  g_ptr_array_add (marks, cw_mark_ref (mark));
  edit = cw_make_add_marks (design, piece->id, marks, TRUE, &error);
  cw_document_try (self->document, name, edit, error);
  piece = g_ptr_array_index (cw_document_get_design (self->document)->pieces, cw_document_get_piece (self->document));
  if (piece->marks->len > before)
    cw_document_select (self->document,
                        &(CwId){ CW_ID_MARK, cw_document_get_piece (self->document), piece->marks->len - 1, 0 }, 1);
}

/* All selected pictures get the words; the parts of one that lies on several faces are told apart. */
static void
words_answered (CwTable *self, CwId asked, const char *text)
{
  g_autoptr (CwDesign) design = cw_design_ref (cw_document_get_design (self->document));
  CwEdit *group = cw_edit_new_group ();
  guint n, n_art = cw_table_count (self, CW_ID_ART), at = 0;
  const CwId *ids = cw_document_get_selection (self->document, &n);

  if (!cw_table_is_selected (self, asked))
    {
      ids = &asked;
      n = n_art = 1;
    }
  for (guint i = 0; i < n; i++)
    {
      const CwPiece *piece = ids[i].kind == CW_ID_ART && ids[i].piece < design->pieces->len
                               ? g_ptr_array_index (design->pieces, ids[i].piece)
                               : NULL;
      const CwArt *art
        = piece != NULL && ids[i].index < piece->art->len ? g_ptr_array_index (piece->art, ids[i].index) : NULL;
      g_autofree char *label = NULL;

      if (art == NULL)
        continue;
      at++;
      /* Translators: words of a picture that lies on several faces, and which part of how many this is */
      label = n_art > 1 && *text != '\0' ? g_strdup_printf (_ ("%s (%u of %u)"), text, at, n_art) : g_strdup (text);
      cw_table_go_on (group, &design, cw_make_change_art (design, piece->id, ids[i].index, label, art->up));
    }
  cw_document_try (self->document, _ ("change the words"), group, NULL);
}

/* Asks what a picture or greeting shows or says, on the place itself. */
void
cw_table_ask_words_at (CwTable *self, CwId id, const double box[4])
{
  CwDesign *design = cw_document_get_design (self->document);
  const CwPiece *piece = id.piece < design->pieces->len ? g_ptr_array_index (design->pieces, id.piece) : NULL;

  if (piece != NULL && id.index < piece->art->len)
    cw_table_ask (self, box, _ ("What it says or shows"),
                  ((const CwArt *) g_ptr_array_index (piece->art, id.index))->label, words_answered, id);
}

void
cw_table_ask_words (CwTable *self, CwId id)
{
  g_autoptr (CwMark) outline = cw_table_dup_outline (self, id);
  double box[4];

  if (outline == NULL)
    return;
  cw_hand_mark_box (&self->view, cw_table_get_map (self), outline, box);
  cw_table_ask_words_at (self, id, box);
}

/* Does what the wish says with the outline, or says why it cannot be done. */
static gboolean
lay_area (CwTable *self, CwMeasureWhat what, const CwMark *outline)
{
  CwMeasureWish wish = { .what = what, .glue = self->glue_kind };
  g_autoptr (GError) error = NULL;

  if (cw_lay_area (self->document, &wish, outline, cw_table_get_up (self), &error))
    return TRUE;
  cw_document_say (self->document, error->message);
  return FALSE;
}

/**
 * cw_table_lay:
 * @self: the table
 * @drawn: (transfer full): an outline on the piece that lies there
 *
 * Makes of it what the tool at hand makes; says why when that cannot be.
 */
void
cw_table_lay (CwTable *self, CwMark *drawn)
{
  g_autoptr (CwMark) mark = drawn;
  CwDesign *design = cw_document_get_design (self->document);
  guint before = self->moving->len, n;

  g_ptr_array_add (self->moving, cw_mark_copy (mark)); /* shown until the analysis has caught up */
  switch (self->tool)
    {
    case CW_TOOL_LAYER:
      lay_area (self, CW_MEASURE_LAYER, mark);
      break;
    case CW_TOOL_GLUE:
      lay_area (self, CW_MEASURE_GLUE, mark);
      break;
    case CW_TOOL_PICTURE:
      if (lay_area (self, CW_MEASURE_PICTURE, mark))
        cw_table_ask_words (self, cw_document_get_selection (self->document, &n)[0]);
      break;
    case CW_TOOL_SELECT:
    case CW_TOOL_SCORE:
    case CW_TOOL_CUT:
    case CW_TOOL_WINDOW:
    case CW_TOOL_NAME:
    case CW_N_TOOLS:
    default:
      lay_mark (self, mark);
      break;
    }
  if (cw_document_get_design (self->document) == design && self->moving->len > before)
    cw_table_forget_moving (self); /* refused */
}

/**
 * cw_table_lay_on_panel:
 * @self: the table
 * @panel: a panel of any piece
 * @face: of that piece
 * @rim: how much of the panel shows all round
 */
void
cw_table_lay_on_panel (CwTable *self, CwId panel, CwFace face, CwLength rim)
{
  g_autoptr (GError) error = NULL;

  self->rim = rim;
  if (!cw_lay_rim (self->document, panel.piece, panel.index, face, rim, &error))
    cw_document_say (self->document, error->message);
}
