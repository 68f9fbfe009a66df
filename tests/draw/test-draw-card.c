/* The folded card: pulling it, finding the step that moves a panel, what a frame costs, and lists looked at.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include <stdlib.h>
#include <time.h>

#include "cw-draw-card.h"
#include "cw-draw-play.h"
#include "drawn-card.h"

#define IN ((double) CW_TICKS_PER_INCH)

/* Counts allocations by standing before the C library's own; a sanitizer stands there already. */
#if defined(__SANITIZE_ADDRESS__)
#define COUNTS 0
#elif defined(__has_feature)
#if __has_feature(address_sanitizer)
#define COUNTS 0
#endif
#endif
#ifndef COUNTS
#define COUNTS 1
#endif

#if COUNTS
static volatile guint64 allocations;
void *__libc_malloc (size_t size);
void *__libc_calloc (size_t n, size_t size);
void *__libc_realloc (void *old, size_t size);

void *
malloc (size_t size)
{
  allocations++;
  return __libc_malloc (size);
}

void *
calloc (size_t n, size_t size)
{
  allocations++;
  return __libc_calloc (n, size);
}

void *
realloc (void *old, size_t size)
{
  allocations++;
  return __libc_realloc (old, size);
}
#endif

static const CwCardLook plain
  = { .lit_panel = G_MAXUINT, .hinge_at = G_MAXUINT, .labels = TRUE, .shadow = TRUE, .glue = TRUE };

static CwCamera
camera_at (const CwAnalysis *card, const char *from)
{
  CwCamera camera = { 0 };

  cw_camera_look_from (&camera, from);
  cw_camera_fit (&camera, card->motion, 0, 0, 1200, 800);
  return camera;
}

/* The corner of the left half, 5 in from the spine at x = 5: at 90 degrees it stands 5 in before the spine. Pulled
 * there from any start, from any side, the step stands half way. */
static void
test_pull_to_a_right_angle (void)
{
  static const char *const sides[] = { "front", "table", "back" };
  static const double starts[] = { 0, 0.2, 0.45, 0.8, 1 };

  for (guint s = 0; s < G_N_ELEMENTS (sides); s++)
    for (guint i = 0; i < G_N_ELEMENTS (starts); i++)
      {
        g_autoptr (CwAnalysis) card = drawn_card (DRAWN_HALF ("toward", "front", "back"));
        g_autoptr (CwCardScene) scene = cw_card_scene_new (card);
        CwCamera camera = camera_at (card, sides[s]);
        guint left = card_panel (card->motion, "base", 1, 6), step = cw_design_find_step (card->design, "close");
        double angle = starts[i] * G_PI;
        /* By hand: a circle of 5 in about the spine, toward the eye. */
        CwVec3 corner = cw_vec3 ((5 - 5 * cos (angle)) * IN, 7 * IN, -5 * sin (angle) * IN);
        CwVec3 from = cw_camera_project (&camera, corner);
        CwVec3 to = cw_camera_project (&camera, cw_vec3 (5 * IN, 7 * IN, -5 * IN));

        g_assert_true (cw_card_scene_grab (scene, step, starts[i], &camera, left, from.x, from.y));
        g_assert_cmpfloat_with_epsilon (cw_card_scene_pull (scene, &camera, to.x, to.y), 0.5, 1e-4);
      }
}

/* Every place on the way gives its own fraction back; far past either end the card stays at that end. */
static void
test_pull_follows_and_clamps (void)
{
  g_autoptr (CwAnalysis) card = drawn_card (DRAWN_HALF ("toward", "front", "back"));
  g_autoptr (CwCardScene) scene = cw_card_scene_new (card);
  CwCamera camera = camera_at (card, "table");
  guint left = card_panel (card->motion, "base", 1, 6), step = cw_design_find_step (card->design, "close");
  CwVec3 flat = cw_camera_project (&camera, cw_vec3 (0, 3 * IN, 0));

  g_assert_true (cw_card_scene_grab (scene, step, 0, &camera, left, flat.x, flat.y));
  for (double f = 0.02; f < 1; f += 0.02)
    {
      CwVec3 at
        = cw_camera_project (&camera, cw_vec3 ((5 - 5 * cos (f * G_PI)) * IN, 3 * IN, -5 * sin (f * G_PI) * IN));
      g_assert_cmpfloat_with_epsilon (cw_card_scene_pull (scene, &camera, at.x, at.y), f, 1e-4);
    }
  CwVec3 past = cw_camera_project (&camera, cw_vec3 (14 * IN, 3 * IN, 3 * IN));
  g_assert_cmpfloat_with_epsilon (cw_card_scene_pull (scene, &camera, past.x, past.y), 1, 1e-9);
}

