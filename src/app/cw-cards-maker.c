/* cw-cards-maker.c: makes the printed pages of a document, again and again, away from the window.
 *
 * Text and layout of the pages are made on a worker thread from the analysis, which never changes. One worker at a
 * time: when it comes back and the design or the style has moved on meanwhile, its pages are dropped and new ones are
 * begun. Until there are new pages the old ones stay.
 *
 * A card that names no date gets today's: what is printed today says so.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "cw-cards-maker.h"

#include "cw-template.h"

struct _CwCardsMaker
{
  GObject parent_instance;

  CwDocument *document;
  CwPageStyle style;
  gboolean sixteenths, templates, active;
  CwPages *pages;    /* NULL before the first */
  CwAnalysis *shown; /* what they show */
  gboolean fresh;    /* in the style that is wanted */
  gboolean working;  /* a worker is under way */
  guint serial;      /* answers to older questions are dropped */
};

G_DEFINE_FINAL_TYPE (CwCardsMaker, cw_cards_maker, G_TYPE_OBJECT)

static guint made_signal;

typedef struct
{
  CwAnalysis *analysis;
  CwPageStyle style;
  gboolean sixteenths, templates;
  guint serial;
} Job;

static void begin (CwCardsMaker *self);

static void
job_free (gpointer data)
{
  cw_analysis_unref (((Job *) data)->analysis);
  g_free (data);
}

/**
 * cw_cards_maker_new_card:
 * @analysis: a design and what is known of it
 * @sixteenths: count the small marks beside fractions
 *
 * Returns: (transfer full): what its pages say; a design that names no date gets today's
 */
CwStepCard *
cw_cards_maker_new_card (CwAnalysis *analysis, gboolean sixteenths)
{
  g_autoptr (GDateTime) now = g_date_time_new_now_local ();
  g_autofree char *date = g_date_time_format (now, "%Y-%m-%d");
  CwStepCardOptions options = cw_step_card_usual;

  options.sixteenths = sixteenths;
  options.date = date;
  return cw_step_card_new (analysis, &options);
}

static void
work (GTask *task, gpointer source, gpointer data, GCancellable *cancellable)
{
  const Job *job = data;
  g_autoptr (CwPages) pages = NULL;

  if (job->templates)
    pages = cw_pages_new_template (job->analysis, job->style.format);
  else
    {
      g_autoptr (CwStepCard) card = cw_cards_maker_new_card (job->analysis, job->sixteenths);

      pages = cw_pages_new_step_card (card, &job->style);
    }
  g_task_return_pointer (task, g_steal_pointer (&pages), (GDestroyNotify) cw_pages_unref);
}

static void
work_done (GObject *source, GAsyncResult *result, gpointer data)
{
  CwCardsMaker *self = CW_CARDS_MAKER (source);
  const Job *job = g_task_get_task_data (G_TASK (result));
  g_autoptr (CwPages) pages = g_task_propagate_pointer (G_TASK (result), NULL);

  self->working = FALSE;
  if (job->serial != self->serial)
    {
      begin (self);
      return;
    }
  g_clear_pointer (&self->pages, cw_pages_unref);
  self->pages = g_steal_pointer (&pages);
  g_clear_pointer (&self->shown, cw_analysis_unref);
  self->shown = cw_analysis_ref (job->analysis);
  self->fresh = TRUE;
  g_signal_emit (self, made_signal, 0);
}

/* Begins new pages if there is anything to make and nobody is at it. */
static void
begin (CwCardsMaker *self)
{
  g_autoptr (GTask) task = NULL;
  Job *job = NULL;

  if (self->working || !self->active || self->document == NULL || !cw_document_is_analysed (self->document)
      || cw_cards_maker_is_current (self))
    return;
  self->working = TRUE;
  job = g_new0 (Job, 1);
  job->analysis = cw_analysis_ref (cw_document_get_analysis (self->document));
  job->style = self->style;
  job->sixteenths = self->sixteenths;
  job->templates = self->templates;
  job->serial = self->serial;
  task = g_task_new (self, NULL, work_done, NULL);
  g_task_set_source_tag (task, begin);
  g_task_set_task_data (task, job, job_free);
  g_task_run_in_thread (task, work);
}

