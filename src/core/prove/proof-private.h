/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "prove/proof.h"

/* Shared by the files of this folder only. */
LidProof *lid_proof_begin (const LidJob *job, const LidPopulation *planned);
LidProofSlot *lid_proof_add_slot (LidProof *proof, int slot);
void lid_proof_finish (LidProof *proof);
LidRate lid_proof_expected_at (const LidProof *proof, guint slot);
int *lid_proof_map (const LidBoard *board, const LidInventory *inventory, guint8 *by_place);
gboolean lid_proof_is_slow (const LidProof *proof);
gboolean lid_proof_is_total_as_planned (const LidProof *proof);
void lid_proof_find_moved (LidProof *proof);
gboolean lid_proof_holds_another (const LidProof *proof, guint slot);
LidModule **lid_proof_modules_left (const LidProof *proof, LidJob *job);
gboolean lid_proof_is_told_serial (const char *serial);
void lid_proof_look_whose (LidProof *proof, const LidInventory *inventory, const int *map);
void lid_proof_advise (LidProof *proof);
guint lid_proof_mark (const LidProof *proof, LidVerdict verdict, guint8 *slots);
void lid_proof_say_disabled (LidProof *proof, const guint8 *slots);
void lid_proof_say_missing (LidProof *proof, const guint8 *slots);
void lid_proof_say_hands (LidProof *proof);
void lid_proof_say (LidProof *proof, const char *format, ...) G_GNUC_PRINTF (2, 3);
void lid_proof_say_short (LidProof *proof);
char *lid_proof_names (const LidBoard *board, const guint8 *slots);
