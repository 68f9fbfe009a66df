/* cw-icon.c: pictures on the table's buttons, drawn in the colour of their text: what each does to a bit of paper.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-icon.h"

#include <string.h>

/* Each on a field of 20 x 20, in letters and numbers: M, L and Z are a move, a line and back to the start; R is a
 * rectangle (left, top, width, height), A an arc (middle, radius, from, to in degrees clockwise from the right), O a
 * filled circle (middle, radius); S strokes what there is, F fills it, B does both, D goes on in dashes. What is left
 * at the end is stroked. */
static const char *const pictures[CW_N_ICONS] = {
  /* a fingertip on a line */
  [CW_ICON_SELECT] = "M3 5 L17 5 M7.5 18 L7.5 10.5 A10 10.5 2.5 180 360 L12.5 18 M8.8 11.2 L11.2 11.2",
  /* paper with a pressed line across it, dipping in the middle */
  [CW_ICON_SCORE] = "M2.5 4 L10 6.5 L17.5 4 L17.5 14.5 L10 17 L2.5 14.5 Z S D M10 7.5 L10 16",
  /* paper with a slit that gapes */
  [CW_ICON_CUT] = "R2.5 3.5 15 13 S M10 17.5 L8.6 8.5 L10 7 L11.4 8.5 Z B",
  /* paper with a hole */
  [CW_ICON_WINDOW] = "R2.5 3.5 15 13 S R7 7.5 6 5 F",
  /* one sheet over another, seen from the side */
  [CW_ICON_LAYER] = "M2.5 13 L8 17.5 L17.5 13 L12 9 Z S M4.5 7 L8.5 10.5 L15.5 7 L11.5 3.5 Z B",
  /* paper with dots, as glue is drawn */
  [CW_ICON_GLUE] = "R2.5 3.5 15 13 S O6 6.5 1.1 O10 6.5 1.1 O14 6.5 1.1 O6 10 1.1 O10 10 1.1 O14 10 1.1 O6 13.5 1.1 "
                   "O10 13.5 1.1 O14 13.5 1.1",
  /* a place with its up-arrow */
  [CW_ICON_PICTURE] = "R2.5 2.5 15 15 M10 14.5 L10 5.5 M6.8 8.7 L10 5.5 L13.2 8.7",
  /* a label on a thread */
  [CW_ICON_NAME] = "M8 4.5 L18 4.5 L18 15.5 L8 15.5 L3.5 10 Z M10 8.5 L15.5 8.5 M10 11.8 L14 11.8",
  [CW_ICON_STRAIGHT] = "M4 16 L16 4 S O4 16 1.9 O16 4 1.9",
  [CW_ICON_ARC] = "A10 14.5 7 180 360 S O3 14.5 1.9 O17 14.5 1.9",
  /* a folded sheet, one half of it meant */
  [CW_ICON_PANEL] = "R2.5 4 15 12 S R4.5 6 5 8 F D M11 4.5 L11 15.5",
  [CW_ICON_BOX] = "R3.5 5 13 10 S O3.5 5 1.9 O16.5 15 1.9",
  [CW_ICON_ROUND] = "A10 10 7 0 360 S O10 10 1.9",
  [CW_ICON_CORNERS]
  = "M4 8 L11 3.5 L16.5 9 L13.5 16 L5.5 16 Z S O4 8 1.9 O11 3.5 1.9 O16.5 9 1.9 O13.5 16 1.9 O5.5 16 1.9",
  /* a sheet and a quarter arc */
  [CW_ICON_TURN] = "R3 9 9 8 S A9 10 7 270 354 S M13.5 8.2 L16 11 L18.3 8",
  /* a page being turned over */
  [CW_ICON_FLIP] = "M3 4 L10 4 L10 16 L3 16 Z S M10 4 L16 1.8 L16 13.8 L10 16 Z B",
  /* a small sheet in a large one */
  [CW_ICON_BIGGER] = "R2.5 3 15 14 S R2.5 10 7 7 F",
  /* a sheet, half of it dotted and half of it crossed out */
  [CW_ICON_GLUE_MAP] = "R2.5 3.5 15 13 S O5.5 7.5 0.9 O8.5 7.5 0.9 O5.5 12.5 0.9 O8.5 12.5 0.9 M11 6 L17 4 M11 4 L17 6 "
                       "M11 10 L17 9 M11 9 L17 10 M11 14 L17 14",
};

/* One letter of a picture with its numbers; returns what follows. */
static const char *
draw_letter (cairo_t *cr, const char *text)
{
  static const double dashes[] = { 3.2, 2 };
  char letter = *text++;
  double n[5] = { 0 };
  char *end = NULL;

  for (guint i = 0; i < G_N_ELEMENTS (n); i++, text = end)
    {
      n[i] = g_ascii_strtod (text, &end);
      if (end == text)
        break;
    }
  switch (letter)
    {
    case 'M':
      cairo_move_to (cr, n[0], n[1]);
      break;
    case 'L':
      cairo_line_to (cr, n[0], n[1]);
      break;
    case 'Z':
      cairo_close_path (cr);
      break;
    case 'R':
      cairo_rectangle (cr, n[0], n[1], n[2], n[3]);
      break;
    case 'A':
      cairo_arc (cr, n[0], n[1], n[2], n[3] * G_PI / 180, n[4] * G_PI / 180);
      break;
    case 'O':
      cairo_arc (cr, n[0], n[1], n[2], 0, 2 * G_PI);
      cairo_fill (cr);
      break;
    case 'S':
      cairo_stroke (cr);
      break;
    case 'F':
      cairo_fill (cr);
      break;
    case 'B':
      cairo_fill_preserve (cr);
      cairo_stroke (cr);
      break;
    case 'D':
      cairo_set_dash (cr, dashes, G_N_ELEMENTS (dashes), 0);
      break;
    default:
      g_assert_not_reached ();
    }
  return text;
}

static void
draw (GtkDrawingArea *area, cairo_t *cr, int width, int height, gpointer data)
{
  GdkRGBA ink;

  gtk_style_context_get_color (gtk_widget_get_style_context (GTK_WIDGET (area)), &ink);
  gdk_cairo_set_source_rgba (cr, &ink);
  cairo_translate (cr, (width - 20) / 2.0, (height - 20) / 2.0);
  cairo_set_line_width (cr, 1.5);
  cairo_set_line_join (cr, CAIRO_LINE_JOIN_ROUND);
  cairo_set_line_cap (cr, CAIRO_LINE_CAP_ROUND);
  for (const char *text = pictures[GPOINTER_TO_UINT (data)]; *text != '\0'; text += strspn (text, " "))
    text = draw_letter (cr, text);
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
