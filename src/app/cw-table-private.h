/* cw-table-private.h: what the files of the table share. For cw-table*.c and its tests only.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "cw-draw-play.h"
#include "glue/cw-glue-map.h"
#include "cw-hand.h"
#include "cw-table.h"
#include "make/cw-make-area.h"
#include "make/cw-make.h"

G_BEGIN_DECLS

typedef enum
{
  CW_TOOL_SELECT,
  CW_TOOL_SCORE,
  CW_TOOL_CUT,
  CW_TOOL_WINDOW,
  CW_TOOL_LAYER,
  CW_TOOL_GLUE,
  CW_TOOL_PICTURE,
  CW_TOOL_NAME,
  CW_N_TOOLS
} CwTool;

/* The form of what a tool draws. */
typedef enum
{
  CW_FORM_STRAIGHT, /* lines, with corners where the tool allows */
  CW_FORM_ARC,
  CW_FORM_PANEL, /* nothing is drawn: a panel is pointed at */
  CW_FORM_BOX,
  CW_FORM_ROUND,
  CW_FORM_CORNERS, /* corner by corner */
  CW_N_FORMS
} CwForm;

typedef enum
{
  CW_SHARE_BOTH,
  CW_SHARE_SHEET,
  CW_SHARE_CARD
} CwShare;

/* What a pressed pointer is doing. */
typedef enum
{
  CW_DRAG_NONE,
  CW_DRAG_PRESSED, /* not yet moved: may become a click */
  CW_DRAG_DRAW,
  CW_DRAG_SLIDE,   /* whole marks */
  CW_DRAG_STRETCH, /* one end of a mark */
  CW_DRAG_PUSH,    /* the sheet or the card about the table */
  CW_DRAG_PULL,    /* a panel of the card: it folds */
  CW_DRAG_LOOK,    /* looking from elsewhere */
  CW_DRAG_BOX,     /* a box round what is to be selected */
  CW_DRAG_AREA,    /* something to be laid over the card */
} CwDragKind;

#define CW_TABLE_POINTS_MAX 64
#define CW_TABLE_REACH 9 /* how near a line the pointer is on it, logical pixels */

struct _CwTable
{
  GtkWidget parent_instance;

  /* Owned */
  CwDocument *document;
  CwAnalysis *analysis; /* the one drawn; its design may be older than the document's for a moment */
  CwCardScene *scene;   /* of that analysis */
  GSimpleActionGroup *actions;
  CwDrawList *sheet_list, *card_list, *over_list;
  cairo_surface_t *sheet_surface;                    /* the still picture of the sheet, the size of sheet_area */
  GskRenderNode *sheet_node, *card_node, *over_node; /* NULL: to be drawn again */
  PangoLayout *tip;
  GPtrArray *moving; /* of CwMark: fresh copies shown while the hand moves, and until the analysis has caught up */
  GPtrArray *before; /* of CwMark: the same before they were moved */
  GArray *moved;     /* of CwId: what they are the outlines of */
  GPtrArray *items;  /* of CwTableItem, borrowed from the widget tree */
  GtkWidget *sheet_item, *card_item;
  GtkWidget *tool_bar, *form_bar, *forms_buttons[CW_N_FORMS], *sheet_bar, *look_bar, *piece_bar, *piece_window, *offer;
  GtkWidget *menu, *entry_popover, *repeat_popover, *repeat_distance, *repeat_way, *repeat_times;

  /* Views */
  GdkRectangle sheet_area, card_area, fit_area; /* fit_area: the one the sheet was last fitted to */
  CwSheetView view;
  CwCamera camera, look_from, look_to;
  gboolean camera_turned;        /* looked at from elsewhere: an edit does not fit it again */
  gboolean view_own, camera_own; /* zoomed or pushed by the maker: resizing does not fit it again */
  CwShare share;
  gint64 look_start; /* frame time at which an animated look began, microseconds */
  guint look_tick;
  const CwPalette *palette;