/* Opened in two steps, 180 to 90 and 90 to 0 degrees: one pull goes through both, and back. The corner's place by hand,
 * a circle of 5 in about the spine; 45 degrees of fold are half way through the second step. */
static void
test_pull_runs_on (void)
{
  g_autoptr (GString) text = g_string_new (DRAWN_HALF ("toward", "front", "back"));
  g_string_replace (text, "'to': 0 } ] }",
                    "'to': 90 } ] }, { 'id': 'flat', 'do': 'fold', 'phase': 'using', 'folds': [ "
                    "{ 'score': 'base/spine', 'to': 0 } ] }",
                    1);
  g_autoptr (CwAnalysis) card = drawn_card (text->str);
  g_autoptr (CwCardScene) scene = cw_card_scene_new (card);
  CwCamera camera = camera_at (card, "table");
  guint left = card_panel (card->motion, "base", 1, 6);
  guint open = cw_design_find_step (card->design, "open"), flat = cw_design_find_step (card->design, "flat");
  CwVec3 shut = cw_camera_project (&camera, cw_vec3 (10 * IN, 7 * IN, 0));
  CwVec3 slant = cw_camera_project (&camera, cw_vec3 ((5 - 5 * G_SQRT2 / 2) * IN, 7 * IN, -5 * G_SQRT2 / 2 * IN));
  CwVec3 back = cw_camera_project (&camera, cw_vec3 ((5 + 5 * G_SQRT2 / 2) * IN, 7 * IN, -5 * G_SQRT2 / 2 * IN));

  g_assert_true (cw_card_scene_grab (scene, open, 0, &camera, left, shut.x, shut.y));
  g_assert_cmpfloat_with_epsilon (cw_card_scene_pull (scene, &camera, slant.x, slant.y), 0.5, 1e-4);
  g_assert_cmpuint (cw_card_scene_get_grab_step (scene), ==, flat);
  g_assert_cmpfloat_with_epsilon (cw_card_scene_pull (scene, &camera, back.x, back.y), 0.5, 1e-4);
  g_assert_cmpuint (cw_card_scene_get_grab_step (scene), ==, open);
}

static void
test_pull_only_what_moves (void)
{
  g_autoptr (CwAnalysis) card = drawn_card (DRAWN_HALF ("toward", "front", "back"));
  g_autoptr (CwCardScene) scene = cw_card_scene_new (card);
  CwCamera camera = camera_at (card, "front");
  guint right = card_panel (card->motion, "base", 9, 6), left = card_panel (card->motion, "base", 1, 6);
  guint close = cw_design_find_step (card->design, "close"), open = cw_design_find_step (card->design, "open");
  guint stick = cw_design_find_step (card->design, "stick");

  g_assert_false (cw_card_scene_grab (scene, close, 0.5, &camera, right, 600, 400));
  g_assert_false (cw_card_scene_grab (scene, stick, 0.5, &camera, left, 600, 400));
  g_assert_cmpuint (cw_card_scene_find_step (scene, G_MAXUINT, 0, left), ==, close);
  g_assert_cmpuint (cw_card_scene_find_step (scene, stick, 1, left), ==, close);
  g_assert_cmpuint (cw_card_scene_find_step (scene, close, 0.3, left), ==, close);
  g_assert_cmpuint (cw_card_scene_find_step (scene, close, 1, left), ==, open);
  /* After the last step the card can be closed again: that step begins as the card lies now. */
  g_assert_cmpuint (cw_card_scene_find_step (scene, open, 1, left), ==, close);
  g_assert_cmpuint (cw_card_scene_find_step (scene, close, 0, right), ==, G_MAXUINT);
}

/* Front: x to the right and y down as they are. Back: turned about the upright, so that left and right change places
 * and up stays up. Table: the far (top) edge is farther, what rises toward the reader of the open card goes up. */
