/* cw-grammage.c: reads the weight of paper: grams per square metre, or pounds of a named grade.
 *
 * Pounds are those of a ream of 500 sheets of the grade's own basic size (the American trade; 1 lb = 453.59237 g, the
 * international agreement of 1959), so "110 lb index" is lighter than "110 lb cover". Refuses pounds without a grade,
 * which may mean any of them.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "units/cw-grammage.h"

#include <string.h>

#define GRAMS_PER_POUND 453.59237
#define SQUARE_INCHES_PER_SQUARE_METRE 1550.0031
#define REAM 500

static const struct
{
  const char *name;
  double width, height; /* inches */
} grades[] = {
  { "bond", 17, 22 },   { "writing", 17, 22 }, { "ledger", 17, 22 },    { "text", 25, 38 },        { "book", 25, 38 },
  { "offset", 25, 38 }, { "cover", 20, 26 },   { "index", 25.5, 30.5 }, { "bristol", 22.5, 28.5 }, { "tag", 24, 36 },
};

static const char *const metric_units[] = { "g/m2", "g/m²", "gsm" };
static const char *const pounds[] = { "lbs", "lb", "#" };

/* Skips the first of the words that stands at *p, and spaces after it. */
static gboolean
skip_word (const char **p, const char *const *words, guint n)
{
  for (guint i = 0; i < n; i++)
    if (g_ascii_strncasecmp (*p, words[i], strlen (words[i])) == 0)
      {
        *p += strlen (words[i]);
        while (g_ascii_isspace (**p) || **p == '.')
          (*p)++;
        return TRUE;
      }
  return FALSE;
}

/**
 * cw_grammage_parse:
 * @text: (nullable): a weight as typed, such as "216 g/m2", "216 gsm" or "80 lb cover"
 * @grams: (out): grams per square metre
 *
 * Returns: %FALSE if @text does not say it
 */
gboolean
cw_grammage_parse (const char *text, double *grams)
{
  char *end;
  const char *p;
  double number;

  g_return_val_if_fail (grams != NULL, FALSE);

  if (text == NULL)
    return FALSE;
  number = g_ascii_strtod (text, &end);
  if (end == text || !(number > 0 && number < G_MAXINT))
    return FALSE;
  for (p = end; g_ascii_isspace (*p); p++)
    ;
  if (skip_word (&p, metric_units, G_N_ELEMENTS (metric_units)))
    {
      *grams = number;
      return *p == '\0';
    }
  if (!skip_word (&p, pounds, G_N_ELEMENTS (pounds)))
    return FALSE;
  for (guint i = 0; i < G_N_ELEMENTS (grades); i++)
    if (skip_word (&p, &grades[i].name, 1))
      {
        *grams
          = number * GRAMS_PER_POUND * SQUARE_INCHES_PER_SQUARE_METRE / (REAM * grades[i].width * grades[i].height);
        return *p == '\0';
      }
  return FALSE;
}
