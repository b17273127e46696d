/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "changeover/changeover-lists.h"

#include "base/text.h"
#include "board/board.h"
#include "job/tray.h"

#include <glib/gi18n-lib.h>
#include <string.h>

typedef struct
{
  const char *name;
  const char *head;
} Column;

static const Column pick_columns[]
    = { { "bin", N_ ("bin") },   { "quantity", N_ ("count") }, { "module", N_ ("module") },
        { "part", N_ ("part") }, { "label", N_ ("label") },    { "slots", N_ ("for slots") } };
static const Column pull_columns[]
    = { { "mat", N_ ("mat") },   { "slot", N_ ("slot") },     { "module", N_ ("module") },
        { "part", N_ ("part") }, { "serial", N_ ("serial") }, { "to", N_ ("goes to") } };
static const Column tag_columns[]
    = { { "job", N_ ("job") },       { "machine", N_ ("machine") }, { "owner", N_ ("owner") },
        { "asset", N_ ("asset") },   { "module", N_ ("module") },   { "part", N_ ("part") },
        { "serial", N_ ("serial") }, { "slot", N_ ("from slot") },  { "to", N_ ("goes to") },
        { "data", N_ ("data") } };

static const struct
{
  const char *title;
  const Column *columns;
  guint n;
} lists[LID_N_LISTS] = {
  [LID_LIST_PICK] = { N_ ("Pick list"), pick_columns, G_N_ELEMENTS (pick_columns) },
  [LID_LIST_PULL] = { N_ ("Pull list"), pull_columns, G_N_ELEMENTS (pull_columns) },
  [LID_LIST_TAGS] = { N_ ("Bag tags"), tag_columns, G_N_ELEMENTS (tag_columns) },
};

/**
 * lid_changeover_list_title:
 *
 * Returns: (transfer none): what the list is called, in the reader's language
 */
const char *
lid_changeover_list_title (LidListKind kind)
{
  g_return_val_if_fail ((guint)kind < LID_N_LISTS, NULL);
  return _ (lists[kind].title);
}

static char **
add_row (LidChangeoverList *list)
{
  char **row = g_new0 (char *, list->n_columns + 1);

  g_ptr_array_add (list->rows, row);
  return row;
}

static char *
text_or_empty (const char *text)
{
  return g_strdup (text != NULL ? text : "");
}

/* New modules that lie in one bin and are one thing to whoever fetches them. */
static gboolean
is_one_pick (const LidModule *a, const LidModule *b)
{
  return g_strcmp0 (a->bin, b->bin) == 0 && g_strcmp0 (a->part, b->part) == 0
         && g_strcmp0 (a->label, b->label) == 0 && lid_tray_alike (a, b);
}

static void
add_pick (LidChangeoverList *list, const LidChangeover *changeover, guint first, gboolean *done)
{
  const LidChanges *changes = changeover->changes;
  const LidModule *module = changes->slots[changes->fitted[first]].after;
  g_autoptr (GPtrArray) names = g_ptr_array_new ();
  char **row = add_row (list);

  for (guint i = first; i < changes->n_fitted; i++)
    {
      const LidSlotChange *change = &changes->slots[changes->fitted[i]];

      if (done[i] || change->kind != LID_CHANGE_NEW || !is_one_pick (module, change->after))
        continue;
      done[i] = TRUE;
      g_ptr_array_add (names,
                       (gpointer)lid_board_name_slot (changeover->board, changes->fitted[i]));
    }
  g_ptr_array_add (names, NULL);
  row[0] = text_or_empty (module->bin);
  row[1] = g_strdup_printf ("%u", names->len - 1);
  row[2] = lid_module_describe (module);
  row[3] = text_or_empty (module->part);
  row[4] = text_or_empty (module->label);
  row[5] = g_strjoinv (" ", (char **)names->pdata);
}

/* By bin as people count, what has no bin last. */
static gint
compare_bins (gconstpointer one, gconstpointer two)
{
  const char *a = (*(char **const *)one)[0], *b = (*(char **const *)two)[0];

  if (*a == 0 || *b == 0)
    return (*a == 0) - (*b == 0);
  return lid_text_compare_naturally (a, b);
}

static void
fill_pick (LidChangeoverList *list, const LidChangeover *changeover)
{
  const LidChanges *changes = changeover->changes;
  g_autofree gboolean *done = g_new0 (gboolean, changes->n_fitted + 1);

  for (guint i = 0; i < changes->n_fitted; i++)
    if (!done[i] && changes->slots[changes->fitted[i]].kind == LID_CHANGE_NEW)
      add_pick (list, changeover, i, done);
  g_ptr_array_sort (list->rows, compare_bins); /* stable */
}

static const char *
say_to (LidPulledTo to)
{
  return to == LID_TO_STOCK ? _ ("stock") : _ ("owner");
}