static void
test_looks (void)
{
  CwCamera camera = { .scale = 1 };

  cw_camera_look_from (&camera, "front");
  CwVec3 p = cw_camera_project (&camera, cw_vec3 (3, 5, 7));
  g_assert_cmpfloat_with_epsilon (p.x, 3, 1e-12);
  g_assert_cmpfloat_with_epsilon (p.y, 5, 1e-12);
  g_assert_cmpfloat_with_epsilon (p.z, 7, 1e-12);
  cw_camera_look_from (&camera, "back");
  p = cw_camera_project (&camera, cw_vec3 (3, 5, 7));
  g_assert_cmpfloat_with_epsilon (p.x, -3, 1e-12);
  g_assert_cmpfloat_with_epsilon (p.y, 5, 1e-12);
  g_assert_cmpfloat_with_epsilon (p.z, -7, 1e-12);
  cw_camera_look_from (&camera, "table");
  CwVec3 far = cw_camera_project (&camera, cw_vec3 (0, -1, 0)), high = cw_camera_project (&camera, cw_vec3 (0, 0, -1));
  g_assert_cmpfloat (far.z, >, 0);
  g_assert_cmpfloat (far.y, <, 0);
  g_assert_cmpfloat (high.y, <, 0);
  g_assert_cmpfloat_with_epsilon (high.x, 0, 1e-12);
}

/* Lying flat, every fold line of the box card is drawn as a crease and no real edge runs along one: 2 + 1 + 1 + 1
 * lines, each by both its panels; and the slits, real edges, carry their marks. */
static void
test_creases_are_no_edges (void)
{
  g_autoptr (CwAnalysis) card = drawn_card (DRAWN_BOX);
  g_autoptr (CwCardScene) scene = cw_card_scene_new (card);
  g_autoptr (CwDrawList) list = cw_draw_list_new ();
  CwCamera camera = camera_at (card, "front");
  static const double on_fold[][2] = { { 5, 1 }, { 5, 5 }, { 3, 3 }, { 4, 3 }, { 6, 3 } };
  static const double on_slit[][2] = { { 3.5, 2 }, { 5.5, 4 } };
  const guint lines = 1u << CW_ID_HINGE | 1u << CW_ID_MARK | 1u << CW_ID_PANEL;
  CwId id;

  cw_draw_card (list, scene, G_MAXUINT, 0, &camera, &plain);
  for (guint i = 0; i < G_N_ELEMENTS (on_fold); i++)
    {
      CwVec3 at = cw_camera_project (&camera, cw_vec3 (on_fold[i][0] * IN, on_fold[i][1] * IN, 0));
      g_assert_true (cw_draw_list_pick (list, at.x, at.y, 2, lines, &id));
      g_assert_cmpint (id.kind, ==, CW_ID_HINGE);
    }
  for (guint i = 0; i < G_N_ELEMENTS (on_slit); i++)
    {
      CwVec3 at = cw_camera_project (&camera, cw_vec3 (on_slit[i][0] * IN, on_slit[i][1] * IN, 0));
      g_assert_true (cw_draw_list_pick (list, at.x, at.y, 2, lines, &id));
      g_assert_cmpint (id.kind, ==, CW_ID_MARK);
      g_assert_cmpstr (((CwMark *) g_ptr_array_index (card->panels->maps[0].piece->marks, id.index))->id, ==,
                       i == 0 ? "s1" : "s2");
    }
}

/* Every moment of the motion lies within what was asked for. */
static void
test_fit (void)
{
  g_autoptr (CwAnalysis) card = drawn_card (DRAWN_BOX);
  g_autoptr (CwCardScene) scene = cw_card_scene_new (card);
  g_autoptr (CwDrawList) list = cw_draw_list_new ();
  CwCardLook look = plain;
  CwCamera camera = { 0 };

  look.shadow = FALSE;
  cw_camera_look_into (&camera, card->motion);
  cw_camera_fit (&camera, card->motion, 50, 60, 500, 400);
  for (int i = 0; i <= 8; i++)
    {
      double box[4];
      cw_draw_list_clear (list);
      cw_draw_card (list, scene, 0, i / 8.0, &camera, &look);
      cw_draw_list_get_extents (list, box);
      g_assert_cmpfloat (box[0], >=, 50 - 1e-6);
      g_assert_cmpfloat (box[1], >=, 60 - 1e-6);
      g_assert_cmpfloat (box[2], <=, 550 + 1e-6);
      g_assert_cmpfloat (box[3], <=, 460 + 1e-6);
    }
}

