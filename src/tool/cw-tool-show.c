/* cw-tool-show.c: `show FILE -o OUT`: one picture of a design, a piece lying flat or the card folded.
 *
 * Pictures are at true size: 1 inch of paper is 72 points. Without a choice of what to show, the card is drawn from the
 * table in its last making step, half way when that step ends flat: there a card shows most of itself.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "cw-tool.h"

#include "cw-draw-card.h"
#include "cw-draw-play.h"
#include "cw-draw-sheet.h"
#include "design/cw-step-words.h"

#include <glib/gi18n.h>
#include <math.h>

/* Points. */
#define TRUE_SCALE (72.0 / CW_TICKS_PER_INCH)
#define PAGE_MARGIN 36.0
#define TITLE 17.0
#define WORDS 11.0
#define RULERS_LEFT 60.0
#define RULERS_TOP 42.0
#define LINE_HEIGHT 16.0
#define PAGE_WIDTH_LEAST 360.0

static const CwId no_id = { CW_ID_NONE, 0, 0, 0 };
static const CwPen map_pens[] = { CW_PEN_SAFE, CW_PEN_NEAR, CW_PEN_NEVER, CW_PEN_GLUE };

static void
words (CwDrawList *list, CwPen pen, double y, double size, const char *text)
{
  cw_draw_list_text (list, pen, no_id, PAGE_MARGIN, y, size, CW_ANCHOR_START, 0, text);
}

/* Two lines at the top. Returns where the picture may begin. */
static double
head (CwDrawList *list, const CwDesign *design, const char *what)
{
  const char *title = design->head->title;

  words (list, CW_PEN_TITLE, PAGE_MARGIN + TITLE, TITLE, title != NULL && *title != '\0' ? title : _ ("Folding card"));
  words (list, CW_PEN_TEXT, PAGE_MARGIN + TITLE + 20, WORDS, what);
  return PAGE_MARGIN + TITLE + 20 + 14;
}

static char *
length_words (const CwDesign *design, double ticks, gboolean rounded)
{
  gint32 step = design->head->unit == CW_UNIT_INCH ? CW_TICKS_PER_INCH / 16 : CW_TICKS_PER_MM / 2;
  gint32 whole = (gint32) lround (ticks);

  return cw_length_format_ticks (rounded ? cw_ticks_snap (whole, step) : whole, design->head->unit);
}

static void
page_size (const CwDrawList *list, double *width, double *height)
{
  double box[4];

  cw_draw_list_get_extents (list, box);
  *width = ceil (MAX (box[2] + PAGE_MARGIN, PAGE_WIDTH_LEAST));
  *height = ceil (box[3] + PAGE_MARGIN);
}

/* One piece lying flat; with a glue map both of its sides, one below the other. */
static void
draw_flat (CwDrawList *list, const CwAnalysis *analysis, guint piece, const CwGlueMap *glue_map)
{
  const CwPanelMap *map = &analysis->panels->maps[piece];
  const CwPaper *paper = cw_design_get_paper (analysis->design, map->piece->paper);
  CwSheetView view = { .scale = TRUE_SCALE };
  CwSheetLook look = { .rulers = TRUE, .names = TRUE, .legend = TRUE, .glue = TRUE, .lit_panel = G_MAXUINT };
  double box[4];
  gint32 width, height;

  cw_sheet_view_size (&view, map, &width, &height);
  g_autofree char *w = length_words (analysis->design, width, FALSE);
  g_autofree char *h = length_words (analysis->design, height, FALSE);
  const char *name = map->piece->name != NULL ? map->piece->name : map->piece->id;
  g_autofree char *of = NULL;
  if (paper != NULL && paper->name != NULL)
    of = g_strdup_printf (_ (", of %s"), paper->name);
  g_autofree char *what = g_strdup_printf (_ ("%s, flat: %s wide, %s tall%s. True size."), name, w, h, of ? of : "");
  view.left = PAGE_MARGIN + RULERS_LEFT;
  view.top = head (list, analysis->design, what) + RULERS_TOP;
  look.glue_map = glue_map;
  cw_draw_sheet (list, analysis, piece, &view, &look);
  if (glue_map == NULL)
    return;
  cw_draw_list_get_extents (list, box);
  view.lie.flipped = TRUE;
  view.top = box[3] + 2 * LINE_HEIGHT + RULERS_TOP;
  cw_draw_sheet (list, analysis, piece, &view, &look);
}

