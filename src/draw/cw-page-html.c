/* cw-page-html.c: a step card as one page for the web.
 *
 * Says what the printed pages say, in the same order, from the same content: headings, lists and tables that a screen
 * reader can walk, pictures as SVG inside the file with their descriptions, the maker's photographs beside the
 * drawings, no script and nothing to fetch. HTML Living Standard in its XML-compatible spelling, so that any XML reader
 * reads it too. Photographs are read from beside the design; names that lead elsewhere are refused, so that nobody's
 * design draws other files into a page.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include <cairo-svg.h>
#include <glib/gi18n-lib.h>
#include <string.h>

#include "cw-draw-sheet.h"
#include "cw-page-html.h"
#include "cw-page-private.h"
#include "design/cw-file.h"

/* Points: a picture; one full of lines with numbers. */
#define PICTURE_WIDE 300.0
#define PICTURE_CROWDED 460.0
#define PICTURE_TALL 0.85
#define MOVES_BESIDE 5
/* The largest photograph taken in, bytes. */
#define PHOTO_MOST (12 * 1024 * 1024)

typedef struct
{
  GString *text;
  const CwStepCard *card;
  CwCardScene *scene;
  GFile *folder; /* of the design; NULL: no photographs */
  guint pens;
} Html;

static const CwPageSizes sizes = { 12, 10, 15, 22, 0, 8, 1.0 };

static const char style[]
  = "body{margin:0 auto;padding:1em;max-width:52em;font:1.05em/1.5 sans-serif;color:#1a1a1a;background:#fff}"
    "h1,h2,h3{line-height:1.2}h2{margin-top:2em}section{border-top:1px solid #767676;padding-top:.6em;margin-top:1em}"
    "img{max-width:100%;height:auto}figure{display:inline-block;margin:.4em 1em .4em "
    "0;vertical-align:top;max-width:100%}"
    "figure.photo img{width:20em}table{border-collapse:collapse}th,td{text-align:left;padding:.2em 1em .2em 0;"
    "vertical-align:top;border-bottom:1px solid #949494}.caution::before{content:'\\26A0\\FE0E\\A0'}"
    ".check{list-style-type:'\\2610\\A0'}ul.cautions{list-style:none;padding-left:0}dt{font-weight:bold}"
    "dd{margin:0 0 .3em 0}@media print{section{break-inside:avoid}h2{break-after:avoid}}";

/* --- Elements. --- */

static void
add_text (Html *html, const char *text)
{
  g_autofree char *escaped = g_markup_escape_text (text, -1);

  g_string_append (html->text, escaped);
}

/* <tag class="...">text</tag> */
static void
add_element (Html *html, const char *tag, const char *class, const char *text)
{
  g_string_append_printf (html->text, "<%s", tag);
  if (class != NULL)
    g_string_append_printf (html->text, " class=\"%s\"", class);
  g_string_append_c (html->text, '>');
  add_text (html, text);
  g_string_append_printf (html->text, "</%s>\n", tag);
}

static void
add_list (Html *html, const GPtrArray *items, const char *class, const char *item_class)
{
  if (items->len == 0)
    return;
  g_string_append (html->text, "<ul");
  if (class != NULL)
    g_string_append_printf (html->text, " class=\"%s\"", class);
  g_string_append (html->text, ">\n");
  for (guint i = 0; i < items->len; i++)
    add_element (html, "li", item_class, g_ptr_array_index (items, i));
  g_string_append (html->text, "</ul>\n");
}

static void
add_fact (Html *html, const char *name, const char *value)
{
  if (value == NULL || *value == '\0')
    return;
  add_element (html, "dt", NULL, name);
  add_element (html, "dd", NULL, value);
}

static cairo_status_t
append_bytes (void *closure, const unsigned char *data, unsigned int length)
{
  g_byte_array_append (closure, data, length);
  return CAIRO_STATUS_SUCCESS;
}

static void
add_svg (Html *html, const CwDrawList *list, double width, double height, const char *words)
{
  g_autoptr (GByteArray) bytes = g_byte_array_new ();
  g_autofree char *packed = NULL, *alt = g_markup_escape_text (words != NULL ? words : "", -1);
  cairo_surface_t *surface = cairo_svg_surface_create_for_stream (append_bytes, bytes, width, height);
  cairo_t *cr;

  cairo_svg_surface_set_document_unit (surface, CAIRO_SVG_UNIT_PT);
  cr = cairo_create (surface);
  cw_draw_play (list, &cw_palette_paper, cr);
  cairo_destroy (cr);
  cairo_surface_finish (surface);
  cairo_surface_destroy (surface);
  packed = g_base64_encode (bytes->data, bytes->len);
  /* CSS pixels: 96 to the inch, points 72. */
  g_string_append_printf (html->text,
                          "<img src=\"data:image/svg+xml;base64,%s\" width=\"%.0f\" height=\"%.0f\" alt=\"%s\"/>",
                          packed, width * 96 / 72, height * 96 / 72, alt);
}

