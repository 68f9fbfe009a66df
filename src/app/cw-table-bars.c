/* cw-table-bars.c: the tools to hand on the table's edges: small buttons with words and pictures of our own.
 *
 * Above the sheet lie the tools, below it how it lies and which piece it is; above the card where it is looked at from.
 * When there is no room for the words the pictures stay, and the words are tooltips.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "cw-table-private.h"

#include <glib/gi18n-lib.h>

#define EDGE 10

typedef enum
{
  ICON_SELECT,
  ICON_SCORE,
  ICON_CUT,
  ICON_WINDOW,
  ICON_TURN,
  ICON_FLIP,
  ICON_BIGGER,
  ICON_GLUE,
  N_ICONS
} Icon;

/* Pictures drawn in the colour of the text, on a 20 x 20 field: what each tool does to a bit of paper. */
static void
draw_icon (GtkDrawingArea *area, cairo_t *cr, int width, int height, gpointer data)
{
  static const double score_dashes[] = { 3.2, 2 };
  GdkRGBA ink;

  gtk_style_context_get_color (gtk_widget_get_style_context (GTK_WIDGET (area)), &ink);
  gdk_cairo_set_source_rgba (cr, &ink);
  cairo_translate (cr, (width - 20) / 2.0, (height - 20) / 2.0);
  cairo_set_line_width (cr, 1.5);
  cairo_set_line_join (cr, CAIRO_LINE_JOIN_ROUND);
  cairo_set_line_cap (cr, CAIRO_LINE_CAP_ROUND);
  switch ((Icon) GPOINTER_TO_UINT (data))
    {
    case ICON_SELECT: /* a fingertip on a line */
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
    case ICON_SCORE: /* paper with a pressed line across it, dipping in the middle */
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
    case ICON_CUT: /* paper with a slit that gapes */
      cairo_rectangle (cr, 2.5, 3.5, 15, 13);
      cairo_stroke (cr);
      cairo_move_to (cr, 10, 17.5);
      cairo_line_to (cr, 8.6, 8.5);
      cairo_line_to (cr, 10, 7);
      cairo_line_to (cr, 11.4, 8.5);
      cairo_close_path (cr);
      cairo_fill_preserve (cr);
      break;
    case ICON_WINDOW: /* paper with a hole */
      cairo_rectangle (cr, 2.5, 3.5, 15, 13);
      cairo_stroke (cr);
      cairo_rectangle (cr, 7, 7.5, 6, 5);
      cairo_fill (cr);
      break;
    case ICON_TURN: /* a sheet and a quarter arc */
      cairo_rectangle (cr, 3, 9, 9, 8);
      cairo_stroke (cr);
      cairo_arc (cr, 9, 10, 7, -G_PI / 2, -0.1);
      cairo_stroke (cr);
      cairo_move_to (cr, 13.5, 8.2);
      cairo_line_to (cr, 16, 11);
      cairo_line_to (cr, 18.3, 8);
      break;
    case ICON_FLIP: /* a page being turned over */
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
    case ICON_BIGGER: /* a small sheet in a large one */
      cairo_rectangle (cr, 2.5, 3, 15, 14);
      cairo_stroke (cr);
      cairo_rectangle (cr, 2.5, 10, 7, 7);
      cairo_fill (cr);
      break;
    case ICON_GLUE: /* a sheet, half of it dotted and half of it crossed out */
      cairo_rectangle (cr, 2.5, 3.5, 15, 13);
      cairo_stroke (cr);
      for (int i = 0; i < 4; i++)
        cairo_arc (cr, 5.5 + 3 * (i % 2), 7.5 + 5 * (i / 2), 0.5, 0, 2 * G_PI), cairo_new_sub_path (cr);
      cairo_stroke (cr);
      for (int i = 0; i < 3; i++)
        {
          cairo_move_to (cr, 11, 6 + 4 * i);
          cairo_line_to (cr, 17, 4 + 5 * i);
          cairo_move_to (cr, 11, 4 + 5 * i);
          cairo_line_to (cr, 17, 6 + 4 * i);
        }
      break;
    case N_ICONS:
    default:
      break;
    }
  cairo_stroke (cr);
}

