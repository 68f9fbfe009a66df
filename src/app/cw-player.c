/* cw-player.c: moves the document's moment with the frames of a widget.
 *
 * Every frame reads where the document stands and moves it on by the time since the last frame, so an edit or a pull in
 * between is never fought. Going to a step runs there from where the card stands, forward or back, in at most a second
 * or two. Where the desktop asks for less motion (gtk-enable-animations off) going is a jump, and playing shows the end
 * of each step for a while.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-player.h"

#include <math.h>

#define STEP_SECONDS 1.4    /* a step at ordinary speed: about what the hand takes */
#define SLOWER 4.0          /* slow: this many times longer */
#define TRAVEL_SECONDS 0.45 /* for each step passed on the way to another */
#define TRAVEL_MOST 1.6     /* the longest way takes this long */
#define STILL_SECONDS 1.5   /* less motion: how long each step's end is shown */

struct _CwPlayer
{
  GObject parent_instance;

  GtkWidget *clock; /* weak */
  CwDocument *document;
  guint tick;
  gint64 last;      /* time of the last frame, microseconds; 0: none yet */
  double held;      /* less motion: seconds since the last jump */
  gboolean travels; /* on the way to `target` */
  double from, target, length, spent;
  gboolean slow;
  gboolean moving; /* the moment is being moved by this player and nobody else */
};

G_DEFINE_FINAL_TYPE (CwPlayer, cw_player, G_TYPE_OBJECT)

enum
{
  PROP_0,
  PROP_PLAYING,
  PROP_SLOW,
  N_PROPS
};
static GParamSpec *props[N_PROPS];

static gboolean
wants_motion (CwPlayer *self)
{
  gboolean animations = TRUE;

  g_object_get (gtk_widget_get_settings (self->clock), "gtk-enable-animations", &animations, NULL);
  return animations;
}

static double
last_place (CwPlayer *self)
{
  return self->document != NULL ? cw_document_get_design (self->document)->steps->len : 0;
}

/**
 * cw_player_get_place:
 * @self: the player
 *
 * Returns: the moment as one number, 0 before the first step
 */
double
cw_player_get_place (CwPlayer *self)
{
  int step = -1;

  g_return_val_if_fail (CW_IS_PLAYER (self), 0);

  if (self->document == NULL)
    return 0;
  step = cw_document_get_step (self->document);
  return step < 0 ? 0 : step + cw_document_get_fraction (self->document);
}

/**
 * cw_player_set_place:
 * @self: the player
 * @place: the moment as one number
 */
void
cw_player_set_place (CwPlayer *self, double place)
{
  int step = -1;

  g_return_if_fail (CW_IS_PLAYER (self));

  if (self->document == NULL)
    return;
  place = CLAMP (place, 0, last_place (self));
  step = (int) ceil (place) - 1;
  self->moving = TRUE;
  cw_document_set_moment (self->document, step, step < 0 ? 1 : place - step);
  self->moving = FALSE;
}

/* Someone else moved the card, by pulling a panel or through an edit: let go of it. */
static void
moment_changed (CwPlayer *self)
{
  if (!self->moving)
    cw_player_pause (self);
}

static gboolean
frame (GtkWidget *clock, GdkFrameClock *frames, gpointer data)
{
  CwPlayer *self = data;
  gint64 now = gdk_frame_clock_get_frame_time (frames);
  double seconds = self->last == 0 ? 0 : (double) (now - self->last) / G_USEC_PER_SEC;
  double end = last_place (self), place = cw_player_get_place (self);

  self->last = now;
  if (self->travels)
    {
      double share = 0;

      self->spent += seconds;
      share = CLAMP (self->spent / self->length, 0, 1);
      share = share * share * (3 - 2 * share); /* starts and lands gently */
      cw_player_set_place (self, share < 1 ? self->from + (self->target - self->from) * share : self->target);
      if (self->spent < self->length)
        return G_SOURCE_CONTINUE;
    }
  else if (wants_motion (self))
    {
      place += seconds / (self->slow ? STEP_SECONDS * SLOWER : STEP_SECONDS);
      cw_player_set_place (self, place);
      if (place < end)
        return G_SOURCE_CONTINUE;
    }
  else
    {
      self->held += seconds;
      if (self->held < (self->slow ? STILL_SECONDS * SLOWER : STILL_SECONDS))
        return G_SOURCE_CONTINUE;
      self->held = 0;
      place = floor (place) + 1;
      cw_player_set_place (self, place);
      if (place < end)
        return G_SOURCE_CONTINUE;
    }
  self->tick = 0;
  self->travels = FALSE;
  g_object_notify_by_pspec (G_OBJECT (self), props[PROP_PLAYING]);
  return G_SOURCE_REMOVE;
}

static void
start (CwPlayer *self)
{
  self->last = 0;
  self->held = 0;
  if (self->tick != 0 || self->clock == NULL)
    return;
  self->tick = gtk_widget_add_tick_callback (self->clock, frame, self, NULL);
  g_object_notify_by_pspec (G_OBJECT (self), props[PROP_PLAYING]);
}

/**
 * cw_player_play:
 * @self: the player
 *
 * Plays from where the card stands; from the beginning when it stands at the end.
 */
void
cw_player_play (CwPlayer *self)
{
  g_return_if_fail (CW_IS_PLAYER (self));

  if (self->document == NULL || !(last_place (self) > 0))
    return;
  if (!(cw_player_get_place (self) < last_place (self)))
    cw_player_set_place (self, 0);
  self->travels = FALSE;
  start (self);
}

