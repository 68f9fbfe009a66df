/* cw-table-edits.c: the actions that change marks, glue and picture areas that are selected.
 *
 * Edits of several marks become one undoable edit, each made on the design that the ones before it leave.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "cw-table-item.h"
#include "cw-table-private.h"

#include <glib/gi18n-lib.h>

#define ARROW_TURN 14 /* pixels of dragging that an arrow key stands for when it turns the card */
#define ARROW_PUSH 40 /* pixels that it pushes the sheet */

typedef CwEdit *(*MarkEdit) (const CwDesign *design, const CwPiece *piece, const CwMark *mark, gconstpointer data,
                             GError **error);

/* ---- What is selected ---- */

static const CwMark *
mark_of (CwDesign *design, const CwId *id)
{
  const CwPiece *piece
    = id->kind == CW_ID_MARK && id->piece < design->pieces->len ? g_ptr_array_index (design->pieces, id->piece) : NULL;

  return piece != NULL && id->index < piece->marks->len ? g_ptr_array_index (piece->marks, id->index) : NULL;
}

/* The first mark selected; borrowed, NULL when there is none. */
const CwMark *
cw_table_get_first_mark (CwTable *self)
{
  guint n;
  const CwId *ids = cw_document_get_selection (self->document, &n);
  const CwMark *mark = NULL;

  for (guint i = 0; i < n && mark == NULL; i++)
    mark = mark_of (cw_document_get_design (self->document), &ids[i]);
  return mark;
}

/* How many of a kind are selected. */
guint
cw_table_count (CwTable *self, CwIdKind kind)
{
  guint n, found = 0;
  const CwId *ids = cw_document_get_selection (self->document, &n);

  for (guint i = 0; i < n; i++)
    found += ids[i].kind == kind
             && (kind != CW_ID_MARK || mark_of (cw_document_get_design (self->document), &ids[i]) != NULL);
  return found;
}

guint
cw_table_count_scores (CwTable *self)
{
  guint n, found = 0;
  const CwId *ids = cw_document_get_selection (self->document, &n);

  for (guint i = 0; i < n; i++)
    {
      const CwMark *mark = mark_of (cw_document_get_design (self->document), &ids[i]);

      found += mark != NULL && mark->kind == CW_MARK_SCORE;
    }
  return found;
}

CwGlueKind
cw_table_get_glue_kind (CwTable *self)
{
  CwDesign *design = self->document ? cw_document_get_design (self->document) : NULL;
  guint n = 0;
  const CwId *ids = design ? cw_document_get_selection (self->document, &n) : NULL;

  for (guint i = 0; i < n; i++)
    if (ids[i].kind == CW_ID_ZONE && ids[i].index < design->glue->len)
      return ((CwGlue *) g_ptr_array_index (design->glue, ids[i].index))->kind;
  return self->glue_kind;
}

/* Edits every selected mark as one; says why when it cannot be done. */
static void
edit_marks (CwTable *self, const char *name, MarkEdit edit_mark, gconstpointer data)
{
  g_autoptr (CwDesign) design = NULL;
  g_autoptr (GPtrArray) addresses = g_ptr_array_new_with_free_func (g_free);
  CwEdit *group = cw_edit_new_group ();
  GError *error = NULL;
  guint n;
  const CwId *ids;

  if (self->document == NULL)
    {
      cw_edit_unref (group);
      return;
    }
  design = cw_design_ref (cw_document_get_design (self->document));
  ids = cw_document_get_selection (self->document, &n);
  for (guint i = 0; i < n; i++)
    if (ids[i].kind == CW_ID_MARK && ids[i].piece < design->pieces->len)
      {
        const CwPiece *piece = g_ptr_array_index (design->pieces, ids[i].piece);
        const CwMark *mark = ids[i].index < piece->marks->len ? g_ptr_array_index (piece->marks, ids[i].index) : NULL;

        if (mark != NULL)
          g_ptr_array_add (addresses, g_strdup_printf ("%s/%s", piece->id, mark->id));
      }
  for (guint i = 0; i < addresses->len && error == NULL; i++)
    {
      CwPiece *piece;
      CwMark *mark;
      g_autoptr (CwEdit) edit = NULL;

      if (!cw_design_split_address (design, g_ptr_array_index (addresses, i), &piece, &mark))
        continue;
      edit = edit_mark (design, piece, mark, data, &error);
      if (edit != NULL)
        {
          CwDesign *next = cw_edit_apply (edit, design);

          cw_design_unref (design);
          design = next;
          cw_edit_group_add (group, g_steal_pointer (&edit));
        }
    }
  cw_document_try (self->document, name, group, error);
}

