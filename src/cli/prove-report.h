/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "prove/proof.h"

void lid_prove_report_json (GString *out, const char *source, const LidProof *proof);
void lid_prove_report_text (GString *out, const char *source, const LidProof *proof);
