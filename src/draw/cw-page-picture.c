/* cw-page-picture.c: the pictures of a step card.
 *
 * A single sheet is drawn in cw-page-sheet.c. The card is drawn as the window draws it, what has just moved between two
 * lines. Letters are kept at a size that can be read.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "cw-page-private.h"

/* Up to so many panels are all marked as moved. */
#define MARKED_MOST 3

/* What is to be marked as moved. Of many panels that move together only the large ones are, or the picture is all
 * marks. */
static void
find_marked (const CwStepCard *card, const CwCardPicture *picture, GArray *marked)
{
  const CwPanelSet *set = card->analysis->panels;
  gint64 largest = 0;

  if (picture->moved == NULL)
    return;
  for (guint i = 0; i < picture->moved->len; i++)
    largest = MAX (largest, cw_panel_set_get_panel (set, g_array_index (picture->moved, guint, i))->area2);
  for (guint i = 0; i < picture->moved->len; i++)
    {
      guint panel = g_array_index (picture->moved, guint, i);
      CwId id = { CW_ID_PANEL, 0, 0, 0 };

      if (picture->moved->len > MARKED_MOST && cw_panel_set_get_panel (set, panel)->area2 < largest / 2)
        continue;
      cw_panel_set_locate (set, panel, &id.piece, &id.index);
      g_array_append_val (marked, id);
    }
}

static double
picture_card (CwDrawList *list, const CwStepCard *card, CwCardScene *scene, const CwCardPicture *picture, double width,
              double height, const CwPageSizes *sizes, guint *pens)
{
  CwMotion *motion = card->analysis->motion;
  g_autoptr (CwMotionWork) work = cw_motion_work_new (motion);
  g_autoptr (CwPose) pose = cw_pose_new (motion);
  g_autoptr (CwDrawList) drawn = cw_draw_list_new ();
  g_autoptr (GArray) selected = g_array_new (FALSE, FALSE, sizeof (CwId));
  static const char *const from[] = { "front", "back", "table" };
  CwCardLook look = { .lit_panel = G_MAXUINT, .hinge_at = G_MAXUINT, .labels = TRUE };
  CwCamera camera = { 0 };
  double scale = sizes->picture, box[4];
  guint step = picture->step == G_MAXUINT ? cw_motion_get_n_steps (motion) : picture->step;

  find_marked (card, picture, selected);
  look.selected = (const CwId *) (gpointer) selected->data;
  look.n_selected = selected->len;
  look.shadow = picture->from == CW_CARD_FROM_TABLE;
  /* Nine points on the page in normal type, eighteen in large. */
  look.label_least = sizes->small >= 18 ? 18 / scale : 9 / scale;
  if (picture->step == G_MAXUINT)
    cw_motion_get_start (motion, pose);
  else
    cw_motion_get_pose (motion, work, picture->step, picture->fraction, pose);
  if (picture->from == CW_CARD_FROM_TABLE)
    cw_camera_look_into (&camera, motion);
  else
    cw_camera_look_from (&camera, from[picture->from]);
  cw_camera_fit_pose (&camera, motion, pose, 4, 4, width / scale - 8, height / scale - 8);
  camera.scale = MIN (camera.scale, CW_PAGE_TRUE_SCALE / scale);
  cw_draw_card (drawn, scene, step, picture->step == G_MAXUINT ? 0 : picture->fraction, &camera, &look);
  cw_draw_list_get_extents (drawn, box);
  /* Marks of what has moved are broad lines. */
  double broad = selected->len > 0 ? cw_pen_get_style (CW_PEN_SELECTED)->width_mm * CW_PT_PER_MM / 2 + 1 : 1;
  box[0] -= broad / scale;
  box[1] -= broad / scale;
  box[2] += broad / scale;
  box[3] += broad / scale;
  /* A shadow may reach beyond what was fitted. */
  double fit = MIN (1, MIN ((width - 4) / ((box[2] - box[0]) * scale), (height - 4) / ((box[3] - box[1]) * scale)));
  scale *= fit;
  cw_draw_list_append (list, drawn, scale, (width - (box[2] + box[0]) * scale) / 2, 2 - box[1] * scale);
  if (selected->len > 0)
    *pens |= 1u << CW_PEN_SELECTED;
  return (box[3] - box[1]) * scale + 4;
}

/**
 * cw_page_picture:
 * @list: an empty list, drawn in from 0, 0 on
 * @card: a step card
 * @scene: its card's scene
 * @picture: one of its pictures
 * @width: at most so wide, points
 * @height: at most so high
 * @sizes: of the page's letters
 * @pens: (inout): mask of 1 << #CwPen of what its lines mean
 *
 * Returns: how high it is
 */
double
cw_page_picture (CwDrawList *list, const CwStepCard *card, CwCardScene *scene, const CwCardPicture *picture,
                 double width, double height, const CwPageSizes *sizes, guint *pens)
{
  switch (picture->kind)
    {
    case CW_CARD_PICTURE_SHEET:
      return cw_page_sheet (list, card, picture, width, height, sizes, pens);
    case CW_CARD_PICTURE_CARD:
      return picture_card (list, card, scene, picture, width, height, sizes, pens);
    case CW_CARD_PICTURE_NONE:
    default:
      return 0;
    }
}
