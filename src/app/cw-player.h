/* cw-player.h: runs the moment of a document: plays, pauses, goes to a step.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <gtk/gtk.h>

#include "cw-document.h"

G_BEGIN_DECLS

#define CW_TYPE_PLAYER (cw_player_get_type ())
G_DECLARE_FINAL_TYPE (CwPlayer, cw_player, CW, PLAYER, GObject)

/* clock: a widget whose frames are counted; not kept alive. Property "playing", "slow". */
CwPlayer *cw_player_new (GtkWidget *clock);
void cw_player_set_document (CwPlayer *self, CwDocument *document);

void cw_player_play (CwPlayer *self);
void cw_player_pause (CwPlayer *self);
gboolean cw_player_is_playing (CwPlayer *self); /* TRUE also on the way to a step */
void cw_player_set_slow (CwPlayer *self, gboolean slow);
void cw_player_go_to (CwPlayer *self, int step); /* to that step's end; -1: before the first */
void cw_player_go_by (CwPlayer *self, int by);   /* 1: one step on; -1: one back */

/* A moment as one number: 0 is before the first step, 2.5 is half through the third. */
double cw_player_get_place (CwPlayer *self);
void cw_player_set_place (CwPlayer *self, double place);

G_END_DECLS
