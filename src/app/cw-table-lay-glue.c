/* cw-table-lay-glue.c: glue as people put it on, for the selected layer or zone.
 *
 * Meant is the selected zone; else, of the selected panel, the face by which its piece is stuck down; else the face
 * that lies up on the table. Laying glue takes the place of what lies on that face. The menu lays it in its usual
 * measures; cw-table-ask-glue.c asks for others.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "cw-table-lay-glue.h"

#include <glib/gi18n-lib.h>

#include "make/cw-make-area.h"

const CwGlueWayWords cw_glue_ways[CW_N_GLUE_WAYS] = {
  { "safe", CW_GLUE_SHAPE_ALL_OVER, N_ ("All that is safe"), N_ ("glue all that is safe"), NULL, { 0 }, { 0 } },
  { "all",
    CW_GLUE_SHAPE_ALL_OVER,
    N_ ("All over"),
    N_ ("glue all over"),
    NULL,
    { NULL, NULL, "1/8 in" },
    { NULL, NULL, "3 mm" } },
  { "rim",
    CW_GLUE_SHAPE_RIM,
    N_ ("A rim"),
    N_ ("glue a rim"),
    N_ ("How wide"),
    { "1/4 in", NULL, "1/8 in" },
    { "6 mm", NULL, "3 mm" } },
  { "corners",
    CW_GLUE_SHAPE_CORNERS,
    N_ ("The corners"),
    N_ ("glue the corners"),
    N_ ("How large"),
    { "1/2 in", NULL, "1/8 in" },
    { "12 mm", NULL, "3 mm" } },
  { "strip",
    CW_GLUE_SHAPE_STRIP,
    N_ ("A strip along an edge"),
    N_ ("glue a strip"),
    N_ ("How wide"),
    { "1/4 in", NULL, "1/8 in" },
    { "6 mm", NULL, "3 mm" } },
  { "dots",
    CW_GLUE_SHAPE_DOTS,
    N_ ("Dots"),
    N_ ("glue dots"),
    N_ ("How large"),
    { "1/4 in", "3/4 in", "1/8 in" },
    { "6 mm", "20 mm", "3 mm" } },
};

/* ---- What is meant ---- */

static CwFace
find_face (CwTable *self, guint piece, guint panel)
{
  const CwPanelSet *set = self->analysis->panels;
  const char *id = set->maps[piece].piece->id;

  for (guint i = 0; i < set->design->steps->len; i++)
    {
      const CwStep *step = g_ptr_array_index (set->design->steps, i);

      if (step->what == CW_DO_STICK && g_strcmp0 (step->piece, id) == 0 && cw_panel_set_find_laid (set, piece) == panel)
        return step->facing;
    }
  return cw_document_get_lie (self->document).flipped ? CW_FACE_BACK : CW_FACE_FRONT;
}

/* FALSE when nothing is selected that glue could go on, or when it is not known yet how it folds. */
gboolean
cw_table_find_glue_meant (CwTable *self, CwGlueMeant *meant)
{
  guint n;
  const CwId *ids;
  CwId panel;

  if (!cw_table_is_fresh (self))
    return FALSE;
  ids = cw_document_get_selection (self->document, &n);
  for (guint i = 0; i < n; i++)
    if (ids[i].kind == CW_ID_ZONE && ids[i].index < cw_bonds_get_zones (self->analysis->bonds)->len)
      {
        const CwZone *zone = &g_array_index (cw_bonds_get_zones (self->analysis->bonds), CwZone, ids[i].index);

        if (zone->panel == G_MAXUINT)
          return FALSE;
        cw_panel_set_locate (self->analysis->panels, zone->panel, &meant->piece, &meant->panel);
        meant->zone = ids[i].index;
        meant->face = zone->glue->face;
        return TRUE;
      }
  if (!cw_table_get_panel (self, &panel))
    return FALSE;
  *meant = (CwGlueMeant){ panel.piece, panel.index, G_MAXUINT, find_face (self, panel.piece, panel.index) };
  return TRUE;
}

