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

/* The index of an item with this id in a list of the design; G_MAXUINT: none. */
static guint
find_by_id (const GPtrArray *list, const char *(*get_id) (gconstpointer item), const char *id)
{
  for (guint i = 0; i < list->len; i++)
    if (g_strcmp0 (get_id (g_ptr_array_index (list, i)), id) == 0)
      return i;
  return G_MAXUINT;
}

static const char *
art_id (gconstpointer item)
{
  return ((const CwArt *) item)->id;
}

static const char *
glue_id (gconstpointer item)
{
  return ((const CwGlue *) item)->id;
}

/* The whole thing that an end is one of. */
CwId
cw_table_whole (CwId id)
{
  if (id.kind == CW_ID_MARK_END)
    return (CwId){ CW_ID_MARK, id.piece, id.index, 0 };
  if (id.kind == CW_ID_ZONE_END)
    return (CwId){ CW_ID_ZONE, id.piece, id.index, 0 };
  if (id.kind == CW_ID_ART_END)
    return (CwId){ CW_ID_ART, id.piece, id.index, 0 };
  return id;
}

/* From what is drawn to the same thing in the current design. Panels have no name of their own to be found by, so they
 * wait. FALSE when it is not there. */
gboolean
cw_table_to_current (CwTable *self, CwId *id)
{
  CwDesign *design = cw_document_get_design (self->document), *drawn = self->analysis->design;
  CwIdKind kind = cw_table_whole (*id).kind;
  const CwPiece *old, *now;

  if (cw_table_is_fresh (self))
    return TRUE;
  if (kind == CW_ID_ZONE)
    {
      id->index = id->index < drawn->glue->len
                    ? find_by_id (design->glue, glue_id, glue_id (g_ptr_array_index (drawn->glue, id->index)))
                    : G_MAXUINT;
      return id->index != G_MAXUINT;
    }
  if ((kind != CW_ID_MARK && kind != CW_ID_ART) || id->piece >= drawn->pieces->len)
    return FALSE;
  old = g_ptr_array_index (drawn->pieces, id->piece);
  now = cw_design_get_piece (design, old->id);
  if (now == NULL || id->index >= (kind == CW_ID_MARK ? old->marks : old->art)->len)
    return FALSE;
  id->piece = cw_design_find_piece (design, old->id);
  id->index = kind == CW_ID_MARK ? cw_piece_find_mark (now, ((CwMark *) g_ptr_array_index (old->marks, id->index))->id)
                                 : find_by_id (now->art, art_id, art_id (g_ptr_array_index (old->art, id->index)));
  return id->index != G_MAXUINT;
}

/* The outline of a mark, zone or picture area of the current design that lies on the piece on the table: a fresh copy
 * to be moved; NULL for anything else. */
CwMark *
cw_table_dup_outline (CwTable *self, CwId id)
{
  CwDesign *design = cw_document_get_design (self->document);
  guint at = cw_document_get_piece (self->document);
  const CwPiece *piece = g_ptr_array_index (design->pieces, at);

  id = cw_table_whole (id);
  if (id.kind == CW_ID_MARK && id.piece == at && id.index < piece->marks->len)
    return cw_mark_copy (g_ptr_array_index (piece->marks, id.index));
  if (id.kind == CW_ID_ART && id.piece == at && id.index < piece->art->len)
    return cw_make_outline_of_art (g_ptr_array_index (piece->art, id.index));
  if (id.kind == CW_ID_ZONE && id.index < design->glue->len)
    {
      const CwGlue *glue = g_ptr_array_index (design->glue, id.index);

      return g_strcmp0 (glue->piece, piece->id) == 0 ? cw_make_outline_of_glue (glue) : NULL;
    }
  return NULL;
}

/* Marks, glue and picture areas of the piece on the table, in that order; of the current design. Areas on the other
 * side are left out. */
