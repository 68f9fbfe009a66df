/* make-test.h: what the tests of arranging, layers, areas and pieces share.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "design/cw-design-json.h"
#include "make/cw-make.h"
#include "panel/cw-panel-map.h"
#include "text/cw-measure-line.h"

#define IN(n) ((gint32) ((n) *64) * 127) /* n in whole 64ths of an inch */

/* Does the edit, checks that undoing it gives the same bytes and that the file can be read, and replaces the design. */
static inline void
do_edit (CwDesign **design, CwEdit *edit)
{
  g_autoptr (CwEdit) owned = edit;
  g_autoptr (GError) error = NULL;
  g_assert_nonnull (owned);
  g_autofree char *before = cw_design_to_text (*design, NULL);
  g_autoptr (CwDesign) after = cw_edit_apply (owned, *design);
  g_autoptr (CwEdit) inverse = cw_edit_invert (owned);
  g_autoptr (CwDesign) back = cw_edit_apply (inverse, after);
  g_autofree char *undone = cw_design_to_text (back, NULL);

  g_assert_cmpstr (undone, ==, before);
  g_autofree char *text = cw_design_to_text (after, NULL);
  g_autoptr (CwDesign) read = cw_design_from_text (text, -1, "test", &error);
  g_assert_no_error (error);
  g_autofree char *again = cw_design_to_text (read, NULL);
  g_assert_cmpstr (again, ==, text);
  cw_design_unref (*design);
  *design = g_steal_pointer (&after);
}

static inline void
draw (CwDesign **design, const char *line)
{
  g_autoptr (GError) error = NULL;
  GPtrArray *marks = cw_measure_line_parse (line, *design, cw_design_get_piece (*design, "base"), (CwLie){ 0 }, &error);

  g_assert_no_error (error);
  do_edit (design, cw_make_add_marks (*design, "base", marks, TRUE, &error));
  g_assert_no_error (error);
}

/* A blank sheet with these lines drawn on it. */
static inline CwDesign *
sheet (double width, double height, const char *const *lines)
{
  CwDesign *design = cw_make_design (CW_UNIT_INCH, IN (width), IN (height));

  for (guint i = 0; lines && lines[i]; i++)
    draw (&design, lines[i]);
  return design;
}

static inline const CwMark *
mark_at (const CwDesign *design, guint index)
{
  return cw_design_get_piece (design, "base")->marks->pdata[index];
}

static inline CwPoint
vertex_of (const CwMark *mark, guint i)
{
  g_assert_cmpuint (i, <, mark->line.n_vertices);
  return cw_place_get_point (&mark->line.vertices[i].at);
}

static inline void
assert_point (CwPoint p, gint32 x, gint32 y)
{
  g_assert_cmpint (p.x, ==, x);
  g_assert_cmpint (p.y, ==, y);
}

static inline void
assert_refused (CwEdit *edit, GError **error)
{
  g_assert_null (edit);
  g_assert_error (*error, CW_MAKE_ERROR, CW_MAKE_ERROR_IMPOSSIBLE);
  g_clear_error (error);
}

static inline CwMark *
rectangle (double x0, double y0, double x1, double y1)
{
  CwMark *mark = cw_mark_new ();

  mark->kind = CW_MARK_WINDOW;
  mark->shape = CW_SHAPE_RECT;
  cw_path_append (&mark->line, cw_place_from_point (cw_point (IN (x0), IN (y0)), CW_UNIT_INCH), FALSE);
  cw_path_append (&mark->line, cw_place_from_point (cw_point (IN (x1), IN (y1)), CW_UNIT_INCH), FALSE);
  return mark;
}