static CwEdit *
edit_swap_way (const CwDesign *design, const CwPiece *piece, const CwMark *mark, gconstpointer data, GError **error)
{
  return mark->kind == CW_MARK_SCORE ? cw_make_turn_way (design, piece->id, mark->id, error) : NULL;
}

static CwEdit *
edit_way (const CwDesign *design, const CwPiece *piece, const CwMark *mark, gconstpointer data, GError **error)
{
  const char *wish = data;
  CwMark *copy;

  if (mark->kind != CW_MARK_SCORE)
    return NULL;
  copy = cw_mark_copy (mark);
  copy->fold = g_str_equal (wish, "away") ? CW_FOLD_AWAY : g_str_equal (wish, "none") ? CW_FOLD_NONE : CW_FOLD_TOWARD;
  return cw_make_replace_mark (design, piece->id, copy, error);
}

static CwEdit *
edit_made (const CwDesign *design, const CwPiece *piece, const CwMark *mark, gconstpointer data, GError **error)
{
  CwMark *copy;

  if (mark->kind != CW_MARK_SCORE)
    return NULL;
  copy = cw_mark_copy (mark);
  copy->made = g_str_equal (data, "press") ? CW_MADE_PRESS : CW_MADE_BOARD;
  return cw_make_replace_mark (design, piece->id, copy, error);
}

/* ---- Marks ---- */

static void
swap_way (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  edit_marks (data, _ ("turn the fold over"), edit_swap_way, NULL);
}

static void
set_way (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  edit_marks (data, _ ("change fold direction"), edit_way, g_variant_get_string (parameter, NULL));
}

static void
set_made (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  edit_marks (data, _ ("change how it is creased"), edit_made, g_variant_get_string (parameter, NULL));
}

/* The selected marks of one piece of the current design, as they are; borrowed. */
GPtrArray *
cw_table_get_selected_marks (CwTable *self, guint piece_at)
{
  GPtrArray *found = g_ptr_array_new ();
  const CwPiece *piece = g_ptr_array_index (cw_document_get_design (self->document)->pieces, piece_at);
  guint n;
  const CwId *ids = cw_document_get_selection (self->document, &n);

  for (guint i = 0; i < n; i++)
    if (ids[i].kind == CW_ID_MARK && ids[i].piece == piece_at && ids[i].index < piece->marks->len)
      g_ptr_array_add (found, g_ptr_array_index (piece->marks, ids[i].index));
  return found;
}

static int
compare_down (gconstpointer a, gconstpointer b)
{
  const CwId *x = a, *y = b;

  return x->piece != y->piece ? (x->piece < y->piece) - (x->piece > y->piece)
                              : (x->index < y->index) - (x->index > y->index);
}

