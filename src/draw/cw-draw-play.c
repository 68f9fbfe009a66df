/* cw-draw-play.c: plays a draw list on a cairo context: screen, image, SVG, PDF.
 *
 * Hatching and dots are drawn as lines within the item's path, so that prints and vector files stay sharp. Dash
 * patterns keep the lengths of their standard; only where they start is chosen, so that even a short score shows the
 * element that tells its kind.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-draw-play.h"

#include <math.h>
#include <pango/pangocairo.h>

#include "cw-draw-list-private.h"
#include "cw-pen.h"

#define FONT "sans-serif"
#define SHADOW_ALPHA 0.16

static void
set_source (cairo_t *cr, guint32 rgb, double alpha)
{
  cairo_set_source_rgba (cr, ((rgb >> 16) & 0xff) / 255.0, ((rgb >> 8) & 0xff) / 255.0, (rgb & 0xff) / 255.0, alpha);
}

static void
trace_path (const CwDrawList *list, const CwItem *item, cairo_t *cr)
{
  cairo_new_path (cr);
  for (guint i = 0; i < item->n_ops; i++)
    {
      const CwOp *op = &g_array_index (list->ops, CwOp, item->first_op + i);
      const double *v = op->v;
      switch (op->kind)
        {
        case CW_OP_MOVE:
          cairo_move_to (cr, v[0], v[1]);
          break;
        case CW_OP_LINE:
          cairo_line_to (cr, v[0], v[1]);
          break;
        case CW_OP_ARC:
          if (v[4] >= 0)
            cairo_arc (cr, v[0], v[1], v[2], v[3], v[3] + v[4]);
          else
            cairo_arc_negative (cr, v[0], v[1], v[2], v[3], v[3] + v[4]);
          break;
        case CW_OP_CLOSE:
          cairo_close_path (cr);
          break;
        default:
          g_assert_not_reached ();
        }
    }
}

/* Lines at 45 degrees, anchored to the origin so that neighbouring areas match. */
static void
hatch (cairo_t *cr, double spacing, gboolean crossed)
{
  double x0, y0, x1, y1;

  cairo_save (cr);
  cairo_path_extents (cr, &x0, &y0, &x1, &y1);
  cairo_clip (cr);
  cairo_new_path (cr);
  for (double c = floor ((x0 + y0) / spacing) * spacing; c <= x1 + y1; c += spacing)
    {
      cairo_move_to (cr, c - y0, y0);
      cairo_line_to (cr, c - y1, y1);
    }
  for (double c = floor ((x0 - y1) / spacing) * spacing; crossed && c <= x1 - y0; c += spacing)
    {
      cairo_move_to (cr, c + y0, y0);
      cairo_line_to (cr, c + y1, y1);
    }
  cairo_stroke (cr);
  cairo_restore (cr);
}

static void
dots (cairo_t *cr, double spacing, double diameter)
{
  const double none_then_gap[2] = { 0, spacing };
  double x0, y0, x1, y1;

  cairo_save (cr);
  cairo_path_extents (cr, &x0, &y0, &x1, &y1);
  cairo_clip (cr);
  cairo_new_path (cr);
  cairo_set_line_cap (cr, CAIRO_LINE_CAP_ROUND);
  cairo_set_line_width (cr, diameter);
  cairo_set_dash (cr, none_then_gap, 2, 0);
  x0 = floor (x0 / spacing) * spacing;
  int row = 0;
  for (double y = floor (y0 / spacing) * spacing; y <= y1; y += spacing, row++)
    {
      cairo_move_to (cr, x0 - (row % 2 != 0 ? spacing / 2 : 0), y);
      cairo_line_to (cr, x1 + spacing, y);
    }
  cairo_stroke (cr);
  cairo_restore (cr);
}

/* Anchored to the origin as hatching is. */
static void
level_lines (cairo_t *cr, double spacing)
{
  double x0, y0, x1, y1;

  cairo_save (cr);
  cairo_path_extents (cr, &x0, &y0, &x1, &y1);
  cairo_clip (cr);
  cairo_new_path (cr);
  for (double y = floor (y0 / spacing) * spacing; y <= y1; y += spacing)
    {
      cairo_move_to (cr, x0, y);
      cairo_line_to (cr, x1, y);
    }
  cairo_stroke (cr);
  cairo_restore (cr);
}

