/* cw-make-wish.c: what the maker wants of the finished card: its closed size, its envelope, what must and must not
 * show.
 *
 * "Must not show" is wanted from both sides at once; "must show" from one.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "make/cw-make-piece.h"
#include "make/cw-make-private.h"

#include <glib/gi18n-lib.h>

static CwEdit *
set_wants (const CwDesign *design, CwHead *head)
{
  head->has_wants = TRUE;
  return cw_edit_new_head (design, head);
}

/**
 * cw_make_set_closed_size:
 * @width: (nullable): of the closed card; NULL: whatever it comes to
 * @height: (nullable): the same
 *
 * Returns: (transfer full): the edit
 */
CwEdit *
cw_make_set_closed_size (const CwDesign *design, const CwLength *width, const CwLength *height)
{
  g_return_val_if_fail (design && (width != NULL) == (height != NULL), NULL);

  CwHead *head = cw_head_copy (design->head);
  head->wants.has_size = width != NULL;
  if (width)
    {
      head->wants.size[0] = *width;
      head->wants.size[1] = *height;
    }
  return set_wants (design, head);
}

/**
 * cw_make_set_envelope:
 * @width: (nullable): of the envelope; NULL: none
 * @height: (nullable): the same
 *
 * Returns: (transfer full): the edit
 */
CwEdit *
cw_make_set_envelope (const CwDesign *design, const CwLength *width, const CwLength *height)
{
  g_return_val_if_fail (design && (width != NULL) == (height != NULL), NULL);

  CwHead *head = cw_head_copy (design->head);
  head->wants.has_envelope = width != NULL;
  if (width)
    {
      head->wants.envelope[0] = *width;
      head->wants.envelope[1] = *height;
    }
  return set_wants (design, head);
}

/* Whether a want speaks of this panel, or of the whole of a piece that has but this panel, at this state. */
static gboolean
means (const CwSightWant *want, const CwMakeGraph *graph, guint panel, const char *rest)
{
  if (g_strcmp0 (want->target.piece, graph->map->piece->id) != 0 || g_strcmp0 (want->state, rest) != 0
      || want->has_face)
    return FALSE;
  if (!want->target.has_panel)
    return graph->map->panels->len == 1;
  return cw_panel_map_find (graph->map, cw_place_get_point (&want->target.panel)) == panel;
}

/**
 * cw_make_get_wish:
 * @panel: index into the panels of the piece
 * @rest: label of the state, such as "closed"
 *
 * Returns: what the maker wants of the panel there
 */
CwMakeWish
cw_make_get_wish (const CwDesign *design, const char *piece_id, guint panel, const char *rest)
{
  g_return_val_if_fail (design && cw_design_get_piece (design, piece_id) && rest, CW_WISH_NOTHING);

  g_autoptr (CwMakeGraph) graph = cw_make_graph_new (design, piece_id);
  const CwWants *wants = &design->head->wants;

  for (guint i = 0; i < wants->hidden->len; i++)
    if (means (wants->hidden->pdata[i], graph, panel, rest))
      return CW_WISH_HIDDEN;
  for (guint i = 0; i < wants->shown->len; i++)
    if (means (wants->shown->pdata[i], graph, panel, rest))
      return ((const CwSightWant *) wants->shown->pdata[i])->from == CW_FACE_FRONT ? CW_WISH_SHOWN_FRONT
                                                                                   : CW_WISH_SHOWN_BACK;
  return CW_WISH_NOTHING;
}

static void
drop_meaning (GPtrArray *wants, const CwMakeGraph *graph, guint panel, const char *rest)
{
  for (guint i = wants->len; i-- > 0;)
    if (means (wants->pdata[i], graph, panel, rest))
      g_ptr_array_remove_index (wants, i);
}

static void
add_want (GPtrArray *wants, const CwDesign *design, const CwMakeGraph *graph, guint panel, const char *rest,
          CwFace from)
{
  CwSightWant *want = cw_sight_want_new ();

  want->target = graph->map->panels->len == 1 ? (CwTarget){ g_strdup (graph->map->piece->id), FALSE, { { 0 }, { 0 } } }
                                              : cw_make_target (design, graph->map->piece->id,
                                                                &g_array_index (graph->map->panels, CwPanel, panel));
  want->state = g_strdup (rest);
  want->from = from;
  g_ptr_array_add (wants, want);
}

/**
 * cw_make_set_wish:
 * @panel: index into the panels of the piece
 * @rest: label of the state, such as "closed"
 * @wish: what is wanted of it there
 *
 * Returns: (transfer full): the edit, or NULL with CW_MAKE_ERROR when no step ends so
 */
CwEdit *
cw_make_set_wish (const CwDesign *design, const char *piece_id, guint panel, const char *rest, CwMakeWish wish,
                  GError **error)
{
  g_return_val_if_fail (design && cw_design_get_piece (design, piece_id) && rest, NULL);

  g_autoptr (CwMakeGraph) graph = cw_make_graph_new (design, piece_id);
  gboolean known = FALSE;
  g_return_val_if_fail (panel < graph->map->panels->len, NULL);

  for (guint i = 0; i < design->steps->len; i++)
    known = known || g_strcmp0 (((const CwStep *) design->steps->pdata[i])->rest, rest) == 0;
  if (!known)
    {
      cw_make_fail (error, g_str_equal (rest, "open") ? _ ("The card has no step yet that ends open.")
                                                      : _ ("The card has no step yet that ends closed."));
      return NULL;
    }
  CwHead *head = cw_head_copy (design->head);
  drop_meaning (head->wants.hidden, graph, panel, rest);
  drop_meaning (head->wants.shown, graph, panel, rest);
  switch (wish)
    {
    case CW_WISH_HIDDEN:
      add_want (head->wants.hidden, design, graph, panel, rest, CW_FACE_FRONT);
      add_want (head->wants.hidden, design, graph, panel, rest, CW_FACE_BACK);
      break;
    case CW_WISH_SHOWN_FRONT:
    case CW_WISH_SHOWN_BACK:
      add_want (head->wants.shown, design, graph, panel, rest,
                wish == CW_WISH_SHOWN_FRONT ? CW_FACE_FRONT : CW_FACE_BACK);
      break;
    case CW_WISH_NOTHING:
    default:
      break;
    }
  return set_wants (design, head);
}
