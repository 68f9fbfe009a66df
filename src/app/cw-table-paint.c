/* cw-table-paint.c: the table's picture, in layers: the sheet, the card, and over both what moves under the hand.
 *
 * Each layer is one render node that is kept until something in it changes, so that GTK repaints only where a node is
 * new. The sheet, which changes seldom and lies under the moving layers, is painted into one surface that is kept too.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "cw-table-private.h"

#include <glib/gi18n-lib.h>
#include <math.h>

/* The sheet fades out this wide towards the card when it is larger than its part. Logical pixels. */
#define FADE 28
/* The box with words beside the pointer. */
#define TIP_PAD 8
#define TIP_OFF 18
#define TIP_WIDEST 340

/* The palette that suits the theme the widget is shown in. */
const CwPalette *
cw_table_choose_palette (GtkWidget *widget)
{
  GdkRGBA fore;
  g_autofree char *theme = NULL;
  const char *forced = g_getenv ("GTK_THEME");

  g_object_get (gtk_widget_get_settings (widget), "gtk-theme-name", &theme, NULL);
  gtk_style_context_get_color (gtk_widget_get_style_context (widget), &fore);
  if ((theme != NULL && (strstr (theme, "HighContrast") != NULL || g_str_has_suffix (theme, "-hc")))
      || (forced != NULL && (strstr (forced, "HighContrast") != NULL || strstr (forced, "-hc") != NULL)))
    return fore.red + fore.green + fore.blue > 1.5f ? &cw_palette_contrast : &cw_palette_paper;
  return fore.red + fore.green + fore.blue > 1.5f ? &cw_palette_dark : &cw_palette_light;
}

static GdkRGBA
colour (guint32 rgb, float alpha)
{
  return (GdkRGBA){ (float) ((rgb >> 16) & 0xff) / 255.0f, (float) ((rgb >> 8) & 0xff) / 255.0f,
                    (float) (rgb & 0xff) / 255.0f, alpha };
}

static GskRenderNode *
play_node (const CwDrawList *list, const CwPalette *palette, const graphene_rect_t *bounds)
{
  GskRenderNode *node = gsk_cairo_node_new (bounds);
  cairo_t *cr = gsk_cairo_node_get_draw_context (node);

  cw_draw_play (list, palette, cr);
  cairo_destroy (cr);
  return node;
}

/* Where a list draws, with room for line widths, kept to the widget. */
static graphene_rect_t
list_bounds (CwTable *self, const CwDrawList *list)
{
  double box[4];
  graphene_rect_t bounds, all;

  cw_draw_list_get_extents (list, box);
  if (!(box[2] >= box[0]))
    return GRAPHENE_RECT_INIT (0, 0, 1, 1);
  graphene_rect_init (&bounds, (float) floor (box[0] - 8), (float) floor (box[1] - 8),
                      (float) ceil (box[2] - box[0] + 17), (float) ceil (box[3] - box[1] + 17));
  graphene_rect_init (&all, 0, 0, (float) gtk_widget_get_width (GTK_WIDGET (self)),
                      (float) gtk_widget_get_height (GTK_WIDGET (self)));
  if (!graphene_rect_intersection (&bounds, &all, &bounds))
    return GRAPHENE_RECT_INIT (0, 0, 1, 1);
  return bounds;
}

void
cw_table_draw_sheet_list (CwTable *self)
{
  const GdkRectangle *a = &self->sheet_area;
  CwSheetLook look = {
    .rulers = TRUE,
    .measures = TRUE,
    .names = TRUE,
    .handles = TRUE,
    .findings = TRUE,
    .glue = TRUE,
    .layers = TRUE,
    .far_edges = cw_document_get_far (self->document),
    .hover = self->hover,
    .lit_panel = self->hover_on_card || cw_table_points_at_panels (self) ? cw_table_get_lit_panel (self) : G_MAXUINT,
    .glue_map = cw_table_get_glue_map (self),
    .visible = { a->x, a->y, a->x + a->width, a->y + a->height },
  };

  cw_draw_list_clear (self->sheet_list);
  look.selected = cw_document_get_selection (self->document, &look.n_selected);
  if (self->drag == CW_DRAG_SLIDE || self->drag == CW_DRAG_STRETCH)
    look.measures = look.handles = FALSE;
  cw_draw_sheet (self->sheet_list, self->analysis, cw_table_get_drawn_piece (self), &self->view, &look);
}

/* The step looked at, as it stands in the analysis that is drawn; G_MAXUINT before the first or where it is not there.
 */
static guint
drawn_step (CwTable *self)
{
  CwDesign *now = cw_document_get_design (self->document);
  int step = cw_document_get_step (self->document);

  if (step < 0 || (guint) step >= now->steps->len)
    return G_MAXUINT;
  if (self->analysis->design == now)
    return (guint) step;
  return cw_design_find_step (self->analysis->design, ((CwStep *) g_ptr_array_index (now->steps, step))->id);
}

