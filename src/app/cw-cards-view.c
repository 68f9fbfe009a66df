/* cw-cards-view.c: printed pages lying one below the other, to be scrolled and zoomed.
 *
 * New pages take the place of old ones sheet by sheet: the place scrolled to, the zoom and the focus stay. True size is
 * that of a screen of 96 dots to the inch, the toolkit's logical pixel (CSS Values and Units 3, 5.2: 1in = 96px).
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "cw-cards-view.h"

#include <glib/gi18n-lib.h>
#include <math.h>

/* Logical pixels to a point at true size. */
#define TRUE_SIZE (96.0 / 72.0)
/* Around and between sheets, logical pixels. */
#define MARGIN 18

static const double factors[] = { 0.25, 0.33, 0.5, 0.67, 0.8, 1, 1.25, 1.5, 2, 3, 4 };

struct _CwCardsView
{
  GtkBox parent_instance;

  GtkWidget *scroller, *column;
  GPtrArray *sheets; /* of CwCardsSheet, borrowed */
  CwPages *pages;
  CwCardsZoom how;
  double factor; /* 1: true size */
  guint page;    /* last told */
  guint idle;
};

G_DEFINE_FINAL_TYPE (CwCardsView, cw_cards_view, GTK_TYPE_BOX)

enum
{
  PICKED,
  MOVED,
  TURNED,
  N_SIGNALS
};
static guint signals[N_SIGNALS];

static GtkAdjustment *
down (CwCardsView *self)
{
  return gtk_scrolled_window_get_vadjustment (GTK_SCROLLED_WINDOW (self->scroller));
}

/* Where a sheet begins and ends, in what is scrolled; also before it has been given its place. */
static gboolean
get_span (CwCardsView *self, guint page, double *top, double *bottom)
{
  double at = MARGIN / 2;

  if (page >= self->sheets->len || self->pages == NULL)
    return FALSE;
  for (guint i = 0; i <= page; i++)
    {
      double width, height;

      cw_pages_get_size (self->pages, i, &width, &height);
      *top = at;
      *bottom = at + (double) lround (height * self->factor * TRUE_SIZE);
      at = *bottom + MARGIN;
    }
  return TRUE;
}

/* Sheets within one height of the window of what is in sight keep their pictures. */
static void
look (CwCardsView *self)
{
  double from = gtk_adjustment_get_value (down (self)), size = gtk_adjustment_get_page_size (down (self));
  guint old = self->page, best = 0;
  double most = -1;

  for (guint i = 0; i < self->sheets->len; i++)
    {
      double top, bottom, seen;

      if (!get_span (self, i, &top, &bottom))
        continue;
      cw_cards_sheet_set_near (g_ptr_array_index (self->sheets, i), bottom > from - size && top < from + 2 * size);
      seen = MIN (bottom, from + size) - MAX (top, from);
      if (seen > most + 1)
        {
          most = seen;
          best = i;
        }
    }
  self->page = best;
  if (best != old)
    g_signal_emit (self, signals[TURNED], 0);
}

static double
fitting_factor (CwCardsView *self)
{
  double wide = gtk_widget_get_width (self->scroller) - 2 * MARGIN;
  double high = gtk_widget_get_height (self->scroller) - MARGIN;
  double most_wide = 1, most_high = 1;

  for (guint i = 0; i < self->pages->lists->len; i++)
    {
      double width, height;

      cw_pages_get_size (self->pages, i, &width, &height);
      most_wide = MAX (most_wide, width);
      most_high = MAX (most_high, height);
    }
  wide /= most_wide * TRUE_SIZE;
  high /= most_high * TRUE_SIZE;
  return MAX (self->how == CW_CARDS_ZOOM_PAGE ? MIN (wide, high) : MIN (wide, 1), factors[0]);
}

static gboolean
fit (gpointer data)
{
  CwCardsView *self = data;

  self->idle = 0;
  if (self->pages != NULL && gtk_widget_get_width (self->scroller) > 2 * MARGIN)
    {
      double old = self->factor;

      if (self->how != CW_CARDS_ZOOM_FIXED)
        self->factor = fitting_factor (self);
      for (guint i = 0; i < self->sheets->len; i++)
        cw_cards_sheet_set_zoom (g_ptr_array_index (self->sheets, i), self->factor * TRUE_SIZE);
      if (fabs (old - self->factor) > 1e-9)
        g_signal_emit (self, signals[TURNED], 0);
    }
  look (self);
  return G_SOURCE_REMOVE;
}