#if COUNTS
/* 60 panels, folded to and fro. */
static char *
accordion (guint n)
{
  GString *text = g_string_new (CARD_HEAD CARD_INCH DRAWN_PAPERS);

  g_string_append_printf (text,
                          "'pieces': [ { 'id': 'base', 'paper': 'rain', 'ground': true, 'outline': [['0 in','0 in'],"
                          "['%u/2 in','0 in'],['%u/2 in','4 in'],['0 in','4 in']], 'marks': [",
                          n, n);
  for (guint i = 1; i < n; i++)
    g_string_append_printf (text,
                            "%s{ 'id': 's%u', 'kind': 'score', 'fold': '%s', 'line': [['%u/2 in','0 in'],"
                            "['%u/2 in','4 in']] }",
                            i > 1 ? "," : "", i, i % 2 ? "toward" : "away", i, i);
  g_string_append (text, "] } ], 'glue': [], 'steps': [ { 'id': 'shut', 'do': 'fold', 'folds': [");
  for (guint i = 1; i < n; i++)
    g_string_append_printf (text, "%s{ 'score': 'base/s%u', 'to': 180 }", i > 1 ? "," : "", i);
  g_string_append (text, "] } ] }");
  return g_string_free (text, FALSE);
}
#endif

static void
test_no_allocation (void)
{
#if COUNTS
  g_autofree char *text = accordion (24);
  const char *cards[] = { DRAWN_HALF ("toward", "front", "back"), DRAWN_BOX, text };

  for (guint c = 0; c < G_N_ELEMENTS (cards); c++)
    {
      g_autoptr (CwAnalysis) card = drawn_card (cards[c]);
      g_autoptr (CwCardScene) scene = cw_card_scene_new (card);
      g_autoptr (CwDrawList) list = cw_draw_list_new ();
      CwCamera camera = camera_at (card, "table");

      for (int round = 0; round < 2; round++)
        {
          guint64 before = allocations;
          for (guint step = 0; step < card->design->steps->len; step++)
            for (int i = 0; i <= 50; i++)
              {
                cw_draw_list_clear (list);
                cw_draw_card (list, scene, step, i / 50.0, &camera, &plain);
              }
          if (round == 1)
            g_assert_cmpuint (allocations - before, ==, 0);
        }
      guint64 before = allocations;
      guint step = card->design->steps->len - 1, panel = 0;
      if (cw_card_scene_grab (scene, step, 0.5, &camera, panel, 600, 400))
        cw_card_scene_pull (scene, &camera, 500, 300);
      g_assert_cmpuint (allocations - before, ==, 0);
    }
#else
  g_test_skip ("a sanitizer keeps the allocations");
#endif
}

/* A 60-panel card at 1200 x 800 in well under 12 ms: the median of 41 frames, list and picture, words left out of
 * neither. Optimised builds without a sanitizer only. */
static void
test_frame_time (void)
{
#if COUNTS && defined(__OPTIMIZE__)
  g_autofree char *text = accordion (60);
  g_autoptr (CwAnalysis) card = drawn_card (text);
  g_autoptr (CwCardScene) scene = cw_card_scene_new (card);
  g_autoptr (CwDrawList) list = cw_draw_list_new ();
  CwCamera camera = camera_at (card, "table");
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_RGB24, 1200, 800);
  cairo_t *cr = cairo_create (surface);
  double times[41];

  for (int i = 0; i < 41; i++)
    {
      struct timespec start, end;
      clock_gettime (CLOCK_THREAD_CPUTIME_ID, &start);
      cw_draw_list_clear (list);
      cw_draw_card (list, scene, 0, i / 40.0, &camera, &plain);
      cw_draw_play (list, &cw_palette_light, cr);
      clock_gettime (CLOCK_THREAD_CPUTIME_ID, &end);
      times[i] = (double) (end.tv_sec - start.tv_sec) * 1e3 + (double) (end.tv_nsec - start.tv_nsec) / 1e6;
    }
  cairo_destroy (cr);
  cairo_surface_destroy (surface);
  for (int i = 1; i < 41; i++)
    for (int k = i; k > 0 && times[k] < times[k - 1]; k--)
      {
        double swap = times[k];
        times[k] = times[k - 1];
        times[k - 1] = swap;
      }
  g_test_message ("median %.2f ms, slowest %.2f ms", times[20], times[40]);
  g_assert_cmpfloat (times[20], <, 12);