static void
add_picture (Html *html, const CwCardPicture *picture, double width, const char *caption)
{
  g_autoptr (CwDrawList) list = cw_draw_list_new ();
  double height;

  if (picture->kind == CW_CARD_PICTURE_NONE)
    return;
  height = cw_page_picture (list, html->card, html->scene, picture, width, PICTURE_TALL * width, &sizes, &html->pens);
  g_string_append (html->text, "<figure>");
  add_svg (html, list, width, height, picture->words);
  if (caption != NULL)
    add_element (html, "figcaption", NULL, caption);
  g_string_append (html->text, "</figure>\n");
}

/* --- Photographs. --- */

static gboolean
add_photo (Html *html, const CwCardStep *step, GError **error)
{
  static const guint8 png[] = { 0x89, 'P', 'N', 'G' }, jpeg[] = { 0xff, 0xd8, 0xff };
  g_autoptr (GFile) file = NULL;
  g_autofree char *bytes = NULL, *packed = NULL, *words = NULL, *alt = NULL;
  g_auto (GStrv) parts = NULL;
  const char *type;
  gsize length = 0;

  if (step->photo == NULL || html->folder == NULL)
    return TRUE;
  parts = g_strsplit_set (step->photo, "/\\", -1);
  if (g_path_is_absolute (step->photo) || strstr (step->photo, "://") != NULL
      || g_strv_contains ((const char *const *) parts, ".."))
    {
      g_set_error (error, G_IO_ERROR, G_IO_ERROR_INVALID_FILENAME,
                   _ ("photograph “%s” of step %u: expected a file beside the design"), step->photo, step->number);
      return FALSE;
    }
  file = g_file_resolve_relative_path (html->folder, step->photo);
  if (!g_file_load_contents (file, NULL, &bytes, &length, NULL, error))
    return FALSE;
  if (length > sizeof png && memcmp (bytes, png, sizeof png) == 0)
    type = "png";
  else if (length > sizeof jpeg && memcmp (bytes, jpeg, sizeof jpeg) == 0)
    type = "jpeg";
  else
    {
      g_set_error (error, G_IO_ERROR, G_IO_ERROR_INVALID_DATA,
                   _ ("photograph “%s” of step %u: expected a PNG or JPEG file"), step->photo, step->number);
      return FALSE;
    }
  if (length > PHOTO_MOST)
    {
      g_set_error (error, G_IO_ERROR, G_IO_ERROR_INVALID_DATA, _ ("photograph “%s” of step %u: larger than 12 MB"),
                   step->photo, step->number);
      return FALSE;
    }
  packed = g_base64_encode ((const guchar *) bytes, length);
  words = g_strdup_printf (_ ("Photograph: %s"), step->title);
  alt = g_markup_escape_text (words, -1);
  g_string_append_printf (html->text,
                          "<figure class=\"photo\"><img src=\"data:image/%s;base64,%s\" alt=\"%s\"/></figure>\n", type,
                          packed, alt);
  return TRUE;
}

/* --- Parts, in reading order. --- */

static void
add_remarks (Html *html, const char *heading, const GPtrArray *remarks)
{
  if (remarks->len == 0)
    return;
  add_element (html, "h2", NULL, heading);
  g_string_append (html->text, "<ul class=\"cautions\">\n");
  for (guint i = 0; i < remarks->len; i++)
    {
      const CwCardRemark *remark = g_ptr_array_index (remarks, i);
      g_autofree char *text
        = remark->remedy != NULL ? g_strdup_printf ("%s %s", remark->text, remark->remedy) : g_strdup (remark->text);

      add_element (html, "li", "caution", text);
    }
  g_string_append (html->text, "</ul>\n");
}

