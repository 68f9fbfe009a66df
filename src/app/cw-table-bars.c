/* cw-table-bars.c: the tools to hand on the table's edges: small buttons with words and pictures of our own.
 *
 * Along the far edge lie the tools and the forms they draw; along the near edge how the sheet lies, which piece it is,
 * and where the card is looked at from. When there is no room for the words the pictures stay, and the words are
 * tooltips.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "cw-icon.h"
#include "cw-table-private.h"

#include <glib/gi18n-lib.h>

#define EDGE 10
/* Kept free for the forms, of which a tool has four at most, so that the tools look the same whichever is at hand. */
#define FORMS_WIDTH (4 * 46)

static GtkWidget *
make_button (gboolean toggle, CwIcon icon, const char *words, const char *tooltip, const char *action)
{
  GtkWidget *button = toggle ? gtk_toggle_button_new () : gtk_button_new ();
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 6), *label;

  if (icon != CW_N_ICONS)
    gtk_box_append (GTK_BOX (box), cw_icon_new (icon));
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
add (GtkWidget *bar, gboolean toggle, CwIcon icon, const char *words, const char *tooltip, const char *action)
{
  gtk_box_append (GTK_BOX (bar), make_button (toggle, icon, words, tooltip, action));
}

/* The forms of the tool at hand, beside the tools. */
static void
add_forms (CwTable *self)
{
  static const struct
  {
    const char *words, *tooltip;
    CwIcon icon;
  } forms[CW_N_FORMS] = {
    [CW_FORM_STRAIGHT] = { N_ ("Straight"), N_ ("Straight lines (the key “.” goes to the next)"), CW_ICON_STRAIGHT },
    [CW_FORM_ARC]
    = { N_ ("Arc"), N_ ("An arc: both ends, then how high it rises (the key “.” goes to the next)"), CW_ICON_ARC },
    [CW_FORM_PANEL]
    = { N_ ("Whole panel"), N_ ("As large as the panel, less a rim all round (the key “.” goes to the next)"),
        CW_ICON_PANEL },
    [CW_FORM_BOX]
    = { N_ ("Square corners"), N_ ("A rectangle, from corner to corner (the key “.” goes to the next)"), CW_ICON_BOX },
    [CW_FORM_ROUND]
    = { N_ ("Round"), N_ ("A circle, from the middle to the edge (the key “.” goes to the next)"), CW_ICON_ROUND },
    [CW_FORM_CORNERS]
    = { N_ ("Any shape"), N_ ("A shape, corner by corner (the key “.” goes to the next)"), CW_ICON_CORNERS },
  };

  self->form_bar = make_bar (self, _ ("What the tool draws"));
  gtk_widget_add_css_class (self->form_bar, "table-bar-short");
  for (CwForm form = 0; form < CW_N_FORMS; form++)
    {
      g_autofree char *action = g_strdup_printf ("table.form::%s", cw_form_get_name (form));

      self->forms_buttons[form]
        = make_button (TRUE, forms[form].icon, _ (forms[form].words), _ (forms[form].tooltip), action);
      gtk_widget_set_visible (gtk_widget_get_last_child (gtk_button_get_child (GTK_BUTTON (self->forms_buttons[form]))),
                              FALSE);
      gtk_box_append (GTK_BOX (self->form_bar), self->forms_buttons[form]);
    }
  cw_table_show_forms (self);
}

