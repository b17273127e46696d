/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The keys of product.md 11, "check"; "match", "mode", "nodes", "assumptions",
 * "room" and "power" are more. Rates are
 * nominal MT/s, bandwidth whole MB/s (halves up), the even share has four digits; unknown is null.
 */
#include "check-report.h"
#include "json-line.h"

#include "base/json-write.h"
#include "board/board-newer.h"
#include "figures/assumptions.h"

static void
write_rate (LidJsonWriter *writer, const char *name, LidRate rate)
{
  lid_json_write_int_or_null (writer, name, lid_rate_mts (rate), rate != LID_RATE_UNKNOWN);
}

static void
write_ratio (LidJsonWriter *writer, const char *name, LidRatio ratio)
{
  gboolean known = lid_ratio_is_known (ratio);

  lid_json_write_int_or_null (writer, name, known ? lid_ratio_round (ratio) : 0, known);
}

static void
write_share (LidJsonWriter *writer, LidRatio share)
{
  g_autofree char *digits = NULL;
  gint64 parts;

  if (!lid_ratio_is_known (share))
    {
      lid_json_write_null (writer, "even_share");
      return;
    }
  parts = lid_ratio_round (lid_ratio_mul (share, lid_ratio (10000, 1)));
  digits = g_strdup_printf ("%d.%04d", (int)(parts / 10000), (int)(parts % 10000));
  lid_json_write_raw (writer, "even_share", digits);
}

static void
write_unusable (LidJsonWriter *writer, const LidBoard *board, const LidAssessment *assessment)
{
  lid_json_write_open (writer, "unusable", '[');
  for (guint i = 0; i < board->n_slots; i++)
    if (assessment->unusable[i])
      lid_json_write_text (writer, NULL, board->slots[i].id);
  lid_json_write_close (writer, ']');
}

static void
write_limits (LidJsonWriter *writer, const LidFigures *figures)
{
  lid_json_write_open (writer, "limits", '[');
  for (guint i = 0; i < figures->n_limits; i++)
    {
      lid_json_write_open (writer, NULL, '{');
      lid_json_write_text (writer, "what", lid_cap_to_text (figures->limits[i].what));
      write_rate (writer, "mts", figures->limits[i].rate);
      lid_json_write_bool (writer, "binding", figures->limits[i].binding);
      lid_json_write_close (writer, '}');
    }
  lid_json_write_close (writer, ']');
}

/* Whether a channel hangs on no socket that is told: no socket's regions are known then. */
static gboolean
is_adrift (const LidBoard *board)
{
  for (guint i = 0; i < board->n_channels; i++)
    if (board->channels[i].socket == LID_NOWHERE)
      return TRUE;
  return FALSE;
}

static void
write_channels (LidJsonWriter *writer, const LidBoard *board, int socket, const LidFigures *figures)
{
  if (!figures->channels_told)
    {
      lid_json_write_null (writer, "channels");
      return;
    }
  lid_json_write_open (writer, "channels", '[');
  for (guint i = 0; i < board->n_channels; i++)
    {
      const LidBoardChannel *channel = &board->channels[i];
      const LidChannelFigures *here = &figures->channels[i];

      if (channel->socket != socket)
        continue;
      lid_json_write_open (writer, NULL, '{');
      lid_json_write_int_or_null (writer, "controller", channel->controller,
                                  channel->controller > 0);
      lid_json_write_text (writer, "channel", channel->name);
      lid_json_write_int_or_null (writer, "capacity_mib", here->capacity_mib, here->capacity_known);
      lid_json_write_int (writer, "modules", here->modules);
      lid_json_write_close (writer, '}');
    }
  lid_json_write_close (writer, ']');
}

static void
write_regions (LidJsonWriter *writer, const LidBoard *board, int s, const LidFigures *figures)
{
  const LidSocketFigures *socket = s != LID_NOWHERE ? &figures->sockets[s] : NULL;

  if (!figures->channels_told || (figures->starts && (!figures->usable_known || is_adrift (board))))
    {
      lid_json_write_null (writer, "regions");
      return;
    }
  lid_json_write_open (writer, "regions", '[');
  for (guint i = 0; socket != NULL && i < socket->n_regions; i++)
    {
      const LidRegion *region
          = &g_array_index (figures->regions, LidRegion, socket->first_region + i);

      lid_json_write_open (writer, NULL, '{');
      lid_json_write_int (writer, "size_mib", region->mib);
      lid_json_write_int (writer, "ways", region->ways);
      lid_json_write_close (writer, '}');
    }
  lid_json_write_close (writer, ']');
}

