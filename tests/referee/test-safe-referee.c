/* test-safe-referee.c: where glue may lie on layers of random cards, against areas from another geometry library.
 *
 * The cards are strips of three panels that fold one after the other, either way, and open again; panels and layers
 * have windows, layers hang over the edges and lie on one another. How such a strip lies is known without any solving:
 * a fold turns the list of sheets on one side of the crease over and lays it before or behind the others. From that
 * list Boost.Geometry (referee.cc) finds what a layer's face looks at in each state. Allowed between the two: crossings
 * of slanted edges are rounded to ticks here, 0.71 tick along the edges of a dozen sheets.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "glue/cw-safe-area.h"
#include "referee.h"

#include "card-fixture.h"

#include <math.h>

#define SEED 20240229
#define N_CARDS 250
#define UNIT 127 /* ticks in 1/64 in: everything is drawn on these */
#define SQ_INCH ((double) CW_TICKS_PER_INCH * CW_TICKS_PER_INCH)
#define TOLERANCE 0.004 /* square inches: 0.71 tick along 46 inches of edges */
#define N_LAYERS 3
#define MAX_WINDOWS 2
#define MAX_SHEETS (3 + N_LAYERS)

/* A panel or a layer, as drawn on the flat strip, 1/64 in. */
typedef struct
{
  double outline[8];
  guint n_windows, n_corners[MAX_WINDOWS];
  double windows[MAX_WINDOWS][8];
  guint group;   /* the panel it hangs on */
  int side;      /* layers: -1 on the front, towards the viewer; 1 on the back */
  double sx, tx; /* where it lies now: x -> sx x + tx */
} Sheet;

typedef struct
{
  gint32 score[2], width, height;
  int way[2]; /* 1 toward, -1 away */
  Sheet sheets[MAX_SHEETS];
  guint stack[MAX_SHEETS], n; /* from the viewer backwards */
} Strip;

static gint32
pick (GRand *rand, gint32 low, gint32 high)
{
  return low < high ? g_rand_int_range (rand, low, high + 1) : low;
}

static void
set_box (double *xy, gint32 x0, gint32 y0, gint32 x1, gint32 y1)
{
  const double corners[8] = { x0, y0, x1, y0, x1, y1, x0, y1 };

  memcpy (xy, corners, sizeof corners);
}

/* Boxes and triangles well inside. */
static void
add_windows (GRand *rand, Sheet *sheet)
{
  gint32 x0 = (gint32) sheet->outline[0] + 8, y0 = (gint32) sheet->outline[1] + 8;
  gint32 x1 = (gint32) sheet->outline[4] - 8, y1 = (gint32) sheet->outline[5] - 8;

  sheet->n_windows = 0;
  for (int tries = pick (rand, 0, MAX_WINDOWS); tries > 0; tries--)
    {
      double *xy = sheet->windows[sheet->n_windows];
      gint32 a = pick (rand, x0, x1 - 16), b = pick (rand, a + 12, x1), c = pick (rand, y0, y1 - 16),
             d = pick (rand, c + 12, y1);

      if (x1 - x0 < 40 || y1 - y0 < 40)
        return;
      /* One window a half, so that they keep apart. */
      if (sheet->n_windows == 1 && c < sheet->windows[0][5] + 8 && d > sheet->windows[0][1] - 8)
        return;
      set_box (xy, a, c, b, d);
      sheet->n_corners[sheet->n_windows++] = pick (rand, 0, 1) ? 4 : 3;
    }
}

static void
draw_strip (GRand *rand, Strip *strip)
{
  gint32 first = pick (rand, 64, 160), over = 40;

  strip->score[0] = first;
  strip->score[1] = first + pick (rand, first + over, 320);
  strip->width = strip->score[1] + pick (rand, 100, 400);
  strip->height = pick (rand, 100, 320);
  strip->n = 0;
  for (guint p = 0; p < 3; p++)
    {
      Sheet *panel = &strip->sheets[p];

      set_box (panel->outline, p == 0 ? 0 : strip->score[p - 1], 0, p == 2 ? strip->width : strip->score[p],
               strip->height);
      panel->group = p;
      add_windows (rand, panel);
      strip->stack[strip->n++] = p;
    }
  for (guint k = 0; k < N_LAYERS; k++)
    {
      Sheet *layer = &strip->sheets[3 + k];
      guint p = (guint) pick (rand, 0, 2);
      gint32 low = p == 0 ? -over : strip->score[p - 1], high = p == 2 ? strip->width + over : strip->score[p];
      gint32 x0 = pick (rand, low, high - 40), x1 = pick (rand, x0 + 30, high);
      gint32 y0 = pick (rand, -over, strip->height - 20), y1 = pick (rand, y0 + 30, strip->height + over);

      set_box (layer->outline, x0, y0, x1, y1);
      layer->group = p;
      layer->side = pick (rand, 0, 1) ? 1 : -1;
      add_windows (rand, layer);
      /* Outermost on the face it is stuck to. */
      if (layer->side < 0)
        memmove (strip->stack + 1, strip->stack, strip->n * sizeof (guint));
      strip->stack[layer->side < 0 ? 0 : strip->n] = 3 + k;
      strip->n++;
    }
  strip->way[0] = pick (rand, 0, 1) ? 1 : -1;
  strip->way[1] = pick (rand, 0, 1) ? 1 : -1;
  for (guint i = 0; i < MAX_SHEETS; i++)
    {
      strip->sheets[i].sx = 1;
      strip->sheets[i].tx = 0;
    }
}

