/* flat-fixture.h: flat states of designs written as text, and their stacks as words.
 *
 * A stack is told from top to bottom, each layer as its piece, panel and the face that is up: "base0b tile0f".
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "card-fixture.h"
#include "contact/cw-flat-private.h"

static inline CwFlatStates *
flat_states (const char *text)
{
  g_autoptr (CwMotion) motion = card_motion (text);

  return cw_flat_states_new (motion);
}

static inline const CwFlatState *
flat_state (const CwFlatStates *states, const char *step)
{
  guint index = cw_design_find_step (cw_motion_get_set (states->motion)->design, step);

  g_assert_cmpuint (index, !=, G_MAXUINT);
  return cw_flat_states_get (states, index);
}

/* The cell at a place, inches. */
static inline const CwCell *
flat_cell (const CwFlatState *state, double x, double y)
{
  for (guint i = 0; i < state->cells->len; i++)
    {
      const CwCell *cell = &g_array_index (state->cells, CwCell, i);

      if (cw_polygon_contains (&cell->outline, x * CW_TICKS_PER_INCH, y * CW_TICKS_PER_INCH))
        return cell;
    }
  g_assert_not_reached ();
}

static inline char *
flat_stack (const CwFlatStates *states, const char *step, double x, double y)
{
  const CwPanelSet *set = cw_motion_get_set (states->motion);
  const CwCell *cell = flat_cell (flat_state (states, step), x, y);
  GString *words = g_string_new (NULL);

  for (guint i = 0; i < cell->n_layers; i++)
    {
      guint piece, panel;

      cw_panel_set_locate (set, cell->layers[i].panel, &piece, &panel);
      g_string_append_printf (words, "%s%s%u%s", i > 0 ? " " : "", set->maps[piece].piece->id, panel,
                              cell->layers[i].face_up == CW_FACE_BACK ? "b" : "f");
    }
  return g_string_free (words, FALSE);
}

#define flat_assert_stack(states, step, x, y, wanted)                                                                  \
  G_STMT_START                                                                                                         \
  {                                                                                                                    \
    g_autofree char *flat_got = flat_stack ((states), (step), (x), (y));                                               \
    g_assert_cmpstr (flat_got, ==, (wanted));                                                                          \
  }                                                                                                                    \
  G_STMT_END
