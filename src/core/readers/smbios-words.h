/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "base/bytes.h"

guint8 lid_smbios_words_form (LidBytes text);
guint8 lid_smbios_words_type (LidBytes text);
guint8 lid_smbios_words_technology (LidBytes text);
guint8 lid_smbios_words_use (LidBytes text);
guint8 lid_smbios_words_ecc (LidBytes text);
guint16 lid_smbios_words_detail (LidBytes text);
gint64 lid_smbios_words_size_kib (LidBytes text);
guint lid_smbios_words_number (LidBytes text, const char *unit_a, const char *unit_b);
guint lid_smbios_words_millivolts (LidBytes text);
guint64 lid_smbios_words_address (LidBytes text, gboolean *told);
gint32 lid_smbios_words_handle (LidBytes text);