/* What hangs on the panels before the crease is turned over and laid before the rest, or behind it. */
static void
fold (Strip *strip, guint crease)
{
  guint moved[MAX_SHEETS], rest[MAX_SHEETS], n_moved = 0, n_rest = 0;

  for (guint i = 0; i < strip->n; i++)
    {
      Sheet *sheet = &strip->sheets[strip->stack[i]];

      if (sheet->group > crease)
        {
          rest[n_rest++] = strip->stack[i];
          continue;
        }
      moved[n_moved++] = strip->stack[i];
      sheet->sx = -sheet->sx;
      sheet->tx = 2.0 * strip->score[crease] - sheet->tx;
    }
  for (guint i = 0; i < n_moved; i++)
    strip->stack[strip->way[crease] > 0 ? i : n_rest + i] = moved[n_moved - 1 - i];
  for (guint i = 0; i < n_rest; i++)
    strip->stack[strip->way[crease] > 0 ? n_moved + i : i] = rest[i];
}

/* The sheets that a layer's glued face looks at, nearest first, seen from the layer as it was drawn. */
static guint
look (const Strip *strip, guint layer, const RefereeRing windows[MAX_SHEETS][MAX_WINDOWS], RefereeLaid *laid)
{
  const Sheet *own = &strip->sheets[layer];
  int step = own->sx > 0 ? -own->side : own->side;
  guint at = 0, n = 0;

  while (strip->stack[at] != layer)
    at++;
  for (int i = (int) at + step; i >= 0 && i < (int) strip->n; i += step)
    {
      const Sheet *sheet = &strip->sheets[strip->stack[i]];

      laid[n++] = (RefereeLaid){ { 4, sheet->outline },           sheet->n_windows,
                                 windows[strip->stack[i]],        own->sx * sheet->sx,
                                 own->sx * (sheet->tx - own->tx), strip->stack[i] == own->group };
    }
  return n;
}

/* ---- The same as a design ---- */

static void
write_points (GString *text, const double *xy, guint n, double dx, double dy)
{
  for (guint i = 0; i < n; i++)
    g_string_append_printf (text, "%s['%d/64','%d/64']", i > 0 ? "," : "", (int) (xy[2 * i] - dx),
                            (int) (xy[2 * i + 1] - dy));
}

static void
write_windows (GString *text, const Sheet *sheet, const char *id, double dx, double dy, gboolean *first)
{
  for (guint w = 0; w < sheet->n_windows; w++)
    {
      g_string_append_printf (text, "%s{ 'id': '%s%u', 'kind': 'window', 'line': [", *first ? "" : ",", id, w);
      write_points (text, sheet->windows[w], sheet->n_corners[w], dx, dy);
      g_string_append (text, "] }");
      *first = FALSE;
    }
}

/* A place on a panel that no window takes: its edge is 8/64 in from all of them. */
static void
inside (const Sheet *sheet, char *place, gsize size)
{
  g_snprintf (place, size, "['%d/64','%d/64']", (int) sheet->outline[0] + 4, (int) sheet->outline[1] + 4);
}

static CwMotion *
make (const Strip *strip)
{
  g_autoptr (GString) text
    = g_string_new (CARD_HEAD CARD_INCH "'pieces': [ { 'id': 'base', 'ground': true, 'outline': [");
  double all[8];
  char place[64];
  gboolean first = FALSE;

  set_box (all, 0, 0, strip->width, strip->height);
  write_points (text, all, 4, 0, 0);
  inside (&strip->sheets[2], place, sizeof place);
  g_string_append_printf (text, "], 'hold': %s, 'marks': [", place);
  for (guint c = 0; c < 2; c++)
    g_string_append_printf (
      text, "%s{ 'id': 's%u', 'kind': 'score', 'fold': '%s', 'line': [['%d/64','0'],['%d/64','%d/64']] }",
      c > 0 ? "," : "", c, strip->way[c] > 0 ? "toward" : "away", strip->score[c], strip->score[c], strip->height);
  for (guint p = 0; p < 3; p++)
    {
      g_autofree char *id = g_strdup_printf ("w%u-", p);

      write_windows (text, &strip->sheets[p], id, 0, 0, &first);
    }
  g_string_append (text, "] }");
  for (guint k = 0; k < N_LAYERS; k++)
    {
      const Sheet *layer = &strip->sheets[3 + k];

      g_string_append_printf (text, ", { 'id': 'l%u', 'outline': [", k);
      write_points (text, layer->outline, 4, layer->outline[0], layer->outline[1]);
      g_string_append (text, "], 'hold': ['4/64','4/64'], 'marks': [");
      first = TRUE;
      write_windows (text, layer, "w", layer->outline[0], layer->outline[1], &first);
      g_string_append (text, "] }");
    }
  g_string_append (text, " ], 'steps': [");
  for (guint k = 0; k < N_LAYERS; k++)
    {
      const Sheet *layer = &strip->sheets[3 + k];

      inside (&strip->sheets[layer->group], place, sizeof place);
      g_string_append_printf (text,
                              "%s{ 'id': 'k%u', 'do': 'stick', 'piece': 'l%u', 'on': { 'piece': 'base', 'panel': %s,"
                              " 'face': '%s' }, 'facing': '%s', 'at': ['%d/64','%d/64'], 'overhang': 'meant' }",
                              k > 0 ? "," : "", k, k, place, layer->side < 0 ? "front" : "back",
                              layer->side < 0 ? "back" : "front", (int) layer->outline[0], (int) layer->outline[1]);
    }
  for (guint i = 0; i < 4; i++)
    g_string_append_printf (text, ", { 'id': 'f%u', 'do': 'fold', 'folds': [ { 'score': 'base/s%d', 'to': %d } ] }", i,
                            i == 0 || i == 3 ? 0 : 1, i < 2 ? 180 : 0);
  g_string_append (text, " ] }");
  return card_motion (text->str);
}

