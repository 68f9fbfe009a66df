/* cw-trimmer.c: the straight lines of a design as moves on a trimmer.
 *
 * A piece begins as a blank, cut to the box round its outline. Scores come first, while the sheet is whole, all of one
 * face together; the groove a tool presses lies outside the fold and its bead inside (common practice of the print
 * trade), so what folds toward is scored with the back up and every place read mirrored. Then slits and windows, then
 * what the outline takes off, with the front up as it is drawn: all of it measured from edges that are still there. A
 * line along no edge is two pencil marks, joined. The order within these stages: cw-trimmer-order.c. Curves and
 * hand-pressed creases are no moves.
 *
 * Over 500 lines because lines become stops, stops moves and moves measures on one half-cut sheet, which is private
 * here.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "trim/cw-trimmer-private.h"

#include "panel/cw-path-flatten.h"
#include <stdlib.h>

/* What is made in one go, in this order. */
enum
{
  STAGE_SCORE_BACK,
  STAGE_SCORE_FRONT,
  STAGE_SLIT,
  STAGE_OUTLINE,
  N_STAGES
};

/* One straight segment of the design. */
typedef struct
{
  guint mark, segment, stage;
  CwMoveDoes does;
  CwPlace a, b;
  gboolean joined;
  guint move[2]; /* joined: the pencil marks, positions in the list of moves */
} Job;

/* What the stop is set for once: a level or upright line, or one end of a joined one. */
typedef struct
{
  gboolean is_mark;
  guint axis;    /* lines: 0 upright, its place read across; 1 level */
  CwPlace at;    /* a place on it */
  GArray *jobs;  /* of guint */
  guint mark_at; /* marks: position in the list of moves once made */
} Stop;

typedef struct
{
  const CwPiece *piece;
  guint index;
  const CwTools *tools;
  gint32 finest;
  CwPoint low, high;
  GArray *jobs;            /* of Job */
  GArray *stops[N_STAGES]; /* of Stop */
  GArray *lines[N_STAGES]; /* of CwTrimLine, one for each stop */
  gint32 contact[4];       /* how much of the outline lies on each side of the box, ticks */
  gboolean has_scores[2];  /* by face */
  CwTrimming *trimming;
} Sheet;

/**
 * cw_sheet_side_get_key:
 *
 * Returns: (transfer none): the side's name in files
 */
const char *
cw_sheet_side_get_key (CwSheetSide side)
{
  static const char *const keys[] = { "left", "top", "right", "bottom" };

  g_return_val_if_fail ((guint) side < G_N_ELEMENTS (keys), NULL);
  return keys[side];
}

/**
 * cw_move_does_get_key:
 *
 * Returns: (transfer none): what a move does, as in files
 */
const char *
cw_move_does_get_key (CwMoveDoes does)
{
  static const char *const keys[] = { "mark", "score", "slit", "cut" };

  g_return_val_if_fail ((guint) does < G_N_ELEMENTS (keys), NULL);
  return keys[does];
}

static CwPoint
path_end (const CwPath *path, guint i)
{
  return cw_place_get_point (&path->vertices[i].at);
}

/**
 * cw_piece_find_slit_joined:
 * @piece: a piece
 * @score: one of its scores
 *
 * Returns: the slit (position in the piece's marks) whose two ends @score joins; %G_MAXUINT if there is none
 */
guint
cw_piece_find_slit_joined (const CwPiece *piece, const CwMark *score)
{
  guint n = score->line.n_vertices;

  g_return_val_if_fail (piece != NULL && score != NULL, G_MAXUINT);
  if (score->kind != CW_MARK_SCORE || n < 2)
    return G_MAXUINT;
  for (guint i = 0; i < piece->marks->len; i++)
    {
      const CwMark *slit = g_ptr_array_index (piece->marks, i);
      guint m = slit->line.n_vertices;

      if (slit->kind != CW_MARK_CUT || slit->shape != CW_SHAPE_LINE || m < 2)
        continue;
      CwPoint p = path_end (&slit->line, 0), q = path_end (&slit->line, m - 1);
      CwPoint a = path_end (&score->line, 0), b = path_end (&score->line, n - 1);
      if ((cw_point_equal (p, a) && cw_point_equal (q, b)) || (cw_point_equal (p, b) && cw_point_equal (q, a)))
        return i;
    }
  return G_MAXUINT;
}

