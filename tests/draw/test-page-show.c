/* test-page-show.c: one step laid out for a screen.
 *
 * Laws for any card and screen: nothing leaves the screen, every word is there, words are as large as the screen allows
 * (twice the screen, nearly twice the letters), and time runs down. Widths of words are measured by Pango here, as they
 * are drawn.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include <pango/pangocairo.h>

#include "cw-draw-list-private.h"
#include "cw-page-show.h"
#include "design/cw-design-json.h"

#include <string.h>

static CwStepCard *
read_card (const char *name, double minutes)
{
  g_autoptr (GFile) file = g_file_new_build_filename (g_getenv ("CREASEWRIGHT_DATA"), "samples", name, NULL);
  g_autoptr (CwDesign) design = cw_design_load (file, NULL);
  g_autoptr (CwAnalysis) analysis = NULL;

  g_assert_nonnull (design);
  for (guint i = 0; minutes > 0 && i < design->steps->len; i++)
    {
      CwStep *step = g_ptr_array_index (design->steps, i);

      if (step->extra == NULL)
        step->extra = json_object_new ();
      json_object_set_double_member (step->extra, "minutes", minutes);
    }
  analysis = cw_analysis_new (design);
  return cw_step_card_new (analysis, &cw_step_card_usual);
}

static double
text_width (const CwItem *item, const char *text)
{
  static PangoContext *context;
  PangoFontDescription *font = pango_font_description_from_string ("sans-serif");
  PangoLayout *layout;
  int width;

  if (context == NULL)
    {
      context = pango_font_map_create_context (pango_cairo_font_map_get_default ());
      pango_cairo_context_set_resolution (context, 72);
    }
  layout = pango_layout_new (context);
  pango_font_description_set_absolute_size (font, item->size * PANGO_SCALE);
  pango_font_description_set_weight (font, item->pen == CW_PEN_TITLE ? PANGO_WEIGHT_BOLD : PANGO_WEIGHT_NORMAL);
  pango_layout_set_font_description (layout, font);
  pango_layout_set_text (layout, text, -1);
  pango_layout_get_size (layout, &width, NULL);
  g_object_unref (layout);
  pango_font_description_free (font);
  return (double) width / PANGO_SCALE;
}

/* All words on the screen, blanks and line ends left out; checks that they are on it. */
static char *
read_words (const CwDrawList *list, double width, double height)
{
  g_autoptr (GString) all = g_string_new (NULL);

  for (guint i = 0; i < list->items->len; i++)
    {
      const CwItem *item = &g_array_index (list->items, CwItem, i);

      if (item->text != G_MAXUINT)
        {
          const char *text = list->words->str + item->text;
          double wide = text_width (item, text), left = item->x;

          g_string_append (all, text);
          if (fabs (item->angle_deg) > 1)
            continue;
          left -= item->anchor == CW_ANCHOR_END ? wide : item->anchor == CW_ANCHOR_MIDDLE ? wide / 2 : 0;
          g_assert_cmpfloat (left, >=, -1);
          g_assert_cmpfloat (left + wide, <=, width + 1);
          g_assert_cmpfloat (item->y - item->size, >=, -item->size * 0.3);
          g_assert_cmpfloat (item->y, <=, height);
          continue;
        }
      for (guint k = 0; k < item->n_ops; k++)
        {
          const CwOp *op = &g_array_index (list->ops, CwOp, item->first_op + k);

          if (op->kind == CW_OP_CLOSE)
            continue;
          g_assert_cmpfloat (op->v[0], >=, -1);
          g_assert_cmpfloat (op->v[0], <=, width + 1);
          g_assert_cmpfloat (op->v[1], >=, -1);
          g_assert_cmpfloat (op->v[1], <=, height + 1);
        }
    }
  g_auto (GStrv) parts = g_strsplit (all->str, " ", -1);
  g_autofree char *joined = g_strjoinv ("", parts);
  g_auto (GStrv) kept = g_strsplit (joined, "\u00a0", -1);
  return g_strjoinv ("", kept);
}

