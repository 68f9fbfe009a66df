/* cw-finding-list.c: findings in the maker's words.
 *
 * A row says how bad (a word and a shape), what, and what helps where that is known; "Show me" moves the card to the
 * moment, lays the right piece on the table and selects the marks and panels it is about.
 *
 * "Do it" comes to a row once a remedy has been tried and found to help. Trying costs many analyses: a worker does it,
 * one finding after the other, while the list can be seen, and stops as soon as the design changes.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "cw-finding-list.h"

#include <glib/gi18n-lib.h>

#include "check/cw-remedy.h"

struct _CwFindingList
{
  GtkBox parent_instance;

  /* Template */
  GtkWidget *list, *stack, *scroller;

  CwDocument *document;
  GCancellable *trying; /* a worker tries remedies; NULL: none does */
  guint n_tried;        /* findings of the analysis shown that are through */
};

G_DEFINE_FINAL_TYPE (CwFindingList, cw_finding_list, GTK_TYPE_BOX)

static const struct
{
  const char *word, *icon, *style;
} severities[] = {
  [CW_SEVERITY_ERROR] = { N_ ("Problem"), "dialog-error-symbolic", "problem" },
  [CW_SEVERITY_WARNING] = { N_ ("Take care"), "dialog-warning-symbolic", "care" },
  [CW_SEVERITY_NOTE] = { N_ ("Note"), "dialog-information-symbolic", "note" },
};

const char *
cw_finding_list_get_icon (CwSeverity severity)
{
  g_return_val_if_fail ((guint) severity < G_N_ELEMENTS (severities), NULL);
  return severities[severity].icon;
}

/**
 * cw_finding_list_dup_count:
 * @document: (nullable): a document
 *
 * Returns: (transfer full): how many findings there are, in words
 */
char *
cw_finding_list_dup_count (CwDocument *document)
{
  CwAnalysis *analysis = document != NULL ? cw_document_get_analysis (document) : NULL;
  guint n[3] = { 0, 0, 0 };
  g_autoptr (GString) text = g_string_new (NULL);

  if (analysis == NULL)
    return g_strdup (_ ("Looking…"));
  for (guint i = 0; i < analysis->findings->len; i++)
    n[((CwFinding *) g_ptr_array_index (analysis->findings, i))->severity]++;
  if (n[0] > 0)
    g_string_append_printf (text, dngettext (GETTEXT_PACKAGE, "%u problem", "%u problems", n[0]), n[0]);
  if (n[1] > 0)
    {
      g_string_append (text, text->len > 0 ? ", " : "");
      g_string_append_printf (text, dngettext (GETTEXT_PACKAGE, "%u to take care of", "%u to take care of", n[1]),
                              n[1]);
    }
  if (n[2] > 0)
    {
      g_string_append (text, text->len > 0 ? ", " : "");
      g_string_append_printf (text, dngettext (GETTEXT_PACKAGE, "%u note", "%u notes", n[2]), n[2]);
    }
  if (text->len == 0)
    g_string_append (text, _ ("Nothing found"));
  return g_string_free (g_steal_pointer (&text), FALSE);
}

static void
add_mark (GArray *ids, CwDesign *design, const char *address)
{
  CwPiece *piece = NULL;
  CwMark *mark = NULL;
  CwId id = { CW_ID_MARK, 0, 0, 0 };

  if (!cw_design_split_address (design, address, &piece, &mark) || piece == NULL || mark == NULL)
    return;
  id.piece = cw_design_find_piece (design, piece->id);
  id.index = cw_piece_find_mark (piece, mark->id);
  g_array_append_val (ids, id);
}

/**
 * cw_finding_list_show:
 * @self: the list
 * @index: a finding's position in the analysis
 *
 * Moves the card to the moment of the finding and selects what it is about.
 */