  /* The hand */
  CwTool tool;
  CwForm forms[CW_N_TOOLS]; /* the form each tool draws */
  guint known;              /* forms that the maker has drawn already: mask of 1 << CwForm */
  CwLength rim;             /* of the next layer laid on a panel; no unit yet: 0 ticks */
  CwGlueKind glue_kind;     /* of the next glue */
  CwDragKind drag;
  gboolean drag_on_card, drag_new_point;
  double pinch_scale, press_x, press_y, last_x, last_y, pointer_x, pointer_y;
  gboolean pointer_in;
  GdkModifierType state;
  CwPoint points[CW_TABLE_POINTS_MAX]; /* of the line being drawn, ticks */
  guint n_points;
  CwAim aim;
  CwPoint held; /* where the sheet was pressed, ticks */
  guint stretch_vertex;
  CwMark *rubber;       /* owned: the line being drawn */
  CwMakeOffer *offered; /* owned: the crease the offer beside a cut would add */
  GPtrArray *refused;   /* owned, of addresses: cuts that are to stay without */
  CwId hover;           /* on the sheet or the card */
  gboolean hover_on_card;
  int told_step, told_tenths; /* what the card's description says */
  guint pull_step;
  gint64 word_time;    /* when a key was pressed that may begin a word for the measure line, microseconds; 0: none */
  char word_letter;    /* that key */
  CwTool word_tool;    /* and the tool there was before it */
  gboolean rebuilding; /* items are being made: focus changes mean nothing */
  CwId ask_id;         /* what the entry on the table is about, and what its answer is for */
  void (*ask_answer) (CwTable *self, CwId id, const char *text);
  double menu_x, menu_y;
  char *tip_text;
  char *piece_names; /* of the tabs there are */

  /* Glue */
  gboolean glue_wanted;    /* the map is to be seen */
  CwGlueMap *glue_map;     /* owned: of the analysis that is drawn; NULL: not there yet */
  GCancellable *glue_work; /* owned: stops the worker that makes it */
  GtkWidget *glue_legend, *glue_popover;
};

/* What decides which actions can be used. */
typedef struct
{
  gboolean ready, can_paste, offer;
  guint n_marks, n_scores, n_here;  /* selected: marks, scores among them, marks of the piece on the table */
  guint n_zones, n_art;             /* selected */
  gboolean panel, layer, removable; /* a panel is selected; its piece is stuck on another; it may be taken away */
  guint n_forms;                    /* of the tool at hand */
  gboolean glue_tool;               /* it draws glue */
  gboolean glue_meant, glued;       /* a panel or zone is selected that can take glue; it has some */
} CwTableState;
/* cw-table-things.c */
gboolean cw_table_is_ready (CwTable *self); /* there is something on the table */
guint cw_table_get_drawn_piece (CwTable *self);
gboolean cw_table_is_fresh (CwTable *self); /* what is drawn is the current design */
gboolean cw_table_needs_fresh (CwTable *self);
gboolean cw_table_to_current (CwTable *self, CwId *id);
CwFace cw_table_get_up (CwTable *self); /* the face of the sheet that is up */
const CwPiece *cw_table_get_piece (CwTable *self);
const CwPanelMap *cw_table_get_map (CwTable *self);
guint cw_table_get_lit_panel (CwTable *self); /* through the design */
gboolean cw_table_is_selected (CwTable *self, CwId id);
gboolean cw_table_pick (CwTable *self, double x, double y, CwId *id, gboolean *on_card);
gboolean cw_table_pick_panel (CwTable *self, double x, double y, CwId *id, CwFace *face);
GArray *cw_table_list_things (CwTable *self);          /* of CwId: marks, glue and areas of the piece on the table */
CwId cw_table_whole (CwId id);                         /* of what the end is one of */
CwMark *cw_table_dup_outline (CwTable *self, CwId id); /* of a mark, zone or area of this piece */
gboolean cw_table_get_box (CwTable *self, const CwId *id, double box[4]); /* where it is seen */
char *cw_table_dup_words (CwTable *self, CwId id);                        /* what it is called and where it lies */