/**
 * cw_piece_is_pressed:
 * @piece: a piece
 * @score: one of its scores
 *
 * Returns: whether it is creased by hand, not scored on a board (model, "Marks and outlines")
 */
gboolean
cw_piece_is_pressed (const CwPiece *piece, const CwMark *score)
{
  return score->made == CW_MADE_PRESS
         || (score->made == CW_MADE_UNSAID && cw_piece_find_slit_joined (piece, score) != G_MAXUINT);
}

/* --- Gathering the lines. --- */

static void
add_job (Sheet *sheet, guint mark, guint segment, guint stage, CwMoveDoes does, CwPlace a, CwPlace b)
{
  gboolean slanted = a.x.ticks != b.x.ticks && a.y.ticks != b.y.ticks;
  Job job = { mark, segment, stage, does, a, b, slanted, { 0, 0 } };

  if (a.x.ticks == b.x.ticks && a.y.ticks == b.y.ticks)
    return;
  g_array_append_val (sheet->jobs, job);
}

static void
add_by_hand (Sheet *sheet, guint mark, CwByHandWhy why, guint slit)
{
  CwByHand item = { sheet->index, mark, why, slit };

  g_array_append_val (sheet->trimming->by_hand, item);
}

/* The straight parts of a path; TRUE when it has curved ones too. */
static gboolean
add_path (Sheet *sheet, const CwPath *path, gboolean closed, guint mark, guint stage, CwMoveDoes does)
{
  guint n = path->n_vertices;
  gboolean curved = FALSE;

  for (guint i = 0; i < (closed ? n : n - 1); i++)
    {
      guint next = (i + 1) % n;

      if (path->vertices[i].through || path->vertices[next].through)
        curved = TRUE;
      else
        add_job (sheet, mark, i, stage, does, path->vertices[i].at, path->vertices[next].at);
    }
  return curved;
}

static void
add_rect (Sheet *sheet, const CwMark *mark, guint index)
{
  CwPlace a = mark->line.vertices[0].at, b = mark->line.vertices[1].at;
  const CwPlace corners[4] = { a, { b.x, a.y }, b, { a.x, b.y } };

  for (guint i = 0; i < 4; i++)
    add_job (sheet, index, i, STAGE_SLIT, CW_MOVE_CUT, corners[i], corners[(i + 1) % 4]);
}

static void
add_mark (Sheet *sheet, guint index)
{
  const CwMark *mark = g_ptr_array_index (sheet->piece->marks, index);

  switch (mark->kind)
    {
    case CW_MARK_SCORE:
      if (cw_piece_is_pressed (sheet->piece, mark))
        add_by_hand (sheet, index, CW_BY_HAND_PRESS, cw_piece_find_slit_joined (sheet->piece, mark));
      else
        {
          gboolean back = mark->fold == CW_FOLD_TOWARD && !sheet->tools->one_face;

          if (add_path (sheet, &mark->line, FALSE, index, back ? STAGE_SCORE_BACK : STAGE_SCORE_FRONT, CW_MOVE_SCORE))
            add_by_hand (sheet, index, CW_BY_HAND_CURVE, G_MAXUINT);
        }
      break;
    case CW_MARK_WINDOW:
      if (mark->shape == CW_SHAPE_RECT && mark->line.n_vertices >= 2)
        add_rect (sheet, mark, index);
      else if (mark->shape == CW_SHAPE_CIRCLE || add_path (sheet, &mark->line, TRUE, index, STAGE_SLIT, CW_MOVE_CUT))
        add_by_hand (sheet, index, CW_BY_HAND_CURVE, G_MAXUINT);
      break;
    case CW_MARK_CUT:
    default:
      if (add_path (sheet, &mark->line, FALSE, index, STAGE_SLIT, CW_MOVE_SLIT))
        add_by_hand (sheet, index, CW_BY_HAND_CURVE, G_MAXUINT);
      break;
    }
}

/* The side of the box that a stretch lies on, or -1. */
static int
side_under (const Sheet *sheet, CwPoint a, CwPoint b)
{
  if (a.x == b.x)
    return a.x == sheet->low.x ? (int) CW_SIDE_OF_SHEET_LEFT : a.x == sheet->high.x ? (int) CW_SIDE_OF_SHEET_RIGHT : -1;
  if (a.y == b.y)
    return a.y == sheet->low.y ? (int) CW_SIDE_OF_SHEET_TOP : a.y == sheet->high.y ? (int) CW_SIDE_OF_SHEET_BOTTOM : -1;
  return -1;
}

