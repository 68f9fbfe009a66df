/* cw-page-card.c: a step card laid out on pages.
 *
 * Reading order is that of cw-step-card.h. Steps are laid out in cw-page-step.c.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include <glib/gi18n-lib.h>

#include "cw-draw-sheet.h"
#include "cw-page-private.h"

/* Words beside a picture need this many letters of room. */
#define BESIDE_LETTERS 24.0

static const CwId no_id = { CW_ID_NONE, 0, 0, 0 };

static void
place_items (CwPageLayout *layout, const GPtrArray *items, CwPageSign sign)
{
  for (guint i = 0; i < items->len; i++)
    {
      CwPageBox *box = cw_page_box_new (&layout->flow, layout->flow.width);

      cw_page_box_item (box, sign, 0, layout->flow.width, layout->flow.sizes.body, g_ptr_array_index (items, i));
      cw_page_flow_place (&layout->flow, box, 0);
    }
}

static void
place_remarks (CwPageLayout *layout, const GPtrArray *remarks)
{
  for (guint i = 0; i < remarks->len; i++)
    {
      const CwCardRemark *remark = g_ptr_array_index (remarks, i);
      CwPageBox *box = cw_page_box_new (&layout->flow, layout->flow.width);
      g_autofree char *text
        = remark->remedy != NULL ? g_strdup_printf ("%s %s", remark->text, remark->remedy) : g_strdup (remark->text);

      cw_page_box_item (box, CW_PAGE_SIGN_WARNING, 0, layout->flow.width, layout->flow.sizes.body, text);
      cw_page_flow_place (&layout->flow, box, 0);
    }
}

/* --- The head of the first page. --- */

static void
box_fact (CwPageBox *box, CwPageWordsKind what, double x, double width, const char *name, const char *value)
{
  g_autofree char *text = NULL;

  if (value == NULL || *value == '\0')
    return;
  text = g_strdup_printf ("%s: %s", name, value);
  cw_page_words_begin (box->flow, what, G_MAXUINT, NULL);
  cw_page_box_text (box, CW_PEN_TEXT, box->flow->sizes.body, x, width, text);
  cw_page_words_end (box->flow);
  box->y += 0.15 * box->flow->sizes.body;
}

/* The card closed and open, side by side. */
static void
place_pictures (CwPageLayout *layout)
{
  const CwStepCard *card = layout->card;
  CwPageFlow *flow = &layout->flow;
  CwPageBox *box = cw_page_box_new (flow, flow->width);
  double half = (flow->width - flow->sizes.gap) / 2, room = MIN (half, 0.26 * flow->pages->height), first;
  double words = MAX (cw_page_box_picture (layout, box, &card->closed, 0, 0, half, room),
                      cw_page_box_picture (layout, box, &card->open, half + flow->sizes.gap, 0, half, room));

  box->y = words;
  cw_page_box_text (box, CW_PEN_TEXT, flow->sizes.small, 0, half, card->closed.words);
  first = box->y;
  box->y = words;
  cw_page_box_text (box, CW_PEN_TEXT, flow->sizes.small, half + flow->sizes.gap, half, card->open.words);
  box->y = MAX (box->y, first);
  cw_page_flow_place (flow, box, flow->sizes.gap);
}

static void
place_head (CwPageLayout *layout)
{
  const CwStepCard *card = layout->card;
  CwPageFlow *flow = &layout->flow;
  CwPageBox *box = cw_page_box_new (flow, flow->width);

  cw_page_words_begin (flow, CW_PAGE_WORDS_TITLE, G_MAXUINT, NULL);
  cw_page_box_text (box, CW_PEN_TITLE, flow->sizes.title, 0, flow->width, card->title);
  cw_page_words_end (flow);
  box->y += 3;
  if (card->notes != NULL)
    {
      cw_page_words_begin (flow, CW_PAGE_WORDS_NOTES, G_MAXUINT, NULL);
      cw_page_box_text (box, CW_PEN_TEXT, flow->sizes.body, 0, flow->width, card->notes);
      cw_page_words_end (flow);
    }
  cw_page_flow_place (flow, box, 0);
  if (card->closed.kind != CW_CARD_PICTURE_NONE)
    place_pictures (layout);
  box = cw_page_box_new (flow, flow->width);
  box_fact (box, CW_PAGE_WORDS_PLAIN, 0, flow->width, _ ("Finished size"), card->size);
  box_fact (box, CW_PAGE_WORDS_PLAIN, 0, flow->width, _ ("Envelope"), card->envelope);
  box_fact (box, CW_PAGE_WORDS_PLAIN, 0, flow->width, _ ("On the trimmer"), card->work);
  box_fact (box, CW_PAGE_WORDS_FACTS, 0, flow->width, _ ("By"), card->author);
  box_fact (box, CW_PAGE_WORDS_FACTS, 0, flow->width, _ ("Date"), card->date);
  box_fact (box, CW_PAGE_WORDS_PLAIN, 0, flow->width, _ ("Made with"), card->version);
  cw_page_flow_place (flow, box, flow->sizes.gap);
}

