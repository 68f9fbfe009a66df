/* cw-design-json.c: a design as text and as a file.
 *
 * Reading: text to a strict tree (cw-json.c), tree to a design (cw-design-read.c), design checked as a whole
 * (cw-design-validate.c). Writing: the same design gives the same bytes, two-space indent, one mark a line where it
 * fits. Saving replaces a file only by a whole new one.
 * Refuses files over CW_DESIGN_BYTES_MAX, what is no JSON or no design, and newer versions. Every error is one sentence
 * that names the source, the place and what was expected.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "design/cw-design-json.h"
#include "design/cw-design-private.h"
#include "design/cw-file.h"

#include <glib/gi18n-lib.h>
#include <string.h>

G_DEFINE_QUARK (cw - design - error - quark, cw_design_error)

#define MESSAGE_MAX 400 /* characters of an error, so that an endless id does not fill the screen */

/* Names in a file may hold anything, but an error is one line. Takes `why`. */
static void
fail_named (GError **error, CwDesignError code, const char *name, GError *why)
{
  g_autoptr (GString) words = g_string_new (NULL);
  g_autofree char *whole = g_strdup_printf ("%s: %s", name, why->message);
  glong n = 0;

  for (const char *p = whole; *p && n <= MESSAGE_MAX; p = g_utf8_next_char (p), n++)
    {
      gunichar c = g_utf8_get_char (p);
      if (n == MESSAGE_MAX)
        c = 0x2026; /* an ellipsis */
      g_string_append_unichar (words, g_unichar_iscntrl (c) || c == 0x2028 || c == 0x2029 ? ' ' : c);
    }
  g_set_error_literal (error, CW_DESIGN_ERROR, code, words->str);
  g_error_free (why);
}

static CwDesign *
fail_too_large (const char *source, GError **error)
{
  g_set_error (error, CW_DESIGN_ERROR, CW_DESIGN_ERROR_SYNTAX, _ ("%s: larger than the %d MB a design may have"),
               source, CW_DESIGN_BYTES_MAX / (1024 * 1024));
  return NULL;
}

/**
 * cw_design_from_text:
 * @text: UTF-8 JSON
 * @length: its length in bytes, or -1 if it ends with a zero
 * @source: (nullable): the name that errors give the text, such as that of its file
 * @error: where to put an error of CW_DESIGN_ERROR
 *
 * Reads and validates a design.
 *
 * Returns: (transfer full) (nullable): the design, or NULL with @error set
 */
CwDesign *
cw_design_from_text (const char *text, gssize length, const char *source, GError **error)
{
  g_return_val_if_fail (text, NULL);
  gsize size = length < 0 ? strlen (text) : (gsize) length;
  const char *name = source ? source : _ ("this design");
  GError *why = NULL;

  if (size > CW_DESIGN_BYTES_MAX)
    return fail_too_large (name, error);
  g_autoptr (JsonNode) root = cw_json_parse (text, size, CW_DESIGN_NESTING_MAX, &why);
  if (!root)
    {
      fail_named (error, CW_DESIGN_ERROR_SYNTAX, name, why);
      return NULL;
    }
  g_autoptr (CwDesign) design = cw_design_from_json (root, &why);
  if (!design || !cw_design_validate (design, &why))
    {
      fail_named (error, (CwDesignError) why->code, name, why);
      return NULL;
    }
  return g_steal_pointer (&design);
}

/**
 * cw_design_load:
 * @file: a file
 * @error: where to put an error of CW_DESIGN_ERROR or G_IO_ERROR
 *
 * Reads and validates a design from a file, no more of it than a design may be long.
 *
 * Returns: (transfer full) (nullable): the design, or NULL with @error set
 */
CwDesign *
cw_design_load (GFile *file, GError **error)
{
  g_return_val_if_fail (G_IS_FILE (file), NULL);
  g_autofree char *source = g_file_get_parse_name (file);
  g_autoptr (GByteArray) bytes = g_byte_array_new ();
  g_autoptr (GFileInputStream) stream = g_file_read (file, NULL, error);

  while (stream)
    {
      guint8 part[16384];
      gssize n = g_input_stream_read (G_INPUT_STREAM (stream), part, sizeof part, NULL, error);

      if (n < 0)
        break;
      if (n == 0)
        return cw_design_from_text (bytes->len > 0 ? (const char *) bytes->data : "", bytes->len, source, error);
      if (bytes->len + (gsize) n > CW_DESIGN_BYTES_MAX)
        return fail_too_large (source, error);
      g_byte_array_append (bytes, part, (guint) n);
    }
  /* GIO does not always say which file it speaks of. */
  if (error && *error && !strstr ((*error)->message, source))
    g_prefix_error (error, "%s: ", source);
  return NULL;
}

/* Which lists are written one entry a line whatever their length: everything a maker changes entry by entry. */
static gboolean
is_open (const char *key, guint level)
{
  static const char *const lists[] = { "papers", "pieces", "glue", "steps", "wants", NULL };
  static const char *const of_piece[] = { "marks", "names", "art", NULL };

  switch (level)
    {
    case 0:
      return TRUE;
    case 1:
      return g_strv_contains (lists, key);
    case 2:
      return g_str_equal (key, "pieces");
    case 3:
      return g_strv_contains (of_piece, key);
    default:
      return FALSE;
    }
}

/**
 * cw_design_to_text:
 * @design: a design
 * @length: (out) (optional): the length of the text in bytes
 *
 * Returns: (transfer full): the design as JSON, always the same bytes for the same design
 */
char *
cw_design_to_text (const CwDesign *design, gsize *length)
{
  g_return_val_if_fail (design, NULL);
  g_autoptr (JsonNode) root = cw_design_to_json (design);
  GString *text = g_string_new (NULL);

  cw_json_append (text, root, is_open);
  g_string_append_c (text, '\n');
  if (length)
    *length = text->len;
  return g_string_free (text, FALSE);
}

/**
 * cw_design_save_over:
 * @design: a design
 * @file: where to; an existing file is replaced only by a whole new one and keeps its permissions, and a link to a file
 *   stays a link
 * @tag: (nullable): of the file that is meant to be replaced (cw_file_dup_tag()); NULL: whatever is there
 * @error: where to put an error of G_IO_ERROR, or of CW_DESIGN_ERROR if the file would be too large to be read
 *
 * Returns: FALSE with @error set when nothing was written
 */
gboolean
cw_design_save_over (const CwDesign *design, GFile *file, const char *tag, GError **error)
{
  g_return_val_if_fail (design && G_IS_FILE (file), FALSE);
  gsize length;
  g_autofree char *text = cw_design_to_text (design, &length);

  if (length > CW_DESIGN_BYTES_MAX) /* nobody could open it again */
    {
      g_autofree char *name = g_file_get_parse_name (file);
      return fail_too_large (name, error) != NULL;
    }
  return cw_file_write (file, text, length, tag, error);
}

/**
 * cw_design_save:
 *
 * Writes the design over whatever is there: cw_design_save_over() without a tag.
 *
 * Returns: FALSE with @error set when nothing was written
 */
gboolean
cw_design_save (const CwDesign *design, GFile *file, GError **error)
{
  return cw_design_save_over (design, file, NULL, error);
}
