/* test-card-sweep.c: many small cards against plain arithmetic of rectangles.
 *
 * Half folds, gates, Z folds and letter folds with a window, with layers on either face, at any quarter turn, mirrored
 * or not, some hanging over an edge, some folded before they are stuck on, some stuck on the closed card. All measures
 * are whole quarter inches, so a card is a handful of rectangles on a grid: a fold mirrors those of one side, turns
 * their order round and lays them on the rest. Held against this, at the middle of every square of the grid: the whole
 * stack with its faces; and the closed size, the area of every face from both sides, how far the card is too big for
 * its wanted size and its envelope, and how far a layer stands over all other paper. Nothing here is shared with the
 * kernel. Seed 20260712, our own.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "card-fixture.h"
#include "sight/cw-sight.h"

#define QUARTER (CW_TICKS_PER_INCH / 4)
#define CARDS 160
#define SEED 20260712
#define ITEMS 16
/* The grid reaches from -LOW to HIGH quarter inches. */
#define LOW 48
#define HIGH 96

/* One panel as it lies. */
typedef struct
{
  int piece, panel;
  int x0, y0, x1, y1;
  int hole[4]; /* as it lies; empty without a window */
  int carrier; /* panel of the base that it goes with */
  gboolean front_up;
} Item;

typedef struct
{
  GString *pieces, *steps;
  Item items[ITEMS]; /* top to bottom, as seen from -z */
  int n_items, n_pieces;
  int height;
  int
    over[8]; /* of each layer: how far it stands over when it is laid, in hundredths of a quarter inch; -1: not asked */
} Card;

static void
insert (Card *card, int at, Item item)
{
  g_assert_cmpint (card->n_items, <, ITEMS);
  for (int i = card->n_items; i > at; i--)
    card->items[i] = card->items[i - 1];
  card->items[at] = item;
  card->n_items++;
}

static void
mirror (Item *item, int fold)
{
  int x0 = item->x0, h0 = item->hole[0];

  item->x0 = 2 * fold - item->x1;
  item->x1 = 2 * fold - x0;
  item->hole[0] = 2 * fold - item->hole[2];
  item->hole[2] = 2 * fold - h0;
  item->front_up = !item->front_up;
}

/* Folds all that goes with base panels first .. last about the line x = fold, over (-z) or under the rest. */
static void
fold (Card *card, int first, int last, int at, gboolean over)
{
  Item moved[ITEMS], rest[ITEMS];
  int n_moved = 0, n_rest = 0, n = 0;

  for (int i = 0; i < card->n_items; i++)
    if (card->items[i].carrier >= first && card->items[i].carrier <= last)
      moved[n_moved++] = card->items[i];
    else
      rest[n_rest++] = card->items[i];
  for (int i = 0; i < n_moved; i++)
    mirror (&moved[i], at);
  for (int i = 0; !over && i < n_rest; i++)
    card->items[n++] = rest[i];
  for (int i = n_moved; i-- > 0;)
    card->items[n++] = moved[i];
  for (int i = 0; over && i < n_rest; i++)
    card->items[n++] = rest[i];
}

static gboolean
covers (const Item *item, int x, int y)
{
  return x >= item->x0 && x < item->x1 && y >= item->y0 && y < item->y1
         && !(x >= item->hole[0] && x < item->hole[2] && y >= item->hole[1] && y < item->hole[3]);
}

/* Where (u, v) of a layer comes to on its host, quarter inches, and whether its front looks the way the host's does. */
static void
land (int u, int v, int at_x, int at_y, int turn, gboolean on_front, gboolean mirrored, int *x, int *y)
{
  if (mirrored)
    u = -u;
  for (int i = 0; i < turn; i++)
    {
      int w = u;

      /* Clockwise for who looks at that face. */
      u = on_front ? -v : v;
      v = on_front ? w : -w;
    }
  *x = at_x + u;
  *y = at_y + v;
}