static double
body_size (const CwDrawList *list)
{
  double least = G_MAXDOUBLE;

  for (guint i = 0; i < list->items->len; i++)
    if (g_array_index (list->items, CwItem, i).text != G_MAXUINT && g_array_index (list->items, CwItem, i).id.part == 0)
      least = MIN (least, g_array_index (list->items, CwItem, i).size);
  return least;
}

static void
test_fits (void)
{
  static const char *const samples[] = { "corner-flip.creasecard", "box-steps.creasecard", "z-fold.creasecard" };
  static const double screens[][2] = { { 1920, 1000 }, { 1024, 700 }, { 800, 1200 }, { 640, 420 } };

  for (guint s = 0; s < G_N_ELEMENTS (samples); s++)
    {
      g_autoptr (CwStepCard) card = read_card (samples[s], 3);
      CwCardScene *scene = cw_card_scene_new (card->analysis);

      for (guint k = 0; k < G_N_ELEMENTS (screens); k++)
        for (guint i = 0; i < cw_show_get_n_steps (card); i++)
          {
            g_autoptr (CwDrawList) list = cw_show_draw (card, scene, i, screens[k][0], screens[k][1]);
            g_autofree char *shown = read_words (list, screens[k][0], screens[k][1]);
            const CwCardStep *step = cw_show_get_step (card, i);

            g_test_message ("%s, %.0f x %.0f, step %u", samples[s], screens[k][0], screens[k][1], i + 1);
            for (guint n = 0; n < step->lines->len; n++)
              {
                g_auto (GStrv) parts = g_strsplit (g_ptr_array_index (step->lines, n), " ", -1);
                g_autofree char *wanted = g_strjoinv ("", parts);

                g_assert_nonnull (strstr (shown, wanted));
              }
          }
      cw_card_scene_free (scene);
    }
}

static void
test_large (void)
{
  g_autoptr (CwStepCard) card = read_card ("half-fold.creasecard", 0);
  CwCardScene *scene = cw_card_scene_new (card->analysis);

  for (guint i = 0; i < cw_show_get_n_steps (card); i++)
    {
      g_autoptr (CwDrawList) small = cw_show_draw (card, scene, i, 960, 540);
      g_autoptr (CwDrawList) twice = cw_show_draw (card, scene, i, 1920, 1080);

      g_assert_cmpfloat (body_size (twice), >=, 1.7 * body_size (small));
      g_assert_cmpfloat (body_size (twice), >=, 18);
    }
  cw_card_scene_free (scene);
}

static void
test_time (void)
{
  g_autoptr (CwStepCard) card = read_card ("half-fold.creasecard", 2.5), unsaid = read_card ("half-fold.creasecard", 0);
  guint making = 0;
  double before = G_MAXDOUBLE;

  for (guint i = 0; i < card->analysis->design->steps->len; i++)
    making += ((CwStep *) g_ptr_array_index (card->analysis->design->steps, i))->phase != CW_PHASE_USING;
  for (guint i = 0; i < cw_show_get_n_steps (card); i++)
    {
      g_autofree char *time = cw_show_dup_time (card, i), *none = cw_show_dup_time (unsaid, i);
      double left = *time == '\0' ? 0 : g_ascii_strtod (time + strlen ("about "), NULL);

      g_assert_cmpstr (none, ==, "");
      if (i == 0)
        g_assert_cmpfloat_with_epsilon (left, ceil (2.5 * making), 1e-9);
      g_assert_cmpfloat (left, <=, before);
      before = left;
    }
  g_assert_cmpfloat_with_epsilon (before, 0, 1e-9);
  g_assert_cmpuint (cw_show_find_step (card, G_MAXUINT), ==, 0);
  g_assert_cmpuint (cw_show_get_step (card, cw_show_find_step (card, 1))->step, >=, 1);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/draw/page-show/all-on-the-screen", test_fits);
  g_test_add_func ("/draw/page-show/as-large-as-the-screen-allows", test_large);
  g_test_add_func ("/draw/page-show/time-runs-down", test_time);
  return g_test_run ();
}
