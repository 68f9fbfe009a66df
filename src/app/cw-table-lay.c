/* cw-table-lay.c: what becomes of an outline that has been drawn: a mark, a layer, glue, or a place for a picture.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "cw-table-private.h"

#include <glib/gi18n-lib.h>

/* Does the edit and selects what came last on the list it adds to; FALSE when it was refused. */
static gboolean
do_and_select (CwTable *self, const char *name, CwEdit *edit, GError *error, CwIdKind kind)
{
  guint at = cw_document_get_piece (self->document);
  CwDesign *design;
  CwPiece *piece;
  CwId id = { kind, at, 0, 0 };
  gboolean done = edit != NULL;

  cw_table_do (self, name, edit, error);
  if (!done)
    return FALSE;
  design = cw_document_get_design (self->document);
  piece = g_ptr_array_index (design->pieces, at);
  if (kind == CW_ID_ZONE)
    id = (CwId){ kind, G_MAXUINT, design->glue->len - 1, 0 };
  else if (kind == CW_ID_PANEL)
    id.piece = design->pieces->len - 1;
  else
    id.index = (kind == CW_ID_ART ? piece->art : piece->marks)->len - 1;
  cw_document_select (self->document, &id, 1);
  return TRUE;
}

static void
lay_mark (CwTable *self, CwMark *mark)
{
  CwDesign *design = cw_document_get_design (self->document);
  CwPiece *piece = g_ptr_array_index (design->pieces, cw_document_get_piece (self->document));
  GPtrArray *marks = g_ptr_array_new_with_free_func ((GDestroyNotify) cw_mark_unref);
  const char *name = mark->kind == CW_MARK_SCORE ? _ ("draw score")
                     : mark->kind == CW_MARK_CUT ? _ ("draw cut")
                                                 : _ ("draw window");
  GError *error = NULL;
  CwEdit *edit;

  g_ptr_array_add (marks, cw_mark_ref (mark));
  edit = cw_make_add_marks (design, piece->id, marks, TRUE, &error);
  if (do_and_select (self, name, edit, error, CW_ID_MARK))
    cw_table_offer_flip (self);
}

static void
words_answered (CwTable *self, CwId id, const char *text)
{
  const CwPiece *piece = g_ptr_array_index (cw_document_get_design (self->document)->pieces, id.piece);
  const CwArt *art = id.index < piece->art->len ? g_ptr_array_index (piece->art, id.index) : NULL;

  if (art != NULL)
    cw_table_do (self, _ ("change the words"),
                 cw_make_change_art (cw_document_get_design (self->document), piece->id, id.index, text, art->up),
                 NULL);
}

/* Asks what a picture or greeting shows or says, on the place itself. */
void
cw_table_ask_words (CwTable *self, CwId id)
{
  CwDesign *design = cw_document_get_design (self->document);
  const CwPiece *piece = id.piece < design->pieces->len ? g_ptr_array_index (design->pieces, id.piece) : NULL;
  g_autoptr (CwMark) outline = cw_table_dup_outline (self, id);
  double box[4];

  if (piece == NULL || outline == NULL)
    return;
  cw_hand_mark_box (&self->view, cw_table_get_map (self), outline, box);
  cw_table_ask (self, box, _ ("What it says or shows"),
                ((const CwArt *) g_ptr_array_index (piece->art, id.index))->label, words_answered, id);
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
  const CwPiece *piece = g_ptr_array_index (design->pieces, cw_document_get_piece (self->document));
  CwFace up = cw_table_get_up (self);
  GError *error = NULL;
  CwEdit *edit;
  guint before = self->moving->len;

  g_ptr_array_add (self->moving, cw_mark_copy (mark)); /* shown until the analysis has caught up */
  switch (self->tool)
    {
    case CW_TOOL_LAYER:
      edit = cw_make_lay_shape (design, piece->id, up, mark, &error);
      do_and_select (self, _ ("lay a layer"), edit, error, CW_ID_PANEL);
      break;
    case CW_TOOL_GLUE:
      edit = cw_make_draw_glue (design, piece->id, up, self->glue_kind, mark, &error);
      do_and_select (self, _ ("draw glue"), edit, error, CW_ID_ZONE);
      break;
    case CW_TOOL_PICTURE:
      edit = cw_make_add_art (design, piece->id, up, mark, NULL, &error);
      if (do_and_select (self, _ ("draw a picture area"), edit, error, CW_ID_ART))
        cw_table_ask_words (self, (CwId){ CW_ID_ART, cw_document_get_piece (self->document), piece->art->len, 0 });
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
  GError *error = NULL;
  CwEdit *edit
    = cw_make_add_layer (cw_document_get_design (self->document), self->analysis->panels->maps[panel.piece].piece->id,
                         panel.index, face, rim, &error);

  self->rim = rim;
  do_and_select (self, _ ("lay a layer"), edit, error, CW_ID_PANEL);
}
