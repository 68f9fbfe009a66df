/* cw-table.c: the table: where the sheet and the card lie on it, and how it follows the document.
 *
 * One widget, no panes: the sheet has its part of the surface and the card the other (beside each other when wide,
 * above each other when narrow). What moves is drawn in layers of its own (cw-table-paint.c), the pointer is in
 * cw-table-hand.c, keys and menus in cw-table-actions.c, and child widgets for keyboard and screen reader in
 * cw-table-items.c. All geometry comes from the rooms below. Over 500 lines because the widget and what it follows in
 * the document belong together.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "cw-table-private.h"

#include <glib/gi18n-lib.h>
#include <math.h>

/* Room left round the sheet for its rulers and measures, and round the card for its shadow. Logical pixels. */
#define SHEET_ROOM 12
#define CARD_ROOM 16
/* A row that comes or goes beside the table changes its size by no more than this, and does not shift the drawing under
 * the hand. Logical pixels. */
#define SMALL_CHANGE 28
/* An animated look takes this long, microseconds. */
#define LOOK_TIME (280 * 1000)
/* Below this ratio of width to height the card lies under the sheet. */
#define NARROW 1.15

G_DEFINE_FINAL_TYPE (CwTable, cw_table, GTK_TYPE_WIDGET)

/* ---- What lies there ---- */

/* Where the piece on the table stands in the analysis that is drawn, which may be of an older design for a moment. */
guint
cw_table_get_drawn_piece (CwTable *self)
{
  guint at = cw_document_get_piece (self->document);
  GPtrArray *pieces = cw_document_get_design (self->document)->pieces;

  if (self->analysis->design == cw_document_get_design (self->document))
    return at < self->analysis->panels->n_pieces ? at : G_MAXUINT;
  if (at >= pieces->len)
    return G_MAXUINT;
  return cw_design_find_piece (self->analysis->design, ((CwPiece *) g_ptr_array_index (pieces, at))->id);
}

gboolean
cw_table_is_ready (CwTable *self)
{
  return self->document != NULL && self->analysis != NULL && cw_table_get_drawn_piece (self) != G_MAXUINT;
}

/* Whether what is drawn is the current design, so that its panels are the panels there are. Never waits: large designs
 * take their time, and drawing goes on meanwhile. */
gboolean
cw_table_is_fresh (CwTable *self)
{
  return cw_table_is_ready (self) && cw_document_is_analysed (self->document)
         && self->analysis == cw_document_get_analysis (self->document);
}

/* The same for something that cannot be done before: says so. */
gboolean
cw_table_needs_fresh (CwTable *self)
{
  if (cw_table_is_fresh (self))
    return TRUE;
  if (self->document != NULL)
    cw_document_say (self->document, _ ("One moment: still working out how it folds."));
  return FALSE;
}

/* From what is drawn to the same thing in the current design. Panels have no name of their own to be found by, so they
 * wait. FALSE when it is not there. */
gboolean
cw_table_to_current (CwTable *self, CwId *id)
{
  CwDesign *design = cw_document_get_design (self->document);
  const CwPiece *old, *now;

  if (cw_table_is_fresh (self))
    return TRUE;
  if ((id->kind != CW_ID_MARK && id->kind != CW_ID_MARK_END) || id->piece >= self->analysis->design->pieces->len)
    return FALSE;
  old = g_ptr_array_index (self->analysis->design->pieces, id->piece);
  now = cw_design_get_piece (design, old->id);
  if (now == NULL || id->index >= old->marks->len)
    return FALSE;
  id->piece = cw_design_find_piece (design, old->id);
  id->index = cw_piece_find_mark (now, ((CwMark *) g_ptr_array_index (old->marks, id->index))->id);
  return id->index != G_MAXUINT;
}

/* A mark of the current design; NULL for what is none. Borrowed. */
const CwMark *
cw_table_get_mark (CwTable *self, CwId id)
{
  GPtrArray *pieces = cw_document_get_design (self->document)->pieces;
  const CwPiece *piece = id.piece < pieces->len ? g_ptr_array_index (pieces, id.piece) : NULL;

  if (piece == NULL || (id.kind != CW_ID_MARK && id.kind != CW_ID_MARK_END) || id.index >= piece->marks->len)
    return NULL;
  return g_ptr_array_index (piece->marks, id.index);
}

