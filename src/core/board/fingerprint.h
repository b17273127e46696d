/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "board/board.h"
#include "inventory/inventory.h"

/* What tells one kind of machine from another: product.md 3. */
LidFingerprint *lid_fingerprint_of (const LidInventory *inventory);
char *lid_fingerprint_locators (const LidInventory *inventory);
void lid_fingerprint_free (LidFingerprint *print);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (LidFingerprint, lid_fingerprint_free)
GPtrArray *lid_fingerprint_compare (const LidFingerprint *seen, const LidFingerprint *kept);
