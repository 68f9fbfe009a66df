/* cw-icon.c: pictures on the table's buttons, drawn in the colour of their text: what each does to a bit of paper.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-icon.h"

static void
dot (cairo_t *cr, double x, double y)
{
  cairo_arc (cr, x, y, 1.9, 0, 2 * G_PI);
  cairo_fill (cr);
}

/* On a field of 20 x 20. */
static void
draw (GtkDrawingArea *area, cairo_t *cr, int width, int height, gpointer data)
{
  static const double score_dashes[] = { 3.2, 2 };
  GdkRGBA ink;

  gtk_style_context_get_color (gtk_widget_get_style_context (GTK_WIDGET (area)), &ink);
  gdk_cairo_set_source_rgba (cr, &ink);
  cairo_translate (cr, (width - 20) / 2.0, (height - 20) / 2.0);
  cairo_set_line_width (cr, 1.5);
  cairo_set_line_join (cr, CAIRO_LINE_JOIN_ROUND);
  cairo_set_line_cap (cr, CAIRO_LINE_CAP_ROUND);
  switch ((CwIcon) GPOINTER_TO_UINT (data))
    {
    case CW_ICON_SELECT: /* a fingertip on a line */
      cairo_move_to (cr, 3, 5);
      cairo_line_to (cr, 17, 5);
      cairo_stroke (cr);
      cairo_move_to (cr, 7.5, 18);
      cairo_line_to (cr, 7.5, 10.5);
      cairo_arc (cr, 10, 10.5, 2.5, G_PI, 0);
      cairo_line_to (cr, 12.5, 18);
      cairo_stroke (cr);
      cairo_move_to (cr, 8.8, 11.2);
      cairo_line_to (cr, 11.2, 11.2);
      break;
    case CW_ICON_SCORE: /* paper with a pressed line across it, dipping in the middle */
      cairo_move_to (cr, 2.5, 4);
      cairo_line_to (cr, 10, 6.5);
      cairo_line_to (cr, 17.5, 4);
      cairo_line_to (cr, 17.5, 14.5);
      cairo_line_to (cr, 10, 17);
      cairo_line_to (cr, 2.5, 14.5);
      cairo_close_path (cr);
      cairo_stroke (cr);
      cairo_set_dash (cr, score_dashes, 2, 0);
      cairo_move_to (cr, 10, 7.5);
      cairo_line_to (cr, 10, 16);
      break;
    case CW_ICON_CUT: /* paper with a slit that gapes */
      cairo_rectangle (cr, 2.5, 3.5, 15, 13);
      cairo_stroke (cr);
      cairo_move_to (cr, 10, 17.5);
      cairo_line_to (cr, 8.6, 8.5);
      cairo_line_to (cr, 10, 7);
      cairo_line_to (cr, 11.4, 8.5);
      cairo_close_path (cr);
      cairo_fill_preserve (cr);
      break;
    case CW_ICON_WINDOW: /* paper with a hole */
      cairo_rectangle (cr, 2.5, 3.5, 15, 13);
      cairo_stroke (cr);
      cairo_rectangle (cr, 7, 7.5, 6, 5);
      cairo_fill (cr);
      break;
    case CW_ICON_LAYER: /* one sheet over another, seen from the side */
      cairo_move_to (cr, 2.5, 13);
      cairo_line_to (cr, 8, 17.5);
      cairo_line_to (cr, 17.5, 13);
      cairo_line_to (cr, 12, 9);
      cairo_close_path (cr);
      cairo_stroke (cr);
      cairo_move_to (cr, 4.5, 7);
      cairo_line_to (cr, 8.5, 10.5);
      cairo_line_to (cr, 15.5, 7);
      cairo_line_to (cr, 11.5, 3.5);
      cairo_close_path (cr);
      cairo_fill_preserve (cr);
      break;
    case CW_ICON_GLUE: /* paper with dots, as glue is drawn */
      cairo_rectangle (cr, 2.5, 3.5, 15, 13);
      cairo_stroke (cr);
      for (int i = 0; i < 9; i++)
        {
          cairo_arc (cr, 6 + 4 * (i % 3), 6.5 + 3.5 * (i / 3), 1.1, 0, 2 * G_PI);
          cairo_fill (cr);
        }
      break;
    case CW_ICON_PICTURE: /* a place with its up-arrow */
      cairo_rectangle (cr, 2.5, 2.5, 15, 15);
      cairo_stroke (cr);
      cairo_move_to (cr, 10, 14.5);
      cairo_line_to (cr, 10, 5.5);
      cairo_move_to (cr, 6.8, 8.7);
      cairo_line_to (cr, 10, 5.5);
      cairo_line_to (cr, 13.2, 8.7);
      break;
    case CW_ICON_NAME: /* a label on a thread */
      cairo_move_to (cr, 8, 4.5);
      cairo_line_to (cr, 18, 4.5);
      cairo_line_to (cr, 18, 15.5);
      cairo_line_to (cr, 8, 15.5);
      cairo_line_to (cr, 3.5, 10);
      cairo_close_path (cr);
      cairo_stroke (cr);
      cairo_move_to (cr, 10, 8.5);
      cairo_line_to (cr, 15.5, 8.5);
      cairo_move_to (cr, 10, 11.8);
      cairo_line_to (cr, 14, 11.8);
      break;
    case CW_ICON_STRAIGHT:
      cairo_move_to (cr, 4, 16);
      cairo_line_to (cr, 16, 4);
      cairo_stroke (cr);
      dot (cr, 4, 16);
      dot (cr, 16, 4);
      break;
    case CW_ICON_ARC:
      cairo_arc (cr, 10, 14.5, 7, G_PI, 2 * G_PI);
      cairo_stroke (cr);
      dot (cr, 3, 14.5);
      dot (cr, 17, 14.5);
      break;
    case CW_ICON_PANEL: /* a folded sheet, one half of it meant */
      cairo_rectangle (cr, 2.5, 4, 15, 12);
      cairo_stroke (cr);
      cairo_rectangle (cr, 4.5, 6, 5, 8);
      cairo_fill (cr);
      cairo_set_dash (cr, score_dashes, 2, 0);
      cairo_move_to (cr, 11, 4.5);
      cairo_line_to (cr, 11, 15.5);
      break;
    case CW_ICON_BOX:
      cairo_rectangle (cr, 3.5, 5, 13, 10);
      cairo_stroke (cr);
      dot (cr, 3.5, 5);
      dot (cr, 16.5, 15);
      break;
    case CW_ICON_ROUND:
      cairo_arc (cr, 10, 10, 7, 0, 2 * G_PI);
      cairo_stroke (cr);
      dot (cr, 10, 10);
      break;
    case CW_ICON_CORNERS:
      cairo_move_to (cr, 4, 8);
      cairo_line_to (cr, 11, 3.5);
      cairo_line_to (cr, 16.5, 9);
      cairo_line_to (cr, 13.5, 16);
      cairo_line_to (cr, 5.5, 16);
      cairo_close_path (cr);
      cairo_stroke (cr);
      dot (cr, 4, 8);
      dot (cr, 11, 3.5);
      dot (cr, 16.5, 9);
      dot (cr, 13.5, 16);
      dot (cr, 5.5, 16);
      break;
    case CW_ICON_TURN: /* a sheet and a quarter arc */
      cairo_rectangle (cr, 3, 9, 9, 8);
      cairo_stroke (cr);
      cairo_arc (cr, 9, 10, 7, -G_PI / 2, -0.1);
      cairo_stroke (cr);
      cairo_move_to (cr, 13.5, 8.2);
      cairo_line_to (cr, 16, 11);
      cairo_line_to (cr, 18.3, 8);
      break;
    case CW_ICON_FLIP: /* a page being turned over */
      cairo_move_to (cr, 3, 4);
      cairo_line_to (cr, 10, 4);
      cairo_line_to (cr, 10, 16);
      cairo_line_to (cr, 3, 16);
      cairo_close_path (cr);
      cairo_stroke (cr);
      cairo_move_to (cr, 10, 4);
      cairo_line_to (cr, 16, 1.8);
      cairo_line_to (cr, 16, 13.8);
      cairo_line_to (cr, 10, 16);
      cairo_close_path (cr);
      cairo_fill_preserve (cr);
      break;
    case CW_ICON_BIGGER: /* a small sheet in a large one */
      cairo_rectangle (cr, 2.5, 3, 15, 14);
      cairo_stroke (cr);
      cairo_rectangle (cr, 2.5, 10, 7, 7);
      cairo_fill (cr);
      break;
    case CW_ICON_GLUE_MAP: /* a sheet, half of it dotted and half of it crossed out */
      cairo_rectangle (cr, 2.5, 3.5, 15, 13);
      cairo_stroke (cr);
      for (int i = 0; i < 4; i++)
        {
          cairo_arc (cr, 5.5 + 3 * (i % 2), 7.5 + 5 * (i / 2), 0.9, 0, 2 * G_PI);
          cairo_fill (cr);
        }
      for (int i = 0; i < 3; i++)
        {
          cairo_move_to (cr, 11, 6 + 4 * i);
          cairo_line_to (cr, 17, 4 + 5 * i);
          cairo_move_to (cr, 11, 4 + 5 * i);
          cairo_line_to (cr, 17, 6 + 4 * i);
        }
      break;
    case CW_N_ICONS:
    default:
      break;
    }
  cairo_stroke (cr);
}

/**
 * cw_icon_new:
 * @icon: which picture
 *
 * Returns: (transfer floating): the picture as a widget that says nothing to a screen reader
 */
GtkWidget *
cw_icon_new (CwIcon icon)
{
  GtkWidget *picture = g_object_new (GTK_TYPE_DRAWING_AREA, "accessible-role", GTK_ACCESSIBLE_ROLE_PRESENTATION, NULL);

  gtk_drawing_area_set_content_width (GTK_DRAWING_AREA (picture), 20);
  gtk_drawing_area_set_content_height (GTK_DRAWING_AREA (picture), 20);
  gtk_drawing_area_set_draw_func (GTK_DRAWING_AREA (picture), draw, GUINT_TO_POINTER (icon), NULL);
  return picture;
}