void
cw_finding_list_show (CwFindingList *self, guint index)
{
  CwAnalysis *analysis = NULL;
  CwDesign *design = NULL;
  CwFinding *finding = NULL;
  g_autoptr (GArray) ids = g_array_new (FALSE, FALSE, sizeof (CwId));
  const char *piece = NULL;

  g_return_if_fail (CW_IS_FINDING_LIST (self));

  analysis = self->document != NULL ? cw_document_get_analysis (self->document) : NULL;
  if (analysis == NULL || index >= analysis->findings->len)
    return;
  design = cw_document_get_design (self->document);
  finding = g_ptr_array_index (analysis->findings, index);
  if (finding->step != NULL && cw_design_find_step (design, finding->step) != G_MAXUINT)
    cw_document_set_moment (self->document, (int) cw_design_find_step (design, finding->step), finding->fraction);
  piece = finding->at_piece;
  if (piece == NULL && finding->pieces->len > 0)
    piece = g_ptr_array_index (finding->pieces, 0);
  if (piece != NULL && cw_design_find_piece (design, piece) != G_MAXUINT)
    cw_document_set_piece (self->document, cw_design_find_piece (design, piece));
  for (guint i = 0; i < finding->marks->len; i++)
    add_mark (ids, design, g_ptr_array_index (finding->marks, i));
  for (guint i = 0; i < finding->panels->len; i++)
    {
      const CwPanelRef *ref = &g_array_index (finding->panels, CwPanelRef, i);
      CwId id = { CW_ID_PANEL, cw_design_find_piece (design, ref->piece), ref->panel, 0 };

      if (id.piece != G_MAXUINT && cw_document_is_analysed (self->document))
        g_array_append_val (ids, id);
    }
  cw_document_select (self->document, (const CwId *) (gpointer) ids->data, ids->len);
}

static void
show_clicked (GtkButton *button, CwFindingList *self)
{
  GtkWidget *row = gtk_widget_get_ancestor (GTK_WIDGET (button), GTK_TYPE_LIST_BOX_ROW);

  cw_finding_list_show (self, (guint) gtk_list_box_row_get_index (GTK_LIST_BOX_ROW (row)));
}

static void
activated (GtkListBox *list, GtkListBoxRow *row, CwFindingList *self)
{
  cw_finding_list_show (self, (guint) gtk_list_box_row_get_index (row));
}

static GtkWidget *
wrapped (const char *text, const char *style)
{
  GtkWidget *label = gtk_label_new (text);

  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_wrap_mode (GTK_LABEL (label), PANGO_WRAP_WORD_CHAR);
  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_width_chars (GTK_LABEL (label), 30); /* a width of its own, whatever height it is asked for */
  gtk_label_set_max_width_chars (GTK_LABEL (label), 30);
  gtk_widget_add_css_class (label, style);
  return label;
}

static GtkWidget *
row_new (CwFindingList *self, const CwFinding *finding)
{
  GtkWidget *row = gtk_list_box_row_new (), *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 4);
  GtkWidget *head = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 6), *button = gtk_button_new_with_label (_ ("Show me"));
  GtkWidget *icon = gtk_image_new_from_icon_name (severities[finding->severity].icon);
  GtkWidget *word = gtk_label_new (_ (severities[finding->severity].word));
  g_autofree char *text = cw_finding_dup_text (finding, TRUE), *remedy = cw_finding_dup_remedy (finding, TRUE);
  g_autofree char *name = g_strdup_printf ("%s: %s", _ (severities[finding->severity].word), text);
  g_autofree char *show = g_strdup_printf (_ ("Show me: %s"), text);

  gtk_widget_add_css_class (head, severities[finding->severity].style);
  gtk_widget_add_css_class (word, "severity");
  gtk_widget_set_hexpand (word, TRUE);
  gtk_label_set_xalign (GTK_LABEL (word), 0);
  gtk_widget_add_css_class (button, "flat");
  gtk_accessible_update_property (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_PROPERTY_LABEL, show, -1);
  g_signal_connect (button, "clicked", G_CALLBACK (show_clicked), self);
  gtk_box_append (GTK_BOX (head), icon);
  gtk_box_append (GTK_BOX (head), word);
  gtk_box_append (GTK_BOX (head), button);
  gtk_box_append (GTK_BOX (box), head);
  gtk_box_append (GTK_BOX (box), wrapped (text, "finding"));
  if (remedy != NULL)
    gtk_box_append (GTK_BOX (box), wrapped (remedy, "remedy"));
  gtk_list_box_row_set_child (GTK_LIST_BOX_ROW (row), box);
  gtk_accessible_update_property (GTK_ACCESSIBLE (row), GTK_ACCESSIBLE_PROPERTY_LABEL, name,
                                  GTK_ACCESSIBLE_PROPERTY_DESCRIPTION, remedy != NULL ? remedy : "", -1);
  return row;
}

