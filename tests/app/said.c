/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Which words of a shown text no translator was offered: what stands outside of the marks and is
 * neither the job's own data nor one of the words below. */
#include "said.h"

#include "checks/rules.h"
#include "help/cautions.h"
#include "help/example.h"

#include <string.h>

/* The same in every language: names, units, codes of the standards, words of the label. */
static const char *const everywhere[] = {
  "Lidleaf", "GB",  "MB",   "TB",   "MT",   "s",    "GPL",   "JEDEC", "SPD",     "DMTF",
  "SMBIOS",  "CIM", "DDR3", "DDR4", "DDR5", "DIMM", "ECC",   "3DS",   "DSP0134", "Redfish",
  "A4",      "PDF", "SVG",  "PNG",  "F1",   "Ctrl", "Shift", "Alt",   "Space",   "BackSpace"
};

static GHashTable *words; /* char * */

static void
allow (const char *text)
{
  g_auto (GStrv) parts = NULL;

  if (text == NULL)
    return;
  parts = g_strsplit_set (text, " \t\n,;:.·()[]/–-_", -1);
  for (guint i = 0; parts[i] != NULL; i++)
    g_hash_table_add (words, g_strdup (parts[i]));
}

/* Works cited keep their titles. */
static void
allow_sources (void)
{
  const LidCaution *cautions;
  guint n;

  cautions = lid_cautions_all (&n);
  for (guint i = 0; i < n; i++)
    allow (cautions[i].source);
}

/* The boards of the rules' examples have processors with names of their own: data, as a job's. */
static void
allow_examples (void)
{
  for (guint i = 0; lid_rules[i] != NULL; i++)
    {
      g_autoptr (LidExample) example = lid_example_new (lid_rules[i]);

      for (guint k = 0; example != NULL && k < example->board->n_processors; k++)
        {
          allow (example->board->processors[k].id);
          allow (example->board->processors[k].name);
        }
    }
}

/**
 * said_allow_job:
 * @job: its own names are data: title, owner, slots, parts; not what the program says of them
 */
void
said_allow_job (const LidJob *job)
{
  if (words == NULL)
    words = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (everywhere); i++)
    allow (everywhere[i]);
  allow_sources ();
  allow_examples ();
  allow (job->title);
  allow (job->owner);
  allow (job->asset);
  allow (job->number);
  allow (job->shop);
  allow (job->technician);
  allow (job->board->id);
  allow (job->board->name);
  for (guint i = 0; i < job->board->n_slots; i++)
    {
      allow (job->board->slots[i].id);
      allow (job->board->slots[i].name);
    }
  for (guint i = 0; i < job->board->n_processors; i++)
    allow (job->board->processors[i].name);
  for (guint i = 0; i < job->modules->len; i++)
    {
      const LidModule *module = job->modules->pdata[i];

      allow (module->label);
      allow (module->part);
      allow (module->serial);
      allow (module->maker);
      allow (module->bin);
    }
}

/**
 * said_allow:
 * @data: of this run, as the name of a folder
 */
void
said_allow (const char *data)
{
  allow (data);
}

void
said_clear (void)
{
  g_clear_pointer (&words, g_hash_table_unref);
}

static gboolean
has_letter (const char *word)
{
  for (; *word != 0; word = g_utf8_next_char (word))
    if (g_unichar_isalpha (g_utf8_get_char (word)))
      return TRUE;
  return FALSE;
}

/* "2Rx4", "2R", "x8": organisation as printed on a label. */
static gboolean
is_code (const char *word)
{
  return g_regex_match_simple ("^[0-9]+R(x[0-9]+)?$|^x[0-9]+$", word, 0, 0);
}

/* The text without what stands in marks, which may stand in each other. */
static char *
outside (const char *text)
{
  GString *out = g_string_new (NULL);
  int deep = 0;

  for (const char *at = text; *at != 0; at = g_utf8_next_char (at))
    {
      gunichar c = g_utf8_get_char (at);

      if (c == 0x27e6)
        deep++;
      else if (c == 0x27e7)
        deep--;
      else if (deep <= 0)
        g_string_append_unichar (out, c);
      else
        continue;
      if (c == 0x27e6 || c == 0x27e7)
        g_string_append_c (out, ' ');
    }
  return g_string_free (out, FALSE);
}

/**
 * said_left:
 * @text: as shown
 *
 * Returns: (transfer full) (nullable): the first word that no translator was offered
 */
char *
said_left (const char *text)
{
  g_autofree char *rest = outside (text);
  g_auto (GStrv) parts = g_strsplit_set (rest, " \t\n,;:.()[]/-_?!%+=<>“”", -1);

  for (guint i = 0; parts[i] != NULL; i++)
    if (g_utf8_strlen (parts[i], -1) > 1 && has_letter (parts[i]) && !is_code (parts[i])
        && !g_hash_table_contains (words, parts[i]))
      return g_strdup (parts[i]);
  return NULL;
}