const CwPanelMap *
cw_table_get_map (CwTable *self)
{
  return &self->analysis->panels->maps[cw_table_get_drawn_piece (self)];
}

const CwPiece *
cw_table_get_piece (CwTable *self)
{
  return cw_table_get_map (self)->piece;
}

guint
cw_table_get_lit_panel (CwTable *self)
{
  const CwPanelSet *set = self->analysis->panels;

  if (self->hover.kind != CW_ID_PANEL || self->hover.piece >= set->n_pieces
      || self->hover.index >= set->maps[self->hover.piece].panels->len)
    return G_MAXUINT;
  return set->first_panel[self->hover.piece] + self->hover.index;
}

void
cw_table_redraw_sheet (CwTable *self)
{
  g_clear_pointer (&self->sheet_node, gsk_render_node_unref);
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

void
cw_table_redraw_card (CwTable *self)
{
  g_clear_pointer (&self->card_node, gsk_render_node_unref);
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

void
cw_table_redraw_over (CwTable *self)
{
  g_clear_pointer (&self->over_node, gsk_render_node_unref);
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

static void
redraw_all (CwTable *self)
{
  cw_table_redraw_sheet (self);
  cw_table_redraw_card (self);
  cw_table_redraw_over (self);
}

void
cw_table_fit_sheet (CwTable *self)
{
  const GdkRectangle *a = &self->sheet_area;

  if (!cw_table_is_ready (self) || a->width <= 2 * SHEET_ROOM || a->height <= 2 * SHEET_ROOM)
    return;
  self->view.lie = cw_document_get_lie (self->document);
  cw_sheet_view_fit (&self->view, cw_table_get_map (self), a->x + SHEET_ROOM, a->y + SHEET_ROOM,
                     a->width - 2 * SHEET_ROOM, a->height - 2 * SHEET_ROOM);
  self->view_own = FALSE;
  self->fit_area = *a;
  cw_table_place_items (self);
  cw_table_redraw_sheet (self);
  cw_table_redraw_over (self);
}

void
cw_table_fit_card (CwTable *self)
{
  const GdkRectangle *a = &self->card_area;

  if (!cw_table_is_ready (self) || a->width <= 2 * CARD_ROOM || a->height <= 2 * CARD_ROOM)
    return;
  cw_camera_fit (&self->camera, self->analysis->motion, a->x + CARD_ROOM, a->y + CARD_ROOM, a->width - 2 * CARD_ROOM,
                 a->height - 2 * CARD_ROOM);
  self->camera_own = self->camera_turned = FALSE;
  cw_table_redraw_card (self);
}

void
cw_table_fit (CwTable *self)
{
  cw_table_fit_sheet (self);
  cw_table_fit_card (self);
}

void
cw_table_set_share (CwTable *self, CwShare share)
{
  self->share = share;
  self->fit_area = (GdkRectangle){ 0, 0, 0, 0 };
  self->view_own = self->camera_own = FALSE;
  gtk_widget_queue_allocate (GTK_WIDGET (self));
}

gboolean
cw_table_is_on_card_side (CwTable *self, double x, double y)
{
  const GdkRectangle *a = &self->card_area;

  return x >= a->x && x < a->x + a->width && y >= a->y && y < a->y + a->height;
}

void
cw_table_lie_changed (CwTable *self)
{
  if (self->document == NULL)
    return;
  cw_table_cancel (self);
  cw_table_fit_sheet (self);
  cw_table_update_items (self);
}

/* ---- Looking at the card ---- */

static gboolean
look_tick (GtkWidget *widget, GdkFrameClock *clock, gpointer data)
{
  CwTable *self = CW_TABLE (widget);
  double share = (double) (gdk_frame_clock_get_frame_time (clock) - self->look_start) / LOOK_TIME;

  share = CLAMP (share, 0, 1);
  cw_hand_between (&self->camera, &self->look_from, &self->look_to, share * share * (3 - 2 * share));
  cw_table_redraw_card (self);
  if (share < 1)
    return G_SOURCE_CONTINUE;
  self->look_tick = 0;
  return G_SOURCE_REMOVE;
}

static void
stop_looking (CwTable *self)
{
  if (self->look_tick != 0)
    gtk_widget_remove_tick_callback (GTK_WIDGET (self), self->look_tick);
  self->look_tick = 0;
}

/* Turns the card to the look, in a short sweep unless the maker wants no motion. */
void
cw_table_look (CwTable *self, const char *from)
{
  gboolean animate = FALSE;

  if (!cw_table_is_ready (self))
    return;
  stop_looking (self);
  self->look_from = self->camera;
  if (g_str_equal (from, "table"))
    cw_camera_look_into (&self->camera, self->analysis->motion);
  else
    cw_camera_look_from (&self->camera, from);
  cw_table_fit_card (self);
  self->look_to = self->camera;
  g_object_get (gtk_widget_get_settings (GTK_WIDGET (self)), "gtk-enable-animations", &animate, NULL);
  if (animate && gtk_widget_get_mapped (GTK_WIDGET (self)))
    {
      self->camera = self->look_from;
      self->look_start = gdk_frame_clock_get_frame_time (gtk_widget_get_frame_clock (GTK_WIDGET (self)));
      self->look_tick = gtk_widget_add_tick_callback (GTK_WIDGET (self), look_tick, NULL, NULL);
    }
}

/* Shows the finished card as `rest` says; stays where it is when no step ends so. */
void
cw_table_show_moment (CwTable *self, const char *rest)
{
  GPtrArray *steps = cw_document_get_design (self->document)->steps;

  for (guint i = steps->len; i-- > 0;)
    {
      const CwStep *step = g_ptr_array_index (steps, i);
      if (g_strcmp0 (step->rest, rest) == 0)
        {
          cw_document_set_moment (self->document, (int) i, 1);
          return;
        }
    }
}

/* ---- Following the document ---- */

static void
analysed (CwTable *self)
{
  CwAnalysis *analysis = cw_document_get_analysis (self->document);

  if (analysis == NULL || analysis == self->analysis)
    return;
  g_clear_pointer (&self->scene, cw_card_scene_free);
  g_clear_pointer (&self->analysis, cw_analysis_unref);
  self->analysis = cw_analysis_ref (analysis);
  self->scene = cw_card_scene_new (analysis);
  if (self->drag != CW_DRAG_SLIDE && self->drag != CW_DRAG_STRETCH)
    cw_table_forget_moving (self);
  if (self->drag == CW_DRAG_PULL)
    self->drag = CW_DRAG_NONE;
  self->hover = (CwId){ CW_ID_NONE };
  if (!self->view_own)
    cw_table_fit_sheet (self);
  if (!self->camera_own && !self->camera_turned && self->look_tick == 0)
    {
      /* Still as it was laid down: from the side that shows most of this card. */
      if (self->camera.pitch > 0)
        cw_camera_look_into (&self->camera, self->analysis->motion);
      cw_table_fit_card (self);
    }
  cw_table_rebuild_items (self);
  cw_table_update_pieces (self);
  cw_table_update_actions (self);
  redraw_all (self);
}

static void
changed (CwTable *self)
{
  if (self->drag == CW_DRAG_SLIDE || self->drag == CW_DRAG_STRETCH)
    cw_table_cancel (self);
  gtk_widget_set_visible (self->offer, FALSE);
  cw_table_update_actions (self);
}

static void
moment (CwTable *self)
{
  if (self->sheet_item != NULL)
    cw_table_tell_moment (self);
  cw_table_redraw_card (self);
}

static void
selection (CwTable *self)
{
  cw_table_update_items (self);
  cw_table_update_actions (self);
  cw_table_redraw_sheet (self);
  cw_table_redraw_card (self);
}

static void
piece_changed (CwTable *self)
{
  cw_table_lie_changed (self);
  cw_table_rebuild_items (self);
  cw_table_update_pieces (self);
  cw_table_update_actions (self);
}

void
cw_table_say (CwTable *self, const char *format, ...)
{
  g_autofree char *sentence = NULL;
  va_list args;

  va_start (args, format);
  sentence = g_strdup_vprintf (format, args);
  va_end (args);
  cw_document_say (self->document, sentence);
}

/* Does an edit, or says why it cannot be done. Takes both. */
void
cw_table_do (CwTable *self, const char *name, CwEdit *edit, GError *error)
{
  if (error != NULL)
    cw_document_say (self->document, error->message);
  else if (edit != NULL)
    cw_document_do (self->document, name, g_steal_pointer (&edit));
  g_clear_error (&error);
  g_clear_pointer (&edit, cw_edit_unref);
}

static void
disconnect (CwTable *self)
{
  if (self->document != NULL)
    g_signal_handlers_disconnect_by_data (self->document, self);
  stop_looking (self);
  g_clear_pointer (&self->scene, cw_card_scene_free);
  g_clear_pointer (&self->analysis, cw_analysis_unref);
  g_clear_object (&self->document);
}

/**
 * cw_table_set_document:
 * @self: a table
 * @document: (nullable): the open design; NULL clears the table
 */
void
cw_table_set_document (CwTable *self, CwDocument *document)
{
  static const struct
  {
    const char *signal;
    void (*handler) (CwTable *self);
  } followed[] = {
    { "changed", changed },
    { "analysed", analysed },
    { "moment", moment },
    { "selection", selection },
    { "piece", piece_changed },
    { "lie", cw_table_lie_changed },
    { "preview", cw_table_redraw_over },
  };

  g_return_if_fail (CW_IS_TABLE (self));

  if (self->document == document)
    return;
  if (self->document != NULL)
    cw_table_cancel (self);
  disconnect (self);
  self->hover = (CwId){ CW_ID_NONE };
  self->view_own = self->camera_own = FALSE;
  cw_camera_look_from (&self->camera, "table");
  if (document != NULL)
    {
      self->document = g_object_ref (document);
      for (guint i = 0; i < G_N_ELEMENTS (followed); i++)
        g_signal_connect_swapped (document, followed[i].signal, G_CALLBACK (followed[i].handler), self);
      analysed (self);
    }
  cw_table_rebuild_items (self);
  cw_table_update_pieces (self);
  cw_table_update_actions (self);
  redraw_all (self);
}

/**
 * cw_table_get_document:
 *
 * Returns: (transfer none) (nullable): the open design
 */
CwDocument *
cw_table_get_document (CwTable *self)
{
  g_return_val_if_fail (CW_IS_TABLE (self), NULL);

  return self->document;
}

/**
 * cw_table_get_actions:
 *
 * Returns: (transfer none): the actions, to be inserted under the prefix "table"
 */
GActionGroup *
cw_table_get_actions (CwTable *self)
{
  g_return_val_if_fail (CW_IS_TABLE (self), NULL);

  return G_ACTION_GROUP (self->actions);
}

/* ---- The widget ---- */

static void
cw_table_measure (GtkWidget *widget, GtkOrientation orientation, int for_size, int *minimum, int *natural,
                  int *minimum_baseline, int *natural_baseline)
{
  *minimum = orientation == GTK_ORIENTATION_HORIZONTAL ? 480 : 300;
  *natural = orientation == GTK_ORIENTATION_HORIZONTAL ? 1200 : 720;
}

/* The larger part for what the maker has asked for; the other never vanishes. */
static double
sheet_share (const CwTable *self)
{
  switch (self->share)
    {
    case CW_SHARE_SHEET:
      return 0.76;
    case CW_SHARE_CARD:
      return 0.3;
    case CW_SHARE_BOTH:
    default:
      return 0.5;
    }
}

static void
cw_table_size_allocate (GtkWidget *widget, int width, int height, int baseline)
{
  CwTable *self = CW_TABLE (widget);
  GdkRectangle sheet = { 0, 0, width, height }, card = sheet, old = self->sheet_area;

  if (width >= height * NARROW)
    {
      sheet.width = (int) (width * sheet_share (self));
      card.x = sheet.width;
      card.width = width - sheet.width;
    }
  else
    {
      sheet.height = (int) (height * sheet_share (self));
      card.y = sheet.height;
      card.height = height - sheet.height;
    }
  self->sheet_area = sheet;
  self->card_area = card;
  cw_table_place_bars (self); /* takes its rows off the areas */

  if (!gdk_rectangle_equal (&old, &self->sheet_area))
    {
      gboolean much = ABS (self->sheet_area.width - self->fit_area.width) > SMALL_CHANGE
                      || ABS (self->sheet_area.height - self->fit_area.height) > SMALL_CHANGE;

      g_clear_pointer (&self->sheet_surface, cairo_surface_destroy);
      if (!self->view_own && much)
        cw_table_fit_sheet (self);
      if (!self->camera_own && much)
        {
          stop_looking (self);
          cw_table_fit_card (self);
        }
      redraw_all (self);
    }
  cw_table_place_items (self);
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    if (GTK_IS_POPOVER (child))
      gtk_popover_present (GTK_POPOVER (child));
}

static void
cw_table_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  CwTable *self = CW_TABLE (widget);

  cw_table_snapshot_layers (self, snapshot);
  GTK_WIDGET_CLASS (cw_table_parent_class)->snapshot (widget, snapshot);
}

static void
palette_changed (CwTable *self)
{
  const CwPalette *palette = cw_table_choose_palette (GTK_WIDGET (self));

  if (palette == self->palette)
    return;
  self->palette = palette;
  redraw_all (self);
}

static void
cw_table_css_changed (GtkWidget *widget, GtkCssStyleChange *change)
{
  GTK_WIDGET_CLASS (cw_table_parent_class)->css_changed (widget, change);
  g_clear_object (&CW_TABLE (widget)->tip);
  palette_changed (CW_TABLE (widget));
}

static void
cw_table_realize (GtkWidget *widget)
{
  GTK_WIDGET_CLASS (cw_table_parent_class)->realize (widget);
  palette_changed (CW_TABLE (widget));
  g_signal_connect_swapped (widget, "notify::scale-factor", G_CALLBACK (redraw_all), widget);
}

static void
cw_table_dispose (GObject *object)
{
  CwTable *self = CW_TABLE (object);
  GtkWidget *child;

  disconnect (self);
  while ((child = gtk_widget_get_first_child (GTK_WIDGET (self))) != NULL)
    gtk_widget_unparent (child);
  self->menu = self->entry_popover = NULL;
  if (self->items != NULL)
    g_ptr_array_set_size (self->items, 0);
  g_clear_object (&self->actions);
  G_OBJECT_CLASS (cw_table_parent_class)->dispose (object);
}

static void
cw_table_finalize (GObject *object)
{
  CwTable *self = CW_TABLE (object);

  g_clear_pointer (&self->sheet_node, gsk_render_node_unref);
  g_clear_pointer (&self->card_node, gsk_render_node_unref);
  g_clear_pointer (&self->over_node, gsk_render_node_unref);
  g_clear_pointer (&self->sheet_surface, cairo_surface_destroy);
  g_clear_object (&self->tip);
  g_clear_pointer (&self->rubber, cw_mark_unref);
  cw_draw_list_free (self->sheet_list);
  cw_draw_list_free (self->card_list);
  cw_draw_list_free (self->over_list);
  g_ptr_array_unref (self->moving);
  g_ptr_array_unref (self->before);
  g_ptr_array_unref (self->items);
  g_clear_pointer (&self->offered, cw_make_offer_free);
  g_free (self->tip_text);
  g_free (self->piece_names);
  G_OBJECT_CLASS (cw_table_parent_class)->finalize (object);
}

static void
cw_table_class_init (CwTableClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);

  G_OBJECT_CLASS (class)->dispose = cw_table_dispose;
  G_OBJECT_CLASS (class)->finalize = cw_table_finalize;
  widget_class->measure = cw_table_measure;
  widget_class->size_allocate = cw_table_size_allocate;
  widget_class->snapshot = cw_table_snapshot;
  widget_class->css_changed = cw_table_css_changed;
  widget_class->realize = cw_table_realize;
  /* What was typed on the table that belongs into the measure line. */
  g_signal_new ("typed", CW_TYPE_TABLE, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 1, G_TYPE_STRING);
  gtk_widget_class_set_css_name (widget_class, "table");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_GROUP);
}

static void
cw_table_init (CwTable *self)
{
  gtk_widget_set_focusable (GTK_WIDGET (self), TRUE);
  gtk_widget_set_overflow (GTK_WIDGET (self), GTK_OVERFLOW_HIDDEN);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL, _ ("The table"), -1);
  self->sheet_list = cw_draw_list_new ();
  self->card_list = cw_draw_list_new ();
  self->over_list = cw_draw_list_new ();
  self->moving = g_ptr_array_new_with_free_func ((GDestroyNotify) cw_mark_unref);
  self->before = g_ptr_array_new_with_free_func ((GDestroyNotify) cw_mark_unref);
  self->items = g_ptr_array_new ();
  self->palette = &cw_palette_light;
  cw_camera_look_from (&self->camera, "table");
  cw_table_add_actions (self);
  cw_table_add_bars (self);
  cw_table_add_controllers (self);
}

/**
 * cw_table_new:
 *
 * Returns: (transfer floating): an empty table
 */
GtkWidget *
cw_table_new (void)
{
  return g_object_new (CW_TYPE_TABLE, NULL);
}
