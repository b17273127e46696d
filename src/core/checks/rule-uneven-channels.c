/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/units.h"
#include "checks/balance.h"
#include "checks/names.h"
#include "checks/rules.h"

#include <glib/gi18n-lib.h>

/* Least and most over the channels in use of one processor. */
typedef struct
{
  gint64 least_mib, most_mib;
  guint least_n, most_n;
  guint least_ranks, most_ranks;
  gboolean told;
  guint n;
} Span;

static Span
span_of (const LidCheck *check, int socket)
{
  Span span
      = { .told = TRUE, .least_mib = G_MAXINT64, .least_n = G_MAXUINT, .least_ranks = G_MAXUINT };

  for (guint c = 0; c < check->board->n_channels; c++)
    {
      const LidBalanceSum *sum = &check->balance->channels[c];

      if (check->board->channels[c].socket != socket || sum->n == 0)
        continue;
      span.least_mib = MIN (span.least_mib, sum->mib);
      span.most_mib = MAX (span.most_mib, sum->mib);
      span.least_n = MIN (span.least_n, sum->n);
      span.most_n = MAX (span.most_n, sum->n);
      span.least_ranks = MIN (span.least_ranks, sum->ranks);
      span.most_ranks = MAX (span.most_ranks, sum->ranks);
      span.told = span.told && !sum->ranks_missing;
      span.n++;
    }
  return span;
}

/* The slots of the channels with most in them: where the unevenness sits. */
static void
add_slots (const LidCheck *check, int socket, gint64 most_mib, LidSlotSet *slots)
{
  for (guint c = 0; c < check->board->n_channels; c++)
    if (check->board->channels[c].socket == socket && check->balance->channels[c].mib == most_mib)
      for (guint i = 0; i < check->survey->channels[c].n_fitted; i++)
        lid_slot_set_add (slots, check->survey->channels[c].fitted[i]);
}

/* What is uneven: capacity, else modules, else ranks. @names: the processors, @n of them; NULL
 * where there is one or none told. */
static char *
say (const char *names, gulong n, const Span *span)
{
  g_autofree char *least = lid_units_capacity (span->least_mib);
  g_autofree char *most = lid_units_capacity (span->most_mib);

  if (span->least_mib != span->most_mib)
    return names == NULL ? g_strdup_printf (_ ("Channels hold from %s to %s: what is above the "
                                               "least is read over fewer channels."),
                                            least, most)
                         : g_strdup_printf (
                             g_dngettext (GETTEXT_PACKAGE,
                                          "At processor %s channels hold from %s to %s: what is "
                                          "above the least is read over fewer channels.",
                                          "At processors %s each, channels hold from %s to %s: "
                                          "what is above the least is read over fewer channels.",
                                          n),
                             names, least, most);
  if (span->least_n != span->most_n)
    return names == NULL ? g_strdup_printf (
               _ ("All channels in use hold %s, but in different numbers of modules: %u to %u."),
               most, span->least_n, span->most_n)
                         : g_strdup_printf (
                             g_dngettext (GETTEXT_PACKAGE,
                                          "At processor %s all channels in use hold %s, but in "
                                          "different numbers of modules: %u to %u.",
                                          "At processors %s each, all channels in use hold %s, but "
                                          "in different numbers of modules: %u to %u.",
                                          n),
                             names, most, span->least_n, span->most_n);
  return names == NULL
             ? g_strdup_printf (
                 _ ("All channels in use hold %s, but in different numbers of ranks: %u to %u."),
                 most, span->least_ranks, span->most_ranks)
             : g_strdup_printf (g_dngettext (GETTEXT_PACKAGE,
                                             "At processor %s all channels in use hold %s, but in "
                                             "different numbers of ranks: %u to %u.",
                                             "At processors %s each, all channels in use hold %s, "
                                             "but in different numbers of ranks: %u to %u.",
                                             n),
                                names, most, span->least_ranks, span->most_ranks);
}

static void
speak (LidCheck *check, guint32 sockets, const Span *span, const LidSlotSet *slots)
{
  g_autofree char *names = sockets != 0 ? lid_names_sockets (check, sockets) : NULL;
  gboolean loses = span->least_mib != span->most_mib;

  lid_check_add (check, loses ? LID_GRADE_LOSES : LID_GRADE_NOTE, LID_STOPS_NOTHING,
                 loses ? slots : NULL, say (names, (gulong)__builtin_popcount (sockets), span));
}

static void
check_channels (LidCheck *check)
{
  LidSlotSet slots = { { 0 } };
  guint32 uneven = 0, shuffled = 0;
  Span worst = { 0 }, other = { 0 };
  gboolean several = check->board->n_sockets > 1;

  if (!check->board->channels_told)
    return;
  for (int s = check->board->sockets_told ? 0 : LID_NOWHERE; s < (int)check->board->n_sockets; s++)
    {
      Span span = span_of (check, s);
      guint32 bit = s == LID_NOWHERE ? 0 : 1u << s;

      if (span.n < 2 || !lid_balance_is_sized (check, s))
        continue;
      if (span.least_mib != span.most_mib)
        {
          uneven |= bit;
          add_slots (check, s, span.most_mib, &slots);
          worst = worst.n ? worst : span;
        }
      else if (span.least_n != span.most_n || (span.told && span.least_ranks != span.most_ranks))
        {
          shuffled |= bit;
          other = other.n ? other : span;
        }
    }
  if (worst.n)
    speak (check, several ? uneven : 0, &worst, &slots);
  if (other.n)
    speak (check, several ? shuffled : 0, &other, NULL);
}

const LidRule lid_rule_uneven_channels = {
  .id = "uneven-channels",
  .title = N_ ("uneven channels"),
  .scope = LID_SCOPE_SOCKET,
  .lasting = FALSE,
  .phase = LID_PHASE_USABLE,
  .grades = LID_GRADE_BIT (LID_GRADE_LOSES) | LID_GRADE_BIT (LID_GRADE_NOTE),
  .cures = LID_CURE_SPREAD | LID_CURE_FIT,
  .why
  = N_ ("Memory is read over several channels at once. What one channel holds above the least of "
        "them has no counterpart on the others, so that this part is read over fewer channels."),
  .clears = N_ ("Move or exchange modules until each channel in use holds the same, in the same "
                "number of modules and ranks."),
  .facts = LID_FACT_BIT (LID_FACT_CAPACITY),
  .basis = "physics",
  .source = "F. Denneman, Memory Deep Dive series",
  .check = check_channels,
};