static void
fill_pull (LidChangeoverList *list, const LidChangeover *changeover, LidPulledTo to)
{
  const LidChanges *changes = changeover->changes;

  for (guint i = 0; i < changes->n_pulled; i++)
    {
      const LidSlotChange *change = &changes->slots[changes->pulled[i]];
      char **row = add_row (list);

      row[0] = g_strdup_printf ("%u", change->mat);
      row[1] = g_strdup (lid_board_name_slot (changeover->board, changes->pulled[i]));
      row[2] = lid_module_describe (change->before);
      row[3] = text_or_empty (change->before->part);
      row[4] = text_or_empty (change->before->serial);
      row[5] = change->to == LID_NOWHERE
                   ? g_strdup (say_to (to))
                   : g_strdup_printf (_ ("slot %s"),
                                      lid_board_name_slot (changeover->board, (guint)change->to));
    }
}

static void
fill_tags (LidChangeoverList *list,
           const LidChangeover *changeover,
           const LidJob *job,
           LidPulledTo to)
{
  const LidChanges *changes = changeover->changes;
  const char *machine = job->title != NULL ? job->title : job->board->name;

  for (guint i = 0; i < changes->n_pulled; i++)
    {
      guint slot = changes->pulled[i];
      const LidSlotChange *change = &changes->slots[slot];
      char **row;

      if (change->to != LID_NOWHERE)
        continue;
      row = add_row (list);
      row[LID_TAG_JOB] = text_or_empty (job->number);
      row[LID_TAG_MACHINE] = text_or_empty (machine);
      row[LID_TAG_OWNER] = text_or_empty (job->owner);
      row[LID_TAG_ASSET] = text_or_empty (job->asset);
      row[LID_TAG_MODULE] = lid_module_describe (change->before);
      row[LID_TAG_PART] = text_or_empty (change->before->part);
      row[LID_TAG_SERIAL] = text_or_empty (change->before->serial);
      row[LID_TAG_SLOT] = g_strdup (lid_board_name_slot (changeover->board, slot));
      row[LID_TAG_TO] = g_strdup (say_to (to));
      row[LID_TAG_DATA] = text_or_empty (
          change->before->persistent ? _ ("holds data: owner's written release") : NULL);
    }
}

/**
 * lid_changeover_list_new:
 * @changeover: the steps
 * @job: whose; for the tags
 * @kind: which list
 * @to: where modules go that leave the machine
 *
 * Returns: (transfer full): the list; without rows where there is nothing to list
 */
LidChangeoverList *
lid_changeover_list_new (const LidChangeover *changeover,
                         const LidJob *job,
                         LidListKind kind,
                         LidPulledTo to)
{
  LidChangeoverList *list = g_new0 (LidChangeoverList, 1);

  list->kind = kind;
  list->n_columns = lists[kind].n;
  for (guint i = 0; i < list->n_columns; i++)
    {
      list->names[i] = lists[kind].columns[i].name;
      list->heads[i] = _ (lists[kind].columns[i].head);
    }
  list->rows = g_ptr_array_new_with_free_func ((GDestroyNotify)g_strfreev);
  if (kind == LID_LIST_PICK)
    fill_pick (list, changeover);
  else if (kind == LID_LIST_PULL)
    fill_pull (list, changeover, to);
  else
    fill_tags (list, changeover, job, to);
  return list;
}

void
lid_changeover_list_free (LidChangeoverList *list)
{
  if (list == NULL)
    return;
  g_ptr_array_unref (list->rows);
  g_free (list);
}

/* RFC 4180, section 2, points 5 to 7. A text that a spreadsheet would take for a formula (it comes
 * from labels and inventories, which anybody can have written) gets an apostrophe before it. */
static void
append_field (GString *out, const char *text)
{
  gboolean formula = strchr ("=+-@\t\r", *text) != NULL && *text != 0;

  if (!formula && strpbrk (text, ",\"\r\n") == NULL)
    {
      g_string_append (out, text);
      return;
    }
  g_string_append (out, formula ? "\"'" : "\"");
  for (; *text != 0; text++)
    {
      if (*text == '"')
        g_string_append_c (out, '"');
      g_string_append_c (out, *text);
    }
  g_string_append_c (out, '"');
}

static void
append_record (GString *out, const char *const *fields, guint n)
{
  for (guint i = 0; i < n; i++)
    {
      if (i > 0)
        g_string_append_c (out, ',');
      append_field (out, fields[i]);
    }
  g_string_append (out, "\r\n");
}

/**
 * lid_changeover_list_to_csv:
 * @list: a list
 *
 * Returns: (transfer full): the list as CSV (RFC 4180), UTF-8, English words in the header row
 */
char *
lid_changeover_list_to_csv (const LidChangeoverList *list)
{
  GString *out = g_string_new (NULL);

  append_record (out, list->names, list->n_columns);
  for (guint i = 0; i < list->rows->len; i++)
    append_record (out, (const char *const *)list->rows->pdata[i], list->n_columns);
  return g_string_free (out, FALSE);
}
