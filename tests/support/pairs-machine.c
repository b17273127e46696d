/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Machines drawn at random with pairs of channels, filled with few sorts of modules. */
#include "pairs-machine.h"

#include "random-machine.h"

/* Sorts of modules, all registered. The last but one tells neither ranks nor chips: nobody knows
 * what it is like, but for its own part number. */
const PairsSort pairs_sorts[PAIRS_SORTS] = {
  { 16384, 2, 4, 2666 }, { 16384, 2, 8, 2666 }, { 16384, 1, 4, 2666 },
  { 32768, 2, 4, 2666 }, { 32768, 2, 8, 2666 }, { 8192, 1, 8, 2666 },
  { 16384, 2, 4, 2933 }, { 16384, 0, 0, 2666 }, { 32768, 2, 4, 0 },
};

/* Whether two sorts may face each other. */
gboolean
pairs_alike (LidAlike level, guint a, guint b)
{
  if (a == b)
    return TRUE;
  if (pairs_sorts[a].mib != pairs_sorts[b].mib || level == LID_ALIKE_PART)
    return FALSE;
  return level == LID_ALIKE_CAPACITY
         || (pairs_sorts[a].ranks == pairs_sorts[b].ranks
             && pairs_sorts[a].width == pairs_sorts[b].width && a != PAIRS_PERSISTENT
             && b != PAIRS_PERSISTENT);
}

static void
write_modules (GString *out)
{
  g_string_append (out, "\"modules\": {");
  for (guint i = 0; i < PAIRS_SORTS; i++)
    {
      g_string_append_printf (out,
                              "%s\"%u\": {\"generation\": \"DDR4\", \"kind\": \"registered\", "
                              "\"form\": \"dimm\", \"capacity_mib\": %u, \"stack\": \"none\", "
                              "\"ecc\": true, \"check_bits\": 8, \"die_gbit\": 8, \"voltages_mv\": "
                              "[1200], \"height_mm\": 31.25",
                              i > 0 ? ", " : "", i, pairs_sorts[i].mib);
      if (i == PAIRS_UNTOLD)
        g_string_append (out, ", \"part\": \"INVENTED-7\"");
      else
        g_string_append_printf (out, ", \"ranks\": %u, \"logical_ranks\": %u, \"chip_width\": %u",
                                pairs_sorts[i].ranks, pairs_sorts[i].ranks, pairs_sorts[i].width);
      if (i == PAIRS_PERSISTENT)
        g_string_append (out, ", \"persistent\": true");
      else
        g_string_append_printf (out, ", \"rated_mts\": %u", pairs_sorts[i].mts);
      g_string_append_c (out, '}');
    }
  g_string_append (out, "}");
}

/* Channels A, B, … of up to three slots; two by two in any order, one pair less now and then. */
static void
write_board (GRand *rand, GString *out, guint n_sockets, guint n_channels, guint *depth)
{
  static const char *const alike[] = { "capacity", "organisation", "part" };
  guint order[8], keep = n_channels / 2 - random_rarely (rand, 8), same = random_pick (rand, 4);

  g_string_append_printf (out, "\"layout\": {\"sockets\": %u, \"slots\": [", n_sockets);
  for (guint c = 0; c < n_channels; c++)
    {
      guint with = random_pick (rand, c + 1);

      order[c] = order[with];
      order[with] = c;
      depth[c] = same > 0 ? same : 1 + random_pick (rand, 3);
      g_string_append_printf (out, "%s%u", c > 0 ? ", " : "", depth[c]);
    }
  g_string_append (out, "]}, \"board\": {\"modes\": [{\"id\": \"mirrored\", \"pairs\": [");
  for (guint i = 0; i < MAX (keep, 1); i++)
    g_string_append_printf (out, "%s[\"%c\", \"%c\"]", i > 0 ? ", " : "", 'A' + order[2 * i],
                            'A' + order[2 * i + 1]);
  g_string_append_printf (
      out, "], \"alike\": \"%s\", \"source\": \"invented\"}]}, \"mode\": \"mirrored\", ",
      alike[random_pick (rand, G_N_ELEMENTS (alike))]);
}

/* Few sorts, so that most find one like it; a first slot is seldom empty. */
FiguresCase *
pairs_machine_draw (GRand *rand)
{
  g_autoptr (GString) out = g_string_new ("{"), unseen = g_string_new (NULL);
  GString *where[PAIRS_SORTS];
  guint n_sockets = 1 + random_rarely (rand, 3), n_channels = 2 * (1 + random_pick (rand, 3));
  guint depth[8], mine[3], empty = 1 + random_pick (rand, 4);

  for (guint i = 0; i < PAIRS_SORTS; i++)
    where[i] = g_string_new (NULL);
  for (guint i = 0; i < G_N_ELEMENTS (mine); i++)
    mine[i] = random_pick (rand, PAIRS_PLAIN);
  write_board (rand, out, n_sockets, n_channels, depth);
  for (guint s = 1; s <= n_sockets; s++)
    for (guint c = 0; c < n_channels; c++)
      for (guint k = 1; k <= depth[c]; k++)
        {
          guint sort = random_rarely (rand, 40) ? PAIRS_PERSISTENT : mine[random_pick (rand, 3)];

          if (random_rarely (rand, k == 1 ? 8 : empty))
            continue;
          g_string_append_printf (where[sort], "%s%u-%c%u", where[sort]->len > 0 ? " " : "", s,
                                  'A' + c, k);
          if (random_rarely (rand, 40))
            g_string_append_printf (unseen, "%s%u-%c%u", unseen->len > 0 ? " " : "", s, 'A' + c, k);
        }
  write_modules (out);
  g_string_append (out, ", \"put\": {");
  for (guint i = 0, n = 0; i < PAIRS_SORTS; i++)
    {
      if (where[i]->len > 0)
        g_string_append_printf (out, "%s\"%u\": \"%s\"", n++ > 0 ? ", " : "", i, where[i]->str);
      g_string_free (where[i], TRUE);
    }
  g_string_append_c (out, '}');
  if (unseen->len > 0)
    g_string_append_printf (out, ", \"not_seen\": \"%s\"", unseen->str);
  g_string_append_c (out, '}');
  return figures_case_parse ("%s", out->str);
}

guint
pairs_sort_of (const LidModule *module)
{
  guint i = 0;

  if (module->persistent)
    return PAIRS_PERSISTENT;
  if (!lid_module_knows (module, LID_FACT_RANKS))
    return PAIRS_UNTOLD;
  while (pairs_sorts[i].mib != lid_module_capacity (module)
         || (gint32)pairs_sorts[i].ranks != module->value[LID_FACT_RANKS]
         || (gint32)pairs_sorts[i].width != module->value[LID_FACT_CHIP_WIDTH]
         || (pairs_sorts[i].mts == 2933) != (module->value[LID_FACT_RATED] == 8800))
    i++;
  return i;
}
