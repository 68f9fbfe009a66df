/* cw-draw-write.c: a draw list as a whole picture file.
 *
 * One output unit is one point, 1/72 inch: SVG and PDF come out at true size. The picture is made in memory and the
 * file replaced in one go, so that no half picture is ever left. PDF dates are left out: the same list gives the same
 * file.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include <cairo-pdf.h>
#include <cairo-svg.h>
#include <glib/gi18n-lib.h>
#include <math.h>

#include "cw-draw-play.h"
#include "design/cw-file.h"

/* Image pixels per point: 144 to the inch. */
#define PNG_SCALE 2.0

static cairo_status_t
append_bytes (void *closure, const unsigned char *data, unsigned int length)
{
  g_byte_array_append (closure, data, length);
  return CAIRO_STATUS_SUCCESS;
}

/**
 * cw_draw_write:
 * @list: what to draw
 * @kind: kind of file
 * @width: width of the picture, points
 * @height: height, points
 * @file: where to
 * @error: return location
 *
 * Black on white (%cw_palette_paper).
 *
 * Returns: %FALSE with a #GIOErrorEnum error if the file cannot be written; what was there is then left as it was
 */
gboolean
cw_draw_write (const CwDrawList *list, CwPictureKind kind, double width, double height, GFile *file, GError **error)
{
  g_autoptr (GByteArray) bytes = g_byte_array_new ();
  cairo_surface_t *surface;
  cairo_status_t status;
  cairo_t *cr;

  g_return_val_if_fail (list != NULL && G_IS_FILE (file) && width > 0 && height > 0, FALSE);

  switch (kind)
    {
    case CW_PICTURE_SVG:
      surface = cairo_svg_surface_create_for_stream (append_bytes, bytes, width, height);
      cairo_svg_surface_set_document_unit (surface, CAIRO_SVG_UNIT_PT);
      break;
    case CW_PICTURE_PDF:
      surface = cairo_pdf_surface_create_for_stream (append_bytes, bytes, width, height);
      cairo_pdf_surface_set_metadata (surface, CAIRO_PDF_METADATA_CREATE_DATE, NULL);
      break;
    case CW_PICTURE_PNG:
    default:
      surface = cairo_image_surface_create (CAIRO_FORMAT_RGB24, (int) ceil (width * PNG_SCALE),
                                            (int) ceil (height * PNG_SCALE));
      break;
    }

  cr = cairo_create (surface);
  if (kind == CW_PICTURE_PNG)
    cairo_scale (cr, PNG_SCALE, PNG_SCALE);
  cairo_set_source_rgb (cr, 1, 1, 1);
  cairo_paint (cr);
  cw_draw_play (list, &cw_palette_paper, cr);
  status = cairo_status (cr);
  cairo_destroy (cr);
  if (kind == CW_PICTURE_PNG && status == CAIRO_STATUS_SUCCESS)
    status = cairo_surface_write_to_png_stream (surface, append_bytes, bytes);
  cairo_surface_finish (surface);
  if (status == CAIRO_STATUS_SUCCESS)
    status = cairo_surface_status (surface);
  cairo_surface_destroy (surface);

  if (status != CAIRO_STATUS_SUCCESS)
    {
      g_set_error (error, G_IO_ERROR, G_IO_ERROR_FAILED, _ ("The picture could not be drawn: %s"),
                   cairo_status_to_string (status));
      return FALSE;
    }
  return cw_file_write (file, bytes->data, bytes->len, NULL, error);
}