/* Selected glue and picture areas go, the last of each list first, so that the others keep their places. */
static void
erase_areas (CwTable *self, CwIdKind kind, CwEdit *group, CwDesign **design)
{
  g_autoptr (GArray) ids = g_array_new (FALSE, FALSE, sizeof (CwId));
  guint n;
  const CwId *all = cw_document_get_selection (self->document, &n);

  for (guint i = 0; i < n; i++)
    if (all[i].kind == kind)
      g_array_append_val (ids, all[i]);
  g_array_sort (ids, compare_down);
  for (guint i = 0; i < ids->len; i++)
    {
      const CwId *id = &g_array_index (ids, CwId, i);

      if (kind == CW_ID_ZONE && id->index < (*design)->glue->len)
        cw_table_go_on (group, design, cw_edit_new_erase (*design, CW_LIST_GLUE, NULL, id->index));
      else if (kind == CW_ID_ART && id->piece < (*design)->pieces->len)
        cw_table_go_on (group, design,
                        cw_edit_new_erase (*design, CW_LIST_ART,
                                           ((CwPiece *) g_ptr_array_index ((*design)->pieces, id->piece))->id,
                                           id->index));
    }
}

static void
delete_things (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  CwTable *self = data;
  g_autoptr (CwDesign) design = NULL;
  CwEdit *group = cw_edit_new_group ();
  GError *error = NULL;
  guint n = 0, n_marks = 0;

  if (self->document != NULL)
    {
      design = cw_design_ref (cw_document_get_design (self->document));
      cw_document_get_selection (self->document, &n);
      n_marks = cw_table_count (self, CW_ID_MARK);
    }
  for (guint i = 0; design != NULL && i < design->pieces->len && error == NULL; i++)
    {
      g_autoptr (GPtrArray) marks = cw_table_get_selected_marks (self, i);
      g_autoptr (GPtrArray) ids = g_ptr_array_new ();

      for (guint k = 0; k < marks->len; k++)
        g_ptr_array_add (ids, ((CwMark *) g_ptr_array_index (marks, k))->id);
      g_ptr_array_add (ids, NULL);
      if (marks->len > 0)
        cw_table_go_on (group, &design,
                        cw_make_remove_marks (design, ((CwPiece *) g_ptr_array_index (design->pieces, i))->id,
                                              (const char *const *) ids->pdata, &error));
    }
  if (design != NULL && error == NULL)
    {
      erase_areas (self, CW_ID_ART, group, &design);
      erase_areas (self, CW_ID_ZONE, group, &design);
    }
  cw_document_try (self->document,
                   n_marks == 0 ? _ ("delete areas")
                   : n == 1     ? _ ("delete mark")
                                : _ ("delete marks"),
                   group, error);
}

/* What kind of glue the selected zones are, and the next one drawn is to be. */
static void
set_glue_kind (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  CwTable *self = data;
  g_autoptr (CwDesign) design = NULL;
  CwEdit *group;
  CwGlueKind kind = CW_GLUE_TAPE;
  guint n;
  const CwId *ids;

  if (self->document == NULL)
    return;
  for (CwGlueKind k = CW_GLUE_TAPE; k <= CW_GLUE_DOTS; k++)
    if (g_str_equal (cw_glue_kind_get_key (k), g_variant_get_string (parameter, NULL)))
      kind = k;
  self->glue_kind = kind;
  design = cw_design_ref (cw_document_get_design (self->document));
  group = cw_edit_new_group ();
  ids = cw_document_get_selection (self->document, &n);
  for (guint i = 0; i < n; i++)
    if (ids[i].kind == CW_ID_ZONE && ids[i].index < design->glue->len
        && ((CwGlue *) g_ptr_array_index (design->glue, ids[i].index))->kind != kind)
      cw_table_go_on (group, &design, cw_make_change_glue (design, ids[i].index, kind));
  cw_document_try (self->document, _ ("change the glue"), group, NULL);
  cw_table_update_actions (self);
}

static void
set_words (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  CwTable *self = data;
  guint n;
  const CwId *ids;

  if (!cw_table_is_ready (self))
    return;
  ids = cw_document_get_selection (self->document, &n);
  for (guint i = 0; i < n; i++)
    if (ids[i].kind == CW_ID_ART)
      {
        cw_table_ask_words (self, ids[i]);
        return;
      }
}