/* What the outline takes off the blank, and how much of each side of the blank it leaves. */
static void
add_outline (Sheet *sheet)
{
  guint first = sheet->jobs->len, kept = first;

  if (add_path (sheet, &sheet->piece->outline, TRUE, CW_MOVE_OUTLINE, STAGE_OUTLINE, CW_MOVE_CUT))
    add_by_hand (sheet, CW_MOVE_OUTLINE, CW_BY_HAND_CURVE, G_MAXUINT);
  for (guint i = first; i < sheet->jobs->len; i++)
    {
      Job job = g_array_index (sheet->jobs, Job, i);
      CwPoint a = cw_place_get_point (&job.a), b = cw_place_get_point (&job.b);
      int side = side_under (sheet, a, b);

      if (side >= 0)
        sheet->contact[side] = MAX (sheet->contact[side], MAX (ABS (a.x - b.x), ABS (a.y - b.y)));
      else
        g_array_index (sheet->jobs, Job, kept++) = job;
    }
  g_array_set_size (sheet->jobs, kept);
}

/* --- The ways each can be made. --- */

/* The edge at the upper end of the blade when another lies against the guide. */
static CwSheetSide
side_read_from (const CwTools *tools, CwFace up, CwSheetSide against)
{
  gboolean clockwise = (up == CW_FACE_FRONT) != tools->right_to_left;

  return (against + (clockwise ? 1u : 3u)) % 4;
}

static CwLength
distance_from (const Sheet *sheet, CwSheetSide side, CwPlace at)
{
  switch (side)
    {
    case CW_SIDE_OF_SHEET_LEFT:
      return sheet->low.x == 0 ? at.x : cw_length_from_ticks (at.x.ticks - sheet->low.x, at.x.unit);
    case CW_SIDE_OF_SHEET_TOP:
      return sheet->low.y == 0 ? at.y : cw_length_from_ticks (at.y.ticks - sheet->low.y, at.y.unit);
    case CW_SIDE_OF_SHEET_RIGHT:
      return cw_length_from_ticks (sheet->high.x - at.x.ticks, at.x.unit);
    case CW_SIDE_OF_SHEET_BOTTOM:
    default:
      return cw_length_from_ticks (sheet->high.y - at.y.ticks, at.y.unit);
    }
}

/* Whether enough of a side of the blank is left when the outline is cut. */
static gboolean
stays (const Sheet *sheet, CwSheetSide side)
{
  return sheet->contact[side] >= sheet->tools->narrowest;
}

static guint
place_faults (const Sheet *sheet, gint32 stop, gboolean is_mark)
{
  return (stop < sheet->tools->narrowest && !is_mark ? CW_MOVE_NARROW : 0)
         | (stop > sheet->tools->reach ? CW_MOVE_BEYOND : 0);
}

static void
find_ways (const Sheet *sheet, const Stop *stop, guint stage, CwTrimLine *line)
{
  guint clean = 0;
  CwTrimLine all = { 0 };

  for (guint f = 0; f < 2; f++)
    {
      gboolean front_only = stage != STAGE_SCORE_BACK;

      if ((stage == STAGE_SCORE_BACK && f != CW_FACE_BACK) || (front_only && f != CW_FACE_FRONT))
        continue;
      for (guint side = 0; side < 4; side++)
        {
          gint32 at = distance_from (sheet, side, stop->at).ticks;

          if (!stop->is_mark && side % 2 != stop->axis)
            continue;
          if (stage == STAGE_OUTLINE && !stop->is_mark && !stays (sheet, side))
            continue;
          all.ways[all.n_ways++] = (CwTrimWay){ f * 4 + side, at, side / 2 };
          clean += place_faults (sheet, at, stop->is_mark) == 0;
        }
    }
  *line = (CwTrimLine){ 0 };
  for (guint i = 0; i < all.n_ways; i++)
    if (clean == 0 || place_faults (sheet, all.ways[i].stop, stop->is_mark) == 0)
      line->ways[line->n_ways++] = all.ways[i];
}

static void
clear_stop (gpointer data)
{
  g_array_unref (((Stop *) data)->jobs);
}

