/* cw-selection.c: chosen marks, panels and other things, kept by what they are and not by their index.
 *
 * A CwId holds positions in lists, which edits and undo shift. So each chosen id has an anchor beside it: the file's
 * own ids for marks, art, zones and names; a point well inside for a panel. A fold line has nothing of its own to be
 * found by and is let go when the design changes.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-selection.h"

typedef struct
{
  char *piece, *item; /* ids of the file; NULL where the kind has none */
  CwPoint inside;     /* panels */
  gboolean has_inside;
} Anchor;

struct CwSelection
{
  GArray *ids;        /* of CwId */
  GPtrArray *anchors; /* of Anchor, one for each */
};

static void
anchor_free (gpointer data)
{
  Anchor *anchor = data;

  g_free (anchor->piece);
  g_free (anchor->item);
  g_free (anchor);
}

/* The file's own id of item `index` in the list this kind of thing is in; NULL when it has none. */
static const char *
item_key (const CwDesign *design, CwIdKind kind, guint piece_index, guint index)
{
  const CwPiece *piece = piece_index < design->pieces->len ? g_ptr_array_index (design->pieces, piece_index) : NULL;

  if (kind == CW_ID_ZONE)
    return index < design->glue->len ? ((CwGlue *) g_ptr_array_index (design->glue, index))->id : NULL;
  if (piece == NULL)
    return NULL;
  if (kind == CW_ID_MARK || kind == CW_ID_MARK_END)
    return index < piece->marks->len ? ((CwMark *) g_ptr_array_index (piece->marks, index))->id : NULL;
  if (kind == CW_ID_ART)
    return index < piece->art->len ? ((CwArt *) g_ptr_array_index (piece->art, index))->id : NULL;
  if (kind == CW_ID_NAME)
    return index < piece->names->len ? ((CwName *) g_ptr_array_index (piece->names, index))->name : NULL;
  return NULL;
}

static gboolean
has_key (CwIdKind kind)
{
  return kind == CW_ID_ZONE || kind == CW_ID_MARK || kind == CW_ID_MARK_END || kind == CW_ID_ART || kind == CW_ID_NAME;
}

static Anchor *
anchor_new (const CwDesign *design, const CwAnalysis *analysis, const CwId *id)
{
  Anchor *anchor = g_new0 (Anchor, 1);

  if (id->piece < design->pieces->len)
    anchor->piece = g_strdup (((CwPiece *) g_ptr_array_index (design->pieces, id->piece))->id);
  anchor->item = g_strdup (item_key (design, id->kind, id->piece, id->index));
  if (id->kind == CW_ID_PANEL && analysis != NULL && id->piece < analysis->panels->n_pieces
      && id->index < analysis->panels->maps[id->piece].panels->len)
    {
      anchor->inside = g_array_index (analysis->panels->maps[id->piece].panels, CwPanel, id->index).inside;
      anchor->has_inside = TRUE;
    }
  return anchor;
}

/* Finds the id's place in a design that an edit has made; FALSE when it is gone. */
static gboolean
follow (const Anchor *anchor, const CwDesign *design, CwId *id)
{
  if (id->kind != CW_ID_ZONE)
    {
      id->piece = anchor->piece != NULL ? cw_design_find_piece (design, anchor->piece) : G_MAXUINT;
      if (id->piece == G_MAXUINT)
        return FALSE;
    }
  if (!has_key (id->kind))
    return TRUE;
  for (guint i = 0;; i++)
    {
      const char *key = item_key (design, id->kind, id->piece, i);

      if (key == NULL)
        return FALSE;
      if (g_strcmp0 (key, anchor->item) == 0)
        {
          id->index = i;
          return TRUE;
        }
    }
}

static gboolean
id_equal (const CwId *a, const CwId *b)
{
  return a->kind == b->kind && a->piece == b->piece && a->index == b->index && a->part == b->part;
}

static void
drop (CwSelection *selection, guint i)
{
  g_array_remove_index (selection->ids, i);
  g_ptr_array_remove_index (selection->anchors, i);
}

/**
 * cw_selection_new:
 *
 * Returns: (transfer full): a selection of nothing
 */
CwSelection *
cw_selection_new (void)
{
  CwSelection *selection = g_new (CwSelection, 1);

  selection->ids = g_array_new (FALSE, FALSE, sizeof (CwId));
  selection->anchors = g_ptr_array_new_with_free_func (anchor_free);
  return selection;
}

/**
 * cw_selection_free:
 * @selection: (transfer full) (nullable): a selection
 */
void
cw_selection_free (CwSelection *selection)
{
  if (selection == NULL)
    return;
  g_array_unref (selection->ids);
  g_ptr_array_unref (selection->anchors);
  g_free (selection);
}