static char *
size_words (const CwAnalysis *analysis, const CwPose *pose, gboolean flat)
{
  CwVec3 low = { G_MAXDOUBLE, G_MAXDOUBLE, G_MAXDOUBLE }, high = { -G_MAXDOUBLE, -G_MAXDOUBLE, -G_MAXDOUBLE };

  for (guint i = 0; i < pose->n_panels; i++)
    {
      const CwRing *ring = &cw_panel_set_get_panel (analysis->panels, i)->outline.rings[0];
      for (guint k = 0; pose->present[i] && k < ring->n_points; k++)
        {
          CwVec3 p = cw_rigid_apply (&pose->places[i], cw_vec3 (ring->points[k].x, ring->points[k].y, 0));
          low = cw_vec3 (MIN (low.x, p.x), MIN (low.y, p.y), MIN (low.z, p.z));
          high = cw_vec3 (MAX (high.x, p.x), MAX (high.y, p.y), MAX (high.z, p.z));
        }
    }
  g_autofree char *w = length_words (analysis->design, high.x - low.x, !flat);
  g_autofree char *h = length_words (analysis->design, high.y - low.y, !flat);
  g_autofree char *d = length_words (analysis->design, high.z - low.z, TRUE);
  return flat ? g_strdup_printf (_ ("It lies flat, %s wide and %s tall."), w, h)
              : g_strdup_printf (_ ("It takes up about %s across, %s up and down, and stands %s high."), w, h, d);
}

static void
draw_state (CwDrawList *list, const CwAnalysis *analysis, guint step, double fraction, const char *from,
            const CwGlueMap *glue_map)
{
  const CwDesign *design = analysis->design;
  g_autoptr (CwCardScene) scene = cw_card_scene_new (analysis);
  g_autoptr (CwMotionWork) work = cw_motion_work_new (analysis->motion);
  g_autoptr (CwPose) pose = cw_pose_new (analysis->motion);
  gboolean table = g_str_equal (from, "table");
  CwCardLook look = {
    .lit_panel = G_MAXUINT, .hinge_at = G_MAXUINT, .labels = TRUE, .glue = TRUE, .findings = TRUE, .shadow = table
  };
  CwCamera camera = { 0 };
  guint pens = 0;
  g_autofree char *when = NULL;
  double box[4];

  look.glue_map = glue_map;
  if (step < cw_motion_get_n_steps (analysis->motion))
    {
      const CwStep *what = g_ptr_array_index (design->steps, step);
      g_autofree char *name = cw_step_dup_title (design, what);
      cw_motion_get_pose (analysis->motion, work, step, fraction, pose);
      if (fraction >= 1)
        when = g_strdup_printf (_ ("After step %u of %u, %s"), step + 1, design->steps->len, name);
      else
        when
          = g_strdup_printf (_ ("%.0f %% into step %u of %u, %s"), fraction * 100, step + 1, design->steps->len, name);
    }
  else
    {
      cw_motion_get_start (analysis->motion, pose);
      when = g_strdup (_ ("Before the first step"));
    }
  const char *seen = table                        ? _ ("seen on the table")
                     : g_str_equal (from, "back") ? _ ("seen from the other side of the part that stays still")
                                                  : _ ("seen from the drawn side of the part that stays still");
  g_autofree char *what = g_strdup_printf ("%s: %s.", when, seen);
  gboolean flat = step >= cw_motion_get_n_steps (analysis->motion)
                  || (fraction >= 1 && cw_motion_get_state (analysis->motion, step)->flat);
  g_autofree char *size = size_words (analysis, pose, flat);
  double top = head (list, design, what);
  words (list, CW_PEN_TEXT, top + 2, WORDS, size);
  top += 24;

  /* True size: fitted to find its middle, then scaled and drawn where its own extents begin at the margin. */
  if (table)
    cw_camera_look_into (&camera, analysis->motion);
  else
    cw_camera_look_from (&camera, from);
  cw_camera_fit_pose (&camera, analysis->motion, pose, 0, 0, 1, 1);
  camera.scale = TRUE_SCALE;
  camera.x = camera.y = 0;
  g_autoptr (CwDrawList) trial = cw_draw_list_new ();
  cw_draw_card (trial, scene, step, fraction, &camera, &look);
  cw_draw_list_get_extents (trial, box);
  camera.x = PAGE_MARGIN - box[0] + MAX (0, (PAGE_WIDTH_LEAST - 2 * PAGE_MARGIN - (box[2] - box[0])) / 2);
  camera.y = top - box[1];
  cw_draw_card (list, scene, step, fraction, &camera, &look);

  double below = top + box[3] - box[1] + 22;
  if (cw_draw_list_uses (list, CW_PEN_PATTERN))
    words (list, CW_PEN_TEXT, below, WORDS, _ ("Fine slanted lines: the printed side of a paper."));
  if (cw_draw_list_uses (list, CW_PEN_PATTERN))
    below += LINE_HEIGHT;
  if (cw_draw_list_uses (list, CW_PEN_TROUBLE))
    words (list, CW_PEN_TEXT, below, WORDS, _ ("Hatched: something is wrong there; “check” says what."));
  if (cw_draw_list_uses (list, CW_PEN_TROUBLE))
    below += LINE_HEIGHT;
  for (guint i = 0; glue_map != NULL && i < G_N_ELEMENTS (map_pens); i++)
    if (cw_draw_list_uses (list, map_pens[i]))
      pens |= 1u << map_pens[i];
  if (pens != 0)
    cw_draw_legend (list, PAGE_MARGIN, below - 10, MAX (box[2] - box[0], PAGE_WIDTH_LEAST - 2 * PAGE_MARGIN), pens);
}