static void
place_tools (CwPageLayout *layout)
{
  const char *const hazards[] = { "", _ (" (blade)"), _ (" (heat)"), _ (" (fumes)") };
  CwPageFlow *flow = &layout->flow;

  cw_page_flow_heading (flow, _ ("You need"));
  for (guint i = 0; i < layout->card->tools->len; i++)
    {
      const CwCardTool *tool = g_ptr_array_index (layout->card->tools, i);
      g_autofree char *text = g_strconcat (tool->name, hazards[tool->hazard], NULL);
      CwPageBox *box = cw_page_box_new (flow, flow->width);

      cw_page_box_item (box, tool->hazard != CW_HAZARD_NONE ? CW_PAGE_SIGN_WARNING : CW_PAGE_SIGN_DOT, 0, flow->width,
                        flow->sizes.body, text);
      cw_page_flow_place (flow, box, 0);
    }
  place_items (layout, layout->card->supplies, CW_PAGE_SIGN_DOT);
  for (guint i = 0; i < layout->card->cautions->len; i++)
    {
      CwPageBox *box = cw_page_box_new (flow, flow->width);

      cw_page_box_item (box, CW_PAGE_SIGN_WARNING, 0, flow->width, flow->sizes.body,
                        g_ptr_array_index (layout->card->cautions, i));
      cw_page_flow_place (flow, box, i == 0 ? flow->sizes.gap : 0);
    }
}

static void
place_cuts (CwPageLayout *layout)
{
  CwPageFlow *flow = &layout->flow;
  double size = flow->sizes.body, indent = 2.2 * size;

  cw_page_flow_heading (flow, _ ("Pieces to cut"));
  for (guint i = 0; i < layout->card->cuts->len; i++)
    {
      const CwCardCut *cut = g_ptr_array_index (layout->card->cuts, i);
      CwPageBox *box = cw_page_box_new (flow, flow->width);
      g_autofree char *count = cw_card_cut_dup_count (cut);
      g_autofree char *head = g_strdup_printf ("%s, %s: %s", cut->name, count, cut->size);
      g_autofree char *of = g_strdup_printf ("%s%s%s%s%s", cut->paper, *cut->grain != '\0' ? ", " : "", cut->grain,
                                             *cut->purpose != '\0' ? "; " : "", cut->purpose);

      cw_page_rule (box->list, CW_PEN_GUIDE, 0, 0, flow->width, 0);
      box->y = 3;
      cw_draw_list_text (box->list, CW_PEN_TITLE, no_id, 0.2 * size, box->y + size * 1.15, size * 1.25, CW_ANCHOR_START,
                         0, cut->letter);
      cw_page_box_text (box, CW_PEN_TEXT, size, indent, flow->width - indent, head);
      cw_page_box_text (box, CW_PEN_TEXT, size, indent, flow->width - indent, of);
      box->y += 2;
      cw_page_flow_place (flow, box, i == 0 ? 0 : 1);
    }
}

static void
place_steps (CwPageLayout *layout, const char *heading, const GPtrArray *steps)
{
  if (steps->len == 0)
    return;
  cw_page_flow_heading (&layout->flow, heading);
  for (guint i = 0; i < steps->len; i++)
    cw_page_place_step (layout, g_ptr_array_index (steps, i));
}

/* --- Legend and measuring bars. --- */

static void
place_legend (CwPageLayout *layout)
{
  CwPageFlow *flow = &layout->flow;
  CwPageBox *box = cw_page_box_new (flow, flow->width);
  g_autoptr (CwDrawList) list = cw_draw_list_new ();
  /* The legend's own letters are 10.5 points. */
  double scale = MAX (1, flow->sizes.small / 10.5);

  if (layout->pens == 0)
    {
      cw_page_box_free (box);
      return;
    }
  box->y = cw_draw_legend (list, 0, 0, flow->width / scale, layout->pens) * scale;
  cw_page_flow_heading (flow, _ ("What the lines mean"));
  cw_page_words_take (flow, list);
  cw_draw_list_append (box->list, list, scale, 0, 0);
  cw_page_flow_place (flow, box, 0);
}