/* --- remedies ---------------------------------------------------------------------------------------------------- */

typedef struct
{
  CwAnalysis *analysis;
  guint index;
} Attempt;

static void try_next (CwFindingList *self);

static void
attempt_free (gpointer data)
{
  Attempt *attempt = data;

  cw_analysis_unref (attempt->analysis);
  g_free (attempt);
}

static void
stop_trying (CwFindingList *self)
{
  if (self->trying != NULL)
    g_cancellable_cancel (self->trying);
  g_clear_object (&self->trying);
}

static void
do_clicked (GtkButton *button, CwFindingList *self)
{
  CwRemedy *remedy = g_object_get_data (G_OBJECT (button), "remedy");
  g_autofree char *name = cw_remedy_dup_name (remedy, TRUE);

  /* It was made for the design that was analysed, and no other. */
  if (self->document != NULL && cw_document_is_analysed (self->document))
    cw_document_do (self->document, name, cw_edit_ref (remedy->edit));
}

static void
offer (CwFindingList *self, guint index, CwRemedy *remedy)
{
  GtkListBoxRow *row = gtk_list_box_get_row_at_index (GTK_LIST_BOX (self->list), (int) index);
  GtkWidget *button = gtk_button_new_with_label (_ ("Do it"));
  g_autofree char *text = cw_remedy_dup_text (remedy, TRUE);
  g_autofree char *name = g_strdup_printf (_ ("Do it: %s"), text);

  gtk_widget_add_css_class (button, "flat");
  gtk_widget_set_tooltip_text (button, text);
  gtk_accessible_update_property (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
  g_object_set_data_full (G_OBJECT (button), "remedy", remedy, (GDestroyNotify) cw_remedy_free);
  g_signal_connect (button, "clicked", G_CALLBACK (do_clicked), self);
  gtk_box_append (GTK_BOX (gtk_widget_get_first_child (gtk_list_box_row_get_child (row))), button);
}

static void
attempt_work (GTask *task, gpointer source, gpointer data, GCancellable *cancellable)
{
  Attempt *attempt = data;
  const CwFinding *finding = g_ptr_array_index (attempt->analysis->findings, attempt->index);

  g_task_return_pointer (task, cw_remedies_try (attempt->analysis, finding, 1, cancellable),
                         (GDestroyNotify) g_ptr_array_unref);
}

static void
attempt_done (GObject *source, GAsyncResult *result, gpointer data)
{
  CwFindingList *self = CW_FINDING_LIST (source);
  /* NULL when it was stopped: the rows may be others by now. */
  g_autoptr (GPtrArray) remedies = g_task_propagate_pointer (G_TASK (result), NULL);

  if (remedies == NULL)
    return;
  g_clear_object (&self->trying);
  if (remedies->len > 0)
    {
      offer (self, self->n_tried, g_ptr_array_index (remedies, 0));
      remedies->pdata[0] = NULL;
    }
  self->n_tried++;
  try_next (self);
}

static void
try_next (CwFindingList *self)
{
  CwAnalysis *analysis = NULL;
  Attempt *attempt = NULL;
  g_autoptr (GTask) task = NULL;

  if (self->trying != NULL || self->document == NULL || !gtk_widget_get_mapped (GTK_WIDGET (self))
      || !cw_document_is_analysed (self->document))
    return;
  analysis = cw_document_get_analysis (self->document);
  if (self->n_tried >= analysis->findings->len)
    return;
  attempt = g_new0 (Attempt, 1);
  attempt->analysis = cw_analysis_ref (analysis);
  attempt->index = self->n_tried;
  self->trying = g_cancellable_new ();
  task = g_task_new (self, self->trying, attempt_done, NULL);
  g_task_set_source_tag (task, try_next);
  g_task_set_task_data (task, attempt, attempt_free);
  g_task_run_in_thread (task, attempt_work);
}

static void
cw_finding_list_map (GtkWidget *widget)
{
  GTK_WIDGET_CLASS (cw_finding_list_parent_class)->map (widget);
  try_next (CW_FINDING_LIST (widget));
}

static void
cw_finding_list_unmap (GtkWidget *widget)
{
  stop_trying (CW_FINDING_LIST (widget));
  GTK_WIDGET_CLASS (cw_finding_list_parent_class)->unmap (widget);
}

static void
analysed (CwFindingList *self)
{
  CwAnalysis *analysis = self->document != NULL ? cw_document_get_analysis (self->document) : NULL;
  GtkWidget *row = NULL;

  stop_trying (self);
  self->n_tried = 0;
  while ((row = gtk_widget_get_first_child (self->list)) != NULL)
    gtk_list_box_remove (GTK_LIST_BOX (self->list), row);
  if (analysis == NULL)
    {
      gtk_stack_set_visible_child_name (GTK_STACK (self->stack), "looking");
      return;
    }
  for (guint i = 0; i < analysis->findings->len; i++)
    gtk_list_box_append (GTK_LIST_BOX (self->list), row_new (self, g_ptr_array_index (analysis->findings, i)));
  gtk_stack_set_visible_child_name (GTK_STACK (self->stack), analysis->findings->len > 0 ? "list" : "empty");
  try_next (self);
}

/**
 * cw_finding_list_set_document:
 * @self: the list
 * @document: (nullable): whose findings to show
 */
void
cw_finding_list_set_document (CwFindingList *self, CwDocument *document)
{
  g_return_if_fail (CW_IS_FINDING_LIST (self));

  if (!cw_document_follow (&self->document, document, self))
    return;
  if (document != NULL)
    {
      g_signal_connect_object (document, "analysed", G_CALLBACK (analysed), self, G_CONNECT_SWAPPED);
      g_signal_connect_object (document, "changed", G_CALLBACK (stop_trying), self, G_CONNECT_SWAPPED);
    }
  analysed (self);
}

static void
cw_finding_list_dispose (GObject *object)
{
  CwFindingList *self = CW_FINDING_LIST (object);

  stop_trying (self);
  cw_document_follow (&self->document, NULL, self);
  G_OBJECT_CLASS (cw_finding_list_parent_class)->dispose (object);
}

static void
cw_finding_list_class_init (CwFindingListClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = cw_finding_list_dispose;
  widget_class->map = cw_finding_list_map;
  widget_class->unmap = cw_finding_list_unmap;
  gtk_widget_class_set_template_from_resource (widget_class, "/org/creasewright/Creasewright/finding-list.ui");
  gtk_widget_class_bind_template_child (widget_class, CwFindingList, list);
  gtk_widget_class_bind_template_child (widget_class, CwFindingList, stack);
  gtk_widget_class_bind_template_child (widget_class, CwFindingList, scroller);
  gtk_widget_class_bind_template_callback (widget_class, activated);
}

static void
cw_finding_list_init (CwFindingList *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}