static void
analysed (CwCardsMaker *self)
{
  self->serial++;
  begin (self);
}

/**
 * cw_cards_maker_set_document:
 * @self: the maker
 * @document: (nullable): whose pages to make
 */
void
cw_cards_maker_set_document (CwCardsMaker *self, CwDocument *document)
{
  g_return_if_fail (CW_IS_CARDS_MAKER (self));

  if (!cw_document_follow (&self->document, document, self))
    return;
  g_clear_pointer (&self->pages, cw_pages_unref);
  g_clear_pointer (&self->shown, cw_analysis_unref);
  self->serial++;
  g_signal_emit (self, made_signal, 0);
  if (document == NULL)
    return;
  g_signal_connect_object (document, "analysed", G_CALLBACK (analysed), self, G_CONNECT_SWAPPED);
  begin (self);
}

/**
 * cw_cards_maker_set_style:
 * @self: the maker
 * @style: sheet and size of type
 * @sixteenths: count the small marks beside fractions
 * @templates: make the templates in place of the step cards
 */
void
cw_cards_maker_set_style (CwCardsMaker *self, const CwPageStyle *style, gboolean sixteenths, gboolean templates)
{
  g_return_if_fail (CW_IS_CARDS_MAKER (self) && style != NULL);

  if (self->style.format == style->format && self->style.large == style->large && self->sixteenths == sixteenths
      && self->templates == templates)
    return;
  self->style = *style;
  self->sixteenths = sixteenths;
  self->templates = templates;
  self->fresh = FALSE;
  self->serial++;
  begin (self);
}

/**
 * cw_cards_maker_set_active:
 * @self: the maker
 * @active: somebody looks at the pages
 */
void
cw_cards_maker_set_active (CwCardsMaker *self, gboolean active)
{
  g_return_if_fail (CW_IS_CARDS_MAKER (self));

  self->active = active;
  begin (self);
}

/**
 * cw_cards_maker_get_pages:
 * @self: the maker
 *
 * Returns: (transfer none) (nullable): the newest pages; they may be of an older design
 */
CwPages *
cw_cards_maker_get_pages (CwCardsMaker *self)
{
  g_return_val_if_fail (CW_IS_CARDS_MAKER (self), NULL);
  return self->pages;
}

/**
 * cw_cards_maker_is_current:
 * @self: the maker
 *
 * Returns: TRUE if the pages at hand are of the design as it now is, in the style that is wanted
 */
gboolean
cw_cards_maker_is_current (CwCardsMaker *self)
{
  g_return_val_if_fail (CW_IS_CARDS_MAKER (self), FALSE);
  return self->pages != NULL && self->fresh && self->document != NULL && cw_document_is_analysed (self->document)
         && self->shown == cw_document_get_analysis (self->document);
}

static void
cw_cards_maker_dispose (GObject *object)
{
  CwCardsMaker *self = CW_CARDS_MAKER (object);

  cw_document_follow (&self->document, NULL, self);
  g_clear_pointer (&self->pages, cw_pages_unref);
  g_clear_pointer (&self->shown, cw_analysis_unref);
  G_OBJECT_CLASS (cw_cards_maker_parent_class)->dispose (object);
}

static void
cw_cards_maker_class_init (CwCardsMakerClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = cw_cards_maker_dispose;
  made_signal = g_signal_new ("made", CW_TYPE_CARDS_MAKER, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
}

static void
cw_cards_maker_init (CwCardsMaker *self)
{
}

/**
 * cw_cards_maker_new:
 *
 * Returns: (transfer full): makes nothing until it has a document and is active
 */
CwCardsMaker *
cw_cards_maker_new (void)
{
  return g_object_new (CW_TYPE_CARDS_MAKER, NULL);
}
