/* test-step-card.c: what the pages for the reader say.
 *
 * The texts of the samples were read word by word against the designs before they were kept as golden files; a change
 * of words is looked at and accepted with CREASEWRIGHT_ACCEPT=1. The laws hold for any design: they come from what a
 * reader needs (every line once, every turn of the sheet said, numbers without gaps, the words of the model).
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "card-fixture.h"
#include "text/cw-readable.h"
#include "text/cw-step-card.h"

typedef void (*CardCheck) (const char *name, const CwStepCard *card);

static void
each_card (const char *folder, CardCheck check)
{
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  guint n = 0;

  g_assert_nonnull (dir);
  for (const char *name = g_dir_read_name (dir); name != NULL; name = g_dir_read_name (dir))
    {
      g_autofree char *path = g_build_filename (folder, name, NULL);
      g_autoptr (GFile) file = g_file_new_for_path (path);
      g_autoptr (CwDesign) design = NULL;
      g_autoptr (CwAnalysis) analysis = NULL;
      g_autoptr (CwStepCard) card = NULL;

      if (!g_str_has_suffix (name, ".creasecard"))
        continue;
      g_test_message ("%s", name);
      design = cw_design_load (file, NULL);
      g_assert_nonnull (design);
      analysis = cw_analysis_new (design);
      card = cw_step_card_new (analysis, &cw_step_card_usual);
      check (name, card);
      n++;
    }
  g_assert_cmpuint (n, >=, 5);
}

static void
each_sample (CardCheck check)
{
  g_autofree char *folder = g_build_filename (g_getenv ("CREASEWRIGHT_DATA"), "samples", NULL);

  each_card (folder, check);
}

static void
each_golden (CardCheck check)
{
  g_autofree char *folder = g_test_build_filename (G_TEST_DIST, "golden", "cards", NULL);

  each_card (folder, check);
}

static void
check_golden (const char *name, const CwStepCard *card)
{
  g_autofree char *base = g_strndup (name, strlen (name) - strlen (".creasecard"));
  g_autofree char *file = g_strconcat (base, ".txt", NULL);
  g_autofree char *path = g_test_build_filename (G_TEST_DIST, "golden", "steps", file, NULL);
  g_autofree char *text = cw_step_card_to_text (card), *kept = NULL;

  if (g_getenv ("CREASEWRIGHT_ACCEPT") != NULL)
    g_assert_true (g_file_set_contents (path, text, -1, NULL));
  g_assert_true (g_file_get_contents (path, &kept, NULL, NULL));
  g_assert_cmpstr (text, ==, kept);
}

static void
test_golden (void)
{
  each_sample (check_golden);
}

static void
check_lists (const char *name, const CwStepCard *card, const GPtrArray *list, guint *number, GArray *seen,
             gboolean *flipped, gboolean *laid)
{
  for (guint i = 0; i < list->len; i++)
    {
      const CwCardStep *step = g_ptr_array_index (list, i);

      g_assert_cmpuint (step->number, ==, ++*number);
      g_assert_cmpint (*step->title, !=, '\0');
      g_assert_true (step->lines->len + step->moves->len > 0 || step->caption != NULL || step->step != G_MAXUINT);
      for (guint k = 0; k < step->moves->len; k++)
        {
          const CwCardMove *row = g_ptr_array_index (step->moves, k);
          const CwMove *move = &g_array_index (card->trimming->moves, CwMove, row->number - 1);
          CwLength read;

          g_array_index (seen, guint, row->number - 1)++;
          /* Every printed measure read back is the move's. */
          if (*row->at != '\0')
            {
              g_assert_true (cw_length_parse (row->at, CW_UNIT_INCH, &read, NULL));
              g_assert_cmpint (read.ticks, ==, move->at.ticks);
            }
          if (!move->joins && !move->whole)
            {
              g_assert_true (cw_length_parse (row->from, CW_UNIT_INCH, &read, NULL));
              g_assert_cmpint (read.ticks, ==, move->from.ticks);
            }
          /* The picture shows the face the move is made on. */
          g_assert_cmpint (step->picture.kind, ==, CW_CARD_PICTURE_SHEET);
          g_assert_cmpint (step->picture.lie.flipped, ==, move->face_up == CW_FACE_BACK);
          g_assert_cmpuint (step->picture.piece, ==, move->piece);
        }
      if (step->picture.kind == CW_CARD_PICTURE_SHEET && !step->picture.glue)
        {
          gboolean turned = laid[step->picture.piece] && flipped[step->picture.piece] != step->picture.lie.flipped;

          /* Whenever a sheet comes to lie with its other side up, that is a step of its own, or a template's. */
          if (turned)
            g_assert_true (step->moves->len == 0);
          flipped[step->picture.piece] = step->picture.lie.flipped;
          laid[step->picture.piece] = TRUE;
        }
    }
}

static void
check_laws (const char *name, const CwStepCard *card)
{
  guint number = 0, n = card->trimming->moves->len, pieces = 0;
  g_autoptr (GArray) seen = g_array_new (FALSE, TRUE, sizeof (guint));
  g_autofree gboolean *flipped = g_new0 (gboolean, card->analysis->design->pieces->len + 1);
  g_autofree gboolean *laid = g_new0 (gboolean, card->analysis->design->pieces->len + 1);
  g_autofree char *text = cw_step_card_to_text (card);

  g_array_set_size (seen, n);
  check_lists (name, card, card->making, &number, seen, flipped, laid);
  check_lists (name, card, card->using, &number, seen, flipped, laid);
  for (guint i = 0; i < n; i++)
    g_assert_cmpuint (g_array_index (seen, guint, i), ==, 1);
  for (guint i = 0; i < card->cuts->len; i++)
    pieces += ((const CwCardCut *) g_ptr_array_index (card->cuts, i))->count;
  g_assert_cmpuint (pieces, ==, card->analysis->design->pieces->len);
  /* Who cuts is told of blades; and the page gives way to local rules. */
  g_assert_nonnull (strstr (text, "(blade)"));
  g_assert_nonnull (strstr (text, "Blades cut"));
  g_assert_nonnull (strstr (text, "rules of the place"));
  g_assert_null (strstr (text, "(null)"));
  g_assert_true (g_utf8_validate (text, -1, NULL));
}