static GtkWidget *
make_button (gboolean toggle, Icon icon, const char *words, const char *tooltip, const char *action)
{
  GtkWidget *button = toggle ? gtk_toggle_button_new () : gtk_button_new ();
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 6), *label;

  if (icon != N_ICONS)
    {
      GtkWidget *picture
        = g_object_new (GTK_TYPE_DRAWING_AREA, "accessible-role", GTK_ACCESSIBLE_ROLE_PRESENTATION, NULL);

      gtk_drawing_area_set_content_width (GTK_DRAWING_AREA (picture), 20);
      gtk_drawing_area_set_content_height (GTK_DRAWING_AREA (picture), 20);
      gtk_drawing_area_set_draw_func (GTK_DRAWING_AREA (picture), draw_icon, GUINT_TO_POINTER (icon), NULL);
      gtk_box_append (GTK_BOX (box), picture);
    }
  label = gtk_label_new (words);
  gtk_box_append (GTK_BOX (box), label);
  gtk_widget_set_halign (box, GTK_ALIGN_CENTER);
  gtk_button_set_child (GTK_BUTTON (button), box);
  gtk_widget_set_tooltip_text (button, tooltip);
  gtk_widget_set_focus_on_click (button, FALSE);
  gtk_accessible_update_property (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_PROPERTY_LABEL, words, -1);
  gtk_actionable_set_detailed_action_name (GTK_ACTIONABLE (button), action);
  return button;
}

static GtkWidget *
make_bar (CwTable *self, const char *label)
{
  GtkWidget *bar = g_object_new (GTK_TYPE_BOX, "orientation", GTK_ORIENTATION_HORIZONTAL, "spacing", 4,
                                 "accessible-role", GTK_ACCESSIBLE_ROLE_TOOLBAR, NULL);

  gtk_widget_add_css_class (bar, "table-bar");
  gtk_accessible_update_property (GTK_ACCESSIBLE (bar), GTK_ACCESSIBLE_PROPERTY_LABEL, label, -1);
  gtk_widget_set_parent (bar, GTK_WIDGET (self));
  return bar;
}

static void
add (GtkWidget *bar, gboolean toggle, Icon icon, const char *words, const char *tooltip, const char *action)
{
  gtk_box_append (GTK_BOX (bar), make_button (toggle, icon, words, tooltip, action));
}

static void
add_offer (CwTable *self)
{
  GtkWidget *button;

  self->offer = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 0);
  gtk_widget_add_css_class (self->offer, "linked");
  button = gtk_button_new_with_label (_ ("This corner can flip: score it"));
  gtk_widget_add_css_class (button, "suggested-action");
  gtk_actionable_set_action_name (GTK_ACTIONABLE (button), "table.accept-offer");
  gtk_box_append (GTK_BOX (self->offer), button);
  button = gtk_button_new_with_label (_ ("No"));
  gtk_widget_set_tooltip_text (button, _ ("Leave the corner as it is"));
  gtk_actionable_set_action_name (GTK_ACTIONABLE (button), "table.refuse-offer");
  gtk_box_append (GTK_BOX (self->offer), button);
  gtk_widget_set_parent (self->offer, GTK_WIDGET (self));
  gtk_widget_set_visible (self->offer, FALSE);
}