/* cw-table-views.c */
void cw_table_fit (CwTable *self);
void cw_table_fit_sheet (CwTable *self);
void cw_table_fit_card (CwTable *self);
void cw_table_look (CwTable *self, const char *from);
void cw_table_stop_looking (CwTable *self);
void cw_table_show_moment (CwTable *self, const char *rest);
void cw_table_set_share (CwTable *self, CwShare share);
gboolean cw_table_is_on_card_side (CwTable *self, double x, double y);
void cw_table_zoom (CwTable *self, double factor, double x, double y);
GtkEventController *cw_table_add_controller (CwTable *self, gpointer controller, const char *name);
void cw_table_add_view_controllers (CwTable *self);

/* cw-table.c */
void cw_table_lie_changed (CwTable *self);
void cw_table_redraw_sheet (CwTable *self);
void cw_table_redraw_card (CwTable *self);
void cw_table_redraw_over (CwTable *self);
void cw_table_say (CwTable *self, const char *format, ...) G_GNUC_PRINTF (2, 3);

/* cw-table-paint.c */
void cw_table_snapshot_layers (CwTable *self, GtkSnapshot *snapshot);
void cw_table_draw_card_list (CwTable *self);
void cw_table_draw_sheet_list (CwTable *self);
const CwPalette *cw_table_choose_palette (GtkWidget *widget);

/* cw-table-tool.c */
const char *cw_tool_get_name (CwTool tool);
const char *cw_form_get_name (CwForm form);
gboolean cw_tool_has_form (CwTool tool, CwForm form);
guint cw_tool_count_forms (CwTool tool);
CwForm cw_table_get_form (CwTable *self);
gboolean cw_table_points_at_panels (CwTable *self); /* the tool draws nothing */
void cw_table_set_tool (CwTable *self, CwTool tool);
void cw_table_set_form (CwTable *self, CwForm form);
void cw_table_next_form (CwTable *self);
CwLength cw_table_get_rim (CwTable *self);
char *cw_table_dup_hint (CwTable *self); /* how the tool is used, until the maker knows */

/* cw-table-line.c */
gint32 cw_table_get_snap (CwTable *self);
CwUnit cw_table_get_unit (CwTable *self);
void cw_table_set_tip (CwTable *self, char *text); /* words beside the pointer; takes them; NULL for none */
gboolean cw_table_wants_slant (CwTable *self);
void cw_table_update_aim (CwTable *self);
gboolean cw_table_add_point (CwTable *self);
void cw_table_follow_line (CwTable *self);
void cw_table_drop_line (CwTable *self);
void cw_table_finish_line (CwTable *self);

/* cw-table-lay.c */
void cw_table_lay (CwTable *self, CwMark *drawn);
void cw_table_lay_on_panel (CwTable *self, CwId panel, CwFace face, CwLength rim);
void cw_table_ask_words (CwTable *self, CwId art);
void cw_table_ask_words_at (CwTable *self, CwId art, const double box[4]);

/* cw-table-across.c */
gboolean cw_table_draws_on_card (CwTable *self);
void cw_table_get_area (CwTable *self, double box[4]);
void cw_table_follow_area (CwTable *self);
void cw_table_lay_across (CwTable *self);

/* cw-table-ask.c */
typedef void (*CwTableAnswer) (CwTable *self, CwId id, const char *text);
void cw_table_ask (CwTable *self, const double box[4], const char *what, const char *text, CwTableAnswer answer,
                   CwId id);

/* cw-table-hand.c */
void cw_table_add_controllers (CwTable *self);
gboolean cw_table_cancel (CwTable *self); /* leaves what is under way; FALSE when nothing was */
gboolean cw_table_on_button (CwTable *self, double x, double y);

