/* cw-tools.h: what the maker works with; preferences, no part of a design.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "units/cw-length.h"

G_BEGIN_DECLS

typedef struct
{
  gboolean right_to_left; /* the guide stands right of the blade and the rule counts from there */
  gint32 reach;           /* of the rule, ticks */
  gint32 finest;          /* finest mark of the rules, ticks; 0: the design's own snap step */
  gboolean has_stops;     /* a second rule along the blade; without one starts and stops are marked with a pencil */
  gint32 groove;          /* distance of the grooves of a scoring board, ticks; 0: none */
  gint32 narrowest;       /* strip that can be held, ticks */
  gboolean pull_up;       /* the blade is pushed away instead of pulled down */
  gboolean one_face;      /* scores are all made with the front up, not with the dent outside of the fold */
} CwTools;

extern const CwTools cw_tools_usual;

typedef enum
{
  CW_TOOLS_ERROR_TEXT,  /* no list of tools */
  CW_TOOLS_ERROR_KEY,   /* nothing a tool has */
  CW_TOOLS_ERROR_VALUE, /* not what it takes */
} CwToolsError;

#define CW_TOOLS_ERROR (cw_tools_error_quark ())
GQuark cw_tools_error_quark (void);

gboolean cw_tools_equal (const CwTools *a, const CwTools *b);
/* All of it is written as words and lengths under the same keys, in files, on the command line and in settings. */
const char *const *cw_tools_get_keys (void);               /* NULL-terminated */
const char *const *cw_tools_get_choices (const char *key); /* the words it takes; NULL: a length */
gboolean cw_tools_set (CwTools *tools, const char *key, const char *value, GError **error);
char *cw_tools_dup_value (const CwTools *tools, const char *key);
/* A text of lines "key=value" under [tools]; what it does not name stays as it is. Nothing is changed on errors. */
gboolean cw_tools_read (CwTools *tools, const char *text, GError **error);
char *cw_tools_to_text (const CwTools *tools);

G_END_DECLS