/* Not while sizes are being given out. */
static void
queue_fit (CwCardsView *self)
{
  if (self->idle == 0)
    self->idle = g_idle_add_full (G_PRIORITY_HIGH_IDLE, fit, self, NULL);
}

static void
picked (CwCardsSheet *sheet, CwCardsSpot *spot, CwCardsView *self)
{
  g_signal_emit (self, signals[PICKED], 0, spot);
}

static void
moved (CwCardsSheet *sheet, CwCardsSpot *spot, int by, CwCardsView *self)
{
  g_signal_emit (self, signals[MOVED], 0, spot, by);
}

static void
add_sheet (CwCardsView *self)
{
  GtkWidget *sheet = cw_cards_sheet_new ();

  g_signal_connect (sheet, "picked", G_CALLBACK (picked), self);
  g_signal_connect (sheet, "moved", G_CALLBACK (moved), self);
  gtk_widget_set_halign (sheet, GTK_ALIGN_CENTER);
  gtk_box_append (GTK_BOX (self->column), sheet);
  g_ptr_array_add (self->sheets, sheet);
}

/**
 * cw_cards_view_set_pages:
 * @self: the view
 * @pages: (nullable): what to show
 */
void
cw_cards_view_set_pages (CwCardsView *self, CwPages *pages)
{
  GtkWidget *focus = NULL;
  CwPageWords had = { CW_PAGE_WORDS_PLAIN };
  gboolean lost = FALSE;

  g_return_if_fail (CW_IS_CARDS_VIEW (self));

  if (pages == self->pages)
    return;
  if (gtk_widget_get_root (GTK_WIDGET (self)) != NULL)
    focus = gtk_root_get_focus (gtk_widget_get_root (GTK_WIDGET (self)));
  if (CW_IS_CARDS_SPOT (focus) && gtk_widget_is_ancestor (focus, GTK_WIDGET (self)))
    {
      had = *cw_cards_spot_get_words (CW_CARDS_SPOT (focus));
      lost = TRUE;
    }
  if (pages != NULL)
    cw_pages_ref (pages);
  g_clear_pointer (&self->pages, cw_pages_unref);
  self->pages = pages;
  while (self->sheets->len > (pages != NULL ? pages->lists->len : 0))
    gtk_box_remove (GTK_BOX (self->column), g_ptr_array_steal_index (self->sheets, self->sheets->len - 1));
  for (guint i = 0; pages != NULL && i < pages->lists->len; i++)
    {
      if (i >= self->sheets->len)
        add_sheet (self);
      cw_cards_sheet_set_page (g_ptr_array_index (self->sheets, i), pages, i);
      cw_cards_sheet_set_zoom (g_ptr_array_index (self->sheets, i), self->factor * TRUE_SIZE);
    }
  if (lost && pages != NULL)
    cw_cards_view_focus (self, had.what, had.step);
  queue_fit (self);
  g_signal_emit (self, signals[TURNED], 0);
}

/**
 * cw_cards_view_get_pages:
 * @self: the view
 *
 * Returns: (transfer none) (nullable): what is shown
 */
CwPages *
cw_cards_view_get_pages (CwCardsView *self)
{
  g_return_val_if_fail (CW_IS_CARDS_VIEW (self), NULL);
  return self->pages;
}

/**
 * cw_cards_view_set_zoom:
 * @self: the view
 * @how: what decides it
 * @factor: %CW_CARDS_ZOOM_FIXED: how large, 1: true size
 */
void
cw_cards_view_set_zoom (CwCardsView *self, CwCardsZoom how, double factor)
{
  double old = 0, from = 0;

  g_return_if_fail (CW_IS_CARDS_VIEW (self));

  old = self->factor;
  from = gtk_adjustment_get_value (down (self));
  self->how = how;
  if (how == CW_CARDS_ZOOM_FIXED)
    self->factor = CLAMP (factor, factors[0], factors[G_N_ELEMENTS (factors) - 1]);
  else if (self->pages != NULL)
    self->factor = fitting_factor (self);
  for (guint i = 0; i < self->sheets->len; i++)
    cw_cards_sheet_set_zoom (g_ptr_array_index (self->sheets, i), self->factor * TRUE_SIZE);
  /* What is at the top stays there. */
  gtk_adjustment_set_upper (down (self), MAX (gtk_adjustment_get_upper (down (self)),
                                              from * self->factor / old + gtk_adjustment_get_page_size (down (self))));
  gtk_adjustment_set_value (down (self), from * self->factor / old);
  queue_fit (self);
  g_signal_emit (self, signals[TURNED], 0);
}

