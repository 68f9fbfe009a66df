/* cw-table-words.c: what stands on the table, in the maker's words: places, measures, marks and panels.
 *
 * Measures are read from the guide (left) and ruler (top) edge of the sheet as it lies.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "cw-table-private.h"

#include <glib/gi18n-lib.h>

/* "3 1/2 in", as a person reads it; borrowed from `texts`. */
static char *
length (gint32 ticks, CwUnit unit)
{
  return cw_length_format_ticks (ticks, unit);
}

/* "0 to 5 1/2 in": the unit once. */
static char *
span (gint32 a, gint32 b, CwUnit unit)
{
  g_autofree char *from = length (MIN (a, b), unit), *to = length (MAX (a, b), unit);
  g_autofree char *tail = g_strdup_printf (" %s", cw_unit_get_suffix (unit));

  if (g_str_has_suffix (from, tail) && g_str_has_suffix (to, tail))
    from[strlen (from) - strlen (tail)] = '\0';
  /* Translators: a stretch of a line, such as "from 0 to 5 1/2 in" */
  return g_strdup_printf (_ ("from %s to %s"), from, to);
}

/**
 * cw_words_place:
 *
 * Returns: (transfer full): such as "3 1/2 in from the left, 2 in from the top"
 */
char *
cw_words_place (const CwSheetView *view, const CwPanelMap *map, CwPoint at, CwUnit unit)
{
  gint32 across, down;
  g_autofree char *a = NULL, *d = NULL;

  cw_hand_measure (view, map, at, &across, &down);
  a = length (across, unit);
  d = length (down, unit);
  return g_strdup_printf (_ ("%s from the left, %s from the top"), a, d);
}

/**
 * cw_words_line:
 *
 * Returns: (transfer full): where a straight line lies, such as "3 1/2 in from the left, from 0 to 5 1/2 in"
 */
char *
cw_words_line (const CwSheetView *view, const CwPanelMap *map, CwPoint a, CwPoint b, CwUnit unit)
{
  gint32 across[2], down[2];

  cw_hand_measure (view, map, a, &across[0], &down[0]);
  cw_hand_measure (view, map, b, &across[1], &down[1]);
  if (across[0] == across[1])
    {
      g_autofree char *at = length (across[0], unit), *along = span (down[0], down[1], unit);

      return g_strdup_printf (_ ("%s from the left, %s"), at, along);
    }
  if (down[0] == down[1])
    {
      g_autofree char *at = length (down[0], unit), *along = span (across[0], across[1], unit);

      return g_strdup_printf (_ ("%s from the top, %s"), at, along);
    }

  g_autofree char *a0 = length (across[0], unit), *d0 = length (down[0], unit);
  g_autofree char *a1 = length (across[1], unit), *d1 = length (down[1], unit);
  /* Translators: both ends of a slanted line, across and down */
  return g_strdup_printf (_ ("slanted from %s across, %s down to %s across, %s down"), a0, d0, a1, d1);
}

/**
 * cw_words_measure:
 *
 * Returns: (transfer full): where a mark lies, such as "3 1/2 in from the left, from 0 to 5 1/2 in"
 */
char *
cw_words_measure (const CwSheetView *view, const CwPanelMap *map, const CwMark *mark, CwUnit unit)
{
  gint32 across[2], down[2];
  guint n = mark->line.n_vertices;

  if (mark->shape == CW_SHAPE_CIRCLE)
    {
      g_autofree char *centre = cw_words_place (view, map, cw_place_get_point (&mark->centre), unit);
      g_autofree char *wide = length (2 * mark->radius.ticks, unit);

      return g_strdup_printf (_ ("round, %s wide, middle %s"), wide, centre);
    }
  if (n == 0)
    return g_strdup ("");
  for (guint i = 0; i < 2; i++)
    cw_hand_measure (view, map, cw_place_get_point (&mark->line.vertices[i == 0 ? 0 : n - 1].at), &across[i], &down[i]);
  if (mark->shape == CW_SHAPE_RECT)
    {
      g_autofree char *wide = length (ABS (across[1] - across[0]), unit);
      g_autofree char *high = length (ABS (down[1] - down[0]), unit);
      g_autofree char *a = length (MIN (across[0], across[1]), unit);
      g_autofree char *d = length (MIN (down[0], down[1]), unit);

      /* Translators: width, height, and where the nearest corner lies */
      return g_strdup_printf (_ ("%s wide, %s high, %s from the left, %s from the top"), wide, high, a, d);
    }
  if (mark->kind == CW_MARK_WINDOW)
    {
      g_autofree char *start = cw_words_place (view, map, cw_place_get_point (&mark->line.vertices[0].at), unit);

      return g_strdup_printf (ngettext ("%u corner, the first %s", "%u corners, the first %s", n), n, start);
    }
  if (cw_hand_arc_depth (mark) >= 0)
    {
      g_autofree char *a0 = length (across[0], unit), *d0 = length (down[0], unit);
      g_autofree char *a1 = length (across[1], unit), *d1 = length (down[1], unit);
      g_autofree char *depth = length (cw_hand_arc_depth (mark), unit);

      /* Translators: both ends of an arc, across and down, and how far it rises over the straight between them */
      return g_strdup_printf (_ ("arc from %s across, %s down to %s across, %s down, rising %s"), a0, d0, a1, d1,
                              depth);
    }
  if (n == 2)
    return cw_words_line (view, map, cw_place_get_point (&mark->line.vertices[0].at),
                          cw_place_get_point (&mark->line.vertices[1].at), unit);

  g_autofree char *a0 = length (across[0], unit), *d0 = length (down[0], unit);
  g_autofree char *a1 = length (across[1], unit), *d1 = length (down[1], unit);
  return g_strdup_printf (ngettext ("from %s across, %s down round %u corner to %s across, %s down",
                                    "from %s across, %s down round %u corners to %s across, %s down", n - 2),
                          a0, d0, n - 2, a1, d1);
}