static void
add_front (Html *html)
{
  const CwStepCard *card = html->card;
  const char *const hazards[] = { "", _ (" (blade)"), _ (" (heat)"), _ (" (fumes)") };

  add_element (html, "h1", NULL, card->title);
  if (card->notes != NULL && *card->notes != '\0')
    add_element (html, "p", NULL, card->notes);
  add_picture (html, &card->closed, PICTURE_WIDE, card->closed.words);
  add_picture (html, &card->open, PICTURE_WIDE, card->open.words);
  g_string_append (html->text, "<dl>\n");
  add_fact (html, _ ("Finished size"), card->size);
  add_fact (html, _ ("Envelope"), card->envelope);
  add_fact (html, _ ("Time"), card->time);
  add_fact (html, _ ("On the trimmer"), card->work);
  add_fact (html, _ ("By"), card->author);
  add_fact (html, _ ("Date"), card->date);
  add_fact (html, _ ("Made with"), card->version);
  g_string_append (html->text, "</dl>\n");
  add_remarks (html, _ ("Do not cut yet: this design still has faults"), card->faults);
  add_element (html, "h2", NULL, _ ("You need"));
  g_string_append (html->text, "<ul>\n");
  for (guint i = 0; i < card->tools->len; i++)
    {
      const CwCardTool *tool = g_ptr_array_index (card->tools, i);
      g_autofree char *text = g_strconcat (tool->name, hazards[tool->hazard], NULL);

      add_element (html, "li", NULL, text);
    }
  for (guint i = 0; i < card->supplies->len; i++)
    add_element (html, "li", NULL, g_ptr_array_index (card->supplies, i));
  g_string_append (html->text, "</ul>\n");
  add_list (html, card->cautions, "cautions", "caution");
}

static void
add_cuts (Html *html)
{
  const char *const heads[] = { _ ("Letter"), _ ("Piece"), _ ("How many"), _ ("Size"), _ ("Paper"), _ ("What for") };

  add_element (html, "h2", NULL, _ ("Pieces to cut"));
  g_string_append (html->text, "<table>\n<thead><tr>");
  for (guint i = 0; i < G_N_ELEMENTS (heads); i++)
    {
      g_string_append (html->text, "<th scope=\"col\">");
      add_text (html, heads[i]);
      g_string_append (html->text, "</th>");
    }
  g_string_append (html->text, "</tr></thead>\n<tbody>\n");
  for (guint i = 0; i < html->card->cuts->len; i++)
    {
      const CwCardCut *cut = g_ptr_array_index (html->card->cuts, i);
      g_autofree char *count = g_strdup_printf ("%u", cut->count);
      g_autofree char *paper
        = *cut->grain != '\0' ? g_strdup_printf ("%s, %s", cut->paper, cut->grain) : g_strdup (cut->paper);

      g_string_append (html->text, "<tr>");
      add_element (html, "td", NULL, cut->letter);
      add_element (html, "td", NULL, cut->name);
      add_element (html, "td", NULL, count);
      add_element (html, "td", NULL, cut->size);
      add_element (html, "td", NULL, paper);
      add_element (html, "td", NULL, cut->purpose);
      g_string_append (html->text, "</tr>\n");
    }
  g_string_append (html->text, "</tbody>\n</table>\n");
}

static void
add_moves (Html *html, const GPtrArray *moves)
{
  if (moves->len == 0)
    return;
  g_string_append (html->text, "<ul>\n");
  for (guint i = 0; i < moves->len; i++)
    {
      const CwCardMove *row = g_ptr_array_index (moves, i);
      g_autofree char *sentence = cw_card_move_dup_sentence (row);

      g_string_append (html->text, row->look_alike ? "<li><strong>" : "<li>");
      add_text (html, sentence);
      g_string_append (html->text, row->look_alike ? "</strong></li>\n" : "</li>\n");
    }
  g_string_append (html->text, "</ul>\n");
}

static gboolean
add_steps (Html *html, const char *heading, const GPtrArray *steps, GError **error)
{
  if (steps->len == 0)
    return TRUE;
  add_element (html, "h2", NULL, heading);
  for (guint i = 0; i < steps->len; i++)
    {
      const CwCardStep *step = g_ptr_array_index (steps, i);
      g_autofree char *title = g_strdup_printf ("%u. %s", step->number, step->title);

      g_string_append_printf (html->text, "<section id=\"step-%u\">\n", step->number);
      add_element (html, "h3", NULL, title);
      if (step->face != NULL)
        add_element (html, "p", NULL, step->face);
      add_picture (html, &step->picture, step->moves->len > MOVES_BESIDE ? PICTURE_CROWDED : PICTURE_WIDE, NULL);
      if (!add_photo (html, step, error))
        return FALSE;
      for (guint k = 0; k < step->lines->len; k++)
        add_element (html, "p", NULL, g_ptr_array_index (step->lines, k));
      add_moves (html, step->moves);
      add_list (html, step->cautions, "cautions", "caution");
      if (step->caption != NULL && *step->caption != '\0')
        add_element (html, "p", NULL, step->caption);
      add_list (html, step->checks, NULL, "check");
      g_string_append (html->text, "</section>\n");
    }
  return TRUE;
}

