/* bench-analysis.c: how the work of the kernel grows with the card, and what finding everything costs beside drawing.
 *
 * An accordion of 250 to 2000 strips: seconds of each room and the power of n it grows by (kernel, "Numbers to hold":
 * panels, poses and layer order no faster than n^1.2). A card of 12 panels, three of them layers: all findings against
 * 20 drawings of it on an image of 1200 x 800, in the same run. Numbers to read; nothing is asserted, since the machine
 * decides. Times are the processor's, which other work on the machine does not lengthen.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include <math.h>
#include <time.h>

#include "bench-accordion.h"
#include "check/cw-analysis.h"
#include "contact/cw-collision.h"
#include "cw-draw-card.h"
#include "cw-draw-play.h"
#include "design/cw-design-json.h"

#define TRIES 3
#define DRAWINGS 20

typedef enum
{
  READING,
  PANELS,
  MOTION,
  POSES,
  LAYERS,
  COLLISIONS,
  ALL,
  N_STAGES,
} Stage;

static const char *const stage_names[N_STAGES] = {
  "reading the file", "panels", "motion", "a hundred moments", "layers and meetings", "collisions", "all findings"
};

/* Milliseconds of this process. */
static double
spent (void)
{
  return 1000 * (double) clock () / CLOCKS_PER_SEC;
}

/* Milliseconds since `from`, if fewer than `best`; starts anew. */
static void
lap (double *from, double *best)
{
  double now = spent ();

  *best = MIN (*best, now - *from);
  *from = now;
}

/* Least milliseconds of every stage. */
static void
time_stages (const char *text, double best[N_STAGES])
{
  for (Stage k = 0; k < N_STAGES; k++)
    best[k] = G_MAXDOUBLE;
  for (guint again = 0; again < TRIES; again++)
    {
      double from = spent ();
      g_autoptr (CwDesign) design = cw_design_from_text (text, -1, "bench", NULL);
      g_autoptr (CwPanelSet) set = NULL;
      g_autoptr (CwMotion) motion = NULL;
      g_autoptr (CwMotionWork) work = NULL;
      g_autoptr (CwPose) pose = NULL;
      g_autoptr (CwFlatStates) states = NULL;
      g_autoptr (GArray) collisions = NULL;
      g_autoptr (CwAnalysis) analysis = NULL;

      g_assert_nonnull (design);
      lap (&from, &best[READING]);
      set = cw_panel_set_new (design);
      lap (&from, &best[PANELS]);
      motion = cw_motion_new (set, NULL, 0);
      lap (&from, &best[MOTION]);
      work = cw_motion_work_new (motion);
      pose = cw_pose_new (motion);
      for (guint i = 0; i < 100; i++)
        cw_motion_get_pose (motion, work, 0, i / 100.0, pose);
      lap (&from, &best[POSES]);
      states = cw_flat_states_new (motion);
      lap (&from, &best[LAYERS]);
      collisions = cw_collisions_find (motion, states, NULL);
      lap (&from, &best[COLLISIONS]);
      analysis = cw_analysis_new (design);
      lap (&from, &best[ALL]);
    }
}

static void
grow (void)
{
  double last[N_STAGES] = { 0 };

  for (guint n = 250; n <= 2000; n *= 2)
    {
      g_autofree char *text = bench_accordion (n, 240, 8128);
      double now[N_STAGES];

      time_stages (text, now);
      g_print ("accordion of %u strips\n", n);
      for (Stage k = 0; k < N_STAGES; k++)
        {
          g_print ("  %-22s %9.2f ms", stage_names[k], now[k]);
          if (last[k] > 0)
            g_print (", grows as n^%.2f", log2 (now[k] / last[k]));
          g_print ("\n");
          last[k] = now[k];
        }
    }
}

/* Drawings of the card, over its whole motion. */
static void
time_drawings (const CwAnalysis *analysis, double *best)
{
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_ARGB32, 1200, 800);
  g_autoptr (CwCardScene) scene = cw_card_scene_new (analysis);
  g_autoptr (CwDrawList) list = cw_draw_list_new ();
  CwCardLook look = { .lit_panel = G_MAXUINT, .hinge_at = G_MAXUINT, .shadow = TRUE };
  CwCamera camera = { 0 };
  guint n_steps = cw_motion_get_n_steps (analysis->motion);
  double from;

  cw_camera_look_from (&camera, "table");
  cw_camera_fit (&camera, analysis->motion, 0, 0, 1200, 800);
  from = spent ();
  for (guint i = 0; i < DRAWINGS; i++)
    {
      cairo_t *cr = cairo_create (surface);

      cw_draw_list_clear (list);
      cw_draw_card (list, scene, i * n_steps / DRAWINGS, i % 4 / 4.0, &camera, &look);
      cw_draw_play (list, &cw_palette_light, cr);
      cairo_destroy (cr);
    }
  cairo_surface_flush (surface);
  lap (&from, best);
  cairo_surface_destroy (surface);
}

static void
compare_with_drawing (const char *path)
{
  g_autoptr (GFile) file = g_file_new_for_path (path);
  g_autoptr (GError) error = NULL;
  g_autoptr (CwDesign) design = cw_design_load (file, &error);
  double find = G_MAXDOUBLE, draw = G_MAXDOUBLE;

  g_assert_no_error (error);
  for (guint again = 0; again < TRIES; again++)
    {
      double from = spent ();
      g_autoptr (CwAnalysis) analysis = cw_analysis_new (design);

      lap (&from, &find);
      time_drawings (analysis, &draw);
      if (again == 0)
        g_print ("%s: %u panels, %u findings\n", path, cw_panel_set_n_panels (analysis->panels),
                 analysis->findings->len);
    }
  g_print ("  all findings %.2f ms, %d drawings %.2f ms: %.2f times\n", find, DRAWINGS, draw, find / draw);
}

int
main (int argc, char *argv[])
{
  for (int i = 1; i < argc; i++)
    compare_with_drawing (argv[i]);
  grow ();
  return 0;
}