/**
 * cw_words_mark_kind:
 *
 * Returns: (transfer none): "Score", "Cut" or "Window"
 */
const char *
cw_words_mark_kind (const CwMark *mark)
{
  switch (mark->kind)
    {
    case CW_MARK_SCORE:
      return _ ("Score");
    case CW_MARK_WINDOW:
      return _ ("Window");
    case CW_MARK_CUT:
    default:
      return _ ("Cut");
    }
}

/**
 * cw_words_mark:
 *
 * Returns: (transfer full): such as "Score s1, 3 1/2 in from the left, from 0 to 5 1/2 in, folds toward you"
 */
char *
cw_words_mark (const CwSheetView *view, const CwPanelMap *map, const CwMark *mark, CwUnit unit)
{
  g_autofree char *measure = cw_words_measure (view, map, mark, unit);
  const char *way;

  if (mark->kind != CW_MARK_SCORE)
    /* Translators: kind, name and measures of a cut or window */
    return g_strdup_printf (_ ("%s %s, %s"), cw_words_mark_kind (mark), mark->id ? mark->id : "", measure);
  switch (mark->fold)
    {
    case CW_FOLD_TOWARD:
      way = _ ("folds toward you");
      break;
    case CW_FOLD_AWAY:
      way = _ ("folds away from you");
      break;
    case CW_FOLD_NONE:
    default:
      way = _ ("not folded here");
      break;
    }
  /* Translators: kind, name, measures and fold direction of a score */
  return g_strdup_printf (_ ("%s %s, %s, %s"), cw_words_mark_kind (mark), mark->id ? mark->id : "", measure, way);
}

/**
 * cw_words_glue_kind:
 *
 * Returns: (transfer none): such as "double-sided tape"
 */
const char *
cw_words_glue_kind (CwGlueKind kind)
{
  switch (kind)
    {
    case CW_GLUE_WET:
      return _ ("wet glue");
    case CW_GLUE_STRONG:
      return _ ("strong tape");
    case CW_GLUE_FOAM:
      return _ ("foam tape");
    case CW_GLUE_DOTS:
      return _ ("glue dots");
    case CW_GLUE_TAPE:
    default:
      return _ ("double-sided tape");
    }
}

static const char *
words_face (CwFace face)
{
  return face == CW_FACE_FRONT ? _ ("drawn side") : _ ("other side");
}

/**
 * cw_words_zone:
 *
 * Returns: (transfer full): such as "Glue glue-1, double-sided tape, other side, 2 in wide, ..."
 */
char *
cw_words_zone (const CwSheetView *view, const CwPanelMap *map, const CwGlue *glue, CwUnit unit)
{
  g_autoptr (CwMark) outline = cw_make_outline_of_glue (glue);
  g_autofree char *measure = cw_words_measure (view, map, outline, unit);

  /* Translators: name, kind, side and measures of an area of glue */
  return g_strdup_printf (_ ("Glue %s, %s, %s, %s"), glue->id, cw_words_glue_kind (glue->kind), words_face (glue->face),
                          measure);
}

/**
 * cw_words_art:
 *
 * Returns: (transfer full): such as "Picture “Happy birthday”, drawn side, 2 in wide, ..."
 */
char *
cw_words_art (const CwSheetView *view, const CwPanelMap *map, const CwArt *art, CwUnit unit)
{
  g_autoptr (CwMark) outline = cw_make_outline_of_art (art);
  g_autofree char *measure = cw_words_measure (view, map, outline, unit);

  /* Translators: words, side and measures of a picture area */
  return g_strdup_printf (_ ("Picture “%s”, %s, %s"), art->label ? art->label : art->id, words_face (art->face),
                          measure);
}

/**
 * cw_words_panel:
 * @piece: index in the design
 * @panel: index in the piece's map
 *
 * Returns: (transfer full): the panel's name, else such as "Panel 2 of Card base"
 */
char *
cw_words_panel (const CwPanelSet *set, guint piece, guint panel)
{
  const CwPanelMap *map;
  const CwPanel *found;
  const char *name;

  if (piece >= set->n_pieces || panel >= set->maps[piece].panels->len)
    return g_strdup ("");
  map = &set->maps[piece];
  found = &g_array_index (map->panels, CwPanel, panel);
  name = map->piece->name ? map->piece->name : map->piece->id;
  if (found->name != NULL)
    return g_strdup (found->name);
  if (map->panels->len == 1)
    return g_strdup (name);
  return g_strdup_printf (_ ("Panel %u of %s"), panel + 1, name);
}
