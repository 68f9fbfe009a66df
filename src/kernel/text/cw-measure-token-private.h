/* cw-measure-token-private.h: the words and lengths of a measure line.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "units/cw-length.h"

G_BEGIN_DECLS

#define CW_MEASURE_WORD_MAX 24
#define CW_MEASURE_LINE_MAX 500 /* bytes */

typedef enum
{
  CW_TOKEN_END,
  CW_TOKEN_LENGTH,
  CW_TOKEN_MIDDLE, /* "middle": half the way, wherever that is */
  CW_TOKEN_WORD,
  CW_TOKEN_COMMA,  /* also "and", "&", ";" */
  CW_TOKEN_QUOTED, /* words in quotes; start and end are those within */
} CwTokenKind;

typedef struct
{
  CwTokenKind kind;
  const char *start, *end; /* borrowed from the line */
  CwLength length;
  gboolean unit_said;
  char word[CW_MEASURE_WORD_MAX]; /* lower case, synonyms brought to one word */
} CwToken;

gboolean cw_measure_tokens_join_spoken (GArray *tokens, GError **error);
GArray *cw_measure_tokens_read (const char *text, CwUnit unit, GError **error);

G_END_DECLS
