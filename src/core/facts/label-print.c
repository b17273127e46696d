/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "facts/label.h"

#include "facts/label-tables.h"

/* The short form's words for each kind; no hyphens, since a hyphen means a label. */
static const char *const kind_words[LID_N_KINDS] = {
  [LID_KIND_UNBUFFERED] = "unbuffered",
  [LID_KIND_ECC_UNBUFFERED] = "ECC unbuffered",
  [LID_KIND_REGISTERED] = "registered",
  [LID_KIND_LOAD_REDUCED] = "load reduced",
  [LID_KIND_SO_UNBUFFERED] = "SODIMM unbuffered",
  [LID_KIND_SO_ECC_UNBUFFERED] = "SODIMM ECC unbuffered",
  [LID_KIND_SO_REGISTERED] = "SODIMM registered",
  [LID_KIND_CLOCKED_UNBUFFERED] = "clocked unbuffered",
  [LID_KIND_SO_CLOCKED_UNBUFFERED] = "SODIMM clocked unbuffered",
  [LID_KIND_MULTIPLEXED_RANK] = "multiplexed rank",
  [LID_KIND_FULLY_BUFFERED] = "fully buffered",
};

static void
print_head (const LidLabel *label, GString *out)
{
  if (label->capacity_mib % 1024 == 0)
    g_string_append_printf (out, "%uGB", label->capacity_mib / 1024);
  else
    g_string_append_printf (out, "%uMB", label->capacity_mib);
  if (label->ranks > 0)
    g_string_append_printf (out, " %u", label->ranks);
  if (label->stack == LID_STACK_DUAL)
    g_string_append_c (out, 'D');
  if (label->stack == LID_STACK_3DS)
    g_string_append_printf (out, "S%u", label->stack_height);
  if (label->ranks > 0)
    g_string_append_c (out, 'R');
  if (label->chip_width > 0)
    g_string_append_printf (out, "%sx%u", label->ranks > 0 ? "" : " ", label->chip_width);
}

static void
print_short_form (const LidLabel *label, GString *out)
{
  /* What the kind says by itself is not printed. */
  gboolean says_ecc = label->kind == LID_KIND_ECC_UNBUFFERED
                      || label->kind == LID_KIND_SO_ECC_UNBUFFERED
                      || label->kind == LID_KIND_REGISTERED || label->kind == LID_KIND_LOAD_REDUCED;
  gboolean says_none = label->kind == LID_KIND_UNBUFFERED || label->kind == LID_KIND_SO_UNBUFFERED;

  if (label->generation != LID_GENERATION_UNKNOWN)
    g_string_append_printf (out, " %s",
                            label->generation == LID_GENERATION_DDR2_FB
                                ? "DDR2"
                                : lid_generation_to_text (label->generation));
  if (label->voltage_mark != 0)
    g_string_append_c (out, label->voltage_mark);
  if (label->rated != LID_RATE_UNKNOWN)
    g_string_append_printf (out, " %u", lid_rate_mts (label->rated));
  if (kind_words[label->kind] != NULL)
    g_string_append_printf (out, " %s", kind_words[label->kind]);
  else if (label->outline == LID_FORM_DIMM)
    g_string_append (out, " DIMM");
  if (label->ecc > 0 && !says_ecc)
    g_string_append (out, " ECC");
  if (label->ecc == 0 && !says_none)
    g_string_append (out, " non ECC");
}

static void
print_card (const LidLabel *label, GString *out)
{
  g_string_append (out, label->card);
  if (label->card_revision != 0)
    g_string_append_c (out, label->card_revision);
}

static void
print_tail (const LidLabel *label, GString *out)
{
  if (label->generation == LID_GENERATION_DDR3)
    {
      g_string_append_printf (out, "%s%c",
                              lid_label_tables_bandwidth_name (LID_GENERATION_DDR3, label->rated),
                              label->type);
      if (label->cl[0] != 0)
        g_string_append_printf (out, "-%s", label->cl);
      if (label->spd_revision[0] != 0)
        {
          g_string_append_printf (out, "-%s-", label->spd_revision);
          print_card (label, out);
        }
    }
  else
    {
      g_string_append_printf (out, "%u%s-%c", lid_rate_mts (label->rated), label->grade,
                              label->type);
      print_card (label, out);
      if (label->spd_revision[0] != 0)
        g_string_append_printf (out, "-%s%s", label->spd_revision, label->module_revision);
      if (label->temperature[0] != 0)
        g_string_append_printf (out, "-%s", label->temperature);
    }
  if (label->maker_suffix[0] != 0)
    g_string_append_printf (out, "-%s", label->maker_suffix);
}

/**
 * lid_label_print:
 * @label: a label that was read
 *
 * The normal form: one blank between the parts, small x, GB where it is whole GB; quantity and the
 * QR code's tags are dropped; the figures of CL stay as printed. Reading it again gives the same
 * fields.
 *
 * Returns: (transfer full): the text; for the short form, words that read as the same short form
 */
char *
lid_label_print (const LidLabel *label)
{
  GString *out = g_string_new (NULL);

  print_head (label, out);
  if (label->form == LID_LABEL_SHORT_FORM)
    print_short_form (label, out);
  else
    {
      g_string_append_printf (out, " PC%u", 3 + (guint)(label->generation - LID_GENERATION_DDR3));
      if (label->voltage_mark != 0)
        g_string_append_c (out, label->voltage_mark);
      g_string_append_c (out, '-');
      print_tail (label, out);
    }
  return g_string_free (out, FALSE);
}
