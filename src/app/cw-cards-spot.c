/* cw-cards-spot.c: a paragraph of a printed page as a widget that draws nothing but what shows it can be changed.
 *
 * The page itself is a picture; these widgets give it words for those who hear it, and places to change words at. What
 * can be changed is a button: reached by Tab, with a pencil beside it. Enter, Space or a click changes the words,
 * Alt+Up and Alt+Down put the step elsewhere.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "cw-cards-spot.h"

#include <glib/gi18n-lib.h>

#define PENCIL 16

struct _CwCardsSpot
{
  GtkWidget parent_instance;

  CwPageWords words;
};

G_DEFINE_FINAL_TYPE (CwCardsSpot, cw_cards_spot, GTK_TYPE_WIDGET)

enum
{
  PICKED,
  MOVED,
  N_SIGNALS
};
static guint signals[N_SIGNALS];

/**
 * cw_page_words_can_change:
 * @words: a paragraph
 *
 * Returns: whether these are the maker's own words, or would be
 */
gboolean
cw_page_words_can_change (const CwPageWords *words)
{
  switch (words->what)
    {
    case CW_PAGE_WORDS_TITLE:
    case CW_PAGE_WORDS_NOTES:
    case CW_PAGE_WORDS_FACTS:
      return TRUE;
    case CW_PAGE_WORDS_STEP:
    case CW_PAGE_WORDS_CAPTION:
      return words->step != G_MAXUINT;
    case CW_PAGE_WORDS_PLAIN:
    case CW_PAGE_WORDS_HEADING:
    case CW_PAGE_WORDS_PICTURE:
    default:
      return FALSE;
    }
}

static void
pick (GtkWidget *widget, const char *name, GVariant *parameter)
{
  if (cw_page_words_can_change (&CW_CARDS_SPOT (widget)->words))
    g_signal_emit (widget, signals[PICKED], 0);
}

static void
move_by (GtkWidget *widget, const char *name, GVariant *parameter)
{
  CwCardsSpot *self = CW_CARDS_SPOT (widget);

  if (self->words.what == CW_PAGE_WORDS_STEP && self->words.step != G_MAXUINT)
    g_signal_emit (widget, signals[MOVED], 0, g_str_equal (name, "words.earlier") ? -1 : 1);
}

static void
released (GtkGestureClick *click, int n_press, double x, double y, CwCardsSpot *self)
{
  if (n_press == 1 && gtk_widget_contains (GTK_WIDGET (self), x, y))
    pick (GTK_WIDGET (self), NULL, NULL);
}

static void
tell (CwCardsSpot *self)
{
  GtkAccessible *accessible = GTK_ACCESSIBLE (self);

  gtk_accessible_update_property (accessible, GTK_ACCESSIBLE_PROPERTY_LABEL, self->words.text, -1);
  if (cw_page_words_can_change (&self->words))
    gtk_accessible_update_property (accessible, GTK_ACCESSIBLE_PROPERTY_DESCRIPTION, _ ("Change these words"), -1);
}

/**
 * cw_cards_spot_follow:
 * @self: the spot
 * @words: what is said in its place now
 *
 * Returns: FALSE when that is something else to a screen reader; the spot is then as before
 */
gboolean
cw_cards_spot_follow (CwCardsSpot *self, const CwPageWords *words)
{
  gboolean same = FALSE;

  g_return_val_if_fail (CW_IS_CARDS_SPOT (self) && words != NULL, FALSE);

  if (words->what != self->words.what || cw_page_words_can_change (words) != cw_page_words_can_change (&self->words))
    return FALSE;
  same = g_strcmp0 (words->text, self->words.text) == 0;
  if (!same)
    {
      g_free (self->words.text);
      self->words.text = g_strdup (words->text);
    }
  self->words.step = words->step;
  self->words.page = words->page;
  for (guint i = 0; i < G_N_ELEMENTS (words->box); i++)
    self->words.box[i] = words->box[i];
  if (!same)
    tell (self);
  return TRUE;
}

/**
 * cw_cards_spot_get_words:
 * @self: the spot
 *
 * Returns: (transfer none): what is said here, and where
 */
const CwPageWords *
cw_cards_spot_get_words (CwCardsSpot *self)
{
  g_return_val_if_fail (CW_IS_CARDS_SPOT (self), NULL);
  return &self->words;
}