void
cw_table_add_bars (CwTable *self)
{
  self->tool_bar = make_bar (self, _ ("Tools"));
  add (self->tool_bar, TRUE, ICON_SELECT, _ ("Select"), _ ("Select and move what is drawn (Esc)"),
       "table.tool::select");
  add (self->tool_bar, TRUE, ICON_SCORE, _ ("Score"), _ ("Draw a line to fold at (S)"), "table.tool::score");
  add (self->tool_bar, TRUE, ICON_CUT, _ ("Cut"), _ ("Draw a line to cut through, with corners if you click on (C)"),
       "table.tool::cut");
  add (self->tool_bar, TRUE, ICON_WINDOW, _ ("Window"), _ ("Draw an opening whose inside falls out (W)"),
       "table.tool::window");

  self->look_bar = make_bar (self, _ ("Look at the card from"));
  add (self->look_bar, FALSE, N_ICONS, _ ("Front"), _ ("The closed card from the front"), "table.look::front");
  add (self->look_bar, FALSE, N_ICONS, _ ("Back"), _ ("The closed card from the back"), "table.look::back");
  add (self->look_bar, FALSE, N_ICONS, _ ("Inside"), _ ("The open card"), "table.look::inside");
  add (self->look_bar, FALSE, N_ICONS, _ ("From my chair"), _ ("As it stands on the table before you"),
       "table.look::table");

  self->sheet_bar = make_bar (self, _ ("How the sheet lies"));
  self->piece_bar = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 0);
  gtk_widget_add_css_class (self->piece_bar, "linked");
  self->piece_window = gtk_scrolled_window_new ();
  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (self->piece_window), GTK_POLICY_EXTERNAL, GTK_POLICY_NEVER);
  gtk_scrolled_window_set_propagate_natural_width (GTK_SCROLLED_WINDOW (self->piece_window), TRUE);
  gtk_widget_set_focusable (self->piece_window, FALSE);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (self->piece_window), self->piece_bar);
  gtk_box_append (GTK_BOX (self->sheet_bar), self->piece_window);
  add (self->sheet_bar, FALSE, ICON_TURN, _ ("Turn"), _ ("Turn the sheet a quarter (R)"), "table.turn");
  add (self->sheet_bar, FALSE, ICON_FLIP, _ ("Other side up"), _ ("Turn the sheet over (O)"), "table.flip");
  add (self->sheet_bar, FALSE, ICON_BIGGER, _ ("Bigger"), _ ("Make the sheet bigger, or both the same again"),
       "table.bigger::sheet");

  add (self->look_bar, TRUE, ICON_GLUE, _ ("Glue map"), _ ("Shade where glue may go and where it never may (M)"),
       "table.glue-map");
  add (self->look_bar, FALSE, ICON_BIGGER, _ ("Bigger"), _ ("Make the card bigger, or both the same again"),
       "table.bigger::card");
  cw_table_add_glue_legend (self);
  add_offer (self);
}

/* One tab for each piece when there is more than one. They stay as long as the names do, and with them the focus. */
void
cw_table_update_pieces (CwTable *self)
{
  GtkWidget *child;
  GPtrArray *pieces = self->document ? cw_document_get_design (self->document)->pieces : NULL;
  g_autoptr (GString) names = g_string_new (NULL);

  for (guint i = 0; pieces != NULL && i < pieces->len; i++)
    {
      const CwPiece *piece = g_ptr_array_index (pieces, i);

      g_string_append_printf (names, "%s\n", piece->name ? piece->name : piece->id);
    }
  if (g_strcmp0 (names->str, self->piece_names) == 0)
    return;
  g_free (self->piece_names);
  self->piece_names = g_strdup (names->str);
  while ((child = gtk_widget_get_first_child (self->piece_bar)) != NULL)
    gtk_box_remove (GTK_BOX (self->piece_bar), child);
  gtk_widget_set_visible (self->piece_window, pieces != NULL && pieces->len > 1);
  for (guint i = 0; pieces != NULL && pieces->len > 1 && i < pieces->len; i++)
    {
      const CwPiece *piece = g_ptr_array_index (pieces, i);
      g_autofree char *action = g_strdup_printf ("table.piece(%u)", i);
      const char *name = piece->name ? piece->name : piece->id;
      GtkWidget *button = make_button (TRUE, N_ICONS, name, _ ("Lay this piece on the table"), action);

      gtk_box_append (GTK_BOX (self->piece_bar), button);
    }
}

static void
place (GtkWidget *bar, int x, int y, int width, int height)
{
  gtk_widget_size_allocate (bar, &(GtkAllocation){ x, y, width, height }, -1);
}

