/* cw-design-json.h: a design as text and as a file.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <gio/gio.h>

#include "design/cw-design.h"

G_BEGIN_DECLS

#define CW_DESIGN_VERSION 1
#define CW_DESIGN_BYTES_MAX (8 * 1024 * 1024) /* a larger file is refused */
#define CW_DESIGN_NESTING_MAX 32              /* so is a deeper one */

typedef enum
{
  CW_DESIGN_ERROR_SYNTAX,  /* not JSON, or too large or too deep */
  CW_DESIGN_ERROR_CONTENT, /* JSON, but not a design: says the JSON path and what was expected */
  CW_DESIGN_ERROR_VERSION, /* written by a newer program */
} CwDesignError;

#define CW_DESIGN_ERROR (cw_design_error_quark ())
GQuark cw_design_error_quark (void);

CwDesign *cw_design_from_text (const char *text, gssize length, const char *source, GError **error);
CwDesign *cw_design_load (GFile *file, GError **error);
char *cw_design_to_text (const CwDesign *design, gsize *length);
gboolean cw_design_save_over (const CwDesign *design, GFile *file, const char *tag, GError **error);
gboolean cw_design_save (const CwDesign *design, GFile *file, GError **error);

G_END_DECLS