/* The pencil stands at the end of titles; the page is white whatever the theme. */
static void
cw_cards_spot_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  CwCardsSpot *self = CW_CARDS_SPOT (widget);
  const GdkRGBA ink = { 0.25f, 0.25f, 0.25f, 1 };
  gboolean rtl = gtk_widget_get_direction (widget) == GTK_TEXT_DIR_RTL;
  g_autoptr (GtkIconPaintable) icon = NULL;

  if (!cw_page_words_can_change (&self->words)
      || (self->words.what != CW_PAGE_WORDS_TITLE && self->words.what != CW_PAGE_WORDS_STEP))
    return;
  icon = gtk_icon_theme_lookup_icon (gtk_icon_theme_get_for_display (gtk_widget_get_display (widget)),
                                     "document-edit-symbolic", NULL, PENCIL, gtk_widget_get_scale_factor (widget),
                                     GTK_TEXT_DIR_NONE, 0);
  gtk_snapshot_save (snapshot);
  gtk_snapshot_translate (snapshot, &GRAPHENE_POINT_INIT (rtl ? -PENCIL - 4 : (float) gtk_widget_get_width (widget) + 4,
                                                          ((float) gtk_widget_get_height (widget) - PENCIL) / 2));
  gtk_symbolic_paintable_snapshot_symbolic (GTK_SYMBOLIC_PAINTABLE (icon), snapshot, PENCIL, PENCIL, &ink, 1);
  gtk_snapshot_restore (snapshot);
}

static void
cw_cards_spot_finalize (GObject *object)
{
  g_free (CW_CARDS_SPOT (object)->words.text);
  G_OBJECT_CLASS (cw_cards_spot_parent_class)->finalize (object);
}

static void
cw_cards_spot_class_init (CwCardsSpotClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->finalize = cw_cards_spot_finalize;
  widget_class->snapshot = cw_cards_spot_snapshot;
  signals[PICKED] = g_signal_new ("picked", CW_TYPE_CARDS_SPOT, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
  signals[MOVED]
    = g_signal_new ("moved", CW_TYPE_CARDS_SPOT, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 1, G_TYPE_INT);
  gtk_widget_class_install_action (widget_class, "words.change", NULL, pick);
  gtk_widget_class_install_action (widget_class, "words.earlier", NULL, move_by);
  gtk_widget_class_install_action (widget_class, "words.later", NULL, move_by);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_Return, 0, "words.change", NULL);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_KP_Enter, 0, "words.change", NULL);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_space, 0, "words.change", NULL);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_F2, 0, "words.change", NULL);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_Up, GDK_ALT_MASK, "words.earlier", NULL);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_Down, GDK_ALT_MASK, "words.later", NULL);
  gtk_widget_class_set_css_name (widget_class, "cardspot");
}

static void
cw_cards_spot_init (CwCardsSpot *self)
{
}

/**
 * cw_cards_spot_new:
 * @words: what is said, and where
 *
 * Returns: (transfer floating): a spot
 */
GtkWidget *
cw_cards_spot_new (const CwPageWords *words)
{
  gboolean can_change = cw_page_words_can_change (words);
  GtkAccessibleRole role = can_change                             ? GTK_ACCESSIBLE_ROLE_BUTTON
                           : words->what == CW_PAGE_WORDS_HEADING ? GTK_ACCESSIBLE_ROLE_HEADING
                           : words->what == CW_PAGE_WORDS_STEP    ? GTK_ACCESSIBLE_ROLE_HEADING
                           : words->what == CW_PAGE_WORDS_PICTURE ? GTK_ACCESSIBLE_ROLE_IMG
                                                                  : GTK_ACCESSIBLE_ROLE_LABEL;
  CwCardsSpot *self = g_object_new (CW_TYPE_CARDS_SPOT, "accessible-role", role, NULL);

  self->words = *words;
  self->words.text = g_strdup (words->text);
  gtk_widget_set_can_target (GTK_WIDGET (self), can_change);
  gtk_widget_set_focusable (GTK_WIDGET (self), can_change);
  if (can_change)
    {
      GtkGesture *click = gtk_gesture_click_new ();

      g_signal_connect (click, "released", G_CALLBACK (released), self);
      gtk_widget_add_controller (GTK_WIDGET (self), GTK_EVENT_CONTROLLER (click));
      gtk_widget_add_css_class (GTK_WIDGET (self), "editable");
      gtk_widget_set_cursor_from_name (GTK_WIDGET (self), "text");
      gtk_widget_set_tooltip_text (GTK_WIDGET (self), _ ("Change these words"));
    }
  tell (self);
  return GTK_WIDGET (self);
}