/**
 * cw_cards_view_get_zoom:
 * @self: the view
 *
 * Returns: how large pages are shown; 1: true size
 */
double
cw_cards_view_get_zoom (CwCardsView *self)
{
  g_return_val_if_fail (CW_IS_CARDS_VIEW (self), 1);
  return self->factor;
}

/**
 * cw_cards_view_get_zoom_kind:
 * @self: the view
 *
 * Returns: what decides how large pages are shown
 */
CwCardsZoom
cw_cards_view_get_zoom_kind (CwCardsView *self)
{
  g_return_val_if_fail (CW_IS_CARDS_VIEW (self), CW_CARDS_ZOOM_WIDTH);
  return self->how;
}

/**
 * cw_cards_view_zoom_by:
 * @self: the view
 * @steps: how many steps larger, or smaller when below zero
 */
void
cw_cards_view_zoom_by (CwCardsView *self, int steps)
{
  int at = 0, n = G_N_ELEMENTS (factors);

  g_return_if_fail (CW_IS_CARDS_VIEW (self) && steps != 0);

  /* From between two steps to the next one that way. */
  while (at < n && factors[at] < self->factor - (steps > 0 ? -0.001 : 0.001))
    at++;
  at += steps > 0 ? steps - 1 : steps;
  cw_cards_view_set_zoom (self, CW_CARDS_ZOOM_FIXED, factors[CLAMP (at, 0, n - 1)]);
}

/**
 * cw_cards_view_get_page:
 * @self: the view
 *
 * Returns: the page most of which is in sight, from 0
 */
guint
cw_cards_view_get_page (CwCardsView *self)
{
  g_return_val_if_fail (CW_IS_CARDS_VIEW (self), 0);
  return self->page;
}

/**
 * cw_cards_view_get_sheet:
 * @self: the view
 * @page: a page, from 0
 *
 * Returns: (transfer none) (nullable): the sheet that shows it
 */
CwCardsSheet *
cw_cards_view_get_sheet (CwCardsView *self, guint page)
{
  g_return_val_if_fail (CW_IS_CARDS_VIEW (self), NULL);
  return page < self->sheets->len ? g_ptr_array_index (self->sheets, page) : NULL;
}

/**
 * cw_cards_view_turn:
 * @self: the view
 * @by: how many pages on, or back when below zero
 */
void
cw_cards_view_turn (CwCardsView *self, int by)
{
  int page = 0;
  double top, bottom;

  g_return_if_fail (CW_IS_CARDS_VIEW (self));

  page = CLAMP ((int) self->page + by, 0, (int) self->sheets->len - 1);
  if (page < 0 || !get_span (self, (guint) page, &top, &bottom))
    return;
  gtk_adjustment_set_value (down (self), top - MARGIN / 2);
}

/**
 * cw_cards_view_focus:
 * @self: the view
 * @what: a kind of words
 * @step: of which step of the design; %G_MAXUINT: of none
 *
 * Puts the focus there, if they stand anywhere.
 */
void
cw_cards_view_focus (CwCardsView *self, CwPageWordsKind what, guint step)
{
  g_return_if_fail (CW_IS_CARDS_VIEW (self));

  for (guint i = 0; i < self->sheets->len; i++)
    {
      CwCardsSpot *spot = cw_cards_sheet_find (g_ptr_array_index (self->sheets, i), what, step);

      if (spot != NULL && gtk_widget_get_focusable (GTK_WIDGET (spot)))
        {
          gtk_widget_grab_focus (GTK_WIDGET (spot));
          return;
        }
    }
  /* Words that are gone leave it to their step. */
  if (what == CW_PAGE_WORDS_CAPTION)
    cw_cards_view_focus (self, CW_PAGE_WORDS_STEP, step);
  else if (what == CW_PAGE_WORDS_NOTES || what == CW_PAGE_WORDS_FACTS)
    cw_cards_view_focus (self, CW_PAGE_WORDS_TITLE, G_MAXUINT);
}