static Item
lay (int w0, int w1, int h, int at_x, int at_y, int turn, gboolean on_front, gboolean mirrored)
{
  Item item = { 0 };
  int ax, ay, bx, by;

  land (w0, 0, at_x, at_y, turn, on_front, mirrored, &ax, &ay);
  land (w1, h, at_x, at_y, turn, on_front, mirrored, &bx, &by);
  item.x0 = MIN (ax, bx);
  item.x1 = MAX (ax, bx);
  item.y0 = MIN (ay, by);
  item.y1 = MAX (ay, by);
  /* Laid on a front with its back: its front is up; turned over, or under a back, it is the other way round. */
  item.front_up = !mirrored;
  return item;
}

/* How far the layer stands over all that lies there already, by the corners of the grid; windows count as paper. */
static int
stand_over (const Card *card, const Item *layers, int n_layers)
{
  double most = 0;

  for (int k = 0; k < n_layers; k++)
    for (int x = layers[k].x0; x <= layers[k].x1; x++)
      for (int y = layers[k].y0; y <= layers[k].y1; y++)
        {
          double least = 1e9;

          for (int i = 0; i < card->n_items; i++)
            {
              const Item *under = &card->items[i];
              double dx = MAX (0, MAX (under->x0 - x, x - under->x1)), dy = MAX (0, MAX (under->y0 - y, y - under->y1));

              least = MIN (least, hypot (dx, dy));
            }
          most = MAX (most, least);
        }
  return (int) lround (most * 100);
}

/* A layer on a panel of the base that lies as drawn, or (closed) on the outside of the closed card. */
static void
stick (Card *card, GRand *rand, int panel, int left, int right, gboolean hang_left, gboolean hang_right)
{
  int w = g_rand_int_range (rand, 2, right - left + 1), h = g_rand_int_range (rand, 2, card->height + 1);
  int turn = g_rand_int_range (rand, 0, 4), piece = card->n_pieces, x0, x1, y0;
  gboolean on_front = g_rand_boolean (rand), facing_front = g_rand_boolean (rand), mirrored = on_front == facing_front;
  gboolean doubled = w >= 4 && g_rand_int_range (rand, 0, 3) == 0, away = g_rand_boolean (rand);
  int score = doubled ? g_rand_int_range (rand, (w + 1) / 2, w) : w;
  Item base, sheet[2];
  int at_x, at_y, n = 1;

  if (turn % 2 == 1)
    {
      int swap = MIN (h, right - left);
      h = MIN (w, card->height);
      w = swap;
      score = w;
      doubled = FALSE;
    }
  base = lay (0, score, h, 0, 0, turn, on_front, mirrored);
  /* The box it is to take up, within the panel but for an edge it may hang over. */
  x0 = g_rand_int_range (rand, left - (hang_left ? 3 : 0), right - (base.x1 - base.x0) + (hang_right ? 3 : 0) + 1);
  x1 = x0 + base.x1 - base.x0;
  y0 = g_rand_int_range (rand, -3, card->height - (base.y1 - base.y0) + 4);
  if (x1 <= left + 1 || x0 >= right - 1)
    return;
  at_x = x0 - base.x0;
  at_y = y0 - base.y0;
  sheet[0] = lay (0, score, h, at_x, at_y, turn, on_front, mirrored);
  sheet[0].piece = piece;
  sheet[0].carrier = panel;
  if (doubled)
    {
      /* What lies right of the score comes to lie on the rest; which of the two numbers it has is told by the left. */
      sheet[1] = lay (2 * score - w, score, h, at_x, at_y, turn, on_front, mirrored);
      sheet[1].piece = piece;
      sheet[1].panel = 1;
      sheet[1].carrier = panel;
      sheet[1].front_up = !sheet[1].front_up;
      n = 2;
    }
  g_string_append_printf (card->pieces,
                          ", { 'id': 'p%d', 'outline': [['0','0'],['%d/4','0'],['%d/4','%d/4'],['0','%d/4']], 'hold':"
                          " ['1/8','1/8'], 'marks': [",
                          piece, w, w, h, h);
  if (doubled)
    g_string_append_printf (card->pieces,
                            " { 'id': 's', 'kind': 'score', 'fold': '%s', 'line': [['%d/4','0'],['%d/4','%d/4']] }",
                            away ? "away" : "toward", score, score, h);
  g_string_append (card->pieces, "] }");
  if (doubled)
    g_string_append_printf (card->steps,
                            "{ 'id': 'd%d', 'do': 'fold', 'folds': [ { 'score': 'p%d/s', 'to': 180 } ] }, ", piece,
                            piece);
  g_string_append_printf (card->steps,
                          "{ 'id': 'l%d', 'do': 'stick', 'piece': 'p%d', 'on': { 'piece': 'base', 'panel': ['%d/8',"
                          "'1/8'], 'face': '%s' }, 'facing': '%s', 'at': ['%d/4','%d/4'], 'turn': %d }, ",
                          piece, piece, left + right, on_front ? "front" : "back", facing_front ? "front" : "back",
                          at_x, at_y, turn * 90);
  card->over[piece] = stand_over (card, sheet, n);
  /* Outermost on that face; what is folded over it on the outside, or between it and the host. */
  for (int i = 0; i < n; i++)
    {
      gboolean between = i == 1 && (away != facing_front);

      /* Folded away its back is covered. Facing the host with that side, the folded part lies nearer to the host. */
      if (on_front)
        insert (card, between ? 1 : 0, sheet[i]);
      else
        insert (card, between ? card->n_items - 1 : card->n_items, sheet[i]);
    }
  card->n_pieces++;
}