void
cw_table_draw_card_list (CwTable *self)
{
  CwCardLook look = {
    .lit_panel = cw_table_get_lit_panel (self),
    .hinge_at = G_MAXUINT,
    .shadow = TRUE,
    .labels = TRUE,
    .findings = TRUE,
    .glue = self->glue_wanted,
    .glue_map = cw_table_get_glue_map (self),
  };

  cw_draw_list_clear (self->card_list);
  look.selected = cw_document_get_selection (self->document, &look.n_selected);
  cw_draw_card (self->card_list, self->scene, drawn_step (self), cw_document_get_fraction (self->document),
                &self->camera, &look);
}

/* Takes the picture out towards the card's side, so that a large sheet ends softly and not at a line. */
static void
fade_edge (CwTable *self, cairo_t *cr)
{
  const GdkRectangle *a = &self->sheet_area;
  gboolean beside = self->card_area.x > a->x;
  double box[4];
  cairo_pattern_t *fade;

  cw_draw_list_get_extents (self->sheet_list, box);
  if (beside ? box[2] < a->x + a->width : box[3] < a->y + a->height)
    return;
  fade = beside ? cairo_pattern_create_linear (a->width - FADE, 0, a->width, 0)
                : cairo_pattern_create_linear (0, a->height - FADE, 0, a->height);
  cairo_pattern_add_color_stop_rgba (fade, 0, 0, 0, 0, 0);
  cairo_pattern_add_color_stop_rgba (fade, 1, 0, 0, 0, 1);
  cairo_set_operator (cr, CAIRO_OPERATOR_DEST_OUT);
  cairo_set_source (cr, fade);
  cairo_paint (cr);
  cairo_pattern_destroy (fade);
}

static void
paint_sheet (CwTable *self)
{
  const GdkRectangle *a = &self->sheet_area;
  int scale = gtk_widget_get_scale_factor (GTK_WIDGET (self));
  cairo_t *cr;

  cw_table_draw_sheet_list (self);
  if (self->sheet_surface != NULL
      && (cairo_image_surface_get_width (self->sheet_surface) != a->width * scale
          || cairo_image_surface_get_height (self->sheet_surface) != a->height * scale))
    g_clear_pointer (&self->sheet_surface, cairo_surface_destroy);
  if (self->sheet_surface == NULL)
    {
      self->sheet_surface = cairo_image_surface_create (CAIRO_FORMAT_ARGB32, a->width * scale, a->height * scale);
      cairo_surface_set_device_scale (self->sheet_surface, scale, scale);
    }
  cr = cairo_create (self->sheet_surface);
  cairo_set_operator (cr, CAIRO_OPERATOR_CLEAR);
  cairo_paint (cr);
  cairo_set_operator (cr, CAIRO_OPERATOR_OVER);
  cairo_save (cr);
  cairo_translate (cr, -a->x, -a->y);
  cw_draw_play (self->sheet_list, self->palette, cr);
  cairo_restore (cr);
  fade_edge (self, cr);
  cairo_destroy (cr);
}

static GskRenderNode *
sheet_node (CwTable *self)
{
  const GdkRectangle *a = &self->sheet_area;
  GskRenderNode *node;
  cairo_t *cr;

  paint_sheet (self);
  node = gsk_cairo_node_new (&GRAPHENE_RECT_INIT ((float) a->x, (float) a->y, (float) a->width, (float) a->height));
  cr = gsk_cairo_node_get_draw_context (node);
  cairo_set_source_surface (cr, self->sheet_surface, a->x, a->y);
  cairo_paint (cr);
  cairo_destroy (cr);
  return node;
}

/* ---- Over both: what the hand is doing ---- */

static gboolean
draw_over_list (CwTable *self)
{
  static const CwId none = { CW_ID_NONE };
  const CwPanelMap *map = cw_table_get_map (self);
  GPtrArray *preview = cw_document_get_preview (self->document);
  CwDrawList *list = self->over_list;
  gboolean any = FALSE;

  cw_draw_list_clear (list);
  for (guint i = 0; preview != NULL && i < preview->len; i++, any = TRUE)
    cw_hand_trace_mark (list, CW_PEN_PREVIEW, none, &self->view, map, g_ptr_array_index (preview, i));
  for (guint i = 0; i < self->moving->len; i++, any = TRUE)
    cw_hand_trace_mark (list, CW_PEN_PREVIEW, none, &self->view, map, g_ptr_array_index (self->moving, i));
  if (self->n_points > 0 && self->rubber != NULL)
    {
      cw_hand_trace_mark (list, CW_PEN_PREVIEW, none, &self->view, map, self->rubber);
      any = TRUE;
    }
  if (self->offered != NULL && gtk_widget_get_visible (self->offer))
    {
      cw_hand_trace_mark (list, CW_PEN_PREVIEW, none, &self->view, map, self->offered->mark);
      any = TRUE;
    }
  if (self->drag == CW_DRAG_BOX || self->drag == CW_DRAG_AREA)
    {
      double box[4] = { self->press_x, self->press_y, self->pointer_x, self->pointer_y };

      if (self->drag == CW_DRAG_AREA)
        cw_table_get_area (self, box);
      cw_draw_list_begin (list, self->drag == CW_DRAG_AREA ? CW_PEN_PREVIEW : CW_PEN_HIDDEN, none);
      cw_draw_list_move (list, box[0], box[1]);
      cw_draw_list_line (list, box[2], box[1]);
      cw_draw_list_line (list, box[2], box[3]);
      cw_draw_list_line (list, box[0], box[3]);
      cw_draw_list_close (list);
      cw_draw_list_end (list);
      any = TRUE;
    }
  return any;
}

