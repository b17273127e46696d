/* SPDX-License-Identifier: GPL-3.0-or-later */
/* label-tail.c — the label behind "PC4-". The order of the fields changes with the generation:
 *
 *   DDR3  bandwidth type - CL - SPD revision - card
 *   DDR4  rate grade - type card - SPD revision
 *   DDR5  rate grade - type card - SPD revision, module revision - temperature
 *
 * and a maker's own suffix may follow on DDR3 and DDR4. All behind the type (DDR3: behind type
 * or CL) is missing in the short retail form. */
#include "facts/label-cursor.h"
#include "facts/label-tables.h"

#include <glib/gi18n-lib.h>
#include <string.h>

static gboolean
refuse_run (LidLabelCursor *cursor, LidLabelField field, const char *taken, const char *remedy)
{
  return lid_label_cursor_refuse (cursor, field, cursor->at, lid_label_cursor_run_end (cursor),
                                  taken, remedy);
}

static gboolean
need_hyphen (LidLabelCursor *cursor, LidLabelField next, const char *expected)
{
  return lid_label_cursor_take (cursor, '-')
         || lid_label_cursor_refuse (cursor, next, cursor->at, cursor->at, expected, NULL);
}

static gboolean
read_type (LidLabelCursor *cursor, LidLabel *label)
{
  const char *letters = lid_label_tables_type_letters (label->generation);

  if (lid_label_cursor_at_end (cursor)
      || lid_label_tables_type (label->generation, *cursor->at) == NULL)
    return refuse_run (cursor, LID_LABEL_FIELD_TYPE, letters, NULL);
  /* On DDR3 nothing but a hyphen follows the type. */
  if (label->generation == LID_GENERATION_DDR3
      && lid_label_cursor_run_end (cursor) > cursor->at + 1)
    return refuse_run (cursor, LID_LABEL_FIELD_TYPE, letters, NULL);
  label->type = *cursor->at++;
  return TRUE;
}

static gboolean
read_bandwidth (LidLabelCursor *cursor, LidLabel *label)
{
  const char *start = cursor->at;
  const char *name;
  g_autofree char *remedy = NULL;
  LidRate rate;
  guint mts;

  if (lid_label_cursor_digits (cursor, &mts) > 0)
    label->rated = lid_label_tables_bandwidth_rate (start, (gsize)(cursor->at - start));
  if (label->rated != LID_RATE_UNKNOWN)
    return TRUE;
  rate = lid_rate_snap (LID_GENERATION_DDR3, mts);
  name = lid_label_tables_bandwidth_name (LID_GENERATION_DDR3, rate);
  if (name != NULL)
    remedy = g_strdup_printf (_ ("DDR3 labels print the bandwidth: %u MT/s is PC3-%s."), mts, name);
  return lid_label_cursor_refuse (cursor, LID_LABEL_FIELD_RATE, start,
                                  cursor->at > start ? cursor->at
                                                     : lid_label_cursor_run_end (cursor),
                                  "6400, 8500, 10600, 12800, 14900, 17000", remedy);
}

static gboolean
read_rate (LidLabelCursor *cursor, LidLabel *label)
{
  const char *start = cursor->at, *name;
  const char *taken = label->generation == LID_GENERATION_DDR4
                          ? "1600, 1866, 2133, 2400, 2666, 2933, 3200"
                          : _ ("3200 to 9200 in steps of 400");
  g_autofree char *remedy = NULL;
  guint mts, n = lid_label_cursor_digits (cursor, &mts);
  gsize n_steps;
  const LidRate *steps = lid_rate_steps (label->generation, &n_steps);
  LidRate near = lid_rate_snap (label->generation, mts);

  if (n == 4 && lid_rate_is_step (label->generation, near) && lid_rate_mts (near) == mts)
    {
      label->rated = near;
      return TRUE;
    }
  if (lid_rate_is_step (label->generation, near))
    remedy = g_strdup_printf (_ ("Labels print it as %u."), lid_rate_mts (near));
  for (gsize i = 0; remedy == NULL && i < n_steps; i++)
    {
      name = lid_label_tables_bandwidth_name (label->generation, steps[i]);
      if (name != NULL && strlen (name) == n && strncmp (name, start, n) == 0)
        remedy = g_strdup_printf (_ ("That is a bandwidth; the label prints the rate, %u."),
                                  lid_rate_mts (steps[i]));
    }
  return lid_label_cursor_refuse (cursor, LID_LABEL_FIELD_RATE, start,
                                  n > 0 ? cursor->at : lid_label_cursor_run_end (cursor), taken,
                                  remedy);
}

