/* cw-file.h: files written whole or not at all.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <gio/gio.h>

G_BEGIN_DECLS

char *cw_file_dup_tag (GFile *file); /* changes whenever somebody writes the file; NULL when there is none */
gboolean cw_file_write (GFile *file, gconstpointer bytes, gsize length, const char *tag, GError **error);

G_END_DECLS
