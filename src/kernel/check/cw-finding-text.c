/* cw-finding-text.c: a finding's words with its measures and names put in.
 *
 * What a room knows by its id is named as the maker names it. The words are msgids in which {0}, {1}... stand for
 * the finding's arguments, so that a translation may order them as its language does. An argument that is not there is
 * left as written; nothing else in the words has a meaning.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "check/cw-analysis.h"

#include "design/cw-step-words.h"

#include <glib/gi18n-lib.h>

/* TRUE if a piece, a panel or a mark goes by this name. */
static gboolean
names_paper (const CwDesign *design, const char *word)
{
  for (guint i = 0; i < design->pieces->len; i++)
    {
      const CwPiece *piece = design->pieces->pdata[i];

      if (g_str_equal (piece->id, word) || g_strcmp0 (piece->name, word) == 0
          || cw_piece_get_mark (piece, word) != NULL)
        return TRUE;
      for (guint k = 0; k < piece->names->len; k++)
        if (g_strcmp0 (((const CwName *) piece->names->pdata[k])->name, word) == 0)
          return TRUE;
    }
  return FALSE;
}

/**
 * cw_finding_name_arguments:
 * @finding: a finding as the room that found it made it
 * @design: the design it is about
 *
 * Words name a piece as the maker does, and a step without a title, which comes marked as one, as the window does. The
 * rooms that judge know both by their ids; marks are shown by theirs. All of these are names from here on, and told in
 * quotes.
 */
void
cw_finding_name_arguments (CwFinding *finding, const CwDesign *design)
{
  for (guint i = 0; i < finding->args->len; i++)
    {
      const char *word = finding->args->pdata[i];
      const CwPiece *piece = cw_design_get_piece (design, word);
      const CwStep *step;
      gboolean mark = FALSE, paper = names_paper (design, word);
      g_autofree char *name = NULL;

      if (*word == CW_FINDING_STEP)
        {
          step = cw_design_get_step (design, word + 1);
          name = step != NULL ? cw_step_dup_mention (design, step) : g_strdup (word + 1);
        }
      for (guint k = 0; k < finding->marks->len && !mark; k++)
        mark = g_strcmp0 (strrchr (finding->marks->pdata[k], '/') + 1, word) == 0;
      if (name == NULL && (paper || mark))
        name = g_strdup (piece != NULL && piece->name != NULL && !mark ? piece->name : word);
      if (name == NULL)
        continue;
      g_free (finding->args->pdata[i]);
      finding->args->pdata[i] = g_strdup_printf ("%c%s", CW_FINDING_NAME, name);
    }
}

/* The names that makers give stand in quotes, whether the words around them bring these or not. */
static void
append_argument (GString *text, const char *argument, gboolean translated)
{
  gboolean name = *argument == CW_FINDING_NAME || *argument == CW_FINDING_STEP;
  gboolean quoted = g_str_has_suffix (text->str, "“") || g_str_has_suffix (text->str, "„")
                    || g_str_has_suffix (text->str, "«") || g_str_has_suffix (text->str, "»");
  g_autofree char *read = cw_finding_dup_read (name ? argument + 1 : argument, translated);

  if (name && !quoted)
    /* Translators: a name in quotes. */
    g_string_append_printf (text, translated ? _ ("“%s”") : "“%s”", read);
  else
    g_string_append (text, read);
}

/**
 * cw_words_fill:
 * @words: a static msgid in which {0}, {1}... stand for arguments
 * @args: (element-type utf8): the arguments
 * @translated: %FALSE for English whatever the locale
 *
 * Returns: (transfer full): the words with the arguments put in
 */
char *
cw_words_fill (const char *words, const GPtrArray *args, gboolean translated)
{
  GString *text = g_string_new (NULL);

  for (const char *p = translated ? g_dgettext (GETTEXT_PACKAGE, words) : words; *p != '\0'; p++)
    {
      guint64 index;
      char *end;

      if (*p == '{' && g_ascii_isdigit (p[1]))
        {
          index = g_ascii_strtoull (p + 1, &end, 10);
          if (*end == '}' && index < args->len)
            {
              append_argument (text, g_ptr_array_index (args, (guint) index), translated);
              p = end;
              continue;
            }
        }
      g_string_append_c (text, *p);
    }
  return g_string_free (text, FALSE);
}

/**
 * cw_finding_dup_text:
 * @finding: a finding
 * @translated: %FALSE for English whatever the locale (the report), %TRUE for the user's language
 *
 * Returns: (transfer full): what is wrong, in plain words
 */
char *
cw_finding_dup_text (const CwFinding *finding, gboolean translated)
{
  g_return_val_if_fail (finding != NULL, NULL);
  return cw_words_fill (finding->words ? finding->words : cw_finding_code_get_key (finding->code), finding->args,
                        translated && finding->words);
}

/**
 * cw_finding_dup_remedy:
 * @finding: a finding
 * @translated: %FALSE for English whatever the locale (the report), %TRUE for the user's language
 *
 * Returns: (transfer full) (nullable): what to do about it, in plain words; %NULL if nothing is known
 */
char *
cw_finding_dup_remedy (const CwFinding *finding, gboolean translated)
{
  g_return_val_if_fail (finding != NULL, NULL);
  return finding->remedy ? cw_words_fill (finding->remedy, finding->args, translated) : NULL;
}