static gboolean
read_grade (LidLabelCursor *cursor, LidLabel *label)
{
  const char *stop = lid_label_cursor_run_end (cursor);
  gsize length = (gsize)(stop - cursor->at);
  const char *taken = lid_label_tables_grades (label->generation, label->rated);
  g_autofree char *at_rate = NULL;

  if (length >= 1 && length <= 2)
    {
      memcpy (label->grade, cursor->at, length);
      label->grade[length] = 0;
      if (lid_label_tables_has_grade (label->generation, label->rated, label->grade))
        {
          cursor->at = stop;
          return TRUE;
        }
    }
  at_rate
      = g_strdup_printf (_ ("%s (the grades there are at %u)"), taken, lid_rate_mts (label->rated));
  return refuse_run (cursor, LID_LABEL_FIELD_GRADE, at_rate, NULL);
}

static gboolean
read_revision (LidLabelCursor *cursor, LidLabelField field, char *revision, gboolean last)
{
  gsize length = (gsize)(lid_label_cursor_run_end (cursor) - cursor->at);

  if (length < 2 || (last && length > 2) || !g_ascii_isdigit (cursor->at[0])
      || !g_ascii_isdigit (cursor->at[1]))
    return refuse_run (cursor, field, _ ("two figures, as in 12 for 1.2"), NULL);
  memcpy (revision, cursor->at, 2);
  revision[2] = 0;
  cursor->at += 2;
  return TRUE;
}

/* One or two card letters, then a figure or P (not yet released); ZZZ where no reference card was
 * used. A last P is the revision, not a second letter. DDR4 only: two letters without a revision
 * are printed on real stock ("RBB-10") and read as a card without one. */
static gboolean
read_card (LidLabelCursor *cursor, LidLabel *label)
{
  const char *start = cursor->at, *stop = lid_label_cursor_run_end (cursor);
  gsize length = (gsize)(stop - start), letters = length;
  char last = length > 0 ? stop[-1] : 0;

  if (length >= 2 && start[0] == 'Z' && start[1] == 'Z')
    {
      if (length != 3 || last != 'Z')
        return lid_label_cursor_refuse (cursor, LID_LABEL_FIELD_CARD_REVISION, start + 2, stop,
                                        _ ("Z behind card ZZ"), NULL);
      memcpy (label->card, "ZZ", 3);
      label->card_revision = 'Z';
      cursor->at = stop;
      return TRUE;
    }
  if (length >= 2 && (g_ascii_isdigit (last) || last == 'P'))
    letters = length - 1;
  for (gsize i = 0; i < MAX (letters, 1); i++)
    if (letters == 0 || letters > 2 || !lid_label_tables_is_card_letter (start[i]))
      return refuse_run (cursor, LID_LABEL_FIELD_CARD,
                         _ ("one or two of A-H J-N P R T-W Y, then a figure or P; or ZZZ"), NULL);
  if (letters == length && (length == 1 || label->generation != LID_GENERATION_DDR4))
    return lid_label_cursor_refuse (cursor, LID_LABEL_FIELD_CARD_REVISION, stop, stop,
                                    _ ("a figure or P behind the card's letters"), NULL);
  memcpy (label->card, start, letters);
  label->card[letters] = 0;
  label->card_revision = letters < length ? last : 0;
  cursor->at = stop;
  return TRUE;
}

static gboolean
read_suffix (LidLabelCursor *cursor, LidLabel *label)
{
  const char *start = cursor->at + 1, *stop = cursor->end;
  gsize length = (gsize)(stop - start), good = 0;

  if (lid_label_cursor_at_end (cursor))
    return TRUE;
  while (good < length && (g_ascii_isdigit (start[good]) || g_ascii_isupper (start[good])))
    good++;
  if (length < 2 || length > 3 || good != length)
    return lid_label_cursor_refuse (cursor, LID_LABEL_FIELD_MAKER_SUFFIX, start, stop,
                                    _ ("nothing, or two or three letters and figures"), NULL);
  memcpy (label->maker_suffix, start, length);
  label->maker_suffix[length] = 0;
  cursor->at = stop;
  return TRUE;
}

/* The figures are kept as printed: 9 and 09 are the same latency, but the label is what it is. */
static gboolean
read_cl (LidLabelCursor *cursor, LidLabel *label)
{
  const char *start = cursor->at, *stop = lid_label_cursor_run_end (cursor);
  guint cl, n = lid_label_cursor_digits (cursor, &cl);

  if (n >= 1 && n <= 2 && cursor->at == stop && cl >= 5 && cl <= 14)
    {
      memcpy (label->cl, start, n);
      label->cl[n] = 0;
      return TRUE;
    }
  return lid_label_cursor_refuse (cursor, LID_LABEL_FIELD_CL, start, stop,
                                  _ ("a CAS latency of 5 to 14 clocks"),
                                  start < stop && g_ascii_isalpha (*start)
                                      ? _ ("DDR3 prints CL, then the SPD revision, then the card.")
                                      : NULL);
}