static void
make (Card *card, GRand *rand, int kind, int widths[3], int *n_panels, int *held)
{
  static const char *const ways[4][2]
    = { { "toward", NULL }, { "toward", "toward" }, { "toward", "away" }, { "toward", "toward" } };
  int x = 0;
  gboolean window = g_rand_boolean (rand);

  *n_panels = kind == 0 ? 2 : 3;
  card->height = g_rand_int_range (rand, 8, 20);
  for (int i = 0; i < 3; i++)
    widths[i] = g_rand_int_range (rand, 8, 18);
  if (kind == 1) /* doors that meet at most */
    widths[1] = widths[0] + widths[2] + g_rand_int_range (rand, 0, 3);
  if (kind == 3) /* what is turned in is shorter */
    widths[2] = MIN (widths[2], widths[1] - 1);
  if (kind == 2) /* in a Z nothing reaches beyond the fold of another */
    widths[1] = MAX (widths[1], widths[0]);
  *held = kind == 2 ? 2 : 1;
  for (int i = 0; i < *n_panels; i++)
    {
      Item item = { 0, i, x, 0, x + widths[i], card->height, { 0, 0, 0, 0 }, i, TRUE };

      if (i == 0 && window)
        {
          item.hole[0] = x + 2;
          item.hole[1] = 2;
          item.hole[2] = x + 5;
          item.hole[3] = 6;
        }
      insert (card, card->n_items, item);
      x += widths[i];
    }
  g_string_append_printf (
    card->pieces,
    "{ 'id': 'base', 'ground': true, 'outline': [['0','0'],['%d/4','0'],['%d/4','%d/4'],['0','%d/4']], 'marks': [ %s",
    x, x, card->height, card->height,
    window ? "{ 'id': 'w', 'kind': 'window', 'rect': [['2/4','2/4'],['5/4','6/4']] }," : "");
  x = 0;
  for (int i = 0; i + 1 < *n_panels; i++)
    {
      x += widths[i];
      g_string_append_printf (
        card->pieces, "%s{ 'id': 's%d', 'kind': 'score', 'fold': '%s', 'line': [['%d/4','0'],['%d/4','%d/4']] }",
        i > 0 ? "," : "", i, ways[kind][i], x, x, card->height);
    }
  x = 0;
  for (int i = 0; i < *held; i++)
    x += widths[i];
  g_string_append_printf (card->pieces, " ], 'hold': ['%d/8','1/8'] }", 2 * x + 1);
}

