/* cw-table-things.c: what lies on the table: marks and panels of the design that is drawn, which may be older than the
 * document's for a moment, and what of them lies under the pointer.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "cw-table-private.h"

#include <glib/gi18n-lib.h>

/* Where the piece on the table stands in the analysis that is drawn, which may be of an older design for a moment. */
guint
cw_table_get_drawn_piece (CwTable *self)
{
  guint at = cw_document_get_piece (self->document);
  GPtrArray *pieces = cw_document_get_design (self->document)->pieces;

  if (self->analysis->design == cw_document_get_design (self->document))
    return at < self->analysis->panels->n_pieces ? at : G_MAXUINT;
  if (at >= pieces->len)
    return G_MAXUINT;
  return cw_design_find_piece (self->analysis->design, ((CwPiece *) g_ptr_array_index (pieces, at))->id);
}

gboolean
cw_table_is_ready (CwTable *self)
{
  return self->document != NULL && self->analysis != NULL && cw_table_get_drawn_piece (self) != G_MAXUINT;
}

/* Whether what is drawn is the current design, so that its panels are the panels there are. Never waits: large designs
 * take their time, and drawing goes on meanwhile. */
gboolean
cw_table_is_fresh (CwTable *self)
{
  return cw_table_is_ready (self) && cw_document_is_analysed (self->document)
         && self->analysis == cw_document_get_analysis (self->document);
}

/* The same for something that cannot be done before: says so. */
gboolean
cw_table_needs_fresh (CwTable *self)
{
  if (cw_table_is_fresh (self))
    return TRUE;
  if (self->document != NULL)
    cw_document_say (self->document, _ ("One moment: still working out how it folds."));
  return FALSE;
}

/* From what is drawn to the same thing in the current design. Panels have no name of their own to be found by, so they
 * wait. FALSE when it is not there. */
gboolean
cw_table_to_current (CwTable *self, CwId *id)
{
  CwDesign *design = cw_document_get_design (self->document);
  const CwPiece *old, *now;

  if (cw_table_is_fresh (self))
    return TRUE;
  if ((id->kind != CW_ID_MARK && id->kind != CW_ID_MARK_END) || id->piece >= self->analysis->design->pieces->len)
    return FALSE;
  old = g_ptr_array_index (self->analysis->design->pieces, id->piece);
  now = cw_design_get_piece (design, old->id);
  if (now == NULL || id->index >= old->marks->len)
    return FALSE;
  id->piece = cw_design_find_piece (design, old->id);
  id->index = cw_piece_find_mark (now, ((CwMark *) g_ptr_array_index (old->marks, id->index))->id);
  return id->index != G_MAXUINT;
}

/* A mark of the current design; NULL for what is none. Borrowed. */
const CwMark *
cw_table_get_mark (CwTable *self, CwId id)
{
  GPtrArray *pieces = cw_document_get_design (self->document)->pieces;
  const CwPiece *piece = id.piece < pieces->len ? g_ptr_array_index (pieces, id.piece) : NULL;

  if (piece == NULL || (id.kind != CW_ID_MARK && id.kind != CW_ID_MARK_END) || id.index >= piece->marks->len)
    return NULL;
  return g_ptr_array_index (piece->marks, id.index);
}

const CwPanelMap *
cw_table_get_map (CwTable *self)
{
  return &self->analysis->panels->maps[cw_table_get_drawn_piece (self)];
}

const CwPiece *
cw_table_get_piece (CwTable *self)
{
  return cw_table_get_map (self)->piece;
}

guint
cw_table_get_lit_panel (CwTable *self)
{
  const CwPanelSet *set = self->analysis->panels;

  if (self->hover.kind != CW_ID_PANEL || self->hover.piece >= set->n_pieces
      || self->hover.index >= set->maps[self->hover.piece].panels->len)
    return G_MAXUINT;
  return set->first_panel[self->hover.piece] + self->hover.index;
}

/* What lies under the pointer: the card lies over the sheet. */
gboolean
cw_table_pick (CwTable *self, double x, double y, CwId *id, gboolean *on_card)
{
  const GdkRectangle *a = &self->sheet_area;
  const guint on_sheet = 1u << CW_ID_MARK_END | 1u << CW_ID_MARK | 1u << CW_ID_PANEL;

  *on_card = TRUE;
  if (cw_draw_list_pick (self->card_list, x, y, 2, 1u << CW_ID_PANEL, id))
    {
      id->part = 0; /* both faces are one panel */
      return TRUE;
    }
  *on_card = FALSE;
  if (x < a->x || y < a->y || x >= a->x + a->width || y >= a->y + a->height)
    return FALSE;
  return cw_draw_list_pick (self->sheet_list, x, y, CW_TABLE_REACH, on_sheet, id);
}

gboolean
cw_table_is_selected (CwTable *self, CwId id)
{
  guint n;
  const CwId *ids = cw_document_get_selection (self->document, &n);

  for (guint i = 0; i < n; i++)
    if (ids[i].kind == id.kind && ids[i].piece == id.piece && ids[i].index == id.index)
      return TRUE;
  return FALSE;
}