static void
add_stop (Sheet *sheet, guint stage, gboolean is_mark, guint axis, CwPlace at, guint job)
{
  GArray *stops = sheet->stops[stage];
  Stop stop = { is_mark, axis, at, NULL, 0 };

  for (guint i = 0; i < stops->len; i++)
    {
      Stop *other = &g_array_index (stops, Stop, i);
      gboolean same_x = other->at.x.ticks == at.x.ticks, same_y = other->at.y.ticks == at.y.ticks;

      if (other->is_mark != is_mark || other->axis != axis)
        continue;
      if (is_mark ? same_x && same_y : axis == 0 ? same_x : same_y)
        {
          g_array_append_val (other->jobs, job);
          return;
        }
    }
  stop.jobs = g_array_new (FALSE, FALSE, sizeof (guint));
  g_array_append_val (stop.jobs, job);
  g_array_append_val (stops, stop);
}

/* A line of the outline that no edge will be left for is marked before anything is cut off. */
static gboolean
must_be_marked (const Sheet *sheet, const Job *job)
{
  guint axis = job->a.x.ticks == job->b.x.ticks ? 0 : 1;

  return job->stage == STAGE_OUTLINE && !stays (sheet, axis == 0 ? CW_SIDE_OF_SHEET_LEFT : CW_SIDE_OF_SHEET_TOP)
         && !stays (sheet, axis == 0 ? CW_SIDE_OF_SHEET_RIGHT : CW_SIDE_OF_SHEET_BOTTOM);
}

static void
find_stops (Sheet *sheet)
{
  for (guint s = 0; s < N_STAGES; s++)
    {
      sheet->stops[s] = g_array_new (FALSE, FALSE, sizeof (Stop));
      g_array_set_clear_func (sheet->stops[s], clear_stop);
      sheet->lines[s] = g_array_new (FALSE, FALSE, sizeof (CwTrimLine));
    }
  for (guint i = 0; i < sheet->jobs->len; i++)
    {
      Job *job = &g_array_index (sheet->jobs, Job, i);
      guint stage = job->stage;

      job->joined |= must_be_marked (sheet, job);
      if (!job->joined)
        {
          add_stop (sheet, stage, FALSE, job->a.x.ticks == job->b.x.ticks ? 0 : 1, job->a, i);
          continue;
        }
      if (stage == STAGE_OUTLINE)
        stage = STAGE_SLIT;
      add_stop (sheet, stage, TRUE, 0, job->a, i);
      add_stop (sheet, stage, TRUE, 0, job->b, i);
    }
  for (guint s = 0; s < N_STAGES; s++)
    for (guint i = 0; i < sheet->stops[s]->len; i++)
      {
        CwTrimLine line;

        find_ways (sheet, &g_array_index (sheet->stops[s], Stop, i), s, &line);
        g_array_append_val (sheet->lines[s], line);
      }
}

/* --- Writing the moves down. --- */

static gboolean
on_step (CwLength length, gint32 step)
{
  return step == 0 || length.text != NULL ? length.text == NULL : length.ticks % step == 0;
}

static guint
move_faults (const Sheet *sheet, const CwMove *move, const Stop *stop)
{
  guint faults = place_faults (sheet, move->at.ticks, stop->is_mark);
  gint32 groove = sheet->tools->groove;

  if (!on_step (move->at, sheet->finest) || (!move->whole && !on_step (move->from, sheet->finest))
      || (!move->whole && !on_step (move->to, sheet->finest)))
    faults |= CW_MOVE_OFF_MARKS;
  if (move->does == CW_MOVE_SCORE && groove > 0 && distance_from (sheet, move->against, stop->at).ticks % groove != 0
      && distance_from (sheet, (move->against + 2) % 4, stop->at).ticks % groove != 0)
    faults |= CW_MOVE_OFF_GROOVE;
  return faults;
}

static gint
compare_from (gconstpointer a, gconstpointer b)
{
  const CwMove *x = a, *y = b;
  gint32 p = MIN (x->from.ticks, x->to.ticks), q = MIN (y->from.ticks, y->to.ticks);

  return p != q ? (p < q ? -1 : 1) : (x->mark > y->mark) - (x->mark < y->mark);
}