static void
add_fold (Card *card, int score, gboolean last)
{
  g_string_append_printf (card->steps,
                          "{ 'id': '%s%d', 'do': 'fold', %s 'folds': [ { 'score': 'base/s%d', 'to': 180 } ] }%s",
                          last ? "shut" : "f", score, last ? "'rest': 'closed'," : "", score, last ? "" : ", ");
}

static const CwFinding *
find (const CwFlatStates *states, CwFindingCode code, const char *step)
{
  GPtrArray *findings = cw_flat_states_get_findings (states);

  for (guint i = 0; i < findings->len; i++)
    {
      const CwFinding *finding = g_ptr_array_index (findings, i);

      if (finding->code == code && (step == NULL || g_str_equal (finding->step, step)))
        return finding;
    }
  return NULL;
}

/* How far w x h is too big for most_w x most_h, either way round; quarter inches. */
static int
too_big (int w, int h, int most_w, int most_h)
{
  int plain = MAX (w - most_w, h - most_h), turned = MAX (w - most_h, h - most_w);

  return MAX (0, MIN (plain, turned));
}

static void
assert_amount (const CwFinding *finding, int quarters)
{
  if (quarters == 0)
    g_assert_null (finding);
  else
    {
      g_assert_nonnull (finding);
      g_assert_cmpfloat_with_epsilon (finding->amount / QUARTER, quarters, 1e-3);
    }
}

static void
hold_against (const Card *card, const CwMotion *motion, const CwFlatStates *states, int size_w, int size_h)
{
  const CwPanelSet *set = cw_motion_get_set (motion);
  guint step = cw_motion_get_n_steps (motion) - 1;
  const CwFlatState *state = cw_flat_states_get (states, step);
  int box[4] = { 999, 999, -999, -999 }, seen[2][ITEMS][2][2] = { 0 };

  g_assert_true (state->flat);
  for (int x = -LOW; x < HIGH; x++)
    for (int y = -LOW; y < HIGH; y++)
      {
        const CwCell *cell = NULL;
        guint n = 0;
        int top = -1, bottom = -1;

        for (guint i = 0; i < state->cells->len && cell == NULL; i++)
          if (cw_polygon_contains (&g_array_index (state->cells, CwCell, i).outline, (x + 0.5) * QUARTER,
                                   (y + 0.5) * QUARTER))
            cell = &g_array_index (state->cells, CwCell, i);
        for (int i = 0; i < card->n_items; i++)
          {
            const Item *item = &card->items[i];
            guint piece, panel;

            if (!covers (item, x, y))
              continue;
            top = top < 0 ? i : top;
            bottom = i;
            g_assert_nonnull (cell);
            g_assert_cmpuint (n, <, cell->n_layers);
            cw_panel_set_locate (set, cell->layers[n].panel, &piece, &panel);
            g_assert_cmpint ((int) piece, ==, item->piece);
            g_assert_cmpint ((int) panel, ==, item->panel);
            g_assert_cmpint (cell->layers[n].face_up, ==, item->front_up ? CW_FACE_FRONT : CW_FACE_BACK);
            n++;
          }
        g_assert_cmpuint (cell != NULL ? cell->n_layers : 0, ==, n);
        if (n == 0)
          continue;
        box[0] = MIN (box[0], x);
        box[1] = MIN (box[1], y);
        box[2] = MAX (box[2], x + 1);
        box[3] = MAX (box[3], y + 1);
        seen[0][card->items[top].piece][card->items[top].panel & 1][card->items[top].front_up ? 0 : 1]++;
        seen[1][card->items[bottom].piece][card->items[bottom].panel & 1][card->items[bottom].front_up ? 1 : 0]++;
      }
  for (int k = 0; k < 4; k++)
    g_assert_cmpint (state->box[k], ==, box[k] * QUARTER);
  for (int from = 0; from < 2; from++)
    {
      g_autoptr (GArray) areas = cw_sight_flat (state, from == 0 ? CW_FACE_FRONT : CW_FACE_BACK);
      gint64 got[ITEMS][2][2] = { 0 };

      for (guint i = 0; i < areas->len; i++)
        {
          const CwSeen *own = &g_array_index (areas, CwSeen, i);
          guint piece, panel;

          cw_panel_set_locate (set, own->panel, &piece, &panel);
          got[piece][panel & 1][own->face == CW_FACE_FRONT ? 0 : 1] += own->area2;
        }
      for (int p = 0; p < card->n_pieces; p++)
        for (int k = 0; k < 2; k++)
          for (int f = 0; f < 2; f++)
            g_assert_cmpint (got[p][k][f], ==, (gint64) seen[from][p][k][f] * QUARTER * QUARTER * 2);
    }
  assert_amount (find (states, CW_FINDING_STICKS_OUT, NULL),
                 too_big (box[2] - box[0], box[3] - box[1], size_w, size_h));
  assert_amount (find (states, CW_FINDING_TOO_BIG_FOR_ENVELOPE, NULL),
                 too_big (box[2] - box[0], box[3] - box[1], size_w + 1, size_h + 1));
}