/**
 * cw_selection_set:
 * @selection: the selection
 * @design: the design the ids are of
 * @analysis: (nullable): the analysis that panel and fold line numbers are of
 * @ids: (array length=n_ids) (nullable): what to choose instead of what is chosen now
 * @n_ids: how many
 *
 * Returns: FALSE if just these were chosen already
 */
gboolean
cw_selection_set (CwSelection *selection, const CwDesign *design, const CwAnalysis *analysis, const CwId *ids,
                  guint n_ids)
{
  gboolean same = FALSE;

  g_return_val_if_fail (selection != NULL && design != NULL, FALSE);

  same = n_ids == selection->ids->len;
  for (guint i = 0; same && i < n_ids; i++)
    same = id_equal (&ids[i], &g_array_index (selection->ids, CwId, i));
  if (same)
    return FALSE;
  g_array_set_size (selection->ids, 0);
  g_ptr_array_set_size (selection->anchors, 0);
  for (guint i = 0; i < n_ids; i++)
    {
      CwId id = ids[i];

      g_array_append_val (selection->ids, id);
      g_ptr_array_add (selection->anchors, anchor_new (design, analysis, &id));
    }
  return TRUE;
}

/**
 * cw_selection_toggle:
 * @selection: the selection
 * @design: the design the id is of
 * @analysis: (nullable): the analysis that panel and fold line numbers are of
 * @id: chosen if it was not, let go if it was
 */
void
cw_selection_toggle (CwSelection *selection, const CwDesign *design, const CwAnalysis *analysis, CwId id)
{
  g_return_if_fail (selection != NULL && design != NULL);

  for (guint i = 0; i < selection->ids->len; i++)
    if (id_equal (&id, &g_array_index (selection->ids, CwId, i)))
      {
        drop (selection, i);
        return;
      }
  g_array_append_val (selection->ids, id);
  g_ptr_array_add (selection->anchors, anchor_new (design, analysis, &id));
}

/**
 * cw_selection_get:
 * @selection: the selection
 * @n_ids: (out): how many are chosen
 *
 * Returns: (transfer none) (array length=n_ids): the ids, in the order they were chosen
 */
const CwId *
cw_selection_get (CwSelection *selection, guint *n_ids)
{
  g_return_val_if_fail (selection != NULL && n_ids != NULL, NULL);

  *n_ids = selection->ids->len;
  return (const CwId *) (gpointer) selection->ids->data;
}

/**
 * cw_selection_follow_design:
 * @selection: the selection
 * @design: the design as an edit has made it
 *
 * Returns: TRUE if something chosen is gone or has another index now
 */
gboolean
cw_selection_follow_design (CwSelection *selection, const CwDesign *design)
{
  gboolean changed = FALSE;

  g_return_val_if_fail (selection != NULL && design != NULL, FALSE);

  for (guint i = selection->ids->len; i-- > 0;)
    {
      CwId *id = &g_array_index (selection->ids, CwId, i), old = *id;

      if (id->kind == CW_ID_HINGE || !follow (g_ptr_array_index (selection->anchors, i), design, id))
        {
          drop (selection, i);
          changed = TRUE;
        }
      else
        changed |= !id_equal (id, &old);
    }
  return changed;
}

/**
 * cw_selection_follow_analysis:
 * @selection: the selection
 * @analysis: a new analysis of the design at hand
 *
 * Returns: TRUE if a chosen panel is gone or has another number now
 */
gboolean
cw_selection_follow_analysis (CwSelection *selection, const CwAnalysis *analysis)
{
  gboolean changed = FALSE;

  g_return_val_if_fail (selection != NULL && analysis != NULL, FALSE);

  for (guint i = selection->ids->len; i-- > 0;)
    {
      CwId *id = &g_array_index (selection->ids, CwId, i);
      Anchor *anchor = g_ptr_array_index (selection->anchors, i);
      guint found = G_MAXUINT;

      if (id->kind != CW_ID_PANEL)
        continue;
      if (!anchor->has_inside && id->piece < analysis->panels->n_pieces
          && id->index < analysis->panels->maps[id->piece].panels->len)
        {
          /* Chosen on a piece so new that its panels were not known yet. */
          anchor->inside = g_array_index (analysis->panels->maps[id->piece].panels, CwPanel, id->index).inside;
          anchor->has_inside = TRUE;
          found = id->index;
        }
      else if (anchor->has_inside && id->piece < analysis->panels->n_pieces)
        found = cw_panel_map_find (&analysis->panels->maps[id->piece], anchor->inside);
      changed |= found != id->index;
      if (found == G_MAXUINT)
        drop (selection, i);
      else
        id->index = found;
    }
  return changed;
}
