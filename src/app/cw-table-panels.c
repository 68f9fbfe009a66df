/* cw-table-panels.c: what can be done with a selected panel: kept still, named, layers laid on it, its piece taken
 * away.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "cw-table-private.h"

#include <glib/gi18n-lib.h>

/* The one panel that is meant: the first selected. */
gboolean
cw_table_get_panel (CwTable *self, CwId *id)
{
  guint n;
  const CwId *ids = cw_document_get_selection (self->document, &n);

  for (guint i = 0; i < n; i++)
    if (ids[i].kind == CW_ID_PANEL && ids[i].piece < self->analysis->panels->n_pieces
        && ids[i].index < self->analysis->panels->maps[ids[i].piece].panels->len)
      {
        *id = ids[i];
        return TRUE;
      }
  return FALSE;
}

static void
hold (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  CwTable *self = data;
  CwId id;
  GError *error = NULL;
  CwEdit *edit;
  const CwPanelMap *map;
  g_autofree char *name = NULL;

  if (!cw_table_needs_fresh (self) || !cw_table_get_panel (self, &id))
    return;
  map = &self->analysis->panels->maps[id.piece];
  name = cw_words_panel (self->analysis->panels, id.piece, id.index);
  edit = cw_make_set_hold (cw_document_get_design (self->document), map->piece->id,
                           g_array_index (map->panels, CwPanel, id.index).inside, &error);
  if (error == NULL)
    cw_table_say (self, _ ("%s stays still now."), name);
  cw_document_try (self->document, _ ("keep panel still"), edit, error);
}

/* A layer on the face of the panel that is seen: on the sheet the one that is up. */
static void
lay_piece (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  CwTable *self = data;
  CwId id;
  CwLength rim;
  g_autoptr (GError) error = NULL;

  if (!cw_table_needs_fresh (self) || !cw_table_get_panel (self, &id))
    return;
  if (cw_length_parse (g_variant_get_string (parameter, NULL), CW_UNIT_INCH, &rim, &error))
    cw_table_lay_on_panel (self, id, cw_table_get_up (self), rim);
  else
    cw_document_say (self->document, error->message);
}

/* The layer whose panel is selected follows its panel with another rim. */
static void
set_rim (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  CwTable *self = data;
  CwId id;
  CwLength rim;
  GError *error = NULL;
  CwEdit *edit = NULL;

  if (!cw_table_needs_fresh (self) || !cw_table_get_panel (self, &id))
    return;
  if (cw_length_parse (g_variant_get_string (parameter, NULL), CW_UNIT_INCH, &rim, &error))
    edit = cw_make_set_rim (cw_document_get_design (self->document), self->analysis->panels->maps[id.piece].piece->id,
                            rim, &error);
  if (edit != NULL)
    self->rim = rim;
  cw_document_try (self->document, _ ("change the rim"), edit, error);
}

static void
remove_piece (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  CwTable *self = data;
  CwId id;
  GError *error = NULL;
  CwEdit *edit;

  if (!cw_table_needs_fresh (self) || !cw_table_get_panel (self, &id))
    return;
  edit = cw_make_remove_piece (cw_document_get_design (self->document),
                               self->analysis->panels->maps[id.piece].piece->id, &error);
  cw_document_try (self->document, _ ("take piece away"), edit, error);
}

/* The rim of the layer selected, as the action says it; "" for one that keeps none of these. */
const char *
cw_table_get_rim_words (CwTable *self)
{
  static const struct
  {
    const char *words;
    gint32 ticks;
  } rims[] = { { "1/8 in", CW_TICKS_PER_INCH / 8 },
               { "1/16 in", CW_TICKS_PER_INCH / 16 },
               { "3 mm", 3 * CW_TICKS_PER_MM },
               { "2 mm", 2 * CW_TICKS_PER_MM },
               { "0 in", 0 } };
  const CwPiece *piece;
  CwId id;

  if (!cw_table_get_panel (self, &id))
    return "";
  piece = self->analysis->panels->maps[id.piece].piece;
  for (guint i = 0; i < G_N_ELEMENTS (rims); i++)
    if (piece->has_rim && piece->rim.ticks == rims[i].ticks)
      return rims[i].words;
  return "";
}

static void
name_answered (CwTable *self, CwId id, const char *text)
{
  const CwPanelSet *set = self->analysis->panels;
  CwEdit *edit;

  if (!cw_table_needs_fresh (self) || id.piece >= set->n_pieces || id.index >= set->maps[id.piece].panels->len)
    return;
  edit = cw_make_name_panel (cw_document_get_design (self->document), set->maps[id.piece].piece->id, id.index, text);
  cw_document_try (self->document, _ ("rename panel"), edit, NULL);
}

/* An entry that stands on the panel. */
void
cw_table_rename_panel (CwTable *self, CwId panel)
{
  const CwPanel *found = &g_array_index (self->analysis->panels->maps[panel.piece].panels, CwPanel, panel.index);
  double box[4] = { self->card_area.x, self->card_area.y, self->card_area.x + self->card_area.width,
                    self->card_area.y + self->card_area.height };

  cw_table_get_box (self, &panel, box);
  cw_table_ask (self, box, _ ("Name of this panel"), found->name, name_answered, panel);
}

static void
rename_panel (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  CwTable *self = data;
  CwId id;

  if (cw_table_needs_fresh (self) && cw_table_get_panel (self, &id))
    cw_table_rename_panel (self, id);
}

void
cw_table_add_panel_actions (CwTable *self)
{
  static const GActionEntry entries[] = {
    { "hold", hold },
    { "rename", rename_panel },
    { "lay-piece", lay_piece, "s" },
    { "set-rim", set_rim, "s", "''" },
    { "remove-piece", remove_piece },
  };

  g_action_map_add_action_entries (G_ACTION_MAP (self->actions), entries, G_N_ELEMENTS (entries), self);
}