/**
 * cw_player_pause:
 * @self: the player
 *
 * Stays where it is.
 */
void
cw_player_pause (CwPlayer *self)
{
  g_return_if_fail (CW_IS_PLAYER (self));

  if (self->tick == 0)
    return;
  if (self->clock != NULL)
    gtk_widget_remove_tick_callback (self->clock, self->tick);
  self->tick = 0;
  self->travels = FALSE;
  g_object_notify_by_pspec (G_OBJECT (self), props[PROP_PLAYING]);
}

/**
 * cw_player_is_playing:
 * @self: the player
 *
 * Returns: TRUE while the card moves by itself
 */
gboolean
cw_player_is_playing (CwPlayer *self)
{
  g_return_val_if_fail (CW_IS_PLAYER (self), FALSE);
  return self->tick != 0;
}

/**
 * cw_player_set_slow:
 * @self: the player
 * @slow: play slowly
 */
void
cw_player_set_slow (CwPlayer *self, gboolean slow)
{
  g_return_if_fail (CW_IS_PLAYER (self));

  if (self->slow == (slow != FALSE))
    return;
  self->slow = slow != FALSE;
  g_object_notify_by_pspec (G_OBJECT (self), props[PROP_SLOW]);
}

/**
 * cw_player_go_to:
 * @self: the player
 * @step: a step; -1 for before the first
 *
 * Runs to the end of the step from where the card stands, or jumps there when less motion is wanted.
 */
void
cw_player_go_to (CwPlayer *self, int step)
{
  double place = 0;

  g_return_if_fail (CW_IS_PLAYER (self));

  if (self->document == NULL)
    return;
  place = cw_player_get_place (self);
  self->from = place;
  self->target = CLAMP (step + 1.0, 0, last_place (self));
  self->length = MIN (fabs (self->target - place) * TRAVEL_SECONDS, TRAVEL_MOST);
  self->spent = 0;
  if (!wants_motion (self) || self->length < 0.001)
    {
      cw_player_pause (self);
      cw_player_set_place (self, self->target);
      return;
    }
  self->travels = TRUE;
  start (self);
}

/**
 * cw_player_go_by:
 * @self: the player
 * @by: 1: to the end of this step, or of the next from there; -1: to where this step begins, or the one before from
 * there
 *
 * On the way somewhere it counts from there: two presses of a key go two steps, however fast they come.
 */
void
cw_player_go_by (CwPlayer *self, int by)
{
  double place = 0;

  g_return_if_fail (CW_IS_PLAYER (self) && (by == 1 || by == -1));

  place = self->travels ? self->target : cw_player_get_place (self);
  cw_player_go_to (self, by > 0 ? (int) floor (place) : (int) ceil (place) - 2);
}

/**
 * cw_player_set_document:
 * @self: the player
 * @document: (nullable): whose moment to move
 */
void
cw_player_set_document (CwPlayer *self, CwDocument *document)
{
  g_return_if_fail (CW_IS_PLAYER (self));

  cw_player_pause (self);
  if (cw_document_follow (&self->document, document, self) && document != NULL)
    g_signal_connect_object (document, "moment", G_CALLBACK (moment_changed), self, G_CONNECT_SWAPPED);
}

static void
cw_player_get_property (GObject *object, guint id, GValue *value, GParamSpec *pspec)
{
  CwPlayer *self = CW_PLAYER (object);

  if (id == PROP_PLAYING)
    g_value_set_boolean (value, cw_player_is_playing (self));
  else if (id == PROP_SLOW)
    g_value_set_boolean (value, self->slow);
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
}

static void
cw_player_set_property (GObject *object, guint id, const GValue *value, GParamSpec *pspec)
{
  if (id == PROP_SLOW)
    cw_player_set_slow (CW_PLAYER (object), g_value_get_boolean (value));
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
}

static void
cw_player_dispose (GObject *object)
{
  CwPlayer *self = CW_PLAYER (object);

  if (self->tick != 0 && self->clock != NULL)
    gtk_widget_remove_tick_callback (self->clock, self->tick);
  self->tick = 0;
  g_clear_weak_pointer (&self->clock);
  g_clear_object (&self->document);
  G_OBJECT_CLASS (cw_player_parent_class)->dispose (object);
}

static void
cw_player_class_init (CwPlayerClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);

  object_class->dispose = cw_player_dispose;
  object_class->get_property = cw_player_get_property;
  object_class->set_property = cw_player_set_property;
  props[PROP_PLAYING] = g_param_spec_boolean ("playing", NULL, NULL, FALSE, G_PARAM_READABLE | G_PARAM_STATIC_STRINGS);
  props[PROP_SLOW] = g_param_spec_boolean ("slow", NULL, NULL, FALSE,
                                           G_PARAM_READWRITE | G_PARAM_STATIC_STRINGS | G_PARAM_EXPLICIT_NOTIFY);
  g_object_class_install_properties (object_class, N_PROPS, props);
}

static void
cw_player_init (CwPlayer *self)
{
}

/**
 * cw_player_new:
 * @clock: a widget on the screen, whose frames are counted
 *
 * Returns: (transfer full): a player at rest
 */
CwPlayer *
cw_player_new (GtkWidget *clock)
{
  CwPlayer *self = g_object_new (CW_TYPE_PLAYER, NULL);

  g_set_weak_pointer (&self->clock, clock);
  return self;
}