static void
write_stop (Sheet *sheet, Stop *stop, CwTrimWay way)
{
  GArray *moves = sheet->trimming->moves;
  guint first = moves->len;
  CwMove move = { .piece = sheet->index,
                  .face_up = way.lie / 4 == CW_FACE_BACK ? CW_FACE_BACK : CW_FACE_FRONT,
                  .against = way.lie % 4,
                  .pull_up = sheet->tools->pull_up };

  move.read_from = side_read_from (sheet->tools, move.face_up, move.against);
  move.at = distance_from (sheet, move.against, stop->at);
  stop->mark_at = first;
  for (guint i = 0; i < (stop->is_mark ? 1 : stop->jobs->len); i++)
    {
      const Job *job = &g_array_index (sheet->jobs, Job, g_array_index (stop->jobs, guint, i));
      CwLength a = distance_from (sheet, move.read_from, job->a), b = distance_from (sheet, move.read_from, job->b);
      gint32 long_way = stop->axis == 0 ? sheet->high.y - sheet->low.y : sheet->high.x - sheet->low.x;
      gboolean swap = (a.ticks > b.ticks) != sheet->tools->pull_up;

      move.mark = job->mark;
      move.segment = job->segment;
      if (stop->is_mark)
        {
          move.does = CW_MOVE_MARK;
          move.from = move.to = distance_from (sheet, move.read_from, stop->at);
        }
      else
        {
          move.does = job->does;
          move.from = swap ? b : a;
          move.to = swap ? a : b;
          move.whole = MIN (a.ticks, b.ticks) <= 0 && MAX (a.ticks, b.ticks) >= long_way;
        }
      move.flags = move_faults (sheet, &move, stop);
      g_array_append_val (moves, move);
    }
  qsort (&g_array_index (moves, CwMove, first), moves->len - first, sizeof (CwMove), compare_from);
}

/* Lines from mark to mark, once their stage's marks are all there. */
static void
write_joined (Sheet *sheet, guint stage)
{
  GArray *moves = sheet->trimming->moves;

  for (guint i = 0; i < sheet->jobs->len; i++)
    {
      const Job *job = &g_array_index (sheet->jobs, Job, i);
      CwMove move = { .piece = sheet->index,
                      .mark = job->mark,
                      .segment = job->segment,
                      .does = job->does,
                      .joins = TRUE,
                      .pull_up = sheet->tools->pull_up };
      GArray *stops = sheet->stops[job->stage == STAGE_OUTLINE ? STAGE_SLIT : job->stage];
      guint found = 0;

      if (!job->joined || job->stage != stage)
        continue;
      for (guint k = 0; k < stops->len; k++)
        {
          const Stop *stop = &g_array_index (stops, Stop, k);
          CwPoint at = cw_place_get_point (&stop->at);

          if (!stop->is_mark)
            continue;
          if (cw_point_equal (at, cw_place_get_point (&job->a)) || cw_point_equal (at, cw_place_get_point (&job->b)))
            move.marks[found++] = stop->mark_at;
        }
      g_assert (found == 2);
      move.face_up = g_array_index (moves, CwMove, move.marks[0]).face_up;
      if (move.does == CW_MOVE_SCORE && sheet->tools->groove > 0)
        move.flags = CW_MOVE_OFF_GROOVE;
      g_array_append_val (moves, move);
    }
}

static void
write_moves (Sheet *sheet)
{
  static const guint orders[2][N_STAGES] = {
    { STAGE_SCORE_BACK, STAGE_SCORE_FRONT, STAGE_SLIT, STAGE_OUTLINE },
    { STAGE_SCORE_FRONT, STAGE_SCORE_BACK, STAGE_SLIT, STAGE_OUTLINE },
  };
  g_autoptr (GArray) best = NULL;
  guint least = G_MAXUINT, chosen = 0;

  for (guint o = 0; o < 2; o++)
    {
      g_autoptr (GPtrArray) stages = g_ptr_array_new ();
      g_autoptr (GArray) picks = NULL;
      gboolean proved;
      guint cost;

      for (guint s = 0; s < N_STAGES; s++)
        g_ptr_array_add (stages, sheet->lines[orders[o][s]]);
      picks = cw_trim_order (stages, &cost, &proved);
      sheet->trimming->least &= proved;
      if (cost >= least)
        continue;
      least = cost;
      chosen = o;
      g_clear_pointer (&best, g_array_unref);
      best = g_steal_pointer (&picks);
    }
  for (guint s = 0, i = 0; s < N_STAGES; s++)
    {
      guint stage = orders[chosen][s];

      for (; i < best->len && g_array_index (best, CwTrimPick, i).stage == s; i++)
        {
          const CwTrimPick *pick = &g_array_index (best, CwTrimPick, i);

          write_stop (sheet, &g_array_index (sheet->stops[stage], Stop, pick->line),
                      g_array_index (sheet->lines[stage], CwTrimLine, pick->line).ways[pick->way]);
        }
      write_joined (sheet, stage);
    }
}