/* The place aimed at, as a small ring with a hair cross: where a press would begin or end the line. */
static gboolean
draw_aim (CwTable *self)
{
  double x, y;
  CwDrawList *list = self->over_list;
  static const CwId none = { CW_ID_NONE };

  if (self->tool == CW_TOOL_SELECT || cw_table_points_at_panels (self) || !self->pointer_in
      || (self->hover_on_card && self->n_points == 0) || self->drag == CW_DRAG_PUSH || self->drag == CW_DRAG_LOOK
      || self->drag == CW_DRAG_PULL
      || (self->n_points == 0 && cw_table_is_on_card_side (self, self->pointer_x, self->pointer_y)))
    return FALSE;
  cw_sheet_view_to_output (&self->view, cw_table_get_map (self), self->aim.at.x, self->aim.at.y, &x, &y);
  cw_draw_list_begin (list, CW_PEN_PREVIEW, none);
  cw_draw_list_arc (list, x, y, self->aim.word != NULL ? 6 : 4);
  cw_draw_list_end (list);
  return TRUE;
}

/* Words in a rounded box beside the pointer, kept on the table. Answers the box. */
static graphene_rect_t
tip_box (CwTable *self)
{
  int width, height, all_width = gtk_widget_get_width (GTK_WIDGET (self));
  int all_height = gtk_widget_get_height (GTK_WIDGET (self));
  double x, y;

  pango_layout_get_pixel_size (self->tip, &width, &height);
  width += 2 * TIP_PAD;
  height += 2 * TIP_PAD;
  x = self->pointer_x + TIP_OFF;
  y = self->pointer_y + TIP_OFF;
  if (x + width > all_width)
    x = MAX (0, self->pointer_x - TIP_OFF - width);
  if (y + height > all_height)
    y = MAX (0, self->pointer_y - TIP_OFF - height);
  return GRAPHENE_RECT_INIT ((float) floor (x), (float) floor (y), (float) width, (float) height);
}

static void
append_tip (CwTable *self, GtkSnapshot *snapshot)
{
  graphene_rect_t box;
  GskRoundedRect rounded;
  GdkRGBA back = colour (self->palette->ink, 0.94f), fore = colour (self->palette->table, 1);

  if (self->tip == NULL)
    {
      self->tip = gtk_widget_create_pango_layout (GTK_WIDGET (self), NULL);
      pango_layout_set_width (self->tip, TIP_WIDEST * PANGO_SCALE);
      pango_layout_set_wrap (self->tip, PANGO_WRAP_WORD_CHAR);
    }
  pango_layout_set_text (self->tip, self->tip_text, -1);
  box = tip_box (self);
  gsk_rounded_rect_init_from_rect (&rounded, &box, 7);
  gtk_snapshot_push_rounded_clip (snapshot, &rounded);
  gtk_snapshot_append_color (snapshot, &back, &box);
  gtk_snapshot_pop (snapshot);
  gtk_snapshot_save (snapshot);
  gtk_snapshot_translate (snapshot, &GRAPHENE_POINT_INIT (box.origin.x + TIP_PAD, box.origin.y + TIP_PAD));
  gtk_snapshot_append_layout (snapshot, self->tip, &fore);
  gtk_snapshot_restore (snapshot);
}

void
cw_table_snapshot_layers (CwTable *self, GtkSnapshot *snapshot)
{
  GtkWidget *widget = GTK_WIDGET (self);
  GdkRGBA table = colour (self->palette->table, 1);
  graphene_rect_t bounds;

  gtk_snapshot_append_color (snapshot, &table,
                             &GRAPHENE_RECT_INIT (0, 0, (float) gtk_widget_get_width (widget),
                                                  (float) gtk_widget_get_height (widget)));
  if (!cw_table_is_ready (self) || self->view.scale <= 0 || self->sheet_area.width < 1 || self->sheet_area.height < 1)
    return;

  if (self->sheet_node == NULL)
    self->sheet_node = sheet_node (self);
  gtk_snapshot_append_node (snapshot, self->sheet_node);
  if (self->card_node == NULL)
    {
      cw_table_draw_card_list (self);
      bounds = list_bounds (self, self->card_list);
      self->card_node = play_node (self->card_list, self->palette, &bounds);
    }
  gtk_snapshot_append_node (snapshot, self->card_node);
  if (self->over_node == NULL)
    {
      gboolean any = draw_over_list (self);

      any = draw_aim (self) || any;
      bounds = any ? list_bounds (self, self->over_list) : GRAPHENE_RECT_INIT (0, 0, 1, 1);
      self->over_node = play_node (self->over_list, self->palette, &bounds);
    }
  gtk_snapshot_append_node (snapshot, self->over_node);
  if (self->tip_text != NULL)
    append_tip (self, snapshot);
}