#else
  g_test_skip ("not an optimised build");
#endif
}

static void
draw_golden (const char *text, const char *step, double fraction, gboolean into, const char *from, const char *name)
{
  g_autoptr (CwAnalysis) card = drawn_card (text);
  g_autoptr (CwCardScene) scene = cw_card_scene_new (card);
  g_autoptr (CwDrawList) list = cw_draw_list_new ();
  CwCamera camera = { 0 };

  if (into)
    cw_camera_look_into (&camera, card->motion);
  else
    cw_camera_look_from (&camera, from);
  cw_camera_fit (&camera, card->motion, 0, 0, 600, 440);
  cw_draw_card (list, scene, cw_design_find_step (card->design, step), fraction, &camera, &plain);
  drawn_golden (list, name);
}

static void
test_golden (void)
{
  draw_golden (DRAWN_BOX, "close", 0.5, TRUE, NULL, "card-box-half-way");
  draw_golden (DRAWN_HALF ("toward", "front", "back"), "close", 0.4, TRUE, NULL, "card-half-fold");
  draw_golden (DRAWN_HALF ("away", "front", "back"), "close", 1, FALSE, "front", "card-closed-front");
}

/* A picture over a fold line lies on both panels: folded shut, each part stays on its own, none stands out. Closed from
 * the front the half that stays still spans 5 in to 10 in; the part on it is what the box has there, 5 to 6 1/2. */
static void
test_art_over_a_fold (void)
{
  g_autoptr (GString) text = g_string_new (DRAWN_HALF ("away", "back", "front"));
  g_string_replace (text, "'names': [ { 'name': 'left'",
                    "'art': [ { 'id': 'wide', 'face': 'front', 'box': [['3 in','1 in'],['6 1/2 in','2 in']] } ],"
                    "'names': [ { 'name': 'left'",
                    1);
  g_autoptr (CwAnalysis) card = drawn_card (text->str);
  g_autoptr (CwCardScene) scene = cw_card_scene_new (card);
  const CwCardLook look = { .lit_panel = G_MAXUINT, .hinge_at = G_MAXUINT, .labels = TRUE };
  guint step = cw_design_find_step (card->design, "close");

  for (guint k = 0; k < 3; k++)
    {
      CwCamera camera = camera_at (card, "front");
      g_autoptr (CwDrawList) list = cw_draw_list_new ();
      double art[4];
      CwVec3 low = cw_camera_project (&camera, cw_vec3 (5 * IN, 1 * IN, 0));
      CwVec3 high = cw_camera_project (&camera, cw_vec3 (6.5 * IN, 2 * IN, 0));

      cw_draw_card (list, scene, step, k / 2.0, &camera, &look);
      g_assert_true (cw_draw_list_get_box (list, (CwId){ CW_ID_ART, 0, 0, 0 }, art));
      g_assert_cmpfloat_with_epsilon (art[2], high.x, 1);
      if (k == 2)
        {
          g_assert_cmpfloat_with_epsilon (art[0], low.x, 1);
          g_assert_cmpfloat_with_epsilon (art[1], low.y, 1);
          g_assert_cmpfloat_with_epsilon (art[3], high.y, 1);
        }
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/draw/card/pull-to-a-right-angle", test_pull_to_a_right_angle);
  g_test_add_func ("/draw/card/pull-follows-and-clamps", test_pull_follows_and_clamps);
  g_test_add_func ("/draw/card/pull-only-what-moves", test_pull_only_what_moves);
  g_test_add_func ("/draw/card/pull-runs-on-into-the-next-step", test_pull_runs_on);
  g_test_add_func ("/draw/card/looks", test_looks);
  g_test_add_func ("/draw/card/fit", test_fit);
  g_test_add_func ("/draw/card/art-over-a-fold", test_art_over_a_fold);
  g_test_add_func ("/draw/card/creases-are-no-edges", test_creases_are_no_edges);
  g_test_add_func ("/draw/card/no-allocation", test_no_allocation);
  g_test_add_func ("/draw/card/frame-time", test_frame_time);
  g_test_add_func ("/draw/card/golden", test_golden);
  return g_test_run ();
}