static void
count_changes (CwTrimming *trimming)
{
  const CwMove *last = NULL;

  for (guint i = 0; i < trimming->moves->len; i++)
    {
      const CwMove *move = &g_array_index (trimming->moves, CwMove, i);

      if (move->joins)
        continue;
      trimming->n_turns += last == NULL || last->piece != move->piece || last->face_up != move->face_up
                           || last->against != move->against;
      trimming->n_stops += last == NULL || last->at.ticks != move->at.ticks;
      last = move;
    }
}

/**
 * cw_trimming_new:
 * @design: a design
 * @tools: what the maker works with
 *
 * Returns: (transfer full): every straight line of every piece as a move, in the order to make them
 */
CwTrimming *
cw_trimming_new (const CwDesign *design, const CwTools *tools)
{
  CwTrimming *trimming;

  g_return_val_if_fail (design != NULL && tools != NULL, NULL);

  trimming = g_new0 (CwTrimming, 1);
  trimming->moves = g_array_new (FALSE, FALSE, sizeof (CwMove));
  trimming->by_hand = g_array_new (FALSE, FALSE, sizeof (CwByHand));
  trimming->least = TRUE;
  for (guint p = 0; p < design->pieces->len; p++)
    {
      Sheet sheet
        = { .piece = g_ptr_array_index (design->pieces, p), .index = p, .tools = tools, .trimming = trimming };

      sheet.finest = tools->finest > 0 ? tools->finest : design->head->snap_ticks;
      cw_piece_get_box (sheet.piece, &sheet.low, &sheet.high);
      sheet.jobs = g_array_new (FALSE, FALSE, sizeof (Job));
      for (guint i = 0; i < sheet.piece->marks->len; i++)
        add_mark (&sheet, i);
      add_outline (&sheet);
      find_stops (&sheet);
      write_moves (&sheet);
      for (guint s = 0; s < N_STAGES; s++)
        {
          g_array_unref (sheet.stops[s]);
          g_array_unref (sheet.lines[s]);
        }
      g_array_unref (sheet.jobs);
    }
  count_changes (trimming);
  return trimming;
}

/**
 * cw_trimming_free:
 * @trimming: (transfer full) (nullable): moves
 */
void
cw_trimming_free (CwTrimming *trimming)
{
  if (trimming == NULL)
    return;
  g_array_unref (trimming->moves);
  g_array_unref (trimming->by_hand);
  g_free (trimming);
}

static CwPoint
place_on (CwPoint low, CwPoint high, CwSheetSide against, gint32 at, CwSheetSide read_from, gint32 along)
{
  CwPoint p = low;
  const CwSheetSide sides[2] = { against, read_from };
  const gint32 measures[2] = { at, along };

  for (guint i = 0; i < 2; i++)
    switch (sides[i])
      {
      case CW_SIDE_OF_SHEET_LEFT:
        p.x = low.x + measures[i];
        break;
      case CW_SIDE_OF_SHEET_TOP:
        p.y = low.y + measures[i];
        break;
      case CW_SIDE_OF_SHEET_RIGHT:
        p.x = high.x - measures[i];
        break;
      case CW_SIDE_OF_SHEET_BOTTOM:
      default:
        p.y = high.y - measures[i];
        break;
      }
  return p;
}

/**
 * cw_trimming_get_ends:
 * @trimming: the moves of a design
 * @design: the design
 * @index: a move
 * @a: (out): where its line starts, the piece's front coordinates, ticks
 * @b: (out): where it stops; the same for a pencil mark
 */
void
cw_trimming_get_ends (const CwTrimming *trimming, const CwDesign *design, guint index, CwPoint *a, CwPoint *b)
{
  const CwMove *move;
  CwPoint low, high, unused;

  g_return_if_fail (trimming != NULL && design != NULL && index < trimming->moves->len);

  move = &g_array_index (trimming->moves, CwMove, index);
  if (move->joins)
    {
      cw_trimming_get_ends (trimming, design, move->marks[0], a, &unused);
      cw_trimming_get_ends (trimming, design, move->marks[1], b, &unused);
      return;
    }
  cw_piece_get_box (g_ptr_array_index (design->pieces, move->piece), &low, &high);
  *a = place_on (low, high, move->against, move->at.ticks, move->read_from, move->from.ticks);
  *b = place_on (low, high, move->against, move->at.ticks, move->read_from, move->to.ticks);
}