static double
sq_in (const CwRegion *region)
{
  return (double) cw_region_area2 (region) / 2 / SQ_INCH;
}

static void
test_areas (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (SEED);
  guint n_partly = 0, n_never = 0;

  for (guint round = 0; round < N_CARDS; round++)
    {
      Strip strip;
      RefereeRing windows[MAX_SHEETS][MAX_WINDOWS];
      g_autoptr (CwMotion) motion = NULL;
      g_autoptr (CwFlatStates) states = NULL;

      draw_strip (rand, &strip);
      for (guint i = 0; i < MAX_SHEETS; i++)
        for (guint w = 0; w < MAX_WINDOWS; w++)
          windows[i][w] = (RefereeRing){ strip.sheets[i].n_corners[w], strip.sheets[i].windows[w] };
      motion = make (&strip);
      states = cw_flat_states_new (motion);
      g_assert_cmpuint (cw_panel_set_n_panels (cw_motion_get_set (motion)), ==, MAX_SHEETS);
      for (guint k = 0; k < N_LAYERS; k++)
        {
          const Sheet *layer = &strip.sheets[3 + k];
          Strip now = strip;
          RefereeLaid laid[3 * MAX_SHEETS], own = { { 4, layer->outline }, layer->n_windows, windows[3 + k], 1, 0, 0 };
          guint n_laid[3], n = 0;
          double hand = pick (rand, 1, 6), areas[4], whole = 0;
          gboolean hosts[MAX_SHEETS] = { FALSE };
          CwSafeAsk ask = { .panel = 3 + k,
                            .face = layer->side < 0 ? CW_FACE_BACK : CW_FACE_FRONT,
                            .first = N_LAYERS - 1, /* all are stuck before the first fold */
                            .last = G_MAXUINT - 1,
                            .hosts = hosts };
          CwSafeArea area;

          for (guint state = 0; state < 3; state++)
            {
              n_laid[state] = look (&now, 3 + k, (const RefereeRing (*)[MAX_WINDOWS]) windows, laid + n);
              n += n_laid[state];
              if (state < 2)
                fold (&now, state);
            }
          referee_safe (&own, 3, n_laid, laid, hand, areas);
          for (int i = 0; i < 4; i++)
            areas[i] *= (double) UNIT * UNIT / SQ_INCH;

          hosts[layer->group] = TRUE;
          area = cw_safe_area_find (states, &ask);
          g_test_message ("card %u, layer %u on panel %u: safe %.4f and %.4f, never %.4f and %.4f", round, k,
                          layer->group, sq_in (&area.safe), areas[0], sq_in (&area.never), areas[1]);
          g_assert_cmpfloat_with_epsilon (sq_in (&area.safe), areas[0], TOLERANCE);
          g_assert_cmpfloat_with_epsilon (sq_in (&area.never), areas[1], TOLERANCE);
          whole = (double) cw_panel_set_get_panel (cw_motion_get_set (motion), 3 + k)->area2 / 2 / SQ_INCH;
          n_partly += areas[0] > 0.1 && areas[0] < whole - 0.1;
          n_never += areas[1] > 0.1;
          cw_safe_area_clear (&area);

          /* Kept away by the hand: no nearer anywhere than round corners would be, no farther than mitres. */
          ask.hand = (gint32) hand * UNIT;
          area = cw_safe_area_find (states, &ask);
          g_assert_cmpfloat (sq_in (&area.safe), <=, areas[2] + TOLERANCE);
          g_assert_cmpfloat (sq_in (&area.safe), >=, areas[3] - TOLERANCE);
          cw_safe_area_clear (&area);
        }
    }
  /* The cards ask something. */
  g_assert_cmpuint (n_partly, >, N_CARDS);
  g_assert_cmpuint (n_never, >, N_CARDS / 2);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/referee/safe-areas", test_areas);
  return g_test_run ();
}