/* cw-table-move.c */
void cw_table_forget_moving (CwTable *self);
void cw_table_take (CwTable *self, CwId stretched);
void cw_table_slide (CwTable *self);
void cw_table_stretch (CwTable *self);
void cw_table_put (CwTable *self);
void cw_table_go_on (CwEdit *group, CwDesign **design, CwEdit *edit);

/* cw-table-hover.c */
void cw_table_add_hover_controller (CwTable *self);

/* cw-table-actions.c */
void cw_table_add_actions (CwTable *self);
void cw_table_update_actions (CwTable *self);

/* cw-table-actions.c, for its test too */
gboolean cw_table_action_is_enabled (const char *name, const CwTableState *state);

/* cw-table-arrange.c */
void cw_table_add_arrange_actions (CwTable *self);
gboolean cw_table_can_paste (CwTable *self);

/* cw-table-menu.c */
void cw_table_popup (CwTable *self, const CwId *id, double x, double y);
void cw_table_popup_selected (CwTable *self);

/* cw-table-edits.c */
void cw_table_add_edit_actions (CwTable *self);
guint cw_table_count (CwTable *self, CwIdKind kind); /* how many of a kind are selected */
guint cw_table_count_scores (CwTable *self);
CwGlueKind cw_table_get_glue_kind (CwTable *self); /* of the first zone selected, else of the next one drawn */
const CwMark *cw_table_get_first_mark (CwTable *self);
GPtrArray *cw_table_get_selected_marks (CwTable *self, guint piece_at);

/* cw-table-panels.c */
void cw_table_add_panel_actions (CwTable *self);
gboolean cw_table_get_panel (CwTable *self, CwId *id); /* the one panel that is meant: the first selected */
void cw_table_rename_panel (CwTable *self, CwId panel);
const char *cw_table_get_rim_words (CwTable *self);

/* cw-table-offer.c */
void cw_table_add_offer_actions (CwTable *self);

/* cw-table-glue.c */
void cw_table_add_glue_legend (CwTable *self);
const CwGlueMap *cw_table_get_glue_map (CwTable *self);
void cw_table_follow_glue (CwTable *self);
void cw_table_change_glue_map (GSimpleAction *action, GVariant *value, gpointer data);

/* cw-table-lay-glue.c */
void cw_table_add_glue_actions (CwTable *self);
void cw_table_find_glue_facts (CwTable *self, CwTableState *state);
void cw_table_fill_glue_menu (GMenu *menu);

/* cw-table-bars.c */
void cw_table_add_bars (CwTable *self);
void cw_table_show_forms (CwTable *self);
void cw_table_update_pieces (CwTable *self);
void cw_table_place_bars (CwTable *self);

/* cw-table-items.c */
void cw_table_rebuild_items (CwTable *self);
void cw_table_place_items (CwTable *self);
void cw_table_update_items (CwTable *self);
void cw_table_tell_moment (CwTable *self);

/* cw-table-words.c */
char *cw_words_measure (const CwSheetView *view, const CwPanelMap *map, const CwMark *mark, CwUnit unit);
char *cw_words_line (const CwSheetView *view, const CwPanelMap *map, CwPoint a, CwPoint b, CwUnit unit);
char *cw_words_place (const CwSheetView *view, const CwPanelMap *map, CwPoint at, CwUnit unit);
char *cw_words_mark (const CwSheetView *view, const CwPanelMap *map, const CwMark *mark, CwUnit unit);
char *cw_words_zone (const CwSheetView *view, const CwPanelMap *map, const CwGlue *glue, CwUnit unit);
char *cw_words_art (const CwSheetView *view, const CwPanelMap *map, const CwArt *art, CwUnit unit);
const char *cw_words_glue_kind (CwGlueKind kind);
char *cw_words_panel (const CwPanelSet *set, guint piece, guint panel);
const char *cw_words_mark_kind (const CwMark *mark);

void cw_table_offer_flip (CwTable *self);

G_END_DECLS