static void
add_legend (Html *html)
{
  g_autoptr (CwDrawList) list = cw_draw_list_new ();
  g_autofree char *words = cw_draw_legend_dup_words (html->pens);
  double height;

  if (html->pens == 0)
    return;
  add_element (html, "h2", NULL, _ ("What the lines mean"));
  height = cw_draw_legend (list, 0, 0, PICTURE_CROWDED, html->pens);
  g_string_append (html->text, "<p>");
  add_svg (html, list, PICTURE_CROWDED, height, words);
  g_string_append (html->text, "</p>\n");
}

/* The language that the words are in: the catalogue's own, English without one. */
static char *
dup_language (void)
{
  const char *none = "", *header = dgettext (GETTEXT_PACKAGE, none), *line = strstr (header, "Language: ");
  const char *from = line != NULL ? line + strlen ("Language: ") : "en";
  gsize length = strcspn (from, "\n@.");
  g_autofree char *tag = g_strndup (from, length);

  return length == 0 ? g_strdup ("en") : g_strdelimit (g_steal_pointer (&tag), "_", '-');
}

/**
 * cw_step_card_to_html:
 * @card: a step card
 * @folder: (nullable): where the design's photographs lie; %NULL: none are shown
 * @error: return location
 *
 * Returns: (transfer full): a whole page; %NULL with a #GIOErrorEnum error if a photograph cannot be had
 */
char *
cw_step_card_to_html (const CwStepCard *card, GFile *folder, GError **error)
{
  Html html = { .text = g_string_new (NULL), .card = card, .folder = folder };
  g_autoptr (GString) page = g_string_new ("<!DOCTYPE html>\n");
  g_autofree char *title = NULL, *author = NULL, *language = dup_language (), *before = NULL;
  gboolean right;

  g_return_val_if_fail (card != NULL, NULL);

  html.scene = cw_card_scene_new (card->analysis);
  add_front (&html);
  add_cuts (&html);
  if (card->numbers->len > 0)
    {
      add_element (&html, "h2", NULL, _ ("Numbers to read twice"));
      add_list (&html, card->numbers, NULL, NULL);
    }
  /* What the lines mean is known once all pictures are drawn, and stands before the steps. */
  before = g_string_free (html.text, FALSE);
  html.text = g_string_new (NULL);
  right = add_steps (&html, _ ("Make the card"), card->making, error)
          && add_steps (&html, _ ("Open and close it"), card->using, error);
  if (right)
    {
      g_autofree char *steps = NULL;

      add_remarks (&html, _ ("What goes wrong most easily"), card->mistakes);
      if (card->changes->len > 0)
        {
          add_element (&html, "h2", NULL, _ ("What has changed"));
          add_list (&html, card->changes, NULL, NULL);
        }
      steps = g_string_free (html.text, FALSE);
      html.text = g_string_new (NULL);
      add_legend (&html);
      title = g_markup_escape_text (card->title, -1);
      author = card->author != NULL ? g_markup_escape_text (card->author, -1) : NULL;
      g_string_append_printf (page,
                              "<html lang=\"%s\" xml:lang=\"%s\" xmlns=\"http://www.w3.org/1999/xhtml\">\n<head>\n"
                              "<meta charset=\"utf-8\"/>\n<title>%s</title>\n"
                              "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\"/>\n"
                              "<meta name=\"generator\" content=\"%s\"/>\n",
                              language, language, title, card->version);
      if (author != NULL)
        g_string_append_printf (page, "<meta name=\"author\" content=\"%s\"/>\n", author);
      g_string_append_printf (page, "<style>%s</style>\n</head>\n<body>\n<main>\n%s%s%s</main>\n</body>\n</html>\n",
                              style, before, html.text->str, steps);
    }
  g_string_free (html.text, TRUE);
  cw_card_scene_free (html.scene);
  return right ? g_string_free (g_steal_pointer (&page), FALSE) : NULL;
}

/**
 * cw_step_card_write_html:
 * @card: a step card
 * @folder: (nullable): where the design's photographs lie
 * @file: where to
 * @error: return location
 *
 * Returns: %FALSE with a #GIOErrorEnum error; what was there is then left as it was
 */
gboolean
cw_step_card_write_html (const CwStepCard *card, GFile *folder, GFile *file, GError **error)
{
  g_autofree char *html = cw_step_card_to_html (card, folder, error);

  return html != NULL && cw_file_write (file, html, strlen (html), NULL, error);
}
