/* card-fixture.h: designs as text with ' for ", their motion, and where points of them come to, in inches.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "design/cw-design-json.h"
#include "fold/cw-motion.h"

#define CARD_HEAD "{ 'format': 'creasewright design', 'version': 1, 'title': 'test', "
#define CARD_INCH "'measure': { 'unit': 'in' }, "
#define CARD_MM "'measure': { 'unit': 'mm' }, "

static inline CwDesign *
card_design (const char *text)
{
  g_autofree char *json = g_strdelimit (g_strdup (text), "'", '"');
  g_autoptr (GError) error = NULL;
  CwDesign *design = cw_design_from_text (json, -1, "test", &error);

  g_assert_no_error (error);
  return design;
}

static inline CwMotion *
card_motion_with (const char *text, const CwFixed *more, guint n_more)
{
  g_autoptr (CwDesign) design = card_design (text);
  g_autoptr (CwPanelSet) set = cw_panel_set_new (design);

  return cw_motion_new (set, more, n_more);
}

static inline CwMotion *
card_motion (const char *text)
{
  return card_motion_with (text, NULL, 0);
}

static inline guint
card_piece (const CwMotion *motion, const char *id)
{
  guint piece = cw_design_find_piece (cw_motion_get_set (motion)->design, id);

  g_assert_cmpuint (piece, !=, G_MAXUINT);
  return piece;
}

/* The panel under a point of a piece, inches. */
static inline guint
card_panel (const CwMotion *motion, const char *id, double x, double y)
{
  const CwPanelSet *set = cw_motion_get_set (motion);
  guint piece = card_piece (motion, id);
  guint panel = cw_panel_map_find (&set->maps[piece],
                                   cw_point ((gint32) (x * CW_TICKS_PER_INCH), (gint32) (y * CW_TICKS_PER_INCH)));

  g_assert_cmpuint (panel, !=, G_MAXUINT);
  return set->first_panel[piece] + panel;
}

/* Index through the design of the first fold line a score makes. */
static inline guint
card_hinge (const CwMotion *motion, const char *address)
{
  const CwPanelSet *set = cw_motion_get_set (motion);

  for (guint i = 0; i < cw_panel_set_n_hinges (set); i++)
    {
      guint piece;
      const CwHinge *hinge = cw_panel_set_get_hinge (set, i, &piece);

      for (guint k = 0; k < hinge->scores->len; k++)
        {
          g_autofree char *own = g_strdup_printf ("%s/%s", set->maps[piece].piece->id,
                                                  (const char *) g_ptr_array_index (hinge->scores, k));

          if (g_str_equal (own, address))
            return i;
        }
    }
  g_assert_not_reached ();
}

static inline CwPose *
card_pose (const CwMotion *motion, const char *step, double fraction)
{
  g_autoptr (CwMotionWork) work = cw_motion_work_new (motion);
  CwPose *pose = cw_pose_new (motion);
  guint index = cw_design_find_step (cw_motion_get_set (motion)->design, step);

  g_assert_cmpuint (index, !=, G_MAXUINT);
  cw_motion_get_pose (motion, work, index, fraction, pose);
  return pose;
}

/* Where the point (x, y) of the panel under (px, py) comes to, inches. */
static inline CwVec3
card_point (const CwMotion *motion, const CwPose *pose, const char *piece, double px, double py, double x, double y)
{
  CwVec3 flat = cw_vec3 (x * CW_TICKS_PER_INCH, y * CW_TICKS_PER_INCH, 0);

  return cw_vec3_scale (cw_rigid_apply (&pose->places[card_panel (motion, piece, px, py)], flat),
                        1.0 / CW_TICKS_PER_INCH);
}

static inline const CwMotionState *
card_state (const CwMotion *motion, const char *step)
{
  return cw_motion_get_state (motion, cw_design_find_step (cw_motion_get_set (motion)->design, step));
}

static inline const CwFinding *
card_finding (const CwMotion *motion, CwFindingCode code)
{
  GPtrArray *findings = cw_motion_get_findings (motion);

  for (guint i = 0; i < findings->len; i++)
    if (((CwFinding *) g_ptr_array_index (findings, i))->code == code)
      return g_ptr_array_index (findings, i);
  return NULL;
}

/* Checks a point in space, inches, to 1e-9. */
#define card_assert_point(got, ex, ey, ez)                                                                             \
  G_STMT_START                                                                                                         \
  {                                                                                                                    \
    CwVec3 card_got = (got);                                                                                           \
    g_assert_cmpfloat_with_epsilon (card_got.x, (ex), 1e-9);                                                           \
    g_assert_cmpfloat_with_epsilon (card_got.y, (ey), 1e-9);                                                           \
    g_assert_cmpfloat_with_epsilon (card_got.z, (ez), 1e-9);                                                           \
  }                                                                                                                    \
  G_STMT_END