/* Words go when the bar is wider than its part of the table. */
static void
fit_words (GtkWidget *bar, int room)
{
  int full = GPOINTER_TO_INT (g_object_get_data (G_OBJECT (bar), "cw-full-width")), width;
  gboolean words = TRUE;

  gtk_widget_measure (bar, GTK_ORIENTATION_HORIZONTAL, -1, NULL, &width, NULL, NULL);
  words = !gtk_widget_has_css_class (bar, "table-bar-short");
  if (words)
    full = width;
  g_object_set_data (G_OBJECT (bar), "cw-full-width", GINT_TO_POINTER (full));
  if (words == (full <= room))
    return;
  for (GtkWidget *button = gtk_widget_get_first_child (bar); button != NULL;
       button = gtk_widget_get_next_sibling (button))
    {
      GtkWidget *box = GTK_IS_BUTTON (button) ? gtk_button_get_child (GTK_BUTTON (button)) : NULL;

      if (box != NULL && GTK_IS_DRAWING_AREA (gtk_widget_get_first_child (box)))
        gtk_widget_set_visible (gtk_widget_get_last_child (box), !words);
    }
  if (words)
    gtk_widget_add_css_class (bar, "table-bar-short");
  else
    gtk_widget_remove_css_class (bar, "table-bar-short");
}

static int
bar_size (GtkWidget *bar, GtkOrientation orientation)
{
  int natural;

  gtk_widget_measure (bar, orientation, -1, NULL, &natural, NULL, NULL);
  return natural;
}

/* Gives the bars their rows on the edges of the two areas, and takes the rows off the areas. */
void
cw_table_place_bars (CwTable *self)
{
  GdkRectangle *s = &self->sheet_area, *c = &self->card_area;
  int width, height, row;
  double box[4];

  fit_words (self->tool_bar, s->width - 2 * EDGE);
  fit_words (self->sheet_bar, s->width - 2 * EDGE);
  fit_words (self->look_bar, c->width - 2 * EDGE);

  row = bar_size (self->tool_bar, GTK_ORIENTATION_VERTICAL);
  place (self->tool_bar, s->x + EDGE, s->y + EDGE,
         MIN (bar_size (self->tool_bar, GTK_ORIENTATION_HORIZONTAL), s->width), row);
  s->y += row + EDGE;
  s->height -= row + EDGE;
  row = bar_size (self->sheet_bar, GTK_ORIENTATION_VERTICAL);
  place (self->sheet_bar, s->x + EDGE, s->y + s->height - row - EDGE,
         MIN (bar_size (self->sheet_bar, GTK_ORIENTATION_HORIZONTAL), s->width), row);
  s->height -= row + EDGE;

  row = bar_size (self->look_bar, GTK_ORIENTATION_VERTICAL);
  width = MIN (bar_size (self->look_bar, GTK_ORIENTATION_HORIZONTAL), c->width);
  place (self->look_bar, c->x + MAX (0, c->width - width - EDGE), c->y + EDGE, width, row);
  c->y += row + EDGE;
  c->height -= row + EDGE;

  if (gtk_widget_get_visible (self->glue_legend))
    {
      width = MAX (1, c->width - 2 * EDGE);
      gtk_widget_measure (self->glue_legend, GTK_ORIENTATION_VERTICAL, width, NULL, &row, NULL, NULL);
      place (self->glue_legend, c->x + EDGE, c->y + c->height - row - EDGE, width, row);
      c->height -= row + EDGE;
    }
  if (gtk_widget_get_visible (self->offer) && self->offered != NULL && cw_table_is_ready (self))
    {
      cw_hand_mark_box (&self->view, cw_table_get_map (self), self->offered->mark, box);
      width = bar_size (self->offer, GTK_ORIENTATION_HORIZONTAL);
      height = bar_size (self->offer, GTK_ORIENTATION_VERTICAL);
      place (self->offer, CLAMP ((int) ((box[0] + box[2] - width) / 2), s->x, MAX (s->x, s->x + s->width - width)),
             CLAMP ((int) box[3] + 36, s->y, MAX (s->y, s->y + s->height - height)), width, height);
    }
}