/* Shows those forms that the tool at hand has. */
void
cw_table_show_forms (CwTable *self)
{
  if (self->form_bar == NULL)
    return;
  for (CwForm form = 0; form < CW_N_FORMS; form++)
    gtk_widget_set_visible (self->forms_buttons[form], cw_tool_has_form (self->tool, form));
  gtk_widget_set_visible (self->form_bar, cw_tool_count_forms (self->tool) > 1);
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
  add (self->tool_bar, TRUE, CW_ICON_SELECT, _ ("Select"), _ ("Select and move what is drawn (Esc)"),
       "table.tool::select");
  add (self->tool_bar, TRUE, CW_ICON_SCORE, _ ("Score"), _ ("Draw a line to fold at (S)"), "table.tool::score");
  add (self->tool_bar, TRUE, CW_ICON_CUT, _ ("Cut"), _ ("Draw a line to cut through, with corners if you click on (C)"),
       "table.tool::cut");
  add (self->tool_bar, TRUE, CW_ICON_WINDOW, _ ("Window"), _ ("Draw an opening whose inside falls out (W)"),
       "table.tool::window");
  add (self->tool_bar, TRUE, CW_ICON_LAYER, _ ("Layer"), _ ("Lay another piece of paper on a panel (L)"),
       "table.tool::layer");
  add (self->tool_bar, TRUE, CW_ICON_GLUE, _ ("Glue"), _ ("Draw where glue goes on the side that is up (G)"),
       "table.tool::glue");
  add (self->tool_bar, TRUE, CW_ICON_PICTURE, _ ("Picture"), _ ("Mark a place for a picture or greeting (P)"),
       "table.tool::picture");
  add (self->tool_bar, TRUE, CW_ICON_NAME, _ ("Name"), _ ("Give a panel a name (N)"), "table.tool::name");
  add_forms (self);

  self->look_bar = make_bar (self, _ ("Look at the card from"));
  add (self->look_bar, FALSE, CW_N_ICONS, _ ("Front"), _ ("The closed card from the front"), "table.look::front");
  add (self->look_bar, FALSE, CW_N_ICONS, _ ("Back"), _ ("The closed card from the back"), "table.look::back");
  add (self->look_bar, FALSE, CW_N_ICONS, _ ("Inside"), _ ("The open card"), "table.look::inside");
  add (self->look_bar, FALSE, CW_N_ICONS, _ ("From my chair"), _ ("As it stands on the table before you"),
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
  add (self->sheet_bar, FALSE, CW_ICON_TURN, _ ("Turn"), _ ("Turn the sheet a quarter (R)"), "table.turn");
  add (self->sheet_bar, FALSE, CW_ICON_FLIP, _ ("Other side up"), _ ("Turn the sheet over (O)"), "table.flip");
  add (self->sheet_bar, FALSE, CW_ICON_BIGGER, _ ("Bigger"), _ ("Make the sheet bigger, or both the same again"),
       "table.bigger::sheet");

  add (self->look_bar, TRUE, CW_ICON_GLUE_MAP, _ ("Glue map"), _ ("Shade where glue may go and where it never may (M)"),
       "table.glue-map");
  add (self->look_bar, FALSE, CW_ICON_BIGGER, _ ("Bigger"), _ ("Make the card bigger, or both the same again"),
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
      GtkWidget *button = make_button (TRUE, CW_N_ICONS, name, _ ("Lay this piece on the table"), action);

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

/* Tools and forms, over the whole width. */
static void
place_tools (CwTable *self, int x, int y, int width)
{
  int row = bar_size (self->tool_bar, GTK_ORIENTATION_VERTICAL), tools;

  tools = MIN (bar_size (self->tool_bar, GTK_ORIENTATION_HORIZONTAL), width);
  place (self->tool_bar, x, y, tools, row);
  if (gtk_widget_get_visible (self->form_bar))
    place (self->form_bar, x + tools + 2 * EDGE, y, bar_size (self->form_bar, GTK_ORIENTATION_HORIZONTAL), row);
}

/* Gives the bars their rows on the edges of the table, and takes the rows off the two areas. How the sheet lies and
 * where the card is looked at from share the near edge: what is too wide there takes of the other's part. */
void
cw_table_place_bars (CwTable *self)
{
  GdkRectangle *s = &self->sheet_area, *c = &self->card_area;
  gboolean beside = c->x > s->x;
  int whole = (beside ? c->x + c->width : s->width) - 2 * EDGE;
  int look, width, height, row;
  double box[4];

  fit_words (self->look_bar, beside ? MAX (c->width - 2 * EDGE, whole / 2) : whole);
  look = bar_size (self->look_bar, GTK_ORIENTATION_HORIZONTAL);
  fit_words (self->tool_bar, whole - FORMS_WIDTH - 2 * EDGE);
  fit_words (self->sheet_bar, beside ? whole - MAX (look, c->width - EDGE) - EDGE : whole);

  row = bar_size (self->tool_bar, GTK_ORIENTATION_VERTICAL);
  place_tools (self, s->x + EDGE, s->y + EDGE, whole);
  s->y += row + EDGE;
  s->height -= row + EDGE;
  if (beside)
    {
      c->y += row + EDGE;
      c->height -= row + EDGE;
    }

  row = MAX (bar_size (self->sheet_bar, GTK_ORIENTATION_VERTICAL), bar_size (self->look_bar, GTK_ORIENTATION_VERTICAL));
  place (self->look_bar, MAX (s->x + EDGE, c->x + c->width - look - EDGE), c->y + c->height - row - EDGE, look, row);
  c->height -= row + EDGE;
  width = beside ? MAX (c->x + c->width - look - EDGE - 2 * EDGE - s->x, 1) : whole;
  place (self->sheet_bar, s->x + EDGE, s->y + s->height - row - EDGE,
         MIN (bar_size (self->sheet_bar, GTK_ORIENTATION_HORIZONTAL), width), row);
  s->height -= row + EDGE;

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