static void
test_laws (void)
{
  each_sample (check_laws);
  each_golden (check_laws);
}

/* One score folded toward: as drawn, and with the card lying on its face. */
#define HALF(steps)                                                                                                    \
  CARD_HEAD CARD_INCH                                                                                                  \
    "'papers': [ { 'id': 'p' } ], 'pieces': [ { 'id': 'base', 'paper': 'p', 'ground': true, 'hold': ['7','3'], "       \
    "'outline': [['0','0'],['8','0'],['8','5'],['0','5']], 'marks': ["                                                 \
    "{ 'id': 'spine', 'kind': 'score', 'fold': 'away', 'line': [['4','0'],['4','5']] } ] } ], 'steps': [ " steps       \
    " ] }"

static char *
text_of (const char *json, const CwStepCardOptions *options)
{
  g_autoptr (CwDesign) design = card_design (json);
  g_autoptr (CwAnalysis) analysis = cw_analysis_new (design);
  g_autoptr (CwStepCard) card = cw_step_card_new (analysis, options);

  return cw_step_card_to_text (card);
}

/* What folds away with the drawn side up folds toward a reader who has turned it over (model, "toward / away"): so it
 * is turned over, and then said as toward. */
static void
test_toward (void)
{
  g_autofree char *text
    = text_of (HALF (
                 "{ 'id': 'c', 'do': 'fold', 'rest': 'closed', 'folds': [ { 'score': 'base/spine', 'to': 180 } ] }"),
               &cw_step_card_usual);
  const char *turn = strstr (text, "Turn the card over"), *fold = strstr (text, "Fold “spine” (line 1) toward you");

  g_assert_nonnull (turn);
  g_assert_nonnull (fold);
  g_assert_true (turn < fold);
  g_assert_null (strstr (text, "away from you"));
}

static void
test_own_words (void)
{
  g_autofree char *text = text_of (
    HALF ("{ 'id': 'c', 'do': 'fold', 'folds': [ { 'score': 'base/spine', 'to': 90 } ], 'caption': 'Mind the cat.', "
          "'caution': 'Hot iron.', 'wait': '5 minutes', 'tools': ['iron'] }"),
    &cw_step_card_usual);

  g_assert_nonnull (strstr (text, "Mind the cat."));
  g_assert_nonnull (strstr (text, "! Hot iron."));
  g_assert_nonnull (strstr (text, "5 minutes"));
  g_assert_nonnull (strstr (text, "- iron"));
  g_assert_nonnull (strstr (text, "away from you to a right angle"));
}

/* No clock: a date comes from the design or from who asks. */
static void
test_date (void)
{
  CwStepCardOptions options = cw_step_card_usual;
  g_autofree char *without = text_of (HALF (""), &options), *with = NULL;

  options.date = "2031-02-03";
  with = text_of (HALF (""), &options);
  g_assert_null (strstr (without, "Date"));
  g_assert_nonnull (strstr (with, "Date: 2031-02-03"));
}

static void
test_numbers (void)
{
  static const struct
  {
    const char *length, *plain, *counted, *other;
  } cases[] = {
    { "4 13/16 in", "4 13/16 in", "4 13/16 in (= 13 sixteenths past 4)", NULL },
    { "1/16 in", "1/16 in", "1/16 in (= 1 sixteenth)", NULL },
    { "2 1/2 in", "2 1/2 in", "2 1/2 in (= 8 sixteenths past 2)", "63.5 mm" }, /* 2.5 x 25.4 */
    { "3 1/32 in", "3 1/32 in", "3 1/32 in (= 1 thirty-second past 3)", NULL },
    { "5 in", "5 in", "5 in", "127 mm" },
    { "127 mm", "127 mm", "127 mm", "5 in" },
    { "100 mm", "100 mm", "100 mm", NULL }, /* 3.937... in is on no ruler */
  };

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      CwLength length;
      g_assert_true (cw_length_parse (cases[i].length, CW_UNIT_INCH, &length, NULL));
      g_autofree char *plain = cw_length_dup_readable (length, FALSE), *counted = cw_length_dup_readable (length, TRUE);
      g_autofree char *other = cw_length_dup_other_unit (length);

      g_assert_cmpstr (plain, ==, cases[i].plain);
      g_assert_cmpstr (counted, ==, cases[i].counted);
      g_assert_cmpstr (other, ==, cases[i].other);
    }
  g_autofree char *size = cw_size_dup_words (cw_length_from_ticks (10 * CW_TICKS_PER_INCH, CW_UNIT_INCH),
                                             cw_length_from_ticks (7 * CW_TICKS_PER_INCH, CW_UNIT_INCH));
  g_assert_cmpstr (size, ==, "10 in wide by 7 in high (254 mm by 177.8 mm)");
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/text/step-card/samples-read-as-reviewed", test_golden);
  g_test_add_func ("/text/step-card/every-line-once-every-turn-said", test_laws);
  g_test_add_func ("/text/step-card/toward-is-the-readers", test_toward);
  g_test_add_func ("/text/step-card/makers-own-words", test_own_words);
  g_test_add_func ("/text/step-card/no-clock", test_date);
  g_test_add_func ("/text/step-card/numbers-for-a-ruler", test_numbers);
  return g_test_run ();
}
