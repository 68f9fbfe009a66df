/* cw-page.c: printed pages as a PDF file.
 *
 * The file is made in memory and replaced in one go. Title and author go into its metadata, a date does not: the same
 * pages give the same file. Fonts are embedded by cairo.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include <cairo-pdf.h>
#include <glib/gi18n-lib.h>

#include "cw-page.h"
#include "design/cw-file.h"

/* Points: 1 in = 72, 1 mm = 72/25.4. Letter: ANSI A; half letter its half; A4, A5: ISO 216:2007. */
static const struct
{
  const char *key;
  double width, height;
} sheets[CW_N_PAGE_FORMATS] = {
  { "letter", 612, 792 },
  { "a4", 210 * 72 / 25.4, 297 * 72 / 25.4 },
  { "half-letter", 396, 612 },
  { "a5", 148 * 72 / 25.4, 210 * 72 / 25.4 },
};

/**
 * cw_page_format_get_key:
 *
 * Returns: (transfer none): the sheet's name on the command line and in settings
 */
const char *
cw_page_format_get_key (CwPageFormat format)
{
  g_return_val_if_fail ((guint) format < CW_N_PAGE_FORMATS, NULL);
  return sheets[format].key;
}

/**
 * cw_page_format_parse:
 * @key: a name
 * @format: (out): the sheet
 *
 * Returns: whether there is such a sheet
 */
gboolean
cw_page_format_parse (const char *key, CwPageFormat *format)
{
  for (guint i = 0; i < CW_N_PAGE_FORMATS; i++)
    if (g_strcmp0 (key, sheets[i].key) == 0)
      {
        *format = i;
        return TRUE;
      }
  return FALSE;
}

/**
 * cw_page_format_get:
 * @format: a sheet
 * @width: (out): points
 * @height: (out): points
 */
void
cw_page_format_get (CwPageFormat format, double *width, double *height)
{
  g_return_if_fail ((guint) format < CW_N_PAGE_FORMATS);
  *width = sheets[format].width;
  *height = sheets[format].height;
}

/**
 * cw_pages_new:
 *
 * Returns: (transfer full): no pages yet, to be filled before anyone else sees them
 */
CwPages *
cw_pages_new (void)
{
  CwPages *pages = g_atomic_rc_box_new0 (CwPages);

  pages->lists = g_ptr_array_new_with_free_func ((GDestroyNotify) cw_draw_list_free);
  return pages;
}

/**
 * cw_pages_ref:
 *
 * Returns: (transfer full): @pages
 */
CwPages *
cw_pages_ref (CwPages *pages)
{
  g_return_val_if_fail (pages != NULL, NULL);
  return g_atomic_rc_box_acquire (pages);
}

static void
clear_pages (gpointer data)
{
  CwPages *pages = data;

  g_free (pages->title);
  g_free (pages->author);
  g_ptr_array_unref (pages->lists);
  g_clear_pointer (&pages->on_side, g_array_unref);
  g_clear_pointer (&pages->words, g_ptr_array_unref);
}

/**
 * cw_pages_unref:
 * @pages: (transfer full) (nullable): pages
 */
void
cw_pages_unref (CwPages *pages)
{
  if (pages != NULL)
    g_atomic_rc_box_release_full (pages, clear_pages);
}

/**
 * cw_pages_get_on_side:
 * @pages: pages
 * @page: one of them
 *
 * Returns: whether it is to be read with the paper lying on its side
 */
gboolean
cw_pages_get_on_side (const CwPages *pages, guint page)
{
  g_return_val_if_fail (pages != NULL && page < pages->lists->len, FALSE);
  return pages->on_side != NULL && g_array_index (pages->on_side, gboolean, page);
}

/**
 * cw_pages_get_size:
 * @pages: pages
 * @page: one of them
 * @width: (out): points, as it is read
 * @height: (out): points
 */
