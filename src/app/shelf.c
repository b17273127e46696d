/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/shelf.h"

#include <glib/gi18n.h>

struct _LidShelf
{
  GObject parent_instance;

  GFile *file;
  LidStock *stock;
  LidParts *parts; /* nullable */
  LidStockOptions options;
};

G_DEFINE_FINAL_TYPE (LidShelf, lid_shelf, G_TYPE_OBJECT)

typedef struct
{
  GFile *file;
  char decimal;
  char *job;
} Reading;

static void
reading_free (Reading *reading)
{
  g_object_unref (reading->file);
  g_free (reading->job);
  g_free (reading);
}

/* On a thread of its own: the rows' modules are nobody else's until it is done. The parts memory
 * belongs to the window's thread, so this one reads it for itself. */
static void
read_stock (GTask *task, gpointer source, gpointer data, GCancellable *cancellable)
{
  const Reading *reading = data;
  g_autofree char *path = g_file_get_path (reading->file);
  g_autofree char *memory = lid_parts_default_path ();
  g_autoptr (LidParts) parts = lid_parts_load (memory, NULL);
  LidStockOptions options = { .decimal = reading->decimal, .parts = parts };
  GError *error = NULL;
  LidStock *stock;
  LidShelf *self;

  if (path == NULL)
    {
      g_task_return_new_error (task, G_IO_ERROR, G_IO_ERROR_NOT_SUPPORTED, "%s",
                               _ ("A stock file has to lie on this machine: copy it here first."));
      return;
    }
  stock = lid_reserved_read_stock (path, &options, reading->job, &error);
  if (stock == NULL)
    {
      g_task_return_error (task, error);
      return;
    }
  self = g_object_new (LID_TYPE_SHELF, NULL);
  self->file = g_object_ref (reading->file);
  self->stock = stock;
  self->parts = g_steal_pointer (&parts);
  self->options = options;
  g_task_return_pointer (task, self, g_object_unref);
}

/**
 * lid_shelf_read_async:
 * @file: a stock file on this machine
 * @decimal: how its amounts write the decimal mark where the file does not say; 0: not told
 * @job: the job that asks: what is put by for it counts as there
 * @done: called when it is read, or not
 */
void
lid_shelf_read_async (GFile *file,
                      char decimal,
                      const char *job,
                      GCancellable *cancellable,
                      GAsyncReadyCallback done,
                      gpointer data)
{
  g_autoptr (GTask) task = g_task_new (NULL, cancellable, done, data);
  Reading *reading = g_new0 (Reading, 1);

  reading->file = g_object_ref (file);
  reading->decimal = decimal;
  reading->job = g_strdup (job);
  g_task_set_task_data (task, reading, (GDestroyNotify)reading_free);
  g_task_run_in_thread (task, read_stock);
}

/**
 * lid_shelf_read_finish:
 *
 * Returns: (transfer full): the shelf; %NULL with what lid_stock_read() says
 */
LidShelf *
lid_shelf_read_finish (GAsyncResult *result, GError **error)
{
  return g_task_propagate_pointer (G_TASK (result), error);
}

GFile *
lid_shelf_get_file (LidShelf *self)
{
  return self->file;
}

/**
 * lid_shelf_get_stock:
 *
 * Returns: (transfer none): what the file holds; to be looked at by one thread at a time
 */
const LidStock *
lid_shelf_get_stock (LidShelf *self)
{
  return self->stock;
}

/**
 * lid_shelf_get_options:
 *
 * Returns: (transfer none): what the file left open, as it was answered
 */
const LidStockOptions *
lid_shelf_get_options (LidShelf *self)
{
  return &self->options;
}

/**
 * lid_shelf_has_news:
 *
 * Returns: whether something was kept out or assumed, so that lid_shelf_describe() should be said
 */
gboolean
lid_shelf_has_news (LidShelf *self)
{
  return self->stock->n_complaints > 0 || self->stock->assumed || self->stock->no_price != NULL;
}

/**
 * lid_shelf_describe:
 *
 * Returns: (transfer full): how much was read, what was assumed, and the first row that was not
 * read
 */
char *
lid_shelf_describe (LidShelf *self)
{
  const LidStock *stock = self->stock;
  g_autofree char *rows = g_strdup_printf (
      g_dngettext (NULL, "%u row of the shelf can be planned with.",
                   "%u rows of the shelf can be planned with.", stock->rows->len),
      stock->rows->len);
  g_autoptr (GString) out = g_string_new (rows);

  if (stock->no_price != NULL)
    g_string_append_printf (out, " %s", stock->no_price);
  if (stock->assumed)
    g_string_append_printf (out, " %s", lid_stock_assumed_words ());
  if (stock->n_complaints > 0)
    {
      const LidStockComplaint *first = stock->complaints->pdata[0];

      g_string_append_c (out, ' ');
      g_string_append_printf (out,
                              g_dngettext (NULL, "%u row is kept out; line %u: %s",
                                           "%u rows are kept out; the first is line %u: %s",
                                           stock->n_complaints),
                              stock->n_complaints, first->line, first->text);
    }
  return g_string_free (g_steal_pointer (&out), FALSE);
}

static void
lid_shelf_finalize (GObject *object)
{
  LidShelf *self = LID_SHELF (object);

  g_clear_object (&self->file);
  g_clear_pointer (&self->stock, lid_stock_free);
  g_clear_pointer (&self->parts, lid_parts_free);
  G_OBJECT_CLASS (lid_shelf_parent_class)->finalize (object);
}

static void
lid_shelf_class_init (LidShelfClass *klass)
{
  G_OBJECT_CLASS (klass)->finalize = lid_shelf_finalize;
}

static void
lid_shelf_init (LidShelf *self)
{
}
