/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "checks/mix.h"

#include "base/text.h"
#include "checks/names.h"
#include "checks/remedy.h"

#include <glib/gi18n-lib.h>
#include <string.h>

#define MOST_CLASSES 12u
#define WHOLE 0 /* the machine is the one unit there is */

typedef struct
{
  gint64 value;
  gint64 mib;
  guint n;
  guint32 place; /* of its first module in the order of fitting */
  LidSlotSet slots;
} Class;

typedef struct
{
  const LidMixCheck *what;
  LidMixRule rule;
  LidSlotSet blamed;
  LidSlotSet units; /* channels or sockets where too many classes meet */
  gint64 value[MOST_CLASSES];
  guint count[MOST_CLASSES];
  guint n_values;
} Outcome;

static Class *
find_class (Class *classes, guint *n_classes, gint64 value)
{
  for (guint i = 0; i < *n_classes; i++)
    if (classes[i].value == value)
      return &classes[i];
  if (*n_classes < MOST_CLASSES)
    {
      memset (&classes[*n_classes], 0, sizeof *classes);
      classes[*n_classes].value = value;
      classes[*n_classes].place = G_MAXUINT32;
      (*n_classes)++;
    }
  return &classes[*n_classes - 1];
}

/* The larger stays; on a tie the class whose first module comes first in the order. */
static gboolean
stays (const Class *x, const Class *y)
{
  return x->mib > y->mib || (x->mib == y->mib && x->place < y->place);
}

static int
compare_classes (const void *a, const void *b)
{
  return stays (b, a) - stays (a, b);
}

static void
note_values (Outcome *out, const Class *classes, guint n_classes)
{
  for (guint i = 0; i < n_classes; i++)
    {
      guint at = 0;

      while (at < out->n_values && out->value[at] != classes[i].value)
        at++;
      if (at == MOST_CLASSES)
        continue;
      if (at == out->n_values)
        {
          out->value[at] = classes[i].value;
          out->count[at] = 0;
          out->n_values++;
        }
      out->count[at] += classes[i].n;
    }
}

static void
look_at_unit (LidCheck *check, Outcome *out, guint unit, const guint *slots, guint n_slots)
{
  Class classes[MOST_CLASSES];
  guint n_classes = 0;
  LidSlotSet untold = { { 0 } };
  const LidModule *first = NULL;
  gboolean alike = TRUE;

  for (guint i = 0; i < n_slots; i++)
    {
      const LidModule *module = lid_check_module (check, slots[i]);
      gint64 value = 0;
      LidMixAnswer answer = out->what->class_of (module, &value);
      Class *class;

      if (answer == LID_MIX_OUTSIDE)
        continue;
      alike = alike && (first == NULL || lid_check_is_alike (first, module));
      first = first == NULL ? module : first;
      if (answer == LID_MIX_NOT_TOLD)
        {
          lid_slot_set_add (&untold, slots[i]);
          continue;
        }
      class = find_class (classes, &n_classes, value);
      class->n++;
      class->mib += lid_module_capacity (module);
      class->place = MIN (class->place, check->place[slots[i]]);
      lid_slot_set_add (&class->slots, slots[i]);
    }
  if (!alike)
    LID_SLOT_SET_EACH (&untold, slot)
      lid_check_miss (check,
                      out->what->ask_for != NULL
                          ? out->what->ask_for (lid_check_module (check, (guint)slot))
                          : out->what->ask,
                      (guint)slot);
  if (n_classes <= out->rule.most_classes)
    return;
  qsort (classes, n_classes, sizeof *classes, compare_classes);
  for (guint i = out->rule.most_classes; i < n_classes; i++)
    lid_slot_set_merge (&out->blamed, &classes[i].slots);
  lid_slot_set_add (&out->units, unit);
  note_values (out, classes, n_classes);
}

static void
look_at_channels (LidCheck *check, Outcome *out)
{
  guint slots[LID_BOARD_MAX_SLOTS];

  for (guint unit = 0; unit < check->board->n_channels; unit++)
    {
      const LidSurveyChannel *channel = &check->survey->channels[unit];
      guint n = 0;

      for (guint i = 0; i < channel->n_fitted; i++)
        if (lid_check_is_dram (check, channel->fitted[i]))
          slots[n++] = channel->fitted[i];
      look_at_unit (check, out, unit, slots, n);
    }
}

static void
look_at_sockets (LidCheck *check, Outcome *out)
{
  guint slots[LID_BOARD_MAX_SLOTS];

  for (guint unit = 0; unit < check->board->n_sockets; unit++)
    {
      guint n = 0;

      for (guint i = 0; i < check->n_dram; i++)
        if (check->board->slots[check->dram[i]].socket == (int)unit)
          slots[n++] = check->dram[i];
      look_at_unit (check, out, unit, slots, n);
    }
}