void
cw_pages_get_size (const CwPages *pages, guint page, double *width, double *height)
{
  gboolean on_side = cw_pages_get_on_side (pages, page);

  *width = on_side ? pages->height : pages->width;
  *height = on_side ? pages->width : pages->height;
}

/**
 * cw_pages_draw_as_read:
 * @pages: pages
 * @page: one of them
 * @cr: where to; its unit is the point
 *
 * Draws it as a reader holds it, on paper of the size cw_pages_get_size() tells.
 */
void
cw_pages_draw_as_read (const CwPages *pages, guint page, cairo_t *cr)
{
  CwPalette palette = cw_palette_paper;

  g_return_if_fail (pages != NULL && page < pages->lists->len && cr != NULL);

  if (pages->line_scale > 0)
    palette.line_scale = pages->line_scale;
  cairo_set_source_rgb (cr, 1, 1, 1);
  cairo_paint (cr);
  cw_draw_play (g_ptr_array_index (pages->lists, page), &palette, cr);
}

/**
 * cw_pages_draw:
 * @pages: pages
 * @page: one of them
 * @cr: where to; its unit is the point
 *
 * Draws it on upright paper, as printers take it: a page that lies on its side is turned by a quarter.
 */
void
cw_pages_draw (const CwPages *pages, guint page, cairo_t *cr)
{
  g_return_if_fail (pages != NULL && page < pages->lists->len && cr != NULL);

  cairo_save (cr);
  if (cw_pages_get_on_side (pages, page))
    {
      cairo_translate (cr, pages->width, 0);
      cairo_rotate (cr, G_PI / 2);
    }
  cw_pages_draw_as_read (pages, page, cr);
  cairo_restore (cr);
}

static cairo_status_t
append_bytes (void *closure, const unsigned char *data, unsigned int length)
{
  g_byte_array_append (closure, data, length);
  return CAIRO_STATUS_SUCCESS;
}

/**
 * cw_pages_write_pdf:
 * @pages: pages
 * @file: where to
 * @error: return location
 *
 * Returns: %FALSE with a #GIOErrorEnum error if the file cannot be written; what was there is then left as it was
 */
gboolean
cw_pages_write_pdf (const CwPages *pages, GFile *file, GError **error)
{
  g_autoptr (GByteArray) bytes = g_byte_array_new ();
  cairo_surface_t *surface;
  cairo_status_t status;
  cairo_t *cr;

  g_return_val_if_fail (pages != NULL && G_IS_FILE (file), FALSE);

  surface = cairo_pdf_surface_create_for_stream (append_bytes, bytes, pages->width, pages->height);
  cairo_pdf_surface_set_metadata (surface, CAIRO_PDF_METADATA_CREATE_DATE, NULL);
  cairo_pdf_surface_set_metadata (surface, CAIRO_PDF_METADATA_TITLE, pages->title);
  if (pages->author != NULL)
    cairo_pdf_surface_set_metadata (surface, CAIRO_PDF_METADATA_AUTHOR, pages->author);
  cairo_pdf_surface_set_metadata (surface, CAIRO_PDF_METADATA_CREATOR, "Creasewright " CW_VERSION);
  cr = cairo_create (surface);
  for (guint i = 0; i < pages->lists->len; i++)
    {
      double width, height;

      cw_pages_get_size (pages, i, &width, &height);
      cairo_pdf_surface_set_size (surface, width, height);
      cw_pages_draw_as_read (pages, i, cr);
      cairo_show_page (cr);
    }
  status = cairo_status (cr);
  cairo_destroy (cr);
  cairo_surface_finish (surface);
  if (status == CAIRO_STATUS_SUCCESS)
    status = cairo_surface_status (surface);
  cairo_surface_destroy (surface);
  if (status != CAIRO_STATUS_SUCCESS)
    {
      g_set_error (error, G_IO_ERROR, G_IO_ERROR_FAILED, _ ("The pages could not be drawn: %s"),
                   cairo_status_to_string (status));
      return FALSE;
    }
  return cw_file_write (file, bytes->data, bytes->len, NULL, error);
}
