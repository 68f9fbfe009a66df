/* cw-design-format.h: the tables that say how a design is written, for its reader and its writer.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "design/cw-design.h"

G_BEGIN_DECLS

typedef enum
{
  CW_FIELD_TEXT,   /* char * */
  CW_FIELD_COLOUR, /* char *, "#rrggbb" */
  CW_FIELD_YES,    /* gboolean, written when TRUE; with `has`: written when there */
  CW_FIELD_ENUM,   /* an enum, `more` its keys; a NULL key is not written */
  CW_FIELD_ANGLE,  /* double, degrees */
  CW_FIELD_UNIT,   /* CwUnit, which bare numbers after it take */
  CW_FIELD_SNAP,   /* the snap of a CwHead */
  CW_FIELD_LENGTH, /* CwLength */
  CW_FIELD_SIZE,   /* CwLength[2] */
  CW_FIELD_PLACE,  /* CwPlace */
  CW_FIELD_BOX,    /* CwPlace[2] */
  CW_FIELD_PATH,   /* CwPath */
  CW_FIELD_RECT,   /* CwPath of two corners */
  CW_FIELD_TEXTS,  /* GPtrArray of char *; with `has`: written even if empty */
  CW_FIELD_ITEMS,  /* GPtrArray of items of the record `more`; `has` likewise */
  CW_FIELD_HOLDS,  /* GPtrArray of CwTarget, `has` the flag that it is written as a list */
  CW_FIELD_OBJECT, /* an object of its own whose record `more` lies in the same item */
} CwFieldKind;

typedef enum
{
  CW_FIELD_NEEDED = 1 << 0,   /* refused when absent */
  CW_FIELD_ALWAYS = 1 << 1,   /* written even when it says nothing new */
  CW_FIELD_POSITIVE = 1 << 2, /* a length over 0 */
  CW_FIELD_UNSIGNED = 1 << 3, /* a length of 0 or more */
} CwFieldFlags;

typedef struct
{
  const char *key;
  CwFieldKind kind;
  gsize offset;
  guint flags;
  gsize has; /* offset of the gboolean that says whether it is there; 0: none, it always is */
  gconstpointer more;
  gboolean (*applies) (gconstpointer item); /* NULL: always; where it does not, the key is like an unknown one */
} CwField;

typedef struct
{
  const CwField *fields; /* in the order of the file; ends with a NULL key */
  gsize extra;           /* offset of the JsonObject of other keys; 0: none */
  gpointer (*new) (void);
  void (*unref) (gpointer item);
} CwRecord;

/* The whole is written from three records in this order: the head's first keys, the lists, the head's last keys. */
extern const CwRecord cw_format_head, cw_format_lists, cw_format_tail, cw_format_target, cw_format_mark,
  cw_format_through;

gboolean cw_format_knows (const CwRecord *record, gconstpointer item, const char *key);

#define CW_FIELD_AT(item, offset, Type) ((Type *) (void *) ((char *) (item) + (offset)))
#define CW_FIELD_SEE(item, offset, Type) ((Type const *) (const void *) ((const char *) (item) + (offset)))

G_END_DECLS