/* @s: index, or LID_NOWHERE for what hangs on no socket that is told */
static void
write_socket (LidJsonWriter *writer, const LidBoard *board, int s, const LidFigures *figures)
{
  lid_json_write_open (writer, NULL, '{');
  lid_json_write_int_or_null (writer, "socket", s + 1, s != LID_NOWHERE);
  write_rate (writer, "running_mts",
              s != LID_NOWHERE ? figures->sockets[s].running : figures->running);
  write_channels (writer, board, s, figures);
  write_regions (writer, board, s, figures);
  lid_json_write_close (writer, '}');
}

static void
write_sockets (LidJsonWriter *writer, const LidBoard *board, const LidFigures *figures)
{
  lid_json_write_open (writer, "sockets", '[');
  for (guint s = 0; s < board->n_sockets; s++)
    write_socket (writer, board, (int)s, figures);
  if (is_adrift (board))
    write_socket (writer, board, LID_NOWHERE, figures);
  lid_json_write_close (writer, ']');
}

/* Socket by socket, how many of its regions each node has, in their order; a node is a socket or a
 * part of it under a NUMA split (product.md 6). */
static void
write_nodes (LidJsonWriter *writer, const LidFigures *figures)
{
  lid_json_write_open (writer, "nodes", '[');
  for (guint s = 0; s < figures->n_sockets; s++)
    {
      const LidSocketFigures *socket = &figures->sockets[s];
      guint n = 0, node = 0;

      lid_json_write_open (writer, NULL, '[');
      for (guint i = 0; i < socket->n_regions; i++, n++)
        for (; node < g_array_index (figures->regions, LidRegion, socket->first_region + i).node;
             node++, n = 0)
          lid_json_write_int (writer, NULL, n);
      if (n > 0)
        lid_json_write_int (writer, NULL, n);
      lid_json_write_close (writer, ']');
    }
  lid_json_write_close (writer, ']');
}

/* What the expected bandwidth rests on; values of constants as numbers. */
static void
write_assumptions (LidJsonWriter *writer, const LidBoard *board, const LidFigures *figures)
{
  g_autoptr (GPtrArray) list = lid_assumptions_new (board, figures);

  lid_json_write_open (writer, "assumptions", '[');
  for (guint i = 0; i < list->len; i++)
    {
      const LidAssumption *one = list->pdata[i];
      char digits[G_ASCII_DTOSTR_BUF_SIZE];

      lid_json_write_open (writer, NULL, '{');
      lid_json_write_text (writer, "id", one->id);
      if (lid_ratio_is_known (one->value))
        lid_json_write_raw (
            writer, "value",
            g_ascii_formatd (digits, sizeof digits, "%.4f", lid_ratio_to_double (one->value)));
      else
        lid_json_write_null (writer, "value");
      lid_json_write_text (writer, "text", one->text);
      lid_json_write_text (writer, "source", one->source);
      lid_json_write_close (writer, '}');
    }
  lid_json_write_close (writer, ']');
}

static void
write_slot (LidJsonWriter *writer, const char *name, const LidBoard *board, int slot)
{
  lid_json_write_text (writer, name, slot != LID_NOWHERE ? board->slots[slot].id : NULL);
}

static void
write_remedy (LidJsonWriter *writer, const LidBoard *board, const LidRemedy *remedy)
{
  if (remedy == NULL)
    {
      lid_json_write_null (writer, "remedy");
      return;
    }
  lid_json_write_open (writer, "remedy", '{');
  lid_json_write_text (writer, "text", remedy->text);
  lid_json_write_open (writer, "moves", '[');
  for (guint i = 0; i < remedy->moves->len; i++)
    {
      const LidMove *move = &g_array_index (remedy->moves, LidMove, i);

      lid_json_write_open (writer, NULL, '{');
      lid_json_write_text (writer, "module", move->module->id);
      write_slot (writer, "from", board, move->from);
      write_slot (writer, "to", board, move->to);
      lid_json_write_close (writer, '}');
    }
  lid_json_write_close (writer, ']');
  lid_json_write_close (writer, '}');
}

static void
write_findings (LidJsonWriter *writer, const LidBoard *board, const GPtrArray *findings)
{
  lid_json_write_open (writer, "findings", '[');
  for (guint i = 0; i < findings->len; i++)
    {
      const LidFinding *finding = findings->pdata[i];

      lid_json_write_open (writer, NULL, '{');
      lid_json_write_text (writer, "rule", lid_finding_rule_id (finding));
      lid_json_write_text (writer, "grade", lid_grade_to_text (finding->grade));
      lid_json_write_text (writer, "stops", lid_stops_to_text (finding->stops));
      lid_json_write_open (writer, "slots", '[');
      for (guint k = 0; k < finding->n_slots; k++)
        write_slot (writer, NULL, board, (int)finding->slots[k]);
      lid_json_write_close (writer, ']');
      lid_json_write_text (writer, "text", finding->text);
      lid_json_write_text (writer, "basis", finding->basis);
      lid_json_write_text (writer, "source", finding->source);
      write_remedy (writer, board, lid_finding_remedy (finding));
      lid_json_write_close (writer, '}');
    }
  lid_json_write_close (writer, ']');
}

