/* cw-table-tool.c: the tools to draw with, and the forms each can draw.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "cw-table-private.h"

#include <glib/gi18n-lib.h>

#define FORM(form) (1u << CW_FORM_##form)
#define AREAS (FORM (BOX) | FORM (ROUND) | FORM (CORNERS))

/* The first form of a tool is the one it begins with. */
static const struct
{
  const char *name;
  guint forms;
} tools[CW_N_TOOLS] = {
  [CW_TOOL_SELECT] = { "select", 0 },
  [CW_TOOL_SCORE] = { "score", FORM (STRAIGHT) | FORM (ARC) },
  [CW_TOOL_CUT] = { "cut", FORM (STRAIGHT) | FORM (ARC) },
  [CW_TOOL_WINDOW] = { "window", AREAS },
  [CW_TOOL_LAYER] = { "layer", FORM (PANEL) | AREAS },
  [CW_TOOL_GLUE] = { "glue", AREAS },
  [CW_TOOL_PICTURE] = { "picture", FORM (BOX) },
  [CW_TOOL_NAME] = { "name", FORM (PANEL) },
};

static const char *const form_names[CW_N_FORMS] = {
  [CW_FORM_STRAIGHT] = "straight", [CW_FORM_ARC] = "arc",     [CW_FORM_PANEL] = "panel",
  [CW_FORM_BOX] = "box",           [CW_FORM_ROUND] = "round", [CW_FORM_CORNERS] = "corners",
};

const char *
cw_tool_get_name (CwTool tool)
{
  return tools[tool].name;
}

const char *
cw_form_get_name (CwForm form)
{
  return form_names[form];
}

gboolean
cw_tool_has_form (CwTool tool, CwForm form)
{
  return (tools[tool].forms & 1u << form) != 0;
}

guint
cw_tool_count_forms (CwTool tool)
{
  guint n = 0;

  for (CwForm form = 0; form < CW_N_FORMS; form++)
    n += cw_tool_has_form (tool, form);
  return n;
}

/* What the tool at hand draws. */
CwForm
cw_table_get_form (CwTable *self)
{
  CwForm form = self->forms[self->tool];

  while (form < CW_N_FORMS - 1 && !cw_tool_has_form (self->tool, form))
    form++;
  return form;
}

gboolean
cw_table_points_at_panels (CwTable *self)
{
  return self->tool != CW_TOOL_SELECT && cw_table_get_form (self) == CW_FORM_PANEL;
}

static GSimpleAction *
action (CwTable *self, const char *name)
{
  return G_SIMPLE_ACTION (g_action_map_lookup_action (G_ACTION_MAP (self->actions), name));
}

void
cw_table_set_form (CwTable *self, CwForm form)
{
  if (!cw_tool_has_form (self->tool, form))
    return;
  cw_table_drop_line (self);
  cw_table_set_tip (self, NULL);
  self->forms[self->tool] = form;
  g_simple_action_set_state (action (self, "form"), g_variant_new_string (form_names[form]));
  gtk_widget_set_cursor_from_name (GTK_WIDGET (self), self->tool == CW_TOOL_SELECT       ? NULL
                                                      : cw_table_points_at_panels (self) ? "pointer"
                                                                                         : "crosshair");
}

/* The form after the one at hand. */
void
cw_table_next_form (CwTable *self)
{
  for (guint i = 1; i < CW_N_FORMS; i++)
    {
      CwForm next = (cw_table_get_form (self) + i) % CW_N_FORMS;

      if (cw_tool_has_form (self->tool, next))
        {
          cw_table_set_form (self, next);
          return;
        }
    }
}

void
cw_table_set_tool (CwTable *self, CwTool tool)
{
  cw_table_drop_line (self);
  cw_table_set_tip (self, NULL);
  self->tool = tool;
  g_simple_action_set_state (action (self, "tool"), g_variant_new_string (tools[tool].name));
  cw_table_update_actions (self);
  gtk_widget_set_cursor_from_name (GTK_WIDGET (self), NULL);
  cw_table_set_form (self, cw_table_get_form (self));
  cw_table_show_forms (self);
}

/* The rim that the next layer gets: the last one chosen, at first what is usual in the design's unit. */
CwLength
cw_table_get_rim (CwTable *self)
{
  if (self->rim.ticks != 0 || self->document == NULL)
    return self->rim;
  return cw_table_get_unit (self) == CW_UNIT_INCH ? cw_length_from_ticks (CW_TICKS_PER_INCH / 8, CW_UNIT_INCH)
                                                  : cw_length_from_ticks (3 * CW_TICKS_PER_MM, CW_UNIT_MM);
}

/* How the tool at hand is used, in words beside the pointer, until the maker has done it once; NULL from then on. */
char *
cw_table_dup_hint (CwTable *self)
{
  CwForm form = cw_table_get_form (self);

  if (self->tool == CW_TOOL_SELECT || (form != CW_FORM_PANEL && (self->known & 1u << form) != 0))
    return NULL;
  switch (form)
    {
    case CW_FORM_ARC:
      return g_strdup (self->n_points < 2 ? _ ("Press at one end and pull to the other.")
                                          : _ ("Now click how high it rises."));
    case CW_FORM_PANEL:
      if (self->tool == CW_TOOL_LAYER)
        {
          CwLength rim = cw_table_get_rim (self);
          g_autofree char *words = cw_length_format (rim);

          return g_strdup_printf (_ ("Click to lay a layer here, %s of the panel showing all round."), words);
        }
      return g_strdup (_ ("Click to name this panel."));
    case CW_FORM_BOX:
      return g_strdup (_ ("Press at one corner and pull to the opposite one."));
    case CW_FORM_ROUND:
      return g_strdup (_ ("Press in the middle and pull out to the edge."));
    case CW_FORM_CORNERS:
      return g_strdup (_ ("Click corner after corner, at last the first one again."));
    case CW_FORM_STRAIGHT:
    case CW_N_FORMS:
    default:
      return g_strdup (_ ("Press here and pull to the other end."));
    }
}