/* Selected picture areas are read turned by a quarter clockwise from how they were. */
static void
turn_art (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  CwTable *self = data;
  g_autoptr (CwDesign) design = NULL;
  CwEdit *group;
  guint n;
  const CwId *ids;

  if (self->document == NULL)
    return;
  design = cw_design_ref (cw_document_get_design (self->document));
  group = cw_edit_new_group ();
  ids = cw_document_get_selection (self->document, &n);
  for (guint i = 0; i < n; i++)
    if (ids[i].kind == CW_ID_ART && ids[i].piece < design->pieces->len)
      {
        const CwPiece *piece = g_ptr_array_index (design->pieces, ids[i].piece);
        const CwArt *art = ids[i].index < piece->art->len ? g_ptr_array_index (piece->art, ids[i].index) : NULL;

        if (art != NULL)
          cw_table_go_on (group, &design,
                          cw_make_change_art (design, piece->id, ids[i].index, art->label, art->up + 90));
      }
  cw_document_try (self->document, _ ("turn the picture"), group, NULL);
}

/* Arrow keys: the marks go by the snap step, with nothing selected one looks along the sheet; with the card in focus it
 * is looked at from elsewhere. */
static void
nudge (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  CwTable *self = data;
  g_autoptr (GPtrArray) marks = NULL;
  GPtrArray *moved;
  GError *error = NULL;
  CwEdit *edit;
  int right, down;
  gint32 step;
  CwPoint by;

  g_variant_get (parameter, "(ii)", &right, &down);
  if (!cw_table_is_ready (self))
    return;
  if (gtk_widget_has_focus (self->card_item))
    {
      cw_hand_turn_card (&self->camera, right * ARROW_TURN, down * ARROW_TURN);
      self->camera_turned = TRUE;
      cw_table_redraw_card (self);
      return;
    }
  marks = cw_table_get_selected_marks (self, cw_document_get_piece (self->document));
  if (marks->len == 0)
    {
      self->view.left -= right * ARROW_PUSH;
      self->view.top -= down * ARROW_PUSH;
      self->view_own = TRUE;
      cw_table_place_items (self);
      cw_table_redraw_sheet (self);
      cw_table_redraw_over (self);
      return;
    }
  step = cw_table_get_snap (self);
  if (step <= 0)
    step = cw_table_get_unit (self) == CW_UNIT_INCH ? CW_TICKS_PER_INCH / 64 : CW_TICKS_PER_MM / 10;
  by = cw_hand_lying_step (self->view.lie, right, down);
  by = cw_point (by.x * step, by.y * step);
  for (guint i = 0; i < marks->len; i++)
    by = cw_hand_keep_on_sheet (cw_table_get_map (self), g_ptr_array_index (marks, i), by);
  if (by.x == 0 && by.y == 0)
    {
      cw_document_say (self->document, _ ("It lies at the edge of the sheet already."));
      return;
    }
  moved = g_ptr_array_new_with_free_func ((GDestroyNotify) cw_mark_unref);
  for (guint i = 0; i < marks->len; i++)
    {
      CwMark *mark = g_ptr_array_index (marks, i), *copy = cw_mark_copy (mark);

      cw_hand_slide_mark (copy, mark, by);
      g_ptr_array_add (moved, copy);
    }
  edit = cw_make_replace_marks (cw_document_get_design (self->document), cw_table_get_piece (self)->id, moved, &error);
  cw_document_try (self->document, marks->len == 1 ? _ ("move mark") : _ ("move marks"), edit, error);
}

void
cw_table_add_edit_actions (CwTable *self)
{
  static const GActionEntry entries[] = {
    { "swap-way", swap_way },
    { "way", set_way, "s", "'toward'" },
    { "made", set_made, "s", "'board'" },
    { "delete", delete_things },
    { "nudge", nudge, "(ii)" },
    { "glue-kind", set_glue_kind, "s", "'tape'" },
    { "words", set_words },
    { "turn-art", turn_art },
  };

  g_action_map_add_action_entries (G_ACTION_MAP (self->actions), entries, G_N_ELEMENTS (entries), self);
}
