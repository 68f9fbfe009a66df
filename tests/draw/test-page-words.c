/* test-page-words.c: what is said where on the pages.
 *
 * Laws that hold for any card: whoever hears the pages hears every sentence the step card holds, in its order; every
 * paragraph lies on its page and no two of one column lie over one another; what can be changed carries its step.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-page.h"
#include "design/cw-design-json.h"

static CwStepCard *
read_card (const char *name)
{
  g_autoptr (GFile) file = g_file_new_build_filename (g_getenv ("CREASEWRIGHT_DATA"), "samples", name, NULL);
  g_autoptr (CwDesign) design = cw_design_load (file, NULL);
  g_autoptr (CwAnalysis) analysis = NULL;

  g_assert_nonnull (design);
  analysis = cw_analysis_new (design);
  return cw_step_card_new (analysis, &cw_step_card_usual);
}

/* The next paragraph with these words, from a position on; G_MAXUINT if there is none. */
static guint
find_text (const CwPages *pages, guint from, const char *text)
{
  for (guint i = from; i < pages->words->len; i++)
    if (strstr (((const CwPageWords *) g_ptr_array_index (pages->words, i))->text, text) != NULL)
      return i;
  return G_MAXUINT;
}

static void
check_sentences (const CwPages *pages, const GPtrArray *sentences)
{
  for (guint i = 0; i < sentences->len; i++)
    g_assert_cmpuint (find_text (pages, 0, g_ptr_array_index (sentences, i)), !=, G_MAXUINT);
}

static void
check_steps (const CwPages *pages, const GPtrArray *steps, guint *at)
{
  for (guint i = 0; i < steps->len; i++)
    {
      const CwCardStep *step = g_ptr_array_index (steps, i);
      g_autofree char *title = g_strdup_printf ("%u. %s", step->number, step->title);
      guint found = find_text (pages, *at, title);
      const CwPageWords *words;

      g_assert_cmpuint (found, !=, G_MAXUINT);
      words = g_ptr_array_index (pages->words, found);
      g_assert_cmpint (words->what, ==, CW_PAGE_WORDS_STEP);
      g_assert_cmpuint (words->step, ==, step->step);
      *at = found;
      check_sentences (pages, step->lines);
      check_sentences (pages, step->cautions);
      check_sentences (pages, step->checks);
      for (guint m = 0; m < step->moves->len; m++)
        g_assert_cmpuint (find_text (pages, found, ((CwCardMove *) g_ptr_array_index (step->moves, m))->what), !=,
                          G_MAXUINT);
      if (step->caption == NULL)
        continue;
      found = find_text (pages, found, step->caption);
      g_assert_cmpuint (found, !=, G_MAXUINT);
      words = g_ptr_array_index (pages->words, found);
      g_assert_cmpint (words->what, ==, CW_PAGE_WORDS_CAPTION);
      g_assert_cmpuint (words->step, ==, step->step);
    }
}

/* Boxes lie on the page; of two that share more than a hair's width none begins before the one above it has ended. */
static void
check_boxes (const CwPages *pages)
{
  for (guint i = 0; i < pages->words->len; i++)
    {
      const CwPageWords *a = g_ptr_array_index (pages->words, i);

      g_assert_cmpuint (a->page, <, pages->lists->len);
      g_assert_cmpfloat (a->box[0], >=, 0);
      g_assert_cmpfloat (a->box[1], >=, 0);
      g_assert_cmpfloat (a->box[2], <=, pages->width);
      g_assert_cmpfloat (a->box[3], <=, pages->height);
      g_assert_cmpfloat (a->box[0], <, a->box[2]);
      g_assert_cmpfloat (a->box[1], <, a->box[3]);
      for (guint k = i + 1; k < pages->words->len; k++)
        {
          const CwPageWords *b = g_ptr_array_index (pages->words, k);
          double left = MAX (a->box[0], b->box[0]), right = MIN (a->box[2], b->box[2]);
          double top = MAX (a->box[1], b->box[1]), bottom = MIN (a->box[3], b->box[3]);

          /* Widths of words are only bounded from above: what stands in another column may seem to touch. */
          if (a->page != b->page || a->what == CW_PAGE_WORDS_PICTURE || b->what == CW_PAGE_WORDS_PICTURE
              || ABS (a->box[0] - b->box[0]) > 40)
            continue;
          if (right - left > 2 && bottom - top > 4)
            {
              g_test_message ("“%s” over “%s”", a->text, b->text);
              g_test_fail ();
            }
        }
    }
}

static void
test_all_is_said (void)
{
  static const char *const samples[] = { "corner-flip.creasecard", "box-steps.creasecard", "gate-fold.creasecard" };

  for (guint s = 0; s < G_N_ELEMENTS (samples); s++)
    for (guint f = 0; f < CW_N_PAGE_FORMATS; f++)
      for (guint large = 0; large < 2; large++)
        {
          g_autoptr (CwStepCard) card = read_card (samples[s]);
          const CwPageStyle style = { f, large };
          g_autoptr (CwPages) pages = cw_pages_new_step_card (card, &style);
          guint at = find_text (pages, 0, card->title);

          g_test_message ("%s %s%s", samples[s], cw_page_format_get_key (f), large ? " large" : "");
          g_assert_cmpuint (at, ==, 0);
          g_assert_cmpint (((CwPageWords *) g_ptr_array_index (pages->words, 0))->what, ==, CW_PAGE_WORDS_TITLE);
          check_sentences (pages, card->cautions);
          check_sentences (pages, card->numbers);
          check_steps (pages, card->making, &at);
          check_steps (pages, card->using, &at);
          check_boxes (pages);
        }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/draw/page-words/all-is-said-where-it-stands", test_all_is_said);
  return g_test_run ();
}