/* What is shown when nobody says: see the top of this file. */
static guint
choose_step (const CwAnalysis *analysis, double *fraction)
{
  const CwDesign *design = analysis->design;
  guint chosen = G_MAXUINT;

  for (guint i = 0; i < design->steps->len; i++)
    {
      const CwStep *step = g_ptr_array_index (design->steps, i);
      if (step->phase != CW_PHASE_USING && (step->what == CW_DO_FOLD || step->what == CW_DO_STICK))
        chosen = i;
    }
  if (*fraction < 0 && chosen != G_MAXUINT)
    {
      const CwStep *step = g_ptr_array_index (design->steps, chosen);
      *fraction = step->what == CW_DO_FOLD && cw_motion_get_state (analysis->motion, chosen)->flat ? 0.5 : 1;
    }
  return chosen;
}

/* An option with a value that may be left out can only be read by a callback, and that gets no data here. */
static gboolean flat_given;
static char *flat_piece;

static gboolean
take_flat (const char *name, const char *value, gpointer data, GError **error)
{
  flat_given = TRUE;
  g_free (flat_piece);
  flat_piece = g_strdup (value);
  return TRUE;
}

static gboolean
find_kind (const char *out, CwPictureKind *kind)
{
  static const char *const endings[] = { ".svg", ".png", ".pdf" };
  static const CwPictureKind kinds[] = { CW_PICTURE_SVG, CW_PICTURE_PNG, CW_PICTURE_PDF };
  g_autofree char *lower = g_ascii_strdown (out, -1);

  for (gsize i = 0; i < G_N_ELEMENTS (endings); i++)
    if (g_str_has_suffix (lower, endings[i]))
      {
        *kind = kinds[i];
        return TRUE;
      }
  return FALSE;
}

static gboolean
find_piece (const CwDesign *design, const char *id, guint *piece)
{
  *piece
    = id != NULL ? cw_design_find_piece (design, id) : cw_design_find_piece (design, cw_design_get_ground (design)->id);
  return *piece < design->pieces->len;
}

/**
 * cw_tool_show:
 *
 * Returns: the exit status
 */