static void
test_sweep (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (SEED);
  guint n_layers = 0, n_over = 0;

  for (int c = 0; c < CARDS; c++)
    {
      Card card = { g_string_new (NULL), g_string_new (NULL), .n_pieces = 1 };
      int kind = c % 4, widths[3], n_panels, held, left = 0, size_w, size_h;
      g_autofree char *text = NULL;
      g_autoptr (CwMotion) motion = NULL;
      g_autoptr (CwFlatStates) states = NULL;

      make (&card, rand, kind, widths, &n_panels, &held);
      for (int i = 0; i < n_panels; i++)
        {
          if (i > 0)
            left += widths[i - 1];
          if (g_rand_int_range (rand, 0, 4) > 0)
            stick (&card, rand, i, left, left + widths[i], i == 0 && kind == 0, i + 1 == n_panels && kind == 0);
        }
      if (kind == 0 || kind == 2)
        {
          gboolean single = kind == 0;

          add_fold (&card, 0, single);
          fold (&card, 0, 0, widths[0], TRUE);
          if (!single)
            {
              add_fold (&card, 1, TRUE);
              fold (&card, 0, 1, widths[0] + widths[1], FALSE);
            }
        }
      else
        {
          /* Letter: the right panel first. Gate: either. */
          gboolean right = kind == 3 || g_rand_boolean (rand);

          add_fold (&card, right ? 1 : 0, FALSE);
          if (right)
            fold (&card, 2, 2, widths[0] + widths[1], TRUE);
          fold (&card, 0, 0, widths[0], TRUE);
          if (!right)
            fold (&card, 2, 2, widths[0] + widths[1], TRUE);
          add_fold (&card, right ? 0 : 1, TRUE);
        }
      size_w = widths[held];
      size_h = card.height;
      text = g_strdup_printf (CARD_HEAD CARD_INCH "'pieces': [ %s ], 'steps': [ %s ], 'wants': { 'size':"
                                                  " '%d/4 in x %d/4 in', 'envelope': '%d/4 in x %d/4 in' } }",
                              card.pieces->str, card.steps->str, size_w, size_h, size_w + 1, size_h + 1);
      g_test_message ("card %d: %s", c, text);
      motion = card_motion (text);
      states = cw_flat_states_new (motion);
      hold_against (&card, motion, states, size_w, size_h);
      for (int p = 1; p < card.n_pieces; p++)
        {
          g_autofree char *step = g_strdup_printf ("l%d", p);
          const CwFinding *finding = find (states, CW_FINDING_LAYER_OVERHANGS, step);

          n_layers++;
          n_over += card.over[p] > 0;
          if (card.over[p] == 0)
            g_assert_null (finding);
          else
            {
              g_assert_nonnull (finding);
              g_assert_cmpfloat_with_epsilon (finding->amount / QUARTER * 100, card.over[p], 1);
            }
        }
      g_string_free (card.pieces, TRUE);
      g_string_free (card.steps, TRUE);
    }
  /* The sweep reaches what it is meant to. */
  g_assert_cmpuint (n_layers, >, CARDS);
  g_assert_cmpuint (n_over, >, CARDS / 8);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/sight/card-sweep/rectangles", test_sweep);
  return g_test_run ();
}
