/* test-measure-wish.c: arcs and shapes, layers, glue and pictures by typing; the nearest mark; fractions said in words.
 *
 * The expected places are worked by hand from the measures in the line; no outside source exists for a language of our
 * own. 1/64 in is 127 ticks (1 in = 25.4 mm exactly, 1 tick = 1/320 mm).
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "text/cw-measure-line.h"

#define IN(n) ((gint32) ((n) *64) * 127) /* n in whole 64ths of an inch */

typedef struct
{
  CwDesign *design;
  CwPiece *piece;
} Sheet;

/* 8 1/2 wide, 5 1/2 high, marks every 1/16 in */
static Sheet
make_sheet (void)
{
  Sheet sheet = { cw_design_new (), cw_piece_new () };
  const CwPoint corners[] = { { 0, 0 }, { IN (8.5), 0 }, { IN (8.5), IN (5.5) }, { 0, IN (5.5) } };

  if (!sheet.design->head)
    sheet.design->head = cw_head_new ();
  sheet.design->head->unit = CW_UNIT_INCH;
  sheet.design->head->snap_ticks = IN (1.0 / 16);
  for (guint i = 0; i < 4; i++)
    cw_path_append (&sheet.piece->outline, cw_place_from_point (corners[i], CW_UNIT_INCH), FALSE);
  return sheet;
}

static void
clear (Sheet *sheet)
{
  cw_design_unref (sheet->design);
  cw_piece_unref (sheet->piece);
}
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Sheet, clear)

/* What the line asks for, in words that are easy to compare: 64ths of an inch. */
static char *
read_line (const Sheet *sheet, const char *line)
{
  static const char *const what[] = { "marks", "layer", "rim", "glue", "picture" };
  g_autoptr (GString) text = g_string_new (NULL);
  g_auto (CwMeasureWish) wish = { 0 };
  g_autoptr (GError) error = NULL;

  if (!cw_measure_line_read (&wish, line, sheet->design, sheet->piece, (CwLie){ 0 }, &error))
    return g_strdup (error->message);
  g_string_append (text, what[wish.what]);
  for (guint i = 0; wish.marks && i < wish.marks->len; i++)
    {
      const CwMark *mark = wish.marks->pdata[i];

      g_string_append_printf (text, " %s", cw_mark_kind_get_key (mark->kind));
      if (mark->shape == CW_SHAPE_CIRCLE)
        g_string_append_printf (text, " round %d at %d,%d", mark->radius.ticks / 127, mark->centre.x.ticks / 127,
                                mark->centre.y.ticks / 127);
      for (guint k = 0; k < mark->line.n_vertices; k++)
        g_string_append_printf (text, " %s%d,%d", mark->line.vertices[k].through ? "~" : "",
                                mark->line.vertices[k].at.x.ticks / 127, mark->line.vertices[k].at.y.ticks / 127);
    }
  if (wish.what == CW_MEASURE_RIM)
    g_string_append_printf (text, " %d", wish.rim.ticks / 127);
  if (wish.has_place)
    g_string_append_printf (text, " at %d,%d", wish.place.x / 127, wish.place.y / 127);
  if (wish.what == CW_MEASURE_GLUE)
    g_string_append_printf (text, " %s", cw_glue_kind_get_key (wish.glue));
  if (wish.label)
    g_string_append_printf (text, " [%s]", wish.label);
  return g_string_free (g_steal_pointer (&text), FALSE);
}

static void
test_read (void)
{
  static const char *const lines[][2] = {
    { "cut from 1, 3 through 2, 2 to 3, 3", "marks cut 64,192 ~128,128 192,192" },
    { "cut arc from 1, 3 to 3, 3 through 2, 2", "marks cut 64,192 ~128,128 192,192" },
    { "score from 1, 1 to 2, 1 through 3, 2 to 2, 3", "marks score 64,64 128,64 ~192,128 128,192" },
    { "window from 1, 1 to 3, 1 to 2, 3", "marks window 64,64 192,64 128,192" },
    { "window from 1, 1 to 3, 1 through 2, 2", "marks window 64,64 192,64 ~128,128" },
    { "layer 3 by 4 1/2 at 1, 1/2", "layer window 64,32 256,320" },
    { "mat round 2 at 3, 3", "layer window round 64 at 192,192" },
    { "layer with a 1/8 rim", "rim 8" },
    { "layer, 2 mm rim at 2 in, 3 in", "" },
    { "a layer with a rim of 1/16 at 2, 3", "rim 4 at 128,192" },
    { "layer rim 1/8 at 2, 1 from the bottom", "rim 8 at 128,288" },
    { "glue 1 by 2 at 3, 3", "glue window 192,192 256,320 tape" },
    { "wet glue 1 by 2 at 3, 3", "glue window 192,192 256,320 wet" },
    { "glue 1 by 2 at 3, 3 foam tape", "glue window 192,192 256,320 foam" },
    { "dots round 1/2 at 2, 2", "glue window round 16 at 128,128 dots" },
    { "tape from 1, 1 to 3, 1 to 2, 3", "glue window 64,64 192,64 128,192 tape" },
    { "picture 2 by 3 at 1, 1", "picture window 64,64 192,256" },
    { "greeting \"Well done\" 2 by 1 at 3, 3", "picture window 192,192 320,256 [Well done]" },
    { "picture 2\" by 1\" at 3\", 3\" “Kite”", "picture window 192,192 320,256 [Kite]" },
    { "score 13 sixteenths past 4", "marks score 308,0 308,352" },
    { "score a quarter past 3", "marks score 208,0 208,352" },
    { "score half past 3", "marks score 224,0 224,352" },
    { "score half", "marks score 272,0 272,352" }, /* the middle */
    { "score 5 16ths past 1 in, 3 eighths past 2", "marks score 84,0 84,352 score 152,0 152,352" },
    { "score 3.3 to the nearest mark", "marks score 212,0 212,352" },
    { "score nearest mark 3.3", "marks score 212,0 212,352" },
    { "score 3.3 nearest 1/8", "marks score 208,0 208,352" },
    { "window 1.03 by 2.03 at 3.03, 3.03 nearest mark", "marks window 192,192 256,320" },
  };
  g_auto (Sheet) sheet = make_sheet ();

  for (guint i = 0; i < G_N_ELEMENTS (lines); i++)
    {
      g_autofree char *got = read_line (&sheet, lines[i][0]);

      g_test_message ("%s", lines[i][0]);
      if (i == 8) /* 2 mm is 640 ticks, 5 64ths and 5 ticks */
        g_assert_cmpstr (got, ==, "rim 5 at 128,192");
      else
        g_assert_cmpstr (got, ==, lines[i][1]);
    }
}

