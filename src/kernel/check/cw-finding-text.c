/* cw-finding-text.c: a finding's words with its measures and names put in.
 *
 * The words are msgids in which {0}, {1}... stand for the finding's arguments, so that a translation may order them as
 * its language does. An argument that is not there is left as written; nothing else in the words has a meaning.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "check/cw-analysis.h"

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
              g_string_append (text, g_ptr_array_index (args, (guint) index));
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
