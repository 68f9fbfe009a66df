/* cw-step-card-text.c: the step cards as plain text.
 *
 * For reading aloud, for the web and for golden tests. Every word that the pages print stands here too, in the same
 * order; pictures stand by their descriptions.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "text/cw-step-card.h"

#include <glib/gi18n-lib.h>

static void
say_named (GString *text, const char *name, const char *value)
{
  if (value != NULL && *value != '\0')
    g_string_append_printf (text, "%s: %s\n", name, value);
}

static void
say_heading (GString *text, const char *heading)
{
  g_string_append_printf (text, "\n%s\n\n", heading);
}

static void
say_remarks (GString *text, const GPtrArray *remarks)
{
  for (guint i = 0; i < remarks->len; i++)
    {
      const CwCardRemark *remark = g_ptr_array_index (remarks, i);

      g_string_append_printf (text, "- %s", remark->text);
      if (remark->remedy != NULL)
        g_string_append_printf (text, " %s", remark->remedy);
      g_string_append_c (text, '\n');
    }
}

static void
say_sentences (GString *text, const GPtrArray *sentences, const char *before)
{
  for (guint i = 0; i < sentences->len; i++)
    g_string_append_printf (text, "%s%s\n", before, (const char *) g_ptr_array_index (sentences, i));
}

/**
 * cw_card_move_dup_sentence:
 * @row: a move
 *
 * Returns: (transfer full): it as a sentence
 */
char *
cw_card_move_dup_sentence (const CwCardMove *row)
{
  g_autofree char *words = NULL;

  if (*row->at == '\0')
    words = g_strdup (row->what);
  else if (row->whole)
    /* Translators: one trimmer move: how far from the guide, what it is. */
    words = g_strdup_printf (_ ("%s from the guide, from edge to edge: %s"), row->at, row->what);
  else if (*row->to == '\0')
    /* Translators: a pencil mark: how far from the guide, place along the blade, what it is. */
    words = g_strdup_printf (_ ("%s from the guide, at %s: %s"), row->at, row->from, row->what);
  else
    /* Translators: one trimmer move: how far from the guide, start, end, what it is. */
    words = g_strdup_printf (_ ("%s from the guide, start %s, end %s: %s"), row->at, row->from, row->to, row->what);
  /* Translators: a line of the trimmer by its number, and how it is made. */
  g_autofree char *line = g_strdup_printf (_ ("Line %u: %s"), row->number, words);
  return g_strconcat (line, row->look_alike ? _ (" (read twice)") : "", NULL);
}

static void
say_move (GString *text, const CwCardMove *row)
{
  g_autofree char *sentence = cw_card_move_dup_sentence (row);

  g_string_append_printf (text, "   %s\n", sentence);
}

static void
say_step (GString *text, const CwCardStep *step)
{
  g_string_append_printf (text, "%u. %s\n", step->number, step->title);
  if (step->face != NULL)
    g_string_append_printf (text, "   [%s]\n", step->face);
  if (step->picture.kind != CW_CARD_PICTURE_NONE)
    {
      g_string_append (text, "   [");
      g_string_append_printf (text, _ ("Picture: %s"), step->picture.words);
      g_string_append (text, "]\n");
    }
  say_sentences (text, step->lines, "   ");
  for (guint i = 0; i < step->moves->len; i++)
    say_move (text, g_ptr_array_index (step->moves, i));
  say_sentences (text, step->cautions, "   ! ");
  say_sentences (text, step->checks, "   ? ");
  if (step->caption != NULL && *step->caption != '\0')
    g_string_append_printf (text, "   %s\n", step->caption);
  g_string_append_c (text, '\n');
}

/**
 * cw_step_card_to_text:
 * @card: a step card
 *
 * Returns: (transfer full): all it says, as plain text
 */
char *
cw_step_card_to_text (const CwStepCard *card)
{
  GString *text = g_string_new (NULL);

  g_return_val_if_fail (card != NULL, NULL);

  g_string_append_printf (text, "%s\n", card->title);
  if (card->notes != NULL)
    g_string_append_printf (text, "%s\n", card->notes);
  g_string_append_c (text, '\n');
  say_named (text, _ ("Finished size"), card->size);
  say_named (text, _ ("Envelope"), card->envelope);
  say_named (text, _ ("Time"), card->time);
  say_named (text, _ ("On the trimmer"), card->work);
  say_named (text, _ ("By"), card->author);
  say_named (text, _ ("Date"), card->date);
  say_named (text, _ ("Made with"), card->version);
  if (card->faults->len > 0)
    {
      say_heading (text, _ ("Do not cut yet: this design still has faults"));
      say_remarks (text, card->faults);
    }
  say_heading (text, _ ("You need"));
  for (guint i = 0; i < card->tools->len; i++)
    {
      const CwCardTool *tool = g_ptr_array_index (card->tools, i);
      const char *const hazards[] = { "", _ (" (blade)"), _ (" (heat)"), _ (" (fumes)") };

      g_string_append_printf (text, "- %s%s\n", tool->name, hazards[tool->hazard]);
    }
  say_sentences (text, card->supplies, "- ");
  g_string_append_c (text, '\n');
  say_sentences (text, card->cautions, "! ");
  say_heading (text, _ ("Pieces to cut"));
  for (guint i = 0; i < card->cuts->len; i++)
    {
      const CwCardCut *cut = g_ptr_array_index (card->cuts, i);

      g_autofree char *count = cw_card_cut_dup_count (cut);

      g_string_append_printf (text, "%s: %s, %s: %s; %s%s%s%s%s\n", cut->letter, cut->name, count, cut->size,
                              cut->paper, *cut->grain != '\0' ? ", " : "", cut->grain,
                              *cut->purpose != '\0' ? "; " : "", cut->purpose);
    }
  if (card->numbers->len > 0)
    {
      say_heading (text, _ ("Numbers to read twice"));
      say_sentences (text, card->numbers, "- ");
    }
  say_heading (text, _ ("Make the card"));
  for (guint i = 0; i < card->making->len; i++)
    say_step (text, g_ptr_array_index (card->making, i));
  if (card->using->len > 0)
    {
      say_heading (text, _ ("Open and close it"));
      for (guint i = 0; i < card->using->len; i++)
        say_step (text, g_ptr_array_index (card->using, i));
    }
  if (card->mistakes->len > 0)
    {
      say_heading (text, _ ("What goes wrong most easily"));
      say_remarks (text, card->mistakes);
    }
  if (card->changes->len > 0)
    {
      say_heading (text, _ ("What has changed"));
      say_sentences (text, card->changes, "- ");
    }
  return g_string_free (text, FALSE);
}