/**
 * cw_cards_view_is_drawn:
 * @self: the view
 *
 * Returns: whether all that is in sight is drawn as it is
 */
gboolean
cw_cards_view_is_drawn (CwCardsView *self)
{
  double from, size, top, bottom;

  g_return_val_if_fail (CW_IS_CARDS_VIEW (self), FALSE);

  from = gtk_adjustment_get_value (down (self));
  size = gtk_adjustment_get_page_size (down (self));
  if (self->sheets->len == 0 || self->idle != 0)
    return FALSE;
  for (guint i = 0; i < self->sheets->len; i++)
    if (get_span (self, i, &top, &bottom) && bottom > from && top < from + size
        && !cw_cards_sheet_is_drawn (g_ptr_array_index (self->sheets, i)))
      return FALSE;
  return TRUE;
}

static gboolean
scrolled (GtkEventControllerScroll *scroll, double dx, double dy, CwCardsView *self)
{
  GdkModifierType mods = gtk_event_controller_get_current_event_state (GTK_EVENT_CONTROLLER (scroll));

  if ((mods & GDK_CONTROL_MASK) == 0)
    return FALSE;
  if (fabs (dy) > 0)
    cw_cards_view_zoom_by (self, dy > 0 ? -1 : 1);
  return TRUE;
}

static void
cw_cards_view_dispose (GObject *object)
{
  CwCardsView *self = CW_CARDS_VIEW (object);

  g_clear_handle_id (&self->idle, g_source_remove);
  g_clear_pointer (&self->pages, cw_pages_unref);
  if (self->sheets != NULL)
    g_ptr_array_set_size (self->sheets, 0);
  G_OBJECT_CLASS (cw_cards_view_parent_class)->dispose (object);
}

static void
cw_cards_view_finalize (GObject *object)
{
  g_ptr_array_unref (CW_CARDS_VIEW (object)->sheets);
  G_OBJECT_CLASS (cw_cards_view_parent_class)->finalize (object);
}

static void
cw_cards_view_class_init (CwCardsViewClass *klass)
{
  GType type = G_TYPE_FROM_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = cw_cards_view_dispose;
  G_OBJECT_CLASS (klass)->finalize = cw_cards_view_finalize;
  signals[PICKED]
    = g_signal_new ("picked", type, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 1, CW_TYPE_CARDS_SPOT);
  signals[MOVED] = g_signal_new ("moved", type, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 2,
                                 CW_TYPE_CARDS_SPOT, G_TYPE_INT);
  signals[TURNED] = g_signal_new ("turned", type, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
}

static void
cw_cards_view_init (CwCardsView *self)
{
  GtkEventController *scroll
    = gtk_event_controller_scroll_new (GTK_EVENT_CONTROLLER_SCROLL_VERTICAL | GTK_EVENT_CONTROLLER_SCROLL_DISCRETE);

  self->sheets = g_ptr_array_new ();
  self->factor = 1;
  self->scroller = gtk_scrolled_window_new ();
  self->column = gtk_box_new (GTK_ORIENTATION_VERTICAL, MARGIN);
  gtk_widget_set_margin_top (self->column, MARGIN / 2);
  gtk_widget_set_margin_bottom (self->column, MARGIN);
  gtk_widget_set_margin_start (self->column, MARGIN);
  gtk_widget_set_margin_end (self->column, MARGIN);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (self->scroller), self->column);
  gtk_widget_set_hexpand (self->scroller, TRUE);
  gtk_widget_set_vexpand (self->scroller, TRUE);
  gtk_widget_add_css_class (GTK_WIDGET (self), "pages");
  gtk_box_append (GTK_BOX (self), self->scroller);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->scroller), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _ ("The pages as they will print"), -1);
  gtk_event_controller_set_propagation_phase (scroll, GTK_PHASE_CAPTURE);
  g_signal_connect (scroll, "scroll", G_CALLBACK (scrolled), self);
  gtk_widget_add_controller (self->scroller, scroll);
  g_signal_connect_object (down (self), "value-changed", G_CALLBACK (queue_fit), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (down (self), "changed", G_CALLBACK (queue_fit), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (gtk_scrolled_window_get_hadjustment (GTK_SCROLLED_WINDOW (self->scroller)), "changed",
                           G_CALLBACK (queue_fit), self, G_CONNECT_SWAPPED);
}