static char *
say_classes (const Outcome *out)
{
  g_autoptr (GPtrArray) words = g_ptr_array_new_with_free_func (g_free);

  for (guint i = 0; i < out->n_values; i++)
    {
      g_autofree char *name = out->what->name (out->value[i]);

      g_ptr_array_add (words, g_strdup_printf (_ ("%u × %s"), out->count[i], name));
    }
  return lid_text_join ((const char *const *)words->pdata, words->len, MOST_CLASSES);
}

/* Whole sentences, one after the other; NULL: it is a matter of the whole machine. */
static char *
say_where (const LidCheck *check, const Outcome *out)
{
  g_autofree char *names = NULL;

  if (out->rule.scope == LID_SCOPE_CHANNEL)
    {
      names = lid_names_channels (check, &out->units);
      return g_strdup_printf (_ ("They meet on %s."), names);
    }
  if (out->rule.scope == LID_SCOPE_SOCKET)
    {
      names = lid_names_sockets (check, (guint32)out->units.word[0]);
      return g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "They meet at processor %s.",
                                           "They meet at processors %s.",
                                           (gulong)__builtin_popcountll (out->units.word[0])),
                              names);
    }
  return NULL;
}

/* How many may meet, where that is not plain from the rest; NULL: it is. */
static char *
say_most (const Outcome *out)
{
  if (out->rule.most_classes < 2)
    return NULL;
  return g_strdup_printf (out->rule.scope == LID_SCOPE_MACHINE
                              ? _ ("The board takes %u different ones at most.")
                              : _ ("The board takes %u different ones there at most."),
                          out->rule.most_classes);
}

static char *
say_consequence (const LidCheck *check, const Outcome *out)
{
  g_autofree char *names = NULL;

  switch (out->rule.grade)
    {
    case LID_GRADE_STOPS:
      if (out->rule.stops == LID_STOPS_MACHINE)
        return g_strdup (_ ("By the rules the machine does not start with such a mix."));
      names = lid_names_slots (check, &out->blamed);
      return g_strdup_printf (_ ("By the rules the board does not use %s then."), names);
    case LID_GRADE_LOSES:
      return g_strdup (_ ("It runs, but gives away rate or balance."));
    case LID_GRADE_UNSURE:
      return g_strdup (_ ("Whether it runs so is not known."));
    case LID_GRADE_NOTE:
    default:
      return g_strdup (_ ("It runs so; the board's maker only mentions it."));
    }
}

static void
speak (LidCheck *check, const Outcome *out)
{
  g_autofree char *classes = say_classes (out);
  g_autofree char *where = say_where (check, out);
  g_autofree char *most = say_most (out);
  g_autofree char *consequence = say_consequence (check, out);
  const char *const parts[] = { where, most, consequence };
  g_autoptr (GString) text = g_string_new (NULL);
  LidFinding *finding;

  g_string_printf (text, _ (out->what->says), classes);
  for (guint i = 0; i < G_N_ELEMENTS (parts); i++)
    if (parts[i] != NULL)
      g_string_append_printf (text, " %s", parts[i]);
  finding
      = lid_check_add (check, out->rule.grade, out->rule.stops, &out->blamed, g_strdup (text->str));
  if (check->board->mixes[out->what->mix].told)
    {
      finding->basis = "listed";
      finding->source = out->rule.source != NULL ? out->rule.source : check->board->source;
    }
  /* What is only mentioned costs nothing. What runs and loses is exchanged, or moved, or lived
   * with: left out, it would cost more than the mix does. */
  if (out->rule.grade == LID_GRADE_STOPS)
    lid_remedy_take_out (check, finding, &out->blamed);
  else if (out->rule.grade != LID_GRADE_NOTE)
    lid_remedy_say (check, finding, g_strdup (_ (finding->rule->clears)));
}

/**
 * lid_mix_check:
 * @check: the context
 * @what: what makes a class, and how to speak of it
 *
 * Looks for more classes than may meet. The board's own word on the mix wins over the default,
 * which stops the machine where physics or the trade knows no exception.
 */
void
lid_mix_check (LidCheck *check, const LidMixCheck *what)
{
  const LidMixRule *told = &check->board->mixes[what->mix];
  Outcome out;

  if (check->all_same || (!told->told && !what->always) || (told->told && told->allowed)
      || !((check->varying | check->missing) & what->facts))
    return;
  memset (&out, 0, sizeof out);
  out.what = what;
  if (told->told)
    out.rule = *told;
  else
    out.rule = (LidMixRule){ .scope = LID_SCOPE_MACHINE,
                             .most_classes = 1,
                             .grade = LID_GRADE_STOPS,
                             .stops = LID_STOPS_MACHINE };
  out.rule.most_classes = MAX (out.rule.most_classes, 1);
  if (out.rule.scope == LID_SCOPE_CHANNEL)
    look_at_channels (check, &out);
  else if (out.rule.scope == LID_SCOPE_SOCKET)
    look_at_sockets (check, &out);
  else
    look_at_unit (check, &out, WHOLE, check->dram, check->n_dram);
  if (!lid_slot_set_is_empty (&out.blamed))
    speak (check, &out);
}