/**
 * lid_label_tail_ddr3:
 *
 * Returns: whether all that follows "PC3-" is the tail of a DDR3 label
 */
gboolean
lid_label_tail_ddr3 (LidLabelCursor *cursor, LidLabel *label)
{
  if (!read_bandwidth (cursor, label) || !read_type (cursor, label))
    return FALSE;
  if (lid_label_cursor_at_end (cursor))
    return TRUE;
  if (!need_hyphen (cursor, LID_LABEL_FIELD_CL, _ ("a hyphen and the CAS latency")))
    return FALSE;
  if (!read_cl (cursor, label))
    return FALSE;
  if (lid_label_cursor_at_end (cursor))
    return TRUE;
  return need_hyphen (cursor, LID_LABEL_FIELD_SPD_REVISION, _ ("a hyphen and the SPD revision"))
         && read_revision (cursor, LID_LABEL_FIELD_SPD_REVISION, label->spd_revision, TRUE)
         && need_hyphen (cursor, LID_LABEL_FIELD_CARD, _ ("a hyphen and the raw card"))
         && read_card (cursor, label) && read_suffix (cursor, label);
}

/**
 * lid_label_tail_ddr4:
 *
 * Returns: whether all that follows "PC4-" is the tail of a DDR4 label
 */
gboolean
lid_label_tail_ddr4 (LidLabelCursor *cursor, LidLabel *label)
{
  if (!read_rate (cursor, label) || !read_grade (cursor, label)
      || !need_hyphen (cursor, LID_LABEL_FIELD_TYPE, _ ("a hyphen and the letter of the kind"))
      || !read_type (cursor, label))
    return FALSE;
  if (lid_label_cursor_at_end (cursor))
    return TRUE;
  return read_card (cursor, label)
         && need_hyphen (cursor, LID_LABEL_FIELD_SPD_REVISION, _ ("a hyphen and the SPD revision"))
         && read_revision (cursor, LID_LABEL_FIELD_SPD_REVISION, label->spd_revision, TRUE)
         && read_suffix (cursor, label);
}

static gboolean
read_temperature (LidLabelCursor *cursor, LidLabel *label)
{
  const char *stop = lid_label_cursor_run_end (cursor);
  gsize length = (gsize)(stop - cursor->at);

  if (length < sizeof label->temperature)
    {
      memcpy (label->temperature, cursor->at, length);
      label->temperature[length] = 0;
    }
  if (length >= sizeof label->temperature
      || lid_label_tables_temperature (label->temperature) == NULL)
    return refuse_run (cursor, LID_LABEL_FIELD_TEMPERATURE, "XT, NT, A1T, A2T, A3T, IT, ST, ET, RT",
                       NULL);
  cursor->at = stop;
  if (!lid_label_cursor_at_end (cursor))
    return lid_label_cursor_refuse (cursor, LID_LABEL_FIELD_MAKER_SUFFIX, cursor->at, cursor->end,
                                    _ ("nothing behind the temperature"), NULL);
  return TRUE;
}

/**
 * lid_label_tail_ddr5:
 *
 * Returns: whether all that follows "PC5-" is the tail of a DDR5 label
 */
gboolean
lid_label_tail_ddr5 (LidLabelCursor *cursor, LidLabel *label)
{
  if (!read_rate (cursor, label) || !read_grade (cursor, label)
      || !need_hyphen (cursor, LID_LABEL_FIELD_TYPE, _ ("a hyphen and the letter of the kind"))
      || !read_type (cursor, label))
    return FALSE;
  if (lid_label_cursor_at_end (cursor))
    return TRUE;
  return read_card (cursor, label)
         && need_hyphen (cursor, LID_LABEL_FIELD_SPD_REVISION, _ ("a hyphen and the SPD revision"))
         && read_revision (cursor, LID_LABEL_FIELD_SPD_REVISION, label->spd_revision, FALSE)
         && read_revision (cursor, LID_LABEL_FIELD_MODULE_REVISION, label->module_revision, TRUE)
         && need_hyphen (cursor, LID_LABEL_FIELD_TEMPERATURE,
                         _ ("a hyphen and the temperature code"))
         && read_temperature (cursor, label);
}
