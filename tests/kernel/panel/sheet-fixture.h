/* sheet-fixture.h: designs for tests of the panel room, drawn in one line of text.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "panel/cw-panel-map.h"

/* What comes before the first mark is the outline. Marks are separated by ';' and read "score ID WAY x,y x,y...",
 * "cut ID x,y...", "window ID x,y...", "rect ID x,y x,y", "circle ID x,y radius"; a point with '~' before it is one an
 * arc goes through. Numbers are sixteenths of an inch (fractions of these by a decimal point), ticks after '#'. */

static inline gint32
fixture_number (const char **text)
{
  gboolean in_ticks = **text == '#';
  double value = g_ascii_strtod (*text + (in_ticks ? 1 : 0), (char **) text);

  return (gint32) (in_ticks ? value : value * 508);
}

static inline CwPlace
fixture_place (const char **text)
{
  CwPlace place = { 0 };

  place.x = cw_length_from_ticks (fixture_number (text), CW_UNIT_INCH);
  g_assert_true (**text == ',');
  (*text)++;
  place.y = cw_length_from_ticks (fixture_number (text), CW_UNIT_INCH);
  return place;
}

static inline void
fixture_path (const char *text, CwPath *path)
{
  g_auto (GStrv) words = g_strsplit (text, " ", -1);

  for (guint i = 0; words[i] != NULL; i++)
    if (words[i][0] != '\0')
      {
        const char *word = words[i];
        gboolean through = *word == '~';

        if (through)
          word++;
        cw_path_append (path, fixture_place (&word), through);
      }
}

static inline CwPiece *
fixture_piece (const char *id, const char *text)
{
  g_auto (GStrv) parts = g_strsplit (text, ";", -1);
  CwPiece *piece = cw_piece_new ();

  piece->id = g_strdup (id);
  fixture_path (parts[0], &piece->outline);
  for (guint i = 1; parts[i] != NULL; i++)
    {
      g_auto (GStrv) words = g_strsplit (g_strstrip (parts[i]), " ", 4);
      CwMark *mark = cw_mark_new ();
      guint rest = 2;

      mark->id = g_strdup (words[1]);
      if (g_str_equal (words[0], "score"))
        {
          mark->kind = CW_MARK_SCORE;
          mark->fold = g_str_equal (words[2], "toward") ? CW_FOLD_TOWARD
                       : g_str_equal (words[2], "away") ? CW_FOLD_AWAY
                                                        : CW_FOLD_NONE;
          rest = 3;
        }
      else
        mark->kind = g_str_equal (words[0], "cut") ? CW_MARK_CUT : CW_MARK_WINDOW;
      g_autofree char *path = g_strjoinv (" ", words + rest);

      if (g_str_equal (words[0], "circle"))
        {
          const char *at = words[2], *radius = words[3];

          mark->shape = CW_SHAPE_CIRCLE;
          mark->centre = fixture_place (&at);
          mark->radius = cw_length_from_ticks (fixture_number (&radius), CW_UNIT_INCH);
        }
      else
        {
          mark->shape = g_str_equal (words[0], "rect") ? CW_SHAPE_RECT : CW_SHAPE_LINE;
          fixture_path (path, &mark->line);
        }
      g_ptr_array_add (piece->marks, mark);
    }
  return piece;
}

static inline CwDesign *
fixture_design (const char *text)
{
  CwDesign *design = cw_design_new ();

  if (design->head == NULL)
    design->head = cw_head_new ();
  design->head->snap_ticks = 508;
  g_ptr_array_add (design->pieces, fixture_piece ("base", text));
  return design;
}

static inline CwPanelSet *
fixture_set (const char *text)
{
  g_autoptr (CwDesign) design = fixture_design (text);

  return cw_panel_set_new (design);
}

/* Square inches of the panel under a point given in sixteenths. */
static inline double
fixture_area (const CwPanelSet *set, double x, double y)
{
  guint panel = cw_panel_map_find (&set->maps[0], cw_point ((gint32) (x * 508), (gint32) (y * 508)));

  g_assert_cmpuint (panel, !=, G_MAXUINT);
  return (double) g_array_index (set->maps[0].panels, CwPanel, panel).area2 / 2 / CW_TICKS_PER_INCH / CW_TICKS_PER_INCH;
}

/* How many findings of a code. */
static inline guint
fixture_count (const CwPanelSet *set, CwFindingCode code)
{
  guint n = 0;

  for (guint i = 0; i < set->findings->len; i++)
    n += ((CwFinding *) set->findings->pdata[i])->code == code;
  return n;
}

static inline const CwFinding *
fixture_find (const CwPanelSet *set, CwFindingCode code)
{
  for (guint i = 0; i < set->findings->len; i++)
    if (((CwFinding *) set->findings->pdata[i])->code == code)
      return set->findings->pdata[i];
  return NULL;
}