GArray *
cw_table_list_things (CwTable *self)
{
  GArray *ids = g_array_new (FALSE, TRUE, sizeof (CwId));
  CwDesign *design = cw_document_get_design (self->document);
  guint at = cw_document_get_piece (self->document);
  const CwPiece *piece = g_ptr_array_index (design->pieces, at);
  CwFace up = cw_table_get_up (self);
  CwId id = { CW_ID_MARK, at, 0, 0 };

  for (id.index = 0; id.index < piece->marks->len; id.index++)
    g_array_append_val (ids, id);
  id.kind = CW_ID_ART;
  for (id.index = 0; id.index < piece->art->len; id.index++)
    if (((const CwArt *) g_ptr_array_index (piece->art, id.index))->face == up)
      g_array_append_val (ids, id);
  id = (CwId){ CW_ID_ZONE, G_MAXUINT, 0, 0 };
  for (id.index = 0; id.index < design->glue->len; id.index++)
    {
      const CwGlue *glue = g_ptr_array_index (design->glue, id.index);

      if (glue->face == up && g_strcmp0 (glue->piece, piece->id) == 0)
        g_array_append_val (ids, id);
    }
  return ids;
}

CwFace
cw_table_get_up (CwTable *self)
{
  return self->view.lie.flipped ? CW_FACE_BACK : CW_FACE_FRONT;
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
  const guint on_sheet = 1u << CW_ID_MARK_END | 1u << CW_ID_MARK | 1u << CW_ID_PANEL | 1u << CW_ID_ZONE
                         | 1u << CW_ID_ZONE_END | 1u << CW_ID_ART | 1u << CW_ID_ART_END;

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

/* The panel under the pointer on card or sheet, whatever is drawn on it, and the face of it that is seen. */
gboolean
cw_table_pick_panel (CwTable *self, double x, double y, CwId *id, CwFace *face)
{
  const GdkRectangle *a = &self->sheet_area;

  if (cw_draw_list_pick (self->card_list, x, y, 2, 1u << CW_ID_PANEL, id))
    {
      *face = id->part == CW_FACE_BACK ? CW_FACE_BACK : CW_FACE_FRONT;
      id->part = 0;
      return TRUE;
    }
  *face = cw_table_get_up (self);
  if (x < a->x || y < a->y || x >= a->x + a->width || y >= a->y + a->height)
    return FALSE;
  if (!cw_draw_list_pick (self->sheet_list, x, y, 0, 1u << CW_ID_PANEL | 1u << CW_ID_LAYER, id))
    return FALSE;
  if (id->kind == CW_ID_LAYER)
    {
      *face = id->part == CW_FACE_BACK ? CW_FACE_BACK : CW_FACE_FRONT;
      *id = (CwId){ CW_ID_PANEL, id->piece, id->index, 0 };
    }
  return TRUE;
}

/* Where something is seen on the table, output; FALSE when it is nowhere in sight. */
gboolean
cw_table_get_box (CwTable *self, const CwId *id, double box[4])
{
  const CwPanelMap *map = cw_table_get_map (self);
  g_autoptr (CwMark) outline = cw_table_dup_outline (self, *id);

  if (outline != NULL)
    {
      cw_hand_mark_box (&self->view, map, outline, box);
      return TRUE;
    }
  if (id->kind != CW_ID_PANEL)
    return FALSE;
  if (id->piece == cw_table_get_drawn_piece (self) && id->index < map->panels->len)
    {
      cw_hand_panel_box (&self->view, map, id->index, box);
      return TRUE;
    }
  return cw_draw_list_get_box (self->card_list, *id, box)
         || cw_draw_list_get_box (self->card_list, (CwId){ id->kind, id->piece, id->index, CW_FACE_BACK }, box);
}

/* What something of the drawn design is called and where it lies, for the tip and the screen reader. */
char *
cw_table_dup_words (CwTable *self, CwId id)
{
  const CwPanelSet *set = self->analysis->panels;
  CwUnit unit = set->design->head->unit;

  id = cw_table_whole (id);
  if (id.kind == CW_ID_ZONE)
    return id.index < set->design->glue->len ? cw_words_zone (&self->view, cw_table_get_map (self),
                                                              g_ptr_array_index (set->design->glue, id.index), unit)
                                             : g_strdup ("");
  if (id.piece >= set->n_pieces)
    return g_strdup ("");
  const CwPiece *piece = set->maps[id.piece].piece;
  if (id.kind == CW_ID_MARK && id.index < piece->marks->len)
    return cw_words_mark (&self->view, &set->maps[id.piece], g_ptr_array_index (piece->marks, id.index), unit);
  if (id.kind == CW_ID_ART && id.index < piece->art->len)
    return cw_words_art (&self->view, &set->maps[id.piece], g_ptr_array_index (piece->art, id.index), unit);
  return cw_words_panel (set, id.piece, id.index);
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
