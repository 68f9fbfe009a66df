/* cw-lever.c: how far a miss of the hand shows: a line scored 1/32 inch beside its place, folded shut, brings what lies
 * beyond it 1/16 inch beside its own.
 *
 * Corners are compared where they come to at the ends of the steps, in space; in a flat state along the table only:
 * what bulges there for being too long is pressed flat again.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "check/cw-lever.h"

#include "contact/cw-panel-words.h"
#include "design/cw-step-words.h"
#include "geometry/cw-tolerance.h"
#include "units/cw-about.h"

#include <glib/gi18n-lib.h>
#include <math.h>

/* What shows as more than so many times itself is no lever: the card goes another way there. */
#define JUMP 16

/**
 * cw_lever_free:
 * @lever: (nullable) (transfer full): a lever
 */
void
cw_lever_free (CwLever *lever)
{
  if (lever == NULL)
    return;
  cw_miss_free (lever->miss);
  g_free (lever);
}

/**
 * cw_lever_dup_text:
 * @lever: one of @analysis's
 * @analysis: an analysis
 * @translated: %FALSE for English whatever the locale
 *
 * Returns: (transfer full): a sentence
 */
char *
cw_lever_dup_text (const CwLever *lever, const CwAnalysis *analysis, gboolean translated)
{
  static const char *const words = N_ ("{0}: {1} off shows as {2} on {3} after “{4}”.");
  g_autoptr (GPtrArray) args = g_ptr_array_new_with_free_func (g_free);
  const CwHead *head;
  const CwStep *step;

  g_return_val_if_fail (lever != NULL && analysis != NULL, NULL);

  head = analysis->design->head;
  step = analysis->design->steps->pdata[lever->step];
  g_ptr_array_add (args, cw_miss_dup_name (lever->miss, analysis->design, translated));
  g_ptr_array_add (args, cw_about_length (head->hand.ticks, head->unit));
  g_ptr_array_add (args, cw_about_length (lever->shows, head->unit));
  g_ptr_array_add (args, cw_panel_words (analysis->panels, lever->panel));
  g_ptr_array_add (args, step->title != NULL ? g_strdup (step->title) : cw_step_dup_mention (analysis->design, step));
  return cw_words_fill (words, args, translated);
}

/* The corner of the panel as it came out that was drawn as this one; FALSE if it has none near. */
static gboolean
find_corner (const CwPanel *panel, CwPoint drawn, double near, CwPoint *corner)
{
  double least = near;

  for (guint r = 0; r < panel->outline.n_rings; r++)
    for (guint k = 0; k < panel->outline.rings[r].n_points; k++)
      {
        CwPoint p = panel->outline.rings[r].points[k];
        double off = hypot (p.x - drawn.x, p.y - drawn.y);

        if (off > least)
          continue;
        least = off;
        *corner = p;
      }
  return least < near;
}

/**
 * cw_lever_look:
 * @lever: what is known so far
 * @drawn: the card as drawn
 * @made: the card as it comes out, with the same pieces and steps, and as many panels
 * @hand: how far the hand missed, ticks
 *
 * Keeps the corner that lies farthest from where it should at the end of a step, if it is farther than what is known.
 * Steps from the first on that does not come as far as drawn are left out.
 */
void
cw_lever_look (CwLever *lever, const CwAnalysis *drawn, const CwAnalysis *made, gint32 hand)
{
  g_autoptr (CwMotionWork) drawn_work = cw_motion_work_new (drawn->motion),
                           made_work = cw_motion_work_new (made->motion);
  g_autoptr (CwPose) drawn_pose = cw_pose_new (drawn->motion), made_pose = cw_pose_new (made->motion);

  for (guint s = 0; s < cw_motion_get_n_steps (drawn->motion); s++)
    {
      if (fabs (cw_motion_get_state (made->motion, s)->reached - cw_motion_get_state (drawn->motion, s)->reached)
          > CW_TOL_REACHED)
        return;
      cw_motion_get_pose (drawn->motion, drawn_work, s, 1, drawn_pose);
      cw_motion_get_pose (made->motion, made_work, s, 1, made_pose);
      for (guint i = 0; i < made_pose->n_panels; i++)
        {
          const CwPanel *panel = cw_panel_set_get_panel (drawn->panels, i);
          guint piece, now;

          cw_panel_set_locate (drawn->panels, i, &piece, &now);
          now = cw_panel_map_find (&made->panels->maps[piece], panel->inside);
          if (now == G_MAXUINT || panel->outline.n_rings == 0)
            continue;
          now += made->panels->first_panel[piece];
          if (!drawn_pose->present[i] || !made_pose->present[now])
            continue;
          for (guint k = 0; k < panel->outline.rings[0].n_points; k++)
            {
              CwPoint corner = panel->outline.rings[0].points[k], now_at = corner;
              CwVec3 p, q;
              double off;

              if (!find_corner (cw_panel_set_get_panel (made->panels, now), corner, 2 * hand, &now_at))
                continue;
              p = cw_rigid_apply (&drawn_pose->places[i], cw_vec3 (corner.x, corner.y, 0));
              q = cw_rigid_apply (&made_pose->places[now], cw_vec3 (now_at.x, now_at.y, 0));
              /* What bulges for being too long is pressed flat again. */
              off = cw_motion_get_state (drawn->motion, s)->flat ? hypot (p.x - q.x, p.y - q.y)
                                                                 : cw_vec3_length (cw_vec3_sub (p, q));
              if (off <= lever->shows + CW_TOL_EXACT_TICKS || off > JUMP * hand)
                continue;
              lever->shows = off;
              lever->step = s;
              lever->panel = i;
              lever->at = corner;
            }
        }
    }
}