/* Refused with a sentence that says what would be right: it holds an example. */
static void
test_refused (void)
{
  static const char *const lines[][2] = {
    { "layer", "layer with a 1/8 rim" },
    { "layer 3 at 1, 1", "layer with a 1/8 rim" },
    { "glue 3 at 1, 1", "glue 1 by 2 at 3, 4" },
    { "picture round 2 at 3, 3", "picture 2 by 3 at 1, 1" },
    { "cut from 1, 1 through 2, 2", "from 1, 3 through 2, 2 to 3, 3" },
    { "cut through 2, 2 to 3, 3", "from 1, 3 through 2, 2 to 3, 3" },
    { "cut from 1, 1 through 2, 2 through 3, 3 to 4, 4", "from 1, 3 through 2, 2 to 3, 3" },
    { "window from 1, 1 to 3, 1", "from 1, 1 to 3, 1 to 2, 3" },
    { "layer 3 by 9 at 1, 1", "5 1/2 in" },
    { "layer with a 1/8 rim at 2", "layer with a 1/8 rim at 2, 3" },
    { "score 13 sixteenths past 4 mm", "of an inch" },
    { "score 3 toward glue", "score 3 1/2" },
    { "sheet", "score 3 1/2" },
  };
  g_auto (Sheet) sheet = make_sheet ();

  for (guint i = 0; i < G_N_ELEMENTS (lines); i++)
    {
      g_autofree char *got = read_line (&sheet, lines[i][0]);

      g_test_message ("%s: %s", lines[i][0], got);
      g_assert_nonnull (g_strstr_len (got, -1, lines[i][1]));
    }
}

/* What is said of a wish is a line that asks for the same. */
static void
test_describe (void)
{
  static const char *const lines[] = {
    "cut from 1 in, 3 in through 2 in, 2 in to 3 in, 3 in",
    "window from 1 in, 1 in to 3 in, 1 in to 2 in, 3 in",
    "layer 3 in by 4 1/2 in at 1 in, 1/2 in",
    "layer with a 1/8 in rim",
    "glue 1 in by 2 in at 3 in, 3 in, foam",
    "picture “Kite” 2 in by 1 in at 3 in, 3 in",
  };
  g_auto (Sheet) sheet = make_sheet ();

  for (guint i = 0; i < G_N_ELEMENTS (lines); i++)
    {
      g_auto (CwMeasureWish) wish = { 0 };
      g_autoptr (GError) error = NULL;

      cw_measure_line_read (&wish, lines[i], sheet.design, sheet.piece, (CwLie){ 0 }, &error);
      g_assert_no_error (error);
      g_autofree char *text = cw_measure_wish_describe (&wish, sheet.design, sheet.piece, (CwLie){ 0 });
      g_assert_cmpstr (text, ==, lines[i]);
    }
}

static void
test_length (void)
{
  static const struct
  {
    const char *text;
    gint32 ticks; /* 0: refused */
  } lengths[] = {
    { "3 1/2", IN (3.5) },
    { "13 sixteenths past 4", IN (4) + 13 * 508 },
    { "7 64ths", 7 * 127 },
    { "3.3 nearest mark", IN (3.3125) },
    { "3.3 to the nearest mark", IN (3.3125) },
    { "nearest 3.3", IN (3.3125) },
    { "84 mm nearest mark", IN (3.3125) }, /* 3.3071 in */
    { "3 4 nearest", 0 },
    { "score 3", 0 },
    { "", 0 },
  };
  g_auto (Sheet) sheet = make_sheet ();

  for (guint i = 0; i < G_N_ELEMENTS (lengths); i++)
    {
      g_autoptr (GError) error = NULL;
      CwLength length = { 0 };
      gboolean read = cw_measure_length_read (lengths[i].text, sheet.design->head, &length, &error);

      g_test_message ("%s", lengths[i].text);
      g_assert_cmpint (read, ==, lengths[i].ticks != 0);
      g_assert_cmpint (error != NULL, ==, lengths[i].ticks == 0);
      if (read)
        g_assert_cmpint (length.ticks, ==, lengths[i].ticks);
    }
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/text/measure-wish/read", test_read);
  g_test_add_func ("/text/measure-wish/refused", test_refused);
  g_test_add_func ("/text/measure-wish/describe", test_describe);
  g_test_add_func ("/text/measure-wish/length", test_length);
  return g_test_run ();
}