/* A bar with ticks; every `long_every`th is long. */
static void
box_bar (CwPageBox *box, double length, guint ticks, guint long_every)
{
  double y = box->y + 14;

  cw_page_rule (box->list, CW_PEN_OUTLINE, 0, y, length, y);
  for (guint i = 0; i <= ticks; i++)
    cw_page_rule (box->list, i % long_every == 0 ? CW_PEN_OUTLINE : CW_PEN_GUIDE, length * i / ticks,
                  y - (i % long_every == 0 ? 12 : 6), length * i / ticks, y);
  box->y = y + 4;
}

static void
place_bars (CwPageLayout *layout)
{
  CwPageFlow *flow = &layout->flow;
  CwPageBox *box = cw_page_box_new (flow, flow->width), *second = box;
  double inches = 3 * 72, centimetres = 8 * 72 / 2.54, left = inches + 4 * flow->sizes.gap;
  gboolean beside = left + centimetres <= flow->width;

  cw_page_flow_heading (flow, _ ("To measure by"));
  box_bar (box, inches, 24, 8);
  cw_page_box_text (box, CW_PEN_TEXT, flow->sizes.small, 0, inches, _ ("3 inches"));
  if (beside)
    second = cw_page_box_new (flow, flow->width);
  box_bar (second, centimetres, 80, 10);
  cw_page_box_text (second, CW_PEN_TEXT, flow->sizes.small, 0, centimetres, _ ("8 centimetres"));
  if (beside)
    {
      cw_draw_list_append (box->list, second->list, 1, left, 0);
      box->y = MAX (box->y, second->y);
      cw_page_box_free (second);
    }
  cw_page_box_text (box, CW_PEN_TEXT, flow->sizes.small, 0, flow->width,
                    _ ("If a ruler says otherwise, print again at 100 %, not fitted to the page."));
  cw_page_flow_place (flow, box, 0);
}

static CwPages *
lay_out (const CwStepCard *card, const CwPageStyle *style, CwCardScene *scene, guint *pens)
{
  CwPages *pages = cw_pages_new ();
  CwPageLayout layout = { .card = card, .scene = scene, .pens = *pens };

  pages->title = g_strdup (card->title);
  pages->author = g_strdup (card->author);
  cw_page_flow_init (&layout.flow, pages, style);
  layout.beside = (1 - CW_PAGE_PICTURE_SHARE) * layout.flow.width >= BESIDE_LETTERS * layout.flow.sizes.body * 0.5;

  place_head (&layout);
  if (card->faults->len > 0)
    {
      cw_page_flow_heading (&layout.flow, _ ("Do not cut yet: this design still has faults"));
      place_remarks (&layout, card->faults);
    }
  place_tools (&layout);
  place_cuts (&layout);
  if (card->numbers->len > 0)
    {
      cw_page_flow_heading (&layout.flow, _ ("Numbers to read twice"));
      place_items (&layout, card->numbers, CW_PAGE_SIGN_DOT);
    }
  place_legend (&layout);
  place_bars (&layout);
  place_steps (&layout, _ ("Make the card"), card->making);
  place_steps (&layout, _ ("Open and close it"), card->using);
  if (card->mistakes->len > 0)
    {
      cw_page_flow_heading (&layout.flow, _ ("What goes wrong most easily"));
      place_remarks (&layout, card->mistakes);
    }
  if (card->changes->len > 0)
    {
      cw_page_flow_heading (&layout.flow, _ ("What has changed"));
      place_items (&layout, card->changes, CW_PAGE_SIGN_DOT);
    }
  cw_page_flow_finish (&layout.flow);
  *pens = layout.pens;
  return pages;
}

/**
 * cw_pages_new_step_card:
 * @card: what the pages say
 * @style: sheet and size of type
 *
 * Returns: (transfer full): the pages
 */
CwPages *
cw_pages_new_step_card (const CwStepCard *card, const CwPageStyle *style)
{
  CwCardScene *scene;
  CwPages *pages;
  guint pens = 0;

  g_return_val_if_fail (card != NULL && style != NULL, NULL);

  /* What the lines mean stands before the steps; which lines there are is known once they are drawn. */
  scene = cw_card_scene_new (card->analysis);
  pages = lay_out (card, style, scene, &pens);
  if (pens != 0)
    {
      cw_pages_unref (pages);
      pages = lay_out (card, style, scene, &pens);
    }
  cw_card_scene_free (scene);
  return pages;
}