static const CwPanelMap *
get_map (CwTable *self, const CwGlueMeant *meant)
{
  return &self->analysis->panels->maps[meant->piece];
}

/* The zone that stands for what is there; NULL: there is no glue yet. */
const CwGlue *
cw_table_find_glue (CwTable *self, const CwGlueMeant *meant)
{
  g_autoptr (GArray) zones = NULL;
  guint first = meant->zone;

  if (first == G_MAXUINT)
    {
      zones = cw_make_find_glue (self->analysis->design, get_map (self, meant), meant->panel, meant->face);
      if (zones->len == 0)
        return NULL;
      first = g_array_index (zones, guint, 0);
    }
  return g_ptr_array_index (self->analysis->design->glue, first);
}

/* ---- Doing it ---- */

/* One zone gets another shape, and maybe another kind, as one edit. */
static CwEdit *
reshape (const CwDesign *design, guint zone, CwGlueKind kind, const CwGluePlan *plan, const CwRegion *region,
         GError **error)
{
  CwEdit *group = cw_edit_new_group (), *edit = cw_make_change_glue (design, zone, kind);
  g_autoptr (CwDesign) changed = cw_edit_apply (edit, design);
  const char *id = ((CwGlue *) g_ptr_array_index (design->glue, zone))->id;

  cw_edit_group_add (group, edit);
  edit = region != NULL ? cw_make_reshape_glue_to (changed, id, region, error)
                        : cw_make_reshape_glue (changed, id, plan, error);
  if (edit == NULL)
    g_clear_pointer (&group, cw_edit_unref);
  else
    cw_edit_group_add (group, edit);
  return group;
}

void
cw_table_lay_glue (CwTable *self, const CwGlueMeant *meant, CwGlueWay way, CwGlueKind kind, const CwGluePlan *plan)
{
  const CwDesign *design = cw_document_get_design (self->document);
  const CwPanelSet *set = self->analysis->panels;
  const char *piece = get_map (self, meant)->piece->id;
  CwSafeArea safe = { 0 };
  const CwRegion *region = NULL;
  GError *error = NULL;
  CwEdit *edit;

  if (way == CW_GLUE_WAY_SAFE)
    {
      safe = cw_bonds_find_safe_area_for (self->analysis->bonds, set->first_panel[meant->piece] + meant->panel,
                                          meant->face, kind);
      region = &safe.safe;
      if (region->n_polygons == 0)
        {
          cw_document_say (self->document, _ ("Nowhere on this face would glue be safe: nothing stays with it."));
          cw_safe_area_clear (&safe);
          return;
        }
    }
  if (meant->zone != G_MAXUINT)
    edit = reshape (design, meant->zone, kind, plan, region, &error);
  else if (region != NULL)
    edit = cw_make_lay_glue_on (design, piece, meant->panel, meant->face, kind, region, &error);
  else
    edit = cw_make_lay_glue (design, piece, meant->panel, meant->face, kind, plan, &error);
  cw_safe_area_clear (&safe);
  cw_document_try (self->document, _ (cw_glue_ways[way].undo), edit, error);
}

static CwGlueWay
find_way (const char *key)
{
  guint way = CW_GLUE_WAY_SAFE;

  while (way + 1 < CW_N_GLUE_WAYS && !g_str_equal (cw_glue_ways[way].key, key))
    way++;
  return way;
}

/* A place outside the middle of one side of the panel, as the sheet lies. */
CwPoint
cw_table_find_glue_edge (CwTable *self, const CwGlueMeant *meant, guint side)
{
  static const double to[4][2] = { { 0, 0.5 }, { 1, 0.5 }, { 0.5, 0 }, { 0.5, 1 } };
  CwSheetView view = { .lie = cw_document_get_lie (self->document), .scale = 1 };
  const CwPanelMap *map = get_map (self, meant);
  double box[4], x, y;

  cw_hand_panel_box (&view, map, meant->panel, box);
  cw_sheet_view_to_piece (&view, map, box[0] + to[side][0] * (box[2] - box[0]),
                          box[1] + to[side][1] * (box[3] - box[1]), &x, &y);
  return cw_point ((gint32) x, (gint32) y);
}