static void
play_path (const CwDrawList *list, const CwItem *item, const CwPalette *palette, cairo_t *cr)
{
  const CwPenStyle *style = cw_pen_get_style (item->pen);
  guint32 colour = item->has_colour ? item->colour : cw_pen_get_colour (item->pen, palette, item->ground);
  double width = style->width_mm * CW_PT_PER_MM * palette->line_scale;
  guint32 under = item->ground == CW_GROUND_TABLE ? palette->table : item->ground;

  if (item->shade < 1)
    colour = cw_colour_mix (0x000000, colour, item->shade);

  trace_path (list, item, cr);
  set_source (cr, colour, 1);
  cairo_set_line_width (cr, width);

  switch (style->fill)
    {
    case CW_FILL_SOLID:
      if (item->pen == CW_PEN_SHADOW)
        {
          cairo_set_fill_rule (cr, CAIRO_FILL_RULE_WINDING);
          set_source (cr, colour, SHADOW_ALPHA);
          cairo_fill (cr);
          cairo_set_fill_rule (cr, CAIRO_FILL_RULE_EVEN_ODD);
          return;
        }
      if (item->pen == CW_PEN_HANDLE)
        set_source (cr, under, 1);
      cairo_fill_preserve (cr);
      set_source (cr, colour, 1);
      break;
    case CW_FILL_HATCH:
    case CW_FILL_CROSS:
      hatch (cr, CW_HATCH_SPACING, style->fill == CW_FILL_CROSS);
      trace_path (list, item, cr);
      break;
    case CW_FILL_DOTS:
      dots (cr, CW_DOT_SPACING, 1.3 * palette->line_scale);
      trace_path (list, item, cr);
      break;
    case CW_FILL_OPEN_DOTS:
      dots (cr, CW_OPEN_DOT_SPACING, 2.4 * palette->line_scale);
      trace_path (list, item, cr);
      break;
    case CW_FILL_LINES:
      level_lines (cr, CW_LINE_SPACING);
      trace_path (list, item, cr);
      break;
    case CW_FILL_NONE:
    default:
      break;
    }

  if (style->line == CW_LINE_NONE)
    {
      cairo_new_path (cr);
      return;
    }

  double dashes[4], centre;
  guint n = cw_line_get_dashes (style->line, dashes, &centre);
  if (n > 0)
    {
      gboolean one;
      double length = cw_item_get_length (list, item, &one), period = 0, offset = 0;
      for (guint i = 0; i < n; i++)
        period += dashes[i] *= width;
      if (one)
        offset = fmod (centre * width - length / 2, period);
      if (offset < 0)
        offset += period;
      cairo_set_dash (cr, dashes, (int) n, offset);
    }
  if (item->pen == CW_PEN_SELECTED)
    {
      /* Two lines beside the mark, its own ground between them: seen whatever the mark's ink is. */
      cairo_stroke_preserve (cr);
      cairo_set_line_width (cr, width - 2 * 1.6 * palette->line_scale);
      set_source (cr, under, 1);
    }
  /* Many hairs: their exact edge is not seen, their number is felt. */
  cairo_set_antialias (cr, item->pen == CW_PEN_PATTERN ? CAIRO_ANTIALIAS_FAST : CAIRO_ANTIALIAS_DEFAULT);
  cairo_stroke (cr);
  if (n > 0)
    cairo_set_dash (cr, NULL, 0, 0);
}

static void
play_text (const CwDrawList *list, const CwItem *item, const CwPalette *palette, PangoLayout *layout,
           PangoFontDescription *font, cairo_t *cr)
{
  guint32 colour = item->has_colour ? item->colour : cw_pen_get_colour (item->pen, palette, item->ground);
  int width, height;

  pango_font_description_set_absolute_size (font, item->size * PANGO_SCALE);
  pango_font_description_set_weight (font, item->pen == CW_PEN_TITLE ? PANGO_WEIGHT_BOLD : PANGO_WEIGHT_NORMAL);
  pango_layout_set_font_description (layout, font);
  pango_layout_set_text (layout, list->words->str + item->text, -1);
  pango_layout_get_size (layout, &width, &height);

  double w = (double) width / PANGO_SCALE, baseline = (double) pango_layout_get_baseline (layout) / PANGO_SCALE;
  double left = item->anchor == CW_ANCHOR_START ? 0 : item->anchor == CW_ANCHOR_MIDDLE ? -w / 2 : -w;

  cairo_save (cr);
  cairo_translate (cr, item->x, item->y);
  cairo_rotate (cr, item->angle_deg * G_PI / 180);
  if (item->pen == CW_PEN_FIGURE)
    {
      set_source (cr, item->ground == CW_GROUND_TABLE ? palette->table : item->ground, 1);
      cairo_rectangle (cr, left - 2, -item->size * 0.82, w + 4, item->size * 1.04);
      cairo_fill (cr);
    }
  set_source (cr, colour, 1);
  cairo_move_to (cr, left, -baseline);
  pango_cairo_show_layout (cr, layout);
  cairo_restore (cr);
}

/**
 * cw_draw_play:
 * @list: what to draw
 * @palette: colours of the surroundings; the table itself is not painted
 * @cr: where to; units are the list's
 */
void
cw_draw_play (const CwDrawList *list, const CwPalette *palette, cairo_t *cr)
{
  PangoLayout *layout = NULL;
  PangoFontDescription *font = NULL;

  g_return_if_fail (list != NULL && palette != NULL && cr != NULL);

  cairo_save (cr);
  cairo_set_fill_rule (cr, CAIRO_FILL_RULE_EVEN_ODD);
  cairo_set_line_cap (cr, CAIRO_LINE_CAP_BUTT);
  cairo_set_line_join (cr, CAIRO_LINE_JOIN_ROUND);
  for (guint i = 0; i < list->items->len; i++)
    {
      const CwItem *item = &g_array_index (list->items, CwItem, i);
      if (item->pen == CW_PEN_PICK)
        continue;
      if (item->pen == CW_PEN_CLIP)
        {
          cairo_save (cr);
          trace_path (list, item, cr);
          cairo_clip (cr);
        }
      else if (item->pen == CW_PEN_UNCLIP)
        cairo_restore (cr);
      else if (item->text == G_MAXUINT)
        play_path (list, item, palette, cr);
      else
        {
          if (layout == NULL)
            {
              layout = pango_cairo_create_layout (cr);
              font = pango_font_description_from_string (FONT);
            }
          play_text (list, item, palette, layout, font, cr);
        }
    }
  cairo_restore (cr);
  g_clear_object (&layout);
  g_clear_pointer (&font, pango_font_description_free);
}