int
cw_tool_show (int argc, char **argv)
{
  g_autofree char *state = NULL, *from = NULL, *out = NULL, *piece_id = NULL;
  g_autoptr (CwAnalysis) analysis = NULL;
  g_autoptr (CwDrawList) list = cw_draw_list_new ();
  g_autoptr (GError) error = NULL;
  g_autoptr (CwGlueMap) glue_map = NULL;
  gboolean glue = FALSE;
  double fraction = -1, width, height;
  CwPictureKind kind;
  int status;
  const GOptionEntry entries[] = {
    { "output", 'o', G_OPTION_FLAG_NONE, G_OPTION_ARG_FILENAME, &out, N_ ("The picture: a .svg, .png or .pdf file"),
      N_ ("OUT") },
    { "flat", 0, G_OPTION_FLAG_OPTIONAL_ARG, G_OPTION_ARG_CALLBACK, take_flat,
      N_ ("A piece lying flat with its marks; the card's base unless said"), N_ ("PIECE") },
    { "state", 0, G_OPTION_FLAG_NONE, G_OPTION_ARG_STRING, &state, N_ ("The card folded, at the end of this step"),
      N_ ("STEP") },
    { "fraction", 0, G_OPTION_FLAG_NONE, G_OPTION_ARG_DOUBLE, &fraction,
      N_ ("How far into the step, 0 to 1; 1 unless said"), N_ ("F") },
    { "from", 0, G_OPTION_FLAG_NONE, G_OPTION_ARG_STRING, &from,
      N_ ("Where the card is seen from: front, back or table"), N_ ("SIDE") },
    { "glue", 0, G_OPTION_FLAG_NONE, G_OPTION_ARG_NONE, &glue,
      N_ ("Shade where glue may go and where it never may; of a flat piece both sides"), NULL },
    { NULL },
  };

  flat_given = FALSE;
  gboolean go = cw_tool_parse (&argc, &argv, entries, _ ("FILE -o OUT.(svg|png|pdf)"),
                               _ ("Draws one picture of a design at true size."), &status);
  piece_id = g_steal_pointer (&flat_piece);
  if (!go)
    return status;

  /* "show --flat FILE": what was taken for a piece is the file. */
  const char *path = argc == 2 ? argv[1] : NULL;
  if (argc == 1 && piece_id != NULL)
    path = piece_id;
  if (path == NULL)
    return cw_tool_fail (_ ("show takes one file, not %d; see creasewright-cli show --help"), argc - 1);
  if (out == NULL)
    return cw_tool_fail (_ ("show needs -o with the picture to write; see creasewright-cli show --help"));
  if (!find_kind (out, &kind))
    return cw_tool_fail (_ ("“%s” is no kind of picture: expected a name ending in .svg, .png or .pdf"), out);
  if (flat_given && (state != NULL || from != NULL || fraction >= 0))
    return cw_tool_fail (_ ("--flat shows a piece; --state, --fraction and --from show the card: choose one"));
  if (from != NULL && !g_str_equal (from, "front") && !g_str_equal (from, "back") && !g_str_equal (from, "table"))
    return cw_tool_fail (_ ("--from “%s”: expected front, back or table"), from);
  if (fraction > 1 || (fraction < 0 && fraction > -1) || fraction < -1 || isnan (fraction))
    return cw_tool_fail (_ ("--fraction: expected a number from 0 to 1"));

  analysis = cw_tool_analyse (path, &error);
  if (analysis == NULL)
    return cw_tool_fail ("%s", error->message);

  const CwDesign *design = analysis->design;
  guint piece = 0, step = G_MAXUINT;
  if (state != NULL)
    {
      step = cw_design_find_step (design, state);
      if (step >= design->steps->len)
        return cw_tool_fail (_ ("%s: there is no step “%s”"), path, state);
      if (fraction < 0)
        fraction = 1;
    }
  else if (!flat_given)
    step = choose_step (analysis, &fraction);
  if (flat_given && !find_piece (design, path == piece_id ? NULL : piece_id, &piece))
    return cw_tool_fail (_ ("%s: there is no piece “%s”"), path, piece_id);

  if (glue)
    glue_map = cw_glue_map_new (analysis->bonds, NULL);
  if (flat_given)
    draw_flat (list, analysis, piece, glue_map);
  else
    draw_state (list, analysis, step, MAX (fraction, 0), from != NULL ? from : "table", glue_map);
  page_size (list, &width, &height);
  g_autoptr (GFile) file = g_file_new_for_commandline_arg (out);
  if (!cw_draw_write (list, kind, width, height, file, &error))
    return cw_tool_fail ("%s: %s", out, error->message);
  return cw_tool_get_status (analysis);
}