static gint32
usual (CwTable *self, CwGlueWay way, guint which)
{
  CwUnit unit = cw_table_get_unit (self);
  const char *text = unit == CW_UNIT_INCH ? cw_glue_ways[way].inches[which] : cw_glue_ways[way].millimetres[which];
  CwLength length = { 0 };

  return text != NULL && cw_length_parse (text, unit, &length, NULL) ? length.ticks : 0;
}

/* ---- Actions ---- */

/* From the menu: the usual measures, the kind of glue that is there. */
static void
lay_usual (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  CwTable *self = data;
  CwGlueWay way = find_way (g_variant_get_string (parameter, NULL));
  CwGluePlan plan = { .shape = cw_glue_ways[way].shape };
  const CwGlue *glue;
  CwGlueMeant meant;

  if (!cw_table_needs_fresh (self) || !cw_table_find_glue_meant (self, &meant))
    return;
  plan.size = usual (self, way, 0);
  plan.spacing = usual (self, way, 1);
  plan.inset = usual (self, way, 2);
  plan.along = cw_table_find_glue_edge (self, &meant, 0);
  glue = cw_table_find_glue (self, &meant);
  cw_table_lay_glue (self, &meant, way, glue != NULL ? glue->kind : CW_GLUE_TAPE, &plan);
}

static void
take_off (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  CwTable *self = data;
  CwDesign *design;
  CwEdit *edit;
  CwGlueMeant meant;

  if (!cw_table_needs_fresh (self) || !cw_table_find_glue_meant (self, &meant))
    return;
  design = cw_document_get_design (self->document);
  if (self->glue_popover != NULL)
    gtk_popover_popdown (GTK_POPOVER (self->glue_popover));
  if (meant.zone != G_MAXUINT)
    edit = cw_edit_new_erase (design, CW_LIST_GLUE, NULL, meant.zone);
  else
    edit = cw_make_strip_glue (design, get_map (self, &meant)->piece->id, meant.panel, meant.face);
  cw_document_try (self->document, _ ("take glue off"), edit, NULL);
}

void
cw_table_add_glue_actions (CwTable *self)
{
  static const GActionEntry entries[] = {
    { "glue-map", NULL, NULL, "false", cw_table_change_glue_map },
    { "glue", cw_table_ask_glue },
    { "glue-lay", lay_usual, "s" },
    { "glue-off", take_off },
  };

  g_action_map_add_action_entries (G_ACTION_MAP (self->actions), entries, G_N_ELEMENTS (entries), self);
}

/* What decides whether glue can be put on now, and taken off. */
void
cw_table_find_glue_facts (CwTable *self, CwTableState *state)
{
  CwGlueMeant meant;

  state->glue_meant = cw_table_find_glue_meant (self, &meant);
  state->glued = state->glue_meant && cw_table_find_glue (self, &meant) != NULL;
}

/* The menu of a layer's glue; the menu of what was pointed at shows it as a part. */
void
cw_table_fill_glue_menu (GMenu *menu)
{
  GMenu *glue = g_menu_new ();

  for (guint i = 0; i < CW_N_GLUE_WAYS; i++)
    {
      g_autofree char *action = g_strdup_printf ("table.glue-lay::%s", cw_glue_ways[i].key);

      if (i != CW_GLUE_WAY_SAFE
          && i != CW_GLUE_WAY_STRIP) /* the one stands beside this menu; along which edge has to be asked */
        g_menu_append (glue, _ (cw_glue_ways[i].words), action);
    }
  g_menu_append (glue, _ ("Other measures or glue…"), "table.glue");
  g_menu_append (glue, _ ("Take all glue off"), "table.glue-off");
  g_menu_append_submenu (menu, _ ("Glue"), G_MENU_MODEL (glue));
  g_object_unref (glue);
}