static void
write_figures (LidJsonWriter *writer, const LidFigures *figures)
{
  gboolean known = figures->starts && figures->capacity_known;
  gboolean counted = figures->starts && figures->channels_told;

  lid_json_write_int_or_null (writer, "capacity_mib", figures->capacity_mib, known);
  lid_json_write_int_or_null (writer, "usable_mib", figures->usable_mib,
                              known && figures->usable_known);
  write_rate (writer, "running_mts", figures->running);
  write_limits (writer, figures);
  write_ratio (writer, "peak_mbs", figures->peak_mbs);
  write_ratio (writer, "whole_mbs", figures->whole_mbs);
  write_ratio (writer, "best_mbs", figures->best_mbs);
  write_ratio (writer, "worst_mbs", figures->worst_mbs);
  write_share (writer, figures->even_share);
  lid_json_write_int_or_null (writer, "channels_in_use", figures->channels_in_use, counted);
  lid_json_write_int_or_null (writer, "channels", figures->channels_of_fitted, counted);
}

/* What is asked of the memory mode, and whether it takes effect. */
static void
write_mode (LidJsonWriter *writer, const LidPopulation *population, const LidFigures *figures)
{
  LidEffect effect = figures->mode.effect;

  lid_json_write_open (writer, "mode", '{');
  lid_json_write_text (writer, "asked", lid_mode_to_text (population->mode));
  if (figures->starts && effect != LID_EFFECT_UNSURE)
    lid_json_write_bool (writer, "in_effect", effect != LID_EFFECT_REFUSED);
  else
    lid_json_write_null (writer, "in_effect");
  lid_json_write_int_or_null (writer, "spare_ranks", MAX (population->spare_ranks, 1),
                              population->mode == LID_MODE_SPARED);
  lid_json_write_int_or_null (writer, "mirrored_mib", population->mirrored_mib,
                              population->mode == LID_MODE_PARTLY_MIRRORED
                                  && population->mirrored_mib > 0);
  lid_json_write_close (writer, '}');
}

static void
write_room (LidJsonWriter *writer, const LidRoom *room)
{
  lid_json_write_open (writer, "room", '{');
  lid_json_write_int (writer, "empty_slots", room->empty_slots);
  lid_json_write_int_or_null (writer, "listed_mib", room->listed_mib, room->listed_mib > 0);
  lid_json_write_int_or_null (writer, "proven_mib", room->proven_mib, room->proven_mib > 0);
  lid_json_write_close (writer, '}');
}

static void
write_newer (LidJsonWriter *writer, const LidBoard *board)
{
  g_autoptr (GPtrArray) differences = NULL;
  g_autoptr (LidBoard) newer = lid_board_newer_find (board, &differences);

  if (newer == NULL)
    {
      lid_json_write_null (writer, "newer_board");
      return;
    }
  lid_json_write_open (writer, "newer_board", '{');
  lid_json_write_int (writer, "version", newer->version);
  lid_json_write_open (writer, "differences", '[');
  for (guint i = 0; i < differences->len; i++)
    lid_json_write_text (writer, NULL, differences->pdata[i]);
  lid_json_write_close (writer, ']');
  lid_json_write_close (writer, '}');
}

/**
 * lid_check_report_json:
 * @out: gets one line
 * @source: the input's name
 * @job: whose population
 * @of: which of its populations
 * @assessment: what was found
 */
void
lid_check_report_json (
    GString *out, const char *source, const LidJob *job, LidOf of, const LidAssessment *assessment)
{
  LidJsonWriter writer;

  lid_json_line_open (&writer, out, source, NULL);
  lid_json_write_text (&writer, "of", lid_of_to_text (of));
  lid_json_write_text (&writer, "board", job->board->id);
  lid_json_write_text (&writer, "match", job->match);
  write_newer (&writer, job->board);
  lid_json_write_int (&writer, "fitted_mib", assessment->figures.fitted_mib);
  write_unusable (&writer, job->board, assessment);
  write_figures (&writer, &assessment->figures);
  write_mode (&writer, lid_job_get_population (job, of), &assessment->figures);
  write_sockets (&writer, job->board, &assessment->figures);
  write_nodes (&writer, &assessment->figures);
  write_assumptions (&writer, job->board, &assessment->figures);
  write_findings (&writer, job->board, assessment->findings);
  write_room (&writer, &assessment->room);
  lid_check_report_power (&writer, job, of);
  lid_json_line_close (&writer);
}
